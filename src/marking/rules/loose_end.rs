//! `loose-end`: every core ends in a terminal or a connector, a spare one at both ends too (BS 7671 526.8 with common
//! practice for spares). An end that some position energises is `loose-end-live`, found with the hazards.

use crate::{
    circuit::{HazardKind, exposed_metal},
    exercise::{EndId, TerminalUse},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Repair},
    },
    trade::colour::Colour,
    work::Edit,
};

use super::{cpc_misused::earth_terminal, cpc_open::is_spare};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    let (mut groups, metal) = (work.joined_by(Colour::is_protective), exposed_metal(ctx.exercise()));
    for end in work.ends().filter(|it| work.terminal_of(*it).is_none()) {
        let at = work.subject_of(end);
        let is_live = ctx.survey.hazards.iter().any(|it| it.kind == HazardKind::LooseEndLive && it.at == at);
        let is_protective = work.end_facts(end).colour.is_protective();
        if is_live || work.is_scrap(end.conductor()) || is_protective && !is_spare(ctx, &mut groups, &metal, end) {
            continue;
        }
        let repair = if is_protective {
            earth_terminal(work, end).map_or(Repair::None, |it| Repair::Edits(vec![it]))
        } else {
            Repair::FewestMoves(somewhere_to_park(ctx, end))
        };
        found.push(Draft { repair, ..Draft::new(Code::LooseEnd, at, Weight::Major) });
    }
}

/// Moving an end to an empty connector of its place, if one is there.
pub(super) fn somewhere_to_park(ctx: &Context<'_>, end: EndId) -> Vec<Edit> {
    let (work, exercise) = (&ctx.work, ctx.exercise());
    exercise
        .terminals_at(work.end_location(end))
        .filter(|it| matches!(exercise.terminals[*it].used_by, TerminalUse::Connector(_)))
        .find(|it| ctx.is_empty(*it))
        .map(|it| Edit::Move(end, Some(it)))
        .into_iter()
        .collect()
}
