//! Volts by eliminating one node after another (star to mesh).
//!
//! The order is fixed once for a network ([`Plan`]), whatever its branches then carry; a solution is one pass through it.
//!
//! Only positive numbers are added, multiplied and divided on the way to voltages and Thevenin resistances, so those are
//! right to the last digits however far apart the resistances lie. Differences of neighbours come from the same back
//! substitution and not from subtracting two nearly equal voltages; they have signs, and where only insulation feeds a node
//! some of their digits cancel: the currents there (below a microamp) add up to about 1e-13 of the largest in the network.

use std::{
    cmp::Reverse,
    collections::BinaryHeap,
    sync::{Arc, OnceLock},
};

/// In which order the nodes of a network are eliminated, and where each step finds its numbers. Every pair of nodes that is
/// joined, or comes to be on the way, has a slot; those of one step lie side by side.
#[derive(Debug, Clone)]
pub(super) struct Plan {
    pub steps: Vec<Elimination>,
    /// The neighbours of each step, in the order of their own elimination, held nodes last.
    neighbours: Vec<u32>,
    /// For each step and each pair of its neighbours the slot of that pair.
    targets: Vec<u32>,
    /// The step of each node; the held ones follow the last, and a node that nothing joins is [`NOWHERE`].
    place: Vec<u32>,
    held: [usize; 2],
    /// The slots in use, that of the two held nodes last.
    pub slots: usize,
}

/// One node's elimination.
#[derive(Debug, Clone, Copy)]
pub(super) struct Elimination {
    pub node: u32,
    /// Its first slot.
    pub first: u32,
    /// Number of neighbours.
    degree: u32,
    /// Its first target.
    target: u32,
}

/// The place of a node that no branch has.
const NOWHERE: u32 = u32::MAX;

/// The slot of a branch that is left out.
pub(super) const NO_SLOT: u32 = u32::MAX;

/// Which nodes are near which, a bit a pair: one that is joined to hundreds costs no more than another.
struct Near {
    /// Number of words a node.
    words: usize,
    bits: Vec<u64>,
}

impl Near {
    fn new(count: usize) -> Self {
        let words = count.div_ceil(64);
        Self { words, bits: vec![0; count * words] }
    }

    fn of(&self, node: usize) -> &[u64] {
        &self.bits[node * self.words..][..self.words]
    }

    fn add(&mut self, node: usize, other: usize) {
        self.bits[node * self.words + other / 64] |= 1 << (other % 64);
    }

    fn degree(&self, node: usize) -> u32 {
        self.of(node).iter().map(|it| it.count_ones()).sum()
    }

    /// A node's neighbours, in order.
    fn list(&self, node: usize, into: &mut Vec<u32>) {
        for (word, bits) in (0_u32..).zip(self.of(node)) {
            let mut left = *bits;
            while left != 0 {
                into.push(word * 64 + left.trailing_zeros());
                left &= left - 1;
            }
        }
    }

    /// The neighbours of one that is eliminated become those of a neighbour.
    fn take_over(&mut self, node: usize, eliminated: usize) {
        for word in 0..self.words {
            self.bits[node * self.words + word] |= self.bits[eliminated * self.words + word];
        }
        for it in [node, eliminated] {
            self.bits[node * self.words + it / 64] &= !(1 << (it % 64));
        }
    }
}

