//! A broken file of each kind: one clear message with file, line and column, exit 1, and nothing raw on the terminal.

use std::collections::BTreeSet;

use switchdrop::{
    attempt::Format,
    exercise::{Limits, ProblemCode},
    work::Action,
};

use crate::{
    bench::{Bench, attempt_in},
    hand::exercise,
};

const PASSAGE: &str = include_str!("../scenarios/passage.ron");

/// A slip of the pen in a scenario: what stood there, what stands there now, where in that the message points (from its
/// first occurrence in the file to the letter) and what it says.
struct Slip {
    code: ProblemCode,
    was: &'static str,
    is: &'static str,
    at: &'static str,
    says: &'static str,
}

const fn slip(code: ProblemCode, was: &'static str, is: &'static str, at: &'static str, says: &'static str) -> Slip {
    Slip { code, was, is, at, says }
}

const VARY: &str = "stages: [],";
/// Where a problem points that is nowhere in particular: the number of the format.
const TOP: &str = "1,\n    id: \"passage\"";

#[rustfmt::skip]
const SCENARIOS: &[Slip] = &[
    slip(ProblemCode::UnknownField, "title:", "titel:", "titel:", "`Scenario` has no field `titel`; it has format, id, title"),
    slip(ProblemCode::Syntax, "locations: [", "locations: {", "{", "a list is expected here, in square brackets"),
    slip(ProblemCode::MissingField, "earthing: Tt,", "", ")\n", "the field `earthing` is missing from the `Scenario` that ends here"),
    slip(ProblemCode::UnknownWord, "lamp: Filament", "lamp: Filamnt", "Filamnt", "`Filamnt` is not a known kind of lamp; expected: Filament, Led"),
    slip(ProblemCode::UnknownWord, "ways: [TwoWay]", "ways: [OneWay, ToWay]", "ToWay", "`ToWay` is not a known accessory; expected: OneWay, TwoWay, Intermediate"),
    slip(ProblemCode::UnknownWord, VARY, "stages: [Isolation, Lockoff],", "Lockoff", "`Lockoff` is not a known stage of the work; expected: Isolation, Inspection, Continuity"),
    slip(ProblemCode::UnknownWord, VARY, "stages: [], vary: [Watt(lamp: \"lamp\", among: [9.0])],", "Watt(", "`Watt` is not a known thing that may vary; expected: Length, Kind"),
    slip(ProblemCode::UnknownWord, VARY, "stages: [], vary: [Kind(cable: \"flex\", among: [PendantFlx])],", "PendantFlx", "`PendantFlx` is not a known kind of cable; expected: TwinEarth"),
    slip(ProblemCode::UnknownWord, "Cable(id: \"flex\"", "Cabel(id: \"flex\"", "Cabel", "`Cabel` is not a known entry; expected: Cable"),
    slip(ProblemCode::UnknownField, "metres: 1.0", "meters: 1.0", "meters", "`Cable` has no field `meters`; it has id, name, kind, mm2, metres, from, to"),
    slip(ProblemCode::Syntax, "metres: 1.0", "metres: \"1\"", "\"1\", from", "a number is expected here, such as 1.5"),
    slip(ProblemCode::Syntax, "id: \"flex\"", "id: flex", "flex, name", "a name or text in quotation marks is expected here"),
    slip(ProblemCode::BadId, "ways: [TwoWay]", "ways: [TwoWay], gangs: [\"plate\"]", "\"plate\"]", "`plate` can't be an id"),
    slip(ProblemCode::BadPlate, "ways: [TwoWay]", "ways: [TwoWay], gangs: [\"a\", \"b\"]", "\"a\", \"b\"", "a plate has 1 gangs, not 2"),
    slip(ProblemCode::BadVariation, VARY, "stages: [], vary: [Gangs(location: \"box\", called: [\"left\"])],", "[\"left\"]", "this can't vary like that: 1 found, 2 expected"),
    slip(ProblemCode::Format, "format: 1", "format: 2", "2,\n", "this is format 2; this version of the program reads format 1"),
    slip(ProblemCode::BadName, "\"first feed\"", "\"first\\u{202e}feed\"", "\"first\\u", "a name or text may not be empty"),
    slip(ProblemCode::BadName, "\"first feed\"", "\"../first\"", "\"../", "a name or text may not be empty"),
    slip(ProblemCode::BadId, "id: \"passage\"", "id: \"Passage\"", "\"Passage\"", "`Passage` can't be an id"),
    slip(ProblemCode::BadId, "id: \"passage\"", "id: \"com1\"", "\"com1\"", "`com1` can't be an id"),
    slip(ProblemCode::BadId, "id: \"passage\"", "id: \"-passage\"", "\"-passage\"", "`-passage` can't be an id"),
    slip(ProblemCode::BadName, "\"first feed\"", "\"first\\u{200b}feed\"", "\"first\\u", "a name or text may not be empty"),
    slip(ProblemCode::Duplicate, VARY, "stages: [Isolation, Prediction, Isolation],", "Isolation],", "`Isolation` is here already"),
    slip(ProblemCode::Duplicate, VARY, "stages: [], predict: [\"one/brown\", \"two/brown\", \"one/brown\"],", "\"one/brown\"],", "`one/brown` is here already"),
    slip(ProblemCode::Duplicate, VARY, "stages: [], vary: [Length(cable: \"one\", least: 1.0, most: 2.0), Length(cable: \"one\", least: 2.0, most: 3.0)],", "\"one\", least: 2.0", "`one` is here already"),
    slip(ProblemCode::BadCourse, VARY, "stages: [], course: Course(step: A3, kind: Find, minutes: 8),", "Find", "an exercise of the kind Find has the stage `Diagnosis`"),
    slip(ProblemCode::BadNumber, VARY, "stages: [], course: Course(step: A3, kind: Wire, minutes: 241),", "241", "241 is out of range; 1 to 240 expected"),
    slip(ProblemCode::UnknownWord, VARY, "stages: [], course: Course(step: D1, kind: Wire, minutes: 3),", "D1", "`D1` is not a known step of a course; expected: A1"),
    slip(ProblemCode::BadPassMark, VARY, "stages: [], pass_mark: 0,", "0,\n)", "`pass_mark` is 0; 1 to 100 expected, per cent of the marks"),
    slip(ProblemCode::BadId, "id: \"one\"", "id: \"made-1\"", "\"made-1\"", "`made-1` can't be an id"),
    slip(ProblemCode::Duplicate, "id: \"lamp\"", "id: \"box\"", "\"box\", name: \"passage light\"", "`box` is here already"),
    slip(ProblemCode::Duplicate, "id: \"two\"", "id: \"one\"", "\"one\", name: \"second", "`one` is here already"),
    slip(ProblemCode::UnknownLocation, "from: \"board\", to: \"box\"", "from: \"baord\", to: \"box\"", "\"baord\"", "there is no location `baord`"),
    slip(ProblemCode::UnknownCable, VARY, "stages: [], vary: [Length(cable: \"flx\", least: 1.0, most: 2.0)],", "\"flx\"", "there is no cable `flx`"),
    slip(ProblemCode::UnknownConductor, VARY, "stages: [], predict: [\"one/brwn\"],", "\"one/brwn\"", "there is no conductor `one/brwn`"),
    slip(ProblemCode::UnknownEnd, "end: \"flex/blue@lamp\"", "end: \"flex/blue@lmap\"", "\"flex/blue@lmap\"", "there is no conductor end `flex/blue@lmap`"),
    slip(ProblemCode::UnknownTerminal, "at: \"lamp.outer\"", "at: \"lamp.outre\"", "\"lamp.outre\"", "there is no terminal `lamp.outre`"),
    slip(ProblemCode::UnknownSwitch, "switches: [\"box\"]", "switches: [\"bxo\"]", "\"bxo\"", "there is no switch `bxo`"),
    slip(ProblemCode::UnknownLamp, "lamp: \"lamp\"", "lamp: \"lapm\"", "\"lapm\"", "there is no lamp `lapm`"),
    slip(ProblemCode::UnknownDevice, VARY, "stages: [], vary: [Devices(among: [\"board.1\", \"board.22\"])],", "\"board.22\"", "there is no protective device `board.22`"),
    slip(ProblemCode::CableToItself, "from: \"box\", to: \"lamp\"", "from: \"lamp\", to: \"lamp\"", "\"lamp\"),\n    ]", "both ends of this cable are at `lamp`"),
    slip(ProblemCode::BadSize, "mm2: 0.75", "mm2: 4.0", "4.0", "this kind of cable is not made in 4 mm²; it is made in 0.75, 1 mm²"),
    slip(ProblemCode::NotOnBench, VARY, "stages: [], supply: Bench, board: Supervisor,", TOP, "a training board has no supply of its own"),
    slip(ProblemCode::NoReference, VARY, "stages: [], reference: Socket(\"box\"),", "\"box\"),\n)", "`box` can't be the reference for earth: that must be a socket"),
    slip(ProblemCode::UnknownLocation, VARY, "stages: [], reference: Socket(\"bxo\"),", "\"bxo\"", "there is no location `bxo`"),
    slip(ProblemCode::BadOffer, VARY, "stages: [], runs: [Run(id: \"r\", name: \"r\", metres: 3.0, from: \"board\", to: \"box\", choose: [Offer(kind: TwinEarth, mm2: 1.0), Offer(kind: PendantFlex, mm2: 1.0)])],", "PendantFlex, mm2: 1.0)])]", "a run offers two cables or more, each of a kind for fixed wiring with a cpc and none twice; look at `PendantFlex 1`"),
    slip(ProblemCode::Syntax, VARY, "stages: [], runs: [Run(id: \"r\", kind: TwinEarth)],", "kind: TwinEarth)]", "kind"),
    slip(ProblemCode::BadName, VARY, "stages: [], rooms: [Room(name: \" \", kind: Store, from: (-10, -10), to: (200, 200))],", "\" \"", "a name or text may not be empty"),
    slip(ProblemCode::BadName, VARY, "stages: [], rooms: [Room(name: \"shed\\u{200b}\", kind: Store, from: (-10, -10), to: (200, 200))],", "\"shed\\u", "a name or text may not be empty"),
    slip(ProblemCode::Duplicate, VARY, "stages: [], rooms: [Room(name: \"shed\", kind: Store, from: (-10, -10), to: (200, 200)), Room(name: \"shed\", kind: Loft, from: (-10, -40), to: (200, -10))],", "\"shed\", kind: Loft", "`shed` is here already"),
    slip(ProblemCode::BadRoom, VARY, "stages: [], rooms: [Room(name: \"shed\", kind: Store, from: (-10, 200), to: (200, -10))],", "(-10, 200)", "a room goes from its top left corner to its bottom right one; (-10, 200) is not above and to the left of (200, -10)"),
    slip(ProblemCode::BadRoom, VARY, "stages: [], rooms: [Room(name: \"shed\", kind: Store, from: (-10, -10), to: (-10, 200))],", "(-10, -10)", "(-10, -10) is not above and to the left of (-10, 200)"),
    slip(ProblemCode::RoomsOverlap, VARY, "stages: [], rooms: [Room(name: \"shed\", kind: Store, from: (-10, -10), to: (200, 200)), Room(name: \"loft\", kind: Loft, from: (-10, -40), to: (200, -9))],", "(-10, -40)", "the room “loft” overlaps the room “shed”"),
    slip(ProblemCode::OutsideRooms, VARY, "stages: [], rooms: [Room(name: \"shed\", kind: Store, from: (300, -10), to: (400, 200))],", "\"board\"", "the location `board` at"),
    slip(ProblemCode::BadNumber, VARY, "stages: [], rooms: [Room(name: \"shed\", kind: Store, from: (-1001, -10), to: (400, 200))],", "(-1001, -10)", "(-1001, -10) is out of range; -1000 to 1000 expected"),
    slip(ProblemCode::UnknownWord, VARY, "stages: [], rooms: [Room(name: \"shed\", kind: Attic, from: (-10, -10), to: (400, 200))],", "Attic", "`Attic` is not a known kind of room; expected: Room, Passage, Store, Loft, Outdoors"),
    slip(ProblemCode::NotOnBench, VARY, "stages: [], supply: Bench, rooms: [Room(name: \"shed\", kind: Store, from: (-10, -10), to: (200, 200))],", TOP, "`rooms` does not go with `supply: Bench`"),
    slip(ProblemCode::BadNumber, "metres: 1.0", "metres: -1.0", "-1.0", "-1 is out of range; 0.1 to 500 expected"),
    slip(ProblemCode::BadNumber, "metres: 1.0", "metres: NaN", "NaN", "NaN is out of range"),
    slip(ProblemCode::BadNumber, "watts: 60.0", "watts: inf", "inf", "inf is out of range"),
    slip(ProblemCode::BadNumber, "Some(4)", "Some(9)", "9),\n", "9 is out of range; 0 to 8 expected"),
    slip(ProblemCode::LampWithoutControl, "controls: [Control(lamp: \"lamp\", switches: [\"box\"])]", "controls: []", "\"lamp\"", "nothing says which switches work the lamp `lamp`"),
    slip(ProblemCode::BadControl, "switches: [\"box\"]", "switches: [\"box\", \"box\"]", "\"box\"])],", "a control names at least one switch and none twice"),
    slip(ProblemCode::BadControl, "switches: [\"box\"]", "switches: []", "\"lamp\", switches", "a control names at least one switch and none twice"),
    slip(ProblemCode::Overfilled, "at: \"lamp.outer\"", "at: \"lamp.centre\"", "\"lamp.centre\"),\n    ]", "too much in this terminal: 2 (1.5 mm²) conductors, room for 1 (1.5 mm²)"),
    slip(ProblemCode::ConnectedTwice, "end: \"flex/blue@lamp\"", "end: \"flex/brown@lamp\"", "\"flex/brown@lamp\", at: \"lamp.outer\"", "the end `flex/brown@lamp` is connected already"),
    slip(ProblemCode::ConnectedElsewhere, "at: \"lamp.outer\"", "at: \"box.COM\"", "\"box.COM\"", "the end `flex/blue@lamp` does not reach `box.COM`"),
    slip(ProblemCode::BadPlate, "ways: [TwoWay]", "ways: []", "[], connectors", "a plate has 1 to 4 gangs, not 0"),
    slip(ProblemCode::BadPlate, "ways: [TwoWay]", "ways: [TwoWay, OneWay, OneWay, OneWay, OneWay]", "[TwoWay", "a plate has 1 to 4 gangs, not 5"),
    slip(ProblemCode::TerminalSize, "kind: PendantFlex, mm2: 0.75", "kind: TwinEarth, mm2: 2.5", "\"lamp.centre\"", "a conductor of 2.5 mm² in this terminal, which is made for 0.5 to 1.5 mm²"),
    slip(ProblemCode::WrongAccessory, "ways: [TwoWay]", "ways: [TimerFan]", "[TimerFan", "“TimerFan” can't stand here"),
    slip(ProblemCode::NotInFront, "circuit: \"cellar\"", "circuit: \"cellar\", behind: Some(\"1\")", "\"1\")", "“1” is no residual current device"),
    slip(ProblemCode::NoDevice, "            Device(id: \"1\", kind: Rcbo6B30, circuit: \"passage\"),\n            Device(id: \"2\", kind: Rcbo6B30, circuit: \"cellar\"),\n", "", TOP, "a board needs at least one"),
    slip(ProblemCode::BadWeights, VARY, "stages: [], weights: (function: 0, polarity: 0, earthing: 0, identification: 0, tightness: 0, safe_working: 0, prediction: 0),", "(function: 0", "`weights` come to 0 in all, those left out counted as usual; 1 to 1000 expected"),
    slip(ProblemCode::BadWeights, VARY, "stages: [], pass_mark: 70, weights: Weights(function: 950),", "Weights(function: 950)", "`weights` come to 1025 in all"),
    slip(ProblemCode::BadPassMark, VARY, "stages: [], weights: (function: 30), pass_mark: 180,", "180,", "`pass_mark` is 180; 1 to 100 expected, per cent of the marks"),
    slip(ProblemCode::BadSuspect, VARY, "stages: [Diagnosis], suspects: [Suspect(what: Open, at: [\"flex/brown\", \"flex/blue\"]), Suspect(what: Nothing)],", "\"flex/brown\", \"flex", "a fault can't be stated like that: 2 found, 1 expected"),
    slip(ProblemCode::BadSuspects, VARY, "stages: [Diagnosis],", "Diagnosis", "the number of faults under `suspects` is 0. The stage `Diagnosis` needs at least two"),
    slip(ProblemCode::BadVariation, VARY, "stages: [], vary: [Length(cable: \"flex\", least: 3.0, most: 2.0)],", "2.0)", "this can't vary like that: 2 found, 3 expected"),
    slip(ProblemCode::BadVariation, VARY, "stages: [], vary: [Plate(location: \"lamp\", among: [Metal])],", "\"lamp\", among", "this can't vary like that: lamp found"),
    slip(ProblemCode::BadVariation, VARY, "stages: [], vary: [Watts(lamp: \"lamp\", among: [])],", "[])],", "this can't vary like that"),
    slip(ProblemCode::BadVariation, VARY, "stages: [], vary: [Passing(cable: \"flex\", among: [There, Away])],", "\"flex\", among", "this can't vary like that: flex found"),
];

