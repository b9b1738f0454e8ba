//! `review`: a class's files beside their assignment.

use std::{
    io,
    path::{Path, PathBuf},
};

use serde::Serialize;
use switchdrop::{
    register::{
        Assignment, FINDINGS_TITLE, HelpNeed, REVIEW_TITLE, Review, TABLE_TITLE, WallTime, long_table, review_lines,
        review_page, wide_table,
    },
    wording::Wording,
};

use super::{mark::answer_json, output::Output, set_work::read_assignment};
use crate::{
    desk::{ClassFiles, ClassTrouble, clock_time, review},
    journal::{JournalError, write_own},
};

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
    /// Which outcome of a unit each criterion speaks to, for tables and page: `Outcomes(unit: "Unit 4", criteria: [Meets(criterion:
    /// "earthing", outcome: "4.2")])`
    #[arg(long, value_name = "FILE")]
    outcomes: Option<PathBuf>,
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
    pub assignment: PathBuf,
    /// What was handed in: files, and folders and zips with files in them that end in `.ron`
    #[arg(required = true, value_name = "FOLDER|ZIP|FILE")]
    files: Vec<PathBuf>,
    /// Review as things stand at this time, not now: 2026-11-06T17:00, here, or with an offset from UTC
    #[arg(long, value_name = "TIME", value_parser = clock_time)]
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

impl Handed {
    /// The same for the desk.
    pub fn class(&self) -> ClassFiles {
        ClassFiles {
            assignment: self.assignment.clone(),
            files: self.files.clone(),
            at: self.at.clone(),
            paths: self.paths.clone(),
            #[cfg(feature = "register")]
            register: self.register.clone(),
            #[cfg(not(feature = "register"))]
            register: None,
            outcomes: None,
        }
    }

    /// Whether a register is named; where none is, `key` says what one is wanted for.
    #[cfg(feature = "register")]
    pub fn names_register(&self, key: &str, talk: &mut Output) -> bool {
        if self.register.is_none() {
            let sentence = talk.wording.say(key, &[]);
            talk.wrong(&sentence);
        }
        self.register.is_some()
    }
}

/// How many files are reviewed between two words on how far it is.
const TOLD_EVERY: usize = 500;

/// A class that was reviewed, and from which files.
pub type Class = (ClassFiles, Assignment, Review);

/// Reviews; the class, if it is to be looked at in the window.
pub fn run(args: &Args, talk: &mut Output) -> io::Result<Option<Class>> {
    let written: Vec<_> =
        [&args.csv, &args.csv_findings, &args.page].into_iter().flatten().map(PathBuf::as_path).collect();
    let class = ClassFiles { outcomes: args.outcomes.clone(), ..args.handed.class() };
    let Some((assignment, review)) = reviewed(&class, &written, talk) else { return Ok(None) };
    write(args, &assignment, &review, talk)?;
    if review.has_wrong_input() {
        let sentence = talk.wording.say("review-wrong-input", &[]);
        talk.wrong(&sentence);
    }
    Ok(args.wants_window().then_some((class, assignment, review)))
}

/// Reviews what was handed in, for an answer that goes into files as well; `None`: it has been said why not.
pub fn reviewed(class: &ClassFiles, written: &[&Path], talk: &mut Output) -> Option<(Assignment, Review)> {
    // An assignment that can't be read is said before anything else.
    read_assignment(&class.assignment, talk)?;
    let missing = class.missing().into_iter().chain(no_folder_for(written)).collect::<Vec<_>>();
    if !missing.is_empty() {
        for it in &missing {
            trouble(it, talk);
        }
        let sentence = talk.wording.say("review-nothing-done", &[]);
        talk.notice(&sentence);
        return None;
    }
    let is_at = |done: usize, of: usize| {
        if done.is_multiple_of(TOLD_EVERY) {
            talk.progress("review-progress", &[("done", &done.to_string()), ("of", &of.to_string())]);
        }
    };
    let reviewed = review(class, is_at).map_err(|it| trouble(&it, talk)).ok()?;
    for it in &reviewed.troubles {
        trouble(it, talk);
    }
    if !reviewed.review.passed_over.is_empty() {
        let count = reviewed.review.passed_over.len().to_string();
        let sentence = talk.wording.say("review-passed-over-notice", &[("count", &count)]);
        talk.notice(&sentence);
    }
    Some((reviewed.assignment, reviewed.review))
}

/// Says what went wrong.
pub fn trouble(it: &ClassTrouble, talk: &mut Output) {
    match it {
        ClassTrouble::File(it) => talk.trouble(it),
        #[cfg(feature = "register")]
        ClassTrouble::Register(it) => {
            let sentence = it.say(&talk.wording);
            talk.wrong(&sentence);
        }
    }
}

/// What is not there of the folders that something is to be written to, before any work is done.
fn no_folder_for(written: &[&Path]) -> Vec<ClassTrouble> {
    let missing = written.iter().filter_map(|path| {
        let folder = path.parent().filter(|it| !it.as_os_str().is_empty())?;
        Some(JournalError::Unwritable(path.to_path_buf(), folder.metadata().err()?).into())
    });
    missing.collect()
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
