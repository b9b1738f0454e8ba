//! A window without a window: pointer and key events go into its frames.

use std::{path::PathBuf, sync::Arc};

use bevy_egui::egui::{
    Context, Event, FullOutput, Id, Key, LayerId, Memory, Modifiers, MouseWheelUnit, PointerButton, Pos2, RawInput,
    Rect, TouchPhase, Ui, UiBuilder, Vec2, vec2,
};
use switchdrop::{
    attempt::open,
    register::{Assignment, Review},
    work::Action,
};

use crate::desk::ClassFiles;

use super::super::{
    Options,
    panel::{Intent, Pane, Target},
    waiting::Waiting,
    window_state::WindowState,
};

/// Who works in these windows.
pub const LEARNER: &str = "Robin";
/// The scenario that the tests work on, and a whole attempt at it.
pub const PASSAGE: &str = include_str!("../../../exercises/two-way-passage/scenario.ron");
/// The scenario with every stage, and what is looked at on the way through its model: before the next action that is written so,
/// what is clicked, one after the other.
pub const TESTED: &str = "one-way-tested";
const TOUR: [(&str, &[&str]); 14] = [
    ("", &["go:switch"]),
    ("RemoveCover", &["go:board", "board.1", "report"]),
    ("TestDead", &["go:switch", "hand:indicator", "next-pair"]),
    ("Cut", &["hand:tools", "feed/brown@switch"]),
    // From elsewhere, so that nothing is held that would go into it.
    ("Connect", &["go:place", "go:switch", "switch.COM"]),
    ("Dress", &["go:rose", "hand:meter"]),
    ("Inspect", &["go:rose", "hand:tools"]),
    ("FitLink", &["go:board", "hand:meter", "next-reading", "read"]),
    ("", &["fn:insulation", "fn:loop", "fn:rcd", "lead:long"]),
    ("Record { test: InsulationLineEarth", &["go:tests"]),
    ("Predict", &["go:prediction"]),
    ("MainSwitch { on: true", &["go:board", "hand:tools", "board.1"]),
    ("Operate", &["go:switch", "hand:meter", "fn:voltage"]),
    ("HandIn", &["go:circuit", "hands", "go:place"]),
];

/// The tour after this number of the model's actions.
pub fn tour() -> Vec<(usize, &'static [&'static str])> {
    let (model, mut done) = (tested_model(), 0);
    TOUR.map(|(before, clicks)| {
        let found = model[done..].iter().position(|it| format!("{it:?}").starts_with(before));
        done += found.unwrap_or_else(|| panic!("{before}"));
        (done, clicks)
    })
    .to_vec()
}

const TESTED_MODEL: &str = include_str!("../../../exercises/one-way-tested/model.attempt.ron");
const MODEL: &str = include_str!("../../../exercises/two-way-passage/model.attempt.ron");

/// The window's state, the frames it is shown in, and its folder of attempts.
pub struct Bench {
    pub window: WindowState,
    pub ctx: Context,
    pub folder: PathBuf,
    /// Size of the window in points.
    pub size: Vec2,
    owns: bool,
    waiting: Waiting,
    /// What the last frame painted.
    pub painted: FullOutput,
}

impl Bench {
    pub fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("switchdrop-window-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        let mut bench = Self::beside(folder);
        bench.owns = true;
        bench
    }

