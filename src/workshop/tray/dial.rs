//! The multifunction tester in the hand: its display, a dial with words about it, the ranges of what the dial is turned to.
//!
//! Left of the knob stands what is for dead work only, right of it what is for live.

use bevy_egui::egui::{Rect, Stroke, Ui};
use switchdrop::trade::instrument::{Function, insulation::TestVolts, loop_impedance::Range, rcd};

use super::{
    super::{panel::PanelContext, session::Session, theme, view::View},
    HAND, HIGH, Lie, body, body_key, display, read_key, show_display,
};

/// Where the knob is, and how large, units.
const KNOB: (f32, f32, f32) = (228.0, 43.0, 18.0);
/// The rows of words left of it and right of it: their left edge, their width, how high each is.
const LEFT: (f32, f32, f32) = (134.0, 72.0, 36.0);
const RIGHT: (f32, f32, f32) = (250.0, 58.0, 28.6);

/// Draws it.
pub(super) fn tester(ui: &Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, lie: &Lie<'_>) {
    body(lie, lie.rect(0.0, 0.0, HAND, HIGH), 14.0);
    let text = display::now(session, view).and_then(|it| it.text(panel.wording));
    show_display(ui, panel, lie, lie.rect(6.0, 5.0, 124.0, 46.0), text.as_deref());
    let ranges = words(ui, panel, view, lie);
    if ranges.len() > 1 {
        keys(ui, panel, view, lie, &ranges);
    }
    read_key(ui, panel, session, view, lie, lie.rect(313.0, 6.0, HAND - 319.0, HIGH - 12.0));
}

/// The dial: five words, and the knob turned to one of them. The ranges of that one.
fn words(ui: &Ui, panel: &mut PanelContext<'_>, view: &mut View, lie: &Lie<'_>) -> Vec<Function> {
    let functions = [
        ("fn:continuity", panel.say("window-fn-continuity", &[]), vec![Function::Continuity]),
        (
            "fn:insulation",
            panel.say("window-fn-insulation", &[]),
            vec![Function::Insulation(TestVolts::V500), Function::Insulation(TestVolts::V250)],
        ),
        ("fn:voltage", panel.say("window-fn-voltage", &[]), vec![Function::Voltage]),
        ("fn:loop", panel.say("window-fn-loop", &[]), vec![Function::Loop(Range::NoTrip), Function::Loop(Range::High)]),
        (
            "fn:rcd",
            panel.say("window-fn-rcd", &[]),
            vec![Function::Rcd(rcd::Test::Rated), Function::Rcd(rcd::Test::Half), Function::Rcd(rcd::Test::FiveTimes)],
        ),
    ];
    let knob = lie.rect(KNOB.0, KNOB.1, 0.0, 0.0).min;
    let mut turned_to = knob;
    let mut ranges = Vec::new();
    for (number, (key, text, of)) in functions.into_iter().enumerate() {
        let rect = word_at(lie, number);
        let is_dead = number < 2;
        let chosen = of.contains(&view.tester.function);
        if body_key(ui, panel, lie, key, (&text, &text), (rect, chosen)) && !chosen {
            view.tester.function = of[0];
        }
        if of.contains(&view.tester.function) {
            turned_to = if is_dead { rect.right_center() } else { rect.left_center() };
            ranges = of;
        }
    }
    let radius = KNOB.2 * lie.unit;
    lie.painter.circle(knob, radius, theme::FIELD, Stroke::new(2.0, theme::EDGE));
    let way = (turned_to - knob).normalized();
    lie.painter.line_segment([knob - 0.5 * radius * way, knob + 0.9 * radius * way], Stroke::new(4.0, theme::ACCENT));
    ranges
}

/// Where a word of the dial stands: two on the left, three on the right.
fn word_at(lie: &Lie<'_>, number: usize) -> Rect {
    let ((left, wide, high), row, rows) = if number < 2 { (LEFT, number, 2.0) } else { (RIGHT, number - 2, 3.0) };
    let top = (HIGH - rows * high) / 2.0 + row as f32 * high;
    lie.rect(left, top + 0.5, wide, high - 1.0)
}

/// The ranges, beneath the display.
fn keys(ui: &Ui, panel: &mut PanelContext<'_>, view: &mut View, lie: &Lie<'_>, ranges: &[Function]) {
    let wide = 124.0 / ranges.len() as f32;
    for (number, it) in ranges.iter().enumerate() {
        let text = match it {
            Function::Insulation(TestVolts::V500) => panel.say("window-range-500", &[]),
            Function::Insulation(TestVolts::V250) => panel.say("window-range-250", &[]),
            Function::Loop(Range::NoTrip) => panel.say("window-range-no-trip", &[]),
            Function::Loop(Range::High) => panel.say("window-range-high", &[]),
            Function::Rcd(rcd::Test::Half) => panel.say("window-range-half", &[]),
            Function::Rcd(rcd::Test::Rated) => panel.say("window-range-rated", &[]),
            Function::Rcd(rcd::Test::FiveTimes) => panel.say("window-range-five", &[]),
            Function::Continuity | Function::Voltage | Function::Indicator => continue,
        };
        let rect = lie.rect(6.0 + wide * number as f32, 53.0, wide - 2.0, 30.0);
        let chosen = view.tester.function == *it;
        if body_key(ui, panel, lie, &format!("range:{}", it.word()), (&text, &text), (rect, chosen)) {
            view.tester.function = *it;
        }
    }
}
