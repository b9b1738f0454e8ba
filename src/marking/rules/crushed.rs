//! `crushed`: a screw driven so hard that the conductor is damaged (BS 7671 526.1). Loose and crushed are faults, a torque without a maker's figure is not.

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
        let Some(prep) = work.prep_of(end).filter(|it| it.crushed) else { continue };
        let draft = Draft::new(Code::Crushed, work.subject_of(end), Weight::Major);
        found.push(draft.mended_by(Edit::Prepare(end, Prep { crushed: false, ..prep })));
    }
}
