//! The network behind the work: nodes and resistances.

use crate::{
    exercise::{DeviceId, EndId, Exercise, FanId, HiddenFault, Join, LampId, LocationId, SwitchId, TerminalId},
    trade::{
        accessory::{LampKind, PLATE_SCREW_OHMS, SOUND_CONTACT_OHMS, SWITCH_CONTACT_OHMS},
        cable::temperature_factor,
        instrument::{FILAMENT_COLD, continuity::LINK_OHMS},
        supply::{INSULATION_OHMS, NOMINAL_VOLTS, TIE_OHMS},
        workmanship::TRAPPED_OHMS,
    },
    work::{Point, Work},
};

use super::eliminate::{Solution, solve};
use super::joint::contact_ohms;

/// What the network is to be built for.
#[derive(Debug, Clone)]
pub struct Conditions {
    /// A position for each switch.
    pub positions: Vec<u8>,
    /// Which devices are on.
    pub on: Vec<bool>,
    /// Which lamps are in.
    pub lamps_in: Vec<bool>,
    /// Whether plates count as fitted whatever the work says.
    pub all_covered: bool,
    /// Temperature of the conductors, degrees Celsius.
    pub celsius: f64,
    /// A first fault: copper against copper.
    pub fault: Option<(Point, Point)>,
}

/// Conductors at work: the temperature the cable's rating allows (70 °C thermoplastic), which is the worst case.
const AT_WORK_CELSIUS: f64 = 70.0;
/// Conductors when an instrument measures them.
const MEASURED_CELSIUS: f64 = 20.0;

impl Conditions {
    /// Everything on, in and fitted, with the switches set so.
    pub fn complete(exercise: &Exercise, positions: Vec<u8>) -> Self {
        Self {
            positions,
            on: vec![true; exercise.devices.len()],
            lamps_in: vec![true; exercise.lamps.len()],
            all_covered: true,
            celsius: AT_WORK_CELSIUS,
            fault: None,
        }
    }

    /// As the work stands.
    pub fn present(work: &Work) -> Self {
        let exercise = work.exercise();
        Self {
            positions: work.positions().to_vec(),
            on: exercise.devices.ids().map(|it| work.is_on(it)).collect(),
            lamps_in: exercise.lamps.ids().map(|it| work.is_lamp_in(it)).collect(),
            all_covered: false,
            celsius: MEASURED_CELSIUS,
            fault: None,
        }
    }
}

/// What a branch stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// The supply's impedance in the line.
    SupplyLine,
    /// In the neutral.
    SupplyNeutral,
    /// In the earth return.
    SupplyEarth,
    /// A device's pole in the line.
    LinePole(DeviceId),
    /// Its path in the neutral.
    NeutralPole(DeviceId),
    /// A conductor with what its two ends are clamped in, by index.
    Conductor(usize),
    /// A closed switch contact, and which of those that are closed in its position.
    Contact(SwitchId, u8),
    /// A join inside an accessory that has no switch, by its place in the exercise's list.
    Fixed(usize),
    /// A lamp.
    Lamp(LampId),
    /// A fan's motor, between permanent line and neutral.
    Motor(FanId),
    /// The input of a fan's timer, between switched line and neutral.
    Timer(FanId),
    /// A metal plate's screw into its box.
    PlateScrew(LocationId),
    /// Insulation to earth.
    Insulation,
    /// A test link.
    Link,
    /// The first fault.
    Fault,
}

/// A resistance between two nodes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Branch {
    /// One node.
    pub a: usize,
    /// The other.
    pub b: usize,
    /// Ohms, above nothing.
    pub ohms: f64,
    /// What it stands for.
    pub part: Part,
}

/// Nodes and branches. Node 0 is the source's star point, earthed; node 1 its line end.
#[derive(Debug, Clone)]
pub struct Network {
    /// The branches.
    pub branches: Vec<Branch>,
    nodes: Vec<Option<u16>>,
    count: usize,
    /// What a person in the house stands on.
    earth: usize,
}

