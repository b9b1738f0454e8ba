//! Switchdrop's headless core: a practice bench for fixed house lighting.
//!
//! An attempt is a list of actions; everything else is a pure function of it. Rooms, each of which may use those above it: [`trade`] (what
//! exists), [`exercise`] (scenarios and what is drawn from them), [`work`] (what the learner works on), [`circuit`] (what the wiring does),
//! [`attempt`] (what the learner did), [`marking`] (what it earns), [`reason`] (proofs by search), [`advice`] (what is doubtful in a scenario), [`wording`] (what is said about it), [`picture`] (how it
//! looks), [`report`] (a mark sheet told), [`register`] (set work and what was handed in). Nothing here opens a file, reads a clock, asks for entropy or prints.
//!
//! Marking an attempt takes a few lines:
//!
//! ```
//! use switchdrop::{exercise::{SHIPPED, Seed, Template, read}, marking::Outcome, report::Marked, wording::Wording};
//!
//! let scenarios: Vec<_> = SHIPPED.iter().map(|(_, text)| read(text, Seed(0))).collect::<Result<_, _>>()?;
//! let templates: Vec<_> = scenarios.iter().filter_map(Template::of).collect();
//! let marked = Marked::of(include_str!("../assets/sample.attempt.ron"), &templates)?;
//! assert_eq!(marked.sheet.outcome, Outcome::Pass);
//! let json = marked.json("sample.attempt.ron")?;
//! assert!(json.contains("\"outcome\":\"pass\""));
//! let page = marked.page(&Wording::british());
//! assert!(page.starts_with("<!DOCTYPE html>"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

pub mod advice;
pub mod attempt;
pub mod circuit;
pub mod exercise;
pub mod marking;
pub mod picture;
pub mod reason;
pub mod register;
pub mod report;
pub mod trade;
pub mod wording;
pub mod work;
