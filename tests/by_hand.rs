//! Ends made off by hand: what the hand can and can't do, what follows, what it costs.
//!
//! Lengths: a strip of 8 to 10 mm and 10 mm of sheath inside are common practice; a depth of 9 or 10 mm is the catalogue's. What each
//! slip must cost was written down before the marker was asked. Heat and volts are worked out on paper from Ohm's law.

mod any;
mod follows;
pub mod slips;

use std::sync::Arc;

use switchdrop::{
    attempt::{Attempt, Happened, action_line, parse_action},
    exercise::{Exercise, Seed, read},
    marking::Outcome,
    work::{Action, Feel, Prep, Refused},
};

use crate::hand::{Hand, Marked, marked};

const DOUBLE: &str = include_str!("scenarios/by-hand.ron");

/// The same with a one-way plate, in holes of 9 mm; the neutrals meet in a lever connector.
fn single() -> String {
    DOUBLE.replace("[DoublePole]", "[OneWay]")
}

fn exercise(text: &str) -> Arc<Exercise> {
    Arc::new(read(text, Seed(0)).unwrap_or_else(|it| panic!("{it:#?}")))
}

fn does(hand: &mut Hand, actions: &str) {
    for line in actions.lines().map(str::trim).filter(|it| !it.is_empty()) {
        hand.does(ron::from_str(line).unwrap_or_else(|it| panic!("{line}: {it}")));
    }
}

fn opened(text: &str) -> Hand {
    let mut hand = Hand::new(exercise(text));
    does(
        &mut hand,
        r#"PowerOff(device: "board.1")
           LockOff(device: "board.1")
           RemoveCover(location: "box")"#,
    );
    hand
}

fn closed(mut hand: Hand) -> Hand {
    does(
        &mut hand,
        r#"FitCover(location: "box")
           Unlock(device: "board.1")
           PowerOn(device: "board.1")
           Operate(switch: "box", position: 1)
           HandIn"#,
    );
    hand
}

/// What a careful hand does at the double-pole plate: its holes are made for 6 mm², and ask for a fold of anything thin.
const DOUBLE_STEPS: &str = r#"Grommet(location: "box")
    Sheath(cable: "feed", location: "box", mm: 160)
    Sheath(cable: "flex", location: "box", mm: 160)
    Cut(end: "feed/brown@box", mm: 120)
    Cut(end: "feed/blue@box", mm: 120)
    Cut(end: "feed/cpc@box", mm: 120)
    Cut(end: "flex/brown@box", mm: 120)
    Cut(end: "flex/blue@box", mm: 120)
    Strip(end: "feed/brown@box", mm: 20, jaw: 150)
    Strip(end: "feed/blue@box", mm: 20, jaw: 150)
    Strip(end: "flex/brown@box", mm: 20, jaw: 75)
    Strip(end: "flex/blue@box", mm: 20, jaw: 75)
    Fold(end: "feed/brown@box")
    Fold(end: "feed/blue@box")
    Fold(end: "flex/brown@box")
    Fold(end: "flex/blue@box")
    Mark(end: "feed/cpc@box", mark: Sleeve(GreenYellow))
    Connect(end: "feed/brown@box", terminal: "box.L-in")
    Connect(end: "feed/blue@box", terminal: "box.N-in")
    Connect(end: "flex/brown@box", terminal: "box.L-out")
    Connect(end: "flex/blue@box", terminal: "box.N-out")
    Connect(end: "feed/cpc@box", terminal: "box.box.earth")
    MakeUp(location: "box", colour: GreenYellow)
    Connect(end: "made-1/a@box", terminal: "box.box.earth")
    Connect(end: "made-1/b@box", terminal: "box.plate.earth")
    Tighten(terminal: "box.L-in")
    Tighten(terminal: "box.N-in")
    Tighten(terminal: "box.L-out")
    Tighten(terminal: "box.N-out")
    Tighten(terminal: "box.box.earth")
    Tighten(terminal: "box.plate.earth")
    Dress(location: "box")"#;

/// At the one-way plate.
const SINGLE_STEPS: &str = r#"Sheath(cable: "feed", location: "box", mm: 150)
    Sheath(cable: "flex", location: "box", mm: 150)
    Cut(end: "feed/brown@box", mm: 120)
    Cut(end: "feed/blue@box", mm: 120)
    Cut(end: "feed/cpc@box", mm: 120)
    Cut(end: "flex/brown@box", mm: 120)
    Cut(end: "flex/blue@box", mm: 120)
    Strip(end: "feed/brown@box", mm: 9, jaw: 150)
    Strip(end: "feed/blue@box", mm: 11, jaw: 150)
    Strip(end: "flex/brown@box", mm: 9, jaw: 75)
    Strip(end: "flex/blue@box", mm: 11, jaw: 75)
    Grommet(location: "box")
    Mark(end: "feed/cpc@box", mark: Sleeve(GreenYellow))
    Connect(end: "feed/brown@box", terminal: "box.COM")
    Connect(end: "flex/brown@box", terminal: "box.L1")
    Connect(end: "feed/blue@box", terminal: "box.connector.1")
    Connect(end: "flex/blue@box", terminal: "box.connector.1")
    Connect(end: "feed/cpc@box", terminal: "box.box.earth")
    Tighten(terminal: "box.COM")
    Tighten(terminal: "box.L1")
    Tighten(terminal: "box.connector.1")
    Tighten(terminal: "box.box.earth")
    Dress(location: "box")"#;