/// The source's star point.
pub(super) const STAR: usize = 0;
/// The source's line end.
pub(super) const SOURCE: usize = 1;
/// The board's line bar, behind the supply's impedance.
pub(super) const LINE_BAR: usize = 2;
/// The board's neutral bar.
pub(super) const NEUTRAL_BAR: usize = 3;
/// The first node that a terminal or an end may have.
const FIRST: usize = 4;
/// The input of a fan's timer, ohms: about a milliamp, so that it never lights a lamp (an assumption of ours). The motor is
/// taken as running whenever it has its permanent line.
const TIMER_OHMS: f64 = 220_000.0;
/// Length of a link or tail, metres (an assumption of ours).
const MADE_METRES: f64 = 0.15;

impl Network {
    /// The network of a work under given conditions.
    pub fn new(work: &Work, conditions: &Conditions) -> Self {
        Self::build(work, conditions, |switch| {
            let position = usize::from(conditions.positions.get(switch).copied().unwrap_or(0));
            position..position + 1
        })
    }

    /// The network with the contacts of every position in it, for each switch by position; which of them are closed is
    /// for the caller to say.
    pub(super) fn with_every_contact(work: &Work, conditions: &Conditions) -> Self {
        Self::build(work, conditions, |switch| 0..work.exercise().switches.rows()[switch].way.positions())
    }

    /// The same with a first fault, copper against copper.
    pub(super) fn faulted(&self, work: &Work, a: Point, b: Point) -> Self {
        let mut network = self.clone();
        let before = network.count;
        let (a, b) = (network.node(work, a), network.node(work, b));
        network.branch(a, b, SOUND_CONTACT_OHMS, Part::Fault);
        network.insulate(before);
        network
    }

    /// Insulation to earth at every node from one on.
    fn insulate(&mut self, from: usize) {
        for node in from..self.count {
            self.branch(node, STAR, INSULATION_OHMS, Part::Insulation);
        }
    }

    fn build(work: &Work, conditions: &Conditions, closed: impl Fn(usize) -> std::ops::Range<usize>) -> Self {
        let exercise = work.exercise();
        let points = work.point_count();
        let mut network =
            Self { branches: Vec::with_capacity(128), nodes: vec![None; points], count: FIRST, earth: STAR };
        network.supply(exercise, conditions);
        network.conductors(work, conditions);
        network.accessories(work, conditions, closed);
        // What the wiring does when it is all there and closed up is asked without what was only lent to a test.
        for [a, b] in work.links().iter().filter(|_| !conditions.all_covered) {
            let (a, b) = (network.node(work, *a), network.node(work, *b));
            network.branch(a, b, LINK_OHMS, Part::Link);
        }
        if let Some((a, b)) = conditions.fault {
            let (a, b) = (network.node(work, a), network.node(work, b));
            network.branch(a, b, SOUND_CONTACT_OHMS, Part::Fault);
        }
        // Last, because nodes are numbered as they are first used and each needs its insulation.
        network.insulate(FIRST);
        network
    }

    fn supply(&mut self, exercise: &Exercise, conditions: &Conditions) {
        // From the source to the board: the supply, and the distribution circuit where the board is fed from another.
        let ohms = exercise.outside_ohms();
        self.branch(SOURCE, LINE_BAR, ohms.line, Part::SupplyLine);
        let bars: Vec<usize> = exercise.earth_bars().map(|it| self.terminal(it)).collect();
        if exercise.earthing.is_tied() && !exercise.is_tied_at_board() {
            self.tied_at_the_origin(exercise, &bars);
        } else if let Some(first) = bars.first().filter(|_| exercise.is_tied_at_board()) {
            // Neutral and earth are tied ahead of the main switch, so that the earth stays joined with that off. The one conductor of the street
            // is both: it counts as the earth's, and the tie as the neutral's.
            self.earth = *first;
            self.branch(NEUTRAL_BAR, *first, TIE_OHMS, Part::SupplyNeutral);
            self.branch(*first, STAR, ohms.earth, Part::SupplyEarth);
            for it in &bars[1..] {
                self.branch(*it, *first, TIE_OHMS, Part::SupplyEarth);
            }
        } else {
            self.branch(NEUTRAL_BAR, STAR, ohms.neutral, Part::SupplyNeutral);
            for it in &bars {
                self.branch(*it, STAR, ohms.earth, Part::SupplyEarth);
            }
        }
        for (id, device) in exercise.devices.with_ids() {
            let (line, neutral) = (self.terminal(device.line), self.terminal(device.neutral));
            // What comes out of a residual current device is the bars of those behind it.
            let (line_bar, neutral_bar) = match exercise.front_of(device) {
                Some(common) => (self.terminal(common.line), self.terminal(common.neutral)),
                None => (LINE_BAR, NEUTRAL_BAR),
            };
            let on = conditions.on.get(id.index()).copied().unwrap_or(false);
            if on {
                self.branch(line_bar, line, SWITCH_CONTACT_OHMS, Part::LinePole(id));
            }
            // A circuit breaker opens the line alone: its neutral goes straight through.
            if on && device.kind.is_common() {
                self.branch(neutral, neutral_bar, SWITCH_CONTACT_OHMS, Part::NeutralPole(id));
            } else if !device.kind.is_common() {
                self.branch(neutral, neutral_bar, SOUND_CONTACT_OHMS, Part::NeutralPole(id));
            }
        }
    }

