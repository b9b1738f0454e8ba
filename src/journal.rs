//! What is kept on disk: attempt files and folders of scenarios.
//!
//! The only part of the program that opens files for reading and appending. What stands in them is read and judged by
//! the library; what is said about it is said by the command line or the window.

mod attempt;
#[cfg(feature = "workshop")]
mod attempt_list;
#[cfg(feature = "register")]
mod bundle;
mod error;
mod flush;
#[cfg(feature = "workshop")]
mod folder;
mod hand_ins;
mod read;
mod scenarios;
#[cfg(feature = "workshop")]
mod settings;
mod tries;
mod write;
mod zip;

pub use attempt::{
    Access, Journal, Whole, attempt_in, read_attempt, read_attempt_again, read_attempt_for_states, reopen,
};
#[cfg(feature = "workshop")]
pub use attempt::{Reopened, open_to_read};
#[cfg(feature = "workshop")]
pub use attempt_list::{AttemptFolder, AttemptList, KeptAttempt, is_same_learner};
#[cfg(feature = "register")]
pub use bundle::{BundleFile, write_bundle};
pub use error::JournalError;
#[cfg(feature = "workshop")]
pub use folder::{attempts_folder, settings_file};
pub use hand_ins::{HandInFile, HandInFiles, Reach};
pub use read::text;
pub use scenarios::{ScenarioLibrary, Shelved, scenarios_in};
#[cfg(feature = "workshop")]
pub use settings::{KeptClass, Settings};
#[cfg(feature = "workshop")]
pub use tries::Tries;
pub use tries::{Begun, NotBegun, read_assignment, read_tutors};
#[cfg(feature = "register")]
pub use write::begins_with;
pub use write::{make_folder, write_new, write_own};
