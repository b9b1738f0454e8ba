//! Lanes: at which height each conductor crosses from its rest to its terminal.
//!
//! Two level pieces never lie on one another, and conductors that go the same way do not cross each other. Geometry
//! only.

use std::collections::BTreeMap;

use crate::{
    exercise::{EndId, LocationId},
    work::Work,
};

/// A conductor on its way across.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Crossing {
    /// From the rest of a core's end to the terminal it is in.
    Down { end: EndId, rest: f32, slot: f32 },
    /// From a terminal to the rest where the link's other end stands free.
    Up { end: EndId, rest: f32, slot: f32 },
    /// From one terminal to another.
    Over { end: EndId, slots: [f32; 2] },
}

impl Crossing {
    /// Where it comes from and where it goes.
    pub fn ends(&self) -> [f32; 2] {
        match *self {
            Self::Down { rest, slot, .. } | Self::Up { rest, slot, .. } => [rest, slot],
            Self::Over { slots, .. } => slots,
        }
    }

    fn family(&self) -> u8 {
        let [from, to] = self.ends();
        match self {
            Self::Over { .. } => 2,
            _ if to > from => 0,
            _ => 1,
        }
    }

    fn span(&self) -> [f32; 2] {
        let [from, to] = self.ends();
        [from.min(to) - 14.0, from.max(to) + 14.0]
    }
}

/// Every run of a location with its lane from 0 at the top, and how many lanes there are.
pub(super) fn lanes(
    work: &Work,
    location: LocationId,
    rests: &BTreeMap<EndId, f32>,
    slots: &BTreeMap<EndId, f32>,
) -> (Vec<(Crossing, usize)>, usize) {
    let own = work.exercise().conductors.len();
    let mut runs = Vec::new();
    for (end, slot) in slots.iter().filter(|(it, _)| work.end_location(**it) == location) {
        let (end, slot) = (*end, *slot);
        let other = end.other();
        if end.conductor() < own {
            runs.extend(rests.get(&end).map(|rest| Crossing::Down { end, rest: *rest, slot }));
        } else if let Some(rest) = rests.get(&other) {
            runs.push(Crossing::Up { end, rest: *rest, slot });
        } else if let Some(far) = slots.get(&other).filter(|_| end < other) {
            runs.push(Crossing::Over { end, slots: [slot, *far] });
        }
    }
    give_lanes(runs)
}

fn give_lanes(mut runs: Vec<Crossing>) -> (Vec<(Crossing, usize)>, usize) {
    // Of those that go right the rightmost is uppermost, of those that go left the leftmost.
    runs.sort_by(|a, b| {
        let key = |it: &Crossing| if it.family() == 0 { -it.ends()[0] } else { it.ends()[0] };
        a.family().cmp(&b.family()).then(key(a).total_cmp(&key(b)))
    });
    let mut given: Vec<(Crossing, usize)> = Vec::new();
    for run in runs {
        let meets = |it: &Crossing| it.span()[0] < run.span()[1] && run.span()[0] < it.span()[1];
        let below = given.iter().filter(|(it, _)| it.family() == run.family() && meets(it)).map(|(_, lane)| lane + 1);
        let mut lane = below.max().unwrap_or(0);
        while given.iter().any(|(it, taken)| *taken == lane && meets(it)) {
            lane += 1;
        }
        given.push((run, lane));
    }
    let count = given.iter().map(|(_, lane)| lane + 1).max().unwrap_or(0);
    given.sort_by_key(|(_, lane)| *lane);
    (given, count)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn down(number: u16, rest: f32, slot: f32) -> Crossing {
        Crossing::Down { end: EndId(number), rest, slot }
    }

    #[test]
    fn runs_that_go_the_same_way_do_not_cross_and_none_lie_on_one_another() {
        let (given, count) =
            give_lanes(vec![down(0, 0.0, 198.0), down(2, 36.0, 234.0), down(4, 72.0, 270.0), down(6, 400.0, 418.0)]);
        let lane = |number: u16| {
            given.iter().find(|(it, _)| matches!(it, Crossing::Down { end, .. } if end.0 == number)).map(|it| it.1)
        };
        assert_eq!([lane(4), lane(2), lane(0)], [Some(0), Some(1), Some(2)]);
        assert_eq!(lane(6), Some(0), "far enough away to share a lane");
        assert_eq!(count, 3);
    }
}
