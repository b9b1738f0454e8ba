//! Events that a slow machine sees in one frame mean what they meant one by one.

use bevy_egui::egui::{Event, Pos2};
use switchdrop::work::Action;

use super::bench::Bench;

/// Moved onto something, pressed, let go, and moved on, before a frame came.
fn click_and_on(bench: &mut Bench, on: &str, then: Pos2) {
    let at = bench.middle(on);
    bench.frames(vec![
        Event::PointerMoved(at),
        Bench::button(at, true),
        Bench::button(at, false),
        Event::PointerMoved(then),
    ]);
}

#[test]
fn a_click_counts_where_it_was_and_not_where_the_pointer_has_come_to() {
    let mut bench = Bench::new("click-in-one-frame");
    bench.click("begin:two-way-passage");
    let elsewhere = bench.middle("go:clay");
    click_and_on(&mut bench, "go:kiln", elsewhere);
    let on: Vec<_> = bench.window.targets().0.iter().filter(|it| it.on).map(|it| it.key.as_str()).collect();
    assert!(on.contains(&"go:kiln"), "{on:?}");
    // The pointer is where it went.
    assert_eq!(bench.ctx.pointer_latest_pos(), Some(elsewhere));
}

/// Two seconds between press and release, as on a machine that draws two frames a second, or under a hesitant finger.
#[test]
fn a_slow_click_is_a_click() {
    let mut bench = Bench::new("slow-click");
    bench.click("begin:two-way-passage");
    let at = bench.middle("go:kiln");
    bench.frames(vec![Event::PointerMoved(at)]);
    bench.frames(vec![Bench::button(at, true)]);
    // Four frames of a sixtieth of a second each.
    (0..30).for_each(|_| bench.frames(Vec::new()));
    bench.frames(vec![Bench::button(at, false)]);
    assert!(bench.window.targets().0.iter().any(|it| it.on && it.key == "go:kiln"));
}

#[test]
fn a_whole_drag_in_one_frame_is_a_drag() {
    let mut bench = Bench::new("drag-in-one-frame");
    bench.click("begin:two-way-passage");
    bench.does_model_until(|it| matches!(it, Action::Connect { .. }));
    bench.click("go:kiln");
    let (from, to) = (bench.middle("feed/brown@kiln"), bench.middle("kiln.1.L1"));
    bench.frames(vec![
        Event::PointerMoved(from),
        Bench::button(from, true),
        Event::PointerMoved(to),
        Bench::button(to, false),
    ]);
    let wanted = Action::Connect { end: "feed/brown@kiln".to_owned(), terminal: "kiln.1.L1".to_owned() };
    assert_eq!(bench.log().last(), Some(&wanted));
}

#[test]
fn two_clicks_in_one_frame_are_two_clicks() {
    let mut bench = Bench::new("two-clicks");
    bench.click("begin:two-way-passage");
    bench.click("go:kiln");
    let mut events = Vec::new();
    for key in ["feeds:board.1", "feeds:board.2"] {
        let at = bench.middle(key);
        events.extend([Event::PointerMoved(at), Bench::button(at, true), Bench::button(at, false)]);
    }
    bench.frames(events);
    bench.click("identify");
    let devices = ["board.1", "board.2"].map(str::to_owned).to_vec();
    assert_eq!(bench.log(), [Action::Identify { location: "kiln".to_owned(), devices }]);
}
