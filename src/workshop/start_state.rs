//! What the first screen holds: what there is to choose from, what the learner fills in, what was said there.

use std::{
    collections::BTreeMap,
    path::{Path, PathBuf},
    sync::Arc,
    time::Duration,
};

use bevy_egui::egui::{Context, Ui};
use switchdrop::{
    attempt::{Header, Mode},
    exercise::{Seed, draw},
    marking::{Answers, Outcome, answers, mark},
    picture::{Covers, Scene, View as Look, of_place},
    wording::{Wording, problem},
    work::Work,
};

use super::{
    Options,
    beside::Beside,
    panel::PanelContext,
    session::{NotStarted, Session, Wanted},
    set_work, start,
    view::{Said, Tone},
};
use crate::journal::{AttemptFolder, AttemptList, ScenarioLibrary, is_same_learner, read_attempt};

/// What an attempt that was handed in came to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Came {
    /// Nobody can say, or it is being worked out.
    Unknown,
    /// It is not for its learner yet.
    Withheld,
    /// The outcome, its marks and out of how many.
    Earned(Outcome, u32, u32),
}

/// The first screen.
pub struct StartState {
    options: Options,
    library: ScenarioLibrary,
    folder: AttemptFolder,
    /// The attempts of one learner in it, and whose.
    kept: AttemptList,
    kept_of: String,
    /// What each of those that are handed in came to, as far as it is worked out. Nothing changes it any more, but what may not be shown
    /// yet is looked at again when the learner comes back to this screen.
    came: BTreeMap<PathBuf, Came>,
    finding: Option<Beside<Vec<(PathBuf, Came)>>>,
    form: start::Form,
    said: Said,
    /// The place of each exercise, for its picture.
    places: Vec<Option<Scene>>,
    /// Variants begun since the window opened: each is drawn from another number.
    begun: u64,
}

/// The place of a scenario as one finds it. Which variant makes no difference to a picture of this size.
pub fn place(text: &str, wording: &Wording) -> Option<Scene> {
    let exercise = draw(text, Seed(0)).ok()?;
    let view = Look { covers: Covers::AsTheyStand, lit: None, evening: false };
    Some(of_place(&Work::new(Arc::new(exercise)), wording, &view))
}

/// Marks an attempt of the folder.
fn came_to(path: &Path) -> Came {
    let Some(whole) = read_attempt(path).ok() else { return Came::Unknown };
    let Ok(attempt) = whole.opened.replay() else { return Came::Unknown };
    let Header { mode, assigned, .. } = &whole.opened.header;
    if answers(&attempt, *mode, assigned.as_ref(), Some(jiff::Timestamp::now()), false) != Answers::Shown {
        return Came::Withheld;
    }
    let sheet = mark(&attempt, *mode);
    Came::Earned(sheet.outcome, sheet.marks, sheet.out_of)
}

impl StartState {
    /// With the name of the learner who was here last.
    pub fn new(options: Options, learner: &str) -> Self {
        Self {
            library: ScenarioLibrary::gather(&options.exercises),
            places: Vec::new(),
            folder: AttemptFolder::look(&options.attempts),
            kept: AttemptList::default(),
            kept_of: String::new(),
            came: BTreeMap::new(),
            finding: None,
            form: start::Form::of(learner, options.assignment.clone()),
            options,
            said: Said::default(),
            begun: 0,
        }
    }

    /// Draws it.
    pub fn show(&mut self, ui: &mut Ui, panel: &mut PanelContext<'_>) {
        if self.places.len() != self.library.exercises.len() {
            self.places = self.library.exercises.iter().map(|it| place(&it.text, panel.wording)).collect();
        }
        if let Some(set) = self.form.set.as_mut().filter(|it| it.is_changed()) {
            set.look(&self.options.attempts);
            self.said = Said::default();
        }
        if !is_same_learner(&self.kept_of, self.form.learner()) {
            // What was said was said to somebody else, or asked for the name.
            self.said = Said::default();
            self.find_own();
        }
        self.find_what_came(ui.ctx());
        let stock = start::Stock {
            library: &self.library,
            places: &self.places,
            folder: &self.folder,
            kept: &self.kept,
            came: &self.came,
            options: &self.options,
            said: &self.said,
        };
        start::show(ui, panel, &stock, &mut self.form);
    }

