//! All that the window holds, and the one place where what the learner wants is done.
//!
//! The panels read it and send intents; only [`WindowState::frame`] applies them, after the panels were drawn.

use std::path::Path;

use bevy::prelude::Resource;
use bevy_egui::egui::{Context, Key, Memory, Modifiers, Ui};
use switchdrop::{
    attempt::{Happened, Mode},
    circuit::{Glow, lamps_now},
    exercise::LocationId,
    marking::{hint, is_critical},
    picture::{Covers, Scene, Thing, View as Look, of_location, of_place},
    report::would_have,
    wording::{Wording, did, happened, hint as hint_said, place, problem, refused},
    work::Action,
};

use super::{
    Options, bars, bench,
    desk::{Desk, Intent, Pane, Scaling, Targets},
    focus::{self, Focus},
    help,
    map::Map,
    marked::Marked,
    session::{NotDone, NotStarted, Session, Wanted},
    sheet, start, theme,
    trip::{Played, Trip, Way},
    view::{Sight, Tone, View},
};
use crate::journal::{AttemptList, ScenarioLibrary};

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

/// A scene, and what it was drawn for.
#[derive(Debug)]
pub struct Drawn {
    of: (usize, Sight),
    /// What is drawn.
    pub scene: Scene,
}

/// Everything.
#[derive(Resource)]
pub struct WindowState {
    wording: Wording,
    library: ScenarioLibrary,
    kept: AttemptList,
    options: Options,
    screen: Screen,
    form: start::Form,
    session: Option<Session>,
    view: View,
    drawn: Option<Drawn>,
    marked: Option<Marked>,
    trip: Option<Trip>,
    played: Option<Played>,
    /// For waking the window from beside it.
    ctx: Option<Context>,
    helps: bool,
    /// Variants begun since the window opened: each is drawn from another number.
    begun: u64,
    scale: usize,
    dressed: Option<usize>,
    targets: Targets,
    focus: Focus,
    map: Map,
}

impl WindowState {
    /// The shop as it opens.
    pub fn new(options: Options) -> Self {
        Self {
            wording: Wording::british(),
            library: ScenarioLibrary::gather(&options.exercises),
            kept: AttemptList::look(&options.attempts),
            options,
            screen: Screen::Start,
            form: start::Form::default(),
            session: None,
            view: View::default(),
            drawn: None,
            marked: None,
            trip: None,
            played: None,
            ctx: None,
            helps: false,
            begun: 0,
            scale: theme::NORMAL,
            dressed: None,
            targets: Targets::default(),
            focus: Focus::default(),
            map: Map::from_environment(),
        }
    }

