//! The see-through house, by pointer and by keyboard. What its lamp does is worked out by hand: the feed is on L1, the lamp on L2, and
//! black, brown and grey join the L1, the COM and the L2 of the two switches. With its rocker down a switch joins COM to L1, else to L2.

use bevy_egui::egui::Key;

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

/// In the house, so many steps on.
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

#[test]
fn the_lamp_changes_at_the_second_click_and_four_settings_fill_the_table() {
    let mut bench = inside("curious-play");
    assert_eq!(bench.window.curious().seen(), [[None; 2]; 2]);
    bench.click("switch:far");
    // Near down, far up: L1 to COM, COM to L2.
    assert_eq!(bench.window.curious().seen(), [[None, Some(true)], [None; 2]]);
    assert!(bench.window.said().starts_with("The lamp is lit."), "{}", bench.window.said());
    bench.click("switch:near");
    assert!(bench.window.said().starts_with("The lamp is out."), "{}", bench.window.said());
    bench.click("plate:far");
    bench.click("plate:near");
    let [no, yes] = [Some(false), Some(true)];
    assert_eq!(bench.window.curious().seen(), [[no, yes], [yes, no]]);
    assert!(bench.window.said().starts_with("You have seen all four"), "{}", bench.window.said());
    bench.click("undo");
    bench.click("leave");
    assert_eq!(bench.window.screen(), Screen::Start);
    assert!(bench.keys().contains(&"begin:two-way-passage".to_owned()));
}

/// Without black only the near L1 has the feed: the lamp is lit with the near rocker down and the far one up, and at no other time.
#[test]
fn a_core_pulled_out_says_what_the_table_by_hand_says_and_goes_back() {
    let mut bench = at_step("curious-pull", 3);
    bench.click("core:black");
    assert!(bench.window.said().starts_with("Supply off:"), "{}", bench.window.said());
    bench.click("curious:close");
    let [no, yes] = [Some(false), Some(true)];
    assert_eq!(bench.window.curious().seen(), [[no, yes], [no, no]]);
    let wanted =
        "Now the far switch works it only while the near one is down; with the near one up the lamp stays off.";
    assert_eq!(bench.window.said(), wanted);
    bench.click("curious:show");
    assert!(bench.says("near switch: rocker up") && bench.says("far switch: rocker down"), "{:?}", bench.words());
    rests(&mut bench);
    bench.click("core:black");
    bench.click("curious:close");
    assert_eq!(bench.window.curious().seen(), [[no, yes], [yes, no]]);
    // The other way back: one act at a time.
    for _ in 0..5 {
        bench.key_with(bevy_egui::egui::Modifiers::CTRL, Key::Z);
    }
    assert!(bench.window.said().starts_with("Take any one"), "{}", bench.window.said());
}

/// 3 terminals, 4 ends at the near switch and 2 at the far one: 729 ways. With three wires 5 and 3: 6,561. `tests/reason.rs` has the count of
/// those that work by brute force: 0 and 24.
#[test]
fn the_count_shows_that_two_do_not_do_and_three_do() {
    let mut bench = at_step("curious-count", 4);
    for it in ["curious:count-2", "curious:count-3"] {
        bench.click(it);
        bench.window.curious().wait();
        rests(&mut bench);
    }
    for it in ["Of 729 ways with two wires not one works", "Of 6,561 ways with three wires 24 work"] {
        assert!(bench.window.said().contains(it), "{}", bench.window.said());
    }
}

#[test]
fn a_wrong_sentence_plays_what_speaks_against_it() {
    let mut bench = at_step("curious-reason", 6);
    bench.click("curious:phases");
    // Both rockers down: nothing leads the feed to grey.
    assert!(bench.says("near switch: rocker down") && bench.says("far switch: rocker down"), "{:?}", bench.words());
    assert!(bench.window.said().starts_with("Look at the wire on L2"));
    bench.click("curious:spare");
    // Without grey: near up and far down alone.
    let [no, yes] = [Some(false), Some(true)];
    assert_eq!(bench.window.curious().seen(), [[no, no], [yes, no]]);
    bench.click("curious:true");
    assert_eq!(bench.window.curious().seen(), [[no, yes], [yes, no]]);
    assert_eq!(bench.window.said(), "Yes, that is the reason.");
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
        &["curious:count-2"],
        &[],
        &["curious:spare", "curious:true", "curious:phases"],
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
    for size in [(1280.0, 800.0), (1024.0, 640.0), (1920.0, 1080.0)] {
        let mut bench = inside("curious-sizes");
        bench.size = size.into();
        rests(&mut bench);
        for step in 1..=6 {
            if step == 3 {
                bench.click("core:brown");
            }
            rests(&mut bench);
            for (text, points) in bench.texts() {
                assert!(points >= 12.0, "{step}: {text} at {points}");
            }
            for it in bench.window.targets().0.iter().filter(|it| it.visible) {
                assert!(it.rect.height() >= 23.5 && it.rect.width() >= 23.5, "{step}: {it:?}");
                assert!(it.pane != Pane::Beside || it.rect.right() <= size.0, "{step}: {it:?}");
            }
            let said = bench.window.said();
            assert!((1..=2).contains(&said.matches(['.', '?']).count()), "{said}");
            if step < 6 {
                bench.click("curious:next");
            }
        }
    }
}
