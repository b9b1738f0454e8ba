//! In which order things stand in their columns: a search for few crossings.
//!
//! A net that has to pass a column takes a place in it. Columns are sorted by where their nets come from, to and fro; then neighbours are
//! exchanged, and elements turned upside down, as long as that takes crossings away (Sugiyama's way of drawing layered graphs, in the plainest form).

use super::elements::CircuitGraph;

/// What takes a place in a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Item {
    /// An element, by its number.
    Element(usize),
    /// A net on its way past.
    Pass(usize),
}

/// The columns from the line to the neutral.
#[derive(Debug)]
pub(super) struct Columns {
    /// From top to bottom.
    pub items: Vec<Vec<Item>>,
    /// Whether each element stands upside down.
    pub turned: Vec<bool>,
}

/// How often all columns are gone through.
const SWEEPS: usize = 6;
/// With more items than this nothing is exchanged: it would take too long, and nobody could read it anyway.
const EXCHANGED: usize = 120;

/// Of this many switches with ways to choose from it is tried which way about each stands best.
const TURNED_ABOUT: usize = 5;

impl Columns {
    /// The columns with the fewest crossings, whichever way about the switches stand with COM on one side and their ways on the other; of
    /// equals that with the fewest turned.
    pub fn best(circuit: &mut CircuitGraph) -> Self {
        let switches: Vec<usize> = (0..circuit.elements.len()).filter(|it| circuit.elements[*it].has_ways()).collect();
        let about = |circuit: &mut CircuitGraph, turned: usize| {
            for (_, it) in switches.iter().enumerate().filter(|it| turned >> it.0 & 1 == 1) {
                circuit.elements[*it].sides.swap(0, 1);
            }
        };
        let mut best = (Self::of(circuit), 0);
        let mut fewest = best.0.all_crossings(circuit);
        let count = if switches.len() <= TURNED_ABOUT { 1_usize << switches.len() } else { 1 };
        let mut others: Vec<usize> = (1..count).collect();
        others.sort_by_key(|it| it.count_ones());
        for turned in others {
            if fewest == 0 {
                break;
            }
            about(circuit, turned);
            let columns = Self::of(circuit);
            let crossings = columns.all_crossings(circuit);
            if crossings < fewest {
                (best, fewest) = ((columns, turned), crossings);
            }
            about(circuit, turned);
        }
        about(circuit, best.1);
        best.0
    }

    fn all_crossings(&self, circuit: &CircuitGraph) -> usize {
        (1..self.items.len()).map(|it| self.crossings(circuit, it - 1)).sum()
    }

    fn of(circuit: &CircuitGraph) -> Self {
        let mut items: Vec<Vec<Item>> = vec![Vec::new(); circuit.columns];
        for (index, it) in circuit.elements.iter().enumerate() {
            items[it.column].push(Item::Element(index));
        }
        for net in 0..circuit.codes.len() {
            let (first, last) = reach(circuit, net);
            for column in items.iter_mut().take(last + 1).skip(first + 1) {
                column.push(Item::Pass(net));
            }
        }
        let mut columns = Self { items, turned: vec![false; circuit.elements.len()] };
        for sweep in 0..SWEEPS {
            columns.sort(circuit, sweep % 2 == 0);
        }
        if columns.items.iter().map(Vec::len).sum::<usize>() <= EXCHANGED {
            while columns.exchange(circuit) {}
        }
        columns
    }

    /// The nets on one side of a column from top to bottom, an element's several times if it has several terminals there.
    fn nets(&self, circuit: &CircuitGraph, column: usize, side: usize) -> Vec<usize> {
        let mut nets = Vec::new();
        for it in &self.items[column] {
            match it {
                Item::Pass(net) => nets.push(*net),
                Item::Element(index) => {
                    let of = circuit.elements[*index].sides[side].iter().map(|it| it.1);
                    if self.turned[*index] { nets.extend(of.rev()) } else { nets.extend(of) }
                }
            }
        }
        nets
    }

