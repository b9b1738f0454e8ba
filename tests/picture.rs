//! Pictures of the shipped scenarios, blank and wired: every thing has one target of its own, no text is cut or covered,
//! every end is drawn where it is.
//!
//! Each run leaves the drawings as SVG in Cargo's folder for test files, for whoever wants to look at them.

mod diagram;
mod hand;
mod works;

use std::collections::BTreeSet;

use switchdrop::{
    circuit::Glow,
    exercise::{EndId, LocationId, UnmarkedThing},
    picture::{
        Covers, Layer, Outline, Paint, Path, Rect, Scene, Segment, Shape, Thing, View, Xy, of_circuit, of_everything,
        of_location, of_place, of_place_with_cores, svg,
    },
    work::{Action, Work},
};
use works::{English, PASSAGE, ROSE, blank, half_done, wired_passage, works};

const LIFTED: View<'_> = View { covers: Covers::Lifted, lit: None, evening: false };
const AS_IT_STANDS: View<'_> = View { covers: Covers::AsTheyStand, lit: None, evening: false };

fn locations(work: &Work) -> Vec<LocationId> {
    work.exercise().locations.ids().collect()
}

/// Every scene of a work, with what must have a spot in it.
fn scenes(name: &str, work: &Work) -> Vec<(String, Scene, BTreeSet<Thing>)> {
    let exercise = work.exercise();
    let mut all = Vec::new();
    for location in locations(work) {
        let id = &exercise.locations[location].id;
        let mut things = BTreeSet::from([Thing::Location(location)]);
        things.extend(exercise.switches_at(location).map(Thing::Switch));
        let closed = things.clone();
        things.extend(exercise.lamp_at(location).map(Thing::Lamp));
        let devices = exercise.devices.ids().filter(|it| exercise.devices[*it].location == location);
        things.extend(devices.flat_map(|it| [Thing::Device(it), Thing::Lock(it)]));
        things.extend(exercise.terminals_at(location).map(Thing::Terminal));
        let closed_board = things.clone();
        let unmarked =
            exercise.unmarked_ids().filter(|it| matches!(exercise.unmarked_thing(*it), Some(UnmarkedThing::Cable(_))));
        things.extend(unmarked.filter(|it| exercise.unmarked[it.group].location == location).map(Thing::Unmarked));
        things.extend(work.ends_at(location).map(Thing::End));
        // Nobody opens a supervisor's board that has nothing of the learner's in it.
        let stays_closed = exercise.is_board(location) && work.ends_at(location).all(|it| !exercise.is_learners(it));
        let as_it_stands = match (work.is_covered(location), work.is_board_to_open(location)) {
            (true, true) => closed_board,
            (_, false) if stays_closed => closed_board,
            (true, false) if exercise.locations[location].kind.has_cover() => closed,
            _ => things.clone(),
        };
        all.push((format!("{name}-{id}-open"), of_location(work, location, &English, &LIFTED), things));
        all.push((format!("{name}-{id}"), of_location(work, location, &English, &AS_IT_STANDS), as_it_stands));
    }
    let lit = vec![Glow::Lit; exercise.lamps.len()];
    let view = View { lit: Some(&lit), evening: true, ..AS_IT_STANDS };
    let mut things: BTreeSet<Thing> = locations(work).into_iter().map(Thing::Location).collect();
    things.extend(exercise.switches.ids().map(Thing::Switch));
    things.extend(exercise.lamps.ids().map(Thing::Lamp));
    things.extend(exercise.devices.ids().flat_map(|it| [Thing::Device(it), Thing::Lock(it)]));
    all.push((format!("{name}-place"), of_place(work, &English, &view), things.clone()));
    let asked: Vec<usize> = if exercise.predict.is_empty() {
        (0..exercise.conductors.len().min(6)).collect()
    } else {
        exercise.predict.clone()
    };
    things.extend(asked.iter().copied().map(Thing::Conductor));
    all.push((format!("{name}-asked"), of_place_with_cores(work, &English, &view, &asked), things));
    let circuit = of_circuit(work, &English, None);
    let things = circuit.spots.iter().map(|it| it.thing).collect();
    all.push((format!("{name}-circuit"), circuit, things));
    all.push((format!("{name}-everything"), of_everything(work, &English, &LIFTED), BTreeSet::new()));
    all
}

