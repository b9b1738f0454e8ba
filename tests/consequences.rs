//! A fault played to its end after hand-in: by which conductors, what opens and how fast, what a hand would meet. And files
//! of earlier versions, which are read as before.

// Every code that tells it, with its sums.
mod paper;

use std::{fs, path::Path, sync::Arc};

use switchdrop::{
    attempt::{Attempt, Mode, open},
    exercise::Edition,
    marking::{Finding, Outcome, Root, Sheet, mark},
    report::{Consequence, consequence, moments, would_have},
    wording::Wording,
    work::{Action, Subject},
};

use crate::{bench::Bench, hand::one_way_model};

/// The model of an exercise with its actions changed; what is stopped or refused then is left at that.
fn changed(of: &Attempt, change: impl Fn(&Action) -> Vec<Action>) -> Attempt {
    let mut attempt = Attempt::new(Arc::clone(of.work().exercise()));
    for action in of.log().iter().flat_map(change) {
        let _ = attempt.act(action);
    }
    attempt
}

fn connects(it: &Action, which: &str) -> bool {
    matches!(it, Action::Connect { end, .. } if end == which)
}

/// The sheet, and what each finding would have led to.
fn played(attempt: &Attempt) -> (Sheet, Vec<Option<Consequence>>) {
    let sheet = mark(attempt, Mode::Set);
    let would_have = (0..sheet.findings.len()).map(|it| consequence(attempt, &sheet, it)).collect();
    (sheet, would_have)
}

/// A way, as files have it.
fn addresses(attempt: &Attempt, way: &[Subject]) -> Vec<String> {
    way.iter().map(|it| it.address(attempt.work().exercise())).collect()
}

/// The first cause of a code, by its place on the sheet.
#[track_caller]
fn cause(sheet: &Sheet, code: &str) -> usize {
    let wanted = |it: &Finding| it.code.word() == code && it.root == Root::Itself;
    sheet.findings.iter().position(wanted).unwrap_or_else(|| panic!("no {code}: {:#?}", sheet.findings))
}

/// The switch return in the neutral block: line and neutral meet when the switch is on.
fn shorted() -> Attempt {
    let model = one_way_model().attempt;
    changed(&model, |it| match it {
        Action::Connect { end, .. } if end == "drop/blue@rose" => {
            vec![Action::Connect { end: end.clone(), terminal: "rose.neutral".to_owned() }]
        }
        it => vec![it.clone()],
    })
}

/// On paper: the way from loop to neutral by the drop is whole once both its browns and both its blues are in; but the wrong was done as
/// the drop's return went into the neutral block, and with that it arose.
#[test]
fn a_short_arose_as_the_return_went_where_it_is_wrong() {
    let attempt = shorted();
    let sheet = mark(&attempt, Mode::Set);
    let wrong = attempt.log().iter().rposition(|it| connects(it, "drop/blue@rose"));
    assert_eq!(moments(&attempt, &sheet)[cause(&sheet, "short-line-neutral")], wrong);
}

/// On paper: out by the two browns, back by the two blues; 230 V over about an ohm is well over 100 A, and a 6 A type B device
/// opens on more than five times its rating in less than 0.1 s (BS EN 60898-1).
#[test]
fn a_short_played_out_goes_by_its_cores_and_opens_the_device() {
    let attempt = shorted();
    let (sheet, played_out) = played(&attempt);
    let found = played_out[cause(&sheet, "short-line-neutral")].as_ref().expect("a course");
    let Consequence::Opens { way, amps, opened, .. } = found else { panic!("{found:?}") };
    assert_eq!(addresses(&attempt, way), ["board.2", "feed/brown", "drop/brown", "drop/blue", "feed/blue"]);
    assert!(*amps > 100.0, "{amps}");
    assert!(opened.len() == 1 && (opened[0].within - 0.1).abs() < 1e-9, "{opened:?}");
    let said = would_have(&Wording::british(), attempt.work(), found);
    assert!(said.ends_with("circuit 2 trips within 0.1 s."), "{said}");
}

