//! What the first screen holds: what there is to choose from, what the learner fills in, what was said there.

use std::{path::Path, sync::Arc};

use bevy_egui::egui::Ui;
use switchdrop::{
    attempt::Mode,
    exercise::{Seed, draw},
    picture::{Covers, Scene, View as Look, of_place},
    wording::{Wording, problem},
    work::Work,
};

use super::{
    Options,
    panel::PanelContext,
    session::{NotStarted, Session, Wanted},
    start,
    view::{Said, Tone},
};
use crate::journal::{AttemptList, ScenarioLibrary};

/// The first screen.
pub struct StartState {
    options: Options,
    library: ScenarioLibrary,
    kept: AttemptList,
    form: start::Form,
    said: Said,
    /// The place of each exercise, for its picture.
    places: Vec<Option<Scene>>,
    /// Variants begun since the window opened: each is drawn from another number.
    begun: u64,
}

/// The place of a scenario as one finds it. Which variant makes no difference to a picture of this size.
fn place(text: &str, wording: &Wording) -> Option<Scene> {
    let exercise = draw(text, Seed(0)).ok()?;
    let view = Look { covers: Covers::AsTheyStand, lit: None, evening: false };
    Some(of_place(&Work::new(Arc::new(exercise)), wording, &view))
}

impl StartState {
    pub fn new(options: Options) -> Self {
        Self {
            library: ScenarioLibrary::gather(&options.exercises),
            places: Vec::new(),
            kept: AttemptList::look(&options.attempts),
            options,
            form: start::Form::default(),
            said: Said::default(),
            begun: 0,
        }
    }

    /// Draws it.
    pub fn show(&mut self, ui: &mut Ui, panel: &mut PanelContext<'_>) {
        if self.places.len() != self.library.exercises.len() {
            self.places = self.library.exercises.iter().map(|it| place(&it.text, panel.wording)).collect();
        }
        let stock = start::Stock {
            library: &self.library,
            places: &self.places,
            kept: &self.kept,
            options: &self.options,
            said: &self.said,
        };
        start::show(ui, panel, &stock, &mut self.form);
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

    fn look_again(&mut self) {
        self.kept = AttemptList::look(&self.options.attempts);
    }

    /// Starts on an exercise of the library.
    ///
    /// # Errors
    /// Why it cannot be begun, in words. The words are empty if the library has no exercise at that place.
    pub fn begin(&mut self, wording: &Wording, place: usize) -> Result<Session, String> {
        let shelved = self.library.exercises.get(place).ok_or_else(String::new)?;
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

    /// Opens an attempt of the folder again.
    ///
    /// # Errors
    /// Why not, in words.
    pub fn open(&mut self, wording: &Wording, path: &Path) -> Result<Session, String> {
        let mut session = Session::open(path).map_err(|trouble| {
            self.look_again();
            start::harmless(&trouble.say(wording))
        })?;
        let id = &session.attempt.work().exercise().id;
        session.shelved = self.library.exercises.iter().position(|it| it.scenario.id == *id);
        Ok(session)
    }
}
