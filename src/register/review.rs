//! A class reviewed: a row for every learner on the roster at every exercise; which try counts; what the class gets wrong; who needs help
//! first.

use std::collections::{BTreeMap, BTreeSet};

use jiff::Timestamp;
use serde::Serialize;

use super::{
    assignment::{Assignment, Counts},
    flag::Flag,
    hand_in::{Earned, HandIn, PathSays},
    paths::PathMapping,
    unit_map::CriterionMap,
};
use crate::marking::{Code, Outcome, Weight};

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
    /// There is nothing yet, and it is not due yet.
    NotDue,
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
    /// They began and did not hand in by the time it was due.
    Stuck,
    /// They handed nothing in that counts.
    Nothing,
    /// They handed in, and it is not a pass yet.
    NotYet,
}

words!(Standing, HelpNeed);

/// A learner at an exercise.
#[derive(Debug, Clone, Serialize)]
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

/// A file that nobody looked into.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PassedOver {
    /// The file as it was named.
    pub file: String,
    /// Whose it is by its path.
    pub learner: Option<u64>,
}

impl PassedOver {
    /// The file that lies there.
    pub fn of(assignment: &Assignment, mapping: Option<&PathMapping>, file: &str) -> Self {
        let says = PathSays::of(assignment, mapping, file);
        Self { file: file.to_owned(), learner: says.map(|it| it.learner) }
    }
}

impl ReviewRow {
    /// The file that counts, and what it earned.
    pub fn counting(&self) -> Option<(&HandIn, &Earned)> {
        let it = self.files.get(self.counts?)?;
        Some((it, it.earned.as_ref()?))
    }
}

/// A learner who needs help.
#[derive(Debug)]
pub struct HelpFirst<'r> {
    /// The learner's number.
    pub learner: u64,
    /// The most urgent of the needs.
    pub need: HelpNeed,
    /// At which work, and why: the most urgent first.
    pub work: Vec<(&'r ReviewRow, HelpNeed)>,
}

/// A cause of one gravity among the tries that count at an exercise.
#[derive(Debug, Serialize)]
pub struct ClassFault {
    /// The exercise.
    pub exercise: String,
    /// The finding's code, as a word.
    pub code: &'static str,
    /// How much it matters: `critical`, `major` or `advice`.
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
    /// Files that nobody looked into, as they are no attempts by their names.
    pub passed_over: Vec<PassedOver>,
    /// Which outcome of a unit each criterion speaks to, if the tutor said so.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub unit_map: Option<CriterionMap>,
}

impl Review {
    /// Reviews what was handed in, in whatever order it comes, as things stand at that moment. `passed_over`: see there.
    pub fn of(assignment: &Assignment, mut all: Vec<HandIn>, passed_over: Vec<PassedOver>, now: Timestamp) -> Self {
        // Of copies the one that is called as the program calls it stands first.
        let order = |it: &HandIn| {
            let other_name = it.path_says.as_ref().map(|says| Some(says.learner)) != Some(it.learner);
            (it.nth, it.handed_in_at.clone(), other_name, it.file.clone())
        };
        all.sort_by_cached_key(order);
        mark_repeats(&mut all, assignment.tries);
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
                let Some(PathSays { learner, exercise }) = it.path_says.clone() else { continue };
                let file = Misnamed { file: it.file.clone(), learner: whose.0 };
                misnamed.entry((learner, exercise.unwrap_or_else(|| whose.1.clone()))).or_default().push(file);
            }
        }
        let mut rows = Vec::new();
        for learner in &assignment.learners {
            for set in &assignment.exercises {
                let exercise = set.scenario.id.clone();
                let files = of_whom.remove(&(*learner, exercise.clone())).unwrap_or_default();
                let misnamed = misnamed.remove(&(*learner, exercise.clone())).unwrap_or_default();
                rows.push(ReviewRow { misnamed, ..row(*learner, exercise, files, assignment, now) });
            }
        }
        let (criteria, faults) = (criteria(assignment, &rows), faults(assignment, &rows));
        Self { rows, strays, criteria, faults, passed_over, unit_map: None }
    }

    /// The same for a second marker, with nothing of the tutor's in it: what follows from it, a sample too, tells nothing of that.
    #[must_use]
    pub fn for_second_marker(mut self) -> Self {
        let files = self.rows.iter_mut().flat_map(|it| &mut it.files).chain(&mut self.strays);
        files.for_each(|it| it.people = it.people.for_second_marker());
        self
    }

    /// Every file, those of the roster first.
    pub fn files(&self) -> impl Iterator<Item = &HandIn> {
        self.rows.iter().flat_map(|it| &it.files).chain(&self.strays)
    }

    /// Whether some input was wrong: unreadable, changed, or not of the assignment.
    pub fn has_wrong_input(&self) -> bool {
        self.files().any(|it| it.flags.iter().any(|flag| flag.is_wrong_input()))
    }

    /// Those who need help, each once, the most urgent first.
    pub fn help_first(&self) -> Vec<HelpFirst<'_>> {
        let mut all: Vec<HelpFirst<'_>> = Vec::new();
        // Rows of one learner stand together.
        for (row, need) in self.rows.iter().filter_map(|it| Some((it, it.need?))) {
            match all.last_mut().filter(|it| it.learner == row.learner) {
                Some(it) => it.work.push((row, need)),
                None => all.push(HelpFirst { learner: row.learner, need, work: vec![(row, need)] }),
            }
        }
        for it in &mut all {
            it.work.sort_by_key(|it| it.1);
            it.need = it.work.first().map_or(it.need, |first| first.1);
        }
        all.sort_by_key(|it| it.need);
        all
    }

    /// How many rows stand so.
    pub fn count(&self, standing: Standing) -> usize {
        self.rows.iter().filter(|it| it.standing == standing).count()
    }
}

