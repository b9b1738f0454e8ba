//! The real program: whole output, exit codes, one clear message for each kind of broken file.

use std::{io::Read, process::Stdio};

use switchdrop::{attempt::sha256, exercise::SHIPPED, marking::VERSION, work::Action};

use crate::{
    bench::{Bench, attempt_text, script},
    hand::{exercise, one_way_model, scenario, two_way_model},
};

// What a word means.
mod glossary;
// The mark sheet as a form.
mod form;
// The mark sheet as a page.
mod page;
// One line a learner.
mod brief;
// A broken file of each kind.
mod broken;
// What a tutor is sent: cut off, no attempt, a whole folder.
mod received;
// Help with typing actions, asked for or not.
mod record_help;
// Set work: an assignment made, looked at, done and handed in.
mod set_work;
// Why three cores.
mod why;

/// README's table of exercises, a row each: number, id, title, place. It is written by hand.
fn table_of_readme() -> Vec<[String; 4]> {
    // Its other tables have no numbers.
    let is_row = |it: &&str| it.strip_prefix("| ").is_some_and(|it| it.starts_with(|it: char| it.is_ascii_digit()));
    let rows = include_str!("../README.md").lines().filter(is_row);
    let cells = |row: &str| row.trim_matches('|').split('|').map(|it| it.trim().replace('`', "")).collect::<Vec<_>>();
    rows.map(|row| cells(row).try_into().unwrap_or_else(|it| panic!("not four cells: {it:?}"))).collect()
}

#[test]
fn list_names_the_shipped_exercises_in_the_order_to_do_them() {
    let rows = table_of_readme();
    assert_eq!(rows.len(), SHIPPED.len(), "README's table has every exercise");
    let widest = rows.iter().map(|it| it[1].len()).max().unwrap();
    let lines = rows.iter().map(|[number, id, title, place]| format!("{number:>2}  {id:widest$}  {title} ({place})\n"));
    Bench::new().run(&["list"]).says(&lines.collect::<String>());
}

