//! A file that was handed in, beside its assignment: whose it is, what is odd about it, what it earned.

use serde::{Deserialize, Deserializer, Serialize, de::Error};

use super::{
    adjustment::Adjustment, assignment::Assignment, decision::People, flag::Flag, learner::seed_of, paths::PathMapping,
    timing::OddTime,
};
use crate::{
    attempt::{Assigned, Mode, assigned_of},
    exercise::AtHand,
    marking::{Code, Criterion, Notice, Outcome, Root, Weight},
    report::{Marked, receipt_code},
    wording::{Wording, finding},
};

/// A word of one of the lists: read back from a file, it is the list's own.
pub(super) type KnownWord = &'static str;

/// Reads one of these words.
fn known<'de, D: Deserializer<'de>>(from: D, mut all: impl Iterator<Item = KnownWord>) -> Result<KnownWord, D::Error> {
    let written = String::deserialize(from)?;
    all.find(|it| *it == written).ok_or_else(|| D::Error::custom(format!("unknown word `{written}`")))
}

fn code<'de, D: Deserializer<'de>>(from: D) -> Result<KnownWord, D::Error> {
    known(from, Code::ALL.iter().map(|it| it.word()))
}

fn weight<'de, D: Deserializer<'de>>(from: D) -> Result<KnownWord, D::Error> {
    known(from, [Weight::Critical, Weight::Major, Weight::Advice].into_iter().map(Weight::word))
}

fn criterion<'de, D: Deserializer<'de>>(from: D) -> Result<KnownWord, D::Error> {
    known(from, Criterion::ALL.iter().map(|it| it.word()))
}

pub(super) fn outcome<'de, D: Deserializer<'de>>(from: D) -> Result<KnownWord, D::Error> {
    known(from, Outcome::ALL.into_iter().map(Outcome::word))
}

/// A cause that stands on the sheet of a hand-in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct FaultFound {
    /// Its code, as a word.
    #[serde(deserialize_with = "code")]
    pub code: KnownWord,
    /// Its place, as an address.
    pub at: String,
    /// How much it matters: `critical`, `major` or `advice`.
    #[serde(deserialize_with = "weight")]
    pub weight: KnownWord,
    /// Marks lost by it.
    pub lost: u32,
    /// What is wrong, in words.
    pub what: String,
}

/// Marks under a criterion.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct CriterionEarned {
    /// The criterion, as a word.
    #[serde(deserialize_with = "criterion")]
    pub name: KnownWord,
    /// Earned.
    pub marks: u32,
    /// To be had.
    pub out_of: u32,
}

/// What a hand-in earned.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Earned {
    /// `pass`, `not yet` or `refer`.
    #[serde(deserialize_with = "outcome")]
    pub outcome: KnownWord,
    /// Marks.
    pub marks: u32,
    /// Marks to be had.
    pub out_of: u32,
    /// Marks by criterion.
    pub criteria: Vec<CriterionEarned>,
    /// Causes, the gravest first; what was so before the learner came is left out.
    pub faults: Vec<FaultFound>,
    /// Whether it was handed in half-wired, so that what would have come later can't be told.
    pub unfinished: bool,
    /// How often a hint was asked for.
    pub hints: usize,
}

/// What a file's path says of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PathSays {
    /// Whose it is.
    pub learner: u64,
    /// Of which exercise.
    pub exercise: Option<String>,
}

/// A file that was handed in.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct HandIn {
    /// The file as it was named.
    pub file: String,
    /// What its path says.
    pub path_says: Option<PathSays>,
    /// The number in it, or in its path if none can be read in it.
    pub learner: Option<u64>,
    /// Its exercise.
    pub exercise: Option<String>,
    /// Which try it says that it is.
    #[serde(rename = "try")]
    pub nth: u32,
    /// What is to be said of it, the gravest first.
    pub flags: Vec<Flag>,
    /// The line that is wrong.
    pub line: Option<usize>,
    /// The learner whose seed it has instead of its own.
    pub seed_of: Option<u64>,
    /// What is wrong with it, in words.
    pub why: Option<String>,
    /// Minutes of extra time that its learner's code gives.
    pub extra_minutes: u32,
    /// Which draw its learner's code gives; 0 is that of everybody.
    pub draw: u32,
    /// SHA-256 of the file.
    pub sha256: Option<String>,
    /// The short code of its receipt.
    pub receipt: Option<String>,
    /// When it was handed in, in UTC.
    pub handed_in_at: Option<String>,
    /// Milliseconds that were worked.
    pub active_ms: u64,
    /// Steps of the work. A register from before has them not.
    #[serde(default)]
    pub steps: usize,
    /// What it earned; nothing if it does not count.
    pub earned: Option<Earned>,
    /// What people did with it.
    #[serde(skip_deserializing, skip_serializing_if = "People::is_empty")]
    pub people: People,
}

