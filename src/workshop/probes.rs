//! The instruments' probes: where they are, the next pair that is still to be tested, what they would read and what they have read.
//!
//! What still has to be tested is the library's to say; the probes only move there. The instruments themselves are in the tray.

use bevy_egui::egui::{RichText, Ui};
use switchdrop::{
    attempt::{DeadStep, DeadTest, dead_steps_left, dead_tests_left},
    exercise::{LocationId, Stage},
    picture::Thing,
    trade::instrument::{Function, LeadLength},
    wording::{position, switch},
    work::{Action, KitPart, Point, Work},
};

use super::{
    panel::{Intent, PanelContext},
    session::Session,
    tester, theme,
    touch::words,
    view::{Hand, Readings, Tester, View},
};

/// The point that a probe touches on a thing.
pub fn address(work: &Work, thing: Thing) -> String {
    match thing {
        Thing::End(it) => work.point_address(work.point_of(it)),
        it => it.address(work),
    }
}

/// The instrument in hand, at a location.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, location: LocationId) {
    match view.hand {
        Hand::Tools => {}
        Hand::Indicator => indicator(ui, panel, session, view, location),
        Hand::Meter => {
            show_earth(ui, panel, session, view, location);
            if session.attempt.work().exercise().has_tester() {
                tester::show(ui, panel, session, view);
            } else {
                meter(ui, panel, session, view);
            }
        }
    }
}

/// Where an earth is to be shown next: the meter, and its long lead from the reference to it.
fn show_earth(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, location: LocationId) {
    let work = session.attempt.work();
    let Some(DeadStep::Show { from, earth }) = dead_steps_left(&session.attempt, location).into_iter().next() else {
        return;
    };
    let pair = [from, earth].map(|it| Some(work.point_address(it)));
    let [from, earth] = pair.each_ref().map(|it| words(panel, work, it.as_ref()));
    let text = panel.say("window-show-earth", &[("reference", &from), ("place", &earth)]);
    let pressed = panel.button(ui, "show-earth", &text);
    let tester = Tester { function: Function::Continuity, lead: LeadLength::Long };
    panel.is_on(view.probes == pair && (view.tester == tester || !work.exercise().has_tester()));
    if pressed {
        view.take(Hand::Meter, view.detector);
        (view.probes, view.next_probe, view.tester) = (pair, 0, tester);
        read(panel, session, view);
    }
}

fn indicator(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, location: LocationId) {
    let (work, safety) = (session.attempt.work(), session.attempt.safety());
    // A parked probe is where it is, whatever is looked at.
    if let Some(parked) = safety.parked() {
        view.probes[1] = Some(work.point_address(parked));
        view.next_probe = 0;
    }
    if safety.reference().is_some() {
        against_earth(ui, panel, session, view, location);
    } else {
        by_pairs(ui, panel, session, view, location);
    }
    both(ui, panel, session, view);
    let text = panel.say("window-change-indicator", &[]);
    if panel.button(ui, "change-indicator", &text) {
        panel.act(Action::Change { kit: KitPart::Indicator });
    }
    readings(ui, panel, view);
}

fn by_pairs(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, location: LocationId) {
    let safety = session.attempt.safety();
    let left = if safety.is_proved(location) { Vec::new() } else { dead_tests_left(&session.attempt, location) };
    let (key, ink) = match (safety.is_proved(location), safety.is_testing(), left.is_empty()) {
        (true, ..) => ("window-proved-dead", theme::GOOD),
        (false, false, _) => ("window-not-testing", theme::ACCENT),
        (false, true, true) => ("window-prove-again", theme::ACCENT),
        (false, true, false) => ("window-testing", theme::INK),
    };
    ui.label(RichText::new(panel.say(key, &[])).color(ink));
    if let Some(next) = left.first() {
        theme::quiet(ui, &panel.say("window-tests-left", &[("count", &left.len().to_string())]));
        next_pair(ui, panel, session, view, next);
    }
}

