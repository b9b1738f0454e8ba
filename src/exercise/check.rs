//! From text to an exercise, with every problem found on the way.

mod course;
mod kinds;
mod once;
mod rooms;
mod runs;
mod slips;
mod strict;
mod suspects;
mod unmarked;
mod vary;

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, de::IgnoredAny};

use once::{Absent, ToldOnce};

use super::{
    address::nearest,
    file::{HasFile, ScenarioFile, Stage},
    kit::{Keeper, Supply, Tails},
    limits::Limits,
    outside::{Distribution, FedFile},
    placed::{Placed, options},
    problem::{Problem, ProblemCode, Problems},
    reference::{Reference, ReferenceFile},
    rows::{Cable, Control, Location, Start, Terminal, TerminalUse},
    table::{LocationId, SwitchId, Table, TerminalId},
    tables::{Exercise, Names, Tables},
    variant::{Seed, name_cores, name_gangs},
};
use crate::trade::{
    accessory::Capacity,
    cable::{CableKind, CrossSection},
};

/// The format that this version reads and writes.
const FORMAT: u32 = 1;
/// Most digits of a number in a message; a longer one is given as a power of ten.
const MOST_DIGITS: usize = 20;

/// Reads a scenario, leaving whatever may vary as it is written.
///
/// # Errors
/// Every problem found, in the order of the text.
pub fn read(text: &str, seed: Seed) -> Result<Exercise, Problems> {
    read_for(text, seed, Use::Drawing)
}

/// Reads the exercise of an attempt, which may be older than what is asked of a scenario now.
///
/// # Errors
/// As [`read`].
pub(crate) fn read_drawn(text: &str, seed: Seed) -> Result<Exercise, Problems> {
    read_for(text, seed, Use::Marking)
}

/// Reads a scenario of which only the states are wanted: its switches may have any number of combinations, but not
/// those of one light, nor those of the lights that the learner wires, which replaying an attempt tries one by one.
///
/// # Errors
/// As [`read`].
pub fn read_for_states(text: &str, seed: Seed) -> Result<Exercise, Problems> {
    read_for(text, seed, Use::States)
}

/// What an exercise is read for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Use {
    /// To draw exercises from.
    Drawing,
    /// To mark an attempt at it.
    Marking,
    /// To say what its lamps do.
    States,
}

fn read_for(text: &str, seed: Seed, used: Use) -> Result<Exercise, Problems> {
    let mut file = parse(text)?;
    name_cores(&mut file);
    name_gangs(&mut file);
    checked_for(&file, text, seed, used)
}

/// Checks a file that is there already; `text` is what it says. The places of its problems are known only if it was
/// read from that very string.
pub(super) fn checked(file: &ScenarioFile<'_>, text: &str, seed: Seed) -> Result<Exercise, Problems> {
    checked_for(file, text, seed, Use::Marking)
}

fn checked_for(file: &ScenarioFile<'_>, text: &str, seed: Seed, used: Use) -> Result<Exercise, Problems> {
    let mut check =
        Checker { text, problems: Vec::new(), told: ToldOnce::default(), exercise: empty(file, text, seed) };
    check.heading(file);
    check.course(file);
    check.locations(file);
    check.rooms(file);
    check.fans(file);
    check.cables(file);
    check.connected(file);
    check.slips(file);
    check.controls(file);
    check.questions(file);
    check.suspects(file);
    check.unmarked(file);
    check.reference(file);
    check.fed(file);
    check.bench(file);
    check.variations(file);
    check.combinations(file, used);
    if used == Use::Drawing {
        check.strict(file);
    }
    let mut problems = check.problems;
    problems.sort_by_key(|it| (it.span.start, it.code));
    Problems::or(problems, check.exercise)
}

/// Whether a name from outside may be shown and stored: at most `most` characters, none of them a control character,
/// one that turns the direction of text, or one with a meaning in paths.
pub fn names_are_clean(name: &str, most: usize) -> bool {
    !name.trim().is_empty()
        && name.chars().count() <= most
        && !name.chars().any(|it| {
            it.is_control()
                || matches!(it, '/' | '\\' | '\u{200e}' | '\u{200f}' | '\u{61c}' | '\u{2028}' | '\u{2029}' | '\u{feff}')
                || ('\u{202a}'..='\u{202e}').contains(&it)
                || ('\u{2066}'..='\u{2069}').contains(&it)
        })
}

