//! How it went, in words: the outcome with its marks, the whole rule of a pass, and what there is to say of either.

use super::{
    Wording,
    keys::{outcome_key, outcome_means_key},
};
use crate::{
    marking::{Outcome, Sheet, was_safe},
    work::Attempt,
};

/// What is said of an outcome.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Verdict {
    /// The outcome and the marks, in one line.
    pub headline: String,
    /// The rule of a pass.
    pub rule: String,
    /// What else there is to say, a line each.
    pub more: Vec<String>,
}

/// The outcome and the marks, in one line.
pub fn headline(wording: &Wording, sheet: &Sheet) -> String {
    let outcome = wording.say(outcome_key(sheet.outcome), &[]);
    let (marks, out_of) = (sheet.marks.to_string(), sheet.out_of.to_string());
    wording.say("report-outcome", &[("outcome", &outcome), ("marks", &marks), ("out-of", &out_of)])
}

/// Says how an attempt went.
pub fn verdict(wording: &Wording, attempt: &Attempt, sheet: &Sheet) -> Verdict {
    let exercise = attempt.work().exercise();
    let (needed, out_of) = (sheet.needed(exercise).to_string(), sheet.out_of.to_string());
    let means = if sheet.outcome == Outcome::Pass && !was_safe(attempt) {
        "means-pass-after-a-stop"
    } else {
        outcome_means_key(sheet.outcome)
    };
    let mut more = vec![wording.say(means, &[])];
    if !sheet.handed_in {
        more.push(wording.say("report-not-handed-in", &[]));
    }
    if sheet.credited_percent < 100 {
        more.push(wording.say("report-half-wired", &[("percent", &sheet.credited_percent.to_string())]));
    }
    if sheet.hints > 0 {
        more.push(wording.say("report-hints", &[("count", &sheet.hints.to_string())]));
    }
    Verdict {
        headline: headline(wording, sheet),
        rule: wording.say("report-needs", &[("needed", &needed), ("out-of", &out_of)]),
        more,
    }
}
