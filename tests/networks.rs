//! Laws of networks, on random networks of plain branches: Kirchhoff's, reciprocity, order, Rayleigh's.

use proptest::{collection::vec, prelude::*};
use switchdrop::circuit::{Solution, solve};

use crate::random::cases;

type Branches = Vec<(usize, usize, f64)>;

/// As likely in each power of ten: a contact to insulation.
fn ohms() -> impl Strategy<Value = f64> {
    (-3.0..12.0_f64).prop_map(|it| 10.0_f64.powf(it))
}

/// Node 0 and 1 held; every node joined to an earlier one, then as many branches more, any way.
fn joined() -> impl Strategy<Value = (usize, Branches)> {
    (3..14_usize).prop_flat_map(|count| {
        let tree = vec((any::<prop::sample::Index>(), ohms()), count - 1);
        let more = vec((0..count, 0..count, ohms()), 0..2 * count);
        (tree, more).prop_map(move |(tree, more)| {
            let mut branches: Branches =
                tree.into_iter().enumerate().map(|(it, (to, ohms))| (to.index(it + 1), it + 1, ohms)).collect();
            branches.extend(more.into_iter().filter(|it| it.0 != it.1));
            (count, branches)
        })
    })
}

fn solved(count: usize, held: [usize; 2], volts: f64, branches: &Branches) -> Solution {
    solve(count, held, volts, branches.iter().map(|it| (it.0, it.1, 1.0 / it.2)))
}

fn amps(solution: &Solution, (a, b, ohms): (usize, usize, f64)) -> f64 {
    solution.across(a, b) / ohms
}

fn same(one: f64, other: f64, scale: f64) -> bool {
    (one - other).abs() <= 1e-9 * one.abs().max(other.abs()) + 1e-12 * scale
}

