//! The window without a window: pointer and key events go into its frames, actions come out.

use std::{path::PathBuf, sync::Arc};

use bevy_egui::egui::{
    Context, Event, Id, Key, LayerId, Modifiers, PointerButton, Pos2, RawInput, Rect, Ui, UiBuilder, vec2,
};
use switchdrop::{
    circuit::Physics,
    exercise::{Seed, draw},
    marking::mark,
    wording::{Wording, report},
    work::{Action, open},
};

use super::{
    Options,
    desk::Intent,
    shop::{Screen, Shop},
    view::Sight,
};
use crate::journal::read_attempt;

const STAIRS: &str = include_str!("../../exercises/two-way-stairs/scenario.ron");
const MODEL: &str = include_str!("../../exercises/two-way-stairs/model.attempt.ron");

struct Bench {
    shop: Shop,
    ctx: Context,
    folder: PathBuf,
}

impl Bench {
    fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("switchdrop-window-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        let options = Options { attempts: folder.clone(), exercises: Vec::new(), seed: Some(4) };
        let mut bench = Self { shop: Shop::new(options), ctx: Context::default(), folder };
        bench.frames(Vec::new());
        bench
    }

    /// A frame with these events, then still ones until nothing changes.
    fn frames(&mut self, events: Vec<Event>) {
        let mut events = Some(events);
        for _ in 0..4 {
            let input = RawInput {
                screen_rect: Some(Rect::from_min_size(Pos2::ZERO, vec2(1280.0, 800.0))),
                events: events.take().unwrap_or_default(),
                focused: true,
                ..RawInput::default()
            };
            self.ctx.begin_pass(input);
            let room = UiBuilder::new().layer_id(LayerId::background()).max_rect(self.ctx.viewport_rect());
            let mut ui = Ui::new(self.ctx.clone(), Id::new("switchdrop"), room);
            self.shop.frame(&mut ui);
            drop(ui);
            // Nothing is painted: the textures go nowhere.
            self.ctx.end_pass().textures_delta.clear();
        }
    }

    fn middle(&self, key: &str) -> Pos2 {
        let found = self.shop.targets().0.iter().find(|it| it.key == key && it.visible);
        found.unwrap_or_else(|| panic!("nothing to touch called {key}")).rect.center()
    }

    fn button(at: Pos2, pressed: bool) -> Event {
        Event::PointerButton { pos: at, button: PointerButton::Primary, pressed, modifiers: Modifiers::NONE }
    }

    fn click(&mut self, key: &str) {
        let at = self.middle(key);
        self.frames(vec![Event::PointerMoved(at)]);
        self.frames(vec![Self::button(at, true)]);
        self.frames(vec![Self::button(at, false)]);
    }

    fn drag(&mut self, from: &str, to: &str) {
        let (from, to) = (self.middle(from), self.middle(to));
        self.frames(vec![Event::PointerMoved(from)]);
        // Pressed and moved away in one frame, as slow machines see it.
        self.frames(vec![Self::button(from, true), Event::PointerMoved(from + vec2(60.0, 5.0))]);
        self.frames(vec![Event::PointerMoved(to)]);
        self.frames(vec![Self::button(to, false)]);
    }

    fn key(&mut self, key: Key) {
        let event =
            |pressed| Event::Key { key, physical_key: None, pressed, repeat: false, modifiers: Modifiers::NONE };
        self.frames(vec![event(true)]);
        self.frames(vec![event(false)]);
    }

    fn log(&self) -> Vec<Action> {
        self.shop.session().map(|it| it.attempt.log().to_vec()).unwrap_or_default()
    }

    /// Does the model's actions up to the first that a test asks about.
    fn does_model_until(&mut self, stop: impl Fn(&Action) -> bool) {
        for action in model() {
            if stop(&action) {
                break;
            }
            self.shop.apply(Intent::Act(vec![action]));
        }
        self.frames(Vec::new());
    }
}

