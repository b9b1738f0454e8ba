//! A position against ngspice, which solves the same positions inside one process; its start is taken off.

use std::{
    fs,
    path::PathBuf,
    process::{Command, Stdio},
    time::{Duration, Instant},
};

use switchdrop::{
    circuit::{Conditions, Physics, deck, deck_cases, rows},
    work::Work,
};

use crate::{
    Table, Times,
    jobs::{opened, wirings::in_line},
};

/// Rounds through the positions in the longer of two decks, so that its start is a small part.
const ROUNDS: usize = 60;

pub fn compare(table: &mut Table) {
    if Command::new("ngspice").arg("-v").stdin(Stdio::null()).output().is_err() {
        println!("ngspice is not installed: not compared");
        return;
    }
    let attempt = opened().replay(&Physics).expect("a model");
    against(table, "two-way: a position against ngspice", attempt.work(), ROUNDS);
    against(table, "ten switches: a position against ngspice", &in_line(5), 1);
}

fn against(table: &mut Table, what: &str, work: &Work, rounds: usize) {
    let cases = deck_cases(work, None).expect("few positions");
    let count = rows(work).len();
    assert_eq!(cases.len(), count, "nothing opens in it");
    let many: Vec<Conditions> = (0..rounds).flat_map(|_| cases.clone()).collect();
    let long = run(&text(work, &many));
    let short = run(&text(work, &cases[..1]));
    let theirs = long.saturating_sub(short).as_secs_f64() / (many.len() - 1) as f64;
    let ours = Times::of(|| rows(work)).median.as_secs_f64() / count as f64;
    let note = format!("({:.2} us against {:.1} us)", ours * 1e6, theirs * 1e6);
    table.least(what, 100.0, theirs / ours, "times", &note);
}

/// The deck without what it prints: only solving counts.
fn text(work: &Work, cases: &[Conditions]) -> String {
    let deck = deck(work, cases).text;
    deck.lines().filter(|it| !it.starts_with("print ")).map(|it| format!("{it}\n")).collect()
}

/// The shortest of five runs.
fn run(deck: &str) -> Duration {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("aims.cir");
    fs::write(&path, deck).expect("a deck");
    let once = |_| {
        let start = Instant::now();
        let output = Command::new("ngspice").arg("-b").arg(&path).stdin(Stdio::null()).output().expect("ngspice");
        let took = start.elapsed();
        let cases = String::from_utf8_lossy(&output.stdout).lines().filter(|it| it.starts_with("case ")).count();
        assert_eq!(cases, deck.matches("echo case").count(), "{}", String::from_utf8_lossy(&output.stderr));
        took
    };
    (0..5).map(once).min().unwrap_or_default()
}
