//! Setting work: what is filled in, what a learner gets by it, and the file that is written.

use std::{collections::BTreeSet, path::Path, sync::Arc};

use bevy_egui::egui::Ui;
use switchdrop::{
    exercise::{Exercise, Limits},
    marking::VERSION,
    picture::{Covers, View as Look, of_place},
    register::{AnswersShown, Assignment, Counts, Hints, Learner, SetExercise, WallTime, terms, terms_for},
    wording::{Wording, problem},
    work::Work,
};

use super::{answer::Answer, path_of};
use crate::{
    desk::{NotSet, as_read, clock_time, hand_out, numbers, what_is_past},
    journal::{JournalError, ScenarioLibrary, make_folder},
    workshop::{
        field::{PATH, choices, faces, field},
        panel::PanelContext,
        theme,
    },
};

/// Characters of a time as it is typed.
const TIME: usize = 40;
/// Characters of a roster as it is typed.
const ROSTER: usize = 400;
/// The folder beside an assignment for what is handed in.
const HANDED_IN: &str = "handed-in";

/// What is filled in.
#[derive(Debug, Clone)]
pub struct Form {
    id: String,
    title: String,
    group: String,
    learners: String,
    chosen: BTreeSet<usize>,
    opens: String,
    due: String,
    last: String,
    tries: String,
    counts: Counts,
    hints: Hints,
    answers: AnswersShown,
    pass_mark: String,
    folder: String,
    /// The learner of the preview.
    pub learner: String,
}

impl Form {
    /// With nothing filled in but where it is to be kept.
    pub fn new(home: Option<&Path>) -> Self {
        let text = String::new;
        Self {
            id: text(),
            title: text(),
            group: text(),
            learners: text(),
            chosen: BTreeSet::new(),
            opens: text(),
            due: text(),
            last: text(),
            tries: "1".to_owned(),
            counts: Counts::default(),
            hints: Hints::default(),
            answers: AnswersShown::default(),
            pass_mark: text(),
            folder: home.map_or_else(text, |it| it.join("classes").display().to_string()),
            learner: "7".to_owned(),
        }
    }

    /// The assignment that is filled in, as its file reads.
    fn assignment(&self, library: &ScenarioLibrary, wording: &Wording) -> Result<Assignment, Vec<String>> {
        let mut wrong = Vec::new();
        let mut time = |typed: &str, name: &str| {
            // A blank is as good as the letter between date and clock.
            let typed = typed.trim().replacen(' ', "T", 1);
            if typed.is_empty() {
                return None;
            }
            let read: Option<WallTime> = clock_time(&typed).ok();
            if read.is_none() {
                wrong.push(wording.say("tutor-wrong-time", &[("field", &wording.say(name, &[]))]));
            }
            read
        };
        let (opens, due, last) =
            (time(&self.opens, "tutor-opens"), time(&self.due, "tutor-due"), time(&self.last, "tutor-last"));
        let mut count = |typed: &str, key: &str| {
            let read: Option<u32> = typed.trim().parse().ok();
            if read.is_none() {
                wrong.push(wording.say(key, &[]));
            }
            read
        };
        let tries = count(&self.tries, "tutor-wrong-tries").unwrap_or(1);
        let pass_mark =
            if self.pass_mark.trim().is_empty() { None } else { count(&self.pass_mark, "tutor-wrong-pass-mark") };
        let learners = numbers(&self.learners).unwrap_or_default();
        let scenarios: Vec<Exercise> =
            self.chosen.iter().filter_map(|it| Some(library.exercises.get(*it)?.scenario.clone())).collect();
        for (is_missing, key) in [
            (self.id.trim().is_empty(), "tutor-wrong-id"),
            (self.group.trim().is_empty(), "tutor-wrong-group"),
            (learners.is_empty(), "tutor-wrong-learners"),
            (scenarios.is_empty(), "tutor-wrong-exercises"),
        ] {
            wrong.extend(is_missing.then(|| wording.say(key, &[])));
        }
        if !wrong.is_empty() {
            return Err(wrong);
        }
        let first = || scenarios.first().map(|it| it.title.clone()).unwrap_or_default();
        let title = self.title.trim();
        let made = Assignment {
            id: self.id.trim().to_owned(),
            title: if title.is_empty() { first() } else { title.to_owned() },
            group: self.group.trim().to_owned(),
            opens,
            due,
            last,
            tries,
            counts: self.counts,
            hints: self.hints,
            answers: self.answers,
            pass_mark,
            program: env!("CARGO_PKG_VERSION").to_owned(),
            marking: VERSION,
            learners,
            exercises: scenarios.into_iter().map(SetExercise::of).collect(),
            sha256: String::new(),
        };
        as_read(&made).map(|it| it.1).map_err(|why| not_set(&why, wording))
    }

    /// Says what a learner gets.
    pub fn preview(&self, library: &ScenarioLibrary, wording: &Wording) -> Answer {
        let assignment = match self.assignment(library, wording) {
            Ok(it) => it,
            Err(wrong) => return Answer::Wrong(wrong),
        };
        let number = self.learner.trim().parse().ok();
        let Some(learner) = number.and_then(|it| Learner::of(&assignment, it, None).ok()) else {
            return Answer::Wrong(vec![wording.say("tutor-wrong-learner", &[("learner", &self.learner)])]);
        };
        let work = match learner.work() {
            Ok(it) => it,
            Err(problems) => return Answer::Wrong(problems.iter().map(|it| problem(wording, it)).collect()),
        };
        let look = Look { covers: Covers::AsTheyStand, lit: None, evening: false };
        let drawn = work.exercises.into_iter().map(|exercise| {
            let place = of_place(&Work::new(Arc::new(exercise.clone())), wording, &look);
            (exercise, place)
        });
        let heading = wording.say("tutor-preview-heading", &[("learner", &learner.number.to_string())]);
        let terms = terms_for(wording, &assignment, learner.adjustment);
        Answer::Preview(std::iter::once(heading).chain(terms).collect(), drawn.collect())
    }

