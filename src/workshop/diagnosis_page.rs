//! The diagnosis: what was read so far, and the faults that may be there, one of which is said to be it.
//!
//! Which of them still fit is for the learner to work out; the sheet tells it afterwards.

use bevy_egui::egui::{Frame, Margin, ScrollArea, Ui};
use switchdrop::{
    wording::{suspect, taken},
    work::Action,
};

use super::{
    panel::{PanelContext, group},
    session::Session,
    theme,
};

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session) {
    let work = session.attempt.work();
    let said = session.attempt.tally().diagnoses.last().map(|it| it.suspect);
    ScrollArea::both().id_salt("diagnosis").auto_shrink(false).show(ui, |ui| {
        Frame::new().inner_margin(Margin::same(20)).show(ui, |ui| {
            ui.heading(theme::bold(panel.say("window-diagnosis", &[])));
            ui.label(panel.say("window-diagnosis-means", &[]));
            ui.add_space(6.0);
            let name = panel.say("window-suspects", &[]);
            group(ui, &name);
            ui.label(theme::bold(&name));
            for (index, it) in work.exercise().suspects.iter().enumerate() {
                let text = suspect(panel.wording, work, it);
                let is_said = said == Some(index);
                if session.is_over() {
                    let sign = if is_said { "●" } else { "○" };
                    ui.label(format!("{sign} {text}"));
                } else if panel.choice(ui, is_said, &format!("suspect:{:?}:{}", it.kind, it.at.join("+")), &text)
                    && !is_said
                {
                    panel.act(Action::Diagnose { what: it.kind, at: it.at.clone() });
                }
            }
            ui.add_space(10.0);
            let name = panel.say("window-readings-taken", &[]);
            group(ui, &name);
            ui.label(theme::bold(&name));
            let readings = &session.attempt.tally().readings;
            if readings.is_empty() {
                theme::quiet(ui, &panel.say("window-no-reading-yet", &[]));
            }
            for (number, it) in (1..).zip(readings) {
                ui.label(taken(panel.wording, number, it));
            }
        });
    });
}
