//! What is only seen: where the learner looks, what is selected, where the probes are. It dies with the screen.

use std::collections::BTreeMap;

use bevy_egui::egui::Pos2;
use switchdrop::{
    exercise::{DeviceId, EndId, LocationId, Offer, TerminalId},
    picture::Thing,
    trade::{
        colour::Mark,
        instrument::{Function, LeadLength},
    },
    work::{Detector, Reason, Source, Test, Work},
};

use super::tray::display::Displayed;

/// Where the learner looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Sight {
    /// At the whole place.
    #[default]
    Place,
    /// Into or at one location.
    Location(LocationId),
    /// At the questions of the prediction.
    Prediction,
    /// At the faults that may be there.
    Diagnosis,
    /// At the test sheet.
    Tests,
    /// At the circuit diagram of the work.
    Circuit,
}

/// What the learner has in hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Hand {
    /// Ends, sleeves and a screwdriver.
    #[default]
    Tools,
    /// The voltage indicator, or what somebody takes for one.
    Indicator,
    /// The continuity meter; where there is a test sheet, the multifunction tester.
    Meter,
}

/// What the tools are set to: lengths as they were typed, mm, and the jaw of the strippers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lengths {
    /// Core that shows once the sheath is back.
    pub sheath: String,
    /// Core left from the sheath to the tip.
    pub cut: String,
    /// Bare at the tip.
    pub strip: String,
    /// In hundredths of a square millimetre.
    pub jaw: u16,
}

impl Default for Lengths {
    /// Empty, so that no length is anybody's choice but the learner's; the jaw of lighting cable.
    fn default() -> Self {
        Self { sheath: String::new(), cut: String::new(), strip: String::new(), jaw: 150 }
    }
}

/// How the multifunction tester is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tester {
    /// Function and range.
    pub function: Function,
    /// Which leads.
    pub lead: LeadLength,
}

impl Default for Tester {
    fn default() -> Self {
        Self { function: Function::Continuity, lead: LeadLength::Short }
    }
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

/// The last readings in words, newest first.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Readings {
    /// The words.
    pub said: Vec<String>,
    /// Whether all of them are shown; else the last one.
    pub are_shown: bool,
}

/// A cable being chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Choosing {
    /// For which run, by its place in the exercise.
    pub run: Option<usize>,
    /// Whether in place of one that is there.
    pub again: bool,
    /// The cable chosen of those on offer.
    pub offer: Option<Offer>,
    /// Why.
    pub reason: Option<Reason>,
}

/// Something of the tray that goes on a thing of the drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Piece {
    /// A sleeve or tape, for an end.
    Mark(Mark),
    /// A lock with its label, for a device.
    Lock,
}

/// A piece on its way from the tray.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Carried {
    /// Which piece.
    pub piece: Piece,
    /// Whether it is being dragged; else the next thing that is clicked takes it.
    pub is_dragged: bool,
}

/// Where the free probe is while the button is held.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Resting {
    /// On what.
    pub on: Thing,
    /// Since when, seconds.
    pub since: f64,
    /// Whether that was touched.
    pub is_touched: bool,
}

impl Resting {
    /// Whether the click that ends the press would touch the same thing once more.
    pub fn has_touched(&self, thing: Thing) -> bool {
        self.is_touched && self.on == thing
    }
}

/// A sweep over the drawing of the prediction, with the button held: everything that it passes is said, or all of it is taken back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sweep {
    /// What is said of everything it passes.
    pub says: bool,
    /// On what it began, by its place among what is asked about.
    pub from: usize,
    /// How far it has come.
    pub to: Pos2,
}

/// What is pointed at.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Pointed {
    /// A thing, if it is one.
    pub thing: Option<Thing>,
    /// Conductors, by their numbers in the work.
    pub conductors: Vec<usize>,
}

/// How the brief stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Brief {
    /// In the title.
    #[default]
    Folded,
    /// Open from the beginning of an attempt until the learner looks somewhere else. An act does not fold it, for then what was just
    /// clicked would move away.
    AtFirst,
    /// Opened by the learner.
    Open,
}

/// How much Next says of the wiring.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Guide {
    /// How many ends are left.
    #[default]
    Off,
    /// One conductor at a time, where it goes and what it is for.
    On,
}

