//! Published tables and worked examples, come to by networks and the solver: conductors metre by metre, read by an ohmmeter
//! or fed by a source. Sources are named as trade articles, textbooks and makers' sheets quote them; the standard's own
//! tables were not held. "CALC" stands for a figure worked out by hand from the formula beside it.

use super::plain::Plain;

#[track_caller]
fn near(found: f64, published: f64, within: f64) {
    assert!((found - published).abs() <= within, "{found} is not {published} within {within}");
}

/// A radial circuit with line and cpc joined at its far end, and the reading between them at the board.
fn r1_plus_r2(line: f64, cpc: f64, metres: usize, celsius: f64) -> f64 {
    let mut circuit = Plain::default();
    let (a, b) = (circuit.node(), circuit.node());
    let (far_a, far_b) = (circuit.run(a, line, metres, celsius), circuit.run(b, cpc, metres, celsius));
    // The link of the test, of no length.
    circuit.ohms(far_a, far_b, 1.0e-9);
    circuit.read(a, b)
}

/// Locke, Guide to the Wiring Regulations (Wiley 2008), Appendix 4, milliohms a metre at 20 °C; 1.0/1.0, 4/2.5 CALC.
#[test]
fn r1_plus_r2_of_a_metre_is_the_published_one() {
    for (line, cpc, milliohms) in [
        (1.0, 1.0, 36.20),
        (1.5, 1.0, 30.20),
        (1.5, 1.5, 24.20),
        (2.5, 1.5, 19.51),
        (2.5, 2.5, 14.82),
        (4.0, 1.5, 16.71),
        (4.0, 2.5, 12.02),
        (6.0, 2.5, 10.49),
        (10.0, 4.0, 6.44),
        (16.0, 6.0, 4.23),
    ] {
        near(1000.0 * r1_plus_r2(line, cpc, 1, 20.0), milliohms, 0.005);
    }
}

/// 22 m of 2.5/1.5: 0.163 + 0.266 = 0.429 ohm (a trade discussion citing the On-Site Guide's Table 11). 50 m of 1.5/1.0:
/// 1.51 ohm, and of 2.5/1.5: 0.98 ohm (Locke, Appendix 4).
#[test]
fn r1_plus_r2_of_a_run_is_the_worked_example() {
    near(r1_plus_r2(2.5, 1.5, 22, 20.0), 0.429, 0.0005);
    near(r1_plus_r2(1.5, 1.0, 50, 20.0), 1.51, 0.005);
    near(r1_plus_r2(2.5, 1.5, 50, 20.0), 0.98, 0.005);
}

/// Multipliers: 1.20 at 70 °C (a worked answer in a trade forum), 1.28 at 90 °C and 1.04 for a cpc that is not bunched
/// (On-Site Guide, from memory), and the ambient corrections of the same formula (CALC).
#[test]
fn heat_multiplies_a_reading_by_the_published_factors() {
    let cold = r1_plus_r2(1.5, 1.0, 20, 20.0);
    for (celsius, factor) in
        [(70.0, 1.20), (90.0, 1.28), (30.0, 1.04), (5.0, 0.94), (10.0, 0.96), (15.0, 0.98), (25.0, 1.02)]
    {
        near(r1_plus_r2(1.5, 1.0, 20, celsius) / cold, factor, 0.0005);
    }
}

/// A circuit at 70 °C on a supply of this loop impedance, line against metal at its far end: 230 V over what flows.
fn loop_impedance(supply: f64, line: f64, cpc: f64, metres: usize) -> f64 {
    let mut circuit = Plain::default();
    let (star, source, earth) = (circuit.node(), circuit.node(), circuit.node());
    circuit.ohms(earth, star, supply);
    let (far_line, far_cpc) = (circuit.run(source, line, metres, 70.0), circuit.run(earth, cpc, metres, 70.0));
    circuit.ohms(far_line, far_cpc, 1.0e-9);
    let solution = circuit.solved(star, source, 230.0);
    230.0 / circuit.amps(&solution, 0)
}

