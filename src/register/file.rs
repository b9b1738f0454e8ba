//! The assignment file as it is written, and everything that can be wrong with it.

use std::{collections::BTreeSet, ops::Range};

use ron::{ser::PrettyConfig, value::RawValue};
use serde::{Deserialize, Serialize};

use super::{
    assignment::{AnswersShown, Assignment, Counts, Hints, SetExercise, WallTime},
    tutor_file::TutorFile,
};
use crate::{
    attempt::sha256,
    exercise::{
        Exercise, Limits, Placed, Problem, ProblemCode, Problems, Seed, is_new_id, names_are_clean, options,
        read as read_scenario,
    },
};

/// The format that this version reads and writes.
const FORMAT: u32 = 1;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Assignment")]
pub(super) struct AssignmentFile<'a> {
    format: Placed<'a, u32>,
    #[serde(borrow)]
    id: Placed<'a, String>,
    title: Placed<'a, String>,
    group: Placed<'a, String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    opens: Option<Placed<'a, String>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    due: Option<Placed<'a, String>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    last: Option<Placed<'a, String>>,
    tries: Placed<'a, u32>,
    counts: Counts,
    hints: Placed<'a, Hints>,
    answers: AnswersShown,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pass_mark: Option<Placed<'a, u32>>,
    program: Placed<'a, String>,
    marking: u32,
    learners: Vec<Placed<'a, u64>>,
    exercises: Vec<SetFile<'a>>,
}

/// An exercise with its digest, as an attempt's second line has it.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Set")]
struct SetFile<'a> {
    #[serde(borrow)]
    sha256: Placed<'a, String>,
    scenario: &'a RawValue,
}

impl<'a> AssignmentFile<'a> {
    /// As it is to be written; `texts`: the exercises on a line each.
    pub(super) fn of(assignment: &Assignment, texts: &'a [String]) -> Result<Self, ron::Error> {
        let time = |it: &Option<WallTime>| it.as_ref().map(|it| it.to_string().into());
        let exercises = texts.iter().map(|text| {
            let scenario = RawValue::from_ron(text).map_err(|err| err.code)?;
            Ok(SetFile { sha256: sha256(text.as_bytes()).into(), scenario })
        });
        Ok(Self {
            format: FORMAT.into(),
            id: assignment.id.clone().into(),
            title: assignment.title.clone().into(),
            group: assignment.group.clone().into(),
            opens: time(&assignment.opens),
            due: time(&assignment.due),
            last: time(&assignment.last),
            tries: assignment.tries.into(),
            counts: assignment.counts,
            hints: assignment.hints.into(),
            answers: assignment.answers,
            pass_mark: assignment.pass_mark.map(Into::into),
            program: assignment.program.clone().into(),
            marking: assignment.marking,
            learners: assignment.learners.iter().copied().map(Into::into).collect(),
            exercises: exercises.collect::<Result<_, ron::Error>>()?,
        })
    }

    pub(super) fn text(&self) -> Result<String, ron::Error> {
        let config = PrettyConfig::new()
            .struct_names(true)
            .new_line("\n")
            .depth_limit(3)
            .compact_arrays(false)
            .extensions(ron::extensions::Extensions::IMPLICIT_SOME);
        Ok(format!("{}\n", ron::ser::to_string_pretty(self, config)?))
    }
}

/// Reads an assignment file.
pub(super) fn read(text: &str) -> Result<Assignment, Problems> {
    if text.len() > Limits::ASSIGNMENT_BYTES {
        let (found, most) = (text.len().to_string(), Limits::ASSIGNMENT_BYTES.to_string());
        return Err(Problem::new(ProblemCode::TooLarge, 0..0, found, most).into());
    }
    let file: AssignmentFile<'_> = options().from_str(text).map_err(|err| {
        Problems::from(
            Problem::other_file(text, "file-kind-assignment").unwrap_or_else(|| Problem::from_ron(text, &err)),
        )
    })?;
    let mut reader = TutorFile::over(text);
    let made = reader.assignment(&file);
    reader.or(made)
}

