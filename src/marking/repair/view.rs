//! The joined view of a work over its terminals alone, with some ends moved and no copy of the work: what a search asks of each of many
//! thousand candidates.
//!
//! A conductor that hangs loose at one end joins nothing, so that its ends need no place of their own; nor do two conductors side by
//! side need more than one.

use std::cell::RefCell;

use crate::{
    exercise::{EndId, Exercise, Join, LocationKind, TerminalId, TerminalUse},
    trade::accessory::Material,
    work::Work,
};

/// An end and where it goes.
pub(super) type Move = (EndId, Option<TerminalId>);

/// No bar.
pub(super) const NO_BAR: u16 = u16::MAX;

/// A line, a neutral or an earth to which everything else is joined or not.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum BarPoint {
    /// A device's outgoing line.
    Line(u16),
    /// A device's outgoing neutral.
    Neutral(u16),
    /// The earth bar.
    Earth,
}

/// Conductors between two terminals, and what else joins terminals for good.
struct Copper {
    terminals: usize,
    /// Two terminals and the number of conductors between them, in order.
    conductors: Vec<([u16; 2], u16)>,
    others: Vec<[u16; 2]>,
}

/// Disjoint sets of terminals; a bar that is in a set stands for it.
#[derive(Debug, Clone, Default)]
pub(super) struct Nets {
    parent: Vec<u16>,
    /// For each terminal that stands for a set, the place of its bar, or [`NO_BAR`].
    bar: Vec<u16>,
    /// Whether two bars were joined.
    pub shorted: bool,
}

impl Nets {
    /// What stands for the set of a terminal.
    pub fn root(&self, terminal: TerminalId) -> u16 {
        let mut item = terminal.0;
        while self.parent[usize::from(item)] != item {
            item = self.parent[usize::from(item)];
        }
        item
    }

    /// The bar that a terminal is joined to, by its place.
    pub fn bar(&self, terminal: TerminalId) -> u16 {
        self.bar[usize::from(self.root(terminal))]
    }

    /// Makes two sets one.
    pub fn join(&mut self, a: TerminalId, b: TerminalId) {
        let (a, b) = (self.halved(a), self.halved(b));
        if a == b {
            return;
        }
        let is_bar = |it: u16| self.bar[usize::from(it)] != NO_BAR;
        self.shorted |= is_bar(a) && is_bar(b);
        let (stays, goes) = if is_bar(a) || (!is_bar(b) && a < b) { (a, b) } else { (b, a) };
        self.parent[usize::from(goes)] = stays;
    }

    /// [`Self::root`], with the way to it made shorter.
    fn halved(&mut self, terminal: TerminalId) -> u16 {
        let mut item = usize::from(terminal.0);
        while usize::from(self.parent[item]) != item {
            self.parent[item] = self.parent[usize::from(self.parent[item])];
            item = usize::from(self.parent[item]);
        }
        item as u16
    }

    /// Takes over another's sets.
    pub fn copy(&mut self, other: &Self) {
        self.parent.clone_from(&other.parent);
        self.bar.clone_from(&other.bar);
        self.shorted = other.shorted;
    }

    /// With some conductors more, each by its two terminals, and every way to what stands for a set one step long.
    fn with(mut self, put: &[[u16; 2]]) -> Self {
        for [a, b] in put {
            self.join(TerminalId(*a), TerminalId(*b));
        }
        for it in 0..self.parent.len() {
            self.parent[it] = self.root(TerminalId(it as u16));
        }
        self
    }
}

impl Copper {
    fn new(work: &Work, only: impl Fn(usize) -> bool, others: Vec<[u16; 2]>) -> Self {
        let mut pairs: Vec<[u16; 2]> = (0..work.conductor_count())
            .filter(|it| only(*it))
            .filter_map(|it| pair(EndId::of(it).map(|end| work.terminal_of(end))))
            .collect();
        pairs.sort_unstable();
        let mut conductors: Vec<([u16; 2], u16)> = Vec::new();
        for it in pairs {
            match conductors.last_mut().filter(|last| last.0 == it) {
                Some(last) => last.1 += 1,
                None => conductors.push((it, 1)),
            }
        }
        Self { terminals: work.exercise().terminals.len(), conductors, others }
    }

    /// The sets with some conductors taken away, each by its two terminals.
    fn nets(&self, bars: &[(TerminalId, BarPoint)], away: &[[u16; 2]]) -> Nets {
        let mut nets =
            Nets { parent: (0..self.terminals as u16).collect(), bar: vec![NO_BAR; self.terminals], shorted: false };
        for (place, (terminal, _)) in (0_u16..).zip(bars) {
            nets.bar[terminal.index()] = place;
        }
        let stay = self.conductors.iter().filter(|(pair, count)| {
            let gone = away.iter().filter(|it| *it == pair).count();
            gone < usize::from(*count)
        });
        for [a, b] in stay.map(|it| it.0).chain(self.others.iter().copied()) {
            nets.join(TerminalId(a), TerminalId(b));
        }
        nets
    }
}

/// The two terminals of a conductor, the lower first, if it joins two.
fn pair(ends: [Option<TerminalId>; 2]) -> Option<[u16; 2]> {
    let [Some(a), Some(b)] = ends else { return None };
    (a != b).then(|| [a.0.min(b.0), a.0.max(b.0)])
}

