//! Doubts about scenarios, worked out on paper, each with a near miss that is no doubt.

use switchdrop::{
    advice::{Doubt, DoubtKind, doubts},
    exercise::{Exercise, SHIPPED, Seed, draw, read},
};

use crate::{
    bench::Bench,
    installations::{BATHROOM, GRANARY},
};

fn exercise(text: &str) -> Exercise {
    read(text, Seed(0)).unwrap_or_else(|it| panic!("{it:#?}"))
}

/// Words and the text at each place.
fn found(text: &str) -> Vec<(&'static str, String)> {
    let exercise = exercise(text);
    // The rows below are about current and length, whatever the lamps.
    let all = doubts(&exercise).into_iter().filter(|it| it.kind != DoubtKind::LampTooHot);
    all.map(|it| (it.kind.word(), text[exercise.span_of(it.at)].to_owned())).collect()
}

fn of_kind(text: &str, kind: DoubtKind) -> Doubt {
    doubts(&exercise(text)).into_iter().find(|it| it.kind == kind).expect("a doubt of that kind")
}

fn only(text: &str) -> Doubt {
    let mut found = doubts(&exercise(text));
    found.retain(|it| it.kind != DoubtKind::LampTooHot);
    assert_eq!(found.len(), 1, "{found:?}");
    found[0].clone()
}