impl Plan {
    /// A plan for branches between these pairs of nodes, fewest neighbours first within a stage, and no node before all
    /// of a lower stage. Pairs with a node that is not there, or twice the same, are left out.
    pub fn new(
        count: usize,
        held: [usize; 2],
        pairs: impl IntoIterator<Item = (usize, usize)>,
        stage: impl Fn(usize) -> u32,
    ) -> Self {
        let mut near = Near::new(count);
        for (a, b) in pairs {
            if a < count && b < count && a != b {
                // What is held is never eliminated.
                for (a, b) in [(a, b), (b, a)] {
                    if !held.contains(&a) {
                        near.add(a, b);
                    }
                }
            }
        }
        let mut steps = Vec::with_capacity(count);
        let mut neighbours: Vec<u32> = Vec::with_capacity(count * 4);
        let mut place = vec![NOWHERE; count];
        let mut degree: Vec<u32> = (0..count).map(|it| near.degree(it)).collect();
        let key = |degree: &[u32], node: usize| Reverse((stage(node), degree[node], node as u32));
        let first = (0..count).filter(|node| degree[*node] > 0).map(|node| key(&degree, node));
        // A node whose degree changes is put in again; what it was put in with before is passed over.
        let mut next: BinaryHeap<_> = first.collect();
        while let Some(Reverse((_, of_degree, node))) = next.pop() {
            let it = node as usize;
            if place[it] != NOWHERE || degree[it] != of_degree {
                continue;
            }
            place[it] = steps.len() as u32;
            let first = neighbours.len();
            near.list(it, &mut neighbours);
            for other in neighbours[first..].iter().map(|node| *node as usize).filter(|node| !held.contains(node)) {
                near.take_over(other, it);
                let now = near.degree(other);
                if now != degree[other] {
                    degree[other] = now;
                    next.push(key(&degree, other));
                }
            }
            steps.push(Elimination { node, first: first as u32, degree: of_degree, target: 0 });
        }
        for (index, it) in held.iter().enumerate() {
            if let Some(place) = place.get_mut(*it) {
                *place = (steps.len() + index) as u32;
            }
        }
        let slots = neighbours.len() + 1;
        let mut plan = Self { steps, neighbours, targets: Vec::new(), place, held, slots };
        plan.find_targets();
        plan
    }

    fn find_targets(&mut self) {
        for step in &self.steps {
            let place = &self.place;
            self.neighbours[step.first as usize..][..step.degree as usize]
                .sort_unstable_by_key(|it| place[*it as usize]);
        }
        let mut targets = Vec::with_capacity(self.slots * 2);
        for index in 0..self.steps.len() {
            let step = self.steps[index];
            self.steps[index].target = targets.len() as u32;
            let mine = &self.neighbours[step.first as usize..][..step.degree as usize];
            for (at, a) in mine.iter().enumerate() {
                targets.extend(mine[at + 1..].iter().map(|b| self.slot(*a as usize, *b as usize)));
            }
        }
        self.targets = targets;
    }

    /// The slot of a pair of nodes; [`NO_SLOT`] for one that has none.
    pub fn slot(&self, a: usize, b: usize) -> u32 {
        let (Some(at_a), Some(at_b)) = (self.place.get(a), self.place.get(b)) else { return NO_SLOT };
        if *at_a.max(at_b) == NOWHERE {
            return NO_SLOT;
        }
        let (at, other) = if at_a < at_b { (*at_a, b) } else { (*at_b, a) };
        let Some(step) = self.steps.get(at as usize) else {
            return if a == b { NO_SLOT } else { self.slots as u32 - 1 };
        };
        let mine = &self.neighbours[step.first as usize..][..step.degree as usize];
        mine.iter().position(|it| *it as usize == other).map_or(NO_SLOT, |it| step.first + it as u32)
    }

    /// Eliminates the nodes of some steps: each slot of theirs then holds the neighbour's share of the node's conductance,
    /// and `siemens` that conductance.
    pub fn eliminate(&self, steps: std::ops::Range<usize>, values: &mut [f64], siemens: &mut [f64]) {
        for index in steps {
            let Elimination { first, degree, target, .. } = self.steps[index];
            let (first, degree, mut target) = (first as usize, degree as usize, target as usize);
            let sum: f64 = values[first..first + degree].iter().sum();
            // Below this a number has lost digits and its inverse may not be one: joined to nothing.
            if sum < f64::MIN_POSITIVE * 8.0 {
                siemens[index] = 0.0;
                continue;
            }
            siemens[index] = sum;
            let whole = 1.0 / sum;
            for a in first..first + degree {
                let to_a = values[a];
                let rest = first + degree - a - 1;
                if to_a > 0.0 {
                    let (mine, later) = values.split_at_mut(first + degree);
                    for (to_b, into) in mine[a + 1..].iter().zip(&self.targets[target..target + rest]) {
                        later[*into as usize - first - degree] += to_a * (to_b * whole);
                    }
                }
                target += rest;
            }
            values[first..first + degree].iter_mut().for_each(|it| *it *= whole);
        }
    }

