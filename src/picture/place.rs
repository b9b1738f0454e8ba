//! Drawing the whole place: a card for every location where the plan has it, and the cables between.
//!
//! Every location, switch, lamp and device has its spot; terminals and ends are for the closer view.

use super::{
    View,
    canvas::{Canvas, Type, both, line},
    conductor::{sheath, stripes},
    fittings::{LampLook, lamp, lever, padlock, power_style, worked},
    inside::lamp_look,
    plan::cards,
    routes::{name_cables, routes},
    shape::{Anchor, Layer, Paint, Rect, Scene, Thing, Xy},
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
const MARGIN: f32 = 34.0;
const PAD: f32 = 14.0;
const DEVICE: f32 = 118.0;
const SWITCH: f32 = 84.0;
const PER_ROW: usize = 6;

struct Card {
    location: LocationId,
    name: Vec<String>,
    icons: f32,
    width: f32,
}

impl Card {
    fn of(work: &Work, location: LocationId) -> Self {
        let place = &work.exercise().locations[location];
        let name = wrapped(&place.name, NAME.size, NAME.weight, 170.0, 3);
        let (wide, icons) = match &place.kind {
            LocationKind::Board => {
                let count = devices(work, location).len().max(1);
                (DEVICE * count.min(PER_ROW) as f32, 128.0 * count.div_ceil(PER_ROW) as f32)
            }
            LocationKind::Rose | LocationKind::JunctionBox(_) | LocationKind::Fan(_) => (60.0, 56.0),
            LocationKind::Luminaire => (90.0, 92.0),
            LocationKind::Box(it) => (SWITCH * it.plate.ways.len() as f32, 92.0),
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
    let all = work.exercise().devices.with_ids().filter(|(_, it)| it.location == location);
    all.map(|it| it.0).collect()
}

/// The whole place.
pub(super) fn place(work: &Work, words: &dyn Words, view: &View<'_>) -> Scene {
    let exercise = work.exercise();
    let all: Vec<Card> = exercise.locations.ids().map(|it| Card::of(work, it)).collect();
    let places: Vec<_> = exercise.locations.iter().map(|it| it.at).collect();
    let sizes: Vec<_> = all.iter().map(|it| (it.width, it.height())).collect();
    let rects: Vec<Rect> = cards(&places, &sizes).into_iter().map(|it| it.moved(MARGIN, MARGIN)).collect();
    let mut canvas = Canvas::default();
    for (card, rect) in all.iter().zip(&rects) {
        draw_card(&mut canvas, work, card, *rect, words, view);
    }
    let routes = routes(work, &rects);
    for (cable, path) in exercise.cables.iter().zip(&routes) {
        let thick =
            if cable.kind == CableKind::PendantFlex { 5.0 } else { 4.0 + 2.0 * cable.kind.cores().len() as f32 };
        sheath(&mut canvas, path, thick, cable.kind, Paint::Paper);
    }
    for path in routes.iter().skip(exercise.cables.len()) {
        for it in stripes(path) {
            canvas.path(Layer::Cables, None, it, line(Paint::QuietInk, 3.0));
        }
    }
    let names = name_cables(&mut canvas, work, &rects, &routes);
    let drawn: Vec<Xy> = routes.iter().flat_map(super::shape::Path::flattened).collect();
    let corners =
        rects.iter().chain(&names).flat_map(|it| [Xy::new(it.left, it.top), Xy::new(it.right(), it.bottom())]);
    let all: Vec<Xy> = corners.chain(drawn).collect();
    // A cable may swing out beyond the outermost card: the sheet is as large as what is drawn.
    let edge = |pick: fn(&Xy) -> f32, better: fn(f32, f32) -> f32| all.iter().map(pick).reduce(better).unwrap_or(0.0);
    let (left, top) = (edge(|it| it.x, f32::min), edge(|it| it.y, f32::min));
    let (right, bottom) = (edge(|it| it.x, f32::max), edge(|it| it.y, f32::max));
    canvas.moved(MARGIN - left, MARGIN - top);
    canvas.into_scene(right - left + 2.0 * MARGIN, bottom - top + 2.0 * MARGIN)
}

fn draw_card(canvas: &mut Canvas, work: &Work, card: &Card, rect: Rect, words: &dyn Words, view: &View<'_>) {
    let about = Thing::Location(card.location);
    let exercise = work.exercise();
    canvas.rect(Layer::Panels, Some(about), rect, 10.0, both(Paint::Plate, Paint::QuietInk, 1.8));
    let middle = rect.left + rect.width / 2.0;
    canvas.lines(Some(about), middle, rect.top + 9.0, Anchor::Middle, NAME, &card.name);
    canvas.spot(work, about, Rect::new(rect.left, rect.top, rect.width, card.name_height() - 4.0));
    let top = rect.top + card.name_height();
    match &exercise.locations[card.location].kind {
        LocationKind::Rose | LocationKind::JunctionBox(_) | LocationKind::Fan(_) => {
            let centre = Xy::new(middle, top + 26.0);
            canvas.circle(Layer::Fittings, Some(about), centre, 24.0, both(Paint::PlasticBox, Paint::QuietInk, 2.0));
            canvas.circle(Layer::Fittings, Some(about), centre, 8.0, both(Paint::Recess, Paint::QuietInk, 1.6));
        }
        LocationKind::Luminaire => {
            let Some(id) = exercise.lamp_at(card.location) else { return };
            let (about, look) = (Thing::Lamp(id), lamp_look(work, id, view));
            lamp(canvas, about, Xy::new(middle, top + 34.0), 21.0, look);
            let said = match look {
                LampLook::Out => words.say(Label::NoLamp),
                LampLook::Lit => words.say(Label::Lit),
                LampLook::Dark => String::new(),
            };
            canvas.text(Layer::Names, Some(about), Xy::new(middle, top + 84.0), Anchor::Middle, SMALL, &said);
            canvas.spot(work, about, Rect::new(middle - 34.0, top, 68.0, 70.0));
        }
        LocationKind::Box(it) => {
            let left = middle - SWITCH * it.plate.ways.len() as f32 / 2.0;
            for (place, switch) in exercise.switches_at(card.location).enumerate() {
                let about = Thing::Switch(switch);
                let position = work.positions().get(switch.index()).map_or(0, |it| usize::from(*it));
                let way = exercise.switches[switch].way;
                let (by, down) = (way.worked_by, way.is_down(position));
                let centre = left + SWITCH * (place as f32 + 0.5);
                worked(canvas, about, Rect::new(centre - 17.0, top, 34.0, 50.0), by, down);
                let said = words.say(Label::Worked { by, down });
                let said = wrapped(&said, SMALL.size, SMALL.weight, SWITCH - 4.0, 2);
                canvas.lines(Some(about), centre, top + 56.0, Anchor::Middle, SMALL, &said);
                canvas.spot(work, about, Rect::new(centre - SWITCH / 2.0 + 2.0, top - 2.0, SWITCH - 4.0, 92.0));
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
    let at = Xy::new(area.left + 43.0, area.top + 24.0);
    let said = words.say(Label::Power(state.power));
    for it in wrapped(&said, style.size, style.weight, area.width - 44.0, 1) {
        canvas.text(Layer::Names, Some(about), at, Anchor::Start, style, &it);
    }
    if state.locked || state.kept_off {
        padlock(canvas, about, Xy::new(area.left + 56.0, area.top + 47.0));
    }
    let circuit = work.exercise().charted(id);
    let lines = wrapped(circuit, SMALL.size, SMALL.weight, area.width - 8.0, 3);
    canvas.lines(Some(about), area.left + area.width / 2.0, area.top + 63.0, Anchor::Middle, SMALL, &lines);
    canvas.spot(work, about, area);
}
