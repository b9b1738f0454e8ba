//! What every panel is given: the words, the list of what can be touched, and where intents go.
//!
//! Its widgets name themselves for assistive technology, for the map and for "find". It knows no exercise.

use std::path::PathBuf;

use bevy_egui::egui::{
    Button, Color32, Id, Key, Rect, Response, RichText, Sense, Stroke, StrokeKind, TextEdit, Ui, WidgetInfo,
    WidgetType,
    accesskit::Role,
    text::{CCursor, CCursorRange},
    text_edit::TextEditState,
    vec2,
};
use switchdrop::{picture::Thing, wording::Wording, work::Action};

use super::{class::ClassAct, curious::CuriousAct, theme, tutor::TutorAct, view::Sight, words::WordsAct};

/// Part of a screen. F6 goes from one to the next, in this order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pane {
    /// The places, along the top.
    Places,
    /// The tray, along the foot of the drawing.
    Tray,
    /// The middle: the drawing, or a page to read.
    Middle,
    /// What can be done, beside it.
    Beside,
    /// The foot: undo, text size, help.
    Foot,
}

impl Pane {
    /// By which the map knows it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Places => "places",
            Self::Tray => "tray",
            Self::Middle => "middle",
            Self::Beside => "beside",
            Self::Foot => "foot",
        }
    }
}

/// Characters that a figure may have, as on the test sheet.
const MOST_FIGURE: usize = 12;
/// How wide its field is at the normal text size, points.
const FIGURE_WIDE: f32 = 56.0;

/// How the text size changes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scaling {
    /// One step up; after the largest comes the smallest.
    Round,
    /// One step up, if there is one.
    Up,
    /// One step down, if there is one.
    Down,
    /// To the normal size.
    Normal,
}

/// What the learner wants: the only way from the screen to the truth.
#[derive(Debug, Clone, PartialEq)]
pub enum Intent {
    /// The learner gives another name; once the field is left, it is a whole one.
    Named {
        /// Whether the field was left.
        is_whole: bool,
    },
    /// Start on an exercise, by its place in the library.
    Begin(usize),
    /// Begin the next try at an exercise of the set work, by its place there.
    BeginSet(usize),
    /// Do these actions, one after the other, as long as each is possible and none is stopped.
    Act(Vec<Action>),
    /// Draw the same scenario again.
    Again,
    /// Open an attempt of the folder again.
    Open(PathBuf),
    /// Back to the list of exercises.
    Leave,
    /// Another text scale.
    Scale(Scaling),
    /// The next theme; after the last comes the first.
    Theme,
    /// Show the keys and the cautions, or stop showing them.
    Help,
    /// Open the glossary, read in it, or close it.
    Words(WordsAct),
    /// Look somewhere.
    Go(Sight),
    /// Look somewhere, at something.
    Show(Sight, Option<Thing>),
    /// Ask whether to hand in what is unfinished, or ask no longer.
    AskHandIn(bool),
    /// Back to the mark sheet.
    Sheet,
    /// Go to the next finding of the sheet; after the last comes the first.
    NextFinding,
    /// Tell what a finding of the sheet would have led to, or stop telling it.
    Tell(usize),
    /// Show a finding of the sheet in its place.
    Place(usize),
    /// Show what a finding would have led to on the drawing.
    Play(usize),
    /// Go to the see-through house, or do something in it.
    Curious(CuriousAct),
    /// Do something on the screen of a class.
    Class(ClassAct),
    /// Do something on the tutor's side of the first screen.
    Tutor(TutorAct),
}

