//! What a file is that can't be read as an attempt, by how it begins.

/// A file that is no attempt at all.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stranger {
    /// A scenario.
    Scenario,
    /// An assignment.
    Assignment,
    /// A page, a picture, nothing: anything else.
    Other,
}

/// What a file is that does not begin as an attempt does, given the bytes of the whole file without a byte order mark;
/// `None`: it begins as one. To be asked of a file that can't be read: of one that can, this says nothing.
pub fn stranger(file: &[u8]) -> Option<Stranger> {
    let mut start = file.trim_ascii_start();
    // A comment, or what RON says of the text that follows.
    while let Some(comment) = start.strip_prefix(b"//").or_else(|| start.strip_prefix(b"#![")) {
        let end = comment.iter().position(|it| *it == b'\n').unwrap_or(comment.len());
        start = comment[end..].trim_ascii_start();
    }
    if start.starts_with(b"Scenario") {
        return Some(Stranger::Scenario);
    }
    if start.starts_with(b"Assignment") {
        return Some(Stranger::Assignment);
    }
    if start.starts_with(b"Attempt") {
        return None;
    }
    match start {
        // A whole attempt has its heading on one line; a scenario without its name has lines within the bracket.
        [b'(', b'\n' | b'\r', ..] => {
            let of = b"locations:";
            Some(if start.windows(of.len()).any(|it| it == of) { Stranger::Scenario } else { Stranger::Other })
        }
        [b'(', ..] => None,
        _ => Some(Stranger::Other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_known_by_how_it_begins() {
        for (file, is) in [
            ("(format:2,marking:4,", None),
            ("(", None),
            ("Attempt(format:1,", None),
            ("Attempt(\n", None),
            ("// One light.\r\n\r\n// And a switch.\nScenario(\n", Some(Stranger::Scenario)),
            ("#![enable(implicit_some)]\nAssignment(\n    format: 1,", Some(Stranger::Assignment)),
            ("(\n    format: 1,\n    locations: [", Some(Stranger::Scenario)),
            ("(\r\n    format: 1,\r\n    locations: [", Some(Stranger::Scenario)),
            ("(\n    page: 1", Some(Stranger::Other)),
            ("<!DOCTYPE html>\n", Some(Stranger::Other)),
            ("{\"a\":1}", Some(Stranger::Other)),
            ("// nothing", Some(Stranger::Other)),
            (" \n", Some(Stranger::Other)),
            ("", Some(Stranger::Other)),
        ] {
            assert_eq!(stranger(file.as_bytes()), is, "{file:?}");
        }
        assert_eq!(stranger(b"\x89PNG\r\n"), Some(Stranger::Other));
    }
}
