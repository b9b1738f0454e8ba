//! `nicked`: the strippers cut into the copper, which breaks there later (common practice).

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
        let Some(prep) = work.prep_of(end).filter(|it| it.nicked) else { continue };
        let draft = Draft::new(Code::Nicked, work.subject_of(end), Weight::Major);
        found.push(draft.mended_by(Edit::Prepare(end, Prep { nicked: false, ..prep })));
    }
}
