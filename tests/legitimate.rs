//! Wirings that do the job safely in another way than the models do: none costs anything (marking.md, "Never an accusation").

use std::sync::Arc;

use switchdrop::{
    attempt::Attempt,
    exercise::{Seed, read},
    marking::{Code, Criterion, Outcome, Unmet, Weight},
    trade::colour::{Colour, Letter, Mark},
    work::{Action, Edit},
};

use crate::{
    hand::{
        Cores, Form, Hand, LIKE_TO_LIKE, Marked, exercise, marked, one_way_model, scenario, two_way, two_way_model,
    },
    installations::{BATHROOM, BATHROOM_WIRED, GRANARY, GRANARY_WIRED, wired},
    slips::Row,
};

fn sheet(attempt: &Attempt) -> Marked {
    marked(attempt)
}

/// Every wiring that the tests have, by what is unusual about it.
pub fn alternatives() -> Vec<(String, Marked)> {
    let mut all: Vec<(String, Marked)> = rose_terminals();
    let mut add = |name: &str, attempt: &Attempt| all.push((name.to_owned(), sheet(attempt)));
    add("feed down the blue core of a drop and back by the brown, marked", &drop_exchanged("Sleeve(Brown)").attempt);
    add(
        "a brown sleeve on brown",
        &identified(&one_way_model(), &[("drop/brown@switch", Mark::Sleeve(Colour::Brown))]),
    );
    for mark in [Mark::Tape(Colour::Brown), Mark::Letter(Letter::L)] {
        let ends = ["drop/blue@rose", "drop/blue@switch"].map(|it| (it, mark));
        add(&format!("line marked by {mark:?}"), &identified(&one_way_model(), &ends));
    }
    for mark in [Mark::Tape(Colour::Blue), Mark::Letter(Letter::N)] {
        let ends = ["one/grey@west", "one/grey@middle", "two/grey@middle", "two/grey@east"].map(|it| (it, mark));
        let granary = Hand { attempt: wired(GRANARY, GRANARY_WIRED) };
        add(&format!("a neutral in a three-core marked by {mark:?}"), &identified(&granary, &ends));
    }
    add("the neutral in the black core of a three-core", &neutral_in_black());
    let crossed = two_way(Form::Strappers, &Cores { crossed: true, ..LIKE_TO_LIKE });
    add("strappers crossed", &crossed.attempt);
    add("two twin-and-earths for a three-core", &two_twins().attempt);
    add("cpc to the box, a tail to the plate", &two_way_model().attempt);
    add("cpc to the plate, a tail to the box", &moved(&two_way_model(), &[("link/cpc@clay", "clay.plate.earth")]));
    add("cpcs of a plastic box in a connector", &cpcs_in_a_connector("isolator.connector.1"));
    let by_the_plate = "store-flex/brown@store store.L-out\nstore-flex/blue@store store.N-in";
    add("a double-pole switch used in the line alone", &wired(BATHROOM, &format!("{BATHROOM_WIRED}\n{by_the_plate}")));
    let flex = [("flex/brown@lamp", "lamp.2"), ("flex/blue@lamp", "lamp.1")];
    add("a bayonet lampholder fed at its other contact, colour to job", &relit(&flex));
    all
}

/// Whatever a rose's terminals are called, what is joined in them is what counts: each of the other five ways to use the three.
fn rose_terminals() -> Vec<(String, Marked)> {
    let names = ["loop", "neutral", "switched"];
    let orders = [[0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]];
    orders
        .into_iter()
        .map(|order| {
            let [line, neutral, switched] = order.map(|it| names[it]);
            let hand = one_way(
                &format!(
                    "feed/brown@rose rose.{line}
                     onward/brown@rose rose.{line}
                     drop/brown@rose rose.{line}
                     feed/blue@rose rose.{neutral}
                     onward/blue@rose rose.{neutral}
                     flex/blue@rose rose.{neutral}
                     drop/blue@rose Sleeve(Brown) rose.{switched}
                     flex/brown@rose rose.{switched}
                     drop/brown@switch switch.COM
                     drop/blue@switch Sleeve(Brown) switch.L1"
                ),
                "drop/brown",
            );
            (format!("line in {line}, neutral in {neutral}, switched line in {switched}"), sheet(&hand.attempt))
        })
        .collect()
}

