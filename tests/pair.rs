//! A box that holds two circuits: both off, locked and proved dead before a hand comes near; both tested, every test of each.

use std::sync::Arc;

use switchdrop::{
    attempt::{ActKind, Attempt, Happened, Mode, dead_tests_left, reading_size, readings_to_take},
    exercise::{Exercise, Seed, Stage, read},
    marking::{Outcome, Sheet, mark},
    trade::instrument::{LeadLength, Shown},
    work::{Action, Source, Test},
};

use crate::{
    hand::Hand,
    tested::{inspect, link, reads_ze, take, text, zs_of},
};

fn exercise() -> Arc<Exercise> {
    Arc::new(read(include_str!("scenarios/pair.ron"), Seed(4)).unwrap_or_else(|it| panic!("{it:#?}")))
}

const WIRING: &str = "one/brown@dairy dairy.1.COM
    up/brown@dairy dairy.1.L1
    two/brown@dairy dairy.2.COM
    tail/brown@dairy dairy.2.L1
    one/blue@dairy dairy.connector.1
    up/blue@dairy dairy.connector.1
    two/blue@dairy dairy.connector.2
    tail/blue@dairy dairy.connector.2
    one/cpc@dairy Sleeve(GreenYellow) dairy.box.earth
    two/cpc@dairy Sleeve(GreenYellow) dairy.box.earth
    up/cpc@dairy Sleeve(GreenYellow) dairy.box.earth
    up/brown@rose rose.switched
    flex/brown@rose rose.switched
    up/blue@rose rose.neutral
    flex/blue@rose rose.neutral
    up/cpc@rose Sleeve(GreenYellow) rose.earth";

/// Takes every reading that a stage offers and writes its lines: of continuity and loops the highest, of insulation the lowest.
fn follows(hand: &mut Hand, stage: Stage) {
    while let Some(it) = readings_to_take(&hand.attempt, stage).into_iter().next() {
        let line = hand.attempt.work().exercise().devices[it.circuit].address.clone() + ".line";
        let links = hand.attempt.work().links().to_vec();
        let there = links.first().map(|it| hand.attempt.work().point_address(it[0]));
        let wanted = it.linked.then_some(line);
        if there != wanted {
            for (at, change) in [(there, take as fn(&str, &str) -> Action), (wanted, link)] {
                if let Some(at) = at {
                    hand.does(change(&at, "board.earth"));
                }
            }
        }
        hand.sets(&it.positions);
        let action = it.action(hand.attempt.work());
        let before = readings_to_take(&hand.attempt, stage).len();
        let Ok(Happened::Read(_)) = hand.attempt.act(action.clone()) else { panic!("{action:?}") };
        assert!(readings_to_take(&hand.attempt, stage).len() < before, "{action:?} does not count");
    }
    if let Some(it) = hand.attempt.work().links().first().copied() {
        let at = hand.attempt.work().point_address(it[0]);
        hand.does(take(&at, "board.earth"));
    }
    for (test, circuit) in hand.attempt.safety().testing().lines_left(stage) {
        let readings = hand.attempt.safety().testing().readings();
        let of: Vec<Shown> = readings.filter(|it| it.0.0 == test && it.0.1 == circuit).map(|it| it.1.shown).collect();
        let by_size = |a: &&Shown, b: &&Shown| reading_size(a).total_cmp(&reading_size(b));
        let lowest = stage == Stage::Insulation;
        let shown = if lowest { of.iter().min_by(by_size) } else { of.iter().max_by(by_size) };
        let reading = if test == Test::ZsSum {
            zs_of(hand, circuit)
        } else if test.has_figure() {
            text(shown.expect("a reading"))
        } else {
            String::new()
        };
        let at = hand.attempt.work().exercise().devices[circuit].address.clone();
        hand.does(Action::Record { test, at, reading, accepted: true, source: Source::Read });
    }
}

