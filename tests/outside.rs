//! The charter: "Zs of a lighting point is Ze + (R1+R2) at the origin, Zdb + (R1+R2) for a board fed from another; Ze or Zdb comes
//! from the card below the last levels and is written with its source. Ze is measured with the whole installation off and locked and
//! the earthing conductor disconnected". EXPECT.md, case assessor-60, remade in format 2.

use std::sync::Arc;

use switchdrop::{
    attempt::{ActKind, Attempt, Format, Happened, Mode},
    exercise::{Outside, Seed, Stage, draw},
    marking::{Code, Outcome, Sheet, Weight, mark},
    trade::instrument::{Function, Shown, loop_impedance::Range, rcd},
    work::{Action, EarthingStep, Incomer, Refused, Source, Subject, Test},
};

use crate::{
    hand::{Hand, scenario},
    made_off::tested_model,
    tested::{
        READ_ORIGIN, WIRING, earthing, energises_without_ze, predicts, reads_polarity, record, sound, tests_dead, text,
        with, zs_of,
    },
};

/// The supervised job with its Zs, which is worked out from the card, called so and said to be from there.
fn from_the_card(test: Test, source: Source) -> Sheet {
    let model = tested_model();
    let mut hand = Hand::new(Arc::clone(model.attempt.work().exercise()));
    for it in model.attempt.log() {
        match it {
            Action::Record { test: Test::ZsSum, at, reading, .. } => {
                let (at, reading) = (at.clone(), reading.clone());
                hand.does(Action::Record { test, at, reading, accepted: true, source });
            }
            it => hand.does(it.clone()),
        }
    }
    mark(&hand.attempt, Mode::Set)
}

/// Case assessor-60: with the value from the card, called by its name, it passes.
#[test]
fn ze_from_the_card_by_its_name_and_with_its_source_passes() {
    let sheet = from_the_card(Test::ZsSum, Source::Card);
    assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
    assert_eq!((sheet.outcome, sheet.marks), (Outcome::Pass, 100));
}

/// The same figure said to be the learner's own, or called Zdb at a board that stands at the origin: no figure made up, and not right.
#[test]
fn another_source_or_the_other_name_is_said() {
    for (test, source) in [(Test::ZsSum, Source::Read), (Test::ZdbSum, Source::Card)] {
        let sheet = from_the_card(test, source);
        let found: Vec<_> = sheet.findings.iter().map(|it| (it.code, it.weight)).collect();
        assert_eq!(found, [(Code::FigureSource, Weight::Major)], "{test:?} {source:?}");
    }
}

/// What is on the card: Ze at the origin; at a board fed from another Zdb, with line and cpc of its distribution circuit: 20 m of 10 mm²
/// at 1.83 mohm a metre (BS EN 60228), there and back, 0.073 ohm more.
#[test]
fn the_card_has_ze_or_zdb() {
    let at = |fed: &str| {
        let text = scenario("one-way-tested").replacen("board: Supervisor,", &format!("board: Supervisor, {fed}"), 1);
        draw(&text, Seed(4)).unwrap_or_else(|it| panic!("{it:?}")).card().map(|(name, it)| (name, it.value()))
    };
    assert_eq!(at(""), Some((Outside::Ze, 0.35)));
    assert_eq!(at("fed: Board(mm2: 10.0, metres: 20.0),"), Some((Outside::Zdb, 0.42)));
    assert_eq!(sound().card(), None);
    // No card, no figure from one.
    let mut hand = Hand::new(sound());
    let Action::Record { test, at, reading, accepted, .. } = record(Test::ZsSum, "0.86", true) else { unreachable!() };
    let from_card = Action::Record { test, at, reading, accepted, source: Source::Card };
    assert_eq!(hand.attempt.act(from_card), Err(Refused::NotOnCard));
}

