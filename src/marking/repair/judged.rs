//! Whether every control does as it must in the joined view, and how much is wrong if not.
//!
//! A part is what switches and loads join between the bars. Parts have only bars in common, and joined bars are wrong
//! in any case, so each part is tried in its own combinations alone, however many all switches have together.

use std::{cell::RefCell, collections::BTreeSet};

use super::{
    fan_is_right,
    view::{BarPoint, EditedView, Move, NO_BAR, Nets},
};
use crate::{
    exercise::combinations,
    exercise::{Exercise, LampId, Sets, SwitchId, TerminalId},
};

/// Up to this many combinations, what is wrong is counted over all of them; beyond, over those that [`sample`] picks.
const COUNTED: usize = 256;
/// This many combinations in which candidates were wrong are remembered.
const SHOWN: usize = 8;

/// A combination in which a wiring was found wrong, and one that differs in one switch, if it takes both to see it.
type WitnessPair = (Vec<u8>, Option<Vec<u8>>);

/// A work with the combinations over which it is judged.
pub(super) struct JudgedWork<'a> {
    pub view: EditedView<'a>,
    /// Lamps that count as off: they were wrong before the learner came, and no end of the learner's puts them right.
    but: &'a [LampId],
    linked: bool,
    /// The combinations over which faults are counted, and (in `presses`) which two of them differ in which switch.
    counted: Vec<Vec<u8>>,
    presses: Vec<[usize; 3]>,
    /// Every lamp and every fan.
    every: WorkPart,
    /// What showed candidates to be wrong, the latest first: the next candidate is tried on it first.
    shown: RefCell<Vec<WitnessPair>>,
    /// Room for the joins of one combination, used again for each candidate.
    nets: RefCell<Nets>,
}

/// Switches, lamps and fans that have more than bars in common.
#[derive(Default)]
struct WorkPart {
    switches: Vec<usize>,
    lamps: Vec<usize>,
    fans: Vec<usize>,
}

impl<'a> JudgedWork<'a> {
    pub fn new(view: EditedView<'a>, but: &'a [LampId]) -> Self {
        let exercise = view.work.exercise();
        let counted = sample(exercise);
        let mut presses = Vec::new();
        for (here, setting) in counted.iter().enumerate() {
            for (switch, it) in exercise.switches.iter().enumerate() {
                for position in setting[switch] + 1..it.way.positions() as u8 {
                    let mut there = setting.clone();
                    there[switch] = position;
                    presses.extend(counted.binary_search(&there).ok().map(|there| [here, there, switch]));
                }
            }
        }
        let linked = exercise.switches.iter().any(|it| it.way.is_linked());
        let every = WorkPart {
            switches: Vec::new(),
            lamps: (0..exercise.lamps.len()).collect(),
            fans: (0..exercise.fans.len()).collect(),
        };
        Self { view, but, linked, counted, presses, every, shown: RefCell::default(), nets: RefCell::default() }
    }

    /// Over how many combinations it is counted how much is wrong.
    pub const fn combinations_counted(&self) -> usize {
        self.counted.len()
    }

