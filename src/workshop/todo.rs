//! What is still to do, in the order that it is asked for.
//!
//! Each line asks [`switchdrop::work::Safety`] or the work whether it is done; nothing is decided here.

use bevy_egui::egui::{RichText, Ui, vec2};
use switchdrop::{
    exercise::{Exercise, LocationId, Stage},
    work::{Action, Attempt, Check, Power},
};

use super::{
    desk::{Desk, Intent},
    theme,
    view::Sight,
};

/// What a line's button does.
enum Leads {
    Nowhere,
    To(Sight),
    Does(Action),
}

/// One line.
pub struct Line {
    key: String,
    text: String,
    done: bool,
    leads: Leads,
}

/// Draws the first line that is not done.
pub fn next(ui: &mut Ui, desk: &mut Desk<'_>, lines: &[Line]) {
    let Some(line) = lines.iter().find(|it| !it.done) else { return };
    desk.heading(ui, "window-next");
    match &line.leads {
        Leads::Nowhere => {
            ui.label(RichText::new(&line.text).color(theme::ACCENT));
        }
        leads => {
            if desk.main_button(ui, &line.key, &line.text) {
                follow(desk, leads);
            }
        }
    }
}

/// Draws the other lines, what is done last.
pub fn rest(ui: &mut Ui, desk: &mut Desk<'_>, lines: &[Line]) {
    ui.spacing_mut().item_spacing.y = 2.0;
    ui.spacing_mut().button_padding = vec2(0.0, 2.0);
    ui.spacing_mut().interact_size.y = 24.0;
    if lines.iter().filter(|it| !it.done).count() > 1 {
        desk.heading(ui, "window-to-do");
    }
    for line in lines.iter().filter(|it| !it.done).skip(1) {
        match &line.leads {
            Leads::Nowhere => {
                ui.label(format!("○ {}", line.text));
            }
            leads => {
                if desk.line(ui, &line.key, &format!("○ {}", line.text)) {
                    follow(desk, leads);
                }
            }
        }
    }
    if lines.iter().any(|it| it.done) {
        desk.heading(ui, "window-done");
    }
    for line in lines.iter().filter(|it| it.done) {
        ui.label(RichText::new(format!("✔ {}", line.text)).color(theme::GOOD));
    }
}

fn follow(desk: &mut Desk<'_>, leads: &Leads) {
    match leads {
        Leads::Nowhere => {}
        Leads::To(sight) => desk.intents.push(Intent::Go(*sight)),
        Leads::Does(action) => desk.act(action.clone()),
    }
}

