//! What stands in the diagram: devices, poles of switches and loads, and the nets between them.

use std::collections::BTreeMap;

use crate::{
    exercise::{DeviceId, FanId, Join, LampId, LocationId, Switch, SwitchId, TerminalId},
    trade::colour::Colour,
    work::{Point, Work},
};

/// What an element is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Symbol {
    /// The outgoing line of a device.
    Line(DeviceId),
    /// Its neutral.
    Neutral(DeviceId),
    /// The earth bar, where line or neutral comes to it.
    Earth,
    /// One pole of a switch: terminals that it joins to each other in some position.
    Pole(SwitchId),
    /// A lamp.
    Lamp(LampId),
    /// A fan that runs on.
    Fan(FanId),
    /// A socket-outlet.
    Outlet(LocationId),
}

/// Something that stands in the diagram.
#[derive(Debug)]
pub(super) struct DiagramElement {
    pub symbol: Symbol,
    /// Which column it stands in, from 0.
    pub column: usize,
    /// Its terminals on the side of the line, and on the other, each with its net.
    pub sides: [Vec<(TerminalId, usize)>; 2],
}

impl DiagramElement {
    /// Whether it is a switch with more than one way, which may stand either way about.
    pub fn has_ways(&self) -> bool {
        matches!(self.symbol, Symbol::Pole(_)) && self.sides.iter().map(Vec::len).sum::<usize>() > 2
    }
}

/// Elements and nets.
#[derive(Debug)]
pub(super) struct CircuitGraph {
    pub elements: Vec<DiagramElement>,
    /// For each net the letters of the colours of its conductors.
    pub codes: Vec<String>,
    /// For each net its conductors, by their numbers in the work.
    pub conductors: Vec<Vec<usize>>,
    /// How many columns there are.
    pub columns: usize,
}

/// Terminals of something, each with its net, before its sides are known.
struct Unplaced {
    symbol: Symbol,
    terminals: Vec<(TerminalId, usize)>,
    /// For the pole of a switch, of each terminal whether it faces the first one: a blade lies between two that face each other.
    faces: Option<Vec<bool>>,
}

impl Unplaced {
    fn bar(symbol: Symbol, terminal: TerminalId, net: usize) -> Self {
        Self { symbol, terminals: vec![(terminal, net)], faces: None }
    }
}

/// At most this number of colours is named beside a net.
const NAMED: usize = 3;

impl CircuitGraph {
    pub fn of(work: &Work) -> Self {
        let exercise = work.exercise();
        // Nets by what stands for them, in the order in which they are first met.
        let mut sets = work.joined(Join::is_lasting);
        let mut numbers: BTreeMap<usize, usize> = BTreeMap::new();
        let mut net = |it: TerminalId| {
            let root = sets.root(it.index());
            let next = numbers.len();
            *numbers.entry(root).or_insert(next)
        };
        let sources: Vec<Unplaced> = exercise
            .devices
            .with_ids()
            .map(|(id, it)| Unplaced::bar(Symbol::Line(id), it.line, net(it.line)))
            .collect();
        let mut sinks: Vec<Unplaced> = exercise
            .devices
            .with_ids()
            .map(|(id, it)| Unplaced::bar(Symbol::Neutral(id), it.neutral, net(it.neutral)))
            .collect();
        let bar = exercise.earth_bars().next();
        sinks.extend(bar.map(|it| Unplaced::bar(Symbol::Earth, it, net(it))));
        let mut pieces = pieces(work, &mut net);
        pieces.retain(|it| it.terminals.iter().any(|(terminal, _)| work.ends_in(*terminal).next().is_some()));
        let mut net_of = |it: Point| numbers.get(&sets.root(work.node(it))).copied();
        let codes = codes(work, numbers.len(), &mut net_of);
        let conductors = conductors(work, numbers.len(), &mut net_of);
        Self { conductors, ..Self::in_columns(sources, sinks, pieces, codes) }
    }

