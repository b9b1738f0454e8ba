//! `check`: everything that is wrong with scenarios, and everything doubtful.

use std::{
    io,
    path::{Path, PathBuf},
};

use switchdrop::{
    advice::{Doubt, doubts},
    exercise::{Limits, Seed, draw, read},
    wording::doubt,
};

use super::output::Output;
use crate::journal::{JournalError, scenarios_in, text};

/// Seeds tried on a scenario that reads well: something that may vary can be wrong in some draws only.
const DRAWS: u64 = 64;

#[derive(Debug, clap::Args)]
pub struct Args {
    /// Scenario files, or folders that hold them
    #[arg(required = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
}

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    for path in &args.paths {
        let files = if path.is_dir() { scenarios_in(path) } else { Ok(vec![path.clone()]) };
        match files {
            Ok(files) => files.iter().try_for_each(|it| check(it, talk))?,
            Err(trouble) => talk.trouble(&trouble),
        }
    }
    Ok(())
}

fn check(path: &Path, talk: &mut Output) -> io::Result<()> {
    let text = match text(path, Limits::SCENARIO_BYTES) {
        Ok(text) => text,
        Err(trouble) => {
            talk.trouble(&trouble);
            return Ok(());
        }
    };
    let scenario = match read(&text, Seed::default()) {
        Ok(it) => it,
        Err(problems) => {
            talk.trouble(&JournalError::Wrong { path: path.to_owned(), text, problems });
            return Ok(());
        }
    };
    let shown = path.display().to_string();
    let mut doubtful: Vec<(Doubt, Option<u64>)> = doubts(&scenario).into_iter().map(|it| (it, None)).collect();
    for seed in 0..DRAWS {
        match draw(&text, Seed(seed)) {
            Ok(drawn) => {
                for it in doubts(&drawn) {
                    if !doubtful.iter().any(|(had, _)| had.kind == it.kind && had.at == it.at) {
                        doubtful.push((it, Some(seed)));
                    }
                }
            }
            Err(problems) => {
                let args = [("path", shown.as_str()), ("seed", &seed.to_string())];
                let sentence = talk.wording.say("check-draw", &args);
                talk.wrong(&sentence);
                talk.problem_sentences(&problems);
                return Ok(());
            }
        }
    }
    for (it, seed) in &doubtful {
        let mut sentence = doubt(&talk.wording, &scenario, it);
        if let Some(seed) = seed {
            sentence = talk.wording.say("doubt-of-seed", &[("sentence", &sentence), ("seed", &seed.to_string())]);
        }
        talk.doubt(&shown, &text, &scenario.span_of(it.at), &sentence);
    }
    let (key, count) = (if doubtful.is_empty() { "check-fine" } else { "check-doubtful" }, doubtful.len().to_string());
    let fine = talk.wording.say(key, &[("path", &shown), ("count", &count)]);
    talk.answer(&fine)
}
