//! `link-left-in`: a test link is out before the power comes on, and at hand-in. It is a short: what trips because of it
//! follows from it.

use crate::{
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    work::{Edit, Work},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let draft = |work: &Work| {
        let at = work.links().first().map(|it| work.subject_at(it[0]))?;
        Some(Draft::new(Code::LinkLeftIn, at, Weight::Critical).mended_by(Edit::TakeLinks))
    };
    let energised = ctx.tally.energised.iter().find_map(|it| {
        let mut work = it.work.clone();
        ctx.edits.iter().for_each(|edit| work.edit(edit));
        draft(&work).map(|draft| draft.seen(Seen::InAction(it.action)))
    });
    let at_hand_in = || draft(&ctx.work).map(|it| Draft { weight: Weight::Major, ..it });
    found.extend(energised.or_else(at_hand_in));
}
