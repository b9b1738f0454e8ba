//! The search behind "why three cores?": against brute force written separately, theorems, the solver and the marking.

mod brute;
mod passage;

use std::collections::BTreeMap;

use switchdrop::{
    attempt::Mode,
    marking::{Weight, mark},
    reason::{Arrival, CoreProof, LampGrid, Question, Unaskable, Unproved, WayClass, count, why},
    wording::{Wording, grid_sentence},
};

use self::brute::{Asked, Counts};

fn counted(question: &Question) -> Counts {
    let counted = count(question, |_| ()).unwrap();
    counted.classes.iter().map(|it| (it.class.word(), (it.ways, it.grouped))).collect()
}

/// Each class of these questions has an example.
fn proved(question: &Question) -> CoreProof {
    let proof = why(question, |_| ()).unwrap_or_else(|it| panic!("{question:?}: {it}"));
    assert!(
        proof.counted.classes.iter().all(|it| it.fits) && proof.examples.iter().all(Option::is_some),
        "{question:?}"
    );
    proof
}

fn asked(question: &Question) -> Asked {
    let mut connectors = [0; 3];
    question.connectors.iter().for_each(|it| connectors[it - 1] += 1);
    let last = question.positions - 1;
    let mut arrives = [""; 3];
    match question.arrival {
        Arrival::FirstPlace => arrives[0] = "LA",
        Arrival::OppositeEnds => (arrives[0], arrives[last]) = ("L", "A"),
        Arrival::NeutralAtBoth => (arrives[0], arrives[last]) = ("LNA", "LNB"),
    }
    let neutral_at_lamp = question.arrival != Arrival::NeutralAtBoth;
    let (places, cores, cpc) = (question.positions, question.cores, question.cpc_as_core);
    Asked { places, cores, connectors, cpc, arrives, neutral_at_lamp }
}

/// Everything that plain enumeration can do in a few seconds.
fn small_questions() -> Vec<Question> {
    let of = Question::of_cores;
    let with = |cores: usize, connectors: &[usize]| Question { connectors: connectors.to_vec(), ..of(cores) };
    let at = |cores: usize, arrival: Arrival| Question { arrival, ..of(cores) };
    let cpc = |question: Question| Question { cpc_as_core: true, ..question };
    let three = |question: Question| Question { positions: 3, ..question };
    let (opposite, both) = (Arrival::OppositeEnds, Arrival::NeutralAtBoth);
    vec![
        of(1),
        of(2),
        of(3),
        of(4),
        with(1, &[1]),
        with(2, &[1, 2]),
        with(2, &[1, 1, 2]),
        with(3, &[2]),
        cpc(of(1)),
        cpc(of(2)),
        cpc(of(3)),
        cpc(with(2, &[1, 2])),
        at(1, opposite),
        at(2, opposite),
        at(3, opposite),
        at(1, both),
        at(2, both),
        Question { connectors: vec![1, 2], ..at(1, both) },
        cpc(at(1, both)),
        three(of(1)),
        three(of(2)),
        three(with(1, &[1, 2, 3])),
        three(cpc(of(1))),
        three(at(1, opposite)),
        three(at(2, opposite)),
        three(at(1, both)),
    ]
}

#[test]
fn every_count_is_that_of_plain_enumeration() {
    for it in small_questions() {
        assert_eq!(counted(&it), asked(&it).count(), "{it:?}");
    }
}

/// 27 million wirings of three places, in every position.
#[test]
#[ignore = "a minute"]
fn three_places_with_three_cores_are_those_of_plain_enumeration() {
    let question = Question { positions: 3, ..Question::of_cores(3) };
    assert_eq!(counted(&question), asked(&question).count());
}

/// Each end into one of its place's terminals, whatever the others do: with two cores 3^4 x 3^2, with three 3^5 x 3^3; of five places
/// with three cores 3^5 x 4^18 x 3^3.
#[test]
fn what_is_tried_is_every_way_and_nothing_twice() {
    for (question, tried) in [
        (Question::of_cores(2), 3_u128.pow(6)),
        (Question::of_cores(3), 3_u128.pow(8)),
        (Question { connectors: vec![1, 2], ..Question::of_cores(3) }, 4_u128.pow(8)),
        (Question { positions: 5, ..Question::of_cores(3) }, 3_u128.pow(8) * 4_u128.pow(18)),
    ] {
        assert_eq!(count(&question, |_| ()).unwrap().tried().ways, tried, "{question:?}");
    }
}

/// How many pairs of terminals (one at either place) three alike cores can take: 11 over 3 of the 9 pairs, with repetition; and the two
/// that arrive 3^2.
#[test]
fn wirings_that_differ_in_more_than_which_core_is_which_are_the_multisets() {
    assert_eq!(count(&Question::of_cores(3), |_| ()).unwrap().tried().grouped, 165 * 9);
    assert_eq!(count(&Question::of_cores(1), |_| ()).unwrap().tried().grouped, 9 * 9);
}

