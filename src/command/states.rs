//! `states`: what every lamp does in every combination of switch positions.

use std::{
    io,
    path::{Path, PathBuf},
};

use serde::Serialize;
use switchdrop::{
    circuit::{
        Cause, Conditions, DECK_TITLE, Glow, Hazard, Onset, Opening, Row, StateClass, States, TooMany, TooManyCases,
        deck, deck_cases, flow, row_at, states,
    },
    exercise::{DeviceId, Exercise},
    wording::{hazard_key, row, switch, ways},
    work::Work,
};

use super::{
    mark::{answer_json, replayed_as},
    output::Output,
};
use crate::journal::{make_folder, read_attempt_for_states, write_own};

#[derive(Debug, clap::Args)]
pub struct Args {
    /// The attempt file
    #[arg(value_name = "ATTEMPT")]
    attempt: PathBuf,
    /// Show set work before its time: not handed in, not yet due, not yet released
    #[arg(long)]
    unfinished: bool,
    /// One JSON object
    #[arg(long)]
    json: bool,
    /// This combination only: a position for each switch, from 0, in the order of the exercise
    #[arg(long, value_name = "POSITIONS", value_delimiter = ',')]
    at: Option<Vec<u8>>,
    /// Say beneath each combination where the current goes, and where what is live stops
    #[arg(long, conflicts_with_all = ["json", "spice"])]
    way: bool,
    /// Write the network as a deck for ngspice into this folder, made if need be, instead
    #[arg(long, value_name = "DIR", conflicts_with = "json")]
    spice: Option<PathBuf>,
}

/// The file of a deck in its folder. It has one name whatever the attempt says, so that nothing from a file is in a path.
const DECK: &str = "wiring.cir";

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    let read = read_attempt_for_states(&args.attempt);
    let Some((_, attempt)) = replayed_as(&args.attempt, read, args.unfinished, talk) else { return Ok(()) };
    let work = attempt.work();
    let exercise = work.exercise();
    if let Some(at) = &args.at
        && !fits(exercise, at)
    {
        let count = exercise.switches.len().to_string();
        let most: Vec<_> = exercise.switches.iter().map(|it| (it.way.positions() - 1).to_string()).collect();
        let switches = exercise.switches.ids().map(|it| switch(&talk.wording, exercise, it));
        let switches = switches.collect::<Vec<_>>().join("; ");
        let args = [("count", count.as_str()), ("most", &most.join(",")), ("switches", &switches)];
        let sentence = talk.wording.say("states-no-such", &args);
        talk.wrong(&sentence);
        return Ok(());
    }
    if let Some(folder) = &args.spice {
        return write_deck(work, args.at.as_deref(), folder, talk);
    }
    let found = match &args.at {
        Some(at) => Ok(States::Rows(vec![row_at(work, at)])),
        None => states(work),
    };
    let found = match found {
        Ok(it) => it,
        Err(too_many) => {
            let (key, count) = match too_many {
                TooMany::States { taken } => ("states-too-many-joins", taken),
                TooMany::Nets { open } => ("states-too-many-nets", open),
                TooMany::Results { most } => ("states-too-many-results", most),
                TooMany::Touching { most } => ("states-too-many-touching", most),
                TooMany::Combinations => ("states-too-many-combinations", exercise.switches.len()),
            };
            let sentence = talk.wording.say(key, &[("count", &count.to_string())]);
            talk.wrong(&sentence);
            return Ok(());
        }
    };
    if args.json {
        return answer_json(&StatesJson::of(exercise, &found), talk);
    }
    match &found {
        States::Rows(rows) => rows.iter().try_for_each(|it| {
            let said = row(&talk.wording, work, it);
            talk.answer(&said)?;
            let flow = args.way.then(|| flow(work, Conditions::complete(exercise, it.positions.clone())));
            let ways = flow.map_or_else(Vec::new, |it| ways(&talk.wording, work, &it));
            ways.iter().try_for_each(|it| talk.answer(&format!("  {it}")))
        }),
        States::Classes(classes) => classes.iter().try_for_each(|it| {
            let first = row(&talk.wording, work, &it.first);
            let said = talk.wording.say("states-class", &[("count", &it.count.to_string()), ("row", &first)]);
            talk.answer(&said)
        }),
    }
}

/// Writes the deck of every combination, or of the one asked for.
fn write_deck(work: &Work, at: Option<&[u8]>, into: &Path, talk: &mut Output) -> io::Result<()> {
    let cases = match deck_cases(work, at) {
        Ok(cases) => cases,
        Err(TooManyCases { found, most }) => {
            let (found, most) = (found.to_string(), most.to_string());
            let sentence = talk.wording.say("states-deck-too-long", &[("count", &found), ("most", &most)]);
            talk.wrong(&sentence);
            return Ok(());
        }
    };
    let path = into.join(DECK);
    match make_folder(into).and_then(|()| write_own(&path, DECK_TITLE, &deck(work, &cases).text)) {
        Ok(()) => {
            let (path, count) = (path.display().to_string(), cases.len().to_string());
            let sentence = talk.wording.say("states-deck-written", &[("path", &path), ("count", &count)]);
            talk.answer(&sentence)
        }
        Err(trouble) => {
            talk.trouble(&trouble);
            Ok(())
        }
    }
}

