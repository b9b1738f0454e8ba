//! `judgement-wrong` and `insulation-low`: a result is acceptable or not by the published limit, and the learner says so. At the limit, to within
//! the tolerance of a figure, either is right. Whatever was said of it, no power comes on over insulation that reads below its limit.

use crate::{
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
        limit::is_acceptable,
    },
    work::{Subject, Test},
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
        let later = || ctx.tally.energised.iter().find(|it| it.action > entry.action);
        if is_insulation(test)
            && right == Some(false)
            && let Some(energised) = later()
        {
            let draft = Draft::new(Code::InsulationLow, Subject::Test(test, device), Weight::Major);
            found.push(draft.seen(Seen::InAction(energised.action)));
        }
    }
}

const fn is_insulation(test: Test) -> bool {
    matches!(test, Test::InsulationLineNeutral | Test::InsulationLineEarth | Test::InsulationNeutralEarth)
}