/// Every line.
pub fn lines(desk: &Desk<'_>, attempt: &Attempt) -> Vec<Line> {
    let (work, safety) = (attempt.work(), attempt.safety());
    let exercise = work.exercise();
    let mut lines = Vec::new();
    if attempt.tally().handed_in {
        return lines;
    }
    let mut add = |key: &str, text: String, done: bool, leads: Leads| {
        lines.push(Line { key: format!("todo:{key}"), text, done, leads });
    };
    if exercise.asks(Stage::Isolation) {
        let done = safety.is_done(exercise, Stage::Isolation);
        if done {
            add("isolated", desk.say("window-todo-isolated", &[]), true, Leads::Nowhere);
        } else {
            isolation(desk, attempt, &mut add);
        }
    }
    let learners: Vec<_> = work.ends().filter(|it| exercise.is_learners(*it)).collect();
    let loose = learners.iter().filter(|it| work.terminal_of(**it).is_none() && !work.is_scrap(it.conductor()));
    let loose = loose.count();
    let slack = (0..exercise.terminals.len() as u16)
        .map(switchdrop::exercise::TerminalId)
        .filter(|it| !work.is_tight(*it))
        .count();
    let counts = [("loose", loose.to_string()), ("slack", slack.to_string())];
    let args: Vec<_> = counts.iter().map(|(key, it)| (*key, it.as_str())).collect();
    let wired = loose + slack == 0;
    let text = if wired { desk.say("window-done-wire", &[]) } else { desk.say("window-todo-wire", &args) };
    add("wire", text, wired, Leads::Nowhere);
    if exercise.asks(Stage::Continuity) {
        let count = safety.readings_left(exercise).len();
        let count_text = count.to_string();
        let text = match count {
            0 => desk.say("window-done-continuity", &[]),
            _ => desk.say("window-todo-continuity", &[("count", &count_text)]),
        };
        add("continuity", text, count == 0, Leads::Nowhere);
    }
    if exercise.asks(Stage::Prediction) {
        let count = safety.predictions_left(exercise).len();
        let count_text = count.to_string();
        let text = match count {
            0 => desk.say("window-done-prediction", &[]),
            _ => desk.say("window-todo-prediction", &[("count", &count_text)]),
        };
        add("prediction", text, count == 0, Leads::To(Sight::Prediction));
    }
    let open: Vec<_> =
        (0..exercise.locations.len() as u16).map(LocationId).filter(|it| !work.is_covered(*it)).collect();
    let sight = open.first().map_or(Sight::Place, |it| Sight::Location(*it));
    let count = open.len().to_string();
    let text = match open.len() {
        0 => desk.say("window-done-covers", &[]),
        _ => desk.say("window-todo-covers", &[("count", &count)]),
    };
    add("covers", text, open.is_empty(), Leads::To(sight));
    if exercise.asks(Stage::EnergisingChecks) {
        let checks = [
            (Check::NobodyAtWork, "nobody", desk.say("check-nobody-at-work", &[])),
            (Check::PeopleTold, "told", desk.say("check-people-told", &[])),
        ];
        for (check, key, name) in checks {
            let text = desk.say("window-todo-check", &[("check", &name)]);
            add(key, text, safety.is_confirmed(check), Leads::Does(Action::Confirm { check }));
        }
    }
    let on = (0..exercise.devices.len() as u16)
        .map(|it| work.device_state(switchdrop::exercise::DeviceId(it)))
        .all(|it| it.power == Power::On);
    let board = board(exercise);
    add("power", desk.say("window-todo-power", &[]), on && !attempt.tally().energised.is_empty(), Leads::To(board));
    if exercise.asks(Stage::FunctionalTest) {
        let count = safety.settings_left(exercise).len();
        let count_text = count.to_string();
        let text = match count {
            0 => desk.say("window-done-work", &[]),
            _ => desk.say("window-todo-work", &[("count", &count_text)]),
        };
        add("work", text, count == 0, Leads::To(Sight::Place));
    }
    add("hand-in", desk.say("window-hand-in", &[]), false, Leads::Does(Action::HandIn));
    lines
}

/// Where the first device is.
fn board(exercise: &Exercise) -> Sight {
    exercise.devices.first().map_or(Sight::Place, |it| Sight::Location(it.location))
}

fn isolation(desk: &Desk<'_>, attempt: &Attempt, add: &mut impl FnMut(&str, String, bool, Leads)) {
    let (work, safety) = (attempt.work(), attempt.safety());
    let exercise = work.exercise();
    let places = exercise.learners_places();
    let name = |it: LocationId| exercise.locations[it.index()].name.as_str();
    let id = |it: LocationId| exercise.locations[it.index()].id.as_str();
    for it in &places {
        let text = desk.say("window-todo-identify", &[("location", name(*it))]);
        add(&format!("identify:{}", id(*it)), text, safety.is_identified(*it), Leads::To(Sight::Location(*it)));
    }
    add("agree", desk.say("window-todo-agree", &[]), safety.is_agreed(), Leads::Does(Action::Agree));
    let locked = places.iter().all(|it| safety.is_locked_off(work, *it));
    add("lock", desk.say("window-todo-lock", &[]), locked, Leads::To(board(exercise)));
    for it in &places {
        let text = desk.say("window-todo-prove", &[("location", name(*it))]);
        add(&format!("prove:{}", id(*it)), text, safety.is_proved(*it), Leads::To(Sight::Location(*it)));
    }
}