impl TutorFile<'_> {
    fn assignment(&mut self, file: &AssignmentFile<'_>) -> Assignment {
        if file.format.value != FORMAT {
            self.problem(ProblemCode::Format, &file.format, file.format.value.to_string(), FORMAT.to_string());
        }
        if !is_new_id(&file.id) {
            self.problem(ProblemCode::BadId, &file.id, file.id.value.clone(), "");
        }
        for it in [&file.title, &file.group, &file.program] {
            if !names_are_clean(it, Limits::NAME_CHARS) {
                self.problem(ProblemCode::BadName, it, it.value.clone(), Limits::NAME_CHARS.to_string());
            }
        }
        self.number(&file.tries, 1, u64::from(Limits::TRIES));
        if let Some(it) = &file.pass_mark
            && !(1..=100).contains(&it.value)
        {
            self.problem(ProblemCode::BadPassMark, it, it.value.to_string(), "1 to 100");
        }
        let [opens, due, last] = self.times([&file.opens, &file.due, &file.last]);
        Assignment {
            id: file.id.value.clone(),
            title: file.title.value.clone(),
            group: file.group.value.clone(),
            opens,
            due,
            last,
            tries: file.tries.value,
            counts: file.counts,
            hints: file.hints.value,
            answers: file.answers,
            pass_mark: file.pass_mark.as_ref().map(|it| it.value),
            program: file.program.value.clone(),
            marking: file.marking,
            learners: self.learners(file),
            exercises: self.exercises(file),
            sha256: sha256(self.text.replace("\r\n", "\n").as_bytes()),
        }
    }

    fn number<T: Copy + Into<u64>>(&mut self, number: &Placed<'_, T>, least: u64, most: u64) {
        let found = number.value.into();
        if !(least..=most).contains(&found) {
            self.problem(ProblemCode::BadNumber, number, found.to_string(), format!("{least} to {most}"));
        }
    }

    /// When it opens, is due and ends, in this order.
    fn times(&mut self, written: [&Option<Placed<'_, String>>; 3]) -> [Option<WallTime>; 3] {
        let mut before: Option<WallTime> = None;
        written.map(|it| {
            let it = it.as_ref()?;
            let Some(time) = WallTime::of(it) else {
                self.problem(ProblemCode::BadTime, it, it.value.clone(), WallTime::EXAMPLE);
                return None;
            };
            if let Some(earlier) = &before
                && time.at() < earlier.at()
            {
                let earlier = earlier.to_string();
                self.problem(ProblemCode::TimesOutOfOrder, it, it.value.clone(), earlier);
            }
            before = Some(time.clone());
            Some(time)
        })
    }

    fn learners(&mut self, file: &AssignmentFile<'_>) -> Vec<u64> {
        if let Some(over) = file.learners.get(Limits::LEARNERS) {
            let found = file.learners.len().to_string();
            self.problem(ProblemCode::TooManyEntries, over, found, Limits::LEARNERS.to_string());
            return Vec::new();
        }
        if file.learners.is_empty() {
            self.problem(ProblemCode::EmptyList, &file.format, "", "");
        }
        let mut seen = BTreeSet::new();
        for it in &file.learners {
            self.number(it, 1, Limits::LEARNER);
            if !seen.insert(it.value) {
                self.problem(ProblemCode::Duplicate, it, it.value.to_string(), "");
            }
        }
        file.learners.iter().map(|it| it.value).collect()
    }

    fn exercises(&mut self, file: &AssignmentFile<'_>) -> Vec<SetExercise> {
        if let Some(over) = file.exercises.get(Limits::ASSIGNED) {
            let found = file.exercises.len().to_string();
            self.problem(ProblemCode::TooManyEntries, &over.sha256, found, Limits::ASSIGNED.to_string());
            return Vec::new();
        }
        if file.exercises.is_empty() {
            self.problem(ProblemCode::EmptyList, &file.format, "", "");
        }
        let mut made: Vec<SetExercise> = Vec::new();
        for set in &file.exercises {
            let Some(it) = self.exercise(set) else { continue };
            let (id, span) = (it.scenario.id.clone(), self.scenario_at(set));
            if made.iter().any(|before| before.scenario.id == id) {
                self.push(Problem::new(ProblemCode::Duplicate, span, id, ""));
                continue;
            }
            let costs = it.scenario.weights.hints > 0;
            if costs != (file.hints.value == Hints::Costing) {
                self.problem(ProblemCode::HintsDisagree, &file.hints, format!("{:?}", file.hints.value), id);
            }
            made.push(it);
        }
        made
    }

    /// An exercise, if nothing is wrong with it.
    fn exercise(&mut self, set: &SetFile<'_>) -> Option<SetExercise> {
        let scenario = set.scenario.trim().get_ron();
        let found = sha256(scenario.as_bytes());
        if found != set.sha256.value {
            self.problem(ProblemCode::ScenarioDigest, &set.sha256, found, set.sha256.value.clone());
        }
        let read: Result<Exercise, Problems> = read_scenario(scenario, Seed::default());
        match read {
            Ok(scenario) => Some(SetExercise { sha256: set.sha256.value.clone(), scenario }),
            Err(problems) => {
                let by = self.scenario_at(set).start;
                problems.into_iter().for_each(|it| self.push(it.moved(by)));
                None
            }
        }
    }

    /// Where a scenario stands in the text.
    fn scenario_at(&self, set: &SetFile<'_>) -> Range<usize> {
        let scenario = set.scenario.trim().get_ron();
        let start = (scenario.as_ptr() as usize).saturating_sub(self.text.as_ptr() as usize);
        start..start + scenario.len()
    }
}
