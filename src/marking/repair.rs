//! The fewest moved ends after which every control is right, found by search in the joined view.
//!
//! The search is bounded by numbers of candidates, the same on every machine.

mod judged;
mod slips;
#[cfg(test)]
mod tests;
mod view;

use crate::{
    exercise::{EndId, Exercise, Fan, LampId, LocationId, Switch, TerminalId},
    work::{Edit, Work},
};

use super::effort::Effort;
use judged::JudgedWork;
use slips::{Stand, edits};
use view::{EditedView, Move};

/// Whether a fan does as it must in one combination: with its isolator on it has its permanent line and its neutral from
/// one circuit, and is started when its lamp is lit and not otherwise; with it off neither of its lines is joined to any.
///
/// `same` says whether two terminals are joined then.
pub(super) fn fan_is_right(
    exercise: &Exercise,
    same: &mut dyn FnMut(TerminalId, TerminalId) -> bool,
    fan: &Fan,
    positions: &[u8],
    lit: bool,
) -> bool {
    let [line, switched, neutral] = fan.terminals;
    let isolated = fan.isolator.is_some_and(|isolator| {
        let position = positions.get(isolator.index()).map_or(0, |it| usize::from(*it));
        exercise.switches[isolator].way.joins(position).is_empty()
    });
    if isolated {
        return !exercise.devices.iter().any(|it| same(line, it.line) || same(switched, it.line));
    }
    let own = exercise.devices.iter().find(|it| same(neutral, it.neutral));
    own.is_some_and(|own| {
        let other = exercise.devices.iter().any(|it| it.line != own.line && same(switched, it.line));
        same(line, own.line) && same(switched, own.line) == lit && !other
    })
}

/// The places of those combinations, in counting order, that differ from a given one in a given switch alone.
pub(super) fn neighbours<'a>(
    exercise: &'a Exercise,
    settings: &'a [Vec<u8>],
    here: usize,
    switch: usize,
) -> impl Iterator<Item = usize> + 'a {
    let number = |of: &[Switch]| of.iter().fold(1_usize, |all, it| all.saturating_mul(it.way.positions()));
    // Where all combinations are there, the next position is a stride away.
    let stride =
        (number(exercise.switches.rows()) == settings.len()).then(|| number(&exercise.switches.rows()[switch + 1..]));
    let own = settings[here][switch];
    let ways = exercise.switches.rows()[switch].way.positions() as u8;
    (0..ways).filter(move |it| *it != own).filter_map(move |position| {
        if let Some(stride) = stride {
            return Some(here + usize::from(position) * stride - usize::from(own) * stride);
        }
        let mut other = settings[here].clone();
        other[switch] = position;
        settings.binary_search(&other).ok()
    })
}

/// Moved ends that put things right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Moves {
    /// One slip of the hand or two: an end moved, or two ends exchanged, which is not to be taken apart.
    pub slips: Vec<Vec<Edit>>,
}

impl Moves {
    /// All of them in order.
    pub fn edits(&self) -> Vec<Edit> {
        self.slips.concat()
    }
}

/// What a search found.
#[derive(Debug, Default)]
pub(super) struct Ways {
    /// The ways of putting things right.
    pub ways: Vec<Moves>,
    /// Whether the search ended at its bound with nothing found: not every pair of slips was tried.
    pub is_at_bound: bool,
}

impl From<Vec<Moves>> for Ways {
    fn from(ways: Vec<Moves>) -> Self {
        Self { ways, is_at_bound: false }
    }
}

/// At most this many ways of putting a wiring right are weighed against each other.
const WEIGHED: usize = 12;
/// At most this many first slips of a pair are weighed.
const FIRST: usize = 16_384;
/// This many first slips of a pair are followed up: those that leave least wrong.
const FOLLOWED: usize = 24;

