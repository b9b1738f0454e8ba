//! Where the current goes at one instant, for each load from its device out and back; and where what is live stops.
//!
//! An alternating current reverses a hundred times a second: this tells of the half in which it comes out by the line. For drawings and
//! sentences; it solves and says, and judges nothing.

use super::{
    network::{Branch, Conditions, Part},
    settle::{Opening, Settled, settle},
    survey::{LampRow, lamp_row},
};
use crate::{
    exercise::{DeviceId, EndId, LampId, SwitchId, TerminalId},
    work::{Load, Point, Subject, Work},
};

/// Less than this through a load is no loop, amps: what insulation lets through (an assumption of ours).
const CARRIES: f64 = 0.0005;

/// One piece of a loop.
#[derive(Debug, Clone, PartialEq)]
pub struct LoopStep {
    /// What the current passes.
    pub part: Part,
    /// Where it comes in; `None` at a bar of the board, which is no point of the work.
    pub from: Option<Point>,
    /// Where it goes out.
    pub to: Option<Point>,
    /// Current in this piece, amps: more than the load's own where others share it.
    pub amps: f64,
}

/// The way of one load's current, from the board and back to it.
#[derive(Debug, Clone, PartialEq)]
pub struct CurrentLoop {
    /// The load.
    pub load: Subject,
    /// Current through it, amps.
    pub amps: f64,
    /// What it passes, in order: first the pole of a device, last what leads into the bar of the neutral or of the earth. Where there are
    /// several ways side by side, that which carries most.
    pub steps: Vec<LoopStep>,
}

/// Several pieces of a loop as one would name them.
#[derive(Debug, Clone, PartialEq)]
pub enum LoopLeg {
    /// A device's pole.
    Device(DeviceId),
    /// Conductors of one colour, one after the other.
    Wires {
        /// Which, in order.
        conductors: Vec<usize>,
        /// Where the last of them ends.
        to: Option<Point>,
    },
    /// A closed contact.
    Switch {
        /// The switch.
        switch: SwitchId,
        /// Where the current comes in.
        from: Option<Point>,
        /// Where it goes out.
        to: Option<Point>,
    },
    /// The load.
    Load(Subject),
}

impl CurrentLoop {
    /// Its pieces, wires of one colour that follow one another together. What joins without a name of its own is left out.
    pub fn legs(&self, work: &Work) -> Vec<LoopLeg> {
        let colour = |it: usize| work.end_facts(EndId::of(it)[0]).colour;
        let mut legs: Vec<LoopLeg> = Vec::new();
        for step in &self.steps {
            match step.part {
                Part::LinePole(it) | Part::NeutralPole(it) => legs.push(LoopLeg::Device(it)),
                Part::Contact(switch, _) => legs.push(LoopLeg::Switch { switch, from: step.from, to: step.to }),
                Part::Lamp(_) | Part::Motor(_) | Part::Timer(_) => legs.push(LoopLeg::Load(self.load)),
                Part::Conductor(it) => match legs.last_mut() {
                    Some(LoopLeg::Wires { conductors, to })
                        if conductors.iter().all(|of| colour(*of) == colour(it)) =>
                    {
                        conductors.push(it);
                        *to = step.to;
                    }
                    _ => legs.push(LoopLeg::Wires { conductors: vec![it], to: step.to }),
                },
                _ => {}
            }
        }
        legs
    }
}

/// Where something is live, and what is beyond is not.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LiveStop {
    /// At an open contact.
    Switch {
        /// The switch.
        switch: SwitchId,
        /// Its terminal that is live.
        live: TerminalId,
        /// That which another position would join to it.
        dead: TerminalId,
    },
    /// At a load: beyond it the current goes back.
    Load {
        /// The load.
        load: Subject,
        /// Its terminal that is live.
        live: TerminalId,
    },
    /// At an end that is in no terminal.
    Loose(EndId),
}

