//! What the drawing asks to have named.
//!
//! The names of places, cables and circuits come from the exercise and the letters on a plate are the trade's own.
//! Everything else that a picture says is a [`Label`], which somebody else puts into words: no sentence is written here.

use crate::{
    trade::{accessory::Holder, catalogue::WorkedBy},
    wording::Wording,
    work::Power,
};

/// A word or two on a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Label<'a> {
    /// Where a cable goes: "to the larder rose".
    To(&'a str),
    /// The back of a plate with this number of gangs: that it is seen from behind and, if there are two, that left and right
    /// have changed places.
    PlateFromBehind {
        /// How many.
        gangs: usize,
    },
    /// One switch of several, as named from the front.
    Gang {
        /// From 0, left to right as seen from the front.
        gang: usize,
        /// How many there are.
        of: usize,
    },
    /// The only switch of a plate.
    OnlyGang,
    /// How what a switch is worked by stands.
    Worked {
        /// What that is.
        by: WorkedBy,
        /// A rocker pressed at the bottom, a cord that has been pulled, a knob that has been pushed.
        down: bool,
    },
    /// The row of terminals of an accessory that has no switch: that its lid is off.
    LidOff,
    /// That a rose's cover is off.
    CoverOff,
    /// That a board's cover is on, with its test points in front.
    TestPoints,
    /// That a cover or a lid is on, and only left out of the picture.
    CoverLifted,
    /// The earth terminal of a box.
    BoxEarth,
    /// The earth terminal of a plate.
    PlateEarth,
    /// A connector, numbered from 1.
    Connector(u8),
    /// A rose block, by its place in [`crate::trade::accessory::ROSE_TERMINALS`].
    Rose(u8),
    /// A contact of a lampholder, by its place in [`Holder::terminals`].
    Contact(Holder, u8),
    /// A device's outgoing line.
    DeviceLine,
    /// A device's outgoing neutral.
    DeviceNeutral,
    /// The earth bar of a board.
    EarthBar,
    /// A cable that has no mark and no name yet, by its place among those of its look, from 0.
    UnmarkedCable(usize),
    /// A terminal that has no letter and no name yet; likewise.
    UnmarkedTerminal(usize),
    /// That nobody has found out yet where a cable goes.
    GoesSomewhere,
    /// That a cable is called so by the learner.
    NamedByLearner,
    /// A terminal whose screw is not tight.
    Slack,
    /// A device's lever.
    Power(Power),
    /// That a device is locked off.
    Locked,
    /// That there is no lamp in a holder.
    NoLamp,
    /// That a lamp is lit.
    Lit,
    /// That a lamp glows, but is not lit as it should be.
    Dim,
}

