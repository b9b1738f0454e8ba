//! Plain shapes: what a scene is made of, whoever draws it.
//!
//! Data and small geometry. Nothing here knows of wiring, of SVG or of a screen. Units are the scene's own: at one unit
//! a pixel the text is comfortable to read, y grows downwards.

use super::paint::{Fill, Paint};
use crate::{
    exercise::{DeviceId, EndId, LampId, LocationId, SwitchId, TerminalId, UnmarkedId},
    work::Work,
};

/// A point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Xy {
    /// From the left edge.
    pub x: f32,
    /// From the top edge.
    pub y: f32,
}

/// A rectangle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rect {
    /// Left edge.
    pub left: f32,
    /// Top edge.
    pub top: f32,
    /// Width.
    pub width: f32,
    /// Height.
    pub height: f32,
}

/// One step of a path, from where the last one stopped.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Segment {
    /// Straight to a point.
    Line(Xy),
    /// A cubic curve with two controls, to a point.
    Cubic(Xy, Xy, Xy),
}

/// A line of any number of steps, open or closed.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// Where it starts.
    pub start: Xy,
    /// Its steps.
    pub segments: Vec<Segment>,
    /// Whether it goes back to its start.
    pub closed: bool,
}

/// How a line is drawn. Its ends are cut square and its corners are round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stroke {
    /// In what.
    pub paint: Paint,
    /// How much it hides of what lies beneath: from 0, nothing, to 255, everything.
    pub cover: u8,
    /// How wide.
    pub width: f32,
}

/// Which point of a text its place is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Its left end.
    Start,
    /// Its middle.
    Middle,
    /// Its right end.
    End,
}

/// How heavy a text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FontWeight {
    /// Normal.
    Normal,
    /// Bold.
    Bold,
}

/// One line of text.
#[derive(Debug, Clone, PartialEq)]
pub struct Text {
    /// On the base line.
    pub at: Xy,
    /// Which end of it is there.
    pub anchor: Anchor,
    /// Height of the letters' em.
    pub size: f32,
    /// Normal or bold.
    pub weight: FontWeight,
    /// In what.
    pub paint: Paint,
    /// On what: text is legible against this.
    pub on: Paint,
    /// The words.
    pub text: String,
}

/// The outline of a shape.
#[derive(Debug, Clone, PartialEq)]
pub enum Outline {
    /// Lines and curves.
    Path(Path),
    /// A circle.
    Circle {
        /// Its centre.
        centre: Xy,
        /// Its radius.
        radius: f32,
    },
    /// A rectangle with rounded corners.
    Rect {
        /// Its extent.
        rect: Rect,
        /// Of its corners.
        radius: f32,
    },
    /// Text. Its paint is in it; a shape of this outline has neither fill nor stroke.
    Text(Text),
}

/// From back to front.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Layer {
    /// Boxes and walls.
    Ground,
    /// The sheaths of cables.
    Cables,
    /// Plates, bodies of devices, cards of the plan.
    Panels,
    /// Terminals, rockers, levers, lamps.
    Fittings,
    /// Cores, each with a thin outline of the ground's colour beneath it.
    Conductors,
    /// Sleeves, tape, letters and colour codes.
    Marks,
    /// Names.
    Names,
}

/// What an address stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Thing {
    /// A location, its plate or its cover.
    Location(LocationId),
    /// A terminal.
    Terminal(TerminalId),
    /// The end of a conductor.
    End(EndId),
    /// A switch.
    Switch(SwitchId),
    /// A lamp.
    Lamp(LampId),
    /// A protective device.
    Device(DeviceId),
    /// The hasp of a protective device, with a lock on it or none.
    Lock(DeviceId),
    /// A conductor along its whole way, by its number in the work.
    Conductor(usize),
    /// A cable without a mark, where it comes into a place.
    Unmarked(UnmarkedId),
}

/// One shape.
#[derive(Debug, Clone, PartialEq)]
pub struct Shape {
    /// How far to the front.
    pub layer: Layer,
    /// What it is a picture of, if of one thing alone.
    pub about: Option<Thing>,
    /// Its outline.
    pub outline: Outline,
    /// What it is filled with.
    pub fill: Option<Fill>,
    /// How its outline is drawn.
    pub stroke: Option<Stroke>,
}

