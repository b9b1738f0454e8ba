//! Reading an attempt: every line is checked against the chain of sums, and then read.

use std::{borrow::Cow, cell::Cell, collections::BTreeMap, ops::Range, sync::Arc};

use serde::Deserialize;

use super::{
    AnswersFrom, Assigned, Drawn, Header, Line, Mode, Opened,
    chain::{Broken, Chain, sha256, split},
};
use crate::{
    attempt::format::Format,
    exercise::{
        Exercise, Limits, Problem, ProblemCode, Problems, Seed, Template, is_new_id, names_are_clean, nearest, options,
        read_drawn, read_for_states,
    },
    work::Action,
};

/// The first line as it stands in the file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Attempt")]
struct HeaderLine {
    format: u32,
    marking: u32,
    scenario: String,
    seed: u64,
    learner: String,
    started: String,
    mode: Mode,
    #[serde(default)]
    assigned: Option<Assigned>,
}

/// Reads an action that stands alone, as in a line of a script.
///
/// # Errors
/// What is wrong with it, placed in `text`.
pub fn parse_action(text: &str) -> Result<Action, Problems> {
    if text.len() > Limits::ACTION_BYTES {
        return Err(over(ProblemCode::ActionTooLong, 0..text.len(), text.len(), Limits::ACTION_BYTES));
    }
    options().from_str(text).map_err(|err| match &err.code {
        ron::Error::NoSuchEnumVariant { expected, found, .. } if first_word(text) == found => {
            let span = Problem::from_ron(text, &err).span;
            // Names are one word; whoever types may have parted them.
            let words: String = text.split('(').next().unwrap_or_default().split_whitespace().collect();
            let nearest = nearest_in_any_case(&words, expected).or_else(|| nearest_in_any_case(found, expected));
            Problem { nearest, ..Problem::new(ProblemCode::UnknownAction, span, found.clone(), "") }.into()
        }
        _ => Problem::from_ron(text, &err).into(),
    })
}

/// How the action that a line begins with is written, `PowerOff(device: …)`; `None`: it begins with none.
pub fn action_form(text: &str) -> Option<String> {
    let name = first_word(text);
    // No action has a field of this name, and whoever says so says which it has.
    match options().from_str::<Action>(&format!("{name}(no_such_field:0)")).err()?.code {
        ron::Error::NoSuchStructField { expected, .. } => {
            let fields: Vec<_> = expected.iter().map(|it| format!("{it}: …")).collect();
            Some(format!("{name}({})", fields.join(", ")))
        }
        _ => options().from_str::<Action>(name).is_ok().then(|| name.to_owned()),
    }
}

fn first_word(text: &str) -> &str {
    text.trim_start().split(|it: char| !it.is_ascii_alphanumeric()).next().unwrap_or_default()
}

fn nearest_in_any_case(found: &str, names: &[&str]) -> Option<String> {
    let small: Vec<String> = names.iter().map(|it| it.to_lowercase()).collect();
    let near = nearest(&found.to_lowercase(), small.iter().map(String::as_str))?;
    names.iter().zip(&small).find(|it| *it.1 == near).map(|it| (*it.0).to_owned())
}

/// Reads an attempt; nothing is replayed yet.
///
/// # Errors
/// Every problem of the first line that has one, placed in `text`.
pub fn open(text: &str) -> Result<Opened, Problems> {
    open_with(text, read_drawn)
}

/// Reads an attempt of which only the states are wanted: see [`read_for_states`].
///
/// # Errors
/// As [`open`].
pub fn open_for_states(text: &str) -> Result<Opened, Problems> {
    open_with(text, read_for_states)
}

/// Who did an attempt, by its first line alone; `None` where that can't be read. Its sum is not looked at: of a file with
/// something wrong in it this still says whose it is.
pub fn learner_of(first_line: &str) -> Option<String> {
    header_of(first_line).map(|it| it.learner)
}

