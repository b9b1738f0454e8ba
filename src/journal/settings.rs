//! What the window remembers between two runs: its theme, its text size and who works here. Not part of any attempt.

use std::path::Path;

use serde::{Deserialize, Serialize};
use switchdrop::picture::Palette;

use super::{error::JournalError, read::text, write::write_whole};

/// The largest file that is read, bytes.
const MOST: usize = 64 * 1024;

/// What is remembered. A field that a file does not have is as at the first start.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// The colours of the window.
    pub theme: Palette,
    /// The text size, percent of the normal one.
    pub text: u16,
    /// The name of the learner who worked here last; empty: nobody said.
    pub learner: String,
    /// The name under which a tutor decided or released here last; empty: nobody did.
    pub tutor: String,
    /// Classes that a tutor had open here, the last one first.
    pub classes: Vec<KeptClass>,
}

/// The files of a class that was open.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct KeptClass {
    /// The assignment file.
    pub assignment: String,
    /// What was handed in.
    pub handed_in: String,
    /// The register.
    pub register: String,
}

impl KeptClass {
    /// How many are remembered. With paths as long as can be typed they stay within what is read.
    pub const MOST: usize = 5;
}

impl Default for Settings {
    /// The first start: the day theme, the normal text size, no name.
    fn default() -> Self {
        Self { theme: Palette::default(), text: 100, learner: String::new(), tutor: String::new(), classes: Vec::new() }
    }
}

impl Settings {
    /// Reads them. A file that is missing or damaged counts as the first start: it keeps nobody from working.
    pub fn read(path: &Path) -> Self {
        text(path, MOST).ok().and_then(|it| ron::from_str(&it).ok()).unwrap_or_default()
    }

    /// Writes them, and makes the folder for them if need be.
    ///
    /// # Errors
    /// Why they can't be written. What was there is as it was.
    pub fn write(&self, path: &Path) -> Result<(), JournalError> {
        let unwritable = |cause| JournalError::Unwritable(path.to_owned(), cause);
        if let Some(folder) = path.parent() {
            std::fs::create_dir_all(folder).map_err(unwritable)?;
        }
        let text = ron::to_string(self).map_err(|it| unwritable(std::io::Error::other(it)))?;
        write_whole(path, &(text + "\n"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn place(name: &str) -> std::path::PathBuf {
        let folder = std::env::temp_dir().join(format!("switchdrop-settings-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        folder.join("deep").join("settings.ron")
    }

    #[test]
    fn what_was_written_is_read_again() {
        let path = place("again");
        let nobody = String::new();
        assert_eq!(
            Settings::read(&path),
            Settings { theme: Palette::Day, text: 100, learner: nobody.clone(), ..Settings::default() }
        );
        // As much as may be remembered, in letters that take most room.
        let long = |it: &str| it.repeat(1024);
        let class = KeptClass { assignment: long("\\"), handed_in: long("\""), register: long("文") };
        let classes = vec![class; KeptClass::MOST];
        let kept = Settings {
            theme: Palette::Evening,
            text: 145,
            learner: "Zoë \"O'Neill\"".to_owned(),
            classes,
            ..Settings::default()
        };
        kept.write(&path).unwrap();
        assert_eq!(Settings::read(&path), kept);
        let later = Settings { theme: Palette::Projector, text: 90, learner: nobody, ..Settings::default() };
        later.write(&path).unwrap();
        assert_eq!(Settings::read(&path), later);
        let _ = std::fs::remove_dir_all(path.parent().unwrap().parent().unwrap());
    }

    /// A half, an older or a newer file, one by another hand: what can be read of it is taken or nothing, and nothing fails.
    #[test]
    fn a_file_that_is_no_settings_is_the_first_start() {
        let path = place("broken");
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        let texts = ["", "(theme:", "(theme:Midnight)", "\u{0}\u{0}", "(text:-3)", &"(".repeat(70_000)];
        for text in texts {
            std::fs::write(&path, text).unwrap();
            assert_eq!(Settings::read(&path), Settings::default(), "{text}");
        }
        std::fs::write(&path, "(theme:Evening,sound:On)").unwrap();
        assert_eq!(Settings::read(&path).text, 100);
        std::fs::write(&path, "(theme:Evening)").unwrap();
        assert_eq!(Settings::read(&path), Settings { theme: Palette::Evening, ..Settings::default() });
        let _ = std::fs::remove_dir_all(path.parent().unwrap().parent().unwrap());
    }
}
