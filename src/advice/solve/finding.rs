//! A hidden fault found: every place is opened, and the best reading is taken until a single fault is left.

use super::{Lacks, Solver};
use crate::{
    reason::{Bits, FaultSearch, SolveBudget, TrialReading, best_reading, settings_to_read_in},
    work::Action,
};

impl Solver {
    /// Reads until no reading would tell anything new, and names what is left.
    pub(super) fn diagnoses(&mut self) -> Result<(), Lacks> {
        let exercise = self.exercise();
        self.opens_or_closes(true)?;
        loop {
            let left = FaultSearch::of(&self.attempt).left;
            let Some((setting, reading)) = self.best_of_all_settings(&left)? else {
                let Some(named) = left.first().and_then(|it| exercise.suspects.get(*it)) else { break };
                self.does(Action::Diagnose { what: named.kind, at: named.at.clone() })?;
                break;
            };
            self.sets(&setting)?;
            self.does(reading.action)?;
        }
        self.opens_or_closes(false)
    }

    /// Takes covers off and lamps out, or puts them back.
    fn opens_or_closes(&mut self, open: bool) -> Result<(), Lacks> {
        let exercise = self.exercise();
        for (id, place) in exercise.locations.with_ids() {
            let at = place.id.clone();
            let action = match (exercise.lamp_at(id).is_some(), open) {
                (true, true) => Action::RemoveLamp { lamp: at },
                (true, false) => Action::FitLamp { lamp: at },
                (false, true) => Action::RemoveCover { location: at },
                (false, false) => Action::FitCover { location: at },
            };
            if self.attempt.can(&action) {
                self.does(action)?;
            }
        }
        Ok(())
    }

    /// The reading that tells most, with the setting of the switches that it is taken in: the present one first.
    fn best_of_all_settings(&mut self, left: &[usize]) -> Result<Option<(Vec<u8>, TrialReading)>, Lacks> {
        let exercise = self.exercise();
        let now = self.attempt.work().positions().to_vec();
        let mut best: Option<(Vec<u8>, TrialReading)> = None;
        let mut budget = SolveBudget::default();
        for setting in std::iter::once(now.clone()).chain(settings_to_read_in(&exercise)) {
            let mut tried = Self { attempt: self.attempt.clone() };
            tried.sets(&setting)?;
            let worth = |best: &Option<(Vec<u8>, TrialReading)>| best.as_ref().map_or(Bits(0), |it| it.1.worth);
            let found = best_reading(&tried.attempt, left, &mut budget);
            if let Some(it) = found.filter(|it| it.worth > worth(&best)) {
                best = Some((setting, it));
            }
        }
        Ok(best)
    }
}
