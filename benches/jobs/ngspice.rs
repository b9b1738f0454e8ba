//! A position against ngspice, which solves the same positions inside one process; its start is taken off.

use std::{
    fs,
    path::PathBuf,
    process::{Command, Stdio},
    time::{Duration, Instant},
};

use switchdrop::{
    circuit::{Conditions, Prepared, deck, deck_cases, rows},
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
    let attempt = opened().replay().expect("a model");
    let (ours, theirs) = against(attempt.work(), ROUNDS);
    let note = format!("({ours:.2} us against {theirs:.1} us)");
    table.least("two-way, 8 positions, start excluded: ngspice against us", 150.0, theirs / ours, "times", &note);
    let whole = Times::of(|| rows(attempt.work())).median.as_secs_f64() * 1e6 / 8.0;
    let note = format!("({whole:.2} us against {theirs:.1} us)");
    table.least("... with our start counted and not its own", 60.0, theirs / whole, "times", &note);
    let (ours, theirs) = against(&in_line(5), 1);
    let note = format!("({ours:.2} us against {theirs:.1} us)");
    table.least("1,024 positions, start excluded: ngspice against us", 100.0, theirs / ours, "times", &note);
}

/// Microseconds for a position: ours and theirs.
fn against(work: &Work, rounds: usize) -> (f64, f64) {
    let cases = deck_cases(work, None).expect("few positions");
    let count = rows(work).len();
    assert_eq!(cases.len(), count, "nothing opens in it");
    let many: Vec<Conditions> = (0..rounds).flat_map(|_| cases.clone()).collect();
    let long = run(&text(work, &many));
    let short = run(&text(work, &cases[..1]));
    let theirs = long.saturating_sub(short).as_secs_f64() / (many.len() - 1) as f64;
    let prepared = Prepared::new(work);
    let ready = prepared.ready();
    let ours = Times::of(|| ready.rows()).median.as_secs_f64() / count as f64;
    (ours * 1e6, theirs * 1e6)
}

/// The deck without what it prints: only solving counts.
fn text(work: &Work, cases: &[Conditions]) -> String {
    let deck = deck(work, cases).text;
    let mut text = String::with_capacity(deck.len());
    for line in deck.lines().filter(|it| !it.starts_with("print ")) {
        text.push_str(line);
        text.push('\n');
        // What it keeps of every position would slow it down: it may forget.
        if line.starts_with("echo case ") {
            text.push_str("destroy all\n");
        }
    }
    text
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
    (0..3).map(once).min().unwrap_or_default()
}
