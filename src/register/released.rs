//! The layers of a mark told: who decided what, what stands, what was released; and the page that its learner is handed.

use maud::html;

use super::{
    assignment::Assignment,
    decision::{Decided, Decision, MarkGiven, People, Release, StepComment},
    hand_in::{Earned, HandIn},
    review::ReviewRow,
};
use crate::{
    report::{Clean, document},
    wording::{Wording, when},
};

/// How the page of a release begins, and by which it is known again.
pub const RELEASE_TITLE: &str = "<!DOCTYPE html>\n<!-- Switchdrop release -->\n";

/// The machine's mark, every decision in its order, what stands, what was said of steps, what was released: a line each.
pub fn layers_told(wording: &Wording, earned: &Earned, people: &People) -> Vec<String> {
    let machine = wording.say("layer-machine", &[("given", &given(wording, MarkGiven::of(earned)))]);
    let decisions = people.decisions.iter().map(|it| decision(wording, it));
    let decided = Decided::of(earned, &people.decisions);
    let to_agree = decided.to_agree.then(|| wording.say("layer-to-agree", &[]));
    let releases = people.releases.iter().map(|it| release(wording, it));
    std::iter::once(machine)
        .chain(decisions)
        .chain([stands(wording, decided)])
        .chain(to_agree)
        .chain(by_step(wording, &people.comments, |_| true))
        .chain(releases)
        .collect()
}

/// The machine's mark and what second markers said: what one of them may see who has not decided yet.
pub fn second_told(wording: &Wording, earned: &Earned, people: &People) -> Vec<String> {
    let People { decisions, comments, .. } = people.for_second_marker();
    let machine = wording.say("layer-machine", &[("given", &given(wording, MarkGiven::of(earned)))]);
    let decisions: Vec<_> = decisions.iter().map(|it| decision(wording, it)).collect();
    std::iter::once(machine).chain(decisions).chain(by_step(wording, &comments, |_| true)).collect()
}

/// What is to be said beside a row that people did something with: what stands if it is not the machine's, and what was released.
pub(super) fn beside(wording: &Wording, of: &HandIn, earned: &Earned) -> Vec<String> {
    if of.people.is_empty() {
        return Vec::new();
    }
    let decided = Decided::of(earned, &of.people.decisions);
    let changed = decided.by.is_some().then(|| stands(wording, decided));
    let to_agree = decided.to_agree.then(|| wording.say("layer-to-agree", &[]));
    let released = of.people.released().map(|it| release(wording, it));
    let since = of.people.released().into_iter().flat_map(|it| since(wording, it, earned, decided));
    changed.into_iter().chain(to_agree).chain(released).chain(since).collect()
}

/// What was released of the work that counts.
pub fn released_told(wording: &Wording, row: &ReviewRow) -> Vec<String> {
    let told = row.counting().and_then(|(file, earned)| {
        let it = file.people.released()?;
        let since = since(wording, it, earned, Decided::of(earned, &file.people.decisions));
        Some(std::iter::once(release(wording, it)).chain(since).collect())
    });
    told.unwrap_or_default()
}

/// How a mark of today differs from what was released.
fn since(wording: &Wording, released: &Release, earned: &Earned, decided: Decided) -> Vec<String> {
    let machine = MarkGiven::of(earned);
    let marked = (machine != released.machine).then(|| {
        let (before, now) = (given(wording, released.machine), given(wording, machine));
        wording.say("release-marking-changed", &[("before", &before), ("now", &now)])
    });
    let stands = (decided.given != released.given)
        .then(|| wording.say("release-differs", &[("now", &given(wording, decided.given))]));
    marked.into_iter().chain(stands).collect()
}

fn given(wording: &Wording, it: MarkGiven) -> String {
    let outcome = wording.say(&format!("review-{}", it.outcome.replace(' ', "-")), &[]);
    wording.say("layer-given", &[("marks", &it.marks.to_string()), ("outcome", &outcome)])
}

fn stands(wording: &Wording, it: Decided) -> String {
    let by = it.by.map_or("machine", super::MarkLayer::word);
    let by = wording.say(&format!("layer-by-{by}"), &[]);
    wording.say("layer-stands", &[("given", &given(wording, it.given)), ("by", &by)])
}

/// A decision, or a comment on a finding, in a line.
pub(super) fn decision(wording: &Wording, it: &Decision) -> String {
    let by = wording.say(&format!("layer-by-{}", it.layer.word()), &[]);
    let marks = it.marks.map(|it| wording.say("layer-marks", &[("marks", &it.to_string())]));
    let outcome = it.outcome.map(|it| wording.say(&format!("review-{}", it.replace(' ', "-")), &[]));
    let what = marks.into_iter().chain(outcome).chain(it.finding.clone()).collect::<Vec<_>>().join(", ");
    let time = when(wording, &it.at);
    let args = [("by", by.as_str()), ("name", &it.by), ("time", &time), ("what", &what), ("why", &it.why)];
    wording.say(if it.why.is_empty() { "layer-decided" } else { "layer-decided-why" }, &args)
}

