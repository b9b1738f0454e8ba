//! Every aim of speed, measured, with its ratio, in one run: `cargo bench --no-default-features --features program --bench aims`. Ends with 1
//! if one is missed.
//!
//! Times are medians, with the best and the worst of nine in ten beside them. Aims in time are for one core that nobody
//! shares; those that are ratios hold anywhere. `ngspice` is asked if it is installed.

#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    missing_docs,
    reason = "a bench that meets the unexpected should stop there, and says what it finds"
)]

#[path = "jobs/attempts.rs"]
mod attempts;
#[path = "jobs/budget.rs"]
mod budget;
#[allow(dead_code, reason = "the other benches use the rest")]
mod jobs;
#[path = "jobs/marking.rs"]
mod marking;
#[path = "jobs/ngspice.rs"]
mod ngspice;

use std::{
    hint::black_box,
    process::ExitCode,
    time::{Duration, Instant},
};

use switchdrop::{
    circuit::{Layered, rows, states, survey},
    reason::{Passage, PassageHand, Question, WhatIf, why},
    report::PositionTable,
    wording::Wording,
};

use jobs::{
    TWO_WAY, opened, prove, random,
    wirings::{LAMP, LINE, Wiring, house, in_line},
};

/// What was found, line by line.
#[derive(Default)]
pub struct Table {
    missed: usize,
}

impl Table {
    /// A time that must not be longer than an aim.
    fn time(&mut self, what: &str, aim: Duration, found: Times) {
        self.most(what, aim.as_secs_f64() * 1e6, found.median.as_secs_f64() * 1e6, "us", &found.spread());
    }

    /// A figure that must not be above an aim.
    pub fn most(&mut self, what: &str, aim: f64, found: f64, unit: &str, note: &str) {
        self.line(what, &format!("<= {aim:.0} {unit}"), &format!("{found:.1} {unit}"), found / aim, found <= aim, note);
    }

    /// A figure that must not be below an aim.
    pub fn least(&mut self, what: &str, aim: f64, found: f64, unit: &str, note: &str) {
        self.line(what, &format!(">= {aim:.0} {unit}"), &format!("{found:.1} {unit}"), found / aim, found >= aim, note);
    }

    fn line(&mut self, what: &str, aim: &str, found: &str, ratio: f64, holds: bool, note: &str) {
        self.missed += usize::from(!holds);
        let verdict = if holds { "" } else { "  MISSED" };
        println!("{what:<62} {aim:>14} {found:>16}  {ratio:>7.3} of the aim{verdict}  {note}");
    }
}

/// How long something took, many times over.
#[derive(Clone, Copy)]
pub struct Times {
    pub median: Duration,
    least: Duration,
    nine_tenths: Duration,
}

impl Times {
    /// At least 15 times and for at least a third of a second.
    pub fn of<T>(mut job: impl FnMut() -> T) -> Self {
        black_box(job());
        let begun = Instant::now();
        let mut found = Vec::new();
        while found.len() < 15 || begun.elapsed() < Duration::from_millis(300) {
            let start = Instant::now();
            black_box(job());
            found.push(start.elapsed());
        }
        found.sort_unstable();
        let at = |tenths: usize| found[(found.len() - 1) * tenths / 10];
        Self { median: at(5), least: at(0), nine_tenths: at(9) }
    }

    fn spread(&self) -> String {
        format!("({:.1?} to {:.1?})", self.least, self.nine_tenths)
    }
}

const fn us(count: u64) -> Duration {
    Duration::from_micros(count)
}

/// Measures a part of the aims, line by line.
type Measure = fn(&mut Table);

fn main() -> ExitCode {
    // `cargo test --benches` and `cargo bench --bench` both come here; only the second asks for figures.
    if !std::env::args().any(|it| it == "--bench") {
        return ExitCode::SUCCESS;
    }
    let mut table = Table::default();
    let parts: [(&str, Measure); 5] = [
        ("budget", budget::measure),
        ("circuit", circuit),
        ("ngspice", ngspice::compare),
        ("marking", marking::batch),
        ("reason", reason),
    ];
    let is_named = |name: &str| std::env::args().any(|it| it == name);
    let all = parts.iter().all(|it| !is_named(it.0));
    for (_, measure) in parts.iter().filter(|it| all || is_named(it.0)) {
        measure(&mut table);
    }
    if table.missed == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}

fn circuit(table: &mut Table) {
    two_way(table);
    many_rows(table);
    proofs(table);
    for common in [false, true] {
        let house = house(common);
        let what = if common { "two residual current devices" } else { "a device each" };
        let times = Times::of(|| states(&house));
        table.time(&format!("40 switches in 12 circuits, {what}: every result"), us(2000), times);
    }
}

