//! The charter: "A **training board** (`supply: Bench`): a workshop bay with no supply of its own, plug out and in the learner's own
//! hand. The supply is brought by the supervisor after the covers are on and the learner has said what will happen. After that, and
//! before any cover comes off: plug out and in hand, indicator proved, dead, proved."

use std::sync::Arc;

use switchdrop::{
    attempt::{ActKind, Mode, dead_tests_left, readings_to_take},
    exercise::{Exercise, Problem, ProblemCode, Seed, Stage, read},
    marking::{Code, Outcome, Sheet, Weight, mark},
    report,
    wording::{Wording, verdict},
    work::{Action, Check, Detector, Refused},
};

use crate::{
    bench::attempt_text,
    hand::{Hand, exercise, first_model, marked},
    tested::{READ_ORIGIN, WIRING, sound},
};

const STAGES: &str = "stages: [Prediction, EnergisingChecks, FunctionalTest],";

/// One light and one switch on a training board; the tests of its sheet have their own exercise.
fn text(more: &str) -> String {
    let text = include_str!("scenarios/tested.ron");
    let (before, after) = text.split_once("    stages: [").unwrap();
    let (_, after) = after.split_once("],\n").unwrap();
    let (after, _) = after.split_once("    vary:").unwrap();
    let after = after.replace("test_results: 10,", "").replace("functional_test: 5, ", "");
    format!("{before}    {STAGES} supply: Bench, {more}\n{after})\n")
}

fn bench() -> Arc<Exercise> {
    Arc::new(read(&text(""), Seed(4)).unwrap_or_else(|it| panic!("{it:#?}")))
}

fn cover(location: &str, on: bool) -> Action {
    let location = location.to_owned();
    if on { Action::FitCover { location } } else { Action::RemoveCover { location } }
}

#[track_caller]
fn stops(hand: &mut Hand, action: Action, kind: ActKind) {
    let said = format!("{action:?}");
    assert_eq!(hand.attempt.act(action).unwrap().stopped(), Some(kind), "{said}");
}

/// Opened and wired with the plug in hand: nothing to isolate, to lock or to prove yet.
fn wired() -> Hand {
    let mut hand = Hand::new(bench());
    hand.does(cover("rose", false));
    hand.does(cover("switch", false));
    hand.wires(WIRING);
    hand
}

fn says(hand: &mut Hand) {
    hand.predicts(|at| {
        if at[0] == 1 { (vec!["lamp"], vec!["drop/brown", "drop/blue"]) } else { (vec![], vec!["drop/brown"]) }
    });
}

/// Closed up, everything said and checked, the supply there.
fn supplied() -> Hand {
    let mut hand = wired();
    says(&mut hand);
    hand.closes_up();
    hand.does(Action::BringSupply);
    hand
}

/// From the first cover to the last switch: full marks, and no act.
#[test]
fn a_training_board_is_wired_with_the_plug_in_hand_and_passes() {
    let mut hand = wired();
    let work = hand.attempt.work();
    assert!(work.is_unplugged() && !work.is_supplied());
    says(&mut hand);
    hand.closes_up();
    hand.does(Action::BringSupply);
    assert_eq!(hand.attempt.tally().energised.len(), 1);
    hand.works_switches();
    hand.does(Action::HandIn);
    let sheet = mark(&hand.attempt, Mode::Set);
    assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
    assert_eq!(sheet.outcome, Outcome::Pass);
}

/// The supervisor brings it when the covers are on and everything is said and checked, and not before.
#[test]
fn the_supply_is_brought_when_the_covers_are_on_and_all_is_said() {
    let mut hand = wired();
    stops(&mut hand, Action::BringSupply, ActKind::PowerOnOpen);
    hand.does(cover("rose", true));
    stops(&mut hand, Action::BringSupply, ActKind::PowerOnOpen);
    hand.does(cover("switch", true));
    stops(&mut hand, Action::BringSupply, ActKind::PowerOnUnchecked);
    says(&mut hand);
    stops(&mut hand, Action::BringSupply, ActKind::PowerOnUnchecked);
    hand.closes_up();
    hand.does(Action::BringSupply);
    assert_eq!(hand.attempt.act(Action::BringSupply), Err(Refused::PlugIn));
}

/// Asked for too early, it is told at the board, with its circuit.
#[test]
fn a_supply_asked_for_too_early_is_told_at_the_board() {
    let model = first_model();
    let log = model.attempt.log();
    let closed = log.iter().position(|it| *it == cover("switch", true)).expect("the cover goes on") + 1;
    let mut hand = Hand::new(exercise("wire-a-switch", 4));
    log[..closed].iter().cloned().for_each(|it| hand.does(it));
    stops(&mut hand, Action::BringSupply, ActKind::PowerOnUnchecked);
    log[closed..].iter().cloned().for_each(|it| hand.does(it));
    let sheet = marked(&hand.attempt);
    assert_eq!(sheet.causes(), [("power-on-unchecked", "board")]);
    let told =
        report::Marked::of(&attempt_text(hand.attempt.work().exercise(), hand.attempt.log()), &[]).expect("an attempt");
    let lines = told.lines(&Wording::british()).join("\n");
    assert!(lines.contains("with something still to do: board."), "{lines}");
    assert!(lines.contains("(board; circuit 1)"), "{lines}");
}

