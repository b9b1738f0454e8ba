//! Joined or not: conductors, terminals and closed contacts as ideal joins, in every combination of switch positions.
//!
//! [`Joined`] is one combination of a work. [`Contacts`] is the plain model under it, [`Layered`] all its combinations at
//! once, however many: what holds in every one, how many there are of each result, what is ever joined to what.

pub(super) mod contacts;
mod ever;
mod lamp;
mod layered;
mod order;
mod states;
mod toggle;

pub use contacts::{Contacts, Pairs};
pub use ever::ever_joined;
pub use lamp::Supplied;
pub use layered::{Class, Layered, STATES, TooMany};
pub use toggle::{Proof, Toggles, WrongToggle};

use crate::{
    exercise::{Join, Sets, TerminalId, TerminalUse},
    trade::colour::Colour,
    work::{Point, Work},
};

/// The joins of a work in one combination of positions.
#[derive(Debug, Clone)]
pub struct Joined {
    sets: Sets,
}

/// What a point is ever joined to, over every combination.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Reach {
    /// A device's outgoing line.
    pub line: bool,
    /// A device's outgoing neutral.
    pub neutral: bool,
    /// The earth bar.
    pub earth: bool,
}

impl Joined {
    /// The joins with the switches set so and every plate fitted.
    pub fn new(work: &Work, positions: &[u8]) -> Self {
        Self { sets: work.joined(Join::is_lasting) }.and_closed(work, positions)
    }

    /// What stands for the set that a terminal is in.
    pub fn root(&mut self, terminal: TerminalId) -> usize {
        self.sets.root(terminal.index())
    }

    /// The same by those conductors alone whose colour is picked, and without plate screws: they are protective conductors of
    /// a kind, and no colour.
    pub fn with(work: &Work, positions: &[u8], only: impl Fn(Colour) -> bool) -> Self {
        Self { sets: work.joined_by(only) }.and_closed(work, positions)
    }

    /// These joins and what every switch of the same work closes besides, set so.
    #[must_use]
    pub fn and_closed(&self, work: &Work, positions: &[u8]) -> Self {
        let mut joined = self.clone();
        for (switch, position) in work.exercise().switches.iter().zip(positions) {
            for [a, b] in switch.closed(usize::from(*position)) {
                joined.sets.join(a.index(), b.index());
            }
        }
        joined
    }

    /// For every terminal and then every end, what some combination of the switches joins it to besides; `None` where that is more
    /// than the layered graph can tell.
    pub fn ever_reach(&self, work: &Work) -> Option<Vec<Reach>> {
        let contacts = Contacts::with(work, self.sets.clone());
        let mut all = vec![Reach::default(); work.point_count()];
        for (index, terminal) in work.exercise().terminals.iter().enumerate() {
            let there = match terminal.used_by {
                TerminalUse::DeviceLine(_) => Reach { line: true, ..Reach::default() },
                TerminalUse::DeviceNeutral(_) => Reach { neutral: true, ..Reach::default() },
                TerminalUse::EarthBar => Reach { earth: true, ..Reach::default() },
                _ => continue,
            };
            let joined = ever_joined(&contacts, index).ok()?;
            all.iter_mut().zip(joined).filter(|it| it.1).for_each(|(all, _)| *all = all.or(there));
        }
        Some(all)
    }

    /// Whether two points are joined.
    pub fn same(&mut self, work: &Work, a: Point, b: Point) -> bool {
        self.sets.same(work.node(a), work.node(b))
    }

    /// For every terminal and then every end, what it is joined to.
    pub fn reach(&mut self, work: &Work) -> Vec<Reach> {
        let mut by_root = vec![Reach::default(); self.sets.count()];
        for (index, terminal) in work.exercise().terminals.iter().enumerate() {
            let Some(reach) = by_root.get_mut(self.sets.root(index)) else { continue };
            match terminal.used_by {
                TerminalUse::DeviceLine(_) => reach.line = true,
                TerminalUse::DeviceNeutral(_) => reach.neutral = true,
                TerminalUse::EarthBar => reach.earth = true,
                _ => {}
            }
        }
        (0..self.sets.count()).map(|it| by_root[self.sets.root(it)]).collect()
    }
}

impl Reach {
    /// What either is joined to.
    #[must_use]
    pub fn or(self, other: Self) -> Self {
        Self { line: self.line || other.line, neutral: self.neutral || other.neutral, earth: self.earth || other.earth }
    }
}
