//! What was earned: the sheet at once, and its story a little later, since it replays the attempt many times over.

use std::{collections::BTreeSet, time::Duration};

use bevy_egui::egui::Context;
use switchdrop::{
    marking::{Sheet, mark},
    report::Story,
};

use super::{beside::Beside, session::Session};
use crate::journal::read_attempt;

/// What was earned.
#[derive(Debug)]
pub struct Marked {
    /// The sheet.
    pub sheet: Sheet,
    /// The findings of which it is told what would have happened.
    pub opened: BTreeSet<usize>,
    /// The finding that was walked to, and whether it is still to come into sight.
    pub walked_to: Option<(usize, bool)>,
    story: Beside<Story>,
}

impl Marked {
    /// Marks an attempt and has its story worked out; `ctx` is woken when that is there.
    pub fn of(session: &Session, ctx: Option<Context>) -> Self {
        let sheet = mark(&session.attempt, session.mode);
        let (attempt, of, path) = (session.attempt.clone(), sheet.clone(), session.path.clone());
        let story = Beside::new("story", ctx, move || {
            // The times stand in the file alone.
            let times = read_attempt(&path).map(|it| it.opened.times()).unwrap_or_default();
            Story::of(&attempt, &of, times)
        });
        Self { sheet, opened: BTreeSet::new(), walked_to: None, story }
    }

    /// The same if its answers may be shown.
    pub fn if_shown(session: &Session, ctx: Option<Context>) -> Option<Self> {
        (!session.is_withheld()).then(|| Self::of(session, ctx))
    }

    /// Walks to the next finding; after the last comes the first.
    pub fn walk_on(&mut self) {
        let count = self.sheet.findings.len();
        let next = self.walked_to.map_or(0, |(at, _)| at + 1);
        self.walked_to = (count > 0).then(|| (next % count, true));
    }

    /// What was walked to is in sight.
    pub fn has_come(&mut self) {
        if let Some((_, is_to_come)) = &mut self.walked_to {
            *is_to_come = false;
        }
    }

    /// Takes the story if it has come.
    pub fn look(&mut self) {
        self.story.look(Duration::ZERO);
    }

    /// The story, if it is there.
    pub fn told(&self) -> Option<&Story> {
        self.story.come()
    }

    /// Whether it is still to come.
    pub fn is_waiting(&self) -> bool {
        self.story.is_waiting()
    }

    #[cfg(test)]
    pub(super) fn wait(&mut self) {
        self.story.look(Duration::from_mins(1));
        assert!(self.told().is_some(), "the story never came");
    }
}
