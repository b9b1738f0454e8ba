//! marking.md, "Safe working", where no fault file, slip or scenario of its own shows a line of it.

use std::sync::Arc;

use switchdrop::{
    attempt::{ActKind, Attempt, Happened, Mode, dead_tests_left, readings_to_take, settings_to_predict},
    exercise::{LocationId, Seed, Stage, read},
    marking::{Code, Outcome, Sheet, mark},
    trade::{
        colour::{Colour, Mark},
        instrument::{Function, loop_impedance::Range, rcd},
    },
    work::{Action, Check, Detector, Fault, Feel, KitPart, Refused, Subject, Test},
};

use crate::{
    hand::{Hand, exercise, marked, one_way_model, onto_a_short, two_way_model},
    tested::{INSULATION, WIRING, measure, record, sheet, sound, with},
};

#[track_caller]
#[expect(clippy::needless_pass_by_value, reason = "every caller makes the action on the spot")]
fn stops(hand: &mut Hand, action: Action, kind: ActKind) {
    assert_eq!(hand.attempt.act(action.clone()).unwrap().stopped(), Some(kind), "{action:?}");
}

fn remove(location: &str) -> Action {
    Action::RemoveCover { location: location.to_owned() }
}

fn connect() -> Action {
    Action::Connect { end: "feed/brown@rose".to_owned(), terminal: "rose.loop".to_owned() }
}

/// The tested light with its rose open: everything done but what is in `skip`.
fn opened(skip: &str) -> Hand {
    let mut hand = Hand::new(sound());
    let device = || "board.1".to_owned();
    if skip != "identify" {
        hand.does(Action::Identify { location: "rose".to_owned(), devices: vec![device()] });
    }
    if skip != "agree" {
        hand.does(Action::Agree);
    }
    hand.does(Action::PowerOff { device: device() });
    hand.does(Action::LockOff { device: device() });
    hand.does(remove("rose"));
    if skip == "lock" {
        hand.does(Action::Unlock { device: device() });
    }
    hand
}

fn rose(hand: &Hand) -> LocationId {
    hand.attempt.work().location("rose").unwrap()
}

/// The dead tests that the rose needs, as actions.
fn dead_tests(hand: &Hand) -> Vec<Action> {
    let work = hand.attempt.work();
    let tests = dead_tests_left(&hand.attempt, rose(hand)).into_iter();
    tests
        .map(|it| {
            let [a, b] = [it.a, it.b].map(|it| work.point_address(it));
            Action::TestDead { a, b, with: Detector::Indicator }
        })
        .collect()
}

/// Proves the indicator, tests, and proves it again; something done before the last test.
fn round(hand: &mut Hand, between: &[Action]) {
    hand.does(Action::ProveIndicator);
    let tests = dead_tests(hand);
    let (last, first) = tests.split_last().unwrap();
    for it in first {
        hand.does(it.clone());
    }
    for it in between {
        hand.does(it.clone());
    }
    hand.does(last.clone());
    hand.does(Action::ProveIndicator);
}

/// Identify, agree, lock: each before the dead test, or it proves nothing.
#[test]
fn a_dead_test_proves_nothing_before_every_step_that_comes_first() {
    for skip in ["identify", "agree", "lock", ""] {
        let mut hand = opened(skip);
        round(&mut hand, &[]);
        assert_eq!(hand.attempt.safety().is_proved(rose(&hand)), skip.is_empty(), "{skip}");
        if skip == "lock" {
            // Locked afterwards: too late.
            hand.does(Action::LockOff { device: "board.1".to_owned() });
        }
        if !skip.is_empty() {
            stops(&mut hand, connect(), ActKind::TouchedUnproved);
        }
    }
}

/// Prove the indicator, test, prove it again with nothing between; working a switch is part of the tests.
#[test]
fn nothing_comes_between_the_two_proofs_of_the_indicator() {
    let person = || Action::Confirm { check: Check::PeopleTold };
    let report = || Action::Report { at: "rose".to_owned(), what: Fault::Wiring };
    let operate = || Action::Operate { switch: "switch".to_owned(), position: 1 };
    for (between, proves) in [
        (vec![], true),
        (vec![operate()], true),
        (vec![person()], false),
        (vec![Action::Agree], false),
        (vec![report()], false),
    ] {
        let mut hand = opened("");
        round(&mut hand, &between);
        assert_eq!(hand.attempt.safety().is_proved(rose(&hand)), proves, "{between:?}");
    }
    // Nor does it without the second proof, or the first.
    let mut hand = opened("");
    hand.does(Action::ProveIndicator);
    for it in dead_tests(&hand) {
        hand.does(it);
    }
    stops(&mut hand, connect(), ActKind::TouchedUnproved);
    let mut hand = opened("");
    for it in dead_tests(&hand) {
        hand.does(it);
    }
    hand.does(Action::ProveIndicator);
    stops(&mut hand, connect(), ActKind::TouchedUnproved);
}

