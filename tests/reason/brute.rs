//! The same question by brute force: every wiring listed, every position joined net by net. It shares nothing with `reason` but the words of
//! the classes: its own tables of the switches, its own disjoint sets, its own idea of what a class is.

use std::collections::{BTreeMap, BTreeSet};

/// What is asked, in this file's own words.
#[derive(Clone, Copy)]
pub struct Asked {
    pub places: usize,
    pub cores: usize,
    /// Connectors at each place.
    pub connectors: [usize; 3],
    pub cpc: bool,
    /// For each place what arrives: `L`ine, `N`eutral, the lamp's contacts `A` and `B`.
    pub arrives: [&'static str; 3],
    /// Whether `B` is on the neutral for good.
    pub neutral_at_lamp: bool,
}

/// Ways, and of those the ones that differ in more than which core is which.
pub type Counts = BTreeMap<String, (u128, u128)>;

/// Nets of their own: line, neutral, the lamp's two contacts. Terminals follow.
const NETS: [char; 4] = ['L', 'N', 'A', 'B'];

fn root(parents: &[usize], mut it: usize) -> usize {
    while parents[it] != it {
        it = parents[it];
    }
    it
}

fn join(parents: &mut [usize], a: usize, b: usize) {
    let (a, b) = (root(parents, a), root(parents, b));
    parents[a] = b;
}

/// Which terminals of a place are one in a position of its switch: COM, L1, L2; or of an intermediate two in and two out.
fn contacts(is_end: bool, position: usize) -> &'static [(usize, usize)] {
    match (is_end, position) {
        (true, 0) => &[(0, 1)],
        (true, _) => &[(0, 2)],
        (false, 0) => &[(0, 2), (1, 3)],
        (false, _) => &[(0, 3), (1, 2)],
    }
}

/// One position: what the lamp does, and what is dangerous.
#[derive(Clone, Copy, PartialEq)]
struct Seen {
    short: bool,
    lit: bool,
    touchable: bool,
    neutrals: (bool, bool),
}

impl Asked {
    fn is_end(&self, place: usize) -> bool {
        place == 0 || place == self.places - 1
    }

    fn wires(&self) -> usize {
        self.cores + usize::from(self.cpc)
    }

    /// The ends: place, and what it is the end of: a net, or a wire by gap and number.
    fn ends(&self) -> Vec<(usize, Wire)> {
        let mut ends = Vec::new();
        for place in 0..self.places {
            ends.extend(self.arrives[place].chars().map(|it| (place, Wire::Net(it))));
        }
        for gap in 0..self.places - 1 {
            for wire in 0..self.wires() {
                ends.extend([(gap, Wire::Core(gap, wire)), (gap + 1, Wire::Core(gap, wire))]);
            }
        }
        ends
    }

    fn first_terminal(&self, place: usize) -> usize {
        NETS.len() + (0..place).map(|it| self.terminals(it)).sum::<usize>()
    }

    fn terminals(&self, place: usize) -> usize {
        (if self.is_end(place) { 3 } else { 4 }) + self.connectors[place]
    }