/// The one-way exercise; `fed` is the core of the drop that is live with the switch off.
fn one_way(wiring: &str, fed: &'static str) -> Hand {
    let mut hand = Hand::new(exercise("one-way-rose", 4));
    hand.isolates();
    hand.wires(wiring);
    hand.wires(
        "feed/cpc@rose Sleeve(GreenYellow) rose.earth
         onward/cpc@rose Sleeve(GreenYellow) rose.earth
         drop/cpc@rose Sleeve(GreenYellow) rose.earth
         drop/cpc@switch Sleeve(GreenYellow) switch.box.earth",
    );
    hand.reads("lamp", "feed/brown@rose", "flex/brown@rose");
    hand.predicts(|at| {
        if at[0] == 1 { (vec!["lamp"], vec!["drop/brown", "drop/blue", "flex/brown"]) } else { (vec![], vec![fed]) }
    });
    hand.finishes();
    hand
}

/// Feed and switched line exchanged in the drop, its blue core marked so.
fn drop_exchanged(mark: &str) -> Hand {
    one_way(
        &format!(
            "feed/brown@rose rose.loop
             onward/brown@rose rose.loop
             drop/blue@rose {mark} rose.loop
             feed/blue@rose rose.neutral
             onward/blue@rose rose.neutral
             flex/blue@rose rose.neutral
             drop/brown@rose rose.switched
             flex/brown@rose rose.switched
             drop/blue@switch {mark} switch.COM
             drop/brown@switch switch.L1"
        ),
        "drop/blue",
    )
}

fn identified(hand: &Hand, ends: &[(&str, Mark)]) -> Attempt {
    let edit = |(end, mark): &(&str, Mark)| Edit::Mark(hand.attempt.work().end(end).unwrap(), Some(*mark));
    hand.attempt.supposing(&ends.iter().map(edit).collect::<Vec<_>>())
}

fn moved(hand: &Hand, ends: &[(&str, &str)]) -> Attempt {
    let work = hand.attempt.work();
    let edit = |(end, to): &(&str, &str)| Edit::Move(work.end(end).unwrap(), Some(work.terminal(to).unwrap()));
    hand.attempt.supposing(&ends.iter().map(edit).collect::<Vec<_>>())
}

fn neutral_in_black() -> Attempt {
    let grey = GRANARY_WIRED.replace("grey", "GREY").replace("black", "grey").replace("GREY", "black");
    wired(GRANARY, &grey)
}

/// The holder of a loop-in light whose contacts are the other way round at the lamp, where a bayonet has no polarity, while each
/// core of the flex still does the job of its colour.
fn relit(ends: &[(&str, &str)]) -> Attempt {
    moved(&two_way_model(), ends)
}

fn cpcs_in_a_connector(to: &str) -> Attempt {
    let scenario = BATHROOM.replace("ways: [FanIsolator])", "ways: [FanIsolator], connectors: Some(1))");
    assert_ne!(scenario, BATHROOM);
    wired(&scenario, &format!("{BATHROOM_WIRED}\nto-fan/cpc@isolator {to}\nfan-tail/cpc@isolator {to}"))
}

