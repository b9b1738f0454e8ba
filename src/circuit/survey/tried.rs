//! Which combinations of positions marking tries. Up to [`ALL`] all of them; of more, those of each part by itself.
//!
//! A part is what switches and loads join between the rails: what is joined to a device's terminals or the earth bar whatever the
//! switches. Parts meet at rails alone, which hold their volts whatever hangs on them, so what one does is the same in any
//! position of another, unless that one opens their device. So each part is tried in all its combinations with the others in
//! position 0, and again with the others as they take no current and short nothing; and once with every part as it takes most,
//! for what they come to together. The first combination in counting order that shows a fault of one part is among them.

use std::collections::BTreeSet;

use crate::{
    exercise::{Exercise, Join, Sets, SwitchId, TerminalUse, combinations},
    work::Work,
};

/// All combinations are tried where there are no more than this.
pub(super) const ALL: usize = 256;
/// At most this many combinations of a part are looked through for one in which it takes nothing, and for the one in which it takes
/// most.
const LOOKED: usize = 64;

/// The combinations that marking tries of a work, in counting order.
pub fn settings_to_try(work: &Work) -> Vec<Vec<u8>> {
    let exercise = work.exercise();
    let switches: Vec<SwitchId> = exercise.switches.ids().collect();
    let all = || combinations(exercise, &switches, &vec![0; switches.len()]);
    if number_of(exercise, &switches).is_some_and(|it| it <= ALL) {
        return all();
    }
    let rails = Rails::new(work);
    let parts = rails.parts(work, &switches);
    if parts.len() == 1 {
        return all();
    }
    let zero = vec![0; switches.len()];
    let (mut idle, mut busy) = (zero.clone(), zero.clone());
    for part in &parts {
        let mut looked = combinations(exercise, part, &zero);
        looked.truncate(LOOKED);
        let takes: Vec<Option<usize>> = looked.iter().map(|it| rails.loads_fed(work, part, it)).collect();
        let first = |wanted: &dyn Fn(Option<usize>) -> bool| takes.iter().position(|fed| wanted(*fed));
        let most = takes.iter().copied().max().flatten();
        let at_rest = first(&|fed| fed == Some(0)).or_else(|| first(&|fed| fed.is_some())).unwrap_or(0);
        let at_most = first(&|fed| fed == most).unwrap_or(0);
        for it in part {
            idle[it.index()] = looked[at_rest][it.index()];
            busy[it.index()] = looked[at_most][it.index()];
        }
    }
    let mut tried: BTreeSet<Vec<u8>> = BTreeSet::new();
    for part in &parts {
        for others in [&zero, &idle] {
            tried.extend(combinations(exercise, part, others));
        }
    }
    tried.insert(busy);
    tried.into_iter().collect()
}

/// Number of combinations of some switches.
pub(super) fn number_of(exercise: &Exercise, switches: &[SwitchId]) -> Option<usize> {
    switches.iter().try_fold(1_usize, |n, it| n.checked_mul(exercise.switches[*it].way.positions()))
}

/// What is joined whatever the switches, and which of it is a rail.
struct Rails {
    lasting: Sets,
    root: Vec<usize>,
    /// For each point that stands for its set: line, and neutral or earth.
    line: Vec<bool>,
    back: Vec<bool>,
}

impl Rails {
    fn new(work: &Work) -> Self {
        let mut lasting = work.joined(Join::is_lasting);
        let root: Vec<usize> = (0..work.point_count()).map(|it| lasting.root(it)).collect();
        let (mut line, mut back) = (vec![false; root.len()], vec![false; root.len()]);
        for (index, it) in work.exercise().terminals.iter().enumerate() {
            match it.used_by {
                TerminalUse::DeviceLine(_) => line[root[index]] = true,
                TerminalUse::DeviceNeutral(_) | TerminalUse::EarthBar => back[root[index]] = true,
                _ => {}
            }
        }
        Self { lasting, root, line, back }
    }

    fn is_rail(&self, point: usize) -> bool {
        self.line[self.root[point]] || self.back[self.root[point]]
    }

    /// The switches part by part.
    fn parts(&self, work: &Work, switches: &[SwitchId]) -> Vec<Vec<SwitchId>> {
        let (exercise, points) = (work.exercise(), self.root.len());
        let mut sets = Sets::new(points + switches.len());
        for (index, it) in exercise.switches.iter().enumerate() {
            for terminal in it.terminals.iter().map(|terminal| terminal.index()).filter(|point| !self.is_rail(*point)) {
                sets.join(points + index, self.root[terminal]);
            }
        }
        for (_, [a, b]) in work.joins().filter(|it| it.0.is_load()) {
            if !self.is_rail(a) && !self.is_rail(b) {
                sets.join(self.root[a], self.root[b]);
            }
        }
        let mut parts: Vec<(usize, Vec<SwitchId>)> = Vec::new();
        for (index, it) in switches.iter().enumerate() {
            let root = sets.root(points + index);
            match parts.iter_mut().find(|part| part.0 == root) {
                Some(part) => part.1.push(*it),
                None => parts.push((root, vec![*it])),
            }
        }
        parts.into_iter().map(|it| it.1).collect()
    }

    /// How many loads are fed through the switches of a part, set so; `None` where they short something.
    fn loads_fed(&self, work: &Work, part: &[SwitchId], positions: &[u8]) -> Option<usize> {
        let exercise = work.exercise();
        let mut joined = self.lasting.clone();
        for it in part {
            for [a, b] in exercise.switches[*it].closed(usize::from(positions[it.index()])) {
                joined.join(a.index(), b.index());
            }
        }
        let mut sides = vec![(None, false); joined.count()];
        for (point, root) in self.root.iter().enumerate().filter(|it| it.0 == *it.1) {
            let side: &mut (Option<usize>, bool) = &mut sides[joined.root(point)];
            if self.line[*root] {
                if side.0.is_some() {
                    return None;
                }
                side.0 = Some(point);
            }
            side.1 |= self.back[*root];
            if side.0.is_some() && side.1 {
                return None;
            }
        }
        let mut side = |it: usize| sides[joined.root(it)];
        let loads = work.joins().filter(|it| it.0.is_load());
        let fed = loads.filter(|(_, [a, b])| {
            let (a, b) = (side(*a), side(*b));
            a.0.is_some() && b.1 || b.0.is_some() && a.1
        });
        Some(fed.count())
    }
}
