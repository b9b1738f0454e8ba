//! The screens of the window, and the one place where what the learner wants is done.
//!
//! Each screen holds what is its own. The panels read it and send intents; only [`WindowState::frame`] applies them, after the panels
//! were drawn.

use std::{
    panic::{AssertUnwindSafe, catch_unwind},
    path::Path,
    sync::Arc,
};

use bevy::prelude::Resource;
use bevy_egui::egui::Ui;
use switchdrop::{exercise::Stage, wording::Wording, work::Action};

use super::{
    Options,
    bench_state::BenchState,
    broken::Broken,
    class::{ClassAct, ClassState},
    curious::{CuriousAct, CuriousState},
    focus,
    frame::FrameState,
    handed_in, help, keys,
    map::Shown,
    marked::Marked,
    panel::{Intent, Pane, PanelContext},
    session::Session,
    sheet,
    start::harmless,
    start_state::StartState,
    tutor::{TutorAct, TutorState},
    view::{Said, Tone},
    waiting,
    words::Words,
};
use crate::journal::Settings;

/// Which screen is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screen {
    /// The exercises.
    Start,
    /// The work.
    Bench,
    /// The mark sheet.
    Sheet,
    /// The see-through house.
    Curious,
    /// A class, for its tutor.
    Class,
    /// The tutor's side of the first screen.
    Tutor,
    /// What is said after a screen broke down.
    Broken,
}

/// The exercise that does the see-through house for real.
const REAL: &str = "two-way-passage";

/// An attempt that is open: its bench, and its sheet once it is handed in.
struct OpenAttempt {
    bench: BenchState,
    marked: Option<Marked>,
}

/// Everything.
#[derive(Resource)]
pub struct WindowState {
    wording: Wording,
    frame: FrameState,
    screen: Screen,
    start: StartState,
    open: Option<OpenAttempt>,
    curious: Option<CuriousState>,
    class: Option<ClassState>,
    /// The tutor's side of the first screen, while it is open.
    tutor: Option<TutorState>,
    /// The glossary, over everything when it is open.
    words: Words,
    /// A screen that broke down.
    broken: Option<Broken>,
    #[cfg(test)]
    breaks: bool,
}

impl WindowState {
    /// The window as it opens.
    pub fn new(options: Options) -> Self {
        let kept = options.settings.as_deref().map(Settings::read).unwrap_or_default();
        let wording = Wording::british();
        Self {
            words: Words::new(&wording),
            screen: if options.class.is_some() { Screen::Class } else { Screen::Start },
            class: options.class.clone().map(|it| ClassState::new(it, &kept.tutor, false, &wording)),
            tutor: None,
            wording,
            start: StartState::new(options.clone(), &kept.learner),
            frame: FrameState::new(options.settings, kept),
            open: None,
            curious: None,
            broken: None,
            #[cfg(test)]
            breaks: false,
        }
    }

    /// Draws a frame and does what was asked for in it. Whether anything changed. A screen that breaks down takes nothing with it: what
    /// was open is closed, its file being the truth and not what memory holds of it, and a plain screen says so.
    pub fn frame(&mut self, ui: &mut Ui) -> bool {
        // What may be half done afterwards is thrown away: the attempt, the house, the targets. The rest is written whole or not at all.
        match catch_unwind(AssertUnwindSafe(|| self.draw(ui))) {
            Ok(again) => again,
            Err(panic) => {
                let path = self.open.take().map(|it| it.bench.session.path);
                self.broken = Some(Broken::of(panic.as_ref(), path));
                self.curious = None;
                (self.frame.helps, self.words.is_open) = (false, false);
                self.screen = Screen::Broken;
                true
            }
        }
    }