/// Ohm's law: 230 V over a body of 2,000 ohm (and nothing else to speak of) is 115 mA; that is 3.8 times 30 mA, and a residual
/// current device opens on twice its rating within 150 ms (BS EN 61009-1).
#[test]
fn a_hand_on_a_live_lampholder_gets_the_whole_voltage_and_then_the_device_opens() {
    let attempt = changed(&one_way_model().attempt, |it| match it {
        Action::Connect { end, .. } if end == "flex/brown@rose" => {
            vec![Action::Connect { end: end.clone(), terminal: "rose.loop".to_owned() }]
        }
        it => vec![it.clone()],
    });
    let (sheet, played_out) = played(&attempt);
    let told = sheet.findings.iter().zip(&played_out).find(|(it, _)| it.root == Root::Itself).expect("a cause").1;
    let Some(Consequence::Touch { volts, amps, opened: Some(opened), way, first_fault, .. }) = told else {
        panic!("{told:?}")
    };
    assert!((225.0..=230.0).contains(volts), "{volts}");
    assert!((0.112..=0.115).contains(amps), "{amps}");
    assert!((opened.within - 0.15).abs() < 1e-9 && !first_fault, "{opened:?}");
    let way = addresses(&attempt, way);
    assert_eq!(way.first().map(String::as_str), Some("board.2"));
    assert!(way.contains(&"feed/brown".to_owned()) && way.contains(&"flex/brown".to_owned()), "{way:?}");
}

/// The drop's cpc left out: the metal box has no earth, and a line against it leaves it at the full voltage. The residual
/// current device sees nothing until somebody touches it (no current flows before).
#[test]
fn metal_with_no_earth_waits_for_a_hand() {
    let attempt = changed(&one_way_model().attempt, |it| {
        if connects(it, "drop/cpc@switch") || connects(it, "drop/cpc@rose") { Vec::new() } else { vec![it.clone()] }
    });
    let (sheet, played_out) = played(&attempt);
    let told: Vec<&Consequence> = played_out.iter().flatten().collect();
    let touch = told.iter().find_map(|it| match it {
        Consequence::Touch { first_fault: true, volts, way, .. } => Some((*volts, way)),
        _ => None,
    });
    let (volts, way) = touch.unwrap_or_else(|| panic!("{:#?}", sheet.findings));
    assert!((225.0..=230.0).contains(&volts), "{volts}");
    let way = addresses(&attempt, way);
    assert_eq!(way.last().map(String::as_str), Some("switch.box.earth"), "{way:?}");
    for it in told {
        let said = would_have(&Wording::british(), attempt.work(), it);
        assert!(!said.contains('['), "{said}");
        assert!(!matches!(it, Consequence::Touch { .. }) || said.contains("To touch it is never safe."), "{said}");
    }
}

/// What earlier versions of the program wrote and earned everything goes on being read, and earns what it earned.
#[test]
fn attempts_of_earlier_versions_earn_what_they_earned() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/old");
    let paths = fs::read_dir(folder).unwrap().map(|it| it.unwrap().path());
    let mut kept: Vec<_> = paths.filter(|it| it.extension().is_some_and(|it| it == "ron")).collect();
    kept.sort();
    assert!(kept.len() >= 4, "{kept:?}");
    for path in kept {
        let name = path.display().to_string();
        let opened = open(&fs::read_to_string(&path).unwrap()).unwrap_or_else(|it| panic!("{name}: {it:?}"));
        let sheet = mark(&opened.replay().unwrap_or_else(|it| panic!("{name}: {it:?}")), Mode::Set);
        assert_eq!((sheet.outcome, sheet.marks), (Outcome::Pass, sheet.out_of), "{name}: {:#?}", sheet.findings);
        assert_eq!(sheet.edition, Edition::A2of2022, "{name}");
    }
}

/// A file as the first version of the marking wrote it, `tightness` and all: its digest holds, and its marks are what they were.
/// The exercise has been altered since, which is said.
#[test]
fn an_attempt_of_the_first_version_is_read_as_before() {
    let bench = Bench::new();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/old/marking-1.attempt.ron");
    bench.file("old", fs::read(path).expect("it is kept"));
    let run = bench.run(&["mark", "--json", "old"]);
    let notice = "notice: old: the exercise in it is not what the scenario at hand gives for its seed; it is marked as it stands\n\
                  notice: old was begun under another version of the marking; it is marked by this one\n";
    assert_eq!((run.err.as_str(), run.code), (notice, Some(0)));
    let json: serde_json::Value = serde_json::from_str(&run.out).expect("JSON");
    assert_eq!((&json["differs"], &json["marks"], &json["outcome"]), (&true.into(), &100.into(), &"pass".into()));
    // What its format had no words for is said in one line; of a file of today it is not.
    let said = "naming what feeds a place is enough";
    assert!(bench.run(&["mark", "old"]).out.contains(said));
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("exercises/one-way-rose/model.attempt.ron");
    bench.file("new", fs::read(path).expect("it is there"));
    assert!(!bench.run(&["mark", "new"]).out.contains(said));
    assert_eq!(
        json["criteria"][4],
        serde_json::json!({"name": "terminations", "marks": 10, "out_of": 10, "not_awarded": 0})
    );
}