/// Once it was there, no cover comes off before the plug is out and the board proved dead, and after the next supply not again.
#[test]
fn after_the_supply_no_cover_comes_off_before_it_is_proved_dead() {
    let mut hand = supplied();
    stops(&mut hand, cover("rose", false), ActKind::WorkedLive);
    hand.does(Action::Unplug);
    stops(&mut hand, cover("rose", false), ActKind::BenchUnproved);
    // Tested with no proof before it, or none after it, it is not proved.
    let board = hand.board();
    let touch = |hand: &mut Hand| {
        for it in dead_tests_left(&hand.attempt, board) {
            let [a, b] = [it.a, it.b].map(|it| hand.attempt.work().point_address(it));
            hand.does(Action::TestDead { a, b, with: Detector::Indicator });
        }
    };
    touch(&mut hand);
    hand.does(Action::ProveIndicator);
    stops(&mut hand, cover("rose", false), ActKind::BenchUnproved);
    hand.does(Action::ProveIndicator);
    touch(&mut hand);
    stops(&mut hand, cover("rose", false), ActKind::BenchUnproved);
    hand.proves_dead(board);
    hand.does(cover("rose", false));
    hand.does(cover("rose", true));
    hand.closes_up();
    hand.does(Action::BringSupply);
    hand.does(Action::Unplug);
    stops(&mut hand, cover("rose", false), ActKind::BenchUnproved);
}

/// What a training board does not have is a problem of its scenario, and the house's supply has no plug.
#[test]
fn what_a_training_board_does_not_have() {
    let codes = |text: &str| -> Vec<ProblemCode> {
        read(text, Seed(4)).map_or_else(|it| it.iter().map(|it: &Problem| it.code).collect(), |_| Vec::new())
    };
    assert_eq!(codes(&text("")), []);
    for more in
        ["board: Supervisor,", "tails: Isolator,", "reference: EarthingTerminal,", "fed: Board(mm2: 6.0, metres: 9.0),"]
    {
        assert_eq!(codes(&text(more)), [ProblemCode::NotOnBench], "{more}");
    }
    assert_eq!(codes(&text("").replace("[Prediction,", "[Isolation, Prediction,")), [ProblemCode::NotOnBench]);
    let mut house = Hand::new(sound());
    for it in [Action::BringSupply, Action::Unplug] {
        assert_eq!(house.attempt.act(it), Err(Refused::NoPlug));
    }
}

/// For the tests of all rules: a cover taken off after the supply, the board proved dead before it or not.
pub fn opened_after(proved: bool) -> Sheet {
    let mut hand = supplied();
    hand.does(Action::Unplug);
    if proved {
        let board = hand.board();
        hand.proves_dead(board);
    }
    let _ = hand.attempt.act(cover("rose", false)).unwrap();
    hand.does(Action::HandIn);
    mark(&hand.attempt, Mode::Set)
}

#[test]
fn to_open_it_unproved_is_critical() {
    let sheet = opened_after(false);
    let act = sheet.findings.iter().find(|it| it.code == Code::BenchUnproved).expect("an act");
    assert_eq!((act.weight, sheet.outcome), (Weight::Critical, Outcome::Refer));
}

/// In practice it is no referral. The sheet says for all that what was done.
#[test]
fn a_dangerous_act_in_practice_is_said_to_be_dangerous() {
    let mut hand = supplied();
    hand.works_switches();
    stops(&mut hand, cover("rose", false), ActKind::WorkedLive);
    hand.does(Action::HandIn);
    let sheet = mark(&hand.attempt, Mode::Practice);
    assert_eq!(sheet.outcome, Outcome::NotYet);
    let said = verdict(&Wording::british(), &hand.attempt, &sheet).more;
    assert!(said.iter().any(|it| it.starts_with("Something dangerous was done.")), "{said:?}");
}

/// What its plug is in is another's circuit: the loop outside its own circuits is Zdb, read at its board, and no origin is there to read at.
#[test]
fn its_loop_is_read_at_its_board() {
    let text = text("").replace("FunctionalTest]", "LoopImpedance, FunctionalTest]");
    let exercise = Arc::new(read(&text, Seed(4)).unwrap_or_else(|it| panic!("{it:#?}")));
    let mut hand = Hand::new(exercise);
    hand.does(cover("rose", false));
    hand.does(cover("switch", false));
    hand.wires(WIRING);
    hand.does(cover("rose", true));
    hand.does(cover("switch", true));
    says(&mut hand);
    for check in [Check::NobodyAtWork, Check::PeopleTold] {
        hand.does(Action::Confirm { check });
    }
    hand.does(Action::BringSupply);
    let offered = readings_to_take(&hand.attempt, Stage::LoopImpedance);
    let [one] = offered.as_slice() else { panic!("{offered:?}") };
    assert!(one.points.is_some(), "{one:?}");
    let read = one.action(hand.attempt.work());
    hand.does_and_sees(&read);
    assert!(readings_to_take(&hand.attempt, Stage::LoopImpedance).is_empty());
    assert_eq!(hand.attempt.act(READ_ORIGIN), Err(Refused::NoBoardWork));
}
