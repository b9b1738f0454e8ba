//! The exercise: a checked scenario with nothing left to vary, in tables that the other rooms index.
//!
//! Built only by [`super::check`], so every id in it is valid. It holds no answer: nothing here says which conductor
//! belongs in which terminal.

use std::{collections::BTreeMap, sync::Arc};

use super::{
    address::nearest,
    file::{Edition, Preparation, Stage},
    kit::{Keeper, Kit, Stands, Supply, Tails},
    outside::Distribution,
    reference::Reference,
    room::Room,
    run::Run,
    table::{DeviceId, EndId, FanId, LampId, LocationId, SwitchId, Table, TableRow, TerminalId},
    variant::Seed,
    weights::Weights,
};
use crate::trade::{
    accessory::{Capacity, Holder, LampKind, Lugs, Material},
    cable::{CableKind, CrossSection},
    catalogue::Listed,
    colour::{Colour, Era, Mark},
    device::DeviceKind,
    supply::Earthing,
};

/// An exercise as drawn: what is there before the learner comes, and what must happen.
#[derive(Debug, Clone)]
pub struct Exercise {
    /// The scenario's id, which is also its folder's name.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The invented place it happens in.
    pub place: String,
    /// What the learner is asked to do.
    pub brief: String,
    /// The edition that references are given in.
    pub edition: Edition,
    /// How the supply is earthed.
    pub earthing: Earthing,
    /// The seed it was drawn from: where it came from. After that it fixes only what instruments read.
    pub seed: Seed,
    /// Where terminals are.
    pub locations: Table<LocationId, Location>,
    /// The rooms that they are in, each location in one; empty where they stand on a training board, or nothing is known of the house.
    pub rooms: Vec<Room>,
    /// Every terminal of every location.
    pub terminals: Table<TerminalId, Terminal>,
    /// The cables.
    pub cables: Vec<Cable>,
    /// Where the learner chooses the cable.
    pub runs: Vec<Run>,
    /// The cores of the cables, in the order of the cables.
    pub conductors: Vec<Conductor>,
    /// For each end of those, where it is connected before the learner comes.
    pub start: Table<EndId, Option<Start>>,
    /// The switches.
    pub switches: Table<SwitchId, Switch>,
    /// The protective devices.
    pub devices: Table<DeviceId, Device>,
    /// The lamps.
    pub lamps: Table<LampId, Lamp>,
    /// The fans.
    pub fans: Table<FanId, Fan>,
    /// Terminals joined inside an accessory that has no switch.
    pub fixed: Vec<[TerminalId; 2]>,
    /// Which switches must work which lamp.
    pub controls: Vec<Control>,
    /// The stages asked for, in order, none twice.
    pub stages: Vec<Stage>,
    /// How new cables come to the learner.
    pub preparation: Preparation,
    /// What the learner is handed.
    pub kit: Kit,
    /// The reference that earths are shown from; `None`: dead tests go by pairs.
    pub reference: Option<Reference>,
    /// Whether a hint may be asked for in set work.
    pub hints: bool,
    /// Who sees to the board.
    pub board: Keeper,
    /// What is between the meter and its main switch.
    pub tails: Tails,
    /// Where the supply comes from.
    pub supply: Supply,
    /// The circuit that feeds it from another board; `None` at the origin.
    pub fed: Option<Distribution>,
    /// Conductors (by index) that the prediction asks about.
    pub predict: Vec<usize>,
    /// Marks for each criterion.
    pub weights: Weights,
    /// Share of the marks that a pass needs, per cent.
    pub pass_mark: u32,
    pub(super) text: String,
    pub(super) names: Names,
    /// The exercise as drawn, if cables have been chosen and fitted since.
    pub(super) drawn: Option<Arc<Exercise>>,
}

/// Addresses to ids.
#[derive(Debug, Clone, Default)]
pub(super) struct Names {
    pub locations: BTreeMap<String, LocationId>,
    pub terminals: BTreeMap<String, TerminalId>,
    pub conductors: BTreeMap<String, usize>,
    pub ends: BTreeMap<String, EndId>,
    pub switches: BTreeMap<String, SwitchId>,
    pub devices: BTreeMap<String, DeviceId>,
    pub lamps: BTreeMap<String, LampId>,
}

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
    /// Index of its first core in [`Exercise::conductors`].
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

