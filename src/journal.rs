//! What is kept on disk: attempt files and folders of scenarios.
//!
//! The only part of the program that opens files for reading and appending. What stands in them is read and judged by
//! the library; what is said about it is said by the command line or the window.

mod attempt;
mod flush;
#[cfg(feature = "workshop")]
mod folder;
#[cfg(feature = "workshop")]
mod kept;
mod read;
mod shelf;
mod trouble;
mod write;

#[cfg(feature = "workshop")]
pub use attempt::open_to_read;
pub use attempt::{Access, Journal, Whole, read_attempt, read_attempt_again, read_attempt_for_states, reopen};
#[cfg(feature = "workshop")]
pub use folder::attempts_folder;
#[cfg(feature = "workshop")]
pub use kept::{Kept, KeptAttempt};
pub use read::text;
pub use shelf::{Shelf, scenarios_in};
pub use trouble::Trouble;
pub use write::{make_folder, write_own};
