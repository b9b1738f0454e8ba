//! What was wrong before the learner came. It costs nothing by itself, but what is dangerous must be reported before
//! the power comes on.
//!
//! Worked out by marking the wiring as the learner found it; no scenario says it. For this the learner's cpcs are taken to be where
//! they belong, so that an earth still missing is not taken for an old fault. The other cores to be joined hang free, which can be the
//! cause of nothing but a lamp or a fan that lacks what they are to bring.

use std::{cell::OnceCell, collections::BTreeSet, sync::Arc};

use super::{
    code::{Code, Criterion, Weight},
    context::{Context, ever},
    finding::{Draft, Seen},
    roots::is_effect,
    rules::{ask_wiring, earth_terminal},
};
use crate::{
    attempt::{Attempt, Energised},
    circuit::{Groups, Reach, settings_to_try},
    exercise::{DeviceId, EndId, Exercise, LampId, LocationId, TerminalId},
    reason::FaultSearch,
    trade::colour::{Colour, Mark},
    work::{Action, Edit, Fault, Point, Subject, Work},
};

/// What was wrong.
#[derive(Debug, Default)]
pub(super) struct Before {
    wrong: Vec<FoundWrong>,
    lamps: Vec<LampId>,
    /// By place in `wrong`, with the action that brought the power.
    passed: Vec<(usize, usize)>,
    told: bool,
    /// What each point was joined to as the work was found, with the work.
    as_found: OnceCell<(Work, Vec<Reach>)>,
    /// How the readings led to a fault that the exercise hides.
    search: Option<FaultSearch>,
}

#[derive(Debug)]
struct FoundWrong {
    code: Code,
    at: Subject,
    weight: Weight,
    /// The places where it shows.
    places: Vec<LocationId>,
    /// The devices whose circuits are at those places.
    devices: BTreeSet<DeviceId>,
}

impl Before {
    /// What was wrong before an attempt, worked out only if it can matter to what was found.
    pub fn of(attempt: &Attempt, drafts: &[Draft]) -> Self {
        let exercise = attempt.work().exercise();
        if !can_matter(attempt, drafts) {
            return Self::default();
        }
        let start = start(exercise);
        let none = Self::default();
        let ctx = Context::new(&start, attempt.tally(), attempt.safety(), &[], &none);
        let groups = Groups::new(&start);
        let is_old = |it: &Draft| is_old(&ctx, it);
        let wrong: Vec<FoundWrong> =
            ask_wiring(&ctx).into_iter().filter(is_old).map(|it| FoundWrong::of(&start, &groups, &it)).collect();
        let mut before = Self { lamps: lamps(&wrong), wrong, ..Self::default() };
        before.told =
            attempt.tally().reported.iter().any(|report| {
                report.what == Fault::Wiring && before.wrong.iter().any(|it| it.places.contains(&report.at))
            });
        before.pass(attempt);
        before
    }

    /// Nothing was wrong but a fault that the exercise hides, which was searched for so.
    pub fn knowing(search: Option<FaultSearch>) -> Self {
        Self { search, ..Self::default() }
    }

    /// The same with how a hidden fault was searched for.
    pub fn with_search(self, search: Option<FaultSearch>) -> Self {
        Self { search, ..self }
    }

    /// How the readings led to a fault that the exercise hides.
    pub const fn search(&self) -> Option<&FaultSearch> {
        self.search.as_ref()
    }

    /// Whether nothing was wrong.
    pub fn is_empty(&self) -> bool {
        self.wrong.is_empty()
    }

    /// Whether a finding is one of these: it was there before, and its end has not been taken out of its terminal since.
    pub fn has(&self, work: &Work, draft: &Draft) -> bool {
        // Where work is only looked over, nobody has touched it but the person who made it.
        let is_found = |end| work.is_undisturbed(end) || work.exercise().is_inspected();
        let untouched = || draft.at.end(work).is_none_or(is_found);
        self.wrong.iter().any(|it| (it.code, it.at) == draft.key()) && untouched()
    }

    /// Lamps that were wrong.
    pub fn lamps(&self) -> &[LampId] {
        &self.lamps
    }

    /// What an end was joined to in some combination as the work was found. Worked out when it is first asked for.
    pub fn reach_as_found(&self, exercise: &Arc<Exercise>, end: EndId) -> Reach {
        let (work, reach) = self.as_found.get_or_init(|| {
            let work = Work::new(Arc::clone(exercise));
            let reach = ever(&work, &settings_to_try(&work), |_| true);
            (work, reach)
        });
        reach[work.node(work.point_of(end))]
    }

