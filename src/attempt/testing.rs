//! The tests of the finished work and the sheet they are written on: what has been read, what each stage still needs.
//!
//! What is needed is worked out from the exercise: its circuits, places and switches. A reading belongs to the tests that
//! its probes, links and function make it one of ([`spot`]). Handwork at a place takes back every reading and every line of
//! the sheet of the circuits that reach it, live ones too: whatever was touched is tested again.

mod circuit;
mod figure;
mod result;
mod spot;

use std::collections::{BTreeMap, BTreeSet};

pub use figure::{Sign, Written};
pub use spot::{Key, PAIRS, Side, TestPart, stage_of};

use super::{format::Format, safety::settings_of};
use crate::{
    circuit::Meter,
    exercise::{DeviceId, Exercise, LocationId, Outside, Stage, Table},
    trade::instrument::{Function, LeadLength, Shown, insulation::TestVolts},
    work::{Point, Source, Test, Work},
};
use circuit::Circuit;
use spot::Sides;

/// Below this resistance, ohms, a continuity reading says joined, above it open: a lighting circuit reads a few ohms at most, and an
/// open one goes off the scale (an assumption of ours).
pub(super) const JOINED_OHMS: f64 = 100.0;

/// How the loop impedance of a circuit is found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Zs {
    /// Read at a place of it through its plate, as format 1 has it; there Ze and Zdb are not told apart.
    AtPlaces,
    /// As the sum of R1+R2 and what is outside the circuit.
    Sum {
        /// What is outside it.
        of: Outside,
        /// Whether that is on the supervisor's card.
        on_card: bool,
        /// Whether it can be read as well, at a socket-outlet: with every plate on, it can be read nowhere else.
        at_outlets: bool,
    },
}

impl Zs {
    fn of(exercise: &Exercise, format: Format) -> Self {
        if format.has_closed_plates() {
            Self::Sum {
                of: exercise.outside(),
                on_card: exercise.card().is_some(),
                at_outlets: exercise.outlets().next().is_some(),
            }
        } else {
            Self::AtPlaces
        }
    }

    /// Its line of the test sheet.
    const fn line(self) -> Test {
        match self {
            Self::AtPlaces => Test::Zs,
            Self::Sum { of, .. } => Test::sum_with(of),
        }
    }

    /// Whether it can be read.
    const fn is_readable(self) -> bool {
        matches!(self, Self::AtPlaces | Self::Sum { at_outlets: true, .. })
    }
}

/// A reading as it is kept for its test.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Kept {
    /// What was shown.
    pub shown: Shown,
    /// Whether the instrument was set as the test asks: leads nulled, 500 V.
    pub well_set: bool,
    /// Which action of the log.
    pub action: usize,
}

/// Where a line of the test sheet says that its Ze or Zdb is from, and whether that is so.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Claim {
    /// The source as the learner gave it.
    pub source: Source,
    /// Whether the figure is what another source gives, or the same by its other name: Ze for Zdb.
    pub elsewhere: bool,
}

/// A line of the test sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SheetLine {
    /// The figure as written, where the test has one.
    pub written: Option<Written>,
    /// Whether the learner found it acceptable.
    pub accepted: bool,
    /// What it says of the source of its Ze or Zdb.
    pub claim: Claim,
    /// What the readings taken by then come to; `None`: it was never read.
    pub shown: Option<Shown>,
    /// Whether a reading had been taken by then that does not count, for how the circuit stood.
    pub tried: bool,
    /// For a test without a figure: whether what was read by then was as it should be.
    pub sound: bool,
    /// Which action of the log.
    pub action: usize,
}

/// Where the tests stand. Folded from the log, never undone.
#[derive(Debug, Clone)]
pub struct Testing {
    circuits: Vec<Circuit>,
    zs: Zs,
    nulled: BTreeSet<LeadLength>,
    inspected: BTreeSet<LocationId>,
    readings: BTreeMap<Key, Kept>,
    joined: BTreeMap<(usize, Vec<u8>), bool>,
    sheet: BTreeMap<(Test, DeviceId), SheetLine>,
    /// Tests for which a reading was taken that does not count, for how the circuit stood.
    tried: BTreeSet<(Test, DeviceId)>,
    early: BTreeMap<Stage, usize>,
    voided: BTreeSet<Stage>,
}

