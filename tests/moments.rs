//! When findings arose, against whole markings of every prefix; and what was done well.

use std::sync::Arc;

use switchdrop::{
    attempt::{Attempt, Mode, open},
    marking::{Code, Criterion, Root, Seen, Well, done_well, mark},
    report::moments,
    work::{Action, Feel, Reason},
};

use crate::hand::{exercise, one_way_model, two_way_model};

fn replayed(attempt: &Attempt, actions: impl IntoIterator<Item = Action>) -> Attempt {
    Attempt::replay(Arc::clone(attempt.work().exercise()), actions).expect("actions that can be done")
}

/// The model with every mark of one colour's end left out.
fn without_marks() -> Attempt {
    let model = two_way_model().attempt;
    let log: Vec<_> = model.log().iter().filter(|it| !matches!(it, Action::Mark { .. })).cloned().collect();
    replayed(&model, log)
}

fn sample() -> Attempt {
    let opened = open(include_str!("../assets/sample.attempt.ron")).expect("the sample");
    opened.replay().expect("the sample can be done")
}

/// The oracle marks each prefix whole, roots and repairs and all, and looks for the finding among what it says.
#[test]
fn a_finding_arose_with_the_first_prefix_after_which_it_stays() {
    let blank = Attempt::new(exercise("two-way-passage", 0));
    for (name, attempt) in [("no marks", without_marks()), ("sample", sample()), ("blank", blank)] {
        let sheet = mark(&attempt, Mode::Set);
        assert!(!sheet.findings.is_empty(), "{name}");
        let mut since: Vec<Option<usize>> = vec![None; sheet.findings.len()];
        let mut gone = vec![false; sheet.findings.len()];
        let mut so_far = Attempt::new(Arc::clone(attempt.work().exercise()));
        for number in 0..=attempt.log().len() {
            let there = mark(&so_far, Mode::Set).findings;
            for (index, it) in sheet.findings.iter().enumerate() {
                if !there.iter().any(|other| other.code == it.code && other.at == it.at && !other.hidden) {
                    (gone[index], since[index]) = (true, None);
                } else if gone[index] && since[index].is_none() {
                    since[index] = Some(number - 1);
                }
            }
            if let Some(it) = attempt.log().get(number) {
                so_far.act(it.clone()).expect("it was done before");
            }
        }
        for (it, since) in sheet.findings.iter().zip(&mut since) {
            // A mark that an end lacks is a matter of that end: it arose as the end was connected, whatever made a line of it later.
            if it.code == Code::MarkMissing && since.is_some() {
                let end = it.at.address(attempt.work().exercise());
                let connects = |it: &Action| matches!(it, Action::Connect { end: it, .. } if *it == end);
                *since = attempt.log().iter().rposition(connects);
            }
            if let Seen::InAction(at) = it.seen {
                *since = Some(at);
            }
        }
        assert_eq!(moments(&attempt, &sheet), since, "{name}: {:#?}", sheet.findings);
        assert_eq!(name == "blank", since.iter().all(Option::is_none), "{name}: {since:?}");
    }
}

/// By hand: a bare cpc that goes into its terminal without its sleeve is unsleeved from that action on, and no sooner.
#[test]
fn a_cpc_is_unsleeved_from_when_it_goes_into_its_terminal() {
    let attempt = without_marks();
    let sheet = mark(&attempt, Mode::Set);
    let found = moments(&attempt, &sheet);
    let mut seen = 0;
    for (it, when) in sheet.findings.iter().zip(found).filter(|it| it.0.code.word() == "cpc-unsleeved") {
        let at = it.at.address(attempt.work().exercise());
        let connects = |action: &Action| matches!(action, Action::Connect { end, .. } if *end == at);
        assert_eq!(when, attempt.log().iter().position(connects), "{at}");
        seen += 1;
    }
    assert_eq!(seen, 2, "one at each door");
}

