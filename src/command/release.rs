//! `release`: shows learners the work that counts, with what people decided about it: a page each. What was released once stays as it was
//! told, whatever marks it would have today, until it is released again with a reason.

use std::{io, path::PathBuf};

use switchdrop::{
    marking::VERSION,
    register::{Assignment, Decided, MarkGiven, RELEASE_TITLE, Release, ReviewRow, release_page, released_told},
};

use super::{
    kept::now,
    output::Output,
    review::{Handed, reviewed},
};
use crate::{
    journal::{make_folder, write_own},
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
    let Some((assignment, review)) = reviewed(&args.handed, &[], talk)? else { return Ok(()) };
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
    let Some((file, earned)) = row.counting() else {
        let sentence = talk.wording.say("release-nothing", &whose);
        talk.notice(&sentence);
        return Ok(());
    };
    let decided = Decided::of(earned, &file.people.decisions);
    if decided.to_agree {
        let sentence = talk.wording.say("release-to-agree", &whose);
        talk.wrong(&sentence);
        return Ok(());
    }
    let stands = file.people.released().is_some_and(|it| it.given == decided.given);
    let again = args.again.as_deref().unwrap_or_default().trim();
    if file.people.released().is_none() || (!stands && !again.is_empty()) {
        let release = Release {
            by: args.by.clone(),
            at: now(),
            marking: VERSION,
            machine: MarkGiven::of(earned),
            given: decided.given,
            why: again.to_owned(),
        };
        let attempt = file.sha256.clone().unwrap_or_default();
        if let Err(trouble) = store.release(&attempt, &release) {
            let sentence = trouble.say(&talk.wording);
            talk.wrong(&sentence);
            return Ok(());
        }
        if let Some(it) = row.counts.and_then(|it| row.files.get_mut(it)) {
            it.people.releases.push(release);
        }
    }
    let page = args.pages.join(format!("{}_{}_{}.html", assignment.id, row.learner, row.exercise));
    let Some(text) = release_page(&talk.wording, assignment, &row) else { return Ok(()) };
    if let Err(trouble) = write_own(&page, RELEASE_TITLE, &text) {
        talk.trouble(&trouble);
        return Ok(());
    }
    let lines = released_told(&talk.wording, &row);
    talk.answer(&format!("{}: {}", page.display(), lines.join("; ")))
}
