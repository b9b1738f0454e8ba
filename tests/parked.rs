//! The charter, "Dead tests, what is asked": a probe parked on an earth that was shown to be one, the other from end to end. What a
//! place asks for is written out here by hand, from the drawing of each exercise.

use std::sync::Arc;

use switchdrop::{
    attempt::{ActKind, Attempt, DeadStep, Format, Happened, ProofGap, dead_steps_left, dead_tests_left},
    exercise::{Exercise, Seed, draw, read},
    trade::instrument::{Function, LeadLength, Shown},
    work::{Action, Check, Detector, Fault, Refused},
};

use crate::hand::{Form, Hand, LIKE_TO_LIKE, alters, scenario};

/// The two-way exercise, seed 4 (metal boxes, a plastic plate at the kiln door, a metal one at the clay store door), with this
/// reference.
pub fn passage(reference: &str) -> Arc<Exercise> {
    let text = scenario("two-way-passage");
    let text = if text.contains("reference:") {
        text.replace("reference: EarthingTerminal", &format!("reference: {reference}"))
    } else {
        text.replace("    predict: [", &format!("    reference: {reference},\n    predict: ["))
    };
    Arc::new(draw(&text, Seed(4)).unwrap_or_else(|it| panic!("{it:#?}")))
}

/// Both circuits shown by a light and named, agreed, off and locked; both boxes open.
fn isolated(exercise: Arc<Exercise>) -> Hand {
    let mut hand = Hand::new(exercise);
    hand.sees_what_goes_out();
    named_and_locked(hand)
}

/// The same, with no light looked at.
pub fn named_and_locked(mut hand: Hand) -> Hand {
    for place in ["kiln", "clay"] {
        let devices = ["board.1", "board.2"].map(str::to_owned).to_vec();
        hand.does(Action::Identify { location: place.to_owned(), devices });
    }
    hand.does(Action::Agree);
    for device in ["board.1", "board.2"] {
        hand.does(Action::PowerOff { device: device.to_owned() });
        hand.does(Action::LockOff { device: device.to_owned() });
    }
    for location in ["kiln", "clay"] {
        hand.does(remove(location));
    }
    hand
}

fn remove(location: &str) -> Action {
    Action::RemoveCover { location: location.to_owned() }
}

pub fn show(earth: &str) -> Action {
    Action::Continuity { a: "board.earth".to_owned(), b: earth.to_owned() }
}

fn park(at: &str) -> Action {
    Action::Park { at: at.to_owned() }
}

fn touch(a: &str, b: &str) -> Action {
    Action::TestDead { a: a.to_owned(), b: b.to_owned(), with: Detector::Indicator }
}

pub const DEAD: Action = Action::Conclude { dead: true };

/// What shows that a place is not proved dead: a hand that goes to sleeve an end there is stopped. Asked of a copy.
pub fn is_touchable(hand: &Hand, end: &str) -> bool {
    let mark = ron::from_str("Sleeve(Brown)").unwrap();
    let action = Action::Mark { end: end.to_owned(), mark };
    match hand.attempt.clone().act(action) {
        Ok(Happened::Done) => true,
        Ok(it) if it.stopped() == Some(ActKind::TouchedUnproved) => false,
        other => panic!("{other:?}"),
    }
}

pub const KILN: &str = "link/grey@kiln";
pub const CLAY: &str = "link/grey@clay";

/// Every touch of the two-way exercise: at the kiln door each conductor and the bare cpc of the new cable to the box, which is
/// earthed by the cpcs found in it; line to neutral of the passage light, whose neutral is there and the shed's is not; the lines
/// of the two circuits. At the clay store door nothing is earthed yet: box, plate and each conductor of the new cable to the
/// earthing terminal.
fn touches() -> Vec<(&'static str, &'static str)> {
    let kiln = [
        "kiln.1.COM",
        "kiln.1.L1",
        "kiln.2.COM",
        "kiln.2.L1",
        "kiln.connector.1",
        "link/brown@kiln",
        "link/black@kiln",
        "link/grey@kiln",
        "link/cpc@kiln",
    ];
    let clay =
        ["clay.box.earth", "clay.plate.earth", "link/brown@clay", "link/black@clay", "link/grey@clay", "link/cpc@clay"];
    let mut all: Vec<_> = kiln.into_iter().map(|it| (it, "kiln.box.earth")).collect();
    all.extend([("kiln.1.COM", "kiln.connector.1"), ("kiln.1.COM", "kiln.2.COM")]);
    all.extend(clay.into_iter().map(|it| (it, "board.earth")));
    all
}