/// 10 m of 1.5/1.0 on a supply of 0.6 ohm: R1+R2 0.36, Zs 0.96 ohm (a worked answer in a trade forum). 25 m on 0.35 ohm:
/// 0.906 hot, 1.256 together, 183 A (CALC: 25 x 0.0302 x 1.2; 230 / 1.256).
#[test]
fn loop_impedance_is_the_worked_example() {
    near(loop_impedance(0.6, 1.5, 1.0, 10), 0.96, 0.005);
    near(loop_impedance(0.6, 1.5, 1.0, 10) - 0.6, 0.36, 0.005);
    near(loop_impedance(0.35, 1.5, 1.0, 25), 1.256, 0.0005);
    near(230.0 / loop_impedance(0.35, 1.5, 1.0, 25), 183.0, 0.5);
}

/// BS 7671 Table 41.3 as the trade quotes it: at the largest loop impedance, a source at 95 % of 230 V drives 5, 10 or 20
/// times the rating of a type B, C or D. The table has three figures, so half a hundredth of an ohm is its rounding.
#[test]
fn the_largest_loop_impedance_drives_what_opens_a_breaker_at_once() {
    let table = [
        (6.0, [7.28, 3.64, 1.82]),
        (10.0, [4.37, 2.19, 1.09]),
        (16.0, [2.73, 1.37, 0.68]),
        (20.0, [2.19, 1.09, 0.55]),
        (32.0, [1.37, 0.68, 0.34]),
    ];
    for (rated, row) in table {
        for (times, ohms) in [5.0, 10.0, 20.0].into_iter().zip(row) {
            let mut circuit = Plain::default();
            let (star, source) = (circuit.node(), circuit.node());
            // In two parts, as it is in a house.
            let metal = circuit.node();
            circuit.ohms(source, metal, ohms * 0.3);
            circuit.ohms(metal, star, ohms * 0.7);
            let amps = circuit.amps(&circuit.solved(star, source, 230.0 * 0.95), 0);
            near(amps, times * rated, times * rated * 0.005 / ohms);
        }
    }
}

/// Volts lost by one amp over a metre of line and neutral at 70 °C, milliohms.
fn millivolts_per_amp_metre(mm2: f64) -> f64 {
    let metres = 20;
    let mut circuit = Plain::default();
    let (star, source) = (circuit.node(), circuit.node());
    let (line, neutral) = (circuit.run(source, mm2, metres, 70.0), circuit.run(star, mm2, metres, 70.0));
    let load = circuit.branches.len();
    circuit.ohms(line, neutral, 40.0);
    let solution = circuit.solved(star, source, 230.0);
    let lost = 230.0 - (solution.volts(line) - solution.volts(neutral));
    1000.0 * lost / circuit.amps(&solution, load) / metres as f64
}

/// Table 4D1B (a catalogue of cables quotes it; 4D5 for flat twin has the same figures, from memory): mV/A/m. Its 6 mm²
/// figure is 1.2 % below the sum of two resistances, so 1.5 % is allowed.
#[test]
fn volts_lost_are_those_of_the_cable_tables() {
    for (mm2, table) in [(1.0, 44.0), (1.5, 29.0), (2.5, 18.0), (4.0, 11.0), (6.0, 7.3), (10.0, 4.4), (16.0, 2.8)] {
        near(millivolts_per_amp_metre(mm2), table, 0.015 * table);
    }
}

/// Own example (CALC): 6 A at the end of 25 m of 1.5 mm²: 29 x 6 x 25 / 1000 = 4.35 V by the table, 1.89 % of 230.
#[test]
fn a_lighting_circuit_at_its_rating_loses_what_the_table_says() {
    let lost = millivolts_per_amp_metre(1.5) * 6.0 * 25.0 / 1000.0;
    near(lost, 4.35, 0.015 * 4.35);
    near(lost / 2.30, 1.89, 0.03);
}

/// The two conductors of a ring, their ends at the board joined across: each one's beginning to the other's end, so that
/// the two make one loop with both ends of it together. Sockets are the nodes of the same metre.
struct Ring {
    circuit: Plain,
    one: Vec<usize>,
    two: Vec<usize>,
}

/// How the ends are joined for steps 2 and 3.
#[derive(Clone, Copy)]
enum Linked {
    Across,
    Straight,
}

fn ring(one: f64, two: f64, metres: usize, linked: Linked) -> Ring {
    let mut circuit = Plain::default();
    let (one, two) = (circuit.leg(one, metres), circuit.leg(two, metres));
    let far = match linked {
        Linked::Across => [two[metres], two[0]],
        Linked::Straight => [two[0], two[metres]],
    };
    circuit.ohms(one[0], far[0], 1.0e-9);
    circuit.ohms(one[metres], far[1], 1.0e-9);
    Ring { circuit, one, two }
}

