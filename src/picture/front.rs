//! Drawing a location whose cover is on: a plate with its rockers, or a closed rose, junction box or fan.
//!
//! No conductor is in sight, so none has a spot.

use super::{
    canvas::{Canvas, Type, both, line},
    depth::{body, screw},
    fittings::worked,
    paint::Paint,
    shape::{Anchor, Layer, Path, Rect, Scene, Thing, Xy},
    text::wrapped,
    words::{Label, Words},
};
use crate::{
    exercise::{LocationId, LocationKind, SwitchId},
    trade::accessory::Material,
    work::Work,
};

const GANG: f32 = 168.0;
const HEIGHT: f32 = 214.0;
const EDGE: f32 = 34.0;
const TOP: f32 = 26.0;
/// From the top of a plate to below its rockers.
const BELOW_ROCKERS: f32 = 142.0;

/// The location, closed.
pub(super) fn front(work: &Work, location: LocationId, words: &dyn Words) -> Scene {
    let mut canvas = Canvas::default();
    let place = &work.exercise().locations[location];
    let about = Thing::Location(location);
    let switches: Vec<_> = work.exercise().switches_at(location).collect();
    let width = GANG * switches.len().max(1) as f32 + 2.0 * EDGE + 60.0;
    let panel = Rect::new(30.0, TOP, width - 60.0, HEIGHT);
    if let LocationKind::Box(it) = &place.kind {
        let on = if it.plate.front == Material::Metal { Paint::MetalPlate } else { Paint::Plate };
        body(&mut canvas, Layer::Panels, Some(about), panel, 12.0, on);
        caught(&mut canvas, work, location, panel);
        for x in [panel.left + 19.0, panel.right() - 19.0] {
            let centre = Xy::new(x, panel.top + panel.height / 2.0);
            screw(&mut canvas, Layer::Fittings, Some(about), centre, 8.0, (1.0, 0.0));
        }
        for (place, switch) in switches.iter().enumerate() {
            let left = panel.left + EDGE + GANG * place as f32;
            gang(
                &mut canvas,
                work,
                *switch,
                (place, switches.len()),
                Rect::new(left, panel.top, GANG, HEIGHT),
                on,
                words,
            );
        }
    } else {
        let centre = panel.centre();
        canvas.circle(Layer::Panels, Some(about), centre, 96.0, both(Paint::Plate, Paint::QuietInk, 2.4));
        canvas.circle(Layer::Panels, Some(about), centre, 78.0, line(Paint::Recess, 3.0));
        canvas.circle(Layer::Fittings, Some(about), centre, 15.0, both(Paint::Recess, Paint::QuietInk, 2.0));
    }
    let style = Type::bold(20.0, Paint::Paper);
    let lines = wrapped(&place.name, style.size, style.weight, width - 24.0, 4);
    let top = panel.bottom() + 14.0;
    let end = canvas.lines(Some(about), width / 2.0, top, Anchor::Middle, style, &lines);
    let target = match place.kind {
        LocationKind::Rose | LocationKind::JunctionBox(_) | LocationKind::Fan(_) => {
            Rect::new(panel.centre().x - 96.0, panel.centre().y - 96.0, 192.0, 192.0)
        }
        // The plate below its rockers, with the name beneath it: the rockers are targets of their own.
        _ => Rect::new(panel.left, panel.top + BELOW_ROCKERS, panel.width, end + 4.0 - panel.top - BELOW_ROCKERS),
    };
    canvas.spot(work, about, target);
    canvas.into_scene(width, end + 18.0)
}

/// A conductor that the plate has caught: a loop of it stands out from under the edge.
fn caught(canvas: &mut Canvas, work: &Work, location: LocationId, panel: Rect) {
    for end in work.ends_at(location).filter(|it| work.prep_of(*it).is_some_and(|it| it.trapped)) {
        let colour = work.end_facts(end).colour;
        let (edge, y) = (panel.right(), panel.bottom() - 62.0);
        let path = Path::from(Xy::new(edge - 24.0, y)).cubic(
            Xy::new(edge + 26.0, y - 4.0),
            Xy::new(edge + 26.0, y + 34.0),
            Xy::new(edge - 24.0, y + 30.0),
        );
        for (paint, width) in [(Paint::ConductorEdge(colour), 8.5), (Paint::Conductor(colour), 6.5)] {
            canvas.path(Layer::Cables, Some(Thing::End(end)), path.clone(), line(paint, width));
        }
    }
}

fn gang(
    canvas: &mut Canvas,
    work: &Work,
    switch: SwitchId,
    (gang, of): (usize, usize),
    area: Rect,
    on: Paint,
    words: &dyn Words,
) {
    let about = Thing::Switch(switch);
    let position = work.positions().get(switch.index()).map_or(0, |it| usize::from(*it));
    let way = work.exercise().switches[switch].way;
    let (by, down) = (way.worked_by, way.is_down(position));
    let middle = area.left + area.width / 2.0;
    let rocker = Rect::new(middle - 36.0, area.top + 22.0, 72.0, 112.0);
    worked(canvas, about, rocker, by, down);
    let label = if of == 1 { Label::OnlyGang } else { Label::Gang { gang, of } };
    let style = Type::plain(16.0, on);
    let mut lines = wrapped(&words.say(label), style.size, style.weight, area.width - 12.0, 2);
    lines.extend(wrapped(&words.say(Label::Worked { by, down }), style.size, style.weight, area.width - 12.0, 1));
    canvas.lines(Some(about), middle, rocker.bottom() + 12.0, Anchor::Middle, style, &lines);
    canvas.spot(work, about, Rect::new(area.left + 4.0, area.top + 8.0, area.width - 8.0, BELOW_ROCKERS - 10.0));
}
