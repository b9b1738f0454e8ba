//! A class's files beside their assignment, marked on all cores.

#[cfg(feature = "register")]
use std::collections::HashMap;
use std::path::PathBuf;

use jiff::Timestamp;
use switchdrop::{
    attempt::sha256,
    exercise::{ProblemCode, Template},
    register::{Assignment, CriterionMap, HandIn, PassedOver, PathMapping, Review, WallTime},
    wording::Wording,
};

use super::{
    in_turn::in_turn,
    kept::{Kept, Register, to_keep},
    marking::Bench,
};
use crate::journal::{HandInFile, HandInFiles, JournalError, Reach, read_assignment, read_tutors};
#[cfg(feature = "register")]
use crate::store::{Store, StoreError};

/// Hand-ins that go into the register at once: a review that is stopped loses no more than that.
const KEPT_AT_ONCE: usize = 50;

/// Files that a core takes at once: where all was marked before, one after the other would cost more in waking than in looking.
const AT_ONCE: usize = 10;

/// What is reviewed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct ClassFiles {
    /// The assignment file.
    pub assignment: PathBuf,
    /// What was handed in: files, folders, zips.
    pub files: Vec<PathBuf>,
    /// The time as which things are looked at; `None`: now.
    pub at: Option<WallTime>,
    /// Which part of a path is the learner.
    pub paths: Option<PathBuf>,
    /// The register in which what is marked is kept.
    pub register: Option<PathBuf>,
    /// Which outcome of a unit each criterion speaks to.
    pub outcomes: Option<PathBuf>,
}

/// What went wrong, of a file or of the register.
#[derive(Debug)]
pub enum ClassTrouble {
    /// A file.
    File(JournalError),
    /// The register.
    #[cfg(feature = "register")]
    Register(StoreError),
}

impl ClassTrouble {
    /// One sentence.
    #[cfg_attr(not(feature = "workshop"), allow(dead_code, reason = "the command line draws what is wrong in a file"))]
    pub fn say(&self, wording: &Wording) -> String {
        match self {
            Self::File(it) => it.say(wording),
            #[cfg(feature = "register")]
            Self::Register(it) => it.say(wording),
        }
    }
}

impl From<JournalError> for ClassTrouble {
    fn from(it: JournalError) -> Self {
        Self::File(it)
    }
}

#[cfg(feature = "register")]
impl From<StoreError> for ClassTrouble {
    fn from(it: StoreError) -> Self {
        Self::Register(it)
    }
}

/// A class that was reviewed.
#[derive(Debug)]
pub struct Reviewed {
    /// Its assignment.
    pub assignment: Assignment,
    /// What came of it.
    pub review: Review,
    /// What could not be read, or not kept.
    pub troubles: Vec<ClassTrouble>,
}

impl ClassFiles {
    /// What was handed in.
    pub fn found(&self) -> HandInFiles {
        HandInFiles::gather(&self.files, &self.assignment, Reach::USUAL)
    }

    /// What is not there of what was named, the assignment first.
    pub fn missing(&self) -> Vec<ClassTrouble> {
        let missing =
            std::iter::once(&self.assignment).chain(&self.files).filter_map(|it| Some((it, it.metadata().err()?)));
        missing.map(|(path, cause)| JournalError::Unreadable(path.clone(), cause).into()).collect()
    }

    /// The same files once more, each by the path that a review gives it.
    #[cfg(feature = "register")]
    pub fn again(&self) -> FilesAgain {
        FilesAgain(self.found().files.into_iter().map(|it| (it.path().display().to_string(), it)).collect())
    }

    #[cfg(feature = "register")]
    fn register(&self, assignment: &Assignment) -> Result<Option<Register>, StoreError> {
        let opened = self.register.as_deref().map(Store::open).transpose()?;
        opened.map(|it| Register::of(it, &assignment.sha256)).transpose()
    }

    #[cfg(not(feature = "register"))]
    #[expect(clippy::unused_self, clippy::unnecessary_wraps, reason = "with a register it may fail")]
    fn register(&self, _: &Assignment) -> Result<Option<Register>, JournalError> {
        Ok(None)
    }
}

