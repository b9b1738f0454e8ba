//! The circuit diagram in the window: there once one's own power has come on, and worked like the things themselves.

use switchdrop::{picture::Thing, work::Action};

use super::{super::view::Sight, bench::Bench};

fn before(name: &str, until: fn(&Action) -> bool) -> Bench {
    let mut bench = Bench::new(name);
    bench.click("begin:two-way-passage");
    bench.does_model_until(until);
    bench
}

#[test]
fn what_one_has_joined_is_not_told_before_ones_own_power() {
    let bench = before("circuit-early", |it| matches!(it, Action::PowerOn { .. }));
    assert!(!bench.keys().contains(&"go:circuit".to_owned()), "{:?}", bench.keys());
    let bench = before("circuit-late", |it| matches!(it, Action::HandIn));
    assert!(bench.keys().contains(&"go:circuit".to_owned()), "{:?}", bench.keys());
}

/// A switch is worked on the diagram, and a terminal leads to where it is.
#[test]
fn a_switch_is_worked_and_a_terminal_leads_to_its_place() {
    let mut bench = before("circuit", |it| matches!(it, Action::HandIn));
    bench.click("go:circuit");
    bench.click("switch:clay");
    let worked = bench.log().last().cloned();
    assert!(matches!(&worked, Some(Action::Operate { switch, .. }) if switch == "clay"), "{worked:?}");
    bench.click("clay.COM");
    let clay = bench.window.session().unwrap().attempt.work().location("clay").unwrap();
    assert_eq!(bench.window.sight(), Sight::Location(clay));
    let selected = bench.window.selected();
    assert!(matches!(selected, Some(Thing::Terminal(_))), "{selected:?}");
}