/// Line and column of the first occurrence, both from 1.
fn place(text: &str, of: &str) -> String {
    let at = text.find(of).unwrap_or_else(|| panic!("no {of:?} in the file"));
    let before = &text[..at];
    let column = before.chars().rev().take_while(|it| *it != '\n').count() + 1;
    format!("{}:{column}", before.split('\n').count())
}

/// Nothing but what may be printed goes to the terminal.
fn is_clean(text: &str) -> bool {
    text.chars().all(|it| it == '\n' || !it.is_control() && !('\u{202a}'..='\u{202e}').contains(&it))
}

#[track_caller]
fn complains(bench: &Bench, args: &[&str], place: &str, says: &str) {
    let run = bench.run(args);
    assert_eq!((run.out.as_str(), run.code), ("", Some(1)), "{says}: {}", run.err);
    assert!(run.err.contains(&format!("--> {place}\n")), "{says}: {place} expected\n{}", run.err);
    assert!(run.err.contains(says), "{says:?} expected\n{}", run.err);
    assert!(run.err.starts_with("error: ") && is_clean(&run.err), "{says}: {:?}", run.err);
}

#[test]
fn every_slip_in_a_scenario_is_said_where_it_is() {
    let bench = Bench::new();
    for it in SCENARIOS {
        assert!(PASSAGE.contains(it.was), "{:?} is no longer in the file", it.was);
        // The last of them: ids of cables and devices may be alike.
        let at = PASSAGE.rfind(it.was).unwrap();
        let text = format!("{}{}{}", &PASSAGE[..at], it.is, &PASSAGE[at + it.was.len()..]);
        bench.file("s.ron", &text);
        complains(&bench, &["check", "s.ron"], &format!("s.ron:{}", place(&text, it.at)), it.says);
    }
}

