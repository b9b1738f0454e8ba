//! `mark`: the mark sheets of attempts.

use std::{
    io,
    path::{Path, PathBuf},
};

use jiff::Timestamp;
use serde::Serialize;
use switchdrop::{
    attempt::Attempt,
    exercise::Template,
    marking::early,
    register::CriterionMap,
    report::{Marked, TITLE, schema},
    wording::Wording,
};

use super::output::{Output, wrapped};
use crate::{
    desk::{Bench, in_turn, replay, shown},
    journal::{JournalError, ScenarioLibrary, Whole, read_attempt, read_tutors, write_own},
};

#[derive(Debug, clap::Args)]
#[expect(clippy::struct_excessive_bools, reason = "each is a flag")]
pub struct Args {
    /// Attempt files
    #[arg(required_unless_present = "schema", value_name = "ATTEMPT")]
    attempts: Vec<PathBuf>,
    /// One JSON object an attempt, one a line
    #[arg(long)]
    json: bool,
    /// One line an attempt: learner, exercise, outcome, marks, the first cause, file
    #[arg(long, conflicts_with_all = ["json", "html"])]
    brief: bool,
    /// Write the sheet of one attempt as an HTML page, to be printed on A4
    #[arg(long, value_name = "FILE", conflicts_with = "json")]
    html: Option<PathBuf>,
    /// Write the sheet of one attempt as a form of one HTML page, to be signed on paper
    #[arg(long, value_name = "FILE", conflicts_with_all = ["json", "brief", "html"])]
    form: Option<PathBuf>,
    /// Which outcome of a unit each criterion speaks to, for the form
    #[arg(long, value_name = "FILE", requires = "form")]
    outcomes: Option<PathBuf>,
    /// Show set work before its time: not handed in, not yet due, not yet released
    #[arg(long)]
    unfinished: bool,
    /// The JSON Schema (draft 7) of what `--json` writes, and nothing else
    #[arg(long, conflicts_with_all = ["json", "html", "form", "brief", "attempts", "unfinished"])]
    schema: bool,
}