    /// Draws a frame and does what was asked for in it. Whether anything changed.
    pub fn frame(&mut self, ui: &mut Ui) -> bool {
        if self.dressed.is_none() {
            // The faces are there from the next frame on, and nothing can be written without them.
            theme::set_faces(ui.ctx());
            theme::dress(ui.ctx(), theme::SCALES[self.scale]);
            self.dressed = Some(self.scale);
            self.ctx = Some(ui.ctx().clone());
            return true;
        }
        let mut again = false;
        if self.dressed != Some(self.scale) {
            theme::dress(ui.ctx(), theme::SCALES[self.scale]);
            self.dressed = Some(self.scale);
            again = true;
        }
        self.targets.0.clear();
        let mut intents = shortcuts(ui, self.helps);
        if let (Screen::Bench, Some(session), false) = (self.screen, &self.session, self.helps) {
            intents.extend(place_asked(ui, session.attempt.work().exercise().locations.len()));
        }
        let jump = focus::asked(ui);
        self.draw_scene();
        if let Some(marked) = &mut self.marked {
            marked.look();
        }
        let mut desk = Desk {
            wording: &self.wording,
            targets: &mut self.targets,
            intents: &mut intents,
            pane: Pane::Middle,
            given: self.focus.given(),
            passes_on: false,
        };
        match (self.screen, &self.session) {
            _ if self.helps => help::show(ui, &mut desk),
            (Screen::Bench, Some(session)) => {
                let shown = bench::Shown {
                    session,
                    scene: self.drawn.as_ref().map(|it| &it.scene),
                    trip: self.trip.as_ref(),
                    played: self.played.as_ref(),
                    sheet: self.marked.as_ref().map(|it| &it.sheet),
                };
                bench::show(ui, &mut desk, &shown, &mut self.view);
            }
            (Screen::Sheet, Some(session)) => {
                if let Some(marked) = &self.marked {
                    sheet::show(ui, &mut desk, session, marked);
                }
            }
            _ => {
                let stock = start::Stock {
                    library: &self.library,
                    kept: &self.kept,
                    options: &self.options,
                    said: &self.view.said,
                };
                start::show(ui, &mut desk, &stock, &mut self.form);
            }
        }
        again |= self.focus.keep(ui, &self.targets, jump);
        let focused = ui.memory(Memory::focused);
        let actions = self.session.as_ref().map_or(0, |it| it.attempt.log().len());
        let shown = (actions, self.view.said.text.as_str());
        self.map.write(&self.targets, focused, shown, ui.ctx().pixels_per_point());
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
            Sight::Place | Sight::Prediction | Sight::Tests => of_place(work, &self.wording, &look),
            Sight::Location(it) => of_location(work, it, &self.wording, &look),
        };
        self.drawn = Some(Drawn { of, scene });
    }

    pub(super) fn apply(&mut self, intent: Intent) {
        match intent {
            Intent::Begin(place) => self.begin(place),
            Intent::Act(actions) => {
                for action in actions {
                    if !self.act(&action) {
                        break;
                    }
                }
            }
            Intent::Again => {
                if let Some(place) = self.session.as_ref().and_then(|it| it.shelved) {
                    self.begin(place);
                }
            }
            Intent::Open(path) => self.open(&path),
            Intent::Leave => {
                self.forget();
                // Only now: while it was open its file was locked and growing.
                self.kept = AttemptList::look(&self.options.attempts);
                self.screen = Screen::Start;
            }
            Intent::Scale(how) => {
                let last = theme::SCALES.len() - 1;
                self.scale = match how {
                    Scaling::Round => (self.scale + 1) % theme::SCALES.len(),
                    Scaling::Up => (self.scale + 1).min(last),
                    Scaling::Down => self.scale.saturating_sub(1),
                    Scaling::Normal => theme::NORMAL,
                };
            }
            Intent::Help => self.helps = !self.helps,
            Intent::Go(at) => {
                self.view.go(at);
                self.screen = Screen::Bench;
            }
            Intent::Show(at, thing) => {
                self.view.go(at);
                self.view.selected = thing;
                self.screen = Screen::Bench;
            }
            Intent::AskHandIn(asks) => self.view.hands_in = asks,
            Intent::Sheet => {
                self.played = None;
                self.screen = Screen::Sheet;
            }
            Intent::Tell(finding) => {
                if let Some(opened) = self.marked.as_mut().map(|it| &mut it.opened)
                    && !opened.remove(&finding)
                {
                    opened.insert(finding);
                }
            }
            Intent::Place(finding) => self.show_in_place(finding),
            Intent::Play(finding) => self.play(finding),
        }
    }

    /// Shows on the drawing what a finding would have led to.
    fn play(&mut self, finding: usize) {
        let (Some(session), Some(marked)) = (&self.session, &self.marked) else { return };
        let (Some(it), Some(told)) = (marked.sheet.findings.get(finding), marked.told()) else { return };
        let Some(Some(consequence)) = told.would_have.get(finding) else { return };
        let work = session.attempt.work();
        let told = vec![would_have(&self.wording, work, consequence)];
        let way = Way::of_consequence(work, consequence);
        let at = sheet::whereabouts(work, it.at);
        self.look_at(Played { heading: "page-would-have", told, way }, at);
    }

    /// Shows a finding where it is.
    fn show_in_place(&mut self, finding: usize) {
        let (Some(session), Some(marked)) = (&self.session, &self.marked) else { return };
        let Some(it) = marked.sheet.findings.get(finding) else { return };
        let told = sheet::in_short(&self.wording, session.attempt.work(), finding, it);
        let at = sheet::whereabouts(session.attempt.work(), it.at);
        self.look_at(Played { heading: "window-in-place-heading", told, way: Way::default() }, at);
    }

    /// Goes to the drawing with a finding in mind.
    fn look_at(&mut self, played: Played, at: Option<(Sight, Thing)>) {
        let (sight, thing) = at.map_or((Sight::Place, None), |it| (it.0, Some(it.1)));
        self.played = Some(played);
        self.apply(Intent::Show(sight, thing));
    }

    fn begin(&mut self, place: usize) {
        let Some(shelved) = self.library.exercises.get(place) else { return };
        let name = self.form.name.trim();
        let wanted = Wanted {
            text: &shelved.text,
            shelved: place,
            learner: if name.is_empty() { self.form.nobody.as_str() } else { name },
            mode: if self.form.practice { Mode::Practice } else { Mode::Set },
            seed: self.options.seed.map(|it| it.wrapping_add(self.begun)),
            folder: Some(&self.options.attempts),
        };
        match Session::start(&wanted) {
            Ok(session) => {
                self.forget();
                self.begun += 1;
                self.session = Some(session);
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

    /// Opens an attempt of the folder again: to go on, or to read its sheet.
    fn open(&mut self, path: &Path) {
        let mut session = match Session::open(path) {
            Ok(it) => it,
            Err(trouble) => {
                self.view.say(Tone::No, start::harmless(&trouble.say(&self.wording)));
                self.kept = AttemptList::look(&self.options.attempts);
                return;
            }
        };
        let id = &session.attempt.work().exercise().id;
        session.shelved = self.library.exercises.iter().position(|it| it.scenario.id == *id);
        self.forget();
        match session.read_only() {
            _ if session.attempt.tally().handed_in => {}
            Some(why) => self.view.say(Tone::No, self.wording.say(bars::read_only_key(why), &[])),
            None => self.view.say(Tone::Plain, self.wording.say("window-opened-again", &[])),
        }
        self.trip = Trip::of(&session.attempt);
        let handed_in = session.attempt.tally().handed_in;
        self.session = Some(session);
        self.screen = Screen::Bench;
        if handed_in {
            self.mark();
        }
    }

    /// Marks what was handed in and shows the sheet.
    fn mark(&mut self) {
        let Some(session) = &self.session else { return };
        self.marked = Some(Marked::of(session, self.ctx.clone()));
        self.screen = Screen::Sheet;
    }

    /// Puts the attempt away, with all that was seen of it.
    fn forget(&mut self) {
        self.session = None;
        self.view = View::default();
        self.drawn = None;
        self.marked = None;
        self.trip = None;
        self.played = None;
    }

    /// Does one action and says what came of it. Whether it was done.
    fn act(&mut self, action: &Action) -> bool {
        let Some(session) = &mut self.session else { return false };
        let is_reading = matches!(action, Action::TestDead { .. } | Action::Continuity { .. } | Action::Measure { .. });
        let hands_in = *action == Action::HandIn;
        // The ends have other numbers then.
        let renumbers = matches!(action, Action::Undo | Action::Redo | Action::Choose { .. });
        let result = session.act(action.clone());
        let work = session.attempt.work();
        match result {
            Ok(it) => {
                self.trip = Trip::of(&session.attempt);
                let mut text = happened(&self.wording, &session.attempt, &it);
                if it == Happened::Done {
                    text = did(&self.wording, work, action);
                }
                if let Happened::Stopped(act) = &it
                    && session.mode == Mode::Set
                    && is_critical(act.kind)
                {
                    text = format!("{text}. {}", self.wording.say("window-refers", &[]));
                }
                if *action == Action::Hint {
                    text = hint_said(&self.wording, work, &hint(&session.attempt));
                }
                if let Action::TestDead { a, b, .. } | Action::Continuity { a, b } | Action::Measure { a, b, .. } =
                    action
                    && !matches!(it, Happened::Stopped(_))
                {
                    let (a, b) = (place(&self.wording, work, a), place(&self.wording, work, b));
                    text = self.wording.say("window-reading-of", &[("a", &a), ("b", &b), ("reading", &text)]);
                }
                if is_reading {
                    self.view.readings.insert(0, text.clone());
                    self.view.readings.truncate(6);
                }
                let stopped = matches!(it, Happened::Stopped(_));
                let tone = match it {
                    Happened::Stopped(_) | Happened::Tripped(_) => Tone::Stopped,
                    Happened::NoEarth(_) => Tone::No,
                    _ => Tone::Plain,
                };
                self.view.say(tone, text);
                self.view.hands_in = false;
                if renumbers {
                    self.view.selected = None;
                }
                if hands_in {
                    self.mark();
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
            Err(NotDone::ReadOnly(why)) => {
                self.view.say(Tone::No, self.wording.say(bars::read_only_key(why), &[]));
                false
            }
        }
    }
}

#[cfg(test)]
impl WindowState {
    pub(super) fn throw_away_what_is_drawn(&mut self) {
        self.drawn = None;
        self.targets = Targets::default();
        self.dressed = None;
    }

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

    pub(super) fn wait_for_the_story(&mut self) {
        self.marked.as_mut().unwrap().wait();
    }

    pub(super) fn scene(&self) -> Option<&Scene> {
        self.drawn.as_ref().map(|it| &it.scene)
    }
}

/// What keys ask for wherever the keyboard is.
fn shortcuts(ui: &Ui, helps: bool) -> Vec<Intent> {
    let mut asked = Vec::new();
    let in_text = ui.ctx().text_edit_focused();
    ui.input_mut(|it| {
        let scaling = [
            (Key::Plus, Scaling::Up),
            (Key::Equals, Scaling::Up),
            (Key::Minus, Scaling::Down),
            (Key::Num0, Scaling::Normal),
        ];
        for (key, how) in scaling {
            if it.consume_key(Modifiers::CTRL, key) {
                asked.push(Intent::Scale(how));
            }
        }
        if it.consume_key(Modifiers::NONE, Key::F1) || helps && it.consume_key(Modifiers::NONE, Key::Escape) {
            asked.push(Intent::Help);
        }
        // A text field takes these for itself, and help is no place to undo anything.
        if in_text || helps {
            return;
        }
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

/// Alt and a digit go to a place: 1 to the whole place, 2 and on to its locations as they stand in the row.
fn place_asked(ui: &Ui, locations: usize) -> Option<Intent> {
    let digits = [Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7, Key::Num8, Key::Num9];
    ui.input_mut(|it| {
        if it.consume_key(Modifiers::ALT, Key::Num1) {
            return Some(Intent::Go(Sight::Place));
        }
        let pressed = digits.into_iter().take(locations).position(|key| it.consume_key(Modifiers::ALT, key))?;
        Some(Intent::Go(Sight::Location(LocationId(pressed as u16))))
    })
}