    /// Everything in its column: next to a line come the elements that hang on it, then what hangs on those, and on the other side the
    /// neutrals and the earth.
    fn in_columns(sources: Vec<Unplaced>, sinks: Vec<Unplaced>, pieces: Vec<Unplaced>, codes: Vec<String>) -> Self {
        const OPEN: usize = usize::MAX;
        let mut level = vec![OPEN; codes.len()];
        let is_used = |it: &Unplaced| {
            let net = it.terminals[0].1;
            pieces.iter().any(|piece| piece.terminals.iter().any(|terminal| terminal.1 == net))
                || sources.iter().chain(&sinks).filter(|other| other.terminals[0].1 == net).count() > 1
        };
        let [is_source, is_sink] = [&sources, &sinks].map(|of| of.iter().map(&is_used).collect::<Vec<bool>>());
        for (it, _) in sources.iter().zip(&is_source).filter(|it| *it.1) {
            level[it.terminals[0].1] = 0;
        }
        let ends: Vec<usize> = sinks.iter().map(|it| it.terminals[0].1).filter(|it| level[*it] == OPEN).collect();
        let mut column = vec![OPEN; pieces.len()];
        loop {
            // What hangs on a net whose level is known, the lowest first; else what hangs on no line: the first that is left.
            let next = (0..pieces.len())
                .filter(|it| column[*it] == OPEN)
                .min_by_key(|piece| pieces[*piece].terminals.iter().map(|it| level[it.1]).min().unwrap_or(OPEN));
            let Some(next) = next else { break };
            let nets = || pieces[next].terminals.iter().map(|it| it.1);
            let lowest = nets().map(|it| level[it]).min().filter(|it| *it != OPEN);
            if lowest.is_none()
                && let Some(first) = nets().find(|it| !ends.contains(it))
            {
                level[first] = 0;
            }
            let here = lowest.unwrap_or(0);
            column[next] = here;
            for it in nets().filter(|it| !ends.contains(it)) {
                level[it] = level[it].min(here + 1);
            }
        }
        let last = column.iter().map(|it| it + 1).max().unwrap_or(0);
        for it in ends {
            level[it] = last;
        }
        let whole = |piece: Unplaced, column: usize| {
            let here = column.saturating_sub(1);
            let mut is_left: Vec<bool> = piece.terminals.iter().map(|it| column > 0 && level[it.1] <= here).collect();
            // The contacts of a switch stand as they work, whichever side their nets come from: COM alone, its two ways facing it.
            if let Some(faces) = &piece.faces {
                let alike = is_left.iter().zip(faces).filter(|(left, faces)| left == faces).count();
                let is_turned = 2 * alike > faces.len();
                is_left = faces.iter().map(|it| *it == is_turned).collect();
            }
            let mut sides = [Vec::new(), Vec::new()];
            for (it, is_left) in piece.terminals.into_iter().zip(is_left) {
                sides[usize::from(!is_left)].push(it);
            }
            DiagramElement { symbol: piece.symbol, column, sides }
        };
        let sources = sources.into_iter().zip(is_source).filter(|it| it.1).map(|it| (it.0, 0));
        let pieces = pieces.into_iter().zip(column).map(|(it, column)| (it, column + 1));
        let sinks = sinks.into_iter().zip(is_sink).filter(|it| it.1).map(|it| (it.0, last + 1));
        let elements: Vec<DiagramElement> = sources.chain(pieces).chain(sinks).map(|it| whole(it.0, it.1)).collect();
        Self { columns: if elements.is_empty() { 0 } else { last + 2 }, elements, codes, conductors: Vec::new() }
    }
}

/// Poles of switches, and loads.
fn pieces(work: &Work, net: &mut dyn FnMut(TerminalId) -> usize) -> Vec<Unplaced> {
    let exercise = work.exercise();
    let mut pieces = Vec::new();
    let mut piece = |symbol: Symbol, terminals: &[TerminalId], faces: Option<Vec<bool>>| {
        pieces.push(Unplaced { symbol, terminals: terminals.iter().map(|it| (*it, net(*it))).collect(), faces });
    };
    for (id, it) in exercise.switches.with_ids() {
        for pole in it.poles() {
            piece(Symbol::Pole(id), &pole, faces(it, &pole));
        }
    }
    for (id, it) in exercise.lamps.with_ids() {
        piece(Symbol::Lamp(id), &it.contacts, None);
    }
    for (id, it) in exercise.fans.with_ids() {
        piece(Symbol::Fan(id), &it.terminals, None);
    }
    for (at, terminals) in exercise.outlets() {
        piece(Symbol::Outlet(at), &terminals, None);
    }
    pieces
}

/// Of each terminal of a pole whether it faces the first one; `None` if the pole has a position in which two of one side are joined.
fn faces(switch: &Switch, pole: &[TerminalId]) -> Option<Vec<bool>> {
    let place = |it: TerminalId| pole.iter().position(|other| *other == it);
    let joins: Vec<[usize; 2]> = (0..switch.way.positions())
        .flat_map(|it| switch.closed(it))
        .filter_map(|[a, b]| Some([place(a)?, place(b)?]))
        .collect();
    let mut faces: Vec<Option<bool>> = vec![None; pole.len()];
    *faces.first_mut()? = Some(false);
    // A pole is joined throughout, so that each round reaches another terminal.
    for _ in pole {
        for [a, b] in joins.iter().flat_map(|[a, b]| [[*a, *b], [*b, *a]]) {
            if let (Some(known), None) = (faces[a], faces[b]) {
                faces[b] = Some(!known);
            }
        }
    }
    let faces: Option<Vec<bool>> = faces.into_iter().collect();
    faces.filter(|faces| joins.iter().all(|[a, b]| faces[*a] != faces[*b]))
}

/// The colours of the conductors of each net that are in a terminal, as letters.
fn codes(work: &Work, nets: usize, net: &mut dyn FnMut(Point) -> Option<usize>) -> Vec<String> {
    let mut colours: Vec<Vec<Colour>> = vec![Vec::new(); nets];
    for it in work.ends().filter(|it| work.terminal_of(*it).is_some()) {
        let colour = work.end_facts(it).colour;
        if let Some(of) = net(work.point_of(it)).and_then(|it| colours.get_mut(it)).filter(|it| !it.contains(&colour)) {
            of.push(colour);
        }
    }
    let said = |of: Vec<Colour>| of.iter().take(NAMED).map(|it| it.code()).collect::<Vec<_>>().join(" ");
    colours.into_iter().map(said).collect()
}

/// The conductors of each net.
fn conductors(work: &Work, nets: usize, net: &mut dyn FnMut(Point) -> Option<usize>) -> Vec<Vec<usize>> {
    let mut found: Vec<Vec<usize>> = vec![Vec::new(); nets];
    for it in 0..work.conductor_count() {
        let of = work.ends_of(it).and_then(|[end, _]| net(work.point_of(end)));
        if let Some(of) = of.and_then(|it| found.get_mut(it)) {
            of.push(it);
        }
    }
    found
}
