//! `mark`: the mark sheets of attempts.

use std::{
    io,
    path::{Path, PathBuf},
    sync::Arc,
};

use serde::Serialize;
use switchdrop::{
    circuit::Physics,
    exercise::{AtHand, Exercise, Template},
    marking::{Answers, Notice, Sheet, answers, mark, notices},
    wording::{About, Story, Wording, report},
    work::{Attempt, Known, sha256},
};

use super::{
    in_turn::in_turn,
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
    /// Show set work that is not handed in
    #[arg(long)]
    unfinished: bool,
    /// The JSON Schema (draft 7) of what `--json` writes, and nothing else
    #[arg(long, conflicts_with_all = ["json", "html", "attempts", "unfinished"])]
    schema: bool,
}

pub fn run(args: &Args, folders: &[PathBuf], talk: &mut Talk) -> io::Result<()> {
    if args.schema {
        return talk.answer(&serde_json::to_string_pretty(&schema()).map_err(io::Error::other)?);
    }
    let shelf = Shelf::gather(folders);
    let templates = shelf.templates();
    if let Some(path) = &args.html {
        return write_page(&args.attempts, path, &templates, args.unfinished, talk);
    }
    let mut later = false;
    let job = |bench: &mut Bench, path: &PathBuf| bench.answer(path, &templates, args);
    in_turn(&args.attempts, Bench::new, job, |_, answer| {
        for it in &answer.notices {
            talk.notice(it);
        }
        match answer.sheet {
            Err(trouble) => talk.trouble(&trouble),
            Ok(sheet) => {
                if later && !args.json {
                    talk.answer("")?;
                }
                talk.answer(&sheet?)?;
                later = true;
            }
        }
        Ok(())
    })
}