fn reason(table: &mut Table) {
    let three = Question::of_cores(3);
    let proof = |question: &Question| why(black_box(question), |_| ()).expect("an answer");
    table.time("three cores: every way, an example of each class solved", us(10_000), Times::of(|| proof(&three)));
    let five = Question { positions: 5, ..Question::of_cores(3) };
    table.time("five places with three cores: 10^14 ways", us(2_000_000), Times::of(|| proof(&five)));
    states_of_play(table);
}

/// The houses of the see-through house besides the two it begins with.
const HOUSES: [WhatIf; 7] = [
    WhatIf::BareEarth,
    WhatIf::Exchanged,
    WhatIf::BothPoles,
    WhatIf::OppositeEnds,
    WhatIf::NeighboursNeutral,
    WhatIf::ThirdSwitch,
    WhatIf::WhereItGoes,
];

/// Each state of the see-through house: the slowest of all houses in all settings, what flows, what the grid says and what a hand meets; and
/// the table of every position of the two-way exercise.
fn states_of_play(table: &mut Table) {
    let made = || {
        let plain = [Passage::new(), Passage::with_two_wires()].into_iter().flatten();
        plain.chain(HOUSES.into_iter().filter_map(WhatIf::house)).collect::<Vec<Passage>>()
    };
    let mut slowest: Option<Times> = None;
    for house in made() {
        let count = house.switches().count();
        for setting in 0..1_u8 << count {
            let mut house = house.clone();
            let positions: Vec<u8> = (0..count).map(|it| setting >> it & 1).collect();
            let times = Times::of(|| {
                house.set(black_box(&positions));
                let hands = [PassageHand::BareWire, PassageHand::Lampholder].map(|it| house.hand(it));
                (house.flow().loops.len(), house.grid(), hands)
            });
            if slowest.as_ref().is_none_or(|it| it.median < times.median) {
                slowest = Some(times);
            }
        }
    }
    table.time("the see-through house: its slowest state", us(50_000), slowest.expect("a house"));
    let attempt = opened().replay().expect("a model");
    let wording = Wording::british();
    let all = Times::of(|| PositionTable::of(&wording, black_box(attempt.work())).lines.len());
    table.time("two-way: where the current goes in every position", us(50_000), all);
}

fn two_way(table: &mut Table) {
    let attempt = opened().replay().expect("a model");
    let work = attempt.work();
    let times = Times::of(|| rows(black_box(work)));
    table.time("two-way: network, positions, lamps, hazards, trips", us(50), times);
    table.time("two-way: every case of marking.md together", us(1000), Times::of(|| survey(black_box(work))));
    let wrong = jobs::broken(work);
    table.time("two-way: the same of a wrong wiring", us(1000), Times::of(|| survey(black_box(&wrong))));
    table.time("two-way: read, replayed, marked", us(2000), Times::of(|| jobs::marked(black_box(TWO_WAY))));
}

fn many_rows(table: &mut Table) {
    let work = in_line(7);
    assert_eq!(rows(&work).len(), 16_384);
    table.time("16,384 rows with exact volts", us(20_000), Times::of(|| rows(black_box(&work))));
    let contacts = Wiring::n_way(14).contacts();
    let lit = || {
        let graph = Layered::new(black_box(&contacts), &[LINE, LAMP[0]], &[]).expect("a chain");
        let positions = |row: u32| -> [u8; 14] { std::array::from_fn(|it| (row >> it & 1) as u8) };
        (0..1 << 14).filter(|it| graph.are_joined(&positions(*it), 0, 1)).count()
    };
    assert_eq!(lit(), 1 << 13);
    table.time("16,384 rows, lit or off alone", us(1000), Times::of(lit));
}

fn proofs(table: &mut Table) {
    let right = [24, 100].map(|n| {
        let wiring = Wiring::n_way(n);
        Times::of(|| assert!(prove(black_box(&wiring)), "the right wiring"))
    });
    table.time("24 switches, the right wiring: proven", us(1000), right[0]);
    let ratio = |[few, many]: [Times; 2]| many.median.as_secs_f64() / few.median.as_secs_f64();
    table.most("100 switches against 24, the right wiring", 10.0, ratio(right), "times", &right[1].spread());
    let all = [24, 100].map(|n| {
        let wirings = random(1000, n);
        if n == 24 {
            // Each by itself: the best of five, and of those the worst.
            let best = |it: &Wiring| {
                let once = |_| {
                    let start = Instant::now();
                    black_box(prove(it));
                    start.elapsed()
                };
                (0..5).map(once).min().unwrap_or_default()
            };
            let worst = wirings.iter().map(best).max().unwrap_or_default();
            table.most("24 switches, 1,000 random: the slowest of them", 1000.0, worst.as_secs_f64() * 1e6, "us", "");
        }
        Times::of(|| wirings.iter().filter(|it| prove(it)).count())
    });
    table.most("100 switches against 24, 1,000 random", 10.0, ratio(all), "times", &all[1].spread());
}
