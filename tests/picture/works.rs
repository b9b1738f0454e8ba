//! Words for the tests, and works to draw: blank, wired, half done, crowded, and a place that no author would draw.

use std::sync::Arc;

use switchdrop::{
    exercise::{Seed, draw, read_for_states},
    picture::{Label, Words},
    trade::{
        accessory::Holder,
        catalogue::{Listed, Sort, WorkedBy},
        colour::{Colour, Letter, Mark},
    },
    work::{Action, Feel, Power, Work},
};

use crate::installations::{BATHROOM, BATHROOM_WIRED, GRANARY, GRANARY_WIRED, wired};

pub const PASSAGE: &str = include_str!("../../exercises/two-way-passage/scenario.ron");
pub const TESTED: &str = include_str!("../../exercises/one-way-tested/scenario.ron");
pub const CABLES: &str = include_str!("../../exercises/which-cable/scenario.ron");
pub const LETTERS: &str = include_str!("../../exercises/which-terminal/scenario.ron");
pub const ROSE: &str = include_str!("../../exercises/one-way-rose/scenario.ron");

/// English for the tests; what people read is in the catalogue.
pub struct English;

impl Words for English {
    fn say(&self, label: Label<'_>) -> String {
        match label {
            Label::To(place) => format!("to the {place}"),
            Label::PlateFromBehind { gangs: 2.. } => "plate seen from behind: left and right change places".into(),
            Label::PlateFromBehind { .. } => "plate seen from behind".into(),
            Label::Gang { gang, of: 3.. } => format!("switch {}", gang + 1),
            Label::Gang { gang: 0, .. } => "left-hand switch".into(),
            Label::Gang { .. } => "right-hand switch".into(),
            Label::OnlyGang => "switch".into(),
            Label::Worked { by: WorkedBy::Cord, down } => if down { "cord pulled" } else { "cord not pulled" }.into(),
            Label::Worked { by: WorkedBy::Knob, down } => if down { "knob on" } else { "knob off" }.into(),
            Label::Worked { by: WorkedBy::Push, down } => if down { "knob pushed in" } else { "knob out" }.into(),
            Label::Worked { down, .. } => if down { "rocker down" } else { "rocker up" }.into(),
            Label::LidOff => "lid off".into(),
            Label::CoverOff => "cover off".into(),
            Label::TestPoints => "cover on; test points in front".into(),
            Label::CoverLifted => "seen without its cover".into(),
            Label::BoxEarth => "box earth".into(),
            Label::PlateEarth => "plate earth".into(),
            Label::Connector(number) => format!("connector {number}"),
            Label::Rose(place) => ["loop", "neutral", "switched", "earth"][usize::from(place)].into(),
            Label::Contact(Holder::Bayonet, place) => ["contact 1", "contact 2"][usize::from(place)].into(),
            Label::Contact(Holder::Screw, place) => ["centre", "outer"][usize::from(place)].into(),
            Label::DeviceLine => "line".into(),
            Label::DeviceNeutral => "neutral".into(),
            Label::EarthBar => "earth bar".into(),
            Label::UnmarkedCable(place) => format!("cable {}", place + 1),
            Label::UnmarkedTerminal(place) => format!("{}?", place + 1),
            Label::GoesSomewhere => "to be found out".into(),
            Label::NamedByLearner => "as named".into(),
            Label::Slack => "slack".into(),
            Label::Power(Power::On) => "on".into(),
            Label::Power(Power::Off) => "off".into(),
            Label::Power(Power::Tripped) => "tripped".into(),
            Label::Locked => "locked".into(),
            Label::NoLamp => "no lamp".into(),
            Label::Lit => "lit".into(),
            Label::Dim => "dim".into(),
        }
    }
}

pub fn blank(text: &str, seed: u64) -> Work {
    Work::new(Arc::new(draw(text, Seed(seed)).unwrap()))
}

/// With its places open, and some of what has no mark named.
fn named(text: &str, names: &[(&str, &str)]) -> Work {
    let mut work = blank(text, 4);
    let exercise = Arc::clone(work.exercise());
    for it in &exercise.unmarked {
        open(&mut work, &exercise.locations[it.location].id);
    }
    for (at, called) in names {
        act(&mut work, &Action::Name { at: (*at).to_owned(), called: (*called).to_owned() });
    }
    work
}

fn act(work: &mut Work, action: &Action) {
    work.apply(action).unwrap_or_else(|it| panic!("{action:?}: {it:?}"));
}

fn open(work: &mut Work, location: &str) {
    act(work, &Action::RemoveCover { location: location.into() });
}

fn mark(work: &mut Work, end: &str, mark: Mark) {
    act(work, &Action::Mark { end: end.into(), mark });
}

