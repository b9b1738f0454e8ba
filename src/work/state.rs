//! The work: where every conductor end is, how it is marked, which screws are tight, which covers are on.

mod choosing;
mod lookup;
mod naming;
mod origin;
mod prepared;
mod preparing;

use std::sync::Arc;

pub use choosing::Chosen;
pub use naming::Called;
pub use prepared::{Fit, Fold, Prep};

use super::{
    action::{Action, Feel, Incomer},
    refused::Refused,
    shared::Shared,
};
use crate::{
    exercise::{
        DeviceId, EndId, Exercise, Keeper, LampId, Limits, LocationId, LocationKind, Preparation, Stands, Start,
        SwitchId, Table, TableRow, TerminalId,
    },
    trade::{
        cable::CrossSection,
        colour::{Colour, Mark},
    },
};

/// The state of the job as it stands.
#[derive(Debug, Clone)]
pub struct Work {
    /// As drawn, with the cables that have been chosen.
    exercise: Arc<Exercise>,
    chosen: Vec<Option<Chosen>>,
    ends: Shared<Table<EndId, EndState>>,
    tight: Shared<Table<TerminalId, bool>>,
    made: Vec<Made>,
    covered: Table<LocationId, bool>,
    devices: Table<DeviceId, DeviceState>,
    positions: Table<SwitchId, u8>,
    lamps_in: Table<LampId, bool>,
    /// Sheath taken off each cable at its two places, mm.
    sheaths: Shared<Vec<[u16; 2]>>,
    grommets: Table<LocationId, bool>,
    dressed: Table<LocationId, bool>,
    links: Vec<[Point; 2]>,
    origin: origin::Origin,
    names: naming::GivenNames,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct EndState {
    terminal: Option<TerminalId>,
    mark: Option<Mark>,
    /// Never taken out of the terminal it was found in.
    undisturbed: bool,
    /// How the learner made it ready; `None` where it came ready.
    prep: Option<Prep>,
}

impl TableRow for EndState {
    const NOTHING: &'static Self = &Self { terminal: None, mark: None, undisturbed: false, prep: None };
}

/// A short conductor made up by hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Made {
    /// Where it is.
    pub location: LocationId,
    /// Its colour.
    pub colour: Colour,
}

/// A device's lever.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Power {
    /// Switched off by hand.
    Off,
    /// On.
    On,
    /// Opened by itself.
    Tripped,
}

/// A device as it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DeviceState {
    /// Its lever.
    pub power: Power,
    /// Whether the learner's lock and label are on it.
    pub locked: bool,
    /// Whether the supervisor's are, beside it.
    pub kept_off: bool,
}

impl TableRow for DeviceState {
    const NOTHING: &'static Self = &Self { power: Power::Off, locked: false, kept_off: false };
}

/// Where a probe can be put.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Point {
    /// A terminal.
    Terminal(TerminalId),
    /// The copper of an end that is in no terminal.
    End(EndId),
}

/// A change made to the work from outside the rules of the hand: how a repair or a slip is tried, never how a learner works.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Edit {
    /// Put an end in a terminal, out of whatever it is in, and tighten; `None`: leave it loose.
    Move(EndId, Option<TerminalId>),
    /// Mark an end so; `None`: take the mark off.
    Mark(EndId, Option<Mark>),
    /// Tighten a terminal.
    Tighten(TerminalId),
    /// Leave a terminal's screw loose.
    Slacken(TerminalId),
    /// Have an end made ready so.
    Prepare(EndId, Prep),
    /// Have this length of sheath, mm, off a cable (by index) at a location.
    Sheath(usize, LocationId, u16),
    /// Have a grommet in a box, or none.
    Grommet(LocationId, bool),
    /// Make up a protective tail between two terminals of one location, sleeved and tight.
    Tail(TerminalId, TerminalId),
    /// Take every test link out.
    TakeLinks,
    /// Have another size of the same kind in a run (by index).
    Refit(usize, CrossSection),
}

