//! Two circuits behind each sort of board: what opens and why, and what is seen of a neutral or a line that two circuits share.

use switchdrop::{
    attempt::Attempt,
    circuit::{Cause, Conditions, HazardKind, settle, survey},
    marking::Outcome,
    work::{Point, Subject, Work},
};

use super::{BATHROOM, BATHROOM_WIRED, PASSAGE, PASSAGE_WIRED, codes, lit, sheet, wired, with};

/// The passage with its two circuits behind these devices.
pub fn passage(devices: &str) -> String {
    let start = PASSAGE.find("Device(id: \"1\"").unwrap();
    let end = PASSAGE[start..].find("])").unwrap() + start;
    format!("{}{devices}{}", &PASSAGE[..start], &PASSAGE[end..]).replace("earthing: Tt", "earthing: TnCS")
}

pub const RCBOS: &str =
    "Device(id: \"1\", kind: Rcbo6B30, circuit: \"a\"), Device(id: \"2\", kind: Rcbo6B30, circuit: \"b\"),";
pub const MCBS: &str =
    "Device(id: \"1\", kind: Mcb6B, circuit: \"a\"), Device(id: \"2\", kind: Mcb6B, circuit: \"b\"),";
pub const ONE_RCD: &str = "Device(id: \"r\", kind: Rcd30, circuit: \"all\"), \
                       Device(id: \"1\", kind: Mcb6B, circuit: \"a\", behind: Some(\"r\")), \
                       Device(id: \"2\", kind: Mcb6B, circuit: \"b\", behind: Some(\"r\")),";
pub const TWO_RCDS: &str = "Device(id: \"r\", kind: Rcd30, circuit: \"a\"), Device(id: \"s\", kind: Rcd30, circuit: \"b\"), \
                        Device(id: \"1\", kind: Mcb6B, circuit: \"a\", behind: Some(\"r\")), \
                        Device(id: \"2\", kind: Mcb6B, circuit: \"b\", behind: Some(\"s\")),";

/// Addresses of what opened with the light switched on.
fn tripped(work: &Work) -> Vec<String> {
    let opened = settle(work, Conditions::complete(work.exercise(), vec![0])).opened;
    let mut found: Vec<String> = opened.iter().map(|it| work.exercise().devices[it.device].address.clone()).collect();
    found.sort();
    found
}

#[test]
fn each_board_is_right_when_its_wiring_is() {
    for devices in [RCBOS, MCBS, ONE_RCD, TWO_RCDS] {
        let attempt = with(&passage(devices), PASSAGE_WIRED, "");
        assert!(!codes(&attempt).iter().any(|it| it.contains("circuits") || it.contains("neutral")));
        assert_eq!(tripped(attempt.work()), Vec::<String>::new(), "{devices}");
        assert_eq!(lit(attempt.work(), 0), [true, false], "{devices}");
    }
}

/// Line from one circuit, neutral from the other. RCBOs and split boards trip, because the currents no longer cancel
/// (trade articles on borrowed neutrals); behind one common device they do cancel, and with MCBs alone nothing looks.
/// It is a fault in every case.
#[test]
fn a_borrowed_neutral_is_seen_for_what_it_is_behind_every_board() {
    let loan = "flex/blue@box box.connector.3";
    for (devices, opens) in
        [(RCBOS, &["board.1", "board.2"][..]), (MCBS, &[]), (ONE_RCD, &[]), (TWO_RCDS, &["board.r", "board.s"])]
    {
        let attempt = with(&passage(devices), PASSAGE_WIRED, loan);
        assert!(codes(&attempt).contains(&"borrowed-neutral"), "{devices}");
        assert_eq!(tripped(attempt.work()), opens, "{devices}");
        assert_eq!(sheet(&attempt).outcome, Outcome::Refer);
    }
}

/// A filament of 60 W takes 0.26 A: far over five times 30 mA, so a device with a residual part opens within 40 ms, and
/// that is why. An MCB of 6 A holds.
#[test]
fn which_device_opens_in_what_time_and_why() {
    let loan = "flex/blue@box box.connector.3";
    let attempt = with(&passage(TWO_RCDS), PASSAGE_WIRED, loan);
    let opened = settle(attempt.work(), Conditions::complete(attempt.work().exercise(), vec![0])).opened;
    assert_eq!(opened.len(), 2);
    for it in opened {
        assert_eq!((it.cause, it.after, it.within), (Cause::Residual, 0.0, 0.04));
    }
    // Line against neutral: the MCB's instantaneous release, and the common device sees nothing.
    let short = with(&passage(ONE_RCD), PASSAGE_WIRED, "flex/blue@box box.L1\none/blue@box box.L1");
    let opened = settle(short.work(), Conditions::complete(short.work().exercise(), vec![0])).opened;
    assert_eq!(opened.len(), 1);
    assert_eq!((opened[0].device, opened[0].cause, opened[0].within), (crate::ids::device(1), Cause::Overcurrent, 0.1));
    // Line against earth: the common device is first, and the hazard is still a short to earth.
    let earth = with(&passage(ONE_RCD), PASSAGE_WIRED, "one/cpc@box box.L1");
    let opened = settle(earth.work(), Conditions::complete(earth.work().exercise(), vec![0])).opened;
    assert_eq!((opened[0].device, opened[0].cause, opened[0].within), (crate::ids::device(0), Cause::Residual, 0.04));
    let hazards = survey(earth.work()).hazards;
    let board = Subject::Device(crate::ids::device(0));
    assert!(hazards.iter().any(|it| it.kind == HazardKind::ShortLineEarth && it.at == board), "{hazards:?}");
}

