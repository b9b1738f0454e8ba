//! The cautions, the keys and what each tool is for, one key away on every screen.

use bevy_egui::egui::{CentralPanel, Frame, Margin, ScrollArea, Ui};
use switchdrop::wording::cautions;

use super::{
    panel::{Intent, Pane, PanelContext},
    theme,
};

/// The keys, and what each does.
const KEYS: [(&str, &str); 13] = [
    ("window-key-tab", "window-key-tab-does"),
    ("window-key-pane", "window-key-pane-does"),
    ("window-key-next", "window-key-next-does"),
    ("window-key-places", "window-key-places-does"),
    ("window-key-arrows", "window-key-arrows-does"),
    ("window-key-enter", "window-key-enter-does"),
    ("window-key-connect", "window-key-connect-does"),
    ("window-key-escape", "window-key-escape-does"),
    ("window-key-undo", "window-key-undo-does"),
    ("window-key-scale", "window-key-scale-does"),
    ("window-key-finding", "window-key-finding-does"),
    ("window-key-words", "window-key-words-does"),
    ("window-key-help", "window-key-help-does"),
];

/// The tools, in the order they are first taken up, and what each is for.
const TOOLS: [(&str, &str); 17] = [
    ("window-tool-tray", "window-tool-tray-does"),
    ("window-tool-main-switch", "window-tool-main-switch-does"),
    ("window-tool-report", "window-tool-report-does"),
    ("window-tool-indicator", "window-tool-indicator-does"),
    ("window-tool-sheath", "window-tool-sheath-does"),
    ("window-tool-strippers", "window-tool-strippers-does"),
    ("window-tool-grommet", "window-tool-grommet-does"),
    ("window-tool-screwdriver", "window-tool-screwdriver-does"),
    ("window-tool-pull", "window-tool-pull-does"),
    ("window-tool-dress", "window-tool-dress-does"),
    ("window-tool-inspect", "window-tool-inspect-does"),
    ("window-tool-tester", "window-tool-tester-does"),
    ("window-tool-null", "window-tool-null-does"),
    ("window-tool-link", "window-tool-link-does"),
    ("window-tool-next", "window-tool-next-does"),
    ("window-tool-sheet", "window-tool-sheet-does"),
    ("window-tool-story", "window-tool-story-does"),
];

/// How wide the names of keys and tools are at the normal text size, points.
const NAMES: f32 = 190.0;
/// Text larger than this of the normal size has no room for two columns.
const TWO_COLUMNS: f32 = 1.2;

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>) {
    let edge = Frame::new().fill(theme::PAPER.worn()).inner_margin(Margin::symmetric(24, 20));
    CentralPanel::default().frame(edge).show(ui, |ui| {
        panel.begin(ui, Pane::Middle, "window-help");
        let text = panel.say("window-help-close", &[]);
        if panel.main_button(ui, "help-close", &text) {
            panel.intents.push(Intent::Help);
        }
        ui.add_space(6.0);
        ScrollArea::vertical().id_salt("help").auto_shrink(false).show(ui, |ui| {
            theme::page(ui, 1400.0, |ui| {
                if theme::scale_of(ui) > TWO_COLUMNS {
                    cautioned(ui, panel);
                    keys(ui, panel);
                } else {
                    ui.columns(2, |columns| {
                        cautioned(&mut columns[0], panel);
                        keys(&mut columns[1], panel);
                    });
                }
                ui.add_space(14.0);
                ui.heading(theme::bold(panel.say("window-tools", &[])));
                for (key, does) in TOOLS {
                    theme::fact(ui, NAMES, theme::bold(panel.say(key, &[])), &panel.say(does, &[]));
                }
            });
        });
    });
}

fn cautioned(ui: &mut Ui, panel: &PanelContext<'_>) {
    ui.heading(theme::bold(panel.say("cautions-heading", &[])));
    for (index, it) in cautions(panel.wording).iter().enumerate() {
        theme::fact(ui, 28.0, theme::bold(format!("{}.", index + 1)), it);
    }
}

fn keys(ui: &mut Ui, panel: &PanelContext<'_>) {
    ui.heading(theme::bold(panel.say("window-keys", &[])));
    for (key, does) in KEYS {
        theme::fact(ui, NAMES, theme::bold(panel.say(key, &[])), &panel.say(does, &[]));
    }
}
