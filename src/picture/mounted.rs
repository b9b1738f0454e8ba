//! A thing on the plan: a plate, a rose, a lamp, a board, as one sees it from the room, with its name.
//!
//! Sizes first, so that the plan can be laid out; then the drawing. It decides neither where a thing goes nor what it does.

use super::{
    View,
    canvas::{Canvas, Type, both, downwards, fill, line},
    depth::{body, screw, shadow},
    fittings::{hasp, lamp, lever, power_style, worked},
    inside::lamp_look,
    paint::Paint,
    plan::Extent,
    shape::{Anchor, Layer, Path, Rect, Thing, Xy},
    text::wrapped,
    words::{Label, Words},
};
use crate::{
    exercise::{DeviceId, LocationId, LocationKind},
    trade::accessory::Material,
    work::{Power, Work},
};

const NAME: f32 = 16.0;
const SMALL: f32 = 14.0;
const WIDEST_NAME: f32 = 170.0;
/// A gang of a plate.
const GANG: f32 = 84.0;
const PLATE: f32 = 72.0;
/// A device of a board.
const DEVICE: Rect = Rect::new(0.0, 0.0, 100.0, 158.0);
/// Of it the hasp for a lock.
const HASP: f32 = 40.0;
const PER_ROW: usize = 6;
/// Around the devices.
const EDGE: f32 = 12.0;
/// Half of a rose, from the ceiling down and to either side.
const ROSE: (f32, f32) = (36.0, 15.0);
const BULB: f32 = 21.0;
/// From the middle of a bulb to the top of its holder.
const HOLDER: f32 = 44.0;
const BESIDE: f32 = 8.0;

/// A thing on the plan.
pub(super) struct Mounted {
    location: LocationId,
    name: Vec<String>,
    /// Half of its body's width and height.
    half: (f32, f32),
    /// Height of what is said between the body and the name.
    said: f32,
}

impl Mounted {
    pub fn of(work: &Work, location: LocationId) -> Self {
        let place = &work.exercise().locations[location];
        let bold = Type::bold(NAME, Paint::Paper);
        let name = wrapped(&place.name, bold.size, bold.weight, WIDEST_NAME, 3);
        let small = Type::plain(SMALL, Paint::Paper);
        let (half, said) = match &place.kind {
            LocationKind::Board => {
                let count = devices(work, location).len().max(1);
                let wide = DEVICE.width * count.min(PER_ROW) as f32 + 2.0 * EDGE;
                let high = (DEVICE.height + 4.0) * count.div_ceil(PER_ROW) as f32 + 2.0 * EDGE + 8.0;
                ((wide / 2.0, high / 2.0), 0.0)
            }
            LocationKind::Rose => (ROSE, 0.0),
            LocationKind::JunctionBox(_) | LocationKind::Fan(_) => ((30.0, 30.0), 0.0),
            LocationKind::Luminaire => ((BULB + 13.0, HOLDER), small.height(1)),
            LocationKind::Box(it) => ((GANG * it.plate.ways.len() as f32 / 2.0, PLATE / 2.0), small.height(2)),
        };
        Self { location, name, half, said }
    }

    fn name_width(&self) -> f32 {
        let bold = Type::bold(NAME, Paint::Paper);
        self.name.iter().map(|it| bold.width(it)).fold(24.0, f32::max)
    }

    fn name_height(&self) -> f32 {
        (Type::bold(NAME, Paint::Paper).height(self.name.len()) + 8.0).max(36.0)
    }

    /// Whether its name stands beside it: a rose has cables above and a flex below.
    fn is_named_beside(&self) -> bool {
        self.half == ROSE
    }

    /// How far it reaches, with its name.
    pub fn extent(&self) -> Extent {
        let (wide, high) = self.half;
        if self.is_named_beside() {
            let down = high.max(self.name_height() - high);
            return Extent { left: wide, right: wide + BESIDE + self.name_width(), up: high, down };
        }
        let side = wide.max(self.name_width() / 2.0 + 4.0);
        Extent { left: side, right: side, up: high, down: high + self.said + self.name_height() + 4.0 }
    }

    /// Its body alone, given the point that the author placed.
    pub fn body(&self, at: Xy) -> Rect {
        let (wide, high) = self.half;
        Rect::new(at.x - wide, at.y - high, 2.0 * wide, 2.0 * high)
    }

