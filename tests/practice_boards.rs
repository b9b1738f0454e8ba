//! The exercises on training boards that are more than a few ends: the hand that does each, in any of its variants.

use switchdrop::{
    attempt::{Happened, Mode},
    marking::{Code, Outcome, mark},
    trade::colour::{Colour, Mark},
    work::{Action, Feel},
};

use crate::hand::{Hand, exercise};

fn remove_cover(location: &str) -> Action {
    Action::RemoveCover { location: location.to_owned() }
}

/// Closed up, the supply brought, every switch worked, handed in.
fn finishes(hand: &mut Hand) {
    hand.closes_up();
    hand.does(Action::BringSupply);
    hand.works_switches();
    hand.does(Action::HandIn);
}

/// A core into its terminal: cut, stripped and folded back or sleeved, connected, tightened, pulled at.
fn makes_off(hand: &mut Hand, core: &str, terminal: &str) {
    let end = || format!("{core}@box");
    hand.does(Action::Cut { end: end(), mm: 120 });
    if core.ends_with("cpc") {
        hand.does(Action::Mark { end: end(), mark: Mark::Sleeve(Colour::GreenYellow) });
    } else {
        // Twice the 10 mm of the hole, since a double-pole switch asks for a fold.
        hand.does(Action::Strip { end: end(), mm: 20, jaw: 150 });
        hand.does(Action::Fold { end: end() });
    }
    hand.does(Action::Connect { end: end(), terminal: terminal.to_owned() });
    hand.does(Action::Tighten { terminal: terminal.to_owned(), feel: Feel::Right });
    assert_eq!(hand.attempt.act(Action::Tug { end: end() }), Ok(Happened::Held), "{core}");
}

fn box_made_off(seed: u64) -> Hand {
    let mut hand = Hand::new(exercise("make-off-a-box", seed));
    hand.does(remove_cover("box"));
    hand.does(Action::Sheath { cable: "feed".to_owned(), location: "box".to_owned(), mm: 160 });
    makes_off(&mut hand, "feed/brown", "box.L-in");
    makes_off(&mut hand, "feed/blue", "box.N-in");
    makes_off(&mut hand, "feed/cpc", "box.plate.earth");
    hand.does(Action::Dress { location: "box".to_owned() });
    finishes(&mut hand);
    hand
}

/// Seed 4.
pub fn box_model() -> Hand {
    box_made_off(4)
}

const AT_THE_ROSE: &str = "feed/brown@rose rose.loop
     onward/brown@rose rose.loop
     drop/brown@rose rose.loop
     feed/blue@rose rose.neutral
     onward/blue@rose rose.neutral
     flex/blue@rose rose.neutral
     drop/blue@rose Sleeve(Brown) rose.switched
     flex/brown@rose rose.switched
     feed/cpc@rose Sleeve(GreenYellow) rose.earth
     onward/cpc@rose Sleeve(GreenYellow) rose.earth
     drop/cpc@rose Sleeve(GreenYellow) rose.earth";

/// Up to the switches.
fn rose_wired(seed: u64) -> Hand {
    let mut hand = Hand::new(exercise("rose-with-onward-feed", seed));
    hand.does(remove_cover("rose"));
    hand.wires(AT_THE_ROSE);
    hand
}

/// Seed 4: every conductor at the rose where it belongs.
pub fn rose_model() -> Hand {
    let mut hand = rose_wired(4);
    finishes(&mut hand);
    hand
}

#[track_caller]
fn earns_everything(hand: &Hand, what: &str) {
    let sheet = mark(&hand.attempt, Mode::Set);
    assert!(sheet.findings.is_empty(), "{what}: {:#?}", sheet.findings);
    assert_eq!((sheet.outcome, sheet.marks, sheet.out_of), (Outcome::Pass, 100, 100), "{what}");
}

#[test]
fn the_hand_earns_everything_in_every_variant() {
    for seed in 0..30 {
        earns_everything(&box_made_off(seed), &format!("box {seed}"));
        let mut hand = rose_wired(seed);
        finishes(&mut hand);
        earns_everything(&hand, &format!("rose {seed}"));
    }
}

/// What nothing fed before is the learner's, though the COM of its switch was joined: both switches are to be worked, and one alone is not
/// enough.
#[test]
fn both_lamps_of_the_rose_are_to_be_worked() {
    for only in [None, Some(0), Some(1)] {
        let mut hand = rose_wired(4);
        hand.closes_up();
        hand.does(Action::BringSupply);
        if let Some(it) = only {
            let mut positions = vec![0, 0];
            positions[it] = 1;
            hand.sets(&positions);
        }
        hand.does(Action::HandIn);
        let sheet = mark(&hand.attempt, Mode::Set);
        let left = sheet.findings.iter().filter(|it| it.code == Code::StageMissing).count();
        assert_eq!((left, sheet.outcome), (1, Outcome::NotYet), "{only:?}: {:#?}", sheet.findings);
    }
}

/// The cable that hangs uncut is on a device, but the board's plug is out: nothing is proved before the first cut, and nothing stops the hand.
#[test]
fn an_uncut_cable_of_a_training_board_is_cut_with_the_plug_in_hand() {
    let mut hand = Hand::new(exercise("make-off-a-box", 4));
    hand.does(remove_cover("box"));
    hand.does(Action::Sheath { cable: "feed".to_owned(), location: "box".to_owned(), mm: 160 });
    hand.does(Action::Cut { end: "feed/brown@box".to_owned(), mm: 120 });
    assert!(hand.attempt.work().is_unplugged());
}
