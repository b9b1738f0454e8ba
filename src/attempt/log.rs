//! The attempt: a log of actions, and what follows from it.

mod reach;

use std::sync::Arc;

use thiserror::Error;

use super::{
    format::Format,
    history::History,
    safety::{ProofGap, Safety, lit, settings_to_predict},
    tally::{Act, ActKind, Diagnosis, Energised, Observed, Prediction, Reported, TakenReading, Tally, Why},
    testing::{LineSaid, Written},
};
use crate::{
    circuit::{self, Meter, Reading},
    exercise::{DeviceId, Exercise, FaultKind, LampId, Limits, LocationId, Stage},
    trade::instrument::{Function, LeadLength, Refusal, Shown},
    work::{Action, Detector, Edit, Flaw, Point, Refused, Source, Subject, Work},
};

/// From how many volts on a meter's reading where an indicator shows nothing is told for what it is: tens of volts (the charter).
const GHOST_VOLTS: f64 = 10.0;

/// An action of a log that is impossible when its turn comes.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("action {number} is impossible: {why}")]
pub struct Impossible {
    /// Its number in the log, from 0.
    pub number: usize,
    /// Why.
    #[source]
    pub why: Refused,
}

/// What came of an action that was possible.
#[derive(Debug, Clone, PartialEq)]
pub enum Happened {
    /// It was done.
    Done,
    /// The indicator showed this voltage, volts.
    Volts(f64),
    /// The indicator showed nothing, which proves nothing: this was taken for an earth, and has not been shown to be one.
    NoEarth(Point),
    /// The learner said whether what was tested is dead, and these places are proved dead by it.
    Concluded {
        /// What was said.
        dead: bool,
        /// The places proved dead.
        proved: Vec<LocationId>,
        /// Where nothing is: a place of the learner's that is open, and what it lacks.
        lacked: Option<(LocationId, ProofGap)>,
    },
    /// A device was worked, and these lamps came on or went out with it.
    Lamps {
        /// Whether they came on.
        lit: bool,
        /// The lamps.
        lamps: Vec<LampId>,
    },
    /// The meter showed this resistance, ohms.
    Ohms(f64),
    /// It was pulled and held.
    Held,
    /// It was pulled and came out.
    CameOut,
    /// The tester or the indicator showed this.
    Read(Reading),
    /// A meter showed this voltage on a core that only its neighbours' capacitance holds up: an indicator there shows nothing.
    Ghost(Reading),
    /// It was stopped, and counted: an act with a consequence.
    Stopped(Act),
    /// It was done, and these devices opened.
    Tripped(Vec<DeviceId>),
}

impl Happened {
    /// The kind of act, where one was stopped.
    pub const fn stopped(&self) -> Option<ActKind> {
        match self {
            Self::Stopped(it) => Some(it.kind),
            _ => None,
        }
    }
}

/// An exercise and what was done with it. Everything in it is folded from the log.
#[derive(Debug, Clone)]
pub struct Attempt {
    format: Format,
    log: Vec<Action>,
    work: Work,
    tally: Tally,
    safety: Safety,
    history: History,
}

impl Attempt {
    /// An attempt in the newest format, with nothing done yet.
    pub fn new(exercise: Arc<Exercise>) -> Self {
        Self::in_format(exercise, Format::NEWEST)
    }

    /// An attempt that goes by the rules of that format, with nothing done yet.
    pub fn in_format(exercise: Arc<Exercise>, format: Format) -> Self {
        let exercise = exercise.as_drawn();
        let mut work = Work::new(exercise);
        if format.has_board() {
            work.let_board_open();
        }
        Self {
            format,
            log: Vec::new(),
            safety: Safety::new(&work, format),
            work,
            tally: Tally::default(),
            history: History::default(),
        }
    }

    /// The same exercise in the same format, with nothing done yet.
    #[must_use]
    pub fn begun_again(&self) -> Self {
        Self::in_format(Arc::clone(self.work.exercise()), self.format)
    }

    /// The format by whose rules it goes.
    pub const fn format(&self) -> Format {
        self.format
    }

