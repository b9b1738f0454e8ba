//! The sheet as a tutor would sign it: since when, what would have happened, what was done well; and the page of HTML.

use std::{fs, path::Path, sync::Arc};

use switchdrop::{
    circuit::Physics,
    exercise::{Exercise, Seed, draw},
    marking::{Consequence, Criterion, Finding, Review, Root, Sheet, VERSION, Well, mark, review},
    wording::{Wording, report_in_full, would_have},
    work::{Action, Attempt, Header, Mode, action_line, first_lines, open, opened_line},
};

use crate::{
    bench::{Bench, attempt_text},
    hand::{exercise, one_way_model, scenario, two_way_model},
};

/// The model of an exercise with its actions changed; what is stopped or refused then is left at that.
fn changed(of: &Attempt, change: impl Fn(&Action) -> Vec<Action>) -> Attempt {
    let mut attempt = Attempt::new(Arc::clone(of.work().exercise()));
    for action in of.log().iter().flat_map(change) {
        let _ = attempt.act(action, &Physics);
    }
    attempt
}

fn connects(it: &Action, which: &str) -> bool {
    matches!(it, Action::Connect { end, .. } if end == which)
}

fn reviewed(attempt: &Attempt) -> (Sheet, Review) {
    let sheet = mark(attempt, Mode::Set);
    let review = review(attempt, &sheet);
    (sheet, review)
}

/// The first cause of a code, by its place on the sheet.
#[track_caller]
fn cause(sheet: &Sheet, code: &str) -> usize {
    let wanted = |it: &Finding| it.code.word() == code && it.root == Root::Itself;
    sheet.findings.iter().position(wanted).unwrap_or_else(|| panic!("no {code}: {:#?}", sheet.findings))
}

/// The switch return in the neutral block: line and neutral meet when the switch is on.
fn shorted() -> Attempt {
    let model = one_way_model().attempt;
    changed(&model, |it| match it {
        Action::Connect { end, .. } if end == "drop/blue@rose" => {
            vec![Action::Connect { end: end.clone(), terminal: "rose.neutral".to_owned() }]
        }
        it => vec![it.clone()],
    })
}

/// On paper: the way from loop to neutral by the drop is whole once both its browns and both its blues are in, so the short is
/// there from the last of the four on.
#[test]
fn a_short_arose_when_its_way_was_whole() {
    let attempt = shorted();
    let (sheet, review) = reviewed(&attempt);
    let ends = ["drop/brown@rose", "drop/blue@rose", "drop/brown@switch", "drop/blue@switch"];
    let last = attempt.log().iter().rposition(|it| ends.iter().any(|end| connects(it, end)));
    assert_eq!(review.arose[cause(&sheet, "short-line-neutral")], last);
}

/// On paper: a mark put on and taken off again is missing from the step that took it off.
#[test]
fn a_mark_taken_off_is_missing_from_that_step_on() {
    let grey = "link/grey@east";
    let attempt = changed(&two_way_model().attempt, |it| match it {
        Action::Mark { end, .. } if end == grey => vec![it.clone(), Action::Unmark { end: grey.to_owned() }],
        it => vec![it.clone()],
    });
    let (sheet, review) = reviewed(&attempt);
    let unmarked = attempt.log().iter().position(|it| matches!(it, Action::Unmark { .. }));
    // What is not connected needs no mark, so it may as well be the step that connects it.
    let connected = attempt.log().iter().position(|it| connects(it, grey));
    assert_eq!(review.arose[cause(&sheet, "mark-missing")], unmarked.max(connected));
}

#[test]
fn an_act_arose_when_it_was_done_and_what_was_never_done_has_no_moment() {
    let mut attempt = Attempt::new(exercise("two-way-stairs", 4));
    attempt.act(Action::Agree, &Physics).unwrap();
    attempt.act(Action::RemoveCover { location: "west".to_owned() }, &Physics).unwrap();
    attempt.act(Action::HandIn, &Physics).unwrap();
    let (sheet, review) = reviewed(&attempt);
    assert_eq!(review.arose[cause(&sheet, "worked-live")], Some(1));
    assert_eq!(review.arose[cause(&sheet, "stage-missing")], None);
    assert_eq!(review.well, [], "nothing was done");
}

