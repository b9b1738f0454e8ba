//! Cores drawn on a whole place, where somebody is asked about them: the sheath of their cable opened along its way, and a tag at each with the
//! letters of its colour, large enough to be touched.

use super::{
    canvas::{Canvas, Type, both, line},
    conductor::{code_lines, core},
    paint::Paint,
    shape::{Anchor, Layer, Path, Rect, Thing, Xy},
};
use crate::work::Work;

/// From the middle of one core to that of the next.
const PITCH: f32 = 10.0;
/// A tag: its letters above, and beneath them room for a word.
const TAG: (f32, f32) = (72.0, 52.0);
const GAP: f32 = 6.0;
const LETTERS: f32 = 16.0;
/// Between a cable and the tags beside it, the nearest first.
const BESIDE: [f32; 4] = [16.0, 44.0, 80.0, 130.0];

/// The asked cores of one cable, from its one side to its other.
pub(super) struct OpenedCable {
    cable: usize,
    cores: Vec<usize>,
    tags: Vec<Rect>,
    /// Where on the cable the tags belong.
    at: Xy,
}

impl OpenedCable {
    /// The cables with cores that are asked about, each with its tags where they cover nothing that is `taken` and as little as can be of
    /// the cables and of what is `cut`; or none with a tag.
    pub fn of(
        work: &Work,
        (asked, tagged): (&[usize], bool),
        paths: &[Path],
        taken: &[Rect],
        cut: &[Rect],
    ) -> Vec<Self> {
        let conductors = &work.exercise().conductors;
        let lines: Vec<Vec<Xy>> = paths.iter().map(Path::close_together).collect();
        let mut used = taken.to_vec();
        let mut opened = Vec::new();
        for (cable, points) in lines.iter().enumerate().take(work.exercise().cables.len()) {
            let of_it = |it: &&usize| conductors.get(**it).is_some_and(|it| it.cable == cable);
            let cores: Vec<usize> = asked.iter().filter(of_it).copied().collect();
            if cores.is_empty() {
                continue;
            }
            let others = lines.iter().enumerate().filter(|it| it.0 != cable).flat_map(|it| it.1).copied().collect();
            let clearance = Clearance { used: &used, cut, others };
            let nowhere = || (Xy::new(0.0, 0.0), Vec::new());
            let (at, tags) = if tagged { clearance.best(points, cores.len()) } else { nowhere() };
            used.extend(&tags);
            opened.push(Self { cable, cores, tags, at });
        }
        opened
    }

    /// Where its tags are.
    pub fn tags(&self) -> &[Rect] {
        &self.tags
    }

    /// How wide the sheath of a cable is with its cores in sight, if it is one of those.
    pub fn width(all: &[Self], cable: usize) -> Option<f32> {
        all.iter().find(|it| it.cable == cable).map(|it| PITCH * it.cores.len() as f32 + 8.0)
    }

    /// The cores along the path of their cable, one of all `paths`, and the tags.
    pub fn draw(&self, canvas: &mut Canvas, work: &Work, paths: &[Path]) {
        let Some(path) = paths.get(self.cable) else { return };
        let first = -PITCH * (self.cores.len() - 1) as f32 / 2.0;
        for (place, conductor) in self.cores.iter().enumerate() {
            let colour = work.exercise().conductors[*conductor].colour;
            let about = Thing::Conductor(*conductor);
            core(canvas, about, &path.beside(first + PITCH * place as f32), colour, None, None);
            let Some(tag) = self.tags.get(place) else { continue };
            let leader = Path::through(&[self.at, tag.nearest(self.at)]);
            canvas.path(Layer::Cables, Some(about), leader, line(Paint::QuietInk, 2.0));
            canvas.rect(Layer::Marks, Some(about), *tag, 7.0, both(Paint::Plate, Paint::ConductorEdge(colour), 2.0));
            let (one, other) = code_lines(colour);
            let style = Type::bold(LETTERS, Paint::Plate);
            let at = Xy::new(tag.centre().x, tag.top + 19.0);
            canvas.text(Layer::Marks, Some(about), at, Anchor::Middle, style, &format!("{one}{other}"));
            canvas.spot(work, about, *tag);
        }
    }
}

/// What there is to keep clear of.
struct Clearance<'a> {
    used: &'a [Rect],
    cut: &'a [Rect],
    others: Vec<Xy>,
}

impl Clearance<'_> {
    /// The best place for so many tags along a cable: across it, else beside it, one beside or above another. If no place is free,
    /// beneath everything.
    fn best(&self, points: &[Xy], count: usize) -> (Xy, Vec<Rect>) {
        let many = count as f32;
        let row = (TAG.0 * many + GAP * (many - 1.0), TAG.1);
        let column = (TAG.0, TAG.1 * many + GAP * (many - 1.0));
        let mut best: Option<(f32, Xy, Rect)> = None;
        for part in [50, 40, 60, 30, 70, 20, 80, 12, 88_usize] {
            let Some(at) = points.get(points.len() * part / 100).copied() else { continue };
            for (wide, high) in [row, column] {
                let ways = [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)];
                let aside = BESIDE.into_iter().flat_map(|away| {
                    ways.map(|(x, y)| (x * (wide / 2.0 + away), y * (high / 2.0 + away), 14.0 + away))
                });
                for (dx, dy, aside) in std::iter::once((0.0, 0.0, 0.0)).chain(aside) {
                    let area = Rect::new(at.x + dx - wide / 2.0, at.y + dy - high / 2.0, wide, high);
                    if self.used.iter().any(|it| it.grown(5.0).overlaps(&area)) {
                        continue;
                    }
                    let over = |points: &[Xy]| points.iter().filter(|it| area.grown(3.0).contains(**it)).count() as f32;
                    let crossed = self.cut.iter().filter(|it| it.overlaps(&area)).count() as f32;
                    let cost = aside + over(points) + 4.0 * over(&self.others) + 6.0 * crossed;
                    if best.is_none_or(|it| cost < it.0) {
                        best = Some((cost, at, area));
                    }
                }
            }
        }
        let middle = points.get(points.len() / 2).copied().unwrap_or(Xy::new(0.0, 0.0));
        let (at, area) = best.map_or_else(|| (middle, self.beneath(row)), |it| (it.1, it.2));
        let is_row = area.width > TAG.0;
        let step = |it: usize| if is_row { ((TAG.0 + GAP) * it as f32, 0.0) } else { (0.0, (TAG.1 + GAP) * it as f32) };
        let tag = |it: usize| Rect::new(area.left + step(it).0, area.top + step(it).1, TAG.0, TAG.1);
        (at, (0..count).map(tag).collect())
    }

    fn beneath(&self, (wide, high): (f32, f32)) -> Rect {
        let left = self.used.iter().map(|it| it.left).reduce(f32::min).unwrap_or(0.0);
        let lowest = self.used.iter().map(Rect::bottom).reduce(f32::max).unwrap_or(0.0);
        Rect::new(left, lowest + BESIDE[0], wide, high)
    }
}
