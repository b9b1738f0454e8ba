//! The words that a scenario is written with, sort by sort, as the types that read them have them.

use ron::error::SpannedError;
use serde::Deserialize;

use super::{
    course::{CourseStep, ExerciseKind},
    file::{
        CableFile, ConnectedFile, ControlFile, CourseFile, DeviceFile, EditionFile, HasFile, LocationFile, OfferFile,
        Preparation, Presence, RoomFile, RunFile, ScenarioFile, SlipFile, Stage, UnmarkedFile, VaryFile,
    },
    kit::{Chart, Indicator, Keeper, Kit, Stands, Supply, Tails},
    outside::FedFile,
    placed::options,
    reference::ReferenceFile,
    room::RoomKind,
    slip::{Feel, HandAct},
    suspect::{FaultKind, SuspectFile},
    weights::Weights,
};
use crate::trade::{
    accessory::{Holder, LampKind, Lugs, Material},
    cable::CableKind,
    carrying::Laid,
    catalogue::Listed,
    colour::{Colour, Letter, Mark},
    device::DeviceKind,
    supply::Earthing,
};

/// The fields of an entry or of what a word begins. An error about one of them lists them.
macro_rules! fields {
    ($of:ty, $probe:expr) => {
        match options().from_str::<$of>($probe) {
            Err(SpannedError { code: ron::Error::NoSuchStructField { expected, .. }, .. }) => expected,
            _ => &[],
        }
    };
}

/// A sort of words: those of which one may stand in a place of the format.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case")]
pub enum WordSort {
    /// What stands at a location: `has`.
    Has,
    /// An accessory of the catalogue: `ways`, `kind` of a junction box or a fan, `connector`.
    Accessory,
    /// A kind of cable.
    Cable,
    /// A protective device.
    Device,
    /// How the supply is earthed.
    Earthing,
    /// A stage of the work.
    Stage,
    /// Something that may vary.
    Vary,
    /// What a box or plate is made of.
    Material,
    /// How a box takes the plate's screws.
    Lugs,
    /// A lampholder.
    Holder,
    /// A kind of lamp.
    Lamp,
    /// How an end is marked.
    Mark,
    /// The colour of a sleeve or tape.
    Colour,
    /// A letter on a core.
    Letter,
    /// For how long an end is connected.
    Stands,
    /// Who sees to the board.
    Keeper,
    /// What is between the meter and the main switch.
    Tails,
    /// Where the supply comes from.
    Supply,
    /// What feeds the board.
    Fed,
    /// What earths are shown from.
    Reference,
    /// How new cables come to the learner.
    Preparation,
    /// How the voltage indicator is.
    Indicator,
    /// How the circuit chart is.
    Chart,
    /// Whether a cable is there.
    Presence,
    /// A kind of room.
    Room,
    /// How a cable to choose is laid.
    Laid,
    /// A kind of fault to find.
    Fault,
    /// The edition of the standard.
    Edition,
    /// What a hand has done: `slips`.
    HandAct,
    /// How a screw was driven.
    Feel,
    /// A step of a course.
    Step,
    /// What a learner does in an exercise, in the main.
    Kind,
}

impl WordSort {
    /// Every sort, the commonest first.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The word by which the catalogue of sentences knows it.
    pub fn word(self) -> &'static str {
        self.into()
    }

    /// The words of it, in the order of the code.
    pub fn words(self) -> &'static [&'static str] {
        match self {
            Self::Has => words::<HasFile<'_>>(),
            Self::Accessory => words::<Listed>(),
            Self::Cable => words::<CableKind>(),
            Self::Device => words::<DeviceKind>(),
            Self::Earthing => words::<Earthing>(),
            Self::Stage => words::<Stage>(),
            Self::Vary => words::<VaryFile<'_>>(),
            Self::Material => words::<Material>(),
            Self::Lugs => words::<Lugs>(),
            Self::Holder => words::<Holder>(),
            Self::Lamp => words::<LampKind>(),
            Self::Mark => words::<Mark>(),
            Self::Colour => words::<Colour>(),
            Self::Letter => words::<Letter>(),
            Self::Stands => words::<Stands>(),
            Self::Keeper => words::<Keeper>(),
            Self::Tails => words::<Tails>(),
            Self::Supply => words::<Supply>(),
            Self::Fed => words::<FedFile<'_>>(),
            Self::Reference => words::<ReferenceFile<'_>>(),
            Self::Preparation => words::<Preparation>(),
            Self::Indicator => words::<Indicator>(),
            Self::Chart => words::<Chart>(),
            Self::Presence => words::<Presence>(),
            Self::Room => words::<RoomKind>(),
            Self::Laid => words::<Laid>(),
            Self::Fault => words::<FaultKind>(),
            Self::Edition => words::<EditionFile>(),
            Self::HandAct => words::<HandAct>(),
            Self::Feel => words::<Feel>(),
            Self::Step => words::<CourseStep>(),
            Self::Kind => words::<ExerciseKind>(),
        }
    }

    /// The sort that a list of words is of, as whoever reads one of them has it.
    pub(super) fn of(words: &[&str]) -> Option<Self> {
        Self::ALL.iter().copied().find(|it| it.words() == words)
    }
}

