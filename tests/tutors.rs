//! What goes out of a class to a tutor's other papers, by the real program: forms for signing, the college's own outcomes beside marks.

use serde_json::{Value, json};
use switchdrop::{attempt::Happened, register::Adjustment, report::Isolated, work::Action};

use crate::{
    bench::{Bench, Run},
    class::{AFTER, Made, cells, class, done, reviewed, right},
    hand::{Hand, exercise, onto_a_short},
};

/// Two learners, the second without a sleeve, reviewed into a register; and the second's receipt.
fn two() -> (Bench, String) {
    let bench = Bench::new();
    let all = class(&bench, 0);
    for it in [right(&all, 1), Made::of(&all, 2, Adjustment::default(), done(&[0]))] {
        bench.file(&it.name(), it.text());
    }
    let review = reviewed(&with_class(&bench, "review", &["--json"]));
    let receipt = review["rows"][1]["files"][0]["receipt"].as_str().expect("a receipt").to_owned();
    (bench, receipt)
}

/// What a command does with the class and its register.
fn with_class(bench: &Bench, command: &str, more: &[&str]) -> Run {
    let run = bench.run(&[&[command, "week-3.ron", "in", "--at", AFTER, "--register", "kept.db"], more].concat());
    assert_eq!(run.code, Some(0), "{}", run.err);
    run
}

fn decide(bench: &Bench, receipt: &str, more: &[&str]) {
    let run = bench.run(&[&["decide", "kept.db", receipt, "--as", "tutor", "--by", "A. Reed"], more].concat());
    assert_eq!(run.code, Some(0), "{}", run.err);
}

const MAP: &str = r#"Outcomes(unit: "Unit 4", criteria: [
    Meets(criterion: "identification", outcome: "=4.2"),
    Meets(criterion: "safe-working", outcome: "4.7"),
])"#;
const BESIDE: &str = "(practice record, not evidence of competence)";

/// The outcome stands beside its criterion in both tables and on the page, and nowhere for a criterion that speaks to none.
#[test]
fn the_colleges_outcomes_go_into_tables_and_page() {
    let (bench, _) = two();
    bench.file("map.ron", MAP);
    let files = ["--csv", "wide.csv", "--csv-findings", "long.csv", "--page", "class.html"];
    let told = with_class(&bench, "review", &[&["--outcomes", "map.ron"], &files[..]].concat()).out;
    assert!(told.contains(&format!("Unit 4: 4.7 {BESIDE}")), "{told}");
    let wide = cells(bench.read("wide.csv").trim_start_matches('\u{feff}'));
    let column = |name: &str| wide[0].iter().position(|it| it == name);
    let (marks, outcome) = (column("identification").expect("marks"), column("identification unit_outcome"));
    assert_eq!(outcome, Some(marks + 1), "{:?}", wide[0]);
    // No formula, and every row is as long as the first.
    assert_eq!(wide[1][marks + 1], "'=4.2");
    assert!(wide.iter().all(|it| it.len() == wide[0].len()));
    assert_eq!(column("polarity unit_outcome"), None);
    let long = cells(bench.read("long.csv").trim_start_matches('\u{feff}'));
    let at = |name: &str| long[0].iter().position(|it| it == name).expect(name);
    assert_eq!((long[1][at("code")].as_str(), long[1][at("unit_outcome")].as_str()), ("mark-missing", "'=4.2"));
    assert!(long[1][at("record")].contains("not evidence of competence"));
    assert!(bench.read("class.html").contains(&format!("Unit 4: =4.2 {BESIDE}")));
    // Without a map there is no such column.
    with_class(&bench, "review", &files);
    assert!(!bench.read("wide.csv").contains("unit_outcome") && !bench.read("long.csv").contains("unit_outcome"));
    bench.file(
        "map.ron",
        "Outcomes(unit: \"Unit 4\", criteria: [\n  Meets(criterion: \"earthin\", outcome: \"4\"),\n])",
    );
    let wrong = bench.run(&["review", "week-3.ron", "in", "--outcomes", "map.ron"]);
    assert!(wrong.err.contains("map.ron:2:20") && wrong.err.contains("did you mean `earthing`?"), "{}", wrong.err);
    assert_eq!(wrong.code, Some(1));
}

