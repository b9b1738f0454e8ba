//! What was earned: the sheet at once, and its story a little later, since it replays the attempt many times over.
//!
//! The story is worked out beside the window, which is woken when it is there.

use std::{
    collections::BTreeSet,
    sync::{
        Mutex,
        mpsc::{Receiver, TryRecvError, channel},
    },
    thread,
};

use bevy_egui::egui::Context;
use switchdrop::{
    marking::{Sheet, mark},
    report::Story,
};

use super::session::Session;
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
    Waiting(Mutex<Receiver<Story>>),
    /// It is there.
    Told(Story),
    /// It never came.
    Lost,
}

impl Marked {
    /// Marks an attempt and has its story worked out; `ctx` is woken when that is there.
    pub fn of(session: &Session, ctx: Option<Context>) -> Self {
        let sheet = mark(&session.attempt, session.mode);
        let (attempt, of, path) = (session.attempt.clone(), sheet.clone(), session.path.clone());
        let (sender, receiver) = channel();
        let beside = thread::Builder::new().name("story".to_owned()).spawn(move || {
            // The times stand in the file alone.
            let times = read_attempt(&path).map(|it| it.opened.times()).unwrap_or_default();
            // Nobody may be waiting any more.
            let _ = sender.send(Story::of(&attempt, &of, times));
            if let Some(ctx) = ctx {
                ctx.request_repaint();
            }
        });
        let story = beside.map_or(Telling::Lost, |_| Telling::Waiting(Mutex::new(receiver)));
        Self { sheet, opened: BTreeSet::new(), story }
    }

    /// Takes the story if it has come.
    pub fn look(&mut self) {
        let Telling::Waiting(receiver) = &mut self.story else { return };
        self.story = match receiver.get_mut().map(|it| it.try_recv()) {
            Ok(Ok(it)) => Telling::Told(it),
            Ok(Err(TryRecvError::Empty)) => return,
            Ok(Err(TryRecvError::Disconnected)) | Err(_) => Telling::Lost,
        };
    }

    /// The story, if it is there.
    pub fn told(&self) -> Option<&Story> {
        if let Telling::Told(it) = &self.story { Some(it) } else { None }
    }

    /// Whether it is still to come.
    pub fn is_waiting(&self) -> bool {
        matches!(self.story, Telling::Waiting(_))
    }

    #[cfg(test)]
    pub(super) fn wait(&mut self) {
        if let Telling::Waiting(receiver) = &mut self.story {
            self.story = Telling::Told(receiver.get_mut().unwrap().recv().unwrap());
        }
    }
}
