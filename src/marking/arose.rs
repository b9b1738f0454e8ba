//! The moment in the attempt when each finding arose: the earliest step after which it stays to the end.
//!
//! Found by replaying the log and asking the rules after each step, so it is dear, and asked for one report at a time. What
//! was there before anything was done (nothing is connected yet) has no moment, unless a later step put an end where it
//! must not be.

use super::{
    context::Context,
    finding::{Finding, Seen},
    rules::RULES,
    sheet::Sheet,
};
use crate::{
    circuit::Physics,
    work::{Action, Attempt, Edit, Point, Work},
};

/// So many states of the work are asked at most; a longer log is asked at even strides, and then step by step where
/// something changed.
const ASKED: usize = 400;

/// For each finding of the sheet the action, from 0, with which it arose.
pub fn arose(attempt: &Attempt, sheet: &Sheet) -> Vec<Option<usize>> {
    if sheet.findings.is_empty() {
        return Vec::new();
    }
    let steps = attempt.log().len();
    let stride = steps.div_ceil(ASKED).max(1);
    let coarse: Vec<usize> = (0..steps).filter(|it| it % stride == stride - 1).collect();
    let mut since = last_absent(attempt, &sheet.findings, &coarse);
    if stride > 1 {
        // Between the last step asked that did not have it and the next asked.
        let mut fine: Vec<usize> = since.iter().flatten().flat_map(|it| it + 1..(it + stride).min(steps)).collect();
        fine.sort_unstable();
        fine.dedup();
        fine.truncate(ASKED);
        let finer = last_absent(attempt, &sheet.findings, &fine);
        since = since.into_iter().zip(finer).map(|(coarse, fine)| fine.max(coarse)).collect();
    }
    let first = |(finding, since): (&Finding, Option<usize>)| match (&finding.seen, since) {
        (Seen::InAction(action), _) => Some(*action),
        (_, Some(absent)) => Some(absent + 1).filter(|it| *it < steps),
        (_, None) => last_on(attempt, finding),
    };
    sheet.findings.iter().zip(since).map(first).collect()
}

/// For each finding the last of these steps after which it was not there; `None` where it was there after all of them.
fn last_absent(attempt: &Attempt, findings: &[Finding], asked: &[usize]) -> Vec<Option<usize>> {
    let mut since = vec![None; findings.len()];
    let mut again = Attempt::new(attempt.work().exercise().clone());
    let mut asked = asked.iter().copied().peekable();
    for (number, action) in attempt.log().iter().enumerate() {
        if asked.peek().is_none() || again.act(action.clone(), &Physics).is_err() {
            break;
        }
        if asked.next_if_eq(&number).is_none() {
            continue;
        }
        let ctx = Context::new(again.work(), again.tally(), again.safety(), &[]);
        let mut drafts = Vec::new();
        for rule in RULES {
            rule(&ctx, &mut drafts);
        }
        for (finding, since) in findings.iter().zip(&mut since) {
            if !drafts.iter().any(|it| it.key() == (finding.code, finding.at.as_str())) {
                *since = Some(number);
            }
        }
    }
    since
}

/// The last step that handled an end or a terminal which the finding's repair would change: what was wrong all along was
/// done then.
fn last_on(attempt: &Attempt, finding: &Finding) -> Option<usize> {
    let work = attempt.work();
    let edits = finding.repair.as_deref()?;
    let at = |action: &Action| edits.iter().any(|it| is_on(work, action, it));
    attempt.log().iter().rposition(at)
}

fn is_on(work: &Work, action: &Action, edit: &Edit) -> bool {
    match (action, edit) {
        (Action::Connect { end, .. } | Action::Disconnect { end }, Edit::Move(of, _))
        | (Action::Mark { end, .. } | Action::Unmark { end }, Edit::Mark(of, _))
        | (Action::Strip { end, .. } | Action::Cut { end, .. } | Action::Fold { end }, Edit::Prepare(of, _)) => {
            work.end_address(*of) == *end
        }
        (Action::Tighten { terminal, .. }, Edit::Slacken(of)) => work.point_address(Point::Terminal(*of)) == *terminal,
        _ => false,
    }
}
