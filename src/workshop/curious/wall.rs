//! The wall: every way of joining the wires as a speck, in heaps of what they do, counted off before one's eyes.

use std::sync::Arc;

use bevy_egui::egui::{
    Align2, FontId, Galley, Mesh, Rect, Response, Shape, Stroke, StrokeKind, TextStyle, Ui, WidgetText, pos2, vec2,
};
use switchdrop::{
    picture::FontWeight,
    reason::{CoreProof, LampGrid, WayClass},
    wording::way_class,
};

use super::{CuriousAct, CuriousState, counts::Count, sentences::number, settings::paint_mini, steps::Wires};
use crate::workshop::{
    panel::{Intent, PanelContext},
    theme,
};

/// Around a tile, within it, and its grid, points.
const EDGE: f32 = 5.0;
const INNER: f32 = 10.0;
const GRID: f32 = 44.0;
/// What is asked for: in either sense.
const WANTED: [[bool; 2]; 2] = [[false, true], [true, false]];

/// A heap of the wall.
struct Heap {
    /// Its number among the counted classes, if there is one of it.
    class: Option<usize>,
    what: String,
    ways: u128,
    grid: Option<[[bool; 2]; 2]>,
    works: bool,
}

/// The counts that there are, the last asked for.
pub fn counted(state: &CuriousState) -> Option<(Wires, &Count, &CoreProof)> {
    Wires::BOTH.into_iter().rev().find_map(|wires| {
        let count = &state.counts[wires as usize];
        count.proof().and_then(|it| it.as_ref().ok()).map(|proof| (wires, count, proof))
    })
}

/// Draws it.
pub fn show(ui: &Ui, panel: &mut PanelContext<'_>, (wires, count, proof): (Wires, &Count, &CoreProof), room: Rect) {
    let heaps = heaps(panel, proof);
    let most = heaps.iter().map(|it| it.ways).max().unwrap_or(1).max(1);
    let columns = if room.width() > 700.0 { 4 } else { 2 };
    let rows = heaps.len().div_ceil(columns);
    let text = TextStyle::Small.resolve(ui.style()).size;
    let size = vec2(room.width() / columns as f32, room.height() / rows as f32);
    // The specks of all begin at one height: beneath the longest words.
    let width = size.x - 2.0 * (EDGE + INNER) - GRID - INNER;
    let said: Vec<Arc<Galley>> = heaps.iter().map(|it| words(ui, &it.what, width, text)).collect();
    let tallest = said.iter().map(|it| it.size().y).fold(0.0, f32::max);
    for (place, (heap, words)) in heaps.iter().zip(said).enumerate() {
        let at = room.min + vec2(size.x * (place % columns) as f32, size.y * (place / columns) as f32);
        let tile = Rect::from_min_size(at, size).shrink(EDGE);
        let edge = if heap.works { Stroke::new(3.0, theme::ACCENT) } else { Stroke::new(1.0, theme::HAIR) };
        ui.painter().rect(tile, 8, theme::PANEL, edge, StrokeKind::Inside);
        if let Some(class) = heap.class {
            let name = panel.say("curious-open", &[("what", &heap.what)]);
            let response = panel.spot(ui, &format!("class:{}-{class}", wires.count()), &name, tile);
            outlined(ui, &response, tile);
            if response.clicked() {
                panel.intents.push(Intent::Curious(CuriousAct::Open(wires, class)));
            }
            response.on_hover_text(name);
        }
        inside(ui, heap, (count.so_far(heap.ways), most), (words, tallest), tile.shrink(INNER));
    }
}

/// The classes that there are, what works first even if nothing does.
fn heaps(panel: &PanelContext<'_>, proof: &CoreProof) -> Vec<Heap> {
    let of = |(class, it): (usize, &switchdrop::reason::ClassCount)| Heap {
        class: it.fits.then_some(class),
        what: way_class(panel.wording, it.class, 2),
        ways: it.ways,
        grid: proof.examples.get(class).and_then(Option::as_ref).and_then(|it| LampGrid::of(it.work())?.of_two()),
        works: it.class.works(),
    };
    let mut heaps: Vec<Heap> = proof.counted.classes.iter().enumerate().map(of).collect();
    if !heaps.iter().any(|it| it.works) {
        let what = way_class(panel.wording, WayClass::Safe, 2);
        heaps.insert(0, Heap { class: None, what, ways: 0, grid: Some(WANTED), works: true });
    }
    heaps
}

fn words(ui: &Ui, what: &str, width: f32, text: f32) -> Arc<Galley> {
    WidgetText::from(what).into_galley(ui, None, width, FontId::new(text, theme::family(FontWeight::Normal)))
}

/// What stands in a tile: its grid, how many, what they do, and the specks.
fn inside(ui: &Ui, heap: &Heap, (so_far, most): (u128, u128), (words, tallest): (Arc<Galley>, f32), inner: Rect) {
    let text = TextStyle::Small.resolve(ui.style()).size;
    let grid = Rect::from_min_size(inner.min, vec2(GRID, GRID));
    paint_mini(ui.painter(), grid, heap.grid, &[]);
    let bold = FontId::new(text * 1.35, theme::family(FontWeight::Bold));
    let beside = pos2(grid.right() + INNER, grid.top() - 2.0);
    ui.painter().text(beside, Align2::LEFT_TOP, number(so_far), bold, theme::INK.worn());
    let words_at = beside + vec2(0.0, text * 1.7);
    let beneath = (words_at.y + tallest).max(grid.bottom()) + 8.0;
    ui.painter().galley(words_at, words, theme::INK.worn());
    specks(ui, so_far, most, Rect::from_min_max(pos2(inner.left(), beneath), inner.max), heap.works);
}

/// A speck for each way, row by row, as large as lets the greatest heap into its tile.
fn specks(ui: &Ui, count: u128, most: u128, room: Rect, works: bool) {
    if room.height() < 8.0 || room.width() < 8.0 {
        return;
    }
    // Whole points, so that each is as wide as the next.
    let fits = |pitch: &f32| (room.width() / pitch).floor() * (room.height() / pitch).floor() >= most as f32;
    let pitch = (1_u8..=8).rev().map(f32::from).find(fits).unwrap_or(1.0);
    let side = if pitch > 2.0 { pitch - 1.0 } else { pitch * 0.7 };
    let colour = if works { theme::ACCENT } else { theme::QUIET }.worn();
    let (mut mesh, across) = (Mesh::default(), (room.width() / pitch).floor().max(1.0));
    let corner = pos2(room.left().round(), room.top().round());
    for it in 0..count {
        let row = (it as f32 / across).floor();
        let at = corner + vec2(it as f32 - row * across, row) * pitch;
        mesh.add_colored_rect(Rect::from_min_size(at, vec2(side, side)), colour);
    }
    ui.painter().add(Shape::mesh(mesh));
}

fn outlined(ui: &Ui, response: &Response, tile: Rect) {
    if response.has_focus() || response.hovered() {
        ui.painter().rect_stroke(tile, 8, Stroke::new(2.5, theme::ACCENT), StrokeKind::Outside);
    }
}
