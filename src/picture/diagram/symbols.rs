//! The symbols, after the geometry that IEC 60617 gives them (from memory; `trade/facts.md`), with their names: a circle with a cross for a
//! lamp, a hinged blade for a contact, a cross at the contact of a circuit-breaker, M for a motor, three bars for earth.

use super::{
    WIRE,
    elements::{DiagramElement, Symbol},
    place::{ElementSpot, is_of_board},
};
use crate::{
    circuit::Glow,
    exercise::{DeviceId, LocationId, SwitchId, TerminalId},
    picture::{
        canvas::{Canvas, Type, both, fill, line},
        paint::Paint,
        shape::{Anchor, Layer, Path, Rect, Thing, Xy},
        text::wrapped,
        words::{Label, Words},
    },
    work::{Power, Work},
};

/// Names of terminals and letters of colours.
pub(super) const SMALL: f32 = 13.0;
/// Names of things.
const NAME: f32 = 13.0;
/// From the outermost lead to the edge of the symbol.
pub(super) const HALF: f32 = 24.0;
/// Room for the names below it.
pub(super) const NAMES: f32 = 52.0;
/// Width of the column of a board's terminals.
pub(super) const BAR: f32 = 124.0;
/// Half the width of a contact.
const CONTACT: f32 = 28.0;
/// Of a lamp and of a motor.
const RADIUS: f32 = 20.0;
/// The least side of what can be touched.
const TOUCH: f32 = 24.0;

/// What is drawn, and in whose words.
#[derive(Clone, Copy)]
pub(super) struct Drawing<'a> {
    pub work: &'a Work,
    pub words: &'a dyn Words,
    /// What each lamp does.
    pub lit: Option<&'a [Glow]>,
}

impl Drawing<'_> {
    /// Draws one element where it stands.
    pub fn draw(&self, canvas: &mut Canvas, element: &DiagramElement, spot: &ElementSpot) {
        let Self { work, words, lit } = *self;
        let exercise = work.exercise();
        let place = |it: LocationId| exercise.locations.get(it).map_or("", |it| it.name.as_str()).to_owned();
        match element.symbol {
            Symbol::Line(it) => {
                breaker(canvas, work, it, spot);
                named(canvas, Thing::Device(it), spot, &exercise.devices[it].circuit);
                touched(canvas, work, Thing::Device(it), Rect::new(spot.area.left, spot.centre.y - 14.0, 90.0, 28.0));
            }
            Symbol::Neutral(it) => {
                bar(canvas, Some(Thing::Device(it)), spot, "N");
                named(canvas, Thing::Device(it), spot, &exercise.devices[it].circuit);
            }
            Symbol::Earth => earth(canvas, spot, &words.say(Label::EarthBar)),
            Symbol::Pole(it) => {
                pole(canvas, work, it, element, spot);
                let facts = &exercise.switches[it];
                let of = exercise.switches_at(facts.location).count();
                let gang = if of > 1 { words.say(Label::Gang { gang: facts.gang, of }) } else { String::new() };
                named(canvas, Thing::Switch(it), spot, format!("{} {gang}", place(facts.location)).trim());
                touched(canvas, work, Thing::Switch(it), body(spot));
            }
            Symbol::Lamp(it) => {
                let inside = match lit.and_then(|lit| lit.get(it.index())) {
                    Some(Glow::Lit) => Paint::Glow,
                    _ => Paint::Paper,
                };
                round(canvas, Thing::Lamp(it), spot, inside);
                let reach = RADIUS * std::f32::consts::FRAC_1_SQRT_2;
                for slope in [-reach, reach] {
                    let (a, b) = (moved(spot.centre, -reach, -slope), moved(spot.centre, reach, slope));
                    canvas.path(Layer::Fittings, Some(Thing::Lamp(it)), Path::through(&[a, b]), line(Paint::Ink, WIRE));
                }
                let at = exercise.lamps[it].location;
                named(canvas, Thing::Lamp(it), spot, &place(at));
                touched(canvas, work, Thing::Lamp(it), body(spot));
            }
            Symbol::Fan(it) => {
                let at = exercise.fans[it].location;
                round(canvas, Thing::Location(at), spot, Paint::Paper);
                let style = Type::bold(18.0, Paint::Paper);
                canvas.text(Layer::Names, None, moved(spot.centre, 0.0, 6.0), Anchor::Middle, style, "M");
                named(canvas, Thing::Location(at), spot, &place(at));
                touched(canvas, work, Thing::Location(at), body(spot));
            }
            Symbol::Outlet(at) => {
                leads(canvas, spot, |_| CONTACT);
                let area = Rect::new(
                    spot.centre.x - CONTACT,
                    spot.area.top + 2.0,
                    2.0 * CONTACT,
                    spot.area.height - NAMES - 4.0,
                );
                canvas.rect(
                    Layer::Fittings,
                    Some(Thing::Location(at)),
                    area,
                    8.0,
                    both(Paint::Paper, Paint::Ink, WIRE),
                );
                named(canvas, Thing::Location(at), spot, &place(at));
                touched(canvas, work, Thing::Location(at), body(spot));
            }
        }
        terminals(canvas, work, element, spot);
    }
}

