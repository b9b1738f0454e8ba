//! Marks for each criterion, as a scenario sets them, and their values where it says nothing.
//!
//! What each of them is for is told in `marking/criteria.rs`.

use serde::{Deserialize, Serialize};

/// Marks available for each criterion. One that the exercise does not ask for by its stages has none, whatever is said here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Weights {
    /// Does each control do its job?
    pub function: u32,
    /// Are line and neutral where they belong?
    pub polarity: u32,
    /// Is everything earthed that must be?
    pub earthing: u32,
    /// Can every conductor be told by its colour or mark?
    pub identification: u32,
    /// Is every end well made off and held? Called `tightness` in older files.
    #[serde(alias = "tightness")]
    pub terminations: u32,
    /// Are the boxes right: sheath, grommets, room?
    #[serde(skip_serializing_if = "is_none_of_it")]
    pub containment: u32,
    /// Will the cable do that was chosen, and is the reason the right one?
    #[serde(skip_serializing_if = "is_none_of_it")]
    pub cable_choice: u32,
    /// Was it done safely?
    pub safe_working: u32,
    /// Did the learner know what would happen?
    pub prediction: u32,
    /// Did the readings lead to the fault, and was it named?
    #[serde(skip_serializing_if = "is_none_of_it")]
    pub diagnosis: u32,
    /// Was what had no mark found out and named?
    #[serde(skip_serializing_if = "is_none_of_it")]
    pub naming: u32,
    /// Was everything found that is wrong, and nothing else?
    #[serde(skip_serializing_if = "is_none_of_it")]
    pub observation: u32,
    /// Are the figures on the test sheet those that were read, and judged rightly?
    #[serde(skip_serializing_if = "is_none_of_it")]
    pub test_results: u32,
    /// Was every switch worked last, with the power on?
    #[serde(skip_serializing_if = "is_none_of_it")]
    pub functional_test: u32,
    /// Was it right the first time?
    #[serde(skip_serializing_if = "is_none_of_it")]
    pub rework: u32,
    /// Was it done without a hint?
    #[serde(skip_serializing_if = "is_none_of_it")]
    pub hints: u32,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands it so")]
const fn is_none_of_it(weight: &u32) -> bool {
    *weight == 0
}

impl Default for Weights {
    /// Out of 100; the split is common practice, no source. What is 0 is off unless a scenario switches it on.
    fn default() -> Self {
        Self {
            function: 25,
            polarity: 15,
            earthing: 15,
            identification: 10,
            terminations: 10,
            containment: 0,
            cable_choice: 0,
            safe_working: 20,
            prediction: 5,
            diagnosis: 0,
            naming: 0,
            observation: 0,
            test_results: 0,
            functional_test: 0,
            rework: 0,
            hints: 0,
        }
    }
}

impl Weights {
    /// The sum of all of them, or the largest number there is if they come to more.
    pub fn total(&self) -> u32 {
        let Self { function, polarity, earthing, identification, terminations, containment, cable_choice, .. } = *self;
        let Self { prediction, diagnosis, naming, observation, .. } = *self;
        let Self { safe_working, test_results, functional_test, rework, hints, .. } = *self;
        let work = [function, polarity, earthing, identification, terminations, containment, cable_choice];
        let said = [prediction, diagnosis, naming, observation];
        let way = [safe_working, test_results, functional_test, rework, hints];
        work.into_iter().chain(said).chain(way).fold(0, u32::saturating_add)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// As the files of the first version have them, letter for letter.
    #[test]
    fn files_of_before_are_read_by_their_old_name() {
        let old = "(function:25,polarity:15,earthing:15,identification:10,tightness:10,safe_working:20,prediction:5)";
        assert_eq!(ron::from_str::<Weights>(old), Ok(Weights::default()));
        let new = old.replace("tightness", "terminations");
        assert_eq!(ron::from_str::<Weights>(&new), Ok(Weights::default()));
        let both = new.replace("earthing", "tightness:1,earthing");
        assert!(ron::from_str::<Weights>(&both).is_err(), "one thing said twice");
        assert_eq!(ron::to_string(&Weights::default()).as_deref(), Ok(new.as_str()));
    }

    #[test]
    fn what_a_scenario_leaves_out_is_as_always() {
        assert_eq!(ron::from_str::<Weights>("(rework:4)"), Ok(Weights { rework: 4, ..Weights::default() }));
        assert_eq!(Weights::default().total(), 100);
        assert_eq!(Weights { rework: u32::MAX, ..Weights::default() }.total(), u32::MAX);
    }
}
