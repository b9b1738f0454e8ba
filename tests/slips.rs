//! Every single slip from each accepted wiring, judged by the marker and by an independent oracle.
//!
//! The oracle knows nothing of the marker: it joins nodes with a graph library's disjoint sets (petgraph), counts every
//! combination out, and looks colours up in a table of its own (BS 7671 Table 51). A slip that it finds harmless must cost
//! nothing; one that it finds wrong must cost marks, at one root.

use petgraph::unionfind::UnionFind;
use switchdrop::{
    attempt::Mode,
    exercise::{EndId, LocationKind, TerminalId, TerminalUse},
    marking::{Outcome, Root, Sheet, Weight, mark},
    trade::colour::{Colour, Letter, Mark},
    work::{Edit, Point, Work},
};

use crate::{
    hand::{Hand, accepted},
    installations::{BATHROOM, BATHROOM_WIRED, GRANARY, GRANARY_WIRED, wired},
};

pub struct Oracle<'a> {
    pub work: &'a Work,
}

impl Oracle<'_> {
    fn joined(&self, positions: &[u8], protective_too: bool, live_too: bool) -> UnionFind<usize> {
        let exercise = self.work.exercise();
        let mut sets = UnionFind::new(exercise.terminals.len() + self.work.ends().count());
        for conductor in 0..self.work.conductor_count() {
            let [a, b] = self.work.ends_of(conductor).unwrap();
            let protective = matches!(self.work.end_facts(a).colour, Colour::Bare | Colour::GreenYellow);
            if if protective { protective_too } else { live_too } {
                sets.union(self.node(a), self.node(b));
            }
        }
        for (switch, position) in exercise.switches.iter().zip(positions) {
            let t = &switch.terminals;
            let pairs: &[(usize, usize)] = match (switch.way.id.as_str(), position) {
                ("OneWay" | "PullCord", 1) | ("TwoWay" | "PullCordTwoWay" | "DimmerTwoWay", 0) => &[(0, 1)],
                ("TwoWay" | "PullCordTwoWay" | "DimmerTwoWay", 1) => &[(0, 2)],
                ("Intermediate", 0) => &[(0, 2), (1, 3)],
                ("Intermediate", 1) => &[(0, 3), (1, 2)],
                ("DoublePole", 1) => &[(0, 1), (2, 3)],
                ("FanIsolator", 1) => &[(0, 1), (2, 3), (4, 5)],
                ("OneWay" | "PullCord" | "DoublePole" | "FanIsolator", 0) => &[],
                other => panic!("the oracle does not know {other:?}"),
            };
            for (a, b) in pairs {
                sets.union(t[*a].index(), t[*b].index());
            }
        }
        sets
    }

    fn node(&self, end: EndId) -> usize {
        self.work.terminal_of(end).map_or(self.work.exercise().terminals.len() + end.index(), TerminalId::index)
    }

    fn settings(&self) -> Vec<Vec<u8>> {
        let count = self.work.exercise().switches.len();
        (0..1_u32 << count).map(|n| (0..count).map(|bit| (n >> (count - 1 - bit) & 1) as u8).collect()).collect()
    }

    fn earth(&self) -> usize {
        let bar = |it: &switchdrop::exercise::Terminal| it.used_by == TerminalUse::EarthBar;
        self.work.exercise().terminals.iter().position(bar).unwrap()
    }

    /// What is wrong, if anything.
    pub fn wrong(&self) -> Option<&'static str> {
        let exercise = self.work.exercise();
        let settings = self.settings();
        let linked = exercise.switches.iter().any(|it| it.way.id == "DoublePole");
        let mut lit = Vec::new();
        for setting in &settings {
            let sets = self.joined(setting, true, true);
            let mut bars = vec![self.earth()];
            bars.extend(exercise.devices.iter().flat_map(|it| [it.line.index(), it.neutral.index()]));
            for (i, a) in bars.iter().enumerate() {
                if bars[i + 1..].iter().any(|b| sets.equiv(*a, *b)) {
                    return Some("a short, or circuits joined");
                }
            }
            let mut row = Vec::new();
            for lamp in &exercise.lamps {
                let on = |t: TerminalId, neutral: bool| {
                    exercise.devices.iter().position(|it| {
                        sets.equiv(t.index(), if neutral { it.neutral.index() } else { it.line.index() })
                    })
                };
                let [a, b] = lamp.contacts;
                let (neutral, line) = match (on(a, true), on(b, true)) {
                    (Some(n), None) => (n, on(b, false)),
                    (None, Some(n)) => (n, on(a, false)),
                    // Both poles of a linked switch open.
                    (None, None) if linked && on(a, false).or(on(b, false)).is_none() => {
                        row.push(false);
                        continue;
                    }
                    _ => return Some("a neutral is not where it belongs"),
                };
                if line.is_some_and(|it| it != neutral) {
                    return Some("a borrowed neutral");
                }
                row.push(line.is_some());
            }
            if let Some(why) = self.fan_wrong(&sets, setting, &row) {
                return Some(why);
            }
            lit.push(row);
        }
        for control in &exercise.controls {
            for (here, setting) in settings.iter().enumerate() {
                for switch in 0..exercise.switches.len() {
                    let there = settings
                        .iter()
                        .position(|it| it.iter().zip(setting).enumerate().all(|(i, (a, b))| (a == b) == (i != switch)));
                    let lamp = control.lamp.index();
                    let changes = lit[here][lamp] != lit[there.unwrap()][lamp];
                    if changes != control.switches.iter().any(|it| it.index() == switch) {
                        return Some("a control");
                    }
                }
            }
        }
        self.wrong_in_the_hand(&settings)
    }

    /// A fan: permanent line, switched line and neutral of one circuit; both lines dead with its isolator off.
    fn fan_wrong(&self, sets: &UnionFind<usize>, setting: &[u8], lit: &[bool]) -> Option<&'static str> {
        let exercise = self.work.exercise();
        let on = |t: TerminalId| exercise.devices.iter().position(|it| sets.equiv(t.index(), it.line.index()));
        for fan in &exercise.fans {
            let [line, switched, neutral] = fan.terminals;
            if fan.isolator.is_some_and(|it| setting[it.index()] == 0) {
                if on(line).or(on(switched)).is_some() {
                    return Some("a fan live with its isolator off");
                }
                continue;
            }
            let home = exercise.devices.iter().position(|it| sets.equiv(neutral.index(), it.neutral.index()));
            let started = on(switched).is_some();
            if home.is_none() || on(line) != home || started && on(switched) != home || started != lit[fan.with.index()]
            {
                return Some("a fan");
            }
        }
        None
    }

    /// Looseness, earthing, identification.
    fn wrong_in_the_hand(&self, settings: &[Vec<u8>]) -> Option<&'static str> {
        let (work, exercise) = (self.work, self.work.exercise());
        let cpcs = self.joined(&[], true, false);
        for end in work.ends() {
            // A piece made up by hand and taken out at both ends is scrap in the box.
            let is_scrap = || work.cable_of(end.conductor()).is_none() && work.terminal_of(end.other()).is_none();
            let Some(terminal) = work.terminal_of(end) else {
                if is_scrap() {
                    continue;
                }
                return Some("a loose end");
            };
            if !work.is_tight(terminal) {
                return Some("a slack screw");
            }
            let facts = work.end_facts(end);
            let protective = matches!(facts.colour, Colour::Bare | Colour::GreenYellow);
            let live = |neutral: bool| {
                settings.iter().any(|it| {
                    let sets = self.joined(it, !protective, true);
                    exercise
                        .devices
                        .iter()
                        .any(|d| sets.equiv(terminal.index(), if neutral { d.neutral.index() } else { d.line.index() }))
                })
            };
            if protective {
                if live(true) || live(false) {
                    return Some("a cpc on line or neutral");
                }
                if !cpcs.equiv(terminal.index(), self.earth()) {
                    return Some("a cpc not earthed");
                }
            }
            if !exercise.is_learners(end) && work.is_undisturbed(end) {
                continue;
            }
            let says = match work.mark_of(end) {
                Some(Mark::Sleeve(it) | Mark::Tape(it)) => it,
                Some(Mark::Letter(Letter::L)) => Colour::Brown,
                Some(Mark::Letter(Letter::N)) => Colour::Blue,
                Some(Mark::Letter(Letter::PE)) => Colour::GreenYellow,
                None => facts.colour,
            };
            let must = match (protective, live(false), live(true)) {
                (true, ..) => Colour::GreenYellow,
                (_, true, _) => Colour::Brown,
                (_, _, true) => Colour::Blue,
                _ => continue,
            };
            if says != must {
                return Some("a mark");
            }
        }
        for (id, place) in exercise.locations.with_ids() {
            let LocationKind::Box(it) = &place.kind else { continue };
            let at = |used_by| exercise.terminal_used(id, used_by);
            let metal = switchdrop::trade::accessory::Material::Metal;
            let reached = |t: Option<TerminalId>| t.is_none_or(|it| cpcs.equiv(it.index(), self.earth()));
            // A metal box under a metal plate with a fixed lug may rely on its screws; a plate never.
            let screwed = it.plate.front == metal && it.lugs == switchdrop::trade::accessory::Lugs::OneFixed;
            if !reached(at(TerminalUse::PlateEarth))
                || it.body == metal && !screwed && !reached(at(TerminalUse::BoxEarth))
            {
                return Some("metal not earthed");
            }
        }
        None
    }
}

