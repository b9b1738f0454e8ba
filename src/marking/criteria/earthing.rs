//! Earthing: is everything earthed that must be, and would a device open in time?
//!
//! Asked for in every exercise. 15 of 100 unless the scenario says, as much as polarity (common practice, no source).

use super::Judged;
use crate::marking::code::Criterion;

pub(super) const JUDGED: Judged =
    Judged { criterion: Criterion::Earthing, is_asked: |_| true, weight: |it| it.earthing, is_workmanship: true };
