//! Choice of cable: does the cable that was chosen carry its current and keep its voltage, and is the reason given what decides?
//!
//! Asked for where the exercise has a cable to choose. None of 100 unless the scenario says: a line of its own, since a reason is
//! neither work nor a test result, and no other sheet changes by it (common practice, no source).

use super::Judged;
use crate::marking::code::Criterion;

pub(super) const JUDGED: Judged = Judged {
    criterion: Criterion::CableChoice,
    is_asked: |it| !it.runs.is_empty(),
    weight: |it| it.cable_choice,
    is_workmanship: false,
};
