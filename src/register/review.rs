//! A class reviewed: a row for every learner on the roster at every exercise; which try counts; what the class gets wrong; who needs help
//! first.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::{
    assignment::{Assignment, Counts},
    flag::Flag,
    hand_in::{Earned, HandIn, named},
};
use crate::marking::{Code, Outcome};

/// How things stand with a learner at an exercise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, strum::IntoStaticStr, strum::VariantArray)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum Standing {
    /// Handed in.
    HandedIn,
    /// Handed in, the try that counts after it was due.
    Late,
    /// Begun and not handed in.
    Begun,
    /// There are files, and none of them counts.
    Unclear,
    /// There is nothing.
    Missing,
}

/// Why a learner needs help, the most urgent first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, strum::IntoStaticStr, strum::VariantArray)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum HelpNeed {
    /// Something critical stands or was done.
    Critical,
    /// They began and did not hand in.
    Stuck,
    /// They handed nothing in that counts.
    Nothing,
    /// They handed in, and it is not a pass yet.
    NotYet,
}

words!(Standing, HelpNeed);

/// A learner at an exercise.
#[derive(Debug, Serialize)]
pub struct ReviewRow {
    /// The learner's number.
    pub learner: u64,
    /// The exercise.
    pub exercise: String,
    /// How things stand.
    pub standing: Standing,
    /// Which of the files counts.
    pub counts: Option<usize>,
    /// Why they need help, if they do.
    pub need: Option<HelpNeed>,
    /// Their files, by try and name.
    pub files: Vec<HandIn>,
    /// Files that have this learner's number in their names and are another's work.
    pub misnamed: Vec<Misnamed>,
}

/// A file that has one learner's number in its name and is another's work.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Misnamed {
    /// The file as it was named.
    pub file: String,
    /// Whose work it is.
    pub learner: u64,
}

impl ReviewRow {
    /// The file that counts, and what it earned.
    pub fn counting(&self) -> Option<(&HandIn, &Earned)> {
        let it = self.files.get(self.counts?)?;
        Some((it, it.earned.as_ref()?))
    }
}

/// A cause among the tries that count at an exercise.
#[derive(Debug, Serialize)]
pub struct ClassFault {
    /// The exercise.
    pub exercise: String,
    /// The finding's code, as a word.
    pub code: &'static str,
    /// How much it matters at its worst.
    pub weight: &'static str,
    /// What is wrong, in the words of the first learner's sheet.
    pub what: String,
    /// Learners who have it.
    pub learners: Vec<u64>,
    /// How many learners came far enough to make it: see [`Earned::got_as_far_as`].
    pub of: usize,
}

/// Marks of the class under a criterion at an exercise, the tries that count added up.
#[derive(Debug, Serialize)]
pub struct ClassCriterion {
    /// The exercise.
    pub exercise: String,
    /// The criterion, as a word.
    pub name: &'static str,
    /// Earned.
    pub marks: u32,
    /// To be had.
    pub out_of: u32,
}

/// A class reviewed.
#[derive(Debug, Serialize)]
pub struct Review {
    /// Every learner of the roster at every exercise, in the order of the roster.
    pub rows: Vec<ReviewRow>,
    /// Files that are no learner's, or of no exercise of the assignment.
    pub strays: Vec<HandIn>,
    /// Marks by criterion.
    pub criteria: Vec<ClassCriterion>,
    /// What the class gets wrong: the commonest first.
    pub faults: Vec<ClassFault>,
}

