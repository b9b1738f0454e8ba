//! Which way cables go between the things of a plan: straight up, down or level, with round corners, as they may in a wall.
//!
//! A cable keeps clear of what it does not go to and of cables that lie already, as far as there is a way: one that passes
//! behind a rose looks as if it were joined there. Of all ways that are tried the cheapest is taken, the same every time.

use super::shape::{Path, Rect, Xy};

/// A thing that cables go to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stop {
    /// Its body, whose sides cables leave from.
    pub body: Rect,
    /// The body with the name beneath or beside it.
    pub taken: Rect,
    /// What it costs to leave from each side, in units of length: top, bottom, left, right.
    pub sides: [f32; 4],
    /// A cable from its top runs level below this, if it can: the void above a ceiling.
    pub void: Option<f32>,
}

/// Between two cables side by side.
const APART: f32 = 15.0;
const CORNER: f32 = 13.0;
/// From the corner of a body to a cable.
const EDGE: f32 = 8.0;
/// How far a cable goes on straight before it turns.
const STUB: f32 = 18.0;
/// What a unit of length behind something else costs.
const BEHIND: f32 = 40.0;
const BEND: f32 = 24.0;
const CROSSING: f32 = 60.0;
const BESIDE_ANOTHER: f32 = 12.0;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum BodySide {
    Top,
    Bottom,
    Left,
    Right,
}

impl BodySide {
    const ALL: [Self; 4] = [Self::Top, Self::Bottom, Self::Left, Self::Right];

    fn is_upright(self) -> bool {
        matches!(self, Self::Top | Self::Bottom)
    }

    fn point(self, body: &Rect, along: f32) -> Xy {
        let middle = body.centre();
        match self {
            Self::Top => Xy::new(middle.x + along, body.top),
            Self::Bottom => Xy::new(middle.x + along, body.bottom()),
            Self::Left => Xy::new(body.left, middle.y + along),
            Self::Right => Xy::new(body.right(), middle.y + along),
        }
    }

    /// Whether a point lies on this side's outside, at least a stub away.
    fn faces(self, from: Xy, to: Xy) -> bool {
        match self {
            Self::Top => to.y <= from.y - STUB,
            Self::Bottom => to.y >= from.y + STUB,
            Self::Left => to.x <= from.x - STUB,
            Self::Right => to.x >= from.x + STUB,
        }
    }
}

/// More cables than this are many.
const MANY: usize = 24;

/// A straight piece of a cable that lies already.
#[derive(Debug, Clone, Copy)]
struct Piece(Xy, Xy);

/// A path for each pair of stops, laid one after the other.
pub(super) fn routes(stops: &[Stop], pairs: &[[usize; 2]]) -> Vec<Path> {
    let mut laid: Vec<Piece> = Vec::new();
    // The shortest first: it has the least choice.
    let mut order: Vec<usize> = (0..pairs.len()).collect();
    let apart = |it: usize| {
        let [a, b] = pairs[it].map(|it| stops[it].body.centre());
        (a.x - b.x).abs() + (a.y - b.y).abs()
    };
    order.sort_by(|a, b| apart(*a).total_cmp(&apart(*b)).then(a.cmp(b)));
    let mut paths = vec![Path::from(Xy::new(0.0, 0.0)); pairs.len()];
    // Among many cables nobody follows a single one: fewer ways are tried, so that the drawing is quick.
    let spread: &[f32] = if pairs.len() > MANY { &[0.0, 1.0, -1.0] } else { &[0.0, 1.0, -1.0, 2.0, -2.0] };
    for cable in order {
        let pair = pairs[cable];
        let mut best: Option<(f32, Vec<Xy>)> = None;
        for from in BodySide::ALL {
            for to in BodySide::ALL {
                for (a, b) in spread.iter().flat_map(|a| spread.iter().map(move |b| (*a, *b))) {
                    let [start, end] = [(0, from, a), (1, to, b)].map(|(which, side, along)| {
                        let body = &stops[pair[which]].body;
                        let length = if side.is_upright() { body.width } else { body.height };
                        // The outermost place, two steps out, is a third of the side from its middle.
                        side.point(body, along * APART.min(length / 6.0))
                    });
                    // Off the middle only for a reason.
                    let aside = (a.abs() + b.abs()) * 2.0;
                    let own = stops[pair[0]].sides[from as usize] + stops[pair[1]].sides[to as usize] + aside;
                    // No way between these sides is shorter than this. A straight one may lie anywhere in the stretch that the bodies share.
                    let (dx, dy) = ((start.x - end.x).abs(), (start.y - end.y).abs());
                    let shortest = match (from.is_upright(), to.is_upright()) {
                        (true, true) => dy,
                        (false, false) => dx,
                        _ => dx + dy,
                    };
                    let least = own + shortest;
                    if best.as_ref().is_some_and(|it| it.0 <= least) {
                        continue;
                    }
                    for points in ways((from, start), (to, end), pair.map(|it| &stops[it])) {
                        let most = best.as_ref().map_or(f32::INFINITY, |it| it.0);
                        if let Some(found) = cost(&points, own, most, pair, stops, &laid) {
                            best = Some((found, points));
                        }
                    }
                }
            }
        }
        // Where no way is left, straight from middle to middle.
        let points = best.map_or_else(|| pair.map(|it| stops[it].body.centre()).to_vec(), |it| it.1);
        laid.extend(points.windows(2).map(|it| Piece(it[0], it[1])));
        paths[cable] = rounded(&points);
    }
    paths
}

