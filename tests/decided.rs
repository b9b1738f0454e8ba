//! What people decide about a mark and what is released, by the real program: nothing is overwritten, nobody is shown anything before its
//! release, and no released mark changes by itself.

use rusqlite::Connection;
use serde_json::Value;
use switchdrop::register::Adjustment;

use crate::{
    bench::{Bench, Run},
    class::{AFTER, Made, class, done, reviewed, right},
};

/// Two learners: one right, one without a sleeve, and their receipts, in a register.
fn two() -> (Bench, [String; 2]) {
    let bench = Bench::new();
    let all = class(&bench, 0);
    for it in [right(&all, 1), Made::of(&all, 2, Adjustment::default(), done(&[0]))] {
        bench.file(&it.name(), it.text());
    }
    let review = reviewed(&review(&bench, &["--json"]));
    let receipt = |at: usize| review["rows"][at]["files"][0]["receipt"].as_str().expect("a receipt").to_owned();
    let receipts = [receipt(0), receipt(1)];
    (bench, receipts)
}

fn review(bench: &Bench, more: &[&str]) -> Run {
    let run = bench.run(&[&["review", "week-3.ron", "in", "--at", AFTER, "--register", "kept.db"], more].concat());
    assert_eq!(run.code, Some(0), "{}", run.err);
    run
}

fn decide(bench: &Bench, receipt: &str, of: &[&str]) -> Run {
    bench.run(&[&["decide", "kept.db", receipt], of].concat())
}

fn release(bench: &Bench, more: &[&str]) -> Run {
    let all =
        ["release", "week-3.ron", "in", "--at", AFTER, "--register", "kept.db", "--pages", "out", "--by", "A. Reed"];
    bench.run(&[&all[..], more].concat())
}

fn second_row(bench: &Bench) -> Value {
    reviewed(&review(bench, &["--json"]))["rows"][1]["files"][0].clone()
}

