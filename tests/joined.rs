//! The joined view of many switches against brute force, and against the theorem of n-way lighting.

use std::collections::BTreeMap;

use switchdrop::circuit::{
    Contacts, Layered, Pairs, Proof, STATES, Sets, Supplied, Toggles, TooMany, WrongToggle, ever_joined,
};

use crate::wirings::{Dice, LAMP, LINE, NEUTRAL, Wiring, supplied};

/// Random nets, joins and switches of one to three positions with up to three pairs in each.
fn random(dice: &mut Dice) -> Contacts {
    let nets = 4 + dice.below(12);
    let mut contacts = Contacts::new(nets);
    for _ in 0..dice.below(nets) {
        contacts.join(dice.below(nets), dice.below(nets));
    }
    let mut left = 1 << 10;
    while left > 1 {
        let ways = 1 + dice.below(3);
        left /= ways.max(2);
        let pairs =
            |dice: &mut Dice| -> Pairs { (0..dice.below(4)).map(|_| (dice.below(nets), dice.below(nets))).collect() };
        let positions = (0..ways).map(|_| pairs(dice)).collect();
        contacts.switch(positions);
    }
    contacts
}

/// Every combination in counting order, last switch fastest.
fn every(contacts: &Contacts) -> Vec<Vec<u8>> {
    let mut all = vec![Vec::new()];
    for switch in 0..contacts.switches() {
        let longer = |it: &Vec<u8>, at: usize| it.iter().copied().chain([at as u8]).collect();
        all = all.iter().flat_map(|it| (0..contacts.positions(switch)).map(move |at| longer(it, at))).collect();
    }
    all
}

/// How nets are joined, as numbers in the order they first come.
fn numbered(sets: &mut Sets, watched: &[usize]) -> Vec<u8> {
    let roots: Vec<usize> = watched.iter().map(|it| sets.root(*it)).collect();
    let mut names = Vec::new();
    let mut name = |root: &usize| {
        let place = names.iter().position(|it| it == root);
        place.unwrap_or_else(|| {
            names.push(*root);
            names.len() - 1
        }) as u8
    };
    roots.iter().map(&mut name).collect()
}

fn renumbered(joined: &[u8]) -> Vec<u8> {
    let mut sets = Sets::new(256);
    let watched: Vec<usize> = joined.iter().map(|it| usize::from(*it)).collect();
    numbered(&mut sets, &watched)
}

/// Brute force is the witness: each combination by joining everything.
#[test]
fn classes_and_single_answers_are_those_of_every_combination_tried() {
    let mut dice = Dice(0x5eed);
    let mut most = 0;
    for _ in 0..1500 {
        let contacts = random(&mut dice);
        let watched: Vec<usize> = (0..=dice.below(5)).map(|_| dice.below(contacts.nets())).collect();
        let counted: Vec<usize> = (0..contacts.switches()).filter(|_| dice.below(2) == 0).collect();
        let graph = Layered::new(&contacts, &watched, &counted).expect("few states");
        most = most.max(graph.widest());
        let mut tried: BTreeMap<(Vec<u8>, bool), (u128, Vec<u8>)> = BTreeMap::new();
        for positions in every(&contacts) {
            let joined = numbered(&mut contacts.at(&positions), &watched);
            assert_eq!(renumbered(&graph.at(&positions)), joined);
            let odd = counted.iter().filter(|it| positions[**it] % 2 == 1).count() % 2 == 1;
            tried.entry((joined, odd)).or_insert((0, positions)).0 += 1;
        }
        let classes = graph.classes().expect("few combinations");
        assert!(classes.is_sorted_by_key(|it| it.first.clone()));
        let found: BTreeMap<_, _> =
            classes.into_iter().map(|it| ((renumbered(&it.joined), it.odd), (it.count, it.first))).collect();
        assert_eq!(found, tried);
    }
    assert!(most > 20, "{most}");
}

#[test]
fn what_is_ever_joined_is_what_some_combination_joins() {
    let mut dice = Dice(0xfeed);
    let mut switched = 0;
    for _ in 0..1500 {
        let contacts = random(&mut dice);
        let source = dice.below(contacts.nets());
        let mut ever = vec![false; contacts.nets()];
        for positions in every(&contacts) {
            let mut sets = contacts.at(&positions);
            ever.iter_mut().enumerate().for_each(|(net, it)| *it |= sets.same(net, source));
        }
        assert_eq!(ever_joined(&contacts, source).expect("few states"), ever);
        switched += ever.iter().filter(|it| **it).count();
    }
    assert!(switched > 3000, "{switched}");
}

