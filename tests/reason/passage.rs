//! The see-through house and its variants. What its lamp does is worked out by hand: the feed is on L1 of the near switch, the lamp on its
//! L2, and each of the three cores joins its two namesakes. With its rocker down a switch joins COM to L1, up to L2.

use switchdrop::{
    circuit::{Cause, Glow},
    exercise::{EndId, TerminalId},
    reason::{LampGrid, Passage, PassageCore, PassageHand, PassageTry, Question, WayClass, WhatIf, why},
};

const NO: bool = false;
const YES: bool = true;

fn moves(house: &Passage, moved: &[(&str, &str)]) -> Vec<(EndId, TerminalId)> {
    moved.iter().map(|it| (house.work().end(it.0).unwrap(), house.work().terminal(it.1).unwrap())).collect()
}

/// With two wires, joined so, and tried.
fn tried(moved: &[(&str, &str)]) -> PassageTry {
    let mut house = Passage::with_two_wires().unwrap();
    house.join(&moves(&house, moved)).unwrap();
    assert!(moved.is_empty() || house.is_open() && !house.is_lit(), "a hand is in the box");
    house.close();
    house.tried().unwrap()
}

/// The lamp is lit where the two switches stand differently.
#[test]
fn the_finished_passage_obeys_both_switches() {
    let mut house = Passage::new().unwrap();
    assert_eq!(house.grid().unwrap().of_two(), Some([[NO, YES], [YES, NO]]));
    assert!(!house.is_lit());
    let far = house.switches().next_back().unwrap();
    house.press(far);
    assert_eq!((house.positions(), house.is_lit()), (&[0, 1][..], true));
    let [com, l2] = ["far.COM", "far.L2"].map(|it| house.work().terminal(it).unwrap());
    assert_eq!(house.blades(far), [[com, l2]]);
    assert_eq!(house.tried().unwrap().class, WayClass::Safe);
}

/// With one core off: without brown nothing joins the two COM, and each is joined to one terminal alone. Without black the feed is at the
/// near L1 alone, and reaches the far COM from there and the lamp by grey: near down and far up. Without grey the lamp's wire is at the
/// near L2 alone: near up and far down, over black.
#[test]
fn a_core_that_is_off_leaves_what_a_table_by_hand_has() {
    for (core, wanted) in [
        (PassageCore::Brown, [[NO, NO], [NO, NO]]),
        (PassageCore::Black, [[NO, YES], [NO, NO]]),
        (PassageCore::Grey, [[NO, NO], [YES, NO]]),
    ] {
        let mut house = Passage::new().unwrap();
        house.set(&[0, 1]);
        house.turn(core);
        assert!(house.is_open() && !house.is_lit() && !house.is_on(core));
        let flow = house.flow();
        let live = |it: EndId| flow.is_live(house.work(), house.work().point_of(it));
        assert!(!house.work().ends().any(live), "the supply is off");
        house.close();
        assert_eq!(house.grid().unwrap().of_two(), Some(wanted), "{core:?}");
        house.turn(core);
        house.close();
        assert_eq!(house.grid(), Passage::new().unwrap().grid(), "{core:?} is back");
        assert!(house.is_lit());
    }
}

/// Black is on the feed, so that nothing but the supply makes it dead; brown and grey are dead where the lamp is out and no switch leads
/// the feed to them: brown with the near rocker up and the far one up, grey with both down.
#[test]
fn a_core_is_dead_where_no_switch_leads_the_feed_to_it() {
    let house = Passage::new().unwrap();
    let dead = PassageCore::ALL.map(|it| house.dead_at(it));
    assert_eq!(dead, [None, Some([1, 1]), Some([0, 0])]);
}

