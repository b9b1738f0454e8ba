//! A net of the diagram: where its lines are, what it joins, and how a current divides in it.

use super::{elements::CircuitGraph, place::DiagramLayout};
use crate::{exercise::TerminalId, picture::shape::Xy};

/// Points no farther apart than this are one.
const CLOSE: f32 = 0.6;

/// What is joined for good, as the diagram has it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct DiagramNet {
    /// Its lines between the columns, level or upright, in the units of the scene.
    pub lines: Vec<[Xy; 2]>,
    /// Each terminal that it comes to, and where.
    pub leads: Vec<(TerminalId, Xy)>,
    /// The conductors that are joined in it, by their numbers in the work.
    pub conductors: Vec<usize>,
}

impl DiagramNet {
    /// A net by its number, drawn along these lines, all of it moved to the right and down by so much.
    pub(super) fn of(
        circuit: &CircuitGraph,
        placed: &DiagramLayout,
        (number, lines): (usize, &[Vec<Xy>]),
        by: f32,
    ) -> Self {
        let moved = |it: Xy| Xy::new(it.x + by, it.y + by);
        let sides =
            circuit.elements.iter().zip(&placed.elements).flat_map(|(it, spot)| it.sides.iter().zip(&spot.leads));
        let leads = sides.flat_map(|(terminals, leads)| terminals.iter().zip(leads));
        let leads = leads.filter(|it| it.0.1 == number).map(|((terminal, _), at)| (*terminal, moved(*at)));
        let lines = lines.iter().flat_map(|it| it.windows(2)).map(|it| [moved(it[0]), moved(it[1])]);
        Self {
            lines: lines.collect(),
            leads: leads.collect(),
            conductors: circuit.conductors.get(number).cloned().unwrap_or_default(),
        }
    }

    /// How a current divides: each straight piece between two corners, joints or leads, in the direction of the current, with what it
    /// carries, amps. `taken` says how much leaves the net at a terminal. By Kirchhoff's first law: the lines of a net are a tree, so
    /// that what goes through a piece is what is brought on one side of it.
    pub fn flows(&self, taken: impl Fn(TerminalId) -> f64) -> Vec<([Xy; 2], f64)> {
        let mut corners: Vec<Xy> = Vec::new();
        let mut corner = |at: Xy| {
            let known = corners.iter().position(|it| is_near(*it, at));
            known.unwrap_or_else(|| {
                corners.push(at);
                corners.len() - 1
            })
        };
        for it in self.lines.iter().flatten() {
            corner(*it);
        }
        let mut brought: Vec<f64> = Vec::new();
        for (terminal, at) in &self.leads {
            let here = corner(*at);
            brought.resize(brought.len().max(here + 1), 0.0);
            brought[here] -= taken(*terminal);
        }
        brought.resize(corners.len(), 0.0);
        let mut pieces: Vec<[usize; 2]> = self.lines.iter().flat_map(|it| cut(*it, &corners)).collect();
        let mut found = Vec::new();
        // From its ends inwards: the last piece at a corner carries all that was brought there.
        while let Some((place, last)) = (0..corners.len()).find_map(|it| only_piece(&pieces, it)) {
            let [a, b] = pieces.swap_remove(place);
            let (from, to) = if a == last { (a, b) } else { (b, a) };
            let amps = brought[from];
            brought[to] += amps;
            let [from, to] = if amps < 0.0 { [to, from] } else { [from, to] }.map(|it| corners[it]);
            found.push(([from, to], amps.abs()));
        }
        found
    }
}

fn is_near(a: Xy, b: Xy) -> bool {
    (a.x - b.x).abs() < CLOSE && (a.y - b.y).abs() < CLOSE
}

/// The one piece that a corner is still the end of, and the corner.
fn only_piece(pieces: &[[usize; 2]], corner: usize) -> Option<(usize, usize)> {
    let mut here = pieces.iter().enumerate().filter(|it| it.1.contains(&corner));
    let (place, _) = here.next()?;
    here.next().is_none().then_some((place, corner))
}

/// A level or upright line, cut at every corner that lies on it.
fn cut([a, b]: [Xy; 2], corners: &[Xy]) -> Vec<[usize; 2]> {
    let within = |it: f32, a: f32, b: f32| it > a.min(b) - CLOSE && it < a.max(b) + CLOSE;
    let mut on: Vec<usize> =
        (0..corners.len()).filter(|it| within(corners[*it].x, a.x, b.x) && within(corners[*it].y, a.y, b.y)).collect();
    let along = |it: usize| (corners[it].x - a.x).abs() + (corners[it].y - a.y).abs();
    on.sort_by(|one, other| along(*one).total_cmp(&along(*other)));
    on.windows(2).map(|it| [it[0], it[1]]).collect()
}
