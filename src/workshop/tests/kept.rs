//! Attempts of the folder: gone on with, read, or only named.

use switchdrop::work::Action;

use super::{super::window_state::Screen, bench::Bench};

#[test]
fn an_unfinished_attempt_is_gone_on_with_where_it_was_left() {
    let mut bench = Bench::new("go-on");
    bench.click("begin:two-way-passage");
    bench.does_model_until(|it| matches!(it, Action::MakeUp { .. }));
    let before = bench.log();
    bench.click("leave");
    bench.click("open:1");
    assert_eq!((bench.window.screen(), bench.log()), (Screen::Bench, before.clone()));
    bench.does([Action::MakeUp { location: "kiln".to_owned(), colour: switchdrop::trade::colour::Colour::Brown }]);
    assert_eq!(bench.log().len(), before.len() + 1);
}

#[test]
fn what_was_handed_in_is_opened_at_its_sheet_and_its_file_stays_as_it_is() {
    let mut bench = Bench::new("read");
    bench.click("begin:two-way-passage");
    bench.does_model_until(|_| false);
    let path = bench.window.session().unwrap().path.clone();
    bench.click("leave");
    let before = std::fs::read(&path).unwrap();
    bench.click("open:1");
    assert_eq!(bench.window.screen(), Screen::Sheet);
    assert_eq!(bench.window.marked().unwrap().sheet.marks, 100);
    assert_eq!(std::fs::read(&path).unwrap(), before);
}

#[test]
fn what_another_window_has_open_can_only_be_read_and_that_is_said() {
    let mut bench = Bench::new("two");
    bench.click("begin:two-way-passage");
    bench.does_model_until(|it| matches!(it, Action::MakeUp { .. }));
    let mut other = Bench::beside(bench.folder.clone());
    other.click("open:1");
    assert_eq!(other.log(), bench.log());
    assert!(other.window.said().starts_with("Another window has this attempt open"), "{}", other.window.said());
    other.click("go:kiln");
    assert!(!other.keys().iter().any(|it| ["cover", "undo", "todo:hand-in"].contains(&it.as_str())));
    other.does([Action::HandIn]);
    assert_eq!(other.log(), bench.log());
}

#[test]
fn hostile_names_and_broken_files_stop_nothing() {
    let bench = Bench::new("hostile");
    std::fs::create_dir_all(&bench.folder).unwrap();
    for (name, text) in
        [("\u{202e}gnp.exe\u{7}.attempt.ron", "no attempt"), ("../x.attempt.ron", ""), ("a.attempt.ron", "Attempt(\n")]
    {
        let _ = std::fs::write(bench.folder.join(name.trim_start_matches("../")), text);
    }
    let other = Bench::beside(bench.folder.clone());
    let said = other.words();
    assert!(said.iter().any(|it| it.starts_with("a.attempt.ron: ")), "{said:?}");
    assert!(!said.iter().any(|it| it.contains(['\u{202e}', '\u{7}'])), "{said:?}");
    assert!(other.keys().iter().any(|it| it.starts_with("begin:")));
}

/// The aim: four exercises and a list of attempts at 1280 by 800 with nothing to scroll; thirty with scrolling.
#[test]
fn four_exercises_fit_on_the_first_screen_and_of_thirty_the_last_is_reached() {
    let begins = |bench: &Bench| {
        let all = bench.window.targets().0.iter().filter(|it| it.key.starts_with("begin:"));
        all.map(|it| (it.key.clone(), it.visible)).collect::<Vec<_>>()
    };
    let shipped = begins(&Bench::with_more("fits-shipped", 0)).len();
    let bench = Bench::with_more("fits", 4_usize.saturating_sub(shipped));
    let all = begins(&bench);
    assert!(all.len() >= 4 && all.iter().take(4).all(|it| it.1), "{all:?}");
    let mut bench = Bench::with_more("thirty", 30);
    let all = begins(&bench);
    assert_eq!((all.len(), all.iter().all(|it| it.1)), (30 + shipped, false));
    bench.click(&all.last().unwrap().0);
    assert_eq!(bench.window.screen(), Screen::Bench, "{}", bench.window.said());
}

/// A model that earns every mark passes; an attempt handed in at once is far from it; one that is not handed in says nothing but how far it is,
/// in practice too.
#[test]
fn what_was_handed_in_says_what_it_came_to() {
    let mut bench = Bench::new("came-to");
    bench.click("begin:two-way-passage");
    bench.does_model_until(|_| false);
    bench.click("leave");
    bench.click("set");
    bench.click("begin:two-way-passage");
    bench.does([Action::HandIn]);
    bench.click("leave");
    bench.click("begin:two-way-passage");
    bench.does_model_until(|it| matches!(it, Action::MakeUp { .. }));
    bench.click("leave");
    // They are marked beside the window.
    let until = std::time::Instant::now() + std::time::Duration::from_mins(1);
    let came = |bench: &Bench| bench.words().into_iter().filter(|it| it.ends_with(" marks")).collect::<Vec<_>>();
    while came(&bench).len() < 2 && std::time::Instant::now() < until {
        std::thread::sleep(std::time::Duration::from_millis(20));
        bench.frames(Vec::new());
    }
    let came = came(&bench);
    assert_eq!(came.len(), 2, "{came:?}");
    assert!(came.iter().any(|it| it == "✔ Pass: 100 of 100 marks"), "{came:?}");
    assert!(came.iter().any(|it| !it.contains("Pass")), "{came:?}");
    let words = bench.words();
    assert!(words.iter().any(|it| it.starts_with("unfinished, ")));
    // On the exercise's own card the better of the two, and in its step the one that is passed.
    assert_eq!(words.iter().filter(|it| it.contains("best ")).collect::<Vec<_>>(), ["✔ best 100 of 100"]);
    assert_eq!(words.iter().filter(|it| it.starts_with("1 of ") && it.ends_with(" passed")).count(), 1, "{words:?}");
}

/// A scenario that can't be used is said above the others, with its line and its reason.
#[test]
fn a_broken_scenario_is_named_with_its_reason() {
    let broken = include_str!("../../../exercises/wire-a-switch/scenario.ron")
        .replace("wire-a-switch", "split-post")
        .replace("kind: Wire", "kind: Find");
    let bench = Bench::with_scenario("broken-scenario", "split-post", &broken);
    let words = bench.words();
    let said = words.iter().position(|it| it.contains("split-post")).expect("it is named");
    assert!(words[said].contains("the kind Find has the stage `Diagnosis`"), "{}", words[said]);
    assert!(said < words.iter().position(|it| it == "Choose an exercise").unwrap());
}
