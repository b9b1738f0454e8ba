//! What is asked: the places of a light's switches, what arrives at each, and the cores between them.

use crate::trade::catalogue::Listed;

/// What a connector is here.
pub(super) const CONNECTOR: &str = "ScrewConnector";

/// What arrives at the places, whatever the cores between them do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Arrival {
    /// The feed line and the switched line both at the first place, as a drop from a loop-in rose brings them. The lamp has its neutral.
    FirstPlace,
    /// The feed line at the first place, the switched line at the last. The neutral of the same circuit reaches the lamp another way.
    OppositeEnds,
    /// Line and neutral at the first place and at the last, and of the lamp's two wires one at each.
    NeutralAtBoth,
}

/// What an end that arrives at a place belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Net {
    /// The line of the circuit.
    Line,
    /// Its neutral.
    Neutral,
    /// The lamp's first contact: the switched line.
    Lamp,
    /// Its second contact.
    LampReturn,
}

impl Net {
    /// Every one, in the order in which they are numbered.
    pub(super) const ALL: [Self; 4] = [Self::Line, Self::Neutral, Self::Lamp, Self::LampReturn];
}

/// What is asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Question {
    /// Places, each with one switch: two-way at both ends, intermediate between.
    pub positions: usize,
    /// Insulated cores from each place to the next.
    pub cores: usize,
    /// Places, counted from 1, with one connector more; one that stands twice has two.
    pub connectors: Vec<usize>,
    /// Whether the bare earth wire is used as one more core.
    pub cpc_as_core: bool,
    /// What arrives where.
    pub arrival: Arrival,
}

/// Why a question is not answered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Unaskable {
    /// A number of places outside [`Question::POSITIONS`].
    #[error("{0} places")]
    Positions(usize),
    /// A number of cores outside [`Question::CORES`].
    #[error("{0} cores")]
    Cores(usize),
    /// A connector at a place that is not there.
    #[error("a connector at place {0}")]
    Place(usize),
    /// More connectors at one place than [`Question::CONNECTORS`].
    #[error("{0} connectors")]
    Connectors(usize),
    /// One place with more ways than are looked through, or more kinds of part than are kept.
    #[error("too many ways")]
    TooMany,
}

impl Question {
    /// How many places.
    pub const POSITIONS: std::ops::RangeInclusive<usize> = 2..=6;
    /// How many cores.
    pub const CORES: std::ops::RangeInclusive<usize> = 1..=4;
    /// Most connectors at one place.
    pub const CONNECTORS: usize = 4;
    /// Most ways of connecting the ends of one place.
    const WAYS_AT_A_PLACE: u128 = 1 << 22;

    /// Two places and this number of cores, nothing else asked.
    pub const fn of_cores(cores: usize) -> Self {
        Self { positions: 2, cores, connectors: Vec::new(), cpc_as_core: false, arrival: Arrival::FirstPlace }
    }

    /// Whether it can be asked.
    ///
    /// # Errors
    /// The first thing that stands in the way.
    pub fn check(&self) -> Result<(), Unaskable> {
        if !Self::POSITIONS.contains(&self.positions) {
            return Err(Unaskable::Positions(self.positions));
        }
        if !Self::CORES.contains(&self.cores) {
            return Err(Unaskable::Cores(self.cores));
        }
        if let Some(it) = self.connectors.iter().find(|it| !(1..=self.positions).contains(*it)) {
            return Err(Unaskable::Place(*it));
        }
        let connectors = (0..self.positions).map(|it| self.connectors_at(it)).max().unwrap_or(0);
        if connectors > Self::CONNECTORS {
            return Err(Unaskable::Connectors(connectors));
        }
        if (0..self.positions).any(|it| self.ways_at(it) > Self::WAYS_AT_A_PLACE) {
            return Err(Unaskable::TooMany);
        }
        // Every number that the search comes to is at most this.
        let orders = (0..self.positions - 1).try_fold(1_u128, |all, _| all.checked_mul(self.orders()));
        let all = (0..self.positions).try_fold(1_u128, |all, it| all.checked_mul(self.ways_at(it)));
        orders.zip(all).and_then(|(a, b)| a.checked_mul(b)).map(|_| ()).ok_or(Unaskable::TooMany)
    }

    /// Ways of connecting every end.
    pub fn tried(&self) -> u128 {
        (0..self.positions).fold(1, |all, it| all.saturating_mul(self.ways_at(it)))
    }

    /// Orders in which the insulated cores between two places can be taken.
    pub(super) fn orders(&self) -> u128 {
        (1..=self.cores as u128).product()
    }

    /// The switch at a place, counted from 0.
    pub(super) fn switch_at(&self, place: usize) -> Listed {
        let word = if self.is_end(place) { "TwoWay" } else { "Intermediate" };
        Listed::find(word).unwrap_or(Listed::FIRST)
    }

    /// What arrives at a place, in order.
    pub(super) fn arriving(&self, place: usize) -> &'static [Net] {
        match (self.arrival, place == 0, place + 1 == self.positions) {
            (Arrival::FirstPlace, true, _) => &[Net::Line, Net::Lamp],
            (Arrival::OppositeEnds, true, _) => &[Net::Line],
            (Arrival::OppositeEnds, _, true) => &[Net::Lamp],
            (Arrival::NeutralAtBoth, true, _) => &[Net::Line, Net::Neutral, Net::Lamp],
            (Arrival::NeutralAtBoth, _, true) => &[Net::Line, Net::Neutral, Net::LampReturn],
            _ => &[],
        }
    }

    /// Whether the lamp's second contact is on the neutral whatever the switches do.
    pub(super) const fn lamp_has_neutral(&self) -> bool {
        !matches!(self.arrival, Arrival::NeutralAtBoth)
    }

    /// Connectors at a place, counted from 0.
    pub(super) fn connectors_at(&self, place: usize) -> usize {
        self.connectors.iter().filter(|it| **it == place + 1).count()
    }

    /// Terminals at a place: those of its switch, then its connectors.
    pub(super) fn terminals_at(&self, place: usize) -> usize {
        self.switch_at(place).terminals.len() + self.connectors_at(place)
    }

    /// Conductors from each place to the next: the cores, and the bare one if it is used as one.
    pub(super) const fn conductors(&self) -> usize {
        self.cores + self.cpc_as_core as usize
    }

    /// Ways of connecting the ends of a place.
    fn ways_at(&self, place: usize) -> u128 {
        let cores = if self.is_end(place) { 1 } else { 2 } * self.conductors();
        let ends = self.arriving(place).len() + cores;
        (self.terminals_at(place) as u128).saturating_pow(ends as u32)
    }

    const fn is_end(&self, place: usize) -> bool {
        place == 0 || place + 1 == self.positions
    }
}
