//! An attempt as text: one RON value a line.
//!
//! Line 1 is the [`Header`], line 2 the exercise as drawn with its SHA-256, then one action a line. A line counts when it
//! ends in a newline. This room only reads and writes text; the binary's journal keeps the file.

use std::{cell::Cell, collections::BTreeMap, ops::Range, sync::Arc};

use ron::value::RawValue;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};

use super::{
    action::Action,
    attempt::{Attempt, Physics},
};
use crate::exercise::{
    Exercise, Limits, Problem, ProblemCode, Seed, Template, names_are_clean, options, read, read_for_states,
};

/// The format that this version reads and writes.
const FORMAT: u32 = 1;

/// How the attempt counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Mode {
    /// Set work: a critical act refers it.
    Set,
    /// Free practice: a critical act warns and is counted.
    Practice,
}

/// The first line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Attempt")]
pub struct Header {
    /// Version of this file format.
    pub format: u32,
    /// Version of the marking when it was made.
    pub marking: u32,
    /// The scenario's id.
    pub scenario: String,
    /// The seed the exercise was drawn from.
    pub seed: u64,
    /// Who did it.
    pub learner: String,
    /// Wall time at the start, as the binary wrote it.
    pub started: String,
    /// Set work or free practice.
    pub mode: Mode,
}

impl Header {
    /// A header in the present format.
    pub fn new(marking: u32, exercise: &Exercise, learner: String, started: String, mode: Mode) -> Self {
        let scenario = exercise.id.clone();
        Self { format: FORMAT, marking, scenario, seed: exercise.seed.0, learner, started, mode }
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields, rename = "Drawn")]
struct Drawn<'a> {
    sha256: String,
    #[serde(borrow)]
    exercise: &'a RawValue,
}

/// A line after the second.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Line {
    /// An action, with milliseconds since the file was last opened.
    Did {
        /// Milliseconds.
        ms: u64,
        /// What was done.
        action: Action,
    },
    /// The file was opened again.
    Opened {
        /// Wall time.
        at: String,
    },
}

/// An attempt as read.
#[derive(Debug, Clone)]
pub struct Opened {
    /// Its first line.
    pub header: Header,
    /// Its exercise.
    pub exercise: Arc<Exercise>,
    /// The lines after that, each with its place in the text.
    pub lines: Vec<(Range<usize>, Line)>,
    /// Bytes up to the end of the last whole line.
    pub whole: usize,
    /// Bytes after that, which do not count.
    pub cut_off: usize,
}

/// The first two lines of a new file.
///
/// # Errors
/// What RON could not write; nothing that a checked exercise holds.
pub fn first_lines(header: &Header, exercise: &Exercise) -> Result<String, ron::Error> {
    let header = ron::ser::to_string(header)?;
    let raw = RawValue::from_ron(exercise.text()).map_err(|err| err.code)?;
    let drawn = ron::ser::to_string(&Drawn { sha256: digest(exercise.text()), exercise: raw })?;
    Ok(format!("{header}\n{drawn}\n"))
}

/// The line of an action.
///
/// # Errors
/// What RON could not write.
pub fn action_line(ms: u64, action: &Action) -> Result<String, ron::Error> {
    Ok(format!("{}\n", ron::ser::to_string(&Line::Did { ms, action: action.clone() })?))
}

/// The line that says the file was opened again.
///
/// # Errors
/// What RON could not write.
pub fn opened_line(at: String) -> Result<String, ron::Error> {
    Ok(format!("{}\n", ron::ser::to_string(&Line::Opened { at })?))
}

/// Reads an action that stands alone, as in a line of a script.
///
/// # Errors
/// What is wrong with it, placed in `text`.
pub fn parse_action(text: &str) -> Result<Action, Vec<Problem>> {
    if text.len() > Limits::ACTION_BYTES {
        return Err(over(ProblemCode::ActionTooLong, 0..text.len(), text.len(), Limits::ACTION_BYTES));
    }
    value(text, &(0..text.len()))
}

