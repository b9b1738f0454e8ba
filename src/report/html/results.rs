//! The test sheet on the page: what was written, beside what the readings come to.

use crate::{
    wording::{Wording, device, shown, test_key, written},
    work::Attempt,
};

use super::tags::Page;

/// The section, where a line was written.
pub fn section(page: &mut Page, wording: &Wording, attempt: &Attempt) {
    let mut lines = attempt.safety().testing().sheet().peekable();
    if lines.peek().is_none() {
        return;
    }
    let say = |key: &str| wording.say(key, &[]);
    page.open("section", "results");
    page.element("h2", "", &say("page-results"));
    page.open("table", "");
    page.open("tr", "");
    for key in ["page-test", "page-circuit", "page-written", "page-read"] {
        page.element("th", "", &say(key));
    }
    page.close("tr");
    for (test, at, entry) in lines {
        page.open("tr", "");
        page.element("td", "", &say(test_key(test)));
        page.element("td", "", &device(wording, attempt.work().exercise(), at));
        page.element("td", "", &written(wording, test, entry));
        let read = match &entry.shown {
            None => say("page-not-read"),
            Some(it) if test.has_figure() => shown(wording, it),
            Some(_) => String::new(),
        };
        page.element("td", "", &read);
        page.close("tr");
    }
    page.close("table");
    page.close("section");
}
