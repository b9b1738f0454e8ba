//! The way of the current that opened a device: what it was, how much, and through which conductors.
//!
//! For whoever tells a learner why something opened. It solves and says; it judges nothing.

use super::{
    joined::Contacts,
    network::{Conditions, Network, Part},
    settle::{Opening, settle},
    survey::{HazardKind, what_met},
};
use crate::{
    exercise::{EndId, TerminalId},
    work::{Point, Work},
};

/// A conductor that carries at least this share of the current that opened a device belongs to its way: less is what
/// lamps take, or one of several ways back (an assumption of ours).
const SHARE: f64 = 0.25;

/// Why a device opened, and where the current went.
#[derive(Debug, Clone, PartialEq)]
pub struct Course {
    /// Which device, why, and within how many seconds at the latest.
    pub opening: Opening,
    /// What met what.
    pub kind: HazardKind,
    /// What else did: line may meet neutral and earth at once.
    pub also: Option<HazardKind>,
    /// The current in the device's line before anything opened, amps.
    pub amps: f64,
    /// The conductors it went by, from the device outwards and back.
    pub conductors: Vec<usize>,
    /// Terminals on its way where a protective conductor of it meets another conductor of it: where line came to earth.
    pub meets: Vec<TerminalId>,
}

/// The courses of the currents that open devices as the work stands, in the order that the devices open. For a device
/// that opens only after another has, the way is the one before anything opened.
pub fn courses(work: &Work) -> Vec<Course> {
    let conditions = Conditions::present(work);
    let network = Network::new(work, &conditions);
    let solution = network.solve();
    let settled = settle(work, conditions);
    let kinds = what_met(
        work.exercise(),
        &Contacts::of(work),
        work.positions(),
        settled.opened.iter().map(|it| (it.device, it.cause)),
    );
    let volts = |point: Point| network.find(work, point).map_or(0.0, |it| solution.volts(it).abs());
    settled
        .opened
        .iter()
        .zip(kinds)
        .map(|(opening, kinds)| {
            let amps = network.part(Part::LinePole(opening.device)).map_or(0.0, |it| it.amps(&solution).abs());
            let carries = |conductor: &usize| {
                network.part(Part::Conductor(*conductor)).is_some_and(|it| it.amps(&solution).abs() >= SHARE * amps)
            };
            let mut conductors: Vec<usize> = (0..work.conductor_count()).filter(carries).collect();
            // The voltage to earth falls all along the way.
            let height = |it: usize| EndId::of(it).into_iter().map(|end| volts(work.point_of(end))).sum::<f64>();
            conductors.sort_by(|a, b| height(*b).total_cmp(&height(*a)));
            let meets = meets(work, &conductors);
            let mut kinds = kinds.into_iter();
            let (kind, also) = (kinds.next().unwrap_or(HazardKind::Overload), kinds.next());
            Course { opening: *opening, kind, also, amps, conductors, meets }
        })
        .collect()
}

/// The terminals that hold a protective conductor and another, both of these.
fn meets(work: &Work, conductors: &[usize]) -> Vec<TerminalId> {
    let held = |of: usize| EndId::of(of).into_iter().filter_map(|it| work.terminal_of(it));
    let protective = |of: &usize| EndId::of(*of).into_iter().any(|it| work.end_facts(it).colour.is_protective());
    let (earth, other): (Vec<usize>, Vec<usize>) = conductors.iter().copied().partition(protective);
    let earthed: Vec<_> = earth.into_iter().flat_map(held).collect();
    let mut found: Vec<_> = other.into_iter().flat_map(held).filter(|it| earthed.contains(it)).collect();
    found.dedup();
    found
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::{
        circuit::Cause,
        exercise::{SHIPPED, Seed, draw},
        work::{Action, Feel},
    };

    /// Worked out on paper: the feed is joined at the rose's loop and neutral, the drop's brown to its loop and, by
    /// mistake, the drop's blue to its neutral; at the switch both are in L1. The current goes out by the two browns and
    /// comes back by the two blues. 230 V over some 1 ohm (supply, 9 m of 1.5 mm² and 4 m of 1.0 mm², out and back) is
    /// well over 100 A.
    #[test]
    fn a_dead_short_at_the_switch_goes_out_by_the_browns_and_back_by_the_blues() {
        let (_, text) = SHIPPED.iter().find(|it| it.0 == "one-way-rose").unwrap();
        let mut work = Work::new(Arc::new(draw(text, Seed(0)).unwrap()));
        for location in ["switch", "rose"] {
            work.apply(&Action::RemoveCover { location: location.to_owned() }).unwrap();
        }
        for end in ["feed/brown@rose", "feed/blue@rose"] {
            work.apply(&Action::Disconnect { end: end.to_owned() }).unwrap();
        }
        for (end, to) in [
            ("feed/brown@rose", "rose.loop"),
            ("feed/blue@rose", "rose.neutral"),
            ("drop/brown@rose", "rose.loop"),
            ("drop/blue@rose", "rose.neutral"),
            ("drop/brown@switch", "switch.L1"),
            ("drop/blue@switch", "switch.L1"),
        ] {
            work.apply(&Action::Connect { end: end.to_owned(), terminal: to.to_owned() }).unwrap();
            work.apply(&Action::Tighten { terminal: to.to_owned(), feel: Feel::Right }).unwrap();
        }
        let found = courses(&work);
        assert_eq!(found.len(), 1);
        assert_eq!((found[0].kind, found[0].opening.cause), (HazardKind::ShortLineNeutral, Cause::Overcurrent));
        let names: Vec<_> = found[0].conductors.iter().map(|it| work.conductor_address(*it)).collect();
        assert_eq!(names, ["feed/brown", "drop/brown", "drop/blue", "feed/blue"]);
        assert!(found[0].amps > 100.0, "{}", found[0].amps);
        assert!(found[0].meets.is_empty(), "no protective conductor is in it");
    }

    /// On paper: the feed is joined at the rose, its cpc by mistake in the loop with the brown. Line meets earth there.
    #[test]
    fn where_line_comes_to_earth_is_the_terminal_that_holds_both() {
        let (_, text) = SHIPPED.iter().find(|it| it.0 == "one-way-rose").unwrap();
        let mut work = Work::new(Arc::new(draw(text, Seed(0)).unwrap()));
        work.apply(&Action::RemoveCover { location: "rose".to_owned() }).unwrap();
        for (end, to) in [("feed/brown@rose", "rose.loop"), ("feed/cpc@rose", "rose.loop")] {
            work.apply(&Action::Disconnect { end: end.to_owned() }).unwrap();
            work.apply(&Action::Connect { end: end.to_owned(), terminal: to.to_owned() }).unwrap();
            work.apply(&Action::Tighten { terminal: to.to_owned(), feel: Feel::Right }).unwrap();
        }
        let found = courses(&work);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].kind, HazardKind::ShortLineEarth);
        assert_eq!(found[0].meets, [work.terminal("rose.loop").unwrap()]);
    }

    #[test]
    fn where_nothing_opens_there_is_no_course() {
        for (_, text) in SHIPPED {
            let work = Work::new(Arc::new(draw(text, Seed(0)).unwrap()));
            assert!(courses(&work).is_empty());
        }
    }
}