proptest! {
    #![proptest_config(cases(2000))]

    /// Kirchhoff's second law: round any loop, and so by any way, differences are those of the nodes' voltages; no node is
    /// outside what holds it.
    #[test]
    fn differences_are_those_of_the_voltages((count, branches) in joined()) {
        let solution = solved(count, [0, 1], 230.0, &branches);
        for (a, b, _) in &branches {
            let (across, apart) = (solution.across(*a, *b), solution.volts(*a) - solution.volts(*b));
            prop_assert!((across - apart).abs() <= 1e-10, "{a} to {b}: {across:e}, {apart:e}");
        }
        for node in 0..count {
            prop_assert!((-1e-10..=230.0 + 1e-10).contains(&solution.volts(node)), "{}", solution.volts(node));
        }
    }

    /// Kirchhoff's first law at every node that is not held: to 10^-9 of the largest current there, or, where only leakage
    /// flows, to 10^-12 of the largest in the network.
    #[test]
    fn what_flows_to_a_node_flows_away((count, branches) in joined()) {
        let solution = solved(count, [0, 1], 230.0, &branches);
        let (mut sum, mut largest) = (vec![0.0; count], vec![0.0_f64; count]);
        for branch in &branches {
            let amps = amps(&solution, *branch);
            sum[branch.0] -= amps;
            sum[branch.1] += amps;
            for node in [branch.0, branch.1] {
                largest[node] = largest[node].max(amps.abs());
            }
        }
        let of_all = largest.iter().copied().fold(0.0, f64::max);
        for node in 2..count {
            let allowed = (1e-9 * largest[node]).max(1e-12 * of_all);
            prop_assert!(sum[node].abs() <= allowed, "{node}: {:e} of {:e}, {:e}", sum[node], largest[node], of_all);
        }
    }

    /// Reciprocity (Maxwell): a source in one branch drives in another the current that, put there, it drives in the first.
    #[test]
    fn source_and_ammeter_may_change_places((count, branches) in joined(), one in ohms(), two in ohms()) {
        // Two more branches, from node 0 to 2 and from node 1 to the last; the source goes in series with either.
        let (first, second) = ((0, 2, one), (1, count - 1, two));
        let driven = |from: (usize, usize, f64), through: (usize, usize, f64)| {
            let mut all = branches.clone();
            // A node between the source and the branch's ohms.
            all.push((count, from.1, from.2));
            all.push(through);
            let solution = solved(count + 1, [from.0, count], 230.0, &all);
            (amps(&solution, through), amps(&solution, (count, from.1, from.2)))
        };
        prop_assume!(count > 3);
        let ((there, source), (back, other)) = (driven(first, second), driven(second, first));
        prop_assert!(same(there, back, source.abs().max(other.abs())), "{there:e} and {back:e}");
    }

    /// Nodes have no order.
    #[test]
    fn numbering_the_nodes_otherwise_changes_nothing((count, branches) in joined(), by in any::<prop::sample::Index>()) {
        // Turned round and mirrored: a permutation that moves everything.
        let turned = |it: usize| count - 1 - (it + by.index(count)) % count;
        let solution = solved(count, [0, 1], 230.0, &branches);
        let other: Branches = branches.iter().rev().map(|it| (turned(it.1), turned(it.0), it.2)).collect();
        let other = solved(count, [turned(0), turned(1)], 230.0, &other);
        for node in 0..count {
            prop_assert!(same(solution.volts(node), other.volts(turned(node)), 1.0));
            prop_assert!(same(solution.ohms_behind(node), other.ohms_behind(turned(node)), 0.0));
        }
        let largest = branches.iter().map(|it| amps(&solution, *it).abs()).fold(0.0, f64::max);
        for (a, b, ohms) in branches {
            let (one, two) = (amps(&solution, (a, b, ohms)), amps(&other, (turned(a), turned(b), ohms)));
            prop_assert!(same(one, two, largest), "{one:e} and {two:e}");
        }
    }

    /// Two theorems, each for every network of resistances with one source, whatever else is in it. Thevenin: the current
    /// of a conductor is what is behind it over its own ohms and those behind it, so a longer one never carries more, nor
    /// the other way. Rayleigh (Theory of Sound, 305): nor does the source then give more. Of *other* conductors neither
    /// says anything: a parallel path carries more.
    #[test]
    fn a_longer_conductor_never_carries_more((count, branches) in joined(), at in any::<prop::sample::Index>(), by in 1.001..1000.0_f64) {
        let at = at.index(branches.len());
        let mut longer = branches.clone();
        longer[at].2 *= by;
        let (before, after) = (solved(count, [0, 1], 230.0, &branches), solved(count, [0, 1], 230.0, &longer));
        let largest = branches.iter().map(|it| amps(&before, *it).abs()).fold(0.0, f64::max);
        let (one, two) = (amps(&before, branches[at]), amps(&after, longer[at]));
        prop_assert!(two.abs() <= one.abs() + 1e-12 * largest, "{two:e} after {one:e}");
        prop_assert!(one * two >= 0.0 || one.abs().min(two.abs()) <= 1e-12 * largest, "{two:e} after {one:e}");
        let given = |solution: &Solution, branches: &Branches| -> f64 {
            let away = branches.iter().filter(|it| it.0 == 1).map(|it| amps(solution, *it)).sum::<f64>();
            away - branches.iter().filter(|it| it.1 == 1).map(|it| amps(solution, *it)).sum::<f64>()
        };
        let (one, two) = (given(&before, &branches), given(&after, &longer));
        prop_assert!(two <= one * (1.0 + 1e-9) + 1e-12 * largest, "the source gives {two:e} after {one:e}");
    }

    /// A part that no branch joins to the rest stands at nothing, carries nothing, and changes nothing.
    #[test]
    fn a_part_joined_to_nothing_carries_nothing((count, branches) in joined(), (more, island) in joined()) {
        let alone = solved(count, [0, 1], 230.0, &branches);
        let apart: Branches = island.iter().map(|it| (it.0 + count, it.1 + count, it.2)).collect();
        let both: Branches = branches.iter().chain(&apart).copied().collect();
        let solution = solved(count + more, [0, 1], 230.0, &both);
        for node in count..count + more {
            prop_assert!(solution.volts(node).abs() <= 0.0);
            prop_assert!(solution.ohms_behind(node) > 1e12, "{}", solution.ohms_behind(node));
        }
        for branch in apart {
            prop_assert!(amps(&solution, branch).abs() <= 0.0);
        }
        for node in 0..count {
            prop_assert!(same(solution.volts(node), alone.volts(node), 1.0));
        }
    }
}
