//! Ends made ready in the window: every tool does its action, and what came of it is said.

use bevy_egui::egui::{Event, Key, vec2};
use switchdrop::{
    picture::{Outline, Paint, Thing},
    trade::colour::Colour,
    work::{Action, Feel},
};

use super::bench::Bench;

const SCENARIO: &str = include_str!("../../../tests/scenarios/by-hand.ron");

fn opened(name: &str) -> Bench {
    let mut bench = Bench::with(name, "by-hand", SCENARIO);
    bench.click("begin:by-hand");
    bench.does([
        Action::PowerOff { device: "board.1".to_owned() },
        Action::LockOff { device: "board.1".to_owned() },
        Action::RemoveCover { location: "box".to_owned() },
    ]);
    bench.click("go:box");
    bench
}

fn action(text: &str) -> Action {
    ron::from_str(text).unwrap()
}

#[test]
fn an_end_is_made_ready_connected_and_tried_with_the_tools_of_the_window() {
    let mut bench = opened("prepared");
    assert!(!bench.keys().contains(&"cut".to_owned()));
    bench.types("mm:sheath", "160");
    for it in ["sheath:feed", "sheath:flex", "grommet"] {
        bench.click(it);
    }
    bench.click("feed/brown@box");
    bench.types("mm:cut", "120");
    bench.click("cut");
    bench.types("mm:strip", "20");
    for it in ["jaw:150", "strip", "fold"] {
        bench.click(it);
    }
    // The issue: half of what is folded is seen. Words of the panel: what was done to the end.
    assert!(bench.says("Core 120 mm, bare 20 mm. Folded back."), "{:?}", bench.texts());
    bench.click("box.L-in");
    bench.click("tighten:slack");
    bench.click("feed/brown@box");
    bench.click("tug");
    let wanted = [
        r#"Sheath(cable: "feed", location: "box", mm: 160)"#,
        r#"Sheath(cable: "flex", location: "box", mm: 160)"#,
        r#"Grommet(location: "box")"#,
        r#"Cut(end: "feed/brown@box", mm: 120)"#,
        r#"Strip(end: "feed/brown@box", mm: 20, jaw: 150)"#,
        r#"Fold(end: "feed/brown@box")"#,
        r#"Connect(end: "feed/brown@box", terminal: "box.L-in")"#,
        r#"Tighten(terminal: "box.L-in", feel: Slack)"#,
        r#"Tug(end: "feed/brown@box")"#,
    ];
    assert_eq!(bench.log()[3..], wanted.map(action));
    // Slack, it came out.
    let work = bench.window.session().unwrap().attempt.work();
    assert_eq!(work.terminal_of(work.end("feed/brown@box").unwrap()), None);
}

#[test]
fn a_screw_can_be_driven_too_hard_and_a_small_jaw_nicks_and_is_said_to() {
    let mut bench = opened("crushed");
    bench.does(["feed", "flex"].map(|it| action(&format!("Sheath(cable: \"{it}\", location: \"box\", mm: 160)"))));
    bench.click("feed/blue@box");
    bench.types("mm:strip", "24");
    bench.click("jaw:100");
    bench.click("strip");
    bench.click("fold");
    assert!(bench.says("The copper is nicked."), "{:?}", bench.texts());
    bench.click("box.N-in");
    bench.click("tighten:crushed");
    bench.click("feed/blue@box");
    // Folded in two, 24 mm is 12 in a hole of 10: 2 mm show (the catalogue's depth).
    assert!(bench.says("Bare copper outside the terminal: 2 mm."), "{:?}", bench.texts());
    let wanted = Action::Tighten { terminal: "box.N-in".to_owned(), feel: Feel::Crushed };
    assert_eq!(bench.log().last(), Some(&wanted));
}

/// The careful steps of the library's own test, by keyboard for one end.
#[test]
fn the_keyboard_reaches_every_tool() {
    let mut bench = opened("tools");
    bench.does(["feed", "flex"].map(|it| action(&format!("Sheath(cable: \"{it}\", location: \"box\", mm: 160)"))));
    bench.click("flex/brown@box");
    bench.types("mm:strip", "20");
    bench.press_by_keyboard("jaw:75");
    bench.press_by_keyboard("strip");
    bench.press_by_keyboard("fold");
    assert_eq!(bench.log().last(), Some(&Action::Fold { end: "flex/brown@box".to_owned() }));
    bench.key(Key::Escape);
    bench.press_by_keyboard("dress");
    assert_eq!(bench.log().last(), Some(&Action::Dress { location: "box".to_owned() }));
}

/// As in any program: who comes to a field with the keyboard types in place of what stands there, and Enter goes on.
#[test]
fn a_length_is_typed_in_place_of_the_last_and_enter_goes_on_to_the_tool() {
    let mut bench = opened("typed");
    bench.does(["feed", "flex"].map(|it| action(&format!("Sheath(cable: \"{it}\", location: \"box\", mm: 160)"))));
    bench.click("feed/brown@box");
    for mm in ["120", "95"] {
        bench.reach("mm:cut");
        bench.frames(vec![Event::Text(mm.to_owned())]);
        bench.key(Key::Enter);
        assert_eq!(bench.focused().as_deref(), Some("cut"));
        bench.key(Key::Enter);
        let wanted = format!("Cut(end: \"feed/brown@box\", mm: {mm})");
        assert_eq!(bench.log().last(), Some(&action(&wanted)));
    }
    // By pointer too.
    bench.click("mm:cut");
    bench.frames(vec![Event::Text("80".to_owned())]);
    bench.click("cut");
    assert_eq!(bench.log().last(), Some(&action("Cut(end: \"feed/brown@box\", mm: 80)")));
}

/// What comes ready keeps its picture; bare copper is as long as it is bare, two units a millimetre.
#[test]
fn copper_is_drawn_as_long_as_it_is_bare() {
    let mut bench = opened("copper");
    bench.does(["feed", "flex"].map(|it| action(&format!("Sheath(cable: \"{it}\", location: \"box\", mm: 160)"))));
    let copper = |bench: &Bench| {
        let shapes = &bench.window.scene().unwrap().shapes;
        let paint = Paint::Conductor(Colour::Bare);
        let end = bench.window.session().unwrap().attempt.work().end("feed/brown@box").unwrap();
        let about = Some(Thing::End(end));
        let its = shapes.iter().filter(|it| it.about == about && it.stroke.is_some_and(|it| it.paint == paint));
        its.filter_map(|it| match &it.outline {
            Outline::Path(path) => {
                let (a, b) = (path.start, path.end());
                Some(vec2(a.x - b.x, a.y - b.y).length())
            }
            _ => None,
        })
        .collect::<Vec<_>>()
    };
    assert_eq!(copper(&bench), [0.0; 0]);
    bench.does([action(r#"Strip(end: "feed/brown@box", mm: 10, jaw: 150)"#)]);
    let ten = copper(&bench)[0];
    bench.does([action(r#"Strip(end: "feed/brown@box", mm: 20, jaw: 150)"#)]);
    assert!((copper(&bench)[0] - ten - 20.0).abs() < 0.1);
}
