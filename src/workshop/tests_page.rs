//! The test sheet: for each circuit and test the figure as it is written, whether it is acceptable, and what is still to
//! write.
//!
//! The figures are typed by the learner. Whether they are those that were read is the marker's to say.

use bevy_egui::egui::{Frame, Grid, Label, Margin, ScrollArea, Ui};
use switchdrop::{
    attempt::stage_of,
    exercise::{DeviceId, Stage},
    wording::{apart, card_figure, device_in_full, outside, test_key, unit, written},
    work::{Action, Source, Test},
};

use super::{
    panel::{PanelContext, group},
    session::Session,
    tester, theme,
    view::View,
};

/// Width of a column of words, points at the usual text size; at the least.
const WIDE: f32 = 215.0;
const NARROW: f32 = 100.0;
/// What stands beside the two columns of words, points at the usual text size: a field with its unit and two buttons.
const BESIDE: f32 = 385.0;

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    let exercise = session.attempt.work().exercise();
    let testing = session.attempt.safety().testing();
    // Where text is so large that all of it has no room, it scrolls sideways too.
    ScrollArea::both().id_salt("tests").auto_shrink(false).show(ui, |ui| {
        Frame::new().inner_margin(Margin::same(20)).show(ui, |ui| {
            ui.heading(theme::bold(panel.say("window-tests", &[])));
            ui.label(panel.say("window-tests-mean", &[]));
            if let Some(text) = card_figure(panel.wording, exercise) {
                ui.label(text);
            }
            let left: Vec<_> = tester::stages(exercise).flat_map(|it| lines_left(session, it)).collect();
            let names: Vec<_> = left.iter().map(|(test, _)| panel.say(test_key(*test), &[])).collect();
            let text = if left.is_empty() {
                panel.say("window-tests-written", &[])
            } else {
                panel.say("window-tests-missing", &[("tests", &apart(panel.wording, &names))])
            };
            ui.label(theme::bold(text).color(if left.is_empty() { theme::GOOD } else { theme::ACCENT }));
            for circuit in testing.circuits() {
                let name = device_in_full(panel.wording, exercise, circuit);
                Frame::group(ui.style()).fill(theme::PANEL.worn()).inner_margin(10).show(ui, |ui| {
                    ui.set_width(ui.available_width());
                    group(ui, &name);
                    ui.label(theme::bold(&name));
                    let room = (ui.available_width() - BESIDE * theme::scale_of(ui)) / 2.0;
                    let [least, most] = [NARROW, WIDE].map(|it| it * theme::scale_of(ui));
                    let wide = room.clamp(least, most);
                    Grid::new(("tests", circuit.index())).num_columns(4).spacing([14.0, 4.0]).show(ui, |ui| {
                        for &test in Test::ALL {
                            if exercise.asks(stage_of(test)) && testing.has_line(test) {
                                let missing = left.contains(&(test, circuit));
                                row(ui, panel, session, view, (test, circuit), (missing, wide));
                                ui.end_row();
                            }
                        }
                    });
                });
            }
        });
    });
}

/// Lines that a stage of the exercise still needs.
pub fn lines_left(session: &Session, stage: Stage) -> Vec<(Test, DeviceId)> {
    let asked = session.attempt.work().exercise().asks(stage);
    if asked { session.attempt.safety().testing().lines_left(stage) } else { Vec::new() }
}

fn row(
    ui: &mut Ui,
    panel: &mut PanelContext<'_>,
    session: &Session,
    view: &mut View,
    (test, circuit): (Test, DeviceId),
    (missing, wide): (bool, f32),
) {
    let testing = session.attempt.safety().testing();
    let exercise = session.attempt.work().exercise();
    let address = &exercise.devices[circuit].address;
    let name = panel.say(test_key(test), &[]);
    let entry = testing.sheet().find(|it| (it.0, it.1) == (test, circuit)).map(|it| it.2);
    let sign = match (entry, missing) {
        (Some(_), _) => "✔",
        (None, true) => "○",
        (None, false) => "–",
    };
    let line = entry.map_or_else(|| panel.say("window-test-blank", &[]), |it| written(panel.wording, test, it));
    for text in [format!("{sign} {name}"), line] {
        ui.scope(|ui| {
            ui.set_width(wide);
            ui.add(Label::new(text).wrap());
        });
    }
    if session.is_over() {
        return;
    }
    let mut reading = String::new();
    ui.vertical(|ui| {
        if !test.has_figure() {
            return;
        }
        let typed = view.figures.entry((test, circuit)).or_default();
        ui.horizontal(|ui| {
            let unit = unit(panel.wording, test);
            let called = panel.say("window-figure", &[("test", &name), ("unit", &unit)]);
            panel.figure(ui, typed, &format!("figure:{}:{address}", test.word()), &called);
            ui.label(unit);
        });
        typed.trim().clone_into(&mut reading);
        if test.has_outside() && exercise.card().is_some() {
            let words = panel.say("window-from-card", &[("outside", outside(test))]);
            let mut ticked = view.source == Source::Card;
            if panel.check(ui, &mut ticked, &format!("card:{}:{address}", test.word()), &words) {
                view.source = if ticked { Source::Card } else { Source::Read };
            }
        }
    });
    ui.horizontal(|ui| {
        let can = test.has_figure() != reading.is_empty();
        let says =
            [(true, "accept", panel.say("acceptable", &[])), (false, "reject", panel.say("not-acceptable", &[]))];
        for (accepted, word, text) in says {
            let called = format!("{name}: {text}");
            if panel.button_if_called(ui, can, &format!("{word}:{}:{address}", test.word()), &text, &called) {
                let has_card = test.has_outside() && exercise.card().is_some();
                let source = if has_card { view.source } else { Source::Read };
                panel.act(Action::Record { test, at: address.clone(), reading: reading.clone(), accepted, source });
            }
        }
    });
}
