//! Exercises that nobody can finish: whatever has to be done must have its means. Each check is necessary; passing all
//! proves nothing but that a hand could wire the controls.
//!
//! [`NEEDS`] is the list of the checks. A new kind of task in scenarios is one more function there.

use std::{collections::BTreeMap, sync::Arc};

use super::{Doubt, DoubtKind, Wiring, wiring};
use crate::{
    attempt::settings_to_predict,
    exercise::{EndId, Exercise, LocationId, LocationKind, Named, Stage},
    reason::suspects_alike,
};

/// What has to be there for a task.
type Need = fn(&Exercise, &mut Vec<Doubt>);

const NEEDS: [Need; 7] = [lamps, controls, ends, wired, stages, names, suspects];

pub(super) fn doubts(exercise: &Exercise, found: &mut Vec<Doubt>) {
    for need in NEEDS {
        need(exercise, found);
    }
}

/// Whether a cable ends at a place.
fn has_cable(exercise: &Exercise, place: LocationId) -> bool {
    exercise.cables.iter().any(|it| it.between.contains(&place))
}

fn lamps(exercise: &Exercise, found: &mut Vec<Doubt>) {
    for lamp in exercise.lamps.iter().filter(|it| !has_cable(exercise, it.location)) {
        found.push(Doubt::new(DoubtKind::LampWithoutCable, Named::Location(lamp.location), 0.0, 0.0));
    }
}

/// Cables lead from a board to the lamp and to each of its switches.
fn controls(exercise: &Exercise, found: &mut Vec<Doubt>) {
    let mut reached: Vec<bool> = exercise.locations.iter().map(|it| it.kind == LocationKind::Board).collect();
    // At most as often as there are places: each round takes every way one cable further.
    for _ in 0..exercise.locations.len() {
        for it in &exercise.cables {
            let [a, b] = it.between.map(LocationId::index);
            let either = reached[a] || reached[b];
            (reached[a], reached[b]) = (either, either);
        }
    }
    for (number, control) in exercise.controls.iter().enumerate() {
        let lamp = exercise.lamps[control.lamp].location;
        let switches = control.switches.iter().map(|it| exercise.switches[*it].location);
        // A lamp that has no cable at all is said already.
        let cut_off =
            switches.chain([lamp]).find(|it| !reached[it.index()] && (*it != lamp || has_cable(exercise, lamp)));
        if let Some(place) = cut_off {
            let doubt = Doubt::new(DoubtKind::ControlCutOff, Named::Control(number), 0.0, 0.0);
            found.push(Doubt { place: Some(place), ..doubt });
        }
    }
}

/// Some wiring of what is there does every control. Asked only where no simpler check has already said why not.
fn wired(exercise: &Exercise, found: &mut Vec<Doubt>) {
    let said = |it: &Doubt| {
        use DoubtKind::{ControlCutOff, EndsOutOfReach, JoinsOnly, LampWithoutCable, TooFewConductors, TooFewContacts};
        let of_wiring = [ControlCutOff, EndsOutOfReach, JoinsOnly, LampWithoutCable, TooFewConductors, TooFewContacts];
        of_wiring.contains(&it.kind)
    };
    if found.iter().any(said) {
        return;
    }
    if let Wiring::Nothing(control) = wiring(exercise) {
        found.push(Doubt::new(DoubtKind::NoWiring, Named::Control(control), 0.0, 0.0));
    }
}

/// Ends for the learner to connect stand where a cover comes off.
fn ends(exercise: &Exercise, found: &mut Vec<Doubt>) {
    let mut out_of_reach: BTreeMap<(usize, LocationId), usize> = BTreeMap::new();
    for (conductor, it) in exercise.conductors.iter().enumerate() {
        for end in EndId::of(conductor) {
            let Some(facts) = exercise.end_facts(end) else { continue };
            if exercise.is_learners(end) && !exercise.opens(facts.location) {
                *out_of_reach.entry((it.cable, facts.location)).or_default() += 1;
            }
        }
    }
    for ((cable, place), count) in out_of_reach {
        let doubt = Doubt::new(DoubtKind::EndsOutOfReach, Named::Cable(cable), count as f64, 0.0);
        found.push(Doubt { place: Some(place), ..doubt });
    }
}

/// Each stage has something to be done on.
fn stages(exercise: &Exercise, found: &mut Vec<Doubt>) {
    for (number, stage) in exercise.stages.iter().enumerate() {
        let has = match stage {
            Stage::Naming => exercise.unmarked_ids().next().is_some(),
            Stage::Prediction => !settings_to_predict(exercise).is_empty(),
            Stage::FunctionalTest | Stage::Continuity | Stage::Polarity => !exercise.controls.is_empty(),
            Stage::ResidualDevice => exercise.devices.iter().any(|it| it.kind.residual_amps().is_some()),
            Stage::Isolation | Stage::Inspection => !exercise.learners_places().is_empty(),
            Stage::Diagnosis => !exercise.suspects.is_empty(),
            // Where nothing is wrong, to say nothing is the answer.
            Stage::Observations => exercise.is_inspected(),
            Stage::Insulation | Stage::EnergisingChecks | Stage::SupplyPolarity | Stage::LoopImpedance => true,
        };
        if !has {
            found.push(Doubt::new(DoubtKind::StageOfNothing, Named::Stage(number), 0.0, 0.0));
        }
    }
}

/// A fault to be found can be told from the others. Where two can't, either is a right answer: the author may not have meant that.
fn suspects(exercise: &Exercise, found: &mut Vec<Doubt>) {
    let Some(stage) = exercise.stages.iter().position(|it| *it == Stage::Diagnosis) else { return };
    for [one, other] in suspects_alike(&Arc::new(exercise.clone())) {
        found.push(Doubt::new(DoubtKind::SuspectsAlike, Named::Stage(stage), one as f64, other as f64));
    }
}

/// What people call a place or a cable is all that a learner reads of it.
fn names(exercise: &Exercise, found: &mut Vec<Doubt>) {
    let places = exercise.locations.with_ids().map(|(id, it)| (&it.name, Named::Location(id)));
    let cables = exercise.cables.iter().enumerate().map(|(id, it)| (&it.name, Named::Cable(id)));
    let lists: [Vec<(&String, Named)>; 2] = [places.collect(), cables.collect()];
    for list in lists {
        let mut seen = Vec::new();
        for (name, at) in list {
            let heard = name.trim().to_lowercase();
            if seen.contains(&heard) {
                found.push(Doubt::new(DoubtKind::SameName, at, 0.0, 0.0));
            }
            seen.push(heard);
        }
    }
}
