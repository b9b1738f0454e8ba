//! Joining the wires any way: taking hold of ends and putting them on screws, and what came of each try.

use bevy_egui::egui::{
    Align2, Color32, CornerRadius, FontId, Key, Label, Painter, Pos2, Rect, RichText, Sense, Stroke, StrokeKind, Ui,
    vec2,
};
use switchdrop::{
    exercise::{EndId, TerminalId},
    picture::{FontWeight, Paint},
    reason::LampGrid,
    trade::colour::Colour,
    wording::{end, terminal, try_sentence},
};

use super::{
    CuriousAct, CuriousState,
    houses::House,
    lanes::{Lanes, Screw, WireEnd},
    settings,
    steps::Wires,
    wires::Drawing,
};
use crate::workshop::{
    panel::{Intent, PanelContext},
    theme,
};

/// A handle, and what takes an end, points.
const HANDLE: (f32, f32) = (40.0, 26.0);
const SCREW: (f32, f32) = (40.0, 28.0);
/// The grid of a try, points.
const GRID: f32 = 40.0;

/// What can be taken hold of and where it can go. A drag goes by the place of the press: when frames are slow, press and movement arrive
/// together.
pub fn ends(
    ui: &Ui,
    panel: &mut PanelContext<'_>,
    drawing: &Drawing<'_>,
    house: &House,
    lanes: &Lanes,
    dragged: &mut Option<EndId>,
) {
    let free = house.passage.free_ends();
    let of_wires = lanes.wires.iter().flat_map(|it| it.ends.iter().map(|end| Handle::new(end, it.colour)));
    let handles: Vec<Handle> = of_wires.filter(|it| free.contains(&it.end)).collect();
    let held = dragged.or(house.held);
    let plate = held.and_then(|held| handles.iter().find(|it| it.end == held)).map(|it| it.plate);
    let near = lanes.plates.iter().enumerate().filter(|it| plate.is_none_or(|plate| plate == it.0));
    let targets: Vec<Target> = near.flat_map(|it| &it.1.screws).map(Target::new).collect();
    for it in &targets {
        target(ui, panel, drawing, (house.held, *dragged), it);
    }
    for it in &handles {
        let name = end(panel.wording, drawing.work, it.end);
        let response = panel.spot(ui, &drawing.work.end_address(it.end), &name, it.rect);
        panel.is_on(house.held == Some(it.end));
        let edge = match (held == Some(it.end), response.has_focus() || response.hovered()) {
            (true, _) => Stroke::new(3.0, theme::ACCENT),
            (false, true) => Stroke::new(2.0, theme::ACCENT),
            (false, false) => Stroke::new(1.0, theme::of(Paint::ConductorEdge(it.colour))),
        };
        let is_bare = it.colour == Colour::Bare;
        let letters = if is_bare { panel.say("curious-bare", &[]) } else { it.colour.code().to_owned() };
        tag(ui.painter(), it.rect, &letters, edge, drawing.text);
        if response.clicked() {
            panel.intents.push(Intent::Curious(CuriousAct::Hold(it.end)));
        }
        response.on_hover_text(name);
    }
    drag(ui, panel, &handles, &targets, dragged);
    if ui.input(|it| it.key_pressed(Key::Escape)) {
        *dragged = None;
        if let Some(it) = house.held {
            panel.intents.push(Intent::Curious(CuriousAct::Hold(it)));
        }
    }
}

/// An end where it can be taken hold of.
struct Handle {
    end: EndId,
    plate: usize,
    colour: Colour,
    rect: Rect,
}

impl Handle {
    fn new(of: &WireEnd, colour: Colour) -> Self {
        Self { end: of.end, plate: of.plate, colour, rect: Rect::from_center_size(of.handle, vec2(HANDLE.0, HANDLE.1)) }
    }
}

/// A screw that takes an end.
struct Target {
    terminal: TerminalId,
    rect: Rect,
}

impl Target {
    fn new(of: &Screw) -> Self {
        Self { terminal: of.terminal, rect: Rect::from_center_size(of.at, vec2(SCREW.0, SCREW.1)) }
    }
}

/// A screw: with an end held, by a press or by a drag, it is outlined, and a press puts the end there.
fn target(
    ui: &Ui,
    panel: &mut PanelContext<'_>,
    drawing: &Drawing<'_>,
    (held, dragged): (Option<EndId>, Option<EndId>),
    it: &Target,
) {
    let exercise = drawing.work.exercise();
    let name = terminal(panel.wording, drawing.work, it.terminal);
    let response = panel.spot(ui, &exercise.terminals[it.terminal].address, &name, it.rect);
    let pointer = ui.input(|it| it.pointer.latest_pos());
    let is_under = dragged.is_some() && pointer.is_some_and(|at| it.rect.contains(at));
    let stroke = match (response.has_focus() || is_under, held.or(dragged).is_some() || response.hovered()) {
        (true, _) => Stroke::new(3.0, theme::ACCENT),
        (false, true) => Stroke::new(1.5, theme::ACCENT),
        (false, false) => Stroke::NONE,
    };
    ui.painter().rect_stroke(it.rect, 5, stroke, StrokeKind::Outside);
    if let Some(end) = held.filter(|_| response.clicked()) {
        panel.intents.push(Intent::Curious(CuriousAct::Put(end, it.terminal)));
    }
    response.on_hover_text(name);
}

