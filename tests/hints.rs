//! Hints: what they say, what they cost, and that they accuse nobody of work not yet done.

use std::sync::Arc;

use switchdrop::{
    advice::guidance,
    attempt::{Attempt, Mode},
    exercise::{Seed, read},
    marking::{Criterion, Hint, Outcome, Root, Sheet, Weight, hint, mark},
    work::{Action, Edit, Feel, Subject},
};

use crate::{
    hand::{Hand, ONE_WAY, exercise, one_way_model, two_way_model},
    slips::slips,
    wirings::Dice,
};

fn asked(hand: &mut Hand) -> Hint {
    hand.does(Action::Hint);
    hint(&hand.attempt)
}

/// The blue core of a drop is used for line and has no sleeve: first the place, then what is wrong, and after more work the
/// place again (marking.md: only an unmarked blue on line loses marks, under identification).
#[test]
fn a_hint_says_where_and_only_then_what() {
    let mut hand = Hand::new(exercise("one-way-rose", 4));
    assert_eq!(asked(&mut hand), Hint::SoFarRight, "nothing was done yet");
    hand.isolates();
    hand.wires(
        "feed/brown@rose rose.loop\ndrop/blue@rose rose.loop\ndrop/brown@rose rose.switched\nflex/brown@rose rose.switched\n\
         drop/blue@switch switch.COM\ndrop/brown@switch switch.L1",
    );
    let Hint::Look(seen) = asked(&mut hand) else { panic!("a hint that says nothing, or all") };
    assert_eq!((seen.code.word(), seen.code.criterion().word()), ("mark-missing", "identification"));
    let ends = ["drop/blue@rose", "drop/blue@switch"].map(|it| hand.attempt.work().end(it).unwrap());
    assert!(ends.iter().any(|it| hand.attempt.work().subject_of(*it) == seen.at), "{seen:?}");
    assert_eq!(asked(&mut hand), Hint::Wrong(seen));
    hand.wires("flex/blue@rose rose.neutral");
    assert!(matches!(asked(&mut hand), Hint::Look(_)));
}

/// Whoever follows the model is never told that something is wrong, whatever is still to do.
#[test]
fn no_step_of_a_model_is_a_mistake() {
    let by_hand = crate::made_off::tested_model().attempt;
    for model in [one_way_model().attempt, two_way_model().attempt, by_hand] {
        let mut attempt = Attempt::new(Arc::clone(model.work().exercise()));
        for (number, action) in model.log().iter().enumerate() {
            attempt.act(action.clone()).unwrap();
            assert_eq!(hint(&attempt), Hint::SoFarRight, "after {number}: {action:?}");
        }
    }
}

/// Nor whoever joins what is right in any other order: what waits in a connector is no mistake.
#[test]
fn no_order_of_right_joins_is_a_mistake() {
    let mut dice = Dice(0x4f_52_44);
    let mut isolated = Hand::new(exercise("one-way-rose", 4));
    isolated.isolates();
    for _ in 0..12 {
        let mut hand = Hand { attempt: isolated.attempt.clone() };
        let mut left: Vec<&str> = ONE_WAY.lines().collect();
        while !left.is_empty() {
            let line = left.swap_remove(dice.below(left.len()));
            hand.wires(line);
            assert_eq!(hint(&hand.attempt), Hint::SoFarRight, "after {line}");
        }
    }
}

/// The model with a hint before each step, in an exercise that gives marks for doing without.
fn with_hints(weight: u32) -> Sheet {
    let text = exercise("one-way-rose", 4).text().replace("prediction:5)", &format!("prediction:5,hints:{weight})"));
    let log = one_way_model().attempt.log().to_vec();
    let log = log.into_iter().flat_map(|it| [Action::Hint, it]);
    mark(&Attempt::replay(Arc::new(read(&text, Seed(4)).unwrap()), log).unwrap(), Mode::Set)
}

/// A quarter of the criterion each, as what breaks a rule does, until it has none; nothing unless the scenario says so. Nothing
/// else is the worse for it: no proof of dead, no check, no undo.
#[test]
fn hints_are_counted_and_cost_only_what_the_scenario_says() {
    let free = with_hints(0);
    assert_eq!((free.outcome, free.marks, free.out_of), (Outcome::Pass, 100, 100));
    assert!(free.hints > 10 && free.findings.is_empty());
    let dear = with_hints(8);
    assert_eq!((dear.outcome, dear.marks, dear.out_of), (Outcome::Pass, 100, 108));
    let one = dear.findings.first().unwrap();
    assert_eq!((one.code.word(), one.at, one.lost), ("hint-taken", Subject::Hint(0), 2));
    assert_eq!(dear.findings.len(), free.hints);
}