impl Drop for Bench {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

fn model() -> Vec<Action> {
    let opened = open(MODEL).unwrap();
    opened.replay(&Physics).unwrap().log().to_vec()
}

#[test]
fn a_click_begins_and_steps_up_to_a_place_and_the_first_question_is_answered_by_ticking() {
    let mut bench = Bench::new("click");
    bench.click("begin:two-way-stairs");
    assert_eq!(bench.shop.screen(), Screen::Bench);
    bench.click("location:west");
    for it in ["feeds:board.1", "feeds:board.2", "identify"] {
        bench.click(it);
    }
    let devices = ["board.1", "board.2"].map(str::to_owned).to_vec();
    assert_eq!(bench.log(), [Action::Identify { location: "west".to_owned(), devices }]);
}

#[test]
fn an_end_is_dragged_to_a_terminal_even_when_press_and_movement_come_in_one_frame() {
    let mut bench = Bench::new("drag");
    bench.click("begin:two-way-stairs");
    bench.does_model_until(|it| matches!(it, Action::Connect { .. }));
    bench.click("go:west");
    bench.drag("drop/brown@west", "west.L1");
    let wanted = Action::Connect { end: "drop/brown@west".to_owned(), terminal: "west.L1".to_owned() };
    assert_eq!(bench.log().last(), Some(&wanted));
}

#[test]
fn tab_and_enter_reach_what_a_click_does() {
    let mut bench = Bench::new("keys");
    bench.click("begin:two-way-stairs");
    let place = bench.shop.targets().0.iter().filter(|it| it.enabled).position(|it| it.key == "go:board").unwrap();
    // The click left nothing focused: the first Tab goes to the first of them.
    for _ in 0..=place {
        bench.key(Key::Tab);
    }
    bench.key(Key::Enter);
    let board = bench.shop.session().unwrap().attempt.work().location("board").unwrap();
    assert_eq!(bench.shop.sight(), Sight::Location(board));
}

#[test]
fn working_live_is_stopped_and_said() {
    let mut bench = Bench::new("live");
    bench.click("begin:two-way-stairs");
    bench.click("go:west");
    bench.click("cover");
    let session = bench.shop.session().unwrap();
    assert_eq!(session.attempt.tally().acts.len(), 1);
    let west = session.attempt.work().location("west").unwrap();
    assert!(session.attempt.work().is_covered(west));
    assert!(bench.shop.said().starts_with("stopped: "), "{}", bench.shop.said());
}

#[test]
fn the_sheet_on_the_screen_is_what_the_file_earns() {
    let mut bench = Bench::new("sheet");
    bench.click("begin:two-way-stairs");
    bench.does_model_until(|_| false);
    assert_eq!(bench.shop.screen(), Screen::Sheet);
    let session = bench.shop.session().unwrap();
    let whole = read_attempt(&session.path).unwrap();
    let attempt = whole.opened.replay(&Physics).unwrap();
    let sheet = mark(&attempt, whole.opened.header.mode);
    assert_eq!((sheet.marks, sheet.out_of), (100, 100));
    let lines = report(&Wording::british(), &whole.opened.header.learner, &attempt, &sheet);
    assert_eq!(bench.shop.marked().unwrap().lines, lines);
    assert!(draw(STAIRS, Seed(4)).is_ok_and(|it| Arc::new(it).text() == whole.opened.exercise.text()));
}

#[test]
fn all_that_is_drawn_may_be_thrown_away_and_comes_back_the_same() {
    let mut bench = Bench::new("rebuild");
    bench.click("begin:two-way-stairs");
    bench.does_model_until(|it| matches!(it, Action::Tighten { .. }));
    bench.click("go:west");
    let before = (bench.shop.scene().cloned().unwrap(), bench.shop.targets().0.clone());
    bench.shop.forget_drawn();
    bench.frames(Vec::new());
    assert_eq!((bench.shop.scene().cloned().unwrap(), bench.shop.targets().0.clone()), before);
}
