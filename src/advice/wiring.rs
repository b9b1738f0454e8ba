//! A wiring that does every control of the learner's, looked for.
//!
//! Each control is a chain: the line to the first switch, two strappers from each switch to the next, the switched line to the lamp, and
//! the lamp's neutral; supply and lamp may stand at either end of it. Two-way switches may be joined like to like instead. Every stretch is a
//! *net* that grows from where it begins, a core or a link at a time, until it comes to its goal: an end goes into a terminal that takes it, a
//! core belongs to one net, and what is joined already comes with it. The search goes through all of them in turn, goes back where it is
//! stuck, and is bounded by the number of steps tried, so that it answers the same on every machine. A fan's own conductors are not looked for.
//!
//! Whatever else an exercise may come to ask of the wiring is one more goal in [`Search::goals`].

use std::collections::BTreeSet;

use crate::{
    exercise::{Control, DeviceId, EndId, Exercise, LocationId, Sets, Stands, SwitchId, TerminalId, TerminalUse},
    trade::accessory::Capacity,
    work::Work,
};

/// Steps tried before the search gives up. A house of some dozen places needs a few hundred.
const STEPS: usize = 10_000;
/// Orders of a control's switches that are tried; above four switches not all there are.
const ORDERS: usize = 24;

/// What the search came to.
#[derive(Debug, Clone, PartialEq)]
pub enum Wiring {
    /// A wiring that does it.
    Found(WiringFound),
    /// No such chain exists; the control (by its place in the exercise's list) beyond which the search did not get.
    Nothing(usize),
    /// The bound was met, or a control has a switch or a fan that the search knows no chain for.
    Unknown,
}

/// What is to be joined beyond what is there already.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WiringFound {
    /// Ends and the terminals that they go into, in the order of the ways that they belong to.
    pub ends: Vec<(EndId, TerminalId)>,
    /// What each of these carries.
    pub carries: Vec<Carries>,
    /// Links made up between two terminals of one place, and what each carries.
    pub links: Vec<([TerminalId; 2], Carries)>,
}

/// What a conductor of a wiring carries, as the trade calls it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Carries {
    /// The line before any switch.
    PermanentLine,
    /// The line between two switches.
    Strapper,
    /// The line after the last switch.
    SwitchedLine,
    /// The neutral.
    Neutral,
}

impl Carries {
    /// The letters that makers put at a terminal for it.
    const fn letters(self) -> &'static str {
        match self {
            Self::PermanentLine => "L",
            Self::Neutral => "N",
            Self::SwitchedLine | Self::Strapper => "SL",
        }
    }

    /// The place of the rose's terminal for it in [`crate::trade::accessory::ROSE_TERMINALS`].
    const fn rose_terminal(self) -> u8 {
        match self {
            Self::PermanentLine => 0,
            Self::Neutral => 1,
            // A strapper has none of its own.
            Self::SwitchedLine | Self::Strapper => 2,
        }
    }
}

/// Looks for a wiring of an exercise whose cables are all chosen.
pub fn wiring(exercise: &Exercise) -> Wiring {
    let altered = exercise.ends_to_alter();
    let start = exercise.start.with_ids().map(|(end, start)| {
        let terminal = start.filter(|_| !exercise.is_learners(end) && !altered.contains(&end))?.terminal;
        Some(terminal)
    });
    look(exercise, start.collect(), &[])
}

/// Looks for what is still to be joined in a work in which every cable is chosen. What the learner has joined so far stays as it is.
pub fn wiring_left(work: &Work) -> Wiring {
    let exercise = work.exercise();
    let altered = exercise.ends_to_alter();
    let stands = exercise.start.with_ids().map(|(end, start)| {
        let is_as_found = altered.contains(&end) && work.is_undisturbed(end);
        let later = start.filter(|start| start.stands == Stands::Later).map(|start| start.terminal);
        work.terminal_of(end).filter(|_| work.is_landed(end) && !is_as_found).or(later)
    });
    let made = (exercise.conductors.len()..work.conductor_count()).map(EndId::of);
    let made: Vec<[TerminalId; 2]> =
        made.filter_map(|[a, b]| Some([work.terminal_of(a)?, work.terminal_of(b)?])).collect();
    look(exercise, stands.collect(), &made)
}

