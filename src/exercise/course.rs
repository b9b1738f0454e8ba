//! Where an exercise stands in a course of learning: for those who choose one. Nothing of it reaches the exercise as drawn.

use serde::{Deserialize, Serialize};

use super::file::Stage;

/// A step of the course, in three bands: A, what a level 2 course covers; B, level 3; C, beyond.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    strum::IntoStaticStr,
    strum::VariantArray,
)]
pub enum CourseStep {
    /// First terminals and colours.
    A1,
    /// One box or one rose.
    A2,
    /// One light, from its switch or switches.
    A3,
    /// More cables in a box, more lights, a second switch.
    A4,
    /// Three switches, and changes to what is there.
    A5,
    /// Kitchens, bathrooms, outdoors, and what a circuit's figures say.
    A6,
    /// Made off and tested.
    B6,
    /// Faults that take several tests.
    B7,
    /// Cables chosen, other supplies.
    B8,
    /// Whole jobs with their records.
    B9,
    /// All of it at once.
    C10,
}

impl CourseStep {
    /// Every step, in its order.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// As it is written: `A3`.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// Its number, 1 to 10; step 6 has a part in two bands.
    pub const fn number(self) -> u32 {
        match self {
            Self::A1 => 1,
            Self::A2 => 2,
            Self::A3 => 3,
            Self::A4 => 4,
            Self::A5 => 5,
            Self::A6 | Self::B6 => 6,
            Self::B7 => 7,
            Self::B8 => 8,
            Self::B9 => 9,
            Self::C10 => 10,
        }
    }
}

/// What a learner does in an exercise, in the main.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    strum::IntoStaticStr,
    strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum ExerciseKind {
    /// Connects it up.
    Wire,
    /// Does the part that is left.
    Complete,
    /// Finds out which is which.
    Identify,
    /// Says what wiring that is given will do.
    Predict,
    /// Makes one thing of another.
    Alter,
    /// Lists what is wrong with a job.
    Inspect,
    /// Finds a hidden fault.
    Find,
}

impl ExerciseKind {
    /// Every kind.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The word by which the catalogue of sentences knows it.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// The stage without which there is no exercise of this kind.
    pub(super) const fn needs(self) -> Option<Stage> {
        match self {
            Self::Wire | Self::Complete | Self::Alter => None,
            Self::Identify => Some(Stage::Naming),
            Self::Predict => Some(Stage::Prediction),
            Self::Inspect => Some(Stage::Observations),
            Self::Find => Some(Stage::Diagnosis),
        }
    }
}

/// The place of an exercise in the course.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CoursePlace {
    /// At which step.
    pub step: CourseStep,
    /// What is done in it.
    pub kind: ExerciseKind,
    /// Minutes that a learner at that step should need, 1 to 240: the author's own estimate.
    pub minutes: u32,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn steps_are_numbered_in_their_order() {
        let numbers: Vec<u32> = CourseStep::ALL.iter().map(|it| it.number()).collect();
        assert_eq!(numbers, [1, 2, 3, 4, 5, 6, 6, 7, 8, 9, 10]);
        assert!(CourseStep::ALL.is_sorted());
    }
}
