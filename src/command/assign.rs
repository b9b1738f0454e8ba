//! `assign`: writes the file of an assignment, says what a learner gets by one, and makes up the code of a learner's adjustment.

use std::{io, path::PathBuf};

use clap::builder::PossibleValuesParser;
use switchdrop::{
    exercise::Exercise,
    marking::VERSION,
    register::{
        Adjustment, AnswersShown, Assignment, Counts, Hints, Learner, SetExercise, WallTime, hand_in_name, terms,
        terms_for,
    },
    wording::Wording,
};

use super::{
    output::Output,
    set_work::{learner, read_assignment, work},
    variant::found,
};
use crate::{
    desk::{NotSet, clock_time, hand_out, numbers, what_is_past},
    journal::{JournalError, ScenarioLibrary},
};

#[derive(Debug, clap::Args)]
pub struct Args {
    /// The assignment file: a new one, or with `--preview` or `--adjust` one that is there
    file: PathBuf,
    /// Say what the learner of this number gets
    #[arg(long, value_name = "NUMBER", conflicts_with_all = MADE)]
    preview: Option<u64>,
    /// The code that the learner was handed
    #[arg(long, value_name = "CODE", requires = "preview")]
    code: Option<String>,
    /// Make up a code for the learner of this number alone
    #[arg(long, value_name = "NUMBER", conflicts_with_all = MADE, conflicts_with = "preview")]
    adjust: Option<u64>,
    /// Minutes of extra time that the code gives
    #[arg(long, value_name = "N", requires = "adjust", default_value_t = 0, value_parser = clap::value_parser!(u32).range(0..=i64::from(Adjustment::MINUTES)))]
    minutes: u32,
    /// Which draw the code gives the exercise from: 0 is that of everybody
    #[arg(long, value_name = "N", requires = "adjust", default_value_t = 0, value_parser = clap::value_parser!(u32).range(0..=i64::from(Adjustment::DRAW)))]
    draw: u32,
    #[command(flatten)]
    set: Set,
}

/// What only a new assignment takes.
const MADE: [&str; 13] = [
    "id",
    "title",
    "group",
    "exercise",
    "learners",
    "opens",
    "due",
    "last",
    "tries",
    "counts",
    "hints",
    "answers",
    "pass_mark",
];

#[derive(Debug, clap::Args)]
struct Set {
    /// Its id: small letters, digits and hyphens. Every learner's exercise follows from it
    #[arg(long, value_name = "ID", required_unless_present_any = ["preview", "adjust"])]
    id: Option<String>,
    /// What learners see it called; the title of the first exercise if it is left out
    #[arg(long, value_name = "TEXT")]
    title: Option<String>,
    /// The group it is set to
    #[arg(long, value_name = "TEXT", required_unless_present_any = ["preview", "adjust"])]
    group: Option<String>,
    /// An exercise, as `list` has it; to be given as often as there are exercises
    #[arg(long, value_name = "ID", required_unless_present_any = ["preview", "adjust"])]
    exercise: Vec<String>,
    /// The roster, numbers and no names: 1-24,30
    #[arg(long, value_name = "NUMBERS", required_unless_present_any = ["preview", "adjust"], value_parser = roster)]
    learners: Option<Roster>,
    /// From when on it may be begun: 2026-11-02T09:00, here, or with an offset from UTC
    #[arg(long, value_name = "TIME", value_parser = clock_time)]
    opens: Option<WallTime>,
    /// When it is due
    #[arg(long, value_name = "TIME", value_parser = clock_time)]
    due: Option<WallTime>,
    /// After which nothing counts
    #[arg(long, value_name = "TIME", value_parser = clock_time)]
    last: Option<WallTime>,
    /// Tries at each exercise
    #[arg(long, value_name = "N", default_value_t = 1)]
    tries: u32,
    /// Which of several tries counts
    #[arg(long, default_value = "best", value_parser = words(Counts::ALL.iter().map(|it| it.word())))]
    counts: String,
    /// Whether hints may be asked for
    #[arg(long, default_value = "without", value_parser = words(Hints::ALL.iter().map(|it| it.word())))]
    hints: String,
    /// When learners are shown marks and findings
    #[arg(long, default_value = "released", value_parser = words(AnswersShown::ALL.iter().map(|it| it.word())))]
    answers: String,
    /// Marks that a pass needs, per cent, instead of what each exercise says
    #[arg(long, value_name = "N")]
    pass_mark: Option<u32>,
}

fn words(all: impl Iterator<Item = &'static str>) -> PossibleValuesParser {
    PossibleValuesParser::new(all)
}

/// Learners' numbers as they were typed.
#[derive(Debug, Clone)]
struct Roster(Vec<u64>);

fn roster(typed: &str) -> Result<Roster, String> {
    numbers(typed).map(Roster)
}

pub fn run(args: &Args, folders: &[PathBuf], talk: &mut Output) -> io::Result<()> {
    match (args.preview, args.adjust) {
        (Some(number), _) => preview(args, number, talk),
        (_, Some(number)) => adjust(args, number, talk),
        _ => write(args, folders, talk),
    }
}

