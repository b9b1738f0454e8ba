//! Drawing fittings: terminals, rockers, devices, lamps.
//!
//! Each takes a place and a state and draws; none decides either.

use super::{
    canvas::{Canvas, Type, both, fill, line},
    conductor::earth_symbol,
    layout::BlockIn,
    shape::{Anchor, Layer, Paint, Path, Rect, Thing, Xy},
    words::{Label, Words},
};
use crate::{trade::catalogue::WorkedBy, work::Power};

const LAYER: Layer = Layer::Fittings;

/// A terminal: a block of brass with its screw, its letters below. A slack one has its screw backed out, and says so.
pub(super) fn terminal(canvas: &mut Canvas, it: &BlockIn, tight: bool, on: Paint, words: &dyn Words) {
    let about = Some(Thing::Terminal(it.block.terminal));
    let Rect { left, top, width, height } = it.rect;
    canvas.rect(LAYER, about, it.rect, 5.0, both(Paint::Brass, Paint::BrassEdge, 2.0));
    let rise = if tight { 0.0 } else { -8.0 };
    let screw = Xy::new(left + width / 2.0, top + height / 2.0 + 4.0 + rise);
    if !tight {
        // The hole that it has come out of.
        canvas.circle(LAYER, about, Xy::new(screw.x, top + height - 9.0), 8.0, fill(Paint::BrassEdge));
    }
    canvas.circle(LAYER, about, screw, 9.5, both(Paint::MetalPlate, Paint::Ink, 1.8));
    let (dx, dy) = if tight { (6.0, 0.0) } else { (4.2, 4.2) };
    let slot = [Xy::new(screw.x - dx, screw.y - dy), Xy::new(screw.x + dx, screw.y + dy)];
    canvas.path(LAYER, about, Path::through(&slot), line(Paint::Ink, 2.2));

    let letters = Type { on, ..it.block.letters() };
    let middle = left + width / 2.0;
    let widest = it.block.label.iter().map(|it| letters.width(it)).fold(0.0, f32::max);
    let shift = if it.block.earth { 13.0 } else { 0.0 };
    let below = canvas.lines(about, middle + shift, top + height + 6.0, Anchor::Middle, letters, &it.block.label);
    if it.block.earth {
        let left_of = middle + shift - widest / 2.0 - 15.0;
        let rise = (below - top - height - 6.0) / 2.0 - 9.0;
        earth_symbol(canvas, Xy::new(left_of, top + height + 6.0 + rise));
    }
    if !tight {
        let style = Type::warning(15.0, on);
        canvas.lines(about, middle, below + 2.0, Anchor::Middle, style, &[words.say(Label::Slack)]);
    }
}

/// What a switch is worked by.
pub(super) fn worked(canvas: &mut Canvas, about: Thing, rect: Rect, by: WorkedBy, down: bool) {
    match by {
        WorkedBy::Cord => cord(canvas, about, rect, down),
        WorkedBy::Knob => knob(canvas, about, rect, down),
        WorkedBy::Rocker | WorkedBy::Nothing => rocker(canvas, about, rect, down),
    }
}

/// A cord with its bob, lower when it has been pulled.
fn cord(canvas: &mut Canvas, about: Thing, rect: Rect, down: bool) {
    let about = Some(about);
    let bob = Xy::new(rect.left + rect.width / 2.0, rect.top + rect.height * if down { 0.85 } else { 0.6 });
    let cord = [Xy::new(bob.x, rect.top), bob];
    canvas.rect(
        LAYER,
        about,
        Rect { height: rect.height * 0.25, ..rect },
        4.0,
        both(Paint::Plate, Paint::QuietInk, 1.6),
    );
    canvas.path(LAYER, about, Path::through(&cord), line(Paint::QuietInk, 2.4));
    canvas.circle(LAYER, about, bob, rect.width * 0.2, both(Paint::Plate, Paint::QuietInk, 1.6));
}

/// A round knob with its mark: at the top when off, turned when on.
fn knob(canvas: &mut Canvas, about: Thing, rect: Rect, down: bool) {
    let about = Some(about);
    let radius = rect.width.min(rect.height) * 0.45;
    let centre = rect.centre();
    canvas.circle(LAYER, about, centre, radius, both(Paint::Plate, Paint::QuietInk, 1.6));
    let (dx, dy) = if down { (0.7, -0.5) } else { (0.0, -0.86) };
    let mark = [centre, Xy::new(centre.x + dx * radius, centre.y + dy * radius)];
    canvas.path(LAYER, about, Path::through(&mark), line(Paint::Ink, 2.4));
}

