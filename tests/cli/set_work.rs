use switchdrop::register::{Adjustment, seed_of};

use super::{Bench, script};
use crate::hand::first_model;

const MADE: [&str; 16] = [
    "assign",
    "week-3.ron",
    "--id",
    "week-3",
    "--group",
    "Group 2",
    "--exercise",
    "wire-a-switch",
    "--learners",
    "1-3,7",
    "--opens",
    "2026-11-02T09:00:00+00:00",
    "--due",
    "2099-11-06T17:00:00+00:00",
    "--tries",
    "2",
];

const TERMS: &str = "It opens on Monday 2 November 2026, 09:00 (UTC).\n\
                     It is due on Friday 6 November 2099, 17:00 (UTC).\n\
                     Tries at each exercise: 2; the best counts.\n\
                     There are no hints.\n\
                     Marks and findings are for when the tutor releases them.\n";

#[test]
fn an_assignment_is_made_and_never_over_another() {
    let bench = Bench::new();
    bench.run(&MADE).says(&format!(
        "week-3.ron: the assignment `week-3` (“Two ends at a switch”) for Group 2; learners: 4, exercises: 1. Hand this file out; it \
         holds no names\n{TERMS}"
    ));
    let text = bench.read("week-3.ron");
    bench.run(&MADE).complains(
        "error: week-3.ron is there already and stays as it is: an assignment that was handed out must not change. Give another name, \
         and another `--id` for another assignment\n",
    );
    assert_eq!(bench.read("week-3.ron"), text);
    let with = |at: usize, other: &'static str| {
        let mut args = MADE;
        args[1] = "other.ron";
        args[at] = other;
        bench.run(&args)
    };
    with(3, "Week").complains(
        "error: `Week` can't be an id: 1 to 32 lower-case letters, digits and hyphens, beginning with neither a hyphen nor `made-`, and \
         no name that Windows keeps for a device\n",
    );
    with(7, "wire-a-swich").complains("error: there is no exercise `wire-a-swich`; did you mean `wire-a-switch`?\n");
    with(13, "2026-11-01T17:00:00+00:00")
        .complains("error: 2026-11-01T17:00:00+00:00 is before 2026-11-02T09:00:00+00:00, which should come first\n");
    with(9, "1-3,2").complains("error: `2` is here already\n");
    assert_eq!(bench.names(), ["week-3.ron"]);
}

#[test]
fn a_preview_says_what_a_learner_gets_and_a_code_changes_it() {
    let bench = Bench::new();
    bench.run(&MADE);
    let seed = seed_of("week-3", 7, "wire-a-switch", 0).0;
    let whole = |seed: u64, terms: &str, code: &str| {
        format!(
            "Learner 7: the assignment `week-3` (“Two ends at a switch”), Group 2\n{terms}{code}wire-a-switch: Two ends at a switch \
             (Practice board 3, the north bay), drawn from {seed} (`variant wire-a-switch --seed {seed} --assignment week-3.ron` gives it whole); the first try is \
             handed in as week-3_7_wire-a-switch_1.attempt.ron\n"
        )
    };
    bench.run(&["assign", "week-3.ron", "--preview", "7"]).says(&whole(seed, TERMS, ""));
    let code = Adjustment::new(25, 1).unwrap().code("week-3", 7);
    let told =
        format!("{code} is the code of learner 7: 25 minutes of extra time, draw 1. Hand it to that learner alone\n");
    bench.run(&["assign", "week-3.ron", "--adjust", "7", "--minutes", "25", "--draw", "1"]).says(&told);
    let seed = seed_of("week-3", 7, "wire-a-switch", 1).0;
    bench.run(&["assign", "week-3.ron", "--preview", "7", "--code", &code]).says(&whole(
        seed,
        &TERMS.replace("17:00", "17:25"),
        &told,
    ));
    bench.run(&["assign", "week-3.ron", "--preview", "3", "--code", &code]).complains(
        "error: this is no code of learner 3 in the assignment `week-3`: look at it again, character by character\n",
    );
    bench
        .run(&["assign", "week-3.ron", "--preview", "8"])
        .complains("error: the assignment `week-3` has no learner 8\n");
}

