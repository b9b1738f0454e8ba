//! What is impossible in the hand: said, not logged.

use thiserror::Error;

/// Why an action is impossible as things stand. The sentence for the learner is made in [`crate::wording`].
#[derive(Debug, Clone, PartialEq, Eq, Error, strum::IntoStaticStr, strum::VariantNames)]
#[strum(serialize_all = "kebab-case")]
pub enum Refused {
    /// No such place.
    #[error("there is no `{address}`")]
    Unknown {
        /// The address given.
        address: String,
        /// The nearest valid one.
        nearest: Option<String>,
    },
    /// The plate or cover is in the way.
    #[error("the cover at `{location}` is on")]
    CoverOn {
        /// The place, by its address.
        location: String,
    },
    /// The lamp is in the way.
    #[error("the lamp at `{location}` is in")]
    LampIn {
        /// The place, by its address.
        location: String,
    },
    /// There is no cover there.
    #[error("there is no cover at `{location}`")]
    NoCover {
        /// The place, by its address.
        location: String,
    },
    /// The cover is on already.
    #[error("the cover at `{location}` is on already")]
    CoverFitted {
        /// The place, by its address.
        location: String,
    },
    /// The cover is off already.
    #[error("the cover at `{location}` is off already")]
    CoverRemoved {
        /// The place, by its address.
        location: String,
    },
    /// The core does not reach: the terminal is somewhere else.
    #[error("`{end}` does not reach `{terminal}`")]
    TooShort {
        /// The end.
        end: String,
        /// The terminal.
        terminal: String,
    },
    /// The terminal takes no more.
    #[error("`{terminal}` is full")]
    Full {
        /// The terminal.
        terminal: String,
    },
    /// The terminal is not made for a conductor of this size.
    #[error("`{terminal}` is not made for a conductor of this size")]
    WrongSize {
        /// The terminal.
        terminal: String,
    },
    /// The end is in a terminal already.
    #[error("`{end}` is in a terminal already")]
    AlreadyConnected {
        /// The end.
        end: String,
    },
    /// The end is in no terminal.
    #[error("`{end}` is in no terminal")]
    NotConnected {
        /// The end.
        end: String,
    },
    /// A sleeve does not go over a clamped end.
    #[error("a sleeve does not go on or off `{end}` while it is clamped")]
    Clamped {
        /// The end.
        end: String,
    },
    /// The end carries a mark already.
    #[error("`{end}` is marked already")]
    MarkedAlready {
        /// The end.
        end: String,
    },
    /// The end has no mark to take off.
    #[error("`{end}` has no mark")]
    NotMarked {
        /// The end.
        end: String,
    },
    /// It is not among the faults that the exercise states.
    #[error("that is not among the faults that this exercise states")]
    NoSuchFault,
    /// Nothing is made of that: bare copper is no sleeve, a link needs insulation or is a cpc.
    #[error("there is no such material")]
    NoSuchMaterial,
    /// The terminal is empty.
    #[error("there is nothing under the screw of `{terminal}`")]
    NothingToTighten {
        /// The terminal.
        terminal: String,
    },
    /// Its screw is tight.
    #[error("the screw of `{terminal}` is tight already")]
    TightAlready {
        /// The terminal.
        terminal: String,
    },
    /// The lamp is in its holder already.
    #[error("the lamp `{lamp}` is in already")]
    LampFitted {
        /// The lamp.
        lamp: String,
    },
    /// The lamp is out already.
    #[error("the lamp `{lamp}` is out already")]
    LampRemoved {
        /// The lamp.
        lamp: String,
    },
    /// The device is on already.
    #[error("`{device}` is on already")]
    OnAlready {
        /// The device.
        device: String,
    },
    /// The device is off already.
    #[error("`{device}` is off already")]
    OffAlready {
        /// The device.
        device: String,
    },
    /// The device has tripped and is reset, not switched on.
    #[error("`{device}` has tripped")]
    HasTripped {
        /// The device.
        device: String,
    },
    /// The learner's lock is on it already.
    #[error("`{device}` has the lock already")]
    LockedAlready {
        /// The device.
        device: String,
    },
    /// The learner's lock is not on it.
    #[error("`{device}` has no lock of yours")]
    NotLocked {
        /// The device.
        device: String,
    },
    /// A lock is on it.
    #[error("`{device}` is locked off")]
    Locked {
        /// The device.
        device: String,
    },
    /// The supervisor's lock is on it.
    #[error("the supervisor's lock is on `{device}`")]
    KeptOff {
        /// The device.
        device: String,
    },
    /// A lock does not go on a device that is on.
    #[error("`{device}` is on: a lock does not go on")]
    NotOff {
        /// The device.
        device: String,
    },
    /// It has not opened by itself.
    #[error("`{device}` has not opened by itself")]
    NotTripped {
        /// The device.
        device: String,
    },
    /// The probes cannot reach both.
    #[error("the probes do not reach from `{a}` to `{b}`")]
    OutOfReach {
        /// One.
        a: String,
        /// The other.
        b: String,
    },
    /// The exercise names no reference for earth: no probe is parked in it, and no word asked for.
    #[error("the exercise names no reference for earth")]
    NoReference,
    /// No probe is parked.
    #[error("no probe is parked")]
    NotParked,
    /// A probe is parked somewhere else: both were wanted.
    #[error("a probe is parked at `{at}`")]
    ProbeParked {
        /// The end or terminal that it is parked on.
        at: String,
    },
    /// The switch has no such position.
    #[error("`{switch}` has no such position")]
    NoSuchPosition {
        /// The switch.
        switch: String,
    },
    /// The switch is in that position already.
    #[error("`{switch}` is in that position already")]
    InPosition {
        /// The switch.
        switch: String,
    },
    /// The prediction does not fit the exercise, or is made already.
    #[error("a prediction for these positions is made already, or does not fit the exercise")]
    NoSuchQuestion,
    /// It has its mark, or is nothing to which a name can be given.
    #[error("no name is asked for at `{at}`")]
    NoNameAsked {
        /// What was to be named, by its address.
        at: String,
    },
    /// No such name is to be given there.
    #[error("nothing there is called `{called}`")]
    NoSuchName {
        /// The name.
        called: String,
    },
    /// What is named, or had that name, is joined already.
    #[error("`{at}` is joined: its name is settled until everything of it is out again")]
    NamedAndJoined {
        /// What is joined, by its address.
        at: String,
    },
    /// The work is somebody else's, to be looked over and left as it was found.
    #[error("this work is looked over, and left as it was found")]
    OnlyLooked,
    /// No such observation was made.
    #[error("that was not observed")]
    NotObserved,
    /// A link is there already.
    #[error("a test link is at `{a}` already")]
    LinkedAlready {
        /// One end.
        a: String,
    },
    /// There is no link there to take out.
    #[error("no test link is at `{a}`")]
    NoLink {
        /// One end.
        a: String,
    },
    /// Both ends of the link would be at one point.
    #[error("a test link from `{a}` to itself joins nothing")]
    LinkToItself {
        /// Both ends.
        a: String,
    },
    /// The switch in front of the devices is on already.
    #[error("that switch is on already")]
    IncomerOnAlready,
    /// The switch in front of the devices is off already.
    #[error("that switch is off already")]
    IncomerOffAlready,
    /// The learner's lock is on that switch already.
    #[error("that switch has the lock already")]
    IncomerLockedAlready,
    /// The learner's lock is not on that switch.
    #[error("that switch has no lock of yours")]
    IncomerNotLocked,
    /// The learner's lock is on that switch.
    #[error("that switch is locked off")]
    IncomerLocked,
    /// A lock does not go on a switch that is on.
    #[error("that switch is on: a lock does not go on")]
    IncomerOn,
    /// There is no isolator between meter and board.
    #[error("there is no isolator between meter and board")]
    NoIsolator,
    /// The board is not the learner's to open, or this attempt's format has no words for it.
    #[error("the board is not opened here")]
    NoBoardWork,
    /// There is no plug: the supply is the house's.
    #[error("there is no plug here")]
    NoPlug,
    /// The plug is in already.
    #[error("the plug is in already")]
    PlugIn,
    /// The plug is out already.
    #[error("the plug is out already")]
    PlugOut,
    /// The earthing conductor is that way already, or something comes first: back, tight, read through.
    #[error("the earthing conductor is that way already, or something comes first")]
    EarthingAlready,
    /// The supervisor's card has no such figure.
    #[error("no such figure stands on a card")]
    NotOnCard,
    /// No figure can be read from what was written: a few characters, digits with at most one point, and before
    /// them `<` or `>` where it went off the scale.
    #[error("no figure can be read from that")]
    BadFigure,
    /// Enough has been made up.
    #[error("no more links can be made up")]
    NothingLeft,
    /// Nothing to take back this side of the last safety step.
    #[error("there is nothing to take back")]
    NothingToUndo,
    /// Nothing was taken back.
    #[error("there is nothing to do again")]
    NothingToRedo,
    /// The end is in its sheath still.
    #[error("`{end}` is in its sheath still")]
    InSheath {
        /// The end.
        end: String,
    },
    /// The end came ready for its terminal: there is nothing to make.
    #[error("`{end}` came ready")]
    ComesPrepared {
        /// The end.
        end: String,
    },
    /// Nothing of the end is bare.
    #[error("nothing of `{end}` is bare")]
    NothingBare {
        /// The end.
        end: String,
    },
    /// The end is too short for the terminal; with more of the sheath taken back it reaches.
    #[error("`{end}` won't reach")]
    WontReach {
        /// The end.
        end: String,
    },
    /// The end was cut too short for the terminal, and there is not enough sheath left to take back.
    #[error("`{end}` was cut too short")]
    CutTooShort {
        /// The end.
        end: String,
    },
    /// Sheath, insulation and copper do not grow back: it only gets shorter or barer.
    #[error("`{at}` does not grow back")]
    NotBack {
        /// The place, by its address.
        at: String,
    },
    /// There is not so much of it.
    #[error("there is not so much of `{at}`")]
    NotSoMuch {
        /// The place, by its address.
        at: String,
    },
    /// The sheath there was taken back before the learner came.
    #[error("the sheath of {at} is off already")]
    SheathOff {
        /// The place, by its address.
        at: String,
    },
    /// It is that way already.
    #[error("`{at}` is that way already")]
    SoAlready {
        /// The place, by its address.
        at: String,
    },
    /// Nothing of the kind is wanted there.
    #[error("nothing of the kind is wanted at `{location}`")]
    NotHere {
        /// The place, by its address.
        location: String,
    },
    /// The jaw is too wide to cut the insulation.
    #[error("the jaw is too wide for `{end}`")]
    JawTooWide {
        /// The end.
        end: String,
    },
    /// The cable is still to be chosen.
    #[error("`{cable}` is still to be chosen")]
    NotChosen {
        /// The cable.
        cable: String,
    },
    /// That cable is not among those to choose from.
    #[error("there is no such cable to choose for `{cable}`")]
    NotOffered {
        /// The run it is for.
        cable: String,
    },
    /// The work is handed in.
    #[error("the work is handed in")]
    HandedIn,
}

