//! When in the attempt a finding arose: the first action after which it is there to the end.
//!
//! The attempt is replayed and every rule asked again after each action, without repairs or roots: what costs marks is
//! settled already. It is costly, so only a report of one attempt does it, and it is bounded.

use crate::{
    attempt::Attempt,
    circuit::settings_to_try,
    marking::{Code, Finding, Seen, Sheet, found_now},
    work::{Action, Edit, Subject},
};

/// The most that the rules are asked, counted in combinations of switch positions: each takes some tens of
/// microseconds (an assumption of ours, from `cargo bench`), so that a report waits about a second at most.
const COMBINATIONS: usize = 16_384;
/// The same limit, counted in askings.
const ASKINGS: usize = 2_000;

/// For each finding of a sheet the action of the log, from 0, after which it was there to the end; for one that moving ends puts right,
/// that by which the last of them went where it stands. `None`: it was so before anything was done and never became otherwise, or it is
/// from further back than is looked.
pub fn moments(attempt: &Attempt, sheet: &Sheet) -> Vec<Option<usize>> {
    let known: Vec<Option<Moment>> = sheet.findings.iter().map(|it| by_the_log(attempt, it)).collect();
    let open: Vec<&Finding> =
        sheet.findings.iter().zip(&known).filter(|(_, known)| known.is_none()).map(|it| it.0).collect();
    let mut looked = looked_for(attempt, &open).into_iter();
    known.into_iter().map(|it| it.or_else(|| looked.next()).unwrap_or_default()).collect()
}

/// An action of the log, from 0, if there was one.
type Moment = Option<usize>;

/// What the log tells of a finding by itself, without asking the rules again.
fn by_the_log(attempt: &Attempt, finding: &Finding) -> Option<Moment> {
    match finding.seen {
        // What a cable is not up to was settled as it was chosen, whatever came to be connected to it.
        _ if matches!(finding.at, Subject::Run(_)) => Some(chosen(attempt, finding)),
        // It was there before anything was done.
        _ if finding.code == Code::ObservationMissed => Some(None),
        // What was passed as the power came on is an act, which knows its own number.
        Seen::InAction(it) => Some(Some(it)),
        // No replay shows it. It is as old as the last thing done to its end.
        _ if finding.hidden && !hangs_free(attempt, finding) => Some(at_own_end(attempt, finding)),
        // Where ends have to be moved, the wrong was done as the last of them went where it stands, whatever completed the circuit later. An
        // end that hangs free does so since it came out, whatever else was wrong with it before; or it was never in.
        _ => {
            put(attempt, finding).map(Some).or_else(|| hangs_free(attempt, finding).then(|| came_out(attempt, finding)))
        }
    }
}

/// The same for findings of which the log alone does not tell: the attempt is replayed, and the rules asked after each action.
fn looked_for(attempt: &Attempt, findings: &[&Finding]) -> Vec<Moment> {
    let mut found = vec![When::Unknown; findings.len()];
    if findings.is_empty() {
        return Vec::new();
    }
    let looked: Vec<usize> = (0..attempt.log().len()).filter(|it| may_matter(&attempt.log()[*it])).collect();
    let most = (COMBINATIONS / settings_to_try(attempt.work()).len().max(1)).clamp(1, ASKINGS);
    // The state before the first action that is looked at is asked about too.
    let first = looked.len().saturating_sub(most);
    let before = if first == 0 { None } else { looked.get(first - 1).copied() };
    let mut replayed = attempt.begun_again();
    let mut ask = |replayed: &Attempt, at: Moment| {
        let there = found_now(replayed);
        for (when, finding) in found.iter_mut().zip(findings) {
            let is_there = there.contains(&(finding.code, finding.at));
            *when = match (*when, is_there, at) {
                (_, false, _) => When::NotThere,
                (When::NotThere, true, Some(it)) => When::Since(it),
                (was, true, _) => was,
            };
        }
    };
    if before.is_none() {
        ask(&replayed, None);
    }
    for (number, action) in attempt.log().iter().enumerate() {
        if replayed.act(action.clone()).is_err() {
            break;
        }
        if looked[first..].binary_search(&number).is_ok() || before == Some(number) {
            ask(&replayed, Some(number));
        }
    }
    let moment = |(when, finding): (&When, &&Finding)| match when {
        // A missing or false mark is a matter of its own end, whatever else made that end a line.
        When::Since(it) if matches!(finding.code, Code::MarkMissing | Code::MarkFalse) => {
            Some(at_own_end(attempt, finding).unwrap_or(*it))
        }
        When::Since(it) => Some(*it),
        When::Unknown | When::NotThere => None,
    };
    found.iter().zip(findings).map(moment).collect()
}

/// The last action that put an end which the repair of a finding moves into the terminal where it stands.
fn put(attempt: &Attempt, finding: &Finding) -> Moment {
    let stands: Vec<_> = finding.repair.iter().flatten().filter_map(|it| moved(attempt, it)).collect();
    let connects = |action: &Action| match action {
        Action::Connect { end, terminal } => stands.iter().any(|it| it.0 == *end && it.1 == *terminal),
        _ => false,
    };
    attempt.log().iter().rposition(connects)
}

/// The last action that chose the cable of a finding.
fn chosen(attempt: &Attempt, finding: &Finding) -> Option<usize> {
    let Subject::Run(run) = finding.at else { return None };
    let id = &attempt.work().exercise().runs.get(run)?.id;
    attempt.log().iter().rposition(|it| matches!(it, Action::Choose { cable, .. } if cable == id))
}

fn hangs_free(attempt: &Attempt, finding: &Finding) -> bool {
    finding.at.end(attempt.work()).is_some_and(|it| attempt.work().terminal_of(it).is_none())
}

/// The last action by which the end of a finding came out of a terminal.
fn came_out(attempt: &Attempt, finding: &Finding) -> Option<usize> {
    let end = attempt.work().end_address(finding.at.end(attempt.work())?);
    let does = |it: &Action| matches!(it, Action::Disconnect { end: it } | Action::Tug { end: it } if *it == end);
    attempt.log().iter().rposition(does)
}

/// The last action that connected or marked the end of a finding.
fn at_own_end(attempt: &Attempt, finding: &Finding) -> Option<usize> {
    let end = attempt.work().end_address(finding.at.end(attempt.work())?);
    let does = |it: &Action| matches!(it, Action::Connect { end: it, .. } | Action::Mark { end: it, .. } if *it == end);
    attempt.log().iter().rposition(does)
}

/// The address of an end that an edit moves, and of the terminal that it stands in.
fn moved(attempt: &Attempt, edit: &Edit) -> Option<(String, String)> {
    let Edit::Move(end, _) = edit else { return None };
    let work = attempt.work();
    let terminal = work.exercise().terminals.get(work.terminal_of(*end)?)?;
    Some((work.end_address(*end), terminal.address.clone()))
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum When {
    /// There as far back as was looked.
    Unknown,
    /// Not there when last looked.
    NotThere,
    /// There since this action.
    Since(usize),
}

/// Whether an action can make a finding arise or go: working a switch and proving dead can't, except as acts, which
/// know their own number.
const fn may_matter(action: &Action) -> bool {
    !matches!(action, Action::Operate { .. } | Action::TestDead { .. } | Action::Park { .. } | Action::Unpark)
}
