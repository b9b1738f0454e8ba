//! What the readings so far say of what has no mark, and which of its names were said by then.
//!
//! Every way of naming it all is kept as long as each reading would have come out the same by it: the reading is taken again on the work as it
//! would be then. A thing is told when all that are left agree on it, however that came about: the last of three is told by the other two. What
//! can be read there is only whether two points are joined: how many ohms there are, no learner knows before.
//!
//! The name that counts is the one that stands when the first end of the thing is joined, and what was read by then is what it rests on; with
//! everything taken out again, it may be said again and counts anew. An assessor looks at the label that is left on the cable: a slip that
//! the learner found and put right is no fault of the naming.

use std::collections::BTreeMap;

use super::testing::JOINED_OHMS;
use crate::{
    circuit::{self, Meter},
    exercise::{Exercise, UnmarkedId, orders},
    trade::instrument::{Function, LeadLength, Shown},
    work::{Action, Point, Work},
};

/// Where the naming of what has no mark stands. Folded from the log, never undone.
#[derive(Debug, Clone)]
pub struct Naming {
    /// The ways of naming it all that no reading has ruled out: for each group, which thing each place may really be. The truth is one.
    left: Vec<Vec<Vec<usize>>>,
    /// For each thing that has a name, the action that gave it.
    said: BTreeMap<UnmarkedId, usize>,
    /// For each thing of which an end is joined, whether it was told by then.
    settled: BTreeMap<UnmarkedId, bool>,
    /// How many things have no name.
    nameless: usize,
}

impl Naming {
    pub(super) fn new(exercise: &Exercise) -> Self {
        let groups = exercise.unmarked.iter().map(|it| orders(it.things.len()));
        let longer = |left: Vec<Vec<Vec<usize>>>, group: Vec<Vec<usize>>| {
            let with = |so_far: &Vec<Vec<usize>>| {
                let so_far = so_far.clone();
                group.iter().map(move |it| so_far.iter().cloned().chain([it.clone()]).collect()).collect::<Vec<_>>()
            };
            left.iter().flat_map(with).collect()
        };
        Self {
            left: groups.fold(vec![Vec::new()], longer),
            said: BTreeMap::new(),
            settled: BTreeMap::new(),
            nameless: exercise.unmarked_ids().count(),
        }
    }

    /// Whether everything without a mark has a name.
    pub const fn is_done(&self) -> bool {
        self.nameless == 0
    }

    /// The action that gave a thing the name that it has.
    pub fn said_in(&self, id: UnmarkedId) -> Option<usize> {
        self.said.get(&id).copied()
    }

    /// Whether readings tell which a thing is: those by the time that its first end was joined, or until now.
    pub fn is_told(&self, id: UnmarkedId) -> bool {
        self.settled.get(&id).copied().unwrap_or_else(|| self.is_told_now(id))
    }

    fn is_told_now(&self, id: UnmarkedId) -> bool {
        self.left.iter().all(|way| way.get(id.group).and_then(|group| group.get(id.place)) == Some(&id.place))
    }

    /// Whether a reading between two points could tell something more: whether it would come out in more than one way.
    pub fn could_tell(&self, work: &Work, points: [Point; 2]) -> bool {
        let mut found = self.left.iter().map(|it| is_joined(work, it, points));
        let first = found.next().flatten();
        first.is_some() && found.any(|it| it != first)
    }

    /// Takes note of an action that was carried out. `work` is as it stands after it.
    pub(super) fn note(&mut self, work: &Work, action: &Action, number: usize) {
        match action {
            Action::Name { at, called } => {
                if let Ok([thing, _]) = work.naming(at, called) {
                    self.said.insert(thing, number);
                }
            }
            Action::Continuity { a, b } | Action::Measure { function: Function::Continuity, a, b, .. } => {
                if let (true, Ok(a), Ok(b)) = (self.left.len() > 1, work.point(a), work.point(b)) {
                    self.read(work, [a, b]);
                }
            }
            _ => {}
        }
        self.follow(work);
    }

    fn read(&mut self, work: &Work, points: [Point; 2]) {
        let plain: Vec<Vec<usize>> = work.exercise().unmarked.iter().map(|it| (0..it.things.len()).collect()).collect();
        if let Some(shown) = is_joined(work, &plain, points) {
            self.left.retain(|it| is_joined(work, it, points) == Some(shown));
        }
    }

    /// Sees what is joined and what has a name, after an action or a step back.
    pub(super) fn follow(&mut self, work: &Work) {
        self.nameless = work.names_left().count();
        self.said.retain(|it, _| work.named_as(*it).is_some());
        for it in work.exercise().unmarked_ids() {
            if !work.is_joined_unmarked(it) {
                self.settled.remove(&it);
            } else if !self.settled.contains_key(&it) {
                self.settled.insert(it, self.is_told_now(it));
            }
        }
    }
}

/// Whether a low-resistance meter would find two points joined, by that way of naming; `None` where it would not measure.
fn is_joined(work: &Work, really: &[Vec<usize>], points: [Point; 2]) -> Option<bool> {
    let meter = Meter { function: Function::Continuity, lead: LeadLength::Long, nulled: true };
    let [a, b] = points.map(|it| work.renamed(really, it));
    match circuit::reading(&work.with_things_as(really), meter, a, b).shown {
        Shown::Figure(it) => Some(it.value() < JOINED_OHMS),
        Shown::Over(_) => Some(false),
        Shown::Under(_) => Some(true),
        _ => None,
    }
}
