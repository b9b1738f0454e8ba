//! Each limit of the table, at it and just over it.

use std::sync::Arc;

use switchdrop::{
    attempt::{Format, action_line, open, parse_action},
    exercise::{Limits, ProblemCode, Problems, Seed, names_are_clean, read},
    register::{Assignment, SetExercise},
    trade::colour::Colour,
    work::{Action, Refused, Work},
};

use crate::{
    assignment::made as assignment,
    bench::{Bench, attempt_in, attempt_lines, attempt_text, sealed},
    hand::{exercise, scenario},
};

fn codes(problems: Result<impl Sized, Problems>) -> Vec<ProblemCode> {
    problems.err().into_iter().flatten().map(|it| it.code).collect()
}

/// A scenario with a board and these numbers of roses, of boxes with one one-way switch, and of cables.
fn made(roses: usize, boxes: usize, cables: usize) -> String {
    let mut locations = vec![
        "Location(id: \"board\", name: \"board\", at: (0, 0), has: Board(devices: [Device(id: \"1\", kind: Rcbo6B30, \
         circuit: \"lights\")]))"
            .to_owned(),
    ];
    let place = |id: String, has: &str| format!("Location(id: \"{id}\", name: \"{id}\", at: (0, 0), has: {has})");
    locations.extend((1..=roses).map(|it| place(format!("rose-{it}"), "Rose")));
    let one_way = "Box(body: Plastic, plate: Plastic, ways: [OneWay])";
    locations.extend((1..=boxes).map(|it| place(format!("box-{it}"), one_way)));
    let cable = |it| {
        format!(
            "Cable(id: \"c-{it}\", name: \"c\", kind: TwinEarth, mm2: 1.0, metres: 1.0, from: \"board\", to: \"rose-1\")"
        )
    };
    let cables: Vec<String> = (1..=cables).map(cable).collect();
    format!(
        "Scenario(format: 1, id: \"made\", title: \"t\", place: \"p\", brief: \"b\", edition: A2of2022, earthing: TnCS,\n\
         locations: [{}], cables: [{}], controls: [], stages: [])",
        locations.join(",\n"),
        cables.join(",\n")
    )
}

#[test]
fn bytes_of_a_scenario() {
    let text = scenario("one-way-rose");
    let padded = |size: usize| format!("{text}{}", " ".repeat(size - text.len()));
    assert_eq!(codes(read(&padded(Limits::SCENARIO_BYTES), Seed(0))), []);
    assert_eq!(codes(read(&padded(Limits::SCENARIO_BYTES + 1), Seed(0))), [ProblemCode::TooLarge]);
}

#[test]
fn locations() {
    assert_eq!(codes(read(&made(Limits::LOCATIONS - 1, 0, 0), Seed(0))), []);
    let over = made(Limits::LOCATIONS, 0, 0);
    let problems = read(&over, Seed(0)).expect_err("one too many");
    let it = problems.iter().find(|it| it.code == ProblemCode::TooManyLocations).expect("what is too many");
    assert_eq!((&over[it.span.clone()], it.found.as_str(), it.expected.as_str()), ("\"rose-64\"", "65", "64"));
}

#[test]
fn cables() {
    assert_eq!(codes(read(&made(1, 0, Limits::CABLES), Seed(0))), []);
    let over = made(1, 0, Limits::CABLES + 1);
    let problems = read(&over, Seed(0)).expect_err("one too many");
    let found: Vec<_> = problems.iter().map(|it| (it.code, &over[it.span.clone()])).collect();
    assert_eq!(found, [(ProblemCode::TooManyCables, "\"c-257\"")]);
}

