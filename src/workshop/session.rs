//! The session: the attempt, and the file that it is written to.
//!
//! The one holder of the truth. Each action is written down before anything is shown of it.

use std::{
    path::{Path, PathBuf},
    sync::Arc,
    time::{SystemTime, UNIX_EPOCH},
};

use switchdrop::{
    attempt::{Assigned, Attempt, Happened, Header, Mode},
    exercise::{Exercise, Problems, Seed, draw},
    marking::{Answers, VERSION, answers},
    register::Learner,
    work::{Action, Refused},
};

use crate::journal::{Access, Begun, Journal, JournalError, NotBegun, Reopened, open_to_read, reopen};

/// Where the attempt is written down.
#[derive(Debug)]
enum Pen {
    /// Nowhere: nobody asked for a file.
    None,
    /// In its file.
    Writes(Journal),
    /// In a file that may only be read, and why.
    Reads(ReadOnly),
}

/// Why an attempt can only be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReadOnly {
    /// Another window has it open.
    InUse,
    /// This user may not write the file.
    NotOurs,
}

/// One attempt at one exercise.
#[derive(Debug)]
pub struct Session {
    /// The attempt.
    pub attempt: Attempt,
    /// Set work or practice.
    pub mode: Mode,
    /// The assignment that it was set by, if it was set by a file.
    pub assigned: Option<Assigned>,
    /// Whether a tutor reads it, who sees the answers before its learner does.
    pub is_reviewed: bool,
    /// Who does it.
    pub learner: String,
    /// Which exercise of the library it was drawn from, if that is there.
    pub shelved: Option<usize>,
    pen: Pen,
    /// Where it is written down; empty where nothing is.
    pub path: PathBuf,
    /// The digest of its file as it was handed in.
    pub receipt: Option<String>,
    /// Why there is no receipt: the work was handed in, and that may not have reached the disk.
    pub unsettled: Option<JournalError>,
}

/// Why an action was not done.
#[derive(Debug)]
pub enum NotDone {
    /// It is impossible in the hand.
    Refused(Refused),
    /// It could not be written down, so it does not count.
    Unwritten(JournalError),
    /// The attempt can only be read.
    ReadOnly(ReadOnly),
}

/// What a new session needs.
#[derive(Debug, Clone)]
pub struct Wanted<'a> {
    /// The scenario's text.
    pub text: &'a str,
    /// Its place in the library.
    pub shelved: usize,
    /// Who.
    pub learner: &'a str,
    /// How it counts.
    pub mode: Mode,
    /// The number it is drawn from; else a fresh one.
    pub seed: Option<u64>,
    /// The folder for its file; without one nothing is written.
    pub folder: Option<&'a Path>,
}

/// Why a session could not start.
#[derive(Debug)]
pub enum NotStarted {
    /// The scenario is wrong.
    Scenario(Problems),
    /// The file can't be made.
    File(JournalError),
}

impl Session {
    /// Draws an exercise and starts its file.
    ///
    /// # Errors
    /// Why it could not.
    pub fn start(wanted: &Wanted<'_>) -> Result<Self, NotStarted> {
        let seed = Seed(wanted.seed.unwrap_or_else(fresh_seed));
        let exercise = draw(wanted.text, seed).map_err(NotStarted::Scenario)?;
        let (pen, path) = match wanted.folder {
            None => (Pen::None, PathBuf::new()),
            Some(folder) => {
                let (journal, path) = file(folder, &exercise, wanted).map_err(NotStarted::File)?;
                (Pen::Writes(journal), path)
            }
        };
        Ok(Self {
            attempt: Attempt::new(Arc::new(exercise)),
            mode: wanted.mode,
            assigned: None,
            is_reviewed: false,
            learner: wanted.learner.to_owned(),
            shelved: Some(wanted.shelved),
            pen,
            path,
            receipt: None,
            unsettled: None,
        })
    }

    /// Begins a learner's next try at a piece of set work.
    ///
    /// # Errors
    /// Why it can't be begun.
    pub fn next_try(learner: &Learner<'_>, exercise: Exercise, folder: &Path) -> Result<Self, NotBegun> {
        let begun = Begun::next(learner, &exercise, folder, (VERSION, jiff::Timestamp::now().to_string()))?;
        let Header { mode, assigned, learner, .. } = begun.header;
        Ok(Self {
            attempt: Attempt::new(Arc::new(exercise)),
            mode,
            assigned,
            is_reviewed: false,
            learner,
            shelved: None,
            path: begun.journal.path().to_owned(),
            pen: Pen::Writes(begun.journal),
            receipt: None,
            unsettled: None,
        })
    }

    /// Opens an attempt again, to go on with it; one that was handed in, to read it.
    ///
    /// # Errors
    /// What is wrong with the file.
    pub fn open(path: &Path) -> Result<Self, JournalError> {
        let read = open_to_read(path)?;
        let opened =
            if read.attempt.tally().handed_in { read } else { reopen(path, jiff::Timestamp::now().to_string())? };
        Ok(Self::of(path, opened).tells_names())
    }

