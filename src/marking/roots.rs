//! Marks are lost once, at the root cause.
//!
//! B is a consequence of A when A's repair makes B vanish. The roots are the set of repairs with the fewest slips that clears the
//! sheet of what moving ends can clear, ties by weight and then by address. What no such repair clears is a root itself.

use std::{
    cell::{Cell, OnceCell},
    collections::BTreeSet,
    rc::Rc,
};

use super::{
    code::{Code, Weight},
    context::ever,
    effort::Effort,
    finding::{Draft, Repair, Root, Seen},
    repair::{Moves, Ways, after, exchange, fewest_moves},
    rules::{brought_to, lost_by},
};
use crate::{
    circuit::settings_to_try,
    exercise::{EndId, LampId},
    work::{Edit, Subject, Work},
};

/// Above this number of different repairs the smallest set is not searched for; the repair that clears most is taken, again and
/// again.
const SEARCHED: usize = 6;

type FindingKey = (Code, Subject);

/// What the rules find after a repair.
pub(super) type Again<'a> = &'a dyn Fn(&[Edit]) -> Rc<[Draft]>;

/// A finding that may be a root.
struct Candidate {
    /// The finding, by its place among the drafts.
    finding: usize,
    /// What is left after its repair.
    left: BTreeSet<FindingKey>,
    /// The slips of the hand that its repair takes back.
    slips: Vec<Vec<Edit>>,
    weight: Weight,
}

/// For each finding its root, and the repair that was settled on for it. `moves` is what puts the controls right. Where the smallest set of
/// repairs is not searched for, `at_bound` is set.
pub(super) fn find(
    work: &Work,
    drafts: &[Draft],
    moves: Option<&Moves>,
    again: Again<'_>,
    at_bound: &Cell<bool>,
) -> Vec<(Root, Option<Vec<Edit>>)> {
    let keys = |drafts: &[Draft]| drafts.iter().map(Draft::key).collect::<BTreeSet<FindingKey>>();
    let mut repairs: Vec<Option<Vec<Edit>>> = drafts.iter().map(|it| settle(it, moves, again)).collect();
    exchange_marks(work, drafts, &mut repairs, again);
    let own: Vec<FindingKey> = drafts.iter().map(Draft::key).collect();
    let addresses: Vec<String> = drafts.iter().map(|it| it.at.address(work.exercise())).collect();
    // A tail that is missing weighs as what its metal is without it.
    let weight = |it: usize| {
        let (code, at, own) = (drafts[it].code, drafts[it].at, drafts[it].weight);
        let does = drafts.iter().filter(|one| code == Code::TailMissing && one.at == at && is_effect(one.code));
        does.map(|one| one.weight).fold(own, Weight::max)
    };
    // Findings in the order in which they are preferred as roots.
    let mut order: Vec<usize> = (0..drafts.len()).filter(|it| drafts[*it].weight > Weight::Advice).collect();
    order.sort_by(|a, b| {
        let rank = |it: usize| {
            let (code, weight) = (drafts[it].code, std::cmp::Reverse(weight(it)));
            // Among effects, the one that says which way the current comes back.
            let tells_less = is_effect(code) && code != Code::LoadThroughEarth;
            (code != Code::CoresExchanged, weight, is_effect(code), tells_less, addresses[it].as_str(), it)
        };
        rank(*a).cmp(&rank(*b))
    });
    let mut candidates: Vec<Candidate> = Vec::new();
    for index in order {
        if let Some(repair) = repairs[index].clone().filter(|it| is_structural(it)) {
            let same = candidates.iter_mut().find(|it| repairs[it.finding].as_ref() == Some(&repair));
            if let Some(same) = same {
                // What hangs free is the cause of what it does.
                let is_it = is_effect(drafts[same.finding].code) && hangs_free(work, &drafts[index], &repair);
                if is_it && !same.left.contains(&own[index]) {
                    same.finding = index;
                }
                continue;
            }
            let left = again(&repair);
            if left.iter().any(|it| it.key() == own[index]) {
                repairs[index] = None;
            } else {
                let left = keys(&left);
                let all = moves.filter(|it| it.edits() == repair);
                let slips = all.map_or_else(|| vec![repair.clone()], |it| it.slips.clone());
                candidates.push(Candidate { finding: index, left, slips, weight: weight(index) });
            }
        }
    }
    let targets: BTreeSet<FindingKey> =
        (0..drafts.len()).filter(|it| repairs[*it].as_deref().is_some_and(is_structural)).map(|it| own[it]).collect();
    let chosen = choose(&candidates, &targets, &repairs, again, at_bound);
    // What another cause takes back is told under that cause.
    for one in candidates.iter().filter(|it| it.slips.len() > 1 && chosen.contains(&it.finding)) {
        let others =
            || chosen.iter().filter(|index| **index != one.finding).filter_map(|index| repairs[*index].as_ref());
        let own: Vec<Edit> =
            one.slips.iter().filter(|slip| !others().any(|it| it == *slip)).flatten().cloned().collect();
        if !own.is_empty() {
            repairs[one.finding] = Some(own);
        }
    }
    let mut roots = vec![Root::Itself; drafts.len()];
    let mended = OnceCell::new();
    for (index, key) in own.iter().enumerate() {
        if chosen.contains(&index) {
            continue;
        }
        // The hand that lands an end tightens its screw. A loose screw has no other cause, unless nothing is left under it.
        if let (Code::ConnectionSlack, Subject::Terminal(it)) = (drafts[index].code, drafts[index].at) {
            let all = || chosen.iter().filter_map(|it| repairs[*it].as_deref()).flatten().cloned().collect::<Vec<_>>();
            if mended.get_or_init(|| after(work, &all())).ends_in(it).next().is_some() {
                continue;
            }
        }
        let cause = candidates.iter().find(|it| chosen.contains(&it.finding) && !it.left.contains(key));
        let together = || {
            let all: Vec<Edit> = chosen.iter().filter_map(|it| repairs[*it].clone()).flatten().collect();
            chosen.first().filter(|_| !keys(&again(&all)).contains(key))
        };
        if let Some(cause) = cause.map(|it| it.finding).or_else(|| together().copied()) {
            roots[index] = Root::Of(cause);
        }
    }
    for index in 0..drafts.len() {
        if drafts[index].code == Code::JointHot
            && let Some(cause) = cause_of_heat(work, drafts, index, &repairs, again)
        {
            roots[index] = match roots[cause] {
                Root::Itself => Root::Of(cause),
                of @ Root::Of(_) => of,
            };
        }
    }
    for (index, root) in roots.iter_mut().enumerate() {
        if let Some(cause) = want_of_cores(work, drafts, index) {
            *root = Root::Of(cause);
        }
    }
    roots.into_iter().zip(repairs).collect()
}

