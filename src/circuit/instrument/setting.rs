//! How an instrument is set up for a test: function, range, leads, links, and how the board stands.

use crate::{
    trade::instrument::{insulation::TestVolts, loop_impedance, rcd},
    work::Point,
};

/// Everything that a reading depends on beside the work and the two points.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Setting {
    /// What it measures.
    pub function: Function,
    /// Its leads.
    pub leads: Leads,
    /// Its battery.
    pub battery: Battery,
    /// Test links, each between two points.
    pub links: Vec<[Point; 2]>,
    /// How the board's main switch stands.
    pub main_switch: MainSwitch,
}

/// What an instrument measures, and in which range.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
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

/// The leads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Leads {
    /// How far they reach.
    pub length: LeadLength,
    /// How they are.
    pub state: LeadState,
}

/// How far the leads reach.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LeadLength {
    /// The pair that comes with the instrument.
    Short,
    /// One of them long, for R2 alone.
    Long,
}

/// How the leads are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LeadState {
    /// Their resistance is in the reading.
    AsTheyAre,
    /// Their resistance has been taken off.
    Nulled,
    /// One is broken inside.
    Broken,
}

/// The instrument's battery.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Battery {
    /// Good.
    Good,
    /// Flat.
    Flat,
}

/// The board's main switch, which breaks line and neutral. The work has none yet, so whoever sets up the test says. With
/// it on, neutral is joined to earth by way of the supply, and insulation between the two reads nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum MainSwitch {
    /// On.
    On,
    /// Off.
    Off,
}

impl Function {
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

impl Setting {
    /// A sound instrument with its own leads nulled, no link, the main switch on.
    pub fn of(function: Function) -> Self {
        Self {
            function,
            leads: Leads { length: LeadLength::Short, state: LeadState::Nulled },
            battery: Battery::Good,
            links: Vec::new(),
            main_switch: MainSwitch::On,
        }
    }

    /// The same with a link between two points.
    #[must_use]
    pub fn linked(mut self, a: Point, b: Point) -> Self {
        self.links.push([a, b]);
        self
    }

    /// The same with the main switch off.
    #[must_use]
    pub fn main_switch_off(mut self) -> Self {
        self.main_switch = MainSwitch::Off;
        self
    }

    /// The same with the leads so.
    #[must_use]
    pub fn with_leads(mut self, length: LeadLength, state: LeadState) -> Self {
        self.leads = Leads { length, state };
        self
    }
}
