//! Wirings of contacts without a scenario: n-way lighting of any length, slips in it, and random ones. Used by the tests
//! and, by its path, by the benches.

use switchdrop::circuit::{Contacts, Pairs, Supplied};

/// Numbers that are the same in every run (Marsaglia's xorshift, 64 bits).
pub struct Dice(pub u64);

impl Dice {
    /// A number below `n`.
    pub fn below(&mut self, n: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 16) as usize % n
    }
}

/// Line, neutral, the lamp's two contacts; then what the wiring needs.
pub const LINE: usize = 0;
pub const NEUTRAL: usize = 1;
pub const LAMP: [usize; 2] = [2, 3];
pub const FIRST: usize = 4;

/// The terminals of a switch, and which of them it joins in each position.
pub type Plate = (usize, Vec<Pairs>);

/// COM to L1 or to L2.
pub fn two_way() -> Plate {
    (3, vec![vec![(0, 1)], vec![(0, 2)]])
}

/// Straight or crossed.
pub fn intermediate() -> Plate {
    (4, vec![vec![(0, 2), (1, 3)], vec![(0, 3), (1, 2)]])
}

/// Plates, and conductors between nets: 0 to 3 as above, then the plates' terminals in order.
#[derive(Clone)]
pub struct Wiring {
    pub plates: Vec<Plate>,
    pub conductors: Vec<(usize, usize)>,
}

impl Wiring {
    /// One light from `n` switches, at least two: two-way at the ends, intermediate between.
    pub fn n_way(n: usize) -> Self {
        let mut plates = vec![two_way()];
        plates.extend((2..n).map(|_| intermediate()));
        plates.push(two_way());
        let at = |plate: usize| FIRST + plates[..plate].iter().map(|it| it.0).sum::<usize>();
        let last = at(n - 1);
        let mut conductors = vec![(LINE, at(0)), (last, LAMP[0]), (LAMP[1], NEUTRAL)];
        for plate in 1..n {
            // Strappers leave a two-way at L1 and L2, an intermediate at its third and fourth terminal.
            let from = if plate == 1 { at(0) + 1 } else { at(plate - 1) + 2 };
            let to = if plate == n - 1 { last + 1 } else { at(plate) };
            conductors.extend([(from, to), (from + 1, to + 1)]);
        }
        Self { plates, conductors }
    }

    /// As many plates and conductors as n-way lighting has, every conductor's ends anywhere.
    pub fn random(n: usize, dice: &mut Dice) -> Self {
        let mut wiring = Self::n_way(n);
        let nets = wiring.nets();
        for it in &mut wiring.conductors {
            *it = (dice.below(nets), dice.below(nets));
        }
        wiring
    }

    /// The same with some ends moved anywhere.
    pub fn slipped(&self, slips: usize, dice: &mut Dice) -> Self {
        let mut wiring = self.clone();
        for _ in 0..slips {
            let to = dice.below(self.nets());
            let at = dice.below(self.conductors.len());
            wiring.conductors[at].0 = to;
        }
        wiring
    }

    /// The same with two neighbouring conductors' first ends exchanged.
    pub fn exchanged(&self, dice: &mut Dice) -> Self {
        let mut wiring = self.clone();
        let at = dice.below(self.conductors.len() - 1);
        let first = wiring.conductors[at].0;
        wiring.conductors[at].0 = wiring.conductors[at + 1].0;
        wiring.conductors[at + 1].0 = first;
        wiring
    }

    pub fn nets(&self) -> usize {
        FIRST + self.plates.iter().map(|it| it.0).sum::<usize>()
    }

    pub fn contacts(&self) -> Contacts {
        let mut contacts = Contacts::new(self.nets());
        for (a, b) in &self.conductors {
            contacts.join(*a, *b);
        }
        let mut at = FIRST;
        for (terminals, positions) in &self.plates {
            let moved = |pairs: &Pairs| pairs.iter().map(|(a, b)| (a + at, b + at)).collect();
            contacts.switch(positions.iter().map(moved).collect());
            at += terminals;
        }
        contacts
    }
}

/// One device, no earth bar, one lamp.
pub fn supplied() -> Supplied {
    Supplied { devices: vec![[LINE, NEUTRAL]], earth: Vec::new(), lamp: LAMP }
}
