//! `tail-missing`, `tail-advised`: metal plates and their metal boxes are earthed by a conductor, not by screws alone.
//!
//! The plate always by a cpc or a tail; the box by one where both lugs slide, and as advice where one is fixed (a trade
//! article on earthing metal back boxes; the split is our reading of it).

use crate::{
    exercise::{EndId, LocationId, LocationKind, TerminalId, TerminalUse},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    trade::accessory::Material,
    work::{Edit, Point, Subject},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let (work, exercise) = (&ctx.work, ctx.exercise());
    for (location, place) in exercise.locations.with_ids() {
        let LocationKind::Box(it) = &place.kind else { continue };
        let body = exercise.terminal_used(location, TerminalUse::BoxEarth);
        let plate = exercise.terminal_used(location, TerminalUse::PlateEarth);
        // A box that no protective conductor has reached is for `cpc-open` to find.
        let reached = work.ends_at(location).any(|it| {
            work.end_facts(it).colour.is_protective()
                && work.terminal_of(it).is_some()
                && work.is_earthed(work.point_of(it))
        });
        if !reached {
            continue;
        }
        let joined = |terminal: Option<TerminalId>| terminal.is_none_or(|it| work.is_earthed(Point::Terminal(it)));
        let mut add = |code, weight, terminal: Option<TerminalId>| {
            let Some(to) = terminal else { return };
            let by_screws = it.body == Material::Metal && it.plate.front == Material::Metal;
            let about = if code == Code::TailMissing && !by_screws { "unearthed" } else { "" };
            let draft = Draft::new(code, Subject::Terminal(to), weight).about(about);
            found.push(match tail(ctx, location, to) {
                Some(edits) => draft.mended_by_all(edits),
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

/// What joins the metal at a terminal to the cpc by a tail: one that hangs loose there, or a new one, from a terminal that has room for it. Where
/// none has, a cpc makes room by going to the metal itself.
fn tail(ctx: &Context<'_>, location: LocationId, to: TerminalId) -> Option<Vec<Edit>> {
    let work = &ctx.work;
    let is_earthed = |it: TerminalId| work.is_earthed(Point::Terminal(it));
    let is_protective = |it: &EndId| work.end_facts(*it).colour.is_protective();
    let holds_cpc = |it: TerminalId| work.ends_in(it).any(|end| is_protective(&end));
    let earthed = || ctx.exercise().terminals_at(location).filter(|it| is_earthed(*it) && holds_cpc(*it));
    let with_room = earthed().find(|it| work.room_in(*it) > 0);
    let mut loose = work.ends_at(location).filter(|it| work.terminal_of(*it).is_none() && is_protective(it));
    let made_up = loose.find_map(|end| {
        work.cable_of(end.conductor()).is_none().then_some(())?;
        match work.terminal_of(end.other()) {
            Some(other) => is_earthed(other).then(|| vec![Edit::Move(end, Some(to))]),
            None => with_room.map(|from| vec![Edit::Move(end, Some(from)), Edit::Move(end.other(), Some(to))]),
        }
    });
    made_up.filter(|_| work.room_in(to) > 0).or_else(|| with_room.map(|from| vec![Edit::Tail(from, to)])).or_else(
        || {
            let full = earthed().next().filter(|_| work.room_in(to) > 1)?;
            let cpc = work.ends_in(full).find(is_protective)?;
            Some(vec![Edit::Move(cpc, Some(to)), Edit::Tail(full, to)])
        },
    )
}
