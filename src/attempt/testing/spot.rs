//! Which test of which circuit a reading belongs to, from where the probes are, how the links lie and what is measured.

use std::collections::BTreeSet;

use crate::{
    circuit::Meter,
    exercise::{Control, DeviceId, Exercise, LocationId, Sets, Stage, SwitchId, Table},
    trade::{
        colour::Colour,
        instrument::{Function, LeadLength, rcd},
    },
    work::{Point, Test, Work},
};

/// What a test asks for: which test, which circuit, and which part of it.
pub type Key = (Test, DeviceId, TestPart);

/// The part of a test that one reading does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TestPart {
    /// All of it.
    Whole,
    /// At a place.
    At(LocationId),
    /// With a switch in a position.
    With(SwitchId, u8),
    /// Between two of line, neutral and earth.
    Between(Side, Side),
}

/// What a point is of a circuit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// Joined by conductors to the outgoing line of its device; to a live test and to insulation also through switches that
    /// are closed.
    Line,
    /// Joined by conductors to the neutral of its device.
    Neutral,
    /// Joined by protective conductors to the earth bar.
    Earth,
}

/// The pairs in which line, neutral and earth are tested.
pub const PAIRS: [(Side, Side); 3] =
    [(Side::Line, Side::Neutral), (Side::Line, Side::Earth), (Side::Neutral, Side::Earth)];

/// The places of a circuit where R1+R2 or R2 is read: those of the learner's with a cpc and another conductor.
pub fn places(exercise: &Exercise, reaching: &Table<LocationId, Vec<DeviceId>>, circuit: DeviceId) -> Vec<LocationId> {
    let ends_at = |place: LocationId, protective: bool| {
        exercise.runs.iter().any(|it| it.between.contains(&place))
            || exercise.conductors.iter().any(|it| {
                let cable = &exercise.cables[it.cable];
                cable.between.contains(&place) && it.colour.is_protective() == protective
            })
    };
    exercise
        .learners_places()
        .into_iter()
        .filter(|it| reaching[*it].contains(&circuit) && !exercise.is_board(*it))
        .filter(|it| ends_at(*it, true) && ends_at(*it, false))
        .collect()
}

/// Controls of a circuit that the learner wires, by index.
pub fn controls(exercise: &Exercise, reaching: &Table<LocationId, Vec<DeviceId>>, circuit: DeviceId) -> Vec<usize> {
    let of = |it: &Control| {
        it.switches.iter().any(|switch| {
            let place = exercise.switches[*switch].location;
            reaching[place].contains(&circuit)
        })
    };
    let wired = exercise.controls.iter().enumerate().filter(|(_, it)| exercise.is_wired_by_learner(it) && of(it));
    wired.map(|(index, _)| index).collect()
}

/// What insulation of a circuit needs: tests, and the parts of each.
pub type Insulation = BTreeSet<(Test, TestPart)>;

/// What the circuit of these controls needs: every switch in every position that closes something. Neutral to earth is as it is
/// however the line is switched, so that for it only switches of more than one pole count.
pub fn insulation_of(exercise: &Exercise, controls: &[usize]) -> Insulation {
    let switches: BTreeSet<SwitchId> =
        controls.iter().flat_map(|it| exercise.controls[*it].switches.iter().copied()).collect();
    let closing = |test: Test| {
        let least = if test == Test::InsulationNeutralEarth { 2 } else { 1 };
        let of = |switch: SwitchId| {
            let way = exercise.switches[switch].way;
            (0..way.positions()).filter(move |it| way.joins(*it).len() >= least).map(move |it| (switch, it as u8))
        };
        switches.iter().copied().flat_map(of).map(|(switch, it)| TestPart::With(switch, it)).collect::<Vec<_>>()
    };
    let tests = [Test::InsulationLineNeutral, Test::InsulationLineEarth, Test::InsulationNeutralEarth];
    let spots = |test| match closing(test) {
        none if none.is_empty() => vec![(test, TestPart::Whole)],
        some => some.into_iter().map(|it| (test, it)).collect(),
    };
    tests.into_iter().flat_map(spots).collect()
}

/// Looks at a work as it stands, for one reading.
pub struct Sides<'w> {
    work: &'w Work,
    live: Sets,
    closed: Sets,
}

impl<'w> Sides<'w> {
    /// At a work as it stands.
    pub fn new(work: &'w Work) -> Self {
        Self {
            work,
            live: work.joined_by(|it: Colour| !it.is_protective()),
            closed: work.joined_as_set(work.positions()),
        }
    }

    /// What a point is of a circuit.
    pub fn side(&mut self, circuit: DeviceId, point: Point) -> Option<Side> {
        side_in(&mut self.live, self.work, circuit, point)
    }

    /// Whether conductors other than protective ones join two points.
    pub fn is_joined(&mut self, a: Point, b: Point) -> bool {
        self.live.same(self.work.node(a), self.work.node(b))
    }

    /// Whether line and cpc of a circuit are linked.
    pub fn is_linked(&mut self, circuit: DeviceId) -> bool {
        let links = self.work.links().to_vec();
        links.into_iter().any(|it| {
            let sides = it.map(|point| self.side(circuit, point));
            sides.contains(&Some(Side::Line)) && sides.contains(&Some(Side::Earth))
        })
    }