    /// Whether any of it was reported, at a place where it shows.
    pub fn is_told(&self) -> bool {
        self.told
    }

    /// What was dangerous when the power came on past it, and not reported by then: where, and by which action of the log. Once
    /// for each circuit, told by the cause rather than by what follows.
    pub fn passed(&self) -> impl Iterator<Item = (Subject, usize)> {
        self.passed.iter().map(|(wrong, action)| (self.wrong[*wrong].at, *action))
    }

    fn pass(&mut self, attempt: &Attempt) {
        let mut order: Vec<usize> =
            (0..self.wrong.len()).filter(|it| self.wrong[*it].weight == Weight::Critical).collect();
        order.sort_by_key(|it| is_effect(self.wrong[*it].code));
        for energised in attempt.tally().energised.iter().filter(|_| !order.is_empty()) {
            let on = brought_on(attempt, energised);
            if on.is_empty() {
                continue;
            }
            let none = Self::default();
            let ctx = Context::new(&energised.work, attempt.tally(), attempt.safety(), &[], &none);
            let stands: Vec<Draft> = ask_wiring(&ctx);
            for index in order.clone() {
                let it = &self.wrong[index];
                let concerns = !it.devices.is_disjoint(&on);
                let still = stands.iter().any(|draft| (it.code, it.at) == draft.key());
                let said = self.passed.iter().any(|(other, _)| self.are_one(index, *other));
                if concerns && still && !said && !self.is_told_of(index, attempt, energised.action) {
                    self.passed.push((index, energised.action));
                }
            }
        }
    }

    /// Whether two of these are on one circuit: whoever comes because of one report looks at the other too.
    fn are_one(&self, one: usize, other: usize) -> bool {
        one == other || !self.wrong[one].devices.is_disjoint(&self.wrong[other].devices)
    }

    fn is_told_of(&self, index: usize, attempt: &Attempt, action: usize) -> bool {
        let reports = attempt.tally().reported.iter().filter(|it| it.what == Fault::Wiring && it.action < action);
        reports.into_iter().any(|report| {
            let shows = |other: &usize| self.wrong[*other].places.contains(&report.at);
            (0..self.wrong.len()).filter(shows).any(|it| self.are_one(index, it))
        })
    }
}

impl FoundWrong {
    fn of(start: &Work, groups: &Groups, draft: &Draft) -> Self {
        let places = places(start, draft.at);
        let devices = match draft.at {
            Subject::Device(it) => BTreeSet::from([it]),
            _ => circuits(start, groups, &places),
        };
        Self { code: draft.code, at: draft.at, weight: draft.weight, places, devices }
    }
}

/// Whether anything old can be wrong, as far as can be told without looking closely: there are conductors that the learner does not
/// terminate, and something was found away from the learner's ends, or was reported, or what is old was worked on.
fn can_matter(attempt: &Attempt, drafts: &[Draft]) -> bool {
    let (work, exercise) = (attempt.work(), attempt.work().exercise());
    let is_old = |conductor: &usize| !EndId::of(*conductor).iter().any(|it| exercise.is_learners(*it));
    let of_wiring = |it: &Draft| {
        !matches!(it.seen, Seen::InAction(_))
            && matches!(
                it.code.criterion(),
                Criterion::Function
                    | Criterion::Polarity
                    | Criterion::Earthing
                    | Criterion::Identification
                    | Criterion::Terminations
                    | Criterion::Containment
            )
    };
    let old_ends = || (0..exercise.conductors.len()).filter(is_old).flat_map(EndId::of);
    let made_beside = || work.made().iter().any(|made| old_ends().any(|it| work.end_location(it) == made.location));
    old_ends().next().is_some()
        && (drafts
            .iter()
            .any(|draft| of_wiring(draft) && draft.at.end(work).is_none_or(|it| !exercise.is_learners(it)))
            || attempt.tally().reported.iter().any(|it| it.what == Fault::Wiring)
            || old_ends().any(|it| !work.is_undisturbed(it))
            || made_beside())
}

