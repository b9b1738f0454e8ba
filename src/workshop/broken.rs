//! The screen after a screen broke down: that the work is kept, where, and the way back. As plain as can be, for whatever broke may
//! break again.

use std::{any::Any, path::PathBuf};

use bevy_egui::egui::{CentralPanel, Frame, Margin, Ui};

use super::{
    panel::{Intent, Pane, PanelContext},
    start::harmless,
    theme,
};

/// What is known of it.
#[derive(Debug)]
pub struct Broken {
    /// What the program says of itself.
    why: String,
    /// The file of the attempt that was open.
    path: Option<PathBuf>,
}

impl Broken {
    /// Of a panic, and the attempt that was open.
    pub fn of(panic: &(dyn Any + Send), path: Option<PathBuf>) -> Self {
        let text = panic.downcast_ref::<&str>().copied().or_else(|| panic.downcast_ref::<String>().map(String::as_str));
        Self { why: harmless(text.unwrap_or_default()), path }
    }

    /// Draws the screen.
    pub fn show(&self, ui: &mut Ui, panel: &mut PanelContext<'_>) {
        let edge = Frame::new().fill(theme::PAPER.worn()).inner_margin(Margin::same(32));
        CentralPanel::default().frame(edge).show(ui, |ui| {
            panel.begin(ui, Pane::Middle, "window-broke");
            theme::page(ui, 700.0, |ui| {
                ui.heading(theme::bold(panel.say("window-broke", &[])));
                ui.add_space(8.0);
                match &self.path {
                    Some(path) => {
                        let path = harmless(&path.display().to_string());
                        ui.label(panel.say("window-broke-kept", &[("path", &path)]));
                    }
                    None => {
                        ui.label(panel.say("window-broke-nothing-lost", &[]));
                    }
                }
                ui.add_space(8.0);
                let text = panel.say("window-broke-back", &[]);
                if panel.main_button(ui, "leave", &text) {
                    panel.intents.push(Intent::Leave);
                }
                ui.add_space(16.0);
                theme::quiet(ui, &panel.say("window-broke-why", &[("why", &self.why)]));
            });
        });
    }
}
