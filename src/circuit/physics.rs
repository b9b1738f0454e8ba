//! Electricity as the attempt asks for it: the work exactly as it stands.

use super::{
    instrument::{self, Battery, LeadState, Setting, on_proving_unit},
    network::{Conditions, Network},
    settle::{energised, settle},
};
use crate::{
    exercise::{DeviceId, Indicator},
    trade::instrument::Shown,
    work::{self, Point, Reading, Work},
};

/// Answers from the solved network.
#[derive(Debug, Clone, Copy, Default)]
pub struct Physics;

/// Whether the supply is cut off at every device: then nothing behind them has any voltage, and nothing need be solved.
pub(super) fn is_dead(work: &Work) -> bool {
    let devices = work.exercise().devices.len() as u16;
    (0..devices).all(|it| !work.is_on(DeviceId(it)))
}

impl work::Physics for Physics {
    fn is_energised(&self, work: &Work, point: Point) -> bool {
        if is_dead(work) {
            return false;
        }
        let network = Network::new(work, &Conditions::present(work));
        energised(&network, &network.solve(), work, point)
    }

    fn volts_between(&self, work: &Work, a: Point, b: Point) -> f64 {
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

    fn ohms_between(&self, work: &Work, a: Point, b: Point) -> f64 {
        let network = Network::new(work, &Conditions::present(work));
        match (network.find(work, a), network.find(work, b)) {
            (Some(a), Some(b)) => network.ohms_between(work, a, b),
            _ => f64::INFINITY,
        }
    }

    fn opening(&self, work: &Work) -> Vec<DeviceId> {
        if is_dead(work) {
            return Vec::new();
        }
        settle(work, Conditions::present(work)).opened.iter().map(|it| it.device).collect()
    }

    fn reading(&self, work: &Work, meter: work::Meter, a: Point, b: Point) -> Reading {
        let state = if meter.nulled { LeadState::Nulled } else { LeadState::AsTheyAre };
        let setting = Setting::of(meter.function).with_leads(meter.lead, state);
        let setting = if work.is_supplied() { setting } else { setting.main_switch_off() };
        instrument::reading(work, &setting, a, b)
    }

    fn at_origin(&self, work: &Work, meter: work::Meter) -> Reading {
        let state = if meter.nulled { LeadState::Nulled } else { LeadState::AsTheyAre };
        instrument::at_origin(work, &Setting::of(meter.function).with_leads(meter.lead, state))
    }

    fn proving(&self, indicator: Indicator) -> Shown {
        let (battery, leads) = match indicator {
            Indicator::Sound => (Battery::Good, LeadState::AsTheyAre),
            Indicator::Flat => (Battery::Flat, LeadState::AsTheyAre),
            Indicator::LeadBroken => (Battery::Good, LeadState::Broken),
        };
        on_proving_unit(battery, leads)
    }
}
