//! A zip of hand-ins, read without unpacking: nothing of it is ever written anywhere. What a zip could do to whoever reads it (say
//! little and unpack to much, name one file twice, name a place outside) is refused with the name of what did it.

use std::{
    collections::BTreeSet,
    fs::File,
    io::Read,
    path::{Path, PathBuf},
    sync::Arc,
};

use flate2::bufread::DeflateDecoder;
use rawzip::{CompressionMethod, ZipArchive, ZipArchiveEntryWayfinder, ZipSliceArchive};
use switchdrop::{attempt::sha256, exercise::Limits};

use super::{
    error::JournalError,
    read::{bytes, is_file},
};

/// How much is read of a zip.
#[derive(Debug, Clone, Copy)]
pub struct ZipReach {
    /// Bytes of the zip itself, which is held in memory.
    pub packed: usize,
    /// Bytes of all that is wanted of it, unpacked.
    pub unpacked: u64,
    /// Bytes of one file in it, unpacked.
    pub one: usize,
    /// Which files are wanted, by their names.
    pub wanted: fn(&Path) -> bool,
}

impl ZipReach {
    /// Of hand-ins: 128 MB packed, which is some 30,000 of them; a gigabyte unpacked.
    pub const HAND_INS: Self = Self {
        packed: 128 * 1024 * 1024,
        unpacked: 1024 * 1024 * 1024,
        one: Limits::ATTEMPT_BYTES,
        wanted: may_be_hand_in,
    };
}

/// Why a zip, or something in it, is not read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ZipFault {
    /// It is no zip, or a broken one.
    Broken,
    /// Its list of files is longer or shorter than it says.
    Miscounted,
    /// All in it comes to more than is unpacked.
    TooMuch,
    /// Two files in it lie over each other.
    Overlapping,
    /// Two files in it have one name.
    SameName,
    /// A name in it leads out of it.
    LeadsOut,
    /// It is locked by a password.
    Locked,
    /// It is packed in a way that is not read.
    OtherPacking,
    /// A zip in a zip.
    Nested,
    /// It is not what the zip's list says of it.
    Damaged,
}

/// A file in a zip.
#[derive(Clone)]
pub struct ZipEntry {
    zip: Arc<ZipSliceArchive<Vec<u8>>>,
    at: ZipArchiveEntryWayfinder,
    packing: CompressionMethod,
    /// The zip, and its name in it.
    pub path: PathBuf,
}

/// What is in a zip.
#[derive(Default)]
pub struct Listed {
    /// SHA-256 of the zip.
    #[cfg_attr(not(feature = "register"), allow(dead_code, reason = "only a bundle has a code"))]
    pub sha256: String,
    /// Files that are wanted.
    pub files: Vec<ZipEntry>,
    /// Files that are called otherwise, and links.
    pub passed_over: Vec<PathBuf>,
    /// What is refused.
    pub troubles: Vec<JournalError>,
}

/// Whether a file is taken for a zip.
pub fn is_zip(path: &Path) -> bool {
    path.extension().is_some_and(|it| it.eq_ignore_ascii_case("zip"))
}

/// What a file is by its name: a hand-in ends in `.ron`. What a Mac puts beside each file has the file's name, and two characters before it.
pub fn may_be_hand_in(path: &Path) -> bool {
    let hidden = path.file_name().is_some_and(|it| it.to_string_lossy().starts_with("._"));
    path.extension().is_some_and(|it| it == "ron") && !hidden
}