/// A button for the switches if they are to be worked first, and one that puts the probes on the pair, which is read with that.
fn next_pair(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, next: &DeadTest) {
    let work = session.attempt.work();
    set_switches(ui, panel, work, &next.positions);
    let text = panel.say("window-next-pair", &[]);
    let pair = [Some(work.point_address(next.a)), Some(work.point_address(next.b))];
    let pressed = panel.button_if(ui, next.positions == work.positions(), "next-pair", &text);
    panel.is_on(view.probes == pair);
    if pressed {
        view.probes = pair;
        view.next_probe = 0;
        read(panel, session, view);
    }
}

/// Against an earth that was shown to be one: the next step, the parked probe, and the learner's word.
fn against_earth(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, location: LocationId) {
    let (work, safety) = (session.attempt.work(), session.attempt.safety());
    let steps = dead_steps_left(&session.attempt, location);
    let place = |panel: &PanelContext<'_>, it: Point| words(panel, work, Some(&work.point_address(it)));
    let (key, ink) = match steps.first() {
        None => ("window-proved-dead", theme::GOOD),
        Some(DeadStep::Show { .. }) => ("window-show-first", theme::ACCENT),
        Some(DeadStep::Prove) if safety.is_testing() => ("window-prove-after", theme::ACCENT),
        Some(DeadStep::Prove) => ("window-not-testing", theme::ACCENT),
        Some(DeadStep::Conclude) => ("window-say-whether", theme::ACCENT),
        Some(DeadStep::Park(_) | DeadStep::Unpark | DeadStep::Touch(_)) => ("window-testing", theme::INK),
    };
    let args = match steps.first() {
        Some(DeadStep::Show { earth, .. }) => [("place", place(panel, *earth))],
        _ => [("place", String::new())],
    };
    let args = args.each_ref().map(|(key, it)| (*key, it.as_str()));
    ui.label(RichText::new(panel.say(key, &args)).color(ink));
    // What that needs is taken in hand with it.
    show_earth(ui, panel, session, view, location);
    let left = steps.iter().filter(|it| matches!(it, DeadStep::Touch(_))).count();
    if left > 0 {
        theme::quiet(ui, &panel.say("window-tests-left", &[("count", &left.to_string())]));
    }
    // What the parked probe is for comes before the first touch.
    match steps.iter().find(|it| !matches!(it, DeadStep::Show { .. } | DeadStep::Prove)) {
        Some(DeadStep::Park(at)) => {
            let text = panel.say("window-park", &[("place", &place(panel, *at))]);
            if panel.button(ui, "park", &text) {
                panel.act(Action::Park { at: work.point_address(*at) });
            }
        }
        Some(DeadStep::Touch(next)) => next_pair(ui, panel, session, view, next),
        _ => {}
    }
    theme::quiet(ui, &panel.say("window-park-how", &[]));
    ui.horizontal_wrapped(|ui| {
        let selected = view.selected.filter(|it| matches!(it, Thing::Terminal(_) | Thing::End(_)));
        let selected = selected.map(|it| address(work, it));
        let text = panel.say("window-park-here", &[]);
        if panel.button_if(ui, selected.is_some(), "park-here", &text)
            && let Some(at) = selected
        {
            panel.act(Action::Park { at });
        }
        let text = panel.say("window-unpark", &[]);
        if panel.button_if(ui, safety.parked().is_some(), "unpark", &text) {
            panel.act(Action::Unpark);
        }
    });
    ui.horizontal_wrapped(|ui| {
        ui.label(panel.say("window-conclude", &[]));
        for (dead, key, text) in
            [(true, "dead", panel.say("window-dead", &[])), (false, "not-dead", panel.say("window-not-dead", &[]))]
        {
            if panel.button(ui, key, &text) {
                panel.act(Action::Conclude { dead });
            }
        }
    });
}

