//! What the actions speak of: feels, reasons, checks, detectors, tests, faults, parts of the kit. What is said of the actions
//! themselves holds of these: a variant may be added, none is renamed or dropped.

use serde::{Deserialize, Serialize};

use crate::exercise::Outside;

/// Why one cable is chosen of those to choose from.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    strum::IntoStaticStr,
    strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Reason {
    /// Of these, one with fewer insulated conductors could not do it.
    Cores,
    /// Of these, a thinner one would not carry what the device lets through.
    Current,
    /// Of these, a thinner one would lose too much voltage on the way to the lamp.
    VoltDrop,
    /// Of these, a thinner one would not have a device open in time on a fault.
    Disconnection,
    /// Any of these would do.
    Any,
    /// It is what is always used.
    Usual,
}

impl Reason {
    /// Every reason, in the order they are offered.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The word by which reports and the catalogue know it.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

/// A check that only the learner can make: before power comes on, or before the board is opened.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Check {
    /// Nobody is working on the circuit.
    NobodyAtWork,
    /// The people in the building know that power is coming on.
    PeopleTold,
    /// Before the board is opened: other sources that may feed it were looked for.
    SecondSources,
    /// Before a board is opened whose tails stay live behind their shrouds: a supervisor is present.
    SupervisorPresent,
}

impl Check {
    /// Whether it belongs to the opening of the board, and not to power-on.
    pub const fn is_of_board(self) -> bool {
        matches!(self, Self::SecondSources | Self::SupervisorPresent)
    }
}

/// A switch in front of all the devices.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Incomer {
    /// The board's main switch.
    Main,
    /// The isolator between meter and board.
    Isolator,
}

/// What is done with the earthing conductor, between the supply's earth and the main earthing terminal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum EarthingStep {
    /// Taken off.
    Disconnect,
    /// Put back; its screw is loose.
    Connect,
    /// Its screw tightened.
    Tighten,
    /// Read through from end to end.
    ReadThrough,
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
    pub(super) const fn is_indicator(&self) -> bool {
        matches!(self, Self::Indicator)
    }
}

/// A line of the test sheet.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    strum::IntoStaticStr,
    strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Test {
    #[strum(serialize = "r1-r2")]
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
    /// Zs as Ze and R1+R2, ohms.
    ZsSum,
    /// Zs as Zdb and R1+R2, ohms.
    ZdbSum,
    /// Operating time at the rated residual current, milliseconds.
    ResidualDevice,
}

impl Test {
    /// Every test, in the order of the sheet.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The word by which reports and the catalogue know it.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// The sum of that and R1+R2.
    pub const fn sum_with(outside: Outside) -> Self {
        match outside {
            Outside::Ze => Self::ZsSum,
            Outside::Zdb => Self::ZdbSum,
        }
    }

    /// Whether it adds what is outside the circuit to what was read of it.
    pub const fn has_outside(self) -> bool {
        matches!(self, Self::ZsSum | Self::ZdbSum)
    }

    /// Whether it has a figure, or is a tick.
    pub const fn has_figure(self) -> bool {
        !matches!(self, Self::Polarity | Self::SupplyPolarity)
    }
}

/// Where what a line of the test sheet adds to the learner's own readings is from.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Source {
    /// Their own reading.
    #[default]
    Read,
    /// The supervisor's card.
    Card,
}

impl Source {
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it so")]
    pub(super) const fn is_read(&self) -> bool {
        matches!(self, Self::Read)
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

/// What an inspector says is wrong, in the words of the trade.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    strum::IntoStaticStr,
    strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Flaw {
    /// A screw is not tight.
    LooseScrew,
    /// An end is in no terminal.
    LooseEnd,
    /// Bare copper shows outside a terminal.
    BareCopper,
    /// A terminal bites on insulation.
    InsulationCaught,
    /// An end is not folded back where it should be, or is where it must not be.
    Fold,
    /// The strippers cut into the copper.
    Nicked,
    /// A screw was driven through a conductor.
    Crushed,
    /// A thick conductor keeps the screw off a thin one.
    UnlikeSizes,
    /// No sleeve or mark where one is needed.
    SleeveMissing,
    /// A sleeve or mark that says what the conductor is not.
    SleeveWrong,
    /// A protective conductor does not go through to the earth bar.
    CpcOpen,
    /// A protective conductor is used as line or neutral.
    CpcMisused,
    /// A metal plate or box lacks its tail.
    TailMissing,
    /// A metal box lacks its grommet.
    GrommetMissing,
    /// Cores run outside the enclosure without their sheath.
    SheathShort,
    /// A box is too shallow.
    BoxShallow,
    /// A cover has caught a core.
    CoreTrapped,
    /// Two conductors stand in each other's terminals.
    Crossed,
    /// A conductor is in the wrong terminal.
    WrongTerminal,
    /// A switch or a fuse is in the neutral.
    NeutralSwitched,
    /// Two circuits are joined, or one has the other's neutral.
    CircuitsJoined,
}

impl Flaw {
    /// Every one, in the order in which they are offered: what one end shows first, then what shows between several.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The word by which reports and the catalogue know it.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

/// What is handed out and can be had anew.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum KitPart {
    /// The voltage indicator, with its leads.
    Indicator,
}
