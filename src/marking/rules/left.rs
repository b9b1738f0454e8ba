//! `lock-left-on` and `lamp-left-out`: at hand-in the learner's own lock is off and every lamp is back in its holder (the charter of
//! marking; a test link left in is `link-left-in`). A light that is off for nothing else was not worked for nothing else: the
//! functional test that lacks it alone is no finding beside these.

use crate::{
    exercise::{DeviceId, LampId},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::Subject,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    if !ctx.tally.handed_in {
        return;
    }
    let locks = locked(ctx).map(|it| (Code::LockLeftOn, Subject::Device(it)));
    let lamps = lamps_out(ctx).map(|it| (Code::LampLeftOut, Subject::Lamp(it)));
    found.extend(locks.chain(lamps).map(|(code, at)| Draft::new(code, at, Weight::Major)));
}

/// Whether every light that is still to be worked with its switches is off for what was left behind.
pub(super) fn keeps_from_working(ctx: &Context<'_>) -> bool {
    let left = ctx.safety.settings_left(ctx.exercise());
    ctx.tally.handed_in
        && !left.is_empty()
        && left.iter().all(|(control, _)| {
            let lamp = ctx.exercise().controls[*control].lamp;
            let testing = ctx.safety.testing();
            lamps_out(ctx).any(|it| it == lamp)
                || testing.circuit_of(*control).is_some_and(|it| locked(ctx).any(|locked| locked == it))
        })
}

fn locked(ctx: &Context<'_>) -> impl Iterator<Item = DeviceId> {
    let devices = ctx.exercise().devices.len() as u16;
    (0..devices).map(DeviceId).filter(|it| ctx.work.device_state(*it).locked)
}

fn lamps_out(ctx: &Context<'_>) -> impl Iterator<Item = LampId> {
    let lamps = ctx.exercise().lamps.len() as u16;
    (0..lamps).map(LampId).filter(|it| !ctx.work.is_lamp_in(*it))
}
