//! `diagnosis-missing`, `diagnosis-wrong` and `diagnosis-unproved`: what the learner said is wrong, against what is, and against what the
//! readings left open.

use crate::{
    exercise::Stage,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    work::Subject,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let exercise = ctx.exercise();
    if !exercise.asks(Stage::Diagnosis) {
        return;
    }
    let at = Subject::Stage(Stage::Diagnosis);
    let Some(said) = ctx.tally.diagnoses.last() else {
        found.push(Draft::new(Code::DiagnosisMissing, at, Weight::Major));
        return;
    };
    let Some(search) = ctx.before.search() else { return };
    let code = if !search.alike.contains(&said.suspect) {
        Code::DiagnosisWrong
    } else if search.left.iter().any(|it| !search.alike.contains(it)) {
        Code::DiagnosisUnproved
    } else {
        return;
    };
    found.push(Draft::new(code, at, Weight::Major).seen(Seen::InAction(said.action)));
}
