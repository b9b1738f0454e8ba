//! Several people on one login: each is asked who they are, and sees their own attempts and nobody else's.

use bevy_egui::egui::{Event, Key, Shape, epaint::ClippedShape};
use switchdrop::{exercise::Limits, work::Action};

use super::{
    super::window_state::Screen,
    bench::{Bench, LEARNER},
};

/// Titles of the two exercises that the two learners do, as their scenarios have them, and one that nobody does.
const ANN_DID: &str = "One light, two switches, along a passage";
const BEN_DID: &str = "One light, one switch, at the rose";

/// A folder in which Ann has handed an exercise in and Ben has left another unfinished. The window is at the first screen, Ben's.
fn two_learners(name: &str) -> Bench {
    let mut bench = Bench::new(name);
    bench.types("name", "Ann");
    bench.click("begin:two-way-passage");
    bench.does([Action::HandIn]);
    bench.click("leave");
    bench.types("name", "Ben");
    bench.click("begin:one-way-rose");
    bench.click("leave");
    bench
}

/// How many attempts can be opened.
fn opens(bench: &Bench) -> usize {
    bench.keys().iter().filter(|it| it.starts_with("open:")).count()
}

/// What the list beside the exercises says: every text that begins in the right third of the window.
fn list(bench: &Bench) -> String {
    let is_there = |it: &&ClippedShape| it.clip_rect.left() > bench.size.x * 0.6;
    let text = |it: &ClippedShape| match &it.shape {
        Shape::Text(it) => Some(it.galley.job.text.clone()),
        _ => None,
    };
    bench.painted.shapes.iter().filter(is_there).filter_map(text).collect::<Vec<_>>().join("\n")
}

#[test]
fn each_learner_sees_their_own_attempts_alone_and_changing_the_name_changes_the_list() {
    let mut bench = two_learners("two-learners");
    assert_eq!(opens(&bench), 1);
    assert!(list(&bench).contains("Ben, begun") && list(&bench).contains("unfinished"), "{}", list(&bench));
    assert!(!list(&bench).contains("Ann") && !list(&bench).contains(ANN_DID), "{}", list(&bench));
    // What Ann has done is not done for Ben.
    assert!(!bench.says("handed in"), "{:?}", bench.words());
    bench.types("name", "Ann");
    assert_eq!(opens(&bench), 1);
    assert!(list(&bench).contains("Ann, begun") && !list(&bench).contains("Ben,"), "{}", list(&bench));
    bench.click("open:1");
    assert_eq!(bench.window.session().unwrap().learner, "Ann");
    assert_eq!(bench.window.screen(), Screen::Sheet);
    bench.click("leave");
    // A third has nothing, and the folder is the same.
    bench.types("name", "Cam");
    assert_eq!(opens(&bench), 0);
    assert!(list(&bench).contains("You have no attempts yet"), "{}", list(&bench));
    assert!(!list(&bench).contains(BEN_DID) && !list(&bench).contains(ANN_DID));
}

/// One letter at a time, as somebody types: "An" is nobody here, and "Ann" is.
#[test]
fn the_list_follows_every_letter() {
    let mut bench = two_learners("letters");
    bench.types("name", "An");
    assert_eq!(opens(&bench), 0);
    bench.frames(vec![Event::Text("n".to_owned())]);
    assert_eq!(opens(&bench), 1);
    bench.key(Key::Backspace);
    assert_eq!(opens(&bench), 0);
}

#[test]
fn with_no_name_one_is_asked_for_it_and_shown_nobodys_work() {
    let used = two_learners("nameless");
    std::fs::remove_file(used.folder.join("settings.ron")).unwrap();
    let mut bench = Bench::opened_again(used.folder.clone());
    assert!(list(&bench).contains("Who are you?"), "{}", list(&bench));
    assert_eq!((opens(&bench), bench.focused().as_deref()), (0, Some("name")));
    assert!(!bench.says("Ann") && !bench.says("Ben"), "{:?}", bench.words());
    // Nothing is begun that could not be found again.
    bench.click("begin:two-way-passage");
    assert_eq!(bench.window.screen(), Screen::Start);
    assert!(bench.says("Write your name first"), "{:?}", bench.words());
    assert_eq!(bench.focused().as_deref(), Some("name"));
    bench.frames(vec![Event::Text("ben".to_owned())]);
    assert_eq!(opens(&bench), 1);
    assert!(!bench.says("Write your name first"), "{:?}", bench.words());
    // Nobody is called nothing but spaces.
    bench.types("name", "   ");
    assert!(opens(&bench) == 0 && list(&bench).contains("Who are you?"), "{}", list(&bench));
}

