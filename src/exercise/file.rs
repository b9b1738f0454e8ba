//! The scenario file as it is written: plain shapes for serde, nothing checked yet.
//!
//! Unknown fields are refused everywhere. The same shape, with nothing left to vary, is the exercise as drawn that an
//! attempt carries on its second line.

use serde::{Deserialize, Serialize};

use super::{
    course::{CourseStep, ExerciseKind},
    kit::{Chart, Indicator, Keeper, Kit, Stands, Supply, Tails},
    outside::FedFile,
    placed::Placed,
    reference::ReferenceFile,
    room::RoomKind,
    slip::HandAct,
    suspect::SuspectFile,
    weights::Weights,
};
use crate::trade::{
    accessory::{Holder, LampKind, Lugs, Material},
    cable::CableKind,
    carrying::Laid,
    catalogue::Listed,
    colour::Mark,
    device::DeviceKind,
    supply::Earthing,
};

/// The edition of the wiring standard that references are given in (dates: `trade/facts.md`, section 11).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Edition {
    /// BS 7671:2018+A2:2022, with A3:2024. Withdrawn 15 October 2026; our regulation numbers are in its numbering.
    A2of2022,
    /// BS 7671:2018+A4:2026. Its numbering was not seen: references keep the older numbers, and the sheet says so.
    A4of2026,
}

impl Edition {
    /// The edition for work begun now.
    pub const IN_FORCE: Self = Self::A4of2026;
}

/// The edition as a file names it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename = "Edition")]
pub(super) enum EditionFile {
    /// The edition in force when the exercise is drawn; a drawn exercise names it.
    #[default]
    InForce,
    A2of2022,
    A4of2026,
}

impl EditionFile {
    pub const fn edition(self) -> Edition {
        match self {
            Self::InForce => Edition::IN_FORCE,
            Self::A2of2022 => Edition::A2of2022,
            Self::A4of2026 => Edition::A4of2026,
        }
    }

    pub const fn naming(edition: Edition) -> Self {
        match edition {
            Edition::A2of2022 => Self::A2of2022,
            Edition::A4of2026 => Self::A4of2026,
        }
    }
}

/// A stage of the work that an exercise asks for.
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
pub enum Stage {
    /// Identify, agree, isolate, lock off, prove dead, before any end is touched.
    Isolation,
    /// Each place of the work looked at before its plate goes on.
    Inspection,
    /// A continuity reading of the switched line in each position, lamp out; where insulation is asked for too, R1+R2 or R2
    /// of each circuit at each place.
    Continuity,
    /// Insulation resistance of each circuit, every pair of line, neutral and earth.
    Insulation,
    /// By continuity, in each position: the line comes to the lamp by way of its switches.
    #[strum(serialize = "dead-polarity")]
    Polarity,
    /// Covers on, nobody at work, people told, own lock off, before power-on.
    EnergisingChecks,
    /// What will happen in each position, said before power-on.
    Prediction,
    /// What is wrong, said from what was read.
    Diagnosis,
    /// Which is which of what has no mark, found out and said before it is joined.
    Naming,
    /// What is wrong in the work as it is found, each defect with its place.
    Observations,
    /// With the power on: voltage between line, neutral and earth of each circuit.
    SupplyPolarity,
    /// Loop impedance of each circuit.
    LoopImpedance,
    /// Operating time of each residual current device.
    ResidualDevice,
    /// Every switch worked with the power on.
    FunctionalTest,
}

impl Stage {
    /// Every stage.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The tests with the power on, in their order.
    pub const LIVE_TESTS: [Self; 3] = [Self::SupplyPolarity, Self::LoopImpedance, Self::ResidualDevice];

    /// The tests in which an instrument is read, in their order.
    pub const READ: [Self; 6] = [
        Self::Continuity,
        Self::Insulation,
        Self::Polarity,
        Self::SupplyPolarity,
        Self::LoopImpedance,
        Self::ResidualDevice,
    ];

    /// Whether an instrument is read in it.
    pub fn is_read(self) -> bool {
        Self::READ.contains(&self)
    }

    /// Whether it is a test with the power on.
    pub fn is_live_test(self) -> bool {
        Self::LIVE_TESTS.contains(&self)
    }

    /// The word by which reports and the catalogue know it.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

/// How new cables come to the learner.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Preparation {
    /// Every end made ready for its terminal.
    #[default]
    Prepared,
    /// Uncut and in their sheath: the learner makes each end ready.
    ByHand,
    /// Made off by somebody else, and well: every end that is connected can be looked at as one made off by hand.
    MadeOff,
}

impl Preparation {
    /// Whether it is the default, which a scenario need not write.
    #[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it so")]
    pub(super) fn is_usual(&self) -> bool {
        *self == Self::Prepared
    }
}

