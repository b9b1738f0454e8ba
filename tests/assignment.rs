//! The assignment file: what is written is what is read, every problem is named with its place, and what each learner gets by it.

use proptest::prelude::*;
use switchdrop::{
    attempt::sha256,
    exercise::{AtHand, Limits, ProblemCode, Seed, Template, read},
    register::{Adjustment, AnswersShown, Assignment, Counts, Hints, LearnersWork, SetExercise, WallTime, seed_of},
};

use crate::{hand::scenario, random::cases};

/// An assignment of the first exercise and of the rose, for three learners.
pub fn made() -> Assignment {
    let set = |id| SetExercise::of(read(scenario(id), Seed(0)).expect("shipped"));
    Assignment {
        id: "autumn-lights".to_owned(),
        title: "Lights, week 3".to_owned(),
        group: "Group 2".to_owned(),
        opens: WallTime::of("2026-11-02T09:00:00+00:00"),
        due: WallTime::of("2026-11-06T17:00:00+00:00"),
        last: WallTime::of("2026-11-09T09:00:00+00:00"),
        tries: 3,
        counts: Counts::Best,
        hints: Hints::Without,
        answers: AnswersShown::Released,
        pass_mark: None,
        program: "0.1.0".to_owned(),
        marking: 4,
        learners: vec![3, 7, 1_204_551],
        exercises: vec![set("wire-a-switch"), set("one-way-rose")],
        sha256: String::new(),
    }
}

fn text() -> String {
    made().text().expect("RON")
}

#[test]
fn what_is_written_is_what_is_read() {
    let text = text();
    let read = Assignment::read(&text).unwrap_or_else(|it| panic!("{it}\n{text}"));
    assert_eq!(read.text().expect("RON"), text);
    assert_eq!((read.learners.as_slice(), read.due), ([3, 7, 1_204_551].as_slice(), made().due));
    assert_eq!(read.sha256, sha256(text.as_bytes()));
    // Sent as some mail programs send text, it is the same.
    let sent = Assignment::read(&text.replace('\n', "\r\n")).expect("the same");
    assert_eq!(sent.sha256, read.sha256);
    for it in &read.exercises {
        assert_eq!(it.sha256, sha256(it.scenario.text().as_bytes()));
    }
    // No name and no adjustment has a field.
    for word in ["name:\"", "learner:", "code", "minutes"] {
        assert!(!text.split("exercises:").next().expect("a start").contains(word), "{word}");
    }
}

/// In the text of the file `from` stands once; with `to` for it, this is the problem, and it is placed at `at`.
#[track_caller]
fn is_wrong(from: &str, to: &str, code: ProblemCode, at: &str) {
    let good = text();
    assert_eq!(good.matches(from).count(), 1, "{from}\n{good}");
    let wrong = good.replace(from, to);
    let problems = Assignment::read(&wrong).expect_err(to);
    let found: Vec<_> = problems.iter().map(|it| (it.code, &wrong[it.span.clone()])).collect();
    assert_eq!(found, [(code, at)], "{to}");
}

#[test]
fn every_problem_has_its_place() {
    use ProblemCode as Code;
    is_wrong("id: \"autumn-lights\"", "id: \"Autumn\"", Code::BadId, "\"Autumn\"");
    is_wrong("id: \"autumn-lights\"", "id: \"nul\"", Code::BadId, "\"nul\"");
    is_wrong("title: \"Lights, week 3\"", "title: \"a/b\"", Code::BadName, "\"a/b\"");
    is_wrong("group: \"Group 2\"", "group: \" \"", Code::BadName, "\" \"");
    is_wrong("format: 1,\n    id", "format: 2,\n    id", Code::Format, "2");
    is_wrong("tries: 3", "tries: 0", Code::BadNumber, "0");
    is_wrong("tries: 3", "tries: 21", Code::BadNumber, "21");
    is_wrong("2026-11-06T17:00:00+00:00", "next Friday", Code::BadTime, "\"next Friday\"");
    // Without an offset nobody knows when that is.
    is_wrong("2026-11-06T17:00:00+00:00", "2026-11-06T17:00:00", Code::BadTime, "\"2026-11-06T17:00:00\"");
    let before = "2026-11-01T17:00:00+00:00";
    is_wrong("2026-11-06T17:00:00+00:00", before, Code::TimesOutOfOrder, &format!("\"{before}\""));
    // Later on the clock there, and earlier all the same.
    let east = "2026-11-02T09:30:00+01:00";
    is_wrong("2026-11-06T17:00:00+00:00", east, Code::TimesOutOfOrder, &format!("\"{east}\""));
    is_wrong("1204551", "0", Code::BadNumber, "0");
    is_wrong("1204551", "1000000000000", Code::BadNumber, "1000000000000");
    is_wrong("1204551", "7", Code::Duplicate, "7");
    is_wrong("hints: Without", "pass_mark: 0,\n    hints: Without", Code::BadPassMark, "0");
    is_wrong("hints: Without", "hint: Without", Code::UnknownField, "hint");
}

