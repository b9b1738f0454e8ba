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

/// How many pairs of them are.
fn pairs_joined(work: &Work, joined: &mut Joined, bars: &[Point]) -> usize {
    let others = |index: usize| bars[index + 1..].iter();
    bars.iter().enumerate().map(|(index, a)| others(index).filter(|b| joined.same(work, *a, **b)).count()).sum()
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
    /// One slip of the hand or two: an end moved, or two ends exchanged, which is not to be taken apart.
    pub slips: Vec<Vec<Edit>>,
}

impl Moves {
    /// All of them in order.
    pub fn edits(&self) -> Vec<Edit> {
        self.slips.concat()
    }
}

/// At most this many ways of putting a wiring right are weighed against each other.
const WEIGHED: usize = 12;
/// At most this many pairs of slips are tried: more would hold the marker up, and a count is the same on every machine.
const PAIRS_TRIED: usize = 16_384;
/// This many first slips of a pair are followed up: those that leave least wrong.
const FOLLOWED: usize = 24;

/// The fewest slips, at most two, after which every control is right and sound: all the ways there are of the first kind
/// that has any, single moves first, up to [`WEIGHED`] of each.
///
/// One slip that explains everything, the earthing too, comes before one that explains
/// the controls alone, and that before two slips. Lamps in `but` are left out of it. Ends as they were found and never
/// disturbed are left where they are; only where no move of the others does it, those are tried that an alteration has to move.
pub(super) fn fewest_moves(work: &Work, but: &[LampId]) -> Vec<Moves> {
    let search = Search { settings: settings(work.exercise()), bars: bars(work.exercise()), but };
    let tried = |edits: &[Edit], with_earthing: bool| {
        let work = after(work, edits);
        (!with_earthing || unearthed(&work) == 0) && search.is_right(&work)
    };
    if tried(&[], true) {
        return Vec::new();
    }
    let own: Vec<EndId> = work.ends().filter(|it| !work.is_undisturbed(*it)).collect();
    let found = work.exercise().ends_to_alter().into_iter().filter(|it| work.is_undisturbed(*it));
    let all: Vec<EndId> = own.iter().copied().chain(found).collect();
    // Those of the learner's own ends, then with the others besides.
    let rounds: &[&[EndId]] = if all.len() > own.len() { &[&own, &all] } else { &[&own] };
    let slips: Vec<[Vec<Vec<Edit>>; 2]> = rounds.iter().map(|ends| slips(work, ends)).collect();
    for with_earthing in [true, false] {
        if !with_earthing && tried(&[], false) {
            return Vec::new();
        }
        let working = |slips: &[Vec<Edit>]| -> Vec<Moves> {
            let ways = slips.iter().filter(|it| tried(it, with_earthing)).take(WEIGHED);
            ways.map(|it| Moves { slips: vec![it.clone()] }).collect()
        };
        for [moves, exchanges] in &slips {
            let ways = [working(moves), working(exchanges)].concat();
            if !ways.is_empty() {
                return ways;
            }
        }
    }
    let ways = [search.follow(work, &all), search.move_two(work, &all)].concat();
    if !ways.is_empty() {
        return ways;
    }
    // Whatever the learner does, it was joined the wrong way round before.
    let found: Vec<EndId> = work.ends().filter(|it| work.is_undisturbed(*it)).collect();
    let working = exchanges(work, &found).into_iter().filter(|it| tried(it, false)).take(WEIGHED);
    working.map(|edits| Moves { slips: vec![edits] }).collect()
}

/// What a search of slips looks at.
struct Search<'a> {
    settings: Vec<Vec<u8>>,
    bars: Vec<Point>,
    but: &'a [LampId],
}

