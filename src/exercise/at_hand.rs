//! Whether the exercise of an attempt is what the scenario at hand gives: said, and never a reason to refuse it.

use super::{plan::Exercise, variant::Template};

/// The exercise of an attempt beside the scenarios at hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AtHand {
    /// The scenario of that id gives this exercise for this seed.
    Same,
    /// It gives another: somebody has changed one or the other.
    Different,
    /// No scenario of that id is at hand, so that nothing can be told.
    Unknown,
}

impl AtHand {
    /// Every value.
    pub const ALL: [Self; 3] = [Self::Same, Self::Different, Self::Unknown];

    /// The word for machines.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Same => "same",
            Self::Different => "different",
            Self::Unknown => "unknown",
        }
    }

    /// Looks an exercise up among scenarios.
    pub fn of(exercise: &Exercise, scenarios: &[Template<'_>]) -> Self {
        match scenarios.iter().find(|it| it.id() == exercise.id) {
            None => Self::Unknown,
            Some(it) if it.draws(exercise) => Self::Same,
            Some(_) => Self::Different,
        }
    }
}
