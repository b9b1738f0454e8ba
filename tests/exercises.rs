//! Shipped exercises: models earn everything, blanks nothing, faults what was worked out by hand.

use switchdrop::{
    marking::{Outcome, mark},
    work::Mode,
};

use crate::hand::{one_way_model, two_way_model};

#[test]
fn models_earn_full_marks() {
    for hand in [one_way_model(), two_way_model()] {
        let sheet = mark(&hand.attempt, Mode::Set);
        assert_eq!((sheet.outcome, sheet.marks), (Outcome::Pass, sheet.out_of), "{:#?}", sheet.findings);
        assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
    }
}
