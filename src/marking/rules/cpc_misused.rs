//! `cpc-misused`: a bare or green-and-yellow conductor is exclusively protective (BS 7671 514.4.2) and stands nowhere
//! that line or neutral is. Critical.
//!
//! What a point is joined to is judged without the protective conductors, so that the one that is out of place is found
//! and not every other cpc of the house.

use crate::{
    exercise::{EndId, TerminalUse},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Repair},
    },
    trade::colour::{Colour, Job, Mark},
    work::{Edit, Point, Work},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    for end in work.ends().filter(|it| work.end_facts(*it).colour.is_protective()) {
        let Some(terminal) = work.terminal_of(end) else { continue };
        let reach = ctx.reach_live(Point::Terminal(terminal));
        if reach.line || reach.neutral {
            // If a core hangs free beside it, that takes over its work; else it goes where a cpc belongs.
            let to_earth = || earth_terminal(work, end).map(|it| vec![it]);
            let repair = third_core(ctx, end).or_else(to_earth).map_or(Repair::None, Repair::Edits);
            let about = if reach.line { "line" } else { "neutral" };
            let draft = Draft::new(Code::CpcMisused, work.subject_of(end), Weight::Critical).about(about);
            found.push(Draft { repair, ..draft });
        }
    }
}

/// A cpc that does the work of a core that hangs free beside it: both are put where they belong, at both ends.
fn third_core(ctx: &Context<'_>, end: EndId) -> Option<Vec<Edit>> {
    let work = &ctx.work;
    let cable = work.cable_of(end.conductor())?;
    let ends = EndId::of(end.conductor());
    let cores = cable.first_conductor..cable.first_conductor + cable.kind.cores().len();
    let free = cores.map(EndId::of).find(|[a, b]| {
        !work.end_facts(*a).colour.is_protective() && [a, b].iter().all(|it| work.terminal_of(**it).is_none())
    })?;
    let each = ends.into_iter().zip(free).map(|(cpc, core)| {
        let terminal = work.terminal_of(cpc)?;
        let reach = ctx.reach_live(Point::Terminal(terminal));
        let (job, colour) = match (reach.line, reach.neutral) {
            (true, _) => (Job::Line, Colour::Brown),
            (false, true) => (Job::Neutral, Colour::Blue),
            (false, false) => return None,
        };
        let facts = work.end_facts(core);
        let mark = (facts.colour.job(facts.era) != Some(job)).then_some(Mark::Sleeve(colour));
        let marked = (mark != work.mark_of(core)).then_some(Edit::Mark(core, mark));
        let moved = [earth_terminal(work, cpc)?, Edit::Move(core, Some(terminal))];
        Some(moved.into_iter().chain(marked).collect::<Vec<_>>())
    });
    each.collect::<Option<Vec<_>>>().map(|it| it.concat())
}

/// Moving an end to the earth terminal of its place, if it is not in one already.
pub(in crate::marking) fn earth_terminal(work: &Work, end: EndId) -> Option<Edit> {
    let exercise = work.exercise();
    let here = work.terminal_of(end);
    if here.is_some_and(|it| exercise.is_for_earth(it)) {
        return None;
    }
    let mut terminals: Vec<_> = exercise
        .terminals_at(work.end_location(end))
        .filter(|it| exercise.is_for_earth(*it))
        .filter(|it| work.room_in(*it) > 0)
        .collect();
    // A cpc goes where another is already, so that the two are joined, or else to the plate, which no lug is to earth; a tail to the terminal
    // that its other end is not in.
    let other = work.terminal_of(end.other());
    let is_tail = work.cable_of(end.conductor()).is_none();
    terminals.sort_by_key(|it| {
        let is_alone = !is_tail && work.ends_in(*it).next().is_none();
        (is_tail && Some(*it) == other, is_alone, exercise.terminals[*it].used_by != TerminalUse::PlateEarth)
    });
    terminals.first().map(|it| Edit::Move(end, Some(*it)))
}
