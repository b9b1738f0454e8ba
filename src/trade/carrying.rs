//! What a flat cable may carry and lose: currents by how it is laid, and the drop that lighting bears.

use serde::{Deserialize, Serialize};

use super::{cable::CrossSection, supply::NOMINAL_VOLTS};

/// How a cable is laid, as far as its warmth is concerned.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Laid {
    /// Clipped to a wall or a joist, air on it (reference method C).
    #[default]
    Clipped,
    /// In a stud wall or above a ceiling with thermal insulation all around it (reference method 103).
    InInsulation,
}

/// Currents that flat cable with a cpc carries all day at 70 °C, amps: size in hundredths of a square millimetre, clipped, in
/// insulation (BS 7671 Table 4D5; table and figures from memory, check). A three-core in a lighting circuit has two of its
/// cores loaded, so it has the same.
const AMPS: [(CrossSection, f64, f64); 3] = [
    (CrossSection::hundredths(100), 16.0, 8.0),
    (CrossSection::hundredths(150), 20.0, 10.0),
    (CrossSection::hundredths(250), 27.0, 13.5),
];

/// Share of the nominal voltage that may be lost between the origin and a lamp: 3 % from a public supply (BS 7671 Appendix 4,
/// Table 4Ab, by trade articles: guidance).
const LIGHTING_SHARE: f64 = 0.03;

/// Most voltage that may be lost between the origin and a lamp, volts.
pub const LIGHTING_DROP_VOLTS: f64 = LIGHTING_SHARE * NOMINAL_VOLTS;

impl Laid {
    /// Every way.
    pub const ALL: [Self; 2] = [Self::Clipped, Self::InInsulation];

    /// Most that a flat cable of this size may carry so laid, amps; `None` for a size that the table here has not.
    pub fn amps(self, size: CrossSection) -> Option<f64> {
        AMPS.iter().find(|it| it.0 == size).map(|(_, clipped, insulated)| match self {
            Self::Clipped => *clipped,
            Self::InInsulation => *insulated,
        })
    }

    /// Whether it is what a scenario has that says nothing.
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it so")]
    pub(crate) fn is_usual(&self) -> bool {
        *self == Self::Clipped
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::cable::CableKind;

    /// In full insulation a cable has half of what it has in the open (the rule of thumb that a trade forum uses, and the
    /// factor for 0.5 m and more of insulation in BS 7671 523.9, from memory).
    #[test]
    fn insulation_all_round_halves_the_current() {
        for (size, ..) in AMPS {
            let [open, lagged] = Laid::ALL.map(|it| it.amps(size).unwrap());
            assert!((lagged / open - 0.5).abs() < 1e-9, "{} mm²", size.mm2());
        }
    }

    #[test]
    fn every_size_of_flat_cable_is_in_the_table() {
        for kind in [CableKind::TwinEarth, CableKind::TwinBrownEarth, CableKind::ThreeCoreEarth] {
            assert!(kind.sizes().iter().all(|it| Laid::Clipped.amps(it.0).is_some()));
        }
    }

    /// trade/facts.md 2.1: 6.9 V.
    #[test]
    fn lighting_may_lose_6_9_volts() {
        assert!((LIGHTING_DROP_VOLTS - 6.9).abs() < 1e-9);
    }
}
