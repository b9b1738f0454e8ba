//! How it went, in words: the outcome with its marks, the whole pass rule, and what else there is to say.

use super::{
    Wording,
    keys::{flaw_key, outcome_key, outcome_means_key},
    outcome::{apart, list},
    place::{place_of, subject},
};
use crate::{
    attempt::{Attempt, Observed},
    marking::{Bar, Code, Criterion, Finding, Outcome, Seen, Sheet, Unmet, was_safe},
    work::Work,
};

/// What is said of an outcome.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OutcomeWords {
    /// The outcome and the marks, in one line.
    pub headline: String,
    /// The rule of a pass.
    pub rule: String,
    /// What else there is to say, a line each.
    pub more: Vec<String>,
}

/// The outcome, the marks, and the gravest line of the pass rule that was not met, in one line.
pub fn headline(wording: &Wording, work: &Work, sheet: &Sheet) -> String {
    let outcome = wording.say(outcome_key(sheet.outcome), &[]);
    let (marks, out_of) = (sheet.marks.to_string(), sheet.out_of.to_string());
    let mut args = vec![("outcome", outcome.as_str()), ("marks", &marks), ("out-of", &out_of)];
    match sheet.unmet.first().map(|it| unmet(wording, work, sheet, *it)) {
        Some(it) => {
            args.push(("unmet", &it));
            wording.say("report-outcome-unmet", &args)
        }
        None => wording.say("report-outcome", &args),
    }
}

/// Says how an attempt went.
pub fn verdict(wording: &Wording, attempt: &Attempt, sheet: &Sheet) -> OutcomeWords {
    let work = attempt.work();
    let mut more = Vec::new();
    let others = others(wording, work, sheet);
    if !others.is_empty() {
        more.push(wording.say("report-unmet-too", &[("unmet", &apart(wording, &others))]));
    }
    let is_act = |it: &Unmet| matches!(it, Unmet::CriticalAct(_));
    let is_inspected = work.exercise().is_inspected();
    let means = match sheet.outcome {
        Outcome::Pass if is_inspected && was_safe(attempt) => "means-pass-inspected",
        Outcome::NotYet if is_inspected && !sheet.unmet.iter().any(Unmet::is_hazard) => "means-not-yet-inspected",
        Outcome::Pass if !was_safe(attempt) => "means-pass-after-a-stop",
        Outcome::NotYet if sheet.unmet.iter().any(is_act) => "means-not-yet-after-an-act",
        Outcome::NotYet if sheet.unmet.iter().any(Unmet::is_hazard) => "means-not-yet-hazard",
        outcome => outcome_means_key(outcome),
    };
    more.push(wording.say(means, &[]));
    if sheet.credited_percent < 100 {
        more.push(wording.say("report-half-wired", &[("percent", &sheet.credited_percent.to_string())]));
    }
    if sheet.sought_no_further {
        more.push(wording.say("report-sought-no-further", &[]));
    }
    let found = found(wording, attempt, sheet);
    if !found.is_empty() {
        more.push(wording.say("report-observed", &[("observed", &apart(wording, &found))]));
    }
    if sheet.hints > 0 {
        more.push(wording.say("report-hints", &[("count", &sheet.hints.to_string())]));
    }
    OutcomeWords { headline: headline(wording, work, sheet), rule: rule(wording, work, sheet), more }
}

/// The observations that were right, in words.
fn found(wording: &Wording, attempt: &Attempt, sheet: &Sheet) -> Vec<String> {
    let is_wrong = |action: usize| sheet.findings.iter().any(|it| it.seen == Seen::InAction(action));
    let right = attempt.tally().observed.iter().filter(|it| !is_wrong(it.action));
    let said = |it: &Observed| {
        let (flaw, place) = (wording.say(flaw_key(it.what), &[]), subject(wording, attempt.work(), it.at));
        wording.say("report-observation", &[("flaw", &flaw), ("place", &place)])
    };
    right.map(said).collect()
}

/// Every line of the rule that was not met but the first, with all that is critical of one kind in one line.
fn others(wording: &Wording, work: &Work, sheet: &Sheet) -> Vec<String> {
    let rest = sheet.unmet.get(1..).unwrap_or_default();
    let mut said: Vec<String> = Vec::new();
    for alike in rest.chunk_by(|a, b| a.word() == b.word()) {
        let is_critical = matches!(alike[0], Unmet::Critical(_) | Unmet::CriticalAct(_));
        if is_critical && alike.len() > 1 {
            let numbers = alike.iter().filter_map(|it| it.finding()).map(|it| (it + 1).to_string());
            let numbers = list(wording, &numbers.collect::<Vec<_>>());
            said.push(wording.say(&format!("unmet-{}-several", alike[0].word()), &[("numbers", &numbers)]));
        } else {
            said.extend(alike.iter().map(|it| unmet(wording, work, sheet, *it)));
        }
    }
    said
}

/// The whole rule of a pass.
fn rule(wording: &Wording, work: &Work, sheet: &Sheet) -> String {
    let (needed, out_of) = (sheet.needed(work.exercise()).to_string(), sheet.out_of.to_string());
    let halves: Vec<String> =
        sheet.criteria.iter().filter(|it| it.half_needed).map(|it| criterion(wording, it.criterion)).collect();
    let bars: Vec<String> = Bar::ALL.iter().map(|it| wording.say(&format!("bar-{}", it.word()), &[])).collect();
    let args = [
        ("needed", needed.as_str()),
        ("out-of", &out_of),
        ("criteria", &list(wording, &halves)),
        ("bars", &apart(wording, &bars)),
    ];
    wording.say(if halves.is_empty() { "report-needs" } else { "report-needs-halves" }, &args)
}

fn criterion(wording: &Wording, of: Criterion) -> String {
    wording.say(&format!("criterion-{}", of.word()), &[])
}

/// A line of the rule that was not met.
fn unmet(wording: &Wording, work: &Work, sheet: &Sheet, of: Unmet) -> String {
    let about = of.finding().and_then(|it| Some((it, sheet.findings.get(it)?)));
    let number = about.map_or(String::new(), |(index, _)| (index + 1).to_string());
    let place = about.map_or(String::new(), |(_, it)| subject(wording, work, it.at));
    match of {
        Unmet::Bar(bar, _) => {
            let location = about.map_or(String::new(), |(_, it)| place_of(work, it.at));
            let key = match (bar, about) {
                (Bar::Loose, Some((_, Finding { about, .. }))) => format!("unmet-loose-{about}"),
                _ => format!("unmet-{}", bar.word()),
            };
            wording.say(&key, &[("place", &place), ("location", &location)])
        }
        Unmet::Half(of) => {
            let line = sheet.criteria.iter().find(|it| it.criterion == of);
            let (marks, out_of) = line.map_or((0, 0), |it| (it.marks, it.out_of));
            let (marks, out_of, criterion) = (marks.to_string(), out_of.to_string(), criterion(wording, of));
            wording.say("unmet-half", &[("criterion", &criterion), ("marks", &marks), ("out-of", &out_of)])
        }
        Unmet::Left(_) => {
            let is_lock = about.is_some_and(|(_, it)| it.code == Code::LockLeftOn);
            wording.say(if is_lock { "unmet-left-lock" } else { "unmet-left-lamp" }, &[("place", &place)])
        }
        Unmet::Marks => wording.say("unmet-marks", &[("needed", &sheet.needed(work.exercise()).to_string())]),
        _ => wording.say(&format!("unmet-{}", of.word()), &[("number", &number), ("place", &place)]),
    }
}
