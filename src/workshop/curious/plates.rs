//! What stands behind the two switches: terminals, the blade of each, the three cores between, and what of it is live.

use bevy_egui::egui::{Align2, FontId, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Ui, pos2, vec2};
use switchdrop::{
    picture::{FontWeight, Paint},
    reason::{PassageCore, PassageEnd},
    trade::colour::Colour,
};

use super::{
    House,
    page::{named, pressed, rocker},
};
use crate::workshop::{panel::PanelContext, theme};

/// How wide a plate is, points.
const PLATE: f32 = 170.0;
/// How thick a core is drawn, points.
const CORE: f32 = 6.0;
/// Between the outward ticks of what is live, points.
const TICKS: f32 = 16.0;

/// Draws it.
pub fn show(ui: &Ui, panel: &mut PanelContext<'_>, house: &House, room: Rect) {
    let drawn = Drawn::new(ui, room);
    drawn.words(pos2(room.left(), room.top()), Align2::LEFT_TOP, &panel.say("curious-glass", &[]), false);
    for at in PassageEnd::BOTH {
        drawn.plate(panel, house, at);
        pressed(
            ui,
            panel,
            (&format!("plate:{}", at.address()), "curious-press-plate"),
            at,
            drawn.plates[at as usize],
            house,
        );
    }
    drawn.arrivals(panel, house);
    for core in PassageCore::ALL {
        drawn.core(panel, house, core);
    }
}

struct Drawn {
    painter: Painter,
    text: f32,
    plates: [Rect; 2],
}

impl Drawn {
    fn new(ui: &Ui, room: Rect) -> Self {
        let text = 14.5 * theme::scale_of(ui).clamp(0.9, 1.2);
        let (top, bottom) = (room.top() + 3.4 * text, room.bottom() - 1.6 * text);
        let wide = PLATE.min(room.width() * 0.26);
        let near = Rect::from_min_max(pos2(room.left() + 8.0, top), pos2(room.left() + 8.0 + wide, bottom));
        let far = Rect::from_min_max(pos2(room.right() - 8.0 - wide, top), pos2(room.right() - 8.0, bottom));
        Self {
            painter: ui.painter().with_clip_rect(room.expand(4.0).intersect(ui.clip_rect())),
            text,
            plates: [near, far],
        }
    }

    fn words(&self, at: Pos2, anchor: Align2, text: &str, is_bold: bool) {
        let weight = if is_bold { FontWeight::Bold } else { FontWeight::Normal };
        self.painter.text(at, anchor, text, FontId::new(self.text, theme::family(weight)), theme::INK.worn());
    }

    /// Towards the other switch, from a place in a plate.
    const fn inwards(at: PassageEnd) -> f32 {
        match at {
            PassageEnd::Near => 1.0,
            PassageEnd::Far => -1.0,
        }
    }

    fn terminal(&self, at: PassageEnd, terminal: &str) -> Pos2 {
        let plate = self.plates[at as usize];
        let row = PassageCore::ALL.iter().position(|it| it.terminal() == terminal).unwrap_or(1) as f32;
        let x = plate.center().x + Self::inwards(at) * plate.width() * 0.24;
        pos2(x, plate.top() + plate.height() * (0.24 + 0.27 * row))
    }

    /// A plate with its terminals, and the blade that joins two of them.
    fn plate(&self, panel: &PanelContext<'_>, house: &House, at: PassageEnd) {
        let plate = self.plates[at as usize];
        let edge = Stroke::new(1.5, theme::of(Paint::SheathEdge));
        self.painter.rect(plate, 10, theme::of(Paint::Glass), edge, StrokeKind::Inside);
        let title = panel.say("curious-rocker", &[("switch", &named(panel, at)), ("how", &rocker(panel, house, at))]);
        self.words(pos2(plate.center().x, plate.bottom() + 3.0), Align2::CENTER_TOP, &title, true);
        let out = -Self::inwards(at);
        let inner = |it: &str| self.terminal(at, it) + vec2(out * plate.width() * 0.22, 0.0);
        let metal = Stroke::new(4.0, theme::of(Paint::BrassEdge));
        for core in PassageCore::ALL {
            let name = core.terminal();
            let (screw, tip) = (self.terminal(at, name), inner(name));
            self.painter.line_segment([screw, tip], metal);
            self.painter.circle(screw, 9.0, theme::of(Paint::Brass), Stroke::new(1.5, theme::of(Paint::BrassEdge)));
            self.words(screw + vec2(0.0, -11.0), Align2::CENTER_BOTTOM, name, true);
            if name != "COM" {
                self.painter.circle_filled(tip, 5.0, theme::of(Paint::BrassEdge));
            }
        }
        let pivot = self.terminal(at, "COM") + vec2(out * plate.width() * 0.34, 0.0);
        self.painter.line_segment([inner("COM"), pivot], metal);
        for pair in house.passage.joined(at) {
            let Some(to) = pair.iter().find(|it| *it != "COM") else { continue };
            let blade = [pivot, inner(to)];
            self.painter.line_segment(blade, Stroke::new(7.0, theme::of(Paint::BrassEdge)));
            self.painter.line_segment(blade, Stroke::new(4.0, theme::of(Paint::BrassLight)));
            if house.passage.is_terminal_live(at, "COM") {
                self.ticks(&blade);
            }
        }
        self.painter.circle(pivot, 6.0, theme::of(Paint::BrassLight), Stroke::new(2.0, theme::of(Paint::BrassEdge)));
    }

