//! The mark sheet as one HTML page, to be read on a screen or printed on A4.
//!
//! It holds no script and asks nobody for anything: type, colours and drawings are all in it. Whatever came from outside
//! is cleaned and escaped on its way in, and there is no other way in.

mod results;
mod style;
mod tags;

use switchdrop::{
    exercise::LocationId,
    marking::{Finding, Root, Sheet},
    picture::{Covers, Scene, View, of_location, of_place, svg},
    wording::{
        Story, Verdict, Wording, cautions, edition_key, finding, noticed, of_format, praise, references_key, remarks,
        title, verdict,
    },
    work::{Attempt, Header, Mode},
};

use self::{style::STYLE, tags::Page};
use super::mark::Marked;

/// How every page of ours begins, and by which it is known again.
pub(super) const TITLE: &str = "<!DOCTYPE html>\n<!-- Switchdrop mark sheet -->\n";

/// A tutor looks at the work: covers are lifted, and no lamp is said to be lit.
const VIEW: View<'_> = View { covers: Covers::Lifted, lit: None };

/// Millimetres on paper for a unit of a drawing: two boxes stand side by side, and names at terminals are some 2 mm high.
const MM_PER_UNIT: f32 = 0.1;
/// What A4 leaves between margins of 15 mm, millimetres.
const ACROSS_MM: f32 = 180.0;

/// The whole page.
pub(super) fn page(wording: &Wording, Marked { whole, attempt, sheet, notices, .. }: &Marked, story: &Story) -> String {
    let header = &whole.opened.header;
    let exercise = attempt.work().exercise();
    let say = |key: &str| wording.say(key, &[]);
    let title = wording.say("page-title", &[("learner", &header.learner), ("title", &exercise.title)]);
    let mut page = Page::begin(TITLE, &title, STYLE);
    page.open("header", "");
    page.element("p", "kind", &say("page-heading"));
    page.element("h1", "", &exercise.title);
    page.element("p", "place", &exercise.place);
    page.open("dl", "facts");
    let mode = say(match header.mode {
        Mode::Set => "window-set",
        Mode::Practice => "window-practice",
    });
    let seed = header.seed.to_string();
    let drawn = [("scenario", header.scenario.as_str()), ("seed", &seed), ("mode", &mode)];
    let facts = [
        ("page-exercise", wording.say("page-drawn", &drawn)),
        ("page-learner", header.learner.clone()),
        ("page-started", header.started.clone()),
        ("page-edition", say(edition_key(sheet.edition))),
    ];
    for (key, text) in facts {
        page.pair(&say(key), &text);
    }
    page.close("dl");
    for it in noticed(wording, notices) {
        page.element("p", "record", &it);
    }
    page.close("header");
    earned(&mut page, wording, attempt, sheet);
    page.open("section", "");
    page.element("h2", "", &say("page-asked"));
    page.element("p", "", &exercise.brief);
    page.close("section");
    page.open("section", "");
    page.element("h2", "", &say("page-findings"));
    if sheet.findings.is_empty() {
        page.element("p", "", &say("report-nothing-found"));
    }
    for (index, it) in sheet.findings.iter().enumerate() {
        one(&mut page, wording, attempt, index, it, story);
    }
    page.close("section");
    results::section(&mut page, wording, attempt);
    let praise = praise(wording, attempt, sheet);
    if !praise.is_empty() {
        page.open("section", "well");
        page.element("h2", "", &say("page-well"));
        page.open("ul", "");
        for it in praise {
            page.element("li", "", &it);
        }
        page.close("ul");
        page.close("section");
    }
    drawings(&mut page, wording, header, attempt);
    page.open("footer", "");
    page.element("p", "", &say(references_key(sheet.edition)));
    if let Some(it) = of_format(wording, attempt) {
        page.element("p", "", &it);
    }
    page.element("h2", "", &say("page-record"));
    page.element("p", "record", &say("report-practice-record"));
    if let Some(receipt) = &whole.receipt {
        page.element("p", "", &wording.say("report-receipt", &[("receipt", receipt)]));
    }
    page.open("div", "signed");
    for key in ["page-signed-tutor", "page-signed-learner", "page-signed-date"] {
        page.element("p", "", &say(key));
    }
    page.close("div");
    page.element("p", "", &say("cautions-heading"));
    page.open("ol", "");
    for it in cautions(wording) {
        page.element("li", "", &it);
    }
    page.close("ol");
    page.close("footer");
    page.end()
}

