//! The jobs that both benches do.

#[allow(dead_code, reason = "the tests use the rest")]
#[path = "../../tests/wirings.rs"]
pub mod wirings;

use switchdrop::{
    attempt::{Attempt, Opened, open},
    circuit::Proof,
    marking::{Sheet, mark},
    work::{Edit, Work},
};

use wirings::{Dice, Wiring, supplied};

/// The model of the two-way exercise.
pub const TWO_WAY: &str = include_str!("../../exercises/two-way-passage/model.attempt.ron");

/// The same, read.
pub fn opened() -> Opened {
    open(TWO_WAY).expect("a model attempt")
}

/// Marks a text from nothing.
pub fn marked(text: &str) -> Sheet {
    let opened = open(text).expect("an attempt");
    let attempt: Attempt = opened.replay().expect("an attempt that can be done");
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

/// The model with a strapper in COM.
#[allow(dead_code, reason = "only the timed bench moves ends")]
pub fn broken(work: &Work) -> Work {
    let mut work = work.clone();
    let end = work.end("link/grey@clay").expect("an end of the two-way exercise");
    let to = work.terminal("clay.COM").expect("a terminal of the two-way exercise");
    work.edit(&Edit::Move(end, Some(to)));
    work
}
