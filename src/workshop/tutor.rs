//! The tutor's side of the first screen: work is set here, and a class that was set work is opened. What is written is what the command line
//! writes, by the same functions of [`crate::desk`].

mod answer;
mod opening;
mod setting;

use std::{
    path::{Path, PathBuf},
    time::Duration,
};

use bevy_egui::egui::{CentralPanel, Context, Frame, Margin, Panel, ScrollArea, Ui};
use switchdrop::wording::Wording;

use super::{
    bars,
    beside::Beside,
    panel::{Intent, Pane, PanelContext},
    theme,
    view::{Said, Tone},
};
use crate::{
    desk::{ClassFiles, ClassTrouble, Reviewed, review},
    journal::{KeptClass, ScenarioLibrary},
};

/// What can be done there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TutorAct {
    /// Go there.
    Enter,
    /// Turn to one of its pages.
    Turn(TutorPage),
    /// Say what a learner gets by what is filled in.
    Preview,
    /// Write the assignment that is filled in.
    Write,
    /// Open the class whose files are filled in.
    Open,
    /// Open one that was open before, by its place in the list.
    OpenAgain(usize),
}

/// Its pages.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TutorPage {
    /// Set work.
    Setting,
    /// Open a class.
    Opening,
}

/// What is filled in there, and what came of it.
pub struct TutorState {
    page: TutorPage,
    setting: setting::Form,
    answer: answer::Answer,
    opening: opening::Form,
    /// Classes that were open before, the last one first.
    before: Vec<KeptClass>,
    /// The class that is being reviewed.
    reviewing: Option<(ClassFiles, Beside<Result<Reviewed, ClassTrouble>>)>,
    said: Said,
}

impl TutorState {
    /// As it opens. `home`: where work that is set and the register are kept unless somebody says otherwise.
    pub fn new(home: Option<&Path>, before: Vec<KeptClass>) -> Self {
        Self {
            page: TutorPage::Setting,
            setting: setting::Form::new(home),
            answer: answer::Answer::None,
            opening: opening::Form::new(home),
            before,
            reviewing: None,
            said: Said::default(),
        }
    }

    /// What was said last.
    pub const fn said(&self) -> &Said {
        &self.said
    }

    /// Says why something could not be done.
    pub fn say_no(&mut self, text: String) {
        self.said = Said { text, tone: Tone::No };
    }

    /// Does what was asked for.
    pub fn apply(&mut self, act: TutorAct, library: &ScenarioLibrary, wording: &Wording, ctx: Option<&Context>) {
        self.said = Said::default();
        match act {
            TutorAct::Enter => {}
            TutorAct::Turn(page) => self.page = page,
            TutorAct::Preview => self.answer = self.setting.preview(library, wording),
            TutorAct::Write => {
                self.answer = self.setting.write(library, wording);
                if let answer::Answer::Written { path, handed_in, .. } = &self.answer {
                    self.opening.is_for(path, handed_in);
                }
            }
            TutorAct::Open => match self.opening.files(wording) {
                Ok(files) => self.review(files, ctx),
                Err(why) => self.say_no(why),
            },
            TutorAct::OpenAgain(place) => {
                if let Some(it) = self.before.get(place) {
                    self.opening.is_again(it);
                    let files = files_of(it);
                    self.review(files, ctx);
                }
            }
        }
    }

    /// Has a class reviewed beside the window.
    fn review(&mut self, files: ClassFiles, ctx: Option<&Context>) {
        self.page = TutorPage::Opening;
        self.reviewing = Some((files.clone(), reviewed_beside(files, ctx)));
    }

    /// The class that was to be opened, once it is reviewed.
    pub fn look(&mut self, wording: &Wording) -> Option<(ClassFiles, Reviewed)> {
        let (_, beside) = self.reviewing.as_mut()?;
        beside.look(Duration::ZERO);
        if beside.is_waiting() {
            return None;
        }
        let (files, beside) = self.reviewing.take()?;
        match beside.taken()? {
            Ok(it) => {
                let kept = kept(&files);
                self.before.retain(|it| it.assignment != kept.assignment);
                self.before.insert(0, kept);
                self.before.truncate(KeptClass::MOST);
                Some((files, it))
            }
            Err(why) => {
                self.say_no(super::start::harmless(&why.say(wording)));
                None
            }
        }
    }