/// Three lamps at a rose, the feed so long, the devices these, the first feeding it.
fn row(devices: &str, metres: f64, watts: f64, earthing: &str) -> String {
    let lamp = |it: usize| {
        format!(
            "Location(id: \"l{it}\", name: \"l{it}\", at: (0, 0), has: Luminaire(holder: Bayonet, lamp: Filament, watts: {watts:?})),"
        )
    };
    let flex = |it: usize| {
        format!(
            "Cable(id: \"f{it}\", name: \"f{it}\", kind: PendantFlex, mm2: 0.75, metres: 0.5, from: \"rose\", to: \"l{it}\"),"
        )
    };
    let control = |it: usize| format!("Control(lamp: \"l{it}\", switches: [\"s\"]),");
    let ends = |it: usize| {
        format!(
            "Connected(end: \"f{it}/brown@l{it}\", at: \"l{it}.1\"), Connected(end: \"f{it}/blue@l{it}\", at: \"l{it}.2\"),"
        )
    };
    let first = if devices.contains("id: \"1\"") { "1" } else { "r" };
    let three = |of: &dyn Fn(usize) -> String| (1..=3).map(of).collect::<String>();
    format!(
        "Scenario(format: 1, id: \"row\", title: \"t\", place: \"p\", brief: \"b\", edition: A2of2022, earthing: {earthing},
locations: [Location(id: \"board\", name: \"board\", at: (0, 0), has: Board(devices: [{devices}])),
Location(id: \"rose\", name: \"far rose\", at: (0, 0), has: Rose),
Location(id: \"s\", name: \"s\", at: (0, 0), has: Box(body: Plastic, plate: Plastic, ways: [OneWay])), {}],
cables: [Cable(id: \"feed\", name: \"feed\", kind: TwinEarth, mm2: 1.5, metres: {metres:?}, from: \"board\", to: \"rose\"),
Cable(id: \"drop\", name: \"d\", kind: TwinEarth, mm2: 1.0, metres: 0.1, from: \"rose\", to: \"s\"), {}],
connected: [Connected(end: \"feed/brown@board\", at: \"board.{first}.line\"),
Connected(end: \"feed/blue@board\", at: \"board.{first}.neutral\"), Connected(end: \"feed/cpc@board\", at: \"board.earth\"), {}],
controls: [{}], stages: [])",
        three(&lamp),
        three(&flex),
        three(&ends),
        three(&control)
    )
}

const RCBO: &str = "Device(id: \"1\", kind: Rcbo6B30, circuit: \"a\")";
const MCB: &str = "Device(id: \"1\", kind: Mcb6B, circuit: \"a\")";

#[test]
fn what_is_shipped_gives_no_doubt_in_any_variant() {
    for (id, text) in SHIPPED {
        for seed in 0..30 {
            let doubts = doubts(&draw(text, Seed(seed)).expect("a variant"));
            assert!(doubts.is_empty(), "{id}, seed {seed}: {doubts:?}");
        }
    }
    // Where the learner chooses, a doubt is one only if nothing on offer would do.
    let barn = SHIPPED.iter().find(|it| it.0 == "two-way-to-choose").unwrap().1;
    let twin =
        barn.replace("Offer(kind: ThreeCoreEarth, mm2: 1.0),", "").replace("kind: ThreeCoreEarth", "kind: TwinEarth");
    let twin = twin.replacen("Offer(kind: TwinEarth, mm2: 1.5),", "", 1);
    assert_eq!(found(&twin), [("too-few-conductors", "\"loft\"".to_owned())]);
    // 200 W along 350 m: 9.2 V in 1.5 mm², 5.9 V in 2.5 mm².
    let far = barn.replace("metres: 212.0", "metres: 350.0");
    assert_eq!(found(&far), []);
    let with_less = far.replace("Offer(kind: TwinEarth, mm2: 2.5),", "");
    assert_eq!(found(&with_less), [("volt-drop", "\"lamp\"".to_owned())]);
    for text in [GRANARY, BATHROOM] {
        assert_eq!(found(text), []);
    }
}

/// 3 x 460 W is 6.0 A, and 3 x 461 W is 6.01 A, on a device of 6 A.
#[test]
fn more_load_than_the_device_is_rated_for() {
    assert_eq!(found(&row(RCBO, 9.0, 460.0, "TnCS")), []);
    let over = row(RCBO, 9.0, 461.0, "TnCS");
    assert_eq!(found(&over), [("overloaded", "\"1\"".to_owned())]);
    assert!((only(&over).found - 6.013).abs() < 0.001);
    // Behind a larger one there is no doubt.
    assert_eq!(found(&row(&RCBO.replace("6B", "10B"), 9.0, 461.0, "TnCS")), []);
}

/// 6 A over 1.5 mm² at 29.04 mV/A/m (trade/facts.md 5.4: 39.7 m at the table's 29 for 6.9 V), 2 A over half a metre of flex at
/// 62.4 and over 0.1 m of drop at 43.4: 6.795 + 0.062 + 0.009 = 6.87 V at 39 m, 6.883 + 0.071 = 6.95 V at 39.5 m.
#[test]
fn more_volts_lost_than_three_in_a_hundred() {
    assert_eq!(found(&row(RCBO, 39.0, 460.0, "TnCS")), []);
    let long = row(RCBO, 39.5, 460.0, "TnCS");
    assert_eq!(found(&long), ["l1", "l2", "l3"].map(|it| ("volt-drop", format!("\"{it}\""))));
    let volts = |text: &str| doubts(&exercise(text)).iter().find(|it| it.kind == DoubtKind::VoltDrop).unwrap().found;
    assert!((volts(&long) - 6.954).abs() < 0.002);
    // A lamp's own current there and back to its switch: 20 m more of 1.0 mm² at 2 A and 43.44 mV/A/m are 1.74 V.
    let aside = row(RCBO, 30.0, 460.0, "TnCS");
    assert_eq!(found(&aside), []);
    let aside = aside.replace("metres: 0.1", "metres: 20.0");
    assert!((volts(&aside) - (6.0 * 30.0 * 0.029_04 + 0.0624 + 1.7376)).abs() < 0.002);
}

/// 0.35 ohm outside and 36.24 milliohms a metre of 1.5/1.0 at 70 °C: 7.27 ohm at 191 m and 7.31 at 192 m, where a 6 A type B
/// device asks for 7.28 (BS 7671 Table 41.3). With 30 mA of residual current 1,667 ohm would do.
#[test]
fn a_first_fault_too_far_for_the_device() {
    let bare = || ("no-additional-protection", "\"1\"".to_owned());
    let too_far = || ("no-disconnection", "\"1\"".to_owned());
    assert_eq!(found(&row(MCB, 191.0, 1.0, "TnCS")), [bare()]);
    let far = row(MCB, 192.0, 1.0, "TnCS");
    assert_eq!(found(&far), [bare(), too_far()]);
    let doubt = of_kind(&far, DoubtKind::NoDisconnection);
    assert!((doubt.found - 7.308).abs() < 0.005 && (doubt.limit - 7.283).abs() < 0.001);
    assert_eq!(found(&row(RCBO, 192.0, 1.0, "TnCS")), []);
    // 121 ohm outside: no MCB opens on that, whatever comes behind it.
    assert_eq!(found(&row(MCB, 9.0, 1.0, "Tt")), [bare(), too_far()]);
    assert_eq!(found(&row(RCBO, 9.0, 1.0, "Tt")), []);
    let common = "Device(id: \"r\", kind: Rcd30, circuit: \"all\"), Device(id: \"1\", kind: Mcb6B, circuit: \"a\", behind: Some(\"r\"))";
    assert_eq!(found(&row(common, 9.0, 1.0, "Tt")), []);
}

/// BS 7671 411.3.4 asks for a residual current device of at most 30 mA (415.1.1) before the lights of a home: one in front of the
/// circuit-breaker will do, and a circuit with nothing on it needs none.
#[test]
fn a_light_with_no_device_of_30_milliamps_before_it_is_doubted() {
    let doubted =
        |devices: &str| found(&row(devices, 9.0, 1.0, "TnCS")).iter().any(|it| it.0 == "no-additional-protection");
    let behind = |front: &str| {
        format!(
            "Device(id: \"r\", kind: {front}, circuit: \"all\"), Device(id: \"1\", kind: Mcb6B, circuit: \"a\", behind: Some(\"r\"))"
        )
    };
    assert!(doubted(MCB) && !doubted(RCBO));
    assert!(!doubted(&behind("Rcd30")));
    // The second device feeds nothing.
    assert!(!doubted(&format!("{RCBO}, Device(id: \"2\", kind: Mcb6B, circuit: \"b\")")));
}

#[test]
fn a_residual_current_device_alone_opens_on_no_overcurrent() {
    let alone = "Device(id: \"r\", kind: Rcd30, circuit: \"all\")";
    assert_eq!(found(&row(alone, 9.0, 1.0, "TnCS")), [("no-overcurrent", "\"r\"".to_owned())]);
    let behind = "Device(id: \"r\", kind: Rcd30, circuit: \"all\"), Device(id: \"1\", kind: Mcb6B, circuit: \"a\", behind: Some(\"r\"))";
    assert_eq!(found(&row(behind, 9.0, 1.0, "TnCS")), []);
}

/// The granary light from three places. Its last switch behind two conductors; a switch in it that only joins; three two-way
/// plates, which have six contacts where Shannon's 4n - 4 is eight.
#[test]
fn controls_that_no_wiring_can_do() {
    let two = "name: \"upper three-core\", kind: ThreeCoreEarth";
    let thin = GRANARY.replace(two, "name: \"upper three-core\", kind: TwinEarth");
    assert_eq!(found(&thin), [("too-few-conductors", "\"east\"".to_owned())]);
    // Two twin cables run together bring four.
    let pair = thin.replace(
        "Cable(id: \"flex\"",
        "Cable(id: \"more\", name: \"m\", kind: TwinEarth, mm2: 1.0, metres: 5.0, from: \"middle\", to: \"east\"), Cable(id: \"flex\"",
    );
    assert_eq!(found(&pair), []);
    let one_way = GRANARY.replacen("ways: [TwoWay]", "ways: [OneWay]", 1);
    assert_eq!(found(&one_way), [("joins-only", "\"west\"".to_owned()), ("too-few-contacts", "\"lamp\"".to_owned())]);
    let three = GRANARY.replace("ways: [Intermediate]", "ways: [TwoWay]");
    assert_eq!(found(&three), [("too-few-contacts", "\"lamp\"".to_owned())]);
    let doubt = only(&three);
    assert_eq!(doubt.kind, DoubtKind::TooFewContacts);
    assert!((doubt.found - 6.0).abs() < 1e-9 && (doubt.limit - 8.0).abs() < 1e-9);
}

/// What nobody can do to the end, each by one change of a scenario in which nothing is doubtful.
#[test]
fn exercises_that_cannot_be_done() {
    let sound = row(RCBO, 9.0, 40.0, "TnCS");
    assert_eq!(found(&sound), []);
    // The third lamp's flex goes to the second instead.
    let flex = sound.replace("from: \"rose\", to: \"l3\"", "from: \"rose\", to: \"l2\"");
    let flex = flex
        .replace("Connected(end: \"f3/brown@l3\", at: \"l3.1\"), Connected(end: \"f3/blue@l3\", at: \"l3.2\"),", "");
    let words: Vec<_> = found(&flex).into_iter().filter(|it| it.0 != "ends-out-of-reach").collect();
    assert_eq!(words, [("lamp-without-cable", "\"l3\"".to_owned())]);
    // No cable to the switch: none of its three controls can be done.
    let drop = sound.replace("from: \"rose\", to: \"s\"", "from: \"rose\", to: \"l1\"");
    let cut_off = |it: usize| ("control-cut-off", format!("\"l{it}\""));
    let words: Vec<_> = found(&drop).into_iter().filter(|it| it.0 != "ends-out-of-reach").collect();
    assert_eq!(words, [cut_off(1), cut_off(2), cut_off(3)]);
    // An end of the feed is left free in a board: the learner's is opened, the supervisor's is not.
    let free = sound.replace("Connected(end: \"feed/blue@board\", at: \"board.1.neutral\"),", "");
    assert_eq!(found(&free), []);
    let free = free.replace("stages: []", "board: Supervisor, stages: []");
    assert_eq!(found(&free), [("ends-out-of-reach", "\"feed\"".to_owned())]);
    assert!((only(&free).found - 1.0).abs() < 1e-9);
    // A time is asked for where no device opens on a residual current.
    let timed = |device: &str| row(device, 9.0, 40.0, "TnCS").replace("stages: []", "stages: [ResidualDevice]");
    assert_eq!(found(&timed(RCBO)), []);
    assert_eq!(found(&timed(MCB))[1..], [("stage-of-nothing", "ResidualDevice".to_owned())]);
    let uncontrolled = timed(RCBO).replace("stages: [ResidualDevice]", "stages: [FunctionalTest]");
    assert_eq!(found(&uncontrolled), []);
}

/// Capitals and blanks around it make no other name; a place and a cable may share one.
#[test]
fn two_of_one_name() {
    let sound = row(RCBO, 9.0, 40.0, "TnCS");
    let places = sound.replace("name: \"far rose\"", "name: \"Board \"");
    assert_eq!(found(&places), [("same-name", "\"rose\"".to_owned())]);
    let cables = sound.replace("name: \"d\"", "name: \"feed\"");
    assert_eq!(found(&cables), [("same-name", "\"drop\"".to_owned())]);
    let both = sound.replace("name: \"d\"", "name: \"far rose\"");
    assert_eq!(found(&both), []);
}

/// The catalogue's two-way plate asks for a depth; a box of a millimetre less is doubtful, one of just as much is not.
#[test]
fn a_box_less_deep_than_its_accessory_asks() {
    let asked = exercise(GRANARY).switches.rows()[0].way.box_mm;
    let deep = |mm: f64| {
        GRANARY.replacen(
            "plate: Plastic, ways: [TwoWay]",
            &format!("plate: Plastic, depth_mm: Some({mm:?}), ways: [TwoWay]"),
            1,
        )
    };
    assert!(asked > 11.0);
    assert_eq!(found(&deep(asked)), []);
    assert_eq!(found(&deep(asked - 1.0)), [("box-too-shallow", "\"west\"".to_owned())]);
}

#[test]
fn check_draws_a_doubt_in_its_line_and_finds_nothing_wrong() {
    let bench = Bench::new();
    let three = GRANARY.replace("ways: [Intermediate]", "ways: [TwoWay]");
    bench.file("three.ron", &three);
    let run = bench.run(&["check", "three.ron"]);
    assert_eq!((run.out.as_str(), run.code), ("three.ron: nothing wrong; doubts: 1\n", Some(0)));
    let line = three.lines().position(|it| it.contains("Control(lamp")).expect("a control") + 1;
    let place = format!(
        "doubt: the switches of this lamp have 6 contacts between them; that number of switches needs 8\n  --> three.ron:{line}:"
    );
    assert!(run.err.starts_with(&place), "{}", run.err);
    // What only some variants show says of which.
    let vary = row(RCBO, 9.0, 460.0, "TnCS")
        .replace("stages: [])", "stages: [], vary: [Watts(lamp: \"l1\", among: [460.0, 461.0])])");
    bench.file("vary.ron", &vary);
    let run = bench.run(&["check", "vary.ron"]);
    assert_eq!((run.out.as_str(), run.code), ("vary.ron: nothing wrong; doubts: 4\n", Some(0)));
    // Three lamps too large for their holders, and in some variants the circuit.
    assert!(run.err.contains("(in the exercise of seed "), "{}", run.err);
}

/// The largest lamps that are made for a B22 and an E27 holder take 150 W and 200 W (trade/facts.md, from memory).
#[test]
fn a_lamp_above_what_its_holder_is_made_for() {
    let hot = |text: &str| doubts(&exercise(text)).into_iter().filter(|it| it.kind == DoubtKind::LampTooHot).count();
    let screw = |watts| {
        let text = row(RCBO, 9.0, watts, "TnCS").replace("holder: Bayonet", "holder: Screw");
        text.replace(".1\")", ".centre\")").replace(".2\")", ".outer\")")
    };
    assert_eq!([150.0, 151.0].map(|it| hot(&row(RCBO, 9.0, it, "TnCS"))), [0, 3]);
    assert_eq!([200.0, 201.0].map(|it| hot(&screw(it))), [0, 3]);
}