/// Whether a finding is of an end that hangs free, and a repair is to land it.
fn hangs_free(work: &Work, draft: &Draft, repair: &[Edit]) -> bool {
    let lands = |end: EndId| matches!(repair, [Edit::Move(it, Some(_))] if *it == end);
    draft.at.end(work).is_some_and(|it| work.terminal_of(it).is_none() && lands(it))
}

/// The cable with too few cores for a light to work, however its ends are moved.
fn want_of_cores(work: &Work, drafts: &[Draft], lost: usize) -> Option<usize> {
    let Subject::Lamp(lamp) = drafts[lost].at else { return None };
    if drafts[lost].code != Code::ControlWrong {
        return None;
    }
    let mut few = (0..drafts.len()).filter(|it| drafts[*it].code == Code::CoresFew);
    few.find(|it| matches!(drafts[*it].at, Subject::Run(run) if lost_by(work, run).contains(&lamp)))
}

/// What makes a joint hot: the finding whose repair cools it, or else, where several are needed, the first at its end or
/// terminal.
fn cause_of_heat(
    work: &Work,
    drafts: &[Draft],
    hot: usize,
    repairs: &[Option<Vec<Edit>>],
    again: Again<'_>,
) -> Option<usize> {
    let others =
        || (0..drafts.len()).filter(|it| drafts[*it].code != Code::JointHot && drafts[*it].weight > Weight::Advice);
    let end = drafts[hot].at.end(work)?;
    let place = work.terminal_of(end).map(Subject::Terminal);
    let here = |it: &usize| drafts[*it].at == drafts[hot].at || place == Some(drafts[*it].at);
    let cools = |one: &usize| {
        let left = repairs[*one].as_ref().map(|it| again(it));
        left.is_some_and(|left| left.iter().all(|it| it.key() != drafts[hot].key()))
    };
    others().filter(here).find(cools).or_else(|| others().find(here)).or_else(|| others().find(cools))
}

