//! The first exercise, counted in acts: one click, one drag, one key chord or one field filled each.

use switchdrop::{marking::mark, work::Action};

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
