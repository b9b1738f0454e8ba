//! `fault-unreported`: what was wrong before the learner came costs nothing by being there, and somebody is told. A circuit
//! chart that gives a circuit to the wrong device gets the wrong one locked off by whoever comes next.

use crate::{
    exercise::LocationKind,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::Fault,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let exercise = ctx.exercise();
    let board = exercise.locations.iter().find(|it| it.kind == LocationKind::Board);
    if let Some(board) = board.filter(|_| !exercise.kit.chart.is_right())
        && !ctx.safety.testing().is_reported(Fault::Chart)
    {
        found.push(Draft::new(Code::FaultUnreported, board.id.clone(), Weight::Major));
    }
}