#[test]
fn layers_are_kept_beside_the_machines_mark_and_nothing_is_overwritten() {
    let (bench, [_, receipt]) = two();
    let machine = second_row(&bench);
    let marks = machine["earned"]["marks"].as_u64().expect("marks");
    assert!(marks < 100 && machine["people"].is_null(), "{machine}");
    let said = decide(&bench, &receipt, &[]);
    assert!(said.out.starts_with(&format!("the machine gave {marks} marks, ")), "{}", said.out);
    // A changed mark without a reason, a finding that is not there, marks that are not to be had: nothing is written.
    let tutor = ["--as", "tutor", "--by", "A. Reed"];
    let with = |more: &[&'static str]| decide(&bench, &receipt, &[&tutor[..], more].concat());
    with(&["--marks", "96"]).complains("error: say with `--why` what the reason is\n");
    with(&["--marks", "101", "--why", "x"]).complains("error: there are 100 marks to be had\n");
    with(&[])
        .complains("error: say what is decided: `--marks`, `--outcome`, or `--finding` or `--step` for a comment\n");
    with(&["--finding", "mark-missing@rose", "--why", "x"])
        .complains("error: there is no such finding; those of this hand-in: mark-missing@drop/blue@switch\n");
    decide(&bench, "0000-0000-0000", &tutor).complains(
        "error: the register has no hand-in with the receipt 0000-0000-0000: review it with `--register` first\n",
    );
    assert_eq!(decide(&bench, &receipt, &[]).out, said.out);
    // An outcome is as good as sheets have it.
    with(&["--outcome", "not yet"]).complains("error: say with `--why` what the reason is\n");
    // The tutor, a comment, a second marker who sees it otherwise, an agreement: each stays.
    assert_eq!(with(&["--marks", "96", "--why", "sleeve lay beside it"]).code, Some(0));
    assert_eq!(
        with(&["--finding", "mark-missing@drop/blue@switch", "--why", "look at the end of every core"]).code,
        Some(0)
    );
    let second =
        decide(&bench, &receipt, &["--as", "second", "--by", "B. Moss", "--marks", "90", "--why", "none seen"]);
    assert!(second.out.contains("the second marker gave something else: agree on it"), "{}", second.out);
    release(&bench, &["--learner", "2"]).complains(
        "error: learner 2, wire-a-switch: the second marker gave something else; agree on it before it is released\n",
    );
    let agreed =
        decide(&bench, &receipt, &["--as", "agreed", "--by", "A. Reed", "--marks", "94", "--why", "met halfway"]);
    let order = [
        &*format!("the machine gave {marks} marks"),
        "96 marks; sleeve lay",
        "look at the end",
        "90 marks; none seen",
        "94 marks; met halfway",
        "94 marks, ",
    ];
    let places: Vec<_> =
        order.iter().map(|it| agreed.out.find(it).unwrap_or_else(|| panic!("{it}: {}", agreed.out))).collect();
    assert!(places.is_sorted(), "{places:?} {}", agreed.out);
    // The review shows what stands; the machine's own mark is as it was.
    let row = second_row(&bench);
    assert_eq!(row["earned"], machine["earned"]);
    assert_eq!(row["people"]["decisions"].as_array().map(Vec::len), Some(4));
    let words = review(&bench, &["--csv", "wide.csv"]).out;
    assert!(words.contains("94/100") && words.contains("94 marks, ") && words.contains("by agreement"), "{words}");
    assert!(bench.read("wide.csv").contains(",94,agreed,"), "{}", bench.read("wide.csv"));
}

#[test]
fn nothing_is_shown_before_its_release_and_no_released_mark_changes_by_itself() {
    let (bench, [receipt, _]) = two();
    let page = "out/week-3_1_wire-a-switch.html";
    assert!(!bench.path("out").exists());
    let run = release(&bench, &["--learner", "1"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    assert!(
        run.out.starts_with(&format!("{page}: released by A. Reed, ")) && run.out.ends_with(": 100 marks, pass\n"),
        "{}",
        run.out
    );
    let first = bench.read(page);
    assert!(first.contains("100 marks, pass, out of 100") && first.contains("not evidence of competence"), "{first}");
    assert_eq!(std::fs::read_dir(bench.path("out")).expect("a folder").count(), 1, "learner 2 is shown nothing");
    // Decided otherwise since, and marked otherwise since: both are told, and what was released stands.
    let lower = ["--as", "tutor", "--by", "A. Reed", "--marks", "90", "--why", "the cover was left off"];
    assert_eq!(decide(&bench, &receipt, &lower).code, Some(0));
    let forged = "UPDATE marked SET hand_in = replace(hand_in, '\"marks\":100', '\"marks\":88') WHERE receipt = ?1";
    Connection::open(bench.path("kept.db")).expect("a register").execute(forged, [&receipt]).expect("forged");
    let told = review(&bench, &[]).out;
    assert!(
        told.contains("the machine gave 100 marks, pass when it was released, and gives 88 marks, pass now"),
        "{told}"
    );
    assert!(told.contains("today it would be 90 marks, pass: what was released stands"), "{told}");
    let again = release(&bench, &["--learner", "1"]);
    assert!(
        again.out.contains(": 100 marks, pass; ") && again.out.contains("what was released stands"),
        "{}",
        again.out
    );
    assert!(bench.read(page).contains("100 marks, pass, out of 100"), "the page says what was told");
    // Released again with a reason: the first release is kept.
    let reason = release(&bench, &["--learner", "1", "--again", "looked at it once more"]);
    assert!(
        reason.out.contains("released again by A. Reed") && reason.out.contains("90 marks, pass"),
        "{}",
        reason.out
    );
    let page = bench.read(page);
    assert!(page.contains("90 marks, pass, out of 100") && page.contains("the cover was left off"), "{page}");
    let history = decide(&bench, &receipt, &[]).out;
    assert!(history.contains("released by A. Reed") && history.contains("released again by A. Reed"), "{history}");
}

/// Without a register there is nothing to write it into, and a page that is not the program's stays.
#[test]
fn a_release_needs_a_register_and_takes_no_others_place() {
    let (bench, _) = two();
    bench
        .run(&["release", "week-3.ron", "in", "--pages", "out", "--by", "A"])
        .complains("error: say with `--register` in which register the release is to be kept\n");
    bench.file("out/week-3_1_wire-a-switch.html", "mine");
    let run = release(&bench, &["--learner", "1"]);
    assert_eq!((bench.read("out/week-3_1_wire-a-switch.html").as_str(), run.code), ("mine", Some(1)), "{}", run.err);
    bench
        .run(&["decide", "none.db", "0000-0000-0000"])
        .complains("error: none.db can't be read: there is no such file or folder\n");
    assert!(!bench.path("none.db").exists());
}

/// Killed whenever: no page without its release, nothing half written, and the next release makes up for what is missing.
#[test]
fn a_release_that_is_killed_leaves_a_whole_register_and_no_page_of_its_own() {
    let bench = Bench::new();
    let all = class(&bench, 0);
    for learner in 1..=24 {
        let it = right(&all, learner);
        bench.file(&it.name(), it.text());
    }
    review(&bench, &[]);
    let releases = |bench: &Bench| -> Vec<usize> {
        let review = reviewed(&review(bench, &["--json"]));
        let rows = review["rows"].as_array().expect("rows").iter();
        rows.map(|it| it["files"][0]["people"]["releases"].as_array().map_or(0, Vec::len)).collect()
    };
    let pages = |bench: &Bench| -> Vec<usize> {
        let held = std::fs::read_dir(bench.path("out")).into_iter().flatten().map(|it| it.expect("a page").file_name());
        let of = |it: std::ffi::OsString| -> Option<usize> {
            let name = it.to_string_lossy().into_owned();
            name.strip_prefix("week-3_")?.split('_').next()?.parse().ok()
        };
        held.filter_map(of).collect()
    };
    let all =
        ["release", "week-3.ron", "in", "--at", AFTER, "--register", "kept.db", "--pages", "out", "--by", "A. Reed"];
    let mut cut_short = 0;
    // By what it has done rather than by the clock: at once, after one page, after some.
    for count in [0, 1, 4, 9, 15, 21] {
        let mut child = bench.spawn(&all);
        while pages(&bench).len() < count && child.try_wait().expect("asked").is_none() {
            std::thread::sleep(std::time::Duration::from_millis(1));
        }
        child.kill().expect("killed");
        child.wait().expect("ended");
        let told = releases(&bench);
        assert!(told.iter().all(|it| *it <= 1), "{told:?}");
        let pages = pages(&bench);
        assert!(pages.iter().all(|it| told[it - 1] == 1), "{pages:?} {told:?}");
        for it in &pages {
            let text = bench.read(&format!("out/week-3_{it}_wire-a-switch.html"));
            assert!(text.trim_end().ends_with("</html>"), "{it}");
        }
        cut_short += usize::from(pages.len() < 24);
    }
    assert!(cut_short > 0, "none was cut short: nothing is shown");
    assert_eq!(release(&bench, &[]).code, Some(0));
    assert_eq!((releases(&bench), pages(&bench).len()), (vec![1; 24], 24));
}

/// A comment on a step stands on its learner's page once it was made before the release, in the order of the steps; a later one does not.
#[test]
fn a_comment_on_a_step_is_shown_after_the_release() {
    let (bench, [receipt, _]) = two();
    let said = |step: &str, why: &str| {
        decide(&bench, &receipt, &["--as", "tutor", "--by", "A. Reed", "--step", step, "--why", why])
    };
    let steps = reviewed(&review(&bench, &["--json"]))["rows"][0]["files"][0]["steps"].as_u64().expect("steps");
    // The actions of the file are its lines without the first two, which name the attempt and its exercise.
    let lines = bench.read("in/week-3_1_wire-a-switch_1.attempt.ron").lines().count() as u64;
    assert_eq!(steps, lines - 2);
    said(&(steps + 1).to_string(), "x")
        .complains(&format!("error: there is no such step; this hand-in has steps 1 to {steps}\n"));
    said("0", "x").complains(&format!("error: there is no such step; this hand-in has steps 1 to {steps}\n"));
    said("2", " ").complains("error: say with `--why` what the reason is\n");
    assert_eq!(said("5", "tug it first").code, Some(0));
    let both = said("2", "well agreed");
    let (two, five) = (both.out.find("step 2 of the work"), both.out.find("step 5 of the work"));
    assert!(two.is_some() && two < five, "{}", both.out);
    assert!(both.out.contains(" stands, by the machine"), "a comment gives no mark: {}", both.out);
    assert_eq!(release(&bench, &["--learner", "1"]).code, Some(0));
    let page = bench.read("out/week-3_1_wire-a-switch.html");
    let (two, five) = (page.find("well agreed"), page.find("tug it first"));
    assert!(two.is_some() && two < five, "{page}");
    std::thread::sleep(std::time::Duration::from_millis(1100));
    assert_eq!(said("3", "said too late").code, Some(0));
    assert_eq!(release(&bench, &["--learner", "1"]).code, Some(0));
    assert!(!bench.read("out/week-3_1_wire-a-switch.html").contains("said too late"));
}

/// A phrase goes into the register in its words: a bank that is rewritten changes nothing that was said, and its learner reads it.
#[test]
fn phrases_are_taken_by_key_from_the_tutors_own_bank() {
    let (bench, [receipt, _]) = two();
    let bank = |text: &str| {
        bench.file("mine.ron", format!("Phrases(phrases: [\n    Phrase(key: \"cover\", text: {text:?}),\n])"))
    };
    let tutor = ["--as", "tutor", "--by", "A. Reed", "--marks", "90", "--phrases", "mine.ron", "--phrase", "cover"];
    bank("Fit the cover before you hand in.");
    let said = decide(&bench, &receipt, &[&tutor[..], &["--why", "The rose was open."]].concat());
    assert!(said.out.contains("90 marks; Fit the cover before you hand in. The rose was open."), "{}", said.out);
    bank("Something else.");
    assert_eq!(release(&bench, &["--learner", "1"]).code, Some(0));
    let page = bench.read("out/week-3_1_wire-a-switch.html");
    assert!(page.contains("Fit the cover before you hand in. The rose was open."), "{page}");
    // A key that the bank has not, and a bank that can't be read: said, with the line, and nothing is written.
    let before = decide(&bench, &receipt, &[]).out;
    let other: Vec<&str> = tutor.iter().map(|it| if *it == "cover" { "covers" } else { *it }).collect();
    decide(&bench, &receipt, &other).complains("error: there is no phrase `covers` in mine.ron; its keys are: cover\n");
    bank("");
    let broken = decide(&bench, &receipt, &tutor);
    assert!(broken.err.contains("mine.ron:2:32") && broken.code == Some(1), "{}", broken.err);
    assert_eq!(decide(&bench, &receipt, &[]).out, before);
    // Without a bank of one's own, that of the program.
    let own = ["--as", "tutor", "--by", "A. Reed", "--finding", "none@none", "--phrase", "no-such-key"];
    assert!(
        decide(&bench, &receipt, &own).err.contains("the bank that comes with the program; its keys are: earth-first,")
    );
}
