//! The mark sheet as one page for paper or a browser: no script, nothing from outside, the wiring drawn.
//!
//! Every text that comes from a file or a person goes through [`escaped`]; the markup is ours. Meant for A4.

use std::fmt::Write as _;

use super::{Covers, Scene, View, of_location, of_place, svg::svg_on_paper};
use crate::{
    exercise::LocationId,
    marking::{Finding, Review, Root, Sheet, VERSION},
    wording::{Wording, arose, cautions, criterion, edition_key, finding, outcome_key, weight_key, well, would_have},
    work::Attempt,
};

/// What every page begins with: by this a program knows its own.
pub const PAGE_START: &str = "<!DOCTYPE html>\n<!-- Switchdrop mark sheet -->\n";

/// An attempt with all that its sheet needs.
#[derive(Clone, Copy)]
pub struct Marked<'a> {
    /// Who did it.
    pub learner: &'a str,
    /// When it was begun, as its file has it.
    pub begun: &'a str,
    /// The attempt.
    pub attempt: &'a Attempt,
    /// Its sheet.
    pub sheet: &'a Sheet,
    /// What is said beside the sheet.
    pub review: &'a Review,
    /// For each action the milliseconds of work up to it.
    pub times: &'a [u64],
}

/// Nothing but our own style is let in, whatever a browser makes of the rest.
const HEAD: &str = concat!(
    "<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\"/>\n",
    "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\"/>\n",
    "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n",
);

/// Adds to a page.
macro_rules! put {
    ($out:expr, $($arg:tt)*) => {{
        // Writing to a string can't fail.
        let _ = write!($out, $($arg)*);
    }};
}

/// The style, for screen and paper.
const STYLE: &str = include_str!("../../assets/mark-sheet.css");

