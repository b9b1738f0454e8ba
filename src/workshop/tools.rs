//! What is selected, in words, with everything that can be done to it; and what can be done at the place looked at.
//!
//! It offers every action that exists; whether one is possible or safe is said by the library when it is tried.

use bevy_egui::egui::Ui;
use switchdrop::{
    exercise::{DeviceId, EndId, LampId, LocationId, Stage, TerminalId},
    picture::Thing,
    trade::colour::{Colour, Letter, Mark},
    wording::{
        self, Wording, conductor, device, device_in_full, end, lamp, mark, position, power_key, switch, terminal,
    },
    work::{Action, Feel, Power, Work},
};

use super::{
    choose, naming, observe,
    panel::{Intent, PanelContext},
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
        Thing::Location(it) => exercise.locations.get(it).map(|it| it.name.clone()).unwrap_or_default(),
        Thing::Terminal(it) => terminal(wording, work, it),
        Thing::End(it) => end(wording, work, it),
        Thing::Switch(it) => {
            let at = work.positions().get(it.index()).copied().unwrap_or(0);
            let rocker = position(wording, exercise, it, at);
            wording.say("window-switch", &[("switch", &switch(wording, exercise, it)), ("rocker", &rocker)])
        }
        Thing::Lamp(it) => wording.say("window-lamp", &[("lamp", &lamp(exercise, it))]),
        Thing::Device(it) => device(wording, exercise, it),
        Thing::Lock(it) => wording.say("window-lock-of", &[("device", &device(wording, exercise, it))]),
        Thing::Conductor(it) => conductor(wording, work, it),
        Thing::Unmarked(it) => wording::place(wording, work, &exercise.unmarked_address(it)),
    }
}

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    let work = session.attempt.work();
    let is_over = session.is_over();
    if work.exercise().is_inspected() {
        return inspected(ui, panel, session, view);
    }
    if let Sight::Location(at) = view.at
        && !is_over
    {
        choose::show(ui, panel, session, view, at);
        probes::show(ui, panel, session, view, at);
        if view.hand != Hand::Tools {
            ui.separator();
        }
        if !has_in_hand(view) {
            let top = ui.cursor().top();
            location(ui, panel, session, view, at);
            if ui.cursor().top() > top {
                ui.separator();
            }
        }
    }
    panel.heading(ui, "window-selected");
    let Some(thing) = view.selected else {
        theme::quiet(
            ui,
            &match view.at {
                _ if is_over && view.at != Sight::Circuit => panel.say("window-nothing-over", &[]),
                Sight::Place => panel.say("window-nothing-place", &[]),
                Sight::Location(it) if work.is_board(it) => panel.say("window-nothing-board", &[]),
                Sight::Location(it) if work.is_covered(it) && work.has_cover(it) => {
                    panel.say("window-nothing-covered", &[])
                }
                Sight::Location(_) => panel.say("window-nothing-location", &[]),
                Sight::Prediction | Sight::Tests => panel.say("window-nothing-tests", &[]),
                Sight::Diagnosis => panel.say("window-nothing-diagnosis", &[]),
                Sight::Circuit => panel.say("window-nothing-circuit", &[]),
            },
        );
        // Beside the sheet stands what is to be written on it.
        if view.at == Sight::Tests && !is_over && !view.readings.said.is_empty() {
            panel.heading(ui, "window-last-readings");
            for it in &view.readings.said {
                ui.label(it);
            }
        }
        return;
    };
    ui.label(theme::bold(name(panel.wording, work, thing)).color(theme::ACCENT));
    // With an instrument in hand there is no hand for a screwdriver.
    if is_over || view.hand != Hand::Tools && matches!(thing, Thing::End(_) | Thing::Terminal(_)) {
        seen(ui, panel, work, thing);
        return;
    }
    // What is in hand comes first; the place it is at follows.
    let place = match thing {
        Thing::End(it) => Some(work.end_location(it)),
        Thing::Terminal(it) => Some(work.exercise().terminals[it].location),
        _ => None,
    };
    match thing {
        Thing::End(it) => of_end(ui, panel, work, view, it),
        Thing::Terminal(it) => of_terminal(ui, panel, work, it),
        Thing::Lamp(it) => of_lamp(ui, panel, work, it),
        Thing::Device(it) | Thing::Lock(it) => of_device(ui, panel, session, it),
        Thing::Switch(it) => {
            let text = panel.say("window-flip", &[]);
            if panel.button(ui, "flip", &text) {
                panel.act(flip(work, it));
            }
        }
        Thing::Location(_) | Thing::Conductor(_) | Thing::Unmarked(_) => {}
    }
    if let Some(at) = place.filter(|it| !work.is_covered(*it)) {
        prepare::of_location(ui, panel, work, view, at);
    }
    if let Sight::Location(at) = view.at
        && has_in_hand(view)
    {
        ui.separator();
        location(ui, panel, session, view, at);
    }
}

