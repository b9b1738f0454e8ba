//! Slips: what a hand has done to the work before the learner comes, act by act, so that any defect that a hand can make may stand
//! in an exercise.
//!
//! They are the ordinary actions of the hand, written as an attempt's file writes them. This room knows which places they name;
//! whether a hand can do them is [`crate::work::slips_refused`]'s to say.

use serde::{Deserialize, Serialize};

use crate::trade::colour::{Colour, Mark};

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

/// One act of the hand that a scenario can say was done. Each means what the action of that name means in an attempt.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(missing_docs, reason = "fields and variants are those of the action of the same name")]
pub enum HandAct {
    Mark {
        end: String,
        mark: Mark,
    },
    Unmark {
        end: String,
    },
    Connect {
        end: String,
        terminal: String,
    },
    Disconnect {
        end: String,
    },
    Tighten {
        terminal: String,
        #[serde(default, skip_serializing_if = "Feel::is_right")]
        feel: Feel,
    },
    Sheath {
        cable: String,
        location: String,
        mm: u16,
    },
    Cut {
        end: String,
        mm: u16,
    },
    Strip {
        end: String,
        mm: u16,
        jaw: u16,
    },
    Fold {
        end: String,
    },
    Unfold {
        end: String,
    },
    Grommet {
        location: String,
    },
    Dress {
        location: String,
    },
    MakeUp {
        location: String,
        colour: Colour,
    },
    FitCover {
        location: String,
    },
    RemoveCover {
        location: String,
    },
    RemoveLamp {
        lamp: String,
    },
}

/// What an act names.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum SlipPlace<S> {
    End(S),
    Terminal(S),
    Cable(S),
    Location(S),
    Lamp(S),
}

macro_rules! places {
    ($act:expr) => {
        match $act {
            HandAct::Connect { end, terminal } => vec![SlipPlace::End(end), SlipPlace::Terminal(terminal)],
            HandAct::Mark { end, .. }
            | HandAct::Unmark { end }
            | HandAct::Disconnect { end }
            | HandAct::Cut { end, .. }
            | HandAct::Strip { end, .. }
            | HandAct::Fold { end }
            | HandAct::Unfold { end } => vec![SlipPlace::End(end)],
            HandAct::Tighten { terminal, .. } => vec![SlipPlace::Terminal(terminal)],
            HandAct::Sheath { cable, location, .. } => vec![SlipPlace::Cable(cable), SlipPlace::Location(location)],
            HandAct::Grommet { location }
            | HandAct::Dress { location }
            | HandAct::MakeUp { location, .. }
            | HandAct::FitCover { location }
            | HandAct::RemoveCover { location } => vec![SlipPlace::Location(location)],
            HandAct::RemoveLamp { lamp } => vec![SlipPlace::Lamp(lamp)],
        }
    };
}

impl HandAct {
    /// Whatever it names.
    pub(super) fn places(&self) -> Vec<SlipPlace<&String>> {
        places!(self)
    }

    /// The same, to be called otherwise.
    pub(super) fn places_mut(&mut self) -> Vec<SlipPlace<&mut String>> {
        places!(self)
    }
}
