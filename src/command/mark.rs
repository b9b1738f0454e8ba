//! `mark`: the mark sheets of attempts.

use std::{
    io,
    path::{Path, PathBuf},
    sync::Arc,
};

use serde::Serialize;
use switchdrop::{
    circuit::Physics,
    exercise::{Exercise, Template},
    marking::{Sheet, VERSION, mark},
    wording::{About, Story, report},
    work::{Attempt, Header, Known, sha256},
};

use super::{
    mark_html::{TITLE, page},
    mark_json::{SheetJson, schema},
    talk::{Talk, wrapped},
};
use crate::journal::{Shelf, Trouble, Whole, read_attempt, read_attempt_again, write_own};

#[derive(Debug, clap::Args)]
pub struct Args {
    /// Attempt files
    #[arg(required_unless_present = "schema", value_name = "ATTEMPT")]
    attempts: Vec<PathBuf>,
    /// One JSON object an attempt, one a line
    #[arg(long)]
    json: bool,
    /// Write the sheet of one attempt as an HTML page, to be printed on A4
    #[arg(long, value_name = "FILE", conflicts_with = "json")]
    html: Option<PathBuf>,
    /// The JSON Schema (draft 7) of what `--json` writes, and nothing else
    #[arg(long, conflicts_with_all = ["json", "html", "attempts"])]
    schema: bool,
}

pub fn run(args: &Args, folders: &[PathBuf], talk: &mut Talk) -> io::Result<()> {
    if args.schema {
        return talk.answer(&serde_json::to_string_pretty(&schema()).map_err(io::Error::other)?);
    }
    let shelf = Shelf::gather(folders);
    let templates = shelf.templates();
    if let Some(path) = &args.html {
        return write_page(&args.attempts, path, &templates, talk);
    }
    let mut later = false;
    // A batch is marked on all cores and then said in order, so that memory stays flat.
    for batch in args.attempts.chunks(BATCH) {
        for (path, marked) in batch.iter().zip(mark_all(batch, &templates, args.json, args.attempts.len() == 1)) {
            let Marked { whole, attempt, sheet, differs, json, story } = match marked {
                Ok(it) => it,
                Err(trouble) => {
                    talk.trouble(&trouble);
                    continue;
                }
            };
            cut_off(path, &whole, talk);
            let name = path.display().to_string();
            notices(&name, &whole.opened.header, differs, talk);
            if let Some(json) = json {
                talk.answer(&json.map_err(io::Error::other)?)?;
            } else {
                if later {
                    talk.answer("")?;
                }
                let about = About { learner: &whole.opened.header.learner, receipt: whole.receipt.as_deref() };
                show(&about, &attempt, &sheet, &story, talk)?;
            }
            later = true;
        }
    }
    Ok(())
}

