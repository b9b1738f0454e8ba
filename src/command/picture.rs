//! `picture`: the wiring of an attempt as SVG.

use std::{
    fs,
    path::{Path, PathBuf},
};

use switchdrop::{
    picture::{Covers, Scene, View, of_everything, of_location, svg},
    work::Work,
};

use super::{mark::replayed, output::Output};
use crate::journal::write_own;

#[derive(Debug, clap::Args)]
pub struct Args {
    /// The attempt file
    #[arg(value_name = "ATTEMPT")]
    attempt: PathBuf,
    /// Show set work that is not handed in
    #[arg(long)]
    unfinished: bool,
    /// The SVG to write; one of that name is replaced, anything else is left alone
    #[arg(short, long = "out", value_name = "FILE")]
    out: PathBuf,
    /// One location only, by its id in the scenario
    #[arg(long, value_name = "ID")]
    location: Option<String>,
}

/// A tutor looks at the work: covers are lifted, and no lamp is said to be lit.
const VIEW: View<'_> = View { covers: Covers::Lifted, lit: None, evening: false };

/// How every picture of ours begins, and by which it is known again.
const TITLE: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 ";

pub fn run(args: &Args, talk: &mut Output) {
    let Some((whole, attempt)) = replayed(&args.attempt, args.unfinished, talk) else { return };
    // `write_own` would refuse it too, but by saying wrongly that it is no file of ours.
    if same_file(&args.attempt, &args.out) {
        let path = args.out.display().to_string();
        let sentence = talk.wording.say("picture-over-attempt", &[("path", &path)]);
        talk.wrong(&sentence);
        return;
    }
    let work = attempt.work();
    let Some((scene, title)) = scene(work, args.location.as_deref(), talk) else { return };
    let names = [("learner", whole.opened.header.learner.as_str()), ("place", &work.exercise().place)];
    let description = talk.wording.say("picture-description", &names);
    if let Err(trouble) = write_own(&args.out, TITLE, &svg(&scene, &title, &description)) {
        talk.trouble(&trouble);
    }
}

/// What is drawn, and its title; if there is no such location, it has been said.
fn scene(work: &Work, location: Option<&str>, talk: &mut Output) -> Option<(Scene, String)> {
    let exercise = work.exercise();
    let Some(id) = location else {
        return Some((of_everything(work, &talk.wording, &VIEW), exercise.title.clone()));
    };
    match exercise.location(id) {
        Ok(it) => Some((of_location(work, it, &talk.wording, &VIEW), exercise.locations[it].name.clone())),
        Err(near) => {
            let sentence = talk.wording.say("location-unknown", &[("id", id)]);
            let help = near.map(|it| talk.wording.say("did-you-mean", &[("nearest", &it)]));
            talk.wrong(&[Some(sentence), help].into_iter().flatten().collect::<Vec<_>>().join("; "));
            None
        }
    }
}

fn same_file(a: &Path, b: &Path) -> bool {
    matches!((fs::canonicalize(a), fs::canonicalize(b)), (Ok(a), Ok(b)) if a == b)
}
