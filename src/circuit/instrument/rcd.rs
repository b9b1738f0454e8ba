//! The operating time of a residual current device.

use super::{
    Figure, Reading, Refusal, Shown,
    figure::show,
    live::felt,
    reads,
    rig::{Loaded, Rig, TestSource},
    setting::Setting,
    spread::{just_enough_ms, opens_at, stray},
};
use crate::{
    exercise::DeviceId,
    trade::{
        device::Verdict,
        instrument::{
            TESTER_OHMS, Unit,
            loop_impedance::LEAST_VOLTS,
            rcd::{SCALE, SET_TO_AMPS, SPREAD, TOUCH_VOLTS, Test, milliseconds},
        },
    },
    work::{Point, Work},
};

/// A device that a residual current opens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct ResidualOpening {
    /// The device that opens.
    pub device: DeviceId,
    /// After how many milliseconds.
    pub after: f64,
}

/// Which devices the residual currents of a loaded network open, quickest first. Inside the band of its standard a device
/// has its own operating current.
pub(super) fn openings(work: &Work, loaded: &Loaded<'_>) -> Vec<ResidualOpening> {
    let exercise = work.exercise();
    let mut found = Vec::new();
    for (device, it) in exercise.devices.with_ids() {
        let Some(rated) = it.kind.residual_amps() else { continue };
        let amps = loaded.residual(device);
        let own = rated * opens_at(exercise, device);
        let longest = match it.kind.residual(amps) {
            Verdict::Holds => continue,
            Verdict::MayOpen if amps < own => continue,
            Verdict::MayOpen => f64::INFINITY,
            Verdict::Opens { within, .. } => 1000.0 * within,
        };
        let after = milliseconds(just_enough_ms(exercise, device), amps / own).min(longest);
        found.push(ResidualOpening { device, after });
    }
    found.sort_by(|a, b| a.after.total_cmp(&b.after).then(a.device.cmp(&b.device)));
    found
}

/// Draws a residual current of this multiple of 30 mA from one point to the other and times how long the supply lasts.
pub(super) fn trip_time(work: &Work, setting: &Setting, test: Test, from: Point, to: Point) -> Reading {
    let rig = Rig::new(work, setting, TestSource::Mains, [from, to], &[]);
    if felt(&rig, TESTER_OHMS) < LEAST_VOLTS {
        return reads(Shown::Refused(Refusal::NoSupply));
    }
    // The instrument sets its own resistance so that the current is right.
    let behind = rig.behind();
    let ohms = behind.volts / (test.times() * SET_TO_AMPS) - behind.ohms;
    if ohms <= rig.leads_ohms {
        return reads(Shown::Refused(Refusal::TouchVoltage));
    }
    let loaded = rig.loaded(ohms);
    if loaded.raised() > TOUCH_VOLTS {
        return reads(Shown::Refused(Refusal::TouchVoltage));
    }
    let longest = f64::from(test.longest_ms());
    let mut opens = Vec::new();
    for it in openings(work, &loaded) {
        if it.after > longest {
            break;
        }
        opens.push(it.device);
        // The clock stops when the supply is gone from the leads, which another circuit's device doesn't do.
        let left = Rig::new(work, setting, TestSource::Mains, [from, to], &opens);
        if felt(&left, TESTER_OHMS) < LEAST_VOLTS {
            let shown = show(&SCALE, stray(work, setting, SPREAD, [from, to], it.after).min(longest));
            return Reading { shown, opens };
        }
    }
    let limit = Figure { counts: i64::from(test.longest_ms()), decimals: 0, unit: Unit::Millisecond };
    Reading { shown: Shown::Over(limit), opens }
}
