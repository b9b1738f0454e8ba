//! What gives drawn bodies depth: the shadow that they cast, the light on their edges, the hollow of a box, a screw.
//!
//! Light falls from above and a little from the left, everywhere. Thin paints only: nothing here says anything.

use super::{
    canvas::{Canvas, across, both, downwards, fill, line, thin, veil},
    paint::{Fill, Paint},
    shape::{Layer, Outline, Path, Rect, Thing, Xy},
};

/// The shadow of a body on what is behind it.
pub(super) fn shadow(canvas: &mut Canvas, layer: Layer, about: Option<Thing>, body: Rect, radius: f32) {
    for (grown, cover) in [(5.0, 12), (3.0, 16), (1.0, 22)] {
        let rect = body.grown(grown).moved(1.0, 4.0);
        canvas.rect(layer, about, rect, radius + grown, fill(Fill::Flat(thin(Paint::Shade, cover))));
    }
}

/// The hollow inside a frame: its upper and left walls throw a shadow on its back, its lower one catches light.
pub(super) fn hollow(canvas: &mut Canvas, layer: Layer, inside: Rect, radius: f32) {
    // So far in, a band with square corners stays within round ones.
    let inset = 0.3 * radius;
    let deep = (inside.height * 0.12).min(34.0);
    let none = thin(Paint::Shade, 0);
    let band = |canvas: &mut Canvas, rect: Rect, shade: Fill| canvas.rect(layer, None, rect, 0.0, fill(shade));
    let level = Rect::new(inside.left + inset, inside.top + inset, inside.width - 2.0 * inset, deep);
    band(canvas, level, downwards(level, thin(Paint::Shade, 64), none));
    let foot = Rect { top: inside.bottom() - inset - deep / 2.0, height: deep / 2.0, ..level };
    band(canvas, foot, downwards(foot, thin(Paint::Light, 0), thin(Paint::Light, 130)));
    let left = Rect::new(inside.left + inset, inside.top + inset, deep * 0.7, inside.height - 2.0 * inset);
    band(canvas, left, across(left, thin(Paint::Shade, 44), none));
    let right = Rect { left: inside.right() - inset - deep * 0.4, width: deep * 0.4, ..left };
    band(canvas, right, across(right, none, thin(Paint::Shade, 26)));
}

/// A body with a face: its shadow, the face a little lighter above than below, and light along its upper edge.
pub(super) fn body(canvas: &mut Canvas, layer: Layer, about: Option<Thing>, rect: Rect, radius: f32, face: Paint) {
    shadow(canvas, layer, about, rect, radius);
    canvas.rect(layer, about, rect, radius, both(face, Paint::QuietInk, 1.8));
    let inner = rect.grown(-1.6);
    canvas.rect(
        layer,
        about,
        inner,
        (radius - 1.6).max(0.0),
        fill(downwards(inner, thin(Paint::Shade, 0), thin(Paint::Shade, 20))),
    );
    let y = rect.top + 2.4;
    let edge = [Xy::new(rect.left + radius, y), Xy::new(rect.right() - radius, y)];
    canvas.path(layer, about, Path::through(&edge), veil(Paint::Light, 1.6, 200));
}

/// The head of a screw; `turned` is the way its slot lies, a step of one unit.
pub(super) fn screw(
    canvas: &mut Canvas,
    layer: Layer,
    about: Option<Thing>,
    centre: Xy,
    radius: f32,
    turned: (f32, f32),
) {
    let lit = Xy::new(centre.x - radius * 0.35, centre.y - radius * 0.4);
    let head = Fill::Radial { centre: (lit, Paint::Plate.into()), radius: radius * 1.5, rim: Paint::SteelShade.into() };
    canvas.put(layer, about, Outline::Circle { centre, radius }, both(head, Paint::Ink, 1.6));
    let (dx, dy) = (turned.0 * radius * 0.68, turned.1 * radius * 0.68);
    let slot = |by: f32| {
        Path::through(&[Xy::new(centre.x - dx, centre.y - dy + by), Xy::new(centre.x + dx, centre.y + dy + by)])
    };
    canvas.path(layer, about, slot(1.2), veil(Paint::Light, 1.6, 180));
    canvas.path(layer, about, slot(0.0), line(Paint::Ink, 2.2));
}

/// Light along a round body that lies along a path, off its middle towards the light.
pub(super) fn sheen(canvas: &mut Canvas, layer: Layer, about: Option<Thing>, path: &Path, width: f32) {
    canvas.path(layer, about, path.moved(-width * 0.18, -width * 0.18), veil(Paint::Light, width * 0.28, 84));
}
