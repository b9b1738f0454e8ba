//! Small drawings of what lies in the tray: plain rounded bodies of our own, after no maker's instrument.

use bevy_egui::egui::{Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, epaint::CubicBezierShape, pos2, vec2};
use switchdrop::picture::Paint;

use super::super::theme;

/// What is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Body {
    /// A screwdriver and a piece of sleeving.
    Tools,
    /// A two-pole indicator: two probes, and a lead between them.
    Indicator,
    /// A voltage stick.
    Stick,
    /// A multimeter: a display and a knob.
    Meter,
    /// A continuity meter: a display and a scale.
    Continuity,
    /// The multifunction tester: wider, with a dial.
    Tester,
    /// A lock with its label.
    Lock,
}

/// Where and how large.
struct Pen<'a> {
    painter: &'a Painter,
    at: Pos2,
    unit: f32,
}

impl Pen<'_> {
    fn point(&self, x: f32, y: f32) -> Pos2 {
        self.at + vec2(x, y) * self.unit
    }

    fn line(&self, from: (f32, f32), to: (f32, f32), width: f32, paint: Paint) {
        let stroke = Stroke::new(width * self.unit, theme::of(paint));
        self.painter.line_segment([self.point(from.0, from.1), self.point(to.0, to.1)], stroke);
    }

    /// A rounded body about a point.
    fn plate(&self, (x, y): (f32, f32), size: Vec2, radius: f32, ground: theme::Role) {
        let rect = Rect::from_center_size(self.point(x, y), size * self.unit);
        let edge = Stroke::new(1.4, theme::EDGE);
        self.painter.rect(rect, radius * self.unit, ground, edge, StrokeKind::Middle);
    }

    fn dot(&self, (x, y): (f32, f32), radius: f32, ground: theme::Role) {
        self.painter.circle(self.point(x, y), radius * self.unit, ground, Stroke::new(1.2, theme::EDGE));
    }

    /// A lead: a wire that hangs between four points.
    fn lead(&self, points: [(f32, f32); 4]) {
        let stroke = Stroke::new(2.2 * self.unit, theme::INK);
        let points = points.map(|it| self.point(it.0, it.1));
        let shape = CubicBezierShape::from_points_stroke(points, false, bevy_egui::egui::Color32::TRANSPARENT, stroke);
        self.painter.add(shape);
    }
}

/// Draws it about a point; `unit` is points for one of its units. It is about 54 units wide and 46 high.
pub(super) fn small(painter: &Painter, body: Body, at: Pos2, unit: f32) {
    let pen = Pen { painter, at, unit };
    match body {
        Body::Tools => tools(&pen),
        Body::Indicator => indicator(&pen),
        Body::Stick => stick(&pen),
        Body::Meter => meter(&pen, vec2(34.0, 44.0)),
        Body::Continuity => continuity(&pen),
        Body::Tester => tester(&pen),
        Body::Lock => lock(&pen),
    }
}

fn tools(pen: &Pen<'_>) {
    // Blade, shaft, handle, from the upper right to the lower left.
    pen.line((22.0, -20.0), (0.0, 2.0), 3.4, Paint::SteelShade);
    pen.line((22.0, -20.0), (17.0, -15.0), 5.0, Paint::SteelShade);
    pen.line((0.0, 2.0), (-16.0, 18.0), 11.0, Paint::TimberEdge);
    pen.line((-1.0, 3.0), (-15.0, 17.0), 7.0, Paint::Timber);
    let sleeve = Rect::from_center_size(pen.point(12.0, 15.0), vec2(24.0, 9.0) * pen.unit);
    pen.painter.rect(
        sleeve,
        3,
        theme::of(Paint::Sheath),
        Stroke::new(1.4, theme::of(Paint::SheathEdge)),
        StrokeKind::Middle,
    );
}

