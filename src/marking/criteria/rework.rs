//! Rework: was it right the first time, or redone after a failed test or a trip?
//!
//! Asked for where the scenario gives it marks: none unless it does, since putting right what a test finds is good practice, and the
//! fault costs its own marks if it stays. The weight is meant to be small (an assumption of ours).

use super::Judged;
use crate::marking::code::Criterion;

pub(super) const JUDGED: Judged =
    Judged { criterion: Criterion::Rework, is_asked: |_| true, weight: |it| it.rework, is_workmanship: false };