    fn draw(&mut self, ui: &mut Ui) -> bool {
        let Some(mut again) = self.frame.dress(ui) else { return true };
        self.frame.targets.0.clear();
        // Counted before shortcuts take keys away.
        let presses = waiting::presses(ui);
        let (helps, reads) = (self.frame.helps, self.words.is_open);
        let mut intents = keys::shortcuts(ui, helps, reads);
        if let (Screen::Bench, Some(open), false) = (self.screen, &self.open, helps || reads) {
            let locations = open.bench.session.attempt.work().exercise().locations.ids();
            intents.extend(keys::place_asked(ui, locations));
        }
        let jump = focus::asked(ui);
        if let Some(marked) = self.open.as_mut().and_then(|it| it.marked.as_mut()) {
            marked.look();
        }
        self.look_at_class();
        let mut panel = PanelContext {
            wording: &self.wording,
            targets: &mut self.frame.targets,
            intents: &mut intents,
            pane: Pane::Middle,
            given: self.frame.focus.given(),
            passes_on: false,
        };
        match (self.screen, &mut self.open) {
            _ if reads => self.words.show(ui, &mut panel),
            _ if helps => help::show(ui, &mut panel),
            (Screen::Bench, Some(OpenAttempt { bench, marked })) => bench.show(ui, &mut panel, marked.as_ref()),
            (Screen::Sheet, Some(OpenAttempt { bench, marked: Some(marked) })) => {
                sheet::show(ui, &mut panel, &bench.session, marked);
                marked.has_come();
            }
            (Screen::Sheet, Some(OpenAttempt { bench, marked: None })) => {
                handed_in::show(ui, &mut panel, &bench.session);
            }
            _ => match (&self.broken, &mut self.curious, &mut self.class, &mut self.tutor) {
                (Some(it), ..) => it.show(ui, &mut panel),
                (None, Some(it), ..) => it.show(ui, &mut panel),
                (None, None, Some(it), _) => it.show(ui, &mut panel),
                (None, None, None, Some(it)) => it.show(ui, &mut panel, self.start.library()),
                (None, None, None, None) => self.start.show(ui, &mut panel),
            },
        }
        #[cfg(test)]
        if std::mem::take(&mut self.breaks) {
            ui.horizontal(|_| break_down());
        }
        self.words.look(ui, &self.wording, &self.frame.targets);
        again |= self.frame.focus.keep(ui, &self.frame.targets, jump);
        let actions = self.open.as_ref().map_or(0, |it| it.bench.session.attempt.log().len());
        let said = self.last_said().text.clone();
        self.frame.drop_second_press(ui, &mut intents);
        // What is asked for now is on the screen in the next frame.
        let (now, then) = if intents.is_empty() { (presses, 0) } else { (0, presses) };
        self.frame.presses += now;
        self.frame.write_map(ui, &Shown { actions, said: &said, presses: self.frame.presses });
        self.frame.presses += then;
        again |= !intents.is_empty();
        for it in intents {
            self.apply(it);
        }
        again
    }

    /// What was said last, where the learner is.
    fn last_said(&self) -> &Said {
        match (&self.open, &self.curious, &self.class, &self.tutor) {
            (Some(it), ..) => &it.bench.view.said,
            (None, Some(it), ..) => it.said(),
            (None, None, Some(it), _) => it.said(),
            (None, None, None, Some(it)) => it.said(),
            (None, None, None, None) => self.start.said(),
        }
    }

    /// Takes what was reviewed beside the window, once it is there.
    fn look_at_class(&mut self) {
        if let Some(class) = &mut self.class {
            return class.look(&self.wording);
        }
        let Some((files, it)) = self.tutor.as_mut().and_then(|it| it.look(&self.wording)) else { return };
        let trouble = it.troubles.first().map(|it| it.say(&self.wording));
        let reviewed = Arc::new((files, it.assignment, it.review));
        let mut class = ClassState::new(reviewed, self.frame.kept_of_tutors().1, true, &self.wording);
        if let Some(it) = trouble {
            class.say_no(&it);
        }
        self.class = Some(class);
        self.screen = Screen::Class;
        self.keep_settings();
    }

    /// Leaves what is open, whatever it is, for the screen that it was opened from.
    fn leave(&mut self) {
        if self.open.as_mut().is_some_and(|it| !it.bench.may_leave(&self.wording)) {
            self.screen = Screen::Bench;
            return;
        }
        // Only now: while it was open its file was locked and growing.
        let was_at_work = self.open.take().is_some() || self.curious.take().is_some() || self.broken.take().is_some();
        self.curious = None;
        self.broken = None;
        if !was_at_work && self.tutor.is_some() && self.class.take().is_none() {
            self.tutor = None;
        }
        self.screen = match (&self.class, &self.tutor) {
            (Some(_), _) => Screen::Class,
            (None, Some(_)) => Screen::Tutor,
            (None, None) => {
                self.start.come_back();
                Screen::Start
            }
        };
    }

