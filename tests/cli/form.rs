//! `mark --form`: one page to be signed, with what an assessor decides about and room to decide it.

use switchdrop::{attempt::Attempt, work::Action};

use super::page::{hostile_attempt, tags};
use crate::{
    bench::{Bench, attempt_text},
    hand::exercise,
    made_off::tested_model,
};

/// What can be read on a form, its tags taken out.
fn words(page: &str) -> String {
    let body = page.split_once("<body>").expect("a body").1;
    let parts = body.split('<').map(|part| part.split_once('>').map_or(part, |(_tag, text)| text));
    parts.collect::<Vec<_>>().join("|")
}

fn formed(text: &str) -> String {
    let bench = Bench::new();
    bench.file("one", text);
    bench.run(&["mark", "--form", "one.html", "one"]).says("one.html: the form for signing\n");
    words(&bench.read("one.html"))
}

/// The sample loses 3 marks for a core without its mark and 2 for a prediction. Its digest is what `sha256sum` gives of the file.
#[test]
fn each_cause_has_room_to_agree_or_to_overrule() {
    let form = formed(include_str!("../../assets/sample.attempt.ron"));
    for part in
        ["A. Thornbury", "Pass: 95 of 100 marks", "file 0ff1-dd20-fbb3", "25/25", "7/10", "3/5", "No act was stopped."]
    {
        assert!(form.contains(part), "{part}: {form}");
    }
    assert_eq!(form.matches("|☐|").count(), 2, "one a cause: {form}");
    assert_eq!(form.matches("Signature").count(), 4, "learner, assessor and both quality assurers");
    assert!(form.contains("______ This is a record of practice, not evidence of competence."), "{form}");
    // What a form leaves to the sheet.
    assert!(!form.contains("514.3.2") && !form.contains("passage light takes"), "{form}");
}

/// Somebody who goes to take two covers off with everything on, and one of them again after a warning.
#[test]
fn what_was_stopped_is_counted_by_its_kind() {
    let mut attempt = Attempt::new(exercise("one-way-rose", 4));
    for location in ["rose", "switch", "rose"] {
        attempt.act(Action::RemoveCover { location: location.to_owned() }).expect("it is stopped, not refused");
    }
    attempt.act(Action::HandIn).expect("a hand-in");
    let form = formed(&attempt_text(attempt.work().exercise(), attempt.log()));
    assert!(form.contains("3 × touched or opened what was on"), "{form}");
    assert!(form.contains("No place was proved dead after a lock."), "{form}");
}

/// By the tables R1+R2 is 0.435 Ω at seed 4; a type B device of 6 A may have 230 V x 0.95 / (5 x 6 A) = 7.28 Ω (BS 7671, table 41.3).
#[test]
fn the_test_results_stand_there_with_their_circuit_and_its_limit() {
    let model = tested_model().attempt;
    let form = formed(&attempt_text(model.work().exercise(), model.log()));
    for part in [
        "|0.45 Ω: Acceptable|",
        "loop impedance at most 7.28 Ω",
        "mm²",
        "From the first lock to the first place proved dead: ",
    ] {
        assert!(form.contains(part), "{part}: {form}");
    }
}

#[test]
fn text_from_outside_stays_text_on_a_form() {
    let bench = Bench::new();
    bench.file("odd", hostile_attempt());
    bench.run(&["mark", "--form", "odd.html", "odd"]);
    let page = bench.read("odd.html");
    assert!(page.contains("&lt;script&gt;"));
    let odd =
        tags(&page).into_iter().find(|it| it.starts_with("script") || it.starts_with("img") || it.contains("onerror"));
    assert_eq!(odd, None);
    bench.file("notes.html", "<!DOCTYPE html>\nmine");
    let run = bench.run(&["mark", "--form", "notes.html", "odd"]);
    assert!(
        run.err.contains("notes.html is there already, was not written by this program, and stays as it is"),
        "{}",
        run.err
    );
    assert_eq!(bench.read("notes.html"), "<!DOCTYPE html>\nmine");
}