    fn exercise(&self) -> &'a Exercise {
        self.view.work.exercise()
    }

    /// Whether every control is right and sound once some ends are moved.
    pub fn is_right(&self, moves: &[Move]) -> bool {
        let lasting = self.view.lasting(moves);
        if lasting.shorted {
            return false;
        }
        let mut shown = self.shown.borrow_mut();
        if let Some(at) = shown.iter().position(|it| self.is_shown_by(&lasting, it)) {
            shown[..=at].rotate_right(1);
            return false;
        }
        match self.by_parts(&lasting) {
            Ok(()) => true,
            Err(it) => {
                if let Some(it) = it {
                    shown.insert(0, it);
                    shown.truncate(SHOWN);
                }
                false
            }
        }
    }

    /// What is joined in one combination.
    fn at(&self, lasting: &Nets, positions: &[u8], nets: &mut Nets) {
        nets.copy(lasting);
        for (switch, position) in self.exercise().switches.iter().zip(positions) {
            for [a, b] in switch.closed(usize::from(*position)) {
                nets.join(a, b);
            }
        }
    }

    /// Whether each of some lamps is lit; `None` if one is unsound (a short, two circuits joined, no neutral, a line
    /// of another circuit) or if a fan is wrong.
    fn lit(&self, nets: &Nets, positions: &[u8], lamps: &[usize], fans: &[usize]) -> Option<Vec<bool>> {
        let exercise = self.exercise();
        if nets.shorted {
            return None;
        }
        let lit = lamps.iter().map(|lamp| {
            if self.but.contains(&LampId(*lamp as u16)) {
                return Some(false);
            }
            self.one_lamp(exercise.lamps.rows()[*lamp].contacts.map(|it| self.bar_of(nets, it)))
        });
        let lit: Vec<bool> = lit.collect::<Option<_>>()?;
        let right =
            fans.iter().map(|at| &exercise.fans.rows()[*at]).filter(|fan| !self.but.contains(&fan.with)).all(|fan| {
                let lit = lamps.iter().position(|it| *it == fan.with.index()).is_some_and(|it| lit[it]);
                fan_is_right(exercise, &mut |a, b| nets.root(a) == nets.root(b), fan, positions, lit)
            });
        right.then_some(lit)
    }

    fn bar_of(&self, nets: &Nets, terminal: TerminalId) -> Option<BarPoint> {
        match nets.bar(terminal) {
            NO_BAR => None,
            it => self.view.bars.get(usize::from(it)).map(|it| it.1),
        }
    }

    /// One contact on a device's neutral and the other on its line (lit) or on no line (off). A linked switch may leave it with neither
    /// line nor neutral.
    fn one_lamp(&self, contacts: [Option<BarPoint>; 2]) -> Option<bool> {
        let is_line = |it: Option<BarPoint>| matches!(it, Some(BarPoint::Line(_)));
        match contacts {
            [Some(BarPoint::Neutral(own)), other] | [other, Some(BarPoint::Neutral(own))] => match other {
                Some(BarPoint::Line(it)) => (it == own).then_some(true),
                _ => Some(false),
            },
            [a, b] => (self.linked && !is_line(a) && !is_line(b)).then_some(false),
        }
    }

    /// Whether setting one switch differently, from one combination to another, changes just the lamps it must.
    fn changes(&self, switch: usize, mut changed: impl FnMut(usize) -> Option<bool>) -> bool {
        self.controls().all(|control| {
            let must = control.switches.iter().any(|it| it.index() == switch);
            changed(control.lamp.index()).is_none_or(|it| it == must)
        })
    }

    fn controls(&self) -> impl Iterator<Item = &'a crate::exercise::Control> + '_ {
        self.exercise().controls.iter().filter(|it| !self.but.contains(&it.lamp))
    }

    /// Whether a remembered pair shows this candidate to be wrong too.
    fn is_shown_by(&self, lasting: &Nets, (here, there): &WitnessPair) -> bool {
        let mut nets = self.nets.borrow_mut();
        let mut lit = |positions: &[u8]| {
            self.at(lasting, positions, &mut nets);
            self.lit(&nets, positions, &self.every.lamps, &self.every.fans)
        };
        let Some(one) = lit(here) else { return true };
        let Some(there) = there else { return false };
        let Some(switch) = here.iter().zip(there).position(|(a, b)| a != b) else { return false };
        lit(there).is_none_or(|other| !self.changes(switch, |lamp| Some(one[lamp] != other[lamp])))
    }

    /// Tries every part; the error is what shows the first wrong part, where a combination does.
    fn by_parts(&self, lasting: &Nets) -> Result<(), Option<WitnessPair>> {
        let exercise = self.exercise();
        let zero = vec![0; exercise.switches.len()];
        let mut nets = Nets::default();
        for part in self.parts(lasting) {
            // A switch that has nothing in common with its lamp does not work it.
            let works = |lamp: usize, switch: SwitchId| {
                !part.lamps.contains(&lamp)
                    || part.switches.contains(&switch.index())
                    || exercise.switches[switch].way.positions() < 2
            };
            if !self.controls().all(|it| it.switches.iter().all(|switch| works(it.lamp.index(), *switch))) {
                return Err(None);
            }
            let own: Vec<SwitchId> = part.switches.iter().map(|it| SwitchId(*it as u16)).collect();
            let settings = combinations(exercise, &own, &zero);
            let mut lit: Vec<Vec<bool>> = Vec::with_capacity(settings.len());
            for positions in &settings {
                nets.copy(lasting);
                for it in &part.switches {
                    for [a, b] in exercise.switches.rows()[*it].closed(usize::from(positions[*it])) {
                        nets.join(a, b);
                    }
                }
                let here = self.lit(&nets, positions, &part.lamps, &part.fans);
                lit.push(here.ok_or_else(|| Some((positions.clone(), None)))?);
            }
            // In counting order, last switch fastest, so that one toggled is a stride away.
            let mut stride = 1;
            for switch in part.switches.iter().rev() {
                let ways = exercise.switches.rows()[*switch].way.positions();
                for (here, positions) in settings.iter().enumerate() {
                    for step in 1..ways - usize::from(positions[*switch]) {
                        let there = here + step * stride;
                        let changed = |lamp: usize| {
                            let at = part.lamps.iter().position(|it| *it == lamp)?;
                            Some(lit[here][at] != lit[there][at])
                        };
                        if !self.changes(*switch, changed) {
                            return Err(Some((positions.clone(), Some(settings[there].clone()))));
                        }
                    }
                }
                stride *= ways;
            }
        }
        Ok(())
    }

    /// The parts: what is joined without passing a bar, each with its switches, lamps and fans.
    fn parts(&self, lasting: &Nets) -> Vec<WorkPart> {
        let exercise = self.exercise();
        let (terminals, switches, lamps) = (exercise.terminals.len(), exercise.switches.len(), exercise.lamps.len());
        let (lamp_at, fan_at) = (terminals + switches, terminals + switches + lamps);
        let mut sets = Sets::new(fan_at + exercise.fans.len());
        let join = |sets: &mut Sets, thing: usize, terminal: TerminalId| {
            if lasting.bar(terminal) == NO_BAR {
                sets.join(thing, usize::from(lasting.root(terminal)));
            }
        };
        for (index, it) in exercise.switches.iter().enumerate() {
            it.terminals.iter().for_each(|terminal| join(&mut sets, terminals + index, *terminal));
        }
        for (index, it) in exercise.lamps.iter().enumerate() {
            it.contacts.iter().for_each(|terminal| join(&mut sets, lamp_at + index, *terminal));
        }
        for (index, it) in exercise.fans.iter().enumerate() {
            it.terminals.iter().for_each(|terminal| join(&mut sets, fan_at + index, *terminal));
            sets.join(fan_at + index, lamp_at + it.with.index());
            it.isolator.iter().for_each(|switch| sets.join(fan_at + index, terminals + switch.index()));
        }
        let mut parts: Vec<(usize, WorkPart)> = Vec::new();
        for thing in terminals..fan_at + exercise.fans.len() {
            let root = sets.root(thing);
            let at = parts.iter().position(|it| it.0 == root).unwrap_or_else(|| {
                parts.push((root, WorkPart::default()));
                parts.len() - 1
            });
            let part = &mut parts[at].1;
            match thing {
                _ if thing < lamp_at => part.switches.push(thing - terminals),
                _ if thing < fan_at => part.lamps.push(thing - lamp_at),
                _ => part.fans.push(thing - fan_at),
            }
        }
        parts.into_iter().map(|it| it.1).collect()
    }

    /// How much is wrong once some ends are moved: bars joined, lamps that are unsound and presses that do the wrong thing, over many
    /// combinations; and what is not earthed. Joined bars weigh most, so that lighter faults do not make up for them.
    pub fn wrong(&self, moves: &[Move]) -> usize {
        const SHORT: usize = 10_000;
        const UNSOUND: usize = 100;
        let exercise = self.exercise();
        let lasting = self.view.lasting(moves);
        let mut sum = UNSOUND * self.view.unearthed(moves);
        let mut nets = Nets::default();
        let mut on: Vec<Vec<BarPoint>> = vec![Vec::new(); exercise.terminals.len()];
        let mut lit: Vec<Vec<Option<bool>>> = Vec::with_capacity(self.counted.len());
        for positions in &self.counted {
            self.at(&lasting, positions, &mut nets);
            let joined = if nets.shorted { self.bars_on(&nets, &mut on) } else { 0 };
            let is_asked = |it: &usize| !self.but.contains(&LampId(*it as u16));
            let lamps = (0..exercise.lamps.len()).map(|lamp| {
                let contacts = exercise.lamps.rows()[lamp].contacts;
                if nets.shorted {
                    self.one_of_joined(contacts.map(|it| on[usize::from(nets.root(it))].as_slice()))
                } else {
                    self.one_lamp(contacts.map(|it| self.bar_of(&nets, it)))
                }
            });
            let lamps: Vec<Option<bool>> = lamps.collect();
            let unsound = (0..lamps.len()).filter(is_asked).filter(|it| lamps[*it].is_none()).count();
            sum += SHORT * joined + UNSOUND * unsound;
            lit.push(lamps);
        }
        let wrong = |[here, there, switch]: &[usize; 3]| {
            let wrong = self.controls().filter(|control| {
                let (lamp, must) = (control.lamp.index(), control.switches.iter().any(|it| it.index() == *switch));
                (lit[*here][lamp] != lit[*there][lamp]) != must
            });
            // There and back.
            2 * wrong.count()
        };
        sum + self.presses.iter().map(wrong).sum::<usize>()
    }

    /// Notes the bars on each net, where bars may be joined, and gives how many pairs of them are joined.
    fn bars_on(&self, nets: &Nets, on: &mut [Vec<BarPoint>]) -> usize {
        on.iter_mut().for_each(Vec::clear);
        let mut pairs = 0;
        for (terminal, bar) in &self.view.bars {
            let on = &mut on[usize::from(nets.root(*terminal))];
            pairs += on.len();
            on.push(*bar);
        }
        pairs
    }

    /// [`Self::one_lamp`] where bars may be joined.
    fn one_of_joined(&self, [a, b]: [&[BarPoint]; 2]) -> Option<bool> {
        let neutral = |of: &[BarPoint]| {
            of.iter().filter_map(|it| if let BarPoint::Neutral(it) = it { Some(*it) } else { None }).min()
        };
        let is_line = |of: &[BarPoint]| of.iter().any(|it| matches!(it, BarPoint::Line(_)));
        for (a, b) in [(a, b), (b, a)] {
            if let Some(own) = neutral(a) {
                if b.contains(&BarPoint::Line(own)) {
                    return Some(true);
                }
                return (!is_line(b)).then_some(false);
            }
        }
        (self.linked && !is_line(a) && !is_line(b)).then_some(false)
    }
}