/// Looks for a wiring of an exercise: `stands`: where each end is that stays where it is; `made`: the conductors made up by hand.
fn look(exercise: &Exercise, stands: Vec<Option<TerminalId>>, made: &[[TerminalId; 2]]) -> Wiring {
    let mut search = Search::new(exercise, stands, made);
    let start = search.start();
    let all: Vec<usize> = (0..exercise.controls.len()).filter(|it| search.is_to_do(&start, *it)).collect();
    let has_fan = |it: &usize| exercise.fans.iter().any(|fan| fan.with == exercise.controls[*it].lamp);
    let is_known =
        |control: &usize| exercise.controls[*control].switches.iter().all(|it| !search.roles(*it).is_empty());
    if all.iter().any(has_fan) || !all.iter().all(is_known) {
        return Wiring::Unknown;
    }
    match search.wire_controls(&all, 0, &start) {
        Some(state) => Wiring::Found(state.laid),
        None if search.tried >= STEPS => Wiring::Unknown,
        None => Wiring::Nothing(search.furthest),
    }
}

/// How a switch stands in a chain: terminals towards the supply and towards the lamp, one or two each.
#[derive(Debug, Clone)]
struct Role {
    from: Vec<TerminalId>,
    to: Vec<TerminalId>,
}

/// From the net that begins at one terminal to another terminal.
#[derive(Debug, Clone, Copy)]
struct Goal {
    from: TerminalId,
    to: TerminalId,
    carries: Carries,
}

/// How far the search has come: who owns what, and what is taken.
#[derive(Debug, Clone)]
struct State {
    /// For each cluster the net that it belongs to, named by the cluster where that begins.
    owner: Vec<Option<usize>>,
    /// For each terminal the conductors in it, and mm² of them.
    taken: Vec<(usize, f64)>,
    landed: BTreeSet<EndId>,
    laid: WiringFound,
}

struct Search<'a> {
    exercise: &'a Exercise,
    /// For each terminal and then each conductor, the cluster of what it is joined to from the start.
    cluster: Vec<usize>,
    /// Clusters that a net may pass through only if it begins or ends there: those of switches, lamps and devices.
    reserved: BTreeSet<usize>,
    /// Conductors with an end that is the learner's to connect, protective ones left out.
    open: Vec<usize>,
    /// Where each end is that stays where it is; the others are to be connected, or connected anew.
    stands: Vec<Option<TerminalId>>,
    made: &'a [[TerminalId; 2]],
    tried: usize,
    furthest: usize,
}

impl<'a> Search<'a> {
    fn new(exercise: &'a Exercise, stands: Vec<Option<TerminalId>>, made: &'a [[TerminalId; 2]]) -> Self {
        let terminals = exercise.terminals.len();
        let mut sets = Sets::new(terminals + exercise.conductors.len());
        let is_free = |it: &EndId| stands.get(it.index()).is_none_or(Option::is_none);
        let mut open = Vec::new();
        for (index, conductor) in exercise.conductors.iter().enumerate() {
            for terminal in EndId::of(index).into_iter().filter_map(|it| stands.get(it.index()).copied().flatten()) {
                sets.join(terminal.index(), terminals + index);
            }
            if !conductor.colour.is_protective() && EndId::of(index).iter().any(is_free) {
                open.push(index);
            }
        }
        for [a, b] in made {
            sets.join(a.index(), b.index());
        }
        for (_, [a, b]) in exercise.joins().filter(|it| it.0.is_lasting()) {
            sets.join(a.index(), b.index());
        }
        let cluster: Vec<usize> = (0..sets.count()).map(|it| sets.root(it)).collect();
        let is_reserved = |it: TerminalUse| {
            !matches!(it, TerminalUse::Rose(_) | TerminalUse::Connector(_) | TerminalUse::Block(_)) || it.is_earth()
        };
        let reserved = exercise.terminals.iter().enumerate().filter(|it| is_reserved(it.1.used_by));
        let reserved = reserved.map(|it| cluster[it.0]).collect();
        Self { exercise, cluster, reserved, open, stands, made, tried: 0, furthest: 0 }
    }

