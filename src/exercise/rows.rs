//! The rows of an exercise's tables.

use super::{
    kit::Stands,
    table::{DeviceId, LampId, LocationId, SwitchId, TableRow, TerminalId},
};
use crate::trade::{
    accessory::{Capacity, Holder, LampKind, Lugs, Material},
    cable::{CableKind, CrossSection},
    catalogue::Listed,
    colour::{Colour, Era, Mark},
    device::DeviceKind,
};

/// Somewhere with terminals.
#[derive(Debug, Clone)]
pub struct Location {
    /// Its address.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Where it is drawn, x to the right and y downwards: on the plan, or where there are rooms, in the house cut open.
    pub at: (i16, i16),
    /// What it is.
    pub kind: LocationKind,
}

impl TableRow for Location {
    const NOTHING: &'static Self =
        &Self { id: String::new(), name: String::new(), at: (0, 0), kind: LocationKind::Luminaire };
}

/// What a location is.
#[derive(Debug, Clone, PartialEq)]
pub enum LocationKind {
    /// The board, with the devices.
    Board,
    /// A loop-in ceiling rose, all insulating.
    Rose,
    /// A back box with a plate.
    Box(BackBox),
    /// A lampholder on a flex.
    Luminaire,
    /// An enclosure with a row of terminals.
    JunctionBox(Listed),
    /// A fan with a timer.
    Fan(Listed),
}

impl LocationKind {
    /// Whether a plate, a cover or a lid is over its terminals.
    pub const fn has_cover(&self) -> bool {
        matches!(self, Self::Rose | Self::Box(_) | Self::JunctionBox(_) | Self::Fan(_))
    }

    /// The accessory whose terminals are in a row of their own and are not switched.
    pub fn fixed(&self) -> Option<Listed> {
        match self {
            Self::JunctionBox(it) | Self::Fan(it) => Some(*it),
            Self::Box(it) => it.plate.ways.iter().copied().find(|it| !it.is_switch()),
            Self::Board | Self::Rose | Self::Luminaire => None,
        }
    }
}

/// A back box and its plate.
#[derive(Debug, Clone, PartialEq)]
pub struct BackBox {
    /// What the box is made of.
    pub body: Material,
    /// How a metal box takes the plate's screws.
    pub lugs: Lugs,
    /// How deep it is, mm.
    pub depth_mm: f64,
    /// The plate.
    pub plate: Plate,
    /// Connectors that lie in the box, ready for use.
    pub connectors: u8,
}

/// A plate.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Plate {
    /// What its front is made of.
    pub front: Material,
    /// Its gangs, left to right as seen from the front.
    pub ways: Vec<Listed>,
}

/// A terminal.
#[derive(Debug, Clone)]
pub struct Terminal {
    /// Its address.
    pub address: String,
    /// Where it is.
    pub location: LocationId,
    /// What it belongs to.
    pub used_by: TerminalUse,
    /// What it takes.
    pub capacity: Capacity,
}

impl TableRow for Terminal {
    const NOTHING: &'static Self = &Self {
        address: String::new(),
        location: LocationId::NONE,
        used_by: TerminalUse::Connector(0),
        capacity: Capacity::NONE,
    };
}

/// What a terminal belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TerminalUse {
    /// Outgoing line of a device.
    DeviceLine(DeviceId),
    /// Outgoing neutral of a device.
    DeviceNeutral(DeviceId),
    /// The board's earth bar.
    EarthBar,
    /// A rose block; the number is its place in [`crate::trade::accessory::ROSE_TERMINALS`].
    Rose(u8),
    /// A switch's terminal; the number is its place in its accessory's `terminals`.
    Contact(SwitchId, u8),
    /// The earth terminal of a box: bonded to a metal one, a parking terminal in a plastic one.
    BoxEarth,
    /// The earth terminal of a metal plate.
    PlateEarth,
    /// A connector, numbered from 1.
    Connector(u8),
    /// A lampholder contact, 0 or 1.
    Lampholder(LampId, u8),
    /// A terminal of an accessory that has no switch; the number is its place in the accessory's `terminals`.
    Block(u8),
    /// The same, there for protective conductors.
    BlockEarth(u8),
}

impl TerminalUse {
    /// Whether it is there for protective conductors.
    pub const fn is_earth(self) -> bool {
        /// The place of the rose's earth in [`crate::trade::accessory::ROSE_TERMINALS`].
        const ROSE_EARTH: u8 = 3;
        matches!(
            self,
            Self::EarthBar | Self::BoxEarth | Self::PlateEarth | Self::Rose(ROSE_EARTH) | Self::BlockEarth(_)
        )
    }
}

impl BackBox {
    /// Whether the plate's screws join its metal to that of the box: metal to metal through a fixed lug.
    pub fn is_screwed_together(&self) -> bool {
        self.body == Material::Metal && self.plate.front == Material::Metal && self.lugs == Lugs::OneFixed
    }

