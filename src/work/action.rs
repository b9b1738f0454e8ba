//! The actions: everything a learner can do, as it stands in an attempt's file.
//!
//! Places are named by address (see the architecture of addresses in DEVELOPERS.md). An action is a promise to every
//! file ever saved: a variant or a field may be added, none is renamed or dropped without a new format number.

use serde::{Deserialize, Serialize};

use crate::trade::colour::{Colour, Mark};

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
    },
    /// Continuity: the low-resistance meter's two probes on two points.
    Continuity {
        /// One probe.
        a: String,
        /// The other.
        b: String,
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
