//! States of one layer: each kept once, found again by its bytes.

/// Byte strings of one length, each once, numbered in the order they came.
#[derive(Debug, Clone)]
pub(super) struct StateSet {
    stride: usize,
    count: usize,
    bytes: Vec<u8>,
    /// Open addressing, number plus one; empty while there are few.
    table: Vec<u32>,
}

/// Up to this number they are compared one by one.
const FEW: usize = 8;

impl StateSet {
    pub fn new(stride: usize) -> Self {
        Self { stride, count: 0, bytes: Vec::with_capacity(stride * 4), table: Vec::new() }
    }

    pub fn len(&self) -> usize {
        self.count
    }

    pub fn get(&self, number: usize) -> &[u8] {
        &self.bytes[number * self.stride..][..self.stride]
    }

    /// The number of a state, a new one if it has not come before.
    pub fn number(&mut self, state: &[u8]) -> usize {
        if self.table.is_empty() {
            if let Some(it) = (0..self.count).find(|it| self.get(*it) == state) {
                return it;
            }
        } else {
            let mask = self.table.len() - 1;
            let mut at = hash(state) & mask;
            while let Some(it) = (self.table[at] as usize).checked_sub(1) {
                if self.get(it) == state {
                    return it;
                }
                at = (at + 1) & mask;
            }
        }
        self.bytes.extend_from_slice(state);
        self.count += 1;
        if self.count > FEW && self.count * 2 > self.table.len() {
            self.grow();
        } else if !self.table.is_empty() {
            self.place(self.count - 1);
        }
        self.count - 1
    }

    fn grow(&mut self) {
        let size = (self.count * 4).next_power_of_two();
        self.table.clear();
        self.table.resize(size, 0);
        (0..self.count).for_each(|it| self.place(it));
    }

    fn place(&mut self, number: usize) {
        let mask = self.table.len() - 1;
        let mut at = hash(self.get(number)) & mask;
        while self.table[at] != 0 {
            at = (at + 1) & mask;
        }
        self.table[at] = number as u32 + 1;
    }
}

/// FNV-1a, with the high bits folded in.
fn hash(bytes: &[u8]) -> usize {
    let hash =
        bytes.iter().fold(0xcbf2_9ce4_8422_2325_u64, |hash, it| (hash ^ u64::from(*it)).wrapping_mul(0x0100_0000_01b3));
    (hash ^ (hash >> 29)) as usize
}
