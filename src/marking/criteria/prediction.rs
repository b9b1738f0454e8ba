//! Prediction: did the learner know, before power-on, what would light and what would be live?
//!
//! Asked for where the exercise has that stage. 5 of 100 unless the scenario says (common practice, no source).

use super::Judged;
use crate::{exercise::Stage, marking::code::Criterion};

pub(super) const JUDGED: Judged = Judged {
    criterion: Criterion::Prediction,
    is_asked: |it| it.asks(Stage::Prediction),
    weight: |it| it.prediction,
    is_workmanship: false,
};