impl HandIn {
    /// A file that was marked by the templates of the assignment; `cut_off`: bytes after its last whole line. What follows from where it
    /// lies is left out: see [`Self::at`].
    pub fn of(assignment: &Assignment, marked: &Marked, cut_off: usize, wording: &Wording) -> Self {
        let header = &marked.opened.header;
        let assigned = header.assigned.as_ref();
        let mut it = Self {
            exercise: Some(header.scenario.clone()),
            sha256: Some(marked.sha256.clone()),
            receipt: marked.receipt.as_deref().map(receipt_code),
            handed_in_at: marked.opened.handed_in_at().map(|it| it.to_string()),
            active_ms: marked.opened.times().last().copied().unwrap_or_default(),
            steps: marked.attempt.log().len(),
            ..Self::empty()
        };
        let Some(assigned) = assigned.filter(|it| it.assignment == assignment.id) else {
            it.flags.push(Flag::OtherAssignment);
            return it;
        };
        (it.learner, it.nth) = (Some(assigned.learner), assigned.nth);
        let adjustment = it.adjusted(assigned);
        it.belongs(assignment, marked, adjustment);
        it.is_timed(assignment, marked, adjustment);
        if header.mode == Mode::Practice {
            it.flags.push(Flag::Practice);
        }
        if !marked.sheet.handed_in {
            it.flags.push(Flag::NotHandedIn);
            if cut_off > 0 {
                it.flags.push(Flag::CutOff);
                // Two lines come before those of actions, and after them the one that is half there.
                it.line = Some(marked.opened.lines.len() + 3);
            }
        }
        if assigned.nth > assignment.tries {
            it.flags.push(Flag::TooManyTries);
        }
        if assigned.sha256 != assignment.sha256 {
            it.flags.push(Flag::OtherFile);
        }
        it.flags.sort_unstable();
        if !it.flags.iter().any(|flag| flag.bars()) {
            it.earned = Some(Earned::of(marked, wording));
        }
        it
    }

    /// A file of which nothing counts: its first line if it has one, whether it was changed since it was written, the line that is
    /// wrong and why. What follows from where it lies is left out.
    pub fn unusable(
        assignment: &Assignment,
        first_line: Option<&str>,
        changed: bool,
        line: Option<usize>,
        why: String,
    ) -> Self {
        let said = first_line.and_then(assigned_of).filter(|it| it.0.assignment == assignment.id);
        let flag = if changed { Flag::Changed } else { Flag::Unreadable };
        Self {
            learner: said.as_ref().map(|it| it.0.learner),
            nth: said.as_ref().map_or(0, |it| it.0.nth),
            exercise: said.map(|it| it.1),
            flags: vec![flag],
            line,
            why: Some(why),
            ..Self::empty()
        }
    }

    /// With all that follows from where it lies.
    #[must_use]
    pub fn at(mut self, assignment: &Assignment, mapping: Option<&PathMapping>, file: &str) -> Self {
        let says = PathSays::of(assignment, mapping, file);
        if let Some(says) = &says {
            let readable = !self.has(Flag::Unreadable) && !self.has(Flag::Changed);
            if readable && self.learner.is_some_and(|it| it != says.learner) {
                self.flags.push(Flag::OtherName);
                self.flags.sort_unstable();
            }
            self.learner = self.learner.or(Some(says.learner));
            self.exercise = self.exercise.or(says.exercise.clone());
        }
        Self { file: file.to_owned(), path_says: says, ..self }
    }

    fn empty() -> Self {
        Self {
            file: String::new(),
            path_says: None,
            learner: None,
            exercise: None,
            nth: 0,
            flags: Vec::new(),
            line: None,
            seed_of: None,
            why: None,
            extra_minutes: 0,
            draw: 0,
            sha256: None,
            receipt: None,
            handed_in_at: None,
            active_ms: 0,
            steps: 0,
            earned: None,
            people: People::default(),
        }
    }

    /// What the code in the file gives.
    fn adjusted(&mut self, assigned: &Assigned) -> Adjustment {
        if assigned.code.is_empty() {
            return Adjustment::default();
        }
        let given = Adjustment::of(&assigned.code, &assigned.assignment, assigned.learner);
        self.flags.push(if given.is_some() { Flag::Adjusted } else { Flag::BadCode });
        let given = given.unwrap_or_default();
        (self.extra_minutes, self.draw) = (given.minutes(), given.draw());
        given
    }

