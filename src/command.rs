//! The command line: one file a subcommand.
//!
//! Parses what was asked for, opens files by way of [`crate::journal`], asks the library, and says the answer. Holds no
//! electrical rule and no mark, and knows nothing of the window.

mod assign;
#[cfg(feature = "register")]
mod bundle;
mod check;
#[cfg(feature = "register")]
mod decide;
mod describe;
mod drawing;
#[cfg(feature = "register")]
mod forms;
mod glossary;
#[cfg(feature = "register")]
mod gradebook;
mod list;
mod mark;
mod new;
mod output;
#[cfg(feature = "register")]
mod people;
mod picture;
mod record;
#[cfg(feature = "register")]
mod release;
mod review;
mod set_work;
#[cfg(feature = "register")]
mod statements;
mod states;
mod variant;
#[cfg(feature = "register")]
mod verify;
mod why;

use std::{
    ffi::OsString,
    io::{self, Write},
    path::PathBuf,
    process::ExitCode,
};

use clap::{CommandFactory, FromArgMatches, Parser, Subcommand};
use output::{Output, wrapped};
#[cfg(feature = "workshop")]
use std::sync::Arc;
use switchdrop::{
    marking::VERSION,
    wording::{Wording, cautions, clean},
};

/// A whole attempt, for whoever starts the program with nothing to mark.
const SAMPLE: &str = include_str!("../assets/sample.attempt.ron");

/// Some input was wrong: each said on standard error, the others still answered.
const WRONG: u8 = 1;
/// The command line itself was wrong.
const USAGE: u8 = 2;

/// A practice bench for fixed house lighting: join every conductor, prove it dead, power it on, and be marked on what
/// the wiring really does.
#[derive(Debug, Parser)]
#[command(version, max_term_width = 100)]
struct Cli {
    /// Take exercises from this folder too
    #[arg(long, global = true, value_name = "DIR")]
    exercises: Vec<PathBuf>,
    /// Keep the window's attempts in this folder
    #[cfg(feature = "workshop")]
    #[arg(long, value_name = "DIR")]
    attempts: Option<PathBuf>,
    /// Draw the window's exercises from this number
    #[cfg(feature = "workshop")]
    #[arg(long, value_name = "N")]
    seed: Option<u64>,
    /// Open the window on set work, as this assignment file has it
    #[cfg(feature = "workshop")]
    #[arg(long, value_name = "FILE", conflicts_with = "seed")]
    assignment: Option<PathBuf>,
    #[command(subcommand)]
    command: Option<Request>,
}

/// What is to be done when the command line has been dealt with.
pub enum Ending {
    /// Nothing more.
    Exit(ExitCode),
    /// Open the window.
    #[cfg(feature = "workshop")]
    Window {
        /// Where attempts are kept.
        attempts: PathBuf,
        /// Folders with more exercises.
        exercises: Vec<PathBuf>,
        /// The number exercises are drawn from.
        seed: Option<u64>,
        /// The set work that it is opened on.
        assignment: Option<Arc<switchdrop::register::Assignment>>,
        /// The class, reviewed, that a tutor looks at.
        class: Option<Arc<review::Class>>,
    },
}

#[derive(Debug, Subcommand)]
enum Request {
    /// List the exercises
    List,
    /// Print every word that a scenario may be written with: entries, accessories with their terminals, stages, what may vary
    Describe,
    /// Write a scenario to change, made from an exercise, with a comment at each part
    New(new::Args),
    /// Say everything that is wrong with scenarios, with line and column
    Check(check::Args),
    /// Write down the exercise that a seed gives
    Variant(variant::Args),
    /// Mark attempts
    Mark(mark::Args),
    /// Say what every lamp does in every combination of switch positions
    States(states::Args),
    /// Try every way of joining some cores between the switches of a light, and say why three are needed
    Why(why::Args),
    /// Say what a word of the trade means: to a householder, to a learner, to a tutor
    Glossary(glossary::Args),
    /// Draw the wiring as SVG
    Picture(picture::Args),
    /// Set work: write an assignment file, say what a learner gets by it, make up a learner's code
    Assign(Box<assign::Args>),
    /// Review a class: what was handed in beside the assignment, and what the class gets wrong
    Review(review::Args),
    /// Decide about a hand-in that a review kept, beside the machine's mark; or say what stands and how it came about
    #[cfg(feature = "register")]
    Decide(decide::Args),
    /// Release what counts to its learners, a page each
    #[cfg(feature = "register")]
    Release(release::Args),
    /// Write a form for signing for each piece of work that counts, all on one page
    #[cfg(feature = "register")]
    Forms(forms::Args),
    /// Fill in the table that a learning platform gave with what was released
    #[cfg(feature = "register")]
    Gradebook(gradebook::Args),
    /// Print what was released as xAPI statements, one a line
    #[cfg(feature = "register")]
    Statements(statements::Args),
    /// Write pieces of work for a moderator, each with all that its mark follows from, into one file
    #[cfg(feature = "register")]
    Bundle(bundle::Args),
    /// Mark each attempt of a bundle again and compare, byte for byte
    #[cfg(feature = "register")]
    Verify(verify::Args),
    /// Write out all that is kept of a learner, or erase it, or that of a group when its years are over
    #[cfg(feature = "register")]
    People(people::Args),
    /// Do the actions on standard input, one a line, and keep them in an attempt file
    Record(record::Args),
}