/// A log longer than is asked step by step gives the same moment: switches worked a thousand times after the slip.
#[test]
fn a_long_log_has_the_same_moments() {
    let (short, long) = (shorted(), {
        let model = shorted();
        let turn = |position| Action::Operate { switch: "switch".to_owned(), position };
        changed(&model, |it| {
            let turns = if connects(it, "feed/brown@rose") { 450 } else { 0 };
            let turns = (0..turns).flat_map(|_| [turn(1), turn(0)]);
            turns.chain([it.clone()]).collect()
        })
    });
    let moment = |attempt: &Attempt| {
        let (sheet, review) = reviewed(attempt);
        let action = review.arose[cause(&sheet, "short-line-neutral")].unwrap();
        attempt.log()[action].clone()
    };
    assert!(long.log().len() > 900, "{}", long.log().len());
    assert_eq!(moment(&short), moment(&long));
}

/// On paper: out by the two browns, back by the two blues; 230 V over about an ohm is well over 100 A, and a 6 A type B device
/// opens on more than five times its rating in less than 0.1 s (BS EN 60898-1).
#[test]
fn a_short_played_out_goes_by_its_cores_and_opens_the_device() {
    let attempt = shorted();
    let (sheet, review) = reviewed(&attempt);
    let found = review.would_have[cause(&sheet, "short-line-neutral")].as_ref().expect("a course");
    let Consequence::Opens { way, amps, opened, .. } = found else { panic!("{found:?}") };
    assert_eq!(way, &["board.2", "feed/brown", "drop/brown", "drop/blue", "feed/blue"]);
    assert!(*amps > 100.0, "{amps}");
    assert!(opened.len() == 1 && (opened[0].within - 0.1).abs() < 1e-9, "{opened:?}");
    let said = would_have(&Wording::british(), attempt.work(), found);
    assert!(said.ends_with("device 2 opens within 0.1 s."), "{said}");
}

/// Ohm's law: 230 V over a body of 2,000 ohm (and nothing else to speak of) is 115 mA; that is 3.8 times 30 mA, and a residual
/// current device opens on twice its rating within 150 ms (BS EN 61009-1).
#[test]
fn a_hand_on_a_live_lampholder_gets_the_whole_voltage_and_then_the_device_opens() {
    let attempt = changed(&one_way_model().attempt, |it| match it {
        Action::Connect { end, .. } if end == "flex/brown@rose" => {
            vec![Action::Connect { end: end.clone(), terminal: "rose.loop".to_owned() }]
        }
        it => vec![it.clone()],
    });
    let (sheet, review) = reviewed(&attempt);
    let told =
        sheet.findings.iter().zip(&review.would_have).find(|(it, _)| it.root == Root::Itself).expect("a cause").1;
    let Some(Consequence::Touch { volts, amps, opened: Some(opened), way, first_fault, .. }) = told else {
        panic!("{told:?}")
    };
    assert!((225.0..=230.0).contains(volts), "{volts}");
    assert!((0.112..=0.115).contains(amps), "{amps}");
    assert!((opened.within - 0.15).abs() < 1e-9 && !first_fault, "{opened:?}");
    assert_eq!(way.first().map(String::as_str), Some("board.2"));
    assert!(way.contains(&"feed/brown".to_owned()) && way.contains(&"flex/brown".to_owned()), "{way:?}");
}

/// The drop's cpc left out: the metal box has no earth, and a line against it leaves it at the full voltage. The residual
/// current device sees nothing until somebody touches it (no current flows before).
#[test]
fn metal_with_no_earth_waits_for_a_hand() {
    let attempt = changed(&one_way_model().attempt, |it| {
        if connects(it, "drop/cpc@switch") || connects(it, "drop/cpc@rose") { Vec::new() } else { vec![it.clone()] }
    });
    let (sheet, review) = reviewed(&attempt);
    let told: Vec<&Consequence> = review.would_have.iter().flatten().collect();
    let touch = told.iter().find_map(|it| match it {
        Consequence::Touch { first_fault: true, volts, way, .. } => Some((*volts, way)),
        _ => None,
    });
    let (volts, way) = touch.unwrap_or_else(|| panic!("{:#?}", sheet.findings));
    assert!((225.0..=230.0).contains(&volts), "{volts}");
    assert_eq!(way.last().map(String::as_str), Some("switch.box.earth"), "{way:?}");
    for it in told {
        let said = would_have(&Wording::british(), attempt.work(), it);
        assert!(!said.contains('['), "{said}");
        assert!(!matches!(it, Consequence::Touch { .. }) || said.contains("No touch of it is safe."), "{said}");
    }
}