/// What was done before a hint can be taken back after it.
#[test]
fn a_hint_stands_in_the_way_of_no_undo() {
    let mut hand = Hand::new(exercise("one-way-rose", 4));
    hand.isolates();
    hand.wires("feed/brown@rose rose.neutral");
    hand.does(Action::Hint);
    assert!(hand.attempt.can_undo());
    hand.does(Action::Undo);
    assert_eq!(hand.attempt.tally().hints.len(), 1, "and it stays counted");
}

/// A hint seeks no further than a frame of the window allows. In exercises of this size that is as far as a sheet does: of two slips
/// it names what the sheet names as a cause, never what only follows from one.
#[test]
fn a_hint_names_a_cause_that_the_sheet_names_too() {
    let mut dice = Dice(0x41_4e_54);
    let mut looked = 0;
    for model in [one_way_model(), two_way_model()] {
        let slips = slips(model.attempt.work());
        for _ in 0..150 {
            let [(a, one), (b, other)] = [0; 2].map(|_| &slips[dice.below(slips.len())]);
            let attempt = model.attempt.supposing(&[one.clone(), other.clone()].concat());
            let Hint::Look(seen) = hint(&attempt) else { continue };
            looked += 1;
            let sheet = mark(&attempt, Mode::Practice);
            let mut causes = sheet.findings.iter().filter(|it| it.root == Root::Itself);
            assert!(causes.any(|it| (it.code, it.at) == (seen.code, seen.at)), "{a}, {b}: {seen:?}");
        }
    }
    assert!(looked > 200, "{looked}");
}

/// A box earthed by its plate's screws alone is advice, which is nothing to look at again.
#[test]
fn advice_is_no_hint() {
    let model = two_way_model();
    let work = model.attempt.work();
    let beside = [("link/cpc@clay", "clay.plate.earth"), ("made-1/a@clay", "clay.plate.earth")];
    let edits = beside.map(|(end, to)| Edit::Move(work.end(end).unwrap(), Some(work.terminal(to).unwrap())));
    let attempt = model.attempt.supposing(&edits);
    let sheet = mark(&attempt, Mode::Practice);
    let advised = sheet.findings.iter().filter(|it| it.weight == Weight::Advice && it.root == Root::Itself);
    assert_eq!(advised.count(), 1, "{:#?}", sheet.findings);
    assert_eq!(hint(&attempt), Hint::SoFarRight);
}

/// Whoever does nothing but what each hint says next, sleeve, core and screw, lands every end, and the sheet finds nothing in the wiring:
/// it works, and everything is earthed and identified. Whatever is joined already is kept.
#[test]
fn whoever_follows_the_hints_alone_ends_with_a_right_wiring() {
    let mut joined = 0;
    for id in ["wire-a-switch", "one-way-rose", "rose-with-onward-feed", "two-way-passage"] {
        for seed in 0..12 {
            let mut hand = Hand::new(exercise(id, seed));
            assert_eq!(guidance(&hand.attempt).next, None, "{id}, seed {seed}: every cover is on");
            if hand.attempt.work().is_bench() {
                for place in hand.attempt.work().exercise().learners_places() {
                    let location = hand.attempt.work().exercise().locations[place].id.clone();
                    hand.does(Action::RemoveCover { location });
                }
            } else {
                hand.isolates();
            }
            while let Some(next) = guidance(&hand.attempt).next {
                let work = hand.attempt.work();
                let [end, terminal] =
                    [work.end_address(next.end), work.exercise().terminals[next.terminal].address.clone()];
                let was = work.terminal_of(next.end).map(|it| work.exercise().terminals[it].address.clone());
                let sleeve = next.sleeve.map_or_else(String::new, |it| format!("Sleeve({it:?})"));
                hand.wires(&format!("{end} {sleeve} {terminal}"));
                // The screw that it came from holds what is left there.
                let work = hand.attempt.work();
                if let Some(terminal) = was.filter(|it| work.ends_in(work.terminal(it).unwrap()).next().is_some()) {
                    hand.does(Action::Tighten { terminal, feel: Feel::Right });
                }
                joined += 1;
            }
            assert_eq!(hint(&hand.attempt), Hint::SoFarRight, "{id}, seed {seed}");
            let work = hand.attempt.work();
            assert!(work.ends().all(|it| !work.exercise().is_learners(it) || work.is_landed(it)), "{id}, seed {seed}");
            let sheet = mark(&hand.attempt, Mode::Practice);
            let is_of_wiring = |it: &Criterion| {
                use Criterion::{Earthing, Function, Identification, Polarity, Terminations};
                matches!(it, Function | Polarity | Earthing | Identification | Terminations)
            };
            let wrong =
                sheet.findings.iter().filter(|it| it.weight > Weight::Advice && is_of_wiring(&it.code.criterion()));
            assert_eq!(wrong.count(), 0, "{id}, seed {seed}: {:#?}", sheet.findings);
        }
    }
    assert!(joined > 300, "{joined}");
}
