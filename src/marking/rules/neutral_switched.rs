//! `neutral-switched`: a single-pole switch belongs in the line (BS 7671 132.14.1, 132.14.2; numbers from memory).
//!
//! A switch stands in a neutral when working it joins a lamp's contact to a neutral or parts the two.

use crate::{
    circuit::{Joined, Witness},
    exercise::TerminalId,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
        repair::neighbours,
    },
    work::Point,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let exercise = ctx.exercise();
    let on_neutral: Vec<Option<Vec<bool>>> = ctx.settings.iter().map(|it| contacts_on_neutral(ctx, it)).collect();
    for (switch, it) in exercise.switches.iter().enumerate() {
        let parts = |here: &usize| {
            neighbours(exercise, &ctx.settings, &ctx.settings[*here], switch).any(|there| {
                on_neutral[*here].is_some() && on_neutral[there].is_some() && on_neutral[*here] != on_neutral[there]
            })
        };
        if let Some(here) = (0..ctx.settings.len()).find(parts) {
            let witness = Witness { positions: ctx.settings[here].clone(), ..Witness::default() };
            let draft = Draft::new(Code::NeutralSwitched, it.address.clone(), Weight::Critical);
            found.push(draft.seen(Seen::InCase(witness)).mended_by_moves());
        }
    }
}

/// For each contact of each lamp, whether it is joined to a neutral; `None` where a short makes line and neutral one.
fn contacts_on_neutral(ctx: &Context<'_>, positions: &[u8]) -> Option<Vec<bool>> {
    let (work, exercise) = (&ctx.work, ctx.exercise());
    let mut joined = Joined::new(work, positions);
    let mut same = |a: TerminalId, b: TerminalId| joined.same(work, Point::Terminal(a), Point::Terminal(b));
    let devices = &exercise.devices;
    if devices.iter().any(|one| devices.iter().any(|other| same(one.line, other.neutral))) {
        return None;
    }
    let contacts = exercise.lamps.iter().flat_map(|it| it.contacts);
    Some(contacts.map(|contact| devices.iter().any(|it| same(contact, it.neutral))).collect())
}
