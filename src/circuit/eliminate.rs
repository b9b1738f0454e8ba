//! Volts by eliminating one node after another (star to mesh).
//!
//! Only positive numbers are added, multiplied and divided on the way to voltages and Thevenin resistances, so those are
//! right to the last digits however far apart the resistances lie. Differences of neighbours come from the same back
//! substitution and not from subtracting two nearly equal voltages; they have signs, and where only insulation feeds a node
//! some of their digits cancel: the currents there (below a microamp) add up to about 1e-13 of the largest in the network.

/// A solved network of resistances between two held nodes.
#[derive(Debug, Clone)]
pub struct Solution {
    count: usize,
    volts: Vec<f64>,
    differences: Vec<f64>,
    behind: Vec<f64>,
}

impl Solution {
    /// Voltage of a node against the first held node, volts.
    pub fn volts(&self, node: usize) -> f64 {
        self.volts[node]
    }

    /// Voltage of `a` against `b`, volts, for two nodes with a branch between them.
    pub fn across(&self, a: usize, b: usize) -> f64 {
        self.differences[a * self.count + b]
    }

    /// Resistance seen from a node with the held nodes held, ohms (Thevenin).
    pub fn ohms_behind(&self, node: usize) -> f64 {
        self.behind[node * self.count + node]
    }
}

/// One step of the elimination: the node, and its neighbours then with their share of its conductance.
struct Step {
    node: usize,
    siemens: f64,
    shares: Vec<(usize, f64)>,
}

/// Solves a network of `count` nodes in which `held[0]` is at 0 V and `held[1]` at `volts`. Branches are two nodes and a
/// conductance in siemens, above nothing and finite; others are left out. A node that nothing joins to a held one comes out
/// at 0 V with an infinite resistance behind it.
pub fn solve(
    count: usize,
    held: [usize; 2],
    volts: f64,
    branches: impl IntoIterator<Item = (usize, usize, f64)>,
) -> Solution {
    let mut mesh = vec![0.0; count * count];
    for (a, b, siemens) in branches {
        if a < count && b < count && a != b && siemens > 0.0 && siemens.is_finite() {
            mesh[a * count + b] += siemens;
            mesh[b * count + a] += siemens;
        }
    }
    let steps = eliminate(count, held, &mut mesh);
    back_substitute(count, held, volts, &steps)
}

/// Eliminates every node that is not held, fewest neighbours first.
fn eliminate(count: usize, held: [usize; 2], mesh: &mut [f64]) -> Vec<Step> {
    let mut degree: Vec<usize> =
        (0..count).map(|it| mesh[it * count..][..count].iter().filter(|g| **g > 0.0).count()).collect();
    let mut left: Vec<usize> = (0..count).filter(|it| !held.contains(it)).collect();
    let mut steps = Vec::with_capacity(left.len());
    while let Some(place) = (0..left.len()).min_by_key(|it| degree[left[*it]]) {
        let node = left.swap_remove(place);
        let mut shares: Vec<(usize, f64)> =
            (0..count).map(|it| (it, mesh[node * count + it])).filter(|(_, siemens)| *siemens > 0.0).collect();
        let siemens: f64 = shares.iter().map(|(_, it)| it).sum();
        for (neighbour, _) in &shares {
            mesh[neighbour * count + node] = 0.0;
            degree[*neighbour] -= 1;
        }
        for (index, (a, to_a)) in shares.iter().enumerate() {
            for (b, to_b) in &shares[index + 1..] {
                let through = to_a * (to_b / siemens);
                let forth = &mut mesh[a * count + b];
                if *forth == 0.0 && through > 0.0 {
                    degree[*a] += 1;
                    degree[*b] += 1;
                }
                *forth += through;
                mesh[b * count + a] = mesh[a * count + b];
            }
        }
        for (_, share) in &mut shares {
            *share /= siemens;
        }
        steps.push(Step { node, siemens, shares });
    }
    steps
}

/// Goes back through the steps. Neighbours of a node at its elimination are neighbours of each other afterwards, so every
/// difference and mutual resistance that a step needs has been found by the steps after it.
fn back_substitute(count: usize, held: [usize; 2], source: f64, steps: &[Step]) -> Solution {
    let mut volts = vec![0.0; count];
    let mut differences = vec![0.0; count * count];
    let mut behind = vec![0.0; count * count];
    volts[held[1]] = source;
    differences[held[1] * count + held[0]] = source;
    differences[held[0] * count + held[1]] = -source;
    for Step { node, siemens, shares } in steps.iter().rev() {
        if shares.is_empty() {
            behind[node * count + node] = f64::INFINITY;
            continue;
        }
        volts[*node] = shares.iter().map(|(it, share)| share * volts[*it]).sum();
        let mut own = 1.0 / siemens;
        for (a, share) in shares {
            let difference: f64 = shares.iter().map(|(it, share)| share * differences[it * count + a]).sum();
            differences[node * count + a] = difference;
            differences[a * count + node] = -difference;
            let mutual: f64 = shares.iter().map(|(it, share)| share * behind[it * count + a]).sum();
            behind[node * count + a] = mutual;
            behind[a * count + node] = mutual;
            own += share * mutual;
        }
        behind[node * count + node] = own;
    }
    Solution { count, volts, differences, behind }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(found: f64, expected: f64) {
        assert!((found - expected).abs() <= 1e-12 * expected.abs().max(1.0), "{found} is not {expected}");
    }

    /// The balanced bridge of every textbook: nothing flows across it (Wheatstone 1843).
    #[test]
    fn a_balanced_bridge_has_no_difference_across_it() {
        let bridge = [(0, 2, 0.1), (0, 3, 0.2), (1, 2, 0.3), (1, 3, 0.6), (2, 3, 0.05)];
        let solution = solve(4, [0, 1], 12.0, bridge);
        close(solution.volts(2), 9.0);
        assert!(solution.across(2, 3).abs() < 1e-14);
    }

    /// Thevenin's theorem on a divider: 6 ohm and 3 ohm across 9 V is 3 V behind 2 ohm.
    #[test]
    fn a_divider_is_a_source_behind_a_resistance() {
        let solution = solve(3, [0, 1], 9.0, [(1, 2, 1.0 / 6.0), (2, 0, 1.0 / 3.0)]);
        close(solution.volts(2), 3.0);
        close(solution.ohms_behind(2), 2.0);
    }

    /// A milliohm beside a teraohm: the small difference is found, not lost under 230 V.
    #[test]
    fn a_small_drop_is_right_however_far_apart_the_resistances_lie() {
        let amps = 230.0 / (1000.0 + 0.001);
        let solution = solve(3, [0, 1], 230.0, [(1, 2, 1000.0), (2, 0, 0.001), (2, 0, 1e-12)]);
        let expected = amps * 0.001;
        assert!((solution.across(1, 2) / expected - 1.0).abs() < 1e-8, "{}", solution.across(1, 2));
    }

    #[test]
    fn a_node_that_nothing_joins_is_at_nothing() {
        let solution = solve(3, [0, 1], 230.0, [(0, 1, 1.0), (2, 0, f64::NAN), (2, 9, 1.0), (2, 2, 1.0)]);
        close(solution.volts(2), 0.0);
        assert!(solution.ohms_behind(2).is_infinite());
    }
}
