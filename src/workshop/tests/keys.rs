//! The keyboard: from pane to pane, never lost, help and text size everywhere.

use bevy_egui::egui::{Key, Modifiers};

use super::bench::Bench;

#[test]
fn one_key_goes_from_part_to_part_and_comes_back_to_where_it_was() {
    let mut bench = Bench::new("panes");
    bench.click("begin:two-way-passage");
    bench.click("go:kiln");
    bench.key(Key::F6);
    assert_eq!(bench.focused().as_deref(), Some("brief"));
    bench.key(Key::F6);
    assert_eq!(bench.focused().as_deref(), Some("hand:tools"));
    bench.key(Key::F6);
    let on_drawing = bench.focused().unwrap();
    bench.key(Key::Tab);
    let next = bench.focused().unwrap();
    assert_ne!(next, on_drawing);
    bench.key(Key::F6);
    assert_eq!(bench.focused().as_deref(), Some("todo:loads"));
    bench.key(Key::F6);
    assert_eq!(bench.focused().as_deref(), Some("hint"));
    for _ in 0..4 {
        bench.key_with(Modifiers::SHIFT, Key::F6);
    }
    assert_eq!(bench.focused().as_deref(), Some("brief"));
    bench.key(Key::F6);
    bench.key(Key::F6);
    assert_eq!(bench.focused(), Some(next));
}

#[test]
fn the_keyboard_is_never_lost_when_what_it_pressed_disappears() {
    let mut bench = Bench::new("lost");
    bench.key(Key::F6);
    assert!(bench.focused().is_some_and(|it| it.starts_with("begin:")), "{:?}", bench.focused());
    // One Tab for each exercise on the list.
    for _ in 0..40 {
        if bench.focused().as_deref() == Some("begin:two-way-passage") {
            break;
        }
        assert!(bench.focused().is_some_and(|it| it.starts_with("begin:")), "{:?}", bench.focused());
        bench.key(Key::Tab);
    }
    assert_eq!(bench.focused().as_deref(), Some("begin:two-way-passage"));
    bench.key(Key::Enter);
    assert!(bench.keys().contains(&"go:kiln".to_owned()), "the work is begun");
    assert!(bench.focused().is_some(), "on the screen of the work");
    bench.click("go:kiln");
    while bench.focused().as_deref() != Some("feeds:board.1") {
        bench.key(Key::Tab);
    }
    for _ in 0..2 {
        bench.key(Key::Space);
        bench.key(Key::Tab);
    }
    assert_eq!(bench.focused().as_deref(), Some("identify"));
    bench.key(Key::Enter);
    assert_eq!(bench.log().len(), 1);
    // To what comes next, and not to the cover that stands nearest: one more Enter would be live work.
    assert_eq!(bench.focused().as_deref(), Some("todo:loads"));
}

#[test]
fn help_is_one_key_away_and_escape_closes_it() {
    let mut bench = Bench::new("help");
    let screen = bench.keys();
    bench.key(Key::F1);
    assert_eq!(bench.keys(), ["help-close"]);
    bench.key(Key::Escape);
    assert_eq!(bench.keys(), screen);
}

/// WCAG 2.2, 1.4.4 asks for text that can be made larger; here the steps are ours.
#[test]
fn keys_make_the_text_larger_and_smaller_and_normal_again() {
    let mut bench = Bench::new("scale");
    let height = |it: &Bench| it.window.targets().0.iter().find(|it| it.key == "help").unwrap().rect.height();
    let normal = height(&bench);
    bench.key_with(Modifiers::CTRL, Key::Plus);
    assert!(height(&bench) > normal);
    bench.key_with(Modifiers::CTRL, Key::Num0);
    assert!((height(&bench) - normal).abs() < 0.1);
}

/// N goes to what comes next, from wherever the keyboard is, and from there back to where it was on the drawing. In a field it is a letter.
#[test]
fn one_key_goes_between_what_comes_next_and_the_drawing() {
    let mut bench = Bench::new("across");
    bench.click("begin:two-way-passage");
    bench.click("go:kiln");
    (0..3).for_each(|_| bench.key(Key::F6));
    bench.key(Key::Tab);
    let on_drawing = bench.focused().unwrap();
    bench.key(Key::N);
    assert_eq!(bench.focused().as_deref(), Some("todo:loads"));
    bench.key(Key::N);
    assert_eq!(bench.focused(), Some(on_drawing));
}