    fn start(&self) -> State {
        let mut taken = vec![(0, 0.0); self.exercise.terminals.len()];
        let mut fill = |terminal: TerminalId, size: f64| {
            let (count, mm2): &mut (usize, f64) = &mut taken[terminal.index()];
            (*count, *mm2) = (*count + 1, *mm2 + size);
        };
        for (end, terminal) in self.exercise.start.ids().zip(&self.stands) {
            if let Some((terminal, facts)) = terminal.zip(self.exercise.end_facts(end)) {
                fill(terminal, facts.size.mm2());
            }
        }
        self.made.iter().flatten().for_each(|it| fill(*it, LINK_MM2));
        let mut owner = vec![None; self.cluster.len()];
        for it in self.exercise.devices.iter().flat_map(|it| [it.line, it.neutral]) {
            owner[self.of(it)] = Some(self.of(it));
        }
        State { owner, taken, landed: BTreeSet::new(), laid: WiringFound::default() }
    }

    fn of(&self, terminal: TerminalId) -> usize {
        self.cluster[terminal.index()]
    }

    fn of_conductor(&self, conductor: usize) -> usize {
        self.cluster[self.exercise.terminals.len() + conductor]
    }

    /// Whether a control is the learner's, or lost its neutral when something was taken down and has to get it back.
    fn is_to_do(&self, state: &State, control: usize) -> bool {
        let control = &self.exercise.controls[control];
        let contacts = self.exercise.lamps[control.lamp].contacts;
        self.exercise.is_wired_by_learner(control) || contacts.iter().all(|it| state.owner[self.of(*it)].is_none())
    }

    /// How a switch can stand in a chain, from what its two positions join; none for any other sort of switch.
    fn roles(&self, switch: SwitchId) -> Vec<Role> {
        let it = &self.exercise.switches[switch];
        if it.way.positions() != 2 {
            return Vec::new();
        }
        let [down, up]: [Vec<[TerminalId; 2]>; 2] = [0, 1].map(|at| it.closed(at).collect());
        let mut roles = Vec::new();
        let mut both_ways = |from: Vec<TerminalId>, to: Vec<TerminalId>| {
            roles.push(Role { from: from.clone(), to: to.clone() });
            roles.push(Role { from: to, to: from });
        };
        // Joined in one position alone: the line through it is switched.
        let changes = |all: &[[TerminalId; 2]], other: &[[TerminalId; 2]]| -> Vec<[TerminalId; 2]> {
            all.iter().filter(|it| !other.contains(it)).copied().collect()
        };
        for [a, b] in [changes(&down, &up), changes(&up, &down)].concat() {
            both_ways(vec![a], vec![b]);
        }
        // One terminal that goes over from one to another.
        let turned = |it: &[TerminalId; 2]| [*it, [it[1], it[0]]];
        for [com, x] in down.iter().flat_map(turned) {
            for [other, y] in up.iter().flat_map(turned) {
                if com == other && x != y {
                    both_ways(vec![com], vec![x, y]);
                }
            }
        }
        // Two that are crossed.
        if let ([[a, c], [b, d]], true) = (down.as_slice(), up.len() == 2) {
            let crossed = |from: TerminalId, to: TerminalId| up.contains(&[from, to]) || up.contains(&[to, from]);
            if crossed(*a, *d) && crossed(*b, *c) {
                both_ways(vec![*a, *b], vec![*c, *d]);
            }
        }
        roles
    }

    /// The poles of a switch that opens several together: in one position it joins nothing.
    fn linked_poles(&self, switch: SwitchId) -> Vec<[TerminalId; 2]> {
        let it = &self.exercise.switches[switch];
        let closed: Vec<Vec<[TerminalId; 2]>> = (0..it.way.positions()).map(|at| it.closed(at).collect()).collect();
        let opens = closed.iter().any(Vec::is_empty);
        closed.into_iter().find(|it| opens && it.len() > 1).unwrap_or_default()
    }

