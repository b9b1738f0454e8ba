//! The continuity meter, with its scale, and the multimeter.

use bevy_egui::egui::{Align2, FontId, Shape, Stroke, Ui, vec2};
use switchdrop::picture::FontWeight;

use super::{
    super::{panel::PanelContext, session::Session, theme, view::View},
    HAND, HIGH, Lie, body, display, read_key, show_display,
};

/// The marks of the scale: ohms, and what is written beside each.
const MARKS: [(f64, &str); 5] = [(0.1, "0.1"), (1.0, "1"), (10.0, "10"), (100.0, "100"), (1000.0, "1000")];
/// The ends of the scale, from its left end: nought, and more than it shows.
const ENDS: (f32, f32) = (16.0, 274.0);

/// The continuity meter: a display, and a scale on which each mark stands for ten times the one before.
pub(super) fn continuity(ui: &Ui, panel: &mut PanelContext<'_>, session: &Session, view: &View, lie: &Lie<'_>) {
    let shown = display::now(session, view);
    body(lie, lie.rect(0.0, 0.0, 300.0, HIGH), 16.0);
    let text = shown.and_then(|it| it.text(panel.wording));
    show_display(ui, panel, lie, lie.rect(10.0, 6.0, 280.0, 36.0), text.as_deref());
    scale(lie, shown.and_then(display::Displayed::ohms));
    read_key(ui, panel, session, view, lie, lie.rect(310.0, 0.0, HAND - 310.0, HIGH));
}

/// How far along the scale a resistance lies, from 0 to 1.
fn along(ohms: f64) -> f32 {
    let (first, last) = (MARKS[0].0.log10(), MARKS[MARKS.len() - 1].0.log10());
    // A tenth of the way before the first mark and after the last one is for nought and for more than is shown.
    let part = if ohms > 0.0 { (ohms.log10() - first) / (last - first) } else { -1.0 };
    (0.1 + 0.8 * part).clamp(0.0, 1.0) as f32
}

fn scale(lie: &Lie<'_>, ohms: Option<f64>) {
    let x = |part: f32| ENDS.0 + (ENDS.1 - ENDS.0) * part;
    let point = |part: f32, y: f32| lie.rect(x(part), y, 0.0, 0.0).min;
    lie.painter.line_segment([point(0.0, 55.0), point(1.0, 55.0)], Stroke::new(1.6, theme::INK));
    let font = FontId::new((12.0 * lie.unit).max(theme::LEAST_DRAWN), theme::family(FontWeight::Normal));
    let marks = MARKS.into_iter().map(|(ohms, text)| (along(ohms), text)).chain([(0.0, "0"), (1.0, "∞")]);
    for (part, text) in marks {
        lie.painter.line_segment([point(part, 50.0), point(part, 60.0)], Stroke::new(1.6, theme::INK));
        lie.painter.text(point(part, 72.0), Align2::CENTER_CENTER, text, font.clone(), theme::INK.worn());
    }
    let Some(ohms) = ohms else { return };
    let tip = point(along(ohms), 55.0);
    let hand = [tip, tip + vec2(-6.0, -13.0) * lie.unit, tip + vec2(6.0, -13.0) * lie.unit];
    lie.painter.add(Shape::convex_polygon(hand.to_vec(), theme::ACCENT.worn(), Stroke::new(1.0, theme::PAPER)));
}

/// The multimeter: a display, and nothing that says on which range it stands.
pub(super) fn multimeter(ui: &Ui, panel: &mut PanelContext<'_>, session: &Session, view: &View, lie: &Lie<'_>) {
    body(lie, lie.rect(0.0, 0.0, 300.0, HIGH), 16.0);
    let text = display::now(session, view).and_then(|it| it.text(panel.wording));
    show_display(ui, panel, lie, lie.rect(10.0, 8.0, 200.0, HIGH - 16.0), text.as_deref());
    let knob = lie.rect(226.0, 13.0, 60.0, 60.0).center();
    lie.painter.circle(knob, 26.0 * lie.unit, theme::FIELD, Stroke::new(1.5, theme::EDGE));
    lie.painter.line_segment([knob, knob + vec2(12.0, -16.0) * lie.unit], Stroke::new(3.0, theme::INK));
    read_key(ui, panel, session, view, lie, lie.rect(310.0, 0.0, HAND - 310.0, HIGH));
}

#[cfg(test)]
mod tests {
    use super::along;

    /// Five marks, ten times apart, eight tenths of the scale: a fifth of the way from mark to mark.
    #[test]
    fn each_mark_stands_for_ten_times_the_one_before() {
        let places = [0.0, 0.1, 1.0, 10.0, 100.0, 1000.0, f64::INFINITY].map(|it| (along(it) * 10.0).round() as i32);
        assert_eq!(places, [0, 1, 3, 5, 7, 9, 10]);
        assert!(along(f64::NAN) <= 1.0);
    }
}
