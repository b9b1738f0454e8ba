//! The see-through house, by pointer and by keyboard. What its lamp does is worked out by hand: the feed is on L1, the lamp on L2, and
//! black, brown and grey join the L1, the COM and the L2 of the two switches. With its rocker down a switch joins COM to L1, else to L2.

use bevy_egui::egui::{Event, Key, Modifiers, Pos2, vec2};

use super::{
    super::{panel::Pane, window_state::Screen},
    bench::Bench,
};

fn inside(name: &str) -> Bench {
    let mut bench = Bench::new(name);
    bench.click("curious");
    assert_eq!(bench.window.screen(), Screen::Curious);
    bench
}

/// In the house, this number of steps on.
fn at_step(name: &str, steps: usize) -> Bench {
    let mut bench = inside(name);
    for _ in 1..steps {
        rests(&mut bench);
        bench.click("curious:next");
    }
    rests(&mut bench);
    bench
}

/// Longer than a double click.
fn rests(bench: &mut Bench) {
    (0..8).for_each(|_| bench.frames(Vec::new()));
}

const NO: Option<bool> = Some(false);
const YES: Option<bool> = Some(true);

#[test]
fn the_lamp_changes_at_the_second_click_and_four_settings_fill_the_table() {
    let mut bench = inside("curious-play");
    assert_eq!(bench.window.curious().seen(), [None; 4]);
    bench.click("switch:far");
    // Near down, far up: L1 to COM, COM to L2.
    assert_eq!(bench.window.curious().seen(), [None, YES, None, None]);
    assert!(bench.window.said().starts_with("The lamp is lit"), "{}", bench.window.said());
    bench.click("switch:near");
    assert!(bench.window.said().starts_with("The lamp is out"), "{}", bench.window.said());
    bench.click("plate:far");
    bench.click("plate:near");
    assert_eq!(bench.window.curious().seen(), [NO, YES, YES, NO]);
    assert!(bench.window.said().starts_with("You have seen all four"), "{}", bench.window.said());
    bench.click("undo");
    bench.click("leave");
    assert_eq!(bench.window.screen(), Screen::Start);
    assert!(bench.keys().contains(&"begin:two-way-passage".to_owned()));
}

/// What leads on is where it was, so that a second press goes on too.
#[test]
fn what_leads_on_stays_under_the_pointer() {
    let mut bench = inside("curious-on");
    let first = bench.middle("curious:next");
    assert!(!bench.window.targets().0.iter().any(|it| it.key == "curious:back" && it.enabled));
    bench.click("curious:next");
    assert_eq!(bench.middle("curious:next"), first);
    assert!(bench.window.targets().0.iter().any(|it| it.key == "curious:back" && it.enabled));
}

/// Arrows walk for 3 s after a press and while a wire is pointed at that carries the current: then the window has nothing to draw.
#[test]
fn arrows_walk_after_an_event_and_the_window_idles_again() {
    let draws_on = |bench: &Bench| bench.painted.viewport_output.values().any(|it| it.repaint_delay.is_zero());
    // 60 frames a second, four a call.
    let seconds = |bench: &mut Bench, count: usize| (0..15 * count).for_each(|_| bench.frames(Vec::new()));
    let mut bench = inside("curious-walk");
    bench.click("switch:far");
    seconds(&mut bench, 2);
    assert!(draws_on(&bench));
    seconds(&mut bench, 2);
    assert!(!draws_on(&bench));
    // With the near switch down and the far one up the brown wire between the COM carries the current: between the two plates.
    let at = bench.middle("plate:near").lerp(bench.middle("plate:far"), 0.4);
    let brown = (-30..30).map(|it| at + vec2(0.0, 5.0 * it as f32)).find(|at| {
        bench.frames(vec![Event::PointerMoved(*at)]);
        seconds(&mut bench, 1);
        draws_on(&bench)
    });
    let brown = brown.expect("a wire that carries the current is beneath the pointer somewhere");
    seconds(&mut bench, 4);
    assert!(draws_on(&bench));
    bench.frames(vec![Event::PointerMoved(brown - vec2(0.0, 300.0))]);
    seconds(&mut bench, 1);
    assert!(!draws_on(&bench));
}

