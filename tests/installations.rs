//! Wirings of more than the shipped scenarios have: three places, linked poles, a fan behind its isolator, several
//! circuits behind one residual current device. What they do was worked out on paper beside each test.

use std::sync::Arc;

use switchdrop::{
    attempt::{Attempt, Mode},
    circuit::{Conditions, Glow, Part, settle, survey},
    exercise::{Seed, read},
    marking::{Code, Criterion, Outcome, Sheet, Weight, mark},
    trade::colour::Mark,
    wording::{Wording, place, position},
    work::{Action, Edit, Refused, Work},
};

use crate::hand::marked;

// Two circuits behind each sort of board.
mod boards;

pub use boards::{MCBS, ONE_RCD, RCBOS, TWO_RCDS, passage};

pub const GRANARY: &str = include_str!("scenarios/granary.ron");
pub const BATHROOM: &str = include_str!("scenarios/bathroom.ron");
pub const PASSAGE: &str = include_str!("scenarios/passage.ron");

/// A line each of end, mark if it needs one, and terminal.
pub const GRANARY_WIRED: &str = "feed/brown@west west.COM
    feed/blue@west west.connector.1
    feed/cpc@west Sleeve(GreenYellow) west.box.earth
    one/brown@west west.L1
    one/black@west Sleeve(Brown) west.L2
    one/grey@west Sleeve(Blue) west.connector.1
    one/cpc@west Sleeve(GreenYellow) west.box.earth
    one/brown@middle middle.A1
    one/black@middle Sleeve(Brown) middle.A2
    one/grey@middle Sleeve(Blue) middle.connector.1
    one/cpc@middle Sleeve(GreenYellow) middle.box.earth
    two/brown@middle middle.B1
    two/black@middle Sleeve(Brown) middle.B2
    two/grey@middle Sleeve(Blue) middle.connector.1
    two/cpc@middle Sleeve(GreenYellow) middle.box.earth
    two/brown@east east.L1
    two/black@east Sleeve(Brown) east.L2
    two/grey@east Sleeve(Blue) east.connector.1
    two/cpc@east Sleeve(GreenYellow) east.box.earth
    flex/brown@east east.COM
    flex/blue@east east.connector.1";

pub const BATHROOM_WIRED: &str = "feed/brown@joint joint.T1
    drop/brown@joint joint.T1
    to-fan/brown@joint joint.T1
    feed/blue@joint joint.T2
    flex/blue@joint joint.T2
    to-fan/grey@joint Sleeve(Blue) joint.T2
    drop/blue@joint Sleeve(Brown) joint.T3
    flex/brown@joint joint.T3
    to-fan/black@joint Sleeve(Brown) joint.T3
    feed/cpc@joint Sleeve(GreenYellow) joint.E
    drop/cpc@joint Sleeve(GreenYellow) joint.E
    to-fan/cpc@joint Sleeve(GreenYellow) joint.E
    drop/brown@cord cord.COM
    drop/blue@cord Sleeve(Brown) cord.L1
    drop/cpc@cord Sleeve(GreenYellow) cord.box.earth
    to-fan/brown@isolator isolator.L-in
    to-fan/black@isolator Sleeve(Brown) isolator.SL-in
    to-fan/grey@isolator Sleeve(Blue) isolator.N-in
    to-fan/cpc@isolator Sleeve(GreenYellow) isolator.box.earth
    fan-tail/brown@isolator isolator.L-out
    fan-tail/black@isolator Sleeve(Brown) isolator.SL-out
    fan-tail/grey@isolator Sleeve(Blue) isolator.N-out
    fan-tail/cpc@isolator Sleeve(GreenYellow) isolator.box.earth
    fan-tail/brown@fan fan.L
    fan-tail/black@fan Sleeve(Brown) fan.SL
    fan-tail/grey@fan Sleeve(Blue) fan.N
    fan-tail/cpc@fan Sleeve(GreenYellow) fan.E
    store-feed/brown@store store.L-in
    store-feed/blue@store store.N-in
    store-feed/cpc@store Sleeve(GreenYellow) store.plate.earth
    store-flex/brown@store store.L-out
    store-flex/blue@store store.N-out";

