//! The mark sheet as one HTML page, to be read on a screen or printed on A4.
//!
//! It holds no script and fetches nothing: type, colours and drawings are in it. Text goes in by [`Clean`] or through
//! `maud`'s own escaping, and there is no other way in but for our style sheet and our drawings, whose own writer escapes.

mod form;
mod style;

pub use form::{FilledIn, FormPart, forms_page};
pub(super) use form::{form, part};

use maud::{Escaper, Markup, PreEscaped, Render, html};
use std::fmt::Write as _;

use self::style::STYLE;
use super::{
    marked::Marked,
    positions::PositionTable,
    search::searched,
    story::Story,
    text::{noticed, of_format, praise, receipt_code},
};
use crate::{
    attempt::{Attempt, Header, Mode},
    marking::{Finding, Sheet},
    picture::{Covers, Scene, View, of_circuit, of_location, of_place, svg},
    wording::{
        OutcomeWords, Wording, cautions, clean, device, edition_key, finding, follows, references_key, remarks, shown,
        test_key, title, verdict, when, written,
    },
};

/// How every page of ours begins, and by which it is known again.
pub const TITLE: &str = "<!DOCTYPE html>\n<!-- Switchdrop mark sheet -->\n";

/// Should anything slip through after all, a browser is to fetch and run nothing.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'";

/// A tutor looks at the work: covers are lifted, and no lamp is said to be lit.
const VIEW: View<'_> = View { covers: Covers::Lifted, lit: None, evening: false };

/// Millimetres on paper for a unit of a drawing: two boxes stand side by side, and names at terminals are some 2 mm high.
const MM_PER_UNIT: f32 = 0.1;
/// The same for a circuit diagram, whose lines and names are few.
const DIAGRAM_MM_PER_UNIT: f32 = 0.18;
/// What A4 leaves between margins of 15 mm, millimetres.
const ACROSS_MM: f32 = 180.0;

/// Text without what turns its direction or controls a terminal, escaped.
pub(crate) struct Clean<T>(pub T);

impl<T: AsRef<str>> Render for Clean<T> {
    fn render_to(&self, page: &mut String) {
        // Writing to a string can't fail.
        let _ = Escaper::new(page).write_str(&clean(self.0.as_ref()));
    }
}

/// A page all in itself: what it begins with, its title and what is on it.
pub(crate) fn document(begins: &str, title: &str, body: &Markup) -> String {
    let page = html! {
        html lang="en-GB" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(POLICY);
                meta name="viewport" content="width=device-width";
                title { (Clean(title)) }
                style { (PreEscaped(STYLE)) }
            }
            body { (body) }
        }
    };
    format!("{begins}{}\n", page.into_string())
}

/// The whole page.
pub(super) fn page(wording: &Wording, marked: &Marked, story: &Story) -> String {
    let Marked { opened, attempt, sheet, .. } = marked;
    let exercise = attempt.work().exercise();
    let say = |key: &str| Clean(wording.say(key, &[]));
    let title = wording.say("page-title", &[("learner", &opened.header.learner), ("title", &exercise.title)]);
    let praise = praise(wording, attempt, sheet);
    let searched = searched(wording, attempt, sheet, story);
    let body = html! {
        (heading(wording, marked))
        (earned(wording, attempt, sheet))
        section { h2 { (say("page-asked")) } p { (Clean(&exercise.brief)) } }
        section {
            h2 { (say("page-findings")) }
            @if sheet.findings.is_empty() { p { (say("report-nothing-found")) } }
            @for (index, it) in sheet.findings.iter().enumerate() {
                (one(wording, attempt, index, it, story))
            }
        }
        @if !searched.is_empty() {
            section {
                h2 { (say("search-heading")) }
                ul { @for it in searched { li { (Clean(it)) } } }
            }
        }
        (results(wording, attempt))
        @if !praise.is_empty() {
            section.well {
                h2 { (say("page-well")) }
                ul { @for it in praise { li { (Clean(it)) } } }
            }
        }
        (positions(wording, attempt))
        (drawings(wording, &opened.header, attempt))
        (footer(wording, marked))
    };
    document(TITLE, &title, &body)
}

