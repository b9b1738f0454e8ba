//! Set work in the window: who does it, the tries, the receipt, and marks that are withheld.

use std::sync::Arc;

use switchdrop::{
    attempt::{Mode, open, sha256},
    exercise::{Seed, read},
    marking::VERSION,
    register::{Adjustment, AnswersShown, Assignment, Counts, Hints, SetExercise, WallTime, seed_of},
    work::Action,
};

use super::{super::window_state::Screen, bench::Bench};

const SCENARIO: &str = include_str!("../../../exercises/wire-a-switch/scenario.ron");
/// It does for every variant of the exercise.
const MODEL: &str = include_str!("../../../exercises/wire-a-switch/model.attempt.ron");
pub const BEGIN: &str = "set:wire-a-switch";

/// Set to learners 3 and 7, with two tries.
fn made(answers: AnswersShown, times: [&str; 2]) -> Arc<Assignment> {
    made_for(vec![3, 7], answers, times)
}

pub fn made_for(learners: Vec<u64>, answers: AnswersShown, [opens, due]: [&str; 2]) -> Arc<Assignment> {
    let made = Assignment {
        id: "week-3".to_owned(),
        title: "Switches, week 3".to_owned(),
        group: "Group 2".to_owned(),
        opens: WallTime::of(opens),
        due: WallTime::of(due),
        last: None,
        tries: 2,
        counts: Counts::Best,
        hints: Hints::Without,
        answers,
        pass_mark: None,
        program: "0.1.0".to_owned(),
        marking: VERSION,
        learners,
        exercises: vec![SetExercise::of(read(SCENARIO, Seed(0)).unwrap())],
        sha256: String::new(),
    };
    Arc::new(Assignment::read(&made.text().unwrap()).unwrap())
}

pub const OPEN_NOW: [&str; 2] = ["2020-11-02T09:00:00+00:00", "2999-11-06T17:00:00+00:00"];

pub fn model() -> Vec<Action> {
    let mut log = open(MODEL).unwrap().replay().unwrap().log().to_vec();
    assert_eq!(log.pop(), Some(Action::HandIn));
    log
}

/// Whether something can be pressed; panics if it is not on the screen at all.
fn can(bench: &Bench, key: &str) -> bool {
    bench.window.targets().0.iter().find(|it| it.key == key).unwrap_or_else(|| panic!("{key}")).enabled
}