/// Every single slip with the ends that are the learner's: one moved, one left loose, two exchanged, a mark left off or
/// wrong, a screw left slack.
pub fn slips(work: &Work) -> Vec<(String, Vec<Edit>)> {
    let exercise = work.exercise();
    let ends: Vec<EndId> = work.ends().filter(|it| !work.is_undisturbed(*it)).collect();
    let mut all = Vec::new();
    for (index, end) in ends.iter().enumerate() {
        let name = work.end_address(*end);
        all.push((format!("{name} left loose"), vec![Edit::Move(*end, None)]));
        for terminal in exercise.terminals_at(work.end_location(*end)) {
            let it = &exercise.terminals[terminal];
            if Some(terminal) != work.terminal_of(*end) && work.ends_in(terminal).count() < it.capacity.conductors {
                all.push((format!("{name} in {}", it.address), vec![Edit::Move(*end, Some(terminal))]));
            }
        }
        for other in &ends[index + 1..] {
            let (here, there) = (work.terminal_of(*end), work.terminal_of(*other));
            if work.end_location(*end) == work.end_location(*other) && here != there {
                let edits = vec![Edit::Move(*end, there), Edit::Move(*other, here)];
                all.push((format!("{name} and {} exchanged", work.end_address(*other)), edits));
            }
        }
        let marks = [None, Some(Colour::Brown), Some(Colour::Blue), Some(Colour::GreenYellow)];
        for mark in marks.map(|it| it.map(Mark::Sleeve)).into_iter().filter(|it| *it != work.mark_of(*end)) {
            all.push((format!("{name} marked {mark:?}"), vec![Edit::Mark(*end, mark)]));
        }
        if let Point::Terminal(terminal) = work.point_of(*end) {
            all.push((format!("slack at {name}"), vec![Edit::Slacken(terminal)]));
        }
    }
    all
}

