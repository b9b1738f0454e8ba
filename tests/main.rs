//! The one test target: one link step, shared helpers.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a test that meets the unexpected should fail there; clippy's own leave covers test functions only"
)]
#![allow(clippy::format_collect, reason = "texts of a few lines, built once")]

// A pair of hands that does an exercise step by step, for everything below.
mod hand;
// Shipped exercises: models, faults, blanks.
mod exercises;
// Every picture of the shipped scenarios: targets, text, ends.
mod picture;
// Rules that no fault file fires, and the proof that every code has a case.
mod rules;
// Every single slip from each accepted wiring, against an oracle of another make.
mod slips;
