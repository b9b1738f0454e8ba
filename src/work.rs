//! What the learner does: actions, the state of every conductor end and plate, and the attempt that records it all.
//!
//! Pure: a log of actions in, the work and the tally out. Electricity is asked for through [`Physics`], which
//! [`crate::circuit`] implements; this room holds no resistance and no mark.

mod action;
mod attempt;
mod attempt_file;
mod format;
mod history;
mod next_reading;
mod probing;
mod refused;
mod safety;
mod shared;
mod state;
mod subject;
mod tally;
mod testing;
mod topology;

pub use action::{Action, Check, Detector, EarthingStep, Fault, Feel, Incomer, KitPart, Reason, Setting, Source, Test};
pub use attempt::{Attempt, Happened, Physics};
pub use attempt_file::{
    Chain, Header, Known, Line, Mode, Opened, action_line, first_lines, open, open_again, open_for_states, opened_line,
    parse_action, sha256,
};
pub use format::Format;
pub use next_reading::{ToRead, readings_to_take};
pub use probing::{DeadStep, DeadTest, dead_steps_left, dead_tests_left};
pub use refused::Refused;
pub(crate) use safety::combinations;
pub use safety::{Probe, Safety, settings_to_predict};
pub use state::{Chosen, DeviceState, Edit, Fit, Fold, Made, Point, Power, Prep, Work};
pub use subject::{Subject, Wire};
pub use tally::{Act, ActKind, Energised, Prediction, Redone, Reported, Tally, Why};
pub use testing::{
    Claim, Entry, Kept, Key, Meter, Reading, Side, Sign, Spot, Testing, Written, size as reading_size, stage_of,
};
pub use topology::Load;
