//! What stands behind the switches: screws, the blades of each, the wires between, what of it is live and where the current goes.

use bevy_egui::egui::{Align2, Rect, Stroke, StrokeKind, Ui, pos2, vec2};
use switchdrop::{
    circuit::{LoopStep, Part},
    exercise::{EndId, Exercise, TerminalId, TerminalUse},
    picture::Paint,
    wording::{position, switch},
    work::Point,
};

use super::{
    CuriousState, DrawnHouse, beat,
    houses::House,
    lanes::{Besides, Lanes, PlateDrawn, Screw},
    other_houses,
    page::pressed,
    steps::CuriousStep,
    wires::Drawing,
};
use crate::workshop::{arrows, panel::PanelContext, theme};

/// Draws it. Whether a wire of it is pointed at that carries a current.
pub fn show(
    ui: &Ui,
    panel: &mut PanelContext<'_>,
    state: &CuriousState,
    (house, drawn): (&House, &DrawnHouse),
    room: Rect,
    dragged: &mut Option<EndId>,
) -> bool {
    let text = 14.5 * theme::scale_of(ui).clamp(0.9, 1.2);
    let lanes = Lanes::new(&house.passage, Besides::of(state, house), room, text);
    let drawing = Drawing {
        painter: ui.painter().with_clip_rect(room.expand(4.0).intersect(ui.clip_rect())),
        work: house.passage.work(),
        flow: &drawn.flow,
        text,
        walked: state.walk.walked(),
    };
    drawing.words(pos2(room.left(), room.top()), Align2::LEFT_TOP, &panel.say("curious-glass", &[]), false);
    let joins = state.step == CuriousStep::Beat;
    for it in &lanes.plates {
        plate(&drawing, panel, house, it);
        let rect = if joins { it.rocker() } else { it.rect };
        let address = &drawing.work.exercise().switches[it.switch].address;
        pressed(ui, panel, (&format!("plate:{address}"), "curious-press-plate"), it.switch, rect, house);
    }
    let is_pointed_at = drawing.wires(panel, &lanes);
    for it in &lanes.plates {
        screws(panel, &drawing, it);
    }
    if joins {
        beat::ends(ui, panel, &drawing, house, &lanes, dragged);
    }
    other_houses::marks(&drawing, house, &lanes);
    is_pointed_at
}

/// The glass, the blades behind it, and how the rocker stands.
fn plate(drawing: &Drawing<'_>, panel: &PanelContext<'_>, house: &House, plate: &PlateDrawn) {
    let (painter, exercise) = (&drawing.painter, drawing.work.exercise());
    let edge = Stroke::new(1.5, theme::of(Paint::SheathEdge));
    painter.rect(plate.rect, 10, theme::of(Paint::Glass), edge, StrokeKind::Inside);
    let at = house.passage.positions().get(plate.switch.index()).copied().unwrap_or(0);
    let how = position(panel.wording, exercise, plate.switch, at);
    let title =
        panel.say("curious-rocker", &[("switch", &switch(panel.wording, exercise, plate.switch)), ("how", &how)]);
    let beneath = plate.rect.bottom() + 3.0;
    let (x, anchor) = match plate.inwards {
        it if it > 0.0 => (plate.rect.left(), Align2::LEFT_TOP),
        it if it < 0.0 => (plate.rect.right(), Align2::RIGHT_TOP),
        _ => (plate.rect.center().x, Align2::CENTER_TOP),
    };
    drawing.words(pos2(x, beneath), anchor, &title, true);
    let metal = Stroke::new(4.0, theme::of(Paint::BrassEdge));
    for it in &plate.screws {
        if let Some(tip) = it.tip {
            painter.line_segment([it.at, tip], metal);
            painter.circle_filled(tip, 5.0, theme::of(Paint::BrassEdge));
        }
    }
    // The common terminal of a two-way switch has the pivot; between two pairs the blades lie straight.
    let pivot = plate.screws.first().filter(|_| plate.inwards != 0.0).and_then(|it| {
        let at = it.tip? - vec2(plate.inwards * plate.rect.width() * 0.16, 0.0);
        painter.line_segment([it.tip?, at], metal);
        Some((it.terminal, at))
    });
    let tip = |it| plate.screw(it).and_then(|it: &Screw| it.tip);
    for pair in house.passage.blades(plate.switch) {
        let end_of = |it| pivot.filter(|of| of.0 == it).map(|of| of.1).or_else(|| tip(it));
        let (Some(from), Some(to)) = (end_of(pair[0]), end_of(pair[1])) else { continue };
        let blade = [from, to];
        painter.line_segment(blade, Stroke::new(7.0, theme::of(Paint::BrassEdge)));
        painter.line_segment(blade, Stroke::new(4.0, theme::of(Paint::BrassLight)));
        if pair.iter().any(|it| drawing.flow.is_live(drawing.work, Point::Terminal(*it))) {
            arrows::ticks(painter, &blade, arrows::BESIDE_CORE, arrows::Sides::Both);
        }
        let is_here = |it: &&LoopStep| matches!(it.part, Part::Contact(switch, _) if switch == plate.switch);
        let carried = drawing.flow.loops.iter().flat_map(|it| &it.steps).filter(is_here);
        if let Some(it) = carried
            .into_iter()
            .find(|it| pair.iter().all(|end| [it.from, it.to].contains(&Some(Point::Terminal(*end)))))
        {
            let is_along = it.from == Some(Point::Terminal(pair[0]));
            arrows::arrows(painter, &if is_along { blade } else { [to, from] }, 6.0, drawing.walked, &[]);
        }
    }
    if let Some((_, at)) = pivot {
        painter.circle(at, 6.0, theme::of(Paint::BrassLight), Stroke::new(2.0, theme::of(Paint::BrassEdge)));
    }
}

/// The screws over the ends beneath them, each with its name.
fn screws(panel: &PanelContext<'_>, drawing: &Drawing<'_>, plate: &PlateDrawn) {
    let exercise = drawing.work.exercise();
    for it in &plate.screws {
        let brass = Stroke::new(1.5, theme::of(Paint::BrassEdge));
        drawing.painter.circle(it.at, 9.0, theme::of(Paint::Brass), brass);
        let slot = vec2(5.0, -4.0);
        drawing.painter.line_segment([it.at - slot, it.at + slot], brass);
        drawing.name(it.at - vec2(0.0, 10.0), &screw_name(panel, exercise, it.terminal));
    }
}

/// What stands beside a screw.
fn screw_name(panel: &PanelContext<'_>, exercise: &Exercise, terminal: TerminalId) -> String {
    match exercise.terminals[terminal].used_by {
        TerminalUse::Contact(switch, number) => exercise.switches[switch].way.name_of(usize::from(number)).to_owned(),
        TerminalUse::BoxEarth => panel.say("curious-earth-screw", &[]),
        _ => panel.say("curious-connector", &[]),
    }
}