/// Which exercise, whose, from when; and what is to be told of the file.
fn heading(wording: &Wording, Marked { opened, attempt, sheet, notices, .. }: &Marked) -> Markup {
    let header = &opened.header;
    let exercise = attempt.work().exercise();
    let say = |key: &str| wording.say(key, &[]);
    let mode = say(match header.mode {
        Mode::Set => "window-set",
        Mode::Practice => "window-practice",
    });
    let seed = header.seed.to_string();
    let drawn = [("scenario", header.scenario.as_str()), ("seed", &seed), ("mode", &mode)];
    let facts = [
        ("page-exercise", wording.say("page-drawn", &drawn)),
        ("page-learner", header.learner.clone()),
        ("page-started", when(wording, &header.started)),
        ("page-edition", say(edition_key(sheet.edition))),
    ];
    html! {
        header {
            p.kind { (Clean(say("page-heading"))) }
            h1 { (Clean(&exercise.title)) }
            p.place { (Clean(&exercise.place)) }
            dl.facts { @for (key, text) in facts { (pair(wording, key, text)) } }
            @for it in noticed(wording, notices) { p.record { (Clean(it)) } }
        }
    }
}

/// A name and its value, for a list of them.
fn pair(wording: &Wording, key: &str, text: impl AsRef<str>) -> Markup {
    html! { dt { (Clean(wording.say(key, &[]))) } dd { (Clean(text)) } }
}

/// The outcome and the marks under each criterion.
fn earned(wording: &Wording, attempt: &Attempt, sheet: &Sheet) -> Markup {
    let OutcomeWords { headline, rule, more } = verdict(wording, attempt, sheet);
    let say = |key: &str| Clean(wording.say(key, &[]));
    let outcome = sheet.outcome.word().replace(' ', "-");
    let rows = sheet.criteria.iter().map(|it| {
        let criterion = wording.say(&format!("criterion-{}", it.criterion.word()), &[]);
        let args = [("criterion", criterion.as_str()), ("number", &it.not_awarded.to_string())];
        let named = if it.not_awarded > 0 { wording.say("page-not-awarded", &args) } else { criterion.clone() };
        (named, it.marks, it.out_of)
    });
    html! {
        section.earned {
            p.outcome.(outcome) { (Clean(headline)) }
            p { (Clean(rule)) }
            @for it in more { p { (Clean(it)) } }
            table {
                tr { @for key in ["page-criterion", "page-marks", "page-out-of"] { th { (say(key)) } } }
                @for (named, marks, out_of) in rows {
                    tr.less[marks < out_of] { td { (Clean(named)) } td { (marks) } td { (out_of) } }
                }
            }
        }
    }
}

/// One finding.
fn one(wording: &Wording, attempt: &Attempt, index: usize, found: &Finding, story: &Story) -> Markup {
    let said = finding(wording, attempt.work(), found);
    let follows = follows(wording, found);
    let told = [
        ("page-harm", said.harm.clone()),
        ("page-would-have", story.would_have(wording, attempt, index)),
        ("page-shown", Some(said.shown.clone())),
        ("page-figures", Story::figures(wording, attempt, found)),
        ("page-arose", story.arose(wording, index)),
        ("page-counted", story.counted(wording, attempt, found)),
        ("page-repair", said.repair.clone()),
        ("page-reference", Some(said.reference.clone())),
    ];
    // For a finding that follows from another, no more than what shows it.
    let told = told.into_iter().filter(|it| follows.is_none() || it.0 == "page-shown");
    html! {
        article.(found.weight.word()).follows[follows.is_some()] {
            h3 { (Clean(title(wording, index, found, &said))) }
            @if let Some(it) = &follows { p { (Clean(it.as_str())) } }
            @for it in remarks(wording, found) { p { (Clean(it)) } }
            dl { @for (key, text) in told { @if let Some(text) = text { (pair(wording, key, text)) } } }
        }
    }
}