#[test]
fn a_name_that_is_nearly_right_is_offered() {
    let bench = Bench::new();
    for (was, is, nearest) in [
        ("to: \"lamp\"", "to: \"lmap\"", "lamp"),
        ("end: \"flex/blue@lamp\"", "end: \"flex/bleu@lamp\"", "flex/blue@lamp"),
        ("at: \"lamp.outer\"", "at: \"lamp.outre\"", "lamp.outer"),
    ] {
        bench.file("s.ron", PASSAGE.replace(was, is));
        let run = bench.run(&["check", "s.ron"]);
        assert!(run.err.contains(&format!("did you mean `{nearest}`?")), "{is}\n{}", run.err);
    }
}

#[test]
fn a_variation_that_goes_wrong_in_some_draws_only_is_found() {
    let bench = Bench::new();
    // Half of the draws have no earth terminal on the plate: `check` tries each value, and its caret stands where that may vary.
    let vary = "stages: [], vary: [Plate(location: \"box\", among: [Metal, Plastic])],";
    let text = PASSAGE
        .replace(VARY, vary)
        .replace(
            "Connected(end: \"flex/blue@lamp\"",
            "Connected(end: \"flex/cpc@box\", at: \"box.plate.earth\"),\n        Connected(end: \"flex/blue@lamp\"",
        )
        .replace("flex/cpc@box", "one/cpc@box");
    bench.file("s.ron", text);
    let run = bench.run(&["check", "s.ron"]);
    assert_eq!((run.out.as_str(), run.code), ("", Some(1)), "{}", run.err);
    assert_eq!(
        run.err,
        "error: this can't vary like that: box.plate.earth found, what the scenario has expected\n  \
         --> s.ron:37:40\n   \
         |\n\
         37 |     stages: [], vary: [Plate(location: \"box\", among: [Metal, Plastic])],\n   \
         |                                        ^^^^^\n   \
         |\n\
         help: did you mean `box.box.earth`?\n"
    );
}