/// Reviews a class. `is_at`: told now and then how many files are done, of how many.
///
/// # Errors
/// Why there is nothing to review it by, or nothing to keep it in.
pub fn review(of: &ClassFiles, mut is_at: impl FnMut(usize, usize)) -> Result<Reviewed, ClassTrouble> {
    let assignment = read_assignment(&of.assignment)?;
    let mapping = of.paths.as_deref().map(|it| read_tutors(it, PathMapping::read)).transpose()?;
    let mapping = mapping.as_ref();
    let unit_map = of.outcomes.as_deref().map(|it| read_tutors(it, CriterionMap::read)).transpose()?;
    let found = of.found();
    let mut troubles: Vec<ClassTrouble> = found.troubles.into_iter().map(Into::into).collect();
    let (files, templates) = (found.files, assignment.templates());
    let mut all = Vec::with_capacity(files.len());
    let register = of.register(&assignment)?;
    let register = register.as_ref();
    let job = |bench: &mut (Bench, Wording), file: &HandInFile| {
        let (it, to_keep) = looked_at(bench, file, &assignment, &templates, register);
        (it.at(&assignment, mapping, &file.path().display().to_string()), to_keep)
    };
    let mut waiting = Vec::new();
    let begin = || (Bench::new(), Wording::british());
    let handed_over: Vec<_> = files.chunks(AT_ONCE).collect();
    let job = |bench: &mut (Bench, Wording), some: &&[HandInFile]| -> Vec<_> {
        some.iter().map(|it| job(bench, it)).collect()
    };
    let said = in_turn(&handed_over, begin, job, |_, answers| {
        for (it, to_keep) in answers {
            all.push(it);
            waiting.extend(to_keep);
            if waiting.len() == KEPT_AT_ONCE {
                keep(register, &mut waiting, &mut troubles);
            }
            is_at(all.len(), files.len());
        }
        Ok(())
    });
    // Nothing that is said here can fail.
    debug_assert!(said.is_ok());
    keep(register, &mut waiting, &mut troubles);
    with_people(register, &mut all, &mut troubles);
    let passed_over = found.passed_over.iter();
    let passed_over = passed_over.map(|it| PassedOver::of(&assignment, mapping, &it.display().to_string())).collect();
    let now = of.at.as_ref().map_or_else(Timestamp::now, WallTime::at);
    let review = Review { unit_map, ..Review::of(&assignment, all, passed_over, now) };
    Ok(Reviewed { assignment, review, troubles })
}

/// The files of a class that was reviewed, to be read again.
#[cfg(feature = "register")]
pub struct FilesAgain(HashMap<String, HandInFile>);

#[cfg(feature = "register")]
impl FilesAgain {
    /// The bytes of a hand-in.
    ///
    /// # Errors
    /// That it can't be read, or is another by now.
    pub fn bytes(&self, of: &HandIn) -> Result<Vec<u8>, JournalError> {
        let gone = || JournalError::Gone(PathBuf::from(&of.file));
        let bytes = self.0.get(&of.file).ok_or_else(gone)?.bytes()?;
        if of.sha256.as_ref() == Some(&sha256(&bytes)) { Ok(bytes) } else { Err(gone()) }
    }
}

/// Keeps what waits for it. What can't be kept is marked again the next time.
#[cfg(feature = "register")]
fn keep(register: Option<&Register>, waiting: &mut Vec<Kept>, troubles: &mut Vec<ClassTrouble>) {
    if let Some(Err(trouble)) = register.map(|it| it.keep(waiting)) {
        troubles.push(trouble.into());
    }
    waiting.clear();
}

#[cfg(not(feature = "register"))]
fn keep(_: Option<&Register>, waiting: &mut Vec<Kept>, _: &mut Vec<ClassTrouble>) {
    waiting.clear();
}

/// Puts beside each hand-in what people did with it.
#[cfg(feature = "register")]
fn with_people(register: Option<&Register>, all: &mut [HandIn], troubles: &mut Vec<ClassTrouble>) {
    if let Some(Err(trouble)) = register.map(|it| it.with_people(all)) {
        troubles.push(trouble.into());
    }
}

#[cfg(not(feature = "register"))]
fn with_people(_: Option<&Register>, _: &mut [HandIn], _: &mut Vec<ClassTrouble>) {}

/// A file beside the assignment: what it earned, or why nothing can be said of it; and what is to be kept of it.
fn looked_at(
    (bench, wording): &mut (Bench, Wording),
    file: &HandInFile,
    assignment: &Assignment,
    templates: &[Template<'_>],
    register: Option<&Register>,
) -> (HandIn, Option<Kept>) {
    let bytes = match file.bytes() {
        Ok(it) => it,
        Err(trouble) => return (unusable(assignment, &trouble, wording), None),
    };
    if let Some(kept) = register.and_then(|it| it.found(&sha256(&bytes))) {
        return (kept, None);
    }
    match bench.mark_bytes(file.path(), bytes, templates, true) {
        Ok((marked, cut_off)) => {
            let it = HandIn::of(assignment, &marked, cut_off, wording);
            let to_keep = register.and_then(|_| to_keep(&it));
            (it, to_keep)
        }
        Err(trouble) => (unusable(assignment, &trouble, wording), None),
    }
}

/// A file that can't be marked, and why.
fn unusable(assignment: &Assignment, trouble: &JournalError, wording: &Wording) -> HandIn {
    let JournalError::Wrong { text, problems, .. } = trouble else {
        return HandIn::unusable(assignment, None, false, None, trouble.say(wording));
    };
    let first = problems.first();
    let changed = first.is_some_and(|it| {
        use ProblemCode::{Digest, NoSum, OtherScenario, OtherSum};
        matches!(it.code, NoSum | OtherSum | Digest | OtherScenario)
    });
    let line = first.map(|it| it.position(text).0);
    HandIn::unusable(assignment, text.lines().next(), changed, line, trouble.say(wording))
}
