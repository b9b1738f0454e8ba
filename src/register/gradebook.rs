//! A learning platform's own table with marks filled in: by columns that the tutor names once, and by nothing that was not released.
//!
//! No column is guessed and none is made. What stands in the others is kept, but for formulas, which are made safe.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::{
    assignment::Assignment,
    csv::{self, CsvFault, CsvTrouble},
    paths::number_of,
    review::{Review, ReviewRow},
    tutor_file::TutorFile,
};
use crate::{
    exercise::{Limits, Placed, Problem, ProblemCode, Problems},
    marking::Outcome,
    wording::Wording,
};

/// Which columns of a table are which.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GradebookColumns {
    learner: String,
    mark: String,
    outcome: Option<String>,
    date: Option<String>,
    learners: BTreeMap<String, u64>,
    exercise: Option<String>,
    separator: char,
}

/// The file as it is written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Gradebook")]
struct GradebookFile<'t> {
    #[serde(borrow)]
    learner: Placed<'t, String>,
    mark: Placed<'t, String>,
    #[serde(default)]
    outcome: Option<Placed<'t, String>>,
    #[serde(default)]
    date: Option<Placed<'t, String>>,
    #[serde(default)]
    learners: BTreeMap<String, u64>,
    #[serde(default)]
    exercise: Option<Placed<'t, String>>,
    #[serde(default)]
    separator: Option<Placed<'t, char>>,
}

/// What may stand between two cells; the first, unless something else is said.
const SEPARATORS: [char; 3] = [',', ';', '\t'];

/// Why a table is not filled in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotFilled {
    /// It can't be read.
    Table(CsvTrouble),
    /// It has no column of that name; those it has.
    NoColumn(String, Vec<String>),
    /// It has two columns of that name, or two things go into one.
    TwoColumns(String),
    /// The assignment sets several exercises, or not the one that is named; those it sets.
    WhichExercise(Vec<String>),
    /// A learner has two rows; the line of the second.
    Twice(u64, usize),
}

/// A table, filled in.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FilledTable {
    /// The table.
    pub text: String,
    /// Learners whose mark stands in it now.
    pub filled: Vec<u64>,
    /// Learners whose outcome is a refer, and who have no mark in it for that.
    pub refers: Vec<u64>,
    /// Learners of the table whose work is not released, or who have none that counts: their rows are as they were.
    pub left: Vec<u64>,
    /// Learners of the roster that it has no row for.
    pub without_row: Vec<u64>,
    /// Rows that are nobody's on the roster.
    pub strangers: usize,
    /// Cells that a spreadsheet program would have taken for a formula, and that begin with an apostrophe now.
    pub made_safe: usize,
}

/// The places of the columns in a row.
struct Places {
    learner: usize,
    mark: usize,
    outcome: Option<usize>,
    date: Option<usize>,
}

impl GradebookColumns {
    /// Reads which columns are which.
    ///
    /// # Errors
    /// Everything that is wrong with it, with its places.
    pub fn read(text: &str) -> Result<Self, Problems> {
        let (file, mut reader) = TutorFile::read::<GradebookFile<'_>>(text)?;
        let more = [&file.outcome, &file.date, &file.exercise];
        for it in [&file.learner, &file.mark].into_iter().chain(more.into_iter().flatten()) {
            // Platforms put the title of the work and more into a column's name.
            reader.prose(it, Limits::PARAGRAPH_CHARS);
        }
        let separator = file.separator.as_ref().map_or(SEPARATORS[0], |it| it.value);
        if let Some(it) = file.separator.filter(|it| !SEPARATORS.contains(it)) {
            let (inside, expected) =
                ("separator".to_owned(), SEPARATORS.map(|it| it.escape_default().to_string()).join(" "));
            let found = it.value.escape_default().to_string();
            reader.push(Problem { inside, ..Problem::new(ProblemCode::UnknownWord, it.span(text), found, expected) });
        }
        let name = |it: &Placed<'_, String>| it.trim().to_owned();
        reader.or(Self {
            learner: name(&file.learner),
            mark: name(&file.mark),
            outcome: file.outcome.as_ref().map(name),
            date: file.date.as_ref().map(name),
            learners: file.learners,
            exercise: file.exercise.as_ref().map(name),
            separator,
        })
    }

