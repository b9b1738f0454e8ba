//! What is selected, in words, with everything that can be done to it; and what can be done at the place looked at.
//!
//! It offers every action that exists; whether one is possible or safe is said by the library when it is tried.

use bevy_egui::egui::Ui;
use switchdrop::{
    exercise::{DeviceId, EndId, LampId, LocationId, Stage, TerminalId},
    picture::Thing,
    trade::colour::{Colour, Letter, Mark},
    wording::{self, Wording, device, device_in_full, end, lamp, mark, position, power_key, switch, terminal},
    work::{Action, Feel, Power, Work},
};

use super::{
    choose,
    desk::{Desk, Intent},
    prepare, probes, report,
    session::Session,
    theme,
    touch::flip,
    view::{Hand, Sight, View},
};

/// A thing's name.
pub fn name(wording: &Wording, work: &Work, thing: Thing) -> String {
    let exercise = work.exercise();
    match thing {
        Thing::Location(it) => exercise.locations.get(it.index()).map(|it| it.name.clone()).unwrap_or_default(),
        Thing::Terminal(it) => terminal(wording, exercise, it),
        Thing::End(it) => end(wording, work, it),
        Thing::Switch(it) => {
            let at = work.positions().get(it.index()).copied().unwrap_or(0);
            let rocker = position(wording, exercise, it, at);
            wording.say("window-switch", &[("switch", &switch(wording, exercise, it)), ("rocker", &rocker)])
        }
        Thing::Lamp(it) => wording.say("window-lamp", &[("lamp", &lamp(exercise, it))]),
        Thing::Device(it) => device(wording, exercise, it),
    }
}

/// Draws it.
pub fn show(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, view: &mut View) {
    let work = session.attempt.work();
    let is_over = session.is_over();
    if let Sight::Location(at) = view.at
        && !is_over
    {
        choose::show(ui, desk, session, view, at);
        ui.horizontal_wrapped(|ui| {
            let tests = work.exercise().has_test_sheet();
            let meter = if tests { desk.say("window-hand-tester", &[]) } else { desk.say("window-hand-meter", &[]) };
            let hands = [
                (Hand::Tools, "hand:tools", desk.say("window-hand-tools", &[])),
                (Hand::Indicator, "hand:indicator", desk.say("window-hand-indicator", &[])),
                (Hand::Meter, "hand:meter", meter),
            ];
            for (hand, key, text) in hands {
                if desk.choice(ui, view.hand == hand, key, &text) {
                    view.hand = hand;
                    view.probes = [None, None];
                    view.next_probe = 0;
                    view.readings.clear();
                }
            }
        });
        probes::show(ui, desk, session, view, at);
        if view.hand != Hand::Tools {
            ui.separator();
        }
        if !has_in_hand(view) {
            location(ui, desk, session, view, at);
            ui.separator();
        }
    }
    desk.heading(ui, "window-selected");
    let Some(thing) = view.selected else {
        theme::quiet(
            ui,
            &match view.at {
                _ if is_over => desk.say("window-nothing-over", &[]),
                Sight::Place => desk.say("window-nothing-place", &[]),
                Sight::Location(it) if work.is_board(it) => desk.say("window-nothing-board", &[]),
                Sight::Location(it) if work.is_covered(it) && work.has_cover(it) => {
                    desk.say("window-nothing-covered", &[])
                }
                Sight::Location(_) => desk.say("window-nothing-location", &[]),
                Sight::Prediction => desk.say("window-nothing-prediction", &[]),
                Sight::Tests => desk.say("window-nothing-tests", &[]),
            },
        );
        // Beside the sheet stands what is to be written on it.
        if view.at == Sight::Tests && !is_over && !view.readings.is_empty() {
            desk.heading(ui, "window-last-readings");
            for it in &view.readings {
                ui.label(it);
            }
        }
        return;
    };
    ui.label(theme::bold(name(desk.wording, work, thing)).color(theme::ACCENT));
    // With an instrument in hand there is no hand for a screwdriver.
    if is_over || view.hand != Hand::Tools && matches!(thing, Thing::End(_) | Thing::Terminal(_)) {
        seen(ui, desk, work, thing);
        return;
    }
    // What is in hand comes first; the place it is at follows.
    let place = match thing {
        Thing::End(it) => Some(work.end_location(it)),
        Thing::Terminal(it) => Some(work.exercise().terminals[it.index()].location),
        _ => None,
    };
    match thing {
        Thing::End(it) => of_end(ui, desk, work, view, it),
        Thing::Terminal(it) => of_terminal(ui, desk, work, it),
        Thing::Lamp(it) => of_lamp(ui, desk, work, it),
        Thing::Device(it) => of_device(ui, desk, session, it),
        Thing::Switch(it) => {
            let text = desk.say("window-flip", &[]);
            if desk.button(ui, "flip", &text) {
                desk.act(flip(work, it));
            }
        }
        Thing::Location(_) => {}
    }
    if let Some(at) = place.filter(|it| !work.is_covered(*it)) {
        prepare::of_location(ui, desk, work, view, at);
    }
    if let Sight::Location(at) = view.at
        && has_in_hand(view)
    {
        ui.separator();
        location(ui, desk, session, view, at);
    }
}

