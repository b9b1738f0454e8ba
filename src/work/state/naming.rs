//! What has no mark, and what the learner calls it.

use super::{Point, Refused, Work};
use crate::exercise::{EndId, Exercise, TerminalId, UnmarkedId, UnmarkedThing};

/// The names that were given.
#[derive(Debug, Clone)]
pub(super) struct GivenNames {
    /// For each thing, group by group, the place in its group of that whose name it was given.
    given: Vec<Vec<Option<usize>>>,
    /// Whether everything is called what it is, because the answers are told.
    told: bool,
}

/// What a thing without a mark is called.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Called {
    /// Nothing yet: it is spoken of by its place among those of its group.
    ByPlace(UnmarkedId),
    /// By the name of this thing, rightly or not.
    By(UnmarkedThing),
}

impl GivenNames {
    pub(super) fn none(exercise: &Exercise) -> Self {
        Self { given: exercise.unmarked.iter().map(|it| vec![None; it.things.len()]).collect(), told: false }
    }

    fn of(&self, id: UnmarkedId) -> Option<usize> {
        self.given.get(id.group)?.get(id.place).copied().flatten()
    }
}

impl Work {
    /// What a thing without a mark is called now.
    pub fn called(&self, id: UnmarkedId) -> Called {
        let place = if self.names.told { Some(id.place) } else { self.names.of(id) };
        let thing = place.and_then(|place| self.exercise.unmarked_thing(UnmarkedId { place, ..id }));
        thing.map_or(Called::ByPlace(id), Called::By)
    }

    /// Whether everything is called what it is, because the answers are told.
    pub fn is_told(&self) -> bool {
        self.names.told
    }

    /// The thing whose name the learner gave it, itself if the name is right; `None` while it has no name.
    pub fn named_as(&self, id: UnmarkedId) -> Option<UnmarkedId> {
        self.names.of(id).map(|place| UnmarkedId { place, ..id })
    }

    /// Things without a mark that the learner has given no name yet.
    pub fn names_left(&self) -> impl Iterator<Item = UnmarkedId> + '_ {
        self.exercise.unmarked_ids().filter(|it| self.names.of(*it).is_none())
    }

    /// Calls everything by what it is: the answers are told.
    pub(crate) fn tell_names(&mut self) {
        self.names.told = true;
    }

    /// The thing without a mark that an action speaks of, and the one whose name it is given, by the address of the first and the name of
    /// the second.
    ///
    /// # Errors
    /// [`Refused::NoNameAsked`], [`Refused::NoSuchName`].
    pub fn naming(&self, at: &str, called: &str) -> Result<[UnmarkedId; 2], Refused> {
        let exercise = &self.exercise;
        let Some(thing) = exercise.unmarked_ids().find(|it| exercise.unmarked_address(*it) == at) else {
            return Err(Refused::NoNameAsked { at: at.to_owned() });
        };
        let mut names = exercise.unmarked_ids().filter(|it| it.group == thing.group);
        match names.find(|it| exercise.unmarked_name(*it) == called) {
            Some(name) => Ok([thing, name]),
            None => Err(Refused::NoSuchName { called: called.to_owned() }),
        }
    }

    /// Gives a thing a name. There is one label of each name: whatever else had this one has none then.
    pub(super) fn name(&mut self, at: &str, called: &str) -> Result<(), Refused> {
        let [thing, name] = self.naming(at, called)?;
        self.uncovered(self.exercise.unmarked[thing.group].location)?;
        if self.names.of(thing) == Some(name.place) {
            return Err(Refused::SoAlready { at: at.to_owned() });
        }
        let group = (0..self.names.given[thing.group].len()).map(|place| UnmarkedId { place, ..thing });
        let had = group.filter(|it| self.names.of(*it) == Some(name.place));
        let joined = had.chain([thing]).find(|it| self.is_joined_unmarked(*it));
        if let Some(it) = joined {
            return Err(Refused::NamedAndJoined { at: self.exercise.unmarked_address(it) });
        }
        for it in &mut self.names.given[thing.group] {
            *it = it.filter(|it| *it != name.place);
        }
        self.names.given[thing.group][thing.place] = Some(name.place);
        Ok(())
    }

    /// Whether an end of a cable without a mark is in a terminal there, or an end in a terminal without a letter: its name is settled then.
    pub fn is_joined_unmarked(&self, id: UnmarkedId) -> bool {
        match self.exercise.unmarked_thing(id) {
            Some(UnmarkedThing::Terminal(it)) => self.ends_in(it).next().is_some(),
            _ => self.exercise.unmarked_ends(id).into_iter().any(|it| self.terminal_of(it).is_some()),
        }
    }

    /// The work as it would be if each thing without a mark were really that of another place in its group: `really[group][place]`. A point
    /// of this work is [`Self::renamed`] in that one.
    pub(crate) fn with_things_as(&self, really: &[Vec<usize>]) -> Self {
        let mut other = self.clone();
        for id in self.exercise.unmarked_ids() {
            for (here, there) in self.exercise.unmarked_ends(id).into_iter().zip(self.renamed_ends(really, id)) {
                other.ends.change(there, |it| *it = self.ends[here]);
            }
        }
        for end in self.ends() {
            if let Some(it) = other.ends[end].terminal {
                let terminal = self.renamed_terminal(really, it);
                other.ends.change(end, |it| it.terminal = Some(terminal));
            }
        }
        for it in self.exercise.terminals.ids() {
            other.tight.put(self.renamed_terminal(really, it), self.tight[it]);
        }
        for link in &mut other.links {
            *link = link.map(|it| self.renamed(really, it));
        }
        other
    }

    /// A point of this work in [`Self::with_things_as`].
    pub(crate) fn renamed(&self, really: &[Vec<usize>], point: Point) -> Point {
        match point {
            Point::Terminal(it) => Point::Terminal(self.renamed_terminal(really, it)),
            Point::End(it) => {
                let id = self.exercise.unmarked_end(it);
                let ends = |id| self.exercise.unmarked_ends(id).into_iter().zip(self.renamed_ends(really, id));
                let there = id.and_then(|id| ends(id).find(|(here, _)| *here == it));
                Point::End(there.map_or(it, |it| it.1))
            }
        }
    }

    fn renamed_terminal(&self, really: &[Vec<usize>], terminal: TerminalId) -> TerminalId {
        let to =
            self.exercise.unmarked_terminal(terminal).and_then(|id| self.exercise.unmarked_thing(other(really, id)));
        if let Some(UnmarkedThing::Terminal(it)) = to { it } else { terminal }
    }

    fn renamed_ends(&self, really: &[Vec<usize>], id: UnmarkedId) -> Vec<EndId> {
        self.exercise.unmarked_ends(other(really, id))
    }
}

fn other(really: &[Vec<usize>], id: UnmarkedId) -> UnmarkedId {
    let place = really.get(id.group).and_then(|it| it.get(id.place)).copied().unwrap_or(id.place);
    UnmarkedId { place, ..id }
}
