//! All that the window holds, and the one place where what the learner wants is done.
//!
//! The panels read it and send intents; only [`Shop::frame`] applies them, after the panels were drawn.

use bevy::prelude::Resource;
use bevy_egui::egui::{Key, Modifiers, Ui};
use switchdrop::{
    circuit::{Cause, Conditions, Glow, lamps_now, settle},
    marking::{Sheet, mark},
    picture::{Covers, Scene, View as Look, of_location, of_place},
    wording::{Line, Wording, device, happened, problem, refused, report},
    work::{Action, Happened, Mode},
};

use super::{
    Options, bench,
    desk::{Desk, Intent, Targets},
    map::Map,
    session::{NotDone, NotStarted, Session, Wanted},
    sheet, start, theme,
    view::{Sight, Tone, View},
};
use crate::journal::Shelf;

/// Which screen is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screen {
    /// The exercises.
    Start,
    /// The work.
    Bench,
    /// The mark sheet.
    Sheet,
}

/// What was earned, in words.
#[derive(Debug)]
pub struct Marked {
    /// The sheet.
    pub sheet: Sheet,
    /// As a person reads it: the same lines as on the command line.
    pub lines: Vec<Line>,
}

/// A scene, and what it was drawn for.
#[derive(Debug)]
pub struct Drawn {
    of: (usize, Sight),
    /// What is drawn.
    pub scene: Scene,
}

/// Everything.
#[derive(Resource)]
pub struct Shop {
    wording: Wording,
    shelf: Shelf,
    options: Options,
    screen: Screen,
    form: start::Form,
    session: Option<Session>,
    view: View,
    drawn: Option<Drawn>,
    marked: Option<Marked>,
    scale: usize,
    dressed: Option<usize>,
    targets: Targets,
    map: Map,
}

impl Shop {
    /// The shop as it opens.
    pub fn new(options: Options) -> Self {
        Self {
            wording: Wording::british(),
            shelf: Shelf::gather(&options.exercises),
            options,
            screen: Screen::Start,
            form: start::Form::default(),
            session: None,
            view: View::default(),
            drawn: None,
            marked: None,
            scale: 1,
            dressed: None,
            targets: Targets::default(),
            map: Map::from_environment(),
        }
    }

    /// Draws a frame and does what was asked for in it. Whether anything changed.
    pub fn frame(&mut self, ui: &mut Ui) -> bool {
        let mut again = false;
        if self.dressed != Some(self.scale) {
            theme::dress(ui.ctx(), theme::SCALES[self.scale]);
            self.dressed = Some(self.scale);
            again = true;
        }
        self.targets.0.clear();
        let mut intents = shortcuts(ui);
        self.draw_scene();
        let mut desk = Desk { wording: &self.wording, targets: &mut self.targets, intents: &mut intents };
        match (self.screen, &self.session) {
            (Screen::Bench, Some(session)) => {
                let scene = self.drawn.as_ref().map(|it| &it.scene);
                bench::show(ui, &mut desk, session, &mut self.view, scene, self.marked.is_some());
            }
            (Screen::Sheet, Some(session)) => {
                if let Some(marked) = &self.marked {
                    sheet::show(ui, &mut desk, session, marked);
                }
            }
            _ => start::show(ui, &mut desk, &self.shelf, &mut self.form, &self.options, &self.view.said),
        }
        if let Some(key) = self.view.focus.take()
            && let Some(target) = self.targets.0.iter().find(|it| it.key == key)
        {
            ui.memory_mut(|it| it.request_focus(target.id));
            again = true;
        }
        let focused = ui.memory(bevy_egui::egui::Memory::focused);
        self.map.write(&self.targets, focused, ui.ctx().pixels_per_point());
        again |= !intents.is_empty();
        for it in intents {
            self.apply(it);
        }
        again
    }

    /// The scene for what is looked at, unless it is there already.
    fn draw_scene(&mut self) {
        let Some(session) = &self.session else { return };
        let of = (session.attempt.log().len(), self.view.at);
        if self.drawn.as_ref().is_some_and(|it| it.of == of) {
            return;
        }
        let work = session.attempt.work();
        let lit: Vec<bool> = lamps_now(work).iter().map(|it| it.glow == Glow::Lit).collect();
        // What was handed in is looked into: a fault behind a plate could not be shown in place otherwise.
        let covers = if self.marked.is_some() { Covers::Lifted } else { Covers::AsTheyStand };
        let look = Look { covers, lit: Some(&lit) };
        let scene = match self.view.at {
            Sight::Place | Sight::Prediction => of_place(work, &self.wording, &look),
            Sight::Location(it) => of_location(work, it, &self.wording, &look),
        };
        self.drawn = Some(Drawn { of, scene });
    }

    pub(super) fn apply(&mut self, intent: Intent) {
        match intent {
            Intent::Begin(place) => self.begin(place),
            Intent::Act(actions) => {
                for action in actions {
                    if !self.act(action) {
                        break;
                    }
                }
            }
            Intent::Again => {
                if let Some(place) = self.session.as_ref().map(|it| it.shelved) {
                    self.begin(place);
                }
            }
            Intent::Leave => {
                self.session = None;
                self.view = View::default();
                self.marked = None;
                self.screen = Screen::Start;
            }
            Intent::Scale => self.scale = (self.scale + 1) % theme::SCALES.len(),
            Intent::Go(at) => {
                self.view.go(at);
                self.screen = Screen::Bench;
            }
            Intent::Show(at, thing) => {
                self.view.go(at);
                self.view.selected = thing;
                self.screen = Screen::Bench;
            }
            Intent::Sheet => self.screen = Screen::Sheet,
        }
    }