    fn seen(&self, ends: &[(usize, Wire)], into: &[usize], setting: usize) -> Seen {
        let mut parents: Vec<usize> = (0..self.first_terminal(self.places)).collect();
        let mut bare = Vec::new();
        for place in 0..self.places {
            let first = self.first_terminal(place);
            for (a, b) in contacts(self.is_end(place), setting >> place & 1) {
                join(&mut parents, first + a, first + b);
            }
        }
        if self.neutral_at_lamp {
            join(&mut parents, 1, 3);
        }
        let mut begun: BTreeMap<(usize, usize), usize> = BTreeMap::new();
        for ((place, wire), terminal) in ends.iter().zip(into) {
            let node = self.first_terminal(*place) + terminal;
            match wire {
                Wire::Net(it) => join(&mut parents, node, NETS.iter().position(|net| net == it).unwrap()),
                Wire::Core(gap, number) => {
                    if self.cpc && *number == self.cores {
                        bare.push(node);
                    }
                    if let Some(other) = begun.insert((*gap, *number), node) {
                        join(&mut parents, node, other);
                    }
                }
            }
        }
        let [line, neutral, a, b] = [0, 1, 2, 3].map(|it| root(&parents, it));
        let short = line == neutral;
        let lit = !short && (a == line && b == neutral || a == neutral && b == line);
        // Current gets to the other side of the lamp unless the neutral holds that down.
        let mut fed = vec![line];
        fed.extend((a == line && b != neutral).then_some(b));
        fed.extend((b == line && a != neutral).then_some(a));
        let copper = bare.iter().any(|it| fed.contains(&root(&parents, *it)));
        let holder = !lit && (fed.contains(&a) || fed.contains(&b));
        Seen { short, lit, touchable: !short && (copper || holder), neutrals: (a == neutral, b == neutral) }
    }

    fn class(&self, ends: &[(usize, Wire)], into: &[usize]) -> String {
        let all: Vec<Seen> = (0..1 << self.places).map(|it| self.seen(ends, into, it)).collect();
        let changes =
            |switch: usize| all.iter().enumerate().filter(|(at, it)| it.lit != all[at ^ (1 << switch)].lit).count();
        let shorts = all.iter().any(|it| it.short);
        let touchable = all.iter().any(|it| it.touchable);
        let matter: Vec<usize> = (0..self.places).filter(|it| changes(*it) > 0).collect();
        if !shorts && (0..self.places).all(|it| changes(it) == all.len()) {
            let parts_neutral = all.iter().any(|it| it.neutrals != all[0].neutrals);
            return if touchable || parts_neutral || self.cpc { "works-unsafe" } else { "works-safe" }.to_owned();
        }
        let lit = all.iter().filter(|it| it.lit).count();
        let word = match (matter.as_slice(), self.places) {
            _ if touchable => "shock-hazard",
            _ if shorts => "trips",
            ([], _) if lit > 0 => "always-on",
            ([], _) => "always-off",
            ([0], 2) => "only-first",
            ([_], 2) => "only-second",
            (_, 2) if lit == 1 => "lit-in-one",
            (_, 2) => "dark-in-one",
            (some, all) if some.len() < all => return format!("depends-on-{}", some.len()),
            _ => "other",
        };
        word.to_owned()
    }

    /// Every wiring, one after another.
    pub fn count(&self) -> Counts {
        let ends = self.ends();
        let mut into = vec![0; ends.len()];
        let mut found: BTreeMap<String, (u128, BTreeSet<Vec<usize>>)> = BTreeMap::new();
        loop {
            let (ways, kinds) = found.entry(self.class(&ends, &into)).or_default();
            *ways += 1;
            kinds.insert(self.with_cores_in_order(&into));
            let Some(step) = (0..ends.len()).find(|it| into[*it] + 1 < self.terminals(ends[*it].0)) else {
                return found.into_iter().map(|(word, (ways, kinds))| (word, (ways, kinds.len() as u128))).collect();
            };
            into[step] += 1;
            into[..step].fill(0);
        }
    }

    /// The wiring with the insulated cores of each gap in the order of where they go: the same for all that differ in which core is which.
    fn with_cores_in_order(&self, into: &[usize]) -> Vec<usize> {
        let arriving: usize = self.arrives[..self.places].iter().map(|it| it.len()).sum();
        let (arriving, links) = into.split_at(arriving);
        let mut ordered = arriving.to_vec();
        for gap in links.chunks(2 * self.wires()) {
            let mut cores: Vec<&[usize]> = gap.chunks(2).collect();
            cores[..self.cores].sort_unstable();
            ordered.extend(cores.concat());
        }
        ordered
    }
}

/// What an end is the end of.
enum Wire {
    Net(char),
    Core(usize, usize),
}
