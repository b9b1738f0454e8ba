//! Unsafe acts: each kind once, at the first time, however often it was done; and every energising onto a fault.
//!
//! An act put right afterwards was done all the same. An energising is tried again with the repair of each finding, so
//! that it is a consequence of the fault that caused it where that fault still stands.

use crate::{
    circuit::Physics,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    work::{ActKind, Physics as _, Subject},
};

/// The code of an act, and how much it matters.
const fn judged(kind: ActKind) -> (Code, Weight) {
    match kind {
        ActKind::WorkedLive => (Code::WorkedLive, Weight::Critical),
        ActKind::OpenedUnlocked => (Code::OpenedUnlocked, Weight::Major),
        ActKind::TouchedUnproved => (Code::TouchedUnproved, Weight::Major),
        ActKind::WronglyIdentified => (Code::WronglyIdentified, Weight::Major),
        ActKind::PowerOnOpen => (Code::PowerOnOpen, Weight::Critical),
        ActKind::PowerOnUnchecked => (Code::PowerOnUnchecked, Weight::Major),
        ActKind::WrongInstrument => (Code::WrongInstrument, Weight::Major),
        ActKind::ResetUntested => (Code::ResetUntested, Weight::Major),
    }
}

/// Whether an act is critical: in set work it refers the whole.
pub fn is_critical(act: ActKind) -> bool {
    judged(act).1 == Weight::Critical
}

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    for act in &ctx.tally.acts {
        let (code, weight) = judged(act.kind);
        if !found.iter().any(|it| it.code == code) {
            found.push(Draft::new(code, act.at, weight).seen(Seen::InAction(act.action)));
        }
    }
    for energised in ctx.tally.energised.iter().filter(|it| !it.tripped.is_empty()) {
        let mut work = energised.work.clone();
        ctx.edits.iter().for_each(|it| work.edit(it));
        if let Some(device) = Physics.opening(&work).first() {
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