fn fits(exercise: &Exercise, at: &[u8]) -> bool {
    at.len() == exercise.switches.len()
        && exercise.switches.iter().zip(at).all(|(switch, at)| usize::from(*at) < switch.way.positions())
}

/// The states for machines. A field may be added, none is renamed or dropped.
#[derive(Serialize)]
struct StatesJson<'a> {
    switches: Vec<SwitchJson<'a>>,
    lamps: Vec<&'a str>,
    /// A row for each combination, unless there are too many.
    #[serde(skip_serializing_if = "Option::is_none")]
    rows: Option<Vec<RowJson<'a>>>,
    /// Then each distinct result.
    #[serde(skip_serializing_if = "Option::is_none")]
    classes: Option<Vec<ClassJson<'a>>>,
}

/// A result, how many combinations have it, and the first of them.
#[derive(Serialize)]
struct ClassJson<'a> {
    count: u128,
    #[serde(flatten)]
    first: RowJson<'a>,
}

#[derive(Serialize)]
struct SwitchJson<'a> {
    address: &'a str,
    positions: usize,
}

#[derive(Serialize)]
struct RowJson<'a> {
    positions: &'a [u8],
    lamps: Vec<LampJson>,
    tripped: Vec<&'a str>,
    opened: Vec<OpenedJson<'a>>,
    may_trip: Vec<&'a str>,
    hazards: Vec<HazardJson>,
}

/// Why a device opened, and between how many seconds.
#[derive(Serialize)]
struct OpenedJson<'a> {
    device: &'a str,
    cause: &'static str,
    after: f64,
    within: f64,
}

#[derive(Serialize)]
struct LampJson {
    glow: &'static str,
    volts: f64,
}

#[derive(Serialize)]
struct HazardJson {
    code: &'static str,
    at: String,
    stage: &'static str,
}

impl<'a> StatesJson<'a> {
    fn of(exercise: &'a Exercise, found: &'a States) -> Self {
        let (rows, classes) = match found {
            States::Rows(rows) => (Some(rows.iter().map(|it| RowJson::of(exercise, it)).collect()), None),
            States::Classes(classes) => (None, Some(classes.iter().map(|it| ClassJson::of(exercise, it)).collect())),
        };
        let switches = exercise.switches.iter();
        Self {
            switches: switches.map(|it| SwitchJson { address: &it.address, positions: it.way.positions() }).collect(),
            lamps: exercise.lamps.iter().map(|it| it.address.as_str()).collect(),
            rows,
            classes,
        }
    }
}

impl<'a> ClassJson<'a> {
    fn of(exercise: &'a Exercise, class: &'a StateClass) -> Self {
        Self { count: class.count, first: RowJson::of(exercise, &class.first) }
    }
}

impl<'a> RowJson<'a> {
    fn of(exercise: &'a Exercise, row: &'a Row) -> Self {
        let devices = |of: &[DeviceId]| -> Vec<&'a str> {
            of.iter().filter_map(|id| exercise.devices.get(*id)).map(|device| device.address.as_str()).collect()
        };
        Self {
            positions: &row.positions,
            // A thousandth of a volt is as much as anyone reads, and the same on every machine.
            lamps: row
                .lamps
                .iter()
                .map(|it| LampJson { glow: glow_word(it.glow), volts: (it.volts * 1000.0).round() / 1000.0 })
                .collect(),
            tripped: devices(&row.tripped().collect::<Vec<_>>()),
            opened: row.opened.iter().map(|it| OpenedJson::of(exercise, it)).collect(),
            may_trip: devices(&row.may_trip),
            hazards: row.hazards.iter().map(|it| HazardJson::of(exercise, it)).collect(),
        }
    }
}

impl<'a> OpenedJson<'a> {
    fn of(exercise: &'a Exercise, opening: &Opening) -> Self {
        let cause = match opening.cause {
            Cause::Overcurrent => "overcurrent",
            Cause::Residual => "residual",
        };
        let device = exercise.devices.get(opening.device).map_or("", |it| it.address.as_str());
        Self { device, cause, after: opening.after, within: opening.within }
    }
}

impl HazardJson {
    fn of(exercise: &Exercise, hazard: &Hazard) -> Self {
        let key = hazard_key(hazard.kind);
        let stage = match hazard.stage {
            Onset::SwitchingOn => "switching-on",
            Onset::Settled => "settled",
            Onset::FirstFault => "first-fault",
        };
        Self { code: key.strip_prefix("hazard-").unwrap_or(key), at: hazard.at.address(exercise), stage }
    }
}

const fn glow_word(glow: Glow) -> &'static str {
    match glow {
        Glow::Lit => "lit",
        Glow::Dim => "dim",
        Glow::Off => "off",
    }
}
