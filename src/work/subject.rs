//! What something is about: a place, a stage, a prediction, a hint, a line of the test sheet.
//!
//! A type wherever the program speaks of it. It becomes an address in files and words on a screen, and is never read back
//! from either.

use super::{
    Point, Test, Work,
    action::{Action, Hand},
};
use crate::{
    exercise::{DeviceId, EndId, Exercise, FanId, LampId, LocationId, MADE, Stage, SwitchId, TerminalId, UnmarkedId},
    trade::cable::CableKind,
};

/// What a finding, an act or a hazard is about.
///
/// Conductors are named so that the name holds whichever cables are chosen before or after: see [`Wire`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Subject {
    /// The work as a whole.
    Whole,
    /// A location.
    Location(LocationId),
    /// A terminal.
    Terminal(TerminalId),
    /// An end of a conductor; `true` for its second.
    End(Wire, bool),
    /// A conductor.
    Conductor(Wire),
    /// A cable of the exercise as drawn, by its place in [`crate::exercise::Tables::cables`].
    Cable(usize),
    /// A run, by its place in [`crate::exercise::Tables::runs`], and the cable chosen for it.
    Run(usize),
    /// A switch.
    Switch(SwitchId),
    /// A lamp.
    Lamp(LampId),
    /// A fan, by its place in [`crate::exercise::Tables::fans`].
    Fan(FanId),
    /// A device.
    Device(DeviceId),
    /// A stage.
    Stage(Stage),
    /// A prediction, by its place in the tally.
    Prediction(usize),
    /// Something without a mark.
    Unmarked(UnmarkedId),
    /// A hint, by its place in the tally.
    Hint(usize),
    /// A line of the test sheet.
    Test(Test, DeviceId),
}

/// A conductor, by what it is a core of: its index in the exercise changes when a cable is chosen, this does not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Wire {
    /// A core of a cable of the exercise as drawn, by its place in [`crate::exercise::Tables::conductors`].
    Core(usize),
    /// A core of the cable chosen for a run.
    OfRun {
        /// The run, by its place in [`crate::exercise::Tables::runs`].
        run: usize,
        /// The kind of cable that was chosen.
        kind: CableKind,
        /// The core, by its place in the kind's list.
        core: usize,
    },
    /// A conductor made up by hand.
    Made {
        /// The number of its making, from 0.
        number: usize,
        /// Where it was made up.
        location: LocationId,
    },
}

impl Wire {
    fn address(self, exercise: &Exercise) -> String {
        match self {
            Self::Core(it) => exercise.conductors.get(it).map_or_else(String::new, |it| it.address.clone()),
            Self::OfRun { run, kind, core } => {
                let id = exercise.runs.get(run).map_or("", |it| &it.id);
                format!("{id}/{}", kind.cores().get(core).map_or("", |it| it.name))
            }
            Self::Made { number, .. } => format!("{MADE}{}", number.saturating_add(1)),
        }
    }

    fn end_location(self, exercise: &Exercise, second: bool) -> Option<LocationId> {
        let side = usize::from(second);
        match self {
            Self::Core(it) => exercise.conductors.get(it).map(|it| exercise.cables[it.cable].between[side]),
            Self::OfRun { run, .. } => exercise.runs.get(run).map(|it| it.between[side]),
            Self::Made { location, .. } => Some(location),
        }
    }

    fn end_address(self, exercise: &Exercise, second: bool) -> String {
        let letter = match (self, second) {
            (Self::Made { .. }, false) => "/a",
            (Self::Made { .. }, true) => "/b",
            _ => "",
        };
        let location =
            self.end_location(exercise, second).and_then(|it| exercise.locations.get(it)).map_or("", |it| &it.id);
        format!("{}{letter}@{location}", self.address(exercise))
    }
}

impl Subject {
    /// Its address in files and reports; for a stage its word, for what was counted its number.
    pub fn address(self, exercise: &Exercise) -> String {
        match self {
            Self::Whole => String::new(),
            Self::Location(it) => exercise.locations[it].id.clone(),
            Self::Terminal(it) => exercise.terminals[it].address.clone(),
            Self::End(wire, second) => wire.end_address(exercise, second),
            Self::Conductor(it) => it.address(exercise),
            Self::Cable(it) => exercise.cables.get(it).map(|it| it.id.clone()).unwrap_or_default(),
            Self::Run(it) => exercise.runs.get(it).map(|it| it.id.clone()).unwrap_or_default(),
            Self::Switch(it) => exercise.switches[it].address.clone(),
            Self::Lamp(it) => exercise.lamps[it].address.clone(),
            Self::Fan(it) => exercise.fans[it].address.clone(),
            Self::Device(it) => exercise.devices[it].address.clone(),
            Self::Stage(it) => it.word().to_owned(),
            Self::Prediction(it) => format!("prediction {}", it.saturating_add(1)),
            Self::Unmarked(it) => exercise.unmarked_address(it),
            Self::Hint(it) => format!("hint {}", it.saturating_add(1)),
            Self::Test(test, it) => format!("test {} {}", test.word(), exercise.devices[it].address),
        }
    }