/// Without black only the near L1 has the feed: the lamp is lit with the near rocker down and the far one up, and at no other time.
#[test]
fn a_core_pulled_out_says_what_the_table_by_hand_says_and_goes_back() {
    let mut bench = at_step("curious-pull", 3);
    bench.click("core:black");
    assert!(bench.window.said().starts_with("Supply off:"), "{}", bench.window.said());
    bench.click("curious:close");
    assert_eq!(bench.window.curious().seen(), [NO, YES, NO, NO]);
    let wanted =
        "Now the far switch works it only while the near one is down; with the near one up the lamp stays off.";
    assert_eq!(bench.window.said(), wanted);
    bench.click("curious:show");
    assert!(bench.says("near switch: rocker up") && bench.says("far switch: rocker down"), "{:?}", bench.words());
    rests(&mut bench);
    bench.click("core:black");
    bench.click("curious:close");
    assert_eq!(bench.window.curious().seen(), [NO, YES, YES, NO]);
    // The other way back: one act at a time.
    for _ in 0..5 {
        bench.key_with(Modifiers::CTRL, Key::Z);
    }
    assert!(bench.window.said().starts_with("Take any one"), "{}", bench.window.said());
}

/// With two wires, black joins the L1 of the two switches and brown the COM. The lamp's wire moved to L1, where the feed is: always lit.
/// Then black moved to L2 at both ends and the lamp's wire to L2 again: near up and far up alone.
#[test]
fn wires_joined_any_way_leave_a_grid_for_each_try_and_none_twice() {
    let mut bench = at_step("curious-beat", 4);
    bench.drag("light/brown@near", "near.L1");
    assert!(bench.window.said().starts_with("Supply off:"), "{}", bench.window.said());
    bench.click("curious:close");
    assert_eq!(bench.window.said(), "Now the lamp is always on.");
    assert_eq!(bench.window.curious().tries().len(), 1);
    rests(&mut bench);
    // By a press on the end and one on the screw.
    for (end, screw) in [("light/brown@near", "near.L2"), ("link/black@near", "near.L2"), ("link/black@far", "far.L2")]
    {
        bench.click(end);
        assert!(bench.window.said().starts_with("You hold"), "{}", bench.window.said());
        bench.click(screw);
        assert!(bench.window.said().starts_with("Supply off:"), "{}", bench.window.said());
    }
    bench.click("curious:close");
    // Feed on the near L1, lamp and black on its L2, brown between the COM. Near down leads the feed to brown; far up leads that to black
    // and the lamp: lit. Near up has no feed on COM.
    let wanted =
        "Now the far switch works it only while the near one is down; with the near one up the lamp stays off.";
    assert_eq!(bench.window.said(), wanted);
    let grids =
        |bench: &mut Bench| bench.window.curious().tries().iter().map(|it| it.grid.lit().to_vec()).collect::<Vec<_>>();
    assert_eq!(grids(&mut bench), [vec![false, true, false, false], vec![true; 4]]);
    // The first one again, by its grid: it comes to the front and is there once.
    rests(&mut bench);
    bench.click("try:1");
    assert_eq!(bench.window.said(), "Now the lamp is always on.");
    assert_eq!(grids(&mut bench).len(), 2);
    bench.key_with(Modifiers::CTRL, Key::Z);
    assert_eq!(bench.window.said(), wanted);
}

