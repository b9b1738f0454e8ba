//! The first exercise, counted in acts: one click, one drag, one key chord or one field filled each.

use bevy_egui::egui::Event;
use switchdrop::{marking::mark, picture::Thing, work::Action};

use super::bench::Bench;

/// From Begin to the hand-in, with every act counted.
#[test]
fn the_first_conductor_is_in_within_three_acts_and_the_first_lamp_lit_within_forty() {
    let mut bench = Bench::new("first");
    bench.click("begin:wire-a-switch");
    let mut acts = 0;
    let mut click = |bench: &mut Bench, key: &str| {
        bench.click(key);
        acts += 1;
        acts
    };
    // The place, and at it the cover itself.
    click(&mut bench, "location:switch");
    click(&mut bench, "location:switch");
    bench.drag("drop/brown@switch", "switch.COM");
    assert!(matches!(bench.log().last(), Some(Action::Connect { .. })), "{:?}", bench.log());
    // A screw is a click on the terminal that a core was just brought to.
    click(&mut bench, "switch.COM");
    assert!(matches!(bench.log().last(), Some(Action::Tighten { .. })), "{:?}", bench.log());
    for (end, mark, terminal) in
        [("drop/blue@switch", "mark:brown", "switch.L1"), ("drop/cpc@switch", "mark:green-yellow", "switch.box.earth")]
    {
        click(&mut bench, end);
        click(&mut bench, mark);
        bench.drag(end, terminal);
        click(&mut bench, terminal);
    }
    click(&mut bench, "cover");
    for it in ["todo:nobody", "todo:told", "todo:supply", "go:place"] {
        click(&mut bench, it);
    }
    let clicks = click(&mut bench, "switch:switch");
    let drags = 3;
    println!("first lamp lit at act {}", clicks + drags);
    assert!(clicks + drags < 40, "{clicks}");
    let attempt = &bench.window.session().expect("it is open").attempt;
    let lit = switchdrop::circuit::lamps_now(attempt.work());
    assert_eq!(lit[0].glow, switchdrop::circuit::Glow::Lit);
    bench.click("switch:switch");
    bench.click("todo:hand-in");
    let attempt = &bench.window.session().expect("it is open").attempt;
    let sheet = mark(attempt, switchdrop::attempt::Mode::Practice);
    assert_eq!((sheet.marks, sheet.findings.len()), (sheet.out_of, 0), "{:#?}", sheet.findings);
}

/// "Next" goes to the place and lifts its cover: the first conductor is in at the second act.
#[test]
fn next_leads_to_the_first_conductor() {
    let mut bench = Bench::new("next");
    bench.click("begin:wire-a-switch");
    assert!(!bench.keys().contains(&"go:prediction".to_owned()), "nothing is to be predicted here");
    bench.click("todo:open");
    bench.drag("drop/brown@switch", "switch.COM");
    assert!(
        matches!(bench.log().as_slice(), [Action::RemoveCover { .. }, Action::Connect { .. }]),
        "{:?}",
        bench.log()
    );
}

/// What would be stopped is not done by a click on the drawing: a plate that nothing is locked off behind is only selected.
#[test]
fn a_click_on_a_plate_lifts_no_cover_that_must_stay_on() {
    let mut bench = Bench::new("plate");
    bench.click("begin:two-way-passage");
    bench.click("location:kiln");
    bench.click("location:kiln");
    assert!(bench.log().is_empty(), "{:?}", bench.log());
    assert!(bench.window.session().expect("it is open").attempt.tally().acts.is_empty());
}

