//! The circuit diagram is read back: what its lines join must be what conductors join in the work. The disjoint sets are not ours
//! (crate `petgraph`).

use std::collections::BTreeSet;

use petgraph::unionfind::UnionFind;
use switchdrop::{
    exercise::{EndId, Join, TerminalId, TerminalUse},
    picture::{Layer, Outline, Scene, Segment, Thing, Xy, of_circuit},
    work::Work,
};

use super::works::{English, works};
use crate::{
    chosen::chosen_model,
    hand::{one_way_model, two_way_model},
    wirings::Dice,
};

/// Straight lines of a diagram's conductors, and its joints.
fn lines(scene: &Scene) -> (Vec<[Xy; 2]>, Vec<Xy>) {
    let (mut lines, mut joints) = (Vec::new(), Vec::new());
    for it in &scene.shapes {
        match (&it.outline, it.layer) {
            (Outline::Path(path), Layer::Conductors) => {
                let mut from = path.start;
                for step in &path.segments {
                    let Segment::Line(to) = step else { panic!("a curve in a diagram") };
                    lines.push([from, *to]);
                    from = *to;
                }
            }
            (Outline::Circle { centre, radius }, Layer::Marks) if *radius > 3.0 => joints.push(*centre),
            _ => {}
        }
    }
    (lines, joints)
}

fn near(a: Xy, b: Xy) -> bool {
    (a.x - b.x).abs() < 0.6 && (a.y - b.y).abs() < 0.6
}

fn is_on(point: Xy, [a, b]: [Xy; 2]) -> bool {
    let within = |it: f32, a: f32, b: f32| it > a.min(b) - 0.6 && it < a.max(b) + 0.6;
    within(point.x, a.x, b.x) && within(point.y, a.y, b.y)
}

/// For each terminal that can be touched in a diagram, the set of lines that its lead is in.
fn read(scene: &Scene, name: &str) -> Vec<(TerminalId, usize)> {
    let (lines, joints) = lines(scene);
    let mut sets = UnionFind::<usize>::new(lines.len());
    for (one, a) in lines.iter().enumerate() {
        for (other, b) in lines[..one].iter().enumerate() {
            // Two lines that end at one point are joined; one that ends on another or crosses it only where there is a joint.
            let ends = a.iter().any(|a| b.iter().any(|b| near(*a, *b)));
            let jointed = joints.iter().any(|it| is_on(*it, *a) && is_on(*it, *b));
            if ends || jointed {
                sets.union(one, other);
            } else {
                let abuts = a.iter().any(|it| is_on(*it, *b)) || b.iter().any(|it| is_on(*it, *a));
                assert!(!abuts, "{name}: {a:?} ends on {b:?} with no joint");
            }
        }
    }
    let leads = scene.spots.iter().filter_map(|spot| {
        let Thing::Terminal(it) = spot.thing else { return None };
        let y = spot.rect.centre().y;
        let edges = [spot.rect.left, spot.rect.right()].map(|x| Xy::new(x, y));
        let mut found: Vec<usize> = Vec::new();
        for (index, line) in lines.iter().enumerate() {
            if line.iter().any(|it| edges.iter().any(|edge| near(*it, *edge))) {
                found.push(sets.find(index));
            }
        }
        found.sort_unstable();
        found.dedup();
        assert_eq!(found.len(), 1, "{name}: {} has one lead", spot.address);
        Some((it, found[0]))
    });
    leads.collect()
}

/// What conductors and accessories without a switch join.
fn joined(work: &Work) -> UnionFind<usize> {
    let mut sets = UnionFind::<usize>::new(work.point_count());
    let is_copper = |it: Join| matches!(it, Join::Conductor(_) | Join::Fixed(_) | Join::PlateScrew(_));
    for (_, [a, b]) in work.joins().filter(|it| is_copper(it.0)) {
        sets.union(a, b);
    }
    sets
}

fn is_right(name: &str, work: &Work) -> usize {
    let scene = of_circuit(work, &English, None);
    let found = read(&scene, name);
    let sets = joined(work);
    for (index, (a, drawn)) in found.iter().enumerate() {
        for (b, other) in &found[..index] {
            let address = |it: &TerminalId| &work.exercise().terminals[*it].address;
            let is_joined = sets.equiv(a.index(), b.index());
            assert_eq!(drawn == other, is_joined, "{name}: {} and {}", address(a), address(b));
        }
    }
    // Everything of a switch or a load to which a conductor comes is there.
    let there: BTreeSet<usize> = found.iter().map(|it| it.0.index()).collect();
    let is_of_diagram = |it: TerminalUse| matches!(it, TerminalUse::Contact(..) | TerminalUse::Lampholder(..));
    for (id, it) in work.exercise().terminals.with_ids().filter(|it| is_of_diagram(it.1.used_by)) {
        let used = work.ends_in(id).next().is_some();
        assert!(!used || there.contains(&id.index()), "{name}: {} is missing", it.address);
    }
    found.len()
}

