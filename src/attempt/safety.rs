//! Safe working: what has been identified, agreed, locked off and proved dead, and what comes before power-on.
//!
//! Order of the steps: HSE HSG85 and GS38 as told in trade guides (identify every source, agree, isolate, lock off and
//! label, open as if live, prove the indicator, test, prove it again with nothing between).

mod asked;
mod cuts;
mod gap;
mod loads;
mod probes;
mod proving;
mod rounds;
mod settings;
mod stops;
mod switching;

use std::collections::{BTreeMap, BTreeSet};

use super::{format::Format, naming::Naming, tally::ActKind, testing::Testing};
use crate::{
    exercise::{DeviceId, EndId, Exercise, Indicator, LocationId, Reference, Stage, Table},
    trade::{
        instrument::{Function, LeadLength},
        supply::Earthing,
    },
    work::{Action, Check, Detector, Hand, KitPart, Power, Subject, Work},
};
pub(super) use asked::Asked;
pub use gap::ProofGap;
use loads::Loads;
pub(super) use loads::lit;
pub use proving::Probe;
use proving::Tested;
use rounds::Rounds;
pub(super) use settings::settings_of;
pub use settings::settings_to_predict;

/// Where safe working stands. Folded from the log, never undone.
#[derive(Debug, Clone)]
pub struct Safety {
    format: Format,
    reaching: Table<LocationId, Vec<DeviceId>>,
    identified: Vec<(LocationId, Vec<DeviceId>)>,
    agreed: bool,
    /// The reference that earths are shown from, where dead tests are made against one.
    reference: Option<Reference>,
    rounds: Rounds,
    loads: Loads,
    batch: Option<BTreeSet<Tested>>,
    proved: Table<LocationId, bool>,
    /// Ends cut in the course of the work, and whether each was proved dead at the cut.
    cuts: BTreeMap<EndId, bool>,
    ever_proved: Table<LocationId, bool>,
    tested_since_trip: bool,
    confirmed: BTreeSet<Check>,
    /// Checks before the board is opened.
    board: BTreeSet<Check>,
    read: BTreeSet<(usize, Vec<u8>)>,
    predicted: BTreeSet<Vec<u8>>,
    /// Stages that are done once something is said, and was.
    said: BTreeSet<Stage>,
    worked: BTreeSet<(usize, Vec<u8>)>,
    indicator: Indicator,
    indicator_failed: bool,
    testing: Testing,
    naming: Naming,
}

impl Safety {
    /// Safe working at the start, on the work as it is found.
    pub(super) fn new(work: &Work, format: Format) -> Self {
        let exercise: &Exercise = work.exercise();
        let reaching: Table<_, _> = exercise.locations.ids().map(|it| exercise.devices_reaching(it)).collect();
        Self {
            format,
            testing: Testing::new(exercise, &reaching, format),
            naming: Naming::new(exercise),
            indicator: exercise.kit.indicator,
            indicator_failed: false,
            reaching,
            identified: Vec::new(),
            agreed: false,
            reference: exercise.reference.filter(|_| format.has_parking()),
            rounds: Rounds::default(),
            loads: Loads::of(work),
            batch: None,
            proved: exercise.locations.each(false),
            cuts: BTreeMap::new(),
            ever_proved: exercise.locations.each(false),
            tested_since_trip: true,
            confirmed: BTreeSet::new(),
            board: BTreeSet::new(),
            read: BTreeSet::new(),
            predicted: BTreeSet::new(),
            said: BTreeSet::new(),
            worked: BTreeSet::new(),
        }
    }

    /// The format by whose rules it goes.
    pub const fn format(&self) -> Format {
        self.format
    }

    /// Where the tests of the finished work stand.
    pub fn testing(&self) -> &Testing {
        &self.testing
    }

    pub(super) fn testing_mut(&mut self) -> &mut Testing {
        &mut self.testing
    }

    /// Where the naming of what has no mark stands.
    pub fn naming(&self) -> &Naming {
        &self.naming
    }

    pub(super) fn naming_mut(&mut self) -> &mut Naming {
        &mut self.naming
    }

    /// The condition of the indicator in hand.
    pub(super) fn indicator(&self) -> Indicator {
        self.indicator
    }

    /// Whether the learner has had in hand an indicator that does not work, and could know: it failed its proof, or was changed.
    pub fn has_indicator_failed(&self) -> bool {
        self.indicator_failed
    }

    /// Devices that must be off and locked before a location is touched.
    pub fn devices_reaching(&self, location: LocationId) -> &[DeviceId] {
        &self.reaching[location]
    }