#[test]
fn what_is_no_text_file_is_said_for_scenarios_and_attempts() {
    let bench = Bench::new();
    bench.file("folder/keep", "");
    for (command, most) in
        [("check", Limits::SCENARIO_BYTES), ("mark", Limits::ATTEMPT_BYTES), ("states", Limits::ATTEMPT_BYTES)]
    {
        bench.file("latin.ron", b"(format:\n\n\xe9\n");
        bench.file("large.ron", "x".repeat(most + 1));
        let run = |name: &str| bench.run(&[command, name]);
        run("none.ron").complains("error: none.ron can't be read: there is no such file or folder\n");
        run("latin.ron").complains(
            "error: latin.ron is not text from line 3 on: it was damaged, or saved in another encoding than UTF-8\n",
        );
        run("large.ron")
            .complains(&format!("error: large.ron is too large: {} bytes, and at most {most} are read\n", most + 1));
        let said = if command == "check" {
            "error: there is no scenario.ron in folder, nor in a folder in it\n"
        } else {
            "error: folder is a folder and not an attempt file: to mark all the attempts in it, say `mark folder/*.ron`\n"
        };
        run("folder").complains(said);
    }
    bench
        .run(&["mark", "a\u{1b}[2J\u{202e}"])
        .complains("error: a\u{fffd}[2J\u{fffd} can't be read: there is no such file or folder\n");
}

