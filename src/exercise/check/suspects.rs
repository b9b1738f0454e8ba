//! The faults that an exercise may hide: each is one that its wiring can have, and stands in the list once.

use super::Checker;
use crate::exercise::{
    file::{ScenarioFile, Stage, VaryFile},
    limits::Limits,
    placed::Placed,
    problem::ProblemCode,
    suspect::{FaultKind, HiddenFault, Suspect, SuspectFile},
};

impl Checker<'_> {
    pub(super) fn suspects(&mut self, file: &ScenarioFile<'_>) {
        if file.suspects.len() > Limits::SUSPECTS {
            let (found, most) = (file.suspects.len().to_string(), Limits::SUSPECTS.to_string());
            self.problem(ProblemCode::TooManyEntries, &file.format, found, most);
            return;
        }
        for it in &file.suspects {
            let at = it.at.first().unwrap_or(&file.id);
            if let Some(found) = self.suspect(it, at) {
                if self.exercise.suspects.iter().any(|other| other.is(found.kind, &found.at)) {
                    self.problem(ProblemCode::Duplicate, at, at.value.clone(), "");
                }
                self.exercise.tables.suspects.push(found);
            }
        }
        let count = file.suspects.len();
        let asked = file.stages.iter().find(|it| it.value == Stage::Diagnosis);
        let varies = file.vary.iter().any(|it| matches!(it, VaryFile::Fault));
        let is_found = asked.is_some() && count >= 2 && (file.fault as usize) < count;
        if !is_found && (asked.is_some() || varies || count > 0) {
            match asked {
                Some(at) => self.problem(ProblemCode::BadSuspects, at, count.to_string(), ""),
                None => self.problem(ProblemCode::BadSuspects, &file.format, count.to_string(), ""),
            }
        }
    }

    /// The fault, if it is stated as its kind must be; `at` is where a problem with it is placed.
    fn suspect(&mut self, file: &SuspectFile<'_>, at: &Placed<'_, String>) -> Option<Suspect> {
        let (kind, count) = (file.what, file.at.len());
        if count != kind.places() {
            let expected = kind.places().to_string();
            self.problem(ProblemCode::BadSuspect, at, count.to_string(), expected);
            return None;
        }
        let ohms = match (kind.ohms(), &file.ohms) {
            (Some((least, most)), Some(ohms)) => self.number(ohms, least, most).then_some(ohms.value)?,
            (Some((least, most)), None) => {
                self.problem(ProblemCode::BadSuspect, at, "", format!("ohms: {least} to {most}"));
                return None;
            }
            (None, Some(ohms)) => {
                self.problem(ProblemCode::BadSuspect, ohms, "ohms", "");
                return None;
            }
            (None, None) => 0.0,
        };
        let fault = if kind == FaultKind::Exchanged { self.exchanged(file)? } else { self.of_cores(file, ohms)? };
        Some(Suspect { kind, at: file.at.iter().map(|it| it.value.clone()).collect(), fault })
    }

    /// A fault of a core, or between two of one cable.
    fn of_cores(&mut self, file: &SuspectFile<'_>, ohms: f64) -> Option<HiddenFault> {
        let mut cores = Vec::new();
        for name in &file.at {
            cores.push(self.find(ProblemCode::UnknownConductor, name, self.exercise.conductor(name))?);
        }
        let cable = |core: usize| self.exercise.conductors[core].cable;
        if let [a, b] = cores[..]
            && (a == b || cable(a) != cable(b))
        {
            self.problem(ProblemCode::BadSuspect, &file.at[1], file.at[1].value.clone(), "");
            return None;
        }
        HiddenFault::of_cores(file.what, &cores, ohms)
    }

    /// Two ends of one place, each in a terminal of its own.
    fn exchanged(&mut self, file: &SuspectFile<'_>) -> Option<HiddenFault> {
        let mut ends = Vec::new();
        for name in &file.at {
            ends.push(self.find(ProblemCode::UnknownEnd, name, self.exercise.end(name))?);
        }
        let [a, b] = ends[..] else { return None };
        let place = |end| self.exercise.end_facts(end).map(|it| it.location);
        let terminal = |end| self.exercise.start.get(end).copied().flatten().map(|it| it.terminal);
        if place(a) != place(b) || terminal(a).is_none() || terminal(b).is_none() || terminal(a) == terminal(b) {
            self.problem(ProblemCode::BadSuspect, &file.at[1], file.at[1].value.clone(), "");
            return None;
        }
        Some(HiddenFault::Exchanged([a, b]))
    }
}
