//! Every slip of the hand that could be taken back: an end moved, two ends exchanged.

use super::view::Move;
use crate::{
    exercise::{EndId, TerminalId},
    work::{Edit, Work},
};

/// Where every end is, perhaps after a first slip is taken back.
#[derive(Clone)]
pub(super) struct Stand<'a> {
    work: &'a Work,
    at: Vec<Option<TerminalId>>,
    /// Number of ends in each terminal.
    filled: Vec<usize>,
}

impl<'a> Stand<'a> {
    pub fn new(work: &'a Work) -> Self {
        let at: Vec<Option<TerminalId>> = work.ends().map(|it| work.terminal_of(it)).collect();
        let mut filled = vec![0; work.exercise().terminals.len()];
        at.iter().flatten().for_each(|it| filled[it.index()] += 1);
        Self { work, at, filled }
    }

    /// The same after some moves.
    pub fn after(&self, moves: &[Move]) -> Self {
        let mut stand = self.clone();
        for (end, to) in moves {
            let was = std::mem::replace(&mut stand.at[end.index()], *to);
            if let Some(was) = was {
                stand.filled[was.index()] -= 1;
            }
            if let Some(to) = to {
                stand.filled[to.index()] += 1;
            }
        }
        stand
    }

    /// Each of some ends moved to every other terminal of its place.
    pub fn moves(&self, ends: &[EndId]) -> Vec<Vec<Move>> {
        let (work, exercise) = (self.work, self.work.exercise());
        let mut moves = Vec::new();
        for end in ends.iter().copied() {
            let here = self.at[end.index()];
            // A link that should never have been made is put right by taking it out again.
            if work.cable_of(end.conductor()).is_none() && here.is_some() {
                moves.push(vec![(end, None)]);
            }
            for terminal in exercise.terminals_at(work.end_location(end)) {
                let room = self.filled[terminal.index()] < exercise.terminals[terminal].capacity.conductors;
                if here != Some(terminal) && room && self.suits(end, terminal) {
                    moves.push(vec![(end, Some(terminal))]);
                }
            }
        }
        moves
    }

    /// Every two of some ends that are at one place, exchanged.
    pub fn exchanges(&self, ends: &[EndId]) -> Vec<Vec<Move>> {
        let mut by_place: Vec<Vec<EndId>> = vec![Vec::new(); self.work.exercise().locations.len()];
        for it in ends {
            by_place[self.work.end_location(*it).index()].push(*it);
        }
        let mut done = vec![0; by_place.len()];
        let mut all = Vec::new();
        for a in ends {
            let place = self.work.end_location(*a).index();
            done[place] += 1;
            // Exchanged with a loose end, it would only hang loose in its turn.
            let Some(here) = self.at[a.index()] else { continue };
            for b in &by_place[place][done[place]..] {
                let Some(there) = self.at[b.index()] else { continue };
                if here != there && self.suits(*a, there) && self.suits(*b, here) {
                    all.push(vec![(*a, Some(there)), (*b, Some(here))]);
                }
            }
        }
        all
    }

    /// All moves, and then all exchanges.
    pub fn slips(&self, ends: &[EndId]) -> Vec<Vec<Move>> {
        [self.moves(ends), self.exchanges(ends)].concat()
    }

    /// Whether a repair may put an end in a terminal: live cores in no earth terminal, protective ones in no other.
    fn suits(&self, end: EndId, terminal: TerminalId) -> bool {
        let is_earth = self.work.exercise().is_for_earth(terminal);
        self.work.end_facts(end).colour.is_protective() == is_earth
    }
}

/// Moves as edits of the work.
pub(super) fn edits(moves: &[Move]) -> Vec<Edit> {
    moves.iter().map(|(end, to)| Edit::Move(*end, *to)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::attempt::open;

    /// What a first slip fills is full for the second, and what it leaves has room.
    #[test]
    fn after_a_slip_its_terminal_has_one_more_in_it() {
        let model = include_str!("../../../exercises/two-way-passage/model.attempt.ron");
        let work = open(model).unwrap().replay().unwrap().work().clone();
        let exercise = work.exercise();
        let stand = Stand::new(&work);
        let ends: Vec<EndId> = work.ends().collect();
        let moves = stand.moves(&ends);
        // A terminal with room for one more.
        let (end, to) = moves
            .iter()
            .filter_map(|it| Some((it[0].0, it[0].1?)))
            .find(|(_, to)| stand.filled[to.index()] + 1 == exercise.terminals[*to].capacity.conductors)
            .unwrap();
        let goes_there =
            |stand: &Stand<'_>| stand.moves(&ends).iter().filter(|it| it[0].1 == Some(to) && it[0].0 != end).count();
        assert!(goes_there(&stand) > 0);
        let after = stand.after(&[(end, Some(to))]);
        assert_eq!(goes_there(&after), 0);
        let back = after.after(&[(end, work.terminal_of(end))]);
        assert_eq!(goes_there(&back), goes_there(&stand));
    }
}
