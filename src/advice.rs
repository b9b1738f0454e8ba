//! Doubts about a scenario: what can be read and done, but was probably not meant. And what a learner who asks is told.
//!
//! Nothing here refuses anything. A doubt of the wiring holds whatever the learner does: it is worked out for the shortest
//! way by which the cables could carry a circuit, and a control is doubted only where no wiring can do it. Where the learner
//! chooses the cable, it counts with most cores and most copper. What a cable may carry for good is left out: the figures held
//! for it (`trade/carrying.rs`) are from memory.

mod circuit;
mod control;
mod next_join;
mod routes;
mod solvable;
mod solve;
mod wiring;

pub use next_join::{Guidance, NextJoin, guidance, next_join};
pub use solve::{Lacks, Model, Unsolved, solve};
pub use wiring::{Carries, Wiring, WiringFound, wiring, wiring_left};

use crate::exercise::{Exercise, LocationId, LocationKind, Named};

/// One doubt.
#[derive(Debug, Clone, PartialEq)]
pub struct Doubt {
    /// What it is about.
    pub kind: DoubtKind,
    /// Where it is in the scenario.
    pub at: Named,
    /// What was worked out; its unit is that of the kind.
    pub found: f64,
    /// What it should not be above, or below; in the same unit.
    pub limit: f64,
    /// The place where it is so, if that is a different one.
    pub place: Option<LocationId>,
}

/// The kinds of doubt. `doubt-` and the word is the key of the sentence in the catalogue.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case")]
pub enum DoubtKind {
    /// The loads of a circuit take more than its device is rated for, amps.
    Overloaded,
    /// A circuit behind a residual current device alone: nothing opens on too much current. No figures.
    NoOvercurrent,
    /// A circuit with a lamp on it and no residual current device of 30 mA or less. No figures.
    NoAdditionalProtection,
    /// A lamp loses more volts than the guide allows, with everything on.
    VoltDrop,
    /// No device opens in time on a first fault though everything is wired right: the loop, ohms.
    NoDisconnection,
    /// Too few insulated conductors come to a switch that shares a lamp with others.
    TooFewConductors,
    /// A switch that shares a lamp with others can only join and part.
    JoinsOnly,
    /// The switches of a lamp have too few contacts together.
    TooFewContacts,
    /// A lamp to which no cable comes.
    LampWithoutCable,
    /// A control whose lamp and switches are not all joined to a board by cables.
    ControlCutOff,
    /// A control that a search found no wiring for.
    NoWiring,
    /// Free ends of a cable where no hand can reach them: how many.
    EndsOutOfReach,
    /// A stage of the work with nothing in the exercise to do it on.
    StageOfNothing,
    /// Two places, or two cables, with one name.
    SameName,
    /// Two faults to be found that no reading tells apart: their places in the list, from 0.
    SuspectsAlike,
    /// A lamp is more than its holder is made for, watts.
    LampTooHot,
    /// A box is less deep than its accessory asks, mm.
    BoxTooShallow,
}

impl DoubtKind {
    /// Every kind, for the tests that walk the table.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The word by which the catalogue knows it.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

impl Doubt {
    const fn new(kind: DoubtKind, at: Named, found: f64, limit: f64) -> Self {
        Self { kind, at, found, limit, place: None }
    }
}

/// Every doubt about an exercise, in the order of the kinds.
pub fn doubts(exercise: &Exercise) -> Vec<Doubt> {
    let exercise = &exercise.with_most();
    let mut found = Vec::new();
    circuit::doubts(exercise, &mut found);
    control::doubts(exercise, &mut found);
    solvable::doubts(exercise, &mut found);
    boxes(exercise, &mut found);
    lampholders(exercise, &mut found);
    found.sort_by_key(|it| it.kind);
    found
}

/// Back boxes less deep than an accessory on them asks for (makers' sheets; each figure's source is in the catalogue).
fn boxes(exercise: &Exercise, found: &mut Vec<Doubt>) {
    for (id, place) in exercise.locations.with_ids() {
        let LocationKind::Box(it) = &place.kind else { continue };
        let asked = it.plate.ways.iter().map(|way| way.box_mm).fold(0.0, f64::max);
        if asked > it.depth_mm {
            let at = Named::Location(id);
            found.push(Doubt::new(DoubtKind::BoxTooShallow, at, it.depth_mm, asked));
        }
    }
}

/// Lamps above what their lampholder is made for, on a pendant or elsewhere: the limit is heat at the cap, not current.
fn lampholders(exercise: &Exercise, found: &mut Vec<Doubt>) {
    for it in exercise.lamps.iter().filter(|it| it.watts > it.holder.most_watts()) {
        found.push(Doubt::new(DoubtKind::LampTooHot, Named::Location(it.location), it.watts, it.holder.most_watts()));
    }
}
