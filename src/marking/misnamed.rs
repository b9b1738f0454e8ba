//! What follows from a wrong name: a learner who takes one cable for another joins each as the other, and has made one slip.
//!
//! Names that were given to each other's things, round and round, are one slip too. What vanishes when their ends change places follows from it,
//! and so does what followed from that.

use super::{causes::PlacedDraft, code::Code, context::Context, finding::Root, pre_existing::Before, rules::ask};
use crate::{
    attempt::Attempt,
    exercise::{EndId, UnmarkedId, UnmarkedThing},
    work::{Edit, Subject, Work},
};

/// Roots what follows from wrong names at the first of each slip.
pub(super) fn follow(attempt: &Attempt, before: &Before, placed: &mut [PlacedDraft]) {
    let work = attempt.work();
    let wrong = |it: &PlacedDraft| match it.draft.at {
        Subject::Unmarked(id) if it.draft.code == Code::NameWrong => Some(id),
        _ => None,
    };
    let mut slips: Vec<Vec<UnmarkedId>> = Vec::new();
    for id in placed.iter().filter_map(wrong) {
        if !slips.iter().flatten().any(|it| *it == id) {
            slips.push(slip(work, id));
        }
    }
    guesses(placed);
    for slip in slips {
        let Some(cause) = placed.iter().position(|it| wrong(it) == slip.first().copied()) else { continue };
        let edits = as_named(work, &slip);
        let left = if edits.is_empty() {
            None
        } else {
            Some(ask(&Context::new(work, attempt.tally(), attempt.safety(), &edits, before)))
        };
        let vanishes =
            |it: &PlacedDraft| left.as_ref().is_some_and(|left| left.iter().all(|one| one.key() != it.draft.key()));
        let of_slip = |it: &PlacedDraft| wrong(it).is_some_and(|id| slip.contains(&id));
        let follows: Vec<usize> = (0..placed.len())
            .filter(|index| *index != cause)
            .filter(|index| of_slip(&placed[*index]) || wrong(&placed[*index]).is_none() && vanishes(&placed[*index]))
            .collect();
        for it in placed.iter_mut() {
            if matches!(it.root, Root::Of(of) if follows.contains(&of)) {
                it.root = Root::Of(cause);
            }
        }
        for index in follows {
            placed[index].root = Root::Of(cause);
        }
        placed[cause].root = Root::Itself;
        placed[cause].repair = Some(edits).filter(|it| !it.is_empty());
    }
}

/// Of things that no reading told apart, the last is what the other guesses left over.
fn guesses(placed: &mut [PlacedDraft]) {
    let guessed = |it: &PlacedDraft| match it.draft.at {
        Subject::Unmarked(id) if it.draft.code == Code::NameGuessed => Some(id),
        _ => None,
    };
    let all: Vec<(usize, UnmarkedId)> =
        placed.iter().enumerate().filter_map(|(index, it)| Some((index, guessed(it)?))).collect();
    for (place, (last, id)) in all.iter().enumerate() {
        let is_last = all[place + 1..].iter().all(|it| it.1.group != id.group);
        if let Some((cause, _)) = all[..place].iter().rev().find(|it| it.1.group == id.group).filter(|_| is_last) {
            placed[*last].root = Root::Of(*cause);
        }
    }
}

/// The things that a slip went over: each called what the next one is, back to the first or to one that has its own name or none.
fn slip(work: &Work, first: UnmarkedId) -> Vec<UnmarkedId> {
    let is_wrong = |id: &UnmarkedId| work.named_as(*id).is_some_and(|it| it != *id);
    let mut all = vec![first];
    while let Some(next) = all.last().and_then(|it| work.named_as(*it)).filter(|it| is_wrong(it) && !all.contains(it)) {
        all.push(next);
    }
    // What is called as the first is may have been come to later.
    let before = |all: &[UnmarkedId]| {
        let mut ids = work.exercise().unmarked_ids();
        ids.find(|it| is_wrong(it) && work.named_as(*it) == all.first().copied() && !all.contains(it))
    };
    while let Some(it) = before(&all) {
        all.insert(0, it);
    }
    all
}

/// What would put the work as it would be had each thing been called what it is: what was done with it done with that of its name.
fn as_named(work: &Work, slip: &[UnmarkedId]) -> Vec<Edit> {
    let mut edits = Vec::new();
    for id in slip {
        let Some(name) = work.named_as(*id) else { continue };
        edits.extend(as_other(work, *id, name));
    }
    // Where the names do not go round, what is left over changes places with what is left without.
    let names: Vec<UnmarkedId> = slip.iter().filter_map(|it| work.named_as(*it)).collect();
    let left = slip.iter().find(|it| !names.contains(it)).copied();
    if let Some((from, to)) = names.iter().find(|it| !slip.contains(it)).copied().zip(left) {
        edits.extend(as_other(work, from, to));
    }
    edits.retain(|it| !matches!(it, Edit::Move(end, to) if work.terminal_of(*end) == *to));
    edits
}

/// What was done with a thing, done with another of its group.
fn as_other(work: &Work, of: UnmarkedId, with: UnmarkedId) -> Vec<Edit> {
    let exercise = work.exercise();
    if let (Some(UnmarkedThing::Terminal(from)), Some(UnmarkedThing::Terminal(to))) =
        (exercise.unmarked_thing(of), exercise.unmarked_thing(with))
    {
        return work.ends_in(from).map(|it| Edit::Move(it, Some(to))).collect();
    }
    let ends = |it| exercise.unmarked_ends(it).into_iter();
    ends(of).zip(ends(with)).flat_map(|(here, there)| moved(work, here, there)).collect()
}

/// An end put where another is, marked as that is.
fn moved(work: &Work, from: EndId, to: EndId) -> Vec<Edit> {
    let mark = work.mark_of(from);
    let remarked = (work.mark_of(to) != mark).then_some(Edit::Mark(to, mark));
    remarked.into_iter().chain([Edit::Move(to, work.terminal_of(from))]).collect()
}
