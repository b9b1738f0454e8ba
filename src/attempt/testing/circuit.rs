//! A circuit that the learner works on, and what its tests need: its places, its controls, the readings of its insulation.

use super::{
    Testing,
    spot::{Insulation, controls, insulation_of, places},
};
use crate::{
    exercise::{DeviceId, Exercise, LocationId, Table},
    work::Work,
};

/// A circuit.
#[derive(Debug, Clone)]
pub(super) struct Circuit {
    pub device: DeviceId,
    /// Places and controls that it may come to have.
    may_have: (Vec<LocationId>, Vec<usize>),
    pub places: Vec<LocationId>,
    pub controls: Vec<usize>,
    pub insulation: Insulation,
    pub has_residual: bool,
}

impl Circuit {
    /// A circuit with all the places and controls that it may come to have.
    pub fn new(exercise: &Exercise, reaching: &Table<LocationId, Vec<DeviceId>>, device: DeviceId) -> Self {
        let (places, controls) = (places(exercise, reaching, device), controls(exercise, reaching, device));
        let its = &exercise.devices[device];
        let behind = its.behind.map(|it| exercise.devices[it].kind);
        let residual = [Some(its.kind), behind].into_iter().flatten().any(|it| it.residual_amps().is_some());
        Self {
            device,
            may_have: (places.clone(), controls.clone()),
            places,
            insulation: insulation_of(exercise, &controls),
            controls,
            has_residual: residual,
        }
    }
}

impl Testing {
    /// The work has changed: each of several circuits takes the places and controls that are joined to it; what is
    /// joined to none may belong to any.
    pub(in crate::attempt) fn follow(&mut self, work: &Work) {
        if self.circuits.len() < 2 {
            return;
        }
        let exercise = work.exercise();
        let mut joined = work.joined_ever();
        let mut has = |circuit: &Circuit, node: usize| {
            let its = &exercise.devices[circuit.device];
            [its.line, its.neutral].into_iter().any(|it| joined.same(it.index(), node))
        };
        let mut own = Vec::new();
        for circuit in &self.circuits {
            let mut at_place =
                |it: &LocationId| work.ends_at(*it).any(|end| has(circuit, work.node(work.point_of(end))));
            let places: Vec<LocationId> = circuit.may_have.0.iter().copied().filter(|it| at_place(it)).collect();
            let mut at_lamp = |control: &usize| {
                let lamp = exercise.controls[*control].lamp;
                exercise.lamps[lamp].contacts.into_iter().any(|it| has(circuit, it.index()))
            };
            let controls: Vec<usize> = circuit.may_have.1.iter().copied().filter(|it| at_lamp(it)).collect();
            own.push((places, controls));
        }
        for (index, circuit) in self.circuits.iter_mut().enumerate() {
            let free = |it: &LocationId| own.iter().all(|own| !own.0.contains(it));
            circuit.places = circuit.may_have.0.clone();
            circuit.places.retain(|it| own[index].0.contains(it) || free(it));
            let free = |it: &usize| own.iter().all(|own| !own.1.contains(it));
            circuit.controls = circuit.may_have.1.clone();
            circuit.controls.retain(|it| own[index].1.contains(it) || free(it));
            circuit.insulation = insulation_of(exercise, &circuit.controls);
        }
    }
}
