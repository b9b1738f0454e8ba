//! Safe working: what has been identified, agreed, locked off and proved dead, and what stands before power-on.
//!
//! Order of the steps: HSE HSG85 and GS38 as told in trade guides (identify every source, agree, isolate, lock off and
//! label, open as if live, prove the indicator, test, prove it again with nothing between).

mod probes;
mod settings;

use std::collections::BTreeSet;

use super::{
    action::{Action, Check, Detector, KitPart},
    attempt::Physics,
    state::{Point, Power, Work},
    tally::ActKind,
    testing::Testing,
};
use crate::{
    exercise::{DeviceId, Exercise, Indicator, LocationId, Stage, SwitchId, TerminalUse},
    trade::{colour::Colour, instrument::Function, supply::Earthing},
};
use probes::is_live;
pub(crate) use settings::combinations;
pub(super) use settings::settings_of;
pub use settings::settings_to_predict;
use settings::{here, left, of};

/// Below this a two-pole indicator shows nothing, volts (the extra-low indication of common instruments starts near 12;
/// from memory).
const INDICATOR_VOLTS: f64 = 10.0;

/// The tests of the finished work that come before the switches are worked.
const LIVE: [Stage; 3] = [Stage::SupplyPolarity, Stage::LoopImpedance, Stage::ResidualDevice];

/// Where safe working stands. Folded from the log, never undone.
#[derive(Debug, Clone)]
pub struct Safety {
    reaching: Vec<Vec<DeviceId>>,
    identified: Vec<(LocationId, Vec<DeviceId>)>,
    agreed: bool,
    batch: Option<BTreeSet<Tested>>,
    proved: Vec<bool>,
    ever_proved: Vec<bool>,
    tested_since_trip: bool,
    confirmed: BTreeSet<Check>,
    read: BTreeSet<(usize, Vec<u8>)>,
    predicted: BTreeSet<Vec<u8>>,
    worked: BTreeSet<(usize, Vec<u8>)>,
    indicator: Indicator,
    testing: Testing,
}

/// One dead test that showed nothing: the settings of the switches there, and the points.
type Tested = (Vec<u8>, Point, Probe);

/// What the second probe was on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Probe {
    /// Anything earthed.
    Earth,
    /// Another conductor.
    Conductor(Point),
}

impl Safety {
    pub(super) fn new(exercise: &Exercise) -> Self {
        let count = exercise.locations.len();
        let reaching: Vec<_> = (0..count as u16).map(|it| exercise.devices_reaching(LocationId(it))).collect();
        Self {
            testing: Testing::new(exercise, &reaching),
            indicator: exercise.kit.indicator,
            reaching,
            identified: Vec::new(),
            agreed: false,
            batch: None,
            proved: vec![false; count],
            ever_proved: vec![false; count],
            tested_since_trip: true,
            confirmed: BTreeSet::new(),
            read: BTreeSet::new(),
            predicted: BTreeSet::new(),
            worked: BTreeSet::new(),
        }
    }

    /// Where the tests of the finished work stand.
    pub fn testing(&self) -> &Testing {
        &self.testing
    }

    pub(super) fn testing_mut(&mut self) -> &mut Testing {
        &mut self.testing
    }

    /// How the indicator in hand is.
    pub(super) fn indicator(&self) -> Indicator {
        self.indicator
    }

    /// Devices that must be off and locked before a location is touched.
    pub fn devices_reaching(&self, location: LocationId) -> &[DeviceId] {
        &self.reaching[location.index()]
    }

    /// Whether a location's devices have been named rightly.
    pub fn is_identified(&self, location: LocationId) -> bool {
        self.identified.iter().any(|(_, it)| self.reaching[location.index()].iter().all(|device| it.contains(device)))
    }

    /// Whether the learner named a location's devices rightly at that location itself.
    pub fn is_identified_there(&self, location: LocationId) -> bool {
        self.identified.iter().any(|(at, _)| *at == location)
    }

    /// Whether something has been proved dead since a device last opened by itself; until then none is reset.
    pub fn is_tested_since_trip(&self) -> bool {
        self.tested_since_trip
    }

    /// Whether switching off has been agreed.
    pub fn is_agreed(&self) -> bool {
        self.agreed
    }

