//! Writing a file whole or not at all.

use std::{
    ffi::OsString,
    fs::{self, File, OpenOptions},
    io::{self, Read, Write},
    path::Path,
    process,
};

use super::trouble::Trouble;

/// Writes a file under another name in its folder, then gives it its own: whoever looks sees the old file or the new
/// one, never half of it.
///
/// # Errors
/// Why it could not. What was there is then as it was.
pub fn write_whole(path: &Path, text: &str) -> Result<(), Trouble> {
    let Some(name) = path.file_name() else { return Err(Trouble::NotAFile(path.to_owned())) };
    if path.is_dir() {
        return Err(Trouble::NotAFile(path.to_owned()));
    }
    let mut other: OsString = ".".into();
    other.push(name);
    other.push(format!(".{}.part", process::id()));
    let part = path.with_file_name(other);
    let written = write_new(&part, text).and_then(|()| fs::rename(&part, path));
    written.map_err(|cause| {
        // Ours, if it is there at all; a part of another program has another number in its name.
        let _ = fs::remove_file(&part);
        Trouble::Unwritable(path.to_owned(), cause)
    })
}

/// Makes a folder, and those it is in, if it is not there.
///
/// # Errors
/// Why it could not: something else of that name, for one.
pub fn make_folder(path: &Path) -> Result<(), Trouble> {
    if path.exists() && !path.is_dir() {
        return Err(Trouble::NotAFolder(path.to_owned()));
    }
    fs::create_dir_all(path).map_err(|cause| Trouble::Unwritable(path.to_owned(), cause))
}

/// Writes a file whole, over another of that name only if that begins with `title`: the program's own.
///
/// # Errors
/// That the one there is not ours, or why it can't be written. What was there is then as it was.
pub fn write_own(path: &Path, title: &str, text: &str) -> Result<(), Trouble> {
    match File::open(path) {
        Err(cause) if cause.kind() == io::ErrorKind::NotFound => {}
        Err(cause) => return Err(Trouble::Unreadable(path.to_owned(), cause)),
        Ok(_) if !path.is_file() => return Err(Trouble::NotAFile(path.to_owned())),
        Ok(file) => {
            let mut start = Vec::new();
            file.take(title.len() as u64)
                .read_to_end(&mut start)
                .map_err(|cause| Trouble::Unreadable(path.to_owned(), cause))?;
            if start != title.as_bytes() {
                return Err(Trouble::NotOurs(path.to_owned()));
            }
        }
    }
    write_whole(path, text)
}

fn write_new(path: &Path, text: &str) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
    file.write_all(text.as_bytes())?;
    file.sync_data()
}
