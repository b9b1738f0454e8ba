//! Which way cables go between the cards of a plan, and where their names stand.
//!
//! A cable keeps clear of cards that it does not go to, as far as there is a way round: one that passes behind a rose
//! looks as if it were joined there.

use super::{
    canvas::{Canvas, Type},
    shape::{Anchor, Layer, Paint, Path, Rect, Xy, whole},
    text::wrapped,
};
use crate::{exercise::LocationId, work::Work};

const NAME: Type = Type::quiet(14.0, Paint::Paper);

/// A side of a card.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum CardSide {
    Top,
    Bottom,
    Left,
    Right,
}

impl CardSide {
    const ALL: [Self; 4] = [Self::Top, Self::Bottom, Self::Left, Self::Right];

    const fn outwards(self) -> (f32, f32) {
        match self {
            Self::Top => (0.0, -1.0),
            Self::Bottom => (0.0, 1.0),
            Self::Left => (-1.0, 0.0),
            Self::Right => (1.0, 0.0),
        }
    }

    const fn is_level(self) -> bool {
        matches!(self, Self::Top | Self::Bottom)
    }

    /// The point of the side so far from its middle.
    fn point(self, card: &Rect, along: f32) -> Xy {
        let (x, y) = self.outwards();
        let middle = card.centre();
        let (dx, dy) = if self.is_level() { (along, 0.0) } else { (0.0, along) };
        Xy::new(middle.x + x * card.width / 2.0 + dx, middle.y + y * card.height / 2.0 + dy)
    }
}

/// The side that a cable leaves each of its cards from, and how far it goes on straight.
#[derive(Debug, Clone, Copy)]
struct Departure {
    sides: [CardSide; 2],
    pull: f32,
}

/// What runs between two cards: every cable, then every run that has none yet. Its name, and the two.
fn between(work: &Work) -> Vec<(&str, [LocationId; 2])> {
    let exercise = work.exercise();
    let cables = exercise.cables.iter().map(|it| (it.name.as_str(), it.between));
    let runs = exercise.runs.iter().filter(|it| it.cable.is_none()).map(|it| (it.name.as_str(), it.between));
    cables.chain(runs).collect()
}

/// A path for each of these, from card to card. Cables at one side of a card stand side by side.
pub(super) fn routes(work: &Work, cards: &[Rect]) -> Vec<Path> {
    let pairs: Vec<[usize; 2]> = between(work).iter().map(|it| it.1.map(LocationId::index)).collect();
    let ways: Vec<Departure> = pairs.iter().map(|it| best_way(*it, cards)).collect();
    let along = |cable: usize, end: usize| {
        let (card, side) = (pairs[cable][end], ways[cable].sides[end]);
        let mut beside: Vec<(f32, usize)> = Vec::new();
        for (other, (pair, way)) in pairs.iter().zip(&ways).enumerate() {
            for its_end in 0..2 {
                if pair[its_end] == card && way.sides[its_end] == side {
                    let there = cards[pair[1 - its_end]].centre();
                    beside.push((if side.is_level() { there.x } else { there.y }, other));
                }
            }
        }
        beside.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let place = beside.iter().position(|it| it.1 == cable).unwrap_or(0) as f32;
        let length = if side.is_level() { cards[card].width } else { cards[card].height };
        let step = (length / (beside.len() as f32 + 1.0)).min(34.0);
        (place - (beside.len() as f32 - 1.0) / 2.0) * step
    };
    (0..pairs.len()).map(|cable| path(pairs[cable], ways[cable], [along(cable, 0), along(cable, 1)], cards)).collect()
}

fn path(pair: [usize; 2], way: Departure, along: [f32; 2], cards: &[Rect]) -> Path {
    let [from, to] = [0, 1].map(|it| way.sides[it].point(&cards[pair[it]], along[it]));
    let pull = ((to.x - from.x).abs().max((to.y - from.y).abs()) * way.pull).max(20.0);
    let [out, back] = way.sides.map(CardSide::outwards);
    Path::from(from).cubic(
        Xy::new(from.x + out.0 * pull, from.y + out.1 * pull),
        Xy::new(to.x + back.0 * pull, to.y + back.1 * pull),
        to,
    )
}

