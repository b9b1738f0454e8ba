//! The largest work that the marker takes, right and with slips, everything loose, everything in one terminal: each is
//! marked in under a second, however it stands, and a hint on it given in a quarter of one, which no frame waits for: the window asks beside
//! its frames. On an exercise of a few places a hint takes less than a frame. `cargo bench --no-default-features --features program --bench aims -- budget` measures this alone.

use std::{
    hint::black_box,
    sync::Arc,
    time::{Duration, Instant},
};

use switchdrop::{
    attempt::{Attempt, Mode, open},
    exercise::{EndId, Seed, read},
    marking::{Hint, Sheet, hint, mark},
    trade::colour::{Colour, Mark},
    work::{Action, Edit, Work},
};

use crate::{Table, attempts::each_slip, jobs::wirings::Dice};

/// Lights, each on a circuit of its own and worked from this number of places, and this number of devices besides.
struct House {
    name: &'static str,
    /// For each circuit its switches.
    lights: Vec<usize>,
    /// Whether one residual current device stands in front of all.
    behind_one: bool,
    /// Devices with nothing behind them.
    idle: usize,
    /// Cables beside each other where one would do.
    beside: usize,
    earthing: &'static str,
}

fn houses() -> Vec<House> {
    let house = |name, lights: &[usize], behind_one| House {
        name,
        lights: lights.to_vec(),
        behind_one,
        idle: 0,
        beside: 1,
        earthing: "TnCS",
    };
    vec![
        house("12 switches of one light (4,096)", &[12], false),
        house("12 lights behind one device (4,096)", &[1; 12], true),
        House { earthing: "TnS", ..house("the same, TN-S", &[1; 12], true) },
        house("6 two-way lights behind one device (4,096)", &[2; 6], true),
        House { idle: 51, ..house("64 devices, 12 lights (4,096)", &[1; 12], true) },
        House {
            beside: 7,
            ..house("256 cables, 12 lights behind one (4,096)", &[1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1], true)
        },
        House { beside: 16, ..house("256 cables, 4 lights", &[3, 3, 3, 3], false) },
    ]
}

