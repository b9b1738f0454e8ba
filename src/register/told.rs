//! A review told: in lines for a terminal, and as one page.

use maud::{Markup, html};

use super::{
    adjustment::Adjustment,
    assignment::Assignment,
    decision::Decided,
    flag::Flag,
    hand_in::HandIn,
    released::beside,
    review::{HelpNeed, PassedOver, Review, ReviewRow, Standing},
};
use crate::{
    report::{Clean, document},
    wording::{Wording, when},
};

/// How every page of a review begins, and by which it is known again.
pub const REVIEW_TITLE: &str = "<!DOCTYPE html>\n<!-- Switchdrop review -->\n";

/// Columns of the table of learners, by the keys of their names.
pub const REVIEW_COLUMNS: [&str; 7] = [
    "review-learner",
    "review-exercise",
    "review-standing",
    "review-outcome",
    "review-marks",
    "review-minutes",
    "review-remarks",
];

/// Everything that is told of a review, in words.
#[derive(Debug)]
pub struct ReviewWords {
    /// The assignment and its group.
    pub heading: String,
    /// How much of everything there is.
    pub summary: String,
    /// A row of the table for each row of the review, in its order; the columns are [`REVIEW_COLUMNS`].
    pub rows: Vec<[String; 7]>,
    /// Files that are nobody's, a line each.
    pub strays: Vec<String>,
    /// Marks by criterion, in the review's order.
    pub criteria: Vec<String>,
    /// What the class gets wrong, in the review's order.
    pub faults: Vec<String>,
    /// Who needs help, in the order of [`Review::help_first`].
    pub help: Vec<String>,
    /// Files that nobody looked into.
    pub passed_over: Vec<String>,
    /// What this is a record of, and what it is not.
    pub record: String,
}

/// Says a review in words.
pub fn review_words(wording: &Wording, assignment: &Assignment, review: &Review) -> ReviewWords {
    let several = assignment.exercises.len() > 1;
    let at = |exercise: &str| if several { format!("{exercise}: ") } else { String::new() };
    let count = |it| review.count(it).to_string();
    let look = review.files().filter(|it| it.flags.iter().any(|flag| flag.asks_for_a_look())).count().to_string();
    let learners = assignment.learners.len().to_string();
    let named = [("id", assignment.id.as_str()), ("title", &assignment.title), ("group", &assignment.group)];
    let counts = [
        ("rows", review.rows.len().to_string()),
        ("in", count(Standing::HandedIn)),
        ("late", count(Standing::Late)),
        ("begun", count(Standing::Begun)),
        ("unclear", count(Standing::Unclear)),
        ("not-due", count(Standing::NotDue)),
        ("missing", count(Standing::Missing)),
        ("look", look),
        ("learners", learners),
    ];
    let counts = counts.each_ref().map(|it| (it.0, it.1.as_str()));
    let criteria = review.criteria.iter().map(|it| {
        let criterion = wording.say(&format!("criterion-{}", it.name), &[]);
        let share = (it.marks * 100).checked_div(it.out_of).unwrap_or_default().to_string();
        let share = wording.say("review-criterion", &[("criterion", &criterion), ("share", &share)]);
        let tag = review.unit_map.as_ref().and_then(|map| map.tag(wording, it.name));
        at(&it.exercise) + &[Some(share), tag].into_iter().flatten().collect::<Vec<_>>().join("; ")
    });
    let faults = review.faults.iter().map(|it| {
        let learners: Vec<_> = it.learners.iter().map(u64::to_string).collect();
        let (count, of) = (it.learners.len().to_string(), it.of.to_string());
        let weight = wording.say(&format!("review-{}", it.weight), &[]);
        let args = [
            ("count", count.as_str()),
            ("of", &of),
            ("code", it.code),
            ("weight", &weight),
            ("what", &it.what),
            ("learners", &learners.join(", ")),
        ];
        at(&it.exercise) + &wording.say("review-fault", &args)
    });
    let why = |row: &ReviewRow, need: HelpNeed| {
        let first = row.counting().and_then(|it| it.1.faults.first()).map_or("", |it| it.what.as_str());
        at(&row.exercise) + &wording.say(&format!("need-{}", need.word()), &[("what", first.trim_end_matches('.'))])
    };
    let help = review.help_first().into_iter().map(|it| {
        let all: Vec<_> = it.work.iter().map(|(row, need)| why(row, *need)).collect();
        wording.say("review-needs", &[("learner", &it.learner.to_string()), ("why", &all.join("; "))])
    });
    ReviewWords {
        heading: wording.say("review-heading", &named),
        summary: wording.say("review-summary", &counts),
        rows: review.rows.iter().map(|it| cells(wording, it)).collect(),
        strays: review.strays.iter().map(|it| remarks(wording, it)).collect(),
        criteria: criteria.collect(),
        faults: faults.collect(),
        help: help.collect(),
        passed_over: passed_over(wording, review),
        record: wording.say("report-practice-record", &[]),
    }
}

