//! A scene of plain shapes painted by egui, fitted into a rectangle of the screen.
//!
//! It knows shapes and pixels. It does not know what the shapes stand for.

use std::sync::Arc;

use bevy_egui::egui::{
    AsIdSalt, Color32, CornerRadius, FontId, Galley, Mesh, Painter, Pos2, Rect, ScrollArea, Sense, Shape, Stroke,
    StrokeKind, Ui, Vec2, pos2, vec2,
};
use switchdrop::picture::{
    Anchor, Fill, Layer, Outline, Path, Rect as SceneRect, Scene, Shape as Plain, Text, Tint, Xy,
};

use super::theme;

/// The smallest text of the drawings, in their units; and how much larger it may be set than the drawing allows, since the
/// picture leaves room for a wider face than ours.
const SMALLEST: f32 = 13.0;
const STRETCH: f32 = 1.55;
/// The least that can be touched, points a side (WCAG 2.2, 2.5.8).
const TARGET: f32 = 24.0;
/// The drawing is never shown larger than this.
const MOST: f32 = 1.4;

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

    /// Where a thing of the scene is touched: as large as it is drawn, and never too small for a finger.
    pub fn target(&self, it: SceneRect) -> Rect {
        let drawn = self.rect(it);
        Rect::from_center_size(drawn.center(), drawn.size().max(Vec2::splat(TARGET)))
    }

    /// A rectangle of the scene.
    pub fn rect(&self, it: SceneRect) -> Rect {
        Rect::from_min_size(self.point(Xy::new(it.left, it.top)), vec2(it.width, it.height) * self.scale)
    }
}

/// Makes room for a scene, as large as fits; where its text would be too small, it scrolls. `name` tells it from other drawings.
pub fn fitted(ui: &mut Ui, name: impl AsIdSalt, scene: &Scene, add: impl FnOnce(&mut Ui, &Fit)) {
    // A hair less than there is: what fits must not scroll by rounding.
    let room = ui.available_size() - vec2(2.0, 2.0);
    let least_text = theme::least_drawn(ui);
    let least = least_text / (SMALLEST * STRETCH);
    let scale = (room.x / scene.width.max(1.0)).min(room.y / scene.height.max(1.0)).clamp(least, MOST.max(least));
    let size = vec2(scene.width, scene.height) * scale;
    ScrollArea::both().id_salt(name).auto_shrink(false).show(ui, |ui| {
        let (whole, _) = ui.allocate_exact_size(size.max(room), Sense::hover());
        add(ui, &Fit { origin: whole.min + (whole.size() - size) / 2.0, scale, least_text });
    });
}

/// Paints what lies beneath the marks and names, or those: what is put between covers no word.
pub fn paint(painter: &Painter, scene: &Scene, fit: &Fit, words: bool) {
    for shape in scene.shapes.iter().filter(|it| (it.layer >= Layer::Marks) == words) {
        paint_one(painter, shape, fit);
    }
}

/// Paints one shape.
pub fn paint_one(painter: &Painter, shape: &Plain, fit: &Fit) {
    let fill = match shape.fill {
        None => Color32::TRANSPARENT,
        Some(Fill::Flat(it)) => theme::tinted(it),
        Some(it) => {
            painter.add(shaded(&shape.outline, it, fit));
            Color32::TRANSPARENT
        }
    };
    let stroke = shape.stroke.map_or(Stroke::NONE, |it| {
        Stroke::new(it.width * fit.scale, theme::tinted(Tint { paint: it.paint, cover: it.cover }))
    });
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

/// An area with a gradient, as triangles that have the right tint in every corner.
fn shaded(outline: &Outline, fill: Fill, fit: &Fit) -> Shape {
    let mut mesh = Mesh::default();
    let mut corner = |at: Xy| {
        mesh.colored_vertex(fit.point(at), tint_at(fill, at));
        mesh.vertices.len() as u32 - 1
    };
    let mut triangles: Vec<[u32; 3]> = Vec::new();
    // A radial gradient is not even along a long edge: small squares follow it.
    if let (Outline::Rect { rect, .. }, Fill::Radial { .. }) = (outline, fill) {
        let at = |column: u8, row: u8| {
            let part = |it: u8| f32::from(it) / f32::from(SQUARES);
            Xy::new(rect.left + rect.width * part(column), rect.top + rect.height * part(row))
        };
        for (row, column) in (0..SQUARES).flat_map(|row| (0..SQUARES).map(move |it| (row, it))) {
            let [a, b, c, d] =
                [(0, 0), (1, 0), (1, 1), (0, 1)].map(|(right, down)| corner(at(column + right, row + down)));
            triangles.extend([[a, b, c], [a, c, d]]);
        }
    } else {
        let rim = outline.flattened();
        let count = rim.len().max(1) as f32;
        let middle = rim.iter().fold(Xy::new(0.0, 0.0), |acc, it| Xy::new(acc.x + it.x / count, acc.y + it.y / count));
        let first = corner(middle);
        let rim: Vec<u32> = rim.into_iter().map(&mut corner).collect();
        let next = rim.iter().cycle().skip(1);
        triangles.extend(rim.iter().zip(next).map(|(a, b)| [first, *a, *b]));
    }
    for [a, b, c] in triangles {
        mesh.add_triangle(a, b, c);
    }
    Shape::mesh(mesh)
}

/// Squares along each side of an area with a radial gradient.
const SQUARES: u8 = 32;

fn tint_at(fill: Fill, at: Xy) -> Color32 {
    let (one, other, part) = fill.at(at);
    // Four numbers each, colour and cover, gone part of the way from one to the other.
    let [from, to] = [one, other].map(|it| {
        let [r, g, b] = theme::worn().rgb(it.paint);
        Color32::from_rgba_premultiplied(r, g, b, it.cover)
    });
    let [r, g, b, cover] = from.lerp_to_gamma(to, part).to_array();
    theme::veiled([r, g, b], cover)
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
    let (at, galley) = set(painter, text, fit);
    painter.galley(at, galley, theme::INK.worn());
}

/// A text as it is set, and where its upper left corner comes to stand.
pub fn set(painter: &Painter, text: &Text, fit: &Fit) -> (Pos2, Arc<Galley>) {
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
    (pos2(left, top), galley)
}