/// Where the current goes, once everything has opened that must.
#[derive(Debug, Clone)]
pub struct Flow {
    /// A loop for each load that takes a current, in the order of the loads.
    pub loops: Vec<CurrentLoop>,
    /// Where what is live stops: switches, then loads, then ends.
    pub stops: Vec<LiveStop>,
    settled: Settled,
    /// By conductor, from its first end to its second, amps.
    amps: Vec<f64>,
}

/// Where the current goes under given conditions.
pub fn flow(work: &Work, conditions: Conditions) -> Flow {
    let settled = settle(work, conditions);
    let of = |conductor| {
        let branch = settled.network.part(Part::Conductor(conductor));
        branch.map_or(0.0, |branch| branch.amps(&settled.solution))
    };
    let amps = (0..work.conductor_count()).map(of).collect();
    let traced = Traced::new(work, &settled);
    let loops = work.loads().filter_map(|it| traced.loop_of(&it)).collect();
    Flow { loops, stops: stops(work, &settled), amps, settled }
}

impl Flow {
    /// Whether a hand on a point would feel it.
    pub fn is_live(&self, work: &Work, point: Point) -> bool {
        self.settled.is_energised(work, point)
    }

    /// The current in a conductor from its first end to its second, amps: negative the other way, nothing where there is no such conductor.
    pub fn amps(&self, conductor: usize) -> f64 {
        self.amps.get(conductor).copied().filter(|it| it.abs() >= CARRIES).unwrap_or(0.0)
    }

    /// The current that leaves the copper at a terminal, for a contact, a load, a pole of a device or the supply's earth, amps: negative
    /// where it comes from there, and nothing at a terminal that has none of these.
    pub fn taken_at(&self, work: &Work, terminal: TerminalId) -> f64 {
        let Some(node) = self.settled.network.find(work, Point::Terminal(terminal)) else { return 0.0 };
        let takes = |it: &&Branch| {
            !matches!(it.part, Part::Conductor(_) | Part::Fixed(_) | Part::PlateScrew(_) | Part::Insulation)
        };
        let of = |it: &Branch| match it.amps(&self.settled.solution) {
            amps if it.a == node => amps,
            amps if it.b == node => -amps,
            _ => 0.0,
        };
        self.settled.network.branches.iter().filter(takes).map(of).sum()
    }

    /// What opened, in order.
    pub fn opened(&self) -> &[Opening] {
        &self.settled.opened
    }

    /// What a lamp does.
    pub fn lamp(&self, lamp: LampId) -> LampRow {
        lamp_row(&self.settled, lamp)
    }
}

/// A solved network with the point of each node.
struct Traced<'a> {
    settled: &'a Settled,
    points: Vec<Option<Point>>,
    terminals: Vec<Option<usize>>,
}

impl<'a> Traced<'a> {
    fn new(work: &Work, settled: &'a Settled) -> Self {
        let mut points = vec![None; settled.network.node_count()];
        let loose = work.ends().map(|end| work.point_of(end)).filter(|point| matches!(point, Point::End(_)));
        let ids = work.exercise().terminals.ids();
        for it in ids.clone().map(Point::Terminal).chain(loose) {
            if let Some(slot) = settled.network.find(work, it).and_then(|it| points.get_mut(it)) {
                *slot = Some(it);
            }
        }
        let terminals = ids.map(|it| settled.network.find(work, Point::Terminal(it))).collect();
        Self { settled, points, terminals }
    }

