//! The jobs that both benches do.

#[allow(dead_code, reason = "the tests use the rest")]
#[path = "../tests/wirings.rs"]
pub mod wirings;

use std::sync::Arc;

use switchdrop::{
    circuit::{Physics, Proof, Supplied},
    exercise::{Exercise, Seed, read},
    marking::{Sheet, mark},
    work::{Attempt, Edit, Opened, Work, open},
};

use wirings::{Dice, Wiring, supplied};

/// The model of the two-way exercise.
pub const TWO_WAY: &str = include_str!("../exercises/two-way-stairs/model.attempt.ron");

/// The same, read.
pub fn opened() -> Opened {
    open(TWO_WAY).expect("a model attempt")
}

/// Marks a text from nothing.
pub fn marked(text: &str) -> Sheet {
    let opened = open(text).expect("an attempt");
    let attempt: Attempt = opened.replay(&Physics).expect("an attempt that can be done");
    mark(&attempt, opened.header.mode)
}

/// Whether every toggle changes the lamp.
pub fn prove(wiring: &Wiring) -> bool {
    let contacts = wiring.contacts();
    let all: Vec<usize> = (0..contacts.switches()).collect();
    supplied().prove(&contacts, &all) == Ok(Proof::Holds)
}

/// Random wirings: half of them anything, half the right one with one to three ends moved.
pub fn random(count: usize, switches: usize) -> Vec<Wiring> {
    let mut dice = Dice(0x1938);
    let right = Wiring::n_way(switches);
    (0..count)
        .map(|it| match it % 2 {
            0 => Wiring::random(switches, &mut dice),
            _ => right.slipped(1 + it % 3, &mut dice),
        })
        .collect()
}

/// Forty switches in twelve circuits, three or four a light: every circuit is proven by itself.
pub fn forty_in_twelve() -> bool {
    let lights: Vec<Wiring> = (0..12).map(|it| Wiring::n_way(if it < 4 { 4 } else { 3 })).collect();
    lights.iter().all(prove)
}

/// One light from pairs of two-way switches, each pair in line after the last: `2 * pairs` switches.
pub fn in_line(pairs: usize) -> Work {
    let mut locations = String::new();
    let mut cables = String::new();
    let mut connected = String::new();
    let join = |connected: &mut String, cable: &str, core: &str, ends: [(&str, &str); 2]| {
        for (place, terminal) in ends {
            *connected += &format!("Connected(end: \"{cable}/{core}@{place}\", at: \"{place}.{terminal}\"),\n");
        }
    };
    for it in 0..pairs * 2 {
        let at = it * 8;
        locations += &format!(
            "Location(id: \"b{it}\", name: \"box {it}\", at: ({at}, 0), has: Box(body: Plastic, plate: Plastic, ways: [TwoWay])),\n"
        );
        if it > 0 {
            let before = it - 1;
            cables += &format!(
                "Cable(id: \"c{it}\", name: \"cable {it}\", kind: ThreeCoreEarth, mm2: 1.0, metres: {it}.5, from: \"b{before}\", to: \"b{it}\"),\n"
            );
            let (from, to) = (format!("b{before}"), format!("b{it}"));
            let cable = format!("c{it}");
            if it % 2 == 1 {
                join(&mut connected, &cable, "black", [(&from, "L1"), (&to, "L1")]);
                join(&mut connected, &cable, "grey", [(&from, "L2"), (&to, "L2")]);
            } else {
                join(&mut connected, &cable, "brown", [(&from, "COM"), (&to, "COM")]);
            }
        }
    }
    let last = pairs * 2 - 1;
    let text = format!(
        "Scenario(format: 1, id: \"in-line\", title: \"t\", place: \"p\", brief: \"b\", edition: A2of2022, earthing: TnCS,
locations: [
Location(id: \"board\", name: \"board\", at: (0, 40), has: Board(devices: [Device(id: \"1\", kind: Rcbo6B30, circuit: \"lights\")])),
Location(id: \"rose\", name: \"rose\", at: (40, 40), has: Rose),
Location(id: \"lamp\", name: \"lamp\", at: (40, 60), has: Luminaire(holder: Bayonet, lamp: Filament, watts: 60.0)),
{locations}],
cables: [
Cable(id: \"feed\", name: \"feed\", kind: TwinEarth, mm2: 1.5, metres: 8.0, from: \"board\", to: \"rose\"),
Cable(id: \"flex\", name: \"flex\", kind: PendantFlex, mm2: 0.75, metres: 0.8, from: \"rose\", to: \"lamp\"),
Cable(id: \"to\", name: \"to\", kind: TwinEarth, mm2: 1.0, metres: 5.0, from: \"rose\", to: \"b0\"),
Cable(id: \"back\", name: \"back\", kind: TwinEarth, mm2: 1.0, metres: 5.0, from: \"b{last}\", to: \"rose\"),
{cables}],
connected: [
Connected(end: \"feed/brown@board\", at: \"board.1.line\"), Connected(end: \"feed/blue@board\", at: \"board.1.neutral\"),
Connected(end: \"feed/brown@rose\", at: \"rose.loop\"), Connected(end: \"feed/blue@rose\", at: \"rose.neutral\"),
Connected(end: \"to/brown@rose\", at: \"rose.loop\"), Connected(end: \"to/brown@b0\", at: \"b0.COM\"),
Connected(end: \"back/brown@b{last}\", at: \"b{last}.COM\"), Connected(end: \"back/brown@rose\", at: \"rose.switched\"),
Connected(end: \"flex/brown@rose\", at: \"rose.switched\"), Connected(end: \"flex/blue@rose\", at: \"rose.neutral\"),
Connected(end: \"flex/brown@lamp\", at: \"lamp.1\"), Connected(end: \"flex/blue@lamp\", at: \"lamp.2\"),
{connected}],
controls: [Control(lamp: \"lamp\", switches: [\"b0\"])], stages: [], predict: [], vary: [])"
    );
    let exercise: Exercise = read(&text, Seed(1)).unwrap_or_else(|it| panic!("{it:?}\n{text}"));
    Work::new(Arc::new(exercise))
}

/// Left out by one bench or the other.
#[allow(dead_code, reason = "only the timed bench moves ends")]
pub fn broken(work: &Work) -> Work {
    let mut work = work.clone();
    let end = work.end("link/grey@east").expect("an end of the two-way exercise");
    let to = work.terminal("east.2.COM").expect("a terminal of the two-way exercise");
    work.edit(&Edit::Move(end, Some(to)));
    work
}

/// What the proofs are asked of.
#[allow(dead_code, reason = "only one bench asks")]
pub fn lamp() -> Supplied {
    supplied()
}
