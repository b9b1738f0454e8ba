//! Test results: are the figures on the sheet those that were read, from tests made in order, and judged rightly?
//!
//! Asked for where a stage is a test that has a line on the test sheet, or the inspection, and the scenario gives it marks; none
//! unless it does.

use super::Judged;
use crate::{marking::code::Criterion, marking::rules::is_test};

pub(super) const JUDGED: Judged = Judged {
    criterion: Criterion::TestResults,
    is_asked: |it| it.stages.iter().any(|stage| is_test(it, *stage)),
    weight: |it| it.test_results,
    is_workmanship: false,
};
