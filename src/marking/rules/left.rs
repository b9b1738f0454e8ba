//! `lock-left-on` and `lamp-left-out`: at hand-in the learner's own lock is off and every lamp is back in its holder (the charter of
//! marking; a test link left in is `link-left-in`). Told once the power has come on: until then both are as they should be. Switches
//! count as worked only with every device on and the lamp in, so a functional test that lacks nothing else is no
//! separate finding.

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
    if !is_told(ctx) {
        return;
    }
    let locks = locked(ctx).map(|it| (Code::LockLeftOn, Subject::Device(it)));
    let lamps = lamps_out(ctx).map(|it| (Code::LampLeftOut, Subject::Lamp(it)));
    found.extend(locks.chain(lamps).map(|(code, at)| Draft::new(code, at, Weight::Major)));
}

/// Whether the work is handed in with the power brought back to it.
fn is_told(ctx: &Context<'_>) -> bool {
    ctx.tally.handed_in && !ctx.tally.energised.is_empty()
}

/// Whether switches fail to count as worked only because of what was left behind.
pub(super) fn keeps_from_working(ctx: &Context<'_>) -> bool {
    let left = ctx.safety.settings_left(ctx.exercise());
    let is_out = |control: usize| {
        let lamp = ctx.exercise().controls[control].lamp;
        lamps_out(ctx).any(|it| it == lamp)
    };
    is_told(ctx) && (locked(ctx).next().is_some() || left.iter().all(|it| is_out(it.0)))
}

fn locked(ctx: &Context<'_>) -> impl Iterator<Item = DeviceId> {
    ctx.exercise().devices.ids().filter(|it| ctx.work.device_state(*it).locked)
}

fn lamps_out(ctx: &Context<'_>) -> impl Iterator<Item = LampId> {
    ctx.exercise().lamps.ids().filter(|it| !ctx.work.is_lamp_in(*it))
}