/// A form for each learner whose work counts, with group, unit, decision and comment where somebody would write them.
#[test]
fn a_class_has_its_forms_on_one_page_with_what_is_known_filled_in() {
    let (bench, receipt) = two();
    bench.file("map.ron", MAP);
    decide(&bench, &receipt, &["--marks", "96", "--why", "the sleeve lay beside it"]);
    decide(&bench, &receipt, &["--finding", "mark-missing@drop/blue@switch", "--why", "<b>overruled</b>"]);
    decide(&bench, &receipt, &["--step", "2", "--why", "tug it first"]);
    let run = with_class(&bench, "forms", &["--outcomes", "map.ron", "-o", "forms.html"]);
    assert_eq!((run.out.as_str(), run.err.as_str()), ("forms.html: forms for signing: 2\n", ""));
    let page = bench.read("forms.html");
    let forms: Vec<&str> = page.split("<main class=\"form\">").skip(1).collect();
    assert_eq!(forms.len(), 2, "one for each of those who handed in, of a roster of 24");
    for it in &forms {
        assert!(it.contains("=Group &lt;2&gt;, Unit 4. This is a record of practice"), "{it}");
        assert!(it.contains(">4.7<") && it.contains(">=4.2<"), "{it}");
        assert_eq!(it.matches("Signature").count(), 4);
        // The board of this exercise has no supply until the work is done: nothing is to be locked, and nothing is missed.
        assert!(it.contains("Resets of a device that had tripped: 0.</p>"), "{it}");
    }
    for part in ["96 marks; the sleeve lay beside it", "&lt;b&gt;overruled&lt;/b&gt;", "tug it first"] {
        assert!(forms[1].contains(part) && !forms[0].contains(part), "{part}: {page}");
    }
    // The comment stands in the row of its finding.
    let row = forms[1].split("<tr>").find(|it| it.contains("overruled&lt;")).expect("a row");
    assert!(
        row.contains("<td>☐</td>") && row.contains("no mark") | row.contains("sleeve") | row.contains("blue"),
        "{row}"
    );
    assert!(!page.contains("<b>overruled"));
    // The work of one alone; of nobody who handed in, and a file that is somebody else's.
    with_class(&bench, "forms", &["-o", "forms.html", "--learner", "1"]);
    assert_eq!(bench.read("forms.html").matches("<main").count(), 1);
    let nobody = bench.run(&["forms", "week-3.ron", "in", "-o", "none.html", "--learner", "7"]);
    assert_eq!(
        (nobody.err.as_str(), nobody.code),
        ("error: nothing that was asked for counts, so there is no form to sign\n", Some(1))
    );
    bench.file("notes.html", "mine");
    assert_eq!(bench.run(&["forms", "week-3.ron", "in", "-o", "notes.html"]).code, Some(1));
    assert_eq!(bench.read("notes.html"), "mine");
    // A form of one has the outcomes too.
    let one = [
        "mark",
        "--unfinished",
        "--form",
        "one.html",
        "--outcomes",
        "map.ron",
        "in/week-3_1_wire-a-switch_1.attempt.ron",
    ];
    assert_eq!(bench.run(&one).code, Some(0));
    assert!(bench.read("one.html").contains(">4.7<"));
}

/// An action a second, so that what is counted by hand in actions is counted in seconds by the form.
fn times(hand: &Hand) -> Vec<u64> {
    (1..=hand.attempt.log().len() as u64).map(|it| it * 1000).collect()
}

