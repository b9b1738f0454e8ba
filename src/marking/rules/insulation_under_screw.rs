//! `insulation-under-screw`: the terminal bites on copper, not on insulation (BS 7671 526.1).

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
    for end in work.ends().filter(|it| work.fit_of(*it).is_some_and(|it| it.short_mm > 0.0)) {
        let draft = Draft::new(Code::InsulationUnderScrew, work.subject_of(end), Weight::Major);
        found.extend(work.well_made(end).map(|it| draft.mended_by(Edit::Prepare(end, it))));
    }
}
