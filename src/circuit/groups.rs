//! Groups: what a path of conductors, contacts or loads joins without passing through the board's common bars or the
//! supply.
//!
//! A device joins its own line and neutral, and to those of the residual current device in front of it: that one sees them
//! all, and puts them all out. The earth bar joins nothing. What one group does is independent of the
//! switches of another, so groups are never multiplied: that is the reason they exist.

use super::joined::{Sets, contacts::pairs};
use crate::{
    exercise::{Device, DeviceId, EndId, LampId, SwitchId, TerminalId, TerminalUse},
    work::{Point, Work},
};

/// One group.
///
/// A residual current device in front of several is in each group behind it where groups are taken apart.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Group {
    /// Its switches, in order.
    pub switches: Vec<SwitchId>,
    /// Its devices, in order.
    pub devices: Vec<DeviceId>,
    /// Its lamps, in order.
    pub lamps: Vec<LampId>,
}

/// The groups of a work, and which of them each point is in.
#[derive(Debug, Clone)]
pub struct Groups {
    all: Vec<Group>,
    /// For each terminal and then each end.
    of: Vec<Option<u16>>,
    /// For each group whether it may have a way to earth other than through the board's neutral.
    earthed: Vec<bool>,
}

impl Groups {
    /// The groups of a work: each has a switch, a device or a lamp. Those with switches come first, by their first
    /// switch.
    pub fn new(work: &Work) -> Self {
        Self::with(work, false)
    }

    /// The same, but what shares nothing more than a residual current device in front is taken apart; `None` where that
    /// changes nothing or conductors are joined to such a device itself. What a group does is then independent of the
    /// others only while that device stays closed and what it feels of each is little.
    pub(super) fn apart(work: &Work) -> Option<Self> {
        let exercise = work.exercise();
        let commons: Vec<_> = exercise.devices.iter().filter(|it| it.kind.is_common()).collect();
        let ends = work.ends().filter_map(|it| work.terminal_of(it));
        let mut ends = ends.filter(|it| commons.iter().any(|common| [common.line, common.neutral].contains(it)));
        (!commons.is_empty() && ends.next().is_none()).then(|| Self::with(work, true))
    }

    fn with(work: &Work, apart: bool) -> Self {
        let exercise = work.exercise();
        let terminals = exercise.terminals.len();
        let mut sets = Sets::new(terminals + work.ends().count());
        let is_bar = |node: usize| exercise.terminals.get(node).is_some_and(|it| it.used_by == TerminalUse::EarthBar);
        for conductor in 0..work.conductor_count() {
            let [a, b] = EndId::of(conductor).map(|it| work.node(work.point_of(it)));
            if !is_bar(a) && !is_bar(b) {
                sets.join(a, b);
            }
        }
        for switch in &exercise.switches {
            for position in 0..switch.way.positions() {
                for (a, b) in pairs(switch, position) {
                    sets.join(switch.terminals[a].index(), switch.terminals[b].index());
                }
            }
        }
        for lamp in &exercise.lamps {
            sets.join(lamp.contacts[0].index(), lamp.contacts[1].index());
        }
        for [a, b] in &exercise.fixed {
            sets.join(a.index(), b.index());
        }
        for terminals in exercise.fans.iter().map(|it| it.terminals) {
            let [line, switched, neutral] = terminals.map(TerminalId::index);
            sets.join(line, neutral);
            sets.join(switched, neutral);
        }
        for device in &exercise.devices {
            sets.join(device.line.index(), device.neutral.index());
            if let Some(common) = device.behind.and_then(|it| exercise.devices.get(it.index())).filter(|_| !apart) {
                sets.join(device.line.index(), common.line.index());
            }
        }
        let mut groups = Self { all: Vec::new(), of: Vec::new(), earthed: Vec::new() };
        let mut numbers: Vec<Option<u16>> = vec![None; terminals + work.ends().count()];
        let all = &mut groups.all;
        let mut group = |sets: &mut Sets, node: usize| {
            let number = numbers[sets.root(node)].get_or_insert_with(|| {
                all.push(Group::default());
                all.len() as u16 - 1
            });
            usize::from(*number)
        };
        let mut switches = Vec::new();
        for (index, it) in exercise.switches.iter().enumerate() {
            if let Some(com) = it.terminals.first() {
                switches.push((group(&mut sets, com.index()), SwitchId(index as u16)));
            }
        }
        // Taken apart, a device in front is in the groups behind it and not in one of its own.
        let own = |it: &&Device| !apart || !it.kind.is_common();
        let devices: Vec<_> =
            exercise.devices.iter().map(|it| own(&it).then(|| group(&mut sets, it.line.index()))).collect();
        let lamps: Vec<_> = exercise.lamps.iter().map(|it| group(&mut sets, it.contacts[0].index())).collect();
        for (at, it) in switches {
            groups.all[at].switches.push(it);
        }
        for (index, at) in devices.iter().enumerate() {
            let behind =
                exercise.devices.iter().zip(&devices).filter(|(it, _)| it.behind == Some(DeviceId(index as u16)));
            let mut at: Vec<usize> = match at {
                Some(at) => vec![*at],
                None => behind.filter_map(|(_, at)| *at).collect(),
            };
            at.sort_unstable();
            at.dedup();
            for it in at {
                groups.all[it].devices.push(DeviceId(index as u16));
            }
        }
        for (index, at) in lamps.into_iter().enumerate() {
            groups.all[at].lamps.push(LampId(index as u16));
        }
        groups.of = (0..numbers.len()).map(|it| numbers[sets.root(it)]).collect();
        groups.earthed = vec![false; groups.all.len()];
        let to_bar = (0..work.conductor_count()).filter_map(|it| {
            let [a, b] = EndId::of(it).map(|it| work.node(work.point_of(it)));
            if is_bar(a) { Some(b) } else { is_bar(b).then_some(a) }
        });
        let metal = exercise.terminals.iter().enumerate().filter(|it| it.1.used_by.is_earth()).map(|it| it.0);
        for it in to_bar.chain(metal).filter_map(|it| groups.of[it]) {
            groups.earthed[usize::from(it)] = true;
        }
        groups
    }

    /// Every group.
    pub fn all(&self) -> &[Group] {
        &self.all
    }

    /// The place of a point's group in [`Self::all`]; `None` for one that nothing joins to a switch, a device or a lamp.
    pub fn of(&self, work: &Work, point: Point) -> Option<usize> {
        self.of.get(work.node(point)).copied().flatten().map(usize::from)
    }

    /// Whether a point can carry anything while only one group is on: it is in that group or in none, or in one that may
    /// have a way of its own to earth.
    pub(super) fn matters_to(&self, number: usize, work: &Work, point: Point) -> bool {
        self.of(work, point).is_none_or(|it| it == number || self.earthed[it])
    }
}
