//! The multifunction tester in hand: its leads, their resistance, the test link, and the next reading. Its dial is on itself, in the tray.
//!
//! What a reading belongs to and what is still to be read is the library's to say.

use bevy_egui::egui::Ui;
use switchdrop::{
    attempt::{ToRead, readings_to_take},
    exercise::{Exercise, LocationId, Stage},
    trade::instrument::{Function, LeadLength},
    wording::stage_key,
    work::{Action, Point, Work},
};

use super::{
    panel::PanelContext,
    probes,
    session::Session,
    theme,
    touch::words,
    view::{Sight, Tester, View},
};

/// The stages of an exercise in which the tester is read.
pub fn stages(exercise: &Exercise) -> impl Iterator<Item = Stage> + '_ {
    let asks = |it: Stage| exercise.asks(it) || it == Stage::Polarity && exercise.asks(Stage::Continuity);
    Stage::READ.into_iter().filter(move |it| asks(*it))
}

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    let work = session.attempt.work();
    leads(ui, panel, session, view);
    next(ui, panel, session, view);
    probes::both(ui, panel, session, view);
    links(ui, panel, work, view);
    probes::readings(ui, panel, view);
}

fn leads(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    ui.horizontal_wrapped(|ui| {
        let leads = [
            (LeadLength::Short, "lead:short", panel.say("window-lead-short", &[])),
            (LeadLength::Long, "lead:long", panel.say("window-lead-long", &[])),
        ];
        for (lead, key, text) in leads {
            if panel.choice(ui, view.tester.lead == lead, key, &text) {
                view.tester.lead = lead;
            }
        }
        if view.tester.function == Function::Continuity {
            let nulled = session.attempt.safety().testing().meter(Function::Continuity, view.tester.lead).nulled;
            let text = if nulled { panel.say("window-nulled", &[]) } else { panel.say("window-null", &[]) };
            if panel.button_if(ui, !nulled, "null", &text) {
                panel.act(Action::Null { lead: view.tester.lead });
            }
        }
    });
}

/// The next reading that a stage still needs: the dial, the leads and the probes as it takes them.
fn next(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    let work = session.attempt.work();
    let exercise = work.exercise();
    let found = stages(exercise).find_map(|stage| {
        let left = readings_to_take(&session.attempt, stage);
        left.first().cloned().map(|it| (stage, left.len(), it))
    });
    let Some((stage, count, it)) = found else {
        theme::quiet(ui, &panel.say("window-nothing-to-read", &[]));
        return;
    };
    let args = [("stage", panel.say(stage_key(stage), &[])), ("count", count.to_string())];
    theme::quiet(ui, &panel.say("window-to-read", &args.each_ref().map(|(key, it)| (*key, it.as_str()))));
    probes::set_switches(ui, panel, work, &it.positions);
    set_link(ui, panel, work, &it);
    let pair = it.points.map_or([None, None], |it| it.map(|it| Some(work.point_address(it))));
    let tester = Tester { function: it.function, lead: it.lead };
    let text = panel.say("window-next-reading", &[]);
    let pressed = panel.button(ui, "next-reading", &text);
    panel.is_on(view.probes == pair && view.tester == tester);
    if pressed {
        view.go(place_of(work, &it).map_or(Sight::Place, Sight::Location));
        (view.probes, view.next_probe, view.tester) = (pair, 0, tester);
    }
}

/// Where a reading is taken: away from the board where one of the probes is, else at the board.
pub fn place_of(work: &Work, it: &ToRead) -> Option<LocationId> {
    let places = it.points.iter().flatten().map(|it| work.point_location(*it));
    let board = || work.exercise().devices.get(it.circuit).map(|it| it.location);
    places.clone().find(|it| !work.is_board(*it)).or_else(board)
}

/// Where the next reading needs line and cpc linked at the board, a button does that; where it needs no link, the links
/// that are in are named further down.
fn set_link(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, it: &ToRead) {
    let exercise = work.exercise();
    let bar = exercise.earth_bars().next().map(|it| &exercise.terminals[it]);
    if it.linked && work.links().is_empty() {
        let line = &exercise.terminals[exercise.devices[it.circuit].line];
        let text = panel.say("window-set-link", &[]);
        if let Some(bar) = bar
            && panel.button(ui, "set-link", &text)
        {
            panel.act(Action::FitLink { a: line.address.clone(), b: bar.address.clone() });
        }
    } else if !it.linked && !work.links().is_empty() {
        theme::quiet(ui, &panel.say("window-no-link", &[]));
    }
}

/// A test link between the points under the probes, and those that are in.
pub fn links(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, view: &View) {
    let pair = view.probes[0].clone().zip(view.probes[1].clone());
    let is_in = |a: &str, b: &str| {
        work.links().iter().any(|it| {
            let ends: Vec<String> = it.iter().map(|it: &Point| work.point_address(*it)).collect();
            ends.iter().any(|it| it == a) && ends.iter().any(|it| it == b)
        })
    };
    let text = panel.say("window-fit-link", &[]);
    let can = pair.as_ref().is_some_and(|(a, b)| a != b && !is_in(a, b));
    if panel.button_if(ui, can, "fit-link", &text)
        && let Some((a, b)) = pair
    {
        panel.act(Action::FitLink { a, b });
    }
    for (number, [a, b]) in work.links().iter().enumerate() {
        let (a, b) = (work.point_address(*a), work.point_address(*b));
        let args = [("a", words(panel, work, Some(&a))), ("b", words(panel, work, Some(&b)))];
        let text = panel.say("window-take-link", &args.each_ref().map(|(key, it)| (*key, it.as_str())));
        if panel.line(ui, &format!("take-link:{}", number + 1), "–", &text) {
            panel.act(Action::TakeLink { a, b });
        }
    }
}
