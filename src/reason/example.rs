//! One way of joining carried out: an exercise of our own, and the actions that put every end where the way has it.

mod house;

use std::sync::Arc;

use self::house::PracticeHouse;
use super::question::Question;
use crate::{
    attempt::Attempt,
    exercise::{Seed, read},
    work::{Action, Feel, Work},
};

/// One way of joining, carried out.
#[derive(Debug, Clone)]
pub struct Example {
    attempt: Attempt,
    ends: Vec<(String, String)>,
}

impl Example {
    /// Carries a way out (as [`super::ClassCount::shown`] has it); `None` where it can't be: an end that is not there, or a terminal with no
    /// room.
    pub(super) fn new(question: &Question, shown: &[Vec<u8>]) -> Option<Self> {
        let house = PracticeHouse::new(question);
        let mut attempt = Attempt::new(Arc::new(read(&house.scenario(), Seed(0)).ok()?));
        let mut ends = Vec::new();
        for (place, into) in shown.iter().enumerate() {
            let location = house.id(place);
            attempt.act(Action::RemoveCover { location: location.clone() }).ok()?;
            let terminals = house.terminals(place);
            let free = house.free_ends(place);
            if free.len() != into.len() {
                return None;
            }
            for (end, into) in free.into_iter().zip(into) {
                let (terminal, end_address) = (terminals.get(usize::from(*into))?, end.address);
                if let Some(mark) = end.mark {
                    attempt.act(Action::Mark { end: end_address.clone(), mark }).ok()?;
                }
                attempt.act(Action::Connect { end: end_address.clone(), terminal: terminal.clone() }).ok()?;
                ends.push((end_address, terminal.clone()));
            }
            for terminal in terminals.into_iter().filter(|it| ends.iter().any(|end| end.1 == *it)) {
                attempt.act(Action::Tighten { terminal, feel: Feel::Right }).ok()?;
            }
            attempt.act(Action::FitCover { location }).ok()?;
        }
        let example = Self { attempt, ends };
        // What is stopped as unsafe is no refusal.
        let work = example.work();
        let stands = |(end, terminal): &(String, String)| {
            let there = work.end(end).ok().and_then(|it| work.terminal_of(it));
            there.is_some() && there == work.terminal(terminal).ok()
        };
        example.ends.iter().all(stands).then_some(example)
    }

    /// The attempt: an exercise, and the actions that connect every end. Nothing is proved, powered or handed in.
    pub const fn attempt(&self) -> &Attempt {
        &self.attempt
    }

    /// The work with every end connected.
    pub fn work(&self) -> &Work {
        self.attempt.work()
    }

    /// The ends that the way is about and the terminals that they are in, by address.
    pub fn ends(&self) -> &[(String, String)] {
        &self.ends
    }
}
