//! "Every single toggle of these switches changes this lamp, and no other switch does": proven or refuted.
//!
//! That is so just when lit or not is the parity of the switches' positions, perhaps turned round (C. E. Shannon, A
//! Symbolic Analysis of Relay and Switching Circuits, 1938). So lit-xor-parity is carried through: it must be one and the
//! same in every combination. A toggle of a switch with more than two positions is a step to the next or the one before.

use super::{
    contacts::Contacts,
    layered::{Layered, TooMany},
};

/// What must be so of one lamp.
pub struct Toggles<'a> {
    /// The nets that say whether it is lit.
    pub watched: &'a [usize],
    /// Lit or not, by how those are joined (a number for each, the same for those that are joined); `None` where the
    /// wiring is unsound: a short, no neutral.
    pub lit: &'a dyn Fn(&[u8]) -> Option<bool>,
    /// The switches whose every toggle must change it.
    pub switches: &'a [usize],
}

/// What came of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Proof {
    /// It holds in every combination.
    Holds,
    /// It does not, and here is where.
    Fails(WrongToggle),
}

/// A combination that shows a fault.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WrongToggle {
    /// The combination.
    pub positions: Vec<u8>,
    /// The combination one toggle away that should have differed in the lamp and does not, or the other way round;
    /// `None` where the wiring is unsound in the combination itself.
    pub toggled: Option<Vec<u8>>,
}

/// Combinations tried before the graph is built: a wrong wiring rarely survives two or three of them.
const TRIED: u64 = 24;

impl Toggles<'_> {
    /// Proves or refutes it. What it shows is some fault, not the shortest.
    ///
    /// # Errors
    /// [`TooMany`], if a few combinations did not refute it and there are too many states to go on.
    pub fn prove(&self, contacts: &Contacts) -> Result<Proof, TooMany> {
        if let Some(it) = self.tried(contacts) {
            return Ok(Proof::Fails(it));
        }
        self.shortest(contacts).map(|it| it.map_or(Proof::Holds, Proof::Fails))
    }

    /// A shortest combination that shows a fault, `None` if nothing does: fewest steps away from every switch in position
    /// 0. No combination with fewer steps is unsound or has a wrong toggle to one with fewer still.
    ///
    /// # Errors
    /// [`TooMany`].
    pub fn shortest(&self, contacts: &Contacts) -> Result<Option<WrongToggle>, TooMany> {
        let graph = Layered::new(contacts, self.watched, self.switches)?;
        let value = |end: usize| {
            let (joined, odd) = graph.end(end);
            (self.lit)(&joined).map(|it| it ^ odd)
        };
        let values: Vec<Option<bool>> = (0..graph.ends()).map(value).collect();
        let first = values.first().copied().flatten();
        if first.is_some() && values.iter().all(|it| *it == first) {
            return Ok(None);
        }
        let rest = vec![0; contacts.switches()];
        let Some(at_rest) = self.value(contacts, &rest) else {
            return Ok(Some(WrongToggle { positions: rest, toggled: None }));
        };
        let cheapest = graph.cheapest(|_, position| position as u128);
        let wrong = cheapest.into_iter().zip(&values).filter(|(_, it)| **it != Some(at_rest));
        let found = wrong.min_by(|((a, x), _), ((b, y), _)| (a, x).cmp(&(b, y)));
        Ok(found.map(|((_, positions), value)| {
            // One step nearer to rest nothing is wrong yet, so that step is.
            // Some switch is away from 0: the combination at rest was filtered out, having the value at rest.
            let nearer = positions.iter().position(|it| *it > 0).map(|switch| {
                let mut nearer = positions.clone();
                nearer[switch] -= 1;
                nearer
            });
            WrongToggle { toggled: value.and(nearer), positions }
        }))
    }

    /// Lit or not, less the parity of the switches; `None` where unsound.
    fn value(&self, contacts: &Contacts, positions: &[u8]) -> Option<bool> {
        let mut sets = contacts.at(positions);
        let roots: Vec<usize> = self.watched.iter().map(|it| sets.root(*it)).collect();
        let number = |it: &usize| roots.iter().position(|other| other == it).unwrap_or(0) as u8;
        let lit = (self.lit)(&roots.iter().map(number).collect::<Vec<u8>>())?;
        let odd = self.switches.iter().filter_map(|it| positions.get(*it)).fold(0, |sum, it| sum ^ it) & 1;
        Some(lit ^ (odd == 1))
    }

    /// Tries a few combinations, always the same ones, against the one at rest. Where one disagrees, the distance between the two is
    /// halved again and again, with one that agrees with the rest kept and one that does not, until they are a single toggle apart.
    fn tried(&self, contacts: &Contacts) -> Option<WrongToggle> {
        // Any start would do, as long as it stays.
        let mut seed = 0x9e37_79b9_7f4a_7c15_u64;
        let mut any = || {
            // Knuth's multiplier for a linear congruence; the high bits are the good ones.
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (seed >> 40) as usize
        };
        // It always agrees with the rest; `there` never does.
        let mut here = vec![0; contacts.switches()];
        let Some(rest) = self.value(contacts, &here) else {
            return Some(WrongToggle { positions: here, toggled: None });
        };
        for _ in 0..TRIED {
            let mut there: Vec<u8> =
                (0..contacts.switches()).map(|it| (any() % contacts.positions(it).max(1)) as u8).collect();
            match self.value(contacts, &there) {
                None => return Some(WrongToggle { positions: there, toggled: None }),
                Some(it) if it == rest => {}
                Some(_) => loop {
                    let steps: usize = here.iter().zip(&there).map(|(a, b)| usize::from(a.abs_diff(*b))).sum();
                    if steps <= 1 {
                        return Some(WrongToggle { positions: here, toggled: Some(there) });
                    }
                    let middle = part_way(&here, &there, steps / 2);
                    match self.value(contacts, &middle) {
                        None => return Some(WrongToggle { positions: middle, toggled: None }),
                        Some(it) if it == rest => here = middle,
                        Some(_) => there = middle,
                    }
                },
            }
        }
        None
    }
}

/// This number of steps from one combination towards another.
fn part_way(from: &[u8], to: &[u8], mut steps: usize) -> Vec<u8> {
    let step = |(a, b): (&u8, &u8)| {
        let taken = usize::from(a.abs_diff(*b)).min(steps);
        steps -= taken;
        if a < b { a + taken as u8 } else { a - taken as u8 }
    };
    from.iter().zip(to).map(step).collect()
}