    /// The devices whose circuits something belongs to: a device itself, else those that reach its place.
    pub fn circuits_of(&self, exercise: &Exercise, at: Subject) -> Vec<DeviceId> {
        match at {
            Subject::Device(it) => vec![it],
            _ => at.location(exercise).map_or(Vec::new(), |it| self.devices_reaching(it).to_vec()),
        }
    }

    /// Whether a location's devices have been named correctly, and shown to be the right ones.
    pub fn is_identified(&self, location: LocationId) -> bool {
        let reaching = &self.reaching[location];
        self.is_fed_as_shown(location)
            && self.identified.iter().any(|(_, it)| reaching.iter().all(|device| it.contains(device)))
    }

    /// Whether the learner named a location's devices correctly at that location itself.
    pub fn is_identified_there(&self, location: LocationId) -> bool {
        self.identified.iter().any(|(at, _)| *at == location)
    }

    /// Whether each device that feeds a location was shown to do so.
    pub fn is_fed_as_shown(&self, location: LocationId) -> bool {
        self.reaching[location].iter().all(|it| self.is_shown_by_load(*it))
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
        let devices = self.reaching[location].iter().map(|it| work.device_state(*it));
        work.is_all_locked_off()
            || work.is_unplugged()
            || devices.into_iter().all(|it| it.power != Power::On && it.locked)
    }

    /// Whether the neutral is isolated as well, where the supply is TT and a neutral may be far from earth: by devices that
    /// open it, or by the main switch.
    pub fn is_neutral_isolated(&self, work: &Work, location: LocationId) -> bool {
        let exercise = work.exercise();
        let opens_neutral = |it: &DeviceId| exercise.devices[*it].kind.is_common();
        exercise.earthing != Earthing::Tt || !work.is_supplied() || self.reaching[location].iter().all(opens_neutral)
    }

    /// Whether a location is proved dead, and may be worked at.
    pub fn is_proved(&self, location: LocationId) -> bool {
        self.proved[location]
    }

    /// Whether an energising check has been made since work was last done with the power off.
    pub fn is_confirmed(&self, check: Check) -> bool {
        self.confirmed.contains(&check) || self.board.contains(&check)
    }

    /// Settings still to be predicted.
    pub fn predictions_left(&self, exercise: &Exercise) -> Vec<Vec<u8>> {
        settings_to_predict(exercise).into_iter().filter(|it| !self.predicted.contains(it)).collect()
    }

    /// Whether a stage that the exercise may ask for is done.
    pub fn is_done(&self, exercise: &Exercise, stage: Stage) -> bool {
        match stage {
            Stage::Isolation => exercise.learners_places().iter().all(|it| self.ever_proved[*it]),
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
            Stage::Diagnosis => self.said.contains(&stage),
            Stage::Naming => self.naming.is_done(),
            // Only a learner who has looked everywhere knows whether more is wrong: it is done when it is handed in.
            Stage::Observations => true,
            Stage::FunctionalTest => {
                self.settings_left(exercise).is_empty()
                    && Stage::LIVE_TESTS.into_iter().all(|it| !exercise.asks(it) || self.testing.is_done(exercise, it))
            }
        }
    }

