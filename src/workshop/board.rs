//! What is done at a board that is the learner's: the main switch, the isolator in front of it, their locks, what is seen to
//! before its cover comes off.

use bevy_egui::egui::Ui;
use switchdrop::{
    exercise::{LocationId, Outside, Stage, Tails},
    trade::instrument::loop_impedance::Range,
    wording::check_key,
    work::{Action, Check, EarthingStep, Incomer},
};

use super::{panel::PanelContext, session::Session, theme};

/// Everything that stands in front of the devices.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, at: LocationId) {
    let work = session.attempt.work();
    if !work.is_board(at) {
        return;
    }
    if work.is_bench() {
        bench(ui, panel, session);
    }
    ui.horizontal_wrapped(|ui| {
        switch(ui, panel, session, Incomer::Main);
        if work.exercise().tails == Tails::Isolator {
            switch(ui, panel, session, Incomer::Isolator);
        }
    });
    if !work.is_board_to_open(at) {
        return;
    }
    if work.is_covered(at) {
        for check in session.attempt.safety().board_checks_left(work) {
            let text = panel.say(check_key(check), &[]);
            if panel.button(ui, key_of(check), &text) {
                panel.act(Action::Confirm { check });
            }
        }
    } else {
        let text = panel.say("window-lift-shroud", &[]);
        if panel.button(ui, "lift-shroud", &text) {
            panel.act(Action::LiftShroud);
        }
    }
    if work.exercise().asks(Stage::LoopImpedance) && work.exercise().outside() == Outside::Ze {
        origin(ui, panel, session);
    }
}

/// What Ze is read with: the earthing conductor off, the reading at the origin, the conductor back again.
fn origin(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session) {
    let work = session.attempt.work();
    ui.label(panel.say("window-origin", &[]));
    ui.horizontal_wrapped(|ui| {
        for (step, key, name) in [
            (EarthingStep::Disconnect, "earthing:off", panel.say("window-earthing-off", &[])),
            (EarthingStep::Connect, "earthing:back", panel.say("window-earthing-back", &[])),
            (EarthingStep::Tighten, "earthing:tight", panel.say("window-earthing-tight", &[])),
            (EarthingStep::ReadThrough, "earthing:read", panel.say("window-earthing-read", &[])),
        ] {
            if panel.button_if(ui, work.is_earthing_step(step), key, &name) {
                panel.act(Action::Earthing { step });
            }
        }
        let text = panel.say("window-read-origin", &[]);
        if panel.button(ui, "read-origin", &text) {
            panel.act(Action::ReadOrigin { range: Range::NoTrip });
        }
    });
}

/// The plug of a training board, and what it means.
fn bench(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session) {
    if session.attempt.work().is_unplugged() {
        theme::quiet(ui, &panel.say("window-bench-out", &[]));
        let text = panel.say("window-bring-supply", &[]);
        if panel.button(ui, "bring-supply", &text) {
            panel.act(Action::BringSupply);
        }
    } else {
        theme::quiet(ui, &panel.say("window-bench-in", &[]));
        let text = panel.say("window-unplug", &[]);
        if panel.button(ui, "unplug", &text) {
            panel.act(Action::Unplug);
        }
    }
}

const fn key_of(check: Check) -> &'static str {
    match check {
        Check::SupervisorPresent => "check:supervisor",
        _ => "check:sources",
    }
}

fn switch(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, which: Incomer) {
    let work = session.attempt.work();
    let (on, locked) = (work.is_incomer_on(which), work.is_incomer_locked(which));
    let (name, lock) = match which {
        Incomer::Main => ("main-switch", "lock-main"),
        Incomer::Isolator => ("isolator", "lock-isolator"),
    };
    let text = match (which, on) {
        (Incomer::Main, true) => panel.say("window-main-off", &[]),
        (Incomer::Main, false) => panel.say("window-main-on", &[]),
        (Incomer::Isolator, true) => panel.say("window-isolator-off", &[]),
        (Incomer::Isolator, false) => panel.say("window-isolator-on", &[]),
    };
    if panel.button_if(ui, on || !locked, name, &text) {
        panel.act(match which {
            Incomer::Main => Action::MainSwitch { on: !on },
            Incomer::Isolator => Action::Isolator { on: !on },
        });
    }
    if work.opens_board() && !on {
        let text = match (which, locked) {
            (Incomer::Main, true) => panel.say("window-unlock-main", &[]),
            (Incomer::Main, false) => panel.say("window-lock-main", &[]),
            (Incomer::Isolator, true) => panel.say("window-unlock-isolator", &[]),
            (Incomer::Isolator, false) => panel.say("window-lock-isolator", &[]),
        };
        if panel.button(ui, lock, &text) {
            panel.act(if locked { Action::UnlockIncomer { which } } else { Action::LockIncomer { which } });
        }
    }
}
