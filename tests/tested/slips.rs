//! Slips of the sequence, each with what it must cost; and what is right though unusual, which costs nothing.

use switchdrop::{
    attempt::{ActKind, Happened},
    marking::{Bar, Code, Outcome, Root, Unmet, Weight},
    report::Story,
    trade::instrument::{Function, LeadLength, Shown, insulation::TestVolts, loop_impedance::Range},
    wording::{Wording, follows, shown},
    work::{Action, Check, Detector, Fault, KitPart, Refused, Subject, Test},
};

use super::*;

fn without(skip: impl Fn(&Action) -> bool) -> Sheet {
    sheet(&changed(|it| if skip(it) { Vec::new() } else { vec![it.clone()] }))
}

fn instead(of: impl Fn(&Action) -> bool, with: &Action) -> Sheet {
    sheet(&changed(|it| if of(it) { vec![with.clone()] } else { vec![it.clone()] }))
}

fn records(it: &Action, which: Test) -> bool {
    matches!(it, Action::Record { test, .. } if *test == which)
}

#[track_caller]
fn finds(sheet: &Sheet, code: Code) {
    assert_eq!(codes(sheet), [code.word()], "{:#?}", sheet.findings);
    assert!(sheet.marks < sheet.out_of);
}

/// Up to the dead tests, with other things done then.
fn prepared() -> Hand {
    let mut hand = Hand::new(sound());
    hand.isolates();
    hand.wires(WIRING);
    hand
}

fn finished(mut hand: Hand) -> Hand {
    energises(&mut hand);
    tests_live(&mut hand);
    hand.works_switches();
    hand.does(Action::HandIn);
    hand
}

#[track_caller]
#[expect(clippy::needless_pass_by_value, reason = "every caller makes the action on the spot")]
fn stopped(hand: &mut Hand, action: Action, kind: ActKind) {
    assert_eq!(hand.attempt.act(action.clone()).unwrap().stopped(), Some(kind), "{action:?}");
}

/// Power-on stays locked until the dead tests are done and written down.
#[test]
fn a_dead_test_left_out_keeps_the_power_locked() {
    for skip in [
        |it: &Action| matches!(it, Action::Inspect { location } if location == "switch"),
        |it: &Action| records(it, Test::R1R2),
        |it: &Action| records(it, Test::InsulationLineEarth),
        |it: &Action| records(it, Test::Polarity),
        |it: &Action| matches!(it, Action::Measure { function: Function::Insulation(_), a, b, .. } if a == "board.1.line" && b == "board.1.neutral"),
        |it: &Action| matches!(it, Action::Measure { function: Function::Continuity, a, .. } if a == "switch.COM"),
        |it: &Action| matches!(it, Action::Measure { function: Function::Continuity, a, .. } if a == "rose.switched"),
    ] {
        let sheet = without(skip);
        let codes = codes(&sheet);
        assert!(codes.contains(&"test-missing") && codes.contains(&"power-on-unchecked"), "{codes:?}");
        // The lines of the live tests are written all the same, and were never read: a critical act.
        assert!(codes.contains(&"figure-unread"), "{codes:?}");
        assert_eq!(sheet.outcome, Outcome::Refer);
    }
}

#[test]
fn a_live_test_left_out_is_missing() {
    let zs = |it: &Action| matches!(it, Action::ReadOrigin { .. }) || records(it, Test::ZsSum);
    let sheet = without(zs);
    finds(&sheet, Code::TestMissing);
    assert_eq!(sheet.outcome, Outcome::NotYet);
}

/// Worked before the last live test, a switch has not been worked last.
#[test]
fn switches_are_worked_last() {
    let mut hand = prepared();
    tests_dead(&mut hand);
    energises(&mut hand);
    hand.works_switches();
    hand.sets(&[0]);
    tests_live(&mut hand);
    hand.does(Action::HandIn);
    finds(&sheet(&hand.attempt), Code::FunctionUntested);
}

#[test]
fn insulation_before_continuity_is_out_of_order() {
    let mut hand = prepared();
    hand.does(inspect("rose"));
    hand.does(inspect("switch"));
    hand.opens_board();
    hand.sets(&[1]);
    hand.measures(INSULATION, "board.1.line", "board.earth");
    hand.closes_board();
    tests_dead(&mut hand);
    finds(&sheet(&finished(hand).attempt), Code::TestOrder);
}

