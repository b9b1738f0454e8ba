//! Voltage lost in the cables between the board and each lamp.
//!
//! Every end counts as well made off and every screw as tight, so that what is lost is the cables' own; a joint that is not has
//! findings of its own.

use super::{
    network::{Conditions, LINE_BAR, NEUTRAL_BAR},
    settle::settle,
    survey::{Glow, lamp_row},
};
use crate::{
    exercise::LampId,
    work::{Edit, Work},
};

/// The most that is lost on the way to a lamp.
#[derive(Debug, Clone, PartialEq)]
pub struct Lost {
    /// The lamp.
    pub lamp: LampId,
    /// Volts.
    pub volts: f64,
    /// The setting in which it is most.
    pub positions: Vec<u8>,
}

/// For each lamp that lights in one of some settings what is lost on the way, everything on and conductors at 70 °C.
pub fn lost_on_the_way(work: &Work, settings: &[Vec<u8>]) -> Vec<Lost> {
    let mut made = work.clone();
    for it in work.exercise().terminals.ids() {
        made.edit(&Edit::Tighten(it));
    }
    for (end, prep) in work.ends().filter_map(|it| Some((it, work.well_made(it)?))) {
        made.edit(&Edit::Prepare(end, prep));
    }
    let mut most: Vec<Lost> = Vec::new();
    for positions in settings {
        let settled = settle(&made, Conditions::complete(made.exercise(), positions.clone()));
        let sent = settled.solution.volts(LINE_BAR) - settled.solution.volts(NEUTRAL_BAR);
        for lamp in made.exercise().lamps.ids() {
            let row = lamp_row(&settled, lamp);
            if row.glow != Glow::Lit {
                continue;
            }
            let here = Lost { lamp, volts: sent.abs() - row.volts, positions: positions.clone() };
            match most.iter_mut().find(|it| it.lamp == lamp) {
                Some(it) if it.volts >= here.volts => {}
                Some(it) => *it = here,
                None => most.push(here),
            }
        }
    }
    most
}
