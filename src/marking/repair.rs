//! The fewest moved ends after which every control is right, found by search in the joined view.

use std::cell::RefCell;

use crate::{
    circuit::{Joined, are_all_tried, settings_to_try},
    exercise::{EndId, Exercise, Fan, LampId, LocationId, LocationKind, TerminalId, TerminalUse},
    trade::{accessory::Material, colour::Colour},
    work::{Edit, Point, Work},
};

/// What the joined view says of each lamp in one combination: `Some(true)` lit, `Some(false)` off, `None` unsound (a short,
/// two circuits joined, a neutral that is not there, a line of another circuit).
///
/// Lamps in `but` count as off: they were wrong before the learner came, and no end of the learner's puts them right.
fn lamps(work: &Work, joined: &mut Joined, bars: &[TerminalId], but: &[LampId]) -> Vec<Option<bool>> {
    let exercise = work.exercise();
    // No two of line, neutral and earth of any devices are joined.
    let mut apart: Vec<usize> = bars.iter().map(|it| joined.root(*it)).collect();
    apart.sort_unstable();
    if apart.windows(2).any(|it| it[0] == it[1]) {
        return vec![None; exercise.lamps.len()];
    }
    let devices: Vec<[usize; 2]> =
        exercise.devices.iter().map(|it| [it.line, it.neutral].map(|it| joined.root(it))).collect();
    let linked = exercise.switches.iter().any(|it| it.way.is_linked());
    let each = (0_u16..).map(LampId).zip(&exercise.lamps);
    each.map(|(id, it)| {
        if but.contains(&id) { Some(false) } else { one_lamp(&devices, linked, it.contacts.map(|it| joined.root(it))) }
    })
    .collect()
}

/// Lines and neutrals of the devices, and earth bars.
fn bars(exercise: &Exercise) -> Vec<TerminalId> {
    let is_bar = |it: TerminalUse| {
        matches!(it, TerminalUse::DeviceLine(_) | TerminalUse::DeviceNeutral(_) | TerminalUse::EarthBar)
    };
    let bars = exercise.terminals.iter().enumerate().filter(|(_, it)| is_bar(it.used_by));
    bars.map(|(index, _)| TerminalId(index as u16)).collect()
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
/// with neither line nor neutral. Of each device the sets of its line and its neutral, of the lamp those of its contacts.
fn one_lamp(devices: &[[usize; 2]], linked: bool, [a, b]: [usize; 2]) -> Option<bool> {
    let is_fed = |contact: usize| devices.iter().any(|[line, _]| *line == contact);
    for (a, b) in [(a, b), (b, a)] {
        if let Some([line, _]) = devices.iter().find(|[_, neutral]| *neutral == a) {
            return if *line == b {
                Some(true)
            } else if is_fed(b) {
                None
            } else {
                Some(false)
            };
        }
    }
    (linked && !is_fed(a) && !is_fed(b)).then_some(false)
}

/// A combination in which a wiring was found wrong, and another that differs from it in one switch, if it takes both to see it.
/// What was wrong in one candidate's is looked at first in the next.
type Shown = (Vec<u8>, Option<Vec<u8>>);

/// What to look at in a candidate.
struct Look<'a> {
    work: &'a Work,
    /// What the candidate joins whatever the switches.
    lasting: Joined,
    bars: &'a [TerminalId],
    but: &'a [LampId],
}

impl Look<'_> {
    /// Each lamp in one combination, if all is sound in it.
    fn lit(&self, setting: &[u8]) -> Option<Vec<Option<bool>>> {
        let mut joined = self.lasting.and_closed(self.work, setting);
        let lamps = lamps(self.work, &mut joined, self.bars, self.but);
        let sound =
            lamps.iter().all(Option::is_some) && fans_are_right(self.work, &mut joined, setting, &lamps, self.but);
        sound.then_some(lamps)
    }

    /// Whether going from one combination to another, in which one switch is set otherwise, does what it must.
    fn changes(&self, switch: usize, here: &[Option<bool>], there: &[Option<bool>]) -> bool {
        let mut controls = self.work.exercise().controls.iter().filter(|it| !self.but.contains(&it.lamp));
        controls.all(|control| {
            let must_change = control.switches.iter().any(|it| it.index() == switch);
            (here[control.lamp.index()] != there[control.lamp.index()]) == must_change
        })
    }

    /// Whether this shows it to be wrong.
    fn is_shown_by(&self, (here, there): &Shown) -> bool {
        let Some(lit) = self.lit(here) else { return true };
        let Some(there) = there else { return false };
        let Some(switch) = here.iter().zip(there).position(|(a, b)| a != b) else { return false };
        self.lit(there).is_none_or(|there| !self.changes(switch, &lit, &there))
    }

    /// Whether every control is right and sound in the joined view; what shows the first that is not.
    fn all_right(&self, settings: &[Vec<u8>]) -> Result<(), Shown> {
        let exercise = self.work.exercise();
        let mut lit = Vec::with_capacity(settings.len());
        for setting in settings {
            lit.push(self.lit(setting).ok_or_else(|| (setting.clone(), None))?);
        }
        for (here, setting) in settings.iter().enumerate() {
            for switch in 0..exercise.switches.len() {
                for there in neighbours(exercise, settings, setting, switch) {
                    if !self.changes(switch, &lit[here], &lit[there]) {
                        return Err((setting.clone(), Some(settings[there].clone())));
                    }
                }
            }
        }
        Ok(())
    }
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
/// So many combinations in which candidates were wrong are remembered.
const SHOWN: usize = 8;
/// Pairs of moves that are tried at the most: more would hold the marker up, and a count is the same on every machine.
const PAIRS_TRIED: usize = 16_384;

/// The fewest moves, at most two, after which every control is right and sound: all the ways there are of the first kind
/// that has any, single moves first, up to [`WEIGHED`] of each.
///
/// One slip (an end moved, two ends exchanged) that explains everything, the earthing too, comes before one that explains
/// the controls alone, and that before two moves. Lamps in `but` are left out of it. Ends as they were found and never
/// disturbed are left where they are; only where no move of the others does it, those are tried that an alteration has to move.
pub(super) fn fewest_moves(work: &Work, but: &[LampId]) -> Vec<Moves> {
    let bars = bars(work.exercise());
    let all = are_all_tried(work.exercise()).then(|| settings_to_try(work));
    let shown: RefCell<Vec<Shown>> = RefCell::new(Vec::new());
    let tried = |edits: &[Edit], with_earthing: bool| {
        let moves: Vec<_> =
            edits.iter().filter_map(|it| if let Edit::Move(end, to) = it { Some((*end, *to)) } else { None }).collect();
        let look = Look { work, lasting: Joined::moved(work, &moves), bars: &bars, but };
        let mut shown = shown.borrow_mut();
        if let Some(at) = shown.iter().position(|it| look.is_shown_by(it)) {
            shown[..=at].rotate_right(1);
            return false;
        }
        let moved = || {
            let mut work = work.clone();
            edits.iter().for_each(|it| work.edit(it));
            work
        };
        let right = match &all {
            Some(all) => look.all_right(all),
            None => look.all_right(&settings_to_try(&moved())),
        };
        if let Err(it) = right {
            shown.insert(0, it);
            shown.truncate(SHOWN);
            return false;
        }
        !with_earthing || is_earthed_throughout(&moved())
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
