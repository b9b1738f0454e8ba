//! The mark sheet: the same lines as on the command line, each finding with a way to its place.

use bevy_egui::egui::{CentralPanel, Frame, Margin, RichText, ScrollArea, Ui};
use switchdrop::{exercise::LocationId, picture::Thing, work::Work};

use super::{
    desk::{Desk, Intent},
    session::Session,
    shop::Marked,
    theme,
    view::Sight,
};

/// Draws it.
pub fn show(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, marked: &Marked) {
    let frame = Frame::new().fill(theme::PAPER).inner_margin(Margin::symmetric(40, 24));
    CentralPanel::default().frame(frame).show(ui, |ui| {
        ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
            ui.set_max_width(900.0);
            ui.horizontal_wrapped(|ui| {
                let text = desk.say("window-again", &[]);
                if desk.main_button(ui, "again", &text) {
                    desk.intents.push(Intent::Again);
                }
                let text = desk.say("window-look", &[]);
                if desk.button(ui, "look", &text) {
                    desk.intents.push(Intent::Go(Sight::Place));
                }
                let text = desk.say("window-leave", &[]);
                if desk.button(ui, "leave", &text) {
                    desk.intents.push(Intent::Leave);
                }
            });
            ui.add_space(8.0);
            lines(ui, desk, session, marked);
            let path = session.path.display().to_string();
            desk.quiet(ui, &desk.say("window-file", &[("path", &path)]));
        });
    });
}

fn lines(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, marked: &Marked) {
    for (number, line) in marked.lines.iter().enumerate() {
        if line.text.is_empty() {
            ui.add_space(8.0);
            continue;
        }
        let text = RichText::new(&line.text);
        ui.label(match number {
            0 => text.size(22.0).strong(),
            1 => text.size(19.0).strong(),
            _ if line.begins.is_some() => text.strong().color(theme::WARNING),
            _ => text,
        });
        let Some(begins) = line.begins else { continue };
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
