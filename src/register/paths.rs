//! Whose a file is by where it lies. What a platform gives to download has a folder for each learner; the tutor says once which part of
//! the folder's name is the learner, and, where that is a name, which number it stands for.

use std::collections::BTreeMap;

use serde::Deserialize;

use crate::exercise::{Problem, Problems, options};

/// What stands for the learner in a pattern.
const LEARNER: &str = "{learner}";
/// Letters of a part of a path that is looked at; no file system has longer ones.
const LONGEST: usize = 255;

/// Which part of a path is the learner.
#[derive(Debug, Clone)]
pub struct PathMapping {
    part: PathPart,
    learners: BTreeMap<String, u64>,
}

/// The file as it is written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Paths")]
struct PathsFile {
    part: PathPart,
    #[serde(default)]
    learners: BTreeMap<String, u64>,
}

/// A pattern of one part of a path: what comes before the learner and what comes after, each with `*` for anything.
#[derive(Debug, Clone, Deserialize)]
#[serde(try_from = "String")]
struct PathPart {
    before: String,
    after: String,
}

/// A pattern without the learner in it, or with a slash.
#[derive(Debug, thiserror::Error)]
#[error("expected one part of a path, with `{LEARNER}` in it once")]
struct NoPart;

impl TryFrom<String> for PathPart {
    type Error = NoPart;

    fn try_from(pattern: String) -> Result<Self, NoPart> {
        let (before, after) = pattern.split_once(LEARNER).ok_or(NoPart)?;
        let is_part = !pattern.contains(['/', '\\']) && !after.contains(LEARNER) && pattern.len() <= LONGEST;
        is_part.then(|| Self { before: before.to_owned(), after: after.to_owned() }).ok_or(NoPart)
    }
}

impl PathMapping {
    /// Reads a mapping file.
    ///
    /// # Errors
    /// What is wrong with it, with its place.
    pub fn read(text: &str) -> Result<Self, Problems> {
        let read: PathsFile = options().from_str(text).map_err(|err| Problems::from(Problem::from_ron(text, &err)))?;
        Ok(Self { part: read.part, learners: read.learners })
    }

    /// The learner whose file lies there: by the part that stands nearest to the file. `None`: no part of the path says.
    pub fn learner(&self, path: &str) -> Option<u64> {
        path.rsplit(['/', '\\']).find_map(|it| self.in_part(it))
    }

    /// The shortest text that the pattern takes for the learner and that is one.
    fn in_part(&self, part: &str) -> Option<u64> {
        if part.len() > LONGEST {
            return None;
        }
        let ends = || part.char_indices().map(|it| it.0).chain([part.len()]);
        ends().filter(|start| fits(&self.part.before, &part[..*start])).find_map(|start| {
            let mut ends = ends().filter(|end| *end > start && fits(&self.part.after, &part[*end..]));
            ends.find_map(|end| number_of(&self.learners, &part[start..end]))
        })
    }
}

/// The number that a learner is called by, or that their name stands for.
pub(super) fn number_of(learners: &BTreeMap<String, u64>, called: &str) -> Option<u64> {
    let digits = called.bytes().all(|it| it.is_ascii_digit());
    learners.get(called).copied().or_else(|| called.parse().ok().filter(|_| digits))
}

/// Whether a text is a pattern's, with `*` for anything.
fn fits(pattern: &str, text: &str) -> bool {
    let Some((first, rest)) = pattern.split_once('*') else { return pattern == text };
    let Some(mut text) = text.strip_prefix(first) else { return false };
    let mut pieces: Vec<&str> = rest.split('*').collect();
    let last = pieces.pop().unwrap_or_default();
    for it in pieces {
        // The first place at which it stands leaves most for what comes after.
        let Some((_, after)) = text.split_once(it) else { return false };
        text = after;
    }
    text.ends_with(last)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mapping(part: &str, learners: &str) -> PathMapping {
        let text = format!("Paths(part: {part:?}, learners: {{{learners}}})");
        PathMapping::read(&text).unwrap_or_else(|it| panic!("{it}"))
    }

    #[test]
    fn a_part_of_the_path_says_whose_a_file_is() {
        let by_name = r#""Robin Hale": 7, "Sam Okoro_Lee": 12, "Ås": 3"#;
        for (part, path, learner) in [
            ("{learner}_*_file", "week.zip/Robin Hale_84512_file/work.ron", Some(7)),
            // The shortest that is a learner: `Sam Okoro` is not one.
            ("{learner}_*_file", "Sam Okoro_Lee_84513_file/week-3_12.ron", Some(12)),
            ("{learner}_*_file", "Ås_1_file\\a.ron", Some(3)),
            ("{learner}_*_file", "Robin Hale_84512_text/work.ron", None),
            ("{learner}_*_file", "Nobody_1_file/work.ron", None),
            ("group-*-{learner}", "group-2-19/a.ron", Some(19)),
            ("{learner}", "19/a.ron", Some(19)),
            ("{learner}", "+19/a.ron", None),
            ("{learner}", "99999999999999999999999/a.ron", None),
            // What stands nearest to the file.
            ("{learner}", "3/19/a.ron", Some(19)),
            ("{learner}", "", None),
        ] {
            assert_eq!(mapping(part, by_name).learner(path), learner, "{part} {path}");
        }
        assert_eq!(mapping("{learner}", "").learner(&"9".repeat(100_000)), None);
    }

    #[test]
    fn stars_stand_for_anything() {
        for (pattern, text, is) in [
            ("", "", true),
            ("", "a", false),
            ("*", "", true),
            ("a*", "ab", true),
            ("*a", "ba", true),
            ("a*a", "a", false),
            ("a*b*c", "a-b-b-c", true),
            ("a*b*c", "a-c-c", false),
            ("_*_file", "_84512_file", true),
            ("_*_file", "_file", false),
        ] {
            assert_eq!(fits(pattern, text), is, "{pattern} {text}");
        }
    }

    #[test]
    fn a_mapping_that_says_nothing_is_refused_with_its_place() {
        for part in ["", "learner", "{learner}/a", "{learner}_{learner}"] {
            let text = format!("Paths(\n  part: {part:?},\n)");
            let problems = PathMapping::read(&text).expect_err(part);
            assert_eq!(problems[0].position(&text).0, 2, "{part}: {problems}");
        }
        assert!(PathMapping::read("Paths(part: \"{learner}\", learner: {})").is_err());
        assert!(PathMapping::read(&"(".repeat(10_000)).is_err());
    }
}