/// Somebody else's work: what is selected, as it can be seen, and what is to be said of it. Nothing is mended.
fn inspected(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    let work = session.attempt.work();
    if let Sight::Location(at) = view.at
        && !session.is_over()
    {
        probes::show(ui, panel, session, view, at);
        cover(ui, panel, work, at);
    }
    panel.heading(ui, "window-selected");
    match view.selected {
        Some(thing) => {
            ui.label(theme::bold(name(panel.wording, work, thing)).color(theme::ACCENT));
            match thing {
                Thing::Terminal(it) => {
                    held(ui, panel, work, it);
                    prepare::terminal_facts(ui, panel, work, it);
                }
                Thing::Lamp(it) if !session.is_over() => of_lamp(ui, panel, work, it),
                _ => seen(ui, panel, work, thing),
            }
        }
        None => theme::quiet(ui, &panel.say("window-nothing-inspected", &[])),
    }
    if let Sight::Location(at) = view.at
        && (!work.has_cover(at) || !work.is_covered(at))
    {
        observe::offer(ui, panel, session, view, at);
    }
    observe::list(ui, panel, session);
}

/// Whether an end or a terminal is being worked at.
fn has_in_hand(view: &View) -> bool {
    view.hand == Hand::Tools && matches!(view.selected, Some(Thing::End(_) | Thing::Terminal(_)))
}

/// What there is to say of a thing when nothing can be done to it any more.
fn seen(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, thing: Thing) {
    match thing {
        Thing::End(it) => end_facts(ui, panel, work, it),
        Thing::Terminal(it) => terminal_facts(ui, panel, work, it),
        Thing::Device(it) | Thing::Lock(it) => device_facts(ui, panel, work, it),
        Thing::Lamp(_) | Thing::Switch(_) | Thing::Location(_) | Thing::Conductor(_) | Thing::Unmarked(_) => {}
    }
}

/// What can be done at a location as a whole.
fn location(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, at: LocationId) {
    let (work, safety) = (session.attempt.work(), session.attempt.safety());
    let exercise = work.exercise();
    let id = exercise.locations[at].id.clone();
    let is_learners = exercise.learners_places().contains(&at);
    let is_identified = safety.is_done(exercise, Stage::Isolation) || safety.is_identified_there(at);
    if is_learners || exercise.is_board(at) {
        card(ui, panel, work);
    }
    if exercise.asks(Stage::Isolation) && is_learners && !is_identified {
        if !safety.is_fed_as_shown(at) {
            theme::quiet(ui, &panel.say("window-identify-load", &[]));
        }
        identify(ui, panel, work, view, &id);
    }
    naming::at_place(ui, panel, work, view, at);
    cover(ui, panel, work, at);
    if work.has_cover(at) && !work.is_covered(at) && view.hand == Hand::Tools {
        // With an end or a terminal in hand these tools were drawn above, with it.
        if !matches!(view.selected, Some(Thing::End(_) | Thing::Terminal(_))) {
            prepare::of_location(ui, panel, work, view, at);
        }
        if !work.is_board(at) {
            make_up(ui, panel, &id);
        }
    }
    report::inspection(ui, panel, session, at);
}

/// The cover of a location that has one, off or on.
fn cover(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, at: LocationId) {
    if !work.has_cover(at) {
        return;
    }
    let location = work.exercise().locations[at].id.clone();
    let (key, action) = if work.is_covered(at) {
        ("window-cover-off", Action::RemoveCover { location })
    } else {
        ("window-cover-on", Action::FitCover { location })
    };
    let text = panel.say(key, &[]);
    if panel.button(ui, "cover", &text) {
        panel.act(action);
    }
}

/// What the supervisor did before the learner came, and will do.
fn card(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work) {
    let exercise = work.exercise();
    let devices = exercise.devices.ids().filter(|it| work.device_state(*it).kept_off);
    let devices: Vec<_> = devices.map(|it| device_in_full(panel.wording, exercise, it)).collect();
    if devices.is_empty() {
        return;
    }
    theme::quiet(ui, &panel.say("window-card", &[("devices", &wording::list(panel.wording, &devices))]));
    if work.has_tied_back() {
        theme::quiet(ui, &panel.say("window-card-tied-back", &[]));
    }
    if let Some(text) = wording::card_figure(panel.wording, exercise).filter(|_| exercise.has_test_sheet()) {
        theme::quiet(ui, &text);
    }
}