impl Work {
    /// As the learner finds it: every device on that no supervisor keeps off, every cover on, every lamp in, every switch in position 0.
    pub fn new(exercise: Arc<Exercise>) -> Self {
        Self::before_slips(exercise).with_slips().0
    }

    /// The same before any slip was made: as a careful hand left it.
    pub(super) fn before_slips(exercise: Arc<Exercise>) -> Self {
        let exercise = exercise.as_drawn();
        let mut work = Self {
            ends: Self::start_ends(&exercise).into(),
            chosen: vec![None; exercise.runs.len()],
            tight: exercise.terminals.each(true).into(),
            made: Vec::new(),
            covered: exercise.locations.each(true),
            devices: Self::start_devices(&exercise),
            positions: exercise.switches.each(0),
            lamps_in: exercise.lamps.each(true),
            sheaths: vec![[0; 2]; exercise.cables.len()].into(),
            grommets: exercise.locations.each(false),
            dressed: exercise.locations.each(false),
            links: Vec::new(),
            origin: origin::Origin::default(),
            names: naming::GivenNames::none(&exercise),
            exercise,
        };
        if work.exercise.preparation == Preparation::MadeOff {
            work.make_off();
        }
        work
    }

    /// This work as it would be with another of the faults of its exercise hidden in it. An end that stands where it was found, perhaps put
    /// back there, stands where it would have been found then; any other stays where the learner left it.
    #[must_use]
    pub fn supposing(&self, exercise: &Arc<Exercise>) -> Self {
        let mut other = self.clone();
        let exchanged = [&self.exercise, exercise].into_iter().filter_map(|it| it.hidden_fault()?.exchanged());
        for end in exchanged.flatten() {
            let found = self.exercise.found_in(end);
            if found.is_some() && self.ends[end].terminal == found {
                other.ends.change(end, |it| it.terminal = exercise.found_in(end));
            }
        }
        other.exercise = Arc::clone(exercise);
        other
    }

    /// The devices as they are found: on; off and under the supervisor's lock where that is who sees to the board.
    fn start_devices(exercise: &Exercise) -> Table<DeviceId, DeviceState> {
        let mut states = exercise.devices.each(DeviceState { power: Power::On, locked: false, kept_off: false });
        if exercise.board == Keeper::Supervisor {
            for it in exercise.learners_places().into_iter().flat_map(|it| exercise.devices_reaching(it)) {
                states.put(it, DeviceState { power: Power::Off, locked: false, kept_off: true });
            }
        }
        states
    }

    /// Takes the supervisor's locks off.
    pub(crate) fn release(&mut self) {
        for it in self.devices.rows_mut() {
            it.kept_off = false;
        }
    }

    /// Connects what is tied back beside the board.
    pub(crate) fn connect_tied_back(&mut self) {
        let exercise = Arc::clone(&self.exercise);
        for (state, start) in self.ends.rows_mut().zip(&exercise.start) {
            if let Some(it) = start.filter(|it| it.stands == Stands::Later) {
                state.terminal = Some(it.terminal);
                self.tight.put(it.terminal, true);
            }
        }
    }

    /// Whether something is tied back beside the board, not connected yet.
    pub fn has_tied_back(&self) -> bool {
        let later = |start: &Option<Start>| start.is_some_and(|it| it.stands == Stands::Later);
        self.exercise.start.iter().zip(self.ends.iter()).any(|(start, state)| later(start) && state.terminal.is_none())
    }

    /// Whether a lock of the supervisor's is on.
    pub fn is_kept_off(&self) -> bool {
        self.devices.iter().any(|it| it.kept_off)
    }

    /// The ends of an exercise's own conductors as they are found.
    fn start_ends(exercise: &Exercise) -> Table<EndId, EndState> {
        let of = |((end, it), prep): ((EndId, &Option<Start>), _)| EndState {
            terminal: it.filter(|it| it.stands != Stands::Later).and_then(|_| exercise.found_in(end)),
            mark: it.and_then(|it| it.mark),
            undisturbed: it.is_some(),
            prep,
        };
        exercise.start.with_ids().zip(Self::start_preps(exercise)).map(of).collect()
    }