/// The test sheet, where a line was written: what was written, beside what the readings come to.
fn results(wording: &Wording, attempt: &Attempt) -> Markup {
    let lines: Vec<_> = attempt.safety().testing().sheet().collect();
    let say = |key: &str| Clean(wording.say(key, &[]));
    let rows = lines.iter().map(|(test, at, entry)| {
        let read = match &entry.shown {
            None => wording.say("page-not-read", &[]),
            Some(it) if test.has_figure() => shown(wording, it),
            Some(_) => String::new(),
        };
        [
            wording.say(test_key(*test), &[]),
            device(wording, attempt.work().exercise(), *at),
            written(wording, *test, entry),
            read,
        ]
    });
    html! {
        @if !lines.is_empty() {
            section.results {
                h2 { (say("page-results")) }
                table {
                    tr { @for key in ["page-test", "page-circuit", "page-written", "page-read"] { th { (say(key)) } } }
                    @for row in rows { tr { @for it in row { td { (Clean(it)) } } } }
                }
            }
        }
    }
}

/// Where the current goes in each position of the switches.
fn positions(wording: &Wording, attempt: &Attempt) -> Markup {
    let PositionTable { lines, left_out } = PositionTable::of(wording, attempt.work());
    html! {
        @if !attempt.work().exercise().switches.is_empty() {
            section.positions {
                h2 { (Clean(wording.say("way-table", &[]))) }
                table { @for it in lines { tr { td { (Clean(it.stands)) } td { (Clean(it.told)) } } } }
                @if left_out > 0 { p { (Clean(wording.say("way-table-more", &[("count", &left_out.to_string())]))) } }
            }
        }
    }
}

/// The whole place as it stands, its circuit diagram, then every location opened.
fn drawings(wording: &Wording, header: &Header, attempt: &Attempt) -> Markup {
    let work = attempt.work();
    let exercise = work.exercise();
    let names = [("learner", header.learner.as_str()), ("place", &exercise.place)];
    let description = wording.say("picture-description", &names);
    let plan = of_place(work, wording, &View { covers: Covers::AsTheyStand, ..VIEW });
    let circuit = of_circuit(work, wording, None);
    html! {
        section.drawings {
            h2 { (Clean(wording.say("page-wiring", &[]))) }
            p { (Clean(&description)) }
            (drawing(&plan, ACROSS_MM, &exercise.title, &description))
            @if !circuit.spots.is_empty() {
                p { (Clean(wording.say("page-circuit-diagram", &[]))) }
                (drawing(&circuit, (circuit.width * DIAGRAM_MM_PER_UNIT).min(ACROSS_MM), &exercise.title, &description))
            }
            @for (id, place) in exercise.locations.with_ids() {
                @let scene = of_location(work, id, wording, &VIEW);
                (drawing(&scene, (scene.width * MM_PER_UNIT).min(ACROSS_MM), &place.name, &description))
            }
        }
    }
}

fn drawing(scene: &Scene, across_mm: f32, title: &str, description: &str) -> Markup {
    let drawn = clean(&svg(scene, title, description));
    html! { figure style=(format!("width:{across_mm:.0}mm")) { (PreEscaped(drawn)) } }
}

/// The edition of the references, the receipt, room for signatures, the cautions.
fn footer(wording: &Wording, Marked { receipt, attempt, sheet, .. }: &Marked) -> Markup {
    let say = |key: &str| Clean(wording.say(key, &[]));
    html! {
        footer {
            p { (say(references_key(sheet.edition))) }
            @if let Some(it) = of_format(wording, attempt) { p { (Clean(it)) } }
            h2 { (say("page-record")) }
            p.record { (say("report-practice-record")) }
            @if let Some(it) = receipt {
                p { (Clean(wording.say("report-receipt", &[("receipt", it)]))) }
                p { (Clean(wording.say("report-receipt-code", &[("code", &receipt_code(it))]))) }
            }
            div.signed {
                @for key in ["page-signed-tutor", "page-signed-learner", "page-signed-date"] { p { (say(key)) } }
            }
            p { (say("cautions-heading")) }
            ol { @for it in cautions(wording) { li { (Clean(it)) } } }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The characters that HTML gives a meaning between tags and in quotes (the HTML standard, 13.3), and what turns text.
    #[test]
    fn text_stays_text() {
        let escaped = Clean("<b a=\"1\">&amp;\u{202e}").render().into_string();
        assert_eq!(escaped, "&lt;b a=&quot;1&quot;&gt;&amp;amp;\u{fffd}");
    }
}
