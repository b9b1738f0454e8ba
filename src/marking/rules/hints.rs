//! `hint-taken`: each hint that was asked for, where the scenario gives marks for doing without.

use crate::{
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    work::Subject,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    if ctx.exercise().weights.hints == 0 {
        return;
    }
    for (number, action) in ctx.tally.hints.iter().enumerate() {
        let draft = Draft::new(Code::HintTaken, Subject::Hint(number), Weight::Major);
        found.push(draft.seen(Seen::InAction(*action)));
    }
}
