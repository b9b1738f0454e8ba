//! Which devices open, in what order, until none does.

use std::sync::Arc;

use super::{
    eliminate::Solution,
    network::{Conditions, Network, Part},
};
use crate::{
    exercise::{DeviceId, Exercise, Table},
    trade::device::Verdict,
    work::{Point, Work},
};

/// Why a device opened.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// Too much current in its line.
    Overcurrent,
    /// Line and neutral currents differ.
    Residual,
}

/// A device that opened.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Opening {
    /// The device that opens.
    pub device: DeviceId,
    /// Why.
    pub cause: Cause,
    /// After how many seconds at the earliest.
    pub after: f64,
    /// Within how many seconds at the latest.
    pub within: f64,
}

/// A network after every device that must open has opened.
#[derive(Debug, Clone)]
pub struct Settled {
    /// The network as it is then. Where many cases share one, it has the branches of what is off, out or open too, which carry nothing.
    pub network: Arc<Network>,
    /// Its voltages.
    pub solution: Solution,
    /// What opened, in order.
    pub opened: Vec<Opening>,
    /// Devices inside the band of their standard at the end: they may open.
    pub may_open: Vec<DeviceId>,
    /// Devices that stay on and carry more than any load, with nothing on the board to break it.
    pub unbroken: Vec<DeviceId>,
}

/// A touch of this resistance to earth, ohms; and the current through it that counts, amps (figures from memory: IEC 60990
/// for the body's resistance, IEC 60479 for the threshold of startle; check).
pub(super) const BODY_OHMS: f64 = 2000.0;
const TOUCH_AMPS: f64 = 0.0005;
/// What a dry hand does not feel, volts: up to so much, a.c., a part in a dry place needs no cover (BS 7671 414.4.5; number from memory).
/// A heavy load lifts its neutral by some volts along a long run, which is volt drop and nothing to be felt.
const FELT_VOLTS: f64 = 25.0;

/// The rating of the supplier's cut-out in a dwelling, amps: what it takes to open that is no load (60 to 100 A, common
/// practice, no source).
const CUT_OUT_AMPS: f64 = 100.0;

/// Solves, opens the devices with the shortest certain time (ties together), and solves again until none opens.
pub fn settle(work: &Work, conditions: Conditions) -> Settled {
    settle_within(work, conditions, f64::INFINITY)
}

/// The same, as far as it has come after this time, seconds, at the latest, each opening counted from the one before.
pub(super) fn settle_within(work: &Work, mut conditions: Conditions, seconds: f64) -> Settled {
    let on = std::mem::take(&mut conditions.on);
    until_none_opens(work.exercise(), on, seconds, |on| {
        conditions.on = on.to_vec();
        let network = Network::new(work, &conditions);
        let solution = network.solve();
        (Arc::new(network), solution)
    })
}

/// The same, solved by another for what is on.
pub(super) fn until_none_opens(
    exercise: &Exercise,
    mut on: Vec<bool>,
    seconds: f64,
    mut solve: impl FnMut(&[bool]) -> (Arc<Network>, Solution),
) -> Settled {
    let mut opened = Vec::new();
    let mut left = seconds;
    loop {
        let (network, solution) = solve(&on);
        let (next, may_open, unbroken) = verdicts(exercise, &on, &network, &solution);
        left -= next.first().map_or(0.0, |it| it.within);
        if next.is_empty() || left < 0.0 {
            return Settled { network, solution, opened, may_open, unbroken };
        }
        for opening in next {
            if let Some(on) = on.get_mut(opening.device.index()) {
                *on = false;
            }
            opened.push(opening);
        }
    }
}

/// The devices that open next, those that may, and those that carry what they will not break.
fn verdicts(
    exercise: &Exercise,
    on: &[bool],
    network: &Network,
    solution: &Solution,
) -> (Vec<Opening>, Vec<DeviceId>, Vec<DeviceId>) {
    let mut certain: Vec<Opening> = Vec::new();
    let (mut may_open, mut unbroken) = (Vec::new(), Vec::new());
    let mut amps: Table<DeviceId, (Option<f64>, f64)> = exercise.devices.each((None, 0.0));
    for it in &network.branches {
        match it.part {
            Part::LinePole(id) => amps.change(id, |of| of.0 = Some(it.amps(solution))),
            Part::NeutralPole(id) => amps.change(id, |of| of.1 = it.amps(solution)),
            _ => {}
        }
    }
    for (id, &(line, neutral)) in amps.with_ids().filter(|it| on.get(it.0.index()) == Some(&true)) {
        let Some(line) = line else { continue };
        let (opens, may) = verdict(exercise, id, line, neutral);
        may_open.extend(may.then_some(id));
        unbroken.extend(is_unbroken(exercise, id, line).then_some(id));
        certain.extend(opens);
    }
    let first = certain.iter().map(|it| it.within).fold(f64::INFINITY, f64::min);
    certain.retain(|it| it.within <= first);
    (certain, may_open, unbroken)
}

/// Whether a device carries more than any load and knows nothing of it: a residual current device without an overcurrent
/// release, with a short behind it. Only the supplier's cut-out would clear that, and it is no part of the model.
pub(super) fn is_unbroken(exercise: &Exercise, id: DeviceId, line: f64) -> bool {
    exercise.devices[id].kind.curve().is_none() && line.abs() >= CUT_OUT_AMPS
}

/// Whether a device with these currents in its line and neutral, amps, must open, and whether it may.
pub(super) fn verdict(exercise: &Exercise, id: DeviceId, line: f64, neutral: f64) -> (Option<Opening>, bool) {
    let device = &exercise.devices[id];
    let causes = [
        (Cause::Overcurrent, device.kind.overcurrent(line.abs())),
        (Cause::Residual, device.kind.residual((line - neutral).abs())),
    ];
    let mut opens: Option<Opening> = None;
    let mut may_open = false;
    for (cause, verdict) in causes {
        match verdict {
            Verdict::Opens { after, within } if opens.is_none_or(|it| within < it.within) => {
                opens = Some(Opening { device: id, cause, after, within });
            }
            Verdict::MayOpen => may_open = true,
            _ => {}
        }
    }
    (opens, may_open)
}

impl Settled {
    /// Whether a hand on a point would feel it.
    pub fn is_energised(&self, work: &Work, point: Point) -> bool {
        energised(&self.network, &self.solution, work, point)
    }
}

/// Whether a point of a solved network would drive more than the touch current through a body to earth, at more than a hand does not feel.
pub(super) fn energised(network: &Network, solution: &Solution, work: &Work, point: Point) -> bool {
    let Some(node) = network.find(work, point) else { return false };
    let volts = (solution.volts(node) - solution.volts(network.earth())).abs();
    volts > FELT_VOLTS && volts / (solution.ohms_behind(node) + BODY_OHMS) > TOUCH_AMPS
}
