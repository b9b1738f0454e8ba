//! Whether answers may be shown: findings, marks, hints, lamp tables, where current goes.
//!
//! Set work keeps them until it is handed in, so that a learner works it out and not the program. This one place decides, and everything
//! that shows an answer asks it. Whoever builds the program can pass it: the marker and the attempt's file are open.

use crate::{
    attempt::{Attempt, Mode},
    exercise::Exercise,
};

/// Whether the answers of an attempt may be shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answers {
    /// Yes: it is free practice, or it was handed in.
    Shown,
    /// Set work that is not handed in, shown because it was asked for: whatever shows the answers says so.
    ShownEarly,
    /// Set work that is not handed in.
    Withheld,
}

/// Decides whether answers may be shown. `asked`: they are wanted before the hand-in.
pub fn answers(attempt: &Attempt, mode: Mode, asked: bool) -> Answers {
    match (mode, attempt.tally().handed_in) {
        (Mode::Practice, _) | (Mode::Set, true) => Answers::Shown,
        (Mode::Set, false) if asked => Answers::ShownEarly,
        (Mode::Set, false) => Answers::Withheld,
    }
}

/// Whether a hint may be asked for: always in free practice, and in set work where the exercise allows it, at a price in marks or free.
pub fn may_hint(exercise: &Exercise, mode: Mode) -> bool {
    mode == Mode::Practice || exercise.hints || exercise.weights.hints > 0
}
