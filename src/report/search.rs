//! How the readings led to a hidden fault: what each could tell, and what the best reading could have told then.

use super::story::Story;
use crate::{
    attempt::{Attempt, TakenReading},
    marking::Sheet,
    reason::{Bits, SearchStep, SolveBudget, TrialReading, best_reading},
    trade::instrument::Function,
    wording::{Wording, place, suspect, taken},
    work::{Action, Work},
};

/// What is told of one reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ToldReading {
    /// Which action of the log.
    pub action: usize,
    /// How many of the stated faults fitted before it.
    pub before: usize,
    /// How many fit after it.
    pub after: usize,
    /// What it could be expected to tell.
    pub worth: Bits,
    /// The reading that could have told most then; `None`: none could tell anything, or it was not looked for.
    pub best: Option<TrialReading>,
}

/// Every reading of a search for a fault with the best that could have been taken in its place; empty where no fault is to be found. All of
/// the best are looked for within one budget, so that a long search takes no longer to tell: what comes after it has none.
pub fn told_readings(attempt: &Attempt, sheet: &Sheet) -> Vec<ToldReading> {
    let Some(search) = &sheet.search else { return Vec::new() };
    let mut replayed = attempt.begun_again();
    let mut steps = search.steps.iter().peekable();
    let mut budget = SolveBudget::default();
    let mut told = Vec::new();
    for (number, action) in attempt.log().iter().enumerate() {
        if let Some(step) = steps.next_if(|it| it.action == number) {
            told.push(ToldReading {
                best: best_reading(&replayed, &step.before, &mut budget),
                ..ToldReading::of(step)
            });
        }
        if replayed.act(action.clone()).is_err() {
            break;
        }
    }
    told.extend(search.steps.iter().skip(told.len()).map(ToldReading::of));
    told
}

impl ToldReading {
    fn of(step: &SearchStep) -> Self {
        let SearchStep { action, before, after, worth } = step;
        Self { action: *action, before: before.len(), after: after.len(), worth: *worth, best: None }
    }
}

/// The search in lines: what is wrong, then each reading that the story tells of. Empty where there is no fault to find.
pub fn searched(wording: &Wording, attempt: &Attempt, sheet: &Sheet, story: &Story) -> Vec<String> {
    let work = attempt.work();
    let Some(real) = work.exercise().suspects.get(work.exercise().fault).filter(|_| sheet.search.is_some()) else {
        return Vec::new();
    };
    let mut lines = vec![wording.say("search-real", &[("fault", &suspect(wording, work, real))])];
    let readings = &attempt.tally().readings;
    let told = story.readings.iter().zip(readings);
    lines.extend((1..).zip(told).map(|(number, (told, of))| line(wording, number, told, of)));
    if readings.is_empty() {
        lines.push(wording.say("search-no-reading", &[]));
    }
    let steps = sheet.search.iter().flat_map(|search| &search.steps);
    let fitted = steps.last().map_or(work.exercise().suspects.len(), |step| step.after.len());
    let left = sheet.search.as_ref().map_or(fitted, |it| it.left.len());
    if left < fitted {
        let args = [("before", fitted.to_string()), ("after", left.to_string())];
        lines.push(wording.say("search-seen", &args.each_ref().map(|(name, it)| (*name, it.as_str()))));
    }
    lines
}

fn line(wording: &Wording, number: usize, told: &ToldReading, of: &TakenReading) -> String {
    let head = taken(wording, number, of);
    let [before, after] = [told.before, told.after].map(|it| it.to_string());
    let worth = bits(told.worth);
    let key = match (told.worth, told.before) {
        (_, 0 | 1) => "search-known",
        (Bits(0), _) => "search-nothing-new",
        _ => "search-worth",
    };
    let judged = wording.say(key, &[("before", &before), ("after", &after), ("worth", &worth)]);
    let better =
        told.best.as_ref().filter(|trial| trial.worth > told.worth).and_then(|trial| best(wording, &of.work, trial));
    [Some(head), Some(judged), better].into_iter().flatten().collect::<Vec<_>>().join(" ")
}

fn best(wording: &Wording, work: &Work, best: &TrialReading) -> Option<String> {
    let (key, a, b) = match &best.action {
        Action::Measure { function: Function::Insulation(_), a, b, .. } => ("search-best-insulation", a, b),
        Action::Continuity { a, b } | Action::Measure { a, b, .. } => ("search-best", a, b),
        _ => return None,
    };
    let [a, b] = [a, b].map(|it| place(wording, work, it));
    Some(wording.say(key, &[("place", &a), ("other", &b), ("worth", &bits(best.worth))]))
}

/// Bits with one place.
fn bits(of: Bits) -> String {
    format!("{:.1}", f64::from(of.0) / 100.0)
}
