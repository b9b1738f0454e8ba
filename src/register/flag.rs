//! What is to be said of a file that was handed in, in order of gravity.

use serde::{Deserialize, Serialize};

/// What is to be said of a file. It judges nobody: a reason may be found for each.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Serialize,
    Deserialize,
    strum::IntoStaticStr,
    strum::VariantArray,
)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum Flag {
    /// It can't be read as an attempt.
    Unreadable,
    /// Its end is missing: its last line is only half there, and it was not handed in before that.
    CutOff,
    /// It was changed after it was written: its chain of sums is broken.
    Changed,
    /// It is of another assignment, or of none.
    OtherAssignment,
    /// The assignment has no learner of its number.
    NoSuchLearner,
    /// The assignment has no such exercise.
    WrongExercise,
    /// Its exercise was not drawn from its learner's seed.
    WrongSeed,
    /// Its exercise is not what its seed gives.
    ExerciseChanged,
    /// Its code is not one of its learner's.
    BadCode,
    /// It was done in free practice.
    Practice,
    /// It is not handed in.
    NotHandedIn,
    /// There is another copy of it.
    Duplicate,
    /// Another file, handed in before it, says that it is the same try.
    SameTry,
    /// It is one try more than there are, by its own number or by those that were handed in before it.
    TooManyTries,
    /// It was handed in after the last date.
    AfterLast,
    /// It was handed in after it was due.
    Late,
    /// It was begun before the assignment opens.
    BeforeOpens,
    /// No time can be read in it.
    NoTime,
    /// It was begun with another version of the assignment's file.
    OtherFile,
    /// It was begun under another version of the marking.
    OtherVersion,
    /// Its name is that of another learner's file.
    OtherName,
    /// Its learner was handed a code.
    Adjusted,
    /// Its times run backwards.
    TimesBackwards,
    /// Its times are all alike.
    TimesAlike,
    /// It went quicker than any hand works.
    TimesTooQuick,
}

words!(Flag);

impl Flag {
    /// Whether what was given to review was wrong: it does not belong to the assignment, or is not as it was written.
    pub fn is_wrong_input(self) -> bool {
        self <= Self::BadCode
    }

    /// Whether a file that has it does not count.
    pub fn bars(self) -> bool {
        self <= Self::AfterLast && self != Self::SameTry
    }

    /// Whether a tutor should look at a file that has it: what was wrong, a copy, a second file of one try, another's name.
    pub fn asks_for_a_look(self) -> bool {
        self.is_wrong_input() || matches!(self, Self::Duplicate | Self::SameTry | Self::OtherName)
    }
}
