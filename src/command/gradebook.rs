//! `gradebook`: a learning platform's own table, filled in with what was released.

use std::{io, path::PathBuf};

use switchdrop::{
    exercise::Limits,
    register::{FilledTable, GradebookColumns, NotFilled},
    wording::Wording,
};

use super::{
    output::Output,
    review::{Handed, reviewed},
};
use crate::journal::{begins_with, read_tutors, text, write_new};

/// What some programs write before a table, and look for in it.
const BYTE_ORDER_MARK: &str = "\u{feff}";

#[derive(Debug, clap::Args)]
pub struct Args {
    #[command(flatten)]
    handed: Handed,
    /// The table that the platform gave, as CSV
    #[arg(long, value_name = "FILE")]
    table: PathBuf,
    /// Which of its columns are which: `Gradebook(learner: "ID number", mark: "Week 3", outcome: "Result", date: "Handed in")`; the last
    /// two may be left out. Where names stand for learners, add `learners: {"Robin Hale": 7}`; of several exercises, `exercise: "last-rose"`
    #[arg(long, value_name = "FILE")]
    columns: PathBuf,
    /// The file to write; one that is there stays as it is
    #[arg(short, long, value_name = "FILE")]
    out: PathBuf,
}

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    if !args.handed.names_register("gradebook-needs-register", talk) {
        return Ok(());
    }
    let read = read_tutors(&args.columns, GradebookColumns::read)
        .and_then(|columns| Ok((columns, text(&args.table, Limits::ASSIGNMENT_BYTES)?)));
    let (columns, table) = match read {
        Ok(it) => it,
        Err(trouble) => {
            talk.trouble(&trouble);
            return Ok(());
        }
    };
    let Some((assignment, review)) = reviewed(&args.handed.class(), &[&args.out], talk) else { return Ok(()) };
    match columns.fill(&table, &assignment, &review, &talk.wording) {
        Ok(filled) => write(args, &filled, talk),
        Err(why) => {
            let path = args.table.display().to_string();
            let sentence = why_not(&talk.wording, &path, &why);
            talk.wrong(&sentence);
            Ok(())
        }
    }
}

fn write(args: &Args, filled: &FilledTable, talk: &mut Output) -> io::Result<()> {
    let mark = if begins_with(&args.table, BYTE_ORDER_MARK) { BYTE_ORDER_MARK } else { "" };
    if let Err(trouble) = write_new(&args.out, format!("{mark}{}", filled.text).as_bytes()) {
        talk.trouble(&trouble);
        return Ok(());
    }
    for it in told(&talk.wording, filled) {
        talk.notice(&it);
    }
    let about = [("path", args.out.display().to_string()), ("count", filled.filled.len().to_string())];
    talk.answer(&talk.wording.say("gradebook-written", &about.each_ref().map(|it| (it.0, it.1.as_str()))))
}

/// What is to be looked at.
fn told(
    wording: &Wording,
    FilledTable { refers, left, without_row, strangers, made_safe, .. }: &FilledTable,
) -> Vec<String> {
    let numbers = |key: &str, of: &[u64]| {
        let all = of.iter().map(u64::to_string).collect::<Vec<_>>().join(", ");
        (!of.is_empty()).then(|| wording.say(key, &[("learners", &all)]))
    };
    let counted = |key: &str, of: usize| (of > 0).then(|| wording.say(key, &[("count", &of.to_string())]));
    let all = [
        numbers("gradebook-refers", refers),
        numbers("gradebook-left", left),
        numbers("gradebook-without-row", without_row),
        counted("gradebook-strangers", *strangers),
        counted("gradebook-made-safe", *made_safe),
    ];
    all.into_iter().flatten().collect()
}

fn why_not(wording: &Wording, path: &str, why: &NotFilled) -> String {
    match why {
        NotFilled::Table(it) => {
            let what = wording.say(&format!("csv-{}", it.what.word()), &[]);
            wording.say("gradebook-table", &[("path", path), ("line", &it.line.to_string()), ("what", &what)])
        }
        NotFilled::NoColumn(name, there) => {
            let there = there.join(", ");
            wording.say("gradebook-no-column", &[("path", path), ("name", name), ("there", &there)])
        }
        NotFilled::TwoColumns(name) => wording.say("gradebook-two-columns", &[("path", path), ("name", name)]),
        NotFilled::WhichExercise(all) => wording.say("gradebook-which-exercise", &[("exercises", &all.join(", "))]),
        NotFilled::Twice(learner, line) => {
            let (learner, line) = (learner.to_string(), line.to_string());
            wording.say("gradebook-twice", &[("path", path), ("line", &line), ("learner", &learner)])
        }
    }
}
