//! What goes to the terminal: answers on standard output, trouble on standard error, everything cleaned first.

use std::{
    io::{self, IsTerminal, Write},
    ops::Range,
};

use annotate_snippets::{Level, Renderer};
use switchdrop::wording::{Wording, clean, problem};
use textwrap::{Options, WordSplitter, fill};

use super::drawing::{Said, drawing, drawn};
use crate::journal::JournalError;

/// Problems of one file that are drawn; the rest are counted.
const DRAWN: usize = 30;

/// Letters across for prose.
const WRAPPED: usize = 98;

/// Characters across for what is drawn.
const WIDTH: usize = 110;

/// The two streams, and whether anything was wrong.
pub struct Output {
    /// Every sentence.
    pub wording: Wording,
    out: io::Stdout,
    err: io::Stderr,
    renderer: Renderer,
    wrong: bool,
}

impl Output {
    /// To this program's own streams.
    pub fn new() -> Self {
        let plain = std::env::var_os("NO_COLOR").is_some_and(|it| !it.is_empty()) || !io::stderr().is_terminal();
        Self {
            wording: Wording::british(),
            out: io::stdout(),
            err: io::stderr(),
            renderer: if plain { Renderer::plain() } else { Renderer::styled() }.term_width(WIDTH),
            wrong: false,
        }
    }

    /// Whether some input was wrong.
    pub fn was_wrong(&self) -> bool {
        self.wrong
    }

    /// Answers with a line, or several, and sends them off.
    ///
    /// # Errors
    /// That standard output is closed or full.
    pub fn answer(&mut self, text: &str) -> io::Result<()> {
        let mut out = self.out.lock();
        out.write_all(clean(text).as_bytes())?;
        out.write_all(b"\n")?;
        out.flush()
    }

    /// Says that some input was wrong.
    pub fn wrong(&mut self, sentence: &str) {
        self.wrong = true;
        self.aside("sentence-error", sentence);
    }

    /// Says something that is worth knowing and no error.
    pub fn notice(&mut self, sentence: &str) {
        self.aside("sentence-notice", sentence);
    }

    /// Says what is wrong with a file: in a sentence, or drawn in its text.
    pub fn trouble(&mut self, trouble: &JournalError) {
        let JournalError::Wrong { path, text, problems } = trouble else {
            return self.wrong(&trouble.say(&self.wording));
        };
        let path = path.display().to_string();
        self.problems(&path, text, 0, problems);
    }

    /// Draws problems in the text they are in, of which `lines_before` lines came earlier.
    pub fn problems(
        &mut self,
        path: &str,
        text: &str,
        lines_before: usize,
        problems: &[switchdrop::exercise::Problem],
    ) {
        self.wrong = true;
        for it in problems.iter().take(DRAWN) {
            let drawn = drawing(&self.wording, &self.renderer, &clean(path), text, lines_before, it);
            self.say_aside(&drawn);
        }
        if problems.len() > DRAWN {
            let count = (problems.len() - DRAWN).to_string();
            let sentence = self.wording.say("problems-more", &[("count", &count), ("path", path)]);
            self.wrong(&sentence);
        }
    }

    /// Draws something that is doubtful and no error.
    pub fn doubt(&mut self, path: &str, text: &str, span: &Range<usize>, sentence: &str) {
        let title = self.wording.say("doubt-title", &[]);
        let said = Said { level: Level::WARNING.with_name(title.as_str()), sentence, help: None };
        let drawn = drawn(&self.renderer, &clean(path), text, 0, span, &said);
        self.say_aside(&drawn);
    }

    /// The sentences of problems that have no text to be drawn in.
    pub fn problem_sentences(&mut self, problems: &[switchdrop::exercise::Problem]) {
        for it in problems {
            let sentence = problem(&self.wording, it);
            self.wrong(&sentence);
        }
    }

    /// Says how far something is, if somebody sits at the terminal.
    pub fn progress(&mut self, key: &str, args: &[(&str, &str)]) {
        if self.err.is_terminal() {
            let sentence = self.wording.say(key, args);
            self.say_aside(&clean(&sentence));
        }
    }

    fn aside(&mut self, key: &str, sentence: &str) {
        let line = self.wording.say(key, &[("sentence", sentence)]);
        self.say_aside(&clean(&line));
    }

    fn say_aside(&mut self, text: &str) {
        // With standard error gone there is nobody left to tell; the exit code still does.
        let _ = writeln!(self.err, "{text}");
    }
}

/// Breaks prose at its blanks into lines of [`WRAPPED`] letters; the first begins with one text, the others with another.
pub fn wrapped(prose: &str, first: &str, others: &str) -> String {
    let options = Options::new(WRAPPED).initial_indent(first).subsequent_indent(others);
    fill(prose, options.break_words(false).word_splitter(WordSplitter::NoHyphenation))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prose_is_broken_between_words() {
        let word = "a-word-of-thirty-letters-or-so";
        let prose = [word; 4].join(" ");
        assert_eq!(
            wrapped(&prose, "- ", "  "),
            format!(
                "- {word} {word} {word}
  {word}"
            )
        );
    }
}