impl Testing {
    pub(super) fn new(exercise: &Exercise, reaching: &Table<LocationId, Vec<DeviceId>>, format: Format) -> Self {
        Self {
            zs: Zs::of(exercise, format),
            circuits: exercise.learners_circuits().into_iter().map(|it| Circuit::new(exercise, reaching, it)).collect(),
            nulled: BTreeSet::new(),
            inspected: BTreeSet::new(),
            readings: BTreeMap::new(),
            joined: BTreeMap::new(),
            sheet: BTreeMap::new(),
            tried: BTreeSet::new(),
            early: BTreeMap::new(),
            voided: BTreeSet::new(),
        }
    }

    /// How the tester would be set for a reading.
    pub fn meter(&self, function: Function, lead: LeadLength) -> Meter {
        Meter { function, lead, nulled: self.nulled.contains(&lead) }
    }

    /// The circuits to be tested.
    pub fn circuits(&self) -> impl Iterator<Item = DeviceId> + '_ {
        self.circuits.iter().map(|it| it.device)
    }

    /// The circuit that a control (by index) is tested with.
    pub fn circuit_of(&self, control: usize) -> Option<DeviceId> {
        self.circuits.iter().find(|it| it.controls.contains(&control)).map(|it| it.device)
    }

    /// Lines of the test sheet.
    pub fn sheet(&self) -> impl Iterator<Item = (Test, DeviceId, &SheetLine)> {
        self.sheet.iter().map(|((test, at), it)| (*test, *at, it))
    }

    /// Readings that stand, by what they are for.
    pub fn readings(&self) -> impl Iterator<Item = (&Key, &Kept)> {
        self.readings.iter()
    }

    /// Stages begun before one that comes first, with the action that began them. Where one was left out
    /// for good the finding is that it is missing, not that what came after was early.
    pub fn early(&self, exercise: &Exercise) -> impl Iterator<Item = (Stage, usize)> {
        let read = |it: Stage| !exercise.asks(it) || self.is_read(exercise, it);
        self.early.iter().filter(move |it| before(*it.0).all(read)).map(|(stage, action)| (*stage, *action))
    }

    /// Whether later handwork took back what had been read for a stage.
    pub fn is_voided(&self, stage: Stage) -> bool {
        self.voided.contains(&stage)
    }

    /// Whether a reading was taken for a stage that does not count, for how the circuit stood: a switch open, a lamp in, no link.
    pub fn is_tried(&self, stage: Stage) -> bool {
        self.tried.iter().any(|it| stage_of(it.0) == stage)
    }

    /// Places still to be inspected.
    pub fn inspections_left(&self, exercise: &Exercise) -> Vec<LocationId> {
        exercise.learners_places().into_iter().filter(|it| !self.inspected.contains(it)).collect()
    }

    /// Readings that a test stage still needs. Where either of two tests will do (R2 for R1+R2, Ze and R1+R2 for Zs)
    /// those of the one begun, else of the first. The polarity stage needs settings of controls: [`Self::settings_left`].
    pub fn readings_left(&self, stage: Stage) -> Vec<Key> {
        self.circuits.iter().flat_map(|it| self.left_of(it, stage)).collect()
    }

    fn left_of(&self, circuit: &Circuit, stage: Stage) -> Vec<Key> {
        let device = circuit.device;
        let has = |it: &Key| self.readings.contains_key(it);
        let missing = |wanted: Vec<Key>| wanted.into_iter().filter(|it| !has(it)).collect::<Vec<_>>();
        let at_places =
            |test: Test| circuit.places.iter().map(|it| (test, device, TestPart::At(*it))).collect::<Vec<_>>();
        match stage {
            Stage::Continuity => {
                let (both, alone) = (missing(at_places(Test::R1R2)), missing(at_places(Test::R2)));
                if alone.len() < both.len() { alone } else { both }
            }
            Stage::Insulation => missing(circuit.insulation.iter().map(|(test, it)| (*test, device, *it)).collect()),
            Stage::SupplyPolarity => {
                missing(PAIRS.map(|(a, b)| (Test::SupplyPolarity, device, TestPart::Between(a, b))).to_vec())
            }
            Stage::LoopImpedance => {
                let sums = [Test::ZsSum, Test::ZdbSum];
                let from_card = sums.iter().any(|it| self.is_from_card(*it, device));
                let summed = sums.iter().any(|it| has(&(*it, device, TestPart::Whole)));
                let any = from_card || summed || at_places(Test::Zs).iter().any(has);
                let first = match self.zs {
                    Zs::AtPlaces => at_places(Test::Zs).into_iter().next(),
                    Zs::Sum { on_card: false, of, .. } => Some((Test::sum_with(of), device, TestPart::Whole)),
                    Zs::Sum { on_card: true, .. } => None,
                };
                first.into_iter().filter(|_| !any).collect()
            }
            Stage::ResidualDevice if circuit.has_residual => {
                missing(vec![(Test::ResidualDevice, device, TestPart::Whole)])
            }
            _ => Vec::new(),
        }
    }

    /// Settings of controls in which polarity by continuity is still to be read.
    pub fn settings_left(&self, exercise: &Exercise) -> Vec<(usize, Vec<u8>)> {
        let all = self.circuits.iter().flat_map(|it| it.controls.iter());
        let settings = all.flat_map(|it| settings_of(exercise, *it).into_iter().map(move |setting| (*it, setting)));
        settings.filter(|it| !self.joined.contains_key(it)).collect()
    }

    /// Whether a test may have a line on the sheet: what is outside the circuits has one name at a board.
    pub fn has_line(&self, test: Test) -> bool {
        match (test, self.zs) {
            (Test::Zs, zs) => zs.is_readable(),
            (Test::ZsSum | Test::ZdbSum, Zs::Sum { of, .. }) => test == Test::sum_with(of),
            (Test::ZdbSum, Zs::AtPlaces) => false,
            _ => true,
        }
    }

    /// Lines of the sheet that a stage still needs, each by its test and its circuit.
    pub fn lines_left(&self, stage: Stage) -> Vec<(Test, DeviceId)> {
        self.circuits.iter().flat_map(|it| self.lines_left_of(it, stage)).collect()
    }

    fn lines_left_of(&self, circuit: &Circuit, stage: Stage) -> Vec<(Test, DeviceId)> {
        let has = |test: &Test| {
            let stands = self.sheet.contains_key(&(*test, circuit.device));
            stands && (*test != Test::Zs || self.zs.is_readable())
        };
        let tests: Vec<Test> = match stage {
            Stage::ResidualDevice if !circuit.has_residual => Vec::new(),
            _ => Test::ALL.iter().copied().filter(|it| stage_of(*it) == stage).collect(),
        };
        // Of two tests either of which will do, one line is enough.
        let alike = matches!(stage, Stage::Continuity | Stage::LoopImpedance);
        let wanted: Vec<Test> = match (alike, tests.iter().any(has)) {
            (true, true) => Vec::new(),
            (true, false) => vec![if stage == Stage::Continuity { Test::R1R2 } else { self.zs.line() }],
            (false, _) => tests.into_iter().filter(|it| !has(it)).collect(),
        };
        wanted.into_iter().map(|it| (it, circuit.device)).collect()
    }

    /// Whether everything that a stage needs has been read, written down or not.
    pub fn is_read(&self, exercise: &Exercise, stage: Stage) -> bool {
        match stage {
            Stage::Inspection => self.inspections_left(exercise).is_empty(),
            Stage::Polarity => self.settings_left(exercise).is_empty(),
            _ => self.readings_left(stage).is_empty(),
        }
    }

    /// Whether a stage is done: read, and written down.
    pub fn is_done(&self, exercise: &Exercise, stage: Stage) -> bool {
        self.is_read(exercise, stage) && self.lines_left(stage).is_empty()
    }

    pub(super) fn inspect(&mut self, location: LocationId) {
        self.inspected.insert(location);
    }

    /// The leads are nulled from here on; what was read with their resistance in it must be read again.
    pub(super) fn null(&mut self, lead: LeadLength) {
        if self.nulled.insert(lead) {
            self.readings.retain(|(test, ..), it| it.well_set || stage_of(*test) != Stage::Continuity);
        }
    }

    /// Keeps a reading for every test it belongs to.
    pub(super) fn note(&mut self, work: &Work, meter: Meter, points: [Point; 2], shown: Shown, action: usize) {
        let exercise = work.exercise();
        let mut look = Sides::new(work);
        let well_set = match meter.function {
            Function::Continuity => meter.nulled,
            Function::Insulation(volts) => volts == TestVolts::V500,
            _ => true,
        };
        for index in 0..self.circuits.len() {
            let device = self.circuits[index].device;
            // A live test on a circuit that is off does not count.
            if meter.function.is_live() && !work.is_on(device) {
                continue;
            }
            let mut keys = look.keys(device, meter, points, &self.circuits[index].insulation);
            for it in keys.iter_mut().filter(|it| it.0 == Test::ZdbSum && self.zs == Zs::AtPlaces) {
                it.0 = Test::ZsSum;
            }
            // A loop read from one place to another is the loop of neither.
            let [here, there] = points.map(|point| work.point_location(point));
            if self.zs != Zs::AtPlaces && here != there {
                let is_zs = |key: &Key| key.0 == Test::Zs;
                self.tried.extend(keys.iter().filter(|key| is_zs(key)).map(|_| (Test::Zs, device)));
                keys.retain(|key| !is_zs(key));
            }
            if matches!(meter.function, Function::Insulation(_)) && keys.is_empty() {
                self.tried.extend(look.insulation(device, points).map(|it| (it, device)));
            }
            self.tried.extend(keys.iter().filter(|it| !is_kept(it.0, &shown)).map(|it| (it.0, device)));
            for key in keys.into_iter().filter(|it| is_kept(it.0, &shown)) {
                self.note_order(exercise, index, stage_of(key.0), action);
                let now = Kept { shown, well_set, action };
                self.readings.entry(key).and_modify(|it| *it = later(key.0, *it, now)).or_insert(now);
            }
        }
        if meter.function == Function::Continuity && !matches!(shown, Shown::Refused(_)) {
            let low = matches!(shown, Shown::Figure(it) if it.value() < JOINED_OHMS);
            self.note_joined(work, &mut look, points, low);
        }
    }

    /// Keeps a reading at the origin: Ze, for every circuit of a board that stands there, if everything was as Ze asks.
    pub(super) fn note_origin(&mut self, work: &Work, shown: Shown, action: usize) {
        let is_ze = work.is_ready_for_ze() && work.exercise().outside() == Outside::Ze;
        for device in self.circuits.iter().map(|it| it.device) {
            if is_ze && is_kept(Test::ZsSum, &shown) {
                self.readings.insert((Test::ZsSum, device, TestPart::Whole), Kept { shown, well_set: true, action });
            } else {
                self.tried.insert((Test::ZsSum, device));
            }
        }
    }

    /// A continuity reading from what comes straight from a device's line (or from its cpc, the two being linked) to what
    /// goes straight to a contact of a control's lamp, the lamp out, says whether the switches join them as they stand.
    fn note_joined(&mut self, work: &Work, look: &mut Sides<'_>, points: [Point; 2], low: bool) {
        let exercise = work.exercise();
        for index in 0..self.circuits.len() {
            let device = self.circuits[index].device;
            let from_line = points.map(|it| match look.side(device, it) {
                Some(Side::Line) => true,
                Some(Side::Earth) => look.is_linked(device),
                _ => false,
            });
            for control in self.circuits[index].controls.clone() {
                let lamp = exercise.controls[control].lamp;
                let contacts = exercise.lamps[lamp].contacts.map(Point::Terminal);
                let to_lamp = points.map(|it| contacts.iter().any(|contact| look.is_joined(*contact, it)));
                let suits = from_line[0] && to_lamp[1] || from_line[1] && to_lamp[0];
                if suits && work.is_lamp_in(lamp) {
                    self.tried.insert((Test::Polarity, device));
                } else if suits {
                    let of = &exercise.controls[control].switches;
                    let setting = of.iter().map(|it| work.positions()[it.index()]).collect();
                    self.joined.insert((control, setting), low);
                }
            }
        }
    }

    /// A stage is early when one that comes first was asked for and not yet read. Polarity is exempt: the link method reads
    /// it along with R1+R2.
    fn note_order(&mut self, exercise: &Exercise, circuit: usize, stage: Stage, action: usize) {
        let first = before(stage).filter(|it| exercise.asks(*it));
        let early = first.into_iter().any(|it| match it {
            Stage::Inspection => !self.inspections_left(exercise).is_empty(),
            _ => !self.left_of(&self.circuits[circuit], it).is_empty(),
        });
        if early && exercise.asks(stage) {
            self.early.entry(stage).or_insert(action);
        }
    }

    /// Whether the sheet has a line that takes its Ze or Zdb from the supervisor's card, whatever source it names.
    fn is_from_card(&self, test: Test, at: DeviceId) -> bool {
        self.sheet.get(&(test, at)).is_some_and(|it| it.claim.source == Source::Card || it.claim.elsewhere)
    }

    /// Writes a line of the sheet.
    pub(super) fn record(&mut self, exercise: &Exercise, test: Test, at: DeviceId, said: LineSaid, action: usize) {
        let elsewhere = said.written.is_some_and(|it| self.is_of_another_source(exercise, (test, at), it));
        let claim = Claim { source: said.source, elsewhere };
        let entry = SheetLine {
            written: said.written,
            accepted: said.accepted,
            shown: self.shown_for(exercise, (test, at), said.source),
            claim,
            tried: self.tried.contains(&(test, at)),
            sound: self.is_sound(exercise, test, at),
            action,
        };
        self.sheet.insert((test, at), entry);
    }

    /// Handwork at a place, or anywhere when undone or done again: its circuits must be tested afresh.
    pub(super) fn touch(&mut self, reaching: &Table<LocationId, Vec<DeviceId>>, place: Option<LocationId>) {
        let touched = |device: &DeviceId| place.is_none_or(|it| reaching[it].contains(device));
        for (test, device, _) in self.readings.keys() {
            if touched(device) {
                self.voided.insert(stage_of(*test));
            }
        }
        if !self.joined.is_empty() {
            self.voided.insert(Stage::Polarity);
        }
        let was = self.inspected.len();
        self.inspected.retain(|it| place.is_some_and(|place| place != *it));
        if self.inspected.len() < was {
            self.voided.insert(Stage::Inspection);
        }
        self.readings.retain(|(_, device, _), _| !touched(device));
        self.sheet.retain(|(_, device), _| !touched(device));
        self.tried.retain(|(_, device)| !touched(device));
        let controls: Vec<usize> =
            self.circuits.iter().filter(|it| touched(&it.device)).flat_map(|it| it.controls.clone()).collect();
        self.joined.retain(|(control, _), _| !controls.contains(control));
    }
}

