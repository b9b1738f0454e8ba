//! Unsafe acts: each kind once, at the first time, however often it was done ([`times`] has each); and every energising onto a fault.
//!
//! To open or touch what is not locked off and proved is critical. To miss a device when naming those of a place is so
//! once the learner goes on to that place; to offer a stick or a meter as proof is so once a hand goes in on no other
//! proof. If the indicator is used before any touch, it is no more than advice.
//!
//! An act put right afterwards was done all the same. An energising is tried again with the repair of each finding, so
//! that it is a consequence of the fault that caused it where that fault still stands.

use crate::{
    attempt::{Act, ActKind, ProofGap, Tally},
    circuit,
    exercise::Exercise,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    work::Subject,
};

/// The code of an act, and its weight taken alone; [`weight`] makes two kinds graver by what came after.
const fn judged(kind: ActKind) -> (Code, Weight) {
    match kind {
        ActKind::WorkedLive => (Code::WorkedLive, Weight::Critical),
        ActKind::OpenedUnlocked => (Code::OpenedUnlocked, Weight::Critical),
        ActKind::TouchedUnproved => (Code::TouchedUnproved, Weight::Critical),
        ActKind::WronglyIdentified => (Code::WronglyIdentified, Weight::Major),
        ActKind::PowerOnOpen => (Code::PowerOnOpen, Weight::Critical),
        ActKind::PowerOnUnchecked => (Code::PowerOnUnchecked, Weight::Major),
        ActKind::WrongInstrument => (Code::WrongInstrument, Weight::Advice),
        ActKind::Unearthed => (Code::Unearthed, Weight::Critical),
        ActKind::BenchUnproved => (Code::BenchUnproved, Weight::Critical),
        ActKind::BoardUnready => (Code::BoardUnready, Weight::Major),
        ActKind::ResetUntested => (Code::ResetUntested, Weight::Major),
    }
}

/// Whether an act is critical whatever came after it: in set work one alone makes the outcome "refer".
pub fn is_critical(act: ActKind) -> bool {
    judged(act).1 == Weight::Critical
}

/// How much an act matters among all that were done.
fn weight(exercise: &Exercise, acts: &[Act], of: &Act) -> Weight {
    let place = of.at.location(exercise);
    let went_on = |kinds: &[ActKind]| {
        let later = acts.iter().filter(|it| it.action > of.action && it.at.location(exercise) == place);
        place.is_some() && later.into_iter().any(|it| kinds.contains(&it.kind))
    };
    match of.kind {
        ActKind::WronglyIdentified
            if went_on(&[ActKind::WorkedLive, ActKind::OpenedUnlocked, ActKind::TouchedUnproved]) =>
        {
            Weight::Critical
        }
        ActKind::WrongInstrument if went_on(&[ActKind::WorkedLive, ActKind::TouchedUnproved]) => Weight::Critical,
        kind => judged(kind).1,
    }
}

/// Every time that the act of a finding was done, in order; none for a code that is not an act.
pub fn times(tally: &Tally, code: Code) -> impl Iterator<Item = &Act> {
    tally.acts.iter().filter(move |it| judged(it.kind).0 == code)
}

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let acts = &ctx.tally.acts;
    for act in acts {
        let (code, _) = judged(act.kind);
        if !found.iter().any(|it| it.code == code) {
            let each = acts.iter().filter(|it| it.kind == act.kind);
            let weight = each.map(|it| weight(ctx.exercise(), acts, it)).max().unwrap_or(Weight::Advice);
            let lacked = act.lacked.map_or("", ProofGap::word);
            found.push(Draft::new(code, act.at, weight).about(lacked).seen(Seen::InAction(act.action)));
        }
    }
    for energised in ctx.tally.energised.iter().filter(|it| !it.tripped.is_empty()) {
        let mut work = energised.work.clone();
        ctx.edits.iter().for_each(|it| work.edit(it));
        if let Some(device) = circuit::opening(&work).first() {
            let draft = Draft::new(Code::EnergisedOntoFault, Subject::Device(*device), Weight::Critical);
            if !found
                .iter()
                .any(|it| it.code == Code::EnergisedOntoFault && it.seen == Seen::InAction(energised.action))
            {
                found.push(draft.seen(Seen::InAction(energised.action)));
            }
        }
    }
}
