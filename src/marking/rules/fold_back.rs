//! `fold-missing` and `fold-wrong`: a bare end is folded back where the terminal's own data ask for it, and never under a
//! cage, a lever or a spring. Elsewhere the learner may choose.

use crate::{
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::{Edit, Fold},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    for end in work.ends() {
        let code = match work.fit_of(end).map(|it| it.fold) {
            Some(Fold::Missing) => Code::FoldMissing,
            Some(Fold::Wrong) => Code::FoldWrong,
            _ => continue,
        };
        let draft = Draft::new(code, work.subject_of(end), Weight::Major);
        found.extend(work.well_made(end).map(|it| draft.mended_by(Edit::Prepare(end, it))));
    }
}
