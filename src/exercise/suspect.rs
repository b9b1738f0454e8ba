//! What may be wrong with an installation, out of sight: the faults that an exercise states, of which it hides one.
//!
//! The fault stands in the exercise as drawn, and so in every attempt's file: marking needs it. Anybody who reads the file with an
//! editor knows it.

use serde::{Deserialize, Serialize};

use super::{
    placed::Placed,
    table::{EndId, TerminalId},
    tables::Exercise,
};
use crate::trade::accessory::SOUND_CONTACT_OHMS;

/// A kind of fault, as a scenario and an attempt name it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum FaultKind {
    /// A core is broken inside its insulation.
    Open,
    /// A core has more resistance than its copper has: a poor joint, a core cut half through.
    HighResistance,
    /// Two cores of a cable touch, half-way along it.
    Short,
    /// The insulation between two cores of a cable is damaged, half-way along it.
    LowInsulation,
    /// Two ends at a place stand in each other's terminals.
    Exchanged,
    /// Nothing is wrong.
    Nothing,
}

impl FaultKind {
    /// How many addresses say where it is: of cores, or of ends where two are exchanged.
    pub const fn places(self) -> usize {
        match self {
            Self::Open | Self::HighResistance => 1,
            Self::Short | Self::LowInsulation | Self::Exchanged => 2,
            Self::Nothing => 0,
        }
    }

    /// The ohms that it may have, the least and the most; `None`: its resistance is not the author's to say.
    pub(super) const fn ohms(self) -> Option<(f64, f64)> {
        match self {
            // From what a meter tells from the spread of its own reading to what hardly lets a lamp glow.
            Self::HighResistance => Some((0.2, 10_000.0)),
            // Up to the limit of 1 MΩ (BS 7671, table 64), which is the least that is acceptable.
            Self::LowInsulation => Some((100.0, 900_000.0)),
            Self::Open | Self::Short | Self::Exchanged | Self::Nothing => None,
        }
    }
}

/// A fault as it is in the wiring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum HiddenFault {
    /// A core (by index) that is broken.
    Open(usize),
    /// A core with more resistance than its copper has.
    HighResistance {
        /// Which core.
        core: usize,
        /// How much more, ohms.
        ohms: f64,
    },
    /// Something between two cores, half-way along their cable.
    Between {
        /// The two cores.
        cores: [usize; 2],
        /// Its resistance, ohms.
        ohms: f64,
    },
    /// Two ends in each other's terminals.
    Exchanged([EndId; 2]),
    /// Nothing is wrong.
    Nothing,
}

/// A fault that the exercise may have.
#[derive(Debug, Clone, PartialEq)]
pub struct Suspect {
    /// Its kind.
    pub kind: FaultKind,
    /// Where it is: cores or ends, by their addresses.
    pub at: Vec<String>,
    /// What it makes of the wiring.
    pub fault: HiddenFault,
}

impl Suspect {
    /// Whether it is what an attempt names; in which order two cores or ends are named does not matter.
    pub fn is(&self, kind: FaultKind, at: &[String]) -> bool {
        self.kind == kind && self.at.len() == at.len() && self.at.iter().all(|it| at.contains(it))
    }
}

impl HiddenFault {
    /// Whether a core (by index) is broken by it.
    pub fn breaks(&self, core: usize) -> bool {
        *self == Self::Open(core)
    }

    /// The two ends that stand in each other's terminals by it.
    pub const fn exchanged(&self) -> Option<[EndId; 2]> {
        match self {
            Self::Exchanged(it) => Some(*it),
            _ => None,
        }
    }

    /// The two cores that it lets touch, copper to copper.
    pub const fn touching(&self) -> Option<[usize; 2]> {
        match self {
            Self::Between { cores, ohms } if *ohms <= SOUND_CONTACT_OHMS => Some(*cores),
            _ => None,
        }
    }

    /// The fault of a kind at its cores; `None` where a kind has no such places.
    pub(super) fn of_cores(kind: FaultKind, cores: &[usize], ohms: f64) -> Option<Self> {
        Some(match (kind, cores) {
            (FaultKind::Open, [core]) => Self::Open(*core),
            (FaultKind::HighResistance, [core]) => Self::HighResistance { core: *core, ohms },
            (FaultKind::Short, [a, b]) => Self::Between { cores: [*a, *b], ohms: SOUND_CONTACT_OHMS },
            (FaultKind::LowInsulation, [a, b]) => Self::Between { cores: [*a, *b], ohms },
            (FaultKind::Nothing, []) => Self::Nothing,
            _ => return None,
        })
    }
}

impl Exercise {
    /// What is wrong with the installation, out of sight; `None` where the exercise hides nothing.
    pub fn hidden_fault(&self) -> Option<&HiddenFault> {
        self.suspects.get(self.fault).map(|it| &it.fault)
    }

    /// The terminal in which the learner finds an end: where the exercise connects it, or where it is exchanged, the other's.
    pub fn found_in(&self, end: EndId) -> Option<TerminalId> {
        let here = match self.hidden_fault().and_then(HiddenFault::exchanged) {
            Some([a, b]) if end == a => b,
            Some([a, b]) if end == b => a,
            _ => end,
        };
        self.start.get(here).copied().flatten().map(|it| it.terminal)
    }

    /// The same exercise with another of its faults hidden in it, by its place among those that it states; with none, past the last of them.
    #[must_use]
    pub fn supposing_fault(&self, suspect: usize) -> Self {
        let mut other = self.clone();
        other.tables.fault = suspect;
        other
    }
}

/// A fault as a scenario states it.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Suspect")]
pub(super) struct SuspectFile<'a> {
    pub what: FaultKind,
    /// Cores, or where two are exchanged their ends.
    #[serde(default, borrow, skip_serializing_if = "Vec::is_empty")]
    pub at: Vec<Placed<'a, String>>,
    /// How many ohms, where the kind does not say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ohms: Option<Placed<'a, f64>>,
}
