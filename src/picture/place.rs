//! Drawing the whole place: a card for every location where the plan has it, and the cables between.
//!
//! Every location, switch, lamp and device has its spot; terminals and ends are for the closer view.

use super::{
    View,
    canvas::{Canvas, Type, both, fill},
    conductor::sheath,
    fittings::{LampLook, lamp, lever, padlock, power_style, rocker},
    inside::lamp_look,
    plan::cards,
    shape::{Anchor, Layer, Paint, Path, Point, Rect, Scene, Thing},
    text::wrapped,
    words::{Label, Words},
};
use crate::{
    exercise::{DeviceId, LocationId, LocationKind},
    trade::cable::CableKind,
    work::{Power, Work},
};

const NAME: Type = Type::bold(16.0, Paint::Plate);
const SMALL: Type = Type::plain(14.0, Paint::Plate);
const CABLE: Type = Type::quiet(14.0, Paint::Paper);
const MARGIN: f32 = 34.0;
const PAD: f32 = 14.0;
const DEVICE: f32 = 118.0;
const SWITCH: f32 = 76.0;
const PER_ROW: usize = 6;

struct Card {
    location: LocationId,
    name: Vec<String>,
    icons: f32,
    width: f32,
}

impl Card {
    fn of(work: &Work, location: LocationId) -> Self {
        let place = &work.exercise().locations[location.index()];
        let name = wrapped(&place.name, NAME.size, NAME.weight, 170.0, 3);
        let (wide, icons) = match &place.kind {
            LocationKind::Board => {
                let count = devices(work, location).len().max(1);
                (DEVICE * count.min(PER_ROW) as f32, 128.0 * count.div_ceil(PER_ROW) as f32)
            }
            LocationKind::Rose => (60.0, 56.0),
            LocationKind::Luminaire => (90.0, 92.0),
            LocationKind::Box(it) => (SWITCH * it.plate.ways.len() as f32, 76.0),
        };
        let named = name.iter().map(|it| NAME.width(it)).fold(24.0, f32::max);
        Self { location, name, icons, width: wide.max(named) + 2.0 * PAD }
    }

    fn height(&self) -> f32 {
        self.name_height() + self.icons + PAD
    }

    fn name_height(&self) -> f32 {
        (NAME.height(self.name.len()) + 16.0).max(28.0)
    }
}

fn devices(work: &Work, location: LocationId) -> Vec<DeviceId> {
    let all = work.exercise().devices.iter().enumerate().filter(|(_, it)| it.location == location);
    all.map(|(index, _)| DeviceId(index as u16)).collect()
}

/// The whole place.
pub(super) fn place(work: &Work, words: &dyn Words, view: &View<'_>) -> Scene {
    let exercise = work.exercise();
    let all: Vec<Card> = (0..exercise.locations.len() as u16).map(|it| Card::of(work, LocationId(it))).collect();
    let places: Vec<_> = exercise.locations.iter().map(|it| it.at).collect();
    let sizes: Vec<_> = all.iter().map(|it| (it.width, it.height())).collect();
    let rects: Vec<Rect> = cards(&places, &sizes).into_iter().map(|it| it.moved(MARGIN, MARGIN)).collect();
    let mut canvas = Canvas::default();
    for (card, rect) in all.iter().zip(&rects) {
        draw_card(&mut canvas, work, card, *rect, words, view);
    }
    let routes = routes(work, &rects);
    for (cable, path) in exercise.cables.iter().zip(&routes) {
        let thick = if cable.kind == CableKind::PendantFlex { 5.0 } else { 4.0 + 2.0 * cable.kind.cores().len() as f32 };
        sheath(&mut canvas, path, thick, cable.kind, Paint::Paper);
    }
    name_cables(&mut canvas, work, &rects, &routes);
    let right = rects.iter().map(Rect::right).fold(0.0, f32::max);
    let bottom = rects.iter().map(Rect::bottom).fold(0.0, f32::max);
    canvas.into_scene(right + MARGIN, bottom + MARGIN)
}

