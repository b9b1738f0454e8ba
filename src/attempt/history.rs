//! What undo goes back to.
//!
//! A copy of the work for each step would be gigabytes in a long attempt at a large house. Copies are kept of the last steps and of
//! every 64th before them; what lies between is replayed from the log when it is needed.

use std::{collections::VecDeque, sync::Arc};

use crate::work::{Action, Work};

/// Steps between two copies that are kept. About the square root of the most steps that a file may have, so that
/// neither kind of copy outgrows the other.
const EVERY: usize = 64;

/// Steps that can be taken back, and those that were and can be done again.
#[derive(Debug, Clone, Default)]
pub(super) struct History {
    /// Each step by its action's number in the log.
    done: Vec<usize>,
    /// The same for the steps taken back, the last first.
    undone: Vec<usize>,
    /// The work before every [`EVERY`]th step.
    kept: Vec<Arc<Work>>,
    /// The work before each of the last steps; for earlier steps it is worked out again.
    near: VecDeque<Arc<Work>>,
}

impl History {
    pub(super) fn can_undo(&self) -> bool {
        !self.done.is_empty()
    }

    pub(super) fn can_redo(&self) -> bool {
        !self.undone.is_empty()
    }

    /// A line that undo does not cross.
    pub(super) fn close(&mut self) {
        *self = Self::default();
    }

    /// Notes a step, the action of that number; what was taken back before it can no longer be done again.
    pub(super) fn note(&mut self, action: usize, before: Work) {
        self.undone.clear();
        self.push(action, before);
    }

    fn push(&mut self, action: usize, before: Work) {
        let before = Arc::new(before);
        if self.done.len().is_multiple_of(EVERY) {
            self.kept.push(Arc::clone(&before));
        }
        self.done.push(action);
        self.near.push_back(before);
        // Twice the distance between two kept copies, so that undo and redo across one do not replay the same steps.
        if self.near.len() > 2 * EVERY {
            self.near.drain(..EVERY);
        }
    }

    /// Takes back the last step, and gives the work before it.
    pub(super) fn back(&mut self, log: &[Action]) -> Option<Work> {
        let last = self.done.len().checked_sub(1)?;
        if self.near.is_empty() {
            self.near = self.found_again(last, log)?;
        }
        let before = self.near.pop_back()?;
        self.undone.push(self.done.pop()?);
        self.kept.truncate(last.div_ceil(EVERY));
        Some(Arc::unwrap_or_clone(before))
    }

    /// The work before each step, from the last kept copy up to this step.
    fn found_again(&self, step: usize, log: &[Action]) -> Option<VecDeque<Arc<Work>>> {
        let from = step / EVERY;
        let mut found = VecDeque::from([Arc::clone(self.kept.get(from)?)]);
        for number in self.done.get(from * EVERY..step)? {
            let mut work = Work::clone(found.back()?);
            // The action was possible then, and handwork depends on nothing that undo leaves unchanged.
            work.apply(log.get(*number)?).ok()?;
            found.push_back(Arc::new(work));
        }
        Some(found)
    }

    /// Does again the step that was taken back last, and gives the work after it.
    pub(super) fn again(&mut self, log: &[Action], now: &Work) -> Option<Work> {
        let number = *self.undone.last()?;
        let mut work = now.clone();
        work.apply(log.get(number)?).ok()?;
        self.undone.pop();
        self.push(number, now.clone());
        Some(work)
    }
}
