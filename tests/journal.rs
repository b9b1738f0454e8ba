//! The attempt file on disk: killed programs, torn lines, two openers, a full file.

use std::{
    io::{BufRead, BufReader, Read, Write},
    thread::sleep,
    time::{Duration, Instant},
};

use switchdrop::{
    attempt::{Format, Line, open},
    exercise::{Limits, Seed, Stream},
    work::Action,
};

use crate::{
    bench::{Bench, attempt_in, attempt_text, script},
    hand::{exercise, two_way_model},
};

const START: [&str; 7] =
    ["record", "a.attempt", "--exercise", "two-way-passage", "--seed", "4", "--learner=Robin Hale"];

/// Actions in the file.
fn recorded(bench: &Bench) -> usize {
    let opened = open(&bench.read("a.attempt")).expect("an attempt");
    assert!(opened.replay().is_ok(), "it replays");
    opened.lines.iter().filter(|it| matches!(it.1, Line::Did { .. })).count()
}

/// Killed at random moments, the file still opens, with everything that was answered and at most one action more, which
/// was written down and not yet answered.
#[test]
fn fifty_kills_lose_nothing_that_was_answered() {
    const ROUNDS: usize = 50;
    const BURST: usize = 300;
    let bench = Bench::new();
    let start = bench.run(&START);
    assert_eq!(start.code, Some(0), "{}", start.err);
    let mut chance = Stream::new(1, "journal", Seed(1), "moments of the kill");
    let (mut before, mut while_it_worked) = (0, 0);
    for round in 0..ROUNDS {
        let mut child = bench.spawn(&["record", "a.attempt"]);
        let mut input = child.stdin.take().expect("standard input");
        let mut answers = BufReader::new(child.stdout.take().expect("standard output"));
        let mut answered = 0;
        // A few actions one by one, so that it is at work; then many at once, and the kill somewhere among them.
        for _ in 0..=chance.below(12) {
            let mut line = String::new();
            input.write_all(b"Agree\n").expect("it listens");
            answers.read_line(&mut line).expect("an answer");
            assert_eq!(line, "done\n");
            answered += 1;
        }
        let one_by_one = answered;
        input.write_all("Agree\nProveIndicator\n".repeat(BURST / 2).as_bytes()).expect("it listens");
        // Once the first of the many is answered it is surely among them, however slow the machine.
        answers.read_line(&mut String::new()).expect("an answer");
        answered += 1;
        sleep(Duration::from_micros(u64::from(chance.below(1000))));
        child.kill().expect("it can be killed");
        child.wait().expect("it ends");
        let mut rest = String::new();
        answers.read_to_string(&mut rest).expect("what it still said");
        answered += rest.matches('\n').count();
        let after = recorded(&bench);
        let new = after - before;
        assert!(new == answered || new == answered + 1, "round {round}: {answered} answered, {new} recorded");
        while_it_worked += usize::from(new > one_by_one && new < one_by_one + BURST);
        before = after;
    }
    // Not a measure of speed: with none at all the kills would have shown nothing.
    assert!(while_it_worked > 0, "no kill came while it worked");
    assert!(bench.run_with(&["record", "a.attempt"], "HandIn\n").out.starts_with("done; receipt"));
}

/// Whatever a kill left of a last line is cut off with a notice, even in the middle of a letter, and the rest goes on.
#[test]
fn an_unfinished_last_line_is_cut_off_with_a_notice() {
    for torn in ["D".as_bytes(), b"Did(ms:0,action:Agree)", b"Did(ms:0,action:Unmark(end:\"\xc3"] {
        let bench = Bench::new();
        let whole = attempt_text(&exercise("two-way-passage", 4), &[Action::Agree]);
        bench.file("a.attempt", [whole.as_bytes(), torn].concat());
        let run = bench.run_with(&["record", "a.attempt"], "ProveIndicator\n");
        assert_eq!((run.out.as_str(), run.code), ("done\n", Some(0)));
        let notice =
            format!("notice: the last line of a.attempt was never finished and is gone ({} bytes)\n", torn.len());
        assert_eq!(run.err, notice);
        let lines: Vec<_> =
            open(&bench.read("a.attempt")).expect("an attempt").lines.into_iter().map(|it| it.1).collect();
        assert!(
            matches!(
                lines.as_slice(),
                [
                    Line::Did { action: Action::Agree, .. },
                    Line::Opened { .. },
                    Line::Did { action: Action::ProveIndicator, .. }
                ]
            ),
            "{lines:?}"
        );
    }
}

