//! What was done well: criteria with nothing lost, and acts that were right.
//!
//! Read off the sheet and the log; it earns nothing. Work that was hardly begun has nothing said of it.

use super::{
    code::{Code, Criterion},
    sheet::Sheet,
};
use crate::{
    exercise::Stage,
    work::{Action, Attempt, Work},
};

/// Something done well.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Well {
    /// A criterion that lost nothing.
    Whole(Criterion),
    /// Locked off before the first dead test, and nothing opened before the lock.
    LockedFirst,
    /// Every place of the work proved dead, the indicator proved before and after.
    ProvedTwice,
    /// Nothing touched, opened or switched on that must not be.
    NothingUnsafe,
    /// The energising checks made, and nothing switched on before them.
    Checked,
    /// The power held from the first time on.
    HeldAtOnce,
    /// Every conductor that the learner connected was pulled.
    Pulled,
    /// What was wrong before was said.
    Reported,
}

impl Well {
    /// The word in reports.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Whole(it) => it.word(),
            Self::LockedFirst => "locked-first",
            Self::ProvedTwice => "proved-twice",
            Self::NothingUnsafe => "nothing-unsafe",
            Self::Checked => "checked",
            Self::HeldAtOnce => "held-at-once",
            Self::Pulled => "pulled",
            Self::Reported => "reported",
        }
    }
}

/// What was done well in an attempt with this sheet.
pub fn done_well(attempt: &Attempt, sheet: &Sheet) -> Vec<Well> {
    let (work, tally, safety, log) = (attempt.work(), attempt.tally(), attempt.safety(), attempt.log());
    let exercise = work.exercise();
    let found = |code: Code| sheet.findings.iter().any(|it| it.code == code);
    let first = |wanted: fn(&Action) -> bool| log.iter().position(wanted);
    let whole = sheet.criteria.iter().filter(|it| sheet.credited_percent == 100 && it.marks == it.out_of);
    let mut well: Vec<Well> = whole.map(|it| Well::Whole(it.criterion)).collect();
    let lock = first(|it| matches!(it, Action::LockOff { .. }));
    let test = first(|it| matches!(it, Action::TestDead { .. }));
    let worked = first(|it| matches!(it, Action::Connect { .. })).is_some();
    let acts = [
        (Well::LockedFirst, lock.zip(test).is_some_and(|(lock, test)| lock < test) && !found(Code::OpenedUnlocked)),
        (Well::ProvedTwice, exercise.asks(Stage::Isolation) && worked && safety.is_done(exercise, Stage::Isolation)),
        (Well::NothingUnsafe, worked && tally.acts.is_empty()),
        (Well::Checked, exercise.asks(Stage::EnergisingChecks) && switched_on(log) && !found(Code::PowerOnUnchecked)),
        (Well::HeldAtOnce, !tally.energised.is_empty() && tally.energised.iter().all(|it| it.tripped.is_empty())),
        (Well::Pulled, worked && all_pulled(work, log)),
        (Well::Reported, log.iter().any(|it| matches!(it, Action::Report { .. })) && !found(Code::FaultUnreported)),
    ];
    well.extend(acts.into_iter().filter(|it| it.1).map(|it| it.0));
    well
}

fn switched_on(log: &[Action]) -> bool {
    log.iter().any(|it| matches!(it, Action::PowerOn { .. }))
}

/// Whether each end that stands in a terminal by the learner's hand was pulled since it was put there.
fn all_pulled(work: &Work, log: &[Action]) -> bool {
    let mut ends = work.ends().filter(|it| !work.is_undisturbed(*it) && work.terminal_of(*it).is_some());
    ends.all(|end| {
        let address = work.end_address(end);
        let put = log.iter().rposition(|it| matches!(it, Action::Connect { end, .. } if *end == address));
        let pulled = log.iter().rposition(|it| matches!(it, Action::Tug { end } if *end == address));
        pulled > put
    })
}
