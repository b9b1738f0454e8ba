//! Every combination of switch positions, and every case in it: what the lamps do, what opens, and every hazard.
//!
//! The cases are those of the marking charter: all devices on, each off alone, each on alone; all lamps in, each out
//! alone, all out; and a first fault from line to each exposed metal part, with everything on and in.

use super::{
    joined::Joined,
    network::{Conditions, Part},
    settle::{Cause, Settled, settle},
};
use crate::{
    exercise::{DeviceId, Exercise, LampId, LocationId, LocationKind, SwitchId, TerminalId, TerminalUse},
    trade::{accessory::Material, supply::NOMINAL_VOLTS},
    work::{Point, Work, combinations},
};

/// How a lamp is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Glow {
    /// At least 85 % of nominal voltage across it (our convention).
    Lit,
    /// Between 5 and 85 %.
    Dim,
    /// Below 5 %.
    Off,
}

/// A lamp in one row.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LampRow {
    /// How it is.
    pub glow: Glow,
    /// Volts across it.
    pub volts: f64,
}

/// What can be wrong electrically.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum HazardKind {
    /// Line joined to neutral through nothing that limits the current.
    ShortLineNeutral,
    /// Line joined to earth likewise.
    ShortLineEarth,
    /// Line and neutral currents of a device differ enough to open it.
    ResidualCurrent,
    /// Metal that can be touched is energised.
    MetalEnergised,
    /// A lampholder's contact is energised while its lamp is off.
    LampholderLive,
    /// An end that is in no terminal is energised.
    LooseEndLive,
    /// Line against exposed metal, and no device opens in time.
    NoDisconnection,
}

/// When in the course of switching on it shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stage {
    /// As power comes on, before anything has opened.
    SwitchingOn,
    /// After everything that must open has opened.
    Settled,
    /// On a first fault to metal.
    FirstFault,
}

/// A hazard and where it shows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hazard {
    /// What.
    pub kind: HazardKind,
    /// Where: the address of a device, a terminal, an end or a lamp.
    pub at: String,
    /// When.
    pub stage: Stage,
    /// The first case that shows it.
    pub witness: Witness,
}

/// A case: switch positions, devices off, lamps out.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Witness {
    /// A position for each switch.
    pub positions: Vec<u8>,
    /// Devices that are off.
    pub off: Vec<DeviceId>,
    /// Lamps that are out.
    pub out: Vec<LampId>,
}

/// One combination of positions with every device on, every lamp in and every plate fitted.
#[derive(Debug, Clone)]
pub struct Row {
    /// A position for each switch.
    pub positions: Vec<u8>,
    /// How each lamp is.
    pub lamps: Vec<LampRow>,
    /// Devices that opened.
    pub tripped: Vec<DeviceId>,
    /// Devices that may open.
    pub may_trip: Vec<DeviceId>,
    /// What is wrong in this row alone, everything on and in.
    pub hazards: Vec<Hazard>,
}

/// The whole of it.
#[derive(Debug, Clone)]
pub struct Survey {
    /// A row for each combination, in counting order, last switch fastest.
    pub rows: Vec<Row>,
    /// Every hazard once, with the first case that shows it, rows' own first.
    pub hazards: Vec<Hazard>,
}

/// Tries every combination and every case.
pub fn survey(work: &Work) -> Survey {
    let exercise = work.exercise();
    let switches: Vec<SwitchId> = (0..exercise.switches.len() as u16).map(SwitchId).collect();
    let settings = combinations(exercise, &switches, &vec![0; switches.len()]);
    let mut hazards = Vec::new();
    let rows: Vec<Row> = settings
        .into_iter()
        .map(|positions| {
            let row = row(work, positions);
            row.hazards.iter().for_each(|it| add(&mut hazards, it.clone()));
            row
        })
        .collect();
    for row in &rows {
        other_cases(work, row, &mut hazards);
        first_faults(work, &row.positions, &mut hazards);
    }
    Survey { rows, hazards }
}

