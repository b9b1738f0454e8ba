//! `grommet-missing`: a grommet in each knock-out of a metal box that a cable comes through (BS 7671 522.8.11, from
//! memory, for the sharp edge; a maker's instructions for the grommet).

use crate::{
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::{Edit, Subject},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    for location in ctx.exercise().locations.ids() {
        let used = work.ends_at(location).any(|it| work.prep_of(it).is_some() && work.terminal_of(it).is_some());
        if used && work.wants_grommet(location) && !work.has_grommet(location) {
            let draft = Draft::new(Code::GrommetMissing, Subject::Location(location), Weight::Major);
            found.push(draft.mended_by(Edit::Grommet(location, true)));
        }
    }
}
