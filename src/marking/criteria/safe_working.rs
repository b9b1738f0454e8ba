//! Safe working: was it done in the safe order, and nothing touched or switched on that must not be?
//!
//! Asked for in every exercise: live working is marked even where no isolation is set as a stage. 20 of 100 unless the scenario says
//! (common practice, no source).

use super::Judged;
use crate::marking::code::Criterion;

pub(super) const JUDGED: Judged = Judged {
    criterion: Criterion::SafeWorking,
    is_asked: |_| true,
    weight: |it| it.safe_working,
    is_workmanship: false,
};