fn connect(work: &mut Work, end: &str, terminal: &str) {
    act(work, &Action::Connect { end: end.into(), terminal: terminal.into() });
}

fn tighten_all(work: &mut Work) {
    for it in work.exercise().terminals.ids() {
        if !work.is_tight(it) {
            let terminal = work.exercise().terminals[it].address.clone();
            act(work, &Action::Tighten { terminal, feel: Feel::Right });
        }
    }
}

/// Three-core joining like to like.
pub fn wired_passage(seed: u64) -> Work {
    let mut work = blank(PASSAGE, seed);
    for it in ["kiln", "clay"] {
        open(&mut work, it);
    }
    act(&mut work, &Action::Disconnect { end: "feed/brown@kiln".into() });
    for end in ["link/black@kiln", "link/black@clay", "link/grey@kiln", "link/grey@clay"] {
        mark(&mut work, end, Mark::Sleeve(Colour::Brown));
    }
    for end in ["link/cpc@kiln", "link/cpc@clay"] {
        mark(&mut work, end, Mark::Sleeve(Colour::GreenYellow));
    }
    for (end, terminal) in [
        ("feed/brown@kiln", "kiln.1.L2"),
        ("link/brown@kiln", "kiln.1.COM"),
        ("link/black@kiln", "kiln.1.L1"),
        ("link/grey@kiln", "kiln.1.L2"),
        ("link/brown@clay", "clay.COM"),
        ("link/black@clay", "clay.L1"),
        ("link/grey@clay", "clay.L2"),
        ("link/cpc@kiln", "kiln.box.earth"),
        ("link/cpc@clay", "clay.box.earth"),
    ] {
        connect(&mut work, end, terminal);
    }
    tighten_all(&mut work);
    work
}

fn wired_rose(seed: u64) -> Work {
    let mut work = blank(ROSE, seed);
    for it in ["rose", "switch"] {
        open(&mut work, it);
    }
    for end in ["feed/brown", "feed/blue", "feed/cpc", "onward/brown", "onward/blue", "onward/cpc"] {
        act(&mut work, &Action::Disconnect { end: format!("{end}@rose") });
    }
    for end in ["drop/blue@rose", "drop/blue@switch"] {
        mark(&mut work, end, Mark::Sleeve(Colour::Brown));
    }
    for end in ["feed/cpc@rose", "onward/cpc@rose", "drop/cpc@rose", "drop/cpc@switch"] {
        mark(&mut work, end, Mark::Sleeve(Colour::GreenYellow));
    }
    for (end, terminal) in [
        ("feed/brown@rose", "rose.loop"),
        ("onward/brown@rose", "rose.loop"),
        ("drop/brown@rose", "rose.loop"),
        ("feed/blue@rose", "rose.neutral"),
        ("onward/blue@rose", "rose.neutral"),
        ("flex/blue@rose", "rose.neutral"),
        ("drop/blue@rose", "rose.switched"),
        ("flex/brown@rose", "rose.switched"),
        ("feed/cpc@rose", "rose.earth"),
        ("onward/cpc@rose", "rose.earth"),
        ("drop/cpc@rose", "rose.earth"),
        ("drop/brown@switch", "switch.COM"),
        ("drop/blue@switch", "switch.L1"),
        ("drop/cpc@switch", "switch.box.earth"),
    ] {
        connect(&mut work, end, terminal);
    }
    tighten_all(&mut work);
    work
}

/// Half done, with one of everything: tape, a letter, links in no, one and two terminals, slack screws, a lamp out, a
/// device locked off, a switch moved, a link of bare copper.
pub fn half_done() -> Work {
    let mut work = blank(PASSAGE, 7);
    for it in ["kiln", "clay", "rose"] {
        open(&mut work, it);
    }
    act(&mut work, &Action::Disconnect { end: "feed/brown@kiln".into() });
    mark(&mut work, "link/grey@kiln", Mark::Letter(Letter::N));
    mark(&mut work, "link/black@kiln", Mark::Letter(Letter::PE));
    mark(&mut work, "link/cpc@kiln", Mark::Tape(Colour::GreenYellow));
    for (colour, times) in [(Colour::GreenYellow, 2), (Colour::Brown, 2), (Colour::Bare, 1), (Colour::Grey, 1)] {
        for _ in 0..times {
            act(&mut work, &Action::MakeUp { location: "kiln".into(), colour });
        }
    }
    for (end, terminal) in [
        ("made-1/a@kiln", "kiln.box.earth"),
        ("made-1/b@kiln", "kiln.connector.2"),
        ("made-3/a@kiln", "kiln.1.COM"),
        ("feed/brown@kiln", "kiln.1.COM"),
        ("link/brown@kiln", "kiln.connector.2"),
        ("link/grey@kiln", "kiln.1.L2"),
    ] {
        connect(&mut work, end, terminal);
    }
    act(&mut work, &Action::RemoveLamp { lamp: "lamp".into() });
    act(&mut work, &Action::PowerOff { device: "board.1".into() });
    act(&mut work, &Action::LockOff { device: "board.1".into() });
    act(&mut work, &Action::Operate { switch: "clay".into(), position: 1 });
    work
}

