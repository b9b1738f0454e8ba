//! What every code that tells it would have led to, worked out on paper with Ohm's law and the devices' standards.
//!
//! The sums are of one wiring, `washhouse.ron`, at 70 °C, where copper has 1.2 times its resistance at 20 °C (12.1, 18.1 and
//! 26.0 milliohm a metre for 1.5, 1.0 and 0.75 mm²), a milliohm for each end in a tight terminal:
//!
//! | part | ohms |
//! | --- | --- |
//! | the supply's line | 0.175 |
//! | its combined neutral and earth | 0.175 |
//! | a device's line pole, its neutral | 0.005, 0.001 |
//! | `feed/brown`, `feed/blue`, and the loft's: 10 m of 1.5 mm² | 0.1472 |
//! | `feed/cpc`, and the loft's: 10 m of 1.0 mm² | 0.2192 |
//! | a core of the drop: 5 m of 1.0 mm² | 0.1106 |
//! | a core of the flex: 1 m of 0.75 mm² | 0.0332 |
//! | the switch, closed | 0.005 |
//! | the lamp: 230² / 100 | 529 |
//!
//! A body has 2,000 ohm. RCBOs are 6 A type B, 30 mA: five times 6 A opens one within 0.1 s (BS EN 60898-1); once, twice and five
//! times 30 mA within 0.3, 0.15 and 0.04 s (BS EN 61009-1).

use switchdrop::{
    attempt::{Attempt, Mode},
    circuit::{Cause, Opening, Witness},
    exercise::DeviceId,
    marking::{Root, Sheet, mark},
    report::{Consequence, consequence},
    work::{Action, Edit},
};

use super::{addresses, cause};
use crate::{
    hand::{exercise, onto_a_short},
    ids::{device, lamp},
    installations::with,
};

const WASHHOUSE: &str = include_str!("../scenarios/washhouse.ron");

/// Everything where it belongs.
const WIRED: &str = "feed/brown@rose rose.loop
    feed/blue@rose rose.neutral
    feed/cpc@rose Sleeve(GreenYellow) rose.earth
    drop/brown@rose rose.loop
    drop/blue@rose Sleeve(Brown) rose.switched
    drop/cpc@rose Sleeve(GreenYellow) rose.earth
    flex/brown@rose rose.switched
    flex/blue@rose rose.neutral
    drop/brown@switch switch.COM
    drop/blue@switch Sleeve(Brown) switch.L1
    drop/cpc@switch Sleeve(GreenYellow) switch.box.earth";

/// The second circuit comes to the rose as well.
const LOFT: (&str, &str) = (
    "cables: [",
    "cables: [Cable(id: \"loft\", name: \"loft feed\", kind: TwinEarth, mm2: 1.5, metres: 10.0, from: \"board\", to: \"rose\"),",
);
const LOFT_WIRED: &str = "loft/cpc@board board.earth
    loft/cpc@rose Sleeve(GreenYellow) rose.earth";

/// A fan of 23 W hangs at the rose.
const FAN: [(&str, &str); 2] = [
    (
        "locations: [",
        "locations: [Location(id: \"fan\", name: \"fan\", at: (60, 40), has: Fan(kind: TimerFan, watts: 23.0, with: \"lamp\", isolator: None)),",
    ),
    (
        "cables: [",
        "cables: [Cable(id: \"air\", name: \"fan cable\", kind: ThreeCoreEarth, mm2: 1.0, metres: 5.0, from: \"rose\", to: \"fan\"),",
    ),
];

/// The wiring with further lines, in a scenario with some words changed.
fn wired(changes: &[(&str, &str)], lines: &str) -> Attempt {
    let text = changes.iter().fold(WASHHOUSE.to_owned(), |text, (from, to)| {
        assert!(text.contains(from), "{from}");
        text.replace(from, to)
    });
    with(&text, WIRED, lines)
}

/// What the cause of this code would have led to.
#[track_caller]
fn told(attempt: &Attempt, code: &str) -> Consequence {
    let sheet = mark(attempt, Mode::Set);
    consequence(attempt, &sheet, cause(&sheet, code)).unwrap_or_else(|| panic!("{code}: {:#?}", sheet.findings))
}

/// Within a thousandth: what was left out on paper (insulation, the tie) is less.
#[track_caller]
fn close(found: f64, paper: f64) {
    assert!((found - paper).abs() <= 0.001 * paper, "{found} and not {paper}");
}

fn opening(device: DeviceId, cause: Cause, after: f64, within: f64) -> Opening {
    Opening { device, cause, after, within }
}

