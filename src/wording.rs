//! Every sentence that a learner, a tutor or a householder reads, by key from catalogues in `assets/wording`.
//!
//! Sentences live in the catalogues and nowhere else; the code here finds the key and fills in the places. Addresses,
//! digests, seeds and position numbers become words. This room judges nothing and prints nothing.

mod case;
mod catalogue;
mod clean;
mod diagnosis;
mod did;
mod doubt;
mod finding;
mod flow;
mod glossary;
mod keys;
mod lacks;
mod outcome;
mod place;
mod reading;
mod trouble;
mod verdict;
mod vocabulary;
mod when;
mod why;

pub use case::{row, witness};
pub use catalogue::{Lacking, Wording};
pub use clean::{clean, cleaned};
pub use diagnosis::{suspect, taken};
pub use did::did;
pub use doubt::doubt;
pub use finding::{FindingWords, finding, follows, guidance, hint, next_join, remarks, title};
pub use flow::{hand, hand_in_short, loop_leg, milliamps, way_in_short, ways};
pub use glossary::{DEPTHS, GlossaryEntry, glossary, words_in};
pub use keys::{
    ACT_KEYS, CABLE_KEYS, CARRIES_KEYS, CHECK_KEYS, EDITION_KEYS, FAULT_KEYS, FLAW_KEYS, GLOW_KEYS, HAZARD_KEYS,
    LAID_KEYS, OUTCOME_KEYS, OUTCOME_MEANS_KEYS, POWER_KEYS, REASON_KEYS, REFERENCES_KEYS, STAGE_KEYS, SUSPECT_KEYS,
    TEST_KEYS, WEIGHT_KEYS, act_key, cable, cable_key, cautions, check_key, colour, edition_key, fault_key, flaw_key,
    glow_key, hazard_key, laid_key, mark, outcome_key, outcome_means_key, power_key, reason_key, references_key,
    stage_key, test_key, weight_key,
};
pub use lacks::lacks;
pub use outcome::{apart, happened, list, ohms, volts};
pub use place::{
    cable_at, called, conductor, device, device_in_full, end, lamp, place, position, subject, switch, terminal,
};
pub use reading::{card_figure, figure as figure_shown, figure_written, outside, reading, shown, unit, written};
pub use trouble::{help, problem, problem_without_help, refused};
pub use verdict::{OutcomeWords, headline, verdict};
pub use vocabulary::{Vocabulary, vocabulary};
pub use when::when;
pub use why::{WhyLine, WhyWords, grid_sentence, try_sentence, way_class, why_words};