/// Which piece of set work an attempt is, by its first line alone, as [`learner_of`] says whose; with the id of its exercise.
pub fn assigned_of(first_line: &str) -> Option<(Assigned, String)> {
    let header = header_of(first_line)?;
    Some((header.assigned.filter(is_sound)?, header.scenario))
}

fn header_of(first_line: &str) -> Option<HeaderLine> {
    let line = first_line.trim_end();
    let bare = split(line).map_or(Cow::Borrowed(line), |(body, _)| Cow::Owned(format!("{body})")));
    value(&bare, 0).ok()
}

/// Whether all of it may be shown, stored and put into a file's name.
fn is_sound(assigned: &Assigned) -> bool {
    let Assigned { assignment, sha256, learner, nth, code, answers } = assigned;
    is_new_id(assignment)
        && sha256.len() == 64
        && sha256.bytes().all(|it| it.is_ascii_hexdigit())
        && (1..=Limits::LEARNER).contains(learner)
        && (1..=Limits::TRIES).contains(nth)
        && (code.is_empty() || names_are_clean(code, CODE_CHARS))
        && (!matches!(answers, AnswersFrom::Time(_)) || answers.time().is_some())
}

/// What was read before. Attempts marked together mostly have the same exercise and many of the same actions, and reading
/// those costs more than all the rest.
#[derive(Debug, Clone, Default)]
pub struct ReadBefore {
    exercise: Option<KnownExercise>,
    /// By their texts, up to [`ACTIONS`].
    actions: BTreeMap<String, Action>,
}

/// Most characters of the code of an adjustment, blanks and hyphens among them.
const CODE_CHARS: usize = 16;

/// Most actions that are remembered.
const ACTIONS: usize = 4096;

/// An exercise read before, by the line that held it.
#[derive(Debug, Clone)]
struct KnownExercise {
    line: String,
    seed: u64,
    exercise: Arc<Exercise>,
    drawn: bool,
}

impl ReadBefore {
    /// Whether one of the templates gave the last exercise word for word.
    pub fn is_drawn(&self) -> bool {
        self.exercise.as_ref().is_some_and(|it| it.drawn)
    }
}

/// The same as [`open`], but a text that `known` holds already is not read again; any other is added to it. An
/// exercise that one of the templates gives word for word need not be read either.
///
/// # Errors
/// As [`open`].
pub fn open_again(text: &str, known: &mut ReadBefore, templates: &[Template<'_>]) -> Result<Opened, Problems> {
    let (drawn, unread) = (Cell::new(false), Cell::new(None));
    let ReadBefore { exercise: before, actions } = known;
    let opened = open_knowing(text, read_drawn, Some(actions), &|line, header| {
        if let Some(it) = before.as_ref().filter(|it| it.seed == header.seed && it.line == line) {
            return Some(Arc::clone(&it.exercise));
        }
        unread.set(Some(line.to_owned()));
        let template = templates.iter().find(|it| it.id() == header.scenario)?;
        let (stated, inner) = cut_out(line)?;
        let exercise = template.exercise(inner, Seed(header.seed)).filter(|_| sha256(inner.as_bytes()) == stated)?;
        drawn.set(true);
        Some(Arc::new(exercise))
    })?;
    if let Some(line) = unread.take() {
        let (exercise, seed) = (Arc::clone(&opened.exercise), opened.header.seed);
        *before = Some(KnownExercise { line, seed, exercise, drawn: drawn.get() });
    }
    Ok(opened)
}

/// How an exercise is read.
type Reader = fn(&str, Seed) -> Result<Exercise, Problems>;

fn open_with(text: &str, reader: Reader) -> Result<Opened, Problems> {
    open_knowing(text, reader, None, &|_, _| None)
}

/// `known` gives the exercise for a line and a header where that line need not be read.
fn open_knowing(
    text: &str,
    reader: Reader,
    mut actions: Option<&mut BTreeMap<String, Action>>,
    known: &dyn Fn(&str, &Header) -> Option<Arc<Exercise>>,
) -> Result<Opened, Problems> {
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
        return Err(Problem::new(ProblemCode::CutShort, whole..whole, "", "").into());
    };
    let (header, mut chain) = read_header(text, first.clone())?;
    let line = opened(text, &second, &mut chain)?;
    let exercise = match known(&line, &header) {
        Some(it) => it,
        None => Arc::new(read_exercise(&line, second.start, Seed(header.seed), reader)?),
    };
    if header.scenario != exercise.id {
        let (found, expected) = (header.scenario, exercise.id.clone());
        let quoted = format!("\"{found}\"");
        let span = text[first.clone()].find(&quoted).map_or(first.clone(), |it| {
            let start = first.start + it;
            start..start + quoted.len()
        });
        return Err(Problem::new(ProblemCode::OtherScenario, span, found, expected).into());
    }
    let mut lines = Vec::new();
    for span in spans {
        if lines.len() + 2 >= Limits::ATTEMPT_LINES {
            return Err(over(ProblemCode::TooManyLines, span, lines.len() + 3, Limits::ATTEMPT_LINES));
        }
        if span.len() > Limits::ACTION_BYTES {
            return Err(over(ProblemCode::ActionTooLong, span.clone(), span.len(), Limits::ACTION_BYTES));
        }
        let line = opened(text, &span, &mut chain)?;
        let line = match &mut actions {
            Some(actions) => line_again(&line, span.start, actions)?,
            None => value(&line, span.start)?,
        };
        lines.push((span, line));
    }
    Ok(Opened { header, exercise, lines, chain, whole, cut_off: text.len() - whole })
}

