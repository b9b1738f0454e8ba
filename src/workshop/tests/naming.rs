//! What has no mark: read with the long lead from place to place, named on the thing itself or from the list, joined.

use bevy_egui::egui::Key;
use switchdrop::work::Action;

use super::bench::{Bench, actions_of};

fn name(at: &str, called: &str) -> Action {
    Action::Name { at: at.to_owned(), called: called.to_owned() }
}

/// The names said so far.
fn named(bench: &Bench) -> Vec<Action> {
    bench.log().into_iter().filter(|it| matches!(it, Action::Name { .. })).collect()
}

/// The model up to the round of dead tests, which ends with the learner's word; an earth is shown by the meter before it.
fn is_proved(bench: &mut Bench) {
    let model = actions_of(include_str!("../../../exercises/which-cable/model.attempt.ron"));
    let proved = model.iter().position(|it| matches!(it, Action::Conclude { .. })).unwrap();
    bench.does(model[..=proved].iter().cloned());
}

fn is_on(bench: &Bench, key: &str) -> bool {
    bench.window.targets().0.iter().any(|it| it.key == key && it.on)
}

#[test]
fn terminals_without_letters_are_read_and_named_on_the_plate() {
    let mut bench = Bench::new("letters");
    bench.click("begin:which-terminal");
    bench.click("todo:open");
    assert!(bench.says("Which is which?") && bench.says("2?"), "{:?}", bench.words());
    bench.click("todo:name");
    bench.click("switch.L1");
    bench.click("switch.COM");
    let read = Action::Continuity { a: "switch.L1".to_owned(), b: "switch.COM".to_owned() };
    assert_eq!(bench.log().last(), Some(&read));
    // On the thing itself: what is selected has its names beside the drawing; the others are on the list.
    for (at, called) in [("switch.COM", "switch.L2"), ("switch.L2", "switch.COM"), ("switch.L1", "switch.L1")] {
        bench.click(&format!("name:{at}:{called}"));
        assert_eq!(named(&bench).last(), Some(&name(at, called)));
        assert!(is_on(&bench, &format!("name:{at}:{called}")));
    }
    // A name that is on is not said again; another takes its place, and the label of what had it is gone.
    bench.click("name:switch.L1:switch.L1");
    assert_eq!(named(&bench).len(), 3);
    bench.click("name:switch.COM:switch.COM");
    assert_eq!(named(&bench).len(), 4);
    assert!(!is_on(&bench, "name:switch.L2:switch.COM"));
}

#[test]
fn a_cable_is_read_from_place_to_place_and_named_by_a_click_on_it() {
    let mut bench = Bench::new("cables");
    bench.click("begin:which-cable");
    is_proved(&mut bench);
    bench.click("go:switch");
    bench.click("hand:meter");
    bench.click("drop/brown@switch");
    bench.click("go:joint");
    bench.click("light/brown@joint");
    let read = Action::Continuity { a: "drop/brown@switch".to_owned(), b: "light/brown@joint".to_owned() };
    assert_eq!(bench.log().last(), Some(&read));
    // With both probes on, the next place begins afresh.
    bench.click("go:switch");
    assert!(!is_on(&bench, "drop/brown@switch"));
    // A link at the far end, by the meter's own list.
    bench.click("drop/brown@switch");
    bench.click("drop/blue@switch");
    bench.click("fit-link");
    let link = Action::FitLink { a: "drop/brown@switch".to_owned(), b: "drop/blue@switch".to_owned() };
    assert_eq!(bench.log().last(), Some(&link));
    bench.click("take-link:1");
    bench.click("go:joint");
    bench.click("hand:tools");
    bench.click("drop@joint");
    bench.click("name:drop@joint:drop");
    assert_eq!(named(&bench), [name("drop@joint", "drop")]);
    assert!(bench.says("as you named it"), "{:?}", bench.words());
    // By the keyboard from the list.
    bench.click("location:joint");
    let at = bench.window.targets().0.iter().find(|it| it.key == "name:feed@joint:feed").map(|it| it.id);
    bench.ctx.memory_mut(|it| it.request_focus(at.expect("on the list")));
    bench.frames(Vec::new());
    bench.key(Key::Enter);
    assert_eq!(named(&bench).last(), Some(&name("feed@joint", "feed")));
}

/// What is on the screen before a name is said does not say which is which; its address is for the map alone.
#[test]
fn nothing_on_the_screen_says_which_is_which() {
    let mut bench = Bench::new("unsaid");
    bench.click("begin:which-cable");
    is_proved(&mut bench);
    bench.click("go:joint");
    for key in ["feed/brown@joint", "drop/cpc@joint", "light@joint"] {
        let found = bench.window.targets().0.iter().find(|it| it.key == key).map(|it| it.name.clone());
        let told = found.unwrap_or_default();
        assert!(told.contains("cable, at the junction box"), "{key}: {told}");
        assert!(["feed", "switch drop", "light’s"].iter().all(|it| !told.contains(it)), "{key}: {told}");
    }
}
