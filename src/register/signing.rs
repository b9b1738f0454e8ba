//! What a form for signing has filled in out of an assignment and its register.

use super::{
    assignment::Assignment,
    decision::{Decision, People},
    hand_in::{Earned, HandIn},
    released::{decision, layers_told},
    unit_map::CriterionMap,
};
use crate::{marking::Criterion, report::FilledIn, wording::Wording};

impl CriterionMap {
    /// A form in which the unit and its outcomes are filled in, and nothing else.
    pub fn filled_in(&self) -> FilledIn {
        let outcome = |it: &Criterion| Some((*it, self.outcome(it.word())?.to_owned()));
        let outcomes = Criterion::ALL.iter().filter_map(outcome).collect();
        FilledIn { unit: Some(self.unit.clone()), outcomes, ..FilledIn::default() }
    }
}

/// The form of a hand-in that earned this: its group, what the map says, what was decided, and each comment beside its finding.
pub fn filled_in(
    wording: &Wording,
    assignment: &Assignment,
    (file, earned): (&HandIn, &Earned),
    map: Option<&CriterionMap>,
) -> FilledIn {
    let mut filled = map.map(CriterionMap::filled_in).unwrap_or_default();
    filled.group = Some(assignment.group.clone());
    for it in &file.people.decisions {
        if let Some(finding) = &it.finding {
            filled.about.entry(finding.clone()).or_default().push(decision(wording, it));
        }
    }
    // A comment on a finding stands beside that finding.
    let beside = |it: &Decision| it.finding.is_some() && !it.decides();
    let decisions: Vec<_> = file.people.decisions.iter().filter(|it| !beside(it)).cloned().collect();
    let people = People { decisions, ..file.people.clone() };
    if !people.is_empty() {
        filled.layers = layers_told(wording, earned, &people);
    }
    filled
}
