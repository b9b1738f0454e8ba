//! What only the report of one attempt tells: when each finding arose and what was being done, and what it would have led to.

use super::{
    consequence::{Consequence, consequence},
    moment::moments,
    search::{ToldReading, told_readings},
    would_have::would_have,
};
use crate::{
    attempt::{Act, Attempt, Happened},
    marking::{Finding, Sheet, times},
    wording::{Wording, apart, device, did, figure_written, list, shown, subject},
    work::{Action, Subject, Work},
};

/// The story of an attempt's findings; empty, it tells nothing.
#[derive(Debug, Clone, Default)]
pub struct Story {
    /// For each finding the action of the log, from 0, with which it arose.
    pub moments: Vec<Option<usize>>,
    /// For each action when it was done, milliseconds since the beginning.
    pub times: Vec<u64>,
    /// For each finding that is a cause, what would have happened.
    pub would_have: Vec<Option<Consequence>>,
    /// For each reading that was taken to find a fault, what it could tell.
    pub readings: Vec<ToldReading>,
    /// For each finding that action, and the work after it.
    acts: Vec<Option<(Action, Work)>>,
}

impl Story {
    /// The story of an attempt and its sheet. It replays the attempt many times over; how often is bounded.
    pub fn of(attempt: &Attempt, sheet: &Sheet, times: Vec<u64>) -> Self {
        let moments = moments(attempt, sheet);
        let would_have = (0..sheet.findings.len()).map(|it| consequence(attempt, sheet, it)).collect();
        let mut acts = vec![None; moments.len()];
        let mut replayed = attempt.begun_again();
        for (number, action) in attempt.log().iter().enumerate() {
            let Ok(happened) = replayed.act(action.clone()) else { break };
            // What was stopped was not done; an indicator that failed its proof was not proved.
            let has_failed = *action == Action::ProveIndicator && matches!(happened, Happened::Read(_));
            if has_failed || matches!(happened, Happened::Stopped(_)) {
                continue;
            }
            for (act, _) in acts.iter_mut().zip(&moments).filter(|it| *it.1 == Some(number)) {
                *act = Some((action.clone(), replayed.work().clone()));
            }
        }
        let readings = told_readings(attempt, sheet);
        Self { moments, times, would_have, readings, acts }
    }

    /// The story with no more than when each finding arose.
    pub fn moments(attempt: &Attempt, sheet: &Sheet, times: Vec<u64>) -> Self {
        Self { moments: moments(attempt, sheet), times, ..Self::default() }
    }

    /// When a finding arose, and with what, in words.
    pub fn arose(&self, wording: &Wording, finding: usize) -> Option<String> {
        let action = self.moments.get(finding).copied().flatten()?;
        let when = self.when(wording, action);
        let act = self.acts.get(finding).and_then(Option::as_ref);
        let step = act.map(|(action, work)| did(wording, work, action)).filter(|it| !it.is_empty());
        Some(match step {
            Some(step) => wording.say("arose-with", &[("when", &when), ("step", &step)]),
            None => when,
        })
    }

    fn when(&self, wording: &Wording, action: usize) -> String {
        let number = (action + 1).to_string();
        let Some(seconds) = self.times.get(action).map(|it| it / 1000) else {
            return wording.say("arose-at", &[("number", &number)]);
        };
        let (minutes, seconds) = ((seconds / 60).to_string(), (seconds % 60).to_string());
        wording.say("arose-at-time", &[("number", &number), ("minutes", &minutes), ("seconds", &seconds)])
    }

    /// What the display showed and what was written, for a figure on the test sheet that is not what was read.
    pub fn figures(wording: &Wording, attempt: &Attempt, finding: &Finding) -> Option<String> {
        let Subject::Test(test, at) = finding.at else { return None };
        let mut sheet = attempt.safety().testing().sheet();
        let (_, _, entry) = sheet.find(|it| it.0 == test && it.1 == at).filter(|_| test.has_figure())?;
        let read = shown(wording, entry.shown.as_ref()?);
        let written = figure_written(wording, test, entry)?;
        Some(wording.say("figures-read-and-written", &[("read", &read), ("written", &written)]))
    }

    /// How often the act of a finding was done, each time with its moment and its circuits; `None` for what is no act. They are in the
    /// sheet at once, without a story; then without their times.
    pub fn counted(&self, wording: &Wording, attempt: &Attempt, finding: &Finding) -> Option<String> {
        /// More than these are counted and not listed.
        const LISTED: usize = 40;
        let acts: Vec<&Act> = times(attempt.tally(), finding.code).collect();
        let mut said: Vec<String> = acts.iter().take(LISTED).map(|it| self.one_time(wording, attempt, it)).collect();
        if acts.len() > LISTED {
            said.push(wording.say("counted-more", &[("count", &(acts.len() - LISTED).to_string())]));
        }
        let (count, each) = (acts.len().to_string(), apart(wording, &said));
        let key = if acts.len() == 1 { "counted-once" } else { "counted-times" };
        (!acts.is_empty()).then(|| wording.say(key, &[("count", &count), ("times", &each)]))
    }

    fn one_time(&self, wording: &Wording, attempt: &Attempt, act: &Act) -> String {
        let (work, exercise) = (attempt.work(), attempt.work().exercise());
        let reaching = attempt.safety().circuits_of(exercise, act.at);
        let circuits: Vec<String> = reaching.iter().map(|it| device(wording, exercise, *it)).collect();
        let (number, place) = ((act.action + 1).to_string(), subject(wording, work, act.at));
        let circuits = list(wording, &circuits);
        let mut args = vec![("number", number.as_str()), ("place", &place), ("circuits", &circuits)];
        let Some(seconds) = self.times.get(act.action).map(|it| it / 1000) else {
            return wording.say("counted-step", &args);
        };
        let (minutes, seconds) = ((seconds / 60).to_string(), (seconds % 60).to_string());
        args.extend([("minutes", minutes.as_str()), ("seconds", &seconds)]);
        wording.say("counted-time", &args)
    }

    /// What a finding would have led to, in words.
    pub fn would_have(&self, wording: &Wording, attempt: &Attempt, finding: usize) -> Option<String> {
        let it = self.would_have.get(finding)?.as_ref()?;
        Some(would_have(wording, attempt.work(), it))
    }
}
