//! Every combination of switch positions as a layered graph: one layer a switch, a state the partition of the open nets,
//! equal states merged.
//!
//! A chain of switches has two or four states in a layer however long it is, so what holds in all its combinations is
//! read off the graph and not off the combinations. Random wirings can blow up; that is a typed [`TooMany`].

use super::{
    contacts::Contacts,
    order::{Turn, turns},
    states::StateSet,
};

/// Most states in a layer.
pub const STATES: usize = 50_000;

/// Too many to prove anything, and of what.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum TooMany {
    /// More than [`STATES`] partitions of the open nets before some switch.
    #[error("more than {STATES} states of the nets open after {taken} switches")]
    States {
        /// Switches taken by then.
        taken: usize,
    },
    /// More than 255 nets open at once.
    #[error("{open} nets open at once, at most 255")]
    Nets {
        /// How many were met.
        open: usize,
    },
    /// More combinations than 128 bits count.
    #[error("more combinations than 128 bits count")]
    Combinations,
    /// More combinations of circuits that touch through earth than are tried: each of them has to be solved by itself.
    #[error("circuits that touch through earth have more than {most} combinations together")]
    Touching {
        /// The limit.
        most: usize,
    },
    /// More distinct results than anyone reads.
    #[error("more than {most} distinct results")]
    Results {
        /// The limit.
        most: usize,
    },
}

/// The layered graph.
#[derive(Debug, Clone)]
pub struct Layered {
    layers: Vec<SwitchLayer>,
    ends: StateSet,
    /// For each net watched, its place in a state at the end.
    watched: Vec<u8>,
    switches: usize,
}

/// The states before one switch, and where each position leads.
#[derive(Debug, Clone)]
pub(super) struct SwitchLayer {
    pub turn: Turn,
    pub states: StateSet,
    /// For each state and position, the state after it.
    pub next: Vec<u32>,
}

/// One of the distinct results: how the nets watched are joined, with the parity carried.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Class {
    /// For each net watched a number, the same for those that are joined.
    pub joined: Vec<u8>,
    /// Whether the positions of the counted switches add up to an odd number.
    pub odd: bool,
    /// Number of combinations.
    pub count: u128,
    /// The first combination in counting order, last switch fastest.
    pub first: Vec<u8>,
}

impl Layered {
    /// The graph that tells how the nets watched are joined in every combination. The positions of the `counted`
    /// switches are added up on the way, odd or even (none for most questions).
    ///
    /// # Errors
    /// [`TooMany`].
    pub fn new(contacts: &Contacts, watched: &[usize], counted: &[usize]) -> Result<Self, TooMany> {
        let merged = contacts.merged();
        let mut start: Vec<usize> = Vec::with_capacity(watched.len());
        for net in watched.iter().filter_map(|it| merged.get(*it)) {
            if !start.contains(net) {
                start.push(*net);
            }
        }
        // A net that is not there has no place.
        let place = |at: &usize| merged.get(*at).and_then(|net| start.iter().position(|it| it == net));
        let places = watched.iter().map(|net| place(net).map_or(u8::MAX, |it| it as u8)).collect();
        if start.len() > usize::from(u8::MAX) {
            return Err(TooMany::Nets { open: start.len() });
        }
        let turns = turns(contacts, &start).map_err(|open| TooMany::Nets { open })?;
        // A state is the parity carried and then a set number for each open net: hence one more.
        let mut states = StateSet::new(start.len() + 1);
        states.number(&std::iter::once(0).chain(0..start.len() as u8).collect::<Vec<u8>>());
        let mut layers = Vec::with_capacity(turns.len());
        let mut step = LayerStep::default();
        for (taken, turn) in turns.into_iter().enumerate() {
            let mut after = StateSet::new(turn.keep.len() + 1);
            let mut next = Vec::with_capacity(states.len() * turn.pairs.len());
            let flips = counted.contains(&turn.switch);
            for number in 0..states.len() {
                for (position, pairs) in turn.pairs.iter().enumerate() {
                    let odd = flips && position % 2 == 1;
                    next.push(after.number(step.take(&turn, states.get(number), pairs, odd)) as u32);
                }
                if after.len() > STATES {
                    return Err(TooMany::States { taken: taken + 1 });
                }
            }
            layers.push(SwitchLayer { turn, states, next });
            states = after;
        }
        Ok(Self { layers, ends: states, watched: places, switches: contacts.switches() })
    }

    /// The most states in a layer.
    pub fn widest(&self) -> usize {
        self.layers.iter().map(|it| it.states.len()).chain([self.ends.len()]).max().unwrap_or(1)
    }

    /// How the nets watched are joined in one combination: a number for each, the same for those that are joined. One
    /// step a switch. A position that a switch has not counts as its last.
    pub fn at(&self, positions: &[u8]) -> Vec<u8> {
        self.end(self.end_of(positions)).0
    }

    fn end_of(&self, positions: &[u8]) -> usize {
        self.layers.iter().fold(0, |state, layer| {
            let ways = layer.turn.pairs.len();
            let position = positions.get(layer.turn.switch).copied().unwrap_or(0);
            layer.next[state * ways + usize::from(position).min(ways - 1)] as usize
        })
    }

    /// Whether two of the nets watched, by their places, are joined in one combination.
    pub fn are_joined(&self, positions: &[u8], a: usize, b: usize) -> bool {
        let state = self.ends.get(self.end_of(positions));
        let label = |place: usize| self.watched.get(place).and_then(|it| state.get(usize::from(*it) + 1));
        label(a).is_some() && label(a) == label(b)
    }