/// The bare earth wire at both L2 does what grey did. At the far one alone it brings earth there, and near down and far up lead live to it.
#[test]
fn a_try_that_is_dangerous_says_so() {
    let mut bench = at_step("curious-danger", 4);
    bench.drag("link/cpc@far", "far.L2");
    bench.click("curious:close");
    assert_eq!(bench.window.said(), "In some setting the trip switch opens: live meets earth.");
    rests(&mut bench);
    bench.drag("link/cpc@near", "near.L2");
    bench.click("curious:close");
    let wanted = "The lamp obeys: each press of either switch changes it. But in some positions of the switches bare copper is live where a hand can be.";
    assert_eq!(bench.window.said(), wanted);
    // The feed on earth: it can be taken from there again.
    rests(&mut bench);
    bench.drag("feed/brown@near", "near.box.earth");
    bench.click("curious:close");
    assert_eq!(bench.window.said(), "In some setting the trip switch opens: live meets earth.");
    rests(&mut bench);
    bench.drag("feed/brown@near", "near.L1");
    bench.click("curious:close");
    assert_eq!(bench.window.said(), wanted);
}

/// Four to a screw: with three wires the fifth end at the near switch finds no room on L1.
#[test]
fn a_full_screw_says_so_and_an_end_goes_to_its_own_switch_alone() {
    let mut bench = at_step("curious-full", 4);
    bench.click("curious:join-3");
    for it in ["link/brown@near", "light/brown@near", "link/grey@near"] {
        bench.drag(it, "near.L1");
    }
    assert_eq!(bench.window.said(), "There is no room for one more under that screw.");
    bench.click("link/grey@near");
    assert!(!bench.keys().contains(&"far.L1".to_owned()), "{:?}", bench.keys());
    bench.key(Key::Escape);
    assert!(bench.window.said().starts_with("Supply off:"), "{}", bench.window.said());
}

/// 3 terminals, 4 ends at the near switch and 2 at the far one: 729 ways. With three wires 5 and 3: 6,561. `tests/reason.rs` has the count of
/// those that work by brute force: 0 and 24. One that works is opened: each press changes its lamp.
#[test]
fn the_count_shows_that_two_do_not_do_and_three_do() {
    let mut bench = at_step("curious-count", 5);
    bench.click("curious:count-2");
    bench.window.curious().wait();
    bench.frames(Vec::new());
    assert!(bench.window.said().ends_with("of 729 ways tried."), "{}", bench.window.said());
    // It ends by itself: 2.4 s at 60 frames a second, four a call.
    for _ in 0..40 {
        bench.frames(Vec::new());
    }
    assert_eq!(
        bench.window.said(),
        "Of 729 ways with two wires, supply and lamp at one end and the bare earth wire left alone, not one works the lamp from both switches."
    );
    bench.click("curious:count-3");
    bench.window.curious().wait();
    bench.frames(Vec::new());
    bench.click("curious:finish");
    assert!(bench.window.said().ends_with("Of 6,561 ways with three wires 24 work the lamp from both switches."));
    rests(&mut bench);
    bench.click("class:3-0");
    assert_eq!(bench.window.said(), "The lamp obeys: each press of either switch changes it.");
    let before = bench.window.curious().seen().to_vec();
    assert!(before == [NO, YES, YES, NO] || before == [YES, NO, NO, YES], "{before:?}");
    bench.click("switch:near");
    bench.click("plate:far");
    bench.click("curious:wall");
    assert!(bench.window.said().starts_with("Of 729 ways"));
}

#[test]
fn a_wrong_sentence_plays_what_speaks_against_it() {
    let mut bench = at_step("curious-reason", 7);
    bench.click("curious:phases");
    // Both rockers down: nothing leads the feed to grey.
    assert!(bench.says("near switch: rocker down") && bench.says("far switch: rocker down"), "{:?}", bench.words());
    assert!(bench.window.said().starts_with("Look at the wire on L2"));
    bench.click("curious:spare");
    // Without grey: near up and far down alone.
    assert_eq!(bench.window.curious().seen(), [NO, NO, YES, NO]);
    bench.click("curious:true");
    assert_eq!(bench.window.curious().seen(), [NO, YES, YES, NO]);
    assert_eq!(bench.window.said(), "Yes, that is the reason.");
}

