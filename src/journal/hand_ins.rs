//! The files of a class: those that were named, and those in folders and zips, read without following a link out of them.

use std::{
    collections::{BTreeMap, BTreeSet},
    fs,
    path::{Path, PathBuf},
};

use super::{
    attempt::attempt_bytes,
    error::JournalError,
    zip::{self, ZipEntry, ZipReach, is_zip, may_be_hand_in},
};

/// How deep and how far folders are read.
#[derive(Debug, Clone, Copy)]
pub struct Reach {
    /// Folders within folders.
    pub depth: usize,
    /// Entries looked at in all.
    pub entries: usize,
}

impl Reach {
    /// Eight folders deep; 100,000 entries, which is twice the largest class that anything here was measured with.
    pub const USUAL: Self = Self { depth: 8, entries: 100_000 };
}

/// A file that may be a hand-in.
#[derive(Clone)]
pub enum HandInFile {
    /// On its own.
    OnDisk(PathBuf),
    /// In a zip.
    Zipped(ZipEntry),
}

impl HandInFile {
    /// Where it lies: in a zip that is the zip's path with the name in it behind.
    pub fn path(&self) -> &Path {
        match self {
            Self::OnDisk(path) => path,
            Self::Zipped(it) => &it.path,
        }
    }

    /// What is in it.
    ///
    /// # Errors
    /// Why it can't be read.
    pub fn bytes(&self) -> Result<Vec<u8>, JournalError> {
        match self {
            Self::OnDisk(path) => attempt_bytes(path),
            Self::Zipped(it) => it.bytes(),
        }
    }
}

/// Files that may be hand-ins.
#[derive(Default)]
pub struct HandInFiles {
    /// Those named, and of folders and zips those that end in `.ron`, by their paths, each once.
    pub files: Vec<HandInFile>,
    /// Files of folders and zips that are called otherwise, and links, which were passed over.
    pub passed_over: BTreeSet<PathBuf>,
    /// What could not be read, or not to its end.
    pub troubles: Vec<JournalError>,
}

impl HandInFiles {
    /// Gathers them, without the file at `but`.
    pub fn gather(named: &[PathBuf], but: &Path, reach: Reach) -> Self {
        let mut found = Self::default();
        let (mut paths, mut left) = (BTreeMap::new(), reach.entries);
        for path in named {
            let real = path.canonicalize().ok();
            if path.is_dir() {
                found.folder(path, real.as_deref(), (reach, 0), &mut left, &mut paths);
            } else {
                paths.insert(path.clone(), real);
            }
        }
        // One file may be reached by several paths.
        let mut seen: BTreeSet<PathBuf> = but.canonicalize().into_iter().collect();
        paths.retain(|_, real| real.take().is_none_or(|it| seen.insert(it)));
        for path in paths.into_keys() {
            if is_zip(&path) {
                found.zip(&path, &mut left);
            } else {
                found.files.push(HandInFile::OnDisk(path));
            }
        }
        found.files.sort_by(|one, other| one.path().cmp(other.path()));
        found
    }

    fn zip(&mut self, path: &Path, left: &mut usize) {
        match zip::list(path, ZipReach::HAND_INS, left) {
            Ok(listed) => {
                self.files.extend(listed.files.into_iter().map(HandInFile::Zipped));
                self.passed_over.extend(listed.passed_over);
                self.troubles.extend(listed.troubles);
            }
            Err(trouble) => self.troubles.push(trouble),
        }
    }