    /// The distinct results, in the order of their first combinations.
    ///
    /// # Errors
    /// [`TooMany::Combinations`].
    pub fn classes(&self) -> Result<Vec<Class>, TooMany> {
        // What each switch's position is worth in counting order.
        let mut worth = vec![0_u128; self.switches];
        let mut all = 1_u128;
        let mut ways = vec![1_u128; self.switches];
        self.layers.iter().for_each(|it| ways[it.turn.switch] = it.turn.pairs.len() as u128);
        for switch in (0..self.switches).rev() {
            worth[switch] = all;
            all = all.checked_mul(ways[switch]).ok_or(TooMany::Combinations)?;
        }
        let mut counts = vec![1_u128];
        for (index, layer) in self.layers.iter().enumerate() {
            let mut after = vec![0_u128; self.states_after(index)];
            let ways = layer.turn.pairs.len();
            for (edge, next) in layer.next.iter().enumerate() {
                after[*next as usize] += counts[edge / ways];
            }
            counts = after;
        }
        let first = self.cheapest(|switch, position| worth[switch] * position as u128);
        let mut classes: Vec<(u128, Class)> = counts
            .into_iter()
            .zip(first)
            .enumerate()
            .map(|(end, (count, (order, first)))| {
                let (joined, odd) = self.end(end);
                (order, Class { joined, odd, count, first })
            })
            .collect();
        classes.sort_by_key(|it| it.0);
        Ok(classes.into_iter().map(|it| it.1).collect())
    }

    /// For each end the least sum of costs of the positions, and a combination that has it.
    pub(super) fn cheapest(&self, cost: impl Fn(usize, usize) -> u128) -> Vec<(u128, Vec<u8>)> {
        let mut best = vec![0_u128];
        let mut came: Vec<Vec<(u32, u8)>> = Vec::with_capacity(self.layers.len());
        for (index, layer) in self.layers.iter().enumerate() {
            let ways = layer.turn.pairs.len();
            let mut after = vec![u128::MAX; self.states_after(index)];
            let mut from = vec![(0, 0); after.len()];
            for (edge, next) in layer.next.iter().enumerate() {
                let (state, position) = (edge / ways, edge % ways);
                let sum = best[state].saturating_add(cost(layer.turn.switch, position));
                if sum < after[*next as usize] {
                    after[*next as usize] = sum;
                    from[*next as usize] = (state as u32, position as u8);
                }
            }
            best = after;
            came.push(from);
        }
        let back = |end: usize| {
            let mut positions = vec![0; self.switches];
            let mut state = end;
            for (layer, came) in self.layers.iter().zip(&came).rev() {
                let (from, position) = came[state];
                positions[layer.turn.switch] = position;
                state = from as usize;
            }
            positions
        };
        best.iter().enumerate().map(|(end, sum)| (*sum, back(end))).collect()
    }

    /// How the nets watched are joined at an end, and whether the sum carried is odd.
    pub(super) fn end(&self, end: usize) -> (Vec<u8>, bool) {
        let state = self.ends.get(end);
        let label = |it: &u8| state.get(usize::from(*it) + 1).copied().unwrap_or(u8::MAX);
        (self.watched.iter().map(label).collect(), state[0] == 1)
    }

    /// Number of ends.
    pub(super) fn ends(&self) -> usize {
        self.ends.len()
    }

    pub(super) fn layers(&self) -> &[SwitchLayer] {
        &self.layers
    }

    fn states_after(&self, layer: usize) -> usize {
        self.layers.get(layer + 1).map_or(self.ends.len(), |it| it.states.len())
    }
}

/// One step from a state; what it needs is kept from one to the next.
#[derive(Debug, Default)]
pub(super) struct LayerStep {
    /// The set of each open and then each fresh net.
    pub labels: Vec<u8>,
    renamed: Vec<u8>,
    out: Vec<u8>,
}

impl LayerStep {
    /// The state after a switch closes these pairs. [`Self::labels`] are then the sets before any net is closed.
    pub fn take(&mut self, turn: &Turn, state: &[u8], pairs: &[(u8, u8)], odd: bool) -> &[u8] {
        let Self { labels, renamed, out } = self;
        labels.clear();
        labels.extend_from_slice(&state[1..]);
        let fresh = turn.open as u8;
        labels.extend((0..turn.fresh.len() as u8).map(|it| fresh + it));
        for (a, b) in pairs {
            let (a, b) = (labels[usize::from(*a)], labels[usize::from(*b)]);
            if a != b {
                labels.iter_mut().filter(|it| **it == b).for_each(|it| *it = a);
            }
        }
        renamed.clear();
        renamed.resize(labels.len(), u8::MAX);
        out.clear();
        out.push(state[0] ^ u8::from(odd));
        let mut names = 0;
        for place in &turn.keep {
            let name = &mut renamed[usize::from(labels[usize::from(*place)])];
            if *name == u8::MAX {
                *name = names;
                names += 1;
            }
            out.push(*name);
        }
        out
    }

    /// The set after the step of a place before it; `None` where none of it is open any more.
    pub fn after(&self, label: u8) -> Option<u8> {
        self.renamed.get(usize::from(label)).copied().filter(|it| *it != u8::MAX)
    }
}