/// Until what is said has this in it: a hint is worked out beside the window.
#[track_caller]
fn waits_for(bench: &mut Bench, text: &str) {
    for _ in 0..500 {
        if bench.window.said().contains(text) {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        bench.frames(Vec::new());
    }
    panic!("{}", bench.window.said());
}

/// A hint is said in the frame that it was asked for in, or in a later one.
#[test]
fn a_hint_is_said_when_it_has_come() {
    let mut bench = Bench::new("hint");
    bench.click("begin:wire-a-switch");
    bench.click("hint");
    assert_eq!(bench.log(), [Action::Hint]);
    waits_for(&mut bench, "Nothing is wrong in the wiring that you have done so far");
}

/// With nothing wrong and the cover off, a hint names the next conductor and what it is for, goes to it and selects it. Of a mistake it selects the
/// end that it speaks of.
#[test]
fn a_hint_points_at_what_it_tells_of() {
    let mut bench = Bench::new("points");
    bench.click("begin:wire-a-switch");
    bench.does([Action::RemoveCover { location: "switch".to_owned() }]);
    bench.click("go:place");
    bench.click("hint");
    waits_for(
        &mut bench,
        "Next, put the brown core of the switch drop into: switch, COM. It brings the line that no switch interrupts.",
    );
    let selected = |bench: &Bench| {
        let work = bench.window.session().expect("it is open").attempt.work();
        match bench.window.selected() {
            Some(Thing::End(it)) => work.end_address(it),
            it => panic!("{it:?}"),
        }
    };
    assert_eq!(selected(&bench), "drop/brown@switch");
    let connect = |end: &str, terminal: &str| Action::Connect { end: end.to_owned(), terminal: terminal.to_owned() };
    bench.does([connect("drop/brown@switch", "switch.COM"), connect("drop/blue@switch", "switch.L1")]);
    bench.does([connect("drop/cpc@switch", "switch.box.earth")]);
    bench.click("go:place");
    bench.click("hint");
    waits_for(&mut bench, "Look again at: ");
    assert_eq!(selected(&bench), "drop/blue@switch");
}

/// The second half of a double click on what turns into its opposite does nothing. Half a second later it is a press of its own.
#[test]
fn a_double_click_does_not_two_opposite_things() {
    let mut bench = Bench::new("double");
    bench.click("begin:wire-a-switch");
    bench.click("go:switch");
    for wanted in [1, 2] {
        // At one spot, whatever comes to stand there after the first.
        let at = bench.middle("cover");
        for _ in 0..2 {
            bench.frames(vec![Event::PointerMoved(at)]);
            bench.frames(vec![Bench::button(at, true)]);
            bench.frames(vec![Bench::button(at, false)]);
        }
        assert_eq!(bench.log().len(), wanted, "{:?}", bench.log());
        // A frame is a sixtieth of a second here.
        for _ in 0..30 {
            bench.frames(Vec::new());
        }
    }
}

/// Two quick presses at one spot with another elsewhere between them: the last is a press of its own.
#[test]
fn a_click_elsewhere_ends_a_double_click() {
    let mut bench = Bench::new("elsewhere");
    bench.click("curious");
    bench.click("curious:next");
    // Longer than a double click.
    (0..30).for_each(|_| bench.frames(Vec::new()));
    let (spot, plate) = (bench.middle("curious:next"), bench.middle("plate:far"));
    for at in [spot, plate, spot] {
        bench.frames(vec![Event::PointerMoved(at), Bench::button(at, true), Bench::button(at, false)]);
    }
    assert!(bench.says("Step 4 of 8: beat it"), "{:?}", bench.words());
}

/// The first exercise guides: Next names one conductor and selects it, until the learner goes without. Others guide where that is asked for.
#[test]
fn the_first_exercise_names_one_conductor_at_a_time_until_one_goes_without() {
    let mut bench = Bench::new("guide");
    let next = |bench: &Bench| {
        let it = bench.window.targets().0.iter().find(|it| it.key == "todo:wire").expect("what comes next");
        it.name.clone()
    };
    bench.click("begin:wire-a-switch");
    bench.does([Action::RemoveCover { location: "switch".to_owned() }]);
    bench.click("go:switch");
    assert_eq!(next(&bench), "Now put the brown core of the switch drop into: switch, COM");
    bench.click("todo:wire");
    assert!(matches!(bench.window.selected(), Some(Thing::End(_))));
    bench.click("switch.COM");
    assert_eq!(next(&bench), "Now slide a brown sleeve on and put the blue core of the switch drop into: switch, L1");
    bench.click("guide");
    assert!(next(&bench).ends_with(": 2 left"), "{}", next(&bench));
    bench.click("leave");
    bench.click("begin:two-way-passage");
    bench.click("go:kiln");
    assert!(next(&bench).ends_with(" left"), "{}", next(&bench));
}
