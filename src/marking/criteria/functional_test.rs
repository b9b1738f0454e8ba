//! Functional test: was every switch worked in every combination that matters, with the power on, last of all?
//!
//! Those are all combinations of the switches of each lamp that the learner wires (`Safety::settings_left`), never those of several
//! lamps multiplied. Asked for where the exercise has that stage and gives it marks; without marks of its own the stage counts
//! under safe working.

use super::Judged;
use crate::{exercise::Stage, marking::code::Criterion};

pub(super) const JUDGED: Judged = Judged {
    criterion: Criterion::FunctionalTest,
    is_asked: |it| it.asks(Stage::FunctionalTest),
    weight: |it| it.functional_test,
    is_workmanship: false,
};