/// Lower-case letters, digits and hyphens: safe in a path, an address and a message.
fn is_id(id: &str) -> bool {
    (1..=32).contains(&id.len())
        && id.bytes().all(|it| it.is_ascii_lowercase() || it.is_ascii_digit() || it == b'-')
        && !id.starts_with(MADE)
}

/// Whether something new may be called so: an id that begins with no hyphen and that Windows keeps for no device.
pub(crate) fn is_new_id(id: &str) -> bool {
    is_id(id) && !id.starts_with('-') && !strict::is_device_name(id)
}

pub(super) fn parse(text: &str) -> Result<ScenarioFile<'_>, Problems> {
    if text.len() > Limits::SCENARIO_BYTES {
        let (found, most) = (text.len().to_string(), Limits::SCENARIO_BYTES.to_string());
        return Err(Problem::new(ProblemCode::TooLarge, 0..0, found, most).into());
    }
    options().from_str(text).map_err(|err| {
        Problem::other_file(text, "file-kind-scenario").unwrap_or_else(|| Problem::from_ron(text, &err)).into()
    })
}

fn empty(file: &ScenarioFile<'_>, text: &str, seed: Seed) -> Exercise {
    let mut stages: Vec<_> = file.stages.iter().map(|it| it.value).collect();
    // Only a new scenario is refused for a stage named twice (`strict`); an older attempt may have one.
    stages.sort_unstable();
    stages.dedup();
    let tables = Tables {
        id: file.id.value.clone(),
        title: file.title.value.clone(),
        place: file.place.value.clone(),
        brief: file.brief.value.clone(),
        course: None,
        edition: file.edition.edition(),
        earthing: file.earthing,
        seed,
        locations: Table::default(),
        rooms: Vec::new(),
        terminals: Table::default(),
        cables: Vec::new(),
        runs: Vec::new(),
        conductors: Vec::new(),
        start: Table::default(),
        slips: Vec::new(),
        slipped: BTreeMap::new(),
        switches: Table::default(),
        devices: Table::default(),
        lamps: Table::default(),
        fans: Table::default(),
        fixed: Vec::new(),
        controls: Vec::new(),
        stages,
        preparation: file.preparation,
        kit: file.kit,
        reference: None,
        hints: file.hints,
        board: file.board,
        tails: file.tails,
        fed: None,
        supply: file.supply,
        predict: Vec::new(),
        suspects: Vec::new(),
        fault: file.fault as usize,
        unmarked: Vec::new(),
        weights: file.weights,
        pass_mark: file.pass_mark,
    };
    Exercise { tables, text: text.to_owned(), names: Names::default(), drawn: None }
}

/// Where the fields about marks stand. Read only when one of them is wrong: to keep the place of each would cost every
/// attempt that is marked.
#[derive(Default, Deserialize)]
#[serde(rename = "Scenario", default)]
struct MarksAt<'a> {
    #[serde(borrow)]
    weights: Placed<'a, IgnoredAny>,
    #[serde(borrow)]
    pass_mark: Placed<'a, IgnoredAny>,
}

impl<'a> MarksAt<'a> {
    fn of(text: &'a str) -> Self {
        options().from_str(text).unwrap_or_default()
    }
}

struct Checker<'t> {
    text: &'t str,
    problems: Vec<Problem>,
    told: ToldOnce,
    exercise: Exercise,
}

