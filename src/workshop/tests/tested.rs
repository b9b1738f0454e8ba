//! A whole exercise with every test, its sheet and full marks, in the window: the tester is set, read and believed.

use bevy_egui::egui::{Key, Modifiers};
use switchdrop::{
    attempt::{Attempt, Mode, dead_tests_left, reading_size, readings_to_take},
    exercise::Stage,
    marking::mark,
    trade::instrument::Shown,
    work::{Action, Check, Detector, Source, Test},
};

use super::{super::window_state::Screen, bench::Bench};

const SCENARIO: &str = include_str!("../../../tests/scenarios/tested.ron");

const WIRING: [(&str, &str, &str); 11] = [
    ("feed/brown@rose", "", "rose.loop"),
    ("drop/brown@rose", "", "rose.loop"),
    ("feed/blue@rose", "", "rose.neutral"),
    ("flex/blue@rose", "", "rose.neutral"),
    ("drop/blue@rose", "Brown", "rose.switched"),
    ("flex/brown@rose", "", "rose.switched"),
    ("feed/cpc@rose", "GreenYellow", "rose.earth"),
    ("drop/cpc@rose", "GreenYellow", "rose.earth"),
    ("drop/brown@switch", "", "switch.COM"),
    ("drop/blue@switch", "Brown", "switch.L1"),
    ("drop/cpc@switch", "GreenYellow", "switch.box.earth"),
];

/// The scenario with everything handed out sound.
fn sound() -> String {
    let (before, _) = SCENARIO.split_once("    vary:").unwrap();
    format!("{before})\n")
}

fn attempt(bench: &Bench) -> &Attempt {
    &bench.window.session().unwrap().attempt
}

fn does(bench: &mut Bench, text: &str) {
    bench.does([ron::from_str(text).unwrap_or_else(|it| panic!("{text}: {it}"))]);
}