/// Names of files that were passed over; of very many the first.
fn passed_over(wording: &Wording, review: &Review) -> Vec<String> {
    const NAMED: usize = 100;
    let more = review.passed_over.len().saturating_sub(NAMED);
    let more = (more > 0).then(|| wording.say("review-more", &[("count", &more.to_string())]));
    let told = |it: &PassedOver| match it.learner {
        Some(learner) => wording.say("review-passed-over-of", &[("file", &it.file), ("learner", &learner.to_string())]),
        None => it.file.clone(),
    };
    review.passed_over.iter().take(NAMED).map(told).chain(more).collect()
}

fn cells(wording: &Wording, row: &ReviewRow) -> [String; 7] {
    let counting = row.counting();
    let outcome = counting.map_or_else(String::new, |(file, earned)| {
        let given = Decided::of(earned, &file.people.decisions).given;
        let outcome = wording.say(&format!("review-{}", given.outcome.replace(' ', "-")), &[]);
        let (nth, count) = (file.nth.to_string(), row.files.len().to_string());
        wording.say("review-of-try", &[("outcome", &outcome), ("try", &nth), ("count", &count)])
    });
    let mut said: Vec<String> = row.files.iter().map(|it| remarks(wording, it)).filter(|it| !it.is_empty()).collect();
    said.extend(row.misnamed.iter().map(|it| {
        let args = [("file", it.file.as_str()), ("learner", &it.learner.to_string())];
        wording.say("review-misnamed", &args)
    }));
    let people = counting.map_or_else(Vec::new, |(file, earned)| beside(wording, file, earned));
    let receipt = counting.and_then(|it| it.0.receipt.as_deref());
    let receipt = receipt.map(|it| wording.say("review-receipt", &[("code", it)]));
    [
        row.learner.to_string(),
        row.exercise.clone(),
        wording.say(&format!("standing-{}", row.standing.word()), &[]),
        outcome,
        counting.map_or_else(String::new, |(file, earned)| {
            format!("{}/{}", Decided::of(earned, &file.people.decisions).given.marks, earned.out_of)
        }),
        counting.map_or_else(String::new, |it| (it.0.active_ms / 60_000).to_string()),
        receipt.into_iter().chain(people).chain(said).collect::<Vec<_>>().join("; "),
    ]
}

/// What is to be said of a file; empty: nothing.
fn remarks(wording: &Wording, of: &HandIn) -> String {
    let line = of.line.map_or_else(String::new, |it| it.to_string());
    let (minutes, draw) = (of.extra_minutes.to_string(), of.draw.to_string());
    let said = of.flags.iter().map(|flag| match flag {
        Flag::WrongSeed if of.seed_of.is_some() => {
            wording.say("flag-wrong-seed-of", &[("learner", &of.seed_of.unwrap_or_default().to_string())])
        }
        Flag::Unreadable => wording.say("flag-unreadable", &[("why", of.why.as_deref().unwrap_or_default())]),
        it => wording.say(&format!("flag-{}", it.word()), &[("line", &line), ("minutes", &minutes), ("draw", &draw)]),
    });
    let said: Vec<String> = said.collect();
    if said.is_empty() { String::new() } else { format!("{}: {}", of.file, said.join(", ")) }
}

