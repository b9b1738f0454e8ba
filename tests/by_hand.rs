//! Ends made off by hand: what the hand can and can't do, what follows, what it costs.
//!
//! Lengths: a strip of 8 to 10 mm and 10 mm of sheath inside are common practice; a depth of 9 or 10 mm is the catalogue's. What each
//! slip must cost was written down before the marker was asked. Heat and volts are worked out on paper from Ohm's law.

use std::sync::Arc;

use proptest::prelude::*;
use switchdrop::{
    circuit::{Physics, hot_joints},
    exercise::{Exercise, Seed, read},
    marking::{Code, Outcome, Root, Sheet, Weight, mark},
    trade::colour::Colour,
    work::{Action, Attempt, Edit, Feel, Happened, Mode, Prep, Refused, action_line, parse_action},
};

use crate::{hand::Hand, slips::Row};

const DOUBLE: &str = include_str!("scenarios/by-hand.ron");

/// The same with a one-way plate, in holes of 9 mm; the neutrals meet in a lever connector.
fn single() -> String {
    DOUBLE.replace("[DoublePole]", "[OneWay]")
}

fn exercise(text: &str) -> Arc<Exercise> {
    Arc::new(read(text, Seed(0)).unwrap_or_else(|it| panic!("{it:#?}")))
}

fn does(hand: &mut Hand, actions: &str) {
    for line in actions.lines().map(str::trim).filter(|it| !it.is_empty()) {
        hand.does(ron::from_str(line).unwrap_or_else(|it| panic!("{line}: {it}")));
    }
}

fn opened(text: &str) -> Hand {
    let mut hand = Hand::new(exercise(text));
    does(
        &mut hand,
        r#"PowerOff(device: "board.1")
           LockOff(device: "board.1")
           RemoveCover(location: "box")"#,
    );
    hand
}

fn closed(mut hand: Hand) -> Hand {
    does(
        &mut hand,
        r#"FitCover(location: "box")
           Unlock(device: "board.1")
           PowerOn(device: "board.1")
           Operate(switch: "box", position: 1)
           HandIn"#,
    );
    hand
}

/// What a careful hand does at the double-pole plate: its holes are made for 6 mm², and ask for a fold of anything thin.
const DOUBLE_STEPS: &str = r#"Grommet(location: "box")
    Sheath(cable: "feed", location: "box", mm: 160)
    Sheath(cable: "flex", location: "box", mm: 160)
    Cut(end: "feed/brown@box", mm: 120)
    Cut(end: "feed/blue@box", mm: 120)
    Cut(end: "feed/cpc@box", mm: 120)
    Cut(end: "flex/brown@box", mm: 120)
    Cut(end: "flex/blue@box", mm: 120)
    Strip(end: "feed/brown@box", mm: 20, jaw: 150)
    Strip(end: "feed/blue@box", mm: 20, jaw: 150)
    Strip(end: "flex/brown@box", mm: 20, jaw: 75)
    Strip(end: "flex/blue@box", mm: 20, jaw: 75)
    Fold(end: "feed/brown@box")
    Fold(end: "feed/blue@box")
    Fold(end: "flex/brown@box")
    Fold(end: "flex/blue@box")
    Mark(end: "feed/cpc@box", mark: Sleeve(GreenYellow))
    Connect(end: "feed/brown@box", terminal: "box.L-in")
    Connect(end: "feed/blue@box", terminal: "box.N-in")
    Connect(end: "flex/brown@box", terminal: "box.L-out")
    Connect(end: "flex/blue@box", terminal: "box.N-out")
    Connect(end: "feed/cpc@box", terminal: "box.box.earth")
    MakeUp(location: "box", colour: GreenYellow)
    Connect(end: "made-1/a@box", terminal: "box.box.earth")
    Connect(end: "made-1/b@box", terminal: "box.plate.earth")
    Tighten(terminal: "box.L-in")
    Tighten(terminal: "box.N-in")
    Tighten(terminal: "box.L-out")
    Tighten(terminal: "box.N-out")
    Tighten(terminal: "box.box.earth")
    Tighten(terminal: "box.plate.earth")
    Dress(location: "box")"#;