/// The second feed parked, the light from the first.
pub const PASSAGE_WIRED: &str = "one/cpc@box Sleeve(GreenYellow) box.plate.earth
    two/cpc@box Sleeve(GreenYellow) box.box.earth
    two/red@box box.connector.2
    two/black@box box.connector.3
    one/brown@box box.COM
    one/blue@box box.connector.1
    flex/brown@box box.L1
    flex/blue@box box.connector.1";

/// A scenario wired by lines, later lines undoing earlier ones of the same end, and handed in.
pub fn wired(scenario: &str, lines: &str) -> Attempt {
    let exercise = read(scenario, Seed(0)).unwrap_or_else(|it| panic!("{it:#?}"));
    let attempt = Attempt::new(Arc::new(exercise));
    let mut edits = Vec::new();
    for line in lines.lines().map(str::trim).filter(|it| !it.is_empty()) {
        let words: Vec<&str> = line.split_whitespace().collect();
        let end = attempt.work().end(words[0]).unwrap();
        let to = *words.last().unwrap();
        edits.push(Edit::Move(end, (to != "loose").then(|| attempt.work().terminal(to).unwrap())));
        if words.len() == 3 {
            edits.push(Edit::Mark(end, Some(ron::from_str::<Mark>(words[1]).unwrap())));
        }
    }
    let mut attempt = attempt.supposing(&edits);
    attempt.act(Action::HandIn).unwrap();
    attempt
}

/// The same with further lines.
pub fn with(scenario: &str, lines: &str, further: &str) -> Attempt {
    wired(scenario, &format!("{lines}\n{further}"))
}

fn sheet(attempt: &Attempt) -> Sheet {
    mark(attempt, Mode::Set)
}

/// Codes and places of what costs marks, causes only.
fn causes(attempt: &Attempt) -> Vec<(&'static str, String)> {
    let sheet = marked(attempt);
    sheet.causes().into_iter().map(|(code, at)| (code, at.to_owned())).collect()
}

fn codes(attempt: &Attempt) -> Vec<&'static str> {
    sheet(attempt).findings.iter().map(|it| it.code.word()).collect()
}

fn is_right(attempt: &Attempt) {
    let sheet = sheet(attempt);
    assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
    assert_eq!((sheet.outcome, sheet.marks), (Outcome::Pass, sheet.out_of));
}

fn lit(work: &Work, lamp: usize) -> Vec<bool> {
    survey(work).rows.iter().map(|it| it.lamps[lamp].glow == Glow::Lit).collect()
}

/// On in 000, 011, 101, 110, worked out on paper for strappers through an intermediate (position 0 straight): every toggle
/// changes the lamp, which is the parity of the three (Shannon 1938).
#[test]
fn a_light_from_three_places_is_right_and_follows_their_parity() {
    let attempt = wired(GRANARY, GRANARY_WIRED);
    let on: Vec<bool> = [0b000, 0b001, 0b010, 0b011, 0b100, 0b101, 0b110, 0b111]
        .map(|it: u32| [0b000, 0b011, 0b101, 0b110].contains(&it))
        .to_vec();
    assert_eq!(lit(attempt.work(), 0), on);
    is_right(&attempt);
}

/// Strappers crossed at the intermediate, or its terminals used from the other side, do the same job (marking.md).
#[test]
fn strappers_crossed_at_an_intermediate_are_no_accusation() {
    is_right(&with(GRANARY, GRANARY_WIRED, "one/brown@middle middle.A2\none/black@middle middle.A1"));
    let turned = "one/brown@middle middle.B1\none/black@middle middle.B2\ntwo/brown@middle middle.A1\ntwo/black@middle middle.A2";
    is_right(&with(GRANARY, GRANARY_WIRED, turned));
}

