//! The one test target.

/// Every picture of the shipped scenarios: targets, text, ends.
mod picture;
