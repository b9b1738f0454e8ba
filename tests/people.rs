//! What is kept of one learner, or of a group, by the real program: written out, and erased so that nothing of it is left on the disk.

use std::{fs, path::Path};

use serde_json::Value;
use switchdrop::register::Adjustment;

use crate::{
    bench::{Bench, Run},
    class::{AFTER, Made, class, done, reviewed, right},
};

/// Three learners, decided about and released.
fn three() -> Bench {
    let bench = Bench::new();
    let all = class(&bench, 0);
    for it in [right(&all, 1), Made::of(&all, 2, Adjustment::default(), done(&[0])), right(&all, 3)] {
        bench.file(&it.name(), it.text());
    }
    let review = reviewed(&bench.run(&with("review", &["--json"])));
    for row in [0, 1] {
        let receipt = review["rows"][row]["files"][0]["receipt"].as_str().expect("a receipt");
        let why = format!("a word about learner {}", row + 1);
        let said = bench
            .run(&["decide", "kept.db", receipt, "--as", "tutor", "--by", "A. Reed", "--marks", "91", "--why", &why]);
        assert_eq!(said.code, Some(0), "{}", said.err);
    }
    assert_eq!(bench.run(&with("release", &["--pages", "out", "--by", "A. Reed"])).code, Some(0));
    bench
}