/// Two cables run together between the boxes of the passage: three of their four cores do it, the fourth is a spare in a
/// connector at both ends.
fn two_twins() -> Hand {
    let three = "Cable(id: \"link\", name: \"three-core\", kind: ThreeCoreEarth, mm2: 1.0, metres: 15.0, from: \"kiln\", to: \"clay\"),";
    let text = scenario("two-way-passage");
    assert!(text.contains(three));
    let twin = |id: &str| three.replace("link", id).replace("three-core", id).replace("ThreeCoreEarth", "TwinEarth");
    let text = text.replace(three, &format!("{}\n{}", twin("link"), twin("run"))).replace(
        r#"["link/brown", "link/black", "link/grey", "light/brown"]"#,
        r#"["link/brown", "link/blue", "run/brown", "light/brown"]"#,
    );
    let mut hand = Hand::new(Arc::new(read(&text, Seed(4)).unwrap_or_else(|it| panic!("{it:#?}"))));
    hand.isolates();
    hand.does(Action::Disconnect { end: "feed/brown@kiln".to_owned() });
    hand.wires(
        "feed/brown@kiln kiln.1.L2
         link/brown@kiln kiln.1.COM
         link/blue@kiln Sleeve(Brown) kiln.1.L1
         run/brown@kiln kiln.1.L2
         run/blue@kiln kiln.connector.2
         link/cpc@kiln Sleeve(GreenYellow) kiln.box.earth
         run/cpc@kiln Sleeve(GreenYellow) kiln.box.earth
         link/brown@clay clay.COM
         link/blue@clay Sleeve(Brown) clay.L1
         run/brown@clay clay.L2
         run/blue@clay clay.connector.1
         link/cpc@clay Sleeve(GreenYellow) clay.box.earth
         run/cpc@clay Sleeve(GreenYellow) clay.box.earth",
    );
    hand.reads("lamp", "feed/brown@kiln", "light/brown@kiln");
    // Position 0 joins COM to L1, and L2 is where the feed comes in at the kiln door.
    hand.predicts(|at| match (at[0], at[2]) {
        (0, 0) => (vec![], vec!["run/brown"]),
        (1, 1) => (vec![], vec!["link/brown", "run/brown"]),
        _ => (vec!["lamp"], vec!["link/brown", "link/blue", "run/brown", "light/brown"]),
    });
    hand.finishes();
    hand
}

pub fn rows() -> Vec<Row> {
    let mut row = Row::new("done in another way");
    for (name, sheet) in alternatives() {
        row.judges(&name, None, &sheet);
        if !sheet.findings.is_empty() || sheet.outcome != Outcome::Pass {
            row.wrong.push(format!("{name}: {:?}, {:#?}", sheet.outcome, sheet.findings));
        }
    }
    vec![row]
}

#[test]
fn only_an_unmarked_blue_on_line_loses_marks_and_under_identification() {
    let sheet = sheet(&drop_exchanged("").attempt);
    let found: Vec<_> = sheet.placed(|_| true).map(|(it, at)| (it.code, at, it.weight)).collect();
    let missing = |at| (Code::MarkMissing, at, Weight::Major);
    assert_eq!(found, [missing("drop/blue@rose"), missing("drop/blue@switch")]);
    // Both ends of it are 6 of 10 marks, and a pass needs half of identification; nothing else is held against it.
    assert_eq!((sheet.outcome, &sheet.unmet[..]), (Outcome::NotYet, &[Unmet::Half(Criterion::Identification)][..]));
}

/// A plastic box: the cpc folded back loose fails even there, and so does one in a connector by itself.
#[test]
fn continuity_is_kept_through_a_plastic_box() {
    for (lines, at) in [
        ("to-fan/cpc@isolator loose", "to-fan/cpc@isolator"),
        ("fan-tail/cpc@isolator isolator.connector.1", "fan-tail/cpc@isolator"),
    ] {
        let scenario = BATHROOM.replace("ways: [FanIsolator])", "ways: [FanIsolator], connectors: Some(1))");
        let sheet = sheet(&wired(&scenario, &format!("{BATHROOM_WIRED}\n{lines}")));
        let open = sheet.placed(|it| it.code == Code::CpcOpen && it.lost > 0);
        assert_eq!(open.map(|it| it.1).collect::<Vec<_>>(), [at], "{:#?}", sheet.findings);
    }
}

/// The two cores of a pendant's flex exchanged at the rose: a bayonet lamp lights all the same, and what is wrong is the colours.
#[test]
fn a_bayonet_flex_exchanged_is_identification_only() {
    let exchanged =
        moved(&one_way_model(), &[("flex/brown@rose", "rose.neutral"), ("flex/blue@rose", "rose.switched")]);
    let sheet = sheet(&exchanged);
    assert!(sheet.findings.iter().all(|it| it.code.criterion() == Criterion::Identification), "{:#?}", sheet.findings);
    assert_eq!(sheet.findings.iter().filter(|it| it.lost > 0).count(), 1, "{:#?}", sheet.findings);
}