fn double() -> Hand {
    let mut hand = opened(DOUBLE);
    does(&mut hand, DOUBLE_STEPS);
    closed(hand)
}

fn single_done() -> Hand {
    let mut hand = opened(&single());
    does(&mut hand, SINGLE_STEPS);
    closed(hand)
}

/// The steps with one line put for another: nothing, or several.
fn with(text: &str, steps: &str, line: &str, instead: &str) -> Hand {
    assert!(steps.contains(line), "{line}");
    let mut hand = opened(text);
    does(&mut hand, &steps.replace(line, instead));
    closed(hand)
}

fn judged(hand: &Hand) -> Marked {
    marked(&hand.attempt)
}

/// The codes that the cases here fire, each with a near miss beside it.
pub fn fired() -> Vec<String> {
    let slips = slips::DOUBLE_SLIPS.iter().chain(slips::SINGLE_SLIPS).filter_map(|it| it.2.map(|it| it.0));
    let others = ["joint-hot", "fold-missing", "unlike-sizes", "conductor-trapped", "box-too-shallow"];
    slips.chain(others).map(str::to_owned).collect()
}

#[test]
fn both_models_earn_everything() {
    for hand in [double(), single_done()] {
        let sheet = judged(&hand);
        assert_eq!((sheet.outcome, sheet.marks), (Outcome::Pass, sheet.out_of), "{:#?}", sheet.findings);
        assert_eq!(sheet.out_of, 100);
        assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
    }
}

#[test]
fn a_blank_hand_in_is_not_yet_and_earns_next_to_nothing() {
    let mut attempt = Attempt::new(exercise(DOUBLE));
    attempt.act(Action::HandIn).unwrap();
    let sheet = marked(&attempt);
    assert_eq!(sheet.outcome, Outcome::NotYet, "{:#?}", sheet.findings);
    assert!(sheet.marks <= 20, "{}", sheet.marks);
}

fn refused(hand: &mut Hand, action: &str) -> Refused {
    hand.attempt.act(ron::from_str(action).unwrap()).expect_err(action)
}