    /// The exercise that this is the work of, with the cables that have been chosen.
    pub fn exercise(&self) -> &Arc<Exercise> {
        &self.exercise
    }

    /// Carries out an action of the hand. Actions of another kind (isolation steps, readings, predictions, power-on,
    /// undo, hand-in) change nothing here; [`crate::attempt::Attempt`] sees to those.
    ///
    /// # Errors
    /// Why the action is impossible; the work is then as it was.
    pub fn apply(&mut self, action: &Action) -> Result<(), Refused> {
        match action {
            Action::Mark { end, mark } => self.mark(self.end(end)?, *mark),
            Action::Unmark { end } => self.unmark(self.end(end)?),
            Action::Connect { end, terminal } => self.connect(self.end(end)?, self.terminal(terminal)?),
            Action::Disconnect { end } => self.disconnect(self.end(end)?),
            Action::Tighten { terminal, feel } => self.tighten(self.terminal(terminal)?, *feel),
            Action::Sheath { cable, location, mm } => self.sheath(cable, self.location(location)?, *mm),
            Action::Cut { end, mm } => self.cut(self.end(end)?, *mm),
            Action::Strip { end, mm, jaw } => self.strip(self.end(end)?, *mm, *jaw),
            Action::Fold { end } => self.fold(self.end(end)?, true),
            Action::Unfold { end } => self.fold(self.end(end)?, false),
            Action::Tug { end } => self.tug(self.end(end)?),
            Action::Grommet { location } => self.grommet(self.location(location)?),
            Action::Dress { location } => self.dress(self.location(location)?),
            Action::Choose { cable, kind, mm2, reason } => self.choose(cable, (*kind, *mm2), *reason),
            Action::MakeUp { location, colour } => self.make_up(self.location(location)?, *colour),
            Action::FitCover { location } => self.cover(self.location(location)?, true),
            Action::RemoveCover { location } => self.cover(self.location(location)?, false),
            Action::FitLamp { lamp } => self.put_lamp(self.lamp(lamp)?, true),
            Action::RemoveLamp { lamp } => self.put_lamp(self.lamp(lamp)?, false),
            Action::PowerOff { device } => self.power_off(self.device(device)?),
            Action::PowerOn { device } => self.power_on(self.device(device)?),
            Action::Reset { device } => self.reset(self.device(device)?),
            Action::LockOff { device } => self.lock(self.device(device)?, true),
            Action::Unlock { device } => self.lock(self.device(device)?, false),
            Action::Operate { switch, position } => self.operate(self.switch(switch)?, *position),
            Action::FitLink { a, b } => self.link([self.point(a)?, self.point(b)?], true),
            Action::TakeLink { a, b } => self.link([self.point(a)?, self.point(b)?], false),
            Action::MainSwitch { on } => self.throw(Incomer::Main, *on),
            Action::Isolator { on } => self.throw(Incomer::Isolator, *on),
            Action::LockIncomer { which } => self.lock_incomer(*which, true),
            Action::UnlockIncomer { which } => self.lock_incomer(*which, false),
            // Where the tails are dead it is no harm and no use.
            Action::LiftShroud | Action::ReadOrigin { .. } => self.is_board_work(),
            Action::BringSupply => self.plug(true),
            Action::Unplug => self.plug(false),
            Action::Earthing { step } => self.earthing(*step),
            Action::Name { at, called } => self.name(at, called),
            _ => Ok(()),
        }
    }

