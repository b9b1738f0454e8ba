//! What was refused or stopped, said beside the thing that was touched; the foot says it again.

use bevy_egui::egui::{FontId, Rect, Stroke, StrokeKind, Ui, pos2, vec2};
use switchdrop::picture::{FontWeight, Scene, Thing};

use super::{
    drawing::Fit,
    theme,
    view::{Sight, Tone, View},
};

/// How wide it is, points at the normal text size.
const WIDE: f32 = 270.0;
const MARGIN: f32 = 9.0;
/// Between it and the thing.
const APART: f32 = 12.0;

/// Draws it, as long as the thing stays selected.
pub fn beside(ui: &Ui, view: &View, scene: &Scene, fit: &Fit) {
    if view.said.tone == Tone::Plain || view.said.text.is_empty() || view.said_of != (view.at, view.selected) {
        return;
    }
    // With nothing selected it was said of the place.
    let there = if let Sight::Location(it) = view.at { Some(Thing::Location(it)) } else { None };
    let Some(spot) = view.selected.or(there).and_then(|it| scene.spot(it)).map(|it| fit.rect(it.rect)) else { return };
    let scale = theme::scale_of(ui);
    let font = FontId::new(14.5 * scale, theme::family(FontWeight::Normal));
    let galley = ui.painter().layout(view.said.text.clone(), font, theme::WARNING.worn(), WIDE * scale);
    let size = galley.size() + vec2(2.0 * MARGIN, 2.0 * MARGIN);
    let room = ui.clip_rect().shrink(6.0);
    // Where there is room: to the right, to the left, above, beneath.
    let middle = spot.center();
    // A whole place is no point on the drawing: what is said of it stands above it, and hides none of it if there is room.
    let is_place = matches!(view.selected.or(there), Some(Thing::Location(_)));
    let spots = [
        pos2(spot.right() + APART, middle.y - size.y / 2.0),
        pos2(spot.left() - APART - size.x, middle.y - size.y / 2.0),
        pos2(middle.x - size.x / 2.0, spot.top() - APART - size.y),
        pos2(middle.x - size.x / 2.0, spot.bottom() + APART),
    ];
    let within = |at: bevy_egui::egui::Pos2| {
        let x = at.x.clamp(room.left(), (room.right() - size.x).max(room.left()));
        let y = at.y.clamp(room.top(), (room.bottom() - size.y).max(room.top()));
        Rect::from_min_size(pos2(x, y), size)
    };
    let free = spots.map(within).into_iter().find(|it| !it.intersects(spot.expand(2.0)));
    let plate = if is_place {
        within(pos2(middle.x - size.x / 2.0, room.top()))
    } else {
        free.unwrap_or_else(|| within(spots[3]))
    };
    let painter = ui.painter();
    if !is_place {
        painter.line_segment([middle, plate.center()], Stroke::new(2.0, theme::WARNING));
        painter.rect_stroke(spot.expand(3.0), 5, Stroke::new(3.0, theme::WARNING), StrokeKind::Outside);
    }
    painter.rect(plate, 6, theme::WARNING_GROUND, Stroke::new(2.0, theme::WARNING), StrokeKind::Outside);
    painter.galley(plate.min + vec2(MARGIN, MARGIN), galley, theme::WARNING.worn());
}