    /// Wires the control that is next and, through [`Self::reach`], those after it. Nothing: there is no such wiring, or the bound was met.
    fn wire_controls(&mut self, all: &[usize], next: usize, state: &State) -> Option<State> {
        let Some(number) = all.get(next) else { return Some(state.clone()) };
        self.furthest = self.furthest.max(*number);
        let control = &self.exercise.controls[*number];
        // The learner's own circuits first. A residual current device in front of others feeds no lamp itself.
        let mut devices: Vec<DeviceId> = self.exercise.devices.ids().collect();
        let own = self.exercise.learners_circuits();
        devices.sort_by_key(|it| !own.contains(it));
        devices.retain(|it| !self.exercise.devices.iter().any(|other| other.behind == Some(*it)));
        for device in devices {
            for order in orders(&control.switches) {
                for goals in self.goals(control, device, &order) {
                    if let Some(done) = self.reach(&goals, None, state, (all, next)) {
                        return Some(done);
                    }
                    if self.tried >= STEPS {
                        return None;
                    }
                }
            }
        }
        None
    }

    /// What has to be joined for a control, its switches in an order: one list for each way in which they can stand in it.
    fn goals(&self, control: &Control, device: DeviceId, order: &[SwitchId]) -> Vec<Vec<Goal>> {
        let device = &self.exercise.devices[device];
        let mut chains: Vec<(Vec<Goal>, Vec<TerminalId>)> = vec![(Vec::new(), vec![device.line])];
        for (place, switch) in order.iter().enumerate() {
            let leaves = if place + 1 == order.len() { 1 } else { 2 };
            let mut longer = Vec::new();
            for (goals, from) in &chains {
                for role in self.roles(*switch) {
                    if role.from.len() != from.len() || role.to.len() != leaves {
                        continue;
                    }
                    let carries = if place == 0 { Carries::PermanentLine } else { Carries::Strapper };
                    let joined = from.iter().zip(&role.from).map(|(a, b)| Goal { from: *a, to: *b, carries });
                    longer.push((goals.iter().copied().chain(joined).collect(), role.to));
                }
            }
            chains = longer;
        }
        chains.extend(self.like_to_like(device.line, order));
        let lamp = &self.exercise.lamps[control.lamp];
        let [first, second] = lamp.contacts;
        let ended = |(goals, from): &(Vec<Goal>, Vec<TerminalId>), line: TerminalId, neutral: Vec<Goal>| -> Vec<Goal> {
            let lasts = from.iter().map(|it| Goal { from: *it, to: line, carries: Carries::SwitchedLine });
            goals.iter().copied().chain(lasts).chain(neutral).collect()
        };
        // The neutral straight to the lamp, or through a pole that opens with the line's.
        let neutrals = |at: TerminalId| {
            let goal = |from: TerminalId, to: TerminalId| Goal { from, to, carries: Carries::Neutral };
            let poles = order.iter().flat_map(|it| self.linked_poles(*it));
            let through = poles.flat_map(|[a, b]| [[a, b], [b, a]]);
            let through = through.map(|[a, b]| vec![goal(device.neutral, a), goal(b, at)]);
            std::iter::once(vec![goal(device.neutral, at)]).chain(through).collect::<Vec<_>>()
        };
        let mut all = Vec::new();
        for chain in &chains {
            for [line, at] in [[first, second], [second, first]] {
                all.extend(neutrals(at).into_iter().map(|neutral| ended(chain, line, neutral)));
            }
        }
        all
    }

