//! The attempt file, open: each action appended as one write before it is shown.

use std::{
    fs::{self, File, Metadata, OpenOptions},
    io::{self, ErrorKind, Seek, SeekFrom, Write},
    path::{Path, PathBuf},
    time::Instant,
};

use switchdrop::{
    attempt::{
        Attempt, Chain, Header, Opened, ReadBefore, Stranger, action_line, first_lines, open, open_again,
        open_for_states, opened_line, sha256, stranger,
    },
    exercise::{Exercise, Limits, Problems, Template},
    work::Action,
};

use super::{
    error::JournalError,
    flush::Flusher,
    read::{BYTE_ORDER_MARK, as_text, bytes, is_file},
    write::{create_whole, lock},
};

/// Kept free at the end of an attempt so that it can always be handed in.
const RESERVE: usize = Limits::ACTION_BYTES;

/// An attempt file that this program, and no other, appends to.
#[derive(Debug)]
pub struct Journal {
    path: PathBuf,
    file: File,
    flusher: Flusher,
    opened: Instant,
    chain: Chain,
    /// All that stands in the file: with it, it is known again when it is back, and written anew where it is gone.
    text: Vec<u8>,
    lines: usize,
    /// Something went wrong: how the file stands is not known.
    broken: bool,
    /// A write failed: part of a line may stand at its end.
    torn: bool,
    /// Bytes that the disk still takes of a line. Such a disk brings nothing to rest.
    #[cfg(all(test, feature = "workshop"))]
    room: Option<usize>,
}

/// A line ready to be sealed and appended.
#[derive(Debug)]
pub struct Entry(String);

/// An attempt file as read, whole lines only.
#[derive(Debug)]
pub struct Whole {
    /// Its text.
    pub text: String,
    /// What the library read in it.
    pub opened: Opened,
    /// Bytes of the file up to there, a byte order mark among them.
    pub bytes: usize,
    /// Bytes after the last whole line, which do not count.
    pub cut_off: usize,
    /// SHA-256 of the file as it is, unfinished line and all.
    pub sha256: String,
    /// SHA-256 of the file up to the end of the line that handed it in: what the learner was shown then.
    pub receipt: Option<String>,
}

/// Whether an attempt that was opened again can be gone on with.
#[derive(Debug)]
pub enum Access {
    /// Yes.
    Write(Journal),
    /// No: another window has it open.
    InUse,
    /// No: this user may only read it.
    ReadOnly,
}

/// An attempt opened again.
#[derive(Debug)]
pub struct Reopened {
    /// Who did it, and how it counts.
    #[cfg_attr(not(feature = "workshop"), allow(dead_code, reason = "the command line asks for none of it"))]
    pub header: Header,
    /// The attempt as it stands.
    pub attempt: Attempt,
    /// Whether it can be gone on with.
    pub access: Access,
    /// The receipt of one that was handed in.
    #[cfg_attr(not(feature = "workshop"), allow(dead_code, reason = "the command line asks for none of it"))]
    pub receipt: Option<String>,
    /// Bytes of a last line that was never finished; they are gone from the file if it can be written.
    pub cut_off: usize,
}

/// Reads an attempt without opening it to write.
///
/// # Errors
/// What is wrong with the file.
pub fn read_attempt(path: &Path) -> Result<Whole, JournalError> {
    read_attempt_with(path, open)
}

/// Reads an attempt that only its states are asked of; more switches are allowed then.
///
/// # Errors
/// What is wrong with the file.
pub fn read_attempt_for_states(path: &Path) -> Result<Whole, JournalError> {
    read_attempt_with(path, open_for_states)
}