#[test]
fn a_folder_adds_exercises_and_what_is_wrong_in_it_is_said() {
    let bench = Bench::new();
    let attic = scenario("one-way-rose").replace("\"one-way-rose\"", "\"attic\"");
    bench.file("more/attic/scenario.ron", &attic);
    bench.file("more/apse/scenario.ron", attic.replace("\"attic\"", "\"apse\""));
    bench.file("more/cellar/scenario.ron", &attic);
    bench.file("more/one-way-rose/scenario.ron", scenario("one-way-rose"));
    let run = bench.run(&["list", "--exercises", "more"]);
    assert_eq!(
        run.out.lines().map(|it| it.split_whitespace().take(2).collect::<Vec<_>>().join(" ")).collect::<Vec<_>>(),
        (1..)
            .zip(SHIPPED)
            .map(|(number, it)| format!("{number} {}", it.0))
            .chain(["apse One", "attic One"].map(str::to_owned))
            .collect::<Vec<_>>(),
        "those of a folder have no number"
    );
    assert_eq!(
        run.err,
        "error: more/cellar/scenario.ron is left out: its folder should be called `attic`, as its exercise is\n\
         error: more/one-way-rose/scenario.ron is left out: there is an exercise `one-way-rose` already\n"
    );
    assert_eq!(run.code, Some(1));
    let run = bench.run(&["variant", "attic", "--seed", "1", "--exercises", "more"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    bench.run(&["--exercises", "nowhere", "variant", "attc", "--seed", "1"]).complains(
        "error: there is no exercise `attc`\nerror: nowhere can't be read: there is no such file or folder\n",
    );
}

#[test]
fn check_finds_nothing_wrong_with_what_is_shipped() {
    let bench = Bench::new();
    let mut expected = Vec::new();
    for (id, text) in SHIPPED {
        bench.file(&format!("all/{id}/scenario.ron"), text);
        expected.push(format!("all/{id}/scenario.ron: nothing wrong\n"));
    }
    // A folder is gone through by its names.
    expected.sort();
    bench.run(&["check", "all"]).says(&expected.concat());
    bench.run(&["check", "all/one-way-rose"]).says("all/one-way-rose/scenario.ron: nothing wrong\n");
}

/// The actions of the first exercise are few enough to be worked out by hand: those of `first_model`, whose seed has the same box.
#[test]
fn check_does_an_exercise_and_prints_its_actions_or_says_what_is_missing() {
    let bench = Bench::new();
    bench.file("sound.ron", scenario("wire-a-switch"));
    bench.run(&["check", "--solve", "4", "sound.ron"]).says(
        "sound.ron: nothing wrong\n\
         RemoveCover(location:\"switch\")\n\
         Connect(end:\"drop/brown@switch\",terminal:\"switch.COM\")\n\
         Tighten(terminal:\"switch.COM\")\n\
         Mark(end:\"drop/blue@switch\",mark:Sleeve(Brown))\n\
         Connect(end:\"drop/blue@switch\",terminal:\"switch.L1\")\n\
         Tighten(terminal:\"switch.L1\")\n\
         Mark(end:\"drop/cpc@switch\",mark:Sleeve(GreenYellow))\n\
         Connect(end:\"drop/cpc@switch\",terminal:\"switch.box.earth\")\n\
         Tighten(terminal:\"switch.box.earth\")\n\
         FitCover(location:\"switch\")\n\
         Confirm(check:NobodyAtWork)\n\
         Confirm(check:PeopleTold)\n\
         BringSupply\n\
         Operate(switch:\"switch\",position:1)\n\
         HandIn\n\
         sound.ron: the program's own work on seed 4 earns 100 of 100 and passes, in 15 actions\n",
    );
    let twin = scenario("two-way-passage")
        .replace("ThreeCoreEarth", "TwinEarth")
        .replace("\"link/brown\", \"link/black\", \"link/grey\", ", "");
    bench.file("twin.ron", twin);
    let run = bench.run(&["check", "--solve", "--", "twin.ron"]);
    assert_eq!(run.code, Some(1));
    assert!(
        run.err.ends_with(
            "error: twin.ron: the program finds no way to full marks with seed 0\n\
             error: no wiring of the cables and terminals that are there works this lamp by its switches: passage light\n"
        ),
        "{}",
        run.err
    );
}

#[test]
fn check_draws_every_problem_and_still_answers_for_the_others() {
    let bench = Bench::new();
    let slip = scenario("two-way-passage").replace("from: \"kiln\", to: \"rose\"", "from: \"klin\", to: \"rose\"");
    bench.file("bad.ron", slip.replace("pass_mark", "x"));
    bench.file("good.ron", scenario("one-way-rose"));
    let run = bench.run(&["check", "bad.ron", "none.ron", "good.ron"]);
    assert_eq!(run.out, "good.ron: nothing wrong\n");
    assert_eq!(run.code, Some(1));
    assert!(run.err.starts_with("error: there is no location `klin`\n  --> bad.ron:36:97\n"), "{}", run.err);
    assert!(run.err.contains("\nhelp: did you mean `kiln`?\n"), "{}", run.err);
    // That its ends are nowhere follows, and is not said.
    assert!(!run.err.contains("light/brown@rose"), "{}", run.err);
    assert!(run.err.ends_with("error: none.ron can't be read: there is no such file or folder\n"), "{}", run.err);
}

#[test]
fn variant_writes_a_scenario_that_is_the_same_exercise_for_every_seed() {
    let bench = Bench::new();
    let first = bench.run(&["variant", "two-way-passage", "--seed", "3"]);
    assert_eq!((first.err.as_str(), first.code), ("", Some(0)));
    bench.file("drawn/two-way-passage/scenario.ron", &first.out);
    bench.run(&["check", "drawn"]).says("drawn/two-way-passage/scenario.ron: nothing wrong\n");
    let other = bench.run(&["variant", "two-way-passage", "--seed", "4"]);
    assert_ne!(first.out, other.out);
    assert_eq!(bench.run(&["variant", "two-way-passage", "--seed", "3"]).out, first.out);
    bench
        .run(&["variant", "two-way-passag", "--seed", "3"])
        .complains("error: there is no exercise `two-way-passag`; did you mean `two-way-passage`?\n");
}

#[test]
fn record_answers_every_line_in_words() {
    let bench = Bench::new();
    let input = "// isolate\n\n  Agree\r\nRemoveCover(location: \"kiln\")\nPowerOff(device: \"board.1\")\n\
                 LockOff(device: \"board.2\")\nPowerOff(device: \"board.3\")\nProveIndicator\n\
                 TestDead(a: \"rose.loop\", b: \"rose.earth\")\nPowerOff(device: \"board.2\")\n";
    let args = ["record", "a", "--exercise", "two-way-passage", "--seed", "4", "--learner", "R"];
    bench.run_with(&args, input).says(
        "done\n\
         stopped: up to 230 V here, from circuit 1 and circuit 2. \
         To touch it can kill: first switch off, lock off and prove dead\n\
         lamps that went out with it: passage light\n\
         refused: circuit 2: a lock does not go on while it is on\n\
         refused: there is no “board.3” here; did you mean `board.1`?\n\
         done\n\
         refused: passage rose: the plate or cover is on\n\
         lamps that went out with it: kiln shed light\n",
    );
}

#[test]
fn record_says_where_a_line_is_no_action_and_does_the_others() {
    let bench = Bench::new();
    let input =
        [b"Agree\nPowerOf(device: \"board.1\")\n\xff\n".as_slice(), &[b'x'; 9000], b"\nProveIndicator"].concat();
    let args = ["record", "a", "--exercise", "two-way-passage", "--seed", "4", "--learner", "R"];
    let run = bench.run_with(&args, input);
    assert_eq!((run.out.as_str(), run.code), ("done\ndone\n", Some(1)));
    assert!(run.err.contains("--> standard input:2:1\n"), "{}", run.err);
    assert!(run.err.contains("\nhelp: did you mean `PowerOff`?\n"), "{}", run.err);
    assert!(run.err.contains("error: line 3 of standard input is not text (UTF-8)\n"), "{}", run.err);
    assert!(run.err.contains("error: this action is longer than 512 bytes, the most that are read\n"), "{}", run.err);
    assert!(run.err.contains("--> standard input:4:1\n"), "{}", run.err);
    assert!(run.err.len() < 4000, "{}", run.err);
}

#[test]
fn the_command_line_itself_wrong_is_exit_2() {
    let bench = Bench::new();
    let wrong: [&[&str]; 13] = [
        &["lst"],
        &["check"],
        &["mark"],
        &["variant", "two-way-passage"],
        &["variant", "two-way-passage", "--seed", "-1"],
        &["record"],
        &["record", "a", "--exercise", "two-way-passage", "--seed", "4"],
        &["record", "a", "--seed", "4"],
        &["record", "a", "--exercise", "two-way-passage", "--seed", "4", "--learner", "a/b"],
        &["record", "a", "--assignment", "b"],
        &["assign", "a", "--id", "b", "--group", "c", "--exercise", "one-way-rose"],
        &["assign", "a", "--preview", "7", "--id", "b"],
        &[
            "assign",
            "a",
            "--id",
            "b",
            "--group",
            "c",
            "--exercise",
            "one-way-rose",
            "--learners",
            "1-24",
            "--due",
            "Friday",
        ],
    ];
    for args in wrong {
        let run = bench.run(args);
        assert_eq!((run.out.as_str(), run.code), ("", Some(2)), "{args:?}\n{}", run.err);
        assert!(run.err.starts_with("error: "), "{}", run.err);
    }
    assert!(bench.names().is_empty(), "{:?}", bench.names());
    bench.run(&["record", "a"]).complains(
        "error: to start a, say `--exercise`, `--seed` and `--learner`, or `--assignment` and `--learner`\n",
    );
}

#[test]
fn help_ends_with_the_cautions() {
    let run = Bench::new().run(&["--help"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    let (_, cautions) = run.out.split_once("\nBefore you take any of this to real wiring\n").expect("cautions");
    assert!(cautions.contains("\n4.  Never work live."), "{cautions}");
    assert!(cautions.ends_with("10. Learners under supervision: your supervisor decides when real power goes on.\n"));
}

/// Whoever reads the answers may stop at any moment.
#[test]
fn a_closed_pipe_is_no_panic() {
    let bench = Bench::new();
    bench.file("m", attempt_text(&exercise("one-way-rose", 4), one_way_model().attempt.log()));
    for args in
        [&["list"][..], &["--help"], &["variant", "two-way-passage", "--seed", "1"], &["mark", "m"], &["states", "m"]]
    {
        let mut child = bench.program(args).stdin(Stdio::null()).spawn().expect("the program starts");
        drop(child.stdout.take());
        let mut said = String::new();
        child.stderr.take().expect("standard error").read_to_string(&mut said).expect("UTF-8");
        let code = child.wait().expect("it ends").code();
        assert_eq!((said.as_str(), code), ("", Some(0)), "{args:?}");
    }
}

#[test]
fn mark_gives_the_models_full_marks_in_words_and_for_machines() {
    let bench = Bench::new();
    bench.file("one", attempt_text(&exercise("one-way-rose", 4), one_way_model().attempt.log()));
    bench.file("two", attempt_text(&exercise("two-way-passage", 4), two_way_model().attempt.log()));
    let run = bench.run(&["mark", "one"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    assert!(
        run.out.starts_with(
            "Robin Hale: One light, one switch, at the rose (Fernhay Cottage, the scullery)\n\
             Pass: 100 of 100 marks\n\
             A pass needs 80 of 100 marks, at least half of each of these (polarity, earthing, identification,\n  \
             terminations and safe working), every control working and every stage done. Any of these bars\n  \
             it: a line, neutral or cpc loose; a cpc missing or misplaced; a false mark; copper showing out\n  \
             of a terminal; a cover left off; a reading not taken; insulation under 1 MΩ energised; anything\n  \
             critical, found or done.\n\
             What was asked for works, is safe as it stands, and was done safely.\n  \
             function: 25 of 25\n"
        ),
        "{}",
        run.out
    );
    assert!(run.out.contains("\nThis is a record of practice, not evidence of competence.\n"), "{}", run.out);
    // Whose numbers the references are is said once, at the foot.
    let foot = "\nReferences are to BS 7671:2018+A4:2026: numbers as in A2:2022; not yet confirmed against A4.\n";
    assert_eq!(run.out.matches(foot).count(), 1, "{}", run.out);
    assert!(!run.out.contains("from memory"), "{}", run.out);
    let run = bench.run(&["mark", "--json", "one", "none", "two"]);
    assert_eq!((run.err.as_str(), run.code), ("error: none can't be read: there is no such file or folder\n", Some(1)));
    let sheets: Vec<serde_json::Value> = run.out.lines().map(|it| serde_json::from_str(it).expect("JSON")).collect();
    assert_eq!(sheets.len(), 2);
    for (sheet, (attempt, scenario)) in sheets.iter().zip([("one", "one-way-rose"), ("two", "two-way-passage")]) {
        let digest = sha256(bench.read(attempt).as_bytes());
        // An action each second from half past nine on, the first at once: the last was as many seconds in.
        let seconds = bench.read(attempt).lines().count() - 3;
        let clock = format!("2026-03-02T09:{:02}:{:02}Z", 30 + seconds / 60, seconds % 60);
        let expected = serde_json::json!({
            "sha256": digest, "receipt": digest,
            "format": 1, "marking": VERSION, "edition": "BS 7671:2018+A4:2026", "attempt": attempt, "scenario": scenario,
            "seed": 4, "learner": "Robin Hale", "handed_in": true, "differs": false, "outcome": "pass",
            "exercise_sha256": sha256(exercise(scenario, 4).text().as_bytes()), "exercise_is": "same", "notices": [],
            "program": env!("CARGO_PKG_VERSION"), "mode": "set", "started": "2026-03-02T09:30:00+00:00",
            "handed_in_at": clock, "active_ms": seconds * 1000,
            "unmet": [], "marks": 100, "out_of": 100, "hints": 0, "sought_no_further": false, "findings": [],
            "criteria": [
                {"name": "function", "marks": 25, "out_of": 25, "not_awarded": 0},
                {"name": "polarity", "marks": 15, "out_of": 15, "not_awarded": 0},
                {"name": "earthing", "marks": 15, "out_of": 15, "not_awarded": 0},
                {"name": "identification", "marks": 10, "out_of": 10, "not_awarded": 0},
                {"name": "terminations", "marks": 10, "out_of": 10, "not_awarded": 0},
                {"name": "safe-working", "marks": 20, "out_of": 20, "not_awarded": 0},
                {"name": "prediction", "marks": 5, "out_of": 5, "not_awarded": 0},
            ],
            "well": [
                "function", "polarity", "earthing", "identification", "terminations", "safe-working", "proved-dead",
                "nothing-opened", "foreseen",
            ],
        });
        assert_eq!(*sheet, expected);
    }
}

/// A blank hand-in is not yet, and its sheet has no address, digest or seed on it.
#[test]
fn a_blank_hand_in_is_not_yet_and_is_said_in_words() {
    let bench = Bench::new();
    bench.file("blank", attempt_text(&exercise("two-way-passage", 4), &[Action::HandIn]));
    let run = bench.run(&["mark", "blank"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    assert!(run.out.contains("\nNot yet: "), "{}", run.out);
    for address in ["kiln.", "clay.", "link/", "@", "board.1", "sha256", "[finding"] {
        assert!(!run.out.contains(address), "{address}\n{}", run.out);
    }
    let json: serde_json::Value = serde_json::from_str(&bench.run(&["mark", "--json", "blank"]).out).expect("JSON");
    assert_eq!(json["outcome"], "not yet");
    let findings = json["findings"].as_array().expect("findings");
    assert!(findings.iter().any(|it| it["root"] == true), "{findings:?}");
    assert!(
        findings
            .iter()
            .all(|it| it["root"] == true || it["root"].as_u64().is_some_and(|it| it < findings.len() as u64))
    );
}

/// An exercise other than the one at hand is said, and marked all the same.
#[test]
fn an_exercise_that_is_not_the_one_at_hand_is_said_and_flagged() {
    let bench = Bench::new();
    let changed = scenario("one-way-rose").replace("The scullery light is new", "The scullery light is quite new");
    let other = switchdrop::exercise::draw(&changed, switchdrop::exercise::Seed(4)).expect("a sound scenario");
    bench.file("a", attempt_text(&other, one_way_model().attempt.log()));
    let run = bench.run(&["mark", "--json", "a"]);
    let sentence = "notice: a: the exercise in it is not what the scenario at hand gives for its seed; it is marked as it stands\n";
    assert_eq!((run.err.as_str(), run.code), (sentence, Some(0)));
    let json: serde_json::Value = serde_json::from_str(&run.out).expect("JSON");
    assert_eq!((&json["differs"], &json["exercise_is"]), (&true.into(), &"different".into()));
    assert_eq!((&json["notices"], &json["outcome"]), (&serde_json::json!(["exercise-different"]), &"pass".into()));
    let words = "The exercise in this attempt is not what the scenario at hand gives";
    assert!(bench.run(&["mark", "a"]).out.contains(words));
    bench.run(&["mark", "--html", "a.html", "a"]);
    assert!(bench.read("a.html").contains(words));
}

/// Two-way control by hand: the passage light is lit when the two switches differ in this wiring, the kiln shed light when
/// its own rocker is down.
#[test]
fn states_say_what_every_lamp_does() {
    let bench = Bench::new();
    bench.file("two", attempt_text(&exercise("two-way-passage", 4), two_way_model().attempt.log()));
    let run = bench.run(&["states", "--json", "two"]);
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    let json: serde_json::Value = serde_json::from_str(&run.out).expect("JSON");
    assert_eq!(
        json["switches"],
        serde_json::json!([
            {"address": "kiln.1", "positions": 2}, {"address": "kiln.2", "positions": 2}, {"address": "clay", "positions": 2},
        ])
    );
    assert_eq!(json["lamps"], serde_json::json!(["lamp", "shed-lamp"]));
    let rows = json["rows"].as_array().expect("rows");
    assert_eq!(rows.len(), 8);
    for (index, row) in rows.iter().enumerate() {
        let [kiln, shed, clay] = [index >> 2 & 1, index >> 1 & 1, index & 1];
        assert_eq!(row["positions"], serde_json::json!([kiln, shed, clay]));
        let glow = |lit| if lit { "lit" } else { "off" };
        assert_eq!(row["lamps"][0]["glow"], glow(kiln != clay), "{row}");
        assert_eq!(row["lamps"][1]["glow"], glow(shed == 0), "{row}");
        assert_eq!(
            (&row["tripped"], &row["may_trip"], &row["hazards"]),
            (&serde_json::json!([]), &serde_json::json!([]), &serde_json::json!([]))
        );
    }
    let volts = rows[1]["lamps"][0]["volts"].as_f64().expect("volts");
    assert!((225.0..230.0).contains(&volts), "{volts}");
    bench.run(&["states", "two", "--at", "0,1,1"]).says(
        "box at the kiln door, left-hand switch rocker down; box at the kiln door, right-hand switch rocker up; box at the \
         clay store door rocker up: passage light lit and kiln shed light off\n",
    );
    for at in ["0,1", "0,1,2", "0,1,1,0"] {
        bench.run(&["states", "two", "--at", at]).complains(
            "error: `--at` asks for 3 positions, none above 1,1,1, in this order: box at the kiln door, left-hand switch; box at the \
             kiln door, right-hand switch; box at the clay store door\n",
        );
    }
}

/// In an empty folder, with nothing beside it, the program still has its exercises and marks what it recorded.
#[test]
fn a_whole_attempt_by_the_command_line_alone() {
    let bench = Bench::new();
    let args = ["record", "a", "--exercise", "one-way-rose", "--seed", "4", "--learner", "R", "--practice"];
    let run = bench.run_with(&args, script(one_way_model().attempt.log()));
    assert_eq!((run.err.as_str(), run.code), ("", Some(0)));
    let said = [
        "done",
        "read ",
        "no lamp lit",
        "proved dead",
        "lamps that went out with it: larder",
        "lamps that came on with it: larder",
    ];
    assert!(run.out.lines().all(|it| said.iter().any(|said| it.starts_with(said))), "{}", run.out);
    let json: serde_json::Value = serde_json::from_str(&bench.run(&["mark", "--json", "a"]).out).expect("JSON");
    assert_eq!((&json["outcome"], &json["marks"]), (&"pass".into(), &100.into()));
    assert_eq!(bench.names(), ["a"]);
}

/// The loop of the model on paper: the feed's brown is looped through the rose to the switch drop, its blue comes back as the switched line,
/// and the flex leads to the lamp; the current is P / U. The other switch is open.
#[test]
fn states_says_where_the_current_goes() {
    let bench = Bench::new();
    let exercise = exercise("one-way-rose", 4);
    bench.file("one", attempt_text(&exercise, one_way_model().attempt.log()));
    let amps = exercise.lamps[exercise.lamp("lamp").expect("a lamp")].watts / 230.0;
    let run = bench.run(&["states", "one", "--way", "--at", "1,0"]);
    run.says(&format!(
        "scullery switch rocker down; larder switch rocker up: scullery light lit and larder light off\n  \
         scullery light takes {amps:.2} A. The way of the current: circuit 2; brown wire to the scullery switch; scullery switch, COM to L1; blue wire to the scullery rose; \
         brown wire to the scullery light; scullery light; blue wire to the board; circuit 2.\n  \
         What is live stops at: larder switch, COM (open to L1).\n"
    ));
    assert_eq!(bench.run(&["states", "one", "--way", "--json"]).code, Some(2));
}

#[test]
fn picture_draws_the_whole_place_or_one_location() {
    let bench = Bench::new();
    let text = attempt_text(&exercise("two-way-passage", 4), two_way_model().attempt.log());
    bench.file("two", &text);
    bench.run(&["picture", "two", "-o", "all.svg"]).says("");
    let all = bench.read("all.svg");
    assert!(all.starts_with("<svg ") && all.trim_end().ends_with("</svg>"), "{all}");
    assert!(all.contains("box at the clay store door") && all.contains("kiln shed rose"), "names stand on it");
    bench.run(&["picture", "two", "-o", "all.svg", "--location", "clay"]).says("");
    let clay = bench.read("all.svg");
    assert!(clay.contains("box at the clay store door") && clay.len() < all.len() / 2);
    bench.run(&["picture", "two", "-o", "all.svg", "--circuit"]).says("");
    let circuit = bench.read("all.svg");
    assert!(circuit.contains(">COM<") && circuit.contains("passage light") && !circuit.contains("rocker"), "{circuit}");
    assert_eq!(bench.run(&["picture", "two", "-o", "all.svg", "--circuit", "--location", "clay"]).code, Some(2));
    assert_eq!(bench.names(), ["all.svg", "two"]);
}

#[test]
fn a_picture_that_cannot_be_written_leaves_everything_as_it_was() {
    let bench = Bench::new();
    let text = attempt_text(&exercise("two-way-passage", 4), &[Action::HandIn]);
    bench.file("two", &text);
    bench.file("folder/kept", "");
    bench.run(&["picture", "two", "-o", "two"]).complains("error: two is the attempt itself and stays as it is\n");
    bench.run(&["picture", "two", "-o", "folder"]).complains("error: folder is not a file\n");
    bench
        .run(&["picture", "two", "-o", "no/a.svg"])
        .complains("error: no/a.svg can't be written: there is no such file or folder\n");
    bench
        .run(&["picture", "two", "-o", "a.svg", "--location", "klin"])
        .complains(
            "error: there is no location `klin`; there are `board` (board), `kiln` (box at the kiln door), `clay` (box at the clay \
             store door), `rose` (passage rose), `lamp` (passage light), `shed-rose` (kiln shed rose), `shed-lamp` (kiln shed \
             light)\n",
        );
    for name in ["a.png", "folder/a.tar.gz"] {
        let svg = if name == "a.png" { "a.svg" } else { "folder/a.tar.svg" };
        bench.run(&["picture", "two", "-o", name]).complains(&format!(
            "error: a picture is an SVG, and {name} is called as something else: say `{svg}`, or another name without an ending\n"
        ));
    }
    assert_eq!((bench.names(), bench.read("two")), (vec!["folder".to_owned(), "two".to_owned()], text));
}

/// A picture is written over a picture of ours alone: no attempt of another's, no scenario, no page, no other text.
#[test]
fn a_picture_takes_nobody_elses_place() {
    let bench = Bench::new();
    let text = attempt_text(&exercise("two-way-passage", 4), two_way_model().attempt.log());
    for name in ["a", "b"] {
        bench.file(name, &text);
    }
    bench.file("scenario.ron", scenario("one-way-rose"));
    bench.file("other.svg", "<svg width=\"3\"/>");
    for taken in ["b", "scenario.ron", "other.svg"] {
        let before = bench.read(taken);
        let run = bench.run(&["picture", "a", "-o", taken]);
        assert_eq!((run.out.as_str(), run.code), ("", Some(1)), "{taken}");
        assert_eq!(bench.read(taken), before, "{taken}");
    }
    bench.run(&["picture", "a", "-o", "/dev/null"]).complains("error: /dev/null is not a file\n");
    assert_eq!(bench.names(), ["a", "b", "other.svg", "scenario.ron"]);
}

/// Opening a pipe to look into it would wait until somebody writes.
#[cfg(unix)]
#[test]
fn a_pipe_is_refused_before_it_is_opened() {
    let bench = Bench::new();
    bench.file("a", attempt_text(&exercise("two-way-passage", 4), two_way_model().attempt.log()));
    let made = std::process::Command::new("mkfifo").arg(bench.path("pipe")).status().expect("mkfifo");
    assert!(made.success());
    bench.run(&["picture", "a", "-o", "pipe"]).complains("error: pipe is not a file\n");
    bench.run(&["mark", "--html", "pipe", "a"]).complains("error: pipe is not a file\n");
    bench.run(&["mark", "pipe"]).complains("error: pipe is not a file\n");
}

/// With the window built in: no display at all, and a name of one that answers nobody.
#[test]
fn with_nothing_asked_and_no_screen_the_sample_is_marked() {
    for display in [None, Some(":4711")] {
        let bench = Bench::new();
        let mut program = bench.program(&[]);
        program.env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY");
        if let Some(it) = display {
            program.env("DISPLAY", it);
        }
        let output = program.output().expect("the program runs");
        let (out, err) = (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
        assert_eq!((err.as_ref(), output.status.code()), ("", Some(0)), "{display:?}: {out}");
        let first = if cfg!(feature = "workshop") { "There is no screen " } else { "This build has no window " };
        assert!(out.starts_with(first), "{display:?}: {out}");
        assert!(out.contains("This is a record of practice, not evidence of competence."), "{out}");
        assert!(!out.contains("[finding"), "{out}");
        assert!(bench.names().is_empty(), "{:?}", bench.names());
    }
}
