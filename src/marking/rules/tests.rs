//! `test-missing`, `test-incomplete`, `test-not-repeated`, `test-order`, `instrument-set-wrong`, `function-untested`: every
//! test that the exercise asks for is made, written down, in the accepted order, with circuit and instrument set for it, and
//! made again after work that may have touched it; the switches are worked last (BS 7671 643, numbers from memory; order in
//! trade/facts.md 6.2).

use crate::{
    attempt::{Kept, stage_of},
    exercise::{Exercise, Stage},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    work::Subject,
};

use super::{finished::trips_no_more, left};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let (exercise, testing) = (ctx.exercise(), ctx.safety.testing());
    for stage in exercise.stages.iter().copied().filter(|it| is_test(exercise, *it)) {
        // What could not be tested because something opened follows from what opened it.
        let follows = stage.is_live_test() && trips_no_more(ctx);
        if !ctx.safety.is_done(exercise, stage) && !follows {
            let (code, about) = match wants(stage) {
                _ if testing.is_voided(stage) => (Code::TestNotRepeated, ""),
                Some(wants) if testing.is_tried(stage) && !testing.is_read(exercise, stage) => {
                    (Code::TestIncomplete, wants)
                }
                _ => (Code::TestMissing, ""),
            };
            found.push(Draft::new(code, Subject::Stage(stage), Weight::Major).about(about));
        }
    }
    for (stage, action) in testing.early(exercise) {
        found.push(Draft::new(Code::TestOrder, Subject::Stage(stage), Weight::Major).seen(Seen::InAction(action)));
    }
    let mut badly: Vec<(Stage, &Kept)> =
        testing.readings().filter(|it| !it.1.well_set).map(|(key, it)| (stage_of(key.0), it)).collect();
    badly.sort_by_key(|it| (it.0, it.1.action));
    badly.dedup_by_key(|it| it.0);
    for (stage, it) in badly.into_iter().filter(|it| exercise.asks(it.0)) {
        let draft = Draft::new(Code::InstrumentSetWrong, Subject::Stage(stage), Weight::Major);
        found.push(draft.seen(Seen::InAction(it.action)));
    }
    let functional = exercise.asks(Stage::FunctionalTest) && exercise.weights.functional_test > 0;
    let is_left = || left::keeps_from_working(ctx);
    if functional && !ctx.safety.settings_left(exercise).is_empty() && !trips_no_more(ctx) && !is_left() {
        found.push(Draft::new(Code::FunctionUntested, Subject::Stage(Stage::FunctionalTest), Weight::Major));
    }
}

/// How a circuit must stand for the readings of a stage, as a word of the catalogue.
const fn wants(stage: Stage) -> Option<&'static str> {
    match stage {
        Stage::Continuity => Some("wants-link"),
        Stage::Insulation => Some("wants-closed"),
        Stage::Polarity => Some("wants-lamps-out"),
        _ => None,
    }
}

/// Whether a stage is judged here: the tests of an exercise that has a test sheet, and the inspection.
pub(in crate::marking) fn is_test(exercise: &Exercise, stage: Stage) -> bool {
    match stage {
        Stage::Continuity => exercise.has_test_sheet(),
        _ => stage == Stage::Inspection || stage.is_read(),
    }
}