fn indicator(pen: &Pen<'_>) {
    pen.lead([(-8.0, 20.0), (-2.0, 28.0), (14.0, 26.0), (19.0, 14.0)]);
    pen.line((-10.0, -24.0), (-10.0, -14.0), 2.6, Paint::SteelShade);
    pen.line((19.0, -20.0), (19.0, -8.0), 2.6, Paint::SteelShade);
    pen.plate((-10.0, 3.0), vec2(20.0, 36.0), 8.0, theme::CASE);
    pen.plate((19.0, 3.0), vec2(10.0, 24.0), 5.0, theme::CASE);
    // The ladder of its lights.
    for step in 0..5u8 {
        let y = 14.0 - 6.0 * f32::from(step);
        pen.plate((-10.0, y), vec2(5.0 + f32::from(step), 3.6), 1.5, theme::DISPLAY);
    }
}

fn stick(pen: &Pen<'_>) {
    pen.line((-18.0, 18.0), (12.0, -12.0), 12.5, Paint::SheathEdge);
    pen.line((-18.0, 18.0), (12.0, -12.0), 9.5, Paint::Plate);
    pen.line((12.0, -12.0), (20.0, -20.0), 6.5, Paint::SheathEdge);
    pen.dot((-9.0, 9.0), 3.0, theme::DISPLAY);
}

fn meter(pen: &Pen<'_>, size: Vec2) {
    pen.plate((0.0, 0.0), size, 9.0, theme::CASE);
    pen.plate((0.0, -size.y * 0.22), vec2(size.x - 10.0, size.y * 0.32), 3.0, theme::DISPLAY);
    pen.dot((0.0, size.y * 0.23), 7.0, theme::FIELD);
    pen.painter.line_segment([pen.point(0.0, 10.0), pen.point(3.6, 5.4)], Stroke::new(1.8, theme::INK));
}

fn continuity(pen: &Pen<'_>) {
    pen.plate((0.0, 0.0), vec2(52.0, 38.0), 8.0, theme::CASE);
    pen.plate((0.0, -7.0), vec2(40.0, 13.0), 3.0, theme::DISPLAY);
    for mark in 0..5u8 {
        let x = -18.0 + 9.0 * f32::from(mark);
        pen.painter.line_segment([pen.point(x, 5.0), pen.point(x, 12.0)], Stroke::new(1.4, theme::INK));
    }
    pen.painter.line_segment([pen.point(-18.0, 8.5), pen.point(18.0, 8.5)], Stroke::new(1.4, theme::INK));
}

fn tester(pen: &Pen<'_>) {
    pen.plate((0.0, 0.0), vec2(56.0, 40.0), 9.0, theme::CASE);
    pen.plate((-12.0, -5.0), vec2(24.0, 18.0), 3.0, theme::DISPLAY);
    pen.dot((14.0, -2.0), 10.0, theme::FIELD);
    pen.painter.line_segment([pen.point(14.0, -2.0), pen.point(8.0, -9.0)], Stroke::new(2.0, theme::INK));
    for x in [-20.0, -12.0, -4.0] {
        pen.plate((x, 11.0), vec2(6.0, 5.0), 2.0, theme::FIELD);
    }
}

/// A shackle, a body, and a label on a cord.
fn lock(pen: &Pen<'_>) {
    let arch: Vec<Pos2> = (0..=12u8)
        .map(|it| {
            let turn = std::f32::consts::PI * f32::from(it) / 12.0;
            pen.point(-10.0 - 8.0 * turn.cos(), -8.0 - 11.0 * turn.sin())
        })
        .collect();
    pen.painter.add(Shape::line(arch, Stroke::new(4.0 * pen.unit, theme::of(Paint::SteelShade))));
    pen.plate((-10.0, 6.0), vec2(26.0, 26.0), 5.0, theme::WARNING);
    pen.dot((-10.0, 4.0), 3.2, theme::FIELD);
    pen.lead([(-2.0, -8.0), (6.0, -18.0), (10.0, -16.0), (14.0, -9.0)]);
    let label = Rect::from_center_size(pen.point(16.0, 4.0), vec2(18.0, 28.0) * pen.unit);
    pen.painter.rect(label, 3, theme::FIELD, Stroke::new(1.4, theme::WARNING), StrokeKind::Middle);
    for y in [-2.0, 3.0, 8.0, 13.0] {
        let line = [pos2(label.left() + 3.0, pen.point(0.0, y).y), pos2(label.right() - 3.0, pen.point(0.0, y).y)];
        pen.painter.line_segment(line, Stroke::new(1.4, theme::INK));
    }
}