    /// Whether it is this learner's part of the assignment.
    fn belongs(&mut self, assignment: &Assignment, marked: &Marked, adjustment: Adjustment) {
        let header = &marked.opened.header;
        let learner = self.learner.unwrap_or_default();
        if !assignment.has_learner(learner) {
            self.flags.push(Flag::NoSuchLearner);
        }
        if !assignment.exercises.iter().any(|it| it.scenario.id == header.scenario) {
            self.flags.push(Flag::WrongExercise);
            return;
        }
        let drawn = |learner, draw| seed_of(&assignment.id, learner, &header.scenario, draw).0;
        if header.seed != drawn(learner, adjustment.draw()) {
            self.flags.push(Flag::WrongSeed);
            self.seed_of = assignment.learners.iter().copied().find(|it| drawn(*it, 0) == header.seed);
        }
        if marked.at_hand != AtHand::Same {
            self.flags.push(Flag::ExerciseChanged);
        }
    }

    /// What its times say.
    fn is_timed(&mut self, assignment: &Assignment, marked: &Marked, adjustment: Adjustment) {
        let begun = marked.opened.header.started.parse().ok();
        let handed_in = marked.opened.handed_in_at();
        if begun.is_none() || (marked.sheet.handed_in && handed_in.is_none()) {
            self.flags.push(Flag::NoTime);
        }
        self.flags.extend(assignment.odd_times(begun, handed_in, adjustment).iter().map(|it| match it.0 {
            OddTime::BeforeOpens => Flag::BeforeOpens,
            OddTime::AfterDue => Flag::Late,
            OddTime::AfterLast => Flag::AfterLast,
        }));
        self.flags.extend(marked.notices.iter().filter_map(|it| match it {
            Notice::OtherVersion => Some(Flag::OtherVersion),
            Notice::Backwards => Some(Flag::TimesBackwards),
            Notice::Alike => Some(Flag::TimesAlike),
            Notice::Quick => Some(Flag::TimesTooQuick),
            Notice::Different | Notice::Unknown | Notice::Unfinished | Notice::Unreleased => None,
        }));
    }

    /// Whether it can count.
    pub fn counts(&self) -> bool {
        self.earned.is_some() && !self.flags.iter().any(|it| it.bars())
    }

    /// Whether it has a flag.
    pub fn has(&self, flag: Flag) -> bool {
        self.flags.contains(&flag)
    }
}

impl Earned {
    pub(super) fn of(marked: &Marked, wording: &Wording) -> Self {
        let Marked { sheet, attempt, .. } = marked;
        let work = attempt.work();
        let causes = sheet.findings.iter().filter(|it| it.root == Root::Itself && !it.before);
        let faults = causes.map(|it| FaultFound {
            code: it.code.word(),
            at: it.at.address(work.exercise()),
            weight: it.weight.word(),
            lost: it.lost,
            what: finding(wording, work, it).what,
        });
        Self {
            outcome: sheet.outcome.word(),
            marks: sheet.marks,
            out_of: sheet.out_of,
            criteria: sheet
                .criteria
                .iter()
                .map(|it| CriterionEarned { name: it.criterion.word(), marks: it.marks, out_of: it.out_of })
                .collect(),
            faults: faults.collect(),
            unfinished: sheet.findings.iter().any(|it| it.code == Code::WorkUnfinished),
            hints: sheet.hints,
        }
    }

    /// Whether this work came far enough for that fault: it has it, or it was finished and judged by its criterion.
    pub fn got_as_far_as(&self, code: Code) -> bool {
        let made = self.faults.iter().any(|it| it.code == code.word());
        let judged = |by: Criterion| self.criteria.iter().any(|it| it.name == by.word() && it.out_of > 0);
        made || !self.unfinished && judged(code.criterion())
    }
}

impl PathSays {
    /// By the mapping, or by the name that the program gave the file. `None`: neither says.
    pub fn of(assignment: &Assignment, mapping: Option<&PathMapping>, file: &str) -> Option<Self> {
        let named = named(assignment, file);
        let (by_name, exercise) = named.unzip();
        let learner = mapping.and_then(|it| it.learner(file)).or(by_name)?;
        Some(Self { learner, exercise: exercise.map(str::to_owned) })
    }
}

/// Whose hand-in a file's name says that it is, and of which exercise.
fn named<'f>(assignment: &Assignment, file: &'f str) -> Option<(u64, &'f str)> {
    let name = file.rsplit(['/', '\\']).next()?;
    let (learner, rest) = name.strip_prefix(&assignment.id)?.strip_prefix('_')?.split_once('_')?;
    Some((learner.parse().ok()?, rest.split('_').next()?))
}