impl Intent {
    /// Whether it changes what stands under the pointer: a screen, a lever, a lock, a cover, the setting that is asked about, the
    /// hand-in. Undo, steppers and rockers may be pressed again at once.
    pub fn turns(&self) -> bool {
        match self {
            Self::Begin(_)
            | Self::BeginSet(_)
            | Self::Again
            | Self::Open(_)
            | Self::Leave
            | Self::AskHandIn(_)
            | Self::Sheet => true,
            Self::Act(actions) => actions.iter().any(|it| {
                matches!(
                    it,
                    Action::PowerOn { .. }
                        | Action::PowerOff { .. }
                        | Action::Reset { .. }
                        | Action::LockOff { .. }
                        | Action::Unlock { .. }
                        | Action::LockIncomer { .. }
                        | Action::UnlockIncomer { .. }
                        | Action::MainSwitch { .. }
                        | Action::Isolator { .. }
                        | Action::BringSupply
                        | Action::Unplug
                        | Action::RemoveCover { .. }
                        | Action::FitCover { .. }
                        | Action::RemoveLamp { .. }
                        | Action::FitLamp { .. }
                        | Action::Predict { .. }
                        | Action::Observe { .. }
                        | Action::Withdraw { .. }
                        | Action::HandIn
                )
            }),
            Self::Curious(it) => it.turns(),
            Self::Class(it) => matches!(it, ClassAct::Read(_) | ClassAct::Beside(_) | ClassAct::Release),
            Self::Tutor(it) => !matches!(it, TutorAct::Preview),
            Self::Words(it) => !matches!(it, WordsAct::Read(_)),
            _ => false,
        }
    }
}

/// Something that can be touched.
#[derive(Debug, Clone, PartialEq)]
#[allow(clippy::struct_excessive_bools, reason = "plain facts of something on the screen, each asked for alone")]
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
    /// Where on the screen it belongs.
    pub pane: Pane,
    /// Whether it is what comes next.
    pub main: bool,
    /// What stands in it, if it is a field.
    pub typed: Option<String>,
}

/// Everything that can be touched this frame.
#[derive(Debug, Default)]
pub struct Targets(pub Vec<Target>);

impl Targets {
    /// The first of that key that can be used.
    pub fn usable(&self, key: &str) -> Option<&Target> {
        self.0.iter().find(|it| it.enabled && it.key == key)
    }
}

/// What a panel is given.
pub struct PanelContext<'a> {
    /// The words.
    pub wording: &'a Wording,
    /// What can be touched.
    pub targets: &'a mut Targets,
    /// Where intents go.
    pub intents: &'a mut Vec<Intent>,
    /// Which part of the screen is being drawn.
    pub pane: Pane,
    /// What was given the keyboard when the last frame had been drawn: egui does not say of it that it gained it.
    pub given: Option<Id>,
    /// Whether the keyboard goes on to what is put on the list next.
    pub passes_on: bool,
}

