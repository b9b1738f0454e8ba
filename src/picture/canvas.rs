//! Where shapes are collected while a scene is drawn, with the few pieces that every drawing uses.
//!
//! It knows shapes and text, and nothing of wiring.

use super::{
    paint::{Fill, Paint, Tint},
    shape::{Anchor, FontWeight, Layer, Outline, Path, Rect, Scene, Shape, Spot, Stroke, Text, Thing, Xy},
    text::{ASCENT, DESCENT, LEADING, width},
};
use crate::work::Work;

/// Shapes and spots so far.
#[derive(Debug, Default)]
pub(super) struct Canvas {
    shapes: Vec<Shape>,
    spots: Vec<Spot>,
}

/// How a text looks.
#[derive(Debug, Clone, Copy)]
pub(super) struct Type {
    pub size: f32,
    pub weight: FontWeight,
    pub paint: Paint,
    pub on: Paint,
}

impl Type {
    pub const fn plain(size: f32, on: Paint) -> Self {
        Self { size, weight: FontWeight::Normal, paint: Paint::Ink, on }
    }

    pub const fn bold(size: f32, on: Paint) -> Self {
        Self { weight: FontWeight::Bold, ..Self::plain(size, on) }
    }

    pub const fn quiet(size: f32, on: Paint) -> Self {
        Self { paint: Paint::QuietInk, ..Self::plain(size, on) }
    }

    pub const fn warning(size: f32, on: Paint) -> Self {
        Self { paint: Paint::Warning, ..Self::bold(size, on) }
    }

    /// Height of this number of lines.
    pub fn height(&self, lines: usize) -> f32 {
        if lines == 0 { 0.0 } else { self.size * (ASCENT + DESCENT + LEADING * (lines - 1) as f32) }
    }

    pub fn width(&self, text: &str) -> f32 {
        width(text, self.size, self.weight)
    }
}

/// How a shape is painted.
#[derive(Debug, Clone, Copy)]
pub(super) struct Finish {
    pub fill: Option<Fill>,
    pub stroke: Option<Stroke>,
}

/// Filled only.
pub(super) fn fill(inside: impl Into<Fill>) -> Finish {
    Finish { fill: Some(inside.into()), stroke: None }
}

/// Drawn as a line only.
pub(super) const fn line(paint: Paint, width: f32) -> Finish {
    veil(paint, width, u8::MAX)
}

/// Drawn as a line only, through which what lies beneath is seen.
pub(super) const fn veil(paint: Paint, width: f32, cover: u8) -> Finish {
    Finish { fill: None, stroke: Some(Stroke { paint, cover, width }) }
}

/// Filled and outlined.
pub(super) fn both(inside: impl Into<Fill>, edge: Paint, width: f32) -> Finish {
    Finish { fill: Some(inside.into()), ..line(edge, width) }
}

/// From the top of an area to its bottom.
pub(super) fn downwards(area: Rect, top: impl Into<Tint>, bottom: impl Into<Tint>) -> Fill {
    let x = area.centre().x;
    Fill::Linear { from: (Xy::new(x, area.top), top.into()), to: (Xy::new(x, area.bottom()), bottom.into()) }
}

/// From the left of an area to its right.
pub(super) fn across(area: Rect, left: impl Into<Tint>, right: impl Into<Tint>) -> Fill {
    let y = area.centre().y;
    Fill::Linear { from: (Xy::new(area.left, y), left.into()), to: (Xy::new(area.right(), y), right.into()) }
}

/// A paint that hides no more than so much of what lies beneath, from 0 to 255.
pub(super) const fn thin(paint: Paint, cover: u8) -> Tint {
    Tint { paint, cover }
}

impl Canvas {
    pub fn put(&mut self, layer: Layer, about: Option<Thing>, outline: Outline, look: Finish) {
        self.shapes.push(Shape { layer, about, outline, fill: look.fill, stroke: look.stroke });
    }

    pub fn path(&mut self, layer: Layer, about: Option<Thing>, path: Path, look: Finish) {
        self.put(layer, about, Outline::Path(path), look);
    }

    pub fn rect(&mut self, layer: Layer, about: Option<Thing>, rect: Rect, radius: f32, look: Finish) {
        self.put(layer, about, Outline::Rect { rect, radius }, look);
    }

    pub fn circle(&mut self, layer: Layer, about: Option<Thing>, centre: Xy, radius: f32, look: Finish) {
        self.put(layer, about, Outline::Circle { centre, radius }, look);
    }

    pub fn text(&mut self, layer: Layer, about: Option<Thing>, at: Xy, anchor: Anchor, style: Type, text: &str) {
        if text.is_empty() {
            return;
        }
        let Type { size, weight, paint, on } = style;
        let text = Text { at, anchor, size, weight, paint, on, text: text.to_owned() };
        self.put(layer, about, Outline::Text(text), Finish { fill: None, stroke: None });
    }

    /// Lines of text, the top of the first at `top`. Returns where they end.
    pub fn lines(
        &mut self,
        about: Option<Thing>,
        x: f32,
        top: f32,
        anchor: Anchor,
        style: Type,
        lines: &[String],
    ) -> f32 {
        for (index, it) in lines.iter().enumerate() {
            let y = top + style.size * (ASCENT + LEADING * index as f32);
            self.text(Layer::Names, about, Xy::new(x, y), anchor, style, it);
        }
        top + style.height(lines.len())
    }

    pub fn spot(&mut self, work: &Work, thing: Thing, rect: Rect) {
        self.spots.push(Spot { thing, address: thing.address(work), rect });
    }

    /// Where a thing can be touched, if it is there already.
    pub fn place_of(&self, thing: Thing) -> Option<Rect> {
        self.spots.iter().find(|it| it.thing == thing).map(|it| it.rect)
    }

    /// Moves everything so far.
    pub fn moved(&mut self, dx: f32, dy: f32) {
        let shapes = std::mem::take(&mut self.shapes);
        self.shapes = shapes.into_iter().map(|it| it.moved(dx, dy)).collect();
        for it in &mut self.spots {
            it.rect = it.rect.moved(dx, dy);
        }
    }

    /// Takes in another scene's shapes.
    pub fn take(&mut self, scene: Scene, dx: f32, dy: f32) {
        self.shapes.extend(scene.shapes.into_iter().map(|it| it.moved(dx, dy)));
    }

    /// The scene, with its paper under it.
    pub fn into_scene(mut self, width: f32, height: f32) -> Scene {
        let paper = Outline::Rect { rect: Rect::new(0.0, 0.0, width, height), radius: 0.0 };
        let look = fill(Paint::Paper);
        self.shapes.insert(
            0,
            Shape { layer: Layer::Ground, about: None, outline: paper, fill: look.fill, stroke: look.stroke },
        );
        self.shapes.sort_by_key(|it| it.layer);
        Scene { width, height, shapes: self.shapes, spots: self.spots }
    }
}
