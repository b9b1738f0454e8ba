//! What was wrong with a text that could not be read, in terms of what was expected instead of the reader's own.

use std::ops::Range;

use ron::{Error, error::SpannedError};

use super::{address::nearest, problem::ProblemCode, words::WordSort};

/// Between the parts of a line that says what was wrong in a value; no word of a file has it.
const PART: char = '\u{1f}';

/// Letters of a list that is too long to be read, where one of its words is near: actions are such a list, accessories are not.
const LONG_LIST: usize = 400;

/// What was wrong, and where.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Misread {
    pub code: ProblemCode,
    pub found: String,
    pub expected: String,
    pub inside: String,
    pub nearest: Option<String>,
    /// In bytes of the text that was read.
    pub span: Range<usize>,
}

impl Misread {
    /// What the reader of RON said of `text`.
    pub fn of(text: &str, error: &SpannedError) -> Self {
        if let Error::Message(said) = &error.code
            && let Some(told) = Self::unpacked(text, said)
        {
            return told;
        }
        let start = offset(text, error.span.start.line, error.span.start.col);
        let end = offset(text, error.span.end.line, error.span.end.col).clamp(start, text.len());
        let (found, expected, inside, code) = match &error.code {
            Error::NoSuchEnumVariant { expected, found, .. } => {
                let sort = WordSort::of(expected).map_or("other", WordSort::word);
                (found.clone(), expected.join(", "), sort.to_owned(), ProblemCode::UnknownWord)
            }
            Error::NoSuchStructField { expected, found, outer } => {
                (found.clone(), expected.join(", "), outer.clone().unwrap_or_default(), ProblemCode::UnknownField)
            }
            Error::MissingStructField { field, outer } => {
                (String::new(), (*field).to_owned(), outer.clone().unwrap_or_default(), ProblemCode::MissingField)
            }
            Error::DuplicateStructField { field, .. } => {
                ((*field).to_owned(), String::new(), String::new(), ProblemCode::Duplicate)
            }
            Error::ExpectedDifferentStructName { expected, found } => {
                (found.clone(), (*expected).to_owned(), "entry".to_owned(), ProblemCode::UnknownWord)
            }
            other => (String::new(), shape(other).to_owned(), String::new(), ProblemCode::Syntax),
        };
        let expecting = expected.split(", ").filter(|_| !found.is_empty());
        let nearest = nearest(&found, expecting);
        // One word that was probably meant says more than a long list.
        let expected = nearest.clone().filter(|_| expected.len() > LONG_LIST).unwrap_or(expected);
        Self { code, span: narrowed(text, start..end, &found), found, expected, inside, nearest }
    }

    /// All of it in one line, which [`Self::of`] understands for the text that `part` is a part of: serde hands on of an error in a value
    /// no more than a sentence.
    pub fn packed(part: &str, error: &SpannedError) -> String {
        let it = Self::of(part, error);
        let all = part.trim();
        // A value of a wrong shape is marked whole.
        let is_shape = it.code == ProblemCode::Syntax && !all.contains('\n') && !all.starts_with(['[', '(']);
        let from = part.as_ptr() as usize;
        let range = if is_shape { from..from + all.len() } else { from + it.span.start..from + it.span.end };
        let numbers = [range.start, range.end].map(|it| it.to_string());
        let parts = [&numbers[0], &numbers[1], it.code.word(), &it.inside, &it.expected, &it.found];
        parts.join(&PART.to_string())
    }

    fn unpacked(text: &str, said: &str) -> Option<Self> {
        let parts: Vec<&str> = said.splitn(6, PART).collect();
        let [start, end, code, inside, expected, found] = parts[..] else { return None };
        let place = |it: &str| it.parse::<usize>().ok()?.checked_sub(text.as_ptr() as usize);
        let span = place(start)?..place(end)?;
        text.get(span.clone())?;
        let code = ProblemCode::ALL.iter().copied().find(|it| it.word() == code)?;
        let nearest = nearest(found, expected.split(", ").filter(|_| !found.is_empty()));
        let [found, expected, inside] = [found, expected, inside].map(str::to_owned);
        Some(Self { code, found, expected, inside, nearest, span })
    }
}

