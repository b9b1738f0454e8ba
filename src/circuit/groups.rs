//! Groups: what a path of conductors, contacts or loads joins without passing through the board's common bars or the
//! supply.
//!
//! A device joins its own line and neutral, and to those of the residual current device in front of it: that one sees them
//! all, and puts them all out. The poles of a linked switch move together, so all its terminals are in one group. The earth
//! bar joins nothing, nor does the tie of neutral and earth at the origin. What one group does is independent of the
//! switches of another, so groups are never multiplied: that is the reason they exist.
//!
//! Beyond the board line or neutral should nowhere touch earth. Circuits in which one of them may are one group: each finds a
//! way through the earth of the others. Where neutral and earth are not tied at the origin, one such neutral is enough to join
//! every circuit: what any of them takes lifts the neutral bar, and that drives a current round by the earth.

use crate::{
    exercise::{Device, DeviceId, Exercise, FanId, Join, LampId, Sets, SwitchId, TerminalId, TerminalUse},
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
    /// Its fans, in order.
    pub fans: Vec<FanId>,
}

/// The groups of a work, and which of them each point is in.
#[derive(Debug, Clone)]
pub struct Groups {
    all: Vec<Group>,
    /// For each terminal and then each end.
    of: Vec<Option<u16>>,
    /// For each group whether it may have a way to earth other than through the board's neutral.
    earthed: Vec<bool>,
    /// For each group whether it has circuits in one of which line or neutral may touch earth beyond the board.
    touching: Vec<bool>,
    /// For each device whether something is in its terminals, or stands behind it.
    busy: Vec<bool>,
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
        let mut sets = Sets::new(work.point_count());
        let bars: Vec<usize> = exercise.earth_bars().map(TerminalId::index).collect();
        let is_bar = |node: usize| bars.contains(&node);
        for (join, [a, b]) in work.joins() {
            let parted = match join {
                Join::Conductor(_) => is_bar(a) || is_bar(b),
                Join::LinePole(_) | Join::NeutralPole(_) => apart,
                _ => false,
            };
            if !parted {
                sets.join(a, b);
            }
        }
        for device in &exercise.devices {
            sets.join(device.line.index(), device.neutral.index());
        }
        // The poles of a linked switch move together, whatever each is joined to.
        for switch in &exercise.switches {
            for (a, b) in switch.terminals.iter().zip(switch.terminals.iter().skip(1)) {
                sets.join(a.index(), b.index());
            }
        }
        let touching = touching(work, &mut sets);
        let busy = busy(work);
        let mut groups = Self { all: Vec::new(), of: Vec::new(), earthed: Vec::new(), touching: Vec::new(), busy };
        let mut numbers: Vec<Option<u16>> = vec![None; sets.count()];
        let all = &mut groups.all;
        let mut group = |sets: &mut Sets, node: usize| {
            let number = numbers[sets.root(node)].get_or_insert_with(|| {
                all.push(Group::default());
                all.len() as u16 - 1
            });
            usize::from(*number)
        };
        let mut switches = Vec::new();
        for (id, it) in exercise.switches.with_ids() {
            if let Some(com) = it.terminals.first() {
                switches.push((group(&mut sets, com.index()), id));
            }
        }
        // Taken apart, a device in front is in the groups behind it and not in one of its own.
        let own = |it: &&Device| !apart || !it.kind.is_common();
        let devices: Vec<_> =
            exercise.devices.iter().map(|it| own(&it).then(|| group(&mut sets, it.line.index()))).collect();
        let lamps: Vec<_> = exercise.lamps.iter().map(|it| group(&mut sets, it.contacts[0].index())).collect();
        let fans: Vec<_> = exercise.fans.iter().map(|it| group(&mut sets, it.terminals[0].index())).collect();
        for (at, it) in switches {
            groups.all[at].switches.push(it);
        }
        for (id, at) in exercise.fans.ids().zip(fans) {
            groups.all[at].fans.push(id);
        }
        for (id, at) in exercise.devices.ids().zip(&devices) {
            let behind = exercise.devices.iter().zip(&devices).filter(|(it, _)| it.behind == Some(id));
            let mut at: Vec<usize> = match at {
                Some(at) => vec![*at],
                None => behind.filter_map(|(_, at)| *at).collect(),
            };
            at.sort_unstable();
            at.dedup();
            for it in at {
                groups.all[it].devices.push(id);
            }
        }
        for (id, at) in exercise.lamps.ids().zip(lamps) {
            groups.all[at].lamps.push(id);
        }
        groups.of = (0..numbers.len()).map(|it| numbers[sets.root(it)]).collect();
        groups.earthed = vec![false; groups.all.len()];
        groups.touching = vec![false; groups.all.len()];
        for it in touching.into_iter().filter_map(|it| groups.of[it]) {
            groups.touching[usize::from(it)] = true;
        }
        let to_bar = work.joins().filter(|it| matches!(it.0, Join::Conductor(_)));
        let to_bar = to_bar.filter_map(|(_, [a, b])| if is_bar(a) { Some(b) } else { is_bar(b).then_some(a) });
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

