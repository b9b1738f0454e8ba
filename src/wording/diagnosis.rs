//! A fault that an installation may have, and a reading that was taken to find it, in words.

use super::{Wording, keys::suspect_key, place, shown, subject};
use crate::{attempt::TakenReading, exercise::Suspect, work::Work};

/// What is wrong where, as a part of a sentence; of the work only its addresses are asked.
pub fn suspect(wording: &Wording, work: &Work, suspect: &Suspect) -> String {
    let at = |index: usize| suspect.at.get(index).map(|it| place(wording, work, it)).unwrap_or_default();
    wording.say(suspect_key(suspect.kind), &[("place", &at(0)), ("other", &at(1))])
}

/// A reading that was taken to find a fault, with its number among them: from where to where, and what it showed.
pub fn taken(wording: &Wording, number: usize, taken: &TakenReading) -> String {
    let work = &taken.work;
    let [a, b] = taken.points.map(|it| subject(wording, work, work.subject_at(it)));
    let (number, read) = (number.to_string(), shown(wording, &taken.shown));
    wording.say("search-reading", &[("number", &number), ("place", &a), ("other", &b), ("read", &read)])
}
