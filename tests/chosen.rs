//! Cables to choose: the exercise in every variant by a hand that reckons on paper, the cores by brute force, and what a choice
//! does to the work.

use std::sync::Arc;

use switchdrop::{
    attempt::{Attempt, Mode},
    circuit::{Joined, cores_needed},
    exercise::{Exercise, LocationKind, ProblemCode, Seed, TerminalId, TerminalUse, draw, read},
    marking::{Hint, Outcome, hint, mark},
    trade::{
        accessory::Material,
        cable::{CableKind, CrossSection},
        colour::Colour,
    },
    work::{Action, Edit, Point, Reason, Refused, Work},
};

use crate::hand::{Hand, marked, scenario};

const ID: &str = "two-way-to-choose";

pub fn choose(cable: &str, kind: CableKind, mm2: f64, reason: Reason) -> Action {
    Action::Choose { cable: cable.to_owned(), kind, mm2: CrossSection::from_mm2(mm2).unwrap(), reason }
}

fn exercise(seed: u64) -> Arc<Exercise> {
    Arc::new(draw(scenario(ID), Seed(seed)).unwrap())
}

/// What a learner works out on paper: sizes of link and cable along the track, and why the second has its size. From the rating
/// of the device, the tables' 8 and 10 A in insulation and 44, 29 and 18 mV/A/m, and the lamp's current at 230 V.
struct Paper {
    link: f64,
    along: f64,
    why_along: Reason,
}

fn on_paper(exercise: &Exercise) -> Paper {
    let feed = exercise.end("feed/brown@board").unwrap();
    let from = exercise.start[feed].unwrap().terminal;
    let TerminalUse::DeviceLine(device) = exercise.terminals[from].used_by else { panic!("not a device") };
    let rating = match exercise.devices[device].kind.word() {
        "Rcbo6B30" => 6,
        "Rcbo10B30" => 10,
        other => panic!("{other}"),
    };
    let link = if rating <= 8 { 1.0 } else { 1.5 };
    let metres = |id: &str| exercise.runs[exercise.run(id).unwrap()].metres;
    let (milli_link, amps) = (if rating <= 8 { 44.0 } else { 29.0 }, exercise.lamps.rows()[0].watts / 230.0);
    let feed = exercise.cables.iter().find(|it| it.id == "feed").unwrap().metres;
    let volts = |milli: f64| amps * (feed * 18.0 + metres("link") * milli_link + metres("along") * milli) / 1000.0;
    assert!(volts(29.0) <= 6.9);
    let thin = volts(44.0) <= 6.9;
    let (along, why_along) = if thin { (1.0, Reason::Any) } else { (1.5, Reason::VoltDrop) };
    Paper { link, along, why_along }
}

/// The exercise of a seed, done whole; the strappers like to like, the neutrals in a connector.
pub fn done(seed: u64) -> Hand {
    let exercise = exercise(seed);
    let paper = on_paper(&exercise);
    let metal = exercise
        .locations
        .iter()
        .any(|it| matches!(&it.kind, LocationKind::Box(it) if it.plate.front == Material::Metal));
    let mut hand = Hand::new(exercise);
    hand.does(choose("link", CableKind::ThreeCoreEarth, paper.link, Reason::Cores));
    hand.does(choose("along", CableKind::TwinEarth, paper.along, paper.why_along));
    hand.isolates();
    if metal {
        hand.does(Action::MakeUp { location: "tack".to_owned(), colour: Colour::GreenYellow });
        hand.wires("made-1/a@tack tack.box.earth\nmade-1/b@tack tack.plate.earth");
    }
    hand.wires(
        "feed/brown@tack tack.L1
         along/brown@tack tack.L2
         link/brown@tack tack.COM
         link/black@tack Sleeve(Brown) tack.L1
         link/grey@tack Sleeve(Brown) tack.L2
         feed/blue@tack tack.connector.1
         along/blue@tack tack.connector.1
         feed/cpc@tack Sleeve(GreenYellow) tack.box.earth
         along/cpc@tack Sleeve(GreenYellow) tack.box.earth
         link/cpc@tack Sleeve(GreenYellow) tack.box.earth
         link/brown@loft loft.COM
         link/black@loft Sleeve(Brown) loft.L1
         link/grey@loft Sleeve(Brown) loft.L2
         link/cpc@loft Sleeve(GreenYellow) loft.box.earth
         along/brown@rose rose.switched
         along/blue@rose rose.neutral
         along/cpc@rose Sleeve(GreenYellow) rose.earth",
    );
    hand.reads("lamp", "feed/brown@tack", "along/brown@tack");
    // Feed and lamp stand on L1 and L2, so the light is on where the two plates stand differently.
    hand.predicts(|at| {
        if at[0] == at[1] { (vec![], vec!["feed/brown"]) } else { (vec!["lamp"], vec!["feed/brown", "flex/brown"]) }
    });
    hand.finishes();
    hand
}