    /// Reads a folder. `real`: where it lies in truth; what is in it lies there under its own name, since no link in it is followed.
    fn folder(
        &mut self,
        folder: &Path,
        real: Option<&Path>,
        (reach, depth): (Reach, usize),
        left: &mut usize,
        paths: &mut BTreeMap<PathBuf, Option<PathBuf>>,
    ) {
        let entries = match fs::read_dir(folder) {
            Ok(it) => it,
            Err(cause) => return self.troubles.push(JournalError::Unreadable(folder.to_owned(), cause)),
        };
        for entry in entries {
            if *left == 0 {
                return self.troubles.push(JournalError::TooManyFiles { path: folder.to_owned(), most: reach.entries });
            }
            *left -= 1;
            let (path, kind) = match entry.and_then(|it| Ok((it.path(), it.file_type()?))) {
                Ok(it) => it,
                Err(cause) => {
                    self.troubles.push(JournalError::Unreadable(folder.to_owned(), cause));
                    continue;
                }
            };
            let real = real.zip(path.file_name()).map(|(real, name)| real.join(name));
            if kind.is_dir() && depth < reach.depth {
                self.folder(&path, real.as_deref(), (reach, depth + 1), left, paths);
            } else if kind.is_dir() {
                self.troubles.push(JournalError::TooDeep { path, most: reach.depth });
            } else if kind.is_file() && (may_be_hand_in(&path) || is_zip(&path)) {
                paths.insert(path, real);
            } else {
                self.passed_over.insert(path);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn folder(name: &str) -> PathBuf {
        let path = std::env::temp_dir().join(format!("switchdrop-hand-ins-{}-{name}", std::process::id()));
        let _ = fs::remove_dir_all(&path);
        fs::create_dir_all(&path).unwrap();
        path
    }

    #[test]
    fn folders_are_read_to_their_reach_and_links_are_not_followed() {
        let (class, elsewhere) = (folder("class"), folder("elsewhere"));
        fs::create_dir_all(class.join("a/b")).unwrap();
        for it in ["one.ron", "a/two.ron", "a/b/three.ron", "notes.txt", "set.ron"] {
            fs::write(class.join(it), "").unwrap();
        }
        fs::write(elsewhere.join("secret.ron"), "").unwrap();
        #[cfg(unix)]
        {
            std::os::unix::fs::symlink(&elsewhere, class.join("way-out")).unwrap();
            std::os::unix::fs::symlink(elsewhere.join("secret.ron"), class.join("secret.ron")).unwrap();
            std::os::unix::fs::symlink(&class, class.join("a/round")).unwrap();
        }
        let gather = |depth, entries| {
            HandInFiles::gather(std::slice::from_ref(&class), &class.join("set.ron"), Reach { depth, entries })
        };
        let called = |it: &HandInFiles| {
            it.files.iter().map(|it| it.path().file_name().unwrap().to_string_lossy().into_owned()).collect::<Vec<_>>()
        };
        let all = gather(2, 100);
        assert_eq!(
            (called(&all), all.troubles.len()),
            (["three.ron", "two.ron", "one.ron"].map(str::to_owned).to_vec(), 0)
        );
        let passed_over: Vec<_> = all.passed_over.iter().filter_map(|it| it.strip_prefix(&class).ok()).collect();
        let named: &[&str] =
            if cfg!(unix) { &["a/round", "notes.txt", "secret.ron", "way-out"] } else { &["notes.txt"] };
        assert_eq!(passed_over, named.iter().map(Path::new).collect::<Vec<_>>());
        let shallow = gather(1, 100);
        assert_eq!(called(&shallow), ["two.ron", "one.ron"]);
        assert!(matches!(&shallow.troubles[..], [JournalError::TooDeep { path, most: 1 }] if path.ends_with("a/b")));
        let entries = if cfg!(unix) { 10 } else { 7 };
        assert!(gather(2, entries).troubles.is_empty());
        assert!(matches!(&gather(2, entries - 1).troubles[..], [JournalError::TooManyFiles { .. }, ..]));
        // One that was named is taken whatever it is called, and once.
        let one = HandInFiles::gather(&[class.join("notes.txt"), class.join("notes.txt")], &class, Reach::USUAL);
        assert_eq!(called(&one), ["notes.txt"]);
        let twice = HandInFiles::gather(&[class.join("a"), class.join("a/b/../..").join("a")], &class, Reach::USUAL);
        assert_eq!(called(&twice).len(), 2);
        fs::remove_dir_all(class).unwrap();
        fs::remove_dir_all(elsewhere).unwrap();
    }
}