/// From the lock to the last act of proving the first place, whatever comes after.
#[test]
fn from_lock_to_proved_is_counted_to_the_first_place() {
    let mut hand = Hand::new(exercise("one-way-rose", 4));
    assert_eq!(Isolated::of(&hand.attempt, &times(&hand)), Isolated::default());
    hand.locks_off();
    let locked = hand.attempt.log().iter().position(|it| matches!(it, Action::LockOff { .. })).expect("a lock");
    assert_eq!(Isolated::of(&hand.attempt, &times(&hand)).lock_to_proved, None);
    let places = hand.places();
    hand.proves_dead(places[0]);
    let proved = hand.attempt.log().len() - 1;
    hand.proves_dead(places[1]);
    let isolated = Isolated::of(&hand.attempt, &times(&hand));
    assert_eq!(isolated, Isolated { resets: 0, lock_to_proved: Some((proved - locked) as u64 * 1000) });
    // Without times nothing is said of them.
    assert_eq!(Isolated::of(&hand.attempt, &[]).lock_to_proved, None);
}

/// A reset that was stopped does not count; one that was carried out does, whatever came of it.
#[test]
fn a_reset_that_was_carried_out_is_counted() {
    let mut hand = onto_a_short(exercise("one-way-rose", 4));
    let operate = Action::Operate { switch: "switch".to_owned(), position: 1 };
    assert!(matches!(hand.attempt.act(operate), Ok(Happened::Tripped(_))));
    let reset = || Action::Reset { device: "board.2".to_owned() };
    assert!(hand.attempt.act(reset()).is_ok(), "it is stopped, not refused");
    assert_eq!(Isolated::of(&hand.attempt, &[]).resets, 0);
    hand.does(Action::LockOff { device: "board.2".to_owned() });
    hand.does(Action::RemoveCover { location: "rose".to_owned() });
    let rose = hand.exercise().location("rose").expect("the rose");
    hand.proves_dead(rose);
    hand.closes_up();
    hand.does(Action::Unlock { device: "board.2".to_owned() });
    hand.sets(&[1]);
    assert!(matches!(hand.attempt.act(reset()), Ok(Happened::Tripped(_))));
    assert_eq!(Isolated::of(&hand.attempt, &[]).resets, 1);
}

/// A table as a platform gives it: 1 and 2 handed in, 3 did not and is on the roster, 99 is not; a name that would be a formula, a number with a sign.
const PLATFORM: &str = "\u{feff}Name,ID number,\"Week 3, out of 100\",Result,Handed in,Balance\r\n\
    \"=HYPERLINK(\"\"x\"\")\",1,,,,-5\r\n\"Okoro, Sam\",2,85,Pass,,+0.5\r\nRobin,3,12,,,\r\nNobody,99,50,,,\r\n";

const COLUMNS: &str =
    r#"Gradebook(learner: "ID number", mark: "Week 3, out of 100", outcome: "Result", date: "Handed in")"#;

/// What comes of filling it in: the table, read by lines of our own, and what was said.
fn filled(bench: &Bench, out: &str) -> (Vec<Vec<String>>, String) {
    let more = ["--table", "platform.csv", "--columns", "columns.ron", "-o", out];
    let run = with_class(bench, "gradebook", &more);
    let table = bench.read(out);
    assert!(table.starts_with('\u{feff}') && table.matches("\r\n").count() == 5, "as the platform wrote it: {table}");
    (cells(table.trim_start_matches('\u{feff}')), run.err)
}

