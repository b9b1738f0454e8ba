//! What is only seen: where the learner looks, what is selected, where the probes are. It dies with the screen.

use switchdrop::{
    exercise::{DeviceId, EndId, LocationId},
    picture::Thing,
    work::Work,
};

/// Where the learner looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Sight {
    /// At the whole place.
    #[default]
    Place,
    /// Into or at one location.
    Location(LocationId),
    /// At the questions of the prediction.
    Prediction,
}

/// What the learner has in hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Hand {
    /// Ends, sleeves and a screwdriver.
    #[default]
    Tools,
    /// The voltage indicator.
    Indicator,
    /// The continuity meter.
    Meter,
}

/// How something that is said is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Tone {
    /// Said in passing.
    #[default]
    Plain,
    /// Impossible: nothing happened.
    No,
    /// Stopped: a safe worker would not.
    Stopped,
}

/// What was said last.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Said {
    /// The words.
    pub text: String,
    /// How they are meant.
    pub tone: Tone,
}

/// An answer being made up for one setting.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Answer {
    /// For each lamp asked about.
    pub lit: Vec<bool>,
    /// For each conductor asked about.
    pub live: Vec<bool>,
}

/// Everything that is only seen.
#[derive(Debug, Default)]
pub struct View {
    /// Where the learner looks.
    pub at: Sight,
    /// What is selected.
    pub selected: Option<Thing>,
    /// What is in hand.
    pub hand: Hand,
    /// Where the two probes are, by address.
    pub probes: [Option<String>; 2],
    /// The probe that is placed next.
    pub next_probe: usize,
    /// The last readings, newest first.
    pub readings: Vec<String>,
    /// What was said last.
    pub said: Said,
    /// Devices ticked as those that feed the location looked at.
    pub feeds: Vec<DeviceId>,
    /// An end on its way to a terminal.
    pub dragged: Option<EndId>,
    /// Answers being made up, one for each setting asked.
    pub answers: Vec<Answer>,
    /// Marks are made with tape; else with sleeving.
    pub tape: bool,
}

impl View {
    /// Looks somewhere else.
    pub fn go(&mut self, at: Sight) {
        if self.at != at {
            self.at = at;
            self.selected = None;
            self.feeds.clear();
            self.probes = [None, None];
            self.next_probe = 0;
            self.dragged = None;
        }
    }

    /// The end that a click on a terminal would connect: selected, and in no terminal.
    pub fn held(&self, work: &Work) -> Option<EndId> {
        match self.selected {
            Some(Thing::End(it)) if work.terminal_of(it).is_none() => Some(it),
            _ => None,
        }
    }

    /// Puts the next probe on a point.
    pub fn place_probe(&mut self, address: String) {
        self.probes[self.next_probe] = Some(address);
        self.next_probe = 1 - self.next_probe;
    }

    /// Says something.
    pub fn say(&mut self, tone: Tone, text: String) {
        self.said = Said { text, tone };
    }
}