/// A board fed from another reads the whole way: Zdb has 50 m of 6 mm² there and back at 3.08 mohm in it.
#[test]
fn what_feeds_the_board_is_in_the_loop() {
    let zs = |fed: &str| {
        let mut hand = Hand::new(with("stages:", &format!("{fed} stages:")));
        hand.isolates();
        hand.wires(WIRING);
        tests_dead(&mut hand);
        energises_without_ze(&mut hand);
        match hand.measures(Function::Loop(Range::NoTrip), "board.1.line", "board.earth") {
            Shown::Figure(it) => it.value(),
            other => panic!("{other:?}"),
        }
    };
    let (origin, fed) = (zs(""), zs("fed: Board(mm2: 6.0, metres: 50.0),"));
    assert!((fed - origin - 2.0 * 50.0 * 0.00308).abs() < 0.03, "{origin} {fed}");
}

/// Up to the closed board, R1+R2 read and Ze still to be read.
fn tested() -> Hand {
    let mut hand = Hand::new(sound());
    hand.isolates();
    hand.wires(WIRING);
    tests_dead(&mut hand);
    predicts(&mut hand);
    hand.closes_up();
    hand
}

/// Ze by the learner: everything off and locked, the earthing conductor off; then back, tight and read through before the lock comes
/// off. With R1+R2 it is Zs, by its name.
#[test]
fn ze_is_read_with_the_earthing_conductor_off_and_everything_locked() {
    let mut hand = tested();
    hand.does(earthing(EarthingStep::Disconnect));
    let Ok(Happened::Read(ze)) = hand.attempt.act(READ_ORIGIN) else { panic!("a reading") };
    let Shown::Figure(ze) = ze.shown else { panic!("{ze:?}") };
    // 0.35 ohm of the supply, and what the instrument and its leads stray.
    assert!((ze.value() - 0.35).abs() < 0.15, "{}", ze.value());
    for step in [EarthingStep::Connect, EarthingStep::Tighten, EarthingStep::ReadThrough] {
        hand.does(earthing(step));
    }
    hand.closes_board();
    hand.powers_on();
    let sheet = with_sum(hand);
    assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
}

/// The live tests but that of the loop, the sum written as Ze and R1+R2; handed in.
fn with_sum(mut hand: Hand) -> Sheet {
    reads_polarity(&mut hand);
    let zs = zs_of(&hand, crate::ids::device(0));
    hand.does(record(Test::ZsSum, &zs, true));
    let time = hand.measures(Function::Rcd(rcd::Test::Rated), "board.1.line", "board.earth");
    hand.does(record(Test::ResidualDevice, &text(&time), true));
    hand.does(Action::Reset { device: "board.1".to_owned() });
    hand.works_switches();
    hand.does(Action::HandIn);
    mark(&hand.attempt, Mode::Set)
}

#[track_caller]
fn stops(hand: &mut Hand, action: Action, kind: ActKind) {
    let said = format!("{action:?}");
    assert_eq!(hand.attempt.act(action).unwrap().stopped(), Some(kind), "{said}");
}

/// Energised without its earthing conductor: critical, whichever step of putting it back is missing; and it does not come off while
/// anything is on.
#[test]
fn nothing_comes_on_without_the_earthing_conductor() {
    let mut hand = Hand::new(sound());
    stops(&mut hand, earthing(EarthingStep::Disconnect), ActKind::Unearthed);
    let unlock = || Action::UnlockIncomer { which: Incomer::Main };
    let back = [EarthingStep::Connect, EarthingStep::Tighten, EarthingStep::ReadThrough];
    for done in 0..=back.len() {
        let mut hand = tested();
        hand.does(earthing(EarthingStep::Disconnect));
        for step in &back[..done] {
            hand.does(earthing(*step));
        }
        if done < back.len() {
            stops(&mut hand, unlock(), ActKind::Unearthed);
            hand.does(Action::HandIn);
            let sheet = mark(&hand.attempt, Mode::Set);
            let act = sheet.findings.iter().find(|it| it.code == Code::Unearthed).expect("an act");
            assert_eq!((act.weight, sheet.outcome), (Weight::Critical, Outcome::Refer));
        } else {
            hand.does(unlock());
        }
    }
    // Each in its turn.
    let mut hand = tested();
    for step in back {
        assert_eq!(hand.attempt.act(earthing(step)), Err(Refused::EarthingAlready));
    }
}

