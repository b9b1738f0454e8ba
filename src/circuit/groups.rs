//! Groups: what a path of conductors, contacts or loads joins without passing through the board's common bars or the
//! supply.
//!
//! A device joins its own line and neutral, and to those of the residual current device in front of it: that one sees them
//! all, and puts them all out. The earth bar joins nothing. What one group does is independent of the
//! switches of another, so groups are never multiplied: that is the reason they exist.

use super::joined::{Sets, contacts::pairs};
use crate::{
    exercise::{DeviceId, EndId, LampId, SwitchId, TerminalId, TerminalUse},
    work::{Point, Work},
};

/// One group.
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
}

impl Groups {
    /// The groups of a work: each has a switch, a device or a lamp. Those with switches come first, by their first
    /// switch.
    pub fn new(work: &Work) -> Self {
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
            if let Some(common) = device.behind.and_then(|it| exercise.devices.get(it.index())) {
                sets.join(device.line.index(), common.line.index());
            }
        }
        let mut groups = Self { all: Vec::new(), of: Vec::new() };
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
        let devices: Vec<_> = exercise.devices.iter().map(|it| group(&mut sets, it.line.index())).collect();
        let lamps: Vec<_> = exercise.lamps.iter().map(|it| group(&mut sets, it.contacts[0].index())).collect();
        for (at, it) in switches {
            groups.all[at].switches.push(it);
        }
        for (index, at) in devices.into_iter().enumerate() {
            groups.all[at].devices.push(DeviceId(index as u16));
        }
        for (index, at) in lamps.into_iter().enumerate() {
            groups.all[at].lamps.push(LampId(index as u16));
        }
        groups.of = (0..numbers.len()).map(|it| numbers[sets.root(it)]).collect();
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
}
