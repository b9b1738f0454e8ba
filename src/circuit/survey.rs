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
mod tried;

use cases::Trial;
pub(super) use cases::what_met;
pub use states::{ROWS, StateClass, States, row_at, states};
use tried::number_of;
pub use tried::settings_to_try;

use std::{cell::OnceCell, collections::BTreeMap, sync::Arc};

use super::{
    every_setting::{Scratch, Walk, whole},
    groups::{Group, Groups},
    joined::{Contacts, Layered},
    network::{Network, Part},
    settle::{Opening, Settled},
};
use crate::{
    exercise::{DeviceId, Exercise, LampId, LocationKind, SwitchId, TerminalId, TerminalUse, combinations},
    trade::{accessory::Material, supply::NOMINAL_VOLTS},
    work::{Subject, Work},
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
    /// A device opens for what another circuit takes, which comes to it through a neutral that touches earth; with its own circuit
    /// alone it holds.
    Sympathy,
    /// A lamp is fed through another load, too little to light it, in a position in which its switches put it out.
    DimWhenOff,
    /// A line of a fan is energised with its isolator off.
    FanLive,
}

/// When in the course of switching on it shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Onset {
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
    /// What it is.
    pub kind: HazardKind,
    /// Where: a device, a terminal, an end, a lamp or a fan.
    pub at: Subject,
    /// When.
    pub stage: Onset,
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
    /// A row for each combination that is tried ([`settings_to_try`]), in counting order, last switch fastest.
    pub rows: Vec<Row>,
    /// Of those the first of each class in which bars, loads, metal and loose ends are joined alike, where classes are far fewer;
    /// else all of them.
    pub distinct: Vec<Vec<u8>>,
    /// Every hazard once, with the first case that shows it, rows' own first.
    pub hazards: Vec<Hazard>,
}

/// A work taken apart into its groups, whose networks are built once however many questions follow.
#[derive(Debug)]
pub struct Prepared<'a> {
    work: &'a Work,
    groups: Groups,
    /// Asked for only where a group is walked through.
    whole: OnceCell<Arc<Network>>,
    /// Asked for only where something is wrong or a fault is tried.
    contacts: OnceCell<Contacts>,
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
        Self { work, groups, whole: OnceCell::new(), contacts: OnceCell::new() }
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

    fn whole(&self) -> &Arc<Network> {
        self.whole.get_or_init(|| Arc::new(whole(self.work)))
    }

    fn contacts(&self) -> &Contacts {
        self.contacts.get_or_init(|| Contacts::of(self.work))
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

/// Tries every case in every combination that is to be tried ([`settings_to_try`]).
pub fn survey(work: &Work) -> Survey {
    let prepared = Prepared::new(work);
    let settings = settings_to_try(work);
    let is_every = number_of(work.exercise(), &all_switches(work.exercise())) == Some(settings.len());
    let mut hazards = Vec::new();
    let mut later = Vec::new();
    let mut distinct: Vec<Vec<u8>> = Vec::new();
    let mut by_class = false;
    let groups = prepared.groups.all();
    let parts: Vec<Tries> = (0..groups.len())
        .map(|number| {
            if groups.len() > 1 && is_idle(work, &groups[number]) {
                return (Vec::new(), Own::Every);
            }
            let (trial, own) = Own::of(&prepared, number, (!is_every).then_some(settings.as_slice()));
            let tried = cases::try_group(&trial);
            later.push(tried.others);
            by_class |= trial.by_class;
            distinct.extend(tried.rows.iter().map(|it| it.positions.clone()));
            (tried.rows, own)
        })
        .collect();
    for (rows, _) in &parts {
        rows.iter().flat_map(|it| &it.hazards).for_each(|it| add(&mut hazards, it.clone()));
    }
    for it in later.into_iter().flatten() {
        add(&mut hazards, it);
    }
    if by_class {
        distinct.sort_unstable();
        distinct.dedup();
    } else {
        distinct.clone_from(&settings);
    }
    let rows = match prepared.groups.all() {
        [one] if is_every && one.switches.len() == work.exercise().switches.len() && parts[0].1.is_every() => {
            parts.into_iter().flat_map(|it| it.0).collect()
        }
        groups => settings.into_iter().map(|it| together(work.exercise(), groups, &parts, it)).collect(),
    };
    Survey { rows, distinct, hazards }
}

/// Whether a group is devices alone with nothing in their terminals: there is no row to try.
fn is_idle(work: &Work, group: &Group) -> bool {
    let has_end = |it: TerminalId| work.ends_in(it).next().is_some();
    let devices = group.devices.iter().map(|it| &work.exercise().devices[*it]);
    let mut terminals = devices.flat_map(|it| [it.line, it.neutral]);
    group.switches.is_empty() && group.lamps.is_empty() && group.fans.is_empty() && !terminals.any(has_end)
}

/// The rows of a group, and how to find that of a combination.
type Tries = (Vec<Row>, Own);

/// Which of a group's own combinations its rows are of.
enum Own {
    /// All, in counting order.
    Every,
    /// These, in counting order.
    Listed(Vec<Vec<u8>>),
    /// One of each class of those in which what matters is joined alike; by that the place of the row.
    Classes(Box<Layered>, BTreeMap<Vec<u8>, usize>),
}

impl Own {
    /// Of all combinations, or of those listed; with a trial that tries them.
    fn of<'a>(prepared: &'a Prepared<'a>, number: usize, listed: Option<&[Vec<u8>]>) -> (Trial<'a>, Self) {
        let mut trial = Trial::new(prepared, number);
        let group = trial.group;
        let own = listed.map(|listed| {
            let mut own: Vec<Vec<u8>> = listed.iter().map(|it| projected(group, it)).collect();
            own.sort_unstable();
            own.dedup();
            own
        });
        let every = number_of(prepared.work.exercise(), &group.switches).unwrap_or(usize::MAX);
        let count = own.as_ref().map_or(every, Vec::len);
        let classes = (count == every && count > tried::ALL).then(|| Self::classes(&trial, count)).flatten();
        if let Some((of_classes, firsts)) = classes {
            (trial.tried, trial.by_class) = (Some(firsts), true);
            return (trial, of_classes);
        }
        trial.tried.clone_from(&own);
        (trial, own.map_or(Self::Every, Self::Listed))
    }

    /// The classes, and the first combination of each, if they are far fewer.
    fn classes(trial: &Trial<'_>, count: usize) -> Option<(Self, Vec<Vec<u8>>)> {
        let group: Vec<usize> = trial.group.switches.iter().map(|it| it.index()).collect();
        let graph = Layered::new(&trial.contacts().only(&group), &trial.watched(), &[]).ok()?;
        let classes = graph.classes().ok().filter(|it| it.len() * 4 <= count)?;
        let places = classes.iter().enumerate().map(|(place, it)| (it.joined.clone(), place)).collect();
        let firsts = classes.into_iter().map(|it| it.first).collect();
        Some((Self::Classes(Box::new(graph), places), firsts))
    }

    const fn is_every(&self) -> bool {
        matches!(self, Self::Every)
    }

    /// The place of the row of a combination.
    fn place(&self, exercise: &Exercise, group: &Group, positions: &[u8]) -> Option<usize> {
        match self {
            // They come in counting order of the group's own switches.
            Self::Every => Some(group.switches.iter().fold(0, |at, it| {
                let ways = exercise.switches[*it].way.positions();
                at * ways + usize::from(positions[it.index()])
            })),
            Self::Listed(it) => it.binary_search(&projected(group, positions)).ok(),
            Self::Classes(graph, places) => places.get(&graph.at(&projected(group, positions))).copied(),
        }
    }
}

