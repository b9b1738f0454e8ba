//! Bad input to the network builder and the solver: an answer or a typed error, never a panic, a hang or a NaN.
//!
//! A fuzzer inside the tree: `cargo fuzz` needs another compiler than the project's. Random wirings that no hand could make
//! and random conductances, with fixed numbers of cases; `PROPTEST_CASES` asks for more.

use std::sync::Arc;

use proptest::{collection::vec, prelude::*, sample::Index};
use switchdrop::{
    circuit::{Conditions, Network, deck, ohms_between, settle, solve, survey, volts_between},
    exercise::{EndId, Exercise, ProblemCode, Seed, TerminalId, read},
    work::{Edit, Point, Work},
};

use crate::{
    hand::{exercise, scenario},
    random::cases,
    witness::wirings::{Dice, Wirings, passage},
};

/// A conductance from nothing a thing could have to nothing a thing could have, with some that are no conductance among them.
fn siemens() -> impl Strategy<Value = f64> {
    prop_oneof![
        8 => (-30.0..30.0_f64).prop_map(|it| 10.0_f64.powf(it)),
        1 => prop::sample::select(vec![0.0, -0.0, -1.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY]),
    ]
}

/// What is done to a work: which change, and with what.
type Change = (u8, [Index; 3]);

fn points(work: &Work) -> Vec<Point> {
    let terminals = work.exercise().terminals.ids().map(Point::Terminal);
    terminals.chain(work.ends().map(|it| work.point_of(it))).collect()
}

/// Any end anywhere, across the house if need be; tails from anywhere to anywhere; everything slack.
fn changed(exercise: &Arc<Exercise>, changes: &[Change]) -> Work {
    let mut work = Work::new(Arc::clone(exercise));
    for (kind, [a, b, c]) in changes {
        let ends: Vec<EndId> = work.ends().collect();
        let terminal = |it: &Index| exercise.terminals.id(it.index(exercise.terminals.len())).unwrap();
        work.edit(&match kind % 8 {
            0 => Edit::Slacken(terminal(a)),
            1 => Edit::Tail(terminal(a), terminal(b)),
            2 => Edit::Move(*a.get(&ends), None),
            // Many in one.
            3 => Edit::Move(*a.get(&ends), exercise.terminals.id(c.index(3))),
            _ => Edit::Move(*a.get(&ends), Some(terminal(b))),
        });
    }
    work
}

fn exercises() -> impl Strategy<Value = Arc<Exercise>> {
    (0..3_u8, 0..50_u64).prop_map(|(which, seed)| match which {
        0 => passage("Tt"),
        1 => exercise("one-way-rose", seed),
        _ => exercise("two-way-passage", seed),
    })
}

/// Every figure that a network gives.
fn all_finite(work: &Work, conditions: &Conditions) -> Result<(), TestCaseError> {
    let network = Network::new(work, conditions);
    let solution = network.solve();
    for branch in &network.branches {
        prop_assert!(branch.ohms > 0.0 && branch.ohms.is_finite(), "{branch:?}");
        let (volts, amps) = (branch.volts(&solution), branch.amps(&solution));
        prop_assert!(volts.is_finite() && amps.is_finite(), "{branch:?}: {volts} V, {amps} A");
    }
    for node in 0..network.node_count() {
        prop_assert!(solution.volts(node).is_finite());
        prop_assert!(!solution.ohms_behind(node).is_nan());
    }
    Ok(())
}

proptest! {
    #![proptest_config(cases(2000))]

    #[test]
    fn any_branches_are_solved(
        count in 2..12_usize,
        held in any::<[Index; 2]>(),
        volts in prop::sample::select(vec![0.0, 230.0, -230.0, 1e9]),
        branches in vec((0..16_usize, 0..16_usize, siemens()), 0..40),
    ) {
        let held = held.map(|it| it.index(count));
        let solution = solve(count, held, volts, branches.iter().copied());
        for node in 0..count {
            prop_assert!(solution.volts(node).is_finite(), "{}", solution.volts(node));
            prop_assert!(solution.ohms_behind(node) >= 0.0, "{}", solution.ohms_behind(node));
        }
        for (a, b, _) in branches.iter().filter(|it| it.0 < count && it.1 < count) {
            prop_assert!(solution.across(*a, *b).is_finite());
        }
    }
}

