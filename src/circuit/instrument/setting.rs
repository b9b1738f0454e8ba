//! How an instrument is set up for a test: function, range, leads, links, and how the board stands.

use crate::{
    trade::instrument::{Function, LeadLength},
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

/// The leads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Leads {
    /// How far they reach.
    pub length: LeadLength,
    /// How they are.
    pub state: LeadState,
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