/// Does them all but those in `skip`, one round, parked where that is wanted; the indicator proved once before and once after.
pub fn round(hand: &mut Hand, skip: &[usize]) {
    hand.does(Action::ProveIndicator);
    for (_, (a, b)) in touches().into_iter().enumerate().filter(|it| !skip.contains(&it.0)) {
        let parked = hand.attempt.safety().parked();
        let wanted = ["kiln.box.earth", "board.earth"].contains(&b).then(|| hand.attempt.work().point(b).unwrap());
        if parked != wanted {
            hand.does(if wanted.is_some() { park(b) } else { Action::Unpark });
        }
        hand.does(touch(a, b));
    }
    hand.does(Action::ProveIndicator);
}

#[test]
fn every_touch_is_needed_and_no_other() {
    let mut ready = isolated(passage("EarthingTerminal"));
    ready.does(show("kiln.box.earth"));
    let all = touches().len();
    // The eleven at the kiln door come first.
    let at_kiln = touches().iter().filter(|it| it.1 != "board.earth").count();
    for skip in 0..=all {
        let mut hand = Hand { attempt: ready.attempt.clone() };
        round(&mut hand, &[skip]);
        hand.does(DEAD);
        assert_eq!(is_touchable(&hand, KILN), skip >= at_kiln, "kiln, without {skip}");
        assert_eq!(is_touchable(&hand, CLAY), skip < at_kiln || skip == all, "clay, without {skip}");
    }
}

/// With the showing of the earth 18 touches, where each pair in each box was 40; 17 where the plate is plastic.
#[test]
fn the_two_way_exercise_takes_about_fifteen_touches() {
    assert_eq!(1 + touches().len(), 18);
    let mut hand = Hand::new(passage("EarthingTerminal"));
    hand.isolates();
    let log = hand.attempt.log();
    let count = |of: fn(&Action) -> bool| log.iter().filter(|it| of(it)).count();
    assert_eq!(count(|it| matches!(it, Action::TestDead { .. } | Action::Continuity { .. })), 18, "{log:#?}");
    assert_eq!(count(|it| *it == Action::ProveIndicator), 2);
    assert!(is_touchable(&hand, KILN) && is_touchable(&hand, CLAY));
}

/// What is offered is what is asked, in whichever order the probes are named.
#[test]
fn what_is_offered_is_what_is_asked() {
    let mut hand = isolated(passage("EarthingTerminal"));
    hand.does(show("kiln.box.earth"));
    hand.does(Action::ProveIndicator);
    let offered = |hand: &Hand, place: &str| -> Vec<[String; 2]> {
        let work = hand.attempt.work();
        let tests = dead_tests_left(&hand.attempt, work.location(place).unwrap());
        tests.into_iter().map(|it| [it.a, it.b].map(|it| work.point_address(it))).collect()
    };
    let mut all = [offered(&hand, "kiln"), offered(&hand, "clay")].concat();
    let mut wanted: Vec<_> = touches().into_iter().map(|(a, b)| [a.to_owned(), b.to_owned()]).collect();
    for pair in all.iter_mut().chain(&mut wanted) {
        pair.sort();
    }
    all.sort();
    wanted.sort();
    assert_eq!(all, wanted);
}

