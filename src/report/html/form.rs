//! The sheet as a form of one page, to be signed on paper: what an assessor decides about, with room to decide it.
//!
//! It tells what the mark sheet tells, shorter: causes alone, no references and no drawings. What the program does not know (a group, a unit,
//! a name) is left to be written, unless it is handed in beside the sheet ([`FilledIn`]).

use std::collections::BTreeMap;

use maud::{Markup, html};

use super::{Clean, TITLE, document, pair, results};
use crate::{
    attempt::{ActKind, Attempt, Header, Mode, sha256},
    exercise::Stage,
    marking::{Criterion, Root, VERSION, Weight},
    report::{isolated::Isolated, marked::Marked, text::receipt_code},
    wording::{OutcomeWords, Wording, cable, device_in_full, edition_key, finding, verdict, when},
};

/// Who signs, in order.
const SIGNERS: [&str; 4] = ["form-learner", "form-assessor", "form-internal", "form-external"];

/// What is known beside a sheet and goes into its form. By default nothing is, and there is room to write it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FilledIn {
    /// The learner's group.
    pub group: Option<String>,
    /// What the college calls the unit.
    pub unit: Option<String>,
    /// The outcome of the unit that each criterion speaks to, by the criterion.
    pub outcomes: BTreeMap<Criterion, String>,
    /// What was decided, a line each, the first thing first.
    pub layers: Vec<String>,
    /// What was said of findings: each by its code, `@` and its address.
    pub about: BTreeMap<String, Vec<String>>,
}

/// A form, to stand on a page with others.
#[derive(Debug)]
pub struct FormPart(Markup);

/// One page of many forms, each on a sheet of its own; `title`: what they are of.
pub fn forms_page(title: &str, parts: &[FormPart]) -> String {
    let body = html! { div.forms { @for it in parts { (it.0) } } };
    document(TITLE, title, &body)
}

fn title(wording: &Wording, Marked { opened, attempt, .. }: &Marked) -> String {
    let learner = opened.header.learner.as_str();
    wording.say("form-title", &[("learner", learner), ("title", &attempt.work().exercise().title)])
}

/// The whole form.
pub fn form(wording: &Wording, marked: &Marked, filled: &FilledIn) -> String {
    document(TITLE, &title(wording, marked), &part(wording, marked, filled).0)
}

/// The same, to stand on a page with others.
pub fn part(wording: &Wording, marked: &Marked, filled: &FilledIn) -> FormPart {
    let Marked { opened, attempt, .. } = marked;
    let title = title(wording, marked);
    let isolated = Isolated::of(attempt, &opened.times());
    let say = |key: &str| Clean(wording.say(key, &[]));
    FormPart(html! {
        main.form {
            (heading(wording, marked, filled))
            (earned(wording, marked, filled))
            (stopped(wording, attempt, isolated))
            (causes(wording, marked, filled))
            (schedule(wording, attempt))
            section {
                h2 { (say("form-decision")) }
                @if !filled.layers.is_empty() { ul { @for it in &filled.layers { li { (Clean(it)) } } } }
                @for key in ["form-agrees", "form-feedback", "form-next-step", "form-own-words"] { p.room { (say(key)) } }
                p { (say("form-declaration")) }
                table.signers {
                    @for it in SIGNERS {
                        tr { td { (say(it)) } @for key in ["form-name", "form-signature", "form-date"] { td { (say(key)) } } }
                    }
                }
            }
            // In print it stands at the foot of every page.
            p.running { (Clean(&title)) " · " (say("report-practice-record")) }
        }
    })
}

