//! Shipped exercises: models earn everything, blanks nothing, faults what was worked out by hand.
//!
//! `UPDATE_EXPECT=1 cargo test` writes the model attempts afresh, after a change of format. A fault's file is never
//! written by a program: its truth table and findings were worked out on paper.

use std::{collections::BTreeSet, fs, path::PathBuf, sync::Arc};

use serde::Deserialize;
use switchdrop::{
    advice::solve,
    attempt::{Attempt, Format, Header, Mode, action_line, first_lines, open},
    circuit::{Glow, survey},
    exercise::Exercise,
    marking::{Outcome, Root, VERSION, Weight},
    work::Action,
};

use crate::{
    bench::sealed,
    chosen::chosen_model,
    hand::{Hand, SHIPPED, accepted, exercise, first_model, marked, one_way_model, two_way_model},
    made_off::tested_model,
    practice_boards::{box_model, rose_model},
};

fn folder(id: &str) -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("exercises").join(id)
}

/// The model of every shipped exercise: done by the tests' own hand where there is one for it, else by the program's solver, whose work
/// a person has read.
fn models() -> Vec<(&'static str, Hand)> {
    let by_hand = by_hand();
    let solved = SHIPPED.iter().filter(|it| by_hand.iter().all(|done| done.0 != it.0)).map(|(id, _)| {
        let model = solve(&exercise(id, 4)).unwrap_or_else(|it| panic!("{id}: {:?}", it.lacks));
        (*id, Hand { attempt: model.attempt })
    });
    let solved: Vec<_> = solved.collect();
    by_hand.into_iter().chain(solved).collect()
}

fn by_hand() -> Vec<(&'static str, Hand)> {
    vec![
        ("make-off-a-box", box_model()),
        ("one-way-rose", one_way_model()),
        ("one-way-tested", tested_model()),
        ("rose-with-onward-feed", rose_model()),
        ("two-way-passage", two_way_model()),
        ("two-way-to-choose", chosen_model()),
        ("wire-a-switch", first_model()),
    ]
}

/// An attempt as its file: a second an action.
fn file(exercise: &Exercise, learner: &str, log: &[Action]) -> String {
    let header = Header::new(VERSION, exercise, learner.to_owned(), "2026-11-25T09:00:00Z".to_owned(), Mode::Set);
    let mut lines = first_lines(&header, exercise).unwrap().to_vec();
    lines.extend(log.iter().enumerate().map(|(number, it)| action_line(1000 * (number as u64 + 1), it).unwrap()));
    sealed(Format::NEWEST, &lines)
}

fn keep(path: &PathBuf, text: &str) {
    if std::env::var_os("UPDATE_EXPECT").is_some() {
        fs::write(path, text).unwrap();
    }
    let kept = fs::read_to_string(path).unwrap_or_else(|it| panic!("{}: {it}", path.display()));
    assert_eq!(kept.replace("\r\n", "\n"), text, "{} is not what the hand does: UPDATE_EXPECT=1", path.display());
}

#[test]
fn every_wiring_that_does_the_job_safely_earns_full_marks() {
    for (name, hand) in accepted() {
        let sheet = marked(&hand.attempt);
        assert_eq!((sheet.outcome, sheet.marks), (Outcome::Pass, sheet.out_of), "{name}: {:#?}", sheet.findings);
        assert!(sheet.findings.is_empty(), "{name}: {:#?}", sheet.findings);
    }
}

#[test]
fn model_files_are_what_a_careful_hand_does() {
    for (id, hand) in models() {
        let text = file(hand.attempt.work().exercise(), "Model", hand.attempt.log());
        keep(&folder(id).join("model.attempt.ron"), &text);
        let attempt = open(&text).unwrap().replay().unwrap();
        assert_eq!(attempt.log(), hand.attempt.log());
    }
}

/// The sample that the program marks when it is given nothing: one mark forgotten, one answer wrong.
#[test]
fn the_sample_is_an_honest_attempt_with_two_faults() {
    let model = two_way_model();
    let forgotten = action(r#"Mark(end: "link/grey@clay", mark: Sleeve(Brown))"#);
    let log: Vec<Action> = model
        .attempt
        .log()
        .iter()
        .filter(|it| **it != forgotten)
        .map(|it| match it {
            Action::Predict { positions, live, .. } if *positions == [1, 0, 1] => {
                Action::Predict { positions: positions.clone(), lit: vec!["lamp".to_owned()], live: live.clone() }
            }
            other => other.clone(),
        })
        .collect();
    let text = file(model.attempt.work().exercise(), "A. Thornbury", &log);
    keep(&PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("assets/sample.attempt.ron"), &text);
    let sheet = marked(&open(&text).unwrap().replay().unwrap());
    assert_eq!(sheet.causes(), [("mark-missing", "link/grey@clay"), ("prediction-wrong", "prediction 4")]);
}

#[test]
fn a_blank_hand_in_is_not_yet_and_below_the_pass_mark() {
    for (id, _) in SHIPPED {
        for seed in 0..20 {
            let mut attempt = Attempt::new(exercise(id, seed));
            attempt.act(Action::HandIn).unwrap();
            let sheet = marked(&attempt);
            assert_eq!(sheet.outcome, Outcome::NotYet, "{id} {seed}: {:?}", sheet.causes());
            // Half the lamps work as they were found; nothing else earns.
            assert!(sheet.marks * 100 < 20 * sheet.out_of, "{id} {seed}: {} of {}", sheet.marks, sheet.out_of);
        }
    }
}

/// marking.md: "a blank or half-wired hand-in is `not yet`", wherever it breaks off before the power is on.
#[test]
fn an_attempt_that_breaks_off_anywhere_before_power_on_is_not_yet() {
    for (id, hand) in models() {
        let log = hand.attempt.log();
        // Where the power is no part of it, until the answer is given; where work is only looked over, what is said of it is the work.
        let ends = |it: &Action| matches!(it, Action::Unlock { .. } | Action::BringSupply | Action::Diagnose { .. });
        let unlocked = log.iter().position(ends);
        assert_eq!(unlocked.is_none(), hand.attempt.work().exercise().is_inspected(), "{id}");
        let Some(unlocked) = unlocked else { continue };
        for length in (0..unlocked).step_by(5) {
            let cut = log[..length].iter().cloned().chain([Action::HandIn]);
            let attempt = Attempt::replay(Arc::clone(hand.attempt.work().exercise()), cut).unwrap();
            let sheet = marked(&attempt);
            assert_eq!(sheet.outcome, Outcome::NotYet, "{id} after {length}: {:?}", sheet.causes());
        }
    }
}

/// A fault as it was worked out on paper.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    edits: Vec<Instead>,
    /// A row for each combination, last switch fastest: each lamp, then which devices open.
    rows: Vec<String>,
    /// The one cause: code and place.
    root: (String, String),
    /// Codes that must be among what follows from it.
    also: Vec<String>,
    outcome: String,
    /// Edits that look like the fault and are right; none: the model is near enough.
    near_miss: Vec<Instead>,
}