/// The test stages that come before one, in their order.
fn before(stage: Stage) -> impl Iterator<Item = Stage> {
    const ORDER: [Stage; 6] = [
        Stage::Inspection,
        Stage::Continuity,
        Stage::Insulation,
        Stage::SupplyPolarity,
        Stage::LoopImpedance,
        Stage::ResidualDevice,
    ];
    ORDER.into_iter().take_while(move |it| *it != stage)
}

/// What the learner says on a line of the sheet.
#[derive(Debug, Clone, Copy)]
pub(super) struct LineSaid {
    pub written: Option<Written>,
    pub accepted: bool,
    pub source: Source,
}

/// Whether what was shown is a result of a test.
const fn is_kept(test: Test, shown: &Shown) -> bool {
    match stage_of(test) {
        Stage::Insulation | Stage::ResidualDevice => {
            matches!(shown, Shown::Figure(_) | Shown::Over(_) | Shown::Under(_))
        }
        Stage::SupplyPolarity => matches!(shown, Shown::Figure(_) | Shown::Lights(_)),
        _ => matches!(shown, Shown::Figure(_)),
    }
}

/// Of two readings for the same part of a test, the one that counts: the highest where the highest is asked for, else the
/// last.
fn later(test: Test, before: Kept, now: Kept) -> Kept {
    let highest = matches!(test, Test::R1R2 | Test::R2 | Test::Zs);
    if highest && size(&before.shown) > size(&now.shown) { before } else { now }
}