/// The model of the first exercise does for every variant of it.
#[test]
fn set_work_is_begun_handed_in_and_counted() {
    let bench = Bench::new();
    bench.run(&MADE);
    let begin = ["record", "in", "--assignment", "week-3.ron", "--learner", "7"];
    let model = script(first_model().attempt.log());
    let run = bench.run_with(&begin, &model);
    let first = "in/week-3_7_wire-a-switch_1.attempt.ron";
    assert_eq!((run.err.as_str(), run.code), (format!("notice: {first}: try 1\n").as_str(), Some(0)));
    let json: serde_json::Value =
        serde_json::from_str(&bench.run(&["mark", "--json", "--unfinished", first]).out).unwrap();
    let digest = switchdrop::attempt::sha256(bench.read("week-3.ron").as_bytes());
    let assigned = serde_json::json!({
        "assignment": "week-3", "sha256": digest, "learner": 7, "try": 1, "code": null,
    });
    assert_eq!((&json["assigned"], &json["learner"], &json["outcome"]), (&assigned, &"7".into(), &"pass".into()));
    let receipt = json["receipt"].as_str().unwrap();
    let short = format!("{}-{}-{}", &receipt[..4], &receipt[4..8], &receipt[8..12]);
    assert!(run.out.ends_with(&format!("in short {short}\n")), "{}", run.out);
    assert!(bench.run(&["mark", "--unfinished", first]).out.contains(&format!("In short, to be compared: {short}\n")));
    // A second try, left open: it must be gone on with, and there is no third.
    let run = bench.run_with(&begin, "");
    let second = "in/week-3_7_wire-a-switch_2.attempt.ron";
    assert_eq!((run.err.as_str(), run.code), (format!("notice: {second}: try 2\n").as_str(), Some(0)));
    bench
        .run_with(&begin, "")
        .complains("error: all tries at `wire-a-switch` have been begun here: the assignment allows 2\n");
    assert_eq!(bench.run_with(&["record", second], &model).code, Some(0));
    std::fs::remove_file(bench.path(first)).unwrap();
    bench.run_with(&begin, "");
    std::fs::remove_file(bench.path(second)).unwrap();
    bench.run_with(&begin, "").complains(&format!(
        "error: {first} is not handed in: go on with it (`record` and its name) before another try\n"
    ));
}

/// Early, late, and for another version of the marking: said, and flagged by the tutor's side, and no reason to refuse.
#[test]
fn what_is_odd_about_beginning_now_is_said() {
    let bench = Bench::new();
    bench.run(&MADE);
    let text = bench.read("week-3.ron");
    let odd = text
        .replace(&format!("marking: {}", switchdrop::marking::VERSION), "marking: 1")
        .replace("2026-11-02T09:00:00+00:00", "2020-11-02T09:00:00+00:00")
        .replace("2099-11-06T17:00:00+00:00", "2020-11-06T17:00:00+00:00");
    bench.file("odd.ron", odd);
    bench.file("early.ron", text.replace("2026-11-02T09:00:00+00:00", "2099-11-02T09:00:00+00:00"));
    let begin = |file| bench.run(&["record", "in", "--assignment", file, "--learner", "7"]).err;
    assert_eq!(
        begin("odd.ron"),
        "notice: the assignment `week-3` was due on Friday 6 November 2020, 17:00 (UTC): what is handed in now will be flagged as late\n\
         notice: the assignment `week-3` was made for version 1 of the marking, which is not this program's: ask the tutor which \
         program to use\n\
         notice: in/week-3_7_wire-a-switch_1.attempt.ron: try 1\n"
    );
    std::fs::remove_dir_all(bench.path("in")).unwrap();
    assert_eq!(
        begin("early.ron"),
        "notice: the assignment `week-3` opens on Monday 2 November 2099, 09:00 (UTC): what is begun now will be flagged\n\
         notice: in/week-3_7_wire-a-switch_1.attempt.ron: try 1\n"
    );
}

/// Whether the learner is shown the sheet of a try that was handed in, and what is said if not.
#[test]
fn the_assignment_says_when_its_learners_are_shown_their_answers() {
    let model = script(first_model().attempt.log());
    let past = "2020-11-06T17:00:00+00:00";
    for (answers, due, until) in [
        ("at-once", MADE[13], None),
        ("after-due", MADE[13], Some("Friday 6 November 2099, 17:00 (UTC)")),
        ("after-due", past, None),
        ("released", past, Some("the tutor releases them")),
    ] {
        let bench = Bench::new();
        let mut made = MADE;
        (made[11], made[13]) = ("2020-11-02T09:00:00+00:00", due);
        bench.run(&[&made[..], &["--answers", answers]].concat());
        let begun = bench.run_with(&["record", "in", "--assignment", "week-3.ron", "--learner", "7"], &model);
        let code = begun.out.trim_end().rsplit(' ').next().unwrap().to_owned();
        let run = bench.run(&["mark", "in/week-3_7_wire-a-switch_1.attempt.ron"]);
        assert_eq!(run.code, Some(i32::from(until.is_some())), "{answers} {due}: {}", run.err);
        if let Some(until) = until {
            let said =
                format!("withheld until {until}; `--unfinished` shows them before that. Its receipt code is {code}\n");
            assert!(run.out.is_empty() && run.err.ends_with(&said), "{}", run.err);
        }
        // The tutor is shown all of it.
        let review = bench.run(&["review", "week-3.ron", "in"]);
        assert!(review.out.contains("handed in 1") || review.out.contains("late 1"), "{}", review.out);
        assert!(review.out.contains("pass"), "{}", review.out);
    }
}