    /// Neutral and earth meet at the origin, and each comes to the board by its own conductor of the distribution circuit.
    fn tied_at_the_origin(&mut self, exercise: &Exercise, bars: &[usize]) {
        let (street, own) = (exercise.earthing.ohms().earth, exercise.fed.map_or(TIE_OHMS, |it| it.ohms()));
        let tie = self.count;
        self.count += 1;
        self.earth = tie;
        self.branch(tie, STAR, street, Part::SupplyEarth);
        self.branch(NEUTRAL_BAR, tie, own, Part::SupplyNeutral);
        for it in bars {
            self.branch(*it, tie, own, Part::SupplyEarth);
        }
    }

    fn conductors(&mut self, work: &Work, conditions: &Conditions) {
        let factor = temperature_factor(conditions.celsius);
        let fault = work.exercise().hidden_fault();
        // Half-way along the first of two cores with a fault between them.
        let mut other_middle = None;
        for conductor in 0..work.conductor_count() {
            let ends = EndId::of(conductor);
            let metres = work.cable_of(conductor).map_or(MADE_METRES, |it| it.metres);
            let mut ohms = work.end_facts(ends[0]).size.ohms_per_metre() * metres * factor;
            for end in ends {
                ohms += contact_ohms(work, end);
            }
            let [a, b] = ends.map(|it| self.node(work, work.point_of(it)));
            match fault {
                Some(HiddenFault::Open(core)) if *core == conductor => {}
                Some(HiddenFault::HighResistance { core, ohms: more }) if *core == conductor => {
                    self.branch(a, b, ohms + more, Part::Conductor(conductor));
                }
                Some(HiddenFault::Between { cores, ohms: between }) if cores.contains(&conductor) => {
                    let middle = self.count;
                    self.count += 1;
                    self.branch(a, middle, ohms / 2.0, Part::Conductor(conductor));
                    self.branch(middle, b, ohms / 2.0, Part::Conductor(conductor));
                    match other_middle {
                        Some(other) => self.branch(other, middle, *between, Part::Fault),
                        None => other_middle = Some(middle),
                    }
                }
                _ => self.branch(a, b, ohms, Part::Conductor(conductor)),
            }
            for (node, end) in [a, b].into_iter().zip(ends) {
                if let Some(earth) = work.trapped_against(end) {
                    let earth = self.node(work, earth);
                    self.branch(node, earth, TRAPPED_OHMS, Part::Fault);
                }
            }
        }
    }

    fn accessories(&mut self, work: &Work, conditions: &Conditions, closed: impl Fn(usize) -> std::ops::Range<usize>) {
        let exercise = work.exercise();
        for (join, ends) in exercise.joins() {
            let found = match join {
                Join::Contact { switch, position, pair } => closed(switch.index())
                    .contains(&usize::from(position))
                    .then_some((SWITCH_CONTACT_OHMS, Part::Contact(switch, pair))),
                Join::Fixed(it) => Some((SOUND_CONTACT_OHMS, Part::Fixed(it))),
                Join::Motor(it) => Some((of_load(exercise.fans[it].watts), Part::Motor(it))),
                Join::Timer(it) => Some((TIMER_OHMS, Part::Timer(it))),
                Join::Lamp(it) => {
                    let is_in = conditions.lamps_in.get(it.index()).copied().unwrap_or(false);
                    is_in.then(|| (of_load(exercise.lamps[it].watts), Part::Lamp(it)))
                }
                Join::PlateScrew(it) => {
                    let is_on = conditions.all_covered || work.is_covered(it);
                    is_on.then_some((PLATE_SCREW_OHMS, Part::PlateScrew(it)))
                }
                // With their bars, in the supply; conductors with their ends.
                Join::LinePole(_) | Join::NeutralPole(_) | Join::Conductor(_) | Join::Touching => None,
            };
            // A lampholder is there with no lamp in it.
            let is_there = found.is_some() || matches!(join, Join::Lamp(_) | Join::PlateScrew(_));
            if let Some([a, b]) = is_there.then(|| ends.map(|it| self.terminal(it)))
                && let Some((ohms, part)) = found
            {
                self.branch(a, b, ohms, part);
            }
        }
    }