/// At the one-way plate.
const SINGLE_STEPS: &str = r#"Sheath(cable: "feed", location: "box", mm: 150)
    Sheath(cable: "flex", location: "box", mm: 150)
    Cut(end: "feed/brown@box", mm: 120)
    Cut(end: "feed/blue@box", mm: 120)
    Cut(end: "feed/cpc@box", mm: 120)
    Cut(end: "flex/brown@box", mm: 120)
    Cut(end: "flex/blue@box", mm: 120)
    Strip(end: "feed/brown@box", mm: 9, jaw: 150)
    Strip(end: "feed/blue@box", mm: 11, jaw: 150)
    Strip(end: "flex/brown@box", mm: 9, jaw: 75)
    Strip(end: "flex/blue@box", mm: 11, jaw: 75)
    Grommet(location: "box")
    Mark(end: "feed/cpc@box", mark: Sleeve(GreenYellow))
    Connect(end: "feed/brown@box", terminal: "box.COM")
    Connect(end: "flex/brown@box", terminal: "box.L1")
    Connect(end: "feed/blue@box", terminal: "box.connector.1")
    Connect(end: "flex/blue@box", terminal: "box.connector.1")
    Connect(end: "feed/cpc@box", terminal: "box.box.earth")
    Tighten(terminal: "box.COM")
    Tighten(terminal: "box.L1")
    Tighten(terminal: "box.connector.1")
    Tighten(terminal: "box.box.earth")
    Dress(location: "box")"#;

fn double() -> Hand {
    let mut hand = opened(DOUBLE);
    does(&mut hand, DOUBLE_STEPS);
    closed(hand)
}

fn single_done() -> Hand {
    let mut hand = opened(&single());
    does(&mut hand, SINGLE_STEPS);
    closed(hand)
}

/// The steps with one line put for another: nothing, or several.
fn with(text: &str, steps: &str, line: &str, instead: &str) -> Hand {
    assert!(steps.contains(line), "{line}");
    let mut hand = opened(text);
    does(&mut hand, &steps.replace(line, instead));
    closed(hand)
}

fn judged(hand: &Hand) -> Sheet {
    mark(&hand.attempt, Mode::Set)
}

fn causes(sheet: &Sheet) -> Vec<(&'static str, &str)> {
    let causes = sheet.findings.iter().filter(|it| it.root == Root::Itself && it.weight > Weight::Advice);
    causes.map(|it| (it.code.word(), it.at.as_str())).collect()
}

/// The codes that the cases here fire, each with a near miss beside it.
pub fn fired() -> Vec<String> {
    let slips = DOUBLE_SLIPS.iter().chain(SINGLE_SLIPS).filter_map(|it| it.2.map(|it| it.0));
    let others = ["joint-hot", "fold-missing", "unlike-sizes", "conductor-trapped", "box-too-shallow"];
    slips.chain(others).map(str::to_owned).collect()
}

#[test]
fn both_models_earn_everything() {
    for hand in [double(), single_done()] {
        let sheet = judged(&hand);
        assert_eq!((sheet.outcome, sheet.marks), (Outcome::Pass, sheet.out_of), "{:#?}", sheet.findings);
        assert_eq!(sheet.out_of, 100);
        assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
    }
}

#[test]
fn a_blank_hand_in_is_not_yet_and_earns_next_to_nothing() {
    let mut attempt = Attempt::new(exercise(DOUBLE));
    attempt.act(Action::HandIn, &Physics).unwrap();
    let sheet = mark(&attempt, Mode::Set);
    assert_eq!(sheet.outcome, Outcome::NotYet, "{:#?}", sheet.findings);
    assert!(sheet.marks <= 20, "{}", sheet.marks);
}

/// Line in the steps, what is done instead, the one cause it must have; nothing where it must cost nothing.
type Slip = (&'static str, &'static str, Option<(&'static str, &'static str)>);