impl PanelContext<'_> {
    /// A sentence.
    pub fn say(&self, key: &str, args: &[(&str, &str)]) -> String {
        self.wording.say(key, args)
    }

    /// Sends an action on its way.
    pub fn act(&mut self, action: Action) {
        self.intents.push(Intent::Act(vec![action]));
    }

    /// Begins a part of the screen, with its name for assistive technology.
    pub fn begin(&mut self, ui: &Ui, pane: Pane, key: &str) {
        self.pane = pane;
        self.region(ui, key);
    }

    /// Names a part within a part.
    pub fn region(&self, ui: &Ui, key: &str) {
        named_part(ui, Role::Region, self.say(key, &[]));
    }

    /// A button that is called what stands on it.
    pub fn button(&mut self, ui: &mut Ui, key: &str, text: &str) -> bool {
        self.button_called(ui, key, text, text)
    }

    /// A button that is called more than stands on it.
    pub fn button_called(&mut self, ui: &mut Ui, key: &str, text: &str, name: &str) -> bool {
        let response = ui.button(text);
        self.named(ui, &response, key, name);
        response.clicked()
    }

    /// The button that comes next.
    pub fn main_button(&mut self, ui: &mut Ui, key: &str, text: &str) -> bool {
        self.main_button_called(ui, key, text, text)
    }

    /// The same, called more than stands on it.
    pub fn main_button_called(&mut self, ui: &mut Ui, key: &str, text: &str, name: &str) -> bool {
        let response = ui.add(Button::new(theme::bold(text).color(theme::ON_ACCENT)).fill(theme::ACCENT));
        self.named(ui, &response, key, name);
        if let Some(it) = self.targets.0.last_mut() {
            it.main = true;
        }
        response.clicked()
    }

    fn named(&mut self, ui: &Ui, response: &Response, key: &str, name: &str) {
        response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, response.enabled(), name));
        self.touchable(ui, response, key, name);
    }

    /// Puts a widget on the list, outlined when it has the keyboard.
    pub fn touchable(&mut self, ui: &Ui, response: &Response, key: &str, name: &str) {
        if response.has_focus() {
            let outline = response.rect.expand(2.5);
            ui.painter().rect_stroke(outline, 7, Stroke::new(2.0, theme::ACCENT), StrokeKind::Outside);
        }
        self.list(ui, response, key, name);
    }

    /// A button that can't be pressed now, or can.
    pub fn button_if(&mut self, ui: &mut Ui, enabled: bool, key: &str, text: &str) -> bool {
        self.button_if_called(ui, enabled, key, text, text)
    }

    /// The same, called more than stands on it.
    pub fn button_if_called(&mut self, ui: &mut Ui, enabled: bool, key: &str, text: &str, name: &str) -> bool {
        if enabled {
            return self.button_called(ui, key, text, name);
        }
        let faint = Button::new(RichText::new(text).color(theme::FAINT))
            .fill(Color32::TRANSPARENT)
            .stroke(Stroke::new(1.0, theme::HAIR));
        // In a part of its own it would not go on to the next row where there is no room.
        let response = ui.add_enabled(false, faint);
        response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, false, name));
        self.touchable(ui, &response, key, name);
        false
    }

    /// A line of a list that can be pressed, with a sign before it that is no part of its name.
    pub fn line(&mut self, ui: &mut Ui, key: &str, sign: &str, text: &str) -> bool {
        let response = ui
            .scope(|ui| {
                let still = &mut ui.visuals_mut().widgets.inactive;
                still.weak_bg_fill = Color32::TRANSPARENT;
                still.bg_stroke.color = Color32::TRANSPARENT;
                ui.add(Button::new(format!("{sign} {text}")).min_size(vec2(0.0, 24.0)).wrap())
            })
            .inner;
        self.named(ui, &response, key, text);
        response.clicked()
    }

    /// A title that opens and closes what is under it.
    pub fn folding(&mut self, ui: &mut Ui, key: &str, text: &str, name: &str, more: &str) -> bool {
        let button = Button::new(theme::bold(text)).fill(Color32::TRANSPARENT).stroke(Stroke::NONE);
        let response = ui.add(button);
        self.named(ui, &response, key, name);
        response.on_hover_text(more).clicked()
    }

    /// One of several that stays chosen.
    pub fn choice(&mut self, ui: &mut Ui, chosen: bool, key: &str, text: &str) -> bool {
        let response = ui.add(Button::new(text).selected(chosen).min_size(vec2(30.0, 28.0)));
        self.touchable(ui, &response, key, text);
        self.is_on(chosen);
        response.clicked()
    }

    /// The same, called more than stands on it.
    pub fn choice_called(&mut self, ui: &mut Ui, chosen: bool, (key, text): (&str, &str), name: &str) -> bool {
        let response = ui.add(Button::new(text).selected(chosen).min_size(vec2(30.0, 28.0)));
        self.named(ui, &response, key, name);
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

    /// A short field to type a figure in, called after what the figure is. What is typed replaces what was there when the
    /// keyboard came to it; Enter goes on to what stands after it.
    pub fn figure(&mut self, ui: &mut Ui, value: &mut String, key: &str, name: &str) {
        let id = Id::new(("figure", key));
        if self.given == Some(id) {
            select_all(ui, id, value);
        }
        let wide = FIGURE_WIDE * theme::scale_of(ui);
        let response = ui.add(TextEdit::singleline(value).id(id).char_limit(MOST_FIGURE).desired_width(wide));
        ui.ctx().accesskit_node_builder(response.id, |it| it.set_label(name));
        self.touchable(ui, &response, key, name);
        if response.gained_focus() && !response.changed() {
            select_all(ui, id, value);
        }
        // Alone, the field would only let go of the keyboard, and Tab would begin at the top.
        self.passes_on = response.lost_focus() && ui.input(|it| it.key_pressed(Key::Enter));
        value.retain(|it| it.is_ascii_digit() || ".<> ".contains(it));
        self.holds(value);
    }

    /// A heading of a part of a panel.
    pub fn heading(&self, ui: &mut Ui, key: &str) {
        ui.label(theme::bold(self.say(key, &[])));
    }

    /// Puts what can be touched on the list; when the keyboard comes to it, it comes into sight.
    fn list(&mut self, ui: &Ui, response: &Response, key: &str, name: &str) {
        if response.gained_focus() || self.given == Some(response.id) {
            response.scroll_to_me(None);
        }
        if self.passes_on && response.enabled() {
            self.passes_on = false;
            response.request_focus();
        }
        self.targets.0.push(Target {
            key: key.to_owned(),
            name: name.to_owned(),
            id: response.id,
            rect: response.rect,
            enabled: response.enabled(),
            on: false,
            visible: ui.clip_rect().intersect(response.rect).area() > 0.6 * response.rect.area(),
            pane: self.pane,
            main: false,
            typed: None,
        });
    }

    /// Gives the keyboard to what was put on the list last: a click alone does not.
    pub fn keeps_keyboard(&self, ui: &Ui) {
        if let Some(it) = self.targets.0.last() {
            ui.memory_mut(|memory| memory.request_focus(it.id));
        }
    }

    /// Says of what was put on the list last whether it is on.
    pub fn is_on(&mut self, on: bool) {
        if let Some(it) = self.targets.0.last_mut() {
            it.on = on;
        }
    }

    /// Says of the field that was put on the list last what stands in it.
    pub fn holds(&mut self, text: &str) {
        if let Some(it) = self.targets.0.last_mut() {
            it.typed = Some(text.to_owned());
        }
    }

    /// What stands on a display, as a label for assistive technology: the display itself is painted.
    pub fn readout(ui: &Ui, key: &str, text: &str, rect: Rect) {
        let response = ui.interact(rect, spot_id(key), Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, text));
    }

    /// A rectangle of the drawing that can be touched, with its name.
    pub fn spot(&mut self, ui: &Ui, key: &str, name: &str, rect: Rect) -> Response {
        let response = ui.interact(rect, spot_id(key), Sense::click_and_drag());
        response.widget_info(|| WidgetInfo::labeled(WidgetType::Button, true, name));
        self.list(ui, &response, key, name);
        response
    }
}

/// Selects what stands in a field, so that what is typed replaces it.
fn select_all(ui: &Ui, id: Id, text: &str) {
    let mut state = TextEditState::load(ui.ctx(), id).unwrap_or_default();
    state.cursor.set_char_range(Some(CCursorRange::two(CCursor::new(0), CCursor::new(text.chars().count()))));
    state.store(ui.ctx(), id);
}

/// Names what belongs together, for assistive technology.
pub fn group(ui: &Ui, name: &str) {
    named_part(ui, Role::Group, name.to_owned());
}

fn named_part(ui: &Ui, role: Role, name: String) {
    ui.ctx().accesskit_node_builder(ui.unique_id(), |it| {
        it.set_role(role);
        it.set_label(name);
    });
}

/// The id of what has that key on the drawing.
pub fn spot_id(key: &str) -> Id {
    Id::new(("spot", key))
}
