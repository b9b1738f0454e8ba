//! `review`: a class's files beside their assignment.

use std::{
    io,
    path::{Path, PathBuf},
};

use jiff::Timestamp;
use serde::Serialize;
use switchdrop::{
    attempt::sha256,
    exercise::{ProblemCode, Template},
    register::{
        Assignment, FINDINGS_TITLE, HandIn, HelpNeed, PassedOver, REVIEW_TITLE, Review, TABLE_TITLE, WallTime,
        long_table, review_lines, review_page, wide_table,
    },
    wording::Wording,
};

use super::{
    assign::time,
    in_turn::in_turn,
    kept::{Kept, Register, to_keep},
    mark::{Bench, answer_json},
    output::Output,
    set_work::read_assignment,
};
use crate::journal::{HandInFile, HandInFiles, JournalError, Reach, read_paths, write_own};
#[cfg(feature = "register")]
use crate::store::Store;

#[derive(Debug, clap::Args)]
pub struct Args {
    #[command(flatten)]
    handed: Handed,
    /// One JSON object instead of words
    #[arg(long)]
    json: bool,
    /// Write a table too, a learner a row
    #[arg(long, value_name = "FILE")]
    csv: Option<PathBuf>,
    /// Write a table of findings too, a finding a row
    #[arg(long, value_name = "FILE")]
    csv_findings: Option<PathBuf>,
    /// Write an HTML page too
    #[arg(long, value_name = "FILE")]
    page: Option<PathBuf>,
    /// Look at it in the window, where a line leads to its mark sheet
    #[cfg(feature = "workshop")]
    #[arg(long, conflicts_with = "json")]
    window: bool,
}

impl Args {
    #[cfg_attr(not(feature = "workshop"), expect(clippy::unused_self, reason = "without a window nobody asks for one"))]
    const fn wants_window(&self) -> bool {
        #[cfg(feature = "workshop")]
        return self.window;
        #[cfg(not(feature = "workshop"))]
        false
    }
}

/// What is reviewed.
#[derive(Debug, clap::Args)]
pub struct Handed {
    /// The assignment file
    assignment: PathBuf,
    /// What was handed in: files, and folders and zips with files in them that end in `.ron`
    #[arg(required = true, value_name = "FOLDER|ZIP|FILE")]
    files: Vec<PathBuf>,
    /// Review as things stand at this time, not now: 2026-11-06T17:00, here, or with an offset from UTC
    #[arg(long, value_name = "TIME", value_parser = time)]
    at: Option<WallTime>,
    /// Which part of a path is the learner, where a platform's download has a folder for each: `Paths(part: "{learner}_*_file",
    /// learners: {"Robin Hale": 7})`
    #[arg(long, value_name = "FILE")]
    paths: Option<PathBuf>,
    /// Keep what is marked in this register, so that the next review marks only what is new: a file on your own disk, not on a share
    #[cfg(feature = "register")]
    #[arg(long, value_name = "FILE")]
    pub register: Option<PathBuf>,
}

/// How many files are reviewed between two words on how far it is.
const TOLD_EVERY: usize = 500;

/// Hand-ins that go into the register at once: a review that is stopped loses no more than that.
const KEPT_AT_ONCE: usize = 50;

/// Reviews; the class, if it is to be looked at in the window.
pub fn run(args: &Args, talk: &mut Output) -> io::Result<Option<(Assignment, Review)>> {
    let written: Vec<_> =
        [&args.csv, &args.csv_findings, &args.page].into_iter().flatten().map(PathBuf::as_path).collect();
    let Some((assignment, review)) = reviewed(&args.handed, &written, talk)? else { return Ok(None) };
    write(args, &assignment, &review, talk)?;
    if review.has_wrong_input() {
        let sentence = talk.wording.say("review-wrong-input", &[]);
        talk.wrong(&sentence);
    }
    Ok(args.wants_window().then_some((assignment, review)))
}

