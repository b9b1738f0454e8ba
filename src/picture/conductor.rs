//! Drawing conductors: the core along its path, and its end with code, mark and bared copper.
//!
//! A colour is never the only cue: every end carries the letter code of its core, and every mark its own. Nothing here
//! decides where a conductor runs.

use super::{
    canvas::{Canvas, Type, both, line, veil},
    depth::sheen,
    made::{DrawnTip, made_ready},
    paint::Paint,
    shape::{Anchor, Layer, Path, Rect, Thing, Xy},
};
use crate::trade::{
    cable::CableKind,
    colour::{Colour, Letter, Mark},
};

/// From one conductor to its neighbour, and the width of an end's spot.
pub(super) const PITCH: f32 = 36.0;
/// From where an end straightens to the tip of its copper: code, mark, copper.
pub(super) const LEAD: f32 = 98.0;
const COPPER_FROM: f32 = 84.0;
pub(super) const MARK: [f32; 2] = [38.0, 80.0];
pub(super) const CODE_AT: f32 = 18.0;
pub(super) const CORE: f32 = 6.5;
pub(super) const BARE: f32 = 4.5;
const TUBE: f32 = 12.0;

/// The letters that stand for a colour: one line, or two where one would be too wide. The code of IEC 60757; bare
/// copper, which has none, is called so.
pub(super) const fn code_lines(colour: Colour) -> (&'static str, &'static str) {
    match colour {
        Colour::GreenYellow => ("GN", "YE"),
        Colour::Bare => ("bare", ""),
        other => (other.code(), ""),
    }
}

/// What is drawn all along a core: a bare one that is sleeved is sleeved from sheath to terminal.
fn sleeved_whole(colour: Colour, mark: Option<Mark>) -> Option<Colour> {
    match (colour, mark) {
        (Colour::Bare, Some(Mark::Sleeve(it))) => Some(it),
        _ => None,
    }
}

/// A core along its path; over `ground`, with a thin outline of it beneath so that crossings can be told apart.
pub(super) fn core(
    canvas: &mut Canvas,
    about: Thing,
    path: &Path,
    colour: Colour,
    mark: Option<Mark>,
    ground: Option<Paint>,
) {
    let shown = sleeved_whole(colour, mark);
    let width = if shown.is_some() { CORE + 1.5 } else { core_width(colour) };
    tube(canvas, about, path, shown.unwrap_or(colour), width, ground);
}

const fn core_width(colour: Colour) -> f32 {
    if matches!(colour, Colour::Bare) { BARE } else { CORE }
}

fn tube(canvas: &mut Canvas, about: Thing, path: &Path, colour: Colour, width: f32, ground: Option<Paint>) {
    let (layer, about) = (Layer::Conductors, Some(about));
    if let Some(ground) = ground {
        canvas.path(layer, about, path.clone(), line(ground, width + 7.0));
    }
    canvas.path(layer, about, path.clone(), line(Paint::ConductorEdge(colour), width + 2.0));
    canvas.path(layer, about, path.clone(), line(Paint::Conductor(colour), width));
    if colour == Colour::GreenYellow {
        for it in stripes(path) {
            canvas.path(layer, about, it, line(Paint::Stripe, width));
        }
    }
    sheen(canvas, layer, about, path, width);
}

/// Pieces of a path, every other one: the yellow of green-and-yellow, and the dashes of what is not there yet.
pub(super) fn stripes(path: &Path) -> Vec<Path> {
    const BAND: f32 = 7.0;
    let mut pieces = Vec::new();
    let mut piece: Vec<Xy> = Vec::new();
    let mut left = BAND;
    let mut yellow = false;
    for pair in path.flattened().windows(2) {
        let [mut from, to] = [pair[0], pair[1]];
        loop {
            let (dx, dy) = (to.x - from.x, to.y - from.y);
            let length = (dx * dx + dy * dy).sqrt();
            if length < left {
                if yellow && length > 0.0 {
                    piece.push(to);
                }
                left -= length;
                break;
            }
            from = Xy::new(from.x + dx * left / length, from.y + dy * left / length);
            if yellow {
                piece.push(from);
                pieces.push(Path::through(&piece));
            }
            yellow = !yellow;
            piece = vec![from];
            left = BAND;
        }
    }
    if yellow && piece.len() > 1 {
        pieces.push(Path::through(&piece));
    }
    pieces
}

/// What an end shows.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lead {
    pub about: Thing,
    pub colour: Colour,
    pub mark: Option<Mark>,
    pub ground: Paint,
    /// How it was made ready, where the learner does that.
    pub made: Option<DrawnTip>,
}

/// The last straight piece of a conductor, from `from` in the direction (`dx`, `dy`), a step of one unit along an axis.
pub(super) fn lead(canvas: &mut Canvas, from: Xy, (dx, dy): (f32, f32), end: Lead) {
    let at = |it: f32| Xy::new(from.x + dx * it, from.y + dy * it);
    if let Some(made) = end.made.filter(|it| it.prep.core_mm == 0 || end.colour != Colour::Bare) {
        return made_ready(canvas, from, (dx, dy), end, made);
    }
    let about = Some(end.about);
    let bare = line(Paint::Conductor(Colour::Bare), BARE);
    let copper = Path::through(&[at(COPPER_FROM - 2.0), at(LEAD)]);
    canvas.path(Layer::Conductors, about, copper.clone(), line(Paint::ConductorEdge(Colour::Bare), BARE + 2.0));
    canvas.path(Layer::Conductors, about, copper, bare);
    core(canvas, end.about, &Path::through(&[from, at(COPPER_FROM)]), end.colour, end.mark, Some(end.ground));
    // A bare core that is sleeved all along shows nothing bare.
    if sleeved_whole(end.colour, end.mark).is_none() {
        code(canvas, about, at(CODE_AT), end.colour);
    }
    marked(canvas, at, end, MARK);
}

