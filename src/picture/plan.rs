//! Where things go on a plan: as the author placed them, spread until nothing covers anything else.
//!
//! Geometry only.

use super::shape::{Rect, Xy};

/// Clear space between two things, for cables and their names.
const GAP: f32 = 40.0;
/// How far the author's coordinates may be spread, units.
const WIDEST: f32 = 1500.0;

/// How far a thing reaches from the point that the author placed, units.
#[derive(Debug, Clone, Copy)]
pub(super) struct Extent {
    pub left: f32,
    pub right: f32,
    pub up: f32,
    pub down: f32,
}

impl Extent {
    fn around(self, it: Xy) -> Rect {
        Rect::new(it.x - self.left, it.y - self.up, self.left + self.right, self.up + self.down)
    }
}

/// A plan at the scale at which everything has room.
#[derive(Debug)]
pub(super) struct PlacePlan {
    /// Units for one of the author's.
    scale: f32,
    /// The author's coordinates at the plan's origin.
    origin: (f32, f32),
    /// What each thing takes, in the order of the places.
    pub taken: Vec<Rect>,
}

impl PlacePlan {
    /// Spreads places, given how far each thing reaches, until all are apart and it `suits`; a thing that is still too near an
    /// earlier one goes to the nearest free place around.
    pub fn of(
        places: &[(i16, i16)],
        reach: impl Fn(&Self) -> Vec<(Xy, Extent)>,
        suits: impl Fn(&Self) -> bool,
    ) -> Self {
        let least = |pick: fn(&(i16, i16)) -> i16| places.iter().map(pick).min().unwrap_or(0);
        let most = |pick: fn(&(i16, i16)) -> i16| places.iter().map(pick).max().unwrap_or(0);
        let range = |pick: fn(&(i16, i16)) -> i16| f32::from(most(pick)) - f32::from(least(pick));
        let widest = range(|it| it.0).max(range(|it| it.1)).max(1.0);
        let origin = (f32::from(least(|it| it.0)), f32::from(least(|it| it.1)));
        let at = |wide: f32| {
            let mut plan = Self { scale: wide / widest, origin, taken: Vec::new() };
            plan.taken = reach(&plan).into_iter().map(|(at, extent)| extent.around(at)).collect();
            plan
        };
        let mut wide = 240.0;
        let mut plan = at(wide);
        while wide < WIDEST && !(all_apart(&plan.taken) && suits(&plan)) {
            wide += 30.0;
            plan = at(wide);
        }
        push_apart(&mut plan.taken);
        plan
    }

    /// A point that the author placed.
    pub fn point(&self, (x, y): (i16, i16)) -> Xy {
        Xy::new((f32::from(x) - self.origin.0) * self.scale, (f32::from(y) - self.origin.1) * self.scale)
    }
}

fn apart(a: &Rect, b: &Rect) -> bool {
    !a.grown(GAP / 2.0).overlaps(&b.grown(GAP / 2.0))
}

fn all_apart(rects: &[Rect]) -> bool {
    rects.iter().enumerate().all(|(index, a)| rects[..index].iter().all(|b| apart(a, b)))
}

/// Moves what is too near an earlier one to the nearest free place around.
fn push_apart(rects: &mut [Rect]) {
    const AROUND: [(f32, f32); 8] =
        [(0.0, 1.0), (1.0, 0.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)];
    for index in 1..rects.len() {
        let free = |it: &Rect| rects[..index].iter().all(|other| apart(it, other));
        let start = rects[index];
        // Far enough out there is always room: everything earlier is somewhere within reach of the first rings.
        let tries = (0_u16..4000).flat_map(|ring| {
            AROUND.iter().map(move |(x, y)| start.moved(x * 24.0 * f32::from(ring), y * 24.0 * f32::from(ring)))
        });
        if let Some(found) = tries.into_iter().find(free) {
            rects[index] = found;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plan(places: &[(i16, i16)], sizes: &[(f32, f32)]) -> PlacePlan {
        let reach = |plan: &PlacePlan| {
            let extent = |(w, h): &(f32, f32)| Extent { left: w / 2.0, right: w / 2.0, up: h / 2.0, down: h / 2.0 };
            places.iter().zip(sizes).map(|(at, size)| (plan.point(*at), extent(size))).collect()
        };
        PlacePlan::of(places, reach, |_| true)
    }

    #[test]
    fn things_never_cover_each_other_wherever_the_author_put_them() {
        let far = [(i16::MIN, i16::MAX), (i16::MAX, i16::MIN), (0, 0), (0, 1), (1, 0)];
        let heap = [(7, 7); 64];
        for places in [&far[..], &heap[..], &[(0, 0)][..]] {
            let sizes: Vec<_> = (0..places.len()).map(|it| (100.0 + it as f32, 90.0)).collect();
            let taken = plan(places, &sizes).taken;
            assert!(all_apart(&taken), "{taken:?}");
        }
    }

    #[test]
    fn what_the_author_put_to_the_left_and_above_stays_there() {
        let taken = plan(&[(0, 40), (40, 10), (40, 60)], &[(120.0, 100.0); 3]).taken;
        assert!(taken[0].right() < taken[1].left);
        assert!(taken[1].bottom() < taken[2].top);
    }
}