/// The combinations over which what is wrong is counted, in counting order: all, or if too many those in which at most
/// one switch differs from the others, which are all up or all down.
fn sample(exercise: &Exercise) -> Vec<Vec<u8>> {
    let switches: Vec<SwitchId> = exercise.switches.ids().collect();
    let zero = vec![0; switches.len()];
    let ways: Vec<usize> = exercise.switches.iter().map(|it| it.way.positions()).collect();
    if ways.iter().try_fold(1_usize, |all, it| all.checked_mul(*it)).is_some_and(|it| it <= COUNTED) {
        return combinations(exercise, &switches, &zero);
    }
    let last: Vec<u8> = ways.iter().map(|it| (*it as u8).saturating_sub(1)).collect();
    let mut all = BTreeSet::from([zero.clone(), last.clone()]);
    for from in [zero, last] {
        for (switch, ways) in ways.iter().enumerate() {
            for position in 0..*ways as u8 {
                let mut setting = from.clone();
                setting[switch] = position;
                all.insert(setting);
            }
        }
    }
    all.into_iter().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::attempt::open;

    /// A lamp between two bars: lit between line and neutral of one circuit, off with no line at it. With neither neutral nor line
    /// it is off where a linked pole may have parted it, and else unsound, as it always is with a line and no neutral.
    #[test]
    fn a_lamp_on_joined_bars_is_lit_off_or_unsound() {
        use BarPoint::{Earth, Line, Neutral};
        let model = include_str!("../../../exercises/two-way-passage/model.attempt.ron");
        let work = open(model).unwrap().replay().unwrap().work().clone();
        for linked in [false, true] {
            let judged = JudgedWork { linked, ..JudgedWork::new(EditedView::new(&work), &[]) };
            let lamp = |a: &[BarPoint], b: &[BarPoint]| {
                assert_eq!(judged.one_of_joined([a, b]), judged.one_of_joined([b, a]), "either way round");
                judged.one_of_joined([a, b])
            };
            assert_eq!(lamp(&[Line(0)], &[Neutral(0)]), Some(true));
            assert_eq!(lamp(&[Line(1)], &[Neutral(0)]), None, "a line of another circuit");
            assert_eq!(lamp(&[Neutral(0)], &[Earth]), Some(false));
            assert_eq!(lamp(&[], &[Earth]), linked.then_some(false));
            assert_eq!(lamp(&[Line(0)], &[]), None);
            assert_eq!(lamp(&[Line(0)], &[Earth]), None);
        }
    }
}
