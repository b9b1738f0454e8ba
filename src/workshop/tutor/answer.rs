//! Beside the form of an assignment: what can be asked for, and what came of it.

use std::path::PathBuf;

use bevy_egui::egui::{Label, RichText, Ui, vec2};
use switchdrop::{exercise::Exercise, picture::Scene};

use super::TutorAct;
use crate::workshop::{
    exercise_cards::{PICTURE, brief, picture},
    field::named,
    panel::{Intent, PanelContext},
    start::harmless,
    theme,
};

/// What came of it.
pub enum Answer {
    /// Nothing was asked for yet.
    None,
    /// What is wrong with what is filled in, a sentence each.
    Wrong(Vec<String>),
    /// What a learner gets: sentences, then the exercises as they are drawn, each with its place.
    Preview(Vec<String>, Vec<(Exercise, Scene)>),
    /// The file is there.
    Written {
        /// The assignment.
        path: PathBuf,
        /// The folder for what is handed in.
        handed_in: PathBuf,
        /// What is to be said of it.
        lines: Vec<String>,
    },
}

impl Answer {
    /// Draws it, and above it what can be asked for.
    pub fn show(&self, ui: &mut Ui, panel: &mut PanelContext<'_>, learner: &mut String) {
        let text = panel.say("tutor-preview-of", &[]);
        named(ui, &text, |ui, label| {
            ui.horizontal(|ui| {
                panel.figure(ui, learner, "tutor:learner", &text);
                let text = panel.say("tutor-preview", &[]);
                if panel.button(ui, "tutor:preview", &text) {
                    panel.intents.push(Intent::Tutor(TutorAct::Preview));
                }
            });
            label
        });
        ui.add_space(6.0);
        let text = panel.say("tutor-write", &[]);
        if panel.main_button(ui, "tutor:write", &text) {
            panel.intents.push(Intent::Tutor(TutorAct::Write));
        }
        ui.add_space(12.0);
        match self {
            Self::None => theme::quiet(ui, &panel.say("tutor-nothing-yet", &[])),
            Self::Wrong(all) => {
                panel.heading(ui, "tutor-wrong");
                for it in all {
                    ui.add(Label::new(RichText::new(format!("× {}", harmless(it))).color(theme::WARNING)).wrap());
                }
            }
            Self::Preview(lines, drawn) => {
                for it in lines {
                    ui.add(Label::new(it).wrap());
                }
                for (exercise, place) in drawn {
                    ui.add_space(8.0);
                    ui.add(Label::new(theme::bold(&exercise.title)).wrap());
                    theme::quiet(ui, &exercise.place);
                    picture(ui, place, vec2(PICTURE.0, PICTURE.1) * theme::scale_of(ui).min(1.2));
                    brief(ui, &exercise.brief, 8);
                }
            }
            Self::Written { lines, .. } => {
                for it in lines {
                    ui.add(Label::new(harmless(it)).wrap());
                }
                ui.add_space(8.0);
                let text = panel.say("tutor-open-this", &[]);
                if panel.button(ui, "tutor:open-this", &text) {
                    panel.intents.push(Intent::Tutor(TutorAct::Open));
                }
            }
        }
    }
}
