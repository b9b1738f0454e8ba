//! The actions: everything a learner can do, as it stands in an attempt's file.
//!
//! Places are named by address (DEVELOPERS.md, "The map"). An action is a promise to every
//! file ever saved: a variant or a field may be added, none is renamed or dropped without a new format number.

mod parts;

use serde::{Deserialize, Serialize};

use crate::exercise::FaultKind;
use crate::trade::{
    cable::{CableKind, CrossSection},
    colour::{Colour, Mark},
    instrument::{Function, LeadLength, loop_impedance::Range},
};

pub use crate::exercise::Feel;
pub use parts::{Check, Detector, EarthingStep, Fault, Flaw, Incomer, KitPart, Reason, Source, Test};

/// The position of one switch.
pub type SwitchPosition = u8;

/// One step of an attempt.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Action {
    /// Sleeve, tape or letter on a conductor end.
    Mark {
        /// Which end.
        end: String,
        /// With what.
        mark: Mark,
    },
    /// Take the mark off again.
    Unmark {
        /// Which end.
        end: String,
    },
    /// Put an end in a terminal. Its screw is loose afterwards, for every conductor in it.
    Connect {
        /// Which end.
        end: String,
        /// Which terminal.
        terminal: String,
    },
    /// Take an end out of its terminal.
    Disconnect {
        /// Which end.
        end: String,
    },
    /// Tighten a terminal's screw on all that is in it.
    Tighten {
        /// Which terminal.
        terminal: String,
        /// How far.
        #[serde(default, skip_serializing_if = "Feel::is_right")]
        feel: Feel,
    },
    /// Take the sheath of a cable back.
    Sheath {
        /// Which cable.
        cable: String,
        /// At which of its two places.
        location: String,
        /// Core that shows afterwards, mm.
        mm: u16,
    },
    /// Cut a core to length.
    Cut {
        /// Which end.
        end: String,
        /// Core left from the sheath to the tip, mm.
        mm: u16,
    },
    /// Strip the tip of a core.
    Strip {
        /// Which end.
        end: String,
        /// Bare afterwards, mm.
        mm: u16,
        /// The jaw of the strippers, in hundredths of a square millimetre: 150 for 1.5 mm².
        jaw: u16,
    },
    /// Fold a bare tip back on itself.
    Fold {
        /// Which end.
        end: String,
    },
    /// Straighten it again.
    Unfold {
        /// Which end.
        end: String,
    },
    /// Pull an end to see whether it holds.
    Tug {
        /// Which end.
        end: String,
    },
    /// Fit grommets in the knock-outs of a metal box.
    Grommet {
        /// The place, by its address.
        location: String,
    },
    /// Lay the conductors of a box clear of its lugs.
    Dress {
        /// The place, by its address.
        location: String,
    },
    /// Choose the cable of a run, and say why. One chosen before and in no terminal is pulled out again.
    Choose {
        /// Which run.
        cable: String,
        /// What kind.
        kind: CableKind,
        /// Cross-section of its live cores, mm².
        mm2: CrossSection,
        /// Why this one.
        reason: Reason,
    },
    /// Make up a short conductor by hand, a link or a tail. It is called `made-1`, `made-2`, ... and has ends `a` and `b`.
    MakeUp {
        /// Where it is for.
        location: String,
        /// The colour of its insulation.
        colour: Colour,
    },
    /// Fit the plate, rose cover or lid of a location.
    FitCover {
        /// The place, by its address.
        location: String,
    },
    /// Take it off.
    RemoveCover {
        /// The place, by its address.
        location: String,
    },
    /// Put a lamp in its holder.
    FitLamp {
        /// The lamp, by its address.
        lamp: String,
    },
    /// Take it out.
    RemoveLamp {
        /// The lamp, by its address.
        lamp: String,
    },
    /// Isolation: say which devices feed a location.
    Identify {
        /// The place, by its address.
        location: String,
        /// Every device that feeds it or may come to.
        devices: Vec<String>,
    },
    /// Isolation: get agreement to switch off.
    Agree,
    /// Switch a device off.
    PowerOff {
        /// The device, by its address.
        device: String,
    },
    /// Isolation: lock a device off and hang the label.
    LockOff {
        /// The device, by its address.
        device: String,
    },
    /// Take one's own lock and label off again.
    Unlock {
        /// The device, by its address.
        device: String,
    },
    /// Isolation: try the voltage indicator on the proving unit.
    ProveIndicator,
    /// Isolation: the indicator's two probes on two points (terminals or ends).
    TestDead {
        /// One probe.
        a: String,
        /// The other.
        b: String,
        /// With what. Only a two-pole indicator proves anything.
        #[serde(default, skip_serializing_if = "Detector::is_indicator")]
        with: Detector,
    },
    /// Isolation: park a probe of the indicator on an end or a terminal, where it stays while the other goes from end to end.
    Park {
        /// The end or terminal.
        at: String,
    },
    /// Isolation: take the parked probe off.
    Unpark,
    /// Isolation: say, after a round of dead tests, whether what was tested is dead.
    Conclude {
        /// What is said.
        dead: bool,
    },
    /// Continuity: the low-resistance meter's two probes on two points.
    Continuity {
        /// One probe.
        a: String,
        /// The other.
        b: String,
    },
    /// Inspection: look at every termination of a place before its plate goes on.
    Inspect {
        /// The place, by its address.
        location: String,
    },
    /// Hold a pair of the instrument's leads together and take their resistance off what follows.
    Null {
        /// Which pair.
        #[serde(default, skip_serializing_if = "is_short")]
        lead: LeadLength,
    },
    /// Fit a test link between two points. It is copper: left in, it is a short.
    FitLink {
        /// One point.
        a: String,
        /// The other.
        b: String,
    },
    /// Take a test link out.
    TakeLink {
        /// One point.
        a: String,
        /// The other.
        b: String,
    },
    /// Throw the board's main switch.
    MainSwitch {
        /// Whether it is on afterwards.
        on: bool,
    },
    /// Throw the isolator between meter and board.
    Isolator {
        /// Whether it is on afterwards.
        on: bool,
    },
    /// Lock a switch in front of all the devices off and hang the label.
    LockIncomer {
        /// The main switch or the isolator.
        which: Incomer,
    },
    /// Take one's own lock and label off it again.
    UnlockIncomer {
        /// The main switch or the isolator.
        which: Incomer,
    },
    /// Lift a shroud off the board's tails.
    LiftShroud,
    /// Have the supervisor bring the supply to a training board and put its plug in.
    BringSupply,
    /// Take the plug of a training board out and in hand.
    Unplug,
    /// Something done with the earthing conductor beside the board.
    Earthing {
        /// What is done with it.
        step: EarthingStep,
    },
    /// Loop impedance at the origin: what comes in, line to the supply's earth, at the test point between meter and main switch. It
    /// is Ze with everything off and locked and the earthing conductor off.
    ReadOrigin {
        /// Which range.
        range: Range,
    },
    /// Take a reading with the multifunction tester. What it shows follows from the work and is stored nowhere.
    Measure {
        /// Function and range.
        function: Function,
        /// Which leads.
        #[serde(default, skip_serializing_if = "is_short")]
        lead: LeadLength,
        /// One probe.
        a: String,
        /// The other.
        b: String,
    },
    /// Write a line of the test sheet. A later line for the same test and place replaces it.
    Record {
        /// Which test.
        test: Test,
        /// Which circuit, by its device.
        at: String,
        /// The figure as written, `0.43` or `>299`, in the test's unit; empty where the test has none.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        reading: String,
        /// Whether the learner finds it acceptable.
        accepted: bool,
        /// Where Ze or Zdb in it is from.
        #[serde(default, skip_serializing_if = "Source::is_read")]
        source: Source,
    },
    /// Say that something was wrong before the work began.
    Report {
        /// The place, by its address.
        at: String,
        /// What is wrong there.
        what: Fault,
    },
    /// Get another of what was handed out.
    Change {
        /// What is changed for another.
        kit: KitPart,
    },
    /// An energising check.
    Confirm {
        /// What is confirmed.
        check: Check,
    },
    /// What will happen with every device on and the switches set so. The first answer for a setting is the answer.
    Predict {
        /// A position for each switch of the exercise, in its order.
        positions: Vec<SwitchPosition>,
        /// Lamps that will light.
        lit: Vec<String>,
        /// Of the conductors asked about, those that will be energised.
        live: Vec<String>,
    },
    /// Say what is wrong with the installation: one of the faults that the exercise states. The last one said is the answer.
    Diagnose {
        /// Its kind.
        what: FaultKind,
        /// Where: cores, or where two are exchanged their ends.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        at: Vec<String>,
    },
    /// Say which one something without a mark is. There is one label of each name: whatever else had this one has none then. May be said
    /// again while nothing is joined there.
    Name {
        /// The cable at its place or the terminal, by the address that it really has: `drop@joint`, `switch.COM`.
        at: String,
        /// What it is called, by the id of a cable or the address of a terminal.
        called: String,
    },
    /// Say that something is wrong in the work as it was found.
    Observe {
        /// The end, the terminal or the place, by its address.
        at: String,
        /// What is wrong there.
        what: Flaw,
    },
    /// Take an observation back.
    Withdraw {
        /// The address that was given.
        at: String,
        /// What was said to be wrong there.
        what: Flaw,
    },
    /// Switch a device on.
    PowerOn {
        /// The device, by its address.
        device: String,
    },
    /// Switch a device on that has opened by itself.
    Reset {
        /// The device, by its address.
        device: String,
    },
    /// Work a switch.
    Operate {
        /// The switch, by its address.
        switch: String,
        /// To which position.
        position: SwitchPosition,
    },
    /// Take the last piece of handwork back.
    Undo,
    /// Do it again.
    Redo,
    /// Ask for a hint. What it says follows from the work and is stored nowhere.
    Hint,
    /// Hand the work in.
    HandIn,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it so")]
