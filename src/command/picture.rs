//! `picture`: the wiring of an attempt as SVG.

use std::{
    fs,
    path::{Path, PathBuf},
};

use switchdrop::{
    exercise::{Exercise, Location},
    picture::{Covers, Scene, View, of_circuit, of_everything, of_location, svg},
    wording::Wording,
    work::Work,
};

use super::{mark::replayed, output::Output};
use crate::journal::write_own;

#[derive(Debug, clap::Args)]
pub struct Args {
    /// The attempt file
    #[arg(value_name = "ATTEMPT")]
    attempt: PathBuf,
    /// Show set work before its time: not handed in, not yet due, not yet released
    #[arg(long)]
    unfinished: bool,
    /// The SVG to write; one of that name is replaced, anything else is left alone
    #[arg(short, long = "out", value_name = "FILE")]
    out: PathBuf,
    /// One location only, by its id in the scenario
    #[arg(long, value_name = "ID", conflicts_with = "circuit")]
    location: Option<String>,
    /// The circuit diagram of what was wired, with the symbols of IEC 60617
    #[arg(long)]
    circuit: bool,
}

/// A tutor looks at the work: covers are lifted, and no lamp is said to be lit.
const VIEW: View<'_> = View { covers: Covers::Lifted, lit: None, evening: false };

/// How every picture of ours begins, and by which it is known again.
const TITLE: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 ";

pub fn run(args: &Args, talk: &mut Output) {
    if args.out.extension().is_some_and(|it| !it.eq_ignore_ascii_case("svg")) {
        let (path, svg) = (args.out.display().to_string(), args.out.with_extension("svg").display().to_string());
        let sentence = talk.wording.say("picture-not-svg", &[("path", &path), ("svg", &svg)]);
        talk.wrong(&sentence);
        return;
    }
    let Some((whole, attempt)) = replayed(&args.attempt, args.unfinished, talk) else { return };
    // `write_own` would refuse it too, but by saying wrongly that it is no file of ours.
    if same_file(&args.attempt, &args.out) {
        let path = args.out.display().to_string();
        let sentence = talk.wording.say("picture-over-attempt", &[("path", &path)]);
        talk.wrong(&sentence);
        return;
    }
    let work = attempt.work();
    let drawn = if args.circuit {
        Some((of_circuit(work, &talk.wording, None), work.exercise().title.clone()))
    } else {
        scene(work, args.location.as_deref(), talk)
    };
    let Some((scene, title)) = drawn else { return };
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
    let Ok(it) = exercise.location(id) else {
        let sentence = no_such_place(&talk.wording, exercise, id);
        talk.wrong(&sentence);
        return None;
    };
    Some((of_location(work, it, &talk.wording, &VIEW), exercise.locations[it].name.clone()))
}

/// That there is no location of that id, and all those that there are.
pub fn no_such_place(wording: &Wording, exercise: &Exercise, id: &str) -> String {
    wording.say("location-unknown", &[("id", id), ("places", &places(wording, exercise))])
}

/// The ids of the locations, each with its name.
pub fn places(wording: &Wording, exercise: &Exercise) -> String {
    let one = |it: &Location| wording.say("location-named", &[("id", &it.id), ("name", &it.name)]);
    exercise.locations.iter().map(one).collect::<Vec<_>>().join(", ")
}

fn same_file(a: &Path, b: &Path) -> bool {
    matches!((fs::canonicalize(a), fs::canonicalize(b)), (Ok(a), Ok(b)) if a == b)
}
