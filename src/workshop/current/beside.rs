//! Beside the drawing: where the current goes now, in sentences; every position; what a hand would feel.

use bevy_egui::egui::{Label, RichText, Ui};
use switchdrop::{
    picture::Thing,
    report::PositionTable,
    wording::{hand, hand_in_short, subject},
    work::{Action, Point, Work},
};

use super::Current;
use crate::workshop::{
    panel::{Intent, PanelContext},
    session::Session,
    theme,
    view::View,
};

/// Sentences of this number of loads are told; nobody follows more at once.
const TOLD: usize = 6;

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, current: &Current) {
    let work = session.attempt.work();
    let asks = panel.say("hand-asked", &[]);
    if view.touches {
        if panel.choice(ui, true, "hands", &asks) {
            view.touches = false;
        }
        hands(ui, panel, work, view, current);
        ui.add_space(4.0);
        return;
    }
    panel.heading(ui, "current-heading");
    if current.said.is_empty() {
        theme::quiet(ui, &panel.say("current-nothing", &[]));
    }
    for it in current.said.iter().take(TOLD) {
        ui.label(RichText::new(it).small());
    }
    if current.said.len() > TOLD {
        theme::quiet(ui, &panel.say("current-more", &[("count", &(current.said.len() - TOLD).to_string())]));
    }
    if !current.said.is_empty() {
        theme::quiet(ui, &panel.say("current-legend", &[]));
    }
    ui.add_space(4.0);
    if panel.choice(ui, false, "hands", &asks) {
        view.touches = true;
    }
    ui.add_space(4.0);
}

/// What a hand would feel on what is selected, and on all that it could come to.
fn hands(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, view: &mut View, current: &Current) {
    theme::warned(ui, |ui| {
        ui.label(theme::bold(panel.say("hand-caution", &[])).small().color(theme::WARNING));
        if let Some((_, it, _)) = &current.hand {
            for it in hand(panel.wording, work, it.point, it.met.as_ref()) {
                ui.label(RichText::new(it).small());
            }
        } else {
            ui.label(RichText::new(panel.say("hand-choose", &[])).small());
        }
    });
    for it in &current.hands {
        let place = subject(panel.wording, work, work.subject_at(it.point));
        let felt = hand_in_short(panel.wording, it.met.as_ref());
        let text = panel.say("hand-line", &[("place", &place), ("felt", &felt)]);
        let thing = match it.point {
            Point::Terminal(it) => Thing::Terminal(it),
            Point::End(it) => Thing::End(it),
        };
        let sign = if it.met.is_some() { "⚠" } else { "○" };
        if panel.line(ui, &format!("hand:{}", work.point_address(it.point)), sign, &text) {
            view.selected = Some(thing);
        }
        panel.is_on(view.selected == Some(thing));
    }
}

/// Every position of the switches, each to be set by a press as long as anything can be done.
pub fn table(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, table: &PositionTable) {
    let work = session.attempt.work();
    panel.heading(ui, "way-table");
    for (number, line) in table.lines.iter().enumerate() {
        let is_here = line.positions == work.positions();
        ui.horizontal_top(|ui| {
            let text = (number + 1).to_string();
            if session.is_over() {
                ui.label(theme::bold(text));
            } else {
                let name = panel.say("current-set", &[("stands", &line.stands)]);
                let pressed = panel.choice_called(ui, is_here, (&format!("position:{number}"), &text), &name);
                let moved = if pressed { moves(work, &line.positions) } else { Vec::new() };
                if !moved.is_empty() {
                    panel.intents.push(Intent::Act(moved));
                }
            }
            let stands = if is_here { theme::bold(&line.stands) } else { RichText::new(&line.stands) };
            ui.vertical(|ui| {
                ui.add(Label::new(stands.small()).wrap());
                ui.add(Label::new(RichText::new(&line.told).small().color(theme::QUIET)).wrap());
            });
        });
    }
    if table.left_out > 0 {
        theme::quiet(ui, &panel.say("way-table-more", &[("count", &table.left_out.to_string())]));
    }
}

/// The rockers that have to be pressed for these positions.
fn moves(work: &Work, to: &[u8]) -> Vec<Action> {
    let rows = work.exercise().switches.iter().zip(work.positions()).zip(to);
    let moved = rows.filter(|((_, now), to)| now != to);
    moved.map(|((it, _), to)| Action::Operate { switch: it.address.clone(), position: *to }).collect()
}