    /// Replays a whole log, in the newest format.
    ///
    /// # Errors
    /// The first action that was impossible.
    pub fn replay(exercise: Arc<Exercise>, actions: impl IntoIterator<Item = Action>) -> Result<Self, Impossible> {
        let mut attempt = Self::new(exercise);
        for (number, action) in actions.into_iter().enumerate() {
            attempt.act(action).map_err(|why| Impossible { number, why })?;
        }
        Ok(attempt)
    }

    /// This attempt as it would be had the work come out otherwise: how slips and repairs are tried.
    #[must_use]
    pub fn supposing(&self, edits: &[Edit]) -> Self {
        let mut supposed = self.clone();
        for it in edits {
            supposed.work.edit(it);
        }
        supposed
    }

    /// This attempt as it would be had nothing been wrong with the installation, out of sight: what the learner is judged by who was to find
    /// what is.
    #[must_use]
    pub fn in_sound_installation(&self) -> Self {
        let exercise = self.work.exercise();
        let sound = Arc::new(exercise.supposing_fault(exercise.suspects.len()));
        Self { work: self.work.supposing(&sound), ..self.clone() }
    }

    /// This attempt with everything called what it is: for telling its answers.
    #[must_use]
    pub fn with_names_told(mut self) -> Self {
        self.work.tell_names();
        self
    }

    /// The actions so far.
    pub fn log(&self) -> &[Action] {
        &self.log
    }

    /// The work as it stands.
    pub fn work(&self) -> &Work {
        &self.work
    }

    /// What undo does not take back.
    pub fn tally(&self) -> &Tally {
        &self.tally
    }

    /// Where safe working stands.
    pub fn safety(&self) -> &Safety {
        &self.safety
    }

    /// Whether there is something to take back.
    pub fn can_undo(&self) -> bool {
        self.history.can_undo() && !self.tally.handed_in
    }

    /// Whether there is something to do again.
    pub fn can_redo(&self) -> bool {
        self.history.can_redo() && !self.tally.handed_in
    }

    /// Carries out an action, or stops it and counts it. Either way it is logged.
    ///
    /// # Errors
    /// Why the action is impossible; nothing is changed or logged.
    pub fn act(&mut self, action: Action) -> Result<Happened, Refused> {
        if self.tally.handed_in {
            return Err(Refused::HandedIn);
        }
        self.possible(&action)?;
        let happened = match action {
            Action::Undo => self.step(StepBack::Undo)?,
            Action::Redo => self.step(StepBack::Redo)?,
            // A hint invalidates nothing: not undo, not proof of dead, not readings.
            Action::Hint => {
                self.tally.hints.push(self.log.len());
                Happened::Done
            }
            Action::HandIn => {
                self.tally.handed_in = true;
                Happened::Done
            }
            _ => self.carry_out(&action)?,
        };
        if self.work.has_tied_back() && self.safety.is_ready_for_board(&self.work) {
            self.work.connect_tied_back();
        }
        if self.work.is_kept_off() && self.safety.is_handed_over(&self.work) {
            self.work.release();
        }
        self.log.push(action);
        Ok(happened)
    }

    /// Counts an act that was stopped.
    fn stop(&mut self, kind: ActKind, at: Subject) -> Happened {
        let place = at.location(self.work.exercise()).filter(|_| kind == ActKind::TouchedUnproved);
        let lacked = place.and_then(|it| self.safety.proof_gap(&self.work, it));
        let act = Act { kind, at, action: self.log.len(), lacked };
        self.tally.acts.push(act.clone());
        Happened::Stopped(act)
    }

    /// The unsafe act as which an action would be stopped now, whether or not a hand can do it.
    pub fn would_stop(&self, action: &Action) -> Option<ActKind> {
        self.safety.stops(&self.work, action).map(|it| it.0)
    }