fn texts(scene: &Scene) -> Vec<(String, Rect, f32)> {
    let text = |it: &Shape| match &it.outline {
        Outline::Text(it) => Some((it.text.clone(), it.bounds(), it.size)),
        _ => None,
    };
    scene.shapes.iter().filter_map(text).collect()
}

fn within(scene: &Scene, rect: &Rect) -> bool {
    rect.left >= 0.0 && rect.top >= 0.0 && rect.right() <= scene.width && rect.bottom() <= scene.height
}

#[test]
fn everything_in_sight_has_one_spot_that_a_finger_can_hit() {
    for (name, work) in works() {
        for (scene_name, scene, things) in scenes(name, &work) {
            let found: Vec<Thing> = scene.spots.iter().map(|it| it.thing).collect();
            assert_eq!(found.iter().copied().collect::<BTreeSet<_>>(), things, "{scene_name}");
            assert_eq!(found.len(), things.len(), "{scene_name}: a thing has two spots");
            for (index, spot) in scene.spots.iter().enumerate() {
                assert!(spot.rect.width >= 24.0 && spot.rect.height >= 24.0, "{scene_name}: {spot:?}");
                assert!(within(&scene, &spot.rect), "{scene_name}: {spot:?}");
                for other in &scene.spots[..index] {
                    assert!(!spot.rect.overlaps(&other.rect), "{scene_name}: {spot:?} {other:?}");
                }
            }
        }
    }
}

#[test]
fn addresses_of_spots_are_those_of_files() {
    let work = half_done();
    let scene = of_location(&work, work.location("kiln").unwrap(), &English, &LIFTED);
    let addresses: BTreeSet<_> = scene.spots.iter().map(|it| it.address.as_str()).collect();
    for it in ["kiln", "kiln.1.L1", "kiln.box.earth", "kiln.connector.2", "link/grey@kiln", "made-1/b@kiln"] {
        assert!(addresses.contains(it), "{it} in {addresses:?}");
    }
}

#[test]
fn no_text_is_small_cut_or_covered_by_another() {
    for (name, work) in works() {
        for (scene_name, scene, _) in scenes(name, &work) {
            let texts = texts(&scene);
            for (index, (text, rect, size)) in texts.iter().enumerate() {
                assert!(*size >= 13.0, "{scene_name}: {text}");
                assert!(within(&scene, rect), "{scene_name}: {text} {rect:?}");
                for (other, its_rect, _) in &texts[..index] {
                    assert!(!rect.overlaps(its_rect), "{scene_name}: {text:?} {rect:?} and {other:?} {its_rect:?}");
                }
            }
        }
    }
}

fn last_point(path: &Path) -> Xy {
    match path.segments.last() {
        Some(Segment::Line(to) | Segment::Cubic(_, _, to)) => *to,
        None => path.start,
    }
}

/// Where the copper or the colour of an end stops: what the eye takes for where it is.
fn tips(scene: &Scene, end: EndId) -> Vec<Xy> {
    let about = scene.shapes.iter().filter(|it| it.about == Some(Thing::End(end)));
    let core = about.filter(|it| it.stroke.is_some_and(|it| matches!(it.paint, Paint::Conductor(_))));
    core.filter_map(|it| if let Outline::Path(path) = &it.outline { Some(last_point(path)) } else { None }).collect()
}

#[test]
fn a_connected_end_reaches_its_terminal_and_a_free_one_reaches_none() {
    for (name, work) in works() {
        for location in locations(&work) {
            let scene = of_location(&work, location, &English, &LIFTED);
            for end in work.ends_at(location) {
                let tips = tips(&scene, end);
                let touches = |it: Rect| tips.iter().any(|tip| it.contains(*tip));
                let terminals = scene.spots.iter().filter(|it| matches!(it.thing, Thing::Terminal(_)));
                let reached: Vec<_> = terminals.filter(|it| touches(it.rect)).map(|it| it.thing).collect();
                let expected: Vec<_> = work.terminal_of(end).map(Thing::Terminal).into_iter().collect();
                assert_eq!(reached, expected, "{name}: {}", work.end_address(end));
                if work.prep_of(end).is_some_and(|it| it.core_mm == 0) {
                    continue; // still in its sheath
                }
                let spot = scene.spot(Thing::End(end)).unwrap();
                assert!(touches(spot.rect.grown(8.0)), "{name}: {} is not at its spot", work.end_address(end));
            }
        }
    }
}