/// In the model's log, these actions for the first that is equal to this one.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Instead {
    of: Action,
    act: Vec<Action>,
}

fn action(ron: &str) -> Action {
    ron::from_str(ron).unwrap_or_else(|it| panic!("{ron}: {it}"))
}

/// The model's log with the edits made, replayed; screws of terminals left empty are passed over.
fn edited(model: &Hand, edits: &[Instead]) -> Attempt {
    let mut log: Vec<Action> = model.attempt.log().to_vec();
    for Instead { of, act } in edits {
        let place = log.iter().position(|it| it == of).unwrap_or_else(|| panic!("the model does not {of:?}"));
        log.splice(place..=place, act.iter().cloned());
    }
    let mut attempt = Attempt::new(Arc::clone(model.attempt.work().exercise()));
    for it in log {
        let refused = attempt.act(it.clone()).err();
        let tolerated = matches!(it, Action::Tighten { .. } | Action::PowerOn { .. } | Action::Unlock { .. });
        assert!(refused.is_none() || tolerated, "{it:?}: {refused:?}");
    }
    attempt
}

fn rows(attempt: &Attempt) -> Vec<String> {
    let exercise = attempt.work().exercise();
    let glow = |it: Glow| match it {
        Glow::Lit => "lit",
        Glow::Dim => "dim",
        Glow::Off => "off",
    };
    survey(attempt.work())
        .rows
        .iter()
        .map(|row| {
            let lamps: Vec<_> = row.lamps.iter().map(|it| glow(it.glow)).collect();
            let tripped: Vec<_> = row.tripped().map(|it| exercise.devices[it].address.as_str()).collect();
            let trips = if tripped.is_empty() { String::new() } else { format!(", {} trips", tripped.join(" ")) };
            lamps.join(" ") + &trips
        })
        .collect()
}

/// Every fault file of a folder: name, case.
fn cases(id: &str) -> Vec<(String, Case)> {
    let mut cases: Vec<(String, Case)> = fs::read_dir(folder(id).join("faults"))
        .unwrap()
        .map(|it| {
            let path = it.unwrap().path();
            let name = path.file_name().unwrap().to_str().unwrap().to_owned();
            let text = fs::read_to_string(&path).unwrap();
            (name.clone(), ron::from_str(&text).unwrap_or_else(|it| panic!("{name}: {it}")))
        })
        .collect();
    cases.sort_by(|a, b| a.0.cmp(&b.0));
    assert!(!cases.is_empty(), "{id} has no fault");
    cases
}

#[test]
fn faults_do_what_was_worked_out_and_have_the_one_cause() {
    let mut wrong = Vec::new();
    for (id, model) in models() {
        for (name, case) in cases(id) {
            let attempt = edited(&model, &case.edits);
            let sheet = marked(&attempt);
            let consequences: BTreeSet<&str> =
                sheet.findings.iter().filter(|it| it.root != Root::Itself).map(|it| it.code.word()).collect();
            if rows(&attempt) != case.rows {
                wrong.push(format!("{name}: rows {:#?}", rows(&attempt)));
            }
            // What stands in work that is only looked over is nobody's fault here.
            let own = sheet.placed(|it| it.root == Root::Itself && it.weight > Weight::Advice && !it.before);
            let own: Vec<_> = own.map(|(it, at)| (it.code.word(), at)).collect();
            if own != [(case.root.0.as_str(), case.root.1.as_str())] {
                wrong.push(format!("{name}: causes {own:?}"));
            }
            if !case.also.iter().all(|it| consequences.contains(it.as_str())) {
                wrong.push(format!("{name}: consequences {consequences:?}"));
            }
            if sheet.outcome.word() != case.outcome {
                wrong.push(format!("{name}: {} with {} marks", sheet.outcome.word(), sheet.marks));
            }
            if !name.starts_with(&format!("{}__", case.root.0)) {
                wrong.push(format!("{name}: named for another code"));
            }
            let sheet = marked(&edited(&model, &case.near_miss));
            if sheet.findings.iter().any(|it| it.code.word() == case.root.0) {
                wrong.push(format!("{name}: the near miss is accused: {:?}", sheet.causes()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Every code that a fault file fires as a cause or names among what follows; each of those files has a near miss.
pub fn fired_by_files() -> BTreeSet<String> {
    let cases = SHIPPED.iter().flat_map(|(id, _)| cases(id));
    cases.flat_map(|(_, case)| case.also.into_iter().chain([case.root.0])).collect()
}
