//! Answers of set work before their time: findings, marks, hints, lamp tables, drawings. Withheld by every way to them, and shown to
//! whoever asks for them by name.

use std::sync::Arc;

use jiff::Timestamp;
use switchdrop::{
    attempt::{AnswersFrom, Assigned, Attempt, Format, Mode, sha256},
    exercise::{Seed, read},
    marking::{Answers, Until, answers, may_hint},
    report::receipt_code,
    work::Action,
};

use crate::{
    bench::{Bench, attempt_lines, attempt_text, script, sealed},
    hand::{exercise, one_way_model},
};

/// The model without its hand-in.
fn unfinished() -> Vec<Action> {
    let mut log = one_way_model().attempt.log().to_vec();
    assert_eq!(log.pop(), Some(Action::HandIn));
    log
}

#[test]
fn every_way_to_an_answer_is_shut_until_the_hand_in() {
    let bench = Bench::new();
    bench.file("a", attempt_text(&exercise("one-way-rose", 4), &unfinished()));
    let withheld = "error: a is set work that is not handed in: findings, marks, lamp tables and drawings are withheld until then; \
                    `--unfinished` shows them. If the learner says that it was handed in, its end may have been cut off on the way: ask for it \
                    again\n";
    let ways: [&[&str]; 7] = [
        &["mark", "a"],
        &["mark", "--json", "a"],
        &["mark", "--html", "page", "a"],
        &["states", "a"],
        &["states", "--json", "--at", "0,0", "a"],
        &["states", "--spice", "deck", "a"],
        &["picture", "a", "-o", "drawing"],
    ];
    for way in ways {
        bench.run(way).complains(withheld);
    }
    assert_eq!(bench.names(), ["a"], "nothing was written");
    let early =
        "notice: a is set work that is not handed in: its answers are shown before their time, because you asked\n";
    for way in ways {
        let run = bench.run(&[way, &["--unfinished"]].concat());
        assert_eq!((run.err.as_str(), run.code), (early, Some(0)), "{way:?}");
    }
    assert_eq!(bench.names(), ["a", "deck", "drawing", "page"]);
    let words =
        "Shown before the hand-in: this is set work that is not finished, and nothing on this sheet counts yet.";
    assert!(bench.read("page").contains(words));
    let sheet = bench.run(&["mark", "a", "--unfinished"]).out;
    assert!(sheet.split_whitespace().collect::<Vec<_>>().join(" ").contains(words), "{sheet}");
    let sheet: serde_json::Value =
        serde_json::from_str(&bench.run(&["mark", "--json", "--unfinished", "a"]).out).unwrap();
    assert_eq!(sheet["notices"], serde_json::json!(["unfinished"]));
}

/// One that is withheld stands in nobody's way.
#[test]
fn the_others_are_still_answered() {
    let bench = Bench::new();
    bench.file("a", attempt_text(&exercise("one-way-rose", 4), &unfinished()));
    bench.file("b", attempt_text(&exercise("one-way-rose", 4), one_way_model().attempt.log()));
    let run = bench.run(&["mark", "--json", "a", "b"]);
    assert_eq!((run.out.lines().count(), run.code), (1, Some(1)));
    assert!(run.out.contains("\"notices\":[]"), "{}", run.out);
}

#[test]
fn free_practice_keeps_nothing_back() {
    let bench = Bench::new();
    let mut lines = attempt_lines(Format::Two, &exercise("one-way-rose", 4), &unfinished());
    lines[0] = lines[0].replace("mode:Set", "mode:Practice");
    bench.file("a", sealed(Format::Two, &lines));
    for way in [&["mark", "a"][..], &["states", "a"], &["picture", "a", "-o", "drawing"]] {
        let run = bench.run(way);
        assert_eq!((run.err.as_str(), run.code), ("", Some(0)), "{way:?}");
    }
}

#[test]
fn one_function_decides() {
    let (open, done) = (Attempt::new(exercise("one-way-rose", 4)), one_way_model().attempt);
    for (attempt, mode, asked, right) in [
        (&open, Mode::Set, false, Answers::Withheld(Until::HandIn)),
        (&open, Mode::Set, true, Answers::ShownEarly(Until::HandIn)),
        (&open, Mode::Practice, false, Answers::Shown),
        (&open, Mode::Practice, true, Answers::Shown),
        (&done, Mode::Set, false, Answers::Shown),
        (&done, Mode::Set, true, Answers::Shown),
    ] {
        assert_eq!(answers(attempt, mode, None, None, asked), right, "{mode:?} {asked}");
    }
}

/// Set work by an assignment, `from` being when its answers are for the learner.
fn assigned(from: AnswersFrom) -> Assigned {
    let (assignment, sha256) = ("autumn".to_owned(), "0".repeat(64));
    Assigned { assignment, sha256, learner: 7, nth: 1, code: String::new(), answers: from }
}

