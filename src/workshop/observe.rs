//! Somebody else's work looked over: what is wrong at what is selected, or with the place itself, and the list of what was said.
//!
//! It offers every word for every point: which of them is so is for the marker to say, after the hand-in.

use bevy_egui::egui::Ui;
use switchdrop::{
    attempt::Observed,
    exercise::{LocationId, Stage},
    picture::Thing,
    wording::{flaw_key, subject},
    work::{Action, Flaw, Subject, Work},
};

use super::{panel::PanelContext, session::Session, theme, tools::name, view::View};

/// What is spoken of: the end or terminal that is selected there, else the place.
fn spoken_of(work: &Work, view: &View, at: LocationId) -> (Thing, Subject) {
    let here = |it: &Subject| it.location(work.exercise()) == Some(at);
    let selected = match view.selected {
        Some(Thing::End(it)) => Some((Thing::End(it), work.subject_of(it))),
        Some(Thing::Terminal(it)) => Some((Thing::Terminal(it), Subject::Terminal(it))),
        _ => None,
    };
    selected.filter(|it| here(&it.1)).unwrap_or((Thing::Location(at), Subject::Location(at)))
}

/// What can be said to be wrong there, each said or taken back by a press.
pub fn offer(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &View, at: LocationId) {
    let work = session.attempt.work();
    if !work.exercise().asks(Stage::Observations) || session.is_over() {
        return;
    }
    let (thing, of) = spoken_of(work, view, at);
    if let Thing::End(it) = thing
        && work.terminal_of(it).is_some()
    {
        let text = panel.say("window-tug", &[]);
        if panel.button(ui, "tug", &text) {
            panel.act(Action::Tug { end: work.end_address(it) });
        }
    }
    let place = name(panel.wording, work, thing);
    ui.label(theme::bold(panel.say("window-observe", &[("place", &place)])));
    let address = of.address(work.exercise());
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = [4.0, 4.0].into();
        for what in Flaw::ALL.iter().copied() {
            let said = session.attempt.tally().observed.iter().any(|it| (it.at, it.what) == (of, what));
            let text = panel.say(flaw_key(what), &[]);
            if panel.choice(ui, said, &format!("observe:{}", what.word()), &text) {
                let at = address.clone();
                panel.act(if said { Action::Withdraw { at, what } } else { Action::Observe { at, what } });
            }
        }
    });
    ui.separator();
}

/// Everything that was said, each with a way to take it back, as long as the work is not handed in.
pub fn list(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session) {
    let work = session.attempt.work();
    if !work.exercise().asks(Stage::Observations) {
        return;
    }
    panel.heading(ui, "window-observed");
    let observed = &session.attempt.tally().observed;
    if observed.is_empty() {
        theme::quiet(ui, &panel.say("window-observed-nothing", &[]));
    }
    for (number, Observed { what, at, .. }) in (1..).zip(observed) {
        let (flaw, place) = (panel.say(flaw_key(*what), &[]), subject(panel.wording, work, *at));
        let text = panel.say("window-observation", &[("flaw", &flaw), ("place", &place)]);
        ui.horizontal_wrapped(|ui| {
            ui.label(format!("{number}  {text}"));
            let (back, named) =
                (panel.say("window-withdraw", &[]), panel.say("window-withdraw-named", &[("observation", &text)]));
            if !session.is_over() && panel.button_called(ui, &format!("withdraw:{number}"), &back, &named) {
                panel.act(Action::Withdraw { at: at.address(work.exercise()), what: *what });
            }
        });
    }
    ui.separator();
}
