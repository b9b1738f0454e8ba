//! Attempt files marked, one after the other, by one core.

use std::{path::Path, sync::Arc};

use jiff::Timestamp;
use switchdrop::{
    attempt::{Attempt, Header, ReadBefore},
    exercise::{AtHand, Exercise, Template},
    marking::{Answers, answers},
    report::Marked,
    wording::Wording,
};

use crate::journal::{JournalError, Whole, attempt_in, read_attempt_again};

/// What one core keeps while it marks many: what the last one's exercise cost to read and to compare is not spent again on the same.
pub struct Bench {
    /// Its sentences.
    pub wording: Wording,
    known: ReadBefore,
    last: Option<(Arc<Exercise>, AtHand)>,
}

impl Bench {
    /// One that has marked nothing yet.
    pub fn new() -> Self {
        Self { wording: Wording::british(), known: ReadBefore::default(), last: None }
    }

    /// The attempt marked, and how many bytes after its last whole line do not count.
    pub fn mark(
        &mut self,
        path: &Path,
        templates: &[Template<'_>],
        unfinished: bool,
    ) -> Result<(Marked, usize), JournalError> {
        let whole = read_attempt_again(path, &mut self.known, templates);
        self.mark_read(path, whole, templates, (Some(Timestamp::now()), unfinished))
    }

    /// The same of an attempt whose bytes have been read.
    pub fn mark_bytes(
        &mut self,
        path: &Path,
        bytes: Vec<u8>,
        templates: &[Template<'_>],
        unfinished: bool,
    ) -> Result<(Marked, usize), JournalError> {
        let whole = attempt_in(path, bytes, &mut self.known, templates);
        self.mark_read(path, whole, templates, (Some(Timestamp::now()), unfinished))
    }

    /// The same with no clock at hand, so that one file has one sheet whenever it is marked.
    #[cfg(feature = "register")]
    pub fn mark_for_good(
        &mut self,
        path: &Path,
        bytes: Vec<u8>,
        templates: &[Template<'_>],
    ) -> Result<Marked, JournalError> {
        let whole = attempt_in(path, bytes, &mut self.known, templates);
        Ok(self.mark_read(path, whole, templates, (None, true))?.0)
    }

    fn mark_read(
        &mut self,
        path: &Path,
        whole: Result<Whole, JournalError>,
        templates: &[Template<'_>],
        (now, unfinished): (Option<Timestamp>, bool),
    ) -> Result<(Marked, usize), JournalError> {
        let (whole, attempt) = replay(path, whole)?;
        let shown = shown(path, &whole, &attempt, now, unfinished)?;
        let exercise = &whole.opened.exercise;
        let at_hand = match &self.last {
            Some((it, at_hand)) if Arc::ptr_eq(it, exercise) => *at_hand,
            _ if self.known.is_drawn() => AtHand::Same,
            _ => AtHand::of(exercise, templates),
        };
        self.last = Some((Arc::clone(exercise), at_hand));
        Ok((Marked::told(whole.opened, attempt, (at_hand, &shown), whole.sha256, whole.receipt), whole.cut_off))
    }
}

/// How the answers of an attempt are shown, at that time; nobody knows it: no time has come.
///
/// # Errors
/// That they are withheld.
pub fn shown(
    path: &Path,
    whole: &Whole,
    attempt: &Attempt,
    now: Option<Timestamp>,
    unfinished: bool,
) -> Result<Answers, JournalError> {
    let Header { mode, assigned, .. } = &whole.opened.header;
    match answers(attempt, *mode, assigned.as_ref(), now, unfinished) {
        Answers::Withheld(until) => {
            let receipt = whole.receipt.clone();
            Err(JournalError::Withheld { path: path.to_owned(), until, receipt, cut_off: whole.cut_off })
        }
        it => Ok(it),
    }
}

/// An attempt that was read, its actions carried out.
///
/// # Errors
/// What is wrong with the file.
pub fn replay(path: &Path, read: Result<Whole, JournalError>) -> Result<(Whole, Attempt), JournalError> {
    let whole = read?;
    match whole.opened.replay() {
        Ok(attempt) => Ok((whole, attempt)),
        Err(problems) => Err(JournalError::Wrong { path: path.to_owned(), text: whole.text, problems }),
    }
}