fn with<'a>(command: &'a str, more: &[&'a str]) -> Vec<&'a str> {
    [&[command, "week-3.ron", "in", "--at", AFTER, "--register", "kept.db"], more].concat()
}

fn people(bench: &Bench, more: &[&str]) -> Run {
    bench.run(&with("people", more))
}

/// The names of files in a folder.
fn held(folder: &Path) -> Vec<String> {
    let mut all: Vec<_> = fs::read_dir(folder)
        .expect("a folder")
        .map(|it| it.expect("an entry").file_name().into_string().expect("a name"))
        .collect();
    all.sort();
    all
}

#[test]
fn what_is_kept_of_a_learner_is_written_out_and_no_other_is_in_it() {
    let bench = three();
    let run = people(&bench, &["--learner", "2", "--export", "two.json"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    let text = bench.read("two.json");
    let kept: Value = serde_json::from_str(&text).expect("JSON");
    assert_eq!((&kept["learner"], kept["work"].as_array().map(Vec::len)), (&2.into(), Some(1)));
    let people = &kept["work"][0]["files"][0]["people"];
    assert_eq!(people["decisions"][0]["why"], "a word about learner 2");
    assert_eq!(people["releases"][0]["given"]["marks"], 91);
    assert!(!text.contains("learner 1") && !text.contains("_1_wire") && !text.contains("_3_wire"), "{text}");
    people_complains(
        &bench,
        &["--learner", "99", "--export", "none.json"],
        "the assignment `week-3` has no learner 99",
    );
    // It takes nobody's place.
    people_complains(&bench, &["--learner", "2", "--export", "two.json"], "is there already");
}

fn people_complains(bench: &Bench, more: &[&str], said: &str) {
    let run = people(bench, more);
    assert!(run.code == Some(1) && run.err.contains(said), "{said}: {}", run.err);
}

#[test]
fn one_learner_is_erased_only_for_good_and_then_wholly() {
    let bench = three();
    let kept = || fs::read(bench.path("kept.db")).expect("a register");
    let holds = |what: &str| kept().windows(what.len()).any(|it| it == what.as_bytes());
    let before = (held(&bench.path("in")), held(&bench.path("out")), kept());
    let would = people(&bench, &["--learner", "2", "--erase", "--pages", "out"]);
    assert_eq!((would.err.as_str(), would.code), ("", Some(0)));
    for it in
        ["in/week-3_2_wire-a-switch_1.attempt.ron\n", "out/week-3_2_wire-a-switch.html\n", "Nothing is erased yet"]
    {
        assert!(would.out.contains(it), "{it}: {}", would.out);
    }
    assert!(would.out.contains("files 1, pages 1, marked 1, decisions 1, releases 1"), "{}", would.out);
    assert_eq!((held(&bench.path("in")), held(&bench.path("out")), kept()), before, "it was only said");
    assert!(holds("a word about learner 2"));
    let done = people(&bench, &["--learner", "2", "--erase", "--for-good", "--pages", "out"]);
    assert_eq!((done.err.as_str(), done.code), ("", Some(0)));
    assert_eq!(
        held(&bench.path("in")),
        ["week-3_1_wire-a-switch_1.attempt.ron", "week-3_3_wire-a-switch_1.attempt.ron"]
    );
    assert_eq!(held(&bench.path("out")), ["week-3_1_wire-a-switch.html", "week-3_3_wire-a-switch.html"]);
    // Not in a page of the register's file that is free now, either.
    assert!(!holds("a word about learner 2") && holds("a word about learner 1"));
    let rest = reviewed(&bench.run(&with("review", &["--json"])));
    let released = |row: usize| rest["rows"][row]["files"][0]["people"]["releases"].as_array().map_or(0, Vec::len);
    assert_eq!((released(0), released(1), released(2)), (1, 0, 1));
    assert_eq!(rest["rows"][1]["standing"], "missing");
    // What is left to do after that is nothing.
    let again = people(&bench, &["--learner", "2", "--erase", "--pages", "out"]);
    assert!(again.out.contains("files 0, pages 0, marked 0, decisions 0, releases 0"), "{}", again.out);
}

/// Its files are gone already: the register still knows whose its rows are.
#[test]
fn rows_of_files_that_are_gone_are_found_by_the_register() {
    let bench = three();
    fs::remove_file(bench.path("in/week-3_2_wire-a-switch_1.attempt.ron")).expect("removed");
    let run = people(&bench, &["--learner", "2", "--erase", "--for-good", "--pages", "out"]);
    assert!(run.out.contains("files 0, pages 1, marked 1, decisions 1, releases 1"), "{}{}", run.out, run.err);
    assert!(
        !fs::read(bench.path("kept.db")).expect("a register").windows(22).any(|it| it == b"a word about learner 2")
    );
}

/// The hand-ins are of November 2026: three years of 366 days later they go, the day before they stay. What is in a zip can't go alone.
#[test]
fn a_group_goes_when_its_years_are_over_and_not_before() {
    let bench = three();
    let at = |at: &'static str, more: &[&str]| {
        let all = [
            "people",
            "week-3.ron",
            "in",
            "--at",
            at,
            "--register",
            "kept.db",
            "--everybody",
            "--erase",
            "--years",
            "3",
        ];
        bench.run(&[&all[..], more].concat())
    };
    // 3 November 2026 and 1098 days are 5 November 2029.
    let early = at("2029-11-05T09:00:00+00:00", &["--for-good", "--pages", "out"]);
    assert!(early.out.contains("files 0, pages 0, marked 0"), "{}", early.out);
    let over = at("2029-11-06T12:00:00+00:00", &["--pages", "out"]);
    assert!(over.out.contains("files 3, pages 3, marked 3, decisions 2, releases 3"), "{}{}", over.out, over.err);
    assert_eq!(held(&bench.path("in")).len(), 3);
    let gone = at("2029-11-06T12:00:00+00:00", &["--for-good", "--pages", "out"]);
    assert_eq!((gone.err.as_str(), gone.code), ("", Some(0)));
    assert!(held(&bench.path("in")).is_empty() && held(&bench.path("out")).is_empty());
    let zip = crate::zips::zip(&[crate::zips::Packed::stored("a.ron", right(&class(&Bench::new(), 0), 3).text())]);
    bench.file("in/all.zip", zip);
    let zipped = at("2029-11-06T12:00:00+00:00", &["--for-good"]);
    assert_eq!(zipped.code, Some(1));
    assert!(zipped.err.contains("in/all.zip/a.ron lies in a zip"), "{}", zipped.err);
    assert!(bench.path("in/all.zip").exists());
}