/// Does what the command line asks.
pub fn run(args: impl IntoIterator<Item = OsString>) -> Ending {
    let cli = match parse(args) {
        Ok(cli) => cli,
        Err(err) => {
            // Help asked for goes to standard output, a mistake to standard error; a closed stream is nobody's mistake.
            if !err.use_stderr() {
                let _ = err.print();
                return Ending::Exit(ExitCode::SUCCESS);
            }
            // It repeats what was typed, which may be anything: cleaned, and so without colours.
            let _ = io::stderr().write_all(clean(&err.render().to_string()).as_bytes());
            return Ending::Exit(ExitCode::from(USAGE));
        }
    };
    #[cfg(feature = "workshop")]
    if cli.command.is_none() {
        let attempts = cli.attempts.unwrap_or_else(crate::journal::attempts_folder);
        let mut talk = Output::new();
        let assignment = match &cli.assignment {
            None => None,
            Some(path) => match set_work::read_assignment(path, &mut talk) {
                None => return Ending::Exit(ExitCode::from(WRONG)),
                it => it.map(Arc::new),
            },
        };
        return Ending::Window { attempts, exercises: cli.exercises, seed: cli.seed, assignment, class: None };
    }
    let mut talk = Output::new();
    let done = answer(&cli, &mut talk);
    let code = code(&done, &mut talk);
    #[cfg(feature = "workshop")]
    if let Ok(Some(reviewed)) = done {
        return Ending::Window {
            attempts: crate::journal::attempts_folder(),
            exercises: cli.exercises,
            seed: None,
            assignment: None,
            class: Some(Arc::new(reviewed)),
        };
    }
    Ending::Exit(code)
}

fn code<T>(done: &io::Result<T>, talk: &mut Output) -> ExitCode {
    let closed_early = |err: &io::Error| err.kind() == io::ErrorKind::BrokenPipe;
    match done {
        Err(err) if !closed_early(err) => talk.wrong(&err.to_string()),
        // Whoever reads the answers has had enough.
        _ => {}
    }
    ExitCode::from(if talk.was_wrong() { WRONG } else { 0 })
}

/// Says why there is no window, and marks the sample instead.
#[cfg(feature = "workshop")]
pub fn sample(key: &str, why: &str) -> ExitCode {
    let mut talk = Output::new();
    let sentence = talk.wording.say(key, &[("why", why)]);
    let done =
        talk.answer(&format!("{sentence}\n")).and_then(|()| mark::sample("sample.attempt.ron", SAMPLE, &mut talk));
    code(&done, &mut talk)
}

/// Says that the window broke down while it was open.
#[cfg(feature = "workshop")]
pub fn broke_down(why: &str) -> ExitCode {
    let mut talk = Output::new();
    let sentence = talk.wording.say("window-broke-down", &[("why", why)]);
    talk.wrong(&sentence);
    ExitCode::from(WRONG)
}

/// Answers what was asked for; the class that is to be looked at in the window, if that was asked for.
fn answer(cli: &Cli, talk: &mut Output) -> io::Result<Option<review::Class>> {
    let done = match &cli.command {
        None => no_window(talk),
        Some(Request::List) => list::run(&cli.exercises, talk),
        Some(Request::Describe) => describe::run(talk),
        Some(Request::New(args)) => new::run(args, &cli.exercises, talk),
        Some(Request::Check(args)) => check::run(args, talk),
        Some(Request::Variant(args)) => variant::run(args, &cli.exercises, talk),
        Some(Request::Mark(args)) => mark::run(args, &cli.exercises, talk),
        Some(Request::States(args)) => states::run(args, talk),
        Some(Request::Why(args)) => why::run(args, talk),
        Some(Request::Glossary(args)) => glossary::run(args, talk),
        Some(Request::Picture(args)) => {
            picture::run(args, talk);
            Ok(())
        }
        Some(Request::Assign(args)) => assign::run(args, &cli.exercises, talk),
        Some(Request::Review(args)) => return review::run(args, talk),
        #[cfg(feature = "register")]
        Some(Request::Decide(args)) => decide::run(args, talk),
        #[cfg(feature = "register")]
        Some(Request::Release(args)) => release::run(args, talk),
        #[cfg(feature = "register")]
        Some(Request::Forms(args)) => forms::run(args, talk),
        #[cfg(feature = "register")]
        Some(Request::Gradebook(args)) => gradebook::run(args, talk),
        #[cfg(feature = "register")]
        Some(Request::Statements(args)) => statements::run(args, talk),
        #[cfg(feature = "register")]
        Some(Request::Bundle(args)) => bundle::run(args, talk),
        #[cfg(feature = "register")]
        Some(Request::Verify(args)) => verify::run(args, talk),
        #[cfg(feature = "register")]
        Some(Request::People(args)) => people::run(args, talk),
        Some(Request::Record(args)) => record::run(args, &cli.exercises, VERSION, talk),
    };
    done.map(|()| None)
}

/// This build has no window: says so, and marks the sample.
fn no_window(talk: &mut Output) -> io::Result<()> {
    let sentence = talk.wording.say("window-not-yet", &[]);
    talk.answer(&format!("{sentence}\n"))?;
    mark::sample("sample.attempt.ron", SAMPLE, talk)
}

fn parse(args: impl IntoIterator<Item = OsString>) -> Result<Cli, clap::Error> {
    let command = Cli::command().after_long_help(footer(&Wording::british()));
    Cli::from_arg_matches(&command.try_get_matches_from(args)?)
}

/// The cautions, numbered.
fn footer(wording: &Wording) -> String {
    let mut lines = vec![wording.say("cautions-heading", &[])];
    let each = cautions(wording).into_iter().zip(1..);
    lines.extend(each.map(|(caution, number)| wrapped(&caution, &format!("{:<4}", format!("{number}.")), "    ")));
    lines.join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_command_line_is_sound() {
        Cli::command().debug_assert();
    }
}
