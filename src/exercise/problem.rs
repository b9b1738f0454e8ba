//! What can be wrong with a file: a code, a place in the text, and what the sentence about it needs.

use std::{
    error::Error,
    fmt,
    ops::{Deref, Range},
    vec,
};

use super::misread::{Misread, other_file};

/// One thing wrong with a file. The sentence is made in [`crate::wording`] from the code and the arguments.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// What kind of thing.
    pub code: ProblemCode,
    /// Where, in bytes of the text.
    pub span: Range<usize>,
    /// What was found there.
    pub found: String,
    /// What was expected instead.
    pub expected: String,
    /// The sort of word that was expected ([`super::WordSort`]) or the entry that a field is of; empty for other problems.
    pub inside: String,
    /// The valid name nearest to what was found, if one is near.
    pub nearest: Option<String>,
}

/// Everything that is wrong with a file: one problem or more, in the order of the text where it matters.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problems(Vec<Problem>);

impl Problems {
    /// What was made from a file, unless something is wrong with it.
    pub(crate) fn or<T>(list: Vec<Problem>, made: T) -> Result<T, Self> {
        if list.is_empty() { Ok(made) } else { Err(Self(list)) }
    }
}

impl From<Problem> for Problems {
    fn from(it: Problem) -> Self {
        Self(vec![it])
    }
}

impl FromIterator<Problem> for Problems {
    fn from_iter<I: IntoIterator<Item = Problem>>(all: I) -> Self {
        Self(all.into_iter().collect())
    }
}

impl Deref for Problems {
    type Target = [Problem];

    fn deref(&self) -> &[Problem] {
        &self.0
    }
}

impl IntoIterator for Problems {
    type Item = Problem;
    type IntoIter = vec::IntoIter<Problem>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}

/// For programmers: codes and places. What a person reads is made by [`crate::wording::problem`].
impl fmt::Display for Problems {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, it) in self.0.iter().enumerate() {
            let between = if index > 0 { "; " } else { "" };
            write!(f, "{between}{} at byte {}", it.code.word(), it.span.start)?;
            if !it.found.is_empty() {
                write!(f, ": found {:?}", it.found)?;
            }
            if !it.expected.is_empty() {
                write!(f, ", expected {:?}", it.expected)?;
            }
        }
        Ok(())
    }
}

impl Error for Problems {}

