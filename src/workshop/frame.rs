//! What every screen has in common: text size, what can be touched, where the keyboard is, and the help over it all.

use bevy_egui::egui::{Context, Memory, Ui};

use super::{
    focus::Focus,
    map::Map,
    panel::{Scaling, Targets},
    theme,
};

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
    dressed: Option<usize>,
}

impl FrameState {
    pub fn new() -> Self {
        Self {
            helps: false,
            targets: Targets::default(),
            focus: Focus::default(),
            ctx: None,
            map: Map::from_environment(),
            scale: theme::NORMAL,
            dressed: None,
        }
    }

    /// Sets faces and sizes. Whether another frame is needed for it; `None` where nothing can be written in this one.
    pub fn dress(&mut self, ui: &Ui) -> Option<bool> {
        let dressed = self.dressed.replace(self.scale);
        if dressed.is_none() {
            // The faces are there from the next frame on, and nothing can be written without them.
            theme::set_faces(ui.ctx());
            self.ctx = Some(ui.ctx().clone());
        }
        if dressed != Some(self.scale) {
            theme::dress(ui.ctx(), theme::SCALES[self.scale]);
        }
        dressed.map(|it| it != self.scale)
    }

    /// Takes another text size.
    pub fn rescale(&mut self, how: Scaling) {
        let last = theme::SCALES.len() - 1;
        self.scale = match how {
            Scaling::Round => (self.scale + 1) % theme::SCALES.len(),
            Scaling::Up => (self.scale + 1).min(last),
            Scaling::Down => self.scale.saturating_sub(1),
            Scaling::Normal => theme::NORMAL,
        };
    }

    /// Writes down what can be touched, where a driver asked for it.
    pub fn write_map(&mut self, ui: &Ui, actions: usize, said: &str) {
        let focused = ui.memory(Memory::focused);
        self.map.write(&self.targets, focused, (actions, said), ui.ctx().pixels_per_point());
    }
}

#[cfg(test)]
impl FrameState {
    pub(super) fn throw_away_what_is_drawn(&mut self) {
        self.targets = Targets::default();
        self.dressed = None;
    }
}
