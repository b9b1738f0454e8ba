//! The ways in which the switches can stand, and what the lamp does in each.

use bevy_egui::egui::{
    Frame, Grid, Margin, Painter, Pos2, Rect, Response, RichText, Sense, Stroke, StrokeKind, Ui, vec2,
};
use switchdrop::reason::LampGrid;

use super::houses::House;
use crate::workshop::{panel::PanelContext, theme};

/// Draws it: a row for each way in which the switches before the last stand, the raised ones first as on the wall.
pub fn show(ui: &mut Ui, panel: &PanelContext<'_>, house: &House) {
    panel.heading(ui, "curious-grid");
    let count = house.passage.switches().len();
    let rows = 1_usize << (count.max(1) - 1);
    Grid::new("curious-settings").spacing(vec2(6.0, 6.0)).show(ui, |ui| {
        ui.label("");
        for up in [true, false] {
            ui.label(RichText::new(stands(panel, house, count - 1, up)).small());
        }
        ui.end_row();
        for row in (0..rows).rev() {
            let told: Vec<String> =
                (0..count - 1).map(|it| stands(panel, house, it, row >> (count - 2 - it) & 1 == 1)).collect();
            ui.label(RichText::new(told.join(",\n")).small());
            for far in [1, 0] {
                let at = 2 * row + far;
                let seen = house.seen.get(at).copied().flatten();
                cell(ui, panel, (seen, house.opens.contains(&at)), house.setting() == at);
            }
            ui.end_row();
        }
    });
    theme::quiet(ui, &panel.say("curious-here", &[]));
}

/// How one switch stands, in two words.
fn stands(panel: &PanelContext<'_>, house: &House, number: usize, up: bool) -> String {
    let key = match number {
        0 => "curious-near",
        it if it + 1 == house.passage.switches().len() => "curious-far",
        _ => "curious-middle",
    };
    let name = panel.say(key, &[]);
    panel.say(if up { "curious-grid-up" } else { "curious-grid-down" }, &[("switch", &name)])
}

fn cell(ui: &mut Ui, panel: &PanelContext<'_>, (lit, opens): (Option<bool>, bool), is_here: bool) {
    let (key, ground) = match (lit, opens) {
        (_, true) => ("curious-cell-opens", theme::WARNING_GROUND),
        (Some(true), false) => ("curious-lit", theme::LAMPLIGHT),
        (Some(false), false) => ("curious-dark", theme::DUSK),
        (None, false) => ("curious-unseen", theme::PANEL),
    };
    let edge = if is_here { Stroke::new(2.5, theme::ACCENT) } else { Stroke::new(1.0, theme::HAIR) };
    // As wide with either edge.
    let margin = if is_here { Margin::symmetric(7, 5) } else { Margin::symmetric(8, 6) };
    Frame::new().fill(ground.worn()).stroke(edge).corner_radius(4).inner_margin(margin).show(ui, |ui| {
        ui.set_min_width(70.0 * theme::scale_of(ui));
        ui.label(RichText::new(panel.say(key, &[])).small());
    });
}

/// The same of two switches without words, in a square: a sun where the lamp is lit, a ring where it is dark, a cross where a trip switch
/// opens (by number in counting order).
pub fn mini(ui: &mut Ui, grid: &LampGrid, opens: &[usize], size: f32, sense: Sense) -> Response {
    let (rect, response) = ui.allocate_exact_size(vec2(size, size), sense);
    paint_mini(ui.painter(), rect, grid.of_two(), opens);
    response
}

/// Paints it.
pub fn paint_mini(painter: &Painter, rect: Rect, lit: Option<[[bool; 2]; 2]>, opens: &[usize]) {
    let Some(lit) = lit else { return };
    let half = rect.width() / 2.0;
    for (row, near) in [1, 0].into_iter().enumerate() {
        for (column, far) in [1, 0].into_iter().enumerate() {
            let corner = rect.min + vec2(column as f32, row as f32) * half;
            let cell = Rect::from_min_size(corner, vec2(half, half)).shrink(1.0);
            let is_lit = lit[near][far];
            let trips = opens.contains(&(2 * near + far));
            let ground = match (trips, is_lit) {
                (true, _) => theme::WARNING_GROUND,
                (false, true) => theme::LAMPLIGHT,
                (false, false) => theme::DUSK,
            };
            painter.rect(cell, 2, ground, Stroke::new(1.0, theme::HAIR), StrokeKind::Inside);
            if trips {
                let out = vec2(half * 0.2, half * 0.2);
                for out in [out, out.rot90()] {
                    painter.line_segment([cell.center() - out, cell.center() + out], Stroke::new(2.0, theme::WARNING));
                }
            } else {
                sign(painter, cell.center(), half * 0.24, is_lit);
            }
        }
    }
}

/// A full round with rays, or a ring: what is lit is told by more than its colour.
fn sign(painter: &Painter, at: Pos2, radius: f32, is_lit: bool) {
    let ink = theme::INK.worn();
    if is_lit {
        painter.circle_filled(at, radius * 0.7, ink);
        for (x, y) in [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)] {
            let out = vec2(x, y);
            painter.line_segment([at + out * radius, at + out * radius * 1.5], Stroke::new(1.2, ink));
        }
    } else {
        painter.circle_stroke(at, radius, Stroke::new(1.2, ink));
    }
}