/// Whose work it is, of what, when, and by which digests it is known again.
fn heading(
    wording: &Wording,
    Marked { opened, attempt, sheet, receipt, sha256: of_file, .. }: &Marked,
    filled: &FilledIn,
) -> Markup {
    let header: &Header = &opened.header;
    let exercise = attempt.work().exercise();
    let say = |key: &str| wording.say(key, &[]);
    let seed = header.seed.to_string();
    let mode = say(match header.mode {
        Mode::Set => "window-set",
        Mode::Practice => "window-practice",
    });
    let drawn = [("scenario", header.scenario.as_str()), ("seed", &seed), ("mode", &mode)];
    let assigned = header.assigned.as_ref().map(|it| {
        let (learner, nth) = (it.learner.to_string(), it.nth.to_string());
        wording.say("form-set", &[("assignment", &it.assignment), ("learner", &learner), ("try", &nth)])
    });
    let handed_in =
        opened.handed_in_at().map_or_else(|| say("form-not-handed-in"), |it| when(wording, &it.to_string()));
    // Whole minutes, and what is begun of another counts.
    let active = opened.times().last().copied().unwrap_or_default().div_ceil(60_000).to_string();
    let marking = VERSION.to_string();
    let versions = [("program", env!("CARGO_PKG_VERSION")), ("marking", marking.as_str())];
    let of_exercise = receipt_code(&sha256(exercise.text().as_bytes()));
    let file = receipt_code(receipt.as_deref().unwrap_or(of_file));
    let record = say("report-practice-record");
    let (group, unit) = (filled.group.as_deref(), filled.unit.as_deref());
    // Where nothing says the unit, there is room for it, whatever else is known.
    let tag = match (group, unit) {
        (None, None) => wording.say("form-to-write", &[("record", &record)]),
        (Some(group), None) => wording.say("form-unit-to-write", &[("group", group), ("record", &record)]),
        (None, Some(unit)) => wording.say("form-unit-tag", &[("tag", unit), ("record", &record)]),
        (Some(group), Some(unit)) => {
            wording.say("form-unit-tag", &[("tag", &format!("{group}, {unit}")), ("record", &record)])
        }
    };
    let facts = [
        ("page-learner", header.learner.clone()),
        ("page-exercise", wording.say("page-drawn", &drawn)),
        ("form-assignment", assigned.unwrap_or_else(|| say("form-free-practice"))),
        ("page-started", when(wording, &header.started)),
        ("form-handed-in", wording.say("form-active", &[("at", &handed_in), ("minutes", &active)])),
        ("form-versions", wording.say("form-version", &versions)),
        ("form-digests", wording.say("form-digest", &[("file", &file), ("exercise", &of_exercise)])),
        ("page-edition", say(edition_key(sheet.edition))),
        ("form-unit", tag),
    ];
    html! {
        header {
            p.kind { (Clean(say("form-heading"))) }
            h1 { (Clean(&exercise.title)) }
            dl.facts { @for (key, text) in facts { (pair(wording, key, text)) } }
        }
    }
}

/// The outcome with what was not met, and the marks of every criterion that has some.
fn earned(wording: &Wording, Marked { attempt, sheet, .. }: &Marked, filled: &FilledIn) -> Markup {
    let OutcomeWords { headline, more, .. } = verdict(wording, attempt, sheet);
    let outcome = sheet.outcome.word().replace(' ', "-");
    let criteria: Vec<_> = sheet.criteria.iter().filter(|it| it.out_of > 0).collect();
    html! {
        section.earned {
            p.outcome.(outcome) { (Clean(headline)) }
            @for it in more { p { (Clean(it)) } }
            table.across {
                tr {
                    @for it in &criteria {
                        th { (Clean(wording.say(&format!("criterion-{}", it.criterion.word()), &[]))) }
                    }
                }
                tr { @for it in &criteria { td { (it.marks) "/" (it.out_of) } } }
                @if !filled.outcomes.is_empty() {
                    tr {
                        @for it in &criteria {
                            td { @if let Some(outcome) = filled.outcomes.get(&it.criterion) { (Clean(outcome)) } }
                        }
                    }
                }
            }
            @if !filled.outcomes.is_empty() {
                p.record { (Clean(wording.say("form-outcomes", &[("record", &wording.say("report-practice-record", &[]))]))) }
            }
        }
    }
}

/// How an act is called in a count.
const fn act_key(kind: ActKind) -> &'static str {
    match kind {
        ActKind::WorkedLive => "form-act-worked-live",
        ActKind::OpenedUnlocked => "form-act-opened-unlocked",
        ActKind::TouchedUnproved => "form-act-touched-unproved",
        ActKind::WronglyIdentified => "form-act-wrongly-identified",
        ActKind::PowerOnOpen => "form-act-power-on-open",
        ActKind::PowerOnUnchecked => "form-act-power-on-unchecked",
        ActKind::ResetUntested => "form-act-reset-untested",
        ActKind::Unearthed => "form-act-unearthed",
        ActKind::BenchUnproved => "form-act-bench-unproved",
        ActKind::BoardUnready => "form-act-board-unready",
        ActKind::WrongInstrument => "form-act-wrong-instrument",
    }
}