/// What a tutor drags in by mistake: each is called what it is.
#[test]
fn another_kind_of_file_is_called_what_it_is() {
    let bench = Bench::new();
    bench.file("page.ron", "\n  <!DOCTYPE html>\n<html>");
    complains(
        &bench,
        &["check", "page.ron"],
        "page.ron:2:3",
        "this is a web page or a file like one; a scenario (it begins with `Scenario(`) is expected here",
    );
    bench.file("data.ron", "{\"format\": 1}");
    complains(&bench, &["check", "data.ron"], "data.ron:1:1", "this is a JSON file");
    bench.file("a.ron", changed("", ""));
    complains(&bench, &["check", "a.ron"], "a.ron:1:1", "this is an attempt’s file; a scenario");
    bench.file("lesson.pdf", b"%PDF-1.7\n\xe2\xe3\xcf\xd3\n");
    let said = "error: lesson.pdf is a PDF document, and not a file of this program\n";
    bench.run(&["check", "lesson.pdf"]).complains(said);
    // A scenario with a comment before it is one.
    assert_eq!(bench.run(&["check", bench.file("s.ron", PASSAGE).to_str().unwrap()]).code, Some(0));
    for name in ["page.ron", "data.ron", "lesson.pdf"] {
        let said = format!(
            "error: {name} is not an attempt file, whatever its name: give the file in which the program kept the learner's work\n"
        );
        bench.run(&["mark", name]).complains(&said);
    }
}

