//! `name-missing`, `name-wrong` and `name-guessed`: what the learner called each thing without a mark, against what it is and what was read.
//!
//! A guess that came right is charged as a wrong name is: on the next job it is wrong as often as not, and nobody can tell by the label. What the other
//! names leave over is no guess: of things that nothing told apart, one is not charged (`misnamed.rs`).

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
    if !exercise.asks(Stage::Naming) {
        return;
    }
    let naming = ctx.safety.naming();
    for id in exercise.unmarked_ids() {
        let code = match ctx.work.named_as(id) {
            None => Code::NameMissing,
            Some(it) if it != id => Code::NameWrong,
            Some(_) if !naming.is_told(id) => Code::NameGuessed,
            Some(_) => continue,
        };
        let draft = Draft::new(code, Subject::Unmarked(id), Weight::Major);
        found.push(match naming.said_in(id) {
            Some(action) => draft.seen(Seen::InAction(action)),
            None => draft,
        });
    }
}