/// Whether an end or a terminal is being worked at.
fn has_in_hand(view: &View) -> bool {
    view.hand == Hand::Tools && matches!(view.selected, Some(Thing::End(_) | Thing::Terminal(_)))
}

/// What there is to say of a thing when nothing can be done to it any more.
fn seen(ui: &mut Ui, desk: &mut Desk<'_>, work: &Work, thing: Thing) {
    match thing {
        Thing::End(it) => end_facts(ui, desk, work, it),
        Thing::Terminal(it) => terminal_facts(ui, desk, work, it),
        Thing::Device(it) => device_facts(ui, desk, work, it),
        Thing::Lamp(_) | Thing::Switch(_) | Thing::Location(_) => {}
    }
}

/// What can be done at a location as a whole.
fn location(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, view: &mut View, at: LocationId) {
    let (work, safety) = (session.attempt.work(), session.attempt.safety());
    let exercise = work.exercise();
    let id = exercise.locations[at.index()].id.clone();
    let has_ends = exercise.learners_places().contains(&at);
    let is_done = safety.is_done(exercise, Stage::Isolation) || safety.is_identified_there(at);
    if has_ends || exercise.is_board(at) {
        card(ui, desk, work);
    }
    if exercise.asks(Stage::Isolation) && has_ends && !is_done {
        if !safety.is_fed_as_shown(at) {
            theme::quiet(ui, &desk.say("window-identify-load", &[]));
        }
        identify(ui, desk, work, view, &id);
    }
    if work.has_cover(at) {
        if work.is_covered(at) {
            let text = desk.say("window-cover-off", &[]);
            if desk.button(ui, "cover", &text) {
                desk.act(Action::RemoveCover { location: id });
            }
        } else {
            let text = desk.say("window-cover-on", &[]);
            if desk.button(ui, "cover", &text) {
                desk.act(Action::FitCover { location: id.clone() });
            }
            if view.hand == Hand::Tools {
                // With an end or a terminal in hand these tools were drawn above, with it.
                if !matches!(view.selected, Some(Thing::End(_) | Thing::Terminal(_))) {
                    prepare::of_location(ui, desk, work, view, at);
                }
                if !work.is_board(at) {
                    make_up(ui, desk, &id);
                }
            }
        }
    }
    report::inspection(ui, desk, session, at);
}

/// What the supervisor did before the learner came, and will do.
fn card(ui: &mut Ui, desk: &mut Desk<'_>, work: &Work) {
    let exercise = work.exercise();
    let devices = (0..exercise.devices.len() as u16).map(DeviceId).filter(|it| work.device_state(*it).kept_off);
    let devices: Vec<_> = devices.map(|it| device_in_full(desk.wording, exercise, it)).collect();
    if devices.is_empty() {
        return;
    }
    theme::quiet(ui, &desk.say("window-card", &[("devices", &wording::list(desk.wording, &devices))]));
    if work.has_tied_back() {
        theme::quiet(ui, &desk.say("window-card-tied-back", &[]));
    }
    if let Some(text) = wording::card_figure(desk.wording, exercise).filter(|_| exercise.has_test_sheet()) {
        theme::quiet(ui, &text);
    }
}

