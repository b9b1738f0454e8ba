//! What can go wrong with a register.

use std::path::{Path, PathBuf};

use rusqlite::ErrorCode;
use switchdrop::wording::Wording;

/// A register that can't be used.
#[derive(Debug)]
pub enum StoreError {
    /// There already, and no register.
    NotOurs(PathBuf),
    /// Made by a later version of the program.
    Later {
        /// Which file.
        path: PathBuf,
        /// Its version.
        found: i64,
    },
    /// Another program writes into it and does not end.
    Busy(PathBuf),
    /// Something else, in the database's own words.
    Failed(PathBuf, String),
}

impl StoreError {
    pub(super) fn of(path: &Path, cause: &rusqlite::Error) -> Self {
        let path = path.to_owned();
        match cause.sqlite_error_code() {
            Some(ErrorCode::NotADatabase) => Self::NotOurs(path),
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => Self::Busy(path),
            _ => Self::Failed(path, cause.to_string()),
        }
    }

    /// One sentence.
    pub fn say(&self, wording: &Wording) -> String {
        let (Self::NotOurs(path) | Self::Later { path, .. } | Self::Busy(path) | Self::Failed(path, _)) = self;
        let path = path.display().to_string();
        let say = |key: &str, cause: &str| wording.say(key, &[("path", &path), ("cause", cause)]);
        match self {
            Self::NotOurs(_) => say("store-not-ours", ""),
            Self::Later { found, .. } => say("store-later", &found.to_string()),
            Self::Busy(_) => say("store-busy", ""),
            Self::Failed(_, cause) => say("store-failed", cause),
        }
    }
}