/// What was said of steps, in the order of the steps, of those that are wanted.
fn by_step(wording: &Wording, all: &[StepComment], wanted: impl Fn(&StepComment) -> bool) -> Vec<String> {
    let mut wanted: Vec<_> = all.iter().filter(|it| wanted(it)).collect();
    wanted.sort_by_key(|it| it.step);
    let told = wanted.into_iter().map(|it| {
        let by = wording.say(&format!("layer-by-{}", it.layer.word()), &[]);
        let (step, time) = (it.step.to_string(), when(wording, &it.at));
        let args = [("step", step.as_str()), ("by", &by), ("name", &it.by), ("time", &time), ("why", &it.why)];
        wording.say("layer-step", &args)
    });
    told.collect()
}

fn release(wording: &Wording, it: &Release) -> String {
    let (time, given) = (when(wording, &it.at), given(wording, it.given));
    let args = [("name", it.by.as_str()), ("time", &time), ("given", &given), ("why", &it.why)];
    wording.say(if it.why.is_empty() { "release-told" } else { "release-told-again" }, &args)
}

/// The page that a learner is handed: what was released, what went wrong, and what was said about it. `None`: nothing was released.
pub fn release_page(wording: &Wording, assignment: &Assignment, row: &ReviewRow) -> Option<String> {
    let (file, earned) = row.counting()?;
    let released = file.people.released()?;
    let args =
        [("title", assignment.title.as_str()), ("learner", &row.learner.to_string()), ("exercise", &row.exercise)];
    let heading = wording.say("release-heading", &args);
    let outcome = [("given", given(wording, released.given)), ("of", earned.out_of.to_string())];
    let outcome = wording.say("release-outcome", &outcome.each_ref().map(|it| (it.0, it.1.as_str())));
    // What was decided after the release is not the learner's yet.
    let decisions: Vec<_> = file.people.decisions.iter().filter(|it| it.at <= released.at).collect();
    let about = |code: &str, at: &str| {
        let finding = format!("{code}@{at}");
        decisions.iter().filter(move |it| it.finding.as_ref() == Some(&finding)).map(|it| decision(wording, it))
    };
    let overall = || decisions.iter().filter(|it| it.finding.is_none()).map(|it| decision(wording, it));
    let steps = by_step(wording, &file.people.comments, |it| it.at <= released.at);
    let record = wording.say("report-practice-record", &[]);
    let body = html! {
        header {
            h1 { (Clean(&heading)) }
            p { (Clean(&outcome)) }
            p { (Clean(release(wording, released))) }
            p.record { (Clean(&record)) }
        }
        @if !decisions.is_empty() {
            section { ul { @for it in overall() { li { (Clean(it)) } } } }
        }
        section {
            h2 { (Clean(wording.say("release-findings", &[]))) }
            ul {
                @for it in &earned.faults {
                    li {
                        (Clean(&it.what))
                        ul { @for it in about(it.code, &it.at) { li { (Clean(it)) } } }
                    }
                }
            }
        }
        @if !steps.is_empty() {
            section {
                h2 { (Clean(wording.say("release-steps", &[]))) }
                ul { @for it in steps { li { (Clean(it)) } } }
            }
        }
        footer { p.record { (Clean(&record)) } }
    };
    Some(document(RELEASE_TITLE, &heading, &body))
}

/// What a release would do with some of the rows of a class.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ReleasePlan {
    /// Pieces of work that their learners are told of for the first time.
    pub first: usize,
    /// Those that were released as they stand.
    pub stands: usize,
    /// Those that were released otherwise than they stand now: they stay so without a reason.
    pub differs: usize,
    /// Those on which a second marker and the tutor are to agree first.
    pub to_agree: usize,
    /// Rows in which nothing counts.
    pub nothing: usize,
}

impl ReleasePlan {
    /// Counts them.
    pub fn of<'r>(rows: impl Iterator<Item = &'r ReviewRow>) -> Self {
        let mut plan = Self::default();
        for row in rows {
            let place = row.counting().map(|(file, earned)| {
                let decided = Decided::of(earned, &file.people.decisions);
                (decided, file.people.released().map(|it| it.given == decided.given))
            });
            let count = match place {
                None => &mut plan.nothing,
                Some((decided, _)) if decided.to_agree => &mut plan.to_agree,
                Some((_, None)) => &mut plan.first,
                Some((_, Some(true))) => &mut plan.stands,
                Some((_, Some(false))) => &mut plan.differs,
            };
            *count += 1;
        }
        plan
    }
}