/// An editor may have put its mark before the text: it is read all the same, and nothing of the rest is cut off for it.
#[test]
fn a_byte_order_mark_is_no_fault() {
    let bench = Bench::new();
    let text = attempt_text(&exercise("two-way-passage", 4), &[Action::Agree]);
    bench.file("a.attempt", [b"\xef\xbb\xbf", text.as_bytes(), b"Did(ms"].concat());
    bench.run_with(&["record", "a.attempt"], "ProveIndicator\n");
    let kept = bench.read("a.attempt");
    let kept = kept.strip_prefix('\u{feff}').expect("the mark stays");
    let lines = open(kept).expect("an attempt").lines;
    assert!(kept.starts_with(&text) && lines.len() == 3, "{lines:?}");
    let run = bench.run(&["mark", "--json", "--unfinished", "a.attempt"]);
    assert_eq!((run.err.lines().count(), run.code), (1, Some(0)), "no more than that it is unfinished: {}", run.err);
    let scenario = format!("\u{feff}{}", crate::hand::scenario("one-way-rose"));
    bench.file("one-way-rose/scenario.ron", scenario);
    assert_eq!(bench.run(&["check", "one-way-rose/scenario.ron"]).code, Some(0));
}

/// Reading alone cuts nothing off.
#[test]
fn marking_leaves_an_unfinished_line_where_it_is() {
    let bench = Bench::new();
    let text = attempt_text(&exercise("two-way-passage", 4), &[Action::Agree, Action::HandIn]) + "Did(ms";
    bench.file("a.attempt", &text);
    let run = bench.run(&["mark", "--json", "a.attempt"]);
    assert_eq!(
        run.err,
        "notice: the last line of a.attempt is only half there and does not count (6 bytes): the file may have been cut off \
         on the way; ask for it again\n"
    );
    assert_eq!((run.code, bench.read("a.attempt")), (Some(0), text));
}

#[test]
fn a_file_with_anything_wrong_in_it_stays_as_it_is() {
    let bench = Bench::new();
    let text = attempt_text(&exercise("two-way-passage", 4), &[Action::Undo]) + "Did(ms";
    bench.file("a.attempt", &text);
    let run = bench.run_with(&["record", "a.attempt"], "Agree\n");
    assert_eq!((run.out.as_str(), run.code), ("", Some(1)));
    assert!(run.err.contains("there is nothing to take back"), "{}", run.err);
    assert_eq!(bench.read("a.attempt"), text);
}

#[test]
fn a_new_attempt_is_never_written_over_what_is_there() {
    let bench = Bench::new();
    bench.file("a.attempt", "something else");
    let sentence = "error: a.attempt is there already and stays as it is; leave `--exercise` out to go on with it\n";
    bench.run(&START).complains(sentence);
    assert_eq!(bench.read("a.attempt"), "something else");
}

#[test]
fn a_second_opener_only_reads() {
    let bench = Bench::new();
    let mut first = bench.spawn(&START);
    let mut input = first.stdin.take().expect("standard input");
    input.write_all(b"Agree\n").expect("it listens");
    let mut answer = String::new();
    let mut answers = BufReader::new(first.stdout.take().expect("standard output"));
    answers.read_line(&mut answer).expect("an answer");
    assert_eq!(answer, "done\n");
    let before = bench.read("a.attempt");
    bench
        .run_with(&["record", "a.attempt"], "ProveIndicator\n")
        .complains("error: a.attempt is open in another window: it can only be read\n");
    assert_eq!(bench.run(&["mark", "--unfinished", "a.attempt"]).code, Some(0));
    assert_eq!(bench.read("a.attempt"), before);
    drop(input);
    assert!(first.wait().expect("it ends").success());
    bench.run_with(&["record", "a.attempt"], "ProveIndicator\n").says("done\n");
}