pub fn run(args: &Args, folders: &[PathBuf], talk: &mut Output) -> io::Result<()> {
    if args.schema {
        return talk.answer(&serde_json::to_string_pretty(&schema()).map_err(io::Error::other)?);
    }
    let library = ScenarioLibrary::gather(folders);
    let templates = library.templates();
    if let Some(path) = &args.html {
        return write_page(args, (path, "mark-page-written"), Marked::page, &templates, talk);
    }
    if let Some(path) = &args.form {
        let map = args.outcomes.as_deref().map(|it| read_tutors(it, CriterionMap::read)).transpose();
        let filled = match map {
            Ok(it) => it.map(|it| it.filled_in()).unwrap_or_default(),
            Err(trouble) => {
                talk.trouble(&trouble);
                return Ok(());
            }
        };
        return write_page(
            args,
            (path, "mark-form-written"),
            |it, wording| it.form(wording, &filled),
            &templates,
            talk,
        );
    }
    if args.brief {
        return list(&args.attempts, &templates, args.unfinished, talk);
    }
    let mut later = false;
    let job = |bench: &mut Bench, path: &PathBuf| answer(bench, path, &templates, args);
    in_turn(&args.attempts, Bench::new, job, |_, answer| {
        for it in &answer.notices {
            talk.notice(it);
        }
        match answer.sheet {
            Err(trouble) => talk.trouble(&trouble),
            Ok(sheet) => {
                // A blank line parts sheets in words; JSON must stay one object a line.
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

/// A line for each attempt that can be marked, in columns, after what is said of the files.
fn list(attempts: &[PathBuf], templates: &[Template<'_>], unfinished: bool, talk: &mut Output) -> io::Result<()> {
    let job = |bench: &mut Bench, path: &PathBuf| {
        let (marked, cut_off) = bench.mark(path, templates, unfinished)?;
        Ok((sentences(&bench.wording, path, &marked, cut_off), marked.brief(&bench.wording)))
    };
    let mut rows = Vec::new();
    in_turn(attempts, Bench::new, job, |path, answer| {
        match answer {
            Err(trouble) => talk.trouble(&trouble),
            Ok((notices, row)) => {
                for it in &notices {
                    talk.notice(it);
                }
                rows.push((row, path.display().to_string()));
            }
        }
        Ok(())
    })?;
    let width = |column: usize| rows.iter().map(|it| it.0[column].chars().count()).max().unwrap_or(0);
    let widths: [usize; 5] = std::array::from_fn(width);
    rows.iter().try_for_each(|(row, path)| {
        let cells: Vec<_> = row.iter().zip(widths).map(|(it, width)| format!("{it:width$}")).collect();
        talk.answer(&format!("{}  {path}", cells.join("  ")))
    })
}

/// Writes a page of one attempt.
fn write_page(
    args: &Args,
    (out, written): (&Path, &str),
    page: impl Fn(&Marked, &Wording) -> String,
    templates: &[Template<'_>],
    talk: &mut Output,
) -> io::Result<()> {
    let [path] = args.attempts.as_slice() else {
        let sentence = talk.wording.say("mark-page-of-one", &[]);
        talk.wrong(&sentence);
        return Ok(());
    };
    let (marked, cut_off) = match Bench::new().mark(path, templates, args.unfinished) {
        Ok(it) => it,
        Err(trouble) => {
            talk.trouble(&trouble);
            return Ok(());
        }
    };
    for it in sentences(&talk.wording, path, &marked, cut_off) {
        talk.notice(&it);
    }
    match write_own(out, TITLE, &page(&marked, &talk.wording)) {
        Ok(()) => {
            let sentence = talk.wording.say(written, &[("path", &out.display().to_string())]);
            talk.answer(&sentence)
        }
        Err(trouble) => {
            talk.trouble(&trouble);
            Ok(())
        }
    }
}

/// What is said of an attempt.
struct Answer {
    notices: Vec<String>,
    sheet: Result<io::Result<String>, JournalError>,
}

/// Marks one and says all of it, so that nothing else of it need be kept.
fn answer(bench: &mut Bench, path: &Path, templates: &[Template<'_>], args: &Args) -> Answer {
    let (marked, cut_off) = match bench.mark(path, templates, args.unfinished) {
        Ok(it) => it,
        Err(trouble) => return Answer { notices: Vec::new(), sheet: Err(trouble) },
    };
    let sheet = if args.json {
        marked.json(&path.display().to_string()).map_err(io::Error::other)
    } else {
        Ok(text(&marked.lines(&bench.wording)))
    };
    Answer { notices: sentences(&bench.wording, path, &marked, cut_off), sheet: Ok(sheet) }
}

/// Marks the text of an attempt that stands in no file.
pub fn sample(name: &str, it: &str, talk: &mut Output) -> io::Result<()> {
    match Marked::of(it, &ScenarioLibrary::gather(&[]).templates()) {
        Ok(marked) => talk.answer(&text(&marked.lines(&talk.wording))),
        Err(problems) => {
            talk.problems(name, it, 0, &problems);
            Ok(())
        }
    }
}

/// An attempt read some way and replayed, to show what would answer it; if it can't be, it has been said why.
pub fn replayed_as(
    path: &Path,
    read: Result<Whole, JournalError>,
    unfinished: bool,
    talk: &mut Output,
) -> Option<(Whole, Attempt)> {
    let found = replay(path, read).and_then(|(whole, attempt)| {
        let shown = shown(path, &whole, &attempt, Some(Timestamp::now()), unfinished)?;
        Ok((whole, attempt, shown))
    });
    match found {
        Ok((whole, attempt, shown)) => {
            cut_off(path, whole.cut_off, talk);
            if let Some(it) = early(&shown) {
                let key = format!("mark-{}", it.word());
                let sentence = talk.wording.say(&key, &[("path", &path.display().to_string())]);
                talk.notice(&sentence);
            }
            // What the learner named is called what it is once it is handed in; before that as they call it.
            let attempt = if attempt.tally().handed_in { attempt.with_names_told() } else { attempt };
            Some((whole, attempt))
        }
        Err(trouble) => {
            talk.trouble(&trouble);
            None
        }
    }
}

/// The same of an attempt read for marking.
pub fn replayed(path: &Path, unfinished: bool, talk: &mut Output) -> Option<(Whole, Attempt)> {
    replayed_as(path, read_attempt(path), unfinished, talk)
}

/// Says that an unfinished last line does not count.
fn cut_off(path: &Path, bytes: usize, talk: &mut Output) {
    if let Some(sentence) = cut_off_sentence(&talk.wording, path, bytes) {
        talk.notice(&sentence);
    }
}

fn cut_off_sentence(wording: &Wording, path: &Path, bytes: usize) -> Option<String> {
    let args = [("path", path.display().to_string()), ("count", bytes.to_string())];
    let args = args.each_ref().map(|(name, it)| (*name, it.as_str()));
    (bytes > 0).then(|| wording.say("mark-cut-off", &args))
}

/// Writes one value as JSON on one line.
pub fn answer_json(json: &impl Serialize, talk: &mut Output) -> io::Result<()> {
    talk.answer(&serde_json::to_string(json).map_err(io::Error::other)?)
}

/// What is said of a file on standard error.
fn sentences(wording: &Wording, path: &Path, marked: &Marked, cut_off: usize) -> Vec<String> {
    let name = path.display().to_string();
    let told = marked.notices.iter().map(|it| wording.say(&format!("mark-{}", it.word()), &[("path", &name)]));
    cut_off_sentence(wording, path, cut_off).into_iter().chain(told).collect()
}

/// The lines of a report, broken where they are too long.
fn text(lines: &[String]) -> String {
    let broken = lines.iter().map(|line| {
        let prose = line.trim_start();
        let indent = &line[..line.len() - prose.len()];
        wrapped(prose, indent, &format!("{indent}  "))
    });
    broken.collect::<Vec<_>>().join("\n")
}
