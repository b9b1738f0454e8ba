//! `list`: the exercises at hand.

use std::{io, path::PathBuf};

use super::talk::Talk;
use crate::journal::Shelf;

pub fn run(folders: &[PathBuf], talk: &mut Talk) -> io::Result<()> {
    let shelf = Shelf::gather(folders);
    let widest = shelf.exercises.iter().map(|it| it.scenario.id.len()).max().unwrap_or(0);
    for it in &shelf.exercises {
        let args = [("title", it.scenario.title.as_str()), ("place", &it.scenario.place)];
        let listed = talk.wording.say("exercise-listed", &args);
        talk.answer(&format!("{:widest$}  {listed}", it.scenario.id))?;
    }
    for it in &shelf.left_out {
        talk.trouble(it);
    }
    Ok(())
}