/// Of a scenario the digest is wrong as well, so that there are two problems; one of another digest alone has one.
#[test]
fn a_scenario_that_was_changed_is_named_and_its_own_problems_are_placed() {
    let good = text();
    let wrong = good.replacen("metres:2.0", "metres:2.5", 1);
    let problems = Assignment::read(&wrong).expect_err("changed");
    let set = &made().exercises[0];
    let own = Template::of(&set.scenario).expect("shipped").text().expect("RON");
    let found: Vec<_> = problems.iter().map(|it| (it.code, wrong[it.span.clone()].to_owned())).collect();
    assert_eq!(found, [(ProblemCode::ScenarioDigest, format!("\"{}\"", sha256(own.as_bytes())))]);
    assert_eq!(problems[0].found, sha256(own.replacen("metres:2.0", "metres:2.5", 1).as_bytes()));
    let wrong = good.replacen("from:\"rose\",to:\"lamp\"", "from:\"rosa\",to:\"lamp\"", 1);
    let problems = Assignment::read(&wrong).expect_err("no such place");
    let found: Vec<_> = problems.iter().map(|it| (it.code, &wrong[it.span.clone()])).collect();
    assert!(found.contains(&(ProblemCode::UnknownLocation, "\"rosa\"")), "{found:?}");
}

/// No shipped exercise gives marks for doing without hints; one that does is nothing without them.
#[test]
fn hints_that_cost_go_with_exercises_that_give_marks_for_doing_without() {
    let costing = scenario("one-way-rose").replace("predict: [", "weights: Weights(rework: 0, hints: 5), predict: [");
    let set = |text: &str| vec![SetExercise::of(read(text, Seed(0)).expect("a scenario"))];
    let codes = |hints, exercises| {
        let text = Assignment { hints, exercises, ..made() }.text().expect("RON");
        Assignment::read(&text).err().into_iter().flatten().map(|it| it.code).collect::<Vec<_>>()
    };
    for hints in Hints::ALL {
        let (costs, wrong) = (*hints == Hints::Costing, vec![ProblemCode::HintsDisagree]);
        assert_eq!(codes(*hints, set(&costing)), if costs { vec![] } else { wrong.clone() });
        assert_eq!(codes(*hints, set(scenario("one-way-rose"))), if costs { wrong } else { vec![] });
    }
}

#[test]
fn an_exercise_set_twice_and_empty_lists_are_problems() {
    let codes = |it: &Assignment| {
        let problems = Assignment::read(&it.text().expect("RON")).expect_err("wrong");
        problems.iter().map(|it| it.code).collect::<Vec<_>>()
    };
    let mut twice = made();
    twice.exercises.push(SetExercise::of(read(scenario("one-way-rose"), Seed(0)).expect("shipped")));
    assert_eq!(codes(&twice), [ProblemCode::Duplicate]);
    assert_eq!(codes(&Assignment { learners: vec![], ..made() }), [ProblemCode::EmptyList]);
    assert_eq!(codes(&Assignment { exercises: vec![], ..made() }), [ProblemCode::EmptyList]);
}

#[test]
fn each_learner_gets_an_exercise_of_their_own_and_a_code_another() {
    let assignment = Assignment { hints: Hints::Counted, pass_mark: Some(90), ..made() };
    let of = |learner, adjustment| LearnersWork::of(&assignment, learner, adjustment).expect("drawn").exercises;
    let seven = of(7, Adjustment::default());
    for (exercise, id) in seven.iter().zip(["wire-a-switch", "one-way-rose"]) {
        assert_eq!((exercise.id.as_str(), exercise.seed), (id, seed_of("autumn-lights", 7, id, 0)));
        // What the tutor decides is in the exercise itself, and so marked by.
        assert_eq!((exercise.hints, exercise.pass_mark), (true, 90));
        assert_eq!(AtHand::of(exercise, &assignment.templates()), AtHand::Same);
    }
    assert_eq!(of(7, Adjustment::default())[1].text(), seven[1].text());
    let texts: Vec<String> = (1..=20)
        .map(|it| of(it, Adjustment::default())[1].text().to_owned())
        .chain([of(7, Adjustment::new(0, 1).expect("a code"))[1].text().to_owned()])
        .collect();
    let mut different = texts.clone();
    different.sort();
    different.dedup();
    assert_eq!(different.len(), texts.len(), "two learners have the same house");
}

proptest! {
    #![proptest_config(cases(64))]

    /// A file with bytes of it changed, left out or put in is answered.
    #[test]
    fn a_mutated_assignment_is_answered(changes in proptest::collection::vec((any::<u16>(), any::<u8>(), 0..3_u8), 1..6)) {
        let mut bytes = text().into_bytes();
        for (at, byte, how) in changes {
            let at = at as usize % bytes.len();
            match how {
                0 => bytes[at] = byte,
                1 => drop(bytes.drain(at..(at + byte as usize).min(bytes.len()))),
                _ => bytes.insert(at, byte),
            }
        }
        let text = String::from_utf8_lossy(&bytes);
        if let Err(problems) = Assignment::read(&text) {
            for it in problems.iter() {
                prop_assert!(text.get(it.span.clone()).is_some(), "{:?} is no place", it.span);
            }
        }
    }
}

#[test]
fn the_deepest_and_the_longest_are_answered() {
    for text in ["(".repeat(100_000), "[".repeat(100_000), format!("Assignment({}", "id:".repeat(10_000))] {
        assert!(Assignment::read(&text).is_err());
    }
    let long = text() + &" ".repeat(Limits::ASSIGNMENT_BYTES);
    let code = Assignment::read(&long).expect_err("too long")[0].code;
    assert_eq!(code, ProblemCode::TooLarge);
}