fn identify(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, view: &mut View, id: &str) {
    let exercise = work.exercise();
    ui.label(panel.say("window-identify", &[]));
    for (of, it) in exercise.devices.with_ids() {
        let text = device_in_full(panel.wording, exercise, of);
        let mut ticked = view.feeds.contains(&of);
        if panel.check(ui, &mut ticked, &format!("feeds:{}", it.address), &text) {
            if ticked { view.feeds.push(of) } else { view.feeds.retain(|it| *it != of) }
        }
    }
    let text = panel.say("window-name-devices", &[]);
    if panel.button_if(ui, !view.feeds.is_empty(), "identify", &text) {
        let devices = view.feeds.iter().map(|it| exercise.devices[*it].address.clone()).collect();
        panel.act(Action::Identify { location: id.to_owned(), devices });
    }
}

fn make_up(ui: &mut Ui, panel: &mut PanelContext<'_>, id: &str) {
    ui.horizontal_wrapped(|ui| {
        ui.label(panel.say("window-make-up", &[]));
        for colour in [Colour::GreenYellow, Colour::Brown, Colour::Blue] {
            let text = wording::colour(panel.wording, colour);
            if panel.button(ui, &format!("make-up:{}", colour.word()), &text) {
                panel.act(Action::MakeUp { location: id.to_owned(), colour });
            }
        }
    });
}

/// How an end is marked, and what it is in.
fn end_facts(ui: &mut Ui, panel: &PanelContext<'_>, work: &Work, of: EndId) {
    let code = work.end_facts(of).colour.code();
    let marked = work.mark_of(of).map_or_else(|| panel.say("window-unmarked", &[]), |it| mark(panel.wording, it));
    ui.label(panel.say("window-end", &[("code", code), ("mark", &marked)]));
    if let Some(to) = work.terminal_of(of) {
        ui.label(panel.say("window-is-in", &[("terminal", &terminal(panel.wording, work, to))]));
    }
    prepare::end_facts(ui, panel, work, of);
}

fn of_end(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, view: &mut View, of: EndId) {
    let address = work.end_address(of);
    end_facts(ui, panel, work, of);
    if let Some(to) = work.terminal_of(of) {
        ui.horizontal_wrapped(|ui| {
            let text = panel.say("window-disconnect", &[]);
            if panel.button(ui, "disconnect", &text) {
                panel.act(Action::Disconnect { end: address.clone() });
            }
            tighten(ui, panel, work, to);
        });
    } else {
        ui.label(panel.say("window-loose", &[]));
    }
    prepare::of_end(ui, panel, work, view, of);
    marks(ui, panel, work, view, of, &address);
}

/// One mark an end: it comes off before another goes on.
fn marks(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, view: &mut View, of: EndId, address: &str) {
    if work.mark_of(of).is_some() {
        let text = panel.say("window-unmark", &[]);
        if panel.button(ui, "unmark", &text) {
            panel.act(Action::Unmark { end: address.to_owned() });
        }
        return;
    }
    ui.horizontal_wrapped(|ui| {
        ui.label(panel.say("window-mark-with", &[]));
        let (sleeve, tape) = (panel.say("window-sleeve", &[]), panel.say("window-tape", &[]));
        if panel.choice(ui, !view.tape, "material:sleeve", &sleeve) {
            view.tape = false;
        }
        if panel.choice(ui, view.tape, "material:tape", &tape) {
            view.tape = true;
        }
    });
    ui.horizontal_wrapped(|ui| {
        // There is no bare sleeve.
        for colour in Colour::ALL.into_iter().filter(|it| *it != Colour::Bare) {
            let mark = if view.tape { Mark::Tape(colour) } else { Mark::Sleeve(colour) };
            let text = wording::colour(panel.wording, colour);
            if panel.button(ui, &format!("mark:{}", colour.word()), &text) {
                panel.act(Action::Mark { end: address.to_owned(), mark });
            }
        }
    });
    ui.horizontal_wrapped(|ui| {
        for (letter, key) in [(Letter::L, "mark:L"), (Letter::N, "mark:N"), (Letter::PE, "mark:PE")] {
            let with = Mark::Letter(letter);
            let text = mark(panel.wording, with);
            if panel.button(ui, key, &text) {
                panel.act(Action::Mark { end: address.to_owned(), mark: with });
            }
        }
    });
}

