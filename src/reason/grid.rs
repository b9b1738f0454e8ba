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

    /// Of two switches: whether it is lit, by the position of the near one and then of the far one.
    pub fn of_two(&self) -> Option<[[bool; 2]; 2]> {
        match self.lit[..] {
            [a, b, c, d] => Some([[a, b], [c, d]]),
            _ => None,
        }
    }
}
