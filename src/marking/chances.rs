//! How many chances to err a criterion offers in an exercise: a pass needs half of every criterion that offers four or more.
//!
//! Counted from the exercise alone, so that the pass rule is known before anything is done, and doing less leaves no
//! fewer chances. One count a criterion, of the things that it looks at one by one:
//!
//! - function: each control that the exercise is about, and each fan;
//! - polarity: each end of the learner's that is not a protective conductor's; earthing: each that is;
//! - identification, terminations: each end of the learner's;
//! - containment: each cable where it comes into a place of the learner's;
//! - choice of cable: each cable to be chosen and each reason;
//! - safe working: what is done at each place (named, locked off, proved dead, closed up again) and each stage that is no test;
//! - diagnosis: each fault that may be there;
//! - test results: each reading with a line of its own, circuit by circuit, and each place to be inspected;
//! - functional test: each combination of the switches of each of those controls; prediction: each that is asked for;
//! - naming: each thing without a mark;
//! - observations: each place that can be opened and looked into;
//! - right the first time, without a hint: each is one thing.

use super::{code::Criterion, rules::is_test};
use crate::{
    attempt::{settings_to_predict, stage_of},
    exercise::{EndId, Exercise, Stage},
    work::Test,
};

/// A pass needs half of a criterion that offers at least this many chances to err (the charter of marking).
const ENOUGH: usize = 4;

/// Whether a criterion offers enough chances to err for a pass to need half of it.
pub(super) fn needs_half(exercise: &Exercise, criterion: Criterion) -> bool {
    chances(exercise, criterion) >= ENOUGH
}

/// How many ends are the learner's to connect: for a cable not chosen yet, two for each core of the least one on offer.
pub(super) fn learners_ends(exercise: &Exercise) -> usize {
    ends(exercise, |_| true) + unlaid(exercise, |it| it)
}

fn chances(exercise: &Exercise, criterion: Criterion) -> usize {
    let places = exercise.learners_places().len();
    let asked = || exercise.asked_controls().map(|it| it.1);
    let is_protective = |it: EndId| exercise.conductors[it.conductor()].colour.is_protective();
    match criterion {
        Criterion::Function => asked().count() + exercise.fans.len(),
        Criterion::Polarity => ends(exercise, |it| !is_protective(it)) + unlaid(exercise, |cores| cores - 1),
        Criterion::Earthing => ends(exercise, is_protective) + unlaid(exercise, |_| 1),
        Criterion::Identification | Criterion::Terminations => learners_ends(exercise),
        Criterion::Containment => entries(exercise),
        Criterion::CableChoice => 2 * exercise.runs.len(),
        Criterion::SafeWorking => {
            let at_each = if exercise.asks(Stage::Isolation) { 4 } else { 1 };
            at_each * places + exercise.stages.iter().filter(|it| !is_test(exercise, **it)).count()
        }
        Criterion::TestResults => {
            let circuits = exercise.learners_circuits().len();
            let inspected = if exercise.asks(Stage::Inspection) { places } else { 0 };
            let read = |it: &Stage| *it != Stage::Inspection && is_test(exercise, *it);
            inspected
                + circuits
                    * exercise.stages.iter().filter(|stage| read(stage)).map(|stage| lines(*stage)).sum::<usize>()
        }
        Criterion::FunctionalTest => {
            let ways = |it: &crate::exercise::SwitchId| exercise.switches[*it].way.positions();
            asked().map(|it| it.switches.iter().map(ways).product::<usize>()).sum()
        }
        Criterion::Prediction => settings_to_predict(exercise).len(),
        Criterion::Diagnosis => exercise.suspects.len(),
        Criterion::Naming => exercise.unmarked_ids().count(),
        Criterion::Observation => exercise.locations.iter().filter(|it| it.kind.has_cover()).count(),
        Criterion::Rework | Criterion::Hints => 1,
    }
}

/// How many of the learner's ends, of cables as drawn, satisfy `so`.
fn ends(exercise: &Exercise, so: impl Fn(EndId) -> bool) -> usize {
    exercise.start.ids().filter(|it| exercise.end_facts(*it).is_some() && exercise.is_learners(*it) && so(*it)).count()
}

/// Over the cables not chosen yet: twice what the cable with fewest cores on offer counts for.
fn unlaid(exercise: &Exercise, of_cores: impl Fn(usize) -> usize) -> usize {
    let least = exercise.runs.iter().filter(|it| it.cable.is_none());
    let cores = least.filter_map(|run| run.offers.iter().map(|offer| offer.kind.cores().len()).min());
    cores.map(|count| 2 * of_cores(count)).sum()
}

/// How many times a cable comes into a place with ends of the learner's.
fn entries(exercise: &Exercise) -> usize {
    let mut found: Vec<_> = exercise
        .start
        .ids()
        .filter(|it| exercise.is_learners(*it))
        .filter_map(|it| Some((exercise.conductors.get(it.conductor())?.cable, exercise.end_facts(it)?.location)))
        .collect();
    found.sort_unstable();
    found.dedup();
    found.len() + 2 * exercise.runs.iter().filter(|it| it.cable.is_none()).count()
}

/// How many lines of the test sheet a stage asks for in each circuit. Of two tests that serve alike, one is asked for.
fn lines(stage: Stage) -> usize {
    match stage {
        Stage::Continuity | Stage::LoopImpedance => 1,
        _ => Test::ALL.iter().filter(|it| stage_of(**it) == stage).count(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exercise::{SHIPPED, Seed, read};

    fn counted(id: &str) -> Vec<(Criterion, usize)> {
        let text = SHIPPED.iter().find(|it| it.0 == id).unwrap().1;
        let exercise = read(text, Seed(0)).unwrap();
        Criterion::ALL.iter().map(|it| (*it, chances(&exercise, *it))).collect()
    }

    /// By hand, from the drawing of the rose: feed and onward cable have three ends there, the drop three there and three at the
    /// switch, the flex two. One control, of two settings. Isolation, continuity, checks, prediction and switches are stages.
    #[test]
    fn the_rose_offers_what_can_be_counted_on_it() {
        let counted = counted("one-way-rose");
        let of = |it| counted.iter().find(|(criterion, _)| *criterion == it).unwrap().1;
        assert_eq!((of(Criterion::Polarity), of(Criterion::Earthing)), (10, 4));
        assert_eq!((of(Criterion::Identification), of(Criterion::Terminations)), (14, 14));
        assert_eq!((of(Criterion::Function), of(Criterion::Prediction), of(Criterion::FunctionalTest)), (1, 2, 2));
        assert_eq!((of(Criterion::SafeWorking), of(Criterion::TestResults)), (13, 0));
        assert_eq!(of(Criterion::Containment), 5);
    }

    /// One circuit with a test sheet: R1+R2, three of insulation, polarity, supply polarity, Zs, the residual device; two places to
    /// be inspected.
    #[test]
    fn a_test_sheet_offers_its_lines() {
        let counted = counted("one-way-tested");
        let of = |it| counted.iter().find(|(criterion, _)| *criterion == it).unwrap().1;
        assert_eq!(of(Criterion::TestResults), 10);
    }
}