    /// Where it is, if it is in one place.
    pub fn location(self, exercise: &Exercise) -> Option<LocationId> {
        Some(match self {
            Self::Location(it) => it,
            Self::Terminal(it) => exercise.terminals[it].location,
            Self::End(wire, second) => return wire.end_location(exercise, second),
            Self::Switch(it) => exercise.switches[it].location,
            Self::Lamp(it) => exercise.lamps[it].location,
            Self::Fan(it) => exercise.fans[it].location,
            Self::Device(it) => exercise.devices[it].location,
            Self::Unmarked(it) => return exercise.unmarked.get(it.group).map(|it| it.location),
            Self::Whole
            | Self::Conductor(_)
            | Self::Cable(_)
            | Self::Run(_)
            | Self::Stage(_)
            | Self::Prediction(_)
            | Self::Hint(_)
            | Self::Test(..) => return None,
        })
    }

    /// The end it is, in a work that has it.
    pub fn end(self, work: &Work) -> Option<EndId> {
        let Self::End(wire, second) = self else { return None };
        work.conductor_of(wire).map(|it| EndId::of(it)[usize::from(second)])
    }

    /// The conductor it is, in a work that has it.
    pub fn conductor(self, work: &Work) -> Option<usize> {
        match self {
            Self::Conductor(it) => work.conductor_of(it),
            _ => None,
        }
    }

    /// The terminal that it is, or where the end's copper is, in a work that has it.
    pub fn point(self, work: &Work) -> Option<Point> {
        match self {
            Self::Terminal(it) => Some(Point::Terminal(it)),
            _ => self.end(work).map(|it| work.point_of(it)),
        }
    }
}

impl Work {
    /// An end as a subject.
    pub fn subject_of(&self, end: EndId) -> Subject {
        Subject::End(self.wire(end.conductor()), end.index() % 2 == 1)
    }

    /// A terminal, or a free end, as a subject.
    pub fn subject_at(&self, point: Point) -> Subject {
        match point {
            Point::Terminal(it) => Subject::Terminal(it),
            Point::End(it) => self.subject_of(it),
        }
    }

    /// What an action's address of an end or a terminal speaks of, as the action says it: an end stays an end, whatever
    /// terminal it is in.
    pub(crate) fn subject(&self, address: &str) -> Option<Subject> {
        if address.contains('@') {
            return self.end(address).ok().map(|it| self.subject_of(it));
        }
        self.terminal(address).ok().map(Subject::Terminal)
    }

    /// What handwork other than a pull was done on: an end, a terminal, a cable or a place.
    pub(crate) fn worked_on(&self, action: &Action) -> Option<Subject> {
        match action {
            Action::Tug { .. } => None,
            Action::Sheath { cable, .. } => {
                let exercise = self.exercise();
                let run = || exercise.run(cable).ok().map(Subject::Run);
                run().or_else(|| exercise.cables.iter().position(|it| it.id == *cable).map(Subject::Cable))
            }
            _ => match action.hand()? {
                Hand::Point(at) => self.subject(at),
                Hand::Place(at) => self.location(at).ok().map(Subject::Location),
            },
        }
    }

    /// A conductor by what it is a core of.
    pub fn wire(&self, conductor: usize) -> Wire {
        let exercise = self.exercise();
        let Some(cable) = self.cable_of(conductor) else {
            let number = conductor.saturating_sub(exercise.conductors.len());
            let location = self.made_up(conductor).location;
            return Wire::Made { number, location };
        };
        let of_run = |it: &crate::exercise::Run| it.cable == Some(exercise.conductors[conductor].cable);
        match exercise.runs.iter().position(of_run) {
            Some(run) => Wire::OfRun { run, kind: cable.kind, core: conductor - cable.first_conductor },
            None => Wire::Core(conductor),
        }
    }

    /// The index of a conductor now, if the work has it.
    fn conductor_of(&self, wire: Wire) -> Option<usize> {
        let exercise = self.exercise();
        match wire {
            Wire::Core(it) => (it < exercise.conductors.len()).then_some(it),
            Wire::OfRun { run, kind, core } => {
                let cable = &exercise.cables[exercise.runs.get(run)?.cable?];
                (cable.kind == kind && core < kind.cores().len()).then(|| cable.first_conductor + core)
            }
            Wire::Made { number, .. } => (number < self.made().len()).then(|| exercise.conductors.len() + number),
        }
    }
}
