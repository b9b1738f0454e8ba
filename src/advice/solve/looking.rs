//! A job of somebody else's looked over: every cover off and on again, every end pulled at, each defect said.

use super::{Lacks, Solver};
use crate::{marking::to_observe, work::Action};

impl Solver {
    pub(super) fn looks_over(&mut self) -> Result<(), Lacks> {
        let exercise = self.exercise();
        let due = to_observe(&exercise);
        for (id, place) in exercise.locations.with_ids().filter(|it| it.1.kind.has_cover()) {
            self.does(Action::RemoveCover { location: place.id.clone() })?;
            let work = self.attempt.work();
            let ends = work.ends_at(id).filter(|it| work.terminal_of(*it).is_some());
            let ends: Vec<String> = ends.map(|it| work.end_address(it)).collect();
            for end in ends {
                self.does(Action::Tug { end })?;
            }
            for (at, what) in due.iter().filter(|it| it.0.location(&exercise) == Some(id)) {
                self.does(Action::Observe { at: at.address(&exercise), what: *what })?;
            }
            self.does(Action::FitCover { location: place.id.clone() })?;
        }
        // What is wrong with a lamp's or a board's own terminals, or with no one place.
        let has_cover = |it: &_| exercise.locations[*it].kind.has_cover();
        for (at, what) in due.iter().filter(|it| !it.0.location(&exercise).as_ref().is_some_and(has_cover)) {
            self.does(Action::Observe { at: at.address(&exercise), what: *what })?;
        }
        Ok(())
    }
}