/// The unsafe acts that were stopped, each kind with how often; and how the isolation went.
fn stopped(wording: &Wording, attempt: &Attempt, isolated: Isolated) -> Markup {
    let mut kinds: Vec<ActKind> = attempt.tally().acts.iter().map(|it| it.kind).collect();
    kinds.sort_unstable();
    let counted = kinds.chunk_by(|one, other| one == other).map(|of| {
        let count = of.len().to_string();
        wording.say("form-counted", &[("count", &count), ("act", &wording.say(act_key(of[0]), &[]))])
    });
    let counted: Vec<String> = counted.collect();
    let resets = wording.say("form-resets", &[("count", &isolated.resets.to_string())]);
    // Where nothing is to be locked, nothing is missed.
    let asked = attempt.work().exercise().asks(Stage::Isolation);
    let proved = isolated.lock_to_proved.map(|ms| {
        let (minutes, seconds) = ((ms / 60_000).to_string(), (ms / 1000 % 60).to_string());
        wording.say("form-proved-after", &[("minutes", &minutes), ("seconds", &seconds)])
    });
    let proved = proved.or_else(|| asked.then(|| wording.say("form-not-proved", &[])));
    html! {
        section {
            h2 { (Clean(wording.say("form-stopped", &[]))) }
            @if counted.is_empty() { p { (Clean(wording.say("form-none-stopped", &[]))) } }
            @else { ul { @for it in counted { li { (Clean(it)) } } } }
            p { (Clean(resets)) @if let Some(it) = proved { " " (Clean(it)) } }
        }
    }
}

/// Every cause that is more than advice, with room to agree or to overrule it.
fn causes(wording: &Wording, Marked { attempt, sheet, .. }: &Marked, filled: &FilledIn) -> Markup {
    let is_cause = |root: Root, weight: Weight| root == Root::Itself && weight > Weight::Advice;
    let causes = sheet.findings.iter().filter(|it| is_cause(it.root, it.weight) && !it.before);
    let rows: Vec<_> = causes
        .map(|it| {
            let weight = wording.say(&format!("weight-{}", it.weight.word()), &[]);
            let address = format!("{}@{}", it.code.word(), it.at.address(attempt.work().exercise()));
            let said = filled.about.get(&address).map(|it| it.join("; ")).unwrap_or_default();
            (weight, finding(wording, attempt.work(), it).what, it.lost, said)
        })
        .collect();
    let say = |key: &str| Clean(wording.say(key, &[]));
    html! {
        section {
            h2 { (say("form-causes")) }
            @if rows.is_empty() { p { (say("report-nothing-found")) } }
            @else {
                table.causes {
                    tr { @for key in ["form-weight", "form-cause", "form-lost", "form-agree", "form-overruled"] { th { (say(key)) } } }
                    @for (weight, what, lost, said) in rows {
                        tr { td { (Clean(weight)) } td { (Clean(what)) } td { (lost) } td { "☐" } td { (Clean(said)) } }
                    }
                }
            }
        }
    }
}

/// The test sheet with what its circuits and cables are, where a line of it was written.
fn schedule(wording: &Wording, attempt: &Attempt) -> Markup {
    let exercise = attempt.work().exercise();
    let mut devices: Vec<_> = attempt.safety().testing().sheet().map(|it| it.1).collect();
    devices.sort_unstable();
    devices.dedup();
    let circuits = devices.iter().filter_map(|id| {
        let ohms = exercise.devices.get(*id)?.kind.max_loop_ohms()?;
        let device = device_in_full(wording, exercise, *id);
        Some(wording.say("form-circuit", &[("device", &device), ("ohms", &format!("{ohms:.2}"))]))
    });
    let cables = exercise.cables.iter().map(|it| {
        let (kind, metres) = (cable(wording, it.kind, it.live), it.metres.to_string());
        wording.say("form-cable", &[("name", &it.name), ("cable", &kind), ("metres", &metres)])
    });
    html! {
        @if !devices.is_empty() {
            (results(wording, attempt))
            @for it in circuits { p { (Clean(it)) } }
            p { (Clean(cables.collect::<Vec<_>>().join("; "))) }
        }
    }
}