/// Any handwork at a place of the circuit takes its tests back; repeated, nothing is lost.
#[test]
fn tests_are_repeated_after_work_that_may_have_touched_them() {
    for repeated in [false, true] {
        let mut hand = prepared();
        tests_dead(&mut hand);
        hand.does(Action::Disconnect { end: "drop/blue@switch".to_owned() });
        hand.wires("drop/blue@switch switch.L1");
        if repeated {
            hand.closes_board();
            tests_dead(&mut hand);
            assert!(sheet(&finished(hand).attempt).findings.is_empty());
        } else {
            predicts(&mut hand);
            hand.closes_up();
            hand.closes_board();
            hand.does(Action::Unlock { device: "board.1".to_owned() });
            stopped(&mut hand, Action::PowerOn { device: "board.1".to_owned() }, ActKind::PowerOnUnchecked);
            hand.does(Action::HandIn);
            let sheet = sheet(&hand.attempt);
            assert!(codes(&sheet).contains(&"test-not-repeated"), "{:?}", codes(&sheet));
        }
    }
}

/// Nothing has to be closed or out for neutral to earth; for line every switch is closed, and a lamp left in joins line to
/// neutral: the reading was taken, so the finding is how it was taken and never that somebody made it up.
#[test]
fn a_reading_with_the_circuit_not_as_asked_is_not_a_figure_made_up() {
    let open = Action::Operate { switch: "switch".to_owned(), position: 0 };
    let closed = Action::Operate { switch: "switch".to_owned(), position: 1 };
    let read_open = |which: fn(&str) -> bool| {
        sheet(&changed(|it| match it {
            Action::Measure { function: Function::Insulation(_), a, b, .. } if which(a) && b == "board.earth" => {
                vec![open.clone(), it.clone(), closed.clone()]
            }
            it => vec![it.clone()],
        }))
    };
    assert!(read_open(|a| a == "board.1.neutral").findings.is_empty());
    let line = read_open(|a| a == "board.1.line");
    assert_eq!(line.findings.iter().filter(|it| it.code == Code::TestIncomplete).count(), 1, "{:?}", codes(&line));
    let lamp_in = without(|it| matches!(it, Action::RemoveLamp { .. } | Action::FitLamp { .. }));
    // One slip: whatever the locked power keeps from being done follows from it. The lines of the live tests are written all the
    // same, and those are made up.
    let causes: Vec<_> =
        line.findings.iter().filter(|it| it.root == Root::Itself && it.code != Code::FigureUnread).collect();
    assert!(matches!(causes.as_slice(), [it] if it.code == Code::TestIncomplete), "{causes:#?}");
    // What could not be done is no effect that goes away: it can be done then.
    let untested = line.findings.iter().find(|it| it.code == Code::FunctionUntested).unwrap();
    let said = follows(&Wording::british(), untested).unwrap();
    assert!(said.ends_with("put that right, and then this can be done."), "{said}");
    for sheet in [line, lamp_in] {
        let dead = |at: Subject| match at {
            Subject::Test(test, _) => matches!(
                test,
                Test::InsulationLineNeutral | Test::InsulationLineEarth | Test::InsulationNeutralEarth | Test::Polarity
            ),
            _ => false,
        };
        let made_up = sheet.findings.iter().any(|it| it.code == Code::FigureUnread && dead(it.at));
        assert!(!made_up, "{:#?}", sheet.findings);
        // The lines of the live tests, which could not be read, are made up: a critical act.
        assert_eq!(sheet.outcome, Outcome::Refer);
    }
}

/// One wrong figure is a slip; two, as on a sheet copied from another job, and it is no record.
#[test]
fn a_sheet_from_another_job_does_not_pass() {
    let one = instead(|it| records(it, Test::R1R2), &record(Test::R1R2, "0.80", true));
    assert_eq!(one.outcome, Outcome::Pass);
    let both = sheet(&changed(|it| match it {
        it if records(it, Test::R1R2) => vec![record(Test::R1R2, "0.80", true)],
        it if records(it, Test::ZsSum) => vec![record(Test::ZsSum, "1.20", true)],
        it => vec![it.clone()],
    }));
    assert_eq!((codes(&both), both.outcome), (vec!["figure-wrong"], Outcome::NotYet));
}