/// Every combination and every step from it, by brute force: the least number of steps from rest at which anything is wrong.
fn shortest_by_brute_force(contacts: &Contacts, lamp: &Supplied, switches: &[usize]) -> Option<u32> {
    let watched = lamp.watched();
    let lit = |positions: &[u8]| lamp.lit(&numbered(&mut contacts.at(positions), &watched));
    let steps = |it: &[u8]| it.iter().map(|it| u32::from(*it)).sum::<u32>();
    let mut shortest: Option<u32> = None;
    let mut wrong = |at: u32| shortest = Some(shortest.map_or(at, |it| it.min(at)));
    for here in every(contacts) {
        let Some(now) = lit(&here) else {
            wrong(steps(&here));
            continue;
        };
        for switch in 0..contacts.switches() {
            if usize::from(here[switch]) + 1 < contacts.positions(switch) {
                let mut there = here.clone();
                there[switch] += 1;
                if lit(&there).is_some_and(|then| (now != then) != switches.contains(&switch)) {
                    wrong(steps(&there));
                }
            }
        }
    }
    shortest
}

/// That a combination said to be wrong is wrong, by itself or with one toggle.
fn is_wrong(contacts: &Contacts, lamp: &Supplied, switches: &[usize], it: &WrongToggle) -> bool {
    let watched = lamp.watched();
    let lit = |positions: &[u8]| lamp.lit(&numbered(&mut contacts.at(positions), &watched));
    let Some(there) = &it.toggled else { return lit(&it.positions).is_none() };
    let differ: Vec<usize> = (0..there.len()).filter(|at| there[*at] != it.positions[*at]).collect();
    let [switch] = differ[..] else { return false };
    let step = there[switch].abs_diff(it.positions[switch]) == 1;
    match (lit(&it.positions), lit(there)) {
        (Some(a), Some(b)) => step && (a != b) != switches.contains(&switch),
        _ => false,
    }
}

#[test]
fn proofs_and_shortest_faults_are_those_of_brute_force() {
    let mut dice = Dice(0xbeef);
    let (mut holds, mut fails) = (0, 0);
    for round in 0..1200 {
        let n = 2 + dice.below(7);
        let right = Wiring::n_way(n);
        let wiring = match round % 3 {
            0 => Wiring::random(n, &mut dice),
            // Strappers exchanged are as right as before.
            1 => right.exchanged(&mut dice),
            _ => right.slipped(1 + dice.below(2), &mut dice),
        };
        // Some with a switch that stands for nothing, and some where one is left out.
        let switches: Vec<usize> = (0..n).filter(|_| dice.below(12) > 0).collect();
        let (contacts, lamp) = (wiring.contacts(), supplied());
        let shortest = shortest_by_brute_force(&contacts, &lamp, &switches);
        let watched = lamp.watched();
        let toggles = Toggles { watched: &watched, lit: &|it| lamp.lit(it), switches: &switches };
        match toggles.prove(&contacts).expect("few states") {
            Proof::Holds => {
                holds += 1;
                assert_eq!(shortest, None);
            }
            Proof::Fails(it) => {
                fails += 1;
                assert!(is_wrong(&contacts, &lamp, &switches, &it), "{it:?}");
            }
        }
        let found = toggles.shortest(&contacts).expect("few states");
        let steps = found.as_ref().map(|it| it.positions.iter().map(|it| u32::from(*it)).sum::<u32>());
        assert_eq!(steps, shortest);
        assert!(found.is_none_or(|it| is_wrong(&contacts, &lamp, &switches, &it)));
    }
    assert!(holds > 50 && fails > 500, "{holds} hold, {fails} fail");
}

/// n-way lighting is the parity of its switches, in 4n - 4 contacts, which is the least (C. E. Shannon, A Symbolic Analysis
/// of Relay and Switching Circuits, 1938: two transfers and n - 2 double transfers).
#[test]
fn n_way_lighting_is_the_parity_of_its_switches() {
    for n in 2..=24 {
        let wiring = Wiring::n_way(n);
        let contacts = wiring.contacts();
        let all: Vec<usize> = (0..n).collect();
        assert_eq!(supplied().prove(&contacts, &all), Ok(Proof::Holds), "{n}");
        let count: usize = (0..n).map(|it| contacts.pairs(it, 0).len() + contacts.pairs(it, 1).len()).sum();
        assert_eq!(count, 4 * n - 4);
        let graph = Layered::new(&contacts, &[LINE, LAMP[0]], &all).expect("a chain");
        let classes = graph.classes().expect("counted");
        // Half of all combinations are lit, and those are all the odd or all the even ones.
        assert_eq!(classes.len(), 2);
        assert!(classes.iter().all(|it| it.count == 1 << (n - 1)));
        for positions in [vec![0; n], vec![1; n], (0..n as u8).map(|it| it % 3 % 2).collect()] {
            let joined = graph.at(&positions);
            let odd = positions.iter().fold(0, |sum, it| sum ^ it) == 1;
            let class = classes.iter().find(|it| it.odd == odd).expect("both parities come");
            assert_eq!(joined[0] == joined[1], class.joined[0] == class.joined[1]);
        }
        let slipped: Vec<usize> = (1..n).collect();
        assert!(matches!(supplied().prove(&contacts, &slipped), Ok(Proof::Fails(_))));
    }
}