impl Review {
    /// Reviews what was handed in, in whatever order it comes.
    pub fn of(assignment: &Assignment, mut all: Vec<HandIn>) -> Self {
        // Of copies the one that is called as the program calls it stands first.
        let order = |it: &HandIn| {
            let other_name = named(assignment, &it.file).map(|name| Some(name.0)) != Some(it.learner);
            (it.nth, it.handed_in_at.clone(), other_name, it.file.clone())
        };
        all.sort_by_cached_key(order);
        mark_repeats(&mut all);
        let only = match &assignment.exercises[..] {
            [it] => Some(it.scenario.id.as_str()),
            _ => None,
        };
        let mut of_whom: BTreeMap<(u64, String), Vec<HandIn>> = BTreeMap::new();
        let mut strays = Vec::new();
        for it in all {
            let learner = it.learner.filter(|it| assignment.has_learner(*it));
            let known = |id: &&str| assignment.exercises.iter().any(|it| it.scenario.id == *id);
            // What can't be read or is of another exercise stands with its learner all the same, if there is but one exercise.
            let exercise = it.exercise.as_deref().filter(known).or(only).map(str::to_owned);
            match learner.zip(exercise) {
                Some(key) => of_whom.entry(key).or_default().push(it),
                None => strays.push(it),
            }
        }
        let mut misnamed: BTreeMap<(u64, String), Vec<Misnamed>> = BTreeMap::new();
        for (whose, files) in &of_whom {
            for it in files.iter().filter(|it| it.has(Flag::OtherName)) {
                let Some((learner, exercise)) = named(assignment, &it.file) else { continue };
                let file = Misnamed { file: it.file.clone(), learner: whose.0 };
                misnamed.entry((learner, exercise.to_owned())).or_default().push(file);
            }
        }
        let mut rows = Vec::new();
        for learner in &assignment.learners {
            for set in &assignment.exercises {
                let exercise = set.scenario.id.clone();
                let files = of_whom.remove(&(*learner, exercise.clone())).unwrap_or_default();
                let misnamed = misnamed.remove(&(*learner, exercise.clone())).unwrap_or_default();
                rows.push(ReviewRow { misnamed, ..row(*learner, exercise, files, assignment.counts) });
            }
        }
        let (criteria, faults) = (criteria(assignment, &rows), faults(assignment, &rows));
        Self { rows, strays, criteria, faults }
    }

    /// Every file, those of the roster first.
    pub fn files(&self) -> impl Iterator<Item = &HandIn> {
        self.rows.iter().flat_map(|it| &it.files).chain(&self.strays)
    }

    /// Whether some input was wrong: unreadable, changed, or not of the assignment.
    pub fn has_wrong_input(&self) -> bool {
        self.files().any(|it| it.flags.iter().any(|flag| flag.is_wrong_input()))
    }

    /// Rows of those who need help, the most urgent first.
    pub fn help_first(&self) -> Vec<(&ReviewRow, HelpNeed)> {
        let mut all: Vec<_> = self.rows.iter().filter_map(|it| Some((it, it.need?))).collect();
        all.sort_by_key(|it| it.1);
        all
    }

    /// How many rows stand so.
    pub fn count(&self, standing: Standing) -> usize {
        self.rows.iter().filter(|it| it.standing == standing).count()
    }
}

/// Flags copies, and files that say they are one try.
fn mark_repeats(all: &mut [HandIn]) {
    let mut copies: BTreeSet<String> = BTreeSet::new();
    let mut tries: BTreeSet<(u64, String, u32)> = BTreeSet::new();
    for it in all {
        let same = it.sha256.clone().is_some_and(|digest| !copies.insert(digest));
        // A draft is no second try.
        let usable = !it.flags.iter().any(|flag| flag.is_wrong_input() || *flag == Flag::NotHandedIn);
        let whose = it.learner.zip(it.exercise.clone()).filter(|_| usable && !same);
        let again = whose.is_some_and(|(learner, exercise)| !tries.insert((learner, exercise, it.nth)));
        it.flags.extend(same.then_some(Flag::Duplicate));
        it.flags.extend(again.then_some(Flag::SameTry));
        it.flags.sort_unstable();
    }
}

