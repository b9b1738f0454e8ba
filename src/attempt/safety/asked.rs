//! What a place asks for before it is proved dead, where dead tests are made against an earth (the charter, "Dead tests"):
//! metal and every conductor to it; line to neutral once for each circuit whose neutral is there; once between the lines of
//! two circuits; again only for switches elsewhere that decide which conductor here could be live.

use std::collections::BTreeSet;

use super::{
    Safety, Work,
    rounds::{DeadTouch, is_for_earth},
};
use crate::{
    exercise::{DeviceId, EndId, LocationId, LocationKind, Sets, SwitchId, TerminalUse, combinations},
    trade::{accessory::Material, colour::Colour},
    work::{Point, Prep},
};

/// Up to this many settings of switches elsewhere are all tried; beyond it each switch is worked by itself (an
/// assumption of ours; no exercise comes near).
const COMBINATIONS: usize = 64;

/// One thing that a place asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::attempt) enum Asked {
    /// A point to an earth.
    Earth(Point),
    /// A line to the neutral of its circuit: one line and one neutral that would do.
    LineNeutral(Point, Point),
    /// The lines of two circuits: likewise.
    Lines(Point, Point),
}

/// What is still asked, with the setting of the switches that it is asked in.
pub(in crate::attempt) type Left = (Vec<u8>, Asked);

impl Safety {
    /// What a place still asks for in this round and those before it.
    pub(in crate::attempt) fn asked_left(&self, work: &Work, place: LocationId) -> Vec<Left> {
        self.left_of(work, place, &self.of(place, true))
    }

    /// Whether all that a place asks for was touched between two proofs of the indicator. A place where everything is still in its
    /// sheath may ask for no touch, but it asks for an indicator that works.
    pub(in crate::attempt) fn is_all_touched(&self, work: &Work, place: LocationId) -> bool {
        let touches = self.of(place, false);
        (!touches.is_empty() || self.rounds.is_proved_twice()) && self.left_of(work, place, &touches).is_empty()
    }

    fn of(&self, place: LocationId, with_open: bool) -> Vec<&DeadTouch> {
        let here = |it: &&DeadTouch| it.place == place;
        if with_open {
            self.rounds.touches().filter(here).collect()
        } else {
            self.rounds.proved().filter(here).collect()
        }
    }

    fn left_of(&self, work: &Work, place: LocationId, touches: &[&DeadTouch]) -> Vec<Left> {
        let is_proved = self.is_proved(place);
        let now = work.positions().to_vec();
        // Where all else is proved, only what was cut since is still asked for.
        let cut: BTreeSet<Point> = self.cuts_at(work, place).map(Point::End).collect();
        let (deciding, settings) = if is_proved { (Vec::new(), vec![now.clone()]) } else { elsewhere(work, place) };
        let mut left = Vec::new();
        for setting in settings {
            let stood = |it: &&&DeadTouch| deciding.iter().all(|of| it.positions[of.index()] == setting[of.index()]);
            let to_earth: BTreeSet<Point> = touches
                .iter()
                .filter(stood)
                .flat_map(|it| [(it.points[0], it.earths[1]), (it.points[1], it.earths[0])])
                .filter_map(|(point, to_earth)| to_earth.then_some(point))
                .collect();
            let targets = if is_proved { cut.clone() } else { targets(work, place) };
            let targets = targets.into_iter().filter(|it| !self.is_shown(*it) && !to_earth.contains(it));
            left.extend(targets.map(|it| (setting.clone(), Asked::Earth(it))));
        }
        if !is_proved {
            left.extend(pairs_left(work, place, touches).into_iter().map(|it| (now.clone(), it)));
        }
        left
    }

    /// The earth that a place's conductors are best touched against: one that is parked on, one shown here, one here that can
    /// be shown, or the reference's own.
    pub(in crate::attempt) fn earth_for(&self, work: &Work, place: LocationId) -> Option<Point> {
        let reference = Point::Terminal(self.reference()?.earth);
        let here = || earths_at(work, place);
        // A probe parked on another place's earth does not reach here; the reference's lead reaches anywhere.
        let parked = self.parked().filter(|it| self.is_shown(*it) && (*it == reference || here().contains(it)));
        let shown = || here().into_iter().find(|it| self.is_shown(*it));
        // A conductor whose other end is still free leads to no earth, so it need not be tried.
        let connected = |it: EndId| work.terminal_of(it.other()).is_some();
        let promising = || {
            here().into_iter().find(|point| {
                let mut ends = work.ends_at(place).filter(|end| work.point_of(*end) == *point);
                !self.is_apart(*point) && ends.any(|it| work.end_facts(it).colour.is_protective() && connected(it))
            })
        };
        parked.or_else(shown).or_else(promising).or(Some(reference))
    }
}

/// Points of a place that may be an earth.
fn earths_at(work: &Work, place: LocationId) -> Vec<Point> {
    targets(work, place).into_iter().filter(|it| is_for_earth(work, *it)).collect()
}

