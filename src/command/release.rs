//! `release`: shows learners the work that counts, with what people decided about it: a page each. What was released once stays as it was
//! told, whatever marks it would have today, until it is released again with a reason.

use std::{io, path::PathBuf};

use switchdrop::register::{Assignment, ReviewRow, released_told};

use super::{
    output::Output,
    review::{Handed, reviewed, trouble},
};
use crate::{
    desk::{ReleaseTo, Released, release},
    journal::make_folder,
    store::Store,
};

#[derive(Debug, clap::Args)]
pub struct Args {
    #[command(flatten)]
    handed: Handed,
    /// The name of who releases it
    #[arg(long, value_name = "NAME")]
    by: String,
    /// The learner of this number alone; may be given several times
    #[arg(long, value_name = "NUMBER")]
    learner: Vec<u64>,
    /// Write a page for each into this folder
    #[arg(long, value_name = "DIR")]
    pages: PathBuf,
    /// Why what was released before is released again, as it stands now
    #[arg(long, value_name = "TEXT")]
    again: Option<String>,
}

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    let Some(path) = args.handed.register.as_deref() else {
        let sentence = talk.wording.say("release-needs-register", &[]);
        talk.wrong(&sentence);
        return Ok(());
    };
    if let Err(trouble) = make_folder(&args.pages) {
        talk.trouble(&trouble);
        return Ok(());
    }
    let Some((assignment, review)) = reviewed(&args.handed.class(), &[], talk) else { return Ok(()) };
    let mut store = match Store::open(path) {
        Ok(it) => it,
        Err(trouble) => {
            let sentence = trouble.say(&talk.wording);
            talk.wrong(&sentence);
            return Ok(());
        }
    };
    for row in review.rows.into_iter().filter(|it| args.learner.is_empty() || args.learner.contains(&it.learner)) {
        one(args, &assignment, row, &mut store, talk)?;
    }
    Ok(())
}

/// Releases the work of a learner at an exercise, if some of it counts, and says what was done.
fn one(
    args: &Args,
    assignment: &Assignment,
    mut row: ReviewRow,
    store: &mut Store,
    talk: &mut Output,
) -> io::Result<()> {
    let whose = [("learner", row.learner.to_string()), ("exercise", row.exercise.clone())];
    let whose = whose.each_ref().map(|it| (it.0, it.1.as_str()));
    let to = ReleaseTo { by: &args.by, pages: &args.pages, again: args.again.as_deref().unwrap_or_default() };
    match release(assignment, &mut row, store, to, &talk.wording) {
        Ok(Released::Nothing) => {
            let sentence = talk.wording.say("release-nothing", &whose);
            talk.notice(&sentence);
        }
        Ok(Released::ToAgree) => {
            let sentence = talk.wording.say("release-to-agree", &whose);
            talk.wrong(&sentence);
        }
        Ok(Released::Page(page)) => {
            let lines = released_told(&talk.wording, &row);
            talk.answer(&format!("{}: {}", page.display(), lines.join("; ")))?;
        }
        Err(it) => trouble(&it, talk),
    }
    Ok(())
}