    /// Fills a table in: for everybody whose work was released, the marks, the outcome in a word and when it was handed in, in ISO 8601. A refer has
    /// no marks: as a number alone it would be taken for a result.
    ///
    /// # Errors
    /// Why it is not filled in.
    pub fn fill(
        &self,
        table: &str,
        assignment: &Assignment,
        review: &Review,
        wording: &Wording,
    ) -> Result<FilledTable, NotFilled> {
        let exercise = self.exercise_of(assignment)?;
        let rows = csv::rows(table, self.separator).map_err(NotFilled::Table)?;
        let Some(((_, header), rows)) = rows.split_first() else {
            return Err(NotFilled::Table(CsvTrouble { line: 1, what: CsvFault::Empty }));
        };
        let places = self.places(header)?;
        let of: BTreeMap<u64, &ReviewRow> =
            review.rows.iter().filter(|row| row.exercise == exercise).map(|row| (row.learner, row)).collect();
        let mut done = FilledTable::default();
        let mut seen = BTreeMap::new();
        let ends = if table.contains("\r\n") { "\r\n" } else { "\n" };
        let write = |row: &[String], done: &mut FilledTable| {
            let cells: Vec<String> = row.iter().map(|it| kept(it, &mut done.made_safe)).collect();
            done.text += &cells.join(&self.separator.to_string());
            done.text += ends;
        };
        write(header, &mut done);
        for (line, row) in rows {
            let mut row = row.clone();
            let learner = row.get(places.learner).and_then(|it| number_of(&self.learners, it.trim()));
            match learner.and_then(|it| of.get(&it)) {
                None => done.strangers += 1,
                Some(it) if seen.insert(it.learner, line).is_some() => return Err(NotFilled::Twice(it.learner, *line)),
                Some(it) => put(&mut row, it, &places, wording, &mut done),
            }
            write(&row, &mut done);
        }
        done.without_row = of.into_keys().filter(|it| !seen.contains_key(it)).collect();
        Ok(done)
    }

    /// The exercise that is meant.
    fn exercise_of<'a>(&self, assignment: &'a Assignment) -> Result<&'a str, NotFilled> {
        let mut set = assignment.exercises.iter().map(|it| it.scenario.id.as_str());
        let found = match &self.exercise {
            Some(named) => set.find(|it| it == named),
            None => set.next().filter(|_| assignment.exercises.len() == 1),
        };
        let all = || assignment.exercises.iter().map(|it| it.scenario.id.clone()).collect();
        found.ok_or_else(|| NotFilled::WhichExercise(all()))
    }

    fn places(&self, header: &[String]) -> Result<Places, NotFilled> {
        let mut taken = Vec::new();
        let mut place = |name: &String| {
            let mut found = header.iter().enumerate().filter(|(_, cell)| cell.trim() == name).map(|(at, _)| at);
            let it = found.next().ok_or_else(|| NotFilled::NoColumn(name.clone(), header.to_vec()))?;
            if found.next().is_some() || taken.contains(&it) {
                return Err(NotFilled::TwoColumns(name.clone()));
            }
            taken.push(it);
            Ok(it)
        };
        Ok(Places {
            learner: place(&self.learner)?,
            mark: place(&self.mark)?,
            outcome: self.outcome.as_ref().map(&mut place).transpose()?,
            date: self.date.as_ref().map(&mut place).transpose()?,
        })
    }
}

/// Puts what was released into the row of its learner.
fn put(row: &mut [String], of: &ReviewRow, places: &Places, wording: &Wording, done: &mut FilledTable) {
    let Some((file, given)) = of.counting().and_then(|it| Some((it.0, it.0.people.released()?.given))) else {
        done.left.push(of.learner);
        return;
    };
    let is_refer = given.outcome == Outcome::Refer.word();
    let mut put = |at: Option<usize>, text: String| {
        if let Some(cell) = at.and_then(|it| row.get_mut(it)) {
            *cell = text;
        }
    };
    // An older number may stand there: a refer takes it away.
    put(Some(places.mark), if is_refer { String::new() } else { given.marks.to_string() });
    put(places.outcome, wording.say(&format!("review-{}", given.outcome.replace(' ', "-")), &[]));
    put(places.date, file.handed_in_at.clone().unwrap_or_default());
    if is_refer { &mut done.refers } else { &mut done.filled }.push(of.learner);
}

/// A cell as it is written: a number keeps its sign, anything else that looks like a formula is made safe.
fn kept(text: &str, made_safe: &mut usize) -> String {
    let digits = text.trim().trim_start_matches(['+', '-']);
    let is_number = !digits.is_empty() && digits.chars().all(|it| it.is_ascii_digit() || ".,".contains(it));
    if is_number || !csv::is_formula(text) {
        return csv::quoted(text);
    }
    *made_safe += 1;
    csv::cell(text)
}
