//! `check`: everything that is wrong with scenarios.

use std::{
    io,
    path::{Path, PathBuf},
};

use switchdrop::exercise::{Limits, Problem, Seed, draw, read};

use super::talk::Talk;
use crate::journal::{Trouble, scenarios_in, text};

/// Seeds tried on a scenario that reads well: something that may vary can be wrong in some draws only.
const DRAWS: u64 = 64;

#[derive(Debug, clap::Args)]
pub struct Args {
    /// Scenario files, or folders that hold them
    #[arg(required = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
}

pub fn run(args: &Args, talk: &mut Talk) -> io::Result<()> {
    for path in &args.paths {
        let files = if path.is_dir() { scenarios_in(path) } else { Ok(vec![path.clone()]) };
        match files {
            Ok(files) => files.iter().try_for_each(|it| check(it, talk))?,
            Err(trouble) => talk.trouble(&trouble),
        }
    }
    Ok(())
}

fn check(path: &Path, talk: &mut Talk) -> io::Result<()> {
    let text = match text(path, Limits::SCENARIO_BYTES) {
        Ok(text) => text,
        Err(trouble) => {
            talk.trouble(&trouble);
            return Ok(());
        }
    };
    if let Err(problems) = read(&text, Seed::default()) {
        talk.trouble(&Trouble::Wrong { path: path.to_owned(), text, problems });
        return Ok(());
    }
    let shown = path.display().to_string();
    if let Some((seed, problems)) = first_bad_draw(&text) {
        let args = [("path", shown.as_str()), ("seed", &seed.to_string())];
        let sentence = talk.wording.say("check-draw", &args);
        talk.wrong(&sentence);
        talk.problem_sentences(&problems);
        return Ok(());
    }
    let fine = talk.wording.say("check-fine", &[("path", &shown)]);
    talk.answer(&fine)
}

fn first_bad_draw(text: &str) -> Option<(u64, Vec<Problem>)> {
    (0..DRAWS).find_map(|seed| draw(text, Seed(seed)).err().map(|problems| (seed, problems)))
}
