//! What the learner is handed beside the wiring, and how it is: the indicator, and the chart in the board's lid.
//!
//! Facts about things, as drawn from the seed; no answer. All sound unless a scenario says otherwise.

use serde::{Deserialize, Serialize};

/// How the voltage indicator is.
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

impl Kit {
    /// Whether nothing is the matter with any of it.
    pub fn is_sound(&self) -> bool {
        *self == Self::default()
    }
}
