//! Small networks made of plain branches, and the two instruments that read them: an ohmmeter and a source.

use switchdrop::{
    circuit::{Solution, solve},
    trade::cable::{CrossSection, temperature_factor},
};

/// Resistances between numbered nodes.
#[derive(Debug, Clone, Default)]
pub struct Plain {
    pub count: usize,
    pub branches: Vec<(usize, usize, f64)>,
}

impl Plain {
    pub fn node(&mut self) -> usize {
        self.count += 1;
        self.count - 1
    }

    pub fn ohms(&mut self, a: usize, b: usize, ohms: f64) {
        self.branches.push((a, b, ohms));
    }

    /// A conductor from a node, metre by metre; its far end.
    pub fn run(&mut self, from: usize, mm2: f64, metres: usize, celsius: f64) -> usize {
        let ohms = size(mm2).ohms_per_metre() * temperature_factor(celsius);
        (0..metres).fold(from, |at, _| {
            let next = self.node();
            self.ohms(at, next, ohms);
            next
        })
    }

    /// A conductor that makes its way back to where it began; the node at each metre, the start first.
    pub fn leg(&mut self, mm2: f64, metres: usize) -> Vec<usize> {
        let ohms = size(mm2).ohms_per_metre();
        let nodes: Vec<usize> = (0..=metres).map(|_| self.node()).collect();
        for pair in nodes.windows(2) {
            self.ohms(pair[0], pair[1], ohms);
        }
        nodes
    }

    pub fn solved(&self, low: usize, high: usize, volts: f64) -> Solution {
        solve(self.count, [low, high], volts, self.branches.iter().map(|it| (it.0, it.1, 1.0 / it.2)))
    }

    /// What an ohmmeter reads between two nodes.
    pub fn read(&self, a: usize, b: usize) -> f64 {
        // Seen from one with only the other held; a node of its own is the second that must be.
        let branches = self.branches.iter().map(|it| (it.0, it.1, 1.0 / it.2));
        solve(self.count + 1, [b, self.count], 0.0, branches).ohms_behind(a)
    }

    /// Current of a branch from its first node to its second, amps.
    pub fn amps(&self, solution: &Solution, branch: usize) -> f64 {
        let (a, b, ohms) = self.branches[branch];
        solution.across(a, b) / ohms
    }
}

fn size(mm2: f64) -> CrossSection {
    CrossSection::from_mm2(mm2).expect("a size of the table")
}
