//! A hand-in that could not be written, because its folder is gone or full: nothing of it stands anywhere, and it is tried again until it does
//! or the learner goes on working.

use std::time::Duration;

use bevy_egui::egui::Ui;

/// From one try to the next, seconds.
const EVERY: f64 = 5.0;

/// Such a hand-in.
#[derive(Debug, Default)]
pub struct HandInWaits {
    /// When it is tried again, by egui's clock, seconds; `None`: that is reckoned from the next frame.
    again: Option<f64>,
}

impl HandInWaits {
    /// Whether it is to be tried again now; else the window is woken when it is.
    pub fn is_due(&mut self, ui: &Ui) -> bool {
        let now = ui.input(|it| it.time);
        let again = *self.again.get_or_insert(now + EVERY);
        if now < again {
            ui.ctx().request_repaint_after(Duration::from_secs_f64(again - now));
            return false;
        }
        self.again = None;
        true
    }
}
