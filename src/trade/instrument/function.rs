//! What an instrument measures, and in which range. Part of the attempt's file: a variant may be added, none renamed.

use serde::{Deserialize, Serialize};

use super::{Spread, continuity, insulation, insulation::TestVolts, loop_impedance, rcd, voltage};

/// What an instrument measures, and in which range.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Function {
    /// Low resistance, dead.
    Continuity,
    /// Insulation resistance, dead.
    Insulation(TestVolts),
    /// Voltage, by a meter that hardly loads what it tests.
    Voltage,
    /// Voltage, by a two-pole indicator.
    Indicator,
    /// Loop impedance, live.
    Loop(loop_impedance::Range),
    /// Operating time of a residual current device, live.
    Rcd(rcd::Test),
}

/// How far the leads reach.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum LeadLength {
    /// The pair that comes with the instrument.
    #[default]
    Short,
    /// One of them long, for R2 alone.
    Long,
}

impl Function {
    /// Whether it is for what is on. Continuity and insulation are read on what is dead.
    pub const fn is_live(self) -> bool {
        !matches!(self, Self::Continuity | Self::Insulation(_))
    }

    /// How far its readings stray. An indicator's lamps come on in steps and stray by nothing.
    pub const fn spread(self) -> Spread {
        match self {
            Self::Continuity => continuity::SPREAD,
            Self::Insulation(_) => insulation::SPREAD,
            Self::Voltage => voltage::SPREAD,
            Self::Indicator => Spread { share: 0.0, fixed: 0.0 },
            Self::Loop(range) => range.spread(),
            Self::Rcd(_) => rcd::SPREAD,
        }
    }

    /// A word for function and range, which the spread of its readings is drawn by: it never changes.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Continuity => "continuity",
            Self::Insulation(TestVolts::V250) => "insulation-250",
            Self::Insulation(TestVolts::V500) => "insulation-500",
            Self::Voltage => "voltage",
            Self::Indicator => "indicator",
            Self::Loop(loop_impedance::Range::High) => "loop-high",
            Self::Loop(loop_impedance::Range::NoTrip) => "loop-no-trip",
            Self::Rcd(rcd::Test::Half) => "rcd-half",
            Self::Rcd(rcd::Test::Rated) => "rcd-rated",
            Self::Rcd(rcd::Test::FiveTimes) => "rcd-five-times",
        }
    }
}