impl House {
    /// The scenario, and for each end of the learner's the terminal it belongs in.
    #[allow(clippy::too_many_lines, reason = "one scenario, place by place")]
    fn written(&self) -> (String, Vec<(String, String)>) {
        let (mut devices, mut places, mut cables) = (Vec::new(), Vec::new(), Vec::new());
        let (mut connected, mut controls, mut belongs) = (Vec::new(), Vec::new(), Vec::new());
        let mut count = 0;
        if self.behind_one {
            devices.push("Device(id: \"all\", kind: Rcd30, circuit: \"all\")".to_owned());
        }
        let kind = if self.behind_one { "kind: Mcb6B, behind: Some(\"all\")" } else { "kind: Rcbo6B30" };
        for it in 0..self.lights.len() + self.idle {
            devices.push(format!("Device(id: \"{it}\", {kind}, circuit: \"light {it}\")"));
        }
        for (circuit, switches) in self.lights.iter().enumerate() {
            let at = |it: usize| format!("b{circuit}-{it}");
            let lamp = format!("lamp{circuit}");
            let last = switches - 1;
            for it in 0..=last {
                let way = match (it, switches) {
                    (_, 1) => "OneWay",
                    (0, _) => "TwoWay",
                    _ if it == last => "TwoWay",
                    _ => "Intermediate",
                };
                places.push(format!(
                    "Location(id: \"{0}\", name: \"box {0}\", at: ({1}, {2}), has: Box(body: Metal, lugs: Some(OneFixed), plate: Plastic, ways: [{way}], connectors: Some(4)))",
                    at(it),
                    9 * it,
                    9 * circuit
                ));
            }
            places.push(format!(
                "Location(id: \"{lamp}\", name: \"light {circuit}\", at: (150, {}), has: Luminaire(holder: Bayonet, lamp: Filament, watts: 60.0))",
                9 * circuit
            ));
            let mut cable = |id: String, kind: &str, mm2: &str, from: &str, to: &str| {
                count += 1;
                cables.push(format!("Cable(id: \"{id}\", name: \"cable {id}\", kind: {kind}, mm2: {mm2}, metres: 4.5, from: \"{from}\", to: \"{to}\")"));
            };
            let mut put = |end: String, to: String| belongs.push((end, to));
            let feed = format!("f{circuit}");
            cable(feed.clone(), "TwinEarth", "1.5", "board", &at(0));
            for (core, terminal) in [
                ("brown", format!("{circuit}.line")),
                ("blue", format!("{circuit}.neutral")),
                ("cpc", "earth".to_owned()),
            ] {
                connected.push(format!("Connected(end: \"{feed}/{core}@board\", at: \"board.{terminal}\")"));
            }
            put(format!("{feed}/brown@{}", at(0)), format!("{}.COM", at(0)));
            put(format!("{feed}/blue@{}", at(0)), format!("{}.connector.1", at(0)));
            put(format!("{feed}/cpc@{}", at(0)), format!("{}.box.earth", at(0)));
            for next in 1..=last {
                let (from, to) = (at(next - 1), at(next));
                let out = if next == 1 { ["L1", "L2"] } else { ["B1", "B2"] };
                let into = if next == last { ["L1", "L2"] } else { ["A1", "A2"] };
                for it in 0..self.beside {
                    let id = format!("c{circuit}-{next}-{it}");
                    cable(id.clone(), "ThreeCoreEarth", "1.0", &from, &to);
                    for (core, place, terminal) in [
                        ("brown", &from, out[0]),
                        ("brown", &to, into[0]),
                        ("black", &from, out[1]),
                        ("black", &to, into[1]),
                        ("grey", &from, "connector.1"),
                        ("grey", &to, "connector.1"),
                        ("cpc", &from, "box.earth"),
                        ("cpc", &to, "box.earth"),
                    ] {
                        put(format!("{id}/{core}@{place}"), format!("{place}.{terminal}"));
                    }
                }
            }
            let flex = format!("x{circuit}");
            cable(flex.clone(), "PendantFlex", "0.75", &at(last), &lamp);
            for (core, contact, terminal) in
                [("brown", 1, if *switches == 1 { "L1" } else { "COM" }), ("blue", 2, "connector.1")]
            {
                connected.push(format!("Connected(end: \"{flex}/{core}@{lamp}\", at: \"{lamp}.{contact}\")"));
                put(format!("{flex}/{core}@{}", at(last)), format!("{}.{terminal}", at(last)));
            }
            let places: Vec<String> = (0..=last).map(|it| format!("\"{}\"", at(it))).collect();
            controls.push(format!("Control(lamp: \"{lamp}\", switches: [{}])", places.join(", ")));
        }
        // Spare ones from box to box make the number up.
        while self.beside > 1 && count < 256 {
            let [from, to] = [count, count + 1].map(|it| format!("b{}-0", it % self.lights.len()));
            cables.push(format!("Cable(id: \"s{count}\", name: \"spare {count}\", kind: TwinEarth, mm2: 1.0, metres: 4.5, from: \"{from}\", to: \"{to}\")"));
            for place in [&from, &to] {
                for (core, terminal) in [("brown", "connector.2"), ("blue", "connector.3"), ("cpc", "box.earth")] {
                    belongs.push((format!("s{count}/{core}@{place}"), format!("{place}.{terminal}")));
                }
            }
            count += 1;
        }
        let text = format!(
            "Scenario(format: 1, id: \"budget\", title: \"t\", place: \"p\", brief: \"b\", edition: A2of2022, earthing: {}, \
             locations: [Location(id: \"board\", name: \"board\", at: (0, 900), has: Board(devices: [{}])), {}], cables: [{}], \
             connected: [{}], controls: [{}], stages: [])",
            self.earthing,
            devices.join(", "),
            places.join(", "),
            cables.join(", "),
            connected.join(", "),
            controls.join(", ")
        );
        (text, belongs)
    }

    /// Everything where it belongs, and marked as it should be, handed in or not; and the ends of the learner's.
    fn right(&self, handed_in: bool) -> (Attempt, Vec<EndId>) {
        let (text, belongs) = self.written();
        let exercise = Arc::new(read(&text, Seed(0)).unwrap_or_else(|it| panic!("{}: {it:.0?}", self.name)));
        let mut attempt = Attempt::new(exercise);
        if handed_in {
            attempt.act(Action::HandIn).expect("a hand-in");
        }
        let work = attempt.work();
        let mut edits = Vec::new();
        let mut ends = Vec::new();
        for (end, terminal) in &belongs {
            let at = work.end(end).unwrap_or_else(|_| panic!("{end}"));
            ends.push(at);
            edits.push(Edit::Move(at, Some(work.terminal(terminal).unwrap_or_else(|_| panic!("{terminal}")))));
            let mark = match end.split(['/', '@']).nth(1) {
                Some("cpc") => Some(Colour::GreenYellow),
                Some("black") => Some(Colour::Brown),
                Some("grey") => Some(Colour::Blue),
                _ => None,
            };
            edits.push(Edit::Mark(at, mark.map(Mark::Sleeve)));
        }
        (attempt.supposing(&edits), ends)
    }
}

