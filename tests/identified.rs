//! The charter, "**Identified** means": a load that goes out and comes back as its device is worked.

use switchdrop::{
    attempt::{ActKind, Happened},
    work::Action,
};

use crate::{
    hand::Hand,
    parked::{CLAY, DEAD, KILN, is_touchable, named_and_locked, passage, round, show},
};

/// What a device does when it is worked, and the work is still as it was found.
fn works(hand: &mut Hand, device: &str, on: bool) -> Happened {
    let device = device.to_owned();
    let action = if on { Action::PowerOn { device } } else { Action::PowerOff { device } };
    hand.attempt.act(action).unwrap()
}

/// A load that goes out and comes back as its device is worked, once for each circuit that is here: named alone, or one alone
/// looked at, and a round proves nothing.
#[test]
fn a_circuit_is_identified_by_a_load_that_goes_out_and_comes_back() {
    let cases =
        [(vec![], false), (vec!["board.1"], false), (vec!["board.2"], false), (vec!["board.1", "board.2"], true)];
    for (worked, proves) in cases {
        let mut hand = Hand::new(passage("EarthingTerminal"));
        for device in &worked {
            let went = works(&mut hand, device, false);
            let came = works(&mut hand, device, true);
            let one =
                |it: &Happened, on| matches!(it, Happened::Lamps { lit, lamps } if *lit == on && lamps.len() == 1);
            assert!(one(&went, false) && one(&came, true), "{device}: {went:?}, {came:?}");
        }
        let mut hand = named_and_locked(hand);
        hand.does(show("kiln.box.earth"));
        round(&mut hand, &[]);
        hand.does(DEAD);
        assert_eq!((is_touchable(&hand, KILN), is_touchable(&hand, CLAY)), (proves, proves), "{worked:?}");
    }
}

/// With every light dark nothing is seen; and what went out has to come back.
#[test]
fn a_dark_light_shows_nothing_and_one_that_stays_out_not_yet() {
    let shown = |hand: &Hand| {
        let device = |it| hand.attempt.work().device(it).unwrap();
        ["board.1", "board.2"].map(|it| hand.attempt.safety().is_shown_by_load(device(it)))
    };
    let mut hand = Hand::new(passage("EarthingTerminal"));
    for switch in ["kiln.1", "kiln.2"] {
        hand.does(Action::Operate { switch: switch.to_owned(), position: 1 });
    }
    for device in ["board.1", "board.2"] {
        assert_eq!([false, true].map(|on| works(&mut hand, device, on)), [Happened::Done, Happened::Done], "{device}");
    }
    assert_eq!(shown(&hand), [false, false]);
    let mut hand = Hand::new(passage("EarthingTerminal"));
    works(&mut hand, "board.1", false);
    works(&mut hand, "board.2", false);
    works(&mut hand, "board.2", true);
    assert_eq!(shown(&hand), [false, true]);
}

/// To see what goes out a device is switched on again before any check was made. Once a place was proved dead it is not.
#[test]
fn a_device_is_switched_on_again_only_until_the_work_has_begun() {
    let mut hand = Hand::new(passage("EarthingTerminal"));
    hand.isolates();
    for location in ["kiln", "clay"] {
        hand.does(Action::FitCover { location: location.to_owned() });
    }
    hand.does(Action::Unlock { device: "board.1".to_owned() });
    assert_eq!(works(&mut hand, "board.1", true).stopped(), Some(ActKind::PowerOnUnchecked));
    // What was worked before is no power on the work.
    assert!(hand.attempt.tally().energised.is_empty());
}
