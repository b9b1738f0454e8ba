//! A scene of plain shapes painted by egui, fitted into a rectangle of the screen.
//!
//! It knows shapes and pixels. It does not know what the shapes stand for.

use bevy_egui::egui::{Color32, CornerRadius, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, pos2, vec2};
use switchdrop::picture::{Anchor, Layer, Outline, Path, Rect as SceneRect, Scene, Shape as Plain, Text, Xy};

use super::theme;

/// How a scene lies on the screen.
#[derive(Debug, Clone, Copy)]
pub struct Fit {
    /// Where the scene's origin is.
    pub origin: Pos2,
    /// Points of the screen for one unit.
    pub scale: f32,
    /// No text is smaller than this, in points. The picture leaves room for a wider face than ours.
    pub least_text: f32,
}

impl Fit {
    /// A point of the scene.
    pub fn point(&self, it: Xy) -> Pos2 {
        self.origin + vec2(it.x, it.y) * self.scale
    }

    /// A rectangle of the scene.
    pub fn rect(&self, it: SceneRect) -> Rect {
        Rect::from_min_size(self.point(Xy::new(it.left, it.top)), vec2(it.width, it.height) * self.scale)
    }
}

/// Paints what lies beneath the marks and names, or those: what is put between covers no word.
pub fn paint(painter: &Painter, scene: &Scene, fit: &Fit, words: bool) {
    for shape in scene.shapes.iter().filter(|it| (it.layer >= Layer::Marks) == words) {
        paint_one(painter, shape, fit);
    }
}

fn paint_one(painter: &Painter, shape: &Plain, fit: &Fit) {
    let fill = shape.fill.map_or(Color32::TRANSPARENT, theme::of);
    let stroke = shape.stroke.map_or(Stroke::NONE, |it| Stroke::new(it.width * fit.scale, theme::of(it.paint)));
    match &shape.outline {
        Outline::Path(path) => paint_path(painter, path, fit, fill, stroke),
        Outline::Circle { centre, radius } => {
            painter.circle(fit.point(*centre), radius * fit.scale, fill, stroke);
        }
        Outline::Rect { rect, radius } => {
            let radius = CornerRadius::from((radius * fit.scale).min(255.0));
            painter.rect(fit.rect(*rect), radius, fill, stroke, StrokeKind::Middle);
        }
        Outline::Text(text) => paint_text(painter, text, fit),
    }
}

fn paint_path(painter: &Painter, path: &Path, fit: &Fit, fill: Color32, stroke: Stroke) {
    let points: Vec<Pos2> = path.flattened().into_iter().map(|it| fit.point(it)).collect();
    if fill != Color32::TRANSPARENT {
        painter.add(Shape::convex_polygon(points.clone(), fill, Stroke::NONE));
    }
    if stroke != Stroke::NONE {
        painter.add(if path.closed { Shape::closed_line(points, stroke) } else { Shape::line(points, stroke) });
    }
}

fn paint_text(painter: &Painter, text: &Text, fit: &Fit) {
    let font = FontId::new((text.size * fit.scale).max(fit.least_text), theme::family(text.weight));
    let galley = painter.layout_no_wrap(text.text.clone(), font, theme::of(text.paint));
    let at = fit.point(text.at);
    let wide = galley.size().x;
    let left = match text.anchor {
        Anchor::Start => at.x,
        Anchor::Middle => at.x - wide / 2.0,
        Anchor::End => at.x - wide,
    };
    let above = galley.rows.first().and_then(|row| row.glyphs.first().map(|it| row.pos.y + it.pos.y));
    let top = at.y - above.unwrap_or(galley.size().y * 0.8);
    painter.galley(pos2(left, top), galley, theme::INK);
}
