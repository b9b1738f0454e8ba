//! `cover-off` and `stage-missing`: nothing is left open, and every stage that the exercise asks for is done.

use crate::{
    circuit,
    exercise::Stage,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::Subject,
};

use super::{left, tests};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let exercise = ctx.exercise();
    for it in exercise.locations.ids() {
        if !ctx.work.is_covered(it) {
            found.push(Draft::new(Code::CoverOff, Subject::Location(it), Weight::Major));
        }
    }
    // What the learner says has a criterion of its own, and so have tests, and working the switches where marks are set for it.
    let elsewhere = |it: Stage| {
        matches!(it, Stage::Prediction | Stage::Diagnosis | Stage::Naming | Stage::Observations)
            || tests::is_test(exercise, it)
            || it == Stage::FunctionalTest && exercise.weights.functional_test > 0
    };
    for stage in exercise.stages.iter().filter(|it| !elsewhere(**it)) {
        // Checks made and then made void by more work count as made: the power came on after them, or it is missing anyway.
        let done = ctx.safety.is_done(exercise, *stage)
            || *stage == Stage::FunctionalTest && (ctx.safety.settings_left(exercise).is_empty() || trips_no_more(ctx))
            || *stage == Stage::EnergisingChecks && ctx.safety.is_done(exercise, Stage::FunctionalTest);
        let is_left = *stage == Stage::FunctionalTest && left::keeps_from_working(ctx);
        if !done && !is_left {
            found.push(Draft::new(Code::StageMissing, Subject::Stage(*stage), Weight::Major));
        }
    }
}

/// Whether something opened on energising and, with the repair on trial, would not have: the functional test that could
/// not be finished then follows from the fault.
pub(super) fn trips_no_more(ctx: &Context<'_>) -> bool {
    let mut tripped = ctx.tally.energised.iter().filter(|it| !it.tripped.is_empty()).peekable();
    tripped.peek().is_some()
        && tripped.all(|energised| {
            let mut work = energised.work.clone();
            ctx.edits.iter().for_each(|it| work.edit(it));
            circuit::opening(&work).is_empty()
        })
}
