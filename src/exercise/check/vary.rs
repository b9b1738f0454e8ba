//! What may vary from learner to learner: that it is there, and that every value it may take leaves the job the same.

use std::collections::BTreeSet;

use super::Checker;
use crate::{
    exercise::{
        address::nearest,
        file::{HasFile, ScenarioFile, SlipFile, VaryFile},
        placed::Placed,
        problem::ProblemCode,
        rows::LocationKind,
        table::EndId,
        variant::MOST_SLIPS,
    },
    trade::cable::CableKind,
};

/// Most ends that are dealt out together: in every order, they are 24 draws to check.
const MOST_DEALT: usize = 4;

impl Checker<'_> {
    pub(super) fn variations(&mut self, file: &ScenarioFile<'_>) {
        for vary in &file.vary {
            match vary {
                VaryFile::Length { cable, least, most } => {
                    let ids = || file.cables.iter().map(|cable| &cable.id).chain(file.runs.iter().map(|run| &run.id));
                    if !ids().any(|it| it.value == cable.value) {
                        let nearest = nearest(cable, ids().map(|it| it.value.as_str()));
                        self.find::<()>(ProblemCode::UnknownCable, cable, Err(nearest));
                    }
                    if self.number(least, 0.5, 500.0) && self.number(most, 0.5, 500.0) && least.value > most.value {
                        self.problem(ProblemCode::BadVariation, most, most.value.to_string(), least.value.to_string());
                    }
                }
                VaryFile::Kind { cable, among } => {
                    let found = file.cables.iter().find(|it| it.id.value == cable.value);
                    let nearest = nearest(cable, file.cables.iter().map(|it| it.id.value.as_str()));
                    let found = self.find(ProblemCode::UnknownCable, cable, found.ok_or(nearest));
                    // Another number of cores, or none of them a cpc, is another job.
                    let alike = |it: &CableKind, of: CableKind| {
                        let shape = |it: CableKind| (it.cores().len(), it.insulated());
                        shape(*it) == shape(of)
                    };
                    if among.is_empty() || found.is_some_and(|of| !among.iter().all(|it| alike(it, of.kind))) {
                        self.problem(ProblemCode::BadVariation, among, "", "");
                    }
                }
                VaryFile::Body { location, among } | VaryFile::Plate { location, among } => {
                    let found = self.find(ProblemCode::UnknownLocation, location, self.exercise.location(location));
                    let is_box =
                        found.is_some_and(|it| matches!(self.exercise.locations[it].kind, LocationKind::Box(_)));
                    if found.is_some() && !is_box || among.is_empty() {
                        self.problem(ProblemCode::BadVariation, location, location.value.clone(), "");
                    }
                }
                VaryFile::Watts { lamp, among } => {
                    self.find(ProblemCode::UnknownLamp, lamp, self.exercise.lamp(lamp));
                    if among.is_empty() || among.iter().any(|it| !(1.0..=500.0).contains(it)) {
                        self.problem(ProblemCode::BadVariation, among, "", "1 to 500");
                    }
                }
                VaryFile::Gangs { location, called } => {
                    self.find(ProblemCode::UnknownLocation, location, self.exercise.location(location));
                    let place = file.locations.iter().find(|it| it.id.value == location.value);
                    let named = place.map(|place| match &place.has {
                        HasFile::Box { gangs: Some(gangs), .. } => gangs.len(),
                        _ => 0,
                    });
                    if named.is_some_and(|it| it < 2 || it != called.len()) {
                        let expected = named.unwrap_or_default().max(2).to_string();
                        self.problem(ProblemCode::BadVariation, called, called.len().to_string(), expected);
                    }
                }
                VaryFile::Indicator { among } if among.is_empty() => {
                    self.problem(ProblemCode::BadVariation, among, "", "");
                }
                VaryFile::Chart { among } if among.is_empty() => self.problem(ProblemCode::BadVariation, among, "", ""),
                // Whether there are faults to choose from is said with them.
                VaryFile::Indicator { .. } | VaryFile::Chart { .. } | VaryFile::Fault => {}
                VaryFile::Passing { cable, among } => {
                    let found = file.cables.iter().position(|it| it.id.value == cable.value);
                    if found.is_none() {
                        let nearest = nearest(cable, file.cables.iter().map(|it| it.id.value.as_str()));
                        self.find::<()>(ProblemCode::UnknownCable, cable, Err(nearest));
                    }
                    let its = |it: usize| found == Some(self.exercise.conductors[it].cable);
                    let asked = self.exercise.predict.iter().any(|it| its(*it));
                    let mine = (0..self.exercise.conductors.len()).filter(|it| its(*it)).flat_map(EndId::of);
                    if among.is_empty() || asked || mine.into_iter().any(|it| self.exercise.is_learners(it)) {
                        self.problem(ProblemCode::BadVariation, cable, cable.value.clone(), "");
                    }
                }
                VaryFile::Ends { among } => self.dealt_ends(file, among),
                VaryFile::Slips { least, most, among } => self.chosen_slips(file, (least, most), among),
                VaryFile::Unmarked { at } => {
                    if !file.unmarked.iter().any(|it| it.at.value == at.value) {
                        self.problem(ProblemCode::BadVariation, at, at.value.clone(), "");
                    }
                }
                VaryFile::Devices { among } => {
                    for name in among {
                        self.find(ProblemCode::UnknownDevice, name, self.exercise.device(name));
                    }
                    let names: BTreeSet<_> = among.iter().map(|it| &it.value).collect();
                    if names.len() != among.len() {
                        self.problem(ProblemCode::BadVariation, &among[0], among[0].value.clone(), "");
                    }
                }
            }
        }
    }

    /// Slips of which some may be chosen: each is well formed, and there are enough to choose from.
    fn chosen_slips(
        &mut self,
        file: &ScenarioFile<'_>,
        (least, most): (&Placed<'_, usize>, &Placed<'_, usize>),
        among: &[SlipFile<'_>],
    ) {
        for it in among.iter().flat_map(|it| &it.done) {
            self.slip(file, it);
        }
        for it in among {
            self.id(&it.name);
            if it.done.is_empty() {
                self.problem(ProblemCode::BadVariation, &it.name, it.name.value.clone(), "");
            }
        }
        if !(1..=MOST_SLIPS).contains(&among.len()) {
            let at = among.first().map_or(&file.id, |it| &it.name);
            self.problem(ProblemCode::BadVariation, at, among.len().to_string(), format!("1 to {MOST_SLIPS}"));
        } else if most.value > among.len() {
            self.problem(ProblemCode::BadVariation, most, most.value.to_string(), among.len().to_string());
        } else if least.value > most.value {
            self.problem(ProblemCode::BadVariation, least, least.value.to_string(), most.value.to_string());
        }
    }

    /// Ends whose places may be dealt out: a few of one location, each connected and listed once.
    fn dealt_ends(&mut self, file: &ScenarioFile<'_>, among: &[Placed<'_, String>]) {
        let mut place = None;
        let mut seen = BTreeSet::new();
        for name in among {
            let Some(end) = self.find(ProblemCode::UnknownEnd, name, self.exercise.end(name)) else { continue };
            let here = self.exercise.end_facts(end).map(|it| it.location);
            let is_elsewhere = place.is_some_and(|it| Some(it) != here);
            place = place.or(here);
            if is_elsewhere || self.exercise.start[end].is_none() || !seen.insert(end) {
                self.problem(ProblemCode::BadVariation, name, name.value.clone(), "");
            }
        }
        if !(2..=MOST_DEALT).contains(&among.len()) {
            let at = among.first().unwrap_or(&file.id);
            self.problem(ProblemCode::BadVariation, at, among.len().to_string(), format!("2 to {MOST_DEALT}"));
        }
    }
}
