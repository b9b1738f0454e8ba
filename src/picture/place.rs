//! Drawing the whole place: what stands on the walls where the plan has it, and the cables between.
//!
//! Every location, switch, lamp and device has its spot; terminals and ends are for the closer view.

use super::{
    View,
    cable_names::name_cables,
    canvas::{Canvas, fill, line, thin},
    conductor::{sheath, stripes},
    plan::Plan,
    plywood::{LEGS, plywood},
    routes::{Stop, routes},
    shape::{Fill, Layer, Outline, Paint, Path, Rect, Scene, Xy},
    stand::Stand,
    words::Words,
};
use crate::{
    exercise::{LocationId, LocationKind},
    trade::cable::CableKind,
    work::Work,
};

const MARGIN: f32 = 30.0;
/// Plywood around what is fixed to it.
const BARE: f32 = 30.0;
/// How far a lamp's light reaches on a board.
const REACH: f32 = 190.0;

/// What runs between two locations: every cable, then every run that has none yet. Its name, and the two.
fn between(work: &Work) -> Vec<(&str, [LocationId; 2])> {
    let exercise = work.exercise();
    let cables = exercise.cables.iter().map(|it| (it.name.as_str(), it.between));
    let runs = exercise.runs.iter().filter(|it| it.cable.is_none()).map(|it| (it.name.as_str(), it.between));
    cables.chain(runs).collect()
}

/// The whole place.
pub(super) fn place(work: &Work, words: &dyn Words, view: &View<'_>) -> Scene {
    let exercise = work.exercise();
    let stands: Vec<Stand> = (0..exercise.locations.len() as u16).map(|it| Stand::of(work, LocationId(it))).collect();
    let places: Vec<_> = exercise.locations.iter().map(|it| it.at).collect();
    let reach = |plan: &Plan| places.iter().zip(&stands).map(|(at, it)| (plan.point(*at), it.extent())).collect();
    let plan = Plan::of(&places, reach, |_| true);
    let at: Vec<Xy> = plan.taken.iter().zip(&stands).map(|(taken, it)| anchor(*taken, it)).collect();
    let stops: Vec<Stop> = exercise
        .locations
        .iter()
        .enumerate()
        .map(|(index, it)| Stop {
            body: stands[index].body(at[index]),
            taken: plan.taken[index],
            sides: sides(&it.kind),
            void: None,
        })
        .collect();
    let runs = between(work);
    let pairs: Vec<[usize; 2]> = runs.iter().map(|it| it.1.map(LocationId::index)).collect();
    let paths = routes(&stops, &pairs);

    let mut canvas = Canvas::default();
    let names: Vec<&str> = runs.iter().map(|it| it.0).collect();
    let written = name_cables(&mut canvas, &names, &paths, &plan.taken, |_| Paint::Plywood);
    let corners =
        plan.taken.iter().chain(&written).flat_map(|it| [Xy::new(it.left, it.top), Xy::new(it.right(), it.bottom())]);
    let sheet = around(corners.chain(paths.iter().flat_map(Path::flattened))).grown(BARE);
    plywood(&mut canvas, sheet);
    lights(&mut canvas, work, &at, view);
    for (cable, path) in exercise.cables.iter().zip(&paths) {
        let thick =
            if cable.kind == CableKind::PendantFlex { 5.0 } else { 4.0 + 2.0 * cable.kind.cores().len() as f32 };
        sheath(&mut canvas, path, thick, cable.kind, None);
    }
    for path in paths.iter().skip(exercise.cables.len()) {
        for it in stripes(path) {
            canvas.path(Layer::Cables, None, it, line(Paint::QuietInk, 3.0));
        }
    }
    for (it, at) in stands.iter().zip(&at) {
        it.draw(&mut canvas, work, *at, Paint::Plywood, words, view);
    }
    canvas.moved(MARGIN - sheet.left, MARGIN - sheet.top);
    canvas.into_scene(sheet.width + 2.0 * MARGIN, sheet.height + LEGS + 2.0 * MARGIN)
}

/// The point that the author placed, of what a thing takes.
fn anchor(taken: Rect, stand: &Stand) -> Xy {
    let extent = stand.extent();
    Xy::new(taken.left + extent.left, taken.top + extent.up)
}

/// What it costs a cable to leave each side of a thing: top, bottom, left, right. Under a thing stands its name, and a lamp hangs.
fn sides(kind: &LocationKind) -> [f32; 4] {
    match kind {
        LocationKind::Luminaire => [0.0, 900.0, 500.0, 500.0],
        LocationKind::Rose => [0.0, 150.0, 60.0, 400.0],
        LocationKind::Board | LocationKind::Box(_) => [0.0, 400.0, 50.0, 50.0],
        LocationKind::JunctionBox(_) | LocationKind::Fan(_) => [0.0, 400.0, 0.0, 0.0],
    }
}

fn around(points: impl Iterator<Item = Xy>) -> Rect {
    let (mut least, mut most) = (Xy::new(f32::INFINITY, f32::INFINITY), Xy::new(f32::NEG_INFINITY, f32::NEG_INFINITY));
    for it in points {
        least = Xy::new(least.x.min(it.x), least.y.min(it.y));
        most = Xy::new(most.x.max(it.x), most.y.max(it.y));
    }
    if least.x > most.x {
        Rect::new(0.0, 0.0, 0.0, 0.0)
    } else {
        Rect::new(least.x, least.y, most.x - least.x, most.y - least.y)
    }
}

/// The light of every lamp that is lit, on what is behind it.
fn lights(canvas: &mut Canvas, work: &Work, at: &[Xy], view: &View<'_>) {
    for (lamp, facts) in work.exercise().lamps.iter().enumerate() {
        let is_lit = view.lit.and_then(|it| it.get(lamp)).copied().unwrap_or(false);
        let Some(centre) = at.get(facts.location.index()).copied().filter(|_| is_lit) else { continue };
        let light = Fill::Radial { centre: (centre, thin(Paint::Glow, 170)), radius: REACH, rim: thin(Paint::Glow, 0) };
        canvas.put(Layer::Ground, None, Outline::Circle { centre, radius: REACH }, fill(light));
    }
}
