//! Whether answers may be shown: findings, marks, hints, lamp tables, where current goes.
//!
//! Set work keeps them until it is handed in, so that a learner works it out and not the program; an assignment may keep them for longer, so
//! that nobody hands them on to those who are still at work. This one place decides, and everything that shows an answer asks it. It keeps nobody
//! out who builds the program: the marker and the attempt's file are open.

use jiff::Timestamp;

use crate::{
    attempt::{AnswersFrom, Assigned, Attempt, Mode},
    exercise::Exercise,
};

/// Whether the answers of an attempt may be shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Answers {
    /// Yes: it is free practice, or it was handed in and nothing keeps them any longer.
    Shown,
    /// Not yet, and shown because that was asked for: whatever shows the answers says so.
    ShownEarly(Until),
    /// Not yet.
    Withheld(Until),
}

/// What ends the withholding of answers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Until {
    /// The hand-in.
    HandIn,
    /// This time, as the file has it.
    Time(String),
    /// The tutor, who releases them.
    Release,
}

/// Decides whether answers may be shown, by what the attempt's first line says and the time that it is. `now`: where nobody knows, no time
/// has come. `asked`: they are wanted all the same.
pub fn answers(
    attempt: &Attempt,
    mode: Mode,
    assigned: Option<&Assigned>,
    now: Option<Timestamp>,
    asked: bool,
) -> Answers {
    let until = match mode {
        Mode::Practice => None,
        Mode::Set if !attempt.tally().handed_in => Some(Until::HandIn),
        Mode::Set => assigned.and_then(|it| kept_by(&it.answers, now)),
    };
    match until {
        None => Answers::Shown,
        Some(it) if asked => Answers::ShownEarly(it),
        Some(it) => Answers::Withheld(it),
    }
}

/// What still keeps the answers of work that is handed in.
fn kept_by(from: &AnswersFrom, now: Option<Timestamp>) -> Option<Until> {
    match from {
        AnswersFrom::HandIn => None,
        AnswersFrom::Time(written) => {
            let has_come = from.time().zip(now).is_some_and(|(from, now)| now >= from);
            (!has_come).then(|| Until::Time(written.clone()))
        }
        AnswersFrom::Release => Some(Until::Release),
    }
}

/// Whether a hint may be asked for: always in free practice, and in set work where the exercise allows it, at a price in marks or free.
pub fn may_hint(exercise: &Exercise, mode: Mode) -> bool {
    mode == Mode::Practice || exercise.hints || exercise.weights.hints > 0
}
