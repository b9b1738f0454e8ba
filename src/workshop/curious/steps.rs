//! What one does in the see-through house, one after the other, and every act that is possible there.

use switchdrop::{
    exercise::{EndId, SwitchId, TerminalId},
    reason::{PassageCore, WhatIf},
};

/// What one does there, one after the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CuriousStep {
    /// Press the switches of a passage that works.
    Play,
    /// Say whether two wires would do.
    Guess,
    /// Take a core off.
    Pull,
    /// Join the wires any way.
    Beat,
    /// Have every way counted.
    Try,
    /// The reason why two do not do.
    Two,
    /// The reason why three do, and what is true of it.
    Three,
    /// Other houses: what is dangerous, what needs care, where it goes.
    WhatIf,
}

impl CuriousStep {
    /// Every one, in order.
    pub const ALL: [Self; 8] =
        [Self::Play, Self::Guess, Self::Pull, Self::Beat, Self::Try, Self::Two, Self::Three, Self::WhatIf];

    /// The key of its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Play => "curious-play",
            Self::Guess => "curious-guess",
            Self::Pull => "curious-pull",
            Self::Beat => "curious-beat",
            Self::Try => "curious-try",
            Self::Two => "curious-two",
            Self::Three => "curious-three",
            Self::WhatIf => "curious-what-if",
        }
    }

    /// The step that many further on, if there is one.
    pub fn on(self, by: isize) -> Option<Self> {
        let here = Self::ALL.iter().position(|it| *it == self)?;
        Self::ALL.get(here.checked_add_signed(by)?).copied()
    }
}

/// What somebody thinks before trying.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Guess {
    /// Two would do.
    Yes,
    /// Two would not.
    No,
    /// Nobody knows yet.
    Unsure,
}

/// A sentence about the third wire, to pick.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pick {
    /// The reason.
    True,
    /// That it is a spare.
    Spare,
    /// That L1 and L2 are both live.
    Phases,
}

/// With how many wires something is tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wires {
    /// Two.
    Two,
    /// Three.
    Three,
}

impl Wires {
    /// Both.
    pub const BOTH: [Self; 2] = [Self::Two, Self::Three];

    /// How many.
    pub const fn count(self) -> usize {
        match self {
            Self::Two => 2,
            Self::Three => 3,
        }
    }
}

/// What can be done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CuriousAct {
    /// Come in.
    Enter,
    /// Go to a step.
    Go(CuriousStep),
    /// Press a switch.
    Press(SwitchId),
    /// Say what one thinks.
    Guess(Guess),
    /// Take a core off, or put it back.
    Turn(PassageCore),
    /// Take hold of an end, or let it go.
    Hold(EndId),
    /// Put an end on a screw.
    Put(EndId, TerminalId),
    /// Put the covers back, which brings the supply on.
    Close,
    /// Go to the setting that tells most.
    ShowMe,
    /// Join this number of wires, from the start.
    Join(Wires),
    /// Join them again as in a try, by its number from the last.
    Again(usize),
    /// Have every way with this number of wires tried.
    Count(Wires),
    /// Have what is still being counted off shown at once.
    Finish,
    /// Open one of the ways of a class, by its number in the count.
    Open(Wires, usize),
    /// Back to the counts.
    Wall,
    /// Pick a sentence.
    Pick(Pick),
    /// Go to another house.
    WhatIf(WhatIf),
    /// Put a hand where it may be live, or take it away.
    Hand,
    /// Take the last thing back that was done to the house.
    Undo,
    /// Do it as an electrician does: go to the exercise.
    Exercise,
}

impl CuriousAct {
    /// Whether something else stands under the pointer afterwards. A rocker may be pressed again at once.
    pub const fn turns(self) -> bool {
        matches!(
            self,
            Self::Enter
                | Self::Go(_)
                | Self::Turn(_)
                | Self::Close
                | Self::Count(_)
                | Self::Join(_)
                | Self::Open(..)
                | Self::Wall
                | Self::WhatIf(_)
                | Self::Exercise
        )
    }
}
