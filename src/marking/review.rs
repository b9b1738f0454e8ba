//! What a report says beside the sheet. It is dear, and made for one attempt at a time; marks never depend on it.

use super::{
    arose::arose,
    consequence::{Consequence, consequence},
    sheet::Sheet,
    well::{Well, done_well},
};
use crate::work::Attempt;

/// A sheet looked at again, for a person.
#[derive(Debug, Clone, PartialEq)]
pub struct Review {
    /// For each finding of the sheet the action, from 0, with which it arose.
    pub arose: Vec<Option<usize>>,
    /// For each finding that is a cause what would have happened.
    pub would_have: Vec<Option<Consequence>>,
    /// What was done well.
    pub well: Vec<Well>,
}

/// Looks an attempt and its sheet over once more.
pub fn review(attempt: &Attempt, sheet: &Sheet) -> Review {
    Review {
        arose: arose(attempt, sheet),
        would_have: (0..sheet.findings.len()).map(|it| consequence(attempt, sheet, it)).collect(),
        well: done_well(attempt, sheet),
    }
}
