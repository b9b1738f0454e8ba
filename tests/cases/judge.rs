//! The outcome and why, acts and how often, hand-ins of next to nothing, what is praised.

use switchdrop::{
    marking::{Criterion, Outcome, Well, done_well},
    wording::{Wording, praise, verdict},
};

use super::{attempt, sheet};
use crate::hand::Marked;

/// Marks earned under a criterion, of those to be had.
fn under(sheet: &Marked, of: Criterion) -> (u32, u32) {
    let line = sheet.criteria.iter().find(|it| it.criterion == of).unwrap();
    (line.marks, line.out_of)
}

/// Circuit 1 does not come to this job. Whoever names it beside circuit 2 is more careful than asked, and what is off holds every
/// circuit that is here.
#[test]
fn naming_a_circuit_too_many_costs_nothing() {
    let attempt = attempt("assessor-18-over-identified");
    assert!(attempt.tally().acts.is_empty(), "{:?}", attempt.tally().acts);
    let sheet = sheet("assessor-18-over-identified");
    assert_eq!((sheet.outcome, sheet.marks, sheet.findings.len()), (Outcome::Pass, 100, 0), "{:#?}", sheet.findings);
}

/// Safe working is 0 of 20 and 15 of 20: nobody is told that the places were proved dead first, nor that it was done safely.
#[test]
fn nothing_is_called_safe_after_a_stopped_act() {
    for name in ["assessor-53-four-unsafe-acts", "assessor-93-touched-unproved-12-times"] {
        let (attempt, sheet) = (attempt(name), sheet(name));
        let safe: Vec<Well> =
            done_well(&attempt, &sheet).into_iter().filter(|it| it.criterion() == Criterion::SafeWorking).collect();
        assert!(safe.is_empty(), "{name}: {safe:?}");
        let wording = Wording::british();
        let said = verdict(&wording, &attempt, &sheet).more.into_iter().chain(praise(&wording, &attempt, &sheet));
        for it in said {
            assert!(!it.contains("safely") && !it.contains("no unsafe act"), "{name}: {it}");
        }
    }
}

/// A heading under which marks were lost has no praise, whatever was right in part.
#[test]
fn nothing_is_praised_under_a_heading_in_which_marks_were_lost() {
    for name in [
        "assessor-04-no-brown-sleeves-at-all",
        "assessor-10-landing-left-off-locked",
        "assessor-26-all-slack-but-box-earth",
        "assessor-53-four-unsafe-acts",
        "assessor-75-switch-return-in-neutral",
    ] {
        let (attempt, sheet) = (attempt(name), sheet(name));
        let well = done_well(&attempt, &sheet);
        assert!(!well.is_empty(), "{name}");
        for it in well {
            let (marks, out_of) = under(&sheet, it.criterion());
            assert_eq!(marks, out_of, "{name}: {it:?}");
        }
    }
}