fn at(positions: &[u8]) -> Witness {
    Witness { positions: positions.to_vec(), ..Witness::default() }
}

/// A current that opens devices: the case, the way, its amps, what opens.
#[track_caller]
fn opens(attempt: &Attempt, code: &str, case: &Witness, way: &[&str], amps: f64, opened: &[Opening]) {
    let told = told(attempt, code);
    let Consequence::Opens { case: in_case, way: by, amps: found, opened: these } = &told else { panic!("{told:?}") };
    assert_eq!((in_case, these.as_slice()), (case, opened));
    assert_eq!(addresses(attempt, by), way);
    close(*found, amps);
}

/// A touch: the case, whether after a first fault, the way, volts, amps, what opens.
#[track_caller]
fn touches(
    attempt: &Attempt,
    code: &str,
    (case, first_fault): (&Witness, bool),
    way: &[&str],
    (volts, amps): (f64, f64),
    opened: Option<Opening>,
) {
    let told = told(attempt, code);
    let Consequence::Touch { case: in_case, first_fault: after, way: by, volts: v, amps: a, opened: this } = &told
    else {
        panic!("{told:?}")
    };
    assert_eq!((in_case, *after, *this), (case, first_fault, opened));
    assert_eq!(addresses(attempt, by), way);
    close(*v, volts);
    close(*a, amps);
}

/// Two times 30 mA and not five: 115 mA through a hand.
fn by_hand() -> Opening {
    opening(device(0), Cause::Residual, 0.0, 0.15)
}

/// The switch's return in the neutrals. With it closed: 0.175 + 0.005 + 0.1472 + 0.1106 + 0.005 + 0.1106 + 0.1472 + 0.001 + 0.175
/// = 0.8766 ohm; 230 / 0.8766 = 262.4 A, over 30 A: within 0.1 s.
#[test]
fn line_to_neutral() {
    let attempt = wired(&[], "drop/blue@rose rose.neutral");
    let way = ["board.1", "feed/brown", "drop/brown", "drop/blue", "feed/blue"];
    let opened = [opening(device(0), Cause::Overcurrent, 0.0, 0.1)];
    opens(&attempt, "short-line-neutral", &at(&[1]), &way, 262.4, &opened);
}

/// The switch's return in the earths: 0.175 + 0.005 + 0.1472 + 0.1106 + 0.005 + 0.1106 + 0.2192 + 0.175 = 0.9476 ohm, 242.7 A, all of
/// it residual: within 0.04 s, which is before the 0.1 s of the overcurrent.
#[test]
fn line_to_earth() {
    let attempt = wired(&[], "drop/blue@rose rose.earth");
    let way = ["board.1", "feed/brown", "drop/brown", "drop/blue", "feed/cpc"];
    let opened = [opening(device(0), Cause::Residual, 0.0, 0.04)];
    opens(&attempt, "short-line-earth", &at(&[1]), &way, 242.7, &opened);
}

/// The lamp's neutral is the loft's: 529 + 0.175 + 0.005 + 0.1472 + 2 * 0.1106 + 0.005 + 2 * 0.0332 + 0.1472 + 0.001 + 0.175 =
/// 529.94 ohm, 0.4340 A, which goes out by one device and back by the other: over 0.15 A residual in both, so both open within
/// 0.04 s. The loft's device has nothing in its line; what opens it is the same current on its way back.
#[test]
fn a_residual_current_is_told_by_either_device() {
    let attempt = wired(
        &[LOFT],
        &format!(
            "{LOFT_WIRED}\nloft/blue@board board.2.neutral\nloft/blue@rose rose.neutral\nloft/brown@board loose\n\
             feed/blue@rose loose"
        ),
    );
    let sheet = mark(&attempt, Mode::Set);
    let trips: Vec<usize> = (0..sheet.findings.len())
        .filter(|it| sheet.findings[*it].code.word() == "residual-trip" && sheet.findings[*it].root == Root::Itself)
        .collect();
    assert_eq!(trips.len(), 2, "{:#?}", sheet.findings);
    for (index, device) in trips.into_iter().zip(["board.1", "board.2"]) {
        let told = consequence(&attempt, &sheet, index);
        let Some(Consequence::Opens { case, way, amps, opened }) = told else { panic!("{told:?}") };
        assert_eq!(case, at(&[1]));
        assert_eq!(opened, [0, 1].map(crate::ids::device).map(|it| opening(it, Cause::Residual, 0.0, 0.04)));
        let cores = ["feed/brown", "drop/brown", "drop/blue", "flex/brown", "flex/blue", "loft/blue"];
        assert_eq!(addresses(&attempt, &way), [&[device], &cores[..]].concat());
        close(amps, 0.4340);
    }
}