fn draw_card(canvas: &mut Canvas, work: &Work, card: &Card, rect: Rect, words: &dyn Words, view: &View<'_>) {
    let about = Thing::Location(card.location);
    let exercise = work.exercise();
    canvas.rect(Layer::Panels, Some(about), rect, 10.0, both(Paint::Plate, Paint::QuietInk, 1.8));
    let middle = rect.left + rect.width / 2.0;
    canvas.lines(Some(about), middle, rect.top + 9.0, Anchor::Middle, NAME, &card.name);
    canvas.spot(work, about, Rect::new(rect.left, rect.top, rect.width, card.name_height() - 4.0));
    let top = rect.top + card.name_height();
    match &exercise.locations[card.location.index()].kind {
        LocationKind::Rose => {
            let centre = Point::new(middle, top + 26.0);
            canvas.circle(Layer::Fittings, Some(about), centre, 24.0, both(Paint::PlasticBox, Paint::QuietInk, 2.0));
            canvas.circle(Layer::Fittings, Some(about), centre, 8.0, both(Paint::Recess, Paint::QuietInk, 1.6));
        }
        LocationKind::Luminaire => {
            let Some(id) = exercise.lamp_at(card.location) else { return };
            let (about, look) = (Thing::Lamp(id), lamp_look(work, id, view));
            lamp(canvas, about, Point::new(middle, top + 34.0), 21.0, look);
            let said = match look {
                LampLook::Out => words.say(Label::NoLamp),
                LampLook::Lit => words.say(Label::Lit),
                LampLook::Dark => String::new(),
            };
            canvas.text(Layer::Names, Some(about), Point::new(middle, top + 84.0), Anchor::Middle, SMALL, &said);
            canvas.spot(work, about, Rect::new(middle - 34.0, top, 68.0, 70.0));
        }
        LocationKind::Box(it) => {
            let left = middle - SWITCH * it.plate.ways.len() as f32 / 2.0;
            for (place, switch) in exercise.switches_at(card.location).enumerate() {
                let about = Thing::Switch(switch);
                let position = work.positions().get(switch.index()).map_or(0, |it| usize::from(*it));
                let down = exercise.switches[switch.index()].way.rocker_down(position);
                let centre = left + SWITCH * (place as f32 + 0.5);
                rocker(canvas, about, Rect::new(centre - 17.0, top, 34.0, 50.0), down);
                let said = words.say(Label::Rocker { down });
                let said = wrapped(&said, SMALL.size, SMALL.weight, SWITCH - 4.0, 1);
                canvas.lines(Some(about), centre, top + 56.0, Anchor::Middle, SMALL, &said);
                canvas.spot(work, about, Rect::new(centre - SWITCH / 2.0 + 2.0, top - 2.0, SWITCH - 4.0, 74.0));
            }
        }
        LocationKind::Board => {
            for (place, id) in devices(work, card.location).into_iter().enumerate() {
                let in_row = devices(work, card.location).len().min(PER_ROW) as f32;
                let left = middle - DEVICE * in_row / 2.0 + DEVICE * (place % PER_ROW) as f32;
                let area = Rect::new(left + 4.0, top + 128.0 * (place / PER_ROW) as f32, DEVICE - 8.0, 122.0);
                device(canvas, work, id, area, words);
            }
        }
    }
}

