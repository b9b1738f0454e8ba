//! Wirings of contacts without a scenario: n-way lighting of any length, slips in it, and random ones; and one work with
//! as many switches as wanted. Used by the tests
//! and, by its path, by the benches.

use std::sync::Arc;

use switchdrop::{
    circuit::{Contacts, Pairs, Supplied},
    exercise::{Exercise, Seed, read_for_states},
    work::Work,
};

/// Numbers that are the same in every run (Marsaglia's xorshift, 64 bits).
pub struct Dice(pub u64);

impl Dice {
    /// A number below `n`.
    pub fn below(&mut self, n: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 16) as usize % n
    }
}

/// Line, neutral, the lamp's two contacts; then what the wiring needs.
pub const LINE: usize = 0;
pub const NEUTRAL: usize = 1;
pub const LAMP: [usize; 2] = [2, 3];
pub const FIRST: usize = 4;

/// The terminals of a switch, and which of them it joins in each position.
pub type Plate = (usize, Vec<Pairs>);

/// COM to L1 or to L2.
pub fn two_way() -> Plate {
    (3, vec![vec![(0, 1)], vec![(0, 2)]])
}

/// Straight or crossed.
pub fn intermediate() -> Plate {
    (4, vec![vec![(0, 2), (1, 3)], vec![(0, 3), (1, 2)]])
}

/// Plates, and conductors between nets: 0 to 3 as above, then the plates' terminals in order.
#[derive(Clone)]
pub struct Wiring {
    pub plates: Vec<Plate>,
    pub conductors: Vec<(usize, usize)>,
}

impl Wiring {
    /// One light from `n` switches, at least two: two-way at the ends, intermediate between.
    pub fn n_way(n: usize) -> Self {
        let mut plates = vec![two_way()];
        plates.extend((2..n).map(|_| intermediate()));
        plates.push(two_way());
        let at = |plate: usize| FIRST + plates[..plate].iter().map(|it| it.0).sum::<usize>();
        let last = at(n - 1);
        let mut conductors = vec![(LINE, at(0)), (last, LAMP[0]), (LAMP[1], NEUTRAL)];
        for plate in 1..n {
            // Strappers leave a two-way at L1 and L2, an intermediate at its third and fourth terminal.
            let from = if plate == 1 { at(0) + 1 } else { at(plate - 1) + 2 };
            let to = if plate == n - 1 { last + 1 } else { at(plate) };
            conductors.extend([(from, to), (from + 1, to + 1)]);
        }
        Self { plates, conductors }
    }

    /// As many plates and conductors as n-way lighting has, every conductor's ends anywhere.
    pub fn random(n: usize, dice: &mut Dice) -> Self {
        let mut wiring = Self::n_way(n);
        let nets = wiring.nets();
        for it in &mut wiring.conductors {
            *it = (dice.below(nets), dice.below(nets));
        }
        wiring
    }

    /// The same with some ends moved anywhere.
    pub fn slipped(&self, slips: usize, dice: &mut Dice) -> Self {
        let mut wiring = self.clone();
        for _ in 0..slips {
            let to = dice.below(self.nets());
            let at = dice.below(self.conductors.len());
            wiring.conductors[at].0 = to;
        }
        wiring
    }

    /// The same with two neighbouring conductors' first ends exchanged.
    pub fn exchanged(&self, dice: &mut Dice) -> Self {
        let mut wiring = self.clone();
        let at = dice.below(self.conductors.len() - 1);
        let first = wiring.conductors[at].0;
        wiring.conductors[at].0 = wiring.conductors[at + 1].0;
        wiring.conductors[at + 1].0 = first;
        wiring
    }

    pub fn nets(&self) -> usize {
        FIRST + self.plates.iter().map(|it| it.0).sum::<usize>()
    }

    pub fn contacts(&self) -> Contacts {
        let mut contacts = Contacts::new(self.nets());
        for (a, b) in &self.conductors {
            contacts.join(*a, *b);
        }
        let mut at = FIRST;
        for (terminals, positions) in &self.plates {
            let moved = |pairs: &Pairs| pairs.iter().map(|(a, b)| (a + at, b + at)).collect();
            contacts.switch(positions.iter().map(moved).collect());
            at += terminals;
        }
        contacts
    }
}

/// One device, no earth bar, one lamp.
pub fn supplied() -> Supplied {
    Supplied { devices: vec![[LINE, NEUTRAL]], earth: Vec::new(), lamp: LAMP }
}

