//! Every combination of switch positions, and every case in it: what the lamps do, what opens, and every hazard.
//!
//! Each group of joined circuits is tried by itself, the others dead: devices and lamps are crossed with positions only
//! inside it, and a lamp's volts are those with the loads of other groups off. The rows are the combinations of the
//! groups' own.
//!
//! The cases are those of the marking charter: all devices on, each off alone, each on alone; all lamps in, each out
//! alone, all out; and a first fault from line to each exposed metal part, with everything on and in.

mod cases;
mod faults;
mod states;

use cases::Trial;
pub(super) use cases::what_met;
pub use states::{ROWS, StateClass, States, row_at, states};

use std::cell::OnceCell;

use super::{
    groups::{Group, Groups},
    network::{Network, Part},
    settle::{Opening, Settled},
    walk::{Scratch, Walk, whole},
};
use crate::{
    exercise::{DeviceId, Exercise, LampId, LocationId, LocationKind, SwitchId, TerminalId, TerminalUse},
    trade::{accessory::Material, supply::NOMINAL_VOLTS},
    work::{Subject, Work, combinations},
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
    /// A device opens on overcurrent though line meets nothing: more load than it carries.
    Overload,
    /// Line joined to earth likewise.
    ShortLineEarth,
    /// Line and neutral currents of a device differ enough to open it.
    ResidualCurrent,
    /// Metal that can be touched is energised.
    MetalEnergised,
    /// A lampholder's contact is energised while its switches keep its lamp off: nothing that feeds it has opened.
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
    /// Where: a device, a terminal, an end or a lamp.
    pub at: Subject,
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
    /// What opened, in order: which device, why, and in what time.
    pub opened: Vec<Opening>,
    /// Devices that may open.
    pub may_trip: Vec<DeviceId>,
    /// What is wrong in this row alone, everything on and in.
    pub hazards: Vec<Hazard>,
}

impl Row {
    /// Devices that opened.
    pub fn tripped(&self) -> impl Iterator<Item = DeviceId> + '_ {
        self.opened.iter().map(|it| it.device)
    }
}

/// The whole of it.
#[derive(Debug, Clone)]
pub struct Survey {
    /// A row for each combination, in counting order, last switch fastest.
    pub rows: Vec<Row>,
    /// Every hazard once, with the first case that shows it, rows' own first.
    pub hazards: Vec<Hazard>,
}

/// A work taken apart into its groups, whose networks are built once however many questions follow.
#[derive(Debug)]
pub struct Prepared<'a> {
    work: &'a Work,
    groups: Groups,
    /// Asked for only where a group is walked through.
    whole: OnceCell<Network>,
}

/// The same with the order of elimination of each group's network fixed: what is left is to solve.
pub struct Ready<'a> {
    prepared: &'a Prepared<'a>,
    groups: Vec<(Trial<'a>, Walk<'a>)>,
}

impl<'a> Prepared<'a> {
    /// Takes a work apart.
    pub fn new(work: &'a Work) -> Self {
        Self::of(work, Groups::new(work))
    }

    fn of(work: &'a Work, groups: Groups) -> Self {
        Self { work, groups, whole: OnceCell::new() }
    }

    /// Fixes the orders of elimination.
    pub fn ready(&'a self) -> Ready<'a> {
        let trial = |number| {
            let trial = Trial::new(self, number);
            let walk = trial.walk(None);
            (trial, walk)
        };
        Ready { prepared: self, groups: (0..self.groups.all().len()).map(trial).collect() }
    }

    fn whole(&self) -> &Network {
        self.whole.get_or_init(|| whole(self.work))
    }
}

impl Ready<'_> {
    /// Tries every combination, with everything on, in and fitted.
    pub fn rows(&self) -> Vec<Row> {
        let mut scratch = Scratch::default();
        let parts = self.groups.iter().map(|(trial, walk)| trial.rows(walk, &mut scratch).0).collect();
        all_rows(self.prepared.work.exercise(), self.prepared.groups.all(), parts)
    }
}

/// Tries every combination, with everything on, in and fitted.
pub fn rows(work: &Work) -> Vec<Row> {
    Prepared::new(work).ready().rows()
}

/// Tries every combination and every case.
pub fn survey(work: &Work) -> Survey {
    let prepared = Prepared::new(work);
    let groups = &prepared.groups;
    let mut hazards = Vec::new();
    let mut later = Vec::new();
    let parts: Vec<Vec<Row>> = (0..groups.all().len())
        .map(|it| {
            let tried = cases::try_group(&prepared, it);
            later.push(tried.others);
            tried.rows
        })
        .collect();
    for rows in &parts {
        rows.iter().flat_map(|it| &it.hazards).for_each(|it| add(&mut hazards, it.clone()));
    }
    for it in later.into_iter().flatten() {
        add(&mut hazards, it);
    }
    Survey { rows: all_rows(work.exercise(), groups.all(), parts), hazards }
}

fn all_rows(exercise: &Exercise, groups: &[Group], parts: Vec<Vec<Row>>) -> Vec<Row> {
    match groups {
        // Its own rows are all there are.
        [one] if one.switches.len() == exercise.switches.len() => parts.into_iter().flatten().collect(),
        _ => crossed(exercise, groups, &parts),
    }
}

/// Every combination, put together from each group's own rows.
fn crossed(exercise: &Exercise, groups: &[Group], parts: &[Vec<Row>]) -> Vec<Row> {
    let switches: Vec<SwitchId> = (0..exercise.switches.len() as u16).map(SwitchId).collect();
    let settings = combinations(exercise, &switches, &vec![0; switches.len()]);
    settings.into_iter().map(|it| together(exercise, groups, parts, it)).collect()
}

/// One combination.
fn together(exercise: &Exercise, groups: &[Group], parts: &[Vec<Row>], positions: Vec<u8>) -> Row {
    let dark = LampRow { glow: Glow::Off, volts: 0.0 };
    let mut row = Row {
        lamps: vec![dark; exercise.lamps.len()],
        opened: Vec::new(),
        may_trip: Vec::new(),
        hazards: Vec::new(),
        positions,
    };
    for (group, rows) in groups.iter().zip(parts) {
        // A group's rows come in counting order of its own switches.
        let at = group.switches.iter().fold(0, |at, it| {
            let ways = exercise.switches[it.index()].way.positions();
            at * ways + usize::from(row.positions[it.index()])
        });
        let Some(own) = rows.get(at) else { continue };
        for it in &group.lamps {
            row.lamps[it.index()] = own.lamps[it.index()];
        }
        row.opened.extend(&own.opened);
        row.may_trip.extend(&own.may_trip);
        for it in &own.hazards {
            if !row.hazards.iter().any(|had| had.kind == it.kind && had.at == it.at) {
                let witness = Witness { positions: row.positions.clone(), ..it.witness.clone() };
                row.hazards.push(Hazard { witness, ..it.clone() });
            }
        }
    }
    row
}

pub(crate) fn lamp_row(settled: &Settled, lamp: LampId) -> LampRow {
    glowing(settled.network.part(Part::Lamp(lamp)).map_or(0.0, |it| it.volts(&settled.solution).abs()))
}

/// A lamp with so many volts across it.
fn glowing(volts: f64) -> LampRow {
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

/// Keeps the first case that shows a hazard.
fn add(hazards: &mut Vec<Hazard>, hazard: Hazard) {
    if !hazards.iter().any(|it| it.kind == hazard.kind && it.at == hazard.at) {
        hazards.push(hazard);
    }
}
