//! Every way of connecting the ends of one place, alike ones together.

use std::collections::HashMap;

use super::question::{CONNECTOR, Net, Question};
use crate::trade::catalogue::Listed;

/// Ways of one place that join its ends alike in every position of its switch.
#[derive(Debug, Clone)]
pub(super) struct PlaceWays {
    /// For each position of the switch, the group of each end: what arrives, the conductors towards the first place, those towards the last.
    pub joined: [Vec<u8>; 2],
    /// How many there are.
    pub ways: u128,
    /// The least crowded of them, the first of several: a terminal for each end.
    pub shown: Vec<u8>,
    /// How crowded that is.
    pub crowd: u32,
}

/// A place with numbers of conductors on either side.
#[derive(Debug, Clone, Copy)]
pub(super) struct PlaceAsked<'a> {
    pub question: &'a Question,
    pub place: usize,
    /// Conductors towards the first place, and towards the last.
    pub left: usize,
    pub right: usize,
}

impl PlaceAsked<'_> {
    pub fn arriving(&self) -> &'static [Net] {
        self.question.arriving(self.place)
    }

    /// All ways, those together that join alike.
    pub fn ways(&self) -> Vec<PlaceWays> {
        let switch = self.question.switch_at(self.place);
        let terminals = self.question.terminals_at(self.place);
        // For each position the terminal that stands for those joined to it.
        let roots = [0, 1].map(|position| {
            let mut root: Vec<usize> = (0..terminals).collect();
            for (a, b) in switch.joins(position) {
                let (a, b) = (root[*a], root[*b]);
                root.iter_mut().filter(|it| **it == b).for_each(|it| *it = a);
            }
            root
        });
        let connectors = Listed::find(CONNECTOR).into_iter().filter_map(|it| it.terminals.first().cloned());
        let connectors = connectors.cycle().take(self.question.connectors_at(self.place));
        let takes = switch.terminals.iter().cloned().chain(connectors);
        let takes: Vec<usize> = takes.map(|it| it.capacity.conductors).collect();
        let ends = self.arriving().len() + self.left + self.right;
        let mut found: HashMap<[Vec<u8>; 2], usize> = HashMap::new();
        let mut all: Vec<PlaceWays> = Vec::new();
        let mut into = vec![0_u8; ends];
        loop {
            let joined = [0, 1].map(|at| grouped(&into, &roots[at]));
            let crowd = crowd(&into, &takes);
            if let Some(it) = found.get(&joined) {
                let it = &mut all[*it];
                it.ways += 1;
                if crowd < it.crowd {
                    (it.crowd, it.shown) = (crowd, into.clone());
                }
            } else {
                found.insert(joined.clone(), all.len());
                all.push(PlaceWays { joined, ways: 1, shown: into.clone(), crowd });
            }
            // The next in counting order, the last end fastest.
            let Some(step) = into.iter().rposition(|it| usize::from(*it) + 1 < terminals) else { return all };
            into[step] += 1;
            into[step + 1..].fill(0);
        }
    }
}

/// For each end the number of its group, numbered as they first come.
fn grouped(into: &[u8], root: &[usize]) -> Vec<u8> {
    let mut name = [u8::MAX; 16];
    let mut names = 0;
    let of = |it: &u8| {
        let name = &mut name[root[usize::from(*it)]];
        if *name == u8::MAX {
            *name = names;
            names += 1;
        }
        *name
    };
    into.iter().map(of).collect()
}

/// Added to how crowded a place is for each end that its terminal has no room for.
pub(super) const NO_ROOM: u32 = 10_000;

/// How crowded terminals are: least where the ends are spread, and far more where one holds more than it takes.
fn crowd(into: &[u8], takes: &[usize]) -> u32 {
    let mut ends = [0_usize; 16];
    for it in into {
        ends[usize::from(*it)] += 1;
    }
    let each = takes.iter().zip(ends);
    each.map(|(takes, ends)| (ends * ends) as u32 + NO_ROOM * ends.saturating_sub(*takes) as u32).sum()
}