/// Whether a code names what a wiring does rather than what is out of place. Where one repair clears several findings of
/// one weight, what is out of place is the cause.
pub(super) const fn is_effect(code: Code) -> bool {
    matches!(
        code,
        Code::ControlWrong
            | Code::FanWrong
            | Code::ShortLineNeutral
            | Code::ShortLineEarth
            | Code::Overload
            | Code::ResidualTrip
            | Code::MetalEnergised
            | Code::LampholderLive
            | Code::NoDisconnection
            | Code::BorrowedNeutral
            | Code::VoltDrop
            | Code::LoadThroughEarth
    )
}

/// The candidates whose repairs together clear every target: those that take back the fewest slips, and of those the gravest.
fn choose(
    candidates: &[Candidate],
    targets: &BTreeSet<FindingKey>,
    repairs: &[Option<Vec<Edit>>],
    again: Again<'_>,
    at_bound: &Cell<bool>,
) -> Vec<usize> {
    let clears = |places: &[usize]| {
        if let [one] = places {
            return candidates[*one].left.is_disjoint(targets);
        }
        let repairs = places.iter().filter_map(|it| repairs[candidates[*it].finding].clone());
        let edits: Vec<Edit> = repairs.flatten().collect();
        !again(&edits).iter().any(|it| targets.contains(&it.key()))
    };
    if targets.is_empty() {
        return Vec::new();
    }
    let most = if candidates.len() <= SEARCHED { candidates.len() } else { 1 };
    let mut sets: Vec<Vec<usize>> = (1..=most).flat_map(|size| subsets(candidates.len(), size)).collect();
    // Candidates stand in the order in which they are preferred.
    sets.sort_by_key(|places| {
        // A slip that two repairs take back was made only once.
        let mut slips: Vec<&Vec<Edit>> = Vec::new();
        for slip in places.iter().flat_map(|it| &candidates[*it].slips) {
            if !slips.contains(&slip) {
                slips.push(slip);
            }
        }
        let slips = slips.len();
        let grave = places.iter().filter(|it| candidates[**it].weight == Weight::Critical).count();
        (slips, std::cmp::Reverse(grave), places.clone())
    });
    if let Some(places) = sets.into_iter().find(|it| clears(it)) {
        return places.into_iter().map(|it| candidates[it].finding).collect();
    }
    at_bound.set(at_bound.get() || most < candidates.len());
    greedy(candidates, targets)
}

/// Takes the candidate that clears most of what is left, until nothing more is cleared.
fn greedy(candidates: &[Candidate], targets: &BTreeSet<FindingKey>) -> Vec<usize> {
    let mut left = targets.clone();
    let mut chosen = Vec::new();
    loop {
        let gain = |it: &Candidate| left.iter().filter(|key| !it.left.contains(*key)).count();
        let Some(best) = candidates.iter().rev().max_by_key(|it| gain(it)).filter(|it| gain(it) > 0) else {
            return chosen;
        };
        chosen.push(best.finding);
        left.retain(|key| best.left.contains(key));
    }
}

/// Every choice of `size` of the first `count` numbers, in order.
fn subsets(count: usize, size: usize) -> Vec<Vec<usize>> {
    let mut all = vec![Vec::new()];
    for _ in 0..size {
        all = all
            .into_iter()
            .flat_map(|chosen: Vec<usize>| {
                let from = chosen.last().map_or(0, |it| it + 1);
                (from..count).map(move |next| {
                    let mut longer = chosen.clone();
                    longer.push(next);
                    longer
                })
            })
            .collect();
    }
    all
}

/// Whether a repair moves ends, makes up tails or lays another cable, and so can clear what others found.
pub(super) fn is_structural(edits: &[Edit]) -> bool {
    edits.iter().any(|it| matches!(it, Edit::Move(..) | Edit::Tail(..) | Edit::TakeLinks | Edit::Refit(..)))
}