/// Seed 4: 200 W on the 10 A device, a plastic plate.
pub fn chosen_model() -> Hand {
    done(4)
}

#[test]
fn every_variant_is_full_marks_for_who_reckons_on_paper() {
    let mut reasons = [0, 0];
    for seed in 0..50 {
        let hand = done(seed);
        let sheet = mark(&hand.attempt, Mode::Set);
        assert_eq!((sheet.outcome, sheet.marks), (Outcome::Pass, sheet.out_of), "{seed}: {:#?}", sheet.findings);
        assert_eq!(sheet.out_of, 100);
        let why = hand.attempt.work().chosen()[1].unwrap().reason;
        reasons[usize::from(why == Reason::VoltDrop)] += 1;
    }
    assert!(reasons.iter().all(|it| *it > 10), "{reasons:?}");
}

/// What a work with these cables has at the two boxes, neutrals and cpcs left out: every end at every terminal of its box. The
/// light from feed to lamp in each of the four settings says whether any of them is the parity of its switches.
fn some_wiring_works(kind: CableKind, cores: &[&str]) -> bool {
    let mut work = Work::new(exercise(4));
    work.apply(&choose("link", kind, 1.5, Reason::Cores)).unwrap();
    work.apply(&choose("along", CableKind::TwinEarth, 1.5, Reason::Any)).unwrap();
    let of = |names: &[&str]| names.iter().map(|it| work.terminal(it).unwrap()).collect::<Vec<TerminalId>>();
    let (tack, loft) =
        (of(&["tack.COM", "tack.L1", "tack.L2", "tack.connector.1"]), of(&["loft.COM", "loft.L1", "loft.L2"]));
    let end = |it: String| work.end(&it).unwrap();
    let mut ends = vec![(end("feed/brown@tack".to_owned()), &tack), (end("along/brown@tack".to_owned()), &tack)];
    for core in cores {
        ends.push((end(format!("link/{core}@tack")), &tack));
        ends.push((end(format!("link/{core}@loft")), &loft));
    }
    let count = ends.iter().map(|it| it.1.len()).product::<usize>();
    (0..count).any(|mut number| {
        let mut tried = work.clone();
        for (end, among) in &ends {
            tried.edit(&Edit::Move(*end, Some(among[number % among.len()])));
            number /= among.len();
        }
        let [line, lamp] = [0, 1].map(|it| Point::Terminal(tried.terminal_of(ends[it].0).unwrap()));
        let lit = [[0, 0], [0, 1], [1, 0], [1, 1]].map(|it| Joined::new(&tried, &it).same(&tried, line, lamp));
        lit == [lit[0], !lit[0], !lit[0], lit[0]]
    })
}

