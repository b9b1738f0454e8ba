//! The guide: Next names one conductor at a time, and the drawing shows where it goes.

use bevy_egui::egui::{Color32, Rect, Shape, Stroke, Ui, epaint::CubicBezierShape, vec2};
use switchdrop::attempt::Mode;

use super::{session::Session, theme};

/// Whether a learner may be guided: in practice, where doing without a hint earns nothing.
pub fn may_guide(session: &Session) -> bool {
    session.mode == Mode::Practice && session.attempt.work().exercise().weights.hints == 0
}

/// The way from an end to the terminal that it goes into, in dashes.
pub fn led(ui: &Ui, from: Rect, to: Rect) {
    let (from, to) = (from.center_bottom() + vec2(0.0, 4.0), to.center_top() - vec2(0.0, 4.0));
    let bend = vec2(0.0, (to.y - from.y).abs().clamp(20.0, 80.0));
    let way = CubicBezierShape::from_points_stroke(
        [from, from + bend, to - bend, to],
        false,
        Color32::TRANSPARENT,
        Stroke::NONE,
    );
    let points = way.flatten(Some(0.5));
    for stroke in [Stroke::new(5.0, theme::PAPER), Stroke::new(3.0, theme::ACCENT)] {
        ui.painter().extend(Shape::dashed_line(&points, stroke, 8.0, 5.0));
    }
    let tip = [to, to + vec2(-8.0, -13.0), to + vec2(8.0, -13.0)];
    ui.painter().add(Shape::convex_polygon(tip.to_vec(), theme::ACCENT, Stroke::new(2.0, theme::PAPER)));
}
