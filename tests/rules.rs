//! Rules that no fault file of the shipped scenarios fires, each with its near miss; and the proof that every code has both.

mod sheets;

use std::{collections::BTreeSet, sync::Arc};

use switchdrop::{
    attempt::{Happened, Mode},
    exercise::{Seed, read},
    marking::{Code, Outcome, Sheet, Weight, mark},
    work::{Action, Check, Fault, Source, Test},
};

use crate::{
    exercises::fired_by_files,
    hand::{Hand, exercise, one_way_model, two_way_model},
    installations::{BATHROOM, BATHROOM_WIRED, wired as installation},
    tested::{INSULATION, measure, with},
};

use sheets::*;

/// A code, a sheet on which it stands, and one on which it only might.
type Case = (&'static str, fn() -> Sheet, fn() -> Sheet);

const CASES: &[Case] = &[
    // Five of 500 W draw 10.9 A, 1.8 times the rating: open within the hour. Three draw 6.5 A, under 1.13 times: held for
    // good (BS EN 60898-1).
    ("overload", || lamps_of_500_watts(5), || lamps_of_500_watts(3)),
    (
        "borrowed-neutral",
        || sheet(&passage_with("flex/brown@box box.L1\nflex/blue@box box.connector.3")),
        || sheet(&right_passage()),
    ),
    ("socket-reversed", || crate::cases::whole("g77"), || crate::cases::whole("plain")),
    ("fuse-in-neutral", || fused(true), || fused(false)),
    ("load-through-earth", || crate::cases::whole("r1-fe"), || sheet(&one_way_model().attempt)),
    ("neutral-earth-joined", || crate::cases::whole("c53d"), || crate::cases::whole("c53b")),
    (
        "outer-contact-line",
        || sheet(&passage_with("flex/blue@box Sleeve(Brown) box.L1\nflex/brown@box Sleeve(Blue) box.connector.1")),
        || sheet(&right_passage()),
    ),
    (
        "rocker-inverted",
        || sheet(&passage_with("flex/brown@box box.L2\nflex/blue@box box.connector.1")),
        || sheet(&right_passage()),
    ),
    (
        "cores-parallel",
        || supposing(&two_way_model(), &[("link/grey@kiln", Some("kiln.1.L1")), ("link/grey@clay", Some("clay.L1"))]),
        || supposing(&two_way_model(), &[("link/grey@kiln", Some("kiln.1.L1"))]),
    ),
    (
        "tail-advised",
        || {
            let moves = ["link/cpc@clay", "made-1/a@clay"].map(|it| (it, Some("clay.plate.earth")));
            supposing(&two_way_model(), &moves)
        },
        || {
            let moves = ["link/cpc@clay"].map(|it| (it, Some("clay.plate.earth")));
            supposing(&two_way_model(), &moves)
        },
    ),
    (
        "loose-end",
        || {
            sheet(&wired(
                "two/red@box box.connector.2\none/brown@box box.COM\none/blue@box box.connector.1\nflex/brown@box box.L1\nflex/blue@box box.connector.1",
            ))
        },
        || sheet(&right_passage()),
    ),
    ("work-unfinished", || crate::cases::whole("assessor-30-blank"), || crate::cases::whole("house-twocore")),
    (
        "fan-wrong",
        || sheet(&installation(BATHROOM, &format!("{BATHROOM_WIRED}\nto-fan/brown@joint joint.T3"))),
        || sheet(&installation(BATHROOM, BATHROOM_WIRED)),
    ),
    ("cable-unchosen", || left_unchosen(&["along"]), || left_unchosen(&[])),
    ("bench-unproved", || crate::on_bench::opened_after(false), || crate::on_bench::opened_after(true)),
    ("unearthed", || crate::outside::disconnected(false), || crate::outside::disconnected(true)),
    ("figure-source", || crate::outside::card_as(Source::Read), || crate::outside::card_as(Source::Card)),
    ("board-unready", || crate::board::opened(false), || crate::board::opened(true)),
    ("reset-untested", || after_a_trip(false), || after_a_trip(true)),
    ("energised-onto-fault", || after_a_trip(true), || sheet(&one_way_model().attempt)),
    ("work-redone", || right_first_time(true), || after_a_trip(true)),
    ("reset-onto-fault", || right_first_time(false), || right_first_time(true)),
    ("hint-taken", || with_hint(4), || with_hint(0)),
    ("prediction-missing", || without(|it| matches!(it, Action::Predict { .. })), || without(|_| false)),
    ("stage-missing", || without(|it| matches!(it, Action::Confirm { .. })), || without(|_| false)),
    (
        "wrong-instrument",
        || tested(|it| if *it == Action::Agree { vec![it.clone(), stick()] } else { vec![it.clone()] }),
        whole,
    ),
    (
        "link-left-in",
        || tested(|it| if matches!(it, Action::TakeLink { .. }) { Vec::new() } else { vec![it.clone()] }),
        whole,
    ),
    (
        "fault-unreported",
        || on_tested(&with("stages: [", "kit: Kit(chart: Wrong), stages: ["), &[Action::HandIn]),
        || {
            let report = Action::Report { at: "board".to_owned(), what: Fault::Chart };
            on_tested(&with("stages: [", "kit: Kit(chart: Wrong), stages: ["), &[report, Action::HandIn])
        },
    ),
    ("energised-past-fault", || crate::before::energised_past(false), || crate::before::energised_past(true)),
    (
        "indicator-unreported",
        || crate::safe_working::with_a_flat_indicator(false),
        || crate::safe_working::with_a_flat_indicator(true),
    ),
    ("test-missing", || leaving_out(Test::ZsSum), whole),
    (
        "test-order",
        || {
            // The lines of insulation before those of continuity: read, and only then the link.
            let early = measure(INSULATION, "board.1.line", "board.earth");
            let one = Action::Operate { switch: "switch".to_owned(), position: 1 };
            let back = Action::Operate { switch: "switch".to_owned(), position: 0 };
            tested(|it| match it {
                Action::Null { .. } => vec![one.clone(), early.clone(), back.clone(), it.clone()],
                it => vec![it.clone()],
            })
        },
        whole,
    ),
    ("test-not-repeated", || reworked(false), || reworked(true)),
    (
        "instrument-set-wrong",
        || tested(|it| if matches!(it, Action::Null { .. }) { Vec::new() } else { vec![it.clone()] }),
        whole,
    ),
    ("figure-wrong", || writing(Test::R1R2, "0.62", true), || writing(Test::R1R2, "0.55", true)),
    ("figure-copied", || writing(Test::ZsSum, "5.82", true), whole),
    (
        "figure-unread",
        || tested(|it| if matches!(it, Action::ReadOrigin { .. }) { Vec::new() } else { vec![it.clone()] }),
        whole,
    ),
    (
        "test-incomplete",
        || {
            tested(|it| {
                if matches!(it, Action::RemoveLamp { .. } | Action::FitLamp { .. }) {
                    Vec::new()
                } else {
                    vec![it.clone()]
                }
            })
        },
        whole,
    ),
    ("figure-sign", || crate::cases::whole("assessor-44-IR-299-not-gt"), whole),
    (
        "insulation-low",
        || crate::tested::slips::over_low_insulation(true),
        || crate::tested::slips::over_low_insulation(false),
    ),
    (
        "lock-left-on",
        || {
            let off = Action::PowerOff { device: "board.1".to_owned() };
            let lock = Action::LockOff { device: "board.1".to_owned() };
            tested(
                |it| if *it == Action::HandIn { vec![off.clone(), lock.clone(), it.clone()] } else { vec![it.clone()] },
            )
        },
        whole,
    ),
    (
        "lamp-left-out",
        || {
            let out = Action::RemoveLamp { lamp: "lamp".to_owned() };
            let off = Action::PowerOff { device: "board.1".to_owned() };
            tested(
                |it| if *it == Action::HandIn { vec![off.clone(), out.clone(), it.clone()] } else { vec![it.clone()] },
            )
        },
        whole,
    ),
    ("judgement-wrong", || writing(Test::SupplyPolarity, "", false), whole),
    (
        "function-untested",
        || tested(|it| if matches!(it, Action::Operate { .. }) { Vec::new() } else { vec![it.clone()] }),
        whole,
    ),
    ("cover-off", || without(|it| matches!(it, Action::FitCover { .. })), || without(|_| false)),
];

fn has(sheet: &Sheet, code: &str) -> bool {
    sheet.findings.iter().any(|it| it.code.word() == code)
}

#[test]
fn each_rule_fires_and_misses_narrowly() {
    for (code, fires, misses) in CASES {
        assert!(has(&fires(), code), "{code} does not fire: {:#?}", fires().findings);
        assert!(!has(&misses(), code), "{code} is an accusation");
    }
}

#[test]
fn every_code_fires_somewhere_and_has_a_near_miss() {
    let mut fired: BTreeSet<String> = fired_by_files();
    fired.extend(CASES.iter().map(|it| it.0.to_owned()));
    fired.extend(crate::by_hand::fired());
    let missing: Vec<_> = Code::ALL.iter().map(|it| it.word()).filter(|it| !fired.contains(*it)).collect();
    assert!(missing.is_empty(), "nothing fires {missing:?}");
}

/// Lines of two circuits in one terminal of a box with a metal plate. A fault there opens the first device at once by
/// residual current; the second goes on feeding it through 100 m of 1.5 mm². On paper: 100 m out and back by the other
/// cpc at 12 and 18 milliohm a metre are some 2 ohm, so about 100 A, which is 3 times 32 A: up to a minute for a type D.
#[test]
fn a_fault_that_a_second_device_goes_on_feeding_is_not_cleared_in_time() {
    let joined = |kind: &str| {
        let text = include_str!("scenarios/passage.ron")
            .replace("earthing: Tt", "earthing: TnCS")
            .replace("kind: Rcbo6B30, circuit: \"cellar\"", &format!("kind: {kind}, circuit: \"cellar\""))
            .replace("kind: OldTwinEarth, mm2: 1.5, metres: 9.0", "kind: OldTwinEarth, mm2: 1.5, metres: 100.0");
        let lines = "one/brown@box box.COM\ntwo/red@box box.COM\none/blue@box box.connector.1\n\
                     two/black@box box.connector.2\nflex/brown@box box.L1\nflex/blue@box box.connector.1";
        sheet(&wired_in(Arc::new(read(&text, Seed(0)).unwrap()), lines))
    };
    assert!(has(&joined("Mcb32D"), "no-disconnection"));
    assert!(!has(&joined("Rcbo6B30"), "no-disconnection"));
}

/// What nothing on the board breaks is a short all the same; more load than a device carries is not.
#[test]
fn a_short_is_one_whatever_opens_and_an_overload_is_none() {
    for kind in ["Rcd30", "Mcb6B", "Rcbo6B30"] {
        assert!(has(&short_behind_a_residual_current_device(kind), "short-line-neutral"), "{kind}");
    }
    assert!(!has(&lamps_of_500_watts(5), "short-line-neutral"));
}

/// A two-way plate used one-way, old and new colours in one box, a spare line and neutral parked in connectors, TT: no
/// accusation (marking.md, "Never an accusation").
#[test]
fn an_unusual_and_safe_passage_has_no_finding() {
    let sheet = sheet(&right_passage());
    assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
    assert_eq!(sheet.outcome, Outcome::Pass);
}

/// Old colours by their own date: a red sleeve on the black core of an old cable used as line is right, on a new one not.
#[test]
fn old_colours_are_judged_by_their_own_date() {
    let light = "flex/brown@box box.L1\nflex/blue@box box.connector.1";
    let old = wired(&format!(
        "one/brown@box box.connector.2\none/blue@box box.connector.3\ntwo/red@box box.COM\ntwo/black@box box.connector.1\n{light}"
    ));
    assert!(sheet(&old).findings.is_empty());
    let exchanged = |black: &str, red: &str| {
        sheet(&wired(&format!(
            "one/brown@box box.connector.2\none/blue@box box.connector.3\ntwo/red@box {red} box.COM\ntwo/black@box {black} box.connector.1\n{light}"
        )))
    };
    assert!(!has(&exchanged("", "Sleeve(Red)"), "mark-false"));
    assert!(has(&exchanged("Sleeve(Red)", ""), "mark-false"));
    assert!(has(
        &sheet(&passage_with("flex/brown@box Sleeve(Red) box.L1\nflex/blue@box box.connector.1")),
        "mark-false"
    ));
}

/// In free practice a critical act warns and is counted; in set work it refers (marking.md, "Outcome").
#[test]
fn a_critical_act_refers_set_work_only() {
    let mut hand = Hand::new(exercise("one-way-rose", 4));
    let stopped = hand.attempt.act(Action::RemoveCover { location: "rose".to_owned() }).unwrap();
    assert!(matches!(stopped, Happened::Stopped(_)));
    let rest = one_way_model();
    for action in rest.attempt.log() {
        hand.attempt.act(action.clone()).unwrap();
    }
    assert_eq!(mark(&hand.attempt, Mode::Set).outcome, Outcome::Refer);
    let practice = mark(&hand.attempt, Mode::Practice);
    // It warns and is counted: no refer, and no pass either, which is without a critical act.
    assert_eq!(practice.outcome, Outcome::NotYet, "{:?}", practice.findings);
    assert!(practice.findings.iter().any(|it| it.weight == Weight::Critical));
}

/// Undo takes back handwork and not the tally (marking.md: a critical act put right afterwards must be caught).
#[test]
fn undo_takes_back_the_work_and_not_the_act() {
    let mut hand = Hand::new(exercise("one-way-rose", 4));
    hand.attempt.act(Action::RemoveCover { location: "rose".to_owned() }).unwrap();
    assert!(hand.attempt.act(Action::Undo).is_err(), "a stopped act is no work");
    hand.isolates();
    hand.wires("feed/brown@rose rose.loop");
    hand.does(Action::Undo);
    hand.does(Action::Undo);
    assert!(hand.attempt.work().terminal_of(hand.attempt.work().end("feed/brown@rose").unwrap()).is_none());
    hand.does(Action::Redo);
    assert!(hand.attempt.work().terminal_of(hand.attempt.work().end("feed/brown@rose").unwrap()).is_some());
    hand.does(Action::Confirm { check: Check::PeopleTold });
    assert!(hand.attempt.act(Action::Undo).is_err(), "no undo past a safety step");
    assert_eq!(hand.attempt.tally().acts.len(), 1);
}

/// What the sheet advises for a fuse in the neutral is carried out and marked again: the work is as the right one, which passes.
#[test]
fn the_repair_of_a_fuse_in_the_neutral_mends_it() {
    let wrong = fused_work(true);
    let sheet = mark(&wrong, Mode::Set);
    let fuse = sheet.findings.iter().find(|it| it.code.word() == "fuse-in-neutral").expect("it is found");
    assert_eq!((fuse.weight, sheet.outcome), (Weight::Critical, Outcome::Refer));
    let mended = mark(&wrong.supposing(fuse.repair.as_ref().expect("a repair")), Mode::Set);
    let right = fused(false);
    assert_eq!((mended.outcome, mended.marks), (Outcome::Pass, right.out_of), "{:#?}", mended.findings);
    assert_eq!(mended.findings, right.findings);
}
