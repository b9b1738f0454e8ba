//! Attempts kept from earlier formats: each is read, replayed and marked for good.

use std::{fs, path::Path};

use switchdrop::{
    circuit::Physics,
    marking::{Outcome, mark},
    work::{Format, open},
};

/// One of each shipped model as format 1 was last written, and the sample: what each earned then.
const KEPT: [(&str, Outcome, u32); 5] = [
    ("one-way-rose", Outcome::Pass, 100),
    ("one-way-tested", Outcome::Pass, 100),
    ("two-way-stairs", Outcome::Pass, 100),
    ("two-way-to-choose", Outcome::Pass, 100),
    ("sample", Outcome::Pass, 95),
];

#[test]
fn attempts_of_format_1_are_read_and_marked_for_good() {
    for (name, outcome, marks) in KEPT {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/old/marking-3-{name}.attempt.ron"));
        let text = fs::read_to_string(path).expect("it is kept");
        let opened = open(&text).unwrap_or_else(|it| panic!("{name}: {it:?}"));
        let attempt = opened.replay(&Physics).unwrap_or_else(|it| panic!("{name}: {it:?}"));
        assert_eq!((opened.header.format, attempt.format()), (Format::One, Format::One));
        assert_eq!((attempt.safety().format(), attempt.begun_again().format()), (Format::One, Format::One));
        let sheet = mark(&attempt, opened.header.mode);
        assert_eq!((sheet.outcome, sheet.marks, sheet.out_of), (outcome, marks, 100), "{name}: {:#?}", sheet.findings);
    }
}
