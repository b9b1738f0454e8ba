//! What is joined to what is one thing, whoever asks: the joined view, its plain model, the network, the groups and the work's own
//! word of its ends agree for random works with every accessory of the catalogue.

use std::{collections::BTreeMap, sync::Arc};

use switchdrop::{
    circuit::{Conditions, Contacts, Groups, Joined, Network, Part, Sets, States, TooMany, states},
    exercise::{Seed, TerminalId, TerminalUse, read_for_states},
    trade::catalogue::{Listed, Sort},
    work::{Edit, Point, Work},
};

use crate::wirings::Dice;

/// A house with one of every accessory of the catalogue, each fed from the board by a three-core.
fn everything(earthing: &str) -> Work {
    let mut places = String::new();
    let mut cables = String::new();
    for (number, it) in Listed::all().enumerate() {
        let id = it.id.as_str();
        let has = match it.sort {
            Sort::Plate { .. } => {
                format!("Box(body: Metal, lugs: Some(OneFixed), plate: Metal, ways: [{id}], connectors: Some(2))")
            }
            Sort::JunctionBox { .. } => format!("JunctionBox(kind: {id})"),
            Sort::TimerFan => format!("Fan(kind: {id}, watts: 20.0, with: \"lamp\", isolator: None)"),
            Sort::Connector { .. } => continue,
        };
        places += &format!("Location(id: \"p{number}\", name: \"{id}\", at: ({number}, 9), has: {has}), ");
        cables += &format!(
            "Cable(id: \"c{number}\", name: \"c{number}\", kind: ThreeCoreEarth, mm2: 1.5, metres: 5.0, from: \"rose\", to: \"p{number}\"), \
             Cable(id: \"d{number}\", name: \"d{number}\", kind: TwinEarth, mm2: 1.0, metres: 5.0, from: \"rose\", to: \"p{number}\"), "
        );
    }
    let one_way = Listed::all().position(|it| it.id == "OneWay").unwrap();
    let scenario = format!(
        "Scenario(format: 1, id: \"made\", title: \"t\", place: \"p\", brief: \"b\", edition: A2of2022, earthing: {earthing}, \
         locations: [Location(id: \"board\", name: \"board\", at: (0, 0), has: Board(devices: [Device(id: \"r\", kind: Rcd30, \
         circuit: \"all\"), Device(id: \"1\", kind: Mcb6B, circuit: \"one\", behind: Some(\"r\")), Device(id: \"2\", kind: Mcb6B, \
         circuit: \"two\", behind: Some(\"r\")), Device(id: \"3\", kind: Rcbo6B30, circuit: \"three\")])), \
         Location(id: \"rose\", name: \"rose\", at: (50, 0), has: Rose), \
         Location(id: \"lamp\", name: \"lamp\", at: (60, 0), has: Luminaire(holder: Bayonet, lamp: Filament, watts: 40.0)), \
         {places}], cables: [Cable(id: \"f\", name: \"f\", kind: TwinEarth, mm2: 1.5, metres: 5.0, from: \"board\", to: \"rose\"), \
         Cable(id: \"g\", name: \"g\", kind: TwinEarth, mm2: 1.5, metres: 5.0, from: \"board\", to: \"rose\"), \
         Cable(id: \"x\", name: \"x\", kind: PendantFlex, mm2: 0.75, metres: 1.0, from: \"rose\", to: \"lamp\"), {cables}], \
         controls: [Control(lamp: \"lamp\", switches: [\"p{one_way}\"])], stages: [])"
    );
    Work::new(Arc::new(read_for_states(&scenario, Seed(0)).unwrap_or_else(|it| panic!("{it:#?}"))))
}

/// Most ends somewhere at their place, whatever it is made for.
fn any(work: &Work, dice: &mut Dice) -> Work {
    let mut work = work.clone();
    for end in work.ends() {
        let here: Vec<TerminalId> = work.exercise().terminals_at(work.end_location(end)).collect();
        let to = (dice.below(4) > 0).then(|| here[dice.below(here.len())]);
        work.edit(&Edit::Move(end, to));
    }
    work
}

fn points(work: &Work) -> Vec<Point> {
    let terminals = work.exercise().terminals.ids().map(Point::Terminal);
    terminals.chain(work.ends().map(Point::End)).collect()
}

/// By copper and closed contacts of the network alone, the bars of the board and what is behind them left out.
fn by_network(work: &Work, network: &Network) -> Vec<usize> {
    let mut sets = Sets::new(network.node_count() + work.point_count());
    for it in &network.branches {
        if matches!(it.part, Part::Conductor(_) | Part::Contact(..) | Part::Fixed(_) | Part::PlateScrew(_)) {
            sets.join(it.a, it.b);
        }
    }
    let node = |(index, it): (usize, &Point)| network.find(work, *it).unwrap_or(network.node_count() + index);
    points(work).iter().enumerate().map(node).map(|it| sets.root(it)).collect()
}

/// The same names for the same sets, whatever stands for them.
fn shape(roots: &[usize]) -> Vec<usize> {
    let mut names = BTreeMap::new();
    roots
        .iter()
        .map(|it| {
            let next = names.len();
            *names.entry(*it).or_insert(next)
        })
        .collect()
}

