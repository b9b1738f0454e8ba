//! The lines of the nets: level from each lead, and down or up on a track between two columns.

use super::{
    elements::CircuitGraph,
    order::{Columns, reach},
    place::{DiagramLayout, leads, tracks_wide},
    symbols::SMALL,
};
use crate::picture::{
    shape::{FontWeight, Xy},
    text::width,
};

/// From one track to the next.
pub(super) const TRACK: f32 = 16.0;
/// Lines of two nets this close would be taken for one.
const CLOSE: f32 = 3.0;

/// A net as it is drawn.
#[derive(Debug, Default)]
pub(super) struct DrawnNet {
    pub lines: Vec<Vec<Xy>>,
    /// Where three lines or more of it meet.
    pub joints: Vec<Xy>,
    /// Where a lead of it ends with nothing more on it.
    pub open: Vec<Xy>,
    /// The letters of its colours, and where they stand.
    pub label: Option<(Xy, String)>,
}

/// A net between two columns: where its leads come from on the left and go to on the right.
struct NetWay {
    net: usize,
    left: Vec<f32>,
    right: Vec<f32>,
}

impl NetWay {
    fn all(&self) -> impl Iterator<Item = f32> + '_ {
        self.left.iter().chain(&self.right).copied()
    }

    fn span(&self) -> [f32; 2] {
        [self.all().fold(f32::INFINITY, f32::min), self.all().fold(f32::NEG_INFINITY, f32::max)]
    }
}

/// How wide the way behind a column has to be: the letters of the nets that begin in it, and a track for each.
pub(super) fn room(circuit: &CircuitGraph, columns: &Columns, column: usize) -> f32 {
    letters(circuit, column) + tracks_wide(crossing_nets(circuit, columns, column).len())
}

/// The room that the letters take at the left of the way behind a column.
fn letters(circuit: &CircuitGraph, column: usize) -> f32 {
    let begins = (0..circuit.codes.len()).filter(|it| reach(circuit, *it).0 == column);
    begins.map(|it| width(&circuit.codes[it], SMALL, FontWeight::Normal) + 8.0).fold(0.0, f32::max)
}

fn crossing_nets(circuit: &CircuitGraph, columns: &Columns, column: usize) -> Vec<usize> {
    let of = |column: usize, side: usize| {
        columns.items[column].iter().flat_map(move |it| leads(circuit, columns, *it, side)).map(|it| it.1)
    };
    let mut nets: Vec<usize> = of(column, 1).chain(of(column + 1, 0)).collect();
    nets.sort_unstable();
    nets.dedup();
    nets
}

/// Every net, drawn.
pub(super) fn nets(circuit: &CircuitGraph, columns: &Columns, placed: &DiagramLayout) -> Vec<DrawnNet> {
    let mut all: Vec<DrawnNet> = circuit.codes.iter().map(|_| DrawnNet::default()).collect();
    for column in 0..columns.items.len().saturating_sub(1) {
        let way = [placed.edges[column][1], placed.edges[column + 1][0]];
        let heights = |column: usize, side: usize, net: usize| -> Vec<f32> {
            let items = columns.items[column].iter().zip(&placed.middles[column]);
            let leads = items.flat_map(|(it, middle)| {
                leads(circuit, columns, *it, side).into_iter().map(move |it| (middle + it.0, it.1))
            });
            leads.filter(|it| it.1 == net).map(|it| it.0).collect()
        };
        let nets = crossing_nets(circuit, columns, column).into_iter();
        let crossings: Vec<NetWay> =
            nets.map(|net| NetWay { net, left: heights(column, 1, net), right: heights(column + 1, 0, net) }).collect();
        let begins = way[0] + letters(circuit, column);
        for (track, it) in in_tracks(&crossings).into_iter().enumerate() {
            let x = begins + (track + 1) as f32 * TRACK;
            let crossing = &crossings[it];
            let drawn = &mut all[crossing.net];
            draw(drawn, crossing, way, x);
            let first = reach(circuit, crossing.net).0 == column;
            if let Some(y) = crossing.left.first().or(crossing.right.first()).filter(|_| first && drawn.label.is_none())
            {
                let code = circuit.codes[crossing.net].clone();
                // Over its line; of one that comes from nowhere, before it.
                let wide = width(&code, SMALL, FontWeight::Normal);
                let at = if crossing.left.is_empty() { x - wide - 4.0 } else { way[0] + 4.0 };
                drawn.label = Some((Xy::new(at, y - 5.0), code)).filter(|it| !it.1.is_empty());
            }
        }
    }
    // What passes a column goes straight through it.
    for (column, items) in columns.items.iter().enumerate() {
        for (item, y) in items.iter().zip(&placed.middles[column]) {
            if let super::order::Item::Pass(net) = item {
                let [left, right] = placed.edges[column];
                all[*net].lines.push(vec![Xy::new(left, *y), Xy::new(right, *y)]);
            }
        }
    }
    all
}

fn draw(drawn: &mut DrawnNet, it: &NetWay, [left, right]: [f32; 2], x: f32) {
    let [top, bottom] = it.span();
    if let ([y], []) | ([], [y]) = (it.left.as_slice(), it.right.as_slice()) {
        drawn.open.push(Xy::new(if it.left.is_empty() { right } else { left }, *y));
        return;
    }
    if bottom - top > 0.5 {
        drawn.lines.push(vec![Xy::new(x, top), Xy::new(x, bottom)]);
    }
    for y in &it.left {
        drawn.lines.push(vec![Xy::new(left, *y), Xy::new(x, *y)]);
    }
    for y in &it.right {
        drawn.lines.push(vec![Xy::new(x, *y), Xy::new(right, *y)]);
    }
    let mut at: Vec<f32> = it.all().collect();
    at.sort_by(f32::total_cmp);
    at.dedup_by(|a, b| (*a - *b).abs() < 0.5);
    for y in at {
        let level = it.all().filter(|other| (other - y).abs() < 0.5).count();
        let up = usize::from(y - top > 0.5) + usize::from(bottom - y > 0.5);
        if level + up > 2 {
            drawn.joints.push(Xy::new(x, y));
        }
    }
}

/// Which net is on which track, from the left: neighbours are exchanged as long as that takes crossings away.
fn in_tracks(crossings: &[NetWay]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..crossings.len()).collect();
    let mut left = crossings.len() * crossings.len();
    let mut place = 1;
    while place < order.len() && left > 0 {
        let (a, b) = (&crossings[order[place - 1]], &crossings[order[place]]);
        if cost(b, a) < cost(a, b) {
            order.swap(place - 1, place);
            place = place.saturating_sub(1).max(1);
            left -= 1;
        } else {
            place += 1;
        }
    }
    order
}

/// How often two nets cross, the first on the track to the left. Lines that run into each other count many times.
fn cost(left: &NetWay, right: &NetWay) -> usize {
    const MERGED: usize = 20;
    let within = |[top, bottom]: [f32; 2], y: f32| y > top - CLOSE && y < bottom + CLOSE;
    // The left net's leads to the right pass the right net's track, and the other way round.
    let crossed = left.right.iter().filter(|y| within(right.span(), **y)).count();
    let crossing = right.left.iter().filter(|y| within(left.span(), **y)).count();
    let merged = left.right.iter().filter(|a| right.left.iter().any(|b| (*a - b).abs() < CLOSE)).count();
    crossed + crossing + MERGED * merged
}
