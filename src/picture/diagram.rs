//! The circuit diagram: the same wiring with the symbols of IEC 60617, from line on the left to neutral on the right.
//!
//! What is joined for good is one net, drawn as one line with corners; switches stand as they stand in the work. Elements stand in columns by
//! how many of them lie between them and a line ([`elements`]); columns are ordered by a search for few crossings ([`order`]); then they
//! are placed and their nets drawn ([`place`], [`wires`]). Protective conductors are in it only where line or neutral meets them.

mod elements;
mod net;
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
pub use net::DiagramNet;
use order::Columns;
use place::DiagramLayout;

/// Around the diagram.
const MARGIN: f32 = 24.0;
/// How thick a conductor is drawn.
const WIRE: f32 = 2.0;
/// A joint of three or more.
const DOT: f32 = 4.0;

/// A circuit diagram, and where in it each net is.
#[derive(Debug, Clone, PartialEq)]
pub struct CircuitDiagram {
    /// What is drawn.
    pub scene: Scene,
    /// The nets, in no order that means anything.
    pub nets: Vec<DiagramNet>,
}

/// The circuit as it is wired, each switch as it stands. What no conductor comes to is left out; where that is everything, the scene is
/// empty. `lit` says what each lamp does; without it all are drawn dark.
pub fn of_circuit(work: &Work, words: &dyn Words, lit: Option<&[Glow]>) -> Scene {
    circuit_diagram(work, words, lit).scene
}

/// The same with its nets, for following a current through it and for finding in it what is pointed at elsewhere.
pub fn circuit_diagram(work: &Work, words: &dyn Words, lit: Option<&[Glow]>) -> CircuitDiagram {
    let mut circuit = CircuitGraph::of(work);
    let columns = Columns::best(&mut circuit);
    let placed = DiagramLayout::of(&circuit, &columns);
    let mut canvas = Canvas::default();
    let mut nets = Vec::new();
    for (number, net) in wires::nets(&circuit, &columns, &placed).into_iter().enumerate() {
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
        nets.push(DiagramNet::of(&circuit, &placed, (number, &net.lines), MARGIN));
    }
    let drawing = symbols::Drawing { work, words, lit };
    for (index, element) in circuit.elements.iter().enumerate() {
        drawing.draw(&mut canvas, element, &placed.elements[index]);
    }
    canvas.moved(MARGIN, MARGIN);
    let scene = canvas.into_scene(placed.width + 2.0 * MARGIN, placed.height + 2.0 * MARGIN);
    CircuitDiagram { scene, nets }
}