    /// Whether metal that can be touched is joined to the plate's earth terminal: a metal front, or what is plugged into a
    /// socket-outlet. That of another plate with an insulating front only carries the cpc on.
    pub fn earths_metal(&self) -> bool {
        self.plate.front == Material::Metal || self.plate.ways.iter().any(|it| it.is_outlet())
    }
}

/// A cable.
#[derive(Debug, Clone)]
pub struct Cable {
    /// Its address.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// What kind it is.
    pub kind: CableKind,
    /// Size of the live cores.
    pub live: CrossSection,
    /// Size of the cpc.
    pub cpc: CrossSection,
    /// Length, metres.
    pub metres: f64,
    /// Its two locations.
    pub between: [LocationId; 2],
    /// Index of its first core in [`super::Tables::conductors`].
    pub first_conductor: usize,
}

/// A core of a cable.
#[derive(Debug, Clone)]
pub struct Conductor {
    /// Its address, `link/grey`.
    pub address: String,
    /// Index of its cable.
    pub cable: usize,
    /// Its colour.
    pub colour: Colour,
    /// Its size.
    pub size: CrossSection,
}

/// Where an end is connected before the learner comes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Start {
    /// In which terminal.
    pub terminal: TerminalId,
    /// How it is marked.
    pub mark: Option<Mark>,
    /// For how long.
    pub stands: Stands,
}

/// An end of a core of the exercise.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct End {
    /// The location where it comes out of its sheath.
    pub location: LocationId,
    /// The colour of its core.
    pub colour: Colour,
    /// Its size.
    pub size: CrossSection,
    /// Which set of colours its cable was made to.
    pub era: Era,
}

/// One switch on a plate.
#[derive(Debug, Clone)]
pub struct Switch {
    /// Its address.
    pub address: String,
    /// Where it is.
    pub location: LocationId,
    /// Which gang of its plate, from 0.
    pub gang: usize,
    /// What it does.
    pub way: Listed,
    /// Its terminals, in the order of its accessory's `terminals`.
    pub terminals: Vec<TerminalId>,
}

impl TableRow for Switch {
    const NOTHING: &'static Self = &Self {
        address: String::new(),
        location: LocationId::NONE,
        gang: 0,
        way: Listed::FIRST,
        terminals: Vec::new(),
    };
}

/// One protective device.
#[derive(Debug, Clone)]
pub struct Device {
    /// Its address.
    pub address: String,
    /// Where it is.
    pub location: LocationId,
    /// What it is.
    pub kind: DeviceKind,
    /// The circuit it feeds, by the chart.
    pub circuit: String,
    /// Its outgoing line.
    pub line: TerminalId,
    /// Its outgoing neutral.
    pub neutral: TerminalId,
    /// The residual current device in front of it, if one stands there for several.
    pub behind: Option<DeviceId>,
}

impl TableRow for Device {
    const NOTHING: &'static Self = &Self {
        address: String::new(),
        location: LocationId::NONE,
        kind: DeviceKind::NOTHING,
        circuit: String::new(),
        line: TerminalId::NONE,
        neutral: TerminalId::NONE,
        behind: None,
    };
}

/// One lamp and its holder.
#[derive(Debug, Clone)]
pub struct Lamp {
    /// Its address.
    pub address: String,
    /// Where it is.
    pub location: LocationId,
    /// The holder.
    pub holder: Holder,
    /// The lamp.
    pub kind: LampKind,
    /// Its rating at nominal voltage, watts.
    pub watts: f64,
    /// The holder's two contacts.
    pub contacts: [TerminalId; 2],
}

impl TableRow for Lamp {
    const NOTHING: &'static Self = &Self {
        address: String::new(),
        location: LocationId::NONE,
        holder: Holder::Bayonet,
        kind: LampKind::Led,
        watts: 0.0,
        contacts: [TerminalId::NONE; 2],
    };
}

/// One fan with a timer.
#[derive(Debug, Clone)]
pub struct Fan {
    /// Its address.
    pub address: String,
    /// Where it is.
    pub location: LocationId,
    /// Its rating at nominal voltage, watts.
    pub watts: f64,
    /// Its terminals for the permanent line, the switched line and the neutral.
    pub terminals: [TerminalId; 3],
    /// The lamp that it starts with.
    pub with: LampId,
    /// The switch that cuts it off from everything, if there is one.
    pub isolator: Option<SwitchId>,
}

impl TableRow for Fan {
    const NOTHING: &'static Self = &Self {
        address: String::new(),
        location: LocationId::NONE,
        watts: 0.0,
        terminals: [TerminalId::NONE; 3],
        with: LampId::NONE,
        isolator: None,
    };
}

/// What must happen: every toggle of one of these switches changes the lamp, and no other switch does.
#[derive(Debug, Clone)]
pub struct Control {
    /// The lamp.
    pub lamp: LampId,
    /// The switches, at least one.
    pub switches: Vec<SwitchId>,
}