/// A review in lines, its table in columns.
pub fn review_lines(wording: &Wording, assignment: &Assignment, review: &Review) -> Vec<String> {
    let told = review_words(wording, assignment, review);
    let mut lines = vec![told.heading, told.summary, String::new()];
    let header = REVIEW_COLUMNS.map(|it| wording.say(it, &[]));
    let table: Vec<_> = std::iter::once(&header).chain(&told.rows).collect();
    let width = |column: usize| table.iter().map(|it| it[column].chars().count()).max().unwrap_or(0);
    let widths: [usize; 7] = std::array::from_fn(width);
    lines.extend(table.iter().map(|row| {
        let cells: Vec<_> = row.iter().zip(widths).map(|(it, width)| format!("{it:width$}")).collect();
        cells.join("  ").trim_end().to_owned()
    }));
    for (key, part) in [
        ("review-strays", told.strays),
        ("review-criteria", told.criteria),
        ("review-faults", told.faults),
        ("review-help", told.help),
        ("review-passed-over", told.passed_over),
    ] {
        if !part.is_empty() {
            lines.extend([String::new(), wording.say(key, &[])]);
            lines.extend(part.into_iter().map(|it| format!("- {it}")));
        }
    }
    lines.extend([String::new(), told.record]);
    lines
}

/// A review as one page, all in itself.
pub fn review_page(wording: &Wording, assignment: &Assignment, review: &Review) -> String {
    let told = review_words(wording, assignment, review);
    let part = |key: &str, lines: &[String]| -> Markup {
        html! {
            @if !lines.is_empty() {
                section {
                    h2 { (Clean(wording.say(key, &[]))) }
                    ul { @for it in lines { li { (Clean(it)) } } }
                }
            }
        }
    };
    let body = html! {
        header {
            h1 { (Clean(&told.heading)) }
            p { (Clean(&told.summary)) }
            p.record { (Clean(&told.record)) }
        }
        (part("review-help", &told.help))
        section.results {
            h2 { (Clean(wording.say("review-learners", &[]))) }
            table {
                tr { @for it in REVIEW_COLUMNS { th { (Clean(wording.say(it, &[]))) } } }
                @for row in &told.rows { tr { @for it in row { td { (Clean(it)) } } } }
            }
        }
        (part("review-strays", &told.strays))
        (part("review-criteria", &told.criteria))
        (part("review-faults", &told.faults))
        (part("review-passed-over", &told.passed_over))
        footer { p.record { (Clean(&told.record)) } }
    };
    document(REVIEW_TITLE, &told.heading, &body)
}

/// When it is due and how it counts, a sentence each.
pub fn terms(wording: &Wording, of: &Assignment) -> Vec<String> {
    terms_for(wording, of, Adjustment::default())
}

/// The same for a learner of that adjustment, whose extra time is in the times.
pub fn terms_for(wording: &Wording, of: &Assignment, adjustment: Adjustment) -> Vec<String> {
    let minutes = adjustment.minutes();
    let times = [("assign-opens", &of.opens, 0), ("assign-due", &of.due, minutes), ("assign-last", &of.last, minutes)];
    let times = times.into_iter().filter_map(|(key, it, extra)| {
        let time = it.as_ref()?.later(extra)?.to_string();
        Some(wording.say(key, &[("time", &when(wording, &time))]))
    });
    let tries = of.tries.to_string();
    let tries = wording.say(&format!("assign-counts-{}", of.counts.word()), &[("count", &tries)]);
    let rest = [format!("assign-hints-{}", of.hints.word()), format!("assign-answers-{}", of.answers.word())];
    let marks = of.pass_mark.map(|it| wording.say("assign-pass-mark", &[("marks", &it.to_string())]));
    times.chain([tries]).chain(rest.map(|it| wording.say(&it, &[]))).chain(marks).collect()
}