/// A work to be looked at with ends moved.
pub(super) struct EditedView<'a> {
    pub work: &'a Work,
    /// Lines and neutrals of the devices, and earth bars.
    pub bars: Vec<(TerminalId, BarPoint)>,
    all: Copper,
    protective: Copper,
    /// Protective conductors' ends.
    earths: Vec<EndId>,
    /// Earth terminals of metal plates and boxes that are not left to screws that will do.
    metal: Vec<TerminalId>,
    unearthed: usize,
    /// The conductors that were taken away last, and what was left joined: an end is tried in one terminal after the other.
    left: RefCell<(Vec<[u16; 2]>, Nets)>,
}

impl<'a> EditedView<'a> {
    pub fn new(work: &'a Work) -> Self {
        let exercise = work.exercise();
        let others = |only: fn(Join) -> bool| -> Vec<[u16; 2]> {
            exercise.joins().filter(|it| only(it.0)).map(|join| join.1.map(|it| it.0)).collect()
        };
        let is_protective = |conductor: usize| work.end_facts(EndId::of(conductor)[0]).colour.is_protective();
        let mut view = Self {
            work,
            bars: bars(exercise),
            all: Copper::new(work, |_| true, others(Join::is_lasting)),
            protective: Copper::new(work, is_protective, others(|it| matches!(it, Join::Fixed(_)))),
            earths: work.ends().filter(|it| work.end_facts(*it).colour.is_protective()).collect(),
            metal: metal(exercise),
            unearthed: 0,
            left: RefCell::default(),
        };
        view.left = RefCell::new((Vec::new(), view.all.nets(&view.bars, &[])));
        view.unearthed = view.count_unearthed(&[]);
        view
    }

    /// What is joined whatever the switches once some ends are moved.
    pub fn lasting(&self, moves: &[Move]) -> Nets {
        let (away, put) = self.changed(moves, |_| true);
        let mut left = self.left.borrow_mut();
        if left.0 != away {
            let nets = self.all.nets(&self.bars, &away);
            *left = (away, nets);
        }
        left.1.clone().with(&put)
    }

    /// How many protective ends are then in no terminal, or not joined to the earth bar by other protective conductors
    /// and by what accessories join; and how many metal parts have no earth where screws alone will not do.
    pub fn unearthed(&self, moves: &[Move]) -> usize {
        let of_earth = |it: &Move| self.work.end_facts(it.0).colour.is_protective();
        if moves.iter().any(of_earth) { self.count_unearthed(moves) } else { self.unearthed }
    }

    fn count_unearthed(&self, moves: &[Move]) -> usize {
        let work = self.work;
        let is_protective = |it: EndId| work.end_facts(EndId::of(it.conductor())[0]).colour.is_protective();
        let (away, put) = self.changed(moves, is_protective);
        let earth: Vec<(TerminalId, BarPoint)> =
            self.bars.iter().filter(|it| it.1 == BarPoint::Earth).copied().collect();
        let nets = self.protective.nets(&earth, &away).with(&put);
        let reached = |it: TerminalId| nets.bar(it) != NO_BAR;
        let ends = self.earths.iter().filter(|it| !self.terminal_of(**it, moves).is_some_and(reached));
        ends.count() + self.metal.iter().filter(|it| !reached(**it)).count()
    }

    /// Where an end then is.
    fn terminal_of(&self, end: EndId, moves: &[Move]) -> Option<TerminalId> {
        moves.iter().rev().find(|it| it.0 == end).map_or_else(|| self.work.terminal_of(end), |it| it.1)
    }

    /// The terminal pairs of the moved conductors that join two terminals, before the moves and after them.
    fn changed(&self, moves: &[Move], only: impl Fn(EndId) -> bool) -> (Vec<[u16; 2]>, Vec<[u16; 2]>) {
        let mut conductors: Vec<usize> = moves.iter().filter(|it| only(it.0)).map(|it| it.0.conductor()).collect();
        conductors.sort_unstable();
        conductors.dedup();
        let was = conductors.iter().filter_map(|it| pair(EndId::of(*it).map(|end| self.work.terminal_of(end))));
        let now = conductors.iter().filter_map(|it| pair(EndId::of(*it).map(|end| self.terminal_of(end, moves))));
        (was.collect(), now.collect())
    }
}

fn bars(exercise: &Exercise) -> Vec<(TerminalId, BarPoint)> {
    let each = exercise.terminals.with_ids();
    let bar = |used_by| match used_by {
        TerminalUse::DeviceLine(it) => Some(BarPoint::Line(it.0)),
        TerminalUse::DeviceNeutral(it) => Some(BarPoint::Neutral(it.0)),
        TerminalUse::EarthBar => Some(BarPoint::Earth),
        _ => None,
    };
    each.filter_map(|(id, it)| bar(it.used_by).map(|bar| (id, bar))).collect()
}

fn metal(exercise: &Exercise) -> Vec<TerminalId> {
    let mut metal = Vec::new();
    for (at, place) in exercise.locations.with_ids() {
        if let LocationKind::Box(it) = &place.kind {
            metal.extend(exercise.terminal_used(at, TerminalUse::PlateEarth));
            // A plate always needs a conductor of its own; its box may rely on the screws through a fixed lug (`rules/tail.rs`).
            if it.body != Material::Plastic && !it.is_screwed_together() {
                metal.extend(exercise.terminal_used(at, TerminalUse::BoxEarth));
            }
        }
    }
    metal
}