    /// Opens a hand-in for the tutor, who sees its answers whatever its learner may see. Nothing is written in it.
    ///
    /// # Errors
    /// What is wrong with the file.
    pub fn reviewed(path: &Path) -> Result<Self, JournalError> {
        Ok(Self { is_reviewed: true, ..Self::of(path, open_to_read(path)?) }.tells_names())
    }

    /// Calls everything what it is, once its answers may be shown; until then what has no mark is called as the learner calls it.
    fn tells_names(mut self) -> Self {
        if self.attempt.tally().handed_in && !self.is_withheld() {
            self.attempt = self.attempt.with_names_told();
        }
        self
    }

    fn of(path: &Path, opened: Reopened) -> Self {
        let pen = match opened.access {
            Access::Write(journal) => Pen::Writes(journal),
            Access::InUse => Pen::Reads(ReadOnly::InUse),
            Access::ReadOnly => Pen::Reads(ReadOnly::NotOurs),
        };
        Self {
            attempt: opened.attempt,
            mode: opened.header.mode,
            assigned: opened.header.assigned,
            is_reviewed: false,
            learner: opened.header.learner,
            shelved: None,
            pen,
            path: path.to_owned(),
            receipt: opened.receipt,
            unsettled: None,
        }
    }

    /// Why it can only be read, if so.
    pub fn read_only(&self) -> Option<ReadOnly> {
        match self.pen {
            Pen::Reads(why) => Some(why),
            Pen::None | Pen::Writes(_) => None,
        }
    }

    /// Whether nothing can be done in it any more: handed in, or only to be read.
    pub fn is_over(&self) -> bool {
        self.attempt.tally().handed_in || self.read_only().is_some()
    }

    /// Whether its answers may be shown now.
    pub fn answers(&self) -> Answers {
        answers(&self.attempt, self.mode, self.assigned.as_ref(), Some(jiff::Timestamp::now()), self.is_reviewed)
    }

    /// Whether they are withheld now.
    pub fn is_withheld(&self) -> bool {
        matches!(self.answers(), Answers::Withheld(_))
    }

    /// Sees to it that all that was done stands in its file, before the attempt is left.
    ///
    /// # Errors
    /// Why it does not.
    pub fn keep(&mut self) -> Result<(), JournalError> {
        match &mut self.pen {
            Pen::Writes(journal) if !self.attempt.tally().handed_in => journal.mend(),
            _ => Ok(()),
        }
    }

    /// Does an action and writes it down.
    ///
    /// # Errors
    /// Why it was not done.
    pub fn act(&mut self, action: Action) -> Result<Happened, NotDone> {
        let entry = match &self.pen {
            Pen::None => None,
            Pen::Writes(it) => Some(it.entry(&action).map_err(NotDone::Unwritten)?),
            Pen::Reads(why) => return Err(NotDone::ReadOnly(*why)),
        };
        let handed_in = action == Action::HandIn;
        // What can't be written down has not been done: the attempt is as it was.
        let mut next = self.attempt.clone();
        let happened = next.act(action).map_err(NotDone::Refused)?;
        if let (Pen::Writes(journal), Some(entry)) = (&mut self.pen, entry) {
            journal.append(&entry).map_err(NotDone::Unwritten)?;
            self.attempt = next;
            if handed_in {
                // It stands in the file, so it is handed in, whatever keeps that from the disk.
                match journal.flush().and_then(|()| journal.receipt()) {
                    Ok(it) => self.receipt = Some(it),
                    Err(trouble) => self.unsettled = Some(trouble),
                }
            }
        } else {
            self.attempt = next;
        }
        if handed_in && !self.is_withheld() {
            self.attempt = self.attempt.clone().with_names_told();
        }
        Ok(happened)
    }
}

/// A new file in the folder, which is made if need be. Its name is made of the exercise and the time.
fn file(folder: &Path, exercise: &Exercise, wanted: &Wanted<'_>) -> Result<(Journal, PathBuf), JournalError> {
    let unwritable = |cause| JournalError::Unwritable(folder.to_owned(), cause);
    std::fs::create_dir_all(folder).map_err(unwritable)?;
    let now = jiff::Timestamp::now();
    let header = Header::new(VERSION, exercise, wanted.learner.to_owned(), now.to_string(), wanted.mode);
    let stamp = now.strftime("%Y%m%d-%H%M%S").to_string();
    let mut number = 1;
    loop {
        let suffix = if number == 1 { String::new() } else { format!("-{number}") };
        let path = folder.join(format!("{}-{stamp}{suffix}.attempt.ron", exercise.id));
        match Journal::create(&path, &header, exercise) {
            Err(JournalError::Exists(_)) if number < 100 => number += 1,
            other => return other.map(|it| (it, path)),
        }
    }
}

fn fresh_seed() -> u64 {
    SystemTime::now().duration_since(UNIX_EPOCH).map_or(1, |it| u64::from(it.subsec_nanos()) ^ it.as_secs())
}

#[cfg(test)]
impl Session {
    /// Lets the disk take no more than this number of bytes of a line.
    pub(super) fn has_room_for(&mut self, bytes: Option<usize>) {
        if let Pen::Writes(journal) = &mut self.pen {
            journal.has_room_for(bytes);
        }
    }
}
