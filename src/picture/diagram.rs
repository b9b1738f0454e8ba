//! The circuit diagram: the same wiring with the symbols of IEC 60617, from line on the left to neutral on the right.
//!
//! What is joined for good is one net, drawn as one line with corners; switches stand as they stand in the work. Elements stand in columns by
//! how many of them lie between them and a line ([`elements`]); columns are ordered by a search for few crossings ([`order`]); then they
//! are placed and their nets drawn ([`place`], [`wires`]). Protective conductors are in it only where line or neutral meets them.

mod elements;
mod order;
mod place;
mod symbols;
mod wires;

use super::{
    canvas::{Canvas, Type, both, fill, line},
    paint::Paint,
    shape::{Anchor, Layer, Path, Scene},
    words::Words,
};
use crate::{circuit::Glow, work::Work};

use elements::CircuitGraph;
use order::Columns;
use place::DiagramLayout;

/// Around the diagram.
const MARGIN: f32 = 24.0;
/// How thick a conductor is drawn.
const WIRE: f32 = 2.0;
/// A joint of three or more.
const DOT: f32 = 4.0;

/// The circuit as it is wired, each switch as it stands. What no conductor comes to is left out; where that is everything, the scene is
/// empty. `lit` says what each lamp does; without it all are drawn dark.
pub fn of_circuit(work: &Work, words: &dyn Words, lit: Option<&[Glow]>) -> Scene {
    let circuit = CircuitGraph::of(work);
    let columns = Columns::of(&circuit);
    let placed = DiagramLayout::of(&circuit, &columns);
    let mut canvas = Canvas::default();
    for net in wires::nets(&circuit, &columns, &placed) {
        for it in &net.lines {
            canvas.path(Layer::Conductors, None, Path::through(it), line(Paint::Ink, WIRE));
        }
        for it in &net.joints {
            canvas.circle(Layer::Marks, None, *it, DOT, fill(Paint::Ink));
        }
        for it in &net.open {
            canvas.circle(Layer::Marks, None, *it, DOT, both(Paint::Paper, Paint::Ink, 1.5));
        }
        if let Some((at, text)) = &net.label {
            canvas.text(Layer::Names, None, *at, Anchor::Start, Type::quiet(symbols::SMALL, Paint::Paper), text);
        }
    }
    let drawing = symbols::Drawing { work, words, lit };
    for (index, element) in circuit.elements.iter().enumerate() {
        drawing.draw(&mut canvas, element, &placed.elements[index]);
    }
    canvas.moved(MARGIN, MARGIN);
    canvas.into_scene(placed.width + 2.0 * MARGIN, placed.height + 2.0 * MARGIN)
}
