//! Where the tester's probes go next: the readings that a test stage still needs, as function, leads and points.
//!
//! It offers one way to take each; the learner may take another. What counts as read is [`super::Testing`]'s to say.

use super::{
    log::Attempt,
    safety::settings_to_predict,
    testing::{Key, Side, TestPart},
};
use crate::{
    exercise::{DeviceId, LocationId, Sets, Stage},
    trade::{
        colour::Colour,
        instrument::{Function, LeadLength, insulation::TestVolts, loop_impedance, rcd},
    },
    work::{Action, Point, Test, Work},
};

/// One reading to take.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToRead {
    /// The circuit that it belongs to.
    pub circuit: DeviceId,
    /// Function and range.
    pub function: Function,
    /// The leads to take it with.
    pub lead: LeadLength,
    /// Whether line and cpc are to be linked at the board for it.
    pub linked: bool,
    /// How the switches stand for it.
    pub positions: Vec<u8>,
    /// Where the two probes go; `None`: the reading is taken at the origin.
    pub points: Option<[Point; 2]>,
}

impl ToRead {
    /// The reading as an action.
    pub fn action(&self, work: &Work) -> Action {
        match (self.points, self.function) {
            (Some(points), function) => {
                let [a, b] = points.map(|it| work.point_address(it));
                Action::Measure { function, lead: self.lead, a, b }
            }
            (None, Function::Loop(range)) => Action::ReadOrigin { range },
            (None, _) => Action::ReadOrigin { range: loop_impedance::Range::NoTrip },
        }
    }
}

/// The readings that a stage still needs, those for the present setting of the switches first. A reading for which the work
/// has no point to touch (a cpc that is not there) is left out.
pub fn readings_to_take(attempt: &Attempt, stage: Stage) -> Vec<ToRead> {
    let (work, testing) = (attempt.work(), attempt.safety().testing());
    let mut found: Vec<ToRead> = match stage {
        Stage::Polarity => polarity(attempt),
        _ => testing.readings_left(stage).into_iter().filter_map(|it| to_read(work, it)).collect(),
    };
    found.sort_by_key(|it| it.positions != work.positions());
    found
}

fn to_read(work: &Work, (test, circuit, spot): Key) -> Option<ToRead> {
    if test == Test::ZsSum {
        return Some(at_the_origin(work, circuit));
    }
    let device = &work.exercise().devices[circuit];
    let (line, neutral) = (Point::Terminal(device.line), Point::Terminal(device.neutral));
    let bar = work.exercise().earth_bars().next().map(Point::Terminal)?;
    let mut positions = work.positions().to_vec();
    let place = match spot {
        TestPart::At(it) => Some(it),
        _ => None,
    };
    if let TestPart::With(switch, position) = spot {
        positions[switch.index()] = position;
    }
    let earth_at_place = || place.and_then(|it| earth_at(work, it));
    // Where line comes to a place only by way of a switch, that switch is set for it.
    let mut line_at_place = || {
        let (setting, point) = line_at(work, circuit, place?)?;
        positions = setting;
        Some(point)
    };
    let insulation = Function::Insulation(TestVolts::V500);
    let (function, a, b) = match (test, spot) {
        (Test::R1R2, _) => (Function::Continuity, line_at_place()?, earth_at_place()?),
        (Test::R2, _) => (Function::Continuity, bar, earth_at_place()?),
        (Test::InsulationLineNeutral, _) => (insulation, line, neutral),
        (Test::InsulationLineEarth, _) => (insulation, line, bar),
        (Test::InsulationNeutralEarth, _) => (insulation, neutral, bar),
        (Test::SupplyPolarity, TestPart::Between(a, b)) => {
            let of = |side| match side {
                Side::Line => line,
                Side::Neutral => neutral,
                Side::Earth => bar,
            };
            (Function::Voltage, of(a), of(b))
        }
        (Test::Zs, _) => (Function::Loop(loop_impedance::Range::NoTrip), line_at_place()?, earth_at_place()?),
        (Test::ZdbSum, _) => (Function::Loop(loop_impedance::Range::NoTrip), line, bar),
        (Test::ResidualDevice, _) => (Function::Rcd(rcd::Test::Rated), line, bar),
        (Test::ZsSum | Test::Polarity | Test::SupplyPolarity, _) => return None,
    };
    let lead = if test == Test::R2 { LeadLength::Long } else { LeadLength::Short };
    Some(ToRead { circuit, function, lead, linked: test == Test::R1R2, positions, points: Some([a, b]) })
}

fn at_the_origin(work: &Work, circuit: DeviceId) -> ToRead {
    let function = Function::Loop(loop_impedance::Range::NoTrip);
    let positions = work.positions().to_vec();
    ToRead { circuit, function, lead: LeadLength::Short, linked: false, positions, points: None }
}

/// From the device's line to the lamp by the long lead, in each setting.
fn polarity(attempt: &Attempt) -> Vec<ToRead> {
    let work = attempt.work();
    let exercise = work.exercise();
    let settings = attempt.safety().testing().settings_left(exercise);
    let read = settings.into_iter().filter_map(|(control, setting)| {
        let circuit = attempt.safety().testing().circuit_of(control)?;
        let control = &exercise.controls[control];
        let mut positions = work.positions().to_vec();
        for (switch, position) in control.switches.iter().zip(setting) {
            positions[switch.index()] = position;
        }
        let neutral = Point::Terminal(exercise.devices[circuit].neutral);
        let mut live = work.joined_by(|it: Colour| !it.is_protective());
        let contacts = exercise.lamps[control.lamp].contacts.map(Point::Terminal);
        let b = contacts.into_iter().find(|it| !live.same(work.node(*it), work.node(neutral)))?;
        let a = Point::Terminal(exercise.devices[circuit].line);
        let (function, lead) = (Function::Continuity, LeadLength::Long);
        Some(ToRead { circuit, function, lead, linked: false, positions, points: Some([a, b]) })
    });
    read.collect()
}

/// A point at a place that is earthed.
fn earth_at(work: &Work, place: LocationId) -> Option<Point> {
    work.ends_at(place).map(|it| work.point_of(it)).find(|it| work.is_earthed(*it))
}

/// A point at a place that is the circuit's line, and the switch settings for it: the present ones if they will do.
fn line_at(work: &Work, circuit: DeviceId, place: LocationId) -> Option<(Vec<u8>, Point)> {
    let exercise = work.exercise();
    let outgoing = exercise.devices[circuit].line.index();
    let find = |groups: &mut Sets| {
        let mut points = work.ends_at(place).map(|it| work.point_of(it));
        points.find(|it| groups.same(work.node(*it), outgoing))
    };
    let now = work.positions().to_vec();
    if let Some(it) = find(&mut work.joined_by(|it: Colour| !it.is_protective())) {
        return Some((now, it));
    }
    let mut settings = std::iter::once(now).chain(settings_to_predict(exercise));
    settings.find_map(|it| find(&mut work.joined_as_set(&it)).map(|point| (it, point)))
}