    fn branch(&mut self, a: usize, b: usize, ohms: f64, part: Part) {
        self.branches.push(Branch { a, b, ohms, part });
    }

    fn terminal(&mut self, terminal: TerminalId) -> usize {
        self.place(terminal.index())
    }

    fn node(&mut self, work: &Work, point: Point) -> usize {
        self.place(work.node(point))
    }

    fn place(&mut self, point: usize) -> usize {
        let count = &mut self.count;
        let mut next = || {
            *count += 1;
            *count as u16 - 1
        };
        usize::from(match self.nodes.get_mut(point) {
            Some(it) => *it.get_or_insert_with(next),
            // A point that is not there is a node that nothing else comes to.
            None => next(),
        })
    }

    /// The node of a point, if anything is joined to it.
    pub fn find(&self, work: &Work, point: Point) -> Option<usize> {
        self.nodes.get(work.node(point)).copied().flatten().map(usize::from)
    }

    /// What a person in the house stands on: earthed metal where the supply ties neutral and earth, which lift together and the
    /// house with them, else the source's star point.
    pub(super) fn earth(&self) -> usize {
        self.earth
    }

    /// Number of nodes.
    pub fn node_count(&self) -> usize {
        self.count
    }

    /// Volts everywhere, with the source at its nominal voltage.
    pub fn solve(&self) -> Solution {
        self.solve_between(STAR, SOURCE, NOMINAL_VOLTS)
    }

    /// Ohms between two nodes as a meter sees them with the source dead: its winding joins line and star, filaments are
    /// cold and LEDs open. Infinite when only insulation joins them.
    pub fn ohms_between(&self, work: &Work, a: usize, b: usize) -> f64 {
        /// The winding of the source (an assumption of ours).
        const WINDING_OHMS: f64 = 0.01;
        /// Above this there is only insulation, ohms.
        const OPEN_OHMS: f64 = 1.0e6;
        if a == b {
            return 0.0;
        }
        let lamps = &work.exercise().lamps;
        let branches = self.branches.iter().filter_map(|it| match it.part {
            Part::Lamp(lamp) => match lamps[lamp].kind {
                LampKind::Filament => Some((it.a, it.b, 1.0 / (it.ohms * FILAMENT_COLD))),
                LampKind::Led => None,
            },
            // Electronics, as an LED has.
            Part::Timer(_) => None,
            _ => Some((it.a, it.b, 1.0 / it.ohms)),
        });
        let all = branches.chain([(SOURCE, STAR, 1.0 / WINDING_OHMS)]);
        // Seen from a node with only the other held, the resistance behind it is what lies between them.
        let ohms = solve(self.count + 1, [b, self.count], 0.0, all).ohms_behind(a);
        if ohms < OPEN_OHMS { ohms } else { f64::INFINITY }
    }

    fn solve_between(&self, low: usize, high: usize, volts: f64) -> Solution {
        solve(self.count, [low, high], volts, self.branches.iter().map(|it| (it.a, it.b, 1.0 / it.ohms)))
    }

    /// The branch that stands for a part.
    pub fn part(&self, part: Part) -> Option<&Branch> {
        self.branches.iter().find(|it| it.part == part)
    }
}

/// Ohms of a load of this rating, watts, at nominal voltage.
fn of_load(watts: f64) -> f64 {
    NOMINAL_VOLTS * NOMINAL_VOLTS / watts
}

impl Branch {
    /// Current from `a` to `b`, amps.
    pub fn amps(&self, solution: &Solution) -> f64 {
        solution.across(self.a, self.b) / self.ohms
    }

    /// Voltage of `a` against `b`, volts.
    pub fn volts(&self, solution: &Solution) -> f64 {
        solution.across(self.a, self.b)
    }
}