    fn begin(&mut self, place: usize) {
        let Some(shelved) = self.shelf.exercises.get(place) else { return };
        let name = self.form.name.trim();
        let wanted = Wanted {
            text: &shelved.text,
            shelved: place,
            learner: if name.is_empty() { self.form.nobody.as_str() } else { name },
            mode: if self.form.practice { Mode::Practice } else { Mode::Set },
            seed: self.options.seed,
            folder: Some(&self.options.attempts),
        };
        match Session::start(&wanted) {
            Ok(session) => {
                self.session = Some(session);
                self.view = View::default();
                self.drawn = None;
                self.marked = None;
                self.screen = Screen::Bench;
                self.view.say(Tone::Plain, self.wording.say("window-begun", &[]));
            }
            Err(NotStarted::Scenario(problems)) => {
                let text: Vec<_> = problems.iter().map(|it| problem(&self.wording, it)).collect();
                self.view.say(Tone::No, text.join("; "));
            }
            Err(NotStarted::File(trouble)) => self.view.say(Tone::No, trouble.say(&self.wording)),
        }
    }

    /// Does one action and says what came of it. Whether it was done.
    fn act(&mut self, action: Action) -> bool {
        let Some(session) = &mut self.session else { return false };
        let is_reading = matches!(action, Action::TestDead { .. } | Action::Continuity { .. });
        let hands_in = action == Action::HandIn;
        let is_undo = matches!(action, Action::Undo | Action::Redo);
        let result = session.act(action);
        let work = session.attempt.work();
        match result {
            Ok(it) => {
                let mut text = happened(&self.wording, work, &it);
                if let Happened::Tripped(_) = it {
                    text = format!("{text}. {}", why_opened(&self.wording, session));
                }
                if is_reading {
                    self.view.readings.insert(0, text.clone());
                    self.view.readings.truncate(6);
                }
                let stopped = matches!(it, Happened::Stopped(_));
                let tone = match it {
                    Happened::Stopped(_) | Happened::Tripped(_) => Tone::Stopped,
                    _ => Tone::Plain,
                };
                self.view.say(tone, text);
                if is_undo {
                    self.view.selected = None;
                }
                if hands_in {
                    let sheet = mark(&session.attempt, session.mode);
                    let lines = report(&self.wording, &session.learner, &session.attempt, &sheet);
                    self.marked = Some(Marked { sheet, lines });
                    self.screen = Screen::Sheet;
                }
                !stopped
            }
            Err(NotDone::Refused(it)) => {
                self.view.say(Tone::No, refused(&self.wording, work, &it));
                false
            }
            Err(NotDone::Unwritten(it)) => {
                self.view.say(Tone::No, it.say(&self.wording));
                false
            }
        }
    }
}

#[cfg(test)]
impl Shop {
    pub(super) fn targets(&self) -> &Targets {
        &self.targets
    }

    pub(super) fn session(&self) -> Option<&Session> {
        self.session.as_ref()
    }

    pub(super) fn screen(&self) -> Screen {
        self.screen
    }

    pub(super) fn sight(&self) -> Sight {
        self.view.at
    }

    pub(super) fn said(&self) -> &str {
        &self.view.said.text
    }

    pub(super) fn marked(&self) -> Option<&Marked> {
        self.marked.as_ref()
    }

    pub(super) fn scene(&self) -> Option<&Scene> {
        self.drawn.as_ref().map(|it| &it.scene)
    }

    pub(super) fn forget_drawn(&mut self) {
        self.drawn = None;
    }
}

/// Why the devices opened that opened last.
fn why_opened(wording: &Wording, session: &Session) -> String {
    let Some(energised) = session.attempt.tally().energised.last() else { return String::new() };
    let opened = settle(&energised.work, Conditions::present(&energised.work)).opened;
    let sentences = opened.iter().map(|it| {
        let name = device(wording, energised.work.exercise(), it.device);
        match it.cause {
            Cause::Overcurrent => wording.say("window-opened-overcurrent", &[("device", &name)]),
            Cause::Residual => wording.say("window-opened-residual", &[("device", &name)]),
        }
    });
    sentences.collect::<Vec<_>>().join(" ")
}

/// Undo and redo from the keyboard.
fn shortcuts(ui: &Ui) -> Vec<Intent> {
    let mut asked = Vec::new();
    // A text field takes these keys for itself.
    if ui.ctx().text_edit_focused() {
        return asked;
    }
    ui.input_mut(|it| {
        let redo =
            it.consume_key(Modifiers::CTRL | Modifiers::SHIFT, Key::Z) || it.consume_key(Modifiers::CTRL, Key::Y);
        if redo {
            asked.push(Intent::Act(vec![Action::Redo]));
        } else if it.consume_key(Modifiers::CTRL, Key::Z) {
            asked.push(Intent::Act(vec![Action::Undo]));
        }
    });
    asked
}