/// Reads one of many attempts; an exercise like the last one's is not read again.
///
/// # Errors
/// What is wrong with the file.
pub fn read_attempt_again(
    path: &Path,
    known: &mut ReadBefore,
    templates: &[Template<'_>],
) -> Result<Whole, JournalError> {
    read_attempt_with(path, |text| open_again(text, known, templates))
}

/// The same of an attempt whose bytes have been read: those of a file in a zip, for one.
///
/// # Errors
/// What is wrong with it.
pub fn attempt_in(
    path: &Path,
    bytes: Vec<u8>,
    known: &mut ReadBefore,
    templates: &[Template<'_>],
) -> Result<Whole, JournalError> {
    whole_of(path, bytes, |text| open_again(text, known, templates))
}

/// The bytes of an attempt file.
///
/// # Errors
/// Why it can't be read.
pub fn attempt_bytes(path: &Path) -> Result<Vec<u8>, JournalError> {
    bytes(path, &opened(path)?, Limits::ATTEMPT_BYTES)
}

fn read_attempt_with(
    path: &Path,
    reader: impl FnOnce(&str) -> Result<Opened, Problems>,
) -> Result<Whole, JournalError> {
    whole(path, &opened(path)?, reader)
}

/// A file, open to be read.
fn opened(path: &Path) -> Result<File, JournalError> {
    match is_file(path) {
        Err(JournalError::NotAFile(_)) if path.is_dir() => Err(JournalError::FolderOfAttempts(path.to_owned())),
        other => other,
    }?;
    File::open(path).map_err(|cause| JournalError::Unreadable(path.to_owned(), cause))
}

/// Opens an attempt again: locks it, reads it, replays it, cuts an unfinished last line off and notes the time. Nothing
/// is changed in a file that has anything wrong with it.
///
/// # Errors
/// What is wrong with the file.
pub fn reopen(path: &Path, now: String) -> Result<Reopened, JournalError> {
    is_file(path)?;
    let file = match OpenOptions::new().read(true).write(true).open(path) {
        Err(cause) if matches!(cause.kind(), ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem) => None,
        other => Some(other.map_err(|cause| JournalError::Unreadable(path.to_owned(), cause))?),
    };
    let Some(file) = file else { return read_only(path, Access::ReadOnly) };
    if !lock(&file) {
        return read_only(path, Access::InUse);
    }
    let whole = whole(path, &file, open)?;
    let attempt = replay(path, &whole)?;
    if whole.cut_off > 0 {
        file.set_len(whole.bytes as u64).map_err(|cause| JournalError::Unwritable(path.to_owned(), cause))?;
    }
    // What comes before the text can only be an editor's mark.
    let mark = &BYTE_ORDER_MARK[..whole.bytes - whole.text.len()];
    let (text, lines) = ([mark, whole.text.as_bytes()].concat(), whole.opened.lines.len() + 2);
    let mut journal = Journal::over(path, file, whole.opened.chain.clone(), text, lines)?;
    let line = opened_line(now).map_err(|err| JournalError::Unwritable(path.to_owned(), std::io::Error::other(err)))?;
    // A full attempt can still be handed in; noting the time must not use up the room for that. One that was handed in
    // stays as it is: its receipt has been given.
    if !attempt.tally().handed_in && journal.has_room(&line, RESERVE) {
        journal.append(&Entry(line))?;
    }
    let Whole { opened, receipt, cut_off, .. } = whole;
    Ok(Reopened { header: opened.header, attempt, access: Access::Write(journal), receipt, cut_off })
}

/// Opens an attempt to read it only; its file stays as it is.
///
/// # Errors
/// What is wrong with the file.
#[cfg(feature = "workshop")]
pub fn open_to_read(path: &Path) -> Result<Reopened, JournalError> {
    read_only(path, Access::ReadOnly)
}

fn read_only(path: &Path, access: Access) -> Result<Reopened, JournalError> {
    let whole = read_attempt(path)?;
    let attempt = replay(path, &whole)?;
    let Whole { opened, receipt, cut_off, .. } = whole;
    Ok(Reopened { header: opened.header, attempt, access, receipt, cut_off })
}

fn replay(path: &Path, whole: &Whole) -> Result<Attempt, JournalError> {
    let wrong = |problems| JournalError::Wrong { path: path.to_owned(), text: whole.text.clone(), problems };
    whole.opened.replay().map_err(wrong)
}

/// The whole lines of a file.
fn whole(
    path: &Path,
    file: &File,
    reader: impl FnOnce(&str) -> Result<Opened, Problems>,
) -> Result<Whole, JournalError> {
    whole_of(path, bytes(path, file, Limits::ATTEMPT_BYTES)?, reader)
}

/// The whole lines of what a file has in it. The bytes after the last newline go first: a write cut short may have cut a letter.
fn whole_of(
    path: &Path,
    mut bytes: Vec<u8>,
    reader: impl FnOnce(&str) -> Result<Opened, Problems>,
) -> Result<Whole, JournalError> {
    let whole = bytes.iter().rposition(|it| *it == b'\n').map_or(0, |it| it + 1);
    let cut_off = bytes.len() - whole;
    let digest = sha256(&bytes);
    let marked = bytes.starts_with(BYTE_ORDER_MARK);
    // Asked of a file that can't be read, and of all of it: what is no attempt may have no newline.
    let stranger = stranger(bytes.strip_prefix(BYTE_ORDER_MARK).unwrap_or(&bytes));
    let strange = |trouble| match stranger {
        Some(Stranger::Scenario) => JournalError::ScenarioForAttempt(path.to_owned()),
        Some(Stranger::Assignment) => JournalError::AssignmentForAttempt(path.to_owned()),
        Some(Stranger::Other) => JournalError::NotAnAttempt(path.to_owned()),
        None => trouble,
    };
    bytes.truncate(whole);
    let text = as_text(path, bytes).map_err(strange)?;
    match reader(&text) {
        Ok(opened) => {
            let receipt = opened.handed_in_by().map(|end| match cut_off {
                0 if end == text.len() => digest.clone(),
                _ if marked => sha256(&[BYTE_ORDER_MARK, &text.as_bytes()[..end]].concat()),
                _ => sha256(&text.as_bytes()[..end]),
            });
            Ok(Whole { text, opened, bytes: whole, cut_off, sha256: digest, receipt })
        }
        Err(problems) => Err(strange(JournalError::Wrong { path: path.to_owned(), text, problems })),
    }
}

impl Journal {
    /// Starts a new attempt file, which is there with its first two lines or not at all. A file that is there already stays
    /// as it is.
    ///
    /// # Errors
    /// Why there is no file.
    pub fn create(path: &Path, header: &Header, exercise: &Exercise) -> Result<Self, JournalError> {
        let lines = first_lines(header, exercise)
            .map_err(|err| JournalError::Unwritable(path.to_owned(), std::io::Error::other(err)))?;
        let mut chain = Chain::new(header.format);
        let text: String = lines.iter().map(|it| chain.seal(it)).collect();
        let file = create_whole(path, text.as_bytes())?;
        Self::over(path, file, chain, text.into_bytes(), lines.len())
    }

    fn over(path: &Path, mut file: File, chain: Chain, text: Vec<u8>, lines: usize) -> Result<Self, JournalError> {
        let unwritable = |cause| JournalError::Unwritable(path.to_owned(), cause);
        file.seek(SeekFrom::Start(text.len() as u64)).map_err(unwritable)?;
        let flusher = file.try_clone().and_then(Flusher::start).map_err(unwritable)?;
        flusher.soon();
        let (path, opened) = (path.to_owned(), Instant::now());
        Ok(Self {
            path,
            file,
            flusher,
            opened,
            chain,
            text,
            lines,
            broken: false,
            torn: false,
            #[cfg(all(test, feature = "workshop"))]
            room: None,
        })
    }

    /// The line of an action that is about to be done now. Asked for before the action is done, so that nothing is done
    /// that can't be written down.
    ///
    /// # Errors
    /// That it has no room.
    pub fn entry(&self, action: &Action) -> Result<Entry, JournalError> {
        let ms = self.opened.elapsed().as_millis().try_into().unwrap_or(u64::MAX);
        let line = action_line(ms, action)
            .map_err(|err| JournalError::Unwritable(self.path.clone(), std::io::Error::other(err)))?;
        let reserve = if matches!(action, Action::HandIn) { 0 } else { RESERVE };
        if self.sealed(&line).trim_end().len() > Limits::ACTION_BYTES {
            Err(JournalError::LongLine(self.path.clone()))
        } else if self.has_room(&line, reserve) {
            Ok(Entry(line))
        } else {
            Err(JournalError::Full(self.path.clone()))
        }
    }

    /// A line as it would go into the file now.
    fn sealed(&self, line: &str) -> String {
        self.chain.clone().seal(line)
    }

    fn has_room(&self, line: &str, reserve: usize) -> bool {
        self.text.len() + self.sealed(line).len() + reserve <= Limits::ATTEMPT_BYTES
            && self.lines + 1 + usize::from(reserve > 0) <= Limits::ATTEMPT_LINES
    }

    /// Appends a line as one write. To be done before anything is shown of it. After trouble it goes on as soon as the file can be
    /// written again: see [`Self::mend`].
    ///
    /// # Errors
    /// Why it could not. Then nothing of it counts, and what stood in the file before stands there still.
    pub fn append(&mut self, entry: &Entry) -> Result<(), JournalError> {
        self.mend()?;
        let mut chain = self.chain.clone();
        let line = chain.seal(&entry.0);
        if let Err(cause) = self.put(line.as_bytes()) {
            (self.broken, self.torn) = (true, true);
            // Part of the line may stand there. Reading leaves it out as it is, this is only tidier.
            let _ = self.file.set_len(self.text.len() as u64);
            return Err(JournalError::Unwritable(self.path.clone(), cause));
        }
        self.chain = chain;
        self.text.extend_from_slice(line.as_bytes());
        self.lines += 1;
        self.flusher.soon();
        Ok(())
    }

    fn put(&mut self, line: &[u8]) -> io::Result<()> {
        #[cfg(all(test, feature = "workshop"))]
        if let Some(room) = self.room.filter(|it| *it < line.len()) {
            self.file.write_all(&line[..room])?;
            return Err(ErrorKind::StorageFull.into());
        }
        self.file.write_all(line)
    }

    /// Sees to it that the file stands as this program left it. Where something went wrong before, that is looked for anew: the folder
    /// may be back, the disk have room, the share be there again as another device. A file that is gone is written anew.
    ///
    /// # Errors
    /// Why it does not, once more. What somebody else wrote is never written over.
    pub fn mend(&mut self) -> Result<(), JournalError> {
        let mended = if self.broken { self.find_again() } else { Ok(()) };
        let stands = mended.and_then(|()| self.is_as_it_was_left());
        self.broken = stands.is_err();
        stands
    }

    /// Opens the file anew where it is another than it was, and looks whether all that was written stands there, and nothing else.
    fn find_again(&mut self) -> Result<(), JournalError> {
        let unwritable = |cause| JournalError::Unwritable(self.path.clone(), cause);
        let is_ours = match (fs::metadata(&self.path), self.file.metadata()) {
            // Opening a pipe would wait for ever.
            (Ok(there), _) if !there.is_file() => return Err(JournalError::NotAFile(self.path.clone())),
            (Ok(there), Ok(ours)) => is_one_file(&there, &ours),
            _ => false,
        };
        if !is_ours {
            let file = match OpenOptions::new().read(true).write(true).open(&self.path) {
                Ok(it) => it,
                Err(cause) if cause.kind() == ErrorKind::NotFound => create_whole(&self.path, &self.text)?,
                Err(cause) => return Err(unwritable(cause)),
            };
            if !lock(&file) {
                return Err(JournalError::Gone(self.path.clone()));
            }
            self.flusher = file.try_clone().and_then(Flusher::start).map_err(unwritable)?;
            self.file = file;
        }
        self.file.rewind().map_err(unwritable)?;
        let found = bytes(&self.path, &self.file, Limits::ATTEMPT_BYTES + Limits::ACTION_BYTES)?;
        let left = self.text.len();
        if found != self.text {
            // A whole line after ours was written by somebody else.
            let is_torn = self.torn && found.strip_prefix(&*self.text).is_some_and(|it| !it.contains(&b'\n'));
            if !is_torn {
                return Err(JournalError::Altered { path: self.path.clone(), found: found.len() as u64, left });
            }
            self.file.set_len(left as u64).map_err(unwritable)?;
        }
        self.torn = false;
        self.file.seek(SeekFrom::Start(left as u64)).map_err(unwritable)?;
        Ok(())
    }

    /// Brings everything to the disk, and waits until it is there. At hand-in, and before the program ends.
    ///
    /// # Errors
    /// Why it could not.
    pub fn flush(&self) -> Result<(), JournalError> {
        #[cfg(all(test, feature = "workshop"))]
        if self.room.is_some() {
            return Err(JournalError::Unwritable(self.path.clone(), ErrorKind::StorageFull.into()));
        }
        self.flusher.now().map_err(|cause| JournalError::Unwritable(self.path.clone(), cause))
    }
    /// Where it stands.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// What was handed in, by the digest of the file as it now stands on the disk.
    ///
    /// # Errors
    /// That it can't be read.
    pub fn receipt(&self) -> Result<String, JournalError> {
        let file = File::open(&self.path).map_err(|cause| JournalError::Unreadable(self.path.clone(), cause))?;
        Ok(sha256(&bytes(&self.path, &file, Limits::ATTEMPT_BYTES)?))
    }

    /// Whether the file still stands where it was and nobody else has written to it. A lock keeps others of our kind out, an
    /// editor or a file manager not.
    fn is_as_it_was_left(&self) -> Result<(), JournalError> {
        let unreadable = |cause| JournalError::Unreadable(self.path.clone(), cause);
        let ours = self.file.metadata().map_err(unreadable)?;
        match fs::metadata(&self.path) {
            Err(cause) if cause.kind() == ErrorKind::NotFound => return Err(JournalError::Gone(self.path.clone())),
            Err(cause) => return Err(unreadable(cause)),
            Ok(there) if !is_one_file(&there, &ours) => return Err(JournalError::Gone(self.path.clone())),
            Ok(_) => {}
        }
        if ours.len() == self.text.len() as u64 {
            Ok(())
        } else {
            Err(JournalError::Altered { path: self.path.clone(), found: ours.len(), left: self.text.len() })
        }
    }
}

#[cfg(all(test, feature = "workshop"))]
impl Journal {
    /// Lets the disk take no more than this number of bytes of a line.
    pub fn has_room_for(&mut self, bytes: Option<usize>) {
        self.room = bytes;
    }
}

#[cfg(unix)]
fn is_one_file(a: &Metadata, b: &Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    a.dev() == b.dev() && a.ino() == b.ino()
}

/// Elsewhere an open file can't be replaced, or we can't tell.
#[cfg(not(unix))]
fn is_one_file(_: &Metadata, _: &Metadata) -> bool {
    true
}