fn sets(bench: &mut Bench, position: u8) {
    if attempt(bench).work().positions() != [position] {
        does(bench, &format!(r#"Operate(switch: "switch", position: {position})"#));
    }
}

/// Isolated, wired, tight: as an earlier test of the window does it with its own controls.
fn wired(name: &str) -> Bench {
    let mut bench = Bench::with(name, "tested", &sound());
    bench.click("begin:tested");
    for it in ["rose", "switch"] {
        does(&mut bench, &format!(r#"Identify(location: "{it}", devices: ["board.1"])"#));
    }
    for it in ["Agree", r#"PowerOff(device: "board.1")"#, r#"LockOff(device: "board.1")"#] {
        does(&mut bench, it);
    }
    for it in ["rose", "switch"] {
        does(&mut bench, &format!(r#"RemoveCover(location: "{it}")"#));
    }
    for place in ["rose", "switch"] {
        bench.does([Action::ProveIndicator]);
        let at = attempt(&bench).work().location(place).unwrap();
        for it in dead_tests_left(attempt(&bench), at) {
            sets(&mut bench, it.positions[0]);
            let [a, b] = [it.a, it.b].map(|it| attempt(&bench).work().point_address(it));
            bench.does([Action::TestDead { a, b, with: Detector::Indicator }]);
        }
        bench.does([Action::ProveIndicator]);
        sets(&mut bench, 0);
    }
    for (end, sleeve, terminal) in WIRING {
        if !sleeve.is_empty() {
            does(&mut bench, &format!(r#"Mark(end: "{end}", mark: Sleeve({sleeve}))"#));
        }
        does(&mut bench, &format!(r#"Connect(end: "{end}", terminal: "{terminal}")"#));
    }
    let mut terminals: Vec<_> = WIRING.iter().map(|it| it.2).collect();
    terminals.dedup();
    for it in terminals {
        does(&mut bench, &format!(r#"Tighten(terminal: "{it}")"#));
    }
    assert_eq!(attempt(&bench).tally().acts.len(), 0, "{:?}", attempt(&bench).tally().acts);
    bench
}

/// The board off, locked, seen to, opened and proved dead, with the controls that are there for it.
fn opens_board(bench: &mut Bench) {
    bench.click("todo:board");
    for key in ["main-switch", "lock-main", "check:sources", "check:supervisor", "cover"] {
        bench.click(key);
    }
    let at = attempt(bench).work().location("board").unwrap();
    assert!(!attempt(bench).work().is_covered(at), "{:?}", bench.log());
    bench.does([Action::ProveIndicator]);
    for it in dead_tests_left(attempt(bench), at) {
        let [a, b] = [it.a, it.b].map(|it| attempt(bench).work().point_address(it));
        bench.does([Action::TestDead { a, b, with: Detector::Indicator }]);
    }
    bench.does([Action::ProveIndicator]);
    assert!(attempt(bench).safety().is_proved(at));
}

/// The next reading of these stages.
fn next(bench: &Bench, stages: &[Stage]) -> Option<switchdrop::attempt::ToRead> {
    stages.iter().find_map(|it| readings_to_take(attempt(bench), *it).into_iter().next())
}

/// Takes every reading that is offered, with the controls.
fn reads(bench: &mut Bench, stages: &[Stage]) {
    for _ in 0..40 {
        let Some(it) = next(bench, stages) else { return };
        if !it.linked && !attempt(bench).work().links().is_empty() {
            bench.click("take-link:1");
        }
        for key in ["set-switches", "set-link"] {
            if bench.window.targets().usable(key).is_some() {
                bench.click(key);
            }
        }
        bench.click("next-reading");
        bench.click("read");
    }
    panic!("there is no end to the readings: {:?}", next(bench, stages));
}

/// The highest of what was read for a test, as it is written.
fn figure(bench: &Bench, test: Test) -> String {
    let of = |test| {
        let readings = attempt(bench).safety().testing().readings();
        readings.filter(move |it| it.0.0 == test).map(|it| it.1.shown)
    };
    if test == Test::ZsSum {
        let highest = |test| of(test).map(|it| reading_size(&it)).fold(0.0, f64::max);
        return format!("{:.2}", highest(Test::ZsSum) + highest(Test::R1R2));
    }
    let read = of(test);
    match read.max_by(|a, b| reading_size(a).total_cmp(&reading_size(b))).unwrap() {
        Shown::Figure(it) => format!("{:.*}", usize::from(it.decimals), it.value()),
        Shown::Over(it) => format!(">{}", it.value()),
        other => panic!("{other:?}"),
    }
}

fn writes(bench: &mut Bench, tests: &[Test]) {
    bench.click("go:tests");
    for test in tests {
        if test.has_figure() {
            let figure = figure(bench, *test);
            bench.types(&format!("figure:{}:board.1", test.word()), &figure);
        }
        bench.click(&format!("accept:{}:board.1", test.word()));
    }
}

#[test]
fn every_test_is_read_and_written_down_with_the_controls_and_earns_all_marks() {
    let mut bench = wired("tested");
    for it in ["rose", "switch"] {
        bench.click(&format!("go:{it}"));
        bench.click("inspect");
    }
    does(&mut bench, r#"RemoveLamp(lamp: "lamp")"#);
    opens_board(&mut bench);
    bench.click("go:rose");
    bench.click("hand:meter");
    bench.click("null");
    bench.click("lead:long");
    bench.click("null");
    let dead = [Stage::Continuity, Stage::Insulation, Stage::Polarity];
    reads(&mut bench, &dead);
    let lines = [
        Test::R1R2,
        Test::InsulationLineNeutral,
        Test::InsulationLineEarth,
        Test::InsulationNeutralEarth,
        Test::Polarity,
    ];
    writes(&mut bench, &lines);
    for it in dead {
        let work = attempt(&bench).work();
        assert!(attempt(&bench).safety().is_done(work.exercise(), it), "{it:?}");
    }
    does(&mut bench, r#"FitLamp(lamp: "lamp")"#);
    sets(&mut bench, 0);
    does(&mut bench, r#"Predict(positions: [0], lit: [], live: ["drop/brown"])"#);
    does(&mut bench, r#"Predict(positions: [1], lit: ["lamp"], live: ["drop/brown", "drop/blue"])"#);
    for it in ["rose", "switch"] {
        does(&mut bench, &format!(r#"FitCover(location: "{it}")"#));
    }
    bench.click("go:board");
    bench.click("hand:tools");
    bench.click("cover");
    for key in ["earthing:off", "read-origin", "earthing:back", "earthing:tight", "earthing:read", "lock-main"] {
        bench.click(key);
    }
    bench.does([Check::NobodyAtWork, Check::PeopleTold].map(|check| Action::Confirm { check }));
    bench.click("main-switch");
    does(&mut bench, r#"Unlock(device: "board.1")"#);
    does(&mut bench, r#"PowerOn(device: "board.1")"#);
    bench.click("go:board");
    bench.click("hand:meter");
    reads(&mut bench, &[Stage::SupplyPolarity, Stage::LoopImpedance, Stage::ResidualDevice]);
    writes(&mut bench, &[Test::SupplyPolarity, Test::ZsSum, Test::ResidualDevice]);
    does(&mut bench, r#"Reset(device: "board.1")"#);
    sets(&mut bench, 1);
    sets(&mut bench, 0);
    bench.click("todo:hand-in");
    assert_eq!(bench.window.screen(), Screen::Sheet);
    let sheet = mark(attempt(&bench), Mode::Set);
    assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
    assert_eq!((sheet.marks, sheet.out_of), (100, 100));
}

#[test]
fn what_is_still_to_write_is_named_and_a_line_is_found_not_acceptable() {
    let mut bench = wired("lines");
    bench.click("go:tests");
    assert!(bench.says("Still to write: R1+R2; "), "{:?}", bench.texts());
    // Nothing is typed yet, so nothing can be said of it.
    assert!(bench.window.targets().usable("accept:r1-r2:board.1").is_none());
    bench.types("figure:r1-r2:board.1", ">299 ohm!");
    bench.click("reject:r1-r2:board.1");
    let wanted = Action::Record {
        test: Test::R1R2,
        at: "board.1".to_owned(),
        // Only what a figure is made of comes through.
        reading: ">299".to_owned(),
        accepted: false,
        source: Source::Read,
    };
    assert_eq!(bench.log().last(), Some(&wanted));
    assert!(bench.says(">299 Ω: Not acceptable"), "{:?}", bench.texts());
}

#[test]
fn what_is_held_to_a_conductor_is_chosen_and_a_stick_is_stopped() {
    let mut bench = Bench::with("stick", "tested", &sound());
    bench.click("begin:tested");
    let first = [
        r#"Identify(location: "rose", devices: ["board.1"])"#,
        "Agree",
        r#"PowerOff(device: "board.1")"#,
        r#"LockOff(device: "board.1")"#,
        r#"RemoveCover(location: "rose")"#,
    ];
    for it in first {
        does(&mut bench, it);
    }
    bench.click("go:rose");
    bench.click("hand:indicator");
    bench.click("change-indicator");
    bench.click("held:stick");
    bench.click("feed/brown@rose");
    bench.click("feed/blue@rose");
    assert!(matches!(bench.log().last(), Some(Action::TestDead { with: Detector::Stick, .. })), "{:?}", bench.log());
    bench.click("hand:tools");
    bench.click("report");
    bench.click("report:chart");
    assert!(matches!(bench.log().last(), Some(Action::Report { at, .. }) if at == "rose"), "{:?}", bench.log());
}

/// At 1280 by 800 with text of 120 percent, by day and on a projector: both judgements of every line are there to be pressed.
#[test]
fn every_line_is_judged_with_larger_text_too() {
    let mut bench = wired("larger");
    bench.click("go:tests");
    let buttons = |bench: &Bench| {
        let all = bench.window.targets().0.iter();
        all.filter(|it| it.key.starts_with("accept:") || it.key.starts_with("reject:"))
            .map(|it| (it.key.clone(), it.rect))
            .collect::<Vec<_>>()
    };
    let in_sight = |bench: &Bench| {
        let all = buttons(bench);
        // The panel beside the sheet is 348 points wide at 100 percent, and 1.2 times that here.
        all.len() > 10 && all.iter().all(|it| it.1.right() <= 1280.0 - 1.2 * 348.0)
    };
    bench.click("scale");
    assert!(in_sight(&bench), "{:?}", buttons(&bench));
    bench.key_with(Modifiers::CTRL, Key::Num0);
    (0..2).for_each(|_| bench.click("theme"));
    assert!(in_sight(&bench), "{:?}", buttons(&bench));
}
