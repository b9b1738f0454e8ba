//! The loop of a current, piece by piece, and where what is live stops: against lists made by hand from the drawings, and Kirchhoff's
//! first law.

use switchdrop::{
    attempt::open,
    circuit::{Conditions, Flow, LiveStop, LoopStep, Part, flow, hand_points, settings_to_try, touch},
    exercise::LocationKind,
    picture::{Xy, circuit_diagram},
    reason::{Passage, WhatIf},
    work::{Point, Work},
};

/// A piece as it stands in the lists: a conductor or what else is passed, and the two points.
fn piece(work: &Work, step: &LoopStep) -> String {
    let point = |it: Option<Point>| it.map_or("bar".to_owned(), |it| work.point_address(it));
    let part = match step.part {
        Part::LinePole(_) | Part::NeutralPole(_) => "pole".to_owned(),
        Part::Conductor(it) => work.conductor_address(it),
        Part::Contact(..) => "contact".to_owned(),
        Part::Fixed(_) => "joined".to_owned(),
        Part::Lamp(_) => "lamp".to_owned(),
        other => format!("{other:?}"),
    };
    format!("{part}: {} to {}", point(step.from), point(step.to))
}

fn only_loop(work: &Work, flow: &Flow) -> Vec<String> {
    assert_eq!(flow.loops.len(), 1, "{:?}", flow.loops);
    flow.loops[0].steps.iter().map(|it| piece(work, it)).collect()
}

fn stops(work: &Work, flow: &Flow) -> Vec<String> {
    let at = |it| work.point_address(Point::Terminal(it));
    let told = |it: &LiveStop| match it {
        LiveStop::Switch { live, dead, .. } => format!("{} and not {}", at(*live), at(*dead)),
        LiveStop::Load { live, .. } => format!("load at {}", at(*live)),
        LiveStop::Loose(end) => format!("loose {}", work.end_address(*end)),
    };
    flow.stops.iter().map(told).collect()
}

/// From the board to the near switch, and back from the lamp: the same in every lit position.
const OUT: [&str; 2] = ["pole: bar to board.1.line", "feed/brown: board.1.line to near.L1"];
const BACK: [&str; 7] = [
    "light/brown: near.L2 to rose.switched",
    "flex/brown: rose.switched to lamp.1",
    "lamp: lamp.1 to lamp.2",
    "flex/blue: lamp.2 to rose.neutral",
    "light/blue: rose.neutral to near.connector.1",
    "feed/blue: near.connector.1 to board.1.neutral",
    "pole: board.1.neutral to bar",
];

fn whole(between: &[&str]) -> Vec<String> {
    OUT.iter().chain(between).chain(&BACK).map(|it| (*it).to_owned()).collect()
}

/// By hand, from the scenario: the feed is on L1, the lamp on L2; rocker down joins COM to L1, up to L2. 60 W at 230 V take 0.26 A.
#[test]
fn the_loop_of_the_passage_is_that_of_the_drawing() {
    let mut house = Passage::new().unwrap();
    house.set(&[0, 1]);
    let found = house.flow();
    let wanted = whole(&[
        "contact: near.L1 to near.COM",
        "link/brown: near.COM to far.COM",
        "contact: far.COM to far.L2",
        "link/grey: far.L2 to near.L2",
    ]);
    assert_eq!(only_loop(house.work(), &found), wanted);
    assert!((found.loops[0].amps - 60.0 / 230.0).abs() < 0.003, "{}", found.loops[0].amps);
    // All of both switches is live: beyond the lamp the current goes back.
    assert_eq!(stops(house.work(), &found), ["load at lamp.1"]);
    // Black is live and carries nothing; grey carries towards its end at the near switch, which is its first.
    let conductor = |it: &str| (0..house.work().conductor_count()).find(|at| house.work().conductor_address(*at) == it);
    assert!(found.amps(conductor("link/black").unwrap()).abs() < 1e-9);
    assert!(found.amps(conductor("link/grey").unwrap()) < -0.25);
    assert!(found.amps(conductor("link/brown").unwrap()) > 0.25);

    house.set(&[1, 0]);
    let wanted = whole(&[
        "link/black: near.L1 to far.L1",
        "contact: far.L1 to far.COM",
        "link/brown: far.COM to near.COM",
        "contact: near.COM to near.L2",
    ]);
    assert_eq!(only_loop(house.work(), &house.flow()), wanted);
}