    fn mark(&mut self, end: EndId, mark: Mark) -> Result<(), Refused> {
        self.uncovered(self.end_location(end))?;
        let state = self.ends[end];
        self.is_out(end)?;
        if mark.colour() == Some(Colour::Bare) {
            return Err(Refused::NoSuchMaterial);
        }
        if state.mark.is_some() {
            return Err(Refused::MarkedAlready { end: self.end_address(end) });
        }
        if matches!(mark, Mark::Sleeve(_)) && state.terminal.is_some() {
            return Err(Refused::Clamped { end: self.end_address(end) });
        }
        self.ends.change(end, |it| it.mark = Some(mark));
        Ok(())
    }

    fn unmark(&mut self, end: EndId) -> Result<(), Refused> {
        self.uncovered(self.end_location(end))?;
        let state = self.ends[end];
        match state.mark {
            None => Err(Refused::NotMarked { end: self.end_address(end) }),
            Some(Mark::Sleeve(_)) if state.terminal.is_some() => Err(Refused::Clamped { end: self.end_address(end) }),
            Some(_) => {
                self.ends.change(end, |it| it.mark = None);
                Ok(())
            }
        }
    }

    fn connect(&mut self, end: EndId, terminal: TerminalId) -> Result<(), Refused> {
        let there = &self.exercise.terminals[terminal];
        if there.location != self.end_location(end) {
            return Err(Refused::TooShort { end: self.end_address(end), terminal: there.address.clone() });
        }
        self.uncovered(there.location)?;
        if self.ends[end].terminal.is_some() {
            return Err(Refused::AlreadyConnected { end: self.end_address(end) });
        }
        let (capacity, address) = (there.capacity, there.address.clone());
        let (count, area) =
            self.ends_in(terminal).fold((0, 0.0), |(n, mm2), it| (n + 1, mm2 + self.end_facts(it).size.mm2()));
        if count >= capacity.conductors || area + self.end_facts(end).size.mm2() > capacity.mm2 + 1e-9 {
            return Err(Refused::Full { terminal: address });
        }
        if !capacity.is_made_for(self.end_facts(end).size.mm2()) {
            return Err(Refused::WrongSize { terminal: address });
        }
        self.can_go_in(end, terminal)?;
        self.ends.change(end, |it| it.terminal = Some(terminal));
        self.tight.put(terminal, false);
        let location = self.end_location(end);
        self.dressed.put(location, false);
        Ok(())
    }

    fn disconnect(&mut self, end: EndId) -> Result<(), Refused> {
        self.uncovered(self.end_location(end))?;
        let Some(terminal) = self.ends[end].terminal else {
            return Err(Refused::NotConnected { end: self.end_address(end) });
        };
        self.ends.change(end, |it| {
            it.terminal = None;
            it.undisturbed = false;
        });
        // An empty terminal has nothing to be slack on.
        let empty = self.ends_in(terminal).next().is_none();
        self.tight.put(terminal, empty);
        Ok(())
    }

    fn tighten(&mut self, terminal: TerminalId, feel: Feel) -> Result<(), Refused> {
        self.uncovered(self.exercise.terminals[terminal].location)?;
        if self.tight[terminal] {
            let is_empty = self.ends_in(terminal).next().is_none();
            let terminal = self.exercise.terminals[terminal].address.clone();
            return Err(if is_empty {
                Refused::NothingToTighten { terminal }
            } else {
                Refused::TightAlready { terminal }
            });
        }
        self.tight.put(terminal, feel != Feel::Slack);
        self.crush(terminal, feel);
        Ok(())
    }

    fn make_up(&mut self, location: LocationId, colour: Colour) -> Result<(), Refused> {
        if matches!(self.exercise.locations[location].kind, LocationKind::Board | LocationKind::Luminaire) {
            return Err(Refused::NoSuchMaterial);
        }
        if self.made.len() >= Limits::MADE {
            return Err(Refused::NothingLeft);
        }
        self.made.push(Made { location, colour });
        self.ends.extend([EndState { terminal: None, mark: None, undisturbed: false, prep: None }; 2]);
        Ok(())
    }

