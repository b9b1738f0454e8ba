//! `mark --brief`: one line a learner, and nothing that the sheet would withhold.

use switchdrop::{attempt::Format, work::Action};

use crate::{
    bench::{Bench, attempt_lines, sealed},
    hand::{exercise, one_way_model, two_way_model},
};

/// An attempt of another learner's.
fn by(learner: &str, id: &str, actions: &[Action]) -> String {
    let mut lines = attempt_lines(Format::Two, &exercise(id, 4), actions);
    lines[0] = lines[0].replace("Robin Hale", learner);
    sealed(Format::Two, &lines)
}

/// The model without one tightening: a screw is loose, and that is the cause to name.
fn with_a_loose_screw() -> Vec<Action> {
    let loose = Action::Tighten { terminal: "rose.loop".to_owned(), feel: switchdrop::work::Feel::Right };
    let log = one_way_model().attempt.log().to_vec();
    assert!(log.contains(&loose), "the model tightens it");
    log.into_iter().filter(|it| *it != loose).collect()
}

#[test]
fn a_class_is_one_line_a_learner_in_columns() {
    let bench = Bench::new();
    bench.file("1.ron", by("Zoë", "two-way-passage", two_way_model().attempt.log()));
    bench.file("2.ron", by("Bob Carter", "one-way-rose", &with_a_loose_screw()));
    let run = bench.run(&["mark", "--brief", "1.ron", "gone.ron", "2.ron"]);
    assert_eq!(
        (run.err.as_str(), run.code),
        ("error: gone.ron can't be read: there is no such file or folder\n", Some(1))
    );
    let [first, second] = run.out.lines().collect::<Vec<_>>()[..] else { panic!("{}", run.out) };
    assert!(first.starts_with("Zoë         two-way-passage  Pass     100/100  "), "{}", run.out);
    assert!(first.ends_with("  1.ron") && second.ends_with("  2.ron"), "{}", run.out);
    // In words, as the sheet has the first cause.
    let sheet = bench.run(&["mark", "--json", "2.ron"]).out;
    let sheet: serde_json::Value = serde_json::from_str(&sheet).expect("JSON");
    let start = format!("Bob Carter  one-way-rose     Not yet  {}/100", sheet["marks"]);
    assert!(second.starts_with(&start), "{}", run.out);
    assert_eq!(sheet["findings"][0]["code"], "connection-slack");
    assert!(second.contains("  The screw is loose: scullery rose, loop.  "), "{second}");
    assert_eq!(first.chars().count(), second.chars().count(), "{}", run.out);
}

#[test]
fn what_is_not_handed_in_has_no_line_unless_it_is_asked_for() {
    let bench = Bench::new();
    let mut log = with_a_loose_screw();
    log.pop();
    bench.file("open.ron", by("Bob Carter", "one-way-rose", &log));
    let run = bench.run(&["mark", "--brief", "open.ron"]);
    assert_eq!((run.out.as_str(), run.code), ("", Some(1)));
    assert!(run.err.starts_with("error: open.ron is set work that is not handed in"), "{}", run.err);
    let run = bench.run(&["mark", "--brief", "--unfinished", "open.ron"]);
    assert!(run.out.starts_with("Bob Carter  one-way-rose  Not yet  ") && run.out.lines().count() == 1, "{}", run.out);
    assert!(run.err.starts_with("notice: open.ron is set work that is not handed in"), "{}", run.err);
    for other in [&["--json"][..], &["--html", "page"]] {
        assert_eq!(bench.run(&[&["mark", "--brief", "open.ron"], other].concat()).code, Some(2), "{other:?}");
    }
}
