//! Function: does each lamp do what its switches ask, and each fan?
//!
//! Asked for in every exercise. 25 of 100 unless the scenario says: the most of all, since it is what the customer pays for (common
//! practice, no source). A control that fails costs its share.

use super::Judged;
use crate::marking::code::Criterion;

pub(super) const JUDGED: Judged =
    Judged { criterion: Criterion::Function, is_asked: |_| true, weight: |it| it.function, is_workmanship: false };
