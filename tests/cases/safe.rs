//! Isolation, proving, acts.

use switchdrop::{
    marking::{Outcome, Unmet, Weight, times},
    report::Story,
    wording::{Wording, finding, headline},
};

use super::{attempt, sheet};

/// Right: refer, each count printed, with its time and the circuit at the place.
#[test]
fn a_critical_act_refers_and_each_time_is_counted() {
    // The rose is fed by device 2. Twelve touches of the brown core of the feed, a second apart from the eighth on.
    let name = "assessor-93-touched-unproved-12-times";
    let (attempt, sheet) = (attempt(name), sheet(name));
    assert_eq!(sheet.causes(), [("touched-unproved", "feed/brown@rose")]);
    assert_eq!((sheet.outcome, sheet.unmet[0]), (Outcome::Refer, Unmet::CriticalAct(0)));
    assert_eq!(times(attempt.tally(), sheet.findings[0].code).count(), 12);
    let seconds = (0..attempt.log().len() as u64).map(|it| 1000 * (it + 1)).collect();
    let story = Story::of(&attempt, &sheet, seconds);
    let counted = story.counted(&Wording::british(), &attempt, &sheet.findings[0]).unwrap();
    assert!(
        counted
            .starts_with("12 times: step 8, 0 min 8 s in (brown core of the feed, at the scullery rose; circuit 2); "),
        "{counted}"
    );
    assert_eq!(counted.matches("step ").count(), 12, "{counted}");

    // Named wrongly and gone on, opened without a lock, touched unproved: critical. A stick was offered too, and the indicator
    // used after it before any hand went in: advice. No mark is left for safe working.
    let sheet = super::sheet("assessor-53-four-unsafe-acts");
    let acts: Vec<&str> = sheet.causes().into_iter().map(|it| it.0).collect();
    assert_eq!(acts, ["opened-unlocked", "touched-unproved", "wrongly-identified"]);
    assert!(sheet.findings[..3].iter().all(|it| it.weight == Weight::Critical), "{:#?}", sheet.findings);
    assert_eq!((sheet.findings[3].code.word(), sheet.findings[3].weight), ("wrong-instrument", Weight::Advice));
    assert_eq!((sheet.outcome, sheet.marks), (Outcome::Refer, 80));
}

/// Right: the own lock left on, and the landing light off with it; the lamp left out. Not "functional test not done".
#[test]
fn what_is_left_behind_is_told_in_its_own_words() {
    for (name, cause, said, top) in [
        (
            "assessor-10-landing-left-off-locked",
            ("lock-left-on", "board.2"),
            "Your own lock and label are still on circuit 2, and what it feeds is off: landing light.",
            "Not yet: 95 of 100 marks, and your own lock is still on circuit 2",
        ),
        (
            "assessor-11-lamp-left-out",
            ("lamp-left-out", "lamp"),
            "The lamp is not back in its holder: stair light.",
            "Not yet: 95 of 100 marks, and the lamp is out of its holder: stair light",
        ),
    ] {
        let (attempt, sheet) = (attempt(name), sheet(name));
        assert_eq!(sheet.causes(), [cause], "{name}");
        assert_eq!(sheet.outcome, Outcome::NotYet, "{name}");
        let wording = Wording::british();
        assert_eq!(finding(&wording, attempt.work(), &sheet.findings[0]).what, said, "{name}");
        assert_eq!(headline(&wording, attempt.work(), &sheet), top, "{name}");
    }
}