/// When no more actions go in, it can still be handed in, and what comes of it can still be read.
#[test]
fn a_full_attempt_can_be_handed_in() {
    let exercise = exercise("one-way-rose", 4);
    let room = |format: Format, more: usize| {
        let length = |count| attempt_in(format, &exercise, &vec![Action::Agree; count]).len();
        // Every line has as many figures of its time as the last from here on.
        let (some, line) = (length(10_001), length(10_002) - length(10_001));
        10_001 + (Limits::ATTEMPT_BYTES - more - some) / line
    };
    for (format, count) in [(Format::One, Limits::ATTEMPT_LINES - 4), (Format::Two, room(Format::Two, 500))] {
        let bench = Bench::new();
        bench.file("a.attempt", attempt_in(format, &exercise, &vec![Action::Agree; count]));
        let run = bench.run_with(&["record", "a.attempt"], "Agree\nHandIn\n");
        assert_eq!(run.err, "error: a.attempt is full: it can only be handed in\n", "{format}");
        assert!(run.out.starts_with("done; receipt ") && run.code == Some(1), "{}", run.out);
        let opened = open(&bench.read("a.attempt")).expect("an attempt");
        assert!(matches!(opened.lines.last(), Some((_, Line::Did { action: Action::HandIn, .. }))));
    }
}

/// The whole of the careful learner's work goes through the program, and comes out as the same actions.
#[test]
fn what_was_recorded_is_what_was_done() {
    let bench = Bench::new();
    let model = two_way_model();
    let begun = Instant::now();
    let run = bench.run_with(&START, script(model.attempt.log()));
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    assert_eq!(run.out.lines().count(), model.attempt.log().len());
    let opened = open(&bench.read("a.attempt")).expect("an attempt");
    let mut actions = Vec::new();
    for (_, line) in opened.lines {
        if let Line::Did { ms, action } = line {
            assert!(Duration::from_millis(ms) <= begun.elapsed());
            actions.push(action);
        }
    }
    assert_eq!(actions, model.attempt.log());
}

/// Killed at any moment while it is being made, an attempt is there with both its first lines or not there at all.
#[test]
fn a_kill_while_it_is_made_leaves_the_whole_of_it_or_nothing() {
    const ROUNDS: u32 = 60;
    let mut chance = Stream::new(1, "journal", Seed(2), "moments of the kill");
    let mut there = 0;
    for round in 0..ROUNDS {
        let bench = Bench::new();
        let mut child = bench.spawn(&START);
        sleep(Duration::from_micros(u64::from(chance.below(6000))));
        child.kill().expect("it can be killed");
        child.wait().expect("it ends");
        if bench.names().contains(&"a.attempt".to_owned()) {
            there += 1;
            let lines = open(&bench.read("a.attempt")).unwrap_or_else(|it| panic!("round {round}: {it:?}")).lines;
            assert!(lines.is_empty());
        } else {
            assert!(bench.names().iter().all(|it| it.starts_with('.')), "{:?}", bench.names());
        }
        // What it may have left of its own is in nobody's way.
        assert_eq!(
            bench
                .run_with(&["record", "b.attempt", "--exercise", "two-way-passage", "--seed", "4", "--learner=A"], "")
                .code,
            Some(0)
        );
    }
    // With none at all the kills would have shown nothing.
    assert!(there < ROUNDS, "no kill came before it was made");
}