impl Ring {
    fn at(&self, metre: usize) -> f64 {
        self.circuit.read(self.one[metre], self.two[metre])
    }
}

/// 60 m of 2.5/1.5 (CALC from Table 60228): step 1 reads 0.445, 0.445 and 0.726 ohm.
#[test]
fn step_one_of_the_ring_reads_each_conductor_end_to_end() {
    for (mm2, ohms) in [(2.5, 0.445), (1.5, 0.726)] {
        let mut circuit = Plain::default();
        let leg = circuit.leg(mm2, 60);
        near(circuit.read(leg[0], leg[60]), ohms, 0.0005);
    }
}

/// Step 2, line and neutral linked across: a quarter of their sum at every socket (a trade discussion for the rule,
/// Linsley, Basic Electrical Installation Work, p. 354, for "substantially the same"): 0.222 ohm (CALC).
#[test]
fn step_two_of_the_ring_reads_the_same_everywhere() {
    let ring = ring(2.5, 2.5, 60, Linked::Across);
    for metre in 0..=60 {
        near(ring.at(metre), 0.222, 0.0005);
        near(ring.at(metre), 60.0 * (0.00741 + 0.00741) / 4.0, 1e-8);
    }
}

/// Step 3, line and cpc linked across: the exact profile is R(x) = r1 r2/(r1+r2) + (r1-r2)²/(r1+r2) x(1-x) (CALC: the
/// two paths from socket to socket are r1 x + r2 (1-x) and r1 (1-x) + r2 x, in parallel); 0.276, 0.288 and 0.293 ohm at
/// the board, a quarter and half way.
#[test]
fn step_three_of_the_ring_follows_its_exact_profile() {
    let ring = ring(2.5, 1.5, 60, Linked::Across);
    for (metre, ohms) in [(0, 0.276), (15, 0.288), (30, 0.293)] {
        near(ring.at(metre), ohms, 0.0005);
    }
    let (r1, r2): (f64, f64) = (60.0 * 0.00741, 60.0 * 0.01210);
    for metre in 0..=60 {
        let x = metre as f64 / 60.0;
        near(ring.at(metre), r1 * r2 / (r1 + r2) + (r1 - r2).powi(2) / (r1 + r2) * x * (1.0 - x), 1e-8);
    }
}

/// Linked straight instead: near nothing at the board, 0.080, 0.167 and 0.222 ohm at 10, 25 and 50 % (CALC: x(1-x)(r1+rn)).
#[test]
fn a_ring_linked_straight_shows_it() {
    let ring = ring(2.5, 2.5, 60, Linked::Straight);
    for (metre, ohms) in [(0, 0.0), (6, 0.080), (15, 0.167), (30, 0.222)] {
        near(ring.at(metre), ohms, 0.0005);
    }
}

/// A spur of 8 m adds 0.119 ohm between line and neutral, 0.156 between line and cpc (CALC: 8 x 14.82, 8 x 19.51 mohm).
#[test]
fn a_spur_adds_its_own_length() {
    for (two, ohms) in [(2.5, 0.119), (1.5, 0.156)] {
        let mut ring = ring(2.5, two, 60, Linked::Across);
        let (a, b) = (ring.circuit.run(ring.one[20], 2.5, 8, 20.0), ring.circuit.run(ring.two[20], two, 8, 20.0));
        near(ring.circuit.read(a, b) - ring.at(20), ohms, 0.0005);
    }
}

/// A ring of 0.54 ohm line and 0.90 cpc: 0.36 published for the middle (a trade discussion that points to the On-Site
/// Guide); at the board 0.3375, product over sum.
#[test]
fn the_published_ring_reads_what_its_author_says() {
    let mut circuit = Plain::default();
    let [board, back, line, cpc] = [(); 4].map(|()| circuit.node());
    // Line from the board to the middle and back, cpc likewise, linked across.
    for (a, b, ohms) in [(board, line, 0.27), (line, back, 0.27), (back, cpc, 0.45), (cpc, board, 0.45)] {
        circuit.ohms(a, b, ohms);
    }
    near(circuit.read(line, cpc), 0.36, 0.0005);
    near(circuit.read(board, back), 0.3375, 0.00005);
}
