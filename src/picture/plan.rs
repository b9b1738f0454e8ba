//! Where the cards of a plan go: as the author placed them, spread until none covers another.
//!
//! Geometry only.

use super::shape::{Rect, Xy};

/// Clear space between two cards, for cables and their names.
const GAP: f32 = 52.0;
/// How far the author's coordinates may be spread, units.
const WIDEST: f32 = 1500.0;

/// A rectangle for each card, given its place on the author's plan and its size. The least is at the origin.
pub(super) fn cards(places: &[(i16, i16)], sizes: &[(f32, f32)]) -> Vec<Rect> {
    let least = |pick: fn(&(i16, i16)) -> i16| places.iter().map(pick).min().unwrap_or(0);
    let most = |pick: fn(&(i16, i16)) -> i16| places.iter().map(pick).max().unwrap_or(0);
    let range = |pick: fn(&(i16, i16)) -> i16| f32::from(most(pick)) - f32::from(least(pick));
    let spread = range(|it| it.0).max(range(|it| it.1)).max(1.0);
    let at = |scale: f32| -> Vec<Rect> {
        let centre = |(x, y): (i16, i16)| {
            let from = (f32::from(least(|it| it.0)), f32::from(least(|it| it.1)));
            Xy::new((f32::from(x) - from.0) * scale, (f32::from(y) - from.1) * scale)
        };
        places
            .iter()
            .zip(sizes)
            .map(|(place, (w, h))| {
                let it = centre(*place);
                Rect::new(it.x - w / 2.0, it.y - h / 2.0, *w, *h)
            })
            .collect()
    };
    let mut reach = 240.0;
    let mut rects = at(reach / spread);
    while reach < WIDEST && !all_apart(&rects) {
        reach += 30.0;
        rects = at(reach / spread);
    }
    push_apart(&mut rects);
    let (left, top) =
        rects.iter().fold((f32::INFINITY, f32::INFINITY), |acc, it| (acc.0.min(it.left), acc.1.min(it.top)));
    rects.into_iter().map(|it| it.moved(-left, -top)).collect()
}

fn apart(a: &Rect, b: &Rect) -> bool {
    !a.grown(GAP / 2.0).overlaps(&b.grown(GAP / 2.0))
}

fn all_apart(rects: &[Rect]) -> bool {
    rects.iter().enumerate().all(|(index, a)| rects[..index].iter().all(|b| apart(a, b)))
}

/// Moves a card that is too near an earlier one to the nearest free place around.
fn push_apart(rects: &mut [Rect]) {
    const AROUND: [(f32, f32); 8] =
        [(0.0, 1.0), (1.0, 0.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)];
    for index in 1..rects.len() {
        let free = |it: &Rect| rects[..index].iter().all(|other| apart(it, other));
        let start = rects[index];
        // Far enough out there is always room: every earlier card is somewhere within reach of the first rings.
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

    #[test]
    fn cards_never_cover_each_other_wherever_the_author_put_them() {
        let far = [(i16::MIN, i16::MAX), (i16::MAX, i16::MIN), (0, 0), (0, 1), (1, 0)];
        let heap = [(7, 7); 64];
        for places in [&far[..], &heap[..], &[(0, 0)][..]] {
            let sizes: Vec<_> = (0..places.len()).map(|it| (100.0 + it as f32, 90.0)).collect();
            let rects = cards(places, &sizes);
            assert!(all_apart(&rects), "{rects:?}");
            assert!(rects.iter().all(|it| it.left >= 0.0 && it.top >= 0.0));
        }
    }

    #[test]
    fn what_the_author_put_to_the_left_and_above_stays_there() {
        let rects = cards(&[(0, 40), (40, 10), (40, 60)], &[(120.0, 100.0); 3]);
        assert!(rects[0].right() < rects[1].left);
        assert!(rects[1].bottom() < rects[2].top);
    }
}