/// The kinds of problem. The word is the key of the sentence in the catalogue.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case")]
pub enum ProblemCode {
    /// Something that a training board with no supply of its own does not have.
    NotOnBench,
    /// Wiring that is given, to be predicted, and not on a training board.
    GivenOnSupply,
    /// Something without a mark that is not of one look with the others, is joined already, or can't be told from them.
    BadUnmarked,
    /// More ways to name what has no mark than this version tries.
    TooManyNamings,
    /// Naming is asked for and nothing is without a mark, or the other way round.
    NamingOfNothing,
    /// The text is not of the shape expected; which was, by the key of its sentence.
    Syntax,
    /// The file is not one of the sort that was asked for.
    OtherFile,
    /// A word that may not stand there.
    UnknownWord,
    /// A field that an entry does not have.
    UnknownField,
    /// A field that an entry must have and has not; placed at its end.
    MissingField,
    /// A text of more bytes than the limits table allows.
    TooLarge,
    /// More locations than it allows; placed at the first over it, as the next three are.
    TooManyLocations,
    /// More rooms than it allows.
    TooManyRooms,
    /// More cables than it allows.
    TooManyCables,
    /// More switches than it allows; placed at the box that has the first over it.
    TooManySwitches,
    /// More protective devices than it allows.
    TooManyDevices,
    /// More entries in a list than it allows; placed at the first over it where that has a place.
    TooManyEntries,
    /// More lines in an attempt than it allows.
    TooManyLines,
    /// An action of more bytes than it allows.
    ActionTooLong,
    /// Written for another version of the format.
    Format,
    /// A name with characters that a name may not have, or too long.
    BadName,
    /// An id with characters that an id may not have.
    BadId,
    /// Two things with the same id.
    Duplicate,
    /// No such location.
    UnknownLocation,
    /// No such cable.
    UnknownCable,
    /// No such conductor.
    UnknownConductor,
    /// No such conductor end.
    UnknownEnd,
    /// No such terminal.
    UnknownTerminal,
    /// No such switch.
    UnknownSwitch,
    /// No such lamp.
    UnknownLamp,
    /// No such protective device.
    UnknownDevice,
    /// A room whose corners are not top left and bottom right.
    BadRoom,
    /// Two rooms that share more than a wall.
    RoomsOverlap,
    /// A location in no room, where there are rooms.
    OutsideRooms,
    /// A cable with both ends in one location.
    CableToItself,
    /// A cross-section that this kind of cable is not made in.
    BadSize,
    /// A cable to choose from that is not made for fixed wiring, or stands there twice; or nothing to choose.
    BadOffer,
    /// A number outside its range.
    BadNumber,
    /// A lamp that no control mentions.
    LampWithoutControl,
    /// A control with no switch, or one twice.
    BadControl,
    /// More conductors in a terminal than it takes.
    Overfilled,
    /// A conductor of a size that its terminal is not made for.
    TerminalSize,
    /// An end connected twice.
    ConnectedTwice,
    /// An end connected at a terminal of another location.
    ConnectedElsewhere,
    /// An accessory where none of its sort can be.
    WrongAccessory,
    /// A plate with no gang or too many.
    BadPlate,
    /// A device said to be behind another that stands in front of nothing.
    NotInFront,
    /// No protective device anywhere.
    NoDevice,
    /// Weights that add up to nothing, or to too much.
    BadWeights,
    /// An exercise of a kind that has a stage of its own, without that stage.
    BadCourse,
    /// A pass mark that nobody can reach, or that everybody does.
    BadPassMark,
    /// Something that may vary but cannot.
    BadVariation,
    /// A fault that this wiring can't have, or one stated by halves.
    BadSuspect,
    /// Faults to find and no stage in which they are named, or the other way round.
    BadSuspects,
    /// More combinations of switch positions than this version can try.
    TooManyCombinations,
    /// A reference for earth that is no socket, or one whose circuit is to be isolated.
    NoReference,
    /// An attempt whose first line names a different scenario from that of its exercise.
    OtherScenario,
    /// The digest in an attempt is not that of the exercise beside it.
    Digest,
    /// A line of an attempt without the sum that it should end with.
    NoSum,
    /// A line of an attempt whose sum is not that of the line and of the one before it.
    OtherSum,
    /// An attempt that stops before its exercise.
    CutShort,
    /// Something that is no date and time, or has no offset from UTC.
    BadTime,
    /// A time that should not be before another and is.
    TimesOutOfOrder,
    /// A list of which something must stand in it, with nothing in it.
    EmptyList,
    /// A scenario of an assignment whose digest is not the one beside it.
    ScenarioDigest,
    /// What an assignment says of hints does not go with what an exercise of it gives marks for.
    HintsDisagree,
    /// A line typed that begins with the name of no action.
    UnknownAction,
    /// An action that the work, as it then stood, does not allow.
    Refused,
}

impl ProblemCode {
    /// Every kind, for the tests that walk the table.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The word by which the catalogue knows it.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

impl Problem {
    /// A problem with no suggestion.
    pub fn new(code: ProblemCode, span: Range<usize>, found: impl Into<String>, expected: impl Into<String>) -> Self {
        Self { code, span, found: found.into(), expected: expected.into(), inside: String::new(), nearest: None }
    }

    /// The same problem in a text of which this one begins at byte `by`.
    #[must_use]
    pub(crate) fn moved(self, by: usize) -> Self {
        Self { span: self.span.start + by..self.span.end + by, ..self }
    }

    /// From what the RON reader said.
    pub fn from_ron(text: &str, error: &ron::error::SpannedError) -> Self {
        let Misread { code, found, expected, inside, nearest, span } = Misread::of(text, error);
        Self { code, span, found, expected, inside, nearest }
    }

    /// That a text is not the file that was asked for (by the key of its words), by how it begins; `None` if it may be.
    pub(crate) fn other_file(text: &str, asked: &str) -> Option<Self> {
        let start = text.len() - text.trim_start().len();
        let first_line = text[start..].lines().next().unwrap_or_default();
        let ours = match first_line.split_once('(') {
            Some(("Scenario", _)) => Some("file-kind-scenario"),
            Some(("Assignment", _)) => Some("file-kind-assignment"),
            Some(("", fields)) if fields.contains(",marking:") => Some("file-kind-attempt"),
            _ => None,
        };
        let kind = ours.or_else(|| other_file(text.as_bytes())).filter(|it| *it != asked)?;
        Some(Self::new(ProblemCode::OtherFile, start..start + first_line.len(), kind, asked))
    }

    /// Line and column of the start, both from 1, columns in characters.
    pub fn position(&self, text: &str) -> (usize, usize) {
        let before = text.get(..self.span.start).unwrap_or(text);
        let line_start = before.rfind('\n').map_or(0, |it| it + 1);
        (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
    }
}
