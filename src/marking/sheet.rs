//! The mark sheet: findings with what each cost, the criteria, the outcome.

use std::{collections::BTreeSet, sync::Arc};

use super::{
    VERSION,
    causes::{self, PlacedDraft},
    chances::{learners_ends, needs_half},
    code::{Code, Criterion, Weight},
    context::Context,
    criteria,
    effort::Effort,
    finding::{Draft, Finding, Root, Seen},
    locked_power, misnamed, observed,
    outcome::{self, Outcome, OutcomeFacts, Unmet},
    pre_existing::Before,
    rules::ask,
    unfinished::{fold, is_still_to_do, stays},
};
use crate::{
    attempt::{Attempt, Mode},
    exercise::{Edition, EndId, Exercise},
    reason::FaultSearch,
    trade::colour::Job,
    work::{Edit, Fault, Subject, Work},
};

/// What an attempt earned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// Version of the marking.
    pub version: u32,
    /// Edition that references are given in.
    pub edition: Edition,
    /// Pass, not yet, or refer.
    pub outcome: Outcome,
    /// Every line of the pass rule that was not met, the gravest first.
    pub unmet: Vec<Unmet>,
    /// Whether the work was handed in.
    pub handed_in: bool,
    /// Marks earned.
    pub marks: u32,
    /// Marks to be had.
    pub out_of: u32,
    /// Each criterion.
    pub criteria: Vec<CriterionMarks>,
    /// Every finding: causes first, then what follows from them.
    pub findings: Vec<Finding>,
    /// How often a hint was asked for.
    pub hints: usize,
    /// Whether something that was wrong before the work began was reported.
    pub told: bool,
    /// Share of workmanship that is credited, per cent: 100, or in half-wired work the share that was done.
    pub credited_percent: u32,
    /// Whether the search for causes came to its bound and sought no further: what stands as a cause of its own may follow from another, and
    /// what has no repair may have one.
    pub sought_no_further: bool,
    /// How the readings led to the hidden fault; `None` where the exercise hides nothing.
    pub search: Option<FaultSearch>,
}

impl Sheet {
    /// Marks that a pass needs, of those to be had.
    pub fn needed(&self, exercise: &Exercise) -> u32 {
        (exercise.pass_mark * self.out_of).div_ceil(100)
    }
}

/// Marks under one criterion.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CriterionMarks {
    /// The criterion.
    pub criterion: Criterion,
    /// Earned.
    pub marks: u32,
    /// To be had.
    pub out_of: u32,
    /// Whether it offers enough chances to err for a pass to need half of it.
    pub half_needed: bool,
    /// Of what is not earned, what no cause under this criterion took: a light that a fault charged elsewhere kept from doing its job
    /// earns nothing for it.
    pub not_awarded: u32,
}

/// What every rule finds in an attempt as it stands, and where, without repairs or roots.
pub(crate) fn found_now(attempt: &Attempt) -> Vec<(Code, Subject)> {
    let none = Before::default();
    let context = Context::new(attempt.work(), attempt.tally(), attempt.safety(), &[], &none);
    ask(&context).into_iter().map(|it| (it.code, it.at)).collect()
}

/// Marks an attempt.
pub fn mark(attempt: &Attempt, mode: Mode) -> Sheet {
    mark_with(attempt, mode, &Effort::SHEET)
}

/// Marks an attempt, seeking causes no further than an effort goes.
pub(super) fn mark_with(attempt: &Attempt, mode: Mode, effort: &Effort) -> Sheet {
    if attempt.work().exercise().hidden_fault().is_none() {
        return judged(attempt, None, mode, effort);
    }
    // A fault that the exercise hides is nobody's doing: the learner is judged by what they made of the rest.
    judged(&attempt.in_sound_installation(), Some(FaultSearch::of(attempt)), mode, effort)
}