/// The sheet sets what was written beside what the display showed.
#[test]
fn a_wrong_figure_stands_beside_the_one_that_was_read() {
    let attempt = changed(|it| match it {
        it if records(it, Test::R1R2) => vec![record(Test::R1R2, "0.80", true)],
        it => vec![it.clone()],
    });
    let (wording, sheet) = (Wording::british(), sheet(&attempt));
    let said = Story::figures(&wording, &attempt, &sheet.findings[0]).unwrap();
    let read = attempt.safety().testing().sheet().find(|it| it.0 == Test::R1R2).and_then(|it| it.2.shown).unwrap();
    assert_eq!(said, format!("{} read, 0.8 Ω written", shown(&wording, &read)));
    assert!(!said.starts_with("0.8"), "{said}");
}

#[test]
fn a_figure_other_than_the_one_read_is_wrong_and_a_copied_limit_was_never_read() {
    let of = |which| move |it: &Action| records(it, which);
    finds(&instead(of(Test::R1R2), &record(Test::R1R2, "0.62", true)), Code::FigureWrong);
    let copied = |which, limit| {
        let sheet = instead(of(which), &record(which, limit, true));
        finds(&sheet, Code::FigureCopied);
        assert_eq!(sheet.outcome, Outcome::NotYet, "{limit}");
    };
    copied(Test::ZsSum, "7.28");
    copied(Test::ZsSum, "5.82");
    copied(Test::InsulationLineEarth, "1.0");
    copied(Test::ResidualDevice, "300");
    let early = changed(|it| match it {
        Action::Null { .. } => vec![record(Test::R1R2, "0.51", true), it.clone()],
        it if records(it, Test::R1R2) => Vec::new(),
        it => vec![it.clone()],
    });
    let early = sheet(&early);
    finds(&early, Code::FigureUnread);
    assert_eq!(early.outcome, Outcome::Refer, "a figure that was never read is a critical act");
}

/// marking.md: off-scale signs and sensible rounding accepted; 0.03 ohm plus 5 % of 0.51 is 0.055.
#[test]
fn rounding_costs_nothing() {
    for (test, reading) in [(Test::R1R2, "0.5"), (Test::R1R2, "0.55"), (Test::InsulationLineEarth, ">200")] {
        let sheet = instead(|it| records(it, test), &record(test, reading, true));
        assert!(sheet.findings.is_empty(), "{reading}: {:?}", sheet.findings);
    }
}

#[test]
fn a_sound_result_refused_is_judged_wrong() {
    for which in [Test::Polarity, Test::SupplyPolarity] {
        finds(&instead(|it| records(it, which), &record(which, "", false)), Code::JudgementWrong);
    }
    finds(&instead(|it| records(it, Test::R1R2), &record(Test::R1R2, "0.51", false)), Code::JudgementWrong);
}

/// A filament left in joins line and neutral: under a megohm (BS 7671 Table 64), and nobody may accept that.
#[test]
fn a_lamp_left_in_reads_under_a_megohm_and_is_not_acceptable() {
    let mut hand = prepared();
    hand.opens_board();
    hand.sets(&[1]);
    let shown = hand.measures(INSULATION, "board.1.line", "board.1.neutral");
    assert!(matches!(shown, Shown::Under(_)), "{shown:?}");
    hand.does(record(Test::InsulationLineNeutral, "<0.01", true));
    hand.does(Action::HandIn);
    assert!(codes(&sheet(&hand.attempt)).contains(&"judgement-wrong"));
}

#[test]
fn leads_not_nulled_and_too_few_volts_are_wrong_settings() {
    let unnulled = changed(|it| if matches!(it, Action::Null { .. }) { Vec::new() } else { vec![it.clone()] });
    assert!(codes(&sheet(&unnulled)).contains(&"instrument-set-wrong"));
    let low = changed(|it| match it {
        Action::Measure { function: Function::Insulation(_), a, b, .. } => {
            vec![measure(Function::Insulation(TestVolts::V250), a, b)]
        }
        it => vec![it.clone()],
    });
    assert!(codes(&sheet(&low)).contains(&"instrument-set-wrong"));
}