    /// The other form of it, as three-core cable between two-way switches is joined: like terminal to like, COM to COM, the line on one side
    /// and the lamp on the other. Each with the terminal from which the way goes on to the lamp.
    fn like_to_like(&self, line: TerminalId, order: &[SwitchId]) -> Vec<(Vec<Goal>, Vec<TerminalId>)> {
        let [first, between @ .., last] = order else { return Vec::new() };
        let two_way = |it: SwitchId| self.roles(it).into_iter().find(|it| it.from.len() == 1 && it.to.len() == 2);
        let Some((first, last)) = two_way(*first).zip(two_way(*last)) else { return Vec::new() };
        let crossing = |it: &SwitchId| self.roles(*it).into_iter().find(|it| it.from.len() == 2 && it.to.len() == 2);
        let Some(between) = between.iter().map(crossing).collect::<Option<Vec<_>>>() else { return Vec::new() };
        let goal = |from: TerminalId, to: TerminalId, carries: Carries| Goal { from, to, carries };
        let of = |lamp_side: usize| {
            let mut sides = first.to.clone();
            // COM first, which takes the brown core where all are free.
            let commons = first.from.iter().zip(&last.from);
            let mut goals: Vec<Goal> = commons.map(|(a, b)| goal(*a, *b, Carries::Strapper)).collect();
            goals.push(goal(line, sides[1 - lamp_side], Carries::PermanentLine));
            for it in &between {
                goals.extend(sides.iter().zip(&it.from).map(|(a, b)| goal(*a, *b, Carries::Strapper)));
                sides.clone_from(&it.to);
            }
            for (side, (a, b)) in sides.iter().zip(&last.to).enumerate() {
                let carries = match (between.is_empty(), side == lamp_side) {
                    (false, _) => Carries::Strapper,
                    (true, true) => Carries::SwitchedLine,
                    (true, false) => Carries::PermanentLine,
                };
                goals.push(goal(*a, *b, carries));
            }
            (goals, vec![first.to[lamp_side]])
        };
        vec![of(1), of(0)]
    }

    /// Reaches the goals one after another, and then wires the controls that follow. `from`: the cluster that the way to the first of
    /// them has come to.
    fn reach(
        &mut self,
        goals: &[Goal],
        from: Option<usize>,
        state: &State,
        (all, at): (&[usize], usize),
    ) -> Option<State> {
        let Some((first, others)) = goals.split_first() else { return self.wire_controls(all, at + 1, state) };
        let begin = self.of(first.from);
        let (net, goal) = (begin, self.of(first.to));
        // Where the beginning of a net was joined to another net before, the two are one net.
        let net = state.owner[net].unwrap_or(net);
        if state.owner[goal] == Some(net) || net == goal {
            return self.reach(others, None, state, (all, at));
        }
        if state.owner[goal].is_some() {
            return None;
        }
        let mut state = state.clone();
        state.owner[begin] = Some(net);
        let mut steps = self.steps(&state, net, from, goal);
        // A step that comes to the goal goes first; of two, the one by a terminal that is named for what it carries.
        steps.sort_by_key(|it| (it.to != goal, self.strangeness(it, first.carries)));
        for step in steps {
            self.tried += 1;
            if self.tried >= STEPS {
                return None;
            }
            let mut after = state.clone();
            self.take(&mut after, &step, net, first.carries);
            if let Some(done) = self.reach(goals, Some(step.to), &after, (all, at)) {
                return Some(done);
            }
        }
        None
    }

    /// How far a step is from what the terminal's name says: any of a rose's or a junction box's would do, but a learner who asks is told the
    /// usual one.
    fn strangeness(&self, step: &NetStep, carries: Carries) -> u8 {
        let By::End(_, terminal) = step.by else { return 1 };
        let it = &self.exercise.terminals[terminal];
        let is_usual = match it.used_by {
            TerminalUse::Rose(it) => carries.rose_terminal() == it,
            TerminalUse::Block(number) => {
                let fixed = self.exercise.locations[it.location].kind.fixed();
                let its = fixed.as_ref().and_then(|it| it.terminals.get(usize::from(number)));
                its.is_some_and(|kind| kind.marks.iter().any(|it| it == carries.letters()))
            }
            _ => return 1,
        };
        if is_usual { 0 } else { 2 }
    }

    fn take(&self, state: &mut State, step: &NetStep, net: usize, carries: Carries) {
        let mut fill = |terminal: TerminalId, mm2: f64| {
            let (count, sum) = &mut state.taken[terminal.index()];
            (*count, *sum) = (*count + 1, *sum + mm2);
        };
        match step.by {
            By::End(end, terminal) => {
                fill(terminal, self.size(end));
                state.landed.insert(end);
                state.laid.ends.push((end, terminal));
                state.laid.carries.push(carries);
            }
            By::Link(both) => {
                for it in both {
                    fill(it, LINK_MM2);
                }
                state.laid.links.push((both, carries));
            }
        }
        state.owner[step.to] = Some(net);
    }