    /// Draws it on a wall of that paint.
    pub fn draw(&self, canvas: &mut Canvas, work: &Work, at: Xy, on: Paint, words: &dyn Words, view: &View<'_>) {
        let about = Thing::Location(self.location);
        let whole = self.body(at);
        match &work.exercise().locations[self.location].kind {
            LocationKind::Rose => rose(canvas, about, whole),
            LocationKind::JunctionBox(_) => junction_box(canvas, about, at),
            LocationKind::Fan(_) => fan(canvas, about, whole),
            LocationKind::Luminaire => self.luminaire(canvas, work, at, on, words, view),
            LocationKind::Box(it) => {
                let face = if it.plate.front == Material::Metal { Paint::MetalPlate } else { Paint::Plate };
                self.plate(canvas, work, whole, (face, on), words);
            }
            LocationKind::Board => self.board(canvas, work, whole, words),
        }
        self.named(canvas, work, whole, on);
    }

    /// Its name, which is the target for the place.
    fn named(&self, canvas: &mut Canvas, work: &Work, whole: Rect, on: Paint) {
        let about = Thing::Location(self.location);
        let style = Type::bold(NAME, on);
        let high = self.name_height();
        if self.is_named_beside() {
            let left = whole.right() + BESIDE;
            canvas.lines(Some(about), left, whole.top + 3.0, Anchor::Start, style, &self.name);
            let wide = left + self.name_width() - whole.left;
            canvas.spot(work, about, Rect::new(whole.left, whole.top, wide, whole.height.max(high)));
            return;
        }
        let middle = whole.centre().x;
        let top = whole.bottom() + self.said + 4.0;
        canvas.lines(Some(about), middle, top + 3.0, Anchor::Middle, style, &self.name);
        let half = (self.name_width() / 2.0 + 4.0).max(self.half.0);
        // A junction box or a fan has nothing else to be touched.
        let kind = &work.exercise().locations[self.location].kind;
        let first = if matches!(kind, LocationKind::JunctionBox(_) | LocationKind::Fan(_)) { whole.top } else { top };
        canvas.spot(work, about, Rect::new(middle - half, first, 2.0 * half, top + high - first));
    }

    fn luminaire(&self, canvas: &mut Canvas, work: &Work, at: Xy, on: Paint, words: &dyn Words, view: &View<'_>) {
        let Some(id) = work.exercise().lamp_at(self.location) else { return };
        let (about, look) = (Thing::Lamp(id), lamp_look(work, id, view));
        let bulb = Xy::new(at.x, at.y + HOLDER - BULB - 2.0);
        let holder = Rect::new(at.x - 11.0, at.y - HOLDER, 22.0, 2.0 * (HOLDER - BULB) - 2.0);
        canvas.rect(Layer::Fittings, Some(about), holder, 5.0, both(Paint::Plate, Paint::QuietInk, 1.6));
        let cap = Rect::new(holder.left + 2.0, holder.bottom() - 12.0, holder.width - 4.0, 12.0);
        canvas.rect(Layer::Fittings, Some(about), cap, 2.0, both(Paint::MetalPlate, Paint::QuietInk, 1.2));
        lamp(canvas, about, bulb, BULB, look);
        let said = look.said(words);
        let style = Type::plain(SMALL, on);
        canvas.lines(Some(about), at.x, at.y + HOLDER + 4.0, Anchor::Middle, style, &[said]);
        canvas.spot(work, about, self.body(at));
    }

    fn plate(&self, canvas: &mut Canvas, work: &Work, whole: Rect, (face, on): (Paint, Paint), words: &dyn Words) {
        let about = Thing::Location(self.location);
        body(canvas, Layer::Panels, Some(about), whole.grown(-4.0), 7.0, face);
        for x in [whole.left + 13.0, whole.right() - 13.0] {
            screw(canvas, Layer::Fittings, Some(about), Xy::new(x, whole.centre().y), 4.0, (1.0, 0.0));
        }
        let style = Type::plain(SMALL, on);
        for (place, switch) in work.exercise().switches_at(self.location).enumerate() {
            let about = Thing::Switch(switch);
            let position = work.positions().get(switch.index()).map_or(0, |it| usize::from(*it));
            let way = work.exercise().switches[switch].way;
            let (by, down) = (way.worked_by, way.is_down(position));
            let centre = whole.left + GANG * (place as f32 + 0.5);
            worked(canvas, about, Rect::new(centre - 15.0, whole.top + 14.0, 30.0, PLATE - 28.0), by, down);
            let said = wrapped(&words.say(Label::Worked { by, down }), style.size, style.weight, GANG - 4.0, 2);
            canvas.lines(Some(about), centre, whole.bottom() + 1.0, Anchor::Middle, style, &said);
            let target = Rect::new(centre - GANG / 2.0 + 2.0, whole.top, GANG - 4.0, whole.height + self.said);
            canvas.spot(work, about, target);
        }
    }

