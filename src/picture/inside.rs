//! Drawing an open location from the inside.
//!
//! [`super::layout`] says where; this draws, and gives every terminal, end, switch, lamp, device and cover its spot. It
//! holds no opinion on whether the wiring is right.

use super::{
    Covers, View,
    canvas::{Canvas, Type, both},
    conductor::{LEAD, Lead, PITCH, core, lead, sheath},
    depth::{body, hollow, screw, shadow},
    entry::{EntrySide, GOES_TO, NAME},
    fittings::{LampLook, hasp, lamp, lever, power_style, terminal, worked},
    groups::Panel,
    lanes::Crossing,
    layout::{CableIn, GroupIn, Layout, TERMINAL, TRAY_LINK, TRAY_ROW},
    made::{DrawnTip, bent, test_links},
    paint::Paint,
    shape::{Anchor, Layer, Path, Rect, Scene, Thing, Xy},
    text::wrapped,
    words::{Label, Words},
};
use crate::{
    circuit::Glow,
    exercise::{DeviceId, EndId, LampId, LocationId, LocationKind, SwitchId},
    trade::{accessory::Material, workmanship::HANGING_MM},
    work::Work,
};

const STRIP: f32 = 52.0;
const CAPTION: f32 = 15.0;
/// Height of the hasp of a device.
const HASP: f32 = 38.0;
/// Units for a millimetre of core: what hangs free is as much shorter as it is cut, what is in a terminal bends as it has
/// to spare.
const PER_CORE_MM: f32 = 0.3;
/// From core to core in the mouth of a sheath.
const CORE_STEP: f32 = 8.0;

struct Inside<'a> {
    work: &'a Work,
    location: LocationId,
    words: &'a dyn Words,
    view: &'a View<'a>,
    layout: Layout,
    ground: Paint,
    plate: Paint,
    canvas: Canvas,
}

/// The location, open.
pub(super) fn inside(work: &Work, location: LocationId, words: &dyn Words, view: &View<'_>) -> Scene {
    let (ground, plate) = match &work.exercise().locations[location].kind {
        LocationKind::Box(it) => (
            if it.body == Material::Metal { Paint::MetalBox } else { Paint::PlasticBox },
            if it.plate.front == Material::Metal { Paint::MetalPlate } else { Paint::Plate },
        ),
        _ => (Paint::PlasticBox, Paint::Plate),
    };
    let layout = Layout::of(work, location, words);
    let mut it = Inside { work, location, words, view, layout, ground, plate, canvas: Canvas::default() };
    let mut bottom = it.layout.block_y + TERMINAL;
    for index in 0..it.layout.groups.len() {
        bottom = bottom.max(it.group(index));
    }
    let devices = bottom;
    bottom = it.cover_strip(bottom + 14.0);
    bottom = it.tray(bottom);
    it.frame(bottom, devices);
    if !it.is_closed() {
        it.conductors();
        test_links(&mut it.canvas, work, it.layout.frame_right);
    }
    let height = it.title(bottom);
    for index in 0..it.layout.cables.len() {
        it.cable(index, height);
    }
    let width = it.layout.frame_right + it.layout.right_margin;
    it.canvas.into_scene(width, height)
}