/// Brute force against the argument of the cut: 2,304 ways of joining two cores, none of them right, and 27,648 of joining three.
#[test]
fn two_cores_between_two_way_switches_never_do_and_three_do() {
    assert!(!some_wiring_works(CableKind::TwinEarth, &["brown", "blue"]));
    assert!(some_wiring_works(CableKind::ThreeCoreEarth, &["brown", "black", "grey"]));
    let exercise = exercise(4);
    let link = cores_needed(&exercise, 0);
    let enough: Vec<usize> = (1..5).filter(|it| link.is_enough(*it)).collect();
    let lost: Vec<usize> = (1..5).filter(|it| link.lost_with(*it).next().is_some()).collect();
    assert_eq!((enough, lost), (vec![3, 4], vec![1, 2]));
    // Line and neutral to the lamp, the switches on the near side.
    let along = cores_needed(&exercise, 1);
    assert!(along.is_enough(2) && !along.is_enough(1) && along.lost_with(1).next().is_some());
}

/// With a second cable between the boxes two cores more are there; with a third way round nothing is known.
#[test]
fn cables_beside_the_run_and_ways_round_count() {
    let cable = |id: &str, from: &str, to: &str| {
        format!(
            "cables: [Cable(id: \"{id}\", name: \"more\", kind: TwinEarth, mm2: 1.0, metres: 5.0, from: \"{from}\", to: \"{to}\"),"
        )
    };
    let with = |from: &str, to: &str| {
        let text = scenario(ID).replacen("cables: [", &cable("more", from, to), 1);
        cores_needed(&read(&text, Seed(0)).unwrap(), 0)
    };
    let beside = with("loft", "tack");
    assert!(beside.lost_with(0).next().is_some() && beside.lost_with(1).next().is_none());
    let round = with("loft", "rose");
    assert!(round.lost_with(0).next().is_none() && !round.is_enough(9));
}

/// Seed 4: 200 W on 10 A; seed 1: 100 W on 10 A. Worked out on paper for every reason, for the right cable and a better one.
#[test]
fn a_reason_is_right_if_it_is_what_rules_a_lesser_cable_out() {
    use CableKind::{ThreeCoreEarth, TwinEarth};
    use Reason::{Any, Cores, Current, VoltDrop};
    let cases: [(u64, &str, CableKind, f64, &[Reason]); 6] = [
        // Twin is on offer, and 1.0 mm² has 8 A in insulation.
        (4, "link", ThreeCoreEarth, 1.5, &[Cores, Current]),
        // 1.0 mm² along the track loses 8.3 V, 1.5 mm² 5.6 V.
        (4, "along", TwinEarth, 1.5, &[VoltDrop]),
        (4, "along", TwinEarth, 2.5, &[VoltDrop]),
        (1, "link", ThreeCoreEarth, 1.5, &[Cores, Current]),
        // 100 W loses at most 4.4 V.
        (1, "along", TwinEarth, 1.0, &[Any]),
        (1, "along", TwinEarth, 2.5, &[Any]),
    ];
    for (seed, cable, kind, mm2, right) in cases {
        let model = done(seed);
        for &reason in Reason::ALL {
            let log = model.attempt.log().iter().map(|it| match it {
                Action::Choose { cable: of, .. } if of == cable => choose(cable, kind, mm2, reason),
                other => other.clone(),
            });
            let attempt = Attempt::replay(exercise(seed), log).unwrap();
            let sheet = marked(&attempt);
            let found: Vec<_> = sheet.placed(|_| true).map(|(it, at)| (it.code.word(), at, it.lost)).collect();
            let expected = if right.contains(&reason) { vec![] } else { vec![("reason-wrong", cable, 2)] };
            assert_eq!(found, expected, "seed {seed}, {cable} {kind:?} {mm2}: {reason:?}");
        }
    }
}

/// On the 6 A device 1.0 mm² in insulation will do: no size decides there.
#[test]
fn a_smaller_device_lets_a_thinner_link_do() {
    let model = done(2);
    assert!(matches!(&model.attempt.log()[0], Action::Choose { mm2, .. } if (mm2.mm2() - 1.0).abs() < 1e-9));
    let log = model.attempt.log().iter().map(|it| match it {
        Action::Choose { cable, .. } if cable == "link" => {
            choose("link", CableKind::ThreeCoreEarth, 1.5, Reason::Current)
        }
        other => other.clone(),
    });
    let sheet = mark(&Attempt::replay(exercise(2), log).unwrap(), Mode::Set);
    assert_eq!(sheet.findings.iter().map(|it| it.code.word()).collect::<Vec<_>>(), ["reason-wrong"]);
}

