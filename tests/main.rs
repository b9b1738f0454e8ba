//! The one test target.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that meets the unexpected should fail there; clippy's own leave covers test functions only"
)]
#![allow(clippy::format_collect, reason = "texts of a few lines, built once")]

/// Every picture of the shipped scenarios: targets, text, ends.
mod picture;
