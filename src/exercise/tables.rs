//! The exercise: a checked scenario with nothing left to vary, in tables that the other rooms index.
//!
//! Built only by [`super::check`], so every id in it is valid. It holds no answer: nothing here says which conductor
//! belongs in which terminal.

use std::{collections::BTreeMap, ops::Deref, sync::Arc};

use super::{
    address::nearest,
    course::CoursePlace,
    file::{Edition, Preparation, Stage},
    kit::{Keeper, Kit, Supply, Tails},
    outside::Distribution,
    reference::Reference,
    room::Room,
    rows::{
        Cable, Conductor, Control, Device, End, Fan, Lamp, Location, LocationKind, Start, Switch, Terminal, TerminalUse,
    },
    run::Run,
    slip::HandAct,
    suspect::Suspect,
    table::{DeviceId, EndId, FanId, LampId, LocationId, SwitchId, Table, TerminalId},
    unmarked::Unmarked,
    variant::Seed,
    weights::Weights,
};
use crate::trade::{catalogue::Listed, supply::Earthing};

/// What an exercise consists of: what is there before the learner comes, and what must happen.
#[derive(Debug, Clone)]
pub struct Tables {
    /// The scenario's id, which is also its folder's name.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The invented place it happens in.
    pub place: String,
    /// What the learner is asked to do.
    pub brief: String,
    /// Where it stands in a course; `None` in an exercise as drawn, and where its author does not say.
    pub course: Option<CoursePlace>,
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
    /// What a hand has done to that before the learner comes, in order.
    pub slips: Vec<HandAct>,
    /// For each end, where those acts left it, if they moved it: in a terminal, or in none.
    pub slipped: BTreeMap<EndId, Option<TerminalId>>,
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
    /// What may be wrong with the installation, out of sight: each once.
    pub suspects: Vec<Suspect>,
    /// Which of them it has.
    pub fault: usize,
    /// What has no mark, place by place.
    pub unmarked: Vec<Unmarked>,
    /// Marks for each criterion.
    pub weights: Weights,
    /// Share of the marks that a pass needs, per cent.
    pub pass_mark: u32,
}

/// An exercise as drawn. Its tables are read through it and changed by nobody outside this room, so that what was checked
/// stays true of one that somebody else owns:
///
/// ```compile_fail,E0596
/// fn spoil(exercise: &mut switchdrop::exercise::Exercise) {
///     exercise.conductors.clear();
/// }
/// ```
#[derive(Debug, Clone)]
pub struct Exercise {
    pub(super) tables: Tables,
    pub(super) text: String,
    pub(super) names: Names,
    /// The exercise as drawn, if cables have been chosen and fitted since.
    pub(super) drawn: Option<Arc<Exercise>>,
}

impl Deref for Exercise {
    type Target = Tables;

    fn deref(&self) -> &Tables {
        &self.tables
    }
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
