//! A house cut open: rooms side by side and above one another, with what their walls, floors and ceilings are made of.
//!
//! It draws what is behind the wiring, and says where a ceiling is. Nothing here is known of wiring.

use super::{
    canvas::{Canvas, Type, both, downwards, fill, line, thin, veil},
    paint::{Fill, Paint},
    plan::PlacePlan,
    shape::{Anchor, Layer, Outline, Path, Rect, Xy},
    text::wrapped,
};
use crate::exercise::{Room, RoomKind};

const LAYER: Layer = Layer::Ground;
/// From the top of a room to its ceiling: joists, and cables between them.
const VOID: f32 = 44.0;
/// Thickness of what the section cuts.
const WALL: f32 = 9.0;
/// Sky around the house, and ground beneath it.
const SKY: f32 = 18.0;
const GROUND: f32 = 22.0;
/// A roof over an empty loft is no higher than this.
const ROOF: f32 = 92.0;
/// How much of a room's height a door takes.
const DOOR: f32 = 0.8;
const NAME: f32 = 14.0;
/// Width of one board of a store's lining.
const LINING: f32 = 27.0;
/// How far down the shade beneath a ceiling reaches.
const SHADE: f32 = 26.0;

/// The rooms where the plan has them.
pub(super) struct House<'a> {
    rooms: Vec<(&'a Room, Rect)>,
    evening: bool,
}

impl<'a> House<'a> {
    pub fn of(rooms: &'a [Room], plan: &PlacePlan, evening: bool) -> Self {
        let rect = |it: &Room| {
            let (from, to) = (plan.point(it.from), plan.point(it.to));
            Rect::new(from.x, from.y, to.x - from.x, to.y - from.y)
        };
        let rect = |it: &Room| {
            let rect = rect(it);
            // Nothing stands in it: the roof needs no more room than shows that it is one.
            let is_empty = it.kind == RoomKind::Loft && !plan.taken.iter().any(|taken| rect.overlaps(taken));
            let high = if is_empty { rect.height.min(ROOF) } else { rect.height };
            Rect { top: rect.bottom() - high, height: high, ..rect }
        };
        Self { rooms: rooms.iter().map(|it| (it, rect(it))).collect(), evening }
    }

    fn room_at(&self, at: Xy) -> Option<&(&'a Room, Rect)> {
        self.rooms.iter().find(|it| it.1.contains(at))
    }

    /// Where the ceiling is above a point, if there is one.
    pub fn ceiling_over(&self, at: Xy) -> Option<f32> {
        self.room_at(at).and_then(|(room, rect)| has_ceiling(room.kind).then_some(rect.top + VOID))
    }

    /// Whether all that a thing takes is inside the room that it is in.
    pub fn holds(&self, at: Xy, taken: &Rect) -> bool {
        let Some((room, rect)) = self.room_at(at) else { return true };
        let inside = inside(room.kind, *rect).grown(-WALL / 2.0 - 3.0);
        // A rose touches its ceiling.
        let top = if has_ceiling(room.kind) { rect.top + VOID } else { inside.top };
        taken.left >= inside.left
            && taken.right() <= inside.right()
            && taken.top >= top - 1.0
            && taken.bottom() <= inside.bottom()
    }

    /// The paint of the wall behind a point.
    pub fn behind(&self, at: Xy) -> Paint {
        match (self.room_at(at).is_some_and(|it| it.0.kind != RoomKind::Outdoors), self.evening) {
            (true, false) => Paint::Wall,
            (true, true) => Paint::WallAtDusk,
            (false, false) => Paint::Sky,
            (false, true) => Paint::SkyAtDusk,
        }
    }

    /// The room that a lamp at a point lights, below its ceiling.
    pub fn lit_by(&self, at: Xy) -> Option<Rect> {
        self.room_at(at).map(|(room, rect)| inside(room.kind, *rect))
    }