    /// Whether every device that reaches a location is off and locked.
    pub fn is_locked_off(&self, work: &Work, location: LocationId) -> bool {
        self.reaching[location.index()]
            .iter()
            .map(|it| work.device_state(*it))
            .all(|it| it.power != Power::On && it.locked)
    }

    /// Whether the neutral is isolated as well, where the supply is TT and a neutral may be far from earth: by devices that
    /// open it, or by the main switch.
    pub fn is_neutral_isolated(&self, work: &Work, location: LocationId) -> bool {
        let exercise = work.exercise();
        let opens_neutral = |it: &DeviceId| exercise.devices[it.index()].kind.is_common();
        exercise.earthing != Earthing::Tt
            || !work.is_main_on()
            || self.reaching[location.index()].iter().all(opens_neutral)
    }

    /// Whether a location is proved dead, and may be worked at.
    pub fn is_proved(&self, location: LocationId) -> bool {
        self.proved[location.index()]
    }

    /// Whether an energising check has been made since the last dead working.
    pub fn is_confirmed(&self, check: Check) -> bool {
        self.confirmed.contains(&check)
    }

    /// Every dead test that a location needs: each conductor to earth and, where a switch is, to every other; elsewhere
    /// to the others of its own cable. A point where several conductors are joined counts once.
    pub fn tests_needed(work: &Work, location: LocationId) -> Vec<(Point, Probe)> {
        let exercise = work.exercise();
        let everything = exercise.switches_at(location).next().is_some();
        let live: Vec<_> = work
            .ends_at(location)
            .filter(|it| !work.end_facts(*it).colour.is_protective() && !work.is_scrap(it.conductor()))
            .collect();
        let mut needed = BTreeSet::new();
        for (index, a) in live.iter().enumerate() {
            needed.insert((work.point_of(*a), Probe::Earth));
            for b in &live[index + 1..] {
                let same_cable = match (work.cable_of(a.conductor()), work.cable_of(b.conductor())) {
                    (Some(one), Some(other)) => one.id == other.id,
                    _ => false,
                };
                let pair = [work.point_of(*a), work.point_of(*b)];
                if (everything || same_cable) && pair[0] != pair[1] {
                    needed.insert((pair[0].min(pair[1]), Probe::Conductor(pair[0].max(pair[1]))));
                }
            }
        }
        needed.into_iter().collect()
    }

    /// The settings in which those tests are needed: every combination of the switches there that have a conductor in a
    /// terminal. Each is a full list of positions.
    pub fn settings_needed(work: &Work, location: LocationId) -> Vec<Vec<u8>> {
        let exercise = work.exercise();
        let switches: Vec<SwitchId> = exercise
            .switches_at(location)
            .filter(|it| exercise.switches[it.index()].terminals.iter().any(|t| work.ends_in(*t).next().is_some()))
            .collect();
        combinations(exercise, &switches, work.positions())
    }

    /// Whether the indicator was proved and a round of dead tests is open, so that a test now will count.
    pub fn is_testing(&self) -> bool {
        self.batch.is_some()
    }

    /// Dead tests still to do at a location in the current round of tests, as settings and probes.
    pub fn tests_left(&self, work: &Work, location: LocationId) -> Vec<(Vec<u8>, Point, Probe)> {
        let done = self.batch.as_ref();
        let mut left = Vec::new();
        for setting in Self::settings_needed(work, location) {
            for (a, b) in Self::tests_needed(work, location) {
                let tested = (here(work, location, &setting), a, b);
                if !done.is_some_and(|it| it.contains(&tested)) {
                    left.push((setting.clone(), a, b));
                }
            }
        }
        left
    }

    /// Continuity readings still to take: a control (by index) and a setting.
    pub fn readings_left(&self, exercise: &Exercise) -> Vec<(usize, Vec<u8>)> {
        left(exercise, &self.read)
    }

    /// Settings still to be predicted.
    pub fn predictions_left(&self, exercise: &Exercise) -> Vec<Vec<u8>> {
        settings_to_predict(exercise).into_iter().filter(|it| !self.predicted.contains(it)).collect()
    }

    /// Settings still to be tried with the power on and after the last live test: a control (by index) and a setting.
    pub fn settings_left(&self, exercise: &Exercise) -> Vec<(usize, Vec<u8>)> {
        left(exercise, &self.worked)
    }