fn wired() -> Hand {
    let mut hand = Hand::new(exercise());
    hand.isolates();
    hand.wires(WIRING);
    hand
}

fn tests_dead(hand: &mut Hand) {
    hand.does(inspect("dairy"));
    hand.does(inspect("rose"));
    for lamp in ["lamp", "loft"] {
        hand.does(Action::RemoveLamp { lamp: lamp.to_owned() });
    }
    hand.opens_board();
    for lead in [LeadLength::Short, LeadLength::Long] {
        hand.does(Action::Null { lead });
    }
    for stage in [Stage::Continuity, Stage::Insulation, Stage::Polarity] {
        follows(hand, stage);
    }
    for lamp in ["lamp", "loft"] {
        hand.does(Action::FitLamp { lamp: lamp.to_owned() });
    }
    hand.sets(&[0, 0]);
}

fn model() -> Hand {
    let mut hand = wired();
    tests_dead(&mut hand);
    hand.predicts(|at| {
        let on = |switch: usize, what| (at[switch] == 1).then_some(what);
        let both = |one, two| [on(0, one), on(1, two)].into_iter().flatten().collect();
        (both("lamp", "loft"), both("up/brown", "tail/brown"))
    });
    hand.closes_up();
    reads_ze(&mut hand);
    hand.closes_board();
    hand.powers_on();
    for stage in [Stage::SupplyPolarity, Stage::LoopImpedance, Stage::ResidualDevice] {
        follows(&mut hand, stage);
    }
    hand.does(Action::Reset { device: "board.1".to_owned() });
    hand.works_switches();
    hand.does(Action::HandIn);
    hand
}

fn sheet(attempt: &Attempt) -> Sheet {
    mark(attempt, Mode::Set)
}

/// The model without some of its steps; what they make impossible is left out too.
fn without(skip: impl Fn(&Action) -> bool) -> Sheet {
    let mut attempt = Attempt::new(exercise());
    for action in model().attempt.log().iter().filter(|it| !skip(it)) {
        let _ = attempt.act(action.clone());
    }
    sheet(&attempt)
}

#[test]
fn both_circuits_tested_earn_everything() {
    let hand = model();
    let sheet = sheet(&hand.attempt);
    assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
    assert_eq!((sheet.outcome, sheet.marks, sheet.out_of), (Outcome::Pass, 100, 100));
    // A line for each test of each circuit: nine of the one with a residual current device (of R1+R2 and R2, and of Zs and its
    // sum, one each), and all but the last of the other.
    let lines =
        |device| hand.attempt.safety().testing().sheet().filter(|it| it.1 == crate::ids::device(device)).count();
    assert_eq!((lines(0), lines(1)), (8, 7));
}

/// On paper, 12.10 and 18.10 mohm a metre of 1.5 and 1.0 mm² (BS EN 60228). The two cpcs meet in the box: 10 m and 20 m of 1.0 side
/// by side are 0.121 ohm. R1+R2 of the dairy circuit at its rose: 10 m of 1.5, 5 m of 1.0 and back by 5 m of 1.0 and those: 0.121 +
/// 0.181 + 0.121 = 0.423. Of the loft circuit in the box: 0.242 + 0.121 = 0.363.
#[test]
fn each_circuit_has_its_own_figures() {
    let attempt = model().attempt;
    for (device, ohms) in [(0, 0.423), (1, 0.363)] {
        let line =
            attempt.safety().testing().sheet().find(|it| it.0 == Test::R1R2 && it.1 == crate::ids::device(device));
        let written = line.unwrap().2.written.unwrap().value;
        assert!((written - ohms).abs() < 0.03, "{device}: {written}");
    }
}

