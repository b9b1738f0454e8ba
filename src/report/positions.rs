//! Where the current goes in every position of the switches: a line for each, no more of them than anybody reads.

use crate::{
    circuit::{Conditions, Witness, flow, settings_to_try},
    wording::{Wording, way_in_short, witness},
    work::Work,
};

/// No table has more lines than this.
const MOST: usize = 16;

/// One position of all switches.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PositionLine {
    /// A position for each switch.
    pub positions: Vec<u8>,
    /// How the switches stand, in words.
    pub stands: String,
    /// Where the current goes, in a sentence or two.
    pub told: String,
}

/// All positions, or the first of them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PositionTable {
    /// In counting order, the last switch fastest.
    pub lines: Vec<PositionLine>,
    /// How many are not listed.
    pub left_out: usize,
}

impl PositionTable {
    /// Of a work with every device on, every lamp in and every cover fitted.
    pub fn of(wording: &Wording, work: &Work) -> Self {
        let exercise = work.exercise();
        let all = settings_to_try(work);
        let left_out = all.len().saturating_sub(MOST);
        let line = |positions: Vec<u8>| {
            let case = Witness { positions: positions.clone(), ..Witness::default() };
            let found = flow(work, Conditions::complete(exercise, positions.clone()));
            let (stands, told) = (witness(wording, exercise, &case), way_in_short(wording, work, &found));
            PositionLine { positions, stands, told }
        };
        Self { lines: all.into_iter().take(MOST).map(line).collect(), left_out }
    }
}
