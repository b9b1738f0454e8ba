//! Hands on the thing itself: levers, locks, lamps, sleeves from the tray; what a click may not do is said beside it.

use switchdrop::{
    trade::colour::{Colour, Mark},
    work::Action,
};

use super::bench::Bench;

fn rests(bench: &mut Bench) {
    // Longer than a double click.
    (0..8).for_each(|_| bench.frames(Vec::new()));
}

/// A breaker is thrown, a lock hung and taken off, each by one click on it.
#[test]
fn a_lever_a_lock_and_a_lamp_are_worked_by_a_click_on_them() {
    let mut bench = Bench::new("hands");
    bench.click("begin:two-way-passage");
    let before = bench.log().len();
    bench.click("board.1");
    rests(&mut bench);
    bench.click("lock:board.1");
    rests(&mut bench);
    bench.click("lock:board.1");
    let done: Vec<Action> = bench.log()[before..].to_vec();
    let device = || "board.1".to_owned();
    let wanted = [
        Action::PowerOff { device: device() },
        Action::LockOff { device: device() },
        Action::Unlock { device: device() },
    ];
    assert_eq!(done, wanted);
    rests(&mut bench);
    bench.click("lamp:lamp");
    rests(&mut bench);
    bench.click("lamp:lamp");
    let lamp = || "lamp".to_owned();
    let last: Vec<Action> = bench.log()[before + 3..].to_vec();
    assert_eq!(last, [Action::RemoveLamp { lamp: lamp() }, Action::FitLamp { lamp: lamp() }]);
}

/// Locking a breaker that is on is refused: nothing is logged, and it is said why.
#[test]
fn what_can_only_be_refused_is_said_and_not_done() {
    let mut bench = Bench::new("refused");
    bench.click("begin:two-way-passage");
    let (before, said) = (bench.log().len(), bench.window.said().to_owned());
    bench.click("lock:board.1");
    assert_eq!(bench.log().len(), before, "{:?}", bench.log());
    assert_ne!(bench.window.said(), said);
}

/// A click that a safe worker would not make is no dangerous act: it is not carried out, and not counted.
#[test]
fn a_click_that_would_be_stopped_is_not_counted() {
    let mut bench = Bench::new("unsafe");
    bench.click("begin:two-way-passage");
    bench.click("board.1");
    rests(&mut bench);
    bench.click("go:kiln");
    // Nothing was proved dead.
    bench.click("location:kiln");
    let acts = |bench: &Bench| bench.window.session().map_or(0, |it| it.attempt.tally().acts.len());
    assert_eq!(acts(&bench), 0, "{:?}", bench.log());
}

/// A sleeve comes from the tray: onto the end that is selected, onto the next that is clicked, or dragged onto it.
#[test]
fn a_sleeve_comes_from_the_tray_in_three_ways() {
    let marks = |bench: &Bench| {
        let marks = bench.log().into_iter().filter(|it| matches!(it, Action::Mark { .. }));
        marks.collect::<Vec<_>>()
    };
    let mark = |end: &str, colour: Colour| Action::Mark { end: end.to_owned(), mark: Mark::Sleeve(colour) };
    let mut bench = Bench::new("tray");
    bench.click("begin:wire-a-switch");
    bench.click("todo:open");
    bench.click("drop/blue@switch");
    bench.click("tray:brown");
    assert_eq!(marks(&bench), [mark("drop/blue@switch", Colour::Brown)]);
    bench.click("tray:blue");
    bench.click("drop/brown@switch");
    assert_eq!(marks(&bench).last(), Some(&mark("drop/brown@switch", Colour::Blue)));
    bench.drag("tray:green-yellow", "drop/cpc@switch");
    assert_eq!(marks(&bench).last(), Some(&mark("drop/cpc@switch", Colour::GreenYellow)));
    assert_eq!(marks(&bench).len(), 3);
}

/// Whatever can be clicked: the second half of a double click never takes back what the first half did.
#[test]
fn no_double_click_does_two_opposite_things() {
    for exercise in ["wire-a-switch", "two-way-passage"] {
        let mut seen = 0;
        let mut bench = Bench::new(&format!("doubles-{exercise}"));
        bench.click(&format!("begin:{exercise}"));
        for place in ["go:place", "go:board"] {
            bench.click(place);
            rests(&mut bench);
            let keys = bench.keys();
            for key in keys.into_iter().filter(|it| !may_repeat(it)) {
                bench.click(place);
                rests(&mut bench);
                let shown = bench.window.targets().0.iter().find(|it| it.key == key && it.visible && it.enabled);
                let Some(at) = shown.map(|it| it.rect.center()) else { continue };
                let before = bench.log().len();
                for _ in 0..2 {
                    bench.frames(vec![bevy_egui::egui::Event::PointerMoved(at)]);
                    bench.frames(vec![Bench::button(at, true)]);
                    bench.frames(vec![Bench::button(at, false)]);
                }
                seen += 1;
                let done = bench.log().split_off(before);
                assert!(!done.windows(2).any(|it| are_opposite(&it[0], &it[1])), "{exercise}: {key} did {done:?}");
            }
        }
        assert!(seen > 10, "{exercise}: only {seen}");
    }
}

/// Whether the second takes back what the first did.
fn are_opposite(first: &Action, second: &Action) -> bool {
    let pair = |one: &Action, other: &Action| {
        matches!(
            (one, other),
            (Action::PowerOff { .. }, Action::PowerOn { .. } | Action::Reset { .. })
                | (Action::LockOff { .. }, Action::Unlock { .. })
                | (Action::LockIncomer { .. }, Action::UnlockIncomer { .. })
                | (Action::MainSwitch { .. }, Action::MainSwitch { .. })
                | (Action::RemoveCover { .. }, Action::FitCover { .. })
                | (Action::RemoveLamp { .. }, Action::FitLamp { .. })
                | (Action::BringSupply, Action::Unplug)
        )
    };
    pair(first, second) || pair(second, first)
}

/// Undo, redo, steppers and rockers may be pressed again at once; the ways out leave the attempt, help and glossary lie over it.
fn may_repeat(key: &str) -> bool {
    ["undo", "redo", "leave", "hint", "help", "words", "scale"].contains(&key)
        || key.starts_with("switch:")
        || key == "flip"
}