    /// Whether a stage that the exercise may ask for is done.
    pub fn is_done(&self, exercise: &Exercise, stage: Stage) -> bool {
        match stage {
            Stage::Isolation => exercise.learners_places().iter().all(|it| self.ever_proved[it.index()]),
            // Where polarity has a stage of its own, the readings in each position are part of that.
            Stage::Continuity if exercise.has_test_sheet() => {
                self.testing.is_done(exercise, stage)
                    && (exercise.asks(Stage::Polarity) || self.readings_left(exercise).is_empty())
            }
            Stage::Continuity => self.readings_left(exercise).is_empty(),
            Stage::Inspection
            | Stage::Insulation
            | Stage::Polarity
            | Stage::SupplyPolarity
            | Stage::LoopImpedance
            | Stage::ResidualDevice => self.testing.is_done(exercise, stage),
            Stage::EnergisingChecks => self.is_confirmed(Check::NobodyAtWork) && self.is_confirmed(Check::PeopleTold),
            Stage::Prediction => self.predictions_left(exercise).is_empty(),
            Stage::FunctionalTest => {
                self.settings_left(exercise).is_empty()
                    && LIVE.into_iter().all(|it| !exercise.asks(it) || self.testing.is_done(exercise, it))
            }
        }
    }

    /// What stands before power-on, in the order it is asked for.
    pub fn before_power_on(&self, exercise: &Exercise) -> Option<Stage> {
        [
            Stage::Inspection,
            Stage::Continuity,
            Stage::Insulation,
            Stage::Polarity,
            Stage::Prediction,
            Stage::EnergisingChecks,
        ]
        .into_iter()
        .find(|it| exercise.asks(*it) && !self.is_done(exercise, *it))
    }

    /// Whether an action is one that a safe worker would not do, and where.
    pub(super) fn stops(&self, work: &Work, action: &Action, physics: &impl Physics) -> Option<(ActKind, String)> {
        match action {
            Action::RemoveCover { location } => {
                let location = work.location(location).ok()?;
                let at = work.exercise().locations[location.index()].id.clone();
                if self.is_fed(work, location) {
                    Some((ActKind::WorkedLive, at))
                } else {
                    (!self.is_locked_off(work, location)).then_some((ActKind::OpenedUnlocked, at))
                }
            }
            Action::Mark { end: at, .. }
            | Action::Unmark { end: at }
            | Action::Connect { end: at, .. }
            | Action::Disconnect { end: at }
            | Action::Tighten { terminal: at, .. }
            | Action::Cut { end: at, .. }
            | Action::Strip { end: at, .. }
            | Action::Fold { end: at }
            | Action::Unfold { end: at }
            | Action::Tug { end: at }
            | Action::Continuity { a: at, .. } => {
                let point = work.point(at).ok()?;
                let location = work.point_location(point);
                if physics.is_energised(work, point) {
                    return Some((ActKind::WorkedLive, at.clone()));
                }
                self.stops_hand(work, location, at)
            }
            Action::Sheath { location: at, .. } | Action::Grommet { location: at } | Action::Dress { location: at } => {
                self.stops_hand(work, work.location(at).ok()?, at)
            }
            Action::Measure { function, a, b, .. } if is_live(*function) => {
                self.stops_live(work, *function, [a, b], physics)
            }
            Action::Measure { a, b, .. } | Action::FitLink { a, b } | Action::TakeLink { a, b } => {
                [a, b].into_iter().find_map(|it| self.stops_dead(work, it, physics))
            }
            Action::MainSwitch { on: true } => {
                let exercise = work.exercise();
                let concerned = |it: &DeviceId| work.device_state(*it).power == Power::On;
                self.reaching.iter().flatten().any(concerned).then_some(())?;
                let mut reached = (0..exercise.locations.len() as u16).map(LocationId);
                if let Some(open) = reached.find(|it| !work.is_covered(*it)) {
                    return Some((ActKind::PowerOnOpen, exercise.locations[open.index()].id.clone()));
                }
                // Nothing to do with the work where its devices were never switched off.
                let off_before = self.ever_proved.contains(&true);
                (off_before && self.before_power_on(exercise).is_some())
                    .then(|| (ActKind::PowerOnUnchecked, String::new()))
            }
            Action::PowerOn { device } | Action::Reset { device } => {
                let exercise = work.exercise();
                let id = work.device(device).ok()?;
                let mut reached = (0..exercise.locations.len() as u16).map(LocationId);
                if let Some(open) = reached.find(|it| !work.is_covered(*it)) {
                    return Some((ActKind::PowerOnOpen, exercise.locations[open.index()].id.clone()));
                }
                let concerns_work = self.reaching.iter().any(|it| it.contains(&id));
                if matches!(action, Action::Reset { .. }) && !self.tested_since_trip {
                    return Some((ActKind::ResetUntested, device.clone()));
                }
                (concerns_work && self.before_power_on(exercise).is_some())
                    .then(|| (ActKind::PowerOnUnchecked, device.clone()))
            }
            _ => None,
        }
    }

