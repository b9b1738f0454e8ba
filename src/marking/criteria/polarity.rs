//! Polarity: are line and neutral where they belong, in every position and case?
//!
//! Asked for in every exercise. 15 of 100 unless the scenario says (common practice, no source). BS 7671 643.6 makes it a test of
//! its own.

use super::Judged;
use crate::marking::code::Criterion;

pub(super) const JUDGED: Judged =
    Judged { criterion: Criterion::Polarity, is_asked: |_| true, weight: |it| it.polarity, is_workmanship: true };