/// A box made off by hand as nobody should: an end crushed, one too long bare and nicked, one folded, one cut short, one screw
/// slack, a core in the plate's way; and test links, one to another place.
pub fn bad_hand() -> Work {
    let mut work = blank(TESTED, 4);
    let lines = r#"
        RemoveCover(location: "switch")
        Sheath(cable: "feed", location: "switch", mm: 190)
        Sheath(cable: "light", location: "switch", mm: 190)
        Strip(end: "feed/brown@switch", mm: 15, jaw: 75)
        Connect(end: "feed/brown@switch", terminal: "switch.COM")
        Tighten(terminal: "switch.COM", feel: Crushed)
        Cut(end: "light/brown@switch", mm: 120)
        Strip(end: "light/brown@switch", mm: 9, jaw: 100)
        Connect(end: "light/brown@switch", terminal: "switch.L1")
        Tighten(terminal: "switch.L1", feel: Slack)
        Strip(end: "feed/blue@switch", mm: 24, jaw: 75)
        Fold(end: "feed/blue@switch")
        Cut(end: "light/blue@switch", mm: 70)
        Strip(end: "light/blue@switch", mm: 11, jaw: 100)
        FitLink(a: "switch.COM", b: "switch.box.earth")
        FitLink(a: "switch.L1", b: "light/blue@switch")
        FitLink(a: "board.1.line", b: "board.earth")
        FitLink(a: "switch.plate.earth", b: "board.earth")
        FitCover(location: "switch")
    "#;
    does(&mut work, lines);
    work
}

/// Carries out actions, one a line.
pub fn does(work: &mut Work, lines: &str) {
    for line in lines.lines().map(str::trim).filter(|it| !it.is_empty()) {
        act(work, &ron::from_str(line).unwrap_or_else(|it| panic!("{line}: {it}")));
    }
}