#[test]
fn every_view_of_what_is_joined_is_the_same() {
    let mut dice = Dice(0x70b0);
    let (mut screws, mut fixed, mut earthed, mut apart) = (0, 0, 0, 0);
    for round in 0..60 {
        let work = any(&everything(["TnS", "TnCS", "Tt"][round % 3]), &mut dice);
        let exercise = work.exercise();
        let all = points(&work);
        let groups = Groups::new(&work);
        let contacts = Contacts::of(&work);
        for _ in 0..6 {
            let positions: Vec<u8> = exercise.switches.iter().map(|it| dice.below(it.way.positions()) as u8).collect();
            let mut joined = Joined::new(&work, &positions);
            let mut plain = contacts.at(&positions);
            let network = Network::new(&work, &Conditions::complete(exercise, positions.clone()));
            screws += network.branches.iter().filter(|it| matches!(it.part, Part::PlateScrew(_))).count();
            fixed += network.branches.iter().filter(|it| matches!(it.part, Part::Fixed(_))).count();
            let first = |joined: &mut Joined, of: Point| all.iter().position(|it| joined.same(&work, *it, of)).unwrap();
            let by_joined: Vec<usize> = all.iter().map(|it| first(&mut joined, *it)).collect();
            let by_plain: Vec<usize> = all.iter().map(|it| plain.root(work.node(*it))).collect();
            assert_eq!(shape(&by_joined), shape(&by_plain), "{round} {positions:?}");
            assert_eq!(shape(&by_joined), shape(&by_network(&work, &network)), "{round} {positions:?}");
            // What has a way to the earth bar may be in several groups' reach; nothing else is in two.
            let is_bar = |it: &TerminalId| exercise.terminals[*it].used_by == TerminalUse::EarthBar;
            let bar = exercise.terminals.ids().find(is_bar).unwrap();
            let bar = first(&mut joined, Point::Terminal(bar));
            for (index, a) in all.iter().enumerate() {
                let b = all[by_joined[index]];
                if by_joined[index] != bar {
                    assert_eq!(groups.of(&work, *a), groups.of(&work, b), "{round} {positions:?}");
                }
                if work.is_earthed(*a) {
                    earthed += 1;
                    assert_eq!(by_joined[index], bar, "what its protective conductors earth is joined to earth");
                }
            }
        }
        // A switch is in one group with all its terminals.
        for (id, it) in exercise.switches.with_ids() {
            let of = |it: &TerminalId| groups.of(&work, Point::Terminal(*it));
            let number = groups.all().iter().position(|group| group.switches.contains(&id));
            assert!(number.is_some() && it.terminals.iter().all(|it| of(it) == number), "{round} {}", it.address);
        }
        apart += usize::from(groups.all().iter().filter(|it| !it.devices.is_empty()).count() > 1);
    }
    assert!(screws > 100 && fixed > 100 && earthed > 300 && apart > 5, "{screws} {fixed} {earthed} {apart}");
}

/// Circuits of which one neutral touches earth act on each other where the supply does not tie the two: over 4,096 combinations
/// of them together are too many, and said to be; tied, the others are circuits by themselves.
#[test]
fn too_many_combinations_of_circuits_that_touch_are_said() {
    for (earthing, too_many) in [("TnS", true), ("Tt", true), ("TnCS", false)] {
        let mut devices = String::new();
        let mut places = String::new();
        let mut cables = String::new();
        for it in 0..2 {
            devices += &format!("Device(id: \"{it}\", kind: Rcbo6B30, circuit: \"c{it}\"), ");
            for way in 0..7 {
                places += &format!(
                    "Location(id: \"s{it}{way}\", name: \"s\", at: ({way}, {it}), has: Box(body: Plastic, plate: Plastic, ways: [OneWay])), "
                );
                let from = if way == 0 { "board".to_owned() } else { format!("s{it}{}", way - 1) };
                cables += &format!(
                    "Cable(id: \"k{it}{way}\", name: \"k{it}{way}\", kind: TwinEarth, mm2: 1.0, metres: 5.0, from: \"{from}\", to: \"s{it}{way}\"), "
                );
            }
        }
        let scenario = format!(
            "Scenario(format: 1, id: \"made\", title: \"t\", place: \"p\", brief: \"b\", edition: A2of2022, earthing: {earthing}, \
             locations: [Location(id: \"board\", name: \"board\", at: (0, 0), has: Board(devices: [{devices}])), {places}], \
             cables: [{cables}], controls: [], stages: [])"
        );
        let mut work = Work::new(Arc::new(read_for_states(&scenario, Seed(0)).unwrap_or_else(|it| panic!("{it:#?}"))));
        let mut put = |end: &str, to: &str| {
            let (end, to) = (work.end(end).unwrap(), work.terminal(to).unwrap());
            work.edit(&Edit::Move(end, Some(to)));
        };
        for it in 0..2 {
            put(&format!("k{it}0/brown@board"), &format!("board.{it}.line"));
            put(&format!("k{it}0/blue@board"), &format!("board.{it}.neutral"));
            put(&format!("k{it}0/cpc@board"), "board.earth");
            for way in 0..7 {
                put(&format!("k{it}{way}/brown@s{it}{way}"), &format!("s{it}{way}.COM"));
                if way > 0 {
                    put(&format!("k{it}{way}/brown@s{it}{}", way - 1), &format!("s{it}{}.L1", way - 1));
                }
            }
        }
        assert!(matches!(states(&work), Ok(States::Rows(_))), "{earthing}: two circuits of 128");
        // The first circuit's neutral comes to earth in its first box.
        let (blue, cpc) = (work.end("k00/blue@s00").unwrap(), work.end("k00/cpc@s00").unwrap());
        let earth = work.terminal("s00.box.earth").unwrap();
        work.edit(&Edit::Move(blue, Some(earth)));
        work.edit(&Edit::Move(cpc, Some(earth)));
        let found = states(&work);
        assert_eq!(matches!(found, Err(TooMany::Touching { most: 4096 })), too_many, "{earthing}");
        assert_eq!(matches!(found, Ok(States::Rows(_))), !too_many, "{earthing}");
    }
}