/// Two cpcs are taken out of the rose and the first goes back: the second hangs free since it came out, though it had no earth already
/// as the first came out.
#[test]
fn an_end_hangs_free_since_it_came_out() {
    let model = one_way_model().attempt;
    let mut log: Vec<Action> = model.log().to_vec();
    let closes = log.iter().position(|it| matches!(it, Action::FitCover { .. })).expect("it is closed up");
    let out = |cable: &str| Action::Disconnect { end: format!("{cable}/cpc@rose") };
    let (feed, earth) = ("feed/cpc@rose".to_owned(), "rose.earth".to_owned());
    let back = [
        Action::Connect { end: feed, terminal: earth.clone() },
        Action::Tighten { terminal: earth, feel: Feel::Right },
    ];
    log.splice(closes..closes, [out("feed"), out("onward")].into_iter().chain(back));
    let attempt = replayed(&model, log);
    let sheet = mark(&attempt, Mode::Set);
    let cause = sheet.findings.iter().position(|it| it.code == Code::CpcOpen && it.root == Root::Itself).unwrap();
    assert_eq!(sheet.findings[cause].at.address(attempt.work().exercise()), "onward/cpc@rose");
    assert_eq!(moments(&attempt, &sheet)[cause], Some(closes + 1));
}

/// The pendant's neutral goes into the rose's earth terminal long before the drop completes the circuit: it arose with that neutral.
#[test]
fn what_a_misplaced_end_does_arose_as_that_end_was_connected() {
    let model = one_way_model().attempt;
    let is_neutral = |it: &Action| matches!(it, Action::Connect { end, .. } if end == "flex/blue@rose");
    let log: Vec<Action> = model.log().to_vec();
    let at = log.iter().position(is_neutral).expect("it is connected");
    let changed = log.into_iter().enumerate().map(|(number, it)| match it {
        Action::Connect { end, .. } if number == at => Action::Connect { end, terminal: "rose.earth".to_owned() },
        it => it,
    });
    let attempt = replayed(&model, changed);
    let sheet = mark(&attempt, Mode::Set);
    let cause = sheet.findings.iter().position(|it| it.root == Root::Itself).expect("a cause");
    assert_eq!(sheet.findings[cause].code, Code::LoadThroughEarth, "{:#?}", sheet.findings);
    assert_eq!(moments(&attempt, &sheet)[cause], Some(at));
}

#[test]
fn what_was_done_well_is_what_lost_nothing_and_acts_that_were_right() {
    let model = two_way_model().attempt;
    let well = done_well(&model, &mark(&model, Mode::Set));
    assert!(well.contains(&Well::Criterion(Criterion::Earthing)) && well.contains(&Well::ProvedDead), "{well:?}");
    let unmarked = without_marks();
    let well = done_well(&unmarked, &mark(&unmarked, Mode::Set));
    assert!(!well.contains(&Well::Criterion(Criterion::Identification)), "{well:?}");
    assert!(well.contains(&Well::Criterion(Criterion::Function)), "{well:?}");
    // The same, begun by taking a plate off while the circuit is on.
    let first = Action::RemoveCover { location: "kiln".to_owned() };
    let live = replayed(&model, std::iter::once(first).chain(model.log().iter().cloned()));
    let well = done_well(&live, &mark(&live, Mode::Set));
    assert!(!well.contains(&Well::ProvedDead) && !well.contains(&Well::Criterion(Criterion::SafeWorking)), "{well:?}");
    // Nothing done is nothing done well, handed in or not.
    for log in [vec![], vec![Action::HandIn]] {
        let blank = replayed(&model, log);
        assert_eq!(done_well(&blank, &mark(&blank, Mode::Set)), [], "a blank");
    }
}

/// What is the matter with a cable arose as it was chosen, though what showed it came to be connected long after.
#[test]
fn what_a_cable_is_not_up_to_arose_as_it_was_chosen() {
    let model = crate::chosen::chosen_model().attempt;
    let is_link = |it: &Action| matches!(it, Action::Choose { cable, .. } if cable == "link");
    let chosen = model.log().iter().position(is_link).expect("it is chosen");
    let log = model.log().iter().cloned().map(|it| match it {
        Action::Choose { cable, kind, mm2, .. } if cable == "link" => {
            Action::Choose { cable, kind, mm2, reason: Reason::Usual }
        }
        other => other,
    });
    let attempt =
        Attempt::replay(Arc::new((**model.work().exercise()).clone()), log).expect("actions that can be done");
    let sheet = mark(&attempt, Mode::Set);
    let at = sheet.findings.iter().position(|it| it.code == Code::ReasonWrong).expect("a wrong reason");
    assert_eq!(moments(&attempt, &sheet)[at], Some(chosen), "{:#?}", sheet.findings);
}
