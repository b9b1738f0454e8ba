//! Electricity as the attempt asks for it: the work exactly as it stands.

use super::{
    instrument::{self, Battery, LeadState, Reading, Setting, on_proving_unit},
    network::{Conditions, Network},
    settle::{energised, settle},
};
use crate::{
    exercise::{DeviceId, Indicator},
    trade::instrument::{Function, LeadLength, Shown},
    work::{Point, Work},
};

/// How the multifunction tester is set up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Meter {
    /// Function and range.
    pub function: Function,
    /// Which leads.
    pub lead: LeadLength,
    /// Whether their resistance has been taken off.
    pub nulled: bool,
}

/// Whether the supply is cut off at every device: then nothing behind them has any voltage, and nothing need be solved.
pub(super) fn is_dead(work: &Work) -> bool {
    work.exercise().devices.ids().all(|it| !work.is_on(it))
}

/// Whether a point, as things stand, would drive a current through whoever touches it.
pub fn is_energised(work: &Work, point: Point) -> bool {
    if is_dead(work) {
        return false;
    }
    let network = Network::new(work, &Conditions::present(work));
    energised(&network, &network.solve(), work, point)
}

/// What a voltage indicator's two probes would see, volts.
pub fn volts_between(work: &Work, a: Point, b: Point) -> f64 {
    if is_dead(work) {
        return 0.0;
    }
    let network = Network::new(work, &Conditions::present(work));
    let solution = network.solve();
    let volts = |point| network.find(work, point).map_or(0.0, |it| solution.volts(it));
    // A two-pole indicator loads what it tests: it shows nothing on a core that only insulation holds up.
    let loaded = |point| if energised(&network, &solution, work, point) { volts(point) } else { 0.0 };
    loaded(a) - loaded(b)
}

/// What a low-resistance meter would see, ohms; infinite when nothing joins the points.
pub fn ohms_between(work: &Work, a: Point, b: Point) -> f64 {
    let network = Network::new(work, &Conditions::present(work));
    match (network.find(work, a), network.find(work, b)) {
        (Some(a), Some(b)) => network.ohms_between(work, a, b),
        _ => f64::INFINITY,
    }
}

/// The devices that open by themselves as things stand.
pub fn opening(work: &Work) -> Vec<DeviceId> {
    if is_dead(work) {
        return Vec::new();
    }
    settle(work, Conditions::present(work)).opened.iter().map(|it| it.device).collect()
}

/// What the multifunction tester shows, so set up.
pub fn reading(work: &Work, meter: Meter, a: Point, b: Point) -> Reading {
    let state = if meter.nulled { LeadState::Nulled } else { LeadState::AsTheyAre };
    let setting = Setting::of(meter.function).with_leads(meter.lead, state);
    let setting = if work.is_supplied() { setting } else { setting.main_switch_off() };
    instrument::reading(work, &setting, a, b)
}

/// What the tester shows at the origin, between what comes in and the supply's earth, the earthing conductor off.
pub fn at_origin(work: &Work, meter: Meter) -> Reading {
    let state = if meter.nulled { LeadState::Nulled } else { LeadState::AsTheyAre };
    instrument::at_origin(work, &Setting::of(meter.function).with_leads(meter.lead, state))
}

/// What an indicator shows on the proving unit.
pub fn proving(indicator: Indicator) -> Shown {
    let (battery, leads) = match indicator {
        Indicator::Sound => (Battery::Good, LeadState::AsTheyAre),
        Indicator::Flat => (Battery::Flat, LeadState::AsTheyAre),
        Indicator::LeadBroken => (Battery::Good, LeadState::Broken),
    };
    on_proving_unit(battery, leads)
}