/// One slip in a cable or a place, named at many ends: one error, where the slip or the first sign of it is.
#[test]
fn one_wrong_cable_is_one_error() {
    let bench = Bench::new();
    let feed = "Cable(id: \"one\", name: \"first feed\", kind: TwinEarth, mm2: 1.5, metres: 9.0, from: \"board\", to: \"box\")";
    for (is, says) in [
        (feed.replace("1.5", "1.6"), "this kind of cable is not made in 1.6 mm²"),
        (feed.replace("\"board\"", "\"baord\""), "there is no location `baord`"),
        (feed.replace("\"one\"", "\"oen\""), "there is no conductor end `one/brown@board`"),
        (
            feed.replace("TwinEarth", "ThreeCoreEarth"),
            "there is no conductor end `one/blue@board`; the cores of that cable are brown, black, grey, cpc",
        ),
    ] {
        assert!(PASSAGE.contains(feed));
        bench.file("s.ron", PASSAGE.replace(feed, &is));
        let run = bench.run(&["check", "s.ron"]);
        assert_eq!((run.err.matches("error: ").count(), run.code), (1, Some(1)), "{is}: {}", run.err);
        assert!(run.err.contains(says), "{says:?} expected\n{}", run.err);
    }
    // Two slips are still two errors.
    let both = PASSAGE
        .replace(feed, &feed.replace("1.5", "1.6"))
        .replace("lamp: Filament, watts: 60.0", "lamp: Filament, watts: 0.0");
    bench.file("s.ron", both);
    assert_eq!(bench.run(&["check", "s.ron"]).err.matches("error: ").count(), 2);
}