/// Twelve lights, each from three or four places and on a circuit of its own: forty switches. `common`: behind two residual
/// current devices, six circuits each, and not each behind its own. Metal boxes and plates, all earthed.
#[allow(clippy::format_push_string, reason = "texts of a few lines, built once")]
pub fn house(common: bool) -> Work {
    let (mut devices, mut locations, mut cables, mut connected, mut controls) =
        (String::new(), String::new(), String::new(), String::new(), String::new());
    for it in ["a", "b"].iter().filter(|_| common) {
        devices += &format!("Device(id: \"{it}\", kind: Rcd30, circuit: \"side {it}\"),");
    }
    for circuit in 0..12 {
        let (kind, behind) = match (common, circuit < 6) {
            (false, _) => ("Rcbo6B30", ""),
            (true, true) => ("Mcb6B", ", behind: Some(\"a\")"),
            (true, false) => ("Mcb6B", ", behind: Some(\"b\")"),
        };
        devices += &format!("Device(id: \"{circuit}\", kind: {kind}, circuit: \"light {circuit}\"{behind}),");
        let last = if circuit < 4 { 3 } else { 2 };
        let mut join = |cable: String, core: &str, ends: [(String, &str); 2]| {
            for (place, terminal) in ends {
                connected += &format!("Connected(end: \"{cable}/{core}@{place}\", at: \"{place}.{terminal}\"),\n");
            }
        };
        let (board, lamp) = ("board".to_owned(), format!("lamp{circuit}"));
        let at = |it: usize| format!("b{circuit}-{it}");
        let feed = format!("feed{circuit}");
        cables += &format!(
            "Cable(id: \"{feed}\", name: \"feed\", kind: TwinEarth, mm2: 1.5, metres: 9.5, from: \"board\", to: \"{}\"),",
            at(0)
        );
        let (line, neutral) = (format!("{circuit}.line"), format!("{circuit}.neutral"));
        join(feed.clone(), "brown", [(board.clone(), &line), (at(0), "COM")]);
        join(feed.clone(), "blue", [(board.clone(), &neutral), (at(0), "connector.1")]);
        join(feed, "cpc", [(board, "earth"), (at(0), "plate.earth")]);
        for it in 0..=last {
            let way = if it == 0 || it == last { "TwoWay" } else { "Intermediate" };
            locations += &format!(
                "Location(id: \"{}\", name: \"box\", at: ({it}, {circuit}), \
                 has: Box(body: Metal, plate: Metal, ways: [{way}], connectors: Some(1))),\n",
                at(it)
            );
            if it > 0 {
                let cable = format!("c{circuit}-{it}");
                cables += &format!(
                    "Cable(id: \"{cable}\", name: \"c\", kind: ThreeCoreEarth, mm2: 1.0, metres: {it}.5, from: \"{}\", to: \"{}\"),",
                    at(it - 1),
                    at(it)
                );
                let from = if it == 1 { ["L1", "L2"] } else { ["B1", "B2"] };
                let to = if it == last { ["L1", "L2"] } else { ["A1", "A2"] };
                join(cable.clone(), "brown", [(at(it - 1), "connector.1"), (at(it), "connector.1")]);
                join(cable.clone(), "black", [(at(it - 1), from[0]), (at(it), to[0])]);
                join(cable.clone(), "grey", [(at(it - 1), from[1]), (at(it), to[1])]);
                join(cable, "cpc", [(at(it - 1), "box.earth"), (at(it), "plate.earth")]);
            }
        }
        let switches: Vec<String> = (0..=last).map(|it| format!("\"{}\"", at(it))).collect();
        controls += &format!("Control(lamp: \"{lamp}\", switches: [{}]),", switches.join(", "));
        let flex = format!("flex{circuit}");
        locations += &format!(
            "Location(id: \"{lamp}\", name: \"lamp\", at: (9, {circuit}), \
             has: Luminaire(holder: Bayonet, lamp: Filament, watts: 60.0)),"
        );
        cables += &format!(
            "Cable(id: \"{flex}\", name: \"flex\", kind: PendantFlex, mm2: 0.75, metres: 0.8, from: \"{}\", to: \"{lamp}\"),",
            at(last)
        );
        join(flex.clone(), "brown", [(at(last), "COM"), (lamp.clone(), "1")]);
        join(flex, "blue", [(at(last), "connector.1"), (lamp, "2")]);
    }
    let text = format!(
        "Scenario(format: 1, id: \"house\", title: \"t\", place: \"p\", brief: \"b\", edition: A2of2022, earthing: TnCS,
locations: [Location(id: \"board\", name: \"board\", at: (0, 40), has: Board(devices: [{devices}])), {locations}],
cables: [{cables}], connected: [{connected}], controls: [{controls}], stages: [], predict: [], vary: [])"
    );
    let exercise: Exercise = read_for_states(&text, Seed(1)).unwrap_or_else(|it| panic!("{it:?}\n{text}"));
    Work::new(Arc::new(exercise))
}

/// One light from pairs of two-way switches, each pair in line after the last: `2 * pairs` switches.
#[allow(clippy::format_push_string, reason = "texts of a few lines, built once")]
pub fn in_line(pairs: usize) -> Work {
    let mut locations = String::new();
    let mut cables = String::new();
    let mut connected = String::new();
    let join = |connected: &mut String, cable: &str, core: &str, ends: [(&str, &str); 2]| {
        for (place, terminal) in ends {
            *connected += &format!("Connected(end: \"{cable}/{core}@{place}\", at: \"{place}.{terminal}\"),\n");
        }
    };
    for it in 0..pairs * 2 {
        let at = it * 8;
        locations += &format!(
            "Location(id: \"b{it}\", name: \"box {it}\", at: ({at}, 0), has: Box(body: Plastic, plate: Plastic, ways: [TwoWay])),\n"
        );
        if it > 0 {
            let before = it - 1;
            cables += &format!(
                "Cable(id: \"c{it}\", name: \"cable {it}\", kind: ThreeCoreEarth, mm2: 1.0, metres: {it}.5, from: \"b{before}\", to: \"b{it}\"),\n"
            );
            let (from, to) = (format!("b{before}"), format!("b{it}"));
            let cable = format!("c{it}");
            if it % 2 == 1 {
                join(&mut connected, &cable, "black", [(&from, "L1"), (&to, "L1")]);
                join(&mut connected, &cable, "grey", [(&from, "L2"), (&to, "L2")]);
            } else {
                join(&mut connected, &cable, "brown", [(&from, "COM"), (&to, "COM")]);
            }
        }
    }
    let last = pairs * 2 - 1;
    let text = format!(
        "Scenario(format: 1, id: \"in-line\", title: \"t\", place: \"p\", brief: \"b\", edition: A2of2022, earthing: TnCS,
locations: [
Location(id: \"board\", name: \"board\", at: (0, 40), has: Board(devices: [Device(id: \"1\", kind: Rcbo6B30, circuit: \"lights\")])),
Location(id: \"rose\", name: \"rose\", at: (40, 40), has: Rose),
Location(id: \"lamp\", name: \"lamp\", at: (40, 60), has: Luminaire(holder: Bayonet, lamp: Filament, watts: 60.0)),
{locations}],
cables: [
Cable(id: \"feed\", name: \"feed\", kind: TwinEarth, mm2: 1.5, metres: 8.0, from: \"board\", to: \"rose\"),
Cable(id: \"flex\", name: \"flex\", kind: PendantFlex, mm2: 0.75, metres: 0.8, from: \"rose\", to: \"lamp\"),
Cable(id: \"to\", name: \"to\", kind: TwinEarth, mm2: 1.0, metres: 5.0, from: \"rose\", to: \"b0\"),
Cable(id: \"back\", name: \"back\", kind: TwinEarth, mm2: 1.0, metres: 5.0, from: \"b{last}\", to: \"rose\"),
{cables}],
connected: [
Connected(end: \"feed/brown@board\", at: \"board.1.line\"), Connected(end: \"feed/blue@board\", at: \"board.1.neutral\"),
Connected(end: \"feed/brown@rose\", at: \"rose.loop\"), Connected(end: \"feed/blue@rose\", at: \"rose.neutral\"),
Connected(end: \"to/brown@rose\", at: \"rose.loop\"), Connected(end: \"to/brown@b0\", at: \"b0.COM\"),
Connected(end: \"back/brown@b{last}\", at: \"b{last}.COM\"), Connected(end: \"back/brown@rose\", at: \"rose.switched\"),
Connected(end: \"flex/brown@rose\", at: \"rose.switched\"), Connected(end: \"flex/blue@rose\", at: \"rose.neutral\"),
Connected(end: \"flex/brown@lamp\", at: \"lamp.1\"), Connected(end: \"flex/blue@lamp\", at: \"lamp.2\"),
{connected}],
controls: [Control(lamp: \"lamp\", switches: [\"b0\"])], stages: [], predict: [], vary: [])"
    );
    let exercise: Exercise = read_for_states(&text, Seed(1)).unwrap_or_else(|it| panic!("{it:?}\n{text}"));
    Work::new(Arc::new(exercise))
}
