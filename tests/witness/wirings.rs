//! Random wirings: sound ones, wrong ones, shorts, loose screws, everything loose. The same number is the same wiring.

use std::sync::Arc;

use rand::{Rng, SeedableRng, rngs::ChaCha8Rng};
use switchdrop::{
    exercise::{EndId, Exercise, Seed, TerminalId, read},
    work::{Edit, Work},
};

use crate::hand::{exercise, one_way_model, two_way_model};

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
        let mut work = Work::new(Arc::clone(&exercise));
        // From hardly a slip to nothing as it should be.
        let astray = dice.of(&[5, 20, 50, 100]);
        for end in (0..exercise.start.len() as u16).map(EndId) {
            let learners = exercise.is_learners(end);
            if dice.percent(if learners { astray } else { astray / 20 }) {
                let near: Vec<TerminalId> = exercise.terminals_at(work.end_location(end)).collect();
                let to = if dice.percent(85) { Some(dice.of(&near)) } else { None };
                work.edit(&Edit::Move(end, to));
            } else if learners {
                work.edit(&Edit::Move(end, model.get(end.index()).copied().flatten()));
            }
        }
        for terminal in (0..exercise.terminals.len() as u16).map(TerminalId) {
            if dice.percent(5) {
                work.edit(&Edit::Slacken(terminal));
            }
        }
        if dice.percent(40) {
            let at = dice.below(exercise.terminals.len());
            let near: Vec<TerminalId> = exercise.terminals_at(exercise.terminals[at].location).collect();
            work.edit(&Edit::Tail(TerminalId(at as u16), dice.of(&near)));
        }
        work
    }
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
