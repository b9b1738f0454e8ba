//! Where things stand: how high in their column, and how wide the columns and the ways between them are.

use super::{
    elements::{CircuitGraph, DiagramElement, Symbol},
    order::{Columns, Item},
    symbols,
    wires::{self, TRACK},
};
use crate::picture::shape::{Rect, Xy};

/// From one terminal of a side to the next.
pub(super) const PITCH: f32 = 38.0;
/// Width of a column with switches or loads in it.
const COLUMN: f32 = 132.0;
/// Between two things in a column.
const GAP: f32 = 14.0;
/// Height of a net on its way past.
const PASS: f32 = 26.0;
/// How often columns are brought level with each other.
const ROUNDS: usize = 40;

/// Where an element stands.
#[derive(Debug, Clone)]
pub(super) struct ElementSpot {
    /// Its symbol with room for its names.
    pub area: Rect,
    /// The middle of the symbol.
    pub centre: Xy,
    /// Where the leads of each side reach the edge of the column, in the order of the element's terminals.
    pub leads: [Vec<Xy>; 2],
}

/// Where everything stands.
#[derive(Debug)]
pub(super) struct DiagramLayout {
    pub elements: Vec<ElementSpot>,
    /// For each column its edges.
    pub edges: Vec<[f32; 2]>,
    /// For each column and item how high the middle of it is.
    pub middles: Vec<Vec<f32>>,
    pub width: f32,
    pub height: f32,
}

/// How far above and below the middle of its symbol something reaches.
fn extent(circuit: &CircuitGraph, item: Item) -> [f32; 2] {
    match item {
        Item::Pass(_) => [PASS / 2.0; 2],
        Item::Element(it) => {
            let element = &circuit.elements[it];
            let most = element.sides.iter().map(Vec::len).max().unwrap_or(0).saturating_sub(1) as f32;
            let half = most * PITCH / 2.0 + symbols::HALF;
            [half, half + symbols::NAMES]
        }
    }
}

/// How far a lead is from the middle of its symbol.
fn offset(place: usize, of: usize) -> f32 {
    (place as f32 - of.saturating_sub(1) as f32 / 2.0) * PITCH
}

impl DiagramLayout {
    pub fn of(circuit: &CircuitGraph, columns: &Columns) -> Self {
        let middles = levelled(circuit, columns);
        let count = columns.items.len();
        let mut edges = Vec::with_capacity(count);
        let mut x = 0.0;
        for column in 0..count {
            let is_bars = |it: &Item| matches!(it, Item::Element(it) if is_of_board(&circuit.elements[*it]));
            let wide = if columns.items[column].iter().any(is_bars) { symbols::BAR } else { COLUMN };
            edges.push([x, x + wide]);
            x += wide;
            if column + 1 < count {
                x += wires::room(circuit, columns, column);
            }
        }
        let width = edges.last().map_or(0.0, |it| it[1]);
        let mut placed = Self { elements: Vec::new(), edges, middles, width, height: 0.0 };
        placed.stand(circuit, columns);
        placed
    }

    fn stand(&mut self, circuit: &CircuitGraph, columns: &Columns) {
        let nowhere = ElementSpot {
            area: Rect::new(0.0, 0.0, 0.0, 0.0),
            centre: Xy::new(0.0, 0.0),
            leads: [Vec::new(), Vec::new()],
        };
        self.elements = vec![nowhere; circuit.elements.len()];
        for (column, items) in columns.items.iter().enumerate() {
            let [left, right] = self.edges[column];
            for (item, middle) in items.iter().zip(&self.middles[column]) {
                let [above, below] = extent(circuit, *item);
                self.height = self.height.max(middle + below);
                let Item::Element(index) = item else { continue };
                let element = &circuit.elements[*index];
                let leads = |side: usize, x: f32| {
                    let count = element.sides[side].len();
                    let at = |place: usize| if columns.turned[*index] { count - 1 - place } else { place };
                    (0..count).map(|it| Xy::new(x, middle + offset(at(it), count))).collect()
                };
                self.elements[*index] = ElementSpot {
                    area: Rect::new(left, middle - above, right - left, above + below),
                    centre: Xy::new(f32::midpoint(left, right), *middle),
                    leads: [leads(0, left), leads(1, right)],
                };
            }
        }
    }
}

