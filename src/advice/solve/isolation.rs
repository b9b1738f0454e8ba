//! Identify, agree, isolate, lock off, open, prove dead: at every place of the work.

use super::{Lacks, Solver};
use crate::{
    attempt::{DeadStep, Happened, dead_steps_left},
    exercise::{DeviceId, LocationId, combinations},
    trade::instrument::{Function, LeadLength},
    work::{Action, Detector, Fault, KitPart, Power},
};

impl Solver {
    pub(super) fn isolates(&mut self) -> Result<(), Lacks> {
        let exercise = self.exercise();
        let places = exercise.learners_places();
        let mut devices: Vec<DeviceId> =
            places.iter().flat_map(|it| self.attempt.safety().devices_reaching(*it).to_vec()).collect();
        devices.sort_unstable();
        devices.dedup();
        self.tries_kit()?;
        for it in &devices {
            self.sees_what_goes_out(*it)?;
        }
        let address = |it: &DeviceId| exercise.devices[*it].address.clone();
        for it in &places {
            let devices = self.attempt.safety().devices_reaching(*it).iter().map(address).collect();
            self.does(Action::Identify { location: exercise.locations[*it].id.clone(), devices })?;
        }
        self.does(Action::Agree)?;
        for it in &devices {
            if self.attempt.work().device_state(*it).power == Power::On {
                self.does(Action::PowerOff { device: address(it) })?;
            }
            // Where the supervisor has switched off, one's own lock goes on beside theirs.
            self.does(Action::LockOff { device: address(it) })?;
        }
        for it in &places {
            self.opens(*it)?;
        }
        self.proves_dead(&places)
    }

    /// Takes the cover off, where one is on.
    pub(super) fn opens(&mut self, place: LocationId) -> Result<(), Lacks> {
        let work = self.attempt.work();
        if work.has_cover(place) && work.is_covered(place) {
            self.does(Action::RemoveCover { location: self.exercise().locations[place].id.clone() })?;
        }
        Ok(())
    }

    /// What was handed out is looked at before anything rests on it: the indicator is tried, the chart compared with the card.
    fn tries_kit(&mut self) -> Result<(), Lacks> {
        let exercise = self.exercise();
        let Some(board) = exercise.devices.iter().next().map(|it| exercise.locations[it.location].id.clone()) else {
            return Ok(());
        };
        if !exercise.kit.indicator.is_sound() {
            self.does(Action::ProveIndicator)?;
            self.does(Action::Change { kit: KitPart::Indicator })?;
            self.does(Action::Report { at: board.clone(), what: Fault::Indicator })?;
        }
        if !exercise.kit.chart.is_right() {
            self.does(Action::Report { at: board, what: Fault::Chart })?;
        }
        Ok(())
    }

    /// Switches a device off and on again with a light of its circuit lit: what goes out with it, it feeds.
    fn sees_what_goes_out(&mut self, of: DeviceId) -> Result<(), Lacks> {
        if self.attempt.safety().is_shown_by_load(of) {
            return Ok(());
        }
        let exercise = self.exercise();
        let device = || exercise.devices[of].address.clone();
        let now = self.attempt.work().positions().to_vec();
        let switches: Vec<_> = exercise.switches.ids().collect();
        for setting in std::iter::once(now.clone()).chain(combinations(&exercise, &switches, &now)) {
            let mut tried = Self { attempt: self.attempt.clone() };
            tried.sets(&setting)?;
            if matches!(tried.does(Action::PowerOff { device: device() }), Ok(Happened::Lamps { .. })) {
                tried.does(Action::PowerOn { device: device() })?;
                if tried.attempt.safety().is_shown_by_load(of) {
                    *self = tried;
                    return self.sets(&now);
                }
            }
        }
        Err(Lacks::NotShown(of))
    }

    /// Proves places dead. Against an earth they are one round: the indicator is proved once before it and once after it.
    pub(super) fn proves_dead(&mut self, places: &[LocationId]) -> Result<(), Lacks> {
        let before = self.attempt.work().positions().to_vec();
        let in_one_round = self.attempt.safety().reference().is_some();
        let mut is_open = false;
        for place in places {
            while let Some(step) = dead_steps_left(&self.attempt, *place).into_iter().next() {
                is_open = in_one_round;
                let ends_round = match step {
                    DeadStep::Prove => self.attempt.safety().is_testing(),
                    DeadStep::Conclude => true,
                    _ => false,
                };
                if in_one_round && ends_round {
                    break;
                }
                self.steps(&step)?;
            }
        }
        if is_open {
            self.does(Action::ProveIndicator)?;
            self.does(Action::Conclude { dead: true })?;
        }
        self.sets(&before)
    }

    fn steps(&mut self, step: &DeadStep) -> Result<(), Lacks> {
        let name = |point| self.attempt.work().point_address(point);
        let action = match step {
            DeadStep::Show { from, earth } => {
                let (a, b) = (name(*from), name(*earth));
                if self.exercise().has_test_sheet() {
                    Action::Measure { function: Function::Continuity, lead: LeadLength::Long, a, b }
                } else {
                    Action::Continuity { a, b }
                }
            }
            DeadStep::Prove => Action::ProveIndicator,
            DeadStep::Park(at) => Action::Park { at: name(*at) },
            DeadStep::Unpark => Action::Unpark,
            DeadStep::Touch(it) => {
                let (a, b) = (name(it.a), name(it.b));
                self.sets(&it.positions)?;
                Action::TestDead { a, b, with: Detector::Indicator }
            }
            DeadStep::Conclude => Action::Conclude { dead: true },
        };
        self.does(action).map(drop)
    }
}