    pub(super) fn apply(&mut self, intent: Intent) {
        match intent {
            // The list is of the name as it stands whenever it is drawn: what is kept is a whole one.
            Intent::Named { is_whole } => {
                if is_whole {
                    self.keep_settings();
                }
            }
            Intent::Begin(place) => self.begin(place),
            Intent::BeginSet(place) => self.begin_set(place),
            Intent::Again => {
                if let Some(place) = self.open.as_ref().and_then(|it| it.bench.session.shelved) {
                    self.begin(place);
                }
            }
            Intent::Open(path) => self.open(&path),
            Intent::Leave => self.leave(),
            Intent::Scale(how) => {
                self.frame.rescale(how);
                self.keep_settings();
            }
            Intent::Theme => {
                self.frame.change_theme();
                self.keep_settings();
            }
            Intent::Help => self.frame.helps = !self.frame.helps,
            Intent::Words(act) => self.words.apply(act),
            Intent::Curious(CuriousAct::Enter) => {
                self.curious = Some(CuriousState::new(&self.wording));
                self.screen = Screen::Curious;
            }
            Intent::Curious(CuriousAct::Exercise) => {
                if let Some(place) = self.start.place_of(REAL) {
                    (self.curious, self.screen) = (None, Screen::Start);
                    self.begin(place);
                }
            }
            Intent::Class(act) => {
                let puts_down = matches!(act, ClassAct::Decide | ClassAct::Release);
                let ctx = self.frame.ctx.as_ref();
                if let Some(path) = self.class.as_mut().and_then(|it| it.apply(act, &self.wording, ctx)) {
                    self.read(&path);
                }
                if puts_down {
                    self.keep_settings();
                }
            }
            Intent::Tutor(TutorAct::Enter) => {
                let classes = self.frame.kept_of_tutors().0.to_vec();
                self.tutor = Some(TutorState::new(self.frame.home().as_deref(), classes));
                self.screen = Screen::Tutor;
            }
            Intent::Tutor(act) => {
                let ctx = self.frame.ctx.as_ref();
                if let Some(it) = &mut self.tutor {
                    it.apply(act, self.start.library(), &self.wording, ctx);
                }
            }
            intent => match &mut self.curious {
                Some(house) => house.apply(&self.wording, &intent, self.frame.ctx.as_ref()),
                None => self.apply_to_open(intent),
            },
        }
    }

    /// What concerns the attempt that is open.
    fn apply_to_open(&mut self, intent: Intent) {
        let Some(OpenAttempt { bench, marked }) = &mut self.open else { return };
        let goes_to_bench = match intent {
            Intent::Act(actions) => {
                for action in actions {
                    let is_done = bench.act(&self.wording, &action, self.frame.ctx.as_ref());
                    if is_done && action == Action::HandIn {
                        *marked = Marked::if_shown(&bench.session, self.frame.ctx.clone());
                        self.screen = Screen::Sheet;
                    }
                    if !is_done {
                        break;
                    }
                }
                false
            }
            Intent::Go(at) => {
                let work = bench.session.attempt.work();
                let is_searched = work.names_left().next().is_some() || work.exercise().asks(Stage::Diagnosis);
                if is_searched {
                    bench.view.go_on_long_lead(at);
                } else {
                    bench.view.go(at);
                }
                true
            }
            Intent::Show(at, thing) => {
                bench.look(at, thing);
                true
            }
            Intent::AskHandIn(asks) => {
                bench.view.hands_in = asks;
                false
            }
            Intent::Sheet => {
                bench.stop_playing();
                self.screen = Screen::Sheet;
                false
            }
            Intent::NextFinding => {
                if let Some(it) = marked {
                    it.walk_on();
                }
                false
            }
            Intent::Tell(finding) => {
                if let Some(opened) = marked.as_mut().map(|it| &mut it.opened)
                    && !opened.remove(&finding)
                {
                    opened.insert(finding);
                }
                false
            }
            Intent::Place(finding) => marked.as_ref().is_some_and(|it| bench.show_in_place(&self.wording, it, finding)),
            Intent::Play(finding) => marked.as_ref().is_some_and(|it| bench.play(&self.wording, it, finding)),
            _ => false,
        };
        if goes_to_bench {
            self.screen = Screen::Bench;
        }
    }

    /// What can't be remembered holds until the window is closed; it is said why.
    fn keep_settings(&mut self) {
        let (classes, by) = self.frame.kept_of_tutors();
        let by = self.class.as_ref().map_or(by, ClassState::by).to_owned();
        let classes = self.tutor.as_ref().map_or(classes, TutorState::before).to_vec();
        if let Err(why) = self.frame.keep_settings(self.start.learner(), (by, classes)) {
            let why = why.say(&self.wording);
            self.say_no(why);
        }
    }

    fn begin(&mut self, place: usize) {
        match self.start.begin(&self.wording, place) {
            Ok(session) => {
                let said = self.wording.say("window-begun", &[]);
                self.put_on_bench(session).view.say(Tone::Plain, said);
            }
            Err(why) => self.say_no(why),
        }
    }

