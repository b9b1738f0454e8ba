//! Beside the table: who needs help first, what the class gets wrong, how it did by criterion, what belongs to nobody. A line shows its
//! learners alone in the table.

use bevy_egui::egui::{ProgressBar, ScrollArea, Ui};

use super::{ClassAct, ClassState};
use crate::workshop::{
    panel::{Intent, PanelContext},
    theme,
};

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, state: &ClassState) {
    ScrollArea::vertical().id_salt("class-beside").auto_shrink(false).show(ui, |ui| {
        let help = state.review().help_first();
        panel.heading(ui, "review-help");
        if help.is_empty() {
            theme::quiet(ui, &panel.say("class-no-help", &[]));
        }
        for (it, text) in help.iter().zip(&state.words.help) {
            only(ui, panel, state, &format!("help:{}", it.learner), text, &[it.learner]);
        }
        ui.add_space(10.0);
        panel.heading(ui, "review-faults");
        if state.words.faults.is_empty() {
            theme::quiet(ui, &panel.say("class-no-faults", &[]));
        }
        for (number, (it, text)) in state.review().faults.iter().zip(&state.words.faults).enumerate() {
            only(ui, panel, state, &format!("fault:{number}"), text, &it.learners);
        }
        if !state.words.criteria.is_empty() {
            ui.add_space(10.0);
            panel.heading(ui, "review-criteria");
        }
        for (it, text) in state.review().criteria.iter().zip(&state.words.criteria) {
            ui.label(text);
            let share = if it.out_of == 0 { 0.0 } else { it.marks as f32 / it.out_of as f32 };
            ui.add(ProgressBar::new(share).desired_height(8.0).fill(theme::ACCENT.worn()));
        }
        for (key, lines) in [("review-strays", &state.words.strays), ("review-passed-over", &state.words.passed_over)] {
            if !lines.is_empty() {
                ui.add_space(10.0);
                panel.heading(ui, key);
                for it in lines {
                    ui.label(it);
                }
            }
        }
    });
}

/// A line that shows these learners alone, and all of them again.
fn only(ui: &mut Ui, panel: &mut PanelContext<'_>, state: &ClassState, key: &str, text: &str, learners: &[u64]) {
    let is_on = state.only == learners;
    if panel.line(ui, key, if is_on { "⏵" } else { "·" }, text) {
        let next = if is_on { Vec::new() } else { learners.to_vec() };
        panel.intents.push(Intent::Class(ClassAct::Only(next)));
    }
    panel.is_on(is_on);
}