/// Writes the page of one attempt.
fn write_page(
    attempts: &[PathBuf],
    out: &Path,
    templates: &[Template<'_>],
    unfinished: bool,
    talk: &mut Talk,
) -> io::Result<()> {
    let [path] = attempts else {
        let sentence = talk.wording.say("mark-page-of-one", &[]);
        talk.wrong(&sentence);
        return Ok(());
    };
    let marked = match Bench::new().mark(path, templates, unfinished) {
        Ok(it) => it,
        Err(trouble) => {
            talk.trouble(&trouble);
            return Ok(());
        }
    };
    for it in sentences(&talk.wording, path, &marked) {
        talk.notice(&it);
    }
    let story = Story::of(&marked.attempt, &marked.sheet, marked.whole.opened.times());
    let page = page(&talk.wording, &marked, &story);
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

/// An attempt marked.
pub(super) struct Marked {
    pub whole: Whole,
    pub attempt: Attempt,
    pub sheet: Sheet,
    /// Its exercise beside the scenarios at hand.
    pub at_hand: AtHand,
    /// What is to be told of its file.
    pub notices: Vec<Notice>,
}

/// What is said of an attempt.
struct Answer {
    notices: Vec<String>,
    sheet: Result<io::Result<String>, Trouble>,
}

/// What one core keeps while it marks many: what the last one's exercise cost to read and to compare is not spent again on the same.
struct Bench {
    wording: Wording,
    known: Known,
    last: Option<(Arc<Exercise>, AtHand)>,
}

impl Bench {
    fn new() -> Self {
        Self { wording: Wording::british(), known: Known::default(), last: None }
    }

    fn mark(&mut self, path: &Path, templates: &[Template<'_>], unfinished: bool) -> Result<Marked, Trouble> {
        let (whole, attempt) = replay(path, read_attempt_again(path, &mut self.known, templates))?;
        let shown = shown(path, &whole, &attempt, unfinished)?;
        let exercise = &whole.opened.exercise;
        let at_hand = match &self.last {
            Some((it, at_hand)) if Arc::ptr_eq(it, exercise) => *at_hand,
            _ if self.known.is_drawn() => AtHand::Same,
            _ => AtHand::of(exercise, templates),
        };
        self.last = Some((Arc::clone(exercise), at_hand));
        let sheet = mark(&attempt, whole.opened.header.mode);
        let notices = notices(&whole.opened, at_hand, shown);
        Ok(Marked { whole, attempt, sheet, at_hand, notices })
    }

    /// Marks one and says all of it, so that nothing else of it need be kept.
    fn answer(&mut self, path: &Path, templates: &[Template<'_>], args: &Args) -> Answer {
        let marked = match self.mark(path, templates, args.unfinished) {
            Ok(it) => it,
            Err(trouble) => return Answer { notices: Vec::new(), sheet: Err(trouble) },
        };
        let (whole, attempt, sheet) = (&marked.whole, &marked.attempt, &marked.sheet);
        let times = whole.opened.times();
        let said = if args.json {
            let name = path.display().to_string();
            let story = Story::moments(attempt, sheet, times);
            serde_json::to_string(&SheetJson::of(&name, &marked, &story)).map_err(io::Error::other)
        } else {
            let story = Story::of(attempt, sheet, times);
            let (learner, receipt) = (whole.opened.header.learner.as_str(), whole.receipt.as_deref());
            let about = About { learner, receipt, notices: &marked.notices };
            Ok(text(&report(&self.wording, &about, attempt, sheet, &story)))
        };
        Answer { notices: sentences(&self.wording, path, &marked), sheet: Ok(said) }
    }
}

/// Marks the text of an attempt that stands in no file.
pub fn sample(name: &str, it: &str, talk: &mut Talk) -> io::Result<()> {
    let marked = switchdrop::work::open(it).and_then(|opened| {
        let attempt = opened.replay(&Physics)?;
        Ok((mark(&attempt, opened.header.mode), opened, attempt))
    });
    match marked {
        Ok((sheet, opened, attempt)) => {
            let story = Story::of(&attempt, &sheet, opened.times());
            let receipt = opened.handed_in_by().map(|end| sha256(&it.as_bytes()[..end]));
            let about = About { learner: &opened.header.learner, receipt: receipt.as_deref(), notices: &[] };
            let lines = report(&talk.wording, &about, &attempt, &sheet, &story);
            talk.answer(&text(&lines))
        }
        Err(problems) => {
            talk.problems(name, it, 0, &problems);
            Ok(())
        }
    }
}

/// How the answers of an attempt are shown.
fn shown(path: &Path, whole: &Whole, attempt: &Attempt, unfinished: bool) -> Result<Answers, Trouble> {
    match answers(attempt, whole.opened.header.mode, unfinished) {
        Answers::Withheld => Err(Trouble::Withheld(path.to_owned())),
        it => Ok(it),
    }
}

/// An attempt read some way and replayed, to show what would answer it; if it can't be, it has been said why.
pub fn replayed_as(
    path: &Path,
    read: Result<Whole, Trouble>,
    unfinished: bool,
    talk: &mut Talk,
) -> Option<(Whole, Attempt)> {
    let found = replay(path, read).and_then(|(whole, attempt)| {
        let shown = shown(path, &whole, &attempt, unfinished)?;
        Ok((whole, attempt, shown))
    });
    match found {
        Ok((whole, attempt, shown)) => {
            cut_off(path, &whole, talk);
            if shown == Answers::ShownEarly {
                let sentence = talk.wording.say("mark-unfinished", &[("path", &path.display().to_string())]);
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

/// The same of an attempt read for marking.
pub fn replayed(path: &Path, unfinished: bool, talk: &mut Talk) -> Option<(Whole, Attempt)> {
    replayed_as(path, read_attempt(path), unfinished, talk)
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
    if let Some(sentence) = cut_off_sentence(&talk.wording, path, whole) {
        talk.notice(&sentence);
    }
}

fn cut_off_sentence(wording: &Wording, path: &Path, whole: &Whole) -> Option<String> {
    let args = [("path", path.display().to_string()), ("count", whole.cut_off.to_string())];
    let args = args.each_ref().map(|(name, it)| (*name, it.as_str()));
    (whole.cut_off > 0).then(|| wording.say("mark-cut-off", &args))
}

/// Writes one value as JSON on one line.
pub fn answer_json(json: &impl Serialize, talk: &mut Talk) -> io::Result<()> {
    talk.answer(&serde_json::to_string(json).map_err(io::Error::other)?)
}

/// What is said of a file on standard error.
fn sentences(wording: &Wording, path: &Path, marked: &Marked) -> Vec<String> {
    let name = path.display().to_string();
    let told = marked.notices.iter().map(|it| wording.say(&format!("mark-{}", it.word()), &[("path", &name)]));
    cut_off_sentence(wording, path, &marked.whole).into_iter().chain(told).collect()
}

/// The lines of a report, broken where they are too long.
fn text(lines: &[String]) -> String {
    let mut broken = Vec::new();
    for line in lines {
        let indent = " ".repeat(line.len() - line.trim_start().len());
        if line.is_empty() {
            broken.push(String::new());
        }
        for (index, part) in wrapped(line, 96).iter().enumerate() {
            broken.push(format!("{indent}{}{part}", if index > 0 { "  " } else { "" }));
        }
    }
    broken.join("\n")
}