/// Judges an attempt, with how a hidden fault was searched for in it.
fn judged(attempt: &Attempt, search: Option<FaultSearch>, mode: Mode, effort: &Effort) -> Sheet {
    let (work, tally, safety) = (attempt.work(), attempt.tally(), attempt.safety());
    let exercise = work.exercise();
    let with = |before: &Before| ask(&Context::new(work, tally, safety, &[], before));
    let mut drafts = with(&Before::knowing(search.clone()));
    let before = Before::of(attempt, &drafts).with_search(search.clone());
    if !before.is_empty() {
        drafts = with(&before);
    }
    let (mut placed, at_bound) = causes::find(attempt, &before, &drafts, effort);
    for (index, cause) in locked_power::follow(attempt, &placed) {
        placed[index].root = Root::Of(cause);
    }
    misnamed::follow(attempt, &before, &mut placed);
    let was_so: Vec<bool> = placed.iter().map(|it| before.has(work, &it.draft)).collect();
    let credited_percent = credited_percent(attempt, &placed, &was_so);
    let mut findings = in_order(exercise, &placed, &was_so);
    observed::judge(attempt, &mut findings);
    let mut criteria = charge(work, &mut findings, credited_percent);
    let still_to_do = is_still_to_do(attempt, credited_percent);
    let unfinished = still_to_do && tally.handed_in;
    if unfinished {
        fold(attempt, &mut findings, &mut criteria, credited_percent);
    }
    let marks = criteria.iter().map(|it| it.marks).sum::<u32>();
    let out_of = criteria.iter().map(|it| it.out_of).sum::<u32>();
    let (outcome, unmet) = outcome::judge(
        &findings,
        &OutcomeFacts {
            mode,
            handed_in: tally.handed_in,
            criteria: &criteria,
            is_all_to_do: unfinished,
            has_enough: marks * 100 >= exercise.pass_mark * out_of,
            is_unfinished: &|it| is_unfinished(attempt, &findings, it),
        },
    );
    Sheet {
        version: VERSION,
        edition: exercise.edition,
        outcome,
        unmet,
        handed_in: tally.handed_in,
        marks,
        out_of,
        criteria,
        findings,
        hints: tally.hints.len(),
        told: before.is_told() || is_kit_told(attempt),
        credited_percent,
        // Of what is still to be done no cause is sought.
        sought_no_further: at_bound && !still_to_do,
        search,
    }
}

/// Whether what was handed out had something the matter with it, and that was reported.
fn is_kit_told(attempt: &Attempt) -> bool {
    let kit = attempt.work().exercise().kit;
    attempt.tally().reported.iter().any(|it| match it.what {
        Fault::Chart => !kit.chart.is_right(),
        Fault::Indicator => !kit.indicator.is_sound(),
        Fault::Wiring => false,
    })
}

/// Causes first, by criterion and place; then consequences. Roots are renumbered to match.
fn in_order(exercise: &Exercise, placed: &[PlacedDraft], was_so: &[bool]) -> Vec<Finding> {
    let addresses: Vec<String> = placed.iter().map(|it| it.draft.at.address(exercise)).collect();
    let heaviest: Vec<&Draft> = (0..placed.len()).map(|it| heaviest(exercise, placed, it)).collect();
    let mut order: Vec<usize> = (0..placed.len()).collect();
    order.sort_by(|a, b| {
        let rank = |it: usize| {
            let follows = placed[it].root != Root::Itself;
            (follows, std::cmp::Reverse(heaviest[it].weight), placed[it].hidden, placed[it].draft.code)
        };
        rank(*a).cmp(&rank(*b)).then_with(|| addresses[*a].cmp(&addresses[*b]))
    });
    order
        .iter()
        .map(|index| {
            let PlacedDraft { draft, root, repair, hidden } = &placed[*index];
            let of_old = matches!(root, Root::Of(cause) if was_so[*cause]);
            let root = match root {
                Root::Itself => Root::Itself,
                Root::Of(cause) => Root::Of(order.iter().position(|it| it == cause).unwrap_or(0)),
            };
            let before = was_so[*index] || of_old;
            let (charged, cost) = cost(exercise, draft, heaviest[*index]);
            Finding {
                code: draft.code,
                at: draft.at,
                weight: heaviest[*index].weight,
                charged,
                lost: if before || root != Root::Itself { 0 } else { cost },
                capped: false,
                root,
                before,
                hidden: *hidden,
                seen: draft.seen.clone(),
                repair: repair.clone(),
                about: draft.about,
            }
        })
        .collect()
}

