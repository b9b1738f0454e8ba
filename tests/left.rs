//! Slips that stand in the work before the learner comes: they are there for everything that looks, a hand could have made them, and
//! they are not the learner's.

use std::{collections::BTreeSet, sync::Arc};

use switchdrop::{
    attempt::Attempt,
    exercise::{Exercise, HandAct, ProblemCode, Seed, draw, draw_each_value, read},
    marking::{Code, Outcome},
    trade::colour::{Colour, Mark},
    work::{Action, Feel, Refused, Work, slip_problems, slips_refused},
};

use crate::hand::{Hand, marked, scenario};

/// The practice board on which two ends are to be joined at the switch, with something more said before what may vary.
fn board_with(more: &str) -> String {
    scenario("wire-a-switch").replacen("    vary: [", &format!("    {more}\n    vary: ["), 1)
}

fn drawn(text: &str) -> Arc<Exercise> {
    Arc::new(draw(text, Seed(0)).unwrap_or_else(|it| panic!("{it:#?}")))
}

const LOOSE: &str = r#"slips: [
        Disconnect(end: "feed/2@rose"), Connect(end: "feed/blue@rose", terminal: "rose.neutral"),
    ],"#;

#[test]
fn a_slip_stands_in_the_work_and_in_what_is_drawn_and_is_replayed() {
    let exercise = drawn(&board_with(LOOSE));
    let start = Work::new(Arc::clone(&exercise));
    let neutral = start.terminal("rose.neutral").unwrap();
    assert!(!start.is_tight(neutral), "the screw that was turned back");
    assert!(start.ends_in(neutral).count() == 2 && start.is_covered(start.location("rose").unwrap()));
    // As drawn it says so itself, the core by its name, and is the same exercise.
    assert!(exercise.text().contains("slips:[Disconnect(end:\"feed/blue@rose\"),"), "{}", exercise.text());
    let again = Arc::new(read(exercise.text(), Seed(0)).unwrap());
    assert_eq!(format!("{:?}", *again), format!("{:?}", *exercise));
    let replayed = Attempt::replay(again, [Action::RemoveCover { location: "rose".into() }]).unwrap();
    assert!(!replayed.work().is_tight(neutral));
    // Without the field nothing is written of it.
    let plain = drawn(scenario("wire-a-switch"));
    assert!(!plain.text().contains("slips") && plain.slips.is_empty());
}

/// The learner joins what is theirs and leaves the rose alone: its loose screw is told as there before, and costs nothing.
#[test]
fn what_a_slip_left_is_not_the_learners() {
    let mut hand = Hand::new(drawn(&board_with(LOOSE)));
    hand.does(Action::RemoveCover { location: "switch".into() });
    hand.wires(
        "drop/brown@switch switch.COM
        drop/blue@switch Sleeve(Brown) switch.L1
        drop/cpc@switch Sleeve(GreenYellow) switch.box.earth",
    );
    hand.closes_up();
    hand.does(Action::BringSupply);
    hand.works_switches();
    hand.does(Action::HandIn);
    let sheet = marked(&hand.attempt);
    assert_eq!((sheet.marks, sheet.out_of, sheet.outcome), (100, 100, Outcome::Pass), "{:#?}", sheet.findings);
    let before: Vec<_> = sheet.findings.iter().filter(|it| it.before).map(|it| it.code).collect();
    assert_eq!(before, [Code::ConnectionSlack]);
}

