//! The current on the drawings: arrows along what carries it, ticks outwards from what is live and carries none, a bar where it stops.

use bevy_egui::egui::{Painter, Pos2, Rect, Sense, Stroke, StrokeKind, Ui, vec2};
use switchdrop::{
    circuit::{Flow, LiveStop},
    picture::{CircuitDiagram, Layer, Outline, Paint, Scene, Shape, Thing},
    work::{Point, Work},
};

use super::{Current, point_of};
use crate::workshop::{
    arrows,
    drawing::Fit,
    foreseen::{along, nearest},
    letters,
    panel::PanelContext,
    theme,
    view::Pointed,
};

/// Less than this is no current that is drawn, amps: what insulation lets through.
const DRAWN: f64 = 0.0005;

/// How large arrows are, points.
fn size(fit: &Fit) -> f32 {
    (7.0 * fit.scale).max(4.5)
}

/// What a thing carries, in a few words; nothing of what carries none by itself.
pub fn carries(panel: &PanelContext<'_>, work: &Work, flow: &Flow, thing: Thing) -> Option<String> {
    let (point, amps) = match thing {
        Thing::Conductor(it) => (point_of(work, thing)?, flow.amps(it)),
        Thing::End(it) => (work.point_of(it), flow.amps(it.conductor())),
        _ => (point_of(work, thing)?, 0.0),
    };
    Some(if amps != 0.0 {
        panel.say("current-carries", &[("amps", &format!("{:.2}", amps.abs()))])
    } else if flow.is_live(work, point) {
        let key = if matches!(thing, Thing::Terminal(_)) { "current-live-terminal" } else { "current-live" };
        panel.say(key, &[])
    } else {
        panel.say("current-none", &[])
    })
}

/// The whole way of a core: it is drawn in pieces, which end where others begin.
fn whole(scene: &Scene, fit: &Fit, thing: Thing) -> Vec<Pos2> {
    let is_core = |it: &&Shape| {
        let in_colour = it.stroke.is_some_and(|it| matches!(it.paint, Paint::Conductor(_)));
        it.layer == Layer::Conductors && it.about == Some(thing) && in_colour
    };
    let mut pieces: Vec<Vec<Pos2>> = Vec::new();
    for it in scene.shapes.iter().filter(is_core) {
        if let Outline::Path(path) = &it.outline {
            pieces.push(path.flattened().into_iter().map(|it| fit.point(it)).collect());
        }
    }
    let mut way = if pieces.is_empty() { Vec::new() } else { pieces.remove(0) };
    let reach = 3.0 * fit.scale.max(1.0);
    while let (Some(first), Some(last)) = (way.first().copied(), way.last().copied()) {
        let ends = |it: &Vec<Pos2>| it.first().copied().zip(it.last().copied());
        let meets =
            |it: &Vec<Pos2>, at: Pos2| ends(it).is_some_and(|(a, b)| a.distance(at) < reach || b.distance(at) < reach);
        let Some(next) = pieces.iter().position(|it| meets(it, first) || meets(it, last)) else { break };
        let mut piece = pieces.remove(next);
        if !meets(&piece, last) {
            way.reverse();
        }
        let last = way.last().copied().unwrap_or(last);
        if ends(&piece).is_some_and(|(a, b)| b.distance(last) < a.distance(last)) {
            piece.reverse();
        }
        way.extend(piece);
    }
    way
}

/// The way of an end or of a conductor in the direction from its first end to its second.
fn directed(work: &Work, scene: &Scene, fit: &Fit, thing: Thing) -> Vec<Pos2> {
    let mut way = whole(scene, fit, thing);
    let Thing::End(end) = thing else { return way };
    // An end is drawn from its cable to its terminal or the other way.
    let terminal = work.terminal_of(end).and_then(|it| scene.spot(Thing::Terminal(it)));
    let tip = terminal.or(scene.spot(thing)).map(|it| fit.rect(it.rect).center());
    if let (Some(tip), [first, .., last]) = (tip, &way[..]) {
        let is_outwards = first.distance(tip) > last.distance(tip);
        let is_second = end.index() % 2 == 1;
        if is_outwards != is_second {
            way.reverse();
        }
    }
    way
}

/// Everything of a scene along which something can flow, with its conductor and its way.
fn ways(work: &Work, scene: &Scene, fit: &Fit) -> Vec<(Thing, usize, Vec<Pos2>)> {
    let cores = (0..work.conductor_count()).map(|it| (Thing::Conductor(it), it));
    let ends = work.ends().map(|it| (Thing::End(it), it.conductor()));
    let all = cores.chain(ends).map(|(thing, it)| (thing, it, directed(work, scene, fit, thing)));
    all.filter(|it| it.2.len() > 1).collect()
}

