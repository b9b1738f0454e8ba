//! `states`: what every lamp does in every combination of switch positions.

use std::{io, path::PathBuf};

use serde::Serialize;
use switchdrop::{
    circuit::{Glow, Hazard, Row, Stage, rows},
    exercise::{DeviceId, Exercise},
    wording::{hazard_key, row},
};

use super::{
    mark::{answer_json, replayed},
    talk::Talk,
};

#[derive(Debug, clap::Args)]
pub struct Args {
    /// The attempt file
    #[arg(value_name = "ATTEMPT")]
    attempt: PathBuf,
    /// One JSON object
    #[arg(long)]
    json: bool,
    /// This combination only: a position for each switch, from 0, in the order of the exercise
    #[arg(long, value_name = "POSITIONS", value_delimiter = ',')]
    at: Option<Vec<u8>>,
}

pub fn run(args: &Args, talk: &mut Talk) -> io::Result<()> {
    let Some((_, attempt)) = replayed(&args.attempt, talk) else { return Ok(()) };
    let work = attempt.work();
    let exercise = work.exercise();
    if let Some(at) = &args.at
        && !fits(exercise, at)
    {
        let count = exercise.switches.len().to_string();
        let most: Vec<_> = exercise.switches.iter().map(|it| (it.way.positions() - 1).to_string()).collect();
        let sentence = talk.wording.say("states-no-such", &[("count", &count), ("most", &most.join(","))]);
        talk.wrong(&sentence);
        return Ok(());
    }
    let mut rows = rows(work);
    rows.retain(|it| args.at.as_ref().is_none_or(|at| *at == it.positions));
    if args.json {
        return answer_json(&StatesJson::of(exercise, &rows), talk);
    }
    rows.iter().try_for_each(|it| {
        let said = row(&talk.wording, work, it);
        talk.answer(&said)
    })
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
    rows: Vec<RowJson<'a>>,
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
    may_trip: Vec<&'a str>,
    hazards: Vec<HazardJson<'a>>,
}

#[derive(Serialize)]
struct LampJson {
    glow: &'static str,
    volts: f64,
}

#[derive(Serialize)]
struct HazardJson<'a> {
    code: &'static str,
    at: &'a str,
    stage: &'static str,
}

impl<'a> StatesJson<'a> {
    fn of(exercise: &'a Exercise, rows: &'a [Row]) -> Self {
        let switches = exercise.switches.iter();
        Self {
            switches: switches.map(|it| SwitchJson { address: &it.address, positions: it.way.positions() }).collect(),
            lamps: exercise.lamps.iter().map(|it| it.address.as_str()).collect(),
            rows: rows.iter().map(|it| RowJson::of(exercise, it)).collect(),
        }
    }
}

impl<'a> RowJson<'a> {
    fn of(exercise: &'a Exercise, row: &'a Row) -> Self {
        let devices = |of: &[DeviceId]| -> Vec<&'a str> {
            of.iter().filter_map(|it| exercise.devices.get(it.index())).map(|it| it.address.as_str()).collect()
        };
        Self {
            positions: &row.positions,
            // A thousandth of a volt is as much as anyone reads, and the same on every machine.
            lamps: row
                .lamps
                .iter()
                .map(|it| LampJson { glow: glow_word(it.glow), volts: (it.volts * 1000.0).round() / 1000.0 })
                .collect(),
            tripped: devices(&row.tripped),
            may_trip: devices(&row.may_trip),
            hazards: row.hazards.iter().map(HazardJson::of).collect(),
        }
    }
}

impl<'a> HazardJson<'a> {
    fn of(hazard: &'a Hazard) -> Self {
        let key = hazard_key(hazard.kind);
        let stage = match hazard.stage {
            Stage::SwitchingOn => "switching-on",
            Stage::Settled => "settled",
            Stage::FirstFault => "first-fault",
        };
        Self { code: key.strip_prefix("hazard-").unwrap_or(key), at: &hazard.at, stage }
    }
}

const fn glow_word(glow: Glow) -> &'static str {
    match glow {
        Glow::Lit => "lit",
        Glow::Dim => "dim",
        Glow::Off => "off",
    }
}
