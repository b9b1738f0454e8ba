//! How many variants of each exercise differ in what must be done: the solver's actions without names, lengths and loads.

use std::{collections::BTreeSet, sync::Arc};

use switchdrop::{
    advice::solve,
    attempt::Attempt,
    exercise::{Seed, draw},
    work::Action,
};

use crate::{
    guide::{hold_variants, told_variants},
    hand::SHIPPED,
};

/// What is done, with the devices called by the order in which they come up: which of them feeds the work is a name. Figures of the test
/// sheet follow from lengths, and what goes out with which device from loads.
fn done(attempt: &Attempt) -> String {
    let exercise = attempt.work().exercise();
    let mut devices: Vec<&str> = Vec::new();
    let mut lines = String::new();
    for action in attempt.log() {
        let action = match action.clone() {
            Action::Record { test, at, accepted, source, .. } => {
                Action::Record { test, at, reading: String::new(), accepted, source }
            }
            it => it,
        };
        let mut line = format!("{action:?}\n");
        for it in &exercise.devices {
            if line.contains(it.address.as_str()) && !devices.contains(&it.address.as_str()) {
                devices.push(&it.address);
            }
        }
        for (number, it) in devices.iter().enumerate() {
            line = line.replace(it, &format!("device {number}"));
        }
        lines.push_str(&line);
    }
    lines
}

/// `cargo test variants -- --ignored --nocapture` prints the table: the exercise, how many differ in what must be done, how many differ at all. The guide
/// has the first of them; with `UPDATE_EXPECT=1` they are written there. `ONLY=dead-lamp` counts that exercise alone, and leaves the others as they are.
#[test]
#[ignore = "1,000 seeds of every exercise"]
fn variants_that_differ_in_what_must_be_done() {
    let only = std::env::var("ONLY").ok();
    let mut counted = told_variants();
    for (id, text) in SHIPPED.iter().filter(|it| only.as_deref().is_none_or(|only| only == it.0)) {
        let mut different = BTreeSet::new();
        let mut drawn = BTreeSet::new();
        for seed in 0..1000 {
            let exercise = draw(text, Seed(seed)).unwrap();
            drawn.insert(exercise.text().to_owned());
            let model = solve(&Arc::new(exercise)).unwrap_or_else(|it| panic!("{id} {seed}: {:?}", it.lacks));
            different.insert(done(&model.attempt));
        }
        println!("| `{id}` | {} | {} |", different.len(), drawn.len());
        counted.insert((*id).to_owned(), different.len());
    }
    hold_variants(&counted);
}