/// A place that no author would draw, to see that nothing gives way: the longest names, two boards, seven devices, all
/// on one point of the plan, every cable from below, eight connectors, a screw lampholder, old colours.
fn extreme() -> Work {
    let long = "W".repeat(64);
    let words = "ampersand & <angle> of a very long name which goes on and on now";
    assert!(words.chars().count() == 64);
    let devices: String =
        (1..=7).map(|it| format!("Device(id: \"{it}\", kind: Rcbo6B30, circuit: \"{words}\"),")).collect();
    let cables: String = [
        ("a", "OldThreeCoreEarth", "box", "low-left"),
        ("b", "OldTwinEarth", "box", "low-left"),
        ("c", "OldTwinRedEarth", "box", "low-right"),
        ("d", "TwinBrownEarth", "box", "low-right"),
        ("e", "ThreeCoreEarth", "box", "left"),
        ("f", "ThreeCoreEarth", "box", "left"),
        ("g", "ThreeCoreEarth", "box", "right"),
        ("h", "TwinEarth", "box", "board"),
        ("i", "TwinEarth", "box", "board"),
    ]
    .iter()
    .map(|(id, kind, from, to)| {
        format!("Cable(id: \"{id}\", name: \"{words}\", kind: {kind}, mm2: 1.0, metres: 5.0, from: \"{from}\", to: \"{to}\"),")
    })
    .collect();
    let plate = "Box(body: Plastic, plate: Metal, ways: [TwoWay, OneWay], connectors: Some(8))";
    let places: String = [
        ("box", 0, 0, plate),
        ("low-left", -1, 90, "Rose"),
        ("low-right", 1, 90, "Rose"),
        ("left", -900, 0, "Rose"),
        ("right", 900, 0, plate),
        ("lamp", 0, 0, "Luminaire(holder: Screw, lamp: Led, watts: 5.0)"),
    ]
    .iter()
    .map(|(id, x, y, has)| format!("Location(id: \"{id}\", name: \"{words}\", at: ({x}, {y}), has: {has}),"))
    .collect();
    let text = format!(
        "Scenario(format: 1, id: \"extreme\", title: \"{words}\", place: \"{words}\", brief: \"b\", edition: A2of2022,
        earthing: TnCS, locations: [
            Location(id: \"board\", name: \"{long}\", at: (0, -90), has: Board(devices: [{devices}])),
            {places}
        ], cables: [{cables}
            Cable(id: \"flex\", name: \"f\", kind: PendantFlex, mm2: 0.75, metres: 0.5, from: \"left\", to: \"lamp\"),
        ], connected: [], controls: [Control(lamp: \"lamp\", switches: [\"box.1\"])], stages: [], predict: [], vary: [])"
    );
    blank(&text, 1)
}

/// Many links: forty in the tray, forty with one end in a terminal.
fn crowded() -> Work {
    let mut work = blank(PASSAGE, 3);
    open(&mut work, "kiln");
    for _ in 0..44 {
        act(&mut work, &Action::MakeUp { location: "kiln".into(), colour: Colour::Blue });
    }
    for number in 1..=4 {
        connect(&mut work, &format!("made-{number}/b@kiln"), "kiln.1.L2");
    }
    work
}

/// A wiring of a test's scenario, open to the eye.
fn installed(scenario: &str, lines: &str) -> Work {
    wired(scenario, lines).work().clone()
}

/// Every plate of the catalogue in a box of its own, four gangs of each that may, and each junction box, all with a cable.
fn plates() -> Work {
    use std::fmt::Write;

    let mut places = String::new();
    let mut cables = String::new();
    for (index, it) in Listed::all().enumerate() {
        let has = match it.sort {
            Sort::Plate { gangs, .. } => {
                let ways = vec![it.id.as_str(); usize::from(gangs)].join(", ");
                format!("Box(body: Metal, plate: Metal, ways: [{ways}], connectors: Some(1))")
            }
            Sort::JunctionBox { .. } => format!("JunctionBox(kind: {})", it.id),
            Sort::TimerFan => format!("Fan(kind: {}, watts: 20.0, with: \"lamp\")", it.id),
            Sort::Connector { .. } => continue,
        };
        // One-way switches, or there would be more combinations than are tried.
        let has = if has.contains("TwoWay, ") || has.contains("Intermediate, ") || has.contains("Dimmer, ") {
            has.replace(&format!("{0}, {0}, {0}, {0}", it.id), &it.id)
        } else {
            has
        };
        let (x, y) = (20 * (index % 4), 30 * (index / 4));
        write!(places, "Location(id: \"at-{index}\", name: \"place {index}\", at: ({x}, {y}), has: {has}),").unwrap();
        write!(
            cables,
            "Cable(id: \"c-{index}\", name: \"cable {index}\", kind: TwinEarth, mm2: 1.0, metres: 3.0, from: \"board\", to: \"at-{index}\"),"
        )
        .unwrap();
    }
    let text = format!(
        "Scenario(format: 1, id: \"plates\", title: \"t\", place: \"p\", brief: \"b\", edition: A2of2022, earthing: TnCS,
        locations: [
            Location(id: \"board\", name: \"board\", at: (-20, 60), has: Board(devices: [
                Device(id: \"rcd\", kind: Rcd30, circuit: \"all\"),
                Device(id: \"1\", kind: Mcb32C, circuit: \"everything\", behind: Some(\"rcd\")),
            ])),
            Location(id: \"lamp\", name: \"lamp\", at: (90, 60), has: Luminaire(holder: Bayonet, lamp: Led, watts: 5.0)),
            {places}
        ], cables: [{cables}], controls: [Control(lamp: \"lamp\", switches: [\"at-0.1\"])], stages: [])"
    );
    // Each switch of the catalogue doubles the combinations; nothing here is marked, so that only what is listed limits them.
    Work::new(Arc::new(read_for_states(&text, Seed(1)).unwrap()))
}

pub fn works() -> Vec<(&'static str, Work)> {
    vec![
        ("passage-blank", blank(PASSAGE, 1)),
        ("passage-wired", wired_passage(1)),
        ("passage-wired-metal", wired_passage(4)),
        ("passage-half", half_done()),
        ("passage-crowded", crowded()),
        ("tested-blank", blank(TESTED, 4)),
        ("tested-bad-hand", bad_hand()),
        ("rose-blank", blank(ROSE, 1)),
        ("rose-wired", wired_rose(2)),
        ("granary-blank", blank(GRANARY, 1)),
        ("granary-wired", installed(GRANARY, GRANARY_WIRED)),
        ("bathroom-blank", blank(BATHROOM, 1)),
        ("bathroom-wired", installed(BATHROOM, BATHROOM_WIRED)),
        ("cables-blank", blank(CABLES, 4)),
        ("cables-named", named(CABLES, &[("drop@joint", "light"), ("feed@joint", "feed")])),
        ("letters-named", named(LETTERS, &[("switch.L2", "switch.COM")])),
        ("plates", plates()),
        ("extreme", extreme()),
    ]
}