const DOUBLE_SLIPS: &[Slip] = &[
    // Folded in two, 24 mm is 12 in a hole of 10: 2 mm show. 22 is 11, and 1 mm at the mouth can't be told.
    (
        r#"Strip(end: "feed/brown@box", mm: 20,"#,
        r#"Strip(end: "feed/brown@box", mm: 24,"#,
        Some(("bare-copper-showing", "feed/brown@box")),
    ),
    (r#"Strip(end: "feed/brown@box", mm: 20,"#, r#"Strip(end: "feed/brown@box", mm: 22,"#, None),
    // 12 mm is 6: the last 4 of 10 are insulation. 16 is 8, the least of common practice.
    (
        r#"Strip(end: "flex/blue@box", mm: 20,"#,
        r#"Strip(end: "flex/blue@box", mm: 12,"#,
        Some(("insulation-under-screw", "flex/blue@box")),
    ),
    (r#"Strip(end: "flex/blue@box", mm: 20,"#, r#"Strip(end: "flex/blue@box", mm: 16,"#, None),
    // A smaller jaw cuts the copper; a larger one doesn't.
    (
        r#"Strip(end: "feed/blue@box", mm: 20, jaw: 150)"#,
        r#"Strip(end: "feed/blue@box", mm: 20, jaw: 100)"#,
        Some(("nicked", "feed/blue@box")),
    ),
    (r#"Strip(end: "feed/blue@box", mm: 20, jaw: 150)"#, r#"Strip(end: "feed/blue@box", mm: 20, jaw: 250)"#, None),
    (
        r#"Tighten(terminal: "box.N-in")"#,
        r#"Tighten(terminal: "box.N-in", feel: Crushed)"#,
        Some(("crushed", "feed/blue@box")),
    ),
    // At 1.3 A a slack joint is hot; the screw is the one cause.
    (
        r#"Tighten(terminal: "box.N-in")"#,
        r#"Tighten(terminal: "box.N-in", feel: Slack)"#,
        Some(("connection-slack", "box.N-in")),
    ),
    (r#"Tighten(terminal: "box.N-in")"#, "", Some(("connection-slack", "box.N-in"))),
    // Put right before the plate goes on.
    (
        r#"Tighten(terminal: "box.N-in")"#,
        r#"Tighten(terminal: "box.N-in", feel: Slack)
           Tighten(terminal: "box.N-in")
           Tug(end: "feed/blue@box")"#,
        None,
    ),
    (r#"Grommet(location: "box")"#, "", Some(("grommet-missing", "box"))),
    // 195 of the 200 that hang: 5 mm of sheath inside. 190 leaves the 10.
    (
        r#"Sheath(cable: "feed", location: "box", mm: 160)"#,
        r#"Sheath(cable: "feed", location: "box", mm: 195)"#,
        Some(("sheath-outside", "feed/brown@box")),
    ),
    (r#"Sheath(cable: "feed", location: "box", mm: 160)"#, r#"Sheath(cable: "feed", location: "box", mm: 190)"#, None),
    // In two goes.
    (
        r#"Sheath(cable: "flex", location: "box", mm: 160)"#,
        r#"Sheath(cable: "flex", location: "box", mm: 90)
           Sheath(cable: "flex", location: "box", mm: 160)"#,
        None,
    ),
    // Five cores of 120 mm fold away behind a plate by themselves.
    (r#"Dress(location: "box")"#, "", None),
    (r#"Mark(end: "feed/cpc@box", mark: Sleeve(GreenYellow))"#, "", Some(("cpc-unsleeved", "feed/cpc@box"))),
    // Whether the bare cpc is folded is as the hand likes: its hole asks for nothing.
    (r#"Cut(end: "feed/cpc@box", mm: 120)"#, "Cut(end: \"feed/cpc@box\", mm: 120)\nFold(end: \"feed/cpc@box\")", None),
    // Longer than needed, and laid clear.
    (r#"Cut(end: "feed/brown@box", mm: 120)"#, r#"Cut(end: "feed/brown@box", mm: 150)"#, None),
];

/// At the one-way plate and the connector.
const SINGLE_SLIPS: &[Slip] = &[
    // Holes of 9 mm ask for no fold, and forbid none.
    ("Grommet", "Fold(end: \"feed/brown@box\")\nUnfold(end: \"feed/brown@box\")\nGrommet", None),
    (
        r#"Strip(end: "feed/brown@box", mm: 9, jaw: 150)"#,
        "Strip(end: \"feed/brown@box\", mm: 18, jaw: 150)\nFold(end: \"feed/brown@box\")",
        None,
    ),
    // Straight, 18 mm is 9 outside.
    (
        r#"Strip(end: "feed/brown@box", mm: 9, jaw: 150)"#,
        r#"Strip(end: "feed/brown@box", mm: 18, jaw: 150)"#,
        Some(("bare-copper-showing", "feed/brown@box")),
    ),
    // Common practice.
    (r#"Strip(end: "feed/brown@box", mm: 9, jaw: 150)"#, r#"Strip(end: "feed/brown@box", mm: 8, jaw: 150)"#, None),
    (r#"Strip(end: "feed/brown@box", mm: 9, jaw: 150)"#, r#"Strip(end: "feed/brown@box", mm: 10, jaw: 150)"#, None),
    // Folded under a lever.
    (
        r#"Strip(end: "feed/blue@box", mm: 11, jaw: 150)"#,
        "Strip(end: \"feed/blue@box\", mm: 22, jaw: 150)\nFold(end: \"feed/blue@box\")",
        Some(("fold-wrong", "feed/blue@box")),
    ),
    // A lever can't be driven through anything.
    (r#"Tighten(terminal: "box.connector.1")"#, r#"Tighten(terminal: "box.connector.1", feel: Crushed)"#, None),
    (
        r#"Strip(end: "flex/brown@box", mm: 9, jaw: 75)"#,
        r#"Strip(end: "flex/brown@box", mm: 2, jaw: 75)"#,
        Some(("insulation-under-screw", "flex/brown@box")),
    ),
];

/// Lines of the table of slips.
pub fn rows() -> Vec<Row> {
    let tables = [
        ("made off at a double-pole plate", DOUBLE.to_owned(), DOUBLE_STEPS, DOUBLE_SLIPS),
        ("made off at a one-way plate", single(), SINGLE_STEPS, SINGLE_SLIPS),
    ];
    let mut rows = Vec::new();
    for (from, text, steps, slips) in tables {
        let mut row = Row::new(from);
        for (line, instead, cause) in slips {
            let sheet = judged(&with(&text, steps, line, instead));
            row.judges(instead, cause.map(|it| it.0), &sheet);
            let (causes, expected) = (causes(&sheet), cause.iter().copied().collect::<Vec<_>>());
            if causes != expected || cause.is_none() && !sheet.findings.is_empty() {
                row.wrong.push(format!("{instead}: {causes:?}, not {expected:?}: {:?}", sheet.findings));
            }
        }
        rows.push(row);
    }
    rows.extend(flaws());
    rows
}

/// Every end, every single flaw put in from outside: one cause, at that end.
fn flaws() -> Vec<Row> {
    let mut rows = Vec::new();
    for (from, hand) in [("a flaw at a double-pole plate", double()), ("a flaw at a one-way plate", single_done())] {
        let mut row = Row::new(from);
        let work = hand.attempt.work();
        for end in work.ends() {
            let Some(prep) = work.prep_of(end) else { continue };
            let bare = work.end_facts(end).colour == Colour::Bare;
            let mut flaws = vec![
                ("nicked", Prep { nicked: true, ..prep }),
                ("crushed", Prep { crushed: true, ..prep }),
                ("conductor-trapped", Prep { trapped: true, ..prep }),
            ];
            if !bare {
                flaws.push(("bare-copper-showing", Prep { strip_mm: prep.strip_mm + 6, ..prep }));
                flaws.push(("insulation-under-screw", Prep { strip_mm: prep.strip_mm / 2, ..prep }));
            }
            for (code, flaw) in flaws {
                let sheet = mark(&hand.attempt.supposing(&[Edit::Prepare(end, flaw)]), Mode::Set);
                let at = work.end_address(end);
                row.judges(&format!("{code} at {at}"), Some(code), &sheet);
                if causes(&sheet) != [(code, at.as_str())] {
                    row.wrong.push(format!("{code} at {at}: {:#?}", sheet.findings));
                }
            }
        }
        rows.push(row);
    }
    rows
}

/// 300 W at 230 V is 1.304 A through 176.3 ohm; with a joint of 1 ohm in it 1.297 A or a little less for the copper: 1.67 to 1.69 W.
#[test]
fn a_slack_joint_gets_hot_at_the_load_of_its_circuit_and_is_critical() {
    let hand = with(DOUBLE, DOUBLE_STEPS, r#"Tighten(terminal: "box.N-in")"#, "");
    let hot = hot_joints(hand.attempt.work(), &[vec![0], vec![1]]);
    assert_eq!(hot.len(), 1, "{hot:?}");
    assert!((1.64..1.70).contains(&hot[0].watts), "{hot:?}");
    assert!((1.28..1.30).contains(&hot[0].volts), "{hot:?}");
    assert_eq!(hot[0].positions, [1]);
    let sheet = judged(&hand);
    let found = sheet.findings.iter().find(|it| it.code == Code::JointHot).expect("hot");
    assert_eq!(found.weight, Weight::Critical);
    assert!(matches!(found.root, Root::Of(_)) && found.lost == 0, "{found:?}");
    assert_eq!(sheet.outcome, Outcome::Refer);
    // A 100 W lamp at the same joint: 0.19 W, which is not hot.
    let cool =
        with(&DOUBLE.replace("watts: 300.0", "watts: 100.0"), DOUBLE_STEPS, r#"Tighten(terminal: "box.N-in")"#, "");
    assert!(judged(&cool).findings.iter().all(|it| it.code != Code::JointHot));
    assert_eq!(causes(&judged(&cool)), [("connection-slack", "box.N-in")]);
}

/// Unfolded in a hole made for 6 mm². 10 mm straight fill it, so nothing else is wrong.
#[test]
fn a_terminal_that_asks_for_a_fold_has_one() {
    let steps = DOUBLE_STEPS
        .replace(r#"Fold(end: "feed/brown@box")"#, "")
        .replace(r#"Strip(end: "feed/brown@box", mm: 20,"#, r#"Strip(end: "feed/brown@box", mm: 10,"#);
    let mut hand = opened(DOUBLE);
    does(&mut hand, &steps);
    assert_eq!(causes(&judged(&closed(hand))), [("fold-missing", "feed/brown@box")]);
}

/// 2.5 and 0.75 mm² under one screw: more than twice. 1.5 and 0.75 is everyday work; a fold of the thin one does for the other.
#[test]
fn unlike_sizes_under_one_screw() {
    let text = single()
        .replace("mm2: 1.5, metres: 8.0", "mm2: 2.5, metres: 8.0")
        .replace("connectors: Some(1)", "connectors: Some(1), connector: Some(ScrewConnector)");
    let fits = |strip: &str| {
        SINGLE_STEPS
            .replace(
                r#"Strip(end: "feed/brown@box", mm: 9, jaw: 150)"#,
                r#"Strip(end: "feed/brown@box", mm: 9, jaw: 250)"#,
            )
            .replace(
                r#"Strip(end: "feed/blue@box", mm: 11, jaw: 150)"#,
                r#"Strip(end: "feed/blue@box", mm: 8, jaw: 250)"#,
            )
            .replace(r#"Strip(end: "flex/blue@box", mm: 11, jaw: 75)"#, strip)
    };
    let straight = r#"Strip(end: "flex/blue@box", mm: 8, jaw: 75)"#;
    let folded = "Strip(end: \"flex/blue@box\", mm: 16, jaw: 75)\nFold(end: \"flex/blue@box\")";
    for (text, strip, expected) in [
        (text.clone(), straight, vec![("unlike-sizes", "flex/blue@box")]),
        (text.clone(), folded, vec![]),
        (text.replace("mm2: 2.5", "mm2: 1.5"), straight, vec![]),
    ] {
        let steps = if text.contains("mm2: 2.5") { fits(strip) } else { fits(strip).replace("jaw: 250", "jaw: 150") };
        let mut hand = opened(&text);
        does(&mut hand, &steps);
        assert_eq!(causes(&judged(&closed(hand))), expected, "{strip}");
    }
}

/// Seven hundred millimetres of core are what a 35 mm box folds away (an assumption of ours); five of 160 are 800. The caught
/// conductor reads 0.1 megohm to the box, below the 1 megohm of the published table (BS 7671 Table 64).
#[test]
fn a_plate_over_crowded_conductors_catches_one_unless_they_lie_clear() {
    let long = DOUBLE_STEPS.lines().filter(|it| !it.contains("Cut(")).collect::<Vec<_>>().join("\n");
    let mut clear = opened(DOUBLE);
    does(&mut clear, &long);
    let sheet = judged(&closed(clear));
    assert!(sheet.findings.is_empty(), "{:#?}", sheet.findings);
    let mut hasty = opened(DOUBLE);
    does(&mut hasty, &long.replace(r#"Dress(location: "box")"#, ""));
    let work = hasty.attempt.work();
    let (line, earth) = (work.point("box.L-in").unwrap(), work.point("box.box.earth").unwrap());
    let ohms = |hand: &Hand| {
        let network = switchdrop::circuit::Network::new(
            hand.attempt.work(),
            &switchdrop::circuit::Conditions::present(hand.attempt.work()),
        );
        let node = |it| network.find(hand.attempt.work(), it).unwrap();
        network.ohms_between(hand.attempt.work(), node(line), node(earth))
    };
    assert!(ohms(&hasty).is_infinite() || ohms(&hasty) > 1.0e6);
    let hasty = closed(hasty);
    let sheet = judged(&hasty);
    assert_eq!(causes(&sheet), [("conductor-trapped", "feed/brown@box")], "{:#?}", sheet.findings);
    let trapped = hasty.attempt.work().end("feed/brown@box").unwrap();
    assert!(hasty.attempt.work().prep_of(trapped).is_some_and(|it| it.trapped));
    assert!(ohms(&hasty) < 1.0e6, "{}", ohms(&hasty));
}

#[test]
fn a_box_shallower_than_its_accessory_asks_is_said_and_costs_nothing() {
    let mut hand = opened(&DOUBLE.replace("Some(35.0)", "Some(25.0)"));
    does(&mut hand, DOUBLE_STEPS);
    let sheet = judged(&closed(hand));
    let said: Vec<_> = sheet.findings.iter().map(|it| (it.code, it.weight, it.lost)).collect();
    assert_eq!(said, [(Code::BoxTooShallow, Weight::Advice, 0)]);
    assert_eq!(sheet.marks, sheet.out_of);
}

fn refused(hand: &mut Hand, action: &str) -> Refused {
    hand.attempt.act(ron::from_str(action).unwrap(), &Physics).expect_err(action)
}

#[test]
fn what_a_hand_cannot_do() {
    let mut hand = opened(DOUBLE);
    let said = |hand: &mut Hand, action: &str, word: &str| assert_eq!(refused(hand, action).word(), word, "{action}");
    said(&mut hand, r#"Strip(end: "feed/brown@box", mm: 10, jaw: 150)"#, "in-sheath");
    said(&mut hand, r#"Mark(end: "feed/brown@box", mark: Tape(Brown))"#, "in-sheath");
    said(&mut hand, r#"Connect(end: "feed/brown@box", terminal: "box.L-in")"#, "in-sheath");
    said(&mut hand, r#"Sheath(cable: "feed", location: "box", mm: 201)"#, "not-so-much");
    said(&mut hand, r#"Sheath(cable: "none", location: "box", mm: 100)"#, "unknown");
    said(&mut hand, r#"Dress(location: "lamp")"#, "not-here");
    does(&mut hand, r#"Sheath(cable: "feed", location: "box", mm: 160)"#);
    said(&mut hand, r#"Sheath(cable: "feed", location: "box", mm: 100)"#, "not-back");
    said(&mut hand, r#"Connect(end: "feed/brown@box", terminal: "box.L-in")"#, "nothing-bare");
    said(&mut hand, r#"Fold(end: "feed/brown@box")"#, "nothing-bare");
    said(&mut hand, r#"Strip(end: "feed/brown@box", mm: 161, jaw: 150)"#, "not-so-much");
    said(&mut hand, r#"Strip(end: "feed/brown@box", mm: 10, jaw: 400)"#, "jaw-too-wide");
    said(&mut hand, r#"Strip(end: "feed/brown@box", mm: 10, jaw: 140)"#, "no-such-material");
    said(&mut hand, r#"Strip(end: "feed/cpc@box", mm: 10, jaw: 100)"#, "no-such-material");
    said(&mut hand, r#"Cut(end: "feed/brown@box", mm: 160)"#, "not-back");
    does(&mut hand, "Cut(end: \"feed/brown@box\", mm: 80)\nStrip(end: \"feed/brown@box\", mm: 10, jaw: 150)");
    said(&mut hand, r#"Strip(end: "feed/brown@box", mm: 9, jaw: 150)"#, "not-back");
    // 80 mm do for a connector in the box, not for a plate held clear of it.
    said(&mut hand, r#"Connect(end: "feed/brown@box", terminal: "box.L-in")"#, "wont-reach");
    does(&mut hand, r#"Connect(end: "feed/brown@box", terminal: "box.connector.1")"#);
    said(&mut hand, r#"Cut(end: "feed/brown@box", mm: 70)"#, "already-connected");
    does(&mut hand, r#"Grommet(location: "box")"#);
    said(&mut hand, r#"Grommet(location: "box")"#, "so-already");
}

#[test]
fn a_pull_brings_out_what_is_not_held_and_undo_takes_handwork_back() {
    let mut hand = opened(&single());
    does(
        &mut hand,
        r#"Sheath(cable: "feed", location: "box", mm: 150)
           Strip(end: "feed/brown@box", mm: 3, jaw: 150)
           Connect(end: "feed/brown@box", terminal: "box.COM")
           Tighten(terminal: "box.COM")"#,
    );
    let pull = |hand: &mut Hand| hand.attempt.act(Action::Tug { end: "feed/brown@box".to_owned() }, &Physics).unwrap();
    assert_eq!(pull(&mut hand), Happened::CameOut);
    does(
        &mut hand,
        r#"Strip(end: "feed/brown@box", mm: 9, jaw: 150)
           Connect(end: "feed/brown@box", terminal: "box.COM")"#,
    );
    assert_eq!(pull(&mut hand), Happened::CameOut, "slack");
    does(
        &mut hand,
        r#"Connect(end: "feed/brown@box", terminal: "box.COM")
           Tighten(terminal: "box.COM")"#,
    );
    assert_eq!(pull(&mut hand), Happened::Held);
    let end = hand.attempt.work().end("feed/brown@box").unwrap();
    let before = hand.attempt.work().prep_of(end);
    does(&mut hand, "Disconnect(end: \"feed/brown@box\")\nCut(end: \"feed/brown@box\", mm: 50)\nUndo\nUndo");
    assert_eq!(hand.attempt.work().prep_of(end), before);
}

/// A cut takes the damage away with the copper that has it, and not with less.
#[test]
fn damage_is_cut_away() {
    let mut hand = opened(DOUBLE);
    does(
        &mut hand,
        r#"Sheath(cable: "feed", location: "box", mm: 160)
           Strip(end: "feed/brown@box", mm: 10, jaw: 100)
           Cut(end: "feed/brown@box", mm: 155)"#,
    );
    let end = hand.attempt.work().end("feed/brown@box").unwrap();
    let prep = |hand: &Hand| hand.attempt.work().prep_of(end).unwrap();
    assert_eq!(prep(&hand), Prep { core_mm: 155, strip_mm: 5, nicked: true, ..Prep::default() });
    does(&mut hand, r#"Cut(end: "feed/brown@box", mm: 150)"#);
    assert_eq!(prep(&hand), Prep { core_mm: 150, ..Prep::default() });
}

#[test]
fn with_the_plate_on_nothing_can_be_made_off() {
    let mut hand = opened(DOUBLE);
    does(&mut hand, "FitCover(location: \"box\")\nUnlock(device: \"board.1\")\nPowerOn(device: \"board.1\")");
    for action in [r#"Sheath(cable: "feed", location: "box", mm: 160)"#, r#"Dress(location: "box")"#] {
        assert_eq!(refused(&mut hand, action).word(), "cover-on");
    }
}

#[test]
fn ends_that_come_prepared_are_left_alone_and_old_lines_read_as_before() {
    let mut hand = opened(&DOUBLE.replace("preparation: ByHand,", ""));
    assert_eq!(refused(&mut hand, r#"Cut(end: "feed/brown@box", mm: 60)"#).word(), "comes-prepared");
    does(&mut hand, r#"Connect(end: "feed/brown@box", terminal: "box.L-in")"#);
    let written = |feel| action_line(1, &Action::Tighten { terminal: "box.L-in".to_owned(), feel }).unwrap();
    assert!(!written(Feel::Right).contains("feel"));
    assert!(written(Feel::Crushed).contains("feel"));
    assert!(parse_action(r#"Tighten(terminal: "a")"#).is_ok());
    assert!(!hand.attempt.work().exercise().text().contains("ByHand"));
}

/// marking.md: a half-wired hand-in is `not yet`, wherever the making off breaks off.
#[test]
fn a_making_off_that_breaks_off_anywhere_is_not_yet() {
    let lines: Vec<&str> = DOUBLE_STEPS.lines().collect();
    for length in (0..lines.len()).step_by(3) {
        let mut hand = opened(DOUBLE);
        does(&mut hand, &lines[..length].join("\n"));
        does(&mut hand, "HandIn");
        let sheet = judged(&hand);
        assert_eq!(sheet.outcome, Outcome::NotYet, "after {length}: {:?}", causes(&sheet));
    }
}

/// An action at the box, with any figures.
fn any_action() -> impl Strategy<Value = Action> {
    let ends =
        ["feed/brown@box", "feed/blue@box", "feed/cpc@box", "flex/brown@box", "made-1/a@box", "feed/brown@board"];
    let terminals = ["box.L-in", "box.N-out", "box.box.earth", "box.connector.1", "lamp.1"];
    let feels = [Feel::Slack, Feel::Right, Feel::Crushed];
    (0..14_u8, 0..6_usize, 0..5_usize, prop_oneof![0..260_u16, Just(u16::MAX)], 0..3_usize).prop_map(
        move |(kind, end, terminal, mm, feel)| {
            let (end, terminal) = (ends[end].to_owned(), terminals[terminal].to_owned());
            let location = ["box", "lamp", "board"][feel].to_owned();
            match kind {
                0 | 1 => Action::Sheath { cable: ["feed", "flex"][usize::from(kind)].to_owned(), location, mm },
                2 => Action::Cut { end, mm },
                3 => Action::Strip { end, mm, jaw: [75, 100, 150][feel] },
                4 => Action::Strip { end, mm: mm % 30, jaw: mm },
                5 => Action::Fold { end },
                6 => Action::Unfold { end },
                7 => Action::Tug { end },
                8 => Action::Grommet { location },
                9 => Action::Dress { location },
                10 => Action::Tighten { terminal, feel: feels[feel] },
                11 => Action::MakeUp { location, colour: Colour::GreenYellow },
                12 => Action::Undo,
                _ => Action::Connect { end, terminal },
            }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever a hand tries: an answer, never a panic; what was refused changed nothing; the log does it again.
    #[test]
    fn any_hand_gets_an_answer(actions in proptest::collection::vec(any_action(), 1..60)) {
        let mut attempt = opened(DOUBLE).attempt;
        let state = |it: &Attempt| {
            let work = it.work();
            work.ends().map(|it| (work.prep_of(it), work.terminal_of(it))).collect::<Vec<_>>()
        };
        for action in actions {
            let before = state(&attempt);
            let line = action_line(1, &action).expect("a line");
            prop_assert!(line.len() <= 512);
            if attempt.act(action, &Physics).is_err() {
                prop_assert_eq!(before, state(&attempt));
            }
        }
        let sheet = mark(&attempt, Mode::Set);
        prop_assert!(sheet.marks <= sheet.out_of);
        let exercise = Arc::clone(attempt.work().exercise());
        let again = Attempt::replay(exercise, attempt.log().iter().cloned(), &Physics).expect("the same again");
        prop_assert_eq!(state(&attempt), state(&again));
    }
}
