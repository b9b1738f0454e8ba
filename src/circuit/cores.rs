//! How many insulated conductors a run needs, whatever the wiring: what must cross from the side of the board to the other.
//!
//! Cut every cable between the two places of the run. If that parts the place in two, all that a light's switches and its lamp
//! have to do with each other over there, they do through the cores that were cut:
//!
//! - a lamp, or all the switches of a light: two cores, since one closes no circuit;
//! - switches on both sides: three. The far side knows nothing but how its switch stands, and with two cores all it can do is
//!   join or part them (with a lamp over there: have it between them or not). Joining only adds a connection, and adding one
//!   never puts out a lamp that is lit; but at some setting of the near switches that is what it must do. With the lamp over
//!   there, both settings of the near switches must put line on one core and neutral on the other, or nothing lights; and then
//!   they are alike to the far side.
//!
//! For one light the figures are exact. For several together the greatest is a lower bound, the sum an upper one.

use crate::exercise::{Exercise, LampId, LocationId, LocationKind, Sets};

/// What a run needs.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct CoresNeeded {
    /// For each light that must cross, how many insulated conductors it needs.
    each: Vec<(LampId, usize)>,
    /// Insulated conductors of other cables between the two places.
    beside: usize,
    /// The number that is known to do; `None`: nothing is known.
    enough: Option<usize>,
}

impl CoresNeeded {
    /// Lights that no wiring can work with this number of insulated conductors in the run.
    pub fn lost_with(&self, insulated: usize) -> impl Iterator<Item = LampId> + '_ {
        self.each.iter().filter(move |it| insulated + self.beside < it.1).map(|it| it.0)
    }

    /// Whether this number is known to do.
    pub fn is_enough(&self, insulated: usize) -> bool {
        self.enough.is_some_and(|it| insulated >= it)
    }
}

/// What a run (by index) needs.
pub fn cores_needed(exercise: &Exercise, run: usize) -> CoresNeeded {
    let Some(it) = exercise.runs.get(run) else { return CoresNeeded::default() };
    let ends = it.between;
    let is_beside = |it: &[LocationId; 2]| *it == ends || *it == [ends[1], ends[0]];
    let mut sides = Sets::new(exercise.locations.len());
    let mut beside = 0;
    for it in &exercise.cables {
        if !is_beside(&it.between) {
            sides.join(it.between[0].index(), it.between[1].index());
        } else if exercise.runs[run].cable.is_none_or(|of| exercise.cables[of].id != it.id) {
            beside += it.kind.insulated();
        }
    }
    for (index, it) in exercise.runs.iter().enumerate().filter(|(_, it)| it.cable.is_none()) {
        if !is_beside(&it.between) {
            sides.join(it.between[0].index(), it.between[1].index());
        } else if index != run {
            beside += it.offers.iter().map(|it| it.kind.insulated()).max().unwrap_or(0);
        }
    }
    let roots = ends.map(|it| sides.root(it.index()));
    let boards = exercise.locations.iter().enumerate().filter(|(_, it)| it.kind == LocationKind::Board);
    let boards: Vec<usize> = boards.map(|(index, _)| sides.root(index)).collect();
    let far = match ends.map(|it| boards.contains(&sides.root(it.index()))) {
        [true, false] => roots[1],
        [false, true] => roots[0],
        // There is another way round, or no board to be seen, or one on either side.
        _ => return CoresNeeded::default(),
    };
    let mut is_far = |it: LocationId| sides.root(it.index()) == far;
    let mut each = Vec::new();
    for control in exercise.controls.iter().filter(|it| exercise.is_wired_by_learner(it)) {
        let lamp = is_far(exercise.lamps[control.lamp].location);
        let over_there = control.switches.iter().filter(|it| is_far(exercise.switches[**it].location)).count();
        let needed = match (lamp, over_there) {
            (false, 0) => continue,
            (_, there) if there > 0 && there < control.switches.len() => 3,
            _ => 2,
        };
        each.push((control.lamp, needed));
    }
    let is_plain = !exercise.fans.iter().any(|it| is_far(it.location));
    let enough = is_plain.then(|| each.iter().map(|it| it.1).sum());
    CoresNeeded { each, beside, enough }
}
