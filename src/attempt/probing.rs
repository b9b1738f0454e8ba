//! What is still to be done before a place is proved dead, as steps to do and points to touch.
//!
//! It offers steps; the learner takes the readings. What counts as tested is [`super::Safety`]'s to say.

use super::{
    log::Attempt,
    safety::{Asked, Probe, Safety},
};
use crate::{
    exercise::{LocationId, UnmarkedId},
    work::{Point, Work},
};

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

/// One step on the way to a place that is proved dead.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum DeadStep {
    /// Read by the long lead from the reference's earth, to show that something is an earth.
    Show {
        /// The reference's earth.
        from: Point,
        /// What is to be shown.
        earth: Point,
    },
    /// Prove the indicator: before a round, and after it.
    Prove,
    /// Park a probe on an earth that was shown to be one.
    Park(Point),
    /// Take it off: the next pair does not use it.
    Unpark,
    /// Touch two points.
    Touch(DeadTest),
    /// Say whether what was tested is dead.
    Conclude,
}

/// What a place still needs before it is proved dead, in a workable order; nothing where it is proved. While an earth
/// is still to be shown, the later steps assume that it will be.
pub fn dead_steps_left(attempt: &Attempt, location: LocationId) -> Vec<DeadStep> {
    steps_left(attempt.work(), attempt.safety(), location)
}

/// [`dead_steps_left`], of the parts of an attempt.
pub(super) fn steps_left(work: &Work, safety: &Safety, location: LocationId) -> Vec<DeadStep> {
    let mut steps = Vec::new();
    if safety.is_all_proved(work, location) {
        return steps;
    }
    let tests = tests_left(work, safety, location);
    let Some(reference) = safety.reference() else {
        if !tests.is_empty() && !safety.is_testing() {
            steps.push(DeadStep::Prove);
        }
        steps.extend(tests.into_iter().map(DeadStep::Touch));
        steps.push(DeadStep::Prove);
        return steps;
    };
    let earth = safety.earth_for(work, location);
    if let Some(earth) = earth.filter(|it| !tests.is_empty() && !safety.is_shown(*it)) {
        steps.push(DeadStep::Show { from: Point::Terminal(reference.earth), earth });
    }
    let is_all_touched = safety.is_all_touched(work, location);
    if (!tests.is_empty() || !is_all_touched) && !safety.is_testing() {
        steps.push(DeadStep::Prove);
    }
    let mut parked = safety.parked().filter(|_| safety.is_testing());
    for test in tests {
        if Some(test.b) == earth {
            if parked != earth {
                steps.push(DeadStep::Park(test.b));
                parked = earth;
            }
        } else if parked.take().is_some() {
            steps.push(DeadStep::Unpark);
        }
        steps.push(DeadStep::Touch(test));
    }
    if !is_all_touched {
        steps.push(DeadStep::Prove);
    }
    steps.push(DeadStep::Conclude);
    steps
}

/// The dead tests that a place still needs, those for the present setting first. Against an earth the second point is that earth.
pub fn dead_tests_left(attempt: &Attempt, location: LocationId) -> Vec<DeadTest> {
    tests_left(attempt.work(), attempt.safety(), location)
}

/// [`dead_tests_left`], of the parts of an attempt.
fn tests_left(work: &Work, safety: &Safety, location: LocationId) -> Vec<DeadTest> {
    let mut left: Vec<DeadTest> = match safety.earth_for(work, location) {
        Some(earth) => against(safety.asked_left(work, location), earth),
        None => by_pairs(work, safety, location),
    };
    // No order tells which is which of what has no mark.
    left.sort_by_key(|it| seen_as(work, it.a));
    // Pairs of live conductors last: for them the probe comes off the earth.
    let earth = safety.earth_for(work, location);
    left.sort_by_key(|it| (earth.is_some() && Some(it.b) != earth, it.positions != work.positions()));
    left
}

/// The place of the thing without a mark that a point belongs to, and that of its core; nothing for any other point.
fn seen_as(work: &Work, point: Point) -> Option<(UnmarkedId, usize)> {
    let exercise = work.exercise();
    match point {
        Point::End(it) => {
            let id = exercise.unmarked_end(it)?;
            Some((id, exercise.unmarked_ends(id).into_iter().position(|one| one == it)?))
        }
        Point::Terminal(it) => exercise.unmarked_terminal(it).map(|id| (id, 0)),
    }
}

fn against(asked: Vec<(Vec<u8>, Asked)>, earth: Point) -> Vec<DeadTest> {
    let test = |(positions, asked)| match asked {
        Asked::Earth(a) => (a != earth).then_some(DeadTest { positions, a, b: earth }),
        Asked::LineNeutral(a, b) | Asked::Lines(a, b) => Some(DeadTest { positions, a, b }),
    };
    asked.into_iter().filter_map(test).collect()
}

fn by_pairs(work: &Work, safety: &Safety, location: LocationId) -> Vec<DeadTest> {
    let tests = safety.tests_left(work, location).into_iter();
    tests
        .filter_map(|(positions, a, probe)| {
            let b = match probe {
                Probe::Conductor(it) => it,
                Probe::Earth => earth_for(work, location)?,
            };
            Some(DeadTest { positions, a, b })
        })
        .collect()
}

/// Something earthed that the second probe reaches: at the place itself, failing that the earthing terminal by the board.
fn earth_for(work: &Work, location: LocationId) -> Option<Point> {
    let here = work.ends_at(location).map(|it| work.point_of(it)).find(|it| work.is_earthed(*it));
    here.or_else(|| work.exercise().earth_bars().next().map(Point::Terminal))
}
