//! A cable is chosen at its box, by pointer and by keys, and chosen again.

use bevy_egui::egui::Key;
use switchdrop::{
    trade::cable::{CableKind, CrossSection},
    work::{Action, Reason},
};

use super::bench::Bench;

fn choice(cable: &str, kind: CableKind, mm2: f64, reason: Reason) -> Action {
    Action::Choose { cable: cable.to_owned(), kind, mm2: CrossSection::from_mm2(mm2).unwrap(), reason }
}

fn first_to_do(bench: &Bench) -> Option<String> {
    bench.keys().into_iter().find(|it| it.starts_with("todo:"))
}

#[test]
fn what_comes_next_is_to_choose_each_cable_and_then_to_isolate() {
    let mut bench = Bench::new("choose");
    bench.click("begin:two-way-to-choose");
    assert_eq!(first_to_do(&bench).as_deref(), Some("todo:choose:link"));
    bench.click("todo:choose:link");
    let is_enabled = |bench: &Bench, key: &str| bench.window.targets().usable(key).is_some();
    assert!(!is_enabled(&bench, "take:link"), "neither cable nor reason is said");
    bench.click("choose:link:ThreeCoreEarth:1.5");
    assert!(!is_enabled(&bench, "take:link"), "no reason is said");
    bench.click("reason:link:cores");
    bench.click("take:link");
    let link = choice("link", CableKind::ThreeCoreEarth, 1.5, Reason::Cores);
    assert_eq!(bench.log(), std::slice::from_ref(&link));
    assert!(bench.window.said().contains("three-core and earth, 1.5 mm²"), "{}", bench.window.said());
    // The other one, from the keyboard alone, with nothing kept of what was pressed for the first.
    assert_eq!(first_to_do(&bench).as_deref(), Some("todo:choose:along"));
    for key in ["choose:along:TwinEarth:1.5", "reason:along:volt-drop", "take:along"] {
        for _ in 0..80 {
            if bench.focused().as_deref() == Some(key) {
                break;
            }
            bench.key(Key::Tab);
        }
        assert_eq!(bench.focused().as_deref(), Some(key));
        bench.key(Key::Enter);
    }
    assert_eq!(bench.log(), [link, choice("along", CableKind::TwinEarth, 1.5, Reason::VoltDrop)]);
    assert_eq!(first_to_do(&bench).as_deref(), Some("todo:identify:tack"));
}

#[test]
fn it_is_chosen_again_at_its_other_place_and_undone() {
    let mut bench = Bench::new("another");
    bench.click("begin:two-way-to-choose");
    let twin = choice("link", CableKind::TwinEarth, 1.0, Reason::Usual);
    bench.does([twin.clone()]);
    bench.click("go:loft");
    bench.click("another:link");
    for key in ["choose:link:ThreeCoreEarth:1.0", "reason:link:any", "take:link"] {
        bench.click(key);
    }
    let three = choice("link", CableKind::ThreeCoreEarth, 1.0, Reason::Any);
    assert_eq!(bench.log(), [twin, three]);
    assert!(bench.keys().contains(&"another:link".to_owned()));
    bench.click("undo");
    let work = bench.window.session().unwrap().attempt.work();
    assert!(work.end("link/blue@loft").is_ok() && work.end("link/grey@loft").is_err());
}
