//! Disjoint sets: what is joined to what, once the joins are known.

/// Disjoint sets of small numbers; the least of a set stands for it.
#[derive(Debug, Clone)]
pub struct Sets(Vec<u32>);

impl Sets {
    /// `count` sets of one item each.
    pub fn new(count: usize) -> Self {
        Self((0..count as u32).collect())
    }

    /// Number of items.
    pub fn count(&self) -> usize {
        self.0.len()
    }

    /// What stands for the set of an item; the item itself for one that is in none.
    pub fn root(&mut self, mut item: usize) -> usize {
        while let Some(parent) = self.0.get(item).map(|it| *it as usize).filter(|it| *it != item) {
            self.0[item] = self.0[parent];
            item = self.0[item] as usize;
        }
        item
    }

    /// Makes two sets one.
    pub fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.root(a), self.root(b));
        if let Some(it) = self.0.get_mut(a.max(b)) {
            *it = a.min(b) as u32;
        }
    }

    /// Whether two items are in one set.
    pub fn same(&mut self, a: usize, b: usize) -> bool {
        self.root(a) == self.root(b)
    }
}