fn moved(from: Xy, dx: f32, dy: f32) -> Xy {
    Xy::new(from.x + dx, from.y + dy)
}

/// What can be touched of a symbol that has terminals on both sides.
fn body(spot: &ElementSpot) -> Rect {
    let room = TOUCH + 2.0;
    Rect::new(spot.area.left + room, spot.area.top, spot.area.width - 2.0 * room, spot.area.height - NAMES)
}

fn touched(canvas: &mut Canvas, work: &Work, thing: Thing, area: Rect) {
    if canvas.place_of(thing).is_none() {
        canvas.spot(work, thing, area);
    }
}

/// The name of a thing below its symbol.
fn named(canvas: &mut Canvas, thing: Thing, spot: &ElementSpot, name: &str) {
    let style = Type::plain(NAME, Paint::Paper);
    let lines = wrapped(name, style.size, style.weight, spot.area.width - 4.0, 3);
    canvas.lines(Some(thing), spot.centre.x, spot.area.bottom() - NAMES + 2.0, Anchor::Middle, style, &lines);
}

/// The leads from the edge of the column to a body this wide at each height.
fn leads(canvas: &mut Canvas, spot: &ElementSpot, half: impl Fn(f32) -> f32) {
    for (side, leads) in spot.leads.iter().enumerate() {
        for it in leads {
            let reach = half(it.y - spot.centre.y);
            let inner = spot.centre.x + if side == 0 { -reach } else { reach };
            canvas.path(Layer::Conductors, None, Path::through(&[*it, Xy::new(inner, it.y)]), line(Paint::Ink, WIRE));
        }
    }
}

fn round(canvas: &mut Canvas, thing: Thing, spot: &ElementSpot, inside: Paint) {
    leads(canvas, spot, |dy| (RADIUS * RADIUS - dy * dy).max(0.0).sqrt());
    canvas.circle(Layer::Fittings, Some(thing), spot.centre, RADIUS, both(inside, Paint::Ink, WIRE));
}

/// The names of the terminals over their leads, and where they can be touched.
fn terminals(canvas: &mut Canvas, work: &Work, element: &DiagramElement, spot: &ElementSpot) {
    for (side, (terminals, leads)) in element.sides.iter().zip(&spot.leads).enumerate() {
        for ((terminal, _), at) in terminals.iter().zip(leads) {
            let name = name_of(work, *terminal);
            let (anchor, dx, left) =
                if side == 0 { (Anchor::Start, 5.0, at.x) } else { (Anchor::End, -5.0, at.x - TOUCH) };
            let about = Thing::Terminal(*terminal);
            let style = Type::quiet(SMALL, Paint::Paper);
            if !is_of_board(element) {
                canvas.text(Layer::Names, Some(about), moved(*at, dx, -5.0), anchor, style, name);
            }
            touched(canvas, work, about, Rect::new(left, at.y - TOUCH / 2.0, TOUCH, TOUCH));
        }
    }
}

/// The last part of a terminal's address, which is its name.
fn name_of(work: &Work, terminal: TerminalId) -> &str {
    let address = work.exercise().terminals.get(terminal).map_or("", |it| it.address.as_str());
    address.rsplit('.').next().unwrap_or(address)
}