#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Scenario")]
pub(super) struct ScenarioFile<'a> {
    pub format: Placed<'a, u32>,
    #[serde(borrow)]
    pub id: Placed<'a, String>,
    pub title: Placed<'a, String>,
    pub place: Placed<'a, String>,
    pub brief: Placed<'a, String>,
    /// Where it stands in a course; an exercise as drawn says nothing of it.
    #[serde(default, borrow, skip_serializing_if = "Option::is_none")]
    pub course: Option<CourseFile<'a>>,
    #[serde(default)]
    pub edition: EditionFile,
    pub earthing: Earthing,
    pub locations: Vec<LocationFile<'a>>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rooms: Vec<RoomFile<'a>>,
    pub cables: Vec<CableFile<'a>>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub runs: Vec<RunFile<'a>>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub connected: Vec<ConnectedFile<'a>>,
    /// What a hand has done to that since, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub slips: Vec<Placed<'a, HandAct>>,
    pub controls: Vec<ControlFile<'a>>,
    pub stages: Vec<Placed<'a, Stage>>,
    #[serde(default, skip_serializing_if = "Preparation::is_usual")]
    pub preparation: Preparation,
    #[serde(default, skip_serializing_if = "Kit::is_sound")]
    pub kit: Kit,
    #[serde(default, borrow, skip_serializing_if = "ReferenceFile::is_nothing")]
    pub reference: ReferenceFile<'a>,
    /// Whether a hint may be asked for in set work; one that costs marks may be anyway.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub hints: bool,
    #[serde(default, skip_serializing_if = "Keeper::is_usual")]
    pub board: Keeper,
    #[serde(default, skip_serializing_if = "Tails::is_usual")]
    pub tails: Tails,
    #[serde(default, skip_serializing_if = "Supply::is_usual")]
    pub supply: Supply,
    #[serde(default, borrow, skip_serializing_if = "FedFile::is_usual")]
    pub fed: FedFile<'a>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub predict: Vec<Placed<'a, String>>,
    /// What may be wrong with the installation, out of sight.
    #[serde(default, borrow, skip_serializing_if = "Vec::is_empty")]
    pub suspects: Vec<SuspectFile<'a>>,
    /// Which of them it has, from 0.
    #[serde(default, skip_serializing_if = "is_first")]
    pub fault: u32,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub unmarked: Vec<UnmarkedFile<'a>>,
    #[serde(default)]
    pub weights: Weights,
    #[serde(default = "default_pass_mark")]
    pub pass_mark: u32,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub vary: Vec<VaryFile<'a>>,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it so")]
fn is_first(fault: &u32) -> bool {
    *fault == 0
}

const fn default_pass_mark() -> u32 {
    80
}

#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Course")]
pub(super) struct CourseFile<'a> {
    pub step: CourseStep,
    #[serde(borrow)]
    pub kind: Placed<'a, ExerciseKind>,
    pub minutes: Placed<'a, u32>,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Location")]
pub(super) struct LocationFile<'a> {
    #[serde(borrow)]
    pub id: Placed<'a, String>,
    pub name: Placed<'a, String>,
    /// Where it is drawn, in abstract units, x to the right and y down; with rooms, of a house cut open.
    pub at: (i16, i16),
    pub has: HasFile<'a>,
    /// Connectors under the cover of a rose, left from a fitting that was taken down.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub connectors: Option<Placed<'a, u8>>,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) enum HasFile<'a> {
    Board {
        #[serde(borrow)]
        devices: Vec<DeviceFile<'a>>,
    },
    Rose,
    Box {
        body: Material,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        lugs: Option<Lugs>,
        plate: Material,
        /// How deep it is, mm, if not the usual.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        depth_mm: Option<Placed<'a, f64>>,
        ways: Placed<'a, Vec<Listed>>,
        /// Names of its gangs, in the order of `ways`; a drawn exercise has their numbers instead.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        gangs: Option<Vec<Placed<'a, String>>>,
        #[serde(default)]
        connectors: Option<Placed<'a, u8>>,
        /// What the connectors are, if not the usual.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        connector: Option<Placed<'a, Listed>>,
    },
    Luminaire {
        holder: Holder,
        lamp: LampKind,
        watts: Placed<'a, f64>,
    },
    JunctionBox {
        kind: Placed<'a, Listed>,
    },
    Fan {
        kind: Placed<'a, Listed>,
        watts: Placed<'a, f64>,
        /// The lamp whose switch starts it.
        with: Placed<'a, String>,
        /// The linked switch that cuts it off from everything.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        isolator: Option<Placed<'a, String>>,
    },
}

/// A rectangle of a house cut open, in the units of a location's `at`.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Room")]
pub(super) struct RoomFile<'a> {
    #[serde(borrow)]
    pub name: Placed<'a, String>,
    pub kind: RoomKind,
    /// Its corner at the top left.
    pub from: Placed<'a, (i16, i16)>,
    /// Its corner at the bottom right.
    pub to: Placed<'a, (i16, i16)>,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Device")]
