//! The tutor's screen: a class that was reviewed, who needs help first, what the class gets wrong. No names are on it, so that it can be
//! projected; a line of it leads to the mark sheet of that hand-in.

mod beside;
mod table;

use std::{
    path::{Path, PathBuf},
    sync::Arc,
};

use bevy_egui::egui::{CentralPanel, Frame, Margin, Panel, Ui};
use switchdrop::{
    register::{Assignment, Review, ReviewRow, ReviewWords, review_words},
    wording::Wording,
};

use super::{
    bars,
    panel::{Pane, PanelContext},
    theme,
    view::{Said, Tone},
};

/// How wide the part beside the table is at the normal text size, points.
const BESIDE: f32 = 380.0;

/// What the table is sorted by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Order {
    /// Who needs help first.
    Need,
    /// The learner's number.
    Learner,
    /// Marks, the fewest first; what has none comes last.
    Marks,
    /// Minutes worked, the most first; what has none comes last.
    Minutes,
}

/// What can be done on the screen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ClassAct {
    /// Sort the table.
    Sort(Order),
    /// Show these learners alone; nobody: all of them.
    Only(Vec<u64>),
    /// Read the mark sheet of a hand-in.
    Read(PathBuf),
}

/// A class that was reviewed.
#[derive(Debug)]
pub struct ClassState {
    reviewed: Arc<(Assignment, Review)>,
    words: ReviewWords,
    /// Of each row the file that counts, if it lies on the disk as a file of its own.
    files: Vec<Option<PathBuf>>,
    order: Order,
    /// Whose rows are shown; nobody's: all.
    only: Vec<u64>,
    said: Said,
}

impl ClassState {
    /// As it opens: who needs help first stands first.
    pub fn new(reviewed: Arc<(Assignment, Review)>, wording: &Wording) -> Self {
        let (assignment, review) = &*reviewed;
        let words = review_words(wording, assignment, review);
        let file =
            |row: &ReviewRow| row.counting().map(|(file, _)| PathBuf::from(&file.file)).filter(|it| it.is_file());
        let files = review.rows.iter().map(file).collect();
        Self { words, files, order: Order::Need, only: Vec::new(), said: Said::default(), reviewed }
    }

    /// What was said last.
    pub const fn said(&self) -> &Said {
        &self.said
    }

    /// Says why something could not be done.
    pub fn say_no(&mut self, text: String) {
        self.said = Said { text, tone: Tone::No };
    }

    /// Does what was asked for; the hand-in that is to be read, if it is that.
    pub fn apply(&mut self, act: ClassAct) -> Option<PathBuf> {
        self.said = Said::default();
        match act {
            ClassAct::Sort(it) => self.order = it,
            ClassAct::Only(it) => self.only = it,
            ClassAct::Read(it) => return Some(it),
        }
        None
    }

    /// Draws it.
    pub fn show(&self, ui: &mut Ui, panel: &mut PanelContext<'_>) {
        let frame = |fill: theme::Role| Frame::new().fill(fill.worn()).inner_margin(Margin::symmetric(24, 10));
        Panel::top("class").frame(frame(theme::PANEL)).show(ui, |ui| {
            ui.label(theme::bold(&self.words.heading).size(20.0 * theme::scale_of(ui)));
            ui.label(&self.words.summary);
        });
        Panel::bottom("foot").frame(frame(theme::PANEL)).show(ui, |ui| {
            panel.begin(ui, Pane::Foot, "window-pane-foot");
            bars::start_foot(ui, panel, &self.said);
        });
        let wide = (BESIDE * theme::scale_of(ui)).min(0.45 * ui.available_width());
        Panel::right("beside").exact_size(wide).resizable(false).frame(frame(theme::PANEL)).show(ui, |ui| {
            panel.begin(ui, Pane::Beside, "class-pane-beside");
            beside::show(ui, panel, self);
        });
        CentralPanel::default().frame(frame(theme::PAPER)).show(ui, |ui| {
            panel.begin(ui, Pane::Middle, "review-learners");
            table::show(ui, panel, self);
        });
    }

    fn review(&self) -> &Review {
        &self.reviewed.1
    }

    /// The rows that are shown, in their order, each by its place in the review.
    fn rows(&self) -> Vec<usize> {
        let rows = &self.review().rows;
        let is_shown = |it: &usize| self.only.is_empty() || self.only.contains(&rows[*it].learner);
        let mut all: Vec<usize> = (0..rows.len()).filter(is_shown).collect();
        let marks = |row: usize| rows[row].counting().map_or(u32::MAX, |(_, earned)| earned.marks);
        let worked = |row: usize| rows[row].counting().map(|(file, _)| file.active_ms);
        // Stable: equals stay in the order of the roster.
        match self.order {
            Order::Learner => {}
            Order::Need => all.sort_by_key(|it| (rows[*it].need.is_none(), rows[*it].need)),
            Order::Marks => all.sort_by_key(|it| marks(*it)),
            Order::Minutes => all.sort_by_key(|it| std::cmp::Reverse(worked(*it))),
        }
        all
    }

    /// The hand-in that counts in a row, if it can be opened.
    fn file(&self, row: usize) -> Option<&Path> {
        self.files.get(row)?.as_deref()
    }
}

#[cfg(test)]
impl ClassState {
    /// Learners in the order of the rows that are shown.
    pub fn learners(&self) -> Vec<u64> {
        self.rows().into_iter().map(|it| self.review().rows[it].learner).collect()
    }
}