/// A quarter to and a quarter past six in London's winter are 17:45 and 18:15 UTC; the time that was set has an offset of its own.
#[test]
fn an_assignment_may_keep_answers_for_longer_than_the_hand_in() {
    let (open, done) = (Attempt::new(exercise("one-way-rose", 4)), one_way_model().attempt);
    let six = "2026-11-06T19:00:00+01:00".to_owned();
    let at = |written: &str| Some(written.parse::<Timestamp>().unwrap());
    let (before, then, after) = (at("2026-11-06T17:45:00Z"), at("2026-11-06T18:00:00Z"), at("2026-11-06T18:15:00Z"));
    let until_six = || Answers::Withheld(Until::Time(six.clone()));
    let (at_once, by_time) = (assigned(AnswersFrom::HandIn), assigned(AnswersFrom::Time(six.clone())));
    let released = assigned(AnswersFrom::Release);
    for (of, now, right) in [
        (&at_once, before, Answers::Shown),
        (&by_time, None, until_six()),
        (&by_time, before, until_six()),
        (&by_time, then, Answers::Shown),
        (&by_time, after, Answers::Shown),
        (&released, after, Answers::Withheld(Until::Release)),
    ] {
        assert_eq!(answers(&done, Mode::Set, Some(of), now, false), right, "{of:?} {now:?}");
        // Before the hand-in it is that which is waited for, whatever the time.
        let first = Answers::Withheld(Until::HandIn);
        assert_eq!(answers(&open, Mode::Set, Some(of), now, false), first, "{of:?} {now:?}");
        let asked = answers(&done, Mode::Set, Some(of), now, true);
        assert_eq!(matches!(asked, Answers::ShownEarly(_)), right != Answers::Shown, "{asked:?}");
    }
}

/// The first line of an attempt with `assigned` in it.
fn with_assigned(from: &str) -> String {
    let mut lines = attempt_lines(Format::Two, &exercise("one-way-rose", 4), one_way_model().attempt.log());
    let assigned = format!("Some((assignment:\"autumn\",sha256:\"{}\",learner:7,try:1{from}))", "0".repeat(64));
    lines[0] = lines[0].replace("mode:Set", &format!("mode:Set,assigned:{assigned}"));
    sealed(Format::Two, &lines)
}

#[test]
fn every_way_to_an_answer_stays_shut_after_the_hand_in_for_as_long_as_the_assignment_says() {
    let bench = Bench::new();
    let ways: [&[&str]; 7] = [
        &["mark"],
        &["mark", "--json"],
        &["mark", "--html", "page"],
        &["states"],
        &["states", "--json", "--at", "0,0"],
        &["states", "--spice", "deck"],
        &["picture", "-o", "drawing"],
    ];
    for (file, from, end) in [
        ("released", ",answers:Release", "the tutor releases them"),
        ("due", ",answers:Time(\"2999-11-06T17:00:00+00:00\")", "Wednesday 6 November 2999, 17:00 (UTC)"),
    ] {
        let text = with_assigned(from);
        let code = receipt_code(&sha256(text.as_bytes()));
        bench.file(file, &text);
        for way in ways {
            bench.run(&[way, &[file]].concat()).complains(&format!(
                "error: {file} is set work that is handed in: findings, marks, lamp tables and drawings are withheld until {end}; \
                 `--unfinished` shows them before that. Its receipt code is {code}\n"
            ));
        }
    }
    assert_eq!(bench.names(), ["due", "released"], "nothing was written");
    for way in ways {
        let run = bench.run(&[way, &["--unfinished", "due"]].concat());
        let early = "notice: due is set work whose answers are not for the learner yet: they are shown before their time, because you \
                     asked\n";
        assert_eq!((run.err.as_str(), run.code), (early, Some(0)), "{way:?}");
    }
    let words = "Shown before its time: this is set work, and its marks and findings are not for the learner yet.";
    assert!(bench.read("page").contains(words));
    // A time that has come, and a file from before this was kept: nothing is withheld.
    for (file, from) in [("past", ",answers:Time(\"2020-11-06T17:00:00+00:00\")"), ("before", "")] {
        bench.file(file, with_assigned(from));
        for way in ways {
            let run = bench.run(&[way, &[file]].concat());
            assert_eq!((run.err.as_str(), run.code), ("", Some(0)), "{file} {way:?}");
        }
    }
    // What is no time is no attempt.
    bench.file("never", with_assigned(",answers:Time(\"some day\")"));
    assert_eq!(bench.run(&["mark", "--unfinished", "never"]).code, Some(1));
}

/// Refused in set work and not written down; answered in practice, and where the exercise allows it or gives marks for doing without.
#[test]
fn a_hint_in_set_work_is_the_exercises_to_allow() {
    let text = exercise("one-way-rose", 4).text().to_owned();
    let allowed = |text: &str, mode| may_hint(&Arc::new(read(text, Seed(4)).unwrap()), mode);
    let free = text.replacen("stages:", "hints:true,stages:", 1);
    let dear = text.replace("prediction:5)", "prediction:5,hints:8)");
    assert!(free != text && dear != text);
    for (text, in_set_work) in [(&text, false), (&free, true), (&dear, true)] {
        assert_eq!((allowed(text, Mode::Set), allowed(text, Mode::Practice)), (in_set_work, true));
    }
    let bench = Bench::new();
    let begin = |file: &str, more: &[&str]| {
        let start = ["record", file, "--exercise", "one-way-rose", "--seed", "4", "--learner", "R"];
        bench.run_with(&[&start, more].concat(), script(&[Action::Hint]))
    };
    let set = begin("set", &[]);
    assert!(set.out.contains("this exercise gives no hints in set work"), "{}", set.out);
    assert!(!bench.read("set").contains("Hint"));
    let practice = begin("practice", &["--practice"]);
    assert!(practice.out.contains("Nothing is wrong in the wiring that you have done so far"), "{}", practice.out);
    assert!(bench.read("practice").contains("Hint"));
}

/// Hints in attempts of before were asked for when nothing stopped them: they replay.
#[test]
fn hints_in_a_file_replay_whatever_the_exercise_says() {
    let log = [Action::Hint, Action::HandIn];
    let attempt = Attempt::replay(exercise("one-way-rose", 4), log).unwrap();
    assert_eq!(attempt.tally().hints.len(), 1);
}
