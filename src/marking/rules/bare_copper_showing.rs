//! `bare-copper-showing`: no bare copper outside a terminal (makers' wiring instructions).

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
    for end in work.ends().filter(|it| work.fit_of(*it).is_some_and(|it| it.outside_mm > 0.0)) {
        let draft = Draft::new(Code::BareCopperShowing, work.subject_of(end), Weight::Major);
        found.extend(work.well_made(end).map(|it| draft.mended_by(Edit::Prepare(end, it))));
    }
}
