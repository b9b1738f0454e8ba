//! One group: its rows, and every other case in each.

use std::collections::BTreeSet;

use super::{
    Glow, Hazard, HazardKind, LampRow, Onset, Prepared, Row, Witness, exposed_metal, faults::first_faults, glowing,
    lamp_row,
};
use crate::{
    circuit::{
        every_setting::{Scratch, Solved, SwitchedOn, Walk},
        groups::Group,
        joined::Contacts,
        settle::{Cause, Opening, Settled, is_unbroken, verdict},
    },
    exercise::{Device, DeviceId, Exercise, FanId, LampId, TerminalId, TerminalUse},
    work::{Point, Subject, Work},
};

/// At most this many solutions of a group's cases are tried with devices and lamps crossed; fewer of a network of more than [`NODES`].
const CASES: usize = 16_384;
const NODES: usize = 128;
/// Where devices and lamps are not crossed, at most this many nodes are solved for what opens in the other cases, the same share for each
/// choice of devices and lamps and one case at least.
const SETTLED: usize = 1 << 16;

/// Hazards that some case has shown.
type KnownHazards = BTreeSet<(HazardKind, Subject)>;

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
    /// The combinations tried, if not all of the group's: in counting order, the switches of others in 0.
    pub tried: Option<Vec<Vec<u8>>>,
    /// Whether they are one of each class of those in which what matters is joined alike.
    pub by_class: bool,
    /// Metal that can be touched, and loose ends, as far as they are in no other group; with their kind and address.
    standing: Vec<(Point, HazardKind)>,
}

/// No point below this voltage, volts, drives the touch current through a body, whatever lies behind it: 0.5 mA through 2,000 ohm.
pub(super) const QUIET_VOLTS: f64 = 0.999;