    /// Whether a hand may be among the conductors of a location.
    fn stops_hand(&self, work: &Work, location: LocationId, at: &str) -> Option<(ActKind, String)> {
        if self.is_fed(work, location) {
            return Some((ActKind::WorkedLive, at.to_owned()));
        }
        let needs_proof = work.exercise().asks(Stage::Isolation) && !self.reaching[location.index()].is_empty();
        let is_fitting = work.exercise().lamp_at(location).is_some();
        (needs_proof && !is_fitting && !self.is_proved(location)).then(|| (ActKind::TouchedUnproved, at.to_owned()))
    }

    /// Whether any device that reaches a location is on.
    fn is_fed(&self, work: &Work, location: LocationId) -> bool {
        self.reaching[location.index()].iter().any(|it| work.is_on(*it))
    }

    /// Takes note of an action that was carried out. `work` is as it stands after it.
    pub(super) fn note(&mut self, work: &Work, action: &Action, physics: &impl Physics) -> Option<ActKind> {
        if !matches!(action, Action::TestDead { .. } | Action::Operate { .. } | Action::ProveIndicator) {
            self.batch = None;
        }
        match action {
            Action::Identify { location, devices } => {
                let named: Vec<DeviceId> = devices.iter().filter_map(|it| work.device(it).ok()).collect();
                let location = work.location(location).ok()?;
                let reaching = &self.reaching[location.index()];
                if !reaching.iter().all(|it| named.contains(it)) || named.iter().any(|it| !reaching.contains(it)) {
                    return Some(ActKind::WronglyIdentified);
                }
                self.identified.push((location, named));
            }
            Action::Agree => self.agreed = true,
            Action::LockOff { .. } | Action::RemoveCover { .. } => self.confirmed.clear(),
            Action::Unlock { .. } | Action::PowerOn { .. } | Action::Reset { .. } => self.proved.fill(false),
            Action::MainSwitch { on: true } if self.reaching.iter().flatten().any(|it| work.is_on(*it)) => {
                self.proved.fill(false);
            }
            Action::ProveIndicator if self.indicator.is_sound() => self.close_batch(work),
            Action::ProveIndicator => self.batch = None,
            Action::TestDead { with: Detector::Indicator, a, b } => self.note_test(work, a, b, physics),
            Action::TestDead { .. } => return Some(ActKind::WrongInstrument),
            Action::Change { kit: KitPart::Indicator } => self.indicator = Indicator::Sound,
            Action::Report { what, .. } => self.testing.report(*what),
            Action::Inspect { location } => self.testing.inspect(work.location(location).ok()?),
            Action::Null { lead } => self.testing.null(*lead),
            Action::Continuity { a, b } | Action::Measure { function: Function::Continuity, a, b, .. } => {
                self.note_reading(work, a, b);
            }
            // Switches are worked last of all: what was worked before a live test is to be worked again.
            Action::Measure { function, .. }
                if is_live(*function) && LIVE.into_iter().any(|it| work.exercise().asks(it)) =>
            {
                self.worked.clear();
            }
            Action::Confirm { check } => {
                self.confirmed.insert(*check);
            }
            Action::Predict { positions, .. } => {
                self.predicted.insert(positions.clone());
            }
            _ => {}
        }
        if action.is_handwork() || matches!(action, Action::Choose { .. }) {
            self.testing.touch(&self.reaching, touched(work, action));
            self.forget_worked(work.exercise());
        }
        self.note_worked(work);
        None
    }

    /// The functional test comes last: handwork after it makes it void, where it is a criterion of its own.
    fn forget_worked(&mut self, exercise: &Exercise) {
        if exercise.weights.functional_test > 0 {
            self.worked.clear();
        }
    }

