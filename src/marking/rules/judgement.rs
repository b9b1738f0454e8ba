//! `judgement-wrong`: a result is acceptable or not by the published limit, and the learner says so. At the limit, to within
//! the tolerance of a figure, either is right.

use crate::{
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
        limit::is_acceptable,
    },
    work::Subject,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let exercise = ctx.exercise();
    for (test, device, entry) in ctx.safety.testing().sheet() {
        let Some(shown) = &entry.shown else { continue };
        let right = if test.has_figure() { is_acceptable(exercise, device, test, shown) } else { Some(entry.sound) };
        if right.is_some_and(|it| it != entry.accepted) {
            found.push(
                Draft::new(Code::JudgementWrong, Subject::Test(test, device), Weight::Major)
                    .seen(Seen::InAction(entry.action)),
            );
        }
    }
}
