//! The survey's rows against the same network solved once for every combination; and states by the million.

mod by_hand;
mod cases;

use std::sync::Arc;

use switchdrop::{
    attempt::open,
    circuit::{Conditions, Glow, Groups, Part, States, TooMany, row_at, rows, settle, states},
    exercise::{SHIPPED, Seed, Stream, read, read_for_states},
    work::{Edit, Work},
};

use crate::{
    installations::{BATHROOM, BATHROOM_WIRED, GRANARY, GRANARY_WIRED, wired},
    wirings::{house, in_line},
};

/// Works by name: of the shipped models, of what the learner finds in each exercise that is shipped, and of two installations.
fn works() -> Vec<(String, Work)> {
    let models = ["one-way-rose", "one-way-tested", "two-way-passage"].map(|it| {
        let path = format!("{}/exercises/{it}/model.attempt.ron", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).expect("a model");
        let opened = open(&text).expect("an attempt");
        (format!("model of {it}"), opened.replay().expect("a model can be done").work().clone())
    });
    let found = SHIPPED.iter().map(|(id, text)| {
        let exercise = read(text, Seed(3)).expect("a scenario");
        ((*id).to_owned(), Work::new(Arc::new(exercise)))
    });
    let installations = [("granary", GRANARY, GRANARY_WIRED), ("bathroom", BATHROOM, BATHROOM_WIRED)];
    let installations =
        installations.map(|(name, scenario, lines)| (name.to_owned(), wired(scenario, lines).work().clone()));
    models.into_iter().chain(found).chain(installations).collect()
}

/// Each work scrambled `of_each` times. What is drawn depends on a work's name and the case's number alone: another exercise leaves
/// the others' cases as they are.
fn scrambled(what_for: &str, of_each: u64) -> impl Iterator<Item = (String, Work)> {
    let cases = works().into_iter().flat_map(move |it| (0..of_each).map(move |number| (it.clone(), number)));
    cases.map(move |((name, work), number)| {
        let scrambled = scramble(&work, &mut Stream::new(1, &name, Seed(number), what_for));
        (format!("{name}, {number}"), scrambled)
    })
}

/// Any end anywhere, in its place or not, or loose: worse than any hand.
fn scramble(work: &Work, stream: &mut Stream) -> Work {
    let mut work = work.clone();
    let (ends, exercise) = (work.ends().count(), Arc::clone(work.exercise()));
    let below = |stream: &mut Stream, n: usize| stream.below(n as u32) as usize;
    let any = |stream: &mut Stream| exercise.terminals.id(below(stream, exercise.terminals.len())).unwrap();
    for _ in 0..=stream.below(4) {
        let end = work.ends().nth(below(stream, ends)).unwrap();
        let to = (stream.below(5) > 0).then(|| any(stream));
        work.edit(&Edit::Move(end, to));
        if stream.below(3) == 0 {
            work.edit(&Edit::Slacken(any(stream)));
        }
    }
    work
}

/// One network built and solved anew for each combination and group is the witness: volts to a millionth, and every device.
#[test]
fn rows_are_those_of_each_combination_solved_by_itself() {
    let (mut tripped, mut lit, mut several) = (0, 0, 0);
    for (name, work) in scrambled("rows", 20) {
        let exercise = work.exercise();
        let groups = Groups::new(&work);
        several += usize::from(groups.all().iter().filter(|it| !it.devices.is_empty()).count() > 1);
        for row in rows(&work) {
            let mut opened = Vec::new();
            let mut may_open = Vec::new();
            for group in groups.all() {
                // The others stand with their switches in position 0.
                let mut positions = vec![0; exercise.switches.len()];
                group.switches.iter().for_each(|it| positions[it.index()] = row.positions[it.index()]);
                let settled = settle(
                    &work,
                    Conditions {
                        on: exercise.devices.ids().map(|it| group.devices.contains(&it)).collect(),
                        lamps_in: exercise.lamps.ids().map(|it| group.lamps.contains(&it)).collect(),
                        ..Conditions::complete(exercise, positions)
                    },
                );
                opened.extend(settled.opened.iter().map(|it| it.device));
                may_open.extend(settled.may_open);
                for lamp in &group.lamps {
                    let branch = settled.network.part(Part::Lamp(*lamp));
                    let volts = branch.map_or(0.0, |it| it.volts(&settled.solution).abs());
                    let found = row.lamps[lamp.index()];
                    assert!((found.volts - volts).abs() <= 1e-6 + 1e-9 * volts, "{name}: {found:?}, not {volts}");
                    lit += usize::from(found.glow == Glow::Lit);
                }
            }
            assert_eq!((row.tripped().collect(), &row.may_trip), (opened.clone(), &may_open));
            tripped += opened.len();
            let alone = row_at(&work, &row.positions);
            assert_eq!((alone.tripped().collect::<Vec<_>>(), alone.may_trip), (opened, may_open));
            assert_eq!(alone.hazards.len(), row.hazards.len());
        }
    }
    assert!(tripped > 50 && lit > 200 && several > 50, "{tripped} tripped, {lit} lit, {several} of several groups");
}