/// Deleted, replaced, cut short or written to by something else while it is open: said at the next action, which does not
/// count as done; and nothing more goes into it.
#[test]
fn what_happens_to_the_file_while_it_is_open_is_said() {
    type Deed = fn(&std::path::Path);
    let deeds: [(Deed, &str); 4] = [
        (|path| std::fs::remove_file(path).unwrap(), "a.attempt was deleted or replaced while it was open here"),
        (
            |path| {
                std::fs::write(path.with_extension("other"), "mine").unwrap();
                std::fs::rename(path.with_extension("other"), path).unwrap();
            },
            "a.attempt was deleted or replaced while it was open here",
        ),
        (
            |path| std::fs::File::options().write(true).open(path).unwrap().set_len(100).unwrap(),
            "a.attempt was changed by something else while it was open here (100 bytes, ",
        ),
        (
            |path| std::fs::File::options().append(true).open(path).unwrap().write_all(b"mine\n").unwrap(),
            "a.attempt was changed by something else while it was open here (",
        ),
    ];
    for (deed, says) in deeds {
        let bench = Bench::new();
        let mut child = bench.spawn(&START);
        let mut input = child.stdin.take().expect("standard input");
        let mut answers = BufReader::new(child.stdout.take().expect("standard output"));
        input.write_all(b"Agree\n").expect("it listens");
        let mut answer = String::new();
        answers.read_line(&mut answer).expect("an answer");
        assert_eq!(answer, "done\n");
        deed(&bench.path("a.attempt"));
        let left = std::fs::read(bench.path("a.attempt")).ok();
        input.write_all(b"ProveIndicator\nHandIn\n").expect("it listens");
        drop(input);
        let output = child.wait_with_output().expect("it ends");
        let mut rest = String::new();
        answers.read_to_string(&mut rest).expect("text");
        assert_eq!((rest.as_str(), output.status.code()), ("", Some(1)));
        let err = String::from_utf8_lossy(&output.stderr);
        assert!(err.starts_with(&format!("error: {says}")) && err.lines().count() == 1, "{err}");
        assert_eq!(std::fs::read(bench.path("a.attempt")).ok(), left, "nothing more is written");
    }
}

/// The receipt is what `sha256sum` says of the file; it is the same whenever it is marked, and once it has been given, opening
/// the file again changes nothing in it.
#[test]
fn what_is_handed_in_has_a_receipt() {
    let bench = Bench::new();
    let run = bench.run_with(&START, "Agree\nHandIn\n");
    let text = bench.read("a.attempt");
    let receipt = switchdrop::attempt::sha256(text.as_bytes());
    assert_eq!(
        run.out,
        format!(
            "done\ndone; receipt (SHA-256 of a.attempt): {receipt}, in short {}-{}-{}\n",
            &receipt[..4],
            &receipt[4..8],
            &receipt[8..12]
        )
    );
    bench.run_with(&["record", "a.attempt"], "").says("");
    assert_eq!(bench.read("a.attempt"), text);
    let sheet = |bench: &Bench| -> serde_json::Value {
        serde_json::from_str(&bench.run(&["mark", "--json", "a.attempt"]).out).expect("JSON")
    };
    let it = sheet(&bench);
    assert_eq!((&it["receipt"], &it["sha256"]), (&receipt.as_str().into(), &receipt.as_str().into()));
    assert!(bench.run(&["mark", "a.attempt"]).out.contains(&receipt));
    bench.run(&["mark", "--html", "a.html", "a.attempt"]);
    assert!(bench.read("a.html").contains(&receipt));
    // What comes after it changes the file and not the receipt.
    let later = [b"\xef\xbb\xbf", text.as_bytes(), b"Op"].concat();
    bench.file("a.attempt", &later);
    let it = sheet(&bench);
    let marked = [b"\xef\xbb\xbf", text.as_bytes()].concat();
    assert_eq!(it["receipt"], switchdrop::attempt::sha256(&marked), "an editor's mark is in the file");
    assert_eq!(it["sha256"], switchdrop::attempt::sha256(&later));
    bench.file("a.attempt", text.replace("Did(ms:", "Did(ms:0"));
    assert_eq!(bench.run(&["mark", "a.attempt"]).code, Some(1), "an edited file is no attempt");
}

/// Gone on with in its own format; and a chain that was broken off in a torn line goes on from the last whole one.
#[test]
fn an_attempt_goes_on_in_its_own_format() {
    for format in Format::ALL {
        let bench = Bench::new();
        let whole = attempt_in(format, &exercise("two-way-passage", 4), &[Action::Agree]);
        bench.file("a.attempt", whole.clone() + "Did(ms:5,action:Agr");
        for _ in 0..2 {
            assert_eq!(bench.run_with(&["record", "a.attempt"], "ProveIndicator\n").out, "done\n");
        }
        let text = bench.read("a.attempt");
        let opened = open(&text).expect("an attempt");
        assert_eq!((opened.header.format, opened.lines.len()), (format, 5));
        assert_eq!(text.lines().all(|it| it.contains(",sum:\"")), format == Format::Two, "{text}");
        assert_eq!(text.contains(",sum:\""), format == Format::Two);
        assert!(text.starts_with(&whole));
    }
}
