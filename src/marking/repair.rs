//! The fewest moved ends after which every control is right, found by search in the joined view.

use crate::{
    circuit::Joined,
    exercise::{EndId, Exercise, TerminalId, TerminalUse},
    work::{Edit, Point, Work},
};

use super::context::settings;

/// What the joined view says of each lamp in one combination: `Some(true)` lit, `Some(false)` off, `None` unsound (a short,
/// two circuits joined, a neutral that is not there, a line of another circuit).
fn lamps(work: &Work, positions: &[u8]) -> Vec<Option<bool>> {
    let exercise = work.exercise();
    let mut joined = Joined::new(work, positions);
    if !is_separate(work, &mut joined) {
        return vec![None; exercise.lamps.len()];
    }
    exercise.lamps.iter().map(|lamp| one_lamp(work, &mut joined, lamp.contacts)).collect()
}

/// No two of line, neutral and earth of any devices are joined.
fn is_separate(work: &Work, joined: &mut Joined) -> bool {
    let exercise = work.exercise();
    let bars: Vec<Point> = exercise
        .terminals
        .iter()
        .enumerate()
        .filter(|(_, it)| {
            matches!(it.used_by, TerminalUse::DeviceLine(_) | TerminalUse::DeviceNeutral(_) | TerminalUse::EarthBar)
        })
        .map(|(index, _)| Point::Terminal(TerminalId(index as u16)))
        .collect();
    bars.iter().enumerate().all(|(index, a)| bars[index + 1..].iter().all(|b| !joined.same(work, *a, *b)))
}

/// One contact on a device's neutral and the other on its line (lit) or on neither (off).
fn one_lamp(work: &Work, joined: &mut Joined, contacts: [TerminalId; 2]) -> Option<bool> {
    for (a, b) in [(contacts[0], contacts[1]), (contacts[1], contacts[0])] {
        for device in &work.exercise().devices {
            if joined.same(work, Point::Terminal(a), Point::Terminal(device.neutral)) {
                let lines = work.exercise().devices.iter().map(|it| it.line);
                let fed: Vec<bool> =
                    lines.map(|it| joined.same(work, Point::Terminal(b), Point::Terminal(it))).collect();
                let own = joined.same(work, Point::Terminal(b), Point::Terminal(device.line));
                return if own {
                    Some(true)
                } else if fed.iter().any(|it| *it) {
                    None
                } else {
                    Some(false)
                };
            }
        }
    }
    None
}

/// Whether every control is right and sound in the joined view, stopping at the first combination that is not.
fn all_right(work: &Work, settings: &[Vec<u8>]) -> bool {
    let exercise = work.exercise();
    let mut lit = Vec::with_capacity(settings.len());
    for setting in settings {
        let lamps = lamps(work, setting);
        if lamps.iter().any(Option::is_none) {
            return false;
        }
        lit.push(lamps);
    }
    exercise.controls.iter().all(|control| {
        let lamp = control.lamp.index();
        settings.iter().enumerate().all(|(here, setting)| {
            exercise.switches.iter().enumerate().all(|(switch, _)| {
                let must_change = control.switches.iter().any(|it| it.index() == switch);
                neighbours(exercise, settings, setting, switch)
                    .all(|there| (lit[here][lamp] != lit[there][lamp]) == must_change)
            })
        })
    })
}

/// The combinations that differ from one in a given switch alone, by their place.
pub(super) fn neighbours<'a>(
    exercise: &'a Exercise,
    settings: &'a [Vec<u8>],
    setting: &'a [u8],
    switch: usize,
) -> impl Iterator<Item = usize> + 'a {
    let ways = exercise.switches[switch].way.positions() as u8;
    (0..ways).filter(move |it| *it != setting[switch]).filter_map(move |position| {
        let mut other = setting.to_vec();
        other[switch] = position;
        settings.binary_search(&other).ok()
    })
}

/// The fewest moves, at most two, after which every control is right and sound; `None` if there are none such.
///
/// Ends as they were found and never disturbed are left where they are: what was right before the learner came is not
/// the repair. Exchanges of two ends are tried before other pairs, since that is what a hand most often does.
pub(super) fn fewest_moves(work: &Work) -> Option<Vec<Edit>> {
    let settings = settings(work.exercise());
    let tried = |edits: &[Edit]| {
        let mut work = work.clone();
        edits.iter().for_each(|it| work.edit(it));
        all_right(&work, &settings)
    };
    if tried(&[]) {
        return None;
    }
    let moves = single_moves(work);
    if let Some(it) = moves.iter().find(|it| tried(std::slice::from_ref(it))) {
        return Some(vec![it.clone()]);
    }
    let ends: Vec<EndId> = work.ends().filter(|it| !work.is_undisturbed(*it)).collect();
    for (index, a) in ends.iter().enumerate() {
        for b in &ends[index + 1..] {
            let same_place = work.end_location(*a) == work.end_location(*b);
            let edits = [Edit::Move(*a, work.terminal_of(*b)), Edit::Move(*b, work.terminal_of(*a))];
            if same_place && work.terminal_of(*a) != work.terminal_of(*b) && tried(&edits) {
                return Some(edits.to_vec());
            }
        }
    }
    for (index, a) in moves.iter().enumerate() {
        for b in &moves[index + 1..] {
            let same_end = matches!((a, b), (Edit::Move(a, _), Edit::Move(b, _)) if a == b);
            if !same_end && tried(&[a.clone(), b.clone()]) {
                return Some(vec![a.clone(), b.clone()]);
            }
        }
    }
    None
}

/// Every end moved to every other terminal of its place.
fn single_moves(work: &Work) -> Vec<Edit> {
    let exercise = work.exercise();
    let mut moves = Vec::new();
    for end in work.ends().filter(|it| !work.is_undisturbed(*it)) {
        // A link that should never have been made is put right by taking it out.
        if work.cable_of(end.conductor()).is_none() && work.terminal_of(end).is_some() {
            moves.push(Edit::Move(end, None));
        }
        for terminal in exercise.terminals_at(work.end_location(end)) {
            let it = &exercise.terminals[terminal.index()];
            let room = work.ends_in(terminal).count() < it.capacity.conductors;
            // A live core is never put right by an earth terminal, nor a bare one by any other.
            let is_earth = matches!(
                it.used_by,
                TerminalUse::BoxEarth | TerminalUse::PlateEarth | TerminalUse::EarthBar | TerminalUse::Rose(3)
            );
            let suits = work.end_facts(end).colour.is_protective() == is_earth;
            if work.terminal_of(end) != Some(terminal) && room && suits {
                moves.push(Edit::Move(end, Some(terminal)));
            }
        }
    }
    moves
}