fn identify(ui: &mut Ui, desk: &mut Desk<'_>, work: &Work, view: &mut View, id: &str) {
    let exercise = work.exercise();
    ui.label(desk.say("window-identify", &[]));
    for (index, it) in exercise.devices.iter().enumerate() {
        let of = DeviceId(index as u16);
        let text = device_in_full(desk.wording, exercise, of);
        let mut ticked = view.feeds.contains(&of);
        if desk.check(ui, &mut ticked, &format!("feeds:{}", it.address), &text) {
            if ticked { view.feeds.push(of) } else { view.feeds.retain(|it| *it != of) }
        }
    }
    let text = desk.say("window-name-devices", &[]);
    if desk.button_if(ui, !view.feeds.is_empty(), "identify", &text) {
        let devices = view.feeds.iter().map(|it| exercise.devices[it.index()].address.clone()).collect();
        desk.act(Action::Identify { location: id.to_owned(), devices });
    }
}

fn make_up(ui: &mut Ui, desk: &mut Desk<'_>, id: &str) {
    ui.horizontal_wrapped(|ui| {
        ui.label(desk.say("window-make-up", &[]));
        for colour in [Colour::GreenYellow, Colour::Brown, Colour::Blue] {
            let text = wording::colour(desk.wording, colour);
            if desk.button(ui, &format!("make-up:{}", colour.word()), &text) {
                desk.act(Action::MakeUp { location: id.to_owned(), colour });
            }
        }
    });
}

/// How an end is marked, and what it is in.
fn end_facts(ui: &mut Ui, desk: &Desk<'_>, work: &Work, of: EndId) {
    let code = work.end_facts(of).colour.code();
    let marked = work.mark_of(of).map_or_else(|| desk.say("window-unmarked", &[]), |it| mark(desk.wording, it));
    ui.label(desk.say("window-end", &[("code", code), ("mark", &marked)]));
    if let Some(to) = work.terminal_of(of) {
        ui.label(desk.say("window-is-in", &[("terminal", &terminal(desk.wording, work.exercise(), to))]));
    }
    prepare::end_facts(ui, desk, work, of);
}

fn of_end(ui: &mut Ui, desk: &mut Desk<'_>, work: &Work, view: &mut View, of: EndId) {
    let address = work.end_address(of);
    end_facts(ui, desk, work, of);
    if let Some(to) = work.terminal_of(of) {
        ui.horizontal_wrapped(|ui| {
            let text = desk.say("window-disconnect", &[]);
            if desk.button(ui, "disconnect", &text) {
                desk.act(Action::Disconnect { end: address.clone() });
            }
            tighten(ui, desk, work, to);
        });
    } else {
        ui.label(desk.say("window-loose", &[]));
    }
    prepare::of_end(ui, desk, work, view, of);
    marks(ui, desk, work, view, of, &address);
}

fn marks(ui: &mut Ui, desk: &mut Desk<'_>, work: &Work, view: &mut View, of: EndId, address: &str) {
    if work.mark_of(of).is_some() {
        let text = desk.say("window-unmark", &[]);
        if desk.button(ui, "unmark", &text) {
            desk.act(Action::Unmark { end: address.to_owned() });
        }
        return;
    }
    ui.horizontal_wrapped(|ui| {
        ui.label(desk.say("window-mark-with", &[]));
        let (sleeve, tape) = (desk.say("window-sleeve", &[]), desk.say("window-tape", &[]));
        if desk.choice(ui, !view.tape, "material:sleeve", &sleeve) {
            view.tape = false;
        }
        if desk.choice(ui, view.tape, "material:tape", &tape) {
            view.tape = true;
        }
    });
    ui.horizontal_wrapped(|ui| {
        for colour in Colour::ALL.into_iter().filter(|it| *it != Colour::Bare) {
            let with = if view.tape { Mark::Tape(colour) } else { Mark::Sleeve(colour) };
            let text = wording::colour(desk.wording, colour);
            if desk.button(ui, &format!("mark:{}", colour.word()), &text) {
                desk.act(Action::Mark { end: address.to_owned(), mark: with });
            }
        }
    });
    ui.horizontal_wrapped(|ui| {
        for (letter, key) in [(Letter::L, "mark:L"), (Letter::N, "mark:N"), (Letter::PE, "mark:PE")] {
            let with = Mark::Letter(letter);
            let text = mark(desk.wording, with);
            if desk.button(ui, key, &text) {
                desk.act(Action::Mark { end: address.to_owned(), mark: with });
            }
        }
    });
}

