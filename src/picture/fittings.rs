//! Drawing fittings: terminals, rockers, devices, lamps.
//!
//! Each takes a place and a state and draws; none decides either.

use super::{
    canvas::{Canvas, Type, both, downwards, fill, line, thin},
    conductor::earth_symbol,
    depth::{hollow, screw, shadow},
    layout::BlockIn,
    paint::{Fill, Paint},
    shape::{Anchor, Layer, Path, Rect, Thing, Xy},
    text::wrapped,
    words::{Label, Words},
};
use crate::{
    circuit::Glow,
    exercise::DeviceId,
    trade::catalogue::WorkedBy,
    work::{Power, Work},
};

const LAYER: Layer = Layer::Fittings;

/// A terminal: a block of brass with its screw, its letters below. A slack one has its screw backed out, and says so.
pub(super) fn terminal(canvas: &mut Canvas, it: &BlockIn, tight: bool, on: Paint, words: &dyn Words) {
    let about = Some(Thing::Terminal(it.block.terminal));
    let Rect { left, top, width, height } = it.rect;
    shadow(canvas, LAYER, about, it.rect, 5.0);
    canvas.rect(
        LAYER,
        about,
        it.rect,
        5.0,
        both(downwards(it.rect, Paint::BrassLight, Paint::Brass), Paint::BrassEdge, 2.0),
    );
    let foot = Rect::new(left + 2.0, top + height - 8.0, width - 4.0, 6.0);
    canvas.rect(LAYER, about, foot, 3.0, fill(downwards(foot, thin(Paint::BrassShade, 0), Paint::BrassShade)));
    // The hole that conductors go in by.
    let hole = Rect::new(left + width / 2.0 - (width * 0.34).min(30.0), top - 1.5, (width * 0.68).min(60.0), 5.0);
    canvas.rect(LAYER, about, hole, 2.5, fill(Paint::BrassEdge));
    let rise = if tight { 0.0 } else { -8.0 };
    let at = Xy::new(left + width / 2.0, top + height / 2.0 + 4.0 + rise);
    // The well that it stands in, deep where it has come out.
    canvas.circle(
        LAYER,
        about,
        Xy::new(at.x, top + height / 2.0 + 4.0),
        11.5,
        both(Paint::BrassShade, Paint::BrassEdge, 1.4),
    );
    if !tight {
        canvas.circle(LAYER, about, Xy::new(at.x, top + height - 11.0), 8.0, fill(Paint::BrassEdge));
    }
    screw(canvas, LAYER, about, at, 9.5, if tight { (1.0, 0.0) } else { (D, D) });

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
        WorkedBy::Push => push(canvas, about, rect, down),
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

/// A round knob that is pushed: smaller where it stays in.
fn push(canvas: &mut Canvas, about: Thing, rect: Rect, down: bool) {
    let about = Some(about);
    let (radius, centre) = (rect.width.min(rect.height) * 0.45, rect.centre());
    canvas.circle(LAYER, about, centre, radius, both(Paint::Plate, Paint::QuietInk, 1.6));
    let knob = radius * if down { 0.55 } else { 0.8 };
    canvas.circle(LAYER, about, centre, knob, both(Paint::Plate, Paint::Ink, if down { 1.6 } else { 2.4 }));
}

/// A rocker from the front, pressed at the bottom or at the top.
fn rocker(canvas: &mut Canvas, about: Thing, rect: Rect, down: bool) {
    let about = Some(about);
    let half = rect.height / 2.0;
    let pressed = Rect::new(rect.left, if down { rect.top + half } else { rect.top }, rect.width, half);
    let raised = Rect::new(rect.left, if down { rect.top } else { rect.top + half }, rect.width, half);
    canvas.rect(LAYER, about, rect, 4.0, both(Paint::Plate, Paint::QuietInk, 1.6));
    let area = pressed.grown(-1.6);
    let (above, below) = if down { (70, 10) } else { (110, 30) };
    canvas.rect(LAYER, about, area, 3.0, fill(downwards(area, thin(Paint::Shade, above), thin(Paint::Shade, below))));
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
    hollow(canvas, LAYER, window, 4.0);
    let handle = Rect::new(window.left + 3.0, top, window.width - 6.0, height);
    canvas.rect(LAYER, about, handle, 3.0, both(paint, Paint::Plate, 1.5));
    let grip = handle.grown(-2.0);
    canvas.rect(LAYER, about, grip, 2.0, fill(downwards(grip, thin(Paint::Light, 90), thin(Paint::Light, 0))));
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

/// The hasp of a device, as wide as the area: the lock that hangs on it, with its word; or the empty ring for one.
pub(super) fn hasp(canvas: &mut Canvas, work: &Work, id: DeviceId, area: Rect, words: &dyn Words) {
    let (about, state) = (Thing::Lock(id), work.device_state(id));
    let ring = Xy::new(area.left + 20.0, area.centre().y);
    let plate = Rect::new(area.left + 4.0, area.top + 2.0, area.width - 8.0, area.height - 5.0);
    canvas.rect(LAYER, Some(about), plate, 4.0, both(Paint::MetalBox, Paint::Recess, 1.4));
    if state.locked || state.kept_off {
        padlock(canvas, about, Xy::new(ring.x, ring.y + 3.0));
        let style = Type::plain(14.0, Paint::MetalBox);
        let at = Xy::new(ring.x + 18.0, ring.y + 5.0);
        let said = words.say(Label::Locked);
        for it in wrapped(&said, style.size, style.weight, area.right() - at.x - 4.0, 1) {
            canvas.text(Layer::Names, Some(about), at, Anchor::Start, style, &it);
        }
    } else {
        canvas.circle(LAYER, Some(about), ring, 5.5, line(Paint::QuietInk, 2.2));
    }
    canvas.spot(work, about, area);
}

/// How a lamp stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum LampLook {
    /// The holder is empty.
    Out,
    /// There is one in it, which does that.
    In(Glow),
}

impl LampLook {
    /// The word that it is called by; none for a lamp that does nothing.
    pub fn said(self, words: &dyn Words) -> String {
        match self {
            Self::Out => words.say(Label::NoLamp),
            Self::In(Glow::Lit) => words.say(Label::Lit),
            Self::In(Glow::Dim) => words.say(Label::Dim),
            Self::In(Glow::Off) => String::new(),
        }
    }
}

/// Cosine and sine of an eighth of a turn.
const D: f32 = std::f32::consts::FRAC_1_SQRT_2;

/// A lamp: a circle with a cross as on wiring plans; with rays when lit, an ember when dim; a broken ring for an empty holder.
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
        LampLook::In(glow) => {
            let (spot, inside, rim) = match glow {
                Glow::Lit => (centre, Paint::Light, Paint::Glow),
                // Only what is close to its filament.
                Glow::Dim => (centre, Paint::Glow, Paint::Recess),
                Glow::Off => (at(-0.35, -0.4), Paint::Light, Paint::Recess),
            };
            let reach = if glow == Glow::Dim { 0.7 } else { 1.3 };
            let glass = Fill::Radial { centre: (spot, inside.into()), radius: radius * reach, rim: rim.into() };
            canvas.circle(LAYER, about, centre, radius, both(glass, Paint::Ink, 2.2));
            // The cross that stands for a lamp on wiring plans (IEC 60617), as its filament.
            stroke(canvas, at(-D * 0.62, -D * 0.62), at(D * 0.62, D * 0.62), 1.8);
            stroke(canvas, at(-D * 0.62, D * 0.62), at(D * 0.62, -D * 0.62), 1.8);
        }
    }
    if look == LampLook::In(Glow::Lit) {
        // None straight down, where it says that it is lit.
        for (dx, dy) in [(1.0, 0.0), (D, D), (-D, D), (-1.0, 0.0), (-D, -D), (0.0, -1.0), (D, -D)] {
            stroke(canvas, at(dx * 1.22, dy * 1.22), at(dx * 1.5, dy * 1.5), 3.0);
        }
    }
}