/// Case assessor-09 with a parked probe: an unproved cpc as the reference. Told at once, at each touch; and nothing is proved.
#[test]
fn zero_volts_to_an_earth_never_shown_is_said_to_prove_nothing() {
    let mut hand = isolated(passage("EarthingTerminal"));
    hand.does(Action::ProveIndicator);
    let cpc = hand.attempt.work().point("link/cpc@kiln").unwrap();
    hand.does(park("link/cpc@kiln"));
    let kiln = hand.attempt.work().location("kiln").unwrap();
    let before = dead_tests_left(&hand.attempt, kiln).len();
    for live in ["kiln.1.COM", "kiln.1.L1", "kiln.2.COM", "kiln.2.L1", "kiln.connector.1", "link/brown@kiln"] {
        assert_eq!(hand.attempt.act(touch(live, "link/cpc@kiln")), Ok(Happened::NoEarth(cpc)), "{live}");
    }
    assert_eq!(dead_tests_left(&hand.attempt, kiln).len(), before);
    hand.does(Action::ProveIndicator);
    hand.does(DEAD);
    assert!(!is_touchable(&hand, KILN));
}

/// Case assessor-07 with a parked probe: everything insulated to the box, which was never shown to be an earth. Told at once; then,
/// shown and done again so, the bare cpc of the new cable, the lines against each other and the line to its neutral are still
/// asked, and no other pair.
#[test]
fn each_to_earth_alone_leaves_the_bare_cpc_and_the_lines() {
    let mut hand = isolated(passage("EarthingTerminal"));
    let insulated = &touches()[..8];
    let to_earth = |hand: &mut Hand| {
        hand.does(Action::ProveIndicator);
        hand.does(park("kiln.box.earth"));
        let shown = insulated.iter().map(|(a, b)| hand.attempt.act(touch(a, b)).unwrap()).collect::<Vec<_>>();
        hand.does(Action::ProveIndicator);
        shown
    };
    let earth = hand.attempt.work().point("kiln.box.earth").unwrap();
    assert!(to_earth(&mut hand).iter().all(|it| *it == Happened::NoEarth(earth)));
    hand.does(show("kiln.box.earth"));
    let dark = |it: &Happened| matches!(it, Happened::Read(it) if it.shown == Shown::Lights(None));
    assert!(to_earth(&mut hand).iter().all(dark));
    let work = hand.attempt.work();
    let left: Vec<_> = dead_tests_left(&hand.attempt, work.location("kiln").unwrap())
        .iter()
        .map(|it| [it.a, it.b].map(|it| work.point_address(it)))
        .collect();
    assert_eq!(
        left,
        [["link/cpc@kiln", "kiln.box.earth"], ["kiln.1.COM", "kiln.connector.1"], ["kiln.1.COM", "kiln.2.COM"]]
    );
}

/// Parking, taking the cover off another place of the round, showing its earth and working a switch are part of a round. Whatever
/// else comes between the two proofs makes it void.
#[test]
fn what_ends_a_round_and_what_does_not() {
    let operate = || Action::Operate { switch: "clay".to_owned(), position: 1 };
    let stick = Action::TestDead { a: "kiln.1.COM".to_owned(), b: "kiln.1.L1".to_owned(), with: Detector::Stick };
    for (between, goes_on) in [
        (vec![], true),
        (vec![park("board.earth"), Action::Unpark], true),
        (vec![remove("rose")], true),
        (vec![operate()], true),
        (vec![show("clay.box.earth")], true),
        (vec![touch("kiln.1.L1", "kiln.2.L1")], true),
        (vec![stick], true),
        (vec![Action::Agree], false),
        (vec![Action::Confirm { check: Check::PeopleTold }], false),
        (vec![Action::Report { at: "kiln".to_owned(), what: Fault::Wiring }], false),
        (vec![Action::FitCover { location: "clay".to_owned() }], false),
        (vec![remove("rose"), Action::Undo], false),
    ] {
        let mut hand = isolated(passage("EarthingTerminal"));
        hand.does(show("kiln.box.earth"));
        hand.does(Action::ProveIndicator);
        for it in touches().iter().filter(|it| it.1 != "board.earth") {
            hand.does(touch(it.0, it.1));
        }
        for it in &between {
            // The stick is answered for as what it is.
            let _ = hand.attempt.act(it.clone()).unwrap_or_else(|why| panic!("{it:?}: {why}"));
        }
        hand.does(Action::ProveIndicator);
        hand.does(DEAD);
        assert_eq!(is_touchable(&hand, KILN), goes_on, "{between:?}");
    }
}