fn device(canvas: &mut Canvas, work: &Work, id: DeviceId, area: Rect, words: &dyn Words) {
    let about = Thing::Device(id);
    let state = work.device_state(id);
    canvas.rect(Layer::Fittings, Some(about), area, 6.0, both(Paint::Plate, Paint::QuietInk, 1.4));
    lever(canvas, about, Rect::new(area.left + 10.0, area.top + 8.0, 26.0, 46.0), state.power);
    let style = power_style(state.power, 15.0, Paint::Plate);
    let style = Type { size: if state.power == Power::Tripped { 14.0 } else { style.size }, ..style };
    let at = Point::new(area.left + 43.0, area.top + 24.0);
    let said = words.say(Label::Power(state.power));
    for it in wrapped(&said, style.size, style.weight, area.width - 44.0, 1) {
        canvas.text(Layer::Names, Some(about), at, Anchor::Start, style, &it);
    }
    if state.locked {
        padlock(canvas, about, Point::new(area.left + 56.0, area.top + 47.0));
    }
    let circuit = &work.exercise().devices[id.index()].circuit;
    let lines = wrapped(circuit, SMALL.size, SMALL.weight, area.width - 8.0, 3);
    canvas.lines(Some(about), area.left + area.width / 2.0, area.top + 63.0, Anchor::Middle, SMALL, &lines);
    canvas.spot(work, about, area);
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Side {
    Top,
    Bottom,
    Left,
    Right,
}

impl Side {
    fn outwards(self) -> (f32, f32) {
        match self {
            Self::Top => (0.0, -1.0),
            Self::Bottom => (0.0, 1.0),
            Self::Left => (-1.0, 0.0),
            Self::Right => (1.0, 0.0),
        }
    }
}

/// The side of one card that faces another.
fn facing(from: &Rect, to: &Rect) -> Side {
    let (a, b) = (from.centre(), to.centre());
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    if dx.abs() * (from.height + to.height) > dy.abs() * (from.width + to.width) {
        if dx < 0.0 { Side::Left } else { Side::Right }
    } else if dy < 0.0 {
        Side::Top
    } else {
        Side::Bottom
    }
}

/// A path for every cable, from card to card. Cables at one side of a card stand side by side.
fn routes(work: &Work, rects: &[Rect]) -> Vec<Path> {
    let cables = &work.exercise().cables;
    let side_of = |cable: usize, end: usize| {
        let [here, there] = [end, 1 - end].map(|it| &rects[cables[cable].between[it].index()]);
        (facing(here, there), there.centre())
    };
    let anchor = |cable: usize, end: usize| {
        let location = cables[cable].between[end];
        let (side, _) = side_of(cable, end);
        let mut beside: Vec<(f32, usize)> = Vec::new();
        for other in 0..cables.len() {
            for its_end in 0..2 {
                let (its_side, there) = side_of(other, its_end);
                if cables[other].between[its_end] == location && its_side == side {
                    beside.push((if matches!(side, Side::Top | Side::Bottom) { there.x } else { there.y }, other));
                }
            }
        }
        beside.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let place = beside.iter().position(|it| it.1 == cable).unwrap_or(0) as f32;
        let rect = &rects[location.index()];
        let (ox, oy) = side.outwards();
        let length = if ox == 0.0 { rect.width } else { rect.height };
        let step = (length / (beside.len() as f32 + 1.0)).min(34.0);
        let along = (place - (beside.len() as f32 - 1.0) / 2.0) * step;
        let middle = rect.centre();
        let half = (rect.width / 2.0 * ox, rect.height / 2.0 * oy);
        let shift = if ox == 0.0 { (along, 0.0) } else { (0.0, along) };
        (Point::new(middle.x + half.0 + shift.0, middle.y + half.1 + shift.1), (ox, oy))
    };
    (0..cables.len())
        .map(|cable| {
            let [(from, out), (to, back)] = [anchor(cable, 0), anchor(cable, 1)];
            let pull = ((to.x - from.x).abs().max((to.y - from.y).abs()) * 0.45).max(18.0);
            Path::from(from).cubic(
                Point::new(from.x + out.0 * pull, from.y + out.1 * pull),
                Point::new(to.x + back.0 * pull, to.y + back.1 * pull),
                to,
            )
        })
        .collect()
}

/// Writes each cable's name on it, where there is room for it. A name for which there is none is left out: the closer
/// view has it.
fn name_cables(canvas: &mut Canvas, work: &Work, rects: &[Rect], routes: &[Path]) {
    let lines: Vec<Vec<Point>> = routes.iter().map(Path::flattened).collect();
    let mut taken: Vec<Rect> = Vec::new();
    for (index, cable) in work.exercise().cables.iter().enumerate() {
        let words = wrapped(&cable.name, CABLE.size, CABLE.weight, 150.0, 1);
        let Some(text) = words.first() else { continue };
        let (w, h) = (CABLE.width(text) + 10.0, 22.0);
        let tags = [12, 10, 14, 8, 16, 6, 18, 4, 20]
            .iter()
            .filter_map(|it| lines[index].get(*it))
            .map(|it| Rect::new(it.x - w / 2.0, it.y - h / 2.0, w, h));
        let free = |it: &Rect| !rects.iter().chain(&taken).any(|other| other.grown(3.0).overlaps(it));
        let crossed = |it: &Rect| {
            let others = lines.iter().enumerate().filter(|(other, _)| *other != index);
            others.flat_map(|(_, line)| line).any(|point| it.grown(6.0).contains(*point))
        };
        let tags: Vec<Rect> = tags.filter(free).collect();
        let Some(tag) = tags.iter().find(|it| !crossed(it)).or(tags.first()).copied() else { continue };
        taken.push(tag);
        canvas.rect(Layer::Names, None, tag, 5.0, fill(Paint::Paper));
        let at = Point::new(tag.left + w / 2.0, tag.top + 16.0);
        canvas.text(Layer::Names, None, at, Anchor::Middle, CABLE, text);
    }
}
