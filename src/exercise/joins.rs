//! What joins two terminals without a cable: the one list of an exercise's own joins, from which every view of it is built.
//!
//! Conductors are added to it by the work as it stands (`Work::joins`), or here as they were found (`Exercise::found`).

use super::{
    rows::{Device, LocationKind, Switch, TerminalUse},
    sets::Sets,
    table::{DeviceId, EndId, FanId, LampId, LocationId, SwitchId, TerminalId},
    tables::Exercise,
};

/// What joins two points.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Join {
    /// A conductor, by index, with what its ends are in.
    Conductor(usize),
    /// A contact of a switch that is closed in a position, and which of those closed there.
    Contact {
        /// The switch.
        switch: SwitchId,
        /// The position.
        position: u8,
        /// Which of the pairs closed there, from 0.
        pair: u8,
    },
    /// A join inside an accessory that has no switch, by its place in [`super::Tables::fixed`].
    Fixed(usize),
    /// Two cores that touch inside their cable: a fault that the exercise hides.
    Touching,
    /// A fan's motor, between permanent line and neutral: a load.
    Motor(FanId),
    /// The input of a fan's timer, between switched line and neutral: a load.
    Timer(FanId),
    /// A lamp: a load.
    Lamp(LampId),
    /// A metal plate's fixing screws into its metal box, while the plate is on.
    PlateScrew(LocationId),
    /// A device's line pole, between its line and that of the residual current device in front of it. The bars of the main
    /// switch have no terminal of their own.
    LinePole(DeviceId),
    /// The same for its neutral.
    NeutralPole(DeviceId),
}

impl Join {
    /// Whether it is copper and lets any current through: no load, and no switch or device that may be open.
    pub const fn is_lasting(self) -> bool {
        matches!(self, Self::Conductor(_) | Self::Fixed(_) | Self::PlateScrew(_) | Self::Touching)
    }

    /// Whether it is something that takes a current: a lamp, a fan.
    pub const fn is_load(self) -> bool {
        matches!(self, Self::Motor(_) | Self::Timer(_) | Self::Lamp(_))
    }
}

impl Switch {
    /// Its poles: the terminals that it joins to each other in some position, each in the order of its accessory.
    pub fn poles(&self) -> Vec<Vec<TerminalId>> {
        let count = self.terminals.len();
        let mut sets = Sets::new(count);
        for (a, b) in (0..self.way.positions()).flat_map(|it| self.way.joins(it)) {
            sets.join(*a, *b);
        }
        let mut poles: Vec<(usize, Vec<TerminalId>)> = Vec::new();
        for (place, it) in self.terminals.iter().enumerate() {
            let root = sets.root(place);
            match poles.iter_mut().find(|it| it.0 == root) {
                Some(pole) => pole.1.push(*it),
                None => poles.push((root, vec![*it])),
            }
        }
        poles.into_iter().map(|it| it.1).collect()
    }

    /// The pairs of terminals that are closed in a position.
    pub fn closed(&self, position: usize) -> impl Iterator<Item = [TerminalId; 2]> + '_ {
        let at = |it: usize| self.terminals.get(it).copied();
        self.way.joins(position).iter().filter_map(move |(a, b)| Some([at(*a)?, at(*b)?]))
    }
}

impl Exercise {
    /// Everything but conductors that joins two terminals: contacts by switch, position and pair, then what accessories join
    /// for good, loads, screws and the poles of devices.
    pub fn joins(&self) -> impl Iterator<Item = (Join, [TerminalId; 2])> + '_ {
        let contacts = self.switches.with_ids().flat_map(|(switch, it)| {
            (0..it.way.positions()).flat_map(move |at| {
                let joins = move |pair| Join::Contact { switch, position: at as u8, pair };
                (0_u8..).zip(it.closed(at)).map(move |(pair, ends)| (joins(pair), ends))
            })
        });
        let fixed = self.fixed.iter().enumerate().map(|(index, it)| (Join::Fixed(index), *it));
        let fans = self.fans.with_ids().flat_map(|(id, it)| {
            let [line, switched, neutral] = it.terminals;
            [(Join::Motor(id), [line, neutral]), (Join::Timer(id), [switched, neutral])]
        });
        let lamps = self.lamps.with_ids().map(|(id, it)| (Join::Lamp(id), it.contacts));
        contacts.chain(fixed).chain(fans).chain(lamps).chain(self.plate_screws()).chain(self.poles())
    }

    /// Metal plates screwed to metal boxes through a fixed lug.
    fn plate_screws(&self) -> impl Iterator<Item = (Join, [TerminalId; 2])> + '_ {
        self.locations.with_ids().filter_map(|(at, place)| {
            let LocationKind::Box(it) = &place.kind else { return None };
            if !it.is_screwed_together() {
                return None;
            }
            let plate = self.terminal_used(at, TerminalUse::PlateEarth)?;
            let body = self.terminal_used(at, TerminalUse::BoxEarth)?;
            Some((Join::PlateScrew(at), [plate, body]))
        })
    }

    /// The poles of devices behind a residual current device.
    fn poles(&self) -> impl Iterator<Item = (Join, [TerminalId; 2])> + '_ {
        self.devices.with_ids().flat_map(|(id, it)| {
            let front = self.front_of(it);
            let line = front.map(|front| (Join::LinePole(id), [front.line, it.line]));
            line.into_iter().chain(front.map(|front| (Join::NeutralPole(id), [it.neutral, front.neutral])))
        })
    }

    /// The residual current device in front of a device, if one stands there.
    pub fn front_of(&self, device: &Device) -> Option<&Device> {
        device.behind.and_then(|it| self.devices.get(it))
    }

    /// What is joined before the learner comes, over terminals and then ends: by the conductors whose index is picked
    /// and by the joins that are picked.
    pub(super) fn found(&self, conductors: impl Fn(usize) -> bool, only: impl Fn(Join) -> bool) -> Sets {
        self.joined_at(|end| self.start_node(end), conductors, only)
    }

    /// The same before any slip was made.
    pub(super) fn intended(&self, conductors: impl Fn(usize) -> bool, only: impl Fn(Join) -> bool) -> Sets {
        self.joined_at(|end| self.node(end, self.start[end].map(|it| it.terminal)), conductors, only)
    }

    fn joined_at(
        &self,
        node: impl Fn(EndId) -> usize,
        conductors: impl Fn(usize) -> bool,
        only: impl Fn(Join) -> bool,
    ) -> Sets {
        let mut sets = Sets::new(self.terminals.len() + self.start.len());
        for index in (0..self.conductors.len()).filter(|it| conductors(*it)) {
            let [a, b] = EndId::of(index);
            sets.join(node(a), node(b));
        }
        for (_, [a, b]) in self.joins().filter(|it| only(it.0)) {
            sets.join(a.index(), b.index());
        }
        sets
    }

    /// The node of an end before the learner comes: its terminal, or itself.
    pub(super) fn start_node(&self, end: EndId) -> usize {
        let found = self.slipped.get(&end).copied();
        self.node(end, found.unwrap_or_else(|| self.start[end].map(|it| it.terminal)))
    }

    fn node(&self, end: EndId, terminal: Option<TerminalId>) -> usize {
        terminal.map_or(self.terminals.len() + end.index(), TerminalId::index)
    }
}