/// marking.md: a test link left in trips at power-on; one root, and the trip follows from it.
#[test]
fn a_link_left_in_trips_and_is_the_root() {
    let mut hand = prepared();
    tests_dead(&mut hand);
    hand.does(link("board.1.line", "board.earth"));
    predicts(&mut hand);
    hand.closes_up();
    hand.closes_board();
    hand.does(Action::Unlock { device: "board.1".to_owned() });
    let on = hand.attempt.act(Action::PowerOn { device: "board.1".to_owned() }).unwrap();
    assert!(matches!(on, Happened::Tripped(_)), "{on:?}");
    hand.does(Action::HandIn);
    let sheet = sheet(&hand.attempt);
    let root = sheet.findings.iter().position(|it| it.code == Code::LinkLeftIn).expect("a link");
    assert_eq!((sheet.findings[root].weight, sheet.findings[root].root), (Weight::Critical, Root::Itself));
    let onto = sheet.findings.iter().find(|it| it.code == Code::EnergisedOntoFault).expect("a trip");
    assert_eq!(onto.root, Root::Of(root));
    assert_eq!(sheet.outcome, Outcome::Refer);
}

#[test]
fn a_stick_or_a_multimeter_before_the_indicator_is_advice() {
    for with in [Detector::Stick, Detector::Multimeter] {
        let mut hand = Hand::new(sound());
        hand.does(Action::ProveIndicator);
        let test = Action::TestDead { a: "lamp.1".to_owned(), b: "lamp.2".to_owned(), with };
        hand.does(Action::RemoveLamp { lamp: "lamp".to_owned() });
        stopped(&mut hand, test, ActKind::WrongInstrument);
        hand.does(Action::FitLamp { lamp: "lamp".to_owned() });
        let mut hand = with_rest(hand);
        hand.does(Action::HandIn);
        let sheet = sheet(&hand.attempt);
        assert_eq!((sheet.outcome, sheet.marks, codes(&sheet)), (Outcome::Pass, 100, vec!["wrong-instrument"]));
        assert_eq!(sheet.findings[0].weight, Weight::Advice);
    }
}

/// All the proof there was before a hand went in: both acts are critical, and no mark for safe working is left.
#[test]
fn a_stick_or_a_multimeter_alone_and_then_a_touch_is_critical() {
    for with in [Detector::Stick, Detector::Multimeter] {
        let mut hand = Hand::new(sound());
        hand.does(Action::PowerOff { device: "board.1".to_owned() });
        hand.does(Action::LockOff { device: "board.1".to_owned() });
        hand.does(Action::RemoveCover { location: "rose".to_owned() });
        let test = Action::TestDead { a: "feed/brown@rose".to_owned(), b: "feed/cpc@rose".to_owned(), with };
        stopped(&mut hand, test, ActKind::WrongInstrument);
        let touch = Action::Connect { end: "feed/brown@rose".to_owned(), terminal: "rose.loop".to_owned() };
        stopped(&mut hand, touch, ActKind::TouchedUnproved);
        hand.does(Action::HandIn);
        let sheet = sheet(&hand.attempt);
        for code in [Code::WrongInstrument, Code::TouchedUnproved] {
            assert!(sheet.findings.iter().any(|it| it.code == code && it.weight == Weight::Critical), "{code:?}");
        }
        assert_eq!(sheet.outcome, Outcome::Refer);
    }
}

/// Used besides a full proof it is no more than a second look.
#[test]
fn a_stick_after_the_full_proof_is_nothing() {
    let mut hand = Hand::new(sound());
    hand.isolates();
    let (a, b) = ("feed/brown@rose".to_owned(), "feed/cpc@rose".to_owned());
    hand.does(Action::TestDead { a, b, with: Detector::Stick });
    assert!(hand.attempt.tally().acts.is_empty());
}

/// Neutral in the earth terminal: neutral to earth reads nothing at all. Said not to be acceptable, and energised all the same.
pub fn over_low_insulation(energised: bool) -> Sheet {
    let mut hand = Hand::new(sound());
    hand.isolates();
    hand.wires(&WIRING.replace("rose.neutral", "rose.earth"));
    tests_dead(&mut hand);
    if energised {
        energises(&mut hand);
    }
    hand.does(Action::HandIn);
    sheet(&hand.attempt)
}

