//! Random wirings: sound ones, wrong ones, shorts, loose screws, everything loose. The same number is the same wiring.

use std::sync::Arc;

use rand::{Rng, SeedableRng, rngs::ChaCha8Rng};
use switchdrop::{
    exercise::{Exercise, Seed, TerminalId, read},
    work::{Edit, Work},
};

use crate::{
    hand::{exercise, one_way_model, two_way_model},
    installations,
};

/// Where each end is in the wirings that random ones begin from, by exercise.
pub struct Wirings {
    models: [(&'static str, Vec<Option<TerminalId>>); 2],
}

/// A published generator with a fixed seed: ChaCha with 8 rounds.
pub struct Dice(ChaCha8Rng);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(ChaCha8Rng::seed_from_u64(seed))
    }

    /// Below `n`. The small are favoured by less than one in a million, which matters to no test.
    pub fn below(&mut self, n: usize) -> usize {
        self.0.next_u64() as usize % n
    }

    pub fn percent(&mut self, percent: usize) -> bool {
        self.below(100) < percent
    }

    pub fn of<T: Copy>(&mut self, items: &[T]) -> T {
        items[self.below(items.len())]
    }

    /// Between two numbers, as likely in each power of ten.
    pub fn spread(&mut self, least: f64, most: f64) -> f64 {
        let share = self.0.next_u64() as f64 / u64::MAX as f64;
        (least.ln() + share * (most / least).ln()).exp().clamp(least, most)
    }
}

impl Wirings {
    pub fn new() -> Self {
        let places = |work: &Work| work.ends().map(|it| work.terminal_of(it)).collect();
        Self {
            models: [
                ("one-way-rose", places(one_way_model().attempt.work())),
                ("two-way-passage", places(two_way_model().attempt.work())),
            ],
        }
    }

    /// The wiring of that number.
    pub fn number(&self, number: u64) -> Work {
        let mut dice = Dice::new(number);
        let (exercise, model): (Arc<Exercise>, &[Option<TerminalId>]) = match number % 3 {
            0 => (passage(dice.of(&["TnS", "TnCS", "Tt"])), &[]),
            it => {
                let (id, model) = &self.models[it as usize - 1];
                (exercise(id, number), model)
            }
        };
        gone_astray(&exercise, model, &mut dice)
    }
}

/// Kinds of installation that the others lack, each with its wiring as it should be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Metal plates screwed to metal boxes by a lug that is fixed.
    ScrewedPlates,
    /// A box that two circuits share, each behind a device with a residual part of its own.
    SharedBoxRcbos,
    /// The same behind one residual current device, or behind one each.
    SharedBoxRcds,
    /// A fan behind its three-pole isolator, and a light behind a double-pole switch.
    FanAndLinked,
    /// A light from three places.
    ThreePlaces,
}

impl Kind {
    pub const ALL: [Self; 5] =
        [Self::ScrewedPlates, Self::SharedBoxRcbos, Self::SharedBoxRcds, Self::FanAndLinked, Self::ThreePlaces];

    /// The wiring of that number: each in its turn on a supply earthed in each way.
    pub fn number(self, number: u64) -> Work {
        let mut dice = Dice::new(0x6b00 + self as u64 * 0x0001_0000 + number);
        let (scenario, lines) = match self {
            Self::ScrewedPlates => {
                (installations::PASSAGE.replace("BothAdjustable", "OneFixed"), installations::PASSAGE_WIRED)
            }
            Self::SharedBoxRcbos => (installations::passage(installations::RCBOS), installations::PASSAGE_WIRED),
            Self::SharedBoxRcds => {
                let devices = dice.of(&[installations::ONE_RCD, installations::TWO_RCDS]);
                (installations::passage(devices), installations::PASSAGE_WIRED)
            }
            Self::FanAndLinked => (installations::BATHROOM.to_owned(), installations::BATHROOM_WIRED),
            Self::ThreePlaces => (installations::GRANARY.to_owned(), installations::GRANARY_WIRED),
        };
        let earthing = ["Tt", "TnS", "TnCS"][number as usize % 3];
        let scenario = ["Tt", "TnS", "TnCS"]
            .iter()
            .fold(scenario, |text, it| text.replace(&format!("earthing: {it},"), &format!("earthing: {earthing},")));
        let right = installations::wired(&scenario, lines);
        let model: Vec<Option<TerminalId>> = right.work().ends().map(|it| right.work().terminal_of(it)).collect();
        gone_astray(right.work().exercise(), &model, &mut dice)
    }
}

/// A wiring with some of its ends elsewhere, some screws slack and perhaps a tail.
fn gone_astray(exercise: &Arc<Exercise>, model: &[Option<TerminalId>], dice: &mut Dice) -> Work {
    let mut work = Work::new(Arc::clone(exercise));
    // From hardly a slip to nothing as it should be.
    let astray = dice.of(&[5, 20, 50, 100]);
    for end in exercise.start.ids() {
        let learners = exercise.is_learners(end);
        if dice.percent(if learners { astray } else { astray / 20 }) {
            let near: Vec<TerminalId> = exercise.terminals_at(work.end_location(end)).collect();
            let to = if dice.percent(85) { Some(dice.of(&near)) } else { None };
            work.edit(&Edit::Move(end, to));
        } else if learners {
            work.edit(&Edit::Move(end, model.get(end.index()).copied().flatten()));
        }
    }
    for terminal in exercise.terminals.ids() {
        if dice.percent(5) {
            work.edit(&Edit::Slacken(terminal));
        }
    }
    if dice.percent(40) {
        let at = exercise.terminals.id(dice.below(exercise.terminals.len())).unwrap();
        let near: Vec<TerminalId> = exercise.terminals_at(exercise.terminals[at].location).collect();
        work.edit(&Edit::Tail(at, dice.of(&near)));
    }
    work
}

/// The exercise that is for tests alone, on a supply earthed so.
pub fn passage(earthing: &str) -> Arc<Exercise> {
    let text = include_str!("../scenarios/passage.ron").replace("earthing: Tt", &format!("earthing: {earthing}"));
    Arc::new(read(&text, Seed(0)).expect("a sound scenario"))
}

/// Every combination of positions and of devices on and off.
pub fn every_case(exercise: &Exercise) -> Vec<(Vec<u8>, Vec<bool>)> {
    let mut cases = vec![(Vec::new(), Vec::new())];
    for switch in &exercise.switches {
        cases = cases
            .into_iter()
            .flat_map(|(positions, on)| {
                (0..switch.way.positions() as u8).map(move |it| ([positions.clone(), vec![it]].concat(), on.clone()))
            })
            .collect();
    }
    for _ in &exercise.devices {
        cases = cases
            .into_iter()
            .flat_map(|(positions, on)| [true, false].map(|it| (positions.clone(), [on.clone(), vec![it]].concat())))
            .collect();
    }
    cases
}
