//! What the wiring does: the network behind the work, joined or not, volts and amps, which device opens, every hazard.
//!
//! Two views of one network. *Joined*: conductors, terminals and closed contacts as ideal joins. *Volts*: the same as
//! resistances, solved exactly. This room knows nothing of marks or sentences.
//!
//! What the model leaves out: reactance, harmonics, inrush, arcs, heat over time, capacitance between cores
//! (except to an instrument, which sees ghost volts by it), and wear. Everything is a resistance.

mod as_it_stands;
mod cores;
mod current_path;
mod eliminate;
mod every_setting;
mod flow;
mod groups;
pub mod instrument;
mod joined;
mod joint;
mod lamps;
mod network;
mod settle;
mod spice;
mod survey;
mod touch;
mod volt_drop;

pub use crate::exercise::Sets;
pub use as_it_stands::{Meter, at_origin, is_energised, ohms_between, opening, proving, reading, volts_between};
pub use cores::{CoresNeeded, cores_needed};
pub use current_path::{Course, courses};
pub use eliminate::{Solution, solve};
pub use flow::{CurrentLoop, Flow, LiveStop, LoopLeg, LoopStep, flow};
pub use groups::{Group, Groups};
pub use instrument::{Reading, indicator_lights, ohms_shown};
pub use joined::{
    Class, Contacts, Joined, Layered, Pairs, Proof, Reach, STATES, Supplied, Toggles, TooMany, WrongToggle, ever_joined,
};
pub use joint::{HotJoint, hot_joints};
pub use lamps::{SettingShown, lamps_now, shown_at};
pub use network::{Branch, Conditions, Network, Part};
pub use settle::{Cause, Opening, Settled, settle};
pub use spice::{DECK_TITLE, Deck, Element, TooManyCases, deck, deck_cases};
pub use survey::{
    Glow, Hazard, HazardKind, LampRow, Onset, Prepared, ROWS, Ready, Row, StateClass, States, Survey, Witness, row_at,
    rows, settings_to_try, states, survey,
};
pub(crate) use survey::{exposed_metal, lamp_row};
pub use touch::{Touch, Way, hand_points, live_points_near, touch, way};
pub use volt_drop::{Lost, lost_on_the_way};