/// Two ends of one place in each other's terminals.
fn exchange(work: &Work, ends: &[EndId], dice: &mut Dice) -> Vec<Edit> {
    loop {
        let (a, b) = (ends[dice.below(ends.len())], ends[dice.below(ends.len())]);
        if work.end_location(a) == work.end_location(b) && work.terminal_of(a) != work.terminal_of(b) {
            return vec![Edit::Move(a, work.terminal_of(b)), Edit::Move(b, work.terminal_of(a))];
        }
    }
}

/// The ways it may stand.
fn stands(right: &Attempt, ends: &[EndId]) -> Vec<(String, Attempt)> {
    let work = right.work();
    let mut dice = Dice(0x6275_6467);
    let mut all = vec![("right".to_owned(), right.clone())];
    for (slips, count) in [("one slip", 1), ("two slips", 2), ("many slips", 12)] {
        for number in 0..4 {
            let mut slipped = right.clone();
            for _ in 0..count {
                slipped = slipped.supposing(&exchange(slipped.work(), ends, &mut dice));
            }
            all.push((format!("{slips} {number}"), slipped));
        }
    }
    let loose: Vec<Edit> = ends.iter().map(|it| Edit::Move(*it, None)).collect();
    all.push(("everything loose".to_owned(), right.supposing(&loose)));
    let first = |it: &EndId| work.exercise().terminals_at(work.end_location(*it)).next();
    let heaped: Vec<Edit> = ends.iter().map(|it| Edit::Move(*it, first(it))).collect();
    all.push(("everything in one terminal".to_owned(), right.supposing(&heaped)));
    all
}

/// Marks each once and keeps the slowest of each house to the aim.
pub fn measure(table: &mut Table) {
    // One house alone, by a word of its name, and of how it stands, where one is asked for.
    let after = |word: &str| std::env::args().skip_while(|it| it != word).nth(1);
    let (only, stand) = (after("house"), after("stand"));
    for house in houses().into_iter().filter(|it| only.as_ref().is_none_or(|only| it.name.contains(only.as_str()))) {
        let (right, ends) = house.right(true);
        let found: Sheet = mark(&right, Mode::Set);
        let cables = right.work().exercise().cables.len();
        let wrong: Vec<&str> = found.findings.iter().map(|it| it.code.word()).collect();
        assert!(!wrong.iter().any(|it| matches!(*it, "control-wrong" | "loose-end-live")), "{}: {wrong:?}", house.name);
        let is_asked = |it: &(String, Attempt)| stand.as_ref().is_none_or(|stand| it.0.contains(stand.as_str()));
        let every = std::env::args().any(|it| it == "every");
        let mut slowest = (Duration::ZERO, String::new());
        for (how, attempt) in stands(&right, &ends).into_iter().filter(is_asked) {
            let start = Instant::now();
            let sheet = mark(&attempt, Mode::Set);
            let took = start.elapsed();
            if every {
                let causes = sheet.findings.iter().filter(|found| found.lost > 0).map(|found| found.code.word());
                println!("  {:<44} {how:<28} {took:>10.1?}  {:?}", house.name, causes.collect::<Vec<_>>());
            }
            if took > slowest.0 {
                slowest = (took, how);
            }
        }
        let note = format!("({}, {cables} cables)", slowest.1);
        table.most(&format!("marked: {}", house.name), 1000.0, slowest.0.as_secs_f64() * 1e3, "ms", &note);
        // A hint is asked for while the work is still going on.
        let mut slowest = (Duration::ZERO, String::new());
        for (how, attempt) in stands(&house.right(false).0, &ends).into_iter().filter(is_asked) {
            let start = Instant::now();
            let said = hint(&attempt);
            let took = start.elapsed();
            if every {
                let said = match said {
                    Hint::SoFarRight => "so far right",
                    Hint::Look(it) | Hint::Wrong(it) => it.code.word(),
                };
                println!("  {:<44} hint, {how:<22} {took:>10.1?}  {said}", house.name);
            }
            if took > slowest.0 {
                slowest = (took, how);
            }
        }
        table.most(
            &format!("hint: {}", house.name),
            250.0,
            slowest.0.as_secs_f64() * 1e3,
            "ms",
            &format!("({})", slowest.1),
        );
    }
    if only.is_none() {
        let texts = each_slip();
        let slowest = texts.iter().map(|text| {
            let attempt = open(text).expect("an attempt").replay().expect("an attempt that can be done");
            let start = Instant::now();
            black_box(hint(&attempt));
            start.elapsed()
        });
        let slowest = slowest.max().unwrap_or_default().as_secs_f64() * 1e3;
        table.most("hint: the two-way exercise with a slip", 16.0, slowest, "ms", "");
    }
}
