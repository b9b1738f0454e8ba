//! `cable-unchosen`, `cores-few`, `cable-thin`, `volt-drop`: the cable that the learner chose for a run has the cores that its
//! lights need, carries what its device lets through (BS 7671 433.1.1, number from memory) and loses no more than 3 % on the way
//! to a lamp (525 and Appendix 4: guidance, which an exercise that asks for a choice goes by). That a first fault is cut off in
//! time is `no-disconnection`; a size that a terminal does not take cannot be connected at all.

use crate::{
    circuit::{CoresNeeded, Joined, Witness, cores_needed, lost_on_the_way},
    exercise::{EndId, LampId},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    trade::{cable::CrossSection, carrying::LIGHTING_DROP_VOLTS, colour::Colour},
    work::{Edit, Point, Subject, Work},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    for index in 0..ctx.exercise().runs.len() {
        let Some(chosen) = work.chosen().get(index).copied().flatten() else {
            found.push(Draft::new(Code::CableUnchosen, Subject::Run(index), Weight::Major));
            continue;
        };
        if needed(work, index).lost_with(chosen.offer.kind.insulated()).next().is_some() {
            found.push(Draft::new(Code::CoresFew, Subject::Run(index), Weight::Major));
        }
        if let Some(amps) = fed_at(ctx, index).or_else(|| least_rating(ctx))
            && !carries(work, index, chosen.offer.live, amps)
        {
            let draft = Draft::new(Code::CableThin, Subject::Run(index), Weight::Major);
            let wide = thicker(work, index).find(|it| carries(work, index, *it, amps));
            found.push(match wide {
                Some(it) => draft.mended_by(Edit::Refit(index, it)),
                None => draft,
            });
        }
    }
    if let Some(draft) = volt_drop(ctx) {
        found.push(draft);
    }
}

/// The least rating among the devices of the learner's circuits, amps: before a cable is joined to any, it has to carry that at least.
fn least_rating(ctx: &Context<'_>) -> Option<f64> {
    let exercise = ctx.exercise();
    let own = exercise.learners_circuits().into_iter().map(|it| exercise.devices[it].kind.rated_amps());
    own.reduce(f64::min)
}

/// What a run needs, as drawn.
fn needed(work: &Work, run: usize) -> CoresNeeded {
    cores_needed(work.exercise(), run)
}

/// Lights that are lost because a run has too few cores.
pub(in crate::marking) fn lost_by(work: &Work, run: usize) -> Vec<LampId> {
    let chosen = work.chosen().get(run).copied().flatten();
    chosen.map_or_else(Vec::new, |it| needed(work, run).lost_with(it.offer.kind.insulated()).collect())
}

/// The largest rating among the devices that come to feed a core of the cable in a run, amps.
pub(super) fn fed_at(ctx: &Context<'_>, run: usize) -> Option<f64> {
    let (work, exercise) = (&ctx.work, ctx.exercise());
    let cable = exercise.runs[run].cable?;
    let cores: Vec<Point> = (0..exercise.conductors.len())
        .filter(|it| exercise.conductors[*it].cable == cable && !exercise.conductors[*it].colour.is_protective())
        .map(|it| work.point_of(EndId::of(it)[0]))
        .collect();
    let devices: Vec<_> = exercise.devices.iter().filter(|it| it.kind.curve().is_some()).collect();
    let mut most: Option<f64> = None;
    for setting in &ctx.settings {
        let mut joined = Joined::with(work, setting, |it: Colour| !it.is_protective());
        for it in &devices {
            if cores.iter().any(|core| joined.same(work, *core, Point::Terminal(it.line))) {
                most = Some(most.map_or(it.kind.rated_amps(), |most| most.max(it.kind.rated_amps())));
            }
        }
    }
    most
}

/// Whether a size carries this current, amps, as a run is laid.
pub(super) fn carries(work: &Work, run: usize, size: CrossSection, amps: f64) -> bool {
    work.exercise().runs[run].laid.amps(size).is_none_or(|it| it >= amps)
}

/// Sizes above the one chosen that its kind is made in, the smallest first.
fn thicker(work: &Work, run: usize) -> impl Iterator<Item = CrossSection> + use<> {
    let chosen = work.chosen().get(run).copied().flatten();
    let sizes = chosen.map_or(&[][..], |it| it.offer.kind.sizes());
    sizes.iter().map(|it| it.0).filter(move |it| chosen.is_some_and(|chosen| *it > chosen.offer.live))
}

/// The most that is lost on the way to any lamp, with another size in a run, volts, and where; `None` where no lamp lights.
pub(super) fn lost(ctx: &Context<'_>, with: Option<(usize, CrossSection)>) -> Option<crate::circuit::Lost> {
    let mut work = ctx.work.clone();
    if let Some((run, size)) = with {
        work.edit(&Edit::Refit(run, size));
    }
    lost_on_the_way(&work, &ctx.settings).into_iter().max_by(|a, b| a.volts.total_cmp(&b.volts))
}

/// Where too much is lost and a chosen cable could mend it: the cable that would do most for it.
fn volt_drop(ctx: &Context<'_>) -> Option<Draft> {
    let runs = &ctx.exercise().runs;
    if runs.iter().all(|it| it.cable.is_none()) {
        return None;
    }
    let now = lost(ctx, None).filter(|it| it.volts > LIGHTING_DROP_VOLTS)?;
    let volts_with = |run: usize, size| lost(ctx, Some((run, size))).map_or(f64::INFINITY, |it| it.volts);
    let best = |run: usize| thicker(&ctx.work, run).last().map_or(f64::INFINITY, |it| volts_with(run, it));
    let (run, volts) = (0..runs.len()).map(|it| (it, best(it))).min_by(|a, b| a.1.total_cmp(&b.1))?;
    let witness = Witness { positions: now.positions.clone(), ..Witness::default() };
    let draft = Draft::new(Code::VoltDrop, Subject::Run(run), Weight::Major).seen(Seen::InCase(witness));
    let mends = thicker(&ctx.work, run).find(|it| volts_with(run, *it) <= LIGHTING_DROP_VOLTS);
    (volts < now.volts).then(|| match mends {
        Some(it) => draft.mended_by(Edit::Refit(run, it)),
        None => draft,
    })
}
