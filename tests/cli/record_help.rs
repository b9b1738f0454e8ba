//! `record` helps whoever types: asked for, and after a line that is no action.

use crate::bench::{Bench, Run};

const BEGIN: [&str; 8] = ["record", "a", "--exercise", "one-way-rose", "--seed", "4", "--learner", "R"];

/// What is said to these lines, and that nothing of them is kept.
fn said(lines: &str) -> Run {
    let bench = Bench::new();
    let run = bench.run_with(&BEGIN, lines);
    assert_eq!(bench.read("a").lines().count(), 2, "nothing is kept of it: {}", run.out);
    run
}

#[test]
fn help_is_three_lines_and_names_every_place() {
    for asked in ["help\n", "?\n", " Help \r\n", "help"] {
        said(asked).says(
            "Write one action a line, as the exercise's model has it after `action:` (`exercises/one-way-rose/model.attempt.ron`), \
             for example `RemoveCover(location: \"rose\")`.\n\
             The places here: `board` (board), `rose` (scullery rose), `lamp` (scullery light), `switch` (scullery switch), \
             `larder-rose` (larder rose), `larder-lamp` (larder light), `larder-switch` (larder switch).\n\
             `help PLACE` names the terminals at one of them, and the ends of conductors: `help rose`.\n",
        );
    }
}

#[test]
fn help_about_a_place_names_what_is_there() {
    said("help switch\n? \"switch\"\n").says(
        &"terminals at `switch`: `switch.COM`, `switch.L1`, `switch.box.earth`, `switch.connector.1`\n\
          ends of conductors at `switch`: `drop/brown@switch`, `drop/blue@switch`, `drop/cpc@switch`\n"
            .repeat(2),
    );
    let run = said("help kitchen\n");
    assert!(run.out.starts_with("there is no location `kitchen`; there are `board` (board), `rose` ("), "{}", run.out);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
}

/// A slip names the nearest action, or how the one that was meant is written; never all there are.
#[test]
fn a_slip_names_what_was_meant() {
    for (typed, says, help, notice) in [
        (
            "PowerOf(device: \"board.1\")",
            "there is no action `PowerOf`",
            "PowerOff",
            "`help` says how actions are written",
        ),
        (
            "removecover(location: \"rose\")",
            "there is no action `removecover`",
            "RemoveCover",
            "`help` says how actions",
        ),
        ("power off", "there is no action `power`", "PowerOff", "`help` says how actions are written"),
        ("tighten rose.loop", "there is no action `tighten`", "Tighten", "`help` says how actions are written"),
        ("qqq", "there is no action `qqq`", "", "`help` says how actions are written"),
        ("PowerOff", "this is not written as", "", "this action is written `PowerOff(device: …)`; `help` says more"),
        (
            "Connect(end: \"x\")",
            "terminal",
            "",
            "this action is written `Connect(end: …, terminal: …)`; `help` says more",
        ),
        ("Agree(1)", "this is not written as", "", "this action is written `Agree`; `help` says more"),
        (
            "Mark(end: \"x\", mark: M)",
            "`M` is not a known kind of mark; expected: Sleeve, Tape, Letter",
            "",
            "this action is written `Mark(end: …, mark: …)`; `help` says",
        ),
        ("12", "this is not written as", "", "`help` says how actions are written"),
    ] {
        let run = said(typed);
        assert_eq!((run.out.as_str(), run.code), ("", Some(1)), "{typed}");
        assert!(run.err.starts_with("error: ") && run.err.contains(says), "{typed}: {says}\n{}", run.err);
        assert_eq!(run.err.contains("did you mean"), !help.is_empty(), "{typed}\n{}", run.err);
        assert!(run.err.contains(&format!("did you mean `{help}`?")) || help.is_empty(), "{typed}\n{}", run.err);
        assert!(run.err.contains(&format!("\nnotice: {notice}")), "{typed}: {notice}\n{}", run.err);
        assert!(!run.err.contains("`LockIncomer`") && run.err.len() < 600, "{typed}: no list of all\n{}", run.err);
    }
}

/// What the work does not allow is an answer like any other.
#[test]
fn a_refused_act_is_no_error() {
    let run = said("Tighten(terminal: \"rose.loop\")\n");
    assert!(run.out.starts_with("refused: "), "{}", run.out);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
}
