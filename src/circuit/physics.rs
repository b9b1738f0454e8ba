//! Electricity as the attempt asks for it: the work exactly as it stands.

use super::{
    network::{Conditions, Network},
    settle::{energised, settle},
};
use crate::{
    exercise::DeviceId,
    work::{self, Point, Work},
};

/// Answers from the solved network.
#[derive(Debug, Clone, Copy, Default)]
pub struct Physics;

impl work::Physics for Physics {
    fn is_energised(&self, work: &Work, point: Point) -> bool {
        let network = Network::new(work, &Conditions::present(work));
        energised(&network, &network.solve(), work, point)
    }

    fn volts_between(&self, work: &Work, a: Point, b: Point) -> f64 {
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
        settle(work, Conditions::present(work)).opened.iter().map(|it| it.device).collect()
    }
}
