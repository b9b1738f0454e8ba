//! What stands behind the switches, and where: plates with their screws, and a lane for each wire between or beside them.
//!
//! It is all had from the work, whatever house it is; nothing is drawn here.

use bevy_egui::egui::{Pos2, Rect, pos2, vec2};
use switchdrop::{
    exercise::{EndId, LocationId, SwitchId, TerminalId, TerminalUse},
    reason::{Passage, WhatIf},
    trade::colour::Colour,
    work::Work,
};

use super::{CuriousState, houses::House, steps::CuriousStep};

/// From where its wires begin to run level, beside a plate, to where they are taken hold of, points.
const FAN: f32 = 30.0;
/// How far from the middle of a plate towards the other switch its screws are, of its width.
const SCREW: f32 = 0.18;
/// How far a wire that comes from elsewhere is drawn, from there on, points.
const STUB: f32 = 26.0;
/// Between two plates, room for what is said of two wires that come to them from elsewhere, of the size of text.
const BOTH_SAID: f32 = 38.0;

/// Which screws beside those of the switches are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Besides {
    /// None.
    Nothing,
    /// The earth screws of the boxes.
    Earth,
    /// Connectors in which a wire from switch to switch is.
    Through,
    /// Every connector that joins something.
    Connectors,
}

impl Besides {
    /// Those of the house that one is at.
    pub const fn of(state: &CuriousState, house: &House) -> Self {
        match (state.step, house.variant) {
            (CuriousStep::Beat, _) => Self::Earth,
            (_, Some(WhatIf::Exchanged | WhatIf::OppositeEnds | WhatIf::NeighboursNeutral)) => Self::Connectors,
            (_, Some(WhatIf::ThirdSwitch)) => Self::Through,
            _ => Self::Nothing,
        }
    }
}

/// A screw, by the terminal that it is of.
#[derive(Debug, Clone, Copy)]
pub struct Screw {
    /// The terminal.
    pub terminal: TerminalId,
    /// Its middle.
    pub at: Pos2,
    /// The other end of its metal, where a blade comes; `None` for what no blade comes to.
    pub tip: Option<Pos2>,
}

/// A switch as it is seen through its cover.
#[derive(Debug, Clone)]
pub struct PlateDrawn {
    /// The switch.
    pub switch: SwitchId,
    /// Its place.
    pub location: LocationId,
    /// The glass.
    pub rect: Rect,
    /// Its screws.
    pub screws: Vec<Screw>,
    /// Towards the other switch: 1 to the right, -1 to the left, 0 for both.
    pub inwards: f32,
}

/// One side of a wire.
#[derive(Debug, Clone, Copy)]
pub struct WireEnd {
    /// The end.
    pub end: EndId,
    /// Its plate, by number.
    pub plate: usize,
    /// The screw that it is under, if it is under one that is drawn.
    pub screw: Option<Pos2>,
    /// Where it begins to run level.
    pub edge: Pos2,
    /// Where it is taken hold of.
    pub handle: Pos2,
}

/// A wire.
#[derive(Debug, Clone)]
pub struct WireDrawn {
    /// The conductor.
    pub conductor: usize,
    /// Its colour.
    pub colour: Colour,
    /// One side of what comes from elsewhere, both of what leads from switch to switch.
    pub ends: Vec<WireEnd>,
    /// Where it runs out of the picture, for what comes from elsewhere.
    pub out: Option<Pos2>,
}

/// All of it.
#[derive(Debug, Clone)]
pub struct Lanes {
    /// From the near switch to the far one.
    pub plates: Vec<PlateDrawn>,
    /// From the top.
    pub wires: Vec<WireDrawn>,
}

/// A wire that is in sight and has no lane yet.
struct Found {
    /// What it does, its colour, and the conductor.
    order: (u8, u8, usize),
    /// Its ends at plates, each with the plate's number.
    ends: Vec<(EndId, usize)>,
}

