//! Attempts that marking version 3 judged wrongly, and what is right: worked out apart from the marker, the truth tables by two
//! solvers that share no code with ours. One file a subject; each test says what the sheet must come to and why.
//!
//! `attempts/` are files as they were handed in; `exercises/` are the scenarios that some of them were drawn from.

// Groups of circuits, linked switches, screws, the supply's bars.
mod electrical;
// Edited, forged and stalling files.
mod files;
// The outcome and why, acts and how often, hand-ins of next to nothing, what is praised.
mod judge;
// Weights, roots, repairs, what is never accused.
mod marking;
// Isolation, proving, acts.
mod safe;

use std::path::PathBuf;

use switchdrop::{
    attempt::{Attempt, Mode, open},
    marking::{Sheet, mark},
};

use crate::hand::{Marked, marked};

/// The path of a case's attempt.
fn path(name: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("tests/cases/attempts/{name}.attempt.ron"))
}

/// A case, replayed.
pub fn attempt(name: &str) -> Attempt {
    let text = std::fs::read_to_string(path(name)).unwrap_or_else(|it| panic!("{name}: {it}"));
    open(&text).unwrap_or_else(|it| panic!("{name}: {it:?}")).replay().unwrap_or_else(|it| panic!("{name}: {it:?}"))
}

/// A case, marked as set work, for tests of all rules.
pub fn whole(name: &str) -> Sheet {
    mark(&attempt(name), Mode::Set)
}

/// A case, marked as set work.
fn sheet(name: &str) -> Marked {
    marked(&attempt(name))
}