/// Five lamps of 500 W, 105.8 ohm each with 2 * 0.0332 of flex, are 21.1733 ohm together; 0.175 + 0.005 + 0.1472 + 2 * 0.1106 + 0.005 +
/// 0.1472 + 0.001 + 0.175 = 0.8766 more: 10.431 A, 1.74 times the rating: at the soonest after a second, within the hour (from 1.45
/// times on). A lamp's own fifth of it is no part of the way.
#[test]
fn an_overload() {
    let (mut places, mut cables, mut lines) = ("locations: [".to_owned(), "cables: [".to_owned(), String::new());
    for it in 1..5 {
        places += &format!(
            "Location(id: \"lamp{it}\", name: \"light {it}\", at: (20, 1{it}), has: Luminaire(holder: Bayonet, lamp: Filament, watts: 500.0)),"
        );
        cables += &format!(
            "Cable(id: \"flex{it}\", name: \"flex {it}\", kind: PendantFlex, mm2: 0.75, metres: 1.0, from: \"rose\", to: \"lamp{it}\"),"
        );
        lines += &format!(
            "flex{it}/brown@rose rose.switched\nflex{it}/blue@rose rose.neutral\nflex{it}/brown@lamp{it} lamp{it}.1\n\
             flex{it}/blue@lamp{it} lamp{it}.2\n"
        );
    }
    let controls: String = (1..5).map(|it| format!("Control(lamp: \"lamp{it}\", switches: [\"switch\"]), ")).collect();
    let controls = format!("controls: [{controls}");
    let changes = [
        ("watts: 100.0", "watts: 500.0"),
        ("locations: [", &*places),
        ("cables: [", &cables),
        ("controls: [", &controls),
    ];
    let attempt = wired(&changes, &lines);
    let way = ["board.1", "feed/brown", "drop/brown", "drop/blue", "feed/blue"];
    opens(&attempt, "overload", &at(&[1]), &way, 10.431, &[opening(device(0), Cause::Overcurrent, 1.0, 3600.0)]);
}

/// Energised onto the switch's return in the neutrals, worked at 20 °C, lengths as drawn: twice the feed's 1.5 mm² and the drop's
/// 1.0 mm², and as above.
#[test]
fn energised_onto_a_short() {
    let mut hand = onto_a_short(exercise("one-way-rose", 4));
    hand.attempt.act(Action::Operate { switch: "switch".to_owned(), position: 1 }).unwrap();
    // Put right before the hand-in: nothing of it stands but the act.
    hand.does(Action::LockOff { device: "board.2".to_owned() });
    hand.does(Action::RemoveCover { location: "rose".to_owned() });
    hand.proves_dead(hand.attempt.work().location("rose").unwrap());
    hand.does(Action::Disconnect { end: "drop/blue@rose".to_owned() });
    hand.wires("drop/blue@rose rose.switched");
    hand.does(Action::HandIn);
    let metres = |id: &str| hand.attempt.work().exercise().cables.iter().find(|it| it.id == id).unwrap().metres;
    let ohms = 2.0 * (metres("feed") * 0.0121 + metres("drop") * 0.0181 + 4.0 * 0.001);
    let amps = 230.0 / (ohms + 0.175 + 0.005 + 0.005 + 0.001 + 0.175);
    let way = ["board.2", "feed/brown", "drop/brown", "drop/blue", "feed/blue"];
    let opened = [opening(device(1), Cause::Overcurrent, 0.0, 0.1)];
    opens(&hand.attempt, "energised-onto-fault", &at(&[1, 0]), &way, amps, &opened);
}

/// The line on the box, to which no cpc comes: 230 V and 230 / 2000.4 = 115 mA in either position of the switch, of which
/// the first is told.
#[test]
fn energised_metal() {
    for (kind, opened) in [("Rcbo6B30", Some(by_hand())), ("Mcb6B", None)] {
        let lines = "drop/brown@switch switch.box.earth\ndrop/cpc@rose loose\ndrop/cpc@switch loose";
        let attempt = wired(&[("Rcbo6B30", kind)], lines);
        let way = ["board.1", "feed/brown", "drop/brown", "switch.box.earth"];
        touches(&attempt, "metal-energised", (&at(&[0]), false), &way, (230.0, 0.115), opened);
    }
}

