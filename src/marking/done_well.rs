//! What was done well: criteria with nothing lost, and acts that were right.

use super::{
    code::{Criterion, Weight},
    finding::{Root, Seen},
    outcome::Outcome,
    sheet::Sheet,
};
use crate::{attempt::Attempt, exercise::Stage, work::Work};

/// Something that was done well.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Well {
    /// Every mark was earned under a criterion, with not even advice given.
    Criterion(Criterion),
    /// Isolated, locked off and proved dead before anything was touched, with no unsafe act.
    ProvedDead,
    /// Something that was wrong before the work began was reported.
    FaultReported,
    /// The power came on and no device opened, and nothing critical stands.
    NothingOpened,
    /// Every prediction was made before the power came on and came true.
    Foreseen,
}

impl Well {
    /// The word in reports and in the catalogue.
    pub fn word(self) -> &'static str {
        match self {
            Self::Criterion(it) => it.word(),
            Self::ProvedDead => "proved-dead",
            Self::FaultReported => "fault-reported",
            Self::NothingOpened => "nothing-opened",
            Self::Foreseen => "foreseen",
        }
    }

    /// The heading under which it praises.
    pub const fn criterion(self) -> Criterion {
        match self {
            Self::Criterion(it) => it,
            Self::ProvedDead | Self::FaultReported | Self::NothingOpened => Criterion::SafeWorking,
            Self::Foreseen => Criterion::Prediction,
        }
    }

    /// Every word, for the schema and for the tests that walk it.
    pub fn words() -> Vec<&'static str> {
        let more = [Self::ProvedDead, Self::FaultReported, Self::NothingOpened, Self::Foreseen];
        Criterion::ALL.iter().copied().map(Self::Criterion).chain(more).map(Self::word).collect()
    }
}

/// Whether no act was stopped: only then may anything be said to have been done safely.
pub fn was_safe(attempt: &Attempt) -> bool {
    attempt.tally().acts.is_empty()
}

/// Whether an end that the learner had to do with is in no terminal, whatever it is found for. A scrap in the box is no end.
fn has_free_end(work: &Work) -> bool {
    work.ends().any(|it| !work.is_undisturbed(it) && !work.is_landed(it) && !work.is_scrap(it.conductor()))
}

/// What was done well: criteria in the order of the sheet, then acts. Criteria are named in whole work that was handed in;
/// one under which anything was found, even a consequence or advice, is not. Nothing is praised under a heading in
/// which marks were lost, and nothing is called safe when an act was stopped.
pub fn done_well(attempt: &Attempt, sheet: &Sheet) -> Vec<Well> {
    let mut well = Vec::new();
    let own = || sheet.findings.iter().filter(|it| !it.before);
    // Whatever its criterion, an earth or a disconnection may rely on what a critical finding is about; and a core that
    // it is about is neither where it belongs nor marked for what it is.
    let critical = own().any(|it| it.weight == Weight::Critical && !matches!(it.seen, Seen::InAction(_)));
    let untouched = |it: Criterion| {
        let touched = own()
            .any(|finding| finding.code.criterion() == it || finding.root == Root::Itself && finding.charged == it);
        let of_cores = matches!(it, Criterion::Polarity | Criterion::Earthing | Criterion::Identification);
        let doubtful = of_cores && critical;
        let free = it == Criterion::Terminations && has_free_end(attempt.work());
        !touched && !doubtful && !free && (it != Criterion::SafeWorking || was_safe(attempt))
    };
    if sheet.handed_in && sheet.credited_percent == 100 {
        let full = sheet.criteria.iter().filter(|it| it.out_of > 0 && it.marks == it.out_of && untouched(it.criterion));
        // The prediction is praised as the act that it is.
        well.extend(full.map(|it| it.criterion).filter(|it| *it != Criterion::Prediction).map(Well::Criterion));
    }
    let (exercise, tally) = (attempt.work().exercise(), attempt.tally());
    let worked = attempt.log().iter().any(crate::work::Action::is_handwork);
    if exercise.asks(Stage::Isolation) && worked && was_safe(attempt) {
        well.push(Well::ProvedDead);
    }
    if sheet.told {
        well.push(Well::FaultReported);
    }
    if !tally.energised.is_empty()
        && tally.energised.iter().all(|it| it.tripped.is_empty())
        && sheet.outcome != Outcome::Refer
    {
        well.push(Well::NothingOpened);
    }
    let prediction = sheet.criteria.iter().find(|it| it.criterion == Criterion::Prediction && it.out_of > 0);
    let acted = !tally.predictions.is_empty()
        && sheet.findings.iter().all(
            |finding| !matches!(finding.seen, Seen::InAction(at) if tally.predictions.iter().any(|it| it.action == at)),
        );
    if prediction.is_some_and(|it| it.marks == it.out_of) && acted {
        well.push(Well::Foreseen);
    }
    let has_lost = |of: Criterion| sheet.criteria.iter().any(|it| it.criterion == of && it.marks < it.out_of);
    well.retain(|it| !has_lost(it.criterion()));
    well
}
