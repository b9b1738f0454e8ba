//! The catalogue: messages by key, in one language.

use fluent_bundle::{FluentArgs, FluentError, FluentResource, concurrent::FluentBundle};
use unic_langid::LanguageIdentifier;

/// The files of the British catalogue, by subject.
const BRITISH: &[(&str, &str)] = &[
    ("authoring.ftl", include_str!("../../assets/wording/en-GB/authoring.ftl")),
    ("cautions.ftl", include_str!("../../assets/wording/en-GB/cautions.ftl")),
    ("command.ftl", include_str!("../../assets/wording/en-GB/command.ftl")),
    ("curious.ftl", include_str!("../../assets/wording/en-GB/curious.ftl")),
    ("doubts.ftl", include_str!("../../assets/wording/en-GB/doubts.ftl")),
    ("findings.ftl", include_str!("../../assets/wording/en-GB/findings.ftl")),
    ("glossary.ftl", include_str!("../../assets/wording/en-GB/glossary.ftl")),
    ("instruments.ftl", include_str!("../../assets/wording/en-GB/instruments.ftl")),
    ("picture.ftl", include_str!("../../assets/wording/en-GB/picture.ftl")),
    ("places.ftl", include_str!("../../assets/wording/en-GB/places.ftl")),
    ("problems.ftl", include_str!("../../assets/wording/en-GB/problems.ftl")),
    ("refused.ftl", include_str!("../../assets/wording/en-GB/refused.ftl")),
    ("register.ftl", include_str!("../../assets/wording/en-GB/register.ftl")),
    ("report.ftl", include_str!("../../assets/wording/en-GB/report.ftl")),
    ("why.ftl", include_str!("../../assets/wording/en-GB/why.ftl")),
    ("window.ftl", include_str!("../../assets/wording/en-GB/window.ftl")),
    ("work.ftl", include_str!("../../assets/wording/en-GB/work.ftl")),
];

/// Messages by key. Built once and shared.
pub struct Wording {
    bundle: FluentBundle<FluentResource>,
}

/// What a catalogue lacks for a sentence. A person still gets one; only the tests ask for this.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Lacking {
    /// There is no such message.
    #[error("no message `{0}`")]
    Message(String),
    /// The message asks for an argument that was not given, or cannot be formed.
    #[error("message `{0}` can't be formed: {1}")]
    Argument(String, String),
}

impl std::fmt::Debug for Wording {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Wording").field("locales", &self.bundle.locales).finish()
    }
}

impl Wording {
    /// The British catalogue. What cannot be read of its files is left out; a test sees that there is no such thing.
    pub fn british() -> Self {
        let locale: LanguageIdentifier = "en-GB".parse().unwrap_or_default();
        let mut bundle = FluentBundle::new_concurrent(vec![locale]);
        // Isolation marks would end up in files and in terminals that show them as boxes.
        bundle.set_use_isolating(false);
        for (_, text) in BRITISH {
            let (Ok(resource) | Err((resource, _))) = FluentResource::try_new((*text).to_owned());
            // Of two messages with one key the first stays.
            let _ = bundle.add_resource(resource);
        }
        Self { bundle }
    }

    /// The sentence of a key, `message` or `message.attribute`, with its arguments filled in. A key that is missing is
    /// said in brackets, so that a gap shows and stops nobody.
    pub fn say(&self, key: &str, args: &[(&str, &str)]) -> String {
        self.formed(key, args).0
    }

    /// As [`Self::say`], for tests.
    ///
    /// # Errors
    /// What the catalogue lacks.
    pub fn try_say(&self, key: &str, args: &[(&str, &str)]) -> Result<String, Lacking> {
        match self.formed(key, args) {
            (sentence, None) => Ok(sentence),
            (_, Some(lacking)) => Err(lacking),
        }
    }

    /// Whether there is such a message or attribute.
    pub fn has(&self, key: &str) -> bool {
        let (message, attribute) = split(key);
        self.bundle.get_message(message).is_some_and(|it| match attribute {
            Some(attribute) => it.get_attribute(attribute).is_some(),
            None => it.value().is_some(),
        })
    }

    /// Every key of the British catalogue, attributes included, with the file it stands in. For the tests that walk it.
    pub fn keys() -> Vec<(&'static str, String)> {
        let mut keys = Vec::new();
        for (file, text) in BRITISH {
            let mut message = "";
            for line in text.lines() {
                let Some((before, _)) = line.split_once(" =") else { continue };
                if let Some(attribute) = before.strip_prefix("    .") {
                    keys.push((*file, format!("{message}.{attribute}")));
                } else if before.starts_with(|it: char| it.is_ascii_alphabetic()) {
                    message = before;
                    keys.push((*file, message.to_owned()));
                }
            }
        }
        keys
    }

    fn formed(&self, key: &str, args: &[(&str, &str)]) -> (String, Option<Lacking>) {
        let (message, attribute) = split(key);
        let pattern = self.bundle.get_message(message).and_then(|found| match attribute {
            Some(attribute) => found.get_attribute(attribute).map(|it| it.value()),
            None => found.value(),
        });
        let Some(pattern) = pattern else {
            return (format!("[{key}]"), Some(Lacking::Message(key.to_owned())));
        };
        let mut values = FluentArgs::with_capacity(args.len());
        for (name, value) in args {
            values.set(*name, *value);
        }
        let mut errors: Vec<FluentError> = Vec::new();
        let sentence = self.bundle.format_pattern(pattern, Some(&values), &mut errors).into_owned();
        (sentence, errors.first().map(|it| Lacking::Argument(key.to_owned(), it.to_string())))
    }
}

fn split(key: &str) -> (&str, Option<&str>) {
    key.split_once('.').map_or((key, None), |(message, attribute)| (message, Some(attribute)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_is_read_whole_and_no_key_stands_twice() {
        let mut bundle: FluentBundle<FluentResource> = FluentBundle::new_concurrent(Vec::new());
        for (file, text) in BRITISH {
            let resource =
                FluentResource::try_new((*text).to_owned()).unwrap_or_else(|(_, it)| panic!("{file}: {it:?}"));
            bundle.add_resource(resource).unwrap_or_else(|it| panic!("{file}: {it:?}"));
        }
    }

    #[test]
    fn a_missing_key_is_said_in_brackets_and_a_missing_argument_stops_nobody() {
        let wording = Wording::british();
        assert_eq!(wording.say("nowhere", &[]), "[nowhere]");
        assert_eq!(wording.say("rocker-up.harm", &[]), "[rocker-up.harm]");
        assert!(matches!(wording.try_say("did-you-mean", &[]), Err(Lacking::Argument(..))));
    }

    #[test]
    fn arguments_go_in_as_they_are_without_isolation_marks() {
        assert_eq!(Wording::british().say("did-you-mean", &[("nearest", "west")]), "did you mean `west`?");
    }
}
