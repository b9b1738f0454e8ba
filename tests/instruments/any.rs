//! Any function between any two points of any wiring.

use std::{collections::BTreeSet, sync::Arc};

use proptest::{collection::vec, prelude::*, sample::Index};
use switchdrop::{
    circuit::instrument::{Function, LeadLength, LeadState, Setting, Shown, reading},
    exercise::{EndId, TerminalId},
    trade::instrument::{insulation::TestVolts, loop_impedance::Range, rcd::Test},
    work::{Action, Edit, Point, Power, Work},
};

use super::{dead, does};
use crate::{
    hand::{exercise, one_way_model},
    random::cases,
};

/// Every terminal and every loose end of a work.
fn points(work: &Work) -> Vec<Point> {
    let terminals = work.exercise().terminals.ids().map(Point::Terminal);
    let loose = work.ends().filter(|it: &EndId| work.terminal_of(*it).is_none()).map(Point::End);
    terminals.chain(loose).collect()
}

/// Every function in every range.
const FUNCTIONS: [Function; 10] = [
    Function::Continuity,
    Function::Insulation(TestVolts::V250),
    Function::Insulation(TestVolts::V500),
    Function::Voltage,
    Function::Indicator,
    Function::Loop(Range::High),
    Function::Loop(Range::NoTrip),
    Function::Rcd(Test::Half),
    Function::Rcd(Test::Rated),
    Function::Rcd(Test::FiveTimes),
];

/// A work with its devices on or off, its lamps in or out, its switches anywhere, and any ends anywhere near.
fn anything(id: &str, moved: &[(Index, Option<Index>)], stands: &[Index]) -> Work {
    let mut work = Work::new(exercise(id, 4));
    let exercise = Arc::clone(work.exercise());
    let ends: Vec<EndId> = work.ends().collect();
    for (end, to) in moved {
        let end = *end.get(&ends);
        let near: Vec<TerminalId> = exercise.terminals_at(work.end_location(end)).collect();
        work.edit(&Edit::Move(end, to.map(|it| *it.get(&near))));
    }
    let mut stands = stands.iter();
    let mut either = || stands.next().is_some_and(|it| it.index(2) == 1);
    for it in &exercise.devices {
        if either() {
            does(&mut work, Action::PowerOff { device: it.address.clone() });
        }
    }
    for it in &exercise.lamps {
        if either() {
            does(&mut work, Action::RemoveLamp { lamp: it.address.clone() });
        }
    }
    for it in &exercise.switches {
        if either() {
            does(&mut work, Action::Operate { switch: it.address.clone(), position: 1 });
        }
    }
    work
}

/// A random sample of settings: function, leads, battery, main switch, and a link or none.
fn any_setting(work: &Work, at: &[Index; 6]) -> Setting {
    let mut setting = Setting::of(*at[0].get(&FUNCTIONS));
    let state = *at[1].get(&[LeadState::AsTheyAre, LeadState::Nulled, LeadState::Nulled, LeadState::Broken]);
    setting = setting.with_leads(*at[2].get(&[LeadLength::Short, LeadLength::Long]), state);
    if at[3].index(2) == 0 {
        setting = setting.main_switch_off();
    }
    let points = points(work);
    if at[4].index(2) == 0 {
        setting = setting.linked(*at[4].get(&points), *at[5].get(&points));
    }
    setting
}

proptest! {
    #![proptest_config(cases(96))]

    /// The same twice, the same with the leads exchanged, never a panic; what opens is on.
    #[test]
    fn a_reading_is_pure_and_symmetric_between_any_two_points(
        id in prop_oneof![Just("one-way-rose"), Just("two-way-passage")],
        moved in vec((any::<Index>(), prop::option::weighted(0.8, any::<Index>())), 0..40),
        stands in vec(any::<Index>(), 10),
        tries in vec((any::<[Index; 6]>(), any::<[Index; 2]>()), 12),
    ) {
        let work = anything(id, &moved, &stands);
        let points = points(&work);
        for (how, pair) in tries {
            let setting = any_setting(&work, &how);
            let (a, b) = (*pair[0].get(&points), *pair[1].get(&points));
            let first = reading(&work, &setting, a, b);
            prop_assert_eq!(&first, &reading(&work, &setting, a, b));
            prop_assert_eq!(&first, &reading(&work, &setting, b, a), "{:?} {:?} {:?}", setting, a, b);
            if let Shown::Figure(it) | Shown::Over(it) | Shown::Under(it) = first.shown {
                prop_assert!(it.counts >= 0 && it.value().is_finite());
            }
            for it in &first.opens {
                prop_assert_eq!(work.device_state(*it).power, Power::On);
            }
        }
    }
}

/// Every function between every two points of a finished work: none is without an answer.
#[test]
fn every_two_points_have_a_reading_by_every_function() {
    let live = one_way_model().attempt.work().clone();
    let dead = dead(live.clone());
    let mut seen = BTreeSet::new();
    for work in [live, dead] {
        let points = points(&work);
        for function in FUNCTIONS {
            for (index, a) in points.iter().enumerate() {
                for b in &points[index..] {
                    let shown = reading(&work, &Setting::of(function), *a, *b).shown;
                    // What kind of answer, without its figures.
                    seen.insert(format!("{shown:?}").split('(').next().unwrap_or("").to_owned());
                }
            }
        }
    }
    let kinds: Vec<&str> = seen.iter().map(String::as_str).collect();
    assert_eq!(kinds, ["Figure", "Lights", "Over", "Refused", "Under"]);
}
