//! What undo does not take back: acts, power-ons and predictions, in the order they happened.

use super::safety::ProofGap;
use crate::{
    circuit::Meter,
    exercise::{DeviceId, LampId, LocationId},
    trade::instrument::Shown,
    work::{Action, Fault, Flaw, Point, Subject, Work},
};

/// The tally of an attempt.
#[derive(Debug, Clone, Default)]
pub struct Tally {
    /// Acts with a consequence.
    pub acts: Vec<Act>,
    /// Each time power reached the work, or a switch was worked with the power on and something opened.
    pub energised: Vec<Energised>,
    /// Predictions, the first for each setting.
    pub predictions: Vec<Prediction>,
    /// What was read, where a fault is to be found.
    pub readings: Vec<TakenReading>,
    /// What was said to be wrong, of the faults that the exercise states. The last is the answer.
    pub diagnoses: Vec<Diagnosis>,
    /// What was said to be wrong in the work as it was found, and not taken back.
    pub observed: Vec<Observed>,
    /// Work that was done again: the first step of each time.
    pub redone: Vec<Redone>,
    /// Actions of the log that asked for a hint.
    pub hints: Vec<usize>,
    /// What was reported as wrong before the work began.
    pub reported: Vec<Reported>,
    /// Something failed, and nothing has been put right since.
    pub(super) failed: Option<Why>,
    /// Times that handwork was taken back.
    pub undone: usize,
    /// Whether the work was handed in.
    pub handed_in: bool,
}

/// Something a safe worker does not do. It was stopped, and changed nothing in the work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Act {
    /// What was done, by its kind.
    pub kind: ActKind,
    /// The place.
    pub at: Subject,
    /// Which action of the log, from 0.
    pub action: usize,
    /// For a hand that went to what was not proved dead: what was still to be done.
    pub lacked: Option<ProofGap>,
}

/// The kinds of act. How much each weighs is for the marking to say.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ActKind {
    /// Touched or opened something that was on.
    WorkedLive,
    /// Opened a place whose devices were off but not locked.
    OpenedUnlocked,
    /// Touched a conductor before the place was proved dead.
    TouchedUnproved,
    /// Named the devices that feed a place, and missed one.
    WronglyIdentified,
    /// Went to switch on with a cover off.
    PowerOnOpen,
    /// Went to switch on with a check, a reading or a prediction outstanding.
    PowerOnUnchecked,
    /// Went to reset a device that had opened, without a dead test since.
    ResetUntested,
    /// Took the earthing conductor off with something not off and locked, or went to take the lock off or switch on without it back,
    /// tight and read through.
    Unearthed,
    /// Went to open something on a training board that had its supply, without having proved it dead with the plug in hand.
    BenchUnproved,
    /// Went to open the board with second sources not looked for, or beside live tails with no supervisor present.
    BoardUnready,
    /// Offered a voltage stick or a multimeter as proof of dead.
    WrongInstrument,
}

/// Something reported as wrong before the work began.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reported {
    /// What is wrong there.
    pub what: Fault,
    /// At which place.
    pub at: LocationId,
    /// Which action of the log.
    pub action: usize,
}

/// Something said to be wrong in the work as it was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Observed {
    /// What is wrong.
    pub what: Flaw,
    /// The end, terminal or place.
    pub at: Subject,
    /// Which action of the log.
    pub action: usize,
}

/// Work that was done again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Redone {
    /// What made it necessary.
    pub why: Why,
    /// Where: the end, terminal, cable or place that was worked on first.
    pub at: Subject,
    /// Which action of the log.
    pub action: usize,
}

/// Why work had to be done again.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// A device opened by itself.
    Tripped,
    /// A line of the test sheet was said not to be acceptable.
    TestFailed,
}

impl Tally {
    /// Whether something was reported: wiring at that place; the chart and the indicator, of which there is one each, anywhere.
    pub fn is_reported(&self, what: Fault, at: LocationId) -> bool {
        self.reported.iter().any(|it| it.what == what && (it.at == at || what != Fault::Wiring))
    }

    /// Notes handwork, action `number` of the log: after a failure it counts as work done again. A pull does not count.
    pub(super) fn note_work(&mut self, work: &Work, action: &Action, number: usize) {
        if let Some(at) = work.worked_on(action)
            && let Some(why) = self.failed.take()
        {
            self.redone.push(Redone { why, at, action: number });
        }
    }
}

/// Power reached the work.
#[derive(Debug, Clone)]
pub struct Energised {
    /// Which action of the log.
    pub action: usize,
    /// The work as it was then, with the device on.
    pub work: Work,
    /// Devices that opened.
    pub tripped: Vec<DeviceId>,
}

/// A reading that was taken to find a fault.
#[derive(Debug, Clone)]
pub struct TakenReading {
    /// Which action of the log.
    pub action: usize,
    /// How the instrument was set.
    pub meter: Meter,
    /// Where its two probes were.
    pub points: [Point; 2],
    /// What it showed.
    pub shown: Shown,
    /// The work as it was then.
    pub work: Work,
}

/// What the learner said is wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Diagnosis {
    /// Which action of the log.
    pub action: usize,
    /// Which fault, by its place among those that the exercise states.
    pub suspect: usize,
}

/// What the learner said would happen.
#[derive(Debug, Clone)]
pub struct Prediction {
    /// Which action of the log.
    pub action: usize,
    /// A position for each switch.
    pub positions: Vec<u8>,
    /// Lamps said to light.
    pub lit: Vec<LampId>,
    /// Conductors (by index) said to be energised.
    pub live: Vec<usize>,
    /// The work as it was then; of wiring that is given, as it was found.
    pub work: Work,
}
