//! A hint: what is wrong in what was done so far. Never what is still to do, which is on the list anyway.

use super::{
    code::{Code, Weight},
    effort::Effort,
    finding::{Finding, Root, Seen},
    sheet::{is_closed_up, lands_free_ends, mark_with},
    unfinished::stays,
};
use crate::attempt::{Attempt, Mode};
use crate::work::{Action, Edit, Work};

/// What a hint tells.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Hint {
    /// What was done so far is right.
    SoFarRight,
    /// The place to look at again; of what is the matter there, no more than the finding's criterion.
    Look(Finding),
    /// What is wrong.
    Wrong(Finding),
}

/// What the hint tells that the last action of the log asked for. Asked for again with nothing done in between, it says
/// what is wrong and not only where.
pub fn hint(attempt: &Attempt) -> Hint {
    let again = attempt.log().iter().rev().nth(1) == Some(&Action::Hint);
    let work = attempt.work();
    let is_closed_up = is_closed_up(work);
    // What is tied back beside the board is still for the supervisor to connect.
    let all_landed = !work.has_tied_back() && work.ends().all(|it| work.is_landed(it));
    let found = mark_with(attempt, Mode::Practice, &Effort::HINT).findings.into_iter();
    let mut found = found.filter(|it| it.root == Root::Itself && it.weight != Weight::Advice && !it.before);
    match found.find(|it| is_mistake(work, it, is_closed_up, all_landed)) {
        None => Hint::SoFarRight,
        Some(it) if again => Hint::Wrong(it),
        Some(it) => Hint::Look(it),
    }
}

/// Whether a finding is wrong now: neither a past act nor merely something not done yet.
fn is_mistake(work: &Work, finding: &Finding, is_closed_up: bool, all_landed: bool) -> bool {
    // A name was said in the past, and is wrong now.
    if finding.code == Code::NameWrong {
        return true;
    }
    let still_to_do = matches!(
        finding.code,
        Code::LooseEnd
            | Code::CoverOff
            | Code::StageMissing
            | Code::PredictionMissing
            | Code::DiagnosisMissing
            | Code::NameMissing
            | Code::NameGuessed
            | Code::ObservationMissed
            | Code::ObservationMisplaced
            | Code::TestMissing
            | Code::TestIncomplete
            | Code::FunctionUntested
            | Code::GrommetMissing
    );
    // What was made up can be taken back.
    let is_act = matches!(finding.seen, Seen::InAction(_)) && finding.code != Code::ObservationInvented;
    let unfinished = lands_free_ends(work, finding) && !stays(finding) && !(finding.repair.is_none() && all_landed)
        || !all_landed && moves_what_is_to_be_altered(work, finding);
    !still_to_do && !is_act && (all_landed || !finding.hidden) && (is_closed_up || !unfinished)
}

/// Whether what would put it right is to move ends that an alteration has to move, and that nobody has come to yet.
fn moves_what_is_to_be_altered(work: &Work, finding: &Finding) -> bool {
    let to_alter = work.exercise().ends_to_alter();
    let is_to_come =
        |it: &Edit| matches!(it, Edit::Move(end, _) if work.is_undisturbed(*end) && to_alter.contains(end));
    finding.repair.as_ref().is_some_and(|edits| edits.iter().all(is_to_come))
}