/// Where a thing can be touched. Spots of one scene never overlap.
#[derive(Debug, Clone, PartialEq)]
pub struct Spot {
    /// What is there.
    pub thing: Thing,
    /// Its address. A location, its only switch and its lamp may share one: `thing` tells them apart.
    pub address: String,
    /// At least 24 units on a side (the smallest target of WCAG 2.2, 2.5.8).
    pub rect: Rect,
}

/// A drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// Width.
    pub width: f32,
    /// Height.
    pub height: f32,
    /// From back to front.
    pub shapes: Vec<Shape>,
    /// One for every thing that is in sight.
    pub spots: Vec<Spot>,
}

impl Xy {
    /// A point.
    pub const fn new(x: f32, y: f32) -> Self {
        Self { x, y }
    }
}

impl Rect {
    /// A rectangle.
    pub const fn new(left: f32, top: f32, width: f32, height: f32) -> Self {
        Self { left, top, width, height }
    }

    /// Its right edge.
    pub fn right(&self) -> f32 {
        self.left + self.width
    }

    /// Its bottom edge.
    pub fn bottom(&self) -> f32 {
        self.top + self.height
    }

    /// Its centre.
    pub fn centre(&self) -> Xy {
        Xy::new(self.left + self.width / 2.0, self.top + self.height / 2.0)
    }

    /// Larger by so much on every side.
    #[must_use]
    pub fn grown(&self, by: f32) -> Self {
        Self::new(self.left - by, self.top - by, self.width + 2.0 * by, self.height + 2.0 * by)
    }

    /// Moved.
    #[must_use]
    pub fn moved(&self, dx: f32, dy: f32) -> Self {
        Self::new(self.left + dx, self.top + dy, self.width, self.height)
    }

    /// The point in it that is nearest to another.
    pub(super) fn nearest(&self, to: Xy) -> Xy {
        Xy::new(to.x.clamp(self.left, self.right()), to.y.clamp(self.top, self.bottom()))
    }

    /// Whether two rectangles share any area; touching is not sharing.
    pub fn overlaps(&self, other: &Self) -> bool {
        let slip = 0.01;
        self.left + slip < other.right()
            && other.left + slip < self.right()
            && self.top + slip < other.bottom()
            && other.top + slip < self.bottom()
    }

    /// Whether a point is in it or on its edge.
    pub fn contains(&self, point: Xy) -> bool {
        (self.left..=self.right()).contains(&point.x) && (self.top..=self.bottom()).contains(&point.y)
    }
}

impl Outline {
    /// Points close together around or along it; no point for a text.
    pub fn flattened(&self) -> Vec<Xy> {
        const PIECES: u8 = 48;
        let arc = |centre: Xy, radius: f32, pieces: std::ops::RangeInclusive<u8>| {
            pieces.map(move |it| {
                let (sin, cos) = (f32::from(it) * std::f32::consts::TAU / f32::from(PIECES)).sin_cos();
                Xy::new(centre.x + radius * cos, centre.y + radius * sin)
            })
        };
        match self {
            Self::Path(it) => it.flattened(),
            Self::Circle { centre, radius } => arc(*centre, *radius, 0..=PIECES - 1).collect(),
            Self::Rect { rect, radius } => {
                let radius = radius.min(rect.width / 2.0).min(rect.height / 2.0);
                let (left, right) = (rect.left + radius, rect.right() - radius);
                let (top, bottom) = (rect.top + radius, rect.bottom() - radius);
                let quarter = PIECES / 4;
                let corners = [(right, bottom), (left, bottom), (left, top), (right, top)];
                let arcs = corners
                    .into_iter()
                    .zip(0..4)
                    .flat_map(|((x, y), turn)| arc(Xy::new(x, y), radius, turn * quarter..=(turn + 1) * quarter));
                arcs.collect()
            }
            Self::Text(_) => Vec::new(),
        }
    }
}

impl Path {
    /// A path that has not gone anywhere yet.
    pub const fn from(start: Xy) -> Self {
        Self { start, segments: Vec::new(), closed: false }
    }

    /// Straight through the points.
    pub fn through(points: &[Xy]) -> Self {
        let start = points.first().copied().unwrap_or(Xy::new(0.0, 0.0));
        Self { start, segments: points.iter().skip(1).copied().map(Segment::Line).collect(), closed: false }
    }

