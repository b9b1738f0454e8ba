//! What a training board is: a sheet of plywood on two trestles.

use super::{
    canvas::{Canvas, both, downwards, fill, thin, veil},
    depth::shadow,
    paint::{Fill, Paint},
    shape::{Layer, Path, Rect, Xy},
};

/// Height of the trestles beneath the sheet.
pub(super) const LEGS: f32 = 44.0;
const GRAIN: u8 = 9;

/// The sheet, behind everything that is fixed to it.
pub(super) fn plywood(canvas: &mut Canvas, sheet: Rect, evening: bool) {
    for middle in [0.18, 0.82].map(|it| sheet.left + sheet.width * it) {
        trestle(canvas, Xy::new(middle, sheet.bottom()));
    }
    shadow(canvas, Layer::Ground, None, sheet, 4.0);
    canvas.rect(Layer::Ground, None, sheet, 4.0, both(Paint::Plywood, Paint::TimberEdge, 3.0));
    // Long flat waves of grain, thin enough to read names on.
    for it in 1..=GRAIN {
        let y = sheet.top + sheet.height * f32::from(it) / f32::from(GRAIN + 1);
        let swing = if it % 2 == 0 { 7.0 } else { -9.0 };
        let (left, wide) = (sheet.left + 8.0, sheet.width - 16.0);
        let grain = Path::from(Xy::new(left, y)).cubic(
            Xy::new(left + wide * 0.3, y + swing),
            Xy::new(left + wide * 0.65, y - swing),
            Xy::new(left + wide, y + swing * 0.3),
        );
        canvas.path(Layer::Ground, None, grain, veil(Paint::PlywoodGrain, 1.6, 120));
    }
    if evening {
        canvas.rect(Layer::Ground, None, sheet, 4.0, fill(Fill::Flat(thin(Paint::SkyAtDusk, 90))));
    }
}

fn trestle(canvas: &mut Canvas, top: Xy) {
    for (foot, half) in [(-26.0, 6.0), (26.0, 6.0)] {
        let leg = Path::from(Xy::new(top.x - half, top.y))
            .line(Xy::new(top.x + half, top.y))
            .line(Xy::new(top.x + foot + half, top.y + LEGS))
            .line(Xy::new(top.x + foot - half, top.y + LEGS))
            .closed();
        canvas.path(Layer::Ground, None, leg, both(Paint::Timber, Paint::TimberEdge, 1.5));
    }
    let rail = Rect::new(top.x - 40.0, top.y - 2.0, 80.0, 9.0);
    canvas.rect(
        Layer::Ground,
        None,
        rail,
        1.0,
        both(downwards(rail, Paint::Timber, Paint::TimberEdge), Paint::TimberEdge, 1.5),
    );
}