#[test]
fn the_name_is_remembered_as_soon_as_its_field_is_left() {
    let bench = two_learners("remembers");
    let mut again = Bench::opened_again(bench.folder.clone());
    assert_eq!(opens(&again), 1);
    assert!(list(&again).contains("Ben, begun"), "{}", list(&again));
    again.types("name", "Ann");
    again.key(Key::Tab);
    let again = Bench::opened_again(bench.folder.clone());
    assert!(list(&again).contains("Ann, begun"), "{}", list(&again));
}

/// A name is one learner's whatever its capitals and the spaces around it.
#[test]
fn odd_names_do_no_harm() {
    let mut bench = two_learners("odd");
    for (typed, found) in [
        ("  aNN ", 1),
        ("BEN", 1),
        ("An n", 0),
        ("Ann Ben", 0),
        ("*", 0),
        ("../Ann", 0),
        ("", 0),
        ("\u{202e}Ann\u{7}\u{0}", 1),
        ("ann\n", 1),
    ] {
        bench.types("name", typed);
        if typed.is_empty() {
            bench.key(Key::Delete);
        }
        assert_eq!(opens(&bench), found, "{typed:?}");
    }
    // As long as a name may be, and longer: it is cut, and found again by what is left of it.
    let long = "Ö".repeat(Limits::NAME_CHARS + 20);
    bench.types("name", &long);
    bench.click("begin:one-way-rose");
    assert_eq!(bench.window.session().unwrap().learner, "Ö".repeat(Limits::NAME_CHARS));
    bench.click("leave");
    assert_eq!(opens(&bench), 1);
    bench.types("name", &long.to_lowercase());
    assert_eq!(opens(&bench), 1);
    // What another hand wrote into the settings is cleaned before it is anybody's name.
    let written = format!("(learner:\"{}\")", "\\u{202e}A\\u{7}nn".to_owned() + &" ".repeat(500));
    std::fs::write(bench.folder.join("settings.ron"), written).unwrap();
    let again = Bench::opened_again(bench.folder.clone());
    assert!(list(&again).contains("Ann, begun"), "{}", list(&again));
}

/// A file with something wrong in it is named to its own learner, as long as its first line says whose it is; one that says nothing is
/// named to everybody, since it may be theirs.
#[test]
fn what_is_broken_is_named_to_its_own_learner() {
    let mut bench = two_learners("broken-ones");
    for entry in std::fs::read_dir(&bench.folder).unwrap().flatten() {
        if entry.file_name().to_string_lossy().starts_with("two-way-passage") {
            let text = std::fs::read_to_string(entry.path()).unwrap();
            std::fs::write(entry.path(), text.replace("HandIn", "HandOut")).unwrap();
        }
    }
    std::fs::write(bench.folder.join("strange.attempt.ron"), "Attempt(\n").unwrap();
    // Looked at again on the way back.
    bench.click("open:1");
    bench.click("leave");
    assert!(list(&bench).contains("strange.attempt.ron: "), "{}", list(&bench));
    assert!(!list(&bench).contains("two-way-passage"), "{}", list(&bench));
    assert_eq!(opens(&bench), 1);
    bench.types("name", "Ann");
    assert!(list(&bench).contains("two-way-passage"), "{}", list(&bench));
    assert_eq!(opens(&bench), 0);
}

/// More of another's than are ever listed leave room for one's own, however old they are.
#[test]
fn anothers_attempts_do_not_crowd_out_ones_own() {
    let mut bench = Bench::new("crowd");
    bench.click("begin:one-way-rose");
    bench.click("leave");
    bench.types("name", "Ben");
    for _ in 0..25 {
        bench.click("begin:one-way-rose");
        bench.click("leave");
    }
    bench.types("name", LEARNER);
    assert_eq!(opens(&bench), 1);
    assert!(!list(&bench).contains("older ones"), "{}", list(&bench));
}