/// 230 V through 2,000 ohm of a body: 115 mA; more than twice 30 mA, so that the trip switch has 0.15 s.
const SHOCK: &str = "230 V across the body, and about 115 mA through it. The trip switch opens within 0.15 s: that makes the shock shorter, and does not prevent it.";

#[test]
fn a_hand_in_another_house_meets_what_is_worked_out_for_it() {
    let mut bench = at_step("curious-hand", 8);
    bench.click("what-if:bare-earth");
    bench.click("curious:hand");
    assert_eq!(bench.window.said(), SHOCK);
    // Both rockers down: nothing leads the feed to the bare wire.
    bench.click("switch:far");
    assert!(bench.window.said().starts_with("With the switches like this it is not live."), "{}", bench.window.said());
    bench.key_with(Modifiers::CTRL, Key::Z);
    assert_eq!(bench.window.said(), SHOCK);
    rests(&mut bench);
    for house in ["what-if:exchanged", "what-if:both-poles"] {
        bench.click(house);
        assert_eq!(bench.window.curious().seen(), [NO, YES, YES, NO]);
        // Both rockers down: the lamp is out.
        bench.click("curious:hand");
        assert_eq!(bench.window.said(), SHOCK, "{house}");
    }
    // Both up: neutral on both sides.
    bench.click("switch:near");
    bench.click("switch:far");
    assert!(bench.window.said().starts_with("With the switches like this it is not live."), "{}", bench.window.said());
}

#[test]
fn the_other_houses_do_what_tables_by_hand_have() {
    let mut bench = at_step("curious-houses", 8);
    bench.click("what-if:opposite");
    assert_eq!(bench.window.curious().seen(), [YES, NO, NO, YES]);
    bench.click("curious:neighbour");
    assert!(
        bench.window.said().contains("both trip switches notice and open within 0.04 s"),
        "{}",
        bench.window.said()
    );
    // Both levers fall, and rise for the next press.
    assert_eq!(bench.words().iter().filter(|it| *it == "tripped").count(), 2, "{:?}", bench.words());
    bench.click("switch:far");
    assert!(bench.window.said().starts_with("The lamp's neutral is that of"), "{}", bench.window.said());
    assert!(!bench.says("tripped"), "{:?}", bench.words());
    bench.click("what-if:third");
    assert_eq!(bench.window.curious().seen(), [YES, NO, NO, YES, NO, YES, YES, NO]);
    bench.click("switch:middle");
    bench.click("plate:middle");
}

/// Near down and far up: out by the feed, over brown and grey, up to the lamp and back by the blue.
#[test]
fn the_loop_is_numbered_as_on_paper() {
    let mut bench = at_step("curious-where", 8);
    bench.click("what-if:where");
    for it in [
        "brown wire to the near switch",
        "near switch, L1 to COM",
        "brown wire to the far switch",
        "far switch, COM to L2",
        "grey wire to the near switch",
        "brown wire to the passage light",
        "blue wire to the board",
    ] {
        assert!(bench.says(it), "{it}: {:?}", bench.words());
    }
    bench.click("switch:far");
    assert!(!bench.says("blue wire to the board"));
    assert!(bench.window.said().starts_with("The loop is broken"), "{}", bench.window.said());
}

#[test]
fn the_last_step_leads_to_the_exercise() {
    let mut bench = at_step("curious-door", 8);
    bench.click("curious:exercise");
    assert_eq!(bench.window.screen(), Screen::Bench);
    assert_eq!(bench.window.session().unwrap().attempt.work().exercise().id, "two-way-passage");
}