#[test]
fn until_it_is_chosen_there_is_no_cable_to_touch() {
    let mut attempt = Attempt::new(exercise(4));
    let mark = |end: &str| Action::Mark { end: end.to_owned(), mark: ron::from_str("Sleeve(Brown)").unwrap() };
    let not_chosen = || Refused::NotChosen { cable: "link".to_owned() };
    assert_eq!(attempt.act(mark("link/black@tack")), Err(not_chosen()));
    let sheath = Action::Sheath { cable: "link".to_owned(), location: "tack".to_owned(), mm: 90 };
    let mut open = attempt.work().clone();
    open.apply(&Action::RemoveCover { location: "tack".to_owned() }).unwrap();
    assert_eq!(open.apply(&sheath), Err(not_chosen()));
    let refused = |attempt: &mut Attempt, action| attempt.act(action).unwrap_err();
    let wide = choose("link", CableKind::TwinEarth, 2.5, Reason::Usual);
    assert_eq!(refused(&mut attempt, wide), Refused::NotOffered { cable: "link".to_owned() });
    let feed = choose("feed", CableKind::TwinEarth, 1.5, Reason::Usual);
    assert!(matches!(refused(&mut attempt, feed), Refused::Unknown { .. }), "what is there is not to be chosen");
    let twin = choose("link", CableKind::TwinEarth, 1.5, Reason::Usual);
    attempt.act(twin.clone()).unwrap();
    assert_eq!(refused(&mut attempt, twin), Refused::SoAlready { at: "link".to_owned() });
    assert!(matches!(refused(&mut attempt, mark("link/black@tack")), Refused::Unknown { .. }), "twin has no black");
    attempt.act(Action::Undo).unwrap();
    assert_eq!(refused(&mut attempt, mark("link/black@tack")), not_chosen());
    attempt.act(Action::Redo).unwrap();
    assert!(attempt.work().end("link/blue@tack").is_ok());
}

/// A cable pulled out again for another: what was made up by hand, the test links and the other cable are as they were.
#[test]
fn another_cable_takes_its_place_and_leaves_the_rest() {
    let mut hand = Hand::new(exercise(4));
    let three = choose("link", CableKind::ThreeCoreEarth, 1.5, Reason::Cores);
    let twin = choose("link", CableKind::TwinEarth, 1.5, Reason::Cores);
    hand.does(choose("along", CableKind::TwinEarth, 1.5, Reason::VoltDrop));
    hand.does(twin.clone());
    hand.isolates();
    hand.does(Action::MakeUp { location: "tack".to_owned(), colour: Colour::Brown });
    hand.wires("made-1/a@tack tack.L1\nalong/brown@rose rose.switched\nlink/blue@loft Sleeve(Brown) loft.L1");
    hand.does(Action::FitLink { a: "made-1/b@tack".to_owned(), b: "along/blue@tack".to_owned() });
    let connected = hand.attempt.act(three.clone());
    assert_eq!(connected, Err(Refused::AlreadyConnected { end: "link/blue@loft".to_owned() }));
    hand.does(Action::Disconnect { end: "link/blue@loft".to_owned() });
    for (choice, core) in [(three, "black"), (twin, "blue")] {
        hand.does(choice);
        let work = hand.attempt.work();
        let at = |end: &str| work.terminal_of(work.end(end).unwrap());
        assert_eq!(at("made-1/a@tack"), Some(work.terminal("tack.L1").unwrap()));
        assert_eq!(at("along/brown@rose"), Some(work.terminal("rose.switched").unwrap()));
        let linked: Vec<String> = work.links().iter().flatten().map(|it| work.point_address(*it)).collect();
        assert_eq!(linked.iter().filter(|it| ["made-1/b@tack", "along/blue@tack"].contains(&it.as_str())).count(), 2);
        let fresh = work.end(&format!("link/{core}@loft")).unwrap();
        assert_eq!((work.terminal_of(fresh), work.mark_of(fresh)), (None, None));
    }
    // Taken back, the three-core and its choice are there again.
    hand.does(Action::Undo);
    let work = hand.attempt.work();
    assert!(work.end("link/grey@loft").is_ok() && work.end("made-1/a@tack").is_ok());
    let linked: Vec<String> = work.links().iter().flatten().map(|it| work.point_address(*it)).collect();
    assert!(linked.contains(&"made-1/b@tack".to_owned()), "{linked:?}");
}

