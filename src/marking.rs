//! What the work earns: findings with witness and repair, root causes, the mark sheet.
//!
//! Pure: the same attempt gives the same sheet. A wiring is right because of what it does; no finding compares it with an
//! answer. One file a rule under `rules/`, all of one signature, listed in `rules::RULES`. This room makes no sentence.

mod answers;
mod causes;
mod chances;
mod code;
mod context;
mod criteria;
mod done_well;
mod effort;
mod finding;
mod hint;
mod limit;
mod locked_power;
mod misnamed;
mod notice;
mod observed;
mod outcome;
mod pre_existing;
mod reference;
mod repair;
mod roots;
mod rules;
mod sheet;
mod unfinished;

pub use answers::{Answers, Until, answers, may_hint};
pub use code::{Code, Criterion, Weight};
pub use done_well::{Well, done_well, was_safe};
pub use finding::{Finding, Root, Seen};
pub use hint::{Hint, hint};
pub use notice::{Notice, early, notices};
pub use observed::to_observe;
pub use outcome::{Bar, Outcome, Unmet};
pub use reference::{Citation, reference};
pub use repair::to_remake;
pub use rules::{is_critical, times};
pub(crate) use sheet::found_now;
pub use sheet::{CriterionMarks, Sheet, mark};

/// Version of the marking. The first change of a rule after a release raises it; until the next release each further change is a line under
/// that number in `changes.md`.
pub const VERSION: u32 = 4;
