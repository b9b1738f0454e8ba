//! The same networks by independent sparse linear algebra: nodal equations, factored by Cholesky (crate `rsparse`, after
//! "Direct Methods for Sparse Linear Systems").
//!
//! Which tolerance is honest: factoring leaves at each node what is like a conductance of a few units of rounding times the
//! largest conductance there: 10^-13 S beside a contact of 1,000 S. At 230 V that is some 10^-11 A, and where a lamp of
//! some thousand ohms is all that holds a node, some 10^-8 V. So: a thousand-millionth, and beneath it a nanoamp and a
//! microvolt. It holds only while every node is held by something much stronger than 10^-13 S: beside 1 Tohm a general solver
//! loses every digit, and the last test shows it.

use std::collections::BTreeMap;

use rsparse::{cholsol, data::Trpl};
use switchdrop::circuit::{Conditions, Network, solve};

use super::wirings::{Dice, Wirings, every_case};

/// Volts at every node with `held[0]` at nothing and `held[1]` at `source`.
pub fn volts(count: usize, held: [usize; 2], source: f64, branches: &[(usize, usize, f64)]) -> Vec<f64> {
    let mut row = vec![None; count];
    let mut free = 0;
    for node in (0..count).filter(|it| !held.contains(it)) {
        row[node] = Some(free);
        free += 1;
    }
    let mut sums: BTreeMap<(usize, usize), f64> = BTreeMap::new();
    let mut fed = vec![0.0; free];
    for (a, b, siemens) in branches.iter().filter(|it| it.0 != it.1) {
        for (here, there) in [(*a, *b), (*b, *a)] {
            let Some(here) = row[here] else { continue };
            *sums.entry((here, here)).or_default() += siemens;
            match row[there] {
                Some(there) => *sums.entry((here, there)).or_default() -= siemens,
                None if there == held[1] => fed[here] += siemens * source,
                None => {}
            }
        }
    }
    let mut matrix = Trpl::new();
    for ((row, column), siemens) in sums {
        matrix.append(row, column, siemens);
    }
    cholsol(&matrix.to_sprs(), &mut fed, -1).expect("a matrix that can be factored");
    (0..count).map(|it| row[it].map_or(if it == held[1] { source } else { 0.0 }, |it| fed[it])).collect()
}

/// To a thousand-millionth, or to the floor.
fn agree(ours: f64, theirs: f64, floor: f64) -> bool {
    (ours - theirs).abs() <= 1e-9 * ours.abs().max(theirs.abs()) + floor
}

#[test]
fn random_wirings_come_to_the_same_by_linear_algebra() {
    let wirings = Wirings::new();
    for number in 0..300 {
        let work = wirings.number(number);
        let exercise = work.exercise();
        for (positions, on) in every_case(exercise) {
            let conditions = Conditions { on, ..Conditions::complete(exercise, positions) };
            let network = Network::new(&work, &conditions);
            let solution = network.solve();
            let plain: Vec<_> = network.branches.iter().map(|it| (it.a, it.b, 1.0 / it.ohms)).collect();
            let theirs = volts(network.node_count(), [0, 1], 230.0, &plain);
            for branch in &network.branches {
                let across = theirs[branch.a] - theirs[branch.b];
                let (ours, amps) = (branch.volts(&solution), branch.amps(&solution));
                assert!(agree(ours, across, 1e-6), "{number}, {branch:?}: {ours:e} against {across:e}");
                // The witness subtracts: of 230 V the last digit is 3e-14, which across the tie at the origin is some amps.
                let floor = 1e-9 + 6e-14 / branch.ohms;
                assert!(
                    agree(amps, across / branch.ohms, floor),
                    "{number}, {branch:?}: {amps:e} against {:e}",
                    across / branch.ohms
                );
            }
        }
    }
}

/// Networks that no house has: up to 40 nodes, joined any way, from 10 milliohms to 1 kohm. What is small beside the largest
/// voltage and current of the network is compared with those: rounding times the spread of 10^5 and some tens of nodes.
#[test]
fn random_networks_come_to_the_same_by_linear_algebra() {
    let mut dice = Dice::new(4);
    for number in 0..2000 {
        let count = 3 + dice.below(38);
        // A tree first, so that nothing is left out, then as many more.
        let mut branches: Vec<_> = (1..count).map(|it| (dice.below(it), it)).collect();
        branches.extend((0..dice.below(2 * count)).map(|_| (dice.below(count), dice.below(count))));
        branches.retain(|it| it.0 != it.1);
        let branches: Vec<_> = branches.into_iter().map(|(a, b)| (a, b, 1.0 / dice.spread(1e-2, 1e3))).collect();
        let solution = solve(count, [0, 1], 230.0, branches.iter().copied());
        let theirs = volts(count, [0, 1], 230.0, &branches);
        let largest = branches.iter().map(|it| (solution.across(it.0, it.1) * it.2).abs()).fold(0.0, f64::max);
        for (a, b, siemens) in branches {
            let (ours, across) = (solution.across(a, b), theirs[a] - theirs[b]);
            assert!(agree(ours, across, 1e-10 * 230.0), "{number}, {a} to {b}: {ours:e} against {across:e}");
            assert!(
                agree(ours * siemens, across * siemens, 1e-10 * largest),
                "{number}, {a} to {b}, {siemens:e} S: {ours:e} V against {across:e}, largest {largest:e} A"
            );
        }
    }
}

/// Why ours is not such a solver: a core of 1 milliohm held up by 1 Tohm to the line and 1 Tohm to earth at its two ends
/// stands at half of 230 V, less half of the picovolt along it. Ours has that to the last digits. Cholesky, whose pivots are
/// differences, has lost all of them: at its second pivot 1000 S are taken from 1000 S and a million-millionth.
#[test]
fn a_core_held_by_a_teraohm_is_right_where_a_general_solver_is_not() {
    let branches = [(1, 2, 1e-12), (2, 3, 1e3), (3, 0, 1e-12)];
    let ours = solve(4, [0, 1], 230.0, branches);
    assert!((ours.volts(2) - 115.0).abs() < 1e-10 && (ours.volts(3) - 115.0).abs() < 1e-10);
    assert!((ours.across(2, 3) / 1.15e-13 - 1.0).abs() < 1e-10, "{:e}", ours.across(2, 3));
    let theirs = volts(4, [0, 1], 230.0, &branches);
    assert!((theirs[2] - 115.0).abs() > 1e-6, "{theirs:?}");
}
