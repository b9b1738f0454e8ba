//! `grommet-missing`: a grommet in each knock-out of a metal box that a cable comes through (BS 7671 522.8.11, from
//! memory, for the sharp edge; a maker's instructions for the grommet).

use crate::{
    exercise::LocationId,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::Edit,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    for (index, place) in ctx.exercise().locations.iter().enumerate() {
        let location = LocationId(index as u16);
        let used = work.ends_at(location).any(|it| work.prep_of(it).is_some() && work.terminal_of(it).is_some());
        if used && work.wants_grommet(location) && !work.has_grommet(location) {
            let draft = Draft::new(Code::GrommetMissing, place.id.clone(), Weight::Major);
            found.push(draft.mended_by(Edit::Grommet(location, true)));
        }
    }
}
