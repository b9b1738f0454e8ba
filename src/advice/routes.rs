//! The shortest way by cables from a device to each place.
//!
//! Only cables count, not what is joined to what: a scenario says little of that, and the learner decides the rest.

use crate::exercise::{DeviceId, EndId, Exercise, LocationId};

/// The least cost of a way by cables to each location, in what `cost` counts, and the cable by which that way arrives.
#[derive(Debug, Clone)]
pub(super) struct Routes {
    to: Vec<Option<(f64, Option<usize>)>>,
}

impl Routes {
    /// The shortest ways from a device. `cost` takes a cable's place in the list; `None`: the cable is no way.
    pub fn new(exercise: &Exercise, device: DeviceId, cost: impl Fn(usize) -> Option<f64>) -> Self {
        let id = device;
        let device = &exercise.devices[id];
        let is_board = |it: LocationId| exercise.is_board(it);
        let mut to = vec![None; exercise.locations.len()];
        to[device.location.index()] = Some((0.0, None));
        // At most as often as there are places: each round takes every way one cable further.
        for _ in 0..exercise.locations.len() {
            let before = to.clone();
            for (index, cable) in exercise.cables.iter().enumerate() {
                let Some(cost) = cost(index) else { continue };
                for [from, next] in [cable.between, [cable.between[1], cable.between[0]]] {
                    let may = !is_board(next) && (!is_board(from) || is_of(exercise, id, index, from));
                    let Some((far, _)) = before[from.index()].filter(|_| may) else { continue };
                    if to[next.index()].is_none_or(|(had, _): (f64, _)| far + cost < had) {
                        to[next.index()] = Some((far + cost, Some(index)));
                    }
                }
            }
            if to == before {
                break;
            }
        }
        Self { to }
    }

    /// The cost of the way to a location; `None` where no cable leads.
    pub fn far(&self, location: LocationId) -> Option<f64> {
        self.to[location.index()].map(|it| it.0)
    }

    /// The cables on the way to a location, from it to the board.
    pub fn way(&self, exercise: &Exercise, location: LocationId) -> Vec<usize> {
        let (mut at, mut way) = (location, Vec::new());
        while let Some((_, Some(cable))) = self.to[at.index()] {
            way.push(cable);
            let [a, b] = exercise.cables[cable].between;
            at = if a == at { b } else { a };
        }
        way
    }
}

/// Whether a cable from the board belongs to a device, or could come to: a core of it is in the device's line, or none
/// is in the line of any.
fn is_of(exercise: &Exercise, id: DeviceId, cable: usize, board: LocationId) -> bool {
    let device = &exercise.devices[id];
    if board != device.location {
        return false;
    }
    let ours = (0..exercise.conductors.len()).filter(|it| exercise.conductors[*it].cable == cable);
    let ends = ours.flat_map(EndId::of).filter_map(|end| exercise.start[end]).map(|start| start.terminal);
    let mut lines = ends.filter(|it| exercise.devices.iter().any(|device| device.line == *it)).peekable();
    let is_free = lines.peek().is_none();
    // A free end is probably not meant for a device that stands in front of others.
    let is_front = || exercise.devices.iter().any(|it| it.behind == Some(id));
    lines.any(|it| it == device.line) || is_free && !is_front()
}
