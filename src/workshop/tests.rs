//! The window without a window: pointer and key events go into its frames, actions come out.

mod bench;
mod chosen;
mod circuit;
mod class;
mod curious;
mod current;
mod faulty;
mod first_minutes;
mod hands;
mod kept;
mod keys;
#[cfg(feature = "gui-test")]
mod named;
mod naming;
mod next;
mod observe;
mod opened;
mod parked;
mod people;
mod prediction;
mod prepared;
mod reading;
mod set_work;
mod tested;
mod themes;
mod tray;
mod trouble;
mod tutor_side;
mod waiting;
mod whole;
mod words;

use std::sync::Arc;

use bench::{Bench, PASSAGE, model};
use bevy_egui::egui::Key;
use switchdrop::{
    exercise::{SHIPPED, Seed, draw},
    marking::mark,
    work::Action,
};

use super::{panel::Intent, view::Sight, window_state::Screen};
use crate::journal::read_attempt;

#[test]
fn a_click_begins_and_steps_up_to_a_place_and_the_first_question_is_answered_by_ticking() {
    let mut bench = Bench::new("click");
    bench.click("begin:two-way-passage");
    assert_eq!(bench.window.screen(), Screen::Bench);
    bench.click("location:kiln");
    for it in ["feeds:board.1", "feeds:board.2", "identify"] {
        bench.click(it);
    }
    let devices = ["board.1", "board.2"].map(str::to_owned).to_vec();
    assert_eq!(bench.log(), [Action::Identify { location: "kiln".to_owned(), devices }]);
}

#[test]
fn an_end_is_dragged_to_a_terminal_even_when_press_and_movement_come_in_one_frame() {
    let mut bench = Bench::new("drag");
    bench.click("begin:two-way-passage");
    bench.does_model_until(|it| matches!(it, Action::Connect { .. }));
    bench.click("go:kiln");
    bench.drag("feed/brown@kiln", "kiln.1.L1");
    let wanted = Action::Connect { end: "feed/brown@kiln".to_owned(), terminal: "kiln.1.L1".to_owned() };
    assert_eq!(bench.log().last(), Some(&wanted));
}

#[test]
fn tab_and_enter_reach_what_a_click_does() {
    let mut bench = Bench::new("keys");
    bench.click("begin:two-way-passage");
    let place = bench.window.targets().0.iter().filter(|it| it.enabled).position(|it| it.key == "go:board").unwrap();
    // The click left nothing focused: the first Tab goes to the first of them.
    for _ in 0..=place {
        bench.key(Key::Tab);
    }
    bench.key(Key::Enter);
    let board = bench.window.session().unwrap().attempt.work().location("board").unwrap();
    assert_eq!(bench.window.sight(), Sight::Location(board));
}

#[test]
fn working_live_is_stopped_and_said() {
    let mut bench = Bench::new("live");
    bench.click("begin:two-way-passage");
    bench.click("go:kiln");
    bench.click("cover");
    let session = bench.window.session().unwrap();
    assert_eq!(session.attempt.tally().acts.len(), 1);
    let kiln = session.attempt.work().location("kiln").unwrap();
    assert!(session.attempt.work().is_covered(kiln));
    assert!(bench.window.said().starts_with("stopped: "), "{}", bench.window.said());
    assert!(!bench.window.said().contains("refers"), "practice only counts it");
    let mut bench = Bench::new("refers");
    bench.click("set");
    bench.click("begin:two-way-passage");
    bench.click("go:kiln");
    bench.click("cover");
    assert!(bench.window.said().contains("In set work this refers"), "{}", bench.window.said());
}

#[test]
fn the_sheet_on_the_screen_is_what_the_file_earns() {
    let mut bench = Bench::new("sheet");
    bench.click("begin:two-way-passage");
    bench.does_model_until(|_| false);
    assert_eq!(bench.window.screen(), Screen::Sheet);
    let session = bench.window.session().unwrap();
    let whole = read_attempt(&session.path).unwrap();
    let attempt = whole.opened.replay().unwrap();
    let sheet = mark(&attempt, whole.opened.header.mode);
    assert_eq!((sheet.marks, sheet.out_of), (100, 100));
    assert_eq!(bench.window.marked().unwrap().sheet, sheet);
    // What was done well, by the catalogue: everything.
    let page = bench.whole_page();
    for it in ["Pass: 100 of 100 marks", "Nothing found.", "Every end is held as it should be."] {
        assert!(page.iter().any(|text| text.0.contains(it)), "{it}: {page:?}");
    }
    assert!(draw(PASSAGE, Seed(4)).is_ok_and(|it| Arc::new(it).text() == whole.opened.exercise.text()));
}

