//! What a tutor is told of an attempt's file besides its marks. No mark follows from it: a file that was made by a
//! program, or of an exercise that nobody here knows, is marked like any other, and whoever signs is told.

use super::{
    VERSION,
    answers::{Answers, Until},
};
use crate::{
    attempt::{Line, Opened},
    exercise::AtHand,
};

/// Something that a tutor is told of a file.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, strum::VariantNames, strum::IntoStaticStr, strum::VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Notice {
    /// Its exercise is not what the scenario at hand gives.
    #[strum(serialize = "exercise-different")]
    Different,
    /// No scenario of its id is at hand.
    #[strum(serialize = "exercise-unknown")]
    Unknown,
    /// It was begun under another version of the marking.
    OtherVersion,
    /// Set work, shown before it is handed in.
    Unfinished,
    /// Set work whose answers are not for its learner yet, shown all the same.
    Unreleased,
    /// Its times run backwards.
    #[strum(serialize = "times-backwards")]
    Backwards,
    /// Its times are all alike.
    #[strum(serialize = "times-alike")]
    Alike,
    /// Its times are closer together than any hand could work.
    #[strum(serialize = "times-too-quick")]
    Quick,
}

/// This many actions at one instant are no accident. One press in the window can be two or three (our assumption).
const ALIKE: usize = 8;
/// This many actions within [`QUICK_MS`] are too quick for a hand, for the same reason.
const QUICK: usize = 20;
/// Milliseconds.
const QUICK_MS: u64 = 1000;

impl Notice {
    /// Every kind.
    pub const ALL: &[Self] = <Self as strum::VariantArray>::VARIANTS;

    /// The word for machines, and in the keys of its sentences.
    pub fn word(self) -> &'static str {
        self.into()
    }
}

/// What a tutor is told of a file whose answers are shown in this way.
pub fn notices(opened: &Opened, at_hand: AtHand, shown: &Answers) -> Vec<Notice> {
    let exercise = match at_hand {
        AtHand::Same => None,
        AtHand::Different => Some(Notice::Different),
        AtHand::Unknown => Some(Notice::Unknown),
    };
    let version = (opened.header.marking != VERSION).then_some(Notice::OtherVersion);
    exercise.into_iter().chain(version).chain(early(shown)).chain(times(opened)).collect()
}

/// What is told where answers are shown before their time.
pub const fn early(shown: &Answers) -> Option<Notice> {
    match shown {
        Answers::ShownEarly(Until::HandIn) => Some(Notice::Unfinished),
        Answers::ShownEarly(Until::Time(_) | Until::Release) => Some(Notice::Unreleased),
        Answers::Shown | Answers::Withheld(_) => None,
    }
}

/// What is odd about the times: the gravest alone. They begin afresh each time the file is opened.
fn times(opened: &Opened) -> Option<Notice> {
    let time = |(_, line): &(_, Line)| match line {
        Line::Did { ms, .. } => Some(*ms),
        Line::Opened { .. } => None,
    };
    let sittings = opened.lines.split(|it| time(it).is_none());
    let sittings: Vec<Vec<u64>> = sittings.map(|it| it.iter().filter_map(time).collect()).collect();
    let any = |of: &dyn Fn(&[u64]) -> bool| sittings.iter().any(|it| of(it));
    if any(&|it| !it.is_sorted()) {
        Some(Notice::Backwards)
    } else if any(&|it| it.len() >= ALIKE && it.first() == it.last()) {
        Some(Notice::Alike)
    } else if any(&|times| times.windows(QUICK).any(|few| few[QUICK - 1] - few[0] < QUICK_MS)) {
        Some(Notice::Quick)
    } else {
        None
    }
}