/// Nothing is touched before the second proof, nor before the learner has said that it is dead.
#[test]
fn a_place_is_proved_by_the_second_proof_and_the_learners_word() {
    let mut hand = isolated(passage("EarthingTerminal"));
    hand.does(show("kiln.box.earth"));
    round(&mut hand, &[]);
    let without = Hand { attempt: hand.attempt.clone() };
    assert!(!is_touchable(&without, KILN));
    hand.does(Action::Conclude { dead: false });
    assert!(!is_touchable(&hand, KILN));
    hand.does(DEAD);
    assert!(is_touchable(&hand, KILN) && is_touchable(&hand, CLAY));
    let mut hand = isolated(passage("EarthingTerminal"));
    hand.does(show("kiln.box.earth"));
    round(&mut hand, &[]);
    let log = hand.attempt.log().to_vec();
    let exercise = Arc::clone(hand.attempt.work().exercise());
    let mut hand = Hand { attempt: Attempt::replay(exercise, log[..log.len() - 1].to_vec()).unwrap() };
    assert_eq!(
        hand.attempt.act(DEAD),
        Ok(Happened::Concluded {
            dead: true,
            proved: vec![],
            lacked: Some((hand.attempt.work().location("kiln").unwrap(), ProofGap::NotProvedAgain))
        }),
        "before the indicator was proved again"
    );
    assert!(!is_touchable(&hand, KILN));
}

/// Identify, agree, lock: each before the dead test, or it proves nothing.
#[test]
fn a_round_counts_only_after_all_that_comes_first() {
    let whole = {
        let mut hand = isolated(passage("EarthingTerminal"));
        hand.does(show("kiln.box.earth"));
        round(&mut hand, &[]);
        hand.attempt.log().to_vec()
    };
    for (left_out, of) in [
        ("identify", (|it| matches!(it, Action::Identify { .. })) as fn(&Action) -> bool),
        ("agree", |it| *it == Action::Agree),
        ("show", |it| matches!(it, Action::Continuity { .. })),
        ("prove", |it| *it == Action::ProveIndicator),
        ("", |_| false),
    ] {
        let first = whole.iter().position(of);
        let mut log: Vec<_> =
            whole.iter().enumerate().filter(|it| Some(it.0) != first).map(|it| it.1.clone()).collect();
        // Done too late.
        log.extend(first.map(|it| whole[it].clone()).filter(|it| *it != Action::ProveIndicator));
        let exercise = passage("EarthingTerminal");
        let mut hand = Hand { attempt: Attempt::replay(exercise, log).unwrap() };
        hand.does(DEAD);
        // Named at the clay store door, the two devices are named for both.
        let proved = left_out.is_empty() || left_out == "identify";
        assert_eq!(is_touchable(&hand, KILN), proved, "{left_out}");
    }
    // Unlocked and locked again: what was tested before, and the earth that was shown, are so no longer.
    let mut hand = Hand { attempt: Attempt::replay(passage("EarthingTerminal"), whole).unwrap() };
    for action in
        [Action::Unlock { device: "board.1".to_owned() }, Action::LockOff { device: "board.1".to_owned() }, DEAD]
    {
        hand.does(action);
    }
    assert!(!is_touchable(&hand, KILN));
    assert!(!hand.attempt.safety().is_shown(hand.attempt.work().point("kiln.box.earth").unwrap()));
}