/// How large a reading is, in its unit; over range is more than any figure.
pub fn size(shown: &Shown) -> f64 {
    match shown {
        Shown::Figure(it) => it.value(),
        Shown::Over(it) => it.value() + it.resolution(),
        Shown::Under(it) => it.value() - it.resolution(),
        Shown::Lights(it) => it.map_or(0.0, f64::from),
        Shown::Refused(_) => f64::NAN,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::instrument::{Figure, Unit};

    /// BS 7671 asks for the highest R1+R2, R2 and Zs of a circuit; of all else, and of equals, the last counts.
    #[test]
    fn of_two_readings_the_highest_counts_where_the_highest_is_asked_for() {
        let kept = |counts, action| Kept {
            shown: Shown::Figure(Figure { counts, decimals: 2, unit: Unit::Ohm }),
            well_set: true,
            action,
        };
        for test in [Test::R1R2, Test::R2, Test::Zs] {
            assert_eq!(later(test, kept(50, 1), kept(30, 2)).action, 1);
            assert_eq!(later(test, kept(30, 1), kept(50, 2)).action, 2);
            assert_eq!(later(test, kept(50, 1), kept(50, 2)).action, 2);
        }
        for test in [Test::InsulationLineEarth, Test::ResidualDevice, Test::ZsSum] {
            assert_eq!(later(test, kept(50, 1), kept(30, 2)).action, 2);
        }
    }
}
