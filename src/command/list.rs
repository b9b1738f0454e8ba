//! `list`: the exercises at hand.

use std::{io, path::PathBuf};

use super::output::Output;
use crate::journal::ScenarioLibrary;

pub fn run(folders: &[PathBuf], talk: &mut Output) -> io::Result<()> {
    let library = ScenarioLibrary::gather(folders);
    let widest = library.exercises.iter().map(|it| it.scenario.id.len()).max().unwrap_or(0);
    for it in &library.exercises {
        let args = [("title", it.scenario.title.as_str()), ("place", &it.scenario.place)];
        let listed = talk.wording.say("exercise-listed", &args);
        talk.answer(&format!("{:widest$}  {listed}", it.scenario.id))?;
    }
    for it in &library.left_out {
        talk.trouble(it);
    }
    Ok(())
}
