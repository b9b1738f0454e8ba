//! `mark`: the mark sheets of attempts.

use std::{
    io,
    path::{Path, PathBuf},
};

use serde::Serialize;
use switchdrop::{
    circuit::Physics,
    exercise::{Exercise, Seed, draw},
    marking::{Sheet, VERSION, mark},
    wording::report,
    work::{Attempt, Header},
};

use super::{
    mark_json::{SheetJson, schema},
    talk::{Talk, wrapped},
};
use crate::journal::{Shelf, Trouble, Whole, read_attempt};

#[derive(Debug, clap::Args)]
pub struct Args {
    /// Attempt files
    #[arg(required_unless_present = "schema", value_name = "ATTEMPT")]
    attempts: Vec<PathBuf>,
    /// One JSON object an attempt, one a line
    #[arg(long)]
    json: bool,
    /// The JSON Schema (draft 7) of what `--json` writes, and nothing else
    #[arg(long, conflicts_with_all = ["json", "attempts"])]
    schema: bool,
}

pub fn run(args: &Args, folders: &[PathBuf], talk: &mut Talk) -> io::Result<()> {
    if args.schema {
        return talk.answer(&serde_json::to_string_pretty(&schema()).map_err(io::Error::other)?);
    }
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
    let result = read_attempt(path).and_then(|whole| match whole.opened.replay(&Physics) {
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
