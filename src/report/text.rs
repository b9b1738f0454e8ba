//! The mark sheet as a person reads it, in lines.

use super::{positions::PositionTable, search::searched, story::Story};
use crate::{
    attempt::{Attempt, Format},
    exercise::Stage,
    marking::{CriterionMarks, Finding, Notice, Sheet, done_well},
    wording::{
        FindingWords, OutcomeWords, Wording, cautions, finding, follows, references_key, remarks, title, verdict,
    },
};

/// What was done well, a sentence each.
pub fn praise(wording: &Wording, attempt: &Attempt, sheet: &Sheet) -> Vec<String> {
    done_well(attempt, sheet).into_iter().map(|it| wording.say(&format!("well-{}", it.word()), &[])).collect()
}

/// What stands on a sheet beside the marks: facts of the file, from which no mark follows.
#[derive(Debug, Clone, Copy)]
pub struct About<'a> {
    /// Who did it.
    pub learner: &'a str,
    /// The digest of the file as it was handed in.
    pub receipt: Option<&'a str>,
    /// What is to be told of it.
    pub notices: &'a [Notice],
}

/// What is to be told of a file, a sentence each, as it stands on its sheet.
pub fn noticed(wording: &Wording, notices: &[Notice]) -> Vec<String> {
    notices.iter().map(|it| wording.say(&format!("notice-{}", it.word()), &[])).collect()
}

/// What an attempt's format had no actions for, and what counts instead.
pub fn of_format(wording: &Wording, attempt: &Attempt) -> Option<String> {
    let asked = attempt.work().exercise().asks(Stage::Isolation);
    (attempt.format() == Format::One && asked).then(|| wording.say("report-format-one", &[]))
}

/// The whole sheet in lines, the cautions under it.
pub fn report(wording: &Wording, about: &About<'_>, attempt: &Attempt, sheet: &Sheet, story: &Story) -> Vec<String> {
    let mut lines = heading(wording, about.learner, attempt, sheet);
    lines.extend(noticed(wording, about.notices));
    lines.push(String::new());
    if sheet.findings.is_empty() {
        lines.push(wording.say("report-nothing-found", &[]));
    }
    for (index, it) in sheet.findings.iter().enumerate() {
        let said = finding(wording, attempt.work(), it);
        lines.extend(one(wording, attempt, index, it, &said, story));
    }
    lines.push(String::new());
    let searched = searched(wording, attempt, sheet, story);
    if !searched.is_empty() {
        lines.push(wording.say("search-heading", &[]));
        lines.extend(searched.into_iter().map(|it| format!("- {it}")));
        lines.push(String::new());
    }
    lines.extend(positions(wording, attempt));
    let praise = praise(wording, attempt, sheet);
    if !praise.is_empty() {
        lines.push(wording.say("report-well", &[]));
        lines.extend(praise.into_iter().map(|it| format!("- {it}")));
        lines.push(String::new());
    }
    if let Some(receipt) = about.receipt {
        lines.push(wording.say("report-receipt", &[("receipt", receipt)]));
        lines.push(wording.say("report-receipt-code", &[("code", &receipt_code(receipt))]));
    }
    lines.push(wording.say(references_key(sheet.edition), &[]));
    lines.extend(of_format(wording, attempt));
    lines.push(wording.say("report-practice-record", &[]));
    lines.push(wording.say("cautions-heading", &[]));
    lines.extend(cautions(wording).into_iter().map(|it| format!("- {it}")));
    lines
}

/// Where the current goes in each position of the switches, with an empty line after it; nothing where there is no switch.
fn positions(wording: &Wording, attempt: &Attempt) -> Vec<String> {
    if attempt.work().exercise().switches.is_empty() {
        return Vec::new();
    }
    let PositionTable { lines, left_out } = PositionTable::of(wording, attempt.work());
    let heading = wording.say("way-table", &[]);
    let table = lines.into_iter().map(|it| format!("- {}: {}", it.stands, it.told));
    let more = (left_out > 0).then(|| wording.say("way-table-more", &[("count", &left_out.to_string())]));
    std::iter::once(heading).chain(table).chain(more).chain([String::new()]).collect()
}

fn heading(wording: &Wording, learner: &str, attempt: &Attempt, sheet: &Sheet) -> Vec<String> {
    let exercise = attempt.work().exercise();
    let names = [("learner", learner), ("title", exercise.title.as_str()), ("place", &exercise.place)];
    let OutcomeWords { headline, rule, more } = verdict(wording, attempt, sheet);
    let mut lines = vec![wording.say("report-for", &names), headline, rule];
    lines.extend(more);
    for it in &sheet.criteria {
        lines.push(format!("  {}", criterion_line(wording, it)));
    }
    lines
}

/// The short code of a receipt, to be read out and compared: the first twelve digits of the digest, in fours.
pub fn receipt_code(receipt: &str) -> String {
    let digits: Vec<char> = receipt.chars().take(12).collect();
    digits.chunks(4).map(|it| it.iter().collect::<String>()).collect::<Vec<_>>().join("-")
}

/// A criterion and its marks, on one line.
pub fn criterion_line(wording: &Wording, of: &CriterionMarks) -> String {
    let criterion = wording.say(&format!("criterion-{}", of.criterion.word()), &[]);
    let (marks, out_of, number) = (of.marks.to_string(), of.out_of.to_string(), of.not_awarded.to_string());
    let key = if of.not_awarded > 0 { "report-criterion-not-awarded" } else { "report-criterion" };
    let args = [("criterion", criterion.as_str()), ("marks", &marks), ("out-of", &out_of), ("number", &number)];
    wording.say(key, &args)
}

fn one(
    wording: &Wording,
    attempt: &Attempt,
    index: usize,
    found: &Finding,
    said: &FindingWords,
    story: &Story,
) -> Vec<String> {
    let mut lines = vec![title(wording, index, found, said)];
    lines.extend(remarks(wording, found).map(|it| format!("   {it}")));
    let follows = follows(wording, found);
    lines.extend(follows.iter().map(|it| format!("   {it}")));
    let mut more = |key: &str, name: &str, text: &str| lines.push(format!("   {}", wording.say(key, &[(name, text)])));
    if follows.is_some() {
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
    if let Some(figures) = Story::figures(wording, attempt, found) {
        more("report-figures", "figures", &figures);
    }
    if let Some(arose) = story.arose(wording, index) {
        more("report-arose", "when", &arose);
    }
    if let Some(counted) = story.counted(wording, attempt, found) {
        more("report-counted", "counted", &counted);
    }
    if let Some(repair) = &said.repair {
        more("report-repair", "repair", repair);
    }
    more("report-reference", "reference", &said.reference);
    lines
}