    /// The same, back to its start.
    #[must_use]
    pub fn closed(mut self) -> Self {
        self.closed = true;
        self
    }

    /// Straight on to a point.
    #[must_use]
    pub fn line(mut self, to: Xy) -> Self {
        self.segments.push(Segment::Line(to));
        self
    }

    /// On in a curve.
    #[must_use]
    pub fn cubic(mut self, first: Xy, second: Xy, to: Xy) -> Self {
        self.segments.push(Segment::Cubic(first, second, to));
        self
    }

    /// Where it stops.
    pub fn end(&self) -> Xy {
        match self.segments.last() {
            None => self.start,
            Some(Segment::Line(to) | Segment::Cubic(_, _, to)) => *to,
        }
    }

    /// Points close together along it, curves included.
    pub fn flattened(&self) -> Vec<Xy> {
        const PIECES: u8 = 24;
        let mut points = vec![self.start];
        let mut from = self.start;
        for segment in &self.segments {
            match *segment {
                Segment::Line(to) => {
                    points.push(to);
                    from = to;
                }
                Segment::Cubic(a, b, to) => {
                    points.extend((1..=PIECES).map(|it| on_cubic([from, a, b, to], f32::from(it) / f32::from(PIECES))));
                    from = to;
                }
            }
        }
        if self.closed {
            points.push(self.start);
        }
        points
    }

    /// Points along it that are no more than a few units apart.
    pub(super) fn close_together(&self) -> Vec<Xy> {
        let mut points = Vec::new();
        for it in self.flattened().windows(2) {
            let (dx, dy) = (it[1].x - it[0].x, it[1].y - it[0].y);
            let count = whole(dx.abs().max(dy.abs()) / 4.0).max(1);
            points.extend((0..count).map(|step| {
                let t = step as f32 / count as f32;
                Xy::new(it[0].x + dx * t, it[0].y + dy * t)
            }));
        }
        points
    }

    /// The same way so far to its right, as one goes along it; to its left where `by` is negative.
    pub(super) fn beside(&self, by: f32) -> Self {
        let points = self.flattened();
        let aside = |at: usize| {
            let (before, after) = (points[at.saturating_sub(1)], points[(at + 1).min(points.len() - 1)]);
            let (dx, dy) = (after.x - before.x, after.y - before.y);
            let length = (dx * dx + dy * dy).sqrt().max(f32::EPSILON);
            Xy::new(points[at].x - dy / length * by, points[at].y + dx / length * by)
        };
        Self::through(&(0..points.len()).map(aside).collect::<Vec<_>>())
    }

    pub(super) fn moved(&self, dx: f32, dy: f32) -> Self {
        let to = |it: Xy| Xy::new(it.x + dx, it.y + dy);
        Self {
            start: to(self.start),
            segments: self
                .segments
                .iter()
                .map(|it| match *it {
                    Segment::Line(end) => Segment::Line(to(end)),
                    Segment::Cubic(a, b, end) => Segment::Cubic(to(a), to(b), to(end)),
                })
                .collect(),
            closed: self.closed,
        }
    }
}

/// The least whole number not below a length, and 0 below that.
#[allow(clippy::cast_sign_loss, reason = "made positive first")]
pub(super) fn whole(length: f32) -> usize {
    length.max(0.0).ceil() as usize
}

/// The point of a cubic at `t` from 0 to 1.
pub(super) fn on_cubic([from, a, b, to]: [Xy; 4], t: f32) -> Xy {
    let u = 1.0 - t;
    let mix =
        |p: f32, q: f32, r: f32, s: f32| u * u * u * p + 3.0 * u * u * t * q + 3.0 * u * t * t * r + t * t * t * s;
    Xy::new(mix(from.x, a.x, b.x, to.x), mix(from.y, a.y, b.y, to.y))
}

