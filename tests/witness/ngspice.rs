//! What ngspice answers: read, and compared with what our solver says.
//!
//! Why a millionth is honest: ngspice factors the whole matrix in double precision. A sound contact is 1,000 S, so what
//! rounding leaves at a node is like 10^-13 S to earth: at 230 V some 10^-11 A, a hundred-thousandth of the floor of 1 uA.
//! It subtracts two node voltages before they are printed; near 230 V that difference is right to 3 * 10^-14 V, and through
//! a contact of 1 mohm that is 3 * 10^-11 A. Its tolerances (reltol, vntol, abstol) say when iteration may stop; a network of
//! resistances is solved anew at each and does not move. `gmin` belongs to semiconductor junctions, and there are none.
//! With `numdgt` at 16 nothing is lost in printing.

use std::collections::BTreeMap;

use switchdrop::circuit::{Branch, Deck, Solution};

/// One part in a million, volts or amps; the same number is the floor: 1 uV, 1 uA.
const SHARE: f64 = 1.0e-6;

/// What rounding leaves at a node, amps: 10^-13 S at 230 V. Where insulation alone holds a node, a fan behind its open isolator, say, that
/// is some microvolts through the megohms behind it.
const ROUNDING_AMPS: f64 = 230.0 * 1.0e-13;

/// The answers of one case by what was printed: `v(a)-v(b)`, `@r1[i]`.
pub type Answers = BTreeMap<String, f64>;

/// The answers of every case, in order.
pub fn answers(printed: &str) -> Vec<Answers> {
    let mut cases: Vec<Answers> = Vec::new();
    for line in printed.lines() {
        if let Some(number) = line.strip_prefix("case ") {
            assert_eq!(number.trim().parse(), Ok(cases.len()), "cases in order");
            cases.push(Answers::new());
        } else if let (true, Some((name, value)), Some(case)) =
            (["v(", "0-v(", "@"].iter().any(|it| line.starts_with(it)), line.split_once(" = "), cases.last_mut())
        {
            let value: f64 = value.trim().parse().unwrap_or_else(|it| panic!("{line}: {it}"));
            case.insert(name.trim().to_owned(), value);
        }
    }
    cases
}

/// Whether two figures are the same to a millionth, or to the floor.
pub fn agree(ours: f64, theirs: f64) -> bool {
    agree_over(ours, theirs, SHARE)
}

fn agree_over(ours: f64, theirs: f64, floor: f64) -> bool {
    (ours - theirs).abs() <= (SHARE * ours.abs().max(theirs.abs())).max(floor)
}

/// Every branch of a case whose voltage or current is not what ngspice says.
pub fn differences(
    deck: &Deck,
    places: &[usize],
    branches: &[Branch],
    solution: &Solution,
    theirs: &Answers,
) -> Vec<String> {
    assert_eq!(places.len(), branches.len(), "none left out");
    let mut wrong = Vec::new();
    for (place, branch) in places.iter().zip(branches) {
        let asked = [deck.elements[*place].volts(), format!("@r{}[i]", place + 1)];
        let behind = solution.ohms_behind(branch.a).max(solution.ohms_behind(branch.b));
        let floors = [(ROUNDING_AMPS * behind).clamp(SHARE, 1.0e-3), SHARE];
        let ours = [branch.volts(solution), branch.amps(solution)];
        for ((asked, ours), floor) in asked.iter().zip(ours).zip(floors) {
            match theirs.get(asked) {
                None => wrong.push(format!("{asked} is not answered")),
                Some(theirs) if !agree_over(ours, *theirs, floor) => {
                    wrong.push(format!("{asked}, {:?}: {ours:e} against {theirs:e}", branch.part));
                }
                Some(_) => {}
            }
        }
    }
    wrong
}

#[test]
fn a_millionth_is_the_line_and_one_micro_the_floor() {
    assert!(agree(1.0, 1.0 + 0.9e-6) && !agree(1.0, 1.0 + 1.1e-6));
    assert!(agree(0.0, 0.9e-6) && !agree(0.0, -1.1e-6));
    assert!(!agree(f64::NAN, 0.0) && !agree(0.0, f64::NAN));
}