/// The shortest way that passes behind the fewest cards.
fn best_way(pair: [usize; 2], cards: &[Rect]) -> Departure {
    let mut best = (f32::INFINITY, Departure { sides: [CardSide::Right, CardSide::Left], pull: 0.45 });
    for from in CardSide::ALL {
        for to in CardSide::ALL {
            for pull in [0.45, 0.3, 0.7, 1.0] {
                let way = Departure { sides: [from, to], pull };
                let cost = cost(&path(pair, way, [0.0, 0.0], cards).flattened(), pair, cards);
                if cost < best.0 {
                    best = (cost, way);
                }
            }
        }
    }
    best.1
}

fn cost(points: &[Xy], pair: [usize; 2], cards: &[Rect]) -> f32 {
    const BEHIND_A_CARD: f32 = 500.0;
    let mut cost = 0.0;
    for it in points.windows(2) {
        let (dx, dy) = (it[1].x - it[0].x, it[1].y - it[0].y);
        cost += (dx * dx + dy * dy).sqrt();
        let hidden = cards.iter().enumerate().any(|(card, rect)| {
            // A cable may touch the edges of its own two cards, where it ends; it clears all others by a margin.
            let area = if pair.contains(&card) { rect.grown(-2.0) } else { rect.grown(16.0) };
            area.contains(it[1])
        });
        if hidden {
            cost += BEHIND_A_CARD;
        }
    }
    cost
}

/// Writes each cable's name beside it. A name that finds no room is left out: the closer view has it.
pub(super) fn name_cables(canvas: &mut Canvas, work: &Work, cards: &[Rect], routes: &[Path]) -> Vec<Rect> {
    let lines: Vec<Vec<Xy>> = routes.iter().map(close_together).collect();
    let mut taken: Vec<Rect> = Vec::new();
    for (index, (name, _)) in between(work).into_iter().enumerate() {
        let words = wrapped(name, NAME.size, NAME.weight, 150.0, 1);
        let Some(text) = words.first() else { continue };
        let (w, h) = (NAME.width(text) + 8.0, 22.0);
        let on = &lines[index];
        // From the middle outwards: half-way along, a name is least taken for that of a card.
        let points = [50, 40, 60, 30, 70, 20, 80].into_iter().filter_map(|it| on.get(on.len() * it / 100));
        let spots = points.flat_map(|it| {
            let (across, up) = (w / 2.0 + 11.0, h / 2.0 + 10.0);
            [
                (across, 0.0),
                (-across, 0.0),
                (0.0, -up),
                (0.0, up),
                (across, up),
                (-across, -up),
                (across, -up),
                (-across, up),
            ]
            .map(|(dx, dy)| Rect::new(it.x + dx - w / 2.0, it.y + dy - h / 2.0, w, h))
        });
        let free = |it: &Rect| {
            !cards.iter().chain(&taken).any(|other| other.grown(4.0).overlaps(it)) && it.left > 6.0 && it.top > 6.0
        };
        let clear = |it: &Rect| !lines.iter().flatten().any(|point| it.grown(4.0).contains(*point));
        let Some(spot) = spots.into_iter().find(|it| free(it) && clear(it)) else { continue };
        taken.push(spot);
        let at = Xy::new(spot.left + w / 2.0, spot.top + 16.0);
        canvas.text(Layer::Names, None, at, Anchor::Middle, NAME, text);
    }
    taken
}

/// Points of a path no more than a few units apart.
fn close_together(path: &Path) -> Vec<Xy> {
    let mut points = Vec::new();
    for it in path.flattened().windows(2) {
        let (dx, dy) = (it[1].x - it[0].x, it[1].y - it[0].y);
        let count = whole(dx.abs().max(dy.abs()) / 4.0).max(1);
        points.extend((0..count).map(|step| {
            let t = step as f32 / count as f32;
            Xy::new(it[0].x + dx * t, it[0].y + dy * t)
        }));
    }
    points
}