fn tighten(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, of: TerminalId) {
    let text = panel.say("window-tighten", &[]);
    if panel.button_if(ui, !work.is_tight(of), "tighten", &text) {
        let terminal = work.exercise().terminals[of].address.clone();
        panel.act(Action::Tighten { terminal, feel: Feel::Right });
    }
    prepare::feels(ui, panel, work, of);
}

/// What is in a terminal, each a way to that end; and how its screw is, which can be felt there.
fn terminal_facts(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, of: TerminalId) {
    held(ui, panel, work, of);
    let text = if work.is_tight(of) { panel.say("window-tight", &[]) } else { panel.say("window-slack", &[]) };
    theme::quiet(ui, &text);
    prepare::terminal_facts(ui, panel, work, of);
}

/// The ends in a terminal.
fn held(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, of: TerminalId) {
    let mut held: Vec<_> = work.ends_in(of).collect();
    // No order tells which is which of what has no mark.
    held.sort_by_key(|it| work.exercise().unmarked_end(*it));
    if held.is_empty() {
        ui.label(panel.say("window-empty", &[]));
    }
    for it in held {
        let text = panel.say("window-select", &[("end", &end(panel.wording, work, it))]);
        if panel.button(ui, &format!("select:{}", work.end_address(it)), &text) {
            let sight = Sight::Location(work.end_location(it));
            panel.intents.push(Intent::Show(sight, Some(Thing::End(it))));
        }
    }
}

fn of_terminal(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, of: TerminalId) {
    terminal_facts(ui, panel, work, of);
    ui.horizontal_wrapped(|ui| tighten(ui, panel, work, of));
}

fn of_lamp(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, of: LampId) {
    let lamp = work.exercise().lamps[of].address.clone();
    if work.is_lamp_in(of) {
        let text = panel.say("window-lamp-out", &[]);
        if panel.button(ui, "lamp", &text) {
            panel.act(Action::RemoveLamp { lamp });
        }
    } else {
        let text = panel.say("window-lamp-in", &[]);
        if panel.button(ui, "lamp", &text) {
            panel.act(Action::FitLamp { lamp });
        }
    }
}

/// What a device feeds by the chart, and how it stands.
fn device_facts(ui: &mut Ui, panel: &PanelContext<'_>, work: &Work, of: DeviceId) {
    let state = work.device_state(of);
    ui.label(panel.say("window-chart", &[("circuit", work.exercise().charted(of))]));
    let stands = panel.say(power_key(state.power), &[]);
    let lock = match (state.locked, state.kept_off) {
        (true, false) => panel.say("window-has-lock", &[]),
        (false, false) => panel.say("window-no-lock", &[]),
        (true, true) => panel.say("window-has-both-locks", &[]),
        (false, true) => panel.say("window-has-supervisors-lock", &[]),
    };
    ui.label(panel.say("window-stands", &[("power", &stands), ("lock", &lock)]));
}

fn of_device(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, of: DeviceId) {
    let work = session.attempt.work();
    let state = work.device_state(of);
    let device = work.exercise().devices[of].address.clone();
    device_facts(ui, panel, work, of);
    // After a device opened by itself, no way back on is offered before something was proved dead.
    let tested = session.attempt.safety().is_tested_since_trip();
    if !tested && state.power != Power::On {
        ui.label(theme::bold(panel.say("window-no-reset", &[])).color(theme::WARNING));
    }
    ui.horizontal_wrapped(|ui| {
        if state.power == Power::On {
            let text = panel.say("window-off", &[]);
            if panel.button(ui, "off", &text) {
                panel.act(Action::PowerOff { device: device.clone() });
            }
        }
        if state.power == Power::Off && tested {
            let text = panel.say("window-on", &[]);
            if panel.button_if(ui, !state.locked && !state.kept_off, "on", &text) {
                panel.act(Action::PowerOn { device: device.clone() });
            }
        }
        if state.power == Power::Tripped && tested {
            let text = panel.say("window-reset", &[]);
            if panel.button_if(ui, !state.locked, "reset", &text) {
                panel.act(Action::Reset { device: device.clone() });
            }
        }
        if state.locked {
            let text = panel.say("window-unlock", &[]);
            if panel.button(ui, "unlock", &text) {
                panel.act(Action::Unlock { device });
            }
        } else {
            let text = panel.say("window-lock", &[]);
            if panel.button_if(ui, state.power != Power::On, "lock", &text) {
                panel.act(Action::LockOff { device });
            }
        }
    });
}
