//! Where everything is drawn, as plain shapes; SVG from it.
//!
//! The window, the report and the command line draw the same [`Scene`]: shapes with roles instead of colours, and a
//! spot for everything that can be touched. Nothing here says what is right, what is energised or what a learner may
//! do, and nothing is put into sentences: see [`Words`].

mod cable_names;
mod canvas;
mod conductor;
mod cores;
mod depth;
mod diagram;
mod entry;

mod fittings;
mod front;
mod groups;
mod house;
mod inside;
mod lanes;
mod layout;
mod made;
mod mounted;
mod paint;
mod palette;
mod place;

mod plan;
mod plywood;
mod routes;
mod shape;
mod sheet;

mod svg;
mod text;
mod words;

pub use diagram::{CircuitDiagram, DiagramNet, circuit_diagram, of_circuit};
pub use paint::{Fill, Paint, Tint};
pub use palette::{Palette, contrast};
pub use shape::{Anchor, FontWeight, Layer, Outline, Path, Rect, Scene, Segment, Shape, Spot, Stroke, Text, Thing, Xy};
pub use sheet::of_everything;
pub use svg::svg;
pub use text::width as text_width;
pub use words::{Label, Words};

use crate::{circuit::Glow, exercise::LocationId, work::Work};

/// Which covers are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Covers {
    /// As they stand: a closed box shows its plate.
    AsTheyStand,
    /// None, as if one could see through them: for a tutor, never for a learner at work.
    Lifted,
}

/// How one looks at the work.
#[derive(Debug, Clone, Copy)]
pub struct View<'a> {
    /// Which covers are drawn.
    pub covers: Covers,
    /// What each lamp does. `None`: not said, and all are drawn dark.
    pub lit: Option<&'a [Glow]>,
    /// Whether it is dusk: the learner's own power is on, and what a lamp lights is seen.
    pub evening: bool,
}

/// One location: from the inside if it is open, from the front if its cover is on. A location that the exercise does
/// not have is an empty scene.
pub fn of_location(work: &Work, location: LocationId, words: &dyn Words, view: &View<'_>) -> Scene {
    let Some(place) = work.exercise().locations.get(location) else {
        return Scene { width: 0.0, height: 0.0, shapes: Vec::new(), spots: Vec::new() };
    };
    if place.kind.has_cover() && work.is_covered(location) && view.covers == Covers::AsTheyStand {
        front::front(work, location, words)
    } else {
        inside::inside(work, location, words, view)
    }
}

/// The whole place as its plan has it: every location with its switches, lamps and devices, and the cables between.
pub fn of_place(work: &Work, words: &dyn Words, view: &View<'_>) -> Scene {
    place::place(work, words, view, (&[], false))
}

/// The same, with the cores of these conductors drawn along their cables, each with a tag that can be touched. What is no core of a cable
/// is left out.
pub fn of_place_with_cores(work: &Work, words: &dyn Words, view: &View<'_>, conductors: &[usize]) -> Scene {
    place::place(work, words, view, (conductors, true))
}

/// The same without the tags: for following a current through the place.
pub fn of_place_with_open_cores(work: &Work, words: &dyn Words, view: &View<'_>, conductors: &[usize]) -> Scene {
    place::place(work, words, view, (conductors, false))
}
