//! An alteration: a light that works from one door is to work from two. What was found connected is the learner's to move or to leave.

use std::{fs, path::Path, sync::Arc};

use switchdrop::{
    attempt::{Attempt, Mode, open},
    circuit::{Glow, survey},
    exercise::{Exercise, Seed, draw, read},
    marking::{Code, Outcome, mark},
    work::{Action, Edit, Work},
};

use crate::{
    bench::Bench,
    hand::{SHIPPED, exercise, marked, two_way_model},
};

/// The model's log without what it does to the feed at the kiln door, but for some of it.
fn without_the_feed(kept: impl Fn(&Action) -> bool) -> Attempt {
    let model = two_way_model().attempt;
    let of_feed = |it: &Action| match it {
        Action::Disconnect { end } | Action::Connect { end, .. } => end == "feed/brown@kiln",
        _ => false,
    };
    let log = model.log().iter().filter(|it| !of_feed(it) || kept(it)).cloned();
    Attempt::replay(Arc::clone(model.work().exercise()), log).expect("the rest can be done")
}

/// By hand: with the feed in COM beside the brown core the light is lit in three positions of four. In L2 it is right. No end that the
/// learner moved is astray, so the one that was found and left is the repair.
#[test]
fn an_end_that_an_alteration_should_have_moved_is_its_repair() {
    let attempt = without_the_feed(|_| false);
    let sheet = marked(&attempt);
    assert_eq!(sheet.causes(), [("control-wrong", "lamp")], "{:#?}", sheet.findings);
    let work = attempt.work();
    let feed = work.end("feed/brown@kiln").expect("an end");
    assert!(work.is_undisturbed(feed));
    let repair = sheet.findings[0].repair.clone().expect("one move");
    assert!(repair.contains(&Edit::Move(feed, work.terminal("kiln.1.L2").ok())), "{repair:?}");
    let mended = mark(&attempt.supposing(&repair), Mode::Set);
    assert!(mended.findings.iter().all(|it| it.code != Code::ControlWrong), "{:#?}", mended.findings);
}

/// Taken out and left so while the device is locked off, it is work still to do; with everything closed up and the power on it is a
/// loose end at 230 V.
#[test]
fn an_end_taken_out_and_forgotten_is_a_loose_live_end() {
    let attempt = without_the_feed(|it| matches!(it, Action::Disconnect { .. }));
    let sheet = marked(&attempt);
    assert_eq!(sheet.causes(), [("loose-end-live", "feed/brown@kiln")], "{:#?}", sheet.findings);
    assert_eq!(sheet.outcome, Outcome::Refer);
}

/// As it is found the passage light works from the kiln door whatever the clay store door does, in every variant; the new three-core is
/// joined to nothing at either end, so that no end of it is live.
#[test]
fn an_alteration_starts_with_what_is_there_working_and_nothing_loose_that_is_live() {
    for seed in 0..20 {
        let exercise = exercise("two-way-passage", seed);
        let work = Work::new(Arc::clone(&exercise));
        let kiln = exercise.switch("kiln.1").expect("a switch").index();
        for row in survey(&work).rows {
            let lit = row.lamps[exercise.lamp("lamp").expect("a lamp").index()].glow == Glow::Lit;
            assert_eq!(lit, row.positions[kiln] == 0, "{seed}: {:?}", row.positions);
            assert!(row.hazards.is_empty() && row.tripped().next().is_none(), "{seed}: {:?}", row.hazards);
        }
    }
}

/// Handed in as it was found: the one control is not there yet, and nothing that was found is called wrong, old or new.
#[test]
fn what_was_found_working_is_accused_of_nothing() {
    let mut attempt = Attempt::new(exercise("two-way-passage", 4));
    attempt.act(Action::HandIn).expect("it can be handed in");
    let sheet = mark(&attempt, Mode::Set);
    assert_eq!(sheet.outcome, Outcome::NotYet);
    let work = attempt.work();
    for it in &sheet.findings {
        assert!(!it.before, "{it:?}");
        let of_found = work.ends().find(|end| work.subject_of(*end) == it.at && work.is_undisturbed(*end));
        assert_eq!(of_found, None, "{it:?}");
    }
    let codes: Vec<Code> = sheet.findings.iter().map(|it| it.code).collect();
    assert_eq!(codes, [Code::WorkUnfinished]);
}

fn old(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/old").join(name);
    fs::read_to_string(path).expect("it is kept")
}

/// The exercise that this one came in the place of: its scenario still draws what its model was done in, and the model, a file of format 1
/// and marking version 3, is replayed and earns what it earned.
#[test]
fn a_model_of_an_earlier_exercise_is_replayed_and_marked_as_it_was() {
    assert!(SHIPPED.iter().all(|it| it.0 != "two-way-stairs"), "it is no longer shipped");
    let text = old("marking-3-two-way-stairs.attempt.ron");
    let opened = open(&text).expect("an attempt");
    let drawn: Exercise = draw(&old("scenarios/two-way-stairs.ron"), Seed(4)).expect("a sound scenario");
    assert_eq!(opened.exercise.text(), drawn.text());
    assert_eq!(read(drawn.text(), Seed(4)).expect("as drawn").text(), drawn.text());
    let attempt = opened.replay().expect("it can be done");
    let sheet = mark(&attempt, opened.header.mode);
    assert_eq!((sheet.outcome, sheet.marks, sheet.out_of), (Outcome::Pass, 100, 100), "{:#?}", sheet.findings);
    let bench = Bench::new();
    bench.file("old", text);
    let run = bench.run(&["mark", "--json", "old"]);
    let json: serde_json::Value = serde_json::from_str(&run.out).expect("JSON");
    assert_eq!((&json["scenario"], &json["outcome"]), (&"two-way-stairs".into(), &"pass".into()), "{}", run.err);
}
