//! `fault-unreported`, `indicator-unreported`, `energised-past-fault`: what was wrong before the learner came costs
//! nothing by itself, but somebody must be told.
//!
//! A circuit chart that gives a circuit to the wrong device gets the wrong one locked off by whoever comes next. An indicator that
//! failed is soon exchanged for another, but the next person will take it again unless somebody is told. Dangerous
//! wiring that the power comes on past, untold, is critical.

use crate::{
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    work::{Fault, Subject},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let exercise = ctx.exercise();
    if let Some(board) = exercise.locations.ids().find(|it| exercise.is_board(*it)) {
        let told = |what| ctx.tally.is_reported(what, board);
        let at = Subject::Location(board);
        let mut add = |code| found.push(Draft::new(code, at, Weight::Major));
        if !exercise.kit.chart.is_right() && !told(Fault::Chart) {
            add(Code::FaultUnreported);
        }
        if ctx.safety.has_indicator_failed() && !told(Fault::Indicator) {
            add(Code::IndicatorUnreported);
        }
    }
    for (at, action) in ctx.before.passed() {
        let draft = Draft::new(Code::EnergisedPastFault, at, Weight::Critical);
        found.push(draft.seen(Seen::InAction(action)));
    }
}
