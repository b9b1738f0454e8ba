//! When a lamp is lit, position by position.

use crate::{
    circuit::{Glow, Row, rows},
    work::Work,
};

/// When a lamp is lit: a yes or no for each position of the switches of a work with one lamp.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LampGrid {
    switches: usize,
    /// In counting order, the last switch fastest.
    lit: Vec<bool>,
}

impl LampGrid {
    /// Most switches of a grid.
    pub const SWITCHES: usize = 8;

    /// By the solver; `None` where there is another number of lamps than one, a switch with other than two positions, or more switches than
    /// [`Self::SWITCHES`].
    pub fn of(work: &Work) -> Option<Self> {
        let exercise = work.exercise();
        let is_plain = exercise.lamps.len() == 1
            && exercise.switches.len() <= Self::SWITCHES
            && exercise.switches.iter().all(|it| it.way.positions() == 2);
        is_plain.then(|| Self::of_rows(&rows(work)))
    }

    /// Of two switches, by the position of the near one and then of the far one: what is wanted, say.
    pub fn two(lit: [[bool; 2]; 2]) -> Self {
        Self { switches: 2, lit: lit.concat() }
    }

    /// Of rows in counting order, of one lamp.
    pub(super) fn of_rows(rows: &[Row]) -> Self {
        let lit = rows.iter().map(|it| it.lamps.iter().any(|lamp| lamp.glow == Glow::Lit)).collect();
        Self { switches: rows.first().map_or(0, |it| it.positions.len()), lit }
    }

    /// Whether it is lit, in counting order of the positions, the last switch fastest.
    pub fn lit(&self) -> &[bool] {
        &self.lit
    }

    /// For each switch whether some toggle of it changes the lamp.
    pub(super) fn matters(&self) -> Vec<bool> {
        let changes = |switch: usize| {
            let step = 1 << (self.switches - 1 - switch);
            (0..self.lit.len()).any(|it| self.lit[it] != self.lit[it ^ step])
        };
        (0..self.switches).map(changes).collect()
    }

    /// The setting that shows best what the lamp does not do: that in which most of the switches can be pressed and nothing changes. Of
    /// several one with the lamp out, then the first; `None` where every press changes the lamp.
    pub fn tells_most(&self) -> Option<Vec<u8>> {
        let idle = |at: usize| (0..self.switches).filter(|it| self.lit[at] == self.lit[at ^ (1 << it)]).count();
        let most = (0..self.lit.len()).rev().max_by_key(|it| (idle(*it), !self.lit[*it]))?;
        let position = |switch: usize| (most >> (self.switches - 1 - switch) & 1) as u8;
        (idle(most) > 0).then(|| (0..self.switches).map(position).collect())
    }

    /// Of two switches: whether it is lit, by the position of the near one and then of the far one.
    pub fn of_two(&self) -> Option<[[bool; 2]; 2]> {
        match self.lit[..] {
            [a, b, c, d] => Some([[a, b], [c, d]]),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand, from the four squares of each grid.
    #[test]
    fn the_setting_that_tells_most_is_one_where_pressing_does_nothing() {
        let [no, yes] = [false, true];
        let tells = |lit: [[bool; 2]; 2]| LampGrid::two(lit).tells_most();
        // Each press changes the lamp.
        assert_eq!(tells([[no, yes], [yes, no]]), None);
        // Lit in one: at the opposite corner neither switch does anything.
        assert_eq!(tells([[no, yes], [no, no]]), Some(vec![1, 0]));
        assert_eq!(tells([[no, no], [yes, no]]), Some(vec![0, 1]));
        // Out in one: at the opposite corner it stays lit.
        assert_eq!(tells([[yes, no], [yes, yes]]), Some(vec![1, 0]));
        // Only the near switch works it: with the lamp out, the far one does nothing.
        assert_eq!(tells([[yes, yes], [no, no]]), Some(vec![1, 0]));
        assert_eq!(tells([[no, no], [no, no]]), Some(vec![0, 0]));
    }
}