/// Rooms side by side, the first with every location in it.
#[test]
fn rooms() {
    let with = |rooms: &[String]| {
        let rooms = format!("rooms: [{}], controls: []", rooms.join(", "));
        made(1, 0, 0).replace("controls: []", &rooms)
    };
    let row = |count: usize| -> Vec<String> {
        let room =
            |it| format!("Room(name: \"room-{it}\", kind: Room, from: ({}, -9), to: ({}, 9))", it * 9 - 9, it * 9);
        (1..=count).map(room).collect()
    };
    assert_eq!(codes(read(&with(&row(Limits::ROOMS)), Seed(0))), []);
    let over = with(&row(Limits::ROOMS + 1));
    let problems = read(&over, Seed(0)).expect_err("one too many");
    let found: Vec<_> = problems.iter().map(|it| (it.code, &over[it.span.clone()])).collect();
    assert_eq!(found, [(ProblemCode::TooManyRooms, "\"room-25\"")]);
    let named = |count| vec![row(1)[0].replace("room-1", &"é".repeat(count))];
    assert_eq!(codes(read(&with(&named(Limits::NAME_CHARS)), Seed(0))), []);
    assert_eq!(codes(read(&with(&named(Limits::NAME_CHARS + 1)), Seed(0))), [ProblemCode::BadName]);
    let far = |units: i16| vec![format!("Room(name: \"all\", kind: Outdoors, from: (-{units}, 0), to: (9, {units}))")];
    assert_eq!(codes(read(&with(&far(Limits::ROOM_UNITS)), Seed(0))), []);
    assert_eq!(codes(read(&with(&far(Limits::ROOM_UNITS + 1)), Seed(0))), [ProblemCode::BadNumber; 2]);
}

#[test]
fn devices() {
    let boards = |count: usize| {
        let device = |it| format!("Device(id: \"{it}\", kind: Rcbo6B30, circuit: \"lights\")");
        let all: Vec<String> = (1..=count).map(device).collect();
        made(1, 0, 0).replace("Device(id: \"1\", kind: Rcbo6B30, circuit: \"lights\")", &all.join(","))
    };
    assert_eq!(codes(read(&boards(Limits::DEVICES), Seed(0))), []);
    let over = boards(Limits::DEVICES + 1);
    let problems = read(&over, Seed(0)).expect_err("one too many");
    let found: Vec<_> = problems.iter().map(|it| (it.code, &over[it.span.clone()])).collect();
    assert_eq!(found, [(ProblemCode::TooManyDevices, "\"65\"")]);
}

/// Lists whose entries are wrong besides, so that only the length of each is asked about.
#[test]
fn entries_of_a_list() {
    let too_many = |text: String| codes(read(&text, Seed(0))).contains(&ProblemCode::TooManyEntries);
    let list = |of: &str, count: usize| vec![of; count].join(", ");
    for (of, was, before, after, most) in [
        ("Isolation", "stages: []", "stages: [", "]", Limits::ENTRIES),
        ("\"c-1/brown\"", "stages: []", "stages: [], predict: [", "]", Limits::ENTRIES),
        ("Control(lamp: \"x\", switches: [])", "controls: []", "controls: [", "]", Limits::ENTRIES),
        ("\"x\"", "controls: []", "controls: [Control(lamp: \"x\", switches: [", "])]", Limits::ENTRIES),
        ("Chart(among: [])", "stages: []", "stages: [], vary: [", "]", Limits::ENTRIES),
        ("1.0", "stages: []", "stages: [], vary: [Watts(lamp: \"x\", among: [", "])]", Limits::ENTRIES),
        ("\"x\"", "stages: []", "stages: [], vary: [Devices(among: [", "])]", Limits::ENTRIES),
        ("Connected(end: \"x\", at: \"y\")", "stages: []", "stages: [], connected: [", "]", Limits::CONNECTED),
        ("Dress(location: \"x\")", "stages: []", "stages: [], slips: [", "]", Limits::SLIPS),
    ] {
        let text = |count| made(1, 0, 1).replace(was, &format!("{before}{}{after}", list(of, count)));
        assert!(!too_many(text(most)), "{before}");
        assert!(too_many(text(most + 1)), "{before}");
    }
}

/// An attempt that was begun on an exercise which no scenario could be any more is marked all the same.
#[test]
fn what_a_new_scenario_may_not_be_an_attempt_of_before_may() {
    let drawn = exercise("one-way-rose", 4);
    let text = attempt_text(&drawn, &[Action::HandIn]);
    let other = drawn.text().replacen("stages:[Isolation", "stages:[Isolation,Isolation", 1);
    assert_ne!(other, drawn.text());
    assert_eq!(codes(read(&other, Seed(4))), [ProblemCode::Duplicate]);
    let lines: Vec<&str> = text.lines().collect();
    let first = lines[0].replacen("format:2", "format:1", 1);
    let first = &first[..first.rfind(",sum:").expect("a sum")];
    let sha = switchdrop::attempt::sha256(other.as_bytes());
    let old = format!("{first})\n(sha256:\"{sha}\",exercise:{other})\nDid(ms:1,action:HandIn)\n");
    assert!(open(&old).is_ok(), "{:?}", open(&old).err());
}

