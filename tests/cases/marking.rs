//! Weights, roots, repairs, what is never accused.

use switchdrop::marking::Outcome;

use super::sheet;

/// The line comes back by the neutral's way and the neutral by the line's: nobody would pass that.
#[test]
fn line_and_neutral_exchanged_at_the_rose_are_referred() {
    assert_eq!(sheet("house-swap").outcome, Outcome::Refer);
}
