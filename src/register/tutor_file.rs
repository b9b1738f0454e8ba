//! What the files that a tutor writes by hand or hands out have in common: a size that is looked at first, and places for all that is wrong.

use serde::Deserialize;

use crate::exercise::{Limits, Placed, Problem, ProblemCode, Problems, names_are_clean, options};

/// A file of a tutor's while it is read.
pub(super) struct TutorFile<'t> {
    pub(super) text: &'t str,
    problems: Vec<Problem>,
}

impl<'t> TutorFile<'t> {
    /// Nothing is wrong with it so far.
    pub(super) fn over(text: &'t str) -> Self {
        Self { text, problems: Vec::new() }
    }

    /// What stands in a text, not checked yet, and where its problems go.
    pub(super) fn read<T: Deserialize<'t>>(text: &'t str) -> Result<(T, Self), Problems> {
        if text.len() > Limits::TUTOR_FILE_BYTES {
            let (found, most) = (text.len().to_string(), Limits::TUTOR_FILE_BYTES.to_string());
            return Err(Problem::new(ProblemCode::TooLarge, 0..0, found, most).into());
        }
        let read = options().from_str(text).map_err(|err| Problem::from_ron(text, &err))?;
        Ok((read, Self::over(text)))
    }

    /// What was made of it, unless something is wrong.
    pub(super) fn or<T>(mut self, made: T) -> Result<T, Problems> {
        self.problems.sort_by_key(|it| (it.span.start, it.code));
        Problems::or(self.problems, made)
    }

    pub(super) fn problem<T>(
        &mut self,
        code: ProblemCode,
        at: &Placed<'_, T>,
        found: impl Into<String>,
        expected: impl Into<String>,
    ) {
        self.problems.push(Problem::new(code, at.span(self.text), found, expected));
    }

    pub(super) fn push(&mut self, it: Problem) {
        self.problems.push(it);
    }

    /// A text of at most this many characters, all of which show. A slash, which no path is made of here, may stand in them.
    pub(super) fn prose(&mut self, it: &Placed<'_, String>, most: usize) {
        if !names_are_clean(&it.replace('/', " "), most) {
            self.problem(ProblemCode::BadName, it, "", most.to_string());
        }
    }

    /// Said of the first entry over as many as are read.
    pub(super) fn too_many<T>(&mut self, over: &Placed<'_, T>, found: usize) {
        self.problem(ProblemCode::TooManyEntries, over, found.to_string(), Limits::TUTOR_ENTRIES.to_string());
    }
}