    /// Volts of the nodes of some steps, last to first, from those eliminated after them.
    pub fn volts(&self, steps: std::ops::Range<usize>, values: &[f64], volts: &mut [f64]) {
        for step in self.steps[steps].iter().rev() {
            let (first, degree) = (step.first as usize, step.degree as usize);
            let near = values[first..first + degree].iter().zip(&self.neighbours[first..first + degree]);
            volts[step.node as usize] = near.map(|(share, it)| share * volts[*it as usize]).sum();
        }
    }

    /// For each slot of some steps the node's voltage against the neighbour's, from those of the steps after them.
    pub fn differences(&self, steps: std::ops::Range<usize>, values: &[f64], differences: &mut [f64]) {
        for step in self.steps[steps].iter().rev() {
            let (first, degree, mut target) = (step.first as usize, step.degree as usize, step.target as usize);
            let (mine, later) = differences.split_at_mut(first + degree);
            let mine = &mut mine[first..];
            mine.fill(0.0);
            // Neighbours of a node at its elimination are neighbours of each other afterwards, so every difference that
            // a step needs has been found by the steps after it; `a` was eliminated before `b`.
            for a in 0..degree {
                for b in a + 1..degree {
                    let of_pair = later[self.targets[target] as usize - first - degree];
                    mine[b] += values[first + a] * of_pair;
                    mine[a] -= values[first + b] * of_pair;
                    target += 1;
                }
            }
        }
    }

    /// Resistance behind each node, and mutual resistances on the way: the same walk again.
    fn behind(&self, values: &[f64], siemens: &[f64]) -> Vec<f64> {
        let mut own = vec![f64::INFINITY; self.place.len()];
        for it in self.held {
            if let Some(it) = own.get_mut(it) {
                *it = 0.0;
            }
        }
        let mut mutual = vec![0.0; self.slots];
        for (index, step) in self.steps.iter().enumerate().rev() {
            let (first, degree, mut target) = (step.first as usize, step.degree as usize, step.target as usize);
            if siemens[index] <= 0.0 {
                own[step.node as usize] = f64::INFINITY;
                continue;
            }
            let (mine, later) = mutual.split_at_mut(first + degree);
            let mine = &mut mine[first..];
            // A share of nothing of an infinite resistance is nothing.
            let part = |share: f64, ohms: f64| if share > 0.0 { share * ohms } else { 0.0 };
            for a in 0..degree {
                mine[a] += part(values[first + a], own[self.neighbours[first + a] as usize]);
                for b in a + 1..degree {
                    let of_pair = later[self.targets[target] as usize - first - degree];
                    mine[b] += part(values[first + a], of_pair);
                    mine[a] += part(values[first + b], of_pair);
                    target += 1;
                }
            }
            let sum: f64 = mine.iter().enumerate().map(|(it, ohms)| part(values[first + it], *ohms)).sum();
            own[step.node as usize] = 1.0 / siemens[index] + sum;
        }
        own
    }

    /// Solves with these conductances in the slots: `held[0]` at 0 V, `held[1]` at `volts`.
    pub fn solve(self: &Arc<Self>, mut values: Vec<f64>, source: f64) -> Solution {
        let all = 0..self.steps.len();
        let mut siemens = vec![0.0; all.len()];
        self.eliminate(all.clone(), &mut values, &mut siemens);
        let mut volts = vec![0.0; self.place.len()];
        let mut differences = vec![0.0; self.slots];
        if let Some(it) = volts.get_mut(self.held[1]) {
            *it = source;
        }
        differences[self.slots - 1] = -source;
        self.volts(all.clone(), &values, &mut volts);
        self.differences(all, &values, &mut differences);
        Solution { plan: Arc::clone(self), volts, differences, values, siemens, behind: OnceLock::new() }
    }

    /// Whether `a` is eliminated before `b`, so that a difference in their slot is that of `a` against `b`.
    pub fn is_before(&self, a: usize, b: usize) -> bool {
        self.place.get(a) < self.place.get(b)
    }
}