/// The argument of the README: what two wires lead to can only join them or part them, and joining more puts out no lamp.
#[test]
fn with_one_core_or_two_nothing_works_and_with_three_something_does_safely() {
    for positions in 2..=4 {
        // All of them in a middle place too, where the third core has to pass a switch whose four terminals are taken.
        let everywhere: Vec<usize> = (1..=positions).collect();
        for connectors in [vec![], vec![1], everywhere] {
            let found = |cores: usize| {
                let question = Question { positions, connectors: connectors.clone(), ..Question::of_cores(cores) };
                count(&question, |_| ()).unwrap()
            };
            assert_eq!([found(1), found(2)].map(|it| it.works().ways), [0, 0], "{positions}, {connectors:?}");
            let three = found(3);
            assert_eq!(three.works().ways > 0, positions == 2 || connectors.len() > 1, "{positions}, {connectors:?}");
            assert_eq!(three.works(), three.safe());
        }
    }
}

#[test]
fn supply_and_lamp_at_opposite_ends_need_two_strappers_and_no_more() {
    let works = |cores: usize| {
        let question = Question { arrival: Arrival::OppositeEnds, ..Question::of_cores(cores) };
        count(&question, |_| ()).unwrap().works().ways
    };
    assert_eq!(works(1), 0);
    // Line on COM and lamp on COM; either strapper on either of L1 and L2, at both ends. It goes with no other terminal.
    assert_eq!(works(2), 4);
}

#[test]
fn the_earth_wire_as_third_core_works_and_is_never_safe() {
    let question = Question { cpc_as_core: true, ..Question::of_cores(2) };
    let found = count(&question, |_| ()).unwrap();
    // It is one of three cores then, joined in every way in which three cores are.
    assert_eq!(found.works().ways, count(&Question::of_cores(3), |_| ()).unwrap().works().ways);
    assert_eq!(found.safe().ways, 0);
    let connectors = Question { connectors: vec![1, 2], cpc_as_core: true, ..Question::of_cores(3) };
    assert_eq!(count(&connectors, |_| ()).unwrap().safe().ways, 0);
}

#[test]
fn two_cores_with_line_and_neutral_at_both_ends_work_and_are_never_safe() {
    let works = |cores: usize| {
        let question = Question { arrival: Arrival::NeutralAtBoth, ..Question::of_cores(cores) };
        let found = count(&question, |_| ()).unwrap();
        (found.works().ways, found.safe().ways)
    };
    assert!(works(2).0 > 0, "{:?}", works(2));
    assert_eq!(works(2).1, 0);
}

/// C. E. Shannon, A Symbolic Analysis of Relay and Switching Circuits, 1938: every toggle changes the lamp just when it is lit by the
/// parity of the positions. Seen by the solver, on the examples.
#[test]
fn an_example_works_just_when_its_lamp_follows_the_parity_of_its_switches() {
    for question in small_questions() {
        let proof = proved(&question);
        for (class, example) in proof.counted.classes.iter().zip(proof.examples.iter().flatten()) {
            let grid = LampGrid::of(example.work()).unwrap();
            let odd: Vec<bool> = (0..grid.lit().len()).map(|it| it.count_ones() % 2 == 1).collect();
            let even: Vec<bool> = odd.iter().map(|it| !it).collect();
            let follows = [odd, even].iter().any(|it| it == grid.lit());
            // What trips is dark, and may seem to follow it.
            let trips = class.class == WayClass::Trips || class.class == WayClass::ShockHazard;
            assert!(follows == class.class.works() || trips, "{question:?}: {class:?}");
        }
    }
}

#[test]
fn the_marking_has_nothing_critical_against_a_safe_example_and_something_against_one_that_is_not() {
    let mut looked_at = BTreeMap::new();
    for question in small_questions().into_iter().filter(|it| it.connectors.is_empty()) {
        let proof = proved(&question);
        for (class, example) in proof.counted.classes.iter().zip(proof.examples.iter().flatten()) {
            let sheet = mark(example.attempt(), Mode::Practice);
            let critical: Vec<_> = sheet.findings.iter().filter(|it| it.weight == Weight::Critical).collect();
            match class.class {
                WayClass::Safe => assert!(critical.is_empty(), "{question:?}: {critical:#?}"),
                WayClass::Unsafe | WayClass::ShockHazard | WayClass::Trips => {
                    assert!(!critical.is_empty(), "{question:?}: {class:?}");
                }
                _ => continue,
            }
            *looked_at.entry(class.class).or_insert(0) += 1;
        }
    }
    assert_eq!(looked_at.len(), 4, "{looked_at:?}");
}