    fn carry_out(&mut self, action: &Action) -> Result<Happened, Refused> {
        if let Some((kind, at)) = self.safety.stops(&self.work, action) {
            // Impossible comes before unsafe: what a hand can't do needs no stopping.
            self.work.clone().apply(action)?;
            return Ok(self.stop(kind, at));
        }
        if let Action::Tug { end } = action
            && self.work.exercise().is_inspected()
        {
            return self.feels(action, end);
        }
        let before = action.is_undoable().then(|| self.work.clone());
        let watched = self.safety.watches(&self.work, action).map(|it| (it, lit(&self.work)));
        self.work.apply(action)?;
        self.remember(action, before);
        self.tally.note_work(&self.work, action, self.log.len());
        self.note_reading(action);
        self.safety.naming_mut().note(&self.work, action, self.log.len());
        if let Some(kind) = self.safety.note(&self.work, action) {
            let at = match action {
                Action::Identify { location, .. } => self.work.location(location).ok().map(Subject::Location),
                Action::TestDead { a, .. } => self.work.subject(a),
                _ => None,
            };
            let at = at.unwrap_or(Subject::Whole);
            return Ok(self.stop(kind, at));
        }
        if let Some((device, before)) = watched {
            let after = lit(&self.work);
            let lamps = self.safety.note_loads(&self.work, device, &before, &after);
            if !lamps.is_empty() {
                return Ok(Happened::Lamps { lit: after.len() > before.len(), lamps });
            }
        }
        match action {
            Action::PowerOn { .. }
            | Action::Reset { .. }
            | Action::Operate { .. }
            | Action::MainSwitch { on: true }
            | Action::Isolator { on: true }
            | Action::BringSupply => Ok(self.energise(action)),
            Action::ProveIndicator if !self.safety.indicator().is_sound() => {
                let shown = circuit::proving(self.safety.indicator());
                Ok(Happened::Read(Reading { shown, opens: Vec::new() }))
            }
            Action::TestDead { a, b, with } if self.safety.reference().is_some() => self.touch([a, b], *with),
            Action::Conclude { dead } => {
                let proved = self.safety.conclude(&self.work, *dead);
                let lacked = if *dead && proved.is_empty() { self.safety.open_gap(&self.work) } else { None };
                Ok(Happened::Concluded { dead: *dead, proved, lacked })
            }
            // An indicator that does not work shows what it would show on a dead conductor.
            Action::TestDead { .. } if !self.safety.indicator().is_sound() => Ok(Happened::Volts(0.0)),
            Action::Measure { function, lead, a, b } => {
                let meter = self.safety.testing().meter(*function, *lead);
                let points = [self.work.point(a)?, self.work.point(b)?];
                let reading = circuit::reading(&self.work, meter, points[0], points[1]);
                let number = self.log.len();
                // Showing an earth before the work is touched is no test of the finished work.
                if self.safety.shows(&self.work, action).is_none() {
                    self.safety.testing_mut().note(&self.work, meter, points, reading.shown, number);
                }
                for device in &reading.opens {
                    self.work.trip(*device);
                }
                let is_ghost = *function == Function::Voltage && self.is_ghost(&reading, points);
                Ok(if is_ghost { Happened::Ghost(reading) } else { Happened::Read(reading) })
            }
            Action::ReadOrigin { range } => {
                let meter = self.safety.testing().meter(Function::Loop(*range), LeadLength::Short);
                let reading = circuit::at_origin(&self.work, meter);
                let number = self.log.len();
                self.safety.testing_mut().note_origin(&self.work, reading.shown, number);
                Ok(Happened::Read(reading))
            }
            Action::TestDead { a, b, .. } => {
                Ok(Happened::Volts(circuit::volts_between(&self.work, self.work.point(a)?, self.work.point(b)?)))
            }
            Action::Continuity { .. } if self.safety.is_shown_live(&self.work, action) => {
                Ok(Happened::Read(Reading { shown: Shown::Refused(Refusal::Energised), opens: Vec::new() }))
            }
            Action::Continuity { a, b } => {
                Ok(Happened::Ohms(circuit::ohms_between(&self.work, self.work.point(a)?, self.work.point(b)?)))
            }
            Action::Tug { end } => {
                let held = self.work.terminal_of(self.work.end(end)?).is_some();
                Ok(if held { Happened::Held } else { Happened::CameOut })
            }
            _ => self.says(action),
        }
    }