/// A cpc whose other end is off reads nothing through, and is no earth; the reference itself is one.
#[test]
fn an_earth_that_does_not_read_through_is_none() {
    let text = passage("EarthingTerminal").text().to_owned();
    let cut = |text: &str, end: &str| {
        let at = text.find(&format!("(end:\"{end}\"")).unwrap_or_else(|| panic!("{end}"));
        let (before, after) = text.split_at(at);
        let before = before.strip_suffix("Connected").unwrap_or(before);
        let after = after.split_once("),").map(|it| it.1.trim_start_matches("),")).unwrap();
        // The mark has brackets of its own.
        let after = after.trim_start_matches([')', ',']);
        format!("{before}{after}")
    };
    // All three cpcs of the box off at their other ends: it is earthed no more.
    let text =
        ["feed/cpc@board", "light/cpc@rose", "shed-drop/cpc@shed-rose"].iter().fold(text, |it, end| cut(&it, end));
    let mut hand = isolated(Arc::new(read(&text, Seed(4)).unwrap_or_else(|it| panic!("{it:#?}\n{text}"))));
    assert!(matches!(hand.attempt.act(show("kiln.box.earth")), Ok(Happened::Ohms(it)) if it > 1.0e6));
    let kiln = hand.attempt.work().location("kiln").unwrap();
    assert!(!hand.attempt.safety().is_shown(hand.attempt.work().point("kiln.box.earth").unwrap()));
    // The box is touched like any other metal, against the earthing terminal.
    let bar = hand.attempt.work().point("board.earth").unwrap();
    let work = hand.attempt.work();
    let tests = dead_tests_left(&hand.attempt, kiln);
    assert!(tests.iter().any(|it| work.point_address(it.a) == "kiln.box.earth" && it.b == bar), "{tests:?}");
}

/// Before lock-off nothing is shown; touching a bare cpc with the probe is no handwork, touching anything else is.
#[test]
fn an_earth_is_shown_after_lock_off_and_nothing_else_is_read_before_the_proof() {
    let mut hand = isolated(passage("EarthingTerminal"));
    let hands = Action::Continuity { a: "kiln.1.COM".to_owned(), b: "kiln.box.earth".to_owned() };
    assert_eq!(hand.attempt.act(hands).unwrap().stopped(), Some(ActKind::TouchedUnproved));
    hand.does(Action::Unlock { device: "board.2".to_owned() });
    assert!(matches!(hand.attempt.act(show("kiln.box.earth")), Ok(Happened::Ohms(_))));
    assert!(!hand.attempt.safety().is_shown(hand.attempt.work().point("kiln.box.earth").unwrap()));
    hand.does(Action::LockOff { device: "board.2".to_owned() });
    hand.does(show("kiln.box.earth"));
    assert!(hand.attempt.safety().is_shown(hand.attempt.work().point("kiln.box.earth").unwrap()));
}

/// A parked probe is where it was put: the other can't make a pair without it. Proving takes both to the unit.
#[test]
fn a_parked_probe_stays_where_it_was_put() {
    let mut hand = isolated(passage("EarthingTerminal"));
    assert_eq!(hand.attempt.act(Action::Unpark), Err(Refused::NotParked));
    hand.does(park("kiln.box.earth"));
    let at = || "kiln.box.earth".to_owned();
    let pair = || touch("kiln.1.COM", "kiln.connector.1");
    assert_eq!(hand.attempt.act(pair()), Err(Refused::ProbeParked { at: at() }));
    assert_eq!(hand.attempt.act(park("kiln.box.earth")), Err(Refused::SoAlready { at: at() }));
    hand.does(Action::Unpark);
    hand.does(pair());
    hand.does(park("board.earth"));
    hand.does(Action::ProveIndicator);
    assert_eq!(hand.attempt.safety().parked(), None);
    let covered = park("rose.earth");
    assert_eq!(hand.attempt.act(covered), Err(Refused::CoverOn { location: "rose".to_owned() }));
    // From one box to the other it does not reach; to the earthing terminal it does.
    hand.does(park("clay.box.earth"));
    let far = touch("kiln.1.COM", "clay.box.earth");
    assert!(matches!(hand.attempt.act(far), Err(Refused::OutOfReach { .. })));
}