/// Everything that is only seen.
#[derive(Debug, Default)]
#[allow(clippy::struct_excessive_bools, reason = "what is asked or shown now, each turned on and off alone")]
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
    /// Where Ze or Zdb in a figure is said to be from.
    pub source: Source,
    /// The last readings, newest first.
    pub readings: Readings,
    /// What the instrument in the hand showed last.
    pub displayed: Option<Displayed>,
    /// What was said last.
    pub said: Said,
    /// Where it was said, and what was selected then: a refusal is shown beside that, as long as the learner stays with it.
    pub said_of: (Sight, Option<Thing>),
    /// Devices ticked as those that feed the location looked at.
    pub feeds: Vec<DeviceId>,
    /// An end on its way to a terminal.
    pub dragged: Option<EndId>,
    /// The terminals that would take it now.
    pub targets: Vec<TerminalId>,
    /// What was taken from the tray, for a thing of the drawing.
    pub carried: Option<Carried>,
    /// What the free probe rests on while the button is held.
    pub resting: Option<Resting>,
    /// Answers being made up, by the number of the setting: for everything asked about, whether it is said to be lit or live.
    pub answers: BTreeMap<usize, Vec<bool>>,
    /// The setting of the prediction that is looked at; without one, the first that is not answered.
    pub setting: Option<usize>,
    /// The setting of which it was asked whether nothing at all is meant.
    pub nothing_meant: Option<usize>,
    /// What was pressed last on the drawing of the prediction.
    pub said_on: Option<usize>,
    /// The sweep over that drawing.
    pub sweep: Option<Sweep>,
    /// The step that Next has just done, by its key: from there it leads on to where the one after is done.
    pub did_next: Option<String>,
    /// Marks are made with tape; else with sleeving.
    pub tape: bool,
    /// What the tools are set to.
    pub lengths: Lengths,
    /// With what one tests for dead.
    pub detector: Detector,
    /// How the tester is set.
    pub tester: Tester,
    /// Figures being written on the test sheet.
    pub figures: BTreeMap<(Test, DeviceId), String>,
    /// The cable being chosen.
    pub choosing: Choosing,
    /// Whether it is asked if what is unfinished is to be handed in.
    pub hands_in: bool,
    /// How the brief stands.
    pub brief: Brief,
    /// Whether one is about to report something.
    pub reports: bool,
    /// How much Next says.
    pub guide: Guide,
    /// Whether it is asked what a hand would feel.
    pub touches: bool,
    /// What is pointed at on the circuit diagram or on the place beneath it: it is lit in both.
    pub pointed: Option<Pointed>,
}

impl View {
    /// Looks somewhere else.
    pub fn go(&mut self, at: Sight) {
        if self.at != at {
            self.at = at;
            if self.brief == Brief::AtFirst {
                self.brief = Brief::Folded;
            }
            self.selected = None;
            self.pointed = None;
            self.feeds.clear();
            self.probes = [None, None];
            self.next_probe = 0;
            self.dragged = None;
            self.carried = None;
            self.setting = None;
            self.nothing_meant = None;
        }
    }

    /// Looks somewhere else with one probe of the meter left where it is: the other goes along on the long lead. With two probes placed, or none,
    /// it is a plain [`Self::go`].
    pub fn go_on_long_lead(&mut self, at: Sight) {
        let is_one = self.hand == Hand::Meter && self.probes.iter().flatten().count() == 1;
        let kept = (self.probes.clone(), self.next_probe);
        self.go(at);
        if is_one {
            (self.probes, self.next_probe) = kept;
        }
    }

    /// The end that a click on a terminal would connect: selected, and in no terminal.
    pub fn held(&self, work: &Work) -> Option<EndId> {
        match self.selected {
            Some(Thing::End(it)) if work.terminal_of(it).is_none() => Some(it),
            _ => None,
        }
    }

    /// Takes something in hand; with an indicator's hand, what is held to a conductor. Another hand has its probes to place anew.
    pub fn take(&mut self, hand: Hand, detector: Detector) {
        self.detector = detector;
        if self.hand != hand {
            self.hand = hand;
            self.probes = [None, None];
            self.next_probe = 0;
            self.carried = None;
            self.readings.said.clear();
        }
    }

    /// Puts the next probe on a point. Whether both are somewhere now, the second placed after the first.
    pub fn place_probe(&mut self, address: String) -> bool {
        self.probes[self.next_probe] = Some(address);
        self.next_probe = 1 - self.next_probe;
        self.next_probe == 0 && self.probes[0] != self.probes[1] && self.probes[0].is_some()
    }

    /// Whether the brief stands open.
    pub fn is_brief_open(&self) -> bool {
        self.brief != Brief::Folded
    }

    /// Says something.
    pub fn say(&mut self, tone: Tone, text: String) {
        self.said = Said { text, tone };
        self.said_of = (self.at, self.selected);
    }
}
