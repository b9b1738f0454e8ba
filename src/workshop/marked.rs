//! What was earned: the sheet at once, and its story a little later, since it replays the attempt many times over.
//!
//! The story is worked out beside the window, which is woken when it is there.

use std::{
    collections::BTreeSet,
    path::Path,
    sync::{
        Arc, Mutex,
        mpsc::{Receiver, TryRecvError, channel},
    },
    thread,
};

use bevy_egui::egui::Context;
use switchdrop::{
    circuit::Physics,
    marking::{Sheet, consequence, mark, moments},
    wording::{Story, Wording},
    work::{Action, Attempt, Work},
};

use super::{did::did, session::Session};
use crate::journal::read_attempt;

/// What was earned.
#[derive(Debug)]
pub struct Marked {
    /// The sheet.
    pub sheet: Sheet,
    /// The findings of which it is told what would have happened.
    pub opened: BTreeSet<usize>,
    story: Telling,
}

#[derive(Debug)]
enum Telling {
    /// It is being worked out.
    Waiting(Mutex<Receiver<Worked>>),
    /// It is there.
    Told(Told),
    /// It never came.
    Lost,
}

/// The story, with the words of its moments.
#[derive(Debug, Default)]
pub struct Told {
    /// The story.
    pub story: Story,
    /// For each finding what was done when it arose, if there are words for it.
    pub steps: Vec<Option<String>>,
}

/// What comes from beside the window.
#[derive(Debug)]
struct Worked {
    story: Story,
    /// For each finding the action with which it arose, and the work after it.
    acts: Vec<Option<(Action, Work)>>,
}

impl Marked {
    /// Marks an attempt and has its story worked out; `ctx` is woken when that is there.
    pub fn of(session: &Session, ctx: Option<Context>) -> Self {
        let sheet = mark(&session.attempt, session.mode);
        let (attempt, of, path) = (session.attempt.clone(), sheet.clone(), session.path.clone());
        let (sender, receiver) = channel();
        let beside = thread::Builder::new().name("story".to_owned()).spawn(move || {
            // Nobody may be waiting any more.
            let _ = sender.send(worked(&attempt, &of, &path));
            if let Some(ctx) = ctx {
                ctx.request_repaint();
            }
        });
        let story = beside.map_or(Telling::Lost, |_| Telling::Waiting(Mutex::new(receiver)));
        Self { sheet, opened: BTreeSet::new(), story }
    }

    /// Takes the story if it has come.
    pub fn look(&mut self, wording: &Wording) {
        let Telling::Waiting(receiver) = &mut self.story else { return };
        self.story = match receiver.get_mut().map(|it| it.try_recv()) {
            Ok(Ok(it)) => Telling::Told(it.told(wording)),
            Ok(Err(TryRecvError::Empty)) => return,
            Ok(Err(TryRecvError::Disconnected)) | Err(_) => Telling::Lost,
        };
    }

    /// The story, if it is there.
    pub fn told(&self) -> Option<&Told> {
        if let Telling::Told(it) = &self.story { Some(it) } else { None }
    }

    /// Whether it is still to come.
    pub fn is_waiting(&self) -> bool {
        matches!(self.story, Telling::Waiting(_))
    }

    #[cfg(test)]
    pub(super) fn wait(&mut self, wording: &Wording) {
        if let Telling::Waiting(receiver) = &mut self.story {
            let it = receiver.get_mut().unwrap().recv().unwrap();
            self.story = Telling::Told(it.told(wording));
        }
    }
}

impl Worked {
    fn told(self, wording: &Wording) -> Told {
        let step = |(action, work): (Action, Work)| Some(did(wording, &work, &action)).filter(|it| !it.is_empty());
        Told { story: self.story, steps: self.acts.into_iter().map(|it| it.and_then(step)).collect() }
    }
}

fn worked(attempt: &Attempt, sheet: &Sheet, path: &Path) -> Worked {
    let moments = moments(attempt, sheet, &Physics);
    let would_have = (0..sheet.findings.len()).map(|it| consequence(attempt, sheet, it)).collect();
    // The times stand in the file alone.
    let times = read_attempt(path).map(|it| it.opened.times()).unwrap_or_default();
    let mut acts = vec![None; moments.len()];
    let mut replayed = Attempt::new(Arc::clone(attempt.work().exercise()));
    for (number, action) in attempt.log().iter().enumerate() {
        if replayed.act(action.clone(), &Physics).is_err() {
            break;
        }
        for (act, _) in acts.iter_mut().zip(&moments).filter(|it| *it.1 == Some(number)) {
            *act = Some((action.clone(), replayed.work().clone()));
        }
    }
    Worked { story: Story { moments, times, would_have }, acts }
}