#[test]
fn what_a_hand_cannot_do() {
    let mut hand = opened(DOUBLE);
    let said = |hand: &mut Hand, action: &str, word: &str| assert_eq!(refused(hand, action).word(), word, "{action}");
    said(&mut hand, r#"Strip(end: "feed/brown@box", mm: 10, jaw: 150)"#, "in-sheath");
    said(&mut hand, r#"Mark(end: "feed/brown@box", mark: Tape(Brown))"#, "in-sheath");
    said(&mut hand, r#"Connect(end: "feed/brown@box", terminal: "box.L-in")"#, "in-sheath");
    said(&mut hand, r#"Sheath(cable: "feed", location: "box", mm: 201)"#, "not-so-much");
    said(&mut hand, r#"Sheath(cable: "none", location: "box", mm: 100)"#, "unknown");
    said(&mut hand, r#"Dress(location: "lamp")"#, "not-here");
    does(&mut hand, r#"Sheath(cable: "feed", location: "box", mm: 160)"#);
    said(&mut hand, r#"Sheath(cable: "feed", location: "box", mm: 100)"#, "not-back");
    said(&mut hand, r#"Connect(end: "feed/brown@box", terminal: "box.L-in")"#, "nothing-bare");
    said(&mut hand, r#"Fold(end: "feed/brown@box")"#, "nothing-bare");
    said(&mut hand, r#"Strip(end: "feed/brown@box", mm: 161, jaw: 150)"#, "not-so-much");
    said(&mut hand, r#"Strip(end: "feed/brown@box", mm: 10, jaw: 400)"#, "jaw-too-wide");
    said(&mut hand, r#"Strip(end: "feed/brown@box", mm: 10, jaw: 140)"#, "no-such-material");
    said(&mut hand, r#"Strip(end: "feed/cpc@box", mm: 10, jaw: 100)"#, "no-such-material");
    said(&mut hand, r#"Cut(end: "feed/brown@box", mm: 160)"#, "not-back");
    does(&mut hand, "Cut(end: \"feed/brown@box\", mm: 80)\nStrip(end: \"feed/brown@box\", mm: 10, jaw: 150)");
    said(&mut hand, r#"Strip(end: "feed/brown@box", mm: 9, jaw: 150)"#, "not-back");
    // 80 mm do for a connector in the box, not for a plate held clear of it: that takes 100, and 30 mm of sheath can still be taken back.
    said(&mut hand, r#"Connect(end: "feed/brown@box", terminal: "box.L-in")"#, "wont-reach");
    does(
        &mut hand,
        r#"Cut(end: "feed/brown@box", mm: 69)
           Strip(end: "feed/brown@box", mm: 10, jaw: 150)"#,
    );
    said(&mut hand, r#"Connect(end: "feed/brown@box", terminal: "box.L-in")"#, "cut-too-short");
    does(&mut hand, r#"Connect(end: "feed/brown@box", terminal: "box.connector.1")"#);
    said(&mut hand, r#"Cut(end: "feed/brown@box", mm: 60)"#, "already-connected");
    does(&mut hand, r#"Grommet(location: "box")"#);
    said(&mut hand, r#"Grommet(location: "box")"#, "so-already");
}

#[test]
fn a_pull_brings_out_what_is_not_held_and_undo_takes_handwork_back() {
    let mut hand = opened(&single());
    does(
        &mut hand,
        r#"Sheath(cable: "feed", location: "box", mm: 150)
           Strip(end: "feed/brown@box", mm: 3, jaw: 150)
           Connect(end: "feed/brown@box", terminal: "box.COM")
           Tighten(terminal: "box.COM")"#,
    );
    let pull = |hand: &mut Hand| hand.attempt.act(Action::Tug { end: "feed/brown@box".to_owned() }).unwrap();
    assert_eq!(pull(&mut hand), Happened::CameOut);
    does(
        &mut hand,
        r#"Strip(end: "feed/brown@box", mm: 9, jaw: 150)
           Connect(end: "feed/brown@box", terminal: "box.COM")"#,
    );
    assert_eq!(pull(&mut hand), Happened::CameOut, "slack");
    does(
        &mut hand,
        r#"Connect(end: "feed/brown@box", terminal: "box.COM")
           Tighten(terminal: "box.COM")"#,
    );
    assert_eq!(pull(&mut hand), Happened::Held);
    let end = hand.attempt.work().end("feed/brown@box").unwrap();
    let before = hand.attempt.work().prep_of(end);
    does(&mut hand, "Disconnect(end: \"feed/brown@box\")\nCut(end: \"feed/brown@box\", mm: 50)\nUndo\nUndo");
    assert_eq!(hand.attempt.work().prep_of(end), before);
}

/// A cut takes the damage away with the copper that has it, and not with less.
#[test]
fn damage_is_cut_away() {
    let mut hand = opened(DOUBLE);
    does(
        &mut hand,
        r#"Sheath(cable: "feed", location: "box", mm: 160)
           Strip(end: "feed/brown@box", mm: 10, jaw: 100)
           Cut(end: "feed/brown@box", mm: 155)"#,
    );
    let end = hand.attempt.work().end("feed/brown@box").unwrap();
    let prep = |hand: &Hand| hand.attempt.work().prep_of(end).unwrap();
    assert_eq!(prep(&hand), Prep { core_mm: 155, strip_mm: 5, nicked: true, ..Prep::default() });
    does(&mut hand, r#"Cut(end: "feed/brown@box", mm: 150)"#);
    assert_eq!(prep(&hand), Prep { core_mm: 150, ..Prep::default() });
}

#[test]
fn with_the_plate_on_nothing_can_be_made_off() {
    let mut hand = opened(DOUBLE);
    does(&mut hand, "FitCover(location: \"box\")\nUnlock(device: \"board.1\")\nPowerOn(device: \"board.1\")");
    for action in [r#"Sheath(cable: "feed", location: "box", mm: 160)"#, r#"Dress(location: "box")"#] {
        assert_eq!(refused(&mut hand, action).word(), "cover-on");
    }
}

#[test]
fn ends_that_come_prepared_are_left_alone_and_old_lines_read_as_before() {
    let mut hand = opened(&DOUBLE.replace("preparation: ByHand,", ""));
    assert_eq!(refused(&mut hand, r#"Cut(end: "feed/brown@box", mm: 60)"#).word(), "comes-prepared");
    does(&mut hand, r#"Connect(end: "feed/brown@box", terminal: "box.L-in")"#);
    let written = |feel| action_line(1, &Action::Tighten { terminal: "box.L-in".to_owned(), feel }).unwrap();
    assert!(!written(Feel::Right).contains("feel"));
    assert!(written(Feel::Crushed).contains("feel"));
    assert!(parse_action(r#"Tighten(terminal: "a")"#).is_ok());
    assert!(!hand.attempt.work().exercise().text().contains("ByHand"));
}

/// marking.md: a half-wired hand-in is `not yet`, wherever the making off breaks off.
#[test]
fn a_making_off_that_breaks_off_anywhere_is_not_yet() {
    let lines: Vec<&str> = DOUBLE_STEPS.lines().collect();
    for length in (0..lines.len()).step_by(3) {
        let mut hand = opened(DOUBLE);
        does(&mut hand, &lines[..length].join("\n"));
        does(&mut hand, "HandIn");
        let sheet = judged(&hand);
        assert_eq!(sheet.outcome, Outcome::NotYet, "after {length}: {:?}", sheet.causes());
    }
}