fn write(args: &Args, folders: &[PathBuf], talk: &mut Output) -> io::Result<()> {
    let library = ScenarioLibrary::gather(folders);
    let scenarios: Option<Vec<Exercise>> =
        args.set.exercise.iter().map(|id| found(&library, id, talk).map(|it| it.scenario.clone())).collect();
    let Some(scenarios) = scenarios else { return Ok(()) };
    match hand_out(&args.file, &args.set.assignment(scenarios)) {
        Ok(read) => {
            for it in what_is_past(&read, &talk.wording) {
                talk.notice(&it);
            }
            let lines = [told(&talk.wording, "assign-written", &read, &args.file.display().to_string())];
            talk.answer(&lines.into_iter().chain(terms(&talk.wording, &read)).collect::<Vec<_>>().join("\n"))?;
        }
        Err(NotSet::Wrong(problems)) => talk.problem_sentences(&problems),
        Err(NotSet::File(JournalError::Exists(path))) => {
            let sentence = talk.wording.say("assign-exists", &[("path", &path.display().to_string())]);
            talk.wrong(&sentence);
        }
        Err(NotSet::File(trouble)) => talk.trouble(&trouble),
    }
    Ok(())
}

/// The value of that word, which the command line has checked.
fn called<T: Copy + Default>(all: &[T], word: &str, of: impl Fn(T) -> &'static str) -> T {
    all.iter().copied().find(|it| of(*it) == word).unwrap_or_default()
}

impl Set {
    fn assignment(&self, scenarios: Vec<Exercise>) -> Assignment {
        let title = self.title.clone().or_else(|| scenarios.first().map(|it| it.title.clone()));
        Assignment {
            id: self.id.clone().unwrap_or_default(),
            title: title.unwrap_or_default(),
            group: self.group.clone().unwrap_or_default(),
            opens: self.opens.clone(),
            due: self.due.clone(),
            last: self.last.clone(),
            tries: self.tries,
            counts: called(Counts::ALL, &self.counts, Counts::word),
            hints: called(Hints::ALL, &self.hints, Hints::word),
            answers: called(AnswersShown::ALL, &self.answers, AnswersShown::word),
            pass_mark: self.pass_mark,
            program: env!("CARGO_PKG_VERSION").to_owned(),
            marking: VERSION,
            learners: self.learners.as_ref().map_or_else(Vec::new, |it| it.0.clone()),
            exercises: scenarios.into_iter().map(SetExercise::of).collect(),
            sha256: String::new(),
        }
    }
}

fn preview(args: &Args, number: u64, talk: &mut Output) -> io::Result<()> {
    let Some(assignment) = read_assignment(&args.file, talk) else { return Ok(()) };
    let Some(learner) = learner(&assignment, number, args.code.as_deref(), talk) else { return Ok(()) };
    let Some(work) = work(&learner, talk) else { return Ok(()) };
    let mut lines = vec![told(&talk.wording, "assign-preview", &assignment, &number.to_string())];
    lines.extend(terms_for(&talk.wording, &assignment, learner.adjustment));
    if !learner.code.is_empty() {
        lines.push(adjusted(&talk.wording, &learner));
    }
    for it in &work.exercises {
        let (seed, file) = (it.seed.0.to_string(), hand_in_name(&learner.assigned(1), &it.id));
        let assignment = args.file.display().to_string();
        let args = [
            ("id", it.id.as_str()),
            ("title", &it.title),
            ("place", &it.place),
            ("seed", &seed),
            ("file", &file),
            ("assignment", &assignment),
        ];
        lines.push(talk.wording.say("assign-preview-exercise", &args));
    }
    talk.answer(&lines.join("\n"))
}

fn adjust(args: &Args, number: u64, talk: &mut Output) -> io::Result<()> {
    let Some(assignment) = read_assignment(&args.file, talk) else { return Ok(()) };
    let Some(given) = Adjustment::new(args.minutes, args.draw) else { return Ok(()) };
    let code = given.code(&assignment.id, number);
    let Some(learner) = learner(&assignment, number, Some(&code), talk) else { return Ok(()) };
    let sentence = adjusted(&talk.wording, &learner);
    talk.answer(&sentence)
}

/// A sentence about an assignment and something else.
fn told(wording: &Wording, key: &str, of: &Assignment, about: &str) -> String {
    let (learners, exercises) = (of.learners.len().to_string(), of.exercises.len().to_string());
    let args = [
        ("id", of.id.as_str()),
        ("title", &of.title),
        ("group", &of.group),
        ("learners", &learners),
        ("exercises", &exercises),
        ("about", about),
    ];
    wording.say(key, &args)
}

fn adjusted(wording: &Wording, learner: &Learner<'_>) -> String {
    let (number, minutes) = (learner.number.to_string(), learner.adjustment.minutes().to_string());
    let draw = learner.adjustment.draw().to_string();
    let args = [("code", learner.code.as_str()), ("learner", &number), ("minutes", &minutes), ("draw", &draw)];
    wording.say("assign-code", &args)
}
