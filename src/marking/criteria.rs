//! What marks are given for: for each criterion what it judges, when it is asked for and what it is worth.
//!
//! The weights that hold where a scenario says nothing stand in one place, [`Weights`]'s default.

use super::{code::Criterion, rules::is_test};
use crate::exercise::{Exercise, Preparation, Stage, Weights};

/// A criterion as the sheet uses it.
#[derive(Clone, Copy)]
pub(super) struct CriterionRow {
    /// The criterion.
    pub criterion: Criterion,
    /// Whether an exercise asks for it, by its stages and fields. Where not, it has no marks and no line.
    pub is_asked: fn(&Exercise) -> bool,
    /// Its marks by the scenario.
    pub weight: fn(&Weights) -> u32,
    /// Whether half-wired work is credited for the share that was done, rather than for all that nothing is wrong with.
    pub is_workmanship: bool,
}

/// The row of the table for a criterion.
pub(super) fn of(criterion: Criterion) -> CriterionRow {
    let row = |is_asked: fn(&Exercise) -> bool, weight: fn(&Weights) -> u32, is_workmanship| CriterionRow {
        criterion,
        is_asked,
        weight,
        is_workmanship,
    };
    match criterion {
        // Function: does each lamp do what its switches ask, and each fan?
        //
        // Asked for in every exercise. 25 of 100 unless the scenario says: the most of all, since it is what the customer pays for (common
        // practice, no source). A control that fails costs its share.
        Criterion::Function => row(|_| true, |weights| weights.function, false),
        // Polarity: are line and neutral where they belong, in every position and case?
        //
        // Asked for in every exercise. 15 of 100 unless the scenario says (common practice, no source). BS 7671 643.6 makes it a test of
        // its own.
        Criterion::Polarity => row(|_| true, |weights| weights.polarity, true),
        // Earthing: is everything earthed that must be, and would a device open in time?
        //
        // Asked for in every exercise. 15 of 100 unless the scenario says, as much as polarity (common practice, no source).
        Criterion::Earthing => row(|_| true, |weights| weights.earthing, true),
        // Identification: does every end say by its colour or mark what it is?
        //
        // Asked for in every exercise. 10 of 100 unless the scenario says (common practice, no source).
        Criterion::Identification => row(|_| true, |weights| weights.identification, true),
        // Terminations: is every end in a terminal, well made off, and held?
        //
        // Asked for in every exercise; where the ends come prepared, what is left of it is that they are in and tight. 10 of 100 unless the
        // scenario says (common practice, no source). It was called tightness before ends were made off by hand.
        Criterion::Terminations => row(|_| true, |weights| weights.terminations, true),
        // Containment: do boxes keep what they should inside: sheath, grommets, room, nothing trapped?
        //
        // Asked for where the ends are made off by hand and the scenario gives it marks; by default it has none.
        Criterion::Containment => {
            row(|exercise| exercise.preparation == Preparation::ByHand, |weights| weights.containment, true)
        }
        // Choice of cable: does the cable that was chosen carry its current and keep its voltage, and is the reason given what decides?
        //
        // Asked for where the exercise has a cable to choose. None of 100 unless the scenario says: a line of its own, since a reason is
        // neither work nor a test result, and no other sheet changes by it (common practice, no source).
        Criterion::CableChoice => row(|exercise| !exercise.runs.is_empty(), |weights| weights.cable_choice, false),
        // Safe working: was it done in the safe order, and nothing touched or switched on that must not be?
        //
        // Asked for in every exercise: live working is marked even where no isolation is set as a stage. 20 of 100 unless the scenario says
        // (common practice, no source).
        Criterion::SafeWorking => row(|_| true, |weights| weights.safe_working, false),
        // Test results: are the figures on the sheet those that were read, from tests made in order, and judged rightly?
        //
        // Asked for where a stage is a test that has a line on the test sheet, or the inspection, and the scenario gives it marks; none
        // unless it does.
        Criterion::TestResults => row(
            |exercise| exercise.stages.iter().any(|stage| is_test(exercise, *stage)),
            |weights| weights.test_results,
            false,
        ),
        // Functional test: was every switch worked in every combination that matters, with the power on, last of all?
        //
        // Those are all combinations of the switches of each lamp that the learner wires (`Safety::settings_left`), never those of several
        // lamps multiplied. Asked for where the exercise has that stage and gives it marks; without marks of its own the stage counts
        // under safe working.
        Criterion::FunctionalTest => {
            row(|exercise| exercise.asks(Stage::FunctionalTest), |weights| weights.functional_test, false)
        }
        // Prediction: did the learner know, before power-on, what would light and what would be live?
        //
        // Asked for where the exercise has that stage. 5 of 100 unless the scenario says (common practice, no source).
        Criterion::Prediction => row(|exercise| exercise.asks(Stage::Prediction), |weights| weights.prediction, false),
        // Diagnosis: did the readings lead to the fault, and was it named?
        //
        // Asked for where the exercise has that stage and gives it marks; none unless it does.
        Criterion::Diagnosis => row(|exercise| exercise.asks(Stage::Diagnosis), |weights| weights.diagnosis, false),
        // Naming: was what has no mark found out by readings, and called what it is, before it was joined?
        //
        // Asked for where the exercise has that stage and gives it marks; none unless it does. Each thing that has no mark is its share (common
        // practice, no source).
        Criterion::Naming => row(|exercise| exercise.asks(Stage::Naming), |weights| weights.naming, false),
        // Observation: was everything found that is wrong in the work, with its place, and nothing said that is not so?
        //
        // Asked for where the exercise has that stage and gives it marks. Each defect is a share; one that is dangerous and missed costs all of
        // it (practice of inspection: a danger that is passed stays in the wall; the split is ours, no source).
        Criterion::Observation => {
            row(|exercise| exercise.asks(Stage::Observations), |weights| weights.observation, false)
        }
        // Rework: was it right the first time, or redone after a failed test or a trip?
        //
        // Asked for where the scenario gives it marks: none unless it does, since putting right what a test finds is good practice, and the
        // fault costs its own marks if it stays. The weight is meant to be small (an assumption of ours).
        Criterion::Rework => row(|_| true, |weights| weights.rework, false),
        // Hints: was it done without asking for one?
        //
        // Asked for where the scenario gives it marks: none unless it does, since asking is a good way to learn. The sheet says how many
        // were asked for all the same. The weight is meant to be small (an assumption of ours).
        Criterion::Hints => row(|_| true, |weights| weights.hints, false),
    }
}

