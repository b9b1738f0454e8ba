//! What every screen has in common: text size, what can be touched, where the keyboard is, and the help over it all.

use std::path::{Path, PathBuf};

use bevy_egui::egui::{Context, Memory, Pos2, Ui};
use switchdrop::picture::Palette;

use super::{
    focus::Focus,
    map::{Map, Shown},
    panel::{Intent, Scaling, Targets},
    theme,
};
use crate::journal::{JournalError, KeptClass, Settings};

/// The frame around the screens.
pub struct FrameState {
    /// Whether help is shown.
    pub helps: bool,
    /// What could be touched in the frame drawn last.
    pub targets: Targets,
    /// Where the keyboard is.
    pub focus: Focus,
    /// For waking the window from beside it.
    pub ctx: Option<Context>,
    map: Map,
    scale: usize,
    theme: Palette,
    dressed: Option<(usize, Palette)>,
    /// Where what is remembered stands.
    settings: Option<PathBuf>,
    /// What stands there.
    kept: Settings,
    /// When and where a click last changed what stands under the pointer, seconds and points.
    turned: Option<(f64, Pos2)>,
    /// How many presses have been answered.
    pub presses: usize,
}

/// For so long after such a click another at the same spot does nothing, seconds: what it would meet is not what was aimed at.
const SECOND_PRESS: f64 = 0.4;
/// How far the pointer may stray and still be at the same spot, points.
const SAME_SPOT: f32 = 6.0;

impl FrameState {
    /// As it was left, by the settings, and where they are.
    pub fn new(settings: Option<PathBuf>, kept: Settings) -> Self {
        Self {
            helps: false,
            targets: Targets::default(),
            focus: Focus::default(),
            ctx: None,
            map: Map::from_environment(),
            scale: theme::nearest(kept.text),
            theme: kept.theme,
            dressed: None,
            settings,
            kept,
            turned: None,
            presses: 0,
        }
    }

    /// Sets faces, sizes and colours. Whether another frame is needed for it; `None` where nothing can be written in this one.
    pub fn dress(&mut self, ui: &Ui) -> Option<bool> {
        theme::wear(self.theme);
        let now = (self.scale, self.theme);
        let dressed = self.dressed.replace(now);
        if dressed.is_none() {
            // The faces are there from the next frame on, and nothing can be written without them.
            theme::set_faces(ui.ctx());
            self.ctx = Some(ui.ctx().clone());
        }
        if dressed != Some(now) {
            theme::dress(ui.ctx(), theme::scale(theme::step(self.theme, self.scale)));
        }
        dressed.map(|it| it != now)
    }

    /// Drops what the second half of a double click asked for, where the first half changed what stands under the pointer.
    pub fn drop_second_press(&mut self, ui: &Ui, intents: &mut Vec<Intent>) {
        let (now, clicked) =
            ui.input(|it| (it.time, it.pointer.any_click().then(|| it.pointer.interact_pos()).flatten()));
        let Some(at) = clicked else { return };
        if self.turned.is_some_and(|(then, there)| now - then < SECOND_PRESS && at.distance(there) < SAME_SPOT) {
            intents.clear();
            return;
        }
        // A click elsewhere in between: what comes after it is no second half.
        self.turned = intents.iter().any(Intent::turns).then_some((now, at));
    }

    /// Takes another text size.
    pub fn rescale(&mut self, how: Scaling) {
        let last = theme::STEPS - 1;
        self.scale = match how {
            Scaling::Round => (self.scale + 1) % theme::STEPS,
            Scaling::Up => (self.scale + 1).min(last),
            Scaling::Down => self.scale.saturating_sub(1),
            Scaling::Normal => theme::NORMAL,
        };
    }

    /// Takes the next theme.
    pub fn change_theme(&mut self) {
        let at = Palette::ALL.iter().position(|it| *it == self.theme).unwrap_or(0);
        self.theme = Palette::ALL[(at + 1) % Palette::ALL.len()];
    }

    /// What a tutor had open here, and under which name they decided last.
    pub fn kept_of_tutors(&self) -> (&[KeptClass], &str) {
        (&self.kept.classes, &self.kept.tutor)
    }

    /// The folder in which what is remembered stands.
    pub fn home(&self) -> Option<PathBuf> {
        self.settings.as_ref().and_then(|it| it.parent()).map(Path::to_owned)
    }

    /// Remembers theme, text size and the learner's name; and of a tutor the name and the classes.
    ///
    /// # Errors
    /// Why they can't be written down.
    pub fn keep_settings(
        &mut self,
        learner: &str,
        (tutor, classes): (String, Vec<KeptClass>),
    ) -> Result<(), JournalError> {
        let (theme, text) = (self.theme, theme::percent(self.scale));
        let now = Settings { theme, text, learner: learner.to_owned(), tutor, classes };
        match &self.settings {
            Some(path) if now != self.kept => now.write(path)?,
            _ => {}
        }
        self.kept = now;
        Ok(())
    }

    /// Writes down what can be touched, where a driver asked for it.
    pub fn write_map(&mut self, ui: &Ui, shown: &Shown<'_>) {
        let focused = ui.memory(Memory::focused);
        self.map.write(&self.targets, focused, shown, ui.ctx().pixels_per_point());
    }
}

#[cfg(test)]
impl FrameState {
    pub(super) fn throw_away_what_is_drawn(&mut self) {
        self.targets = Targets::default();
        self.dressed = None;
    }
}