/// A combination with the switches of other groups in 0.
fn projected(group: &Group, positions: &[u8]) -> Vec<u8> {
    let mut own = vec![0; positions.len()];
    group.switches.iter().for_each(|it| own[it.index()] = positions[it.index()]);
    own
}

fn all_switches(exercise: &Exercise) -> Vec<SwitchId> {
    exercise.switches.ids().collect()
}

fn all_rows(exercise: &Exercise, groups: &[Group], parts: Vec<Vec<Row>>) -> Vec<Row> {
    match groups {
        // Its own rows are all there are.
        [one] if one.switches.len() == exercise.switches.len() => parts.into_iter().flatten().collect(),
        _ => crossed(exercise, groups, parts),
    }
}

/// Every combination, put together from each group's own rows.
fn crossed(exercise: &Exercise, groups: &[Group], parts: Vec<Vec<Row>>) -> Vec<Row> {
    let switches = all_switches(exercise);
    let settings = combinations(exercise, &switches, &vec![0; switches.len()]);
    let parts: Vec<Tries> = parts.into_iter().map(|it| (it, Own::Every)).collect();
    settings.into_iter().map(|it| together(exercise, groups, &parts, it)).collect()
}

/// One combination.
fn together(exercise: &Exercise, groups: &[Group], parts: &[Tries], positions: Vec<u8>) -> Row {
    let dark = LampRow { glow: Glow::Off, volts: 0.0 };
    let mut row = Row {
        lamps: vec![dark; exercise.lamps.len()],
        opened: Vec::new(),
        may_trip: Vec::new(),
        hazards: Vec::new(),
        positions,
    };
    for (group, (rows, own)) in groups.iter().zip(parts) {
        let Some(own) = own.place(exercise, group, &row.positions).and_then(|it| rows.get(it)) else { continue };
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

/// A lamp with these volts across it.
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

/// Terminals bonded to metal that can be touched: of a metal box (through its plate's screws) and of a plate that earths metal.
pub(crate) fn exposed_metal(exercise: &Exercise) -> Vec<TerminalId> {
    let mut metal = Vec::new();
    for (location, place) in exercise.locations.with_ids() {
        if let LocationKind::Box(it) = &place.kind {
            if it.body == Material::Metal {
                metal.extend(exercise.terminal_used(location, TerminalUse::BoxEarth));
            }
            if it.earths_metal() {
                metal.extend(exercise.terminal_used(location, TerminalUse::PlateEarth));
            }
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