    fn cover(&mut self, location: LocationId, fit: bool) -> Result<(), Refused> {
        let location_id = || self.exercise.locations[location].id.clone();
        match (self.has_cover(location), self.covered[location], fit) {
            (false, ..) => return Err(Refused::NoCover { location: location_id() }),
            (true, true, true) => return Err(Refused::CoverFitted { location: location_id() }),
            (true, false, false) => return Err(Refused::CoverRemoved { location: location_id() }),
            (true, ..) => {}
        }
        self.covered.put(location, fit);
        if fit {
            self.trap(location);
        }
        Ok(())
    }

    fn put_lamp(&mut self, lamp: LampId, fit: bool) -> Result<(), Refused> {
        if self.lamps_in[lamp] == fit {
            let lamp = self.exercise.lamps[lamp].address.clone();
            return Err(if fit { Refused::LampFitted { lamp } } else { Refused::LampRemoved { lamp } });
        }
        self.lamps_in.put(lamp, fit);
        Ok(())
    }

    fn power_off(&mut self, device: DeviceId) -> Result<(), Refused> {
        let address = || self.exercise.devices[device].address.clone();
        match self.devices[device].power {
            Power::Off => Err(Refused::OffAlready { device: address() }),
            Power::On | Power::Tripped => {
                self.devices.change(device, |it| it.power = Power::Off);
                Ok(())
            }
        }
    }

    fn power_on(&mut self, device: DeviceId) -> Result<(), Refused> {
        let address = || self.exercise.devices[device].address.clone();
        let state = self.devices[device];
        if state.locked {
            return Err(Refused::Locked { device: address() });
        }
        if state.kept_off {
            return Err(Refused::KeptOff { device: address() });
        }
        match state.power {
            Power::On => return Err(Refused::OnAlready { device: address() }),
            Power::Tripped => return Err(Refused::HasTripped { device: address() }),
            Power::Off => {}
        }
        self.devices.change(device, |it| it.power = Power::On);
        Ok(())
    }

    fn reset(&mut self, device: DeviceId) -> Result<(), Refused> {
        let address = || self.exercise.devices[device].address.clone();
        let state = self.devices[device];
        if state.locked {
            return Err(Refused::Locked { device: address() });
        }
        if state.power != Power::Tripped {
            return Err(Refused::NotTripped { device: address() });
        }
        self.devices.change(device, |it| it.power = Power::On);
        Ok(())
    }

    fn lock(&mut self, device: DeviceId, fit: bool) -> Result<(), Refused> {
        let address = || self.exercise.devices[device].address.clone();
        let state = self.devices[device];
        if fit && state.power == Power::On {
            return Err(Refused::NotOff { device: address() });
        }
        if state.locked == fit {
            let device = address();
            return Err(if fit { Refused::LockedAlready { device } } else { Refused::NotLocked { device } });
        }
        self.devices.change(device, |it| it.locked = fit);
        Ok(())
    }

    fn operate(&mut self, switch: SwitchId, position: u8) -> Result<(), Refused> {
        let it = &self.exercise.switches[switch];
        if usize::from(position) >= it.way.positions() {
            return Err(Refused::NoSuchPosition { switch: it.address.clone() });
        }
        if self.positions[switch] == position {
            return Err(Refused::InPosition { switch: it.address.clone() });
        }
        self.positions.put(switch, position);
        Ok(())
    }

    fn link(&mut self, [a, b]: [Point; 2], fit: bool) -> Result<(), Refused> {
        let link = [a.min(b), a.max(b)];
        let there = self.links.iter().position(|it| *it == link);
        match (fit, there) {
            (true, _) if a == b => return Err(Refused::LinkToItself { a: self.point_address(a) }),
            (true, Some(_)) => return Err(Refused::LinkedAlready { a: self.point_address(a) }),
            (true, None) if self.links.len() >= Limits::MADE => return Err(Refused::NothingLeft),
            (true, None) => self.links.push(link),
            (false, Some(index)) => drop(self.links.remove(index)),
            (false, None) => return Err(Refused::NoLink { a: self.point_address(a) }),
        }
        Ok(())
    }

