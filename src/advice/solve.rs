//! The solver of exercises: from what an exercise asks for to a list of actions that earns full marks.
//!
//! It works as a careful learner does, and knows no more of the exercise than the program does: cables are chosen, the work is isolated,
//! ends are joined by a wiring that `wiring.rs` looks for, tests are taken as they are still asked for, what will happen is said, and
//! the power comes on. Each act goes through [`Attempt::act`], so that what is impossible or unsafe stops the solver as it would a hand; what
//! it has done is then marked as set work. Everything is bounded by counts.

mod choosing;
mod finding;
mod handwork;
mod isolation;
mod looking;
mod measuring;
mod naming;
mod power;

use std::sync::Arc;

use crate::{
    attempt::{ActKind, Attempt, Happened, Mode},
    exercise::{DeviceId, Exercise, Stage},
    marking::{Outcome, Sheet, mark},
    work::{Action, Refused},
};

/// Most actions of a model. The longest of the shipped exercises needs some two hundred.
const MOST_ACTIONS: usize = 4_000;

/// A list of actions that does an exercise and earns everything.
#[derive(Debug, Clone)]
pub struct Model {
    /// What was done.
    pub attempt: Attempt,
    /// Its sheet: a pass, with full marks.
    pub sheet: Sheet,
}

/// How far the solver came, and why no further.
#[derive(Debug, Clone)]
pub struct Unsolved {
    /// What it had done by then.
    pub attempt: Box<Attempt>,
    /// What is in the way.
    pub lacks: Lacks,
}

/// What keeps the solver from full marks.
#[derive(Debug, Clone)]
pub enum Lacks {
    /// No cable on offer for a run (by its place in the exercise's list) has the cores that its lights need.
    Cable(usize),
    /// No wiring of what is there does a control (by its place in the exercise's list).
    Wiring(usize),
    /// The search for a wiring met its bound, or there is a fan, or a switch of a sort that it does not know.
    WiringUnknown,
    /// No end of a protective conductor can be joined at a place: no terminal for it there has room.
    Earth(crate::exercise::LocationId),
    /// A device with which no lamp is seen to go out, so that nothing shows what it feeds.
    NotShown(DeviceId),
    /// The learner opens the board to test, which the solver does not do yet.
    OwnBoard,
    /// A hand can't do what comes next.
    Impossible(Box<Action>, Box<Refused>),
    /// What comes next would be stopped as unsafe.
    Unsafe(Box<Action>, ActKind),
    /// These devices open at what comes next.
    Opens(Box<Action>, Vec<DeviceId>),
    /// A stage that nothing more can be done for and that is not done.
    Stage(Stage),
    /// More actions than the solver's bound.
    TooLong,
    /// All was done, and the sheet is no pass with full marks.
    Marks(Box<Sheet>),
}

/// Looks for actions that earn full marks in an exercise, and marks them.
///
/// # Errors
/// What is in the way; a sheet that is short of full marks among it.
pub fn solve(exercise: &Arc<Exercise>) -> Result<Model, Unsolved> {
    let mut chosen = choosing::first(exercise);
    loop {
        let mut solver = Solver { attempt: Attempt::new(Arc::clone(exercise)) };
        let came = solver.whole(&chosen);
        let attempt = solver.attempt;
        let lacks = match came {
            Ok(()) => {
                let sheet = mark(&attempt, Mode::Set);
                if sheet.outcome == Outcome::Pass && sheet.marks == sheet.out_of {
                    return Ok(Model { attempt, sheet });
                }
                if let Some(other) = choosing::better(&sheet, &chosen) {
                    chosen = other;
                    continue;
                }
                Lacks::Marks(Box::new(sheet))
            }
            Err(lacks) => lacks,
        };
        return Err(Unsolved { attempt: Box::new(attempt), lacks });
    }
}

/// A hand that does an exercise.
struct Solver {
    attempt: Attempt,
}

impl Solver {
    /// The whole exercise, handed in.
    fn whole(&mut self, chosen: &choosing::RunChoices) -> Result<(), Lacks> {
        if self.exercise().asks(Stage::Diagnosis) {
            self.diagnoses()?;
        }
        if !self.exercise().asks_for_power() {
            if self.exercise().is_inspected() {
                self.looks_over()?;
            }
            self.predicts()?;
            return self.does(Action::HandIn).map(drop);
        }
        self.chooses(chosen)?;
        if self.attempt.work().opens_board() && self.exercise().has_test_sheet() {
            return Err(Lacks::OwnBoard);
        }
        if self.exercise().asks(Stage::Isolation) {
            self.isolates()?;
        }
        self.names_everything()?;
        self.joins_everything()?;
        self.tests_dead()?;
        self.predicts()?;
        self.powers_on()?;
        self.tests_live()?;
        self.works_switches()?;
        self.does(Action::HandIn).map(drop)
    }

    fn exercise(&self) -> Arc<Exercise> {
        Arc::clone(self.attempt.work().exercise())
    }

    /// Does what comes next.
    fn does(&mut self, action: Action) -> Result<Happened, Lacks> {
        if self.attempt.log().len() >= MOST_ACTIONS {
            return Err(Lacks::TooLong);
        }
        match self.attempt.act(action.clone()) {
            Ok(Happened::Stopped(act)) => Err(Lacks::Unsafe(Box::new(action), act.kind)),
            Ok(Happened::Tripped(devices)) => Err(Lacks::Opens(Box::new(action), devices)),
            Ok(happened) => Ok(happened),
            Err(refused) => Err(Lacks::Impossible(Box::new(action), Box::new(refused))),
        }
    }

    /// Puts the switches so.
    fn sets(&mut self, positions: &[u8]) -> Result<(), Lacks> {
        let exercise = self.exercise();
        for ((id, switch), position) in exercise.switches.with_ids().zip(positions) {
            if self.attempt.work().positions().get(id.index()) != Some(position) {
                self.does(Action::Operate { switch: switch.address.clone(), position: *position })?;
            }
        }
        Ok(())
    }
}
