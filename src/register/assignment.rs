//! An assignment: what is set, to whom, when it is due, and how it counts.

use std::fmt;

use jiff::{SignedDuration, Timestamp, fmt::temporal::Pieces};
use serde::{Deserialize, Serialize};

use super::file::{self, AssignmentFile};
use crate::{
    attempt::sha256,
    exercise::{Exercise, Problems, Template},
};

/// Which of several tries counts.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, strum::IntoStaticStr, strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Counts {
    /// The one with the best outcome, then the most marks; of equals the first.
    #[default]
    Best,
    /// The first that was handed in.
    First,
    /// The last that was handed in.
    Last,
}

/// Whether hints may be asked for.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, strum::IntoStaticStr, strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Hints {
    /// No.
    #[default]
    Without,
    /// Yes: they are counted and cost nothing.
    Counted,
    /// Yes: the exercises give marks for doing without.
    Costing,
}

/// When learners are shown marks and findings.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, strum::IntoStaticStr, strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum AnswersShown {
    /// As soon as they have handed in.
    AtOnce,
    /// When the work was due.
    AfterDue,
    /// When the tutor releases them.
    #[default]
    Released,
}

words!(Counts, Hints, AnswersShown);

/// A date and time with its offset from UTC, as somebody wrote it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WallTime {
    written: String,
    at: Timestamp,
}

impl WallTime {
    /// How one is written.
    pub const EXAMPLE: &str = "2026-11-06T17:00:00+00:00";

    /// Reads one, as ISO 8601 and RFC 3339 write it; `None`: it is not written so.
    pub fn of(written: &str) -> Option<Self> {
        // No more digits than a nanosecond takes.
        let at = (written.len() <= 40).then(|| written.parse().ok()).flatten()?;
        Some(Self { written: written.to_owned(), at })
    }

    /// The time that many minutes later, on the same clock; `None`: there is no such time.
    pub fn later(&self, minutes: u32) -> Option<Self> {
        if minutes == 0 {
            return Some(self.clone());
        }
        let at = self.at.checked_add(SignedDuration::from_mins(i64::from(minutes))).ok()?;
        let offset = Pieces::parse(&self.written).ok()?.to_numeric_offset()?;
        Some(Self { written: at.display_with_offset(offset).to_string(), at })
    }

    /// The instant.
    pub const fn at(&self) -> Timestamp {
        self.at
    }
}

impl fmt::Display for WallTime {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.written)
    }
}

/// An exercise of an assignment: the whole scenario, with whatever may vary.
#[derive(Debug)]
pub struct SetExercise {
    /// SHA-256 of its text, 64 hexadecimal digits.
    pub sha256: String,
    /// The scenario.
    pub scenario: Exercise,
}

/// What is set, to whom, and how it counts. It holds no names.
#[derive(Debug)]
pub struct Assignment {
    /// Its id, from which every learner's seed follows.
    pub id: String,
    /// What learners see it called.
    pub title: String,
    /// The group it is set to.
    pub group: String,
    /// From when on it may be begun.
    pub opens: Option<WallTime>,
    /// When it is due: what is handed in later is late.
    pub due: Option<WallTime>,
    /// After which nothing counts.
    pub last: Option<WallTime>,
    /// How many tries a learner has at each exercise, from 1.
    pub tries: u32,
    /// Which of them counts.
    pub counts: Counts,
    /// Whether hints may be asked for.
    pub hints: Hints,
    /// When learners are shown marks and findings.
    pub answers: AnswersShown,
    /// Marks that a pass needs, per cent, instead of what each exercise says.
    pub pass_mark: Option<u32>,
    /// The program that it was made with.
    pub program: String,
    /// The version of the marking that it was made for.
    pub marking: u32,
    /// The roster: learners' numbers, each once.
    pub learners: Vec<u64>,
    /// The exercises, in the order to do them.
    pub exercises: Vec<SetExercise>,
    /// SHA-256 of the file's text, its line endings taken as newlines; 64 hexadecimal digits.
    pub sha256: String,
}

impl Assignment {
    /// Reads an assignment file.
    ///
    /// # Errors
    /// Everything that is wrong with it, each with its place.
    pub fn read(text: &str) -> Result<Self, Problems> {
        file::read(text)
    }

    /// The text of an assignment file, many lines long, to be read by [`Self::read`]. The digests of `self` do not count.
    ///
    /// # Errors
    /// If RON cannot write it, which does not happen with exercises that were checked.
    pub fn text(&self) -> Result<String, ron::Error> {
        let texts: Vec<String> = self.exercises.iter().map(SetExercise::text).collect::<Result<_, _>>()?;
        AssignmentFile::of(self, &texts)?.text()
    }

    /// A template of each exercise, hints and pass mark as the assignment has them.
    pub fn templates(&self) -> Vec<Template<'_>> {
        let hints = self.hints != Hints::Without;
        let read = self.exercises.iter().filter_map(|it| Template::of(&it.scenario));
        read.map(|it| it.set(hints, self.pass_mark)).collect()
    }

    /// Marks that a pass needs at one of its exercises, per cent; `None`: it has no such exercise.
    pub fn pass_mark_of(&self, exercise: &str) -> Option<u32> {
        let set = self.exercises.iter().find(|it| it.scenario.id == exercise)?;
        Some(self.pass_mark.unwrap_or(set.scenario.pass_mark))
    }

    /// Whether a learner is on the roster.
    pub fn has_learner(&self, number: u64) -> bool {
        self.learners.contains(&number)
    }
}

impl SetExercise {
    /// The scenario on one line.
    fn text(&self) -> Result<String, ron::Error> {
        let template = Template::of(&self.scenario);
        template.map_or_else(|| Ok(self.scenario.text().to_owned()), |it| it.text())
    }

    /// An exercise to be set, from its scenario.
    pub fn of(scenario: Exercise) -> Self {
        Self { sha256: sha256(scenario.text().as_bytes()), scenario }
    }
}
