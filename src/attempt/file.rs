//! An attempt as text: one RON value a line.
//!
//! Line 1 is the [`Header`], line 2 the exercise as drawn with its SHA-256, then one action a line. A line counts when it
//! ends in a newline; from format 2 on it also ends with a sum ([`Chain`]). This room only reads and writes text; the
//! binary's journal keeps the file.

mod chain;
mod reading;
mod stranger;

use std::{ops::Range, sync::Arc};

use jiff::{SignedDuration, Timestamp};
use ron::value::RawValue;
use serde::{Deserialize, Serialize};

use super::{format::Format, log::Attempt};
use crate::{
    exercise::{Exercise, Problem, ProblemCode, Problems},
    work::{Action, Refused},
};
pub use chain::{Chain, sha256};
pub use reading::{ReadBefore, action_form, assigned_of, learner_of, open, open_again, open_for_states, parse_action};
pub use stranger::{Stranger, stranger};

/// How the attempt counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Mode {
    /// Set work: a critical act refers it.
    Set,
    /// Free practice: a critical act warns and is counted.
    Practice,
}

/// The first line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(rename = "Attempt")]
pub struct Header {
    /// Format of the file.
    pub format: Format,
    /// Version of the marking when it was made.
    pub marking: u32,
    /// The scenario's id.
    pub scenario: String,
    /// The seed the exercise was drawn from.
    pub seed: u64,
    /// Who did it.
    pub learner: String,
    /// Wall time at the start, as the binary wrote it.
    pub started: String,
    /// Set work or free practice.
    pub mode: Mode,
    /// The assignment that it was set by, if it was set by a file.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub assigned: Option<Assigned>,
}

/// Which piece of set work an attempt is: no name stands in it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Assigned {
    /// Id of the assignment.
    pub assignment: String,
    /// Digest of its file, 64 hexadecimal digits.
    pub sha256: String,
    /// The learner's number on its roster.
    pub learner: u64,
    /// Which try of this learner's it is at this exercise, from 1.
    #[serde(rename = "try")]
    pub nth: u32,
    /// The code that the learner was handed for an adjustment; empty: none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub code: String,
    /// From when on its answers are for the learner. A file from before this was kept says nothing: at the hand-in.
    #[serde(default, skip_serializing_if = "AnswersFrom::is_hand_in")]
    pub answers: AnswersFrom,
}

/// From when on the answers of set work are for its learner: findings, marks, lamp tables, drawings.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum AnswersFrom {
    /// From the hand-in.
    #[default]
    HandIn,
    /// From this time on, in ISO 8601 with its offset from UTC, once it is handed in.
    Time(String),
    /// From when the tutor releases them.
    Release,
}

impl AnswersFrom {
    /// The instant, if one is named.
    pub fn time(&self) -> Option<Timestamp> {
        match self {
            // No more digits than a nanosecond takes.
            Self::Time(it) if it.len() <= TIME_BYTES => it.parse().ok(),
            _ => None,
        }
    }

    fn is_hand_in(&self) -> bool {
        *self == Self::HandIn
    }
}

/// Most bytes of a time as it is written.
const TIME_BYTES: usize = 40;

impl Header {
    /// A header in the newest format.
    pub fn new(marking: u32, exercise: &Exercise, learner: String, started: String, mode: Mode) -> Self {
        let scenario = exercise.id.clone();
        Self {
            format: Format::NEWEST,
            marking,
            scenario,
            seed: exercise.seed.0,
            learner,
            started,
            mode,
            assigned: None,
        }
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Drawn")]
struct Drawn<'a> {
    sha256: String,
    #[serde(borrow)]
    exercise: &'a RawValue,
}

/// A line after the second.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Line {
    /// An action, with milliseconds since the file was last opened.
    Did {
        /// Milliseconds.
        ms: u64,
        /// What was done.
        action: Action,
    },
    /// The file was opened again.
    Opened {
        /// Wall time.
        at: String,
    },
}

