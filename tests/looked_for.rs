//! The wiring that `check` looks for, carried out and judged by disjoint sets that are not ours.

use petgraph::unionfind::UnionFind;
use switchdrop::{
    advice::{DoubtKind, Wiring, WiringFound, doubts, wiring},
    exercise::{EndId, Exercise, SHIPPED, Seed, TerminalId, read},
};

use crate::installations::{BATHROOM, GRANARY, PASSAGE};

fn drawn(text: &str, seed: u64) -> Exercise {
    read(text, Seed(seed)).unwrap_or_else(|it| panic!("{it:#?}"))
}

/// Whether every toggle of a control's switches changes its lamp, whatever the other switches do; no lamp is fed but by one device's line
/// and neutral; no line meets a neutral. Conductors as laid, and as they stood where nothing is laid.
fn works(exercise: &Exercise, laid: &WiringFound) -> bool {
    let terminals = exercise.terminals.len();
    let node = |end: EndId| {
        let anew = laid.ends.iter().find(|it| it.0 == end).map(|it| it.1);
        let stood = exercise.start[end].map(|it| it.terminal);
        // What an alteration lays anew stands no longer where it stood.
        anew.or(stood).map_or(terminals + end.index(), TerminalId::index)
    };
    let mut fixed = UnionFind::<usize>::new(terminals + exercise.start.len());
    for index in 0..exercise.conductors.len() {
        let [a, b] = [2 * index, 2 * index + 1].map(|it| exercise.start.id(it).unwrap());
        fixed.union(node(a), node(b));
    }
    for [a, b] in exercise.fixed.iter().chain(laid.links.iter().map(|it| &it.0)) {
        fixed.union(a.index(), b.index());
    }
    let switches = exercise.switches.len();
    assert!(switches < 12 && exercise.switches.iter().all(|it| it.way.positions() == 2));
    // For each combination and lamp: lit, or `None` if anything is amiss.
    let lit = |setting: usize, lamp: usize| -> Option<bool> {
        let mut joined = fixed.clone();
        for (index, it) in exercise.switches.iter().enumerate() {
            for [a, b] in it.closed(setting >> index & 1) {
                joined.union(a.index(), b.index());
            }
        }
        let same = |a: TerminalId, b: TerminalId| joined.equiv(a.index(), b.index());
        if exercise.devices.iter().any(|it| exercise.devices.iter().any(|other| same(it.line, other.neutral))) {
            return None;
        }
        let [a, b] = exercise.lamps.rows()[lamp].contacts;
        let fed = |line: TerminalId, neutral: TerminalId| {
            exercise.devices.iter().any(|it| same(it.line, line) && same(it.neutral, neutral))
        };
        let has_line = exercise.devices.iter().any(|it| same(it.line, a) || same(it.line, b));
        let is_lit = fed(a, b) || fed(b, a);
        (is_lit || !has_line).then_some(is_lit)
    };
    exercise.controls.iter().all(|control| {
        let lamp = control.lamp.index();
        (0..1 << switches).all(|setting| {
            (0..switches).all(|switch| {
                let ours = control.switches.iter().any(|it| it.index() == switch);
                let [here, there] = [lit(setting, lamp), lit(setting ^ 1 << switch, lamp)];
                here.is_some() && there.is_some() && (here != there) == ours
            })
        })
    })
}

#[test]
fn a_wiring_that_is_found_works() {
    let mut tried = 0;
    let shipped = SHIPPED.iter().flat_map(|it| (0..6).map(|seed| (it.0, drawn(it.1, seed))));
    let ours = [("granary", GRANARY), ("passage", PASSAGE)].map(|it| (it.0, drawn(it.1, 0)));
    for (name, exercise) in shipped.chain(ours).filter(|it| it.1.runs.is_empty() && !it.1.is_given()) {
        let Wiring::Found(laid) = wiring(&exercise) else { panic!("{name}: {:?}", wiring(&exercise)) };
        assert!(works(&exercise, &laid), "{name}: {laid:?}");
        assert!(!works(&exercise, &WiringFound::default()), "{name}: it does not work as it stands");
        tried += 1;
    }
    assert!(tried > 12, "{tried}");
}

/// A fan's conductors are not looked for, and nothing is said of one.
#[test]
fn nothing_is_said_of_what_the_search_does_not_know() {
    assert_eq!(wiring(&drawn(BATHROOM, 0)), Wiring::Unknown);
    assert!(doubts(&drawn(BATHROOM, 0)).iter().all(|it| it.kind != DoubtKind::NoWiring));
}

/// The feed comes to the switch's box, and its neutral has to go on from there: into a connector, since a switch has no terminal for it.
#[test]
fn a_neutral_with_no_terminal_to_be_joined_in() {
    let text = |connectors: u8| {
        format!(
            "Scenario(format: 1, id: \"byre\", title: \"t\", place: \"p\", brief: \"b\", edition: A2of2022, earthing: TnS,
locations: [Location(id: \"board\", name: \"board\", at: (0, 0), has: Board(devices: [Device(id: \"1\", kind: Rcbo6B30, circuit: \"a\")])),
Location(id: \"s\", name: \"s\", at: (0, 0), has: Box(body: Plastic, plate: Plastic, connectors: Some({connectors}), ways: [OneWay])),
Location(id: \"rose\", name: \"rose\", at: (0, 0), has: Rose),
Location(id: \"lamp\", name: \"lamp\", at: (0, 0), has: Luminaire(holder: Bayonet, lamp: Led, watts: 6.0))],
cables: [Cable(id: \"feed\", name: \"feed\", kind: TwinEarth, mm2: 1.5, metres: 5.0, from: \"board\", to: \"s\"),
Cable(id: \"on\", name: \"on\", kind: TwinEarth, mm2: 1.5, metres: 5.0, from: \"s\", to: \"rose\"),
Cable(id: \"flex\", name: \"flex\", kind: PendantFlex, mm2: 0.75, metres: 0.5, from: \"rose\", to: \"lamp\")],
connected: [Connected(end: \"feed/brown@board\", at: \"board.1.line\"),
Connected(end: \"feed/blue@board\", at: \"board.1.neutral\"), Connected(end: \"feed/cpc@board\", at: \"board.earth\"),
Connected(end: \"flex/brown@lamp\", at: \"lamp.1\"), Connected(end: \"flex/blue@lamp\", at: \"lamp.2\")],
controls: [Control(lamp: \"lamp\", switches: [\"s\"])], stages: [])"
        )
    };
    let [none, one] = [0, 1].map(|it| drawn(&text(it), 0));
    assert_eq!(wiring(&none), Wiring::Nothing(0));
    assert_eq!(doubts(&none).iter().map(|it| it.kind).collect::<Vec<_>>(), [DoubtKind::NoWiring]);
    let Wiring::Found(laid) = wiring(&one) else { panic!("one connector is enough") };
    assert!(works(&one, &laid));
}

/// Line and neutral are exchanged at a rose that the learner finds finished: no wiring of the rest puts that right, and a scenario that
/// means it so is told so.
#[test]
fn a_fault_upstream_that_nobody_here_can_mend() {
    let exercise = drawn(include_str!("cases/exercises/swapped/scenario.ron"), 0);
    assert_eq!(wiring(&exercise), Wiring::Nothing(0));
}
