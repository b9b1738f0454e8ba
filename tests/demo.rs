//! The class that ships in `demo/class`, so that a tutor can see a review before anybody has handed anything in: the invented learners of
//! `class.rs`, who slip at its stated rates, and some of whom are late, stuck, copied, edited or missing.
//!
//! `UPDATE_EXPECT=1 cargo test demo` writes it afresh, after a change of format or of the marking version.

use std::{collections::BTreeSet, fs, path::PathBuf};

use serde_json::json;
use switchdrop::register::Adjustment;

use crate::{
    bench::Bench,
    class::{AFTER, CLASS, Made, assignment, done, reviewed, right, row, slips},
};

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("demo/class")
}

/// Every file by its name in the folder.
fn files() -> Vec<(String, String)> {
    let all = assignment("Group 2");
    let mut files = vec![("week-3.ron".to_owned(), all.text().expect("RON"))];
    let mut keep = |it: &Made| files.push((it.name(), it.text()));
    for learner in 1..=18 {
        keep(&Made::of(&all, learner, Adjustment::default(), done(&slips(learner))));
    }
    // 19 slipped at the first try, and had a second. 20 was late. 21 is stuck. 22 is a copy of 23 with another number. 24 handed in nothing.
    keep(&Made::of(&all, 19, Adjustment::default(), done(&[0])));
    let mut second = right(&all, 19);
    second.assigned.nth = 2;
    keep(&second);
    keep(&Made { started: "2026-11-06T16:59:00+00:00", ..right(&all, 20) });
    keep(&Made { log: done(&[])[..5].to_vec(), ..right(&all, 21) });
    let mut copied = right(&all, 23);
    keep(&copied);
    copied.assigned.learner = 22;
    keep(&copied);
    files
}

#[test]
fn the_demo_class_is_what_its_learners_did() {
    let (folder, files) = (folder(), files());
    if std::env::var_os("UPDATE_EXPECT").is_some() {
        fs::create_dir_all(folder.join("in")).unwrap();
        for (name, text) in &files {
            fs::write(folder.join(name), text).unwrap();
        }
    }
    for (name, text) in &files {
        let kept = fs::read_to_string(folder.join(name)).unwrap_or_else(|it| panic!("{name}: {it}"));
        assert_eq!(kept.replace("\r\n", "\n"), *text, "{name} is not what was done: UPDATE_EXPECT=1");
    }
    let there = fs::read_dir(folder.join("in")).unwrap();
    let there: BTreeSet<_> = there.map(|it| format!("in/{}", it.unwrap().file_name().display())).collect();
    assert_eq!(there, files.into_iter().map(|file| file.0).filter(|name| name.starts_with("in/")).collect());
}

/// How each stands is read off what was done in `files`.
#[test]
fn a_review_of_the_demo_class_has_a_row_for_everybody() {
    let bench = Bench::new();
    let folder = folder();
    let at = |name: &str| folder.join(name).display().to_string();
    let run = bench.run(&["review", &at("week-3.ron"), &at("in"), "--at", AFTER, "--json"]);
    assert_eq!(run.code, Some(1), "{}", run.err);
    let review = reviewed(&run);
    for learner in 1..=18 {
        assert_eq!(row(&review, learner).0, json!("handed-in"), "{learner}");
    }
    for (learner, standing, flags) in [
        (19, "handed-in", vec![json!([]), json!([])]),
        (20, "late", vec![json!(["late"])]),
        (21, "begun", vec![json!(["not-handed-in"])]),
        (22, "unclear", vec![json!(["wrong-seed"])]),
        (23, "handed-in", vec![json!([])]),
        (CLASS, "missing", vec![]),
    ] {
        assert_eq!(row(&review, learner), (json!(standing), flags), "{learner}");
    }
}
