//! A tutor's bank of phrases: what is written again and again beside marks, each under a key.
//!
//! A decision takes the words and not the key: what was decided stays as it was told, however the bank is rewritten.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::tutor_file::TutorFile;
use crate::exercise::{Limits, Placed, ProblemCode, Problems, is_new_id};

/// The bank that comes with the program, for a tutor to begin from.
pub const PHRASES: &str = include_str!("../../assets/phrases.ron");

/// Phrases by their keys.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PhraseBank(BTreeMap<String, String>);

/// The file as it is written.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Phrases")]
struct PhrasesFile<'t> {
    #[serde(borrow)]
    phrases: Vec<PhraseEntry<'t>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Phrase")]
struct PhraseEntry<'t> {
    #[serde(borrow)]
    key: Placed<'t, String>,
    text: Placed<'t, String>,
}

impl PhraseBank {
    /// Reads a bank: at most [`Limits::TUTOR_ENTRIES`] phrases of at most [`Limits::PARAGRAPH_CHARS`] characters.
    ///
    /// # Errors
    /// Everything that is wrong with it, with its places.
    pub fn read(text: &str) -> Result<Self, Problems> {
        let (file, mut reader) = TutorFile::read::<PhrasesFile<'_>>(text)?;
        if let Some(over) = file.phrases.get(Limits::TUTOR_ENTRIES) {
            reader.too_many(&over.key, file.phrases.len());
        }
        let mut bank = BTreeMap::new();
        for PhraseEntry { key, text } in &file.phrases {
            if !is_new_id(key) {
                reader.problem(ProblemCode::BadId, key, key.value.clone(), "");
            }
            reader.prose(text, Limits::PARAGRAPH_CHARS);
            if bank.insert(key.value.clone(), text.trim().to_owned()).is_some() {
                reader.problem(ProblemCode::Duplicate, key, key.value.clone(), "");
            }
        }
        reader.or(Self(bank))
    }

    /// The words under a key.
    pub fn get(&self, key: &str) -> Option<&str> {
        self.0.get(key).map(String::as_str)
    }

    /// Every key, in the order of the alphabet.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.0.keys().map(String::as_str)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bank(entries: &str) -> Result<PhraseBank, Problems> {
        PhraseBank::read(&format!("Phrases(phrases: [\n{entries}\n])"))
    }

    #[test]
    fn a_phrase_is_found_by_its_key_alone() {
        let bank = bank("Phrase(key: \"r1-r2\", text: \" Read R1/R2 again. \"),\nPhrase(key: \"b\", text: \"é\")");
        let bank = bank.unwrap_or_else(|it| panic!("{it}"));
        assert_eq!((bank.get("r1-r2"), bank.get("b"), bank.get("R1-R2")), (Some("Read R1/R2 again."), Some("é"), None));
        assert_eq!(bank.keys().collect::<Vec<_>>(), ["b", "r1-r2"]);
    }

    /// Each slip by hand: its code and the line on which it stands.
    #[test]
    fn a_bank_with_a_slip_is_refused_with_its_line() {
        let long = "a".repeat(Limits::PARAGRAPH_CHARS + 1);
        let good = "Phrase(key: \"a\", text: \"x\"),\n";
        for (entries, code, line) in [
            (format!("{good}Phrase(key: \"A b\", text: \"x\")"), ProblemCode::BadId, 3),
            (format!("{good}Phrase(key: \"b\", text: \" \")"), ProblemCode::BadName, 3),
            (format!("{good}Phrase(key: \"b\", text: \"a\u{202e}b\")"), ProblemCode::BadName, 3),
            (format!("{good}Phrase(key: \"b\",\ntext: {long:?})"), ProblemCode::BadName, 4),
            (format!("{good}\n{good}"), ProblemCode::Duplicate, 4),
            (format!("{good}Phrase(key: \"b\", words: \"x\")"), ProblemCode::UnknownField, 3),
            (format!("{good}Phrase(key: \"b\" text: \"x\")"), ProblemCode::Syntax, 3),
        ] {
            let problems = bank(&entries).expect_err(&entries);
            let text = format!("Phrases(phrases: [\n{entries}\n])");
            assert_eq!((problems[0].code, problems[0].position(&text).0), (code, line), "{problems}");
        }
        let many = |count: usize| {
            let each: Vec<String> = (0..count).map(|it| format!("Phrase(key: \"k{it}\", text: \"x\"),")).collect();
            each.concat()
        };
        assert!(bank(&many(Limits::TUTOR_ENTRIES)).is_ok());
        let over = bank(&many(Limits::TUTOR_ENTRIES + 1)).expect_err("one too many");
        assert_eq!(over[0].code, ProblemCode::TooManyEntries);
        let large = PhraseBank::read(&" ".repeat(Limits::TUTOR_FILE_BYTES + 1)).expect_err("too large");
        assert_eq!(large[0].code, ProblemCode::TooLarge);
        assert!(PhraseBank::read(&"(".repeat(10_000)).is_err());
    }

    #[test]
    fn the_bank_that_comes_with_the_program_can_be_read() {
        let bank = PhraseBank::read(PHRASES).unwrap_or_else(|it| panic!("{it}"));
        assert!(bank.keys().count() >= 8);
    }
}
