//! `tail-missing` and `tail-advised`: a metal plate and its metal box each by a conductor, not by screws alone.
//!
//! The plate by a cpc or a tail always; the box by one where both lugs slide, and as advice where one is fixed (a trade
//! article on earthing metal back boxes; the split is our reading of it).

use crate::{
    exercise::{LocationId, LocationKind, TerminalId, TerminalUse},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    trade::{accessory::Material, colour::Colour},
    work::{Edit, Point, Subject},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let (work, exercise) = (&ctx.work, ctx.exercise());
    for (index, place) in exercise.locations.iter().enumerate() {
        let LocationKind::Box(it) = &place.kind else { continue };
        let location = LocationId(index as u16);
        let body = exercise.terminal_used(location, TerminalUse::BoxEarth);
        let plate = exercise.terminal_used(location, TerminalUse::PlateEarth);
        // A box that no protective conductor has reached is the business of `cpc-open`.
        let reached = work.ends_at(location).any(|it| {
            work.end_facts(it).colour.is_protective()
                && work.terminal_of(it).is_some()
                && work.is_earthed(work.point_of(it))
        });
        if !reached {
            continue;
        }
        let joined = |terminal: Option<TerminalId>| terminal.is_none_or(|it| work.is_earthed(Point::Terminal(it)));
        let tail = |to: Option<TerminalId>| match (earthed_here(ctx, location), to) {
            (Some(from), Some(to)) => Some(Edit::Tail(from, to)),
            _ => None,
        };
        let mut add = |code, weight, terminal: Option<TerminalId>| {
            let Some(at) = terminal.map(Subject::Terminal) else { return };
            let draft = Draft::new(code, at, weight);
            found.push(match tail(terminal) {
                Some(edit) => draft.mended_by(edit),
                None => draft,
            });
        };
        if !joined(plate) {
            add(Code::TailMissing, Weight::Major, plate);
        }
        if it.body == Material::Metal && !joined(body) {
            let (code, weight) = if it.is_screwed_together() {
                (Code::TailAdvised, Weight::Advice)
            } else {
                (Code::TailMissing, Weight::Major)
            };
            add(code, weight, body);
        }
    }
}

/// A terminal of a location with an earthed protective conductor in it.
fn earthed_here(ctx: &Context<'_>, location: LocationId) -> Option<TerminalId> {
    let work = &ctx.work;
    ctx.exercise().terminals_at(location).find(|it| {
        work.is_earthed(Point::Terminal(*it))
            && work.ends_in(*it).any(|end| Colour::is_protective(work.end_facts(end).colour))
    })
}