    /// What the section cuts through: nothing is written there.
    pub fn cut(&self) -> Vec<Rect> {
        let indoors = self.rooms.iter().filter(|it| has_ceiling(it.0.kind));
        indoors
            .flat_map(|(_, rect)| {
                let wall = |x: f32| Rect::new(x - WALL / 2.0, rect.top, WALL, rect.height);
                [Rect { height: VOID, ..*rect }.grown(WALL / 2.0), wall(rect.left), wall(rect.right())]
            })
            .collect()
    }

    /// All that is drawn, the sky and the ground with it.
    pub fn extent(&self) -> Rect {
        let all = self.rooms.iter().map(|it| it.1).reduce(|a, b| {
            let (left, top) = (a.left.min(b.left), a.top.min(b.top));
            Rect::new(left, top, a.right().max(b.right()) - left, a.bottom().max(b.bottom()) - top)
        });
        let all = all.unwrap_or(Rect::new(0.0, 0.0, 0.0, 0.0)).grown(SKY);
        Rect { height: all.height - SKY + GROUND, ..all }
    }

    /// Sky and ground, then the walls. What else is in a room comes later, once it is known what is free.
    pub fn draw_walls(&self, canvas: &mut Canvas) {
        let all = self.extent();
        let sky = if self.evening { Paint::SkyAtDusk } else { Paint::Sky };
        canvas.rect(LAYER, None, all, 6.0, fill(sky));
        let ground = Rect { top: all.bottom() - GROUND, height: GROUND, ..all };
        canvas.rect(LAYER, None, ground, 0.0, fill(downwards(ground, Paint::Ground, Paint::TimberEdge)));
        for (room, rect) in &self.rooms {
            match room.kind {
                RoomKind::Outdoors => {}
                RoomKind::Loft => self.loft(canvas, *rect),
                RoomKind::Room | RoomKind::Passage | RoomKind::Store => self.room(canvas, room.kind, *rect),
            }
        }
    }

    fn wall(&self) -> Paint {
        if self.evening { Paint::WallAtDusk } else { Paint::Wall }
    }

    fn room(&self, canvas: &mut Canvas, kind: RoomKind, rect: Rect) {
        canvas.rect(LAYER, None, rect, 0.0, fill(self.wall()));
        let area = inside(kind, rect);
        if kind == RoomKind::Store {
            // A store is lined with upright boards: a faint joint every so far.
            for x in steps(area.left, area.right(), LINING) {
                let joint = [Xy::new(x, area.top), Xy::new(x, area.bottom())];
                canvas.path(LAYER, None, Path::through(&joint), veil(Paint::TimberEdge, 1.2, 46));
            }
        }
        // The wall is darker just beneath the ceiling.
        let shade = Rect { height: SHADE.min(area.height), ..area };
        canvas.rect(LAYER, None, shade, 0.0, fill(downwards(shade, thin(Paint::Shade, 30), thin(Paint::Shade, 0))));
    }

    fn loft(&self, canvas: &mut Canvas, rect: Rect) {
        let eaves = [Xy::new(rect.left - 14.0, rect.bottom()), Xy::new(rect.right() + 14.0, rect.bottom())];
        let ridge = Xy::new(rect.centre().x, rect.top - 8.0);
        let inside = Path::from(eaves[0]).line(ridge).line(eaves[1]).closed();
        canvas.path(LAYER, None, inside, fill(self.wall()));
        for x in steps(rect.left, rect.right(), 96.0) {
            let part = 1.0 - (x - ridge.x).abs() / (rect.width / 2.0 + 14.0);
            let top = rect.bottom() - (rect.bottom() - ridge.y) * part;
            let post = [Xy::new(x, rect.bottom()), Xy::new(x, top)];
            canvas.path(LAYER, None, Path::through(&post), line(Paint::Timber, 5.0));
        }
        let roof = Path::through(&[eaves[0], ridge, eaves[1]]);
        canvas.path(LAYER, None, roof.clone(), line(Paint::TimberEdge, 13.0));
        canvas.path(LAYER, None, roof, line(Paint::Timber, 9.0));
    }

