//! The two-pole indicator in the hand: a ladder of lights, and the proving unit beside it; and the voltage stick.

use bevy_egui::egui::{Align2, FontId, Stroke, StrokeKind, Ui, vec2};
use switchdrop::{picture::FontWeight, trade::instrument::voltage::INDICATOR_STEPS, work::Action};

use super::{
    super::{panel::PanelContext, session::Session, theme, view::View},
    HAND, HIGH, Lie, body, display, outlined, read_key,
};

/// How wide its body is, and how high, units.
const BODY: (f32, f32) = (244.0, 57.0);

/// The indicator, its lights and what they say in words; the proving unit; the key that takes the reading.
pub(super) fn show(ui: &Ui, panel: &mut PanelContext<'_>, session: &Session, view: &View, lie: &Lie<'_>) {
    let shown = display::now(session, view);
    body(lie, lie.rect(0.0, 0.0, BODY.0, BODY.1), 20.0);
    ladder(lie, shown.and_then(display::Displayed::lights));
    let text = shown.and_then(|it| it.text(panel.wording));
    let dark = panel.say("window-display-dark", &[]);
    let words = lie.rect(4.0, BODY.1 + 2.0, BODY.0 - 8.0, HIGH - BODY.1 - 2.0);
    PanelContext::readout(ui, "display", text.as_ref().unwrap_or(&dark), words);
    let is_lit = shown.and_then(display::Displayed::lights).is_some();
    let (ink, weight) = match (&text, is_lit) {
        (Some(_), true) => (theme::WARNING, FontWeight::Bold),
        (Some(_), false) => (theme::INK, FontWeight::Bold),
        (None, _) => (theme::QUIET, FontWeight::Normal),
    };
    lie.words_from_left(text.as_ref().unwrap_or(&dark), words, weight, ink);
    proving_unit(ui, panel, lie);
    let read = lie.rect(BODY.0 + 10.0, BODY.1 + 1.0, HAND - BODY.0 - 10.0, HIGH - BODY.1 - 1.0);
    read_key(ui, panel, session, view, lie, read);
}

/// The lights, each with its volts beneath. One that is lit is filled, larger, and has rays; others are hollow.
fn ladder(lie: &Lie<'_>, lights: Option<u16>) {
    let wide = (BODY.0 - 24.0) / INDICATOR_STEPS.len() as f32;
    let font = FontId::new((12.5 * lie.unit).max(theme::LEAST_DRAWN), theme::family(FontWeight::Bold));
    for (step, volts) in INDICATOR_STEPS.iter().enumerate() {
        let (left, high) = (12.0 + wide * step as f32, 9.0 + 4.2 * step as f32);
        let lamp = lie.rect(left + 8.0, 39.0 - high, wide - 16.0, high);
        let is_lit = lights.is_some_and(|it| it >= *volts);
        if is_lit {
            lie.painter.rect(lamp.expand(2.0), 4, theme::LIT, Stroke::new(2.5, theme::WARNING), StrokeKind::Middle);
            for (from, to) in [(lamp.left_top(), vec2(-5.0, -5.0)), (lamp.right_top(), vec2(5.0, -5.0))] {
                lie.painter.line_segment([from + 0.6 * to, from + 1.3 * to], Stroke::new(2.0, theme::WARNING));
            }
        } else {
            lie.painter.rect(lamp, 4, theme::FIELD, Stroke::new(1.4, theme::EDGE), StrokeKind::Middle);
        }
        let at = lie.rect(left, 40.0, wide, 16.0).center();
        lie.painter.text(at, Align2::CENTER_CENTER, volts.to_string(), font.clone(), theme::INK.worn());
    }
}

/// A little box with two holes for the probes: a press tries the indicator on it.
fn proving_unit(ui: &Ui, panel: &mut PanelContext<'_>, lie: &Lie<'_>) {
    let rect = lie.rect(BODY.0 + 10.0, 0.0, HAND - BODY.0 - 10.0, BODY.1 - 3.0);
    let (face, name) = (panel.say("window-proving-unit", &[]), panel.say("window-prove", &[]));
    let response = panel.spot(ui, "prove", &name, rect);
    body(lie, rect, 12.0);
    let holes = lie.from(BODY.0 + 10.0);
    for x in [24.0, 50.0] {
        let hole = holes.rect(x - 7.0, 21.5, 14.0, 14.0).center();
        lie.painter.circle(hole, 7.0 * lie.unit, theme::FIELD, Stroke::new(1.4, theme::EDGE));
        lie.painter.circle_filled(hole, 3.0 * lie.unit, theme::INK);
    }
    lie.words(&face, holes.rect(66.0, 0.0, HAND - BODY.0 - 80.0, BODY.1), FontWeight::Normal, theme::INK);
    outlined(lie.painter, rect, response.has_focus(), response.hovered());
    if response.clicked() {
        panel.act(Action::ProveIndicator);
    }
    response.on_hover_text(name);
}

/// The voltage stick: one light, and no figure at all.
pub(super) fn stick(ui: &Ui, panel: &mut PanelContext<'_>, session: &Session, view: &View, lie: &Lie<'_>) {
    body(lie, lie.rect(0.0, 10.0, BODY.0, 40.0), 18.0);
    body(lie, lie.rect(BODY.0 - 6.0, 22.0, 34.0, 16.0), 7.0);
    lie.painter.circle(
        lie.rect(150.0, 20.0, 20.0, 20.0).center(),
        10.0 * lie.unit,
        theme::FIELD,
        Stroke::new(1.4, theme::EDGE),
    );
    let text = display::now(session, view).and_then(|it| it.text(panel.wording));
    let rect = lie.rect(4.0, 54.0, BODY.0 - 8.0, HIGH - 54.0);
    let dark = panel.say("window-display-dark", &[]);
    PanelContext::readout(ui, "display", text.as_ref().unwrap_or(&dark), rect);
    lie.words_from_left(text.as_ref().unwrap_or(&dark), rect, FontWeight::Normal, theme::QUIET);
    read_key(ui, panel, session, view, lie, lie.rect(BODY.0 + 40.0, 56.0, HAND - BODY.0 - 40.0, HIGH - 56.0));
}
