//! The tutor's desk: what is done with a class, by the command line and by the window alike. It opens files by way of [`crate::journal`] and
//! keeps what was marked and decided in [`crate::store`]; what it says, it hands back.

mod class;
#[cfg(feature = "register")]
mod decided;
#[cfg(feature = "register")]
mod erased;
mod in_turn;
mod kept;
mod marking;
#[cfg(feature = "register")]
mod released;
mod setting;

#[cfg(feature = "workshop")]
pub use class::Reviewed;
pub use class::{ClassFiles, ClassTrouble, review};
#[cfg(feature = "register")]
pub use decided::{NotPut, comment, decide};
#[cfg(feature = "register")]
pub use erased::{ToErase, Whose, erase, to_erase};
pub use in_turn::in_turn;
#[cfg(feature = "register")]
pub use kept::now;
pub use marking::{Bench, replay, shown};
#[cfg(feature = "register")]
pub use released::{ReleaseTo, Released, release};
#[cfg(feature = "workshop")]
pub use setting::as_read;
pub use setting::{NotSet, clock_time, hand_out, numbers, what_is_past};