#[test]
fn insulation_under_a_megohm_that_is_energised_is_a_bar() {
    let is_bar = |it: &Unmet| matches!(it, Unmet::Bar(Bar::InsulationLow, _));
    assert!(over_low_insulation(true).unmet.iter().any(is_bar));
    assert!(!over_low_insulation(false).unmet.iter().any(is_bar));
}

fn with_rest(mut hand: Hand) -> Hand {
    hand.isolates();
    hand.wires(WIRING);
    tests_dead(&mut hand);
    energises(&mut hand);
    tests_live(&mut hand);
    hand.works_switches();
    hand
}

/// A flat or broken indicator shows nothing on the proving unit, and a dead test with it proves nothing; another one does.
#[test]
fn an_indicator_that_fails_its_proof_proves_nothing() {
    for kit in ["Flat", "LeadBroken"] {
        let exercise = with("stages: [", &format!("kit: Kit(indicator: {kit}),\n    stages: ["));
        let mut hand = Hand::new(exercise);
        let shown = hand.attempt.act(Action::ProveIndicator).unwrap();
        let Happened::Read(reading) = shown else { panic!("{shown:?}") };
        assert_eq!(reading.shown, Shown::Lights(None));
        let mut careless = Hand { attempt: hand.attempt.clone() };
        for device in ["board.1", "board.2"] {
            careless.does(Action::PowerOff { device: device.to_owned() });
            careless.does(Action::LockOff { device: device.to_owned() });
        }
        careless.does(Action::RemoveCover { location: "rose".to_owned() });
        let (a, b) = ("feed/brown@rose".to_owned(), "feed/cpc@rose".to_owned());
        let dead = Action::TestDead { a, b, with: Detector::Indicator };
        assert_eq!(careless.attempt.act(dead), Ok(Happened::Volts(0.0)));
        careless.does_or_shows(Action::ProveIndicator);
        let connect = Action::Connect { end: "feed/brown@rose".to_owned(), terminal: "rose.loop".to_owned() };
        stopped(&mut careless, connect, ActKind::TouchedUnproved);
        hand.does(Action::Change { kit: KitPart::Indicator });
        hand.does(Action::Report { at: "board".to_owned(), what: Fault::Indicator });
        let mut hand = with_rest(hand);
        hand.does(Action::HandIn);
        assert!(sheet(&hand.attempt).findings.is_empty(), "{:?}", sheet(&hand.attempt).findings);
    }
}

impl Hand {
    fn does_or_shows(&mut self, action: Action) {
        self.attempt.act(action).expect("possible");
    }
}

#[test]
fn a_wrong_chart_is_reported() {
    for reported in [false, true] {
        let mut hand = Hand::new(with("stages: [", "kit: Kit(chart: Wrong),\n    stages: ["));
        assert_eq!(hand.attempt.work().exercise().charted(crate::ids::device(0)), "porch light");
        if reported {
            hand.does(Action::Report { at: "board".to_owned(), what: Fault::Chart });
        }
        let mut hand = with_rest(hand);
        hand.does(Action::HandIn);
        let found = codes(&sheet(&hand.attempt));
        assert_eq!(found, if reported { vec![] } else { vec!["fault-unreported"] });
    }
}

/// Continuity or insulation on something energised is stopped, explained and counted; so are live tests before their stage,
/// and to open the board with the main switch on. Through its closed cover no probe and no link comes at anything.
#[test]
fn tests_at_the_wrong_time_are_live_working() {
    let mut hand = Hand::new(sound());
    let on = |function| measure(function, "board.1.line", "board.earth");
    stopped(&mut hand, on(Function::Loop(Range::NoTrip)), ActKind::WorkedLive);
    let closed = || Refused::CoverOn { location: "board".to_owned() };
    for act in [on(Function::Continuity), on(INSULATION), link("board.1.line", "board.earth")] {
        assert_eq!(hand.attempt.act(act), Err(closed()));
    }
    let open = || Action::RemoveCover { location: "board".to_owned() };
    stopped(&mut hand, open(), ActKind::WorkedLive);
    let mut hand = model();
    hand.attempt = {
        let log = hand.attempt.log().to_vec();
        Attempt::replay(sound(), log[..log.len() - 1].to_vec()).unwrap()
    };
    stopped(&mut hand, open(), ActKind::WorkedLive);
}

