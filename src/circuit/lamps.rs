//! What the lamps do: now, as the work stands, or in one setting with everything on, in and fitted.
//!
//! For whoever draws. It solves and says; it judges nothing.

use super::{
    as_it_stands::is_dead,
    network::Conditions,
    settle::settle,
    survey::{Glow, LampRow, lamp_row},
};
use crate::work::{Point, Work};

/// What happens in one setting.
#[derive(Debug, Clone, PartialEq)]
pub struct SettingShown {
    /// Each lamp.
    pub lamps: Vec<LampRow>,
    /// For each conductor, whether an end of it is energised.
    pub live: Vec<bool>,
}

/// Every lamp as the work stands.
pub fn lamps_now(work: &Work) -> Vec<LampRow> {
    if is_dead(work) {
        return vec![LampRow { glow: Glow::Off, volts: 0.0 }; work.exercise().lamps.len()];
    }
    let settled = settle(work, Conditions::present(work));
    work.exercise().lamps.ids().map(|it| lamp_row(&settled, it)).collect()
}

/// What happens with the switches set so and everything on, in and fitted.
pub fn shown_at(work: &Work, positions: Vec<u8>) -> SettingShown {
    let exercise = work.exercise();
    let settled = settle(work, Conditions::complete(exercise, positions));
    let lamps = exercise.lamps.ids().map(|it| lamp_row(&settled, it)).collect();
    let live = (0..work.conductor_count())
        .map(|it| crate::exercise::EndId::of(it).into_iter().any(|end| settled.is_energised(work, point(work, end))))
        .collect();
    SettingShown { lamps, live }
}

fn point(work: &Work, end: crate::exercise::EndId) -> Point {
    work.point_of(end)
}
