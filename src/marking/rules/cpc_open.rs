//! `cpc-open`: a cpc is run to and ended at every point, in a terminal, and continuous to the earth bar by protective
//! conductors alone (BS 7671 411.3.1.1; number from memory). Critical where there is metal to touch.
//!
//! Continuity through a neutral that happens to be joined to earth further on does not count, and neither does a plate's
//! screw.

use crate::{
    circuit::{Groups, exposed_metal},
    exercise::{EndId, Join, LocationId, Sets, TerminalId},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Repair},
    },
    trade::{cable::CrossSection, colour::Colour},
    work::Edit,
};

use super::cpc_misused::earth_terminal;

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let (work, exercise) = (&ctx.work, ctx.exercise());
    let mut groups = work.joined_by(Colour::is_protective);
    let metal = exposed_metal(exercise);
    let has_metal = |location: LocationId| metal.iter().any(|it| exercise.terminals[*it].location == location);
    let protective = || work.ends().filter(|it| work.end_facts(*it).colour.is_protective());
    let mut add = |end: EndId, location: LocationId, kept: &'static str, repair: Option<Edit>| {
        let loses = has_metal(location) && kept.is_empty();
        let weight = if loses { Weight::Critical } else { Weight::Major };
        let repair = repair.map_or(Repair::None, |it| Repair::Edits(vec![it]));
        let is_free = work.terminal_of(end).is_none();
        let about = if kept.is_empty() && is_free { "unterminated" } else { kept };
        found.push(Draft { repair, ..Draft::new(Code::CpcOpen, work.subject_of(end), weight).about(about) });
    };
    let mut kept = EarthKept::default();
    for end in protective().filter(|it| work.terminal_of(*it).is_none()) {
        // A made-up conductor in no terminal at all is scrap in the box, not a cpc; a spare one is not an open one.
        if !work.is_scrap(end.conductor()) && !is_spare(ctx, &mut groups, &metal, end) {
            add(end, work.end_location(end), kept.by(ctx, &mut groups, &metal, end), earth_terminal(work, end));
        }
    }
    let mut seen = Vec::new();
    let ends = protective().filter(|it| work.terminal_of(*it).is_some());
    for end in ends.filter(|it| !work.is_undisturbed(*it)).chain(protective().filter(|it| work.is_undisturbed(*it))) {
        let root = groups.root(work.node(work.point_of(end)));
        if !is_earthed(ctx, &mut groups, root) && !seen.contains(&root) {
            seen.push(root);
            let metal_end = protective()
                .find(|it| groups.root(work.node(work.point_of(*it))) == root && has_metal(work.end_location(*it)));
            let location = metal_end.unwrap_or(end);
            add(end, work.end_location(location), "", join_earth(ctx, &mut groups, end));
        }
    }
}

/// What keeps the metal earthed, worked out once for all ends that ask alike: hundreds of them may hang free.
#[derive(Default)]
struct EarthKept {
    circuits: Option<Groups>,
    /// What protective conductors of a least size join, those of all circuits or of one alone.
    joined: Vec<((CrossSection, Option<usize>), Sets)>,
}