pub(super) struct DeviceFile<'a> {
    #[serde(borrow)]
    pub id: Placed<'a, String>,
    pub kind: DeviceKind,
    /// The circuit it feeds, as the chart in the board's lid has it.
    pub circuit: Placed<'a, String>,
    /// The residual current device in front of it, by its id on the same board.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub behind: Option<Placed<'a, String>>,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Cable")]
pub(super) struct CableFile<'a> {
    #[serde(borrow)]
    pub id: Placed<'a, String>,
    /// What people on site would call it.
    pub name: Placed<'a, String>,
    pub kind: CableKind,
    /// Cross-section of the live cores, mm².
    pub mm2: Placed<'a, f64>,
    pub metres: Placed<'a, f64>,
    pub from: Placed<'a, String>,
    pub to: Placed<'a, String>,
}

/// The way of a cable that the learner chooses. Before the choice no cable lies there.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Run")]
pub(super) struct RunFile<'a> {
    #[serde(borrow)]
    pub id: Placed<'a, String>,
    pub name: Placed<'a, String>,
    pub metres: Placed<'a, f64>,
    pub from: Placed<'a, String>,
    pub to: Placed<'a, String>,
    #[serde(default, skip_serializing_if = "Laid::is_usual")]
    pub laid: Laid,
    pub choose: Vec<OfferFile<'a>>,
}

/// A cable to choose from.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Offer")]
pub(super) struct OfferFile<'a> {
    #[serde(borrow)]
    pub kind: Placed<'a, CableKind>,
    /// Cross-section of the live cores, mm².
    pub mm2: Placed<'a, f64>,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Connected")]
pub(super) struct ConnectedFile<'a> {
    #[serde(borrow)]
    pub end: Placed<'a, String>,
    pub at: Placed<'a, String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mark: Option<Mark>,
    #[serde(default, skip_serializing_if = "Stands::is_usual")]
    pub stands: Stands,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Control")]
pub(super) struct ControlFile<'a> {
    #[serde(borrow)]
    pub lamp: Placed<'a, String>,
    /// Every toggle of any of these changes the lamp; no other switch does.
    pub switches: Vec<Placed<'a, String>>,
}

/// Things of one look at one place that nothing tells apart: cables that come in there, or the terminals of one switch. They stand in the order
/// in which they are seen.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Unmarked")]
pub(super) struct UnmarkedFile<'a> {
    #[serde(borrow)]
    pub at: Placed<'a, String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cables: Vec<Placed<'a, String>>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub terminals: Vec<Placed<'a, String>>,
}

#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) enum VaryFile<'a> {
    /// A cable's length, in half metres from the least to the most.
    Length {
        #[serde(borrow)]
        cable: Placed<'a, String>,
        least: Placed<'a, f64>,
        most: Placed<'a, f64>,
    },
    /// What kind a cable is of, its colours with it. Its cores are then named by their places in it, `drop/2`.
    Kind { cable: Placed<'a, String>, among: Placed<'a, Vec<CableKind>> },
    /// What a box's body is made of.
    Body { location: Placed<'a, String>, among: Placed<'a, Vec<Material>> },
    /// What a box's plate is made of.
    Plate { location: Placed<'a, String>, among: Placed<'a, Vec<Material>> },
    /// The lamp's rating, watts.
    Watts { lamp: Placed<'a, String>, among: Placed<'a, Vec<f64>> },
    /// In which order the named gangs of a plate stand; `called` is what each place of the plate is called, from the left: in `brief`,
    /// `{NAME}` stands for the place of the gang of that name.
    Gangs { location: Placed<'a, String>, called: Placed<'a, Vec<String>> },
    /// Which device feeds which circuit: their circuits and outgoing conductors are dealt out afresh.
    Devices { among: Vec<Placed<'a, String>> },
    /// Which of these ends of cores stands where: their places, each with its mark, are dealt out among them afresh.
    Ends { among: Vec<Placed<'a, String>> },
    /// How the voltage indicator is; a value that stands several times is as many times as likely.
    Indicator { among: Placed<'a, Vec<Indicator>> },
    /// Whether the circuit chart is right; likewise.
    Chart { among: Placed<'a, Vec<Chart>> },
    /// Whether a cable that the learner has no end of is there at all; likewise.
    Passing { cable: Placed<'a, String>, among: Placed<'a, Vec<Presence>> },
    /// Which of the `suspects` it has.
    Fault,
    /// In which order what has no mark at a place is seen there.
    Unmarked { at: Placed<'a, String> },
    /// Which of these slips stand in the work, after those that always do: from `least` to `most` of them, every choice as likely as another.
    Slips { least: Placed<'a, usize>, most: Placed<'a, usize>, among: Vec<SlipFile<'a>> },
}

/// A slip by its name: what a hand did to make it, in order.
#[derive(Debug, Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Slip")]
pub(super) struct SlipFile<'a> {
    #[serde(borrow)]
    pub name: Placed<'a, String>,
    pub done: Vec<Placed<'a, HandAct>>,
}

/// Whether something is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(super) enum Presence {
    There,
    Away,
}
