//! "What if": variants of the see-through house, each with every end connected, and what a hand may meet in it.

use serde::Deserialize;

use super::passage::Passage;
use crate::exercise::options;

const CHANGES: &str = include_str!("../../assets/curious.changes.ron");
const BOTH_POLES: &str = include_str!("../../assets/curious-both-poles.scenario.ron");
const OPPOSITE_ENDS: &str = include_str!("../../assets/curious-opposite-ends.scenario.ron");
const THIRD_SWITCH: &str = include_str!("../../assets/curious-third-switch.scenario.ron");

/// A variant of the house.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum WhatIf {
    /// Two wires, and the bare earth wire as the third.
    BareEarth,
    /// Live and neutral of the feed exchanged at the near switch.
    Exchanged,
    /// Two wires carry live and neutral, and each switch gives one side of the lamp either.
    BothPoles,
    /// The feed comes to the near switch and the lamp's wire to the far one: two wires carry the live by turns, the third the neutral.
    OppositeEnds,
    /// The same with the neutral of a neighbouring circuit.
    NeighboursNeutral,
    /// A third switch between the two.
    ThirdSwitch,
    /// The finished passage, for following the current.
    WhereItGoes,
}

/// Where a hand is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PassageHand {
    /// On bare copper that does the work of a core.
    BareWire,
    /// In the lampholder, the lamp out: somebody changes it.
    Lampholder,
}

/// What is moved in a house, each end by address with the terminal that it goes to.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Changes {
    pub two_wires: Vec<(String, String)>,
    bare_earth: Vec<(String, String)>,
    exchanged: Vec<(String, String)>,
    neighbours_neutral: Vec<(String, String)>,
}

impl Changes {
    pub fn shipped() -> Option<Self> {
        options().from_str(CHANGES).ok()
    }
}

impl WhatIf {
    /// Those that are chosen from a list; [`Self::NeighboursNeutral`] follows from another.
    pub const LIST: [Self; 6] =
        [Self::BareEarth, Self::Exchanged, Self::BothPoles, Self::OppositeEnds, Self::ThirdSwitch, Self::WhereItGoes];

    /// The house, finished and switched on, all rockers down; `None` if what comes with the program can't be read, which a test rules out.
    pub fn house(self) -> Option<Passage> {
        let changes = Changes::shipped()?;
        let (scenario, moved): (_, &[_]) = match self {
            Self::BareEarth => (None, &[&changes.two_wires, &changes.bare_earth]),
            Self::Exchanged => (None, &[&changes.exchanged]),
            Self::BothPoles => (Some(BOTH_POLES), &[]),
            Self::OppositeEnds => (Some(OPPOSITE_ENDS), &[]),
            Self::NeighboursNeutral => (Some(OPPOSITE_ENDS), &[&changes.neighbours_neutral]),
            Self::ThirdSwitch => (Some(THIRD_SWITCH), &[]),
            Self::WhereItGoes => (None, &[]),
        };
        let mut house = scenario.map_or_else(Passage::new, Passage::of)?;
        for it in moved {
            house.change(it)?;
        }
        Some(house)
    }

    /// What a hand may meet in it.
    pub const fn hand(self) -> Option<PassageHand> {
        match self {
            Self::BareEarth => Some(PassageHand::BareWire),
            Self::Exchanged | Self::BothPoles => Some(PassageHand::Lampholder),
            Self::OppositeEnds | Self::NeighboursNeutral | Self::ThirdSwitch | Self::WhereItGoes => None,
        }
    }
}
