//! A wrong wiring gives the wrong reading that it gives in life.

use switchdrop::{
    circuit::instrument::{Function, Refusal, Setting, Shown, supply_volts},
    exercise::Seed,
    trade::instrument::{loop_impedance::Range, rcd::Test},
    work::{Edit, Point, Work},
};

use super::*;
use crate::hand::{exercise, two_way_model};

#[test]
fn an_open_cpc_is_no_loop_and_no_continuity() {
    let mut work = run(&[(1.5, 10.0), (1.5, 10.0)]);
    moves(&mut work, "c1/cpc@p1", None);
    for function in [Function::Loop(Range::NoTrip), Function::Rcd(Test::Rated)] {
        assert_eq!(shows(&work, &Setting::of(function), "p2.loop", "p2.earth"), Shown::Refused(Refusal::NoSupply));
    }
    // A high-impedance meter is fooled by the cable's capacitance; the indicator is not.
    assert!(figure(&work, &Setting::of(Function::Voltage), "p2.loop", "p2.earth") > 50.0);
    assert_eq!(shows(&work, &Setting::of(Function::Indicator), "p2.loop", "p2.earth"), Shown::Lights(None));
    let work = dead(work);
    assert!(is_open(shows(&work, &link_method(&work, "c0"), "p2.loop", "p2.earth")));
}

/// Trade-facts and the charter: an open cpc behind which neutral and earth touch reads like a sound one by R1+R2 at the
/// point while the supply's neutral is joined to earth; insulation between neutral and cpc, main switch off, gives it away.
#[test]
fn neutral_touching_earth_hides_an_open_cpc_until_insulation_is_tested() {
    let mut work = run(&[(1.5, 10.0), (1.5, 10.0)]);
    moves(&mut work, "c1/cpc@p1", None);
    moves(&mut work, "drop/cpc@p2", Some("p2.neutral"));
    moves(&mut work, "c1/cpc@p2", Some("p2.neutral"));
    // A bare link in the rose: earth terminal to neutral by the drop's cpc, both ends.
    moves(&mut work, "drop/cpc@switch", None);
    work.edit(&Edit::Tail(work.terminal("p2.neutral").unwrap(), work.terminal("p2.earth").unwrap()));
    let off = dead(work.clone());
    // Line and back by a neutral of 1.5, and by the tie of neutral and earth at the origin, which is nothing to speak of.
    close(figure(&off, &link_method(&off, "c0"), "p2.loop", "p2.earth"), 20.0 * 2.0 * R_1_5);
    assert!(matches!(shows(&off, &insulation(), "p2.neutral", "p2.earth"), Shown::Under(_)));
    // The live test finds the voltage and a loop, all of it by way of the device's own neutral: no residual current.
    close(figure(&work, &Setting::of(Function::Loop(Range::NoTrip)), "p2.loop", "p2.earth"), 20.0 * 2.0 * R_1_5 + 0.35);
    assert!(reads(&work, &Setting::of(Function::Rcd(Test::FiveTimes)), "p2.loop", "p2.earth").opens.is_empty());
}

/// Neutral and cpc exchanged at the rose: the lamp's current comes back by the earth.
#[test]
fn neutral_and_earth_exchanged_reads_right_by_volts_and_wrong_by_trip() {
    let mut work = run(&[(1.5, 10.0)]);
    moves(&mut work, "c0/blue@p1", Some("p1.earth"));
    moves(&mut work, "c0/cpc@p1", Some("p1.neutral"));
    let meter = Setting::of(Function::Voltage);
    let volts = supply_volts(work.exercise());
    assert!((figure(&work, &meter, "p1.loop", "p1.earth") - volts).abs() < 1.5);
    let rcd = Setting::of(Function::Rcd(Test::FiveTimes));
    assert!(reads(&work, &rcd, "p1.loop", "p1.earth").opens.is_empty(), "what is marked earth is the neutral");
    assert_eq!(reads(&work, &rcd, "p1.loop", "p1.neutral").opens.len(), 1, "what is marked neutral is the earth");
}

/// Line and neutral exchanged at the far end of the feed.
#[test]
fn reversed_polarity_shows_by_volts_to_earth() {
    let mut work = run(&[(1.5, 10.0)]);
    moves(&mut work, "c0/brown@p1", Some("p1.neutral"));
    moves(&mut work, "c0/blue@p1", Some("p1.loop"));
    let indicator = Setting::of(Function::Indicator);
    let lights = |a, b| shows(&work, &indicator, a, b);
    assert_eq!(lights("p1.loop", "p1.neutral"), Shown::Lights(Some(230)));
    assert_eq!(lights("p1.neutral", "p1.earth"), Shown::Lights(Some(230)));
    assert_eq!(lights("p1.loop", "p1.earth"), Shown::Lights(None));
}

