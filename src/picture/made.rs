//! Drawing what a learner's hand did: an end made ready, copper at the length it is bare, damage where it is; a test link.

use super::{
    canvas::{Canvas, both, line},
    conductor::{BARE, CODE_AT, CORE, LEAD, Lead, MARK, PITCH, code, core, marked},
    paint::Paint,
    shape::{Layer, Path, Rect, Thing, Xy},
};
use crate::{
    trade::colour::Colour,
    work::{Point as Probed, Prep, Work},
};

/// How an end was made ready, as it is drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct DrawnTip {
    pub prep: Prep,
    /// Copper that can be seen at its tip, mm; doubled, if it is folded.
    pub bare_mm: f64,
}

/// Units for a millimetre of bare copper.
const PER_MM: f32 = 2.0;
/// How wide copper is that a screw has driven flat.
const FLAT: f32 = 3.0 * BARE;
/// Where a plate has cut into the insulation: between code and mark.
const GASH: [f32; 2] = [29.0, 35.0];
/// Copper is drawn no longer than this, so that code and mark keep their room: 24 mm.
const MOST_COPPER: f32 = 48.0;

/// An end that the learner made ready: copper as long as it is bare, doubled where it is folded, a notch where it is
/// nicked, flat with the mark of the screw where it is crushed, showing through where a plate has cut the insulation.
pub(super) fn made_ready(canvas: &mut Canvas, from: Xy, (dx, dy): (f32, f32), end: Lead, made: DrawnTip) {
    let at = |it: f32| Xy::new(from.x + dx * it, from.y + dy * it);
    let about = Some(end.about);
    if made.prep.core_mm == 0 {
        code(canvas, about, at(CODE_AT), end.colour);
        return;
    }
    let cut = |canvas: &mut Canvas, along: f32, half: f32| {
        let middle = at(along);
        let side = |it: f32| Xy::new(middle.x + dy * it, middle.y + dx * it);
        canvas.path(Layer::Conductors, about, Path::through(&[side(-half), side(half)]), line(Paint::Ink, 2.0));
    };
    let copper_from = |canvas: &mut Canvas, [first, last]: [f32; 2], wide: f32| {
        let path = Path::through(&[at(first), at(last)]);
        canvas.path(Layer::Conductors, about, path.clone(), line(Paint::ConductorEdge(Colour::Bare), wide + 2.0));
        canvas.path(Layer::Conductors, about, path, line(Paint::Conductor(Colour::Bare), wide));
    };
    #[expect(clippy::cast_possible_truncation, reason = "millimetres of copper, held below on the same line")]
    let copper = (made.bare_mm as f32 * PER_MM).clamp(0.0, MOST_COPPER);
    let skin = LEAD - copper;
    if copper > 0.0 {
        let wide = if made.prep.folded { 2.0 * BARE + 1.0 } else { BARE };
        copper_from(canvas, [skin - 2.0, LEAD], wide);
        if made.prep.folded {
            let path = Path::through(&[at(skin - 2.0), at(LEAD)]);
            canvas.path(Layer::Conductors, about, path, line(Paint::ConductorEdge(Colour::Bare), 1.2));
        }
    }
    core(canvas, end.about, &Path::through(&[from, at(skin)]), end.colour, end.mark, Some(end.ground));
    if made.prep.nicked && copper > 0.0 {
        cut(canvas, skin + 3.0, 4.0);
    }
    if made.prep.crushed {
        copper_from(canvas, [LEAD - 3.0, LEAD + 5.0], FLAT);
        cut(canvas, LEAD + 1.0, FLAT / 2.0);
    }
    if made.prep.trapped {
        copper_from(canvas, GASH, CORE - 2.0);
        for it in GASH {
            cut(canvas, it, CORE);
        }
    }
    code(canvas, about, at(CODE_AT), end.colour);
    let last = MARK[1].min(skin - 2.0);
    marked(canvas, at, end, [MARK[0].min(last - 20.0), last]);
}

/// A flying lead with a clip at each end, drooping between two places.
fn flying_lead(canvas: &mut Canvas, clips: &[Xy], [from, to]: [Xy; 2]) {
    const RISE: f32 = 32.0;
    let path = Path::from(from).cubic(Xy::new(from.x, from.y - RISE), Xy::new(to.x, to.y - RISE), to);
    canvas.path(Layer::Marks, None, path.clone(), line(Paint::Plate, 9.0));
    canvas.path(Layer::Marks, None, path, line(Paint::Warning, 5.0));
    for it in clips {
        let jaw = Rect::new(it.x - 6.0, it.y - 4.0, 12.0, 20.0);
        canvas.rect(Layer::Marks, None, jaw, 3.0, both(Paint::Warning, Paint::Plate, 1.5));
        let gap = [Xy::new(it.x, it.y + 5.0), Xy::new(it.x, it.y + 16.0)];
        canvas.path(Layer::Marks, None, Path::through(&gap), line(Paint::Plate, 2.0));
    }
}

/// Test links between two points that are here, or from one that is to one somewhere else, which lies beyond `edge`.
pub(super) fn test_links(canvas: &mut Canvas, work: &Work, edge: f32) {
    for link in work.links() {
        let place = |it: Probed| match it {
            Probed::Terminal(it) => canvas.place_of(Thing::Terminal(it)),
            Probed::End(it) => canvas.place_of(Thing::End(it)),
        };
        // The clip bites at the side that looks to the other, beside the screw; on a free end at its tip.
        let clip = |of: usize, away: f32| {
            let rect = place(link[of])?;
            let x = if away < rect.centre().x { rect.left + 9.0 } else { rect.right() - 9.0 };
            Some(match link[of] {
                Probed::Terminal(_) => Xy::new(x, rect.top + 12.0),
                Probed::End(_) => Xy::new(rect.centre().x, rect.bottom() - 16.0),
            })
        };
        let middle = |of: usize| place(link[of]).map_or(edge, |it| it.centre().x);
        let clips = [clip(0, middle(1)), clip(1, middle(0))];
        let there: Vec<Xy> = clips.into_iter().flatten().collect();
        match *there {
            [from, to] => flying_lead(canvas, &there, [from, to]),
            [from] => flying_lead(canvas, &there, [from, Xy::new(edge, from.y - 20.0)]),
            _ => {}
        }
    }
}

/// A core upright from where it comes to rest, bending from side to side for what it has to spare.
pub(super) fn bent(from: Xy, spare: f32) -> Path {
    const BENDS: u8 = 4;
    let path = Path::from(from);
    if spare <= 0.0 {
        return path;
    }
    // The length of a slender wave of that many halves, solved for how far it swings; a neighbour is a pitch away.
    let bends = f32::from(BENDS);
    let swing = (2.0 / (std::f32::consts::PI * bends) * (spare * LEAD).sqrt()).min(PITCH / 3.0);
    // Both handles of a half stand to one side of it: it swings three quarters as far.
    let (handle, step) = (swing / 0.75, LEAD / bends);
    (0..BENDS).fold(path, |path, it| {
        let top = from.y + f32::from(it) * step;
        let x = from.x + if it % 2 == 0 { handle } else { -handle };
        path.cubic(Xy::new(x, top + 0.36 * step), Xy::new(x, top + 0.64 * step), Xy::new(from.x, top + step))
    })
}