/// A strapper in the wrong pair: straight, brown of one joins brown of two only through nothing; crossed likewise.
#[test]
fn a_strapper_in_the_wrong_pair_of_an_intermediate_is_one_slip() {
    let slip = with(GRANARY, GRANARY_WIRED, "one/black@middle middle.B1\ntwo/brown@middle middle.A2");
    let found = causes(&slip);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].0, "control-wrong");
}

/// Linked double-pole switching is legitimate (marking.md); the fan has its line, starts with its light, and is dead with
/// its isolator off.
#[test]
fn a_bathroom_with_linked_poles_everywhere_is_right() {
    let attempt = wired(BATHROOM, BATHROOM_WIRED);
    is_right(&attempt);
    // Cord, isolator, store: the light follows the first alone, the store's the last alone.
    assert_eq!(lit(attempt.work(), 0), [false, false, false, false, true, true, true, true]);
    assert_eq!(lit(attempt.work(), 1), [false, true, false, true, false, true, false, true]);
}

/// With the isolator on the motor has the full voltage; the timer only when the cord is pulled. With it off nothing.
#[test]
fn the_fan_has_its_permanent_line_and_starts_with_the_light() {
    let attempt = wired(BATHROOM, BATHROOM_WIRED);
    let work = attempt.work();
    for (cord, isolator, motor, timer) in
        [(0, 0, false, false), (0, 1, true, false), (1, 0, false, false), (1, 1, true, true)]
    {
        let settled = settle(work, Conditions::complete(work.exercise(), vec![cord, isolator, 0]));
        let volts = |part| settled.network.part(part).unwrap().volts(&settled.solution).abs();
        assert_eq!(volts(Part::Motor(crate::ids::fan(0))) > 220.0, motor, "{cord} {isolator}");
        assert_eq!(volts(Part::Timer(crate::ids::fan(0))) > 220.0, timer, "{cord} {isolator}");
    }
}

/// What a fan can have wrong, each a single slip: both lines exchanged at the fan; the isolator passed by, which leaves a line
/// live for whoever takes the fan down; no permanent line.
#[test]
fn a_fan_wired_wrong_is_found_and_its_cause_is_one() {
    for (slip, outcome) in [
        ("fan-tail/brown@fan fan.SL\nfan-tail/black@fan fan.L", Outcome::NotYet),
        ("fan-tail/brown@isolator isolator.L-in", Outcome::Refer),
        ("fan-tail/black@isolator isolator.SL-in", Outcome::Refer),
        ("to-fan/brown@joint joint.T3", Outcome::NotYet),
        ("to-fan/black@joint joint.T1", Outcome::NotYet),
    ] {
        let attempt = with(BATHROOM, BATHROOM_WIRED, slip);
        assert_eq!(causes(&attempt), [("fan-wrong", "fan".to_owned())], "{slip}");
        assert_eq!(sheet(&attempt).outcome, outcome, "{slip}");
    }
}

/// A neutral that passes the isolator by is allowed: "L, SL, N, or L and SL only" (a maker's sheet and trade/facts.md).
#[test]
fn an_isolator_that_opens_the_two_lines_alone_is_no_accusation() {
    is_right(&with(BATHROOM, BATHROOM_WIRED, "fan-tail/grey@isolator isolator.N-in"));
}

/// A linked switch whose line pole is passed by, so that it opens the neutral alone, is a switched neutral all the same;
/// its neutral pole passed by is single-pole switching of the line, which is right.
#[test]
fn linked_poles_excuse_a_neutral_only_where_the_line_goes_with_it() {
    let line_stays = with(BATHROOM, BATHROOM_WIRED, "store-flex/brown@store store.L-in");
    assert!(codes(&line_stays).contains(&"neutral-switched"), "{:?}", codes(&line_stays));
    assert_eq!(sheet(&line_stays).outcome, Outcome::Refer);
    is_right(&with(BATHROOM, BATHROOM_WIRED, "store-flex/blue@store store.N-in"));
    let exchanged = "store-feed/brown@store store.N-in\nstore-feed/blue@store store.L-in\nstore-flex/brown@store store.N-out\nstore-flex/blue@store store.L-out";
    is_right(&with(BATHROOM, BATHROOM_WIRED, exchanged));
}

