//! `mark-missing` and `mark-false`: every core says at its terminations what it is, by its colour or a mark (BS 7671
//! 514.3.2, Table 51). A core's job is what it is joined to in any combination of positions, never the name of its
//! terminal; old colours are judged by their own date; what was found and left alone is not marked again. A fitted flex or cable to which the
//! learner brings line and neutral the wrong way round, by a terminal or through a switch, is no old work.

use crate::{
    circuit::Reach,
    exercise::{EndId, TerminalId},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    trade::colour::{Colour, Job, Mark},
    work::{Edit, Work},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    for end in ctx.work.ends() {
        if ctx.work.terminal_of(end).is_none() {
            continue;
        }
        let draft = job(ctx, end).and_then(|it| judge(ctx, end, it));
        found.extend(draft.filter(|_| !ctx.work.is_undisturbed(end) || is_reversed(ctx, end)));
    }
}

/// What job an end really has; `None` where it is joined to nothing, or to two things by some other fault.
fn job(ctx: &Context<'_>, end: EndId) -> Option<Job> {
    if ctx.work.end_facts(end).colour.is_protective() {
        let at = ctx.reach_live(ctx.work.point_of(end));
        return (!at.line && !at.neutral).then_some(Job::Protective);
    }
    match ctx.reach(ctx.work.point_of(end)) {
        Reach { line: true, neutral: false, earth: false } => Some(Job::Line),
        Reach { line: false, neutral: true, earth: false } => Some(Job::Neutral),
        Reach { line: false, neutral: false, earth: true } => Some(Job::Protective),
        _ => None,
    }
}

/// Whether the learner brought a conductor to an end that was fitted there and joined to nothing, and so its cable has line on
/// its core for neutral and neutral on its core for line. A blue that was found as a switched line is old work.
fn is_reversed(ctx: &Context<'_>, end: EndId) -> bool {
    let work = &ctx.work;
    let Some(conductor) = ctx.exercise().conductors.get(end.conductor()) else { return false };
    let has = |by_colour: Job, by_joins: Job| {
        let is_so = |core: EndId| {
            let facts = work.end_facts(core);
            facts.colour.job(facts.era) == Some(by_colour) && job(ctx, core) == Some(by_joins)
        };
        work.cores_at(conductor.cable, work.end_location(end)).any(is_so)
    };
    work.terminal_of(end).is_some_and(|it| !brought_to(work, it).is_empty())
        && has(Job::Line, Job::Neutral)
        && has(Job::Neutral, Job::Line)
        && ctx.before.reach_as_found(work.exercise(), end) == Reach::default()
}

/// The ends that the learner brought to a terminal. If it holds none, the ends that the learner brought to a terminal that a switch joins
/// to it in some position.
pub fn brought_to(work: &Work, terminal: TerminalId) -> Vec<EndId> {
    let brought = |it: TerminalId| work.ends_in(it).filter(|end| !work.is_undisturbed(*end)).collect::<Vec<_>>();
    let here = brought(terminal);
    if !here.is_empty() {
        return here;
    }
    let pairs = work.exercise().switches.iter().flat_map(|it| (0..it.way.positions()).flat_map(|at| it.closed(at)));
    let others = pairs.filter_map(|[a, b]| if a == terminal { Some(b) } else { (b == terminal).then_some(a) });
    let mut found: Vec<EndId> = others.flat_map(brought).collect();
    found.sort_unstable();
    found.dedup();
    found
}

fn judge(ctx: &Context<'_>, end: EndId, job: Job) -> Option<Draft> {
    let facts = ctx.work.end_facts(end);
    let by_colour = facts.colour.job(facts.era);
    let (code, weight) = match ctx.work.mark_of(end) {
        Some(mark) => match mark.job(facts.era) {
            Some(said) if said == job => return None,
            // Whatever the core's colour: whoever trusts the mark parts an earth, or takes a live core for one.
            Some(Job::Protective) => (Code::MarkFalse, Weight::Critical),
            _ if job == Job::Protective && is_run_as_cpc(ctx, end) => (Code::MarkFalse, Weight::Critical),
            Some(_) => (Code::MarkFalse, Weight::Major),
            // A sleeve that says nothing is false only where it hides a colour that was right.
            None if by_colour == Some(job) => (Code::MarkFalse, Weight::Major),
            None => (Code::MarkMissing, Weight::Major),
        },
        None if by_colour == Some(job) => return None,
        None => (Code::MarkMissing, Weight::Major),
    };
    let (about, mark) = match job {
        Job::Line => ("line", Colour::Brown),
        Job::Neutral => ("neutral", Colour::Blue),
        Job::Protective => ("protective", Colour::GreenYellow),
    };
    let draft = Draft::new(code, ctx.work.subject_of(end), weight).about(about);
    // What its own colour says needs no mark; bare copper needs its sleeve.
    let needs = by_colour != Some(job) || facts.colour == Colour::Bare;
    let mark = needs.then_some(Mark::Sleeve(mark));
    Some(draft.mended_by(Edit::Mark(end, mark)))
}

/// Whether a conductor is there to protect: by its own colour, or from earth terminal to earth terminal. One of another job that only strays
/// to earth is told by what it does there.
fn is_run_as_cpc(ctx: &Context<'_>, end: EndId) -> bool {
    let (work, exercise) = (&ctx.work, ctx.exercise());
    let is_earthed = |end: EndId| work.terminal_of(end).is_some_and(|it| exercise.is_for_earth(it));
    work.end_facts(end).colour.is_protective() || EndId::of(end.conductor()).into_iter().all(is_earthed)
}
