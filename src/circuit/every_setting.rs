//! Every combination of one group's positions, solved depth first: the network is built once, the order of elimination
//! fixed once, and the nodes of each switch eliminated once a branch.
//!
//! Volts between two nodes are here the difference of their voltages: right to some 1e-13 V, which through the least contact is far
//! below any current that opens a device.
//!
//! The other groups stand with their switches in position 0, their devices off and their lamps out: a group's volts are
//! those with the loads of other groups off. Their insides are left out altogether where they reach nothing but the
//! board's neutral: all that could flow there is what their insulation lets through of the volt or less on it.

use std::{cell::OnceCell, ops::Range, sync::Arc};

use super::{
    eliminate::{NO_SLOT, Plan},
    groups::{Group, Groups},
    network::{Conditions, LINE_BAR, NEUTRAL_BAR, Network, Part, SOURCE, STAR},
    settle::{Settled, until_none_opens},
};
use crate::{
    exercise::{DeviceId, Exercise, LampId},
    trade::{
        accessory::{SOUND_CONTACT_OHMS, SWITCH_CONTACT_OHMS},
        supply::NOMINAL_VOLTS,
    },
    work::{Point, Work},
};

/// The network of a group, ready to be walked through.
#[derive(Debug)]
pub(super) struct Walk<'a> {
    work: &'a Work,
    group: &'a Group,
    pub network: Arc<Network>,
    plan: Arc<Plan>,
    /// The slot of each branch.
    slots: Vec<u32>,
    /// For each of the group's switches and each position, the branches closed.
    contacts: Vec<Vec<Vec<usize>>>,
    /// Branches that are the contacts of other groups' switches in position 0.
    standing: Vec<usize>,
    /// The steps of each stage: nodes that no switch of the group touches, those whose last switch is the first, and so on;
    /// last those on which every circuit hangs, which would join each of them with each if they went before.
    stages: Vec<Range<usize>>,
    /// Which nodes are worth eliminating.
    counts: Vec<bool>,
    /// The plan for single combinations, with the slot of each branch.
    single: OnceCell<(Arc<Plan>, Vec<u32>)>,
}

/// What is on and in.
#[derive(Debug, Clone, Copy)]
pub(super) struct SwitchedOn<'a> {
    /// For each device whether it is on; those of other groups count as off.
    pub on: &'a [bool],
    /// For each lamp whether it is in; those of other groups count as out.
    pub lamps_in: &'a [bool],
}

/// One combination solved.
pub(super) struct Solved<'a> {
    walk: &'a Walk<'a>,
    volts: &'a [f64],
}

/// What is written to on the way, kept from one walk to the next.
#[derive(Debug, Default)]
pub(super) struct Scratch {
    levels: Vec<Vec<f64>>,
    siemens: Vec<f64>,
    volts: Vec<f64>,
    positions: Vec<u8>,
}

/// The network that the walks of every group go through: everything on, in and fitted, with the contacts of every position.
pub(super) fn whole(work: &Work) -> Network {
    let exercise = work.exercise();
    Network::with_every_contact(work, &Conditions::complete(exercise, vec![0; exercise.switches.len()]))
}

impl<'a> Walk<'a> {
    /// `whole` is [`whole`] of the same work.
    pub fn new(
        work: &'a Work,
        groups: &'a Groups,
        whole: &Arc<Network>,
        number: usize,
        fault: Option<(Point, Point)>,
    ) -> Self {
        let exercise = work.exercise();
        let group = &groups.all()[number];
        let network = fault.map_or_else(|| Arc::clone(whole), |(a, b)| Arc::new(whole.faulted(work, a, b)));
        let last = group.switches.len() as u32 + 1;
        let mut stage = vec![0_u32; network.node_count()];
        let mut contacts: Vec<Vec<Vec<usize>>> =
            group.switches.iter().map(|it| vec![Vec::new(); exercise.switches[*it].way.positions()]).collect();
        let mut index = network.branches.iter().position(|it| matches!(it.part, Part::Contact(..))).unwrap_or(0);
        let mut standing = Vec::new();
        // Contacts come by switch, position and pair: the order in which the network was built.
        for (switch, it) in exercise.switches.iter().enumerate() {
            let mut ours = group.switches.iter().position(|it| it.index() == switch).map(|it| (it, &mut contacts[it]));
            for position in 0..it.way.positions() {
                for _ in it.closed(position) {
                    if let Some((ours, closed)) = &mut ours {
                        closed[position].push(index);
                        let branch = &network.branches[index];
                        for node in [branch.a, branch.b] {
                            stage[node] = stage[node].max(*ours as u32 + 1);
                        }
                    } else if position == 0 {
                        standing.push(index);
                    }
                    index += 1;
                }
            }
        }
        let mut need = |node: Option<usize>| {
            if let Some(it) = node {
                stage[it] = last;
            }
        };
        need(Some(LINE_BAR));
        need(Some(NEUTRAL_BAR));
        need(Some(network.earth()));
        exercise.earth_bars().for_each(|it| need(network.find(work, Point::Terminal(it))));
        for device in exercise.devices.iter().filter(|it| it.kind.is_common()) {
            for it in [device.line, device.neutral] {
                need(network.find(work, Point::Terminal(it)));
            }
        }
        let counts = nodes_that_matter(work, groups, number, &network);
        let pairs = network.branches.iter().map(|it| (it.a, it.b)).filter(|it| counts[it.0] && counts[it.1]);
        let plan = Plan::new(network.node_count(), [STAR, SOURCE], pairs, |it| stage[it]);
        let slots = network.branches.iter().map(|it| plan.slot(it.a, it.b)).collect();
        let mut stages = Vec::with_capacity(last as usize + 1);
        let mut from = 0;
        for it in 0..=last {
            let to = plan.steps.partition_point(|step| stage[step.node as usize] <= it);
            stages.push(from..to);
            from = to;
        }
        let (plan, single) = (Arc::new(plan), OnceCell::new());
        Self { work, group, network, plan, slots, contacts, standing, stages, counts, single }
    }

