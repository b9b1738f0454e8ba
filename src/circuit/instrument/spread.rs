//! What differs from place to place and from pair of points to pair of points, drawn from named streams.

use super::setting::{LeadState, Setting};
use crate::{
    exercise::{DeviceId, Exercise, Stream},
    trade::instrument::{
        LeadLength, Spread,
        continuity::{LEADS_OHMS, LONG_LEAD_OHMS},
        rcd,
    },
    work::{Point, Work},
};

/// The number of the streams' names: a change of what they are drawn for is a new number.
const STREAMS: u32 = 1;
/// Steps of a drawn share.
const STEPS: u32 = 20_000;

/// A number between 0 and 1 of that name.
fn share(exercise: &Exercise, name: &str) -> f64 {
    f64::from(Stream::new(STREAMS, &exercise.id, exercise.seed, name).below(STEPS + 1)) / f64::from(STEPS)
}

fn between((least, most): (f64, f64), share: f64) -> f64 {
    least + (most - least) * share
}

/// The supply's voltage at this place with nothing drawn: 225 to 250 V, inside the 230 V +10 % -6 % of the public supply.
pub fn supply_volts(exercise: &Exercise) -> f64 {
    between((225.0, 250.0), share(exercise, "instrument supply"))
}

/// Resistance of the leads, ohms; infinite when one is broken.
pub(super) fn leads_ohms(exercise: &Exercise, setting: &Setting) -> f64 {
    if setting.leads.state == LeadState::Broken {
        return f64::INFINITY;
    }
    let ohms = match setting.leads.length {
        LeadLength::Short => LEADS_OHMS,
        LeadLength::Long => LONG_LEAD_OHMS,
    };
    ohms * between((0.8, 1.2), share(exercise, "instrument leads"))
}

/// Insulation of a cable beside the usual: 0.8 to 1.6 times.
pub(super) fn insulation_times(exercise: &Exercise, cable: &str) -> f64 {
    between((0.8, 1.6), share(exercise, &format!("instrument insulation {cable}")))
}

/// At which share of its rated residual current a device opens.
pub(super) fn opens_at(exercise: &Exercise, device: DeviceId) -> f64 {
    between(rcd::OPENS_AT, share(exercise, &format!("instrument opens {}", exercise.devices[device].address)))
}

/// How long a device takes at just its own operating current, milliseconds.
pub(super) fn just_enough_ms(exercise: &Exercise, device: DeviceId) -> f64 {
    let name = format!("instrument takes {}", exercise.devices[device].address);
    between(rcd::JUST_ENOUGH_MS, share(exercise, &name))
}

/// A quantity as it is read: `true` and what the instrument adds between these points. The same whichever lead is where.
pub(super) fn stray(work: &Work, setting: &Setting, spread: Spread, [from, to]: [Point; 2], true_one: f64) -> f64 {
    if !true_one.is_finite() {
        return true_one;
    }
    let mut points = [from, to].map(|it| work.point_address(it));
    points.sort_unstable();
    let name = format!("instrument {} {}", setting.function.word(), points.join(" "));
    let strayed = 2.0 * share(work.exercise(), &name) - 1.0;
    true_one + strayed * (spread.share * true_one + spread.fixed)
}
