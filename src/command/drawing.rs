//! A problem drawn under the line it is in.

use std::ops::Range;

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};
use switchdrop::{
    exercise::Problem,
    wording::{Wording, clean, cleaned, help, problem_without_help},
};

/// At most this many letters are underlined: of a longer stretch the beginning is enough.
const MARKED: usize = 60;

/// File, line and column, the text underlined, and the nearest name as help. `lines_before` is how many lines of the
/// file came before `text`. Of a very long line (an attempt's second has thousands of letters) the renderer shows the
/// part that matters.
pub fn drawing(
    wording: &Wording,
    renderer: &Renderer,
    path: &str,
    text: &str,
    lines_before: usize,
    problem: &Problem,
) -> String {
    let sentence = problem_without_help(wording, problem);
    let help = help(wording, problem);
    let said = Said { level: Level::ERROR, sentence: &sentence, help: help.as_deref() };
    drawn(renderer, path, text, lines_before, &problem.span, &said)
}

/// What is said of a place in a text.
pub struct Said<'a> {
    /// How much it matters, with the word for that.
    pub level: Level<'a>,
    pub sentence: &'a str,
    pub help: Option<&'a str>,
}

/// The same of anything that has a place.
pub fn drawn(
    renderer: &Renderer,
    path: &str,
    text: &str,
    lines_before: usize,
    span: &Range<usize>,
    said: &Said<'_>,
) -> String {
    let line = text.get(..span.start).unwrap_or(text).matches('\n').count() + 1;
    let shown = Shown::of(text, span);
    let sentence = clean(said.sentence);
    let snippet = Snippet::source(shown.text.as_str())
        .path(path)
        .line_start(line + lines_before)
        .annotation(AnnotationKind::Primary.span(shown.start..shown.end));
    let mut groups = vec![Group::with_title(said.level.clone().primary_title(sentence.as_str())).element(snippet)];
    let help = said.help.map(clean);
    if let Some(help) = &help {
        groups.push(Group::with_title(Level::HELP.secondary_title(help.as_str())));
    }
    renderer.render(&groups)
}

/// The line that a problem begins in, cleaned, and what of it is underlined.
struct Shown {
    text: String,
    start: usize,
    end: usize,
}

impl Shown {
    fn of(text: &str, span: &Range<usize>) -> Self {
        let start = floor(text, span.start);
        let end = floor(text, span.end).max(start);
        let line_start = text[..start].rfind('\n').map_or(0, |it| it + 1);
        let line = text[line_start..].lines().next().unwrap_or("");
        let mut shown = Self { text: String::with_capacity(line.len()), start: 0, end: 0 };
        let mut letters = 0;
        for (at, letter) in line.char_indices() {
            // Cleaning may change how many bytes a letter has.
            if at + line_start == start {
                shown.start = shown.text.len();
            }
            shown.text.push(cleaned(letter));
            // At least one letter, where the span is empty too.
            let marked = at + line_start == start || (start..end).contains(&(at + line_start));
            if marked && letters < MARKED {
                letters += 1;
                shown.end = shown.text.len();
            }
        }
        // At the end of its line.
        if start >= line_start + line.len() {
            shown.start = shown.text.len();
        }
        shown.end = shown.end.max(shown.start);
        shown
    }
}

/// The last boundary between letters at or before a byte.
fn floor(text: &str, byte: usize) -> usize {
    (0..=byte.min(text.len())).rev().find(|it| text.is_char_boundary(*it)).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use switchdrop::exercise::ProblemCode;

    use super::*;

    fn draw(text: &str, span: std::ops::Range<usize>, nearest: Option<&str>) -> String {
        let nearest = nearest.map(str::to_owned);
        let problem = Problem { nearest, ..Problem::new(ProblemCode::UnknownLocation, span, "wset", "") };
        drawing(&Wording::british(), &Renderer::plain().term_width(110), "a.ron", text, 0, &problem)
    }

    #[test]
    fn the_place_is_underlined_and_the_nearest_name_offered() {
        let expected = "\
error: there is no location `wset`
 --> a.ron:2:5
  |
2 | to: wset,
  |     ^^^^
  |
help: did you mean `west`?";
        assert_eq!(draw("from: a,\r\nto: wset,\r\n", 14..18, Some("west")), expected);
    }

    #[test]
    fn a_very_long_line_is_shown_in_part_and_placed_by_its_true_column() {
        let text = format!("{}wset{}", "x".repeat(5000), "y".repeat(5000));
        let whole = draw(&text, 0..text.len(), None);
        assert!(whole.lines().all(|it| it.chars().count() < 140), "{whole}");
        let drawn = draw(&text, 5000..5004, None);
        assert!(drawn.contains("a.ron:1:5001"), "{drawn}");
        assert!(drawn.lines().all(|it| it.chars().count() < 140), "{drawn}");
        assert!(drawn.contains("xwsety"), "{drawn}");
    }

    /// Whatever a file holds and wherever a problem is said to be, something is drawn and it is clean.
    #[test]
    fn odd_texts_and_spans_are_drawn_all_the_same() {
        for text in ["", "\n", "é", "\u{1b}[2J\u{202e}\té\n", "\r\n\r\n"] {
            for start in 0..=text.len() + 1 {
                for end in start..=text.len() + 2 {
                    let drawn = draw(text, start..end, None);
                    assert!(drawn.contains("a.ron:"), "{text:?} {start} {end}\n{drawn}");
                    assert!(!drawn.contains(['\u{1b}', '\u{202e}']), "{drawn:?}");
                }
            }
        }
    }
}
