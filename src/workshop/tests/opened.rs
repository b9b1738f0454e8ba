//! A device that opens by itself: said why, and no way back on before a dead test.

use switchdrop::work::Action;

use super::bench::{Bench, model};

/// The model, but with the tail that should earth the plate put in L2, which the line comes to: line meets earth.
pub fn shorted() -> impl Iterator<Item = Action> {
    model()
        .into_iter()
        .filter(|it| !matches!(it, Action::Tighten { terminal, .. } if terminal == "clay.plate.earth"))
        .map(|it| match it {
            Action::Connect { end, terminal } if terminal == "clay.plate.earth" => {
                Action::Connect { end, terminal: "clay.L2".to_owned() }
            }
            other => other,
        })
}

#[test]
fn what_opened_says_why_how_fast_and_by_which_way_and_offers_no_reset() {
    let mut bench = Bench::new("opened");
    bench.click("begin:two-way-passage");
    let device = "board.1".to_owned();
    let mut actions: Vec<_> = shorted().collect();
    let unlocked = actions.iter().rposition(|it| matches!(it, Action::Unlock { .. })).unwrap();
    actions.truncate(unlocked + 1);
    actions.push(Action::PowerOn { device });
    bench.does(actions);
    let said = bench.words().join("\n");
    for it in [
        "Tripped",
        "line and earth meet",
        "green-and-yellow link",
        "Joined in: box at the clay store door, L2",
        "trips within",
    ] {
        assert!(said.contains(it), "{it} not in {said}");
    }
    bench.click("go:board");
    bench.click("board.1");
    assert!(!bench.keys().iter().any(|it| ["on", "reset", "off"].contains(&it.as_str())), "{:?}", bench.keys());
    assert!(bench.keys().contains(&"todo:opened".to_owned()));
    bench.click("lock");
    bench.click("board.1");
    assert!(bench.words().iter().any(|it| it.contains("no way back on")));
}
