//! Hints: was it done without asking for one?
//!
//! Asked for where the scenario gives it marks: none unless it does, since asking is a good way to learn. The sheet says how many
//! were asked for all the same. The weight is meant to be small (an assumption of ours).

use super::Judged;
use crate::marking::code::Criterion;

pub(super) const JUDGED: Judged =
    Judged { criterion: Criterion::Hints, is_asked: |_| true, weight: |it| it.hints, is_workmanship: false };
