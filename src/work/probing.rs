//! Where the two probes go next: the dead tests that a place still needs, as points to touch.
//!
//! It offers; the learner takes the reading. What counts as tested is [`super::Safety`]'s to say.

use super::{
    attempt::Attempt,
    safety::Probe,
    state::{Point, Work},
};
use crate::exercise::{LocationId, TerminalId, TerminalUse};

/// One dead test to do.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct DeadTest {
    /// How the switches stand for it.
    pub positions: Vec<u8>,
    /// One probe.
    pub a: Point,
    /// The other.
    pub b: Point,
}

/// The dead tests that a place still needs, those for the present setting first.
pub fn dead_tests_left(attempt: &Attempt, location: LocationId) -> Vec<DeadTest> {
    let work = attempt.work();
    let mut left: Vec<DeadTest> = attempt
        .safety()
        .tests_left(work, location)
        .into_iter()
        .filter_map(|(positions, a, probe)| {
            let b = match probe {
                Probe::Conductor(it) => it,
                Probe::Earth => earth_for(work, location)?,
            };
            Some(DeadTest { positions, a, b })
        })
        .collect();
    left.sort_by_key(|it| it.positions != work.positions());
    left
}

/// Something earthed that the second probe reaches: at the place itself, failing that the earthing terminal by the board.
fn earth_for(work: &Work, location: LocationId) -> Option<Point> {
    let exercise = work.exercise();
    let here = work.ends_at(location).map(|it| work.point_of(it)).find(|it| work.is_earthed(*it));
    here.or_else(|| {
        let bar = exercise.terminals.iter().position(|it| it.used_by == TerminalUse::EarthBar)?;
        Some(Point::Terminal(TerminalId(bar as u16)))
    })
}