    /// Takes down what is said or written; what says nothing is done.
    fn says(&mut self, action: &Action) -> Result<Happened, Refused> {
        let number = self.log.len();
        match action {
            Action::Record { test, at, reading, accepted, source } => {
                let said = LineSaid { written: Written::read(reading), accepted: *accepted, source: *source };
                let at = self.work.device(at)?;
                self.safety.testing_mut().record(self.work.exercise(), *test, at, said, number);
                if !*accepted {
                    self.tally.failed = Some(Why::TestFailed);
                }
            }
            Action::Report { at, what } => {
                let at = self.place_named(at)?;
                self.tally.reported.push(Reported { what: *what, at, action: number });
            }
            Action::Diagnose { what, at } => {
                let suspect = self.suspect(*what, at)?;
                self.tally.diagnoses.push(Diagnosis { action: number, suspect });
            }
            Action::Predict { positions, lit, live } => {
                self.predict(positions, lit, live)?;
            }
            Action::Observe { at, what } => {
                let at = self.observed_at(at)?;
                self.tally.observed.push(Observed { what: *what, at, action: number });
            }
            Action::Withdraw { at, what } => {
                let at = self.observed_at(at)?;
                self.tally.observed.retain(|it| (it.at, it.what) != (at, *what));
            }
            _ => {}
        }
        Ok(Happened::Done)
    }

    /// Pulls at an end of work that is looked over: what comes out goes back as it was found, so that all is told of what was found.
    fn feels(&self, action: &Action, end: &str) -> Result<Happened, Refused> {
        let mut pulled = self.work.clone();
        pulled.apply(action)?;
        let held = pulled.terminal_of(pulled.end(end)?).is_some();
        Ok(if held { Happened::Held } else { Happened::CameOut })
    }

    /// What an observation's address speaks of.
    fn observed_at(&self, at: &str) -> Result<Subject, Refused> {
        match self.work.subject(at) {
            Some(it) => Ok(it),
            None => self.work.location(at).map(Subject::Location),
        }
    }

    fn has_observed(&self, at: Subject, what: Flaw) -> bool {
        self.tally.observed.iter().any(|it| (it.at, it.what) == (at, what))
    }

    /// Whether a meter's volts between two points are a ghost's: ten or more, and a sound indicator would show nothing.
    fn is_ghost(&self, reading: &Reading, points: [Point; 2]) -> bool {
        let Shown::Figure(it) = reading.shown else { return false };
        let indicator = Meter { function: Function::Indicator, lead: LeadLength::Short, nulled: false };
        it.value().abs() >= GHOST_VOLTS
            && circuit::reading(&self.work, indicator, points[0], points[1]).shown == Shown::Lights(None)
    }

    /// Puts the indicator on two points, where dead tests are made against an earth.
    fn touch(&mut self, points: [&String; 2], with: Detector) -> Result<Happened, Refused> {
        let points = [self.work.point(points[0])?, self.work.point(points[1])?];
        let indicator = self.safety.indicator();
        let reading = if indicator.is_sound() {
            let meter = Meter { function: Function::Indicator, lead: LeadLength::Short, nulled: false };
            circuit::reading(&self.work, meter, points[0], points[1])
        } else {
            Reading { shown: circuit::proving(indicator), opens: Vec::new() }
        };
        let lit = matches!(reading.shown, Shown::Lights(Some(_)));
        self.safety.note_touch(&self.work, points, lit);
        // A multimeter has a display and no lamps.
        let reading = if with == Detector::Multimeter {
            let meter = Meter { function: Function::Voltage, lead: LeadLength::Short, nulled: false };
            let reading = circuit::reading(&self.work, meter, points[0], points[1]);
            if self.is_ghost(&reading, points) {
                return Ok(Happened::Ghost(reading));
            }
            reading
        } else {
            reading
        };
        let doubted = self.safety.unshown(&self.work, points).filter(|_| !lit);
        Ok(doubted.map_or(Happened::Read(reading), Happened::NoEarth))
    }

    /// Keeps what undo goes back to. Handwork can be taken back; working a switch leaves that as it is; anything else
    /// is a line that undo does not cross.
    fn remember(&mut self, action: &Action, before: Option<Work>) {
        if let Some(before) = before {
            self.history.note(self.log.len(), before);
        } else if !matches!(action, Action::Operate { .. }) {
            self.history.close();
        }
    }