    /// Classes that were open, to be remembered.
    pub fn before(&self) -> &[KeptClass] {
        &self.before
    }

    /// Draws it.
    pub fn show(&mut self, ui: &mut Ui, panel: &mut PanelContext<'_>, library: &ScenarioLibrary) {
        let foot = Frame::new().fill(theme::PANEL.worn()).inner_margin(Margin::symmetric(24, 6));
        Panel::bottom("foot").frame(foot).show(ui, |ui| {
            panel.begin(ui, Pane::Foot, "window-pane-foot");
            bars::start_foot(ui, panel, &self.said);
        });
        let head = Frame::new().fill(theme::PANEL.worn()).inner_margin(Margin::symmetric(24, 10));
        Panel::top("tutor").frame(head).show(ui, |ui| {
            panel.begin(ui, Pane::Places, "tutor-title");
            ui.horizontal_wrapped(|ui| {
                let text = panel.say("tutor-back", &[]);
                if panel.button(ui, "leave", &text) {
                    panel.intents.push(Intent::Leave);
                }
                ui.add_space(8.0);
                ui.heading(theme::bold(panel.say("tutor-title", &[])));
                ui.add_space(12.0);
                for (page, key, text) in
                    [(TutorPage::Setting, "tutor:set", "tutor-set"), (TutorPage::Opening, "tutor:open", "tutor-open")]
                {
                    let text = panel.say(text, &[]);
                    if panel.choice(ui, self.page == page, key, &text) {
                        panel.intents.push(Intent::Tutor(TutorAct::Turn(page)));
                    }
                }
            });
        });
        let wide = (ui.available_width() * 0.36).clamp(360.0, 620.0);
        let edge = Frame::new().fill(theme::PANEL.worn()).inner_margin(Margin::symmetric(20, 16));
        Panel::right("beside").frame(edge).resizable(false).exact_size(wide).show(ui, |ui| {
            panel.begin(ui, Pane::Beside, "tutor-pane-beside");
            ScrollArea::vertical().id_salt("tutor-beside").auto_shrink(false).show(ui, |ui| match self.page {
                TutorPage::Setting => self.answer.show(ui, panel, &mut self.setting.learner),
                TutorPage::Opening => opening::before(ui, panel, &self.before),
            });
        });
        let edge = Frame::new().fill(theme::PAPER.worn()).inner_margin(Margin::symmetric(24, 16));
        CentralPanel::default().frame(edge).show(ui, |ui| {
            panel.begin(ui, Pane::Middle, "tutor-pane-form");
            let salt = if self.page == TutorPage::Setting { "tutor-set" } else { "tutor-open" };
            ScrollArea::vertical().id_salt(salt).auto_shrink(false).show(ui, |ui| {
                theme::page(ui, 900.0, |ui| match self.page {
                    TutorPage::Setting => self.setting.show(ui, panel, library),
                    TutorPage::Opening => self.opening.show(ui, panel, self.reviewing.is_some()),
                });
            });
        });
    }
}

/// Reviews a class beside the window.
pub fn reviewed_beside(files: ClassFiles, ctx: Option<&Context>) -> Beside<Result<Reviewed, ClassTrouble>> {
    Beside::new("review", ctx.cloned(), move || match files.missing().into_iter().next() {
        Some(it) => Err(it),
        None => review(&files, |_, _| {}),
    })
}

/// A path as somebody typed or pasted it: the blanks and quotes around it are not its own.
fn path_of(typed: &str) -> PathBuf {
    PathBuf::from(typed.trim().trim_matches(['"', '\'']))
}

/// A class as it is remembered.
fn kept(it: &ClassFiles) -> KeptClass {
    let text = |path: Option<&PathBuf>| path.map_or_else(String::new, |it| it.display().to_string());
    KeptClass {
        assignment: text(Some(&it.assignment)),
        handed_in: text(it.files.first()),
        register: text(it.register.as_ref()),
    }
}

/// The files of a class that is remembered.
fn files_of(it: &KeptClass) -> ClassFiles {
    ClassFiles {
        assignment: path_of(&it.assignment),
        files: vec![path_of(&it.handed_in)],
        register: Some(path_of(&it.register)),
        ..ClassFiles::default()
    }
}