impl Label<'_> {
    /// The key of its words in a catalogue.
    pub const fn key(self) -> &'static str {
        match self {
            Self::To(_) => "picture-to",
            Self::PlateFromBehind { gangs: 2.. } => "picture-plate-from-behind-mirrored",
            Self::PlateFromBehind { .. } => "picture-plate-from-behind",
            Self::Gang { of: 3.., .. } => "picture-gang-of-several",
            Self::Gang { gang: 0, .. } => "picture-gang-left",
            Self::Gang { .. } => "picture-gang-right",
            Self::OnlyGang => "picture-gang-only",
            Self::Worked { by: WorkedBy::Cord, down: true } => "picture-cord-pulled",
            Self::Worked { by: WorkedBy::Cord, down: false } => "picture-cord-let-go",
            Self::Worked { by: WorkedBy::Knob, down: true } => "picture-knob-on",
            Self::Worked { by: WorkedBy::Knob, down: false } => "picture-knob-off",
            Self::Worked { by: WorkedBy::Push, down: true } => "picture-push-in",
            Self::Worked { by: WorkedBy::Push, down: false } => "picture-push-out",
            Self::Worked { down: true, .. } => "picture-rocker-down",
            Self::Worked { down: false, .. } => "picture-rocker-up",
            Self::LidOff => "picture-lid-off",
            Self::CoverOff => "picture-cover-off",
            Self::TestPoints => "picture-test-points",
            Self::CoverLifted => "picture-cover-lifted",
            Self::BoxEarth => "picture-box-earth",
            Self::PlateEarth => "picture-plate-earth",
            Self::Connector(_) => "picture-connector",
            Self::Rose(0) => "picture-rose-loop",
            Self::Rose(1) => "picture-rose-neutral",
            Self::Rose(2) => "picture-rose-switched",
            Self::Rose(_) => "picture-rose-earth",
            Self::Contact(Holder::Bayonet, 0) => "picture-contact-1",
            Self::Contact(Holder::Bayonet, _) => "picture-contact-2",
            Self::Contact(Holder::Screw, 0) => "picture-contact-centre",
            Self::Contact(Holder::Screw, _) => "picture-contact-outer",
            Self::DeviceLine => "picture-device-line",
            Self::DeviceNeutral => "picture-device-neutral",
            Self::EarthBar => "picture-earth-bar",
            Self::UnmarkedCable(0) => "unmarked-cable-1",
            Self::UnmarkedCable(1) => "unmarked-cable-2",
            Self::UnmarkedCable(2) => "unmarked-cable-3",
            Self::UnmarkedCable(3) => "unmarked-cable-4",
            Self::UnmarkedCable(_) => "unmarked-cable-5",
            Self::UnmarkedTerminal(_) => "picture-unmarked-terminal",
            Self::GoesSomewhere => "picture-goes-somewhere",
            Self::NamedByLearner => "picture-named-by-learner",
            Self::Slack => "picture-slack",
            Self::Power(Power::On) => "picture-on",
            Self::Power(Power::Off) => "picture-off",
            Self::Power(Power::Tripped) => "picture-tripped",
            Self::Locked => "picture-locked",
            Self::NoLamp => "picture-no-lamp",
            Self::Lit => "picture-lit",
            Self::Dim => "picture-dim",
        }
    }

    /// Every key, for the test that walks the catalogue.
    pub const KEYS: &'static [&'static str] = &[
        "picture-to",
        "picture-plate-from-behind-mirrored",
        "picture-plate-from-behind",
        "picture-gang-left",
        "picture-gang-right",
        "picture-gang-only",
        "picture-gang-of-several",
        "picture-rocker-down",
        "picture-rocker-up",
        "picture-cord-pulled",
        "picture-cord-let-go",
        "picture-knob-on",
        "picture-knob-off",
        "picture-lid-off",
        "picture-cover-off",
        "picture-test-points",
        "picture-cover-lifted",
        "picture-box-earth",
        "picture-plate-earth",
        "picture-connector",
        "picture-rose-loop",
        "picture-rose-neutral",
        "picture-rose-switched",
        "picture-rose-earth",
        "picture-contact-1",
        "picture-contact-2",
        "picture-contact-centre",
        "picture-contact-outer",
        "picture-device-line",
        "picture-device-neutral",
        "picture-earth-bar",
        "unmarked-cable-1",
        "unmarked-cable-2",
        "unmarked-cable-3",
        "unmarked-cable-4",
        "unmarked-cable-5",
        "picture-unmarked-terminal",
        "picture-goes-somewhere",
        "picture-named-by-learner",
        "picture-slack",
        "picture-on",
        "picture-off",
        "picture-tripped",
        "picture-locked",
        "picture-no-lamp",
        "picture-lit",
        "picture-dim",
    ];

    /// The argument that the words take: a place's name for `To`, a number for `Connector` and for a gang of several.
    pub fn argument(self) -> Option<String> {
        match self {
            Self::To(place) => Some(place.to_owned()),
            Self::Connector(number) => Some(number.to_string()),
            Self::Gang { gang, of: 3.. } => Some((gang + 1).to_string()),
            Self::UnmarkedTerminal(place) => Some((place + 1).to_string()),
            _ => None,
        }
    }
}

/// Whoever puts labels into words.
pub trait Words {
    /// The words of a label.
    fn say(&self, label: Label<'_>) -> String;
}

impl Words for Wording {
    fn say(&self, label: Label<'_>) -> String {
        let name = if matches!(label, Label::To(_)) { "place" } else { "number" };
        self.say(label.key(), &[(name, label.argument().unwrap_or_default().as_str())])
    }
}
