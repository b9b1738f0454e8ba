//! What the wiring does: the network behind the work, joined or not, volts and amps, which device opens, every hazard.
//!
//! Two views of one network. *Joined*: conductors, terminals and closed contacts as ideal joins. *Volts*: the same as
//! resistances, solved exactly. This room knows nothing of marks or sentences.
//!
//! What the model leaves out: reactance, harmonics, inrush, arcs, heat over time, capacitance between cores (so a
//! floating core shows no ghost voltage here), and wear. Everything is a resistance.

mod course;
mod eliminate;
mod joined;
mod network;
mod physics;
mod present;
mod settle;
mod survey;

pub use course::{Course, courses};
pub use eliminate::{Solution, solve};
pub use joined::{Joined, Reach};
pub use network::{Branch, Conditions, Network, Part};
pub use physics::Physics;
pub use present::{Shown, lamps_now, shown_at};
pub use settle::{Cause, Opening, Settled, settle};
pub use survey::{Glow, Hazard, HazardKind, LampRow, Row, Stage, Survey, Witness, survey};
pub(crate) use survey::{exposed_metal, lamp_row};
