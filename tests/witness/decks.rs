//! Decks written by hand from the scenarios, with what ngspice answered (`tests/witness/*.cir`, `*.out`): the same wirings
//! made in the program come to the same volts and amps.
//!
//! A deck has its own names and its own sums. An element `rfeed_brown` is the conductor `feed/brown`, `rcontact_clay` the
//! closed contact of the switch `clay`. `UPDATE_EXPECT=1` with ngspice at hand asks it again and writes the results.

use std::{collections::BTreeMap, fs, path::Path, process::Command, sync::Arc};

use switchdrop::{
    circuit::{Conditions, Network, Part},
    exercise::{Exercise, Seed, read},
    work::{Edit, Point, Work},
};

use super::{
    ngspice::{Answers, agree, answers},
    wirings::passage,
};
use crate::hand::{Form, LIKE_TO_LIKE, one_way_model, two_way};

/// A wiring that has a deck: its name, the work, the case.
type Case = (&'static str, Work, Conditions);

fn edited(work: &Work, moves: &[(&str, &str)]) -> Work {
    let mut work = work.clone();
    for (end, terminal) in moves {
        let (end, terminal) = (work.end(end).unwrap(), work.terminal(terminal).unwrap());
        work.edit(&Edit::Move(end, Some(terminal)));
    }
    work
}

fn cases() -> Vec<Case> {
    let one_way = one_way_model().attempt.work().clone();
    let complete = |work: &Work, at: &[u8]| Conditions::complete(work.exercise(), at.to_vec());
    let one_way_case = |name, work: &Work, at: &[u8]| (name, work.clone(), complete(work, at));
    let mut slack = one_way.clone();
    slack.edit(&Edit::Slacken(slack.terminal("rose.neutral").unwrap()));
    let to_neutral = edited(&one_way, &[("drop/blue@rose", "rose.neutral")]);
    let to_earth = edited(&one_way, &[("drop/blue@rose", "rose.earth")]);
    let [three, strappers] = [Form::Three, Form::Strappers].map(|it| two_way(it, &LIKE_TO_LIKE).attempt.work().clone());
    vec![
        one_way_case("one-way-on", &one_way, &[1, 0]),
        one_way_case("both-on", &one_way, &[1, 1]),
        one_way_case("slack-neutral", &slack, &[1, 1]),
        one_way_case("short-to-neutral", &to_neutral, &[1, 0]),
        one_way_case("short-to-earth", &to_earth, &[1, 0]),
        one_way_case("three-core-on", &three, &[0, 1, 1]),
        one_way_case("strappers-on", &strappers, &[0, 1, 0]),
        tt_first_fault(&passage("Tt")),
    ]
}

fn tt_first_fault(exercise: &Arc<Exercise>) -> Case {
    let mut work = edited(
        &Work::new(Arc::clone(exercise)),
        &[
            ("one/brown@box", "box.COM"),
            ("one/blue@box", "box.connector.1"),
            ("one/cpc@box", "box.plate.earth"),
            ("flex/brown@box", "box.L1"),
            ("flex/blue@box", "box.connector.1"),
        ],
    );
    let at = |address: &str| work.terminal(address).unwrap();
    let (line, body, plate) = (at("box.COM"), at("box.box.earth"), at("box.plate.earth"));
    work.edit(&Edit::Tail(body, plate));
    let fault = Some((Point::Terminal(line), Point::Terminal(body)));
    let conditions = Conditions { fault, ..Conditions::complete(exercise, vec![0]) };
    ("tt-first-fault", work, conditions)
}

/// An element's name in a deck written by hand; `None` for insulation, which there is as the hand thought fit.
fn name(work: &Work, part: Part) -> Option<String> {
    let exercise = work.exercise();
    let called = match part {
        Part::SupplyLine => "supply_line".to_owned(),
        Part::SupplyNeutral => "supply_neutral".to_owned(),
        Part::SupplyEarth => "supply_earth".to_owned(),
        Part::LinePole(it) => format!("pole_{}", exercise.devices[it].address),
        Part::NeutralPole(it) => format!("neutral_{}", exercise.devices[it].address),
        Part::Conductor(it) => work.conductor_address(it),
        Part::Contact(it, _) => format!("contact_{}", exercise.switches[it].address),
        Part::Lamp(it) => format!("lamp_{}", exercise.lamps[it].address),
        Part::PlateScrew(it) => format!("screw_{}", exercise.locations[it].id),
        Part::Motor(it) => format!("motor_{}", exercise.fans[it].address),
        Part::Timer(it) => format!("timer_{}", exercise.fans[it].address),
        Part::Fixed(it) => format!("fixed_{it}"),
        Part::Link | Part::Fault => "fault".to_owned(),
        Part::Insulation => return None,
    };
    Some(format!("r{}", called.replace(['/', '.', '-'], "_")))
}

/// A deck's elements other than leaks: what is printed for the voltage across each, by its name.
fn elements(deck: &str) -> BTreeMap<String, String> {
    let lines = deck.lines().filter(|it| it.starts_with('r') && !it.starts_with("rleak"));
    lines
        .map(|line| {
            let words: Vec<&str> = line.split_whitespace().collect();
            let volts =
                if words[2] == "0" { format!("v({})", words[1]) } else { format!("v({})-v({})", words[1], words[2]) };
            (words[0].to_owned(), volts)
        })
        .collect()
}

/// Everything in which branches and answers differ. A hand writes an element the way the current flows, the program the way
/// it counts, so magnitudes are compared.
fn differences(work: &Work, network: &Network, deck: &str, theirs: &Answers) -> Vec<String> {
    let solution = network.solve();
    let mut left = elements(deck);
    let mut wrong = Vec::new();
    for branch in &network.branches {
        let Some(name) = name(work, branch.part) else { continue };
        let (volts, amps) = (branch.volts(&solution).abs(), branch.amps(&solution).abs());
        match left.remove(&name) {
            Some(asked) => {
                for (asked, ours) in [(asked, volts), (format!("@{name}[i]"), amps)] {
                    let theirs = theirs.get(&asked).unwrap_or_else(|| panic!("{asked} is not answered")).abs();
                    if !agree(ours, theirs) {
                        wrong.push(format!("{name}, {asked}: {ours:e} against {theirs:e}"));
                    }
                }
            }
            // What the hand left out carries nothing that would be seen.
            None if amps > 1.0e-6 => wrong.push(format!("{name} is not in the deck and carries {amps:e} A")),
            None => {}
        }
    }
    wrong.extend(left.into_keys().map(|it| format!("{it} is in the deck alone")));
    wrong
}

fn kept(name: &str, extension: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/witness");
    let path = folder.join(format!("{name}.{extension}"));
    if extension == "out" && std::env::var_os("UPDATE_EXPECT").is_some() {
        let run = Command::new("ngspice").arg("-b").arg(folder.join(format!("{name}.cir"))).output();
        let printed = run.expect("ngspice, to write its results afresh").stdout;
        let printed = String::from_utf8(printed).expect("UTF-8");
        let answers = printed.lines().filter(|it| ["case ", "v(", "@"].iter().any(|word| it.starts_with(word)));
        let answers: String = answers.map(|it| format!("{it}\n")).collect();
        fs::write(&path, answers).expect("results can be kept");
    }
    fs::read_to_string(&path).unwrap_or_else(|it| panic!("{}: {it}", path.display())).replace("\r\n", "\n")
}

#[test]
fn wirings_come_to_what_decks_written_by_hand_come_to() {
    let mut wrong = Vec::new();
    for (name, work, conditions) in cases() {
        let (deck, theirs) = (kept(name, "cir"), answers(&kept(name, "out")).remove(0));
        let network = Network::new(&work, &conditions);
        let found = differences(&work, &network, &deck, &theirs);
        wrong.extend(found.into_iter().map(|it| format!("{name}: {it}")));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Each cable that carries a lamp's current made 1 % longer in the drawn exercise, and each contact that does 5 milliohms
/// higher: every one is caught. The whole drop to a 40 W lamp is a seventh of a volt, so a loose comparison would see none.
#[test]
fn a_cable_one_per_cent_too_long_and_a_contact_five_milliohms_too_high_are_caught() {
    let (name, work, conditions) = cases().remove(1);
    let (deck, theirs) = (kept(name, "cir"), answers(&kept(name, "out")).remove(0));
    let exercise = work.exercise();
    for cable in &exercise.cables {
        let longer = exercise.text().replacen(
            &format!("metres:{:?},from:\"{}\"", cable.metres, exercise.locations[cable.between[0]].id),
            &format!("metres:{:?},from:\"{}\"", cable.metres * 1.01, exercise.locations[cable.between[0]].id),
            1,
        );
        assert_ne!(longer, exercise.text(), "{}", cable.id);
        let longer = Arc::new(read(&longer, Seed(4)).expect("a sound exercise"));
        let mut other = Work::new(longer);
        for end in work.ends() {
            other.edit(&Edit::Move(end, work.terminal_of(end)));
        }
        let network = Network::new(&other, &conditions);
        assert!(!differences(&other, &network, &deck, &theirs).is_empty(), "{}", cable.id);
    }
    let network = Network::new(&work, &conditions);
    let mut contacts = 0;
    for place in 0..network.branches.len() {
        let mut network = network.clone();
        let carries = network.branches[place].amps(&network.solve()).abs() > 0.01;
        if matches!(network.branches[place].part, Part::Contact(..) | Part::LinePole(_) | Part::NeutralPole(_))
            && carries
        {
            network.branches[place].ohms += 0.005;
            contacts += 1;
            assert!(!differences(&work, &network, &deck, &theirs).is_empty(), "{:?}", network.branches[place].part);
        }
    }
    assert_eq!(contacts, 4);
}