#[cfg(unix)]
#[test]
fn a_pipe_is_not_waited_for() {
    let bench = Bench::new();
    bench.run(&["mark", "/dev/zero"]).complains("error: /dev/zero is not a file\n");
}

fn action(text: &str) -> Action {
    ron::from_str(text).expect("an action")
}

/// An attempt's lines in format 1, with one changed.
fn changed(was: &str, is: &str) -> String {
    changed_in(Format::One, was, is)
}

fn changed_in(format: Format, was: &str, is: &str) -> String {
    let text = attempt_in(format, &exercise("two-way-passage", 4), &[Action::Agree, Action::ProveIndicator]);
    assert!(text.contains(was), "{was}");
    text.replacen(was, is, 1)
}

#[test]
fn every_kind_of_broken_attempt_is_said_where_it_is() {
    let bench = Bench::new();
    let first = changed("", "").lines().next().unwrap().to_owned() + "\n";
    let second = "the exercise on this line is not the one the attempt was begun with: the line was changed after it was written. Ask for \
                  the original file";
    let other_sum = "this file was changed after it was written: this line was altered, or a line before it taken out or put in. Ask for the \
                     original file. (The sum that ends a line is a check figure for it and those before it; this one does not match.)";
    let no_sum = "this file was changed after it was written: this line has no sum at its end. Ask for the original file. (The sum that \
                  ends a line is a check figure for it and those before it.)";
    let refused = |text: &str| attempt_in(Format::One, &exercise("two-way-passage", 4), &[Action::Agree, action(text)]);
    let long = format!("Did(ms:1,action:FitCover(location:\"{}\"))", "x".repeat(512));
    for (text, place, says) in [
        (first, "2:1", "its first two lines are not whole. It may have been cut off on the way; ask for it again"),
        ("(format:2,mar".to_owned(), "1:1", "its first two lines are not whole"),
        (
            changed("format:1,marking", "format:9,marking"),
            "1:1",
            "this is format 9; this version of the program reads format 1, 2",
        ),
        (changed("Robin Hale", "Robin\u{202e}Hale"), "1:1", "a name or text may not be empty"),
        (changed("Robin Hale", ""), "1:1", "a name or text may not be empty"),
        (
            changed("scenario:\"two-way-passage\"", "scenario:\"one-way-rose\""),
            "1:30",
            "but the exercise in it is `two-way-passage`",
        ),
        (changed("Marlpit", "Marlpti"), "2:1", second),
        (changed("sha256:\"", "sha256:\"0"), "2:1", second),
        (changed_in(Format::Two, "Robin Hale", "Robin Hall"), "1:1", other_sum),
        (changed_in(Format::Two, "Marlpit", "Marlpti"), "2:1", other_sum),
        (changed_in(Format::Two, "ms:1000", "ms:1001"), "4:1", other_sum),
        (changed_in(Format::Two, "ProveIndicator,sum:\"", "ProveIndicator,sum:\"0"), "4:1", no_sum),
        (changed_in(Format::Two, "format:2", "format:1"), "1:", "`Attempt` has no field `sum`"),
        (changed("format:1", "format:2"), "1:1", no_sum),
        (changed("ProveIndicator", "ProveIndicatr"), "4:", "ProveIndicatr"),
        (
            changed("Did(ms:1000,action:ProveIndicator)", "Agree"),
            "4:1",
            "`Agree` is not a known word; expected: Did, Opened",
        ),
        (changed("Did(ms:1000,action:ProveIndicator)", "\u{1b}[2J"), "4:1", "this is not written as the format asks"),
        (
            changed("Did(ms:1000,action:ProveIndicator)", &long),
            "4:1",
            "this action is longer than 512 bytes, the most that are read",
        ),
        (
            refused("Tighten(terminal: \"kiln.1.L1\")"),
            "4:1",
            "does not allow this action: `kiln`: the plate or cover is on",
        ),
        (refused("FitCover(location: \"klin\")"), "4:1", "did you mean `kiln`?"),
        (refused("Connect(end: \"link/gray@clay\", terminal: \"kiln.1.L1\")"), "4:1", "did you mean `link/grey@clay`?"),
    ] {
        bench.file("a.attempt.ron", &text);
        for command in ["mark", "states"] {
            let run = bench.run(&[command, "a.attempt.ron"]);
            assert_eq!((run.out.as_str(), run.code), ("", Some(1)), "{says}: {}", run.err);
            assert!(run.err.contains(&format!("--> a.attempt.ron:{place}")), "{place} expected\n{}", run.err);
            assert!(run.err.contains(says), "{says:?} expected\n{}", run.err);
            assert!(is_clean(&run.err), "{:?}", run.err);
        }
        assert_eq!(bench.run(&["record", "a.attempt.ron"]).code, Some(1));
        assert_eq!(bench.read("a.attempt.ron"), text, "a file with something wrong with it stays as it is");
    }
}