/// A rocker from the front, pressed at the bottom or at the top.
fn rocker(canvas: &mut Canvas, about: Thing, rect: Rect, down: bool) {
    let about = Some(about);
    let half = rect.height / 2.0;
    let pressed = Rect::new(rect.left, if down { rect.top + half } else { rect.top }, rect.width, half);
    let raised = Rect::new(rect.left, if down { rect.top } else { rect.top + half }, rect.width, half);
    canvas.rect(LAYER, about, rect, 4.0, both(Paint::Plate, Paint::QuietInk, 1.6));
    canvas.rect(LAYER, about, pressed.grown(-1.6), 3.0, fill(Paint::Recess));
    // The lip of the half that stands out.
    let lip_y = if down { raised.top + 3.6 } else { raised.bottom() - 3.6 };
    let lip = [Xy::new(rect.left + 4.0, lip_y), Xy::new(rect.right() - 4.0, lip_y)];
    canvas.path(LAYER, about, Path::through(&lip), line(Paint::QuietInk, 2.4));
    let middle = [Xy::new(rect.left, rect.top + half), Xy::new(rect.right(), rect.top + half)];
    canvas.path(LAYER, about, Path::through(&middle), line(Paint::QuietInk, 1.2));
}

/// A device's lever in its window: up is on, down is off, half way is tripped.
pub(super) fn lever(canvas: &mut Canvas, about: Thing, window: Rect, power: Power) {
    let about = Some(about);
    canvas.rect(LAYER, about, window, 4.0, both(Paint::Recess, Paint::QuietInk, 1.6));
    let height = window.height * 0.36;
    let top = match power {
        Power::On => window.top + 3.0,
        Power::Tripped => window.top + (window.height - height) / 2.0,
        Power::Off => window.bottom() - height - 3.0,
    };
    let paint = if power == Power::Tripped { Paint::Warning } else { Paint::Ink };
    let handle = Rect::new(window.left + 3.0, top, window.width - 6.0, height);
    canvas.rect(LAYER, about, handle, 3.0, both(paint, Paint::Plate, 1.5));
}

/// How the word for a lever's state looks.
pub(super) fn power_style(power: Power, size: f32, on: Paint) -> Type {
    if power == Power::Tripped { Type::warning(size, on) } else { Type::bold(size, on) }
}

/// A padlock, its body's centre at `at`.
pub(super) fn padlock(canvas: &mut Canvas, about: Thing, at: Xy) {
    let about = Some(about);
    let p = |dx: f32, dy: f32| Xy::new(at.x + dx, at.y + dy);
    let shackle = Path::from(p(-6.0, -6.0))
        .line(p(-6.0, -11.0))
        .cubic(p(-6.0, -19.0), p(6.0, -19.0), p(6.0, -11.0))
        .line(p(6.0, -6.0));
    canvas.path(LAYER, about, shackle, line(Paint::Ink, 3.0));
    canvas.rect(
        LAYER,
        about,
        Rect::new(at.x - 10.0, at.y - 7.0, 20.0, 16.0),
        3.0,
        both(Paint::Warning, Paint::Ink, 1.6),
    );
    canvas.circle(LAYER, about, at, 2.6, fill(Paint::Plate));
}

/// How a lamp stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum LampLook {
    /// The holder is empty.
    Out,
    /// In, and not lit or not said.
    Dark,
    /// In and lit.
    Lit,
}

/// Cosine and sine of an eighth of a turn.
const D: f32 = std::f32::consts::FRAC_1_SQRT_2;

/// A lamp: a circle with a cross as on wiring plans; with rays when lit; a broken ring for an empty holder.
pub(super) fn lamp(canvas: &mut Canvas, about: Thing, centre: Xy, radius: f32, look: LampLook) {
    let about = Some(about);
    let at = |dx: f32, dy: f32| Xy::new(centre.x + dx * radius, centre.y + dy * radius);
    let stroke = |canvas: &mut Canvas, from: Xy, to: Xy, width: f32| {
        canvas.path(LAYER, about, Path::through(&[from, to]), line(Paint::Ink, width));
    };
    match look {
        LampLook::Out => {
            canvas.circle(LAYER, about, centre, radius, both(Paint::Paper, Paint::QuietInk, 1.4));
            canvas.circle(LAYER, about, centre, radius * 0.35, line(Paint::QuietInk, 1.4));
        }
        LampLook::Dark | LampLook::Lit => {
            let inside = if look == LampLook::Lit { Paint::Glow } else { Paint::Glass };
            canvas.circle(LAYER, about, centre, radius, both(inside, Paint::Ink, 2.4));
            stroke(canvas, at(-D, -D), at(D, D), 2.0);
            stroke(canvas, at(-D, D), at(D, -D), 2.0);
        }
    }
    if look == LampLook::Lit {
        for (dx, dy) in [(1.0, 0.0), (D, D), (0.0, 1.0), (-D, D), (-1.0, 0.0), (-D, -D), (0.0, -1.0), (D, -D)] {
            stroke(canvas, at(dx * 1.22, dy * 1.22), at(dx * 1.5, dy * 1.5), 3.0);
        }
    }
}
