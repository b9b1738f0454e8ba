//! Tests on the supply: voltage, and loop impedance.

use super::{
    Reading, Refusal, Shown,
    figure::{lights, show},
    rcd, reads,
    rig::{Rig, TestSource},
    setting::{LeadState, Setting},
    spread::{leads_ohms, stray},
};
use crate::{
    circuit::as_it_stands::is_dead,
    trade::instrument::{
        TESTER_OHMS,
        loop_impedance::{LEAST_VOLTS, Range, SCALE},
        voltage,
    },
    work::{Incomer, Point, Work},
};

/// Volts that a voltmeter of this resistance, ohms, feels. What holds up a floating core is capacitance, a quarter of a wave away from
/// the meter's resistance, so the two add as the sides of a right angle. Where something else does, it is so small beside
/// the meter that the angle doesn't matter.
pub(super) fn felt(rig: &Rig, ohms: f64) -> f64 {
    let behind = rig.behind();
    let series = behind.ohms + rig.leads_ohms;
    // Not `hypot`, which processors do not all find alike.
    let volts = behind.volts * ohms / (ohms * ohms + series * series).sqrt();
    if volts.is_finite() { volts } else { 0.0 }
}

/// A high-impedance meter: shows ghost volts on a floating core.
pub(super) fn voltage(work: &Work, setting: &Setting, from: Point, to: Point) -> Shown {
    let volts = felt(&rig(work, setting, from, to), voltage::METER_OHMS);
    show(&voltage::SCALE, stray(work, setting, voltage::SPREAD, [from, to], volts))
}

/// A two-pole indicator: loads what it tests, so that ghost volts fall away.
pub(super) fn indicator(work: &Work, setting: &Setting, from: Point, to: Point) -> Shown {
    // It feels no more than is there without it: what lights nothing so need not be looked behind.
    if is_dead(work) {
        return Shown::Lights(None);
    }
    let rig = rig(work, setting, from, to);
    Shown::Lights(lights(rig.open_volts()).and_then(|_| lights(felt(&rig, voltage::INDICATOR_OHMS))))
}

/// Loop impedance: how far the voltage sinks under a load. The residual current may open a device first.
pub(super) fn loop_impedance(work: &Work, setting: &Setting, range: Range, from: Point, to: Point) -> Reading {
    let rig = rig(work, setting, from, to);
    if felt(&rig, TESTER_OHMS) < LEAST_VOLTS {
        return reads(Shown::Refused(Refusal::NoSupply));
    }
    let loaded = rig.loaded(range.load_ohms() + rig.leads_ohms);
    let opening = rcd::openings(work, &loaded);
    if !opening.is_empty() {
        return Reading {
            shown: Shown::Refused(Refusal::Tripped),
            opens: opening.into_iter().map(|it| it.device).collect(),
        };
    }
    // What the load and its leads leave of the voltage is what the loop takes. Its difference would lose digits; the
    // resistance behind the points is the same by Thevenin's theorem.
    let mut ohms = rig.behind().ohms;
    if setting.leads.state != LeadState::Nulled {
        ohms += rig.leads_ohms;
    }
    reads(show(&SCALE, stray(work, setting, range.spread(), [from, to], ohms)))
}

/// Loop impedance of the supply alone.
pub(super) fn at_origin(work: &Work, setting: &Setting, range: Range) -> Shown {
    let exercise = work.exercise();
    if !work.is_incomer_on(Incomer::Isolator) {
        return Shown::Refused(Refusal::NoSupply);
    }
    let supply = exercise.earthing.ohms();
    let mut ohms = supply.line + supply.earth;
    if setting.leads.state != LeadState::Nulled {
        ohms += leads_ohms(exercise, setting);
    }
    let ends = exercise.earth_bars().next().zip(exercise.devices.iter().next().map(|it| it.line));
    let strayed = ends.map(|(a, b)| stray(work, setting, range.spread(), [a, b].map(Point::Terminal), ohms));
    show(&SCALE, strayed.unwrap_or(ohms))
}

fn rig(work: &Work, setting: &Setting, from: Point, to: Point) -> Rig {
    Rig::new(work, setting, TestSource::Mains, [from, to], &[])
}
