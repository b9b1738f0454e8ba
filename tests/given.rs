//! Wiring that is given: the learner connects nothing and says what it does. Truth tables by hand, and for every draw by disjoint sets that are
//! not ours.

use std::sync::Arc;

use petgraph::unionfind::UnionFind;
use switchdrop::{
    attempt::{ActKind, Attempt, Mode, settings_to_predict},
    exercise::{Exercise, ProblemCode, Seed, TerminalId, draw_each_value, read},
    marking::{Answers, Code, Outcome, Until, answers},
    work::{Action, Check},
};

use crate::hand::{Hand, exercise, marked, scenario};

const GIVEN: [&str; 3] = ["what-is-live", "table-three-core", "table-strappers"];

/// A setting, the lamps lit in it and what is live.
type Row = (&'static [u8], &'static [&'static str], &'static [&'static str]);

/// Each as it is written, with nothing dealt out. Worked out on paper: the line followed from the board through one switch after the other.
const TABLES: [&[Row]; 3] = [
    // The feed's brown and the drop's brown meet in loop; the drop's blue comes back to the flex. The neutrals are never live.
    &[
        (&[0], &[], &["feed/brown", "drop/brown"]),
        (&[1], &["lamp"], &["feed/brown", "drop/brown", "drop/blue", "flex/brown"]),
    ],
    // The feed is on black, by L1, the lamp on grey, by L2; brown joins COM to COM, and each rocker up joins its COM to L1.
    &[
        (&[0, 0], &[], &["link/black", "link/brown"]),
        (&[0, 1], &["lamp"], &["link/black", "link/brown", "link/grey", "light/brown"]),
        (&[1, 0], &["lamp"], &["link/black", "link/brown", "link/grey", "light/brown"]),
        (&[1, 1], &[], &["link/black"]),
    ],
    // The near rocker puts the line on brown or on black; the far one takes the lamp to brown or to black. Grey is the neutral.
    &[
        (&[0, 0], &["lamp"], &["feed/brown", "link/brown", "light/brown"]),
        (&[0, 1], &[], &["feed/brown", "link/brown"]),
        (&[1, 0], &[], &["feed/brown", "link/black"]),
        (&[1, 1], &["lamp"], &["feed/brown", "link/black", "light/brown"]),
    ],
];

fn as_written(id: &str) -> Arc<Exercise> {
    Arc::new(read(scenario(id), Seed(0)).unwrap_or_else(|it| panic!("{it:#?}")))
}

fn words(of: &[&str]) -> Vec<String> {
    of.iter().map(|it| (*it).to_owned()).collect()
}

fn says(hand: &mut Hand, table: &[Row]) {
    for (positions, lit, live) in table {
        hand.does(Action::Predict { positions: positions.to_vec(), lit: words(lit), live: words(live) });
    }
}

fn finishes(hand: &mut Hand) {
    hand.closes_up();
    hand.does(Action::BringSupply);
    hand.works_switches();
    hand.does(Action::HandIn);
}

#[test]
fn a_table_worked_out_by_hand_earns_every_mark() {
    for (id, table) in GIVEN.iter().zip(TABLES) {
        let mut hand = Hand::new(as_written(id));
        says(&mut hand, table);
        finishes(&mut hand);
        let sheet = marked(&hand.attempt);
        assert_eq!(
            (sheet.outcome, sheet.marks, sheet.out_of),
            (Outcome::Pass, 100, 100),
            "{id}: {:#?}",
            sheet.findings
        );
    }
}

/// One lamp or one core too many or too few in one setting costs that setting's share, and nothing else.
#[test]
fn each_thing_that_is_asked_counts() {
    for (id, table) in GIVEN.iter().zip(TABLES) {
        let share = 70_u32.div_ceil(table.len() as u32);
        let exercise = as_written(id);
        let cores: Vec<String> = exercise.predict.iter().map(|it| exercise.conductors[*it].address.clone()).collect();
        for wrong in ["lamp".to_owned()].iter().chain(&cores) {
            let mut hand = Hand::new(Arc::clone(&exercise));
            for (number, (positions, lit, live)) in table.iter().enumerate() {
                let (mut lit, mut live) = (words(lit), words(live));
                let said = if wrong == "lamp" { &mut lit } else { &mut live };
                match said.iter().position(|it| it == wrong) {
                    _ if number > 0 => {}
                    Some(at) => drop(said.remove(at)),
                    None => said.push(wrong.clone()),
                }
                hand.does(Action::Predict { positions: positions.to_vec(), lit, live });
            }
            finishes(&mut hand);
            let sheet = marked(&hand.attempt);
            assert_eq!(sheet.causes(), [("prediction-wrong", "prediction 1")], "{id}: {wrong}");
            assert_eq!(sheet.marks, 100 - share, "{id}: {wrong}");
        }
    }
}

/// What is live and what is lit by what is joined alone: conductors, blocks, contacts and nothing of the solver's.
fn table(exercise: &Exercise) -> Vec<(Vec<u8>, Vec<String>, Vec<String>)> {
    let node = |end| exercise.start.get(end).copied().flatten().expect("it is connected").terminal.index();
    let ends = |of: usize| [2 * of, 2 * of + 1].map(|it| exercise.start.id(it).unwrap());
    let device = exercise.devices.iter().next().unwrap();
    let of = |setting: &Vec<u8>| {
        let mut joined = UnionFind::<usize>::new(exercise.terminals.len());
        for index in 0..exercise.conductors.len() {
            let [a, b] = ends(index);
            // A flex has no protective conductor, and the cpcs have nothing to do with it.
            if !exercise.conductors[index].colour.is_protective() {
                joined.union(node(a), node(b));
            }
        }
        for (it, position) in exercise.switches.iter().zip(setting) {
            for [a, b] in it.closed(usize::from(*position)) {
                joined.union(a.index(), b.index());
            }
        }
        let is_line = |it: usize| joined.equiv(it, device.line.index());
        let lit = exercise.lamps.iter().filter(|it| {
            let [a, b] = it.contacts.map(TerminalId::index);
            let back = |it: usize| joined.equiv(it, device.neutral.index());
            is_line(a) && back(b) || is_line(b) && back(a)
        });
        let live = exercise.predict.iter().filter(|it| is_line(node(ends(**it)[0])));
        let live = live.map(|it| exercise.conductors[*it].address.clone()).collect();
        (setting.clone(), lit.map(|it| it.address.clone()).collect(), live)
    };
    settings_to_predict(exercise).iter().map(of).collect()
}

#[test]
fn every_draw_does_what_is_joined_and_the_hand_earns_every_mark() {
    for id in GIVEN {
        let mut different = std::collections::BTreeSet::new();
        for seed in 0..40 {
            let mut hand = Hand::new(exercise(id, seed));
            let rows = table(hand.attempt.work().exercise());
            for (positions, lit, live) in rows.clone() {
                hand.does(Action::Predict { positions, lit, live });
            }
            different.insert(rows);
            finishes(&mut hand);
            let sheet = marked(&hand.attempt);
            assert_eq!((sheet.marks, sheet.findings.len()), (100, 0), "{id} {seed}: {:#?}", sheet.findings);
        }
        assert!(different.len() >= 8, "{id}: {} tables", different.len());
    }
}

/// The supply comes after the answers: brought before the last of them it is stopped, and what happens is shown by nothing until it is there.
#[test]
fn the_supply_waits_for_the_answers() {
    let mut hand = Hand::new(as_written("what-is-live"));
    says(&mut hand, &TABLES[0][..1]);
    hand.closes_up();
    let stopped = hand.attempt.act(Action::BringSupply).unwrap().stopped();
    assert_eq!(stopped, Some(ActKind::PowerOnUnchecked));
    assert!(hand.attempt.tally().energised.is_empty());
    says(&mut hand, &TABLES[0][1..]);
    hand.does(Action::BringSupply);
    assert_eq!(hand.attempt.tally().energised.len(), 1);
    hand.works_switches();
    let withheld = answers(&hand.attempt, Mode::Set, None, None, false);
    assert_eq!(withheld, Answers::Withheld(Until::HandIn));
    hand.does(Action::HandIn);
    assert_eq!(answers(&hand.attempt, Mode::Set, None, None, false), Answers::Shown);
    assert_eq!(marked(&hand.attempt).causes(), [("power-on-unchecked", "board")]);
}

/// Taken apart first, the wiring would give easy answers: what is asked is what it does as it is found.
#[test]
fn what_is_asked_is_asked_of_the_wiring_as_it_was_found() {
    let mut hand = Hand::new(as_written("what-is-live"));
    hand.does(Action::RemoveCover { location: "rose".to_owned() });
    hand.does(Action::Disconnect { end: "feed/brown@rose".to_owned() });
    says(&mut hand, TABLES[0]);
    hand.does(Action::HandIn);
    let wrong =
        |hand: &Hand| marked(&hand.attempt).findings.iter().filter(|it| it.code == Code::PredictionWrong).count();
    assert_eq!(wrong(&hand), 0);
    let mut dark = Hand::new(as_written("what-is-live"));
    dark.does(Action::RemoveCover { location: "rose".to_owned() });
    dark.does(Action::Disconnect { end: "feed/brown@rose".to_owned() });
    // So it would be now: the line ends in the air at the rose.
    says(&mut dark, &[(&[0], &[], &["feed/brown"]), (&[1], &[], &["feed/brown"])]);
    dark.does(Action::HandIn);
    assert_eq!(wrong(&dark), 2);
}

/// With nothing said, the other stages done.
#[test]
fn without_answers_all_of_them_are_lost() {
    let mut attempt = Attempt::new(as_written("table-strappers"));
    for check in [Check::NobodyAtWork, Check::PeopleTold] {
        attempt.act(Action::Confirm { check }).unwrap();
    }
    attempt.act(Action::HandIn).unwrap();
    let sheet = marked(&attempt);
    let prediction = sheet.criteria.iter().find(|it| it.out_of == 70).unwrap();
    assert_eq!((prediction.marks, sheet.outcome), (0, Outcome::NotYet));
}

fn codes(text: &str) -> Vec<(ProblemCode, String)> {
    let problems = read(text, Seed(0)).map_or_else(|it| it.into_iter().collect(), |_| Vec::new());
    problems.into_iter().map(|it| (it.code, text[it.span].to_owned())).collect()
}

/// In a house that is on the lamps would give the answers away. One free end, and it is work like any other.
#[test]
fn given_wiring_stands_on_a_training_board() {
    let house = scenario("what-is-live").replace("    supply: Bench,\n", "");
    assert_eq!(codes(&house), [(ProblemCode::GivenOnSupply, "Prediction".to_owned())]);
    let free =
        house.replace("        Connected(end: \"drop/1@switch\", at: \"switch.COM\", mark: Sleeve(Brown)),\n", "");
    let free = free.replace("        Ends(among: [\"drop/1@switch\", \"drop/2@switch\"]),\n", "");
    assert_eq!(codes(&free), []);
}

/// Ends that are dealt out are two to four of one place, each connected, each once; every way of dealing them out is drawn by `check`.
#[test]
fn ends_that_are_dealt_out() {
    let text = scenario("table-strappers");
    let with = |to: &str| text.replace(r#"Ends(among: ["link/1@near", "link/2@near"])"#, to);
    let bad = |to: &str, at: &str| {
        assert_eq!(codes(&with(to)), [(ProblemCode::BadVariation, format!("\"{at}\""))], "{to}");
    };
    bad(r#"Ends(among: ["link/1@near"])"#, "link/1@near");
    bad(r#"Ends(among: ["link/1@near", "light/2@far"])"#, "light/2@far");
    let cores = ["feed/1", "feed/2", "link/1", "link/2", "link/3"].map(|it| format!("\"{it}@near\""));
    assert_eq!(codes(&with(&format!("Ends(among: [{}])", cores[..4].join(", ")))), []);
    bad(&format!("Ends(among: [{}])", cores.join(", ")), "feed/1@near");
    assert_eq!(codes(&with("Ends(among: [\"link/1@near\", \"link/9@near\"])"))[0].0, ProblemCode::UnknownEnd);
    let twice = codes(&with(r#"Ends(among: ["link/1@near", "link/1@near"])"#));
    assert_eq!(twice[0].0, ProblemCode::Duplicate);
    // Three ends stand in six orders, each place with its mark in each; the kinds of cable are alike in all of these.
    let three = with(r#"Ends(among: ["link/1@near", "link/2@near", "link/3@near"])"#);
    let drawn = draw_each_value(&three, Seed(0)).unwrap();
    let mut orders = std::collections::BTreeSet::new();
    for exercise in &drawn[..6] {
        let of_link =
            exercise.conductors.iter().filter(|it| it.address.starts_with("link/") && !it.colour.is_protective());
        let stands: Vec<_> = of_link
            .map(|it| {
                let start = exercise.start[exercise.end(&format!("{}@near", it.address)).unwrap()].unwrap();
                (exercise.terminals[start.terminal].address.clone(), format!("{:?}", start.mark.unwrap()))
            })
            .collect();
        let mut places = stands.clone();
        places.sort();
        let wanted = [("near.L1", "Sleeve(Brown)"), ("near.L2", "Sleeve(Brown)"), ("near.connector.1", "Sleeve(Blue)")];
        assert_eq!(places, wanted.map(|(terminal, mark)| (terminal.to_owned(), mark.to_owned())));
        orders.insert(stands);
    }
    assert_eq!(orders.len(), 6, "{orders:?}");
}
