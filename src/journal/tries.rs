//! The tries of a learner at set work: one file each in a folder, named from assignment, learner, exercise and try.

use std::path::{Path, PathBuf};

use switchdrop::{
    attempt::{Header, Mode, Stranger, stranger},
    exercise::{Exercise, Limits, Problems},
    register::{Assignment, Learner, hand_in_name},
};

use super::{
    attempt::{Journal, read_attempt},
    error::{Instead, JournalError},
    read::text,
    write::make_folder,
};

/// Reads an assignment file.
///
/// # Errors
/// Why it can't be read, or all that is wrong with it.
pub fn read_assignment(path: &Path) -> Result<Assignment, JournalError> {
    let another = |is| JournalError::NotAnAssignment { path: path.to_owned(), is };
    if path.is_dir() {
        return Err(another(Instead::Folder));
    }
    let text = text(path, Limits::ASSIGNMENT_BYTES)?;
    Assignment::read(&text).map_err(|problems| match stranger(text.as_bytes()) {
        None => another(Instead::Attempt),
        Some(Stranger::Scenario) => another(Instead::Scenario),
        Some(Stranger::Assignment | Stranger::Other) => JournalError::Wrong { path: path.to_owned(), text, problems },
    })
}

/// Reads a file that a tutor wrote by hand, by what makes something of its text.
///
/// # Errors
/// Why it can't be read, or what is wrong with it.
pub fn read_tutors<T>(path: &Path, read: impl Fn(&str) -> Result<T, Problems>) -> Result<T, JournalError> {
    let text = text(path, Limits::TUTOR_FILE_BYTES)?;
    read(&text).map_err(|problems| JournalError::Wrong { path: path.to_owned(), text, problems })
}

/// The tries of a learner at an exercise, as a folder has them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tries {
    /// How many have been begun.
    pub begun: u32,
    /// The last of them, if it is not handed in.
    pub open: Option<PathBuf>,
    /// The next, if there is one left, and its file.
    next: Option<(u32, PathBuf)>,
}

/// A try that has begun.
#[derive(Debug)]
pub struct Begun {
    /// Its first line.
    pub header: Header,
    /// Its file.
    pub journal: Journal,
}

/// Why no try can be begun.
#[derive(Debug)]
pub enum NotBegun {
    /// All have been begun.
    NoneLeft,
    /// One is not handed in: it is to be gone on with.
    Open(PathBuf),
    /// There is no file.
    File(JournalError),
}

impl Tries {
    /// Looks for them. A folder that is not there has none.
    pub fn look(learner: &Learner<'_>, exercise: &str, folder: &Path) -> Self {
        let named = |nth| folder.join(hand_in_name(&learner.assigned(nth), exercise));
        let all = (1..=learner.assignment.tries).map(|nth| (nth, named(nth)));
        let (begun, free): (Vec<_>, Vec<_>) = all.partition(|(_, path)| path.symlink_metadata().is_ok());
        let is_open = |path: &PathBuf| read_attempt(path).is_ok_and(|it| it.receipt.is_none());
        let open = begun.last().map(|it| it.1.clone()).filter(is_open);
        let count = u32::try_from(begun.len()).unwrap_or(u32::MAX);
        Self { begun: count, open, next: free.into_iter().next() }
    }

    /// Whether one is left.
    #[cfg(feature = "workshop")]
    pub const fn has_next(&self) -> bool {
        self.next.is_some()
    }
}

impl Begun {
    /// Begins the next try of a learner at one of their exercises, in that folder, which is made if need be.
    ///
    /// # Errors
    /// Why it can't be begun.
    pub fn next(
        learner: &Learner<'_>,
        exercise: &Exercise,
        folder: &Path,
        (marking, now): (u32, String),
    ) -> Result<Self, NotBegun> {
        make_folder(folder).map_err(NotBegun::File)?;
        let tries = Tries::look(learner, &exercise.id, folder);
        let (nth, path) = tries.next.ok_or(NotBegun::NoneLeft)?;
        if let Some(open) = tries.open {
            return Err(NotBegun::Open(open));
        }
        let header = Header::new(marking, exercise, learner.number.to_string(), now, Mode::Set);
        let header = Header { assigned: Some(learner.assigned(nth)), ..header };
        let journal = Journal::create(&path, &header, exercise).map_err(NotBegun::File)?;
        Ok(Self { header, journal })
    }
}
