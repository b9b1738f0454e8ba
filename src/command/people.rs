//! `people`: what is kept of one learner or of a whole group, written out for them or erased. Nothing is erased before `--for-good`.

use std::{
    io,
    path::{Path, PathBuf},
};

use serde::Serialize;
use switchdrop::register::ReviewRow;

use super::{
    output::Output,
    review::{Handed, reviewed, trouble},
};
use crate::{
    desk::{ToErase, Whose, erase, to_erase},
    journal::{JournalError, write_new},
    store::Store,
};

#[derive(Debug, clap::Args)]
pub struct Args {
    #[command(flatten)]
    handed: Handed,
    /// The learner of this number
    #[arg(long, value_name = "NUMBER", required_unless_present = "everybody")]
    learner: Option<u64>,
    /// Everybody in the assignment
    #[arg(long, conflicts_with_all = ["learner", "export"])]
    everybody: bool,
    /// Write all that is kept of the learner into this file
    #[arg(long, value_name = "FILE", required_unless_present = "erase")]
    export: Option<PathBuf>,
    /// Say what would be erased
    #[arg(long, conflicts_with = "export")]
    erase: bool,
    /// Erase it
    #[arg(long, requires = "erase")]
    for_good: bool,
    /// Erase only what was handed in at least this number of years ago
    #[arg(long, value_name = "N", requires = "erase")]
    years: Option<u32>,
    /// The folder of the pages that were released
    #[arg(long, value_name = "DIR", requires = "erase")]
    pages: Option<PathBuf>,
}

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    let Some(register) = args.handed.register.as_deref() else {
        let sentence = talk.wording.say("bundle-needs-register", &[]);
        talk.wrong(&sentence);
        return Ok(());
    };
    if let Some((out, learner)) = args.export.as_ref().zip(args.learner) {
        return export(args, out, learner, talk);
    }
    if let Err(cause) = register.metadata() {
        talk.trouble(&JournalError::Unreadable(register.to_owned(), cause));
        return Ok(());
    }
    let class = args.handed.class();
    let missing = class.missing();
    for it in &missing {
        trouble(it, talk);
    }
    if !missing.is_empty() {
        return Ok(());
    }
    let whose = Whose { learner: args.learner, years: args.years };
    let found = Store::open(register).map_err(Into::into).and_then(|store| {
        let found = to_erase(&class, &store, whose, args.pages.as_deref())?;
        Ok((found, store))
    });
    match found {
        Ok((found, mut store)) => erased(args, &found, &mut store, talk),
        Err(it) => {
            trouble(&it, talk);
            Ok(())
        }
    }
}

/// Says what was found, and erases it if that is meant.
fn erased(args: &Args, found: &ToErase, store: &mut Store, talk: &mut Output) -> io::Result<()> {
    for it in &found.troubles {
        trouble(it, talk);
    }
    for it in &found.zipped {
        let sentence = talk.wording.say("people-zipped", &[("path", &it.display().to_string())]);
        talk.wrong(&sentence);
    }
    let mut lines: Vec<String> = found.files.iter().chain(&found.pages).map(|it| it.display().to_string()).collect();
    let counts = [
        ("files", found.files.len()),
        ("pages", found.pages.len()),
        ("marked", found.rows.marked),
        ("decisions", found.rows.decisions),
        ("releases", found.rows.releases),
    ];
    let counts = counts.map(|(name, it)| (name, it.to_string()));
    let counts = counts.each_ref().map(|(name, it)| (*name, it.as_str()));
    let troubles = if args.for_good { erase(found, store) } else { Vec::new() };
    for it in &troubles {
        trouble(it, talk);
    }
    lines.push(talk.wording.say(if args.for_good { "people-erased" } else { "people-would-erase" }, &counts));
    lines.push(talk.wording.say("people-elsewhere", &[]));
    talk.answer(&lines.join("\n"))
}

/// What is kept of a learner in an assignment.
#[derive(Serialize)]
struct Kept<'a> {
    assignment: &'a str,
    learner: u64,
    record: String,
    work: Vec<ReviewRow>,
}

fn export(args: &Args, out: &Path, learner: u64, talk: &mut Output) -> io::Result<()> {
    let Some((assignment, review)) = reviewed(&args.handed.class(), &[out], talk) else { return Ok(()) };
    if !assignment.has_learner(learner) {
        let args = [("id", assignment.id.as_str()), ("learner", &learner.to_string())];
        let sentence = talk.wording.say("set-no-such-learner", &args);
        talk.wrong(&sentence);
        return Ok(());
    }
    // What is another's is not written out with it.
    let own = review.rows.into_iter().filter(|it| it.learner == learner);
    let work = own.map(|it| ReviewRow { misnamed: Vec::new(), ..it }).collect();
    let record = talk.wording.say("report-practice-record", &[]);
    let kept = Kept { assignment: &assignment.id, learner, record, work };
    let text = serde_json::to_string_pretty(&kept).map_err(io::Error::other)? + "\n";
    match write_new(out, text.as_bytes()) {
        Ok(()) => {
            let sentence = talk.wording.say("review-written", &[("path", &out.display().to_string())]);
            talk.answer(&sentence)
        }
        Err(it) => {
            talk.trouble(&it);
            Ok(())
        }
    }
}
