//! The glossary in the window: one key away everywhere, at the word that is pointed at.

use bevy_egui::egui::{Event, Key, Pos2, Shape, text::CCursor, vec2};
use switchdrop::work::Action;

use super::{super::window_state::Screen, bench::Bench};

#[test]
fn it_opens_over_every_screen_and_closes_to_where_one_was() {
    let mut bench = Bench::new("words");
    bench.key(Key::F2);
    assert!(bench.window.words().is_open && bench.says("Often mistaken"), "{:?}", bench.texts());
    // No word is pointed at: the list, and no entry of it is read yet.
    assert!(bench.says("Choose a word") && !bench.says("For a tutor"), "{:?}", bench.texts());
    bench.click("word:muddle-live");
    bench.click("see:word-neutral");
    assert_eq!(bench.window.words().read().id, "word-neutral");
    assert!(bench.says("For a tutor"), "{:?}", bench.texts());
    bench.click("see:word-borrowed-neutral");
    assert_eq!(bench.window.words().read().word, "borrowed neutral");
    bench.key(Key::Escape);
    assert!(!bench.window.words().is_open);
    bench.click("curious");
    bench.click("word:word-live");
    assert_eq!(bench.window.words().read().word, "live");
    assert!(bench.says("Something is live if") && bench.says("Often mistaken: Live includes the neutral"));
    bench.key(Key::Escape);
    bench.click("word:muddle-l1-l2");
    assert_eq!(bench.window.words().read().word, "L1 and L2 are not phases");
    bench.key(Key::F2);
    assert_eq!(bench.window.screen(), Screen::Curious);
    bench.click("leave");
    bench.click("begin:two-way-passage");
    bench.click("words");
    bench.click("words-close");
    assert_eq!(bench.window.screen(), Screen::Bench);
    assert!(!bench.window.words().is_open);
}

/// The sentence of where the current goes has the word "live" in it: with the pointer there, the key opens it, and opens it again later.
#[test]
fn a_word_that_is_pointed_at_is_what_the_key_opens() {
    let mut bench = Bench::new("words-pointed");
    bench.click("begin:two-way-passage");
    bench.does_model_until(|it| matches!(it, Action::HandIn));
    bench.click("go:place");
    let shapes = bench.painted.shapes.iter().filter_map(|it| match &it.shape {
        Shape::Text(it) => Some(it),
        _ => None,
    });
    let told = shapes.into_iter().find(|it| it.galley.text().starts_with("What is live stops")).expect("it is told");
    let within = |it: usize| told.galley.pos_from_cursor(CCursor::new(it)).translate(told.pos.to_vec2()).center();
    // What is live: the eighth letter begins the word.
    let at = within(9) + vec2(2.0, 0.0);
    bench.frames(vec![Event::PointerMoved(at)]);
    bench.key(Key::F2);
    assert_eq!(bench.window.words().read().id, "word-live");
    bench.key(Key::F2);
    bench.frames(vec![Event::PointerMoved(Pos2::new(2.0, 2.0))]);
    bench.key(Key::F2);
    assert_eq!(bench.window.words().read().id, "word-live");
}

/// What has the keyboard is looked up too.
#[test]
fn a_word_of_what_has_the_keyboard_is_what_the_key_opens() {
    let mut bench = Bench::new("words-focused");
    bench.click("begin:two-way-passage");
    bench.click("go:board");
    bench.click("go:place");
    while bench.focused().as_deref() != Some("go:board") {
        bench.key(Key::Tab);
    }
    bench.key(Key::F2);
    assert_eq!(bench.window.words().read().id, "word-board");
}