fn tighten(ui: &mut Ui, desk: &mut Desk<'_>, work: &Work, of: TerminalId) {
    let text = desk.say("window-tighten", &[]);
    if desk.button_if(ui, !work.is_tight(of), "tighten", &text) {
        let terminal = work.exercise().terminals[of.index()].address.clone();
        desk.act(Action::Tighten { terminal, feel: Feel::Right });
    }
    prepare::feels(ui, desk, work, of);
}

/// What is in a terminal, each a way to that end; and how its screw is.
fn terminal_facts(ui: &mut Ui, desk: &mut Desk<'_>, work: &Work, of: TerminalId) {
    let held: Vec<_> = work.ends_in(of).collect();
    if held.is_empty() {
        ui.label(desk.say("window-empty", &[]));
    }
    for it in held {
        let text = desk.say("window-select", &[("end", &end(desk.wording, work, it))]);
        if desk.button(ui, &format!("select:{}", work.end_address(it)), &text) {
            let sight = Sight::Location(work.end_location(it));
            desk.intents.push(Intent::Show(sight, Some(Thing::End(it))));
        }
    }
    let text = if work.is_tight(of) { desk.say("window-tight", &[]) } else { desk.say("window-slack", &[]) };
    theme::quiet(ui, &text);
    prepare::terminal_facts(ui, desk, work, of);
}

fn of_terminal(ui: &mut Ui, desk: &mut Desk<'_>, work: &Work, of: TerminalId) {
    terminal_facts(ui, desk, work, of);
    ui.horizontal_wrapped(|ui| tighten(ui, desk, work, of));
}

fn of_lamp(ui: &mut Ui, desk: &mut Desk<'_>, work: &Work, of: LampId) {
    let lamp = work.exercise().lamps[of.index()].address.clone();
    if work.is_lamp_in(of) {
        let text = desk.say("window-lamp-out", &[]);
        if desk.button(ui, "lamp", &text) {
            desk.act(Action::RemoveLamp { lamp });
        }
    } else {
        let text = desk.say("window-lamp-in", &[]);
        if desk.button(ui, "lamp", &text) {
            desk.act(Action::FitLamp { lamp });
        }
    }
}

/// What a device feeds by the chart, and how it stands.
fn device_facts(ui: &mut Ui, desk: &Desk<'_>, work: &Work, of: DeviceId) {
    let state = work.device_state(of);
    ui.label(desk.say("window-chart", &[("circuit", work.exercise().charted(of))]));
    let stands = desk.say(power_key(state.power), &[]);
    let lock = match (state.locked, state.kept_off) {
        (true, false) => desk.say("window-has-lock", &[]),
        (false, false) => desk.say("window-no-lock", &[]),
        (true, true) => desk.say("window-has-both-locks", &[]),
        (false, true) => desk.say("window-has-supervisors-lock", &[]),
    };
    ui.label(desk.say("window-stands", &[("power", &stands), ("lock", &lock)]));
}

fn of_device(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, of: DeviceId) {
    let work = session.attempt.work();
    let state = work.device_state(of);
    let device = work.exercise().devices[of.index()].address.clone();
    device_facts(ui, desk, work, of);
    // After a device opened by itself, no way back on is offered before something was proved dead.
    let tested = session.attempt.safety().is_tested_since_trip();
    if !tested && state.power != Power::On {
        ui.label(theme::bold(desk.say("window-no-reset", &[])).color(theme::WARNING));
    }
    ui.horizontal_wrapped(|ui| {
        if state.power == Power::On {
            let text = desk.say("window-off", &[]);
            if desk.button(ui, "off", &text) {
                desk.act(Action::PowerOff { device: device.clone() });
            }
        }
        if state.power == Power::Off && tested {
            let text = desk.say("window-on", &[]);
            if desk.button_if(ui, !state.locked && !state.kept_off, "on", &text) {
                desk.act(Action::PowerOn { device: device.clone() });
            }
        }
        if state.power == Power::Tripped && tested {
            let text = desk.say("window-reset", &[]);
            if desk.button_if(ui, !state.locked, "reset", &text) {
                desk.act(Action::Reset { device: device.clone() });
            }
        }
        if state.locked {
            let text = desk.say("window-unlock", &[]);
            if desk.button(ui, "unlock", &text) {
                desk.act(Action::Unlock { device });
            }
        } else {
            let text = desk.say("window-lock", &[]);
            if desk.button_if(ui, state.power != Power::On, "lock", &text) {
                desk.act(Action::LockOff { device });
            }
        }
    });
}
