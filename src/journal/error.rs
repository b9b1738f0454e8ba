//! What can go wrong with a file on disk: which file, and what caused it.

use std::{
    io::{self, ErrorKind},
    path::{Path, PathBuf},
};

use switchdrop::{
    exercise::Problems,
    marking::Until,
    report::receipt_code,
    wording::{Wording, problem, when},
};

use super::zip::ZipFault;

/// What stands where an assignment file should be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Instead {
    /// A folder.
    Folder,
    /// A learner's attempt.
    Attempt,
    /// A scenario.
    Scenario,
}

/// A file that cannot be read, written or understood.
#[derive(Debug)]
pub enum JournalError {
    /// It can't be opened or read.
    Unreadable(PathBuf, io::Error),
    /// It can't be written.
    Unwritable(PathBuf, io::Error),
    /// A folder, a pipe or a device where a file should be.
    NotAFile(PathBuf),
    /// A file where a folder should be.
    NotAFolder(PathBuf),
    /// There already, and not written by this program.
    NotOurs(PathBuf),
    /// More bytes than are read.
    TooLarge {
        /// Which file.
        path: PathBuf,
        /// Its size.
        found: u64,
        /// The largest that is read.
        most: usize,
    },
    /// Bytes that are not UTF-8, from this line on.
    NotText(PathBuf, usize),
    /// It is a document of another program: which kind, by the key of its words.
    OtherFile(PathBuf, &'static str),
    /// A folder where an attempt file should be.
    FolderOfAttempts(PathBuf),
    /// Nothing that begins as an attempt does.
    NotAnAttempt(PathBuf),
    /// A scenario where an attempt should be.
    ScenarioForAttempt(PathBuf),
    /// An assignment where an attempt should be.
    AssignmentForAttempt(PathBuf),
    /// Something else where an assignment should be.
    NotAnAssignment {
        /// What is there.
        path: PathBuf,
        /// What it is.
        is: Instead,
    },
    /// There already, and not written over.
    Exists(PathBuf),
    /// Read, and wrong.
    Wrong {
        /// Which file.
        path: PathBuf,
        /// What stands in it.
        text: String,
        /// What is wrong with that.
        problems: Problems,
    },
    /// Deleted, or another put in its place, while it was open.
    Gone(PathBuf),
    /// Changed by another program while it was open.
    Altered {
        /// Which file.
        path: PathBuf,
        /// Its size now.
        found: u64,
        /// Its size as this program left it.
        left: usize,
    },
    /// No more actions go into the attempt.
    Full(PathBuf),
    /// One action too long for a line of the attempt.
    LongLine(PathBuf),
    /// Set work whose answers are not for its learner yet: nothing that would answer it is shown.
    Withheld {
        /// Which file.
        path: PathBuf,
        /// What ends that.
        until: Until,
        /// The receipt of one that was handed in: it answers nothing.
        receipt: Option<String>,
        /// Bytes of a last line that is only half there. That is a fact of the file, and answers nothing.
        cut_off: usize,
    },
    /// A folder at which reading stopped: that many entries had been looked at.
    TooManyFiles {
        /// The folder.
        path: PathBuf,
        /// Entries that are looked at.
        most: usize,
    },
    /// A folder too deep in others, which was not read.
    TooDeep {
        /// The folder.
        path: PathBuf,
        /// How deep is read.
        most: usize,
    },
    /// A zip, or something in one, that is not read.
    Zip {
        /// The zip, or the zip and the name in it.
        path: PathBuf,
        /// Why.
        fault: ZipFault,
    },
    /// A folder without a scenario.
    NoScenario(PathBuf),
    /// A second exercise of one id; the first stays.
    SameId {
        /// The file left out.
        path: PathBuf,
        /// The id.
        id: String,
    },
    /// A folder that is not called as its exercise.
    Misnamed {
        /// The file.
        path: PathBuf,
        /// The id in it.
        id: String,
    },
}

impl JournalError {
    /// The file.
    pub fn path(&self) -> &Path {
        match self {
            Self::Unreadable(path, _)
            | Self::Unwritable(path, _)
            | Self::NotAFile(path)
            | Self::NotAFolder(path)
            | Self::NotOurs(path)
            | Self::TooLarge { path, .. }
            | Self::NotText(path, _)
            | Self::OtherFile(path, _)
            | Self::FolderOfAttempts(path)
            | Self::NotAnAttempt(path)
            | Self::ScenarioForAttempt(path)
            | Self::AssignmentForAttempt(path)
            | Self::NotAnAssignment { path, .. }
            | Self::Exists(path)
            | Self::Wrong { path, .. }
            | Self::Gone(path)
            | Self::Altered { path, .. }
            | Self::Full(path)
            | Self::LongLine(path)
            | Self::Withheld { path, .. }
            | Self::TooManyFiles { path, .. }
            | Self::TooDeep { path, .. }
            | Self::Zip { path, .. }
            | Self::NoScenario(path)
            | Self::SameId { path, .. }
            | Self::Misnamed { path, .. } => path,
        }
    }

