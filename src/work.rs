//! What the learner works on: the actions, and the state of every conductor end, plate, device and lock.
//!
//! Pure: a state and an action in, the next state or a refusal out. What came of the actions, what was safe and what was tested is
//! the [`crate::attempt`]'s; this room holds no resistance and no mark.

mod action;
mod refused;
mod shared;
mod slips;
mod state;
mod subject;
mod topology;

pub(crate) use action::Hand;
pub use action::{
    Action, Check, Detector, EarthingStep, Fault, Feel, Flaw, Incomer, KitPart, Reason, Source, SwitchPosition, Test,
};
pub use refused::Refused;
pub use slips::{slip_problems, slips_refused};
pub use state::{Called, Chosen, DeviceState, Edit, Fit, Fold, Made, Point, Power, Prep, Work};
pub use subject::{Subject, Wire};
pub use topology::Load;