/// The earth terminal of a plate with an insulating front is no metal to touch (410.3.9, number from memory: screws of insulating
/// plates are exempt): a cpc that is left out there is major, and a bar. At a socket-outlet it earths what is plugged in, and is critical.
#[test]
fn an_open_cpc_is_critical_only_where_metal_can_be_touched() {
    let loose = "store-feed/cpc@store loose";
    let plastic = sheet(&with(BATHROOM, BATHROOM_WIRED, loose));
    assert_eq!(causes(&with(BATHROOM, BATHROOM_WIRED, loose)), [("cpc-open", "store-feed/cpc@store".to_owned())]);
    assert_eq!((plastic.outcome, plastic.findings[0].weight), (Outcome::NotYet, Weight::Major));
    let front = "has: Box(body: Plastic, plate: Plastic, ways: [DoublePole])";
    let metal = BATHROOM.replace(front, "has: Box(body: Plastic, plate: Metal, ways: [DoublePole])");
    assert_ne!(metal, BATHROOM);
    assert_eq!(sheet(&with(&metal, BATHROOM_WIRED, loose)).outcome, Outcome::Refer);
}

/// Whether it is live or a cpc: an end that hangs free is not terminated, and its share of the terminations is not awarded. A quarter of
/// them a finding (the charter), rounded up, of the 10 that a scenario gives them where it says nothing.
#[test]
fn an_end_that_hangs_free_earns_nothing_for_being_terminated() {
    for (end, code) in [("drop/brown@cord", "loose-end-live"), ("store-feed/cpc@store", "cpc-open")] {
        let attempt = with(BATHROOM, BATHROOM_WIRED, &format!("{end} loose"));
        let sheet = sheet(&attempt);
        assert!(codes(&attempt).contains(&code), "{:?}", codes(&attempt));
        let found = sheet.criteria.iter().find(|it| it.criterion == Criterion::Terminations).unwrap();
        assert_eq!((found.marks, found.not_awarded, found.out_of), (7, 3, 10), "{end}");
    }
}

/// What hangs free is the cause, and what it does follows from it: a holder that is live because its neutral was left out. It weighs as much
/// as that, and is charged as that.
#[test]
fn what_hangs_free_is_named_as_the_cause_of_what_it_does() {
    let end = "feed/blue@joint";
    let attempt = with(BATHROOM, BATHROOM_WIRED, &format!("{end} loose"));
    assert_eq!(causes(&attempt), [("loose-end", end.to_owned())]);
    let sheet = sheet(&attempt);
    let cause = &sheet.findings[0];
    assert_eq!((cause.weight, cause.charged), (Weight::Critical, Criterion::Polarity));
    assert!(sheet.findings[1..].iter().any(|it| it.code == Code::LampholderLive), "{:?}", codes(&attempt));
}

/// A neutral that was left out goes to the terminal of its own pole that stands empty, not beside the one that goes on.
#[test]
fn what_was_left_out_goes_where_nothing_is() {
    for (end, empty) in [("store-feed/blue@store", "store.N-in"), ("store-flex/blue@store", "store.N-out")] {
        let attempt = with(BATHROOM, BATHROOM_WIRED, &format!("{end} loose"));
        let (end, empty) = (attempt.work().end(end).unwrap(), attempt.work().terminal(empty).unwrap());
        let moves = sheet(&attempt).findings.into_iter().filter_map(|it| it.repair).flatten();
        let moves: Vec<Edit> = moves.filter(|it| matches!(it, Edit::Move(..))).collect();
        assert!(!moves.is_empty() && moves.iter().all(|it| *it == Edit::Move(end, Some(empty))), "{moves:?}");
    }
}