/// Every way of at most three pieces that leaves both sides outwards.
fn ways((from, start): (BodySide, Xy), (to, end): (BodySide, Xy), stops: [&Stop; 2]) -> Vec<Vec<Xy>> {
    let mut ways = Vec::new();
    let mut keep = |points: &[Xy]| {
        let leaves = from.faces(start, points[1]) && to.faces(end, points[points.len() - 2]);
        if leaves {
            ways.push(points.to_vec());
        }
    };
    let p = Xy::new;
    match (from.is_upright(), to.is_upright()) {
        (true, true) => {
            for x in shared(stops, |it| [it.left, it.right()]) {
                keep(&[p(x, start.y), p(x, end.y)]);
            }
            let void = stops.into_iter().filter_map(|it| it.void).reduce(f32::min);
            let highest = void.unwrap_or(start.y.min(end.y)) - if void.is_some() { 9.0 } else { STUB + 8.0 };
            let lowest = start.y.max(end.y) + STUB + 8.0;
            let between = f32::midpoint(start.y, end.y);
            for lane in 0..6_u8 {
                let step = f32::from(lane) * APART;
                for y in [highest - step, lowest + step, between + step, between - step] {
                    keep(&[start, p(start.x, y), p(end.x, y), end]);
                }
            }
        }
        (false, false) => {
            for y in shared(stops, |it| [it.top, it.bottom()]) {
                keep(&[p(start.x, y), p(end.x, y)]);
            }
            let between = f32::midpoint(start.x, end.x);
            let (left, right) = (start.x.min(end.x) - STUB - 8.0, start.x.max(end.x) + STUB + 8.0);
            for lane in 0..4_u8 {
                let step = f32::from(lane) * APART;
                for x in [between + step, between - step, left - step, right + step] {
                    keep(&[start, p(x, start.y), p(x, end.y), end]);
                }
            }
        }
        (true, false) => keep(&[start, p(start.x, end.y), end]),
        (false, true) => keep(&[start, p(end.x, start.y), end]),
    }
    ways
}

/// Where a straight cable may lie in the stretch that both bodies have, if they face each other: its middle, else near its ends.
fn shared(stops: [&Stop; 2], stretch: fn(&Rect) -> [f32; 2]) -> Vec<f32> {
    let [[a, b], [c, d]] = stops.map(|it| stretch(&it.body));
    let (from, to) = (a.max(c) + EDGE, b.min(d) - EDGE);
    if from <= to { vec![f32::midpoint(from, to), from, to] } else { Vec::new() }
}

/// What a way costs, if it is less than `most`.
fn cost(points: &[Xy], own: f32, most: f32, pair: [usize; 2], stops: &[Stop], laid: &[Piece]) -> Option<f32> {
    let mut cost = own + BEND * points.len().saturating_sub(2) as f32;
    for it in points.windows(2) {
        let piece = Piece(it[0], it[1]);
        let length = piece.length();
        cost += length;
        if cost >= most {
            return None;
        }
        for (index, stop) in stops.iter().enumerate() {
            let area = if pair.contains(&index) { stop.taken.grown(-1.0) } else { stop.taken.grown(9.0) };
            cost += BEHIND * piece.within(&area);
        }
        for other in laid {
            cost += piece.beside(*other) * BESIDE_ANOTHER;
            if piece.crosses(*other) {
                cost += CROSSING;
            }
        }
    }
    (cost < most).then_some(cost)
}

