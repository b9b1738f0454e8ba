//! `observation-missed`, `observation-misplaced`, `observation-invented`: what the learner said is wrong in the work as it was found,
//! beside what the marker's own rules find in it. No scenario lists an answer: whatever the rules pass is right, and each cause that they
//! find is a defect that an inspector says.
//!
//! *Where.* A defect of one end or one screw is observed by naming that end or its terminal: the person who comes to mend it takes that one in hand
//! and leaves the rest alone. The place alone, or another point of it, is half an observation: the box is opened, and the screw looked for again. What
//! is wrong with a place itself (a tail, a grommet, its depth, what its switch does) is observed at any point of it. What follows from a cause
//! (metal without earth, a lamp that does not work) answers for the cause too: it was seen, and leads there.

use std::sync::Arc;

use super::{
    code::{Code, Criterion, Weight},
    criteria,
    finding::{Finding, Root, Seen},
    sheet::mark,
};
use crate::{
    attempt::{Attempt, Mode, Observed},
    exercise::{EndId, Exercise, LocationId, TerminalId},
    work::{Action, Edit, Flaw, Subject, Work},
};

/// What an inspector says of a finding; `None` for what is no fault of the work, or only what one does.
const fn said_of(code: Code) -> Option<Flaw> {
    Some(match code {
        Code::ConnectionSlack => Flaw::LooseScrew,
        Code::LooseEnd | Code::LooseEndLive => Flaw::LooseEnd,
        Code::BareCopperShowing => Flaw::BareCopper,
        Code::InsulationUnderScrew => Flaw::InsulationCaught,
        Code::FoldMissing | Code::FoldWrong => Flaw::Fold,
        Code::Nicked => Flaw::Nicked,
        Code::Crushed => Flaw::Crushed,
        Code::UnlikeSizes => Flaw::UnlikeSizes,
        Code::MarkMissing | Code::CpcUnsleeved => Flaw::SleeveMissing,
        Code::MarkFalse => Flaw::SleeveWrong,
        Code::CpcOpen | Code::MetalEnergised | Code::NoDisconnection => Flaw::CpcOpen,
        Code::CpcMisused => Flaw::CpcMisused,
        Code::TailMissing | Code::TailAdvised => Flaw::TailMissing,
        Code::GrommetMissing => Flaw::GrommetMissing,
        Code::SheathOutside => Flaw::SheathShort,
        Code::BoxTooShallow => Flaw::BoxShallow,
        Code::ConductorTrapped => Flaw::CoreTrapped,
        Code::CoresExchanged | Code::NeutralEarthExchanged | Code::SocketReversed | Code::OuterContactLine => {
            Flaw::Crossed
        }
        Code::ControlWrong
        | Code::FanWrong
        | Code::RockerInverted
        | Code::ShortLineNeutral
        | Code::ShortLineEarth
        | Code::ResidualTrip
        | Code::LampholderLive
        | Code::LoadThroughEarth
        | Code::NeutralEarthJoined => Flaw::WrongTerminal,
        Code::NeutralSwitched | Code::FuseInNeutral => Flaw::NeutralSwitched,
        Code::CircuitsJoined | Code::BorrowedNeutral => Flaw::CircuitsJoined,
        _ => return None,
    })
}

/// Something that shows a defect: the cause, or what follows from it.
#[derive(Debug)]
struct Symptom {
    flaw: Flaw,
    at: Subject,
    ends: Vec<EndId>,
    terminals: Vec<TerminalId>,
    places: Vec<LocationId>,
    /// Whether it is of a place, and not of a point in it.
    is_of_place: bool,
}

impl Symptom {
    fn of(work: &Work, finding: &Finding) -> Option<Self> {
        let exercise = work.exercise();
        let mut ends: Vec<EndId> = finding.at.end(work).into_iter().collect();
        let mut terminals = Vec::new();
        let mut places: Vec<LocationId> = finding.at.location(exercise).into_iter().collect();
        match finding.at {
            Subject::Terminal(it) => {
                ends.extend(work.ends_in(it));
                terminals.push(it);
            }
            _ => terminals.extend(ends.iter().filter_map(|it| work.terminal_of(*it))),
        }
        for edit in finding.repair.iter().flatten() {
            match *edit {
                // What has to go elsewhere is wrong where it stands; what hangs free, where it is wanted.
                Edit::Move(end, to) => {
                    ends.push(end);
                    terminals.extend(work.terminal_of(end).or(to));
                    places.push(work.end_location(end));
                }
                Edit::Sheath(_, location, _) => places.push(location),
                _ => {}
            }
        }
        let is_of_place = matches!(finding.code, Code::TailMissing | Code::TailAdvised | Code::SheathOutside)
            || !matches!(finding.at, Subject::End(..) | Subject::Terminal(_));
        Some(Self { flaw: said_of(finding.code)?, at: finding.at, ends, terminals, places, is_of_place })
    }

    /// Whether an observation names it.
    fn is_named(&self, work: &Work, said: &Observed) -> bool {
        let point = match said.at {
            Subject::Terminal(it) => self.terminals.contains(&it),
            _ => said.at.end(work).is_some_and(|it| self.ends.contains(&it)),
        };
        said.what == self.flaw && (point || self.is_of_place && self.is_near(work, said))
    }

