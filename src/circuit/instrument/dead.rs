//! Tests with the supply isolated: continuity and insulation resistance.

use super::{
    Refusal, Shown,
    figure::show,
    live::felt,
    rig::{Rig, TestSource},
    setting::{LeadState, Setting},
    spread::stray,
};
use crate::{
    circuit::as_it_stands::is_dead,
    trade::instrument::{
        LOCK_OUT_VOLTS, TESTER_OHMS, continuity,
        insulation::{self, TestVolts},
    },
    work::{Point, Work},
};

/// Low resistance: the leads are in it until they are nulled.
pub(super) fn continuity(work: &Work, setting: &Setting, from: Point, to: Point) -> Shown {
    if is_energised(work, setting, from, to) {
        return Shown::Refused(Refusal::Energised);
    }
    let rig = rig(work, setting, TestSource::Few, from, to);
    let internal = continuity::NO_LOAD_VOLTS / continuity::SHORT_AMPS;
    let mut ohms = rig.driven(continuity::NO_LOAD_VOLTS, internal);
    if setting.leads.state == LeadState::Nulled {
        ohms -= rig.leads_ohms;
    }
    show(&continuity::SCALE, stray(work, setting, continuity::SPREAD, [from, to], ohms.max(0.0)))
}

/// Insulation resistance: the leads are nothing beside it.
pub(super) fn insulation(work: &Work, setting: &Setting, volts: TestVolts, from: Point, to: Point) -> Shown {
    if is_energised(work, setting, from, to) {
        return Shown::Refused(Refusal::Energised);
    }
    let rig = rig(work, setting, TestSource::Hundreds, from, to);
    let megohms = rig.driven(volts.no_load_volts(), volts.internal_ohms()) / 1.0e6;
    show(&volts.scale(), stray(work, setting, insulation::SPREAD, [from, to], megohms))
}

/// Whether the instrument's own voltmeter locks it out. Through a broken lead it feels nothing.
fn is_energised(work: &Work, setting: &Setting, from: Point, to: Point) -> bool {
    if is_dead(work) {
        return false;
    }
    // It feels no more than is there without it.
    let rig = rig(work, setting, TestSource::Mains, from, to);
    rig.open_volts() > LOCK_OUT_VOLTS && felt(&rig, TESTER_OHMS) > LOCK_OUT_VOLTS
}

fn rig(work: &Work, setting: &Setting, source: TestSource, from: Point, to: Point) -> Rig {
    Rig::new(work, setting, source, [from, to], &[])
}
