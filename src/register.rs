//! Set work: the assignment that a tutor hands out, what each learner gets by it, and what was handed in, summed up.
//!
//! Text in, text out: this room opens no file, reads no clock and starts no thread. It judges no wiring either: marks come from
//! [`crate::marking`], and what it says of a file is a flag, never a judgement.

/// What every list of words of this room has.
macro_rules! words {
    ($($name:ident),+) => {$(
        impl $name {
            /// Every value.
            pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

            /// The word by which the command line, machines and the catalogue know it.
            pub fn word(self) -> &'static str {
                self.into()
            }
        }
    )+};
}

mod adjustment;
mod assignment;
mod bundle;
mod csv;
mod decision;
mod file;
mod flag;
mod gradebook;
mod hand_in;
mod learner;
mod paths;
mod phrases;
mod released;
mod review;
mod sample;
mod signing;
mod statements;
mod table;
mod timing;
mod told;
mod tutor_file;
mod unit_map;
mod verify;

pub use adjustment::{Adjustment, check_characters};
pub use assignment::{AnswersShown, Assignment, Counts, Hints, SetExercise, WallTime};
pub use bundle::{Bundle, BundlePart, BundledWork, Deciders, NamedParts, PartDigests};
pub use csv::{CsvFault, CsvTrouble};
pub use decision::{Decided, Decision, MarkGiven, MarkLayer, NotDecided, People, Release, StepComment};
pub use flag::Flag;
pub use gradebook::{FilledTable, GradebookColumns, NotFilled};
pub use hand_in::{CriterionEarned, Earned, FaultFound, HandIn, PathSays};
pub use learner::{Learner, LearnersWork, NoLearner, hand_in_name, seed_of};
pub use paths::PathMapping;
pub use phrases::{PHRASES, PhraseBank};
pub use released::{RELEASE_TITLE, ReleasePlan, layers_told, release_page, released_told, second_told};
pub use review::{ClassCriterion, ClassFault, HelpFirst, HelpNeed, PassedOver, Review, ReviewRow, Standing};
pub use sample::WhyChosen;
pub use signing::filled_in;
pub use statements::{Iri, StatementIds, statements};
pub use table::{FINDINGS_TITLE, TABLE_TITLE, long_table, wide_table};
pub use timing::OddTime;
pub use told::{REVIEW_COLUMNS, REVIEW_TITLE, ReviewWords, review_lines, review_page, review_words, terms, terms_for};
pub use unit_map::CriterionMap;
pub use verify::{Differs, Verified};
