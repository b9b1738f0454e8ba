//! What has no mark, found out by readings with the low-resistance meter and named, before anything is joined.

use super::{Lacks, Solver};
use crate::{
    attempt::{Attempt, Happened},
    exercise::{EndId, LocationId, Stage, UnmarkedThing},
    work::{Action, Point},
};

/// A reading that could tell something: how the switches stand for it, and where the probes go.
struct TellingRead {
    positions: Vec<u8>,
    points: [Point; 2],
}

impl Solver {
    pub(super) fn names_everything(&mut self) -> Result<(), Lacks> {
        let exercise = self.exercise();
        if !exercise.asks(Stage::Naming) {
            return Ok(());
        }
        for place in self.places_to_open() {
            self.opens(place)?;
        }
        let before = self.attempt.work().positions().to_vec();
        while let Some(it) = telling(&self.attempt) {
            self.sets(&it.positions)?;
            let [a, b] = it.points.map(|point| self.attempt.work().point_address(point));
            self.does(Action::Continuity { a, b })?;
        }
        self.sets(&before)?;
        for id in exercise.unmarked_ids() {
            if !self.attempt.safety().naming().is_told(id) {
                return Err(Lacks::Stage(Stage::Naming));
            }
            let called = exercise.unmarked_name(id).to_owned();
            self.does(Action::Name { at: exercise.unmarked_address(id), called })?;
        }
        Ok(())
    }

    /// Where something without a mark is, and where its cables come out, as far as the work goes there.
    fn places_to_open(&self) -> Vec<LocationId> {
        let exercise = self.exercise();
        let mut places: Vec<LocationId> = exercise.unmarked.iter().map(|it| it.location).collect();
        for id in exercise.unmarked_ids() {
            if let Some(UnmarkedThing::Cable(it)) = exercise.unmarked_thing(id) {
                places.extend(exercise.cables[it].between);
            }
        }
        let mine = exercise.learners_places();
        places.retain(|it| mine.contains(it));
        places.sort_unstable();
        places.dedup();
        places
    }
}

/// The first reading that could tell something more and that a hand can take now.
fn telling(attempt: &Attempt) -> Option<TellingRead> {
    readings(attempt).into_iter().find(|it| {
        let mut tried = Solver { attempt: attempt.clone() };
        let is_set = tried.sets(&it.positions).is_ok();
        let (work, naming) = (tried.attempt.work(), tried.attempt.safety().naming());
        let [a, b] = it.points.map(|point| work.point_address(point));
        is_set
            && naming.could_tell(work, it.points)
            && matches!(tried.does(Action::Continuity { a, b }), Ok(Happened::Ohms(_)))
    })
}

/// Every reading that might tell: each cable without a mark against each core that may be its far end, each terminal against the others in each
/// position, in the order in which they are seen.
fn readings(attempt: &Attempt) -> Vec<TellingRead> {
    let work = attempt.work();
    let exercise = work.exercise();
    let now = work.positions().to_vec();
    let mut found = Vec::new();
    for group in &exercise.unmarked {
        let ends = |cable: usize| {
            let cable = &exercise.cables[cable];
            let [a, b] = EndId::of(cable.first_conductor);
            if cable.between[0] == group.location { [a, b] } else { [b, a] }
        };
        let cables =
            group.things.iter().filter_map(|it| if let UnmarkedThing::Cable(it) = it { Some(*it) } else { None });
        let mut by_list: Vec<usize> = cables.clone().collect();
        by_list.sort_unstable();
        for far in by_list.into_iter().map(|it| ends(it)[1]) {
            found.extend(cables.clone().map(|it| TellingRead {
                positions: now.clone(),
                points: [work.point_of(far), work.point_of(ends(it)[0])],
            }));
        }
        let terminals: Vec<_> = group
            .things
            .iter()
            .filter_map(|it| if let UnmarkedThing::Terminal(it) = it { Some(*it) } else { None })
            .collect();
        let switch = exercise
            .switches
            .with_ids()
            .find(|it| terminals.first().is_some_and(|first| it.1.terminals.contains(first)));
        let Some((id, switch)) = switch else { continue };
        let here = now.get(id.index()).copied().unwrap_or_default();
        let mut all: Vec<u8> = (0..switch.way.positions() as u8).collect();
        all.sort_by_key(|it| *it != here);
        for position in all {
            let mut positions = now.clone();
            if let Some(it) = positions.get_mut(id.index()) {
                *it = position;
            }
            for (place, a) in terminals.iter().enumerate() {
                found.extend(terminals[place + 1..].iter().map(|b| TellingRead {
                    positions: positions.clone(),
                    points: [Point::Terminal(*a), Point::Terminal(*b)],
                }));
            }
        }
    }
    found
}