impl Inside<'_> {
    /// Whether it is a board whose cover is on: its devices and its test points are in front of the cover, no conductor is in sight. A board
    /// that is the supervisor's is closed for good, unless the work leads into it.
    fn is_closed(&self) -> bool {
        let (work, at) = (self.work, self.location);
        let covered = if work.is_board_to_open(at) {
            work.is_covered(at)
        } else {
            work.is_board(at) && !work.exercise().learners_places().contains(&at)
        };
        covered && self.view.covers == Covers::AsTheyStand
    }

    /// The front of a closed board: a door with a screw in each corner, and a window in it for the devices.
    fn front(&mut self, rect: Rect, devices: f32) {
        body(&mut self.canvas, Layer::Ground, None, rect, 6.0, Paint::Plate);
        let corner = rect.grown(-18.0);
        for x in [corner.left, corner.right()] {
            for y in [corner.top, corner.bottom()] {
                screw(&mut self.canvas, Layer::Ground, None, Xy::new(x, y), 7.0, (1.0, 0.0));
            }
        }
        let top = self.layout.block_y - 22.0;
        let window = Rect::new(rect.left + 14.0, top, rect.width - 28.0, devices + 14.0 - top);
        self.canvas.rect(Layer::Ground, None, window, 8.0, both(self.ground, Paint::QuietInk, 2.0));
        hollow(&mut self.canvas, Layer::Ground, window.grown(-1.0), 8.0);
    }

    fn frame(&mut self, bottom: f32, devices: f32) {
        let Layout { frame_left, frame_right, frame_top, .. } = self.layout;
        let rect = Rect::new(frame_left, frame_top, frame_right - frame_left, bottom - frame_top);
        let radius = match self.work.exercise().locations[self.location].kind {
            LocationKind::Rose | LocationKind::Luminaire | LocationKind::JunctionBox(_) => 26.0,
            LocationKind::Box(_) | LocationKind::Fan(_) => 12.0,
            LocationKind::Board => 6.0,
        };
        if self.is_closed() {
            self.front(rect, devices);
            return;
        }
        shadow(&mut self.canvas, Layer::Ground, None, rect, radius);
        let look = both(self.ground, Paint::QuietInk, 4.0);
        self.canvas.rect(Layer::Ground, None, rect, radius, look);
        hollow(&mut self.canvas, Layer::Ground, rect.grown(-2.0), radius);
    }

    /// The name of the place, as a caption. Where there is no cover it is also the target for the place.
    fn title(&mut self, bottom: f32) -> f32 {
        let Layout { frame_left, frame_right, .. } = self.layout;
        let style = Type::bold(20.0, Paint::Paper);
        let place = &self.work.exercise().locations[self.location];
        let lines = wrapped(&place.name, style.size, style.weight, frame_right - frame_left - 16.0, 3);
        let middle = f32::midpoint(frame_left, frame_right);
        let about = Thing::Location(self.location);
        let top = bottom + 16.0;
        let end = self.canvas.lines(Some(about), middle, top, Anchor::Middle, style, &lines);
        if !self.work.has_cover(self.location) {
            let wide = lines.iter().map(|it| style.width(it)).fold(24.0, f32::max) + 16.0;
            self.canvas.spot(
                self.work,
                about,
                Rect::new(middle - wide / 2.0, top - 7.0, wide, (end - top + 14.0).max(24.0)),
            );
        }
        end + 18.0
    }

    /// The strip that stands for the cover of a rose or a board, or the lid over a row of terminals.
    fn cover_strip(&mut self, bottom: f32) -> f32 {
        let label = match self.work.exercise().locations[self.location].kind {
            LocationKind::Rose | LocationKind::JunctionBox(_) | LocationKind::Fan(_)
                if self.work.is_covered(self.location) =>
            {
                Label::CoverLifted
            }
            // No cover to lift; below the window there is room for the door's screws.
            LocationKind::Board if !self.work.is_board_to_open(self.location) => {
                return if self.is_closed() { bottom + 26.0 } else { bottom };
            }
            LocationKind::Board if self.is_closed() => Label::TestPoints,
            LocationKind::Board if self.work.is_covered(self.location) => Label::CoverLifted,
            LocationKind::Board | LocationKind::Rose => Label::CoverOff,
            LocationKind::JunctionBox(_) | LocationKind::Fan(_) => Label::LidOff,
            _ => return bottom,
        };
        let middle = f32::midpoint(self.layout.frame_left, self.layout.frame_right);
        let style = Type::quiet(CAPTION, Paint::Plate);
        let text = self.words.say(label);
        let wide = style.width(&text).max(60.0) + 40.0;
        let rect = Rect::new(middle - wide / 2.0, bottom - 8.0, wide, 32.0);
        let about = Thing::Location(self.location);
        self.canvas.rect(Layer::Fittings, Some(about), rect, 16.0, both(Paint::Plate, Paint::QuietInk, 1.4));
        let at = Xy::new(middle, rect.top + 21.0);
        self.canvas.text(Layer::Names, Some(about), at, Anchor::Middle, style, &text);
        self.canvas.spot(self.work, about, rect);
        rect.bottom() + 20.0
    }

    /// A group's panel and terminals. Returns how far down they reach.
    fn group(&mut self, index: usize) -> f32 {
        let group = &self.layout.groups[index];
        let panel =
            Rect::new(group.left - 12.0, self.layout.block_y - 8.0, group.right - group.left + 24.0, TERMINAL + 8.0);
        let (about, kind) = (Thing::Location(self.location), group.panel);
        let (on, bottom) = match kind {
            Panel::None => (self.ground, panel.bottom()),
            Panel::Plate => (self.plate, self.plate_back(index, panel)),
            Panel::Device(it) => (Paint::Plate, self.device(it, panel)),
            Panel::Holder(it) => (Paint::Plate, self.holder(it, panel)),
        };
        if kind == Panel::Plate {
            let rect = Rect { height: bottom - panel.top, ..panel };
            body(&mut self.canvas, Layer::Panels, Some(about), rect, 10.0, self.plate);
        }
        let Self { canvas, work, words, layout, .. } = self;
        for it in &layout.groups[index].blocks {
            let id = it.block.terminal;
            terminal(canvas, it, work.is_tight(id) || work.exercise().is_inspected(), on, *words);
            canvas.spot(work, Thing::Terminal(id), it.rect);
        }
        bottom
    }

    /// The back of the plate below its terminals: the gangs with their rockers, and what one is looking at.
    fn plate_back(&mut self, index: usize, panel: Rect) -> f32 {
        let exercise = self.work.exercise();
        let top = panel.bottom();
        let gangs = gangs(&self.layout.groups[index]);
        let mut strip_height = STRIP;
        for (switch, [left, right]) in &gangs {
            let (about, facts) = (Thing::Switch(*switch), &exercise.switches[*switch]);
            let label = match gangs.len() {
                1 => Label::OnlyGang,
                of => Label::Gang { gang: facts.gang, of },
            };
            let position = self.work.positions().get(switch.index()).map_or(0, |it| usize::from(*it));
            let (by, down) = (facts.way.worked_by, facts.way.is_down(position));
            let style = Type::plain(CAPTION, Paint::Plate);
            let room = right - left - 8.0 - 46.0;
            let mut lines = wrapped(&self.words.say(label), style.size, style.weight, room, 2);
            lines.extend(wrapped(&self.words.say(Label::Worked { by, down }), style.size, style.weight, room, 2));
            let height = (style.height(lines.len()) + 14.0).max(STRIP);
            strip_height = strip_height.max(height);
            let rect = Rect::new(*left, top, right - left, height);
            self.canvas.rect(Layer::Fittings, Some(about), rect, 6.0, both(Paint::Plate, Paint::QuietInk, 1.4));
            let icon = Rect::new(left + 10.0, top + (height - 40.0) / 2.0, 28.0, 40.0);
            worked(&mut self.canvas, about, icon, by, down);
            let first = top + (height - style.height(lines.len())) / 2.0;
            self.canvas.lines(Some(about), left + 48.0, first, Anchor::Start, style, &lines);
            self.canvas.spot(self.work, about, rect);
        }
        let style = Type::quiet(CAPTION, self.plate);
        let caption = self.words.say(Label::PlateFromBehind { gangs: gangs.len() });
        let lines = wrapped(&caption, style.size, style.weight, panel.width - 20.0, 4);
        let first = top + strip_height + 12.0;
        let about = Thing::Location(self.location);
        let middle = panel.left + panel.width / 2.0;
        let end = self.canvas.lines(Some(about), middle, first, Anchor::Middle, style, &lines);
        let target = Rect::new(panel.left + 4.0, first - 9.0, panel.width - 8.0, (end - first + 18.0).max(24.0));
        self.canvas.spot(self.work, about, target);
        target.bottom() + 4.0
    }

    fn device(&mut self, device: DeviceId, panel: Rect) -> f32 {
        let about = Thing::Device(device);
        let state = self.work.device_state(device);
        let style = Type::plain(CAPTION, Paint::Plate);
        let lines = wrapped(self.work.exercise().charted(device), style.size, style.weight, panel.width - 16.0, 3);
        let front =
            Rect::new(panel.left + 1.0, panel.bottom(), panel.width - 2.0, 96.0 + style.height(lines.len()) + HASP);
        let whole = Rect { height: front.bottom() - panel.top, ..panel };
        body(&mut self.canvas, Layer::Panels, Some(about), whole, 6.0, Paint::Plate);
        let window = Rect::new(front.left + 14.0, front.top + 8.0, 34.0, 62.0);
        lever(&mut self.canvas, about, window, state.power);
        let said = power_style(state.power, 17.0, Paint::Plate);
        let x = window.right() + 12.0;
        let at = Xy::new(x, front.top + 28.0);
        self.canvas.text(
            Layer::Names,
            Some(about),
            at,
            Anchor::Start,
            said,
            &self.words.say(Label::Power(state.power)),
        );
        let middle = front.left + front.width / 2.0;
        self.canvas.lines(Some(about), middle, front.top + 82.0, Anchor::Middle, style, &lines);
        let foot = Rect { top: front.bottom() - HASP, height: HASP, ..front };
        self.canvas.spot(self.work, about, Rect { height: front.height - HASP, ..front });
        hasp(&mut self.canvas, self.work, device, foot, self.words);
        front.bottom()
    }

    fn holder(&mut self, id: LampId, panel: Rect) -> f32 {
        let about = Thing::Lamp(id);
        body(&mut self.canvas, Layer::Panels, None, panel, 10.0, Paint::Plate);
        let look = lamp_look(self.work, id, self.view);
        let centre = Xy::new(panel.left + panel.width / 2.0, panel.bottom() + 62.0);
        let neck = Rect::new(centre.x - 20.0, panel.bottom(), 40.0, 24.0);
        self.canvas.rect(Layer::Fittings, None, neck, 3.0, both(Paint::MetalPlate, Paint::QuietInk, 1.6));
        lamp(&mut self.canvas, about, centre, 36.0, look);
        self.canvas.spot(self.work, about, Rect::new(centre.x - 40.0, centre.y - 36.0, 80.0, 76.0));
        let style = Type::plain(CAPTION, self.ground);
        let said = look.said(self.words);
        let top = centre.y + 36.0 + 24.0;
        self.canvas.text(Layer::Names, Some(about), Xy::new(centre.x, top + 12.0), Anchor::Middle, style, &said);
        top + 14.0
    }

    fn cable(&mut self, index: usize, height: f32) {
        let CableIn { entry, mouth, upright } = &self.layout.cables[index];
        let thick = CORE_STEP * entry.ends.len() as f32 + 4.0;
        let inwards = if matches!(entry.side, EntrySide::Right | EntrySide::BelowRight) { -1.0 } else { 1.0 };
        let width = self.layout.frame_right + self.layout.right_margin;
        let (path, x, top, anchor) = match entry.side {
            EntrySide::Top => (Path::from(Xy::new(mouth.x, 0.0)), mouth.x + 28.0, 10.0, Anchor::Start),
            EntrySide::Left => {
                (Path::from(Xy::new(0.0, mouth.y)), 10.0, mouth.y - 26.0 - entry.label_height(), Anchor::Start)
            }
            EntrySide::Right => {
                let top = mouth.y - 26.0 - entry.label_height();
                (Path::from(Xy::new(width, mouth.y)), width - 10.0, top, Anchor::End)
            }
            EntrySide::BelowLeft | EntrySide::BelowRight => {
                let corner = Xy::new(*upright, mouth.y);
                let path = Path::from(Xy::new(*upright, height)).line(Xy::new(*upright, mouth.y + 26.0)).cubic(
                    Xy::new(*upright, mouth.y + 10.0),
                    Xy::new(corner.x + 10.0 * inwards, corner.y),
                    Xy::new(corner.x + 26.0 * inwards, corner.y),
                );
                let anchor = if inwards > 0.0 { Anchor::End } else { Anchor::Start };
                (path, upright - 28.0 * inwards, mouth.y + 30.0, anchor)
            }
        };
        // Behind a closed cover a cable is seen as far as the edge; one that turns in from below is no longer than its turn.
        let Layout { frame_left, frame_right, frame_top, .. } = self.layout;
        let end = match entry.side {
            _ if !self.is_closed() => *mouth,
            EntrySide::Top => Xy::new(mouth.x, frame_top),
            EntrySide::Left => Xy::new(frame_left, mouth.y),
            EntrySide::Right => Xy::new(frame_right, mouth.y),
            EntrySide::BelowLeft | EntrySide::BelowRight => *mouth,
        };
        let wall = match entry.side {
            EntrySide::Top => Rect::new(mouth.x - thick / 2.0 - 5.0, frame_top - 6.0, thick + 10.0, 12.0),
            EntrySide::Left | EntrySide::BelowLeft => {
                Rect::new(frame_left - 6.0, mouth.y - thick / 2.0 - 5.0, 12.0, thick + 10.0)
            }
            EntrySide::Right | EntrySide::BelowRight => {
                Rect::new(frame_right - 6.0, mouth.y - thick / 2.0 - 5.0, 12.0, thick + 10.0)
            }
        };
        // The grommet in the hole that it comes in by.
        self.canvas.rect(Layer::Cables, None, wall, 5.0, both(Paint::Ink, Paint::QuietInk, 1.5));
        sheath(&mut self.canvas, &path.line(end), thick, entry.kind, None);
        let (name, goes_to) = (entry.name.clone(), entry.goes_to.clone());
        let next = self.canvas.lines(None, x, top, anchor, NAME, &name);
        let unmarked = entry.unmarked;
        let (wide, lines) = (entry.label_width(), self.canvas.lines(None, x, next + 2.0, anchor, GOES_TO, &goes_to));
        if let Some(it) = unmarked {
            // Its name is where it is named.
            let high = (lines - top + 2.0).max(24.0);
            self.canvas.spot(self.work, Thing::Unmarked(it), Rect::new(x - 4.0, top - 4.0, wide + 8.0, high));
        }
    }

    fn draw_core(&mut self, end: EndId, path: &Path) {
        let (colour, mark) = (self.work.end_facts(end).colour, self.work.mark_of(end));
        core(&mut self.canvas, Thing::End(end), path, colour, mark, Some(self.ground));
    }

    /// How the learner made an end ready: of one in a terminal only what is outside can be seen.
    fn made(&self, end: EndId) -> Option<DrawnTip> {
        let prep = self.work.prep_of(end)?;
        let bare_mm = f64::from(prep.strip_mm) * if prep.folded { 0.5 } else { 1.0 };
        let bare_mm = self.work.fit_of(end).map_or(bare_mm, |it| it.outside_mm);
        Some(DrawnTip { prep, bare_mm })
    }

    /// How much higher than a whole one a free end ends.
    fn drawn_up(&self, end: EndId) -> f32 {
        let core_mm = self.work.prep_of(end).map_or(0, |it| it.core_mm);
        if core_mm == 0 { 0.0 } else { f32::from(HANGING_MM.saturating_sub(core_mm)) * PER_CORE_MM }
    }

    /// What a core has to spare between its sheath and its terminal.
    fn to_spare(&self, end: EndId) -> f32 {
        let lengths = self.work.prep_of(end).zip(self.work.terminal_of(end));
        lengths.map_or(0.0, |(prep, terminal)| {
            f32::from(prep.core_mm.saturating_sub(self.work.reach_mm(terminal))) * PER_CORE_MM
        })
    }

    fn draw_end(&mut self, from: Xy, towards: (f32, f32), end: EndId) {
        let (colour, mark) = (self.work.end_facts(end).colour, self.work.mark_of(end));
        let it = Lead { about: Thing::End(end), colour, mark, ground: self.ground, made: self.made(end) };
        lead(&mut self.canvas, from, towards, it);
    }

    fn conductors(&mut self) {
        for index in 0..self.layout.cables.len() {
            for place in 0..self.layout.cables[index].entry.ends.len() {
                self.fan(index, place);
            }
        }
        for (run, lane) in self.layout.runs.clone() {
            match run {
                Crossing::Down { end, rest, slot } => {
                    let path = bent(Xy::new(rest, self.layout.rest_y - 1.0), self.to_spare(end));
                    self.draw_core(end, &across(path, [rest, slot], lane, self.layout.lead_y));
                }
                Crossing::Up { end, rest, slot } => {
                    let foot = Xy::new(rest, self.layout.rest_y + LEAD);
                    let path = across(Path::from(foot), [rest, slot], lane, self.layout.lead_y);
                    self.draw_core(end, &path);
                    self.draw_end(foot, (0.0, -1.0), end.other());
                    self.rest_spot(end.other(), rest);
                }
                Crossing::Over { end, slots: [from, to] } => {
                    let start = Path::from(Xy::new(from, self.layout.lead_y));
                    self.draw_core(end, &across(start, [from, to], lane, self.layout.lead_y));
                }
            }
        }
        for (end, slot) in self.layout.slots.clone() {
            let from = Xy::new(slot, self.layout.lead_y);
            self.draw_end(from, (0.0, 1.0), end);
            let rect = Rect::new(slot - PITCH / 2.0, from.y, PITCH, self.layout.block_y - from.y);
            self.canvas.spot(self.work, Thing::End(end), rect);
        }
    }

    /// A core from the mouth of its sheath to its rest; its end there, if it is free.
    fn fan(&mut self, cable: usize, place: usize) {
        let CableIn { entry, mouth, .. } = &self.layout.cables[cable];
        let Some(end) = entry.ends.get(place).copied() else { return };
        let Some(rest) = self.layout.rests.get(&end).copied() else { return };
        let aside = (place as f32 - (entry.ends.len() - 1) as f32 / 2.0) * CORE_STEP;
        let is_free = !self.layout.slots.contains_key(&end);
        let to = Xy::new(rest, self.layout.rest_y - if is_free { self.drawn_up(end) } else { 0.0 });
        let drop = to.y - mouth.y;
        let path = match entry.side {
            EntrySide::Top => Path::from(Xy::new(mouth.x + aside, mouth.y - 2.0)).cubic(
                Xy::new(mouth.x + aside, mouth.y + drop * 0.5),
                Xy::new(rest, to.y - drop * 0.5),
                to,
            ),
            EntrySide::Left | EntrySide::BelowLeft => side_fan(Xy::new(mouth.x - 2.0, mouth.y - aside), to),
            EntrySide::Right | EntrySide::BelowRight => side_fan(Xy::new(mouth.x + 2.0, mouth.y + aside), to),
        };
        // The cores of a fan lie side by side and never cross, so they need no ground between them.
        let (colour, mark) = (self.work.end_facts(end).colour, self.work.mark_of(end));
        if self.made(end).is_some_and(|it| it.prep.core_mm == 0) {
            // One sheath for all of them, along the way of the middle one.
            if place == (entry.ends.len() - 1) / 2 {
                let (thick, kind) = (CORE_STEP * entry.ends.len() as f32 + 4.0, entry.kind);
                let path = path.line(Xy::new(rest, to.y + LEAD * 0.8));
                sheath(&mut self.canvas, &path, thick, kind, Some(self.ground));
            }
        } else {
            core(&mut self.canvas, Thing::End(end), &path, colour, mark, None);
        }
        if is_free {
            self.draw_end(to, (0.0, 1.0), end);
            self.rest_spot(end, rest);
        }
    }

    fn rest_spot(&mut self, end: EndId, rest: f32) {
        let area = Rect::new(rest - PITCH / 2.0, self.layout.rest_y - self.drawn_up(end), PITCH, LEAD);
        self.canvas.spot(self.work, Thing::End(end), area);
    }

    /// Links that are in no terminal yet, in rows below the rest.
    fn tray(&mut self, top: f32) -> f32 {
        let across = self.layout.tray_across();
        let rows = self.layout.tray.len().div_ceil(across);
        for (index, conductor) in self.layout.tray.clone().into_iter().enumerate() {
            let left = self.layout.frame_left + 20.0 + (index % across) as f32 * (TRAY_LINK + 16.0);
            let y = top + TRAY_ROW * ((index / across) as f32 + 0.5);
            let [a, b] = EndId::of(conductor);
            let [from, to] = [Xy::new(left + LEAD, y), Xy::new(left + TRAY_LINK - LEAD, y)];
            self.draw_core(a, &Path::through(&[from, to]));
            self.draw_end(from, (-1.0, 0.0), a);
            self.draw_end(to, (1.0, 0.0), b);
            for (end, x) in [(a, left), (b, to.x)] {
                self.canvas.spot(self.work, Thing::End(end), Rect::new(x, y - PITCH / 2.0, LEAD, PITCH));
            }
        }
        if rows == 0 { top } else { top + TRAY_ROW * rows as f32 + 10.0 }
    }
}

