//! `check`: everything that is wrong with scenarios, and everything doubtful; with `--solve` also whether the program can do them.

use std::{
    io,
    path::{Path, PathBuf},
    sync::Arc,
    thread,
    time::Duration,
};

use switchdrop::{
    advice::{Doubt, Model, doubts, solve},
    exercise::{Exercise, Limits, Seed, draw, draw_each_value, read},
    wording::{doubt, lacks},
    work::slip_problems,
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

    /// Do the exercise of a seed, print each action as a file has it, and mark it
    #[arg(long, value_name = "SEED", num_args = 0..=1, default_missing_value = "0")]
    solve: Option<u64>,

    /// Stay, and check again whenever one of the files is saved
    #[arg(long)]
    watch: bool,
}

/// How often a file is looked at: soon enough for an author who looks up from the editor.
const LOOK_EVERY: Duration = Duration::from_millis(400);

/// How long a file must stay as it is to count as saved.
const SETTLES_IN: Duration = Duration::from_millis(100);

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    let mut seen = args.watch.then(|| texts(&args.paths));
    check_all(args, talk)?;
    // Until somebody stops the program, or nobody reads what it says.
    while let Some(before) = &seen {
        thread::sleep(LOOK_EVERY);
        let now = texts(&args.paths);
        thread::sleep(SETTLES_IN);
        // What is half written is looked at when it is whole.
        if now != *before && now == texts(&args.paths) {
            seen = Some(now);
            let again = talk.wording.say("check-again", &[]);
            talk.answer(&format!("\n{again}"))?;
            check_all(args, talk)?;
        }
    }
    Ok(())
}

/// What the files say now; nothing where one can't be read. Texts are compared and not times: an editor that saves by renaming, or twice in
/// a moment, confuses no one, and nothing is said of a file that was saved as it was.
fn texts(paths: &[PathBuf]) -> Vec<(PathBuf, Option<String>)> {
    let files = paths
        .iter()
        .flat_map(|path| if path.is_dir() { scenarios_in(path).unwrap_or_default() } else { vec![path.clone()] });
    files.map(|it| (it.clone(), text(&it, Limits::SCENARIO_BYTES).ok())).collect()
}

fn check_all(args: &Args, talk: &mut Output) -> io::Result<()> {
    for path in &args.paths {
        let files = if path.is_dir() { scenarios_in(path) } else { Ok(vec![path.clone()]) };
        match files {
            Ok(files) => files.iter().try_for_each(|it| check(it, args.solve.map(Seed), talk))?,
            Err(trouble) => talk.trouble(&trouble),
        }
    }
    Ok(())
}

fn check(path: &Path, to_solve: Option<Seed>, talk: &mut Output) -> io::Result<()> {
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
    if let Err(problems) = draw_each_value(&text, Seed::default()).and_then(|_| slip_problems(&text, Seed::default())) {
        talk.trouble(&JournalError::Wrong { path: path.to_owned(), text, problems });
        return Ok(());
    }
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
    talk.answer(&fine)?;
    match to_solve.map(|seed| (seed, draw(&text, seed))) {
        Some((seed, Ok(drawn))) => model(&shown, seed, drawn, talk),
        Some((_, Err(problems))) => {
            talk.problem_sentences(&problems);
            Ok(())
        }
        None => Ok(()),
    }
}

/// The actions of the program's own work and what they earn, or what is in its way.
fn model(path: &str, seed: Seed, exercise: Exercise, talk: &mut Output) -> io::Result<()> {
    let number = seed.0.to_string();
    match solve(&Arc::new(exercise)) {
        Ok(Model { attempt, sheet }) => {
            for it in attempt.log() {
                let line = ron::ser::to_string(it).map_err(io::Error::other)?;
                talk.answer(&line)?;
            }
            let counts = [sheet.marks, sheet.out_of, attempt.log().len() as u32].map(|it| it.to_string());
            let args = [
                ("path", path),
                ("seed", &number),
                ("marks", &counts[0]),
                ("out-of", &counts[1]),
                ("count", &counts[2]),
            ];
            let sentence = talk.wording.say("check-model", &args);
            talk.answer(&sentence)
        }
        Err(unsolved) => {
            let sentence = talk.wording.say("check-no-model", &[("path", path), ("seed", &number)]);
            talk.wrong(&sentence);
            for it in lacks(&talk.wording, &unsolved) {
                talk.wrong(&it);
            }
            Ok(())
        }
    }
}