#[test]
fn a_platforms_table_is_filled_in_with_what_was_released_and_nothing_else() {
    let (bench, receipt) = two();
    bench.file("platform.csv", PLATFORM);
    bench.file("columns.ron", COLUMNS);
    let given = cells(PLATFORM.trim_start_matches('\u{feff}'));
    // Before a release every row is as it was, but for the formula.
    let (table, said) = filled(&bench, "none.csv");
    assert_eq!(table[1][0], "'=HYPERLINK(\"x\")");
    assert_eq!((&table[0], &table[1][1..], &table[2..]), (&given[0], &given[1][1..], &given[2..]));
    assert!(said.contains("nothing is released yet, and the row is as it was; learners: 1, 2, 3\n"), "{said}");
    assert!(said.contains("rows of nobody on the roster, left as they were: 1\n"), "{said}");
    assert!(
        said.contains("with no row in the table; learners: 4, 5, 6, ") && said.contains("apostrophe now: 1\n"),
        "{said}"
    );
    // One is released; the other is a refer by then, and its older number goes.
    decide(&bench, &receipt, &["--outcome", "refer", "--why", "see me"]);
    let release = ["--pages", "pages", "--by", "A. Reed"];
    with_class(&bench, "release", &release);
    let (table, said) = filled(&bench, "all.csv");
    // Handed in after 20 seconds an action, from 9:00 UTC.
    let handed_in = |learner: u64| {
        let file = bench.read(&format!("in/week-3_{learner}_wire-a-switch_1.attempt.ron"));
        let seconds = 20 * (file.lines().count() as u64 - 2);
        format!("2026-11-03T09:{:02}:{:02}Z", seconds / 60, seconds % 60)
    };
    assert_eq!(table[1][1..], ["1", "100", "pass", &handed_in(1), "-5"]);
    assert_eq!(table[2], ["Okoro, Sam", "2", "", "refer", &handed_in(2), "+0.5"]);
    assert_eq!(table[3..], given[3..]);
    assert!(
        said.contains("no marks are filled in for a refer, so that none is taken for a result; learners: 2\n"),
        "{said}"
    );
    // Nothing takes another file's place, the platform's own table least of all.
    assert_eq!(gradebook(&bench, "platform.csv").code, Some(1));
    assert_eq!(bench.read("platform.csv"), PLATFORM);
}

/// The platform's table filled in, whatever comes of it.
fn gradebook(bench: &Bench, out: &str) -> Run {
    let class = ["gradebook", "week-3.ron", "in", "--register", "kept.db"];
    bench.run(&[&class[..], &["--table", "platform.csv", "--columns", "columns.ron", "-o", out]].concat())
}

/// Names stand for learners, cells are parted by semicolons, lines end as on another system, and there is no outcome to write.
#[test]
fn a_table_of_another_form_is_filled_in_as_it_is() {
    let (bench, _) = two();
    with_class(&bench, "release", &["--pages", "pages", "--by", "A. Reed", "--learner", "1"]);
    bench.file("platform.csv", "Who;Mark\nRobin Hale;\nSam Okoro;7\n");
    let columns =
        r#"Gradebook(learner: "Who", mark: "Mark", learners: {"Robin Hale": 1, "Sam Okoro": 2}, separator: ';')"#;
    bench.file("columns.ron", columns);
    with_class(&bench, "gradebook", &["--table", "platform.csv", "--columns", "columns.ron", "-o", "all.csv"]);
    assert_eq!(bench.read("all.csv"), "Who;Mark\n\"Robin Hale\";100\n\"Sam Okoro\";7\n");
}

