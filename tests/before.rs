//! What was wrong before the learner came: nothing for being there, praise for reporting it, critical to energise past untold.
//!
//! marking.md, "Never an accusation". What each case must give was written down before the marker was asked.

use std::sync::Arc;

use switchdrop::{
    attempt::Mode,
    exercise::{Seed, read},
    marking::{Code, Outcome, Root, Seen, Sheet, Weight, Well, done_well, mark},
    report::{About, Story, report},
    wording::Wording,
    work::{Action, Fault, Feel},
};

use crate::hand::{Hand, Marked, marked};

const SOUND: &str = include_str!("scenarios/old-work.ron");

/// The porch's cpc lies in a spare connector of the gate box: the porch's metal box is joined to no earth, and if the line touched
/// it, nothing would open.
fn cut() -> String {
    put(
        SOUND,
        r#"end: "porch-feed/cpc@old", at: "old.box.earth""#,
        r#"end: "porch-feed/cpc@old", at: "old.connector.3""#,
    )
}

/// At the porch the neutral goes through the switch: the light does as it should, and its holder is live when it is off.
fn switched_neutral() -> String {
    [
        (
            r#"end: "porch-feed/brown@porch", at: "porch.COM""#,
            r#"end: "porch-feed/brown@porch", at: "porch.connector.1""#,
        ),
        (
            r#"end: "porch-flex/brown@porch", at: "porch.L1""#,
            r#"end: "porch-flex/brown@porch", at: "porch.connector.1""#,
        ),
        (
            r#"end: "porch-feed/blue@porch", at: "porch.connector.1""#,
            r#"end: "porch-feed/blue@porch", at: "porch.COM""#,
        ),
        (r#"end: "porch-flex/blue@porch", at: "porch.connector.1""#, r#"end: "porch-flex/blue@porch", at: "porch.L1""#),
    ]
    .into_iter()
    .fold(SOUND.to_owned(), |text, (from, to)| put(&text, from, to))
}

/// The gate light's line lies in a spare connector: it never lights, and nothing of it can be touched.
fn dark() -> String {
    put(SOUND, r#"end: "old-flex/brown@old", at: "old.L1""#, r#"end: "old-flex/brown@old", at: "old.connector.3""#)
}

fn put(text: &str, from: &str, to: &str) -> String {
    assert!(text.contains(from), "{from}");
    text.replacen(from, to, 1)
}

const NEW: &str = "onward/brown@new new.COM
    onward/blue@new new.connector.1
    onward/cpc@new Sleeve(GreenYellow) new.box.earth
    new-flex/brown@new new.L1
    new-flex/blue@new new.connector.1";

fn begun(text: &str) -> Hand {
    let mut hand = Hand::new(Arc::new(read(text, Seed(0)).unwrap_or_else(|it| panic!("{it:#?}"))));
    hand.isolates();
    hand
}

fn tell(hand: &mut Hand, at: &str) {
    hand.does(Action::Report { at: at.to_owned(), what: Fault::Wiring });
}

/// The new light wired so, and everything to the hand-in; something reported before the power comes on.
fn done(text: &str, wiring: &str, told: Option<&str>) -> Hand {
    let mut hand = begun(text);
    hand.wires(wiring);
    if let Some(at) = told {
        tell(&mut hand, at);
    }
    hand.finishes();
    hand
}

fn sheet(hand: &Hand) -> Marked {
    marked(&hand.attempt)
}

/// What costs marks, and where.
fn costs(sheet: &Marked) -> Vec<(&'static str, &str)> {
    sheet.placed(|it| it.lost > 0).map(|(it, at)| (it.code.word(), at)).collect()
}

/// The porch's cpc cut off, the power on past it; told of it before, or not.
pub fn energised_past(told: bool) -> Sheet {
    mark(&done(&cut(), NEW, told.then_some("porch")).attempt, Mode::Set)
}

fn was_so(sheet: &Marked) -> Vec<(&'static str, &str)> {
    let mut were: Vec<_> = sheet.placed(|it| it.before).map(|(it, at)| (it.code.word(), at)).collect();
    were.sort_unstable();
    were
}

fn power_on(hand: &Hand) -> usize {
    hand.attempt.log().iter().position(|it| matches!(it, Action::PowerOn { .. })).unwrap()
}

/// A scenario with an old fault: places to report it from, what stands on the sheet and costs nothing, and what the power comes on
/// past.
type Danger = (String, Vec<&'static str>, Vec<(&'static str, &'static str)>, &'static str);

fn dangers() -> [Danger; 2] {
    [
        (
            cut(),
            vec!["porch", "old", "porch-feed/cpc@old", "porch.box.earth"],
            vec![("cpc-open", "porch-feed/cpc@old"), ("no-disconnection", "porch.box.earth")],
            "porch-feed/cpc@old",
        ),
        (
            switched_neutral(),
            vec!["porch", "porch-lamp", "porch.L1"],
            vec![("lampholder-live", "porch-lamp"), ("neutral-switched", "porch")],
            "porch",
        ),
    ]
}

#[test]
fn old_work_that_is_sound_is_no_finding() {
    let hand = done(SOUND, NEW, None);
    assert!(sheet(&hand).findings.is_empty(), "{:#?}", sheet(&hand).findings);
    assert_eq!(sheet(&hand).outcome, Outcome::Pass);
}

#[test]
fn what_was_wrong_and_is_reported_costs_nothing_and_is_praised() {
    for (text, places, were, _) in dangers() {
        for at in places {
            let hand = done(&text, NEW, Some(at));
            let sheet = sheet(&hand);
            assert_eq!(costs(&sheet), [], "{at}: {:#?}", sheet.findings);
            assert_eq!(was_so(&sheet), were, "{at}");
            assert!(sheet.findings.iter().all(|it| it.before), "{:#?}", sheet.findings);
            assert_eq!((sheet.outcome, sheet.marks), (Outcome::Pass, sheet.out_of));
            assert!(done_well(&hand.attempt, &sheet).contains(&Well::FaultReported));
            let said = report(
                &Wording::british(),
                &About { learner: "L", receipt: None, notices: &[] },
                &hand.attempt,
                &sheet,
                &Story::default(),
            );
            assert!(said.iter().any(|it| it.contains("before you came: it costs nothing")), "{said:#?}");
        }
    }
}

#[test]
fn energising_past_what_is_dangerous_and_unreported_is_critical() {
    for (text, _, were, at) in dangers() {
        // Nobody told; told of a place where nothing is wrong; told when the power is on.
        let late = {
            let mut hand = begun(&text);
            hand.wires(NEW);
            hand.closes_up();
            hand.powers_on();
            hand.works_switches();
            tell(&mut hand, at);
            hand.does(Action::HandIn);
            hand
        };
        for hand in [done(&text, NEW, None), done(&text, NEW, Some("new")), late] {
            let sheet = sheet(&hand);
            assert_eq!(costs(&sheet), [("energised-past-fault", at)], "{:#?}", sheet.findings);
            assert_eq!(was_so(&sheet), were);
            let found = sheet.findings.iter().find(|it| it.code == Code::EnergisedPastFault).unwrap();
            assert_eq!((found.weight, found.root), (Weight::Critical, Root::Itself));
            assert_eq!(found.seen, Seen::InAction(power_on(&hand)));
            assert_eq!(sheet.outcome, Outcome::Refer);
        }
    }
}

/// The other circuit's power, or none at all: nobody energised past anything.
#[test]
fn power_that_does_not_come_to_it_is_no_act() {
    for (text, ..) in dangers() {
        let mut hand = begun(&text);
        hand.wires(NEW);
        hand.closes_up();
        hand.does(Action::PowerOff { device: "board.2".to_owned() });
        hand.does(Action::PowerOn { device: "board.2".to_owned() });
        hand.does(Action::HandIn);
        let sheet = sheet(&hand);
        assert!(sheet.findings.iter().all(|it| it.code != Code::EnergisedPastFault), "{:#?}", sheet.findings);
        assert!(!done_well(&hand.attempt, &sheet).contains(&Well::FaultReported));
    }
}

#[test]
fn an_old_fault_that_harms_nobody_costs_nothing_reported_or_not() {
    for told in [None, Some("old-lamp")] {
        let hand = done(&dark(), NEW, told);
        let sheet = sheet(&hand);
        assert_eq!(costs(&sheet), [], "{:#?}", sheet.findings);
        assert_eq!(was_so(&sheet), [("control-wrong", "old-lamp")]);
        assert_eq!((sheet.outcome, sheet.marks), (Outcome::Pass, sheet.out_of));
        assert_eq!(done_well(&hand.attempt, &sheet).contains(&Well::FaultReported), told.is_some());
    }
}

/// The same faults, made by the learner: each costs, whatever was wrong before, and an old one beside it does not pay for it.
#[test]
fn the_learners_own_fault_of_the_same_kind_costs() {
    let cut_here = put(NEW, "Sleeve(GreenYellow) new.box.earth", "new.connector.2");
    let neutral_here = [
        ("onward/brown@new new.COM", "onward/brown@new new.connector.1"),
        ("onward/blue@new new.connector.1", "onward/blue@new new.COM"),
        ("new-flex/brown@new new.L1", "new-flex/brown@new new.connector.1"),
        ("new-flex/blue@new new.connector.1", "new-flex/blue@new new.L1"),
    ]
    .into_iter()
    .fold(NEW.to_owned(), |text, (from, to)| put(&text, from, to));
    for (text, places, were, _) in dangers().into_iter().chain([(SOUND.to_owned(), vec!["porch"], vec![], "")]) {
        for (wiring, code, at) in
            [(&cut_here, "no-disconnection", "new.box.earth"), (&neutral_here, "neutral-switched", "new")]
        {
            let hand = done(&text, wiring, Some(places[0]));
            let sheet = sheet(&hand);
            assert!(costs(&sheet).iter().any(|it| it.1.starts_with("new")), "{:#?}", sheet.findings);
            assert!(sheet.placed(|it| !it.before).any(|(it, there)| (it.code.word(), there) == (code, at)));
            assert_eq!(was_so(&sheet), were, "{:#?}", sheet.findings);
            assert_eq!(sheet.outcome, Outcome::Refer);
        }
    }
}

/// Opens the gate box as it should be, and does something with the porch's cpc there.
fn at_the_gate(hand: &mut Hand, to: &str) {
    hand.does(Action::RemoveCover { location: "old".to_owned() });
    let place = hand.attempt.work().location("old").unwrap();
    hand.proves_dead(place);
    hand.does(Action::Disconnect { end: "porch-feed/cpc@old".to_owned() });
    hand.wires(&format!("porch-feed/cpc@old Sleeve(GreenYellow) {to}"));
    for terminal in ["old.connector.3", to] {
        // One of them is empty or tight already.
        let _ = hand.attempt.act(Action::Tighten { terminal: terminal.to_owned(), feel: Feel::Right });
    }
}

#[test]
fn put_right_it_is_gone_and_taken_out_it_is_the_learners() {
    for (to, expected) in [("old.box.earth", vec![]), ("old.connector.2", vec![("cpc-open", "porch-feed/cpc@old")])] {
        let mut hand = begun(&cut());
        hand.wires(NEW);
        at_the_gate(&mut hand, to);
        tell(&mut hand, "old");
        hand.finishes();
        let sheet = sheet(&hand);
        assert_eq!(costs(&sheet), expected, "{:#?}", sheet.findings);
        assert!(done_well(&hand.attempt, &sheet).contains(&Well::FaultReported));
    }
}

/// marking.md, "Must be caught": a critical act put right afterwards.
#[test]
fn put_right_after_the_power_was_on_it_was_energised_past_all_the_same() {
    let mut hand = begun(&cut());
    hand.wires(NEW);
    hand.closes_up();
    hand.powers_on();
    hand.does(Action::PowerOff { device: "board.1".to_owned() });
    hand.does(Action::LockOff { device: "board.1".to_owned() });
    at_the_gate(&mut hand, "old.box.earth");
    hand.finishes();
    let sheet = sheet(&hand);
    assert_eq!(costs(&sheet), [("energised-past-fault", "porch-feed/cpc@old")], "{:#?}", sheet.findings);
}

/// A blank hand-in is excused for nothing but what is old.
#[test]
fn what_is_still_to_do_is_not_what_was_wrong_before() {
    for (text, _, were, _) in dangers() {
        let mut hand = Hand::new(Arc::new(read(&text, Seed(0)).unwrap()));
        hand.does(Action::HandIn);
        let sheet = sheet(&hand);
        assert_eq!(was_so(&sheet), were, "{:#?}", sheet.findings);
        assert_eq!(sheet.outcome, Outcome::NotYet);
        assert!(sheet.findings.iter().any(|it| it.code == Code::WorkUnfinished && !it.before), "{:#?}", sheet.findings);
        assert!(sheet.marks * 100 < 50 * sheet.out_of, "{}", sheet.marks);
    }
}