/// A fresh window that is fed the log of a used one paints the same and offers the same.
#[test]
fn a_fresh_window_with_the_same_log_shows_what_the_used_one_shows() {
    let mut used = Bench::new("used");
    used.click("begin:two-way-passage");
    used.does_model_until(|it| matches!(it, Action::Connect { .. }));
    used.click("go:clay");
    used.click("go:kiln");
    used.drag("feed/brown@kiln", "kiln.1.L2");
    used.key_with(bevy_egui::egui::Modifiers::CTRL, Key::Z);
    used.drag("feed/brown@kiln", "kiln.1.L1");
    used.click("link/black@kiln");
    used.click("mark:brown");
    used.key(Key::Escape);
    let mut fresh = Bench::new("fresh");
    fresh.window.apply(Intent::Begin(place_of(&fresh, "two-way-passage")));
    fresh.does(used.log());
    fresh.window.apply(Intent::Go(used.window.sight()));
    fresh.frames(Vec::new());
    assert_eq!(fresh.log(), used.log());
    assert_eq!(fresh.window.scene(), used.window.scene());
    let map =
        |it: &Bench| it.window.targets().0.iter().map(|it| (it.key.clone(), it.rect, it.enabled)).collect::<Vec<_>>();
    for (one, other) in map(&fresh).into_iter().zip(map(&used)) {
        assert_eq!(one, other);
    }
    assert_eq!(map(&fresh).len(), map(&used).len());
}

/// Where in the library an exercise is.
fn place_of(bench: &Bench, id: &str) -> usize {
    assert!(bench.keys().contains(&format!("begin:{id}")), "it is on the screen");
    // The library begins with those that are shipped.
    SHIPPED.iter().position(|it| it.0 == id).expect("it is shipped")
}

#[test]
fn after_the_hand_in_nothing_is_offered_that_no_longer_applies_and_again_draws_another() {
    let mut bench = Bench::new("after");
    bench.click("begin:two-way-passage");
    bench.does_model_until(|_| false);
    let digest = |it: &Bench| it.window.session().unwrap().attempt.work().exercise().text().to_owned();
    let first = digest(&bench);
    bench.click("look");
    bench.click("go:kiln");
    bench.click("kiln.1.L1");
    bench.click("switch:kiln.1");
    let gone = ["undo", "redo", "cover", "hand:indicator", "tighten", "todo:hand-in", "make-up:brown"];
    assert!(!bench.keys().iter().any(|it| gone.contains(&it.as_str())), "{:?}", bench.keys());
    assert_eq!(bench.log().last(), Some(&Action::HandIn));
    bench.click("sheet");
    bench.click("again");
    assert!(bench.log().is_empty());
    assert_ne!(digest(&bench), first);
}

/// Handing in is for good: while something is still to do it is asked about first, and going on with the work answers it.
#[test]
fn unfinished_work_is_handed_in_only_when_that_is_meant() {
    let mut bench = Bench::new("asked");
    bench.click("begin:two-way-passage");
    bench.press_by_keyboard("todo:hand-in");
    assert!(bench.log().is_empty() && bench.says("Hand in unfinished work?"), "{:?}", bench.texts());
    bench.click("hand-in:no");
    assert!(!bench.says("Hand in unfinished work?"));
    bench.press_by_keyboard("todo:hand-in");
    bench.click("todo:agree");
    assert!(!bench.says("Hand in unfinished work?"), "{:?}", bench.texts());
    bench.press_by_keyboard("todo:hand-in");
    bench.click("hand-in:yes");
    assert_eq!(bench.log(), [Action::Agree, Action::HandIn]);
    assert_eq!(bench.window.screen(), Screen::Sheet);
}

#[test]
fn naming_what_feeds_one_place_leaves_the_other_to_be_named() {
    let mut bench = Bench::new("identify");
    bench.click("begin:two-way-passage");
    bench.does(model().into_iter().filter(|it| matches!(it, Action::Identify { .. })).take(1));
    let keys = bench.keys();
    assert!(keys.contains(&"todo:identify:clay".to_owned()) && !keys.contains(&"todo:identify:kiln".to_owned()));
}