/// The wiring before the learner came, with the learner's cpcs where they belong.
fn start(exercise: &Arc<Exercise>) -> Work {
    let mut work = Work::new(Arc::clone(exercise));
    let free = work.ends().filter(|it| exercise.is_learners(*it) && work.end_facts(*it).colour.is_protective());
    for end in free.collect::<Vec<_>>() {
        if let Some(edit) = earth_terminal(&work, end) {
            work.edit(&edit);
            work.edit(&Edit::Mark(end, Some(Mark::Sleeve(Colour::GreenYellow))));
        }
    }
    work
}

/// Whether a finding at the start is neither the learner's doing nor the learner's to put right.
fn is_old(ctx: &Context<'_>, draft: &Draft) -> bool {
    let exercise = ctx.exercise();
    if let Some(end) = draft.at.end(&ctx.work) {
        return !exercise.is_learners(end);
    }
    match draft.code {
        // What is to be chosen is the learner's to choose.
        Code::CableUnchosen => false,
        // Where the learner opens a place, what it lacks is the learner's to fit.
        Code::TailMissing | Code::TailAdvised | Code::GrommetMissing | Code::BoxTooShallow => {
            let own = exercise.learners_places();
            places(&ctx.work, draft.at).iter().all(|it| !own.contains(it))
        }
        Code::ControlWrong | Code::LampholderLive => {
            let Subject::Lamp(lamp) = draft.at else { return false };
            let own = exercise.controls.iter().any(|it| it.lamp == lamp && exercise.is_wired_by_learner(it));
            !own && !waits_for_learner(ctx, &exercise.lamps[lamp].contacts)
        }
        Code::FanWrong => {
            matches!(draft.at, Subject::Fan(it) if !waits_for_learner(ctx, &exercise.fans[it].terminals))
        }
        _ => true,
    }
}

/// Whether one of some terminals has neither line nor neutral in any combination of positions and is joined to an end that hangs
/// free for the learner.
fn waits_for_learner(ctx: &Context<'_>, terminals: &[TerminalId]) -> bool {
    let (work, exercise) = (&ctx.work, ctx.exercise());
    let mut joined = work.joined_ever();
    let free: Vec<usize> = work
        .ends()
        .filter(|it| exercise.is_learners(*it) && work.terminal_of(*it).is_none())
        .map(|it| work.node(Point::End(it)))
        .collect();
    terminals.iter().any(|it| {
        let reach = ctx.reach(Point::Terminal(*it));
        !reach.line && !reach.neutral && free.iter().any(|end| joined.same(*end, it.index()))
    })
}

/// Lamps that moving the learner's ends does not put right.
fn lamps(wrong: &[FoundWrong]) -> Vec<LampId> {
    let lamp = |it: &FoundWrong| match it.at {
        Subject::Lamp(lamp) => Some(lamp),
        _ => None,
    };
    wrong.iter().filter_map(lamp).collect()
}

/// The places where a finding shows: for a conductor's end, those of both ends.
fn places(work: &Work, at: Subject) -> Vec<LocationId> {
    match at {
        Subject::End(..) => {
            at.end(work).map_or_else(Vec::new, |end| [end, end.other()].map(|it| work.end_location(it)).to_vec())
        }
        _ => at.location(work.exercise()).into_iter().collect(),
    }
}

/// The devices whose circuits come to some places; the board is left out, since all of them come to it.
fn circuits(start: &Work, groups: &Groups, places: &[LocationId]) -> BTreeSet<DeviceId> {
    let exercise = start.exercise();
    let ends = places
        .iter()
        .filter(|it| !exercise.is_board(**it))
        .flat_map(|it| start.ends_at(*it))
        .filter(|it| !start.end_facts(*it).colour.is_protective());
    let numbers: BTreeSet<usize> = ends.filter_map(|it| groups.of(start, start.point_of(it))).collect();
    numbers.into_iter().flat_map(|it| groups.all()[it].devices.iter().copied()).collect()
}

/// The devices whose circuits an action brought the power to.
fn brought_on(attempt: &Attempt, energised: &Energised) -> BTreeSet<DeviceId> {
    let work = &energised.work;
    let named: Vec<DeviceId> = match attempt.log().get(energised.action) {
        Some(Action::PowerOn { device } | Action::Reset { device }) => work.device(device).into_iter().collect(),
        Some(Action::MainSwitch { on: true } | Action::Isolator { on: true } | Action::BringSupply) => {
            work.exercise().devices.ids().collect()
        }
        _ => Vec::new(),
    };
    named.into_iter().filter(|it| work.is_on(*it)).collect()
}
