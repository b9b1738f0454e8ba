//! The supply at the origin: voltage, frequency and impedances.

use serde::{Deserialize, Serialize};

/// Nominal voltage between line and neutral, volts (the public supply of the United Kingdom).
pub const NOMINAL_VOLTS: f64 = 230.0;
/// Nominal frequency, hertz. The model works with resistances only; the figure is for the screen.
pub const NOMINAL_HERTZ: f64 = 50.0;
/// Insulation between any one conductor and earth, ohms. New wiring reads hundreds of megohms (trade articles on
/// insulation testing); the exact figure is an assumption of ours.
pub const INSULATION_OHMS: f64 = 1.0e9;

/// The tie of neutral and earth at the origin of a TN-C-S supply, ohms: brass on brass, and what a dead short drops in it is
/// felt by no residual current device (an assumption of ours).
pub const TIE_OHMS: f64 = 1.0e-5;

/// How the supply is earthed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Earthing {
    /// Separate protective conductor back to the source.
    TnS,
    /// Neutral and protective combined in the street.
    TnCS,
    /// The consumer's own electrode.
    Tt,
}

/// Impedances at the origin, ohms, as resistances.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SupplyOhms {
    /// In the line.
    pub line: f64,
    /// In the neutral. Where it is tied to earth at the origin the two have one conductor, and this is that of [`Self::earth`].
    pub neutral: f64,
    /// In the earth return. Line and earth together are Ze.
    pub earth: f64,
}

impl Earthing {
    /// Ze usually quoted for supplies up to 100 A: 0.8 ohm TN-S, 0.35 ohm TN-C-S, 21 ohm TT (ENA ER P23/1:1991, as told
    /// in a 2018 article of the standard's publisher: never guaranteed, so measure). The TT figure leaves out the
    /// consumer's electrode, for which 100 ohm is added (an assumption of ours, inside the practical limit of 200).
    /// How Ze divides between line and return is an assumption of ours too.
    pub const fn ohms(self) -> SupplyOhms {
        match self {
            Self::TnS => SupplyOhms { line: 0.15, neutral: 0.15, earth: 0.65 },
            Self::TnCS => SupplyOhms { line: 0.175, neutral: 0.175, earth: 0.175 },
            Self::Tt => SupplyOhms { line: 0.175, neutral: 0.175, earth: 120.825 },
        }
    }

    /// Whether neutral and earth are tied at the origin: the one conductor of the street is both, so that what a load drops in it
    /// lifts them alike and nothing of it flows in a house whose neutral touches earth somewhere.
    pub const fn is_tied(self) -> bool {
        matches!(self, Self::TnCS)
    }

    /// Longest time to disconnect a final circuit of this size on a first fault, seconds (BS 7671 Table 41.1).
    pub const fn disconnection_seconds(self) -> f64 {
        match self {
            Self::TnS | Self::TnCS => 0.4,
            Self::Tt => 0.2,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ENA ER P23/1:1991 by way of the 2018 article: 0.8, 0.35 and 21 ohm.
    #[test]
    fn ze_is_the_usually_quoted_figure() {
        let ze = |it: Earthing| it.ohms().line + it.ohms().earth;
        assert!((ze(Earthing::TnS) - 0.8).abs() < 1e-12);
        assert!((ze(Earthing::TnCS) - 0.35).abs() < 1e-12);
        assert!((ze(Earthing::Tt) - 100.0 - 21.0).abs() < 1e-12);
    }

    /// BS 7671 Table 41.1 (2008 copy): 0.4 s in TN, 0.2 s in TT, 120 V < U0 <= 230 V.
    #[test]
    fn disconnection_times_are_those_of_table_41_1() {
        for (earthing, seconds) in [(Earthing::TnS, 0.4), (Earthing::TnCS, 0.4), (Earthing::Tt, 0.2)] {
            assert!((earthing.disconnection_seconds() - seconds).abs() < 1e-12, "{earthing:?}");
        }
    }
}
