//! The tutor's screen: a class that was reviewed, who needs help first, what the class gets wrong. No names are on it, so that it can be
//! projected; a line of it leads to the mark sheet of that hand-in. What is decided about a hand-in and what is released goes from here into the
//! register.

mod beside;
mod deciding;
mod releasing;
mod table;

use std::{
    path::{Path, PathBuf},
    sync::Arc,
    time::Duration,
};

use bevy_egui::egui::{Align, CentralPanel, Context, Frame, Layout, Margin, Panel, Ui};
use switchdrop::{
    register::{Assignment, Review, ReviewRow, ReviewWords, review_words},
    wording::Wording,
};

use super::{
    bars,
    beside::Beside,
    panel::{Intent, Pane, PanelContext},
    start::harmless,
    theme,
    tutor::reviewed_beside,
    view::{Said, Tone},
};
use crate::desk::{ClassFiles, ClassTrouble, Reviewed};

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

/// What stands beside the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BesideTable {
    /// Who needs help and what goes wrong.
    Class,
    /// What is decided about the hand-in that counts in a row.
    Decision(usize),
    /// What is released: that of a row, or all that counts.
    Release(Option<usize>),
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
    /// Turn to something beside the table.
    Beside(BesideTable),
    /// Put the decision down that is filled in.
    Decide,
    /// Release what is to be released.
    Release,
    /// Look at what is handed in again.
    Again,
}

/// A class that was reviewed.
pub struct ClassState {
    reviewed: Arc<(ClassFiles, Assignment, Review)>,
    words: ReviewWords,
    /// Of each row the file that counts, if it lies on the disk as a file of its own.
    files: Vec<Option<PathBuf>>,
    order: Order,
    /// Whose rows are shown; nobody's: all.
    only: Vec<u64>,
    beside: BesideTable,
    decision: deciding::Form,
    release: releasing::Form,
    /// Who decides and releases.
    by: String,
    /// What is handed in now, being reviewed.
    coming: Option<Beside<Result<Reviewed, ClassTrouble>>>,
    /// Whether there is a screen to go back to.
    has_way_back: bool,
    said: Said,
}

impl ClassState {
    /// As it opens: who needs help first stands first. `by`: who decides and releases, as far as that is known.
    pub fn new(
        reviewed: Arc<(ClassFiles, Assignment, Review)>,
        by: &str,
        has_way_back: bool,
        wording: &Wording,
    ) -> Self {
        let (files, assignment, review) = &*reviewed;
        Self {
            words: review_words(wording, assignment, review),
            files: files_of(review),
            order: Order::Need,
            only: Vec::new(),
            beside: BesideTable::Class,
            decision: deciding::Form::new(),
            release: releasing::Form::new(&files.assignment),
            by: by.to_owned(),
            coming: None,
            has_way_back,
            said: Said::default(),
            reviewed,
        }
    }

    /// What was said last.
    pub const fn said(&self) -> &Said {
        &self.said
    }

    /// Who decides and releases.
    pub fn by(&self) -> &str {
        self.by.trim()
    }

    /// Says why something could not be done.
    pub fn say_no(&mut self, text: &str) {
        self.said = Said { text: harmless(text), tone: Tone::No };
    }

    fn say(&mut self, text: &str) {
        self.said = Said { text: harmless(text), tone: Tone::Plain };
    }

    /// Does what was asked for; the hand-in that is to be read, if it is that.
    pub fn apply(&mut self, act: ClassAct, wording: &Wording, ctx: Option<&Context>) -> Option<PathBuf> {
        self.said = Said::default();
        match act {
            ClassAct::Sort(it) => self.order = it,
            ClassAct::Only(it) => self.only = it,
            ClassAct::Read(it) => return Some(it),
            ClassAct::Beside(it) => {
                self.beside = it;
                self.release.came.clear();
                if matches!(it, BesideTable::Decision(_)) {
                    self.decision = deciding::Form::new();
                }
            }
            ClassAct::Decide => match self.decide(wording) {
                Ok(said) => {
                    self.decision = deciding::Form::new();
                    self.say(&said);
                    self.review_again(ctx);
                }
                Err(why) => self.say_no(&why),
            },
            ClassAct::Release => match self.release_now(wording) {
                Ok(said) => {
                    self.say(&said);
                    self.review_again(ctx);
                }
                Err(why) => self.say_no(&why),
            },
            ClassAct::Again => self.review_again(ctx),
        }
        None
    }

    /// Has what is handed in reviewed beside the window; until it is there, the table stays as it is.
    fn review_again(&mut self, ctx: Option<&Context>) {
        self.coming = Some(reviewed_beside(self.reviewed.0.clone(), ctx));
    }

