//! One light done from isolation to the last switch, every test made and written down; and each slip of the sequence.

pub mod sequence;
pub mod slips;
mod stands;

use std::sync::Arc;

use switchdrop::{
    attempt::{Attempt, Happened, Mode, dead_tests_left, reading_size, readings_to_take},
    exercise::{DeviceId, Exercise, Seed, Stage, draw, read},
    marking::{Outcome, Sheet, mark},
    trade::instrument::{Function, LeadLength, Shown, insulation::TestVolts, loop_impedance::Range, rcd},
    work::{Action, Detector, EarthingStep, Source, Test},
};

use crate::hand::Hand;

const SCENARIO: &str = include_str!("scenarios/tested.ron");

/// The scenario as it is written, everything handed out sound.
pub fn sound() -> Arc<Exercise> {
    Arc::new(read(SCENARIO, Seed(4)).unwrap_or_else(|it| panic!("{it:#?}")))
}

/// The same with something else in its text.
pub fn with(from: &str, to: &str) -> Arc<Exercise> {
    assert!(SCENARIO.contains(from), "{from}");
    Arc::new(read(&SCENARIO.replace(from, to), Seed(4)).unwrap_or_else(|it| panic!("{it:#?}")))
}

pub const WIRING: &str = "feed/brown@rose rose.loop
     drop/brown@rose rose.loop
     feed/blue@rose rose.neutral
     flex/blue@rose rose.neutral
     drop/blue@rose Sleeve(Brown) rose.switched
     flex/brown@rose rose.switched
     feed/cpc@rose Sleeve(GreenYellow) rose.earth
     drop/cpc@rose Sleeve(GreenYellow) rose.earth
     drop/brown@switch switch.COM
     drop/blue@switch Sleeve(Brown) switch.L1
     drop/cpc@switch Sleeve(GreenYellow) switch.box.earth";

pub const INSULATION: Function = Function::Insulation(TestVolts::V500);

pub fn measure(function: Function, a: &str, b: &str) -> Action {
    Action::Measure { function, lead: LeadLength::Short, a: a.to_owned(), b: b.to_owned() }
}

pub fn link(a: &str, b: &str) -> Action {
    Action::FitLink { a: a.to_owned(), b: b.to_owned() }
}

pub fn take(a: &str, b: &str) -> Action {
    Action::TakeLink { a: a.to_owned(), b: b.to_owned() }
}

pub fn inspect(at: &str) -> Action {
    Action::Inspect { location: at.to_owned() }
}

pub fn record(test: Test, reading: &str, accepted: bool) -> Action {
    Action::Record { test, at: "board.1".to_owned(), reading: reading.to_owned(), accepted, source: Source::Read }
}

impl Hand {
    /// Carries out an action of which a reading comes.
    pub fn does_and_sees(&mut self, action: &Action) {
        let read = self.attempt.act(action.clone());
        assert!(matches!(read, Ok(Happened::Read(_))), "{action:?}: {read:?}");
    }

    /// What the tester shows.
    pub fn measures(&mut self, function: Function, a: &str, b: &str) -> Shown {
        let action = measure(function, a, b);
        match self.attempt.act(action.clone()).unwrap_or_else(|it| panic!("{action:?}: {it}")) {
            Happened::Read(it) => it.shown,
            other => panic!("{action:?}: {other:?}"),
        }
    }
}

/// A reading as a learner writes it.
pub fn text(shown: &Shown) -> String {
    match shown {
        Shown::Figure(it) => format!("{:.*}", usize::from(it.decimals), it.value()),
        Shown::Over(it) => format!(">{:.*}", usize::from(it.decimals), it.value()),
        Shown::Under(it) => format!("<{:.*}", usize::from(it.decimals), it.value()),
        other => panic!("nothing to write down: {other:?}"),
    }
}