    fn board(&self, canvas: &mut Canvas, work: &Work, whole: Rect, words: &dyn Words) {
        let about = Thing::Location(self.location);
        body(canvas, Layer::Panels, Some(about), whole, 8.0, Paint::MetalPlate);
        // The lip of its lid.
        let lip = Rect::new(whole.left + 5.0, whole.top + 5.0, whole.width - 10.0, 5.0);
        canvas.rect(Layer::Panels, Some(about), lip, 2.0, fill(downwards(lip, Paint::SteelShade, Paint::MetalPlate)));
        let all = devices(work, self.location);
        let in_row = all.len().min(PER_ROW) as f32;
        for (place, id) in all.into_iter().enumerate() {
            let left = whole.centre().x - DEVICE.width * in_row / 2.0 + DEVICE.width * (place % PER_ROW) as f32;
            let top = whole.top + EDGE + 6.0 + (DEVICE.height + 4.0) * (place / PER_ROW) as f32;
            device(canvas, work, id, Rect::new(left + 2.0, top, DEVICE.width - 4.0, DEVICE.height), words);
        }
    }
}

fn devices(work: &Work, location: LocationId) -> Vec<DeviceId> {
    let all = work.exercise().devices.with_ids().filter(|(_, it)| it.location == location);
    all.map(|it| it.0).collect()
}

/// From the side: flat to the ceiling, round below.
fn rose(canvas: &mut Canvas, about: Thing, whole: Rect) {
    let about = Some(about);
    shadow(canvas, Layer::Fittings, about, Rect::new(whole.left + 8.0, whole.top + 8.0, whole.width - 16.0, 12.0), 8.0);
    let (left, right, top, bottom) = (whole.left, whole.right(), whole.top, whole.bottom());
    let middle = whole.centre().x;
    let dome = Path::from(Xy::new(left, top))
        .line(Xy::new(right, top))
        .cubic(Xy::new(right, top + 16.0), Xy::new(middle + 22.0, bottom), Xy::new(middle + 9.0, bottom))
        .line(Xy::new(middle - 9.0, bottom))
        .cubic(Xy::new(middle - 22.0, bottom), Xy::new(left, top + 16.0), Xy::new(left, top))
        .closed();
    let face = downwards(whole, Paint::Plate, Paint::MetalBox);
    canvas.path(Layer::Fittings, about, dome, both(face, Paint::QuietInk, 2.0));
    let rim = [Xy::new(left + 3.0, top + 7.0), Xy::new(right - 3.0, top + 7.0)];
    canvas.path(Layer::Fittings, about, Path::through(&rim), line(Paint::Recess, 1.6));
}

fn junction_box(canvas: &mut Canvas, about: Thing, at: Xy) {
    let lid = Rect::new(at.x - 26.0, at.y - 26.0, 52.0, 52.0);
    body(canvas, Layer::Fittings, Some(about), lid, 26.0, Paint::PlasticBox);
    canvas.circle(Layer::Fittings, Some(about), at, 20.0, line(Paint::Recess, 1.6));
    screw(canvas, Layer::Fittings, Some(about), at, 5.0, (1.0, 0.0));
}

fn fan(canvas: &mut Canvas, about: Thing, whole: Rect) {
    body(canvas, Layer::Fittings, Some(about), whole, 6.0, Paint::Plate);
    for slat in 1..=5_u8 {
        let y = whole.top + whole.height * f32::from(slat) / 6.0;
        let across = [Xy::new(whole.left + 8.0, y), Xy::new(whole.right() - 8.0, y)];
        canvas.path(Layer::Fittings, Some(about), Path::through(&across), line(Paint::Recess, 3.0));
    }
}

fn device(canvas: &mut Canvas, work: &Work, id: DeviceId, area: Rect, words: &dyn Words) {
    let about = Thing::Device(id);
    let state = work.device_state(id);
    body(canvas, Layer::Fittings, Some(about), area, 5.0, Paint::Plate);
    lever(canvas, about, Rect::new(area.left + 10.0, area.top + 8.0, 26.0, 46.0), state.power);
    let style = power_style(state.power, 15.0, Paint::Plate);
    // As large as lets the whole word stand beside the lever.
    let style = Type { size: if state.power == Power::Tripped { 13.0 } else { style.size }, ..style };
    let at = Xy::new(area.left + 40.0, area.top + 24.0);
    let said = words.say(Label::Power(state.power));
    for it in wrapped(&said, style.size, style.weight, area.width - 41.0, 1) {
        canvas.text(Layer::Names, Some(about), at, Anchor::Start, style, &it);
    }
    let small = Type::plain(SMALL, Paint::Plate);
    let lines = wrapped(work.exercise().charted(id), small.size, small.weight, area.width - 8.0, 3);
    canvas.lines(Some(about), area.left + area.width / 2.0, area.top + 63.0, Anchor::Middle, small, &lines);
    let foot = Rect { top: area.bottom() - HASP, height: HASP, ..area };
    canvas.spot(work, about, Rect { height: area.height - HASP, ..area });
    hasp(canvas, work, id, foot, words);
}
