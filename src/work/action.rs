//! The actions: everything a learner can do, as it stands in an attempt's file.
//!
//! Places are named by address (see the architecture of addresses in DEVELOPERS.md). An action is a promise to every
//! file ever saved: a variant or a field may be added, none is renamed or dropped without a new format number.

use serde::{Deserialize, Serialize};

use crate::trade::{
    colour::{Colour, Mark},
    instrument::{Function, LeadLength},
};

/// The position of one switch.
pub type Setting = u8;

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
    /// Put an end in a terminal. Its screw is slack afterwards, for every conductor in it.
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
        /// Where.
        location: String,
    },
    /// Lay the conductors of a box clear of its lugs.
    Dress {
        /// Where.
        location: String,
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
        /// Where.
        location: String,
    },
    /// Take it off.
    RemoveCover {
        /// Where.
        location: String,
    },
    /// Put a lamp in its holder.
    FitLamp {
        /// Which.
        lamp: String,
    },
    /// Take it out.
    RemoveLamp {
        /// Which.
        lamp: String,
    },
    /// Isolation: say which devices feed a location.
    Identify {
        /// Where.
        location: String,
        /// Every device that feeds it or may come to.
        devices: Vec<String>,
    },
    /// Isolation: get agreement to switch off.
    Agree,
    /// Switch a device off.
    PowerOff {
        /// Which.
        device: String,
    },
    /// Isolation: lock a device off and hang the label.
    LockOff {
        /// Which.
        device: String,
    },
    /// Take one's own lock and label off again.
    Unlock {
        /// Which.
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
    /// Continuity: the low-resistance meter's two probes on two points.
    Continuity {
        /// One probe.
        a: String,
        /// The other.
        b: String,
    },
    /// Inspection: look at every termination of a place before its plate goes on.
    Inspect {
        /// Where.
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
    },
    /// Say that something was wrong before the work began.
    Report {
        /// Where.
        at: String,
        /// What.
        what: Fault,
    },
    /// Get another of what was handed out.
    Change {
        /// What.
        kit: KitPart,
    },
    /// An energising check.
    Confirm {
        /// Which.
        check: Check,
    },
    /// What will happen with every device on and the switches set so. The first answer for a setting is the answer.
    Predict {
        /// A position for each switch of the exercise, in its order.
        positions: Vec<Setting>,
        /// Lamps that will light.
        lit: Vec<String>,
        /// Of the conductors asked about, those that will be energised.
        live: Vec<String>,
    },
    /// Switch a device on.
    PowerOn {
        /// Which.
        device: String,
    },
    /// Switch a device on that has opened by itself.
    Reset {
        /// Which.
        device: String,
    },
    /// Work a switch.
    Operate {
        /// Which.
        switch: String,
        /// To which position.
        position: Setting,
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

/// How a screw was driven.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Feel {
    /// Not as far as it should be.
    Slack,
    /// As it should be.
    #[default]
    Right,
    /// So hard that the conductor under it is damaged.
    Crushed,
}

impl Feel {
    /// Whether it is as it should be, which an attempt's file leaves out.
    pub const fn is_right(&self) -> bool {
        matches!(self, Self::Right)
    }
}

/// An energising check that only the learner can make.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Check {
    /// Nobody is working on the circuit.
    NobodyAtWork,
    /// The people in the building know that power is coming on.
    PeopleTold,
}

/// What is held to a conductor to find out whether it is dead.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Detector {
    /// A two-pole voltage indicator, as the guidance asks.
    #[default]
    Indicator,
    /// A voltage stick: one pole, no earth, no proof.
    Stick,
    /// A multimeter: on the wrong range or with a blown fuse it shows nothing.
    Multimeter,
}

