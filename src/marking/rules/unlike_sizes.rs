//! `unlike-sizes`: two conductors under one screw, one far thicker, so that the screw does not reach the other (BS 7671
//! 526.2, from memory). A fold doubles the thinner.

use crate::{
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::Edit,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    for end in work.ends().filter(|it| work.fit_of(*it).is_some_and(|it| it.unlike)) {
        let draft = Draft::new(Code::UnlikeSizes, work.subject_of(end), Weight::Major);
        found.extend(work.well_made(end).map(|it| draft.mended_by(Edit::Prepare(end, it))));
    }
}