    /// Something came between the tests.
    pub(super) fn interrupt(&mut self, exercise: &Exercise) {
        self.forget_worked(exercise);
        self.testing.touch(&self.reaching, None);
        self.batch = None;
        self.confirmed.clear();
    }

    /// A device opened by itself: no reset before a dead test.
    pub(super) fn note_trip(&mut self) {
        self.tested_since_trip = false;
    }

    /// The indicator works. What was tested since it last did, counts; a new round of tests begins.
    fn close_batch(&mut self, work: &Work) {
        if self.batch.is_some() {
            for index in 0..self.proved.len() {
                let location = LocationId(index as u16);
                let needed = !Self::tests_needed(work, location).is_empty();
                let prepared = self.is_identified(location)
                    && self.agreed
                    && self.is_locked_off(work, location)
                    && self.is_neutral_isolated(work, location);
                if needed && prepared && self.tests_left(work, location).is_empty() {
                    self.proved[index] = true;
                    self.ever_proved[index] = true;
                    self.tested_since_trip = true;
                }
            }
        }
        self.batch = Some(BTreeSet::new());
    }

    fn note_test(&mut self, work: &Work, a: &str, b: &str, physics: &impl Physics) {
        let (Ok(a), Ok(b)) = (work.point(a), work.point(b)) else { return };
        let location = work.point_location(a);
        let setting = here(work, location, work.positions());
        if !self.indicator.is_sound() {
            return;
        }
        let dead = physics.volts_between(work, a, b).abs() < INDICATOR_VOLTS;
        let Some(batch) = &mut self.batch else { return };
        if !dead {
            return;
        }
        // Nothing shown to something that is not earthed proves nothing about earth.
        for (one, other) in [(a, b), (b, a)] {
            if work.is_earthed(other) {
                batch.insert((setting.clone(), one, Probe::Earth));
            }
        }
        batch.insert((setting, a.min(b), Probe::Conductor(a.max(b))));
    }

    /// A reading counts for a control when one probe is on what comes straight from a device's line, the other on what
    /// goes straight to a contact of its lamp, and the lamp is out.
    fn note_reading(&mut self, work: &Work, a: &str, b: &str) {
        let (Ok(a), Ok(b)) = (work.point(a), work.point(b)) else { return };
        let exercise = work.exercise();
        let mut groups = work.joined_by(|it: Colour| !it.is_protective());
        for (index, control) in exercise.controls.iter().enumerate() {
            let lamp = &exercise.lamps[control.lamp.index()];
            let mut suits = |line: Point, load: Point| {
                let from_device =
                    exercise.terminals.iter().enumerate().any(|(t, it)| {
                        matches!(it.used_by, TerminalUse::DeviceLine(_)) && groups.same(work.node(line), t)
                    });
                let to_lamp = lamp.contacts.iter().any(|it| groups.same(work.node(load), it.index()));
                from_device && to_lamp
            };
            if !work.is_lamp_in(control.lamp) && (suits(a, b) || suits(b, a)) {
                self.read.insert((index, of(control, work.positions())));
            }
        }
    }

    /// With every device on and a control's lamp in, its present setting has been tried.
    fn note_worked(&mut self, work: &Work) {
        let exercise = work.exercise();
        if (0..exercise.devices.len() as u16).any(|it| !work.is_on(DeviceId(it)))
            || !self.confirmed.contains(&Check::NobodyAtWork) && exercise.asks(Stage::EnergisingChecks)
        {
            return;
        }
        for (index, control) in exercise.controls.iter().enumerate() {
            if work.is_lamp_in(control.lamp) {
                self.worked.insert((index, of(control, work.positions())));
            }
        }
    }
}

/// Where handwork was.
fn touched(work: &Work, action: &Action) -> Option<LocationId> {
    let point = match action {
        Action::Mark { end: at, .. }
        | Action::Unmark { end: at }
        | Action::Connect { end: at, .. }
        | Action::Disconnect { end: at }
        | Action::Tighten { terminal: at, .. }
        | Action::Cut { end: at, .. }
        | Action::Strip { end: at, .. }
        | Action::Fold { end: at }
        | Action::Unfold { end: at }
        | Action::Tug { end: at } => work.point(at).ok()?,
        Action::Sheath { location: at, .. } | Action::Grommet { location: at } | Action::Dress { location: at } => {
            return work.location(at).ok();
        }
        _ => return None,
    };
    Some(work.point_location(point))
}
