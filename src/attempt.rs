//! What the learner did: the log of actions, and all that is folded from it.
//!
//! Pure: a log goes in; the work, the tally, safe working and the tests come out. [`crate::circuit`] says what
//! instruments show on the work as it stands. This room gives no marks.

mod file;
mod format;
mod history;
mod log;
mod naming;
mod next_reading;
mod probing;
mod safety;
mod tally;
mod testing;

pub use file::{
    AnswersFrom, Assigned, Chain, Header, Line, Mode, Opened, ReadBefore, Stranger, action_form, action_line,
    assigned_of, first_lines, learner_of, open, open_again, open_for_states, opened_line, parse_action, sha256,
    stranger,
};
pub use format::Format;
pub use log::{Attempt, Happened, Impossible};
pub use naming::Naming;
pub use next_reading::{ToRead, readings_to_take};
pub use probing::{DeadStep, DeadTest, dead_steps_left, dead_tests_left};
pub use safety::{Probe, ProofGap, Safety, settings_to_predict};
pub use tally::{Act, ActKind, Diagnosis, Energised, Observed, Prediction, Redone, Reported, TakenReading, Tally, Why};
pub use testing::{
    Claim, Kept, Key, SheetLine, Side, Sign, TestPart, Testing, Written, size as reading_size, stage_of,
};