    /// Sorts each column by the middle of what its nets meet in the column before, or in the one behind.
    fn sort(&mut self, circuit: &CircuitGraph, forwards: bool) {
        let count = self.items.len();
        for step in 1..count {
            let (here, there, side) = if forwards { (step, step - 1, 1) } else { (count - 1 - step, count - step, 0) };
            let met = self.nets(circuit, there, side);
            let middle = |nets: Vec<usize>| {
                let at: Vec<usize> = (0..met.len()).filter(|it| nets.contains(&met[*it])).collect();
                at.iter().sum::<usize>() as f32 / at.len().max(1) as f32
            };
            let key = |item: &Item| match item {
                Item::Pass(net) => middle(vec![*net]),
                Item::Element(it) => middle(circuit.elements[*it].sides[1 - side].iter().map(|it| it.1).collect()),
            };
            let mut keyed: Vec<(f32, Item)> = self.items[here].iter().map(|it| (key(it), *it)).collect();
            keyed.sort_by(|a, b| a.0.total_cmp(&b.0));
            self.items[here] = keyed.into_iter().map(|it| it.1).collect();
        }
    }

    /// Goes through all columns once; whether anything became better.
    fn exchange(&mut self, circuit: &CircuitGraph) -> bool {
        let mut is_better = false;
        for column in 0..self.items.len() {
            for place in 0..self.items[column].len() {
                let before = self.crossings_beside(circuit, column);
                if place > 0 {
                    self.items[column].swap(place - 1, place);
                    if self.crossings_beside(circuit, column) < before {
                        is_better = true;
                        continue;
                    }
                    self.items[column].swap(place - 1, place);
                }
                if let Item::Element(it) = self.items[column][place] {
                    self.turned[it] = !self.turned[it];
                    if self.crossings_beside(circuit, column) < before {
                        is_better = true;
                    } else {
                        self.turned[it] = !self.turned[it];
                    }
                }
            }
        }
        is_better
    }

    fn crossings_beside(&self, circuit: &CircuitGraph, column: usize) -> usize {
        let before = if column > 0 { self.crossings(circuit, column - 1) } else { 0 };
        before + if column + 1 < self.items.len() { self.crossings(circuit, column) } else { 0 }
    }

    /// How many nets cross on the way from a column to the next.
    pub fn crossings(&self, circuit: &CircuitGraph, column: usize) -> usize {
        let (left, right) = (self.nets(circuit, column, 1), self.nets(circuit, column + 1, 0));
        let across: Vec<(usize, usize, usize)> = left
            .iter()
            .enumerate()
            .flat_map(|(a, net)| right.iter().enumerate().filter(move |it| it.1 == net).map(move |(b, _)| (*net, a, b)))
            .collect();
        let mut count = 0;
        for (index, (net, a, b)) in across.iter().enumerate() {
            count += across[index + 1..].iter().filter(|it| it.0 != *net && (it.1 < *a) != (it.2 < *b)).count();
        }
        // A net that joins two places of one side is in the way of what passes between them.
        for side in [&left, &right] {
            for net in side {
                let at: Vec<usize> = (0..side.len()).filter(|it| side[*it] == *net).collect();
                let (Some(first), Some(last)) = (at.first(), at.last()) else { continue };
                let passes = |it: &&usize| **it != *net && across.iter().any(|way| way.0 == **it);
                count += side[*first..*last].iter().filter(passes).count();
            }
        }
        count
    }
}

/// The first and the last way between columns that a net is in.
pub(super) fn reach(circuit: &CircuitGraph, net: usize) -> (usize, usize) {
    let ways = circuit.elements.iter().flat_map(|it| {
        let has = |side: usize| it.sides[side].iter().any(|it| it.1 == net);
        let left = has(0).then(|| it.column.saturating_sub(1));
        left.into_iter().chain(has(1).then_some(it.column))
    });
    let ways: Vec<usize> = ways.collect();
    let last = ways.iter().copied().max().unwrap_or(0);
    (ways.into_iter().min().unwrap_or(last), last)
}