impl Refused {
    /// The word by which the catalogue knows it.
    pub fn word(&self) -> &'static str {
        self.into()
    }

    /// Every word, for the test that walks the catalogue.
    pub const WORDS: &'static [&'static str] = <Self as strum::VariantNames>::VARIANTS;

    /// The address that the sentence is about, if it is about one.
    pub fn address(&self) -> Option<&str> {
        match self {
            Self::Unknown { address: it, .. }
            | Self::CoverOn { location: it }
            | Self::LampIn { location: it }
            | Self::NoCover { location: it }
            | Self::CoverFitted { location: it }
            | Self::CoverRemoved { location: it }
            | Self::TooShort { end: it, .. }
            | Self::Full { terminal: it }
            | Self::WrongSize { terminal: it }
            | Self::AlreadyConnected { end: it }
            | Self::NotConnected { end: it }
            | Self::InSheath { end: it }
            | Self::ComesPrepared { end: it }
            | Self::NothingBare { end: it }
            | Self::WontReach { end: it }
            | Self::CutTooShort { end: it }
            | Self::NotBack { at: it }
            | Self::NotSoMuch { at: it }
            | Self::SheathOff { at: it }
            | Self::SoAlready { at: it }
            | Self::ProbeParked { at: it }
            | Self::NotHere { location: it }
            | Self::JawTooWide { end: it }
            | Self::NotChosen { cable: it }
            | Self::NotOffered { cable: it }
            | Self::Clamped { end: it }
            | Self::MarkedAlready { end: it }
            | Self::NotMarked { end: it }
            | Self::NothingToTighten { terminal: it }
            | Self::TightAlready { terminal: it }
            | Self::LampFitted { lamp: it }
            | Self::LampRemoved { lamp: it }
            | Self::OnAlready { device: it }
            | Self::OffAlready { device: it }
            | Self::HasTripped { device: it }
            | Self::LockedAlready { device: it }
            | Self::NotLocked { device: it }
            | Self::Locked { device: it }
            | Self::KeptOff { device: it }
            | Self::NotOff { device: it }
            | Self::NotTripped { device: it }
            | Self::OutOfReach { a: it, .. }
            | Self::LinkedAlready { a: it }
            | Self::NoLink { a: it }
            | Self::LinkToItself { a: it }
            | Self::NoSuchPosition { switch: it }
            | Self::InPosition { switch: it } => Some(it),
            _ => None,
        }
    }
}
