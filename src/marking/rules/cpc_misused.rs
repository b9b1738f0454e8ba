//! `cpc-misused`: a bare or green-and-yellow conductor is exclusively protective (BS 7671 514.4.2) and stands nowhere
//! that line or neutral is. Critical.
//!
//! What a point is joined to is judged without the protective conductors, so that the one that is out of place is found
//! and not every other cpc of the house.

use crate::{
    exercise::EndId,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Repair},
    },
    work::{Edit, Point, Work},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    for end in work.ends().filter(|it| work.end_facts(*it).colour.is_protective()) {
        let Some(terminal) = work.terminal_of(end) else { continue };
        let reach = ctx.reach_live(Point::Terminal(terminal));
        if reach.line || reach.neutral {
            let repair = earth_terminal(work, end).map_or(Repair::None, |it| Repair::Edits(vec![it]));
            let about = if reach.line { "line" } else { "neutral" };
            let draft = Draft::new(Code::CpcMisused, work.subject_of(end), Weight::Critical).about(about);
            found.push(Draft { repair, ..draft });
        }
    }
}

/// Moving an end to the earth terminal of its place, if it is not in one already.
pub(in crate::marking) fn earth_terminal(work: &Work, end: EndId) -> Option<Edit> {
    let exercise = work.exercise();
    let here = work.terminal_of(end);
    if here.is_some_and(|it| exercise.terminals[it.index()].used_by.is_earth()) {
        return None;
    }
    let mut terminals: Vec<_> = exercise
        .terminals_at(work.end_location(end))
        .filter(|it| exercise.terminals[it.index()].used_by.is_earth())
        .filter(|it| work.ends_in(*it).count() < exercise.terminals[it.index()].capacity.conductors)
        .collect();
    // A cpc goes where another is already, so that the two are joined; a tail to the terminal that its other end is not in.
    let other = work.terminal_of(end.other());
    let is_tail = work.cable_of(end.conductor()).is_none();
    terminals.sort_by_key(|it| (is_tail && Some(*it) == other, !is_tail && work.ends_in(*it).next().is_none()));
    terminals.first().map(|it| Edit::Move(end, Some(*it)))
}