/// A line without its sum, which has been checked against it.
fn opened<'t>(text: &'t str, span: &Range<usize>, chain: &mut Chain) -> Result<Cow<'t, str>, Problems> {
    chain.open(&text[span.clone()]).map_err(|broken| {
        let code = match broken {
            Broken::NoSum => ProblemCode::NoSum,
            Broken::OtherSum => ProblemCode::OtherSum,
        };
        Problem::new(code, span.clone(), "", "").into()
    })
}

/// Reads a line after the second, which begins at byte `start`, or takes its action from those known.
fn line_again(text: &str, start: usize, actions: &mut BTreeMap<String, Action>) -> Result<Line, Problems> {
    // The form in which this program writes it; any other form is read in full.
    let parts = || {
        let (ms, rest) = text.strip_prefix("Did(ms:")?.split_once(",action:")?;
        let plain = ms.bytes().all(|it| it.is_ascii_digit()) && (ms == "0" || !ms.starts_with('0'));
        Some((ms.parse().ok().filter(|_| plain)?, rest.strip_suffix(')')?))
    };
    let parts: Option<(u64, &str)> = parts();
    if let Some((ms, action)) = parts
        && let Some(action) = actions.get(action)
    {
        return Ok(Line::Did { ms, action: action.clone() });
    }
    let line = value(text, start)?;
    if let (Some((_, text)), Line::Did { action, .. }) = (parts, &line)
        && actions.len() < ACTIONS
    {
        actions.insert(text.to_owned(), action.clone());
    }
    Ok(line)
}

/// Reads the first line, and begins the chain with it.
fn read_header(text: &str, span: Range<usize>) -> Result<(Header, Chain), Problems> {
    let wrong = |code, found: String, expected: String| Problem::new(code, span.clone(), found, expected);
    // Which format it is, and so whether it has a sum, stands in the line itself.
    let line = &text[span.clone()];
    let bare = split(line).map_or(Cow::Borrowed(line), |(body, _)| Cow::Owned(format!("{body})")));
    let read: HeaderLine = value(&bare, span.start)?;
    let Some(format) = Format::of(read.format) else {
        let known: Vec<String> = Format::ALL.iter().map(ToString::to_string).collect();
        return Err(wrong(ProblemCode::Format, read.format.to_string(), known.join(", ")).into());
    };
    if !format.has_sums() {
        value::<HeaderLine>(line, span.start)?;
    }
    let mut chain = Chain::new(format);
    opened(text, &span, &mut chain)?;
    for name in [&read.learner, &read.scenario, &read.started] {
        if !names_are_clean(name, Limits::NAME_CHARS) {
            return Err(wrong(ProblemCode::BadName, name.clone(), Limits::NAME_CHARS.to_string()).into());
        }
    }
    if read.assigned.as_ref().is_some_and(|it| !is_sound(it)) {
        return Err(wrong(ProblemCode::BadName, String::new(), Limits::NAME_CHARS.to_string()).into());
    }
    let HeaderLine { marking, scenario, seed, learner, started, mode, assigned, .. } = read;
    Ok((Header { format, marking, scenario, seed, learner, started, mode, assigned }, chain))
}

