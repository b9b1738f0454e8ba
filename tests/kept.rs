//! Attempts kept from earlier formats: each is read and replayed for good.

use std::{fs, path::Path};

use switchdrop::attempt::{Attempt, Format, open};

use crate::hand::exercise;

/// One of each shipped model as format 1 was last written. What they earn is held in `consequences.rs`.
const KEPT: [&str; 4] = ["one-way-rose", "one-way-tested", "two-way-stairs", "two-way-to-choose"];

#[test]
fn attempts_of_format_1_are_read_and_replayed_by_their_own_rules() {
    for name in KEPT {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/old/marking-3-{name}.attempt.ron"));
        let text = fs::read_to_string(path).expect("it is kept");
        let opened = open(&text).unwrap_or_else(|it| panic!("{name}: {it:?}"));
        let attempt = opened.replay().unwrap_or_else(|it| panic!("{name}: {it:?}"));
        assert_eq!((opened.header.format, attempt.format()), (Format::One, Format::One));
        assert_eq!((attempt.safety().format(), attempt.begun_again().format()), (Format::One, Format::One));
    }
    assert_eq!(Attempt::new(exercise("one-way-rose", 0)).format(), Format::Two, "a new one");
}
