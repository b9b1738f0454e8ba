//! Every single slip of the sequence, lines of the table of slips: something unsafe put in before each step of the model in turn, and
//! each step left out in turn.
//!
//! What each must give is worked out from where the steps stand in the log, with nothing asked of the program: when the circuit is
//! on, when it is locked, which cover is off, what is proved dead.

use switchdrop::{
    attempt::Attempt,
    marking::Weight,
    trade::instrument::{Function, loop_impedance::Range},
    work::{Action, Check, Detector},
};

use super::{inspect, measure, model, sheet, sound};
use crate::slips::Row;

/// Where the steps of the model stand.
struct Steps {
    off: usize,
    lock: usize,
    open_rose: usize,
    /// The indicator proved again after the tests at the rose.
    rose_proved: usize,
    connected: usize,
    main_off: usize,
    close_rose: usize,
    main_on: usize,
    unlock: usize,
    on: usize,
    /// The test that opens the residual current device.
    trip: usize,
    reset: usize,
}

impl Steps {
    fn of(log: &[Action]) -> Self {
        let nth = |n: usize, wanted: &dyn Fn(&Action) -> bool| {
            log.iter().enumerate().filter(|it| wanted(it.1)).nth(n).expect("a step of the model").0
        };
        let first = |wanted: &dyn Fn(&Action) -> bool| nth(0, wanted);
        Self {
            off: first(&|it| matches!(it, Action::PowerOff { .. })),
            lock: first(&|it| matches!(it, Action::LockOff { .. })),
            open_rose: first(&|it| matches!(it, Action::RemoveCover { location } if location == "rose")),
            rose_proved: nth(1, &|it| matches!(it, Action::ProveIndicator)),
            connected: first(&|it| matches!(it, Action::Connect { end, .. } if end == "feed/brown@rose")),
            main_off: first(&|it| matches!(it, Action::MainSwitch { on: false })),
            close_rose: first(&|it| matches!(it, Action::FitCover { location } if location == "rose")),
            main_on: first(&|it| matches!(it, Action::MainSwitch { on: true })),
            unlock: first(&|it| matches!(it, Action::Unlock { .. })),
            on: first(&|it| matches!(it, Action::PowerOn { .. })),
            trip: first(&|it| matches!(it, Action::Measure { function: Function::Rcd(_), .. })),
            reset: first(&|it| matches!(it, Action::Reset { .. })),
        }
    }

    /// Whether the circuit is on just before a step.
    fn is_on(&self, at: usize) -> bool {
        at <= self.off || at > self.on && (at <= self.trip || at > self.reset)
    }

    fn is_main_on(&self, at: usize) -> bool {
        at <= self.main_off || at > self.main_on
    }

    fn is_rose_open(&self, at: usize) -> bool {
        at > self.open_rose && at <= self.close_rose
    }

    /// What each unsafe action is just before a step: its code, nothing where it does no harm; no entry where it would be right or
    /// cannot be done.
    fn unsafe_acts(&self, at: usize) -> Vec<(Action, Option<&'static str>)> {
        let mut acts = vec![
            // Used besides a full proof, or before one: no harm.
            (
                Action::TestDead { a: "board.earth".to_owned(), b: "board.earth".to_owned(), with: Detector::Stick },
                None,
            ),
            (
                Action::Identify { location: "rose".to_owned(), devices: vec!["board.2".to_owned()] },
                Some("wrongly-identified"),
            ),
        ];
        if self.is_main_on(at) {
            acts.push((Action::RemoveCover { location: "board".to_owned() }, Some("worked-live")));
        }
        let is_locked = at > self.lock && at <= self.unlock;
        if !self.is_rose_open(at) && !is_locked {
            let code = if self.is_on(at) { "worked-live" } else { "opened-unlocked" };
            acts.push((Action::RemoveCover { location: "rose".to_owned() }, Some(code)));
        }
        if self.is_rose_open(at) && at <= self.rose_proved {
            let (end, terminal) = ("feed/brown@rose".to_owned(), "rose.loop".to_owned());
            acts.push((Action::Connect { end, terminal }, Some("touched-unproved")));
        }
        // Live tests in their stage are right; on what is dead they show nothing.
        if at <= self.on {
            let code = self.is_on(at).then_some("worked-live");
            acts.push((measure(Function::Loop(Range::NoTrip), "board.1.line", "board.earth"), code));
        }
        if at > self.off && at <= self.lock {
            acts.push((Action::PowerOn { device: "board.1".to_owned() }, Some("power-on-unchecked")));
        }
        // What may be done at any time.
        if at > self.connected && at < self.close_rose {
            acts.push((inspect("rose"), None));
        }
        acts.push((Action::Confirm { check: Check::PeopleTold }, None));
        acts
    }
}

fn put_in() -> Row {
    let log = model().attempt.log().to_vec();
    let steps = Steps::of(&log);
    let mut row = Row::new("tested: something unsafe put in");
    let mut before = Attempt::new(sound());
    for at in 0..log.len() - 1 {
        for (act, code) in steps.unsafe_acts(at) {
            // Between the proofs of the indicator nothing else may stand.
            let between = matches!(log[at], Action::TestDead { .. } | Action::ProveIndicator);
            if between && !matches!(act, Action::TestDead { .. }) {
                continue;
            }
            let slip = format!("{act:?} before step {at}");
            let mut attempt = before.clone();
            attempt.act(act).unwrap_or_else(|it| panic!("{slip}: {it}"));
            for step in &log[at..] {
                attempt.act(step.clone()).unwrap_or_else(|it| panic!("{slip}: {step:?}: {it}"));
            }
            let sheet = sheet(&attempt);
            row.judges(&slip, code, &sheet);
            let weighs = sheet.findings.iter().filter(|it| it.weight > Weight::Advice);
            let found: Vec<_> = weighs.map(|it| it.code.word()).collect();
            if found != code.into_iter().collect::<Vec<_>>() {
                row.wrong.push(format!("{slip}: {found:?}, not {code:?}"));
            }
        }
        before.act(log[at].clone()).unwrap();
    }
    row
}

/// Why a step of the model is needed; `None`: the rest does without it.
fn needed(log: &[Action], at: usize) -> Option<&'static str> {
    let proofs: Vec<usize> = (0..log.len()).filter(|it| matches!(log[*it], Action::ProveIndicator)).collect();
    match &log[at] {
        // One circuit: named at one place it is named.
        Action::Identify { .. } => None,
        // The proof after the one place's tests is the proof before the other's, and the other way round.
        Action::ProveIndicator if proofs[1..3].contains(&at) => None,
        _ => Some("a step that is needed"),
    }
}

fn left_out() -> Row {
    let log = model().attempt.log().to_vec();
    let mut row = Row::new("tested: a step left out");
    for at in 0..log.len() {
        // Readings are taken in more places than are needed, and switches put back between; what is needed of them is judged
        // one by one among the slips.
        if matches!(log[at], Action::Measure { .. } | Action::Operate { .. }) {
            continue;
        }
        let mut attempt = Attempt::new(sound());
        for (_, step) in log.iter().enumerate().filter(|it| it.0 != at) {
            // Impossible things follow from what was left out.
            let _ = attempt.act(step.clone());
        }
        row.counts(&format!("step {at}, {:?}, left out", log[at]), needed(&log, at), &sheet(&attempt));
    }
    row
}

pub fn rows() -> Vec<Row> {
    vec![put_in(), left_out()]
}