/// Works of every kind, right models, and two hundred of them with ends in terminals at random.
#[test]
fn a_diagram_joins_what_the_work_joins() {
    let models = [one_way_model(), two_way_model(), chosen_model()].map(|it| ("model", it.attempt.work().clone()));
    let all: Vec<(&str, Work)> = works().into_iter().chain(models).collect();
    let terminals: usize = all.iter().map(|(name, work)| is_right(name, work)).sum();
    assert!(terminals > 60, "{terminals}");
    let mut dice = Dice(0x6469_6167);
    for round in 0..200 {
        let (name, work) = &all[dice.below(all.len())];
        let mut work = work.clone();
        let ends: Vec<EndId> = work.ends().collect();
        for _ in 0..=dice.below(12) {
            let end = ends[dice.below(ends.len())];
            let here: Vec<TerminalId> = work.exercise().terminals_at(work.end_location(end)).collect();
            if !here.is_empty() {
                work.edit(&switchdrop::work::Edit::Move(end, Some(here[dice.below(here.len())])));
            }
        }
        is_right(&format!("{name} {round}"), &work);
    }
}

/// Where one line passes over another in its middle.
fn crossings(scene: &Scene) -> usize {
    let (lines, joints) = lines(scene);
    let inside = |it: f32, a: f32, b: f32| it > a.min(b) + 0.6 && it < a.max(b) - 0.6;
    let crosses = |level: &[Xy; 2], upright: &[Xy; 2]| {
        let at = Xy::new(upright[0].x, level[0].y);
        let is_so = (level[0].y - level[1].y).abs() < 0.1 && (upright[0].x - upright[1].x).abs() < 0.1;
        is_so
            && inside(at.x, level[0].x, level[1].x)
            && inside(at.y, upright[0].y, upright[1].y)
            && !joints.iter().any(|it| near(*it, at))
    };
    lines.iter().map(|a| lines.iter().filter(|b| crosses(a, b)).count()).sum()
}

/// A light or two in a row of switch and lamp, strappers between two switches, two of them with an intermediate between: no line crosses
/// another. Two switches like to like, each with COM on one side and its ways on the other: the search leaves one crossing.
#[test]
fn the_circuits_of_right_models_are_drawn_with_hardly_a_crossing() {
    for (name, hand, most) in
        [("one-way", one_way_model(), 0), ("two-way", two_way_model(), 1), ("chosen", chosen_model(), 1)]
    {
        assert!(crossings(&of_circuit(hand.attempt.work(), &English, None)) <= most, "{name}");
    }
    let (name, granary) = works().into_iter().find(|it| it.0 == "granary-wired").expect("a work of that name");
    assert_eq!(crossings(&of_circuit(&granary, &English, None)), 0, "{name}");
}

/// Where no conductor comes to a switch or a load there is no circuit: five cables, and no end in anything.
#[test]
fn nothing_wired_is_an_empty_diagram() {
    let (_, extreme) = works().into_iter().find(|it| it.0 == "extreme").expect("a work of that name");
    let scene = of_circuit(&extreme, &English, None);
    assert!(scene.spots.is_empty() && scene.width > 0.0, "{:?}", scene.spots);
}

/// IEC 60617 draws a two-way switch as a changeover: one contact on one side, and the two that it changes between on the other. So a blade
/// never lies between two contacts of one side, however the switches stand.
#[test]
fn no_blade_lies_between_two_contacts_of_one_side() {
    let mut work = two_way_model().attempt.work().clone();
    for positions in [[0, 0, 0], [0, 0, 1], [1, 0, 0], [1, 1, 1]] {
        for (index, position) in positions.into_iter().enumerate() {
            let switch = work.exercise().switches.iter().nth(index).expect("a switch").address.clone();
            if work.positions()[index] != position {
                work.apply(&switchdrop::work::Action::Operate { switch, position }).expect("a switch can be worked");
            }
        }
        let scene = of_circuit(&work, &English, None);
        let mut blades = 0;
        for it in &scene.shapes {
            let (Some(Thing::Switch(_)), Outline::Path(path), Layer::Fittings) = (it.about, &it.outline, it.layer)
            else {
                continue;
            };
            let points = path.flattened();
            let (Some(from), Some(to)) = (points.first(), points.last()) else { continue };
            assert!((from.x - to.x).abs() > 20.0, "{positions:?}: {points:?}");
            blades += 1;
        }
        assert!(blades >= 3, "{positions:?}");
    }
}
