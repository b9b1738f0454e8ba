//! Switches: read by continuity with the power off, worked with the power on.

use super::{
    Safety, Work,
    settings::{left, of},
};
use crate::{
    exercise::{Exercise, Stage, TerminalUse},
    trade::colour::Colour,
    work::{Check, Point},
};

impl Safety {
    /// Continuity readings still to take: a control (by index) and a setting.
    pub fn readings_left(&self, exercise: &Exercise) -> Vec<(usize, Vec<u8>)> {
        left(exercise, &self.read)
    }

    /// Settings still to be tried with the power on and after the last live test: a control (by index) and a setting.
    pub fn settings_left(&self, exercise: &Exercise) -> Vec<(usize, Vec<u8>)> {
        left(exercise, &self.worked)
    }

    /// A reading counts for a control when one probe is on what comes straight from a device's line, the other on what
    /// goes straight to a contact of its lamp, and the lamp is out.
    pub(super) fn note_reading(&mut self, work: &Work, a: &str, b: &str) {
        let (Ok(a), Ok(b)) = (work.point(a), work.point(b)) else { return };
        let exercise = work.exercise();
        let mut groups = work.joined_by(|it: Colour| !it.is_protective());
        for (index, control) in exercise.controls.iter().enumerate() {
            let lamp = &exercise.lamps[control.lamp];
            let mut suits = |line: Point, load: Point| {
                let from_device =
                    exercise.terminals.iter().enumerate().any(|(t, it)| {
                        matches!(it.used_by, TerminalUse::DeviceLine(_)) && groups.same(work.node(line), t)
                    });
                let to_lamp = lamp.contacts.iter().any(|it| groups.same(work.node(load), it.index()));
                from_device && to_lamp
            };
            if !work.is_lamp_in(control.lamp) && (suits(a, b) || suits(b, a)) {
                self.read.insert((index, of(control, work.positions())));
            }
        }
    }

    /// With every device on and a control's lamp in, its present setting has been tried.
    pub(super) fn note_worked(&mut self, work: &Work) {
        let exercise = work.exercise();
        if exercise.devices.ids().any(|it| !work.is_on(it))
            || !self.confirmed.contains(&Check::NobodyAtWork) && exercise.asks(Stage::EnergisingChecks)
        {
            return;
        }
        for (index, control) in exercise.controls.iter().enumerate() {
            if work.is_lamp_in(control.lamp) {
                self.worked.insert((index, of(control, work.positions())));
            }
        }
    }

    /// The functional test comes last: handwork after it makes it void, where it is a criterion of its own.
    pub(super) fn forget_worked(&mut self, exercise: &Exercise) {
        if exercise.weights.functional_test > 0 {
            self.worked.clear();
        }
    }
}
