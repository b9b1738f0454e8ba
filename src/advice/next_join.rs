//! What a hint tells: a mistake in what was done so far, or with nothing wrong, which conductor to join next, and what it is for.
//!
//! The wiring that it goes by is looked for from what is joined already, so that a choice of the learner's that works is kept. Of its ends
//! it names one that a hand may go to now, at the place worked at last if one is there.

use super::wiring::{Carries, Wiring, wiring_left};
use crate::{
    attempt::Attempt,
    exercise::{EndId, LocationId, TerminalId, TerminalUse},
    marking::{Hint, hint},
    trade::colour::{Colour, Job, Mark},
    work::{Action, Work},
};

/// What a hint tells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Guidance {
    /// Whether something is wrong so far.
    pub hint: Hint,
    /// Whether nothing is wrong, and something without a mark is to be found out and named first.
    pub names: bool,
    /// What to join next; only where nothing is wrong and everything has a name.
    pub next: Option<NextJoin>,
}

/// An end and the terminal that it goes into.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NextJoin {
    /// The end.
    pub end: EndId,
    /// The terminal.
    pub terminal: TerminalId,
    /// What it is to carry; `None` for a protective conductor.
    pub carries: Option<Carries>,
    /// The sleeve that it needs first, since none goes over an end that is clamped.
    pub sleeve: Option<Colour>,
}

/// What the hint tells that the last action of the log asked for.
pub fn guidance(attempt: &Attempt) -> Guidance {
    let hint = hint(attempt);
    let next = if hint == Hint::SoFarRight { next_join(attempt) } else { None };
    let names = hint == Hint::SoFarRight && has_names_left(attempt);
    Guidance { hint, names, next }
}

/// The end to join next; `None` where something is still to be named, a hand may go to no end that a wiring needs, or no wiring is found.
pub fn next_join(attempt: &Attempt) -> Option<NextJoin> {
    let work = attempt.work();
    if has_names_left(attempt) {
        return None;
    }
    let Wiring::Found(laid) = wiring_left(work) else { return None };
    let live = laid.ends.into_iter().zip(laid.carries).map(|(to, carries)| (to, Some(carries)));
    let protective = protective(work).map(|to| (to, None));
    let lately = worked_at_last(attempt);
    let mut all: Vec<_> = live.chain(protective).filter(|it| work.terminal_of(it.0.0) != Some(it.0.1)).collect();
    all.sort_by_key(|((end, _), _)| Some(work.end_location(*end)) != lately);
    let ((end, terminal), carries) = all.into_iter().find(|((end, terminal), _)| may_join(attempt, *end, *terminal))?;
    let job = carries.map_or(Job::Protective, Carries::job);
    Some(NextJoin { end, terminal, carries, sleeve: sleeve(work, end, job) })
}

/// Whether something is still to be named: to say where it goes would say what it is.
fn has_names_left(attempt: &Attempt) -> bool {
    attempt.work().names_left().next().is_some()
}

impl Carries {
    /// What its conductor is marked as.
    pub const fn job(self) -> Job {
        match self {
            Self::PermanentLine | Self::Strapper | Self::SwitchedLine => Job::Line,
            Self::Neutral => Job::Neutral,
        }
    }
}

/// Free ends of protective conductors and an earth terminal of their place with room: the plate's before the box's, from which a plate
/// would still need a tail.
fn protective(work: &Work) -> impl Iterator<Item = (EndId, TerminalId)> + '_ {
    let exercise = work.exercise();
    let is_free =
        |it: &EndId| !work.is_landed(*it) && exercise.end_facts(*it).is_some_and(|facts| facts.colour.is_protective());
    work.ends().filter(is_free).filter_map(move |end| {
        let here = exercise.terminals_at(work.end_location(end));
        let earths = here.filter(|it| exercise.is_for_earth(*it) && work.room_in(*it) > 0);
        let terminal = earths.min_by_key(|it| exercise.terminals[*it].used_by == TerminalUse::BoxEarth)?;
        Some((end, terminal))
    })
}

/// The place where a cover came off or an end was joined last.
fn worked_at_last(attempt: &Attempt) -> Option<LocationId> {
    let work = attempt.work();
    attempt.log().iter().rev().find_map(|it| match it {
        Action::Connect { terminal, .. } => Some(work.exercise().terminals[work.terminal(terminal).ok()?].location),
        Action::RemoveCover { location } => work.location(location).ok(),
        _ => None,
    })
}

/// Whether the cover is off there, and a hand that joins the end would not be stopped.
fn may_join(attempt: &Attempt, end: EndId, terminal: TerminalId) -> bool {
    let work = attempt.work();
    let address = &work.exercise().terminals[terminal].address;
    let joins = Action::Connect { end: work.end_address(end), terminal: address.clone() };
    !work.is_covered(work.end_location(end)) && attempt.would_stop(&joins).is_none()
}

/// The sleeve that an end needs for a job that neither its colour nor its mark says.
pub(super) fn sleeve(work: &Work, end: EndId, job: Job) -> Option<Colour> {
    let facts = work.end_facts(end);
    let said = work.mark_of(end).map_or(facts.colour.job(facts.era), |it: Mark| it.job(facts.era));
    let is_said = said == Some(job) && (facts.colour != Colour::Bare || work.mark_of(end).is_some());
    let colour = match job {
        Job::Line => Colour::Brown,
        Job::Neutral => Colour::Blue,
        Job::Protective => Colour::GreenYellow,
    };
    (!is_said).then_some(colour)
}