impl Lanes {
    /// Lays it out in a room, text of this size.
    pub fn new(passage: &Passage, besides: Besides, room: Rect, text: f32) -> Self {
        let exercise = passage.work().exercise();
        let count = exercise.switches.len().max(1);
        let wide = if count > 2 { 132.0 } else { 164.0_f32 }.min(room.width() * 0.26);
        let (top, bottom) = (room.top() + 1.5 * text, room.bottom() - 1.6 * text);
        let step = (room.width() - 16.0 - wide) / (count - 1).max(1) as f32;
        let plates = exercise.switches.ids().enumerate().map(|(number, switch)| {
            let left = room.left() + 8.0 + step * number as f32;
            let rect = Rect::from_min_max(pos2(left, top), pos2(left + wide, bottom));
            let inwards = match number {
                0 => 1.0,
                it if it + 1 == count => -1.0,
                _ => 0.0,
            };
            plate(passage, besides, switch, rect, inwards)
        });
        let mut lanes = Self { plates: plates.collect(), wires: Vec::new() };
        // Where what is said of them would meet, each has a lane of its own; between three plates it is left out.
        let shared = count > 2 || step - wide > BOTH_SAID * text;
        lanes.run(passage.work(), (top, bottom), shared);
        lanes
    }

    /// Gives each wire that is in sight its lane; what comes from elsewhere to one switch may be in the lane of what comes to another where
    /// lanes are `shared`.
    fn run(&mut self, work: &Work, (top, bottom): (f32, f32), shared: bool) {
        let mut found: Vec<Found> = Vec::new();
        for conductor in 0..work.conductor_count() {
            let ends = work.ends_of(conductor).into_iter().flatten();
            let at_plate = |it: EndId| {
                let here = work.end_location(it);
                self.plates.iter().position(|it| it.location == here).map(|plate| (it, plate))
            };
            let ends: Vec<_> = ends.filter_map(at_plate).collect();
            let is_between = ends.len() == 2;
            let in_sight = |(end, plate): &(EndId, usize)| match work.terminal_of(*end) {
                // Earth wires that only arrive are as they are: nothing is done with them.
                Some(it) => {
                    let is_part = is_between || !work.end_facts(*end).colour.is_protective();
                    is_part && self.plates[*plate].screw(it).is_some()
                }
                None => true,
            };
            if !ends.iter().any(in_sight) {
                continue;
            }
            // The feed above, what leads to the lamp beneath, the wires from switch to switch between.
            let colour = work.end_facts(ends[0].0).colour;
            let comes = from_board(work, conductor).is_some();
            let group = match (is_between, colour) {
                (false, Colour::Blue) => 3,
                (false, _) if comes => 0,
                (true, _) => 1,
                (false, _) => 2,
            };
            found.push(Found { order: (group, order(colour), conductor), ends });
        }
        found.sort_by_key(|it| it.order);
        // What comes to one switch from elsewhere leaves room in its lane for what comes to another.
        let mut lanes: Vec<Vec<usize>> = Vec::new();
        for (index, it) in found.iter().enumerate() {
            let meets = |other: &Found| other.ends.iter().any(|at| it.ends.iter().any(|end| end.1 == at.1));
            let fits = |lane: &Vec<usize>| {
                lane.iter().map(|other| &found[*other]).all(|other| other.order.0 == it.order.0 && !meets(other))
            };
            match lanes.iter_mut().find(|lane| shared && fits(lane)) {
                Some(lane) => lane.push(index),
                None => lanes.push(vec![index]),
            }
        }
        let high = (bottom - top) / lanes.len().max(1) as f32;
        for (number, lane) in lanes.iter().enumerate() {
            let y = top + high * (number as f32 + 0.5);
            for index in lane {
                let it = &found[*index];
                let wire = self.wire(work, it.order.2, &it.ends, y);
                self.wires.push(wire);
            }
        }
    }

    fn wire(&self, work: &Work, conductor: usize, ends: &[(EndId, usize)], y: f32) -> WireDrawn {
        let is_between = ends.len() == 2;
        let middle = |it: usize| self.plates[it].rect.center().x;
        let side = |plate: usize| {
            let other = ends.iter().map(|it| it.1).find(|it| *it != plate);
            match (other, self.plates[plate].inwards) {
                (Some(other), _) => (middle(other) - middle(plate)).signum(),
                (None, 0.0) => 1.0,
                (None, it) => it,
            }
        };
        let of = |(end, plate): &(EndId, usize)| {
            let (rect, out) = (self.plates[*plate].rect, side(*plate));
            let edge = pos2(if out > 0.0 { rect.right() } else { rect.left() } + 8.0 * out, y);
            let handle = edge + vec2(out * FAN, 0.0);
            WireEnd { end: *end, plate: *plate, screw: self.screw_of(work, *end, *plate), edge, handle }
        };
        let drawn: Vec<WireEnd> = ends.iter().map(of).collect();
        let out = (!is_between).then(|| drawn[0].handle + vec2(side(drawn[0].plate) * STUB, 0.0));
        WireDrawn { conductor, colour: work.end_facts(ends[0].0).colour, ends: drawn, out }
    }