/// The shape that was expected, by the key of its sentence.
fn shape(error: &Error) -> &'static str {
    match error {
        Error::ExpectedString => "syntax-text",
        Error::ExpectedStringEnd => "syntax-text-end",
        Error::InvalidEscape(_) => "syntax-escape",
        Error::ExpectedFloat | Error::FloatUnderscore => "syntax-number",
        Error::ExpectedInteger | Error::InvalidIntegerDigit { .. } => "syntax-whole-number",
        Error::IntegerOutOfBounds => "syntax-range",
        Error::ExpectedBoolean => "syntax-yes-no",
        Error::ExpectedArray => "syntax-list",
        Error::ExpectedArrayEnd => "syntax-list-end",
        Error::ExpectedComma => "syntax-comma",
        Error::ExpectedMapColon => "syntax-colon",
        Error::ExpectedStructLike | Error::ExpectedNamedStructLike(_) => "syntax-bracket",
        Error::ExpectedStructLikeEnd | Error::ExpectedOptionEnd => "syntax-bracket-end",
        Error::ExpectedIdentifier
        | Error::InvalidIdentifier(_)
        | Error::SuggestRawIdentifier(_)
        | Error::UnderscoreAtBeginning => "syntax-word",
        Error::Eof => "syntax-end",
        Error::TrailingCharacters => "syntax-more",
        Error::UnclosedBlockComment | Error::UnclosedLineComment => "syntax-comment-end",
        Error::ExceededRecursionLimit => "syntax-depth",
        Error::InvalidValueForType { expected, .. } if expected.contains("string") => "syntax-text",
        Error::InvalidValueForType { .. } | Error::ExpectedDifferentLength { .. } => "syntax-value",
        _ => "syntax-other",
    }
}

/// The word that was found, if it stands at the end of what was read last; else that stretch without the blanks around it.
fn narrowed(text: &str, span: Range<usize>, found: &str) -> Range<usize> {
    if !found.is_empty()
        && let Some(at) = text[..span.end].rfind(found).filter(|it| it + found.len() >= span.start)
    {
        return at..at + found.len();
    }
    let stretch = &text[span.clone()];
    let start = span.start + (stretch.len() - stretch.trim_start().len());
    let end = span.start + stretch.trim_end().len();
    if start < end {
        return start..end;
    }
    // It stopped at a blank: what comes after it is what is not wanted.
    let after = text[span.end..].trim_start();
    let next = after.chars().next().map_or(0, char::len_utf8);
    if next > 0 { text.len() - after.len()..text.len() - after.len() + next } else { span }
}

/// Byte offset of a line and column counted from 1 in characters.
fn offset(text: &str, line: usize, column: usize) -> usize {
    let line_start: usize = text.split_inclusive('\n').take(line.saturating_sub(1)).map(str::len).sum();
    let rest = text.get(line_start..).unwrap_or("");
    let within: usize = rest.chars().take(column.saturating_sub(1)).map(char::len_utf8).sum();
    (line_start + within).min(text.len())
}

/// What the beginning of a file gives it away as, by the key of its sentence; `None` for what may be one of this program's.
pub fn other_file(bytes: &[u8]) -> Option<&'static str> {
    /// Signatures of file formats, from memory: each is published by the format's owner and is what `file` looks for.
    const SIGNATURES: [(&[u8], &str); 5] = [
        (b"%PDF-", "file-kind-pdf"),
        (b"PK\x03\x04", "file-kind-zip"),
        (b"\x89PNG", "file-kind-picture"),
        (b"\xff\xd8\xff", "file-kind-picture"),
        (b"{\\rtf", "file-kind-document"),
    ];
    if let Some((_, kind)) = SIGNATURES.iter().find(|it| bytes.starts_with(it.0)) {
        return Some(kind);
    }
    match bytes.trim_ascii_start() {
        [b'<', ..] => Some("file-kind-web-page"),
        [b'{', ..] => Some("file-kind-json"),
        _ => None,
    }
}
