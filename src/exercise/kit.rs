//! What the learner is handed beside the wiring, and how it is: the indicator, and the chart in the board's lid.
//!
//! Facts about things, as drawn from the seed; no answer. All sound unless a scenario says otherwise.

use serde::{Deserialize, Serialize};

/// The condition of the voltage indicator.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Indicator {
    /// Sound.
    #[default]
    Sound,
    /// Its battery is flat.
    Flat,
    /// One of its leads is broken inside.
    LeadBroken,
}

/// Whether the circuit chart in the board's lid is right.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Chart {
    /// As the circuits are.
    #[default]
    Right,
    /// Each circuit stands at another's device.
    Wrong,
}

/// Who sees to the board (the charter, "Levels of board work").
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Keeper {
    /// The learner: switches off, locks, switches on again.
    #[default]
    Learner,
    /// The supervisor: has switched off, locked and labelled what feeds the places of the work before the learner comes, as the
    /// card says, and takes the lock off once the learner is done with all that comes before power-on.
    Supervisor,
}

/// What is between the meter and a board's main switch (the charter, "Levels of board work").
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Tails {
    /// The tails alone: live behind their shrouds whatever the main switch does.
    #[default]
    Shrouded,
    /// An isolator: off and locked, nothing in the board is live.
    Isolator,
}

/// Where the work's supply comes from.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Supply {
    /// The house's, by its meter.
    #[default]
    Mains,
    /// A training board in a workshop bay: it has no supply of its own. Its plug is out and in the learner's hand until the supervisor
    /// brings the supply, once the covers are on and the learner has said what will happen.
    Bench,
}

/// How long an end stays where a scenario connects it.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Stands {
    /// For good: it was there before the learner came.
    #[default]
    ForGood,
    /// Until the learner joins it anew: in an enclosed connector since a fitting was taken down.
    ForNow,
    /// Tied back beside the board, not connected, until the supervisor connects it, when the learner has looked every
    /// place of the work over, or where that is not asked for, when the lock comes off.
    Later,
}

/// The kit of an exercise.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Kit {
    /// The voltage indicator.
    #[serde(default, skip_serializing_if = "Indicator::is_sound")]
    pub indicator: Indicator,
    /// The circuit chart.
    #[serde(default, skip_serializing_if = "Chart::is_right")]
    pub chart: Chart,
}

impl Indicator {
    /// Whether it shows what is there.
    pub fn is_sound(&self) -> bool {
        *self == Self::Sound
    }
}

impl Chart {
    /// Whether it tells the truth.
    pub fn is_right(&self) -> bool {
        *self == Self::Right
    }
}

impl Keeper {
    /// Whether it is what a scenario has that says nothing.
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it so")]
    pub(super) fn is_usual(&self) -> bool {
        *self == Self::Learner
    }
}

impl Supply {
    /// Whether it is what a scenario has that says nothing.
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it so")]
    pub(super) fn is_usual(&self) -> bool {
        *self == Self::Mains
    }
}

impl Tails {
    /// Whether it is what a scenario has that says nothing.
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it so")]
    pub(super) fn is_usual(&self) -> bool {
        *self == Self::Shrouded
    }
}

impl Stands {
    /// Whether it is what a scenario has that says nothing.
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it so")]
    pub(super) fn is_usual(&self) -> bool {
        *self == Self::ForGood
    }
}

impl Kit {
    /// Whether nothing is wrong with any of it.
    pub fn is_sound(&self) -> bool {
        *self == Self::default()
    }
}
