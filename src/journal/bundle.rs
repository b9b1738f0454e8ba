//! A moderator's bundle on disk: a zip, written whole or not at all, and read without unpacking as a zip of hand-ins is.

use std::{
    collections::BTreeMap,
    io::{self, Write},
    path::{Path, PathBuf},
};

use flate2::{Compression, write::DeflateEncoder};
use rawzip::{CompressionMethod, ZipArchiveWriter};
use switchdrop::{attempt::sha256, exercise::Limits, register::Bundle};

use super::{
    error::JournalError,
    write::write_new,
    zip::{self, ZipEntry, ZipReach},
};

/// How much is read of a bundle, and so written into one: 128 MB packed, 512 MB unpacked, and none of its files larger than an assignment.
const REACH: ZipReach = ZipReach {
    packed: 128 * 1024 * 1024,
    unpacked: 512 * 1024 * 1024,
    one: Limits::ASSIGNMENT_BYTES,
    wanted: |_| true,
};

/// Entries of a bundle: its list, its assignment, four parts for each piece of work, and room for what does not belong there.
const ENTRIES: usize = 5 * Bundle::MOST;

/// A bundle, its list of files read.
pub struct BundleFile {
    /// SHA-256 of the whole file.
    pub sha256: String,
    /// What is in it, by name.
    entries: BTreeMap<String, ZipEntry>,
    /// Links in it, which are not followed.
    pub passed_over: Vec<PathBuf>,
    /// What in it is not read, and why.
    pub troubles: Vec<JournalError>,
}

impl BundleFile {
    /// Opens one.
    ///
    /// # Errors
    /// Why it can't be read.
    pub fn open(path: &Path) -> Result<Self, JournalError> {
        let listed = zip::list(path, REACH, &mut { ENTRIES })?;
        let named = |it: ZipEntry| {
            let name = it.path.strip_prefix(path).unwrap_or(&it.path).to_string_lossy().into_owned();
            (name, it)
        };
        let entries = listed.files.into_iter().map(named).collect();
        Ok(Self { sha256: listed.sha256, entries, passed_over: listed.passed_over, troubles: listed.troubles })
    }

    /// The bytes of the file of that name in it; `None`: it has no such file.
    ///
    /// # Errors
    /// That it is damaged.
    pub fn part(&self, name: &str) -> Result<Option<Vec<u8>>, JournalError> {
        self.entries.get(name).map(ZipEntry::bytes).transpose()
    }

    /// The names of all the files in it.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.entries.keys().map(String::as_str)
    }
}

/// Writes a bundle of these files, each with its name in it; its digest.
///
/// # Errors
/// That there is a file of that name already, that one of them is too large to be read again, or why it can't be written. Nothing is left of it then.
pub fn write_bundle(path: &Path, files: &[(String, Vec<u8>)]) -> Result<String, JournalError> {
    let too_large = |found: usize, most| JournalError::TooLarge { path: path.to_owned(), found: found as u64, most };
    if let Some((_, it)) = files.iter().find(|it| it.1.len() > REACH.one) {
        return Err(too_large(it.len(), REACH.one));
    }
    let bytes = packed(files).map_err(|cause| JournalError::Unwritable(path.to_owned(), cause))?;
    if bytes.len() > REACH.packed {
        return Err(too_large(bytes.len(), REACH.packed));
    }
    write_new(path, &bytes)?;
    Ok(sha256(&bytes))
}

fn packed(files: &[(String, Vec<u8>)]) -> io::Result<Vec<u8>> {
    let mut zip = ZipArchiveWriter::new(Vec::new());
    for (name, bytes) in files {
        let start = zip.new_file(name).compression_method(CompressionMethod::DEFLATE).start();
        let (mut entry, config) = start.map_err(io::Error::other)?;
        let mut writer = config.wrap(DeflateEncoder::new(&mut entry, Compression::default()));
        writer.write_all(bytes)?;
        let (encoder, output) = writer.finish().map_err(io::Error::other)?;
        encoder.finish()?;
        entry.finish(output).map_err(io::Error::other)?;
    }
    zip.finish().map_err(io::Error::other)
}
