//! The letters of a scene where they stand on the screen: arrows keep clear of them; and where a scene is drawn too small for all of its
//! names, those that would lie on others are left out.

use bevy_egui::egui::{Painter, Rect, vec2};
use switchdrop::picture::{FontWeight, Layer, Outline, Scene, Shape, Text};

use super::drawing::{Fit, paint_one, set};

/// What of a row's height letters do not fill, above and beneath, points.
const SLACK: f32 = 2.0;

/// Where every text of a scene stands.
pub fn of(painter: &Painter, scene: &Scene, fit: &Fit) -> Vec<Rect> {
    scene.shapes.iter().filter_map(text_of).map(|it| rect(painter, it, fit)).collect()
}

/// Those of a scene's texts for which there is room beside each other: bold ones first, then the others in the order of the scene. What is
/// wrapped is whole or not there.
pub struct Apart {
    /// By the numbers of their shapes.
    kept: Vec<usize>,
    /// Where they stand.
    pub rects: Vec<Rect>,
}

impl Apart {
    /// Finds them.
    pub fn of(painter: &Painter, scene: &Scene, fit: &Fit) -> Self {
        let mut apart = Self { kept: Vec::new(), rects: Vec::new() };
        let blocks = blocks(scene);
        for weight in [FontWeight::Bold, FontWeight::Normal] {
            for block in blocks.iter().filter(|it| it[0].1.weight == weight) {
                let rects: Vec<Rect> = block.iter().map(|it| rect(painter, it.1, fit)).collect();
                let meets = rects.iter().any(|it| apart.rects.iter().any(|other| other.intersects(*it)));
                // Drawn too small, the lines of one text lie on each other.
                let is_pressed = rects.windows(2).any(|it| it[1].top() < it[0].bottom() - SLACK);
                if !meets && !is_pressed {
                    apart.kept.extend(block.iter().map(|it| it.0));
                    apart.rects.extend(rects);
                }
            }
        }
        apart
    }

    /// Paints marks and names, without the texts that are left out.
    pub fn paint(&self, painter: &Painter, scene: &Scene, fit: &Fit) {
        let shapes = scene.shapes.iter().enumerate().filter(|it| it.1.layer >= Layer::Marks);
        for (_, it) in shapes.filter(|(number, it)| text_of(it).is_none() || self.kept.contains(number)) {
            paint_one(painter, it, fit);
        }
    }
}

/// The texts by which lines are of one: those of one thing that follow each other beneath one place.
fn blocks(scene: &Scene) -> Vec<Vec<(usize, &Text)>> {
    let mut blocks: Vec<Vec<(usize, &Text)>> = Vec::new();
    for (number, shape) in scene.shapes.iter().enumerate() {
        let Some(text) = text_of(shape) else { continue };
        let goes_on = |block: &&mut Vec<(usize, &Text)>| {
            let Some((last, other)) = block.last() else { return false };
            let is_same = (other.at.x - text.at.x).abs() < 0.5
                && (other.size - text.size).abs() < 0.1
                && other.weight == text.weight;
            last + 1 == number && scene.shapes[*last].about == shape.about && is_same
        };
        match blocks.last_mut().filter(goes_on) {
            Some(block) => block.push((number, text)),
            None => blocks.push(vec![(number, text)]),
        }
    }
    blocks
}

fn text_of(shape: &Shape) -> Option<&Text> {
    match &shape.outline {
        Outline::Text(it) => Some(it),
        _ => None,
    }
}

fn rect(painter: &Painter, text: &Text, fit: &Fit) -> Rect {
    let (at, galley) = set(painter, text, fit);
    Rect::from_min_size(at, galley.size()).shrink2(vec2(0.0, SLACK))
}