    /// Whether an observation says the same of its place.
    fn is_near(&self, work: &Work, said: &Observed) -> bool {
        said.what == self.flaw && said.at.location(work.exercise()).is_some_and(|it| self.places.contains(&it))
    }
}

/// A cause that stands in the work as it was found.
#[derive(Debug)]
struct Defect {
    weight: Weight,
    /// Its own symptom first, if it has one.
    symptoms: Vec<Symptom>,
    /// Whether an inspector must say it: advice and what shows only behind another defect may be said.
    is_due: bool,
}

impl Defect {
    fn all(work: &Work, findings: &[Finding]) -> Vec<Self> {
        let causes = findings.iter().enumerate().filter(|it| it.1.before && it.1.root == Root::Itself);
        let defect = |(index, cause): (usize, &Finding)| {
            let follows = findings.iter().filter(|it| it.root == Root::Of(index));
            let symptoms: Vec<Symptom> =
                std::iter::once(cause).chain(follows).filter_map(|it| Symptom::of(work, it)).collect();
            let is_due = cause.weight > Weight::Advice && !cause.hidden && !symptoms.is_empty();
            Self { weight: cause.weight, symptoms, is_due }
        };
        causes.map(defect).collect()
    }

    fn is_named(&self, work: &Work, said: &Observed) -> bool {
        self.symptoms.iter().any(|it| it.is_named(work, said))
    }

    fn is_near(&self, work: &Work, said: &Observed) -> bool {
        self.symptoms.iter().any(|it| it.is_near(work, said))
    }
}

/// Adds what was missed, misplaced and invented to what was found, before the rest. What was wrong before stands among the findings already.
pub(super) fn judge(attempt: &Attempt, findings: &mut Vec<Finding>) {
    let (work, said) = (attempt.work(), &attempt.tally().observed);
    if !work.exercise().is_inspected() {
        return;
    }
    let defects = Defect::all(work, findings);
    let due = defects.iter().filter(|it| it.is_due).count();
    let named = |said: &Observed| defects.iter().any(|it| it.is_named(work, said));
    let of_said = |code, said: &Observed| Finding {
        seen: Seen::InAction(said.action),
        ..finding(work, code, (said.at, said.what), due)
    };
    // To look and to say nothing is to pass the work as sound. A blank hand-in passes nothing: it is not yet.
    let has_looked = !said.is_empty() || attempt.log().iter().any(|it| matches!(it, Action::RemoveCover { .. }));
    let mut unanswered: Vec<&Observed> = said.iter().filter(|it| !named(it)).collect();
    let (mut missed, mut misplaced) = (Vec::new(), Vec::new());
    for defect in defects.iter().filter(|defect| defect.is_due && !said.iter().any(|it| defect.is_named(work, it))) {
        let near = unanswered.iter().position(|it| defect.is_near(work, it));
        match (near, defect.symptoms.first()) {
            (Some(it), _) => {
                let said = unanswered.remove(it);
                misplaced.push(of_said(Code::ObservationMisplaced, said));
            }
            (None, Some(symptom)) => {
                let one = finding(work, Code::ObservationMissed, (symptom.at, symptom.flaw), due);
                let is_danger = defect.weight == Weight::Critical && has_looked;
                missed.push(if is_danger {
                    Finding { weight: Weight::Critical, lost: available(work), ..one }
                } else {
                    one
                });
            }
            (None, None) => {}
        }
    }
    missed.sort_by_key(|it| std::cmp::Reverse(it.weight));
    let invented = unanswered.into_iter().map(|said| of_said(Code::ObservationInvented, said));
    let first: Vec<Finding> = missed.into_iter().chain(misplaced).chain(invented).collect();
    for it in findings.iter_mut() {
        if let Root::Of(cause) = &mut it.root {
            *cause += first.len();
        }
    }
    findings.splice(0..0, first);
}

/// Marks to be had for observations.
fn available(work: &Work) -> u32 {
    criteria::of(Criterion::Observation).available(work.exercise())
}

/// A finding about an observation: each defect is a share of the marks, one said of another point of its place half of it.
fn finding(work: &Work, code: Code, (at, what): (Subject, Flaw), due: usize) -> Finding {
    let share = available(work).div_ceil(due.max(1) as u32);
    let lost = if code == Code::ObservationMisplaced { share.div_ceil(2) } else { share };
    Finding {
        code,
        at,
        weight: Weight::Major,
        charged: Criterion::Observation,
        lost,
        capped: false,
        root: Root::Itself,
        before: false,
        hidden: false,
        seen: Seen::ByEye,
        repair: None,
        about: what.word(),
    }
}

/// What a careful inspector says of the work as it is found: each defect that must be said, once.
pub fn to_observe(exercise: &Arc<Exercise>) -> Vec<(Subject, Flaw)> {
    if !exercise.is_inspected() {
        return Vec::new();
    }
    let attempt = Attempt::new(Arc::clone(exercise));
    let findings = mark(&attempt, Mode::Practice).findings;
    let due = Defect::all(attempt.work(), &findings).into_iter().filter(|it| it.is_due);
    due.filter_map(|it| it.symptoms.first().map(|symptom| (symptom.at, symptom.flaw))).collect()
}
