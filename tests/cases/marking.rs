//! Weights, roots, repairs, what is never accused.

use switchdrop::marking::{Code, Outcome, Weight};

use super::sheet;

/// Whether a case is referred for one critical cause alone, of that code and there.
fn is_referred_for(case: &str, code: &str, at: &str) {
    let sheet = sheet(case);
    assert_eq!(sheet.causes(), [(code, at)], "{case}");
    assert_eq!(sheet.outcome, Outcome::Refer, "{case}");
    assert_eq!(sheet.findings[0].weight, Weight::Critical, "{case}");
}

/// The pendant's neutral in the rose's earth terminal, behind a 5 W lamp: the light works, the current comes back by the cpc. Sleeved
/// green-and-yellow it is no better, and nobody is told to sleeve it.
#[test]
fn a_lamp_that_returns_through_the_earth_is_referred_at_any_wattage() {
    for case in ["r1-fe", "r1-feg"] {
        is_referred_for(case, "load-through-earth", "lamp");
        let sheet = sheet(case);
        let earthing = sheet.criteria.iter().find(|it| it.criterion == Code::LoadThroughEarth.criterion()).unwrap();
        assert_eq!(earthing.marks, 0, "{case}");
    }
}

/// Neutral and cpc exchanged at one place: that is the one cause, there, and no sound cpc beyond is accused.
#[test]
fn neutral_and_earth_exchanged_are_told_where_they_are() {
    for (case, at) in [("c53b", "rose"), ("c53", "west"), ("jb53", "jb")] {
        is_referred_for(case, "neutral-earth-exchanged", at);
    }
}

/// A link from the neutrals' connector to the box's earth terminal: joined, not exchanged.
#[test]
fn neutral_and_earth_joined_beyond_the_supply_are_referred() {
    is_referred_for("c53d", "neutral-earth-joined", "made-1/b@west");
}

/// Line and neutral exchanged at the second socket of a ring; and, in another, neutral and earth there.
#[test]
fn a_socket_is_judged_by_what_comes_to_its_terminals() {
    is_referred_for("g77", "socket-reversed", "s2");
    is_referred_for("g79", "neutral-earth-exchanged", "s2");
}

/// The line comes back by the neutral's way and the neutral by the line's: nobody would pass that.
#[test]
fn line_and_neutral_exchanged_at_the_rose_are_referred() {
    assert_eq!(sheet("house-swap").outcome, Outcome::Refer);
}
