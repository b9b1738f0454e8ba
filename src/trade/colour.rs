//! Core colours, their letter codes, and what a colour or a mark says about a conductor's job.
//!
//! Colours: BS 7671 Table 51 and BS EN 60445 (as reported in trade summaries; the tables themselves were not held).
//! Letter codes: IEC 60757.

use serde::{Deserialize, Serialize};

/// The colour of a core's insulation, of a sleeve or of tape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, strum::IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum Colour {
    /// Single-phase line since 2004.
    Brown,
    /// Neutral since 2004; a phase colour before.
    Blue,
    /// A phase colour since 2004; neutral before.
    Black,
    /// A phase colour since 2004.
    Grey,
    /// Line before 2004.
    Red,
    /// A phase colour before 2004.
    Yellow,
    /// Protective, at any date that matters here.
    GreenYellow,
    /// No insulation at all: the cpc of a flat cable.
    Bare,
}

/// Which set of colours a cable was made to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Era {
    /// Required for work begun after 31 March 2006; permitted from 31 March 2004 (BS 7671:2001 AMD 14905).
    Harmonised,
    /// The fixed-wiring colours before that.
    Before2004,
}

/// What a conductor is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Job {
    /// Line, switched line and strappers alike: anything that carries line potential at some time.
    Line,
    /// Neutral.
    Neutral,
    /// Circuit protective conductor.
    Protective,
}

/// A letter that may stand instead of a colour (BS 7671 Table 51, 514.5; from memory).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Letter {
    /// Line.
    L,
    /// Neutral.
    N,
    /// Protective earth.
    PE,
}

/// What a learner put on an end to identify it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Mark {
    /// Sleeving slid over the end.
    Sleeve(Colour),
    /// Tape wound round it.
    Tape(Colour),
    /// A letter ring or label.
    Letter(Letter),
}

impl Colour {
    /// Every colour, in the order of the declaration.
    pub const ALL: [Self; 8] =
        [Self::Brown, Self::Blue, Self::Black, Self::Grey, Self::Red, Self::Yellow, Self::GreenYellow, Self::Bare];

    /// The letter code of IEC 60757; bare copper has none and is written in brackets.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Brown => "BN",
            Self::Blue => "BU",
            Self::Black => "BK",
            Self::Grey => "GY",
            Self::Red => "RD",
            Self::Yellow => "YE",
            Self::GreenYellow => "GNYE",
            Self::Bare => "(bare)",
        }
    }

    /// The word used in addresses; it is also the key of the colour's name in the catalogue.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// Green-and-yellow or bare: exclusively a protective conductor (BS 7671 514.4.2).
    pub const fn is_protective(self) -> bool {
        matches!(self, Self::GreenYellow | Self::Bare)
    }

    /// What this colour alone says of a core in single-phase work of the given era; `None` for a phase colour, which
    /// says nothing until it is marked.
    pub const fn job(self, era: Era) -> Option<Job> {
        match (self, era) {
            (Self::GreenYellow | Self::Bare, _) => Some(Job::Protective),
            (Self::Brown, Era::Harmonised) | (Self::Red, Era::Before2004) => Some(Job::Line),
            (Self::Blue, Era::Harmonised) | (Self::Black, Era::Before2004) => Some(Job::Neutral),
            _ => None,
        }
    }
}

impl Mark {
    /// What the mark says on a cable of the given era; `None` for a mark that says nothing (grey tape, say).
    ///
    /// A new marking is right on old work too; an old marking only on a cable of its own date.
    pub const fn job(self, era: Era) -> Option<Job> {
        match self {
            Self::Letter(Letter::L) => Some(Job::Line),
            Self::Letter(Letter::N) => Some(Job::Neutral),
            Self::Letter(Letter::PE) => Some(Job::Protective),
            Self::Sleeve(colour) | Self::Tape(colour) => match colour {
                Colour::Brown => Some(Job::Line),
                Colour::Blue => Some(Job::Neutral),
                Colour::GreenYellow => Some(Job::Protective),
                other => other.job(era),
            },
        }
    }

    /// The colour that shows, if the mark has one.
    pub const fn colour(self) -> Option<Colour> {
        match self {
            Self::Sleeve(colour) | Self::Tape(colour) => Some(colour),
            Self::Letter(_) => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// IEC 60757 (national copy of IEC 757:1983): the two-letter codes.
    #[test]
    fn letter_codes_are_those_of_iec_60757() {
        let codes: Vec<_> = Colour::ALL.iter().map(|it| it.code()).collect();
        assert_eq!(codes, ["BN", "BU", "BK", "GY", "RD", "YE", "GNYE", "(bare)"]);
    }

    /// The clash that trade summaries of the 2004 change warn of: black and blue change places.
    #[test]
    fn black_and_blue_mean_different_things_before_and_after_2004() {
        assert_eq!(Colour::Black.job(Era::Before2004), Some(Job::Neutral));
        assert_eq!(Colour::Black.job(Era::Harmonised), None);
        assert_eq!(Colour::Blue.job(Era::Before2004), None);
        assert_eq!(Colour::Blue.job(Era::Harmonised), Some(Job::Neutral));
    }

    /// marking.md: old colours are judged by their own date; a new marking is right too.
    #[test]
    fn a_red_sleeve_marks_line_on_old_cable_only_and_a_brown_one_on_both() {
        assert_eq!(Mark::Sleeve(Colour::Red).job(Era::Before2004), Some(Job::Line));
        assert_eq!(Mark::Sleeve(Colour::Red).job(Era::Harmonised), None);
        for era in [Era::Harmonised, Era::Before2004] {
            assert_eq!(Mark::Sleeve(Colour::Brown).job(era), Some(Job::Line));
            assert_eq!(Mark::Tape(Colour::Blue).job(era), Some(Job::Neutral));
            assert_eq!(Mark::Letter(Letter::N).job(era), Some(Job::Neutral));
        }
    }
}
