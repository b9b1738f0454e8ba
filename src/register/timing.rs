//! When work was begun and handed in, beside when it opens and is due; when its answers are shown. Flags, never judgements: the times are those of the
//! learner's machine.

use jiff::Timestamp;

use super::{
    adjustment::Adjustment,
    assignment::{AnswersShown, Assignment},
};
use crate::attempt::AnswersFrom;

/// What is odd about the time of a piece of work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, strum::IntoStaticStr, strum::VariantArray)]
#[strum(serialize_all = "kebab-case")]
pub enum OddTime {
    /// It was begun before the assignment opens.
    BeforeOpens,
    /// It came after it was due.
    AfterDue,
    /// It came after the last date.
    AfterLast,
}

words!(OddTime);

impl Assignment {
    /// What is odd about work that was begun and handed in at these times, by a learner of that adjustment; each with the time
    /// that was set, extra time and all. Of two that are late the later one alone. What has no time is not odd.
    pub fn odd_times(
        &self,
        begun: Option<Timestamp>,
        handed_in: Option<Timestamp>,
        adjustment: Adjustment,
    ) -> Vec<(OddTime, String)> {
        let early = self.opens.as_ref().filter(|it| begun.is_some_and(|begun| begun < it.at()));
        let early = early.map(|it| (OddTime::BeforeOpens, it.to_string()));
        let late =
            [(OddTime::AfterLast, &self.last), (OddTime::AfterDue, &self.due)].into_iter().find_map(|(odd, set)| {
                let until = set.as_ref()?.later(adjustment.minutes())?;
                (handed_in? > until.at()).then(|| (odd, until.to_string()))
            });
        early.into_iter().chain(late).collect()
    }

    /// From when on the answers are for a learner of that adjustment. What is due at no time is as good as to be released.
    pub fn answers_from(&self, adjustment: Adjustment) -> AnswersFrom {
        let due = self.due.as_ref().and_then(|it| it.later(adjustment.minutes()));
        match (self.answers, due) {
            (AnswersShown::AtOnce, _) => AnswersFrom::HandIn,
            (AnswersShown::AfterDue, Some(due)) => AnswersFrom::Time(due.to_string()),
            (AnswersShown::AfterDue, None) | (AnswersShown::Released, _) => AnswersFrom::Release,
        }
    }

    /// Whether there is time left at that moment for a learner with so many extra minutes: until it is due, or, if that is not said, until the last date.
    /// Without either there is nothing to wait for.
    pub fn has_time_left(&self, now: Timestamp, minutes: u32) -> bool {
        let until = self.due.as_ref().or(self.last.as_ref()).and_then(|it| it.later(minutes));
        until.is_some_and(|it| now <= it.at())
    }
}