/// What a finding is charged as: itself, or the dearest of the heavier findings that follow from it. An act stands for
/// itself: what was done is no measure of what is still wrong.
fn heaviest<'a>(exercise: &Exercise, placed: &'a [PlacedDraft], index: usize) -> &'a Draft {
    let follows = placed.iter().filter(|it| it.root == Root::Of(index)).map(|it| &it.draft);
    let standing = follows.filter(|it| !matches!(it.seen, Seen::InAction(_)));
    let available = |it: &Draft| criteria::of(it.code.criterion()).available(exercise);
    // An exchange has no weight of its own.
    let own = &placed[index].draft;
    let heavier =
        standing.filter(|it| it.weight > own.weight || it.weight == own.weight && own.code == Code::CoresExchanged);
    heavier.max_by_key(|it| (it.weight, available(it))).unwrap_or(own)
}

/// The criterion under which a cause is charged, and what it costs there: as the heaviest of what follows, or as itself where that costs
/// more, since a second fault makes none cheaper.
fn cost(exercise: &Exercise, own: &Draft, heaviest: &Draft) -> (Criterion, u32) {
    let cost = |it: &Draft| (it.code.criterion(), price(exercise, it.code, it.weight));
    let (own_cost, heaviest_cost) = (cost(own), cost(heaviest));
    // An exchange has no weight of its own.
    if own.code != Code::CoresExchanged && own_cost.1 > heaviest_cost.1 { own_cost } else { heaviest_cost }
}

/// Charges each cause to its criterion, never more than the criterion has, and gives what is left.
fn charge(work: &Work, findings: &mut [Finding], credited_percent: u32) -> Vec<CriterionMarks> {
    let exercise = work.exercise();
    // A cable that the learner chose gives no more chances than one still to be chosen.
    let drawn = Arc::clone(exercise).as_drawn();
    Criterion::ALL
        .iter()
        .map(|it| criteria::of(*it))
        .map(|it| (it, it.available(exercise)))
        // What an exercise does not ask for has no line.
        .filter(|it| it.1 > 0)
        .map(|(judged, out_of)| {
            let criterion = judged.criterion;
            let mut left = if judged.is_workmanship { out_of * credited_percent / 100 } else { out_of };
            for finding in findings.iter_mut().filter(|it| it.charged == criterion && it.root == Root::Itself) {
                finding.capped = finding.lost > left;
                finding.lost = finding.lost.min(left);
                left -= finding.lost;
            }
            let not_awarded = not_awarded(work, findings, criterion, credited_percent).min(left);
            left -= not_awarded;
            CriterionMarks { criterion, marks: left, out_of, half_needed: needs_half(&drawn, criterion), not_awarded }
        })
        .collect()
}

/// What is not awarded under a criterion for what follows from causes charged elsewhere: a consequence costs nothing only within its
/// criterion. What a light or a fan was to do is work that was not done. While a cpc stands where line or neutral belongs, line and neutral
/// are not where they belong; and nobody has identified it by a mark that says so. An end that hangs free is not terminated, whatever else it
/// does. The rest is one fault seen from several sides.
fn not_awarded(work: &Work, findings: &[Finding], criterion: Criterion, credited_percent: u32) -> u32 {
    let exercise = work.exercise();
    let charged = |it: &Finding| match it.root {
        Root::Of(cause) => findings.get(cause).map_or(it.charged, |of| of.charged),
        Root::Itself => it.charged,
    };
    let mut elsewhere = findings.iter().filter(|it| !it.before && charged(it) != criterion);
    let is_misused = |it: &Finding| it.code == Code::CpcMisused;
    let is_said_to_be_live = |finding: &Finding| {
        let mark = finding.at.end(work).and_then(|end| Some((work.mark_of(end)?, work.end_facts(end).era)));
        mark.is_some_and(|(mark, era)| mark.job(era).is_some_and(|it| it != Job::Protective))
    };
    let whole = |is_lost: bool| if is_lost { criteria::of(criterion).available(exercise) } else { 0 };
    match criterion {
        Criterion::Function => {
            let fails = elsewhere
                .filter(|it| matches!(it.code, Code::ControlWrong | Code::FanWrong) && it.root != Root::Itself);
            fails.map(|it| price(exercise, it.code, it.weight)).sum()
        }
        // Whatever kept the learner from it, it was not done.
        Criterion::FunctionalTest => whole(elsewhere.any(|it| it.code == Code::FunctionUntested)),
        Criterion::Polarity => whole(elsewhere.any(is_misused)),
        Criterion::Identification => whole(elsewhere.any(|it| is_misused(it) && is_said_to_be_live(it))),
        // Half-wired work is credited for the share of its ends that are landed already.
        Criterion::Terminations if credited_percent == 100 => {
            let is_free = |it: &EndId| work.terminal_of(*it).is_none();
            let is_open = |it: &&Finding| matches!(it.code, Code::LooseEndLive | Code::CpcOpen);
            let free: BTreeSet<EndId> =
                elsewhere.filter(is_open).filter_map(|it| it.at.end(work)).filter(is_free).collect();
            price(exercise, Code::LooseEnd, Weight::Major).saturating_mul(free.len() as u32)
        }
        _ => 0,
    }
}

