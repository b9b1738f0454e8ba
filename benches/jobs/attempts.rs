//! Attempt files of the two-way exercise, as many as wanted: the model and slips of it, done by as many learners.

use std::{fs, path::PathBuf};

use switchdrop::{
    attempt::{Chain, Format, Header, Mode, first_lines, open},
    exercise::{SHIPPED, Seed, draw},
    marking::VERSION,
};

use crate::jobs::TWO_WAY;

/// Exchanges of two words in the lines that connect, each a slip of the hand; the first changes nothing.
const SLIPS: [(&str, &str); 6] = [
    ("clay.COM", "clay.COM"),
    ("clay.COM", "clay.L1"),
    ("link/black@clay", "link/grey@clay"),
    ("kiln.1.COM", "kiln.1.L2"),
    ("link/brown@clay", "link/black@clay"),
    ("link/brown@kiln", "link/grey@kiln"),
];

/// Which exercise the attempts are of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// One and the same.
    One,
    /// Two hundred variants by turns, so that no two files in a row have the same.
    Variants,
}

/// Writes `count` files into a folder that is emptied first, most with a slip or none with any, and gives their paths.
pub fn write(folder: &str, count: usize, of: Of, slips: bool) -> Vec<PathBuf> {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(folder);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder for the files");
    let mut actions: Vec<Vec<String>> =
        SLIPS.iter().map(|slip| slipped(*slip)).filter(|lines| can_be_done(&sealed(&start(), lines))).collect();
    assert!(actions.len() > 2, "{} of the slips can be done", actions.len());
    let exercises = exercises(if of == Of::One { 1 } else { 200 }, &actions);
    assert!(!exercises.is_empty(), "no exercise like the model's");
    actions.truncate(if slips { actions.len() } else { 1 });
    (0..count)
        .map(|it| {
            let [header, exercise] = &exercises[it % exercises.len()];
            let header = header.replace("\"learner\"", &format!("\"Learner {it}\""));
            let path = folder.join(format!("{it}.ron"));
            let text = sealed(&[header, exercise.clone()], &actions[it / 7 % actions.len()]);
            fs::write(&path, text).expect("a file");
            path
        })
        .collect()
}

/// The model's attempt with each of the slips that can be done in it.
pub fn each_slip() -> Vec<String> {
    SLIPS[1..].iter().map(|slip| sealed(&start(), &slipped(*slip))).filter(|text| can_be_done(text)).collect()
}

/// The model's own first two lines.
fn start() -> Vec<String> {
    TWO_WAY.lines().take(2).map(bare).collect()
}

/// The first two lines of this number of exercises in which all of these actions can be done.
fn exercises(count: usize, actions: &[Vec<String>]) -> Vec<[String; 2]> {
    let scenario = SHIPPED.iter().find(|it| it.0 == "two-way-passage").expect("the two-way exercise").1;
    (0..count as u64 * 100)
        .map(|seed| {
            let exercise = draw(scenario, Seed(seed)).expect("a variant");
            let (learner, started) = ("learner".to_owned(), "2026-11-25T09:00:00Z".to_owned());
            first_lines(&Header::new(VERSION, &exercise, learner, started, Mode::Set), &exercise).expect("two lines")
        })
        .filter(|start| actions.iter().all(|it| can_be_done(&sealed(start, it))))
        .take(count)
        .collect()
}

/// A line without its sum.
fn bare(line: &str) -> String {
    line.split_once(",sum:").map_or(line, |it| it.0).to_owned() + ")"
}

/// Lines with sums of their own.
fn sealed(start: &[String], actions: &[String]) -> String {
    let mut chain = Chain::new(Format::NEWEST);
    start.iter().chain(actions).map(|it| chain.seal(it)).collect()
}

fn can_be_done(text: &str) -> bool {
    open(text).is_ok_and(|it| it.replay().is_ok())
}

/// The model's actions with two words exchanged where something is connected.
fn slipped((one, other): (&str, &str)) -> Vec<String> {
    let exchange = |line: &str| -> String {
        if line.contains("Connect(") {
            line.replace(one, "\0").replace(other, one).replace('\0', other)
        } else {
            line.to_owned()
        }
    };
    TWO_WAY.lines().skip(2).map(|it| exchange(&bare(it))).collect()
}