impl Thing {
    /// Its address in files and reports.
    pub fn address(self, work: &Work) -> String {
        let exercise = work.exercise();
        match self {
            Self::Location(it) => exercise.locations.get(it).map(|it| it.id.clone()).unwrap_or_default(),
            Self::Terminal(it) => exercise.terminals.get(it).map(|it| it.address.clone()).unwrap_or_default(),
            Self::End(it) => work.end_address(it),
            Self::Switch(it) => exercise.switches.get(it).map(|it| it.address.clone()).unwrap_or_default(),
            Self::Lamp(it) => exercise.lamps.get(it).map(|it| it.address.clone()).unwrap_or_default(),
            Self::Device(it) | Self::Lock(it) => {
                exercise.devices.get(it).map(|it| it.address.clone()).unwrap_or_default()
            }
            Self::Conductor(it) => work.conductor_address(it),
            Self::Unmarked(it) => exercise.unmarked_address(it),
        }
    }
}

impl Scene {
    /// The spot of a thing, if it is in sight.
    pub fn spot(&self, thing: Thing) -> Option<&Spot> {
        self.spots.iter().find(|it| it.thing == thing)
    }
}

impl Shape {
    pub(super) fn moved(mut self, dx: f32, dy: f32) -> Self {
        self.fill = self.fill.map(|it| it.moved(dx, dy));
        self.outline = match self.outline {
            Outline::Path(it) => Outline::Path(it.moved(dx, dy)),
            Outline::Circle { centre, radius } => {
                Outline::Circle { centre: Xy::new(centre.x + dx, centre.y + dy), radius }
            }
            Outline::Rect { rect, radius } => Outline::Rect { rect: rect.moved(dx, dy), radius },
            Outline::Text(it) => Outline::Text(Text { at: Xy::new(it.at.x + dx, it.at.y + dy), ..it }),
        };
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rectangles_that_touch_do_not_overlap_and_those_that_share_area_do() {
        let here = Rect::new(0.0, 0.0, 10.0, 10.0);
        assert!(!here.overlaps(&Rect::new(10.0, 0.0, 10.0, 10.0)));
        assert!(!here.overlaps(&Rect::new(0.0, 10.0, 10.0, 10.0)));
        assert!(here.overlaps(&Rect::new(9.0, 9.0, 10.0, 10.0)));
        assert!(here.overlaps(&Rect::new(2.0, 2.0, 2.0, 2.0)));
    }

    #[test]
    fn a_rounded_rectangle_reaches_its_sides_and_leaves_its_corners_out() {
        let outline = Outline::Rect { rect: Rect::new(10.0, 20.0, 100.0, 50.0), radius: 8.0 };
        let points = outline.flattened();
        let edge = |pick: fn(&Xy) -> f32, better: fn(f32, f32) -> f32| points.iter().map(pick).reduce(better).unwrap();
        let found = [
            edge(|it| it.x, f32::min),
            edge(|it| it.y, f32::min),
            edge(|it| it.x, f32::max),
            edge(|it| it.y, f32::max),
        ];
        assert_eq!(found.map(|it| it.round() as i32), [10, 20, 110, 70]);
        assert!(points.iter().all(|it| (it.x - 10.0).abs() > 0.5 || (it.y - 20.0).abs() > 0.5));
    }

    #[test]
    fn a_path_beside_another_keeps_its_distance_round_a_corner() {
        let p = Xy::new;
        let path = Path::from(p(0.0, 0.0))
            .line(p(50.0, 0.0))
            .cubic(p(57.0, 0.0), p(63.0, 6.0), p(63.0, 13.0))
            .line(p(63.0, 60.0));
        // To the right of who goes right is below, and of who goes down is left.
        let beside = path.beside(5.0);
        assert_eq!((beside.start, beside.end()), (p(0.0, 5.0), p(58.0, 60.0)));
        for it in beside.flattened() {
            let apart = |other: &Xy| ((it.x - other.x).powi(2) + (it.y - other.y).powi(2)).sqrt();
            let nearest = path.close_together().iter().map(apart).fold(f32::INFINITY, f32::min);
            assert!((3.5..6.5).contains(&nearest), "{it:?}: {nearest}");
        }
    }

    #[test]
    fn a_cubic_starts_and_stops_at_its_ends_and_is_halfway_in_the_middle() {
        let p = Xy::new;
        let curve = [p(0.0, 0.0), p(0.0, 10.0), p(20.0, 0.0), p(20.0, 10.0)];
        assert_eq!(on_cubic(curve, 0.0), curve[0]);
        assert_eq!(on_cubic(curve, 1.0), curve[3]);
        assert_eq!(on_cubic(curve, 0.5), p(10.0, 5.0));
    }
}
