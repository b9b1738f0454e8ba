//! `rocker-inverted`: a light with one switch is on with the rocker up. Habit of the trade here, no source: advice.

use crate::{
    circuit::Glow,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::Subject,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let exercise = ctx.exercise();
    for control in exercise.controls.iter().filter(|it| it.switches.len() == 1) {
        let switch = control.switches[0];
        let it = &exercise.switches[switch];
        let learners = it.terminals.iter().flat_map(|it| ctx.work.ends_in(*it)).any(|it| !ctx.work.is_undisturbed(it));
        let mut rows = ctx.survey.rows.iter();
        let inverted = rows.all(|row| {
            let down = it.way.is_down(usize::from(row.positions[switch.index()]));
            (row.lamps[control.lamp.index()].glow == Glow::Lit) != down
        });
        if inverted && learners {
            found.push(Draft::new(Code::RockerInverted, Subject::Switch(switch), Weight::Advice));
        }
    }
}
