//! What the commands of set work share: an assignment read, a learner's part of it, and the file of their next try.

use std::path::{Path, PathBuf};

use switchdrop::{
    attempt::{Assigned, Header, Mode},
    exercise::{Exercise, Limits, nearest},
    register::{Adjustment, Assignment, LearnersWork, WallTime, hand_in_name},
};

use super::output::Output;
use crate::journal::{JournalError, make_folder, read_attempt, text};

/// Reads an assignment file; `None`: it has been said why.
pub fn read_assignment(path: &Path, talk: &mut Output) -> Option<Assignment> {
    let read = text(path, Limits::ASSIGNMENT_BYTES).and_then(|text| {
        Assignment::read(&text).map_err(|problems| JournalError::Wrong { path: path.to_owned(), text, problems })
    });
    read.map_err(|trouble| talk.trouble(&trouble)).ok()
}

/// One learner of an assignment.
pub struct Learner<'a> {
    /// The assignment.
    pub assignment: &'a Assignment,
    /// Their number.
    pub number: u64,
    /// What their code says; none says nothing.
    pub adjustment: Adjustment,
    /// The code as it is written, empty without one.
    pub code: String,
}

impl<'a> Learner<'a> {
    /// The learner of that number and code; `None`: it has been said why there is none.
    pub fn of(assignment: &'a Assignment, number: u64, code: Option<&str>, talk: &mut Output) -> Option<Self> {
        let learner = number.to_string();
        let said = [("id", assignment.id.as_str()), ("learner", &learner)];
        if !assignment.has_learner(number) {
            let sentence = talk.wording.say("set-no-such-learner", &said);
            talk.wrong(&sentence);
            return None;
        }
        let adjustment = match code {
            None => Adjustment::default(),
            Some(code) => {
                let Some(it) = Adjustment::of(code, &assignment.id, number) else {
                    let sentence = talk.wording.say("set-bad-code", &said);
                    talk.wrong(&sentence);
                    return None;
                };
                it
            }
        };
        let code = code.map_or_else(String::new, |_| adjustment.code(&assignment.id, number));
        Some(Self { assignment, number, adjustment, code })
    }

    /// Their exercises; `None`: it has been said what is wrong with them.
    pub fn work(&self, talk: &mut Output) -> Option<LearnersWork> {
        let work = LearnersWork::of(self.assignment, self.number, self.adjustment);
        work.map_err(|problems| talk.problem_sentences(&problems)).ok()
    }

    /// Which piece of set work a try of theirs is.
    pub fn assigned(&self, nth: u32) -> Assigned {
        Assigned {
            assignment: self.assignment.id.clone(),
            sha256: self.assignment.sha256.clone(),
            learner: self.number,
            nth,
            code: self.code.clone(),
        }
    }

    /// Begins their next try: its first line, its exercise, its file in that folder. `None`: it has been said why there is none.
    pub fn begins(
        &self,
        exercise: Option<&str>,
        folder: &Path,
        (marking, now): (u32, String),
        talk: &mut Output,
    ) -> Option<(Header, Exercise, PathBuf)> {
        self.says_when(&now, talk);
        if self.assignment.marking != marking {
            let version = self.assignment.marking.to_string();
            let args = [("id", self.assignment.id.as_str()), ("version", &version)];
            let sentence = talk.wording.say("set-other-version", &args);
            talk.notice(&sentence);
        }
        let exercise = self.chosen(exercise, talk)?;
        if let Err(trouble) = make_folder(folder) {
            talk.trouble(&trouble);
            return None;
        }
        let named = |nth| folder.join(hand_in_name(&self.assigned(nth), &exercise.id));
        let Some(nth) = (1..=self.assignment.tries).find(|it| named(*it).symlink_metadata().is_err()) else {
            let tries = self.assignment.tries.to_string();
            let sentence = talk.wording.say("set-no-more-tries", &[("count", &tries), ("id", &exercise.id)]);
            talk.wrong(&sentence);
            return None;
        };
        if let Some(path) = (nth > 1).then(|| named(nth - 1))
            && read_attempt(&path).is_ok_and(|it| it.receipt.is_none())
        {
            let sentence = talk.wording.say("set-try-open", &[("path", &path.display().to_string())]);
            talk.wrong(&sentence);
            return None;
        }
        let header = Header::new(marking, &exercise, self.number.to_string(), now, Mode::Set);
        let path = named(nth);
        Some((Header { assigned: Some(self.assigned(nth)), ..header }, exercise, path))
    }

    /// Says so if it is too early or late, and lets the learner go on: the tutor sees it too.
    fn says_when(&self, now: &str, talk: &mut Output) {
        let Some(now) = WallTime::of(now) else { return };
        for (key, time) in self.assignment.odd_times(Some(now.at()), Some(now.at()), self.adjustment) {
            let args = [("time", time), ("id", self.assignment.id.clone())];
            let sentence =
                talk.wording.say(&format!("set-{}", key.word()), &args.each_ref().map(|it| (it.0, it.1.as_str())));
            talk.notice(&sentence);
        }
    }

    /// The exercise of that id, or the only one.
    fn chosen(&self, id: Option<&str>, talk: &mut Output) -> Option<Exercise> {
        let mut all = self.work(talk)?.exercises;
        let found = match id {
            Some(id) => all.iter().position(|it| it.id == id),
            None => (all.len() == 1).then_some(0),
        };
        if let Some(it) = found {
            return Some(all.swap_remove(it));
        }
        let ids: Vec<_> = all.iter().map(|it| format!("`{}`", it.id)).collect();
        let args = [("id", self.assignment.id.as_str()), ("exercises", &ids.join(", "))];
        let sentence = talk.wording.say("set-which-exercise", &args);
        let near = id.and_then(|it| nearest(it, all.iter().map(|it| it.id.as_str())));
        let help = near.map(|it| talk.wording.say("did-you-mean", &[("nearest", &it)]));
        talk.wrong(&[Some(sentence), help].into_iter().flatten().collect::<Vec<_>>().join("; "));
        None
    }
}
