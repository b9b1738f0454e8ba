//! Files as a tutor gets them: cut off on the way, no attempt at all, a whole folder.

use switchdrop::work::Action;

use crate::{
    bench::{Bench, attempt_text},
    hand::{exercise, one_way_model, scenario},
};

const WITHHELD: &str = "is set work that is not handed in: findings, marks, lamp tables and drawings are withheld until then; \
                        `--unfinished` shows them.";

/// The model, handed in, as it was sent.
fn sent() -> String {
    attempt_text(&exercise("one-way-rose", 4), one_way_model().attempt.log())
}

/// That the last line is half there is a fact of the file: it is said though the answers are withheld, by every way to them.
#[test]
fn half_a_last_line_is_said_though_nothing_else_is() {
    let bench = Bench::new();
    let text = sent();
    bench.file("a.ron", &text[..text.len() - 5]);
    let last = text.lines().last().expect("lines").len() + 1;
    let said = format!(
        "error: a.ron {WITHHELD} The last line of the file is only half there ({} bytes): it may have been cut off on the way; \
         ask for it again\n",
        last - 5
    );
    for way in [&["mark", "a.ron"][..], &["states", "a.ron"], &["picture", "a.ron", "-o", "a.svg"]] {
        bench.run(way).complains(&said);
    }
    let run = bench.run(&["mark", "--unfinished", "a.ron"]);
    assert!(run.err.starts_with("notice: the last line of a.ron is only half there and does not count"), "{}", run.err);
}

/// Without its last lines a file is whole as far as anybody can tell: what may have happened is said.
#[test]
fn a_file_without_its_last_lines_may_have_been_cut() {
    let bench = Bench::new();
    let text = sent();
    let lines: Vec<_> = text.split_inclusive('\n').collect();
    bench.file("a.ron", lines[..lines.len() - 4].concat());
    bench.run(&["mark", "a.ron"]).complains(&format!(
        "error: a.ron {WITHHELD} If the learner says that it was handed in, its end may have been cut off on the way: ask for it \
         again\n"
    ));
}

#[test]
fn what_is_no_attempt_is_said_in_one_plain_sentence() {
    let bench = Bench::new();
    bench.file("page.html", "<!DOCTYPE html>\n<html lang=\"en\"></html>");
    bench.file("bytes", b"\x89PNG\r\n\x1a\n\x00\xff\xd8");
    bench.file("half", "half a li");
    bench.file("blank", "\n");
    bench.file("empty", "");
    for command in ["mark", "states", "record"] {
        for name in ["page.html", "bytes", "half", "blank", "empty"] {
            bench.run(&[command, name]).complains(&format!(
                "error: {name} is not an attempt file, whatever its name: give the file in which the program kept the learner's \
                 work\n"
            ));
        }
        let whole = scenario("one-way-rose");
        let bare = whole[whole.find("Scenario(").expect("a scenario")..].trim_start_matches("Scenario");
        for (name, text) in [("scenario.ron", whole), ("bare.ron", bare), ("short.ron", whole.trim_end())] {
            bench.file(name, text);
            bench.run(&[command, name]).complains(&format!(
                "error: {name} is a scenario and not an attempt file: `check` reads scenarios; give the file in which the \
                 program kept a learner's work\n"
            ));
        }
    }
}

/// An attempt with a letter destroyed is still an attempt.
#[test]
fn an_attempt_that_is_no_longer_text_is_said_by_its_line() {
    let bench = Bench::new();
    let mut bytes = attempt_text(&exercise("one-way-rose", 4), &[Action::Agree, Action::HandIn]).into_bytes();
    let third = bytes.iter().enumerate().filter(|(_, it)| **it == b'\n').nth(1).expect("three lines").0;
    bytes[third + 4] = 0xff;
    bench.file("a.ron", bytes);
    bench.run(&["mark", "a.ron"]).complains(
        "error: a.ron is not text from line 3 on: it was damaged, or saved in another encoding than UTF-8\n",
    );
}

/// The others are marked all the same, and what is said of the folder marks what is in it.
#[test]
fn a_folder_says_how_its_attempts_are_named() {
    let bench = Bench::new();
    bench.file("class/a.ron", sent());
    bench.file("b.ron", sent());
    let run = bench.run(&["mark", "--json", "class/", "b.ron"]);
    let said =
        "error: class/ is a folder and not an attempt file: to mark all the attempts in it, say `mark class/*.ron`\n";
    assert_eq!((run.err.as_str(), run.out.lines().count(), run.code), (said, 1, Some(1)));
}