/// The outcome and the marks under each criterion.
fn earned(page: &mut Page, wording: &Wording, attempt: &Attempt, sheet: &Sheet) {
    let Verdict { headline, rule, more } = verdict(wording, attempt, sheet);
    page.open("section", "earned");
    let class = format!("outcome {}", sheet.outcome.word().replace(' ', "-"));
    page.element("p", &class, &headline);
    for it in std::iter::once(&rule).chain(&more) {
        page.element("p", "", it);
    }
    page.open("table", "");
    page.open("tr", "");
    for key in ["page-criterion", "page-marks", "page-out-of"] {
        page.element("th", "", &wording.say(key, &[]));
    }
    page.close("tr");
    for it in &sheet.criteria {
        page.open("tr", if it.marks < it.out_of { "less" } else { "" });
        let criterion = wording.say(&format!("criterion-{}", it.criterion.word()), &[]);
        let args = [("criterion", criterion.as_str()), ("number", &it.not_awarded.to_string())];
        let named = if it.not_awarded > 0 { wording.say("page-not-awarded", &args) } else { criterion.clone() };
        page.element("td", "", &named);
        page.element("td", "", &it.marks.to_string());
        page.element("td", "", &it.out_of.to_string());
        page.close("tr");
    }
    page.close("table");
    page.close("section");
}

fn one(page: &mut Page, wording: &Wording, attempt: &Attempt, index: usize, found: &Finding, story: &Story) {
    let said = finding(wording, attempt.work(), found);
    let follows = if let Root::Of(_) = found.root { " follows" } else { "" };
    page.open("article", &format!("{}{follows}", found.weight.word()));
    page.element("h3", "", &title(wording, index, found, &said));
    if let Root::Of(cause) = found.root {
        page.element("p", "", &wording.say("report-follows", &[("number", &(cause + 1).to_string())]));
    }
    remarks(wording, found).for_each(|it| page.element("p", "", &it));
    page.open("dl", "");
    let mut more = |key: &str, text: Option<&String>| {
        if let Some(text) = text {
            page.pair(&wording.say(key, &[]), text);
        }
    };
    if found.root == Root::Itself {
        more("page-harm", said.harm.as_ref());
        more("page-would-have", story.would_have(wording, attempt, index).as_ref());
        more("page-shown", Some(&said.shown));
        more("page-arose", story.arose(wording, index).as_ref());
        more("page-counted", story.counted(wording, attempt, found).as_ref());
        more("page-repair", said.repair.as_ref());
        more("page-reference", Some(&said.reference));
    } else {
        more("page-shown", Some(&said.shown));
    }
    page.close("dl");
    page.close("article");
}

/// The place as it stands, then every location opened.
fn drawings(page: &mut Page, wording: &Wording, header: &Header, attempt: &Attempt) {
    let work = attempt.work();
    let exercise = work.exercise();
    page.open("section", "drawings");
    page.element("h2", "", &wording.say("page-wiring", &[]));
    let names = [("learner", header.learner.as_str()), ("place", &exercise.place)];
    let description = wording.say("picture-description", &names);
    page.element("p", "", &description);
    let plan = of_place(work, wording, &View { covers: Covers::AsTheyStand, ..VIEW });
    drawing(page, &plan, ACROSS_MM, &exercise.title, &description);
    for (index, place) in (0_u16..).zip(&exercise.locations) {
        let scene = of_location(work, LocationId(index), wording, &VIEW);
        drawing(page, &scene, (scene.width * MM_PER_UNIT).min(ACROSS_MM), &place.name, &description);
    }
    page.close("section");
}

fn drawing(page: &mut Page, scene: &Scene, across_mm: f32, title: &str, description: &str) {
    page.open_across("figure", across_mm);
    page.drawing(&svg(scene, title, description));
    page.close("figure");
}