/// A line of the table of slips: how many were tried from somewhere, and what became of them.
pub struct Row {
    from: String,
    tried: usize,
    harmless: usize,
    caught: usize,
    missed: usize,
    accused: usize,
    /// What was judged wrong.
    pub wrong: Vec<String>,
}

impl Row {
    pub fn new(from: impl Into<String>) -> Self {
        Self { from: from.into(), tried: 0, harmless: 0, caught: 0, missed: 0, accused: 0, wrong: Vec::new() }
    }

    /// Judges the sheet of one slip by what is wrong with it, which was worked out without the marker. One that is wrong
    /// costs once.
    pub fn judges(&mut self, slip: &str, wrong: Option<&str>, sheet: &Sheet) {
        let causes = self.counts(slip, wrong, sheet);
        if let Some(why) = wrong
            && causes.len() > 1
        {
            self.wrong.push(format!("{}: {slip}: {why}: not one cause but {causes:?}", self.from));
        }
    }

    /// The same of a slip from which others must follow, as from a step left out.
    pub fn counts(&mut self, slip: &str, wrong: Option<&str>, sheet: &Sheet) -> Vec<String> {
        let (costs, causes) = judged(sheet);
        self.tried += 1;
        match (wrong, costs) {
            (None, false) => self.harmless += 1,
            (None, true) => {
                self.accused += 1;
                self.wrong.push(format!("{}: {slip}: accused of {causes:?}", self.from));
            }
            (Some(why), false) => {
                self.missed += 1;
                self.wrong.push(format!("{}: {slip}: missed {why}", self.from));
            }
            (Some(_), true) => self.caught += 1,
        }
        causes
    }
}