/// Reviews what was handed in, for an answer that goes into files as well; `None`: it has been said why not.
pub fn reviewed(args: &Handed, written: &[&Path], talk: &mut Output) -> io::Result<Option<(Assignment, Review)>> {
    let Some(assignment) = read_assignment(&args.assignment, talk) else { return Ok(None) };
    if something_is_missing(&args.files, written, talk) {
        let sentence = talk.wording.say("review-nothing-done", &[]);
        talk.notice(&sentence);
        return Ok(None);
    }
    let mapping = match args.paths.as_deref().map(read_paths).transpose() {
        Ok(it) => it,
        Err(trouble) => {
            talk.trouble(&trouble);
            return Ok(None);
        }
    };
    let mapping = mapping.as_ref();
    let found = HandInFiles::gather(&args.files, &args.assignment, Reach::USUAL);
    for it in &found.troubles {
        talk.trouble(it);
    }
    if !found.passed_over.is_empty() {
        let count = found.passed_over.len().to_string();
        let sentence = talk.wording.say("review-passed-over-notice", &[("count", &count)]);
        talk.notice(&sentence);
    }
    let files = found.files;
    let templates = assignment.templates();
    let mut all = Vec::with_capacity(files.len());
    let Ok(register) = opened(args, &assignment, talk) else { return Ok(None) };
    let register = register.as_ref();
    let job = |bench: &mut (Bench, Wording), file: &HandInFile| {
        let (it, to_keep) = looked_at(bench, file, &assignment, &templates, register);
        (it.at(&assignment, mapping, &file.path().display().to_string()), to_keep)
    };
    let mut waiting = Vec::new();
    in_turn(
        &files,
        || (Bench::new(), Wording::british()),
        job,
        |_, (it, to_keep)| {
            all.push(it);
            waiting.extend(to_keep);
            if waiting.len() == KEPT_AT_ONCE {
                keep(register, &mut waiting, talk);
            }
            if all.len().is_multiple_of(TOLD_EVERY) {
                let (done, of) = (all.len().to_string(), files.len().to_string());
                talk.progress("review-progress", &[("done", &done), ("of", &of)]);
            }
            Ok(())
        },
    )?;
    keep(register, &mut waiting, talk);
    with_people(register, &mut all, talk);
    let passed_over = found.passed_over.iter();
    let passed_over = passed_over.map(|it| PassedOver::of(&assignment, mapping, &it.display().to_string())).collect();
    let now = args.at.as_ref().map_or_else(Timestamp::now, WallTime::at);
    let review = Review::of(&assignment, all, passed_over, now);
    Ok(Some((assignment, review)))
}

/// Says what is not there of what was named, and of the folders that something is to be written to, before any work is done.
fn something_is_missing(named: &[PathBuf], written: &[&Path], talk: &mut Output) -> bool {
    let mut missing = false;
    for path in named {
        if let Err(cause) = path.metadata() {
            talk.trouble(&JournalError::Unreadable(path.clone(), cause));
            missing = true;
        }
    }
    for path in written {
        let folder = path.parent().filter(|it| !it.as_os_str().is_empty());
        if let Some(Err(cause)) = folder.map(Path::metadata) {
            talk.trouble(&JournalError::Unwritable(path.to_path_buf(), cause));
            missing = true;
        }
    }
    missing
}

/// The register that was asked for, if one was; an error: why it can't be opened has been said.
#[cfg(feature = "register")]
fn opened(args: &Handed, assignment: &Assignment, talk: &mut Output) -> Result<Option<Register>, ()> {
    let opened = args.register.as_deref().map(Store::open).transpose();
    let said = opened.map_err(|trouble| {
        let sentence = trouble.say(&talk.wording);
        talk.wrong(&sentence);
    });
    Ok(said?.map(|it| Register::of(it, &assignment.sha256)))
}

#[cfg(not(feature = "register"))]
#[expect(clippy::unnecessary_wraps, reason = "with a register it may fail")]
fn opened(_: &Handed, _: &Assignment, _: &mut Output) -> Result<Option<Register>, ()> {
    Ok(None)
}

/// Keeps what waits for it. What can't be kept is marked again the next time, and said.
#[cfg(feature = "register")]
fn keep(register: Option<&Register>, waiting: &mut Vec<Kept>, talk: &mut Output) {
    if let Some(Err(trouble)) = register.map(|it| it.keep(waiting)) {
        let sentence = trouble.say(&talk.wording);
        talk.wrong(&sentence);
    }
    waiting.clear();
}

#[cfg(not(feature = "register"))]
fn keep(_: Option<&Register>, waiting: &mut Vec<Kept>, _: &mut Output) {
    waiting.clear();
}