    /// What happens in one combination: devices open until none must or, each opening counted from the one before, this time is over,
    /// seconds.
    pub fn settle(&self, on: Vec<bool>, lamps_in: &[bool], positions: &[u8], seconds: f64) -> Settled {
        let (plan, slots) = self.single.get_or_init(|| {
            let pairs = self.network.branches.iter().map(|branch| (branch.a, branch.b));
            let pairs = pairs.filter(|(a, b)| self.counts[*a] && self.counts[*b]);
            let plan = Plan::new(self.network.node_count(), [STAR, SOURCE], pairs, |_| 0);
            let slots = self.network.branches.iter().map(|it| plan.slot(it.a, it.b)).collect();
            (Arc::new(plan), slots)
        });
        until_none_opens(self.work.exercise(), on, seconds, |on| {
            let mut values = vec![0.0; plan.slots];
            self.fill(slots, SwitchedOn { on, lamps_in }, &mut values);
            for (contacts, switch) in self.contacts.iter().zip(&self.group.switches) {
                let position = positions.get(switch.index()).map_or(0, |it| usize::from(*it));
                for it in contacts.get(position).into_iter().flatten() {
                    self.put(slots, *it, &mut values);
                }
            }
            (Arc::clone(&self.network), plan.solve(values, NOMINAL_VOLTS))
        })
    }

    /// Puts the conductance of a branch in its slot.
    fn put(&self, slots: &[u32], branch: usize, values: &mut [f64]) {
        let (slot, ohms) = (slots[branch], self.network.branches[branch].ohms);
        if slot != NO_SLOT && ohms > 0.0 {
            values[slot as usize] += 1.0 / ohms;
        }
    }

