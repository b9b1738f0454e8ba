//! Whether the exercise of an attempt is what the scenario at hand gives: said, and never a reason to refuse it.

use super::{tables::Exercise, variant::Template};

/// The exercise of an attempt beside the scenarios at hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, strum::VariantNames, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case")]
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
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The word for machines.
    pub fn word(self) -> &'static str {
        self.into()
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
