//! A value that remembers where in the text it stood, so that a problem can point at it.

use std::ops::{Deref, Range};

use ron::{extensions::Extensions, value::RawValue};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de::DeserializeOwned};

use super::{limits::Limits, misread::Misread};

/// A value read from RON together with the slice of text it was read from.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Placed<'a, T> {
    pub value: T,
    raw: &'a str,
}

impl<T> Placed<'_, T> {
    /// Where the value stands in `text`, in bytes. `text` must be the very string that was parsed; anything else gives
    /// an empty span at its start.
    pub fn span(&self, text: &str) -> Range<usize> {
        let start = (self.raw.as_ptr() as usize).wrapping_sub(text.as_ptr() as usize);
        if start <= text.len() { start..start + self.raw.len().min(text.len() - start) } else { 0..0 }
    }
}

/// A value that is about to be written: it stands nowhere yet.
impl<T> From<T> for Placed<'_, T> {
    fn from(value: T) -> Self {
        Self { value, raw: "" }
    }
}

impl<T> Deref for Placed<'_, T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.value
    }
}

/// The options every file is read with: `Some(…)` may be written and need not be.
pub(crate) fn options() -> ron::Options {
    ron::Options::default().with_recursion_limit(Limits::RON_DEPTH).with_default_extension(Extensions::IMPLICIT_SOME)
}

impl<'de: 'a, 'a, T: DeserializeOwned> Deserialize<'de> for Placed<'a, T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let raw = <&'a RawValue>::deserialize(deserializer)?.trim().get_ron();
        let value = options().from_str(raw).map_err(|err| serde::de::Error::custom(Misread::packed(raw, &err)))?;
        Ok(Self { value, raw })
    }
}

impl<T: Serialize> Serialize for Placed<'_, T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.value.serialize(serializer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_value_knows_where_it_stood_past_comments_and_letters_of_several_bytes() {
        let text = "[ /* é */ \"rose\" , // ü\n  \"west\" ]";
        let values: Vec<Placed<'_, String>> = options().from_str(text).unwrap();
        let spans: Vec<_> = values.iter().map(|it| &text[it.span(text)]).collect();
        assert_eq!(spans, ["\"rose\"", "\"west\""]);
    }
}
