//! Opening a class: its assignment, what was handed in, and the register; and those that were open before.

use std::path::Path;

use bevy_egui::egui::{Label, Ui};
use switchdrop::wording::Wording;

use super::{TutorAct, files_of};
use crate::{
    desk::ClassFiles,
    journal::KeptClass,
    workshop::{
        field::{PATH, field},
        panel::{Intent, PanelContext},
        start::harmless,
        theme,
    },
};

/// How wide the fields are at the normal text size, points.
const WIDE: f32 = 520.0;

/// What is filled in.
#[derive(Debug, Clone)]
pub struct Form {
    assignment: String,
    handed_in: String,
    register: String,
}

impl Form {
    /// With nothing filled in but the register.
    pub fn new(home: Option<&Path>) -> Self {
        let register = home.map_or_else(String::new, |it| it.join("register.db").display().to_string());
        Self { assignment: String::new(), handed_in: String::new(), register }
    }

    /// Fills in an assignment that was just written.
    pub fn is_for(&mut self, assignment: &Path, handed_in: &Path) {
        self.assignment = assignment.display().to_string();
        self.handed_in = handed_in.display().to_string();
    }

    /// Fills in one that was open before.
    pub fn is_again(&mut self, it: &KeptClass) {
        self.assignment.clone_from(&it.assignment);
        self.handed_in.clone_from(&it.handed_in);
        self.register.clone_from(&it.register);
    }

    /// The class that is filled in.
    ///
    /// # Errors
    /// What is not filled in.
    pub fn files(&self, wording: &Wording) -> Result<ClassFiles, String> {
        for (typed, key) in [
            (&self.assignment, "tutor-wrong-assignment"),
            (&self.handed_in, "tutor-wrong-handed-in"),
            (&self.register, "tutor-wrong-register"),
        ] {
            if typed.trim().is_empty() {
                return Err(wording.say(key, &[]));
            }
        }
        let Self { assignment, handed_in, register } = self.clone();
        Ok(files_of(&KeptClass { assignment, handed_in, register }))
    }

    /// Draws it.
    pub fn show(&mut self, ui: &mut Ui, panel: &mut PanelContext<'_>, is_reviewing: bool) {
        ui.label(panel.say("tutor-open-means", &[]));
        ui.add_space(6.0);
        field(ui, panel, ("tutor:assignment", "tutor-assignment"), &mut self.assignment, (PATH, WIDE));
        field(ui, panel, ("tutor:handed-in", "tutor-handed-in"), &mut self.handed_in, (PATH, WIDE));
        theme::quiet(ui, &panel.say("tutor-handed-in-means", &[]));
        field(ui, panel, ("tutor:register", "tutor-register"), &mut self.register, (PATH, WIDE));
        theme::quiet(ui, &panel.say("tutor-register-means", &[]));
        ui.add_space(10.0);
        let text = panel.say("tutor-open-it", &[]);
        if is_reviewing {
            panel.button_if(ui, false, "tutor:go", &text);
            ui.label(panel.say("tutor-reviewing", &[]));
        } else if panel.main_button(ui, "tutor:go", &text) {
            panel.intents.push(Intent::Tutor(TutorAct::Open));
        }
    }
}

/// Draws the classes that were open before.
pub fn before(ui: &mut Ui, panel: &mut PanelContext<'_>, all: &[KeptClass]) {
    panel.heading(ui, "tutor-before");
    if all.is_empty() {
        ui.add(Label::new(panel.say("tutor-before-none", &[])).wrap());
    }
    for (place, it) in all.iter().enumerate() {
        let name = Path::new(&it.assignment).file_stem().map(|it| it.to_string_lossy().into_owned());
        let text = panel.say("tutor-open-again", &[("name", &harmless(&name.unwrap_or_default()))]);
        if panel.line(ui, &format!("tutor:again:{place}"), "⏵", &text) {
            panel.intents.push(Intent::Tutor(TutorAct::OpenAgain(place)));
        }
        theme::quiet(ui, &harmless(&it.assignment));
    }
}