/// The passage and the kiln shed are two circuits, and stay two groups until something joins them.
#[test]
fn what_two_circuits_share_at_the_board_does_not_make_them_one_group() {
    let [_, _, (_, passage), ..] = &works()[..] else { panic!("three models") };
    let shape = |work: &Work| -> Vec<(usize, usize, usize)> {
        let groups = Groups::new(work);
        groups.all().iter().map(|it| (it.switches.len(), it.devices.len(), it.lamps.len())).collect()
    };
    assert_eq!(shape(passage), [(2, 1, 1), (1, 1, 1)]);
    let mut borrowed = passage.clone();
    let end = borrowed.end("flex/blue@rose").expect("an end");
    let shed = borrowed.terminal("shed-rose.neutral").expect("a terminal");
    borrowed.edit(&Edit::Move(end, Some(shed)));
    assert_eq!(shape(&borrowed), [(3, 2, 2)]);
}

/// Nine pairs in line: lit when the two of each pair agree, 2 to the 9th of 2 to the 18th.
#[test]
fn states_beyond_the_rows_are_classes_with_their_counts() {
    let States::Classes(classes) = states(&in_line(9)).expect("a chain") else { panic!("too many rows to list") };
    let found: Vec<(Glow, u128)> = classes.iter().map(|it| (it.first.lamps[0].glow, it.count)).collect();
    assert_eq!(found, [(Glow::Lit, 1 << 9), (Glow::Off, (1 << 18) - (1 << 9))]);
    assert_eq!(classes[0].first.positions, [0; 18]);
    // The first that is off: the last switch alone moved.
    assert_eq!(classes[1].first.positions.iter().position(|it| *it == 1), Some(17));
    let States::Rows(rows) = states(&in_line(3)).expect("few") else { panic!("64 rows") };
    assert_eq!(rows.len(), 64);
    assert_eq!(rows.iter().filter(|it| it.lamps[0].glow == Glow::Lit).count(), 8);
}

/// Switches joined to nothing at all: one result, however many.
#[test]
fn groups_are_never_multiplied_where_nothing_differs() {
    let place = |it: usize| {
        format!(
            "Location(id: \"b{it}\", name: \"b\", at: (0, 0), has: Box(body: Plastic, plate: Plastic, ways: [OneWay]))"
        )
    };
    let scenario = |count: usize| {
        format!(
            "Scenario(format: 1, id: \"made\", title: \"t\", place: \"p\", brief: \"b\", edition: A2of2022, earthing: TnCS, \
             locations: [Location(id: \"board\", name: \"board\", at: (0, 0), has: Board(devices: [Device(id: \"1\", kind: \
             Rcbo6B30, circuit: \"lights\")])), {}], cables: [], controls: [], stages: [])",
            (0..count).map(place).collect::<Vec<_>>().join(", ")
        )
    };
    let work = Work::new(Arc::new(read_for_states(&scenario(60), Seed(0)).expect("a scenario")));
    let States::Classes(classes) = states(&work).expect("one class") else { panic!("too many rows to list") };
    assert_eq!(classes.iter().map(|it| it.count).collect::<Vec<_>>(), [1 << 60]);
    assert!(classes[0].first.positions.iter().all(|it| *it == 0));
    assert!(read(&scenario(60), Seed(0)).is_err(), "not for marking");
    assert!(TooMany::Results { most: 5 }.to_string().contains('5'));
}

/// Twelve lights each from three or four places: each is lit in half of the combinations of its own switches whatever the
/// others do (the parity of n-way lighting, Shannon 1938), so every set of lights is lit in 2 to the 28th of 2 to the 40th.
#[test]
fn forty_switches_in_twelve_circuits_light_every_set_of_lamps() {
    for common in [false, true] {
        let States::Classes(classes) = states(&house(common)).expect("a house") else {
            panic!("too many rows to list")
        };
        assert_eq!(classes.len(), 1 << 12);
        assert!(classes.iter().all(|it| it.count == 1 << 28 && it.first.hazards.is_empty()), "{common}");
        assert!(classes.iter().all(|it| it.first.lamps.iter().all(|it| it.glow != Glow::Dim)));
        let lit: std::collections::BTreeSet<Vec<bool>> =
            classes.iter().map(|it| it.first.lamps.iter().map(|it| it.glow == Glow::Lit).collect()).collect();
        assert_eq!(lit.len(), 1 << 12);
    }
}
