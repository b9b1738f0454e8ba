//! The window: one file a screen, and one place where what the learner wants is done.
//!
//! It turns input into actions and draws what the core says. It holds no electrical rule and no mark, and it knows
//! nothing of the command line. egui owns all input; everything that can be touched is an egui interaction with a name.

mod along;
mod app;
mod arrows;
mod bars;
mod bench;
mod bench_state;
mod beside;
mod board;
mod broken;
mod callout;
mod choose;
mod circuit_page;
mod class;
mod curious;
mod current;
mod diagnosis_page;
mod drawing;
mod exercise_cards;
mod field;
mod focus;
mod foreseen;
mod frame;
mod guide;
mod hand_in_waits;
mod handed_in;
mod help;
mod keys;
mod letters;
mod map;
mod marked;
mod naming;
mod next;
mod observe;
mod panel;
mod prediction;
mod prepare;
mod probes;
mod question;
mod report;
mod session;
mod set_work;
mod sheet;
mod stages;
mod start;
mod start_state;
mod tester;
#[cfg(test)]
mod tests;
mod tests_page;
mod theme;
mod times;
mod todo;
mod tools;
mod touch;
mod tray;
mod trip;
mod tutor;
mod view;
mod waiting;
mod walk;
mod window_state;
mod words;

use std::{path::PathBuf, sync::Arc};

use switchdrop::register::{Assignment, Review};

use crate::desk::ClassFiles;

pub use app::open;

/// What the window is opened with.
#[derive(Debug, Clone, Default)]
pub struct Options {
    /// Where attempts are kept.
    pub attempts: PathBuf,
    /// Folders with more exercises.
    pub exercises: Vec<PathBuf>,
    /// The number exercises are drawn from; else a fresh one each time.
    pub seed: Option<u64>,
    /// Where theme and text size are remembered; without, they are those of the first start each time.
    pub settings: Option<PathBuf>,
    /// The class, reviewed, that it is opened on for a tutor.
    pub class: Option<Arc<(ClassFiles, Assignment, Review)>>,
    /// The set work that it is opened on; name, mode and number are then not the learner's to choose.
    pub assignment: Option<Arc<Assignment>>,
}

/// How it went.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Closed {
    /// It was open, and the learner closed it.
    ByHand,
    /// There is no screen for it: why, as the system says it.
    NoScreen(String),
    /// It was open and broke down: why.
    BrokeDown(String),
}
