//! Instructions under callgrind: each job once, alone, by its name. `benches/count.sh` runs it and compares with
//! `benches/count.txt`.

#![allow(
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a bench that meets the unexpected should stop there"
)]

#[allow(dead_code, reason = "the aims write them to files")]
#[path = "jobs/attempts.rs"]
mod attempts;
mod jobs;

use std::hint::black_box;

use switchdrop::{
    attempt::open,
    circuit::{rows, states, survey},
};

use jobs::wirings::{Wiring, house, in_line};

fn main() {
    let mut args = std::env::args().skip(1);
    let Some(job) = args.next().filter(|it| !it.starts_with('-')) else { return };
    // Another attempt may be named, to tell a change of the sample from one of the code.
    let other = args.next().map(|it| std::fs::read_to_string(it).expect("an attempt file"));
    let sample = other.as_deref().unwrap_or(jobs::TWO_WAY);
    match job.as_str() {
        // What the jobs below need before they begin, so that it can be taken off.
        "read" => drop(black_box(open(sample))),
        "replay" => drop(black_box(jobs::opened().replay())),
        "rows" => drop(black_box(rows(jobs::opened().replay().expect("a model").work()))),
        "survey" => drop(black_box(survey(jobs::opened().replay().expect("a model").work()))),
        "mark" => drop(black_box(jobs::marked(sample))),
        "rows-1024" => assert_eq!(black_box(rows(&in_line(5))).len(), 1024),
        "proof-24" => assert!(jobs::prove(&Wiring::n_way(24))),
        "proof-100" => assert!(jobs::prove(&Wiring::n_way(100))),
        "random-24" => assert!(jobs::random(200, 24).iter().filter(|it| jobs::prove(it)).count() < 100),
        // One slip of the hand in each.
        "mark-slips" => attempts::each_slip().iter().for_each(|it| drop(black_box(jobs::marked(it)))),
        // Ten times, so that what is read once (the catalogue) weighs little.
        "read-10" => (0..10).for_each(|_| drop(black_box(open(sample)))),
        "mark-10" => (0..10).for_each(|_| drop(black_box(jobs::marked(sample)))),
        "forty" => drop(black_box(states(&house(false)))),
        other => panic!("no job {other}"),
    }
}
