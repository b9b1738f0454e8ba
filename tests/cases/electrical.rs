//! Groups of circuits, linked switches, screws, the supply's bars. `EXPECT` of each: what two independent solvers found, in
//! the words of the charter.

use std::collections::BTreeSet;

use switchdrop::{
    circuit::{Conditions, Glow, HazardKind, Network, Part, Row, row_at, rows, settle},
    exercise::DeviceId,
    marking::{Outcome, Root, Weight},
    work::Work,
};

use super::{attempt, sheet};

fn work(name: &str) -> Work {
    attempt(name).work().clone()
}

/// One row of a case.
fn row(name: &str, positions: &[u8]) -> (Work, Row) {
    let work = work(name);
    let row = row_at(&work, positions);
    (work, row)
}

/// Its hazards, each with the address of its place.
fn hazards(work: &Work, row: &Row) -> BTreeSet<(HazardKind, String)> {
    row.hazards.iter().map(|it| (it.kind, it.at.address(work.exercise()))).collect()
}

/// The addresses of the devices that open.
fn tripped(work: &Work, row: &Row) -> Vec<String> {
    let mut all: Vec<String> = row.tripped().map(|it| work.exercise().devices[it].address.clone()).collect();
    all.sort();
    all
}

fn has(work: &Work, row: &Row, kind: HazardKind, at: &str) -> bool {
    hazards(work, row).contains(&(kind, at.to_owned()))
}

/// Codes and places of what is critical.
fn critical(name: &str) -> BTreeSet<(&'static str, String)> {
    let sheet = sheet(name);
    sheet.placed(|it| it.weight == Weight::Critical).map(|(it, at)| (it.code.word(), at.to_owned())).collect()
}

fn is_critical(name: &str, code: &str, at: &str) -> bool {
    critical(name).iter().any(|it| it.0 == code && it.1 == at)
}

/// Its feed is in one pole's two terminals: the switch closes line on neutral, and board.2 opens in all four rows in which it is
/// closed.
#[test]
fn a_feed_through_one_pole_of_a_double_pole_switch_is_a_dead_short() {
    let name = "dp-feed-in-one-pole";
    let work = work(name);
    let closed = |row: &&Row| row.positions[2] == 1;
    let all = rows(&work);
    assert_eq!(all.iter().filter(closed).count(), 4);
    for row in &all {
        let opened: &[&str] = if row.positions[2] == 1 { &["board.2"] } else { &[] };
        assert_eq!(tripped(&work, row), opened, "{:?}", row.positions);
        assert_eq!(has(&work, row, HazardKind::ShortLineNeutral, "board.2"), row.positions[2] == 1);
    }
    assert_eq!(sheet(name).outcome, Outcome::Refer);
    assert!(is_critical(name, "short-line-neutral", "board.2"));
}

/// The line goes past the switch by a connector, the neutral through one pole: lit with the switch on, and its line unswitched.
#[test]
fn a_double_pole_switch_in_the_neutral_alone_lights_its_lamp() {
    let work = work("dp-neutral-only");
    for row in rows(&work) {
        let lit = row.lamps[1].glow == Glow::Lit;
        assert_eq!(lit, row.positions[2] == 1, "{:?}", row.positions);
        assert_eq!(has(&work, &row, HazardKind::LampholderLive, "lb"), !lit, "{:?}", row.positions);
    }
    assert!(is_critical("dp-neutral-only", "lampholder-live", "lb"));
}

/// A line on the metal plate comes to the box, which is earthed, by the plate's screws: board.1 opens in every row.
#[test]
fn a_line_on_a_metal_plate_is_a_short_to_earth_through_its_screws() {
    let name = "stairs-brown-link-L1-plate";
    let work = work(name);
    for row in rows(&work) {
        assert!(has(&work, &row, HazardKind::ShortLineEarth, "board.1"), "{:?}", row.positions);
        assert_eq!(tripped(&work, &row), ["board.1"], "{:?}", row.positions);
    }
    assert!(is_critical(name, "short-line-earth", "board.1"));
}

/// Nothing is on this plate: its tail is missing, and a first fault on it opens the device through the screws all the same.
#[test]
fn a_plate_earthed_by_its_screws_alone_has_a_disconnection() {
    let name = "two-way-stairs-4-1-3-good";
    assert!(rows(&work(name)).iter().all(|it| it.hazards.is_empty() && it.opened.is_empty()));
    let sheet = sheet(name);
    let codes: Vec<(&str, &str)> = sheet.placed(|_| true).map(|(it, at)| (it.code.word(), at)).collect();
    assert!(codes.contains(&("tail-missing", "west.plate.earth")), "{codes:?}");
    assert!(!codes.iter().any(|it| it.0 == "no-disconnection"), "{codes:?}");
}