    /// Where under its screw an end is: several lie side by side.
    fn screw_of(&self, work: &Work, end: EndId, plate: usize) -> Option<Pos2> {
        let terminal = work.terminal_of(end)?;
        let at = self.plates[plate].screw(terminal)?.at;
        let held: Vec<EndId> = work.ends_in(terminal).collect();
        let number = held.iter().position(|it| *it == end).unwrap_or(0) as f32;
        Some(at + vec2(0.0, (number - (held.len() as f32 - 1.0) / 2.0) * 5.0))
    }
}

impl PlateDrawn {
    /// The screw of a terminal, if it is drawn.
    pub fn screw(&self, terminal: TerminalId) -> Option<&Screw> {
        self.screws.iter().find(|it| it.terminal == terminal)
    }

    /// What is pressed to put the switch over: the half with the blade.
    pub fn rocker(&self) -> Rect {
        let middle = self.rect.center().x;
        match self.inwards {
            it if it > 0.0 => self.rect.with_max_x(middle),
            it if it < 0.0 => self.rect.with_min_x(middle),
            _ => Rect::from_center_size(self.rect.center(), vec2(self.rect.width() * 0.4, self.rect.height())),
        }
    }
}

fn plate(passage: &Passage, besides: Besides, switch: SwitchId, rect: Rect, inwards: f32) -> PlateDrawn {
    let exercise = passage.work().exercise();
    let facts = &exercise.switches[switch];
    let more: Vec<TerminalId> =
        exercise.terminals_at(facts.location).filter(|it| is_drawn(passage, besides, *it)).collect();
    let rows = if inwards == 0.0 { facts.terminals.len() / 2 } else { facts.terminals.len() };
    let all = rows + more.len();
    let y = |row: usize| rect.top() + rect.height() * (row as f32 + 0.55) / all as f32;
    let mut screws = Vec::new();
    for (number, terminal) in facts.terminals.iter().enumerate() {
        // The common one in the middle; of two pairs the first is on the left.
        let (row, side) = match (inwards == 0.0, number) {
            (true, it) => (it % rows, if it < rows { -1.0 } else { 1.0 }),
            (false, 0) => (1, inwards),
            (false, 1) => (0, inwards),
            (false, it) => (it, inwards),
        };
        let at = pos2(rect.center().x + side * rect.width() * if inwards == 0.0 { 0.28 } else { SCREW }, y(row));
        let tip = at - vec2(side * rect.width() * if inwards == 0.0 { 0.1 } else { 0.22 }, 0.0);
        screws.push(Screw { terminal: *terminal, at, tip: Some(tip) });
    }
    for (number, terminal) in more.into_iter().enumerate() {
        let at = pos2(rect.center().x + inwards * rect.width() * SCREW, y(rows + number));
        screws.push(Screw { terminal, at, tip: None });
    }
    PlateDrawn { switch, location: facts.location, rect, screws, inwards }
}

fn is_drawn(passage: &Passage, besides: Besides, terminal: TerminalId) -> bool {
    let (work, used_by) = (passage.work(), passage.work().exercise().terminals[terminal].used_by);
    let is_connector = matches!(used_by, TerminalUse::Connector(_));
    let held = || work.ends_in(terminal);
    let leads_on = || held().any(|it| passage.is_between(it.conductor()));
    match besides {
        Besides::Nothing => false,
        Besides::Earth => used_by == TerminalUse::BoxEarth,
        Besides::Through => is_connector && leads_on(),
        Besides::Connectors => is_connector && (leads_on() || held().count() > 1),
    }
}

/// The number of the device that a conductor of a board comes from; `None` for one that comes from no board.
pub fn from_board(work: &Work, conductor: usize) -> Option<usize> {
    let exercise = work.exercise();
    let end = work.ends_of(conductor)?.into_iter().find(|it| exercise.is_board(work.end_location(*it)))?;
    match exercise.terminals[work.terminal_of(end)?].used_by {
        TerminalUse::DeviceLine(it) | TerminalUse::DeviceNeutral(it) => Some(it.index()),
        _ => None,
    }
}

/// The order of the wires, from the top: as their terminals in a finished house.
const fn order(colour: Colour) -> u8 {
    match colour {
        Colour::Black => 0,
        Colour::Brown => 1,
        Colour::Grey => 2,
        Colour::Blue => 3,
        _ => 4,
    }
}
