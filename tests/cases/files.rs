//! Edited, forged and stalling files.

use std::fs;

use serde_json::{Value, json};
use switchdrop::{
    attempt::{Format, open},
    exercise::ProblemCode,
    work::Action,
};

use super::path;
use crate::{
    bench::{Bench, Run, attempt_lines, sealed},
    hand::exercise,
};

/// Marks a case by the real program.
fn marked(name: &str, options: &[&str]) -> Run {
    let bench = Bench::new();
    bench.file("case", fs::read(path(name)).expect("a case"));
    bench.run(&[&["mark"], options, &["case"]].concat())
}

/// The first line says one exercise and the second holds another: nobody passes under the other's name.
#[test]
fn an_attempt_that_names_another_exercise_than_its_own_is_refused_and_both_are_named() {
    let name = "forged-header-scenario-other";
    let run = marked(name, &["--json"]);
    assert_eq!((run.out.as_str(), run.code), ("", Some(1)));
    assert!(run.err.contains("case:1:30"), "file, line and column: {}", run.err);
    let sentence =
        "the first line says that this is an attempt at `one-way-tested`, but the exercise in it is `two-way-stairs`";
    assert!(run.err.contains(sentence), "{}", run.err);
    let text = fs::read_to_string(path(name)).expect("a case");
    let problem = open(&text).expect_err("an error")[0].clone();
    assert_eq!((problem.code, &text[problem.span]), (ProblemCode::OtherScenario, "\"one-way-tested\""));
}

/// A sound file before it, of the same exercise, does not make it any better.
#[test]
fn what_was_read_before_does_not_hide_another_name() {
    let bench = Bench::new();
    let drawn = exercise("one-way-rose", 4);
    let mut lines = attempt_lines(Format::Two, &drawn, &[Action::HandIn]);
    bench.file("sound", sealed(Format::Two, &lines));
    lines[0] = lines[0].replace("one-way-rose", "one-way-tested");
    bench.file("forged", sealed(Format::Two, &lines));
    let run = bench.run(&["mark", "--json", "sound", "forged", "sound"]);
    assert_eq!((run.out.lines().count(), run.code), (2, Some(1)), "{}", run.err);
    assert!(run.err.contains("forged:1:"), "{}", run.err);
}

/// Its exercise was given a name that nobody knows, with everything in it done beforehand: marked, and said three times over.
#[test]
fn an_exercise_unknown_here_is_said_on_the_sheet_in_json_and_beside_the_answers() {
    let name = "forged-ex-all-done-newid";
    let text = fs::read_to_string(path(name)).expect("a case").replacen(
        "scenario:\"two-way-stairs\"",
        "scenario:\"two-way-stairs-b\"",
        1,
    );
    let bench = Bench::new();
    bench.file("case", text);
    let run = bench.run(&["mark", "--json", "case"]);
    assert!(run.err.starts_with("notice: case: no scenario of this exercise's id is at hand"), "{}", run.err);
    let sheet: Value = serde_json::from_str(&run.out).expect("JSON");
    assert_eq!((&sheet["exercise_is"], &sheet["differs"]), (&json!("unknown"), &json!(false)));
    assert!(sheet["notices"].as_array().expect("a list").contains(&json!("exercise-unknown")), "{sheet}");
    let words = "No scenario of this exercise is at hand";
    assert!(bench.run(&["mark", "case"]).out.contains(words));
    bench.run(&["mark", "--html", "page", "case"]);
    assert!(bench.read("page").contains(words));
}

/// As it stands its first line names the exercise that was shipped, and its second another: an error already.
#[test]
fn an_exercise_renamed_in_its_own_line_alone_is_refused() {
    let run = marked("forged-ex-all-done-newid", &["--json"]);
    assert_eq!((run.out.as_str(), run.code), ("", Some(1)));
    assert!(run.err.contains("`two-way-stairs`") && run.err.contains("`two-way-stairs-b`"), "{}", run.err);
}

