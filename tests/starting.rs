//! The charter, "Starting states" and "Levels of board work": how the shipped exercises begin, and what is the supervisor's.

use std::sync::Arc;

use switchdrop::{
    attempt::{Attempt, dead_tests_left},
    circuit::is_energised,
    exercise::TerminalUse,
    work::{Action, Point, Refused},
};

use crate::{
    chosen::chosen_model,
    hand::{Hand, SHIPPED, exercise},
    made_off::tested_model,
};

/// No loose end is on a device that is on; an uncut cable is connected at its other end to nothing but a lampholder, or to a training board
/// whose plug is out.
#[test]
fn shipped_exercises_begin_as_real_jobs_do() {
    for (id, _) in SHIPPED {
        for seed in 0..20 {
            let attempt = Attempt::new(exercise(id, seed));
            let work = attempt.work();
            let uses = |it| work.exercise().terminals[work.terminal_of(it).unwrap()].used_by;
            for end in work.ends().filter(|it| work.terminal_of(*it).is_none()) {
                let address = work.end_address(end);
                assert!(!is_energised(work, Point::End(end)), "{id} {seed}: {address}");
                let is_joined = work.prep_of(end).is_some() && work.terminal_of(end.other()).is_some();
                if is_joined && !work.is_unplugged() {
                    assert!(matches!(uses(end.other()), TerminalUse::Lampholder(..)), "{id} {seed}: {address}");
                }
            }
        }
    }
}

/// The log of a model up to its first action of a kind.
fn until(model: &Hand, of: impl Fn(&Action) -> bool) -> Hand {
    let log = model.attempt.log();
    let end = log.iter().position(of).unwrap();
    let exercise = Arc::clone(model.attempt.work().exercise());
    Hand { attempt: Attempt::replay(exercise, log[..end].iter().cloned()).unwrap() }
}

/// Where the supervisor has the board, it is off and under their lock; that comes off once all that comes before power-on is done
/// and the own lock is off, and not before.
#[test]
fn the_supervisors_lock_comes_off_when_all_is_done_and_ones_own_is_off() {
    let model = chosen_model();
    let device = model.attempt.log().iter().find_map(|it| match it {
        Action::PowerOn { device } => Some(device.clone()),
        _ => None,
    });
    let on = || Action::PowerOn { device: device.clone().unwrap() };
    let kept = || Err(Refused::KeptOff { device: device.clone().unwrap() });
    let mut hand = Hand::new(Arc::clone(model.attempt.work().exercise()));
    assert_eq!(hand.attempt.act(on()), kept());
    // Done with everything, the own lock still on; and with the own lock off before the checks.
    let before = until(&model, |it| matches!(it, Action::Unlock { .. }));
    assert!(before.attempt.work().is_kept_off());
    let mut early = until(&model, |it| matches!(it, Action::Confirm { .. }));
    early.does(Action::Unlock { device: device.clone().unwrap() });
    assert_eq!(early.attempt.act(on()), kept());
    let after = until(&model, |it| matches!(it, Action::PowerOn { .. }));
    assert!(!after.attempt.work().is_kept_off());
}

/// A new cable is tied back beside the board, not connected, until the learner has looked every place over.
#[test]
fn a_new_cable_is_connected_at_the_board_when_the_work_was_looked_over() {
    let model = tested_model();
    let is_tied_back = |hand: &Hand| {
        let work = hand.attempt.work();
        ["feed/brown@board", "feed/blue@board", "feed/cpc@board"]
            .map(|it| work.terminal_of(work.end(it).unwrap()).is_none())
    };
    let first = until(&model, |it| matches!(it, Action::Inspect { .. }));
    assert_eq!(is_tied_back(&first), [true; 3]);
    let one = until(&model, |it| *it == Action::Inspect { location: "rose".to_owned() });
    assert_eq!(is_tied_back(&one), [true; 3]);
    let both = until(&model, |it| matches!(it, Action::RemoveLamp { .. }));
    assert_eq!(is_tied_back(&both), [false; 3]);
}

/// No probe goes through the sheath of an uncut cable, and none is asked for.
#[test]
fn no_probe_goes_through_a_sheath() {
    for seed in 0..20 {
        let mut hand = Hand::new(exercise("one-way-tested", seed));
        let work = hand.attempt.work();
        if !work.exercise().kit.indicator.is_sound() {
            continue;
        }
        for place in ["switch", "rose"] {
            let tests = dead_tests_left(&hand.attempt, work.location(place).unwrap());
            let in_sheath = |it| matches!(it, Point::End(end) if work.prep_of(end).is_some());
            assert!(!tests.iter().any(|it| in_sheath(it.a) || in_sheath(it.b)), "{seed}: {tests:?}");
        }
        hand.isolates();
        let (a, b) = ("light/brown@switch".to_owned(), "board.earth".to_owned());
        let through = Action::TestDead { a, b, with: switchdrop::work::Detector::Indicator };
        let refused = Err(Refused::InSheath { end: "light/brown@switch".to_owned() });
        assert_eq!(hand.attempt.act(through), refused, "{seed}");
    }
}
