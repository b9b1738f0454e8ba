//! What marks are given for: one file a criterion, each saying what it judges, when it is asked for and what it is worth.
//!
//! The weights that hold where a scenario says nothing stand in one place, [`Weights`]'s default.

mod cable_choice;
mod containment;
mod earthing;
mod function;
mod functional_test;
mod hints;
mod identification;
mod polarity;
mod prediction;
mod rework;
mod safe_working;
mod terminations;
mod test_results;

use super::code::Criterion;
use crate::exercise::{Exercise, Weights};

/// A criterion as the sheet uses it.
#[derive(Clone, Copy)]
pub(super) struct Judged {
    /// The criterion.
    pub criterion: Criterion,
    /// Whether an exercise asks for it, by its stages and fields. Where not, it has no marks and no line.
    pub is_asked: fn(&Exercise) -> bool,
    /// Its marks by the scenario.
    pub weight: fn(&Weights) -> u32,
    /// Whether half-wired work is credited for the share that was done, rather than for all that nothing is wrong with.
    pub is_workmanship: bool,
}

/// The file of a criterion.
pub(super) const fn of(criterion: Criterion) -> Judged {
    match criterion {
        Criterion::Function => function::JUDGED,
        Criterion::Polarity => polarity::JUDGED,
        Criterion::Earthing => earthing::JUDGED,
        Criterion::Identification => identification::JUDGED,
        Criterion::Terminations => terminations::JUDGED,
        Criterion::Containment => containment::JUDGED,
        Criterion::CableChoice => cable_choice::JUDGED,
        Criterion::SafeWorking => safe_working::JUDGED,
        Criterion::TestResults => test_results::JUDGED,
        Criterion::FunctionalTest => functional_test::JUDGED,
        Criterion::Prediction => prediction::JUDGED,
        Criterion::Rework => rework::JUDGED,
        Criterion::Hints => hints::JUDGED,
    }
}

impl Judged {
    /// Marks to be had under it in an exercise.
    pub fn available(&self, exercise: &Exercise) -> u32 {
        if (self.is_asked)(exercise) { (self.weight)(&exercise.weights) } else { 0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exercise::{SHIPPED, Seed, read};

    #[test]
    fn every_criterion_has_its_own_file_and_its_own_weight() {
        let ones = Weights {
            function: 1,
            polarity: 2,
            earthing: 4,
            identification: 8,
            terminations: 16,
            containment: 32,
            safe_working: 64,
            prediction: 128,
            test_results: 256,
            functional_test: 512,
            rework: 1024,
            hints: 2048,
            cable_choice: 4096,
        };
        let mut seen = 0;
        for &criterion in Criterion::ALL {
            assert_eq!(of(criterion).criterion, criterion);
            let weight = (of(criterion).weight)(&ones);
            assert_eq!(seen & weight, 0, "{} has another's weight", criterion.word());
            seen |= weight;
        }
        assert_eq!(seen, ones.total());
    }

    /// Two of the shipped exercises come with ends prepared and no test sheet: seven criteria, 100 marks.
    #[test]
    fn what_an_exercise_does_not_ask_for_has_no_weight() {
        let generous = Weights { containment: 9, test_results: 9, rework: 3, ..Weights::default() };
        for (_, text) in SHIPPED.iter().filter(|it| it.0 != "one-way-tested") {
            let mut exercise = read(text, Seed(0)).unwrap();
            let sum = |it: &Exercise| Criterion::ALL.iter().map(|criterion| of(*criterion).available(it)).sum::<u32>();
            assert_eq!(sum(&exercise), 100);
            exercise.weights = generous;
            assert_eq!(sum(&exercise), 103, "rework alone is asked for by its weight");
            exercise.stages.clear();
            assert_eq!(of(Criterion::Prediction).available(&exercise), 0);
        }
    }
}
