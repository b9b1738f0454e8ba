//! The tutor's screen: learner 3 handed in the model, learner 7 a blank bench, learner 9 nothing.

use std::sync::Arc;

use switchdrop::{
    register::{AnswersShown, Assignment, HandIn, Review},
    report::Marked,
    wording::Wording,
};

use crate::desk::ClassFiles;

use super::{
    super::window_state::Screen,
    bench::Bench,
    set_work::{BEGIN, OPEN_NOW, made_for, model},
};

/// Does the set work for two of the three, and reviews it.
fn class(name: &str) -> (Bench, Bench) {
    let made = || made_for(vec![3, 7, 9], AnswersShown::Released, OPEN_NOW);
    let mut learners = Bench::on_set_work(name, made());
    let mut paths = Vec::new();
    for (number, actions) in [("3", model()), ("7", Vec::new())] {
        learners.types("set-number", number);
        learners.click(BEGIN);
        learners.does(actions);
        paths.push(learners.window.session().unwrap().path.clone());
        learners.does([switchdrop::work::Action::HandIn]);
        learners.click("leave");
    }
    let assignment = Arc::into_inner(made()).unwrap();
    let review = reviewed(&assignment, &paths);
    let tutor = Bench::on_class(Arc::new((ClassFiles::default(), assignment, review)), learners.folder.clone());
    (learners, tutor)
}

fn reviewed(assignment: &Assignment, paths: &[std::path::PathBuf]) -> Review {
    let templates = assignment.templates();
    let hand_in = |path: &std::path::PathBuf| {
        let marked = Marked::of(&std::fs::read_to_string(path).unwrap(), &templates).unwrap();
        let it = HandIn::of(assignment, &marked, 0, &Wording::british());
        it.at(assignment, None, &path.display().to_string())
    };
    let due = "2998-11-06T17:00:00Z".parse().unwrap();
    Review::of(assignment, paths.iter().map(hand_in).collect(), Vec::new(), due)
}

#[test]
fn who_needs_help_stands_first_and_a_line_leads_to_its_sheet_and_back() {
    let (_learners, mut bench) = class("class-read");
    assert_eq!(bench.window.screen(), Screen::Class);
    assert!(bench.says("Switches, week 3"), "{:?}", bench.texts());
    // Learner 7 handed in a blank bench, which is not yet; 3 passed, and 9 has time left.
    assert_eq!(bench.window.class().learners(), [7, 3, 9]);
    bench.click("sort:review-learner");
    assert_eq!(bench.window.class().learners(), [3, 7, 9]);
    bench.click("sort:review-marks");
    assert_eq!(bench.window.class().learners(), [7, 3, 9]);
    assert!(!bench.keys().contains(&"read:9:wire-a-switch".to_owned()), "{:?}", bench.keys());
    bench.click("read:3:wire-a-switch");
    assert_eq!(bench.window.screen(), Screen::Sheet);
    assert_eq!(bench.window.marked().unwrap().sheet.marks, 100);
    // The assignment withholds it from its learner, and the tutor is told so.
    assert!(bench.says("The learner does not see this yet."), "{:?}", bench.texts());
    bench.click("look");
    bench.click("sheet");
    bench.click("leave");
    assert_eq!(bench.window.screen(), Screen::Class);
}

#[test]
fn a_line_beside_the_table_shows_its_learners_alone_and_all_again() {
    let (_learners, mut bench) = class("class-only");
    bench.click("help:7");
    assert_eq!(bench.window.class().learners(), [7]);
    bench.click("class:everyone");
    assert_eq!(bench.window.class().learners(), [7, 3, 9]);
    bench.click("fault:0");
    assert_eq!(bench.window.class().learners(), [7]);
    bench.press_by_keyboard("fault:0");
    assert_eq!(bench.window.class().learners(), [7, 3, 9]);
}

#[test]
fn a_hand_in_that_is_gone_is_said_to_be_gone() {
    let (learners, mut bench) = class("class-gone");
    std::fs::remove_file(learners.folder.join("week-3_3_wire-a-switch_1.attempt.ron")).unwrap();
    bench.click("read:3:wire-a-switch");
    assert_eq!(bench.window.screen(), Screen::Class);
    assert!(bench.window.said().contains("week-3_3_wire-a-switch_1"), "{}", bench.window.said());
}
