//! "Next" leads somewhere or does something, and after a trip it stays with the fault.

use switchdrop::work::{Action, Check, Detector, Feel};

use super::bench::Bench;

impl Bench {
    /// The key of what comes next.
    fn next(&self) -> String {
        self.keys().into_iter().find(|it| it.starts_with("todo:")).expect("something is next")
    }

    /// What is seen: every text, and what can be touched.
    fn seen(&self) -> (Vec<(String, f32)>, Vec<String>) {
        (self.texts(), self.keys())
    }

    fn rests(&mut self) {
        // Longer than a double click.
        (0..8).for_each(|_| self.frames(Vec::new()));
    }
}

/// At every sixth step of three exercises: pressed once it goes there, pressed again it selects, takes in hand or says something.
#[test]
fn next_is_never_a_dead_press() {
    let model = |text: &str| switchdrop::attempt::open(text).unwrap().replay().unwrap().log().to_vec();
    // What Next does by itself ends there; these go on being next until they are done.
    let acts = ["agree", "nobody", "told", "supply", "covers", "lamps", "open", "hand-in"];
    let mut pressed = 0;
    for (exercise, text) in [
        ("wire-a-switch", include_str!("../../../exercises/wire-a-switch/model.attempt.ron")),
        ("one-way-rose", include_str!("../../../exercises/one-way-rose/model.attempt.ron")),
        ("one-way-tested", include_str!("../../../exercises/one-way-tested/model.attempt.ron")),
    ] {
        let mut bench = Bench::new(&format!("dead-press-{exercise}"));
        bench.click(&format!("begin:{exercise}"));
        for steps in model(text).chunks(6) {
            let key = bench.next();
            if !acts.contains(&key.trim_start_matches("todo:")) {
                for _ in 0..2 {
                    let before = (bench.seen(), bench.log().len());
                    bench.click(&key);
                    bench.rests();
                    let is_here = bench.window.said().starts_with("You are there");
                    let is_seen = (bench.seen(), bench.log().len()) != before;
                    assert!(
                        is_seen || is_here,
                        "{exercise}: {key}; said: {}; {:?}",
                        bench.window.said(),
                        bench.focused()
                    );
                    pressed += 1;
                    if bench.next() != key {
                        break;
                    }
                }
            }
            bench.does(steps.iter().cloned());
        }
    }
    assert!(pressed > 20, "only {pressed}");
}

/// What was stopped is said beside what was touched, and not at the next place too.
#[test]
fn a_stop_stays_where_it_was() {
    let mut bench = Bench::new("stays");
    bench.click("begin:one-way-rose");
    bench.click("go:rose");
    bench.click("cover");
    let said = bench.window.said().to_owned();
    // The foot puts a sign before it.
    let times = |bench: &Bench| bench.texts().iter().filter(|it| it.0.contains(&said)).count();
    assert_eq!(times(&bench), 2, "{said}");
    bench.click("go:switch");
    assert_eq!(times(&bench), 1, "{said}");
}

/// A drop's two cores are both brought to the loop and the neutral, and the switch is closed: the device trips. Proved dead and nothing
/// mended, the supply is not what comes next; mended, the device is reset first.
#[test]
fn after_a_trip_next_stays_with_the_fault_and_then_names_the_reset() {
    let mut bench = Bench::new("tripped");
    bench.click("begin:rose-with-onward-feed");
    let connect = |cable: &str, core: &str, to: &str| {
        let (end, terminal) = (format!("{cable}/{core}@rose"), format!("rose.{to}"));
        [Action::Connect { end, terminal: terminal.clone() }, Action::Tighten { terminal, feel: Feel::Right }]
    };
    let off = || Action::RemoveCover { location: "rose".to_owned() };
    let on = || Action::FitCover { location: "rose".to_owned() };
    let checks = || [Check::NobodyAtWork, Check::PeopleTold].map(|check| Action::Confirm { check });
    bench.does([off()]);
    for (cable, core, to) in
        [("drop", "brown", "loop"), ("drop", "blue", "neutral"), ("feed", "brown", "loop"), ("feed", "blue", "neutral")]
    {
        bench.does(connect(cable, core, to));
    }
    bench.does([on()]);
    bench.does(checks());
    bench.does([Action::BringSupply, Action::Operate { switch: "switch".to_owned(), position: 1 }]);
    let touch = |a: &str, b: &str| Action::TestDead {
        a: format!("board.{a}"),
        b: format!("board.{b}"),
        with: Detector::Indicator,
    };
    bench.does([Action::Unplug, Action::ProveIndicator]);
    bench.does([touch("1.line", "earth"), touch("1.line", "1.neutral"), touch("1.neutral", "earth")]);
    assert_eq!(bench.next(), "todo:find", "not proved dead yet");
    bench.does([Action::ProveIndicator]);
    assert!(bench.window.session().unwrap().attempt.safety().is_tested_since_trip());
    assert_eq!(bench.next(), "todo:find", "nothing was mended");
    bench.does([off(), Action::Disconnect { end: "drop/blue@rose".to_owned() }]);
    assert_ne!(bench.next(), "todo:find");
    let lines: Vec<String> = bench.keys().into_iter().filter(|it| it.starts_with("todo:")).collect();
    assert!(lines.contains(&"todo:reset".to_owned()), "{lines:?}");
}

/// The first act leaves everything where it is: what was just clicked is still under the pointer. Looking somewhere else folds the brief.
#[test]
fn the_first_act_moves_nothing() {
    let mut bench = Bench::new("unmoved");
    bench.click("begin:one-way-rose");
    let switch = bench.middle("switch:switch");
    bench.click("switch:switch");
    assert!(matches!(bench.log().last(), Some(Action::Operate { .. })), "{:?}", bench.log());
    assert_eq!(bench.middle("switch:switch"), switch);
    let before = bench.middle("go:place");
    bench.click("go:rose");
    assert!(bench.middle("go:place").y < before.y, "the brief folds as one goes somewhere");
}

/// A click on Next leaves the keyboard there: Enter does what it says then.
#[test]
fn enter_goes_on_from_a_click_on_next() {
    let mut bench = Bench::new("next-enter");
    bench.click("begin:two-way-passage");
    bench.does([Action::Agree]);
    let first = bench.next();
    bench.click(&first);
    bench.rests();
    let after = bench.next();
    assert_eq!(bench.focused().as_deref(), Some(after.as_str()));
    let before = bench.seen();
    bench.key(bevy_egui::egui::Key::Enter);
    assert_ne!(bench.seen(), before, "Enter on {after}");
}
