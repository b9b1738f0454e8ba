//! The tutor's side of the first screen: work is set, handed in, reviewed, decided about and released, all by the pointer.

use std::{fs, path::PathBuf, time::Duration};

use switchdrop::{
    register::{Assignment, Hints, seed_of},
    work::Action,
};

use super::{
    super::window_state::Screen,
    bench::Bench,
    set_work::{BEGIN, model},
};

/// On the tutor's side, with a home of its own.
fn tutor(name: &str) -> Bench {
    let mut bench = Bench::new(name);
    bench.click("tutor");
    assert_eq!(bench.window.screen(), Screen::Tutor);
    bench
}

/// Fills in an assignment of one exercise for learners 3, 7 and 9.
fn fills_in(bench: &mut Bench) {
    bench.types("tutor:id", "week-3");
    bench.types("tutor:group", "Group 2");
    bench.types("tutor:learners", "3,7,9");
    bench.click("tutor:exercise:wire-a-switch");
    bench.types("tutor:due", "2999-11-06 17:00");
    bench.types("tutor:tries", "2");
    bench.click("tutor:hints:counted");
}

fn written(bench: &Bench) -> PathBuf {
    bench.folder.join("classes/week-3/week-3.ron")
}

/// Frames until a review that goes on beside the window is there.
fn until(bench: &mut Bench, what: &str, is_so: impl Fn(&Bench) -> bool) {
    for _ in 0..1000 {
        bench.frames(Vec::new());
        if is_so(bench) {
            return;
        }
        std::thread::sleep(Duration::from_millis(20));
    }
    panic!("{what}: {:?}", bench.texts());
}

/// Hands in as learners 3, all right, and 7, a blank bench, into the folder that the tutor was told of.
fn hand_in(bench: &Bench) {
    let assignment = Assignment::read(&fs::read_to_string(written(bench)).unwrap()).unwrap();
    let mut learners = Bench::on_set_work("tutor-side-learners", assignment.into());
    for (number, actions) in [("3", model()), ("7", Vec::new())] {
        learners.types("set-number", number);
        learners.click(BEGIN);
        learners.does(actions);
        learners.does([Action::HandIn]);
        learners.click("leave");
    }
    for it in fs::read_dir(&learners.folder).unwrap().map(|it| it.unwrap().path()) {
        if it.extension().is_some_and(|it| it == "ron") && it.file_name().unwrap() != "settings.ron" {
            fs::copy(&it, bench.folder.join("classes/week-3/handed-in").join(it.file_name().unwrap())).unwrap();
        }
    }
}

#[test]
fn what_is_set_here_is_what_the_command_line_sets_and_a_learner_of_it_is_shown() {
    let mut bench = tutor("tutor-sets");
    assert!(bench.says("Fill in what is asked for on the left."), "{:?}", bench.texts());
    // What is missing is said, and nothing is written.
    bench.click("tutor:write");
    for it in ["Give it a short id", "Say which group", "Write learners' numbers", "Tick at least one exercise"] {
        assert!(bench.says(it), "{it}: {:?}", bench.texts());
    }
    fills_in(&mut bench);
    bench.types("tutor:due", "Friday");
    bench.click("tutor:preview");
    assert!(bench.says("Due: write it like 2026-11-06 17:00"), "{:?}", bench.texts());
    bench.types("tutor:due", "2999-11-06 17:00");
    bench.types("tutor:learner", "8");
    bench.click("tutor:preview");
    assert!(bench.says("Learner 8 is not among the numbers."), "{:?}", bench.texts());
    bench.types("tutor:learner", "7");
    bench.click("tutor:preview");
    assert!(bench.says("Learner 7 gets this:") && bench.says("Two ends at a switch"), "{:?}", bench.texts());
    assert!(!written(&bench).exists());
    bench.types("tutor:id", "../week");
    bench.click("tutor:write");
    assert!(bench.says("Something is missing or wrong") && !bench.folder.join("classes").exists());
    bench.types("tutor:id", "week-3");
    bench.click("tutor:write");
    assert!(bench.says("Hand this file out"), "{:?}", bench.texts());
    let text = fs::read_to_string(written(&bench)).unwrap();
    let read = Assignment::read(&text).unwrap();
    assert_eq!((read.id.as_str(), read.group.as_str(), &read.learners), ("week-3", "Group 2", &vec![3, 7, 9]));
    assert_eq!((read.tries, read.hints, read.exercises.len()), (2, Hints::Counted, 1));
    assert!(read.due.is_some_and(|it| it.to_string().starts_with("2999-11-06T17:00:00")));
    assert_eq!(read.title, "Two ends at a switch");
    assert_eq!(seed_of("week-3", 7, "wire-a-switch", 0), seed_of(&read.id, 7, &read.exercises[0].scenario.id, 0));
    // It was handed out: it stays as it is.
    bench.types("tutor:group", "Group 3");
    bench.click("tutor:write");
    assert!(bench.says("is there already and stays as it is"), "{:?}", bench.texts());
    assert_eq!(fs::read_to_string(written(&bench)).unwrap(), text);
    bench.click("leave");
    assert_eq!(bench.window.screen(), Screen::Start);
}

