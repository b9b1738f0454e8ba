//! The exercises at hand: those inside the program, and those in folders that were named.

use std::{
    fs,
    path::{Path, PathBuf},
};

use switchdrop::{
    exercise::{Exercise, Limits, SHIPPED, Seed, Template, read},
    work::slip_problems,
};

use super::{error::JournalError, read::text};

/// The file of a scenario in its folder.
const SCENARIO: &str = "scenario.ron";

/// A scenario that can be drawn from.
#[derive(Debug)]
pub struct Shelved {
    /// Where it came from, as it is named in messages.
    pub path: PathBuf,
    /// Its text.
    pub text: String,
    /// What stands in it, with whatever may vary as it is written.
    pub scenario: Exercise,
}

/// All of them.
#[derive(Debug, Default)]
pub struct ScenarioLibrary {
    /// The shipped ones in the order in which they should be done, then the others in that of their ids.
    pub exercises: Vec<Shelved>,
    /// What had to be left out, and why.
    pub left_out: Vec<JournalError>,
}

impl ScenarioLibrary {
    /// The shipped exercises and those of the folders.
    pub fn gather(folders: &[PathBuf]) -> Self {
        let mut library = Self::default();
        for (id, text) in SHIPPED {
            library.take(PathBuf::from(format!("{id}/{SCENARIO}")), (*text).to_owned(), id);
        }
        let shipped = library.exercises.len();
        for folder in folders {
            match scenarios_in(folder) {
                Ok(paths) => paths.iter().for_each(|path| library.take_file(path)),
                Err(trouble) => library.left_out.push(trouble),
            }
        }
        library.exercises[shipped..].sort_by(|a, b| a.scenario.id.cmp(&b.scenario.id));
        library
    }

    /// The exercise of that id.
    pub fn find(&self, id: &str) -> Option<&Shelved> {
        self.exercises.iter().find(|it| it.scenario.id == id)
    }

    /// A template of each.
    pub fn templates(&self) -> Vec<Template<'_>> {
        self.exercises.iter().filter_map(|it| Template::of(&it.scenario)).collect()
    }

    fn take_file(&mut self, path: &Path) {
        let folder = path.parent().and_then(Path::file_name).map(|it| it.to_string_lossy().into_owned());
        match text(path, Limits::SCENARIO_BYTES) {
            Ok(text) => self.take(path.to_owned(), text, &folder.unwrap_or_default()),
            Err(trouble) => self.left_out.push(trouble),
        }
    }

    fn take(&mut self, path: PathBuf, text: String, folder: &str) {
        match read(&text, Seed::default()).and_then(|it| slip_problems(&text, Seed::default()).map(|()| it)) {
            Err(problems) => self.left_out.push(JournalError::Wrong { path, text, problems }),
            Ok(it) if it.id != folder => self.left_out.push(JournalError::Misnamed { path, id: it.id.clone() }),
            Ok(it) if self.find(&it.id).is_some() => {
                self.left_out.push(JournalError::SameId { path, id: it.id.clone() });
            }
            Ok(scenario) => self.exercises.push(Shelved { path, text, scenario }),
        }
    }
}

/// The scenario files of a folder: its own, or those of the folders in it, in the order of their names.
///
/// # Errors
/// That it can't be read, or that there are none.
pub fn scenarios_in(folder: &Path) -> Result<Vec<PathBuf>, JournalError> {
    let own = folder.join(SCENARIO);
    if own.is_file() {
        return Ok(vec![own]);
    }
    let unreadable = |cause| JournalError::Unreadable(folder.to_owned(), cause);
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).map_err(unreadable)? {
        let path = entry.map_err(unreadable)?.path().join(SCENARIO);
        if path.is_file() {
            found.push(path);
        }
    }
    found.sort();
    if found.is_empty() { Err(JournalError::NoScenario(folder.to_owned())) } else { Ok(found) }
}
