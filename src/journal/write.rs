//! Writing a file whole or not at all.

use std::{
    ffi::OsString,
    fs::{self, File, OpenOptions, TryLockError},
    io::{self, ErrorKind, Read, Write},
    path::{Path, PathBuf},
    process,
};

use super::{error::JournalError, read::is_file};

/// Writes a file under another name in its folder, then gives it its own: whoever looks sees the old file or the new
/// one, never half of it.
///
/// # Errors
/// Why it could not. What was there is then as it was.
pub(super) fn write_whole(path: &Path, text: &str) -> Result<(), JournalError> {
    let part = part_of(path)?;
    let written = put_new(&part, text.as_bytes()).and_then(|_| fs::rename(&part, path));
    written.map_err(|cause| {
        let _ = fs::remove_file(&part);
        JournalError::Unwritable(path.to_owned(), cause)
    })
}

/// Makes a file that has its text from the first moment on that anyone can see it, and never takes another's place. It stays
/// open and locked.
///
/// # Errors
/// Why it can't be written. What was there is as it was.
pub(super) fn create_whole(path: &Path, text: &[u8]) -> Result<File, JournalError> {
    if path.symlink_metadata().is_ok() {
        return Err(JournalError::Exists(path.to_owned()));
    }
    let part = part_of(path)?;
    let made = put_new(&part, text).and_then(|file| {
        lock(&file);
        // A link never replaces anything, as a new name may.
        match fs::hard_link(&part, path) {
            Ok(()) => fs::remove_file(&part)?,
            Err(cause) if cause.kind() == ErrorKind::AlreadyExists => return Err(cause),
            // Some file systems have no links.
            Err(_) if path.symlink_metadata().is_ok() => return Err(ErrorKind::AlreadyExists.into()),
            Err(_) => fs::rename(&part, path)?,
        }
        Ok(file)
    });
    made.map_err(|cause| {
        let _ = fs::remove_file(&part);
        match cause.kind() {
            ErrorKind::AlreadyExists => JournalError::Exists(path.to_owned()),
            _ => JournalError::Unwritable(path.to_owned(), cause),
        }
    })
}

/// Writes a file that is not there yet, whole or not at all.
///
/// # Errors
/// That it is there already, or why it can't be written.
pub fn write_new(path: &Path, bytes: &[u8]) -> Result<(), JournalError> {
    create_whole(path, bytes).map(drop)
}

/// False only when another program holds the lock. Where the file system knows no locks we go on without.
pub(super) fn lock(file: &File) -> bool {
    !matches!(file.try_lock(), Err(TryLockError::WouldBlock))
}

/// The name under which a file is written before it has its own. One that is there was left by a program that ended before
/// it was done: nobody else has our number now.
fn part_of(path: &Path) -> Result<PathBuf, JournalError> {
    let Some(name) = path.file_name().filter(|_| !path.is_dir()) else {
        return Err(JournalError::NotAFile(path.to_owned()));
    };
    let mut other: OsString = ".".into();
    other.push(name);
    other.push(format!(".{}.part", process::id()));
    let part = path.with_file_name(other);
    let _ = fs::remove_file(&part);
    Ok(part)
}

/// Makes a folder, and those it is in, if it is not there.
///
/// # Errors
/// Why it could not: something else of that name, for one.
pub fn make_folder(path: &Path) -> Result<(), JournalError> {
    if path.exists() && !path.is_dir() {
        return Err(JournalError::NotAFolder(path.to_owned()));
    }
    fs::create_dir_all(path).map_err(|cause| JournalError::Unwritable(path.to_owned(), cause))
}

/// Writes a file whole, over another of that name only if that begins with `title`: the program's own.
///
/// # Errors
/// That the one there is not ours, or why it can't be written. What was there is then as it was.
pub fn write_own(path: &Path, title: &str, text: &str) -> Result<(), JournalError> {
    match is_file(path)
        .and_then(|()| File::open(path).map_err(|cause| JournalError::Unreadable(path.to_owned(), cause)))
    {
        Err(JournalError::Unreadable(_, cause)) if cause.kind() == ErrorKind::NotFound => {}
        Err(trouble) => return Err(trouble),
        Ok(file) => {
            let mut start = Vec::new();
            file.take(title.len() as u64)
                .read_to_end(&mut start)
                .map_err(|cause| JournalError::Unreadable(path.to_owned(), cause))?;
            if start != title.as_bytes() {
                return Err(JournalError::NotOurs(path.to_owned()));
            }
        }
    }
    write_whole(path, text)
}

fn put_new(path: &Path, text: &[u8]) -> io::Result<File> {
    let mut file = OpenOptions::new().read(true).write(true).create_new(true).open(path)?;
    file.write_all(text)?;
    file.sync_data()?;
    Ok(file)
}

/// Whether a file is there that begins so: one that the program wrote. A link does not count.
#[cfg(feature = "register")]
pub fn begins_with(path: &Path, title: &str) -> bool {
    if !path.symlink_metadata().is_ok_and(|it| it.is_file()) {
        return false;
    }
    let mut start = Vec::new();
    let read = File::open(path).and_then(|file| file.take(title.len() as u64).read_to_end(&mut start));
    read.is_ok() && start == title.as_bytes()
}
