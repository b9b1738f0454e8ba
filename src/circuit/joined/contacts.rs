//! A plain model of contacts: nets, ideal joins, and switches that join pairs of nets in each position.
//!
//! An exercise and a test are both turned into this. It knows nothing of cables, volts or marks.

use crate::{
    exercise::{Join, Sets},
    work::Work,
};

/// Pairs of nets that a switch joins in one position.
pub type Pairs = Vec<(usize, usize)>;

/// Nets, ideal joins and switches.
#[derive(Debug, Clone)]
pub struct Contacts {
    nets: usize,
    /// What the ideal joins make one.
    joined: Sets,
    switches: Vec<Vec<Pairs>>,
}

impl Contacts {
    /// `nets` nets, nothing joined, no switch.
    pub fn new(nets: usize) -> Self {
        Self { nets, joined: Sets::new(nets), switches: Vec::new() }
    }

    /// Joins two nets for good. A net that is not there is left out.
    pub fn join(&mut self, a: usize, b: usize) {
        if a < self.nets && b < self.nets {
            self.joined.join(a, b);
        }
    }

    /// Adds a switch: for each position the pairs of nets it joins. One without positions gets a single open one; a pair
    /// with a net that is not there is left out. Returns its number.
    pub fn switch(&mut self, positions: Vec<Pairs>) -> usize {
        let nets = self.nets;
        let mut positions: Vec<Pairs> = positions
            .into_iter()
            .map(|pairs| pairs.into_iter().filter(|(a, b)| *a < nets && *b < nets && a != b).collect())
            .collect();
        if positions.is_empty() {
            positions.push(Vec::new());
        }
        self.switches.push(positions);
        self.switches.len() - 1
    }

    /// The contacts of a work: a net for every terminal and then every end; conductors, what accessories join for good and
    /// the screws of plates (all fitted) as ideal joins.
    pub fn of(work: &Work) -> Self {
        Self::with(work, work.joined(Join::is_lasting))
    }

    /// The same with these ideal joins over terminals and then ends.
    pub fn with(work: &Work, joined: Sets) -> Self {
        let switches = &work.exercise().switches;
        let mut positions: Vec<Vec<Pairs>> = switches.iter().map(|it| vec![Vec::new(); it.way.positions()]).collect();
        for (join, [a, b]) in work.joins() {
            if let Join::Contact { switch, position, .. } = join {
                positions[switch.index()][usize::from(position)].push((a, b));
            }
        }
        let mut contacts = Self { nets: joined.count(), joined, switches: Vec::new() };
        for it in positions {
            contacts.switch(it);
        }
        contacts
    }

    /// The same with the other switches taken out: one position, open. Numbers stay.
    #[must_use]
    pub fn only(&self, switches: &[usize]) -> Self {
        let mut contacts = self.clone();
        for (_, it) in contacts.switches.iter_mut().enumerate().filter(|(it, _)| !switches.contains(it)) {
            *it = vec![Vec::new()];
        }
        contacts
    }

    /// Number of nets.
    pub fn nets(&self) -> usize {
        self.nets
    }

    /// Number of switches.
    pub fn switches(&self) -> usize {
        self.switches.len()
    }

    /// Number of positions of a switch, at least one; none for a switch that is not there.
    pub fn positions(&self, switch: usize) -> usize {
        self.switches.get(switch).map_or(0, Vec::len)
    }

    /// Number of combinations; `None` when 128 bits do not hold it.
    pub fn combinations(&self) -> Option<u128> {
        self.switches.iter().try_fold(1_u128, |n, it| n.checked_mul(it.len() as u128))
    }

    /// The pairs that a switch joins in a position; none in a position that it has not.
    pub fn pairs(&self, switch: usize, position: usize) -> &[(usize, usize)] {
        self.switches.get(switch).and_then(|it| it.get(position)).map_or(&[], Vec::as_slice)
    }

    /// For each net the one that stands for all those joined to it for good.
    pub fn merged(&self) -> Vec<usize> {
        let mut sets = self.joined.clone();
        (0..self.nets).map(|it| sets.root(it)).collect()
    }

    /// What is joined in one combination, found by joining everything: the plain way, a witness to every other.
    pub fn at(&self, positions: &[u8]) -> Sets {
        let mut sets = self.joined.clone();
        for (switch, position) in positions.iter().enumerate() {
            for (a, b) in self.pairs(switch, usize::from(*position)) {
                sets.join(*a, *b);
            }
        }
        sets
    }
}
