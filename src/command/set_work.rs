//! What the commands of set work share: an assignment read, a learner's part of it, and their next try begun.

use std::path::Path;

use switchdrop::{
    exercise::{Exercise, nearest},
    register::{Assignment, Learner, LearnersWork, NoLearner, WallTime},
    wording::when,
};

use super::output::Output;
use crate::journal::{self, Begun, NotBegun};

/// Reads an assignment file; `None`: it has been said why.
pub fn read_assignment(path: &Path, talk: &mut Output) -> Option<Assignment> {
    journal::read_assignment(path).map_err(|trouble| talk.trouble(&trouble)).ok()
}

/// The learner of that number and code; `None`: what is wrong with them has been said.
pub fn learner<'a>(
    assignment: &'a Assignment,
    number: u64,
    code: Option<&str>,
    talk: &mut Output,
) -> Option<Learner<'a>> {
    let found = Learner::of(assignment, number, code);
    if let Err(why) = &found {
        let key = match why {
            NoLearner::Number => "set-no-such-learner",
            NoLearner::Code => "set-bad-code",
        };
        let args = [("id", assignment.id.as_str()), ("learner", &number.to_string())];
        let sentence = talk.wording.say(key, &args);
        talk.wrong(&sentence);
    }
    found.ok()
}

/// Their exercises; `None`: it has been said what is wrong with them.
pub fn work(of: &Learner<'_>, talk: &mut Output) -> Option<LearnersWork> {
    of.work().map_err(|problems| talk.problem_sentences(&problems)).ok()
}

/// Begins their next try, in that folder. `None`: why it can't be begun has been said.
pub fn begin(
    of: &Learner<'_>,
    exercise: Option<&str>,
    folder: &Path,
    (marking, now): (u32, String),
    talk: &mut Output,
) -> Option<(Begun, Exercise)> {
    says_when(of, &now, talk);
    if of.assignment.marking != marking {
        let version = of.assignment.marking.to_string();
        let args = [("id", of.assignment.id.as_str()), ("version", &version)];
        let sentence = talk.wording.say("set-other-version", &args);
        talk.notice(&sentence);
    }
    let exercise = chosen(of, exercise, talk)?;
    let sentence = match Begun::next(of, &exercise, folder, (marking, now)) {
        Ok(it) => return Some((it, exercise)),
        Err(NotBegun::File(trouble)) => {
            talk.trouble(&trouble);
            return None;
        }
        Err(NotBegun::NoneLeft) => {
            let tries = of.assignment.tries.to_string();
            talk.wording.say("set-no-more-tries", &[("count", &tries), ("id", &exercise.id)])
        }
        Err(NotBegun::Open(path)) => talk.wording.say("set-try-open", &[("path", &path.display().to_string())]),
    };
    talk.wrong(&sentence);
    None
}

/// Says so if it is too early or late, and lets the learner go on: the tutor sees it too.
fn says_when(of: &Learner<'_>, now: &str, talk: &mut Output) {
    let Some(now) = WallTime::of(now) else { return };
    for (key, time) in of.assignment.odd_times(Some(now.at()), Some(now.at()), of.adjustment) {
        let args = [("time", when(&talk.wording, &time)), ("id", of.assignment.id.clone())];
        let args = args.each_ref().map(|(name, it)| (*name, it.as_str()));
        let sentence = talk.wording.say(&format!("set-{}", key.word()), &args);
        talk.notice(&sentence);
    }
}

/// The exercise of that id, or the only one.
fn chosen(of: &Learner<'_>, id: Option<&str>, talk: &mut Output) -> Option<Exercise> {
    let mut all = work(of, talk)?.exercises;
    let found = match id {
        Some(id) => all.iter().position(|it| it.id == id),
        None => (all.len() == 1).then_some(0),
    };
    if let Some(it) = found {
        return Some(all.swap_remove(it));
    }
    no_such_exercise(of.assignment, id, talk);
    None
}

/// Says that the assignment has no exercise of that id, or that it is to be said which.
pub fn no_such_exercise(of: &Assignment, id: Option<&str>, talk: &mut Output) {
    let all = || of.exercises.iter().map(|it| it.scenario.id.as_str());
    let ids: Vec<_> = all().map(|it| format!("`{it}`")).collect();
    let args = [("id", of.id.as_str()), ("exercises", &ids.join(", "))];
    let sentence = talk.wording.say("set-which-exercise", &args);
    let near = id.and_then(|typed| nearest(typed, all()));
    let help = near.map(|it| talk.wording.say("did-you-mean", &[("nearest", &it)]));
    talk.wrong(&[Some(sentence), help].into_iter().flatten().collect::<Vec<_>>().join("; "));
}
