//! Where the current goes, in the window: told once one's own power has come on, lit in both drawings, set by the table, felt by a hand.

use bevy_egui::egui::{Event, vec2};
use switchdrop::{picture::Thing, work::Action};

use super::bench::Bench;

fn before(name: &str, until: fn(&Action) -> bool) -> Bench {
    let mut bench = Bench::new(name);
    bench.click("begin:two-way-passage");
    bench.does_model_until(until);
    bench
}

fn powered(name: &str) -> Bench {
    before(name, |it| matches!(it, Action::HandIn))
}

#[test]
fn nothing_is_told_of_the_current_before_ones_own_power() {
    let mut bench = before("current-early", |it| matches!(it, Action::PowerOn { .. }));
    bench.click("go:place");
    assert!(
        !bench.keys().contains(&"hands".to_owned()) && !bench.says("Where the current goes"),
        "{:?}",
        bench.texts()
    );
    let mut bench = powered("current-late");
    bench.click("go:place");
    assert!(bench.keys().contains(&"hands".to_owned()), "{:?}", bench.keys());
    assert!(bench.says("Where the current goes now"), "{:?}", bench.texts());
}

/// The light at the shed draws its current through the right-hand switch: by the brief, whatever the passage's switches do.
#[test]
fn a_line_of_the_table_presses_the_rockers_that_stand_otherwise() {
    let mut bench = powered("current-table");
    bench.click("go:circuit");
    let before = bench.log().len();
    bench.click("position:3");
    let work = bench.window.session().unwrap().attempt.work().clone();
    assert_eq!(work.positions(), [0, 1, 1], "the fourth of eight in counting order");
    let done = bench.log()[before..].to_vec();
    assert!(!done.is_empty() && done.iter().all(|it| matches!(it, Action::Operate { .. })), "{done:?}");
    bench.click("position:3");
    assert_eq!(bench.log().len(), before + done.len(), "it stands so already");
}

/// A switch beneath, a terminal above: each is what is pointed at, whichever drawing it is on; with a terminal come the cores joined to it.
#[test]
fn what_is_pointed_at_in_one_drawing_is_lit_in_the_other() {
    let mut bench = powered("current-lit");
    bench.click("go:circuit");
    let work = bench.window.session().unwrap().attempt.work().clone();
    let clay = work.exercise().switch("clay").unwrap();
    let at = bench.middle("place:switch:clay");
    bench.frames(vec![Event::PointerMoved(at)]);
    assert_eq!(bench.window.pointed().and_then(|it| it.thing), Some(Thing::Switch(clay)));
    let com = work.exercise().terminal("clay.COM").unwrap();
    let at = bench.middle("clay.COM");
    bench.frames(vec![Event::PointerMoved(at)]);
    let lit = bench.window.pointed().cloned().unwrap();
    assert_eq!(lit.thing, Some(Thing::Terminal(com)));
    let brown = (0..work.conductor_count()).find(|it| work.conductor_address(*it) == "link/brown").unwrap();
    assert!(lit.conductors.contains(&brown), "{:?}", lit.conductors);
    bench.frames(vec![Event::PointerMoved(at + vec2(0.0, -400.0))]);
    assert_eq!(bench.window.pointed(), None);
}

/// Metal that is earthed and a contact that is live: told as what would happen, the caution beside it.
#[test]
fn a_hand_is_a_picture_with_its_caution() {
    let mut bench = powered("current-hand");
    bench.click("go:place");
    bench.click("hands");
    assert!(bench.says("Never touch to find out"), "{:?}", bench.texts());
    bench.click("hand:clay.box.earth");
    assert!(bench.says("nothing would be felt there"), "{:?}", bench.texts());
    let before = bench.log().len();
    // The right-hand switch is closed: its lampholder is live.
    bench.click("hand:shed-lamp.1");
    assert!(bench.says("V across the body"), "{:?}", bench.texts());
    assert_eq!(bench.log().len(), before, "nothing is done by it");
    bench.click("hands");
    assert!(!bench.says("V across the body"));
}