    /// Covers a place or opens it, whatever that does to what is in it; for slips, which say covers only where they matter.
    pub(super) fn set_covered(&mut self, location: LocationId, covered: bool) {
        self.covered.put(location, covered);
    }

    /// Takes everything that stands somewhere, or did before the slips, for found and touched by no learner. Work that is looked over was
    /// done just now: it is judged as the work of the person who made it.
    pub(super) fn found_so(&mut self) {
        if self.exercise.is_inspected() {
            self.ends.rows_mut().for_each(|it| it.undisturbed = false);
            return;
        }
        let started: Vec<bool> = self.exercise.start.iter().map(Option::is_some).collect();
        for (index, it) in self.ends.rows_mut().enumerate() {
            it.undisturbed = it.terminal.is_some() || started.get(index).is_some_and(|it| *it);
        }
    }

    fn uncovered(&self, location: LocationId) -> Result<(), Refused> {
        if self.covered[location] {
            return Err(Refused::CoverOn { location: self.exercise.locations[location].id.clone() });
        }
        Ok(())
    }

    /// Tries a change without asking whether a hand could make it. What is not there is not changed.
    pub fn edit(&mut self, edit: &Edit) {
        let has = |it: TerminalId| self.exercise.terminals.get(it).is_some();
        match *edit {
            Edit::Move(_, Some(to)) if !has(to) => {}
            Edit::Tail(from, to) if !has(from) || !has(to) => {}
            Edit::Move(end, to) => {
                // Whoever lands an end makes it ready first.
                let unmade = self.prep_of(end).is_some_and(|it| it.core_mm == 0);
                self.ends.change(end, |it| {
                    it.terminal = to;
                    it.undisturbed = false;
                });
                if let Some(to) = to {
                    self.tight.put(to, true);
                }
                if let Some((made, state)) = self.well_made(end).filter(|_| unmade).zip(self.ends.get_mut(end)) {
                    state.prep = Some(made);
                }
            }
            Edit::Mark(end, mark) => {
                self.ends.change(end, |it| it.mark = mark);
            }
            Edit::Tighten(terminal) => self.tight.put(terminal, true),
            Edit::Prepare(end, prep) => {
                // Only what the learner makes ready can have been made ready otherwise.
                if let Some(it) = self.ends.get_mut(end).and_then(|it| it.prep.as_mut()) {
                    *it = prep;
                }
            }
            Edit::Sheath(cable, location, mm) => {
                let side =
                    self.exercise.cables.get(cable).and_then(|laid| laid.between.iter().position(|it| *it == location));
                if let Some((side, sheath)) = side.zip(self.sheaths.get_mut(cable)) {
                    sheath[side] = mm;
                }
            }
            Edit::Grommet(location, there) => self.grommets.put(location, there),
            Edit::TakeLinks => self.links.clear(),
            Edit::Refit(run, size) => self.refit(run, size),
            Edit::Slacken(terminal) => self.tight.put(terminal, false),
            Edit::Tail(from, to) => {
                let location = self.exercise.terminals[from].location;
                let mark = Some(Mark::Sleeve(Colour::GreenYellow));
                self.made.push(Made { location, colour: Colour::GreenYellow });
                self.ends.extend([from, to].map(|it| EndState {
                    terminal: Some(it),
                    mark,
                    undisturbed: false,
                    prep: None,
                }));
            }
        }
    }

    /// Takes the switches and devices as they stand in another state of the same work: events, which undo leaves alone. Test
    /// links are the same in both, since undo does not cross one; only the ends they lie on may have other numbers.
    pub(crate) fn keep_switches_of(&mut self, other: &Self) {
        self.positions.clone_from(&other.positions);
        self.devices.clone_from(&other.devices);
        self.origin = other.origin;
    }

    /// Opens a device as a fault would.
    pub(crate) fn trip(&mut self, device: DeviceId) {
        self.devices.change(device, |it| it.power = Power::Tripped);
    }
}
