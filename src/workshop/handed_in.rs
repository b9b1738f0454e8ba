//! What a learner is told of set work that is handed in: its receipt code and where its file lies; and, where marks and findings are not for
//! them yet, what that waits for.

use bevy_egui::egui::{CentralPanel, Frame, Margin, Panel, RichText, ScrollArea, Stroke, Ui};
use switchdrop::{
    marking::{Answers, Until},
    report::receipt_code,
    wording::when,
};

use super::{
    bars,
    panel::{Intent, Pane, PanelContext},
    session::Session,
    start::harmless,
    theme,
    view::Sight,
};

/// Draws the screen that stands in place of the sheet while that is withheld.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session) {
    let frame = Frame::new().fill(theme::PANEL.worn()).inner_margin(Margin::symmetric(24, 8));
    Panel::top("after").frame(frame).show(ui, |ui| {
        panel.begin(ui, Pane::Places, "window-pane-after");
        ui.horizontal_wrapped(|ui| {
            let text = panel.say("window-leave", &[]);
            if panel.main_button(ui, "leave", &text) {
                panel.intents.push(Intent::Leave);
            }
            let text = panel.say("window-look", &[]);
            if panel.button(ui, "look", &text) {
                panel.intents.push(Intent::Go(Sight::Place));
            }
        });
    });
    bars::page_foot(ui, panel);
    let frame = Frame::new().fill(theme::PAPER.worn()).inner_margin(Margin::symmetric(24, 20));
    CentralPanel::default().frame(frame).show(ui, |ui| {
        panel.begin(ui, Pane::Middle, "window-pane-handed-in");
        ScrollArea::vertical().id_salt(&session.path).auto_shrink(false).show(ui, |ui| {
            theme::page(ui, 1000.0, |ui| {
                let exercise = session.attempt.work().exercise();
                ui.label(theme::bold(&exercise.title).size(22.0 * theme::scale_of(ui)));
                let args = [("learner", session.learner.as_str()), ("place", &exercise.place)];
                theme::quiet(ui, &panel.say("window-sheet-of", &args));
                ui.add_space(8.0);
                unsettled(ui, panel, session);
                receipt(ui, panel, session);
                ui.add_space(8.0);
                if let Answers::Withheld(until) = session.answers() {
                    ui.label(match &until {
                        Until::Time(time) => panel.say("window-withheld-time", &[("time", &when(panel.wording, time))]),
                        Until::Release | Until::HandIn => panel.say("window-withheld-release", &[]),
                    });
                } else {
                    // It has come while this stood here.
                    ui.label(panel.say("window-withheld-no-more", &[]));
                }
                ui.add_space(12.0);
                ui.label(theme::bold(panel.say("report-practice-record", &[])));
                ui.label(panel.say("window-practice-only", &[]));
            });
        });
    });
}

/// Says that it may not have come to the disk, if so.
pub fn unsettled(ui: &mut Ui, panel: &PanelContext<'_>, session: &Session) {
    if let Some(trouble) = &session.unsettled {
        let why = harmless(&trouble.say(panel.wording));
        let text = format!("⚠  {}", panel.say("window-unsettled", &[("why", &why)]));
        ui.label(RichText::new(text).color(theme::WARNING));
    }
}

/// The receipt code of set work, large enough to be copied from the screen, and its file.
pub fn receipt(ui: &mut Ui, panel: &PanelContext<'_>, session: &Session) {
    let (Some(_), Some(receipt), false) = (&session.assigned, &session.receipt, session.is_reviewed) else { return };
    let frame = Frame::new().fill(theme::PANEL.worn()).stroke(Stroke::new(2.0, theme::ACCENT)).corner_radius(6);
    frame.inner_margin(Margin::symmetric(14, 10)).show(ui, |ui| {
        ui.label(theme::bold(panel.say("window-set-handed-in", &[])));
        ui.label(theme::bold(receipt_code(receipt)).monospace().size(30.0 * theme::scale_of(ui)));
        ui.label(panel.say("window-set-receipt-means", &[]));
        let path = harmless(&session.path.display().to_string());
        ui.label(panel.say("window-set-file", &[("path", &path)]));
    });
}
