//! The attempts of a folder, newest first: whose each is, what it is of, and whether it was handed in.
//!
//! Several people may use one login, so a list is always of one learner: of another's file no more is read than the line that says
//! whose it is. The number of files and bytes that are looked at is bounded. A file that can't be read is named with its trouble and
//! stops nothing; a name is only ever shown, never followed out of the folder.

use std::{
    cmp::Reverse,
    fs::{self, File},
    io::{ErrorKind, Read},
    path::{Path, PathBuf},
    time::SystemTime,
};

use switchdrop::{
    attempt::{Line, learner_of},
    exercise::Limits,
    work::Action,
};

use super::{
    attempt::read_attempt,
    error::JournalError,
    read::{BYTE_ORDER_MARK, is_file},
};

/// How an attempt's file is called at its end.
const ENDING: &str = ".attempt.ron";
/// Names looked at in a folder.
const NAMES: usize = 4096;
/// Attempts that are read for the list.
const LISTED: usize = 24;
/// Files that nobody can say of whose they are, and are read to say what is wrong with them.
const STRANGE: usize = 8;
/// Bytes that are read for the list.
const BYTES: u64 = 4 * Limits::ATTEMPT_BYTES as u64;
/// Bytes of the first line that are read. Its three names have [`Limits::NAME_CHARS`] at most, of ten bytes each if all are escaped.
const FIRST_LINE: u64 = 4096;

/// A file of the folder.
#[derive(Debug)]
struct Found {
    path: PathBuf,
    bytes: u64,
    /// Whose it is, if that can be read.
    learner: Option<String>,
}

/// A folder of attempts, each with whose it is. No more than that is read of them.
#[derive(Debug, Default)]
pub struct AttemptFolder {
    /// Newest first.
    found: Vec<Found>,
    /// Why it can't be looked into.
    pub trouble: Option<JournalError>,
}

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

/// What a folder holds of one learner.
#[derive(Debug, Default)]
pub struct AttemptList {
    /// Those that could be read, newest first.
    pub attempts: Vec<KeptAttempt>,
    /// Those that could not, newest first, and those of which nobody can say whose they are.
    pub broken: Vec<JournalError>,
    /// Older ones that were not looked into.
    pub more: usize,
}

impl AttemptFolder {
    /// Looks at a folder. One that is not there holds nothing.
    pub fn look(folder: &Path) -> Self {
        let entries = match fs::read_dir(folder) {
            Ok(it) => it,
            Err(cause) if cause.kind() == ErrorKind::NotFound => return Self::default(),
            Err(cause) => {
                let trouble = Some(JournalError::Unreadable(folder.to_owned(), cause));
                return Self { trouble, ..Self::default() };
            }
        };
        let mut found: Vec<(SystemTime, Found)> = Vec::new();
        for entry in entries.take(NAMES).flatten() {
            if !entry.file_name().to_string_lossy().ends_with(ENDING) {
                continue;
            }
            // Of a link this is the link itself: how large its file is, reading it finds out.
            let facts = entry.metadata().ok();
            let changed = facts.as_ref().and_then(|it| it.modified().ok()).unwrap_or(SystemTime::UNIX_EPOCH);
            let (path, bytes) = (entry.path(), facts.map_or(0, |it| it.len()));
            let learner = whose(&path);
            found.push((changed, Found { path, bytes, learner }));
        }
        found.sort_by(|a, b| (Reverse(a.0), &a.1.path).cmp(&(Reverse(b.0), &b.1.path)));
        Self { found: found.into_iter().map(|it| it.1).collect(), trouble: None }
    }

    /// What there is of one learner. Nobody, a name of nothing but spaces, has nothing.
    pub fn of(&self, learner: &str) -> AttemptList {
        let mut kept = AttemptList::default();
        if learner.trim().is_empty() {
            return kept;
        }
        let (mut bytes, mut strange) = (0, 0);
        let mut has_room = |it: &Found| {
            let fits = bytes + it.bytes <= BYTES;
            bytes += if fits { it.bytes } else { 0 };
            fits
        };
        // The learner's own files come first: files that name no learner must not take their place.
        let is_own = |found: &&Found| found.learner.as_deref().is_some_and(|name| is_same_learner(name, learner));
        let own = self.found.iter().filter(is_own);
        for it in own.chain(self.found.iter().filter(|it| it.learner.is_none())) {
            let is_listed = match it.learner {
                Some(_) => kept.attempts.len() + kept.broken.len() < LISTED,
                None => strange < STRANGE,
            };
            if !is_listed || !has_room(it) {
                kept.more += 1;
                continue;
            }
            strange += usize::from(it.learner.is_none());
            match look_into(&it.path) {
                Ok(it) if is_same_learner(&it.learner, learner) => kept.attempts.push(it),
                // It was read between two looks, or changed: it is another's.
                Ok(_) => {}
                Err(it) => kept.broken.push(it),
            }
        }
        kept
    }
}

impl AttemptList {
    /// Whether there is nothing to show at all.
    pub fn is_empty(&self) -> bool {
        self.attempts.is_empty() && self.broken.is_empty()
    }
}

/// Whether two names are one learner's: spaces around them and capitals make no difference.
pub fn is_same_learner(a: &str, b: &str) -> bool {
    a.trim().to_lowercase() == b.trim().to_lowercase()
}

/// Whose a file is, by its first line.
fn whose(path: &Path) -> Option<String> {
    is_file(path).ok()?;
    let mut start = Vec::new();
    File::open(path).ok()?.take(FIRST_LINE).read_to_end(&mut start).ok()?;
    let start = start.strip_prefix(BYTE_ORDER_MARK).unwrap_or(&start);
    let line = start.split(|it| *it == b'\n').next()?;
    learner_of(std::str::from_utf8(line).ok()?)
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
    /// Whose that is.
    const LEARNER: &str = "A. Thornbury";

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
        let kept = AttemptFolder::look(Path::new("/nowhere/at/all"));
        assert!(kept.trouble.is_none() && kept.of("Robin").is_empty() && kept.of("Robin").more == 0);
    }

    #[test]
    fn attempts_come_newest_first_and_say_whether_they_were_handed_in() {
        let folder = folder("order");
        put(&folder, "a.attempt.ron", SAMPLE.as_bytes(), 100);
        put(&folder, "b.attempt.ron", unfinished().as_bytes(), 10);
        put(&folder, "notes.txt", b"no attempt", 1);
        let kept = AttemptFolder::look(&folder).of(LEARNER);
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
        let kept = AttemptFolder::look(&folder).of(LEARNER);
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
        let kept = AttemptFolder::look(&folder).of(LEARNER);
        assert_eq!((kept.attempts.len(), kept.more), (24, 2));
        for it in 0..6 {
            put(&folder, &format!("large-{it}.attempt.ron"), &vec![b'x'; 1024 * 1024], 0);
        }
        let kept = AttemptFolder::look(&folder).of(LEARNER);
        // The learner's own files are still there; of those that name no learner, as much as fits in four megabytes.
        assert_eq!((kept.attempts.len(), kept.broken.len(), kept.more), (24, 3, 5));
        let _ = fs::remove_dir_all(&folder);
    }
}
