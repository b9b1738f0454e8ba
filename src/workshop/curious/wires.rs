//! The wires behind the switches: each along its lane, with ticks where it is live and arrows where it carries a current.

use bevy_egui::egui::{Align2, FontId, Painter, Pos2, Shape, Stroke, StrokeKind, vec2};
use switchdrop::{
    circuit::Flow,
    picture::{FontWeight, Paint},
    trade::colour::Colour,
    work::Work,
};

use super::lanes::{Lanes, WireDrawn, from_board};
use crate::workshop::{arrows, panel::PanelContext, theme};

/// How thick a core is drawn, points.
const CORE: f32 = 6.0;

/// What they are drawn with.
pub struct Drawing<'a> {
    /// Onto what.
    pub painter: Painter,
    /// The house's work.
    pub work: &'a Work,
    /// What flows in it.
    pub flow: &'a Flow,
    /// Size of its text, points.
    pub text: f32,
    /// How far its arrows have walked, points.
    pub walked: f32,
}

impl Drawing<'_> {
    /// Words at a place.
    pub fn words(&self, at: Pos2, anchor: Align2, text: &str, is_bold: bool) {
        let weight = if is_bold { FontWeight::Bold } else { FontWeight::Normal };
        self.painter.text(at, anchor, text, FontId::new(self.text, theme::family(weight)), theme::INK.worn());
    }

    /// A flag on a wire: what is said of it takes no room from its neighbours.
    fn flag(&self, at: Pos2, text: &str, is_bold: bool) {
        let weight = if is_bold { FontWeight::Bold } else { FontWeight::Normal };
        let font = FontId::new(self.text, theme::family(weight));
        let galley = self.painter.layout_no_wrap(text.to_owned(), font, theme::INK.worn());
        let rect = Align2::CENTER_CENTER.anchor_size(at, galley.size());
        let edge = Stroke::new(1.0, theme::HAIR);
        self.painter.rect(rect.expand2(vec2(5.0, 0.0)), 4, theme::PAPER, edge, StrokeKind::Outside);
        self.painter.galley(rect.min, galley, theme::INK.worn());
    }

    /// A name over whatever runs beneath it, on a ground of its own.
    pub fn name(&self, at: Pos2, text: &str) {
        let font = FontId::new(self.text, theme::family(FontWeight::Bold));
        let galley = self.painter.layout_no_wrap(text.to_owned(), font, theme::INK.worn());
        let rect = Align2::CENTER_BOTTOM.anchor_size(at, galley.size());
        self.painter.rect_filled(rect.expand2(vec2(2.0, -2.0)), 4, theme::of(Paint::Glass));
        self.painter.galley(rect.min, galley, theme::INK.worn());
    }

    /// Every wire, and a word with each. Whether one is pointed at that carries a current.
    pub fn wires(&self, panel: &PanelContext<'_>, lanes: &Lanes) -> bool {
        for it in &lanes.wires {
            self.wire(it);
            self.called(panel, lanes, it);
        }
        let carrying = lanes.wires.iter().filter(|it| self.flow.amps(it.conductor) != 0.0);
        arrows::is_pointed_at(&self.painter, &carrying.map(way).collect::<Vec<_>>())
    }

    fn is_live(&self, it: &WireDrawn) -> bool {
        it.ends.iter().any(|it| self.flow.is_live(self.work, self.work.point_of(it.end)))
    }

    fn wire(&self, it: &WireDrawn) {
        let way = way(it);
        if self.is_live(it) {
            arrows::ticks(&self.painter, &way, arrows::BESIDE_CORE, arrows::Sides::Both);
        }
        let of = |paint: Paint| theme::of(paint);
        let line =
            |way: &[Pos2], wide: f32, paint| self.painter.add(Shape::line(way.to_vec(), Stroke::new(wide, of(paint))));
        let is_bare = it.colour == Colour::Bare;
        let core = if is_bare { CORE - 1.5 } else { CORE };
        line(&way, core + 2.0, Paint::ConductorEdge(it.colour));
        line(&way, core, Paint::Conductor(it.colour));
        // From its first end on, or from its second.
        let amps = self.flow.amps(it.conductor);
        if amps != 0.0 {
            let first = it.ends.first().map_or(0, |it| it.end.index() % 2);
            let is_along = (amps > 0.0) == (first == 0);
            let way: Vec<Pos2> = if is_along { way } else { way.into_iter().rev().collect() };
            arrows::arrows(&self.painter, &way, 6.0, self.walked, &[]);
        }
    }

    /// Beside what comes from elsewhere where it leads; on what leads from switch to switch whether it is live.
    fn called(&self, panel: &PanelContext<'_>, lanes: &Lanes, it: &WireDrawn) {
        let is_live = self.is_live(it);
        // What brings the current back is live to the trade, whatever a hand feels: nothing is called "not live" that carries any.
        let returns = !is_live && self.flow.amps(it.conductor) != 0.0;
        let key = match (is_live, returns) {
            (true, _) => "curious-live",
            (false, true) => "curious-returns",
            (false, false) => "curious-not-live",
        };
        let word = panel.say(key, &[]);
        if let (Some(out), [end]) = (it.out, &it.ends[..]) {
            let key = match (from_board(self.work, it.conductor), it.colour) {
                (Some(device), Colour::Blue) if device > 0 => "curious-to-neighbour",
                (Some(_), Colour::Blue) => "curious-to-board",
                (Some(_), _) => "curious-feed",
                (None, Colour::Blue) => "curious-from-lamp",
                (None, _) => "curious-to-lamp",
            };
            let is_right = out.x > end.handle.x;
            let side = if is_right { 1.0 } else { -1.0 };
            let anchor = if is_right { Align2::LEFT_CENTER } else { Align2::RIGHT_CENTER };
            let text = panel.say(key, &[]);
            let is_plain = lanes.plates.len() > 2 || it.colour == Colour::Blue && !is_live;
            let text = if is_plain { text } else { format!("{text} ({word})") };
            let at = out + vec2(8.0 * side, 0.0);
            let font = FontId::new(self.text, theme::family(FontWeight::Normal));
            let wide = self.painter.layout_no_wrap(text.clone(), font, theme::INK.worn()).size().x;
            // Not over another switch.
            if !lanes.plates.iter().any(|it| it.rect.x_range().contains(at.x + side * wide)) {
                self.words(at, anchor, &text, false);
            }
        } else if let [from, to] = &it.ends[..] {
            let loose = [from, to].into_iter().any(|it| self.work.terminal_of(it.end).is_none());
            let text = if loose { format!("{word}, {}", panel.say("curious-loose", &[])) } else { word };
            // Where there is less room, clear of what is said of a wire that comes from elsewhere.
            let share = if lanes.plates.len() > 2 { 0.74 } else { 0.5 };
            self.flag(from.handle + (to.handle - from.handle) * share, &text, is_live);
        }
    }
}

/// The way of a wire: from under its screw, or hanging beside it, along its lane.
pub fn way(it: &WireDrawn) -> Vec<Pos2> {
    let mut way = Vec::new();
    for (number, end) in it.ends.iter().enumerate() {
        let other = it.ends.get(1 - number.min(1)).map_or(it.out, |it| Some(it.handle));
        let towards = other.map_or(1.0, |it| (end.handle.x - it.x).signum());
        let tip = end.screw.map_or_else(
            || vec![end.handle + vec2(towards * 12.0, 18.0), end.handle + vec2(towards * 8.0, 6.0)],
            |it| vec![it, end.edge],
        );
        let side = tip.into_iter().chain([end.handle]);
        if number == 0 {
            way.extend(side);
        } else {
            way.extend(side.rev());
        }
    }
    way.extend(it.out);
    way
}