/// By hand: with both rockers down COM is on L1 at both, and each L2 is parted from it; with both up the feed reaches L1 alone.
#[test]
fn in_a_dark_passage_the_live_stops_at_both_switches() {
    let mut house = Passage::new().unwrap();
    let found = house.flow();
    assert!(found.loops.is_empty());
    assert_eq!(stops(house.work(), &found), ["near.COM and not near.L2", "far.COM and not far.L2"]);
    house.set(&[1, 1]);
    assert_eq!(stops(house.work(), &house.flow()), ["near.L1 and not near.COM", "far.L1 and not far.COM"]);
}

/// By hand: with the supply at one end and the lamp at the other, both rockers down, the live goes by the two L1, and the grey core brings
/// the neutral back from the far switch to the near one.
#[test]
fn with_the_lamp_at_the_far_end_the_third_wire_brings_the_neutral_back() {
    let house = WhatIf::OppositeEnds.house().unwrap();
    let wanted = [
        "pole: bar to board.1.line",
        "feed/brown: board.1.line to near.COM",
        "contact: near.COM to near.L1",
        "link/brown: near.L1 to far.L1",
        "contact: far.L1 to far.COM",
        "light/brown: far.COM to rose.switched",
        "flex/brown: rose.switched to lamp.1",
        "lamp: lamp.1 to lamp.2",
        "flex/blue: lamp.2 to rose.neutral",
        "light/blue: rose.neutral to far.connector.1",
        "link/grey: far.connector.1 to near.connector.1",
        "feed/blue: near.connector.1 to board.1.neutral",
        "pole: board.1.neutral to bar",
    ];
    assert_eq!(only_loop(house.work(), &house.flow()), wanted);
}

/// A core off its screw at the far switch: by hand, both rockers down, black comes from the feed and ends there.
#[test]
fn a_live_end_in_no_terminal_is_where_the_live_stops() {
    let mut house = Passage::new().unwrap();
    house.turn(switchdrop::reason::PassageCore::Black);
    house.close();
    let found = house.flow();
    assert!(stops(house.work(), &found).contains(&"loose link/black@far".to_owned()), "{:?}", found.stops);
}

/// Every piece begins where the one before ends, the first comes out of the board and the last goes back into it; what comes to a terminal
/// by conductors, contacts and loads goes on from it (Kirchhoff's first law, to a microamp: insulation).
#[test]
fn every_loop_of_the_shipped_models_is_closed_and_loses_nothing() {
    let mut loops = 0;
    for (id, _) in switchdrop::exercise::SHIPPED {
        let path = format!("{}/exercises/{id}/model.attempt.ron", env!("CARGO_MANIFEST_DIR"));
        let Ok(text) = std::fs::read_to_string(path) else { continue };
        let attempt = open(&text).unwrap().replay().unwrap();
        let work = attempt.work();
        for positions in settings_to_try(work) {
            let found = flow(work, Conditions::complete(work.exercise(), positions));
            for it in &found.loops {
                loops += 1;
                assert!(it.steps.windows(2).all(|it| it[0].to == it[1].from), "{id}: {it:#?}");
                let (first, last) = (it.steps.first().unwrap(), it.steps.last().unwrap());
                assert!(matches!(first.part, Part::LinePole(_)) && first.from.is_none(), "{id}: {first:?}");
                assert!(matches!(last.part, Part::NeutralPole(_)) && last.to.is_none(), "{id}: {last:?}");
                // Where two cores touch inside a cable the current goes two ways, and no one way carries all of it.
                let parts = work.exercise().hidden_fault().is_some_and(|fault| fault.touching().is_some());
                assert!(parts || it.steps.iter().all(|step| step.amps > it.amps - 1e-6), "{id}: {it:#?}");
            }
            // Where only conductors meet, as at a rose, in a connector: what comes in goes out.
            for (terminal, facts) in work.exercise().terminals.with_ids() {
                let is_rose = work.exercise().locations[facts.location].kind == LocationKind::Rose;
                let has_no_load = !work.loads().any(|it| it.between.contains(&terminal));
                if !is_rose || !has_no_load {
                    continue;
                }
                let ends: Vec<_> = work.ends_in(terminal).collect();
                let into = |it: &switchdrop::exercise::EndId| {
                    let amps = found.amps(it.conductor());
                    if work.ends_of(it.conductor()).unwrap()[0] == *it { -amps } else { amps }
                };
                assert!(ends.iter().map(into).sum::<f64>().abs() < 1e-3, "{id}: {}", facts.address);
            }
        }
    }
    assert!(loops > 8, "only {loops}");
}

