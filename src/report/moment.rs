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
    let mut found = vec![When::Unknown; sheet.findings.len()];
    let looked: Vec<usize> = (0..attempt.log().len()).filter(|it| may_matter(&attempt.log()[*it])).collect();
    let most = (COMBINATIONS / settings_to_try(attempt.work()).len().max(1)).clamp(1, ASKINGS);
    // The state before the first action that is looked at is asked about too.
    let first = looked.len().saturating_sub(most);
    let before = if first == 0 { None } else { looked.get(first - 1).copied() };
    let mut replayed = attempt.begun_again();
    let standing = sheet.findings.iter().any(|it| !matches!(it.seen, Seen::InAction(_)));
    let mut ask = |replayed: &Attempt, at: Option<usize>| {
        // What was passed as the power came on is an act, which knows its own number.
        let there = found_now(replayed);
        for (when, finding) in found.iter_mut().zip(&sheet.findings) {
            let is_there = there.contains(&(finding.code, finding.at));
            *when = match (*when, is_there, at) {
                (_, false, _) => When::NotThere,
                (When::NotThere, true, Some(it)) => When::Since(it),
                (was, true, _) => was,
            };
        }
    };
    if standing && before.is_none() {
        ask(&replayed, None);
    }
    for (number, action) in attempt.log().iter().enumerate().filter(|_| standing) {
        if replayed.act(action.clone()).is_err() {
            break;
        }
        if looked[first..].binary_search(&number).is_ok() || before == Some(number) {
            ask(&replayed, Some(number));
        }
    }
    // Where ends have to be moved, the wrong was done as the last of them went where it stands, whatever completed the circuit later.
    let put = |finding: &Finding| {
        let stands: Vec<_> = finding.repair.iter().flatten().filter_map(|it| moved(attempt, it)).collect();
        let connects = |action: &Action| match action {
            Action::Connect { end, terminal } => stands.iter().any(|it| it == &(end.clone(), terminal.clone())),
            _ => false,
        };
        attempt.log().iter().rposition(connects)
    };
    let moment = |(when, finding): (&When, &Finding)| match (&finding.seen, when) {
        // What a cable is not up to was settled as it was chosen, whatever came to be connected to it.
        _ if matches!(finding.at, Subject::Run(_)) => chosen(attempt, finding),
        (Seen::ByEye | Seen::InCase(_), When::Since(_)) if put(finding).is_some() => put(finding),
        // An end that hangs free does so since it came out, whatever else was wrong with it before; or it was never in.
        (Seen::ByEye | Seen::InCase(_), _) if hangs_free(attempt, finding) => came_out(attempt, finding),
        // No replay shows it. It is as old as the last thing done to its end.
        _ if finding.hidden => at_own_end(attempt, finding),
        // A missing or false mark is a matter of its own end, whatever else made that end a line.
        (Seen::ByEye, When::Since(it)) if matches!(finding.code, Code::MarkMissing | Code::MarkFalse) => {
            Some(at_own_end(attempt, finding).unwrap_or(*it))
        }
        (Seen::InAction(it), _) | (_, When::Since(it)) => Some(*it),
        _ => None,
    };
    found.iter().zip(&sheet.findings).map(moment).collect()
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
