//! `describe`: every word that a scenario may be written with.

use std::io;

use switchdrop::wording::vocabulary;

use super::output::{Output, wrapped};

pub fn run(talk: &mut Output) -> io::Result<()> {
    for (number, it) in vocabulary(&talk.wording).into_iter().enumerate() {
        let lines = it.words.iter().map(|(word, meaning)| {
            let line = if meaning.is_empty() { word.clone() } else { format!("{word}: {meaning}") };
            wrapped(&line, "  ", "      ")
        });
        let lines: Vec<String> = std::iter::once(it.heading).chain(lines).collect();
        let gap = if number > 0 { "\n" } else { "" };
        talk.answer(&format!("{gap}{}", lines.join("\n")))?;
    }
    Ok(())
}
