//! What every panel is given: the words, the list of what can be touched, and where intents go.
//!
//! Its widgets name themselves for assistive technology, for the map and for "find". It knows no exercise.

use bevy_egui::egui::{self, Color32, Id, Rect, Response, RichText, Sense, Ui, WidgetInfo, WidgetType};
use switchdrop::{picture::Thing, wording::Wording, work::Action};

use super::{theme, view::Sight};

/// What the learner wants: the only way from the screen to the truth.
#[derive(Debug, Clone, PartialEq)]
pub enum Intent {
    /// Start on an exercise, by its place on the shelf.
    Begin(usize),
    /// Do these actions, one after the other, as long as each is possible and none is stopped.
    Act(Vec<Action>),
    /// Draw the same scenario again.
    Again,
    /// Back to the list of exercises.
    Leave,
    /// The next text scale.
    Scale,
    /// Look somewhere.
    Go(Sight),
    /// Look somewhere, at something.
    Show(Sight, Option<Thing>),
    /// Back to the mark sheet.
    Sheet,
}

/// Something that can be touched.
#[derive(Debug, Clone, PartialEq)]
pub struct Target {
    /// By which tests and the map know it.
    pub key: String,
    /// What it is called.
    pub name: String,
    /// For egui.
    pub id: Id,
    /// Where it is, in points.
    pub rect: Rect,
    /// Whether it is in sight.
    pub visible: bool,
    /// Whether it can be used now.
    pub enabled: bool,
    /// Whether it is chosen, ticked, selected or under a probe.
    pub on: bool,
}

/// Everything that can be touched this frame.
#[derive(Debug, Default)]
pub struct Targets(pub Vec<Target>);

/// What a panel is given.
pub struct Desk<'a> {
    /// The words.
    pub wording: &'a Wording,
    /// What can be touched.
    pub targets: &'a mut Targets,
    /// Where intents go.
    pub intents: &'a mut Vec<Intent>,
}

impl Desk<'_> {
    /// A sentence.
    pub fn say(&self, key: &str, args: &[(&str, &str)]) -> String {
        self.wording.say(key, args)
    }

    /// Sends an action on its way.
    pub fn act(&mut self, action: Action) {
        self.intents.push(Intent::Act(vec![action]));
    }

    /// A button with a name of its own.
    pub fn button(&mut self, ui: &mut Ui, key: &str, text: &str) -> bool {
        let response = ui.button(text);
        self.touchable(ui, &response, key, text);
        response.clicked()
    }

    /// The button that comes next.
    pub fn main_button(&mut self, ui: &mut Ui, key: &str, text: &str) -> bool {
        let button = egui::Button::new(RichText::new(text).color(Color32::WHITE)).fill(theme::ACCENT);
        let response = ui.add(button);
        self.touchable(ui, &response, key, text);
        response.clicked()
    }

    /// A button that can't be pressed now, or can.
    pub fn button_if(&mut self, ui: &mut Ui, enabled: bool, key: &str, text: &str) -> bool {
        let response = ui.add_enabled(enabled, egui::Button::new(text));
        self.touchable(ui, &response, key, text);
        response.clicked()
    }

    /// A line of a list that can be pressed.
    pub fn line(&mut self, ui: &mut Ui, key: &str, text: &str) -> bool {
        let response = ui.add(egui::Button::new(text).frame(false).min_size(egui::vec2(0.0, 24.0)).wrap());
        self.touchable(ui, &response, key, text);
        response.clicked()
    }

    /// One of several that stays chosen.
    pub fn choice(&mut self, ui: &mut Ui, chosen: bool, key: &str, text: &str) -> bool {
        let response = ui.add(egui::Button::new(text).selected(chosen));
        self.touchable(ui, &response, key, text);
        self.is_on(chosen);
        response.clicked()
    }

    /// A box to tick.
    pub fn check(&mut self, ui: &mut Ui, value: &mut bool, key: &str, text: &str) -> bool {
        let response = ui.checkbox(value, text);
        self.touchable(ui, &response, key, text);
        self.is_on(*value);
        response.changed()
    }

    /// Text in quiet ink.
    #[allow(clippy::unused_self, reason = "a panel says everything through its desk")]
    pub fn quiet(&self, ui: &mut Ui, text: &str) {
        ui.label(RichText::new(text).color(theme::QUIET).small());
    }

    /// A heading of a part of a panel.
    pub fn heading(&self, ui: &mut Ui, key: &str) {
        ui.label(RichText::new(self.say(key, &[])).strong().size(ui.text_style_height(&egui::TextStyle::Body) * 0.95));
    }

    /// Puts a widget on the list; when the keyboard comes to it, it comes into sight.
    pub fn touchable(&mut self, ui: &Ui, response: &Response, key: &str, name: &str) {
        if response.gained_focus() {
            response.scroll_to_me(None);
        }
        self.targets.0.push(Target {
            key: key.to_owned(),
            name: name.to_owned(),
            id: response.id,
            rect: response.rect,
            enabled: response.enabled(),
            on: false,
            visible: ui.clip_rect().intersect(response.rect).area() > 0.6 * response.rect.area(),
        });
    }

    /// Says of what was put on the list last whether it is on.
    pub fn is_on(&mut self, on: bool) {
        if let Some(it) = self.targets.0.last_mut() {
            it.on = on;
        }
    }

    /// A rectangle of the drawing that can be touched, with its name.
    pub fn spot(&mut self, ui: &Ui, key: &str, name: &str, rect: Rect) -> Response {
        let response = ui.interact(rect, spot_id(key), Sense::click_and_drag());
        response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, name));
        self.touchable(ui, &response, key, name);
        response
    }
}

/// The id of what has that key on the drawing.
pub fn spot_id(key: &str) -> Id {
    Id::new(("spot", key))
}