/// An unlinked switch in the neutral is critical (BS 7671 132.14.2, number from memory).
#[test]
fn a_single_pole_switch_in_the_neutral_is_still_found() {
    let store = "ways: [DoublePole]";
    let scenario = BATHROOM.replace(store, "ways: [OneWay], connectors: Some(2)");
    assert_ne!(scenario, BATHROOM);
    let rest: String =
        BATHROOM_WIRED.lines().filter(|it| !it.contains("@store ")).map(|it| format!("{it}\n")).collect();
    let cpc = "store-feed/cpc@store Sleeve(GreenYellow) store.box.earth\n";
    let right = "store-feed/brown@store store.COM\nstore-flex/brown@store store.L1\nstore-feed/blue@store store.connector.1\nstore-flex/blue@store store.connector.1";
    is_right(&wired(&scenario, &format!("{rest}{cpc}{right}")));
    let wrong = "store-feed/blue@store store.COM\nstore-flex/blue@store store.L1\nstore-feed/brown@store store.connector.1\nstore-flex/brown@store store.connector.1";
    assert!(codes(&wired(&scenario, &format!("{rest}{cpc}{wrong}"))).contains(&"neutral-switched"));
}

/// An unswitched connection unit joins line and neutral through; a socket-outlet stands on a plate; four gangs on one.
#[test]
fn fixed_plates_and_four_gangs_can_be_read_and_wired() {
    let scenario = BATHROOM.replace("ways: [DoublePole]", "ways: [UnswitchedFusedUnit]").replace(
        "        Control(lamp: \"store-lamp\", switches: [\"store\"]),\n",
        "        Control(lamp: \"store-lamp\", switches: [\"four.3\"]),\n",
    );
    let scenario = scenario.replacen(
        "locations: [",
        "locations: [
            Location(id: \"four\", name: \"four gangs\", at: (0, 80), has: Box(
                body: Plastic, plate: Plastic, ways: [OneWay, TwoWay, OneWay, Dimmer])),
            Location(id: \"socket\", name: \"socket\", at: (0, 90), has: Box(body: Metal, plate: Plastic, ways: [Socket])),",
        1,
    );
    let attempt = wired(&scenario, BATHROOM_WIRED);
    let work = attempt.work();
    let exercise = work.exercise();
    assert_eq!(exercise.switches.len(), 6);
    for address in ["four.4.COM", "four.2.L2", "socket.L", "socket.plate.earth", "store.L-out"] {
        assert!(exercise.terminal(address).is_ok(), "{address}");
    }
    assert!(exercise.switch("socket").is_err() && exercise.switch("store").is_err(), "there is nothing to work");
    let gang = exercise.switches[exercise.switch("four.4").unwrap()].gang;
    assert_eq!(gang, 3);
    // Straight through the fuse: the store's light always burns.
    assert!(survey(work).rows.iter().all(|it| it.lamps[1].glow == Glow::Lit));
    assert_eq!(
        work.exercise().switches_at(work.location("four").unwrap()).collect::<Vec<_>>(),
        exercise.switches.ids().take(4).collect::<Vec<_>>()
    );
}