proptest! {
    #![proptest_config(cases(400))]

    #[test]
    fn any_wiring_is_built_and_solved(
        exercise in exercises(),
        changes in vec((any::<u8>(), any::<[Index; 3]>()), 0..60),
        positions in vec(any::<u8>(), 0..5),
        on in vec(any::<bool>(), 0..4),
        lamps_in in vec(any::<bool>(), 0..4),
        fault in prop::option::of(any::<[Index; 2]>()),
        celsius in -40.0..160.0_f64,
    ) {
        let work = changed(&exercise, &changes);
        let points = points(&work);
        let fault = fault.map(|it| (*it[0].get(&points), *it[1].get(&points)));
        // Lists of any length: what is missing is off, out and in position 0; what is too much is passed over.
        let conditions = Conditions { positions, on, lamps_in, all_covered: false, celsius, fault };
        all_finite(&work, &conditions)?;
        let settled = settle(&work, conditions.clone());
        prop_assert!(settled.opened.len() <= exercise.devices.len());
        prop_assert!(deck(&work, &[conditions]).text.ends_with(".end\n"));
        for pair in points.windows(2).step_by(5) {
            prop_assert!(volts_between(&work, pair[0], pair[1]).is_finite());
            prop_assert!(ohms_between(&work, pair[0], pair[1]) >= 0.0);
        }
    }
}

fn codes(text: &str) -> Vec<ProblemCode> {
    read(text, Seed(0)).err().into_iter().flatten().map(|it| it.code).collect()
}

#[test]
fn lengths_and_ratings_that_nothing_has_are_refused() {
    let text = scenario("one-way-rose");
    for number in ["0.0", "-3.0", "1e300", "inf", "NaN", "1e-300", "0.0999"] {
        let short = text.replacen("metres: 9.0", &format!("metres: {number}"), 1);
        assert_ne!(short, text);
        assert_eq!(codes(&short), [ProblemCode::BadNumber], "{number} metres");
    }
    for number in ["0.0", "-40.0", "1e300", "inf", "NaN"] {
        let bright = text.replacen("watts: 40.0", &format!("watts: {number}"), 1);
        assert_ne!(bright, text);
        assert_eq!(codes(&bright), [ProblemCode::BadNumber], "{number} watts");
    }
}

#[test]
fn a_number_that_nothing_has_is_said_in_one_line() {
    let text = scenario("one-way-rose");
    for (number, said) in [("1e300", "1e300"), ("-1e308", "-1e308"), ("1e-300", "1e-300"), ("0.0999", "0.0999")] {
        let short = text.replacen("metres: 9.0", &format!("metres: {number}"), 1);
        let problems = read(&short, Seed(0)).expect_err("a length that nothing has");
        assert_eq!(problems.iter().map(|it| it.found.as_str()).collect::<Vec<_>>(), [said]);
    }
}

