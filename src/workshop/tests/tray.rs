//! The instruments in the tray: taken in hand by a click, read on themselves first, dark again as soon as that is no longer so.

use bevy_egui::egui::Shape;
use switchdrop::work::{Action, Detector};

use super::{
    super::{panel::Pane, theme},
    bench::Bench,
};

/// Isolated and open, as far as the first proof, at the kiln with the indicator in hand.
fn with_indicator(name: &str) -> Bench {
    let mut bench = Bench::new(name);
    bench.click("begin:two-way-passage");
    bench.does_model_until(|it| matches!(it, Action::ProveIndicator));
    bench.click("go:kiln");
    bench.click("hand:indicator");
    bench
}

fn is_on(bench: &Bench, key: &str) -> bool {
    bench.window.targets().0.iter().any(|it| it.key == key && it.on)
}

/// How many of the indicator's lights are painted as lit.
fn lit(bench: &Bench) -> usize {
    let is_lit = |it: &Shape| matches!(it, Shape::Rect(it) if it.fill == theme::LIT.worn());
    bench.painted.shapes.iter().filter(|it| is_lit(&it.shape)).count()
}

#[test]
fn a_click_takes_an_instrument_in_hand_and_nothing_else_moves() {
    let mut bench = Bench::new("tray-hand");
    bench.click("begin:two-way-passage");
    bench.does_model_until(|it| matches!(it, Action::ProveIndicator));
    bench.click("go:kiln");
    let places = |bench: &Bench| {
        let all = bench.window.targets().0.iter();
        let still = all.filter(|it| it.pane != Pane::Beside && !it.key.starts_with("tray:"));
        let own = ["read", "prove"];
        let still = still.filter(|it| !own.contains(&it.key.as_str()));
        still.map(|it| (it.key.clone(), it.rect)).collect::<Vec<_>>()
    };
    let before = places(&bench);
    assert!(is_on(&bench, "hand:tools"));
    for key in ["hand:indicator", "held:stick", "held:multimeter", "hand:meter", "hand:tools"] {
        bench.click(key);
        assert!(is_on(&bench, key), "{key}");
        let others = ["hand:indicator", "held:stick", "held:multimeter", "hand:meter", "hand:tools"];
        assert_eq!(others.into_iter().filter(|it| is_on(&bench, it)).collect::<Vec<_>>(), [key]);
        assert_eq!(places(&bench), before, "with {key}");
    }
    assert!(
        bench.window.session().is_some_and(|it| it
            .attempt
            .log()
            .iter()
            .all(|it| !matches!(it, Action::TestDead { .. })))
    );
}

/// A sound indicator lights all its lamps on the unit: 240 V are more than each of 12, 24, 50, 120 and 230. Between two conductors that are
/// dead none is lit; and what was read goes dark as soon as a probe is elsewhere.
#[test]
fn the_indicators_lights_say_what_was_read_and_nothing_stale() {
    let mut bench = with_indicator("tray-lights");
    assert_eq!(lit(&bench), 0);
    assert!(bench.says("nothing read yet"));
    bench.click("prove");
    assert_eq!(bench.log().last(), Some(&Action::ProveIndicator));
    assert_eq!(lit(&bench), 5);
    assert!(bench.says("lamps lit up to 230 V"), "{:?}", bench.words());
    bench.click("kiln.1.COM");
    assert_eq!(lit(&bench), 0, "the probes have left the unit");
    bench.click("kiln.1.L1");
    let wanted = Action::TestDead { a: "kiln.1.COM".into(), b: "kiln.1.L1".into(), with: Detector::Indicator };
    assert_eq!(bench.log().last(), Some(&wanted));
    assert_eq!(lit(&bench), 0);
    let dark = |bench: &Bench| bench.words().into_iter().filter(|it| it == "no lamp lit").count();
    assert_eq!(dark(&bench), 2, "on itself and beside the probes: {:?}", bench.words());
    bench.click("kiln.2.COM");
    assert_eq!(dark(&bench), 0, "a probe was moved");
    assert!(bench.says("nothing read yet"));
}

/// The keyboard reaches all of it: F6 to the tray, Tab along it, Enter.
#[test]
fn the_tray_is_worked_by_the_keyboard() {
    let mut bench = with_indicator("tray-keys");
    bench.press_by_keyboard("prove");
    assert_eq!(bench.log().last(), Some(&Action::ProveIndicator));
    bench.press_by_keyboard("hand:meter");
    assert!(is_on(&bench, "hand:meter"));
}

/// The tester's dial: a word chosen has its own ranges, and the reading that is offered next turns the dial.
#[test]
fn the_testers_dial_is_turned_by_its_words() {
    let mut bench = Bench::new("tray-dial");
    bench.tours(|bench, at| {
        if at == "fn:insulation" {
            assert!(is_on(bench, "fn:insulation") && is_on(bench, "range:insulation-500"));
            assert!(!bench.keys().contains(&"range:loop-high".to_owned()));
        }
        if at == "fn:loop" {
            assert!(is_on(bench, "range:loop-no-trip") && bench.keys().contains(&"range:loop-high".to_owned()));
        }
        if at == "fn:rcd" {
            assert_eq!(bench.keys().iter().filter(|it| it.starts_with("range:")).count(), 3);
        }
    });
}

/// A lock goes on a device that is off, from the tray: with the device selected by one click, else by one on it; on one that is on it does
/// not go.
#[test]
fn a_lock_is_hung_from_the_tray() {
    let rests = |bench: &mut Bench| (0..8).for_each(|_| bench.frames(Vec::new()));
    let mut bench = Bench::new("tray-lock");
    bench.click("begin:two-way-passage");
    bench.click("go:board");
    let locks =
        |bench: &Bench| bench.log().into_iter().filter(|it| matches!(it, Action::LockOff { .. })).collect::<Vec<_>>();
    bench.click("tray:lock");
    assert!(is_on(&bench, "tray:lock"));
    bench.click("board.1");
    assert!(locks(&bench).is_empty(), "it is on");
    rests(&mut bench);
    bench.click("board.1");
    assert!(matches!(bench.log().last(), Some(Action::PowerOff { .. })), "{:?}", bench.log());
    rests(&mut bench);
    bench.click("tray:lock");
    assert_eq!(locks(&bench), [Action::LockOff { device: "board.1".into() }]);
    rests(&mut bench);
    bench.click("board.2");
    rests(&mut bench);
    bench.key(bevy_egui::egui::Key::Escape);
    bench.drag("tray:lock", "board.2");
    assert_eq!(locks(&bench).len(), 2, "{:?}", bench.log());
}