    /// The pair between two points as the switches stand, in the order of [`PAIRS`]: behind a closed switch line is still line.
    fn pair(&mut self, circuit: DeviceId, a: Point, b: Point) -> Option<(Side, Side)> {
        let [a, b] = [a, b].map(|it| side_in(&mut self.closed, self.work, circuit, it));
        let (a, b) = (a?, b?);
        (a != b).then(|| (a.min(b), a.max(b)))
    }

    /// The parts of tests that a reading between two points does for a circuit. `spots` are what its insulation needs.
    pub fn keys(&mut self, circuit: DeviceId, meter: Meter, [a, b]: [Point; 2], spots: &Insulation) -> Vec<Key> {
        let exercise = self.work.exercise();
        let place = |it| self.work.point_location(it);
        let (at_a, at_b) = (place(a), place(b));
        let away = [at_a, at_b].into_iter().find(|it| !exercise.is_board(*it));
        match meter.function {
            Function::Continuity => self.continuity(circuit, meter, [a, b]).into_iter().collect(),
            Function::Insulation(_) => {
                let Some(test) = self.insulation(circuit, [a, b]) else { return Vec::new() };
                let now = |it: &TestPart| match it {
                    TestPart::With(switch, position) => self.work.positions()[switch.index()] == *position,
                    _ => true,
                };
                let spots = spots.iter().filter(|it| it.0 == test && now(&it.1));
                spots.map(|it| (test, circuit, it.1)).collect()
            }
            Function::Voltage | Function::Indicator => {
                let pair = self.pair(circuit, a, b);
                pair.map(|(a, b)| (Test::SupplyPolarity, circuit, TestPart::Between(a, b))).into_iter().collect()
            }
            Function::Loop(_) if self.pair(circuit, a, b) == Some((Side::Line, Side::Earth)) => {
                // At a board's outgoing terminal, with the earthing conductor on, it is Zdb.
                vec![away.map_or((Test::ZdbSum, circuit, TestPart::Whole), |it| (Test::Zs, circuit, TestPart::At(it)))]
            }
            Function::Rcd(rcd::Test::Rated) if self.pair(circuit, a, b) == Some((Side::Line, Side::Earth)) => {
                vec![(Test::ResidualDevice, circuit, TestPart::Whole)]
            }
            Function::Loop(_) | Function::Rcd(_) => Vec::new(),
        }
    }

    /// The insulation test for which two points are a pair.
    pub fn insulation(&mut self, circuit: DeviceId, [a, b]: [Point; 2]) -> Option<Test> {
        Some(match self.pair(circuit, a, b)? {
            (Side::Line, Side::Neutral) => Test::InsulationLineNeutral,
            (Side::Line, _) => Test::InsulationLineEarth,
            _ => Test::InsulationNeutralEarth,
        })
    }

    fn continuity(&mut self, circuit: DeviceId, meter: Meter, points: [Point; 2]) -> Option<Key> {
        let earthed = points.map(|it| self.work.is_earthed(it));
        let bar = points.map(|it| self.work.is_earth_bar(it));
        let linked = self.is_linked(circuit);
        match (earthed, bar) {
            // From the earth bar by the long lead to a cpc somewhere else.
            ([true, true], [true, false] | [false, true]) if !linked && meter.lead == LeadLength::Long => {
                let cpc = points[usize::from(bar[0])];
                Some((Test::R2, circuit, TestPart::At(self.work.point_location(cpc))))
            }
            ([true, false] | [false, true], _) if linked => {
                let (earth, live) = if earthed[0] { (points[0], points[1]) } else { (points[1], points[0]) };
                let here = self.work.point_location(live);
                let holds_neutral = self.side(circuit, live) == Some(Side::Neutral);
                (here == self.work.point_location(earth) && !holds_neutral).then_some((
                    Test::R1R2,
                    circuit,
                    TestPart::At(here),
                ))
            }
            _ => None,
        }
    }
}

/// Which side of a circuit a point is on, by what is joined.
fn side_in(joined: &mut Sets, work: &Work, circuit: DeviceId, point: Point) -> Option<Side> {
    let device = &work.exercise().devices[circuit];
    let node = work.node(point);
    if joined.same(node, device.line.index()) {
        Some(Side::Line)
    } else if joined.same(node, device.neutral.index()) {
        Some(Side::Neutral)
    } else {
        work.is_earthed(point).then_some(Side::Earth)
    }
}

/// The stage that a test belongs to.
pub const fn stage_of(test: Test) -> Stage {
    match test {
        Test::R1R2 | Test::R2 => Stage::Continuity,
        Test::InsulationLineNeutral | Test::InsulationLineEarth | Test::InsulationNeutralEarth => Stage::Insulation,
        Test::Polarity => Stage::Polarity,
        Test::SupplyPolarity => Stage::SupplyPolarity,
        Test::Zs | Test::ZsSum | Test::ZdbSum => Stage::LoopImpedance,
        Test::ResidualDevice => Stage::ResidualDevice,
    }
}