/// Reads an attempt; nothing is replayed yet.
///
/// # Errors
/// Every problem of the first line that has one, placed in `text`.
pub fn open(text: &str) -> Result<Opened, Vec<Problem>> {
    open_with(text, read)
}

/// Reads an attempt that only its states are asked of: see [`read_for_states`].
///
/// # Errors
/// As [`open`].
pub fn open_for_states(text: &str) -> Result<Opened, Vec<Problem>> {
    open_with(text, read_for_states)
}

/// What was read before. Attempts marked together mostly have the same exercise and many of the same actions, and reading
/// those costs more than all the rest.
#[derive(Debug, Clone, Default)]
pub struct Known {
    exercise: Option<KnownExercise>,
    /// By their texts, up to [`ACTIONS`].
    actions: BTreeMap<String, Action>,
}

/// So many actions are remembered.
const ACTIONS: usize = 4096;

/// An exercise read before, by the line that held it.
#[derive(Debug, Clone)]
struct KnownExercise {
    line: String,
    seed: u64,
    exercise: Arc<Exercise>,
    drawn: bool,
}

impl Known {
    /// Whether one of the templates gave the last exercise, to the letter.
    pub fn is_drawn(&self) -> bool {
        self.exercise.as_ref().is_some_and(|it| it.drawn)
    }
}