/// Lists a zip, of which at most `left` entries are looked at.
///
/// # Errors
/// Why nothing of it is read.
pub fn list(path: &Path, reach: ZipReach, left: &mut usize) -> Result<Listed, JournalError> {
    is_file(path)?;
    let most = *left;
    let file = File::open(path).map_err(|cause| JournalError::Unreadable(path.to_owned(), cause))?;
    let bytes = bytes(path, &file, reach.packed)?;
    let digest = sha256(&bytes);
    let refuse = |name: &Path, fault| JournalError::Zip { path: name.to_owned(), fault };
    let broken = |_| refuse(path, ZipFault::Broken);
    let zip = Arc::new(ZipArchive::from_slice(bytes).map_err(broken)?);
    let (mut unpacked, mut count) = (0_u64, 0_u64);
    let mut listed = Listed { sha256: digest, ..Listed::default() };
    let (mut names, mut ranges) = (BTreeSet::new(), Vec::new());
    let mut entries = zip.entries();
    while let Some(it) = entries.next_entry().map_err(broken)? {
        if *left == 0 {
            return Err(JournalError::TooManyFiles { path: path.to_owned(), most });
        }
        *left -= 1;
        count += 1;
        let raw = it.file_path();
        let name = String::from_utf8_lossy(raw.as_bytes()).into_owned();
        let inside = path.join(name.replace(['\\', ':'], "_").trim_start_matches('/'));
        if leads_out(&name) {
            return Err(refuse(&inside, ZipFault::LeadsOut));
        }
        if !names.insert(raw.as_bytes().to_vec()) {
            return Err(refuse(&inside, ZipFault::SameName));
        }
        if it.is_dir() {
            continue;
        }
        if is_zip(&inside) {
            listed.troubles.push(refuse(&inside, ZipFault::Nested));
            continue;
        }
        if it.mode().is_symlink() || !(reach.wanted)(&inside) {
            listed.passed_over.push(inside);
            continue;
        }
        if it.flags().is_encrypted() {
            listed.troubles.push(refuse(&inside, ZipFault::Locked));
            continue;
        }
        let packing = it.compression_method();
        if packing != CompressionMethod::STORE && packing != CompressionMethod::DEFLATE {
            listed.troubles.push(refuse(&inside, ZipFault::OtherPacking));
            continue;
        }
        let size = it.uncompressed_size_hint();
        if size > reach.one as u64 {
            listed.troubles.push(JournalError::TooLarge { path: inside, found: size, most: reach.one });
            continue;
        }
        unpacked += size;
        if unpacked > reach.unpacked {
            return Err(refuse(path, ZipFault::TooMuch));
        }
        let at = it.wayfinder();
        ranges.push(zip.get_entry(at).map_err(broken)?.compressed_data_range());
        listed.files.push(ZipEntry { zip: Arc::clone(&zip), at, packing, path: inside });
    }
    if count != zip.entries_hint() {
        return Err(refuse(path, ZipFault::Miscounted));
    }
    // Files over each other are how a small zip unpacks to a great deal.
    ranges.sort_unstable();
    if ranges.windows(2).any(|it| it[1].0 < it[0].1) {
        return Err(refuse(path, ZipFault::Overlapping));
    }
    Ok(listed)
}

/// Whether a name would lead somewhere else if it was unpacked: up, to a root or a drive, by a backslash.
fn leads_out(name: &str) -> bool {
    name.starts_with('/') || name.contains(['\\', ':', '\0']) || name.split('/').any(|it| it == "..")
}

impl ZipEntry {
    /// Its bytes: no more than the zip's list says, which is no more than one file may have.
    ///
    /// # Errors
    /// That it is not what the list says.
    pub fn bytes(&self) -> Result<Vec<u8>, JournalError> {
        let damaged = || JournalError::Zip { path: self.path.clone(), fault: ZipFault::Damaged };
        let entry = self.zip.get_entry(self.at).map_err(|_| damaged())?;
        let size = self.at.uncompressed_size_hint();
        let mut all = Vec::new();
        // One byte more than it should be shows that it is longer, and the check at the end is never reached by one that is.
        let read = if self.packing == CompressionMethod::STORE {
            entry.verifying_reader(entry.data()).take(size + 1).read_to_end(&mut all)
        } else {
            entry.verifying_reader(DeflateDecoder::new(entry.data())).take(size + 1).read_to_end(&mut all)
        };
        match read {
            Ok(length) if length as u64 == size => Ok(all),
            _ => Err(damaged()),
        }
    }
}
