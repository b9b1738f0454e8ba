//! `prediction-missing` and `prediction-wrong`: what the learner said would happen, against what the wiring, as it then
//! stood, really does.

use crate::{
    attempt::Prediction,
    circuit::{Conditions, Glow, lamp_row, settle},
    exercise::{EndId, Stage},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    work::Subject,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let exercise = ctx.exercise();
    if !exercise.asks(Stage::Prediction) {
        return;
    }
    let left = ctx.safety.predictions_left(exercise);
    if !left.is_empty() {
        found.push(Draft::new(Code::PredictionMissing, Subject::Stage(Stage::Prediction), Weight::Major));
    }
    for (number, prediction) in ctx.tally.predictions.iter().enumerate() {
        if !is_right(ctx, prediction) {
            let draft = Draft::new(Code::PredictionWrong, Subject::Prediction(number), Weight::Major);
            found.push(draft.seen(Seen::InAction(prediction.action)));
        }
    }
}

fn is_right(ctx: &Context<'_>, said: &Prediction) -> bool {
    let exercise = ctx.exercise();
    let mut work = said.work.clone();
    ctx.edits.iter().for_each(|it| work.edit(it));
    let settled = settle(&work, Conditions::complete(exercise, said.positions.clone()));
    // Lamps of other work are on or off for other reasons, and were not asked about.
    let lit = exercise
        .learners_lamps()
        .into_iter()
        .all(|it| (lamp_row(&settled, it).glow == Glow::Lit) == said.lit.contains(&it));
    let live = exercise.predict.iter().all(|conductor| {
        let energised = EndId::of(*conductor).into_iter().any(|it| settled.is_energised(&work, work.point_of(it)));
        energised == said.live.contains(conductor)
    });
    lit && live
}