/// Proving unit or known live source alike: here the porch light's holder, on a circuit that stays on. A flat indicator shows
/// nothing there either.
#[test]
fn a_known_live_source_proves_the_indicator_as_well_as_the_unit() {
    let porch = include_str!("scenarios/old-work.ron")
        .replace(r#"from: "old", to: "porch""#, r#"from: "board", to: "porch""#)
        .replace(r#""porch-feed/brown@old", at: "old.COM""#, r#""porch-feed/brown@board", at: "board.2.line""#)
        .replace(r#""porch-feed/blue@old", at: "old.connector.1""#, r#""porch-feed/blue@board", at: "board.2.neutral""#)
        .replace(r#""porch-feed/cpc@old", at: "old.box.earth""#, r#""porch-feed/cpc@board", at: "board.earth""#);
    for (kit, position, proves) in [("Sound", 1, true), ("Flat", 1, false), ("Sound", 0, false)] {
        let scenario = porch.replace("stages: [", &format!("kit: Kit(indicator: {kit}), stages: ["));
        let mut hand = Hand::new(Arc::new(read(&scenario, Seed(0)).unwrap_or_else(|it| panic!("{it:#?}"))));
        hand.does(Action::Identify { location: "new".to_owned(), devices: vec!["board.1".to_owned()] });
        hand.does(Action::Agree);
        hand.does(Action::PowerOff { device: "board.1".to_owned() });
        hand.does(Action::LockOff { device: "board.1".to_owned() });
        hand.does(remove("new"));
        hand.does(Action::RemoveLamp { lamp: "porch-lamp".to_owned() });
        if position == 1 {
            hand.does(Action::Operate { switch: "porch".to_owned(), position });
        }
        let test = |a: String, b: String| Action::TestDead { a, b, with: Detector::Indicator };
        let live = || test("porch-lamp.1".to_owned(), "porch-lamp.2".to_owned());
        hand.does(live());
        let new = hand.attempt.work().location("new").unwrap();
        for it in dead_tests_left(&hand.attempt, new) {
            let [a, b] = [it.a, it.b].map(|it| hand.attempt.work().point_address(it));
            hand.does(test(a, b));
        }
        hand.does(live());
        assert_eq!(hand.attempt.safety().is_proved(new), proves, "{kit} {position}");
    }
}

/// At a switch box with no neutral: every conductor to earth and to every other, as the switch stands. Any one left out, and the box
/// is not proved; a neutral that is not there is no omission.
#[test]
fn every_dead_test_of_a_switch_box_is_needed_and_no_other() {
    let mut hand = Hand::new(sound());
    hand.isolates();
    hand.wires(WIRING);
    let place = hand.attempt.work().location("switch").unwrap();
    hand.does(Action::ProveIndicator);
    let left = dead_tests_left(&hand.attempt, place);
    // COM and L1 to earth and to each other. The rocker can make nothing live there that a probe was not on.
    assert_eq!(left.len(), 3, "{left:?}");
    for skipped in 0..=left.len() {
        // Closed up and opened again: to be proved afresh.
        hand.does(Action::FitCover { location: "switch".to_owned() });
        hand.does(remove("switch"));
        hand.does(Action::ProveIndicator);
        for (_, it) in left.iter().enumerate().filter(|it| it.0 != skipped) {
            hand.sets(&it.positions);
            let [a, b] = [it.a, it.b].map(|it| hand.attempt.work().point_address(it));
            hand.does(Action::TestDead { a, b, with: Detector::Indicator });
        }
        hand.does(Action::ProveIndicator);
        assert_eq!(hand.attempt.safety().is_proved(place), skipped == left.len(), "without {skipped}");
    }
}

/// At a rose line to neutral, line to earth, neutral to earth, of each cable.
#[test]
fn a_rose_is_tested_between_line_neutral_and_earth() {
    let mut hand = opened("");
    hand.does(Action::ProveIndicator);
    let tests = dead_tests(&hand);
    for (a, b) in [
        ("feed/brown@rose", "feed/blue@rose"),
        ("feed/brown@rose", "feed/cpc@rose"),
        ("feed/blue@rose", "feed/cpc@rose"),
    ] {
        let is =
            |it: &Action| matches!(it, Action::TestDead { a: x, b: y, .. } if x == a && y == b || x == b && y == a);
        assert!(tests.iter().any(is), "{a} {b}: {tests:?}");
    }
}

/// Zero volts to a cpc that is joined to nothing says nothing about earth; to the earthing terminal beside the board it does.
#[test]
fn zero_volts_to_an_unearthed_cpc_prove_nothing() {
    let mut hand = Hand::new(sound());
    for (at, counts) in [("drop/cpc@switch", false), ("board.earth", true)] {
        let mut it = Hand { attempt: isolated(&mut hand).attempt.clone() };
        it.does(Action::ProveIndicator);
        let place = it.attempt.work().location("switch").unwrap();
        let before = it.attempt.safety().tests_left(it.attempt.work(), place).len();
        let (a, b) = ("drop/brown@switch".to_owned(), at.to_owned());
        it.does(Action::TestDead { a, b, with: Detector::Indicator });
        let after = it.attempt.safety().tests_left(it.attempt.work(), place).len();
        assert_eq!(before - after, usize::from(counts), "{at}");
    }
}

fn isolated(hand: &mut Hand) -> Hand {
    let mut hand = Hand { attempt: hand.attempt.clone() };
    hand.does(Action::Identify { location: "switch".to_owned(), devices: vec!["board.1".to_owned()] });
    hand.does(Action::Agree);
    hand.does(Action::PowerOff { device: "board.1".to_owned() });
    hand.does(Action::LockOff { device: "board.1".to_owned() });
    hand.does(remove("switch"));
    hand
}

/// Opening a box again: isolate and prove again. With the power back between; and with the lock on all the time.
#[test]
fn a_box_opened_again_is_isolated_and_proved_again() {
    let mut hand = two_way_model();
    let log = hand.attempt.log().to_vec();
    hand.attempt = Attempt::replay(Arc::clone(hand.attempt.work().exercise()), log[..log.len() - 1].to_vec()).unwrap();
    let again = || Action::Disconnect { end: "light/brown@kiln".to_owned() };
    stops(&mut hand, remove("kiln"), ActKind::WorkedLive);
    for device in ["board.1", "board.2"] {
        hand.does(Action::PowerOff { device: device.to_owned() });
    }
    stops(&mut hand, remove("kiln"), ActKind::OpenedUnlocked);
    for device in ["board.1", "board.2"] {
        hand.does(Action::LockOff { device: device.to_owned() });
    }
    hand.does(remove("kiln"));
    stops(&mut hand, again(), ActKind::TouchedUnproved);
    let kiln = hand.attempt.work().location("kiln").unwrap();
    hand.proves_dead(kiln);
    hand.does(again());
    hand.does(Action::FitCover { location: "kiln".to_owned() });
    hand.does(remove("kiln"));
    let connect = Action::Connect { end: "light/brown@kiln".to_owned(), terminal: "kiln.1.L2".to_owned() };
    stops(&mut hand, connect, ActKind::TouchedUnproved);
}

/// Own lock off first; the people told and nobody at work, each, and again after a place was opened since.
#[test]
fn power_on_waits_for_every_check_and_for_ones_own_lock() {
    let model = one_way_model();
    let log = model.attempt.log();
    let before_on = log.iter().position(|it| matches!(it, Action::Unlock { .. })).unwrap();
    let device = match &log[before_on] {
        Action::Unlock { device } => device.clone(),
        other => panic!("{other:?}"),
    };
    let on = || Action::PowerOn { device: device.clone() };
    for left_out in [Check::NobodyAtWork, Check::PeopleTold] {
        let rest = log[..=before_on].iter().filter(|it| **it != Action::Confirm { check: left_out });
        let exercise = Arc::clone(model.attempt.work().exercise());
        let mut hand = Hand { attempt: Attempt::replay(exercise, rest.cloned()).unwrap() };
        stops(&mut hand, on(), ActKind::PowerOnUnchecked);
    }
    let exercise = Arc::clone(model.attempt.work().exercise());
    let mut hand = Hand { attempt: Attempt::replay(exercise, log[..before_on].to_vec()).unwrap() };
    assert!(matches!(hand.attempt.act(on()), Err(Refused::Locked { .. })));
    hand.does(remove("rose"));
    hand.does(Action::FitCover { location: "rose".to_owned() });
    hand.does(Action::Unlock { device: device.clone() });
    stops(&mut hand, on(), ActKind::PowerOnUnchecked);
    for check in [Check::NobodyAtWork, Check::PeopleTold] {
        hand.does(Action::Confirm { check });
    }
    hand.does(on());
}

/// Never live: connecting, disconnecting, sleeving, tightening, a plate off, continuity. A plate does not come off what is on, and
/// no power comes on past an open one; with the lock off nothing inside is touched.
#[test]
fn no_handwork_is_done_live() {
    let mut hand = Hand::new(sound());
    for place in ["rose", "switch"] {
        stops(&mut hand, remove(place), ActKind::WorkedLive);
    }
    hand.isolates();
    hand.wires("feed/brown@rose rose.loop\ndrop/brown@rose rose.loop\ndrop/blue@rose rose.switched");
    hand.does(Action::Connect { end: "flex/brown@rose".to_owned(), terminal: "rose.switched".to_owned() });
    hand.does(Action::Unlock { device: "board.1".to_owned() });
    stops(&mut hand, Action::PowerOn { device: "board.1".to_owned() }, ActKind::PowerOnOpen);
    let end = || "drop/brown@rose".to_owned();
    for it in [
        Action::Connect { end: "feed/blue@rose".to_owned(), terminal: "rose.neutral".to_owned() },
        Action::Disconnect { end: end() },
        Action::Mark { end: end(), mark: Mark::Tape(Colour::Brown) },
        Action::Tighten { terminal: "rose.switched".to_owned(), feel: Feel::Right },
        Action::Tug { end: end() },
        Action::Continuity { a: "rose.loop".to_owned(), b: "feed/blue@rose".to_owned() },
        measure(Function::Continuity, "rose.loop", "rose.switched"),
        measure(INSULATION, "rose.loop", "rose.switched"),
    ] {
        stops(&mut hand, it, ActKind::TouchedUnproved);
    }
}

/// No reset after a trip before a dead test; and each power put back onto a fault is in the tally.
#[test]
fn each_reset_onto_a_fault_is_counted() {
    let mut hand = onto_a_short(exercise("one-way-rose", 4));
    let operate = Action::Operate { switch: "switch".to_owned(), position: 1 };
    assert!(matches!(hand.attempt.act(operate), Ok(Happened::Tripped(_))));
    let reset = || Action::Reset { device: "board.2".to_owned() };
    stops(&mut hand, reset(), ActKind::ResetUntested);
    let onto = |hand: &Hand| hand.attempt.tally().energised.iter().filter(|it| !it.tripped.is_empty()).count();
    assert_eq!(onto(&hand), 1);
    hand.does(Action::LockOff { device: "board.2".to_owned() });
    hand.does(remove("rose"));
    let rose = rose(&hand);
    hand.proves_dead(rose);
    hand.closes_up();
    hand.does(Action::Unlock { device: "board.2".to_owned() });
    hand.sets(&[1]);
    assert!(matches!(hand.attempt.act(reset()), Ok(Happened::Tripped(_))));
    assert_eq!(onto(&hand), 2);
}

/// The answer given first is the answer.
#[test]
fn an_answer_is_locked() {
    let mut hand = Hand::new(exercise("one-way-rose", 4));
    let positions = settings_to_predict(hand.attempt.work().exercise())[0].clone();
    let answer = |lit: &[&str]| {
        let lit = lit.iter().map(|it| (*it).to_owned()).collect();
        Action::Predict { positions: positions.clone(), lit, live: vec![] }
    };
    hand.does(answer(&["lamp"]));
    assert_eq!(hand.attempt.act(answer(&[])), Err(Refused::NoSuchQuestion));
    assert_eq!(hand.attempt.tally().predictions.len(), 1);
}

/// An indicator that failed its proof, or was changed for another, is reported: another for oneself leaves it on the shelf. Nobody
/// is asked about one that was never tried, or that works.
#[test]
fn an_indicator_that_failed_is_reported_whether_changed_or_not() {
    let change = || Action::Change { kit: KitPart::Indicator };
    let report = || Action::Report { at: "board".to_owned(), what: Fault::Indicator };
    for (kit, steps, asked) in [
        ("Flat", vec![Action::ProveIndicator], true),
        ("Flat", vec![change()], true),
        ("LeadBroken", vec![Action::ProveIndicator, change()], true),
        ("Flat", vec![Action::ProveIndicator, change(), report()], false),
        ("Flat", vec![report(), change()], false),
        ("Flat", vec![], false),
        ("Sound", vec![Action::ProveIndicator, change()], false),
    ] {
        let mut attempt = Attempt::new(with("stages: [", &format!("kit: Kit(indicator: {kit}),\n    stages: [")));
        for it in steps.iter().cloned().chain([Action::HandIn]) {
            attempt.act(it).unwrap();
        }
        let found = mark(&attempt, Mode::Set).findings;
        let board = Subject::Location(attempt.work().location("board").unwrap());
        let said: Vec<_> = found.iter().filter(|it| it.code == Code::IndicatorUnreported).collect();
        assert_eq!(said.len(), usize::from(asked), "{kit} {steps:?}");
        assert!(said.iter().all(|it| it.lost > 0 && it.at == board));
    }
}

/// A flat indicator, found out and changed; reported, or not.
pub fn with_a_flat_indicator(reported: bool) -> Sheet {
    let mut attempt = Attempt::new(with("stages: [", "kit: Kit(indicator: Flat), stages: ["));
    attempt.act(Action::ProveIndicator).unwrap();
    if reported {
        attempt.act(Action::Report { at: "board".to_owned(), what: Fault::Indicator }).unwrap();
    }
    attempt.act(Action::Change { kit: KitPart::Indicator }).unwrap();
    sheet(&attempt)
}

/// Supply polarity, loop impedance, residual current device: in that order, each read before the next.
#[test]
fn live_tests_have_their_order() {
    let polarity = || ["board.1.neutral", "board.earth"].map(|it| measure(Function::Voltage, "board.1.line", it));
    let rest = || measure(Function::Voltage, "board.1.neutral", "board.earth");
    let zs = || measure(Function::Loop(Range::NoTrip), "board.1.line", "board.earth");
    let time = || measure(Function::Rcd(rcd::Test::Rated), "board.1.line", "board.earth");
    for (steps, early) in [
        ([polarity().to_vec(), vec![rest(), zs(), time()]].concat(), vec![]),
        ([vec![zs()], polarity().to_vec(), vec![rest(), time()]].concat(), vec!["loop-impedance"]),
        (
            [polarity().to_vec(), vec![rest(), time(), Action::Reset { device: "board.1".to_owned() }, zs()]].concat(),
            vec!["residual-device"],
        ),
    ] {
        let mut hand = Hand::new(sound());
        hand.isolates();
        hand.wires(WIRING);
        crate::tested::tests_dead(&mut hand);
        crate::tested::energises_without_ze(&mut hand);
        for it in &steps {
            hand.attempt.act(it.clone()).unwrap();
        }
        let found = marked(&hand.attempt);
        let order: Vec<_> = found.placed(|it| it.code == Code::TestOrder).map(|it| it.1).collect();
        assert_eq!(order, early, "{steps:?}");
    }
}

/// Inspection comes first: a dead test before it is early.
#[test]
fn inspection_comes_before_every_test() {
    let skip = |it: &Action| matches!(it, Action::Inspect { .. });
    let late = crate::tested::changed(|it| match it {
        it if skip(it) => vec![],
        Action::RemoveLamp { .. } => vec![it.clone()],
        Action::TakeLink { .. } => {
            vec![it.clone(), crate::tested::inspect("rose"), crate::tested::inspect("switch")]
        }
        it => vec![it.clone()],
    });
    let found = marked(&late);
    let order: Vec<_> = found.placed(|_| true).map(|(it, at)| (it.code, at)).collect();
    assert_eq!(order, [(Code::TestOrder, "continuity")]);
    assert_eq!(found.outcome, Outcome::Pass);
}

/// What the sheet still asks for is what the learner is shown: after a failure nothing is left out of it.
#[test]
fn a_failure_put_right_asks_for_every_earlier_test_again() {
    let mut hand = Hand::new(sound());
    hand.isolates();
    hand.wires(WIRING);
    crate::tested::tests_dead(&mut hand);
    for stage in [Stage::Continuity, Stage::Insulation] {
        assert!(readings_to_take(&hand.attempt, stage).is_empty());
    }
    hand.does(record(Test::InsulationLineEarth, ">299", false));
    hand.does(Action::Disconnect { end: "drop/blue@switch".to_owned() });
    hand.wires("drop/blue@switch switch.L1");
    for stage in [Stage::Inspection, Stage::Continuity, Stage::Insulation, Stage::Polarity] {
        assert!(!hand.attempt.safety().is_done(&sound(), stage), "{stage:?}");
    }
}
