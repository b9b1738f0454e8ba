//! What is done at a board that is the learner's: the main switch, the isolator in front of it, their locks, what is seen to
//! before its cover comes off.

use bevy_egui::egui::Ui;
use switchdrop::{
    exercise::{LocationId, Outside, Stage, Tails},
    trade::instrument::loop_impedance::Range,
    wording::check_key,
    work::{Action, Check, EarthingStep, Incomer},
};

use super::{desk::Desk, session::Session, theme};

/// Everything that stands in front of the devices.
pub fn show(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, at: LocationId) {
    let work = session.attempt.work();
    if !work.is_board(at) {
        return;
    }
    if work.is_bench() {
        bench(ui, desk, session);
    }
    ui.horizontal_wrapped(|ui| {
        switch(ui, desk, session, Incomer::Main);
        if work.exercise().tails == Tails::Isolator {
            switch(ui, desk, session, Incomer::Isolator);
        }
    });
    if !work.is_board_to_open(at) {
        return;
    }
    if work.is_covered(at) {
        for check in session.attempt.safety().board_checks_left(work) {
            let text = desk.say(check_key(check), &[]);
            if desk.button(ui, key_of(check), &text) {
                desk.act(Action::Confirm { check });
            }
        }
    } else {
        let text = desk.say("window-lift-shroud", &[]);
        if desk.button(ui, "lift-shroud", &text) {
            desk.act(Action::LiftShroud);
        }
    }
    if work.exercise().asks(Stage::LoopImpedance) && work.exercise().outside() == Outside::Ze {
        origin(ui, desk, session);
    }
}

/// What Ze is read with: the earthing conductor off, the reading at the origin, the conductor back again.
fn origin(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session) {
    let work = session.attempt.work();
    ui.label(desk.say("window-origin", &[]));
    ui.horizontal_wrapped(|ui| {
        for (step, key, name) in [
            (EarthingStep::Disconnect, "earthing:off", desk.say("window-earthing-off", &[])),
            (EarthingStep::Connect, "earthing:back", desk.say("window-earthing-back", &[])),
            (EarthingStep::Tighten, "earthing:tight", desk.say("window-earthing-tight", &[])),
            (EarthingStep::ReadThrough, "earthing:read", desk.say("window-earthing-read", &[])),
        ] {
            if desk.button_if(ui, work.is_earthing_step(step), key, &name) {
                desk.act(Action::Earthing { step });
            }
        }
        let text = desk.say("window-read-origin", &[]);
        if desk.button(ui, "read-origin", &text) {
            desk.act(Action::ReadOrigin { range: Range::NoTrip });
        }
    });
}

/// The plug of a training board, and what it means.
fn bench(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session) {
    if session.attempt.work().is_unplugged() {
        theme::quiet(ui, &desk.say("window-bench-out", &[]));
        let text = desk.say("window-bring-supply", &[]);
        if desk.button(ui, "bring-supply", &text) {
            desk.act(Action::BringSupply);
        }
    } else {
        theme::quiet(ui, &desk.say("window-bench-in", &[]));
        let text = desk.say("window-unplug", &[]);
        if desk.button(ui, "unplug", &text) {
            desk.act(Action::Unplug);
        }
    }
}

const fn key_of(check: Check) -> &'static str {
    match check {
        Check::SupervisorPresent => "check:supervisor",
        _ => "check:sources",
    }
}

fn switch(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, which: Incomer) {
    let work = session.attempt.work();
    let (on, locked) = (work.is_incomer_on(which), work.is_incomer_locked(which));
    let (name, lock) = match which {
        Incomer::Main => ("main-switch", "lock-main"),
        Incomer::Isolator => ("isolator", "lock-isolator"),
    };
    let text = match (which, on) {
        (Incomer::Main, true) => desk.say("window-main-off", &[]),
        (Incomer::Main, false) => desk.say("window-main-on", &[]),
        (Incomer::Isolator, true) => desk.say("window-isolator-off", &[]),
        (Incomer::Isolator, false) => desk.say("window-isolator-on", &[]),
    };
    if desk.button_if(ui, on || !locked, name, &text) {
        desk.act(match which {
            Incomer::Main => Action::MainSwitch { on: !on },
            Incomer::Isolator => Action::Isolator { on: !on },
        });
    }
    if work.opens_board() && !on {
        let text = match (which, locked) {
            (Incomer::Main, true) => desk.say("window-unlock-main", &[]),
            (Incomer::Main, false) => desk.say("window-lock-main", &[]),
            (Incomer::Isolator, true) => desk.say("window-unlock-isolator", &[]),
            (Incomer::Isolator, false) => desk.say("window-lock-isolator", &[]),
        };
        if desk.button(ui, lock, &text) {
            desk.act(if locked { Action::UnlockIncomer { which } } else { Action::LockIncomer { which } });
        }
    }
}
