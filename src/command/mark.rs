//! `mark`: the mark sheets of attempts.

use std::{
    io,
    path::{Path, PathBuf},
};

use serde::Serialize;
use switchdrop::{
    circuit::{Physics, Witness},
    exercise::{Edition, Exercise, Seed, draw},
    marking::{Finding, Root, Seen, Sheet, VERSION, mark},
    wording::report,
    work::{Attempt, Header},
};

use super::talk::{Talk, wrapped};
use crate::journal::{Shelf, Trouble, Whole, read_attempt};

#[derive(Debug, clap::Args)]
pub struct Args {
    /// Attempt files
    #[arg(required = true, value_name = "ATTEMPT")]
    attempts: Vec<PathBuf>,
    /// One JSON object an attempt, one a line
    #[arg(long)]
    json: bool,
}

pub fn run(args: &Args, folders: &[PathBuf], talk: &mut Talk) -> io::Result<()> {
    let shelf = Shelf::gather(folders);
    let mut later = false;
    for path in &args.attempts {
        let Some((whole, attempt)) = replayed(path, talk) else { continue };
        let name = path.display().to_string();
        let differs = differs(&shelf, &whole.opened.exercise);
        notices(&name, &whole.opened.header, differs, talk);
        let sheet = mark(&attempt, whole.opened.header.mode);
        if args.json {
            let json = SheetJson::of(&name, &whole.opened.header, &attempt, &sheet, differs);
            answer_json(&json, talk)?;
        } else {
            if later {
                talk.answer("")?;
            }
            show(&whole.opened.header.learner, &attempt, &sheet, talk)?;
        }
        later = true;
    }
    Ok(())
}

/// Marks the text of an attempt that stands in no file.
pub fn sample(name: &str, text: &str, talk: &mut Talk) -> io::Result<()> {
    let marked = switchdrop::work::open(text).and_then(|opened| {
        let attempt = opened.replay(&Physics)?;
        Ok((mark(&attempt, opened.header.mode), opened, attempt))
    });
    match marked {
        Ok((sheet, opened, attempt)) => show(&opened.header.learner, &attempt, &sheet, talk),
        Err(problems) => {
            talk.problems(name, text, 0, &problems);
            Ok(())
        }
    }
}

/// An attempt read and replayed; if it can't be, it has been said why.
pub fn replayed(path: &Path, talk: &mut Talk) -> Option<(Whole, Attempt)> {
    replayed_as(path, read_attempt(path), talk)
}

/// The same of what was read some other way.
pub fn replayed_as(path: &Path, read: Result<Whole, Trouble>, talk: &mut Talk) -> Option<(Whole, Attempt)> {
    let result = read.and_then(|whole| match whole.opened.replay(&Physics) {
        Ok(attempt) => Ok((whole, attempt)),
        Err(problems) => Err(Trouble::Wrong { path: path.to_owned(), text: whole.text, problems }),
    });
    match result {
        Ok((whole, attempt)) => {
            if whole.cut_off > 0 {
                let name = path.display().to_string();
                let args = [("path", name.as_str()), ("count", &whole.cut_off.to_string())];
                let sentence = talk.wording.say("mark-cut-off", &args);
                talk.notice(&sentence);
            }
            Some((whole, attempt))
        }
        Err(trouble) => {
            talk.trouble(&trouble);
            None
        }
    }
}

/// Writes one value as JSON on one line.
pub fn answer_json(json: &impl Serialize, talk: &mut Talk) -> io::Result<()> {
    talk.answer(&serde_json::to_string(json).map_err(io::Error::other)?)
}

/// Whether the exercise is another than the scenario at hand gives for its seed. One that is not at hand can't be told.
fn differs(shelf: &Shelf, exercise: &Exercise) -> bool {
    let at_hand = shelf.find(&exercise.id);
    at_hand
        .is_some_and(|it| draw(&it.text, Seed(exercise.seed.0)).map_or(true, |drawn| drawn.text() != exercise.text()))
}

fn notices(name: &str, header: &Header, differs: bool, talk: &mut Talk) {
    if differs {
        let sentence = talk.wording.say("mark-differs", &[("path", name)]);
        talk.notice(&sentence);
    }
    if header.marking != VERSION {
        let sentence = talk.wording.say("mark-other-version", &[("path", name)]);
        talk.notice(&sentence);
    }
}