/// The mark of an end, between two places along it.
pub(super) fn marked(canvas: &mut Canvas, at: impl Fn(f32) -> Xy, end: Lead, [first, last]: [f32; 2]) {
    let about = Some(end.about);
    let middle = f32::midpoint(first, last);
    match end.mark {
        None => {}
        Some(Mark::Sleeve(colour)) => {
            tube(canvas, end.about, &Path::through(&[at(first), at(last)]), colour, TUBE, None);
            // The ends of a tube, cut through.
            for along in [first + 1.0, last - 1.0] {
                let (dx, dy) = (at(along).x - at(along - 1.0).x, at(along).y - at(along - 1.0).y);
                let side = |it: f32| Xy::new(at(along).x + dy * it, at(along).y + dx * it);
                let cut = Path::through(&[side(-TUBE / 2.0), side(TUBE / 2.0)]);
                canvas.path(Layer::Conductors, about, cut, veil(Paint::Shade, 2.0, 110));
            }
            code(canvas, about, at(middle), colour);
        }
        Some(Mark::Tape(colour)) => {
            for start in [first, last - 8.0] {
                let turns = Path::through(&[at(start), at(start + 8.0)]);
                tube(canvas, end.about, &turns, colour, TUBE + 2.0, None);
            }
            code(canvas, about, at(middle), colour);
        }
        Some(Mark::Letter(letter)) => ring(canvas, about, at(middle), letter),
    }
}

/// A tag with the letters of a colour, on the conductor.
pub(super) fn code(canvas: &mut Canvas, about: Option<Thing>, centre: Xy, colour: Colour) {
    let (first, second) = code_lines(colour);
    let style =
        if matches!(colour, Colour::Bare) { Type::plain(13.0, Paint::Plate) } else { Type::bold(13.0, Paint::Plate) };
    let height = if second.is_empty() { 19.0 } else { 31.0 };
    let width = (style.width(first) + 5.0).min(PITCH - 3.0);
    let tag = Rect::new(centre.x - width / 2.0, centre.y - height / 2.0, width, height);
    canvas.rect(Layer::Marks, about, tag, 4.0, both(Paint::Plate, Paint::ConductorEdge(colour), 1.5));
    let rise = if second.is_empty() { 4.7 } else { -1.6 };
    canvas.text(Layer::Marks, about, Xy::new(centre.x, centre.y + rise), Anchor::Middle, style, first);
    canvas.text(Layer::Marks, about, Xy::new(centre.x, centre.y + 12.2), Anchor::Middle, style, second);
}

/// A letter ring.
fn ring(canvas: &mut Canvas, about: Option<Thing>, centre: Xy, letter: Letter) {
    let letters = match letter {
        Letter::L => "L",
        Letter::N => "N",
        Letter::PE => "PE",
    };
    canvas.circle(Layer::Marks, about, centre, 14.0, both(Paint::Plate, Paint::Ink, 2.0));
    let style = Type::bold(15.0, Paint::Plate);
    canvas.text(Layer::Marks, about, Xy::new(centre.x, centre.y + 5.4), Anchor::Middle, style, letters);
}

/// A cable's outer sheath along its path; over `ground`, with a thin outline of it beneath.
pub(super) fn sheath(canvas: &mut Canvas, path: &Path, width: f32, kind: CableKind, ground: Option<Paint>) {
    let inside = if kind == CableKind::PendantFlex { Paint::Plate } else { Paint::Sheath };
    if let Some(ground) = ground {
        canvas.path(Layer::Cables, None, path.clone(), line(ground, width + 7.0));
    }
    canvas.path(Layer::Cables, None, path.clone(), line(Paint::SheathEdge, width + 2.5));
    canvas.path(Layer::Cables, None, path.clone(), line(inside, width));
    sheen(canvas, Layer::Cables, None, path, width);
}

/// The earth symbol (IEC 60417, 5017), its stem at the top.
pub(super) fn earth_symbol(canvas: &mut Canvas, at: Xy) {
    let look = line(Paint::Ink, 2.0);
    canvas.path(Layer::Names, None, Path::through(&[at, Xy::new(at.x, at.y + 9.0)]), look);
    for (y, half) in [(9.0, 9.0), (13.0, 6.0), (17.0, 3.0)] {
        let bar = [Xy::new(at.x - half, at.y + y), Xy::new(at.x + half, at.y + y)];
        canvas.path(Layer::Names, None, Path::through(&bar), look);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_tag_says_the_code_of_the_standard() {
        for colour in Colour::ALL {
            let (first, second) = code_lines(colour);
            assert_eq!(format!("{first}{second}"), colour.code().trim_matches(['(', ')']));
        }
    }

    #[test]
    fn stripes_take_every_other_band_of_a_straight_core() {
        let path = Path::through(&[Xy::new(0.0, 0.0), Xy::new(0.0, 35.0)]);
        let spans: Vec<_> = stripes(&path).iter().map(|it| (it.start.y.round(), it.end().y.round())).collect();
        assert_eq!(spans, [(7.0, 14.0), (21.0, 28.0)]);
    }
}
