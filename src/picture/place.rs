//! Drawing the whole place: what stands on the walls where the plan has it, and the cables between.
//!
//! Every location, switch, lamp and device has its spot; terminals and ends are for the closer view.

use super::{
    View,
    cable_names::name_cables,
    canvas::{Canvas, fill, line, thin},
    conductor::{sheath, stripes},
    cores::OpenedCable,
    house::House,
    mounted::Mounted,
    paint::{Fill, Paint},
    plan::PlacePlan,
    plywood::{LEGS, plywood},
    routes::{Stop, routes},
    shape::{Layer, Outline, Path, Rect, Scene, Xy},
    words::Words,
};
use crate::{
    circuit::Glow,
    exercise::{LocationId, LocationKind},
    trade::cable::CableKind,
    work::Work,
};

const MARGIN: f32 = 14.0;
/// Plywood around what is fixed to it.
const BARE: f32 = 30.0;
/// How far a lamp's light reaches on a board.
const REACH: f32 = 260.0;

/// What runs between two locations: every cable, then every run that has none yet. Its name, and the two.
fn between(work: &Work) -> Vec<(&str, [LocationId; 2])> {
    let exercise = work.exercise();
    let cables = exercise.cables.iter().map(|it| (it.name.as_str(), it.between));
    let runs = exercise.runs.iter().filter(|it| it.cable.is_none()).map(|it| (it.name.as_str(), it.between));
    cables.chain(runs).collect()
}

/// What everything is fixed to.
enum Backdrop<'a> {
    House(House<'a>),
    Board,
}

impl Backdrop<'_> {
    fn behind(&self, at: Xy) -> Paint {
        match self {
            Self::House(it) => it.behind(at),
            Self::Board => Paint::Plywood,
        }
    }
}

/// The whole place, with the cores that are asked about in sight, and whether each has a tag.
pub(super) fn place(work: &Work, words: &dyn Words, view: &View<'_>, asked: (&[usize], bool)) -> Scene {
    let exercise = work.exercise();
    let house = |plan: &PlacePlan| House::of(&exercise.rooms, plan, view.evening);
    let stands: Vec<Mounted> = exercise.locations.ids().map(|it| Mounted::of(work, it)).collect();
    let locations: Vec<_> = exercise.locations.iter().collect();
    // A rose hangs from its ceiling.
    let point = |plan: &PlacePlan, index: usize| {
        let at = plan.point(locations[index].at);
        let ceiling = house(plan).ceiling_over(at).filter(|_| locations[index].kind == LocationKind::Rose);
        Xy::new(at.x, ceiling.map_or(at.y, |it| it + stands[index].extent().up))
    };
    let reach =
        |plan: &PlacePlan| stands.iter().enumerate().map(|(index, it)| (point(plan, index), it.extent())).collect();
    let suits = |plan: &PlacePlan| {
        let house = house(plan);
        plan.taken.iter().enumerate().all(|(index, it)| house.holds(point(plan, index), it))
    };
    let corners = exercise.rooms.iter().flat_map(|it| [it.from, it.to]);
    let places: Vec<_> = exercise.locations.iter().map(|it| it.at).chain(corners).collect();
    let plan = PlacePlan::of(&places, reach, suits);
    let at: Vec<Xy> = plan.taken.iter().zip(&stands).map(|(taken, it)| anchor(*taken, it)).collect();
    let backdrop = if exercise.rooms.is_empty() { Backdrop::Board } else { Backdrop::House(house(&plan)) };

    let runs = between(work);
    let stop = |index: usize| Stop {
        body: stands[index].body(at[index]),
        taken: plan.taken[index],
        sides: sides(&locations[index].kind, matches!(backdrop, Backdrop::House(_))),
        void: if let Backdrop::House(it) = &backdrop { it.ceiling_over(at[index]) } else { None },
    };
    let stops: Vec<Stop> = (0..stands.len()).map(stop).collect();
    let pairs: Vec<[usize; 2]> = runs.iter().map(|it| it.1.map(LocationId::index)).collect();
    let paths = routes(&stops, &pairs);

    let mut canvas = Canvas::default();
    let names: Vec<&str> = runs.iter().map(|it| it.0).collect();
    let cut = if let Backdrop::House(it) = &backdrop { it.cut() } else { Vec::new() };
    let opened = OpenedCable::of(work, asked, &paths, &plan.taken, &cut);
    let tags = opened.iter().flat_map(OpenedCable::tags);
    let taken: Vec<Rect> = plan.taken.iter().chain(tags).copied().collect();
    let wider = |cable: usize| OpenedCable::width(&opened, cable).map_or(0.0, |it| it / 2.0 - 4.0);
    let written = name_cables(&mut canvas, (&names, wider), &paths, [&taken, &cut], |it| backdrop.behind(it));
    let used: Vec<Rect> = taken.iter().chain(&written).copied().collect();
    let (sheet, below) = match &backdrop {
        Backdrop::Board => {
            let points = used.iter().flat_map(|it| [Xy::new(it.left, it.top), Xy::new(it.right(), it.bottom())]);
            let sheet = around(points.chain(paths.iter().flat_map(Path::flattened))).grown(BARE);
            plywood(&mut canvas, sheet, view.evening);
            lights(&mut canvas, work, &at, &backdrop, sheet, view);
            (sheet, LEGS)
        }
        Backdrop::House(house) => {
            house.draw_walls(&mut canvas);
            lights(&mut canvas, work, &at, &backdrop, house.extent(), view);
            let cables = paths.iter().flat_map(pieces).map(|it| it.grown(8.0));
            house.draw_section(&mut canvas, &used.iter().copied().chain(cables).collect::<Vec<_>>());
            let points = used
                .iter()
                .chain([&house.extent()])
                .flat_map(|it| [Xy::new(it.left, it.top), Xy::new(it.right(), it.bottom())])
                .collect::<Vec<_>>();
            (around(points.into_iter().chain(paths.iter().flat_map(Path::flattened))), 0.0)
        }
    };
    draw_cables(&mut canvas, work, &paths, &opened);
    for (it, at) in stands.iter().zip(&at) {
        it.draw(&mut canvas, work, *at, backdrop.behind(*at), words, view);
    }
    canvas.moved(MARGIN - sheet.left, MARGIN - sheet.top);
    canvas.into_scene(sheet.width + 2.0 * MARGIN, sheet.height + below + 2.0 * MARGIN)
}

