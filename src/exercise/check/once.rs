//! What is wrong in one place is said once: a cable that is missing or has other cores than was thought, or a place that is not there, is
//! named again by every end, terminal and question that needs it.

use std::collections::BTreeSet;

use super::Checker;
use crate::exercise::{placed::Placed, problem::ProblemCode};

/// What an address that leads nowhere lacks.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Absent {
    /// The cable of that id.
    Cable(String),
    /// The cable of that id is there and has no such core.
    CoreOf(String),
    /// The place of that id.
    Place(String),
    /// This address alone is wrong, here: nothing else follows from it.
    Alone,
}

/// What has been said already.
#[derive(Debug, Default)]
pub(super) struct ToldOnce(BTreeSet<Absent>);

impl ToldOnce {
    pub fn add(&mut self, root: Absent) {
        self.0.insert(root);
    }

    /// Whether it has not been said before; from now on it has.
    pub fn is_new(&mut self, root: Absent) -> bool {
        root == Absent::Alone || self.0.insert(root)
    }
}

impl Checker<'_> {
    /// Why nothing is found at an address.
    pub(super) fn root(&self, code: ProblemCode, address: &str) -> Absent {
        let parts = |by: char| address.split_once(by).unwrap_or((address, ""));
        match code {
            ProblemCode::UnknownCable => Absent::Cable(address.to_owned()),
            ProblemCode::UnknownEnd | ProblemCode::UnknownConductor => {
                let (cable, rest) = parts('/');
                let Some(cores) = self.cores(cable) else { return Absent::Cable(cable.to_owned()) };
                let has = cores.contains(&rest.split('@').next().unwrap_or_default());
                if has { Absent::Alone } else { Absent::CoreOf(cable.to_owned()) }
            }
            ProblemCode::UnknownLocation
            | ProblemCode::UnknownTerminal
            | ProblemCode::UnknownSwitch
            | ProblemCode::UnknownLamp
            | ProblemCode::UnknownDevice => {
                let place = parts('.').0;
                let is_there = self.exercise.names.locations.contains_key(place);
                if is_there { Absent::Alone } else { Absent::Place(place.to_owned()) }
            }
            _ => Absent::Alone,
        }
    }

    /// The names of the cores of a cable that is laid.
    fn cores(&self, cable: &str) -> Option<Vec<&'static str>> {
        let found = self.exercise.cables.iter().find(|it| it.id == cable)?;
        Some(found.kind.cores().iter().map(|it| it.name).collect())
    }

    /// The cores that the cable of an end or a conductor has, for a sentence.
    pub(super) fn cores_of(&self, code: ProblemCode, at: &Placed<'_, String>) -> Option<String> {
        let is_core = matches!(code, ProblemCode::UnknownEnd | ProblemCode::UnknownConductor);
        let cores = is_core.then(|| self.cores(at.split('/').next().unwrap_or_default()))??;
        Some(cores.join(", "))
    }
}
