//! What a hand would meet, and by which conductors: for whoever tells what would have happened.
//!
//! The body is that of `Settled::is_energised`. It solves and says; it judges nothing, and calls no touch safe.

use super::{
    network::{Conditions, Network, Part},
    settle::{BODY_OHMS, Cause, Opening, settle},
    survey::exposed_metal,
};
use crate::{
    exercise::{DeviceId, EndId, TerminalId},
    trade::{colour::Colour, device::Verdict},
    work::{Point, Work},
};

/// A conductor that carries at least this share of a device's current belongs to its way: less is what lamps take, or one
/// of several ways back (an assumption of ours).
const SHARE: f64 = 0.25;

/// The way of a current.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// The current in the device's line, or in its neutral where that is more, amps.
    pub amps: f64,
    /// Conductors it goes by, from the device outwards and back.
    pub conductors: Vec<usize>,
}

/// A hand on something that is energised, the other on earth.
#[derive(Debug, Clone, PartialEq)]
pub struct Touch {
    /// Volts to earth before the touch.
    pub volts: f64,
    /// Current through the body, amps.
    pub amps: f64,
    /// The device that feeds it, where one alone does.
    pub from: Option<DeviceId>,
    /// Conductors by which the line comes there, from the device outwards.
    pub conductors: Vec<usize>,
    /// What the current through the body opens; `None`: nothing, and it goes on.
    pub opened: Option<Opening>,
}

/// The way of the current in a device's line, or in its neutral where that is more, under given conditions, before anything
/// opens: a device may open for what comes back by its neutral alone.
pub fn way(work: &Work, conditions: &Conditions, device: DeviceId) -> Way {
    let network = Network::new(work, conditions);
    let solution = network.solve();
    let of = |part: Part| network.part(part).map_or(0.0, |it| it.amps(&solution).abs());
    let amps = of(Part::LinePole(device)).max(of(Part::NeutralPole(device)));
    let carries = |conductor: &usize| {
        let amps_here = network.part(Part::Conductor(*conductor)).map_or(0.0, |it| it.amps(&solution).abs());
        amps_here > 0.0 && amps_here >= SHARE * amps
    };
    let mut conductors: Vec<usize> = (0..work.conductor_count()).filter(carries).collect();
    // The voltage to earth falls all along the way.
    let volts = |end: EndId| network.find(work, work.point_of(end)).map_or(0.0, |it| solution.volts(it).abs());
    let height = |it: usize| EndId::of(it).into_iter().map(volts).sum::<f64>();
    conductors.sort_by(|a, b| height(*b).total_cmp(&height(*a)));
    Way { amps, conductors }
}

/// A hand on a point once everything has settled; `None` where it is not energised.
pub fn touch(work: &Work, mut conditions: Conditions, point: Point) -> Option<Touch> {
    let exercise = work.exercise();
    let settled = settle(work, conditions.clone());
    let node = settled.network.find(work, point).filter(|_| settled.is_energised(work, point))?;
    let volts = settled.solution.volts(node).abs();
    let amps = volts / (settled.solution.ohms_behind(node) + BODY_OHMS);
    for it in &settled.opened {
        set_off(&mut conditions, it.device);
    }
    // What feeds it is what, switched off, takes the voltage away.
    let feeds = |it: &DeviceId| {
        let mut without = conditions.clone();
        set_off(&mut without, *it);
        conditions.on.get(it.index()).is_some_and(|on| *on) && !settle(work, without).is_energised(work, point)
    };
    let feeding: Vec<DeviceId> = exercise.devices.ids().filter(feeds).collect();
    let opened = feeding.iter().filter_map(|it| match exercise.devices[*it].kind.residual(amps) {
        Verdict::Opens { after, within } => Some(Opening { device: *it, cause: Cause::Residual, after, within }),
        Verdict::Holds | Verdict::MayOpen => None,
    });
    let opened = opened.min_by(|a, b| a.within.total_cmp(&b.within));
    let from = feeding.iter().copied().find(|it| !exercise.devices[*it].kind.is_common());
    let conductors = match (from, exercise.earth_bars().next()) {
        (Some(device), Some(bar)) => {
            // Copper in the place of the hand shows the way, and of a first fault the copper side.
            let line = conditions.fault.map_or(point, |it| it.0);
            way(work, &Conditions { fault: Some((line, Point::Terminal(bar))), ..conditions }, device).conductors
        }
        _ => Vec::new(),
    };
    Some(Touch { volts, amps, from, conductors, opened })
}

fn set_off(conditions: &mut Conditions, device: DeviceId) {
    if let Some(on) = conditions.on.get_mut(device.index()) {
        *on = false;
    }
}

/// What a hand could come to of the finished work: metal that can be touched, the contacts of lampholders, whatever bare copper is in, and ends
/// that are in no terminal. Each once, in that order, `most` of them at most.
pub fn hand_points(work: &Work, most: usize) -> Vec<Point> {
    let exercise = work.exercise();
    let metal = exposed_metal(exercise).into_iter();
    let holders = exercise.lamps.iter().flat_map(|it| it.contacts);
    let ends = work.ends().filter(|it| {
        let is_bare = work.end_facts(*it).colour == Colour::Bare;
        is_bare || work.terminal_of(*it).is_none()
    });
    let mut points: Vec<Point> = Vec::new();
    for it in metal.chain(holders).map(Point::Terminal).chain(ends.map(|it| work.point_of(it))) {
        if points.len() < most && !points.contains(&it) {
            points.push(it);
        }
    }
    points
}

/// Every point at the place of some metal that is at line voltage in these conditions, and so could come against it, in the order of the
/// ends; the metal itself is left out.
pub fn live_points_near(work: &Work, conditions: &Conditions, metal: TerminalId) -> Vec<Point> {
    let exercise = work.exercise();
    let settled = settle(work, conditions.clone());
    let place = exercise.terminals[metal].location;
    let metal = Point::Terminal(metal);
    // At line voltage, and not the far side of a lamp: within a tenth of the supply's volts (an assumption of ours).
    let is_line = |point: &Point| {
        let volts = settled.network.find(work, *point).map_or(0.0, |it| settled.solution.volts(it).abs());
        volts >= 0.9 * crate::trade::supply::NOMINAL_VOLTS && settled.is_energised(work, *point)
    };
    let mut here: Vec<Point> = work.ends_at(place).map(|it| work.point_of(it)).filter(|it| *it != metal).collect();
    here.retain(is_line);
    // Ends that follow one another in a terminal are one point.
    here.dedup();
    here
}
