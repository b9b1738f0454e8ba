//! The attempts of a folder, newest first: what each is of, and whether it was handed in.
//!
//! The number of files and bytes that it looks at is bounded. A file that can't be read is named with its trouble and stops
//! nothing; a name is only ever shown, never followed out of the folder.

use std::{
    cmp::Reverse,
    fs,
    io::ErrorKind,
    path::{Path, PathBuf},
    time::SystemTime,
};

use switchdrop::{attempt::Line, exercise::Limits, work::Action};

use super::{attempt::read_attempt, error::JournalError};

/// How an attempt's file is called at its end.
const ENDING: &str = ".attempt.ron";
/// Names looked at in a folder.
const NAMES: usize = 4096;
/// Attempts that are read for the list.
const LISTED: usize = 24;
/// Bytes that are read for the list.
const BYTES: u64 = 4 * Limits::ATTEMPT_BYTES as u64;

/// One attempt of the folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeptAttempt {
    /// Its file.
    pub path: PathBuf,
    /// The exercise's title.
    pub title: String,
    /// Who did it.
    pub learner: String,
    /// Wall time at its start, as the file has it.
    pub started: String,
    /// Actions in it.
    pub actions: usize,
    /// Whether it was handed in.
    pub handed_in: bool,
}

/// What a folder holds.
#[derive(Debug, Default)]
pub struct AttemptList {
    /// Those that could be read, newest first.
    pub attempts: Vec<KeptAttempt>,
    /// Those that could not, newest first.
    pub broken: Vec<JournalError>,
    /// Older ones that were not looked into.
    pub more: usize,
}

impl AttemptList {
    /// Looks at a folder. One that is not there holds nothing.
    pub fn look(folder: &Path) -> Self {
        let mut kept = Self::default();
        let entries = match fs::read_dir(folder) {
            Ok(it) => it,
            Err(cause) => {
                if cause.kind() != ErrorKind::NotFound {
                    kept.broken.push(JournalError::Unreadable(folder.to_owned(), cause));
                }
                return kept;
            }
        };
        let mut found: Vec<(SystemTime, PathBuf, u64)> = Vec::new();
        for entry in entries.take(NAMES).flatten() {
            if !entry.file_name().to_string_lossy().ends_with(ENDING) {
                continue;
            }
            // Of a link this is the link itself: how large its file is, reading it finds out.
            let facts = entry.metadata().ok();
            let changed = facts.as_ref().and_then(|it| it.modified().ok()).unwrap_or(SystemTime::UNIX_EPOCH);
            found.push((changed, entry.path(), facts.map_or(0, |it| it.len())));
        }
        found.sort_by(|a, b| (Reverse(a.0), &a.1).cmp(&(Reverse(b.0), &b.1)));
        let mut bytes = 0;
        for (_, path, size) in found {
            if kept.attempts.len() + kept.broken.len() >= LISTED || bytes + size > BYTES {
                kept.more += 1;
                continue;
            }
            bytes += size;
            match look_into(&path) {
                Ok(it) => kept.attempts.push(it),
                Err(it) => kept.broken.push(it),
            }
        }
        kept
    }

    /// Whether there is nothing to show at all.
    pub fn is_empty(&self) -> bool {
        self.attempts.is_empty() && self.broken.is_empty()
    }
}

fn look_into(path: &Path) -> Result<KeptAttempt, JournalError> {
    let whole = read_attempt(path)?.opened;
    let actions = || {
        whole.lines.iter().filter_map(|(_, it)| match it {
            Line::Did { action, .. } => Some(action),
            Line::Opened { .. } => None,
        })
    };
    Ok(KeptAttempt {
        path: path.to_owned(),
        title: whole.exercise.title.clone(),
        actions: actions().count(),
        handed_in: actions().any(|it| *it == Action::HandIn),
        learner: whole.header.learner,
        started: whole.header.started,
    })
}

#[cfg(test)]
mod tests {
    use std::time::Duration;

    use super::*;

    const SAMPLE: &str = include_str!("../../assets/sample.attempt.ron");

    fn folder(name: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("switchdrop-kept-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).unwrap();
        folder
    }

    fn put(folder: &Path, name: &str, text: &[u8], age: u64) {
        let path = folder.join(name);
        fs::write(&path, text).unwrap();
        let file = fs::File::options().write(true).open(&path).unwrap();
        file.set_modified(SystemTime::UNIX_EPOCH + Duration::from_secs(2_000_000_000 - age)).unwrap();
    }

    fn unfinished() -> String {
        SAMPLE.lines().take(12).fold(String::new(), |so_far, it| so_far + it + "\n")
    }

    #[test]
    fn a_folder_that_is_not_there_is_empty() {
        let kept = AttemptList::look(Path::new("/nowhere/at/all"));
        assert!(kept.is_empty() && kept.more == 0);
    }

    #[test]
    fn attempts_come_newest_first_and_say_whether_they_were_handed_in() {
        let folder = folder("order");
        put(&folder, "a.attempt.ron", SAMPLE.as_bytes(), 100);
        put(&folder, "b.attempt.ron", unfinished().as_bytes(), 10);
        put(&folder, "notes.txt", b"no attempt", 1);
        let kept = AttemptList::look(&folder);
        let said: Vec<_> = kept.attempts.iter().map(|it| (it.handed_in, it.actions > 20)).collect();
        assert_eq!(said, [(false, false), (true, true)]);
        assert!(kept.broken.is_empty());
        let _ = fs::remove_dir_all(&folder);
    }

    #[test]
    fn what_is_broken_or_not_a_file_is_named_and_stops_nothing() {
        let folder = folder("broken");
        put(&folder, "\u{202e}nor\u{7}.attempt.ron", &[0xff, 0xfe, b'\n'], 3);
        put(&folder, "cut.attempt.ron", b"Attempt(", 2);
        fs::create_dir(folder.join("folder.attempt.ron")).unwrap();
        put(&folder, "good.attempt.ron", SAMPLE.as_bytes(), 900);
        let kept = AttemptList::look(&folder);
        assert_eq!((kept.attempts.len(), kept.broken.len()), (1, 3));
        let _ = fs::remove_dir_all(&folder);
    }

    /// The limits are this file's own: two files over each.
    #[test]
    fn no_more_than_so_many_files_and_bytes_are_read() {
        let folder = folder("many");
        for it in 0..26 {
            put(&folder, &format!("{it}.attempt.ron"), unfinished().as_bytes(), it + 1);
        }
        let kept = AttemptList::look(&folder);
        assert_eq!((kept.attempts.len(), kept.more), (24, 2));
        for it in 0..6 {
            put(&folder, &format!("large-{it}.attempt.ron"), &vec![b'x'; 1024 * 1024], 0);
        }
        let kept = AttemptList::look(&folder);
        assert_eq!(kept.broken.len(), 4);
        assert!(kept.attempts.is_empty() && kept.more == 28, "{} {}", kept.attempts.len(), kept.more);
        let _ = fs::remove_dir_all(&folder);
    }
}
