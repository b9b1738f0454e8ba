//! What a place lacks of being proved dead, the first thing first.

use strum::{EnumIter, IntoStaticStr};

use super::{Safety, Work};
use crate::{
    attempt::probing::{DeadStep, steps_left},
    exercise::LocationId,
};

/// What was still to be done when a hand went to a place that was not proved dead.
#[derive(Debug, Clone, Copy, PartialEq, Eq, IntoStaticStr, EnumIter)]
#[strum(serialize_all = "kebab-case")]
pub enum ProofGap {
    /// Not every device that feeds it was named, or shown to feed it.
    Unidentified,
    /// Switching off was not agreed.
    Unagreed,
    /// A device that feeds it, or what stands in front of everything, is not off and locked.
    Unlocked,
    /// The indicator in hand failed its proof.
    IndicatorFailed,
    /// No earth was shown there that the tests could be made against.
    EarthUnshown,
    /// The indicator was not proved before the tests.
    IndicatorUnproved,
    /// Dead tests are still to be made.
    Untested,
    /// Dead tests are still to be made with switches set another way.
    OtherPositions,
    /// The indicator was not proved again after the tests.
    NotProvedAgain,
    /// The learner has not said that it is dead.
    Unsaid,
}

impl ProofGap {
    /// The word by which the catalogue knows it.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

impl Safety {
    /// The first open place of the learner's that is not proved dead, and what it lacks.
    pub(in crate::attempt) fn open_gap(&self, work: &Work) -> Option<(LocationId, ProofGap)> {
        let places = work.exercise().learners_places();
        let mut open = places.into_iter().filter(|it| !work.has_cover(*it) || !work.is_covered(*it));
        open.find_map(|it| self.proof_gap(work, it).map(|gap| (it, gap)))
    }

    /// The first thing that a place lacks of being proved dead; `None` where it is proved.
    pub fn proof_gap(&self, work: &Work, place: LocationId) -> Option<ProofGap> {
        if self.is_all_proved(work, place) {
            return None;
        }
        if let Some(gap) = self.unprepared(work, place) {
            return Some(gap);
        }
        if !self.indicator.is_sound() && self.indicator_failed {
            return Some(ProofGap::IndicatorFailed);
        }
        let steps = steps_left(work, self, place);
        let mut tests = steps.iter().filter_map(|it| if let DeadStep::Touch(test) = it { Some(test) } else { None });
        Some(match steps.first()? {
            DeadStep::Show { .. } => ProofGap::EarthUnshown,
            DeadStep::Prove if tests.next().is_none() => ProofGap::NotProvedAgain,
            DeadStep::Prove => ProofGap::IndicatorUnproved,
            DeadStep::Conclude => ProofGap::Unsaid,
            DeadStep::Park(_) | DeadStep::Unpark | DeadStep::Touch(_) => {
                let here = tests.any(|it| it.positions == work.positions());
                if here { ProofGap::Untested } else { ProofGap::OtherPositions }
            }
        })
    }
}