/// The highest of continuity readings at rose and switch, the switch closed, and the polarity in both positions.
pub fn reads_continuity(hand: &mut Hand) -> String {
    let mut highest = 0.0;
    let mut written = String::new();
    for position in [0, 1] {
        hand.sets(&[position]);
        for (a, b) in [("rose.loop", "rose.earth"), ("switch.COM", "switch.box.earth"), ("rose.switched", "rose.earth")]
        {
            let shown = hand.measures(Function::Continuity, a, b);
            if let Shown::Figure(it) = shown
                && it.value() > highest
            {
                highest = it.value();
                written = text(&shown);
            }
        }
    }
    written
}

/// Inspection and the dead tests, the lines of the sheet with them.
pub fn tests_dead(hand: &mut Hand) {
    hand.does(inspect("rose"));
    hand.does(inspect("switch"));
    hand.does(Action::RemoveLamp { lamp: "lamp".to_owned() });
    hand.opens_board();
    hand.does(Action::Null { lead: LeadLength::Short });
    hand.does(link("board.1.line", "board.earth"));
    let highest = reads_continuity(hand);
    hand.does(take("board.1.line", "board.earth"));
    hand.does(record(Test::R1R2, &highest, true));
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
}

pub fn predicts(hand: &mut Hand) {
    hand.predicts(|at| {
        if at[0] == 1 { (vec!["lamp"], vec!["drop/brown", "drop/blue"]) } else { (vec![], vec!["drop/brown"]) }
    });
}

pub const READ_ORIGIN: Action = Action::ReadOrigin { range: Range::NoTrip };

pub fn earthing(step: EarthingStep) -> Action {
    Action::Earthing { step }
}

/// Ze, everything off and locked and the board closed: the earthing conductor off for it, then back, tight and read through.
pub fn reads_ze(hand: &mut Hand) {
    hand.does(earthing(EarthingStep::Disconnect));
    hand.does_and_sees(&READ_ORIGIN);
    for step in [EarthingStep::Connect, EarthingStep::Tighten, EarthingStep::ReadThrough] {
        hand.does(earthing(step));
    }
}

/// Zs as a learner writes it: Ze as it was read and the highest R1+R2 of a circuit.
pub fn zs_of(hand: &Hand, circuit: DeviceId) -> String {
    let highest = |test| {
        let readings = hand.attempt.safety().testing().readings().filter(|it| it.0.0 == test && it.0.1 == circuit);
        readings.map(|it| reading_size(&it.1.shown)).fold(0.0, f64::max)
    };
    format!("{:.2}", highest(Test::ZsSum) + highest(Test::R1R2))
}

pub fn energises(hand: &mut Hand) {
    predicts(hand);
    hand.closes_up();
    reads_ze(hand);
    hand.closes_board();
    hand.powers_on();
}

/// The same, and Ze is not read.
pub fn energises_without_ze(hand: &mut Hand) {
    predicts(hand);
    hand.closes_up();
    hand.closes_board();
    hand.powers_on();
}

const LINE: &str = "board.1.line";
const NEUTRAL: &str = "board.1.neutral";
const EARTH: &str = "board.earth";

/// The supply's polarity at the board's test points, and its line.
pub fn reads_polarity(hand: &mut Hand) {
    for (a, b) in [(LINE, NEUTRAL), (LINE, EARTH), (NEUTRAL, EARTH)] {
        hand.measures(Function::Voltage, a, b);
    }
    hand.does(record(Test::SupplyPolarity, "", true));
}

/// The live tests, their lines, and every switch last.
pub fn tests_live(hand: &mut Hand) {
    reads_polarity(hand);
    let zs = zs_of(hand, crate::ids::device(0));
    hand.does(record(Test::ZsSum, &zs, true));
    let time = hand.measures(Function::Rcd(rcd::Test::Rated), LINE, EARTH);
    hand.does(record(Test::ResidualDevice, &text(&time), true));
    hand.does(Action::Reset { device: "board.1".to_owned() });
}

/// Everything, handed in.
pub fn model() -> Hand {
    let mut hand = model_not_handed_in();
    hand.does(Action::HandIn);
    hand
}