fn show(learner: &str, attempt: &Attempt, sheet: &Sheet, talk: &mut Talk) -> io::Result<()> {
    for line in report(&talk.wording, learner, attempt, sheet) {
        let line = line.text;
        let indent = " ".repeat(line.len() - line.trim_start().len());
        if line.is_empty() {
            talk.answer("")?;
        }
        for (index, part) in wrapped(&line, 96).iter().enumerate() {
            talk.answer(&format!("{indent}{}{part}", if index > 0 { "  " } else { "" }))?;
        }
    }
    Ok(())
}

/// The sheet for machines. A field may be added, none is renamed or dropped.
#[derive(Serialize)]
struct SheetJson<'a> {
    format: u32,
    marking: u32,
    edition: &'static str,
    attempt: &'a str,
    scenario: &'a str,
    seed: u64,
    learner: &'a str,
    handed_in: bool,
    /// The exercise is not what the scenario at hand gives for this seed.
    differs: bool,
    outcome: &'static str,
    marks: u32,
    out_of: u32,
    criteria: Vec<CriterionJson>,
    findings: Vec<FindingJson<'a>>,
}

/// Version of that form.
const FORMAT: u32 = 1;

#[derive(Serialize)]
struct CriterionJson {
    name: &'static str,
    marks: u32,
    out_of: u32,
}

#[derive(Serialize)]
struct FindingJson<'a> {
    code: &'static str,
    at: &'a str,
    weight: &'static str,
    lost: u32,
    root: RootJson,
    witness: Option<WitnessJson<'a>>,
}

/// True, or the root's index.
#[derive(Serialize)]
#[serde(untagged)]
enum RootJson {
    Itself(bool),
    Of(usize),
}

#[derive(Serialize)]
#[serde(untagged)]
enum WitnessJson<'a> {
    Case { positions: &'a [u8], off: Vec<&'a str>, out: Vec<&'a str> },
    Action { action: usize },
}

impl<'a> SheetJson<'a> {
    fn of(name: &'a str, header: &'a Header, attempt: &'a Attempt, sheet: &'a Sheet, differs: bool) -> Self {
        let exercise = attempt.work().exercise();
        let criteria = sheet.criteria.iter();
        Self {
            format: FORMAT,
            marking: sheet.version,
            edition: match sheet.edition {
                Edition::A2of2022 => "BS 7671:2018+A2:2022",
                Edition::A4of2026 => "BS 7671:2018+A4:2026",
            },
            attempt: name,
            scenario: &header.scenario,
            seed: header.seed,
            learner: &header.learner,
            handed_in: sheet.handed_in,
            differs,
            outcome: sheet.outcome.word(),
            marks: sheet.marks,
            out_of: sheet.out_of,
            criteria: criteria
                .map(|it| CriterionJson { name: it.criterion.word(), marks: it.marks, out_of: it.out_of })
                .collect(),
            findings: sheet.findings.iter().map(|it| FindingJson::of(exercise, it)).collect(),
        }
    }
}

impl<'a> FindingJson<'a> {
    fn of(exercise: &'a Exercise, finding: &'a Finding) -> Self {
        Self {
            code: finding.code.word(),
            at: &finding.at,
            weight: finding.weight.word(),
            lost: finding.lost,
            root: match finding.root {
                Root::Itself => RootJson::Itself(true),
                Root::Of(cause) => RootJson::Of(cause),
            },
            witness: match &finding.seen {
                Seen::ByEye => None,
                Seen::InAction(action) => Some(WitnessJson::Action { action: *action }),
                Seen::InCase(case) => Some(case_json(exercise, case)),
            },
        }
    }
}

fn case_json<'a>(exercise: &'a Exercise, case: &'a Witness) -> WitnessJson<'a> {
    let devices = case.off.iter().filter_map(|it| exercise.devices.get(it.index()));
    let lamps = case.out.iter().filter_map(|it| exercise.lamps.get(it.index()));
    WitnessJson::Case {
        positions: &case.positions,
        off: devices.map(|it| it.address.as_str()).collect(),
        out: lamps.map(|it| it.address.as_str()).collect(),
    }
}
