//! The two instruments: where their probes are, the next pair that is still to be tested, and taking the reading.
//!
//! What still has to be tested is the library's to say; the probes only move there.

use bevy_egui::egui::{RichText, Ui};
use switchdrop::{
    exercise::LocationId,
    picture::Thing,
    wording::{position, switch},
    work::{Action, Detector, KitPart, Work, dead_tests_left},
};

use super::{
    desk::{Desk, Intent},
    session::Session,
    tester, theme,
    touch::words,
    view::{Hand, View},
};

/// The point that a probe touches on a thing.
pub fn address(work: &Work, thing: Thing) -> String {
    match thing {
        Thing::End(it) => work.point_address(work.point_of(it)),
        it => it.address(work),
    }
}

/// The instrument in hand, at a location.
pub fn show(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, view: &mut View, location: LocationId) {
    match view.hand {
        Hand::Tools => {}
        Hand::Indicator => indicator(ui, desk, session, view, location),
        Hand::Meter if session.attempt.work().exercise().has_test_sheet() => tester::show(ui, desk, session, view),
        Hand::Meter => meter(ui, desk, session, view),
    }
}

fn indicator(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, view: &mut View, location: LocationId) {
    let (work, safety) = (session.attempt.work(), session.attempt.safety());
    let text = desk.say("window-prove", &[]);
    if desk.button(ui, "prove", &text) {
        desk.act(Action::ProveIndicator);
    }
    let left = if safety.is_proved(location) { Vec::new() } else { dead_tests_left(&session.attempt, location) };
    let (key, ink) = match (safety.is_proved(location), safety.is_testing(), left.is_empty()) {
        (true, ..) => ("window-proved-dead", theme::GOOD),
        (false, false, _) => ("window-not-testing", theme::ACCENT),
        (false, true, true) => ("window-prove-again", theme::ACCENT),
        (false, true, false) => ("window-testing", theme::INK),
    };
    ui.label(RichText::new(desk.say(key, &[])).color(ink));
    if let Some(next) = left.first() {
        theme::quiet(ui, &desk.say("window-tests-left", &[("count", &left.len().to_string())]));
        let wanted = next.positions.clone();
        set_switches(ui, desk, work, &wanted);
        let text = desk.say("window-next-pair", &[]);
        let pair = [Some(work.point_address(next.a)), Some(work.point_address(next.b))];
        let pressed = desk.button_if(ui, wanted == work.positions(), "next-pair", &text);
        desk.is_on(view.probes == pair);
        if pressed {
            view.probes = pair;
            view.next_probe = 0;
        }
    }
    both(ui, desk, work, view);
    let with = view.detector;
    reading(ui, desk, view, |a, b| Action::TestDead { a, b, with });
    ui.horizontal_wrapped(|ui| {
        ui.label(desk.say("window-held", &[]));
        let held = [
            (Detector::Indicator, "held:indicator", desk.say("window-held-indicator", &[])),
            (Detector::Stick, "held:stick", desk.say("window-held-stick", &[])),
            (Detector::Multimeter, "held:multimeter", desk.say("window-held-multimeter", &[])),
        ];
        for (it, key, text) in held {
            if desk.choice(ui, view.detector == it, key, &text) {
                view.detector = it;
            }
        }
    });
    let text = desk.say("window-change-indicator", &[]);
    if desk.button(ui, "change-indicator", &text) {
        desk.act(Action::Change { kit: KitPart::Indicator });
    }
}

fn meter(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, view: &mut View) {
    let (work, safety) = (session.attempt.work(), session.attempt.safety());
    let left = safety.readings_left(work.exercise());
    let count = left.len().to_string();
    theme::quiet(ui, &desk.say("window-meter-means", &[]));
    theme::quiet(ui, &desk.say("window-readings-left", &[("count", &count)]));
    let at_hand = left.iter().any(|(_, it)| it == work.positions());
    if let Some((_, wanted)) = left.first()
        && !at_hand
    {
        set_switches(ui, desk, work, wanted);
    }
    both(ui, desk, work, view);
    reading(ui, desk, view, |a, b| Action::Continuity { a, b });
}

/// A button that sets the switches so, if they are not.
pub fn set_switches(ui: &mut Ui, desk: &mut Desk<'_>, work: &Work, wanted: &[u8]) {
    let exercise = work.exercise();
    let (mut actions, mut names) = (Vec::new(), Vec::new());
    for (index, it) in exercise.switches.iter().enumerate() {
        let Some(to) = wanted.get(index).copied() else { continue };
        if work.positions()[index] != to {
            let id = switchdrop::exercise::SwitchId(index as u16);
            let rocker = position(desk.wording, exercise, id, to);
            names
                .push(desk.say("case-switch", &[("switch", &switch(desk.wording, exercise, id)), ("rocker", &rocker)]));
            actions.push(Action::Operate { switch: it.address.clone(), position: to });
        }
    }
    if actions.is_empty() {
        return;
    }
    let text = desk.say("window-set-switches", &[("case", &names.join(", "))]);
    if desk.button(ui, "set-switches", &text) {
        desk.intents.push(Intent::Act(actions));
    }
}

/// Where the two probes are, and which is placed next.
pub fn both(ui: &mut Ui, desk: &mut Desk<'_>, work: &Work, view: &View) {
    for (number, address) in view.probes.iter().enumerate() {
        let at = words(desk, work, address.as_ref());
        ui.label(desk.say("window-probe", &[("number", &(number + 1).to_string()), ("place", &at)]));
    }
    theme::quiet(ui, &desk.say("window-probe-next", &[("number", &(view.next_probe + 1).to_string())]));
}

/// Takes the reading; beneath it, the last ones.
pub fn reading(ui: &mut Ui, desk: &mut Desk<'_>, view: &View, action: impl Fn(String, String) -> Action) {
    let text = desk.say("window-read", &[]);
    let (a, b) = (view.probes[0].clone(), view.probes[1].clone());
    let pair = a.zip(b);
    if desk.button_if(ui, pair.is_some(), "read", &text)
        && let Some((a, b)) = pair
    {
        desk.act(action(a, b));
    }
    for it in &view.readings {
        theme::quiet(ui, it);
    }
}
