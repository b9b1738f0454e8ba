//! A blank or half-wired hand-in is `not yet`, said in one line and not in twenty findings (the charter of marking).
//!
//! What is still to be done is put under one finding: free ends and what follows from them, stages not reached, covers off. What
//! was done wrong besides stands as it would in finished work: acts, marks, and what joins that landing a free end cannot part.

use super::{
    code::{Code, Criterion, Weight},
    finding::{Finding, Root, Seen},
    rules::is_test,
    sheet::{CriterionMarks, is_closed_up, lands_free_ends},
};
use crate::{
    attempt::Attempt,
    exercise::{Exercise, Stage},
    work::{Subject, Work},
};

/// Whether work that is credited for a share lies open, without its power having come on: it is still to be done, or was handed in so.
pub(super) fn is_still_to_do(attempt: &Attempt, credited_percent: u32) -> bool {
    credited_percent < 100 && attempt.tally().energised.is_empty() && !is_closed_up(attempt.work())
}

/// Puts what is still to be done under one finding, which costs what all of it does. Safe working is credited for the share of its
/// stages that was done, and function for the share of the ends that are landed: a light that worked before is no merit of a blank hand-in.
pub(super) fn fold(
    attempt: &Attempt,
    findings: &mut Vec<Finding>,
    criteria: &mut [CriterionMarks],
    credited_percent: u32,
) {
    let (work, exercise) = (attempt.work(), attempt.work().exercise());
    let missing = findings.iter().filter(|it| it.code == Code::StageMissing).count();
    let to_do: Vec<bool> = findings.iter().map(|it| is_to_do(work, findings, it)).collect();
    let of_done = |it: &(&Finding, &bool)| !it.1 && it.0.charged == Criterion::SafeWorking;
    let by_acts: u32 = findings.iter().zip(&to_do).filter(of_done).map(|it| it.0.lost).sum();
    for it in criteria.iter_mut().filter(|it| it.criterion == Criterion::SafeWorking) {
        let all = exercise.stages.iter().filter(|it| counts(exercise, **it)).count().max(1);
        it.marks = (it.out_of * all.saturating_sub(missing) as u32 / all as u32).saturating_sub(by_acts);
    }
    for it in criteria.iter_mut().filter(|it| it.criterion == Criterion::Function) {
        it.marks = it.marks.min(it.out_of * credited_percent / 100);
    }
    let lost = findings.iter().zip(&to_do).filter(|it| *it.1).map(|it| it.0.lost).sum();
    let Some(any) = to_do.iter().position(|it| *it) else { return };
    let one = Finding {
        code: Code::WorkUnfinished,
        at: Subject::Whole,
        weight: Weight::Major,
        charged: Criterion::Function,
        lost,
        capped: false,
        root: Root::Itself,
        hidden: false,
        seen: Seen::ByEye,
        repair: None,
        about: "",
        ..findings[any].clone()
    };
    // The other findings keep their order, and critical causes at the head of the list stay before it.
    let kept: Vec<usize> = (0..findings.len()).filter(|it| !to_do[*it]).collect();
    let is_before = |it: &&usize| findings[**it].root == Root::Itself && findings[**it].weight == Weight::Critical;
    let first = kept.iter().take_while(is_before).count();
    let place = |of: usize| kept.iter().position(|it| *it == of).map_or(first, |it| it + usize::from(it >= first));
    let rest = kept.iter().map(|it| {
        let finding = findings[*it].clone();
        match finding.root {
            Root::Of(cause) => Finding { root: Root::Of(place(cause)), ..finding },
            Root::Itself => finding,
        }
    });
    let mut all: Vec<Finding> = rest.collect();
    all.insert(first, one);
    *findings = all;
}

/// Whether a stage counts under safe working.
fn counts(exercise: &Exercise, stage: Stage) -> bool {
    !matches!(stage, Stage::Prediction | Stage::Diagnosis | Stage::Naming | Stage::Observations)
        && !is_test(exercise, stage)
        && (stage != Stage::FunctionalTest || exercise.weights.functional_test == 0)
}

/// Whether a finding is no more than work still to be done.
fn is_to_do(work: &Work, findings: &[Finding], finding: &Finding) -> bool {
    let cause = match finding.root {
        Root::Of(cause) => findings.get(cause).unwrap_or(finding),
        Root::Itself => finding,
    };
    // What is joined wrongly or not at all may just not be joined yet; of the other criteria it is the codes that say "not done".
    let is_work = match finding.code.criterion() {
        Criterion::Function | Criterion::Polarity | Criterion::Earthing | Criterion::Terminations => true,
        Criterion::CableChoice => finding.code == Code::CableUnchosen,
        _ => matches!(
            finding.code,
            Code::StageMissing
                | Code::TestMissing
                | Code::PredictionMissing
                | Code::NameMissing
                | Code::FunctionUntested
                | Code::CoverOff
        ),
    };
    // What was done stays done, and what was there before is nobody's work still to come.
    is_work
        && !finding.before
        && !matches!(finding.seen, Seen::InAction(_))
        && lands_free_ends(work, cause)
        && !stays(cause)
}

/// Whether a cause remains however the free ends are landed: landing more ends parts nothing that is joined, and gives a cable no more cores.
pub(super) fn stays(cause: &Finding) -> bool {
    let is_join = matches!(
        cause.code,
        Code::ShortLineNeutral
            | Code::ShortLineEarth
            | Code::CircuitsJoined
            | Code::MetalEnergised
            | Code::CpcMisused
            | Code::NeutralEarthExchanged
            | Code::NeutralEarthJoined
            | Code::LoadThroughEarth
    );
    cause.code == Code::CoresFew || is_join && cause.repair.is_none()
}
