//! Switchdrop's headless core: a practice bench for fixed house lighting.
//!
//! An attempt is a list of actions; everything else is a pure function of it. Rooms, each of which may use those above
//! it: [`trade`] (what exists), [`exercise`] (scenarios and what is drawn from them), [`work`] (what the learner does),
//! [`circuit`] (what the wiring does), [`marking`] (what it earns), [`advice`] (what is doubtful in a scenario), `wording` (what is said about it), [`picture`] (how it
//! looks). Nothing here opens a file, reads a clock or prints.

pub mod advice;
pub mod circuit;
pub mod exercise;
pub mod marking;
pub mod picture;
pub mod trade;
pub mod wording;
pub mod work;
