//! The exercise that has everything: a hand that makes off every end, tests and writes the sheet, in any of its variants.
//!
//! One box after the other and one terminal after the other, as a person does it: cut, strip, mark, connect, then the screw
//! and a pull at each conductor.

use std::sync::Arc;

use switchdrop::{
    attempt::{ActKind, Attempt, Happened, Mode, ProofGap, dead_tests_left, open, readings_to_take},
    exercise::Stage,
    marking::{Code, Outcome, Sheet, mark},
    trade::{
        accessory::Material,
        colour::{Colour, Mark},
        instrument::{Function, LeadLength, Shown, rcd},
    },
    wording::{Wording, finding},
    work::{Action, Fault, Feel, KitPart, Refused, Source, Test},
};

use crate::{
    hand::{Hand, exercise},
    tested::{INSULATION, inspect, link, measure, take, text},
};

const ID: &str = "one-way-tested";

/// A core that goes into a terminal: its end, its length, what is bare at its tip, the jaw. A cpc has nothing to strip and
/// needs a sleeve; what was made up by hand comes ready.
type Core = (&'static str, u16, u16, u16);

/// What stands at the board for the learner's circuit, and whether the box and its plate are metal.
struct Variant {
    device: String,
    metal_box: bool,
    metal_plate: bool,
}

impl Variant {
    fn of(hand: &Hand) -> Self {
        use switchdrop::exercise::LocationKind;
        let work = hand.attempt.work();
        let exercise = work.exercise();
        let device = hand.attempt.safety().testing().circuits().next().expect("a circuit");
        let place = &exercise.locations[exercise.location("switch").expect("the switch")];
        let LocationKind::Box(it) = &place.kind else { panic!("a box") };
        Self {
            device: exercise.devices[device].address.clone(),
            metal_box: it.body == Material::Metal,
            metal_plate: it.plate.front == Material::Metal,
        }
    }
}

fn makes_off(hand: &mut Hand, terminal: &str, cores: &[Core]) {
    for (end, core, strip, jaw) in cores {
        let end = (*end).to_owned();
        if *core > 0 {
            hand.does(Action::Cut { end: end.clone(), mm: *core });
            if *strip > 0 {
                hand.does(Action::Strip { end: end.clone(), mm: *strip, jaw: *jaw });
            } else {
                hand.does(Action::Mark { end: end.clone(), mark: Mark::Sleeve(Colour::GreenYellow) });
            }
        }
        hand.does(Action::Connect { end, terminal: terminal.to_owned() });
    }
    hand.does(Action::Tighten { terminal: terminal.to_owned(), feel: Feel::Right });
    for (end, ..) in cores {
        let pull = hand.attempt.act(Action::Tug { end: (*end).to_owned() });
        assert_eq!(pull, Ok(Happened::Held), "{end}");
    }
}

fn sheath(cable: &str, location: &str, mm: u16) -> Action {
    Action::Sheath { cable: cable.to_owned(), location: location.to_owned(), mm }
}

/// The switch box and the rose, ready for their covers.
fn joins(hand: &mut Hand, it: &Variant) {
    if it.metal_box {
        hand.does(Action::Grommet { location: "switch".to_owned() });
    }
    hand.does(sheath("feed", "switch", 160));
    hand.does(sheath("light", "switch", 160));
    // Each conductor at the cut.
    let switch = hand.attempt.work().location("switch").expect("the switch");
    hand.proves_dead(switch);
    makes_off(hand, "switch.COM", &[("feed/brown@switch", 120, 9, 150)]);
    makes_off(hand, "switch.L1", &[("light/brown@switch", 120, 9, 100)]);
    makes_off(hand, "switch.connector.1", &[("feed/blue@switch", 100, 11, 150), ("light/blue@switch", 100, 11, 100)]);
    let mut earths = vec![("feed/cpc@switch", 100, 0, 0), ("light/cpc@switch", 100, 0, 0)];
    if it.metal_plate {
        hand.does(Action::MakeUp { location: "switch".to_owned(), colour: Colour::GreenYellow });
        earths.push(("made-1/a@switch", 0, 0, 0));
    }
    makes_off(hand, "switch.box.earth", &earths);
    if it.metal_plate {
        makes_off(hand, "switch.plate.earth", &[("made-1/b@switch", 0, 0, 0)]);
    }
    hand.does(Action::Dress { location: "switch".to_owned() });
    hand.does(sheath("light", "rose", 150));
    hand.does(sheath("flex", "rose", 150));
    makes_off(hand, "rose.switched", &[("light/brown@rose", 70, 8, 100), ("flex/brown@rose", 70, 8, 75)]);
    makes_off(hand, "rose.neutral", &[("light/blue@rose", 70, 8, 100), ("flex/blue@rose", 70, 8, 75)]);
    makes_off(hand, "rose.earth", &[("light/cpc@rose", 70, 0, 0)]);
}

fn record(hand: &mut Hand, it: &Variant, test: Test, reading: &str) {
    hand.does(Action::Record {
        test,
        at: it.device.clone(),
        reading: reading.to_owned(),
        accepted: true,
        source: Source::Read,
    });
}

fn tests_dead(hand: &mut Hand, it: &Variant) {
    let (line, neutral, bar) = (format!("{}.line", it.device), format!("{}.neutral", it.device), "board.earth");
    hand.does(inspect("switch"));
    hand.does(inspect("rose"));
    hand.does(Action::RemoveLamp { lamp: "lamp".to_owned() });
    hand.does(Action::MainSwitch { on: false });
    hand.does(Action::Null { lead: LeadLength::Short });
    hand.does(link(&line, bar));
    hand.measures(Function::Continuity, "switch.COM", "switch.box.earth");
    let open = hand.measures(Function::Continuity, "rose.switched", "rose.earth");
    assert!(matches!(open, Shown::Over(_)), "{open:?}");
    hand.sets(&[1]);
    let highest = hand.measures(Function::Continuity, "rose.switched", "rose.earth");
    hand.does(take(&line, bar));
    record(hand, it, Test::R1R2, &text(&highest));
    for (test, a, b) in [
        (Test::InsulationLineNeutral, line.as_str(), neutral.as_str()),
        (Test::InsulationLineEarth, line.as_str(), bar),
        (Test::InsulationNeutralEarth, neutral.as_str(), bar),
    ] {
        let shown = hand.measures(INSULATION, a, b);
        record(hand, it, test, &text(&shown));
    }
    record(hand, it, Test::Polarity, "");
    hand.does(Action::FitLamp { lamp: "lamp".to_owned() });
    hand.sets(&[0]);
}

/// At the board's test points. Loop impedance is the 0.35 ohm of a TN-C-S supply (ENA ER P23/1), which stands on the card as Ze, and
/// R1+R2 as it was read.
fn tests_live(hand: &mut Hand, it: &Variant) {
    let (line, neutral, earth) = (format!("{}.line", it.device), format!("{}.neutral", it.device), "board.earth");
    for (a, b) in [(line.as_str(), neutral.as_str()), (&line, earth), (&neutral, earth)] {
        hand.measures(Function::Voltage, a, b);
    }
    record(hand, it, Test::SupplyPolarity, "");
    records_zs(hand, it);
    let time = hand.measures(Function::Rcd(rcd::Test::Rated), &line, earth);
    record(hand, it, Test::ResidualDevice, &text(&time));
    hand.does(Action::Reset { device: it.device.clone() });
}

fn records_zs(hand: &mut Hand, it: &Variant) {
    let r1r2 = hand.attempt.safety().testing().sheet().find(|it| it.0 == Test::R1R2).and_then(|it| it.2.written);
    let reading = format!("{:.2}", 0.35 + r1r2.expect("R1+R2").value);
    let (test, at, source) = (Test::ZsSum, it.device.clone(), Source::Card);
    hand.does(Action::Record { test, at, reading, accepted: true, source });
}

/// Up to the dead tests: what is wrong with the kit found and reported, everything proved dead and made off.
fn prepared(seed: u64) -> (Hand, Variant) {
    let mut hand = Hand::new(exercise(ID, seed));
    let variant = Variant::of(&hand);
    let kit = hand.attempt.work().exercise().kit;
    if !kit.indicator.is_sound() {
        let shown = hand.attempt.act(Action::ProveIndicator);
        assert!(matches!(&shown, Ok(Happened::Read(it)) if it.shown == Shown::Lights(None)), "{shown:?}");
        hand.does(Action::Change { kit: KitPart::Indicator });
        hand.does(Action::Report { at: "board".to_owned(), what: Fault::Indicator });
    }
    if !kit.chart.is_right() {
        hand.does(Action::Report { at: "board".to_owned(), what: Fault::Chart });
    }
    hand.isolates();
    joins(&mut hand, &variant);
    (hand, variant)
}

fn energises(hand: &mut Hand) {
    hand.predicts(|at| {
        if at[0] == 1 { (vec!["lamp"], vec!["feed/brown", "light/brown"]) } else { (vec![], vec!["feed/brown"]) }
    });
    hand.closes_up();
    hand.does(Action::MainSwitch { on: true });
    hand.powers_on();
}

/// The whole of it in the variant that a seed gives, handed in.
fn whole(seed: u64) -> Hand {
    let (mut hand, variant) = prepared(seed);
    tests_dead(&mut hand, &variant);
    energises(&mut hand);
    tests_live(&mut hand, &variant);
    hand.works_switches();
    hand.does(Action::HandIn);
    hand
}

/// Seed 4: metal box and plate, sound kit, the chart right.
pub fn tested_model() -> Hand {
    whole(4)
}

#[track_caller]
fn earns_everything(sheet: &Sheet, what: &str) {
    assert!(sheet.findings.is_empty(), "{what}: {:#?}", sheet.findings);
    assert_eq!((sheet.outcome, sheet.marks, sheet.out_of), (Outcome::Pass, 100, 100), "{what}");
}

/// Every kind of variant is among them: kit that fails, a wrong chart, both materials of box and plate, both devices, a second
/// circuit in the box or none.
#[test]
fn the_hand_earns_everything_in_every_variant() {
    let mut met = std::collections::BTreeSet::new();
    for seed in 0..50 {
        let hand = whole(seed);
        earns_everything(&mark(&hand.attempt, Mode::Set), &format!("seed {seed}"));
        let kit = hand.attempt.work().exercise().kit;
        let it = Variant::of(&hand);
        met.insert(format!("{:?}", kit.indicator));
        met.insert(format!("{:?}", kit.chart));
        let exercise = hand.attempt.work().exercise();
        met.extend([format!("box {}", it.metal_box), format!("plate {}", it.metal_plate), it.device]);
        let circuits = exercise.devices_reaching(exercise.location("switch").unwrap()).len();
        met.insert(format!("{circuits} circuits in the box"));
    }
    assert_eq!(met.len(), 3 + 2 + 2 + 2 + 2 + 2, "{met:?}");
}

/// Seed 4 draws 6 m of feed and 7 m of light's cable. R1+R2 at the light: 6 x (12.10 + 18.10) + 7 x (18.10 + 18.10) mohm (BS EN
/// 60228) and a few joints of a milliohm: 0.435 ohm. Zs adds the 0.35 of a TN-C-S supply.
#[test]
fn the_figures_are_those_of_the_tables() {
    let hand = tested_model();
    let written =
        |test| hand.attempt.safety().testing().sheet().find(|it| it.0 == test).unwrap().2.written.unwrap().value;
    assert!((written(Test::R1R2) - 0.435).abs() < 0.03, "{}", written(Test::R1R2));
    assert!((written(Test::ZsSum) - 0.785).abs() < 0.04, "{}", written(Test::ZsSum));
}

/// The charter: "No probe goes through a sheath, an uncut cable or a closed plate ...: a live reading is taken at a lampholder or socket
/// by an adaptor". Line to neutral counts there as at the board.
#[test]
fn live_tests_are_taken_at_the_board_and_in_the_lampholder() {
    let (mut hand, it) = prepared(4);
    tests_dead(&mut hand, &it);
    energises(&mut hand);
    for place in ["switch.COM", "rose.switched"] {
        let read = measure(Function::Voltage, place, "board.earth");
        let location = place.split('.').next().expect("a place").to_owned();
        assert_eq!(hand.attempt.act(read), Err(Refused::CoverOn { location }));
    }
    let in_holder = measure(Function::Voltage, "lamp.1", "lamp.2");
    assert_eq!(
        hand.attempt.act(in_holder),
        Err(Refused::LampIn { location: "lamp".to_owned() }),
        "the adaptor goes where the lamp is"
    );
    hand.does(Action::RemoveLamp { lamp: "lamp".to_owned() });
    let left = |hand: &Hand| hand.attempt.safety().testing().readings_left(Stage::SupplyPolarity).len();
    // With its switch open there is no line at the light.
    hand.measures(Function::Voltage, "lamp.1", "lamp.2");
    assert_eq!(left(&hand), 3);
    hand.sets(&[1]);
    hand.measures(Function::Voltage, "lamp.1", "lamp.2");
    assert_eq!(left(&hand), 2);
    hand.does(Action::FitLamp { lamp: "lamp".to_owned() });
    hand.sets(&[0]);
    let (line, neutral) = (format!("{}.line", it.device), format!("{}.neutral", it.device));
    hand.measures(Function::Voltage, &line, "board.earth");
    hand.measures(Function::Voltage, &neutral, "board.earth");
    record(&mut hand, &it, Test::SupplyPolarity, "");
    records_zs(&mut hand, &it);
    let time = hand.measures(Function::Rcd(rcd::Test::Rated), &line, "board.earth");
    record(&mut hand, &it, Test::ResidualDevice, &text(&time));
    hand.does(Action::Reset { device: it.device.clone() });
    hand.works_switches();
    hand.does(Action::HandIn);
    earns_everything(&mark(&hand.attempt, Mode::Set), "in the lampholder");
}

/// R1+R2 at the rose, where line comes only by way of the switch, is offered with the switch closed.
#[test]
fn the_reading_behind_the_switch_is_offered_with_the_switch_closed() {
    let (mut hand, _) = prepared(4);
    // Looked over, the feed is connected at the board.
    hand.does(inspect("switch"));
    hand.does(inspect("rose"));
    let offered = readings_to_take(&hand.attempt, Stage::Continuity);
    let rose = hand.attempt.work().terminal("rose.switched").unwrap();
    let at_rose = offered
        .iter()
        .find(|it| it.points.is_some_and(|it| it[0] == switchdrop::work::Point::Terminal(rose)))
        .expect("a reading at the rose");
    assert_eq!((offered.len(), at_rose.positions.as_slice(), at_rose.linked), (2, &[1][..], true));
}

/// A link left in trips, and is found; where the chart is wrong, whoever believes it names the wrong device.
#[test]
fn a_link_left_in_and_a_chart_believed_are_found() {
    let (mut hand, it) = prepared(4);
    tests_dead(&mut hand, &it);
    let left_in = link(&format!("{}.line", it.device), "board.earth");
    // The board is the supervisor's, who fits the link when the learner asks for it (the card), and takes it out when asked again:
    // to have the power on with it is the learner's mistake all the same.
    let said = switchdrop::wording::did(&switchdrop::wording::Wording::british(), hand.attempt.work(), &left_in);
    assert!(said.starts_with("the supervisor fits a test link in the board"), "{said}");
    hand.does(left_in);
    energises(&mut hand);
    hand.does(Action::HandIn);
    let sheet = mark(&hand.attempt, Mode::Set);
    assert_eq!(sheet.outcome, Outcome::Refer);
    assert!(sheet.findings.iter().any(|it| it.code == Code::LinkLeftIn), "{:#?}", sheet.findings);
    let wrong = (0..50).find(|it| !exercise(ID, *it).kit.chart.is_right()).expect("a wrong chart");
    let mut hand = Hand::new(exercise(ID, wrong));
    let believed = {
        let exercise = hand.attempt.work().exercise();
        let light = exercise.devices.ids().find(|it| exercise.charted(*it) == "tool store light");
        exercise.devices[light.expect("the light on the chart")].address.clone()
    };
    let named = Action::Identify { location: "switch".to_owned(), devices: vec![believed] };
    assert_eq!(hand.attempt.act(named).unwrap().stopped(), Some(ActKind::WronglyIdentified));
    hand.does(Action::HandIn);
    let sheet = mark(&hand.attempt, Mode::Set);
    assert!(sheet.findings.iter().any(|it| it.code == Code::WronglyIdentified), "{:#?}", sheet.findings);
}

/// The charter: "An uncut cable is shown unconnected at its other end, then cut with one insulated tool, then each conductor proved at
/// the cut." The light's cable comes out at the rose, and whether it is connected there is seen with the cover off; the feed's
/// is tied back at the board, as the card says.
#[test]
fn an_uncut_cable_is_seen_unconnected_and_each_conductor_proved_at_the_cut() {
    let mut hand = Hand::new(exercise(ID, 4));
    let place = |hand: &Hand, it: &str| hand.attempt.work().location(it).expect("a place");
    hand.isolates();
    let (switch, rose) = (place(&hand, "switch"), place(&hand, "rose"));
    hand.does(Action::FitCover { location: "rose".to_owned() });
    let stops = |hand: &mut Hand, it: Action| {
        assert_eq!(hand.attempt.act(it.clone()).unwrap().stopped(), Some(ActKind::TouchedUnproved), "{it:?}");
    };
    hand.does(sheath("feed", "switch", 160));
    stops(&mut hand, sheath("light", "switch", 160));
    hand.does(Action::RemoveCover { location: "rose".to_owned() });
    hand.does(sheath("light", "switch", 160));
    let cut = |end: &str| Action::Cut { end: end.to_owned(), mm: 120 };
    for end in ["feed/brown@switch", "light/cpc@switch"] {
        stops(&mut hand, cut(end));
    }
    let safety = hand.attempt.safety();
    assert!(safety.is_proved(switch) && !safety.is_all_proved(hand.attempt.work(), switch));
    // Six conductors to the earthing terminal, the probe parked there, between two proofs, and the learner's word.
    let before = hand.attempt.log().len();
    hand.proves_dead(switch);
    assert_eq!(hand.attempt.log().len() - before, 1 + 1 + 6 + 1 + 1);
    for end in ["feed/brown@switch", "light/cpc@switch"] {
        hand.does(cut(end));
    }
    // More of the sheath, and the other end of what is proved: nothing more is asked.
    hand.does(sheath("feed", "switch", 170));
    hand.proves_dead(rose);
    hand.does(sheath("light", "rose", 150));
    assert!([switch, rose].iter().all(|it| hand.attempt.safety().is_all_proved(hand.attempt.work(), *it)));
}

/// Where every end is still in its sheath there may be nothing to touch. An indicator that failed its proof, or was never proved, proves
/// no place dead for all that, and what is lacking is said.
#[test]
fn an_indicator_that_is_not_proved_proves_nothing_dead() {
    let ready = |seed: u64| {
        let mut hand = Hand::new(exercise(ID, seed));
        hand.locks_off();
        hand
    };
    let is_bare_of_tests = |hand: &Hand| {
        let places = hand.attempt.work().exercise().learners_places();
        places.into_iter().any(|it| dead_tests_left(&hand.attempt, it).is_empty())
    };
    let flat = (0..200).filter(|it| !exercise(ID, *it).kit.indicator.is_sound()).map(ready);
    let mut hand = flat.into_iter().find(is_bare_of_tests).expect("nothing to touch");
    let concludes = |hand: &Hand| match hand.attempt.clone().act(Action::Conclude { dead: true }) {
        Ok(Happened::Concluded { proved, lacked, .. }) => (proved, lacked.map(|it| it.1)),
        other => panic!("{other:?}"),
    };
    let unproved = concludes(&hand);
    assert!(unproved.0.is_empty() && unproved.1.is_some(), "{unproved:?}");
    for _ in 0..2 {
        assert!(matches!(hand.attempt.act(Action::ProveIndicator), Ok(Happened::Read(_))));
    }
    assert_eq!(concludes(&hand), (vec![], Some(ProofGap::IndicatorFailed)));
    hand.does(Action::Change { kit: KitPart::Indicator });
    hand.does(Action::ProveIndicator);
    assert!(concludes(&hand).0.is_empty());
    hand.does(Action::ProveIndicator);
    assert!(!concludes(&hand).0.is_empty());
}

/// An end that is not ready for its terminal is not only to be put there: the sheet says what it lacks, with the cover on too.
#[test]
fn a_repair_says_what_the_end_lacks() {
    let model = open(include_str!("../exercises/make-off-a-box/model.attempt.ron")).unwrap().replay().unwrap();
    let of_brown = |it: &Action, left_out: fn(&Action) -> bool| {
        let end = "feed/brown@box";
        let later = matches!(it, Action::Fold { end: it } | Action::Connect { end: it, .. } | Action::Tug { end: it } if it == end);
        later || left_out(it) || matches!(it, Action::Tighten { terminal, .. } if terminal == "box.L-in")
    };
    let is_strip: fn(&Action) -> bool = |it| matches!(it, Action::Strip { end, .. } if end == "feed/brown@box");
    let log = model.log().iter().filter(|it| !of_brown(it, is_strip)).cloned();
    let attempt = Attempt::replay(Arc::clone(model.work().exercise()), log).unwrap();
    let sheet = mark(&attempt, Mode::Set);
    let said = finding(&Wording::british(), attempt.work(), &sheet.findings[0]).repair.unwrap();
    assert_eq!(said, "strip the brown core of the feed and put it into: double-pole switch, L-in");
    // Cut to less than the 100 mm to the terminal, with 160 of the 200 mm that hang out of their sheath and 10 to stay inside: 30 more can be had.
    for (mm, advice) in [
        (80, "take more of the sheath back, so that the brown core of the feed reaches"),
        (69, "renew the cable, since the brown core of the feed was cut too short"),
    ] {
        let short = model.log().iter().filter(|it| !of_brown(it, |_| false)).map(|it| match it {
            Action::Cut { end, .. } if end == "feed/brown@box" => Action::Cut { end: end.clone(), mm },
            it => it.clone(),
        });
        let attempt = Attempt::replay(Arc::clone(model.work().exercise()), short).unwrap();
        let sheet = mark(&attempt, Mode::Set);
        let said = finding(&Wording::british(), attempt.work(), &sheet.findings[0]).repair.unwrap();
        assert!(said.starts_with(advice), "{said}");
    }
}