/// Over a place or a location, clear of its letters. What of it is pointed at, if a core is: its words stand at the pointer.
pub fn on_place(
    ui: &Ui,
    panel: &PanelContext<'_>,
    work: &Work,
    current: &Current,
    (scene, fit): (&Scene, &Fit),
    (walked, letters): (f32, &[Rect]),
) -> Option<Pointed> {
    let painter = ui.painter();
    let flow = &current.flow;
    let ways = ways(work, scene, fit);
    for (thing, conductor, way) in &ways {
        let amps = flow.amps(*conductor);
        if amps > 0.0 {
            arrows::arrows(painter, way, size(fit), walked, letters);
        } else if amps < 0.0 {
            let back: Vec<Pos2> = way.iter().rev().copied().collect();
            arrows::arrows(painter, &back, size(fit), walked, letters);
        } else if matches!(thing, Thing::End(_)) && point_of(work, *thing).is_some_and(|it| flow.is_live(work, it)) {
            arrows::ticks(painter, way, [4.5, 8.0], arrows::Sides::Both);
        }
    }
    for it in &flow.stops {
        if let LiveStop::Switch { switch, .. } = it
            && let Some(spot) = scene.spot(Thing::Switch(*switch))
        {
            stop(painter, fit.rect(spot.rect));
        }
    }
    // Beneath what can be touched.
    let ground = ui.interact(ui.min_rect(), ui.id().with("current"), Sense::hover());
    let cores: Vec<Vec<Pos2>> = ways.iter().map(|it| it.2.clone()).collect();
    let (thing, conductor, way) = &ways[nearest(&cores, ground.hover_pos()?)?];
    painter.line(way.clone(), Stroke::new(2.0, theme::ACCENT));
    let said = carries(panel, work, flow, *thing)?;
    let name = crate::workshop::tools::name(panel.wording, work, *thing);
    ground.on_hover_text_at_pointer(format!("{name}\n{said}"));
    Some(Pointed { thing: None, conductors: vec![*conductor] })
}

/// A bar across: what is live stops here.
fn stop(painter: &Painter, rect: Rect) {
    let at = rect.left_top() + vec2(-4.0, 4.0);
    painter.circle(at, 7.5, theme::PAPER, Stroke::new(1.5, theme::WARNING));
    painter.line_segment([at - vec2(4.0, 0.0), at + vec2(4.0, 0.0)], Stroke::new(3.0, theme::WARNING));
}

/// Over a circuit diagram.
pub fn on_diagram(painter: &Painter, work: &Work, flow: &Flow, (diagram, fit): (&CircuitDiagram, &Fit), walked: f32) {
    let letters = letters::of(painter, &diagram.scene, fit);
    for net in &diagram.nets {
        let is_live = net.leads.iter().any(|it| flow.is_live(work, Point::Terminal(it.0)));
        for (piece, amps) in net.flows(|it| flow.taken_at(work, it)) {
            let way = piece.map(|it| fit.point(it));
            if amps >= DRAWN {
                arrows::arrows(painter, &way, 6.0, walked, &letters);
            } else if is_live {
                arrows::ticks(painter, &way, [3.5, 7.5], arrows::Sides::Beneath);
            }
        }
    }
}

/// The net of a diagram that is under the pointer, as what is pointed at.
pub fn pointed_net(ui: &Ui, (diagram, fit): (&CircuitDiagram, &Fit)) -> Option<Pointed> {
    let ground = ui.interact(ui.min_rect(), ui.id().with("nets"), Sense::hover());
    let lines = diagram.nets.iter().enumerate().flat_map(|(number, net)| net.lines.iter().map(move |it| (number, it)));
    let (numbers, lines): (Vec<usize>, Vec<Vec<Pos2>>) =
        lines.map(|(number, it)| (number, it.map(|it| fit.point(it)).to_vec())).unzip();
    let net = &diagram.nets[numbers[nearest(&lines, ground.hover_pos()?)?]];
    Some(Pointed { thing: None, conductors: net.conductors.clone() })
}

/// Lights in a place what is pointed at.
pub fn light_place(painter: &Painter, work: &Work, (scene, fit): (&Scene, &Fit), pointed: &Pointed) {
    for it in &pointed.conductors {
        painter.line(along(scene, fit, Thing::Conductor(*it)), Stroke::new((9.0 * fit.scale).max(5.0), lit()));
    }
    let thing = match pointed.thing {
        // Terminals are for the closer view.
        Some(Thing::Terminal(it)) => work.exercise().terminals.get(it).map(|it| Thing::Location(it.location)),
        it => it,
    };
    if let Some(spot) = thing.and_then(|it| scene.spot(it)) {
        ring(painter, fit.rect(spot.rect));
    }
}

/// Lights in a diagram what is pointed at: of a location all that stands there.
pub fn light_diagram(painter: &Painter, work: &Work, (diagram, fit): (&CircuitDiagram, &Fit), pointed: &Pointed) {
    for net in &diagram.nets {
        if net.conductors.iter().any(|it| pointed.conductors.contains(it)) {
            for it in &net.lines {
                painter.line_segment(it.map(|it| fit.point(it)), Stroke::new(7.0, lit()));
            }
        }
    }
    let exercise = work.exercise();
    let is_lit = |thing: Thing| match (thing, pointed.thing) {
        (Thing::Switch(it), Some(Thing::Location(at))) => exercise.switches[it].location == at,
        (Thing::Lamp(it), Some(Thing::Location(at))) => exercise.lamps[it].location == at,
        (it, of) => Some(it) == of,
    };
    for spot in diagram.scene.spots.iter().filter(|it| is_lit(it.thing)) {
        ring(painter, fit.rect(spot.rect));
    }
}

fn lit() -> bevy_egui::egui::Color32 {
    let [r, g, b, _] = theme::ACCENT.worn().to_array();
    theme::veiled([r, g, b], 110)
}

fn ring(painter: &Painter, rect: Rect) {
    painter.rect_stroke(rect.expand(4.0), 6, Stroke::new(2.5, theme::ACCENT), StrokeKind::Outside);
}
