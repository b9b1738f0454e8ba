//! A review as tables for other programs: a learner a row, and a finding a row.
//!
//! RFC 4180 with a byte order mark, so that spreadsheet programs take it for UTF-8; times in ISO 8601. A cell that such a
//! program would take for a formula begins with an apostrophe.

use super::{
    assignment::Assignment,
    csv::line,
    decision::{Decided, MarkLayer},
    flag::Flag,
    hand_in::HandIn,
    review::{Review, ReviewRow},
};

/// What the table of learners begins with, and by which it is known again.
pub const TABLE_TITLE: &str = "\u{feff}assignment,group,learner";

/// What the table of findings begins with.
pub const FINDINGS_TITLE: &str = "\u{feff}assignment,group,exercise";

/// Said beside every figure.
const RECORD: &str = "record";

/// The outcome of a unit.
const OUTCOME: &str = "unit_outcome";

fn flags(of: &HandIn) -> String {
    of.flags.iter().map(|it| it.word()).collect::<Vec<_>>().join(" ")
}

/// A learner a row. With several exercises each has columns of its own, its id before their names. A criterion that the tutor's map has an
/// outcome for has it in the column after its marks. `record`: the sentence that says what this is a record of.
pub fn wide_table(assignment: &Assignment, review: &Review, record: &str) -> String {
    const COLUMNS: [&str; 18] = [
        "standing",
        "outcome",
        "marks",
        "out_of",
        "try",
        "files",
        "handed_in_at",
        "late",
        "extra_minutes",
        "draw",
        "active_minutes",
        "hints",
        "receipt",
        "decided_outcome",
        "decided_marks",
        "decided_by",
        "released_at",
        "flags",
    ];
    let several = assignment.exercises.len() > 1;
    let ids = || assignment.exercises.iter().map(|it| it.scenario.id.as_str());
    let criteria =
        |id: &str| -> Vec<&str> { review.criteria.iter().filter(|it| it.exercise == id).map(|it| it.name).collect() };
    let outcome = |criterion: &str| Some(review.unit_map.as_ref()?.outcome(criterion)?.to_owned());
    let mut header: Vec<String> = Vec::new();
    for id in ids() {
        let named = |it: &str| if several { format!("{id} {it}") } else { it.to_owned() };
        header.extend(COLUMNS.iter().map(|it| named(it)));
        for it in criteria(id) {
            header.push(named(it));
            header.extend(outcome(it).map(|_| named(&format!("{it} {OUTCOME}"))));
        }
    }
    let mut text = format!("{TABLE_TITLE},{}", line(header.into_iter().chain([RECORD.to_owned()])));
    // Rows stand as the roster does, and a learner's as the exercises do.
    for rows in review.rows.chunks(assignment.exercises.len().max(1)) {
        let Some(first) = rows.first() else { continue };
        let mut cells = vec![assignment.id.clone(), assignment.group.clone(), first.learner.to_string()];
        for row in rows {
            cells.extend(standing(row));
            let earned = row.counting().map(|it| &it.1.criteria);
            for name in criteria(&row.exercise) {
                let found = earned.and_then(|all| all.iter().find(|it| it.name == name));
                cells.push(found.map_or_else(String::new, |it| it.marks.to_string()));
                cells.extend(outcome(name));
            }
        }
        text += &line(cells.into_iter().chain([record.to_owned()]));
    }
    text
}

fn standing(row: &ReviewRow) -> [String; 18] {
    let counting = row.counting();
    let file = |of: &dyn Fn(&HandIn) -> String| counting.map_or_else(String::new, |it| of(it.0));
    let earned = |of: &dyn Fn(&super::hand_in::Earned) -> String| counting.map_or_else(String::new, |it| of(it.1));
    let decided = counting.map(|it| Decided::of(it.1, &it.0.people.decisions));
    let all: Vec<String> = row.files.iter().map(flags).filter(|it| !it.is_empty()).collect();
    [
        row.standing.word().to_owned(),
        earned(&|it| it.outcome.to_owned()),
        earned(&|it| it.marks.to_string()),
        earned(&|it| it.out_of.to_string()),
        file(&|it| it.nth.to_string()),
        row.files.len().to_string(),
        file(&|it| it.handed_in_at.clone().unwrap_or_default()),
        file(&|it| it.has(Flag::Late).to_string()),
        file(&|it| it.extra_minutes.to_string()),
        file(&|it| it.draw.to_string()),
        file(&|it| (it.active_ms / 60_000).to_string()),
        earned(&|it| it.hints.to_string()),
        file(&|it| it.receipt.clone().unwrap_or_default()),
        decided.map_or_else(String::new, |it| it.given.outcome.to_owned()),
        decided.map_or_else(String::new, |it| it.given.marks.to_string()),
        decided.map_or_else(String::new, |it| it.by.map_or("machine", MarkLayer::word).to_owned()),
        file(&|it| it.people.released().map_or_else(String::new, |it| it.at.clone())),
        all.join("; "),
    ]
}

/// A finding a row, of every file that was marked; `counts` says whether the file is the one that counts.
pub fn long_table(assignment: &Assignment, review: &Review, record: &str) -> String {
    let header = ["learner", "try", "file", "counts", "code", "at", "weight", "lost", "what"];
    let map = review.unit_map.as_ref();
    let header = header.into_iter().chain(map.map(|_| OUTCOME)).chain([RECORD]);
    let mut text = format!("{FINDINGS_TITLE},{}", line(header.map(str::to_owned)));
    for row in &review.rows {
        for (index, file) in row.files.iter().enumerate() {
            for it in file.earned.iter().flat_map(|it| &it.faults) {
                let counts = row.counts == Some(index);
                let cells = [
                    assignment.id.clone(),
                    assignment.group.clone(),
                    row.exercise.clone(),
                    row.learner.to_string(),
                    file.nth.to_string(),
                    file.file.clone(),
                    counts.to_string(),
                    it.code.to_owned(),
                    it.at.clone(),
                    it.weight.to_owned(),
                    it.lost.to_string(),
                    it.what.clone(),
                ];
                let outcome = map.map(|map| map.of_finding(it.code).unwrap_or_default().to_owned());
                text += &line(cells.into_iter().chain(outcome).chain([record.to_owned()]));
            }
        }
    }
    text
}