/// Puts beside each hand-in what people did with it.
#[cfg(feature = "register")]
fn with_people(register: Option<&Register>, all: &mut [HandIn], talk: &mut Output) {
    if let Some(Err(trouble)) = register.map(|it| it.with_people(all)) {
        let sentence = trouble.say(&talk.wording);
        talk.wrong(&sentence);
    }
}

#[cfg(not(feature = "register"))]
fn with_people(_: Option<&Register>, _: &mut [HandIn], _: &mut Output) {}

/// A file beside the assignment: what it earned, or why nothing can be said of it; and what is to be kept of it.
fn looked_at(
    (bench, wording): &mut (Bench, Wording),
    file: &HandInFile,
    assignment: &Assignment,
    templates: &[Template<'_>],
    register: Option<&Register>,
) -> (HandIn, Option<Kept>) {
    let bytes = match file.bytes() {
        Ok(it) => it,
        Err(trouble) => return (unusable(assignment, &trouble, wording), None),
    };
    if let Some(kept) = register.and_then(|it| it.found(&sha256(&bytes))) {
        return (kept, None);
    }
    match bench.mark_bytes(file.path(), bytes, templates, true) {
        Ok((marked, cut_off)) => {
            let it = HandIn::of(assignment, &marked, cut_off, wording);
            let to_keep = register.and_then(|_| to_keep(&it));
            (it, to_keep)
        }
        Err(trouble) => (unusable(assignment, &trouble, wording), None),
    }
}

/// A file that can't be marked, and why.
fn unusable(assignment: &Assignment, trouble: &JournalError, wording: &Wording) -> HandIn {
    let JournalError::Wrong { text, problems, .. } = trouble else {
        return HandIn::unusable(assignment, None, false, None, trouble.say(wording));
    };
    let first = problems.first();
    let changed = first.is_some_and(|it| {
        use ProblemCode::{Digest, NoSum, OtherScenario, OtherSum};
        matches!(it.code, NoSum | OtherSum | Digest | OtherScenario)
    });
    let line = first.map(|it| it.position(text).0);
    HandIn::unusable(assignment, text.lines().next(), changed, line, trouble.say(wording))
}

/// What `--json` writes: the assignment, what this is a record of, and the review.
#[derive(Serialize)]
struct Written<'a> {
    format: u32,
    assignment: &'a str,
    title: &'a str,
    group: &'a str,
    sha256: &'a str,
    record: &'a str,
    #[serde(flatten)]
    review: &'a Review,
    help_first: Vec<Help<'a>>,
}

/// A learner who needs help, and each piece of work at which they do.
#[derive(Serialize)]
struct Help<'a> {
    learner: u64,
    need: HelpNeed,
    work: Vec<(&'a str, HelpNeed)>,
}

/// Version of that form.
const FORMAT: u32 = 2;

fn write(args: &Args, assignment: &Assignment, review: &Review, talk: &mut Output) -> io::Result<()> {
    let record = talk.wording.say("report-practice-record", &[]);
    if args.json {
        let help = review.help_first().into_iter().map(|it| Help {
            learner: it.learner,
            need: it.need,
            work: it.work.iter().map(|(row, need)| (row.exercise.as_str(), *need)).collect(),
        });
        let written = Written {
            format: FORMAT,
            assignment: &assignment.id,
            title: &assignment.title,
            group: &assignment.group,
            sha256: &assignment.sha256,
            record: &record,
            review,
            help_first: help.collect(),
        };
        answer_json(&written, talk)?;
    } else if !args.wants_window() {
        talk.answer(&review_lines(&talk.wording, assignment, review).join("\n"))?;
    }
    write_over(args.csv.as_deref(), TABLE_TITLE, || wide_table(assignment, review, &record), talk);
    write_over(args.csv_findings.as_deref(), FINDINGS_TITLE, || long_table(assignment, review, &record), talk);
    write_over(args.page.as_deref(), REVIEW_TITLE, || review_page(&Wording::british(), assignment, review), talk);
    Ok(())
}

/// Writes a file that was asked for, over one of its own kind or over none.
fn write_over(path: Option<&Path>, title: &str, text: impl FnOnce() -> String, talk: &mut Output) {
    let Some(path) = path else { return };
    match write_own(path, title, &text()) {
        Ok(()) => {
            let sentence = talk.wording.say("review-written", &[("path", &path.display().to_string())]);
            talk.notice(&sentence);
        }
        Err(trouble) => talk.trouble(&trouble),
    }
}
