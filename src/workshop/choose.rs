//! Choosing the cable of a run, at either of its places: the cables on offer, why, and what was chosen.
//!
//! It offers what the exercise offers. What will do, and why, is for the learner to say.

use bevy_egui::egui::Ui;
use switchdrop::{
    exercise::{LocationId, Offer, Run},
    wording::{cable, device_in_full, laid_key, lamp, reason_key},
    work::{Action, Reason, Work},
};

use super::{
    panel::PanelContext,
    session::Session,
    theme,
    view::{Choosing, View},
};

/// The key of an offer on the screen.
fn key(run: &Run, offer: Offer) -> String {
    format!("choose:{}:{:?}:{:?}", run.id, offer.kind, offer.live.mm2())
}

/// A reason in a word or two: it is said in full once it is picked.
const fn short(reason: Reason) -> &'static str {
    match reason {
        Reason::Cores => "window-why-cores",
        Reason::Current => "window-why-current",
        Reason::VoltDrop => "window-why-volt-drop",
        Reason::Disconnection => "window-why-disconnection",
        Reason::Any => "window-why-any",
        Reason::Usual => "window-why-usual",
    }
}

/// Draws what there is to choose at a place.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, at: LocationId) {
    let work = session.attempt.work();
    let here = work.exercise().runs.iter().enumerate().filter(|(_, it)| it.between.contains(&at));
    let mut asked = false;
    for (index, run) in here {
        let chosen = work.chosen().get(index).copied().flatten();
        let again = view.choosing.again && view.choosing.run == Some(index);
        match chosen {
            Some(it) if !again => {
                let cable = cable(panel.wording, it.offer.kind, it.offer.live);
                let reason = panel.say(reason_key(it.reason), &[]);
                let args = [("run", run.name.as_str()), ("cable", &cable), ("reason", &reason)];
                theme::quiet(ui, &panel.say("window-chosen", &args));
                let text = panel.say("window-choose-another", &[("run", &run.name)]);
                if work.held_in(index).is_none() && panel.button(ui, &format!("another:{}", run.id), &text) {
                    view.choosing = Choosing { run: Some(index), again: true, ..Choosing::default() };
                }
            }
            // One at a time: the panel is narrow, and so is the mind.
            _ if !asked => {
                asked = true;
                if view.choosing.run != Some(index) {
                    view.choosing = Choosing { run: Some(index), ..Choosing::default() };
                }
                offers(ui, panel, work, view, run);
            }
            _ => {}
        }
    }
}

fn offers(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, view: &mut View, run: &Run) {
    ui.label(theme::bold(panel.say("window-choose-cable", &[("run", &run.name)])));
    theme::quiet(ui, &facts(panel, work, run));
    ui.horizontal_wrapped(|ui| {
        for offer in &run.offers {
            let text = cable(panel.wording, offer.kind, offer.live);
            if panel.choice(ui, view.choosing.offer == Some(*offer), &key(run, *offer), &text) {
                view.choosing.offer = Some(*offer);
            }
        }
    });
    ui.label(panel.say("window-choose-why", &[]));
    ui.horizontal_wrapped(|ui| {
        for &reason in Reason::ALL {
            let text = panel.say(short(reason), &[]);
            let key = format!("reason:{}:{}", run.id, reason.word());
            if panel.choice(ui, view.choosing.reason == Some(reason), &key, &text) {
                view.choosing.reason = Some(reason);
            }
        }
    });
    if let Some(it) = view.choosing.reason {
        theme::quiet(ui, &panel.say("window-choose-because", &[("reason", &panel.say(reason_key(it), &[]))]));
    }
    let both = view.choosing.offer.zip(view.choosing.reason);
    let text = panel.say("window-choose-take", &[]);
    if panel.button_if(ui, both.is_some(), &format!("take:{}", run.id), &text)
        && let Some((Offer { kind, live: mm2, .. }, reason)) = both
    {
        panel.act(Action::Choose { cable: run.id.clone(), kind, mm2, reason });
        view.choosing = Choosing::default();
    }
    ui.separator();
}

/// What there is to know on site: the run, the lamps and what the devices are rated.
fn facts(panel: &PanelContext<'_>, work: &Work, run: &Run) -> String {
    let exercise = work.exercise();
    let laid = panel.say(laid_key(run.laid), &[]);
    let mut said = vec![panel.say("window-choose-run", &[("metres", &run.metres.to_string()), ("laid", &laid)])];
    for it in exercise.cables.iter().filter(|it| exercise.run(&it.id).is_err()) {
        let (cable, metres) = (cable(panel.wording, it.kind, it.live), it.metres.to_string());
        said.push(panel.say("window-choose-there", &[("name", &it.name), ("cable", &cable), ("metres", &metres)]));
    }
    for it in exercise.learners_lamps() {
        let watts = exercise.lamps[it].watts.to_string();
        said.push(panel.say("window-choose-lamp", &[("lamp", &lamp(exercise, it)), ("watts", &watts)]));
    }
    for it in exercise.devices.ids() {
        said.push(device_in_full(panel.wording, exercise, it));
    }
    said.join("\n")
}