    fn step(&mut self, which: StepBack) -> Result<Happened, Refused> {
        let (found, nothing) = match which {
            StepBack::Undo => (self.history.back(&self.log), Refused::NothingToUndo),
            StepBack::Redo => (self.history.again(&self.log, &self.work), Refused::NothingToRedo),
        };
        let mut work = found.ok_or(nothing)?;
        work.keep_switches_of(&self.work);
        self.work = work;
        self.safety.interrupt(&self.work);
        self.safety.naming_mut().follow(&self.work);
        if which == StepBack::Undo {
            self.tally.undone += 1;
        }
        Ok(Happened::Done)
    }

    fn energise(&mut self, action: &Action) -> Happened {
        if !self.work.exercise().devices.ids().any(|it| self.work.is_on(it)) {
            return Happened::Done;
        }
        let tripped = circuit::opening(&self.work);
        // The power of other circuits, which the main switch brings back, never reached the work.
        let reaches = self.safety.has_begun(&self.work)
            && self.safety.is_fed_anywhere(&self.work)
            && !matches!(action, Action::Operate { .. });
        if !reaches && tripped.is_empty() {
            return Happened::Done;
        }
        let work = self.work.clone();
        self.tally.energised.push(Energised { action: self.log.len(), work, tripped: tripped.clone() });
        if tripped.is_empty() {
            return Happened::Done;
        }
        for device in &tripped {
            self.work.trip(*device);
        }
        self.safety.note_trip();
        self.tally.failed = Some(Why::Tripped);
        self.history.close();
        Happened::Tripped(tripped)
    }

    fn predict(&mut self, positions: &[u8], lit: &[String], live: &[String]) -> Result<(), Refused> {
        let exercise = self.work.exercise();
        let lit = lit.iter().map(|it| self.work.lamp(it)).collect::<Result<_, _>>()?;
        let live = live.iter().filter_map(|it| exercise.conductor(it).ok()).collect();
        // Of wiring that is given it is asked what that does, and not what somebody has made of it.
        let work = if exercise.is_given() { Work::new(Arc::clone(exercise)) } else { self.work.clone() };
        let positions = positions.to_vec();
        self.tally.predictions.push(Prediction { action: self.log.len(), positions, lit, live, work });
        Ok(())
    }

    /// Whether an action that does not change the work is possible. [`Work::apply`] answers for the others.
    fn possible(&self, action: &Action) -> Result<(), Refused> {
        let work = &self.work;
        if work.exercise().is_inspected() && !leaves_as_found(action) {
            return Err(Refused::OnlyLooked);
        }
        match action {
            Action::Identify { location, devices } => {
                work.location(location)?;
                devices.iter().try_for_each(|it| work.device(it).map(drop))
            }
            Action::FitLink { a, b } | Action::TakeLink { a, b } => {
                [a, b].into_iter().try_for_each(|it| self.in_reach(work.point(it)?))
            }
            Action::Inspect { location } => {
                let place = work.location(location)?;
                if work.has_cover(place) && work.is_covered(place) {
                    return Err(Refused::CoverOn { location: location.clone() });
                }
                Ok(())
            }
            Action::Record { test, at, reading, source, .. } => {
                work.device(at)?;
                if *source == Source::Card && (!test.has_outside() || work.exercise().card().is_none()) {
                    return Err(Refused::NotOnCard);
                }
                if test.has_figure() != Written::read(reading).is_some() || !test.has_figure() && !reading.is_empty() {
                    return Err(Refused::BadFigure);
                }
                Ok(())
            }
            Action::Confirm { check } if check.is_of_board() && !work.opens_board() => Err(Refused::NoBoardWork),
            Action::Report { at, .. } => self.place_named(at).map(drop),
            Action::TestDead { .. } | Action::Continuity { .. } | Action::Measure { .. } => self.probes_reach(action),
            Action::Park { .. } | Action::Unpark | Action::Conclude { .. } if self.safety.reference().is_none() => {
                Err(Refused::NoReference)
            }
            Action::Park { at } => {
                let point = work.point(at)?;
                self.is_bare(point)?;
                self.in_probes_reach(point, false)?;
                if self.safety.parked() == Some(point) { Err(Refused::SoAlready { at: at.clone() }) } else { Ok(()) }
            }
            Action::Unpark if self.safety.parked().is_none() => Err(Refused::NotParked),
            Action::Diagnose { what, at } => self.suspect(*what, at).map(drop),
            Action::Observe { .. } | Action::Withdraw { .. } if !work.exercise().asks(Stage::Observations) => {
                Err(Refused::NoSuchQuestion)
            }
            Action::Observe { at, what } => {
                let said = self.has_observed(self.observed_at(at)?, *what);
                if said { Err(Refused::SoAlready { at: at.clone() }) } else { Ok(()) }
            }
            Action::Withdraw { at, what } => {
                let said = self.has_observed(self.observed_at(at)?, *what);
                if said { Ok(()) } else { Err(Refused::NotObserved) }
            }
            Action::Predict { positions, lit, live } => {
                let exercise = work.exercise();
                let asked = settings_to_predict(exercise).contains(positions);
                let answered = self.tally.predictions.iter().any(|it| it.positions == *positions);
                let known = |name: &String| exercise.conductor(name).is_ok_and(|it| exercise.predict.contains(&it));
                if !asked || answered || !live.iter().all(known) {
                    return Err(Refused::NoSuchQuestion);
                }
                lit.iter().try_for_each(|it| work.lamp(it).map(drop))
            }
            _ => Ok(()),
        }
    }

