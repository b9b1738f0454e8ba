//! Identification: does every end say by its colour or mark what it is?
//!
//! Asked for in every exercise. 10 of 100 unless the scenario says (common practice, no source).

use super::Judged;
use crate::marking::code::Criterion;

pub(super) const JUDGED: Judged = Judged {
    criterion: Criterion::Identification,
    is_asked: |_| true,
    weight: |it| it.identification,
    is_workmanship: true,
};
