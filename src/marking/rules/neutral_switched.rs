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
    work::{Point, Subject},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let exercise = ctx.exercise();
    let lasting = Joined::new(&ctx.work, &[]);
    let at = |settings: &[Vec<u8>]| -> Vec<Option<Vec<[Contact; 2]>>> {
        settings.iter().map(|it| contacts(ctx, &lasting, it)).collect()
    };
    let neutrals =
        |lamps: Vec<[Contact; 2]>| lamps.into_iter().map(|lamp| lamp.map(|it| it.neutral)).collect::<Vec<_>>();
    let mut differ: Vec<_> = at(&ctx.survey.distinct).into_iter().flatten().map(neutrals).collect();
    differ.dedup();
    if differ.len() < 2 {
        return;
    }
    let lamps = at(&ctx.settings);
    for (id, it) in exercise.switches.with_ids() {
        let parts = |here: &usize| {
            neighbours(exercise, &ctx.settings, *here, id.index()).any(|there| {
                let (Some(here), Some(there)) = (&lamps[*here], &lamps[there]) else { return false };
                here.iter().zip(there).any(|(here, there)| parted(*here, *there, it.way.is_linked()))
            })
        };
        if let Some(here) = (0..ctx.settings.len()).find(parts) {
            let witness = Witness { positions: ctx.settings[here].clone(), ..Witness::default() };
            let draft = Draft::new(Code::NeutralSwitched, Subject::Switch(id), Weight::Critical);
            found.push(draft.seen(Seen::InCase(witness)).mended_by_moves());
        }
    }
}

/// What a contact of a lamp is joined to.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Contact {
    neutral: bool,
    line: bool,
}

/// Whether a switch joins a lamp to a neutral in one position and not in the other. Linked poles may (BS 7671 132.14.2,
/// number from memory), so long as the line goes with the neutral.
fn parted(here: [Contact; 2], there: [Contact; 2], linked: bool) -> bool {
    let neutrals = |lamp: [Contact; 2]| lamp.map(|it| it.neutral);
    let line_left = |lamp: [Contact; 2]| lamp.iter().any(|it| it.line) && !lamp.iter().any(|it| it.neutral);
    neutrals(here) != neutrals(there) && (!linked || line_left(here) || line_left(there))
}

/// For each lamp, what its contacts are joined to; `None` where a short makes line and neutral one.
fn contacts(ctx: &Context<'_>, lasting: &Joined, positions: &[u8]) -> Option<Vec<[Contact; 2]>> {
    let (work, exercise) = (&ctx.work, ctx.exercise());
    let mut joined = lasting.and_closed(work, positions);
    let mut same = |a: TerminalId, b: TerminalId| joined.same(work, Point::Terminal(a), Point::Terminal(b));
    let devices = &exercise.devices;
    if devices.iter().any(|one| devices.iter().any(|other| same(one.line, other.neutral))) {
        return None;
    }
    let mut contact = |contact: TerminalId| Contact {
        neutral: devices.iter().any(|it| same(contact, it.neutral)),
        line: devices.iter().any(|it| same(contact, it.line)),
    };
    Some(exercise.lamps.iter().map(|it| it.contacts.map(&mut contact)).collect())
}