/// A pole of a switch: its terminals, and a blade between those that are joined now.
fn pole(canvas: &mut Canvas, work: &Work, switch: SwitchId, element: &DiagramElement, spot: &ElementSpot) {
    let about = Some(Thing::Switch(switch));
    leads(canvas, spot, |_| CONTACT);
    let points: Vec<(TerminalId, Xy)> = element
        .sides
        .iter()
        .zip(&spot.leads)
        .zip([-CONTACT, CONTACT])
        .flat_map(|((terminals, leads), x)| {
            terminals.iter().zip(leads).map(move |(it, lead)| (it.0, Xy::new(spot.centre.x + x, lead.y)))
        })
        .collect();
    let at = |it: TerminalId| points.iter().find(|point| point.0 == it).map(|it| it.1);
    let position = work.positions().get(switch.index()).map_or(0, |it| usize::from(*it));
    let closed = work.exercise().switches[switch].closed(position);
    let blades: Vec<[Xy; 2]> = closed.filter_map(|[a, b]| Some([at(a)?, at(b)?])).collect();
    for it in &blades {
        canvas.path(Layer::Fittings, about, Path::through(it), line(Paint::Ink, 1.5 * WIRE));
    }
    // An open contact: its blade stands off.
    if let ([(_, from), (_, to)], true) = (points.as_slice(), blades.is_empty()) {
        let lift =
            if from.x < to.x { Xy::new(to.x - 8.0, from.y - 18.0) } else { Xy::new(from.x - 24.0, from.y - 12.0) };
        canvas.path(Layer::Fittings, about, Path::through(&[*from, lift]), line(Paint::Ink, 1.5 * WIRE));
    }
    for (_, it) in &points {
        canvas.circle(Layer::Fittings, about, *it, 3.5, both(Paint::Paper, Paint::Ink, 1.5));
    }
}

/// Line, and the circuit-breaker in it: a contact with a cross.
fn breaker(canvas: &mut Canvas, work: &Work, device: DeviceId, spot: &ElementSpot) {
    let about = Some(Thing::Device(device));
    let (left, y) = (spot.area.left, spot.centre.y);
    let style = Type::bold(16.0, Paint::Paper);
    canvas.text(Layer::Names, about, Xy::new(left, y + 6.0), Anchor::Start, style, "L");
    let stroke = line(Paint::Ink, WIRE);
    let (hinge, contact) = (Xy::new(left + 44.0, y), Xy::new(left + 84.0, y));
    canvas.path(Layer::Fittings, about, Path::through(&[Xy::new(left + 16.0, y), hinge]), stroke);
    let is_on = work.device_state(device).power == Power::On;
    let tip = if is_on { contact } else { moved(contact, -6.0, -16.0) };
    canvas.path(Layer::Fittings, about, Path::through(&[hinge, tip]), line(Paint::Ink, 1.5 * WIRE));
    for slope in [-5.0, 5.0] {
        let cross = [moved(contact, -5.0, -slope), moved(contact, 5.0, slope)];
        canvas.path(Layer::Fittings, about, Path::through(&cross), stroke);
    }
    for it in &spot.leads[1] {
        canvas.path(Layer::Conductors, None, Path::through(&[contact, *it]), stroke);
    }
}

/// What a net ends at on the side of the neutral, with its letter.
fn bar(canvas: &mut Canvas, about: Option<Thing>, spot: &ElementSpot, letter: &str) {
    let (left, y) = (spot.area.left, spot.centre.y);
    for it in &spot.leads[0] {
        canvas.path(Layer::Conductors, None, Path::through(&[*it, Xy::new(left + 40.0, y)]), line(Paint::Ink, WIRE));
    }
    canvas.circle(Layer::Fittings, about, Xy::new(left + 43.5, y), 3.5, both(Paint::Paper, Paint::Ink, 1.5));
    let style = Type::bold(16.0, Paint::Paper);
    canvas.text(Layer::Names, about, Xy::new(left + 54.0, y + 6.0), Anchor::Start, style, letter);
}

fn earth(canvas: &mut Canvas, spot: &ElementSpot, name: &str) {
    let (left, y) = (spot.area.left, spot.centre.y);
    let foot = Xy::new(left + 40.0, y);
    for it in &spot.leads[0] {
        canvas.path(Layer::Conductors, None, Path::through(&[*it, foot]), line(Paint::Ink, WIRE));
    }
    canvas.path(Layer::Fittings, None, Path::through(&[foot, moved(foot, 0.0, 8.0)]), line(Paint::Ink, WIRE));
    for (step, half) in [(8.0, 14.0), (13.0, 9.0), (18.0, 4.0)] {
        let bar = [moved(foot, -half, step), moved(foot, half, step)];
        canvas.path(Layer::Fittings, None, Path::through(&bar), line(Paint::Ink, WIRE));
    }
    let style = Type::plain(NAME, Paint::Paper);
    let lines = wrapped(name, style.size, style.weight, spot.area.width - 4.0, 3);
    canvas.lines(None, spot.centre.x, spot.area.bottom() - NAMES + 2.0, Anchor::Middle, style, &lines);
    // A joint like any other, so that it is seen to end there.
    canvas.circle(Layer::Fittings, None, foot, 2.5, fill(Paint::Ink));
}
