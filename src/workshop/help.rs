//! The keys and the cautions, one key away on every screen.

use bevy_egui::egui::{CentralPanel, Frame, Grid, Margin, ScrollArea, Ui};
use switchdrop::wording::cautions;

use super::{
    desk::{Desk, Intent, Pane},
    theme,
};

/// The keys, and what each does.
const KEYS: [(&str, &str); 10] = [
    ("window-key-tab", "window-key-tab-does"),
    ("window-key-pane", "window-key-pane-does"),
    ("window-key-places", "window-key-places-does"),
    ("window-key-arrows", "window-key-arrows-does"),
    ("window-key-enter", "window-key-enter-does"),
    ("window-key-connect", "window-key-connect-does"),
    ("window-key-escape", "window-key-escape-does"),
    ("window-key-undo", "window-key-undo-does"),
    ("window-key-scale", "window-key-scale-does"),
    ("window-key-help", "window-key-help-does"),
];

/// Draws it.
pub fn show(ui: &mut Ui, desk: &mut Desk<'_>) {
    let edge = Frame::new().fill(theme::PAPER).inner_margin(Margin::symmetric(24, 20));
    CentralPanel::default().frame(edge).show(ui, |ui| {
        desk.begin(ui, Pane::Middle, "window-help");
        ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
            theme::page(ui, 1060.0, |ui| {
                ui.horizontal(|ui| {
                    let text = desk.say("window-help-close", &[]);
                    if desk.main_button(ui, "help-close", &text) {
                        desk.intents.push(Intent::Help);
                    }
                });
                ui.add_space(10.0);
                ui.heading(theme::bold(desk.say("window-keys", &[])));
                Grid::new("keys").num_columns(2).spacing([24.0, 6.0]).show(ui, |ui| {
                    for (key, does) in KEYS {
                        ui.label(theme::bold(desk.say(key, &[])));
                        ui.label(desk.say(does, &[]));
                        ui.end_row();
                    }
                });
                ui.add_space(14.0);
                ui.heading(theme::bold(desk.say("cautions-heading", &[])));
                for (index, it) in cautions(desk.wording).iter().enumerate() {
                    ui.label(format!("{}.  {it}", index + 1));
                }
            });
        });
    });
}
