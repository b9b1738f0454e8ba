//! One group: its rows, and every other case in each.

use std::cell::OnceCell;

use super::{
    Glow, Hazard, HazardKind, LampRow, Prepared, Row, Stage, Witness, exposed_metal, faults::first_faults, glowing,
    lamp_row,
};
use crate::{
    circuit::{
        groups::Group,
        joined::Contacts,
        network::Conditions,
        settle::{Cause, Opening, Settled, is_unbroken, settle, verdict},
        walk::{Load, Nodes, Scratch, Solved, Walk},
    },
    exercise::{DeviceId, Exercise, LampId, TerminalId, TerminalUse},
    work::{Point, Subject, Work},
};

/// What a group does.
pub(super) struct Tried {
    /// A row for each combination of its switches, those of other groups in position 0.
    pub rows: Vec<Row>,
    /// Hazards of the other cases, row by row.
    pub others: Vec<Hazard>,
}

/// A group before its survey.
pub(super) struct Trial<'a> {
    pub work: &'a Work,
    prepared: &'a Prepared<'a>,
    number: usize,
    pub group: &'a Group,
    /// Asked for only where something is wrong or a fault is tried.
    contacts: OnceCell<Contacts>,
    /// Metal that can be touched, and loose ends, as far as they are in no other group; with their kind and address.
    standing: Vec<(Point, HazardKind)>,
}

/// No point below so many volts drives the touch current through a body, whatever lies behind it: 0.5 mA through 2,000 ohm.
pub(super) const QUIET_VOLTS: f64 = 0.999;

/// For each device that opened, or carries what it will not break, what met what behind it.
pub(in crate::circuit) fn what_met(
    exercise: &Exercise,
    contacts: &Contacts,
    positions: &[u8],
    opened: impl Iterator<Item = (DeviceId, Cause)>,
) -> Vec<HazardKind> {
    let mut joined = contacts.at(positions);
    let kind = |(id, cause): (DeviceId, Cause)| {
        let device = &exercise.devices[id.index()];
        // A common device opens for what is on the lines behind it.
        let behind = exercise.devices.iter().filter(|it| it.behind == Some(id));
        let lines: Vec<usize> = behind.chain([device]).map(|it| it.line.index()).collect();
        let mut meets = |wanted: fn(TerminalUse) -> bool| {
            let mut terminals = exercise.terminals.iter().enumerate();
            terminals.any(|(index, it)| wanted(it.used_by) && lines.iter().any(|line| joined.same(*line, index)))
        };
        let neutral = meets(|it| matches!(it, TerminalUse::DeviceNeutral(_)));
        let earth = meets(|it| it == TerminalUse::EarthBar);
        match (neutral, earth, cause) {
            (false, true, _) => HazardKind::ShortLineEarth,
            (true, ..) => HazardKind::ShortLineNeutral,
            (false, false, Cause::Residual) => HazardKind::ResidualCurrent,
            (false, false, Cause::Overcurrent) => HazardKind::Overload,
        }
    };
    opened.map(kind).collect()
}

/// The rows alone.
pub(super) fn rows_of_group(prepared: &Prepared<'_>, number: usize) -> Vec<Row> {
    let trial = Trial::new(prepared, number);
    trial.rows(&trial.walk(None), &mut Scratch::default()).0
}

/// The rows of a group taken apart from others with the same device in front, if they hold whatever those do.
pub(super) fn rows_apart(prepared: &Prepared<'_>, number: usize) -> Option<Vec<Row>> {
    let trial = Trial::new(prepared, number);
    let (rows, is_quiet) = trial.rows(&trial.walk(None), &mut Scratch::default());
    is_quiet.then_some(rows)
}

/// Tries every combination and every case of one group.
pub(super) fn try_group(prepared: &Prepared<'_>, number: usize) -> Tried {
    let trial = Trial::new(prepared, number);
    let walk = trial.walk(None);
    let mut scratch = Scratch::default();
    let rows = trial.rows(&walk, &mut scratch).0;
    let mut found = trial.other_cases(&walk, &rows, &mut scratch);
    // Row by row, and in a row case by case, first faults last.
    found.extend(first_faults(&trial, &rows, &mut scratch).into_iter().map(|(row, it)| (row, usize::MAX, it)));
    found.sort_by_key(|it| (it.0, it.1));
    Tried { rows, others: found.into_iter().map(|it| it.2).collect() }
}