/// One row: everything on, in and fitted.
fn row(work: &Work, positions: Vec<u8>) -> Row {
    let exercise = work.exercise();
    let settled = settle(work, Conditions::complete(exercise, positions.clone()));
    let lamps: Vec<LampRow> = (0..exercise.lamps.len() as u16).map(|it| lamp_row(&settled, LampId(it))).collect();
    let witness = Witness { positions: positions.clone(), ..Witness::default() };
    let mut hazards = trips(work, &settled, &witness);
    let off: Vec<bool> = lamps.iter().map(|it| it.glow == Glow::Off).collect();
    standing(work, &settled, &off, &witness, &mut hazards);
    Row {
        positions,
        lamps,
        tripped: settled.opened.iter().map(|it| it.device).collect(),
        may_trip: settled.may_open,
        hazards,
    }
}

pub(crate) fn lamp_row(settled: &Settled, lamp: LampId) -> LampRow {
    let volts = settled.network.part(Part::Lamp(lamp)).map_or(0.0, |it| it.volts(&settled.solution).abs());
    let share = volts / NOMINAL_VOLTS;
    let glow = if share >= 0.85 {
        Glow::Lit
    } else if share >= 0.05 {
        Glow::Dim
    } else {
        Glow::Off
    };
    LampRow { glow, volts }
}

/// Each device off alone, each on alone, with each lamp out alone and all out; and lamps out with every device on.
fn other_cases(work: &Work, row: &Row, hazards: &mut Vec<Hazard>) {
    let exercise = work.exercise();
    let (devices, lamps) = (exercise.devices.len(), exercise.lamps.len());
    let off: Vec<bool> = row.lamps.iter().map(|it| it.glow == Glow::Off && row.tripped.is_empty()).collect();
    for on in device_choices(devices) {
        for lamps_in in lamp_choices(lamps) {
            if on.iter().all(|it| *it) && lamps_in.iter().all(|it| *it) {
                continue;
            }
            let witness = Witness {
                positions: row.positions.clone(),
                off: (0..devices as u16).map(DeviceId).filter(|it| !on[it.index()]).collect(),
                out: (0..lamps as u16).map(LampId).filter(|it| !lamps_in[it.index()]).collect(),
            };
            let conditions =
                Conditions { on: on.clone(), lamps_in, ..Conditions::complete(exercise, row.positions.clone()) };
            let settled = settle(work, conditions);
            let mut found = trips(work, &settled, &witness);
            standing(work, &settled, &off, &witness, &mut found);
            for it in found {
                add(hazards, it);
            }
        }
    }
}

/// All on, each off alone, each on alone.
fn device_choices(count: usize) -> Vec<Vec<bool>> {
    let mut choices = vec![vec![true; count]];
    choices.extend((0..count).map(|odd| (0..count).map(|it| it != odd).collect()));
    // With two devices, each on alone is the other off alone.
    if count > 2 {
        choices.extend((0..count).map(|odd| (0..count).map(|it| it == odd).collect()));
    }
    choices
}

/// All in, each out alone, all out.
fn lamp_choices(count: usize) -> Vec<Vec<bool>> {
    let mut choices = vec![vec![true; count]];
    choices.extend((0..count).map(|odd| (0..count).map(|it| it != odd).collect()));
    // A single lamp out alone is all out.
    if count > 1 {
        choices.push(vec![false; count]);
    }
    choices
}

/// What made devices open.
pub(super) fn trips(work: &Work, settled: &Settled, witness: &Witness) -> Vec<Hazard> {
    let exercise = work.exercise();
    let mut joined = Joined::new(work, &witness.positions);
    let mut found = Vec::new();
    for opening in &settled.opened {
        let device = &exercise.devices[opening.device.index()];
        let line = Point::Terminal(device.line);
        let mut meets = |wanted: fn(TerminalUse) -> bool| {
            exercise.terminals.iter().enumerate().any(|(index, it)| {
                wanted(it.used_by) && joined.same(work, line, Point::Terminal(TerminalId(index as u16)))
            })
        };
        let neutral = meets(|it| matches!(it, TerminalUse::DeviceNeutral(_)));
        let earth = meets(|it| it == TerminalUse::EarthBar);
        let kind = match (neutral, earth, opening.cause) {
            (false, true, _) => HazardKind::ShortLineEarth,
            (false, false, Cause::Residual) => HazardKind::ResidualCurrent,
            (true, ..) | (false, false, Cause::Overcurrent) => HazardKind::ShortLineNeutral,
        };
        found.push(Hazard { kind, at: device.address.clone(), stage: Stage::SwitchingOn, witness: witness.clone() });
    }
    found
}

