//! The fewest moved ends after which every control is right, found by search in the joined view.

use crate::{
    circuit::Joined,
    exercise::{EndId, Exercise, Fan, LampId, LocationId, LocationKind, TerminalId, TerminalUse},
    trade::{accessory::Material, colour::Colour},
    work::{Edit, Point, Work},
};

use super::context::settings;

/// What the joined view says of each lamp in one combination: `Some(true)` lit, `Some(false)` off, `None` unsound (a short,
/// two circuits joined, a neutral that is not there, a line of another circuit).
///
/// Lamps in `but` count as off: they were wrong before the learner came, and no end of the learner's puts them right.
fn lamps(work: &Work, joined: &mut Joined, bars: &[Point], but: &[LampId]) -> Vec<Option<bool>> {
    let exercise = work.exercise();
    if !is_separate(work, joined, bars) {
        return vec![None; exercise.lamps.len()];
    }
    let each = (0_u16..).map(LampId).zip(&exercise.lamps);
    each.map(|(id, it)| if but.contains(&id) { Some(false) } else { one_lamp(work, joined, it.contacts) }).collect()
}

/// No two of line, neutral and earth of any devices are joined.
fn is_separate(work: &Work, joined: &mut Joined, bars: &[Point]) -> bool {
    bars.iter().enumerate().all(|(index, a)| bars[index + 1..].iter().all(|b| !joined.same(work, *a, *b)))
}

/// Lines and neutrals of the devices, and earth bars.
fn bars(exercise: &Exercise) -> Vec<Point> {
    let is_bar = |it: TerminalUse| {
        matches!(it, TerminalUse::DeviceLine(_) | TerminalUse::DeviceNeutral(_) | TerminalUse::EarthBar)
    };
    let bars = exercise.terminals.iter().enumerate().filter(|(_, it)| is_bar(it.used_by));
    bars.map(|(index, _)| Point::Terminal(TerminalId(index as u16))).collect()
}