impl Detector {
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it so")]
    const fn is_indicator(&self) -> bool {
        matches!(self, Self::Indicator)
    }
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it so")]
fn is_short(lead: &LeadLength) -> bool {
    *lead == LeadLength::Short
}

/// A line of the test sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Test {
    /// R1+R2: line and cpc linked at the board, the highest reading, ohms.
    R1R2,
    /// R2 by the long lead, the highest reading, ohms.
    R2,
    /// Insulation between line and neutral, megohms.
    InsulationLineNeutral,
    /// Insulation between line and earth, megohms.
    InsulationLineEarth,
    /// Insulation between neutral and earth, megohms.
    InsulationNeutralEarth,
    /// Polarity by continuity: no figure.
    Polarity,
    /// Polarity of the supply: no figure.
    SupplyPolarity,
    /// Zs as measured, ohms.
    Zs,
    /// Zs as Ze measured at the board and R1+R2, ohms.
    ZsSum,
    /// Operating time at the rated residual current, milliseconds.
    ResidualDevice,
}

impl Test {
    /// Every test, in the order of the sheet.
    pub const ALL: [Self; 10] = [
        Self::R1R2,
        Self::R2,
        Self::InsulationLineNeutral,
        Self::InsulationLineEarth,
        Self::InsulationNeutralEarth,
        Self::Polarity,
        Self::SupplyPolarity,
        Self::Zs,
        Self::ZsSum,
        Self::ResidualDevice,
    ];

    /// The word by which reports and the catalogue know it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::R1R2 => "r1-r2",
            Self::R2 => "r2",
            Self::InsulationLineNeutral => "insulation-line-neutral",
            Self::InsulationLineEarth => "insulation-line-earth",
            Self::InsulationNeutralEarth => "insulation-neutral-earth",
            Self::Polarity => "polarity",
            Self::SupplyPolarity => "supply-polarity",
            Self::Zs => "zs",
            Self::ZsSum => "zs-sum",
            Self::ResidualDevice => "residual-device",
        }
    }

    /// Whether it has a figure, or is a tick.
    pub const fn has_figure(self) -> bool {
        !matches!(self, Self::Polarity | Self::SupplyPolarity)
    }
}

/// What may have been wrong before the work began.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Fault {
    /// The circuit chart gives a circuit to the wrong device.
    Chart,
    /// The voltage indicator does not work.
    Indicator,
    /// Something in the wiring.
    Wiring,
}

/// What is handed out and can be had anew.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum KitPart {
    /// The voltage indicator, with its leads.
    Indicator,
}

impl Action {
    /// Whether this touches conductors, sleeves or screws, so that the place must be dead and proved so.
    pub const fn is_handwork(&self) -> bool {
        matches!(
            self,
            Self::Mark { .. }
                | Self::Unmark { .. }
                | Self::Connect { .. }
                | Self::Disconnect { .. }
                | Self::Tighten { .. }
                | Self::Sheath { .. }
                | Self::Cut { .. }
                | Self::Strip { .. }
                | Self::Fold { .. }
                | Self::Unfold { .. }
                | Self::Tug { .. }
                | Self::Grommet { .. }
                | Self::Dress { .. }
        )
    }

    /// What handwork other than a pull was done on: the address of an end, a terminal, a cable or a place.
    pub(super) fn worked_on(&self) -> Option<&str> {
        match self {
            Self::Mark { end: at, .. }
            | Self::Unmark { end: at }
            | Self::Connect { end: at, .. }
            | Self::Disconnect { end: at }
            | Self::Tighten { terminal: at, .. }
            | Self::Sheath { cable: at, .. }
            | Self::Cut { end: at, .. }
            | Self::Strip { end: at, .. }
            | Self::Fold { end: at }
            | Self::Unfold { end: at }
            | Self::Grommet { location: at }
            | Self::Dress { location: at } => Some(at),
            _ => None,
        }
    }

    /// Whether undo takes it back: work with conductors, sleeves, screws, plates and lamps.
    pub const fn is_undoable(&self) -> bool {
        self.is_handwork()
            || matches!(
                self,
                Self::MakeUp { .. }
                    | Self::FitCover { .. }
                    | Self::RemoveCover { .. }
                    | Self::FitLamp { .. }
                    | Self::RemoveLamp { .. }
            )
    }
}