/// What can't be: a junction box on a plate, a plate as a junction box, a fan's isolator of one pole, six gangs, a socket
/// beside a switch, a device behind an MCB.
#[test]
fn what_can_not_stand_together_is_a_problem_with_a_place() {
    for (from, to, words) in [
        ("ways: [PullCord]", "ways: [JunctionBoxFour]", "wrong-accessory"),
        ("kind: JunctionBoxFour", "kind: OneWay", "wrong-accessory"),
        ("kind: TimerFan", "kind: JunctionBoxFour", "wrong-accessory"),
        ("isolator: Some(\"isolator\")", "isolator: Some(\"cord\")", "wrong-accessory"),
        ("ways: [PullCord]", "ways: [OneWay, OneWay, OneWay, OneWay, OneWay]", "bad-plate"),
        ("ways: [PullCord]", "ways: [OneWay, Socket]", "bad-plate"),
        ("with: \"lamp\"", "with: \"lmap\"", "unknown-lamp"),
        (
            "kind: Mcb6C, circuit: \"store\", behind: Some(\"rcd\")",
            "kind: Mcb6C, circuit: \"store\", behind: Some(\"1\")",
            "not-in-front",
        ),
        ("kind: Rcd30, circuit: \"lights\"", "kind: Rcd30, circuit: \"lights\", behind: Some(\"rcd\")", "not-in-front"),
        ("behind: Some(\"rcd\")", "behind: Some(\"rdc\")", "unknown-device"),
    ] {
        assert!(BATHROOM.contains(from), "{from}");
        let text = BATHROOM.replacen(from, to, 1);
        let problems = read(&text, Seed(0)).expect_err(to);
        let found: Vec<_> = problems.iter().map(|it| it.code.word()).collect();
        assert!(found.contains(&words), "{to}: {found:?}");
        let it = problems.iter().find(|it| it.code.word() == words).unwrap();
        assert!(!it.span.is_empty() && it.span.end <= text.len(), "{to}: {it:?}");
    }
}

/// Terminals by the names on them, a cord by what was done to it, a device by its name on the board.
#[test]
fn what_is_new_has_words() {
    let (wording, attempt) = (Wording::british(), wired(BATHROOM, BATHROOM_WIRED));
    let work = attempt.work();
    for (address, words) in [
        ("joint.T1", "joint box, T1"),
        ("joint.E", "earth terminal of the joint box"),
        ("fan.SL", "bathroom fan, SL"),
        ("isolator.L-out", "isolator, L-out"),
        ("store.plate.earth", "earth terminal on the plate of the store switch"),
        ("cord", "bathroom cord"),
        ("board.rcd", "RCD"),
    ] {
        assert_eq!(place(&wording, work, address), words);
    }
    let said = |switch: &str, at| position(&wording, work.exercise(), work.switch(switch).unwrap(), at);
    assert_eq!([said("cord", 0), said("cord", 1)], ["cord not pulled", "cord pulled"]);
    assert_eq!([said("isolator", 0), said("isolator", 1)], ["rocker up", "rocker down"]);
}

/// A socket-outlet's terminals are made for 1.0 mm² and more in our catalogue: a flex of 0.75 mm² is refused in the hand, and
/// is a problem of the file where it was there before.
#[test]
fn a_terminal_takes_only_what_it_is_made_for() {
    let scenario = BATHROOM.replace("ways: [DoublePole]", "ways: [Socket]").replace(
        "        Control(lamp: \"store-lamp\", switches: [\"store\"]),\n",
        "        Control(lamp: \"store-lamp\", switches: [\"cord\"]),\n",
    );
    let mut work = Work::new(Arc::new(read(&scenario, Seed(0)).unwrap()));
    work.apply(&Action::RemoveCover { location: "store".to_owned() }).unwrap();
    let connect = |end: &str| Action::Connect { end: end.to_owned(), terminal: "store.L".to_owned() };
    let refused = Refused::WrongSize { terminal: "store.L".to_owned() };
    assert_eq!(work.apply(&connect("store-flex/brown@store")), Err(refused));
    assert_eq!(work.apply(&connect("store-feed/brown@store")), Ok(()));
    let found = "    connected: [\n        Connected(end: \"store-flex/brown@store\", at: \"store.L\"),";
    let problems = read(&scenario.replacen("    connected: [", found, 1), Seed(0)).expect_err("a flex in a socket");
    assert_eq!(problems.iter().map(|it| it.code.word()).collect::<Vec<_>>(), ["terminal-size"]);
}