/// The gangs of a plate as they stand, each with its left and right edge.
fn gangs(group: &GroupIn) -> Vec<(SwitchId, [f32; 2])> {
    let mut gangs: Vec<(SwitchId, [f32; 2])> = Vec::new();
    for it in &group.blocks {
        let Some(switch) = it.block.switch else { continue };
        match gangs.last_mut() {
            Some((last, edges)) if *last == switch => edges[1] = it.rect.right(),
            _ => gangs.push((switch, [it.rect.left, it.rect.right()])),
        }
    }
    gangs
}

/// How a lamp is to be drawn.
pub(super) fn lamp_look(work: &Work, lamp: LampId, view: &View<'_>) -> LampLook {
    let glow = view.lit.and_then(|it| it.get(lamp.index())).copied().unwrap_or(Glow::Off);
    if work.is_lamp_in(lamp) { LampLook::In(glow) } else { LampLook::Out }
}

fn side_fan(from: Xy, to: Xy) -> Path {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    Path::from(from).cubic(Xy::new(from.x + dx * 0.7, from.y), Xy::new(to.x, to.y - dy * 0.75), to)
}

/// On from where a path starts, up or down to a lane, along it and down to `bottom`, with round corners.
fn across(path: Path, [from, to]: [f32; 2], lane: f32, bottom: f32) -> Path {
    let radius = ((to - from).abs() / 2.0).min(18.0);
    let step = if to > from { radius } else { -radius };
    let turn = if path.start.y < lane { radius } else { -radius };
    let near = radius * 0.45;
    let side = near * step.signum();
    let p = Xy::new;
    path.line(p(from, lane - turn))
        .cubic(p(from, lane - near * turn.signum()), p(from + step - side, lane), p(from + step, lane))
        .line(p(to - step, lane))
        .cubic(p(to - step + side, lane), p(to, lane + near), p(to, lane + radius))
        .line(p(to, bottom))
}