#[test]
fn no_name_is_shortened() {
    for (name, work) in works().into_iter().filter(|it| it.0 != "extreme") {
        for (scene_name, scene, _) in scenes(name, &work) {
            for (text, ..) in texts(&scene) {
                assert!(!text.contains('\u{2026}'), "{scene_name}: {text}");
            }
        }
    }
}

/// A cable behind a thing that it does not go to would look joined there.
#[test]
fn no_cable_of_the_plans_passes_behind_what_it_does_not_go_to_or_lacks_its_name() {
    for (name, work) in works().into_iter().filter(|it| !["extreme", "plates"].contains(&it.0)) {
        let scene = of_place(&work, &English, &AS_IT_STANDS);
        let exercise = work.exercise();
        let location = |it: Thing| match it {
            Thing::Location(it) => it,
            Thing::Switch(it) => exercise.switches[it].location,
            Thing::Lamp(it) => exercise.lamps[it].location,
            Thing::Device(it) | Thing::Lock(it) => exercise.devices[it].location,
            Thing::Terminal(_) | Thing::End(_) | Thing::Conductor(_) | Thing::Unmarked(_) => {
                panic!("no terminal, no end and no core is on a plan")
            }
        };
        let sheaths = scene.shapes.iter().filter(|it| it.layer == Layer::Cables);
        let paths = sheaths.filter_map(|it| if let Outline::Path(it) = &it.outline { Some(it) } else { None });
        let pairs: BTreeSet<[LocationId; 2]> = exercise.cables.iter().map(|it| it.between).collect();
        for path in paths {
            let points = path.flattened();
            let meets = |spot: &Rect| points.iter().any(|it| spot.grown(0.5).contains(*it));
            let met: BTreeSet<_> =
                scene.spots.iter().filter(|it| meets(&it.rect)).map(|it| location(it.thing)).collect();
            assert!(pairs.iter().any(|pair| met.iter().all(|it| pair.contains(it))), "{name}: {met:?} {path:?}");
        }
        let said: Vec<String> = texts(&scene).into_iter().map(|it| it.0).collect();
        for cable in &exercise.cables {
            assert!(said.contains(&cable.name), "{name}: {}", cable.name);
        }
    }
}

/// Every core has its colour's letters by it, so that colour is never the only cue.
#[test]
fn every_end_carries_the_letters_of_its_core_and_of_its_mark() {
    let work = half_done();
    let kiln = work.location("kiln").unwrap();
    let scene = of_location(&work, kiln, &English, &LIFTED);
    let letters = |address: &str| -> Vec<String> {
        let end = work.end(address).unwrap();
        let about = scene.shapes.iter().filter(|it| it.about == Some(Thing::End(end)));
        about.filter_map(|it| if let Outline::Text(it) = &it.outline { Some(it.text.clone()) } else { None }).collect()
    };
    assert_eq!(letters("shed-drop/blue@kiln"), ["BU", "BN"]);
    assert_eq!(letters("link/grey@kiln"), ["GY", "N"]);
    assert_eq!(letters("feed/brown@kiln"), ["BN"]);
    assert_eq!(letters("link/cpc@kiln"), ["bare", "GN", "YE"], "tape leaves it bare");
    assert_eq!(letters("feed/cpc@kiln"), ["GN", "YE"], "it is sleeved all along");
}

#[test]
fn a_slack_terminal_says_so_and_a_tight_one_does_not() {
    let said = |work: &Work| {
        let scene = of_location(work, work.location("kiln").unwrap(), &English, &LIFTED);
        texts(&scene).iter().filter(|it| it.0 == "slack").count()
    };
    assert_eq!(said(&wired_passage(1)), 0);
    // COM, L2, the box's earth and connector 2.
    assert_eq!(said(&half_done()), 4);
}