/// Tab comes to everything that can be used, and Enter does what a click does, all the way through.
#[test]
fn the_whole_way_goes_by_keyboard() {
    let mut bench = Bench::new("curious-keys");
    let presses = |bench: &mut Bench, key: &str| {
        for _ in 0..80 {
            if bench.focused().as_deref() == Some(key) {
                bench.key(Key::Enter);
                return;
            }
            bench.key(Key::Tab);
        }
        panic!("Tab never comes to {key}: {:?}", bench.keys());
    };
    presses(&mut bench, "curious");
    for stops in [
        &["switch:near", "switch:far", "plate:near", "plate:far", "undo"][..],
        &["curious:yes"],
        &["core:grey", "curious:close", "curious:show"],
        &["link/black@far", "far.L2", "curious:close", "try:0", "curious:join-3"],
        &["curious:count-2"],
        &[],
        &["curious:spare", "curious:true", "curious:phases"],
        &["what-if:bare-earth", "curious:hand", "what-if:opposite", "curious:neighbour", "what-if:where"],
    ] {
        for it in stops {
            presses(&mut bench, it);
        }
        let left: Vec<_> = bench.window.targets().0.iter().filter(|it| it.enabled).map(|it| it.key.clone()).collect();
        let mut reached = std::collections::BTreeSet::new();
        for _ in 0..=left.len() {
            reached.extend(bench.focused());
            bench.key(Key::Tab);
        }
        assert!(left.iter().all(|it| reached.contains(it)), "{left:?} {reached:?}");
        if left.contains(&"curious:next".to_owned()) {
            presses(&mut bench, "curious:next");
        }
    }
    presses(&mut bench, "leave");
    assert_eq!(bench.window.screen(), Screen::Start);
}

/// Every step: nothing smaller than can be read or hit, and never more than two sentences.
#[test]
fn each_step_can_be_read_and_hit() {
    let looks = |bench: &mut Bench, at: &str, wide: f32| {
        bench.frames(vec![Event::PointerMoved(Pos2::new(2.0, 2.0))]);
        rests(bench);
        for (text, points) in bench.texts() {
            assert!(points >= 12.0, "{at}: {text} at {points}");
        }
        for it in bench.window.targets().0.iter().filter(|it| it.visible) {
            assert!(it.rect.height() >= 23.5 && it.rect.width() >= 23.5, "{at}: {it:?}");
            // The panel beside is as wide as it is set, whatever stands in it.
            let beside = wide - (0.27 * wide).clamp(348.0, 460.0)..wide;
            let inside = beside.contains(&it.rect.left()) && beside.contains(&it.rect.right());
            assert!(it.pane != Pane::Beside || inside, "{at}: {it:?}");
        }
        let lie = bench.texts_that_lie_on_others();
        assert!(lie.is_empty(), "{at} at {wide}: {lie:?}");
        let said = bench.window.said();
        let sentences =
            said.split_inclusive(['.', '?']).filter(|it| it.starts_with(' ') || said.starts_with(*it)).count();
        assert!((1..=2).contains(&sentences), "{at}: {said}");
        assert!(bench.says("A picture, not instructions."), "{at}");
    };
    for size in [(1280.0, 800.0), (1024.0, 640.0), (1920.0, 1080.0)] {
        let mut bench = inside("curious-sizes");
        bench.size = size.into();
        for (step, clicks) in [
            ("play", &[][..]),
            ("guess", &[]),
            ("pull", &["core:brown"]),
            ("beat", &["curious:join-3"]),
            ("try", &[]),
            ("two", &[]),
            ("three", &[]),
            (
                "what if",
                &[
                    "what-if:bare-earth",
                    "curious:hand",
                    "what-if:exchanged",
                    "what-if:both-poles",
                    "what-if:opposite",
                    "curious:neighbour",
                    "what-if:third",
                    "what-if:where",
                ],
            ),
        ] {
            looks(&mut bench, step, size.0);
            for it in clicks {
                bench.click(it);
                looks(&mut bench, it, size.0);
            }
            if step == "try" {
                for it in ["curious:count-2", "curious:finish", "curious:count-3", "curious:finish"] {
                    bench.click(it);
                    bench.window.curious().wait();
                    bench.frames(Vec::new());
                }
                looks(&mut bench, step, size.0);
            }
            if step != "what if" {
                bench.click("curious:next");
            }
        }
    }
}