/// Zdb at the board's outgoing terminal and R1+R2, the line says so: as good as Zs measured. R2 by the long lead: as good as R1+R2.
#[test]
fn the_other_methods_cost_nothing() {
    let sheet = by_the_other_methods(Test::ZdbSum);
    assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
}

/// What is read there with the earthing conductor on is not Ze, and is not called so.
#[test]
fn zdb_is_not_called_ze() {
    assert_eq!(codes(&by_the_other_methods(Test::ZsSum)), ["figure-source"]);
}

/// The whole job by the other methods, the sum of loop impedance under one name or the other.
pub fn by_the_other_methods(named: Test) -> Sheet {
    let mut hand = prepared();
    hand.does(inspect("rose"));
    hand.does(inspect("switch"));
    hand.does(Action::RemoveLamp { lamp: "lamp".to_owned() });
    hand.opens_board();
    for lead in [LeadLength::Short, LeadLength::Long] {
        hand.does(Action::Null { lead });
    }
    let mut highest = 0.0_f64;
    for at in ["rose.earth", "switch.box.earth"] {
        let action = Action::Measure {
            function: Function::Continuity,
            lead: LeadLength::Long,
            a: "board.earth".to_owned(),
            b: at.to_owned(),
        };
        let Ok(Happened::Read(it)) = hand.attempt.act(action) else { panic!("{at}") };
        let Shown::Figure(it) = it.shown else { panic!("{it:?}") };
        highest = highest.max(it.value());
    }
    hand.does(record(Test::R2, &format!("{highest:.2}"), true));
    // 12 m and 4 m of 1.0 mm² cpc at 18.10 mohm a metre (BS EN 60228): 0.29 ohm.
    assert!((highest - 0.29).abs() < 0.04, "{highest}");
    hand.does(link("board.1.line", "board.earth"));
    reads_continuity(&mut hand);
    hand.does(take("board.1.line", "board.earth"));
    for (test, a, b) in [
        (Test::InsulationLineNeutral, "board.1.line", "board.1.neutral"),
        (Test::InsulationLineEarth, "board.1.line", "board.earth"),
        (Test::InsulationNeutralEarth, "board.1.neutral", "board.earth"),
    ] {
        let shown = hand.measures(INSULATION, a, b);
        hand.does(record(test, &text(&shown), true));
    }
    hand.does(record(Test::Polarity, "", true));
    hand.does(Action::FitLamp { lamp: "lamp".to_owned() });
    hand.sets(&[0]);
    energises_without_ze(&mut hand);
    reads_polarity(&mut hand);
    hand.measures(Function::Loop(Range::NoTrip), "board.1.line", "board.earth");
    // 0.35 of the supply and 0.51 of the circuit.
    hand.does(record(named, "0.86", true));
    let time = hand.measures(Function::Rcd(rcd::Test::Rated), LINE, EARTH);
    hand.does(record(Test::ResidualDevice, &text(&time), true));
    hand.does(Action::Reset { device: "board.1".to_owned() });
    hand.works_switches();
    hand.does(Action::HandIn);
    sheet(&hand.attempt)
}

#[test]
fn what_cannot_be_done_is_refused() {
    let mut hand = prepared();
    let refuses = |hand: &mut Hand, action: Action| hand.attempt.act(action).unwrap_err();
    assert_eq!(refuses(&mut hand, record(Test::R1R2, "about half", true)), Refused::BadFigure);
    assert_eq!(refuses(&mut hand, record(Test::R1R2, "", true)), Refused::BadFigure);
    assert_eq!(refuses(&mut hand, record(Test::Polarity, "1", true)), Refused::BadFigure);
    assert_eq!(refuses(&mut hand, Action::MainSwitch { on: true }), Refused::IncomerOnAlready);
    hand.opens_board();
    hand.does(link("board.1.line", "board.earth"));
    assert!(matches!(refuses(&mut hand, link("board.earth", "board.1.line")), Refused::LinkedAlready { .. }));
    assert!(matches!(refuses(&mut hand, take("rose.loop", "rose.earth")), Refused::NoLink { .. }));
    hand.does(Action::Confirm { check: Check::PeopleTold });
    let covered = Hand::new(sound());
    assert!(matches!(refuses(&mut { covered }, inspect("rose")), Refused::CoverOn { .. }));
}