impl WordSort {
    /// How one of its words is written, with the fields that go with it: `Luminaire(holder, lamp, watts)`.
    pub fn form(self, word: &str) -> String {
        let probe = format!("{word}(no_such_field: 0)");
        let fields: &[&str] = match self {
            Self::Has => fields!(HasFile<'_>, &probe),
            Self::Vary => fields!(VaryFile<'_>, &probe),
            Self::HandAct => fields!(HandAct, &probe),
            Self::Mark => return format!("{word}(…)"),
            Self::Reference if word == "Socket" => return format!("{word}(\"…\")"),
            // It takes fields that it does not know, and so does not say which it knows.
            Self::Fed if word == "Board" => &["mm2", "metres"],
            _ => &[],
        };
        if fields.is_empty() { word.to_owned() } else { format!("{word}({})", fields.join(", ")) }
    }
}

/// Every entry that a scenario may hold, with the names of its fields in their order.
pub fn entries() -> Vec<(&'static str, Vec<&'static str>)> {
    /// What a field was once called: older files have it still.
    const OLDER: &str = "tightness";
    let entries: [(&str, &[&str]); 15] = [
        ("Scenario", fields!(ScenarioFile<'_>, "(no_such_field: 0)")),
        ("Course", fields!(CourseFile<'_>, "(no_such_field: 0)")),
        ("Location", fields!(LocationFile<'_>, "(no_such_field: 0)")),
        ("Device", fields!(DeviceFile<'_>, "(no_such_field: 0)")),
        ("Room", fields!(RoomFile<'_>, "(no_such_field: 0)")),
        ("Cable", fields!(CableFile<'_>, "(no_such_field: 0)")),
        ("Run", fields!(RunFile<'_>, "(no_such_field: 0)")),
        ("Offer", fields!(OfferFile<'_>, "(no_such_field: 0)")),
        ("Connected", fields!(ConnectedFile<'_>, "(no_such_field: 0)")),
        ("Slip", fields!(SlipFile<'_>, "(no_such_field: 0)")),
        ("Control", fields!(ControlFile<'_>, "(no_such_field: 0)")),
        ("Suspect", fields!(SuspectFile<'_>, "(no_such_field: 0)")),
        ("Unmarked", fields!(UnmarkedFile<'_>, "(no_such_field: 0)")),
        ("Weights", fields!(Weights, "(no_such_field: 0)")),
        ("Kit", fields!(Kit, "(no_such_field: 0)")),
    ];
    entries.map(|(entry, fields)| (entry, fields.iter().copied().filter(|it| *it != OLDER).collect())).to_vec()
}

/// The words that a type is read from. An error about one of them lists them.
fn words<T: Deserialize<'static>>() -> &'static [&'static str] {
    match options().from_str::<T>("NoSuchWord") {
        Err(SpannedError { code: ron::Error::NoSuchEnumVariant { expected, .. }, .. }) => expected,
        _ => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_sort_has_its_words_and_is_known_by_them() {
        for sort in WordSort::ALL {
            assert!(sort.words().len() > 1, "{sort:?}");
            assert_eq!(WordSort::of(sort.words()), Some(*sort));
        }
        for (entry, fields) in entries() {
            assert!(!fields.is_empty(), "{entry}");
        }
        assert_eq!(WordSort::Has.form("Luminaire"), "Luminaire(holder, lamp, watts)");
        assert_eq!(WordSort::Has.form("Rose"), "Rose");
        assert_eq!(WordSort::Lamp.words(), ["Filament", "Led"]);
        assert_eq!(WordSort::of(&["Filament"]), None);
    }
}