/// For each device that opened, or carries what it will not break, what met what behind it: line and neutral, line and earth,
/// or both.
pub(in crate::circuit) fn what_met(
    exercise: &Exercise,
    contacts: &Contacts,
    positions: &[u8],
    opened: impl Iterator<Item = (DeviceId, Cause)>,
) -> Vec<Vec<HazardKind>> {
    let mut joined = contacts.at(positions);
    let kinds = |(id, cause): (DeviceId, Cause)| {
        let device = &exercise.devices[id];
        // A common device opens for what is on the lines behind it.
        let behind = exercise.devices.iter().filter(|it| it.behind == Some(id));
        let lines: Vec<usize> = behind.chain([device]).map(|it| it.line.index()).collect();
        let mut meets = |wanted: fn(TerminalUse) -> bool| {
            let mut terminals = exercise.terminals.iter().enumerate();
            terminals.any(|(index, it)| wanted(it.used_by) && lines.iter().any(|line| joined.same(*line, index)))
        };
        let mut kinds = Vec::new();
        if meets(|it| matches!(it, TerminalUse::DeviceNeutral(_))) {
            kinds.push(HazardKind::ShortLineNeutral);
        }
        if meets(|it| it == TerminalUse::EarthBar) {
            kinds.push(HazardKind::ShortLineEarth);
        }
        if kinds.is_empty() {
            kinds.push(match cause {
                Cause::Residual => HazardKind::ResidualCurrent,
                Cause::Overcurrent => HazardKind::Overload,
            });
        }
        kinds
    };
    opened.map(kinds).collect()
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
pub(super) fn try_group(trial: &Trial<'_>) -> Tried {
    let walk = trial.walk(None);
    let mut scratch = Scratch::default();
    let mut known = KnownHazards::default();
    let rows = trial.rows_but(&walk, &mut scratch, trial.tried.is_some().then_some(&mut known)).0;
    let mut found = trial.other_cases(&walk, &rows, &mut scratch, &mut known);
    // Row by row, and in a row case by case, first faults last.
    found.extend(first_faults(trial, &rows, &mut scratch).into_iter().map(|(row, it)| (row, usize::MAX, it)));
    found.sort_by_key(|it| (it.0, it.1));
    Tried { rows, others: found.into_iter().map(|it| it.2).collect() }
}

impl<'a> Trial<'a> {
    pub fn new(prepared: &'a Prepared<'a>, number: usize) -> Self {
        let (work, groups) = (prepared.work, &prepared.groups);
        let exercise = work.exercise();
        let ours = |point: Point| groups.of(work, point).is_none_or(|it| it == number);
        let metal = exposed_metal(exercise).into_iter().map(|it| (Point::Terminal(it), HazardKind::MetalEnergised));
        let loose = work.ends().filter(|it| work.terminal_of(*it).is_none());
        let loose = loose.map(|it| (Point::End(it), HazardKind::LooseEndLive));
        let standing = metal.chain(loose).filter(|(it, _)| ours(*it)).collect();
        Self { work, prepared, number, group: &groups.all()[number], tried: None, by_class: false, standing }
    }

    /// The joins of the work.
    pub fn contacts(&self) -> &'a Contacts {
        self.prepared.contacts()
    }

    /// What is tried of the group's combinations, if not all.
    pub fn tried(&self) -> Option<&[Vec<u8>]> {
        self.tried.as_deref()
    }

    /// The walk through the group's combinations, with a first fault or none.
    pub fn walk(&self, fault: Option<(Point, Point)>) -> Walk<'a> {
        let Prepared { work, groups, .. } = self.prepared;
        Walk::new(work, groups, self.prepared.whole(), self.number, fault)
    }

    /// Everything of the group on, in and fitted; and whether nothing opens in any, no device that the group shares with
    /// others feels anything of it, and nothing is energised that must not be.
    pub fn rows(&self, walk: &Walk<'_>, scratch: &mut Scratch) -> (Vec<Row>, bool) {
        self.rows_but(walk, scratch, None)
    }

    /// The same; hazards that are known need not be found again, and those found are known from then on.
    fn rows_but(
        &self,
        walk: &Walk<'_>,
        scratch: &mut Scratch,
        mut known: Option<&mut KnownHazards>,
    ) -> (Vec<Row>, bool) {
        let exercise = self.work.exercise();
        let (on, lamps_in) = (vec![true; exercise.devices.len()], vec![true; exercise.lamps.len()]);
        let mut rows = Vec::new();
        let mut is_quiet = true;
        let load = SwitchedOn { on: &on, lamps_in: &lamps_in };
        walk.every(self.tried(), load, scratch, &mut |positions, solved| {
            let mut lamps = vec![LampRow { glow: Glow::Off, volts: 0.0 }; exercise.lamps.len()];
            for it in &self.group.lamps {
                lamps[it.index()] = glowing(solved.lamp(*it));
            }
            let off: Vec<bool> = lamps.iter().map(|it| it.glow == Glow::Off).collect();
            let positions = positions.to_vec();
            let is_dim = lamps.iter().any(|it| it.glow == Glow::Dim);
            let may_trip = self.undisturbed(walk, solved, (&positions, &on, &off), known.as_deref());
            let may_trip = may_trip.filter(|_| !is_dim);
            let row = if let Some(may_trip) = may_trip {
                is_quiet &= self.is_little(solved);
                Row { positions, lamps, opened: Vec::new(), may_trip, hazards: Vec::new() }
            } else {
                is_quiet = false;
                self.row(walk, positions)
            };
            if let Some(known) = &mut known {
                known.extend(row.hazards.iter().map(|it| (it.kind, it.at)));
            }
            rows.push(row);
        });
        (rows, is_quiet)
    }

    /// Devices that may open, if none must and nothing that must not be energised can be: then there is nothing else to
    /// look for. Of a case: positions, devices that are on, and for each lamp whether it should be dark. What is known to be
    /// energised in some case may be.
    fn undisturbed(
        &self,
        walk: &Walk<'_>,
        solved: &Solved<'_>,
        (positions, on, off): (&[u8], &[bool], &[bool]),
        known: Option<&KnownHazards>,
    ) -> Option<Vec<DeviceId>> {
        let exercise = self.work.exercise();
        let mut may_trip = Vec::new();
        for id in self.busy().filter(|it| on[it.index()]) {
            let (line, neutral) = solved.device(exercise, id)?;
            let (opening, may_open) = verdict(exercise, id, line, neutral);
            if opening.is_some() || is_unbroken(exercise, id, line) {
                return None;
            }
            may_trip.extend(may_open.then_some(id));
        }
        let quiet = |point: Point| {
            let node = walk.network.find(self.work, point);
            node.is_none_or(|it| solved.volts_to_earth(it).abs() < QUIET_VOLTS)
        };
        let is_known = |kind, at: Subject| known.is_some_and(|it| it.contains(&(kind, at)));
        let standing = self.standing.iter().all(|it| quiet(it.0) || is_known(it.1, self.work.subject_at(it.0)))
            && self.isolated(positions).all(|(fan, lines)| {
                lines.into_iter().all(|it| quiet(Point::Terminal(it)))
                    || is_known(HazardKind::FanLive, Subject::Fan(fan))
            });
        let dark = self.group.lamps.iter().filter(|it| off[it.index()]);
        let dark = dark.filter(|it| !is_known(HazardKind::LampholderLive, Subject::Lamp(**it)));
        let mut contacts = dark.flat_map(|it| exercise.lamps[*it].contacts);
        (standing && contacts.all(|it| quiet(Point::Terminal(it)))).then_some(may_trip)
    }

    /// Whether devices in front of several would hold were what they feel of this group felt of each circuit behind them.
    fn is_little(&self, solved: &Solved<'_>) -> bool {
        let exercise = self.work.exercise();
        self.group.devices.iter().filter(|it| exercise.devices[**it].kind.is_common()).all(|id| {
            let circuits = exercise.devices.iter().filter(|it| it.behind == Some(*id)).count() as f64;
            let felt = solved.device(exercise, *id);
            felt.is_some_and(|(line, neutral)| {
                verdict(exercise, *id, line * circuits, neutral * circuits) == (None, false)
            })
        })
    }

    /// A row solved by itself, whatever happens in it.
    pub fn row(&self, walk: &Walk<'_>, positions: Vec<u8>) -> Row {
        let settled = self.settled(walk, &positions);
        let mut lamps = vec![LampRow { glow: Glow::Off, volts: 0.0 }; self.work.exercise().lamps.len()];
        for it in &self.group.lamps {
            lamps[it.index()] = lamp_row(&settled, *it);
        }
        let witness = Witness { positions: positions.clone(), ..Witness::default() };
        let (on, lamps_in) = self.everything();
        let mut hazards = self.trips(walk, &settled, (&on, &lamps_in), &witness);
        let off = self.dark(&lamps, &settled.opened, &positions);
        self.left_energised(&settled, &off, &witness, &mut hazards);
        hazards.extend(self.dim_when_off(walk, &lamps, &witness));
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
        self.work.exercise().devices.with_ids().any(|(id, it)| {
            (has_opened(id) || it.behind.is_some_and(has_opened))
                && terminals.iter().any(|at| [it.line, it.neutral].iter().any(|of| joined.same(of.index(), at.index())))
        })
    }

    /// What happens in one combination with everything of the group on, in and fitted; the other groups dead.
    fn settled(&self, walk: &Walk<'_>, positions: &[u8]) -> Settled {
        let (on, lamps_in) = self.everything();
        walk.settle(on, &lamps_in, positions, f64::INFINITY)
    }

    /// Everything of the group on and in; the other groups dead.
    pub fn everything(&self) -> (Vec<bool>, Vec<bool>) {
        let exercise = self.work.exercise();
        let on = exercise.devices.ids().map(|it| self.group.devices.contains(&it));
        let lamps_in = exercise.lamps.ids().map(|it| self.group.lamps.contains(&it));
        (on.collect(), lamps_in.collect())
    }

    /// The devices of the group that feed anything; those that don't do the same on and off.
    pub fn busy(&self) -> impl Iterator<Item = DeviceId> + '_ {
        self.group.devices.iter().copied().filter(|it| self.prepared.groups.is_busy(*it))
    }

    /// Each device off alone, each on alone, with each lamp out alone and all out; and lamps out with every device on.
    /// Hazards with the number of their row and of their case.
    ///
    /// Where that makes more than [`CASES`], lamps out alone are tried with every device on, and the other way round; then
    /// a hazard that is known is not looked for again, nor a case in which what matters is joined as in one before.
    fn other_cases(
        &self,
        walk: &Walk<'_>,
        rows: &[Row],
        scratch: &mut Scratch,
        known: &mut KnownHazards,
    ) -> Vec<(usize, usize, Hazard)> {
        let exercise = self.work.exercise();
        let (devices, lamps) = (&self.group.devices, &self.group.lamps);
        let off: Vec<Vec<bool>> = rows.iter().map(|it| self.dark(&it.lamps, &it.opened, &it.positions)).collect();
        let mut found = Vec::new();
        let mut case = 0;
        let is_busy = |it: DeviceId| self.prepared.groups.is_busy(it);
        let (of_devices, of_lamps) = (device_choices(exercise, devices, is_busy), lamp_choices(lamps.len()));
        let nodes = walk.network.node_count();
        let is_brief = self.is_brief(rows.len(), nodes);
        let plain = of_devices.len() + of_lamps.len();
        let most = if is_brief { (SETTLED / (nodes * plain).max(1)).max(1) } else { usize::MAX };
        for these_on in &of_devices {
            for these_in in &of_lamps {
                case += 1;
                let all = |of: &[bool]| of.iter().all(|it| *it);
                // Nothing that is off can be energised or open.
                let any_on = devices.iter().zip(these_on).any(|(it, on)| *on && is_busy(*it));
                if all(these_on) && all(these_in) || !any_on {
                    continue;
                }
                let is_plain = all(these_on) || all(these_in) || !these_in.iter().any(|it| *it);
                if is_brief && !is_plain {
                    continue;
                }
                let (on, lamps_in) = self.load(exercise, these_on, these_in);
                let (mut number, mut settled_here) = (0, 0);
                let mut seen: BTreeSet<Vec<usize>> = BTreeSet::new();
                let load = SwitchedOn { on: &on, lamps_in: &lamps_in };
                walk.every(self.tried(), load, scratch, &mut |positions, solved| {
                    let case_is = (positions, on.as_slice(), off[number].as_slice());
                    let mut is_new = || !is_brief || settled_here < most && seen.insert(self.joins_at(positions));
                    let to_skip = is_brief.then_some(&*known);
                    if self.undisturbed(walk, solved, case_is, to_skip).is_none() && is_new() {
                        settled_here += 1;
                        let witness = Witness {
                            positions: positions.to_vec(),
                            off: devices.iter().copied().filter(|it| !on[it.index()]).collect(),
                            out: lamps.iter().copied().filter(|it| !lamps_in[it.index()]).collect(),
                        };
                        let settled = walk.settle(on.clone(), &lamps_in, positions, f64::INFINITY);
                        let mut hazards = self.trips(walk, &settled, (&on, &lamps_in), &witness);
                        self.left_energised(&settled, &off[number], &witness, &mut hazards);
                        known.extend(hazards.iter().map(|it| (it.kind, it.at)));
                        found.extend(hazards.into_iter().map(|it| (number, case, it)));
                    }
                    number += 1;
                });
            }
        }
        found
    }

    /// Whether this many rows make more than [`CASES`] with every choice of devices and lamps.
    fn is_brief(&self, rows: usize, nodes: usize) -> bool {
        let choices = (2 * self.busy().count() + 1) * (self.group.lamps.len() + 2);
        self.tried.is_some() || rows.saturating_mul(choices) > CASES * NODES / nodes.max(NODES)
    }

    /// How what matters is joined in one combination: bars, loads, metal and loose ends.
    fn joins_at(&self, positions: &[u8]) -> Vec<usize> {
        let mut joined = self.contacts().at(positions);
        self.watched().into_iter().map(|it| joined.root(it)).collect()
    }

    /// What matters: bars, the contacts of lamps and fans, metal that can be touched, and loose ends, as points.
    pub fn watched(&self) -> Vec<usize> {
        let exercise = self.work.exercise();
        let bars = exercise.outgoing().map(TerminalId::index);
        let lamps = self.group.lamps.iter().flat_map(|it| exercise.lamps[*it].contacts).map(TerminalId::index);
        let fans = exercise.fans.iter().flat_map(|it| it.terminals).map(TerminalId::index);
        let outlets = exercise.outlets().flat_map(|it| it.1).map(TerminalId::index);
        let standing = self.standing.iter().map(|it| self.work.node(it.0));
        bars.chain(lamps).chain(fans).chain(outlets).chain(standing).collect()
    }

    /// A choice of the group's devices and lamps, over all of the exercise.
    fn load(&self, exercise: &Exercise, on: &[bool], lamps_in: &[bool]) -> (Vec<bool>, Vec<bool>) {
        let mut all_on = vec![false; exercise.devices.len()];
        let mut in_holder = vec![false; exercise.lamps.len()];
        self.group.devices.iter().zip(on).for_each(|(it, on)| all_on[it.index()] = *on);
        self.group.lamps.iter().zip(lamps_in).for_each(|(it, is_in)| in_holder[it.index()] = *is_in);
        (all_on, in_holder)
    }

    /// What made devices open, or should have, with these devices on and these lamps in.
    fn trips(
        &self,
        walk: &Walk<'_>,
        settled: &Settled,
        (on, lamps_in): (&[bool], &[bool]),
        witness: &Witness,
    ) -> Vec<Hazard> {
        let exercise = self.work.exercise();
        let opened = settled.opened.iter().map(|it| (it.device, it.cause));
        let unbroken = settled.unbroken.iter().map(|it| (*it, Cause::Overcurrent));
        let devices: Vec<(DeviceId, Cause)> = opened.chain(unbroken).collect();
        let met = what_met(exercise, self.contacts(), &witness.positions, devices.iter().copied());
        let mut found = Vec::new();
        for ((device, _), kinds) in devices.iter().zip(met) {
            for kind in kinds {
                let alone = |on: Vec<bool>| walk.settle(on, lamps_in, &witness.positions, f64::INFINITY);
                let is_sympathy = kind == HazardKind::ResidualCurrent
                    && self.is_sympathy(*device, on.to_vec(), &witness.positions, alone);
                let kind = if is_sympathy { HazardKind::Sympathy } else { kind };
                let (at, stage) = (Subject::Device(*device), Onset::SwitchingOn);
                found.push(Hazard { kind, at, stage, witness: witness.clone() });
            }
        }
        found
    }

    /// Whether a device that opened, though its line meets nothing, has a neutral that touches earth and holds with its own
    /// circuit alone: what opened it is what others take.
    fn is_sympathy(
        &self,
        device: DeviceId,
        mut on: Vec<bool>,
        positions: &[u8],
        settled: impl Fn(Vec<bool>) -> Settled,
    ) -> bool {
        let exercise = self.work.exercise();
        let mut joined = self.contacts().at(positions);
        let is_its = |(index, it): (usize, &Device)| index == device.index() || it.behind == Some(device);
        let its = exercise.devices.iter().enumerate().filter(|it| is_its(*it));
        let mut neutrals = its.map(|it| it.1.neutral.index());
        let earthed = neutrals.any(|neutral| exercise.earth_bars().any(|it| joined.same(neutral, it.index())));
        if !earthed {
            return false;
        }
        let front = exercise.devices[device].behind;
        for (id, on) in exercise.devices.ids().zip(on.iter_mut()) {
            // One in front stays with what is behind it.
            let its_own = id == device || Some(id) == front || exercise.devices[id].behind == Some(device);
            *on &= its_own;
        }
        settled(on).opened.iter().all(|it| it.device != device)
    }

    /// Fans whose isolator is off, and their two lines.
    fn isolated<'s>(&'s self, positions: &'s [u8]) -> impl Iterator<Item = (FanId, [TerminalId; 2])> + 's {
        let exercise = self.work.exercise();
        self.group.fans.iter().filter_map(move |id| {
            let fan = &exercise.fans[*id];
            let isolator = fan.isolator?;
            let position = positions.get(isolator.index()).map_or(0, |it| usize::from(*it));
            let is_off = exercise.switches[isolator].way.joins(position).is_empty();
            let [line, switched, _] = fan.terminals;
            is_off.then_some((*id, [line, switched]))
        })
    }

    /// Lamps that a load feeds, too little to light them, where one toggle of their switches lights them: they are off, and
    /// live.
    fn dim_when_off(&self, walk: &Walk<'_>, lamps: &[LampRow], witness: &Witness) -> Vec<Hazard> {
        let exercise = self.work.exercise();
        let dim = self.group.lamps.iter().filter(|it| lamps[it.index()].glow == Glow::Dim);
        let lit = |lamp: LampId, positions: Vec<u8>| lamp_row(&self.settled(walk, &positions), lamp).glow == Glow::Lit;
        let is_off = |lamp: &LampId| {
            let switches = exercise.controls.iter().filter(|it| it.lamp == *lamp).flat_map(|it| &it.switches);
            let mut toggles = switches.flat_map(|switch| {
                let here = witness.positions[switch.index()];
                let ways = exercise.switches[*switch].way.positions() as u8;
                (0..ways).filter(move |it| *it != here).map(|it| (switch.index(), it))
            });
            toggles.any(|(switch, position)| {
                let mut positions = witness.positions.clone();
                positions[switch] = position;
                lit(*lamp, positions)
            })
        };
        let hazard = |it: &LampId| Hazard {
            kind: HazardKind::DimWhenOff,
            at: Subject::Lamp(*it),
            stage: Onset::Settled,
            witness: witness.clone(),
        };
        dim.filter(|it| is_off(it)).map(hazard).collect()
    }

    /// What stands energised that must not be, once everything has settled. `off` says of each lamp whether it should be
    /// dark.
    fn left_energised(&self, settled: &Settled, off: &[bool], witness: &Witness, found: &mut Vec<Hazard>) {
        let (work, exercise) = (self.work, self.work.exercise());
        let mut hazard =
            |kind, at: Subject| found.push(Hazard { kind, at, stage: Onset::Settled, witness: witness.clone() });
        let (metal, loose): (Vec<_>, Vec<_>) = self.standing.iter().partition(|it| it.1 == HazardKind::MetalEnergised);
        let energised = |it: &&(Point, HazardKind)| settled.is_energised(work, it.0);
        for (point, kind) in metal.into_iter().filter(energised) {
            hazard(*kind, work.subject_at(*point));
        }
        for it in &self.group.lamps {
            let lamp = &exercise.lamps[*it];
            let live = lamp.contacts.iter().any(|it| settled.is_energised(work, Point::Terminal(*it)));
            if off[it.index()] && live && !self.is_fed_by(&lamp.contacts, &settled.opened, &witness.positions) {
                hazard(HazardKind::LampholderLive, Subject::Lamp(*it));
            }
        }
        for (fan, lines) in self.isolated(&witness.positions) {
            if lines.into_iter().any(|it| settled.is_energised(work, Point::Terminal(it))) {
                hazard(HazardKind::FanLive, Subject::Fan(fan));
            }
        }
        for (point, kind) in loose.into_iter().filter(energised) {
            hazard(*kind, work.subject_at(*point));
        }
    }
}

/// All on, each that feeds anything off alone, each such on alone.
fn device_choices(exercise: &Exercise, devices: &[DeviceId], is_busy: impl Fn(DeviceId) -> bool) -> Vec<Vec<bool>> {
    let count = devices.len();
    let mut choices = vec![vec![true; count]];
    let busy = || devices.iter().filter(|it| is_busy(**it));
    choices.extend(busy().map(|odd| devices.iter().map(|it| it != odd).collect()));
    // With two devices, each on alone is the other off alone.
    if count > 2 {
        choices.extend(busy().map(|odd| {
            // On alone, with what stands in front of it.
            let front = exercise.devices[*odd].behind;
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