#[test]
fn set_work_is_begun_done_and_handed_in_and_its_marks_stay_withheld() {
    let mut bench = Bench::on_set_work("set-work", made(AnswersShown::Released, OPEN_NOW));
    for it in ["Set work: Switches, week 3", "Group 2", "It is due on Wednesday 6 November 2999, 17:00 (UTC)."] {
        assert!(bench.says(it), "{it}: {:?}", bench.texts());
    }
    // Name, mode and seed are nobody's to choose, and there is nothing else to begin.
    let keys = bench.keys();
    let chosen =
        |it: &String| ["name", "practice", "set", "curious"].contains(&it.as_str()) || it.starts_with("begin:");
    assert!(!keys.iter().any(chosen), "{keys:?}");
    assert!(!can(&bench, BEGIN));
    assert_eq!(bench.focused().as_deref(), Some("set-number"));
    bench.types("set-number", "7");
    assert!(bench.says("Tries left: 2 of 2."), "{:?}", bench.texts());
    bench.click(BEGIN);
    assert_eq!(bench.window.screen(), Screen::Bench);
    let path = bench.folder.join("week-3_7_wire-a-switch_1.attempt.ron");
    let session = bench.window.session().unwrap();
    assert_eq!((&session.path, session.mode, session.learner.as_str()), (&path, Mode::Set, "7"));
    assert_eq!(session.attempt.work().exercise().seed, seed_of("week-3", 7, "wire-a-switch", 0));
    bench.does(model());
    assert!(!bench.keys().contains(&"go:circuit".to_owned()), "where the current goes is for after the hand-in");
    bench.press_by_keyboard("todo:hand-in");
    assert_eq!(bench.log().last(), Some(&Action::HandIn));
    assert_eq!(bench.window.screen(), Screen::Sheet);
    // The code is the first twelve digits of the digest of the whole file, in fours.
    let digest = sha256(&std::fs::read(&path).unwrap());
    let code = format!("{}-{}-{}", &digest[..4], &digest[4..8], &digest[8..12]);
    let size = bench.texts().into_iter().find(|it| it.0 == code).map(|it| it.1);
    assert!(size.is_some_and(|it| it >= 28.0), "{code} {:?}", bench.texts());
    assert!(bench.says(&path.display().to_string()));
    assert!(bench.says("withheld until your tutor releases them"), "{:?}", bench.texts());
    let tells_marks = |bench: &Bench| bench.texts().iter().any(|it| it.0.contains("marks") && it.0.contains(" of "));
    assert!(bench.window.marked().is_none() && !tells_marks(&bench), "{:?}", bench.texts());
    // Round by the work and back; then by the list, which tells no outcome either.
    bench.click("look");
    assert!(!bench.keys().contains(&"go:circuit".to_owned()));
    bench.click("sheet");
    assert!(bench.says(&code));
    bench.click("leave");
    assert!(bench.says("Tries left: 1 of 2.") && !tells_marks(&bench), "{:?}", bench.texts());
    // What it came to is looked for beside the window: that it is for later is said then.
    let until = std::time::Instant::now() + std::time::Duration::from_mins(1);
    while !bench.says("its marks come later") && std::time::Instant::now() < until {
        std::thread::sleep(std::time::Duration::from_millis(20));
        bench.frames(Vec::new());
    }
    assert!(bench.says("its marks come later") && bench.says("See its receipt"), "{:?}", bench.texts());
    assert!(!bench.says("Read its mark sheet"));
    bench.click("open:1");
    assert!(bench.window.screen() == Screen::Sheet && bench.says(&code) && bench.window.marked().is_none());
    // The number is no name to be greeted by.
    assert_eq!(bench.window.learner(), "");
}

#[test]
fn what_an_assignment_shows_at_once_is_on_the_sheet_below_the_receipt() {
    let mut bench = Bench::on_set_work("set-at-once", made(AnswersShown::AtOnce, OPEN_NOW));
    bench.types("set-number", "3");
    bench.click(BEGIN);
    bench.does(model());
    bench.does([Action::HandIn]);
    let receipt = bench.window.session().unwrap().receipt.clone().unwrap();
    assert!(bench.says(&format!("{}-{}", &receipt[..4], &receipt[4..8])));
    assert_eq!(bench.window.marked().unwrap().sheet.marks, 100);
    assert!(bench.says("Pass: 100 of 100 marks"), "{:?}", bench.texts());
    // Set work is not drawn again at will, nor when its sheet is read later.
    assert!(!bench.keys().contains(&"again".to_owned()));
    bench.click("leave");
    // Marked again beside the window.
    let until = std::time::Instant::now() + std::time::Duration::from_mins(1);
    while !bench.says("100 of 100 marks") && std::time::Instant::now() < until {
        std::thread::sleep(std::time::Duration::from_millis(20));
        bench.frames(Vec::new());
    }
    assert!(bench.says("100 of 100 marks"), "{:?}", bench.texts());
    bench.click("open:1");
    assert!(bench.window.marked().is_some() && !bench.keys().contains(&"again".to_owned()));
}

/// The circuit diagram says what was joined, and where the current goes: it comes with the marks.
#[test]
fn the_circuit_of_what_is_handed_in_is_withheld_with_the_marks() {
    for (answers, shown) in [(AnswersShown::AfterDue, false), (AnswersShown::AtOnce, true)] {
        let mut bench = Bench::on_set_work("set-circuit", made(answers, OPEN_NOW));
        bench.types("set-number", "7");
        bench.click(BEGIN);
        bench.does([Action::HandIn]);
        assert_eq!(bench.says("withheld until Wednesday 6 November 2999, 17:00"), !shown, "{:?}", bench.texts());
        bench.click("look");
        assert_eq!(bench.keys().contains(&"go:circuit".to_owned()), shown, "{answers:?}");
    }
}

