//! `conductor-trapped`: a plate has caught a conductor against the box (BS 7671 522.8). The insulation test finds it, in a metal box.

use crate::{
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::{Edit, Prep},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    for end in work.ends().filter(|it| work.terminal_of(*it).is_some()) {
        let Some(prep) = work.prep_of(end).filter(|it| it.trapped) else { continue };
        let draft = Draft::new(Code::ConductorTrapped, work.subject_of(end), Weight::Major);
        found.push(draft.mended_by(Edit::Prepare(end, Prep { trapped: false, ..prep })));
    }
}