#[test]
fn a_model_is_told_what_was_well_done() {
    let (sheet, review) = reviewed(&two_way_model().attempt);
    assert!(sheet.findings.is_empty());
    for it in [
        Well::Whole(Criterion::Function),
        Well::Whole(Criterion::SafeWorking),
        Well::LockedFirst,
        Well::ProvedTwice,
        Well::NothingUnsafe,
        Well::Checked,
        Well::HeldAtOnce,
    ] {
        assert!(review.well.contains(&it), "{it:?} is not in {:?}", review.well);
    }
    assert!(!review.well.contains(&Well::Whole(Criterion::Rework)), "it is not asked for");
}

/// Two sittings: 65 s and 5 s of work are 1 min 10 s, whatever lies between.
#[test]
fn moments_are_in_time_of_work() {
    let exercise = exercise("two-way-stairs", 4);
    let header = Header::new(VERSION, &exercise, "R".to_owned(), "2026-03-02T09:30:00Z".to_owned(), Mode::Set);
    let mut text = first_lines(&header, &exercise).unwrap();
    text += &action_line(65_000, &Action::Agree).unwrap();
    text += &opened_line("2026-03-09T09:30:00Z".to_owned()).unwrap();
    text += &action_line(5_000, &Action::RemoveCover { location: "west".to_owned() }).unwrap();
    let opened = open(&text).unwrap();
    assert_eq!(opened.times(), [65_000, 70_000]);
    let attempt = opened.replay(&Physics).unwrap();
    let (sheet, review) = reviewed(&attempt);
    let lines = report_in_full(&Wording::british(), "R", &attempt, &sheet, &review, &opened.times());
    let since = "   Since: step 2 of the work, after 1 min 10 s";
    assert!(lines.iter().any(|it| it.text == since), "{lines:#?}");
}

/// A file as the first version of the marking wrote it, `tightness` and all: its digest holds, it is no other exercise, and
/// its marks are what they were.
#[test]
fn an_attempt_of_the_first_version_is_read_as_before() {
    let bench = Bench::new();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/old/marking-1.attempt.ron");
    bench.file("old", fs::read(path).expect("it is kept"));
    let run = bench.run(&["mark", "--json", "old"]);
    let notice = "notice: old was begun under another version of the marking; it is marked by this one\n";
    assert_eq!((run.err.as_str(), run.code), (notice, Some(0)));
    let json: serde_json::Value = serde_json::from_str(&run.out).expect("JSON");
    assert_eq!((&json["differs"], &json["marks"], &json["outcome"]), (&false.into(), &100.into(), &"pass".into()));
    assert_eq!(json["criteria"][4], serde_json::json!({"name": "terminations", "marks": 10, "out_of": 10}));
}

const HOSTILE: &str = "<script>x</script> & '\"<img src=x onerror=y>";

/// An attempt whose every text from outside tries to be markup.
fn hostile() -> String {
    let text = scenario("one-way-rose")
        .replace("The scullery light is new", "</p><script>alert(1)</script><b onload='x'>")
        .replace("Fernhay Cottage, the scullery", "<iframe>&amp;<style>")
        .replace("name: \"scullery switch\"", "name: \"<svg onload=x>\"")
        .replace("name: \"switch drop\"", "name: \"drop]]><a href=x>\"");
    let exercise: Exercise = draw(&text, Seed(4)).unwrap_or_else(|it| panic!("{it:#?}"));
    let learner = HOSTILE.replace('/', "").replace("script>x<script", "script>x");
    let header = Header::new(VERSION, &exercise, learner, "2026-03-02T09:30:00Z".to_owned(), Mode::Set);
    let mut out = first_lines(&header, &exercise).unwrap();
    for (number, action) in shorted().log().iter().enumerate() {
        out += &action_line(number as u64 * 1000, action).unwrap();
    }
    out
}