/// The straight pieces of a path, each as the area that it takes.
fn pieces(path: &Path) -> Vec<Rect> {
    let points = path.flattened();
    points.windows(2).map(|it| around(it.iter().copied())).collect()
}

fn draw_cables(canvas: &mut Canvas, work: &Work, paths: &[Path], opened: &[OpenedCable]) {
    let cables = &work.exercise().cables;
    for (index, (cable, path)) in cables.iter().zip(paths).enumerate() {
        let closed =
            if cable.kind == CableKind::PendantFlex { 5.0 } else { 4.0 + 2.0 * cable.kind.cores().len() as f32 };
        sheath(canvas, path, OpenedCable::width(opened, index).unwrap_or(closed), cable.kind, None);
    }
    for it in opened {
        it.draw(canvas, work, paths);
    }
    for path in paths.iter().skip(cables.len()) {
        for it in stripes(path) {
            canvas.path(Layer::Cables, None, it, line(Paint::QuietInk, 3.0));
        }
    }
}

/// The point that the author placed, of what a thing takes.
fn anchor(taken: Rect, stand: &Mounted) -> Xy {
    let extent = stand.extent();
    Xy::new(taken.left + extent.left, taken.top + extent.up)
}

/// What it costs a cable to leave each side of a thing: top, bottom, left, right. Under a thing stands its name, and a lamp hangs.
/// The cables of a rose in a house come through its ceiling.
fn sides(kind: &LocationKind, is_in_house: bool) -> [f32; 4] {
    match kind {
        LocationKind::Rose if is_in_house => [0.0, 250.0, 900.0, 1200.0],
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

/// The light of every lamp that is lit, on what is behind it, as far as its room or the sheet goes: a wide soft round, and a brighter one
/// about the lamp.
fn lights(canvas: &mut Canvas, work: &Work, at: &[Xy], backdrop: &Backdrop<'_>, sheet: Rect, view: &View<'_>) {
    for (lamp, facts) in work.exercise().lamps.iter().enumerate() {
        let is_lit = view.lit.and_then(|it| it.get(lamp)) == Some(&Glow::Lit);
        let Some(centre) = at.get(facts.location.index()).copied().filter(|_| is_lit) else { continue };
        let room = if let Backdrop::House(it) = backdrop { it.lit_by(centre) } else { None };
        let (rect, reach) = room.map_or((sheet, REACH), |it| (it, it.width.max(it.height) * 0.85));
        for (radius, cover) in [(reach, if view.evening { 150 } else { 90 }), (reach * 0.5, 170)] {
            let light = |cover: u8| thin(Paint::LampLight, cover);
            let light = Fill::Radial { centre: (centre, light(cover)), radius, rim: light(0) };
            canvas.put(Layer::Ground, None, Outline::Rect { rect, radius: 0.0 }, fill(light));
        }
    }
}
