//! What an assessor asks of the isolation beside the acts that were stopped: how often a device was reset, and how long it took from the
//! first lock to the first place proved dead. Both follow from the log, which is replayed.

use crate::{attempt::Attempt, work::Action};

/// How the isolation went.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Isolated {
    /// Devices that had opened by themselves and were switched on again; one that was stopped is no reset.
    pub resets: usize,
    /// Milliseconds from the first lock, or the plug pulled on a training board, to the first place of the learner's that was proved dead.
    /// `None`: nothing was locked, or nothing was proved after it, or no times are known.
    pub lock_to_proved: Option<u64>,
}

impl Isolated {
    /// By the log. `times`: when each action was done, in milliseconds since the beginning.
    pub fn of(attempt: &Attempt, times: &[u64]) -> Self {
        let (mut resets, mut locked, mut proved) = (0, None, None);
        let places = attempt.work().exercise().learners_places();
        let mut replayed = attempt.begun_again();
        for (number, action) in attempt.log().iter().enumerate() {
            if replayed.act(action.clone()).is_err() {
                break;
            }
            if attempt.tally().acts.iter().any(|it| it.action == number) {
                continue;
            }
            match action {
                Action::Reset { .. } => resets += 1,
                Action::LockOff { .. } | Action::LockIncomer { .. } | Action::Unplug if locked.is_none() => {
                    locked = Some(number);
                }
                _ => {}
            }
            if locked.is_some() && proved.is_none() && places.iter().any(|it| replayed.safety().is_proved(*it)) {
                proved = Some(number);
            }
        }
        let at = |number: Option<usize>| times.get(number?).copied();
        let lock_to_proved = at(locked).zip(at(proved)).map(|(from, to)| to.saturating_sub(from));
        Self { resets, lock_to_proved }
    }
}
