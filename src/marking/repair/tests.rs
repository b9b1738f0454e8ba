//! What the search sees of a candidate is what the joined view says of a copy of the work with the same moves made.

use super::{
    after, edits,
    judged::JudgedWork,
    neighbours,
    slips::Stand,
    view::{EditedView, Move},
};
use crate::{
    attempt::open,
    circuit::Joined,
    exercise::{EndId, TerminalId, combinations},
    work::{Point, Work},
};

/// The finished work of shipped models: two switches of one light, and a light with one switch.
fn works() -> Vec<Work> {
    let models = [
        include_str!("../../../exercises/two-way-passage/model.attempt.ron"),
        include_str!("../../../exercises/one-way-rose/model.attempt.ron"),
    ];
    models.iter().map(|it| open(it).unwrap().replay().unwrap().work().clone()).collect()
}

fn settings(work: &Work) -> Vec<Vec<u8>> {
    let exercise = work.exercise();
    let switches: Vec<_> = exercise.switches.ids().collect();
    combinations(exercise, &switches, &vec![0; switches.len()])
}

/// Slips and pairs of slips, an even share of all there are.
fn candidates(work: &Work) -> Vec<Vec<Move>> {
    let stand = Stand::new(work);
    let ends: Vec<EndId> = work.ends().collect();
    let first = stand.slips(&ends);
    let mut all: Vec<Vec<Move>> = vec![Vec::new()];
    for (number, one) in first.iter().enumerate() {
        let second = stand.after(one).slips(&ends);
        all.push(one.clone());
        all.push([one.as_slice(), &second[number * 31 % second.len()]].concat());
    }
    all
}

/// Every lamp on line and neutral of one device or on its neutral alone, no bars joined, and each press doing what it must.
fn is_right(work: &Work) -> bool {
    let exercise = work.exercise();
    let settings = settings(work);
    let mut lit: Vec<Vec<bool>> = Vec::new();
    for positions in &settings {
        let mut joined = Joined::new(work, positions);
        let mut same = |a: TerminalId, b: TerminalId| joined.same(work, Point::Terminal(a), Point::Terminal(b));
        let bars: Vec<TerminalId> =
            exercise.devices.iter().flat_map(|it| [it.line, it.neutral]).chain(exercise.earth_bars()).collect();
        if (0..bars.len()).any(|a| (a + 1..bars.len()).any(|b| same(bars[a], bars[b]))) {
            return false;
        }
        let mut row = Vec::new();
        for lamp in &exercise.lamps {
            let [a, b] = lamp.contacts;
            let fed = [(a, b), (b, a)].into_iter().find_map(|(a, b)| {
                let own = exercise.devices.iter().find(|it| same(a, it.neutral))?;
                let lines: Vec<bool> = exercise.devices.iter().map(|it| same(b, it.line)).collect();
                Some((same(b, own.line), lines.iter().any(|it| *it)))
            });
            // On its own neutral but another device's line, a lamp is neither lit nor off: the wiring is unsound.
            match fed {
                Some((true, _)) => row.push(true),
                Some((false, false)) => row.push(false),
                _ => return false,
            }
        }
        lit.push(row);
    }
    exercise.controls.iter().all(|control| {
        (0..settings.len()).all(|here| {
            (0..exercise.switches.len()).all(|switch| {
                let must = control.switches.iter().any(|it| it.index() == switch);
                neighbours(exercise, &settings, here, switch)
                    .all(|there| (lit[here][control.lamp.index()] != lit[there][control.lamp.index()]) == must)
            })
        })
    })
}

/// By comparing every two combinations, of all there are and of those left when some are taken out.
#[test]
fn neighbours_differ_in_one_switch_alone() {
    for work in works() {
        let all = settings(&work);
        let some: Vec<Vec<u8>> = all.iter().skip(1).cloned().collect();
        for settings in [&all, &some] {
            for here in 0..settings.len() {
                for switch in 0..work.exercise().switches.len() {
                    let differs = |there: &usize| {
                        let pairs = settings[here].iter().zip(&settings[*there]).enumerate();
                        let mut odd = pairs.filter(|(_, (a, b))| a != b).map(|it| it.0);
                        odd.next() == Some(switch) && odd.next().is_none()
                    };
                    let expected: Vec<usize> = (0..settings.len()).filter(differs).collect();
                    let found: Vec<usize> = neighbours(work.exercise(), settings, here, switch).collect();
                    assert_eq!(found, expected, "{:?}, {switch}", settings[here]);
                }
            }
        }
    }
}

/// The same, and each with a slip in it: what a search starts from.
fn works_right_and_wrong() -> Vec<Work> {
    let slipped = |work: &Work, number: usize| {
        let ends: Vec<EndId> = work.ends().collect();
        let slips = Stand::new(work).slips(&ends);
        after(work, &edits(&slips[number * 97 % slips.len()]))
    };
    let wrong = works().into_iter().flat_map(|it| (1..8).map(move |number| slipped(&it, number))).collect();
    [works(), wrong].concat()
}

#[test]
fn a_candidate_is_seen_as_a_copy_with_its_moves_made() {
    let mut wrong_works = 0;
    for work in works_right_and_wrong() {
        wrong_works += usize::from(!is_right(&work));
        let judged = JudgedWork::new(EditedView::new(&work), &[]);
        let terminals: Vec<TerminalId> = work.exercise().terminals.ids().collect();
        let (mut right, mut wrong) = (0, 0);
        for (number, moves) in candidates(&work).into_iter().enumerate() {
            let copy = after(&work, &edits(&moves));
            assert_eq!(judged.is_right(&moves), is_right(&copy), "{moves:?}");
            *(if is_right(&copy) { &mut right } else { &mut wrong }) += 1;
            assert_eq!(judged.view.unearthed(&moves), EditedView::new(&copy).unearthed(&[]), "{moves:?}");
            if number % 16 == 0 {
                let nets = judged.view.lasting(&moves);
                let mut joined = Joined::new(&copy, &[]);
                for a in &terminals {
                    for b in &terminals {
                        let same = joined.same(&copy, Point::Terminal(*a), Point::Terminal(*b));
                        assert_eq!(nets.root(*a) == nets.root(*b), same, "{moves:?}");
                    }
                }
            }
        }
        assert!(!is_right(&work) || right > 3, "{right} right");
        assert!(wrong > 100, "{wrong} wrong");
    }
    assert!(wrong_works > 4, "only {wrong_works} wrong works");
}