/// A solved network of resistances between two held nodes.
#[derive(Debug, Clone)]
pub struct Solution {
    plan: Arc<Plan>,
    volts: Vec<f64>,
    differences: Vec<f64>,
    values: Vec<f64>,
    siemens: Vec<f64>,
    /// Few ask for these, and they cost as much as all the rest.
    behind: OnceLock<Vec<f64>>,
}

impl Solution {
    /// Voltage of a node against the first held node, volts; none of a node that is not there.
    pub fn volts(&self, node: usize) -> f64 {
        self.volts.get(node).copied().unwrap_or(0.0)
    }

    /// Voltage of `a` against `b`, volts, for two nodes with a branch between them.
    pub fn across(&self, a: usize, b: usize) -> f64 {
        let slot = self.plan.slot(a, b);
        let difference = self.differences.get(slot as usize).copied().unwrap_or(0.0);
        if self.plan.is_before(a, b) { difference } else { -difference }
    }

    /// Resistance seen from a node with the held nodes held, ohms (Thevenin); infinite from one that is not there.
    pub fn ohms_behind(&self, node: usize) -> f64 {
        let behind = self.behind.get_or_init(|| self.plan.behind(&self.values, &self.siemens));
        behind.get(node).copied().unwrap_or(f64::INFINITY)
    }
}

/// Solves a network of `count` nodes in which `held[0]` is at 0 V and `held[1]` at `volts`. Branches are two nodes and a
/// conductance in siemens, above nothing and finite; others are left out. A node that nothing joins to a held one comes out
/// at 0 V with an infinite resistance behind it.
pub fn solve(
    count: usize,
    held: [usize; 2],
    volts: f64,
    branches: impl IntoIterator<Item = (usize, usize, f64)>,
) -> Solution {
    let sound = |it: &(usize, usize, f64)| it.2 > 0.0 && it.2.is_finite();
    let branches: Vec<(usize, usize, f64)> = branches.into_iter().filter(sound).collect();
    let plan = Plan::new(count, held, branches.iter().map(|it| (it.0, it.1)), |_| 0);
    let mut values = vec![0.0; plan.slots];
    for (a, b, siemens) in branches {
        if let Some(it) = values.get_mut(plan.slot(a, b) as usize) {
            *it += siemens;
        }
    }
    Arc::new(plan).solve(values, volts)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(found: f64, expected: f64) {
        assert!((found - expected).abs() <= 1e-12 * expected.abs().max(1.0), "{found} is not {expected}");
    }

    /// The balanced bridge of every textbook: nothing flows across it (Wheatstone 1843).
    #[test]
    fn a_balanced_bridge_has_no_difference_across_it() {
        let bridge = [(0, 2, 0.1), (0, 3, 0.2), (1, 2, 0.3), (1, 3, 0.6), (2, 3, 0.05)];
        let solution = solve(4, [0, 1], 12.0, bridge);
        close(solution.volts(2), 9.0);
        assert!(solution.across(2, 3).abs() < 1e-14);
    }

    /// Thevenin's theorem on a divider: 6 ohm and 3 ohm across 9 V is 3 V behind 2 ohm.
    #[test]
    fn a_divider_is_a_source_behind_a_resistance() {
        let solution = solve(3, [0, 1], 9.0, [(1, 2, 1.0 / 6.0), (2, 0, 1.0 / 3.0)]);
        close(solution.volts(2), 3.0);
        close(solution.ohms_behind(2), 2.0);
    }

    /// A milliohm beside a teraohm: the small difference is found, not lost under 230 V.
    #[test]
    fn a_small_drop_is_right_however_far_apart_the_resistances_lie() {
        let amps = 230.0 / (1000.0 + 0.001);
        let solution = solve(3, [0, 1], 230.0, [(1, 2, 1000.0), (2, 0, 0.001), (2, 0, 1e-12)]);
        let expected = amps * 0.001;
        assert!((solution.across(1, 2) / expected - 1.0).abs() < 1e-8, "{}", solution.across(1, 2));
    }

    #[test]
    fn a_node_that_nothing_joins_is_at_nothing() {
        let solution = solve(3, [0, 1], 230.0, [(0, 1, 1.0), (2, 0, f64::NAN), (2, 9, 1.0), (2, 2, 1.0)]);
        close(solution.volts(2), 0.0);
        assert!(solution.ohms_behind(2).is_infinite());
    }
}