/// What a cause costs: a critical one its whole criterion, a major one a quarter of it (common practice, no source); a
/// control its share; a wrong prediction its share, and so a name, and a cable that will not do.
fn price(exercise: &Exercise, code: Code, weight: Weight) -> u32 {
    let out_of = criteria::of(code.criterion()).available(exercise);
    let share = |parts: usize| out_of.div_ceil(parts.max(1) as u32);
    match (code, weight) {
        (_, Weight::Advice) => 0,
        (_, Weight::Critical)
        | (Code::PredictionMissing | Code::FunctionUntested | Code::DiagnosisMissing | Code::DiagnosisWrong, _) => {
            out_of
        }
        // It is what is wrong, and nothing shows it: half a diagnosis (common practice, no source).
        (Code::DiagnosisUnproved, _) => share(2),
        (Code::ControlWrong | Code::CoresFew, _) => share(exercise.controls.len()),
        (Code::CableUnchosen | Code::CableThin | Code::VoltDrop, _) => share(exercise.runs.len()),
        (Code::NameMissing | Code::NameWrong | Code::NameGuessed, _) => share(exercise.unmarked_ids().count()),
        (Code::PredictionWrong, _) => share(crate::attempt::settings_to_predict(exercise).len()),
        (_, Weight::Major) => share(4),
    }
}

/// Half-wired work in which a control fails is credited for the share of the
/// learner's ends that are in terminals, per cent, rounded down; all other work whole, since its marks are lost at causes.
fn credited_percent(attempt: &Attempt, placed: &[PlacedDraft], was_so: &[bool]) -> u32 {
    let work = attempt.work();
    let (free, all) = (free_ends(work), learners_ends(work.exercise()));
    let mut own = placed.iter().zip(was_so).filter(|it| !it.1);
    let wrong = own.any(|(it, _)| matches!(it.draft.code, Code::ControlWrong | Code::FanWrong));
    if is_half_wired(work) && wrong { ((all - free) * 100 / all) as u32 } else { 100 }
}

/// Whether more ends are free than a slip leaves.
pub(super) fn is_half_wired(work: &Work) -> bool {
    /// As many ends as the fewest moves may land.
    const A_SLIP: usize = 2;
    free_ends(work) > A_SLIP
}

/// The ends for the learner to land that are in no terminal, those of cables still to be chosen too.
fn free_ends(work: &Work) -> usize {
    let exercise = work.exercise();
    let own = work.ends().filter(|it| exercise.end_facts(*it).is_some() && exercise.is_learners(*it));
    learners_ends(exercise).saturating_sub(own.filter(|it| work.is_landed(*it)).count())
}

/// Whether a critical finding is only work not yet done: the power never came on, not every place is closed up
/// after handwork, and what would put it right is to land ends that are still free, to tighten
/// what lies open, or more than two moves.
fn is_unfinished(attempt: &Attempt, findings: &[Finding], finding: &Finding) -> bool {
    let work = attempt.work();
    let cause = match finding.root {
        Root::Of(index) => findings.get(index).unwrap_or(finding),
        Root::Itself => finding,
    };
    attempt.tally().energised.is_empty() && !is_closed_up(work) && lands_free_ends(work, cause) && !stays(cause)
}

