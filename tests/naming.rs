//! What has no mark: what readings tell of it, by tables worked out by hand; when a name is settled; that nothing gives it away; what is refused in
//! a scenario.

use std::sync::Arc;

use switchdrop::{
    advice::guidance,
    attempt::Attempt,
    exercise::{Exercise, ProblemCode, Seed, read},
    marking::{Code, Finding, Root, Seen},
    picture::{Covers, View, of_location, svg},
    wording::{self, Wording},
    work::{Action, Edit, Refused},
};

use crate::hand::{exercise, marked, scenario};

/// In which order three things may be seen.
const ORDERS: [[usize; 3]; 6] = [[0, 1, 2], [0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]];

/// A scenario as it is written, what has no mark seen in that order.
fn seen(id: &str, things: [&str; 3], order: [usize; 3]) -> Arc<Exercise> {
    let list = |order: [usize; 3]| {
        let named = order.map(|it| format!("{:?}", things[it]));
        format!("[{}])", named.join(", "))
    };
    let (was, is) = (list([0, 1, 2]), list(order));
    let text = scenario(id);
    assert_eq!(text.matches(&was).count(), 1, "{id}");
    Arc::new(read(&text.replace(&was, &is), Seed(0)).unwrap())
}

fn plate(order: [usize; 3]) -> Attempt {
    let mut attempt = Attempt::new(seen("which-terminal", ["switch.COM", "switch.L1", "switch.L2"], order));
    does(&mut attempt, r#"RemoveCover(location: "switch")"#);
    attempt
}

/// The place with three cables, open and proved dead by the solver's own hand.
fn place_open(order: [usize; 3]) -> Attempt {
    let exercise = seen("which-cable", ["feed", "drop", "light"], order);
    let model = switchdrop::advice::solve(&exercise).unwrap();
    let log = model.attempt.log();
    let proved = log.iter().position(|it| matches!(it, Action::Conclude { .. })).unwrap();
    Attempt::replay(exercise, log[..=proved].iter().cloned()).unwrap()
}

fn action(text: &str) -> Action {
    ron::from_str(text).unwrap()
}

fn does(attempt: &mut Attempt, text: &str) {
    let happened = attempt.act(action(text)).unwrap_or_else(|it| panic!("{text}: {it}"));
    assert_eq!(happened.stopped(), None, "{text}");
}

fn names(attempt: &mut Attempt, thing: &str, called: &str) {
    does(attempt, &format!("Name(at: {thing:?}, called: {called:?})"));
}

/// The real names of what readings tell, in the order of the alphabet.
fn told(attempt: &Attempt) -> Vec<String> {
    let exercise = attempt.work().exercise();
    let ids = exercise.unmarked_ids().filter(|it| attempt.safety().naming().is_told(*it));
    let mut told: Vec<String> = ids.map(|it| exercise.unmarked_name(it).to_owned()).collect();
    told.sort();
    told
}

fn ends_in(attempt: &Attempt, code: &str) -> Vec<String> {
    let sheet = marked(attempt);
    let mut found: Vec<String> = sheet.placed(|it| it.code.word() == code).map(|(_, place)| place.to_owned()).collect();
    found.sort();
    found
}

/// A reading: the position of the rocker and the two points.
type ReadingIn = (u8, &'static str, &'static str);

/// By hand, from what a two-way switch joins: COM to L1 with the rocker down (position 0), COM to L2 with it up, and L1 to L2 never. A pair that
/// reads joined in one position leaves the third terminal: L2 in position 0, L1 in position 1. A pair that is open in both is L1 and L2.
#[test]
fn a_plate_is_told_by_what_is_joined_in_each_position() {
    let table: [(&[ReadingIn], &[&str]); 7] = [
        (&[(0, "COM", "L1")], &["L2"]),
        (&[(0, "COM", "L2")], &[]),
        (&[(0, "L1", "L2")], &[]),
        (&[(0, "COM", "L1"), (1, "COM", "L2")], &["COM", "L1", "L2"]),
        (&[(0, "COM", "L1"), (1, "L1", "L2")], &["COM", "L1", "L2"]),
        (&[(0, "COM", "L2"), (1, "COM", "L2")], &["L1"]),
        (&[(0, "L1", "L2"), (1, "L1", "L2")], &["COM"]),
    ];
    for order in ORDERS {
        for (readings, tells) in table {
            let mut attempt = plate(order);
            for (position, a, b) in readings {
                if attempt.work().positions() != [*position] {
                    does(&mut attempt, &format!("Operate(switch: \"switch\", position: {position})"));
                }
                does(&mut attempt, &format!("Continuity(a: \"switch.{a}\", b: \"switch.{b}\")"));
            }
            let tells: Vec<String> = tells.iter().map(|it| format!("switch.{it}")).collect();
            assert_eq!(told(&attempt), tells, "{order:?} {readings:?}");
        }
    }
}

/// Two cores linked at the far end are joined at the near end of that cable alone. A cable that reads open is not the one that is linked; the one that is
/// left of three is.
#[test]
fn a_link_at_the_far_end_tells_a_cable() {
    for order in ORDERS {
        let mut attempt = place_open(order);
        does(&mut attempt, r#"FitLink(a: "drop/brown@switch", b: "drop/blue@switch")"#);
        does(&mut attempt, r#"Continuity(a: "feed/brown@joint", b: "feed/blue@joint")"#);
        assert!(told(&attempt).is_empty(), "{order:?}");
        let mut other = attempt.clone();
        does(&mut attempt, r#"Continuity(a: "drop/brown@joint", b: "drop/blue@joint")"#);
        assert_eq!(told(&attempt), ["drop"], "{order:?}");
        does(&mut other, r#"Continuity(a: "light/brown@joint", b: "light/blue@joint")"#);
        assert_eq!(told(&other), ["drop"], "{order:?}: by what is left");
        // The two that are left are told by one reading of either, and no other reading of the drop says any more.
        let work = attempt.work();
        let pair = |a: &str, b: &str| [work.point(a).unwrap(), work.point(b).unwrap()];
        let could = |points| attempt.safety().naming().could_tell(work, points);
        assert!(!could(pair("drop/brown@joint", "drop/brown@switch")));
        assert!(could(pair("feed/brown@joint", "light/brown@rose")));
        does(&mut attempt, r#"Continuity(a: "feed/cpc@joint", b: "light/cpc@rose")"#);
        assert_eq!(told(&attempt), ["drop", "feed", "light"], "{order:?}");
    }
}

#[test]
fn a_name_is_settled_as_the_first_end_is_joined() {
    let mut attempt = plate([2, 0, 1]);
    let connect = r#"Connect(end: "drop/brown@switch", terminal: "switch.COM")"#;
    names(&mut attempt, "switch.L1", "switch.COM");
    assert_eq!(attempt.work().names_left().count(), 2);
    // One label of each name.
    names(&mut attempt, "switch.COM", "switch.COM");
    assert_eq!(attempt.work().names_left().count(), 2);
    names(&mut attempt, "switch.L1", "switch.L1");
    names(&mut attempt, "switch.L2", "switch.L2");
    assert_eq!(ends_in(&attempt, "name-missing"), Vec::<String>::new());
    assert_eq!(ends_in(&attempt, "name-guessed"), ["switch.COM", "switch.L1", "switch.L2"]);
    does(&mut attempt, connect);
    let again = action(r#"Name(at: "switch.COM", called: "switch.L2")"#);
    let settled = Err(Refused::NamedAndJoined { at: "switch.COM".to_owned() });
    assert_eq!(attempt.act(again.clone()), settled);
    // The label of what is joined is not taken away by another either.
    assert_eq!(attempt.act(action(r#"Name(at: "switch.L1", called: "switch.COM")"#)), settled);
    // What is read later is read too late for what is joined.
    does(&mut attempt, r#"Continuity(a: "switch.COM", b: "switch.L1")"#);
    does(&mut attempt, r#"Operate(switch: "switch", position: 1)"#);
    does(&mut attempt, r#"Continuity(a: "switch.COM", b: "switch.L2")"#);
    assert_eq!(told(&attempt), ["switch.L1", "switch.L2"]);
    assert_eq!(ends_in(&attempt, "name-guessed"), ["switch.COM"]);
    // With everything out again it counts anew, by undo or by hand.
    let mut undone = attempt.clone();
    does(&mut undone, r#"Disconnect(end: "drop/brown@switch")"#);
    assert_eq!(ends_in(&undone, "name-guessed"), Vec::<String>::new());
    does(&mut undone, "Undo");
    assert_eq!(told(&undone).len(), 3, "what was read by now is known as it goes in again");
    does(&mut attempt, r#"Disconnect(end: "drop/brown@switch")"#);
    attempt.act(again).unwrap();
    assert_eq!(ends_in(&attempt, "name-wrong"), ["switch.COM"]);
}

/// A name is said in the action that gave it, and the sheet leads there; once its label is passed on, it is said nowhere.
#[test]
fn a_name_is_of_the_action_that_gave_it() {
    let mut attempt = plate([0, 1, 2]);
    let said = |attempt: &Attempt, thing: &str| {
        let exercise = attempt.work().exercise();
        let id = exercise.unmarked_ids().find(|it| exercise.unmarked_name(*it) == thing).unwrap();
        attempt.safety().naming().said_in(id)
    };
    names(&mut attempt, "switch.COM", "switch.COM");
    names(&mut attempt, "switch.L1", "switch.L2");
    // The cover came off first.
    assert_eq!((said(&attempt, "switch.COM"), said(&attempt, "switch.L1")), (Some(1), Some(2)));
    names(&mut attempt, "switch.L2", "switch.L2");
    assert_eq!((said(&attempt, "switch.L1"), said(&attempt, "switch.L2")), (None, Some(3)));
    let sheet = marked(&attempt);
    let seen: Vec<_> = sheet
        .placed(|finding| finding.code.word().starts_with("name-"))
        .map(|(finding, at)| (at, finding.seen.clone()))
        .collect();
    for expected in [("switch.COM", Seen::InAction(1)), ("switch.L1", Seen::ByEye), ("switch.L2", Seen::InAction(3))] {
        assert!(seen.contains(&expected), "{seen:?}");
    }
}

#[test]
fn of_three_guesses_two_are_charged() {
    let mut attempt = plate([0, 1, 2]);
    for it in ["switch.COM", "switch.L1", "switch.L2"] {
        names(&mut attempt, it, it);
    }
    let sheet = marked(&attempt);
    let causes: Vec<_> = sheet.causes().into_iter().filter(|it| it.0 == "name-guessed").collect();
    assert_eq!(causes, [("name-guessed", "switch.COM"), ("name-guessed", "switch.L1")]);
}

/// One of three is guessed at the junction box and one of three at the switch; the rest has no name, so that neither was left over: both are charged.
#[test]
fn what_is_left_over_is_left_over_at_its_own_place() {
    let joint = r#"Unmarked(at: "joint", cables: ["feed", "drop", "light"]),"#;
    let plate = r#"Unmarked(at: "switch", terminals: ["switch.COM", "switch.L1", "switch.L2"]),"#;
    let text =
        scenario("which-cable").replacen("[OneWay]", "[TwoWay]", 1).replacen(joint, &format!("{joint}{plate}"), 1);
    let exercise = Arc::new(read(&text, Seed(0)).unwrap_or_else(|it| panic!("{it:#?}")));
    // Up to the first name, as the solver does it: both places open and proved dead, and nothing read.
    let model = switchdrop::advice::solve(&exercise).unwrap();
    let acts =
        model.attempt.log().iter().take_while(|it| !matches!(it, Action::Continuity { .. } | Action::Name { .. }));
    let mut attempt = Attempt::replay(exercise, acts.cloned()).unwrap();
    names(&mut attempt, "feed@joint", "feed");
    names(&mut attempt, "switch.COM", "switch.COM");
    let sheet = marked(&attempt);
    let causes: Vec<_> = sheet.causes().into_iter().filter(|it| it.0 == "name-guessed").collect();
    assert_eq!(causes, [("name-guessed", "feed@joint"), ("name-guessed", "switch.COM")]);
}

/// What would put a slip of naming right, each end and where it goes, in the order of the alphabet.
fn repair(attempt: &Attempt) -> Option<Vec<(String, Option<String>)>> {
    let (sheet, work) = (marked(attempt), attempt.work());
    let wrong = |it: &Finding| it.code == Code::NameWrong && it.root == Root::Itself;
    let edits = sheet.findings.iter().find(|it| wrong(it)).expect("a wrong name").repair.clone()?;
    let mut moves: Vec<_> = edits
        .iter()
        .map(|it| {
            let Edit::Move(end, to) = it else { panic!("{it:?}") };
            (work.end_address(*end), to.map(|it| work.exercise().terminals[it].address.clone()))
        })
        .collect();
    moves.sort();
    Some(moves)
}

fn moves(all: &[(&str, Option<&str>)]) -> Vec<(String, Option<String>)> {
    all.iter().map(|(end, to)| ((*end).to_owned(), to.map(str::to_owned))).collect()
}

/// L1 and L2 were taken for each other, and the return went into L2: it goes into L1.
#[test]
fn what_went_by_a_wrong_name_goes_where_the_right_one_is() {
    let mut attempt = plate([0, 1, 2]);
    names(&mut attempt, "switch.L1", "switch.L2");
    names(&mut attempt, "switch.L2", "switch.L1");
    // With nothing joined there is nothing to move.
    assert_eq!(repair(&attempt), None);
    names(&mut attempt, "switch.COM", "switch.COM");
    does(&mut attempt, r#"Connect(end: "drop/blue@switch", terminal: "switch.L2")"#);
    assert_eq!(repair(&attempt), Some(moves(&[("drop/blue@switch", Some("switch.L1"))])));
}

/// The feed was called the drop and the drop the light's cable, which got no name and stayed out. The drop goes where the feed is, the light's
/// cable where the drop is, and the feed comes out; of cables that were not joined nothing goes anywhere.
#[test]
fn names_that_do_not_go_round_leave_the_last_without_a_place() {
    let mut attempt = place_open([0, 1, 2]);
    names(&mut attempt, "feed@joint", "drop");
    names(&mut attempt, "drop@joint", "light");
    assert_eq!(repair(&attempt), None);
    does(&mut attempt, r#"Connect(end: "feed/brown@joint", terminal: "joint.T1")"#);
    does(&mut attempt, r#"Connect(end: "drop/brown@joint", terminal: "joint.T2")"#);
    let expected =
        [("drop/brown@joint", Some("joint.T1")), ("feed/brown@joint", None), ("light/brown@joint", Some("joint.T2"))];
    assert_eq!(repair(&attempt), Some(moves(&expected)));
}

/// What an address says in the file, no sentence says to the learner: the cable goes by its place among the others until it has a name, then by
/// that, right or wrong; at its far end it is known.
#[test]
fn a_cable_goes_by_its_place_and_then_by_the_name_that_it_was_given() {
    let wording = Wording::british();
    let mut attempt = place_open([2, 0, 1]);
    let said = |attempt: &Attempt, address: &str| wording::place(&wording, attempt.work(), address);
    assert_eq!(said(&attempt, "light/brown@joint"), "brown core of the first cable, at the junction box");
    assert_eq!(said(&attempt, "feed@joint"), "second cable, at the junction box");
    assert_eq!(said(&attempt, "drop/cpc@joint"), "cpc of the third cable, at the junction box");
    assert_eq!(said(&attempt, "drop/cpc@switch"), "cpc of the switch drop, at the cheese room switch");
    let told = guidance(&attempt);
    assert!(told.names && told.next.is_none());
    names(&mut attempt, "light@joint", "drop");
    assert_eq!(said(&attempt, "light/brown@joint"), "brown core of the switch drop, at the junction box");
    assert_eq!(said(&attempt, "light/brown@rose"), "brown core of the light’s cable, at the cheese room rose");
    let refused =
        wording::refused(&wording, attempt.work(), &Refused::NotConnected { end: "feed/blue@joint".to_owned() });
    assert!(refused.starts_with("blue core of the second cable, at the junction box"), "{refused}");
    let told = attempt.with_names_told();
    assert_eq!(said(&told, "light/brown@joint"), "brown core of the light’s cable, at the junction box");
    let plate = plate([1, 2, 0]);
    assert_eq!(said(&plate, "switch.COM"), "switch, third terminal");
    assert_eq!(said(&plate.with_names_told(), "switch.COM"), "switch, COM");
}

/// One drawing, whichever is which.
#[test]
fn the_drawing_of_what_has_no_mark_tells_nothing() {
    let wording = Wording::british();
    let view = View { covers: Covers::AsTheyStand, lit: None, evening: false };
    let drawn = |attempt: &Attempt, at: &str| {
        let work = attempt.work();
        svg(&of_location(work, work.location(at).unwrap(), &wording, &view), "", "")
    };
    let joints: Vec<String> = ORDERS.iter().map(|it| drawn(&place_open(*it), "joint")).collect();
    let plates: Vec<String> = ORDERS.iter().map(|it| drawn(&plate(*it), "switch")).collect();
    for drawings in [&joints, &plates] {
        assert!(drawings.iter().all(|it| *it == drawings[0]));
    }
    assert!(joints[0].contains("second cable") && !joints[0].contains("drop"), "{}", joints[0]);
    assert!(plates[0].contains("2?") && !plates[0].contains("COM"), "{}", plates[0]);
}

#[test]
fn what_can_not_be_named_is_refused() {
    let mut attempt = plate([0, 1, 2]);
    for (text, refused) in [
        (r#"Name(at: "rose.loop", called: "switch.L1")"#, Refused::NoNameAsked { at: "rose.loop".to_owned() }),
        (r#"Name(at: "switch.L1", called: "rose.loop")"#, Refused::NoSuchName { called: "rose.loop".to_owned() }),
    ] {
        assert_eq!(attempt.act(action(text)), Err(refused));
    }
    names(&mut attempt, "switch.L1", "switch.L2");
    let again = action(r#"Name(at: "switch.L1", called: "switch.L2")"#);
    assert_eq!(attempt.act(again), Err(Refused::SoAlready { at: "switch.L1".to_owned() }));
    let mut covered = Attempt::new(exercise("which-terminal", 4));
    let first = action(r#"Name(at: "switch.L1", called: "switch.L1")"#);
    assert_eq!(covered.act(first), Err(Refused::CoverOn { location: "switch".to_owned() }));
}

#[test]
fn what_has_no_mark_must_be_of_one_look_and_free_and_to_be_told() {
    let cable = |was: &str, is: &str| scenario("which-cable").replacen(was, is, 1);
    let plate = |was: &str, is: &str| scenario("which-terminal").replacen(was, is, 1);
    let three = r#"Unmarked(at: "joint", cables: ["feed", "drop", "light"]),"#;
    let contacts = r#"terminals: ["switch.COM", "switch.L1", "switch.L2"]"#;
    let five = r#"Unmarked(at: "switch", terminals: ["switch.COM", "switch.L1", "switch.L2"]),"#;
    for (text, code) in [
        (cable(r#"["feed", "drop", "light"]"#, r#"["feed", "drop", "feed"]"#), ProblemCode::BadUnmarked),
        (cable(r#"["feed", "drop", "light"]"#, r#"["feed", "drop", "flex"]"#), ProblemCode::BadUnmarked),
        (cable(r#"["feed", "drop", "light"]"#, r#"["feed"]"#), ProblemCode::BadUnmarked),
        (cable(r#"["feed", "drop", "light"]"#, r#"["feed", "drop", "lihgt"]"#), ProblemCode::UnknownCable),
        (cable("mm2: 1.5, metres: 3.0", "mm2: 1.0, metres: 3.0"), ProblemCode::BadUnmarked),
        (cable(three, r#"Unmarked(at: "board", cables: ["feed", "passing"]),"#), ProblemCode::BadUnmarked),
        (cable(three, ""), ProblemCode::NamingOfNothing),
        (cable("Isolation, Naming, ", "Isolation, "), ProblemCode::NamingOfNothing),
        (cable(r#"Unmarked(at: "joint"),"#, r#"Unmarked(at: "rose"),"#), ProblemCode::BadVariation),
        (plate(contacts, r#"terminals: ["switch.COM", "switch.L1"]"#), ProblemCode::BadUnmarked),
        (plate(contacts, r#"terminals: ["switch.COM", "switch.L1", "switch.L3"]"#), ProblemCode::UnknownTerminal),
        // The two terminals of a switch that joins and parts are alike.
        (
            plate("ways: [TwoWay]", "ways: [OneWay]").replace(contacts, r#"terminals: ["switch.COM", "switch.L1"]"#),
            ProblemCode::BadUnmarked,
        ),
        (plate(five, &format!("{five}{five}")), ProblemCode::BadUnmarked),
        (plate(five, &five.repeat(3)), ProblemCode::TooManyNamings),
    ] {
        let problems = read(&text, Seed(0)).unwrap_err();
        assert!(problems.iter().any(|it| it.code == code), "{code:?}: {problems:?}");
    }
}
