//! What follows from a stage that keeps the power locked: whoever leaves out a dead test cannot do a live one, and loses marks for
//! the dead one alone. And one piece of work that takes back several tests is one slip.

use super::{causes::PlacedDraft, code::Code, finding::Draft};
use crate::{attempt::Attempt, exercise::Stage, work::Subject};

/// Pairs of a finding and its cause, by their places.
pub(super) fn follow(attempt: &Attempt, placed: &[PlacedDraft]) -> Vec<(usize, usize)> {
    let again = placed.iter().position(|it| it.draft.code == Code::TestNotRepeated);
    let stage = attempt.safety().before_power_on(attempt.work().exercise());
    let locks = |it: &Draft, stage: Stage| match it.code {
        Code::TestNotRepeated => it.at == Subject::Stage(stage),
        Code::TestMissing | Code::TestIncomplete | Code::StageMissing => {
            attempt.tally().energised.is_empty() && it.at == Subject::Stage(stage)
        }
        Code::PredictionMissing => attempt.tally().energised.is_empty() && stage == Stage::Prediction,
        Code::NameMissing => attempt.tally().energised.is_empty() && stage == Stage::Naming,
        _ => false,
    };
    let lock = stage.and_then(|stage| placed.iter().position(|it| locks(&it.draft, stage)));
    let cause = |it: &Draft| match it.code {
        Code::TestNotRepeated => again,
        _ if waits_for_power(it) => lock,
        _ => None,
    };
    let pairs = placed.iter().enumerate().filter_map(|(index, it)| Some((index, cause(&it.draft)?)));
    pairs.filter(|(index, cause)| index != cause).collect()
}

/// Whether a finding is bound to arise while the power is locked.
fn waits_for_power(draft: &Draft) -> bool {
    match draft.code {
        Code::PowerOnUnchecked | Code::FunctionUntested => true,
        Code::TestMissing | Code::TestIncomplete | Code::StageMissing => {
            matches!(draft.at, Subject::Stage(it) if it == Stage::FunctionalTest || it.is_live_test())
        }
        _ => false,
    }
}
