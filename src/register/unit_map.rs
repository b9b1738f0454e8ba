//! Which outcome of a unit each criterion speaks to, as a college has it. The program claims no outcome: it carries the tags along, beside the
//! sentence that says what a record of practice is.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::tutor_file::TutorFile;
use crate::{
    exercise::{Limits, Placed, Problem, ProblemCode, Problems, nearest},
    marking::{Code, Criterion},
    wording::Wording,
};

/// A unit, and its outcomes by criterion.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct CriterionMap {
    /// What the college calls the unit.
    pub unit: String,
    /// The outcome that each criterion speaks to, by the criterion's word; a criterion that speaks to none is not there.
    pub outcomes: BTreeMap<&'static str, String>,
}

/// The file as it is written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Outcomes")]
struct OutcomesFile<'t> {
    #[serde(borrow)]
    unit: Placed<'t, String>,
    criteria: Vec<OutcomeEntry<'t>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Meets")]
struct OutcomeEntry<'t> {
    #[serde(borrow)]
    criterion: Placed<'t, String>,
    outcome: Placed<'t, String>,
}

impl CriterionMap {
    /// Reads a map: a unit, and at most one outcome for each criterion, all of at most [`Limits::NAME_CHARS`] characters.
    ///
    /// # Errors
    /// Everything that is wrong with it, with its places.
    pub fn read(text: &str) -> Result<Self, Problems> {
        let (file, mut reader) = TutorFile::read::<OutcomesFile<'_>>(text)?;
        reader.prose(&file.unit, Limits::NAME_CHARS);
        let words = || Criterion::ALL.iter().map(|it| it.word());
        let mut outcomes = BTreeMap::new();
        for OutcomeEntry { criterion, outcome } in &file.criteria {
            reader.prose(outcome, Limits::NAME_CHARS);
            let Some(known) = words().find(|it| *it == criterion.value) else {
                let all = words().collect::<Vec<_>>().join(", ");
                let unknown = Problem {
                    inside: "criterion".to_owned(),
                    nearest: nearest(criterion, words()),
                    ..Problem::new(ProblemCode::UnknownWord, criterion.span(text), criterion.value.clone(), all)
                };
                reader.push(unknown);
                continue;
            };
            if outcomes.insert(known, outcome.trim().to_owned()).is_some() {
                reader.problem(ProblemCode::Duplicate, criterion, known, "");
            }
        }
        reader.or(Self { unit: file.unit.trim().to_owned(), outcomes })
    }

    /// The outcome of a criterion, by the criterion's word, as it is written into a table. `None`: it speaks to none.
    pub fn outcome(&self, criterion: &str) -> Option<&str> {
        self.outcomes.get(criterion).map(String::as_str)
    }

    /// The outcome that a finding speaks to, by the word of its code.
    pub fn of_finding(&self, code: &str) -> Option<&str> {
        let code = Code::ALL.iter().find(|it| it.word() == code)?;
        self.outcome(code.criterion().word())
    }

    /// The unit and the outcome of a criterion, with what such a tag is not; `None`: it speaks to none.
    pub fn tag(&self, wording: &Wording, criterion: &str) -> Option<String> {
        let outcome = self.outcome(criterion)?;
        Some(wording.say("unit-tag", &[("unit", &self.unit), ("outcome", outcome)]))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_outcome_is_found_by_its_criterion_and_by_a_finding_under_it() {
        let text =
            "Outcomes(unit: \"Unit 4\", criteria: [\n  Meets(criterion: \"identification\", outcome: \" 4.2/b \"),\n])";
        let map = CriterionMap::read(text).unwrap_or_else(|it| panic!("{it}"));
        assert_eq!((map.outcome("identification"), map.outcome("earthing")), (Some("4.2/b"), None));
        // A core without its mark costs marks under identification (the charter), a slack screw under terminations.
        assert_eq!((map.of_finding("mark-missing"), map.of_finding("connection-slack")), (Some("4.2/b"), None));
        assert_eq!(map.of_finding("nonsense"), None);
    }

    /// Each slip by hand: its code, the line on which it stands, what was likely meant.
    #[test]
    fn a_map_with_a_slip_is_refused_with_its_line() {
        let good = "  Meets(criterion: \"identification\", outcome: \"4.2\"),\n";
        for (entry, code, meant) in [
            ("Meets(criterion: \"identifcation\", outcome: \"4.2\")", ProblemCode::UnknownWord, Some("identification")),
            ("Meets(criterion: \"identification\", outcome: \"4.3\")", ProblemCode::Duplicate, None),
            ("Meets(criterion: \"earthing\", outcome: \"\")", ProblemCode::BadName, None),
            ("Meets(criterion: \"earthing\", outcomes: \"4.3\")", ProblemCode::UnknownField, Some("outcome")),
        ] {
            let text = format!("Outcomes(unit: \"Unit 4\", criteria: [\n{good}  {entry},\n])");
            let problems = CriterionMap::read(&text).expect_err(entry);
            let found = (problems[0].code, problems[0].position(&text).0, problems[0].nearest.as_deref());
            assert_eq!(found, (code, 3, meant), "{problems}");
        }
        assert!(CriterionMap::read("Outcomes(unit: \" \", criteria: [])").is_err());
        assert!(CriterionMap::read(&"(".repeat(10_000)).is_err());
    }
}