#[test]
fn cables_to_choose_from() {
    let offer = |kind: &str, mm2: f64| format!("Offer(kind: {kind}, mm2: {mm2:?})");
    let run = |offers: &[String]| {
        let run = format!(
            "runs: [Run(id: \"run\", name: \"r\", metres: 1.0, from: \"board\", to: \"rose-1\", choose: [{}])],",
            offers.join(", ")
        );
        codes(read(&made(1, 0, 0).replace("controls: []", &format!("{run} controls: []")), Seed(0)))
    };
    // No more than seven are made, so at the limit some stand there twice, which is another problem.
    let many = |count: usize| vec![offer("TwinEarth", 1.0); count];
    assert!(!run(&many(Limits::OFFERS)).contains(&ProblemCode::TooManyEntries));
    assert!(run(&many(Limits::OFFERS + 1)).contains(&ProblemCode::TooManyEntries));
    let two = [offer("TwinEarth", 1.0), offer("ThreeCoreEarth", 1.0)];
    assert_eq!(run(&two), []);
    assert_eq!(run(&two[..1]), [ProblemCode::BadOffer], "nothing to choose");
    assert_eq!(run(&[two[0].clone(), two[0].clone()]), [ProblemCode::BadOffer], "twice the same");
    assert_eq!(run(&[two[0].clone(), offer("PendantFlex", 1.0)]), [ProblemCode::BadOffer], "no cpc");
    assert_eq!(run(&[two[0].clone(), offer("OldTwinEarth", 1.0)]), [ProblemCode::BadOffer], "nobody sells it");
    assert_eq!(run(&[two[0].clone(), offer("ThreeCoreEarth", 2.5)]), [ProblemCode::BadSize]);
}

/// Two gangs a box, or there would be too many locations first. This version can't try all combinations of that number, so
/// at the limit that is what is said, and over it that they are too many.
#[test]
fn switches() {
    let two_gangs = |boxes| made(1, boxes, 0).replace("[OneWay]", "[OneWay, OneWay]");
    let at = two_gangs(Limits::SWITCHES / 2);
    assert_eq!(codes(read(&at, Seed(0))), [ProblemCode::TooManyCombinations]);
    let over = at.replacen("ways: [OneWay, OneWay]", "ways: [OneWay]", 1).replacen(
        "locations: [",
        "locations: [Location(id: \"x\", name: \"x\", at: (0, 0), has: Box(body: Plastic, plate: Plastic, ways: \
         [OneWay, OneWay])),",
        1,
    );
    assert_eq!(codes(read(&over, Seed(0))), [ProblemCode::TooManySwitches]);
}

#[test]
fn combinations() {
    let switches = Limits::COMBINATIONS.ilog2() as usize;
    assert_eq!(codes(read(&made(1, switches, 0), Seed(0))), []);
    assert_eq!(codes(read(&made(1, switches + 1, 0), Seed(0))), [ProblemCode::TooManyCombinations]);
}

#[test]
fn characters_of_a_name_and_of_a_brief() {
    let text = made(1, 0, 0);
    // Letters of two bytes: characters are counted.
    let titled = |count| text.replace("title: \"t\"", &format!("title: \"{}\"", "é".repeat(count)));
    assert_eq!(codes(read(&titled(Limits::NAME_CHARS), Seed(0))), []);
    assert_eq!(codes(read(&titled(Limits::NAME_CHARS + 1), Seed(0))), [ProblemCode::BadName]);
    let briefed = |count| text.replace("brief: \"b\"", &format!("brief: \"{}\"", "é".repeat(count)));
    assert_eq!(codes(read(&briefed(Limits::PARAGRAPH_CHARS), Seed(0))), []);
    assert_eq!(codes(read(&briefed(Limits::PARAGRAPH_CHARS + 1), Seed(0))), [ProblemCode::BadName]);
    for bad in ["a\u{202e}b", "a/b", "a\\b", "a\u{7}b", " ", ""] {
        assert!(!names_are_clean(bad, Limits::NAME_CHARS), "{bad:?}");
    }
}

