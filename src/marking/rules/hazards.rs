//! The hazards that the survey of every case finds: `short-line-neutral`, `short-line-earth`, `residual-trip`, `overload`,
//! `metal-energised`, `lampholder-live`, `loose-end-live`, `no-disconnection`. All critical.

use crate::{
    circuit::HazardKind,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Repair, Seen},
    },
};

use super::loose_end::somewhere_to_park;

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    for hazard in &ctx.survey.hazards {
        let code = match hazard.kind {
            HazardKind::ShortLineNeutral => Code::ShortLineNeutral,
            HazardKind::Overload => Code::Overload,
            HazardKind::ShortLineEarth => Code::ShortLineEarth,
            HazardKind::ResidualCurrent => Code::ResidualTrip,
            HazardKind::MetalEnergised => Code::MetalEnergised,
            HazardKind::LampholderLive => Code::LampholderLive,
            HazardKind::LooseEndLive => Code::LooseEndLive,
            HazardKind::NoDisconnection => Code::NoDisconnection,
        };
        let fallback = match (hazard.kind, hazard.at.end(&ctx.work)) {
            (HazardKind::LooseEndLive, Some(end)) => somewhere_to_park(ctx, end),
            _ => Vec::new(),
        };
        let draft = Draft::new(code, hazard.at, Weight::Critical).seen(Seen::InCase(hazard.witness.clone()));
        found.push(Draft { repair: Repair::FewestMoves(fallback), ..draft });
    }
}
