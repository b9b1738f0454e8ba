//! Controls that no wiring can do. Each of these conditions is necessary; that all of them hold proves nothing.
//!
//! A lamp worked from several switches changes at every single toggle (C. E. Shannon, A Symbolic Analysis of Relay and
//! Switching Circuits, 1938: it is lit by the parity of their positions). So each switch, as the others stand, must put the
//! lamp out by the very movement that lights it as they stand otherwise.
//!
//! - A switch that only joins and parts cannot: joining more never puts out a lamp that is lit, short of a short circuit.
//! - Nor can any switch behind two conductors: whatever it is, it joins the two or parts them; and a lamp that hangs behind
//!   the same two is fed by both of them or not at all.
//! - n switches need 4n - 4 contacts between them, as the same paper shows of the parity of n.

use super::{Doubt, DoubtKind};
use crate::{
    exercise::{Exercise, LocationId, LocationKind, Named, SwitchId},
    trade::catalogue::Accessory,
};

/// Insulated conductors needed by a switch that shares its lamp with one elsewhere.
const CONDUCTORS: usize = 3;

pub(super) fn doubts(exercise: &Exercise, found: &mut Vec<Doubt>) {
    for (number, control) in exercise.controls.iter().enumerate().filter(|it| it.1.switches.len() > 1) {
        let switches = || control.switches.iter().map(|it: &SwitchId| &exercise.switches[*it]);
        let mut places: Vec<LocationId> = switches().map(|it| it.location).collect();
        places.sort_unstable();
        places.dedup();
        for place in places.iter().filter(|_| places.len() > 1) {
            let come = conductors_at(exercise, *place);
            if come < CONDUCTORS {
                let at = Named::Location(*place);
                found.push(Doubt::new(DoubtKind::TooFewConductors, at, come as f64, CONDUCTORS as f64));
            }
        }
        for (index, it) in switches().enumerate().filter(|it| joins_only(&it.1.way)) {
            let at = Named::SwitchOf { control: number, switch: index };
            let doubt = Doubt::new(DoubtKind::JoinsOnly, at, 0.0, 0.0);
            found.push(Doubt { place: Some(it.location), ..doubt });
        }
        let contacts: usize =
            switches().map(|it| (0..it.way.positions()).map(|at| it.way.joins(at).len()).sum::<usize>()).sum();
        let needed = 4 * control.switches.len() - 4;
        if contacts < needed {
            found.push(Doubt::new(DoubtKind::TooFewContacts, Named::Control(number), contacts as f64, needed as f64));
        }
    }
}

/// Insulated conductors of the cables that end at a place, except those to a lamp or the like that hangs on it alone:
/// what is true of the place is then true of both together.
fn conductors_at(exercise: &Exercise, place: LocationId) -> usize {
    let hangs = |it: LocationId| {
        matches!(exercise.locations[it].kind, LocationKind::Luminaire | LocationKind::Fan(_))
            && exercise.cables.iter().filter(|cable| cable.between.contains(&it)).count() == 1
    };
    let comes = |cable: usize| {
        let [a, b] = exercise.cables[cable].between;
        a == place && !hangs(b) || b == place && !hangs(a)
    };
    exercise.conductors.iter().filter(|it| comes(it.cable) && !it.colour.is_protective()).count()
}

/// Whether of any two positions one joins all that the other does.
fn joins_only(way: &Accessory) -> bool {
    let holds = |all: usize, of: usize| way.joins(of).iter().all(|it| way.joins(all).contains(it));
    (0..way.positions()).all(|a| (0..way.positions()).all(|b| holds(a, b) || holds(b, a)))
}
