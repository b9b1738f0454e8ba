//! What is refused in a new scenario but not in the exercise of an attempt begun earlier: the checks never become
//! stricter for a file that is there already. Lists that are too long are refused here too.

use std::collections::BTreeSet;

use super::Checker;
use crate::exercise::{
    file::{HasFile, ScenarioFile, Stage, VaryFile},
    kit::Supply,
    limits::Limits,
    placed::Placed,
    problem::ProblemCode,
};

/// What Windows takes for a device whatever folder it is in, and whatever ending it has (Microsoft, Naming Files, Paths, and
/// Namespaces; from memory); with a digit after the last two.
const DEVICES: [&str; 4] = ["con", "prn", "aux", "nul"];
const NUMBERED: [&str; 2] = ["com", "lpt"];

impl Checker<'_> {
    pub(super) fn strict(&mut self, file: &ScenarioFile<'_>) {
        self.lists(file);
        self.ids(file);
        self.names(file);
        self.twice(file);
        self.given(file);
        if file.pass_mark == 0 {
            self.bad_pass_mark(file);
        }
    }

    /// Where the wiring is given the supply comes after the answers: in a house that is on, the lamps would give them away.
    fn given(&mut self, file: &ScenarioFile<'_>) {
        if self.exercise.is_given() && file.supply != Supply::Bench {
            for it in file
                .stages
                .iter()
                .filter(|it| matches!(it.value, Stage::Prediction | Stage::Diagnosis | Stage::Observations))
            {
                self.problem(ProblemCode::GivenOnSupply, it, "", "");
            }
        }
    }

    /// Every list that a scenario can have and that has no limit of its own.
    fn lists(&mut self, file: &ScenarioFile<'_>) {
        self.list(file.connected.iter().map(|it| &it.end), Limits::CONNECTED);
        self.list(file.controls.iter().map(|it| &it.lamp), Limits::ENTRIES);
        for it in &file.controls {
            self.list(it.switches.iter(), Limits::ENTRIES);
        }
        self.list(file.stages.iter(), Limits::ENTRIES);
        self.list(file.predict.iter(), Limits::ENTRIES);
        if let Some(over) = file.vary.get(Limits::ENTRIES) {
            let found = file.vary.len().to_string();
            match over {
                VaryFile::Length { cable: at, .. }
                | VaryFile::Kind { cable: at, .. }
                | VaryFile::Passing { cable: at, .. }
                | VaryFile::Body { location: at, .. }
                | VaryFile::Plate { location: at, .. }
                | VaryFile::Gangs { location: at, .. }
                | VaryFile::Unmarked { at }
                | VaryFile::Watts { lamp: at, .. } => self.too_many(at, &found, Limits::ENTRIES),
                _ => self.too_many(&file.format, &found, Limits::ENTRIES),
            }
        }
        for it in &file.vary {
            match it {
                VaryFile::Body { among, .. } | VaryFile::Plate { among, .. } => self.among(among),
                VaryFile::Watts { among, .. } => self.among(among),
                VaryFile::Kind { among, .. } => self.among(among),
                VaryFile::Devices { among } => self.list(among.iter(), Limits::ENTRIES),
                VaryFile::Indicator { among } => self.among(among),
                VaryFile::Chart { among } => self.among(among),
                VaryFile::Passing { among, .. } => self.among(among),
                // How many ends, gangs or slips there may be is checked with what they are.
                VaryFile::Length { .. }
                | VaryFile::Ends { .. }
                | VaryFile::Gangs { .. }
                | VaryFile::Unmarked { .. }
                | VaryFile::Fault => {}
                VaryFile::Slips { among, .. } => {
                    for it in among {
                        self.list(it.done.iter(), Limits::ENTRIES);
                    }
                }
            }
        }
    }

    fn list<'f, 'a: 'f, T: 'f>(&mut self, list: impl ExactSizeIterator<Item = &'f Placed<'a, T>>, most: usize) {
        let (found, mut list) = (list.len().to_string(), list);
        if let Some(over) = list.nth(most) {
            self.too_many(over, &found, most);
        }
    }

    fn among<T>(&mut self, among: &Placed<'_, Vec<T>>) {
        if among.len() > Limits::ENTRIES {
            self.too_many(among, &among.len().to_string(), Limits::ENTRIES);
        }
    }

    pub(super) fn too_many<T>(&mut self, at: &Placed<'_, T>, found: &str, most: usize) {
        self.problem(ProblemCode::TooManyEntries, at, found, most.to_string());
    }

    fn ids(&mut self, file: &ScenarioFile<'_>) {
        let devices = file.locations.iter().filter_map(|place| match &place.has {
            HasFile::Board { devices } => Some(devices.iter().map(|it| &it.id)),
            _ => None,
        });
        let places = file.locations.iter().map(|it| &it.id);
        let cables = file.cables.iter().map(|cable| &cable.id).chain(file.runs.iter().map(|run| &run.id));
        for id in std::iter::once(&file.id).chain(places).chain(cables).chain(devices.flatten()) {
            if id.starts_with('-') || is_device_name(id) {
                self.problem(ProblemCode::BadId, id, id.value.clone(), "");
            }
        }
    }

    fn names(&mut self, file: &ScenarioFile<'_>) {
        let places = file.locations.iter().map(|it| &it.name);
        let cables = file.cables.iter().map(|cable| &cable.name).chain(file.runs.iter().map(|run| &run.name));
        for name in [&file.title, &file.place].into_iter().chain(places).chain(cables) {
            if name.chars().any(is_invisible) {
                self.problem(ProblemCode::BadName, name, name.value.clone(), Limits::NAME_CHARS.to_string());
            }
        }
    }

    /// Entries that stand twice in a list where once is enough.
    fn twice(&mut self, file: &ScenarioFile<'_>) {
        let mut seen = BTreeSet::new();
        for it in &file.predict {
            if !seen.insert(it.value.as_str()) {
                self.problem(ProblemCode::Duplicate, it, it.value.clone(), "");
            }
        }
        let mut seen = BTreeSet::new();
        for it in &file.stages {
            if !seen.insert(it.value) {
                self.problem(ProblemCode::Duplicate, it, format!("{:?}", it.value), "");
            }
        }
        let mut seen = BTreeSet::new();
        for it in &file.vary {
            match it {
                VaryFile::Length { cable: at, .. } => self.once(&mut seen, "length", at),
                VaryFile::Passing { cable: at, .. } => self.once(&mut seen, "passing", at),
                VaryFile::Kind { cable: at, .. } => self.once(&mut seen, "kind", at),
                VaryFile::Body { location: at, .. } => self.once(&mut seen, "body", at),
                VaryFile::Plate { location: at, .. } => self.once(&mut seen, "plate", at),
                VaryFile::Watts { lamp: at, .. } => self.once(&mut seen, "watts", at),
                VaryFile::Gangs { location: at, .. } => self.once(&mut seen, "gangs", at),
                VaryFile::Unmarked { at } => self.once(&mut seen, "unmarked", at),
                VaryFile::Devices { among } => {
                    for it in among {
                        self.once(&mut seen, "devices", it);
                    }
                }
                VaryFile::Ends { among } => {
                    for it in among {
                        self.once(&mut seen, "ends", it);
                    }
                }
                VaryFile::Slips { among, .. } => {
                    for it in among {
                        self.once(&mut seen, "slips", &it.name);
                    }
                }
                VaryFile::Indicator { among } if !seen.insert(("indicator", String::new())) => {
                    self.problem(ProblemCode::Duplicate, among, "Indicator", "");
                }
                VaryFile::Chart { among } if !seen.insert(("chart", String::new())) => {
                    self.problem(ProblemCode::Duplicate, among, "Chart", "");
                }
                VaryFile::Fault if !seen.insert(("fault", String::new())) => {
                    self.problem(ProblemCode::Duplicate, &file.format, "Fault", "");
                }
                VaryFile::Indicator { .. } | VaryFile::Chart { .. } | VaryFile::Fault => {}
            }
        }
    }

    fn once(&mut self, seen: &mut BTreeSet<(&'static str, String)>, what: &'static str, at: &Placed<'_, String>) {
        if !seen.insert((what, at.value.clone())) {
            self.problem(ProblemCode::Duplicate, at, at.value.clone(), "");
        }
    }
}

pub(super) fn is_device_name(id: &str) -> bool {
    let numbered = |name: &str| id.strip_prefix(name).is_some_and(|rest| matches!(rest.as_bytes(), [b'0'..=b'9']));
    DEVICES.contains(&id) || NUMBERED.into_iter().any(numbered)
}

/// Characters that show nothing and are no space between words: two names that differ only in one look the same.
pub(super) const fn is_invisible(it: char) -> bool {
    matches!(
        it,
        '\u{ad}' | '\u{34f}' | '\u{115f}' | '\u{1160}' | '\u{17b4}' | '\u{17b5}' | '\u{180b}'..='\u{180f}' | '\u{2000}'..='\u{200d}'
            | '\u{2060}'..='\u{206f}' | '\u{2800}' | '\u{3164}' | '\u{fe00}'..='\u{fe0f}' | '\u{ffa0}' | '\u{fff0}'..='\u{fffb}'
            | '\u{e0000}'..='\u{e0fff}'
    )
}
