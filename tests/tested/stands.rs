//! Which tests stand and which fall: what nulling, handwork and other tests take back.

use switchdrop::{
    attempt::{Attempt, Happened},
    exercise::Stage,
    trade::instrument::{Function, LeadLength, Shown, insulation::TestVolts},
    wording::{Wording, happened},
    work::Action,
};

use super::{WIRING, inspect, model, model_not_handed_in, sound};
use crate::hand::Hand;

/// The model's log up to power-on, each action changed as asked.
fn before_power(change: impl Fn(&Action) -> Vec<Action>) -> Attempt {
    let mut attempt = Attempt::new(sound());
    let log = model().attempt.log().to_vec();
    for action in log.iter().take_while(|it| !matches!(it, Action::PowerOn { .. })).flat_map(change) {
        let _ = attempt.act(action);
    }
    attempt
}

/// The resistance of the leads is in every continuity reading taken before; an insulation reading, at too few volts as it is, has
/// nothing to do with it.
#[test]
fn nulling_takes_back_what_was_read_with_the_leads_in_it_and_no_more() {
    let mut attempt = before_power(|it| match it {
        Action::Null { .. } => Vec::new(),
        Action::Measure { function: Function::Insulation(_), lead, a, b } => vec![Action::Measure {
            function: Function::Insulation(TestVolts::V250),
            lead: *lead,
            a: a.clone(),
            b: b.clone(),
        }],
        it => vec![it.clone()],
    });
    let left = |attempt: &Attempt| {
        [Stage::Continuity, Stage::Insulation].map(|it| attempt.safety().testing().readings_left(it).len())
    };
    assert_eq!(left(&attempt), [0, 0], "wrongly read, but read");
    for lead in [LeadLength::Short, LeadLength::Long] {
        attempt.act(Action::Null { lead }).unwrap();
    }
    let [continuity, insulation] = left(&attempt);
    assert!(continuity > 0 && insulation == 0, "{continuity} {insulation}");
}

/// An end taken out at one place: that place is to be looked at again, and no other.
#[test]
fn handwork_at_a_place_leaves_the_others_inspected() {
    let mut hand = Hand::new(sound());
    hand.isolates();
    assert!(hand.attempt.safety().is_agreed() && !Attempt::new(sound()).safety().is_agreed());
    hand.wires(WIRING);
    hand.does(inspect("rose"));
    hand.does(inspect("switch"));
    let work = hand.attempt.work();
    let place = work.location("switch").unwrap();
    let end = work.ends_at(place).find(|it| work.terminal_of(*it).is_some()).unwrap();
    let end = work.end_address(end);
    hand.does(Action::Disconnect { end });
    let attempt = &hand.attempt;
    assert_eq!(attempt.safety().testing().inspections_left(attempt.work().exercise()), [place]);
}

/// Articles on ghost volts (trade/instrument.rs): tens of volts by a meter on a core that nothing is joined to beside a live one, and nothing
/// by an indicator. The switched line with its switch open is such a core, and it is said as it happens; with the switch closed
/// the supply is there, and that is said.
#[test]
fn tens_of_volts_on_a_core_that_hangs_free_are_told_for_what_they_are() {
    let mut hand = model_not_handed_in();
    hand.sets(&[0]);
    hand.does(Action::RemoveLamp { lamp: "lamp".to_owned() });
    let exercise = hand.attempt.work().exercise().clone();
    let [a, b] =
        exercise.lamps[exercise.lamp("lamp").unwrap()].contacts.map(|it| exercise.terminals[it].address.clone());
    let measured = |hand: &mut Hand, function| {
        hand.attempt.act(Action::Measure { function, lead: LeadLength::Short, a: a.clone(), b: b.clone() }).unwrap()
    };
    let ghost = measured(&mut hand, Function::Voltage);
    let Happened::Ghost(reading) = &ghost else { panic!("{ghost:?}") };
    let Shown::Figure(volts) = reading.shown else { panic!("{reading:?}") };
    assert!((10.0..100.0).contains(&volts.value()), "tens of volts: {volts:?}");
    let said = happened(&Wording::british(), &hand.attempt, &ghost);
    assert!(said.contains("an indicator shows nothing here"), "{said}");
    let dark = measured(&mut hand, Function::Indicator);
    assert!(matches!(&dark, Happened::Read(it) if it.shown == Shown::Lights(None)), "{dark:?}");
    hand.sets(&[1]);
    let supply = measured(&mut hand, Function::Voltage);
    assert!(
        matches!(&supply, Happened::Read(it) if matches!(it.shown, Shown::Figure(at) if at.value() > 200.0)),
        "{supply:?}"
    );
}
