//! The part of an earth fault loop outside the circuits: Ze where the board stands at the origin, Zdb where it is not
//! (the charter: "Zs of a lighting point is Ze + (R1+R2) at the origin, Zdb + (R1+R2) for a board fed from another").

use serde::{Deserialize, Serialize};

use super::{
    kit::{Keeper, Supply},
    placed::Placed,
    tables::Exercise,
};
use crate::trade::{
    cable::CrossSection,
    instrument::{Figure, Unit},
    supply::SupplyOhms,
};

/// Where the board gets its supply, as a file has it.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
#[serde(rename = "Fed")]
pub(super) enum FedFile<'a> {
    /// From the meter: it stands at the origin.
    #[default]
    Origin,
    /// From another board, by a distribution circuit whose conductors are all of one size.
    Board {
        /// Cross-section of each conductor, mm².
        #[serde(borrow)]
        mm2: Placed<'a, f64>,
        /// Its length, metres.
        metres: Placed<'a, f64>,
    },
}

impl FedFile<'_> {
    pub(super) const fn is_usual(&self) -> bool {
        matches!(self, Self::Origin)
    }
}

/// A circuit from one board to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Distribution {
    /// The size of each of its conductors.
    pub size: CrossSection,
    /// Its length, metres.
    pub metres: f64,
}

impl Distribution {
    /// Resistance of one of its conductors at 20 °C, ohms.
    pub fn ohms(&self) -> f64 {
        self.size.ohms_per_metre() * self.metres
    }
}

/// The name of an earth fault loop's part outside the circuits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outside {
    /// At the origin, with the earthing conductor off: the supply alone.
    Ze,
    /// At a board, with the earthing conductor on.
    Zdb,
}

impl Exercise {
    /// What the loop outside the circuits is called at this board. The plug of a training board is in a socket of another's circuit.
    pub fn outside(&self) -> Outside {
        if self.fed.is_some() || self.supply == Supply::Bench { Outside::Zdb } else { Outside::Ze }
    }

    /// Impedances up to the board, ohms: those of the supply, and of the distribution circuit at 20 °C.
    pub fn outside_ohms(&self) -> SupplyOhms {
        let (supply, more) = (self.earthing.ohms(), self.fed.map_or(0.0, |it| it.ohms()));
        SupplyOhms { line: supply.line + more, neutral: supply.neutral + more, earth: supply.earth + more }
    }

    /// Whether neutral and earth are tied at the board itself.
    pub const fn is_tied_at_board(&self) -> bool {
        self.tables.earthing.is_tied() && self.tables.fed.is_none()
    }

    /// What the supervisor measured at the board, as their card has it, and what it is called; `None` where the board is the
    /// learner's.
    pub fn card(&self) -> Option<(Outside, Figure)> {
        let ohms = self.outside_ohms();
        let counts = (100.0 * (ohms.line + ohms.earth)).round() as i64;
        let figure = Figure { counts, decimals: 2, unit: Unit::Ohm };
        (self.board == Keeper::Supervisor).then_some((self.outside(), figure))
    }
}