/// How high each item is: as near to what its nets meet as the order lets it be.
fn levelled(circuit: &CircuitGraph, columns: &Columns) -> Vec<Vec<f32>> {
    let mut middles: Vec<Vec<f32>> = columns
        .items
        .iter()
        .map(|items| {
            let mut y = 0.0;
            let stacked = items.iter().map(|it| {
                let [above, below] = extent(circuit, *it);
                let middle = y + above;
                y = middle + below + GAP;
                middle
            });
            stacked.collect()
        })
        .collect();
    for round in 0..ROUNDS {
        let count = columns.items.len();
        for step in 0..count {
            let column = if round % 2 == 0 { step } else { count - 1 - step };
            let wanted: Vec<f32> =
                (0..columns.items[column].len()).map(|it| wanted(circuit, columns, &middles, [column, it])).collect();
            middles[column] = kept_apart(circuit, &columns.items[column], &wanted);
        }
    }
    let top = |(column, items): (usize, &Vec<Item>)| {
        items.first().map_or(f32::INFINITY, |it| middles[column][0] - extent(circuit, *it)[0])
    };
    let top = columns.items.iter().enumerate().map(top).fold(f32::INFINITY, f32::min);
    let top = if top.is_finite() { top } else { 0.0 };
    middles.iter_mut().flatten().for_each(|it| *it = (*it - top).round());
    middles
}

/// The leads of an item on one side: how far from its middle, and of which net.
pub(super) fn leads(circuit: &CircuitGraph, columns: &Columns, item: Item, side: usize) -> Vec<(f32, usize)> {
    match item {
        Item::Pass(net) => vec![(0.0, net)],
        Item::Element(it) => {
            let of = &circuit.elements[it].sides[side];
            let at = |place: usize| if columns.turned[it] { of.len() - 1 - place } else { place };
            of.iter().enumerate().map(|(place, (_, net))| (offset(at(place), of.len()), *net)).collect()
        }
    }
}

/// Where an item would be level with what its nets meet in the columns beside it.
fn wanted(circuit: &CircuitGraph, columns: &Columns, middles: &[Vec<f32>], [column, place]: [usize; 2]) -> f32 {
    let item = columns.items[column][place];
    let mut all = Vec::new();
    for side in [0, 1] {
        let beside = if side == 0 { column.checked_sub(1) } else { Some(column + 1).filter(|it| *it < middles.len()) };
        let Some(beside) = beside else { continue };
        for (own, net) in leads(circuit, columns, item, side) {
            for (other, middle) in columns.items[beside].iter().zip(&middles[beside]) {
                let met = leads(circuit, columns, *other, 1 - side);
                all.extend(met.into_iter().filter(|it| it.1 == net).map(|it| middle + it.0 - own));
            }
        }
    }
    if all.is_empty() { middles[column][place] } else { all.iter().sum::<f32>() / all.len() as f32 }
}

/// The places nearest to those wanted (least squares) that keep the order and the room that each needs: what comes too close is taken
/// together and stands at its mean (the pool-adjacent-violators algorithm).
fn kept_apart(circuit: &CircuitGraph, items: &[Item], wanted: &[f32]) -> Vec<f32> {
    let mut before = Vec::with_capacity(items.len());
    let mut y = 0.0;
    for (place, it) in items.iter().enumerate() {
        if place > 0 {
            y += extent(circuit, items[place - 1])[1] + GAP + extent(circuit, *it)[0];
        }
        before.push(y);
    }
    // Sum and number of each block of those that stand close together.
    let mut blocks: Vec<(f32, usize)> = Vec::new();
    for (wanted, before) in wanted.iter().zip(&before) {
        blocks.push((wanted - before, 1));
        while let [.., (a, n), (b, m)] = blocks[..]
            && a / n as f32 > b / m as f32
        {
            blocks.truncate(blocks.len() - 2);
            blocks.push((a + b, n + m));
        }
    }
    let means = blocks.into_iter().flat_map(|(sum, count)| std::iter::repeat_n(sum / count as f32, count));
    means.zip(before).map(|(mean, before)| mean + before).collect()
}

/// How much room tracks take, one beside the other.
pub(super) fn tracks_wide(count: usize) -> f32 {
    (count + 1) as f32 * TRACK
}

/// Whether an element stands for something of the board.
pub(super) fn is_of_board(element: &DiagramElement) -> bool {
    matches!(element.symbol, Symbol::Line(_) | Symbol::Neutral(_) | Symbol::Earth)
}