/// Nested brackets where a text should be: at the limit the reader says what is wrong with them, over it that they are
/// too deep. One level is the action around them.
#[test]
fn depth_of_a_value() {
    let nested = |depth: usize| format!("Unmark(end: {}{})", "[".repeat(depth), "]".repeat(depth));
    let said = |depth| parse_action(&nested(depth)).expect_err("no text")[0].expected.clone();
    assert_ne!(said(Limits::RON_DEPTH - 1), "syntax-depth");
    // Far over it nothing overflows either.
    let far = format!("[{}", "(".repeat(200));
    assert!(parse_action(&far).is_err());
    let scenario = made(1, 0, 0);
    let deep = |depth| {
        scenario.replace("title: \"t\"", &format!("title: {}\"t\"{}", "Some(".repeat(depth), ")".repeat(depth)))
    };
    let too_deep = |depth| {
        let problems = read(&deep(depth), Seed(0)).expect_err("no title");
        problems[0].expected == "syntax-depth"
    };
    let first = (1..100).find(|it| too_deep(*it)).expect("a depth that is refused");
    assert!((Limits::RON_DEPTH - 3..=Limits::RON_DEPTH).contains(&first), "{first}");
    assert!(!too_deep(first - 1));
}

#[test]
fn bytes_of_an_attempt() {
    let exercise = exercise("one-way-rose", 0);
    let start = attempt_in(Format::One, &exercise, &[]);
    let line = |size: usize| format!("Did(ms:0,action:Agree){}\n", " ".repeat(size - 23));
    let of_size = |size: usize| {
        let mut text = start.clone();
        while size - text.len() > 1000 {
            text += &line(500);
        }
        let rest = size - text.len();
        text + &line(rest / 2) + &line(rest - rest / 2)
    };
    let at = of_size(Limits::ATTEMPT_BYTES);
    assert_eq!(at.len(), Limits::ATTEMPT_BYTES);
    assert_eq!(codes(open(&at)), []);
    assert_eq!(codes(open(&of_size(Limits::ATTEMPT_BYTES + 1))), [ProblemCode::TooLarge]);
}

#[test]
fn lines_of_an_attempt() {
    let exercise = exercise("one-way-rose", 0);
    // A sum makes a line longer, so that in format 2 the bytes are used up first.
    let of_lines = |count| attempt_in(Format::One, &exercise, &vec![Action::Agree; count - 2]);
    assert_eq!(codes(open(&of_lines(Limits::ATTEMPT_LINES))), []);
    assert_eq!(codes(open(&of_lines(Limits::ATTEMPT_LINES + 1))), [ProblemCode::TooManyLines]);
}

#[test]
fn bytes_of_an_action() {
    let exercise = exercise("one-way-rose", 0);
    let line = |size: usize| format!("Did(ms:0,action:Agree){}\r\n", " ".repeat(size - 22));
    let text = |size| attempt_in(Format::One, &exercise, &[]) + &line(size);
    assert_eq!(codes(open(&text(Limits::ACTION_BYTES))), []);
    assert_eq!(codes(open(&text(Limits::ACTION_BYTES + 1))), [ProblemCode::ActionTooLong]);
    let alone = |size: usize| format!("Agree{}", " ".repeat(size - 5));
    assert_eq!(codes(parse_action(&alone(Limits::ACTION_BYTES))), []);
    assert_eq!(codes(parse_action(&alone(Limits::ACTION_BYTES + 1))), [ProblemCode::ActionTooLong]);
}