#[test]
fn a_plate_from_behind_has_its_right_hand_gang_on_the_left() {
    let work = wired_passage(1);
    let kiln = work.location("kiln").unwrap();
    let left = |scene: &Scene, address: &str| {
        scene.spot(Thing::Switch(work.switch(address).unwrap())).map(|it| it.rect.left).unwrap()
    };
    let behind = of_location(&work, kiln, &English, &LIFTED);
    assert!(left(&behind, "kiln.2") < left(&behind, "kiln.1"));
    let closed = blank(PASSAGE, 1);
    let front = of_location(&closed, kiln, &English, &AS_IT_STANDS);
    assert!(left(&front, "kiln.1") < left(&front, "kiln.2"));
}

/// No two runs of conductors lie on one another: only crossings are shared.
#[test]
fn conductors_share_no_stretch() {
    for (name, work) in works() {
        for location in locations(&work) {
            let scene = of_location(&work, location, &English, &LIFTED);
            let mut pieces: Vec<(EndId, Xy, Xy)> = Vec::new();
            for shape in &scene.shapes {
                let (Some(Thing::End(end)), Outline::Path(path), Some(stroke)) =
                    (shape.about, &shape.outline, shape.stroke)
                else {
                    continue;
                };
                if matches!(stroke.paint, Paint::ConductorEdge(_)) {
                    // The curves from the mouth of a sheath are left out: there the cores lie side by side.
                    let mut from = path.start;
                    for segment in &path.segments {
                        let (Segment::Line(to) | Segment::Cubic(_, _, to)) = *segment;
                        if matches!(segment, Segment::Line(_)) {
                            pieces.push((end, from, to));
                        }
                        from = to;
                    }
                }
            }
            let straight: Vec<_> =
                pieces.iter().filter(|(_, a, b)| (a.x - b.x).abs() + (a.y - b.y).abs() > 20.0).collect();
            for (index, (end, a, b)) in straight.iter().enumerate() {
                for (other, c, d) in &straight[..index] {
                    if end.conductor() == other.conductor() {
                        continue;
                    }
                    let level = |p: &Xy, q: &Xy| (p.y - q.y).abs() < 0.5;
                    let upright = |p: &Xy, q: &Xy| (p.x - q.x).abs() < 0.5;
                    let meet = |p: f32, q: f32, r: f32, s: f32| p.min(q) < r.max(s) && r.min(s) < p.max(q);
                    let on = (level(a, b) && level(c, d) && (a.y - c.y).abs() < 10.0 && meet(a.x, b.x, c.x, d.x))
                        || (upright(a, b) && upright(c, d) && (a.x - c.x).abs() < 10.0 && meet(a.y, b.y, c.y, d.y));
                    let names = [*end, *other].map(|it| work.end_address(it));
                    assert!(!on, "{name}: {names:?} {a:?} {b:?} {c:?} {d:?}");
                }
            }
        }
    }
}

/// What a learner aims at does not move under the hand.
#[test]
fn terminals_stay_where_they_are_while_ends_are_connected() {
    for (before, after, location) in
        [(blank(PASSAGE, 1), wired_passage(1), "kiln"), (blank(PASSAGE, 1), wired_passage(1), "clay")]
    {
        let location = before.location(location).unwrap();
        let scenes = [&before, &after].map(|it| of_location(it, location, &English, &LIFTED));
        for terminal in before.exercise().terminals_at(location) {
            let [one, other] = [0, 1].map(|it| scenes[it].spot(Thing::Terminal(terminal)).unwrap().rect);
            assert_eq!(one, other, "{}", before.exercise().terminals[terminal].address);
        }
    }
}