/// Looks an address up, or says which valid one is nearest.
macro_rules! lookups {
    ($($(#[doc = $doc:literal])+ $name:ident: $table:ident -> $id:ty,)+) => {$(
        $(#[doc = $doc])+
        ///
        /// # Errors
        /// The valid address nearest to the one given, if one is near.
        pub fn $name(&self, address: &str) -> Result<$id, Option<String>> {
            let table = &self.names.$table;
            table.get(address).copied().ok_or_else(|| nearest(address, table.keys().map(String::as_str)))
        }
    )+};
}

impl Exercise {
    lookups! {
        /// The location of that address.
        location: locations -> LocationId,
        /// The terminal of that address.
        terminal: terminals -> TerminalId,
        /// The conductor of that address, by index.
        conductor: conductors -> usize,
        /// The end of that address.
        end: ends -> EndId,
        /// The switch of that address.
        switch: switches -> SwitchId,
        /// The device of that address.
        device: devices -> DeviceId,
        /// The lamp of that address.
        lamp: lamps -> LampId,
    }

    /// The exercise as text: a scenario on one line with nothing left to vary. Reading it gives this exercise again.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// An end of one of the exercise's own conductors; `None` for one made up in the attempt.
    pub fn end_facts(&self, end: EndId) -> Option<End> {
        let conductor = self.conductors.get(end.conductor())?;
        let cable = &self.cables[conductor.cable];
        Some(End {
            location: cable.between[end.index() % 2],
            colour: conductor.colour,
            size: conductor.size,
            era: cable.kind.era(),
        })
    }

    /// The address of an end of one of the exercise's own conductors.
    pub fn end_address(&self, end: EndId) -> Option<String> {
        let facts = self.end_facts(end)?;
        Some(format!("{}@{}", self.conductors[end.conductor()].address, self.locations[facts.location].id))
    }

    /// The terminals of a location, in their order.
    pub fn terminals_at(&self, location: LocationId) -> impl Iterator<Item = TerminalId> + '_ {
        self.terminals.ids().filter(move |it| self.terminals[*it].location == location)
    }

    /// The earth bars, one a board.
    pub fn earth_bars(&self) -> impl Iterator<Item = TerminalId> + '_ {
        self.terminals.ids().filter(|it| self.is_earth_bar(*it))
    }

    /// The terminals that anything else is or is not joined to: the outgoing terminals of devices, and the earth bars.
    pub fn outgoing(&self) -> impl Iterator<Item = TerminalId> + '_ {
        let is_outgoing = |it: &TerminalId| {
            let used_by = self.terminals[*it].used_by;
            matches!(used_by, TerminalUse::DeviceLine(_) | TerminalUse::DeviceNeutral(_) | TerminalUse::EarthBar)
        };
        self.terminals.ids().filter(is_outgoing)
    }

    /// Whether a terminal is a board's earth bar.
    pub fn is_earth_bar(&self, terminal: TerminalId) -> bool {
        self.terminals[terminal].used_by == TerminalUse::EarthBar
    }

    /// Whether a location is a board.
    pub fn is_board(&self, location: LocationId) -> bool {
        self.locations[location].kind == LocationKind::Board
    }

    /// Whether a location is a socket-outlet.
    pub fn is_outlet(&self, location: LocationId) -> bool {
        self.locations[location].kind.fixed().is_some_and(|it| it.is_outlet())
    }

    /// Whether a terminal is there for protective conductors.
    pub fn is_for_earth(&self, terminal: TerminalId) -> bool {
        self.terminals[terminal].used_by.is_earth()
    }

    /// The line and neutral terminals of socket-outlets, with their places.
    pub fn outlets(&self) -> impl Iterator<Item = (LocationId, [TerminalId; 2])> + '_ {
        self.locations.with_ids().filter_map(|(at, place)| {
            place.kind.fixed().filter(|it| it.is_outlet())?;
            Some((at, [self.terminal_used(at, TerminalUse::Block(0))?, self.terminal_used(at, TerminalUse::Block(1))?]))
        })
    }

    /// The terminals of accessories that have a fuse, with their places: those of the pole with the fuse, and those of the other.
    pub fn fuses(&self) -> impl Iterator<Item = (LocationId, [[TerminalId; 2]; 2])> + '_ {
        let switched = self.switches.iter().filter_map(|it| {
            let at = |place: usize| it.terminals.get(place).copied();
            Some((it.location, poles(it.way, at)?))
        });
        let unswitched = self.locations.with_ids().filter_map(|(location, place)| {
            let at = |place: usize| self.terminal_used(location, TerminalUse::Block(u8::try_from(place).ok()?));
            Some((location, poles(place.kind.fixed()?, at)?))
        });
        switched.chain(unswitched)
    }

    /// The terminal at a location with that use, if it has one.
    pub fn terminal_used(&self, location: LocationId, used_by: TerminalUse) -> Option<TerminalId> {
        self.terminals_at(location).find(|it| self.terminals[*it].used_by == used_by)
    }

    /// The lampholder at a location, if it is a luminaire.
    pub fn lamp_at(&self, location: LocationId) -> Option<LampId> {
        self.lamps.ids().find(|it| self.lamps[*it].location == location)
    }

    /// The switches of a location's plate, left to right.
    pub fn switches_at(&self, location: LocationId) -> impl Iterator<Item = SwitchId> + '_ {
        self.switches.ids().filter(move |it| self.switches[*it].location == location)
    }

    /// Whether an exercise asks for a stage.
    pub fn asks(&self, stage: Stage) -> bool {
        self.stages.contains(&stage)
    }
}

/// The terminals of an accessory's two poles, that with the fuse first.
fn poles(it: Listed, at: impl Fn(usize) -> Option<TerminalId>) -> Option<[[TerminalId; 2]; 2]> {
    let [fused, plain] = it.fused?.map(|(a, b)| Some([at(a)?, at(b)?]));
    Some([fused?, plain?])
}
