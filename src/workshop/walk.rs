//! Arrows that walk for a while after an event, and while what they are on is pointed at, and then stand.

use bevy_egui::egui::Ui;

use super::{arrows::ARROWS, theme};

/// How long they walk after an event, seconds; how fast, points a second; and the longest step that they make in a frame, seconds.
const WALK: f64 = 3.0;
const SPEED: f64 = 30.0;
const STEP: f64 = 0.1;

/// How far they have walked.
#[derive(Debug, Clone, Copy, Default)]
pub struct Walk {
    /// Since when they walk, seconds; `None`: from the next frame on.
    since: Option<f64>,
    /// When they were drawn last, seconds, and how far they had walked then, points.
    seen: f64,
    walked: f32,
}

impl Walk {
    /// Something has happened: they walk again, from where they stand.
    pub const fn again(&mut self) {
        self.since = None;
    }

    /// How far they have walked, points.
    pub const fn walked(&self) -> f32 {
        self.walked
    }

    /// Walks on; how far they have walked then, points. A frame is asked for only while they walk, so that the window idles after it.
    pub fn on(&mut self, ui: &Ui, are_there: bool, are_pointed_at: bool) -> f32 {
        let now = ui.input(|it| it.time);
        let since = *self.since.get_or_insert(now);
        if (now - since < WALK || are_pointed_at) && are_there && !theme::is_still() {
            ui.ctx().request_repaint();
            self.walked = further(self.walked, now - self.seen);
        }
        self.seen = now;
        self.walked
    }
}

/// How far arrows have walked, points, when they walk on for `seconds`: what is seen is the same after every distance between two of
/// them. After a rest they go on from where they stood.
fn further(walked: f32, seconds: f64) -> f32 {
    (walked + (SPEED * seconds.clamp(0.0, STEP)) as f32) % ARROWS
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 30 points a second: half the way to the next arrow in 23 frames of a thirtieth, and round to the start in as many again. A rest is no walk.
    #[test]
    fn arrows_walk_on_and_come_round() {
        let walk = |from: f32, frames: usize| (0..frames).fold(from, |it, _| further(it, 1.0 / 30.0));
        assert!((walk(0.0, 23) - ARROWS / 2.0).abs() < 0.01);
        assert!(walk(0.0, 46).min(ARROWS - walk(0.0, 46)) < 0.01);
        assert!((further(5.0, 3600.0) - 8.0).abs() < 0.01);
    }
}
