//! A probe parked on the thing itself, the other from end to end with one gesture each; an earth that was never shown is said at once.

use bevy_egui::egui::Event;
use switchdrop::work::{Action, Detector};

use super::bench::Bench;

fn touch(a: &str, b: &str) -> Action {
    Action::TestDead { a: a.to_owned(), b: b.to_owned(), with: Detector::Indicator }
}

fn park(at: &str) -> Action {
    Action::Park { at: at.to_owned() }
}

/// Isolated and open, the indicator in hand and proved.
fn ready(name: &str) -> Bench {
    let mut bench = Bench::new(name);
    bench.click("begin:two-way-passage");
    bench.does_model_until(|it| matches!(it, Action::Continuity { .. }));
    for key in ["go:kiln", "hand:indicator", "prove"] {
        bench.click(key);
    }
    bench
}

#[test]
fn with_the_pointer() {
    let mut bench = ready("parked");
    bench.click("link/cpc@kiln");
    bench.click("link/cpc@kiln");
    bench.click("kiln.1.COM");
    bench.click("kiln.1.L1");
    bench.click("link/cpc@kiln");
    let wanted = [
        park("link/cpc@kiln"),
        touch("kiln.1.COM", "link/cpc@kiln"),
        touch("kiln.1.L1", "link/cpc@kiln"),
        Action::Unpark,
    ];
    assert!(bench.log().ends_with(&wanted), "{:?}", bench.log());
}

/// One drag along three ends, with a rest on each but the second: two are touched, each once, and letting go touches none again.
#[test]
fn one_drag_along_the_ends_touches_each_that_it_rests_on() {
    let mut bench = ready("parked-drag");
    bench.click("link/cpc@kiln");
    bench.click("link/cpc@kiln");
    let ends = ["link/brown@kiln", "link/black@kiln", "link/grey@kiln"];
    let [first, second, third] = ends.map(|it| bench.middle(it));
    bench.frames(vec![Event::PointerMoved(first)]);
    bench.frames(vec![Bench::button(first, true)]);
    // Four frames of a sixtieth of a second each.
    let rests = |bench: &mut Bench| (0..8).for_each(|_| bench.frames(Vec::new()));
    rests(&mut bench);
    bench.frames(vec![Event::PointerMoved(second)]);
    bench.frames(vec![Event::PointerMoved(third)]);
    rests(&mut bench);
    rests(&mut bench);
    bench.frames(vec![Bench::button(third, false)]);
    let parked = "link/cpc@kiln";
    assert!(
        bench.log().ends_with(&[park(parked), touch(ends[0], parked), touch(ends[2], parked)]),
        "{:?}",
        bench.log()
    );
}

#[test]
fn by_the_keyboard() {
    let mut bench = ready("parked-keys");
    for key in ["kiln.box.earth", "kiln.box.earth", "kiln.2.COM", "kiln.box.earth"] {
        bench.press_by_keyboard(key);
    }
    let wanted = [park("kiln.box.earth"), touch("kiln.2.COM", "kiln.box.earth"), Action::Unpark];
    assert!(bench.log().ends_with(&wanted), "{:?}", bench.log());
}

/// Nothing shows to the bare cpc of a cable that is connected nowhere: in place of that alone, it is said what it proves. To an earth
/// that was shown nothing more is said.
#[test]
fn an_earth_never_shown_is_said_at_once() {
    let mut bench = ready("parked-said");
    let doubted = "has not been shown to be an earth";
    for key in ["link/cpc@kiln", "link/cpc@kiln", "kiln.1.COM"] {
        bench.click(key);
    }
    assert!(bench.window.said().contains(doubted), "{}", bench.window.said());
    bench.click("link/cpc@kiln");
    for key in ["hand:meter", "show-earth", "hand:indicator", "kiln.box.earth", "kiln.box.earth", "kiln.1.COM"] {
        bench.click(key);
    }
    assert_eq!(bench.log().last(), Some(&touch("kiln.1.COM", "kiln.box.earth")));
    assert!(!bench.window.said().contains(doubted), "{}", bench.window.said());
}