/// A lamp is lit through the screw in this position until both devices open: the stairs' own in the one, the landing's in the
/// other.
#[test]
fn two_circuits_that_meet_through_a_screw_are_solved_together() {
    for (name, lamp) in [("two-way-stairs-4-1-16-random", 0), ("two-way-stairs-4-7-217-random", 1)] {
        let (work, row) = row(name, &[0, 1, 0]);
        assert_eq!(tripped(&work, &row), ["board.1", "board.2"], "{name}");
        let network = Network::new(&work, &Conditions::complete(work.exercise(), vec![0, 1, 0]));
        let lamp = network.part(Part::Lamp(crate::ids::lamp(lamp))).unwrap();
        assert!(lamp.volts(&network.solve()).abs() > 0.85 * 230.0, "{name}");
    }
}

/// Box, lampholder and two loose ends more than the feed's brown stand at 230 V.
#[test]
fn a_box_that_its_plates_screws_make_live_is_seen() {
    let (work, row) = row("two-way-stairs-4-1-187-random", &[0, 0, 0]);
    assert!(has(&work, &row, HazardKind::MetalEnergised, "west.box.earth"));
    let found = hazards(&work, &row);
    let loose: Vec<&str> = found.iter().filter(|it| it.0 == HazardKind::LooseEndLive).map(|it| it.1.as_str()).collect();
    assert_eq!(loose, ["feed/brown@rose", "feed/cpc@board", "flex/blue@rose"]);
    assert!(found.iter().any(|it| it.0 == HazardKind::LampholderLive), "{found:?}");
}

/// 217 A from line to neutral with the conductors still cold, through the screws of two plates.
#[test]
fn what_two_solvers_found_to_be_line_to_neutral_is_no_overload() {
    let (work, row) = row("four-strap-1-1-2-random", &[1, 0, 0, 0]);
    let found = hazards(&work, &row);
    assert!(found.contains(&(HazardKind::ShortLineNeutral, "board.1".to_owned())), "{found:?}");
    assert!(!found.iter().any(|it| it.0 == HazardKind::Overload), "{found:?}");
    let exercise = work.exercise();
    let cold = Conditions { celsius: 20.0, ..Conditions::complete(exercise, vec![1, 0, 0, 0]) };
    let network = Network::new(&work, &cold);
    let amps = network.part(Part::LinePole(crate::ids::device(0))).unwrap().amps(&network.solve());
    assert!((amps.abs() - 217.0).abs() < 1.0, "{amps}");
}

/// With the landing's switch at its empty L2 board.1 has its line on earth, and no neutral is in it.
#[test]
fn the_other_circuits_switch_decides_what_a_line_meets() {
    let (work, row) = row("two-way-stairs-5-1-174-near", &[0, 1, 0]);
    assert!(has(&work, &row, HazardKind::ShortLineEarth, "board.1"));
    assert!(!has(&work, &row, HazardKind::ShortLineNeutral, "board.1"));
}

/// What the rows say opens is what opens at power-on, in every position, with every device on.
#[test]
fn rows_and_power_on_say_the_same_of_circuits_that_touch_through_earth() {
    for name in ["ne-fault-record-trips", "joint-box-b-1-2-24-near"] {
        let work = work(name);
        for row in rows(&work) {
            let together = settle(&work, Conditions::complete(work.exercise(), row.positions.clone()));
            let opened: BTreeSet<DeviceId> = together.opened.iter().map(|it| it.device).collect();
            assert_eq!(row.tripped().collect::<BTreeSet<_>>(), opened, "{name} {:?}", row.positions);
        }
    }
}

/// As `plain`, whose joint is a box: an unswitched fused unit joins too.
#[test]
fn a_spur_through_an_unswitched_fused_unit_passes_as_the_plain_job_does() {
    for name in ["plain", "spur", "spur-c"] {
        let found = sheet(name);
        assert_eq!(found.outcome, Outcome::Pass, "{name}: {:#?}", found.findings);
    }
}

/// Fed dimly through the motor with the cord off, or a line that the isolator leaves live: refer.
#[test]
fn a_lamp_fed_through_a_motor_and_a_fan_left_live_are_critical() {
    for name in ["fan74", "fan74r", "fan75"] {
        assert_eq!(sheet(name).outcome, Outcome::Refer, "{name}");
        let work = work(name);
        let dim: Vec<Row> = rows(&work).into_iter().filter(|it| it.lamps[0].glow == Glow::Dim).collect();
        for row in &dim {
            assert!(has(&work, row, HazardKind::DimWhenOff, "lamp"), "{name} {:?}", row.positions);
        }
    }
    assert!(is_critical("fan74", "lampholder-live", "lamp"));
    assert!(is_critical("fan75", "fan-wrong", "fan"));
}

/// The two lines joined is the cause; the neutrals borrowed follow from it.
#[test]
fn of_two_lines_joined_the_join_is_the_cause() {
    let sheet = sheet("w42");
    let causes: Vec<&str> =
        sheet.placed(|it| it.root == Root::Itself && it.weight > Weight::Advice).map(|it| it.0.code.word()).collect();
    assert_eq!(causes, ["circuits-joined"]);
}