fn row(learner: u64, exercise: String, files: Vec<HandIn>, counts: Counts) -> ReviewRow {
    let counts = which(&files, counts);
    let earned = counts.and_then(|it| files.get(it)?.earned.as_ref());
    let begun = files.iter().any(|it| it.has(Flag::NotHandedIn));
    let standing = match counts.map(|it| files[it].has(Flag::Late)) {
        Some(true) => Standing::Late,
        Some(false) => Standing::HandedIn,
        None if begun => Standing::Begun,
        None if files.is_empty() => Standing::Missing,
        None => Standing::Unclear,
    };
    let need = match (earned.map(|it| it.outcome), standing) {
        (Some(it), _) if it == Outcome::Refer.word() => Some(HelpNeed::Critical),
        (Some(it), _) if it == Outcome::NotYet.word() => Some(HelpNeed::NotYet),
        (Some(_), _) => None,
        (None, Standing::Begun) => Some(HelpNeed::Stuck),
        (None, _) => Some(HelpNeed::Nothing),
    };
    ReviewRow { learner, exercise, standing, counts, need, files, misnamed: Vec::new() }
}

/// Which of the tries counts. They are in order.
fn which(files: &[HandIn], counts: Counts) -> Option<usize> {
    let usable = || files.iter().enumerate().filter(|it| it.1.counts());
    match counts {
        Counts::First => usable().next().map(|it| it.0),
        Counts::Last => usable().next_back().map(|it| it.0),
        Counts::Best => {
            let rank = |earned: &Earned| {
                let outcome =
                    [Outcome::Refer, Outcome::NotYet, Outcome::Pass].iter().position(|it| it.word() == earned.outcome);
                (outcome, earned.marks)
            };
            // The first of equals: the last maximum is taken, so the order is turned round.
            usable().rev().max_by_key(|it| it.1.earned.as_ref().map(rank)).map(|it| it.0)
        }
    }
}

fn criteria(assignment: &Assignment, rows: &[ReviewRow]) -> Vec<ClassCriterion> {
    let mut all: Vec<ClassCriterion> = Vec::new();
    for set in &assignment.exercises {
        let exercise = &set.scenario.id;
        for (_, earned) in rows.iter().filter(|it| it.exercise == *exercise).filter_map(ReviewRow::counting) {
            for it in &earned.criteria {
                match all.iter_mut().find(|sum| sum.exercise == *exercise && sum.name == it.name) {
                    Some(sum) => {
                        sum.marks += it.marks;
                        sum.out_of += it.out_of;
                    }
                    None => all.push(ClassCriterion {
                        exercise: exercise.clone(),
                        name: it.name,
                        marks: it.marks,
                        out_of: it.out_of,
                    }),
                }
            }
        }
    }
    all
}

fn faults(assignment: &Assignment, rows: &[ReviewRow]) -> Vec<ClassFault> {
    let mut all = Vec::new();
    for set in &assignment.exercises {
        let exercise = &set.scenario.id;
        let here = rows.iter().filter(|it| it.exercise == *exercise);
        let counting: Vec<_> = here.filter_map(|it| Some((it.learner, it.counting()?.1))).collect();
        for code in Code::ALL {
            let with = |earned: &'_ Earned| earned.faults.iter().position(|it| it.code == code.word());
            let mut found = counting.iter().filter_map(|it| Some(&it.1.faults[with(it.1)?])).peekable();
            let Some(first) = found.peek().copied() else { continue };
            let rank = |word: &str| ["critical", "major", "advice"].iter().position(|it| *it == word);
            all.push(ClassFault {
                exercise: exercise.clone(),
                code: code.word(),
                weight: found.map(|it| it.weight).min_by_key(|it| rank(it)).unwrap_or_default(),
                what: first.what.clone(),
                learners: counting.iter().filter(|it| with(it.1).is_some()).map(|it| it.0).collect(),
                of: counting.iter().filter(|it| it.1.got_as_far_as(*code)).count(),
            });
        }
    }
    // Stable: of equals the order of exercises and codes stays.
    all.sort_by_key(|it| std::cmp::Reverse(it.learners.len()));
    all
}