fn meter(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    let (work, safety) = (session.attempt.work(), session.attempt.safety());
    let is_named = work.names_left().next().is_none();
    let left = if is_named && !work.exercise().asks(Stage::Diagnosis) {
        safety.readings_left(work.exercise())
    } else {
        Vec::new()
    };
    if work.exercise().asks(Stage::Diagnosis) {
        theme::quiet(ui, &panel.say("window-meter-finds", &[]));
    } else if is_named {
        theme::quiet(ui, &panel.say("window-meter-means", &[]));
        let count = left.len().to_string();
        theme::quiet(ui, &panel.say("window-readings-left", &[("count", &count)]));
    } else {
        theme::quiet(ui, &panel.say("window-long-lead", &[]));
    }
    let at_hand = left.iter().any(|(_, it)| it == work.positions());
    if let Some((_, wanted)) = left.first()
        && !at_hand
    {
        set_switches(ui, panel, work, wanted);
    }
    both(ui, panel, session, view);
    if work.exercise().asks(Stage::Naming) {
        tester::links(ui, panel, work, view);
    }
    readings(ui, panel, view);
}

/// A button that sets the switches so, if they are not.
pub fn set_switches(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, wanted: &[u8]) {
    let exercise = work.exercise();
    let (mut actions, mut names) = (Vec::new(), Vec::new());
    for (id, it) in exercise.switches.with_ids() {
        let Some(to) = wanted.get(id.index()).copied() else { continue };
        if work.positions()[id.index()] != to {
            let rocker = position(panel.wording, exercise, id, to);
            names.push(
                panel.say("case-switch", &[("switch", &switch(panel.wording, exercise, id)), ("rocker", &rocker)]),
            );
            actions.push(Action::Operate { switch: it.address.clone(), position: to });
        }
    }
    if actions.is_empty() {
        return;
    }
    let text = panel.say("window-set-switches", &[("case", &names.join(", "))]);
    if panel.button(ui, "set-switches", &text) {
        panel.intents.push(Intent::Act(actions));
    }
}

/// Where the two probes are, and which is placed next.
pub fn both(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &View) {
    let work = session.attempt.work();
    for (number, address) in view.probes.iter().enumerate() {
        let at = words(panel, work, address.as_ref());
        ui.label(panel.say("window-probe", &[("number", &(number + 1).to_string()), ("place", &at)]));
    }
    let is_second = view.next_probe == 1 && view.probes[0].is_some();
    let key = if is_second && answers_at_once(session, view) { "window-probe-reads" } else { "window-probe-next" };
    theme::quiet(ui, &panel.say(key, &[("number", &(view.next_probe + 1).to_string())]));
}

/// Puts the next probe on a point. Indicator and continuity meter answer as the second one touches; a test of the multifunction tester has
/// a button of its own.
pub fn place(panel: &mut PanelContext<'_>, session: &Session, view: &mut View, address: String) {
    if view.place_probe(address) && answers_at_once(session, view) {
        read(panel, session, view);
    }
}

fn answers_at_once(session: &Session, view: &View) -> bool {
    view.hand == Hand::Indicator || !session.attempt.work().exercise().has_tester()
}

fn read(panel: &mut PanelContext<'_>, session: &Session, view: &View) {
    if let Some(action) = reads(session, view) {
        panel.act(action);
    }
}

/// The reading that the instrument in the hand would take now, once both probes are somewhere.
pub fn reads(session: &Session, view: &View) -> Option<Action> {
    let (a, b) = view.probes[0].clone().zip(view.probes[1].clone())?;
    let Tester { function, lead } = view.tester;
    Some(match view.hand {
        Hand::Tools => return None,
        Hand::Indicator => Action::TestDead { a, b, with: view.detector },
        Hand::Meter if session.attempt.work().exercise().has_tester() => Action::Measure { function, lead, a, b },
        Hand::Meter => Action::Continuity { a, b },
    })
}

/// The last reading; those before it when they are asked for.
pub fn readings(ui: &mut Ui, panel: &mut PanelContext<'_>, view: &mut View) {
    let Readings { said, are_shown } = &mut view.readings;
    let Some((last, before)) = said.split_first() else { return };
    ui.label(last);
    if before.is_empty() {
        return;
    }
    let sign = if *are_shown { "⏷" } else { "⏵" };
    let text = panel.say("window-readings-before", &[("count", &before.len().to_string())]);
    if panel.folding(ui, "readings", &format!("{sign} {text}"), &text, &text) {
        *are_shown = !*are_shown;
    }
    if *are_shown {
        for it in before {
            theme::quiet(ui, it);
        }
    }
}