/// A board and a box, this number of cables between them, and what else is asked for.
fn board_and_box(devices: &str, cables: usize) -> String {
    let cables: String = (1..=cables)
        .map(|it| {
            format!(
                "Cable(id: \"c{it}\", name: \"c\", kind: ThreeCoreEarth, mm2: 1.0, metres: 1.0, from: \"board\", to: \"box\"),"
            )
        })
        .collect();
    format!(
        "Scenario(format: 1, id: \"made\", title: \"t\", place: \"p\", brief: \"b\", edition: A2of2022, earthing: TnCS,
         locations: [
            Location(id: \"board\", name: \"board\", at: (0, 0), has: Board(devices: [{devices}])),
            Location(id: \"box\", name: \"box\", at: (0, 0), has: Box(body: Metal, lugs: Some(OneFixed), plate: Plastic,
                ways: [TwoWay], connectors: Some(4))),
            Location(id: \"far\", name: \"far\", at: (0, 0), has: Luminaire(holder: Bayonet, lamp: Led, watts: 8.0)),
         ],
         cables: [{cables}], controls: [Control(lamp: \"far\", switches: [\"box\"])], stages: [])"
    )
}

/// No device at the board, and a luminaire that no cable reaches: an answer or a problem, and if an answer, nothing lit.
#[test]
fn a_board_without_a_device_and_a_lamp_on_an_island_are_answered() {
    for devices in ["", "Device(id: \"1\", kind: Rcbo6B30, circuit: \"lights\")"] {
        match read(&board_and_box(devices, 3), Seed(0)) {
            Err(problems) => assert!(devices.is_empty() && !problems.is_empty(), "{problems:?}"),
            Ok(exercise) => {
                let survey = survey(&Work::new(Arc::new(exercise)));
                assert_eq!(survey.rows.len(), 2);
                assert!(survey.rows.iter().all(|it| it.lamps[0].volts.abs() < 1e-9 && it.opened.is_empty()));
            }
        }
    }
}

/// As many conductors as the limits let into one box, a thousand: each end at the box in one of its terminals, then all
/// of them in one.
#[test]
fn a_thousand_conductors_in_one_box_are_solved() {
    let device = "Device(id: \"1\", kind: Rcbo6B30, circuit: \"lights\")";
    let exercise = Arc::new(read(&board_and_box(device, 250), Seed(0)).expect("a sound scenario"));
    assert_eq!(exercise.conductors.len(), 1000);
    for spread in [true, false] {
        let mut work = Work::new(Arc::clone(&exercise));
        let (line, earth) = (work.terminal("board.1.line").unwrap(), work.terminal("board.earth").unwrap());
        for conductor in 0..1000 {
            for end in work.ends_of(conductor).unwrap() {
                let near: Vec<TerminalId> = exercise.terminals_at(work.end_location(end)).collect();
                let to = if spread { near[conductor % near.len()] } else { near[0] };
                work.edit(&Edit::Move(end, Some(to)));
            }
        }
        let conditions = Conditions::complete(&exercise, vec![0]);
        all_finite(&work, &conditions).expect("figures");
        // Spread over everything, line meets earth and neutral: the device opens. All on the line alone, nothing does.
        let opened = settle(&work, conditions).opened.len();
        assert_eq!(opened, usize::from(spread), "{line:?} {earth:?}");
    }
}

/// Twenty switches between twenty nets, any way, in a thousand combinations.
#[test]
fn twenty_random_switches_on_twenty_nets_are_solved() {
    let mut dice = Dice::new(20);
    for _ in 0..50 {
        let mut fixed: Vec<(usize, usize, f64)> = (2..22).map(|it| (it, 0, 1e-9)).collect();
        fixed.extend([(1, 2, 1.0 / 0.175), (21, 0, 1.0 / 0.175)]);
        fixed.extend((0..6).map(|_| (2 + dice.below(20), 2 + dice.below(20), 1.0 / 529.0)));
        let switches: Vec<[usize; 3]> = (0..20).map(|_| [(); 3].map(|()| 2 + dice.below(20))).collect();
        for _ in 0..20 {
            let closed =
                switches.iter().map(|[com, one, two]| (*com, if dice.percent(50) { *one } else { *two }, 1.0 / 0.005));
            let branches: Vec<_> = fixed.iter().copied().chain(closed).collect();
            let solution = solve(22, [0, 1], 230.0, branches.iter().copied());
            for node in 0..22 {
                assert!((-1e-9..=230.0 + 1e-9).contains(&solution.volts(node)), "{}", solution.volts(node));
            }
        }
    }
}

/// The random wirings of the witnesses survey without a NaN.
#[test]
fn random_wirings_survey() {
    let wirings = Wirings::new();
    for number in 0..60 {
        for row in survey(&wirings.number(number)).rows {
            assert!(row.lamps.iter().all(|it| it.volts.is_finite()));
        }
    }
}