impl EarthKept {
    /// How the metal that a free end would earth, here and beyond its other end, keeps its earth, as a word of the catalogue: by another cpc
    /// of its circuit, or by that of another circuit, with which disconnected it has none. Empty: it loses it, or there is no metal.
    /// Screws, lugs and pipework are no way, nor is a conductor thinner than the one that hangs free.
    fn by(&mut self, ctx: &Context<'_>, beyond: &mut Sets, metal: &[TerminalId], end: EndId) -> &'static str {
        let (work, exercise) = (&ctx.work, ctx.exercise());
        let here = work.end_location(end);
        let other = work.node(work.point_of(end.other()));
        let concerned = metal.iter().map(|it| it.index());
        let beside: Vec<usize> =
            concerned.filter(|it| exercise.terminals.rows()[*it].location == here || beyond.same(*it, other)).collect();
        let least = work.end_facts(end).size;
        if beside.is_empty() || !self.is_kept(ctx, &beside, least, None) {
            return "";
        }
        let circuits = self.circuits.get_or_insert_with(|| Groups::new(work));
        let own = circuit_of(ctx, circuits, end.conductor());
        if own.is_none() || self.is_kept(ctx, &beside, least, own) { "kept" } else { "kept-by-other" }
    }

    /// Whether conductors of a least size, of any circuit or of one and of none, earth all of these.
    fn is_kept(&mut self, ctx: &Context<'_>, metal: &[usize], least: CrossSection, own: Option<usize>) -> bool {
        let work = &ctx.work;
        let place = self.joined.iter().position(|it| it.0 == (least, own)).unwrap_or_else(|| {
            let is_own = |conductor: usize| match (own, &self.circuits) {
                (Some(own), Some(circuits)) => circuit_of(ctx, circuits, conductor).is_none_or(|it| it == own),
                _ => true,
            };
            let joined = work.joined(|it| match it {
                Join::Conductor(it) => {
                    let facts = work.end_facts(EndId::of(it)[0]);
                    facts.colour.is_protective() && facts.size >= least && is_own(it)
                }
                Join::Fixed(_) => true,
                _ => false,
            });
            self.joined.push(((least, own), joined));
            self.joined.len() - 1
        });
        let joined = &mut self.joined[place].1;
        metal.iter().all(|it| {
            let root = joined.root(*it);
            is_earthed(ctx, joined, root)
        })
    }
}

/// The group of circuits that the live cores of a conductor's cable belong to, if to any.
fn circuit_of(ctx: &Context<'_>, circuits: &Groups, conductor: usize) -> Option<usize> {
    let work = &ctx.work;
    let cable = work.cable_of(conductor)?;
    let cores = cable.first_conductor..cable.first_conductor + cable.kind.cores().len();
    let live = cores.flat_map(EndId::of).filter(|it| !work.end_facts(*it).colour.is_protective());
    live.into_iter().find_map(|it| circuits.of(work, work.point_of(it)))
}

/// Whether a made-up conductor is earthed at its other end, and all metal of the place without it: none relies on it.
pub(super) fn is_spare(ctx: &Context<'_>, groups: &mut Sets, metal: &[TerminalId], end: EndId) -> bool {
    let work = &ctx.work;
    let place = work.end_location(end);
    let mut earthed = |node: usize| {
        let root = groups.root(node);
        is_earthed(ctx, groups, root)
    };
    work.cable_of(end.conductor()).is_none()
        && earthed(work.node(work.point_of(end.other())))
        && metal.iter().filter(|it| ctx.exercise().terminals[**it].location == place).all(|it| earthed(it.index()))
}

fn is_earthed(ctx: &Context<'_>, groups: &mut Sets, root: usize) -> bool {
    ctx.exercise().earth_bars().any(|it| groups.root(it.index()) == root)
}

/// Moving an end to a terminal of its place where an earthed cpc is; or that cpc to the end, where the end is in an earth terminal and the cpc
/// strayed alone.
fn join_earth(ctx: &Context<'_>, groups: &mut Sets, end: EndId) -> Option<Edit> {
    let (work, exercise) = (&ctx.work, ctx.exercise());
    let earthed = ctx.exercise().terminals_at(work.end_location(end)).find(|terminal| {
        let root = groups.root(terminal.index());
        Some(*terminal) != work.terminal_of(end)
            && is_earthed(ctx, groups, root)
            && work.ends_in(*terminal).any(|it| work.end_facts(it).colour.is_protective())
    });
    let (earthed, own) = (earthed?, work.terminal_of(end)?);
    let comes_back = exercise.is_for_earth(own) && !exercise.is_for_earth(earthed) && work.room_in(own) > 0;
    let mut strayed = work.ends_in(earthed);
    match (strayed.next(), strayed.next()) {
        (Some(one), None) if comes_back => Some(Edit::Move(one, Some(own))),
        _ => Some(Edit::Move(end, Some(earthed))),
    }
}