/// Whether every place of the learner's is closed up after handwork: the work is claimed to be done.
pub(super) fn is_closed_up(work: &Work) -> bool {
    let mut has_work = vec![false; work.exercise().locations.len()];
    for it in work.ends().filter(|it| !work.is_undisturbed(*it) && work.terminal_of(*it).is_some()) {
        has_work[work.end_location(it).index()] = true;
    }
    let mut places = work.ends().filter(|it| work.exercise().is_learners(*it)).map(|it| work.end_location(it));
    places.all(|it| work.is_covered(it) && has_work[it.index()])
}

/// Whether what would put a cause right is no more than work still to be done: to land ends that are free, to join what waits in a connector
/// for now, to tighten what lies open, or moves that nobody knows.
pub(super) fn lands_free_ends(work: &Work, cause: &Finding) -> bool {
    let waits = |end: EndId| !work.is_landed(end);
    cause.repair.as_ref().is_none_or(|edits| {
        edits.iter().all(|it| match it {
            Edit::Move(end, Some(to)) => waits(*end) || work.ends_in(*to).any(waits),
            Edit::Tail(..) | Edit::TakeLinks => true,
            Edit::Tighten(terminal) => !work.is_covered(work.exercise().terminals[*terminal].location),
            _ => false,
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exercise::{SHIPPED, Seed, draw};

    fn exercise() -> Exercise {
        draw(SHIPPED.iter().find(|it| it.0 == "one-way-rose").unwrap().1, Seed(1)).unwrap()
    }

    fn draft(code: Code, weight: Weight) -> Draft {
        Draft::new(code, Subject::Whole, weight)
    }

    /// "No fewer marks are lost than for the dearer alone": one light of two that does not work costs half of function's 25, rounded up, however grave
    /// what follows from it, where that is charged less (identification, all of its 10). The other way round the graver counts.
    /// An exchange has no price of its own.
    #[test]
    fn a_cause_costs_what_the_dearer_of_it_and_the_gravest_costs() {
        let exercise = exercise();
        let dark = draft(Code::ControlWrong, Weight::Major);
        let mark = draft(Code::MarkFalse, Weight::Critical);
        assert_eq!(cost(&exercise, &dark, &mark), (Criterion::Function, 13));
        assert_eq!((exercise.weights.function, exercise.controls.len(), exercise.weights.identification), (25, 2, 10));
        let slack = draft(Code::LooseEnd, Weight::Major);
        assert_eq!(cost(&exercise, &slack, &mark).0, Criterion::Identification);
        let exchange = draft(Code::CoresExchanged, Weight::Critical);
        assert!(exercise.weights.polarity > exercise.weights.identification);
        assert_eq!(cost(&exercise, &exchange, &mark), (Criterion::Identification, exercise.weights.identification));
    }

    /// What an exchange is charged as is the heaviest of what follows from it, if only as heavy as itself; any other cause only
    /// as what is heavier.
    #[test]
    fn an_exchange_is_charged_as_what_follows_from_it() {
        let exercise = exercise();
        for (own, follows, charged) in [
            (Code::CoresExchanged, Weight::Major, Code::MarkMissing),
            (Code::CoresExchanged, Weight::Critical, Code::MarkMissing),
            (Code::CoresExchanged, Weight::Advice, Code::CoresExchanged),
            (Code::LooseEnd, Weight::Major, Code::LooseEnd),
            (Code::LooseEnd, Weight::Critical, Code::MarkMissing),
        ] {
            let placed = |draft, root| PlacedDraft { draft, root, repair: None, hidden: false };
            let all = [
                placed(draft(own, Weight::Major), Root::Itself),
                placed(draft(Code::MarkMissing, follows), Root::Of(0)),
                placed(draft(Code::ControlWrong, Weight::Critical), Root::Itself),
            ];
            assert_eq!(heaviest(&exercise, &all, 0).code, charged, "{own:?} {follows:?}");
        }
    }
}
