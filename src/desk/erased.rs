//! What is kept of learners, found and erased: their files, the pages that were written for them, the rows of the register. The register
//! comes last, so that one that is stopped half way finds the rest again.

use std::{
    collections::BTreeSet,
    fs,
    path::{Path, PathBuf},
};

use jiff::{SignedDuration, Timestamp};
use switchdrop::register::{Assignment, HandIn, RELEASE_TITLE, WallTime};

use super::{
    class::{ClassFiles, ClassTrouble, review},
    released::page_name,
};
use crate::{
    journal::{HandInFile, JournalError, begins_with},
    store::{RowCount, Store},
};

/// Hours of a year here: of the longest one, so that nothing goes early.
const YEAR: i64 = 24 * 366;

/// Whose are erased, and from when on.
#[derive(Debug, Clone, Copy)]
pub struct Whose {
    /// The learner of this number; `None`: everybody in the assignment.
    pub learner: Option<u64>,
    /// What was handed in less than this number of years ago stays; `None`: everything goes.
    pub years: Option<u32>,
}

/// What is kept of them.
#[derive(Debug, Default)]
pub struct ToErase {
    /// Files that were handed in.
    pub files: Vec<PathBuf>,
    /// Those in zips, which can't be taken out of them.
    pub zipped: Vec<PathBuf>,
    /// Pages that were written for them.
    pub pages: Vec<PathBuf>,
    /// Rows of the register.
    pub rows: RowCount,
    /// What could not be read, so that nobody can say whose it is.
    pub troubles: Vec<ClassTrouble>,
    attempts: Vec<String>,
}

impl Whose {
    fn are(self, it: &HandIn, assignment: &Assignment, now: Timestamp) -> bool {
        it.learner.is_some()
            && self.learner.is_none_or(|number| it.learner == Some(number))
            && self.is_over(it, assignment, now)
    }

    /// Whether it is old enough. What says no time goes by the assignment's; where that says none either, it stays.
    fn is_over(self, it: &HandIn, assignment: &Assignment, now: Timestamp) -> bool {
        let Some(years) = self.years else { return true };
        let own = it.handed_in_at.as_ref().and_then(|it| it.parse::<Timestamp>().ok());
        let set = assignment.last.as_ref().or(assignment.due.as_ref()).map(WallTime::at);
        let over = own.or(set).and_then(|it| it.checked_add(SignedDuration::from_hours(YEAR * i64::from(years))).ok());
        over.is_some_and(|it| it < now)
    }
}

/// Finds what is kept. Nothing that is found is marked into the register. `pages`: the folder of the pages.
///
/// # Errors
/// Why nobody can say what is kept.
pub fn to_erase(
    class: &ClassFiles,
    store: &Store,
    whose: Whose,
    pages: Option<&Path>,
) -> Result<ToErase, ClassTrouble> {
    let reviewed = review(&ClassFiles { register: None, ..class.clone() }, |_, _| {})?;
    let (assignment, now) = (&reviewed.assignment, class.at.as_ref().map_or_else(Timestamp::now, WallTime::at));
    let mut found = ToErase::default();
    let mut attempts = BTreeSet::new();
    let (mut theirs, mut work) = (BTreeSet::new(), BTreeSet::new());
    for it in reviewed.review.files().filter(|it| whose.are(it, assignment, now)) {
        theirs.insert(it.file.clone());
        work.extend(it.learner.zip(it.exercise.clone()));
        attempts.extend(it.sha256.clone());
    }
    for it in class.found().files {
        if theirs.contains(&it.path().display().to_string()) {
            match it {
                HandInFile::OnDisk(path) => found.files.push(path),
                HandInFile::Zipped(it) => found.zipped.push(it.path),
            }
        }
    }
    for (attempt, text) in store.of_assignment(&assignment.sha256)? {
        let Ok(it) = serde_json::from_str::<HandIn>(&text) else { continue };
        if whose.are(&it, assignment, now) {
            work.extend(it.learner.zip(it.exercise.clone()));
            attempts.insert(attempt);
        }
    }
    if let Some(folder) = pages {
        // What a file says becomes a path only where it is the assignment's own word.
        let is_set = |id: &String| assignment.exercises.iter().any(|it| it.scenario.id == *id);
        let named = work
            .iter()
            .filter(|it| is_set(&it.1))
            .map(|(learner, exercise)| folder.join(page_name(assignment, *learner, exercise)));
        found.pages = named.filter(|it| begins_with(it, RELEASE_TITLE)).collect();
    }
    found.attempts = attempts.into_iter().collect();
    found.rows = store.count(&found.attempts)?;
    found.troubles = reviewed.troubles;
    Ok(found)
}

/// Erases what was found; what could not be erased.
pub fn erase(found: &ToErase, store: &mut Store) -> Vec<ClassTrouble> {
    let mut troubles = Vec::new();
    for path in found.files.iter().chain(&found.pages) {
        if let Err(cause) = fs::remove_file(path) {
            troubles.push(JournalError::Unwritable(path.clone(), cause).into());
        }
    }
    if let Err(it) = store.erase(&found.attempts) {
        troubles.push(it.into());
    }
    troubles
}
