//! `list`: the exercises at hand, each that is shipped with its number in the order in which they should be done.

use std::{io, path::PathBuf};

use switchdrop::exercise::SHIPPED;

use super::output::Output;
use crate::journal::ScenarioLibrary;

pub fn run(folders: &[PathBuf], talk: &mut Output) -> io::Result<()> {
    let library = ScenarioLibrary::gather(folders);
    let number = |id: &str| SHIPPED.iter().position(|it| it.0 == id).map_or(String::new(), |it| (it + 1).to_string());
    let digits = SHIPPED.len().to_string().len();
    let widest = library.exercises.iter().map(|it| it.scenario.id.len()).max().unwrap_or(0);
    for it in &library.exercises {
        let args = [("title", it.scenario.title.as_str()), ("place", &it.scenario.place)];
        let listed = talk.wording.say("exercise-listed", &args);
        talk.answer(&format!("{:>digits$}  {:widest$}  {listed}", number(&it.scenario.id), it.scenario.id))?;
    }
    for it in &library.left_out {
        talk.trouble(it);
    }
    Ok(())
}
