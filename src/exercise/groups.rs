//! Disjoint sets.

/// Disjoint sets of small numbers.
#[derive(Debug, Clone)]
pub(crate) struct Groups(Vec<u16>);

impl Groups {
    pub fn new(count: usize) -> Self {
        Self((0..count as u16).collect())
    }

    pub fn root(&mut self, mut item: usize) -> usize {
        while usize::from(self.0[item]) != item {
            self.0[item] = self.0[usize::from(self.0[item])];
            item = usize::from(self.0[item]);
        }
        item
    }

    pub fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.root(a), self.root(b));
        self.0[a.max(b)] = a.min(b) as u16;
    }

    pub fn same(&mut self, a: usize, b: usize) -> bool {
        self.root(a) == self.root(b)
    }
}
