//! What a moderator is handed: pieces of work with all that their marks follow from, so that each can be worked out again by somebody who
//! has nothing but this program.
//!
//! A bundle is a set of named texts: a list, the assignment, and four parts for each piece of work. They are put into a zip, since that is one file
//! to send, and opens everywhere. The sums in the list find what was changed by hand or damaged. Anybody who writes a program can make a list anew,
//! and what was decided follows from nothing else: so the whole file has a code, which goes to the moderator by another way.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{
    assignment::Assignment,
    decision::{Decided, Decision, MarkGiven, MarkLayer, People, Release, StepComment},
    hand_in::Earned,
    review::ReviewRow,
    sample::WhyChosen,
};
use crate::{attempt::sha256, marking::VERSION, report::Marked, wording::Wording};

/// Version of the form.
const FORMAT: u32 = 1;

/// A part of a piece of work in a bundle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case")]
pub enum BundlePart {
    /// The attempt, as it was handed in.
    Attempt,
    /// Its exercise, as it was drawn.
    Exercise,
    /// The machine's sheet, as `mark --json` writes it.
    Sheet,
    /// What people decided and released, and what stands.
    Layers,
}

words!(BundlePart);

/// The digests of those parts: SHA-256, 64 hexadecimal digits.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PartDigests {
    attempt: String,
    exercise: String,
    sheet: String,
    layers: String,
}

/// A piece of work in the list of a bundle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct BundledWork {
    /// The learner's number.
    pub learner: u64,
    /// The exercise.
    pub exercise: String,
    /// Which try it is, from 1.
    #[serde(rename = "try")]
    pub nth: u32,
    /// Why it was chosen.
    pub why: WhyChosen,
    /// The receipt that the learner was shown, whole; empty: it was not handed in.
    pub receipt: String,
    /// The digest of each part.
    pub sha256: PartDigests,
}

/// Parts, each by its name in a bundle.
pub type NamedParts = Vec<(String, Vec<u8>)>;

/// The list of a bundle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bundle {
    /// Version of this form.
    pub format: u32,
    /// Version of the program that made it.
    pub program: String,
    /// Version of the marking.
    pub marking: u32,
    /// Id of the assignment.
    pub assignment: String,
    /// The digest of its file, as attempts have it.
    pub assignment_sha256: String,
    /// When it was made, in UTC.
    pub made_at: String,
    /// What it is a record of, and no more.
    pub record: String,
    /// The seed from which some of the work was drawn.
    pub seed: Option<u64>,
    /// The work, in the order of the roster.
    pub works: Vec<BundledWork>,
}

/// The layers of a mark, as a bundle has them.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Layers {
    machine: MarkGiven,
    decisions: Vec<Decision>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    comments: Vec<StepComment>,
    stands: MarkGiven,
    by: Option<MarkLayer>,
    to_agree: bool,
    pub(super) releases: Vec<Release>,
}

/// Numbers for the people who decided, so that a bundle says whether two are one without saying who they are.
#[derive(Debug, Default)]
pub struct Deciders(BTreeMap<String, usize>);

impl Deciders {
    /// The same decisions and releases, each by its decider's number.
    pub fn numbered(&mut self, wording: &Wording, of: &People) -> People {
        let mut number = |by: &str| {
            let next = self.0.len() + 1;
            let number = self.0.entry(by.trim().to_owned()).or_insert(next).to_string();
            wording.say("bundle-person", &[("number", &number)])
        };
        let mut all = of.clone();
        all.decisions.iter_mut().for_each(|it| it.by = number(&it.by));
        all.comments.iter_mut().for_each(|it| it.by = number(&it.by));
        all.releases.iter_mut().for_each(|it| it.by = number(&it.by));
        all
    }
}

impl BundlePart {
    /// The name of this part of the work at that place of the list, counted from 0.
    pub fn name(self, place: usize) -> String {
        let ending = if matches!(self, Self::Sheet | Self::Layers) { "json" } else { "ron" };
        format!("{:04}/{}.{ending}", place.saturating_add(1), self.word())
    }
}

impl PartDigests {
    /// The digest of a part.
    pub fn of(&self, part: BundlePart) -> &str {
        match part {
            BundlePart::Attempt => &self.attempt,
            BundlePart::Exercise => &self.exercise,
            BundlePart::Sheet => &self.sheet,
            BundlePart::Layers => &self.layers,
        }
    }
}