/// The same as [`open`], and whatever stands in `known` by the very same text is taken from there; the rest comes to it. An
/// exercise that one of the templates gives to the letter need not be read either.
///
/// # Errors
/// As [`open`].
pub fn open_again(text: &str, known: &mut Known, templates: &[Template<'_>]) -> Result<Opened, Vec<Problem>> {
    let drawn = Cell::new(false);
    let Known { exercise: before, actions } = known;
    let opened = open_knowing(text, read, Some(actions), &|line, header| {
        if let Some(it) = before.as_ref().filter(|it| it.seed == header.seed && it.line == line) {
            return Some(Arc::clone(&it.exercise));
        }
        let template = templates.iter().find(|it| it.id() == header.scenario)?;
        let (sha256, inner) = cut_out(line)?;
        let exercise = template.exercise(inner, Seed(header.seed)).filter(|_| digest(inner) == sha256)?;
        drawn.set(true);
        Some(Arc::new(exercise))
    })?;
    let line = text.split('\n').nth(1).unwrap_or_default().trim_end_matches('\r');
    if !before.as_ref().is_some_and(|it| Arc::ptr_eq(&it.exercise, &opened.exercise)) {
        let exercise = Arc::clone(&opened.exercise);
        let (line, seed) = (line.to_owned(), opened.header.seed);
        *before = Some(KnownExercise { line, seed, exercise, drawn: drawn.get() });
    }
    Ok(opened)
}

/// How an exercise is read.
type Reader = fn(&str, Seed) -> Result<Exercise, Vec<Problem>>;

fn open_with(text: &str, reader: Reader) -> Result<Opened, Vec<Problem>> {
    open_knowing(text, reader, None, &|_, _| None)
}

/// `known` gives the exercise of a line and a header if it need not be read.
fn open_knowing(
    text: &str,
    reader: Reader,
    mut actions: Option<&mut BTreeMap<String, Action>>,
    known: &dyn Fn(&str, &Header) -> Option<Arc<Exercise>>,
) -> Result<Opened, Vec<Problem>> {
    if text.len() > Limits::ATTEMPT_BYTES {
        return Err(over(ProblemCode::TooLarge, 0..0, text.len(), Limits::ATTEMPT_BYTES));
    }
    let whole = text.rfind('\n').map_or(0, |it| it + 1);
    let mut at = 0;
    let mut spans = text[..whole].split_inclusive('\n').map(|line| {
        let start = at;
        at += line.len();
        start..start + line.trim_end_matches(['\n', '\r']).len()
    });
    let (Some(first), Some(second)) = (spans.next(), spans.next()) else {
        return Err(vec![Problem::new(ProblemCode::CutShort, whole..whole, "", "")]);
    };
    let header = read_header(text, first)?;
    let exercise = match known(&text[second.clone()], &header) {
        Some(it) => it,
        None => Arc::new(read_exercise(text, second, Seed(header.seed), reader)?),
    };
    let mut lines = Vec::new();
    for span in spans {
        if lines.len() + 2 >= Limits::ATTEMPT_LINES {
            return Err(over(ProblemCode::TooManyLines, span, lines.len() + 3, Limits::ATTEMPT_LINES));
        }
        if span.len() > Limits::ACTION_BYTES {
            return Err(over(ProblemCode::ActionTooLong, span.clone(), span.len(), Limits::ACTION_BYTES));
        }
        let line = match &mut actions {
            Some(actions) => line_again(text, &span, actions)?,
            None => value(text, &span)?,
        };
        lines.push((span, line));
    }
    Ok(Opened { header, exercise, lines, whole, cut_off: text.len() - whole })
}

/// Reads a line after the second, or takes its action from those known.
fn line_again(text: &str, span: &Range<usize>, actions: &mut BTreeMap<String, Action>) -> Result<Line, Vec<Problem>> {
    // As this program writes it; whatever stands otherwise is read in full.
    let parts = || {
        let (ms, rest) = text[span.clone()].strip_prefix("Did(ms:")?.split_once(",action:")?;
        let plain = ms.bytes().all(|it| it.is_ascii_digit()) && (ms == "0" || !ms.starts_with('0'));
        Some((ms.parse().ok().filter(|_| plain)?, rest.strip_suffix(')')?))
    };
    let parts: Option<(u64, &str)> = parts();
    if let Some((ms, action)) = parts
        && let Some(action) = actions.get(action)
    {
        return Ok(Line::Did { ms, action: action.clone() });
    }
    let line = value(text, span)?;
    if let (Some((_, text)), Line::Did { action, .. }) = (parts, &line)
        && actions.len() < ACTIONS
    {
        actions.insert(text.to_owned(), action.clone());
    }
    Ok(line)
}

fn read_header(text: &str, span: Range<usize>) -> Result<Header, Vec<Problem>> {
    let header: Header = value(text, &span)?;
    if header.format != FORMAT {
        return Err(vec![Problem::new(ProblemCode::Format, span, header.format.to_string(), FORMAT.to_string())]);
    }
    for name in [&header.learner, &header.scenario, &header.started] {
        if !names_are_clean(name, Limits::NAME_CHARS) {
            let most = Limits::NAME_CHARS.to_string();
            return Err(vec![Problem::new(ProblemCode::BadName, span, name.clone(), most)]);
        }
    }
    Ok(header)
}

fn read_exercise(text: &str, span: Range<usize>, seed: Seed, reader: Reader) -> Result<Exercise, Vec<Problem>> {
    // The text of the exercise is long and two passes over it dear: as this program writes it, it is simply cut out. If
    // anything about it is not so, the same is done in full, and says what is wrong.
    let cut = cut_out(&text[span.clone()]).filter(|(sha256, inner)| digest(inner) == *sha256);
    if let Some(exercise) = cut.and_then(|(_, inner)| reader(inner, seed).ok()) {
        return Ok(exercise);
    }
    let drawn: Drawn<'_> = value(text, &span)?;
    let inner = drawn.exercise.trim().get_ron();
    if digest(inner) != drawn.sha256 {
        return Err(vec![Problem::new(ProblemCode::Digest, span, drawn.sha256, digest(inner))]);
    }
    let start = inner.as_ptr() as usize - text.as_ptr() as usize;
    reader(inner, seed).map_err(|problems| problems.into_iter().map(|it| moved(it, start)).collect())
}

/// The digest and the exercise of a line that stands as [`first_lines`] writes it.
fn cut_out(line: &str) -> Option<(&str, &str)> {
    let (sha256, rest) = line.strip_prefix("(sha256:\"")?.split_once("\",exercise:")?;
    let inner = rest.strip_suffix(')')?;
    (inner.starts_with('(') && inner.ends_with(')')).then_some((sha256, inner))
}

/// Reads the value that stands alone on a line.
fn value<'t, T: Deserialize<'t>>(text: &'t str, span: &Range<usize>) -> Result<T, Vec<Problem>> {
    let line = &text[span.clone()];
    options().from_str(line).map_err(|err| vec![moved(Problem::from_ron(line, &err), span.start)])
}

fn moved(problem: Problem, by: usize) -> Problem {
    Problem { span: problem.span.start + by..problem.span.end + by, ..problem }
}

fn over(code: ProblemCode, span: Range<usize>, found: usize, most: usize) -> Vec<Problem> {
    vec![Problem::new(code, span, found.to_string(), most.to_string())]
}

/// SHA-256 in lower-case hexadecimal.
fn digest(text: &str) -> String {
    let nibble = |it: u8| char::from_digit(u32::from(it), 16).unwrap_or_default();
    Sha256::digest(text.as_bytes()).iter().flat_map(|it| [nibble(it >> 4), nibble(it & 15)]).collect()
}

impl Opened {
    /// When each action was done, milliseconds since the beginning, in which time with the file shut does not count.
    pub fn times(&self) -> Vec<u64> {
        let (mut before, mut last) = (0_u64, 0_u64);
        let mut times = Vec::new();
        for (_, line) in &self.lines {
            match line {
                Line::Opened { .. } => before = last,
                Line::Did { ms, .. } => {
                    last = before.saturating_add(*ms);
                    times.push(last);
                }
            }
        }
        times
    }

    /// Replays the actions.
    ///
    /// # Errors
    /// The first action that the work does not allow, placed at its line; `expected` is the reason's word.
    pub fn replay(&self, physics: &impl Physics) -> Result<Attempt, Vec<Problem>> {
        let mut attempt = Attempt::new(Arc::clone(&self.exercise));
        for (span, line) in &self.lines {
            if let Line::Did { action, .. } = line {
                attempt.act(action.clone(), physics).map_err(|refused| {
                    let found = refused.address().unwrap_or_default().to_owned();
                    let nearest = match &refused {
                        super::Refused::Unknown { nearest, .. } => nearest.clone(),
                        _ => None,
                    };
                    let problem = Problem::new(ProblemCode::Refused, span.clone(), found, refused.word());
                    vec![Problem { nearest, ..problem }]
                })?;
            }
        }
        Ok(attempt)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exercise::{SHIPPED, draw};

    /// Whatever was read before, a file says what it says; and each slip of the pen is still found.
    #[test]
    fn what_is_known_changes_nothing_that_is_read() {
        let exercise = draw(SHIPPED[0].1, Seed(4)).unwrap();
        let header = Header::new(3, &exercise, "A".to_owned(), "now".to_owned(), Mode::Set);
        let start = first_lines(&header, &exercise).unwrap();
        let mut known = Known::default();
        for lines in [
            "Did(ms:1,action:Agree)\n",
            "Did(ms:2,action:Agree)\nDid(ms:0,action:ProveIndicator)\n",
            "Did(ms:18446744073709551615,action:Agree)\nOpened(at:\"x\")\n",
            "Did(ms:3, action:Agree)\n",
            "Did(ms:03,action:Agree)\n",
            "Did(ms:,action:Agree)\n",
            "Did(ms:99999999999999999999,action:Agree)\n",
            "Did(ms:1,action:Agree,ms:2)\n",
            "Did(ms:1,action:Agree))\n",
            "Did(ms:1,action:Agrees)\n",
        ] {
            let text = format!("{start}{lines}");
            let (plain, again) = (open(&text), open_again(&text, &mut known, &[]));
            let said = |it: Result<Opened, Vec<Problem>>| it.map(|it| (it.header, it.lines, it.whole, it.cut_off));
            assert_eq!(said(plain), said(again), "{lines}");
        }
        assert_eq!(known.actions.len(), 2);
    }
}
