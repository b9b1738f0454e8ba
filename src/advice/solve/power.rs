//! What is said before the power, the power itself, and the switches worked.

use super::{Lacks, Solver};
use crate::{
    attempt::settings_to_predict,
    circuit::{Glow, shown_at},
    exercise::Stage,
    work::{Action, Check},
};

impl Solver {
    /// Says for each setting asked which lamps light and which conductors are live.
    pub(super) fn predicts(&mut self) -> Result<(), Lacks> {
        let exercise = self.exercise();
        if !exercise.asks(Stage::Prediction) {
            return Ok(());
        }
        for positions in settings_to_predict(&exercise) {
            let shown = shown_at(self.attempt.work(), positions.clone());
            let lit = exercise.lamps.iter().zip(&shown.lamps).filter(|it| it.1.glow == Glow::Lit);
            let lit = lit.map(|it| it.0.address.clone()).collect();
            let live = exercise.predict.iter().filter(|it| shown.live.get(**it) == Some(&true));
            let live = live.filter_map(|index| exercise.conductors.get(*index)).map(|it| it.address.clone()).collect();
            self.does(Action::Predict { positions, lit, live })?;
        }
        Ok(())
    }

    /// Covers on, checks made, own locks off, power on.
    pub(super) fn powers_on(&mut self) -> Result<(), Lacks> {
        let exercise = self.exercise();
        for (id, place) in exercise.locations.with_ids() {
            if !self.attempt.work().is_covered(id) {
                self.does(Action::FitCover { location: place.id.clone() })?;
            }
        }
        if exercise.asks(Stage::EnergisingChecks) {
            self.does(Action::Confirm { check: Check::NobodyAtWork })?;
            self.does(Action::Confirm { check: Check::PeopleTold })?;
        }
        if self.attempt.work().is_bench() {
            return self.does(Action::BringSupply).map(drop);
        }
        if !self.attempt.work().is_main_on() {
            self.does(Action::MainSwitch { on: true })?;
        }
        for (id, it) in exercise.devices.with_ids() {
            if self.attempt.work().device_state(id).locked {
                self.does(Action::Unlock { device: it.address.clone() })?;
            }
        }
        for (id, it) in exercise.devices.with_ids() {
            if !self.attempt.work().is_on(id) {
                self.does(Action::PowerOn { device: it.address.clone() })?;
            }
        }
        Ok(())
    }

    /// Works the learner's switches through every setting.
    pub(super) fn works_switches(&mut self) -> Result<(), Lacks> {
        let exercise = self.exercise();
        if !exercise.asks(Stage::FunctionalTest) {
            return Ok(());
        }
        for setting in settings_to_predict(&exercise) {
            self.sets(&setting)?;
        }
        let left = self.attempt.safety().settings_left(&exercise);
        if left.is_empty() { Ok(()) } else { Err(Lacks::Stage(Stage::FunctionalTest)) }
    }
}