    fn loop_of(&self, load: &Load) -> Option<CurrentLoop> {
        let [a, b] = load.between.map(|it| self.terminals.get(it.index()).copied().flatten());
        let (a, b) = (a?, b?);
        let is_it = |it: &&Branch| {
            let is_load = matches!(it.part, Part::Lamp(_) | Part::Motor(_) | Part::Timer(_));
            is_load && (it.a, it.b) == (a, b)
        };
        let branch = self.settled.network.branches.iter().find(is_it)?;
        let here = self.step(branch);
        if here.amps < CARRIES {
            return None;
        }
        let (comes, goes) = if self.amps(branch) > 0.0 { (a, b) } else { (b, a) };
        let mut steps = self.followed(comes, |branch, node| self.goes_into(branch, node));
        steps.reverse();
        let amps = here.amps;
        steps.push(here);
        steps.extend(self.followed(goes, |branch, node| self.comes_out_of(branch, node)));
        Some(CurrentLoop { load: load.at, amps, steps })
    }

    /// From a node on, by the branch with most current each time, as far as the board's bars. The voltage falls all along a current's way, so
    /// that no node comes twice.
    fn followed(&self, from: usize, next: impl Fn(&Branch, usize) -> Option<usize>) -> Vec<LoopStep> {
        let network = &self.settled.network;
        let (mut node, mut steps) = (from, Vec::new());
        while steps.len() < network.node_count() {
            let onward = network.branches.iter().filter_map(|it| next(it, node).map(|to| (it, to)));
            let carried = |it: &Branch| self.amps(it).abs();
            let most = onward.reduce(|best, it| if carried(it.0) > carried(best.0) { it } else { best });
            let Some((branch, to)) = most.filter(|it| carried(it.0) >= CARRIES) else { break };
            if matches!(branch.part, Part::SupplyLine | Part::SupplyNeutral | Part::SupplyEarth) {
                break;
            }
            steps.push(self.step(branch));
            node = to;
        }
        steps
    }

    /// Where a branch comes from that carries a current into a node.
    fn goes_into(&self, it: &Branch, node: usize) -> Option<usize> {
        match self.amps(it) {
            amps if it.b == node && amps > 0.0 => Some(it.a),
            amps if it.a == node && amps < 0.0 => Some(it.b),
            _ => None,
        }
    }

    /// Where a branch leads that carries a current out of a node.
    fn comes_out_of(&self, it: &Branch, node: usize) -> Option<usize> {
        match self.amps(it) {
            amps if it.a == node && amps > 0.0 => Some(it.b),
            amps if it.b == node && amps < 0.0 => Some(it.a),
            _ => None,
        }
    }

    fn step(&self, it: &Branch) -> LoopStep {
        let amps = self.amps(it);
        let [from, to] = if amps < 0.0 { [it.b, it.a] } else { [it.a, it.b] };
        let point = |it: usize| self.points.get(it).copied().flatten();
        LoopStep { part: it.part, from: point(from), to: point(to), amps: amps.abs() }
    }

    fn amps(&self, it: &Branch) -> f64 {
        it.amps(&self.settled.solution)
    }
}

fn stops(work: &Work, settled: &Settled) -> Vec<LiveStop> {
    let exercise = work.exercise();
    // Only the one of two that is live, and the other.
    let parted = |[a, b]: [TerminalId; 2]| match [a, b].map(|it| settled.is_energised(work, Point::Terminal(it))) {
        [true, false] => Some((a, b)),
        [false, true] => Some((b, a)),
        _ => None,
    };
    let contacts = exercise.switches.with_ids().flat_map(|(switch, it)| {
        (0..it.way.positions()).flat_map(|at| it.closed(at)).filter_map(move |pair| {
            let (live, dead) = parted(pair)?;
            Some(LiveStop::Switch { switch, live, dead })
        })
    });
    let loads = work.loads().filter_map(|it| Some(LiveStop::Load { load: it.at, live: parted(it.between)?.0 }));
    let loose =
        work.ends().filter(|it| work.point_of(*it) == Point::End(*it) && settled.is_energised(work, Point::End(*it)));
    let mut found: Vec<LiveStop> = Vec::new();
    for it in contacts.chain(loads).chain(loose.map(LiveStop::Loose)) {
        if !found.contains(&it) {
            found.push(it);
        }
    }
    found
}