    /// What comes to the near switch besides: the feed from above, the lamp's wire from beneath.
    fn arrivals(&self, panel: &PanelContext<'_>, house: &House) {
        let plate = self.plates[0];
        let (above, beneath) = (plate.top() - 10.0, plate.bottom() - 10.0);
        for (terminal, key) in [("L1", "curious-feed"), ("L2", "curious-to-lamp")] {
            let is_live = house.passage.is_terminal_live(PassageEnd::Near, terminal);
            let words = format!("{} ({})", panel.say(key, &[]), state_word(panel, is_live));
            let from = self.terminal(PassageEnd::Near, terminal);
            // Beside the name of the terminal.
            let side = from + vec2(22.0, 0.0);
            let (bend, end) = if terminal == "L1" {
                (pos2(side.x, above), pos2(plate.right() + 10.0, above))
            } else {
                (pos2(side.x, beneath), pos2(plate.right() + 10.0, beneath))
            };
            self.wire(&[from, side, bend, end], Colour::Brown, is_live);
            self.words(end + vec2(8.0, 0.0), Align2::LEFT_CENTER, &words, false);
        }
    }

    /// A core from its terminal at the near switch to that at the far one, or hanging beside it.
    fn core(&self, panel: &PanelContext<'_>, house: &House, core: PassageCore) {
        let [from, to] = PassageEnd::BOTH.map(|it| self.terminal(it, core.terminal()));
        let is_live = house.passage.is_live(core);
        let colour = match core {
            PassageCore::Brown => Colour::Brown,
            PassageCore::Black => Colour::Black,
            PassageCore::Grey => Colour::Grey,
        };
        let is_on = house.passage.is_on(core);
        let mut way = vec![from];
        if is_on {
            way.push(to);
        } else {
            let before = self.plates[1].left() - 36.0;
            way.extend([pos2(before, to.y), pos2(before + 14.0, to.y + 7.0), pos2(before + 20.0, to.y + 20.0)]);
        }
        self.wire(&way, colour, is_live);
        let middle = f32::midpoint(self.plates[0].right(), self.plates[1].left());
        let word = state_word(panel, is_live);
        let word = if is_on { word } else { format!("{word}, {}", panel.say("curious-loose", &[])) };
        let at = pos2(middle, from.y - 9.0);
        self.words(at, Align2::CENTER_BOTTOM, &word, is_live);
    }

    fn wire(&self, way: &[Pos2], colour: Colour, is_live: bool) {
        if is_live {
            self.ticks(way);
        }
        let of = |paint: Paint| theme::of(paint);
        self.painter.add(Shape::line(way.to_vec(), Stroke::new(CORE + 2.0, of(Paint::ConductorEdge(colour)))));
        self.painter.add(Shape::line(way.to_vec(), Stroke::new(CORE, of(Paint::Conductor(colour)))));
    }

    /// Short ticks outwards on both sides of a way, the sign of what is live.
    fn ticks(&self, way: &[Pos2]) {
        let stroke = Stroke::new(2.0, LIVE);
        for pair in way.windows(2) {
            let along = pair[1] - pair[0];
            let (length, unit) = (along.length(), along.normalized());
            let across = unit.rot90();
            let mut reached = TICKS / 2.0;
            while reached < length {
                let at = pair[0] + unit * reached;
                reached += TICKS;
                for side in [across, -across] {
                    self.painter.line_segment([at + side * 6.0, at + side * 11.0], stroke);
                }
            }
        }
    }
}

/// The colour of the ticks: that of a warning, for what is live can kill.
const LIVE: theme::Role = theme::WARNING;

fn state_word(panel: &PanelContext<'_>, is_live: bool) -> String {
    panel.say(if is_live { "curious-live" } else { "curious-not-live" }, &[])
}
