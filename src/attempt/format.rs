//! The formats of an attempt file. What an attempt allows, refuses and stops is a matter of its format.

use std::fmt;

use serde::{Serialize, Serializer};

/// A format of attempt files. Every format is read and marked for good; new files are written in the newest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Format {
    /// The first: lines without sums.
    One,
    /// Each line ends with a sum over itself and the one before. Dead tests against an earth.
    Two,
}

impl Format {
    /// Every format, oldest first.
    pub const ALL: [Self; 2] = [Self::One, Self::Two];
    /// The one that a new attempt is written in.
    pub const NEWEST: Self = Self::Two;

    /// The format of that number, if there is one.
    pub fn of(number: u32) -> Option<Self> {
        Self::ALL.into_iter().find(|it| it.number() == number)
    }

    /// Its number, as a file's first line has it.
    pub const fn number(self) -> u32 {
        match self {
            Self::One => 1,
            Self::Two => 2,
        }
    }

    /// Whether it has actions for dead tests against an earth shown to be one: a parked probe, the learner's "dead".
    pub const fn has_parking(self) -> bool {
        matches!(self, Self::Two)
    }

    /// Whether it has the actions for the board as a place to be opened, locked and proved: its cover, the locks in
    /// front of it, its tails. Without them the board counts as open while the work's devices are locked.
    pub const fn has_board(self) -> bool {
        matches!(self, Self::Two)
    }

    /// Whether a fitted plate keeps probes out. In the first format live readings were taken through its screw holes.
    pub const fn has_closed_plates(self) -> bool {
        matches!(self, Self::Two)
    }

    /// Whether each line ends with a sum.
    pub const fn has_sums(self) -> bool {
        matches!(self, Self::Two)
    }
}

impl fmt::Display for Format {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.number().fmt(f)
    }
}

impl Serialize for Format {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_u32(self.number())
    }
}