/// Every code has a broken file above, or in the tests named here.
#[test]
fn every_code_of_the_table_has_a_broken_file() {
    let mut tried: BTreeSet<_> = SCENARIOS.iter().map(|it| it.code).collect();
    // The attempts above.
    tried.extend([ProblemCode::Digest, ProblemCode::CutShort, ProblemCode::Refused, ProblemCode::OtherScenario]);
    tried.extend([ProblemCode::NoSum, ProblemCode::OtherSum]);
    // `cli/record_help.rs`.
    tried.insert(ProblemCode::UnknownAction);
    // `limits.rs`: each at its limit and just over it.
    tried.extend([ProblemCode::TooLarge, ProblemCode::TooManyCombinations, ProblemCode::TooManyLocations]);
    tried.extend([ProblemCode::TooManyRooms, ProblemCode::TooManyCables, ProblemCode::TooManySwitches]);
    tried.extend([ProblemCode::TooManyDevices, ProblemCode::TooManyEntries]);
    tried.extend([ProblemCode::TooManyLines, ProblemCode::ActionTooLong]);
    // `naming.rs`.
    tried.extend([ProblemCode::BadUnmarked, ProblemCode::TooManyNamings, ProblemCode::NamingOfNothing]);
    // `given.rs`.
    tried.insert(ProblemCode::GivenOnSupply);
    // `another_kind_of_file_is_called_what_it_is`.
    tried.insert(ProblemCode::OtherFile);
    // `assignment.rs`.
    tried.extend([ProblemCode::BadTime, ProblemCode::TimesOutOfOrder, ProblemCode::EmptyList]);
    tried.extend([ProblemCode::ScenarioDigest, ProblemCode::HintsDisagree]);
    for code in ProblemCode::ALL {
        assert!(tried.contains(code), "no broken file gives {code:?}");
    }
}