impl CriterionRow {
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
    fn every_criterion_has_its_own_weight() {
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
            diagnosis: 8192,
            naming: 16384,
            observation: 32768,
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

    /// Some of the shipped exercises come with ends prepared, no test sheet and predictions to make: seven criteria, 100 marks.
    #[test]
    fn what_an_exercise_does_not_ask_for_has_no_weight() {
        let sum = |it: &Exercise| Criterion::ALL.iter().map(|criterion| of(*criterion).available(it)).sum::<u32>();
        for (id, text) in SHIPPED.iter().filter(|it| it.1.contains("Continuity, Prediction,")) {
            assert_eq!(sum(&read(text, Seed(0)).unwrap()), 100, "{id}");
        }
        let rose = SHIPPED.iter().find(|it| it.0 == "one-way-rose").unwrap().1;
        let generous = "weights: Weights(containment: 9, test_results: 9, rework: 3),\n    vary: [";
        let exercise = read(&rose.replacen("vary: [", generous, 1), Seed(0)).unwrap();
        assert_eq!(sum(&exercise), 103, "rework alone is asked for by its weight");
        let exercise = read(&rose.replacen("Prediction, ", "", 1), Seed(0)).unwrap();
        assert_eq!(of(Criterion::Prediction).available(&exercise), 0);
    }
}