/// Of the ways of moving ends that put the controls right, the one that leaves fewest findings; of several, one that puts an end where
/// nothing is yet: of a pole's two terminals that which was left empty.
/// Lamps in `but` are not to be put right by moves. Where none is found and more could be tried, `at_bound` is set.
pub(super) fn best_moves(
    work: &Work,
    drafts: &[Draft],
    but: &[LampId],
    again: Again<'_>,
    at_bound: &Cell<bool>,
    effort: &Effort,
) -> Option<Moves> {
    if !drafts.iter().any(|it| matches!(it.repair, Repair::FewestMoves(_))) {
        return None;
    }
    let Ways { mut ways, is_at_bound } = fewest_moves(work, but, effort);
    at_bound.set(at_bound.get() || is_at_bound);
    if ways.len() > 1 {
        let left = |moves: &Moves| again(&moves.edits()).iter().filter(|it| it.weight > Weight::Advice).count();
        let joins_another = |slip: &&Vec<Edit>| matches!(slip.as_slice(), [Edit::Move(_, Some(to))] if work.ends_in(*to).next().is_some());
        let beside = |moves: &Moves| moves.slips.iter().filter(joins_another).count();
        let counts: Vec<(usize, usize)> = ways.iter().map(|it| (left(it), beside(it))).collect();
        let best = (0..ways.len()).min_by_key(|it| counts[*it])?;
        return Some(ways.swap_remove(best));
    }
    ways.pop()
}

/// The causes behind moves that exchange cores of different jobs: the exchanges themselves, one a place, as grave as what they explain.
pub(super) fn exchanges_behind(work: &Work, moves: &Moves, drafts: &[Draft], again: Again<'_>) -> Vec<Draft> {
    let mut behind: Vec<Draft> = Vec::new();
    let mended = after(work, &moves.edits());
    let reach = OnceCell::new();
    // What an end is joined to once the moves are made, in any position: line, neutral or earth.
    let job_after = |end: EndId| {
        let reach = reach.get_or_init(|| ever(&mended, &settings_to_try(&mended), |_| true));
        reach[mended.node(mended.point_of(end))]
    };
    for slip in &moves.slips {
        let [Edit::Move(a, _), Edit::Move(b, _)] = slip.as_slice() else { continue };
        // A rule that found the exchange itself names it better.
        let is_named =
            |draft: &Draft| matches!(&draft.repair, Repair::Edits(edits) if slip.iter().all(|it| edits.contains(it)));
        if drafts.iter().any(is_named) || job_after(*a) == job_after(*b) {
            continue;
        }
        let left = again(&moves.edits());
        let cleared = drafts.iter().filter(|it| !left.iter().any(|left| left.key() == it.key()));
        let Some(gravest) = cleared.filter(|it| !matches!(it.seen, Seen::InAction(_))).max_by_key(|it| it.weight)
        else {
            continue;
        };
        let at = Subject::Location(work.end_location(*a));
        if let Some(Draft { repair: Repair::Edits(edits), .. }) = behind.iter_mut().find(|it| it.at == at) {
            edits.extend(slip.iter().cloned());
        } else {
            let draft = Draft::new(Code::CoresExchanged, at, Weight::Major).seen(gravest.seen.clone());
            behind.push(draft.mended_by_all(slip.clone()));
        }
    }
    behind
}

/// Two marks found wrong at one place are one slip if exchanging the two ends clears both and shows nothing new: the cores
/// of a flex in each other's terminals, say.
fn exchange_marks(work: &Work, drafts: &[Draft], repairs: &mut [Option<Vec<Edit>>], again: Again<'_>) {
    let marks: Vec<(usize, EndId)> = drafts
        .iter()
        .enumerate()
        .filter(|(_, it)| matches!(it.code, Code::MarkMissing | Code::MarkFalse))
        .filter_map(|(index, it)| it.at.end(work).map(|end| (index, end)))
        .collect();
    for (place, (a, end_a)) in marks.iter().enumerate() {
        for (b, end_b) in &marks[place + 1..] {
            let alike = drafts[*a].about == drafts[*b].about || work.end_location(*end_a) != work.end_location(*end_b);
            if alike {
                continue;
            }
            let edits = exchange(work, to_move(work, *end_a), to_move(work, *end_b));
            let left = again(&edits);
            let both = !left.iter().any(|it| it.key() == drafts[*a].key() || it.key() == drafts[*b].key());
            // What was done or said before is no measure of it: a prediction that was true of the wrong wiring, say.
            let is_known =
                |it: &Draft| matches!(it.seen, Seen::InAction(_)) || drafts.iter().any(|was| was.key() == it.key());
            if both && left.iter().all(is_known) {
                repairs[*a] = Some(edits.clone());
                repairs[*b] = Some(edits);
            }
        }
    }
}