#[test]
fn what_no_hand_can_do_is_told_where_it_stands() {
    let twice = board_with(r#"slips: [Disconnect(end: "feed/blue@rose"), Disconnect(end: "feed/blue@rose")],"#);
    assert_eq!(slips_refused(&drawn(&twice)), [(1, Refused::NotConnected { end: "feed/blue@rose".into() })]);
    let problems = slip_problems(&twice, Seed(0)).unwrap_err();
    assert_eq!(
        (problems.len(), problems[0].code, problems[0].expected.as_str()),
        (1, ProblemCode::Refused, "not-connected")
    );
    assert_eq!(&twice[problems[0].span.clone()], "Disconnect(end: \"feed/blue@rose\")");
    // A cover is no matter of theirs, but one can be left off.
    let off = drawn(&board_with(r#"slips: [RemoveCover(location: "rose")],"#));
    assert!(slips_refused(&off).is_empty());
    let work = Work::new(off);
    assert!(!work.is_covered(work.location("rose").unwrap()));
    assert_eq!(slip_problems(scenario("wire-a-switch"), Seed(0)), Ok(()));
}

/// What may vary stands before the slips here: problems come in the order of the text, not in that in which slips are made.
#[test]
fn problems_of_slips_come_in_the_order_of_the_text() {
    let (before, rest) = scenario("wire-a-switch").split_once("    vary: [").unwrap();
    assert!(rest.trim_end().ends_with(')'));
    let [varied, fixed] =
        ["feed/blue@rose", "feed/brown@rose"].map(|it| format!(r#"Connect(end: "{it}", terminal: "rose.earth")"#));
    let slips = format!(r#"vary: [Slips(least: 1, most: 1, among: [Slip(name: "a", done: [{varied}])])],"#);
    let text = format!("{before}    {slips}\n    slips: [{fixed}],\n)\n");
    let problems = slip_problems(&text, Seed(0)).unwrap_err();
    assert_eq!(problems.iter().map(|it| &text[it.span.clone()]).collect::<Vec<_>>(), [varied, fixed]);
}

#[test]
fn what_is_not_there_is_a_problem_of_the_scenario() {
    let cases = [
        (r#"Disconnect(end: "feed/blau@rose")"#, ProblemCode::UnknownEnd),
        (r#"Tighten(terminal: "rose.lop")"#, ProblemCode::UnknownTerminal),
        (r#"Dress(location: "roze")"#, ProblemCode::UnknownLocation),
        (r#"RemoveLamp(lamp: "lump")"#, ProblemCode::UnknownLamp),
        (r#"Sheath(cable: "fed", location: "rose", mm: 60)"#, ProblemCode::UnknownCable),
        (r#"PowerOn(device: "board.1")"#, ProblemCode::UnknownWord),
    ];
    for (act, code) in cases {
        for text in [
            format!("slips: [{act}],"),
            format!(r#"vary: [Slips(least: 0, most: 1, among: [Slip(name: "a", done: [{act}])])],"#),
        ] {
            let text = if text.starts_with("slips") {
                board_with(&text)
            } else {
                scenario("wire-a-switch").split_once("    vary: [").unwrap().0.to_owned() + &text + "\n)\n"
            };
            let problems = draw(&text, Seed(0)).unwrap_err();
            assert_eq!(problems.iter().map(|it| it.code).collect::<Vec<_>>(), [code], "{act}");
        }
    }
}

/// Four slips of which one or two stand: 4 + 6 choices, each of them drawn by some seed, none with more or fewer.
#[test]
fn a_seed_chooses_among_slips_and_every_choice_comes_up() {
    let slip = |name: &str, place: &str| format!(r#"Slip(name: "{name}", done: [RemoveCover(location: "{place}")]),"#);
    let off: String = [("a", "rose"), ("b", "switch")].map(|it| slip(it.0, it.1)).concat();
    let lamp = r#"Slip(name: "c", done: [RemoveLamp(lamp: "lamp")]), Slip(name: "d", done: [Tighten(terminal: "rose.loop", feel: Slack)]),"#;
    let text =
        board_with("").replacen("vary: [", &format!("vary: [Slips(least: 1, most: 2, among: [{off}{lamp}]),"), 1);
    let mut seen = BTreeSet::new();
    for seed in 0..200 {
        let it = draw(&text, Seed(seed)).unwrap();
        assert!((1..=2).contains(&it.slips.len()));
        seen.insert(format!("{:?}", it.slips));
    }
    assert_eq!(seen.len(), 10);
    // `check` goes through all of them: here one is impossible, since the screw is tight.
    let values = draw_each_value(&text, Seed(0)).unwrap();
    assert_eq!(values.iter().map(|it| format!("{:?}", it.slips)).collect::<BTreeSet<_>>().len(), 10);
    let problems = slip_problems(&text, Seed(0)).unwrap_err();
    assert_eq!(
        problems.iter().map(|it| &text[it.span.clone()]).collect::<Vec<_>>(),
        [r#"Tighten(terminal: "rose.loop", feel: Slack)"#]
    );
    for (least, most) in [(3, 2), (1, 5)] {
        let bad = text.replacen("least: 1, most: 2", &format!("least: {least}, most: {most}"), 1);
        assert_eq!(draw(&bad, Seed(0)).unwrap_err()[0].code, ProblemCode::BadVariation);
    }
}

/// An act is written as the action of that name is, and does what it does.
#[test]
fn an_act_is_the_action_of_its_name() {
    let (end, terminal, location) = (|| "a/b@c".to_owned(), || "c.d".to_owned(), || "c".to_owned());
    let acts = [
        HandAct::Mark { end: end(), mark: Mark::Sleeve(Colour::Brown) },
        HandAct::Unmark { end: end() },
        HandAct::Connect { end: end(), terminal: terminal() },
        HandAct::Disconnect { end: end() },
        HandAct::Tighten { terminal: terminal(), feel: Feel::Crushed },
        HandAct::Tighten { terminal: terminal(), feel: Feel::Right },
        HandAct::Sheath { cable: "a".into(), location: location(), mm: 70 },
        HandAct::Cut { end: end(), mm: 60 },
        HandAct::Strip { end: end(), mm: 12, jaw: 100 },
        HandAct::Fold { end: end() },
        HandAct::Unfold { end: end() },
        HandAct::Grommet { location: location() },
        HandAct::Dress { location: location() },
        HandAct::MakeUp { location: location(), colour: Colour::GreenYellow },
        HandAct::FitCover { location: location() },
        HandAct::RemoveCover { location: location() },
        HandAct::RemoveLamp { lamp: location() },
    ];
    for act in acts {
        let (written, action) = (ron::to_string(&act).unwrap(), Action::from(&act));
        assert_eq!(ron::from_str::<Action>(&written), Ok(action.clone()));
        assert_eq!(ron::to_string(&action), Ok(written));
    }
}

/// A job that somebody else made off well has nothing the matter with it, end by end, and a slip of the hand shows.
#[test]
fn work_made_off_by_another_can_be_looked_at_end_by_end() {
    let made = scenario("what-is-live").replacen("    stages:", "    preparation: MadeOff,\n    stages:", 1);
    let exercise = drawn(&made);
    let work = Work::new(Arc::clone(&exercise));
    for end in work.ends() {
        let fit = work.fit_of(end).unwrap_or_else(|| panic!("{} is in nothing", work.end_address(end)));
        assert!(fit.outside_mm <= 0.0 && fit.short_mm <= 0.0 && !fit.comes_out && !fit.unlike, "{fit:?}");
    }
    let plain = marked(&Attempt::new(drawn(scenario("what-is-live"))));
    let sheet = marked(&Attempt::new(exercise));
    let codes = |it: &switchdrop::marking::Sheet| it.findings.iter().map(|it| it.code).collect::<Vec<_>>();
    assert_eq!(codes(&sheet), codes(&plain));
    // Out, cut back past the bared part, bared again with a jaw too small, in again and hard on the screw.
    let slip = r#"preparation: MadeOff,
    slips: [
        Disconnect(end: "drop/1@switch"), Cut(end: "drop/1@switch", mm: 100), Strip(end: "drop/1@switch", mm: 9, jaw: 75),
        Connect(end: "drop/1@switch", terminal: "switch.COM"), Tighten(terminal: "switch.COM", feel: Crushed),
    ],
    stages:"#;
    let exercise = drawn(&scenario("what-is-live").replacen("stages:", slip, 1));
    assert_eq!(slips_refused(&exercise), []);
    let work = Work::new(exercise);
    let brown =
        work.end(&work.end_address(work.ends_in(work.terminal("switch.COM").unwrap()).next().unwrap())).unwrap();
    assert!(work.prep_of(brown).is_some_and(|it| it.nicked && it.crushed && it.core_mm == 100));
}