pub fn model_not_handed_in() -> Hand {
    let mut hand = Hand::new(sound());
    hand.isolates();
    hand.wires(WIRING);
    tests_dead(&mut hand);
    energises(&mut hand);
    tests_live(&mut hand);
    hand.works_switches();
    hand
}

pub fn sheet(attempt: &Attempt) -> Sheet {
    mark(attempt, Mode::Set)
}

/// The model's log with its actions changed one at a time: `None` leaves one out. What is stopped is what is to be shown.
pub fn changed(change: impl Fn(&Action) -> Vec<Action>) -> Attempt {
    let mut attempt = Attempt::new(sound());
    for action in model().attempt.log().iter().flat_map(change) {
        // Impossible things follow from what was left out.
        let _ = attempt.act(action);
    }
    attempt
}

pub fn codes(sheet: &Sheet) -> Vec<&'static str> {
    let mut codes: Vec<_> = sheet.findings.iter().map(|it| it.code.word()).collect();
    codes.sort_unstable();
    codes.dedup();
    codes
}

#[test]
fn everything_from_isolation_to_the_last_switch_earns_all_marks() {
    let sheet = sheet(&model().attempt);
    assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
    assert_eq!((sheet.outcome, sheet.marks, sheet.out_of), (Outcome::Pass, 100, 100));
}

/// R1+R2 to the switch and back: 12 m of 1.5/1.0 and 4 m of 1.0/1.0 (12.10, 18.10 mohm/m, BS EN 60228): 12 x 30.20 and
/// 4 x 36.20 mohm, 0.507 ohm. At the rose's switched terminal the drop's line runs there and back, and the cpc not at all:
/// 12 x 30.20 + 8 x 18.10, the same.
#[test]
fn the_figures_are_those_of_the_tables() {
    let attempt = model().attempt;
    let written = attempt.safety().testing().sheet().find(|it| it.0 == Test::R1R2).unwrap().2.written.unwrap().value;
    assert!((written - 0.507).abs() < 0.03, "{written}");
    // Ze of a TN-C-S supply, 0.35 ohm, and R1+R2 to the switch.
    let zs = attempt.safety().testing().sheet().find(|it| it.0 == Test::ZsSum).unwrap().2.written.unwrap().value;
    assert!((zs - 0.857).abs() < 0.08, "{zs}");
}

/// The share of variants in which something handed out is wrong is as the scenario states it: half the indicators, a third
/// of the charts; and what varies is drawn by name, so the two do not hang together.
#[test]
fn what_is_handed_out_varies_as_stated() {
    let kits: Vec<_> = (0..400).map(|it| draw(SCENARIO, Seed(it)).unwrap().kit).collect();
    let bad = kits.iter().filter(|it| !it.indicator.is_sound()).count();
    let wrong = kits.iter().filter(|it| !it.chart.is_right()).count();
    let both = kits.iter().filter(|it| !it.indicator.is_sound() && !it.chart.is_right()).count();
    assert!(
        (150..250).contains(&bad) && (95..175).contains(&wrong) && (40..100).contains(&both),
        "{bad} {wrong} {both}"
    );
}

/// Whoever takes the readings that are offered, each as it is offered, and writes down what comes of them, has done every
/// stage.
#[test]
fn the_readings_offered_are_all_that_is_needed() {
    let mut hand = Hand::new(sound());
    hand.isolates();
    hand.wires(WIRING);
    hand.does(inspect("rose"));
    hand.does(inspect("switch"));
    hand.does(Action::RemoveLamp { lamp: "lamp".to_owned() });
    hand.opens_board();
    for lead in [LeadLength::Short, LeadLength::Long] {
        hand.does(Action::Null { lead });
    }
    for stage in [Stage::Continuity, Stage::Insulation, Stage::Polarity] {
        follows(&mut hand, stage);
    }
    hand.does(Action::FitLamp { lamp: "lamp".to_owned() });
    hand.sets(&[0]);
    energises(&mut hand);
    for stage in [Stage::SupplyPolarity, Stage::LoopImpedance, Stage::ResidualDevice] {
        follows(&mut hand, stage);
    }
    hand.does(Action::Reset { device: "board.1".to_owned() });
    hand.works_switches();
    hand.does(Action::HandIn);
    let sheet = sheet(&hand.attempt);
    assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
}