/// Flags copies, and files that say they are one try; and counts a learner's tries at an exercise over all that was handed in, whatever folders it was
/// done in, the first that was handed in first.
fn mark_repeats(all: &mut [HandIn], most: u32) {
    let mut copies: BTreeSet<String> = BTreeSet::new();
    let mut tries: BTreeSet<(u64, String, u32)> = BTreeSet::new();
    let mut made: BTreeMap<(u64, String), Vec<usize>> = BTreeMap::new();
    for (place, it) in all.iter_mut().enumerate() {
        let same = it.sha256.clone().is_some_and(|digest| !copies.insert(digest));
        // A draft is no second try.
        let usable = !it.flags.iter().any(|flag| flag.is_wrong_input() || *flag == Flag::NotHandedIn);
        let whose = it.learner.zip(it.exercise.clone()).filter(|_| usable && !same);
        if let Some(whose) = &whose {
            made.entry(whose.clone()).or_default().push(place);
        }
        let again = whose.is_some_and(|(learner, exercise)| !tries.insert((learner, exercise, it.nth)));
        it.flags.extend(same.then_some(Flag::Duplicate));
        it.flags.extend(again.then_some(Flag::SameTry));
    }
    for mut places in made.into_values() {
        // Stable: what was handed in at one moment stays in the order of its tries.
        places.sort_by_cached_key(|it| all.get(*it).and_then(|it| it.handed_in_at.clone()));
        for place in places.into_iter().skip(most as usize) {
            if let Some(it) = all.get_mut(place).filter(|it| !it.has(Flag::TooManyTries)) {
                it.flags.push(Flag::TooManyTries);
            }
        }
    }
    for it in all {
        it.flags.sort_unstable();
    }
}

fn row(learner: u64, exercise: String, files: Vec<HandIn>, assignment: &Assignment, now: Timestamp) -> ReviewRow {
    let counts = which(&files, assignment.counts);
    let earned = counts.and_then(|it| files.get(it)?.earned.as_ref());
    let begun = files.iter().any(|it| it.has(Flag::NotHandedIn) && !it.has(Flag::CutOff));
    // Who has extra time is known by what they began.
    let extra = files.iter().map(|it| it.extra_minutes).max().unwrap_or_default();
    let time_left = assignment.has_time_left(now, extra);
    let standing = match counts.map(|it| files[it].has(Flag::Late)) {
        Some(true) => Standing::Late,
        Some(false) => Standing::HandedIn,
        None if begun => Standing::Begun,
        None if files.is_empty() && time_left => Standing::NotDue,
        None if files.is_empty() => Standing::Missing,
        None => Standing::Unclear,
    };
    let need = match (earned.map(|it| it.outcome), standing) {
        (Some(it), _) if it == Outcome::Refer.word() => Some(HelpNeed::Critical),
        (Some(it), _) if it == Outcome::NotYet.word() => Some(HelpNeed::NotYet),
        (Some(_), _) | (None, Standing::NotDue) => None,
        (None, Standing::Begun) => (!time_left).then_some(HelpNeed::Stuck),
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
                let outcome = Outcome::ALL.iter().rev().position(|it| it.word() == earned.outcome);
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

/// The gravest first.
const GRAVITIES: [Weight; 3] = [Weight::Critical, Weight::Major, Weight::Advice];

fn faults(assignment: &Assignment, rows: &[ReviewRow]) -> Vec<ClassFault> {
    let mut all = Vec::new();
    for set in &assignment.exercises {
        let exercise = &set.scenario.id;
        let here = rows.iter().filter(|it| it.exercise == *exercise);
        let counting: Vec<_> = here.filter_map(|it| Some((it.learner, it.counting()?.1))).collect();
        // One cause may be critical in one house and less in another: each gravity has a line of its own.
        for (code, weight) in Code::ALL.iter().flat_map(|code| GRAVITIES.map(|it| (*code, it.word()))) {
            let with = |earned: &Earned| {
                earned.faults.iter().find(|it| it.code == code.word() && it.weight == weight).map(|it| it.what.clone())
            };
            let found: Vec<(u64, String)> = counting.iter().filter_map(|it| Some((it.0, with(it.1)?))).collect();
            let Some((_, what)) = found.first().cloned() else { continue };
            all.push(ClassFault {
                exercise: exercise.clone(),
                code: code.word(),
                weight,
                what,
                learners: found.into_iter().map(|it| it.0).collect(),
                of: counting.iter().filter(|it| it.1.got_as_far_as(code)).count(),
            });
        }
    }
    // Stable: of equals the order of exercises, codes and gravities stays.
    all.sort_by_key(|it| std::cmp::Reverse(it.learners.len()));
    all
}