    /// Whether a group is several circuits in one of which line or neutral may touch earth beyond the board.
    pub(super) fn is_touching(&self, number: usize, exercise: &Exercise) -> bool {
        let circuits = self.all.get(number).map_or(&[][..], |it| &it.devices);
        let circuits = circuits.iter().filter(|it| !exercise.devices[**it].kind.is_common()).count();
        circuits > 1 && self.touching.get(number).is_some_and(|it| *it)
    }

    /// The place of a point's group in [`Self::all`]; `None` for one that nothing joins to a switch, a device or a lamp.
    pub fn of(&self, work: &Work, point: Point) -> Option<usize> {
        self.of.get(work.node(point)).copied().flatten().map(usize::from)
    }

    /// Whether something is in a device's terminals, or stands behind it: one of which neither is true does the same on and off.
    pub(super) fn is_busy(&self, device: DeviceId) -> bool {
        self.busy.get(device.index()).is_some_and(|it| *it)
    }

    /// Whether a point can carry anything while only one group is on: it is in that group or in none, or in one that may
    /// have a way of its own to earth.
    pub(super) fn matters_to(&self, number: usize, work: &Work, point: Point) -> bool {
        self.of(work, point).is_none_or(|it| it == number || self.earthed[it])
    }
}

/// For each device whether something is in its terminals, or stands behind it.
fn busy(work: &Work) -> Vec<bool> {
    let exercise = work.exercise();
    let mut busy: Vec<bool> = exercise.devices.iter().map(|it| it.kind.is_common()).collect();
    for terminal in work.ends().filter_map(|it| work.terminal_of(it)) {
        if let TerminalUse::DeviceLine(it) | TerminalUse::DeviceNeutral(it) = exercise.terminals[terminal].used_by {
            busy[it.index()] = true;
        }
    }
    busy
}

/// Makes one the circuits that touch through earth beyond the board, whatever the switches; their outgoing lines.
fn touching(work: &Work, sets: &mut Sets) -> Vec<usize> {
    let exercise = work.exercise();
    let mut copper = work.joined(|it| !it.is_load());
    let bars: Vec<usize> = exercise.earth_bars().map(|it| copper.root(it.index())).collect();
    let mut touches = |it: TerminalId| bars.contains(&copper.root(it.index()));
    let mut lines = Vec::new();
    let mut by_neutral = false;
    for device in &exercise.devices {
        let neutral = touches(device.neutral);
        by_neutral |= neutral;
        if neutral || touches(device.line) {
            lines.push(device.line.index());
        }
    }
    if by_neutral && !exercise.is_tied_at_board() {
        lines = exercise.devices.iter().map(|it| it.line.index()).collect();
    }
    for it in lines.windows(2) {
        sets.join(it[0], it[1]);
    }
    lines
}