#[test]
fn a_class_is_opened_decided_about_and_released_and_nothing_is_shown_before() {
    let mut bench = tutor("tutor-releases");
    fills_in(&mut bench);
    bench.click("tutor:write");
    hand_in(&bench);
    bench.click("tutor:open-this");
    until(&mut bench, "the class", |it| it.window.screen() == Screen::Class);
    assert_eq!(bench.window.class().learners(), [7, 3, 9]);
    let pages = bench.folder.join("classes/week-3/pages");
    // A decision without a name, then one without a reason, then one that stands.
    bench.click("decide:3:wire-a-switch");
    assert!(bench.says("the machine gave 100 marks, pass"), "{:?}", bench.texts());
    bench.types("decide:marks", "90");
    bench.click("decide:write");
    assert!(bench.window.said().contains("Write your name first"), "{}", bench.window.said());
    bench.types("decide:by", "A. Reed");
    bench.click("decide:write");
    assert!(bench.window.said().contains("Say why"), "{}", bench.window.said());
    bench.types("decide:why", "the cover was left off at the bench");
    bench.click("decide:write");
    until(&mut bench, "the decision", |it| !it.window.class().is_waiting());
    assert!(bench.says("90 marks, pass stands, by the tutor"), "{:?}", bench.texts());
    assert!(!pages.exists(), "nothing is shown before its release");
    // Released: two pages, and a row in the register each.
    bench.click("class:release");
    assert!(bench.says("to be released now: 2") && bench.says("nothing that counts: 1"), "{:?}", bench.texts());
    bench.click("release:go");
    assert!(bench.window.said().contains("Pages written: 2"), "{}", bench.window.said());
    until(&mut bench, "the release", |it| !it.window.class().is_waiting());
    assert!(bench.says("released as they stand: 2"), "{:?}", bench.texts());
    let mut names: Vec<_> = fs::read_dir(&pages).unwrap().map(|it| it.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(names, ["week-3_3_wire-a-switch.html", "week-3_7_wire-a-switch.html"]);
    let page = fs::read_to_string(pages.join("week-3_3_wire-a-switch.html")).unwrap();
    assert!(page.contains("90 marks, pass, out of 100") && page.contains("the cover was left off"), "{page}");
    // Decided otherwise since: what was told stands until there is a reason.
    bench.click("beside:class");
    bench.click("decide:3:wire-a-switch");
    bench.types("decide:marks", "95");
    bench.types("decide:why", "it was on after all");
    bench.click("decide:write");
    until(&mut bench, "the second decision", |it| !it.window.class().is_waiting());
    bench.click("decide:release");
    bench.click("release:go");
    until(&mut bench, "no second release", |it| !it.window.class().is_waiting());
    let page =
        |bench: &Bench| fs::read_to_string(bench.folder.join("classes/week-3/pages/week-3_3_wire-a-switch.html"));
    assert!(page(&bench).unwrap().contains("90 marks, pass, out of 100"));
    bench.types("release:again", "looked at it once more");
    bench.click("release:go");
    until(&mut bench, "the second release", |it| !it.window.class().is_waiting());
    assert!(page(&bench).unwrap().contains("95 marks, pass, out of 100"));
    // Back, and another day: the class and the name are remembered.
    bench.click("leave");
    assert_eq!(bench.window.screen(), Screen::Tutor);
    let mut later = Bench::opened_again(bench.folder.clone());
    later.click("tutor");
    later.click("tutor:open");
    later.click("tutor:again:0");
    until(&mut later, "the class again", |it| it.window.screen() == Screen::Class);
    later.click("class:release");
    assert!(later.says("released as they stand: 2"), "{:?}", later.texts());
    assert_eq!(later.window.targets().usable("release:by").and_then(|it| it.typed.clone()).as_deref(), Some("A. Reed"));
}

#[test]
fn what_is_missing_to_open_a_class_is_said() {
    let mut bench = tutor("tutor-opens");
    bench.click("tutor:open");
    assert!(bench.says("No class was opened here yet."), "{:?}", bench.texts());
    bench.click("tutor:go");
    assert!(bench.window.said().contains("Say where the assignment file is"), "{}", bench.window.said());
    let none = bench.folder.join("none.ron").display().to_string();
    bench.types("tutor:assignment", &format!("  \"{none}\" "));
    let folder = bench.folder.display().to_string();
    bench.types("tutor:handed-in", &folder);
    bench.click("tutor:go");
    until(&mut bench, "the reason", |it| it.window.said().contains("none.ron can't be read"));
    assert_eq!(bench.window.screen(), Screen::Tutor);
    // Nobody who opens a class by mistake leaves a register behind.
    assert!(!bench.folder.join("register.db").exists());
}

/// 12 px and 24 points, as everywhere; and nothing leaves its part of the screen at the largest text size.
#[test]
fn what_is_written_and_touched_on_the_tutors_side_is_large_enough() {
    let mut bench = tutor("tutor-large");
    let looks = |bench: &mut Bench, at: &str| {
        for (text, size) in bench.texts() {
            assert!(size >= 12.0, "{at}: {text} at {size}");
        }
        for it in bench.window.targets().0.iter().filter(|it| it.visible) {
            assert!(it.rect.height() >= 23.5 && it.rect.width() >= 23.5, "{at}: {it:?}");
            assert!(it.rect.left() >= 0.0 && it.rect.right() <= bench.size.x, "{at}: {it:?}");
        }
    };
    looks(&mut bench, "setting");
    fills_in(&mut bench);
    bench.click("tutor:preview");
    looks(&mut bench, "preview");
    bench.click("tutor:write");
    looks(&mut bench, "written");
    hand_in(&bench);
    bench.click("tutor:open-this");
    until(&mut bench, "the class", |it| it.window.screen() == Screen::Class);
    looks(&mut bench, "class");
    bench.click("decide:7:wire-a-switch");
    looks(&mut bench, "decision");
    bench.click("class:release");
    looks(&mut bench, "release");
    bench.click("leave");
    bench.click("tutor:open");
    looks(&mut bench, "opening");
}