/// Read with the earthing conductor on, it is no Ze: nothing is kept that a line could be written from.
#[test]
fn with_the_earthing_conductor_on_it_is_not_ze() {
    let mut hand = tested();
    hand.does(READ_ORIGIN);
    let testing = hand.attempt.safety().testing();
    assert!(!testing.readings().any(|it| it.0.0 == Test::ZsSum));
    // A live reading, so every cover is on for it.
    let mut open = Hand::new(sound());
    open.isolates();
    open.opens_board();
    stops(&mut open, READ_ORIGIN, ActKind::WorkedLive);
}

/// For the tests of all rules: the earthing conductor taken off before the lock is on, or after.
pub fn disconnected(locked: bool) -> Sheet {
    let mut hand = Hand::new(sound());
    if locked {
        hand.does(Action::MainSwitch { on: false });
        hand.does(Action::LockIncomer { which: Incomer::Main });
    }
    let _ = hand.attempt.act(earthing(EarthingStep::Disconnect)).unwrap();
    hand.does(Action::HandIn);
    mark(&hand.attempt, Mode::Set)
}

/// For the same: the figure of the card as the learner's own, or as what it is.
pub fn card_as(source: Source) -> Sheet {
    from_the_card(Test::ZsSum, source)
}

/// Line at the lampholder and earth at the board is a loop without the light's cpc in it: no Zs of that point, and no line of the sheet can
/// be written from it. It was read, so nobody made the figure up.
#[test]
fn a_loop_between_two_places_is_no_zs() {
    let mut hand = tested();
    hand.closes_board();
    hand.powers_on();
    reads_polarity(&mut hand);
    hand.does(Action::RemoveLamp { lamp: "lamp".to_owned() });
    hand.sets(&[1]);
    hand.measures(Function::Loop(Range::NoTrip), "lamp.1", "board.earth");
    hand.does(Action::FitLamp { lamp: "lamp".to_owned() });
    hand.does(record(Test::Zs, "0.5", true));
    hand.does(Action::HandIn);
    let testing = hand.attempt.safety().testing();
    assert!(!testing.readings().any(|it| it.0.0 == Test::Zs));
    let sheet = mark(&hand.attempt, Mode::Set);
    let of_line: Vec<_> =
        sheet.findings.iter().filter(|it| it.at == Subject::Test(Test::Zs, crate::ids::device(0))).collect();
    assert!(of_line.is_empty(), "{of_line:#?}");
    let loops =
        sheet.findings.iter().find(|it| it.at == Subject::Stage(Stage::LoopImpedance)).expect("a loop not read");
    assert_eq!(loops.code, Code::TestMissing);
}

/// The lines that a sheet may have: format 1 has Zs as read at a place, format 2 the sum by the name that is right at the board.
#[test]
fn a_sheet_has_the_lines_that_can_be_written() {
    for (format, lines) in [(Format::One, [true, true, false]), (Format::Two, [false, true, false])] {
        let attempt = Attempt::in_format(sound(), format);
        let testing = attempt.safety().testing();
        let has = |test| testing.has_line(test);
        assert_eq!([Test::Zs, Test::ZsSum, Test::ZdbSum].map(has), lines, "{format}");
    }
}

/// With Ze on the card a line for Zs as read stands for nothing: the sum is still to be written.
#[test]
fn with_a_card_a_zs_that_cannot_be_read_is_not_the_stage() {
    let model = tested_model();
    let mut hand = Hand::new(Arc::clone(model.attempt.work().exercise()));
    for it in model.attempt.log() {
        match it {
            Action::Record { test: Test::ZsSum, at, .. } => {
                let (test, at, reading, source) = (Test::Zs, at.clone(), "0.5".to_owned(), Source::Read);
                hand.does(Action::Record { test, at, reading, accepted: true, source });
            }
            it => hand.does(it.clone()),
        }
    }
    let sheet = mark(&hand.attempt, Mode::Set);
    let found = |code| sheet.findings.iter().any(|it| it.code == code);
    // Never read at all, the figure is made up.
    assert!(found(Code::TestMissing) && found(Code::FigureUnread), "{:#?}", sheet.findings);
    assert_eq!(sheet.outcome, Outcome::Refer);
}