/// At every corner of every net of a diagram what flows in flows out, or is taken by what stands there (Kirchhoff's first law, to a
/// milliamp: insulation); and each lead's piece carries what is taken there.
#[test]
fn the_lines_of_a_diagram_carry_what_is_taken_at_their_leads() {
    let wording = switchdrop::wording::Wording::british();
    let mut carrying = 0;
    for (id, _) in switchdrop::exercise::SHIPPED {
        let path = format!("{}/exercises/{id}/model.attempt.ron", env!("CARGO_MANIFEST_DIR"));
        let Ok(text) = std::fs::read_to_string(path) else { continue };
        let attempt = open(&text).unwrap().replay().unwrap();
        let work = attempt.work();
        let diagram = circuit_diagram(work, &wording, None);
        for positions in settings_to_try(work) {
            let found = flow(work, Conditions::complete(work.exercise(), positions));
            for net in &diagram.nets {
                let pieces = net.flows(|it| found.taken_at(work, it));
                carrying += pieces.iter().filter(|it| it.1 > 0.01).count();
                let at = |a: Xy, b: Xy| (a.x - b.x).abs() < 1.0 && (a.y - b.y).abs() < 1.0;
                for corner in pieces.iter().flat_map(|it| it.0) {
                    let brought = |it: &([Xy; 2], f64)| match it {
                        ([_, to], amps) if at(*to, corner) => *amps,
                        ([from, _], amps) if at(*from, corner) => -amps,
                        _ => 0.0,
                    };
                    let here = net.leads.iter().filter(|it| at(it.1, corner));
                    let taken: f64 = here.map(|it| found.taken_at(work, it.0)).sum();
                    let brought: f64 = pieces.iter().map(brought).sum();
                    assert!(
                        (brought - taken).abs() < 1e-3,
                        "{id}: {brought} A come to {corner:?}, {taken} A are taken"
                    );
                }
            }
        }
    }
    assert!(carrying > 40, "only {carrying}");
}

/// By hand: lit, the lamp of the passage takes 60 W at 230 V, 0.26 A, and the switch takes as much at one terminal as it gives at another.
#[test]
fn what_is_taken_at_a_terminal_is_the_current_of_what_stands_there() {
    let mut house = Passage::new().unwrap();
    house.set(&[0, 1]);
    let (work, found) = (house.work(), house.flow());
    let taken = |address: &str| found.taken_at(work, work.terminal(address).unwrap());
    for (address, amps) in [("lamp.1", 0.26), ("lamp.2", -0.26), ("board.1.line", -0.26), ("board.1.neutral", 0.26)] {
        assert!((taken(address) - amps).abs() < 0.01, "{address}: {}", taken(address));
    }
    assert!((taken("near.L1") + taken("near.COM") + taken("near.L2")).abs() < 1e-3);
    assert!(taken("rose.switched").abs() < 1e-3, "a rose takes none itself");
}

/// By hand: the box of the far switch is earthed, the lampholder's first contact is live where the lamp is lit.
#[test]
fn a_hand_comes_to_metal_holders_and_bare_copper() {
    let mut house = Passage::new().unwrap();
    house.set(&[0, 1]);
    let work = house.work();
    let found: Vec<String> = hand_points(work, 100).into_iter().map(|it| work.point_address(it)).collect();
    for it in ["far.box.earth", "lamp.1", "lamp.2"] {
        assert!(found.contains(&it.to_owned()), "{it}: {found:?}");
    }
    let once: std::collections::BTreeSet<&String> = found.iter().collect();
    assert_eq!((once.len(), hand_points(work, 2).len()), (found.len(), 2));
    let met = |address: &str| {
        let point = Point::Terminal(work.terminal(address).unwrap());
        touch(work, Conditions::complete(work.exercise(), work.positions().to_vec()), point)
    };
    assert!(met("far.box.earth").is_none());
    // 230 V over 2,000 Ω of a body.
    assert!((met("lamp.1").unwrap().amps - 0.115).abs() < 0.002);
}