/// Two circuits behind one residual current device, a neutral switched in the first: with the switch off its light is out
/// and its holder live. That the second trips on a dead short of its own, line in the connector of its neutral, changes
/// nothing there: the short is between its own line and neutral, so what stands in front of both feels nothing.
#[test]
fn a_holder_left_live_is_seen_beside_another_circuits_trip() {
    let switched =
        "one/brown@box box.connector.1\nflex/brown@box box.connector.1\none/blue@box box.COM\nflex/blue@box box.L1";
    let live = |attempt: &Attempt| {
        let hazards = survey(attempt.work()).hazards;
        hazards.into_iter().find(|it| it.kind == HazardKind::LampholderLive)
    };
    let short = format!("{switched}\ntwo/black@box box.connector.2");
    let attempt = with(&passage(ONE_RCD), PASSAGE_WIRED, &short);
    let opened = settle(attempt.work(), Conditions::complete(attempt.work().exercise(), vec![1])).opened;
    assert_eq!(opened.iter().map(|it| it.device).collect::<Vec<_>>(), [crate::ids::device(2)]);
    let found = live(&attempt).expect("the holder is live");
    assert_eq!(
        (found.at, found.witness.positions, found.witness.off),
        (Subject::Lamp(crate::ids::lamp(0)), vec![1], Vec::new())
    );
    // The near miss: the short is in the first circuit, whose own device opens and leaves the holder dead.
    let own = format!("{switched}\none/blue@box box.connector.1");
    let attempt = with(&passage(ONE_RCD), PASSAGE_WIRED, &own);
    assert!(survey(attempt.work()).hazards.iter().any(|it| it.kind == HazardKind::ShortLineNeutral));
    assert_eq!(live(&attempt), None);
}

/// The lamp's line from one circuit, its neutral from another behind a residual current device that sees 0.26 A come back
/// and opens. The light is then out with its switch on, and its holder live: no switch of its own left it so.
#[test]
fn a_holder_whose_neutral_opened_is_not_live_by_its_switch() {
    let devices = "Device(id: \"s\", kind: Rcd30, circuit: \"b\"), Device(id: \"1\", kind: Mcb6B, circuit: \"a\"), \
                   Device(id: \"2\", kind: Mcb6B, circuit: \"b\", behind: Some(\"s\")),";
    let attempt = with(&passage(devices), PASSAGE_WIRED, "flex/blue@box box.connector.3");
    let settled = settle(attempt.work(), Conditions::complete(attempt.work().exercise(), vec![0]));
    assert_eq!(settled.opened.iter().map(|it| it.device).collect::<Vec<_>>(), [crate::ids::device(0)]);
    let holder = attempt.work().exercise().lamps.rows()[0].contacts;
    assert!(holder.iter().any(|it| settled.is_energised(attempt.work(), Point::Terminal(*it))));
    let hazards = survey(attempt.work()).hazards;
    assert!(hazards.iter().all(|it| it.kind != HazardKind::LampholderLive), "{hazards:?}");
}

/// A line fed from two circuits: with either device off the light still burns, and what one thinks dead is not.
#[test]
fn a_line_fed_from_two_circuits_stays_live_with_one_of_them_off() {
    for devices in [RCBOS, MCBS, ONE_RCD, TWO_RCDS] {
        let attempt = with(&passage(devices), PASSAGE_WIRED, "two/red@box box.COM");
        assert!(codes(&attempt).contains(&"circuits-joined"), "{devices}");
        assert_eq!(sheet(&attempt).outcome, Outcome::Refer);
    }
    let attempt = with(&passage(MCBS), PASSAGE_WIRED, "two/red@box box.COM");
    let work = attempt.work();
    for off in 0..2 {
        let mut conditions = Conditions::complete(work.exercise(), vec![0]);
        conditions.on[off] = false;
        let settled = settle(work, conditions);
        let line = work.exercise().devices.rows()[off].line;
        assert!(settled.is_energised(work, Point::Terminal(line)), "the line of a device that is off");
    }
}

/// A neutral open upstream: the light is off whatever the switch does, and beyond the break the neutral is live through
/// the lamp; with the lamp out it is not.
#[test]
fn a_neutral_open_upstream_is_live_through_the_lamp() {
    let attempt = with(&passage(MCBS), PASSAGE_WIRED, "one/blue@board loose");
    let work = attempt.work();
    assert_eq!(lit(work, 0), [false, false]);
    let neutral = Point::End(work.end("one/blue@board").unwrap());
    for (position, lamp_in, live) in [(0, true, true), (1, true, false), (0, false, false)] {
        let mut conditions = Conditions::complete(work.exercise(), vec![position]);
        conditions.lamps_in[0] = lamp_in;
        assert_eq!(settle(work, conditions).is_energised(work, neutral), live, "{position} {lamp_in}");
    }
    assert!(codes(&attempt).contains(&"loose-end-live"), "{:?}", codes(&attempt));
}

/// With the common device off, nothing behind it is live and nothing behind it can trip it back.
#[test]
fn a_common_device_switches_off_all_behind_it() {
    let attempt = wired(BATHROOM, BATHROOM_WIRED);
    let work = attempt.work();
    let mut conditions = Conditions::complete(work.exercise(), vec![1, 1, 1]);
    conditions.on[0] = false;
    let settled = settle(work, conditions);
    for device in &work.exercise().devices {
        assert!(!settled.is_energised(work, Point::Terminal(device.line)), "{}", device.address);
    }
}
