//! What an instrument shows between two points of the work as it stands.
//!
//! The instrument is part of the network: its own source and internal resistance, its leads, or what it draws, are put into
//! the network of the work ([`Conditions::present`]), dead or live, and what follows is read off its scale. So a wrong
//! wiring gives the wrong reading that it gives in life. Pure: the same work, setting and points give the same reading; the
//! spread is a function of seed, instrument, range and the two points. Nothing is changed here: what opens because of a test
//! is named in the reading, and whoever records the attempt opens it.
//!
//! How the network differs from that of operation: insulation is by the metre between cores that lie side by side, not a
//! figure for each node; on a.c. capacitance stands in its place, as reactance, which is what makes ghost volts; lamps are
//! cold to a dead test and at work to a live one; conductors are at 20 °C. Left out: that the mains hums into a dead reading,
//! and the coils of a residual current device, which raise a small-current loop reading a little.
//!
//! [`Conditions::present`]: crate::circuit::Conditions::present

mod dead;
mod figure;
mod live;
mod rcd;
mod rig;
mod setting;
mod spread;

pub use crate::trade::instrument::{Figure, Function, LeadLength, Refusal, Shown};
pub use figure::lights as indicator_lights;
pub use setting::{Battery, LeadState, Leads, MainSwitch, Setting};
pub use spread::supply_volts;

use crate::{
    exercise::DeviceId,
    trade::instrument::{
        continuity,
        voltage::{INDICATOR_OHMS, PROVING_OHMS, PROVING_VOLTS},
    },
    work::{Point, Work},
};

/// What came of a test.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reading {
    /// What the instrument shows.
    pub shown: Shown,
    /// Devices that the test itself opened, in order.
    pub opens: Vec<DeviceId>,
}

/// A reading that opens nothing.
fn reads(shown: Shown) -> Reading {
    Reading { shown, opens: Vec::new() }
}

/// Loop impedance of what comes in, where the isolator lets it. The instrument is on no terminal of the exercise: it strays as between
/// the first device's line and the earth bar.
pub(super) fn at_origin(work: &Work, setting: &Setting) -> Reading {
    match setting.function {
        Function::Loop(range) => reads(live::at_origin(work, setting, range)),
        _ => reads(Shown::Refused(Refusal::NoSupply)),
    }
}

/// What the scale of a low-resistance meter shows of this many ohms.
pub fn ohms_shown(ohms: f64) -> Shown {
    figure::show(&continuity::SCALE, ohms)
}

/// What the instrument shows, so set, with one lead on `from` and the other on `to`. Where the two differ (residual current
/// and loop tests) either may be the line.
pub fn reading(work: &Work, setting: &Setting, from: Point, to: Point) -> Reading {
    // Reciprocity holds to rounding only; in one order the leads exchanged read the same to the last digit.
    let (from, to) = (from.min(to), from.max(to));
    // A two-pole indicator without its battery says nothing, and nothing tells that from a dead circuit: that is why it
    // is proved. A meter's blank display does tell.
    match (setting.battery, setting.function) {
        (Battery::Flat, Function::Indicator) => return reads(Shown::Lights(None)),
        (Battery::Flat, _) => return reads(Shown::Refused(Refusal::FlatBattery)),
        (Battery::Good, _) => {}
    }
    match setting.function {
        Function::Continuity => reads(dead::continuity(work, setting, from, to)),
        Function::Insulation(volts) => reads(dead::insulation(work, setting, volts, from, to)),
        Function::Voltage => reads(live::voltage(work, setting, from, to)),
        Function::Indicator => reads(live::indicator(work, setting, from, to)),
        Function::Loop(range) => live::loop_impedance(work, setting, range, from, to),
        Function::Rcd(test) => rcd::trip_time(work, setting, test, from, to),
    }
}

/// What a two-pole indicator shows on a proving unit.
pub fn on_proving_unit(battery: Battery, leads: LeadState) -> Shown {
    let sound = battery == Battery::Good && leads != LeadState::Broken;
    let volts = if sound { PROVING_VOLTS * INDICATOR_OHMS / (INDICATOR_OHMS + PROVING_OHMS) } else { 0.0 };
    Shown::Lights(figure::lights(volts))
}