/// Times that no clock gave: the marks stand, and whoever signs is told.
#[test]
fn times_that_no_clock_gave_are_told() {
    for (name, word, words) in [
        ("forged-ms-backwards", "times-backwards", "the times in it run backwards"),
        ("forged-ms-all-zero", "times-alike", "the times in it are all alike"),
    ] {
        let run = marked(name, &["--json"]);
        assert_eq!(run.code, Some(0), "{name}: {}", run.err);
        assert!(run.err.contains(words), "{name}: {}", run.err);
        let sheet: Value = serde_json::from_str(&run.out).expect("JSON");
        assert!(sheet["notices"].as_array().expect("a list").contains(&json!(word)), "{name}: {sheet}");
        let said = marked(name, &[]).out;
        assert!(said.contains(&words.replace("it", "this attempt").replace("the times", "The times")), "{said}");
    }
}

/// Twenty actions within a second are told, twenty in just over one are not; each opening has a clock of its own.
#[test]
fn work_quicker_than_a_hand_is_told_and_no_other() {
    let told = |times: &[u64], reopened: bool| {
        let bench = Bench::new();
        let drawn = exercise("one-way-rose", 4);
        let mut lines = attempt_lines(Format::Two, &drawn, &[]);
        for (number, ms) in times.iter().enumerate() {
            let action = if number % 2 == 0 { "RemoveLamp" } else { "FitLamp" };
            lines.push(format!("Did(ms:{ms},action:{action}(lamp:\"{}\"))", drawn.lamps.rows()[0].address));
        }
        if reopened {
            lines.push("Opened(at:\"2026-03-02T10:00:00Z\")".to_owned());
            lines.push(format!("Did(ms:0,action:RemoveCover(location:\"{}\"))", drawn.locations.rows()[1].id));
        }
        bench.file("a", sealed(Format::Two, &lines));
        let run = bench.run(&["mark", "--json", "--unfinished", "a"]);
        let sheet: Value = serde_json::from_str(&run.out).unwrap_or_else(|it| panic!("{it}: {}", run.err));
        let mut notices = sheet["notices"].as_array().expect("a list").clone();
        notices.retain(|it| it != "unfinished");
        json!(notices)
    };
    let every = |ms: u64, count: u64| (0..count).map(|it| it * ms).collect::<Vec<_>>();
    assert_eq!(told(&every(52, 20), false), json!(["times-too-quick"]));
    assert_eq!(told(&every(53, 20), false), json!([]));
    assert_eq!(told(&every(52, 18), false), json!([]));
    assert_eq!(told(&[5; 8], false), json!(["times-alike"]));
    assert_eq!(told(&[5; 6], false), json!([]));
    assert_eq!(told(&every(1000, 20), true), json!([]), "a new clock");
}

/// The same bytes for a file alone and among others, and when a fault arose in both.
#[test]
fn a_sheet_is_the_same_alone_and_among_many() {
    let bench = Bench::new();
    let names = ["r1-52", "house-swap", "assessor-30-blank", "neut"];
    for name in names {
        bench.file(name, fs::read(path(name)).expect("a case"));
    }
    for option in [&["--json"][..], &[]] {
        let alone: Vec<String> = names.iter().map(|it| bench.run(&[&["mark"], option, &[it]].concat()).out).collect();
        let many = bench.run(&[&["mark"], option, &names].concat()).out;
        let between = if option.is_empty() { "\n" } else { "" };
        assert_eq!(many, alone.join(between));
    }
    let many = bench.run(&["mark", "--json", "r1-52", "house-swap"]).out;
    for line in many.lines() {
        let sheet: Value = serde_json::from_str(line).expect("JSON");
        let arose = sheet["findings"].as_array().expect("a list").iter().filter(|it| it["arose"]["action"].is_u64());
        assert!(arose.count() > 0, "{sheet}");
    }
}