/// A test of the one circuit does not stand for that of the other.
#[test]
fn a_test_left_out_of_either_circuit_is_missing() {
    for of in ["board.1", "board.2"] {
        for which in [Test::R1R2, Test::InsulationLineEarth, Test::Polarity, Test::SupplyPolarity, Test::ZsSum] {
            let sheet = without(|it| matches!(it, Action::Record { test, at, .. } if *test == which && at == of));
            let found: Vec<_> = sheet.findings.iter().map(|it| it.code.word()).collect();
            assert!(found.contains(&"test-missing"), "{which:?} of {of}: {found:?}");
            // Of a dead test the power stays locked; whoever writes the lines of the live ones all the same makes them up.
            let made_up = found.contains(&"figure-unread");
            assert_eq!(sheet.outcome, if made_up { Outcome::Refer } else { Outcome::NotYet });
        }
        let line = format!("{of}.line");
        let sheet = without(|it| matches!(it, Action::Measure { a, .. } if *a == line));
        assert!(sheet.findings.iter().any(|it| it.code.word() == "test-missing"), "{of}: {:#?}", sheet.findings);
    }
}

#[test]
fn a_box_with_two_circuits_has_both_off_locked_and_proved() {
    let stops = |hand: &mut Hand, action: Action, kind: ActKind| {
        assert_eq!(hand.attempt.act(action.clone()).unwrap().stopped(), Some(kind), "{action:?}");
    };
    let open = || Action::RemoveCover { location: "dairy".to_owned() };
    for (locked, other) in [("board.1", "board.2"), ("board.2", "board.1")] {
        let mut hand = Hand::new(exercise());
        let named = |devices: &[&str]| {
            let devices = devices.iter().map(|it| (*it).to_owned()).collect();
            Action::Identify { location: "dairy".to_owned(), devices }
        };
        stops(&mut hand, named(&[locked]), ActKind::WronglyIdentified);
        hand.does(named(&[locked, other]));
        hand.does(Action::Agree);
        hand.does(Action::PowerOff { device: locked.to_owned() });
        hand.does(Action::LockOff { device: locked.to_owned() });
        stops(&mut hand, open(), ActKind::WorkedLive);
        hand.does(Action::PowerOff { device: other.to_owned() });
        stops(&mut hand, open(), ActKind::OpenedUnlocked);
        hand.does(Action::LockOff { device: other.to_owned() });
        hand.does(open());
        // Every conductor of the one circuit, and the other untested.
        let dairy = hand.attempt.work().location("dairy").unwrap();
        let cable = if locked == "board.1" { "two/" } else { "one/" };
        hand.does(Action::ProveIndicator);
        for it in dead_tests_left(&hand.attempt, dairy) {
            let [a, b] = [it.a, it.b].map(|it| hand.attempt.work().point_address(it));
            if !a.starts_with(cable) && !b.starts_with(cable) {
                hand.does(Action::TestDead { a, b, with: switchdrop::work::Detector::Indicator });
            }
        }
        hand.does(Action::ProveIndicator);
        assert!(!hand.attempt.safety().is_proved(dairy));
        let (end, terminal) = ("one/brown@dairy".to_owned(), "dairy.1.COM".to_owned());
        stops(&mut hand, Action::Connect { end, terminal }, ActKind::TouchedUnproved);
        hand.proves_dead(dairy);
        assert!(hand.attempt.safety().is_proved(dairy));
    }
}

/// Handwork in the box takes back the tests of both.
#[test]
fn work_in_the_box_has_both_tested_again() {
    let mut hand = wired();
    tests_dead(&mut hand);
    let safety = hand.attempt.safety();
    assert!(safety.testing().lines_left(Stage::Continuity).is_empty());
    hand.does(Action::Disconnect { end: "tail/brown@dairy".to_owned() });
    hand.wires("tail/brown@dairy dairy.2.L1");
    let left = hand.attempt.safety().testing().lines_left(Stage::Continuity);
    assert_eq!(left.into_iter().map(|it| it.1).collect::<Vec<_>>(), [crate::ids::device(0), crate::ids::device(1)]);
}