/// Each of the sixteen, by hand: lit or not with both down, the far one up, the near one up, both up.
#[test]
fn what_two_switches_do_now_is_said_in_a_sentence() {
    let wording = Wording::british();
    let while_near = |works: &str, idle: &str, glow: &str| {
        format!(
            "Now the far switch works it only while the near one is {works}; with the near one {idle} the lamp stays {glow}."
        )
    };
    let [up_off, up_on] = ["off", "on"].map(|it| while_near("up", "down", it));
    let [down_off, down_on] = ["off", "on"].map(|it| while_near("down", "up", it));
    let near = "Now only the near switch works it; the far one does nothing.";
    let far = "Now only the far switch works it; the near one does nothing.";
    let obeys = "The lamp obeys: each press of either switch changes it.";
    for (lit, said) in [
        (0b0000, "Now the lamp is always off."),
        (0b0001, &up_off),
        (0b0010, &up_off),
        (0b0011, near),
        (0b0100, &down_off),
        (0b0101, far),
        (0b0110, obeys),
        (0b0111, &down_on),
        (0b1000, &down_off),
        (0b1001, obeys),
        (0b1010, far),
        (0b1011, &down_on),
        (0b1100, near),
        (0b1101, &up_on),
        (0b1110, &up_on),
        (0b1111, "Now the lamp is always on."),
    ] {
        let at = |bit: u32| lit >> bit & 1 == 1;
        let grid = LampGrid::two([[at(3), at(2)], [at(1), at(0)]]);
        assert_eq!(grid_sentence(&wording, &grid).as_deref(), Some(said), "{lit:04b}");
    }
    let three = proved(&Question { positions: 3, ..Question::of_cores(1) });
    assert_eq!(grid_sentence(&wording, &LampGrid::of(three.examples[0].as_ref().unwrap().work()).unwrap()), None);
}

/// In the examples the rocker of a switch is down in position 0, as the sentences have it.
#[test]
fn a_two_way_switch_is_down_in_its_first_position() {
    let proof = proved(&Question::of_cores(1));
    let exercise = proof.examples[0].as_ref().unwrap().work().exercise();
    assert!(exercise.switches.iter().all(|it| it.way.is_down(0) && !it.way.is_down(1)));
}

/// Always lit, nothing short, no bare copper live: COM stays empty, line and neutral are in L1 and L2, the earth wire with the neutral. With k of
/// the four cores on the line, one end or the other then has five in a terminal that takes four, whichever way round the lamp is.
#[test]
fn a_class_that_only_overfull_terminals_have_is_counted_and_not_carried_out() {
    let question = Question { cpc_as_core: true, arrival: Arrival::NeutralAtBoth, ..Question::of_cores(4) };
    let proof = why(&question, |_| ()).unwrap();
    let without: Vec<WayClass> =
        proof.counted.classes.iter().zip(&proof.examples).filter(|it| it.1.is_none()).map(|it| it.0.class).collect();
    assert_eq!(without, [WayClass::AlwaysOn]);
    assert!(proof.counted.classes.iter().all(|it| it.ways > 0));
}

#[test]
fn five_places_with_three_cores_are_counted() {
    let question = Question { positions: 5, connectors: vec![2, 3, 4], ..Question::of_cores(3) };
    let mut heard = Vec::new();
    let found = count(&question, |it| heard.push(it)).unwrap();
    assert_eq!(heard, [4, 3, 2, 1, 0]);
    assert!(found.works().ways > 0 && found.works() == found.safe());
}

#[test]
fn a_question_that_makes_no_sense_is_not_answered() {
    let of = |change: &dyn Fn(&mut Question)| {
        let mut question = Question::of_cores(3);
        change(&mut question);
        count(&question, |_| ()).unwrap_err()
    };
    assert_eq!(of(&|it| it.cores = 0), Unaskable::Cores(0));
    assert_eq!(of(&|it| it.cores = 5), Unaskable::Cores(5));
    assert_eq!(of(&|it| it.positions = 1), Unaskable::Positions(1));
    assert_eq!(of(&|it| it.positions = 7), Unaskable::Positions(7));
    assert_eq!(of(&|it| it.connectors = vec![1, 3]), Unaskable::Place(3));
    assert_eq!(of(&|it| it.connectors = vec![0]), Unaskable::Place(0));
    assert_eq!(of(&|it| it.connectors = vec![2; 5]), Unaskable::Connectors(5));
    // More steps than the search takes.
    let deep = Question { positions: 6, connectors: vec![2, 3, 4, 5], ..Question::of_cores(4) };
    assert_eq!(count(&deep, |_| ()).unwrap_err(), Unaskable::TooMany);
    let wide = Question { positions: 3, connectors: vec![2; 4], cpc_as_core: true, ..Question::of_cores(4) };
    assert_eq!(why(&wide, |_| ()).unwrap_err(), Unproved::Unaskable(Unaskable::TooMany));
}