/// The end to move so that another conductor comes to one: itself, or, where it came fitted, the one that was brought to it.
fn to_move(work: &Work, end: EndId) -> EndId {
    if !work.is_undisturbed(end) {
        return end;
    }
    let Some(terminal) = work.terminal_of(end) else { return end };
    match brought_to(work, terminal).as_slice() {
        [one] => *one,
        _ => end,
    }
}

/// The repair of one finding: what its rule said, or the fewest moves, or that part of them that clears it alone.
fn settle(draft: &Draft, moves: Option<&Moves>, again: Again<'_>) -> Option<Vec<Edit>> {
    match (&draft.repair, moves) {
        (Repair::None, _) => None,
        (Repair::Edits(edits), _) => Some(edits.clone()),
        (Repair::FewestMoves(_), Some(moves)) if clears(draft, &moves.edits(), again) => {
            Some(moves.slips.iter().find(|it| clears(draft, it, again)).map_or_else(|| moves.edits(), Clone::clone))
        }
        (Repair::FewestMoves(fallback), _) => Some(fallback.clone()).filter(|it| !it.is_empty()),
    }
}

fn clears(draft: &Draft, edits: &[Edit], again: Again<'_>) -> bool {
    !again(edits).iter().any(|it| it.key() == draft.key())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{exercise::LampId, marking::code::Code};

    fn key(number: u16) -> FindingKey {
        (Code::LooseEnd, Subject::Lamp(LampId(number)))
    }

    /// As many causes as there are findings, each of which clears its own and nothing else; the last is critical.
    fn alone(count: u16) -> (Vec<Candidate>, BTreeSet<FindingKey>) {
        let targets: BTreeSet<FindingKey> = (0..count).map(key).collect();
        let candidate = |it: u16| Candidate {
            finding: usize::from(it),
            left: targets.iter().copied().filter(|left| *left != key(it)).collect(),
            slips: vec![vec![Edit::TakeLinks; usize::from(it) + 1]],
            weight: if it + 1 == count { Weight::Critical } else { Weight::Major },
        };
        ((0..count).map(candidate).collect(), targets)
    }

    /// Up to six causes every set of them is tried, the fewest slips first; above that the one that clears most is taken again
    /// and again, in time that grows no faster than their number, and it is told that the search came to its bound.
    #[test]
    fn above_six_causes_the_smallest_set_is_not_searched_for() {
        for (count, is_searched) in [(6, true), (7, false), (200, false)] {
            let (candidates, targets) = alone(count);
            let repairs: Vec<Option<Vec<Edit>>> =
                (0..usize::from(count)).map(|it| Some(vec![Edit::Refit(it, SIZE)])).collect();
            let tried = Cell::new(0);
            // What is left after some repairs: all findings but theirs.
            let again = |edits: &[Edit]| -> Rc<[Draft]> {
                tried.set(tried.get() + 1);
                let is_mended = |it: u16| edits.contains(&Edit::Refit(usize::from(it), SIZE));
                let left = (0..count).filter(|it| !is_mended(*it)).map(key);
                left.map(|(code, at)| Draft::new(code, at, Weight::Major)).collect()
            };
            let at_bound = Cell::new(false);
            let mut chosen = choose(&candidates, &targets, &repairs, &again, &at_bound);
            chosen.sort_unstable();
            assert_eq!(chosen, (0..usize::from(count)).collect::<Vec<_>>(), "each is a cause of its own");
            assert_eq!(at_bound.get(), !is_searched, "{count}");
            // Of six, the 57 sets of more than one.
            assert_eq!(tried.get(), if is_searched { 57 } else { 0 }, "{count}");
        }
    }

    /// Above six, one repair that clears everything is still found before any two.
    #[test]
    fn above_six_causes_one_that_explains_all_is_the_cause() {
        let (mut candidates, targets) = alone(9);
        candidates[4].left.clear();
        let at_bound = Cell::new(false);
        let none = |_: &[Edit]| -> Rc<[Draft]> { Rc::from([]) };
        assert_eq!(choose(&candidates, &targets, &[], &none, &at_bound), [4]);
        assert!(!at_bound.get());
    }

    const SIZE: crate::trade::cable::CrossSection = crate::trade::cable::LIGHTING;
}