/// With two wires, by hand. Brown joins the two COM and black the two L1: lit with near up and far down alone. Feed and lamp in one
/// terminal: always lit. The near COM empty and the far one too: never.
#[test]
fn a_try_leaves_the_grid_that_a_table_by_hand_has() {
    let found = tried(&[]);
    assert_eq!((found.grid.of_two(), found.class), (Some([[NO, NO], [YES, NO]]), WayClass::LitInOne));
    assert_eq!(found.joined.len(), 8, "feed, lamp, two cores and the earth wire; two cores and the earth wire");
    let found = tried(&[("light/brown@near", "near.L1")]);
    assert_eq!((found.grid.of_two(), found.class), (Some([[YES, YES], [YES, YES]]), WayClass::AlwaysOn));
    // Down joins feed and lamp; up leaves them to brown, the far switch and black: lit with the far rocker down.
    let found = tried(&[("light/brown@near", "near.COM")]);
    assert_eq!((found.grid.of_two(), found.class), (Some([[YES, YES], [YES, NO]]), WayClass::DarkInOne));
    // The same with black on L2: up leads to black and brown alone, and the feed is on neither.
    let found = tried(&[("light/brown@near", "near.COM"), ("link/black@near", "near.L2")]);
    assert_eq!((found.grid.of_two(), found.class), (Some([[YES, YES], [NO, NO]]), WayClass::OnlyFirst));
    // The lamp's wire hangs on brown alone, and brown's far end on a terminal that nothing is led to: far L2.
    let moved = [("link/brown@near", "near.L2"), ("link/brown@far", "far.L2")];
    let found = tried(&moved);
    // The far switch joins COM, where nothing is, to L1 or L2; the near one COM, where nothing is either.
    assert_eq!((found.grid.of_two(), found.class), (Some([[NO, NO], [NO, NO]]), WayClass::AlwaysOff));
    assert!(found.opens.is_empty() && !found.bare_live && !found.unearthed);
}

/// The far box has its earth by the earth wire alone. That wire on the feed at the near switch makes the far box live, and nothing opens. At
/// both ends in L2 it does what a third core does: the lamp obeys, and bare copper is live. At the far end in L2 alone it brings earth to
/// that terminal: with brown on COM and the near rocker down, live comes there with the far rocker up.
#[test]
fn a_try_with_the_earth_wire_says_what_is_dangerous() {
    let found = tried(&[("link/cpc@near", "near.L1")]);
    assert!(found.opens.is_empty() && found.bare_live && found.class == WayClass::ShockHazard, "{found:?}");
    let found = tried(&[("link/cpc@near", "near.L2"), ("link/cpc@far", "far.L2")]);
    assert_eq!((found.grid.of_two(), found.class), (Some([[NO, YES], [YES, NO]]), WayClass::Unsafe));
    assert!(found.opens.is_empty() && found.bare_live && found.unearthed);
    let found = tried(&[("link/cpc@far", "far.L2")]);
    assert!(found.opens == [1] && !found.bare_live && found.class == WayClass::Trips, "{found:?}");
}

/// A terminal takes four conductors: of feed, lamp's wire and three cores the fifth finds no room, and all is as before.
#[test]
fn a_screw_with_no_room_leaves_everything_as_it_was() {
    let mut house = Passage::new().unwrap();
    let all = ["feed/brown@near", "light/brown@near", "link/brown@near", "link/black@near", "link/grey@near"];
    let ends = |house: &Passage| all.map(|it| house.work().terminal_of(house.work().end(it).unwrap()));
    let before = ends(&house);
    let moved: Vec<_> = all.iter().map(|it| (*it, "near.L1")).collect();
    house.join(&moves(&house, &moved)).unwrap_err();
    assert_eq!(ends(&house), before);
    house.join(&moves(&house, &moved[..4])).unwrap();
}

/// Each way that the search shows does here what it is counted as.
#[test]
fn a_way_of_each_class_can_be_opened_in_the_house() {
    for cores in [2, 3] {
        let question = Question::of_cores(cores);
        let proof = why(&question, |_| ()).unwrap();
        for (it, example) in proof.counted.classes.iter().zip(&proof.examples) {
            let house = Passage::of_way(&question, &it.shown).unwrap();
            assert_eq!(house.tried().unwrap().class, it.class);
            assert_eq!(house.grid(), LampGrid::of(example.as_ref().unwrap().work()), "{:?}", it.class);
        }
    }
}