/// Reads the second line, which begins at byte `start`.
fn read_exercise(line: &str, start: usize, seed: Seed, reader: Reader) -> Result<Exercise, Problems> {
    // The text of the exercise is long, and a second pass over it costs time: in the form that this program writes, it
    // is simply cut out. If anything differs, the line is read in full, and that says what is wrong.
    let cut = cut_out(line).filter(|(stated, inner)| sha256(inner.as_bytes()) == *stated);
    if let Some(exercise) = cut.and_then(|(_, inner)| reader(inner, seed).ok()) {
        return Ok(exercise);
    }
    let drawn: Drawn<'_> = value(line, start)?;
    let inner = drawn.exercise.trim().get_ron();
    let found = sha256(inner.as_bytes());
    if found != drawn.sha256 {
        return Err(Problem::new(ProblemCode::Digest, start..start + line.len(), drawn.sha256, found).into());
    }
    let at = start + (inner.as_ptr() as usize - line.as_ptr() as usize);
    reader(inner, seed).map_err(|problems| problems.into_iter().map(|it| it.moved(at)).collect())
}

/// The digest and the exercise of a line that stands as [`super::first_lines`] writes it.
fn cut_out(line: &str) -> Option<(&str, &str)> {
    let (sha256, rest) = line.strip_prefix("(sha256:\"")?.split_once("\",exercise:")?;
    let inner = rest.strip_suffix(')')?;
    (inner.starts_with('(') && inner.ends_with(')')).then_some((sha256, inner))
}

/// Reads the value that stands alone on a line, which begins at byte `start` of its file.
fn value<'t, T: Deserialize<'t>>(line: &'t str, start: usize) -> Result<T, Problems> {
    options().from_str(line).map_err(|err| Problem::from_ron(line, &err).moved(start).into())
}

fn over(code: ProblemCode, span: Range<usize>, found: usize, most: usize) -> Problems {
    Problem::new(code, span, found.to_string(), most.to_string()).into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        attempt::first_lines,
        exercise::{draw, shipped},
    };

    /// What was read before changes nothing in how a file is read, and each slip of the pen is still found.
    #[test]
    fn what_is_known_changes_nothing_that_is_read() {
        let exercise = draw(shipped("one-way-rose").unwrap(), Seed(4)).unwrap();
        for format in Format::ALL {
            what_is_known_changes_nothing(format, &exercise);
        }
    }

    fn what_is_known_changes_nothing(format: Format, exercise: &Exercise) {
        let header = Header { format, ..Header::new(3, exercise, "A".to_owned(), "now".to_owned(), Mode::Set) };
        let start = first_lines(&header, exercise).unwrap();
        let mut known = ReadBefore::default();
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
            let mut chain = Chain::new(format);
            let text: String = start.iter().map(String::as_str).chain(lines.lines()).map(|it| chain.seal(it)).collect();
            let (plain, again) = (open(&text), open_again(&text, &mut known, &[]));
            let said = |it: Result<Opened, Problems>| it.map(|it| (it.header, it.lines, it.whole, it.cut_off));
            assert_eq!(said(plain), said(again), "{lines}");
        }
        assert_eq!(known.actions.len(), 2);
    }
}