impl Checker<'_> {
    fn problem<T>(
        &mut self,
        code: ProblemCode,
        at: &Placed<'_, T>,
        found: impl Into<String>,
        expected: impl Into<String>,
    ) {
        self.problems.push(Problem::new(code, at.span(self.text), found, expected));
    }

    /// Looks a reference up; a problem names the nearest valid one.
    fn find<I>(&mut self, code: ProblemCode, at: &Placed<'_, String>, found: Result<I, Option<String>>) -> Option<I> {
        match found {
            Ok(it) => Some(it),
            Err(nearest) => {
                let root = self.root(code, at);
                if self.told.is_new(root) {
                    let span = at.span(self.text);
                    let expected = self.cores_of(code, at).unwrap_or_default();
                    self.problems.push(Problem { nearest, ..Problem::new(code, span, at.value.clone(), expected) });
                }
                None
            }
        }
    }

    fn heading(&mut self, file: &ScenarioFile<'_>) {
        if file.format.value != FORMAT {
            self.problem(ProblemCode::Format, &file.format, file.format.value.to_string(), FORMAT.to_string());
        }
        self.id(&file.id);
        self.name(&file.title, Limits::NAME_CHARS);
        self.name(&file.place, Limits::NAME_CHARS);
        let brief = file.brief.value.replace('/', " ");
        if !names_are_clean(&brief, Limits::PARAGRAPH_CHARS) {
            self.problem(ProblemCode::BadName, &file.brief, "", Limits::PARAGRAPH_CHARS.to_string());
        }
        let total = file.weights.total();
        if !(1..=1000).contains(&total) {
            let span = MarksAt::of(self.text).weights.span(self.text);
            self.problems.push(Problem::new(ProblemCode::BadWeights, span, total.to_string(), "1 to 1000"));
        }
        if file.pass_mark > 100 {
            self.bad_pass_mark(file);
        }
    }

    fn bad_pass_mark(&mut self, file: &ScenarioFile<'_>) {
        let (span, found) = (MarksAt::of(self.text).pass_mark.span(self.text), file.pass_mark.to_string());
        self.problems.push(Problem::new(ProblemCode::BadPassMark, span, found, "1 to 100"));
    }

    /// Whether it is an id; if not, that is a problem.
    fn id(&mut self, id: &Placed<'_, String>) -> bool {
        let fits = is_id(id);
        if !fits {
            self.problem(ProblemCode::BadId, id, id.value.clone(), "");
        }
        fits
    }

    fn name(&mut self, name: &Placed<'_, String>, most: usize) {
        if !names_are_clean(name, most) {
            self.problem(ProblemCode::BadName, name, name.value.clone(), most.to_string());
        }
    }

    fn number(&mut self, number: &Placed<'_, f64>, least: f64, most: f64) -> bool {
        let fits = number.value.is_finite() && (least..=most).contains(&number.value);
        if !fits {
            // Written out, an impossible number can be hundreds of digits long.
            let written = number.value.to_string();
            let found = if written.len() > MOST_DIGITS { format!("{:e}", number.value) } else { written };
            self.problem(ProblemCode::BadNumber, number, found, format!("{least} to {most}"));
        }
        fits
    }

    fn locations(&mut self, file: &ScenarioFile<'_>) {
        if let Some(over) = file.locations.get(Limits::LOCATIONS) {
            let found = file.locations.len().to_string();
            self.problem(ProblemCode::TooManyLocations, &over.id, found, Limits::LOCATIONS.to_string());
            return;
        }
        for place in &file.locations {
            self.id(&place.id);
            self.name(&place.name, Limits::NAME_CHARS);
            let location = self.exercise.locations.next_id();
            if self.exercise.names.locations.insert(place.id.value.clone(), location).is_some() {
                self.problem(ProblemCode::Duplicate, &place.id, place.id.value.clone(), "");
            }
            let kind = self.location_kind(location, place);
            self.exercise.tables.locations.push(Location {
                id: place.id.value.clone(),
                name: place.name.value.clone(),
                at: place.at,
                kind,
            });
        }
        let devices = file.locations.iter().filter_map(|it| match &it.has {
            HasFile::Board { devices } => Some(devices),
            _ => None,
        });
        if let Some(over) = devices.flatten().nth(Limits::DEVICES) {
            let found = self.exercise.devices.len().to_string();
            self.problem(ProblemCode::TooManyDevices, &over.id, found, Limits::DEVICES.to_string());
        }
        if self.exercise.devices.is_empty() {
            self.problem(ProblemCode::NoDevice, &file.format, "", "");
        }
        if let Some(over) = self.exercise.switches.iter().nth(Limits::SWITCHES) {
            let (found, place) = (self.exercise.switches.len().to_string(), over.location.index());
            self.problem(ProblemCode::TooManySwitches, &file.locations[place].id, found, Limits::SWITCHES.to_string());
        }
    }

    /// Combinations that something tries one by one.
    fn combinations(&mut self, file: &ScenarioFile<'_>, used: Use) {
        let exercise = &self.exercise;
        let of = |switches: &[SwitchId]| {
            switches.iter().fold(1_usize, |n, it| n.saturating_mul(exercise.switches[*it].way.positions()))
        };
        let most = match used {
            Use::Drawing | Use::Marking => of(&exercise.switches.ids().collect::<Vec<_>>()),
            Use::States => {
                let mut mine: Vec<SwitchId> = exercise.asked_controls().flat_map(|it| it.1.switches.clone()).collect();
                mine.sort_unstable();
                mine.dedup();
                exercise.controls.iter().map(|it| of(&it.switches)).fold(of(&mine), usize::max)
            }
        };
        if exercise.switches.len() <= Limits::SWITCHES && most > Limits::COMBINATIONS {
            let expected = format!("at most {}", Limits::COMBINATIONS);
            self.problem(ProblemCode::TooManyCombinations, &file.format, most.to_string(), expected);
        }
    }

    fn terminal(
        &mut self,
        location: LocationId,
        address: &str,
        used_by: TerminalUse,
        capacity: Capacity,
    ) -> TerminalId {
        let terminal = Terminal { address: address.to_owned(), location, used_by, capacity };
        let id = self.exercise.tables.terminals.push(terminal);
        self.exercise.names.terminals.insert(address.to_owned(), id);
        id
    }

    fn cables(&mut self, file: &ScenarioFile<'_>) {
        let mut ids = file.cables.iter().map(|it| &it.id).chain(file.runs.iter().map(|it| &it.id));
        if let Some(over) = ids.nth(Limits::CABLES) {
            // Far too many to be worth a problem each.
            let found = (file.cables.len() + file.runs.len()).to_string();
            self.problem(ProblemCode::TooManyCables, over, found, Limits::CABLES.to_string());
            return;
        }
        let mut ids = BTreeSet::new();
        for it in &file.cables {
            self.id(&it.id);
            self.name(&it.name, Limits::NAME_CHARS);
            if !ids.insert(it.id.value.clone()) {
                self.problem(ProblemCode::Duplicate, &it.id, it.id.value.clone(), "");
            }
            // Both are looked at before either is missed, so that every problem is told.
            let size = self.size(it.kind, &it.mm2);
            let between = self.between(&it.metres, &it.from, &it.to);
            let (Some((live, cpc)), Some(between)) = (size, between) else {
                // What is named of it further on is missing for the same reason.
                self.told.add(Absent::Cable(it.id.value.clone()));
                continue;
            };
            let (id, name) = (it.id.value.clone(), it.name.value.clone());
            self.exercise.lay(Cable {
                id,
                name,
                kind: it.kind,
                live,
                cpc,
                metres: it.metres.value,
                between,
                // `lay` counts them.
                first_conductor: 0,
            });
        }
        self.runs(file, &mut ids);
    }

    /// The live size and that of the cpc of a kind of cable.
    fn size(&mut self, kind: CableKind, mm2: &Placed<'_, f64>) -> Option<(CrossSection, CrossSection)> {
        let size = CrossSection::from_mm2(mm2.value).and_then(|live| kind.sizes().iter().find(|it| it.0 == live));
        if size.is_none() {
            let sizes: Vec<String> = kind.sizes().iter().map(|it| it.0.mm2().to_string()).collect();
            self.problem(ProblemCode::BadSize, mm2, mm2.value.to_string(), sizes.join(", "));
        }
        size.copied()
    }

    /// The two places of a cable, if both are there.
    fn between(
        &mut self,
        metres: &Placed<'_, f64>,
        from: &Placed<'_, String>,
        to: &Placed<'_, String>,
    ) -> Option<[LocationId; 2]> {
        self.number(metres, 0.1, 500.0);
        let a = self.find(ProblemCode::UnknownLocation, from, self.exercise.location(from));
        let b = self.find(ProblemCode::UnknownLocation, to, self.exercise.location(to));
        if a.is_some() && a == b {
            self.problem(ProblemCode::CableToItself, to, to.value.clone(), "");
        }
        Some([a?, b?])
    }

    fn connected(&mut self, file: &ScenarioFile<'_>) {
        for it in &file.connected {
            let end = self.find(ProblemCode::UnknownEnd, &it.end, self.exercise.end(&it.end));
            let terminal = self.find(ProblemCode::UnknownTerminal, &it.at, self.exercise.terminal(&it.at));
            let (Some(end), Some(terminal)) = (end, terminal) else { continue };
            let Some(facts) = self.exercise.end_facts(end) else { continue };
            let there = &self.exercise.terminals[terminal];
            let (location, capacity) = (there.location, there.capacity);
            if location != facts.location {
                self.problem(ProblemCode::ConnectedElsewhere, &it.at, it.at.value.clone(), it.end.value.clone());
            } else if self.exercise.start[end].is_some() {
                self.problem(ProblemCode::ConnectedTwice, &it.end, it.end.value.clone(), "");
            } else {
                self.exercise.tables.start.put(end, Some(Start { terminal, mark: it.mark, stands: it.stands }));
                let inside = self
                    .exercise
                    .start
                    .ids()
                    .filter(|end| self.exercise.start[*end].is_some_and(|it| it.terminal == terminal));
                let sizes: Vec<f64> =
                    inside.filter_map(|it| self.exercise.end_facts(it)).map(|it| it.size.mm2()).collect();
                if sizes.len() > capacity.conductors || sizes.iter().sum::<f64>() > capacity.mm2 + 1e-9 {
                    let found = format!("{} ({} mm²)", sizes.len(), sizes.iter().sum::<f64>());
                    let expected = format!("{} ({} mm²)", capacity.conductors, capacity.mm2);
                    self.problem(ProblemCode::Overfilled, &it.at, found, expected);
                }
                let size = facts.size.mm2();
                if !capacity.is_made_for(size) {
                    let expected = format!("{} to {}", capacity.each_mm2.0, capacity.each_mm2.1);
                    self.problem(ProblemCode::TerminalSize, &it.at, size.to_string(), expected);
                }
            }
        }
    }

    fn controls(&mut self, file: &ScenarioFile<'_>) {
        let mut controlled = BTreeSet::new();
        for it in &file.controls {
            let lamp = self.find(ProblemCode::UnknownLamp, &it.lamp, self.exercise.lamp(&it.lamp));
            let mut switches = Vec::new();
            for name in &it.switches {
                let Some(switch) = self.find(ProblemCode::UnknownSwitch, name, self.exercise.switch(name)) else {
                    continue;
                };
                if switches.contains(&switch) {
                    self.problem(ProblemCode::BadControl, name, name.value.clone(), "");
                }
                switches.push(switch);
            }
            if it.switches.is_empty() {
                self.problem(ProblemCode::BadControl, &it.lamp, it.lamp.value.clone(), "");
            }
            let Some(lamp) = lamp else { continue };
            if !controlled.insert(lamp) {
                self.problem(ProblemCode::Duplicate, &it.lamp, it.lamp.value.clone(), "");
            }
            self.exercise.tables.controls.push(Control { lamp, switches });
        }
        for place in &file.locations {
            if let Ok(lamp) = self.exercise.lamp(&place.id)
                && !controlled.contains(&lamp)
            {
                self.problem(ProblemCode::LampWithoutControl, &place.id, place.id.value.clone(), "");
            }
        }
    }

    fn questions(&mut self, file: &ScenarioFile<'_>) {
        for name in &file.predict {
            if let Some(it) = self.find(ProblemCode::UnknownConductor, name, self.exercise.conductor(name)) {
                self.exercise.tables.predict.push(it);
            }
        }
    }

    /// On a training board there is nothing to isolate, lock or look after, and no house to take an earth from or to draw.
    fn bench(&mut self, file: &ScenarioFile<'_>) {
        if file.supply != Supply::Bench {
            return;
        }
        let not_there = [
            (file.stages.iter().any(|it| it.value == Stage::Isolation), "Isolation"),
            (file.board != Keeper::Learner, "board"),
            (file.tails != Tails::Shrouded, "tails"),
            (!file.reference.is_nothing(), "reference"),
            (!file.fed.is_usual(), "fed"),
            (!file.rooms.is_empty(), "rooms"),
        ];
        for (_, word) in not_there.into_iter().filter(|it| it.0) {
            self.problem(ProblemCode::NotOnBench, &file.format, word, "");
        }
    }

    fn fed(&mut self, file: &ScenarioFile<'_>) {
        let FedFile::Board { mm2, metres } = &file.fed else { return };
        self.number(metres, 0.1, 500.0);
        let size = CrossSection::from_mm2(mm2.value);
        if size.is_none() {
            let sizes: Vec<String> = CrossSection::all().map(|it| it.mm2().to_string()).collect();
            self.problem(ProblemCode::BadSize, mm2, mm2.value.to_string(), sizes.join(", "));
        }
        self.exercise.tables.fed = size.map(|size| Distribution { size, metres: metres.value });
    }

    fn reference(&mut self, file: &ScenarioFile<'_>) {
        self.exercise.tables.reference = match &file.reference {
            ReferenceFile::Nothing => None,
            ReferenceFile::EarthingTerminal => {
                self.exercise.earthing_terminal().map(|earth| Reference { earth, line: None })
            }
            ReferenceFile::Socket(at) => {
                let Some(location) = self.find(ProblemCode::UnknownLocation, at, self.exercise.location(at)) else {
                    return;
                };
                let socket = self.exercise.socket_reference(location);
                if socket.is_none() {
                    self.problem(ProblemCode::NoReference, at, at.value.clone(), "");
                }
                socket
            }
        };
    }
}

/// What the ids of conductors made up in an attempt begin with; no id of a scenario may.
pub(crate) const MADE: &str = "made-";
