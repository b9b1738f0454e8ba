//! The mark sheet as a person reads it, in lines.

use super::{
    Wording,
    consequence::would_have,
    finding::{Said, finding},
    keys::{cautions, outcome_key, weight_key},
    outcome::list,
};
use crate::{
    marking::{Criterion, Finding, Review, Root, Sheet, Well},
    work::Attempt,
};

/// A line of the sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// What it says.
    pub text: String,
    /// The finding, by its place on the sheet, that begins here.
    pub begins: Option<usize>,
}

/// What is said beside a sheet: the review, and for each action of the log its milliseconds of work.
#[derive(Debug, Clone, Copy)]
struct Beside<'a> {
    review: &'a Review,
    times: &'a [u64],
}

/// The whole sheet, the cautions under it.
pub fn report(wording: &Wording, learner: &str, attempt: &Attempt, sheet: &Sheet) -> Vec<Line> {
    lines(wording, learner, attempt, sheet, None)
}

/// The same with what was done well, when each finding arose and what it would have led to. `times` has for each action of
/// the log the milliseconds of work up to it; where it has none, the step alone is said.
pub fn report_in_full(
    wording: &Wording,
    learner: &str,
    attempt: &Attempt,
    sheet: &Sheet,
    review: &Review,
    times: &[u64],
) -> Vec<Line> {
    lines(wording, learner, attempt, sheet, Some(Beside { review, times }))
}

fn lines(wording: &Wording, learner: &str, attempt: &Attempt, sheet: &Sheet, beside: Option<Beside<'_>>) -> Vec<Line> {
    let plain = |text| Line { text, begins: None };
    let mut lines: Vec<Line> = heading(wording, learner, attempt, sheet).into_iter().map(plain).collect();
    if let Some(it) = beside.map(|it| &it.review.well).filter(|it| !it.is_empty()) {
        lines.push(plain(String::new()));
        lines.push(plain(wording.say("report-well", &[])));
        lines.extend(well(wording, it).into_iter().map(|it| plain(format!("- {it}"))));
    }
    lines.push(plain(String::new()));
    if sheet.findings.is_empty() {
        lines.push(plain(wording.say("report-nothing-found", &[])));
    }
    for (index, it) in sheet.findings.iter().enumerate() {
        let said = finding(wording, attempt.work(), it);
        let mut texts = one(wording, index + 1, it, &said);
        texts.extend(beside.iter().flat_map(|it| more(wording, attempt, it, index)));
        let texts = texts.into_iter().enumerate();
        lines.extend(texts.map(|(place, text)| Line { text, begins: (place == 0).then_some(index) }));
    }
    lines.push(plain(String::new()));
    lines.push(plain(wording.say("report-practice-record", &[])));
    lines.push(plain(wording.say("cautions-heading", &[])));
    lines.extend(cautions(wording).into_iter().map(|it| plain(format!("- {it}"))));
    lines
}

/// What the review has to say of a finding.
fn more(wording: &Wording, attempt: &Attempt, beside: &Beside<'_>, index: usize) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(action) = beside.review.arose.get(index).copied().flatten() {
        let when = arose(wording, action, beside.times);
        lines.push(format!("   {}", wording.say("report-arose", &[("when", &when)])));
    }
    if let Some(it) = beside.review.would_have.get(index).and_then(Option::as_ref) {
        let what = would_have(wording, attempt.work(), it);
        lines.push(format!("   {}", wording.say("report-would-have", &[("what", &what)])));
    }
    lines
}

/// The moment of an action, from 0, in words.
pub fn arose(wording: &Wording, action: usize, times: &[u64]) -> String {
    let number = (action + 1).to_string();
    let Some(ms) = times.get(action) else { return wording.say("shown-in-action", &[("number", &number)]) };
    let (minutes, seconds) = ((ms / 60_000).to_string(), (ms / 1000 % 60).to_string());
    wording.say("arose-at", &[("number", &number), ("minutes", &minutes), ("seconds", &seconds)])
}

/// The name of a criterion.
pub fn criterion(wording: &Wording, of: Criterion) -> String {
    wording.say(&format!("criterion-{}", of.word()), &[])
}

/// What was done well, a sentence each; criteria that lost nothing in one.
pub fn well(wording: &Wording, of: &[Well]) -> Vec<String> {
    let mut whole = Vec::new();
    let mut said = Vec::new();
    for it in of {
        let key = match it {
            Well::Whole(it) => {
                whole.push(criterion(wording, *it));
                continue;
            }
            Well::LockedFirst => "well-locked-first",
            Well::ProvedTwice => "well-proved-twice",
            Well::NothingUnsafe => "well-nothing-unsafe",
            Well::Checked => "well-checked",
            Well::HeldAtOnce => "well-held-at-once",
            Well::Pulled => "well-pulled",
            Well::Reported => "well-reported",
        };
        said.push(wording.say(key, &[]));
    }
    if !whole.is_empty() {
        said.insert(0, wording.say("well-whole", &[("criteria", &list(wording, &whole))]));
    }
    said
}

fn heading(wording: &Wording, learner: &str, attempt: &Attempt, sheet: &Sheet) -> Vec<String> {
    let exercise = attempt.work().exercise();
    let (marks, out_of) = (sheet.marks.to_string(), sheet.out_of.to_string());
    let needed = (exercise.pass_mark * sheet.out_of).div_ceil(100).to_string();
    let outcome = wording.say(outcome_key(sheet.outcome), &[]);
    let mut lines = vec![
        wording.say("report-for", &[("learner", learner), ("title", &exercise.title), ("place", &exercise.place)]),
        wording.say("report-outcome", &[("outcome", &outcome), ("marks", &marks), ("out-of", &out_of)]),
        wording.say("report-needs", &[("needed", &needed), ("out-of", &out_of)]),
    ];
    if !sheet.handed_in {
        lines.push(wording.say("report-not-handed-in", &[]));
    }
    if sheet.credited_percent < 100 {
        lines.push(wording.say("report-half-wired", &[("percent", &sheet.credited_percent.to_string())]));
    }
    for it in &sheet.criteria {
        let criterion = criterion(wording, it.criterion);
        let args =
            [("criterion", criterion.as_str()), ("marks", &it.marks.to_string()), ("out-of", &it.out_of.to_string())];
        lines.push(format!("  {}", wording.say("report-criterion", &args)));
    }
    lines
}

fn one(wording: &Wording, number: usize, found: &Finding, said: &Said) -> Vec<String> {
    let weight = wording.say(weight_key(found.weight), &[]);
    let (number, lost) = (number.to_string(), found.lost.to_string());
    let key = if found.lost > 0 { "report-finding-costs" } else { "report-finding" };
    let args = [("number", number.as_str()), ("weight", &weight), ("lost", &lost), ("what", &said.what)];
    let mut lines = vec![wording.say(key, &args)];
    let mut more = |key: &str, name: &str, text: &str| lines.push(format!("   {}", wording.say(key, &[(name, text)])));
    if let Root::Of(cause) = found.root {
        more("report-follows", "number", &(cause + 1).to_string());
        more("report-shown", "shown", &said.shown);
        return lines;
    }
    if let Some(harm) = &said.harm {
        more("report-harm", "harm", harm);
    }
    more("report-shown", "shown", &said.shown);
    if let Some(repair) = &said.repair {
        more("report-repair", "repair", repair);
    }
    more("report-reference", "reference", &said.reference);
    lines
}