/// The line of the drop hangs loose in the switch's box: 230 V, 115 mA.
#[test]
fn a_live_end() {
    for (kind, opened) in [("Rcbo6B30", Some(by_hand())), ("Mcb6B", None)] {
        let attempt = wired(&[("Rcbo6B30", kind)], "drop/brown@switch loose");
        let way = ["board.1", "feed/brown", "drop/brown", "drop/brown@switch"];
        touches(&attempt, "loose-end-live", (&at(&[0]), false), &way, (230.0, 0.115), opened);
    }
}

/// The neutral is switched: with the switch off the contact on the line gives 230 V and 115 mA, the other the same volts through
/// the lamp, 230 / 2529 = 91 mA. The worse is told, whichever of the two contacts it is.
#[test]
fn a_lampholder_left_live() {
    for (line, neutral, contact) in [("brown", "blue", "lamp.1"), ("blue", "brown", "lamp.2")] {
        let attempt = wired(
            &[],
            &format!(
                "drop/brown@rose rose.neutral\ndrop/blue@rose rose.switched\nflex/{line}@rose rose.loop\n\
                 flex/{neutral}@rose rose.switched"
            ),
        );
        let flex = format!("flex/{line}");
        let way = ["board.1", "feed/brown", &flex, contact];
        touches(&attempt, "cores-exchanged", (&at(&[0]), false), &way, (230.0, 0.115), Some(by_hand()));
    }
}

/// No cpc comes to the box: a line against it leaves it at 230 V, and 115 mA go through a hand.
#[test]
fn no_disconnection() {
    for (kind, opened) in [("Rcbo6B30", Some(by_hand())), ("Mcb6B", None)] {
        let attempt = wired(&[("Rcbo6B30", kind)], "drop/cpc@rose loose\ndrop/cpc@switch loose");
        let way = ["board.1", "feed/brown", "drop/brown", "switch.box.earth"];
        touches(&attempt, "no-disconnection", (&at(&[0]), true), &way, (230.0, 0.115), opened);
    }
}

/// The bare cpc of the drop is the switched line: energised with the switch on, when the lamp takes 0.434 A through 0.4428 ohm, of
/// which 0.19 V are lost: 229.8 V, 115 mA by a hand on its copper at the switch.
#[test]
fn a_bare_core_as_the_switched_line() {
    for (kind, opened) in [("Rcbo6B30", Some(by_hand())), ("Mcb6B", None)] {
        let lines =
            "drop/cpc@rose rose.switched\ndrop/cpc@switch switch.L1\ndrop/blue@rose loose\ndrop/blue@switch loose";
        let attempt = wired(&[("Rcbo6B30", kind)], lines);
        let way = ["board.1", "feed/brown", "drop/brown", "drop/cpc@switch"];
        touches(&attempt, "cpc-misused", (&at(&[1]), false), &way, (229.8, 0.1149), opened);
    }
}

/// A lamp of 500 W is 105.8 ohm. With the switch's COM slack its joint has 1 ohm, the drop's brown 0.1086 + 0.001 + 1 = 1.1096: in all
/// 105.8 + 0.175 + 0.005 + 0.1472 + 1.1096 + 0.1106 + 0.005 + 2 * 0.0332 + 0.1472 + 0.001 + 0.175 = 107.742 ohm, 2.1347 A: 4.557 W and 2.1347 V.
#[test]
fn a_hot_joint() {
    let attempt = wired(&[("watts: 100.0", "watts: 500.0")], "");
    let com = attempt.work().terminal("switch.COM").unwrap();
    let attempt = attempt.supposing(&[Edit::Slacken(com)]);
    let told = told(&attempt, "connection-slack");
    let Consequence::Heat { case, at: end, watts, volts } = &told else { panic!("{told:?}") };
    assert_eq!((case, end.address(attempt.work().exercise()).as_str()), (&at(&[1]), "drop/brown@switch"));
    close(*watts, 4.557);
    close(*volts, 2.1347);
}