/// Every element name and attribute of a page, and that it is well formed, by a reader of another make.
fn elements(page: &str) -> Vec<(String, Vec<(String, String)>)> {
    let body = page.strip_prefix("<!DOCTYPE html>\n").expect("a page of HTML");
    let read = roxmltree::Document::parse(body).unwrap_or_else(|it| panic!("{it}\n{page}"));
    let named = |it: roxmltree::Node<'_, '_>| {
        let attributes = it.attributes().map(|it| (it.name().to_owned(), it.value().to_owned())).collect();
        (it.tag_name().name().to_owned(), attributes)
    };
    read.descendants().filter(roxmltree::Node::is_element).map(named).collect()
}

#[test]
fn a_page_holds_nothing_but_itself_whatever_the_attempt_says() {
    let bench = Bench::new();
    bench.file("a", hostile());
    // The exercise is another than the one at hand, and that is said.
    let run = bench.run(&["mark", "--html", "a.html", "a"]);
    assert_eq!((run.out.as_str(), run.code), ("", Some(0)), "{}", run.err);
    let page = bench.read("a.html");
    let all = elements(&page);
    let names = [
        "html", "head", "meta", "title", "style", "body", "main", "h1", "h2", "p", "span", "table", "thead", "tbody",
        "tr", "th", "td", "ul", "ol", "li", "dl", "dt", "dd", "section", "div", "figure", "svg", "desc", "g", "path",
        "circle", "rect", "text",
    ];
    for (name, attributes) in &all {
        assert!(names.contains(&name.as_str()), "an element that is not ours: {name}");
        for (attribute, value) in attributes {
            assert!(
                !attribute.starts_with("on") && !["href", "src", "style"].contains(&attribute.as_str()),
                "{attribute}"
            );
            assert!(!value.contains("url("), "{value}");
        }
    }
    assert!(page.contains("&lt;/p&gt;&lt;script&gt;alert(1)"), "the brief is there, as text");
    assert!(!page.contains("@import") && !page.contains("url("), "nothing is fetched");
    let outside = page.matches("http").count();
    assert_eq!(outside, page.matches("http-equiv").count() + page.matches("http://www.w3.org/2000/svg").count());
}

#[test]
fn a_page_says_what_the_report_says() {
    let bench = Bench::new();
    bench.file("a", attempt_text(&exercise("one-way-rose", 4), shorted().log()));
    bench.file("b", attempt_text(&exercise("two-way-stairs", 4), two_way_model().attempt.log()));
    bench.run(&["mark", "--html", "p.html", "a", "b"]).says("");
    let page = bench.read("p.html");
    assert_eq!(elements(&page).iter().filter(|it| it.0 == "main").count(), 2);
    for text in [
        "This is a record of practice, not evidence of competence.",
        "Refer: ",
        "Pass: 100 of 100 marks",
        "device 2 opens within 0.1 s.",
        "Nothing was touched, opened or switched on that must not be.",
        "What would have happened",
    ] {
        assert!(page.contains(text), "{text}\n{page}");
    }
    for address in ["sha256", "link/", "@rose", "board.2", "[page", "[finding"] {
        assert!(!page.contains(address), "{address}");
    }
}

#[test]
fn a_page_replaces_a_page_and_nothing_else() {
    let bench = Bench::new();
    let text = attempt_text(&exercise("two-way-stairs", 4), &[Action::HandIn]);
    bench.file("a", &text);
    bench.file("notes.html", "my own notes");
    for (of, why) in [("notes.html", "notes.html"), ("a", "a")] {
        let run = bench.run(&["mark", "--html", of, "a"]);
        assert_eq!((run.out.as_str(), run.code), ("", Some(1)), "{}", run.err);
        assert!(run.err.starts_with(&format!("error: {why} ")), "{}", run.err);
    }
    assert_eq!((bench.read("notes.html").as_str(), bench.read("a")), ("my own notes", text));
    for _ in 0..2 {
        bench.run(&["mark", "--html", "p.html", "a"]).says("");
    }
    let run = bench.run(&["mark", "--html", "q.html", "none"]);
    assert_eq!((run.out.as_str(), run.code), ("", Some(1)), "{}", run.err);
    assert_eq!(bench.names(), ["a", "notes.html", "p.html"], "no page of nothing, no half page");
    let many: Vec<&str> = ["mark", "--html", "q.html"].into_iter().chain(std::iter::repeat_n("a", 65)).collect();
    bench.run(&many).complains("error: one page holds 64 sheets at most; name fewer attempts\n");
}
