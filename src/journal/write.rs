//! Writing a file whole or not at all.

use std::{
    ffi::OsString,
    fs::{self, OpenOptions},
    io::{self, Write},
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

fn write_new(path: &Path, text: &str) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
    file.write_all(text.as_bytes())?;
    file.sync_data()
}
