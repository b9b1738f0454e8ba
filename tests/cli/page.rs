//! `mark --html`: one page that holds everything, runs nothing, and lets no text from outside out of its place.

use std::sync::Arc;

use switchdrop::{
    attempt::{Header, Mode, action_line, first_lines},
    exercise::{Seed, draw},
    marking::VERSION,
    work::Action,
};

use crate::{
    bench::{Bench, attempt_text, sealed},
    hand::{exercise, one_way_model, scenario},
};

/// What someone might call themselves. Longer names, strokes and what turns the direction of text are refused on reading.
const HOSTILE: &str = "<script>alert(1)<img src=x onerror=a()>\"'&--><style>]]>";

/// What fits into a name of a scenario, which has 64 letters at most and no stroke.
const HOSTILE_NAME: &str = "<script>a\"'<img>&";

/// The attribute values and the text of a page, tags taken apart by hand: a reader that shares nothing with the writer.
pub(super) fn tags(page: &str) -> Vec<String> {
    page.split('<').skip(1).map(|it| it.split('>').next().unwrap_or("").to_owned()).collect()
}

pub(super) fn hostile_attempt() -> String {
    let escaped = HOSTILE_NAME.replace('"', "\\\"");
    let mut text = scenario("one-way-rose").to_owned();
    for field in ["title: \"", "place: \"", "brief: \""] {
        assert!(text.contains(field), "{field}");
        text = text.replacen(field, &format!("{field}{escaped}"), 1);
    }
    text = text.replace("name: \"", &format!("name: \"{escaped}"));
    let exercise = Arc::new(draw(&text, Seed(4)).expect("an odd exercise is one all the same"));
    let header = Header::new(VERSION, &exercise, HOSTILE.to_owned(), HOSTILE.to_owned(), Mode::Set);
    let mut lines = first_lines(&header, &exercise).expect("first lines").to_vec();
    lines.push(action_line(0, &Action::HandIn).expect("a line"));
    sealed(header.format, &lines)
}

#[test]
fn a_page_holds_the_sheet_and_the_wiring_and_asks_nobody_for_anything() {
    let bench = Bench::new();
    bench.file("one", attempt_text(&exercise("one-way-rose", 4), one_way_model().attempt.log()));
    bench.run(&["mark", "--html", "one.html", "one"]).says("one.html: the mark sheet as a page\n");
    let page = bench.read("one.html");
    for part in ["<!DOCTYPE html>", "Robin Hale", "Pass: 100 of 100 marks", "Fernhay Cottage, the scullery", "<svg "] {
        assert!(page.contains(part), "{part}");
    }
    assert!(page.contains("This is a record of practice, not evidence of competence."));
    let places = exercise("one-way-rose", 4).locations.len();
    assert_eq!(page.matches("<svg ").count(), places + 2, "the plan, the circuit diagram and every location");
    // The name space of SVG is a name, not an address that anybody asks; a gradient stands in the page itself.
    let page = page.replace(" xmlns=\"http://www.w3.org/2000/svg\"", "").replace("\"url(#g", "\"");
    for outside in ["http:", "https:", "//", "src=", "href=", "url(", "@import", "<script", "<link", "<iframe"] {
        assert!(!page.contains(outside), "{outside}");
    }
    assert_eq!(bench.names(), ["one", "one.html"]);
}

/// What a tutor looks at first: which job it is, and the figures on the test sheet beside those that were read. An exercise that
/// somebody changed is said to be one on the page that is signed.
#[test]
fn a_page_has_the_test_sheet_and_says_which_exercise_it_is() {
    let bench = Bench::new();
    let model = crate::made_off::tested_model().attempt;
    let text = attempt_text(model.work().exercise(), model.log());
    bench.file("one", &text);
    bench.run(&["mark", "--html", "one.html", "one"]);
    let page = bench.read("one.html");
    assert!(page.contains("one-way-tested, drawn from 4, set work"));
    // Seed 4 by the tables: 0.435 ohm of R1+R2, and what this instrument makes of it.
    assert!(page.contains("<td>0.45 Ω: Acceptable</td><td>0.45 Ω</td>"));
    assert!(!page.contains("somebody has changed"));
    let eased = scenario("one-way-rose").replace("stages: [Isolation, ", "stages: [");
    let exercise = Arc::new(draw(&eased, Seed(4)).expect("an exercise"));
    bench.file("two", attempt_text(&exercise, &[Action::HandIn]));
    bench.run(&["mark", "--html", "two.html", "two"]);
    assert!(bench.read("two.html").contains("somebody has changed one or the other"));
}

#[test]
fn text_from_outside_stays_text_on_a_page() {
    let bench = Bench::new();
    bench.file("odd", hostile_attempt());
    let run = bench.run(&["mark", "--html", "odd.html", "odd"]);
    assert_eq!(run.code, Some(0), "{}", run.err);
    let page = bench.read("odd.html");
    let odd: Vec<_> = tags(&page)
        .into_iter()
        .filter(|it| {
            ["script", "img", "/script"].contains(&it.split(' ').next().unwrap_or("")) || it.contains("onerror")
        })
        .collect();
    assert!(odd.is_empty(), "{odd:?}");
    assert!(!page.contains(['\u{202e}', '\u{1b}']), "nothing turns the direction of text");
    // The one style sheet, and each drawing, ends where it ends.
    assert_eq!(page.matches("</style>").count(), 1);
    assert_eq!(page.matches("</svg>").count(), page.matches("<svg ").count());
    assert!(page.matches("&lt;script&gt;").count() >= 4, "learner, title, place and brief are there to be read");
}

#[test]
fn a_page_is_written_over_none_but_our_own() {
    let bench = Bench::new();
    let text = attempt_text(&exercise("one-way-rose", 4), &[Action::HandIn]);
    bench.file("one", &text);
    bench.file("notes.html", "<!DOCTYPE html>\nmine");
    bench.file("folder/kept", "");
    let stays =
        |it: &str| format!("error: {it} is there already, was not written by this program, and stays as it is\n");
    bench.run(&["mark", "--html", "notes.html", "one"]).complains(&stays("notes.html"));
    bench.run(&["mark", "--html", "one", "one"]).complains(&stays("one"));
    let run = bench.run(&["mark", "--html", "folder", "one"]);
    assert_eq!((run.out.as_str(), run.code), ("", Some(1)), "{}", run.err);
    bench
        .run(&["mark", "--html", "no/a.html", "one"])
        .complains("error: no/a.html can't be written: there is no such file or folder\n");
    bench
        .run(&["mark", "--html", "a.html", "one", "one"])
        .complains("error: a page holds one attempt; `--html` and `--form` take no more\n");
    bench
        .run(&["mark", "--html", "a.html", "gone"])
        .complains("error: gone can't be read: there is no such file or folder\n");
    assert_eq!((bench.names().join(" "), bench.read("one")), ("folder notes.html one".to_owned(), text));
    assert_eq!(bench.read("notes.html"), "<!DOCTYPE html>\nmine");
    // A second time over its own.
    for _ in 0..2 {
        bench.run(&["mark", "--html", "a.html", "one"]).says("a.html: the mark sheet as a page\n");
    }
}