/// Follows an end that is dragged, and lets it go where the button is let go.
fn drag(ui: &Ui, panel: &mut PanelContext<'_>, handles: &[Handle], targets: &[Target], dragged: &mut Option<EndId>) {
    let (origin, dragging, down, at) = ui.input(|it| {
        let pointer = &it.pointer;
        (pointer.press_origin(), pointer.is_decidedly_dragging(), pointer.primary_down(), pointer.latest_pos())
    });
    if dragged.is_none() && dragging {
        *dragged = handles.iter().find(|it| origin.is_some_and(|at| it.rect.contains(at))).map(|it| it.end);
        ui.ctx().request_repaint();
    }
    let Some(from) = dragged.and_then(|end| handles.iter().find(|it| it.end == end)) else { return };
    let Some(at) = at else { return };
    if down {
        let way = [from.rect.center(), at];
        ui.painter().line_segment(way, Stroke::new(10.0, theme::PAPER));
        ui.painter().line_segment(way, Stroke::new(6.0, theme::of(Paint::Conductor(from.colour))));
        ui.painter().circle_filled(at, 5.0, theme::ACCENT.worn());
        return;
    }
    if let Some(it) = targets.iter().find(|it| it.rect.contains(at)) {
        panel.intents.push(Intent::Curious(CuriousAct::Put(from.end, it.terminal)));
    }
    *dragged = None;
}

/// A sleeve with the letters of a colour, to take hold of.
fn tag(painter: &Painter, rect: Rect, letters: &str, edge: Stroke, text: f32) {
    painter.rect(rect, 6, theme::PAPER, edge, StrokeKind::Inside);
    let font = FontId::new(text, theme::family(FontWeight::Bold));
    painter.text(rect.center(), Align2::CENTER_CENTER, letters, font, theme::INK.worn());
}

/// What to press, and the tries so far.
pub fn beside(ui: &mut Ui, panel: &mut PanelContext<'_>, state: &CuriousState, house: &House) {
    ui.horizontal_wrapped(|ui| {
        for (wires, key, text) in [
            (Wires::Two, "curious:join-2", "curious-try-wires-2"),
            (Wires::Three, "curious:join-3", "curious-try-wires-3"),
        ] {
            let text = panel.say(text, &[]);
            if panel.choice(ui, state.wires == wires, key, &text) {
                panel.intents.push(Intent::Curious(CuriousAct::Join(wires)));
            }
        }
        if house.passage.is_open() {
            let text = panel.say("curious-beat-close", &[]);
            if panel.main_button(ui, "curious:close", &text) {
                panel.intents.push(Intent::Curious(CuriousAct::Close));
            }
        }
    });
    ui.add_space(4.0);
    panel.heading(ui, "curious-wanted");
    ui.horizontal(|ui| {
        let [no, yes] = [false, true];
        settings::mini(ui, &LampGrid::two([[no, yes], [yes, no]]), &[], GRID, Sense::hover());
        ui.label(panel.say("curious-wanted-or", &[]));
        settings::mini(ui, &LampGrid::two([[yes, no], [no, yes]]), &[], GRID, Sense::hover());
        ui.label(RichText::new(panel.say("curious-wanted-means", &[])).small());
    });
    ui.add_space(4.0);
    panel.heading(ui, "curious-tries");
    let tries = &state.tries[state.wires as usize];
    if tries.is_empty() {
        theme::quiet(ui, &panel.say("curious-tries-none", &[]));
    }
    for (number, it) in tries.iter().enumerate() {
        let told = try_sentence(panel.wording, it);
        ui.horizontal_top(|ui| {
            let response = settings::mini(ui, &it.grid, &it.opens, GRID, Sense::click());
            let name = panel.say("curious-again", &[("told", &told)]);
            panel.touchable(ui, &response, &format!("try:{number}"), &name);
            if response.clicked() {
                panel.intents.push(Intent::Curious(CuriousAct::Again(number)));
            }
            response.on_hover_text(name);
            let ink = if !it.opens.is_empty() || it.bare_live || it.unearthed { theme::WARNING } else { theme::INK };
            ui.add(Label::new(RichText::new(told).small().color(ink)).wrap());
        });
    }
}

/// A hand, an outline and no more, its palm at a place.
pub fn hand(painter: &Painter, palm: Pos2, size: f32, ink: Color32) {
    let skin = Color32::from_rgb(246, 226, 206);
    let edge = Stroke::new(2.0, ink);
    let finger = |x: f32, top: f32| {
        let rect = Rect::from_min_max(palm + vec2(x - 0.13, -top) * size, palm + vec2(x + 0.13, 0.1) * size);
        painter.rect(rect, CornerRadius::from(0.13 * size), skin, edge, StrokeKind::Middle);
    };
    let thumb = [palm + vec2(0.4, 0.35) * size, palm + vec2(0.78, -0.12) * size];
    for (wide, colour) in [(0.3 * size, ink), (0.3 * size - 4.0, skin)] {
        painter.line_segment(thumb, Stroke::new(wide, colour));
        painter.circle_filled(thumb[1], wide / 2.0, colour);
    }
    for (x, top) in [(-0.36, 0.75), (-0.12, 0.95), (0.12, 0.9), (0.36, 0.65)] {
        finger(x, top);
    }
    let rect = Rect::from_min_max(palm + vec2(-0.5, -0.15) * size, palm + vec2(0.5, 0.65) * size);
    painter.rect(rect, CornerRadius::from(0.22 * size), skin, edge, StrokeKind::Middle);
}
