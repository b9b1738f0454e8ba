//! Proofs by search: every way of joining some cores, and what each of them makes a light do.
//!
//! [`why`] answers "why three cores?". A [`Question`] says what arrives at each place, which switches stand there and how many cores run
//! from one place to the next. *A way* puts every end into exactly one terminal of its place: any number may share a terminal, none is left
//! free. Nothing is drawn at random and nothing is left out.
//!
//! The ways are counted place by place and never listed whole. The joined view of `circuit` ([`Layered`](crate::circuit::Layered)) takes one wiring
//! through every position of its switches; here all wirings are taken through them together, so the states are those of a part of the house, with how
//! many wirings lead to each, and they need an algebra of their own (`knot.rs`: which open nets are one). The two meet in the examples: one wiring
//! of each class becomes an exercise and a work, and the solver, the joined view and the marking have to say of it what the search said.
//!
//! [`Passage`] is the same question to play with: a finished passage whose cores come off one by one or are joined any way, and the
//! houses of [`WhatIf`].

mod class;
mod example;
mod fault_search;
mod fold;
mod grid;
mod knot;
mod passage;
mod place;
mod question;
mod seen;
mod told;
mod what_if;

pub use class::WayClass;
pub use example::Example;
pub use fault_search::{
    Bits, FaultSearch, SearchStep, SolveBudget, TrialReading, best_reading, settings_to_read_in, suspects_alike,
};
pub use grid::LampGrid;
pub use passage::{Passage, PassageCore, PassageTry};
pub use question::{Arrival, Net, Question, Unaskable};
pub use told::{ClassCount, CoreProof, Counted, Unproved, WayCount, count, why};
pub use what_if::{PassageHand, WhatIf};