/// When the lamp of a variant is lit, by hand, and what opens.
#[test]
fn each_variant_does_what_a_table_by_hand_has() {
    let grid = |it: WhatIf| it.house().unwrap().grid().unwrap().lit().to_vec();
    let differ = [NO, YES, YES, NO];
    assert_eq!(grid(WhatIf::BareEarth), differ);
    assert_eq!(grid(WhatIf::Exchanged), differ);
    // Each side of the lamp has the live with its rocker down and the neutral with it up: lit where they differ.
    assert_eq!(grid(WhatIf::BothPoles), differ);
    // By the two L1 or by the two L2.
    assert_eq!(grid(WhatIf::OppositeEnds), [YES, NO, NO, YES]);
    // The same, and where it would be lit the trip switch opens.
    assert_eq!(grid(WhatIf::NeighboursNeutral), [NO; 4]);
    // The middle switch crosses the two wires over: lit with an even number of rockers up.
    assert_eq!(grid(WhatIf::ThirdSwitch), [YES, NO, NO, YES, NO, YES, YES, NO]);
    assert_eq!(grid(WhatIf::WhereItGoes), differ);
}

/// The lamp takes 0.26 A out by the one circuit and back by the other: each device misses more than five times its 30 mA.
#[test]
fn with_the_neighbours_neutral_both_trip_switches_open() {
    let mut house = WhatIf::NeighboursNeutral.house().unwrap();
    let opened: Vec<_> = house.flow().opened().iter().map(|it| (it.device.index(), it.cause, it.within)).collect();
    assert_eq!(opened, [(0, Cause::Residual, 0.04), (1, Cause::Residual, 0.04)]);
    // In both settings in which the lamp would be lit.
    assert_eq!(house.opens(), [0, 3]);
    house.set(&[0, 1]);
    assert!(house.flow().opened().is_empty());
    assert!(WhatIf::OppositeEnds.house().unwrap().flow().opened().is_empty());
}

/// 230 V through 2,000 ohm are 115 mA: between twice and five times 30 mA, so that the device opens within 0.15 s.
fn is_a_shock(house: &Passage, hand: PassageHand) {
    let met = house.hand(hand).unwrap();
    assert!((met.volts - 230.0).abs() < 1.0 && (met.amps - 0.115).abs() < 0.001, "{met:?}");
    assert_eq!(met.opened.map(|it| (it.cause, it.within)), Some((Cause::Residual, 0.15)));
}

/// Bare copper in the place of grey is live where grey is, and dead with both rockers down. With live and neutral exchanged the lamp's
/// second contact is live whatever the switches do. With both poles switched it is out with live on both sides, or with neutral on both.
#[test]
fn a_hand_meets_what_a_table_by_hand_has() {
    let at = |it: WhatIf, positions: &[u8]| {
        let mut house = it.house().unwrap();
        house.set(positions);
        house
    };
    is_a_shock(&at(WhatIf::BareEarth, &[0, 1]), PassageHand::BareWire);
    assert_eq!(at(WhatIf::BareEarth, &[0, 0]).hand(PassageHand::BareWire), None);
    for dark in [[0, 0], [1, 1]] {
        let house = at(WhatIf::Exchanged, &dark);
        assert!(!house.is_lit());
        is_a_shock(&house, PassageHand::Lampholder);
        assert_eq!(at(WhatIf::WhereItGoes, &dark).hand(PassageHand::Lampholder), None);
    }
    is_a_shock(&at(WhatIf::BothPoles, &[0, 0]), PassageHand::Lampholder);
    assert_eq!(at(WhatIf::BothPoles, &[1, 1]).hand(PassageHand::Lampholder), None);
    let lamp = WhatIf::BothPoles.house().unwrap();
    let id = lamp.work().exercise().lamps.ids().next().unwrap();
    assert_eq!(lamp.flow().lamp(id).glow, Glow::Off);
}
