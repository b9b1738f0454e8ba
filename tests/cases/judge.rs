//! The outcome and why, acts and how often, hand-ins of next to nothing, what is praised.

use switchdrop::{
    marking::{Bar, Criterion, Outcome, Unmet, Well, done_well},
    wording::{Wording, headline, praise, verdict},
};

use super::{attempt, sheet};
use crate::hand::Marked;

/// Marks earned under a criterion, of those to be had.
fn under(sheet: &Marked, of: Criterion) -> (u32, u32) {
    let line = sheet.criteria.iter().find(|it| it.criterion == of).unwrap();
    (line.marks, line.out_of)
}

/// The headline of a case, and the lines of the rule that it did not meet.
fn said(name: &str) -> (String, Vec<Unmet>) {
    let (attempt, sheet) = (attempt(name), sheet(name));
    (headline(&Wording::british(), attempt.work(), &sheet), sheet.unmet.clone())
}

/// No brown sleeve on any of the five switched ends: 90 of 100, and nothing of ten under identification.
#[test]
fn half_of_every_criterion_with_chances_enough_is_needed() {
    let sheet = sheet("assessor-04-no-brown-sleeves-at-all");
    assert_eq!((sheet.marks, under(&sheet, Criterion::Identification)), (90, (0, 10)));
    assert_eq!(sheet.outcome, Outcome::NotYet);
    assert_eq!(
        said("assessor-04-no-brown-sleeves-at-all"),
        (
            "Not yet: 90 of 100 marks, and identification has less than half: 0 of 10".to_owned(),
            vec![Unmet::Half(Criterion::Identification)]
        )
    );
}

/// What no assessor passes, whatever the total: a strapper under a blue sleeve, a strapper that a tug pulls out, six loose screws
/// with the cpcs of the rose among them.
#[test]
fn a_bar_stands_in_the_way_of_a_pass_at_any_total() {
    for (name, marks, bar, headline) in [
        (
            "assessor-05-grey-sleeved-blue-head",
            97,
            Bar::FalseMark,
            "Not yet: 97 of 100 marks, and a mark at the box at the head is false",
        ),
        (
            "assessor-71-slack-one-strapper",
            97,
            Bar::Loose,
            "Not yet: 97 of 100 marks, and a line at the box at the head is loose",
        ),
        (
            "assessor-26-all-slack-but-box-earth",
            90,
            Bar::Loose,
            "Not yet: 90 of 100 marks, and a cpc at the scullery rose is loose",
        ),
    ] {
        let sheet = sheet(name);
        assert_eq!((sheet.outcome, sheet.marks), (Outcome::NotYet, marks), "{name}");
        let (words, unmet) = said(name);
        assert_eq!(words, headline, "{name}");
        assert!(matches!(unmet[0], Unmet::Bar(it, _) if it == bar), "{name}: {unmet:?}");
    }
}

/// The rule is printed whole, pass or not: the marks, each criterion of which half is needed, every bar.
#[test]
fn the_whole_rule_is_printed() {
    let name = "assessor-05-grey-sleeved-blue-head";
    let rule = verdict(&Wording::british(), &attempt(name), &sheet(name)).rule;
    for part in [
        "80 of 100 marks",
        // Three cpc ends are the learner's: earthing offers too few chances.
        "half of each of these (polarity, identification, terminations, safe working and prediction)",
        "every control",
        "every stage",
        "loose",
        "a cpc missing or misplaced",
        "a false mark",
        "copper showing",
        "a cover left off",
        "a reading not taken",
        "critical",
    ] {
        assert!(rule.contains(part), "{part}: {rule}");
    }
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