/// With its cover on, a board that the learner opens shows its devices and its test points, and no conductor.
#[test]
fn a_closed_board_shows_no_conductor() {
    let mut hand = crate::hand::Hand::new(crate::tested::sound());
    let board = hand.board();
    let spots = |hand: &crate::hand::Hand, view: &View<'_>| -> BTreeSet<Thing> {
        of_location(hand.attempt.work(), board, &English, view).spots.iter().map(|it| it.thing).collect()
    };
    let is_end = |it: &Thing| matches!(it, Thing::End(_));
    let closed = spots(&hand, &AS_IT_STANDS);
    assert!(!closed.iter().any(is_end), "{closed:?}");
    let line = hand.attempt.work().terminal("board.1.line").unwrap();
    for it in [Thing::Terminal(line), Thing::Device(crate::ids::device(0)), Thing::Location(board)] {
        assert!(closed.contains(&it), "{it:?}");
    }
    assert!(spots(&hand, &LIFTED).iter().any(is_end));
    hand.isolates();
    hand.opens_board();
    assert!(spots(&hand, &AS_IT_STANDS).iter().any(is_end));
}

/// The charter: nothing is drawn that only an instrument could tell. The very same work with its devices on and with them off, the lamps taken
/// for dark in both: every place away from the board is the same to the last byte, closed, opened and in the plan.
#[test]
fn a_place_is_drawn_the_same_live_and_dead() {
    let mut compared = 0;
    for (name, live) in works() {
        let mut dead = live.clone();
        let devices = live.exercise().devices.ids();
        let on: Vec<_> =
            devices.filter(|it| live.is_on(*it)).map(|it| live.exercise().devices[it].address.clone()).collect();
        for device in &on {
            dead.apply(&Action::PowerOff { device: device.clone() })
                .unwrap_or_else(|it| panic!("{name}: {device}: {it}"));
        }
        let dark = vec![Glow::Off; live.exercise().lamps.len()];
        for covers in [Covers::Lifted, Covers::AsTheyStand] {
            let look = View { covers, lit: Some(&dark), evening: false };
            for location in locations(&live).into_iter().filter(|it| !live.is_board(*it)) {
                let [a, b] = [&live, &dead].map(|it| svg(&of_location(it, location, &English, &look), name, ""));
                assert!(a == b, "{name}: {}", live.exercise().locations[location].id);
                compared += usize::from(!on.is_empty());
            }
        }
    }
    assert!(compared > 20, "{compared} places of works with a device on");
}

#[test]
fn a_location_that_is_not_there_is_an_empty_scene() {
    let scene = of_location(&blank(ROSE, 1), crate::ids::far_location(), &English, &LIFTED);
    assert!(scene.shapes.is_empty() && scene.spots.is_empty());
}

/// Elements opened and closed in order, attributes quoted, no stray `<` or `&`.
fn assert_well_formed(xml: &str) {
    let mut open: Vec<&str> = Vec::new();
    let mut rest = xml;
    while let Some(start) = rest.find('<') {
        let text = &rest[..start];
        for it in text.split('&').skip(1) {
            assert!(["amp;", "lt;", "gt;", "quot;"].iter().any(|name| it.starts_with(name)), "stray ampersand: {text}");
        }
        let stop = start + rest[start..].find('>').expect("a tag that is never closed");
        let tag = &rest[start + 1..stop];
        assert!(!tag.contains(['<', '&']) && tag.matches('"').count().is_multiple_of(2), "{tag}");
        let name = tag.trim_matches('/').split_whitespace().next().unwrap();
        if tag.starts_with('/') {
            assert_eq!(open.pop(), Some(name));
        } else if !tag.ends_with('/') {
            open.push(name);
        }
        rest = &rest[stop + 1..];
    }
    assert!(open.is_empty() && rest.trim().is_empty(), "{open:?} {rest}");
}

#[test]
fn svg_is_well_formed_says_what_it_shows_and_is_the_same_every_time() {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("pictures");
    std::fs::create_dir_all(&folder).unwrap();
    for ((name, work), (_, again)) in works().into_iter().zip(works()) {
        for ((scene_name, scene, _), (_, twin, _)) in scenes(name, &work).into_iter().zip(scenes(name, &again)) {
            let xml = svg(&scene, "a title & more", "what <it> shows");
            assert_eq!(xml, svg(&twin, "a title & more", "what <it> shows"));
            assert_well_formed(&xml);
            assert!(xml.contains("<title>a title &amp; more</title>"), "{scene_name}");
            assert!(xml.contains("<desc>what &lt;it&gt; shows</desc>"), "{scene_name}");
            std::fs::write(folder.join(format!("{scene_name}.svg")), xml).unwrap();
        }
    }
}
