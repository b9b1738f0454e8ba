//! A case in words: how the switches stand, what is off, what is out, and what happens in it.

use super::{
    Wording,
    keys::{glow_key, hazard_key},
    outcome::{apart, list},
    place::{device, lamp, position, subject, switch},
};
use crate::{
    circuit::{Row, Witness},
    exercise::{DeviceId, Exercise},
    work::Work,
};

/// Says a case. Switches that no combination moves are named too: a learner sets every one.
pub fn witness(wording: &Wording, exercise: &Exercise, case: &Witness) -> String {
    let switches = exercise.switches.ids();
    let mut parts: Vec<String> = switches
        .zip(&case.positions)
        .map(|(of, at)| {
            let args = [("switch", switch(wording, exercise, of)), ("rocker", position(wording, exercise, of, *at))];
            wording.say("case-switch", &[(args[0].0, &args[0].1), (args[1].0, &args[1].1)])
        })
        .collect();
    if !case.off.is_empty() {
        parts.push(wording.say("case-device-off", &[("devices", &devices(wording, exercise, &case.off))]));
    }
    if !case.out.is_empty() {
        let lamps: Vec<_> = case.out.iter().map(|it| lamp(exercise, *it)).collect();
        parts.push(wording.say("case-lamp-out", &[("lamps", &list(wording, &lamps))]));
    }
    if parts.is_empty() { wording.say("case-everything", &[]) } else { apart(wording, &parts) }
}

/// What every lamp does in one combination, what opens, and what is wrong there.
pub fn row(wording: &Wording, work: &Work, row: &Row) -> String {
    let exercise = work.exercise();
    let case = Witness { positions: row.positions.clone(), ..Witness::default() };
    let ids = exercise.lamps.ids();
    let lamps: Vec<_> = ids
        .zip(&row.lamps)
        .map(|(of, it)| {
            let glow = wording.say(glow_key(it.glow), &[]);
            wording.say("states-lamp", &[("lamp", &lamp(exercise, of)), ("glow", &glow)])
        })
        .collect();
    let args = [("case", witness(wording, exercise, &case)), ("lamps", list(wording, &lamps))];
    let mut said = wording.say("states-row", &[(args[0].0, &args[0].1), (args[1].0, &args[1].1)]);
    for (key, of) in [("states-tripped", row.tripped().collect()), ("states-may-trip", row.may_trip.clone())] {
        if !of.is_empty() {
            said += &wording.say(key, &[("devices", &devices(wording, exercise, &of))]);
        }
    }
    for it in &row.hazards {
        let hazard = wording.say(hazard_key(it.kind), &[]);
        said += &wording.say("states-hazard", &[("hazard", &hazard), ("place", &subject(wording, work, it.at))]);
    }
    said
}

fn devices(wording: &Wording, exercise: &Exercise, of: &[DeviceId]) -> String {
    list(wording, &of.iter().map(|it| device(wording, exercise, *it)).collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::{
        circuit::survey,
        exercise::{Seed, read, shipped},
    };

    #[test]
    fn a_case_is_said_as_one_would_set_it_up() {
        let exercise = read(shipped("two-way-passage").unwrap(), Seed(0)).unwrap();
        let case = Witness { positions: vec![0, 1, 0], off: vec![DeviceId(1)], out: vec![crate::exercise::LampId(0)] };
        assert_eq!(
            witness(&Wording::british(), &exercise, &case),
            "box at the kiln door, left-hand switch rocker down; box at the kiln door, right-hand switch rocker up; box at the \
             clay store door rocker down; circuit 2 off; the lamp out of passage light"
        );
    }

    /// Before the learner comes the scullery has no light yet, and the larder beyond it works by its own switch.
    #[test]
    fn a_row_says_what_each_lamp_does() {
        let work = Work::new(Arc::new(read(shipped("one-way-rose").unwrap(), Seed(0)).unwrap()));
        let survey = survey(&work);
        let said = row(&Wording::british(), &work, &survey.rows[1]);
        let (case, lamps) = said.split_once(": ").unwrap();
        assert_eq!(case, "scullery switch rocker up; larder switch rocker down");
        assert_eq!(lamps, "scullery light off and larder light lit");
    }
}