/// What is touched at a place: its metal, and the copper of every conductor; where several share a terminal, that
/// terminal. The end of a new cable that is in its sheath has no copper to touch if its other end is seen to be
/// connected to nothing but a lampholder.
fn targets(work: &Work, place: LocationId) -> BTreeSet<Point> {
    let exercise = work.exercise();
    let sheathed = |end: EndId| {
        let in_sheath = |end: EndId| work.prep_of(end).is_some_and(|it: Prep| it.core_mm == 0);
        let hangs = exercise.lamp_at(work.end_location(end.other())).is_some();
        in_sheath(end) && (hangs || work.terminal_of(end.other()).is_none())
    };
    let ends = work.ends_at(place).filter(|it| !work.is_scrap(it.conductor()) && !sheathed(*it));
    let mut targets: BTreeSet<Point> = ends.map(|it| work.point_of(it)).collect();
    if let LocationKind::Box(it) = &exercise.locations[place].kind {
        let metal = [(it.body, TerminalUse::BoxEarth), (it.plate.front, TerminalUse::PlateEarth)];
        let metal = metal.into_iter().filter(|it| it.0 == Material::Metal);
        targets.extend(metal.filter_map(|it| exercise.terminal_used(place, it.1)).map(Point::Terminal));
    }
    targets
}

/// The points of one circuit at a place, those joined to it without a switch first.
struct Here {
    lines: Vec<Point>,
    neutrals: Vec<Point>,
}

/// Pairs still asked for: line to neutral, line to line.
fn pairs_left(work: &Work, place: LocationId, touches: &[&DeadTouch]) -> Vec<Asked> {
    let circuits = circuits(work, place);
    let is_done = |some: &[Point], others: &[Point]| {
        let pair = |[a, b]: [Point; 2]| some.contains(&a) && others.contains(&b);
        touches.iter().any(|it| pair(it.points) || pair([it.points[1], it.points[0]]))
    };
    let first = |some: &[Point], others: &[Point]| {
        let apart = |a: &Point| others.iter().find(|b| *b != a).map(|b| (*a, *b));
        some.iter().find_map(apart).filter(|_| !is_done(some, others))
    };
    let mut left: Vec<Asked> = circuits
        .iter()
        .filter_map(|it| first(&it.lines, &it.neutrals))
        .map(|(a, b)| Asked::LineNeutral(a, b))
        .collect();
    for (index, one) in circuits.iter().enumerate() {
        let others = circuits[index + 1..].iter().filter_map(|it| first(&one.lines, &it.lines));
        left.extend(others.map(|(a, b)| Asked::Lines(a, b)));
    }
    left
}

/// The circuits that have a line at a place, through whatever switch.
fn circuits(work: &Work, place: LocationId) -> Vec<Here> {
    let exercise = work.exercise();
    let points: BTreeSet<Point> = work.ends_at(place).map(|it| work.point_of(it)).collect();
    let (mut direct, mut ever) = (work.joined_by(|it: Colour| !it.is_protective()), work.joined_ever());
    let mut of = |terminals: &[usize]| {
        let on = |sets: &mut Sets, it: Point| terminals.iter().any(|to| sets.same(work.node(it), *to));
        let mut found: Vec<Point> = points.iter().copied().filter(|it| on(&mut ever, *it)).collect();
        found.sort_by_key(|it| !on(&mut direct, *it));
        found
    };
    let mut circuits = Vec::new();
    for device in &exercise.devices {
        let lines = of(&[device.line.index()]);
        if lines.is_empty() {
            continue;
        }
        let common = device.behind.map(|it: DeviceId| exercise.devices[it].neutral.index());
        let neutrals = of(&[Some(device.neutral.index()), common].into_iter().flatten().collect::<Vec<_>>());
        circuits.push(Here { lines, neutrals });
    }
    circuits
}

/// The switches elsewhere whose positions decide which conductor of a place could be live, and the settings in which it is tested:
/// as they stand, and then every other combination of those.
fn elsewhere(work: &Work, place: LocationId) -> (Vec<SwitchId>, Vec<Vec<u8>>) {
    let exercise = work.exercise();
    let points: BTreeSet<Point> = work.ends_at(place).map(|it| work.point_of(it)).collect();
    let mut ever = work.joined_ever();
    let concerned = |id: &SwitchId| {
        let switch = &exercise.switches[*id];
        let mut on = |to: usize| points.iter().any(|it| ever.same(work.node(*it), to));
        switch.location != place && switch.terminals.iter().any(|it| on(it.index()))
    };
    let candidates: Vec<SwitchId> = exercise.switches.ids().filter(concerned).collect();
    let now = work.positions();
    let count = candidates.iter().fold(1_usize, |n, it| n.saturating_mul(ways(work, *it)));
    if count > COMBINATIONS {
        let mut settings = vec![now.to_vec()];
        settings.extend(candidates.iter().flat_map(|it| flipped(work, *it, now)));
        return (candidates, settings);
    }
    let live = |setting: &[u8]| {
        let mut sets = work.joined_as_set(setting);
        let mut fed = |it: &Point| exercise.devices.iter().any(|of| sets.same(work.node(*it), of.line.index()));
        points.iter().map(&mut fed).collect::<Vec<bool>>()
    };
    let all = combinations(exercise, &candidates, now);
    let decides = |it: &SwitchId| {
        let changes = |setting: &Vec<u8>| flipped(work, *it, setting).iter().any(|other| live(other) != live(setting));
        all.iter().any(changes)
    };
    let deciding: Vec<SwitchId> = candidates.into_iter().filter(decides).collect();
    let mut settings = combinations(exercise, &deciding, now);
    settings.sort_by_key(|it| it != now);
    (deciding, settings)
}

fn ways(work: &Work, switch: SwitchId) -> usize {
    work.exercise().switches[switch].way.positions()
}

/// A setting with one switch in each of its other positions.
fn flipped(work: &Work, switch: SwitchId, setting: &[u8]) -> Vec<Vec<u8>> {
    let others = (0..ways(work, switch) as u8).filter(|it| *it != setting[switch.index()]);
    others
        .map(|it| {
            let mut next = setting.to_vec();
            next[switch.index()] = it;
            next
        })
        .collect()
}
