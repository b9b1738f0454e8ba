//! Every sentence that a learner, a tutor or a householder reads, by key from catalogues in `assets/wording`.
//!
//! Sentences live in the catalogues and nowhere else; the code here finds the key and fills in the places. Addresses,
//! digests, seeds and position numbers become words. This room judges nothing and prints nothing.

mod catalogue;
mod keys;
mod outcome;
mod place;
mod trouble;

pub use catalogue::{Lacking, Wording};
pub use keys::{
    ACT_KEYS, CHECK_KEYS, POWER_KEYS, STAGE_KEYS, act_key, cautions, check_key, colour, mark, power_key, stage_key,
};
pub use outcome::{happened, list, ohms, volts};
pub use place::{conductor, device, end, place, position, switch, terminal};
pub use trouble::{help, problem, problem_without_help, refused};