/// Whether a fan does as it must in one combination: with its isolator on it has its permanent line and its neutral from
/// one circuit, and is started when its lamp is lit and not otherwise; with it off neither of its lines is joined to any.
pub(super) fn fan_is_right(work: &Work, joined: &mut Joined, fan: &Fan, positions: &[u8], lit: bool) -> bool {
    let exercise = work.exercise();
    let mut same = |a: TerminalId, b: TerminalId| joined.same(work, Point::Terminal(a), Point::Terminal(b));
    let [line, switched, neutral] = fan.terminals;
    let isolated = fan.isolator.is_some_and(|it| {
        let position = positions.get(it.index()).map_or(0, |it| usize::from(*it));
        exercise.switches[it.index()].way.joins(position).is_empty()
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

/// One contact on a device's neutral and the other on its line (lit) or on neither (off). A linked switch may leave it
/// with neither line nor neutral.
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
    let exercise = work.exercise();
    let linked = exercise.switches.iter().any(|it| it.way.is_linked());
    let fed = contacts.iter().any(|it| {
        exercise.devices.iter().any(|device| joined.same(work, Point::Terminal(*it), Point::Terminal(device.line)))
    });
    if linked && !fed { Some(false) } else { None }
}

/// Whether every control is right and sound in the joined view, stopping at the first combination that is not.
fn all_right(work: &Work, settings: &[Vec<u8>], bars: &[Point], but: &[LampId]) -> bool {
    let exercise = work.exercise();
    let mut lit = Vec::with_capacity(settings.len());
    let conductors = Joined::new(work, &[]);
    for setting in settings {
        let mut joined = conductors.and_closed(work, setting);
        let lamps = lamps(work, &mut joined, bars, but);
        if lamps.iter().any(Option::is_none) || !fans_are_right(work, &mut joined, setting, &lamps, but) {
            return false;
        }
        lit.push(lamps);
    }
    exercise.controls.iter().filter(|it| !but.contains(&it.lamp)).all(|control| {
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

fn fans_are_right(work: &Work, joined: &mut Joined, setting: &[u8], lamps: &[Option<bool>], but: &[LampId]) -> bool {
    work.exercise().fans.iter().filter(|it| !but.contains(&it.with)).all(|fan| {
        let lit = lamps.get(fan.with.index()).copied().flatten().unwrap_or(false);
        fan_is_right(work, joined, fan, setting, lit)
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

/// Moved ends that put things right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Moves {
    pub edits: Vec<Edit>,
    /// One move, or two ends exchanged: a single slip of the hand, which is not to be taken apart.
    pub one_slip: bool,
}

/// So many ways of putting a wiring right are weighed against each other at the most.
const WEIGHED: usize = 12;
/// Pairs of moves that are tried at the most: more would hold the marker up, and a count is the same on every machine.
const PAIRS_TRIED: usize = 16_384;

/// The fewest moves, at most two, after which every control is right and sound: all the ways there are of the first kind
/// that has any, single moves first, up to [`WEIGHED`] of each.
///
/// One slip (an end moved, two ends exchanged) that explains everything, the earthing too, comes before one that explains
/// the controls alone, and that before two moves. Lamps in `but` are left out of it. Ends as they were found and never
/// disturbed are left where they are; only where no move of the others does it, those are tried that an alteration has to move.
pub(super) fn fewest_moves(work: &Work, but: &[LampId]) -> Vec<Moves> {
    let (settings, bars) = (settings(work.exercise()), bars(work.exercise()));
    let tried = |edits: &[Edit], with_earthing: bool| {
        let mut work = work.clone();
        for it in edits {
            work.edit(it);
        }
        (!with_earthing || is_earthed_throughout(&work)) && all_right(&work, &settings, &bars, but)
    };
    if tried(&[], true) {
        return Vec::new();
    }
    let own: Vec<EndId> = work.ends().filter(|it| !work.is_undisturbed(*it)).collect();
    let found = work.exercise().ends_to_alter().into_iter().filter(|it| work.is_undisturbed(*it));
    let all: Vec<EndId> = own.iter().copied().chain(found).collect();
    // Those of the learner's own ends, then with the others besides.
    let rounds: &[&[EndId]] = if all.len() > own.len() { &[&own, &all] } else { &[&own] };
    let slips: Vec<[Vec<Vec<Edit>>; 2]> = rounds
        .iter()
        .map(|ends| [single_moves(work, ends).into_iter().map(|it| vec![it]).collect(), exchanges(work, ends)])
        .collect();
    for with_earthing in [true, false] {
        if !with_earthing && tried(&[], false) {
            return Vec::new();
        }
        let working = |slips: &[Vec<Edit>]| -> Vec<Moves> {
            let ways = slips.iter().filter(|it| tried(it, with_earthing)).take(WEIGHED);
            ways.map(|it| Moves { edits: it.clone(), one_slip: true }).collect()
        };
        for [moves, exchanges] in &slips {
            let ways = [working(moves), working(exchanges)].concat();
            if !ways.is_empty() {
                return ways;
            }
        }
    }
    let singles = single_moves(work, &all);
    let pairs = (0..singles.len()).flat_map(|index| {
        singles[index + 1..].iter().map(|other| [singles[index].clone(), other.clone()]).collect::<Vec<_>>()
    });
    let of_one_end = |it: &[Edit; 2]| matches!(it, [Edit::Move(a, _), Edit::Move(b, _)] if a == b);
    let working = pairs.filter(|it| !of_one_end(it)).take(PAIRS_TRIED).filter(|it| tried(it, false)).take(WEIGHED);
    let ways: Vec<Moves> = working.map(|it| Moves { edits: it.to_vec(), one_slip: false }).collect();
    if !ways.is_empty() {
        return ways;
    }
    // Whatever the learner does, it was joined the wrong way round before.
    let found: Vec<EndId> = work.ends().filter(|it| work.is_undisturbed(*it)).collect();
    let working = exchanges(work, &found).into_iter().filter(|it| tried(it, false)).take(WEIGHED);
    working.map(|edits| Moves { edits, one_slip: true }).collect()
}

/// Every two of some ends that are at one place, exchanged.
fn exchanges(work: &Work, ends: &[EndId]) -> Vec<Vec<Edit>> {
    let mut all = Vec::new();
    for (index, a) in ends.iter().enumerate() {
        for b in &ends[index + 1..] {
            let (here, there) = (work.terminal_of(*a), work.terminal_of(*b));
            // With a loose end it would be the other that hangs loose.
            let both = here
                .zip(there)
                .is_some_and(|(here, there)| here != there && suits(work, *a, there) && suits(work, *b, here));
            if work.end_location(*a) == work.end_location(*b) && both {
                all.push(exchange(work, *a, *b));
            }
        }
    }
    all
}

/// Whether an end may be put right in a terminal: a live core is never by an earth terminal, nor a bare one by any other.
fn suits(work: &Work, end: EndId, terminal: TerminalId) -> bool {
    work.end_facts(end).colour.is_protective() == work.exercise().terminals[terminal.index()].used_by.is_earth()
}

/// Each of two ends put where the other is.
pub(super) fn exchange(work: &Work, a: EndId, b: EndId) -> Vec<Edit> {
    vec![Edit::Move(a, work.terminal_of(b)), Edit::Move(b, work.terminal_of(a))]
}

/// Every protective conductor in terminals and joined to the earth bar, and every metal part with one that is not left to
/// its screws where they will not do.
fn is_earthed_throughout(work: &Work) -> bool {
    let exercise = work.exercise();
    let mut groups = work.joined_by(Colour::is_protective);
    let bars: Vec<usize> = exercise
        .terminals
        .iter()
        .enumerate()
        .filter(|(_, it)| it.used_by == TerminalUse::EarthBar)
        .map(|(index, _)| index)
        .collect();
    let mut reached = |node: usize| bars.iter().any(|it| groups.same(*it, node));
    let protective = work.ends().filter(|it| work.end_facts(*it).colour.is_protective());
    protective.into_iter().all(|it| work.terminal_of(it).is_some_and(|it| reached(it.index())))
        && exercise.locations.iter().enumerate().all(|(index, place)| {
            let LocationKind::Box(it) = &place.kind else { return true };
            let mut has = |used_by| {
                exercise.terminal_used(LocationId(index as u16), used_by).is_none_or(|it| reached(it.index()))
            };
            has(TerminalUse::PlateEarth)
                && (it.body == Material::Plastic || it.is_screwed_together() || has(TerminalUse::BoxEarth))
        })
}

/// Each of some ends moved to every other terminal of its place.
fn single_moves(work: &Work, ends: &[EndId]) -> Vec<Edit> {
    let exercise = work.exercise();
    let mut moves = Vec::new();
    for end in ends.iter().copied() {
        // A link that should never have been made is put right by taking it out.
        if work.cable_of(end.conductor()).is_none() && work.terminal_of(end).is_some() {
            moves.push(Edit::Move(end, None));
        }
        for terminal in exercise.terminals_at(work.end_location(end)) {
            let it = &exercise.terminals[terminal.index()];
            let room = work.ends_in(terminal).count() < it.capacity.conductors;
            if work.terminal_of(end) != Some(terminal) && room && suits(work, end, terminal) {
                moves.push(Edit::Move(end, Some(terminal)));
            }
        }
    }
    moves
}