impl Piece {
    fn is_level(self) -> bool {
        (self.0.y - self.1.y).abs() < 0.5
    }

    fn length(self) -> f32 {
        (self.0.x - self.1.x).abs() + (self.0.y - self.1.y).abs()
    }

    fn around(self) -> Rect {
        let (left, top) = (self.0.x.min(self.1.x), self.0.y.min(self.1.y));
        Rect::new(left, top, (self.0.x - self.1.x).abs(), (self.0.y - self.1.y).abs())
    }

    /// How much of it lies in an area.
    fn within(self, area: &Rect) -> f32 {
        let here = self.around();
        let wide = here.right().min(area.right()) - here.left.max(area.left);
        let high = here.bottom().min(area.bottom()) - here.top.max(area.top);
        if wide < 0.0 || high < 0.0 { 0.0 } else { wide.max(high) }
    }

    /// For how long it runs too near another in the same direction.
    fn beside(self, other: Self) -> f32 {
        if self.is_level() != other.is_level() {
            return 0.0;
        }
        let near = if self.is_level() { self.0.y - other.0.y } else { self.0.x - other.0.x };
        if near.abs() < APART - 2.0 { self.within(&other.around().grown(APART)).max(0.0) } else { 0.0 }
    }

    fn crosses(self, other: Self) -> bool {
        self.is_level() != other.is_level() && self.within(&other.around()) > -0.5 && {
            let (a, b) = (self.around(), other.around());
            a.left <= b.right() && b.left <= a.right() && a.top <= b.bottom() && b.top <= a.bottom()
        }
    }
}

/// Through the points with round corners.
fn rounded(points: &[Xy]) -> Path {
    let Some((first, rest)) = points.split_first() else { return Path::from(Xy::new(0.0, 0.0)) };
    let mut path = Path::from(*first);
    let mut from = *first;
    for pair in rest.windows(2) {
        let [corner, next] = [pair[0], pair[1]];
        let (before, after) = (Piece(from, corner).length(), Piece(corner, next).length());
        let radius = CORNER.min(before / 2.0).min(after / 2.0);
        let towards = |to: Xy, by: f32, length: f32| {
            let part = if length > 0.0 { by / length } else { 0.0 };
            Xy::new(corner.x + (to.x - corner.x) * part, corner.y + (to.y - corner.y) * part)
        };
        // A quarter of a circle as a cubic: its handles reach 0.55 of the radius.
        path = path.line(towards(from, radius, before)).cubic(
            towards(from, radius * 0.45, before),
            towards(next, radius * 0.45, after),
            towards(next, radius, after),
        );
        from = corner;
    }
    path.line(rest.last().copied().unwrap_or(*first))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stop(body: Rect, sides: [f32; 4]) -> Stop {
        Stop { body, taken: body, sides, void: None }
    }

    #[test]
    fn two_that_face_each_other_are_joined_straight_and_no_way_lies_behind_a_third() {
        let beside = [0.0, 400.0, 50.0, 50.0];
        let (one, other) = (Rect::new(0.0, 100.0, 220.0, 200.0), Rect::new(600.0, 170.0, 150.0, 72.0));
        let stops = [stop(one, beside), stop(other, beside)];
        let path = routes(&stops, &[[0, 1]]).remove(0);
        assert_eq!(path.flattened().len(), 2, "{path:?}");
        let between = Rect::new(300.0, 150.0, 100.0, 120.0);
        let stops = [stop(one, beside), stop(other, beside), stop(between, beside)];
        let path = routes(&stops, &[[0, 1]]).remove(0);
        assert!(!path.flattened().iter().any(|it| between.contains(*it)), "{path:?}");
        assert!(path.flattened().len() > 2);
    }

    #[test]
    fn cables_in_the_same_direction_lie_apart() {
        let beside = [0.0, 400.0, 900.0, 900.0];
        let stops = [0.0, 500.0, 1000.0].map(|x| stop(Rect::new(x, 200.0, 150.0, 72.0), beside));
        let paths = routes(&stops, &[[0, 1], [0, 2], [1, 2]]);
        let level: Vec<Vec<f32>> = paths
            .iter()
            .map(|it| {
                it.flattened().windows(2).filter(|it| (it[0].x - it[1].x).abs() > 60.0).map(|it| it[0].y).collect()
            })
            .collect();
        for y in &level[1] {
            assert!(level[0].iter().chain(&level[2]).all(|it| (it - y).abs() > 10.0), "{level:?}");
        }
    }
}