    /// Has the attempts that are handed in marked beside the window, each once.
    fn find_what_came(&mut self, ctx: &Context) {
        if let Some(finding) = &mut self.finding {
            finding.look(Duration::ZERO);
            if finding.is_waiting() {
                return;
            }
            self.came.extend(self.finding.take().and_then(Beside::taken).unwrap_or_default());
        }
        let handed_in = self.kept.attempts.iter().filter(|it| it.handed_in && !self.came.contains_key(&it.path));
        let paths: Vec<PathBuf> = handed_in.map(|it| it.path.clone()).collect();
        if !paths.is_empty() {
            // What is never found is not looked for again.
            self.came.extend(paths.iter().map(|it| (it.clone(), Came::Unknown)));
            let find = move || {
                let found = paths.into_iter().map(|path| {
                    let came = came_to(&path);
                    (path, came)
                });
                found.collect()
            };
            self.finding = Some(Beside::new("outcomes", Some(ctx.clone()), find));
        }
    }

    /// What was said last.
    pub fn said(&self) -> &Said {
        &self.said
    }

    /// Says why something could not be done.
    pub fn say_no(&mut self, text: String) {
        self.said = Said { text, tone: Tone::No };
    }

    /// Comes back to the screen: the attempt that was open is in the folder like the others now.
    pub fn come_back(&mut self) {
        self.said = Said::default();
        self.look_again();
    }

    /// The exercises that there are.
    pub const fn library(&self) -> &ScenarioLibrary {
        &self.library
    }

    /// The place of an exercise in the library, by its id.
    pub fn place_of(&self, id: &str) -> Option<usize> {
        self.library.exercises.iter().position(|it| it.scenario.id == id)
    }

    fn look_again(&mut self) {
        self.came.retain(|_, it| matches!(it, Came::Earned(..)));
        if let Some(set) = &mut self.form.set {
            set.look(&self.options.attempts);
        }
        self.folder = AttemptFolder::look(&self.options.attempts);
        self.find_own();
    }

    /// Finds the attempts of whoever is named now.
    fn find_own(&mut self) {
        self.form.learner().clone_into(&mut self.kept_of);
        self.kept = self.folder.of(&self.kept_of);
    }

    /// The learner's name, to be remembered; empty where nobody has given one.
    pub fn learner(&self) -> &str {
        self.form.name.trim()
    }

    /// Starts on an exercise of the library.
    ///
    /// # Errors
    /// Why it cannot be begun, in words: without a name the attempt would belong to nobody and never be shown again. The words are empty if the library has no exercise at that place.
    pub fn begin(&mut self, wording: &Wording, place: usize) -> Result<Session, String> {
        let shelved = self.library.exercises.get(place).ok_or_else(String::new)?;
        let learner = self.form.learner();
        if learner.is_empty() {
            self.form.asks = true;
            return Err(wording.say("window-name-first", &[]));
        }
        let wanted = Wanted {
            text: &shelved.text,
            shelved: place,
            learner,
            mode: if self.form.practice { Mode::Practice } else { Mode::Set },
            seed: self.options.seed.map(|it| it.wrapping_add(self.begun)),
            folder: Some(&self.options.attempts),
        };
        match Session::start(&wanted) {
            Ok(session) => {
                self.begun += 1;
                Ok(session)
            }
            Err(NotStarted::Scenario(problems)) => {
                let text: Vec<_> = problems.iter().map(|it| problem(wording, it)).collect();
                Err(text.join("; "))
            }
            Err(NotStarted::File(trouble)) => Err(trouble.say(wording)),
        }
    }

    /// Begins the next try at an exercise of the set work, by its place there.
    ///
    /// # Errors
    /// Why it cannot be begun, in words; they are empty where there is no such exercise, or nobody to do it.
    pub fn begin_set(&mut self, wording: &Wording, place: usize) -> Result<Session, String> {
        let set = self.form.set.as_mut().ok_or_else(String::new)?;
        set.begin(place, &self.options.attempts).ok_or_else(String::new)?.map_err(|why| {
            set.look(&self.options.attempts);
            start::harmless(&set_work::why_not(wording, &why))
        })
    }

    /// Opens an attempt of the folder again.
    ///
    /// # Errors
    /// Why not, in words.
    pub fn open(&mut self, wording: &Wording, path: &Path) -> Result<Session, String> {
        let mut session = Session::open(path).map_err(|trouble| {
            self.look_again();
            start::harmless(&trouble.say(wording))
        })?;
        // Set work is drawn for its learner, and not again from what is on the shelf.
        let id = &session.attempt.work().exercise().id;
        session.shelved = self.place_of(id).filter(|_| session.assigned.is_none());
        Ok(session)
    }
}

#[cfg(test)]
impl StartState {
    pub(super) fn is_for(&mut self, learner: &str) {
        self.form = start::Form::of(learner, self.options.assignment.clone());
    }
}