#[test]
fn a_wrong_number_and_a_wrong_code_are_said_beside_their_fields_at_once() {
    let mut bench = Bench::on_set_work("set-wrong", made(AnswersShown::Released, OPEN_NOW));
    let (number, bad) = ("There is no learner 8 in this set work", "This is no code of learner 7.");
    assert!(!bench.says("There is no learner"), "nothing is typed yet");
    bench.types("set-number", "8");
    assert!(bench.says(number) && !can(&bench, BEGIN), "{:?}", bench.texts());
    bench.types("set-number", "7");
    assert!(!bench.says(number) && can(&bench, BEGIN));
    let code = Adjustment::new(25, 1).unwrap().code("week-3", 7);
    let neighbours = Adjustment::new(25, 1).unwrap().code("week-3", 3);
    for (typed, right) in [(&neighbours, false), (&code[..5].to_owned(), false), (&code.to_lowercase(), true)] {
        bench.types("set-code", typed);
        assert_eq!((bench.says(bad), can(&bench, BEGIN)), (!right, right), "{typed}: {:?}", bench.texts());
    }
    bench.click(BEGIN);
    let session = bench.window.session().unwrap();
    assert_eq!(session.assigned.as_ref().unwrap().code, code);
    // Another draw.
    assert_eq!(session.attempt.work().exercise().seed, seed_of("week-3", 7, "wire-a-switch", 1));
}

#[test]
fn an_open_try_is_gone_on_with_and_after_the_last_nothing_can_be_begun() {
    let mut bench = Bench::on_set_work("set-tries", made(AnswersShown::Released, OPEN_NOW));
    bench.types("set-number", "7");
    bench.click(BEGIN);
    bench.does(model().into_iter().take(2));
    bench.click("leave");
    assert!(bench.says("Tries left: 1 of 2."), "{:?}", bench.texts());
    // The same button goes on with the first.
    bench.click(BEGIN);
    assert_eq!((bench.log().len(), bench.window.session().unwrap().assigned.as_ref().unwrap().nth), (2, 1));
    bench.does([Action::HandIn]);
    bench.click("leave");
    bench.click(BEGIN);
    assert_eq!(bench.window.session().unwrap().assigned.as_ref().unwrap().nth, 2);
    bench.does([Action::HandIn]);
    bench.click("leave");
    assert!(bench.says("Tries left: 0 of 2.") && !can(&bench, BEGIN), "{:?}", bench.texts());
    // Another learner has all of theirs.
    bench.types("set-number", "3");
    assert!(bench.says("Tries left: 2 of 2.") && can(&bench, BEGIN) && !bench.keys().contains(&"open:1".to_owned()));
}

/// As `record` has it: it is said and flagged, and the tutor decides. The clock here may be wrong.
#[test]
fn what_is_not_open_yet_or_late_is_said_before_it_is_begun() {
    for (times, said) in [
        (["2999-11-02T09:00:00+00:00", "2999-11-06T17:00:00+00:00"], "opens on Saturday 2 November 2999, 09:00"),
        (["2020-11-02T09:00:00+00:00", "2020-11-06T17:00:00+00:00"], "was due on Friday 6 November 2020, 17:00"),
    ] {
        let mut bench = Bench::on_set_work("set-early", made(AnswersShown::Released, times));
        bench.types("set-number", "7");
        assert!(bench.says(&format!("This set work {said} (UTC).")) && bench.says("flagged"), "{:?}", bench.texts());
        assert!(can(&bench, BEGIN));
    }
    let mut bench = Bench::on_set_work("set-now", made(AnswersShown::Released, OPEN_NOW));
    bench.types("set-number", "7");
    assert!(!bench.says("flagged"), "{:?}", bench.texts());
}
