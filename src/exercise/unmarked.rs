//! What comes to the learner without a mark: cables of one look that come in at a place, terminals of a plate without letters. Nothing tells
//! them apart until they are found out.

use super::{
    rows::Switch,
    table::{EndId, LocationId, TerminalId},
    tables::Exercise,
};

/// Things of one look at one place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unmarked {
    /// The place that they are at.
    pub location: LocationId,
    /// In the order in which they are seen there, from the left. The names to choose from are theirs.
    pub things: Vec<UnmarkedThing>,
}

/// One of them, as what it really is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum UnmarkedThing {
    /// A cable, by its place in [`super::Tables::cables`].
    Cable(usize),
    /// A terminal.
    Terminal(TerminalId),
}

/// One thing without a mark: its group in [`super::Tables::unmarked`], and its place there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct UnmarkedId {
    /// The group.
    pub group: usize,
    /// The place in it, from 0, in the order in which they are seen.
    pub place: usize,
}

impl Exercise {
    /// Everything without a mark, group by group, in the order in which it is seen.
    pub fn unmarked_ids(&self) -> impl Iterator<Item = UnmarkedId> + '_ {
        let of = |(group, it): (usize, &Unmarked)| (0..it.things.len()).map(move |place| UnmarkedId { group, place });
        self.unmarked.iter().enumerate().flat_map(of)
    }

    /// What a thing without a mark really is; `None` if there is no such thing.
    pub fn unmarked_thing(&self, id: UnmarkedId) -> Option<UnmarkedThing> {
        self.unmarked.get(id.group)?.things.get(id.place).copied()
    }

    /// The cable without a mark that an end belongs to, where that end is.
    pub fn unmarked_end(&self, end: EndId) -> Option<UnmarkedId> {
        let facts = self.end_facts(end)?;
        self.unmarked_cable(self.conductors.get(end.conductor())?.cable, facts.location)
    }

    /// A cable without a mark, by its place in the list of cables, at a place where it has none.
    pub fn unmarked_cable(&self, cable: usize, location: LocationId) -> Option<UnmarkedId> {
        self.unmarked_ids().find(|it| {
            self.unmarked[it.group].location == location
                && self.unmarked_thing(*it) == Some(UnmarkedThing::Cable(cable))
        })
    }

    /// A terminal without a letter.
    pub fn unmarked_terminal(&self, terminal: TerminalId) -> Option<UnmarkedId> {
        self.unmarked_ids().find(|it| self.unmarked_thing(*it) == Some(UnmarkedThing::Terminal(terminal)))
    }

    /// The address of a thing without a mark: `drop@joint`, `switch.COM`. Empty if there is no such thing.
    pub fn unmarked_address(&self, id: UnmarkedId) -> String {
        let (name, group) = (self.unmarked_name(id), self.unmarked.get(id.group));
        match (self.unmarked_thing(id), group) {
            (Some(UnmarkedThing::Cable(_)), Some(it)) => format!("{name}@{}", self.locations[it.location].id),
            _ => name.to_owned(),
        }
    }

    /// The name that a thing without a mark really has, as an action says it: the id of a cable, the address of a terminal.
    pub fn unmarked_name(&self, id: UnmarkedId) -> &str {
        match self.unmarked_thing(id) {
            Some(UnmarkedThing::Cable(it)) => self.cables.get(it).map_or("", |it| &it.id),
            Some(UnmarkedThing::Terminal(it)) => &self.terminals[it].address,
            None => "",
        }
    }

    /// The conductor ends of a cable without a mark, where it has none; of a terminal none.
    pub fn unmarked_ends(&self, id: UnmarkedId) -> Vec<EndId> {
        let Some(UnmarkedThing::Cable(cable)) = self.unmarked_thing(id) else { return Vec::new() };
        let (Some(it), Some(group)) = (self.cables.get(cable), self.unmarked.get(id.group)) else { return Vec::new() };
        let side = usize::from(it.between[0] != group.location);
        (0..it.kind.cores().len()).map(|core| EndId::of(it.first_conductor + core)[side]).collect()
    }
}

/// Whether the contacts of a switch can be told apart by what is joined in each position: whether any two ways of naming them are told
/// apart by some reading between two of them.
pub(super) fn is_told_by_contacts(switch: &Switch) -> bool {
    let places: Vec<usize> = (0..switch.terminals.len()).collect();
    let joined = |position: usize, a: usize, b: usize| {
        let of = |it: usize| switch.terminals.get(it).copied();
        switch.closed(position).any(|it| {
            let pair = [Some(it[0]), Some(it[1])];
            pair == [of(a), of(b)] || pair == [of(b), of(a)]
        })
    };
    let is_seen = |order: &Vec<usize>| {
        (0..switch.way.positions()).any(|position| {
            places
                .iter()
                .any(|a| places.iter().any(|b| joined(position, *a, *b) != joined(position, order[*a], order[*b])))
        })
    };
    orders(places.len()).iter().filter(|it| **it != places).all(is_seen)
}

/// Every order of the numbers below `count`, the plain one first.
pub(crate) fn orders(count: usize) -> Vec<Vec<usize>> {
    let mut all = vec![Vec::new()];
    for _ in 0..count {
        let longer = |order: &Vec<usize>| {
            let order = order.clone();
            let free = (0..count).filter(|it| !order.contains(it)).collect::<Vec<_>>();
            free.into_iter().map(move |it| order.iter().copied().chain([it]).collect::<Vec<usize>>())
        };
        all = all.iter().flat_map(longer).collect();
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn of_three_things_there_are_six_orders_and_the_plain_one_is_first() {
        let three = orders(3);
        assert_eq!(three.len(), 6);
        assert_eq!(three[0], [0, 1, 2]);
        assert_eq!(three[5], [2, 1, 0]);
        assert_eq!(orders(0), [Vec::<usize>::new()]);
        assert_eq!(orders(5).len(), 120);
    }
}