/// The page of some attempts, each beginning on a sheet of its own.
pub fn page(wording: &Wording, all: &[Marked<'_>]) -> String {
    let title = match all {
        [one] => format!("{}: {}", wording.say("page-title", &[]), one.learner),
        _ => wording.say("page-title", &[]),
    };
    let mut out =
        format!("{PAGE_START}{HEAD}<title>{}</title>\n<style>\n{STYLE}</style>\n</head>\n<body>\n", escaped(&title));
    for it in all {
        one(wording, it, &mut out);
    }
    out.push_str("</body>\n</html>\n");
    out
}

fn one(wording: &Wording, it: &Marked<'_>, out: &mut String) {
    let say = |key: &str| escaped(&wording.say(key, &[]));
    out.push_str("<main>\n");
    heading(wording, it, out);
    criteria(wording, it.sheet, out);
    if !it.review.well.is_empty() {
        put!(out, "<h2>{}</h2>\n", say("page-well"));
        list(&well(wording, &it.review.well), out);
    }
    put!(out, "<h2>{}</h2>\n", say("page-found"));
    if it.sheet.findings.is_empty() {
        put!(out, "<p>{}</p>\n", say("report-nothing-found"));
    } else {
        out.push_str("<ol>\n");
        for (index, finding) in it.sheet.findings.iter().enumerate() {
            found(wording, it, index, finding, out);
        }
        out.push_str("</ol>\n");
    }
    drawn(wording, it, out);
    put!(
        out,
        "<div class=\"end\"><p class=\"record\">{}</p>\n<p class=\"signed\"><span>{}</span><span>{}</span></p></div>\n",
        say("report-practice-record"),
        say("page-signed"),
        say("page-date")
    );
    put!(out, "<section class=\"small\"><h2>{}</h2>\n", say("cautions-heading"));
    list(&cautions(wording), out);
    let edition = wording.say(edition_key(it.sheet.edition), &[]);
    let version = wording.say("page-version", &[("version", &VERSION.to_string()), ("edition", &edition)]);
    put!(out, "<p>{}</p>\n</section>\n</main>\n", escaped(&version));
}

fn list(items: &[String], out: &mut String) {
    out.push_str("<ul>\n");
    for it in items {
        put!(out, "<li>{}</li>\n", escaped(it));
    }
    out.push_str("</ul>\n");
}

fn heading(wording: &Wording, it: &Marked<'_>, out: &mut String) {
    let (sheet, exercise) = (it.sheet, it.attempt.work().exercise());
    let say = |key: &str| wording.say(key, &[]);
    put!(out, "<h1>{}</h1>\n<table class=\"who\">\n", escaped(&say("page-title")));
    // The day is enough.
    let begun = it.begun.split('T').next().unwrap_or_default();
    for (key, text) in [
        ("page-learner", it.learner),
        ("page-exercise", &exercise.title),
        ("page-place", &exercise.place),
        ("page-begun", begun),
    ] {
        put!(out, "<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n", escaped(&say(key)), escaped(text));
    }
    let (marks, out_of) = (sheet.marks.to_string(), sheet.out_of.to_string());
    let outcome = say(outcome_key(sheet.outcome));
    let args = [("outcome", outcome.as_str()), ("marks", &marks), ("out-of", &out_of)];
    let class = sheet.outcome.word().replace(' ', "-");
    put!(out, "</table>\n<p class=\"outcome {class}\">{}</p>\n", escaped(&wording.say("report-outcome", &args)));
    let needed = (exercise.pass_mark * sheet.out_of).div_ceil(100).to_string();
    let mut notes = vec![wording.say("report-needs", &[("needed", &needed), ("out-of", &out_of)])];
    if !sheet.handed_in {
        notes.push(say("report-not-handed-in"));
    }
    if sheet.credited_percent < 100 {
        notes.push(wording.say("report-half-wired", &[("percent", &sheet.credited_percent.to_string())]));
    }
    put!(out, "<p>{}</p>\n<p class=\"brief\">{}</p>\n", escaped(&notes.join(" ")), escaped(&exercise.brief));
}

fn criteria(wording: &Wording, sheet: &Sheet, out: &mut String) {
    let say = |key: &str| escaped(&wording.say(key, &[]));
    let (criterion_head, marks, of) = (say("page-criterion"), say("page-marks"), say("page-of"));
    put!(
        out,
        "<table class=\"criteria\">\n<thead><tr><th scope=\"col\">{criterion_head}</th><th scope=\"col\">{marks}</th>\
         <th scope=\"col\">{of}</th></tr></thead>\n<tbody>\n"
    );
    let mut row = |class: &str, name: &str, marks: u32, of: u32| {
        put!(out, "<tr{class}><th scope=\"row\">{}</th><td>{marks}</td><td>{of}</td></tr>\n", escaped(name));
    };
    for it in &sheet.criteria {
        let class = if it.marks < it.out_of { " class=\"lost\"" } else { "" };
        row(class, &criterion(wording, it.criterion), it.marks, it.out_of);
    }
    row(" class=\"total\"", &wording.say("page-total", &[]), sheet.marks, sheet.out_of);
    out.push_str("</tbody>\n</table>\n");
}

fn found(wording: &Wording, it: &Marked<'_>, index: usize, of: &Finding, out: &mut String) {
    let work = it.attempt.work();
    let said = finding(wording, work, of);
    let weight = escaped(&wording.say(weight_key(of.weight), &[]));
    let class = of.weight.word();
    let lost = if of.lost > 0 {
        let lost = wording.say("page-lost", &[("lost", &of.lost.to_string())]);
        format!(" <span class=\"costs\">{}</span>", escaped(&lost))
    } else {
        String::new()
    };
    put!(
        out,
        "<li class=\"{class}\"><p class=\"what\"><span class=\"weight\">{weight}</span>{lost} {}</p>\n<dl>\n",
        escaped(&capital(&said.what))
    );
    let since = it.review.arose.get(index).copied().flatten().map(|action| arose(wording, action, it.times));
    let would = it.review.would_have.get(index).and_then(Option::as_ref).map(|it| would_have(wording, work, it));
    let mut line = |key: &str, text: Option<String>| {
        if let Some(text) = text {
            let label = escaped(&wording.say(key, &[]));
            put!(out, "<dt>{label}</dt><dd>{}</dd>\n", escaped(&capital(&text)));
        }
    };
    match of.root {
        Root::Of(cause) => {
            line("page-follows", Some((cause + 1).to_string()));
            line("page-shown", Some(said.shown));
            line("page-since", since);
        }
        Root::Itself => {
            line("page-harm", said.harm);
            line("page-would-have", would);
            line("page-shown", Some(said.shown));
            line("page-since", since);
            line("page-repair", said.repair);
            line("page-reference", Some(said.reference));
        }
    }
    out.push_str("</dl></li>\n");
}

/// Millimetres across a sheet of A4 inside our margins, and for a unit of a drawing at most: its small letters are then as
/// large as small print.
const ACROSS_MM: f32 = 178.0;
const UNIT_MM: f32 = 0.15;

/// The plan, and each place that the learner worked at or was to, all at one scale.
fn drawn(wording: &Wording, it: &Marked<'_>, out: &mut String) {
    let work = it.attempt.work();
    let exercise = work.exercise();
    let key = if it.sheet.handed_in { "page-wiring" } else { "page-wiring-so-far" };
    let names = [("learner", it.learner), ("place", exercise.place.as_str())];
    let description = wording.say("picture-description", &names);
    let plan = of_place(work, wording, &View { covers: Covers::AsTheyStand, lit: None });
    let worked_at = |at: &LocationId| work.ends_at(*at).any(|end| !work.is_undisturbed(end));
    let places: Vec<LocationId> = (0..exercise.locations.len() as u16).map(LocationId).filter(worked_at).collect();
    let inside = |at: &LocationId| of_location(work, *at, wording, &View { covers: Covers::Lifted, lit: None });
    let scenes: Vec<Scene> = places.iter().map(inside).collect();
    let fitting = |widest: f32| if widest > 0.0 { (ACROSS_MM / widest).min(UNIT_MM) } else { UNIT_MM };
    put!(out, "<h2>{}</h2>\n<div class=\"drawings\">\n", escaped(&wording.say(key, &[])));
    let mut figure = |scene: &Scene, title: &str, mm: f32| {
        put!(out, "<figure>\n{}</figure>\n", svg_on_paper(scene, title, &description, mm));
    };
    figure(&plan, &exercise.place, fitting(plan.width));
    let mm = fitting(scenes.iter().map(|it| it.width).fold(0.0, f32::max));
    for (at, scene) in places.iter().zip(&scenes) {
        figure(scene, &exercise.locations[at.index()].name, mm);
    }
    out.push_str("</div>\n");
}

/// A sentence begins with a capital, whatever it begins with.
fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |it| it.to_uppercase().chain(letters).collect())
}

/// Text as it may stand anywhere in the page, between quotes too. What would break the page, or turn the direction of text,
/// becomes a replacement sign.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for it in text.chars() {
        match it {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\n' | '\t' => out.push(' '),
            '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => out.push('\u{fffd}'),
            it if it.is_control() => out.push('\u{fffd}'),
            it => out.push(it),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_that_html_reserves_is_left() {
        let hostile = "</style><script>alert('1')</script> & \"\u{202e}x\u{0}\u{85}\r\n";
        let safe = escaped(hostile);
        assert!(!safe.contains(['<', '>', '"', '\'', '\u{202e}', '\u{0}', '\u{85}', '\r', '\n']), "{safe}");
        assert!(safe.starts_with("&lt;/style&gt;&lt;script&gt;alert(&#39;1&#39;)"), "{safe}");
    }
}
