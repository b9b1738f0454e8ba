//! `sheath-outside`: the sheath comes into the enclosure, so that no core runs outside one (BS 7671 526.8).

use crate::{
    exercise::LocationId,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    trade::workmanship::{HANGING_MM, SHEATH_INSIDE_MM},
    work::{Edit, Subject},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    for (index, cable) in ctx.exercise().cables.iter().enumerate() {
        for location in cable.between {
            let Some(first) = used(ctx, index, location).filter(|_| !work.is_sheath_inside(index, location)) else {
                continue;
            };
            let edit = Edit::Sheath(index, location, HANGING_MM - SHEATH_INSIDE_MM);
            found.push(Draft::new(Code::SheathOutside, first, Weight::Major).mended_by(edit));
        }
    }
}

/// The first core of a cable's end that is in a terminal: a cable's end is no subject of its own.
fn used(ctx: &Context<'_>, cable: usize, location: LocationId) -> Option<Subject> {
    let work = &ctx.work;
    let mut cores = work.cores_at(cable, location).filter(|it| work.terminal_of(*it).is_some());
    cores.next().map(|it| work.subject_of(it))
}