/// Switches elsewhere that decide which conductor here could be live. With the strappers in and the box at the clay store door
/// opened again, the switch at the kiln door feeds the one or the other: each conductor is touched in both of its positions. That
/// of the shed feeds nothing here, and the one here has a probe on each of its terminals.
#[test]
fn a_switch_elsewhere_that_decides_what_is_live_is_worked() {
    let mut hand = Hand::new(passage("EarthingTerminal"));
    hand.isolates();
    alters(&mut hand, Form::Strappers, &LIKE_TO_LIKE);
    hand.does(Action::FitCover { location: "clay".to_owned() });
    hand.does(remove("clay"));
    let work = hand.attempt.work();
    let clay = work.location("clay").unwrap();
    let settings: Vec<_> = dead_steps_left(&hand.attempt, clay)
        .into_iter()
        .filter_map(|it| match it {
            DeadStep::Touch(it) => Some((work.point_address(it.a), it.positions)),
            _ => None,
        })
        .collect();
    // COM, L1, L2: the line back to the light and the two strappers. Box and plate are earthed by now, and shown to be.
    for point in ["clay.COM", "clay.L1", "clay.L2"] {
        let of: Vec<_> = settings.iter().filter(|it| it.0 == point).map(|it| it.1.clone()).collect();
        assert_eq!(of, [vec![0, 0, 0], vec![1, 0, 0]], "{point}");
    }
    let mut round = Hand { attempt: hand.attempt.clone() };
    round.proves_dead(clay);
    // In the one position alone it is not enough.
    hand.does(show("clay.box.earth"));
    hand.does(Action::ProveIndicator);
    for it in ["clay.COM", "clay.L1", "clay.L2", "clay.plate.earth"] {
        hand.does(touch(it, "clay.box.earth"));
    }
    hand.does(Action::ProveIndicator);
    hand.does(DEAD);
    assert!(!hand.attempt.safety().is_proved(clay));
}