    /// Takes what has been reviewed, once it is there.
    pub fn look(&mut self, wording: &Wording) {
        let Some(coming) = &mut self.coming else { return };
        coming.look(Duration::ZERO);
        if coming.is_waiting() {
            return;
        }
        match self.coming.take().and_then(Beside::taken) {
            Some(Ok(it)) => {
                self.words = review_words(wording, &it.assignment, &it.review);
                self.files = files_of(&it.review);
                if let Some(first) = it.troubles.first() {
                    self.say_no(&first.say(wording));
                }
                self.reviewed = Arc::new((self.reviewed.0.clone(), it.assignment, it.review));
            }
            Some(Err(why)) => self.say_no(&why.say(wording)),
            None => {}
        }
    }

    /// Draws it.
    pub fn show(&mut self, ui: &mut Ui, panel: &mut PanelContext<'_>) {
        let frame = |fill: theme::Role| Frame::new().fill(fill.worn()).inner_margin(Margin::symmetric(24, 10));
        Panel::top("class").frame(frame(theme::PANEL)).show(ui, |ui| {
            panel.begin(ui, Pane::Places, "class-pane-top");
            ui.horizontal(|ui| {
                ui.label(theme::bold(&self.words.heading).size(20.0 * theme::scale_of(ui)));
                ui.with_layout(Layout::right_to_left(Align::Center), |ui| self.ways(ui, panel));
            });
            ui.label(&self.words.summary);
        });
        Panel::bottom("foot").frame(frame(theme::PANEL)).show(ui, |ui| {
            panel.begin(ui, Pane::Foot, "window-pane-foot");
            bars::start_foot(ui, panel, &self.said);
        });
        let wide = (BESIDE * theme::scale_of(ui)).min(0.45 * ui.available_width());
        Panel::right("beside").exact_size(wide).resizable(false).frame(frame(theme::PANEL)).show(ui, |ui| {
            panel.begin(ui, Pane::Beside, "class-pane-beside");
            match self.beside {
                BesideTable::Class => beside::show(ui, panel, self),
                BesideTable::Decision(row) => deciding::show(ui, panel, self, row),
                BesideTable::Release(row) => releasing::show(ui, panel, self, row),
            }
        });
        CentralPanel::default().frame(frame(theme::PAPER)).show(ui, |ui| {
            panel.begin(ui, Pane::Middle, "review-learners");
            table::show(ui, panel, self);
        });
    }

    /// What can be done with the class as a whole, from the right.
    fn ways(&self, ui: &mut Ui, panel: &mut PanelContext<'_>) {
        if self.has_way_back {
            let text = panel.say("class-leave", &[]);
            if panel.button(ui, "leave", &text) {
                panel.intents.push(Intent::Leave);
            }
        }
        let text = panel.say("class-again", &[]);
        if panel.button_if(ui, self.coming.is_none(), "class:again", &text) {
            panel.intents.push(Intent::Class(ClassAct::Again));
        }
        let text = panel.say("class-release", &[]);
        if panel.button(ui, "class:release", &text) {
            panel.intents.push(Intent::Class(ClassAct::Beside(BesideTable::Release(None))));
        }
    }

    fn class(&self) -> &ClassFiles {
        &self.reviewed.0
    }

    fn assignment(&self) -> &Assignment {
        &self.reviewed.1
    }

    fn review(&self) -> &Review {
        &self.reviewed.2
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

/// Of each row the file that counts, if it lies on the disk as a file of its own.
fn files_of(review: &Review) -> Vec<Option<PathBuf>> {
    let file = |row: &ReviewRow| row.counting().map(|(file, _)| PathBuf::from(&file.file)).filter(|it| it.is_file());
    review.rows.iter().map(file).collect()
}

/// The way back from what stands beside the table to what the class gets wrong.
fn way_back(ui: &mut Ui, panel: &mut PanelContext<'_>) {
    let text = panel.say("class-back-beside", &[]);
    if panel.button(ui, "beside:class", &text) {
        panel.intents.push(Intent::Class(ClassAct::Beside(BesideTable::Class)));
    }
}

#[cfg(test)]
impl ClassState {
    /// Learners in the order of the rows that are shown.
    pub fn learners(&self) -> Vec<u64> {
        self.rows().into_iter().map(|it| self.review().rows[it].learner).collect()
    }

    /// Whether it is waiting for a review.
    pub fn is_waiting(&self) -> bool {
        self.coming.is_some()
    }
}