/// A code that gives more time moves what that learner waits for: 1440 minutes are a day.
#[test]
fn with_extra_time_answers_come_that_much_later() {
    let bench = Bench::new();
    bench.run(&[&MADE[..], &["--answers", "after-due"]].concat());
    let code = Adjustment::new(1440, 0).unwrap().code("week-3", 7);
    let begin = ["record", "in", "--assignment", "week-3.ron", "--learner", "7", "--code", &code];
    bench.run_with(&begin, script(first_model().attempt.log()));
    let said = bench.run(&["mark", "in/week-3_7_wire-a-switch_1.attempt.ron"]).err;
    assert!(said.contains("withheld until Saturday 7 November 2099, 17:00 (UTC);"), "{said}");
}

/// An exercise says itself what a pass needs; an assignment may say otherwise, and then `variant` shows what its learners get.
#[test]
fn a_variant_of_an_assignment_has_its_pass_mark() {
    let bench = Bench::new();
    bench.run(&[&MADE[..], &["--pass-mark", "91", "--hints", "counted"]].concat());
    let variant = ["variant", "wire-a-switch", "--seed", "5"];
    let own = bench.run(&variant).out;
    let set = bench.run(&[&variant[..], &["--assignment", "week-3.ron"]].concat());
    assert_eq!((set.err.as_str(), set.code), ("", Some(0)));
    assert!(set.out.contains("pass_mark: 91") && set.out.contains("hints: true"), "{}", set.out);
    assert!(!own.contains("pass_mark: 91") && !own.contains("hints: true"), "{own}");
    bench
        .run(&["variant", "wire-a-swich", "--seed", "5", "--assignment", "week-3.ron"])
        .complains("error: say which exercise of the assignment `week-3` is meant: `wire-a-switch`; did you mean `wire-a-switch`?\n");
}

#[test]
fn a_due_date_that_is_past_is_doubted() {
    let bench = Bench::new();
    let mut made = MADE;
    (made[11], made[13]) = ("2020-11-02T09:00:00+00:00", "2020-11-06T17:00:00+00:00");
    let run = bench.run(&[&made[..], &["--last", "2020-11-09T17:00:00+01:00"]].concat());
    assert_eq!(
        (run.err.as_str(), run.code),
        (
            "notice: it was due on Friday 6 November 2020, 17:00 (UTC), which is past: everything handed in from now on is late\n\
             notice: the last date was Monday 9 November 2020, 17:00 (UTC+01:00), which is past: nothing handed in from now on counts\n",
            Some(0)
        )
    );
}

/// A line of the recipe as a shell would part it.
fn words(line: &str) -> Vec<&str> {
    let quoted = line.split('"').enumerate();
    let parts = quoted.flat_map(|(at, it)| if at % 2 == 1 { vec![it] } else { it.split_whitespace().collect() });
    parts.collect()
}

/// README's recipe for a tutor, line by line, with what a learner types where one is to type.
#[test]
fn the_recipe_of_the_readme_works() {
    let bench = Bench::new();
    let recipe: Vec<&str> =
        include_str!("../../README.md").lines().filter_map(|it| it.strip_prefix("    switchdrop ")).collect();
    assert!((5..=10).contains(&recipe.len()), "{recipe:?}");
    let model = script(first_model().attempt.log());
    let mut said = String::new();
    for line in &recipe {
        let args = words(line);
        let run = bench.run_with(&args, if args[0] == "record" { &model } else { "" });
        assert_eq!(run.code, Some(0), "{line}\n{}", run.err);
        assert!(!run.err.contains("error"), "{line}\n{}", run.err);
        said += &run.out;
    }
    for it in ["Lights, week 3", "Learner 7", "1440 minutes", "receipt"] {
        assert!(said.contains(it), "{it}: {said}");
    }
    assert_eq!(bench.names(), ["class.csv", "class.html", "in", "learner-7.html", "week-3.ron"]);
    assert!(bench.read("class.csv").contains(",7,handed-in,pass,100,"), "{}", bench.read("class.csv"));
}