    /// The first stage still to do before power-on, in the order in which stages are asked for.
    pub fn before_power_on(&self, exercise: &Exercise) -> Option<Stage> {
        [
            Stage::Naming,
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

    /// Whether the supervisor connects what is tied back beside the board: the work was looked over, or is handed over.
    pub(super) fn is_ready_for_board(&self, work: &Work) -> bool {
        let exercise = work.exercise();
        if exercise.asks(Stage::Inspection) {
            self.has_begun(work) && self.is_done(exercise, Stage::Inspection)
        } else {
            self.is_handed_over(work)
        }
    }

    /// Whether the supervisor takes their locks off: the learner has done all that comes before power-on, has closed
    /// up, and has taken their own locks off.
    pub(super) fn is_handed_over(&self, work: &Work) -> bool {
        let exercise = work.exercise();
        let locked = exercise.devices.ids().any(|it| work.device_state(it).locked);
        let covered = exercise.locations.ids().all(|it| work.is_covered(it));
        self.has_begun(work) && !locked && covered && self.before_power_on(exercise).is_none()
    }

    /// Takes note of an action that was carried out. `work` is as it stands after it.
    pub(super) fn note(&mut self, work: &Work, action: &Action) -> Option<ActKind> {
        if !matches!(action, Action::TestDead { .. } | Action::Operate { .. } | Action::ProveIndicator) {
            self.batch = None;
        }
        if self.reference.is_some() {
            self.follow_round(work, action);
        }
        match action {
            Action::Identify { location, devices } => {
                let named: Vec<DeviceId> = devices.iter().filter_map(|it| work.device(it).ok()).collect();
                let location = work.location(location).ok()?;
                let reaching = &self.reaching[location];
                // To name more devices than feed the place is more caution than asked, and no mistake.
                if !reaching.iter().all(|it| named.contains(it)) {
                    return Some(ActKind::WronglyIdentified);
                }
                self.identified.push((location, named));
            }
            Action::Agree => self.agreed = true,
            Action::LockOff { .. } | Action::LockIncomer { .. } => self.confirmed.clear(),
            // A place that is opened again must be proved dead again.
            Action::RemoveCover { location } => {
                self.confirmed.clear();
                let place = work.location(location).ok()?;
                self.proved.put(place, false);
                if work.is_board_to_open(place) {
                    self.note_board_seen(work);
                }
            }
            Action::Unlock { .. } | Action::PowerOn { .. } | Action::Reset { .. } | Action::BringSupply => {
                self.proved.rows_mut().for_each(|it| *it = false);
            }
            Action::MainSwitch { on: true } | Action::Isolator { on: true }
                if self.reaching.iter().flatten().any(|it| work.is_on(*it)) =>
            {
                self.proved.rows_mut().for_each(|it| *it = false);
            }
            // What the devices' own locks hold off is as dead as before.
            Action::UnlockIncomer { .. } | Action::MainSwitch { on: true } | Action::Isolator { on: true } => {
                for place in self.proved.ids() {
                    let stays = self.is_locked_off(work, place) && !work.is_board_to_open(place);
                    self.proved.change(place, |it| *it &= stays);
                }
            }
            Action::ProveIndicator if self.indicator.is_sound() && self.reference.is_some() => self.close_round(work),
            Action::ProveIndicator if self.indicator.is_sound() => self.close_batch(work),
            Action::ProveIndicator => {
                self.batch = None;
                self.rounds.interrupt();
                self.indicator_failed = true;
            }
            Action::TestDead { with: Detector::Indicator, a, b } if self.reference.is_none() => {
                self.note_test(work, a, b);
            }
            // What it shows is taken note of when it is read.
            Action::TestDead { with: Detector::Indicator, .. } => {}
            // Beside a full proof it is no more than a second look.
            Action::TestDead { a, .. } => {
                let place = work.point(a).ok().map(|it| work.point_location(it));
                if !place.is_some_and(|it| self.is_proved(it)) {
                    return Some(ActKind::WrongInstrument);
                }
            }
            Action::Change { kit: KitPart::Indicator } => {
                self.indicator_failed |= !self.indicator.is_sound();
                self.indicator = Indicator::Sound;
            }
            Action::Sheath { cable, location, .. } => self.note_cut(work, cable, work.location(location).ok()?),
            Action::Inspect { location } => self.testing.inspect(work.location(location).ok()?),
            Action::Null { lead } => self.testing.null(*lead),
            Action::Continuity { a, b } | Action::Measure { function: Function::Continuity, a, b, .. } => {
                self.note_reading(work, a, b);
                let is_long = !matches!(action, Action::Measure { lead: LeadLength::Short, .. });
                if let (true, Ok(a), Ok(b)) = (is_long, work.point(a), work.point(b)) {
                    self.note_long_lead(work, [a, b]);
                }
            }
            // Switches are worked last of all: what was worked before a live test is to be worked again.
            Action::Measure { function, .. }
                if function.is_live() && Stage::LIVE_TESTS.into_iter().any(|it| work.exercise().asks(it)) =>
            {
                self.worked.clear();
            }
            Action::Confirm { check } => {
                let checks = if check.is_of_board() { &mut self.board } else { &mut self.confirmed };
                checks.insert(*check);
            }
            Action::Predict { positions, .. } => {
                self.predicted.insert(positions.clone());
            }
            Action::Diagnose { .. } => {
                self.said.insert(Stage::Diagnosis);
            }
            _ => {}
        }
        if action.is_handwork() || matches!(action, Action::Choose { .. }) {
            self.testing.touch(&self.reaching, touched(work, action));
            self.testing.follow(work);
            self.forget_worked(work.exercise());
        }
        self.note_worked(work);
        None
    }

    /// Something came between the tests.
    pub(super) fn interrupt(&mut self, work: &Work) {
        self.forget_worked(work.exercise());
        self.testing.touch(&self.reaching, None);
        self.testing.follow(work);
        self.batch = None;
        self.rounds = Rounds::default();
        self.confirmed.clear();
    }

    /// A device opened by itself: no reset before a dead test.
    pub(super) fn note_trip(&mut self) {
        self.tested_since_trip = false;
    }
}

/// The place where an action did handwork.
fn touched(work: &Work, action: &Action) -> Option<LocationId> {
    match action.hand()? {
        Hand::Point(at) => work.point(at).ok().map(|it| work.point_location(it)),
        Hand::Place(at) => work.location(at).ok(),
    }
}