    /// Visits every combination of the group's positions in counting order, last switch fastest, with the position of
    /// every switch of the exercise; or of them those that are to be `tried`, which come in that order, other groups' switches in 0.
    pub fn every(
        &self,
        tried: Option<&[Vec<u8>]>,
        load: SwitchedOn<'_>,
        scratch: &mut Scratch,
        visit: &mut dyn FnMut(&[u8], &Solved<'_>),
    ) {
        let exercise = self.work.exercise();
        let Scratch { levels, siemens, volts, positions } = scratch;
        levels.resize_with(self.group.switches.len() + 1, Vec::new);
        for it in levels.iter_mut() {
            it.clear();
            it.resize(self.plan.slots, 0.0);
        }
        siemens.resize(self.plan.steps.len(), 0.0);
        volts.clear();
        volts.resize(self.network.node_count(), 0.0);
        volts[SOURCE] = NOMINAL_VOLTS;
        positions.clear();
        positions.resize(exercise.switches.len(), 0);
        self.fill(&self.slots, load, &mut levels[0]);
        self.plan.eliminate(self.stages[0].clone(), &mut levels[0], siemens);
        self.descend((0, tried), Scratched { levels, siemens, volts, positions }, visit);
    }

    /// The conductances that no switch of the group decides.
    fn fill(&self, slots: &[u32], load: SwitchedOn<'_>, values: &mut [f64]) {
        let exercise = self.work.exercise();
        let is_on = |it: DeviceId| self.group.devices.contains(&it) && load.on[it.index()];
        for (index, branch) in self.network.branches.iter().enumerate() {
            let is_there = match branch.part {
                Part::Contact(..) => false,
                Part::LinePole(it) => is_on(it),
                Part::NeutralPole(it) => is_on(it) || !exercise.devices[it].kind.is_common(),
                Part::Lamp(it) => self.group.lamps.contains(&it) && load.lamps_in[it.index()],
                _ => true,
            };
            if is_there {
                self.put(slots, index, values);
            }
        }
        for index in &self.standing {
            self.put(slots, *index, values);
        }
    }

    fn descend(
        &self,
        (level, tried): (usize, Option<&[Vec<u8>]>),
        scratch: Scratched<'_>,
        visit: &mut dyn FnMut(&[u8], &Solved<'_>),
    ) {
        let Scratched { levels, siemens, volts, positions } = scratch;
        let Some(switch) = self.group.switches.get(level) else {
            let core = self.stages[level + 1].clone();
            self.plan.eliminate(core.clone(), &mut levels[level], siemens);
            self.plan.volts(core, &levels[level], volts);
            for stage in (0..=level).rev() {
                self.plan.volts(self.stages[stage].clone(), &levels[stage], volts);
            }
            visit(positions, &Solved { walk: self, volts });
            return;
        };
        let stage = self.stages[level + 1].clone();
        let from = self.plan.steps.get(stage.start).map_or(self.plan.slots, |it| it.first as usize);
        for (position, closed) in self.contacts[level].iter().enumerate() {
            let to_try = tried.map(|it| with_position(it, switch.index(), position as u8));
            if to_try.is_some_and(<[_]>::is_empty) {
                continue;
            }
            let (above, below) = levels.split_at_mut(level + 1);
            let below = &mut below[0];
            below[from..].copy_from_slice(&above[level][from..]);
            for it in closed {
                let slot = self.slots[*it];
                if slot != NO_SLOT {
                    below[slot as usize] += 1.0 / self.network.branches[*it].ohms;
                }
            }
            self.plan.eliminate(stage.clone(), below, siemens);
            positions[switch.index()] = position as u8;
            let scratch = Scratched { levels, siemens, volts, positions };
            self.descend((level + 1, to_try), scratch, visit);
        }
        positions[switch.index()] = 0;
    }
}

/// Of combinations in counting order that are alike up to a switch those that have it in a position.
fn with_position(tried: &[Vec<u8>], switch: usize, position: u8) -> &[Vec<u8>] {
    let from = tried.partition_point(|it| it[switch] < position);
    let to = tried.partition_point(|it| it[switch] <= position);
    &tried[from..to]
}

/// For each node of a network whether it is worth eliminating for a group: not the dead insides of others.
fn nodes_that_matter(work: &Work, groups: &Groups, number: usize, network: &Network) -> Vec<bool> {
    let mut counts = vec![true; network.node_count()];
    let terminals = work.exercise().terminals.ids().map(Point::Terminal);
    for point in terminals.chain(work.ends().map(Point::End)) {
        if let Some(it) = network.find(work, point) {
            counts[it] = groups.matters_to(number, work, point);
        }
    }
    counts
}

/// [`Scratch`] taken apart.
struct Scratched<'a> {
    levels: &'a mut [Vec<f64>],
    siemens: &'a mut [f64],
    volts: &'a mut [f64],
    positions: &'a mut [u8],
}

impl Solved<'_> {
    /// Volts at a node against what a person in the house stands on.
    pub fn volts_to_earth(&self, node: usize) -> f64 {
        self.volts[node] - self.volts[self.walk.network.earth()]
    }

    /// Volts across a lamp of the group, without sign.
    pub fn lamp(&self, lamp: LampId) -> f64 {
        let contacts = self.walk.work.exercise().lamps[lamp].contacts;
        let [a, b] = contacts.map(|it| self.walk.network.find(self.walk.work, Point::Terminal(it)));
        match (a, b) {
            (Some(a), Some(b)) => self.across(a, b).abs(),
            _ => 0.0,
        }
    }

    /// Line and neutral current of a device of the group that is on, amps.
    pub fn device(&self, exercise: &Exercise, device: DeviceId) -> Option<(f64, f64)> {
        let device = &exercise.devices[device];
        let node = |it| self.walk.network.find(self.walk.work, Point::Terminal(it));
        let (line, neutral) = (node(device.line)?, node(device.neutral)?);
        // As the network has them: a common device's neutral is a pole too, and those behind it start from its ends.
        let (line_bar, neutral_bar) = match exercise.front_of(device) {
            Some(common) => (node(common.line)?, node(common.neutral)?),
            None => (LINE_BAR, NEUTRAL_BAR),
        };
        let neutral_ohms = if device.kind.is_common() { SWITCH_CONTACT_OHMS } else { SOUND_CONTACT_OHMS };
        let amps = |a, b, ohms: f64| self.across(a, b) / ohms;
        Some((amps(line_bar, line, SWITCH_CONTACT_OHMS), amps(neutral, neutral_bar, neutral_ohms)))
    }

    fn across(&self, a: usize, b: usize) -> f64 {
        self.volts[a] - self.volts[b]
    }
}
