//! Settings of the switches: which combinations a place, a control or a prediction asks for.

use std::collections::BTreeSet;

use crate::{
    exercise::{Control, Exercise, LocationId, SwitchId, combinations},
    work::Work,
};

/// The positions of the switches of one location.
pub(super) fn here(work: &Work, location: LocationId, positions: &[u8]) -> Vec<u8> {
    work.exercise().switches_at(location).map(|it| positions[it.index()]).collect()
}

/// The positions of a control's switches.
pub(super) fn of(control: &Control, positions: &[u8]) -> Vec<u8> {
    control.switches.iter().map(|it| positions[it.index()]).collect()
}

/// Every setting of one control's switches, in counting order.
pub(in crate::attempt) fn settings_of(exercise: &Exercise, control: usize) -> Vec<Vec<u8>> {
    let Some(control) = exercise.controls.get(control) else { return Vec::new() };
    let all = combinations(exercise, &control.switches, &vec![0; exercise.switches.len()]);
    all.iter().map(|it| of(control, it)).collect()
}

/// The settings still to do, of all those of each control that the exercise is about.
pub(super) fn left(exercise: &Exercise, done: &BTreeSet<(usize, Vec<u8>)>) -> Vec<(usize, Vec<u8>)> {
    let positions = vec![0; exercise.switches.len()];
    let mut left = Vec::new();
    for (index, control) in exercise.asked_controls() {
        for setting in combinations(exercise, &control.switches, &positions) {
            if !done.contains(&(index, of(control, &setting))) {
                left.push((index, setting));
            }
        }
    }
    left
}

/// The settings that a prediction is asked for: every combination of the switches of the controls that the exercise is about, the
/// others in position 0.
pub fn settings_to_predict(exercise: &Exercise) -> Vec<Vec<u8>> {
    let mut switches: Vec<SwitchId> = exercise.asked_controls().flat_map(|it| it.1.switches.clone()).collect();
    switches.sort_unstable();
    switches.dedup();
    combinations(exercise, &switches, &vec![0; exercise.switches.len()])
}