    fn begin_set(&mut self, place: usize) {
        match self.start.begin_set(&self.wording, place) {
            Ok(session) => {
                let nth = session.assigned.as_ref().map_or(0, |it| it.nth).to_string();
                let said = self.wording.say("window-set-begun", &[("try", &nth)]);
                self.put_on_bench(session).view.say(Tone::Plain, said);
            }
            Err(why) => self.say_no(why),
        }
    }

    /// Opens an attempt of the folder again: to go on, or to read its sheet.
    fn open(&mut self, path: &Path) {
        let session = match self.start.open(&self.wording, path) {
            Ok(it) => it,
            Err(why) => return self.say_no(why),
        };
        let mut bench = BenchState::new(session);
        bench.say_how_it_stands(&self.wording);
        let handed_in = bench.session.attempt.tally().handed_in;
        let marked = handed_in.then(|| Marked::if_shown(&bench.session, self.frame.ctx.clone())).flatten();
        self.screen = if handed_in { Screen::Sheet } else { Screen::Bench };
        self.open = Some(OpenAttempt { bench, marked });
    }

    /// Opens a hand-in for the tutor, who reads its sheet whatever its learner may see.
    fn read(&mut self, path: &Path) {
        let session = match Session::reviewed(path) {
            Ok(it) => it,
            Err(why) => return self.say_no(harmless(&why.say(&self.wording))),
        };
        let marked = Marked::if_shown(&session, self.frame.ctx.clone());
        self.screen = Screen::Sheet;
        self.open = Some(OpenAttempt { bench: BenchState::new(session), marked });
    }

    /// Puts an attempt on the bench, in place of what was there.
    fn put_on_bench(&mut self, session: Session) -> &mut BenchState {
        self.screen = Screen::Bench;
        let open = OpenAttempt { bench: BenchState::new(session), marked: None };
        &mut self.open.insert(open).bench
    }

    fn say_no(&mut self, why: String) {
        match (&mut self.open, &mut self.class, &mut self.tutor) {
            (Some(it), ..) => it.bench.view.say(Tone::No, why),
            (None, Some(it), _) => it.say_no(&why),
            (None, None, Some(it)) => it.say_no(why),
            (None, None, None) => self.start.say_no(why),
        }
    }
}

#[cfg(test)]
fn break_down() {
    panic!("a screen that breaks down on purpose");
}

#[cfg(test)]
impl WindowState {
    /// Breaks down in the next frame.
    pub(super) fn breaks(&mut self) {
        self.breaks = true;
    }

    /// Lets the disk take no more than this number of bytes of a line.
    pub(super) fn has_room_for(&mut self, bytes: Option<usize>) {
        self.open.as_mut().unwrap().bench.session.has_room_for(bytes);
    }

    pub(super) fn class(&self) -> &ClassState {
        self.class.as_ref().unwrap()
    }

    pub(super) fn is_for(&mut self, learner: &str) {
        self.start.is_for(learner);
    }

    /// Who is remembered for the next start.
    pub(super) fn learner(&self) -> &str {
        self.start.learner()
    }

    pub(super) fn throw_away_what_is_drawn(&mut self) {
        self.frame.throw_away_what_is_drawn();
        if let Some(it) = &mut self.open {
            it.bench.throw_away_what_is_drawn();
        }
    }

    pub(super) fn targets(&self) -> &super::panel::Targets {
        &self.frame.targets
    }

    pub(super) fn session(&self) -> Option<&Session> {
        self.open.as_ref().map(|it| &it.bench.session)
    }

    pub(super) fn screen(&self) -> Screen {
        self.screen
    }

    pub(super) fn sight(&self) -> super::view::Sight {
        self.open.as_ref().map_or_else(Default::default, |it| it.bench.view.at)
    }

    pub(super) fn selected(&self) -> Option<switchdrop::picture::Thing> {
        self.open.as_ref().and_then(|it| it.bench.view.selected)
    }

    pub(super) fn words(&self) -> &Words {
        &self.words
    }

    pub(super) fn pointed(&self) -> Option<&super::view::Pointed> {
        self.open.as_ref().and_then(|it| it.bench.view.pointed.as_ref())
    }

    pub(super) fn said(&self) -> &str {
        &self.last_said().text
    }

    pub(super) fn marked(&self) -> Option<&Marked> {
        self.open.as_ref().and_then(|it| it.marked.as_ref())
    }

    pub(super) fn wait_for_the_story(&mut self) {
        self.open.as_mut().and_then(|it| it.marked.as_mut()).unwrap().wait();
    }

    pub(super) fn curious(&mut self) -> &mut CuriousState {
        self.curious.as_mut().unwrap()
    }

    pub(super) fn scene(&self) -> Option<&switchdrop::picture::Scene> {
        self.open.as_ref().and_then(|it| it.bench.scene())
    }
}
