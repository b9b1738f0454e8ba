//! What is done at a place beside the handwork: looking at every termination, a board's switches, reporting what was wrong.

use bevy_egui::egui::Ui;
use switchdrop::{
    exercise::{LocationId, Stage},
    wording::fault_key,
    work::{Action, Fault},
};

use super::{
    board,
    panel::PanelContext,
    session::Session,
    view::{Sight, View},
};

/// What can be reported, with its key on the screen.
const FAULTS: [(Fault, &str); 3] =
    [(Fault::Chart, "report:chart"), (Fault::Indicator, "report:indicator"), (Fault::Wiring, "report:wiring")];

/// Looking at every termination, at one of the learner's places.
pub fn inspection(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, at: LocationId) {
    let exercise = session.attempt.work().exercise();
    if exercise.asks(Stage::Inspection) && exercise.learners_places().contains(&at) {
        let text = panel.say("window-inspect", &[]);
        let left = session.attempt.safety().testing().inspections_left(exercise).contains(&at);
        if panel.button_if(ui, left, "inspect", &text) {
            panel.act(Action::Inspect { location: exercise.locations[at].id.clone() });
        }
    }
}

/// What stands in front of the devices, at a board; and what can be reported.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    let Sight::Location(at) = view.at else { return };
    if session.is_over() {
        return;
    }
    let work = session.attempt.work();
    let exercise = work.exercise();
    let place = &exercise.locations[at];
    board::show(ui, panel, session, at);
    ui.horizontal_wrapped(|ui| {
        if exercise.asks(Stage::Isolation) {
            let text = panel.say("window-report", &[]);
            if panel.choice(ui, view.reports, "report", &text) {
                view.reports = !view.reports;
            }
        }
    });
    if !view.reports {
        return;
    }
    for (what, key) in FAULTS {
        let text = panel.say(fault_key(what), &[]);
        if panel.button_if(ui, !session.attempt.tally().is_reported(what, at), key, &text) {
            panel.act(Action::Report { at: place.id.clone(), what });
            view.reports = false;
        }
    }
}