    /// Writes it.
    pub fn write(&self, library: &ScenarioLibrary, wording: &Wording) -> Answer {
        let assignment = match self.assignment(library, wording) {
            Ok(it) => it,
            Err(wrong) => return Answer::Wrong(wrong),
        };
        if self.folder.trim().is_empty() {
            return Answer::Wrong(vec![wording.say("tutor-wrong-folder", &[])]);
        }
        // The id is one that may stand in a path: what reads assignments has seen to that.
        let folder = path_of(&self.folder).join(&assignment.id);
        let (path, handed_in) = (folder.join(format!("{}.ron", assignment.id)), folder.join(HANDED_IN));
        let written = make_folder(&handed_in).map_err(NotSet::File).and_then(|()| hand_out(&path, &assignment));
        match written {
            Ok(it) => {
                let args = [("path", path.display().to_string()), ("folder", handed_in.display().to_string())];
                let args = args.each_ref().map(|(name, it)| (*name, it.as_str()));
                let first = ["tutor-written", "tutor-written-next"].map(|key| wording.say(key, &args));
                let lines = first.into_iter().chain(what_is_past(&it, wording)).chain(terms(wording, &it)).collect();
                Answer::Written { path, handed_in, lines }
            }
            Err(why) => Answer::Wrong(not_set(&why, wording)),
        }
    }

    /// Draws what is to be filled in.
    pub fn show(&mut self, ui: &mut Ui, panel: &mut PanelContext<'_>, library: &ScenarioLibrary) {
        ui.label(panel.say("tutor-set-means", &[]));
        ui.add_space(6.0);
        let name = Limits::NAME_CHARS;
        field(ui, panel, ("tutor:id", "tutor-id"), &mut self.id, (name, 220.0));
        theme::quiet(ui, &panel.say("tutor-id-means", &[]));
        field(ui, panel, ("tutor:title", "tutor-what"), &mut self.title, (name, 360.0));
        field(ui, panel, ("tutor:group", "tutor-group"), &mut self.group, (name, 220.0));
        field(ui, panel, ("tutor:learners", "tutor-learners"), &mut self.learners, (ROSTER, 220.0));
        theme::quiet(ui, &panel.say("tutor-learners-means", &[]));
        ui.add_space(8.0);
        panel.heading(ui, "tutor-exercises");
        for (place, it) in library.exercises.iter().enumerate() {
            let is_chosen = self.chosen.contains(&place);
            let mut ticked = is_chosen;
            let text = format!("{} ({})", it.scenario.title, it.scenario.place);
            panel.check(ui, &mut ticked, &format!("tutor:exercise:{}", it.scenario.id), &text);
            if ticked && !is_chosen {
                self.chosen.insert(place);
            } else if !ticked && is_chosen {
                self.chosen.remove(&place);
            }
        }
        ui.add_space(8.0);
        panel.heading(ui, "tutor-when");
        field(ui, panel, ("tutor:opens", "tutor-opens"), &mut self.opens, (TIME, 220.0));
        field(ui, panel, ("tutor:due", "tutor-due"), &mut self.due, (TIME, 220.0));
        field(ui, panel, ("tutor:last", "tutor-last"), &mut self.last, (TIME, 220.0));
        theme::quiet(ui, &panel.say("tutor-when-means", &[]));
        ui.add_space(8.0);
        panel.heading(ui, "tutor-how");
        self.show_how(ui, panel);
        ui.add_space(8.0);
        field(ui, panel, ("tutor:folder", "tutor-folder"), &mut self.folder, (PATH, 480.0));
        theme::quiet(ui, &panel.say("tutor-folder-means", &[]));
    }

    /// How it counts.
    fn show_how(&mut self, ui: &mut Ui, panel: &mut PanelContext<'_>) {
        field(ui, panel, ("tutor:tries", "tutor-tries"), &mut self.tries, (4, 60.0));
        if self.tries.trim() != "1" {
            let all = faces(panel, "tutor-counts", Counts::ALL, Counts::word);
            choices(ui, panel, ("tutor:counts", "tutor-counts"), &mut self.counts, all);
        }
        let all = faces(panel, "tutor-hints", Hints::ALL, Hints::word);
        choices(ui, panel, ("tutor:hints", "tutor-hints"), &mut self.hints, all);
        let all = faces(panel, "tutor-answers", AnswersShown::ALL, AnswersShown::word);
        choices(ui, panel, ("tutor:answers", "tutor-answers"), &mut self.answers, all);
        field(ui, panel, ("tutor:pass-mark", "tutor-pass-mark"), &mut self.pass_mark, (3, 60.0));
    }
}

/// Why an assignment is not handed out, a sentence for each thing.
fn not_set(why: &NotSet, wording: &Wording) -> Vec<String> {
    match why {
        NotSet::Wrong(problems) => problems.iter().map(|it| problem(wording, it)).collect(),
        NotSet::File(JournalError::Exists(path)) => {
            vec![wording.say("tutor-exists", &[("path", &path.display().to_string())])]
        }
        NotSet::File(it) => vec![it.say(wording)],
    }
}
