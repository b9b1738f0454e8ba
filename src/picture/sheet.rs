//! Everything on one sheet: the place, and below it every location opened.
//!
//! For print and for the command line. It has no spots: one sheet shows a thing more than once.

use super::{
    Covers, View,
    canvas::{Canvas, Type},
    of_location, of_place,
    paint::Paint,
    shape::{Anchor, Scene},
    text::wrapped,
    words::Words,
};
use crate::work::Work;

const WIDEST: f32 = 1500.0;
const GAP: f32 = 24.0;

/// The place and every location, covers as the view says.
pub fn of_everything(work: &Work, words: &dyn Words, view: &View<'_>) -> Scene {
    let plan = of_place(work, words, &View { covers: Covers::AsTheyStand, ..*view });
    let places = work.exercise().locations.ids();
    let details: Vec<Scene> = places.map(|it| of_location(work, it, words, view)).collect();
    let widest = details.iter().map(|it| it.width).fold(plan.width, f32::max).max(WIDEST) + 2.0 * GAP;
    let mut canvas = Canvas::default();
    let title = Type::bold(28.0, Paint::Paper);
    let lines = wrapped(&work.exercise().title, title.size, title.weight, widest - 2.0 * GAP, 2);
    let mut y = canvas.lines(None, widest / 2.0, GAP, Anchor::Middle, title, &lines) + 6.0;
    let under = Type::quiet(18.0, Paint::Paper);
    let lines = wrapped(&work.exercise().place, under.size, under.weight, widest - 2.0 * GAP, 2);
    y = canvas.lines(None, widest / 2.0, y, Anchor::Middle, under, &lines) + GAP;
    y = row(&mut canvas, vec![plan], widest, y);
    let mut waiting: Vec<Scene> = Vec::new();
    for scene in details {
        let taken: f32 = waiting.iter().map(|it| it.width + GAP).sum();
        if !waiting.is_empty() && taken + scene.width + 2.0 * GAP > widest {
            y = row(&mut canvas, std::mem::take(&mut waiting), widest, y);
        }
        waiting.push(scene);
    }
    y = row(&mut canvas, waiting, widest, y);
    let mut scene = canvas.into_scene(widest, y);
    scene.spots.clear();
    scene
}

/// Scenes side by side in the middle of the sheet. Returns where the next row starts.
fn row(canvas: &mut Canvas, scenes: Vec<Scene>, widest: f32, y: f32) -> f32 {
    let taken: f32 = scenes.iter().map(|it| it.width).sum::<f32>() + GAP * scenes.len().saturating_sub(1) as f32;
    let height = scenes.iter().map(|it| it.height).fold(0.0, f32::max);
    let mut x = (widest - taken) / 2.0;
    for scene in scenes {
        let (width, drop) = (scene.width, height - scene.height);
        canvas.take(scene, x, y + drop);
        x += width + GAP;
    }
    y + height + GAP
}