/// Writes the page of one attempt.
fn write_page(attempts: &[PathBuf], out: &Path, templates: &[Template<'_>], talk: &mut Talk) -> io::Result<()> {
    let [attempt] = attempts else {
        let sentence = talk.wording.say("mark-page-of-one", &[]);
        talk.wrong(&sentence);
        return Ok(());
    };
    let marked = match mark_one(attempt, templates, &mut Known::default(), &mut None) {
        Ok(it) => it,
        Err(trouble) => {
            talk.trouble(&trouble);
            return Ok(());
        }
    };
    let Marked { whole, attempt: done, sheet, differs, .. } = &marked;
    cut_off(attempt, whole, talk);
    notices(&attempt.display().to_string(), &whole.opened.header, *differs, talk);
    let story = Story::of(done, sheet, whole.opened.times());
    let page = page(&talk.wording, whole, done, sheet, *differs, &story);
    match write_own(out, TITLE, &page) {
        Ok(()) => {
            let sentence = talk.wording.say("mark-page-written", &[("path", &out.display().to_string())]);
            talk.answer(&sentence)
        }
        Err(trouble) => {
            talk.trouble(&trouble);
            Ok(())
        }
    }
}

/// So many attempts are held at once.
const BATCH: usize = 64;

/// An attempt marked.
struct Marked {
    whole: Whole,
    attempt: Attempt,
    sheet: Sheet,
    /// Whether the exercise is another than the scenario at hand gives.
    differs: bool,
    /// The sheet for machines, if it is asked for.
    json: Option<serde_json::Result<String>>,
    /// What is worked out when one attempt alone is asked for.
    story: Story,
}

/// Marks a batch, each core a stretch of it.
fn mark_all(paths: &[PathBuf], templates: &[Template<'_>], as_json: bool, alone: bool) -> Vec<Result<Marked, Trouble>> {
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let stretch = paths.len().div_ceil(cores).max(1);
    let mark_some = |paths: &[PathBuf]| -> Vec<Result<Marked, Trouble>> {
        let mut known = Known::default();
        let mut last: Option<(Arc<Exercise>, bool)> = None;
        let marked = paths.iter().map(|path| {
            let mut marked = mark_one(path, templates, &mut known, &mut last)?;
            if alone {
                marked.story = Story::of(&marked.attempt, &marked.sheet, marked.whole.opened.times());
            }
            if as_json {
                let Marked { whole, attempt, sheet, differs, story, .. } = &marked;
                let name = path.display().to_string();
                let json = SheetJson::of(&name, whole, attempt, sheet, *differs, story);
                marked.json = Some(serde_json::to_string(&json));
            }
            Ok(marked)
        });
        marked.collect()
    };
    if cores == 1 || paths.len() == 1 {
        return mark_some(paths);
    }
    std::thread::scope(|scope| {
        let workers: Vec<_> = paths.chunks(stretch).map(|it| scope.spawn(move || mark_some(it))).collect();
        let results = workers.into_iter().map(|it| it.join().unwrap_or_else(|it| std::panic::resume_unwind(it)));
        results.flatten().collect()
    })
}

/// Marks one; what the last one's exercise cost to read and to compare is not spent again on the same.
fn mark_one(
    path: &Path,
    templates: &[Template<'_>],
    known: &mut Known,
    last: &mut Option<(Arc<Exercise>, bool)>,
) -> Result<Marked, Trouble> {
    let (whole, attempt) = replay(path, read_attempt_again(path, known, templates))?;
    let exercise = &whole.opened.exercise;
    let differs = match last {
        Some((it, differs)) if Arc::ptr_eq(it, exercise) => *differs,
        _ => {
            let found = !known.is_drawn() && differs(templates, exercise);
            *last = Some((Arc::clone(exercise), found));
            found
        }
    };
    let sheet = mark(&attempt, whole.opened.header.mode);
    Ok(Marked { whole, attempt, sheet, differs, json: None, story: Story::default() })
}

/// Marks the text of an attempt that stands in no file.
pub fn sample(name: &str, text: &str, talk: &mut Talk) -> io::Result<()> {
    let marked = switchdrop::work::open(text).and_then(|opened| {
        let attempt = opened.replay(&Physics)?;
        Ok((mark(&attempt, opened.header.mode), opened, attempt))
    });
    match marked {
        Ok((sheet, opened, attempt)) => {
            let story = Story::of(&attempt, &sheet, opened.times());
            let receipt = opened.handed_in_by().map(|end| sha256(&text.as_bytes()[..end]));
            let about = About { learner: &opened.header.learner, receipt: receipt.as_deref() };
            show(&about, &attempt, &sheet, &story, talk)
        }
        Err(problems) => {
            talk.problems(name, text, 0, &problems);
            Ok(())
        }
    }
}

/// An attempt read some way and replayed; if it can't be, it has been said why.
pub fn replayed_as(path: &Path, read: Result<Whole, Trouble>, talk: &mut Talk) -> Option<(Whole, Attempt)> {
    match replay(path, read) {
        Ok((whole, attempt)) => {
            cut_off(path, &whole, talk);
            Some((whole, attempt))
        }
        Err(trouble) => {
            talk.trouble(&trouble);
            None
        }
    }
}

/// The same of an attempt read for marking.
pub fn replayed(path: &Path, talk: &mut Talk) -> Option<(Whole, Attempt)> {
    replayed_as(path, read_attempt(path), talk)
}

fn replay(path: &Path, read: Result<Whole, Trouble>) -> Result<(Whole, Attempt), Trouble> {
    let whole = read?;
    match whole.opened.replay(&Physics) {
        Ok(attempt) => Ok((whole, attempt)),
        Err(problems) => Err(Trouble::Wrong { path: path.to_owned(), text: whole.text, problems }),
    }
}

/// Says that an unfinished last line does not count.
fn cut_off(path: &Path, whole: &Whole, talk: &mut Talk) {
    if whole.cut_off > 0 {
        let name = path.display().to_string();
        let args = [("path", name.as_str()), ("count", &whole.cut_off.to_string())];
        let sentence = talk.wording.say("mark-cut-off", &args);
        talk.notice(&sentence);
    }
}

/// Writes one value as JSON on one line.
pub fn answer_json(json: &impl Serialize, talk: &mut Talk) -> io::Result<()> {
    talk.answer(&serde_json::to_string(json).map_err(io::Error::other)?)
}

/// Whether the exercise is another than the scenario at hand gives for its seed. One that is not at hand can't be told.
fn differs(templates: &[Template<'_>], exercise: &Exercise) -> bool {
    templates.iter().find(|it| it.id() == exercise.id).is_some_and(|it| !it.draws(exercise))
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

fn show(about: &About<'_>, attempt: &Attempt, sheet: &Sheet, story: &Story, talk: &mut Talk) -> io::Result<()> {
    for line in report(&talk.wording, about, attempt, sheet, story) {
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