    /// Walls and floors where they are cut, ceilings with their joists, doors, windows where nothing is in the way, names.
    pub fn draw_section(&self, canvas: &mut Canvas, taken: &[Rect]) {
        for (room, rect) in self.rooms.iter().filter(|it| !matches!(it.0.kind, RoomKind::Outdoors | RoomKind::Loft)) {
            self.ceiling(canvas, *rect);
            let skirting = Rect { top: rect.bottom() - WALL / 2.0 - 9.0, height: 9.0, ..*rect };
            canvas.rect(LAYER, None, skirting, 0.0, fill(Fill::Flat(thin(Paint::Timber, 120))));
            if room.kind == RoomKind::Room {
                self.window(canvas, inside(room.kind, *rect), taken);
            }
        }
        for (_, rect) in self.rooms.iter().filter(|it| !matches!(it.0.kind, RoomKind::Outdoors | RoomKind::Loft)) {
            canvas.rect(LAYER, None, *rect, 0.0, line(Paint::Section, WALL));
        }
        self.doors(canvas);
        let mut written: Vec<Rect> = Vec::new();
        for (room, rect) in &self.rooms {
            let style = Type::plain(NAME, self.behind(rect.centre()));
            let area = inside(room.kind, *rect);
            for text in wrapped(&room.name, style.size, style.weight, area.width - 16.0, 1) {
                let wide = style.width(&text);
                let middle = area.centre().x - wide / 2.0;
                let spots = if room.kind == RoomKind::Loft {
                    [middle; 3]
                } else {
                    [area.left + 10.0, area.right() - wide - 10.0, middle]
                }
                .into_iter()
                .flat_map(|x| [area.bottom() - 36.0, area.top + 7.0].map(|y| Rect::new(x, y, wide, 18.0)));
                let free = |it: &Rect| !taken.iter().chain(&written).any(|other| other.grown(3.0).overlaps(it));
                let Some(spot) = spots.into_iter().find(free) else { continue };
                canvas.text(Layer::Names, None, Xy::new(spot.left, spot.top + 14.0), Anchor::Start, style, &text);
                written.push(spot);
            }
        }
    }

    fn ceiling(&self, canvas: &mut Canvas, rect: Rect) {
        let void = Rect { height: VOID, ..rect };
        canvas.rect(LAYER, None, void, 0.0, fill(if self.evening { Paint::SteelShade } else { Paint::MetalPlate }));
        for x in steps(rect.left, rect.right(), 62.0) {
            let joist = Rect::new(x - 7.0, rect.top + WALL / 2.0, 14.0, VOID - WALL / 2.0 - 4.0);
            canvas.rect(LAYER, None, joist, 1.0, both(Paint::Timber, Paint::TimberEdge, 1.0));
        }
        let board = Rect { top: rect.top + VOID - 5.0, height: 5.0, ..rect };
        canvas.rect(LAYER, None, board, 0.0, fill(Paint::Section));
    }

