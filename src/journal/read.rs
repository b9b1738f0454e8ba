//! Reading a file whole, its size looked at before its bytes are.

use std::{
    fs::{self, File},
    io::Read,
    path::Path,
};

use switchdrop::exercise::other_file;

use super::error::JournalError;

/// What some editors put before a text.
pub(super) const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

/// The text of a file of at most `most` bytes.
///
/// # Errors
/// Why it can't be read.
pub fn text(path: &Path, most: usize) -> Result<String, JournalError> {
    is_file(path)?;
    let file = File::open(path).map_err(|cause| JournalError::Unreadable(path.to_owned(), cause))?;
    as_text(path, bytes(path, &file, most)?)
}

/// Asked of the name before it is opened: opening a pipe would wait for ever.
pub(super) fn is_file(path: &Path) -> Result<(), JournalError> {
    let facts = fs::metadata(path).map_err(|cause| JournalError::Unreadable(path.to_owned(), cause))?;
    if facts.is_file() { Ok(()) } else { Err(JournalError::NotAFile(path.to_owned())) }
}

pub(super) fn bytes(path: &Path, file: &File, most: usize) -> Result<Vec<u8>, JournalError> {
    let unreadable = |cause| JournalError::Unreadable(path.to_owned(), cause);
    let too_large = |found| JournalError::TooLarge { path: path.to_owned(), found, most };
    let size = file.metadata().map_err(unreadable)?.len();
    if size > most as u64 {
        return Err(too_large(size));
    }
    let mut bytes = Vec::new();
    // It may have grown since.
    file.take(most as u64 + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    if bytes.len() > most { Err(too_large(bytes.len() as u64)) } else { Ok(bytes) }
}

/// The text, without the mark that some editors put before it.
pub(super) fn as_text(path: &Path, mut bytes: Vec<u8>) -> Result<String, JournalError> {
    if bytes.starts_with(BYTE_ORDER_MARK) {
        bytes.drain(..BYTE_ORDER_MARK.len());
    }
    String::from_utf8(bytes).map_err(|err| {
        if let Some(kind) = other_file(err.as_bytes()) {
            return JournalError::OtherFile(path.to_owned(), kind);
        }
        let before = &err.as_bytes()[..err.utf8_error().valid_up_to()];
        JournalError::NotText(path.to_owned(), before.split(|it| *it == b'\n').count())
    })
}