impl Search<'_> {
    fn is_right(&self, work: &Work) -> bool {
        all_right(work, &self.settings, &self.bars, self.but)
    }

    /// Two slips, of which the first is one of those that leave least wrong. What is earthed throughout comes first.
    fn follow(&self, work: &Work, ends: &[EndId]) -> Vec<Moves> {
        let mut first: Vec<(usize, Vec<Edit>)> =
            slips(work, ends).concat().into_iter().map(|it| (self.wrong(&after(work, &it)), it)).collect();
        first.sort_by_key(|it| it.0);
        let mut ways: Vec<(bool, Moves)> = Vec::new();
        let mut left = PAIRS_TRIED;
        for (_, first) in first.into_iter().take(FOLLOWED) {
            let half = after(work, &first);
            for second in slips(&half, ends).concat().into_iter().take(left) {
                left -= 1;
                let whole = after(&half, &second);
                let touches = |it: &Edit| second.iter().any(|other| end_of(it) == end_of(other));
                if !first.iter().any(touches) && self.is_right(&whole) {
                    ways.push((unearthed(&whole) > 0, Moves { slips: vec![first.clone(), second] }));
                }
            }
        }
        ways.sort_by_key(|it| it.0);
        ways.into_iter().map(|it| it.1).take(WEIGHED).collect()
    }

    /// Two single moves.
    fn move_two(&self, work: &Work, ends: &[EndId]) -> Vec<Moves> {
        let singles = single_moves(work, ends);
        let pairs = (0..singles.len())
            .flat_map(|index| singles[index + 1..].iter().map(move |other| (index, other)))
            .map(|(index, other)| [singles[index].clone(), other.clone()]);
        let working = pairs
            .filter(|[a, b]| end_of(a) != end_of(b))
            .take(PAIRS_TRIED)
            .filter(|it| self.is_right(&after(work, it)))
            .take(WEIGHED);
        working.map(|pair| Moves { slips: pair.map(|edit| vec![edit]).to_vec() }).collect()
    }

    /// How much is wrong: bars joined, lamps that are unsound and presses that do the wrong thing, over all combinations; and what is not
    /// earthed. The gravest weigh so much that what is lighter does not make up for one.
    fn wrong(&self, work: &Work) -> usize {
        const SHORT: usize = 10_000;
        const UNSOUND: usize = 100;
        let exercise = work.exercise();
        let conductors = Joined::new(work, &[]);
        let mut sum = UNSOUND * unearthed(work);
        let mut lit = Vec::with_capacity(self.settings.len());
        for setting in &self.settings {
            let mut joined = conductors.and_closed(work, setting);
            let joins = pairs_joined(work, &mut joined, &self.bars);
            let each = (0_u16..).map(LampId).zip(&exercise.lamps).filter(|it| !self.but.contains(&it.0));
            let lamps: Vec<_> = each.map(|(_, it)| one_lamp(work, &mut joined, it.contacts)).collect();
            sum += SHORT * joins + UNSOUND * lamps.iter().filter(|it| it.is_none()).count();
            lit.push(lamps);
        }
        sum + wrong_presses(exercise, &self.settings, &lit, self.but)
    }
}

/// How many presses do the wrong thing, of every control in every combination.
fn wrong_presses(exercise: &Exercise, settings: &[Vec<u8>], lit: &[Vec<Option<bool>>], but: &[LampId]) -> usize {
    let asked: Vec<LampId> = (0_u16..).map(LampId).take(exercise.lamps.len()).filter(|it| !but.contains(it)).collect();
    let presses = exercise.controls.iter().flat_map(|control| {
        let lamp = asked.iter().position(|it| *it == control.lamp);
        lamp.into_iter().flat_map(move |lamp| {
            (0..settings.len()).flat_map(move |here| {
                (0..exercise.switches.len()).flat_map(move |switch| {
                    let must_change = control.switches.iter().any(|it| it.index() == switch);
                    neighbours(exercise, settings, &settings[here], switch)
                        .map(move |there| (lit[here][lamp] != lit[there][lamp]) != must_change)
                })
            })
        })
    });
    presses.filter(|it| *it).count()
}

/// A work after some edits.
pub(super) fn after(work: &Work, edits: &[Edit]) -> Work {
    let mut work = work.clone();
    for it in edits {
        work.edit(it);
    }
    work
}

const fn end_of(edit: &Edit) -> Option<EndId> {
    match edit {
        Edit::Move(end, _) => Some(*end),
        _ => None,
    }
}

/// Every single slip that could be taken back with some ends: each moved, every two exchanged.
fn slips(work: &Work, ends: &[EndId]) -> [Vec<Vec<Edit>>; 2] {
    [single_moves(work, ends).into_iter().map(|it| vec![it]).collect(), exchanges(work, ends)]
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

/// How many protective conductors are not in terminals or not joined to the earth bar, and how many metal parts have none where they
/// are not left to screws that will do.
fn unearthed(work: &Work) -> usize {
    let exercise = work.exercise();
    let mut groups = work.joined_by(Colour::is_protective);
    let bars: Vec<usize> = exercise.earth_bars().map(TerminalId::index).collect();
    let mut reached = |node: usize| bars.iter().any(|it| groups.same(*it, node));
    let protective = work.ends().filter(|it| work.end_facts(*it).colour.is_protective());
    let ends =
        protective.filter(|end| !work.terminal_of(*end).is_some_and(|terminal| reached(terminal.index()))).count();
    let metal = exercise.locations.iter().enumerate().map(|(index, place)| {
        let LocationKind::Box(it) = &place.kind else { return 0 };
        let mut lacks = |used_by| {
            let terminal = exercise.terminal_used(LocationId(index as u16), used_by);
            usize::from(terminal.is_some_and(|it| !reached(it.index())))
        };
        let of_box = it.body != Material::Plastic && !it.is_screwed_together();
        lacks(TerminalUse::PlateEarth) + if of_box { lacks(TerminalUse::BoxEarth) } else { 0 }
    });
    ends + metal.sum::<usize>()
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