impl Layers {
    pub(super) fn of(earned: &Earned, People { decisions, comments, releases }: People) -> Self {
        let Decided { given, by, to_agree } = Decided::of(earned, &decisions);
        Self { machine: MarkGiven::of(earned), decisions, comments, stands: given, by, to_agree, releases }
    }

    /// The layers that follow from the same decisions for work that earned this.
    pub(super) fn again(&self, earned: &Earned) -> Self {
        let (decisions, comments, releases) = (self.decisions.clone(), self.comments.clone(), self.releases.clone());
        Self::of(earned, People { decisions, comments, releases })
    }

    /// As they are written.
    ///
    /// # Errors
    /// None that is known: the form holds nothing that JSON can't express.
    pub(super) fn text(&self) -> Result<String, serde_json::Error> {
        pretty(self)
    }
}

impl BundledWork {
    /// Whether an attempt says of its learner anything but their number: a name, say.
    pub fn names_somebody(marked: &Marked) -> bool {
        let header = &marked.opened.header;
        header.assigned.as_ref().is_none_or(|it| it.learner.to_string() != header.learner.trim())
    }

    /// A piece of work and its parts by name: its file as it was handed in, marked by the templates of the assignment with no clock at hand.
    ///
    /// # Errors
    /// None that is known, as above.
    pub fn of(
        place: usize,
        (row, why): (&ReviewRow, WhyChosen),
        (bytes, marked): (Vec<u8>, &Marked),
        people: People,
        wording: &Wording,
    ) -> Result<(Self, NamedParts), serde_json::Error> {
        let earned = Earned::of(marked, wording);
        let parts = [
            (BundlePart::Attempt, bytes),
            (BundlePart::Exercise, exercise_text(marked).into_bytes()),
            (BundlePart::Sheet, sheet_text(marked, place)?.into_bytes()),
            (BundlePart::Layers, Layers::of(&earned, people).text()?.into_bytes()),
        ];
        let [attempt, exercise, sheet, layers] = parts.each_ref().map(|it| sha256(&it.1));
        let work = Self {
            learner: row.learner,
            exercise: row.exercise.clone(),
            nth: marked.opened.header.assigned.as_ref().map_or(0, |it| it.nth),
            why,
            receipt: marked.receipt.clone().unwrap_or_default(),
            sha256: PartDigests { attempt, exercise, sheet, layers },
        };
        Ok((work, parts.map(|(part, bytes)| (part.name(place), bytes)).into()))
    }
}

impl Bundle {
    /// The name of the list.
    pub const LIST: &str = "bundle.json";
    /// The name of the assignment.
    pub const ASSIGNMENT: &str = "assignment.ron";
    /// Pieces of work in one bundle: its list stays under a megabyte or two.
    pub const MOST: usize = 4000;

    /// A bundle of these pieces of work.
    pub fn new(assignment: &Assignment, made_at: String, seed: Option<u64>, wording: &Wording) -> Self {
        Self {
            format: FORMAT,
            program: env!("CARGO_PKG_VERSION").to_owned(),
            marking: VERSION,
            assignment: assignment.id.clone(),
            assignment_sha256: assignment.sha256.clone(),
            made_at,
            record: wording.say("report-practice-record", &[]),
            seed,
            works: Vec::new(),
        }
    }

    /// Reads a list; `None`: it is something else, or a list of a later form.
    pub fn read(text: &[u8]) -> Option<Self> {
        let it: Self = serde_json::from_slice(text).ok()?;
        (it.format == FORMAT && it.works.len() <= Self::MOST).then_some(it)
    }

    /// The list as it is written.
    ///
    /// # Errors
    /// None that is known, as above.
    pub fn text(&self) -> Result<String, serde_json::Error> {
        pretty(self)
    }

    /// Whether this program and its marking made it: another may say the same in other words.
    pub fn is_of_this_program(&self) -> bool {
        self.program == env!("CARGO_PKG_VERSION") && self.marking == VERSION
    }
}

/// The machine's sheet as a bundle has it.
pub(super) fn sheet_text(marked: &Marked, place: usize) -> Result<String, serde_json::Error> {
    Ok(marked.json(&BundlePart::Attempt.name(place))? + "\n")
}

/// The exercise as it was drawn: its digest is the one that the sheet names.
pub(super) fn exercise_text(marked: &Marked) -> String {
    marked.attempt.work().exercise().text().to_owned()
}

fn pretty(it: &impl Serialize) -> Result<String, serde_json::Error> {
    Ok(serde_json::to_string_pretty(it)? + "\n")
}
