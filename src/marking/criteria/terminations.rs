//! Terminations: is every end in a terminal, well made off, and held?
//!
//! Asked for in every exercise; where the ends come prepared, what is left of it is that they are in and tight. 10 of 100 unless the
//! scenario says (common practice, no source). It was called tightness before ends were made off by hand.

use super::Judged;
use crate::marking::code::Criterion;

pub(super) const JUDGED: Judged = Judged {
    criterion: Criterion::Terminations,
    is_asked: |_| true,
    weight: |it| it.terminations,
    is_workmanship: true,
};
