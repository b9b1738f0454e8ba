//! Somebody else's work looked over in the window: said of what was clicked, felt by a second click, taken back from the list.

use switchdrop::work::{Action, Flaw};

use super::bench::Bench;

fn bench(name: &str) -> Bench {
    let mut bench = Bench::new(name);
    bench.click("begin:loose-crushed-nicked");
    bench.click("go:switch");
    bench.click("cover");
    bench
}

/// Longer than a double click.
fn rests(bench: &mut Bench) {
    (0..8).for_each(|_| bench.frames(Vec::new()));
}

#[test]
fn a_defect_is_said_of_what_was_clicked_and_taken_back() {
    let mut bench = bench("observe");
    bench.click("switch.COM");
    bench.click("observe:loose-screw");
    let said = |at: &str, what: Flaw| Action::Observe { at: at.to_owned(), what };
    assert_eq!(bench.log().last(), Some(&said("switch.COM", Flaw::LooseScrew)));
    bench.click("drop/blue@switch");
    bench.click("observe:nicked");
    assert_eq!(bench.log().last(), Some(&said("drop/blue@switch", Flaw::Nicked)));
    // Pressed again it is taken back, as from the list.
    rests(&mut bench);
    bench.click("observe:nicked");
    let back = |at: &str, what: Flaw| Action::Withdraw { at: at.to_owned(), what };
    assert_eq!(bench.log().last(), Some(&back("drop/blue@switch", Flaw::Nicked)));
    bench.click("withdraw:1");
    assert_eq!(bench.log().last(), Some(&back("switch.COM", Flaw::LooseScrew)));
    assert!(!bench.keys().contains(&"withdraw:1".to_owned()));
}

/// With nothing selected it is the place that is spoken of.
#[test]
fn the_place_itself_is_spoken_of_where_nothing_is_selected() {
    let mut bench = bench("observe-place");
    bench.click("go:place");
    bench.click("go:switch");
    bench.click("observe:grommet-missing");
    assert_eq!(bench.log().last(), Some(&Action::Observe { at: "switch".into(), what: Flaw::GrommetMissing }));
}

/// A second click pulls at an end, and everything else leaves the work alone: no tool to mend it with is offered, and no word tells of a loose screw.
#[test]
fn a_pull_tells_and_nothing_else_does() {
    let mut bench = bench("observe-pull");
    bench.click("drop/brown@switch");
    rests(&mut bench);
    bench.click("drop/brown@switch");
    assert_eq!(bench.log().last(), Some(&Action::Tug { end: "drop/brown@switch".into() }));
    for at in ["switch.COM", "switch.L1", "switch.box.earth", "drop/cpc@switch"] {
        bench.click(at);
        for mends in ["tighten", "disconnect", "unmark", "mark:brown", "cut", "make-up:brown"] {
            assert!(!bench.keys().contains(&mends.to_owned()), "{at}: {mends}");
        }
        let told = bench.texts().into_iter().find(|it| it.0.contains("The screw is"));
        assert_eq!(told, None, "{at}");
    }
}