/// No column is guessed: what does not fit is said, and nothing is written.
#[test]
fn a_column_that_is_not_there_is_not_made_up() {
    let (bench, _) = two();
    for (table, columns, says) in [
        (
            "ID,Mark\r\n1,\r\n",
            r#"(learner: "ID", mark: "Marks")"#,
            "platform.csv has no column `Marks`; it has: ID, Mark",
        ),
        ("ID,Mark,Mark\r\n1,,\r\n", r#"(learner: "ID", mark: "Mark")"#, "two columns are called so"),
        ("ID,Mark\r\n1,\r\n", r#"(learner: "ID", mark: "ID")"#, "two things go into it"),
        (
            "ID,Mark\r\n1,\r\n1,\r\n",
            r#"(learner: "ID", mark: "Mark")"#,
            "learner 1 has a second row in platform.csv, on line 3",
        ),
        ("ID,Mark\r\n1\r\n", r#"(learner: "ID", mark: "Mark")"#, "line 2 of platform.csv can't be read as a table"),
        ("ID,Mark\r\n1,\r\n", r#"(learner: "ID", mark: "Mark", exercise: "x")"#, "this assignment sets: wire-a-switch"),
        (
            "ID,Mark\r\n1,\r\n",
            r#"(learner: "ID", mark: "Mark", separator: '.')"#,
            "`.` is not a known separator of cells",
        ),
    ] {
        bench.file("platform.csv", table);
        bench.file("columns.ron", format!("Gradebook{columns}"));
        let run = gradebook(&bench, "x.csv");
        assert!(run.err.contains(says) && run.code == Some(1), "{says}: {}", run.err);
        assert!(!bench.path("x.csv").exists());
    }
}

/// Each part as the specification has it (xAPI 1.0.3, part two, 2.4), worked out by hand; nothing of what was not released.
#[test]
fn what_was_released_is_told_as_statements() {
    let (bench, receipt) = two();
    let told = |bench: &Bench| -> Vec<Value> {
        let more = ["--accounts", "https://accounts.example", "--activities", "https://college.example/lights/"];
        let run = with_class(bench, "statements", &more);
        run.out.lines().map(|it| serde_json::from_str(it).expect("JSON")).collect()
    };
    assert_eq!(told(&bench), Vec::<Value>::new());
    decide(&bench, &receipt, &["--outcome", "refer", "--why", "see me"]);
    with_class(&bench, "release", &["--pages", "pages", "--by", "A. Reed"]);
    let all = told(&bench);
    assert_eq!(all.len(), 2);
    // Twenty seconds an action; the actions are the lines of the file without its first two.
    let file = bench.read("in/week-3_1_wire-a-switch_1.attempt.ron");
    let seconds = 20 * (file.lines().count() as u64 - 2);
    let mut first = all[0].clone();
    let id = first["id"].take();
    let groups: Vec<usize> = id.as_str().expect("an id").split('-').map(str::len).collect();
    assert_eq!(groups, [8, 4, 4, 4, 12]);
    let is = json!({
        "id": null,
        "version": "1.0.3",
        "actor": { "objectType": "Agent", "account": { "homePage": "https://accounts.example", "name": "1" } },
        "verb": { "id": "http://adlnet.gov/expapi/verbs/passed", "display": { "en-GB": "passed" } },
        "object": {
            "objectType": "Activity",
            "id": "https://college.example/lights/week-3/wire-a-switch",
            "definition": { "name": { "en-GB": "Two ends at a switch" } },
        },
        "result": {
            "success": true,
            "completion": true,
            "duration": format!("PT{seconds}.00S"),
            "score": { "scaled": 1.0, "raw": 100, "min": 0, "max": 100 },
            "extensions": { "https://college.example/lights/outcome": "pass" },
        },
        "context": {
            "platform": concat!("Switchdrop ", env!("CARGO_PKG_VERSION")),
            "language": "en-GB",
            "extensions": {
                "https://college.example/lights/record": "This is a record of practice, not evidence of competence.",
            },
        },
        "timestamp": format!("2026-11-03T09:{:02}:{:02}Z", seconds / 60, seconds % 60),
    });
    assert_eq!(first, is);
    // A refer has no score, and is no pass.
    let second = &all[1];
    assert_eq!((&second["result"]["score"], &second["result"]["success"]), (&Value::Null, &json!(false)));
    assert_eq!(second["verb"]["id"], "http://adlnet.gov/expapi/verbs/completed");
    // The same release has the same statement: a store that has it takes it once.
    assert_eq!(told(&bench), all);
    assert_ne!(all[0]["id"], second["id"]);
    let odd = [
        "statements",
        "week-3.ron",
        "in",
        "--register",
        "kept.db",
        "--accounts",
        "nowhere",
        "--activities",
        "https://a",
    ];
    assert_eq!(bench.run(&odd).code, Some(2));
}
