//! The cables of runs: the least on offer with the cores that the lights need, more where the sheet says so, and the reason that holds.

use super::{Lacks, Solver};
use crate::{
    circuit::cores_needed,
    exercise::{Exercise, Offer},
    marking::{Code, Sheet},
    work::{Action, Reason, Subject},
};

/// What is chosen for each run.
pub(super) type RunChoices = Vec<RunChoice>;

/// The offers that would do for a run by their cores, the least first; which of them is taken, and the reason given.
#[derive(Debug, Clone)]
pub(super) struct RunChoice {
    offers: Vec<Offer>,
    taken: usize,
    reason: usize,
}

/// The least of each.
pub(super) fn first(exercise: &Exercise) -> RunChoices {
    let of = |(run, it): (usize, &crate::exercise::Run)| {
        let needed = cores_needed(exercise, run);
        let mut offers = it.offers.clone();
        offers.retain(|it| needed.is_enough(it.kind.insulated()));
        offers.sort_by_key(|it| (it.kind.insulated(), it.live));
        RunChoice { offers, taken: 0, reason: 0 }
    };
    exercise.runs.iter().enumerate().map(of).collect()
}

/// The choices with the next cable, or the next reason, for each run of which the sheet says that its own is wrong; `None` where it says so
/// of none, or there is no other.
pub(super) fn better(sheet: &Sheet, chosen: &RunChoices) -> Option<RunChoices> {
    let mut next = chosen.clone();
    let mut is_other = false;
    for it in &sheet.findings {
        let Subject::Run(run) = it.at else { continue };
        let Some(choice) = next.get_mut(run) else { continue };
        match it.code {
            Code::CableThin | Code::VoltDrop if choice.taken + 1 < choice.offers.len() => {
                (choice.taken, choice.reason) = (choice.taken + 1, 0);
            }
            Code::ReasonWrong if choice.reason + 1 < Reason::ALL.len() => choice.reason += 1,
            _ => continue,
        }
        is_other = true;
    }
    is_other.then_some(next)
}

impl Solver {
    /// Chooses a cable for each run.
    pub(super) fn chooses(&mut self, choices: &RunChoices) -> Result<(), Lacks> {
        let exercise = self.exercise();
        for (run, choice) in choices.iter().enumerate() {
            let offer = choice.offers.get(choice.taken).ok_or(Lacks::Cable(run))?;
            let reason = Reason::ALL.get(choice.reason).copied().unwrap_or(Reason::Any);
            let cable = exercise.runs[run].id.clone();
            self.does(Action::Choose { cable, kind: offer.kind, mm2: offer.live, reason })?;
        }
        Ok(())
    }
}
