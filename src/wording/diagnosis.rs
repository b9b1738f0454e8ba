//! A fault that an installation may have, in words.

use super::{Wording, keys::suspect_key, place};
use crate::{exercise::Suspect, work::Work};

/// What is wrong where, as a part of a sentence; of the work only its addresses are asked.
pub fn suspect(wording: &Wording, work: &Work, suspect: &Suspect) -> String {
    let at = |index: usize| suspect.at.get(index).map(|it| place(wording, work, it)).unwrap_or_default();
    wording.say(suspect_key(suspect.kind), &[("place", &at(0)), ("other", &at(1))])
}
