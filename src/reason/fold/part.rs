//! What a part can do, and the parts that there are after a place: alike ones together, with how many wirings each stands for.

use std::collections::HashMap;

use crate::reason::{knot::Knot, question::Unaskable};

/// Most parts that are told from each other after a place.
const PARTS: usize = 400_000;

/// Every order of so many cores, as they are first.
fn orders(cores: usize) -> Vec<Vec<usize>> {
    let Some(fewer) = cores.checked_sub(1) else { return vec![Vec::new()] };
    let with_last = |order: Vec<usize>| {
        (0..cores).rev().map(move |at| {
            let mut longer = order.clone();
            longer.insert(at, fewer);
            longer
        })
    };
    orders(fewer).into_iter().flat_map(with_last).collect()
}

/// The cores that lead on in another order: what that makes of each knot of a layer.
pub(super) struct Reordering {
    order: Vec<usize>,
    pub knots: Vec<u16>,
}

impl Reordering {
    /// The terminals of a place, after `arriving` ends, in that order.
    pub fn shown(&self, shown: &[u8], arriving: usize) -> Vec<u8> {
        let mut reordered = shown.to_vec();
        for (core, was) in self.order.iter().enumerate() {
            reordered[arriving + core] = shown[arriving + was];
        }
        reordered
    }
}

/// What a part can do: knots by their numbers in its layer.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct PartKey {
    /// Knots that come about, with the parity of the position in the highest bit; in order.
    pub reached: Vec<u32>,
    /// For each switch the pairs of different knots that a toggle goes between; in order.
    pub toggled: Vec<Vec<(u16, u16)>>,
}

/// In a number of [`PartKey::reached`]: the position is an odd one.
pub(super) const ODD: u32 = 1 << 31;

/// How many wirings a part stands for, and the least crowded of them.
#[derive(Debug, Clone)]
pub(super) struct PartCount {
    pub ways: u128,
    /// Wirings left as they are by an exchange of cores, over all exchanges.
    pub kept: u128,
    pub crowd: u32,
    /// The terminals of the place that was added last.
    pub shown: Vec<u8>,
    /// The part without that place.
    pub without: usize,
}

/// All parts with one number of conductors that lead on to them.
#[derive(Debug, Default)]
pub(super) struct PartLayer {
    pub knots: Vec<Knot>,
    numbers: HashMap<Knot, u16>,
    parts: HashMap<PartKey, usize>,
    pub keys: Vec<PartKey>,
    pub counts: Vec<PartCount>,
}

impl PartLayer {
    pub fn number(&mut self, knot: Knot) -> u16 {
        let next = self.knots.len() as u16;
        *self.numbers.entry(knot).or_insert_with(|| {
            self.knots.push(knot);
            next
        })
    }

    pub fn add(&mut self, key: PartKey, count: PartCount) -> Result<(), Unaskable> {
        if let Some(it) = self.parts.get(&key) {
            let had = &mut self.counts[*it];
            had.ways += count.ways;
            had.kept += count.kept;
            if count.ways > 0 && (count.crowd, &count.shown) < (had.crowd, &had.shown) {
                (had.crowd, had.shown, had.without) = (count.crowd, count.shown, count.without);
            }
            return Ok(());
        }
        if self.counts.len() >= PARTS {
            return Err(Unaskable::TooMany);
        }
        self.parts.insert(key.clone(), self.counts.len());
        self.keys.push(key);
        self.counts.push(count);
        Ok(())
    }
}

impl PartLayer {
    /// Every order of the cores that lead on. It adds what knots they make that were not there.
    pub fn reorderings(&mut self, cores: usize) -> Vec<Reordering> {
        let mut all: Vec<Reordering> =
            orders(cores).into_iter().map(|order| Reordering { order, knots: Vec::new() }).collect();
        let mut next = 0;
        while let Some(knot) = self.knots.get(next).copied() {
            for it in &mut all {
                it.knots.push(self.number(knot.reordered(&it.order)));
            }
            next += 1;
        }
        all
    }

    /// Makes one of the parts that differ in the order of the cores that lead on alone.
    pub fn merge_orders(
        self,
        reorderings: &[Reordering],
        arriving: usize,
        positions: usize,
    ) -> Result<Self, Unaskable> {
        let mut merged = Self { knots: self.knots, numbers: self.numbers, ..Self::default() };
        for (key, count) in self.keys.into_iter().zip(self.counts) {
            let renamed = reorderings.iter().map(|it| (key.renamed(&it.knots, positions), it));
            let Some((key, order)) = renamed.min_by(|a, b| a.0.cmp(&b.0)) else { continue };
            let shown = order.shown(&count.shown, arriving);
            merged.add(key, PartCount { shown, ..count })?;
        }
        Ok(merged)
    }
}

impl PartKey {
    /// The same with every knot under another number.
    fn renamed(&self, knots: &[u16], positions: usize) -> Self {
        let name = |it: u32| u32::from(knots[(it & !ODD) as usize]) | (it & ODD);
        let mut reached: Vec<u32> = self.reached.iter().map(|it| name(*it)).collect();
        sort(&mut reached);
        let both = |(a, b): &(u16, u16)| pair(knots[usize::from(*a)], knots[usize::from(*b)]);
        let mut toggled: Vec<Vec<(u16, u16)>> =
            self.toggled.iter().map(|it| it.iter().filter_map(both).collect()).collect();
        toggled.iter_mut().for_each(sort);
        in_any_order(&mut toggled, positions);
        Self { reached, toggled }
    }
}

/// With two switches it is told which of them matters, with more only how many do.
pub(super) fn in_any_order(toggled: &mut [Vec<(u16, u16)>], positions: usize) {
    if positions > 2 {
        toggled.sort_unstable();
    }
}

/// Two knots that a toggle goes between; nothing where it changes nothing.
pub(super) fn pair(a: u16, b: u16) -> Option<(u16, u16)> {
    (a != b).then(|| (a.min(b), a.max(b)))
}

pub(super) fn sort<T: Ord>(list: &mut Vec<T>) {
    list.sort_unstable();
    list.dedup();
}