/// What stands energised that must not be, once everything has settled. `off` says of each lamp whether it should be dark.
fn standing(work: &Work, settled: &Settled, off: &[bool], witness: &Witness, found: &mut Vec<Hazard>) {
    let exercise = work.exercise();
    let mut hazard =
        |kind, at: String| found.push(Hazard { kind, at, stage: Stage::Settled, witness: witness.clone() });
    for metal in exposed_metal(exercise) {
        if settled.is_energised(work, Point::Terminal(metal)) {
            hazard(HazardKind::MetalEnergised, exercise.terminals[metal.index()].address.clone());
        }
    }
    for (index, lamp) in exercise.lamps.iter().enumerate() {
        let live = lamp.contacts.iter().any(|it| settled.is_energised(work, Point::Terminal(*it)));
        if off[index] && live && settled.opened.is_empty() {
            hazard(HazardKind::LampholderLive, lamp.address.clone());
        }
    }
    for end in work.ends().filter(|it| work.terminal_of(*it).is_none()) {
        if settled.is_energised(work, Point::End(end)) {
            hazard(HazardKind::LooseEndLive, work.end_address(end));
        }
    }
}

/// Terminals bonded to metal that can be touched: a metal box (through its plate's screws) and a metal plate.
pub(crate) fn exposed_metal(exercise: &Exercise) -> Vec<TerminalId> {
    let mut metal = Vec::new();
    for (index, place) in exercise.locations.iter().enumerate() {
        if let LocationKind::Box(it) = &place.kind {
            let location = LocationId(index as u16);
            if it.body == Material::Metal {
                metal.extend(exercise.terminal_used(location, TerminalUse::BoxEarth));
            }
            metal.extend(exercise.terminal_used(location, TerminalUse::PlateEarth));
        }
    }
    metal
}

/// A line against each exposed metal part, from each device that has a line there in these positions. No device opening
/// in time, or metal that stays energised, is a hazard.
fn first_faults(work: &Work, positions: &[u8], hazards: &mut Vec<Hazard>) {
    let exercise = work.exercise();
    let mut joined = Joined::new(work, positions);
    for metal in exposed_metal(exercise) {
        let address = &exercise.terminals[metal.index()].address;
        if hazards.iter().any(|it| it.kind == HazardKind::NoDisconnection && it.at == *address) {
            continue;
        }
        let location = exercise.terminals[metal.index()].location;
        let metal = Point::Terminal(metal);
        for device in &exercise.devices {
            let line = Point::Terminal(device.line);
            if joined.same(work, line, metal) {
                continue;
            }
            let here = work.ends_at(location).map(|it| work.point_of(it)).find(|it| joined.same(work, line, *it));
            let Some(here) = here else { continue };
            let conditions =
                Conditions { fault: Some((here, metal)), ..Conditions::complete(exercise, positions.to_vec()) };
            let settled = settle(work, conditions);
            let limit = exercise.earthing.disconnection_seconds();
            let in_time = settled.opened.first().is_some_and(|it| it.within <= limit);
            if !in_time || settled.is_energised(work, metal) {
                let witness = Witness { positions: positions.to_vec(), ..Witness::default() };
                let (kind, at) = (HazardKind::NoDisconnection, address.clone());
                hazards.push(Hazard { kind, at, stage: Stage::FirstFault, witness });
                break;
            }
        }
    }
}

/// Keeps the first case that shows a hazard.
fn add(hazards: &mut Vec<Hazard>, hazard: Hazard) {
    if !hazards.iter().any(|it| it.kind == hazard.kind && it.at == hazard.at) {
        hazards.push(hazard);
    }
}
