//! The counts of every way: worked out beside the window, then counted off before one's eyes.

use std::time::Duration;

use bevy_egui::egui::{Context, Ui};
use switchdrop::reason::{CoreProof, Question, Unproved, why};

use super::steps::Wires;
use crate::workshop::{beside::Beside, theme};

/// For so long a count is counted off, milliseconds. It ends: nothing moves after it.
const RUN: u128 = 2400;

/// The count for a number of wires.
pub struct Count {
    wires: Wires,
    beside: Option<Beside<Result<CoreProof, Unproved>>>,
    /// When it came, by egui's clock, seconds.
    came: Option<f64>,
    /// For how long it has been counted off, milliseconds.
    ran: u128,
}

impl Count {
    /// Not asked for yet.
    pub const fn new(wires: Wires) -> Self {
        Self { wires, beside: None, came: None, ran: 0 }
    }

    /// Has it worked out.
    pub fn ask(&mut self, ctx: Option<&Context>) {
        let question = self.question();
        *self = Self::new(self.wires);
        self.beside = Some(Beside::new("count", ctx.cloned(), move || why(&question, |_| ())));
    }

    /// What is asked.
    pub const fn question(&self) -> Question {
        Question::of_cores(self.wires.count())
    }

    /// Takes it if it has come, and counts on.
    pub fn look(&mut self, ui: &Ui) {
        if let Some(it) = &mut self.beside {
            it.look(Duration::ZERO);
        }
        if !self.is_running() {
            return;
        }
        let now = ui.input(|it| it.time);
        let came = *self.came.get_or_insert(now);
        let ran = Duration::try_from_secs_f64(now - came).unwrap_or_default().as_millis();
        self.ran = if theme::is_still() { RUN } else { ran };
        if self.is_running() {
            ui.ctx().request_repaint();
        }
    }

    /// Shows the rest of it at once.
    pub const fn finish(&mut self) {
        self.ran = RUN;
    }

    /// Whether it has come and is still being counted off.
    pub fn is_running(&self) -> bool {
        self.proof().is_some() && self.ran < RUN
    }

    /// How many of the ways have been counted off by now.
    pub fn so_far(&self, ways: u128) -> u128 {
        ways * self.ran.min(RUN) / RUN
    }

    /// Whether it was asked for.
    pub const fn is_asked(&self) -> bool {
        self.beside.is_some()
    }

    /// Whether it is being worked out.
    pub fn is_waiting(&self) -> bool {
        self.beside.as_ref().is_some_and(Beside::is_waiting)
    }

    /// It, if it has come.
    pub fn proof(&self) -> Option<&Result<CoreProof, Unproved>> {
        self.beside.as_ref().and_then(Beside::come)
    }

    #[cfg(test)]
    pub fn wait(&mut self) {
        if let Some(it) = &mut self.beside {
            it.look(Duration::from_mins(1));
        }
    }
}