    /// One sentence, the file and the cause named. [`Self::Wrong`] has more to show than a sentence: its problems.
    pub fn say(&self, wording: &Wording) -> String {
        let path = self.path().display().to_string();
        let say = |key: &str, args: &[(&str, &str)]| {
            let args: Vec<_> = args.iter().copied().chain([("path", path.as_str())]).collect();
            wording.say(key, &args)
        };
        match self {
            Self::Unreadable(_, cause) => say("file-unreadable", &[("cause", &said(wording, cause))]),
            Self::Unwritable(_, cause) => say("file-unwritable", &[("cause", &said(wording, cause))]),
            Self::NotAFile(_) => say("file-not-a-file", &[]),
            Self::NotAFolder(_) => say("file-not-a-folder", &[]),
            Self::NotOurs(_) => say("file-not-ours", &[]),
            Self::TooLarge { found, most, .. } => {
                say("file-too-large", &[("found", &found.to_string()), ("most", &most.to_string())])
            }
            Self::OtherFile(_, kind) => say("file-other", &[("kind", &wording.say(kind, &[]))]),
            Self::NotText(_, line) => say("file-not-text", &[("line", &line.to_string())]),
            Self::FolderOfAttempts(path) => {
                let files = path.join("*.ron").display().to_string();
                say("file-folder-of-attempts", &[("files", &files)])
            }
            Self::NotAnAttempt(_) => say("file-not-an-attempt", &[]),
            Self::ScenarioForAttempt(_) => say("file-scenario-for-attempt", &[]),
            Self::AssignmentForAttempt(_) => say("file-assignment-for-attempt", &[]),
            Self::NotAnAssignment { is: Instead::Folder, .. } => say("file-not-an-assignment-folder", &[]),
            Self::NotAnAssignment { is: Instead::Attempt, .. } => say("file-not-an-assignment-attempt", &[]),
            Self::NotAnAssignment { is: Instead::Scenario, .. } => say("file-not-an-assignment-scenario", &[]),
            Self::Exists(_) => say("file-exists", &[]),
            Self::Wrong { text, problems, .. } => {
                let first = problems.first();
                let line = first.map_or(1, |it| it.position(text).0).to_string();
                let what = first.map_or_else(String::new, |it| problem(wording, it));
                say("file-wrong", &[("line", &line), ("what", &what)])
            }
            Self::Gone(_) => say("file-gone", &[]),
            Self::Altered { found, left, .. } => {
                say("file-altered", &[("found", &found.to_string()), ("left", &left.to_string())])
            }
            Self::Full(_) => say("file-full", &[]),
            Self::LongLine(_) => say("file-long-line", &[]),
            Self::Withheld { until: Until::HandIn, cut_off: 0, .. } => say("file-withheld", &[]),
            Self::Withheld { until: Until::HandIn, cut_off, .. } => {
                say("file-withheld-cut-off", &[("count", &cut_off.to_string())])
            }
            Self::Withheld { until, receipt, .. } => {
                let code = receipt.as_deref().map(receipt_code).unwrap_or_default();
                let kept = match until {
                    Until::Time(time) => say("file-withheld-time", &[("time", &when(wording, time))]),
                    Until::Release | Until::HandIn => say("file-withheld-release", &[]),
                };
                say("file-withheld-receipt", &[("kept", &kept), ("code", &code)])
            }
            Self::TooManyFiles { most, .. } => say("file-too-many", &[("most", &most.to_string())]),
            Self::TooDeep { most, .. } => say("file-too-deep", &[("most", &most.to_string())]),
            Self::Zip { fault, .. } => match fault {
                ZipFault::Broken => say("zip-broken", &[]),
                ZipFault::Miscounted => say("zip-miscounted", &[]),
                ZipFault::TooMuch => say("zip-too-much", &[]),
                ZipFault::Overlapping => say("zip-overlapping", &[]),
                ZipFault::SameName => say("zip-same-name", &[]),
                ZipFault::LeadsOut => say("zip-leads-out", &[]),
                ZipFault::Locked => say("zip-locked", &[]),
                ZipFault::OtherPacking => say("zip-other-packing", &[]),
                ZipFault::Nested => say("zip-nested", &[]),
                ZipFault::Damaged => say("zip-damaged", &[]),
            },
            Self::NoScenario(_) => say("file-no-scenario", &[]),
            Self::SameId { id, .. } => say("file-same-id", &[("id", id)]),
            Self::Misnamed { id, .. } => say("file-misnamed", &[("id", id)]),
        }
    }
}

/// The cause in words; what is rare, as the system says it.
fn said(wording: &Wording, cause: &io::Error) -> String {
    match cause.kind() {
        ErrorKind::NotFound => wording.say("cause-not-found", &[]),
        ErrorKind::PermissionDenied => wording.say("cause-not-allowed", &[]),
        ErrorKind::StorageFull => wording.say("cause-disk-full", &[]),
        ErrorKind::QuotaExceeded => wording.say("cause-quota", &[]),
        ErrorKind::ReadOnlyFilesystem => wording.say("cause-read-only", &[]),
        ErrorKind::StaleNetworkFileHandle
        | ErrorKind::NetworkDown
        | ErrorKind::NetworkUnreachable
        | ErrorKind::HostUnreachable => wording.say("cause-share-gone", &[]),
        _ => cause.to_string(),
    }
}