/// A second lamp of 500 W hangs beside the first, of which a contact is slack as well as the switch's COM. The first's branch is 105.8 + 2 * 0.0332 +
/// 0.999 = 106.8654 ohm, the other's 105.8664; together 53.1818, and 1.8756 more (0.8766 as above and 0.999): 4.1775 A, of which 2.0789 go by
/// the slack contact. Each joint of 1 ohm tells its own heat.
#[test]
fn two_hot_joints() {
    let place = "locations: [Location(id: \"lamp1\", name: \"light 1\", at: (20, 11), has: Luminaire(holder: Bayonet, lamp: Filament, watts: 500.0)),";
    let cable = "cables: [Cable(id: \"flex1\", name: \"flex 1\", kind: PendantFlex, mm2: 0.75, metres: 1.0, from: \"rose\", to: \"lamp1\"),";
    let changes = [
        ("watts: 100.0", "watts: 500.0"),
        ("locations: [", place),
        ("cables: [", cable),
        ("controls: [", "controls: [Control(lamp: \"lamp1\", switches: [\"switch\"]), "),
    ];
    let lines = "flex1/brown@rose rose.switched\nflex1/blue@rose rose.neutral\nflex1/brown@lamp1 lamp1.1\nflex1/blue@lamp1 lamp1.2";
    let attempt = wired(&changes, lines);
    let slack = ["switch.COM", "lamp.1"].map(|it| Edit::Slacken(attempt.work().terminal(it).unwrap()));
    let attempt = attempt.supposing(&slack);
    let sheet = mark(&attempt, Mode::Set);
    let mut told: Vec<_> = (0..sheet.findings.len())
        .filter_map(|it| consequence(&attempt, &sheet, it))
        .map(|it| match it {
            Consequence::Heat { at: end, watts, volts, .. } => (end.address(attempt.work().exercise()), watts, volts),
            other => panic!("{other:?}"),
        })
        .collect();
    told.sort_by(|a, b| a.0.cmp(&b.0));
    assert_eq!(told.iter().map(|it| it.0.as_str()).collect::<Vec<_>>(), ["drop/brown@switch", "flex/brown@lamp"]);
    for ((_, watts, volts), amps) in told.iter().zip([4.1775_f64, 2.0789]) {
        close(*watts, amps * amps);
        close(*volts, amps);
    }
}

/// The lamp, always on, has the loft's neutral: both devices open for its 0.43 A. Only with it out is there a line on the loose
/// end.
#[test]
fn a_live_end_with_the_lamp_out() {
    let attempt = wired(
        &[LOFT],
        &format!(
            "{LOFT_WIRED}\nloft/blue@board board.2.neutral\nloft/blue@rose rose.neutral\nloft/brown@board loose\n\
             feed/blue@rose loose\nflex/brown@rose rose.loop\ndrop/brown@switch loose"
        ),
    );
    let case = Witness { out: vec![lamp(0)], ..at(&[0]) };
    let way = ["board.1", "feed/brown", "drop/brown", "drop/brown@switch"];
    touches(&attempt, "loose-end-live", (&case, false), &way, (230.0, 0.115), Some(by_hand()));
}

/// The fan's motor, 0.1 A, has the loft's line and this circuit's neutral: over 60 mA residual opens both within 0.15 s. Only with
/// the loft's device off is there a line on the loose end.
#[test]
fn a_live_end_with_a_device_off() {
    let attempt = wired(
        &[LOFT, FAN[0], FAN[1]],
        &format!(
            "{LOFT_WIRED}\nloft/brown@board board.2.line\nloft/blue@board loose\nloft/brown@rose rose.switched\n\
             air/brown@rose rose.switched\nair/grey@rose rose.neutral\nair/brown@fan fan.L\nair/grey@fan fan.N\n\
             flex/brown@rose loose\ndrop/blue@rose loose\ndrop/blue@switch loose\ndrop/brown@switch loose"
        ),
    );
    let case = Witness { off: vec![device(1)], ..at(&[0]) };
    let way = ["board.1", "feed/brown", "drop/brown", "drop/brown@switch"];
    touches(&attempt, "loose-end-live", (&case, false), &way, (230.0, 0.115), Some(by_hand()));
}

/// What only follows from a cause tells nothing of its own, and what is not electrical tells nothing.
#[test]
fn what_follows_is_told_by_its_cause() {
    let attempt = wired(&[], "drop/blue@rose rose.neutral");
    let sheet: Sheet = mark(&attempt, Mode::Set);
    let follows: Vec<usize> =
        (0..sheet.findings.len()).filter(|it| matches!(sheet.findings[*it].root, Root::Of(_))).collect();
    assert!(!follows.is_empty(), "the control fails too: {:#?}", sheet.findings);
    assert!(follows.iter().all(|it| consequence(&attempt, &sheet, *it).is_none()));
    assert!(consequence(&attempt, &sheet, sheet.findings.len()).is_none());
    let unmarked = wired(&[], "drop/blue@rose Letter(N) rose.switched");
    let sheet = mark(&unmarked, Mode::Set);
    assert!(!sheet.findings.is_empty());
    assert!((0..sheet.findings.len()).all(|it| consequence(&unmarked, &sheet, it).is_none()), "{:#?}", sheet.findings);
}