/// The fewest slips, at most two, after which every control is right and sound: all the ways there are of the first kind
/// that has any, single moves first, up to [`WEIGHED`] of each.
///
/// One slip that explains everything, the earthing too, comes before one that explains
/// the controls alone, and that before two slips. Lamps in `but` are left out of it. Ends as they were found and never
/// disturbed are left where they are; those that an alteration has to move are tried only where no other move does it.
pub(super) fn fewest_moves(work: &Work, but: &[LampId], effort: &Effort) -> Ways {
    let judged = JudgedWork::new(EditedView::new(work), but);
    let stand = Stand::new(work);
    // What leaves everything earthed is tried first, and not again where earthing is let be.
    let tried = |moves: &[Move], with_earthing: bool| {
        (judged.view.unearthed(moves) == 0) == with_earthing && judged.is_right(moves)
    };
    if tried(&[], true) {
        return Ways::default();
    }
    let own: Vec<EndId> = work.ends().filter(|it| !work.is_undisturbed(*it)).collect();
    let found = work.exercise().ends_to_alter().into_iter().filter(|it| work.is_undisturbed(*it));
    let all: Vec<EndId> = own.iter().copied().chain(found).collect();
    // First the learner's own ends alone, then with the others added.
    let rounds: &[&[EndId]] = if all.len() > own.len() { &[&own, &all] } else { &[&own] };
    let slips: Vec<[Vec<Vec<Move>>; 2]> =
        rounds.iter().map(|ends| [stand.moves(ends), stand.exchanges(ends)]).collect();
    for with_earthing in [true, false] {
        if !with_earthing && tried(&[], false) {
            return Ways::default();
        }
        let working = |slips: &[Vec<Move>]| -> Vec<Moves> {
            let ways = slips.iter().take(effort.slips).filter(|it| tried(it, with_earthing)).take(WEIGHED);
            ways.map(|it| Moves { slips: vec![edits(it)] }).collect()
        };
        for [moves, exchanges] in &slips {
            let ways = [working(moves), working(exchanges)].concat();
            if !ways.is_empty() {
                return ways.into();
            }
        }
    }
    let (pairs, is_every) = follow(&judged, &stand, &all, effort);
    let ways = [pairs, move_two(&judged, &stand, &all, effort)].concat();
    if !ways.is_empty() {
        return ways.into();
    }
    // The last resort: two ends found in place that were exchanged before the learner came.
    let found: Vec<EndId> = work.ends().filter(|it| work.is_undisturbed(*it)).collect();
    let exchanges = stand.exchanges(&found);
    let working = exchanges.iter().take(effort.slips).filter(|it| judged.is_right(it)).take(WEIGHED);
    let ways: Vec<Moves> = working.map(|it| Moves { slips: vec![edits(it)] }).collect();
    Ways { is_at_bound: ways.is_empty() && !is_every, ways }
}

/// Two slips, of which the first is one of those that leave least wrong. What is earthed throughout comes first. Also
/// says whether that was every pair.
fn follow(judged: &JudgedWork<'_>, stand: &Stand<'_>, ends: &[EndId], effort: &Effort) -> (Vec<Moves>, bool) {
    let first = stand.slips(ends);
    let mut is_every = first.len() <= FOLLOWED;
    let first = first.into_iter().take(FIRST.min(effort.counted / judged.combinations_counted().max(1)));
    let mut first: Vec<(usize, Vec<Move>)> = first.map(|it| (judged.wrong(&it), it)).collect();
    first.sort_by_key(|it| it.0);
    let mut ways: Vec<(bool, Moves)> = Vec::new();
    let mut left = effort.pairs;
    for (_, first) in first.into_iter().take(FOLLOWED) {
        let second = stand.after(&first).slips(ends);
        is_every &= second.len() <= left;
        for second in second.into_iter().take(left) {
            left -= 1;
            if first.iter().any(|one| second.iter().any(|other| one.0 == other.0)) {
                continue;
            }
            let whole = [first.as_slice(), second.as_slice()].concat();
            if judged.is_right(&whole) {
                let slips = vec![edits(&first), edits(&second)];
                ways.push((judged.view.unearthed(&whole) > 0, Moves { slips }));
            }
        }
    }
    ways.sort_by_key(|it| it.0);
    (ways.into_iter().map(|it| it.1).take(WEIGHED).collect(), is_every)
}

/// Two single moves.
fn move_two(judged: &JudgedWork<'_>, stand: &Stand<'_>, ends: &[EndId], effort: &Effort) -> Vec<Moves> {
    let singles = stand.moves(ends).concat();
    let pairs = (0..singles.len())
        .flat_map(|index| singles[index + 1..].iter().map(move |other| (index, other)))
        .map(|(index, other)| [singles[index], *other]);
    let working = pairs.filter(|[a, b]| a.0 != b.0).take(effort.pairs).filter(|it| judged.is_right(it)).take(WEIGHED);
    working.map(|pair| Moves { slips: pair.map(|it| edits(&[it])).to_vec() }).collect()
}

/// A work after some edits.
pub(super) fn after(work: &Work, edits: &[Edit]) -> Work {
    let mut work = work.clone();
    for it in edits {
        work.edit(it);
    }
    work
}

/// Puts each of two ends where the other is.
pub(super) fn exchange(work: &Work, a: EndId, b: EndId) -> Vec<Edit> {
    vec![Edit::Move(a, work.terminal_of(b)), Edit::Move(b, work.terminal_of(a))]
}

/// Puts all the ends in each of two terminals into the other.
pub(super) fn exchange_contents(work: &Work, a: TerminalId, b: TerminalId) -> Vec<Edit> {
    let over = |from: TerminalId, to: TerminalId| work.ends_in(from).map(move |end| Edit::Move(end, Some(to)));
    over(a, b).chain(over(b, a)).collect()
}

/// The places whose ends are to be taken out and joined anew where no move of one or two ends puts a control right: each of the learner's in
/// which an end stands. Which of them is at fault cannot be said then. Where no end stands anywhere, there is nothing to take out.
pub fn to_remake(work: &Work) -> Vec<LocationId> {
    let is_joined = |end: EndId| !work.is_undisturbed(end) && work.terminal_of(end).is_some();
    let places = work.exercise().learners_places().into_iter();
    places.filter(|place| work.ends_at(*place).any(is_joined)).collect()
}