/// A socket of a circuit that stays on, two cables beside the work.
fn with_socket(from: &str) -> String {
    let text = scenario("two-way-passage").replace("    reference: EarthingTerminal,\n", "");
    text.replace("    predict: [", "    reference: Socket(\"socket\"),\n    predict: [")
        .replace(
            r#"Device(id: "2", kind"#,
            r#"Device(id: "3", kind: Rcbo6B30, circuit: "sockets"), Device(id: "2", kind"#,
        )
        .replace(
            r#"Location(id: "rose""#,
            r#"Location(id: "socket", name: "socket in the passage", at: (50, 60), has: Box(body: Plastic, plate: Plastic, ways: [Socket])),
        Location(id: "rose""#,
        )
        .replace(
            "    cables: [",
            r#"    cables: [
        Cable(id: "ring", name: "socket cable", kind: TwinEarth, mm2: 1.5, metres: 5.0, from: "board", to: "socket"),"#,
        )
        .replace(
            "    connected: [",
            &format!(
                r#"    connected: [
        Connected(end: "ring/brown@board", at: "board.{from}.line"),
        Connected(end: "ring/blue@board", at: "board.{from}.neutral"),
        Connected(end: "ring/cpc@board", at: "board.earth", mark: Some(Sleeve(GreenYellow))),
        Connected(end: "ring/brown@socket", at: "socket.L"),
        Connected(end: "ring/blue@socket", at: "socket.N"),
        Connected(end: "ring/cpc@socket", at: "socket.plate.earth", mark: Some(Sleeve(GreenYellow))),"#
            ),
        )
}

/// With a plug-in lead in a socket of another circuit, closed as it is: the indicator lights between its line and what is an
/// earth, or the long lead reads through from its earth.
#[test]
fn a_socket_of_another_circuit_shows_an_earth_by_its_line_or_its_earth() {
    let exercise = Arc::new(draw(&with_socket("3"), Seed(4)).unwrap_or_else(|it| panic!("{it:#?}")));
    let shown = |hand: &Hand| hand.attempt.safety().is_shown(hand.attempt.work().point("kiln.box.earth").unwrap());
    let ready = isolated(exercise);
    let mut by_line = Hand { attempt: ready.attempt.clone() };
    let lit = by_line.attempt.act(touch("socket.L", "kiln.box.earth")).unwrap();
    assert!(matches!(&lit, Happened::Read(it) if it.shown == Shown::Lights(Some(230))), "{lit:?}");
    assert!(shown(&by_line));
    // Dark on a cpc that goes nowhere, and that one stays unshown.
    let dark = by_line.attempt.act(touch("socket.L", "link/cpc@kiln")).unwrap();
    assert!(matches!(&dark, Happened::NoEarth(_)), "{dark:?}");
    let mut by_earth = Hand { attempt: ready.attempt.clone() };
    let long = Action::Measure {
        function: Function::Continuity,
        lead: LeadLength::Long,
        a: "socket.plate.earth".to_owned(),
        b: "kiln.box.earth".to_owned(),
    };
    by_earth.does(long);
    assert!(shown(&by_earth));
    let mut hand = ready;
    hand.does(Action::ProveIndicator);
    hand.does(touch("clay.box.earth", "socket.plate.earth"));
}

/// A socket on a circuit that comes to be isolated is no reference, nor is a box without one.
#[test]
fn a_reference_stays_on() {
    for (text, sound) in [
        (with_socket("3"), true),
        (with_socket("2"), false),
        (with_socket("3").replace(r#"Socket("socket")"#, r#"Socket("kiln")"#), false),
    ] {
        match read(&text, Seed(0)) {
            Ok(_) => assert!(sound),
            Err(problems) => {
                let codes: Vec<_> = problems.iter().map(|it| it.code.word()).collect();
                assert!(!sound && codes.contains(&"no-reference"), "{problems:#?}");
            }
        }
    }
}

/// Format 1 had no words for any of it: there pairs count, and none of the new actions is known.
#[test]
fn an_attempt_of_format_1_goes_by_pairs() {
    let mut attempt = Attempt::in_format(passage("EarthingTerminal"), Format::One);
    assert_eq!(attempt.act(park("board.earth")), Err(Refused::NoReference));
    assert_eq!(attempt.act(DEAD), Err(Refused::NoReference));
    let kiln = attempt.work().location("kiln").unwrap();
    let pairs = dead_tests_left(&attempt, kiln).len();
    assert!(pairs > 30, "{pairs}");
}

/// What the proof lacks is said at the moment of a touch, the first thing first.
#[test]
fn a_touch_before_the_proof_says_what_the_proof_lacks() {
    let lacked = |hand: &Hand| {
        let mark = ron::from_str("Sleeve(Brown)").unwrap();
        match hand.attempt.clone().act(Action::Mark { end: KILN.to_owned(), mark }) {
            Ok(Happened::Stopped(act)) => act.lacked,
            other => panic!("{other:?}"),
        }
    };
    let unseen = named_and_locked(Hand::new(passage("EarthingTerminal")));
    assert_eq!(lacked(&unseen), Some(ProofGap::Unidentified), "no light was seen to go out");
    let mut hand = isolated(passage("EarthingTerminal"));
    assert_eq!(lacked(&hand), Some(ProofGap::EarthUnshown));
    let mut unlocked = Hand { attempt: hand.attempt.clone() };
    unlocked.does(Action::Unlock { device: "board.1".to_owned() });
    assert_eq!(lacked(&unlocked), Some(ProofGap::Unlocked));
    hand.does(show("kiln.box.earth"));
    assert_eq!(lacked(&hand), Some(ProofGap::IndicatorUnproved));
    hand.does(Action::ProveIndicator);
    assert_eq!(lacked(&hand), Some(ProofGap::Untested));
    round(&mut hand, &[]);
    assert_eq!(lacked(&hand), Some(ProofGap::Unsaid));
    let one_short = {
        let log = hand.attempt.log().to_vec();
        let exercise = Arc::clone(hand.attempt.work().exercise());
        Hand { attempt: Attempt::replay(exercise, log[..log.len() - 1].to_vec()).unwrap() }
    };
    assert_eq!(lacked(&one_short), Some(ProofGap::NotProvedAgain));
}
