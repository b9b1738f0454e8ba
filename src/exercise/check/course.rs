//! Where an exercise stands in a course: a kind that it can be of, and minutes that a lesson has.

use super::Checker;
use crate::exercise::{course::CoursePlace, file::ScenarioFile, problem::ProblemCode};

/// Minutes that an exercise may take.
const MINUTES: std::ops::RangeInclusive<u32> = 1..=240;

impl Checker<'_> {
    pub(super) fn course(&mut self, file: &ScenarioFile<'_>) {
        let Some(course) = &file.course else { return };
        let (step, kind, minutes) = (course.step, course.kind.value, course.minutes.value);
        if let Some(stage) = kind.needs().filter(|it| file.stages.iter().all(|of| of.value != *it)) {
            self.problem(ProblemCode::BadCourse, &course.kind, format!("{kind:?}"), format!("{stage:?}"));
        }
        if !MINUTES.contains(&minutes) {
            let range = format!("{} to {}", MINUTES.start(), MINUTES.end());
            self.problem(ProblemCode::BadNumber, &course.minutes, minutes.to_string(), range);
        }
        self.exercise.tables.course = Some(CoursePlace { step, kind, minutes });
    }
}