fn is_short(lead: &LeadLength) -> bool {
    *lead == LeadLength::Short
}

/// Where a hand is at work.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Hand<'a> {
    /// At an end or a terminal, by its address.
    Point(&'a str),
    /// In a place, by its address.
    Place(&'a str),
}

impl Action {
    /// Where it touches conductors, sleeves or screws, so that the place must be dead and proved so.
    pub(crate) fn hand(&self) -> Option<Hand<'_>> {
        match self {
            Self::Mark { end: at, .. }
            | Self::Unmark { end: at }
            | Self::Connect { end: at, .. }
            | Self::Disconnect { end: at }
            | Self::Tighten { terminal: at, .. }
            | Self::Cut { end: at, .. }
            | Self::Strip { end: at, .. }
            | Self::Fold { end: at }
            | Self::Unfold { end: at }
            | Self::Tug { end: at } => Some(Hand::Point(at)),
            Self::Sheath { location: at, .. } | Self::Grommet { location: at } | Self::Dress { location: at } => {
                Some(Hand::Place(at))
            }
            _ => None,
        }
    }

    /// Whether it touches conductors, sleeves or screws.
    pub fn is_handwork(&self) -> bool {
        self.hand().is_some()
    }

    /// Whether undo takes it back: work with conductors, sleeves, screws, plates and lamps.
    pub fn is_undoable(&self) -> bool {
        self.is_handwork()
            || matches!(
                self,
                Self::MakeUp { .. }
                    | Self::Choose { .. }
                    | Self::FitCover { .. }
                    | Self::RemoveCover { .. }
                    | Self::FitLamp { .. }
                    | Self::RemoveLamp { .. }
            )
    }
}