/// A neutral borrowed from the other circuit: with that circuit's device off and its own on, volts stand between the two
/// neutrals through the lamp, and a test from line to the borrowed neutral is a residual current for the first device.
#[test]
fn a_borrowed_neutral_opens_the_device_that_lacks_the_return() {
    let mut work = two_way_model().attempt.work().clone();
    let (neutral, other) = (at(&work, "feed/blue@board"), at(&work, "shed-feed/blue@board"));
    let Point::Terminal(other) = other else { panic!("in a terminal") };
    work.edit(&Edit::Move(work.end("feed/blue@board").unwrap(), Some(other)));
    let found = reads(&work, &Setting::of(Function::Rcd(Test::Rated)), "kiln.1.L2", "kiln.connector.1");
    let Point::Terminal(neutral) = neutral else { panic!("in a terminal") };
    let feeds = work.exercise().devices.iter().position(|it| it.neutral == neutral).unwrap();
    assert!(found.opens.iter().any(|it| it.index() == feeds), "{found:?}");
    // Dead: the two neutrals are one conductor.
    let work = dead(work);
    assert!(figure(&work, &continuity(), "rose.neutral", "shed-rose.neutral") < 1.0);
}

/// A screw never tightened is an ohm in the model (an assumption of ours): it is in the loop and in R1+R2.
#[test]
fn a_slack_screw_is_in_every_reading_through_it() {
    let mut work = run(&[(1.5, 10.0), (1.5, 10.0)]);
    let loop_ohms = |work: &Work| figure(work, &Setting::of(Function::Loop(Range::NoTrip)), "p2.loop", "p2.earth");
    let sound = loop_ohms(&work);
    work.edit(&Edit::Slacken(work.terminal("p1.earth").unwrap()));
    let slack = loop_ohms(&work);
    assert!(slack > sound + 1.0, "{slack} beside {sound}");
    let work = dead(work);
    assert!(figure(&work, &link_method(&work, "c0"), "p2.loop", "p2.earth") > 1.0 + 20.0 * (R_1_5 + R_1_0));
}

/// BS EN 61008-1: a device may open between half its rated current and the whole, and each has its own place there. Neutral
/// touches earth at the far point and one of its screws is loose, so that of 30 mA about 24 come back by the cpc (2.42 ohm by
/// the neutral, 0.54 by the cpc).
#[test]
fn between_half_and_the_whole_some_devices_open_and_some_do_not() {
    let (mut opened, mut held) = (0, 0);
    for seed in 0..40 {
        let mut work = run_of(&[(1.5, 10.0), (1.5, 10.0)], Seed(seed));
        work.edit(&Edit::Tail(work.terminal("p2.neutral").unwrap(), work.terminal("p2.earth").unwrap()));
        work.edit(&Edit::Slacken(work.terminal("p1.neutral").unwrap()));
        let of = |test| reads(&work, &Setting::of(Function::Rcd(test)), "p2.loop", "p2.earth").opens.len();
        assert_eq!(of(Test::Half), 0);
        assert_eq!(of(Test::FiveTimes), 1);
        *(if of(Test::Rated) == 1 { &mut opened } else { &mut held }) += 1;
    }
    assert!(opened > 5 && held > 5, "{opened} opened, {held} held");
}

/// The other circuit's device sees the borrowed current too and may be the quicker; the supply lasts until the one that
/// feeds the point has opened.
#[test]
fn the_clock_runs_until_the_supply_is_gone() {
    let mut both = 0;
    for seed in 0..40 {
        let mut work = Work::new(exercise("two-way-passage", seed));
        let Point::Terminal(line) = at(&work, "feed/brown@board") else { panic!("in a terminal") };
        let Point::Terminal(other) = at(&work, "shed-feed/blue@board") else { panic!("in a terminal") };
        work.edit(&Edit::Move(work.end("feed/blue@board").unwrap(), Some(other)));
        let found = reads(&work, &Setting::of(Function::Rcd(Test::Rated)), "kiln.1.COM", "kiln.connector.1");
        assert!(matches!(found.shown, Shown::Figure(_)), "{found:?}");
        let last = found.opens.last().unwrap();
        assert_eq!(work.exercise().devices[*last].line, line, "{found:?}");
        both += usize::from(found.opens.len() == 2);
    }
    assert!((5..=35).contains(&both), "{both} of 40");
}
