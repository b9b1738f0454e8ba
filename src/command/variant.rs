//! `variant`: the exercise that a seed gives.

use std::{
    io,
    path::{Path, PathBuf},
};

use switchdrop::exercise::{Exercise, Seed, draw, nearest, pretty};

use super::{
    output::Output,
    set_work::{no_such_exercise, read_assignment},
};
use crate::journal::{JournalError, ScenarioLibrary, Shelved};

#[derive(Debug, clap::Args)]
pub struct Args {
    /// The exercise, as `list` has it
    id: String,
    /// The number it is drawn from
    #[arg(long, value_name = "N")]
    seed: u64,
    /// As this assignment file sets it, with its hints and pass mark
    #[arg(long, value_name = "FILE")]
    assignment: Option<PathBuf>,
}

pub fn run(args: &Args, folders: &[PathBuf], talk: &mut Output) -> io::Result<()> {
    let drawn = match &args.assignment {
        Some(path) => set(path, &args.id, Seed(args.seed), talk),
        None => drawn(&args.id, Seed(args.seed), folders, talk),
    };
    let Some(exercise) = drawn else { return Ok(()) };
    match pretty(&exercise) {
        Ok(text) => talk.answer(text.trim_end()),
        Err(err) => {
            talk.wrong(&err.to_string());
            Ok(())
        }
    }
}

/// The exercise of that id as an assignment sets it and the seed gives it; `None`: it has been said why.
fn set(path: &Path, id: &str, seed: Seed, talk: &mut Output) -> Option<Exercise> {
    let assignment = read_assignment(path, talk)?;
    let templates = assignment.templates();
    let Some(found) = templates.iter().find(|it| it.id() == id) else {
        no_such_exercise(&assignment, Some(id), talk);
        return None;
    };
    found.draw(seed).map_err(|problems| talk.problem_sentences(&problems)).ok()
}

/// The exercise of that id as the seed gives it; `None`: it has been said why.
pub fn drawn(id: &str, seed: Seed, folders: &[PathBuf], talk: &mut Output) -> Option<Exercise> {
    let library = ScenarioLibrary::gather(folders);
    let found = found(&library, id, talk)?;
    match draw(&found.text, seed) {
        Ok(exercise) => Some(exercise),
        Err(problems) => {
            talk.trouble(&JournalError::Wrong { path: found.path.clone(), text: found.text.clone(), problems });
            None
        }
    }
}

/// The scenario of that id; `None`: that it is unknown has been said.
pub fn found<'l>(library: &'l ScenarioLibrary, id: &str, talk: &mut Output) -> Option<&'l Shelved> {
    let found = library.find(id);
    if found.is_none() {
        let near = nearest(id, library.exercises.iter().map(|it| it.scenario.id.as_str()));
        let sentence = talk.wording.say("exercise-unknown", &[("id", id)]);
        let help = near.map(|it| talk.wording.say("did-you-mean", &[("nearest", &it)]));
        talk.wrong(&[Some(sentence), help].into_iter().flatten().collect::<Vec<_>>().join("; "));
        // It may be among those left out.
        for it in &library.left_out {
            talk.trouble(it);
        }
    }
    found
}