/// An attempt as read.
#[derive(Debug, Clone)]
pub struct Opened {
    /// Its first line.
    pub header: Header,
    /// Its exercise.
    pub exercise: Arc<Exercise>,
    /// The lines after that, each with its place in the text.
    pub lines: Vec<(Range<usize>, Line)>,
    /// How far the chain of sums has got: what the next line continues from.
    pub chain: Chain,
    /// Bytes up to the end of the last whole line.
    pub whole: usize,
    /// Bytes after that, which do not count.
    pub cut_off: usize,
}

/// The first two lines of a new file, to be sealed by a [`Chain`].
///
/// # Errors
/// If RON cannot write it, which does not happen with a checked exercise.
pub fn first_lines(header: &Header, exercise: &Exercise) -> Result<[String; 2], ron::Error> {
    let raw = RawValue::from_ron(exercise.text()).map_err(|err| err.code)?;
    let drawn = Drawn { sha256: sha256(exercise.text().as_bytes()), exercise: raw };
    Ok([ron::ser::to_string(header)?, ron::ser::to_string(&drawn)?])
}

/// The line of an action, to be sealed.
///
/// # Errors
/// What RON could not write.
pub fn action_line(ms: u64, action: &Action) -> Result<String, ron::Error> {
    ron::ser::to_string(&Line::Did { ms, action: action.clone() })
}

/// The line that says the file was opened again, to be sealed.
///
/// # Errors
/// What RON could not write.
pub fn opened_line(at: String) -> Result<String, ron::Error> {
    ron::ser::to_string(&Line::Opened { at })
}

impl Opened {
    /// When each action was done, in milliseconds since the beginning; time with the file shut does not count.
    pub fn times(&self) -> Vec<u64> {
        let (mut before, mut last) = (0_u64, 0_u64);
        let mut times = Vec::new();
        for (_, line) in &self.lines {
            match line {
                Line::Opened { .. } => before = last,
                Line::Did { ms, .. } => {
                    last = before.saturating_add(*ms);
                    times.push(last);
                }
            }
        }
        times
    }

    /// Bytes of the text up to the end of the line that handed it in, its ending included.
    pub fn handed_in_by(&self) -> Option<usize> {
        let hands_in = |line: &Line| matches!(line, Line::Did { action: Action::HandIn, .. });
        let at = self.lines.iter().position(|(_, line)| hands_in(line))?;
        Some(self.lines.get(at + 1).map_or(self.whole, |(next, _)| next.start))
    }

    /// The wall time of the hand-in: that of the last opening before it, and the milliseconds since. `None`: it is not handed in, or
    /// has no time that can be read.
    pub fn handed_in_at(&self) -> Option<Timestamp> {
        let mut from = self.header.started.as_str();
        for (_, line) in &self.lines {
            match line {
                Line::Opened { at } => from = at,
                Line::Did { ms, action: Action::HandIn } => {
                    let (from, after) = (from.parse::<Timestamp>().ok()?, i64::try_from(*ms).ok()?);
                    return from.checked_add(SignedDuration::from_millis(after)).ok();
                }
                Line::Did { .. } => {}
            }
        }
        None
    }

    /// Replays the actions.
    ///
    /// # Errors
    /// The first action that the work does not allow, placed at its line; `expected` is the reason's word.
    pub fn replay(&self) -> Result<Attempt, Problems> {
        let mut attempt = Attempt::in_format(Arc::clone(&self.exercise), self.header.format);
        for (span, line) in &self.lines {
            if let Line::Did { action, .. } = line {
                attempt.act(action.clone()).map_err(|refused| {
                    let found = refused.address().unwrap_or_default().to_owned();
                    let nearest = match &refused {
                        Refused::Unknown { nearest, .. } => nearest.clone(),
                        _ => None,
                    };
                    let problem = Problem::new(ProblemCode::Refused, span.clone(), found, refused.word());
                    Problems::from(Problem { nearest, ..problem })
                })?;
            }
        }
        Ok(attempt)
    }
}