    /// A window on the back wall, where nothing hangs and no cable runs.
    fn window(&self, canvas: &mut Canvas, area: Rect, taken: &[Rect]) {
        let (wide, high) = ((area.width * 0.3).min(110.0), (area.height * 0.3).min(96.0));
        let top = area.top + area.height * 0.24;
        let spots =
            [0.5, 0.3, 0.7, 0.18, 0.82].map(|it| Rect::new(area.left + area.width * it - wide / 2.0, top, wide, high));
        let free = |it: &Rect| {
            let clear = it.grown(12.0);
            clear.left > area.left && clear.right() < area.right() && !taken.iter().any(|other| other.overlaps(&clear))
        };
        let Some(frame) = spots.into_iter().find(free) else { return };
        let sky = if self.evening { Paint::SkyAtDusk } else { Paint::Sky };
        let glass = downwards(frame, sky, if self.evening { Paint::SkyAtDusk } else { Paint::Paper });
        canvas.rect(LAYER, None, frame, 2.0, both(glass, Paint::QuietInk, 1.4));
        canvas.rect(LAYER, None, frame.grown(3.0), 3.0, line(Paint::Plate, 5.0));
        canvas.rect(LAYER, None, frame.grown(6.0), 4.0, line(Paint::QuietInk, 1.2));
        for bar in [
            [Xy::new(frame.centre().x, frame.top), Xy::new(frame.centre().x, frame.bottom())],
            [Xy::new(frame.left, frame.top + high * 0.42), Xy::new(frame.right(), frame.top + high * 0.42)],
        ] {
            canvas.path(LAYER, None, Path::through(&bar), line(Paint::Plate, 4.0));
        }
        let sill = Rect::new(frame.left - 12.0, frame.bottom() + 6.0, wide + 24.0, 6.0);
        canvas.rect(LAYER, None, sill, 1.0, both(Paint::Plate, Paint::QuietInk, 1.2));
    }

    /// A door in every wall between two rooms, and at the ends of a passage.
    fn doors(&self, canvas: &mut Canvas) {
        let indoors = |kind: RoomKind| matches!(kind, RoomKind::Room | RoomKind::Passage | RoomKind::Store);
        for (index, (room, rect)) in self.rooms.iter().enumerate().filter(|it| indoors(it.1.0.kind)) {
            for x in [rect.left, rect.right()] {
                let beside = self.rooms.iter().enumerate().find(|(other, (_, its))| {
                    let touches = (its.left - x).abs() < 1.0 || (its.right() - x).abs() < 1.0;
                    *other != index && touches && (its.bottom() - rect.bottom()).abs() < 1.0
                });
                let is_door = match beside {
                    Some((other, (it, _))) => indoors(it.kind) && other > index || it.kind == RoomKind::Outdoors,
                    None => room.kind == RoomKind::Passage,
                };
                if is_door {
                    door(canvas, x, rect.bottom(), (rect.height - VOID) * DOOR, self.wall());
                }
            }
        }
    }
}

fn has_ceiling(kind: RoomKind) -> bool {
    !matches!(kind, RoomKind::Outdoors | RoomKind::Loft)
}

/// A room below its ceiling.
fn inside(kind: RoomKind, rect: Rect) -> Rect {
    if has_ceiling(kind) { Rect { top: rect.top + VOID, height: rect.height - VOID, ..rect } } else { rect }
}

/// Every so far between two places, the same distance from both.
fn steps(from: f32, to: f32, step: f32) -> impl Iterator<Item = f32> {
    let count = ((to - from) / step).floor().clamp(0.0, 200.0);
    let first = from + (to - from - count * step) / 2.0;
    (0..=200_u8).map(move |it| first + f32::from(it) * step).take_while(move |it| *it < to)
}

/// An opening in a wall that the section cuts, with its leaf and its lintel.
fn door(canvas: &mut Canvas, x: f32, floor: f32, high: f32, wall: Paint) {
    let top = floor - high;
    let opening = Rect::new(x - WALL / 2.0 - 1.0, top, WALL + 2.0, high - WALL / 2.0);
    canvas.rect(LAYER, None, opening, 0.0, fill(wall));
    let leaf = Rect::new(x - 3.0, top + 3.0, 6.0, high - WALL / 2.0 - 3.0);
    canvas.rect(LAYER, None, leaf, 1.0, both(Paint::Timber, Paint::TimberEdge, 1.2));
    canvas.circle(LAYER, None, Xy::new(x, floor - high * 0.48), 3.2, both(Paint::Brass, Paint::BrassEdge, 1.0));
    let lintel = Rect::new(x - WALL / 2.0 - 3.0, top - 3.0, WALL + 6.0, 6.0);
    canvas.put(LAYER, None, Outline::Rect { rect: lintel, radius: 0.0 }, both(Paint::Timber, Paint::TimberEdge, 1.2));
}