/// For two switches 4n - 4 is four: no three make or break contacts between line, lamp and two more nets do it, and some four do.
#[test]
fn fewer_contacts_than_the_known_minimum_do_not_do_it() {
    let mut kinds = Vec::new();
    for a in 0..4 {
        for b in a + 1..4 {
            kinds.extend((0..4).map(|it| (it / 2, it % 2, a, b)));
        }
    }
    let does = |chosen: &[(usize, usize, usize, usize)]| {
        // Line, lamp, two more; neutral and the lamp's other contact are one.
        let mut contacts = Contacts::new(5);
        for switch in 0..2 {
            let pairs = |at| chosen.iter().filter(move |it| it.0 == switch && it.1 == at).map(|it| (it.2, it.3));
            contacts.switch((0..2).map(|at| pairs(at).collect()).collect());
        }
        let lamp = Supplied { devices: vec![[0, 4]], earth: Vec::new(), lamp: [1, 4] };
        lamp.prove(&contacts, &[0, 1]) == Ok(Proof::Holds)
    };
    let (mut three, mut four) = (0, 0);
    for a in 0..kinds.len() {
        for b in a + 1..kinds.len() {
            for c in b + 1..kinds.len() {
                three += usize::from(does(&[kinds[a], kinds[b], kinds[c]]));
                four += (c + 1..kinds.len()).filter(|d| does(&[kinds[a], kinds[b], kinds[c], kinds[*d]])).count();
            }
        }
    }
    assert_eq!(three, 0);
    assert!(four > 0);
}

/// 2 to the 100th combinations, counted, and the one fault among them found where it was put.
#[test]
fn a_hundred_switches_are_counted_and_a_fault_among_them_is_found() {
    let n = 100;
    let wiring = Wiring::n_way(n);
    let contacts = wiring.contacts();
    let all: Vec<usize> = (0..n).collect();
    assert_eq!(supplied().prove(&contacts, &all), Ok(Proof::Holds));
    let graph = Layered::new(&contacts, &[LINE, LAMP[0], NEUTRAL], &[]).expect("a chain");
    assert_eq!(graph.classes().expect("counted").iter().map(|it| it.count).sum::<u128>(), 1 << n);
    // One more plate that puts line on neutral in one position alone.
    let mut broken = contacts.clone();
    broken.switch(vec![vec![], vec![(LINE, NEUTRAL)]]);
    let watched = supplied().watched();
    let toggles = Toggles { watched: &watched, lit: &|it| supplied().lit(it), switches: &all };
    let mut only = vec![0; n + 1];
    only[n] = 1;
    assert_eq!(toggles.shortest(&broken), Ok(Some(WrongToggle { positions: only, toggled: None })));
}

/// Two stars whose every pair a switch may join: Bell's numbers of partitions, far over the limit.
#[test]
fn what_blows_up_is_said_to_be_too_many() {
    let nets = 24;
    let mut contacts = Contacts::new(nets);
    for step in 1..4 {
        for net in 0..nets {
            contacts.switch(vec![vec![], vec![(net, (net + step * 5) % nets)]]);
        }
    }
    let watched: Vec<usize> = (0..nets).collect();
    let found = Layered::new(&contacts, &watched, &[]).map(|it| it.widest());
    assert!(matches!(found, Err(TooMany::States { taken }) if taken > 10), "{found:?}");
    assert!(found.expect_err("too many").to_string().contains(&STATES.to_string()));
    // 300 nets watched are more than a state holds.
    let wide = Contacts::new(300);
    let watched: Vec<usize> = (0..300).collect();
    assert_eq!(Layered::new(&wide, &watched, &[]).map(|it| it.widest()), Err(TooMany::Nets { open: 300 }));
    // Nets and switches that are not there are joined to nothing.
    assert_eq!(Layered::new(&wide, &[999], &[7]).expect("small").at(&[9]), [u8::MAX]);
}
