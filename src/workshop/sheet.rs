//! The mark sheet: the same lines as on the command line, each finding with a way to its place.

use bevy_egui::egui::{CentralPanel, Frame, Label, Margin, Panel, ScrollArea, Ui};
use switchdrop::{exercise::LocationId, picture::Thing, work::Work};

use super::{
    bars,
    desk::{Desk, Intent, Pane},
    session::Session,
    shop::Marked,
    start::harmless,
    theme,
    view::Sight,
};

/// Draws it.
pub fn show(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, marked: &Marked) {
    let frame = Frame::new().fill(theme::PANEL).inner_margin(Margin::symmetric(24, 8));
    Panel::top("after").frame(frame).show(ui, |ui| {
        desk.begin(ui, Pane::Places, "window-pane-after");
        ui.horizontal_wrapped(|ui| {
            if session.shelved.is_some() {
                let text = desk.say("window-again", &[]);
                if desk.main_button(ui, "again", &text) {
                    desk.intents.push(Intent::Again);
                }
            }
            let text = desk.say("window-look", &[]);
            if desk.button(ui, "look", &text) {
                desk.intents.push(Intent::Go(Sight::Place));
            }
            let text = desk.say("window-leave", &[]);
            if desk.button(ui, "leave", &text) {
                desk.intents.push(Intent::Leave);
            }
            bars::common(ui, desk);
        });
    });
    let frame = Frame::new().fill(theme::PAPER).inner_margin(Margin::symmetric(24, 20));
    CentralPanel::default().frame(frame).show(ui, |ui| {
        desk.begin(ui, Pane::Middle, "window-to-sheet");
        ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
            theme::page(ui, 1000.0, |ui| {
                lines(ui, desk, session, marked);
                ui.add_space(6.0);
                let path = session.path.display().to_string();
                theme::quiet(ui, &desk.say("window-file", &[("path", &harmless(&path))]));
            });
        });
    });
}

fn lines(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, marked: &Marked) {
    for (number, line) in marked.lines.iter().enumerate() {
        if line.text.is_empty() {
            ui.add_space(8.0);
            continue;
        }
        if number < 2 {
            ui.label(theme::bold(&line.text).size(if number == 0 { 22.0 } else { 20.0 }));
            continue;
        }
        let Some(begins) = line.begins else {
            // What stands in is in: the spaces before it are the command line's.
            let text = line.text.trim_start();
            let inward = (line.text.len() - text.len()) as f32 * 6.0;
            ui.horizontal_top(|ui| {
                ui.add_space(inward);
                ui.add(Label::new(text).wrap());
            });
            continue;
        };
        ui.add_space(6.0);
        ui.label(theme::bold(&line.text).color(theme::WARNING));
        if let Some((sight, thing)) = whereabouts(session.attempt.work(), &marked.sheet.findings[begins].at) {
            let number = (begins + 1).to_string();
            let text = desk.say("window-show", &[("number", &number)]);
            if desk.button(ui, &format!("show:{number}"), &text) {
                desk.intents.push(Intent::Show(sight, Some(thing)));
            }
        }
    }
}

/// Where an address is to be seen.
fn whereabouts(work: &Work, address: &str) -> Option<(Sight, Thing)> {
    let exercise = work.exercise();
    let seen = |at: LocationId, thing: Thing| Some((Sight::Location(at), thing));
    if let Ok(it) = work.end(address) {
        return seen(work.end_location(it), Thing::End(it));
    }
    if let Ok(it) = exercise.terminal(address) {
        return seen(exercise.terminals[it.index()].location, Thing::Terminal(it));
    }
    if let Ok(it) = exercise.lamp(address) {
        return seen(exercise.lamps[it.index()].location, Thing::Lamp(it));
    }
    if let Ok(it) = exercise.device(address) {
        return seen(exercise.devices[it.index()].location, Thing::Device(it));
    }
    if let Ok(it) = exercise.switch(address) {
        return seen(exercise.switches[it.index()].location, Thing::Switch(it));
    }
    if let Ok(it) = exercise.location(address) {
        return seen(it, Thing::Location(it));
    }
    None
}
