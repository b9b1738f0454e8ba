//! Values that a file writes as one bare word, the words coming from a table instead of from an enum's variants.

use std::fmt;

use serde::{
    Deserializer, Serializer,
    de::{DeserializeSeed, EnumAccess, Error, VariantAccess, Visitor},
};

/// Reads one of `words` and gives what `find` makes of it. `sort` is what such a word is called in a message.
///
/// # Errors
/// A word that is not in the table, with the table; or something that is no word.
pub(super) fn read<'de, D: Deserializer<'de>, T>(
    deserializer: D,
    sort: &'static str,
    words: &'static [&'static str],
    find: impl Fn(&str) -> Option<T>,
) -> Result<T, D::Error> {
    deserializer.deserialize_enum(sort, words, Choice { sort, words, find })
}

/// Writes a word as [`read`] reads it. `place` is its place in the table.
///
/// # Errors
/// Those of the serializer.
pub(super) fn write<S: Serializer>(
    serializer: S,
    sort: &'static str,
    place: usize,
    word: &'static str,
) -> Result<S::Ok, S::Error> {
    serializer.serialize_unit_variant(sort, u32::try_from(place).unwrap_or(u32::MAX), word)
}

struct Choice<F> {
    sort: &'static str,
    words: &'static [&'static str],
    find: F,
}

impl<'de, T, F: Fn(&str) -> Option<T>> Visitor<'de> for Choice<F> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "one of the words for {}", self.sort)
    }

    fn visit_enum<A: EnumAccess<'de>>(self, data: A) -> Result<T, A::Error> {
        let (value, rest) = data.variant_seed(Word { words: self.words, find: self.find })?;
        rest.unit_variant()?;
        Ok(value)
    }
}

struct Word<F> {
    words: &'static [&'static str],
    find: F,
}

impl<'de, T, F: Fn(&str) -> Option<T>> DeserializeSeed<'de> for Word<F> {
    type Value = T;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<T, D::Error> {
        deserializer.deserialize_identifier(self)
    }
}

impl<T, F: Fn(&str) -> Option<T>> Visitor<'_> for Word<F> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a word")
    }

    fn visit_str<E: Error>(self, word: &str) -> Result<T, E> {
        (self.find)(word).ok_or_else(|| E::unknown_variant(word, self.words))
    }
}

#[cfg(test)]
mod tests {
    use serde::{Deserialize, Serialize};

    use super::*;

    const WORDS: &[&str] = &["Red", "Green"];

    #[derive(Debug, PartialEq)]
    struct Light(usize);

    impl<'de> Deserialize<'de> for Light {
        fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
            read(deserializer, "Light", WORDS, |word| WORDS.iter().position(|it| *it == word).map(Light))
        }
    }

    impl Serialize for Light {
        fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
            write(serializer, "Light", self.0, WORDS[self.0])
        }
    }

    /// As an enum of unit variants would be read and written.
    #[test]
    fn words_are_read_and_written_as_an_enum_is() {
        let lights: Vec<Light> = ron::from_str("[Green, Red]").unwrap();
        assert_eq!(lights, [Light(1), Light(0)]);
        assert_eq!(ron::to_string(&lights).unwrap(), "[Green,Red]");
    }

    #[test]
    fn what_is_no_word_of_the_table_is_refused_with_the_table() {
        #[derive(Debug, Deserialize)]
        enum Light2 {
            Red,
            Green,
        }
        let found = |error: ron::error::SpannedError| match error.code {
            ron::Error::NoSuchEnumVariant { expected, found, .. } => (expected.to_vec(), found),
            other => panic!("{other:?}"),
        };
        let ours = found(ron::from_str::<Light>("Gren").unwrap_err());
        let theirs = found(ron::from_str::<Light2>("Gren").unwrap_err());
        assert_eq!(ours, theirs);
        assert!(matches!(ron::from_str::<Light2>("Green"), Ok(Light2::Green)));
        assert!(matches!(ron::from_str::<Light2>("Red"), Ok(Light2::Red)));
        for wrong in ["Green(1)", "\"Green\"", "1", "", "Green Red"] {
            assert!(ron::from_str::<Light>(wrong).is_err(), "{wrong}");
        }
    }
}