    /// The fault that is named, by its place among those that the exercise states.
    fn suspect(&self, what: FaultKind, at: &[String]) -> Result<usize, Refused> {
        let suspects = &self.work.exercise().suspects;
        suspects.iter().position(|it| it.is(what, at)).ok_or(Refused::NoSuchFault)
    }

    /// Keeps what a reading was taken of, where a fault is to be found.
    fn note_reading(&mut self, action: &Action) {
        if !self.work.exercise().asks(Stage::Diagnosis) || self.tally.readings.len() >= Limits::READINGS {
            return;
        }
        let Some((meter, points)) = self.read_by(action) else { return };
        let [a, b] = points;
        let shown = match action {
            Action::Continuity { .. } if self.safety.is_shown_live(&self.work, action) => {
                Shown::Refused(Refusal::Energised)
            }
            Action::Continuity { .. } => circuit::ohms_shown(circuit::ohms_between(&self.work, a, b)),
            _ => circuit::reading(&self.work, meter, a, b).shown,
        };
        let taken = TakenReading { action: self.log.len(), meter, points, shown, work: self.work.clone() };
        self.tally.readings.push(taken);
    }

    /// The instrument that an action reads, so set, and where its probes are; `None` for what reads none. The low-resistance meter
    /// without a tester has its long lead on, nulled.
    pub(crate) fn read_by(&self, action: &Action) -> Option<(Meter, [Point; 2])> {
        let (meter, a, b) = match action {
            Action::Continuity { a, b } => {
                (Meter { function: Function::Continuity, lead: LeadLength::Long, nulled: true }, a, b)
            }
            Action::Measure { function, lead, a, b } => (self.safety.testing().meter(*function, *lead), a, b),
            _ => return None,
        };
        Some((meter, [self.work.point(a).ok()?, self.work.point(b).ok()?]))
    }

    /// Whether an action can be carried out now, by a hand and safely.
    pub fn can(&self, action: &Action) -> bool {
        !self.tally.handed_in
            && self.possible(action).is_ok()
            && self.safety.stops(&self.work, action).is_none()
            && (self.read_by(action).is_some() || self.work.clone().apply(action).is_ok())
    }

    /// The place of a device, a terminal or an end, or a place itself; the nearest name is that of a place.
    fn place_named(&self, at: &str) -> Result<LocationId, Refused> {
        let (work, exercise) = (&self.work, self.work.exercise());
        let device = || work.device(at).map(|it| exercise.terminals[exercise.devices[it].line].location);
        device().or_else(|_| work.point(at).map(|it| work.point_location(it))).or_else(|_| work.location(at))
    }
}

/// Whether work that is only looked over is left as it was found by an action: a pull leaves it so, covers and lamps go back, and
/// no supply comes to what nobody has passed.
fn leaves_as_found(action: &Action) -> bool {
    !matches!(action, Action::MakeUp { .. } | Action::Choose { .. } | Action::BringSupply)
        && (!action.is_handwork() || matches!(action, Action::Tug { .. }))
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum StepBack {
    Undo,
    Redo,
}