/// The sum counts: a line of as many bytes with it is read, one of a byte more is not.
#[test]
fn bytes_of_an_action_with_its_sum() {
    let exercise = exercise("one-way-rose", 0);
    let text = |size: usize| {
        let made = |fill: usize| {
            let action = Action::Unmark { end: "x".repeat(fill) };
            let mut lines = attempt_lines(Format::Two, &exercise, &[]);
            lines.push(action_line(0, &action).expect("a line"));
            sealed(Format::Two, &lines)
        };
        let length = |text: &str| text.lines().last().map_or(0, str::len);
        let text = made(size - length(&made(0)));
        assert_eq!(length(&text), size);
        text
    };
    assert_eq!(codes(open(&text(Limits::ACTION_BYTES))), []);
    assert_eq!(codes(open(&text(Limits::ACTION_BYTES + 1))), [ProblemCode::ActionTooLong]);
}

#[test]
fn digits_of_a_sum() {
    let text = attempt_text(&exercise("one-way-rose", 0), &[Action::Agree]);
    let (before, sum) = text.rsplit_once(",sum:\"").expect("a sum");
    let digits = sum.strip_suffix("\")\n").expect("its end");
    assert_eq!((digits.len(), codes(open(&text))), (Limits::SUM_DIGITS, vec![]));
    for other in [&digits[1..], &format!("{digits}0")] {
        assert_eq!(codes(open(&format!("{before},sum:\"{other}\")\n"))), [ProblemCode::NoSum]);
    }
}

#[test]
fn links_made_up() {
    let mut work = Work::new(Arc::clone(&exercise("two-way-passage", 0)));
    let make_up = Action::MakeUp { location: "kiln".to_owned(), colour: Colour::Brown };
    for number in 1..=Limits::MADE {
        assert_eq!(work.apply(&make_up), Ok(()), "{number}");
    }
    assert_eq!(work.apply(&make_up), Err(Refused::NothingLeft));
}

/// The size of a file is looked at before its bytes are: these are not even text.
#[test]
fn sizes_of_files_on_disk() {
    let bench = Bench::new();
    bench.file("s.ron", vec![0xff; Limits::SCENARIO_BYTES + 1]);
    bench.run(&["check", "s.ron"]).complains(&format!(
        "error: s.ron is too large: {} bytes, and at most {} are read\n",
        Limits::SCENARIO_BYTES + 1,
        Limits::SCENARIO_BYTES
    ));
    bench.file("a.ron", vec![0xff; Limits::ATTEMPT_BYTES + 1]);
    for args in [["mark", "a.ron"], ["record", "a.ron"]] {
        bench.run(&args).complains(&format!(
            "error: a.ron is too large: {} bytes, and at most {} are read\n",
            Limits::ATTEMPT_BYTES + 1,
            Limits::ATTEMPT_BYTES
        ));
    }
}

#[test]
fn assignments() {
    let with = |learners: u64| {
        let it = Assignment { learners: (1..=learners).collect(), ..assignment() };
        codes(Assignment::read(&it.text().expect("RON")))
    };
    assert_eq!(with(Limits::LEARNERS as u64), []);
    assert_eq!(with(Limits::LEARNERS as u64 + 1), [ProblemCode::TooManyEntries]);
    let with = |exercises: usize| {
        let set = |it| {
            let text = scenario("wire-a-switch").replace("\"wire-a-switch\"", &format!("\"switch-{it}\""));
            SetExercise::of(read(&text, Seed(0)).expect("a scenario"))
        };
        let it = Assignment { exercises: (1..=exercises).map(set).collect(), ..assignment() };
        codes(Assignment::read(&it.text().expect("RON")))
    };
    assert_eq!(with(Limits::ASSIGNED), []);
    assert_eq!(with(Limits::ASSIGNED + 1), [ProblemCode::TooManyEntries]);
    let with = |tries, learner| {
        let it = Assignment { tries, learners: vec![learner], ..assignment() };
        codes(Assignment::read(&it.text().expect("RON")))
    };
    assert_eq!(with(Limits::TRIES, Limits::LEARNER), []);
    assert_eq!(with(Limits::TRIES + 1, Limits::LEARNER + 1), [ProblemCode::BadNumber; 2]);
    let text = assignment().text().expect("RON");
    let padded = |bytes: usize| format!("{text}{}", " ".repeat(bytes - text.len()));
    assert_eq!(codes(Assignment::read(&padded(Limits::ASSIGNMENT_BYTES))), []);
    assert_eq!(codes(Assignment::read(&padded(Limits::ASSIGNMENT_BYTES + 1))), [ProblemCode::TooLarge]);
}