    fn size(&self, end: EndId) -> f64 {
        self.exercise.end_facts(end).map_or(0.0, |it| it.size.mm2())
    }

    /// Each way in which a net can take in one more cluster, from the cluster it came to last or from any that it has.
    fn steps(&self, state: &State, net: usize, from: Option<usize>, goal: usize) -> Vec<NetStep> {
        let has = |it: usize| from.map_or(state.owner[it] == Some(net), |from| it == from);
        let may_take = |it: usize| it == goal || state.owner[it].is_none() && !self.reserved.contains(&it);
        let mut steps = Vec::new();
        let mut alike = BTreeSet::new();
        // A core into a terminal of the net's, or one of the net's cores into another terminal.
        for conductor in &self.open {
            let cluster = self.of_conductor(*conductor);
            for end in EndId::of(*conductor).into_iter().filter(|it| self.is_open(state, *it)) {
                let Some(place) = self.place(end) else { continue };
                for terminal in self.exercise.terminals_at(place) {
                    let (there, room) = (self.of(terminal), self.has_room(state, terminal, self.size(end)));
                    let to = if has(there) && may_take(cluster) {
                        cluster
                    } else if has(cluster) && may_take(there) {
                        there
                    } else {
                        continue;
                    };
                    // Cores of one cable that are free at both ends do as well as each other, and so do empty connectors.
                    let whole = EndId::of(*conductor).into_iter().all(|it| self.is_open(state, it));
                    let core = if whole { Err(self.exercise.conductors[*conductor].cable) } else { Ok(*conductor) };
                    let empty = matches!(self.exercise.terminals[terminal].used_by, TerminalUse::Connector(_))
                        && state.taken[terminal.index()].0 == 0;
                    let into = if empty { Err(place) } else { Ok(terminal) };
                    if room && alike.insert((core, into, has(there))) {
                        steps.push(NetStep { to, by: By::End(end, terminal) });
                    }
                }
            }
        }
        // A link to the goal, where both have a terminal.
        for there in self.exercise.terminals.with_ids().filter(|it| self.of(it.0) == goal) {
            let place = there.1.location;
            if !self.exercise.locations[place].kind.has_cover() {
                continue;
            }
            let there = there.0;
            let here = self.exercise.terminals_at(place).find(|it| {
                has(self.of(*it)) && self.has_room(state, *it, LINK_MM2) && self.has_room(state, there, LINK_MM2)
            });
            steps.extend(here.map(|here| NetStep { to: goal, by: By::Link([here, there]) }));
        }
        steps
    }

    /// The place where an end stands, if a cover comes off there.
    fn place(&self, end: EndId) -> Option<LocationId> {
        let place = self.exercise.end_facts(end)?.location;
        self.exercise.opens(place).then_some(place)
    }

    fn is_open(&self, state: &State, end: EndId) -> bool {
        self.stands.get(end.index()).is_none_or(Option::is_none) && !state.landed.contains(&end)
    }

    fn has_room(&self, state: &State, terminal: TerminalId, mm2: f64) -> bool {
        let Capacity { conductors, mm2: most, .. } = self.exercise.terminals[terminal].capacity;
        let (count, sum) = state.taken[terminal.index()];
        count < conductors && sum + mm2 <= most + 1e-9
    }
}

/// What a link is made up from, mm²: a core of the smallest lighting cable.
const LINK_MM2: f64 = 1.0;

#[derive(Debug, Clone, Copy)]
struct NetStep {
    /// The cluster that the net comes to.
    to: usize,
    by: By,
}

#[derive(Debug, Clone, Copy)]
enum By {
    End(EndId, TerminalId),
    Link([TerminalId; 2]),
}

/// Orders of some switches, at most [`ORDERS`]; the order in which they are written comes first.
fn orders(switches: &[SwitchId]) -> Vec<Vec<SwitchId>> {
    let mut all = vec![Vec::new()];
    for _ in switches {
        let longer = all.iter().flat_map(|begun: &Vec<SwitchId>| {
            let others = switches.iter().filter(|it| !begun.contains(it));
            others.map(|it| begun.iter().copied().chain([*it]).collect::<Vec<_>>())
        });
        all = longer.take(ORDERS).collect();
    }
    all
}