#[test]
fn what_is_wrong_with_a_run_is_shown_where_it_stands() {
    let link = "id: \"link\", name: \"loft link\", metres: 6.0, from: \"tack\"";
    for (was, is, code) in [
        (link, link.replace("tack", "tuck"), ProblemCode::UnknownLocation),
        (link, link.replace("tack", "loft"), ProblemCode::CableToItself),
        (link, link.replace("\"link\"", "\"feed\""), ProblemCode::Duplicate),
        (link, link.replace("6.0", "6000.0"), ProblemCode::BadNumber),
        ("Offer(kind: ThreeCoreEarth, mm2: 1.0)", "Offer(kind: TwinEarth, mm2: 1.0)".to_owned(), ProblemCode::BadOffer),
        ("predict: [\"feed/brown\"", "predict: [\"link/brown\"".to_owned(), ProblemCode::UnknownConductor),
        (
            "connected: [",
            "connected: [Connected(end: \"link/brown@tack\", at: \"tack.COM\"),".to_owned(),
            ProblemCode::UnknownEnd,
        ),
        ("Length(cable: \"link\"", "Length(cable: \"lnik\"".to_owned(), ProblemCode::UnknownCable),
    ] {
        let text = scenario(ID).replacen(was, &is, 1);
        let problems = read(&text, Seed(0)).unwrap_err();
        assert!(problems.iter().any(|it| it.code == code), "{is}: {problems:?}");
        let there = scenario(ID).lines().position(|it| it.contains(was)).unwrap() + 1;
        let said = problems.iter().find(|it| it.code == code).map(|it| it.position(&text).0);
        assert_eq!(said, Some(there), "{is}");
    }
}

/// A blank hand-in, with no cable chosen, is one line: what is to be chosen is still to do like all the rest.
#[test]
fn a_hand_in_with_no_cable_chosen_is_one_line() {
    let mut hand = Hand::new(exercise(0));
    hand.does(Action::HandIn);
    let sheet = marked(&hand.attempt);
    assert_eq!((sheet.outcome, sheet.marks), (Outcome::NotYet, 0));
    assert_eq!(sheet.causes(), [("work-unfinished", "")], "{:#?}", sheet.findings);
}

/// Too few cores for two switches, or 1 mm² behind 10 A in insulation (8 A by the table): a hint says so the moment that it is chosen, and
/// nothing of a right choice.
#[test]
fn a_hint_over_a_cable_that_will_not_do_is_no_praise() {
    let ten_amps = |it: &u64| on_paper(&exercise(*it)).link > 1.0;
    let seed = (0..50).find(ten_amps).expect("a variant with 10 A");
    for (kind, mm2, code) in [
        (CableKind::TwinEarth, 1.5, Some("cores-few")),
        (CableKind::ThreeCoreEarth, 1.0, Some("cable-thin")),
        (CableKind::ThreeCoreEarth, 1.5, None),
    ] {
        let mut hand = Hand::new(exercise(seed));
        hand.does(choose("link", kind, mm2, Reason::Cores));
        let looked = match hint(&hand.attempt) {
            Hint::Look(it) => Some(it.code.word()),
            _ => None,
        };
        assert_eq!(looked, code);
    }
}
