//! The mark sheet as a person reads it, in lines.

use super::{
    Wording,
    consequence::would_have,
    finding::{Said, finding},
    keys::{cautions, outcome_key, outcome_means_key, weight_key},
};
use crate::{
    marking::{Consequence, Finding, Root, Sheet, done_well},
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

/// What only the report of one attempt tells; empty, it tells nothing more.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Story {
    /// For each finding the action of the log, from 0, with which it arose.
    pub moments: Vec<Option<usize>>,
    /// For each action when it was done, milliseconds since the beginning.
    pub times: Vec<u64>,
    /// For each finding that is a cause what would have happened.
    pub would_have: Vec<Option<Consequence>>,
}

impl Story {
    /// When a finding arose, in words.
    pub fn arose(&self, wording: &Wording, finding: usize) -> Option<String> {
        let action = self.moments.get(finding).copied().flatten()?;
        let number = (action + 1).to_string();
        let Some(seconds) = self.times.get(action).map(|it| it / 1000) else {
            return Some(wording.say("arose-at", &[("number", &number)]));
        };
        let (minutes, seconds) = ((seconds / 60).to_string(), (seconds % 60).to_string());
        Some(wording.say("arose-at-time", &[("number", &number), ("minutes", &minutes), ("seconds", &seconds)]))
    }

    /// What a finding would have led to, in words.
    pub fn would_have(&self, wording: &Wording, attempt: &Attempt, finding: usize) -> Option<String> {
        let it = self.would_have.get(finding)?.as_ref()?;
        Some(would_have(wording, attempt.work(), it))
    }
}

/// What was done well, a sentence each.
pub fn praise(wording: &Wording, attempt: &Attempt, sheet: &Sheet) -> Vec<String> {
    done_well(attempt, sheet).into_iter().map(|it| wording.say(&format!("well-{}", it.word()), &[])).collect()
}

/// The whole sheet, the cautions under it.
pub fn report(wording: &Wording, learner: &str, attempt: &Attempt, sheet: &Sheet) -> Vec<Line> {
    report_of_one(wording, learner, attempt, sheet, &Story::default())
}

/// The same with what is worked out for one attempt alone.
pub fn report_of_one(wording: &Wording, learner: &str, attempt: &Attempt, sheet: &Sheet, story: &Story) -> Vec<Line> {
    let plain = |text| Line { text, begins: None };
    let mut lines: Vec<Line> = heading(wording, learner, attempt, sheet).into_iter().map(plain).collect();
    lines.push(plain(String::new()));
    if sheet.findings.is_empty() {
        lines.push(plain(wording.say("report-nothing-found", &[])));
    }
    for (index, it) in sheet.findings.iter().enumerate() {
        let said = finding(wording, attempt.work(), it);
        let texts = one(wording, attempt, index, it, &said, story).into_iter().enumerate();
        lines.extend(texts.map(|(place, text)| Line { text, begins: (place == 0).then_some(index) }));
    }
    lines.push(plain(String::new()));
    let praise = praise(wording, attempt, sheet);
    if !praise.is_empty() {
        lines.push(plain(wording.say("report-well", &[])));
        lines.extend(praise.into_iter().map(|it| plain(format!("- {it}"))));
        lines.push(plain(String::new()));
    }
    lines.push(plain(wording.say("report-practice-record", &[])));
    lines.push(plain(wording.say("cautions-heading", &[])));
    lines.extend(cautions(wording).into_iter().map(|it| plain(format!("- {it}"))));
    lines
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
    lines.push(wording.say(outcome_means_key(sheet.outcome), &[]));
    if !sheet.handed_in {
        lines.push(wording.say("report-not-handed-in", &[]));
    }
    if sheet.credited_percent < 100 {
        lines.push(wording.say("report-half-wired", &[("percent", &sheet.credited_percent.to_string())]));
    }
    if sheet.hints > 0 {
        lines.push(wording.say("report-hints", &[("count", &sheet.hints.to_string())]));
    }
    for it in &sheet.criteria {
        let criterion = wording.say(&format!("criterion-{}", it.criterion.word()), &[]);
        let args =
            [("criterion", criterion.as_str()), ("marks", &it.marks.to_string()), ("out-of", &it.out_of.to_string())];
        lines.push(format!("  {}", wording.say("report-criterion", &args)));
    }
    lines
}

fn one(wording: &Wording, attempt: &Attempt, index: usize, found: &Finding, said: &Said, story: &Story) -> Vec<String> {
    let weight = wording.say(weight_key(found.weight), &[]);
    let (number, lost) = ((index + 1).to_string(), found.lost.to_string());
    let key = if found.lost > 0 { "report-finding-costs" } else { "report-finding" };
    let args = [("number", number.as_str()), ("weight", &weight), ("lost", &lost), ("what", &said.what)];
    let mut lines = vec![wording.say(key, &args)];
    if found.before && found.root == Root::Itself {
        lines.push(format!("   {}", wording.say("report-before", &[])));
    }
    let mut more = |key: &str, name: &str, text: &str| lines.push(format!("   {}", wording.say(key, &[(name, text)])));
    if let Root::Of(cause) = found.root {
        more("report-follows", "number", &(cause + 1).to_string());
        more("report-shown", "shown", &said.shown);
        return lines;
    }
    if let Some(harm) = &said.harm {
        more("report-harm", "harm", harm);
    }
    if let Some(what) = story.would_have(wording, attempt, index) {
        more("report-would-have", "what", &what);
    }
    more("report-shown", "shown", &said.shown);
    if let Some(arose) = story.arose(wording, index) {
        more("report-arose", "when", &arose);
    }
    if let Some(repair) = &said.repair {
        more("report-repair", "repair", repair);
    }
    more("report-reference", "reference", &said.reference);
    lines
}
