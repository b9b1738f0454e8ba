//! The glossary: each word at three depths, by which forms it is found on a screen, and what to read next.

use super::Wording;

/// The file of the catalogue that is the glossary.
const FILE: &str = "glossary.ftl";
/// What tells beginners' muddles from words.
const MUDDLE: &str = "muddle-";

/// How deep a meaning goes, and the attribute in which it stands.
pub const DEPTHS: [&str; 3] = ["householder", "learner", "tutor"];

/// A word of the glossary.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GlossaryEntry {
    /// By which others name it.
    pub id: String,
    /// The word.
    pub word: String,
    /// What else it is found by.
    pub forms: Vec<String>,
    /// What it means: to a householder, to a learner, to a tutor.
    pub means: [String; 3],
    /// The words to read next, by their ids.
    pub see: Vec<String>,
}

impl GlossaryEntry {
    /// Whether it is about what beginners take for something else.
    pub fn is_muddle(&self) -> bool {
        self.id.starts_with(MUDDLE)
    }

    /// Everything that it is found by.
    pub fn found_by(&self) -> impl Iterator<Item = &str> {
        // A muddle's heading is a sentence.
        let word = (!self.is_muddle()).then_some(self.word.as_str());
        word.into_iter().chain(self.forms.iter().map(String::as_str))
    }
}

/// All of it: muddles in the order of the file, then the words as in a dictionary.
pub fn glossary(wording: &Wording) -> Vec<GlossaryEntry> {
    let ids = Wording::keys().into_iter().filter(|(file, key)| *file == FILE && !key.contains('.')).map(|it| it.1);
    let entry = |id: String| {
        let of = |what: &str| wording.say(&format!("{id}.{what}"), &[]);
        let split = |what: &str, by: &[char]| -> Vec<String> {
            let text = if wording.has(&format!("{id}.{what}")) { of(what) } else { String::new() };
            text.split(by).filter(|it| !it.is_empty()).map(str::to_owned).collect()
        };
        let (word, forms, see) = (wording.say(&id, &[]), split("forms", &['|']), split("see", &[' ']));
        GlossaryEntry { means: DEPTHS.map(of), id, word, forms, see }
    };
    let mut all: Vec<GlossaryEntry> = ids.map(entry).collect();
    all.sort_by_key(|it| if it.is_muddle() { String::new() } else { it.word.to_lowercase() });
    all
}

/// The words of a text that stand in the glossary: from which byte to which, and the place of the entry. The longest form at a place
/// counts, and a form is found whole, in capitals or not; one of two letters or fewer, and one in capitals, as it is written.
pub fn words_in(glossary: &[GlossaryEntry], text: &str) -> Vec<(std::ops::Range<usize>, usize)> {
    let mut forms: Vec<(&str, usize)> =
        glossary.iter().enumerate().flat_map(|(place, it)| it.found_by().map(move |form| (form, place))).collect();
    forms.sort_by_key(|it| std::cmp::Reverse(it.0.len()));
    let is_of_word = |it: char| it.is_alphanumeric();
    let (mut found, mut at) = (Vec::new(), 0);
    while let Some(first) = text.get(at..).and_then(|it| it.chars().next()) {
        let starts = text[..at].chars().next_back().is_none_or(|it| !is_of_word(it) && it != '-');
        let here = forms.iter().filter(|_| starts).find(|(form, _)| {
            let is_exact = form.len() <= 2 || form.chars().all(|it| it.is_uppercase() || it.is_numeric());
            let Some(part) = text.get(at..at + form.len()) else { return false };
            let same = if is_exact { part == *form } else { part.eq_ignore_ascii_case(form) };
            same && text[at + form.len()..].chars().next().is_none_or(|it| !is_of_word(it) && it != '-')
        });
        match here {
            Some((form, place)) => {
                found.push((at..at + form.len(), *place));
                at += form.len();
            }
            None => at += first.len_utf8(),
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    /// What may stand for a source in the tutor's depth.
    const SOURCES: [&str; 10] =
        ["BS ", "HSE ", "EAWR", "IEC ", "ENA ", "GS38", "Table 51", "common practice, no source", "our own", "514."];

    #[test]
    fn every_entry_has_its_depths_its_links_and_a_source() {
        let all = glossary(&Wording::british());
        assert!(all.len() > 30, "only {}", all.len());
        let ids: BTreeSet<&str> = all.iter().map(|it| it.id.as_str()).collect();
        assert_eq!(ids.len(), all.len());
        for it in &all {
            for (depth, text) in DEPTHS.iter().zip(&it.means) {
                assert!(text.len() > 30 && !text.starts_with('['), "{}.{depth}: {text}", it.id);
            }
            assert!(!it.see.is_empty(), "{} leads nowhere", it.id);
            for see in &it.see {
                assert!(ids.contains(see.as_str()) && *see != it.id, "{} leads to {see}", it.id);
            }
            assert!(SOURCES.iter().any(|of| it.means[2].contains(of)), "{}: no source in {}", it.id, it.means[2]);
        }
    }

    /// The muddles that beginners bring are there, and come first.
    #[test]
    fn muddles_are_met_head_on() {
        let all = glossary(&Wording::british());
        let muddles: Vec<&str> = all.iter().filter(|it| it.is_muddle()).map(|it| it.word.as_str()).collect();
        assert_eq!(
            muddles,
            ["L1 and L2 are not phases", "Colours do not choose terminals", "Live includes the neutral"]
        );
        assert!(all[..3].iter().all(GlossaryEntry::is_muddle));
    }

    #[test]
    fn no_form_leads_to_two_entries() {
        let all = glossary(&Wording::british());
        let mut seen = BTreeSet::new();
        for form in all.iter().flat_map(GlossaryEntry::found_by) {
            assert!(seen.insert(form.to_lowercase()), "{form} stands twice");
        }
    }

    #[test]
    fn words_are_found_whole_and_the_longest_first() {
        let all = glossary(&Wording::british());
        let found = |text: &str| -> Vec<(String, String)> {
            let found = words_in(&all, text);
            found.into_iter().map(|(range, it)| (text[range].to_owned(), all[it].id.clone())).collect()
        };
        let pair = |a: &str, b: &str| (a.to_owned(), b.to_owned());
        assert_eq!(
            found("The permanent line is live; COM to L1."),
            [
                pair("permanent line", "word-permanent-line"),
                pair("live", "word-live"),
                pair("COM", "word-com"),
                pair("L1", "muddle-l1-l2"),
            ]
        );
        assert_eq!(found("deliver, outline, v, Vase, l1, incom, corefoo"), []);
        assert_eq!(found("230 V…Neutral"), [pair("V", "word-volt"), pair("Neutral", "word-neutral")]);
    }
}