    /// A window that has one more exercise.
    pub fn with(name: &str, id: &str, scenario: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("switchdrop-window-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        let library = folder.join("shelf");
        std::fs::create_dir_all(library.join(id)).unwrap();
        std::fs::write(library.join(id).join("scenario.ron"), scenario).unwrap();
        let mut bench = Self::over(folder, vec![library], LEARNER);
        bench.owns = true;
        bench
    }

    /// A window that has this many exercises more.
    pub fn with_more(name: &str, more: usize) -> Self {
        let folder = std::env::temp_dir().join(format!("switchdrop-window-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        for number in 1..=more {
            let id = format!("more-{number}");
            let at = folder.join("shelf").join(&id);
            std::fs::create_dir_all(&at).unwrap();
            std::fs::write(at.join("scenario.ron"), PASSAGE.replace("two-way-passage", &id)).unwrap();
        }
        let mut bench = Self::over(folder.clone(), vec![folder.join("shelf")], LEARNER);
        bench.owns = true;
        bench
    }

    /// A window over a new folder with a scenario of this text on its shelf.
    pub fn with_scenario(name: &str, id: &str, text: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("switchdrop-window-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        let at = folder.join("shelf").join(id);
        std::fs::create_dir_all(&at).unwrap();
        std::fs::write(at.join("scenario.ron"), text).unwrap();
        let mut bench = Self::over(folder.clone(), vec![folder.join("shelf")], LEARNER);
        bench.owns = true;
        bench
    }

    /// Another window over a folder that somebody else owns.
    pub fn beside(folder: PathBuf) -> Self {
        Self::over(folder, Vec::new(), LEARNER)
    }

    /// A window that opens on a folder, for the learner who was named there last.
    pub fn opened_again(folder: PathBuf) -> Self {
        Self::over(folder, Vec::new(), "")
    }

    fn over(folder: PathBuf, exercises: Vec<PathBuf>, learner: &str) -> Self {
        let settings = Some(folder.join("settings.ron"));
        let options = Options { attempts: folder.clone(), exercises, seed: Some(4), settings, ..Options::default() };
        let mut window = WindowState::new(options);
        if !learner.is_empty() {
            window.is_for(learner);
        }
        Self::of(window, folder)
    }

    /// A window that was opened on set work.
    pub fn on_set_work(name: &str, assignment: Arc<Assignment>) -> Self {
        let folder = std::env::temp_dir().join(format!("switchdrop-window-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        let (attempts, settings) = (folder.clone(), Some(folder.join("settings.ron")));
        let options = Options { attempts, settings, assignment: Some(assignment), ..Options::default() };
        let mut bench = Self::of(WindowState::new(options), folder);
        bench.owns = true;
        bench
    }

    /// A tutor's window on a class that was reviewed.
    pub fn on_class(reviewed: Arc<(ClassFiles, Assignment, Review)>, folder: PathBuf) -> Self {
        let (attempts, settings) = (folder.clone(), Some(folder.join("settings.ron")));
        let options = Options { attempts, settings, class: Some(reviewed), ..Options::default() };
        Self::of(WindowState::new(options), folder)
    }

    fn of(window: WindowState, folder: PathBuf) -> Self {
        let (ctx, painted) = (Context::default(), FullOutput::default());
        let size = vec2(1280.0, 800.0);
        let mut bench = Self { window, ctx, folder, size, owns: false, waiting: Waiting::default(), painted };
        bench.frames(Vec::new());
        bench
    }

    /// The keys of what can be touched, enabled or not.
    pub fn keys(&self) -> Vec<String> {
        self.window.targets().0.iter().map(|it| it.key.clone()).collect()
    }

    /// The key of what has the keyboard.
    pub fn focused(&self) -> Option<String> {
        let id = self.ctx.memory(Memory::focused)?;
        self.window.targets().0.iter().find(|it| it.id == id).map(|it| it.key.clone())
    }

    /// A frame with these events, then still ones until nothing changes.
    pub fn frames(&mut self, events: Vec<Event>) {
        let mut events = Some(events);
        for _ in 0..4 {
            let mut seen = events.take().unwrap_or_default();
            self.waiting.pass(&mut seen);
            let input = RawInput {
                screen_rect: Some(Rect::from_min_size(Pos2::ZERO, self.size)),
                events: seen,
                focused: true,
                ..RawInput::default()
            };
            self.ctx.begin_pass(input);
            let room = UiBuilder::new().layer_id(LayerId::background()).max_rect(self.ctx.viewport_rect());
            let mut ui = Ui::new(self.ctx.clone(), Id::new("switchdrop"), room);
            self.window.frame(&mut ui);
            drop(ui);
            self.painted = self.ctx.end_pass();
            // The textures go nowhere.
            self.painted.textures_delta.clear();
        }
    }

    pub fn middle(&self, key: &str) -> Pos2 {
        let found = self.window.targets().0.iter().find(|it| it.key == key && it.visible);
        let hidden = || self.window.targets().0.iter().find(|it| it.key == key).map(|it| it.rect);
        found.unwrap_or_else(|| panic!("nothing to touch called {key}; out of sight: {:?}", hidden())).rect.center()
    }

    pub fn button(at: Pos2, pressed: bool) -> Event {
        Event::PointerButton { pos: at, button: PointerButton::Primary, pressed, modifiers: Modifiers::NONE }
    }

    /// Turns the wheel over the middle of the screen by so much.
    fn wheel(&mut self, by: f32) {
        self.wheel_at(Pos2::new(400.0, 500.0), by);
    }

    fn wheel_at(&mut self, at: Pos2, by: f32) {
        self.frames(vec![
            Event::PointerMoved(at),
            Event::MouseWheel {
                unit: MouseWheelUnit::Point,
                delta: vec2(0.0, by),
                phase: TouchPhase::Move,
                modifiers: Modifiers::NONE,
            },
        ]);
    }

    /// Every text of a page that scrolls, from its top to its end, with its size.
    pub fn whole_page(&mut self) -> Vec<(String, f32)> {
        // egui makes a wheel's turn smooth: a great one would go on over many frames.
        (0..40).for_each(|_| self.wheel(60.0));
        let mut found: Vec<(String, f32)> = Vec::new();
        for _ in 0..200 {
            let before = found.len();
            for it in self.texts() {
                if !found.contains(&it) {
                    found.push(it);
                }
            }
            let seen = self.painted.shapes.clone();
            self.wheel(-60.0);
            if found.len() == before && self.painted.shapes == seen {
                break;
            }
        }
        (0..40).for_each(|_| self.wheel(60.0));
        found
    }

    /// Goes through the exercise with every stage, looking around at each stop.
    pub fn tours(&mut self, mut look: impl FnMut(&Bench, &str)) {
        self.click(&format!("begin:{TESTED}"));
        let (model, mut done) = (tested_model(), 0);
        for (until, clicks) in tour() {
            self.does(model[done..until].iter().cloned());
            done = until;
            for it in clicks {
                self.click(it);
                look(self, it);
            }
        }
    }

    /// Turns the wheel over its part of the screen until something that is there has come into sight.
    fn bring(&mut self, key: &str) {
        for _ in 0..400 {
            let out_of_sight = |it: &&Target| it.key == key && !it.visible;
            let Some(it) = self.window.targets().0.iter().find(out_of_sight) else { return };
            let over = Pos2::new(if it.pane == Pane::Beside { 1100.0 } else { 400.0 }, 500.0);
            let up = it.rect.top() < over.y;
            self.wheel_at(over, if up { 40.0 } else { -40.0 });
        }
    }

    pub fn click(&mut self, key: &str) {
        self.bring(key);
        let at = self.middle(key);
        self.frames(vec![Event::PointerMoved(at)]);
        self.frames(vec![Self::button(at, true)]);
        self.frames(vec![Self::button(at, false)]);
    }

    pub fn drag(&mut self, from: &str, to: &str) {
        let (from, to) = (self.middle(from), self.middle(to));
        self.frames(vec![Event::PointerMoved(from)]);
        // Pressed and moved away in one frame, as slow machines see it.
        self.frames(vec![Self::button(from, true), Event::PointerMoved(from + vec2(60.0, 5.0))]);
        self.frames(vec![Event::PointerMoved(to)]);
        self.frames(vec![Self::button(to, false)]);
    }

    pub fn key(&mut self, key: Key) {
        self.key_with(Modifiers::NONE, key);
    }

    pub fn key_with(&mut self, modifiers: Modifiers, key: Key) {
        let event = |pressed| Event::Key { key, physical_key: None, pressed, repeat: false, modifiers };
        self.frames(vec![event(true)]);
        self.frames(vec![event(false)]);
    }

    /// Types something in a field, in place of what is there.
    pub fn types(&mut self, key: &str, text: &str) {
        self.click(key);
        let all = Modifiers { ctrl: true, command: true, ..Modifiers::NONE };
        self.key_with(all, Key::A);
        self.frames(vec![Event::Text(text.to_owned())]);
    }

    pub fn log(&self) -> Vec<Action> {
        self.window.session().map(|it| it.attempt.log().to_vec()).unwrap_or_default()
    }

    /// Does the model's actions up to the first that a test asks about.
    pub fn does_model_until(&mut self, stop: impl Fn(&Action) -> bool) {
        self.does(model().into_iter().take_while(|it| !stop(it)));
    }

    /// Does actions, as the panels ask for them.
    pub fn does(&mut self, actions: impl IntoIterator<Item = Action>) {
        for action in actions {
            self.window.apply(Intent::Act(vec![action]));
        }
        self.frames(Vec::new());
    }
}

impl Drop for Bench {
    fn drop(&mut self) {
        if self.owns {
            let _ = std::fs::remove_dir_all(&self.folder);
        }
    }
}

/// A whole attempt that earns every mark.
pub fn model() -> Vec<Action> {
    actions_of(MODEL)
}

/// The same with every stage.
pub fn tested_model() -> Vec<Action> {
    actions_of(TESTED_MODEL)
}

pub fn actions_of(text: &str) -> Vec<Action> {
    open(text).unwrap().replay().unwrap().log().to_vec()
}