/// Whether a sheet takes anything off, and from which causes.
fn judged(sheet: &Sheet) -> (bool, Vec<String>) {
    let causes = sheet.findings.iter().filter(|it| it.root == Root::Itself && it.weight > Weight::Advice);
    let at_causes: u32 = sheet.findings.iter().map(|it| it.lost).sum();
    // A light that a fault charged elsewhere keeps dark earns nothing for what it does.
    let lost = at_causes + sheet.criteria.iter().map(|it| it.not_awarded).sum::<u32>();
    // Half-wired work is credited for a share instead.
    assert!(
        sheet.credited_percent < 100 || sheet.out_of - sheet.marks == lost,
        "marks are lost at causes and nowhere else: {:#?}",
        sheet.findings
    );
    let caught = sheet.outcome != Outcome::Pass || sheet.marks < sheet.out_of;
    (caught, causes.map(|it| format!("{} at {:?}", it.code.word(), it.at)).collect())
}

/// Every slip with the ends of every accepted wiring, against the oracle.
fn rows() -> Vec<Row> {
    let installed = [("granary", wired(GRANARY, GRANARY_WIRED)), ("bathroom", wired(BATHROOM, BATHROOM_WIRED))];
    let installed = installed.map(|(name, attempt)| (name.to_owned(), Hand { attempt }));
    let mut rows = Vec::new();
    for (name, hand) in accepted().into_iter().chain(installed) {
        let work = hand.attempt.work();
        assert_eq!(Oracle { work }.wrong(), None, "{name}");
        let mut row = Row::new(name);
        for (slip, edits) in slips(work) {
            let attempt = hand.attempt.supposing(&edits);
            row.judges(&slip, Oracle { work: attempt.work() }.wrong(), &mark(&attempt, Mode::Set));
        }
        rows.push(row);
    }
    rows
}

/// The table: `cargo test slips -- --nocapture`. Its last two columns are nothing.
#[test]
fn every_single_slip_is_judged_right_and_costs_once() {
    let all: Vec<Row> =
        [rows(), crate::by_hand::slips::rows(), crate::tested::sequence::rows(), crate::legitimate::rows()]
            .into_iter()
            .flatten()
            .collect();
    println!("{:<44} {:>6} {:>8} {:>7} {:>8} {:>8}", "from", "tried", "harmless", "caught", "missed", "accused");
    for Row { from, tried, harmless, caught, missed, accused, .. } in &all {
        println!("{from:<44} {tried:>6} {harmless:>8} {caught:>7} {missed:>8} {accused:>8}");
    }
    let wrong: Vec<&String> = all.iter().flat_map(|it| &it.wrong).collect();
    assert!(wrong.is_empty(), "{} slips judged wrong:\n{wrong:#?}", wrong.len());
    assert!(all.iter().all(|it| (it.missed, it.accused) == (0, 0) && it.tried == it.harmless + it.caught));
    assert!(all.iter().all(|it| it.tried > 0));
}