/// Takes every reading that a stage offers, the link in where it is asked for, and writes the stage's lines.
fn follows(hand: &mut Hand, stage: Stage) {
    let mut taken: Vec<(Action, Shown)> = Vec::new();
    while let Some(it) = readings_to_take(&hand.attempt, stage).into_iter().next() {
        if it.linked == hand.attempt.work().links().is_empty() {
            let change = if it.linked { link } else { take };
            hand.does(change("board.1.line", "board.earth"));
        }
        hand.sets(&it.positions);
        let action = it.action(hand.attempt.work());
        let before = readings_to_take(&hand.attempt, stage).len();
        let Ok(Happened::Read(read)) = hand.attempt.act(action.clone()) else { panic!("{action:?}") };
        assert!(readings_to_take(&hand.attempt, stage).len() < before, "{action:?} does not count: {read:?}");
        taken.push((action, read.shown));
    }
    if !hand.attempt.work().links().is_empty() {
        hand.does(take("board.1.line", "board.earth"));
    }
    for (test, _) in hand.attempt.safety().testing().lines_left(stage) {
        let between = |one: &str, other: &str| {
            let is = |it: &&(Action, Shown)| matches!(&it.0, Action::Measure { a, b, .. } if a == one && b == other);
            taken.iter().find(is).map(|it| it.1)
        };
        // Insulation has a line for each pair; of the others the highest counts.
        let shown = match test {
            Test::InsulationLineNeutral => between("board.1.line", "board.1.neutral"),
            Test::InsulationLineEarth => between("board.1.line", "board.earth"),
            Test::InsulationNeutralEarth => between("board.1.neutral", "board.earth"),
            Test::ZsSum => {
                let zs = zs_of(hand, crate::ids::device(0));
                hand.does(record(test, &zs, true));
                continue;
            }
            _ => taken.iter().map(|it| it.1).max_by(|a, b| reading_size(a).total_cmp(&reading_size(b))),
        };
        let reading = if test.has_figure() { text(&shown.expect("a reading")) } else { String::new() };
        hand.does(record(test, &reading, true));
    }
    assert!(hand.attempt.safety().is_done(&sound(), stage), "{stage:?}");
}

/// marking.md, TT: all live conductors isolated. A device that opens the line alone leaves the neutral, so the main switch is
/// off as well before a dead test proves anything.
#[test]
fn in_a_tt_system_the_neutral_is_isolated_too() {
    for main_off in [false, true] {
        let mut hand = Hand::new(with("earthing: TnCS", "earthing: Tt"));
        let exercise = Arc::clone(hand.attempt.work().exercise());
        for place in ["rose", "switch"] {
            hand.does(Action::Identify { location: place.to_owned(), devices: vec!["board.1".to_owned()] });
        }
        hand.does(Action::Agree);
        if main_off {
            hand.does(Action::MainSwitch { on: false });
        }
        hand.does(Action::PowerOff { device: "board.1".to_owned() });
        hand.does(Action::LockOff { device: "board.1".to_owned() });
        hand.does(Action::RemoveCover { location: "rose".to_owned() });
        let rose = exercise.location("rose").unwrap();
        hand.does(Action::ProveIndicator);
        for it in dead_tests_left(&hand.attempt, rose) {
            let [a, b] = [it.a, it.b].map(|it| hand.attempt.work().point_address(it));
            hand.does(Action::TestDead { a, b, with: Detector::Indicator });
        }
        hand.does(Action::ProveIndicator);
        assert_eq!(hand.attempt.safety().is_proved(rose), main_off);
    }
}