impl<'a> Trial<'a> {
    pub fn new(prepared: &'a Prepared<'a>, number: usize) -> Self {
        let (work, groups) = (prepared.work, &prepared.groups);
        let exercise = work.exercise();
        let ours = |it: Point| groups.of(work, it).is_none_or(|it| it == number);
        let metal = exposed_metal(exercise).into_iter().map(|it| (Point::Terminal(it), HazardKind::MetalEnergised));
        let loose = work.ends().filter(|it| work.terminal_of(*it).is_none());
        let loose = loose.map(|it| (Point::End(it), HazardKind::LooseEndLive));
        let standing = metal.chain(loose).filter(|(it, _)| ours(*it)).collect();
        Self { work, prepared, number, group: &groups.all()[number], contacts: OnceCell::new(), standing }
    }

    /// The joins of the work.
    pub fn contacts(&self) -> &Contacts {
        self.contacts.get_or_init(|| Contacts::of(self.work))
    }

    /// The walk through the group's combinations, with a first fault or none.
    pub fn walk(&self, fault: Option<(Point, Point)>) -> Walk<'a> {
        let Prepared { work, groups, .. } = self.prepared;
        Walk::new(work, groups, self.prepared.whole(), self.number, fault)
    }

    /// Everything of the group on, in and fitted; and whether nothing opens in any, no device that the group shares with
    /// others feels anything of it, and nothing is energised that must not be.
    pub fn rows(&self, walk: &Walk<'_>, scratch: &mut Scratch) -> (Vec<Row>, bool) {
        let exercise = self.work.exercise();
        let (on, lamps_in) = (vec![true; exercise.devices.len()], vec![true; exercise.lamps.len()]);
        let mut rows = Vec::new();
        let mut is_quiet = true;
        walk.every(Load { on: &on, lamps_in: &lamps_in }, Nodes::All, scratch, &mut |positions, solved| {
            let mut lamps = vec![LampRow { glow: Glow::Off, volts: 0.0 }; exercise.lamps.len()];
            for it in &self.group.lamps {
                lamps[it.index()] = glowing(solved.lamp(*it));
            }
            let off: Vec<bool> = lamps.iter().map(|it| it.glow == Glow::Off).collect();
            let positions = positions.to_vec();
            let row = if let Some(may_trip) = self.undisturbed(walk, solved, &on, &off) {
                is_quiet &= self.is_little(solved);
                Row { positions, lamps, opened: Vec::new(), may_trip, hazards: Vec::new() }
            } else {
                is_quiet = false;
                self.row(positions)
            };
            rows.push(row);
        });
        (rows, is_quiet)
    }

    /// Devices that may open, if none must and nothing that must not be energised can be: then there is nothing else to
    /// look for. `off` says of each lamp whether it should be dark.
    fn undisturbed(&self, walk: &Walk<'_>, solved: &Solved<'_>, on: &[bool], off: &[bool]) -> Option<Vec<DeviceId>> {
        let exercise = self.work.exercise();
        let mut may_trip = Vec::new();
        for id in self.group.devices.iter().filter(|it| on[it.index()]) {
            let (line, neutral) = solved.device(exercise, *id)?;
            let (opening, may_open) = verdict(exercise, *id, line, neutral);
            if opening.is_some() || is_unbroken(exercise, *id, line) {
                return None;
            }
            may_trip.extend(may_open.then_some(*id));
        }
        let quiet = |point: Point| {
            let node = walk.network.find(self.work, point);
            node.is_none_or(|it| solved.volts(it).abs() < QUIET_VOLTS)
        };
        let standing = self.standing.iter().all(|it| quiet(it.0));
        let dark = self.group.lamps.iter().filter(|it| off[it.index()]);
        let mut contacts = dark.flat_map(|it| exercise.lamps[it.index()].contacts);
        (standing && contacts.all(|it| quiet(Point::Terminal(it)))).then_some(may_trip)
    }

    /// Whether devices in front of several would hold were what they feel of this group felt of each circuit behind them.
    fn is_little(&self, solved: &Solved<'_>) -> bool {
        let exercise = self.work.exercise();
        self.group.devices.iter().filter(|it| exercise.devices[it.index()].kind.is_common()).all(|id| {
            let circuits = exercise.devices.iter().filter(|it| it.behind == Some(*id)).count() as f64;
            let felt = solved.device(exercise, *id);
            felt.is_some_and(|(line, neutral)| {
                verdict(exercise, *id, line * circuits, neutral * circuits) == (None, false)
            })
        })
    }

    /// Metal that can be touched, and loose ends, as far as they are in no other group.
    pub fn standing(&self) -> impl Iterator<Item = Point> + '_ {
        self.standing.iter().map(|it| it.0)
    }

    /// A row solved by itself, whatever happens in it.
    pub fn row(&self, positions: Vec<u8>) -> Row {
        let exercise = self.work.exercise();
        let settled = settle(self.work, self.conditions(positions.clone()));
        let lamps: Vec<LampRow> = (0..exercise.lamps.len() as u16).map(|it| lamp_row(&settled, LampId(it))).collect();
        let witness = Witness { positions: positions.clone(), ..Witness::default() };
        let mut hazards = self.trips(&settled, &witness);
        let off = self.dark(&lamps, &settled.opened, &positions);
        self.left_energised(&settled, &off, &witness, &mut hazards);
        Row { positions, lamps, opened: settled.opened, may_trip: settled.may_open, hazards }
    }

    /// For each lamp whether its switches put it out: it is off, and not because what feeds it opened.
    fn dark(&self, lamps: &[LampRow], opened: &[Opening], positions: &[u8]) -> Vec<bool> {
        let contacts = self.work.exercise().lamps.iter().map(|it| &it.contacts);
        let lamps = lamps.iter().zip(contacts);
        lamps.map(|(it, at)| it.glow == Glow::Off && !self.is_fed_by(at, opened, positions)).collect()
    }

    /// Whether the line or the neutral of a device that opened, or of one behind it, is joined to one of these terminals.
    fn is_fed_by(&self, terminals: &[TerminalId], opened: &[Opening], positions: &[u8]) -> bool {
        if opened.is_empty() {
            return false;
        }
        let mut joined = self.contacts().at(positions);
        let has_opened = |id: DeviceId| opened.iter().any(|it| it.device == id);
        self.work.exercise().devices.iter().enumerate().any(|(index, it)| {
            (has_opened(DeviceId(index as u16)) || it.behind.is_some_and(has_opened))
                && terminals.iter().any(|at| [it.line, it.neutral].iter().any(|of| joined.same(of.index(), at.index())))
        })
    }

    /// Everything of the group on, in and fitted; the other groups dead.
    pub fn conditions(&self, positions: Vec<u8>) -> Conditions {
        let exercise = self.work.exercise();
        Conditions {
            on: (0..exercise.devices.len()).map(|it| self.group.devices.contains(&DeviceId(it as u16))).collect(),
            lamps_in: (0..exercise.lamps.len()).map(|it| self.group.lamps.contains(&LampId(it as u16))).collect(),
            ..Conditions::complete(exercise, positions)
        }
    }

    /// Each device off alone, each on alone, with each lamp out alone and all out; and lamps out with every device on.
    /// Hazards with the number of their row and of their case.
    fn other_cases(&self, walk: &Walk<'_>, rows: &[Row], scratch: &mut Scratch) -> Vec<(usize, usize, Hazard)> {
        let exercise = self.work.exercise();
        let (devices, lamps) = (&self.group.devices, &self.group.lamps);
        let off: Vec<Vec<bool>> = rows.iter().map(|it| self.dark(&it.lamps, &it.opened, &it.positions)).collect();
        let mut found = Vec::new();
        let mut case = 0;
        for these_on in device_choices(exercise, devices) {
            for these_in in lamp_choices(lamps.len()) {
                case += 1;
                let complete = these_on.iter().all(|it| *it) && these_in.iter().all(|it| *it);
                // Nothing that is off can be energised or open.
                if complete || !these_on.iter().any(|it| *it) {
                    continue;
                }
                let (on, lamps_in) = self.load(exercise, &these_on, &these_in);
                let mut number = 0;
                walk.every(Load { on: &on, lamps_in: &lamps_in }, Nodes::All, scratch, &mut |positions, solved| {
                    if self.undisturbed(walk, solved, &on, &off[number]).is_none() {
                        let witness = Witness {
                            positions: positions.to_vec(),
                            off: devices.iter().copied().filter(|it| !on[it.index()]).collect(),
                            out: lamps.iter().copied().filter(|it| !lamps_in[it.index()]).collect(),
                        };
                        let (on, lamps_in) = (on.clone(), lamps_in.clone());
                        let positions = positions.to_vec();
                        let complete = Conditions::complete(exercise, positions);
                        let settled = settle(self.work, Conditions { on, lamps_in, ..complete });
                        let mut hazards = self.trips(&settled, &witness);
                        self.left_energised(&settled, &off[number], &witness, &mut hazards);
                        found.extend(hazards.into_iter().map(|it| (number, case, it)));
                    }
                    number += 1;
                });
            }
        }
        found
    }

    /// A choice of the group's devices and lamps, over all of the exercise.
    fn load(&self, exercise: &Exercise, on: &[bool], lamps_in: &[bool]) -> (Vec<bool>, Vec<bool>) {
        let mut all_on = vec![false; exercise.devices.len()];
        let mut in_holder = vec![false; exercise.lamps.len()];
        self.group.devices.iter().zip(on).for_each(|(it, on)| all_on[it.index()] = *on);
        self.group.lamps.iter().zip(lamps_in).for_each(|(it, is_in)| in_holder[it.index()] = *is_in);
        (all_on, in_holder)
    }

    /// What made devices open, or should have.
    fn trips(&self, settled: &Settled, witness: &Witness) -> Vec<Hazard> {
        let exercise = self.work.exercise();
        let opened = settled.opened.iter().map(|it| (it.device, it.cause));
        let unbroken = settled.unbroken.iter().map(|it| (*it, Cause::Overcurrent));
        let devices: Vec<(DeviceId, Cause)> = opened.chain(unbroken).collect();
        let kinds = what_met(exercise, self.contacts(), &witness.positions, devices.iter().copied());
        let hazard = |((device, _), kind): (&(DeviceId, Cause), HazardKind)| {
            let at = Subject::Device(*device);
            Hazard { kind, at, stage: Stage::SwitchingOn, witness: witness.clone() }
        };
        devices.iter().zip(kinds).map(hazard).collect()
    }

    /// What stands energised that must not be, once everything has settled. `off` says of each lamp whether it should be
    /// dark.
    fn left_energised(&self, settled: &Settled, off: &[bool], witness: &Witness, found: &mut Vec<Hazard>) {
        let (work, exercise) = (self.work, self.work.exercise());
        let mut hazard =
            |kind, at: Subject| found.push(Hazard { kind, at, stage: Stage::Settled, witness: witness.clone() });
        let (metal, loose): (Vec<_>, Vec<_>) = self.standing.iter().partition(|it| it.1 == HazardKind::MetalEnergised);
        let energised = |it: &&(Point, HazardKind)| settled.is_energised(work, it.0);
        for (point, kind) in metal.into_iter().filter(energised) {
            hazard(*kind, work.subject_at(*point));
        }
        for it in &self.group.lamps {
            let lamp = &exercise.lamps[it.index()];
            let live = lamp.contacts.iter().any(|it| settled.is_energised(work, Point::Terminal(*it)));
            if off[it.index()] && live && !self.is_fed_by(&lamp.contacts, &settled.opened, &witness.positions) {
                hazard(HazardKind::LampholderLive, Subject::Lamp(*it));
            }
        }
        for (point, kind) in loose.into_iter().filter(energised) {
            hazard(*kind, work.subject_at(*point));
        }
    }
}

/// All on, each off alone, each on alone.
fn device_choices(exercise: &Exercise, devices: &[DeviceId]) -> Vec<Vec<bool>> {
    let count = devices.len();
    let mut choices = vec![vec![true; count]];
    choices.extend((0..count).map(|odd| (0..count).map(|it| it != odd).collect()));
    // With two devices, each on alone is the other off alone.
    if count > 2 {
        choices.extend(devices.iter().map(|odd| {
            // On alone, with what stands in front of it.
            let front = exercise.devices[odd.index()].behind;
            devices.iter().map(|it| it == odd || Some(*it) == front).collect()
        }));
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
